//! Every picture: well formed, readable by a renderer and by those who do not see it, words apart from each other.

use std::collections::HashSet;

use resvg::usvg::{Options, Tree};

use costcard::cost::card::Effort;
use costcard::cost::on_hole::on_holes;
use costcard::course::{Course, Lie};
use costcard::files::Source;
use costcard::player::club::Club;
use costcard::player::{Golfer, Sex};
use costcard::round::clubs::arcs::arcs;
use costcard::round::clubs::beside::beside;
use costcard::round::clubs::curves::{Descending, GREENS};
use costcard::round::clubs::landings::landings;
use costcard::rules::Rulebook;
use costcard::show::draw::{
    self, HoldCurve, Mark, Own, Picture, Played, Saving, Style, Under, against_descent,
    against_firmness, dark_colours,
};
use costcard::show::reading::Reading;

use super::svg::{Element, elements};
use crate::support::{demo_course, demo_player, level};

const STYLE: Style<'_> = Style {
    reading: Reading::Yards,
    id: "one",
};

fn of_holes() -> Vec<Picture> {
    let (player, goal) = (level("10", Sex::Men), level("5", Sex::Men));
    let effort = Effort {
        rounds: 200,
        seed: 1,
    };
    let mut pictures = vec![draw::course(&few_holes(), &[], STYLE)];
    for name in ["parkland", "heathland"] {
        let course = demo_course(name);
        let places = [1, 6, 11, 14];
        let on = on_holes(
            &player,
            Some(&goal),
            (&course, &Rulebook::default()),
            &places,
            effort,
        )
        .expect("played");
        for (place, on) in places.into_iter().zip(&on) {
            let played = Played {
                name: "Ann <& \"Bo\"",
                beside: Some("golfers off 5"),
                on,
            };
            let hole = &course.holes[place];
            pictures.push(draw::hole(&course.name, hole, None, STYLE));
            pictures.push(draw::hole(&course.name, hole, Some(&played), STYLE));
            pictures.push(draw::strokes(&course.name, hole, &played, STYLE));
            pictures.push(draw::small_hole(&course.name, hole, &played, STYLE));
        }
        pictures.push(draw::course(&course, &[], STYLE));
    }
    pictures
}

/// A sheet of a few holes is as narrow as any, and its key holds every lie.
fn few_holes() -> Course {
    let lies = ["sand", "water", "trees", "out of bounds"].map(|lie| {
        format!("{{ lie = '{lie}', at_yd = 150, side_yd = 30, length_yd = 20, width_yd = 20 }}")
    });
    let holes = lies.map(|area| {
        format!("[[holes]]\npar = 4\nlength_yd = 300\ngreen = {{ depth_yd = 30, width_yd = 24 }}\nareas = [{area}]\n")
    });
    let text = format!("name = 'Few'\n{}", holes[..].concat());
    Course::read(&Source::new("few.toml", &text)).expect("a course")
}

fn of_players() -> Vec<Picture> {
    let (player, goal) = (demo_player("rowan"), level("5", Sex::Men));
    let clubs: Vec<Club> = player.clubs.iter().map(|entry| entry.club).collect();
    let [own, other] = [&player, &goal].map(|golfer| landings(golfer, &clubs).expect("patterns"));
    let [arcs, other_arcs] = [&player, &goal].map(|golfer| arcs(golfer, &clubs));
    let shots = Descending::of(&player, Club::Iron(6))
        .expect("a pattern")
        .expect("a club");
    let rules = Rulebook::default();
    let curves = GREENS.map(|(name, firmness)| HoldCurve {
        name: name.to_owned(),
        curve: shots.by_descent(firmness, &rules).expect("a curve"),
        own: Some(Own {
            descent_deg: shots.descent_deg,
            held_pct: shots.held_pct(firmness, &rules).expect("a share"),
        }),
    });
    let firm = HoldCurve {
        name: "6 iron".to_owned(),
        curve: shots.by_firmness(&rules).expect("a curve"),
        own: None,
    };
    let mut small = of_clubs(&player, &goal);
    small.extend([
        draw::patterns(&player, &own, None, STYLE),
        draw::patterns(
            &player,
            &own[..1],
            Some(("golfers off 5", &other[..1])),
            STYLE,
        ),
        draw::patterns(&player, &own, Some(("golfers off 5", &other)), STYLE),
        draw::flight(&player, &arcs, None, STYLE),
        draw::flight(&player, &arcs, Some(("golfers off 5", &other_arcs)), STYLE),
        against_descent(&player.name, "6 iron", &curves, STYLE),
        against_firmness(&player.name, &[firm], STYLE),
    ]);
    small.rotate_left(SMALL);
    small
}

/// How many pictures [`of_clubs`] gives.
const SMALL: usize = 7 + MARKS.len();

const MARKS: [Mark; 9] = [
    Mark::Half,
    Mark::NineInTen,
    Mark::NineInTenBeside,
    Mark::Shot,
    Mark::Costly,
    Mark::Aim,
    Mark::Own,
    Mark::Beside,
    Mark::Ground(Lie::Sand),
];

/// The small pictures of a page.
fn of_clubs(player: &Golfer, goal: &Golfer) -> Vec<Picture> {
    let rules = Rulebook::default();
    let clubs = [Club::Driver, Club::Iron(7)];
    let clubs = beside(player, goal, &clubs, &rules).expect("clubs");
    let both: Vec<_> = clubs.iter().collect();
    let names = ["one".to_owned(), "one".to_owned()];
    let named = (Reading::Yards, &names[..]);
    let mut pictures = draw::patterns_over(&both[..1], Under::Fairway, "golfers off 5", named);
    pictures.extend(draw::patterns_over(
        &both[1..],
        Under::Green,
        "golfers off 5",
        named,
    ));
    pictures.extend(draw::flights_beside(&both, "golfers off 5", named));
    pictures.push(draw::holds_beside(&clubs[1], "golfers off 5", STYLE));
    let saving = |name: &str, saved: f64, interval| Saving {
        name: name.to_owned(),
        measured: saved > 0.0,
        saved,
        interval,
    };
    let parts = [
        saving("long approach *", 1.84, Some([-0.5, 12.25])),
        saving("putting", -0.4, None),
    ];
    pictures.push(draw::savings(&parts, "golfers off 5", STYLE));
    pictures.push(draw::savings(&parts[1..], "golfers off +2.5", STYLE));
    pictures.extend(MARKS.map(|mark| draw::mark(mark, STYLE)));
    pictures
}

#[test]
fn every_picture_is_sound() {
    for picture in of_holes().into_iter().chain(of_players()) {
        let all = elements(&picture.svg);
        assert!(
            !picture.svg.contains("NaN") && !picture.svg.contains("inf"),
            "{}",
            picture.title
        );
        read_out(&picture, &all);
        names_are_its_own(&picture, &all);
        let tree = Tree::from_str(&picture.svg, &Options::default()).expect("an SVG");
        assert_eq!(f64::from(tree.size().width()), picture.width_px);
        words_stand_apart(&picture, &all);
    }
}

/// Role, title and description, one name for each.
fn read_out(picture: &Picture, all: &[Element]) {
    assert_eq!(all[0].get("role"), Some("img"));
    assert_eq!(all[0].get("aria-labelledby"), Some("one-title one-desc"));
    assert_eq!(
        (all[1].name.as_str(), all[1].get("id")),
        ("title", Some("one-title"))
    );
    assert_eq!(
        (all[2].name.as_str(), all[2].get("id")),
        ("desc", Some("one-desc"))
    );
    assert!(
        !all[1].words.is_empty() && all[2].words.len() > all[1].words.len(),
        "{}",
        picture.title
    );
}

/// Names begin with the picture's own, stand once, and whatever is referred to is there.
fn names_are_its_own(picture: &Picture, all: &[Element]) {
    let ids: Vec<&str> = all.iter().filter_map(|element| element.get("id")).collect();
    let different: HashSet<&str> = ids.iter().copied().collect();
    assert_eq!(ids.len(), different.len());
    assert!(ids.iter().all(|id| id.starts_with("one-")), "{ids:?}");
    for piece in picture.svg.split("url(#").skip(1) {
        let id = piece.split(')').next().unwrap_or_default();
        assert!(different.contains(id), "{id}");
    }
}

/// No two words of a picture lie over each other, and none runs over its edge.
fn words_stand_apart(picture: &Picture, all: &[Element]) {
    // Letters are at least half as wide as high in the narrower of the common fonts.
    let boxed = |element: &Element| {
        let (x, y, size) = (
            element.number("x"),
            element.number("y"),
            element.number("font-size"),
        );
        let width = element
            .words
            .replace("&amp;", "&")
            .replace("&lt;", "<")
            .replace("&quot;", "\"");
        let width = width.chars().count() as f64 * 0.52 * size;
        let left = match element.get("text-anchor") {
            Some("middle") => x - width / 2.0,
            Some("end") => x - width,
            _ => x,
        };
        [left, y - 0.7 * size, left + width, y + 0.15 * size]
    };
    let level = all
        .iter()
        .filter(|element| element.name == "text" && element.get("transform").is_none());
    let boxes: Vec<(&str, [f64; 4])> = level
        .map(|element| (element.words.as_str(), boxed(element)))
        .collect();
    for (index, (words, a)) in boxes.iter().enumerate() {
        assert!(
            a[0] >= 0.0 && a[2] <= picture.width_px && a[3] <= picture.height_px,
            "{}: {words}",
            picture.title
        );
        for (others, b) in &boxes[index + 1..] {
            let apart = a[2] <= b[0] || b[2] <= a[0] || a[3] <= b[1] || b[3] <= a[1];
            assert!(apart, "{}: `{words}` over `{others}`", picture.title);
        }
    }
}

#[test]
fn a_page_can_set_every_colour() {
    for picture in of_players() {
        let style = elements(&picture.svg)
            .into_iter()
            .find(|element| element.name == "style")
            .expect("a style");
        assert!(
            style.words.starts_with("@supports (color:var(--c)){"),
            "{}",
            style.words
        );
        let dark = dark_colours();
        for piece in style.words.split("var(").skip(2) {
            let (name, light) = piece
                .split(')')
                .next()
                .and_then(|piece| piece.split_once(','))
                .expect("a fallback");
            assert!(light.starts_with('#'), "{light}");
            assert!(
                dark.contains(&format!("{name}:#")),
                "{name} has no dark colour"
            );
        }
    }
}

#[test]
fn a_picture_has_its_clubs_and_landings() {
    let pictures = of_players();
    let count = |picture: &Picture, key: &str| {
        elements(&picture.svg)
            .iter()
            .filter(|element| element.get(key).is_some())
            .count()
    };
    let clubs = demo_player("rowan").clubs.len();
    assert_eq!(count(&pictures[0], "data-share"), 2 * clubs);
    assert_eq!(count(&pictures[2], "data-share-beside"), clubs);
    assert_eq!(count(&pictures[4], "data-club"), clubs);
    assert_eq!(count(&pictures[4], "data-beside"), clubs);
    assert_eq!(count(&pictures[5], "data-curve"), 3);
}

/// Where a flight comes down is a hollow dot where nobody measured the club, and the words for those who do not see it
/// say so too.
#[test]
fn flights_of_clubs_that_nobody_measured_are_marked() {
    let player = demo_player("rowan");
    let clubs: Vec<Club> = player.clubs.iter().map(|entry| entry.club).collect();
    let assumed = clubs
        .iter()
        .filter(|club| player.is_assumed(**club))
        .count();
    assert!((1..clubs.len()).contains(&assumed));
    let drawn = draw::flight(&player, &arcs(&player, &clubs), None, STYLE).svg;
    for mark in ["data-mark=\"assumed\"", ", not measured.", " *</text>"] {
        assert_eq!(drawn.matches(mark).count(), assumed, "{mark}");
    }
    let measured: Vec<Club> = clubs
        .into_iter()
        .filter(|club| !player.is_assumed(*club))
        .collect();
    let drawn = draw::flight(&player, &arcs(&player, &measured), None, STYLE).svg;
    assert!(!drawn.contains("not measured"));
}
