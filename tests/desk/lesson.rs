//! What the lesson answers: changes, quickly and in full, and another day.

use serde_json::Value;

use super::{Desk, ROWAN, question, received};
use crate::program::costcard_in;

fn close(a: &Value, b: f64) -> bool {
    (a.as_f64().expect("a number") - b).abs() < 1e-9
}

#[test]
fn a_change_is_worth_what_try_says() {
    let desk = Desk::open(&ROWAN);
    desk.settled();
    let changes = ["mid irons dynamic_loft +4", "putting level 5"];
    let reply = desk.try_changes(1, "all", &changes);
    assert_eq!(reply.status, 200, "{}", reply.text());
    let found = reply.json();
    let mut words = vec![
        "try",
        "demo:rowan",
        "short.toml",
        "--rounds",
        "200",
        "--json",
    ];
    changes
        .iter()
        .for_each(|change| words.extend(["--change", change]));
    let output = costcard_in(desk.path(), &words);
    let tried: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let together = &tried["together"];
    for (key, wanted) in [
        ("saved", &together["saved"]),
        ("before", &tried["before"]["expected_strokes"]),
    ] {
        assert!(
            close(&found[key], wanted.as_f64().expect("a number")),
            "{key}: {found:#}"
        );
    }
    assert!(close(
        &found["interval"][0],
        together["low"].as_f64().expect("low")
    ));
    assert!(close(
        &found["interval"][1],
        together["high"].as_f64().expect("high")
    ));
    let figures = found["figures"].as_str().expect("figures");
    assert!(figures.contains("mid irons dynamic_loft +4") && figures.contains("greens held"));
    // By part it is where the strokes went: their sum is the fall of the counted score.
    let parts = tried["parts"].as_array().expect("parts");
    let saved: f64 = parts.iter().filter_map(|part| part["saved"].as_f64()).sum();
    let scores =
        ["before", "after"].map(|when| tried[when]["score_mean"].as_f64().expect("a mean"));
    assert!(
        (saved - (scores[0] - scores[1])).abs() < 1e-6,
        "{saved} of {scores:?}"
    );
    let by_part = |name: &str| {
        let part = parts.iter().find(|part| part["part"] == name);
        part.expect(name)["saved"].as_f64().expect("saved")
    };
    assert!(by_part("putting") > 0.05, "{parts:#?}");

    let quick = desk.try_changes(2, "quick", &changes).json();
    let apart = quick["saved"].as_f64().expect("saved") - found["saved"].as_f64().expect("saved");
    assert!(apart.abs() < 0.1, "quick and full are {apart} apart");
    assert!(quick["interval"].is_null() && quick["figures"].is_null());
    assert!(
        quick["pictures"]
            .as_str()
            .expect("pictures")
            .contains("<svg")
    );
    assert!(
        !quick["pictures"]
            .as_str()
            .expect("pictures")
            .contains("<style")
    );

    let nothing = desk.try_changes(3, "quick", &[]).json();
    assert_eq!(nothing["saved"], 0.0);
}

#[test]
fn a_change_that_cannot_be_made_is_told_in_the_words_of_try() {
    let desk = Desk::open(&ROWAN);
    desk.settled();
    for (number, change) in (1..).zip([
        "irons bakspin +500",
        "driver ball_speed +400",
        "1 iron launch +1",
    ]) {
        let told = desk.try_changes(number, "quick", &[change]).trouble();
        let wanted = desk.told(&["try", "demo:rowan", "short.toml", "--change", change]);
        // Nobody typed the text that `try` points at; the fault and what to write instead are the same.
        assert!(
            told.starts_with("error: ") && told.contains("hint: "),
            "{told}"
        );
        assert!(!told.contains("-->") && !told.contains('^'), "{told}");
        for line in told.lines().filter(|line| !line.is_empty()) {
            assert!(wanted.contains(line), "{line}\n{wanted}");
        }
    }
    assert_eq!(desk.ask("POST", "/api/try", b"{").status, 422);
}

#[test]
fn fifty_quick_changes_leave_no_queue() {
    let desk = Desk::open(&ROWAN);
    desk.settled();
    let streams: Vec<_> = (1..=50)
        .map(|number| {
            let change = format!("irons dynamic_loft +{:.1}", 0.1 * number as f64);
            let body = question(number, "quick", &[&change]);
            desk.send("POST", "/api/try", &desk.own_headers(), &body)
        })
        .collect();
    let replies: Vec<_> = streams.into_iter().map(received).collect();
    let answered = replies.iter().filter(|reply| reply.status == 200).count();
    let dropped = replies.iter().filter(|reply| reply.status == 409).count();
    assert_eq!(answered + dropped, 50);
    let last = replies.last().expect("the last");
    assert_eq!(last.status, 200, "the newest is answered");
    assert_eq!(last.json()["number"], 50);
    println!("50 quick changes: {answered} answered, {dropped} dropped");
    assert!(
        dropped >= 25,
        "{answered} were answered one after the other"
    );
    // An older question that comes late is no question any more.
    assert_eq!(desk.try_changes(7, "quick", &[]).status, 409);
}

#[test]
fn another_day_is_another_course_and_the_player_stays_who_he_is() {
    let desk = Desk::open(&ROWAN);
    let usual = desk.settled();
    assert_eq!(
        desk.ask(
            "POST",
            "/api/day?firmness=1&wind_mph=30&wind_from_deg=0",
            b""
        )
        .status,
        200
    );
    let windy = desk.settled();
    let expected = |state: &Value| state["standing"]["expected"].as_f64().expect("a score");
    assert!(
        expected(&windy) > expected(&usual) + 0.2,
        "{} {}",
        expected(&windy),
        expected(&usual)
    );
    assert_eq!(
        windy["standing"]["usual_expected"],
        usual["standing"]["expected"]
    );
    assert_eq!(windy["day"]["words"], "firm, wind 30 mph from 0°");
    let card = windy["html"]["card"].as_str().expect("a card");
    assert!(
        card.contains("Three Holes, firm, wind 30 mph from 0°"),
        "{card}"
    );
    assert_eq!(desk.ask("POST", "/api/day", b"").status, 200);
    let again = desk.settled();
    assert_eq!(again["standing"]["expected"], usual["standing"]["expected"]);
    assert!(
        desk.ask("POST", "/api/day?wind_mph=200", b"")
            .trouble()
            .contains("write a number from 0 to 60")
    );
}
