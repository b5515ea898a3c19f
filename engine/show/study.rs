//! The overview of a study: a short page in the style of the report.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use crate::files::joined;
use crate::round::part::Part;
use crate::study::summary::{Mark, Player, Setting, Summary};

use super::card::is_plural;
use super::draw::{self, Style};
use super::page::capital;
use super::reading::{Reading, index, number};
use super::report::{html::head_of, style};

/// The most rows and columns of the table of averages.
const MOST_PLAYERS: usize = 60;
const MOST_SETTINGS: usize = 12;
/// The most cells without figures that are named.
const MOST_FAILED: usize = 50;

/// The pages of a study: the names of their files, and what is in them.
#[must_use]
pub fn pages(summary: &Summary) -> Vec<(&'static str, String)> {
    let style = Style {
        reading: Reading::Yards,
        id: "study",
    };
    let picture = draw::study(summary, style);
    let overview = overview(summary, &picture.svg);
    vec![("summary.svg", picture.svg), ("overview.html", overview)]
}

fn overview(summary: &Summary, picture: &str) -> String {
    let title = match summary.name.as_str() {
        "" => "Study".to_owned(),
        name => name.to_owned(),
    };
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                (head_of(&title))
                style { (PreEscaped(style())) ".grid figure svg{max-width:none;width:auto}.grid{overflow-x:auto}.wide table{width:auto}.wide th,.wide td{padding-left:1.2rem}.left td,.left th{text-align:left;white-space:normal}.wide td{font-weight:normal!important}" }
            }
            body {
                header {
                    h1 { (title) }
                    p.who { (size(summary)) }
                }
                main {
                    (lead(summary))
                    section.grid {
                        h2 { "Players and courses" }
                        figure { (PreEscaped(picture)) }
                    }
                    (averages(summary))
                    (failures(summary))
                    (files())
                }
                footer {
                    p {
                        "Figures of " (summary.rounds) " rounds a cell (seed " (summary.seed)
                        "), played on paper by costcard " (summary.version) ". Estimates from a model, not promises."
                    }
                }
            }
        }
    };
    page.into_string() + "\n"
}

/// How large the study is, in a line.
fn size(summary: &Summary) -> String {
    let [players, settings] = summary.all;
    let [number, of] = summary.part;
    let part = match of {
        1 => String::new(),
        _ => format!("Part {number} of {of}: "),
    };
    format!(
        "{part}{} {}: {} {} in {} {} of course, day, rules, changes and goal.",
        summary.cells,
        plural(summary.cells as usize, "cell", "cells"),
        players,
        plural(players, "player", "players"),
        settings,
        plural(settings, "setting", "settings"),
    )
}

fn plural<'a>(count: usize, one: &'a str, more: &'a str) -> &'a str {
    if count == 1 { one } else { more }
}

/// Which part comes first how often.
fn lead(summary: &Summary) -> Markup {
    let mut first: Vec<(Part, u64, f64)> = summary.first.clone();
    first.retain(|(_, cells, _)| *cells > 0);
    first.sort_by_key(|(_, cells, _)| std::cmp::Reverse(*cells));
    let most_often = summary.most_often_first();
    let Some((_, most, _)) = most_often.first() else {
        return html! {};
    };
    let named = summary.named();
    let often: Vec<Part> = most_often.iter().map(|(part, ..)| *part).collect();
    let names: Vec<&str> = often.iter().map(|part| part.name()).collect();
    let each = if often.len() > 1 { " each" } else { "" };
    let comes = if often.len() > 1 || is_plural(often[0]) {
        "come"
    } else {
        "comes"
    };
    html! {
        section.lead aria-labelledby="first" {
            div {
                h2 #first { "In short" }
                p.first {
                    (capital(&joined(&names, "and"))) " " (comes) " first most often: in " (most) (each) " of "
                    (named) " " (plural(named as usize, "cell", "cells")) " with a goal and shots enough to tell."
                }
                @if summary.too_few_shots > 0 {
                    p { "In " (summary.too_few_shots) " more too few shots were measured to name a part." }
                }
                @if summary.to_measure > 0 {
                    p { "In " (summary.to_measure) " more a part that nobody measured is to be measured first." }
                }
                div.wide {
                    table {
                        thead { tr { th { "part" } th { "first in" } th { "would save there, in the mean" } } }
                        tbody {
                            @for (part, cells, sum) in &first {
                                tr { th { (part.name()) } td { (cells) } td { (number(sum / *cells as f64, 1)) } }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// The average score of every player in every setting, once for each setting without its goal.
fn averages(summary: &Summary) -> Markup {
    let columns: Vec<(usize, &Setting)> = distinct(&summary.settings);
    let shown = &columns[..columns.len().min(MOST_SETTINGS)];
    let players = &summary.players[..summary.players.len().min(MOST_PLAYERS)];
    let score = |player: usize, setting: usize| {
        let mark: Option<&Mark> = summary.marks.get(&(player, setting));
        mark.and_then(|mark| mark.score)
            .map_or("–".to_owned(), |score| number(score, 1))
    };
    html! {
        section {
            h2 { "Average scores" }
            div.wide {
                table {
                    thead {
                        tr {
                            th { "player" } th { "off" }
                            @for (_, setting) in shown { th { (named(setting)) } }
                        }
                    }
                    tbody {
                        @for (row, player) in players.iter().enumerate() {
                            tr {
                                th { (player.name) } td { (off(player)) }
                                @for (column, _) in shown { td { (score(row, *column)) } }
                            }
                        }
                    }
                }
            }
            @if summary.all[0] > players.len() || columns.len() > shown.len() {
                p.note { "More stand in cells.csv." }
            }
        }
    }
}

fn off(player: &Player) -> String {
    player.handicap.parse().map_or(String::new(), index)
}

/// Settings that differ in more than their goal.
fn distinct(settings: &[Setting]) -> Vec<(usize, &Setting)> {
    let mut found: Vec<(usize, &Setting)> = Vec::new();
    for (place, setting) in settings.iter().enumerate() {
        let same = |known: &Setting| known.course == setting.course && known.more == setting.more;
        if !found.iter().any(|(_, known)| same(known)) {
            found.push((place, setting));
        }
    }
    found
}

fn named(setting: &Setting) -> String {
    let more = setting.more.iter().filter(|text| !text.is_empty());
    let more: Vec<&str> = more
        .map(String::as_str)
        .filter(|text| *text != "built in")
        .collect();
    match more.is_empty() {
        true => setting.course.clone(),
        false => format!("{}: {}", setting.course, more.join(", ")),
    }
}

fn failures(summary: &Summary) -> Markup {
    if summary.failed.is_empty() {
        return html! {};
    }
    let shown = &summary.failed[..summary.failed.len().min(MOST_FAILED)];
    html! {
        section.left {
            h2 { "Cells without figures: " (summary.without_figures) }
            div.wide {
                table {
                    thead { tr { th { "cell" } th { "player" } th { "course" } th { "why" } } }
                    tbody {
                        @for failed in shown {
                            tr { td { (failed.cell) } td { (failed.player) } td { (failed.course) } td { (failed.error) } }
                        }
                    }
                }
            }
            @if (shown.len() as u64) < summary.without_figures { p.note { "The others stand in cells.csv." } }
        }
    }
}

fn files() -> Markup {
    html! {
        section.trust {
            h2 { "Files" }
            ul {
                li { "cells.csv: a row for each cell, with the figures of play, and against a goal those of rank" }
                li { "parts.csv: a row for each part of the game of each cell with a goal" }
                li { "columns.csv: what every column holds, and in which unit" }
                li { "summary.svg: the picture above" }
                li { "study.journal: what an interrupted run goes on from, and what merging reads" }
            }
            p.note { "* Assumed: nobody measured the part, so it is no ground for a lesson." }
        }
    }
}
