//! `goal`, and what is inferred of the short game, from outside.

use std::path::Path;
use std::process::Output;

use serde_json::Value;

use super::{costcard, costcard_in, text, told};

/// Nine short holes with a rating, so that a test is quick.
pub(super) fn nine() -> String {
    let mut course = String::from(
        "name = \"Nine Holes\"\n[rating]\ncourse_rating = 29.6\nslope_rating = 120\n[defaults]\nfairway_width_yd = 36\n",
    );
    for (par, yards) in [
        (4, 350),
        (3, 150),
        (3, 170),
        (5, 480),
        (3, 140),
        (4, 330),
        (3, 180),
        (3, 160),
        (3, 155),
    ] {
        course += &format!(
            "[[holes]]\npar = {par}\nlength_yd = {yards}\ngreen = {{ depth_yd = 29, width_yd = 26 }}\n"
        );
    }
    course
}

const LEE: &str = r#"
name = "Lee"
handicap_index = 14
sex = "men"
[[clubs]]
club = "driver"
ball_speed_mph = 134
launch_deg = 12
[[clubs]]
club = "7 iron"
ball_speed_mph = 103
launch_deg = 18
[[clubs]]
club = "5 hybrid"
ball_speed_mph = 115
launch_deg = 15
[[clubs]]
club = "9 iron"
ball_speed_mph = 93
launch_deg = 22
"#;

/// Scripts that replace rules. A ball off the rough is in the rounds of every golfer.
const SCRIPTS: [(&str, &str); 4] = [
    (
        "usual.rhai",
        "fn hold(landing, green) { usual_run(landing, green) }",
    ),
    ("dead.rhai", "fn hold(landing, green) { 0 }"),
    (
        "fails.rhai",
        "fn hold(landing, green) { if landing.lie == \"rough\" { \"far\" } else { 1 } }",
    ),
    (
        "turned.rhai",
        "fn worth(part) { if part.measured { 1 - part.saved_strokes } else { 100 } }",
    ),
];

/// A run in a folder that holds a player, the course and scripts.
fn run(words: &[&str]) -> Output {
    let folder = tempfile::tempdir().expect("a folder");
    let write = |name: &str, text: &str| {
        std::fs::write(folder.path().join(Path::new(name)), text).expect("written");
    };
    write("lee.toml", LEE);
    write("nine.toml", &nine());
    let unrated = nine().replace("[rating]\ncourse_rating = 29.6\nslope_rating = 120\n", "");
    write("unrated.toml", &unrated);
    for (name, script) in SCRIPTS {
        write(name, script);
    }
    costcard_in(folder.path(), words)
}

fn json(words: &[&str]) -> Value {
    let output = run(words);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    serde_json::from_slice(&output.stdout).expect("one JSON document")
}

fn keys(value: &Value) -> Vec<&str> {
    let object = value.as_object().expect("an object");
    let mut keys: Vec<&str> = object.keys().map(String::as_str).collect();
    keys.sort_unstable();
    keys
}

fn words(text: &str) -> Vec<&str> {
    let mut words: Vec<&str> = text.split_whitespace().collect();
    words.sort_unstable();
    words
}

const GOAL: [&str; 7] = [
    "goal",
    "lee.toml",
    "nine.toml",
    "--to",
    "9,30",
    "--rounds",
    "200",
];

#[test]
fn goals_have_the_keys_that_others_read() {
    let document = json(&[&GOAL[..], &["--json"]].concat());
    assert_eq!(
        keys(&document),
        words("index assumed_short_game_of fits courses goals")
    );
    assert!(document["assumed_short_game_of"].is_f64() && document["fits"].is_boolean());
    let course = &document["courses"][0];
    let asked = "course holes course_rating bogey_rating slope_rating stated score_mean index extra_strokes rules";
    assert_eq!(keys(course), words(asked));
    assert_eq!(
        (&course["stated"], &course["extra_strokes"]),
        (&true.into(), &0.0.into())
    );
    assert_eq!(course["index"], document["index"]);
    let goals = document["goals"].as_array().expect("goals");
    assert_eq!(goals.len(), 2);
    for goal in goals {
        assert_eq!(
            keys(goal),
            words("to reached goal_index parts steps figures courses")
        );
        let reached = document["index"].as_f64() <= goal["to"].as_f64();
        assert_eq!(goal["reached"].as_bool(), Some(reached));
        let parts = goal["parts"].as_array().expect("parts");
        assert_eq!(parts.len(), 7);
        for part in parts {
            assert_eq!(
                keys(part),
                words("part lost saved measured index_if_perfect reaches_alone")
            );
            let alone = part["index_if_perfect"].as_f64() <= goal["to"].as_f64();
            assert_eq!(part["reaches_alone"].as_bool(), Some(alone));
        }
        for figure in goal["figures"].as_array().expect("figures") {
            assert_eq!(keys(figure), words("name player goal"));
        }
        for step in goal["steps"].as_array().expect("steps") {
            assert_eq!(keys(step), words("parts toward way_pct"));
        }
        assert_eq!(
            keys(&goal["courses"][0]),
            words("course goal_score_mean gap")
        );
    }
}

#[test]
fn the_same_seed_gives_the_same_goals_on_any_number_of_threads() {
    let on = |threads| json(&[&GOAL[..], &["--json", "--threads", threads]].concat());
    assert_eq!(on("1"), on("3"));
}

#[test]
fn a_page_of_goals_says_what_is_enough_and_reads_in_metres() {
    let output = run(&[&GOAL[..], &["--units", "metres"]].concat());
    let page = text(&output.stdout);
    assert!(
        page.starts_with("Lee, off 14, at Nine Holes. Rounds as they are today make an index"),
        "{page}"
    );
    let flowing = page.replace('\n', " ");
    for said in [
        "\nOff 9: ",
        "\nOff 30: reached today",
        "left from 46 to 91 m",
        "putts holed from 1.5 m",
    ] {
        assert!(page.contains(said), "{said}: {page}");
    }
    assert!(
        flowing.contains("short game, bunker play and putting of golfers off"),
        "{page}"
    );
    assert!(!page.contains(" yd") && !page.contains(" ft"), "{page}");
    for line in page.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
}

/// The card and the rounds say what was inferred, in words and for programs; `--assume level` leaves it.
#[test]
fn cards_and_rounds_say_what_was_inferred() {
    let quick = ["--rounds", "100"];
    for command in [
        &["rank", "lee.toml", "nine.toml", "--goal", "9"][..],
        &["play", "lee.toml", "nine.toml"],
    ] {
        let words = [command, &quick[..]].concat();
        let page = text(&run(&words).stdout).replace('\n', " ");
        assert!(page.contains("playing off 14"), "{page}");
        let inferred = json(&[&words[..], &["--json"]].concat());
        assert!(inferred["assumed_short_game_of"].is_f64(), "{inferred}");
        let level = json(&[&words[..], &["--json", "--assume", "level"]].concat());
        assert!(
            level["assumed_short_game_of"].is_null() && level["fits"] == true,
            "{level}"
        );
    }
}

#[test]
fn goals_that_cannot_be_weighed_are_faults_of_input() {
    let short = told(&["goal", "demo:rowan", "short.toml", "--to", "9"]);
    assert!(
        short.contains("Three Holes has 3 holes: a handicap index needs 18 or 9"),
        "{short}"
    );
    assert!(
        short.contains("hint: name courses of 18 or 9 holes"),
        "{short}"
    );
    for (to, said) in [
        ("nine", "`--to` must be a handicap index, not `nine`"),
        ("9,", "`--to` must be a handicap index, not ``"),
        ("9,60", "`--to` is 60, but handicaps reach from"),
        ("1,2,3,4,5,6,7,8,9", "`--to` names 9 goals"),
    ] {
        let told = told(&["goal", "demo:rowan", "demo:parkland", "--to", to]);
        assert!(told.contains(said), "{told}");
    }
    let few = told(&[
        "goal",
        "demo:rowan",
        "demo:parkland",
        "--to",
        "9",
        "--rounds",
        "39",
    ]);
    assert!(few.contains("39"), "{few}");
    let swapped = told(&["goal", "demo:parkland", "demo:rowan", "--to", "9"]);
    assert!(swapped.contains("the player comes first"), "{swapped}");
    let assume = told(&["play", "demo:rowan", "demo:parkland", "--assume", "luck"]);
    assert!(assume.contains("'luck'"), "{assume}");
}

/// A missing player and two missing courses are told in one go.
#[test]
fn faults_of_a_player_and_of_every_course_are_told_at_once() {
    let output = costcard(&["goal", "no.toml", "none.toml", "demo:nowhere", "--to", "5"]);
    let told = text(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{told}");
    for name in ["no.toml", "none.toml", "demo:nowhere"] {
        assert!(told.contains(name), "{told}");
    }
}

/// Words of a command, its course and what more is asked.
const INFERRED: [&[&str]; 3] = [
    &["rank", "lee.toml", "unrated.toml", "--goal", "9"],
    &["play", "lee.toml", "unrated.toml"],
    &["goal", "lee.toml", "unrated.toml", "--to", "9"],
];

#[test]
fn a_script_of_the_usual_run_changes_nothing_of_what_is_inferred() {
    for words in INFERRED {
        let words = [words, &["--rounds", "300", "--json"]].concat();
        let without = text(&run(&words).stdout);
        let ruled = text(&run(&[&words[..], &["--rule", "usual.rhai"]].concat()).stdout);
        let bare = |text: &str| text.split_whitespace().collect::<String>();
        let named = "\"rules\":[\"usual.rhai\"]";
        assert!(bare(&ruled).contains(named), "{ruled}");
        let figures = |text: &str| super::rules::without_the_reckoned(text);
        assert!(
            without.contains("\"assumed_short_game_of\": ")
                && !without.contains(": null,\n  \"fits\"")
        );
        let ruled = bare(&ruled).replace(named, "\"rules\":[]");
        assert_eq!(figures(&ruled), figures(&bare(&without)));
    }
}

#[test]
fn ratings_and_what_is_inferred_from_them_are_by_the_rules_of_the_command() {
    let play = [INFERRED[1], &["--rounds", "300", "--json"]].concat();
    let usual = json(&play);
    let dead = json(&[&play[..], &["--rule", "dead.rhai"]].concat());
    let goal = [INFERRED[2], &["--rounds", "300", "--json"]].concat();
    let goal = json(&[&goal[..], &["--rule", "dead.rhai"]].concat());
    assert_ne!(usual["course_rating"], dead["course_rating"]);
    let course = &goal["courses"][0];
    assert_eq!(course["course_rating"], dead["course_rating"]);
    assert_eq!(course["rules"], serde_json::json!(["dead.rhai"]));
    assert_eq!(goal["assumed_short_game_of"], dead["assumed_short_game_of"]);
    let page =
        text(&run(&[INFERRED[2], &["--rounds", "300", "--rule", "dead.rhai"]].concat()).stdout);
    assert!(page.contains("Rules in force: dead.rhai."), "{page}");
}

#[test]
fn a_rule_that_fails_while_the_short_game_is_inferred_gives_no_figure() {
    for words in INFERRED {
        let output = run(&[words, &["--rounds", "300", "--rule", "fails.rhai"]].concat());
        let told = text(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{told}");
        assert!(told.contains("fails.rhai:1:"), "{told}");
        assert!(output.stdout.is_empty(), "{}", text(&output.stdout));
    }
}

/// What a part saves at a level's standard, and how sure that is, are the same question to `rank` and to `try`.
#[test]
fn the_card_and_a_change_are_as_sure_of_what_was_inferred() {
    let on = ["lee.toml", "nine.toml", "--rounds", "300"];
    let card = json(&[&["rank"], &on[..], &["--goal", "5", "--json"]].concat());
    let changes = ["--change", "putting level 5", "--json"];
    let tried = json(&[&["try"], &on[..], &changes[..]].concat());
    assert!(card["assumed_short_game_of"].is_f64());
    let parts = card["parts"].as_array().expect("parts");
    let part = parts.iter().find(|part| part["part"] == "putting");
    let [part, change] = [part.expect("putting"), &tried["changes"][0]];
    let number = |of: &Value, key: &str| of[key].as_f64().expect("a number");
    let wide = number(part, "high") - number(part, "low");
    for key in ["saved", "low", "high"] {
        let [ranked, tried] = [part, change].map(|of| number(of, key));
        assert!(
            (ranked - tried).abs() < 0.2 * wide,
            "{key}: {ranked} {tried}"
        );
    }
}

/// The rule puts what nobody measured first, and of the rest what saves least.
#[test]
fn a_rule_orders_the_measured_parts_before_those_that_are_assumed() {
    let words = [
        "rank",
        "lee.toml",
        "nine.toml",
        "--goal",
        "5",
        "--rounds",
        "300",
    ];
    let words = [&words[..], &["--rule", "turned.rhai", "--json"]].concat();
    let card = json(&words);
    let parts = card["parts"].as_array().expect("parts");
    let saved = |part: &&Value| part["saved"].as_f64().expect("a number");
    let measured = parts.iter().filter(|part| part["measured"] == true);
    let open: Vec<&Value> = measured.filter(|part| saved(part) > 0.05).collect();
    let least = open.iter().min_by(|a, b| saved(a).total_cmp(&saved(b)));
    let least = least.expect("a measured part that would save strokes");
    assert!(open.len() > 1 && parts.iter().any(|part| part["worth"] == 100.0));
    assert_eq!(card["work_on"], least["part"]);
    let shown = text(&run(&words[..words.len() - 1]).stdout);
    let shown = shown.split_whitespace().collect::<Vec<_>>().join(" ");
    let remark = "is worth more by the rule, if it is as assumed; but nobody measured it";
    assert!(shown.contains(remark), "{shown}");
}
