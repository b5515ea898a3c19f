//! The way a golfer plays a hole: shot after shot, what is chosen, where it lands and what becomes of it, each from
//! where the one before usually ends.

use crate::course::{Lie, Point};
use crate::player::club::Club;

use super::choose::Choice;
use super::finish::{Finish, Spot, finish};
use super::part::Part;
use super::place::Xy;
use super::ruled::Told;
use super::solve::{Play, Solved};
use super::spread::{Held, ellipses};
use super::touch::TouchShot;

/// The way is followed for so many shots at most.
const MOST_LEGS: usize = 6;

/// One shot of the way.
#[derive(Debug, Clone, PartialEq)]
pub struct Leg {
    /// Where it is played from.
    pub from: Spot,
    /// The club; none for a chip, pitch or greenside bunker shot.
    pub club: Option<Club>,
    /// The part of the game it belongs to.
    pub part: Part,
    /// Where the middle of the pattern is meant to pitch; the hole for a chip.
    pub target: Xy,
    /// Share of mishits, 0 to 1.
    pub mishit_share: f64,
    /// Share of chips that are holed, 0 to 1.
    pub holed: f64,
    /// Every shot of the pattern, normal strikes before mishits.
    pub shots: Vec<Shot>,
    /// Ellipses that hold a share of the landings that are no mishits.
    pub ellipses: Vec<Held>,
    /// Where a usual shot ends: that of the pattern which ends nearest to the mean of those without penalty.
    pub usual_end: Spot,
}

/// One shot of a pattern on the hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shot {
    /// Where it pitches; a chip, where it ends.
    pub at: Xy,
    /// What becomes of it.
    pub end: Finish,
    /// Whether it is a mishit.
    pub mishit: bool,
    /// Its share of all shots that are not holed.
    pub weight: f64,
}

/// The way from the tee to the green. It ends early where no swing can be made, or where a usual shot gets nowhere.
#[must_use]
pub fn way(solved: &Solved<'_>, par: u8) -> Vec<Leg> {
    let mut spot = solved.tee_spot();
    let mut legs = Vec::new();
    while spot.lie != Lie::Green && legs.len() < MOST_LEGS {
        let leg = match solved.play(spot) {
            Some(Play::Full(choice)) => full(solved, spot, choice, par),
            Some(Play::Touch(shot)) => touch(solved, spot, &shot),
            None => None,
        };
        let Some(leg) = leg else { break };
        let stays = leg.usual_end == spot;
        spot = leg.usual_end;
        legs.push(leg);
        if stays {
            break;
        }
    }
    legs
}

fn full(solved: &Solved<'_>, from: Spot, choice: Choice, par: u8) -> Option<Leg> {
    let choosing = solved.choosing(from);
    let (line, shots) = choosing.line(from, choice);
    let played = |list: &[super::bank::HoleShot], mishit: bool, share: f64| -> Vec<Shot> {
        let weight = share / list.len().max(1) as f64;
        let each = list.iter().map(|shot| Shot {
            at: from.at.moved(shot.pitch.turned(line.ahead), line.eased),
            end: finish(
                solved.ground(),
                from,
                line,
                shots.struck(shot, Told::Finely),
            )
            .or_again(from, &solved.values, || solved.expected(from)),
            mishit,
            weight,
        });
        each.collect()
    };
    let mishits = f64::from(shots.mishit_share);
    let mut all = played(&shots.normal, false, 1.0 - mishits);
    all.extend(played(&shots.mishit, true, mishits));
    Some(Leg {
        from,
        club: Some(choosing.club(choice)),
        part: if solved.on_tee(from) && par >= 4 {
            Part::TeeShots
        } else {
            choosing.part(choice)
        },
        target: choice.target,
        mishit_share: mishits,
        holed: 0.0,
        ellipses: ellipses(&landings(&all)),
        usual_end: usual_end(&all)?,
        shots: all,
    })
}

fn touch(solved: &Solved<'_>, from: Spot, shot: &TouchShot<'_>) -> Option<Leg> {
    let (normal, mishits) = shot.counts();
    let share = f64::from(shot.mishit_share);
    let ended = |end: Finish, mishit: bool, weight: f64| Shot {
        at: end.spot.at,
        end: end.or_again(from, &solved.values, || solved.expected(from)),
        mishit,
        weight,
    };
    let weights = [(1.0 - share) / normal as f64, share / mishits as f64];
    let mut all: Vec<Shot> = (0..normal)
        .map(|index| ended(shot.normal(solved.ground(), index), false, weights[0]))
        .collect();
    all.extend(
        (0..mishits).map(|index| ended(shot.mishit(solved.ground(), index), true, weights[1])),
    );
    Some(Leg {
        from,
        club: None,
        part: Part::near_green(from.lie),
        target: solved.pin(),
        mishit_share: share,
        holed: (1.0 - share) * f64::from(shot.holed),
        ellipses: ellipses(&landings(&all)),
        usual_end: usual_end(&all)?,
        shots: all,
    })
}

/// Where normal strikes land.
fn landings(shots: &[Shot]) -> Vec<Point> {
    let normal = shots.iter().filter(|shot| !shot.mishit);
    normal.map(|shot| shot.at.into()).collect()
}

fn usual_end(shots: &[Shot]) -> Option<Spot> {
    let good: Vec<Spot> = shots
        .iter()
        .filter(|shot| !shot.mishit && shot.end.penalty == 0)
        .map(|shot| shot.end.spot)
        .collect();
    let count = good.len().max(1) as f32;
    let middle = Xy::new(
        good.iter().map(|spot| spot.at.x).sum::<f32>() / count,
        good.iter().map(|spot| spot.at.y).sum::<f32>() / count,
    );
    let away = |spot: &Spot| middle.seen_from(spot.at).length();
    good.into_iter().min_by(|a, b| away(a).total_cmp(&away(b)))
}
