//! What the columns beside the figures tell of a sheet: whose shots they are, of which day, and what is none of them.

use super::sheets::{read, read_with, told};

#[test]
fn a_sheet_of_two_golfers_is_none_of_either() {
    let sheet = |names: [&str; 3], header: &str| {
        let rows = names.map(|name| format!("7 iron,{name},120,16,6500\n"));
        format!(
            "club,{header},ball_speed_mph,launch_deg,backspin_rpm\n{}",
            rows.concat()
        )
    };
    for header in ["Player", "Player Name", "Spieler", "golfer"] {
        let told = told(&sheet(["Anna", "anna", "Bert"], header));
        assert!(
            told.starts_with("bay.csv:4:8: this is a shot of Bert, and those before are of Anna"),
            "{told}"
        );
        assert_eq!(
            read(&sheet(["Anna", "anna", "Anna"], header)).shot_count(),
            3
        );
    }
    assert_eq!(
        read(&sheet(["good", "bad", "good"], "Remark")).shot_count(),
        3
    );
    let sessions = read_with(
        &sheet(["Anna", "Bert", "Bert"], "Player"),
        "columns = { session = \"Player\" }",
    );
    assert_eq!(sessions.unwrap().sessions.len(), 2);
}

#[test]
fn a_map_does_not_make_a_speed_of_yards() {
    let totals = "club,Total (yd)\n7 iron,160\n7 iron,171\n";
    let lacking = told(totals);
    assert!(
        lacking.contains("no column says how fast or how far"),
        "{lacking}"
    );
    assert!(!lacking.contains("= \"Total (yd)\""), "{lacking}");
    let far = told(&totals.replace("Total", "Distance"));
    assert!(far.contains("carry_yd = \"Distance (yd)\""), "{far}");
    let map =
        "columns = { ball_speed_mph = \"Total (yd)\" }\nunits = { ball_speed_mph = \"km/h\" }";
    let told = read_with(totals, map).map(|_| ()).unwrap_err();
    assert!(
        told.contains(
            "`Total (yd)` is mapped to `ball_speed_mph`, but `yd` is no unit of ball speed"
        ),
        "{told}"
    );
}

/// Three of May and three of June are no one session, whatever comes after the month's name.
#[test]
fn days_with_months_as_words_are_sessions_of_their_own() {
    for [may, june] in [
        ["3 May 2026 10:22", "3 June 2026 9:05"],
        ["3. Mai 2026 10:22", "3. Juni 2026 9:05"],
        ["May 3 2026 10:22 AM", "June 3 2026 9:05 PM"],
    ] {
        let rows = [may, "3 May", may, june, june].map(|day| format!("7 iron,{day},150\n"));
        let text = format!(
            "club,date,carry_yd\n{}",
            rows.concat().replace("3 May,", &format!("{may},"))
        );
        let sessions = read(&text).sessions;
        let shots: Vec<usize> = sessions.iter().map(|session| session.shots).collect();
        assert_eq!(shots, [3, 2], "{may}: {sessions:?}");
    }
}
