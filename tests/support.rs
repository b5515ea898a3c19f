//! What several tests share.

use std::path::Path;

use costcard::course::Course;
use costcard::files::Source;
use costcard::player::{Golfer, Sex, embedded, levels};

/// A course from its text.
pub fn course(text: &str) -> Course {
    Course::read(&Source::new("test.toml", text)).unwrap_or_else(|faults| panic!("{faults}"))
}

/// A demo course.
pub fn demo_course(name: &str) -> Course {
    let path = format!(
        "{}/profiles/courses/{name}.toml",
        env!("CARGO_MANIFEST_DIR")
    );
    let source = Source::read(Path::new(&path)).unwrap_or_else(|faults| panic!("{faults}"));
    Course::read(&source).unwrap_or_else(|faults| panic!("{faults}"))
}

/// Both demo courses.
pub fn demo_courses() -> [Course; 2] {
    ["parkland", "heathland"].map(demo_course)
}

/// A demo player.
pub fn demo_player(name: &str) -> Golfer {
    embedded::player(name).unwrap_or_else(|faults| panic!("{faults}"))
}

/// A named level.
pub fn level(name: &str, sex: Sex) -> Golfer {
    levels::named(name, sex).unwrap_or_else(|error| panic!("{error}"))
}

/// Par and length, yards, of eighteen ordinary holes: 6550 yd, par 72.
const ORDINARY: [(u8, f64); 18] = [
    (4, 372.0),
    (5, 506.0),
    (3, 168.0),
    (4, 398.0),
    (4, 352.0),
    (4, 388.0),
    (3, 152.0),
    (5, 524.0),
    (4, 408.0),
    (4, 364.0),
    (4, 392.0),
    (3, 178.0),
    (5, 501.0),
    (4, 352.0),
    (4, 418.0),
    (4, 381.0),
    (3, 174.0),
    (5, 522.0),
];

/// A course of ordinary holes that is this long in all: level, still air, medium turf and greens, fairways and greens of
/// ordinary size, trees at the sides, two bunkers beside each green, no water. Fairways are usually 35 to 45 yd wide, greens 5000 to 6500 sq ft,
/// bunkers about 3 % of the ground (source: J. Brauer; Lyman et al. 2007, Appl. Turfgrass Sci.).
pub fn neutral_course(holes: usize, length_yd: f64) -> Course {
    let chosen = &ORDINARY[..holes];
    let scale = length_yd / chosen.iter().map(|(_, yards)| yards).sum::<f64>();
    let mut text = String::from(
        r#"
name = "Ordinary"
[defaults]
fairway_width_yd = 38
rough_width_yd = 25
beyond = "trees"
green = { depth_yd = 29, width_yd = 26, stimp_ft = 10 }
"#,
    );
    for (par, yards) in chosen {
        text += &format!(
            r#"
[[holes]]
par = {par}
length_yd = {:.1}
green = {{}}
areas = [
  {{ lie = "sand", at_green_yd = -6, side_yd = 20, length_yd = 14, width_yd = 8 }},
  {{ lie = "sand", at_green_yd = 2, side_yd = -20, length_yd = 14, width_yd = 8 }},
]
"#,
            yards * scale
        );
    }
    course(&text)
}
