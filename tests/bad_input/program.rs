//! Hostile numbers on the command line.

use crate::program::{FLIGHT, stdout, told};

/// What is told of a flag that overrides or follows those of a flight.
fn flight_with(flag: &str, value: &str) -> String {
    let mut words: Vec<&str> = FLIGHT.to_vec();
    match words.iter().position(|word| *word == flag) {
        Some(at) => words[at + 1] = value,
        None => words.extend([flag, value]),
    }
    told(&words)
}

#[test]
fn every_number_of_a_flight_has_a_range() {
    for (flag, too_much, range) in [
        ("--ball-speed", "221", "20 to 220 mph"),
        ("--launch", "-21", "-20 to 70 degrees"),
        ("--backspin", "15001", "-3000 to 15000 rpm"),
        ("--direction", "46", "-45 to 45 degrees"),
        ("--sidespin", "-8001", "-8000 to 8000 rpm"),
        ("--temperature", "126", "10 to 125 °F"),
        ("--altitude", "15001", "-1500 to 15000 feet"),
        ("--humidity", "101", "0 to 100 percent"),
        ("--wind", "61", "0 to 60 mph"),
        ("--wind-from", "361", "0 to 360 degrees"),
        ("--stimp", "17", "5 to 16 feet"),
    ] {
        for value in [too_much, "NaN", "inf", "1e999", "fast", ""] {
            let told = flight_with(flag, value);
            let said = format!("error: invalid value '{value}' for '{flag}");
            assert!(told.starts_with(&said), "{told}");
            assert!(
                told.contains(&format!("write a number from {range}")),
                "{told}"
            );
        }
    }
}

#[test]
fn the_ends_of_every_range_fly() {
    for (ball_speed, launch, spin) in [
        ("20", "-20", "-3000"),
        ("220", "70", "15000"),
        ("220", "0", "-0"),
    ] {
        for sidespin in ["-8000", "8000"] {
            let flight = stdout(&[
                "flight",
                "--ball-speed",
                ball_speed,
                "--launch",
                launch,
                "--backspin",
                spin,
                "--sidespin",
                sidespin,
                "--wind",
                "60",
                "--altitude",
                "15000",
                "--json",
            ]);
            // A number that is not finite would be written as null.
            assert!(!flight.contains("null"), "{flight}");
        }
    }
}

#[test]
fn a_negative_zero_is_zero() {
    let plain = stdout(
        &[
            &FLIGHT[..],
            &["--direction", "0", "--sidespin", "0", "--json"],
        ]
        .concat(),
    );
    let negative = stdout(
        &[
            &FLIGHT[..],
            &["--direction", "-0", "--sidespin", "-0", "--json"],
        ]
        .concat(),
    );
    assert_eq!(plain, negative);
}

#[test]
fn rounds_seeds_and_threads_have_limits() {
    let play = ["play", "level:scratch", "demo:parkland"];
    for (flag, value) in [
        ("--rounds", "0"),
        ("--rounds", "-5"),
        ("--rounds", "1000000000"),
        ("--rounds", "1e9"),
        ("--rounds", "NaN"),
        ("--seed", "-1"),
        ("--seed", "18446744073709551616"),
        ("--threads", "0"),
        ("--threads", "100000"),
    ] {
        let told = told(&[&play[..], &[flag, value]].concat());
        assert!(
            told.starts_with("error: invalid value ") && told.contains(&format!("'{value}'")),
            "{told}"
        );
    }
}

#[test]
fn goals_and_levels_that_are_no_number() {
    for value in ["NaN", "inf", "-inf", "1e999", "", "+", "-", "--5"] {
        let goal = format!("--goal={value}");
        let told_of_goal = told(&["rank", "demo:rowan", "demo:parkland", &goal]);
        assert!(told_of_goal.contains("`--goal`"), "{told_of_goal}");
        let level = format!("level:{value}");
        let told_of_level = told(&["play", &level, "demo:parkland"]);
        assert!(
            told_of_level.starts_with(&format!("error: `{level}` is no level")),
            "{told_of_level}"
        );
    }
}
