//! `draw`: pictures of courses, holes and players.

mod of_course;
mod of_player;
mod png;

use std::path::Path;

use serde::Serialize;

use costcard::course;
use costcard::files::Source;
use costcard::player::Golfer;
use costcard::show::clubs::with_article;
use costcard::show::draw::Picture;

use super::args::{Common, DrawArgs, What};
use super::kind::Kind;
use super::usage::Usage;
use super::{load, output, written};

/// A picture, and what it shows.
struct Drawn {
    picture: Picture,
    what: What,
    kinds: Vec<&'static str>,
}

/// What was written, for other programs.
#[derive(Debug, Serialize)]
struct Document<'a> {
    path: String,
    format: &'static str,
    what: &'static str,
    title: &'a str,
    width_px: u32,
    height_px: u32,
    kinds: &'a [&'static str],
}

/// SVG or PNG.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Format {
    Svg,
    Png,
}

pub fn run(args: &DrawArgs, common: &Common) -> anyhow::Result<()> {
    let format = format(&args.out)?;
    written::check_free(&args.out, args.force)?;
    let drawn = if is_course(&args.file)? {
        of_course::drawn(args, common)?
    } else {
        of_player::drawn(args, common)?
    };
    let Drawn {
        picture,
        what,
        kinds,
    } = drawn;
    let (width_px, height_px) = match format {
        Format::Svg => {
            written::write(&args.out, &picture.svg, args.force)?;
            (
                picture.width_px.round() as u32,
                picture.height_px.round() as u32,
            )
        }
        Format::Png => {
            let png = png::rendered(&picture.svg, png::fonts())?;
            written::write(&args.out, &png.bytes, args.force)?;
            (png.width_px, png.height_px)
        }
    };
    let document = Document {
        path: args.out.display().to_string(),
        format: if format == Format::Svg { "svg" } else { "png" },
        what: name(what),
        title: &picture.title,
        width_px,
        height_px,
        kinds: &kinds,
    };
    if common.json {
        return output::print_json(&document);
    }
    output::print(&format!(
        "Written: {}, {width_px} by {height_px} pixels. {}.\n",
        document.path, document.title
    ))
}

const fn name(what: What) -> &'static str {
    match what {
        What::Course => "course",
        What::Hole => "hole",
        What::Strokes => "strokes",
        What::Patterns => "patterns",
        What::Flight => "flight",
        What::Hold => "hold",
    }
}

fn format(out: &Path) -> Result<Format, Usage> {
    let end = out
        .extension()
        .and_then(|end| end.to_str())
        .map(str::to_lowercase);
    match end.as_deref() {
        Some("svg") => Ok(Format::Svg),
        Some("png") => Ok(Format::Png),
        _ => Err(Usage {
            message: format!("`{}` does not say what to write", out.display()),
            hint: "end its name with .svg or .png".to_owned(),
        }),
    }
}

/// Whether a file is a course; else it is taken for a player, or what stands for one.
fn is_course(file: &str) -> anyhow::Result<bool> {
    if let Some(name) = file.strip_prefix(load::DEMO) {
        if course::import::embedded::map_names().contains(&name) {
            return Err(map(file).into());
        }
        return Ok(course::embedded::course_names().contains(&name));
    }
    let path = Path::new(file);
    if is_map(path) {
        return Err(map(file).into());
    }
    // A file that cannot be read is told where it is read in full; one that is missing may still be a demo's name.
    let is_course = match Source::read(path) {
        Ok(source) => Kind::of(&source) == Some(Kind::Course),
        Err(_) => course::embedded::course_names().contains(&file),
    };
    Ok(is_course)
}

/// Whether the name of a file is that of a map.
fn is_map(path: &Path) -> bool {
    let end = path
        .extension()
        .and_then(|end| end.to_str())
        .map(str::to_lowercase);
    matches!(end.as_deref(), Some("osm" | "geojson" | "json" | "xml")) && path.exists()
}

fn map(file: &str) -> Usage {
    Usage {
        message: format!("`{file}` is a map, not a course"),
        hint: format!("make a course of it first: `costcard import {file} --out course.toml`"),
    }
}

/// How a player is named in a picture: by name, a level by what it is.
fn called(text: &str, player: &Golfer) -> String {
    let name = &player.name;
    if !text.starts_with(load::LEVEL) {
        return name.clone();
    }
    with_article(name)
}

/// A flag that does not go with what is drawn.
fn odd(message: &str, hint: &str) -> anyhow::Error {
    Usage {
        message: message.to_owned(),
        hint: hint.to_owned(),
    }
    .into()
}
