//! Flags of `draw` that do not go together.

use crate::program::told;

fn told_of(words: &[&str]) -> String {
    told(&[&["draw"], words].concat())
}

#[test]
fn flags_that_do_not_go_with_a_course() {
    let all: Vec<String> = [
        &["demo:parkland", "--out", "x.pdf"][..],
        &["demo:parkland", "--out", "x.svg", "--what", "flight"],
        &["demo:parkland", "--out", "x.svg", "--what", "hole"],
        &[
            "demo:parkland",
            "--out",
            "x.svg",
            "--what",
            "strokes",
            "--hole",
            "7",
        ],
        &[
            "demo:parkland",
            "--out",
            "x.svg",
            "--what",
            "course",
            "--hole",
            "7",
        ],
        &["demo:parkland", "--out", "x.svg", "--hole", "19"],
        &[
            "demo:parkland",
            "--out",
            "x.svg",
            "--hole",
            "7",
            "--level",
            "5",
        ],
        &["demo:parkland", "--out", "x.svg", "--club", "7 iron"],
        &[
            "demo:parkland",
            "--out",
            "x.svg",
            "--rule",
            "demo:wet-rough.rhai",
        ],
        &["demo:three-holes", "--out", "x.svg"],
    ]
    .map(told_of)
    .to_vec();
    insta::assert_snapshot!(all.join("\n"));
}

#[test]
fn a_level_that_does_not_go_with_a_map_of_strokes_is_told_so() {
    let words = "demo:parkland --out x.svg --hole 7 --player demo:rowan --level 5 --what strokes";
    let words: Vec<&str> = words.split(' ').collect();
    let told = told_of(&words);
    assert!(
        told.contains("`--level` does not go with `--what strokes`"),
        "{told}"
    );
}

#[test]
fn flags_that_do_not_go_with_a_player() {
    let all: Vec<String> = [
        &["demo:rowan", "--out", "x.svg", "--hole", "7"][..],
        &["demo:rowan", "--out", "x.svg", "--player", "demo:dale"],
        &["demo:rowan", "--out", "x.svg", "--against", "descent"],
        &["demo:rowan", "--out", "x.svg", "--club", "2 iron"],
        &["demo:rowan", "--out", "x.svg", "--level", "99"],
        &[
            "demo:rowan",
            "--out",
            "x.svg",
            "--what",
            "hold",
            "--against",
            "descent",
            "--level",
            "5",
        ],
        &[
            "demo:rowan",
            "--out",
            "x.svg",
            "--what",
            "hold",
            "--against",
            "descent",
            "--club",
            "6 iron",
            "--club",
            "driver",
        ],
        &["demo:rowan", "--out", "nowhere/x.svg"],
    ]
    .map(told_of)
    .to_vec();
    insta::assert_snapshot!(all.join("\n"));
}
