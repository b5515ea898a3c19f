//! Parts of a study on many machines, and what they come to together.

use super::{Place, SMALL, assert_same, told};

fn part(place: &Place, words: &[&str], variables: &[(&str, &str)]) -> std::process::Output {
    let mut command = place.command(&[&["study", "study.toml"], words].concat());
    command.envs(variables.iter().copied());
    command.output().expect("a program")
}

fn merge(place: &Place, words: &[&str]) -> std::process::Output {
    place.run(&[&["study", "--merge"], words].concat())
}

#[test]
fn parts_merge_to_the_bytes_of_a_single_run() {
    let place = Place::with(SMALL);
    let whole = place.study("whole");
    for (number, folder) in [("1/3", "p1"), ("2/3", "p2"), ("3/3", "p3")] {
        let output = part(&place, &["--out", folder, "--part", number], &[]);
        assert!(output.status.success(), "{}", told(&output));
    }
    let cells: usize = ["p1", "p2", "p3"]
        .map(|folder| place.rows(&format!("{folder}/cells.csv")).len())
        .iter()
        .sum();
    assert_eq!(cells, 8);
    let merged = merge(&place, &["p3", "p1", "p2", "--out", "merged"]);
    assert!(merged.status.success(), "{}", told(&merged));
    assert_same(&place.files("merged"), &whole);
    refusals(&place);
}

/// What cannot be merged is refused, and it is said why.
fn refusals(place: &Place) {
    let refused = |words: &[&str], wanted: &str| {
        let output = merge(place, words);
        assert_eq!(output.status.code(), Some(2), "{words:?}");
        assert!(
            told(&output).contains(wanted),
            "{words:?}: {}",
            told(&output)
        );
        assert!(!place.path().join("none/cells.csv").exists());
    };
    refused(
        &["p1", "p3", "--out", "none"],
        "of 3 parts these are missing: 2",
    );
    refused(
        &["p1", "p2", "p2", "--out", "none"],
        "`p2` is part 2, and so is `p2`",
    );
    let many = part(place, &["--out", "many", "--part", "1/200000000"], &[]);
    assert!(many.status.success(), "{}", told(&many));
    refused(&["many", "--out", "none"], "12, 13 and 199999987 more");
    refused(
        &["p1", "p2", "p3", "--out", "p3"],
        "`p3` is one of the parts",
    );
    refused(
        &["p1", "nowhere", "--out", "none"],
        "there is no study in `nowhere`",
    );
    refused(
        &["p1", "whole", "--out", "none"],
        "`whole` is a part of 1, `p1` one of 3",
    );
    let other = part(place, &["--out", "p1", "--part", "2/3"], &[]);
    assert_eq!(other.status.code(), Some(2));
    assert!(
        told(&other).contains("`p1` holds part 1/3"),
        "{}",
        told(&other)
    );
    // A part that was begun again and ended is not finished.
    let journal = place.path().join("p2/study.journal");
    let text = std::fs::read_to_string(&journal).expect("a journal");
    let lines: Vec<&str> = text.lines().collect();
    std::fs::write(&journal, lines[..lines.len() - 1].join("\n") + "\n").expect("written");
    refused(&["p1", "p2", "p3", "--out", "none"], "`p2` is not finished");
    std::fs::write(&journal, text).expect("written");
    // A folder with the cells of another study stays as it is.
    place.write(
        "other.toml",
        &SMALL.replace("\"Small\"", "\"Other\"").replace("40", "50"),
    );
    let output = place.run(&["study", "other.toml", "--out", "other"]);
    assert!(output.status.success(), "{}", told(&output));
    let before = place.files("other");
    let output = merge(place, &["p1", "p2", "p3", "--out", "other"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        told(&output).contains("cells of the study \"Other\""),
        "{}",
        told(&output)
    );
    assert_same(&place.files("other"), &before);
    // An input that was another on one machine.
    place.write("hole.toml", &super::HOLE.replace("140", "150"));
    let output = part(place, &["--out", "p2", "--part", "2/3"], &[]);
    assert!(output.status.success(), "{}", told(&output));
    refused(&["p1", "p2", "p3", "--out", "none"], "`hole.toml` in");
    // Another study.
    place.write("study.toml", &SMALL.replace("40", "50"));
    let output = part(place, &["--out", "p3", "--part", "3/3"], &[]);
    assert!(output.status.success(), "{}", told(&output));
    refused(
        &["p1", "p2", "p3", "--out", "none"],
        "is of another study than `p1`",
    );
}

/// The lines of a journal as its writer makes them.
#[cfg(unix)]
fn journal(documents: &[String]) -> String {
    use sha2::{Digest, Sha256};
    let line = |json: &String| {
        let digest = Sha256::digest(json.as_bytes());
        let check: String = digest[..8]
            .iter()
            .map(|byte| format!("{byte:02x}"))
            .collect();
        format!("{check} {json}\n")
    };
    documents.iter().map(line).collect()
}

/// Three hundred parts of a cell each, where a process may have no more than forty files open.
#[cfg(unix)]
#[test]
fn more_parts_merge_than_files_may_be_open() {
    let players: Vec<String> = (0..300)
        .map(|place| format!("'level:{:.1}'", f64::from(place) / 10.0))
        .collect();
    let place = Place::with(&format!(
        "players = [{}]\ncourses = ['far.toml']\n",
        players.join(", ")
    ));
    // Nothing is played on a course that is not there.
    let output = place.run(&["study", "study.toml", "--out", "whole"]);
    assert_eq!(output.status.code(), Some(2));
    let whole = place.files("whole");
    let text = String::from_utf8(whole["study.journal"].clone()).expect("text");
    let lines: Vec<&str> = text
        .lines()
        .filter_map(|line| line.split_once(' '))
        .map(|(_, json)| json)
        .collect();
    assert_eq!(lines.len(), 302);
    for part in 1..=300 {
        let head = lines[0].replace("\"part\":[1,1]", &format!("\"part\":[{part},300]"));
        assert_ne!(head, lines[0]);
        // Parts are named in another order than that of their cells.
        let cell = lines[part * 7 % 300 + 1].to_owned();
        let end = lines[301].replace("300", "1");
        std::fs::create_dir(place.path().join(format!("p{part}"))).expect("made");
        place.write(
            &format!("p{part}/study.journal"),
            &journal(&[head, cell, end]),
        );
    }
    let mut command = std::process::Command::new("sh");
    let program = assert_cmd::cargo::cargo_bin("costcard");
    let script = "ulimit -n 40; exec \"$0\" study --merge p* --out merged --threads 1";
    command
        .current_dir(place.path())
        .args(["-c", script])
        .arg(program);
    let merged = command.output().expect("a shell");
    assert!(
        told(&merged).contains("at far.toml, and 299 more cells: "),
        "{}",
        told(&merged)
    );
    assert_same(&place.files("merged"), &whole);
    // One of them twice over.
    let twice = std::fs::read_to_string(place.path().join("p1/study.journal")).expect("a journal");
    let lines: Vec<&str> = twice.lines().collect();
    let twice = [lines[0], lines[1], lines[1], lines[2]].join("\n") + "\n";
    place.write("p1/study.journal", &twice);
    let folders: Vec<String> = (1..=300).map(|part| format!("p{part}")).collect();
    let mut words: Vec<&str> = folders.iter().map(String::as_str).collect();
    words.extend(["--out", "none"]);
    let output = merge(&place, &words);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        told(&output).contains("`p1` holds cells that others hold too"),
        "{}",
        told(&output)
    );
}

#[test]
fn the_part_is_read_from_the_job() {
    let place = Place::with(
        "players = ['level:5', 'level:10', 'level:15', 'level:20']\ncourses = ['hole.toml']\nrounds = 20\n",
    );
    let slurm = |id: &'static str, min: &'static str, step: &'static str| {
        vec![
            ("SLURM_ARRAY_TASK_ID", id),
            ("SLURM_ARRAY_TASK_COUNT", "4"),
            ("SLURM_ARRAY_TASK_MIN", min),
            ("SLURM_ARRAY_TASK_STEP", step),
        ]
    };
    let kubernetes = vec![("JOB_COMPLETION_INDEX", "2"), ("COSTCARD_PARTS", "4")];
    for (folder, variables, said, player) in [
        ("a", slurm("2", "1", "1"), "part 2/4", "level:10"),
        ("b", slurm("0", "0", "1"), "part 1/4", "level:5"),
        ("c", slurm("16", "10", "2"), "part 4/4", "level:20"),
        ("d", kubernetes, "part 3/4", "level:15"),
    ] {
        let output = part(&place, &["--out", folder], &variables);
        assert!(output.status.success(), "{}", told(&output));
        assert!(told(&output).contains(said), "{}", told(&output));
        let rows = place.rows(&format!("{folder}/cells.csv"));
        let players: Vec<&str> = rows.iter().map(|row| row["player"].as_str()).collect();
        assert_eq!(players, [player]);
    }
    // What is typed goes before, and a job that does not say of how many is asked.
    let typed = part(
        &place,
        &["--out", "e", "--part", "1/1"],
        &slurm("2", "1", "1"),
    );
    assert!(typed.status.success());
    assert_eq!(place.rows("e/cells.csv").len(), 4);
    let alone = part(&place, &["--out", "f"], &[("JOB_COMPLETION_INDEX", "2")]);
    assert_eq!(alone.status.code(), Some(2));
    assert!(told(&alone).contains("COSTCARD_PARTS"), "{}", told(&alone));
    for wrong in ["0/4", "5/4", "two", "1/0"] {
        let output = part(&place, &["--out", "g", "--part", wrong], &[]);
        assert_eq!(output.status.code(), Some(2), "{wrong}");
    }
}
