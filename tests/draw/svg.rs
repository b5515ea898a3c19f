//! A picture as an XML reader sees it.

use std::collections::HashMap;

use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};

/// An element: its name, attributes and the words right in it.
#[derive(Debug, Clone, Default)]
pub struct Element {
    pub name: String,
    pub attributes: HashMap<String, String>,
    pub words: String,
}

impl Element {
    pub fn get(&self, key: &str) -> Option<&str> {
        self.attributes.get(key).map(String::as_str)
    }

    pub fn number(&self, key: &str) -> f64 {
        let text = self
            .get(key)
            .unwrap_or_else(|| panic!("no {key}: {self:?}"));
        text.parse()
            .unwrap_or_else(|_| panic!("{key} is no number: {text}"))
    }
}

/// Every element of a document in order; stops the test where it is not well formed.
pub fn elements(svg: &str) -> Vec<Element> {
    let mut reader = Reader::from_str(svg);
    let (mut all, mut open): (Vec<Element>, Vec<usize>) = (Vec::new(), Vec::new());
    loop {
        match reader
            .read_event()
            .unwrap_or_else(|error| panic!("{error}\n{svg}"))
        {
            Event::Start(start) => {
                open.push(all.len());
                all.push(element(&start));
            }
            Event::Empty(start) => all.push(element(&start)),
            Event::Text(text) => {
                if let Some(&index) = open.last() {
                    all[index].words += &text;
                }
            }
            Event::End(_) => {
                open.pop();
            }
            Event::Eof => break,
            _ => {}
        }
    }
    assert!(open.is_empty(), "every element is closed");
    all
}

fn element(start: &BytesStart<'_>) -> Element {
    let attribute = |found: Result<quick_xml::events::attributes::Attribute<'_>, _>| {
        let found = found.unwrap_or_else(|error| panic!("{error}"));
        (found.key.as_ref().to_owned(), found.value.into_owned())
    };
    Element {
        name: start.name().as_ref().to_owned(),
        attributes: start.attributes().map(attribute).collect(),
        words: String::new(),
    }
}

/// The rings of a path of straight lines.
pub fn rings(d: &str) -> Vec<Vec<(f64, f64)>> {
    let place = |text: &str| {
        let (x, y) = text
            .trim()
            .split_once(' ')
            .unwrap_or_else(|| panic!("`{text}` of {d}"));
        (x.parse().unwrap_or(f64::NAN), y.parse().unwrap_or(f64::NAN))
    };
    let ring = |text: &str| text.trim_end_matches('Z').split('L').map(place).collect();
    d.split('M')
        .filter(|text| !text.is_empty())
        .map(ring)
        .collect()
}

/// The area within the rings of a path, islands taken off.
pub fn area(d: &str) -> f64 {
    let signed = |ring: &Vec<(f64, f64)>| {
        let sides = ring.iter().zip(ring.iter().cycle().skip(1));
        sides.map(|(a, b)| a.0 * b.1 - b.0 * a.1).sum::<f64>() / 2.0
    };
    rings(d).iter().map(signed).sum::<f64>().abs()
}

/// The length of the first line of a path.
pub fn length(d: &str) -> f64 {
    let lines = rings(d);
    let sides = lines[0].windows(2);
    sides
        .map(|side| (side[1].0 - side[0].0).hypot(side[1].1 - side[0].1))
        .sum()
}
