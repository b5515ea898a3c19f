//! Changes that say nothing a golfer can do: each fault points at its words and says what to write instead.

use costcard::player::change::Change;

/// The text, what is pointed at below it, and what is told.
fn told(text: &str) -> String {
    match text.parse::<Change>() {
        Ok(change) => format!("{text}\n(read as `{change}`)\n"),
        Err(fault) => {
            let before = text[..fault.span.start].chars().count();
            let width = text[fault.span.clone()].chars().count().max(1);
            format!(
                "{text}\n{}{}\n{}\nhint: {}\n",
                " ".repeat(before),
                "^".repeat(width),
                fault.message,
                fault.hint
            )
        }
    }
}

#[test]
fn every_fault_points_at_its_words() {
    let texts = [
        "",
        "driver",
        "putting",
        "drivr launch +1",
        "irns dynamic_loft +4",
        "7 irn launch +1",
        "mallet launch +1",
        "tee shots level 5",
        "15 wood launch +1",
        "6 iron bakspin +500",
        "6 iron colour +500",
        "putting backspin +500",
        "short game launch +1",
        "sand off",
        "driver off please",
        "driver launch",
        "driver launch 4",
        "driver launch up",
        "driver launch +",
        "driver launch +four",
        "driver launch +2,5",
        "driver launch +2 mph",
        "driver ball_speed +3 furlongs",
        "driver direction_spread +2",
        "driver direction_spread = 2",
        "driver mishits +3 mph",
        "driver launch -150%",
        "putting level",
        "putting level 90",
        "putting level good",
        "driver launch level",
        "add",
        "add club",
        "add club 7 wod",
        "add club 7 wood shaft 40",
        "add club 7 wood launch",
        "add club 7 wood launch 12 launch 13",
        "add club 7 wood launch high",
        "add club 7 wood speed 128 rpm",
        "driver launch +NaN",
        "driver launch +1e999",
        "driver launch +inf",
        "ﬂop wedge läunch +1",
    ];
    insta::assert_snapshot!(texts.map(told).join("\n"));
}

#[test]
fn any_text_is_read_or_told_of_within_itself() {
    use proptest::prelude::*;
    let word = prop_oneof![
        Just("driver".to_owned()),
        Just("irons".to_owned()),
        Just("5-7".to_owned()),
        Just("iron".to_owned()),
        Just("add".to_owned()),
        Just("club".to_owned()),
        Just("level".to_owned()),
        Just("off".to_owned()),
        Just("launch".to_owned()),
        Just("+4".to_owned()),
        Just("-20%".to_owned()),
        Just("=".to_owned()),
        Just("half".to_owned()),
        Just("spread".to_owned()),
        Just(",".to_owned()),
        Just("and".to_owned()),
        "\\PC{0,6}",
    ];
    proptest!(|(words in prop::collection::vec(word, 0..7))| {
        let text = words.join(" ");
        match text.parse::<Change>() {
            Ok(change) => prop_assert_eq!(change.to_string().parse::<Change>(), Ok(change)),
            Err(fault) => {
                prop_assert!(text.get(fault.span).is_some());
                prop_assert!(!fault.message.is_empty() && !fault.hint.is_empty());
            }
        }
    });
}
