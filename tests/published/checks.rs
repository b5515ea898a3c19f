//! What a published check found: each figure beside what was published of it.
//!
//! A test gathers its figures in a [`Check`] and holds them to `CHECKS.md` (see [`super::table`]).

use std::ops::RangeInclusive;

/// What a figure may be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Allowed {
    /// So far from what was published.
    Within { published: f64, tolerance: f64 },
    /// In a published range, its ends included.
    Between(f64, f64),
    /// No more than this.
    AtMost(f64),
    /// No less than this.
    AtLeast(f64),
}

impl Allowed {
    pub fn holds(self, measured: f64) -> bool {
        match self {
            Self::Within {
                published,
                tolerance,
            } => (measured - published).abs() <= tolerance,
            Self::Between(low, high) => (low..=high).contains(&measured),
            Self::AtMost(most) => measured <= most,
            Self::AtLeast(least) => measured >= least,
        }
    }

    /// How much of what is allowed was used up; more than 1 is too much.
    pub fn used(self, measured: f64) -> f64 {
        let share = |off: f64, of: f64| if off == 0.0 { 0.0 } else { off / of };
        match self {
            Self::Within {
                published,
                tolerance,
            } => share((measured - published).abs(), tolerance),
            Self::Between(low, high) => {
                let middle = f64::midpoint(low, high);
                share((measured - middle).abs(), high - middle)
            }
            Self::AtMost(most) => share(measured, most),
            Self::AtLeast(least) => share(least, measured),
        }
    }

    /// How wide it is, for the digits that tell something.
    fn width(self) -> f64 {
        match self {
            Self::Within { tolerance, .. } => tolerance,
            Self::Between(low, high) => (high - low) / 2.0,
            Self::AtMost(limit) | Self::AtLeast(limit) => limit.abs(),
        }
    }
}

/// One figure.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    pub name: String,
    pub unit: String,
    pub allowed: Allowed,
    pub measured: f64,
    /// A constant was set by this figure, or in view of it: that it agrees is no evidence.
    pub fitted: bool,
}

impl Row {
    /// Marks it as one that set a constant, or was looked at when one was chosen.
    pub fn fitted_if(&mut self, fitted: bool) {
        self.fitted = fitted;
    }

    pub fn holds(&self) -> bool {
        self.allowed.holds(self.measured)
    }

    /// Decimals that tell something: a twentieth of what is allowed.
    pub fn digits(&self) -> usize {
        let step = self.allowed.width() / 20.0;
        if step > 0.0 {
            (-step.log10() - 0.01).ceil().clamp(0.0, 6.0) as usize
        } else {
            1
        }
    }
}

/// Figures of one source, checked by one test.
#[derive(Debug, Clone, PartialEq)]
pub struct Check {
    /// The test file, without its ending.
    pub subject: String,
    pub title: String,
    pub source: String,
    pub rows: Vec<Row>,
}

impl Check {
    /// A check of the test file that calls this with `module_path!()`. Titles are told apart by their words.
    pub fn new(module: &str, title: &str, source: &str) -> Self {
        let subject = module.rsplit("::").next().unwrap_or(module);
        Self {
            subject: subject.to_owned(),
            title: title.to_owned(),
            source: source.to_owned(),
            rows: Vec::new(),
        }
    }

    fn add(&mut self, name: &str, unit: &str, allowed: Allowed, measured: f64) -> &mut Row {
        self.rows.push(Row {
            name: name.to_owned(),
            unit: unit.to_owned(),
            allowed,
            measured,
            fitted: false,
        });
        let last = self.rows.len() - 1;
        &mut self.rows[last]
    }

    /// A figure that must come so near to the published one.
    pub fn within(
        &mut self,
        name: &str,
        unit: &str,
        (published, tolerance): (f64, f64),
        measured: f64,
    ) -> &mut Row {
        let allowed = Allowed::Within {
            published,
            tolerance,
        };
        self.add(name, unit, allowed, measured)
    }

    /// A figure that must lie in a range.
    pub fn between(
        &mut self,
        name: &str,
        unit: &str,
        range: RangeInclusive<f64>,
        measured: f64,
    ) -> &mut Row {
        let allowed = Allowed::Between(*range.start(), *range.end());
        self.add(name, unit, allowed, measured)
    }

    /// A figure that must not be greater.
    pub fn at_most(&mut self, name: &str, unit: &str, most: f64, measured: f64) -> &mut Row {
        self.add(name, unit, Allowed::AtMost(most), measured)
    }

    /// A figure that must not be smaller.
    pub fn at_least(&mut self, name: &str, unit: &str, least: f64, measured: f64) -> &mut Row {
        self.add(name, unit, Allowed::AtLeast(least), measured)
    }

    /// Stops the test if a figure is off.
    pub fn hold(&self) {
        self.hold_where(|_| true);
    }

    /// Stops the test if one of these figures is off.
    pub fn hold_where(&self, which: impl Fn(&Row) -> bool) {
        let (chosen, title) = (self.rows.iter().filter(|row| which(row)), &self.title);
        assert!(chosen.clone().next().is_some(), "{title}: no such figure");
        let off: Vec<&Row> = chosen.filter(|row| !row.holds()).collect();
        assert!(off.is_empty(), "{}: {off:#?}", self.title);
    }
}
