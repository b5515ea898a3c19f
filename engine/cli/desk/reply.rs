//! What goes back to the page, and how it may be used there.

use http_body_util::Full;
use hyper::body::Bytes;
use hyper::header::{CONTENT_TYPE, HeaderValue};
use hyper::{Response, StatusCode};
use serde::Serialize;

use super::guard::Refused;
use super::told::told;

/// An answer.
pub type Reply = Response<Full<Bytes>>;

/// What every answer says of itself: nothing but the desk's own files may be loaded, run or asked by the page, no other
/// page may hold it, nothing is kept, and its address goes nowhere.
const HEADERS: [(&str, &str); 7] = [
    (
        "content-security-policy",
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src data:; connect-src 'self'; base-uri 'none'; \
         form-action 'none'; frame-ancestors 'none'",
    ),
    ("x-content-type-options", "nosniff"),
    ("x-frame-options", "DENY"),
    ("referrer-policy", "no-referrer"),
    ("cache-control", "no-store"),
    ("cross-origin-opener-policy", "same-origin"),
    ("cross-origin-resource-policy", "same-origin"),
];

fn reply(status: StatusCode, kind: &'static str, body: impl Into<Bytes>) -> Reply {
    let mut reply = Response::new(Full::new(body.into()));
    *reply.status_mut() = status;
    let headers = reply.headers_mut();
    headers.insert(CONTENT_TYPE, HeaderValue::from_static(kind));
    for (name, value) in HEADERS {
        headers.insert(name, HeaderValue::from_static(value));
    }
    reply
}

/// A part of the page.
pub fn part(kind: &'static str, text: String) -> Reply {
    reply(StatusCode::OK, kind, text)
}

/// Plain words.
pub fn words(status: StatusCode, text: &'static str) -> Reply {
    reply(status, "text/plain; charset=utf-8", text)
}

/// A request that is not let in.
pub fn refused(why: Refused) -> Reply {
    words(StatusCode::FORBIDDEN, why.words())
}

/// A document.
pub fn json(document: &impl Serialize) -> Reply {
    with_status(StatusCode::OK, document)
}

/// A document with a status of its own.
pub fn with_status(status: StatusCode, document: &impl Serialize) -> Reply {
    match serde_json::to_vec(document) {
        Ok(body) => reply(status, "application/json", body),
        Err(_) => words(StatusCode::INTERNAL_SERVER_ERROR, "This cannot be told.\n"),
    }
}

/// What is wrong with what the page sent, as the command line would tell it.
pub fn trouble(error: &anyhow::Error) -> Reply {
    trouble_told(told(error))
}

/// The same, told already.
pub fn trouble_told(told: String) -> Reply {
    #[derive(Serialize)]
    struct Trouble {
        trouble: String,
    }
    with_status(StatusCode::UNPROCESSABLE_ENTITY, &Trouble { trouble: told })
}

/// There will be no answer: a newer question was asked, or the course is not set up.
pub fn dropped(waiting: bool) -> Reply {
    #[derive(Serialize)]
    struct Dropped {
        dropped: bool,
        waiting: bool,
    }
    with_status(
        StatusCode::CONFLICT,
        &Dropped {
            dropped: true,
            waiting,
        },
    )
}
