//! Sheets of scores at fault.

use costcard::cost::handicap::sheet;
use costcard::files::Source;
use insta::assert_snapshot;

use super::told;

fn read(text: &str) -> String {
    told(sheet::read(&Source::new("scores.csv", text)))
}

/// Three right scores and more rows, which begin on line 5.
fn with(rows: &str) -> String {
    read(&format!(
        "date,holes,course_rating,slope_rating,par,pcc,gross,adjusted_gross\n\
         2026-04-04,18,70.8,126,72,0,88,86\n\
         2026-04-11,18,70.8,126,72,,85,85\n\
         2026-04-18,9,35.2,121,36,1,44,44\n\
         {rows}\n\
         2026-09-04,18,70.8,126,72,0,88,86\n"
    ))
}

/// One score hole by hole, on line 2.
fn by_hole(scores: &str, pars: &str, indexes: &str) -> String {
    read(&format!(
        "date,course_rating,slope_rating,gross,par,hole_scores,hole_pars,stroke_indexes\n\
         2026-04-04,35.2,121,44,36,{scores},{pars},{indexes}\n"
    ))
}

const SCORES: &str = "5 4 6 3 5 6 4 5 6";
const PARS: &str = "4 4 5 3 4 4 3 4 5";
const INDEXES: &str = "5 11 3 17 7 1 15 9 13";

#[test]
fn a_right_sheet_has_no_fault() {
    assert_eq!(with("2026-04-19,,70.8,126,,,90,"), "no fault");
}

/// What is forgotten under `holes` would make an index that nobody has.
#[test]
fn a_score_over_other_holes_than_are_said_is_told() {
    for (row, wanted) in [
        (
            "2026-04-19,18,70.6,126,72,0,,46",
            "46 strokes over 18 holes rated 70.6 are fewer than anybody takes\nhint: if these were nine holes, write 9 under `holes`",
        ),
        (
            "2026-04-19,,70.6,126,72,0,46,",
            "46 strokes over 18 holes rated 70.6 are fewer",
        ),
        (
            "2026-04-19,9,35.2,121,36,0,,92",
            "92 strokes over 9 holes rated 35.2 are more than a score with no hole above net double bogey can be\nhint: if these were 18 holes",
        ),
        (
            "2026-04-19,18,70.8,126,72,0,,185",
            "185 strokes over 18 holes rated 70.8 are more",
        ),
    ] {
        let told = with(row);
        assert!(
            told.starts_with("scores.csv:5:") && told.contains(wanted),
            "{told}"
        );
    }
    // The lowest and the highest that there are.
    for row in [
        "2026-04-19,18,70.8,126,72,0,,55",
        "2026-04-19,18,70.8,126,72,0,,165",
        "2026-04-19,9,35.2,121,36,0,,82",
    ] {
        assert_eq!(with(row), "no fault");
    }
}

/// As spreadsheets save them where decimals begin with a comma.
#[test]
fn semicolons_decimal_commas_and_days_first_are_read() {
    let text = "date;course;course_rating;slope_rating;gross\n03.05.2026;Home;72,1;123;92\n10.5.2026;Home;72,1;123;95\n17.05.2026;Home;72,1;123;89\n";
    let plain = "date,course,course_rating,slope_rating,gross\n2026-05-03,Home,72.1,123,92\n2026-05-10,Home,72.1,123,95\n2026-05-17,Home,72.1,123,89\n";
    let read = |text: &str| sheet::read(&Source::new("scores.csv", text)).expect("a sheet");
    assert_eq!(read(text), read(plain));
    let tabs = plain.replace(',', "\t");
    assert_eq!(read(&tabs), read(plain));
}

#[test]
fn a_score_needs_rating_and_slope() {
    assert_snapshot!(with("2026-04-19,18,,126,72,0,88,86\n2026-04-20,18,70.8,,72,0,88,86"), @r#"
    scores.csv:5:15: `course_rating` is empty
    hint: write a number, or remove the row
    scores.csv:6:20: `slope_rating` is empty
    hint: write a number, or remove the row
    "#);
    assert_snapshot!(read("date,gross\n2026-04-04,88\n"), @r#"
    scores.csv:1:1: the column `course_rating` is missing
    hint: the first line must name `date`, `course_rating` and `slope_rating`
    scores.csv:1:1: the column `slope_rating` is missing
    hint: the first line must name `date`, `course_rating` and `slope_rating`
    "#);
}

#[test]
fn ratings_and_slopes_have_their_ranges() {
    assert_snapshot!(with("2026-04-19,18,35.4,54,72,0,88,86\n2026-04-20,9,70.8,156,36,0,44,44\n2026-04-21,18,70.85,113.5,72,0,88,86\n2026-04-22,18,70,8,126,72,0,88,86"), @r#"
    scores.csv:5:15: `course_rating` is 35.4, but must be from 45 to 90 strokes over 18 holes
    hint: correct it, or remove the row
    scores.csv:5:20: `slope_rating` is 54, but must be from 55 to 155
    hint: correct it, or remove the row
    scores.csv:6:14: `course_rating` is 70.8, but must be from 22 to 45 strokes over 9 holes
    hint: correct it, or remove the row
    scores.csv:6:19: `slope_rating` is 156, but must be from 55 to 155
    hint: correct it, or remove the row
    scores.csv:7:15: `course_rating` is 70.85, but ratings have one decimal
    hint: write it as the scorecard has it: 71.2
    scores.csv:7:21: `slope_rating` must be a whole number, not 113.5
    hint: write it without decimals
    scores.csv:8:1: this row has 9 values, but the first line names 8 columns
    hint: a value with a comma in it stands in quotes; an empty value still has its comma
    "#);
}

#[test]
fn fewer_than_three_scores_are_too_few() {
    let head = "date,course_rating,slope_rating,holes,adjusted_gross\n";
    assert_snapshot!(read(&format!("{head}2026-04-04,70.8,126,18,86\n2026-04-11,70.8,126,18,88\n\n")), @r#"
    scores.csv:3:1: 2 scores are too few for an index: it needs three rounds, and this is 36 holes
    hint: add scores up to 54 holes; two scores over nine holes make one round
    "#);
    assert_snapshot!(read(&format!("{head}2026-04-04,70.8,126,18,86")), @r#"
    scores.csv:2:1: one score is too few for an index: it needs three rounds, and this is 18 holes
    hint: add scores up to 54 holes; two scores over nine holes make one round
    "#);
    assert_snapshot!(read(&format!("{head}2026-04-04,35.4,126,9,43\n2026-04-05,35.4,126,9,43\n2026-04-11,70.8,126,18,88")), @r#"
    scores.csv:4:1: 3 scores are too few for an index: it needs three rounds, and this is 36 holes
    hint: add scores up to 54 holes; two scores over nine holes make one round
    "#);
    assert_snapshot!(read(head), @r#"
    scores.csv:2:1: this file has column names but no rows
    hint: each line after the first is one row
    "#);
}

#[test]
fn dates_are_dates_and_in_order() {
    assert_snapshot!(with("2026-04-17,18,70.8,126,72,0,88,86\n18/04/2026,18,70.8,126,72,0,88,86\n2026-02-30,18,70.8,126,72,0,88,86\n,18,70.8,126,72,0,88,86\n2026/04/19,18,70.8,126,72,0,88,86"), @r#"
    scores.csv:5:1: 2026-04-17 comes before 2026-04-18 on line 4
    hint: list scores from the oldest to the newest
    scores.csv:6:1: `18/04/2026` may name the day or the month first
    hint: write year, month and day as 2026-05-03, or the day first as 03.05.2026
    scores.csv:7:1: `2026-02-30` is no date
    hint: write year, month and day as 2026-05-31
    scores.csv:8:1: `date` is empty
    hint: write it, or remove the row
    scores.csv:9:1: `2026/04/19` is no date
    hint: write year, month and day as 2026-05-31
    "#);
    assert_eq!(with("2026-04-18,18,70.8,126,72,0,88,86"), "no fault");
}

#[test]
fn holes_are_eighteen_or_nine_and_none_is_missing() {
    assert_snapshot!(with("2026-04-19,17,70.8,126,72,0,88,86"), @r#"
    scores.csv:5:12: `holes` is 17, but a score counts over 18 holes or 9
    hint: write 18 or 9; 18 may be left out
    "#);
    assert_snapshot!(by_hole("5 4 6 3 5 6 4 5", PARS, INDEXES), @r#"
    scores.csv:2:27: `hole_scores` has 8 holes, but the score is one of 9
    hint: write every hole, `x` for one picked up; 9 holes need `holes` to be 9
    "#);
    assert_snapshot!(by_hole(SCORES, "4 4 5 3 4 4 3 4", "5 11 3 17 7 1 15 9 9"), @r#"
    scores.csv:2:45: `hole_pars` has 8 holes, but the score is one of 9
    hint: write one number for each hole
    scores.csv:2:61: the stroke index 9 stands twice
    hint: each hole has its own
    "#);
    assert_snapshot!(by_hole("5 4 6 3 - 6 4 5 6", "4 4 5 3 4 4 3 4 2", ""), @r#"
    scores.csv:2:27: `-` cannot stand in `hole_scores`
    hint: write the score of each hole, with blanks between, `x` for one picked up: 5 4 x 3 …
    scores.csv:2:45: `2` cannot stand in `hole_pars`
    hint: write the par of each hole, with blanks between: 4 4 5 3 …
    scores.csv:2:63: `stroke_indexes` is empty
    hint: write it, or remove the row
    "#);
}

#[test]
fn strokes_agree_with_each_other() {
    assert_snapshot!(with("2026-04-19,18,70.8,126,72,4,85,86\n2026-04-20,18,70.8,126,72,0,,\n2026-04-21,18,70.8,126,72,0.5,30,"), @r#"
    scores.csv:5:27: `pcc` is 4, but must be from -1 to 3
    hint: correct it, or remove the row
    scores.csv:5:32: `adjusted_gross` is 86, more than the gross score of 85
    hint: adjusting only takes strokes off
    scores.csv:6:30: this row has no score
    hint: write `adjusted_gross`, `gross`, or `hole_scores` with `hole_pars` and `stroke_indexes`
    scores.csv:7:27: `pcc` must be a whole number, not 0.5
    hint: write it without decimals
    scores.csv:7:31: `gross` is 30, but must be from 45 to 250
    hint: correct it, or remove the row
    "#);
    assert_snapshot!(by_hole("5 4 6 3 5 6 4 5 7", "4 4 5 3 4 4 3 4 4", INDEXES), @r#"
    scores.csv:2:24: `par` is 36, but the pars of the holes add up to 35
    hint: correct one of them, or leave `par` empty
    "#);
    assert_snapshot!(by_hole("5 4 6 3 x 6 4 5 7", PARS, INDEXES), @r#"
    scores.csv:2:21: a round with a hole picked up has no gross score
    hint: leave it empty
    "#);
}

#[test]
fn hole_scores_need_pars_and_stroke_indexes() {
    assert_snapshot!(read("date,course_rating,slope_rating,hole_scores\n2026-04-04,35.2,121,5 4 6 3 5 6 4 5 6\n"), @r#"
    scores.csv:2:21: hole scores need a column `hole_pars` beside them
    hint: write the par of each hole, with blanks between: 4 4 5 3 …
    scores.csv:2:21: hole scores need a column `stroke_indexes` beside them
    hint: write the stroke index of each hole, with blanks between: 7 11 3 17 …
    "#);
}

#[test]
fn a_sheet_says_somewhere_what_was_scored() {
    assert_snapshot!(read("date,course_rating,slope_rating\n2026-04-04,70.8,126\n2026-04-05,70.8,126\n"), @r#"
    scores.csv:2:1: no column holds scores
    hint: write `adjusted_gross`, `gross`, or `hole_scores` with `hole_pars` and `stroke_indexes`
    "#);
    assert_snapshot!(read("date,course_rating,slope_rating,adjusted_gros,putts\n2026-04-04,70.8,126,86,31\n"), @r#"
    scores.csv:1:33: there is no column `adjusted_gros`
    hint: did you mean `adjusted_gross`?
    scores.csv:1:47: there is no column `putts`
    hint: the columns are `date`, `course_rating`, `slope_rating`, `holes`, `par`, `pcc`, `gross`, `adjusted_gross`, `hole_scores`, `hole_pars`, `stroke_indexes`, `course`, `tee` and `remark`
    "#);
    assert_snapshot!(read(""), @r#"
    scores.csv:1:1: this file is empty
    hint: its first line names the columns: date,course_rating,slope_rating
    "#);
}

#[test]
fn no_damaged_sheet_stops_the_program() {
    let whole = format!(
        "date,course_rating,slope_rating,gross,par,hole_scores,hole_pars,stroke_indexes\n\
         2026-04-04,35.2,121,44,36,{SCORES},{PARS},{INDEXES}\n"
    );
    for (at, _) in whole.char_indices() {
        let _ = read(&whole[..at]);
        for damage in ["", "-1", "1e308", "x", ",", "\"", "\n", "é"] {
            let _ = read(&format!("{}{damage}{}", &whole[..at], &whole[at + 1..]));
        }
    }
}
