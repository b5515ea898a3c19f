//! The figures of one club that before and after have in common.

use serde::Serialize;

use crate::ball::air::{Air, Atmosphere};
use crate::ball::flight::fly;
use crate::player::batch::{Figures, Quantity, Shot};
use crate::player::pattern::strike_of;

/// What is compared of a club.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// How much there is of a quantity.
    Mean(Quantity),
    /// How widely a quantity spreads: what its standard deviation would be if the club had no mishits.
    Spread(Quantity),
}

impl Measure {
    /// The quantity.
    #[must_use]
    pub const fn quantity(self) -> Quantity {
        match self {
            Self::Mean(quantity) | Self::Spread(quantity) => quantity,
        }
    }

    /// Its key in JSON, with its unit: `launch_deg`, `carry_sd_yd`.
    #[must_use]
    pub fn key(self) -> String {
        let name = self.quantity().name();
        match (self, name.rsplit_once('_')) {
            (Self::Spread(_), Some((base, unit))) => format!("{base}_sd_{unit}"),
            _ => name,
        }
    }
}

impl Serialize for Measure {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.key())
    }
}

/// One measure of a club's shots, before and after.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Column {
    pub measure: Measure,
    /// Whether it was measured; otherwise flown from the measured strike.
    pub measured: bool,
    /// Number of the shot, those before first, and its figure, in rising order of figures.
    pub rising: Vec<(usize, f64)>,
}

/// Mean absolute deviation from the middle of what is left of a normal distribution with a tenth cut off at the near
/// and a tenth at the far end, in standard deviations: (φ(z₁) − φ(z₂))·2/0.8 with z₁, z₂ at 0.55 and 0.95.
const DEVIATION_IN_SD: f64 = 0.7317;

/// The columns of a club, from its sound shots before and after.
pub(super) fn columns(sides: [&[&Shot]; 2]) -> Vec<Column> {
    let flown = sides.map(flown);
    let means = quantities(sides)
        .into_iter()
        .filter_map(|quantity| column(quantity, sides, &flown));
    let mut columns: Vec<Column> = means.collect();
    let spreads = [Quantity::Carry, Quantity::Side];
    for quantity in spreads {
        let mean = columns
            .iter()
            .find(|column| column.measure == Measure::Mean(quantity));
        let spread = mean.and_then(|mean| spread(mean, sides[0].len()));
        columns.extend(spread);
    }
    columns
}

/// What is looked for. Spin and its axis only where backspin and sidespin, into which they are split, were not measured.
fn quantities(sides: [&[&Shot]; 2]) -> Vec<Quantity> {
    let both = |quantity| sides.iter().all(|shots| any(shots, quantity));
    let mut all = Quantity::STRIKE.to_vec();
    for (split, whole) in [
        (Quantity::Backspin, Quantity::Spin),
        (Quantity::Sidespin, Quantity::SpinAxis),
    ] {
        all.extend((!both(split)).then_some(whole));
    }
    all.extend(Quantity::FLIGHT);
    all.extend(Quantity::DELIVERY);
    all
}

fn any(shots: &[&Shot], quantity: Quantity) -> bool {
    let mut figures = shots.iter().map(|shot| &shot.figures);
    figures.any(|figures| figures.measured(quantity).is_some())
}

/// A quantity that both sides measured, or that both fly.
fn column(quantity: Quantity, sides: [&[&Shot]; 2], flown: &[Vec<Figures>; 2]) -> Option<Column> {
    let measured = sides.iter().all(|shots| any(shots, quantity));
    let figure = |figures: &Figures| match measured {
        true => figures.measured(quantity),
        false => figures
            .get(quantity)
            .filter(|_| figures.is_derived(quantity)),
    };
    let of_side = |side: usize| -> Vec<Option<f64>> {
        match measured {
            true => sides[side]
                .iter()
                .map(|shot| figure(&shot.figures))
                .collect(),
            false => flown[side].iter().map(figure).collect(),
        }
    };
    let (before, after) = (of_side(0), of_side(1));
    let known = |side: &[Option<f64>]| side.iter().any(Option::is_some);
    if !known(&before) || !known(&after) {
        return None;
    }
    let all = before.into_iter().chain(after).enumerate();
    let known = all.filter_map(|(shot, value)| Some((shot, value?)));
    Some(Column {
        measure: Measure::Mean(quantity),
        measured,
        rising: rising(known.collect()),
    })
}

fn rising(mut values: Vec<(usize, f64)>) -> Vec<(usize, f64)> {
    values.sort_by(|a, b| a.1.total_cmp(&b.1));
    values
}

/// What the strikes fly in standard air, where all five figures of the strike were measured.
fn flown(shots: &[&Shot]) -> Vec<Figures> {
    let air = Atmosphere::new(&Air::standard());
    let fly_one = |shot: &&Shot| {
        let mut figures = Figures::default();
        let measured = Quantity::STRIKE.map(|quantity| shot.figures.measured(quantity));
        if let [Some(a), Some(b), Some(c), Some(d), Some(e)] = measured {
            let flight = fly(&strike_of(&[a, b, c, d, e]), &air);
            figures.derive(Quantity::Carry, flight.carry.yd());
            figures.derive(Quantity::Side, flight.side.yd());
            figures.derive(Quantity::Apex, flight.apex.yd());
            figures.derive(Quantity::Descent, flight.descent.deg());
        }
        figures
    };
    shots.iter().map(fly_one).collect()
}

/// How far each shot lies from the middle of its own side, as a standard deviation.
///
/// Source: M.B. Brown & A.B. Forsythe 1974, J. Am. Statist. Assoc. 69, 364 (deviations from the median, which tails and
/// mishits do not sway). A middle taken from the shots themselves lies too near to them by √((n − 1)/n).
fn spread(mean: &Column, before: usize) -> Option<Column> {
    let parts = [false, true].map(|after| {
        let side = mean.rising.iter();
        let side = side.filter(|(shot, _)| (*shot >= before) == after);
        side.copied().collect::<Vec<_>>()
    });
    if parts.iter().any(|part| part.len() < 2) {
        return None;
    }
    let deviations = parts.iter().flat_map(|part| {
        let count = part.len() as f64;
        let middle = median(part);
        let scale = (count / (count - 1.0)).sqrt() / DEVIATION_IN_SD;
        part.iter()
            .map(move |(shot, value)| (*shot, scale * (value - middle).abs()))
    });
    Some(Column {
        measure: Measure::Spread(mean.measure.quantity()),
        measured: mean.measured,
        rising: rising(deviations.collect()),
    })
}

/// The middle of figures in rising order, of which there is one at least.
fn median(rising: &[(usize, f64)]) -> f64 {
    let middle = rising.len() / 2;
    match rising.len() % 2 {
        1 => rising[middle].1,
        _ => f64::midpoint(rising[middle - 1].1, rising[middle].1),
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)] // a test may stop
mod tests {
    use super::*;
    use crate::player::compare::trimmed::Trimmed;
    use statrs::distribution::{ContinuousCDF, Normal};

    #[test]
    fn the_spread_of_normal_shots_is_their_standard_deviation() {
        // Evenly placed quantiles of a normal of standard deviation 7, on both sides.
        let normal = Normal::new(150.0, 7.0).unwrap();
        let figures = |shift: usize| {
            (0..1000).map(move |i| (i + shift, normal.inverse_cdf((i as f64 + 0.5) / 1000.0)))
        };
        let mean = Column {
            measure: Measure::Mean(Quantity::Carry),
            measured: true,
            rising: rising(figures(0).chain(figures(1000)).collect()),
        };
        let spread = spread(&mean, 1000).unwrap();
        assert_eq!(spread.measure.key(), "carry_sd_yd");
        let values: Vec<f64> = spread.rising.iter().map(|(_, value)| *value).collect();
        let sd = Trimmed::of(&values).unwrap().mean;
        assert!((sd - 7.0).abs() < 0.02, "{sd}");
    }
}
