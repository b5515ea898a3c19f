//! A putt: direction and distance error, and capture at the hole.
//!
//! The ball leaves on a line with a normal error and with a normal error of length; on its way it slows at the
//! rate of the Stimpmeter reading. It drops when its centre crosses the hole slowly enough for how far off centre
//! it is; otherwise it rolls on as if the hole were not there.

use std::f64::consts::FRAC_PI_2;

use statrs::function::erf::erf;

use super::turf::deceleration_mps2;
use crate::units::Length;

/// The two errors of a golfer's putts on greens of [`USUAL_STIMP_FT`], and where they are aimed to finish.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PuttStroke {
    /// Standard deviation of the start direction, misreading of the line included, degrees.
    pub direction_sd_deg: f64,
    /// Standard deviation of the length, misreading of the slope included, percent of the length meant.
    pub length_sd_pct: f64,
    /// How far past the hole a putt is meant to finish, feet; none is meant to stop short of it.
    pub past_ft: f64,
}

/// Stimpmeter reading, feet, of the greens that a golfer's errors are stated for.
pub const USUAL_STIMP_FT: f64 = 10.0;

/// Share of the variance of both errors that comes from reading the green; the stroke makes the rest. How far a ball
/// breaks on a slope, and how far it runs on or stops short, grow with the Stimpmeter reading, and what is misread of
/// them does too; an error of the stroke counts the same on any green.
/// An assumption: no measurement was found of putts holed by the speed of the green. Without it putts would drop more
/// often the faster the green, since a slower ball drops from farther off the centre of the hole. With three tenths a
/// golfer takes as many putts on 6 ft as on 8, and half a stroke a round more on 12 than on 10.
const READ_SHARE: f64 = 0.3;

/// Radius of the hole, m. Source: Rules of Golf, 4.25 in across.
const HOLE_RADIUS_M: f64 = 4.25 * 0.0254 / 2.0;

/// Fastest ball the hole takes at its centre, m/s; off centre by δ of the hole's radius R it is
/// 1.63·(1 − (δ/R)²). Source: B.W. Holmes (1991), Am. J. Phys. 59, 129; A.R. Penner (2002), Can. J. Phys. 80, 83.
const CAPTURE_MPS: f64 = 1.63;

/// Errors beyond this many standard deviations are left out: six in ten million.
const WIDEST: f64 = 5.0;

/// Least error of direction and length, so that a perfect putter needs no case of its own.
const LEAST_DIRECTION_RAD: f64 = 1e-4;
const LEAST_LENGTH_M: f64 = 1e-3;

/// Nodes of the quadrature on [−1, 1] (Gauss–Legendre, 12 points) and their weights, the right half: the left is its
/// mirror image. Source: Abramowitz & Stegun (1964), table 25.4.
const NODES: [(f64, f64); 6] = [
    (0.125_233_408_511_469, 0.249_147_045_813_403),
    (0.367_831_498_998_180, 0.233_492_536_538_355),
    (0.587_317_954_286_617, 0.203_167_426_723_066),
    (0.769_902_674_194_305, 0.160_078_328_543_346),
    (0.904_117_256_370_475, 0.106_939_325_995_318),
    (0.981_560_634_246_719, 0.047_175_336_386_512),
];

/// One golfer's putts of one distance on one green.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Putt {
    distance_m: f64,
    direction_sd_rad: f64,
    meant_m: f64,
    length_sd_m: f64,
    deceleration_mps2: f64,
}

/// A band of lengths that misses, in standard deviations, for one line.
type Band = (f64, f64);

impl Putt {
    /// A putt on a level green of the Stimpmeter reading `stimp_ft`, feet.
    ///
    /// ```
    /// use costcard::ball::putt::{Putt, PuttStroke};
    /// use costcard::units::Length;
    /// let stroke = PuttStroke { direction_sd_deg: 1.2, length_sd_pct: 8.0, past_ft: 1.0 };
    /// let short = Putt::new(&stroke, Length::from_ft(3.0), 10.0).holed();
    /// let long = Putt::new(&stroke, Length::from_ft(30.0), 10.0).holed();
    /// assert!(short > 0.9 && long < 0.15);
    /// ```
    #[must_use]
    pub fn new(stroke: &PuttStroke, distance: Length, stimp_ft: f64) -> Self {
        let meant_m = distance.m().max(0.0) + Length::from_ft(stroke.past_ft).m();
        let error = error_on(stimp_ft);
        let direction_sd_rad = error * stroke.direction_sd_deg.to_radians();
        let length_sd_m = error * stroke.length_sd_pct / 100.0 * meant_m;
        Self {
            distance_m: distance.m().max(0.0),
            direction_sd_rad: direction_sd_rad.max(LEAST_DIRECTION_RAD),
            meant_m,
            length_sd_m: length_sd_m.max(LEAST_LENGTH_M),
            deceleration_mps2: deceleration_mps2(stimp_ft),
        }
    }

    /// Chance that it drops, 0 to 1.
    #[must_use]
    pub fn holed(&self) -> f64 {
        if self.distance_m <= HOLE_RADIUS_M {
            return 1.0;
        }
        let (edge, _) = self.edge();
        let mut chance = 0.0;
        // Lines come in equal pairs, left and right of the hole.
        across_hole(edge, |z| {
            let (short, long) = self.window(z);
            chance += 2.0 * density(z.0) * z.1 * share(short, long);
        });
        chance.min(1.0)
    }

    /// Calls `each` with a distance left, m, and its chance, over all putts that miss. The chances add up to
    /// 1 − [`Self::holed`] but for the rounding of the quadrature.
    pub fn left(&self, mut each: impl FnMut(f64, f64)) {
        if self.distance_m <= HOLE_RADIUS_M {
            return;
        }
        let (edge, end) = self.edge();
        across_hole(edge, |z| {
            let (short, long) = self.window(z);
            self.misses(z, (-WIDEST, short), &mut each);
            self.misses(z, (long, WIDEST), &mut each);
        });
        integrate(edge, end, |z| {
            let at_hole = self.lengths(self.distance_m).clamp(-WIDEST, WIDEST);
            self.misses(z, (-WIDEST, at_hole), &mut each);
            self.misses(z, (at_hole, WIDEST), &mut each);
        });
    }

    /// Standard deviations of direction at which the ball just crosses the hole's edge, and at which lines end.
    fn edge(&self) -> (f64, f64) {
        let edge = (HOLE_RADIUS_M / self.distance_m).min(1.0).asin() / self.direction_sd_rad;
        (edge.min(WIDEST), WIDEST)
    }

    /// A length as standard deviations from the length meant.
    fn lengths(&self, length_m: f64) -> f64 {
        (length_m - self.meant_m) / self.length_sd_m
    }

    /// Shortest and longest length that drops on a line that crosses the hole, in standard deviations.
    fn window(&self, (z, _): (f64, f64)) -> Band {
        let (sin, cos) = (z * self.direction_sd_rad).sin_cos();
        let off = (self.distance_m * sin / HOLE_RADIUS_M).abs().min(1.0);
        let reach = self.distance_m * cos;
        let speed = CAPTURE_MPS * (1.0 - off * off);
        let front = reach - HOLE_RADIUS_M * (1.0 - off * off).sqrt();
        // Speed where the ball meets the hole's front edge.
        let farthest = front + speed * speed / (2.0 * self.deceleration_mps2);
        (
            self.lengths(front).clamp(-WIDEST, WIDEST),
            self.lengths(farthest).clamp(-WIDEST, WIDEST),
        )
    }

    /// Hands out what is left along one line for the lengths of one band.
    fn misses(&self, (z, weight): (f64, f64), (from, to): Band, each: &mut impl FnMut(f64, f64)) {
        if to <= from {
            return;
        }
        let line = 2.0 * density(z) * weight;
        let cos = (z * self.direction_sd_rad).cos();
        integrate(from, to, |(length_z, length_weight)| {
            let length = (self.meant_m + length_z * self.length_sd_m).max(0.0);
            let d = self.distance_m;
            let left = (length * length + d * d - 2.0 * length * d * cos)
                .max(0.0)
                .sqrt();
            each(left, line * density(length_z) * length_weight);
        });
    }
}

/// The errors on greens of a Stimpmeter reading, feet, as a share of those on usual greens.
fn error_on(stimp_ft: f64) -> f64 {
    let read = stimp_ft / USUAL_STIMP_FT;
    (1.0 - READ_SHARE + READ_SHARE * read * read).sqrt()
}

/// Calls `each` with the nodes and weights of the Gauss–Legendre rule from `from` to `to`.
#[inline]
fn integrate(from: f64, to: f64, mut each: impl FnMut((f64, f64))) {
    if to <= from {
        return;
    }
    let (middle, half) = (0.5 * (from + to), 0.5 * (to - from));
    for (node, weight) in NODES {
        each((middle - half * node, half * weight));
        each((middle + half * node, half * weight));
    }
}

/// Calls `each` with nodes and weights over the lines from the hole's centre to its edge: evenly in the angle seen
/// from the hole's centre, so that they lie close at the edge, where the hole turns away, and in two halves, because
/// the window of lengths closes fast there.
fn across_hole(edge: f64, mut each: impl FnMut((f64, f64))) {
    for (from, to) in [(0.0, 0.5), (0.5, 1.0)] {
        integrate(from, to, |(turn, weight)| {
            let (sin, cos) = (turn * FRAC_PI_2).sin_cos();
            each((edge * sin, edge * FRAC_PI_2 * cos * weight));
        });
    }
}

/// Density of the standard normal.
fn density(z: f64) -> f64 {
    /// 1/√(2π).
    const TOP: f64 = 0.398_942_280_401_432_7;
    TOP * (-0.5 * z * z).exp()
}

/// Share of the standard normal between two values; nothing when they are crossed.
fn share(from: f64, to: f64) -> f64 {
    if to <= from {
        return 0.0;
    }
    0.5 * (erf(to / std::f64::consts::SQRT_2) - erf(from / std::f64::consts::SQRT_2))
}
