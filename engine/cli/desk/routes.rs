//! What the page can ask, and who answers it.

use std::collections::BTreeMap;
use std::sync::Arc;
use std::time::Duration;

use hyper::body::Bytes;
use hyper::{Method, StatusCode, Uri};
use serde::Serialize;
use tokio::time::timeout;

use costcard::show::desk as show;

use super::answers::{self, Answer, Depth, Question};
use super::guard::Guard;
use super::lesson::Desk;
use super::reply::{self, Reply};
use super::{actions, save, state};

/// The longest bodies: of a file, of a question, of anything else.
const LONGEST_FILE: usize = super::folder::LONGEST_BYTES as usize;
const LONGEST_QUESTION: usize = 64 * 1024;
/// The page's own question for news waits so long for them; while work runs it hears of that instead.
const LONG_WAIT: Duration = Duration::from_secs(20);
const SHORT_WAIT: Duration = Duration::from_millis(600);

/// The names and values behind the `?` of an address.
pub type Fields = BTreeMap<String, String>;

/// What is asked.
#[derive(Debug)]
pub enum Route {
    /// The page.
    Page,
    /// Its style.
    Style,
    /// Its script.
    Script,
    /// The lesson as it stands, once it is newer than the page knows.
    Lesson(Fields),
    /// Files that can be chosen.
    Files,
    /// A player, a course or shots from the folder.
    Choose(Fields),
    /// The same from a file that is sent.
    Drop(Fields),
    /// The goal.
    Goal(Fields),
    /// Turf and wind.
    Day(Fields),
    /// What changes are worth.
    Try,
    /// Writing the report.
    Save(Fields),
}

impl Route {
    /// The longest body it takes, bytes.
    pub const fn longest_body(&self) -> usize {
        match self {
            Self::Drop(_) => LONGEST_FILE,
            Self::Try => LONGEST_QUESTION,
            _ => 0,
        }
    }
}

/// What a request asks; none where it is nothing the desk knows.
pub fn find(method: &Method, uri: &Uri, guard: &Guard) -> Option<Route> {
    if let Some((_, part)) = guard.part_of_page(uri.path()) {
        return match (method, part) {
            (&Method::GET, "") => Some(Route::Page),
            (&Method::GET, "desk.css") => Some(Route::Style),
            (&Method::GET, "desk.js") => Some(Route::Script),
            _ => None,
        };
    }
    let fields = form_urlencoded::parse(uri.query().unwrap_or_default().as_bytes());
    let fields = fields.into_owned().collect();
    match (method, uri.path()) {
        (&Method::GET, "/api/lesson") => Some(Route::Lesson(fields)),
        (&Method::GET, "/api/files") => Some(Route::Files),
        (&Method::POST, "/api/choose") => Some(Route::Choose(fields)),
        (&Method::POST, "/api/drop") => Some(Route::Drop(fields)),
        (&Method::POST, "/api/goal") => Some(Route::Goal(fields)),
        (&Method::POST, "/api/day") => Some(Route::Day(fields)),
        (&Method::POST, "/api/try") => Some(Route::Try),
        (&Method::POST, "/api/report") => Some(Route::Save(fields)),
        _ => None,
    }
}

/// Answers a request.
pub async fn answer(route: Route, body: Bytes, desk: Arc<Desk>) -> Reply {
    match route {
        Route::Page => reply::part("text/html; charset=utf-8", show::page(desk.folder.path())),
        Route::Style => reply::part("text/css; charset=utf-8", show::style()),
        Route::Script => reply::part("text/javascript; charset=utf-8", show::script()),
        Route::Lesson(fields) => lesson(&desk, &fields).await,
        Route::Files => aside(move || Ok(reply::json(&state::files(&desk)))).await,
        Route::Choose(fields) => acted(move || actions::choose(&desk, &fields)).await,
        Route::Drop(fields) => acted(move || actions::dropped(&desk, &fields, &body)).await,
        Route::Goal(fields) => acted(move || actions::goal(&desk, &fields)).await,
        Route::Day(fields) => acted(move || actions::day(&desk, &fields)).await,
        Route::Try => worth(&desk, &body).await,
        Route::Save(fields) => {
            let name = fields.get("name").cloned().unwrap_or_default();
            let over = fields.contains_key("over");
            acted(move || save::report(&desk, &name, over)).await
        }
    }
}

/// Work that reads files or fits shots, away from the thread that listens.
async fn aside(work: impl FnOnce() -> anyhow::Result<Reply> + Send + 'static) -> Reply {
    match tokio::task::spawn_blocking(work).await {
        Ok(Ok(reply)) => reply,
        Ok(Err(error)) => reply::trouble(&error),
        Err(_) => reply::words(StatusCode::INTERNAL_SERVER_ERROR, "This went wrong.\n"),
    }
}

/// Something done in that way, and what became of it.
async fn acted<D: Serialize>(work: impl FnOnce() -> anyhow::Result<D> + Send + 'static) -> Reply {
    aside(move || Ok(reply::json(&work()?))).await
}

/// The lesson, at once where it is newer than the page knows, otherwise when it changes or a while has gone by.
async fn lesson(desk: &Arc<Desk>, fields: &Fields) -> Reply {
    let known = fields.get("since").and_then(|since| since.parse().ok());
    let known: u64 = known.unwrap_or(0);
    let mut changes = desk.watch();
    if desk.version() <= known {
        let wait = if state::is_busy(desk) {
            SHORT_WAIT
        } else {
            LONG_WAIT
        };
        let _ = timeout(wait, changes.wait_for(|version| *version > known)).await;
    }
    let desk = Arc::clone(desk);
    aside(move || Ok(reply::json(&state::state(&desk, known)))).await
}

/// Puts a question into its lane and waits for the answer, or for there to be none.
async fn worth(desk: &Desk, body: &[u8]) -> Reply {
    let Ok(question) = serde_json::from_slice::<Question>(body) else {
        let text = String::from_utf8_lossy(body);
        return reply::trouble(&answers::no_question(&text));
    };
    let standing = desk.lesson().standing.clone();
    let Some(standing) = standing else {
        return reply::dropped(true);
    };
    let lane = match question.depth {
        Depth::Quick => &standing.quick,
        Depth::Score => &standing.score,
        Depth::All => &standing.all,
    };
    let (tab, number) = (question.tab.clone(), question.number);
    match lane.ask(&tab, number, question).await {
        Ok(Answer::Worth(worth)) => reply::json(&worth),
        Ok(Answer::Trouble(told)) => reply::trouble_told(told),
        Err(_) => reply::dropped(false),
    }
}
