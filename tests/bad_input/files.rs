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
    let keys = ["name", "par", "length_yd", "calm", "firmness", "side", "line", "green", "holes"];
    told(toml::read(&source, &keys, |file| {
        let name = file.need("name", "\"Ann\"").text();
        let par = file.may("par", "4").whole(3..=6);
        let length = file.may("length_yd", "410").number(40.0..=800.0, "yards");
        let calm = file.may("calm", "true").yes_no();
        let words = [("soft", 0.0), ("medium", 0.5), ("firm", 1.0)];
        let firmness = file.may("firmness", "\"soft\"").number_or_word(0.0..=1.0, "", &words);
        let side = file.may("side", "\"left\"").word(&[("left", -1), ("right", 1)]);
        let line = file.may("line", "[[0, 0], [10, 230]]").points(2000.0);
        let green = file.may("green", "{ depth_yd = 30 }").table(&["depth_yd"]);
        let depth = green.and_then(|green| green.need("depth_yd", "30").number(5.0..=80.0, "yards"));
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
    assert_snapshot!(read_toml(text), @"");
}

#[test]
fn a_missing_key_says_what_to_write() {
    assert_snapshot!(read_toml("par = 4"), @"");
}

#[test]
fn a_misspelt_key_is_one_fault_not_two() {
    assert_snapshot!(read_toml("nmae = 'Ann'"), @"");
}

#[test]
fn a_value_of_the_wrong_shape_is_quoted() {
    assert_snapshot!(
        read_toml("name = ''\npar = [4]\nlength_yd = nan\ngreen = 30\nholes = 18\nline = 'straight'\nside = 3\nfirmness = [1]"),
        @""
    );
}

#[test]
fn broken_toml_is_told_line_by_line() {
    assert_snapshot!(read_toml("name = Ann\npar = \nlength_yd 410\n[green\ndepth_yd = 030\nline = [[0, 0] [1, 1]]\n"), @"");
    assert_snapshot!(read_toml("name = 'Ann"), @"");
    assert_snapshot!(read_toml("name = 'Ann'\nname = 'Bob'\n"), @"");
    assert_snapshot!(read_toml("name = 'Ann' par = 4"), @"");
    assert_snapshot!(read_toml("name"), @"");
}

#[test]
fn columns_are_counted_in_characters() {
    assert_snapshot!(read_toml("name = 'Åsa' # räv\ngreen = { depth_yd = 'ö', tief = 1 }"), @"");
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
    let columns = Columns { needed: &["club", "speed_mph"], optional: &["launch_deg"], others };
    told(sheet::read(&Source::new("sample.csv", text), columns, |row| {
        let club = row.text("club").map(str::to_owned);
        let speed = row.number("speed_mph", 20.0..=220.0, "mph");
        let launch = row.may_number("launch_deg", -10.0..=70.0, "degrees");
        Some((club?, speed?, launch?))
    }))
}

#[test]
fn a_right_sheet_is_read() {
    assert_eq!(read_sheet("club,speed_mph\nd,160\n", false), "no fault");
    assert_eq!(read_sheet("\u{feff}club , speed_mph,launch_deg\r\n\r\n\"d, long\", 160 ,\r\n7i,120,16.5\r\n", false), "no fault");
    assert_eq!(read_sheet("club,speed_mph,note\nd,160,windy\n", true), "no fault");
}

#[test]
fn an_empty_sheet_says_what_its_first_line_must_be() {
    assert_snapshot!(read_sheet("", false), @"");
    assert_snapshot!(read_sheet("\n \r\n", false), @"");
    assert_snapshot!(read_sheet("club,speed_mph\n", false), @"");
}

#[test]
fn columns_at_fault_are_named() {
    assert_snapshot!(read_sheet("clubs,speed_mhp\nd,160\n", false), @"");
    assert_snapshot!(read_sheet("club,launch_deg\nd,12\n", false), @"");
    assert_snapshot!(read_sheet("club,speed_mph,club,weather\nd,160,d,wet\n", false), @"");
    assert_snapshot!(read_sheet("club;speed_mph\nd;160\n", false), @"");
}

#[test]
fn cells_at_fault_are_pointed_at() {
    let text = "club,speed_mph,launch_deg\r\n\"d, long\", fast ,12\r\n,160,\n7i,1200,x\r\n7i,120\r\n7i,,3\r\n7i,inf,3\r\n";
    assert_snapshot!(read_sheet(text, false), @"");
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
    fs::write(path.join("bytes.csv"), b"\xef\xbb\xbfclub,speed_mph\nd\xe9,160\n").expect("written");
    let told = |path: &Path| {
        told(Source::read(path)).replace(&folder.path().display().to_string(), "FOLDER")
    };
    assert_snapshot!(told(&path.join("medow.toml")), @"");
    assert_snapshot!(told(&path.join("meadow.tml")), @"");
    assert_snapshot!(told(&path.join("meadow")), @"");
    assert_snapshot!(told(&path.join("nothing-like-it.csv")), @"");
    assert_snapshot!(told(&path.join("nowhere").join("a.toml")), @"");
    assert_snapshot!(told(path), @"");
    assert_snapshot!(told(&path.join("bytes.csv")), @"");
}
