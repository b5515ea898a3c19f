//! The page as a browser reads it: sound HTML, named fields, nothing that runs or loads from elsewhere.

use std::collections::BTreeSet;

use serde_json::Value;

use super::{Desk, ROWAN};
use crate::program::report::{Node, parsed};

fn ids(page: &Node) -> Vec<String> {
    let all = page.everything();
    all.iter()
        .filter_map(|node| node.get("id").map(str::to_owned))
        .collect()
}

/// Whether somebody who does not see a field is told what it is.
fn is_named(page: &Node, field: &Node) -> bool {
    let own = field.get("id").expect("an id");
    let inside = |label: &&Node| {
        let below = label.everything();
        below.iter().any(|node| node.get("id") == Some(own))
    };
    let labels = page.all("label");
    field.get("aria-label").is_some()
        || labels.iter().any(|label| label.get("for") == Some(own))
        || labels.iter().any(inside)
}

#[test]
fn the_page_is_sound_and_every_field_has_a_name() {
    let desk = Desk::open(&[]);
    let text = desk.part("").text();
    let page = parsed(&text);
    assert_eq!(page.get("lang"), Some("en"));
    assert_eq!((page.all("h1").len(), page.all("main").len()), (1, 1));
    let all = ids(&page);
    let once: BTreeSet<&String> = all.iter().collect();
    assert_eq!(once.len(), all.len(), "{all:?}");
    let mut fields = page.all("input");
    fields.extend(page.all("select"));
    assert!(fields.len() > 25, "{}", fields.len());
    for field in fields {
        assert!(is_named(&page, field), "{:?}", field.get("id"));
    }
    for button in page.all("button") {
        assert!(matches!(button.get("type"), Some("button" | "submit")));
    }
    for node in page.everything() {
        for key in ["aria-labelledby", "for"] {
            for name in node.get(key).unwrap_or_default().split_whitespace() {
                assert!(all.iter().any(|id| id == name), "{key}={name}");
            }
        }
        for (key, value) in &node.attributes {
            assert!(!key.starts_with("on") && key != "style", "{key}");
            assert!(!value.contains("//"), "{key}={value}");
        }
    }
    assert!(
        page.all("style").is_empty(),
        "the page takes no style within it"
    );
    let scripts = page.all("script");
    assert!(scripts.len() == 1 && scripts[0].words.is_empty());
    assert_eq!(scripts[0].get("src"), Some("desk.js"));
    // Whatever the script looks for by name is there.
    let script = desk.part("desk.js").text();
    for found in script.split("by(\"").skip(1) {
        let name = found.split('"').next().expect("a name");
        assert!(all.iter().any(|id| id == name), "{name}");
    }
    assert!(!script.contains("//api") && !script.contains("https:") && !script.contains("eval("));
    let style = desk.part("desk.css").text();
    assert!(!style.contains("@import") && !style.contains("url("));
}

#[test]
fn what_is_put_into_the_page_is_sound_and_takes_no_name_twice() {
    let desk = Desk::open(&ROWAN);
    let state = desk.settled();
    let skeleton = ids(&parsed(&desk.part("").text()));
    let answer = desk
        .try_changes(1, "all", &["mid irons dynamic_loft +4"])
        .json();
    let html = |value: &Value| value.as_str().expect("HTML").to_owned();
    let mut all: BTreeSet<String> = skeleton
        .iter()
        .filter(|id| *id != "card")
        .cloned()
        .collect();
    for part in [
        html(&state["html"]["card"]),
        html(&state["html"]["shots"]),
        html(&answer["pictures"]),
        html(&answer["figures"]),
    ] {
        let whole = format!(
            "<!DOCTYPE html><html lang=\"en\"><head><title>x</title></head><body>{part}</body></html>"
        );
        let page = parsed(&whole);
        for id in ids(&page) {
            assert!(all.insert(id.clone()), "{id} stands twice");
        }
        for node in page.everything() {
            assert!(!matches!(
                node.name.as_str(),
                "script" | "style" | "link" | "iframe"
            ));
            assert!(
                node.attributes
                    .iter()
                    .all(|(key, _)| !key.starts_with("on") && key != "style")
            );
        }
    }
}

#[test]
fn names_that_look_like_code_stay_words() {
    let folder = tempfile::tempdir().expect("a folder");
    let bad = "<img src=x onerror=alert(1)>";
    let course = crate::program::SHORT.replace("Three Holes", bad);
    std::fs::write(folder.path().join("short.toml"), course).expect("written");
    let player = format!(
        "name = '{bad}'\nhandicap_index = 9\nsex = \"men\"\n[[clubs]]\nclub = \"7 iron\"\nball_speed_mph = 108\n"
    );
    std::fs::write(folder.path().join("ann.toml"), player).expect("written");
    let desk = Desk::open_in(folder, &["ann.toml", "short.toml"]);
    let state = desk.settled();
    let card = state["html"]["card"].as_str().expect("a card");
    assert!(!card.contains("<img") && card.contains("&lt;img"));
    assert_eq!(state["player"]["name"], bad);
}
