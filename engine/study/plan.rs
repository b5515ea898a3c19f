//! A study with the files it names found: what is worked out, in which order.

use std::collections::HashMap;
use std::path::{Path, PathBuf};

use super::StudyError;
use super::cells::Shape;
use super::file::{Combination, CourseEntry, Day, Named, Study};
use super::hash;
use super::inputs::{CourseInput, PlayerInput, RulesInput};
use super::part::StudyPart;
use crate::files::{Fault, Faults, Source};
use crate::player::change::Change;

/// The program's version, which stands in every row.
pub(super) const VERSION: &str = env!("CARGO_PKG_VERSION");

/// A study with the files it names found.
#[derive(Debug)]
pub struct Plan {
    /// What the file says.
    pub study: Study,
    /// The folder its paths count from.
    pub(super) folder: PathBuf,
    /// Which program works it out: what another one made is not taken for this one's.
    build: String,
    pub(super) players: Vec<PlayerInput>,
    pub(super) courses: Vec<CourseInput>,
    pub(super) crossings: Vec<Crossing>,
}

/// A combination, its players and courses by number.
#[derive(Debug)]
pub(super) struct Crossing {
    pub name: String,
    pub players: Vec<usize>,
    pub courses: Vec<usize>,
    pub days: Vec<Day>,
    pub rules: Vec<RulesInput>,
    pub changes: Vec<Vec<Change>>,
    pub goals: Vec<Option<f64>>,
    /// Number of its first cell, from 0.
    first: u64,
    /// Number of its first group.
    first_group: u64,
}

/// A cell by its place in every list of its combination.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cell {
    /// Its number, from 0.
    pub number: u64,
    pub(super) crossing: usize,
    pub(super) player: usize,
    pub(super) course: usize,
    pub(super) day: usize,
    pub(super) rules: usize,
    pub(super) change: usize,
    pub(super) goal: usize,
}

/// A course on a day under rules, and the players there that belong to a part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Block {
    pub crossing: usize,
    pub course: usize,
    pub day: usize,
    pub rules: usize,
    /// Of the players of the combination.
    pub players: std::ops::Range<usize>,
}

impl Plan {
    /// Finds the files a study names. `build` tells programs apart that bear one version.
    ///
    /// # Errors
    /// Patterns of names that match nothing.
    pub fn new(study: Study, build: &str) -> Result<Self, Faults> {
        let folder = Path::new(&*study.source.name).parent();
        let mut finder = Finder {
            folder: folder.unwrap_or(Path::new("")),
            source: &study.source,
            players: Vec::new(),
            courses: Vec::new(),
            known_players: HashMap::new(),
            known_courses: HashMap::new(),
            faults: Faults::default(),
        };
        let mut crossings: Vec<Crossing> = Vec::new();
        let (mut first, mut first_group) = (0, 0);
        for combination in &study.combinations {
            let crossing = finder.crossing(combination, (first, first_group));
            first += crossing.shape().cells();
            first_group += crossing.shape().groups();
            crossings.push(crossing);
        }
        let Finder {
            players,
            courses,
            faults,
            ..
        } = finder;
        if !faults.list().is_empty() {
            return Err(faults);
        }
        Ok(Self {
            folder: folder.unwrap_or(Path::new("")).to_owned(),
            build: build.to_owned(),
            players,
            courses,
            crossings,
            study,
        })
    }

    /// Cells of the whole study.
    #[must_use]
    pub fn cells(&self) -> u64 {
        self.crossings.iter().map(|one| one.shape().cells()).sum()
    }

    /// How many players and courses there are.
    #[must_use]
    pub fn inputs(&self) -> [usize; 2] {
        [self.players.len(), self.courses.len()]
    }

    fn groups(&self) -> u64 {
        self.crossings.iter().map(|one| one.shape().groups()).sum()
    }

    /// The blocks of a part, in the order they are worked out: players are shared out in runs, so that a part works on
    /// few courses.
    pub(super) fn blocks(&self, part: StudyPart) -> impl Iterator<Item = Block> + '_ {
        let range = part.of(self.groups());
        self.crossings
            .iter()
            .enumerate()
            .flat_map(move |(number, crossing)| {
                let of = range.clone();
                let players = crossing.players.len() as u64;
                crossing.shape().blocks().enumerate().filter_map(
                    move |(at, [course, day, rules])| {
                        let begin = crossing.first_group + at as u64 * players;
                        let from = of.start.clamp(begin, begin + players) - begin;
                        let to = of.end.clamp(begin, begin + players) - begin;
                        (from < to).then_some(Block {
                            crossing: number,
                            course,
                            day,
                            rules,
                            players: from as usize..to as usize,
                        })
                    },
                )
            })
    }

    /// The cells of one player of a block.
    pub(super) fn of_player(&self, block: &Block, player: usize) -> Vec<Cell> {
        let crossing = &self.crossings[block.crossing];
        let shape = crossing.shape();
        let each =
            (0..shape.changes).flat_map(|change| (0..shape.goals).map(move |goal| (change, goal)));
        each.map(|(change, goal)| {
            let at = [player, block.course, block.day, block.rules, change, goal];
            Cell {
                number: crossing.first + shape.number(at),
                crossing: block.crossing,
                player,
                course: block.course,
                day: block.day,
                rules: block.rules,
                change,
                goal,
            }
        })
        .collect()
    }

    /// The cells of a part, by number.
    pub(super) fn of_part(&self, part: StudyPart) -> Vec<Cell> {
        let mut cells: Vec<Cell> = self
            .blocks(part)
            .flat_map(|block| {
                let players = block.players.clone();
                players.flat_map(move |player| self.of_player(&block, player))
            })
            .collect();
        cells.sort_unstable_by_key(|cell| cell.number);
        cells
    }

    pub(super) fn crossing(&self, cell: &Cell) -> &Crossing {
        &self.crossings[cell.crossing]
    }

    pub(super) fn player(&self, cell: &Cell) -> &PlayerInput {
        &self.players[self.crossing(cell).players[cell.player]]
    }

    pub(super) fn course(&self, cell: &Cell) -> &CourseInput {
        &self.courses[self.crossing(cell).courses[cell.course]]
    }

    /// The changes of a cell as they are written in the tables.
    pub(super) fn change(&self, cell: &Cell) -> String {
        let changes = &self.crossing(cell).changes[cell.change];
        let texts: Vec<String> = changes.iter().map(ToString::to_string).collect();
        texts.join("; ")
    }

    /// Refuses what a player, a course and rules came to whose files are others than those the study began with: their
    /// figures would stand under the hashes of those.
    pub(super) fn refuse_changed(&self, block: &Block, player: usize) -> Result<(), StudyError> {
        let (crossing, folder) = (&self.crossings[block.crossing], &self.folder);
        let player = &self.players[crossing.players[player]];
        let course = &self.courses[crossing.courses[block.course]];
        let rules = &crossing.rules[block.rules];
        let changed = [
            (!player.is_as_it_was(folder)).then(|| player.name.clone()),
            (!course.is_as_it_was(folder)).then(|| course.name.clone()),
            (!rules.is_as_it_was(folder)).then(|| rules.label()),
        ];
        match changed.into_iter().flatten().next() {
            None => Ok(()),
            Some(name) => Err(StudyError::folder(
                format!("`{name}`, or a file it names, was changed while the study was worked out"),
                "what was worked out before is kept: start the same command again",
            )),
        }
    }

    /// What a cell is worked out from: cells of the same key have the same figures.
    pub(super) fn key(&self, cell: &Cell) -> String {
        let (crossing, study) = (self.crossing(cell), &self.study);
        let (player, course) = (self.player(cell), self.course(cell));
        let rules = &crossing.rules[cell.rules];
        let text = [
            VERSION.to_owned(),
            self.build.clone(),
            // What is said of a cell without figures names the files at fault.
            format!("{:?} {:?} {:?}", player.name, course.name, rules.names),
            player.hash(&self.folder).to_owned(),
            course.hash(&self.folder).to_owned(),
            format!("{:?} {:?}", course.tees, course.pins),
            format!("{:?}", crossing.days[cell.day].conditions),
            rules.hash(&self.folder).to_owned(),
            self.change(cell),
            format!("{:?}", crossing.goals[cell.goal]),
            format!("{:?} {:?}", study.effort, study.assume),
            format!("{} {}", study.keep_speed, study.detail),
        ];
        hash::of(text.join("\0").as_bytes())[..32].to_owned()
    }

    /// What tells this study from others, whatever stands in the files it names.
    pub(super) fn mark(&self) -> String {
        let study = &self.study;
        let mut text = format!(
            "{:?} {:?} {:?} {} {}\n",
            study.name, study.effort, study.assume, study.keep_speed, study.detail
        );
        for crossing in &self.crossings {
            text += &format!("{} {:?}\n", crossing.name, crossing.goals);
            for player in &crossing.players {
                text += &format!("player {}\n", self.players[*player].name);
            }
            for course in &crossing.courses {
                let course = &self.courses[*course];
                text += &format!("{} {:?} {:?}\n", course.name, course.tees, course.pins);
            }
            text += &format!("{:?}\n", crossing.days);
            for rules in &crossing.rules {
                text += &format!("{}\n", rules.label());
            }
            for changes in &crossing.changes {
                let changes: Vec<String> = changes.iter().map(ToString::to_string).collect();
                text += &format!("{}\n", changes.join("; "));
            }
        }
        hash::of(text.as_bytes())
    }
}

impl Crossing {
    pub(super) fn shape(&self) -> Shape {
        Shape {
            players: self.players.len(),
            courses: self.courses.len(),
            days: self.days.len(),
            rules: self.rules.len(),
            changes: self.changes.len(),
            goals: self.goals.len(),
        }
    }
}

/// Finds files by the names and patterns of a study; each is one input, however often it is named.
struct Finder<'a> {
    folder: &'a Path,
    source: &'a Source,
    players: Vec<PlayerInput>,
    courses: Vec<CourseInput>,
    known_players: HashMap<String, usize>,
    known_courses: HashMap<(String, Option<String>, Option<String>), usize>,
    faults: Faults,
}

impl Finder<'_> {
    fn crossing(&mut self, of: &Combination, (first, first_group): (u64, u64)) -> Crossing {
        let mut players: Vec<usize> = Vec::new();
        for named in &of.players {
            for name in self.names(named) {
                let next = self.players.len();
                let number = *self.known_players.entry(name.clone()).or_insert(next);
                if number == next {
                    self.players.push(PlayerInput::new(name));
                }
                push_new(&mut players, number);
            }
        }
        let mut courses: Vec<usize> = Vec::new();
        for entry in &of.courses {
            for number in self.courses(entry) {
                push_new(&mut courses, number);
            }
        }
        Crossing {
            name: of.name.clone(),
            players,
            courses,
            days: of.conditions.clone(),
            rules: of.rules.iter().map(|scripts| rules(scripts)).collect(),
            changes: of.changes.clone(),
            goals: of.goals.clone(),
            first,
            first_group,
        }
    }

    fn courses(&mut self, entry: &CourseEntry) -> Vec<usize> {
        let names = self.names(&entry.course);
        let input = |name: String| {
            let next = self.courses.len();
            let key = (name.clone(), entry.tees.clone(), entry.pins.clone());
            let number = *self.known_courses.entry(key).or_insert(next);
            if number == next {
                let (tees, pins) = (entry.tees.clone(), entry.pins.clone());
                self.courses.push(CourseInput::new(name, tees, pins));
            }
            number
        };
        names.into_iter().map(input).collect()
    }

    /// The files a pattern matches, in order of the alphabet; any other name as it stands.
    fn names(&mut self, named: &Named) -> Vec<String> {
        if !named.name.contains(['*', '?', '[']) {
            return vec![named.name.clone()];
        }
        let escaped = glob::Pattern::escape(&self.folder.display().to_string());
        let pattern = Path::new(&escaped).join(&named.name).display().to_string();
        let found = match glob::glob(&pattern) {
            Ok(paths) => paths.filter_map(Result::ok).filter(|path| path.is_file()),
            Err(error) => {
                self.fault(
                    named,
                    format!("this pattern of names is none: {}", error.msg),
                );
                return Vec::new();
            }
        };
        let within = |path: PathBuf| {
            let short = path.strip_prefix(self.folder).unwrap_or(&path);
            // Written alike on every system.
            short.display().to_string().replace('\\', "/")
        };
        let mut names: Vec<String> = found.map(within).collect();
        names.sort_unstable();
        if names.is_empty() {
            self.fault(named, format!("no file matches `{}`", named.name));
        }
        names
    }

    fn fault(&mut self, named: &Named, message: String) {
        self.faults.extend(
            Fault {
                source: self.source.clone(),
                span: Some(named.span.clone()),
                message,
                hint: Some("paths count from the folder of the study file".to_owned()),
            }
            .into(),
        );
    }
}

fn rules(scripts: &[Named]) -> RulesInput {
    RulesInput::new(scripts.iter().map(|script| script.name.clone()).collect())
}

/// Adds a number that is not there yet: what two patterns match is one. A list of a hundred thousand players comes in
/// the order of their numbers, so that it is seldom looked through.
fn push_new(list: &mut Vec<usize>, number: usize) {
    let is_new = list.last().is_none_or(|last| *last < number) || !list.contains(&number);
    if is_new {
        list.push(number);
    }
}
