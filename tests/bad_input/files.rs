//! Files at fault, whatever they hold: missing, broken, misspelt, of the wrong kind.

use std::{fs, path::Path};

use costcard::files::{
    Source,
    sheet::{self, Columns},
    toml,
};
use insta::assert_snapshot;

use super::told;

/// Reads a small file that uses every way to take a value.
fn read_toml(text: &str) -> String {
    let source = Source::new("sample.toml", text);
    let keys = [
        "name",
        "par",
        "length_yd",
        "calm",
        "firmness",
        "side",
        "line",
        "green",
        "holes",
    ];
    told(toml::read(&source, &keys, |file| {
        let name = file.need("name", "\"Ann\"").text();
        let par = file.may("par", "4").whole(3..=6);
        let length = file.may("length_yd", "410").number(40.0..=800.0, "yards");
        let calm = file.may("calm", "true").yes_no();
        let words = [("soft", 0.0), ("medium", 0.5), ("firm", 1.0)];
        let firmness = file
            .may("firmness", "\"soft\"")
            .number_or_word(0.0..=1.0, "", &words);
        let side = file
            .may("side", "\"left\"")
            .word(&[("left", -1), ("right", 1)]);
        let line = file.may("line", "[[0, 0], [10, 230]]").points(2000.0);
        let green = file.may("green", "{ depth_yd = 30 }").table(&["depth_yd"]);
        let depth =
            green.and_then(|green| green.need("depth_yd", "30").number(5.0..=80.0, "yards"));
        for hole in file.may("holes", "[{ par = 4 }]").tables(&["par"]) {
            let hole = hole.called("hole 1");
            let _ = hole.need("par", "4").whole(3..=6);
        }
        Some((name, par, length, calm, firmness, side, line, depth))
    }))
}

#[test]
fn every_wrong_value_of_a_file_is_told_at_once() {
    let text = "\
name = 7
par = 4.5
length_yd = 4000
calm = 'yes'
firmness = 'frim'
side = 'middle'
line = [[0, 0], [1, 2, 3], [10, '230'], [9000, 0]]
colour = 'red'
lenght_yd = 410
[green]
depth_yrd = 30
[[holes]]
";
    assert_snapshot!(read_toml(text), @r#"
    sample.toml:1:8: `name` must be text in quotes, not 7
    hint: write for instance `name = "Ann"`
    sample.toml:2:7: `par` must be a whole number from 3 to 6, not 4.5
    hint: write for instance `par = 4`
    sample.toml:3:13: `length_yd` must be a number from 40 to 800 yards, not 4000
    hint: write for instance `length_yd = 410`
    sample.toml:4:8: `calm` must be `true` or `false`, not 'yes'
    hint: write for instance `calm = true`
    sample.toml:5:12: `firmness` cannot be 'frim'
    hint: did you mean "firm"?
    sample.toml:6:8: `side` cannot be 'middle'
    hint: write one of `left` and `right`
    sample.toml:7:17: a point of `line` must be two numbers: [1, 2, 3]
    hint: write for instance `line = [[0, 0], [10, 230]]`
    sample.toml:7:28: a point of `line` must be two numbers: [10, '230']
    hint: write for instance `line = [[0, 0], [10, 230]]`
    sample.toml:7:41: a point of `line` lies more than 2000 away: [9000, 0]
    hint: write for instance `line = [[0, 0], [10, 230]]`
    sample.toml:8:1: there is no key `colour` in this file
    hint: the keys here are `name`, `par`, `length_yd`, `calm`, `firmness`, `side`, `line`, `green` and `holes`
    sample.toml:9:1: there is no key `lenght_yd` in this file
    hint: did you mean `length_yd`?
    sample.toml:11:1: there is no key `depth_yrd` in `green`
    hint: did you mean `depth_yd`?
    sample.toml:12:1: `par` is missing in hole 1
    hint: write for instance `par = 4`
    "#);
}

#[test]
fn a_missing_key_says_what_to_write() {
    assert_snapshot!(read_toml("par = 4"), @r#"
    sample.toml:1:1: `name` is missing in this file
    hint: write for instance `name = "Ann"`
    "#);
}

#[test]
fn a_misspelt_key_is_one_fault_not_two() {
    assert_snapshot!(read_toml("nmae = 'Ann'"), @r#"
    sample.toml:1:1: there is no key `nmae` in this file
    hint: did you mean `name`?
    "#);
}

#[test]
fn a_value_of_the_wrong_shape_is_quoted() {
    assert_snapshot!(
        read_toml("name = ''\npar = [4]\nlength_yd = nan\ngreen = 30\nholes = 18\nline = 'straight'\nside = 3\nfirmness = [1]"),
        @r#"
    sample.toml:1:8: `name` must be text in quotes, not ''
    hint: write for instance `name = "Ann"`
    sample.toml:2:7: `par` must be a whole number from 3 to 6, not [4]
    hint: write for instance `par = 4`
    sample.toml:3:13: `length_yd` must be a number, not nan
    hint: write for instance `length_yd = 410`
    sample.toml:4:9: `green` must be a table, not 30
    hint: write for instance `green = { depth_yd = 30 }`
    sample.toml:5:9: `holes` must be a list in brackets, not 18
    hint: write for instance `holes = [{ par = 4 }]`
    sample.toml:6:8: `line` must be a list in brackets, not 'straight'
    hint: write for instance `line = [[0, 0], [10, 230]]`
    sample.toml:7:8: `side` must be one of `left` and `right`, not 3
    hint: write for instance `side = "left"`
    sample.toml:8:12: `firmness` must be `soft`, `medium` or `firm` or a number, not [1]
    hint: write for instance `firmness = "soft"`
    "#
    );
}

#[test]
fn broken_toml_is_told_line_by_line() {
    assert_snapshot!(read_toml("name = Ann\npar = \nlength_yd 410\n[green\ndepth_yd = 030\nline = [[0, 0] [1, 1]]\n"), @r#"
    sample.toml:1:8: broken TOML: string values must be quoted: Ann
    hint: put text in quotes: `name = "Long Meadow"`
    sample.toml:2:7: broken TOML: missing value
    hint: write a value after the `=`
    sample.toml:3:11: broken TOML: key with no value
    hint: a line reads `key = value`, for instance `par = 4`
    sample.toml:4:7: broken TOML: unclosed table
    hint: the title of a table ends with a bracket: `[conditions]`
    sample.toml:6:16: broken TOML: missing comma between array elements
    hint: put a comma between the values
    "#);
    assert_snapshot!(read_toml("name = 'Ann"), @r#"
    sample.toml:1:12: broken TOML: invalid literal string
    hint: close the text with the quote it began with
    "#);
    assert_snapshot!(read_toml("name = 'Ann'\nname = 'Bob'\n"), @r#"
    sample.toml:2:1: broken TOML: duplicate key: name
    hint: each key stands once in a table; remove one of the two
    "#);
    assert_snapshot!(read_toml("name = 'Ann' par = 4"), @r#"
    sample.toml:1:14: broken TOML: unexpected key or value
    hint: a line holds one `key = value`, and text stands in quotes
    "#);
    assert_snapshot!(read_toml("par = 4;\nwind_mph = 15,5\ngreen = { depth_yd = 30, stimp_ft = 9,5 } # fast\nline_yd = [[0, 0] [1,5]]\n"), @r#"
    sample.toml:1:7: a line ends without a semicolon
    hint: write it without: `par = 4`
    sample.toml:2:14: a number has no comma
    hint: write a point: `15.5`
    sample.toml:3:41: a number has no comma
    hint: write a point: `9.5`
    sample.toml:4:19: broken TOML: missing comma between array elements
    hint: put a comma between the values
    "#);
    assert_snapshot!(read_toml("name"), @r#"
    sample.toml:1:5: broken TOML: key with no value
    hint: a line reads `key = value`, for instance `par = 4`
    "#);
}

#[test]
fn columns_are_counted_in_characters() {
    assert_snapshot!(read_toml("name = 'Åsa' # räv\ngreen = { depth_yd = 'ö', tief = 1 }"), @r#"
    sample.toml:2:22: `depth_yd` must be a number, not 'ö'
    hint: write for instance `depth_yd = 30`
    sample.toml:2:27: there is no key `tief` in `green`
    hint: the keys here are `depth_yd`
    "#);
}

#[test]
fn a_byte_order_mark_and_windows_line_ends_are_no_fault() {
    assert_eq!(read_toml("\u{feff}name = 'Ann'\r\npar = 4\r\n"), "no fault");
}

#[test]
fn deep_nesting_is_refused_not_followed() {
    let text = format!("name = {}", "[".repeat(100_000));
    assert!(read_toml(&text).starts_with("sample.toml:1:"));
}

/// Reads a small sheet.
fn read_sheet(text: &str, others: bool) -> String {
    let columns = Columns {
        needed: &["club", "speed_mph"],
        optional: &["launch_deg"],
        others,
    };
    told(sheet::read(
        &Source::new("sample.csv", text),
        columns,
        |row| {
            let club = row.text("club").map(str::to_owned);
            let speed = row.number("speed_mph", 20.0..=220.0, "mph");
            let launch = row.may_number("launch_deg", -10.0..=70.0, "degrees");
            Some((club?, speed?, launch?))
        },
    ))
}

#[test]
fn a_right_sheet_is_read() {
    assert_eq!(read_sheet("club,speed_mph\nd,160\n", false), "no fault");
    assert_eq!(
        read_sheet(
            "\u{feff}club , speed_mph,launch_deg\r\n\r\n\"d, long\", 160 ,\r\n7i,120,16.5\r\n",
            false
        ),
        "no fault"
    );
    assert_eq!(
        read_sheet("club,speed_mph,note\nd,160,windy\n", true),
        "no fault"
    );
}

#[test]
fn an_empty_sheet_says_what_its_first_line_must_be() {
    assert_snapshot!(read_sheet("", false), @r#"
    sample.csv:1:1: this file is empty
    hint: its first line names the columns: club,speed_mph
    "#);
    assert_snapshot!(read_sheet("\n \r\n", false), @r#"
    sample.csv:1:1: this file is empty
    hint: its first line names the columns: club,speed_mph
    "#);
    assert_snapshot!(read_sheet("club,speed_mph\n", false), @r#"
    sample.csv:2:1: this file has column names but no rows
    hint: each line after the first is one row
    "#);
}

#[test]
fn columns_at_fault_are_named() {
    assert_snapshot!(read_sheet("clubs,speed_mhp\nd,160\n", false), @r#"
    sample.csv:1:1: there is no column `clubs`
    hint: did you mean `club`?
    sample.csv:1:7: there is no column `speed_mhp`
    hint: did you mean `speed_mph`?
    "#);
    assert_snapshot!(read_sheet("club,launch_deg\nd,12\n", false), @r#"
    sample.csv:1:1: the column `speed_mph` is missing
    hint: the first line must name `club` and `speed_mph`
    "#);
    assert_snapshot!(read_sheet("club,speed_mph,club,weather\nd,160,d,wet\n", false), @r#"
    sample.csv:1:16: the column `club` stands twice
    hint: each column stands once; remove one of the two
    sample.csv:1:21: there is no column `weather`
    hint: the columns are `club`, `speed_mph` and `launch_deg`
    "#);
    assert_snapshot!(read_sheet("club;speed_mph\nd;160,5\n7i;fast\n8i;1,200\n9i\n", false), @r#"
    sample.csv:3:4: `speed_mph` must be a number, not `fast`
    hint: write digits only, with a point before decimals: 167.2
    sample.csv:4:4: `speed_mph` must be a number, not `1,200`
    hint: write digits only, with a point before decimals: 167.2
    sample.csv:5:1: this row has 1 values, but the first line names 2 columns
    hint: an empty value still has the mark before the next
    "#);
}

#[test]
fn columns_may_be_headed_with_capitals_and_blanks() {
    assert_snapshot!(read_sheet("Club,Speed mph,LAUNCH-DEG\nd,fast,12\n", false), @r#"
    sample.csv:2:3: `speed_mph` must be a number, not `fast`
    hint: write digits only, with a point before decimals: 167.2
    "#);
    assert_snapshot!(read_sheet("Club,club,speed_mph\nd,d,160\n", false), @r#"
    sample.csv:1:6: the column `club` stands twice
    hint: each column stands once; remove one of the two
    "#);
}

#[test]
fn cells_at_fault_are_pointed_at() {
    let text = "club,speed_mph,launch_deg\r\n\"d, long\", fast ,12\r\n,160,\n7i,1200,x\r\n7i,120\r\n7i,,3\r\n7i,inf,3\r\n";
    assert_snapshot!(read_sheet(text, false), @r#"
    sample.csv:2:12: `speed_mph` must be a number, not `fast`
    hint: write digits only, with a point before decimals: 167.2
    sample.csv:3:1: `club` is empty
    hint: write it, or remove the row
    sample.csv:4:4: `speed_mph` is 1200, but must be from 20 to 220 mph
    hint: correct it, or remove the row
    sample.csv:4:9: `launch_deg` must be a number, not `x`
    hint: write digits only, with a point before decimals: 167.2
    sample.csv:5:1: this row has 2 values, but the first line names 3 columns
    hint: a value with a comma in it stands in quotes; an empty value still has its comma
    sample.csv:6:4: `speed_mph` is empty
    hint: write a number, or remove the row
    sample.csv:7:4: `speed_mph` must be a number, not `inf`
    hint: write digits only, with a point before decimals: 167.2
    "#);
}

#[test]
fn more_than_twenty_faults_are_counted() {
    let text = format!("club,speed_mph\n{}", "d,fast\n".repeat(33));
    let told = read_sheet(&text, false);
    assert_eq!(told.matches("hint:").count(), 20);
    assert!(told.ends_with("\nand 13 more"), "{told}");
}

#[test]
fn files_that_cannot_be_read_say_so() {
    let folder = tempfile::tempdir().expect("a folder for the test");
    let path = folder.path();
    fs::write(path.join("meadow.toml"), "name = 'x'").expect("written");
    fs::write(
        path.join("bytes.csv"),
        b"\xef\xbb\xbfclub,speed_mph\nd\xe9,160\n",
    )
    .expect("written");
    let told = |path: &Path| {
        told(Source::read(path)).replace(&folder.path().display().to_string(), "FOLDER")
    };
    assert_snapshot!(told(&path.join("medow.toml")), @r#"
    FOLDER/medow.toml: there is no such file
    hint: did you mean `FOLDER/meadow.toml`?
    "#);
    assert_snapshot!(told(&path.join("meadow.tml")), @r#"
    FOLDER/meadow.tml: there is no such file
    hint: did you mean `FOLDER/meadow.toml`?
    "#);
    assert_snapshot!(told(&path.join("meadow")), @r#"
    FOLDER/meadow: there is no such file
    hint: did you mean `FOLDER/meadow.toml`?
    "#);
    assert_snapshot!(told(&path.join("nothing-like-it.csv")), @r#"FOLDER/nothing-like-it.csv: there is no such file"#);
    assert_snapshot!(told(&path.join("nowhere").join("a.toml")), @r#"
    FOLDER/nowhere/a.toml: there is no such file
    hint: there is no folder `FOLDER/nowhere` either
    "#);
    assert_snapshot!(told(path), @r#"
    FOLDER: this is a folder, not a file
    hint: name a file in it
    "#);
    assert_snapshot!(told(&path.join("bytes.csv")), @r#"
    FOLDER/bytes.csv:2:2: this is not UTF-8 text
    hint: save it as plain text in UTF-8; a spreadsheet is saved as `CSV UTF-8`
    "#);
}
