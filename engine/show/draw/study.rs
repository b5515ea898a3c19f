//! What a study comes to: players by what they meet, which part to work on first there, and how many strokes it would
//! save.

use crate::show::reading::{index, number};
use crate::study::summary::{Instead, Mark, Setting, Summary};

use super::colour::Colour;
use super::labels::LETTER;
use super::svg::{Element, Svg, Words};
use super::{BODY, MARGIN, Picture, SMALL, Style, TITLE_HEIGHT, title};

/// As much of a study as can be read.
const MOST_PLAYERS: usize = 40;
const MOST_SETTINGS: usize = 8;

const NAMES: f64 = 150.0;
const TILE: (f64, f64) = (118.0, 40.0);
const GAP: f64 = 3.0;
const HEADS: f64 = 80.0;
const BELOW: f64 = 46.0;
/// How dark the darkest tile is.
const DARKEST: f64 = 0.42;

/// The picture of a study.
#[must_use]
pub fn study(summary: &Summary, style: Style<'_>) -> Picture {
    let players = summary.players.len().min(MOST_PLAYERS);
    let settings = summary.settings.len().min(MOST_SETTINGS);
    let with_goal = summary.with_goal > 0;
    let heading = match (summary.name.as_str(), with_goal) {
        ("", true) => "What to work on first".to_owned(),
        ("", false) => "Average scores".to_owned(),
        (name, true) => format!("{name}: what to work on first"),
        (name, false) => format!("{name}: average scores"),
    };
    let below = match with_goal {
        true => {
            "The part to work on (measured ones first), and what it would save a round: the darker, the more"
        }
        false => "Strokes a round: the darker, the more",
    };
    let width = 2.0 * MARGIN + NAMES + settings.max(3) as f64 * (TILE.0 + GAP);
    let height = TITLE_HEIGHT + HEADS + players as f64 * (TILE.1 + GAP) + BELOW;
    let mut svg = Svg::new(style.id, (width, height), &heading, &told(summary));
    svg.put(Element::rect((0.0, 0.0), (width, height)).fill(Colour::Paper));
    title(&mut svg, width, &heading, below);
    let heads = heads(&summary.settings[..settings]);
    for (column, lines) in heads.iter().enumerate() {
        head(&mut svg, left(column), lines);
    }
    let scale = scale(summary, players, settings);
    for (row, player) in summary.players[..players].iter().enumerate() {
        let y = TITLE_HEIGHT + HEADS + row as f64 * (TILE.1 + GAP);
        let name = fitted(&player.name, NAMES - 8.0, BODY);
        svg.words((MARGIN, y + 17.0), &name, Words::sized(BODY));
        if let Ok(handicap) = player.handicap.parse::<f64>() {
            let off = format!("off {}", index(handicap));
            svg.words((MARGIN, y + 32.0), &off, Words::sized(SMALL).faint());
        }
        for column in 0..settings {
            if let Some(mark) = summary.marks.get(&(row, column)) {
                tile(&mut svg, (left(column), y), mark, with_goal, scale);
            }
        }
    }
    foot(&mut svg, summary, height, [players, settings]);
    svg.finish()
}

fn left(column: usize) -> f64 {
    MARGIN + NAMES + column as f64 * (TILE.0 + GAP)
}

/// What stands over a column: the course, what sets it apart from others, the goal.
fn heads(settings: &[Setting]) -> Vec<[String; 3]> {
    let differs = |place: usize| {
        let first = settings.first().map(|setting| &setting.more[place]);
        settings
            .iter()
            .any(|setting| Some(&setting.more[place]) != first)
    };
    settings
        .iter()
        .map(|setting| {
            let more = setting.more.iter().enumerate();
            let more: Vec<&str> = more
                .filter(|(place, text)| differs(*place) && !text.is_empty())
                .map(|(_, text)| text.as_str())
                .collect();
            let goal = match setting.goal.parse::<f64>() {
                Ok(goal) => format!("against {}", index(goal)),
                Err(_) => String::new(),
            };
            [setting.course.clone(), more.join(", "), goal]
        })
        .collect()
}

fn head(svg: &mut Svg, x: f64, lines: &[String; 3]) {
    let all = lines.iter().enumerate();
    let lines: Vec<(usize, String)> = all
        .flat_map(|(which, line)| folded(line).into_iter().map(move |line| (which, line)))
        .collect();
    let first = TITLE_HEIGHT + HEADS - 8.0 - 14.0 * (lines.len().max(1) - 1) as f64;
    for (place, (which, line)) in lines.into_iter().enumerate() {
        let words = Words::sized(SMALL);
        let words = if which == 0 {
            words.bold()
        } else {
            words.faint()
        };
        svg.words((x, first + 14.0 * place as f64), &line, words);
    }
}

/// A text in up to two lines as wide as a tile; none of nothing.
fn folded(text: &str) -> Vec<String> {
    let letters = (TILE.0 / (LETTER * SMALL)) as usize;
    if text.is_empty() {
        return Vec::new();
    }
    if text.chars().count() <= letters {
        return vec![text.to_owned()];
    }
    let spaces = text.match_indices(' ').map(|(place, _)| place);
    let last = spaces
        .rev()
        .find(|place| text[..*place].chars().count() <= letters);
    match last {
        Some(place) => vec![
            text[..place].to_owned(),
            fitted(&text[place + 1..], TILE.0, SMALL),
        ],
        None => vec![fitted(text, TILE.0, SMALL)],
    }
}

/// What the lightest and the darkest tile stand for.
fn scale(summary: &Summary, players: usize, settings: usize) -> [f64; 2] {
    let shown = summary
        .marks
        .iter()
        .filter(|((player, setting), _)| *player < players && *setting < settings);
    let values = shown.filter_map(|(_, mark)| match mark.work_on {
        Some((_, saved)) => Some(saved),
        None if summary.with_goal == 0 => mark.score,
        None => None,
    });
    let start = if summary.with_goal > 0 {
        [0.0, 0.5]
    } else {
        [f64::INFINITY, f64::NEG_INFINITY]
    };
    values.fold(start, |[low, high], value| {
        [low.min(value), high.max(value)]
    })
}

fn tile(svg: &mut Svg, (x, y): (f64, f64), mark: &Mark, with_goal: bool, [low, high]: [f64; 2]) {
    let (value, [words, more]) = match (mark.score, mark.work_on) {
        (None, _) => (None, ["no figures", ""].map(str::to_owned)),
        (Some(_), Some((part, saved))) if with_goal => {
            let star = if mark.measured { "" } else { " *" };
            let words = format!("{}{star}", part.name());
            (Some(saved), [words, String::new()])
        }
        (Some(_), None) if with_goal => (None, instead(mark.instead).map(str::to_owned)),
        (Some(score), _) => (Some(score), Default::default()),
    };
    // Where all are equal none is darker.
    let span = (high - low).max(f64::MIN_POSITIVE);
    let share = value.map_or(0.0, |value| ((value - low) / span).clamp(0.0, 1.0));
    let ground = Element::rect((x, y), TILE).fill(Colour::First);
    svg.put(ground.px("fill-opacity", 0.04 + (DARKEST - 0.04) * share));
    svg.words((x + 8.0, y + 16.0), &words, Words::sized(SMALL));
    if !more.is_empty() {
        svg.words((x + 8.0, y + 32.0), &more, Words::sized(SMALL));
    }
    if let Some(value) = value {
        let figure = number(value, 1).replace('-', "−");
        svg.words((x + 8.0, y + 33.0), &figure, Words::sized(BODY).bold());
    }
}

/// The two lines of a tile that names no part to work on.
const fn instead(of: Instead) -> [&'static str; 2] {
    match of {
        Instead::TooFewShots => ["too few shots", ""],
        Instead::Measure(part) => ["measure first:", part.name()],
        Instead::CheckHandicap => ["check the", "handicap"],
        Instead::Nothing => ["nothing", ""],
    }
}

fn foot(svg: &mut Svg, summary: &Summary, height: f64, [players, settings]: [usize; 2]) {
    let mut lines = Vec::new();
    let more = [summary.all[0] - players, summary.all[1] - settings];
    match more {
        [0, 0] => {}
        [more, 0] => lines.push(format!("{more} more players stand in cells.csv.")),
        [0, more] => lines.push(format!("{more} more columns stand in cells.csv.")),
        [players, columns] => lines.push(format!(
            "{players} more players and {columns} more columns stand in cells.csv."
        )),
    }
    let assumed = |mark: &Mark| mark.work_on.is_some() && !mark.measured;
    if summary.marks.values().any(assumed) {
        lines.push("* Assumed: nobody measured it.".to_owned());
    }
    lines.push("Estimates from a model, not promises.".to_owned());
    let words = Words::sized(SMALL).faint();
    svg.words((MARGIN, height - 20.0), &lines.join("  "), words);
}

/// The picture in words, for those who do not see it.
fn told(summary: &Summary) -> String {
    let mut told = format!("{} cells", summary.cells);
    if summary.with_goal > 0 {
        let first = summary.first.iter().filter(|(_, cells, _)| *cells > 0);
        let parts: Vec<String> = first
            .map(|(part, cells, _)| format!("{} in {cells}", part.name()))
            .collect();
        if !parts.is_empty() {
            told += &format!("; to be worked on first: {}", parts.join(", "));
        }
        if summary.too_few_shots > 0 {
            told += &format!(
                "; too few shots to name a part in {}",
                summary.too_few_shots
            );
        }
        if summary.to_measure > 0 {
            told += &format!("; a part to be measured first in {}", summary.to_measure);
        }
    }
    told + "."
}

/// A text cut to a width.
fn fitted(text: &str, width: f64, size: f64) -> String {
    let letters = (width / (LETTER * size)) as usize;
    if text.chars().count() <= letters {
        return text.to_owned();
    }
    let start: String = text.chars().take(letters.saturating_sub(1)).collect();
    format!("{}…", start.trim_end())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::round::part::Part;

    #[test]
    fn what_stands_in_place_of_a_part_fits_its_tile() {
        let measure = Part::ALL.map(Instead::Measure);
        let others = [
            Instead::TooFewShots,
            Instead::CheckHandicap,
            Instead::Nothing,
        ];
        for line in measure.into_iter().chain(others).flat_map(instead) {
            assert_eq!(fitted(line, TILE.0 - 8.0, SMALL), line);
        }
    }
}
