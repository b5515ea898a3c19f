//! The search for the likeliest strike.

use nalgebra::{Matrix5, SMatrix, SVector, Vector5};

use super::{Known, Reading, Seen};
use crate::ball::Strike;
use crate::ball::air::Atmosphere;
use crate::ball::flight::{Flight, fly};
use crate::units::{Angle, Length, Speed, Spin};

/// How far one golfer's strikes of a club are from the usual one, about: ball speed and spin ratio as shares, launch
/// and direction in degrees, sidespin as a share of backspin. Assumptions.
const USUAL_SD: [f64; 5] = [0.10, 3.0, 3.0, 0.15, 0.08];

/// Limits of a strike: ball speed as a share of the usual, launch and direction in degrees, spins in rpm.
const SPEED_SHARE: [f64; 2] = [0.15, 2.5];
const LAUNCH_DEG: [f64; 2] = [0.5, 70.0];
const DIRECTION_DEG: f64 = 45.0;
const BACKSPIN_RPM: [f64; 2] = [-3000.0, 15_000.0];
const SIDESPIN_RPM: f64 = 8000.0;

/// Spins, in steps of [`USUAL_SD`], that the search starts from again when it got stuck: flights of much and of little
/// spin can be so alike that there is a second best between them.
const OTHER_SPINS: [f64; 11] = [-4.0, -3.0, -2.0, -1.3, -0.6, 0.0, 0.6, 1.3, 2.0, 3.0, 4.0];
/// The search begins with flights read no more closely than this share of carry, and sharpens tenfold at a time.
const FIRST_READING: f64 = 0.01;
const MOST_ROUNDS: usize = 200;
/// The search ends when it moves by less, for flights as a device reads them.
const SETTLED: f64 = 0.01;

/// How far a strike is from the usual one, each figure in its own [`USUAL_SD`]: ball speed, launch, direction, spin
/// ratio, sidespin.
type Steps = Vector5<f64>;

/// Misses of carry, side, apex and descent, then the steps themselves.
type Misses = SVector<f64, 9>;

/// A place of the search.
pub(super) struct Place {
    pub(super) at: Steps,
    pub(super) flight: Flight,
    /// In standard deviations.
    misses: Misses,
    cost: f64,
}

impl Place {
    /// The greatest miss of the flight.
    pub(super) fn worst(&self) -> f64 {
        self.misses.fixed_rows::<4>(0).amax()
    }
}

#[derive(Clone, Copy)]
pub(super) struct Problem<'a> {
    seen: &'a Seen,
    known: Known,
    usual: &'a Strike,
    atmosphere: &'a Atmosphere,
    /// Which steps are open.
    open: [bool; 5],
}

impl<'a> Problem<'a> {
    pub(super) fn new(
        seen: &'a Seen,
        known: &Known,
        usual: &'a Strike,
        atmosphere: &'a Atmosphere,
    ) -> Option<Self> {
        let positive = |length: Length| length.m() > 0.0 && length.m().is_finite();
        let sound = seen.carry.is_none_or(positive)
            && seen.side.is_none_or(|side| side.m().is_finite())
            && seen.apex.is_none_or(positive)
            && seen.descent.is_none_or(|descent| descent.rad().is_finite())
            && usual.ball_speed.mps() > 0.0;
        sound.then_some(Self {
            seen,
            known: *known,
            usual,
            atmosphere,
            open: known.open(),
        })
    }

    /// The likeliest place; from many spins when the first search got stuck.
    pub(super) fn best(&self, reading: &Reading) -> Place {
        let first = self.solve(self.start(), reading);
        if first.worst() <= 1.0 || self.known.backspin.is_some() {
            return first;
        }
        let others = OTHER_SPINS.map(|step| self.solve_from_spin(step, reading));
        others.into_iter().fold(
            first,
            |best, other| {
                if other.cost < best.cost { other } else { best }
            },
        )
    }

    /// The usual strike, its speed such that a carry that was seen is about right: carry grows about as speed^1.5.
    fn start(&self) -> Steps {
        let share = self.seen.carry.map_or(1.0, |carry| {
            let usual_yd = fly(self.usual, self.atmosphere).carry.yd().max(1.0);
            (carry.yd() / usual_yd).clamp(0.05, 5.0).powf(0.67)
        });
        let mut at = Steps::zeros();
        at[0] = (share - 1.0) / USUAL_SD[0];
        self.held(at)
    }

    /// Steps held to what a strike can be; what is known stays.
    fn held(&self, mut at: Steps) -> Steps {
        let mut hold = |step: usize, [least, most]: [f64; 2], usual: f64, sd: f64| {
            at[step] = if self.open[step] {
                at[step].clamp((least - usual) / sd, (most - usual) / sd)
            } else {
                0.0
            };
            at
        };
        hold(0, SPEED_SHARE, 1.0, USUAL_SD[0]);
        hold(1, LAUNCH_DEG, self.usual.launch.deg(), USUAL_SD[1]);
        let either = |most: f64| [-most, most];
        let direction_deg = self.usual.direction.deg();
        let held = hold(2, either(DIRECTION_DEG), direction_deg, USUAL_SD[2]);
        let ratio = self.speed(&held).mps() / self.usual.ball_speed.mps();
        let backspin_rpm = self.usual.backspin.rpm() * ratio;
        let sidespin_rpm = self.usual.sidespin.rpm() * ratio;
        hold(3, BACKSPIN_RPM, backspin_rpm, self.spin_sd_rpm(3));
        hold(4, either(SIDESPIN_RPM), sidespin_rpm, self.spin_sd_rpm(4))
    }

    fn speed(&self, at: &Steps) -> Speed {
        let share = 1.0 + USUAL_SD[0] * at[0];
        let found = self.usual.ball_speed * share;
        self.known.ball_speed.unwrap_or(found)
    }

    pub(super) fn strike(&self, at: &Steps) -> Strike {
        let (usual, known) = (self.usual, self.known);
        let ball_speed = self.speed(at);
        // Spin goes with speed: the same face on a faster ball.
        let ratio = ball_speed.mps() / usual.ball_speed.mps();
        let degrees = |step: usize| Angle::from_deg(USUAL_SD[step] * at[step]);
        let spin = |step: usize| Spin::from_rpm(self.spin_sd_rpm(step) * at[step]);
        Strike {
            ball_speed,
            launch: known.launch.unwrap_or(usual.launch + degrees(1)),
            direction: known.direction.unwrap_or(usual.direction + degrees(2)),
            backspin: known.backspin.unwrap_or(usual.backspin * ratio + spin(3)),
            sidespin: known.sidespin.unwrap_or(usual.sidespin * ratio + spin(4)),
        }
    }

    /// Standard deviation of a spin among strikes.
    fn spin_sd_rpm(&self, step: usize) -> f64 {
        USUAL_SD[step] * self.usual.backspin.rpm().abs().max(1000.0)
    }

    fn place(&self, at: Steps, reading: &Reading) -> Place {
        let flight = fly(&self.strike(&at), self.atmosphere);
        let misses = self.misses(&at, &flight, reading);
        Place {
            at,
            flight,
            misses,
            cost: misses.norm_squared(),
        }
    }

    fn misses(&self, at: &Steps, flight: &Flight, reading: &Reading) -> Misses {
        let seen = self.seen;
        let off = |seen: Option<Length>, flown: Length, share: f64, of: Length| {
            let sd_m = (share * of.m()).hypot(reading.finest.m());
            seen.map_or(0.0, |seen| (flown - seen).m() / sd_m)
        };
        let apex = seen.apex.unwrap_or(Length::ZERO);
        let carry = seen.carry.unwrap_or(flight.carry);
        let descent = seen.descent.map_or(0.0, |descent| {
            (flight.descent - descent).rad() / reading.descent.rad()
        });
        let of_flight = [
            off(seen.carry, flight.carry, reading.carry, carry),
            off(seen.side, flight.side, reading.side, carry),
            off(seen.apex, flight.apex, reading.apex, apex),
            descent,
        ];
        Misses::from_fn(|row, _| of_flight.get(row).copied().unwrap_or_else(|| at[row - 4]))
    }

    /// Rows: misses; columns: steps; by differences both ways.
    fn slopes(&self, place: &Place, reading: &Reading) -> SMatrix<f64, 9, 5> {
        const STEP: f64 = 1e-4;
        let mut slopes = SMatrix::<f64, 9, 5>::zeros();
        for step in (0..5).filter(|&step| self.open[step]) {
            let aside = |by: f64| {
                let mut at = place.at;
                at[step] += by;
                self.place(at, reading).misses
            };
            slopes.set_column(step, &((aside(STEP) - aside(-STEP)) / (2.0 * STEP)));
        }
        slopes
    }

    /// The likeliest place for a reading, found for coarse readings first.
    fn solve(&self, start: Steps, reading: &Reading) -> Place {
        let mut factor = 1.0;
        while reading.carry * factor * 10.0 <= FIRST_READING {
            factor *= 10.0;
        }
        let mut place = self.place(start, &reading.times(factor));
        loop {
            place = self.descend(place, &reading.times(factor));
            if factor <= 1.0 {
                return place;
            }
            factor /= 10.0;
            place = self.place(place.at, &reading.times(factor.max(1.0)));
        }
    }

    /// The likeliest place near one spin: the rest is found for that spin first, then the spin set free.
    fn solve_from_spin(&self, step: f64, reading: &Reading) -> Place {
        let spin_rpm = self.usual.backspin.rpm() + self.spin_sd_rpm(3) * step;
        let held = Problem {
            known: Known {
                backspin: Some(Spin::from_rpm(spin_rpm)),
                ..self.known
            },
            open: std::array::from_fn(|i| self.open[i] && i != 3),
            ..*self
        };
        let mut at = held.solve(held.start(), reading).at;
        let ratio = self.speed(&at).mps() / self.usual.ball_speed.mps();
        at[3] = (spin_rpm - self.usual.backspin.rpm() * ratio) / self.spin_sd_rpm(3);
        self.descend(self.place(self.held(at), reading), reading)
    }

    fn descend(&self, mut place: Place, reading: &Reading) -> Place {
        // What moves by a hundredth of what a device tells moves nothing; flights read exactly are followed as far.
        let settled = (SETTLED * reading.carry / Reading::DEVICE.carry).clamp(1e-6, SETTLED);
        let mut damping = 1e-3;
        for _ in 0..MOST_ROUNDS {
            let slopes = self.slopes(&place, reading);
            let moved = loop {
                let next = damped_step(&slopes, &place.misses, damping)
                    .map(|step| self.place(self.held(place.at + step), reading));
                match next {
                    Some(next) if next.cost < place.cost => {
                        let moved = (next.at - place.at).amax();
                        place = next;
                        damping /= 10.0;
                        break moved;
                    }
                    _ if damping > 1e6 => break 0.0,
                    _ => damping *= 10.0,
                }
            };
            if moved < settled {
                break;
            }
        }
        place
    }

    /// Standard deviations of the figures of a strike.
    pub(super) fn sd(&self, place: &Place, reading: &Reading) -> Strike {
        let slopes = self.slopes(place, reading);
        let mut information: Matrix5<f64> = slopes.transpose() * slopes;
        for i in (0..5).filter(|&i| !self.open[i]) {
            information[(i, i)] = 1.0;
        }
        let covariance = information.try_inverse().unwrap_or_else(Matrix5::identity);
        // What does not move has no spread.
        let open = Steps::from_fn(|i, _| f64::from(self.open[i]));
        let sd = |i: usize| open[i] * covariance[(i, i)].max(0.0).sqrt();
        // A spin moves with the ball speed too.
        let spin = |i: usize, usual: Spin| {
            let of_speed = usual.rpm() * USUAL_SD[0] * open[0];
            let own = self.spin_sd_rpm(i);
            let variance = of_speed.powi(2) * covariance[(0, 0)]
                + own.powi(2) * covariance[(i, i)]
                + 2.0 * of_speed * own * covariance[(0, i)];
            Spin::from_rpm(open[i] * variance.max(0.0).sqrt())
        };
        Strike {
            ball_speed: self.usual.ball_speed * (USUAL_SD[0] * sd(0)),
            launch: Angle::from_deg(USUAL_SD[1] * sd(1)),
            direction: Angle::from_deg(USUAL_SD[2] * sd(2)),
            backspin: spin(3, self.usual.backspin),
            sidespin: spin(4, self.usual.sidespin),
        }
    }
}

/// The step that takes the misses down most, each part of it damped in its own measure.
///
/// Solved on the slopes themselves, not on their squares: a flight read exactly tells speed a million times better
/// than spin.
fn damped_step(slopes: &SMatrix<f64, 9, 5>, misses: &Misses, damping: f64) -> Option<Steps> {
    let mut rows = SMatrix::<f64, 14, 5>::zeros();
    let mut right = SVector::<f64, 14>::zeros();
    rows.fixed_rows_mut::<9>(0).copy_from(slopes);
    right.fixed_rows_mut::<9>(0).copy_from(&-misses);
    for i in 0..5 {
        // A closed step has no slope, and must not move.
        rows[(9 + i, i)] = (damping.sqrt() * slopes.column(i).norm()).max(1e-9);
    }
    let factors = rows.qr();
    let projected = factors.q().transpose() * right;
    factors.r().solve_upper_triangular(&projected)
}
