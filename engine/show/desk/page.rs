//! The skeleton of the page: everything that stands on it whoever the player is.

use std::path::Path;

use maud::{DOCTYPE, Markup, html};

use crate::show::report::html::head_of;

/// A figure of clubs that can be dragged.
struct Slider {
    /// As a change names it.
    figure: &'static str,
    words: &'static str,
    /// What stands behind the number, as it is read and as a change writes it.
    unit: &'static str,
    suffix: &'static str,
    low: i32,
    high: i32,
    step: &'static str,
}

const SLIDERS: [Slider; 5] = [
    Slider {
        figure: "dynamic_loft",
        words: "Delivered loft",
        unit: "°",
        suffix: "",
        low: -8,
        high: 8,
        step: "0.5",
    },
    Slider {
        figure: "backspin",
        words: "Backspin",
        unit: "rpm",
        suffix: "",
        low: -2000,
        high: 2000,
        step: "50",
    },
    Slider {
        figure: "direction_spread",
        words: "Spread to the sides",
        unit: "%",
        suffix: "%",
        low: -80,
        high: 80,
        step: "5",
    },
    Slider {
        figure: "distance_spread",
        words: "Spread of distance",
        unit: "%",
        suffix: "%",
        low: -80,
        high: 80,
        step: "5",
    },
    Slider {
        figure: "mishits",
        words: "Mishits",
        unit: "%",
        suffix: "%",
        low: -100,
        high: 100,
        step: "10",
    },
];

/// Clubs that are changed together.
const GROUPS: [&str; 9] = [
    "mid irons",
    "long approach",
    "short irons",
    "irons",
    "wedges",
    "driver",
    "woods",
    "hybrids",
    "all clubs",
];

const SKILLS: [(&str, &str); 3] = [
    ("short game", "Short game as golfers off"),
    ("sand", "Bunker play as golfers off"),
    ("putting", "Putting as golfers off"),
];

/// The sections of the page.
const PLACES: [(&str, &str); 6] = [
    ("seats", "Player and course"),
    ("try", "What would it be worth?"),
    ("day", "The course today"),
    ("shots", "Shots just hit"),
    ("card-here", "The cost card"),
    ("save", "The report"),
];

/// Firmness by word, as far as words go.
const FIRMNESS: [(&str, &str); 6] = [
    ("", "as the course file says"),
    ("0", "soft"),
    ("0.25", "fairly soft"),
    ("0.5", "medium"),
    ("0.75", "fairly firm"),
    ("1", "firm"),
];

/// The page, served in a folder.
#[must_use]
pub fn page(folder: &Path) -> String {
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                (head_of("The desk"))
                link rel="icon" href="data:,";
                link rel="stylesheet" href="desk.css";
                script src="desk.js" defer {}
            }
            body {
                header {
                    h1 #title { "The desk" }
                    p.who #subtitle { "Choose a player and a course to begin." }
                    p.busy #busy { "The page is loading." }
                    p.unseen #news role="status" {}
                    nav aria-label="On this page" {
                        ul { @for (id, words) in PLACES { li { a href=(format!("#{id}")) { (words) } } } }
                    }
                }
                main {
                    (seats(folder))
                    (changes())
                    (day())
                    (shots())
                    div #card-here { section.empty aria-labelledby="card" { h2 #card { "The cost card" } p { "It stands here once player, course and goal are known." } } }
                    (save())
                }
                (trouble())
                footer {
                    p { "Estimates from a model, not promises. Warm up before you practise; stop when something hurts and ask a licensed professional. On the course, its own rules and everybody's safety come first." }
                }
            }
        }
    };
    page.into_string() + "\n"
}

fn trouble() -> Markup {
    html! {
        div #trouble role="alert" hidden {
            pre #trouble-told tabindex="0" {}
            button #trouble-close type="button" { "Close" }
        }
    }
}

fn seats(folder: &Path) -> Markup {
    html! {
        section aria-labelledby="seats" {
            h2 #seats { "Who, where, and which goal" }
            div.fields.broad {
                label { "Player" select #player { option value="" { "choose a player" } } }
                label { "Course" select #course { option value="" { "choose a course" } } }
                label { "Goal, handicap" input #goal-field type="number" min="-6" max="36" step="0.1" inputmode="decimal"; }
            }
            (drop("seat-file", "Or drop a player's file, a sheet of shots or a course here, or choose one"))
            p.note {
                "To choose from: files in " code { (folder.display()) } ", and the program's own demos. A sheet of shots is screened and fitted as "
                code { "fit" } " does it."
            }
            (who())
        }
    }
}

/// A place to drop a file, which is a button for those who have no mouse.
fn drop(id: &str, words: &str) -> Markup {
    html! {
        label.drop for=(id) {
            span { (words) }
            input id=(id) type="file" accept=".toml,.csv,.txt,.tsv";
        }
    }
}

/// Who hit a sheet of shots.
fn who() -> Markup {
    html! {
        form.box #who-form hidden aria-labelledby="who-title" {
            h3 #who-title { "Who hit these shots?" }
            p #who-sheet {}
            div.fields {
                label { "Name" input #who-name type="text" maxlength="80" autocomplete="off"; }
                label { "Handicap index" input #who-handicap type="text" inputmode="decimal" required; }
                label { "Hand" select #who-hand { option value="right" { "right" } option value="left" { "left" } } }
                label { "Levels of" select #who-sex { option value="men" { "men" } option value="women" { "women" } } }
                label { "Column map" select #who-map { option value="" { "none: columns named as here" } } }
            }
            div.buttons {
                button.main type="submit" { "Fit the player" }
                button #who-cancel type="button" { "Leave it" }
            }
        }
    }
}

fn changes() -> Markup {
    html! {
        section.try aria-labelledby="try" {
            h2 #try { "What would it be worth?" }
            div.bench {
                form #changes autocomplete="off" aria-labelledby="try" {
                    fieldset {
                        legend { "How clubs are hit" }
                        label.line { "Change the " select #who { @for group in GROUPS { option { (group) } } optgroup #bag label="One club" {} } }
                        @for slider in &SLIDERS { (slide(slider)) }
                    }
                    fieldset {
                        legend { "Round the green" }
                        @for (skill, words) in SKILLS { (level(skill, words)) }
                    }
                    div.buttons {
                        button #undo type="button" { "Undo all" }
                    }
                    h3 { "Changed so far" }
                    ul #changed { li { "nothing" } }
                }
                div.result #result {
                    div.verdict {
                        p.big { span #saved { "–" } span.unit { "strokes a round saved" } }
                        p #said { "The course is not set up yet." }
                        p.note #how {}
                    }
                    label.line { "Draw the " select #club { option value="" { "club that changes" } } }
                    div #pictures {}
                }
            }
            div #figures {}
        }
    }
}

fn slide(slider: &Slider) -> Markup {
    let id = format!("slide-{}", slider.figure);
    let field = format!("field-{}", slider.figure);
    let name = format!("{}, {}", slider.words, slider.unit);
    html! {
        div.slide {
            label for=(id) { (slider.words) }
            input.of-clubs id=(id) type="range" min=(slider.low) max=(slider.high) step=(slider.step) value="0"
                data-figure=(slider.figure) data-suffix=(slider.suffix);
            input.field id=(field) type="number" min=(slider.low) max=(slider.high) step="any" value="0"
                aria-label=(name) data-for=(id);
            span.unit aria-hidden="true" { (slider.unit) }
        }
    }
}

fn level(skill: &str, words: &str) -> Markup {
    let id = skill.replace(' ', "-");
    html! {
        div.slide.level {
            label { input.use-level id=(format!("use-{id}")) type="checkbox" data-skill=(skill); " " (words) }
            input.of-skill id=(format!("level-{id}")) type="range" min="-5.5" max="36" step="0.5" value="5"
                data-skill=(skill) aria-label=(format!("{words}, handicap"));
            input.field id=(format!("field-{id}")) type="number" min="-5.5" max="36" step="any" value="5"
                aria-label=(format!("{words}, handicap, as a number")) data-for=(format!("level-{id}"));
            span.unit aria-hidden="true" {}
        }
    }
}

fn day() -> Markup {
    html! {
        section aria-labelledby="day" {
            h2 #day { "The course today" }
            form #day-form autocomplete="off" {
                div.fields {
                    label { "Turf and greens" select #firmness { @for (value, words) in FIRMNESS { option value=(value) { (words) } } } }
                    label { "Wind, mph" input #wind type="number" min="0" max="60" step="any" inputmode="decimal" placeholder="as filed"; }
                    label { "Wind from, degrees" input #wind-from type="number" min="0" max="360" step="any" inputmode="decimal" placeholder="as filed"; }
                    button.main type="submit" { "Play it so" }
                }
            }
            p.note #day-said { "Turf and wind touch every shot: the course is set up anew, which takes some seconds. What stands ready answers until then. What is left empty is as the course file says." }
        }
    }
}

fn shots() -> Markup {
    html! {
        section aria-labelledby="shots" {
            h2 #shots { "Shots just hit" }
            p { "They join those that stand, the player is fitted anew, and the card moves." }
            div.fields {
                label { "From the folder" select #sheet { option value="" { "choose a sheet" } } }
                label { "Column map" select #sheet-map { option value="" { "none" } } }
            }
            (drop("shots-file", "Drop the sheet of shots (CSV) here, or choose it"))
            p.note #added {}
            div #shots-told {}
        }
    }
}

fn save() -> Markup {
    html! {
        section aria-labelledby="save" {
            h2 #save { "The report for the player" }
            form #save-form autocomplete="off" {
                div.fields.broad {
                    label { "Name of the file" input #save-name type="text" value="report.html" maxlength="120"; }
                    label.tick { input #save-over type="checkbox"; " Write over a file that is there" }
                    button.main type="submit" { "Save the report" }
                }
            }
            p.note { "The page that " code { "costcard report" } " writes, of the player as he is, without the changes tried above." }
            p #save-said role="status" {}
        }
    }
}
