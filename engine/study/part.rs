//! A share of a study: the cells one machine works out.

use std::fmt;
use std::ops::Range;
use std::str::FromStr;

/// Part `number` of `of`, from 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StudyPart {
    number: u64,
    of: u64,
}

/// Why a text or the environment names no part.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{message}\nhint: {hint}")]
pub struct PartError {
    /// What is wrong.
    pub message: String,
    /// What to write instead.
    pub hint: String,
}

/// How many parts a Kubernetes indexed job has: its manifest says so, since the job does not.
pub const PARTS: &str = "COSTCARD_PARTS";

impl StudyPart {
    /// The whole study.
    pub const WHOLE: Self = Self { number: 1, of: 1 };

    /// A part by number, from 1.
    ///
    /// # Errors
    /// When it is none of them.
    pub fn new(number: u64, of: u64) -> Result<Self, PartError> {
        if (1..=of).contains(&number) {
            return Ok(Self { number, of });
        }
        Err(PartError {
            message: format!("there is no part {number} of {of}"),
            hint: "parts are counted from 1: `1/4` to `4/4`".to_owned(),
        })
    }

    /// Its number, from 1.
    #[must_use]
    pub const fn number(self) -> u64 {
        self.number
    }

    /// How many parts there are.
    #[must_use]
    pub const fn of_all(self) -> u64 {
        self.of
    }

    /// The part that a job array gives this process, with the name of what gives it: a Slurm array, or a Kubernetes
    /// indexed job. None where there is neither. `variable` looks the environment up.
    ///
    /// # Errors
    /// When the variables do not fit together.
    pub fn of_job(
        variable: impl Fn(&str) -> Option<String>,
    ) -> Result<Option<(Self, &'static str)>, PartError> {
        let number = |name: &str| {
            let text = variable(name).filter(|text| !text.trim().is_empty());
            let parsed = text.map(|text| text.trim().parse::<u64>().map_err(|_| (name, text)));
            parsed.transpose().map_err(|(name, text)| PartError {
                message: format!("the variable {name} is `{text}`, which is no number"),
                hint: "name the part by hand, as `--part 2/4`".to_owned(),
            })
        };
        if let Some(task) = number("SLURM_ARRAY_TASK_ID")? {
            let count = number("SLURM_ARRAY_TASK_COUNT")?.unwrap_or(1);
            let least = number("SLURM_ARRAY_TASK_MIN")?.unwrap_or(1);
            let step = number("SLURM_ARRAY_TASK_STEP")?.unwrap_or(1).max(1);
            let place = (task.saturating_sub(least) / step).saturating_add(1);
            return Self::new(place, count).map(|part| Some((part, "Slurm's job array")));
        }
        let Some(index) = number("JOB_COMPLETION_INDEX")? else {
            return Ok(None);
        };
        let Some(parts) = number(PARTS)? else {
            return Err(PartError {
                message: format!(
                    "this is index {index} of a Kubernetes job, but {PARTS} does not say of how many"
                ),
                hint: format!(
                    "set {PARTS} in the manifest to the number of `completions`, or name the part by hand, as \
                     `--part 2/4`"
                ),
            });
        };
        Self::new(index.saturating_add(1), parts)
            .map(|part| Some((part, "Kubernetes' indexed job")))
    }

    /// Its share of so many things, in runs: every thing belongs to one part, and no part has more than one more than
    /// another.
    pub(super) fn of(self, things: u64) -> Range<u64> {
        let end = |part: u64| {
            let share = u128::from(things) * u128::from(part) / u128::from(self.of);
            share as u64
        };
        end(self.number - 1)..end(self.number)
    }
}

impl fmt::Display for StudyPart {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}", self.number, self.of)
    }
}

impl FromStr for StudyPart {
    type Err = PartError;

    fn from_str(text: &str) -> Result<Self, PartError> {
        let numbers = text
            .split_once('/')
            .and_then(|(number, of)| Some((number.trim().parse().ok()?, of.trim().parse().ok()?)));
        let Some((number, of)) = numbers else {
            return Err(PartError {
                message: format!("`{text}` names no part"),
                hint: "write which part of how many, as `2/4`".to_owned(),
            });
        };
        Self::new(number, of)
    }
}
