//! JSON: one document, its keys those that other programs read, its numbers finite, its bytes the same each time.

use serde_json::Value;

use super::{costcard, stdout};

fn json(words: &[&str]) -> Value {
    serde_json::from_str(&stdout(words)).expect("one JSON document")
}

/// Keys in the order of the alphabet.
fn keys(value: &Value) -> Vec<&str> {
    let mut keys: Vec<&str> = value
        .as_object()
        .expect("an object")
        .keys()
        .map(String::as_str)
        .collect();
    keys.sort_unstable();
    keys
}

/// The words of a text, in the order of the alphabet.
fn words(text: &str) -> Vec<&str> {
    let mut words: Vec<&str> = text.split_whitespace().collect();
    words.sort_unstable();
    words
}

const FLIGHT: [&str; 8] = [
    "flight",
    "--ball-speed",
    "127",
    "--launch",
    "14.1",
    "--backspin",
    "6231",
    "--json",
];
const PLAY: [&str; 6] = [
    "play",
    "level:20:women",
    "short.toml",
    "--rounds",
    "200",
    "--json",
];
const RANK: [&str; 8] = [
    "rank",
    "demo:rowan",
    "short.toml",
    "--goal",
    "5",
    "--rounds",
    "200",
    "--json",
];

#[test]
fn a_flight_has_the_keys_that_others_read() {
    let flight = json(&FLIGHT);
    assert_eq!(
        keys(&flight),
        words(
            "carry_yd side_yd apex_yd time_s descent_deg landing_speed_mph landing_spin_rpm runs"
        )
    );
    let runs = flight["runs"].as_array().expect("runs");
    let on: Vec<(&str, &str)> = runs
        .iter()
        .map(|run| {
            assert_eq!(keys(run), words("surface firmness run_yd"));
            assert!(run["run_yd"].is_f64());
            (
                run["surface"].as_str().expect("a word"),
                run["firmness"].as_str().expect("a word"),
            )
        })
        .collect();
    let all: Vec<(&str, &str)> = ["fairway", "rough", "green"]
        .into_iter()
        .flat_map(|surface| ["soft", "medium", "firm"].map(|firmness| (surface, firmness)))
        .collect();
    assert_eq!(on, all);
}

/// A 6 iron as its head meets the ball, as it is typed.
const DELIVERED: [&str; 10] = [
    "flight",
    "--json",
    "--club",
    "6 iron",
    "--club-speed",
    "92",
    "--attack",
    "-4.1",
    "--dynamic-loft",
    "20",
];

#[test]
fn a_flight_from_the_heads_figures_says_what_the_ball_got() {
    let square = json(&DELIVERED);
    assert_eq!(
        keys(&square["impact"]),
        words(
            "club ball_speed_mph launch_deg direction_deg backspin_rpm sidespin_rpm spin_loft_deg face_to_path_deg"
        )
    );
    assert_eq!(square["impact"]["club"], "6 iron");
    assert_eq!(square["side_yd"], 0.0);
    let side = |flag: &str, degrees: &str| {
        let flight = json(&[&DELIVERED[..], &[flag, degrees]].concat());
        flight["side_yd"].as_f64().expect("a number")
    };
    // An open face and a tilted sole go right; a path to the right curves back and ends left of where it began.
    assert!(side("--face", "2") > 5.0 && side("--face", "-2") < -5.0);
    assert!(side("--lie", "2") > 1.0);
    assert!(side("--path", "2") < 0.0);
}

#[test]
fn clubs_have_the_keys_that_others_read() {
    let clubs = json(&["clubs", "demo:rowan", "--goal", "9", "--json"]);
    assert_eq!(keys(&clubs), words("player goal_handicap clubs findings"));
    let rows = clubs["clubs"].as_array().expect("clubs");
    for row in rows {
        let asked = "club measured carry_yd run_yd apex_yd descent_deg held_pct gap_yd dynamic_loft_deg plays_like";
        let found = keys(row);
        for key in words(asked) {
            assert!(found.contains(&key), "{key} in {found:?}");
        }
        assert_eq!(keys(&row["held_pct"]), words("soft medium firm"));
        assert!(row["measured"].is_boolean() && row["dynamic_loft_deg"].is_f64());
    }
    assert_eq!(
        rows[0]["plays_like"],
        Value::Null,
        "a driver is hit from a tee"
    );
    assert!(rows[5]["plays_like"].is_string());
    assert_eq!(rows[rows.len() - 1]["gap_yd"], Value::Null);
    let gap = rows[0]["carry_yd"]
        .as_f64()
        .zip(rows[1]["carry_yd"].as_f64());
    let (longer, shorter) = gap.expect("numbers");
    let told = rows[0]["gap_yd"].as_f64().expect("a number");
    assert!((told - (longer - shorter)).abs() < 1e-9, "{told}");
}

#[test]
fn wind_from_0_blows_into_the_face_and_from_90_to_the_left() {
    let blown = |from: &str| json(&[&FLIGHT[..], &["--wind", "15", "--wind-from", from]].concat());
    let carry = |flight: &Value| flight["carry_yd"].as_f64().expect("a number");
    let calm = carry(&json(&FLIGHT));
    assert!(carry(&blown("0")) < calm - 5.0);
    assert!(carry(&blown("180")) > calm + 3.0);
    assert!(blown("90")["side_yd"].as_f64().expect("a number") < -5.0);
}

#[test]
fn a_straight_shot_has_no_negative_zero() {
    let flight = stdout(&FLIGHT);
    assert!(
        !flight.contains("-0.0,") && !flight.contains("-0.0\n"),
        "{flight}"
    );
}

#[test]
fn rounds_have_the_keys_that_others_read() {
    let play = json(&PLAY);
    assert_eq!(
        keys(&play),
        words(
            "inputs rounds rules seed score_mean score_sd scores expected_strokes fairways_hit_pct greens_hit_pct greens_held_pct \
             putts_mean three_putts_mean penalties_mean holes index course_rating bogey_rating slope_rating \
             assumed_short_game_of fits"
        )
    );
    // Three holes make no index and have no rating.
    for key in ["index", "course_rating", "bogey_rating", "slope_rating"] {
        assert!(play[key].is_null(), "{key}: {}", play[key]);
    }
    assert_eq!(
        (play["rounds"].as_u64(), play["seed"].as_u64()),
        (Some(200), Some(1))
    );
    let holes = play["holes"].as_array().expect("holes");
    assert_eq!(holes.len(), 3);
    for hole in holes {
        assert_eq!(
            keys(hole),
            words("number par length_yd score_mean expected_strokes fairway_hit_pct green_hit_pct")
        );
        // A par 3 has no fairway to hit.
        assert_eq!(
            hole["fairway_hit_pct"].is_null(),
            hole["par"] == 3,
            "{hole}"
        );
    }
}

/// Every round has one score, and together they make the mean and the spread.
#[test]
fn the_scores_of_all_rounds_make_their_mean_and_spread() {
    let play = json(&PLAY);
    let scores = play["scores"].as_array().expect("scores").iter();
    let scores: Vec<(f64, f64)> = scores
        .map(|share| {
            assert_eq!(keys(share), words("score rounds_pct"));
            let figure = |key: &str| share[key].as_f64().expect("a number");
            (figure("score"), figure("rounds_pct") / 100.0)
        })
        .collect();
    assert!(scores.len() > 3 && scores.is_sorted_by(|a, b| a.0 < b.0));
    let sum = |of: &dyn Fn(f64) -> f64| scores.iter().map(|(s, share)| of(*s) * share).sum::<f64>();
    let mean = play["score_mean"].as_f64().expect("a mean");
    let sd = play["score_sd"].as_f64().expect("a spread");
    assert!((sum(&|_| 1.0) - 1.0).abs() < 1e-9);
    assert!((sum(&|s| s) - mean).abs() < 1e-9);
    assert!((sum(&|s| (s - mean).powi(2)).sqrt() - sd).abs() < 1e-6);
}

#[test]
fn one_round_is_finite_too() {
    let play = json(&[
        "play",
        "level:scratch",
        "short.toml",
        "--rounds",
        "1",
        "--json",
    ]);
    for key in [
        "score_mean",
        "score_sd",
        "expected_strokes",
        "putts_mean",
        "penalties_mean",
    ] {
        assert!(play[key].is_f64(), "{key}: {}", play[key]);
    }
}

#[test]
fn a_card_has_the_keys_that_others_read_and_adds_up() {
    let rank = json(&RANK);
    assert_eq!(
        keys(&rank),
        words(
            "score_mean goal_score_mean gap fairways_hit_pct goal_fairways_hit_pct greens_hit_pct \
             goal_greens_hit_pct greens_held_pct goal_greens_held_pct parts work_on start measure beyond_bag shots_measured too_few_shots rules assumed_short_game_of fits \
             told_apart ahead more_shots shapley_sum inputs"
        )
    );
    assert_eq!(
        keys(&rank["inputs"]),
        words("player course goal keep_speed tees pins scripts rounds seed assume version")
    );
    let number = |key: &str| rank[key].as_f64().expect("a number");
    assert!((number("gap") - (number("score_mean") - number("goal_score_mean"))).abs() < 1e-9);
    let parts = rank["parts"].as_array().expect("parts");
    let names: Vec<&str> = parts
        .iter()
        .filter_map(|part| part["part"].as_str())
        .collect();
    assert_eq!(
        names,
        [
            "tee shots",
            "long approach",
            "mid irons",
            "short irons",
            "short game",
            "sand",
            "putting"
        ]
    );
    for part in parts {
        assert_eq!(
            keys(part),
            words("part lost saved measured low high likely first_chance share traits")
        );
        let number = |key: &str| part[key].as_f64().expect("a number");
        assert!((number("low")..=number("high")).contains(&number("likely")));
        for found in part["traits"].as_array().expect("traits") {
            assert!(found["trait"].is_string() && found["saved"].is_f64());
        }
        assert!(part["lost"].is_f64() && part["saved"].is_f64() && part["measured"].is_boolean());
    }
    assert!(names.contains(&rank["work_on"].as_str().expect("a part")));
    let sum = |key: &str| -> f64 { parts.iter().filter_map(|part| part[key].as_f64()).sum() };
    assert!((sum("share") - number("shapley_sum")).abs() < 1e-9);
    assert!((sum("first_chance") - 1.0).abs() < 1e-9);
}

#[test]
fn the_same_seed_gives_the_same_bytes_on_any_number_of_threads() {
    for command in [&PLAY[..], &RANK[..]] {
        let on = |threads| stdout(&[command, &["--seed", "7", "--threads", threads]].concat());
        let one = on("1");
        assert_eq!(one, on("2"));
        assert_eq!(one, on("8"));
        let other = stdout(&[command, &["--seed", "8"]].concat());
        assert_ne!(one, other, "another seed plays other rounds");
    }
}

#[test]
fn units_never_change_the_json() {
    let metres = stdout(&[&FLIGHT[..], &["--units", "metres"]].concat());
    assert_eq!(metres, stdout(&FLIGHT));
}

#[test]
fn what_is_assumed_is_noted_on_stderr_and_never_on_stdout() {
    let output = costcard(&RANK);
    let told = String::from_utf8(output.stderr).expect("UTF-8");
    assert!(
        told.starts_with("note: Rowan Pike: nobody measured"),
        "{told}"
    );
    assert!(serde_json::from_slice::<Value>(&output.stdout).is_ok());
    let level = costcard(&PLAY);
    assert!(level.stderr.is_empty(), "a level is all assumption");
}

#[test]
fn faults_of_checked_files_have_their_places() {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(
        folder.path().join("ann.toml"),
        "name = \"Ann\"\nhandicap_index = 99\nsex = \"men\"\n",
    )
    .expect("written");
    let output = super::costcard_in(
        folder.path(),
        &["check", "ann.toml", "demo:parkland", "--json"],
    );
    assert_eq!(output.status.code(), Some(2));
    let check: Value = serde_json::from_slice(&output.stdout).expect("one JSON document");
    assert_eq!(keys(&check), ["files"]);
    let [ann, parkland] = &check["files"].as_array().expect("files")[..] else {
        panic!("two files: {check}");
    };
    assert_eq!(keys(ann), ["faults", "file", "kind"]);
    assert_eq!(
        (&ann["file"], &ann["kind"]),
        (&"ann.toml".into(), &"player".into())
    );
    let fault = &ann["faults"][0];
    assert_eq!(keys(fault), ["column", "hint", "line", "message"]);
    assert_eq!((&fault["line"], &fault["column"]), (&2.into(), &18.into()));
    assert_eq!(parkland["kind"], "course");
    assert_eq!(parkland["faults"].as_array().map(Vec::len), Some(0));
}

/// Faults stand under the file they are in, whatever kind that is; those beyond the listed are counted.
#[test]
fn what_is_wrong_in_a_courses_script_is_told_as_a_scripts() {
    let folder = tempfile::tempdir().expect("a folder");
    let strange: String = (0..30).map(|key| format!("strange_{key} = 1\n")).collect();
    let hole = "[[holes]]\npar = 4\nlength_yd = 400\ngreen = { depth_yd = 30, width_yd = 24 }\n";
    for (name, text) in [
        (
            "bad.rhai",
            "fn hold(landing, green) { landing.nothing }".to_owned(),
        ),
        (
            "ruled.toml",
            format!("name = \"R\"\nrules = [\"bad.rhai\"]\n{hole}"),
        ),
        ("strange.toml", format!("name = \"S\"\n{strange}{hole}")),
    ] {
        std::fs::write(folder.path().join(name), text).expect("written");
    }
    let output = super::costcard_in(
        folder.path(),
        &["check", "ruled.toml", "strange.toml", "--json"],
    );
    let check: Value = serde_json::from_slice(&output.stdout).expect("one JSON document");
    let [ruled, script, strange] = &check["files"].as_array().expect("files")[..] else {
        panic!("three files: {check}");
    };
    assert_eq!(
        (&ruled["kind"], &script["kind"]),
        (&"course".into(), &"script".into())
    );
    let told = strange["faults"].as_array().map_or(0, Vec::len);
    let more = strange["more_faults"].as_u64().expect("more");
    assert_eq!((told, more >= 10), (20, true), "{more}");
}
