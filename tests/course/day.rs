//! A day whose turf and wind are not what the course file says.

use costcard::ball::turf::Firmness;
use costcard::course::{Course, Day, Setup};
use costcard::files::Source;

const COURSE: &str = r#"
name = "Two Holes"
[conditions]
firmness = "soft"
wind_mph = 5
wind_from_deg = 90
[[holes]]
par = 3
length_yd = 150
bearing_deg = 90
green = { depth_yd = 28, width_yd = 24, firmness = "medium" }
[[holes]]
par = 3
length_yd = 170
conditions = { firmness = "medium", wind_mph = 12 }
green = { depth_yd = 28, width_yd = 24 }
"#;

fn on(day: &Day) -> Course {
    let setup = Setup {
        day: day.into(),
        ..Setup::default()
    };
    Course::read_as(&Source::new("two.toml", COURSE), &setup)
        .unwrap_or_else(|faults| panic!("{faults}"))
}

#[test]
fn a_usual_day_is_what_the_file_says() {
    assert!(Day::default().is_usual());
    let course = on(&Day::default());
    let firmness: Vec<_> = course.holes.iter().map(|hole| hole.firmness).collect();
    assert_eq!(firmness, [Firmness::SOFT, Firmness::MEDIUM]);
    assert_eq!(course.holes[0].green.firmness, Firmness::MEDIUM);
    assert!((course.holes[1].air.wind.mph() - 12.0).abs() < 1e-9);
}

#[test]
fn a_day_stands_over_course_hole_and_green_and_leaves_the_rest() {
    let firm = on(&Day {
        firmness: Some(Firmness::FIRM),
        ..Day::default()
    });
    for hole in &firm.holes {
        assert_eq!(
            (hole.firmness, hole.green.firmness),
            (Firmness::FIRM, Firmness::FIRM)
        );
    }
    assert!((firm.holes[0].air.wind.mph() - 5.0).abs() < 1e-9);
    let windy = on(&Day {
        wind_mph: Some(20.0),
        wind_from_deg: Some(180.0),
        ..Day::default()
    });
    for hole in &windy.holes {
        assert!((hole.air.wind.mph() - 20.0).abs() < 1e-9);
    }
    // Played east, a wind from the south comes from the right.
    assert!((windy.holes[0].air.wind_from.deg() - 90.0).abs() < 1e-9);
    assert_eq!(windy.holes[0].green.firmness, Firmness::MEDIUM);
}
