//! Every cell is what the commands for one player print.

use std::collections::BTreeMap;
use std::fmt::Write;

use serde_json::Value;

use super::Place;

/// Nine short holes with a rating, so that an index is made and the short game inferred.
fn nine_holes() -> String {
    let mut text = "name = \"Nine\"\nrating = { men = { course_rating = 28.5, slope_rating = 105 }, women = { course_rating = 29.5, slope_rating = 108 } }\n".to_owned();
    for hole in 0..9 {
        let length = 110 + 9 * hole;
        let _ = write!(
            text,
            "[[holes]]\npar = 3\nlength_yd = {length}\ngreen = {{ depth_yd = 26, width_yd = 24 }}\n"
        );
    }
    text
}

const SCRIPT: &str = "fn hold(landing, green) { usual_run(landing, green) * 0.5 }\n\
                      fn count(shot) { if shot.lie == \"sand\" { \"from sand\" } else { () } }";

fn json(place: &Place, words: &[&str]) -> Value {
    let output = place.run(&[words, &["--rounds", "300", "--seed", "7", "--json"]].concat());
    assert!(output.status.success(), "{}", super::told(&output));
    serde_json::from_slice(&output.stdout).expect("JSON")
}

fn number(row: &BTreeMap<String, String>, name: &str) -> Option<f64> {
    let text = &row[name];
    (!text.is_empty()).then(|| text.parse().expect(name))
}

/// That columns and keys hold the same numbers, to the last digit that JSON prints.
fn assert_equal(row: &BTreeMap<String, String>, document: &Value, names: &[(&str, &str)]) {
    for (column, key) in names {
        let wanted = document[key].as_f64();
        let found = number(row, column);
        // JSON readers may be off in the last digit of a number.
        let same = match (found, wanted) {
            (Some(found), Some(wanted)) => (found - wanted).abs() <= 1e-12 * wanted.abs().max(1.0),
            (found, wanted) => found == wanted,
        };
        assert!(same, "{column}: {found:?} is not {wanted:?}\n{row:?}");
    }
}

const PLAYED: [(&str, &str); 15] = [
    ("score_mean", "score_mean"),
    ("score_sd", "score_sd"),
    ("expected_strokes", "expected_strokes"),
    ("fairways_hit_pct", "fairways_hit_pct"),
    ("greens_hit_pct", "greens_hit_pct"),
    ("greens_held_pct", "greens_held_pct"),
    ("putts_mean", "putts_mean"),
    ("three_putts_mean", "three_putts_mean"),
    ("penalties_mean", "penalties_mean"),
    ("index", "index"),
    ("course_rating", "course_rating"),
    ("bogey_rating", "bogey_rating"),
    ("slope_rating", "slope_rating"),
    ("assumed_short_game_of", "assumed_short_game_of"),
    ("rounds", "rounds"),
];

const RANKED: [(&str, &str); 7] = [
    ("score_mean", "score_mean"),
    ("goal_score_mean", "goal_score_mean"),
    ("gap", "gap"),
    ("goal_fairways_hit_pct", "goal_fairways_hit_pct"),
    ("goal_greens_hit_pct", "goal_greens_hit_pct"),
    ("goal_greens_held_pct", "goal_greens_held_pct"),
    ("assumed_short_game_of", "assumed_short_game_of"),
];

const DETAIL: [(&str, &str); 4] = [
    ("low", "low"),
    ("high", "high"),
    ("first_chance", "first_chance"),
    ("share", "share"),
];

fn compare(place: &Place, row: &BTreeMap<String, String>, detail: bool) {
    let (player, course) = (row["player"].as_str(), row["course"].as_str());
    let mut more = Vec::new();
    if row["rules"] != "built in" {
        more.extend(["--rule", row["rules"].as_str()]);
    }
    let played = json(place, &[&["play", player, course], &more[..]].concat());
    assert_equal(row, &played, &PLAYED);
    let goal = row["goal_handicap"].as_str();
    more.extend(["--goal", goal]);
    let ranked = json(place, &[&["rank", player, course], &more[..]].concat());
    assert_equal(row, &ranked, &RANKED);
    // Without intervals nobody knows what a part is likely to save: then the shots alone say which is the first.
    let saved = |part: &Value| part["saved"].as_f64().expect("a number");
    let measured = ranked["parts"].as_array().expect("parts").iter();
    let measured = measured.filter(|part| part["measured"] == true && saved(part) >= 0.1);
    let by_shots = measured.max_by(|a, b| saved(a).total_cmp(&saved(b)));
    let by_shots = by_shots.map(|part| &part["part"]);
    let first = match (detail, by_shots) {
        (false, Some(part)) if row["too_few_shots"] == "false" => part,
        _ => &ranked["work_on"],
    };
    assert_eq!(row["work_on"], first.as_str().unwrap_or_default());
    if detail {
        assert_eq!(row["start"], ranked["start"].as_str().unwrap_or_default());
        assert_eq!(
            row["measure"],
            ranked["measure"].as_str().unwrap_or_default()
        );
    }
    let parts = place.rows("out/parts.csv");
    let parts = parts.iter().filter(|part| part["cell"] == row["cell"]);
    let parts: Vec<_> = parts.collect();
    assert_eq!(parts.len(), 7);
    for wanted in ranked["parts"].as_array().expect("parts") {
        let found = parts
            .iter()
            .find(|part| wanted["part"] == part["part"].as_str())
            .expect("a part");
        assert_equal(found, wanted, &[("saved", "saved"), ("lost", "lost")]);
        assert_eq!(found["measured"], wanted["measured"].to_string());
        if detail {
            assert_equal(found, wanted, &DETAIL);
        } else {
            assert_eq!(found["low"], "");
        }
    }
}

#[test]
fn every_cell_is_what_play_and_rank_print() {
    let place = Place::with(
        "players = ['demo:rowan', 'level:12:women']\ncourses = ['nine.toml']\nrules = ['built in', 'mine.rhai']\n\
         goals = [9, 3]\nrounds = 300\nseed = 7\n",
    );
    place.write("nine.toml", &nine_holes());
    place.write("mine.rhai", SCRIPT);
    place.study("out");
    let rows = place.rows("out/cells.csv");
    assert_eq!(rows.len(), 8);
    // Each player, each rule and each goal is met.
    for cell in [0, 3, 6] {
        compare(&place, &rows[cell], false);
    }
    assert!(number(&rows[0], "assumed_short_game_of").is_some());
    assert!(number(&rows[0], "index").is_some());
}

#[test]
fn detail_is_what_rank_prints() {
    let place = Place::with(
        "players = ['demo:rowan']\ncourses = ['long.toml']\ngoals = [9]\nrounds = 300\nseed = 7\ndetail = true\n",
    );
    // Long enough that several parts of the game are played.
    let long = super::HOLE
        .replace("par = 3", "par = 4")
        .replace("140", "390");
    place.write("long.toml", &long);
    place.study("out");
    compare(&place, &place.rows("out/cells.csv")[0], true);
}

#[test]
fn changes_save_what_try_says() {
    let place = Place::with(
        "players = ['demo:rowan']\ncourses = ['hole.toml']\nchanges = ['none', ['mid irons dynamic_loft +4', 'putting level 5']]\n\
         rounds = 300\nseed = 7\n",
    );
    place.study("out");
    let rows = place.rows("out/cells.csv");
    assert_eq!(rows[0]["change_saved"], "");
    assert_eq!(
        rows[1]["changes"],
        "mid irons dynamic_loft +4; putting level 5"
    );
    let tried = json(
        &place,
        &[
            "try",
            "demo:rowan",
            "hole.toml",
            "--change",
            "mid irons dynamic_loft +4",
            "--change",
            "putting level 5",
        ],
    );
    assert_equal(&rows[1], &tried["together"], &[("change_saved", "saved")]);
    assert_equal(&rows[0], &tried["before"], &PLAYED);
    assert_ne!(rows[0]["score_mean"], rows[1]["score_mean"]);
}

/// The days, tees and pins of a study are those of a file that says the same.
#[test]
fn conditions_stand_in_place_of_the_files() {
    let place = Place::with(
        "players = ['level:10']\ncourses = [{ course = 'hole.toml', pins = 'back' }]\n\
         conditions = [{ name = 'breezy', firmness = 'firm', wind_mph = 12, wind_from_deg = 40 }]\nrounds = 300\nseed = 7\n",
    );
    let file = format!(
        "conditions = {{ firmness = 'firm', wind_mph = 12, wind_from_deg = 40 }}\n{}",
        super::HOLE
    );
    place.write("breezy.toml", &file);
    place.study("out");
    let played = json(
        &place,
        &["play", "level:10", "breezy.toml", "--pins", "back"],
    );
    let row = &place.rows("out/cells.csv")[0];
    assert_equal(row, &played, &PLAYED);
    assert_eq!(
        (row["conditions"].as_str(), row["pins"].as_str()),
        ("breezy", "back")
    );
    let usual = json(&place, &["play", "level:10", "hole.toml"]);
    assert_ne!(usual["score_mean"], played["score_mean"]);
}

/// Combinations, patterns of names, and what stands in the columns that tell inputs.
#[test]
fn combinations_and_patterns_are_cells_in_order() {
    let place = Place::with(
        "courses = ['hole.toml']\nrounds = 20\n[[combinations]]\nname = 'one'\nplayers = ['squad/*.toml']\n\
         [[combinations]]\nname = 'two'\nplayers = ['level:5']\ngoals = ['scratch']\n",
    );
    std::fs::create_dir(place.path().join("squad")).expect("a folder");
    for name in ["b", "a"] {
        let player = format!("name = '{name}'\nhandicap_index = 9\nsex = 'men'\n");
        place.write(&format!("squad/{name}.toml"), &player);
    }
    let files = place.study("out");
    let rows = place.rows("out/cells.csv");
    let told: Vec<[&str; 4]> = rows
        .iter()
        .map(|row| {
            ["cell", "combination", "player", "goal_handicap"].map(|name| row[name].as_str())
        })
        .collect();
    assert_eq!(
        told,
        [
            ["1", "one", "squad/a.toml", ""],
            ["2", "one", "squad/b.toml", ""],
            ["3", "two", "level:5", "0"]
        ]
    );
    assert_eq!(rows[0]["version"], env!("CARGO_PKG_VERSION"));
    assert_eq!(rows[0]["player_hash"].len(), 16);
    assert_ne!(rows[0]["player_hash"], rows[1]["player_hash"]);
    for name in ["columns.csv", "overview.html", "summary.svg"] {
        assert!(files.contains_key(name), "{name}");
    }
    // Every column of the tables is described.
    for table in ["cells.csv", "parts.csv"] {
        let text = String::from_utf8_lossy(&files[table]).into_owned();
        let heads = text.lines().next().expect("heads").split(',');
        let described = place.rows("out/columns.csv");
        let described = described.iter().filter(|row| row["table"] == table);
        let described: Vec<String> = described.map(|row| row["column"].clone()).collect();
        assert_eq!(heads.collect::<Vec<_>>(), described);
    }
}
