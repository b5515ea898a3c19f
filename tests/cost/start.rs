//! Where a card says to start: at a measured part, or honestly nowhere yet.

use costcard::cost::card::Card;
use costcard::cost::start::Start;
use costcard::cost::traits::TraitCost;
use costcard::player::club::Club;
use costcard::player::traits::Trait;
use costcard::player::{Golfer, Origin, Sex};
use costcard::round::part::Part;
use costcard::show::card::{Names, card as show};
use costcard::show::page::Page;
use costcard::show::reading::Reading;

use super::{detail, detailed, three_holes};
use crate::support::level;

/// A good long game that somebody measured, and a short game nobody did.
fn player() -> Golfer {
    let mut player = level("10", Sex::Men);
    player.clubs = level("scratch", Sex::Men).clubs;
    for entry in &mut player.clubs {
        entry.origin = Origin::Measured { strikes: 15 };
    }
    let weak = level("28", Sex::Men);
    (player.short_game, player.sand, player.putting) = (weak.short_game, weak.sand, weak.putting);
    player
}

/// His card against scratch golfers, once for all tests.
fn made() -> Card {
    static CARD: std::sync::LazyLock<Card> = std::sync::LazyLock::new(|| {
        detailed(&player(), &level("scratch", Sex::Men), &three_holes())
    });
    CARD.clone()
}

/// The card with what a measured part would save, and how often it is the first.
fn with(part: Part, saved: f64, first_chance: f64) -> Card {
    let mut card = made();
    for cost in &mut card.parts {
        if cost.part == part {
            cost.saved = saved;
        }
    }
    card.work_on = Some(part);
    let sure = &mut card.detail.as_mut().unwrap().sure;
    sure.first_chances[part as usize] = first_chance;
    sure.ahead = Some(Part::ShortGame);
    sure.rival = None;
    sure.told_apart = false;
    card
}

fn read(card: &Card, asked: Option<Part>) -> String {
    let names = Names {
        player: "Tom",
        handicap: 14.0,
        goal: 9.0,
        keep_speed: false,
        course: "Three Holes",
    };
    let page = show(names, card, &[], asked, Page::new(Reading::Yards, 80));
    // Words that may not be parted stand with a space of their own, and lines are folded.
    page.replace('\u{a0}', " ")
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
}

#[test]
fn a_part_nobody_measured_that_is_clearly_ahead_is_no_rival() {
    let card = made();
    let sure = &detail(&card).sure;
    let first = card.work_on.unwrap();
    for part in [sure.ahead, sure.rival].into_iter().flatten() {
        assert_ne!(part, first);
    }
    // Golfers off 28 chip and putt far worse than scratch golfers, and nothing measured lies behind those.
    match card.start() {
        Start::NotMeasured(measured, ahead) => {
            assert!(measured.is_none_or(|cost| cost.measured));
            assert!(!ahead.measured, "{ahead:?}");
        }
        other => panic!("{other:?}"),
    }
    assert!(sure.ahead.is_none() || sure.ahead != sure.rival, "{sure:?}");
    assert!(!sure.told_apart || sure.ahead.is_none());
}

#[test]
fn the_headline_names_no_part_that_is_never_the_first() {
    let said = read(&with(Part::ShortIrons, 0.3, 0.0), Some(Part::ShortIrons));
    assert!(
        said.contains("Nothing you hit in the bay costs much against this goal: short irons 0.3. If the handicap is right, the strokes go in the short game ("),
        "{said}"
    );
    assert!(
        said.contains("which nobody measured: count chips and putts for a few rounds."),
        "{said}"
    );
    for wrong in ["Work on your", "cannot be told apart", "place to start"] {
        assert!(!said.contains(wrong), "{wrong}: {said}");
    }
    let much = read(&with(Part::MidIrons, 2.0, 0.1), None);
    assert!(
        much.contains("Of what you hit in the bay, most would be saved in your mid irons: 2.0 strokes a round. If the handicap is right, more strokes go in the short game ("),
        "{much}"
    );
}

#[test]
fn a_measured_part_that_may_well_be_the_first_is_named() {
    let said = read(&with(Part::MidIrons, 2.0, 0.4), Some(Part::MidIrons));
    assert!(said.contains("Work on your mid irons first"), "{said}");
    assert!(
        said.contains("as far as these shots tell, that is the place to start"),
        "{said}"
    );
    let mut apart = with(Part::MidIrons, 2.0, 0.9);
    apart.detail.as_mut().unwrap().sure.told_apart = true;
    let said = read(&apart, Some(Part::MidIrons));
    assert!(said.contains("that is the right place to start"), "{said}");
}

/// A reason that points the other way is none.
#[test]
fn a_part_is_not_explained_by_what_the_player_does_better() {
    let of_trait = |part: Part, which: Trait, own: f64, theirs: f64| {
        let mut card = with(part, 2.0, 0.9);
        let detail = card.detail.as_mut().unwrap();
        detail.sure.ahead = None;
        detail.traits[part as usize] = vec![TraitCost { which, saved: 0.5 }];
        (card.player.fairways_hit_pct, card.goal.fairways_hit_pct) = (Some(own), Some(theirs));
        (card.player.greens_hit_pct, card.goal.greens_hit_pct) = (own, theirs);
        card.player.penalties_mean = card.goal.penalties_mean;
        read(&card, None)
    };
    let reasons = |part, own, theirs| of_trait(part, Trait::Speed, own, theirs);
    let short = reasons(Part::TeeShots, 91.0, 67.0);
    assert!(short.contains("You hit 91 % of the fairways"), "{short}");
    assert!(
        short.contains("what the tee shots lack is length"),
        "{short}"
    );
    // Nor is it length where that would save nothing.
    let long = of_trait(Part::TeeShots, Trait::Mishits, 91.0, 67.0);
    assert!(
        !long.contains("length") && !long.contains("fairways, golfers"),
        "{long}"
    );
    let wild = reasons(Part::TeeShots, 41.0, 67.0);
    assert!(wild.contains("golfers off 9 hit 67 % and take"), "{wild}");
    let greens = "of the greens in regulation; golfers";
    assert!(reasons(Part::MidIrons, 20.0, 40.0).contains(greens));
    assert!(!reasons(Part::MidIrons, 6.0, 4.0).contains(greens));
    assert!(!reasons(Part::MidIrons, 0.1, 0.3).contains(greens));
}

/// What else is the first about as often, and nobody measured, is named too: it may be the cheaper of the two to measure.
#[test]
fn an_open_part_that_is_as_often_the_first_is_named() {
    let said = |part: Part, other: f64| {
        let mut card = with(Part::MidIrons, 0.3, 0.05);
        card.bag.retain(|own| !own.club.is_long());
        for cost in card.parts.iter_mut().filter(|cost| cost.part == part) {
            (cost.measured, cost.saved) = (false, 0.5);
        }
        let sure = &mut card.detail.as_mut().unwrap().sure;
        sure.first_chances = vec![0.0; Part::ALL.len()];
        sure.first_chances[Part::MidIrons as usize] = 0.05;
        sure.first_chances[Part::ShortGame as usize] = 0.42;
        sure.first_chances[part as usize] = other;
        sure.ahead = None;
        read(&card, None)
    };
    let near = said(Part::LongApproach, 0.37);
    assert!(
        near.contains("About as often (37 %) most is to be saved in your long approach shots, which nobody measured: hit"),
        "{near}"
    );
    // What is hardly ever the first is not, nor what is counted with the chips anyway.
    for (part, other) in [(Part::LongApproach, 0.2), (Part::Putting, 0.37)] {
        let said = said(part, other);
        assert!(!said.contains("About as often"), "{said}");
    }
}

/// Other programs read in a word what the headline says.
#[test]
fn where_to_start_has_a_word() {
    let open = with(Part::ShortIrons, 0.3, 0.0);
    assert_eq!(open.start().word(), "measure");
    assert!(open.start().to_measure().is_some());
    let named = with(Part::MidIrons, 2.0, 0.4);
    assert_eq!(
        (named.start().word(), named.start().to_measure()),
        ("work on", None)
    );
}

/// A measured part that is hardly ever the first is no ground for a lesson where something open is that far more often.
#[test]
fn what_is_far_more_often_the_first_comes_before_what_hardly_ever_is() {
    let often = |first: f64, open: f64| {
        let mut card = with(Part::MidIrons, 2.0, first);
        let sure = &mut card.detail.as_mut().unwrap().sure;
        sure.first_chances = vec![0.0; Part::ALL.len()];
        sure.first_chances[Part::MidIrons as usize] = first;
        sure.first_chances[Part::Putting as usize] = open;
        sure.ahead = None;
        read(&card, None)
    };
    let said = often(0.15, 0.5);
    assert!(
        said.contains("If the handicap is right, more strokes go in putting ("),
        "{said}"
    );
    for (first, open) in [(0.15, 0.25), (0.25, 0.6)] {
        let said = often(first, open);
        assert!(said.contains("Work on your mid irons first"), "{said}");
    }
}

/// A part for which no club is in the bag is no lesson, and no club of it can be hit.
#[test]
fn a_part_without_a_club_is_never_what_to_hit() {
    let mut card = with(Part::MidIrons, 2.0, 0.15);
    card.bag
        .retain(|own| !own.club.is_long() || own.club == Club::Driver);
    for cost in card
        .parts
        .iter_mut()
        .filter(|cost| cost.part == Part::LongApproach)
    {
        (cost.measured, cost.carried, cost.saved) = (false, false, 9.0);
    }
    let chances = |card: &mut Card, ahead: bool| {
        let sure = &mut card.detail.as_mut().unwrap().sure;
        sure.first_chances = vec![0.0; Part::ALL.len()];
        sure.first_chances[Part::LongApproach as usize] = 0.85;
        sure.likely[Part::LongApproach as usize] = 9.0;
        let long = Some(Part::LongApproach);
        (sure.ahead, sure.rival) = if ahead { (long, None) } else { (None, long) };
    };
    chances(&mut card, true);
    let clear = read(&card, None);
    assert!(clear.contains("Work on your mid irons first"), "{clear}");
    let but = "More strokes go in long approach shots: that is clear, but there is no club for them in the bag.";
    assert!(clear.contains(but), "{clear}");
    chances(&mut card, false);
    let open = read(&card, None);
    assert!(
        open.contains("for which there is no club in the bag"),
        "{open}"
    );
    for said in [clear, open] {
        assert!(!said.contains("hit the in the bay"), "{said}");
        assert!(
            said.contains("There is no club for long approach shots in the bag: what that would save, the goal's clubs would."),
            "{said}"
        );
    }
}

/// What the handicap makes likelier is told beside what the shots say, and names the part.
#[test]
fn what_is_likelier_than_the_shots_say_is_told() {
    let mut card = with(Part::MidIrons, 0.7, 0.5);
    for cost in &mut card.parts {
        match cost.part {
            Part::MidIrons => cost.measured = true,
            Part::ShortIrons => (cost.measured, cost.saved) = (true, 0.9),
            _ => (cost.measured, cost.saved) = (false, 0.0),
        }
    }
    let sure = &mut card.detail.as_mut().unwrap().sure;
    sure.ahead = None;
    sure.likely = card.parts.iter().map(|cost| cost.saved).collect();
    sure.likely[Part::MidIrons as usize] = 1.6;
    let said = read(&card, None);
    assert!(
        said.contains("Work on your mid irons first: by the shots alone that would save 0.7 strokes a round, but the handicap makes 1.6 likelier. By them your short irons would save more, 0.9; likelier is 0.9."),
        "{said}"
    );
    assert!(
        said.contains("a saving may stand at an end of what is likely"),
        "{said}"
    );
    let sure = &mut card.detail.as_mut().unwrap().sure;
    sure.likely[Part::MidIrons as usize] = 0.8;
    for cost in card
        .parts
        .iter_mut()
        .filter(|cost| cost.part == Part::ShortIrons)
    {
        cost.saved = 0.2;
    }
    let said = read(&card, None);
    assert!(
        said.contains("that would save 0.7 strokes a round."),
        "{said}"
    );
}

/// Full shots are hit in the bay; nobody counts them on a course.
#[test]
fn full_shots_that_nobody_measured_are_to_be_hit_in_the_bay() {
    let mut card = with(Part::MidIrons, 2.0, 0.5);
    let rivals = |card: &Card, rival: Part| {
        let mut card = card.clone();
        for cost in card.parts.iter_mut().filter(|cost| cost.part == rival) {
            cost.measured = false;
        }
        let sure = &mut card.detail.as_mut().unwrap().sure;
        (sure.ahead, sure.rival) = (None, Some(rival));
        read(&card, None)
    };
    // Other clubs of the part are measured: those it is played with are not.
    let partly = rivals(&card, Part::TeeShots);
    assert!(
        partly.contains(
            "tee shots, which here are played mostly with clubs that nobody measured: hit the driver in the bay, or say \
             that it is not carried."
        ),
        "{partly}"
    );
    for own in &mut card.bag {
        if Part::of_club(own.club) == Part::LongApproach {
            own.origin = Origin::Assumed;
        }
    }
    let tee = rivals(&card, Part::TeeShots);
    assert!(
        tee.contains("It cannot be told apart from tee shots, which nobody measured: hit the driver in the bay."),
        "{tee}"
    );
    card.bag.retain(|own| !matches!(own.club, Club::Wood(5)));
    let long = rivals(&card, Part::LongApproach);
    assert!(long.contains("hit the 3 wood"), "{long}");
    // Nobody counts bunker shots that cost nothing.
    for (saved, asked) in [
        (0.5, "chips, bunker shots and putts"),
        (0.0, "chips and putts"),
    ] {
        card.parts[Part::Sand as usize].saved = saved;
        card.detail.as_mut().unwrap().sure.likely[Part::Sand as usize] = saved;
        let putts = rivals(&card, Part::Putting);
        assert!(
            putts.contains(&format!("count {asked} for a few rounds")),
            "{putts}"
        );
    }
}

#[test]
fn a_handful_of_shots_names_no_part() {
    let mut card = made();
    for (place, own) in card.bag.iter_mut().enumerate() {
        own.origin = match place {
            0 => Origin::Measured { strikes: 4 },
            6 => Origin::Measured { strikes: 5 },
            _ => Origin::Assumed,
        };
    }
    assert_eq!(card.start(), Start::TooFewShots(9));
    let said = read(&card, None);
    assert!(
        said.contains("9 measured shots in all are too few to name a part to work on: hit 10 each with the driver, "),
        "{said}"
    );
    assert!(
        !said.contains("Work on your") && !said.contains("How sure"),
        "{said}"
    );
    // Nor do none, unless something was counted.
    let mut none = card.clone();
    for own in &mut none.bag {
        own.origin = Origin::Assumed;
    }
    for cost in &mut none.parts {
        cost.measured = false;
    }
    assert_eq!(none.start(), Start::TooFewShots(0));
    let said = read(&none, None);
    assert!(
        said.contains("No shot was measured, so no part can be named to work on: hit 10 each with the driver, "),
        "{said}"
    );
    // A ball speed says how far a club goes, and nothing of how well it is hit.
    none.bag[0].origin = Origin::Stated;
    none.bag[0].given.mean[0] = true;
    assert_eq!(none.start(), Start::TooFewShots(0));
    let said = read(&none, None);
    assert!(
        said.contains("But for how far the stated ball speeds carry, until then every figure here is that of golfers off "),
        "{said}"
    );
    none.bag[0].given.sd[2] = true;
    assert!(!matches!(none.start(), Start::TooFewShots(_)));
    none.bag[0].origin = Origin::Assumed;
    none.parts[Part::Putting as usize].measured = true;
    assert!(!matches!(none.start(), Start::TooFewShots(_)));
    card.bag[0].origin = Origin::Measured { strikes: 5 };
    assert_ne!(card.start(), Start::TooFewShots(10));
}

/// A trait may give more than its part as a whole, where others of it are better than the goal's: then it gives no share
/// "of it".
#[test]
fn a_trait_that_gives_more_than_its_part_is_said_to() {
    let mut card = with(Part::MidIrons, 2.0, 0.9);
    let traits = &mut card.detail.as_mut().unwrap().traits[Part::MidIrons as usize];
    for cost in traits.iter_mut() {
        cost.saved = 0.0;
    }
    traits[0].saved = 1.5;
    let said = read(&card, None);
    assert!(said.contains("alone would give 1.5 of it."), "{said}");
    card.detail.as_mut().unwrap().traits[Part::MidIrons as usize][0].saved = 3.0;
    let said = read(&card, None);
    assert!(
        said.contains("alone would give 3.0 (the part as a whole gives less: other things in it are better than the goal's)."),
        "{said}"
    );
}

/// Who is better than the goal as a whole is not sent to work for a tenth of a stroke.
#[test]
fn whoever_is_beyond_the_goal_is_told_to_name_another() {
    let mut card = with(Part::MidIrons, 0.3, 0.9);
    card.detail.as_mut().unwrap().sure.ahead = None;
    card.player.score_mean = card.goal.score_mean - 2.0;
    assert_eq!(card.start(), Start::Beyond);
    let said = read(&card, None);
    assert!(said.contains("name a goal below 9."), "{said}");
    assert!(
        !said.contains("Work on your") && !said.contains("How sure"),
        "{said}"
    );
    let much = with(Part::MidIrons, 0.6, 0.9);
    assert!(!matches!(much.start(), Start::Beyond));
}

/// A part is measured where the clubs it is played with are, not where others are that stay in the bag.
#[test]
fn a_measured_driver_that_stays_in_the_bag_measures_no_tee_shot() {
    let mut player = player();
    let [driver, wood] = [Club::Driver, Club::Wood(3)];
    for own in &mut player.clubs {
        if own.club == wood {
            own.origin = Origin::Assumed;
        }
        if own.club == driver {
            own.pattern.sd[2] = 9.0;
            own.pattern.mishit.share = 0.4;
        }
    }
    player
        .clubs
        .retain(|own| own.club == driver || own.club >= wood);
    let card = detailed(&player, &level("scratch", Sex::Men), &three_holes());
    assert_eq!(card.left_in_the_bag, Some([driver, wood]));
    let tee = card.part(Part::TeeShots).unwrap();
    assert!(!tee.measured && tee.open_clubs == [wood], "{tee:?}");
    let said = read(&card, None);
    assert!(
        said.contains("The driver stays in the bag: from the tee the 3 wood does better here"),
        "{said}"
    );
}

/// A goal's golfer brings his own clubs to a part: what is said to be saved is also worth what they are.
#[test]
fn clubs_of_the_goal_that_the_player_lacks_are_named() {
    let mut player = player();
    let without = [Club::Iron(5), Club::LobWedge];
    player.clubs.retain(|own| !without.contains(&own.club));
    let course = three_holes();
    let card = detailed(&player, &level("9", Sex::Men), &course);
    assert_eq!(card.beyond_bag, without);
    let said = read(&card, None);
    let with =
        "golfers off 9 play it, with the 5 iron and lob wedge too, which are not in this bag.";
    assert!(said.contains(with), "{said}");
    // An iron in place of a hybrid is no club fewer.
    for own in &mut player.clubs {
        if own.club == Club::Hybrid(4) {
            own.club = Club::Iron(4);
        }
    }
    let card = detailed(&player, &level("9", Sex::Men), &course);
    assert_eq!(card.beyond_bag, without);
}
