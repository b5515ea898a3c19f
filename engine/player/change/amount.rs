//! How much changes: `+4`, `-20%`, `half`, `= 5200`, `level 5`.

use std::fmt;
use std::ops::Range;

use super::figure::Figure;
use super::parse::ChangeFault;
use crate::player::Sex;
use crate::player::batch::quantity::Unit;
use crate::player::levels::{self, LevelError, TOUR_HANDICAP};

/// How much a figure changes. Numbers are in the trade's units of the figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Amount {
    /// So much more, or less.
    By(f64),
    /// So many percent more, or less; nothing is left at −100.
    Share(f64),
    /// To this value.
    To(f64),
    /// To that of golfers of a standard.
    Level(Standard),
}

/// The standard of golfers of a handicap index; plus handicaps are negative.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standard(pub f64);

/// What is written for half and for double.
const HALF_PCT: f64 = -50.0;
const DOUBLE_PCT: f64 = 100.0;

impl Amount {
    /// The figure after the change; `level` is that of the standard, where one is named.
    pub(super) fn after(self, before: f64, level: f64) -> f64 {
        match self {
            Self::By(step) => before + step,
            Self::Share(pct) => before * (1.0 + pct / 100.0),
            Self::To(value) => value,
            Self::Level(_) => level,
        }
    }

    /// The standard it names.
    pub(super) const fn standard(self) -> Option<Standard> {
        match self {
            Self::Level(standard) => Some(standard),
            _ => None,
        }
    }

    /// Reads an amount; `span` is where it stands.
    pub(super) fn read(
        text: &str,
        figure: Figure,
        span: Range<usize>,
    ) -> Result<Self, ChangeFault> {
        let plain = text.to_lowercase();
        // In the text itself: small letters may take more bytes than large ones.
        if let Some((word, level)) = text.split_at_checked("level".len())
            && word.eq_ignore_ascii_case("level")
        {
            return Standard::read(level.trim(), span).map(Self::Level);
        }
        let amount = match plain.chars().next() {
            _ if plain == "half" => Self::Share(HALF_PCT),
            _ if plain == "double" => Self::Share(DOUBLE_PCT),
            Some('=') => {
                let (value, unit) = number(text[1..].trim(), &span)?;
                Self::To(value * factor(unit, figure, true, &span)?)
            }
            Some('+') => step(text[1..].trim(), 1.0, figure, &span)?,
            Some('-') => step(text[1..].trim(), -1.0, figure, &span)?,
            Some(minus @ '−') => step(text[minus.len_utf8()..].trim(), -1.0, figure, &span)?,
            Some(c) if c.is_ascii_digit() || c == '.' => return Err(bare(text, span)),
            _ => return Err(no_amount(text, span)),
        };
        match amount {
            Self::By(_) | Self::To(_) if figure.is_many() => Err(several(figure, span)),
            Self::Share(pct) if pct < -100.0 => Err(ChangeFault::new(
                span,
                format!("`{text}` takes away more than there is"),
                "write at most `-100%`, which leaves nothing",
            )),
            amount => Ok(amount),
        }
    }
}

/// A step or a share, with its sign read already.
fn step(text: &str, sign: f64, figure: Figure, span: &Range<usize>) -> Result<Amount, ChangeFault> {
    let (value, unit) = number(text, span)?;
    if unit == "%" {
        return Ok(Amount::Share(sign * value));
    }
    Ok(Amount::By(
        sign * value * factor(unit, figure, false, span)?,
    ))
}

/// A plain number and what stands after it.
pub(super) fn number<'a>(
    text: &'a str,
    span: &Range<usize>,
) -> Result<(f64, &'a str), ChangeFault> {
    let is_sign = |(index, c): (usize, char)| index == 0 && matches!(c, '-' | '+');
    let end = text
        .char_indices()
        .find(|&(index, c)| !(c.is_ascii_digit() || c == '.' || is_sign((index, c))))
        .map_or(text.len(), |(index, _)| index);
    let (digits, unit) = text.split_at(end);
    let decimal_comma = unit.starts_with(',');
    let value = digits
        .parse::<f64>()
        .ok()
        .filter(|value| value.is_finite() && !decimal_comma);
    let hint = if decimal_comma {
        "write decimals after a point, as `2.5`"
    } else {
        "write a plain number, as `4` or `2.5`"
    };
    match value {
        Some(value) => Ok((value, unit.trim())),
        None => Err(ChangeFault::new(
            span.clone(),
            if text.is_empty() {
                "there is no number here".to_owned()
            } else {
                format!("`{text}` is no number")
            },
            hint,
        )),
    }
}

/// What a unit makes of a number in the trade's own.
pub(super) fn factor(
    unit: &str,
    figure: Figure,
    is_whole: bool,
    span: &Range<usize>,
) -> Result<f64, ChangeFault> {
    if unit.is_empty() {
        return Ok(1.0);
    }
    let Some(kind) = figure.kind() else {
        // Several figures at once take shares only, which is told later.
        let fits = unit == "%" && is_whole || unit == "points" && !is_whole;
        return if fits || figure.is_many() {
            Ok(1.0)
        } else {
            Err(ChangeFault::new(
                span.clone(),
                format!("`{unit}` is no unit of mishits, which are percent of the shots"),
                "write `= 5%`, `-2 points`, `-20%` of what there are, or `half`",
            ))
        };
    };
    let known = Unit::named(unit).filter(|known| known.kind == kind);
    known.map(|unit| unit.factor).ok_or_else(|| {
        ChangeFault::new(
            span.clone(),
            format!("`{unit}` is no unit of {}", figure.words()),
            &format!(
                "leave the unit out for {}, or write one of {}",
                kind.trade().word(),
                kind.units().join(", ")
            ),
        )
    })
}

fn bare(text: &str, span: Range<usize>) -> ChangeFault {
    ChangeFault::new(
        span,
        format!("`{text}` may be a step or a new value"),
        &format!("write `+{text}` for so much more, `= {text}` for so much in all"),
    )
}

fn no_amount(text: &str, span: Range<usize>) -> ChangeFault {
    ChangeFault::new(
        span,
        format!("`{text}` is no amount"),
        "write `+4`, `-20%`, `half`, `double`, `= 12` or `level 5`",
    )
}

fn several(figure: Figure, span: Range<usize>) -> ChangeFault {
    ChangeFault::new(
        span,
        format!("`{figure}` stands for several figures, which change by a share"),
        "write `-20%`, `half` or `level 5`",
    )
}

impl Standard {
    /// Reads a handicap index, or the name of a level.
    pub(super) fn read(text: &str, span: Range<usize>) -> Result<Self, ChangeFault> {
        let hint = "write a handicap index from -6 (a plus handicap is negative) to 54, as `level 5`, or `level scratch` or `level tour`";
        match levels::named(text, Sex::Men) {
            Ok(level) => Ok(Self(level.handicap)),
            Err(LevelError::OutOfRange(_)) => Err(ChangeFault::new(
                span,
                format!("there is no level {text}"),
                hint,
            )),
            Err(_) if text.is_empty() => Err(ChangeFault::new(
                span,
                "`level` of which handicap?".to_owned(),
                hint,
            )),
            Err(_) => Err(ChangeFault::new(
                span,
                format!("`{text}` is no handicap index"),
                hint,
            )),
        }
    }
}

impl fmt::Display for Standard {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            TOUR_HANDICAP => f.write_str("tour"),
            0.0 => f.write_str("scratch"),
            handicap => write!(f, "{handicap}"),
        }
    }
}

impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::By(step) => write!(f, "{step:+}"),
            Self::Share(HALF_PCT) => f.write_str("half"),
            Self::Share(DOUBLE_PCT) => f.write_str("double"),
            Self::Share(pct) => write!(f, "{pct:+}%"),
            Self::To(value) => write!(f, "= {value}"),
            Self::Level(standard) => write!(f, "level {standard}"),
        }
    }
}
