//! The report, written into the folder by the same writer as `report`.

use std::path::Path;

use serde::Serialize;

use costcard::show::report::{Report, Visited, report as page};

use super::lesson::{Carded, Desk};
use crate::cli::usage::Usage;
use crate::cli::written;

/// The longest name of a file, bytes.
const LONGEST_NAME: usize = 120;

/// What was written.
#[derive(Debug, Serialize)]
pub struct Saved {
    path: String,
    bytes: usize,
}

/// Writes the report of the lesson under a name in the folder, whole or not at all.
pub fn report(desk: &Desk, name: &str, may_overwrite: bool) -> anyhow::Result<Saved> {
    check_name(name)?;
    let path = Path::new(name);
    written::check_free(path, may_overwrite).map_err(|taken| in_words_of_the_page(taken.into()))?;
    let html = {
        let lesson = desk.lesson();
        let is_new = |card: &&std::sync::Arc<Carded>| {
            card.cast.number == lesson.set_ups && lesson.carding.is_none()
        };
        let card = lesson.card.as_ref().filter(is_new).cloned();
        drop(lesson);
        html(desk, &*card.ok_or_else(not_yet)?)
    };
    written::write(path, &html, may_overwrite).map_err(in_words_of_the_page)?;
    Ok(Saved {
        path: desk.folder.path().join(name).display().to_string(),
        bytes: html.len(),
    })
}

/// The page of a card, byte for byte as `report` writes it.
fn html(desk: &Desk, carded: &Carded) -> String {
    let visited = Visited {
        course: &carded.cast.course,
        rules: carded.cast.rules.files(),
        card: &carded.card,
        holes: &carded.holes,
    };
    page(&Report {
        player: &carded.cast.player,
        goal: &carded.goal,
        keep_speed: false,
        asked: None,
        courses: &[visited],
        clubs: &carded.clubs,
        earlier: None,
        reading: desk.reading,
    })
}

/// A plain name of a page: no way leads from it to another folder.
fn check_name(name: &str) -> Result<(), Usage> {
    let is_plain = !name.starts_with('.')
        && name.len() <= LONGEST_NAME
        && !name.contains(|c: char| c.is_control() || matches!(c, '/' | '\\' | ':'));
    let end = Path::new(name).extension().and_then(|end| end.to_str());
    let is_page = end.is_some_and(|end| matches!(end.to_lowercase().as_str(), "html" | "htm"));
    if is_plain && is_page {
        return Ok(());
    }
    Err(Usage {
        message: format!("`{name}` is no name of a page in this folder"),
        hint: "write a plain name that ends with .html, as rowan.html".to_owned(),
    })
}

fn not_yet() -> Usage {
    Usage {
        message: "the cost card is not worked out yet".to_owned(),
        hint: "save the report once it is there".to_owned(),
    }
}

/// What the command line hints at is a flag; here it is a box to tick.
fn in_words_of_the_page(error: anyhow::Error) -> anyhow::Error {
    match error.downcast::<Usage>() {
        Ok(usage) => Usage {
            hint: usage
                .hint
                .replace("with `--force`", "by ticking `Write over`"),
            ..usage
        }
        .into(),
        Err(error) => error,
    }
}
