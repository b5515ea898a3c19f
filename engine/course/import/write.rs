//! The course file of an import: readable, with what was found, inferred and missing told in comments.

use std::fmt::Write as _;

use super::course::{Imported, ImportedHole};
use super::green::{GreenFrom, MADE_GREEN_YD, sq_m};
use super::sets::TeeSets;
use crate::course::{Lie, Point};

/// The longest line written, characters.
const WIDEST: usize = 110;
/// The most of what cannot be played that is told: a map of a whole county may hold hundreds.
const MOST_REFUSED: usize = 20;
/// Who made the map. It must stay in what is made of it. Source: openstreetmap.org/copyright.
pub const ATTRIBUTION: &str = "© OpenStreetMap contributors, ODbL";

/// What maps do not tell: from flags, or as assumed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Turf {
    /// Firmness as the course file writes it: a word in quotes or a number.
    pub firmness: Option<String>,
    /// Stimpmeter reading of the greens, feet.
    pub stimp_ft: Option<f64>,
}

impl Imported {
    /// The course file.
    #[must_use]
    pub fn to_toml(&self, turf: &Turf) -> String {
        let mut out = String::new();
        self.head(&mut out);
        let _ = writeln!(out, "name = {}", quoted(&self.name));
        let sets = TeeSets::of(self);
        sets.write(&mut out);
        let _ = writeln!(
            out,
            "\n# Maps tell nothing of turf, weather, green speed or slope: edit these."
        );
        let _ = writeln!(out, "[conditions]");
        let firmness = turf.firmness.as_deref().unwrap_or("\"medium\"");
        let _ = writeln!(
            out,
            "firmness = {firmness}{}",
            assumed(
                turf.firmness.is_some(),
                "soft, medium, firm, or a number from 0 to 1"
            )
        );
        let _ = writeln!(
            out,
            "# wind_mph = 8\n# wind_from_deg = 225           # compass direction the wind comes from"
        );
        let _ = writeln!(out, "# temperature_f = 66\n# altitude_ft = 300");
        let _ = writeln!(
            out,
            "\n[defaults]\nbeyond = \"rough\"                # where nothing is drawn"
        );
        let stimp = turf.stimp_ft.unwrap_or(10.0);
        let _ = writeln!(
            out,
            "green = {{ stimp_ft = {stimp} }}{}",
            assumed(
                turf.stimp_ft.is_some(),
                "stimpmeter, feet; slope_along_pct = 2 may be added"
            )
        );
        for hole in &self.holes {
            write_hole(&mut out, hole, &sets);
        }
        out
    }

    /// The comments at the head of the file.
    fn head(&self, out: &mut String) {
        comment(
            out,
            "",
            &format!("Map data {ATTRIBUTION}. Keep this line: the licence asks for it."),
        );
        let from = self
            .tees
            .as_ref()
            .map_or("from the start of each line".to_owned(), |colour| {
                format!("from the {colour} tees")
            });
        comment(
            out,
            "",
            &format!(
                "Imported from a map: {} holes, par {}, {:.0} yd, played {from}.",
                self.holes.len(),
                self.par(),
                self.length_yd()
            ),
        );
        comment(
            out,
            "",
            "Each hole says what was found and what was inferred. All points are yards from its tee, the second number along the first leg of play.",
        );
        for note in &self.notes {
            comment(out, "", &format!("Note: {note}."));
        }
        for refused in self.refused.iter().take(MOST_REFUSED) {
            comment(
                out,
                "",
                &format!("Left out: {}: {}.", refused.what, refused.why),
            );
        }
        if let Some(more) = self.refused.len().checked_sub(MOST_REFUSED + 1) {
            comment(out, "", &format!("Left out: {} more.", more + 1));
        }
        out.push('\n');
    }
}

fn assumed(is_asked: bool, what: &str) -> String {
    if is_asked {
        String::new()
    } else {
        format!("             # assumed: {what}")
    }
}

fn write_hole(out: &mut String, hole: &ImportedHole, sets: &TeeSets) {
    let (found, laid) = (&hole.found, &hole.laid);
    out.push('\n');
    for warning in &found.warnings {
        comment(out, "", &format!("Mind: {warning}."));
    }
    let _ = writeln!(out, "[[holes]]");
    let _ = writeln!(out, "number = {}", found.number);
    let _ = writeln!(out, "par = {}  # {}", found.par, found.par_from.words());
    if let Some(index) = found.stroke_index {
        let _ = writeln!(out, "stroke_index = {index}");
    }
    comment(out, "", &length(hole));
    let _ = writeln!(out, "bearing_deg = {}", laid.bearing_deg);
    let _ = writeln!(out, "line_yd = {}", points(&laid.line, 10, 4));
    sets.write_on(out, hole);
    match laid.is_fairway_assumed {
        true => {
            let _ = writeln!(out, "fairway_width_yd = 36  # assumed: none is on the map");
        }
        false => {
            let _ = writeln!(out, "fairway = []  # its outlines stand among the areas");
        }
    }
    write_green(out, hole);
    let _ = writeln!(out, "areas = [");
    for area in &laid.areas {
        comment(out, "  ", &area.origin);
        let lead = format!("  {{ lie = \"{}\", outline_yd = ", word(area.lie));
        let outline = points(&area.rings[0], lead.len(), 6);
        let islands = match &area.rings[1..] {
            [] => String::new(),
            islands => format!(
                ",
      islands_yd = {}",
                nested(islands)
            ),
        };
        let _ = writeln!(out, "{lead}{outline}{islands} }},");
    }
    let _ = writeln!(out, "]");
}

/// The length of a hole and its tees, in words.
fn length(hole: &ImportedHole) -> String {
    let found = &hole.found;
    let mut text = format!(
        "{:.1} yd; which end is the tee: {}",
        found.length_yd,
        found.direction.words()
    );
    let tees: Vec<String> = found
        .tees
        .iter()
        .filter(|tee| !tee.colours.is_empty())
        .map(|tee| format!("{} {:.0} yd", tee.colours.join(" and "), tee.length_yd))
        .collect();
    if !tees.is_empty() {
        let _ = write!(text, "; tees on the map: {}", tees.join(", "));
    }
    text
}

fn write_green(out: &mut String, hole: &ImportedHole) {
    match (&hole.laid.green, hole.found.green_sq_yd) {
        (Some(outline), Some(sq_yd)) => {
            let words = hole.found.green_from.words();
            comment(
                out,
                "",
                &format!("{:.0} sq yd ({:.0} m²): {words}", sq_yd, sq_m(sq_yd)),
            );
            let _ = writeln!(out, "green = {{ outline_yd = {} }}", points(outline, 23, 4));
        }
        _ => {
            let (depth, width) = MADE_GREEN_YD;
            let _ = writeln!(
                out,
                "green = {{ depth_yd = {depth}, width_yd = {width} }}  # {}",
                GreenFrom::Made.words()
            );
        }
    }
}

/// The word of a lie in course files.
const fn word(lie: Lie) -> &'static str {
    match lie {
        Lie::Tee => "tee",
        Lie::Fairway | Lie::Green => "fairway",
        Lie::Rough => "rough",
        Lie::Sand => "sand",
        Lie::Trees => "trees",
        Lie::Water => "water",
        Lie::OutOfBounds => "out of bounds",
    }
}

/// Points as a list that begins so many characters in, broken into lines that begin further in.
fn points(list: &[Point], lead: usize, indent: usize) -> String {
    let (mut out, mut column) = (String::from("["), lead + 1);
    for (index, point) in list.iter().enumerate() {
        let text = format!("[{}, {}]", point.x_yd, point.y_yd);
        if index > 0 {
            out.push(',');
            if column + text.len() + 2 > WIDEST {
                let _ = write!(out, "\n{:indent$}", "");
                column = indent;
            } else {
                out.push(' ');
            }
        }
        column += text.len() + 2;
        out += &text;
    }
    out + "]"
}

fn nested(rings: &[Vec<Point>]) -> String {
    let rings: Vec<String> = rings
        .iter()
        .map(|ring| points(ring, WIDEST / 2, 6))
        .collect();
    format!("[{}]", rings.join(", "))
}

/// A text as a comment, broken into lines.
pub(super) fn comment(out: &mut String, indent: &str, text: &str) {
    let mut line = format!("{indent}#");
    for word in clean(text).split(' ') {
        if line.chars().count() + 1 + word.chars().count() > WIDEST {
            let _ = writeln!(out, "{line}");
            line = format!("{indent}#  ");
        }
        line.push(' ');
        line += word;
    }
    let _ = writeln!(out, "{line}");
}

/// A text without what would end a comment.
fn clean(text: &str) -> String {
    text.chars()
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect()
}

/// A text in quotes.
pub(super) fn quoted(text: &str) -> String {
    ::toml::Value::String(clean(text).trim().to_owned()).to_string()
}
