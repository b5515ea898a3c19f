//! What a golfer may think of playing from a spot: swings at the pin, and lay-ups along the line of play.

use crate::course::Lie;

use super::choose::{Choice, Choosing, SwingId};
use super::finish::Spot;
use super::place::Xy;
use super::swing::EASED;

/// Mishits, trees and rough leave this share of the longest swing from a fairway: enough that no golfer's guess is better
/// than his play.
const OF_THE_LONGEST: f32 = 0.75;

/// Swings shorter than this share of the longest are no lay-ups.
const LEAST_LAY_UP: f32 = 0.45;

impl Choosing<'_> {
    /// Some of the golfer's swings at the pin, or in full along the line of play and beside it.
    #[must_use]
    pub fn candidates(&self, from: Spot, of: &[SwingId]) -> Vec<Choice> {
        let pin = Xy::from(self.hole.pin);
        let to_pin = pin.seen_from(from.at);
        let longest = self.longest(from);
        let mut all = Vec::new();
        for &swing in of.iter().filter(|swing| self.suits(**swing, from.lie)) {
            if !self.worth_flying(swing, from, to_pin.length(), longest) {
                continue;
            }
            let shots =
                self.banks[swing.bank as usize].shots(swing.swing as usize, from.lie, to_pin);
            let reach = shots.centre.length();
            let mut reached = false;
            for pitch_yd in pitches_yd(to_pin.length(), shots.run_green_yd) {
                if pitch_yd <= reach + 8.0 && pitch_yd >= EASED * reach - 8.0 {
                    let distance_yd = pitch_yd.clamp(EASED * reach, reach);
                    at_green(&mut all, swing, from, to_pin, distance_yd);
                    reached = true;
                }
            }
            let short = to_pin.length() - shots.run_green_yd > reach;
            if !reached && short && reach > LEAST_LAY_UP * longest {
                self.along_the_line(&mut all, swing, from, reach);
            }
        }
        all
    }

    /// Some of the golfer's swings as candidates; nearer the pin than the shortest goes, that one.
    #[must_use]
    pub(super) fn any(&self, from: Spot, of: &[SwingId]) -> Vec<Choice> {
        let found = self.candidates(from, of);
        if found.is_empty() {
            self.shortest(from).into_iter().collect()
        } else {
            found
        }
    }

    /// Nearer the pin than the shortest swing goes: that swing all the same.
    #[must_use]
    pub fn shortest(&self, from: Spot) -> Option<Choice> {
        let pin = Xy::from(self.hole.pin);
        let ahead = pin.seen_from(from.at);
        let reach = |swing: &SwingId| {
            self.banks[swing.bank as usize]
                .shots(swing.swing as usize, from.lie, ahead)
                .centre
                .length()
        };
        self.swings
            .iter()
            .filter(|swing| self.suits(**swing, from.lie))
            .min_by(|a, b| reach(a).total_cmp(&reach(b)))
            .map(|&swing| self.fitted(from, Choice { swing, target: pin }))
    }

    /// Whether a swing could be at the pin or a lay-up, judged by its reach along the hole: in another
    /// wind it goes up to some forty percent farther or shorter. It spares flying it in winds it is never
    /// hit in.
    pub(super) fn worth_flying(
        &self,
        swing: SwingId,
        from: Spot,
        to_pin_yd: f32,
        longest_yd: f32,
    ) -> bool {
        let usual_yd = self.usual_reach(swing, from.lie);
        let at_pin = to_pin_yd > 0.7 * usual_yd && to_pin_yd < 1.4 * usual_yd + 30.0;
        let lay_up = to_pin_yd > 0.7 * usual_yd && usual_yd > 0.8 * LEAST_LAY_UP * longest_yd;
        at_pin || lay_up
    }

    pub(super) fn longest(&self, from: Spot) -> f32 {
        let suited = self
            .swings
            .iter()
            .filter(|swing| self.suits(**swing, from.lie));
        suited
            .map(|&swing| self.usual_reach(swing, from.lie))
            .fold(0.0, f32::max)
    }

    /// How far a stroke brings the golfer on a long way, mishits and all, yards.
    pub(super) fn a_stroke_yd(&self) -> f32 {
        let from = Spot {
            at: Xy::from(self.hole.tee),
            lie: Lie::Fairway,
        };
        (OF_THE_LONGEST * self.longest(from)).clamp(20.0, 190.0)
    }

    /// Reach of a swing from a lie along the hole, yards.
    fn usual_reach(&self, swing: SwingId, lie: Lie) -> f32 {
        let bank = &self.banks[swing.bank as usize];
        bank.shots(swing.swing as usize, lie, Xy::new(0.0, 1.0))
            .centre
            .length()
    }

    pub(super) fn suits(&self, id: SwingId, lie: Lie) -> bool {
        self.banks[id.bank as usize].swings()[id.swing as usize].suits(lie)
    }

    fn along_the_line(&self, all: &mut Vec<Choice>, swing: SwingId, from: Spot, reach: f32) {
        let Some(on_line) = point_on_line(&self.hole.line, from.at, reach) else {
            return;
        };
        let way = on_line.seen_from(from.at).unit();
        let offsets: &[f32] = if from.lie == Lie::Trees {
            &[-0.8, -0.4, -0.15, 0.0, 0.15, 0.4, 0.8]
        } else {
            &[-0.12, -0.05, 0.0, 0.05, 0.12]
        };
        for &offset in offsets {
            let ahead = Xy::new(offset, 1.0).unit().turned(way);
            all.push(Choice {
                swing,
                target: from.at.moved(ahead, reach),
            });
        }
    }
}

/// Where a ball may be pitched to get to the pin: so that it runs there, or, where something guards the
/// front of the green, deeper.
pub(super) fn pitches_yd(to_pin_yd: f32, run_yd: f32) -> impl Iterator<Item = f32> {
    let shares: &[f32] = if run_yd > 8.0 {
        &[1.0, 0.5, 0.0]
    } else {
        &[1.0]
    };
    shares.iter().map(move |share| to_pin_yd - share * run_yd)
}

fn at_green(all: &mut Vec<Choice>, swing: SwingId, from: Spot, to_pin: Xy, distance: f32) {
    let way = to_pin.unit();
    for right_yd in [-8.0_f32, 0.0, 8.0] {
        let target = from
            .at
            .moved(way, distance)
            .moved(Xy::new(right_yd, 0.0).turned(way), 1.0);
        all.push(Choice { swing, target });
    }
}

/// The point of the line of play that lies `reach` from a place, the farthest along where there are
/// several; the line's end where there is none.
fn point_on_line(line: &[crate::course::Point], from: Xy, reach: f32) -> Option<Xy> {
    line.windows(2)
        .rev()
        .find_map(|leg| on_leg(Xy::from(leg[0]), Xy::from(leg[1]), from, reach))
        .or_else(|| line.last().map(|&point| Xy::from(point)))
}

/// Where a leg leaves the circle of radius `reach` around `from`: the larger root of
/// |start + t·way − from|² = reach², if it lies on the leg.
fn on_leg(start: Xy, end: Xy, from: Xy, reach: f32) -> Option<Xy> {
    let (way, offset) = (end.seen_from(start), start.seen_from(from));
    let a = way.x * way.x + way.y * way.y;
    let b = way.x * offset.x + way.y * offset.y;
    let c = offset.x * offset.x + offset.y * offset.y - reach * reach;
    let share = (-b + (b * b - a * c).sqrt()) / a;
    (0.0..=1.0)
        .contains(&share)
        .then(|| start.moved(way, share))
}
