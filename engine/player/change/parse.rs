//! Reading a change: every fault points at the words at fault and says what to write instead.

use std::ops::Range;

use super::Change;
use super::add;
use super::amount::{Amount, Standard};
use super::figure::Figure;
use super::who::Who;
use crate::files::{Fault, Source, as_key, listed, nearest};
use crate::player::club::{Class, Club};

/// What is wrong with the text of a change, where, and what to write instead.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{message}\nhint: {hint}")]
pub struct ChangeFault {
    /// Bytes of the text at fault.
    pub span: Range<usize>,
    /// What is wrong, quoting what was written.
    pub message: String,
    /// What to write instead.
    pub hint: String,
}

impl ChangeFault {
    pub(super) fn new(span: Range<usize>, message: String, hint: &str) -> Self {
        Self {
            span,
            message,
            hint: hint.to_owned(),
        }
    }

    /// The fault in a larger text, in which the change begins at byte `start`.
    #[must_use]
    pub fn within(self, source: &Source, start: usize) -> Fault {
        Fault {
            source: source.clone(),
            span: Some(self.span.start + start..self.span.end + start),
            message: self.message,
            hint: Some(self.hint),
        }
    }
}

/// The words of a text, by where they stand.
pub(super) struct Words<'a> {
    pub(super) text: &'a str,
    pub(super) spans: Vec<Range<usize>>,
}

impl<'a> Words<'a> {
    fn of(text: &'a str) -> Self {
        let mut spans: Vec<Range<usize>> = Vec::new();
        for (index, c) in text.char_indices() {
            match spans.last_mut() {
                _ if c.is_whitespace() => {}
                Some(last) if last.end == index => last.end = index + c.len_utf8(),
                _ => spans.push(index..index + c.len_utf8()),
            }
        }
        Self { text, spans }
    }

    /// Some of the words with what stands between them, and where that is.
    pub(super) fn slice(&self, words: Range<usize>) -> (&'a str, Range<usize>) {
        let start = self
            .spans
            .get(words.start)
            .map_or(self.text.len(), |s| s.start);
        let last = words.end.checked_sub(1).filter(|last| *last >= words.start);
        let end = last
            .and_then(|last| self.spans.get(last))
            .map_or(start, |s| s.end);
        (&self.text[start..end], start..end)
    }

    pub(super) fn word(&self, index: usize) -> &'a str {
        self.slice(index..index + 1).0
    }

    pub(super) fn len(&self) -> usize {
        self.spans.len()
    }

    /// The longest run of words from one on that `named` knows, and how many words it is.
    pub(super) fn longest<T>(
        &self,
        from: usize,
        named: impl Fn(&str) -> Option<T>,
    ) -> Option<(T, usize)> {
        (from + 1..=self.len())
            .rev()
            .find_map(|end| Some((named(self.slice(from..end).0)?, end - from)))
    }

    /// How many words from one on look like a name: up to what looks like an amount.
    pub(super) fn name_length(&self, from: usize) -> usize {
        let is_amount = |word: &str| {
            word.starts_with(['+', '-', '−', '=']) || word.starts_with(|c: char| c.is_ascii_digit())
        };
        let end = (from + 1..self.len())
            .find(|index| is_amount(self.word(*index)))
            .unwrap_or(self.len());
        end - from
    }
}

/// The figure whose name some words are, joined in any way.
pub(super) fn figure_named(words: &str) -> Option<Figure> {
    let joined: Vec<String> = words
        .split(|c: char| c.is_whitespace() || matches!(c, '-' | '_'))
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect();
    Figure::named(&joined.join("_"))
}

/// The longest change, letters: far longer than any that has a meaning.
const LONGEST: usize = 500;

pub(super) fn change(text: &str) -> Result<Change, ChangeFault> {
    let words = Words::of(text);
    if words.len() == 0 {
        return Err(ChangeFault::new(
            0..text.len(),
            "this is no change: nothing is written".to_owned(),
            "write who, what and how much, as `irons dynamic_loft +4`",
        ));
    }
    if text.len() > LONGEST {
        return Err(ChangeFault::new(
            0..text.len(),
            format!("this is no change: it is longer than {LONGEST} letters"),
            "write one change at a time, as `irons dynamic_loft +4`",
        ));
    }
    if words.word(0).eq_ignore_ascii_case("add") {
        return add::read(&words).map(Change::Add);
    }
    let Some((who, used)) = words.longest(0, Who::named) else {
        return Err(nobody(&words));
    };
    let next = words.word(used).to_lowercase();
    let rest = words.slice(used + 1..words.len());
    match next.as_str() {
        "" => Err(nothing_said(&words, &who)),
        "off" if rest.0.is_empty() => off(who, words.slice(0..used).1),
        "off" => Err(ChangeFault::new(
            rest.1,
            format!("`{}` has no meaning after `off`", rest.0),
            "write one change at a time",
        )),
        "level" => Ok(Change::Level(
            who,
            level(rest, words.slice(used..used + 1).1)?,
        )),
        _ => figure(&words, who, used),
    }
}

/// A standard after the word `level`, which stands at `word`.
fn level((text, span): (&str, Range<usize>), word: Range<usize>) -> Result<Standard, ChangeFault> {
    let span = if text.is_empty() { word } else { span };
    Standard::read(text, span)
}

fn off(who: Who, span: Range<usize>) -> Result<Change, ChangeFault> {
    match who {
        Who::Clubs(clubs) => Ok(Change::Off(clubs)),
        other => Err(ChangeFault::new(
            span,
            format!("`{other}` cannot be left at home: only clubs can"),
            "write `driver off`, or a standard, as `putting level 5`",
        )),
    }
}

fn figure(words: &Words<'_>, who: Who, from: usize) -> Result<Change, ChangeFault> {
    let Some((figure, used)) = words.longest(from, figure_named) else {
        return Err(no_figure(words, &who, from));
    };
    let (name, span) = words.slice(from..from + used);
    if !figure.fits(&who) {
        return Err(ChangeFault::new(
            span,
            format!("there is no `{name}` of {}", who.kind()),
            &figures_of(&who),
        ));
    }
    let (amount, amount_span) = words.slice(from + used..words.len());
    if amount.is_empty() {
        return Err(ChangeFault::new(
            span,
            format!("by how much is `{name}` to change?"),
            &format!("add an amount: {}", examples(figure)),
        ));
    }
    let amount = Amount::read(amount, figure, amount_span)?;
    Ok(Change::Figure(who, figure, amount))
}

/// Amounts that fit a figure.
fn examples(figure: Figure) -> &'static str {
    if figure.is_many() {
        "`-20%`, `half` or `level 5`"
    } else {
        "`+2`, `-20%`, `half`, `= 12` or `level 5`"
    }
}

fn figures_of(who: &Who) -> String {
    let names = Figure::names_of(who);
    format!(
        "what can change of {}: {}",
        who.kind(),
        listed(&names, "and")
    )
}

fn no_figure(words: &Words<'_>, who: &Who, from: usize) -> ChangeFault {
    let (text, span) = words.slice(from..from + words.name_length(from));
    if let (Who::Clubs(clubs), true) = (who, RESULTS.contains(&text.to_lowercase().as_str())) {
        let after = from + words.name_length(from);
        let (amount, _) = words.slice(after..words.len());
        return no_result(text, span, who, yards_more(amount) / yards_per_mph(clubs));
    }
    let joined = as_key(text);
    let hint = match nearest(
        &joined,
        Figure::names_of(who).into_iter().chain(["off", "level"]),
    ) {
        Some(meant) => format!("did you mean `{meant}`?"),
        None => figures_of(who),
    };
    let message = format!("`{text}` is nothing of {} that can change", who.kind());
    ChangeFault::new(span, message, &hint)
}

/// What comes of a strike, and so cannot be changed by itself.
const RESULTS: [&str; 6] = [
    "carry",
    "distance",
    "carry distance",
    "total distance",
    "length",
    "yardage",
];

/// Carry is asked for: the ball speed that gives it is named instead.
fn no_result(text: &str, span: Range<usize>, who: &Who, mph: f64) -> ChangeFault {
    let speed = to_half(mph);
    ChangeFault::new(
        span,
        format!("`{text}` comes of the strike, and cannot be changed by itself"),
        &format!("say what gives it: about so much {text} comes of `{who} speed {speed:+}`"),
    )
}

/// Yards of an amount that is written as a step; ten, where none can be read.
fn yards_more(amount: &str) -> f64 {
    let plain = amount.replace('−', "-");
    let digits: String = plain
        .chars()
        .filter(|c| !c.is_whitespace())
        .take_while(|c| c.is_ascii_digit() || matches!(c, '+' | '-' | '.'))
        .collect();
    let yards = digits
        .parse::<f64>()
        .ok()
        .filter(|yards| yards.abs() <= 60.0);
    yards.filter(|yards| *yards != 0.0).unwrap_or(10.0)
}

/// To half a mile an hour, and never nothing.
fn to_half(mph: f64) -> f64 {
    let halves = (2.0 * mph).round() / 2.0;
    if halves == 0.0 {
        0.5_f64.copysign(mph)
    } else {
        halves
    }
}

/// Yards of carry that a mile an hour of ball speed gives with the longest of some clubs: those of golfers off 10, to a
/// fifth (flown; `tests/changes/apply.rs`).
fn yards_per_mph(clubs: &super::who::Clubs) -> f64 {
    let longest = Club::all().into_iter().find(|club| clubs.holds(*club));
    match longest.map(Club::class) {
        Some(Class::Wood) => 2.1,
        Some(Class::Hybrid) => 2.0,
        Some(Class::Iron) => 1.75,
        Some(Class::Wedge) | None => 1.65,
    }
}

fn nothing_said(words: &Words<'_>, who: &Who) -> ChangeFault {
    let (text, span) = words.slice(0..words.len());
    let example = match who {
        Who::Clubs(_) => "launch +1",
        _ => "level 5",
    };
    ChangeFault::new(
        span,
        format!("`{text}` does not say what is to change"),
        &format!(
            "add what and how much, as `{text} {example}`; {}",
            figures_of(who)
        ),
    )
}

/// The name of nobody: up to where a figure or an amount begins.
fn nobody(words: &Words<'_>) -> ChangeFault {
    let is_next = |index: &usize| {
        let known = words.longest(*index, figure_named).is_some();
        known || matches!(words.word(*index), "off" | "level")
    };
    let longest = words.name_length(0);
    let end = (1..longest).find(is_next).unwrap_or(longest);
    let (text, span) = words.slice(0..end);
    if text.eq_ignore_ascii_case("tee shots") {
        return ChangeFault::new(
            span,
            "`tee shots` are hit with clubs that are hit elsewhere too".to_owned(),
            "name the clubs, as `driver`",
        );
    }
    if matches!(words.word(0), "remove" | "without" | "drop") {
        let (verb, span) = words.slice(0..1);
        return ChangeFault::new(
            span,
            format!("a change begins with what is changed, not with `{verb}`"),
            "a club is left at home as `5 wood off`",
        );
    }
    let names = Who::names();
    let hint = match nearest(text, names.iter().map(String::as_str)) {
        Some(meant) => format!("did you mean `{meant}`?"),
        None => match text.parse::<Club>() {
            Err(unknown) if unknown.nearest.is_some() => unknown.hint().replace('"', "`"),
            _ => "write a club (`7 iron`), clubs (`irons`, `wedges`, `5-7 iron`, `all clubs`, `mid irons`), `short game`, `sand` or `putting`".to_owned(),
        },
    };
    ChangeFault::new(
        span,
        format!("`{text}` names no clubs and no part of the game"),
        &hint,
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn changes_are_read_back_from_how_they_are_written() {
        for text in [
            "irons dynamic_loft +4",
            "driver direction_spread -20%",
            "6 iron backspin +500",
            "driver off",
            "putting level 5",
            "wedges mishits half",
            "5-7 iron launch = 16.5",
            "short game distance_spread double",
            "sand mishits = 5",
            "all clubs ball_speed level scratch",
            "mid irons level tour",
            "3 wood to 5 iron face_angle -1.5",
            "add club 7 wood",
            "add club 7 wood ball_speed 128 launch 13 backspin 4200",
        ] {
            let read: Change = text
                .parse()
                .unwrap_or_else(|fault| panic!("{text}: {fault}"));
            assert_eq!(read.to_string(), text);
        }
    }

    #[test]
    fn spellings_and_units_of_one_change_are_the_same_change() {
        let read = |text: &str| text.parse::<Change>().map_err(|fault| fault.to_string());
        for (one, other) in [
            ("7i loft + 2 degrees", "7 iron dynamic_loft +2"),
            ("driver ball speed +10 km/h", "driver ball_speed +10km/h"),
            ("Driver OFF", "driver off"),
            ("putting LEVEL Scratch", "putting level 0"),
            ("wedges mishits -50%", "wedges mishits half"),
            ("sand mishits = 5%", "sand mishits = 5"),
            ("driver ball-speed_mph −3", "driver ball_speed -3"),
            (
                "add 7 wood speed 128mph launch 13°",
                "add club 7 wood launch 13 ball_speed 128",
            ),
        ] {
            assert_eq!(read(one), read(other));
            assert!(read(one).is_ok(), "{one}: {:?}", read(one));
        }
    }
}
