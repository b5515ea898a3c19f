//! The schemas of the files: made of what the readers ask, kept in profiles/schemas, and of one mind with the readers.

#![allow(clippy::expect_used)] // a test may stop

use std::fs;
use std::path::{Path, PathBuf};

use costcard::course::Course;
use costcard::files::{Faults, Source, toml::Outline};
use costcard::player::{Golfer, levels};
use costcard::study::Study;
use jsonschema::Validator;
use serde_json::{Map, Value, json};

/// The kinds of files there is a schema of.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Kind {
    Course,
    Player,
    Level,
    Study,
}

const KINDS: [Kind; 4] = [Kind::Course, Kind::Player, Kind::Level, Kind::Study];

/// A sheet of shots for the sample that names one.
const SHOTS: &str = "Club,Speed\nE6,160.5\nE6,163.0\nE6,158.2\n";

impl Kind {
    const fn name(self) -> &'static str {
        match self {
            Self::Course => "course",
            Self::Player => "player",
            Self::Level => "level",
            Self::Study => "study",
        }
    }

    /// The files that show every key.
    fn samples(self) -> Vec<PathBuf> {
        let at = |file: &str| root().join(file);
        match self {
            Self::Course => vec![
                at("tests/data/every-key/course.toml"),
                at("tests/data/every-key/course-one-tee.toml"),
            ],
            Self::Player => vec![
                at("tests/data/every-key/player.toml"),
                at("tests/data/every-key/player-raw.toml"),
                at("profiles/templates/player.toml"),
            ],
            Self::Level => vec![
                at("tests/data/every-key/level.toml"),
                at("profiles/templates/level.toml"),
            ],
            Self::Study => vec![
                at("tests/data/every-key/study.toml"),
                at("tests/data/every-key/study-combinations.toml"),
            ],
        }
    }

    fn outline(self) -> Outline {
        let outlines = self.samples().into_iter().map(|path| {
            let source = Source::read(&path).unwrap_or_else(|faults| panic!("{faults}"));
            let outline = match self {
                Self::Course => Course::outline(&source),
                Self::Player => Golfer::outline(&source, &|sheet| Ok(Source::new(sheet, SHOTS))),
                Self::Level => levels::outline(&source),
                Self::Study => Study::outline(&source),
            };
            outline.unwrap_or_else(|faults| panic!("{faults}"))
        });
        outlines.reduce(Outline::and).unwrap_or_default()
    }

    fn schema(self) -> Value {
        let name = self.name();
        self.outline().schema(
            &format!("costcard {name} file"),
            &format!("A {name} file of costcard, as `costcard check --template {name}` shows it."),
        )
    }

    fn read(self, text: &str) -> Result<(), Faults> {
        let source = Source::new("mutated.toml", text);
        match self {
            Self::Course => Course::read(&source).map(drop),
            Self::Player => Golfer::read(&source, &|sheet| Ok(Source::new(sheet, SHOTS))).map(drop),
            Self::Level => levels::read(&source).map(drop),
            Self::Study => Study::read(&source).map(drop),
        }
    }

    fn validator(self) -> Validator {
        jsonschema::draft202012::new(&self.schema()).expect("a schema")
    }
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn text(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

fn json_of(toml: &str) -> Value {
    toml::from_str(toml).unwrap_or_else(|error| panic!("{error}"))
}

/// What stands in profiles/schemas is what the readers ask. After a change of a reader, write it anew with
/// `WRITE_SCHEMAS=1 cargo test --test all schemas`.
#[test]
fn the_schemas_kept_are_those_the_readers_make() {
    for kind in KINDS {
        let path = root().join(format!("profiles/schemas/{}.schema.json", kind.name()));
        let made = serde_json::to_string_pretty(&kind.schema()).expect("JSON") + "\n";
        if std::env::var_os("WRITE_SCHEMAS").is_some() {
            fs::write(&path, &made).expect("written");
        }
        assert!(text(&path) == made, "{} is not up to date", path.display());
    }
}

/// The samples leave no key of any reader out.
#[test]
fn the_samples_show_every_key() {
    for kind in KINDS {
        assert_eq!(kind.outline().unseen(), Vec::<String>::new(), "{kind:?}");
    }
}

/// Every file of the project that is of a kind.
fn shipped(kind: Kind) -> Vec<PathBuf> {
    let folder = match kind {
        Kind::Course => "courses",
        Kind::Player => "players",
        Kind::Level => "levels",
        Kind::Study => "studies",
    };
    let files = fs::read_dir(root().join("profiles").join(folder)).expect("a folder");
    let mut files: Vec<PathBuf> = files
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|kind| kind == "toml"))
        .collect();
    files.push(root().join(format!("profiles/templates/{}.toml", kind.name())));
    files.extend(kind.samples());
    if kind == Kind::Course {
        files.push(root().join("tests/data/neutral.toml"));
    }
    files
}

#[test]
fn every_shipped_file_is_accepted() {
    for kind in KINDS {
        let validator = kind.validator();
        let files = shipped(kind);
        assert!(files.len() >= 4, "{kind:?}");
        for path in files {
            let file = json_of(&text(&path));
            let faults: Vec<String> = validator
                .iter_errors(&file)
                .map(|fault| format!("{}: {fault}", fault.instance_path()))
                .collect();
            assert_eq!(faults, Vec::<String>::new(), "{}", path.display());
        }
    }
}

/// A change at one place of a file.
type Change = (String, Value);

/// Every change that breaks the form of a file: a key nobody knows in each table, another kind of value in place of each,
/// numbers far out of range, and each table without each of its keys that the schema needs.
fn changes(file: &Value, schema: &Value) -> Vec<Change> {
    let mut all = Vec::new();
    let mut put = |what: String, changed: Value| all.push((what, changed));
    walk(file, schema, &mut Vec::new(), &mut |path, value, schema| {
        let mut with = |what: &str, new: Value| {
            let mut changed = file.clone();
            *at(&mut changed, path) = new;
            put(format!("{}: {what}", path.join(".")), changed);
        };
        match value {
            Value::Object(table) => {
                if schema.get("additionalProperties") == Some(&json!(false)) {
                    let mut more = table.clone();
                    more.insert("nobody_knows_this".to_owned(), json!(1));
                    with("an unknown key", Value::Object(more));
                }
                let needed = schema.get("required").and_then(Value::as_array);
                for key in needed.into_iter().flatten().filter_map(Value::as_str) {
                    let mut less = table.clone();
                    less.remove(key);
                    with(&format!("without {key}"), Value::Object(less));
                }
            }
            Value::Number(_) => {
                with("text for a number", json!("many"));
                with("far too much", json!(1e12));
                with("far too little", json!(-1e12));
            }
            Value::String(_) => with("a number for text", json!(7)),
            Value::Bool(_) => with("text for yes or no", json!("yes")),
            Value::Array(_) => with("a yes for a list", json!(true)),
            Value::Null => {}
        }
    });
    all
}

/// Visits every value with the schema of its place, as far as the schema says something of it.
fn walk(
    value: &Value,
    schema: &Value,
    path: &mut Vec<String>,
    visit: &mut dyn FnMut(&[String], &Value, &Value),
) {
    let schema = fitting(schema, value);
    if schema.as_object().is_none_or(Map::is_empty) {
        return;
    }
    visit(path, value, schema);
    let inner: Vec<(String, &Value, Option<&Value>)> = match value {
        Value::Object(table) => (table.iter())
            .map(|(key, value)| {
                let known = schema.get("properties").and_then(|all| all.get(key));
                (
                    key.clone(),
                    value,
                    known.or(schema.get("additionalProperties")),
                )
            })
            .collect(),
        Value::Array(list) => (list.iter().enumerate())
            .map(|(index, value)| (index.to_string(), value, schema.get("items")))
            .collect(),
        _ => Vec::new(),
    };
    for (key, value, schema) in inner {
        let Some(schema) = schema.filter(|schema| schema.is_object()) else {
            continue;
        };
        path.push(key);
        walk(value, schema, path, visit);
        path.pop();
    }
}

/// Of several forms, the one a value is of.
fn fitting<'a>(schema: &'a Value, value: &Value) -> &'a Value {
    let Some(ways) = schema.get("anyOf").and_then(Value::as_array) else {
        return schema;
    };
    let fits = |way: &&Value| {
        jsonschema::draft202012::new(way).is_ok_and(|validator| validator.is_valid(value))
    };
    ways.iter().find(fits).unwrap_or(schema)
}

fn at<'a>(file: &'a mut Value, path: &[String]) -> &'a mut Value {
    path.iter().fold(file, |value, key| match value {
        Value::Array(list) => &mut list[key.parse::<usize>().expect("an index")],
        other => &mut other[key],
    })
}

/// Whatever breaks the form of a file is refused by the schema, and by the program too: neither is laxer.
#[test]
fn files_of_a_broken_form_are_rejected_by_schema_and_reader_alike() {
    for kind in KINDS {
        let (schema, validator) = (kind.schema(), kind.validator());
        let mut count = 0;
        for sample in kind.samples() {
            let file = json_of(&text(&sample));
            for (what, changed) in changes(&file, &schema) {
                count += 1;
                assert!(
                    !validator.is_valid(&changed),
                    "{kind:?}, {what}: the schema takes it"
                );
                let toml = toml::to_string(&changed).expect("TOML");
                assert!(
                    kind.read(&toml).is_err(),
                    "{kind:?}, {what}: the program takes it\n{toml}"
                );
            }
        }
        assert!(count > 100, "{kind:?}: {count}");
    }
}

/// Structural slips as people make them.
#[test]
fn slips_are_rejected() {
    let course = Kind::Course.validator();
    let hole = "name = 'A'\n[[holes]]\npar = 4\nlength_yd = 400\ngreen = { depth_yd = 30, width_yd = 24 }\n";
    assert!(course.is_valid(&json_of(hole)));
    for slip in [
        "",
        "name = 'A'\nholes = 3",
        "name = 7\n[[holes]]\npar = 4",
        &hole.replace("par", "pra"),
        &hole.replace("4\n", "'four'\n"),
        &hole.replace("4\n", "4.5\n"),
        &hole.replace("4\n", "8\n"),
        &hole.replace("green", "greens"),
        &format!("{hole}pin = 'rear'"),
        &format!("{hole}pin = {{ along = 4 }}"),
        &format!("{hole}line_yd = [[0, 0], [0, 100, 200]]"),
        &format!("{hole}line_yd = [[0, 0], [0]]"),
        &format!("{hole}areas = [{{ lie = 'lava' }}]"),
        &format!("{hole}areas = [{{ at_yd = 20 }}]"),
        &format!("{hole}conditions = {{ firmness = 'hard' }}"),
        &format!("{hole}tees = {{ red = 'forward' }}"),
        &format!("wind_mph = 4\n{hole}"),
        &format!("tees = [{{ rating = {{}} }}]\n{hole}"),
        &format!("rating = {{ men = {{ course_rating = 71.2 }} }}\n{hole}"),
    ] {
        assert!(!course.is_valid(&json_of(slip)), "{slip}");
        assert!(Kind::Course.read(slip).is_err(), "{slip}");
    }
}
