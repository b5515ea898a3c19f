//! Places on a hole in the small numbers the inner loops use: yards, single precision.

/// A point or a displacement on a hole, yards: x right, y along the line of play.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Xy {
    /// Right, yards.
    pub x: f32,
    /// Along, yards.
    pub y: f32,
}

impl Xy {
    /// From its two coordinates, yards.
    #[must_use]
    pub const fn new(x: f32, y: f32) -> Self {
        Self { x, y }
    }

    /// Length, yards.
    #[must_use]
    pub fn length(self) -> f32 {
        (self.x * self.x + self.y * self.y).sqrt()
    }

    /// The displacement from `origin` to here.
    #[must_use]
    pub fn seen_from(self, origin: Self) -> Self {
        Self::new(self.x - origin.x, self.y - origin.y)
    }

    /// This place moved by `share` of `step`.
    #[must_use]
    pub fn moved(self, step: Self, share: f32) -> Self {
        Self::new(self.x + step.x * share, self.y + step.y * share)
    }

    /// Unit vector of this direction; straight along the line where there is none.
    #[must_use]
    pub fn unit(self) -> Self {
        let length = self.length();
        if length > 0.0 {
            Self::new(self.x / length, self.y / length)
        } else {
            Self::new(0.0, 1.0)
        }
    }

    /// A displacement given in the frame that looks along the unit vector `ahead`, in the hole's frame.
    #[must_use]
    pub fn turned(self, ahead: Self) -> Self {
        Self::new(
            self.y * ahead.x + self.x * ahead.y,
            self.y * ahead.y - self.x * ahead.x,
        )
    }
}

impl From<crate::course::Point> for Xy {
    fn from(point: crate::course::Point) -> Self {
        Self::new(point.x_yd as f32, point.y_yd as f32)
    }
}

impl From<Xy> for crate::course::Point {
    fn from(at: Xy) -> Self {
        Self {
            x_yd: f64::from(at.x),
            y_yd: f64::from(at.y),
        }
    }
}

/// Yards to feet.
pub const FEET: f32 = 3.0;
