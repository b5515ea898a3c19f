//! `report`: a page that is sound HTML, stands alone, and says what the card says.

use std::path::Path;
use std::sync::OnceLock;

use html5ever::tendril::TendrilSink;
use html5ever::{ParseOpts, parse_document};
use markup5ever_rcdom::{Handle, NodeData, RcDom};
use serde_json::Value;

use super::{SHORT, costcard, costcard_in, stdout, text, told_by};

const ROWAN: [&str; 7] = [
    "demo:rowan",
    "short.toml",
    "--goal",
    "5",
    "--rounds",
    "200",
    "--json",
];

/// The page and the document of a run that must do its work.
fn written(words: &[&str]) -> (String, Value) {
    let folder = tempfile::tempdir().expect("a folder");
    in_folder(folder.path(), words)
}

fn in_folder(folder: &Path, words: &[&str]) -> (String, Value) {
    std::fs::write(folder.join("short.toml"), SHORT).expect("written");
    let all = [&["report"], words, &["--out", "x.html", "--json"]].concat();
    let output = costcard_in(folder, &all);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let page = std::fs::read_to_string(folder.join("x.html")).expect("a page");
    let document = serde_json::from_slice(&output.stdout).expect("JSON");
    (page, document)
}

/// The report of the demo player on three holes, made once.
fn rowan() -> &'static (String, Value) {
    static MADE: OnceLock<(String, Value)> = OnceLock::new();
    MADE.get_or_init(|| written(&ROWAN[..6]))
}

/// An element as a browser reads it.
pub struct Node {
    pub name: String,
    pub attributes: Vec<(String, String)>,
    pub words: String,
    pub children: Vec<Self>,
}

impl Node {
    fn of(handle: &Handle) -> Option<Self> {
        let NodeData::Element { name, attrs, .. } = &handle.data else {
            return None;
        };
        let attributes = attrs.borrow();
        let attributes = attributes.iter().map(|attribute| {
            (
                attribute.name.local.to_string(),
                attribute.value.to_string(),
            )
        });
        Some(Self {
            name: name.local.to_string(),
            attributes: attributes.collect(),
            words: words(handle),
            children: handle
                .children
                .borrow()
                .iter()
                .filter_map(Self::of)
                .collect(),
        })
    }

    pub fn get(&self, key: &str) -> Option<&str> {
        let found = self.attributes.iter().find(|(other, _)| other == key);
        found.map(|(_, value)| value.as_str())
    }

    /// All elements of a name below this one.
    pub fn all(&self, name: &str) -> Vec<&Self> {
        let own = (self.name == name).then_some(self);
        let below = self.children.iter().flat_map(|child| child.all(name));
        own.into_iter().chain(below).collect()
    }

    pub fn everything(&self) -> Vec<&Self> {
        let below = self.children.iter().flat_map(Self::everything);
        std::iter::once(self).chain(below).collect()
    }
}

fn words(handle: &Handle) -> String {
    match &handle.data {
        NodeData::Text { contents } => contents.borrow().to_string(),
        _ => handle.children.borrow().iter().map(words).collect(),
    }
}

/// The page as a browser reads it; any fault of its HTML stops the test.
pub fn parsed(page: &str) -> Node {
    let dom = parse_document(RcDom::default(), ParseOpts::default()).one(page);
    assert!(dom.errors.borrow().is_empty(), "{:?}", dom.errors.borrow());
    let children = dom.document.children.borrow();
    children.iter().find_map(Node::of).expect("a document")
}

/// The rows of the table with this caption, cell by cell.
fn table(page: &Node, caption: &str) -> Vec<Vec<String>> {
    let is_it = |table: &&&Node| table.all("caption")[0].words.starts_with(caption);
    let tables = page.all("table");
    let table = tables.iter().find(is_it).expect(caption);
    let rows = table.all("tbody")[0].all("tr").into_iter();
    let cells = |row: &Node| row.children.iter().map(|cell| cell.words.clone()).collect();
    rows.map(cells).collect()
}

#[test]
fn the_page_is_sound_and_read_out_in_order() {
    let page = parsed(&rowan().0);
    assert_eq!(page.get("lang"), Some("en"));
    assert_eq!(page.all("h1").len(), 1);
    assert_eq!(page.all("h1")[0].words, "Rowan Pike: what to work on");
    assert_eq!(page.all("main").len(), 1);
    let headings = page.everything();
    let levels = headings.iter().filter_map(|node| match node.name.as_str() {
        "h1" => Some(1),
        "h2" => Some(2),
        "h3" => Some(3),
        "h4" => Some(4),
        _ => None,
    });
    let levels: Vec<i32> = levels.collect();
    for pair in levels.windows(2) {
        assert!(pair[1] - pair[0] <= 1, "no level is left out: {levels:?}");
    }
    for table in page.all("table") {
        let captions = table.all("caption");
        assert!(captions.len() == 1 && !captions[0].words.is_empty());
        for heading in table.all("th") {
            assert!(matches!(heading.get("scope"), Some("col" | "row")));
            assert!(!heading.words.is_empty());
        }
    }
    let pictures = page.all("svg");
    assert!(pictures.len() > 15, "{}", pictures.len());
    for picture in pictures {
        assert_eq!(picture.get("role"), Some("img"));
        assert_eq!(picture.children[0].name, "title");
        assert_eq!(picture.children[1].name, "desc");
        assert!(!picture.children[0].words.is_empty() && !picture.children[1].words.is_empty());
    }
}

#[test]
fn every_name_stands_once_and_what_is_referred_to_is_there() {
    let page = parsed(&rowan().0);
    let all = page.everything();
    let mut ids: Vec<&str> = all.iter().filter_map(|node| node.get("id")).collect();
    let count = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), count);
    for node in all {
        let named = node.get("aria-labelledby").unwrap_or_default();
        for name in named.split_whitespace() {
            assert!(ids.binary_search(&name).is_ok(), "{name}");
        }
    }
}

#[test]
fn the_page_stands_alone() {
    let (text, document) = rowan();
    let page = parsed(text);
    for name in [
        "script", "link", "img", "iframe", "object", "image", "use", "a", "form",
    ] {
        assert!(page.all(name).is_empty(), "{name}");
    }
    for node in page.everything() {
        for (key, value) in &node.attributes {
            assert!(!matches!(key.as_str(), "src" | "href" | "srcset"), "{key}");
            assert!(!key.starts_with("on"), "{key}");
            if key != "xmlns" {
                assert!(!value.contains("//"), "{key}={value}");
            }
            let outside = value.replace("url(#", "");
            assert!(!outside.contains("url("), "{key}={value}");
        }
    }
    for style in page.all("style") {
        assert!(!style.words.contains("@import") && !style.words.contains("url("));
    }
    assert_eq!(document["bytes"], text.len());
    assert!(text.len() < 1_000_000, "{} bytes", text.len());
}

#[test]
fn the_page_says_what_the_card_says() {
    let (text, document) = rowan();
    let card: Value =
        serde_json::from_str(&stdout(&[&["rank"], &ROWAN[..]].concat())).expect("JSON");
    let course = &document["courses"][0];
    let figures = card.as_object().expect("an object").iter();
    for (key, value) in figures.filter(|(key, _)| *key != "inputs") {
        assert_eq!(&course[key], value, "{key}");
    }
    let page = parsed(text);
    let rows = table(&page, "The cost card");
    let parts = card["parts"].as_array().expect("parts");
    assert_eq!(rows.len(), parts.len() + 1);
    let shown = |value: &Value, decimals: usize| {
        let text = format!("{:.decimals$}", value.as_f64().expect("a number"));
        let is_zero = text.chars().all(|c| matches!(c, '-' | '0' | '.'));
        let text = if is_zero { text.replace('-', "") } else { text };
        text.replace('-', "−")
    };
    for part in parts {
        let name = part["part"].as_str().expect("a name");
        let row = rows
            .iter()
            .find(|row| row[0].trim_end_matches(" *") == name);
        let row = row.expect(name);
        assert_eq!(row[0].ends_with('*'), part["measured"] == false, "{name}");
        assert_eq!(row[1], shown(&part["saved"], 1), "{name}");
        let interval = format!("{} to {}", shown(&part["low"], 1), shown(&part["high"], 1));
        assert_eq!(row[2], interval, "{name}");
        let chance = 100.0 * part["first_chance"].as_f64().expect("a chance");
        assert_eq!(row[3], format!("{chance:.0} %"), "{name}");
        assert_eq!(row[4], shown(&part["share"], 1), "{name}");
        assert_eq!(row[5], shown(&part["lost"], 1), "{name}");
    }
    let scores: Vec<String> = page
        .all("dd")
        .iter()
        .map(|node| node.words.clone())
        .collect();
    let asked = ["score_mean", "goal_score_mean", "gap"].map(|key| shown(&card[key], 1));
    assert_eq!(scores, asked);
}

#[test]
fn the_sentences_are_those_of_the_card() {
    let words: Vec<&str> = [&["rank"], &ROWAN[..6]].concat();
    let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let card = flat(&stdout(&words));
    let page = parsed(&rowan().0);
    let said: Vec<String> = page.all("p").iter().map(|node| flat(&node.words)).collect();
    let of_card = said
        .iter()
        .filter(|said| card.contains(said.as_str()))
        .count();
    // Who and where, what to work on, why, how sure, and the scores.
    assert!(of_card >= 5, "{of_card} of {said:#?}");
    let notes = page.all("li").into_iter().map(|node| flat(&node.words));
    let notes = notes.filter(|note| card.contains(note.as_str()));
    assert!(notes.count() >= 6);
}

#[test]
fn what_is_drawn_is_what_the_card_tells() {
    let (text, document) = rowan();
    let page = parsed(text);
    let all = page.everything();
    let of = |key: &str| all.iter().filter(|node| node.get(key).is_some()).count();
    assert_eq!((of("data-saved"), of("data-interval")), (7, 7));
    let clubs = document["clubs"].as_array().expect("clubs");
    assert_eq!(clubs.len(), 3);
    // A flight and a hold curve for each club, of the player and of the goal's golfers.
    assert_eq!(of("data-whose"), 4 * clubs.len());
    let costly = document["courses"][0]["costly_holes"]
        .as_array()
        .expect("holes");
    let lost: Vec<f64> = costly
        .iter()
        .filter_map(|hole| hole["lost"].as_f64())
        .collect();
    assert_eq!(lost.len(), 3);
    assert!(lost.is_sorted_by(|a, b| a >= b), "{lost:?}");
    for hole in costly {
        let name = format!("Hole {}: ", hole["hole"]);
        let article = page
            .all("article")
            .into_iter()
            .find(|node| node.words.contains(&name));
        let lost = hole["lost"].as_f64().expect("lost");
        let said = format!("Costs you {lost:.2} strokes");
        let words = &article.expect("the hole").words;
        assert!(words.contains(&said), "{said}");
        // Most of it is half of it or more.
        if let Some((_, most)) = words.split_once("Most of it goes in ") {
            let (_, figure) = most.split_once(": ").expect("a figure");
            let figure: f64 = figure[..4].parse().expect("strokes");
            assert!(figure >= lost / 2.0 - 0.01, "{said} {most}");
        }
    }
}

#[test]
fn the_same_words_give_the_same_bytes_on_any_number_of_threads() {
    let page = |threads| written(&[&ROWAN[..6], &["--threads", threads]].concat()).0;
    assert!(page("1") == rowan().0);
    assert!(page("2") == rowan().0);
}

#[test]
fn what_is_read_changes_with_the_units_and_the_document_does_not() {
    let (text, document) = written(&[&ROWAN[..6], &["--units", "metres"]].concat());
    let read = parsed(&text).words;
    assert!(
        !read.contains(" yd") && read.contains("27 by 27 m"),
        "{read}"
    );
    assert_eq!(document["courses"], rowan().1["courses"]);
}

#[test]
fn other_courses_stand_beside_home() {
    let folder = tempfile::tempdir().expect("a folder");
    let other = SHORT.replace("Three Holes", "Low <&> Links");
    std::fs::write(folder.path().join("other.toml"), other).expect("written");
    let words = [
        "level:10",
        "short.toml",
        "other.toml",
        "--goal",
        "5",
        "--rounds",
        "100",
    ];
    let (text, document) = in_folder(folder.path(), &words);
    assert_eq!(document["courses"][1]["course"], "Low <&> Links");
    let page = parsed(&text);
    let rows = table(&page, "What each part would save");
    assert_eq!((rows.len(), rows[0].len()), (7, 3));
    assert!(
        page.all("h3")
            .iter()
            .any(|node| node.words == "Low <&> Links")
    );
}

#[test]
fn two_sheets_stand_before_and_after() {
    let words = [
        "demo:bay-after.csv",
        "short.toml",
        "--goal",
        "5",
        "--rounds",
        "100",
        "--handicap",
        "14.2",
        "--map",
        "demo:bay-map.toml",
        "--before",
        "demo:bay.csv",
        "--name",
        "Ann <& Bo>",
    ];
    let (text, document) = written(&words);
    let compared = stdout(&[
        "compare",
        "demo:bay.csv",
        "demo:bay-after.csv",
        "--map",
        "demo:bay-map.toml",
    ]);
    let page = parsed(&text);
    let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let verdict = compared.split("\n\n").next().expect("a verdict").to_owned();
    let said: Vec<String> = page.all("p").iter().map(|node| flat(&node.words)).collect();
    assert!(said.contains(&flat(&verdict)), "{verdict} in {said:#?}");
    let worth = document["change"]["strokes"].as_f64().expect("a worth");
    let before = document["change"]["before"].as_f64().expect("a score");
    let after = document["change"]["after"].as_f64().expect("a score");
    assert!((before - after - worth).abs() < 1e-12);
    assert!(!table(&page, "What has really changed").is_empty());
    assert_eq!(page.all("h1")[0].words, "Ann <& Bo>: what to work on");
}

#[test]
fn the_same_player_before_and_after_has_not_changed() {
    let words = ["demo:rowan", "short.toml", "--goal", "5", "--rounds", "100"];
    let (text, document) = written(&[&words[..], &["--before", "demo:rowan"]].concat());
    assert_eq!(document["change"]["strokes"], 0.0);
    assert!(text.contains("stays the same"));
}

#[test]
fn a_page_that_is_there_is_kept_unless_forced() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("x.html");
    std::fs::write(&path, "mine").expect("written");
    std::fs::write(folder.path().join("short.toml"), SHORT).expect("written");
    let words = [
        "report",
        "level:10",
        "short.toml",
        "--goal",
        "5",
        "--rounds",
        "100",
        "--out",
        "x.html",
    ];
    let told = told_by(&costcard_in(folder.path(), &words));
    assert!(told.contains("`x.html` is there already"), "{told}");
    assert_eq!(std::fs::read_to_string(&path).expect("read"), "mine");
    let output = costcard_in(folder.path(), &[&words[..], &["--force"]].concat());
    assert_eq!(text(&output.stdout), "x.html\n");
    assert!(
        std::fs::read_to_string(&path)
            .expect("read")
            .starts_with("<!DOCTYPE html>")
    );
}

#[test]
fn input_at_fault_is_told_and_nothing_is_written() {
    let of = |words: &[&str]| {
        let folder = tempfile::tempdir().expect("a folder");
        std::fs::write(folder.path().join("short.toml"), SHORT).expect("written");
        let broken = SHORT.replace("par = 3", "par = 9");
        std::fs::write(folder.path().join("broken.toml"), broken).expect("written");
        let told = told_by(&costcard_in(folder.path(), &[&["report"], words].concat()));
        assert!(!folder.path().join("x.html").exists());
        told
    };
    let goal = ["--goal", "5", "--out", "x.html"];
    let with = |words: &[&str]| of(&[words, &goal[..]].concat());
    for (told, part) in [
        (
            of(&["level:10", "short.toml", "--goal", "5", "--out", "x.pdf"]),
            "end it with .html",
        ),
        (
            of(&[
                "level:10",
                "short.toml",
                "--goal",
                "5",
                "--out",
                "no/x.html",
            ]),
            "there is no folder `no`",
        ),
        (with(&["level:10", "broken.toml"]), "broken.toml:4:7"),
        (
            with(&["level:10", "short.toml", "nothing.toml"]),
            "nothing.toml",
        ),
        (
            with(&["level:10", "short.toml", "--asked", "dancing"]),
            "`--asked` names no part",
        ),
        (
            with(&["demo:rowan", "short.toml", "--before", "demo:bay.csv"]),
            "demo:bay.csv",
        ),
        (
            with(&[
                "demo:bay-after.csv",
                "short.toml",
                "--handicap",
                "14.2",
                "--map",
                "demo:bay-map.toml",
                "--before",
                "demo:rowan.toml",
            ]),
            "`--handicap` goes with a sheet of shots, and `demo:rowan.toml` is none",
        ),
        (
            of(&["level:10", "short.toml", "--goal", "ten", "--out", "x.html"]),
            "`--goal` must be a handicap index",
        ),
    ] {
        assert!(told.contains(part), "{part} in: {told}");
    }
    assert_eq!(
        costcard(&["report", "level:10", "--goal", "5", "--out", "x.html"])
            .status
            .code(),
        Some(2)
    );
}
