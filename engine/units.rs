//! Quantities as types: SI inside, the trade's units at every edge.
//!
//! Each type holds one SI number and is made from, and read in, a named unit, so that no bare number
//! can be mistaken for another unit.
//!
//! ```
//! use costcard::units::{Length, Speed};
//! assert_eq!(Length::from_yd(100.0).m(), 91.44);
//! assert!((Speed::from_mph(100.0).mps() - 44.704).abs() < 1e-12);
//! ```

use std::f64::consts::PI;

/// Defines one quantity: a wrapper of its SI value, with a constructor and a reader per unit.
macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident { $($(#[$unit_doc:meta])* $from:ident, $read:ident = $factor:expr;)+ }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(f64);

        impl $name {
            /// Nothing of it.
            pub const ZERO: Self = Self(0.0);
            $(
                $(#[$unit_doc])*
                #[must_use]
                pub const fn $from(value: f64) -> Self {
                    Self(value * ($factor))
                }

                $(#[$unit_doc])*
                #[must_use]
                pub const fn $read(self) -> f64 {
                    self.0 / ($factor)
                }
            )+
        }

        impl std::ops::Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl std::ops::Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl std::ops::Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }

        impl std::ops::Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }
    };
}

quantity! {
    /// A length.
    Length {
        /// In metres.
        from_m, m = 1.0;
        /// In yards of 0.9144 m.
        from_yd, yd = 0.9144;
        /// In feet of 0.3048 m.
        from_ft, ft = 0.3048;
        /// In inches of 25.4 mm.
        from_inch, inch = 0.0254;
    }
}

quantity! {
    /// A speed.
    Speed {
        /// In metres a second.
        from_mps, mps = 1.0;
        /// In statute miles an hour.
        from_mph, mph = 0.44704;
        /// In feet a second.
        from_fps, fps = 0.3048;
    }
}

quantity! {
    /// An angle. Directions are positive to the right of the target.
    Angle {
        /// In radians.
        from_rad, rad = 1.0;
        /// In degrees.
        from_deg, deg = PI / 180.0;
    }
}

quantity! {
    /// A rate of spin. Backspin is positive; sidespin is positive when it curves the ball to the right.
    Spin {
        /// In radians a second.
        from_rad_s, rad_s = 1.0;
        /// In revolutions a minute.
        from_rpm, rpm = PI / 30.0;
    }
}

/// A temperature, held in kelvin.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Temperature(f64);

impl Temperature {
    /// In degrees Fahrenheit.
    #[must_use]
    pub const fn from_f(value: f64) -> Self {
        Self((value - 32.0) / 1.8 + 273.15)
    }

    /// In degrees Fahrenheit.
    #[must_use]
    pub const fn f(self) -> f64 {
        (self.0 - 273.15) * 1.8 + 32.0
    }

    /// In degrees Celsius.
    #[must_use]
    pub const fn c(self) -> f64 {
        self.0 - 273.15
    }

    /// In kelvin.
    #[must_use]
    pub const fn k(self) -> f64 {
        self.0
    }
}
