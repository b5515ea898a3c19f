//! What is known of one shot.

use super::quantity::{COUNT, Quantity};
use crate::player::delivery::Delivered;

/// What is known of one shot: each quantity measured, derived from others, or not known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figures {
    values: [f64; COUNT],
    measured: u32,
    derived: u32,
}

impl Default for Figures {
    fn default() -> Self {
        Self {
            values: [0.0; COUNT],
            measured: 0,
            derived: 0,
        }
    }
}

const fn bit(quantity: Quantity) -> u32 {
    1 << quantity as u32
}

impl Figures {
    /// The value, measured or derived, in the trade's unit.
    #[must_use]
    pub fn get(&self, quantity: Quantity) -> Option<f64> {
        let known = (self.measured | self.derived) & bit(quantity) != 0;
        known.then_some(self.values[quantity as usize])
    }

    /// The value, if it was measured.
    #[must_use]
    pub fn measured(&self, quantity: Quantity) -> Option<f64> {
        (self.measured & bit(quantity) != 0).then_some(self.values[quantity as usize])
    }

    /// Whether the value was derived from others.
    #[must_use]
    pub fn is_derived(&self, quantity: Quantity) -> bool {
        self.derived & bit(quantity) != 0
    }

    /// Sets a measured value.
    pub fn measure(&mut self, quantity: Quantity, value: f64) {
        self.values[quantity as usize] = value;
        self.measured |= bit(quantity);
        self.derived &= !bit(quantity);
    }

    /// Sets a derived value.
    pub fn derive(&mut self, quantity: Quantity, value: f64) {
        self.values[quantity as usize] = value;
        self.derived |= bit(quantity);
        self.measured &= !bit(quantity);
    }

    /// Forgets a value: a device's zero for what it did not see.
    pub fn forget(&mut self, quantity: Quantity) {
        self.measured &= !bit(quantity);
        self.derived &= !bit(quantity);
    }

    /// Backspin and sidespin from spin and its axis, where only these were measured; from spin alone the backspin,
    /// which it hardly differs from.
    pub(super) fn split_spin(&mut self) {
        use Quantity::{Backspin, Sidespin, Spin, SpinAxis};
        let Some(spin) = self.measured(Spin) else {
            return;
        };
        if let Some(axis) = self.measured(SpinAxis) {
            let (sin, cos) = axis.to_radians().sin_cos();
            if self.measured(Backspin).is_none() {
                self.measure(Backspin, spin * cos);
            }
            if self.measured(Sidespin).is_none() {
                self.measure(Sidespin, spin * sin);
            }
        } else if self.measured(Backspin).is_none() {
            let side = self.measured(Sidespin).unwrap_or(0.0);
            self.derive(Backspin, (spin.powi(2) - side.powi(2)).max(0.0).sqrt());
        }
    }

    /// What was measured of the club.
    #[must_use]
    pub fn delivered(&self) -> Delivered {
        Delivered {
            club_speed_mph: self.measured(Quantity::ClubSpeed),
            attack_deg: self.measured(Quantity::Attack),
            path_deg: self.measured(Quantity::Path),
            face_deg: self.measured(Quantity::Face),
            dynamic_loft_deg: self.measured(Quantity::DynamicLoft),
            lie_deg: self.measured(Quantity::Lie),
        }
    }

    /// The shot as a mirror shows it.
    #[must_use]
    pub fn mirrored(mut self) -> Self {
        for quantity in Quantity::ALL {
            if quantity.is_lateral() {
                self.values[quantity as usize] = -self.values[quantity as usize];
            }
        }
        self
    }

    /// The measured values in order, for telling repeated rows.
    pub(super) fn measured_values(&self) -> impl Iterator<Item = f64> + '_ {
        Quantity::ALL
            .into_iter()
            .filter_map(|quantity| self.measured(quantity))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spin_and_axis_are_split_and_turned_by_a_mirror() {
        let mut figures = Figures::default();
        figures.measure(Quantity::Spin, 5000.0);
        figures.measure(Quantity::SpinAxis, 30.0);
        figures.split_spin();
        let rounded = |figures: Figures, quantity| figures.get(quantity).map(f64::round);
        assert_eq!(rounded(figures, Quantity::Backspin), Some(4330.0));
        assert_eq!(rounded(figures, Quantity::Sidespin), Some(2500.0));
        assert_eq!(
            rounded(figures.mirrored(), Quantity::Sidespin),
            Some(-2500.0)
        );
        assert_eq!(
            rounded(figures.mirrored(), Quantity::Backspin),
            Some(4330.0)
        );
    }

    #[test]
    fn a_value_is_measured_or_derived_or_unknown() {
        let mut figures = Figures::default();
        figures.derive(Quantity::Carry, 150.0);
        assert_eq!(figures.measured(Quantity::Carry), None);
        assert!(figures.is_derived(Quantity::Carry));
        figures.measure(Quantity::Carry, 151.0);
        assert_eq!(figures.measured(Quantity::Carry), Some(151.0));
        figures.forget(Quantity::Carry);
        assert_eq!(figures.get(Quantity::Carry), None);
    }
}
