//! Words a script compares a lie, a part of the game or a kind of club with: one that is none would never be met, and
//! nothing would tell.

use std::ops::Range;

use super::code::{code, texts, words};
use super::fields::{HOLED, KINDS, lie_name};
use crate::course::Lie;
use crate::rules::worth::PARTS;

/// A word that a field never is.
#[derive(Debug, PartialEq)]
pub(super) struct OddWord {
    /// Where it stands, quotes included.
    pub place: Range<usize>,
    /// The field.
    pub field: &'static str,
    /// What the field can be.
    pub known: Vec<&'static str>,
}

/// Fields that are one of a few words.
const FIELDS: [&str; 6] = ["lie", "pitched", "ended", "kind", "part", "name"];

/// What a field can be.
fn known(field: &str) -> Vec<&'static str> {
    let lies = Lie::ALL.into_iter().map(lie_name);
    match field {
        "kind" => KINDS.to_vec(),
        "part" | "name" => PARTS.to_vec(),
        "ended" => lies.chain([HOLED]).collect(),
        _ => lies.collect(),
    }
}

/// The words that a field is compared with and never is, in their order: by `==` and `!=`, `in` a list, or as a case of `switch`.
/// Fields a script gives a meaning of its own are not looked at.
pub(super) fn odd(text: &str) -> Vec<OddWord> {
    let code = code(text);
    let texts: Vec<Range<usize>> = texts(text).collect();
    let fields = FIELDS.into_iter().filter(|field| !is_own(&code, field));
    let compared = fields.flat_map(|field| {
        let places = uses(&code, field).flat_map(|place| compared_with(&code, &texts, place));
        places.map(move |place| (field, place)).collect::<Vec<_>>()
    });
    let odd = compared.filter_map(|(field, place)| {
        let word = text.get(place.start + 1..place.end - 1)?;
        let known = known(field);
        // A chip's club is of no kind.
        let can_be = known.contains(&word) || (field == "kind" && word.is_empty());
        (!can_be).then_some(OddWord {
            place,
            field,
            known,
        })
    });
    let mut all: Vec<OddWord> = odd.collect();
    all.sort_by_key(|odd| odd.place.start);
    all
}

/// Whether a script names something of its own so: a variable, or an entry of a map.
fn is_own(code: &str, field: &str) -> bool {
    let mut before = "";
    words(code).any(|(word, at)| {
        let defines = std::mem::replace(&mut before, word);
        let rest = code[at + word.len()..].trim_start();
        word == field
            && (matches!(defines, "let" | "const")
                || (rest.starts_with(':') && !rest.starts_with("::"))
                || (rest.starts_with('=') && !rest.starts_with("==")))
    })
}

/// Where a field is read. A lie is also given as itself; a name is that of a part where it is read of one.
fn uses<'a>(code: &'a str, field: &'a str) -> impl Iterator<Item = Range<usize>> + 'a {
    let is_use = move |at: usize| {
        let before = code[..at].trim_end();
        match field {
            "lie" => true,
            "name" => before.ends_with("part."),
            _ => before.ends_with('.'),
        }
    };
    words(code)
        .filter(move |(word, at)| *word == field && is_use(*at))
        .map(|(word, at)| at..at + word.len())
}

/// The texts that what stands at a place is compared with.
fn compared_with(code: &str, texts: &[Range<usize>], place: Range<usize>) -> Vec<Range<usize>> {
    let rest = &code[place.end..];
    let next = place.end + (rest.len() - rest.trim_start().len());
    let rest = &code[next..];
    let chain = chain_before(code, place.start);
    let mut found: Vec<Range<usize>> = Vec::new();
    if rest.starts_with("==") || rest.starts_with("!=") {
        found.extend(text_after(code, texts, next + 2));
    } else if let Some(list) = rest
        .strip_prefix("in")
        .filter(|list| list.trim_start().starts_with('['))
    {
        let end = next + 2 + list.find(']').unwrap_or(list.len());
        found.extend(within(texts, next..end));
    } else if rest.starts_with('{') && code[..chain].trim_end().ends_with("switch") {
        found.extend(cases(code, texts, next));
    }
    found.extend(text_before(code, texts, chain));
    found
}

/// Where the chain of fields begins that ends before a place: at `shot` in `shot.club.`.
fn chain_before(code: &str, at: usize) -> usize {
    let is_link = |c: char| c.is_alphanumeric() || c == '_' || c == '.';
    code[..at].trim_end_matches(is_link).len()
}

/// The text right behind a place.
fn text_after(code: &str, texts: &[Range<usize>], at: usize) -> Option<Range<usize>> {
    texts
        .iter()
        .find(|text| text.start >= at && code[at..text.start].trim().is_empty())
        .cloned()
}

/// The text before a place, where `==` or `!=` stands between.
fn text_before(code: &str, texts: &[Range<usize>], at: usize) -> Option<Range<usize>> {
    let is_compared =
        |text: &&Range<usize>| text.end <= at && matches!(code[text.end..at].trim(), "==" | "!=");
    texts.iter().find(is_compared).cloned()
}

fn within(texts: &[Range<usize>], place: Range<usize>) -> impl Iterator<Item = Range<usize>> {
    texts
        .iter()
        .filter(move |text| place.contains(&text.start))
        .cloned()
}

/// The texts that are cases of a `switch` whose bracket stands at a place.
fn cases(code: &str, texts: &[Range<usize>], open: usize) -> Vec<Range<usize>> {
    let mut depth = 0_usize;
    let mut found = Vec::new();
    for (at, sign) in code[open..].char_indices() {
        match sign {
            '{' | '(' | '[' => depth += 1,
            '}' | ')' | ']' => depth = depth.saturating_sub(1),
            _ => {}
        }
        if depth == 0 {
            break;
        }
        let starts_here = texts.iter().find(|text| text.start == open + at);
        let Some(text) = starts_here.filter(|_| depth == 1) else {
            continue;
        };
        let behind = code[text.end..].trim_start();
        if ["=>", "|", "if "]
            .iter()
            .any(|sign| behind.starts_with(sign))
        {
            found.push(text.clone());
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(text: &str) -> Option<(&str, &'static str)> {
        let first = odd(text).into_iter().next();
        first.map(|odd| (&text[odd.place], odd.field))
    }

    #[test]
    fn words_that_are_never_met_are_found_wherever_they_are_compared() {
        for (text, word, field) in [
            (r#"if landing.lie == "ruff" { 1 }"#, r#""ruff""#, "lie"),
            (r#"if lie != "Rough" { 1 }"#, r#""Rough""#, "lie"),
            (
                r#"if "bunker" == shot.pitched { 1 }"#,
                r#""bunker""#,
                "pitched",
            ),
            (r#"shot.ended in ["holed", "hole"]"#, r#""hole""#, "ended"),
            (r#"x.club.kind=="irons""#, r#""irons""#, "kind"),
            (r#"if part.name == "Putting" { 1 }"#, r#""Putting""#, "name"),
            (
                r#"shot.part in ["sand", "puttting"]"#,
                r#""puttting""#,
                "part",
            ),
            (
                r#"switch landing.lie { "tee" => "ruff", "sand" | "semi" => { f("x") } }"#,
                r#""semi""#,
                "lie",
            ),
            (
                r#"switch lie { "tee" => 1, "green " if x => 2 }"#,
                r#""green ""#,
                "lie",
            ),
        ] {
            assert_eq!(found(text), Some((word, field)), "{text}");
        }
    }

    #[test]
    fn words_that_are_met_and_names_of_the_scripts_own_are_left_alone() {
        for text in [
            r#"if landing.lie == "out of bounds" || shot.ended == "holed" { 1 }"#,
            r#"if shot.club.kind == "" || shot.club.name == "any" { 1 }"#,
            r#"let lie = f(landing); if lie == "bad" { 1 }"#,
            r#"let m = #{ kind: "soft" }; m.kind == "soft""#,
            r#"// landing.lie == "ruff""#,
            r#"if part.name == "tee shots" || shot.part == "sand" { 1 }"#,
            r#"let kind = "x"; kind == "y""#,
            r#"switch landing.lie { "tee" => "first", _ => "other" }"#,
            r#""lie " + landing.lie + " and " + "ruff""#,
        ] {
            assert_eq!(found(text), None, "{text}");
        }
    }
}
