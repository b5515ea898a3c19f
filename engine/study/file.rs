//! The study file.
//!
//! ```toml
//! name = "County squad, championship courses"
//! players = ["squad/*.toml", "level:10"]        # files, patterns of names, demo:NAME, level:HANDICAP[:women]
//! courses = ["courses/*.toml", { course = "links.toml", tees = "white", pins = "back" }]
//! conditions = [{ name = "soft", firmness = "soft" }, { name = "firm", firmness = "firm" }]
//! rules = ["built in", "held.rhai", ["held.rhai", "sand.rhai"]]     # scripts named together are in force together
//! changes = ["none", "irons dynamic_loft +4", ["driver off", "putting level 5"]]
//! goals = [5, "scratch"]
//! rounds = 2000
//! seed = 1
//! assume = "index"           # short game that nobody measured, as for `play` and `rank`
//! keep_speed = false         # goals at the player's own ball speed
//! detail = false             # traits, shares and intervals in parts.csv: much slower
//! ```
//!
//! The study is the product of all lists. With `[[combinations]]` it is the product of each of them instead: a
//! combination has a `name` and lists of its own, and takes those it leaves out from the head of the file. Paths count
//! from the folder of the study file.

use std::cell::RefCell;
use std::ops::Range;

use crate::cost::card::Effort;
use crate::cost::infer::Assume;
use crate::course::Conditions;
use crate::files::toml::{self, Entry, Kind, Outline, Table};
use crate::files::{Faults, Source};
use crate::player::change::Change;
use crate::player::levels::{self, TOUR_HANDICAP};

/// A study as its file says it.
#[derive(Debug, Clone, PartialEq)]
pub struct Study {
    /// What it is called; none where the file does not say.
    pub name: Option<String>,
    /// What is crossed with what.
    pub combinations: Vec<Combination>,
    /// Rounds of every cell, and their seed.
    pub effort: Effort,
    /// What is done about the short game that nobody measured.
    pub assume: Assume,
    /// Whether goals are taken at the player's own ball speed.
    pub keep_speed: bool,
    /// Whether the parts are told with traits, shares and intervals.
    pub detail: bool,
    /// The file.
    pub source: Source,
}

/// Lists of which every element meets every other.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Combination {
    /// What it is called; empty where there is but the one.
    pub name: String,
    /// Files, patterns of names, demos and levels.
    pub players: Vec<Named>,
    /// Courses.
    pub courses: Vec<CourseEntry>,
    /// Days; one without a name where the file has none.
    pub conditions: Vec<Day>,
    /// Scripts in force; none of them is the built-in rules.
    pub rules: Vec<Vec<Named>>,
    /// Changes of the player, made one after the other; an empty list is the player as he is.
    pub changes: Vec<Vec<Change>>,
    /// Handicap goals; none of them is no goal.
    pub goals: Vec<Option<f64>>,
}

/// A name of a file or a pattern of names, and where it stands in the study file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Named {
    /// As written.
    pub name: String,
    /// Where.
    pub span: Range<usize>,
}

/// A course, or several by a pattern, set up for play.
#[derive(Debug, Clone, PartialEq)]
pub struct CourseEntry {
    /// File, pattern of names or demo.
    pub course: Named,
    /// Tees by name; none for those of the file.
    pub tees: Option<String>,
    /// Pins: `front`, `middle`, `back` or a sheet; none for those of the file.
    pub pins: Option<String>,
}

/// Turf and weather, in place of what course files say.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Day {
    /// What it is called; empty for the courses as they are.
    pub name: String,
    /// Turf and weather.
    pub conditions: Conditions,
}

const KEYS: [&str; 13] = [
    "name",
    "players",
    "courses",
    "conditions",
    "rules",
    "changes",
    "goals",
    "rounds",
    "seed",
    "assume",
    "keep_speed",
    "detail",
    "combinations",
];

const OF_A_COMBINATION: [&str; 7] = [
    "name",
    "players",
    "courses",
    "conditions",
    "rules",
    "changes",
    "goals",
];

/// Rounds when the file does not say: as many as `play` takes.
const ROUNDS: u64 = 20_000;
/// The most rounds of a cell.
const MOST_ROUNDS: u32 = 100_000_000;
/// Handicap goals: as far as the levels reach.
const GOALS: std::ops::RangeInclusive<f64> = levels::LOWEST..=levels::HIGHEST;
/// What stands for no script.
const BUILT_IN: [&str; 2] = ["built in", "built-in"];
/// What stands for no change.
const NO_CHANGE: &str = "none";

impl Study {
    /// Reads a study file. Files it names are not looked at.
    ///
    /// # Errors
    /// Every fault of the file, each with its place and what to write instead.
    pub fn read(source: &Source) -> Result<Self, Faults> {
        toml::read(source, &KEYS, |file| study(file, source))
    }

    /// What such a file may say, shown by a sound sample.
    ///
    /// # Errors
    /// Every fault of the sample.
    pub fn outline(sample: &Source) -> Result<Outline, Faults> {
        toml::outline(sample, &KEYS, |file| study(file, sample))
    }
}

fn study(file: &Table<'_>, source: &Source) -> Option<Study> {
    let name = file.may("name", "\"County squad\"").text();
    let head = lists(file);
    let combinations = combinations(file, &head?);
    let rounds = file.may("rounds", "2000").whole(1..=MOST_ROUNDS);
    let seed = file.may("seed", "1").whole(0..=u32::MAX);
    let assume = file
        .may("assume", "\"level\"")
        .word(&[("index", Assume::Index), ("level", Assume::Level)]);
    let keep_speed = file.may("keep_speed", "true").yes_no();
    let detail = file.may("detail", "true").yes_no();
    Some(Study {
        name,
        combinations: combinations?,
        effort: Effort {
            rounds: rounds.map_or(ROUNDS, u64::from),
            seed: seed.map_or(1, u64::from),
        },
        assume: assume.unwrap_or_default(),
        keep_speed: keep_speed.unwrap_or_default(),
        detail: detail.unwrap_or_default(),
        source: source.clone(),
    })
}

/// The lists of a table, each none where it is left out.
struct Lists {
    players: Option<Vec<Named>>,
    courses: Option<Vec<CourseEntry>>,
    conditions: Option<Vec<Day>>,
    rules: Option<Vec<Vec<Named>>>,
    changes: Option<Vec<Vec<Change>>>,
    goals: Option<Vec<Option<f64>>>,
}

/// None where a list is at fault.
fn lists(table: &Table<'_>) -> Option<Lists> {
    let given = RefCell::default();
    let players = of_list(&table.may("players", "[\"squad/*.toml\"]"), player);
    let courses = of_list(&table.may("courses", "[\"courses/*.toml\"]"), course);
    let conditions = of_list(
        &table.may("conditions", "[{ name = \"firm\", firmness = \"firm\" }]"),
        |entry| day(entry, &given),
    );
    let rules = of_list(
        &table.may("rules", "[\"built in\", \"held.rhai\"]"),
        scripts,
    );
    let changes = table.may("changes", "[\"none\", \"irons dynamic_loft +4\"]");
    let changes = of_list(&changes, |entry| change_set(table, entry));
    let goals = of_list(&table.may("goals", "[5, 0]"), goal);
    Some(Lists {
        players: players?,
        courses: courses?,
        conditions: conditions?,
        rules: rules?.map(|rules| without_doubles(rules, |scripts| names(scripts))),
        changes: changes?.map(|changes| without_doubles(changes, Vec::clone)),
        goals: goals?.map(|goals| without_doubles(goals, |goal| *goal)),
    })
}

/// What is stated twice is one; what it is, a key tells.
fn without_doubles<T, K: PartialEq>(list: Vec<T>, key: impl Fn(&T) -> K) -> Vec<T> {
    let mut known = Vec::with_capacity(list.len());
    let mut is_new = |entry: &T| {
        let key = key(entry);
        let is_new = !known.contains(&key);
        known.push(key);
        is_new
    };
    list.into_iter().filter(|entry| is_new(entry)).collect()
}

fn names(scripts: &[Named]) -> Vec<String> {
    scripts.iter().map(|script| script.name.clone()).collect()
}

/// The names given so far, by which rows are told apart.
type Given = RefCell<Vec<String>>;

/// A name that no other has; none where another has it, which is told.
fn own_name(table: &Table<'_>, example: &'static str, given: &Given) -> Option<String> {
    let name = table.need("name", example).text()?;
    if given.borrow().contains(&name) {
        table.fault(
            table.place("name"),
            format!("`{name}` stands twice"),
            "rows of the study are told apart by this name: give each its own",
        );
        return None;
    }
    given.borrow_mut().push(name.clone());
    Some(name)
}

/// The elements of a list, none where it is left out; nothing where something in it is at fault.
fn of_list<T>(entry: &Entry<'_>, read: impl Fn(&Entry<'_>) -> Option<T>) -> Option<Option<Vec<T>>> {
    let list = entry.list();
    if entry.kind().is_none() {
        return Some(None);
    }
    let list = list?;
    if list.is_empty() {
        return entry.note(
            "this list is empty".to_owned(),
            "leave it out, or write something in it".to_owned(),
        );
    }
    // All are read before a fault ends the reading, so that each is told.
    let read: Vec<Option<T>> = list.iter().map(read).collect();
    read.into_iter().collect::<Option<Vec<T>>>().map(Some)
}

fn combinations(file: &Table<'_>, head: &Lists) -> Option<Vec<Combination>> {
    let tables = file
        .may("combinations", "[{ name = \"squad at home\" }]")
        .tables(&OF_A_COMBINATION);
    if !file.has("combinations") {
        return Some(vec![complete(file, String::new(), None, head)?]);
    }
    let given = RefCell::default();
    let one = |table: &Table<'_>| {
        let name = own_name(table, "\"squad at home\"", &given);
        let own = lists(table);
        complete(table, name?, Some(&own?), head)
    };
    let all: Vec<Option<Combination>> = tables.iter().map(one).collect();
    all.into_iter().collect()
}

/// The lists of a combination, with what it leaves out from the head of the file.
fn complete(
    table: &Table<'_>,
    name: String,
    own: Option<&Lists>,
    head: &Lists,
) -> Option<Combination> {
    fn pick<'a, T>(
        own: Option<&'a Lists>,
        head: &'a Lists,
        of: impl Fn(&'a Lists) -> Option<&'a Vec<T>>,
    ) -> Option<&'a Vec<T>> {
        own.and_then(&of).or_else(|| of(head))
    }
    let missing = |key: &str, example: &str| {
        let message = format!("`{key}` is missing in {}", table.label());
        table.fault(
            table.span(),
            message,
            &format!("write for instance `{key} = [{example}]`"),
        );
    };
    let players = pick(own, head, |lists| lists.players.as_ref());
    let courses = pick(own, head, |lists| lists.courses.as_ref());
    if players.is_none() {
        missing("players", "\"squad/*.toml\", \"level:10\"");
    }
    if courses.is_none() {
        missing("courses", "\"courses/*.toml\"");
    }
    let or = |lists: Option<&Vec<_>>| lists.cloned().unwrap_or_else(|| vec![Vec::new()]);
    let changes = pick(own, head, |lists| lists.changes.as_ref());
    Some(Combination {
        name,
        players: players?.clone(),
        courses: courses?.clone(),
        conditions: pick(own, head, |lists| lists.conditions.as_ref())
            .cloned()
            .unwrap_or_else(|| vec![Day::default()]),
        rules: or(pick(own, head, |lists| lists.rules.as_ref())),
        changes: changes.cloned().unwrap_or_else(|| vec![Vec::new()]),
        goals: pick(own, head, |lists| lists.goals.as_ref())
            .cloned()
            .unwrap_or_else(|| vec![None]),
    })
}

fn named(entry: &Entry<'_>) -> Option<Named> {
    Some(Named {
        name: entry.text()?,
        span: entry.span()?,
    })
}

/// A level that does not exist is a fault of the study, whatever else the player may turn out to be.
fn player(entry: &Entry<'_>) -> Option<Named> {
    let named = named(entry)?;
    if named.name.starts_with(LEVEL)
        && let Err(error) = levels::parse_spec(&named.name)
    {
        return entry.note(
            error.to_string(),
            "write `level:tour`, `level:scratch` or a handicap from -6 to 54 as `level:5`; for women `level:20:women`"
                .to_owned(),
        );
    }
    Some(named)
}

/// What stands before the name of a level.
pub(super) const LEVEL: &str = "level:";

fn course(entry: &Entry<'_>) -> Option<CourseEntry> {
    if entry.kind() == Some(Kind::Table) {
        let table = entry.table(&["course", "tees", "pins"])?;
        let course = named(&table.need("course", "\"links.toml\""));
        let tees = table.may("tees", "\"white\"").text();
        let pins = table.may("pins", "\"back\"").text();
        return Some(CourseEntry {
            course: course?,
            tees,
            pins,
        });
    }
    Some(CourseEntry {
        course: named(entry)?,
        tees: None,
        pins: None,
    })
}

fn day(entry: &Entry<'_>, given: &Given) -> Option<Day> {
    let keys: Vec<&'static str> = Conditions::KEYS.into_iter().chain(["name"]).collect();
    let table = entry.table(&keys)?;
    let name = own_name(&table, "\"firm\"", given);
    let conditions = Conditions::of(&table);
    Some(Day {
        name: name?,
        conditions,
    })
}

/// One text, or several in a list.
fn one_or_several<T>(entry: &Entry<'_>, read: impl Fn(&Entry<'_>) -> Option<T>) -> Option<Vec<T>> {
    if entry.kind() == Some(Kind::List) {
        return of_list(entry, read).flatten();
    }
    Some(vec![read(entry)?])
}

fn scripts(entry: &Entry<'_>) -> Option<Vec<Named>> {
    let mut scripts = one_or_several(entry, named)?;
    scripts.retain(|script| !BUILT_IN.contains(&script.name.as_str()));
    Some(scripts)
}

fn change_set(table: &Table<'_>, entry: &Entry<'_>) -> Option<Vec<Change>> {
    let all = one_or_several(entry, |entry| {
        let text = entry.text()?;
        if text == NO_CHANGE {
            return Some(None);
        }
        match text.parse::<Change>() {
            Ok(change) => Some(Some(change)),
            Err(fault) => {
                let span = entry.span()?;
                let quoted = entry.source().text.get(span.clone())?;
                // Behind the quote, and the blanks that were taken off. Where something in the text is written another
                // way, as `\u00b0`, its places are not those of the file: the whole of it is pointed at.
                let start = quoted.find(&text).map(|at| span.start + at);
                let fault = fault.within(entry.source(), start.unwrap_or(span.start));
                let place = fault.span.filter(|_| start.is_some()).unwrap_or(span);
                table.fault(place, fault.message, &fault.hint.unwrap_or_default());
                None
            }
        }
    })?;
    Some(all.into_iter().flatten().collect())
}

fn goal(entry: &Entry<'_>) -> Option<Option<f64>> {
    let words = [("scratch", 0.0), ("tour", TOUR_HANDICAP)];
    Some(Some(entry.number_or_word(GOALS, "", &words)?))
}
