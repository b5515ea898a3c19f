//! What a map's tags mean to golf.
//!
//! Source: OpenStreetMap wiki, pages Key:golf, Tag:golf=hole, Tag:golf=tee, Tag:golf=green, Tag:leisure=golf_course. A
//! golf tag wins over whatever else stands beside it (grass, sand, pitch); disc golf and miniature golf are other sports.

use std::fmt;

use super::map::Tags;

/// What a feature is to golf.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Kind {
    /// The grounds of a course.
    Course,
    /// The line of play of a hole.
    Hole,
    /// A tee.
    Tee,
    /// A putting green.
    Green,
    /// A fairway.
    Fairway,
    /// Rough.
    Rough,
    /// A bunker.
    Bunker,
    /// Sand that no golf tag calls a bunker; it often doubles one.
    Sand,
    /// A penalty area, or any water.
    Water,
    /// A river, stream or ditch drawn as a line.
    WaterLine,
    /// Where out of bounds begins.
    OutOfBounds,
    /// A flag.
    Pin,
    /// A practice ground.
    Range,
    /// Wood, forest, scrub or heath.
    Wood,
    /// A single tree.
    Tree,
    /// A row of trees.
    TreeRow,
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Course => "course area",
            Self::Hole => "hole",
            Self::Tee => "tee",
            Self::Green => "green",
            Self::Fairway => "fairway",
            Self::Rough => "rough",
            Self::Bunker => "bunker",
            Self::Sand => "sand",
            Self::Water => "water",
            Self::WaterLine => "stream",
            Self::OutOfBounds => "out of bounds",
            Self::Pin => "pin",
            Self::Range => "practice ground",
            Self::Wood => "wood",
            Self::Tree => "tree",
            Self::TreeRow => "row of trees",
        })
    }
}

/// Values of `golf`.
const GOLF: [(&str, Kind); 11] = [
    ("hole", Kind::Hole),
    ("green", Kind::Green),
    ("bunker", Kind::Bunker),
    ("tee", Kind::Tee),
    ("fairway", Kind::Fairway),
    ("water_hazard", Kind::Water),
    ("lateral_water_hazard", Kind::Water),
    ("rough", Kind::Rough),
    ("out_of_bounds", Kind::OutOfBounds),
    ("pin", Kind::Pin),
    ("driving_range", Kind::Range),
];

/// Other tags that matter.
const OTHERS: [(&str, &str, Kind); 19] = [
    ("leisure", "golf_course", Kind::Course),
    ("natural", "water", Kind::Water),
    ("landuse", "reservoir", Kind::Water),
    ("waterway", "riverbank", Kind::Water),
    ("waterway", "river", Kind::WaterLine),
    ("waterway", "stream", Kind::WaterLine),
    ("waterway", "canal", Kind::WaterLine),
    ("waterway", "ditch", Kind::WaterLine),
    ("waterway", "drain", Kind::WaterLine),
    ("waterway", "brook", Kind::WaterLine),
    ("waterway", "tidal_channel", Kind::WaterLine),
    ("natural", "wood", Kind::Wood),
    ("landuse", "forest", Kind::Wood),
    ("natural", "scrub", Kind::Wood),
    ("natural", "heath", Kind::Wood),
    ("natural", "tree", Kind::Tree),
    ("natural", "tree_row", Kind::TreeRow),
    ("natural", "sand", Kind::Sand),
    ("leisure", "golf_driving_range", Kind::Range),
];

/// Keys that are kept of a feature; of each also those after a colon, as `par:red`.
const KEPT: [&str; 9] = [
    "golf",
    "name",
    "ref",
    "par",
    "handicap",
    "dist",
    "tee",
    "width",
    "diameter_crown",
];

impl Kind {
    /// What tags mean to golf; none when nothing. `get` gives the value of a key.
    pub(super) fn of<'a>(get: impl Fn(&str) -> Option<&'a str>) -> Option<Self> {
        let other_sport = ["disc_golf", "miniature_golf"];
        let sport = get("sport").is_some_and(|sport| other_sport.contains(&sport));
        if sport || other_sport.iter().any(|key| get(key).is_some()) {
            return None;
        }
        if let Some(golf) = get("golf") {
            // Several values may stand there, parted by semicolons: the first that is known counts.
            let known = |word: &str| GOLF.iter().find(|(name, _)| *name == word.trim());
            return golf.split(';').find_map(known).map(|(_, kind)| *kind);
        }
        // A stream in a pipe lies under the grass.
        if get("tunnel").is_some_and(|tunnel| tunnel != "no") {
            return None;
        }
        let stands = |(key, value, _): &&(&str, &str, Self)| get(key) == Some(value);
        OTHERS.iter().find(stands).map(|(_, _, kind)| *kind)
    }

    /// Whether the golf tag itself says so, and not the land around.
    pub(super) const fn is_golf(self) -> bool {
        !matches!(
            self,
            Self::Sand | Self::Water | Self::WaterLine | Self::Wood | Self::Tree | Self::TreeRow
        )
    }

    /// Of all tags those that are kept.
    pub(super) fn kept<'a>(self, all: impl Iterator<Item = (&'a str, &'a str)>) -> Tags {
        let wanted = |key: &str| {
            let stem = key.split(':').next().unwrap_or(key);
            match self {
                Self::Tree | Self::TreeRow => key == "diameter_crown",
                Self::Wood | Self::Water | Self::Sand => false,
                Self::WaterLine => key == "width" || key == "waterway",
                _ => KEPT.contains(&stem),
            }
        };
        let kept = all.filter(|(key, _)| wanted(key));
        Tags(
            kept.map(|(key, value)| (key.to_owned(), value.to_owned()))
                .collect(),
        )
    }
}

/// Words of a name by which a hole or a green is one for practice.
const PRACTICE: [&str; 6] = [
    "range", "practice", "practise", "putting", "chipping", "pitching",
];

/// Whether a name is that of a place to practise.
pub(super) fn is_practice(name: &str) -> bool {
    let name = name.to_lowercase();
    let mut words = name.split(|c: char| !c.is_alphanumeric());
    words.any(|word| PRACTICE.contains(&word))
}

/// Colours of tees, and what they are called.
const COLOURS: [&str; 13] = [
    "black", "blue", "white", "yellow", "red", "gold", "green", "silver", "orange", "purple",
    "pink", "brown", "bronze",
];

/// The colours of a tee: from its tag, else from its name. Lower case.
pub(super) fn colours(tags: &Tags) -> Vec<String> {
    if let Some(tag) = tags.get("tee") {
        let parts = tag
            .split([';', ',', '/'])
            .map(|part| part.trim().to_lowercase());
        return parts.filter(|part| !part.is_empty()).collect();
    }
    let name = tags.get("name").unwrap_or_default().to_lowercase();
    let words = name.split(|c: char| !c.is_alphabetic());
    let colours = words.filter(|word| COLOURS.contains(word));
    colours.map(str::to_owned).collect()
}

/// The first whole number in a text, if there is one.
pub(super) fn number_in(text: &str) -> Option<i64> {
    let mut digits = text
        .split(|c: char| !c.is_ascii_digit())
        .filter(|part| !part.is_empty());
    let number: i64 = digits.next()?.parse().ok()?;
    Some(if text.trim_start().starts_with('-') {
        -number
    } else {
        number
    })
}

/// A length of a tag in metres: `3`, `3 m`, `10 ft`, `10'`; none when it is not understood.
pub(super) fn metres(text: &str) -> Option<f64> {
    let text = text.trim().replace(',', ".");
    let (number, unit) = text.split_at(
        text.find(|c: char| !c.is_ascii_digit() && c != '.')
            .unwrap_or(text.len()),
    );
    let number: f64 = number.parse().ok()?;
    match unit.trim() {
        "" | "m" => Some(number),
        "ft" | "'" => Some(number * 0.3048),
        "yd" => Some(number * 0.9144),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kind(tags: &[(&'static str, &'static str)]) -> Option<Kind> {
        Kind::of(|key| {
            tags.iter()
                .find(|(known, _)| *known == key)
                .map(|(_, value)| *value)
        })
    }

    #[test]
    fn a_golf_tag_wins_over_what_stands_beside_it() {
        assert_eq!(
            kind(&[
                ("landuse", "grass"),
                ("golf", "green"),
                ("leisure", "pitch")
            ]),
            Some(Kind::Green)
        );
        assert_eq!(
            kind(&[("natural", "sand"), ("golf", "bunker")]),
            Some(Kind::Bunker)
        );
        assert_eq!(kind(&[("natural", "water"), ("golf", "cartpath")]), None);
    }

    #[test]
    fn of_several_values_the_first_known_one_counts() {
        assert_eq!(kind(&[("golf", "practice;green")]), Some(Kind::Green));
        assert_eq!(kind(&[("golf", "tee; fairway")]), Some(Kind::Tee));
    }

    #[test]
    fn disc_golf_and_miniature_golf_are_other_sports() {
        assert_eq!(kind(&[("golf", "hole"), ("sport", "disc_golf")]), None);
        assert_eq!(kind(&[("golf", "tee"), ("miniature_golf", "hole")]), None);
    }

    #[test]
    fn colours_stand_in_the_tag_or_in_the_name() {
        let tags = |key: &str, value: &str| Tags(vec![(key.to_owned(), value.to_owned())]);
        assert_eq!(colours(&tags("tee", "White;yellow")), ["white", "yellow"]);
        assert_eq!(
            colours(&tags("name", "Yellow + White 8")),
            ["yellow", "white"]
        );
        assert_eq!(colours(&tags("name", "T8")), [""; 0]);
    }

    #[test]
    fn widths_are_told_in_metres_or_feet() {
        assert_eq!(metres("3"), Some(3.0));
        assert_eq!(metres("2,5 m"), Some(2.5));
        assert_eq!(metres("10 ft"), Some(3.048));
        assert_eq!(metres("wide"), None);
    }

    #[test]
    fn practice_is_told_by_a_word_of_the_name() {
        assert!(is_practice("Driving Range") && is_practice("Practice Green"));
        assert!(!is_practice("Orange (Par 4)"));
    }
}
