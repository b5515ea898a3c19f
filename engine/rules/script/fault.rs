//! Rhai's errors as faults of a file: the place in the text, what is wrong in plain words, and what to write instead.

use std::ops::Range;

use rhai::{EvalAltResult, LexError, ParseError, ParseErrorType, Position};

use super::fields::{FUNCTIONS, THINGS};
use super::objects::MISUSED;
use super::words::OddWord;
use super::{Function, Script, code};
use crate::files::{Fault, Faults, Source, listed, nearest};

/// A message and a hint.
type Told = (String, Option<String>);

/// The fault of a text that is no Rhai.
pub(super) fn of_parsing(source: &Source, error: &ParseError) -> Faults {
    let (message, hint) = parsing_told(error.err_type());
    Fault {
        source: source.clone(),
        // An error at the end of the text has no position.
        span: Some(span(source, error.position()).unwrap_or_else(|| end(source))),
        message,
        hint,
    }
    .into()
}

/// The fault of a division of whole numbers that leaves something over.
pub(super) fn of_whole_division(source: &Source, place: Range<usize>) -> Faults {
    let written = source.text.get(place.clone()).unwrap_or_default();
    Fault {
        source: source.clone(),
        message: format!("`{written}` divides whole numbers: what is left over would be lost"),
        hint: Some(format!("write `{written}.0`")),
        span: Some(place),
    }
    .into()
}

/// The fault of a word that what it is compared with never is.
pub(super) fn of_odd_word(source: &Source, odd: OddWord) -> Faults {
    let OddWord {
        place,
        field,
        known,
    } = odd;
    let written = source.text.get(place.clone()).unwrap_or_default();
    let hint = match nearest(written.trim_matches('"').trim(), known.iter().copied()) {
        Some(meant) => format!("did you mean `\"{meant}\"`?"),
        None => format!("it is {}", listed(&known, "or")),
    };
    Fault {
        source: source.clone(),
        message: format!("`{field}` is never `{written}`"),
        hint: Some(hint),
        span: Some(place),
    }
    .into()
}

/// The fault of a script that failed while it ran, or while a function was asked about something; `within` finds the loop
/// or function it was in.
pub(super) fn of_running(
    script: &Script,
    asked: Option<(Function, &dyn Fn() -> String)>,
    error: &EvalAltResult,
    within: impl FnOnce() -> Option<Range<usize>>,
) -> Faults {
    let source = &script.source;
    let (inner, position) = innermost(error);
    let (mut message, hint) = running_told(inner);
    // What a script throws hangs on what it was asked about.
    if let (EvalAltResult::ErrorRuntime(thrown, _), Some((_, about))) = (inner, asked)
        && thrown.tag() != MISUSED
    {
        message += &format!(", for {}", about());
    }
    // Errors of limits lose their place on the way out: the loop or function the script was in is found another way.
    let place = span(source, position)
        .or_else(within)
        .or_else(|| asked.and_then(|(function, _)| name_of(source, function.name())));
    Fault {
        source: source.clone(),
        span: place,
        message,
        hint,
    }
    .into()
}

/// The error within calls of functions, and the nearest place known for it.
fn innermost(error: &EvalAltResult) -> (&EvalAltResult, Position) {
    let mut found = (error, error.position());
    while let EvalAltResult::ErrorInFunctionCall(_, _, inner, _) = found.0 {
        let position = inner.position();
        found = (
            inner,
            if position.is_none() {
                found.1
            } else {
                position
            },
        );
    }
    found
}

fn parsing_told(error: &ParseErrorType) -> Told {
    match error {
        ParseErrorType::UnexpectedEOF => (
            "the script ends too early".to_owned(),
            Some("look for a bracket or a quote that is not closed".to_owned()),
        ),
        ParseErrorType::VariableUndefined(name) => unknown_name(name),
        ParseErrorType::MissingToken(token, _) if token == "}" => (
            "a `{` is not closed".to_owned(),
            Some("write the `}` where what it begins is to end".to_owned()),
        ),
        ParseErrorType::MissingToken(token, what) => (
            format!("`{token}` is missing {what}"),
            Some("look at the end of what stands before this".to_owned()),
        ),
        ParseErrorType::ExprTooDeep => (
            "this is nested too deeply".to_owned(),
            Some("take it apart with `let`".to_owned()),
        ),
        ParseErrorType::Reserved(word) => cannot_be_used(word),
        ParseErrorType::BadInput(LexError::ImproperSymbol(word, _)) if word == "eval" => {
            cannot_be_used(word)
        }
        ParseErrorType::BadInput(LexError::ImproperSymbol(sign, _)) if sign == "=" => (
            "`=` gives a value to a name, and compares nothing".to_owned(),
            Some("write `==` to compare".to_owned()),
        ),
        ParseErrorType::BadInput(error) => (lowered(&error.to_string()), None),
        other => (lowered(&other.to_string()), None),
    }
}

fn cannot_be_used(word: &str) -> Told {
    (
        format!("`{word}` cannot be used in a rule"),
        Some("a rule has no files, no clock and no other scripts".to_owned()),
    )
}

fn running_told(error: &EvalAltResult) -> Told {
    match error {
        EvalAltResult::ErrorDotExpr(text, _) => unknown_field(text),
        EvalAltResult::ErrorFunctionNotFound(signature, _) => unknown_function(signature),
        EvalAltResult::ErrorVariableNotFound(name, _) => unknown_name(name),
        EvalAltResult::ErrorPropertyNotFound(name, _) => (
            format!("the map has no `{name}`"),
            Some("write it into the map first".to_owned()),
        ),
        EvalAltResult::ErrorTooManyOperations(_) => (
            "the script took more than 20 000 steps for one answer: it was stopped".to_owned(),
            Some("look for a loop that does not come to its end, or do less in it".to_owned()),
        ),
        EvalAltResult::ErrorStackOverflow(_) => (
            "functions call each other too deeply: the script was stopped".to_owned(),
            Some("look for a function that calls itself".to_owned()),
        ),
        EvalAltResult::ErrorTooManyVariables(_) => {
            ("there are too many names at once".to_owned(), None)
        }
        EvalAltResult::ErrorDataTooLarge(what, _) => (
            format!("too large: {}", lowered(what)),
            Some("a text has at most 1000 characters, a list or a map 1000 entries".to_owned()),
        ),
        EvalAltResult::ErrorRuntime(value, _) => {
            let said = value.to_string();
            let message = match said.trim() {
                "" => "the script stopped itself with `throw`",
                said => said,
            };
            (message.to_owned(), None)
        }
        EvalAltResult::ErrorMismatchDataType(wanted, got, _)
        | EvalAltResult::ErrorMismatchOutputType(wanted, got, _) => (
            format!("{} is needed here, not {}", kind(wanted), kind(got)),
            None,
        ),
        other => (lowered(&without_place(other)), None),
    }
}

/// `Unknown property 'spede_mph' - a getter is not registered for type 'landing'`, in plain words.
fn unknown_field(text: &str) -> Told {
    let mut quoted = text.split('\'').skip(1).step_by(2);
    let (Some(field), Some(thing)) = (quoted.next(), quoted.next()) else {
        return (lowered(text), None);
    };
    let is_set = text.contains("setter");
    let Some((thing, fields)) = THINGS.iter().find(|(name, _)| *name == thing) else {
        return (format!("{} has no fields: `{field}`", kind(thing)), None);
    };
    if fields.contains(&field) && is_set {
        return (
            format!("`{field}` of a {thing} cannot be changed"),
            Some("a script only reads what it is given".to_owned()),
        );
    }
    let hint = match nearest(field, fields.iter().copied()) {
        Some(meant) => format!(
            "did you mean `{meant}`? The fields are {}",
            listed(fields, "and")
        ),
        None => format!("the fields are {}", listed(fields, "and")),
    };
    (format!("a {thing} has no field `{field}`"), Some(hint))
}

/// `usual_rum (landing, green)`, or `+ (landing, i64)`, in plain words.
fn unknown_function(signature: &str) -> Told {
    let (name, given) = signature.split_once('(').unwrap_or((signature, ""));
    let name = name.trim();
    let given: Vec<&str> = given
        .trim_end_matches(')')
        .split(',')
        .map(|given| kind(given.trim()))
        .filter(|given| !given.is_empty())
        .collect();
    let is_word = name.starts_with(|c: char| c.is_alphabetic() || c == '_');
    if !is_word {
        let message = format!("`{name}` does not work on {}", given.join(" and "));
        let hint = given.contains(&RUN_KIND).then(|| {
            "a run is compared and reckoned with by its fields: `usual_run(landing, green).run_yd`".to_owned()
        });
        return (message, hint);
    }
    let with = match given.len() {
        0 => String::new(),
        _ => format!(" of {}", given.join(" and ")),
    };
    let hint = match nearest(name, FUNCTIONS) {
        Some("usual_run") => {
            "write `usual_run(landing, green)`, or `usual_run(landing, green, firmness, stimp_ft)`"
                .to_owned()
        }
        Some(_) => "write `usual_lie_effect(lie, club)`".to_owned(),
        None => format!(
            "a rule's own functions are {}; the rest are those of the language",
            listed(&FUNCTIONS, "and")
        ),
    };
    (format!("there is no function `{name}`{with}"), Some(hint))
}

fn unknown_name(name: &str) -> Told {
    let words = ["landing", "green", "lie", "club", "part", "shot"];
    let hint = match nearest(name, words) {
        Some(meant) if meant != name => format!("did you mean `{meant}`?"),
        _ if matches!(name, "function" | "def" | "func") => {
            "a function begins with `fn`: `fn hold(landing, green) { 3 }`".to_owned()
        }
        _ => "a function knows what it is given and what it defines with `let`; constants stand inside it too".to_owned(),
    };
    (format!("there is no `{name}` here"), Some(hint))
}

const RUN_KIND: &str = "a run";

/// What a type of Rhai is called.
pub(super) fn kind(name: &str) -> &str {
    match name {
        "i64" => "a whole number",
        "f64" => "a number",
        "bool" => "true or false",
        "()" => "nothing",
        "map" => "a map",
        "array" => "a list",
        "string" | "&str" | "ImmutableString" => "a text",
        "char" => "a character",
        "landing" => "a landing",
        "green" => "a green",
        "club" => "a club",
        "part" => "a part",
        "shot" => "a shot",
        "effect" => "an effect",
        "Fn" => "a function",
        "range" => "a range",
        name if name.ends_with("::Landing") => "a landing",
        name if name.ends_with("GreenAt") => "a green",
        name if name.ends_with("ClubView") => "a club",
        name if name.ends_with("PartFacts") => "a part",
        name if name.ends_with("ShotFacts") => "a shot",
        name if name.ends_with("EffectView") => "an effect",
        name if name == "run" || name.ends_with("RunView") => RUN_KIND,
        name if name.ends_with("ImmutableString") => "a text",
        name if name.contains("BTreeMap") => "a map",
        name if name.contains("Vec<") => "a list",
        name => name.rsplit("::").next().unwrap_or(name),
    }
}

/// A message that begins in the middle of a sentence.
fn lowered(text: &str) -> String {
    let mut characters = text.chars();
    let Some(first) = characters.next() else {
        return "this cannot be run".to_owned();
    };
    first.to_lowercase().chain(characters).collect()
}

/// Rhai's own message without its place, which the fault tells itself.
fn without_place(error: &EvalAltResult) -> String {
    let text = error.to_string();
    let place = format!(" ({})", error.position());
    text.strip_suffix(&place).unwrap_or(&text).to_owned()
}

/// The word or sign at a place.
fn span(source: &Source, position: Position) -> Option<Range<usize>> {
    let line = position.line()?;
    let before: usize = source
        .text
        .split_inclusive('\n')
        .take(line - 1)
        .map(str::len)
        .sum();
    let text = source.text.get(before..)?;
    let skipped = position.position().unwrap_or(1).saturating_sub(1);
    let start = text
        .char_indices()
        .nth(skipped)
        .map_or(text.len(), |(at, _)| at);
    let rest = &text[start..];
    let word = rest
        .find(|c: char| !(c.is_alphanumeric() || c == '_'))
        .unwrap_or(rest.len());
    let length = match word {
        0 => rest.chars().next().map_or(0, char::len_utf8),
        length => length,
    };
    Some(before + start..before + start + length)
}

/// The last sign of a text.
fn end(source: &Source) -> Range<usize> {
    let text = source.text.trim_end();
    let last = text.chars().next_back().map_or(0, char::len_utf8);
    text.len() - last..text.len()
}

/// Where a function of a name is defined.
pub(super) fn name_of(source: &Source, name: &str) -> Option<Range<usize>> {
    code::name_of(&code::code(&source.text), name)
}
