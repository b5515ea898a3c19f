//! What a study comes to: players by courses, and which part is to be worked on first.

use std::collections::{HashMap, HashSet};

use super::columns;
use super::run::Failed;
use crate::round::part::Part;

/// The most players and settings that stand in the grid: more than fit on a page.
const MOST_PLAYERS: usize = 120;
const MOST_SETTINGS: usize = 40;
/// The most cells without figures that are told one by one.
const MOST_FAILED: usize = 1000;

/// What a study comes to.
#[derive(Debug, Clone, PartialEq)]
pub struct Summary {
    /// What it is called; empty where the file does not say.
    pub name: String,
    /// Which part of how many it is.
    pub part: [u64; 2],
    /// Cells of the whole study.
    pub of_all: u64,
    /// Cells here.
    pub cells: u64,
    /// Those without figures.
    pub without_figures: u64,
    /// The first thousand of them.
    pub failed: Vec<Failed>,
    /// Rounds of a cell, their seed, and the program's version.
    pub rounds: String,
    /// The seed.
    pub seed: String,
    /// The version.
    pub version: String,
    /// The first players, in the order of the study.
    pub players: Vec<Player>,
    /// The first settings: what a player meets.
    pub settings: Vec<Setting>,
    /// How many players and settings there are in all.
    pub all: [usize; 2],
    /// The cells of those players in those settings, by both numbers.
    pub marks: HashMap<(usize, usize), Mark>,
    /// By part: cells in which it is the one to work on first, and what it saves in their mean.
    pub first: Vec<(Part, u64, f64)>,
    /// Cells with a goal.
    pub with_goal: u64,
    /// Those of them in which too few shots were measured to name a part.
    pub too_few_shots: u64,
    /// Those of them in which a part that nobody measured is to be measured first.
    pub to_measure: u64,
    known: [HashMap<Vec<String>, usize>; 2],
}

/// A player.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Player {
    /// As the study names him.
    pub input: String,
    /// The name in his file; that of the study where it could not be read.
    pub name: String,
    /// His handicap; empty where it could not be read.
    pub handicap: String,
}

/// What a player meets: a course on a day, by rules, with changes, against a goal.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Setting {
    /// The course as the study names it.
    pub input: String,
    /// The course's own name; that of the study where it could not be read.
    pub course: String,
    /// What else sets it apart, each as it stands in the table; those that are alike in all settings too.
    pub more: Vec<String>,
    /// The goal; empty without one.
    pub goal: String,
}

/// A cell in the grid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mark {
    /// Mean score; none where the cell has no figures.
    pub score: Option<f64>,
    /// Part to work on first, and what it saves.
    pub work_on: Option<(Part, f64)>,
    /// Whether the player's own shots stand behind it.
    pub measured: bool,
    /// What it says where it names none.
    pub instead: Instead,
}

/// What a cell with a goal says where it names no part to work on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Instead {
    /// Too few shots were measured to name one.
    TooFewShots,
    /// A part that is to be measured before one is named.
    Measure(Part),
    /// Shots and handicap do not fit.
    CheckHandicap,
    /// No part saves anything.
    Nothing,
}

/// What sets settings apart, beside course and goal.
const MORE: [&str; 6] = [
    "combination",
    "tees",
    "pins",
    "conditions",
    "rules",
    "changes",
];

impl Summary {
    pub(super) fn new(name: &str, part: [u64; 2], of_all: u64) -> Self {
        Self {
            name: name.to_owned(),
            part,
            of_all,
            cells: 0,
            without_figures: 0,
            failed: Vec::new(),
            rounds: String::new(),
            seed: String::new(),
            version: String::new(),
            players: Vec::new(),
            settings: Vec::new(),
            all: [0, 0],
            marks: HashMap::new(),
            first: Part::ALL.map(|part| (part, 0, 0.0)).to_vec(),
            with_goal: 0,
            too_few_shots: 0,
            to_measure: 0,
            known: Default::default(),
        }
    }

    /// Cells with a goal and enough measured to name a part.
    #[must_use]
    pub const fn named(&self) -> u64 {
        self.with_goal - self.too_few_shots - self.to_measure
    }

    /// The parts that are the first to work on in most cells, as many as are it equally often; none where none is named.
    #[must_use]
    pub fn most_often_first(&self) -> Vec<(Part, u64, f64)> {
        let most = self.first.iter().map(|(_, cells, _)| *cells).max();
        let is_most = |(_, cells, _): &&(Part, u64, f64)| *cells > 0 && Some(*cells) == most;
        self.first.iter().filter(is_most).copied().collect()
    }

    /// Adds a cell by its texts.
    pub(super) fn add(&mut self, inputs: &[String], figures: &[String]) {
        let texts: Vec<&str> = inputs.iter().chain(figures).map(String::as_str).collect();
        let text = |name: &str| columns::place(name).map_or("", |place| texts[place]);
        let number = |name: &str| text(name).parse::<f64>().ok();
        self.cells += 1;
        for (own, name) in [
            (&mut self.rounds, "rounds"),
            (&mut self.seed, "seed"),
            (&mut self.version, "version"),
        ] {
            text(name).clone_into(own);
        }
        let has_failed = !text("error").is_empty();
        self.without_figures += u64::from(has_failed);
        if has_failed && self.failed.len() < MOST_FAILED {
            self.failed.push(Failed {
                cell: text("cell").parse().unwrap_or_default(),
                player: text("player").to_owned(),
                course: text("course").to_owned(),
                error: text("error").to_owned(),
            });
        }
        let instead = match text("start") {
            "too few shots" => Instead::TooFewShots,
            "check the handicap" => Instead::CheckHandicap,
            _ => Part::named(text("measure")).map_or(Instead::Nothing, Instead::Measure),
        };
        let is_to_measure = matches!(instead, Instead::Measure(_));
        self.to_measure += u64::from(is_to_measure);
        let work_on = Part::named(text("work_on")).zip(number("work_on_saved"));
        let work_on = work_on.filter(|_| !is_to_measure);
        self.with_goal += u64::from(number("gap").is_some());
        self.too_few_shots += u64::from(instead == Instead::TooFewShots);
        if let Some((part, saved)) = work_on {
            let (_, cells, sum) = &mut self.first[part as usize];
            *cells += 1;
            *sum += saved;
        }
        let mark = Mark {
            score: number("score_mean"),
            work_on,
            measured: text("work_on_measured") == "true",
            instead,
        };
        self.place(&text, mark);
    }

    /// Names that several files give, to players or to courses, take the name of the file with them.
    pub(super) fn tell_apart(&mut self) {
        let players = self.players.iter_mut();
        told_apart(players.map(|player| (&mut player.name, player.input.as_str())));
        let settings = self.settings.iter_mut();
        told_apart(settings.map(|setting| (&mut setting.course, setting.input.as_str())));
    }

    fn place<'t>(&mut self, text: &impl Fn(&str) -> &'t str, mark: Mark) {
        let or = |name: &str, other: &str| match text(name) {
            "" => text(other).to_owned(),
            found => found.to_owned(),
        };
        let [players, settings] = &mut self.known;
        let next = players.len();
        let player = *players
            .entry(vec![text("player").to_owned()])
            .or_insert(next);
        if player == next && player < MOST_PLAYERS {
            self.players.push(Player {
                input: text("player").to_owned(),
                name: String::new(),
                handicap: String::new(),
            });
        }
        let more: Vec<String> = MORE.iter().map(|name| text(name).to_owned()).collect();
        let mut key = more.clone();
        key.extend([text("course").to_owned(), text("goal_handicap").to_owned()]);
        let next = settings.len();
        let setting = *settings.entry(key).or_insert(next);
        if setting == next && setting < MOST_SETTINGS {
            self.settings.push(Setting {
                input: text("course").to_owned(),
                course: String::new(),
                more,
                goal: text("goal_handicap").to_owned(),
            });
        }
        self.all = [players.len(), settings.len()];
        // A cell without figures does not know the names in the files; others may.
        if let Some(known) = self.players.get_mut(player)
            && (known.name.is_empty() || known.handicap.is_empty())
        {
            known.name = or("player_name", "player");
            known.handicap = text("handicap").to_owned();
        }
        if let Some(known) = self.settings.get_mut(setting)
            && (known.course.is_empty() || !text("course_name").is_empty())
        {
            known.course = or("course_name", "course");
        }
        if player < self.players.len() && setting < self.settings.len() {
            self.marks.insert((player, setting), mark);
        }
    }
}

/// Adds its input to each name that another input has too.
fn told_apart<'a>(named: impl Iterator<Item = (&'a mut String, &'a str)>) {
    let named: Vec<(&mut String, &str)> = named.collect();
    let mut inputs: HashMap<String, HashSet<&str>> = HashMap::new();
    for (name, input) in &named {
        inputs.entry((*name).clone()).or_default().insert(input);
    }
    for (name, input) in named {
        if inputs[name].len() > 1 {
            *name = format!("{name} ({input})");
        }
    }
}
