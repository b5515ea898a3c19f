//! Listens on this machine's own address and lets the page in, with limits of time and size on everything.

use std::convert::Infallible;
use std::sync::Arc;
use std::time::Duration;

use http_body_util::{BodyExt, Limited};
use hyper::body::{Bytes, Incoming};
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper::{Request, StatusCode};
use hyper_util::rt::{TokioIo, TokioTimer};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::Semaphore;
use tokio::time::timeout;

use super::guard::Guard;
use super::lesson::Desk;
use super::reply::{self, Reply};
use super::routes;

/// Connections at once; a browser opens six.
const MOST_CONNECTIONS: usize = 48;
/// A request's head must be here within this time, and be no longer than this.
const HEAD_TIME: Duration = Duration::from_secs(5);
const HEAD_BYTES: usize = 16 * 1024;
/// The body must be here within this time.
const BODY_TIME: Duration = Duration::from_secs(20);
/// The answer must be found within this time.
const ANSWER_TIME: Duration = Duration::from_secs(180);
/// No connection lasts longer: a browser opens another.
const CONNECTION_TIME: Duration = Duration::from_secs(900);

/// Serves until Ctrl-C.
pub fn serve(desk: Arc<Desk>, guard: Guard, listener: std::net::TcpListener) -> anyhow::Result<()> {
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build()?;
    let ended = runtime.block_on(async {
        listener.set_nonblocking(true)?;
        let listener = TcpListener::from_std(listener)?;
        tokio::spawn(accept(listener, desk, Arc::new(guard)));
        tokio::signal::ctrl_c().await?;
        Ok(())
    });
    // What is still being worked out is asked for no more.
    runtime.shutdown_background();
    ended
}

async fn accept(listener: TcpListener, desk: Arc<Desk>, guard: Arc<Guard>) {
    let places = Arc::new(Semaphore::new(MOST_CONNECTIONS));
    loop {
        let Ok(place) = Arc::clone(&places).acquire_owned().await else {
            return;
        };
        let Ok((stream, _)) = listener.accept().await else {
            // Out of handles, most likely: the next may fare better.
            tokio::time::sleep(Duration::from_millis(50)).await;
            continue;
        };
        let (desk, guard) = (Arc::clone(&desk), Arc::clone(&guard));
        tokio::spawn(async move {
            let _ = timeout(CONNECTION_TIME, connection(stream, desk, guard)).await;
            drop(place);
        });
    }
}

async fn connection(stream: TcpStream, desk: Arc<Desk>, guard: Arc<Guard>) {
    let service = service_fn(move |request| {
        let (desk, guard) = (Arc::clone(&desk), Arc::clone(&guard));
        async move { Ok::<_, Infallible>(answer(request, desk, &guard).await) }
    });
    // A connection that breaks off is nobody's fault.
    let _ = http1::Builder::new()
        .timer(TokioTimer::new())
        .header_read_timeout(HEAD_TIME)
        .max_buf_size(HEAD_BYTES)
        .serve_connection(TokioIo::new(stream), service)
        .await;
}

async fn answer(request: Request<Incoming>, desk: Arc<Desk>, guard: &Guard) -> Reply {
    if let Err(why) = guard.check(&request) {
        return reply::refused(why);
    }
    let Some(route) = routes::find(request.method(), request.uri(), guard) else {
        return reply::words(StatusCode::NOT_FOUND, "There is no such page.\n");
    };
    let body = match body(request.into_body(), route.longest_body()).await {
        Ok(body) => body,
        Err(reply) => return *reply,
    };
    match timeout(ANSWER_TIME, routes::answer(route, body, desk)).await {
        Ok(reply) => reply,
        Err(_) => reply::words(StatusCode::GATEWAY_TIMEOUT, "This took too long.\n"),
    }
}

/// The body of a request, if it is short enough and comes soon enough.
async fn body(body: Incoming, longest: usize) -> Result<Bytes, Box<Reply>> {
    use hyper::body::Body as _;
    let refused = |status, words| Box::new(reply::words(status, words));
    let too_long = || refused(StatusCode::PAYLOAD_TOO_LARGE, "This is too long.\n");
    if body.size_hint().lower() > longest as u64 {
        return Err(too_long());
    }
    match timeout(BODY_TIME, Limited::new(body, longest).collect()).await {
        Ok(Ok(body)) => Ok(body.to_bytes()),
        Ok(Err(_)) => Err(too_long()),
        Err(_) => Err(refused(
            StatusCode::REQUEST_TIMEOUT,
            "This came too slowly.\n",
        )),
    }
}
