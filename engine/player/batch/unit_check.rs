//! Sheets in a wrong unit: km/h under mph, metres a second, yards that are metres.
//!
//! A golfer may be slow, and a child half as fast as a grown-up, so that no speed is too slow by itself. What is asked is
//! whether the whole sheet, by its middle shot, is faster than anybody, or contradicts what else it measured: the spin of
//! the irons, the carries, the club's speed. Bounds are assumptions, set wide: what they stop cannot be golf in the unit
//! that was said. Who is right all the same says the unit in a column map, and is not asked.

use std::collections::BTreeMap;
use std::ops::RangeInclusive;

use super::column_map::ColumnMap;
use super::figures::Figures;
use super::quantity::{Quantity, UNITS, Unit};
use super::reference::median;
use super::screen::checking_air;
use super::{Shot, UnitDoubt};
use crate::ball::flight::fly;
use crate::player::bag::delivered_with;
use crate::player::club::{Class, Club};
use crate::player::pattern::strike_of;
use crate::player::{Golfer, Sex, levels};

/// Fewer shots say nothing of a sheet.
const LEAST: usize = 5;
/// Shots that are flown, taken evenly.
const MOST_FLOWN: usize = 200;
/// No golfer's middle shot is faster than so many times a tour professional's: 205 mph with the driver, 144 with the
/// 7 iron.
const FASTEST: f64 = 1.2;
/// Speeds over a tour professional's that are golf: children to the longest hitters.
const GOLF: RangeInclusive<f64> = 0.25..=FASTEST;
/// Only where the middle shot has less than this of a professional's speed is it asked whether its spin is too much: what
/// miles an hour come to under km/h. An iron of little speed spins more for its speed, by a third at most, while every
/// speed is 1.6 times too small there, and 2.2 times in metres a second.
const SLOW: f64 = 0.62;
const MOST_SPIN: f64 = 1.55;
/// Carries over those of the launches. Balls, air and devices differ by a fifth; a wrong unit of speed makes half or
/// double of it.
const CARRIES: RangeInclusive<f64> = 0.6..=1.6;
const CARRIES_RIGHT: RangeInclusive<f64> = 0.8..=1.25;
/// Ball speed over club speed, over a professional's.
const SMASH: RangeInclusive<f64> = 0.7..=1.35;
const SMASH_RIGHT: RangeInclusive<f64> = 0.75..=1.15;
/// Apex over carry, over a professional's: out of the first range, heights are in another unit of length, in which they
/// come within the other. The lowest that the slowest golfers hit the ball is 0.7.
const HEIGHTS_KNOWN: RangeInclusive<f64> = 0.38..=1.8;
const HEIGHTS: RangeInclusive<f64> = 0.25..=1.5;
/// The middle shot's spin over a professional's: below the first no ball spins, and beyond it thousands of rpm are golf.
const LEAST_SPIN: f64 = 0.01;
const SPIN_IN_THOUSANDS: RangeInclusive<f64> = 0.2..=2.5;
/// How far carries may lie from what metres would be under yards (or the other way round) to be asked about. Range balls
/// fly as short, so that this is told and stops nothing.
const METRES_OFF: f64 = 0.03;

/// A column that is most likely in another unit than was said.
#[derive(Debug)]
pub(super) struct Suspect {
    pub quantity: Quantity,
    pub message: String,
    pub hint: String,
}

/// What a sheet says its columns are in.
pub(super) struct Said<'a> {
    pub units: &'a [(Quantity, Unit)],
    pub map: &'a ColumnMap,
}

impl Said<'_> {
    /// The unit of a column, unless the map vouches for it.
    fn unit(&self, quantity: Quantity) -> Option<Unit> {
        let of_quantity = self.units.iter().find(|(one, _)| *one == quantity);
        let unit = of_quantity.map(|(_, unit)| *unit)?;
        self.map.unit(quantity).is_none().then_some(unit)
    }

    /// The other units of a column, and what each would make of a value.
    fn others(&self, quantity: Quantity) -> Vec<(Unit, f64)> {
        let Some(said) = self.unit(quantity) else {
            return Vec::new();
        };
        let fit = UNITS
            .iter()
            .filter(|unit| unit.kind == said.kind && **unit != said);
        fit.map(|unit| (*unit, unit.factor / said.factor)).collect()
    }
}

/// The columns of one sheet that cannot be in the unit that was said.
pub(super) fn suspects(shots: &[&Shot], said: &Said<'_>) -> Vec<Suspect> {
    let Ok(tour) = levels::named("tour", Sex::Men) else {
        return Vec::new();
    };
    let sheet = Sheet::of(shots, &tour);
    let ball = sheet.ball(said);
    let ball_is_sound = ball.is_none();
    let club = sheet.club(said, ball_is_sound);
    let carry = sheet.carry(said).filter(|_| ball_is_sound);
    let apex = sheet.apex(said);
    let spin = spin_in_thousands(shots, &tour);
    let all = [ball, club, carry, apex, spin];
    all.into_iter().flatten().collect()
}

/// Carries that fit another unit of length better, where that could also be the ball or the air.
pub(super) fn doubt(file: usize, shots: &[&Shot], said: &Said<'_>) -> Option<UnitDoubt> {
    let ratios = carries(shots, 1.0);
    let middle = middle(&ratios)?;
    let mut off: Vec<f64> = ratios.iter().map(|ratio| (ratio - middle).abs()).collect();
    if off.len() < 2 * LEAST || median(&mut off) > METRES_OFF {
        return None;
    }
    let others = said.others(Quantity::Carry);
    let fits = |factor: f64| (middle * factor - 1.0).abs() < METRES_OFF;
    let (unit, _) = others.into_iter().find(|(_, factor)| fits(*factor))?;
    Some(UnitDoubt {
        file,
        share: middle,
        unit: told(unit.word()),
        column: format!("carry_{}", unit.suffix),
        spin_measured: shots
            .iter()
            .any(|shot| shot.figures.measured(Quantity::Backspin).is_some()),
    })
}

/// A tour professional with a club: ball and club speed, mph, and the backspin of an iron or wedge, rpm.
struct Usual {
    ball: Option<f64>,
    club: Option<f64>,
    spin_of_iron: Option<f64>,
    /// Apex over carry.
    height: Option<f64>,
}

impl Usual {
    fn of(tour: &Golfer, club: Club) -> Self {
        let pattern = tour.pattern_with(club);
        let is_iron = matches!(club.class(), Class::Iron | Class::Wedge);
        Self {
            ball: pattern.as_ref().map(|pattern| pattern.mean[0]),
            club: delivered_with(&tour.clubs, club).and_then(|delivered| delivered.club_speed_mph),
            height: pattern.as_ref().map(|pattern| {
                let flight = fly(&strike_of(&pattern.mean), &checking_air());
                flight.apex.yd() / flight.carry.yd()
            }),
            spin_of_iron: pattern.map(|pattern| pattern.mean[3]).filter(|_| is_iron),
        }
    }
}

/// What the shots of a sheet come to.
struct Sheet<'a> {
    shots: &'a [&'a Shot],
    /// Medians over the shots, each beside a tour professional's with its club.
    ball: Option<f64>,
    club: Option<f64>,
    smash: Option<f64>,
    spin_of_irons: Option<f64>,
    carry: Option<f64>,
    /// Apex over carry.
    height: Option<f64>,
    /// The club hit most.
    main: Option<Club>,
}

impl<'a> Sheet<'a> {
    fn of(shots: &'a [&'a Shot], tour: &Golfer) -> Self {
        let mut usual: BTreeMap<Club, Usual> = BTreeMap::new();
        for shot in shots {
            usual
                .entry(shot.club)
                .or_insert_with(|| Usual::of(tour, shot.club));
        }
        let over = |value: &dyn Fn(&Figures) -> Option<f64>, of: &dyn Fn(&Usual) -> Option<f64>| {
            let all = shots.iter().filter_map(|shot| {
                let ratio = value(&shot.figures)? / of(usual.get(&shot.club)?)?;
                Some(ratio).filter(|ratio| *ratio > 0.0 && ratio.is_finite())
            });
            middle(&all.collect::<Vec<f64>>())
        };
        let ball = |figures: &Figures| figures.measured(Quantity::BallSpeed);
        let club = |figures: &Figures| figures.measured(Quantity::ClubSpeed);
        Self {
            shots,
            ball: over(&ball, &|usual| usual.ball),
            club: over(&club, &|usual| usual.club),
            smash: over(&|figures| Some(ball(figures)? / club(figures)?), &|usual| {
                Some(usual.ball? / usual.club?)
            }),
            spin_of_irons: over(
                &|figures| Some(figures.measured(Quantity::Backspin)? / ball(figures)?),
                &|usual| Some(usual.spin_of_iron? / usual.ball?),
            ),
            carry: middle(&carries(shots, 1.0)),
            height: over(
                &|figures| {
                    let measured = |quantity| figures.measured(quantity);
                    Some(measured(Quantity::Apex)? / measured(Quantity::Carry)?)
                },
                &|usual| usual.height,
            ),
            main: main(shots),
        }
    }

    fn ball(&self, said: &Said<'_>) -> Option<Suspect> {
        let ratio = self.ball?;
        let others = said.others(Quantity::BallSpeed);
        let golf = others
            .into_iter()
            .filter(|(_, factor)| GOLF.contains(&(ratio * factor)));
        let golf: Vec<(Unit, f64)> = golf.collect();
        let outside = |value: Option<f64>, range: &RangeInclusive<f64>| {
            value.is_some_and(|value| !range.contains(&value))
        };
        let (why, unit) = if outside(self.carry, &CARRIES) {
            let right = |factor: f64| {
                let carry = middle(&carries(self.shots, factor));
                carry.is_some_and(|carry| CARRIES_RIGHT.contains(&carry))
            };
            let unit = golf.iter().find(|(_, factor)| right(*factor))?.0;
            ("which does not fly the carries", unit)
        } else if outside(self.smash, &SMASH)
            && let Some(smash) = self.smash
            && let Some((unit, _)) = golf
                .iter()
                .find(|(_, factor)| SMASH_RIGHT.contains(&(smash * factor)))
        {
            ("which the club speeds do not give", *unit)
        } else if ratio > FASTEST {
            ("faster than anybody's", golf.first()?.0)
        } else if ratio < SLOW && self.spin_of_irons.is_some_and(|spin| spin > MOST_SPIN) {
            let mut faster = golf.iter().filter(|(_, factor)| *factor > 1.5);
            ("too slow for the spin", faster.next_back()?.0)
        } else {
            return None;
        };
        self.suspect(said, Quantity::BallSpeed, why, unit)
    }

    fn club(&self, said: &Said<'_>, ball_is_sound: bool) -> Option<Suspect> {
        let ratio = self.club?;
        let others = said.others(Quantity::ClubSpeed).into_iter();
        let mut golf = others.filter(|(_, factor)| GOLF.contains(&(ratio * factor)));
        if ratio > FASTEST {
            return self.suspect(
                said,
                Quantity::ClubSpeed,
                "faster than anybody's",
                golf.next()?.0,
            );
        }
        let smash = self
            .smash
            .filter(|smash| ball_is_sound && !SMASH.contains(smash))?;
        let (unit, _) = golf.find(|(_, factor)| SMASH_RIGHT.contains(&(smash / factor)))?;
        self.suspect(
            said,
            Quantity::ClubSpeed,
            "which does not give the ball speeds",
            unit,
        )
    }

    fn carry(&self, said: &Said<'_>) -> Option<Suspect> {
        let ratio = self.carry.filter(|carry| !CARRIES.contains(carry))?;
        let mut others = said.others(Quantity::Carry).into_iter();
        let (unit, _) = others.find(|(_, factor)| CARRIES_RIGHT.contains(&(ratio * factor)))?;
        self.suspect(said, Quantity::Carry, "which its launches do not fly", unit)
    }

    /// Heights in feet under yards, or in metres under feet, told by how high the carries were.
    fn apex(&self, said: &Said<'_>) -> Option<Suspect> {
        let ratio = self
            .height
            .filter(|height| !HEIGHTS_KNOWN.contains(height))?;
        let others = said.others(Quantity::Apex).into_iter();
        // Of those that come within, the one that is as high as is usual.
        let off = |factor: f64| (ratio * factor).ln().abs();
        let (unit, _) = others
            .filter(|(_, factor)| HEIGHTS.contains(&(ratio * factor)))
            .min_by(|(_, one), (_, other)| off(*one).total_cmp(&off(*other)))?;
        let why = match ratio > 1.0 {
            true => "higher than such a carry comes",
            false => "lower than any ball that carries so far",
        };
        self.suspect(said, Quantity::Apex, why, unit)
    }

    fn suspect(
        &self,
        said: &Said<'_>,
        quantity: Quantity,
        why: &str,
        unit: Unit,
    ) -> Option<Suspect> {
        let stated = told(said.unit(quantity)?.word());
        let club = self.main?;
        let of_club = self.shots.iter().filter(|shot| shot.club == club);
        let values = of_club.filter_map(|shot| shot.figures.measured(quantity));
        let usual = quantity.told(median(&mut values.collect::<Vec<f64>>()));
        let (what, word) = (quantity.words(), unit.word());
        let word = told(word);
        let name = quantity.name();
        let base = name.trim_end_matches(quantity.kind().trade().suffix);
        Some(Suspect {
            quantity,
            message: format!(
                "the usual {what} of the {club} would be {usual}, {why}: these look like {word}"
            ),
            hint: format!(
                "name the column `{base}{}`, or say it in a column map: `units = {{ {name} = \"{word}\" }}`; if the unit is right, say that there: `units = {{ {name} = \"{stated}\" }}`",
                unit.suffix,
            ),
        })
    }
}

/// Spin that was written in thousands of rpm.
fn spin_in_thousands(shots: &[&Shot], tour: &Golfer) -> Option<Suspect> {
    let over = |shot: &&Shot| {
        let usual = tour.pattern_with(shot.club)?.mean[3];
        Some(shot.figures.measured(Quantity::Backspin)? / usual)
    };
    let ratio = middle(&shots.iter().filter_map(over).collect::<Vec<f64>>())?;
    if ratio >= LEAST_SPIN || !SPIN_IN_THOUSANDS.contains(&(1000.0 * ratio)) {
        return None;
    }
    let club = main(shots)?;
    let of_club = shots.iter().filter(|shot| shot.club == club);
    let values = of_club.filter_map(|shot| shot.figures.measured(Quantity::Backspin));
    let usual = median(&mut values.collect::<Vec<f64>>());
    Some(Suspect {
        quantity: Quantity::Backspin,
        message: format!(
            "the usual backspin of the {club} would be {usual:.1} rpm, and no ball spins so little: these look like thousands"
        ),
        hint: "write them in rpm: 3.2 as 3200".to_owned(),
    })
}

/// A unit as it is mostly written.
fn told(word: &'static str) -> &'static str {
    match word {
        "kmh" => "km/h",
        "mps" => "m/s",
        "fps" => "ft/s",
        other => other,
    }
}

/// Measured carries over those that the launches fly, ball speeds taken so many times. Where no spin was measured, it is
/// taken for as much as a tour professional's ball of that speed has.
fn carries(shots: &[&Shot], factor: f64) -> Vec<f64> {
    let air = checking_air();
    let measured = |shot: &&&Shot| {
        let has = |quantity| {
            shot.figures
                .measured(quantity)
                .is_some_and(|value| value > 0.0)
        };
        has(Quantity::Carry) && has(Quantity::BallSpeed)
    };
    let whole: Vec<&&Shot> = shots.iter().filter(measured).collect();
    let step = whole.len().div_ceil(MOST_FLOWN).max(1);
    let tour = levels::named("tour", Sex::Men).ok();
    let over = |shot: &&Shot| {
        let figure = |quantity| shot.figures.get(quantity);
        let ball_speed_mph = figure(Quantity::BallSpeed)? * factor;
        let usual_rpm = || {
            let [mph, _, _, rpm, _] = tour.as_ref()?.pattern_with(shot.club)?.mean;
            Some(rpm / mph * ball_speed_mph)
        };
        let strike = [
            ball_speed_mph,
            figure(Quantity::Launch)?,
            // Hardly anything of the carry hangs on these.
            figure(Quantity::Direction).unwrap_or(0.0),
            figure(Quantity::Backspin).or_else(usual_rpm)?,
            figure(Quantity::Sidespin).unwrap_or(0.0),
        ];
        let flown = fly(&strike_of(&strike), &air).carry.yd();
        let carry = shot.figures.measured(Quantity::Carry)?;
        (flown > 10.0).then(|| carry / flown)
    };
    whole.into_iter().step_by(step).filter_map(over).collect()
}

/// The middle of enough values.
fn middle(values: &[f64]) -> Option<f64> {
    (values.len() >= LEAST).then(|| median(&mut values.to_vec()))
}

/// The club hit most; of several the longest.
fn main(shots: &[&Shot]) -> Option<Club> {
    let count = |club: Club| shots.iter().filter(|shot| shot.club == club).count();
    let mut clubs: Vec<Club> = shots.iter().map(|shot| shot.club).collect();
    clubs.sort_unstable();
    clubs.dedup();
    clubs.into_iter().rev().max_by_key(|club| count(*club))
}
