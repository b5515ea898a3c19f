//! The code of a script without its comments and texts, and what can be told from it before it runs.

use std::ops::Range;

/// A script's text with every comment and every quoted text blanked out, byte for byte.
pub(super) fn code(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut copied = 0;
    for (place, _) in asides(text) {
        out += &text[copied..place.start];
        // A blank for every byte but the ends of lines, so that places stay what they are.
        let blanked = text.as_bytes()[place.clone()].iter();
        out.extend(blanked.map(|byte| if *byte == b'\n' { '\n' } else { ' ' }));
        copied = place.end;
    }
    out + &text[copied..]
}

/// Where the texts in double quotes stand, quotes included.
pub(super) fn texts(text: &str) -> impl Iterator<Item = Range<usize>> {
    let quoted = asides(text).filter(|(_, quote)| *quote == '"');
    quoted.map(|(place, _)| place)
}

/// Comments and quoted texts: where each stands, and the sign it begins with.
fn asides(text: &str) -> impl Iterator<Item = (Range<usize>, char)> {
    let mut at = 0;
    std::iter::from_fn(move || {
        loop {
            let rest = &text[at..];
            let first = rest.chars().next()?;
            let length = match first {
                '/' if rest.starts_with("//") => rest.find('\n').unwrap_or(rest.len()),
                '/' if rest.starts_with("/*") => block_comment(rest),
                '"' | '`' | '\'' => quoted(rest, first),
                _ => 0,
            };
            if length > 0 {
                at += length;
                return Some((at - length..at, first));
            }
            at += first.len_utf8();
        }
    })
}

/// Length of a block comment; they nest.
fn block_comment(text: &str) -> usize {
    let (mut depth, mut at) = (0_usize, 0);
    while at < text.len() {
        let rest = &text.as_bytes()[at..];
        if rest.starts_with(b"/*") {
            (depth, at) = (depth + 1, at + 2);
        } else if rest.starts_with(b"*/") {
            (depth, at) = (depth - 1, at + 2);
            if depth == 0 {
                return at;
            }
        } else {
            at += 1;
        }
    }
    text.len()
}

/// Length of a quoted text.
fn quoted(text: &str, quote: char) -> usize {
    let mut escaped = false;
    for (at, c) in text.char_indices().skip(1) {
        match c {
            _ if escaped => escaped = false,
            '\\' => escaped = true,
            c if c == quote => return at + c.len_utf8(),
            _ => {}
        }
    }
    text.len()
}

/// The words of code, each with its place.
pub(super) fn words(code: &str) -> impl Iterator<Item = (&str, usize)> {
    let is_word = |c: char| c.is_alphanumeric() || c == '_';
    code.split(move |c| !is_word(c))
        .filter(|word| !word.is_empty())
        .map(|word| (word, word.as_ptr().addr() - code.as_ptr().addr()))
}

/// Where a function of a name is defined.
pub(super) fn name_of(code: &str, name: &str) -> Option<Range<usize>> {
    let mut before = "";
    for (word, at) in words(code) {
        if before == "fn" && word == name {
            return Some(at..at + word.len());
        }
        before = word;
    }
    None
}

/// How many parameters a function of a name takes where it is defined.
pub(super) fn parameters(code: &str, name: &str) -> Option<usize> {
    let place = name_of(code, name)?;
    let list = code[place.end..].trim_start().strip_prefix('(')?;
    let (list, _) = list.split_once(')')?;
    Some(list.split(',').filter(|one| !one.trim().is_empty()).count())
}

/// Two whole numbers divided by each other, with something left over: Rhai drops it, and `1/2` is 0.
pub(super) fn whole_division(code: &str) -> Option<Range<usize>> {
    let digits = |text: &str| text.chars().all(|c| c.is_ascii_digit() || c == '_');
    let mut numbers = words(code).filter(|(word, _)| digits(word)).peekable();
    while let Some((above, at)) = numbers.next() {
        let Some(&(below, below_at)) = numbers.peek() else {
            break;
        };
        let between = &code[at + above.len()..below_at];
        let end = below_at + below.len();
        // A point before or after makes a decimal of it.
        let is_decimal = code[..at].ends_with('.') || code[end..].starts_with('.');
        let value = |word: &str| word.replace('_', "").parse::<u64>().ok();
        let (Some(above), Some(below)) = (value(above), value(below)) else {
            continue;
        };
        if between.trim() == "/" && !is_decimal && below > 0 && above % below != 0 {
            return Some(at..end);
        }
    }
    None
}

/// Every loop and function of a script: where its word stands, and where its body begins.
fn bodies(code: &str) -> Vec<(Range<usize>, usize)> {
    words(code)
        .filter(|(word, _)| matches!(*word, "loop" | "while" | "for" | "do" | "fn"))
        .filter_map(|(word, at)| {
            let end = at + word.len();
            let open = end + code[end..].find('{')? + 1;
            Some((at..end, open))
        })
        .collect()
}

/// A script that says, by a call of `mark`, which of its loops and functions it is in; and where these stand.
pub(super) fn marked(text: &str, mark: &str) -> (String, Vec<Range<usize>>) {
    let bodies = bodies(&code(text));
    let mut out = String::new();
    let mut copied = 0;
    for (number, (_, open)) in bodies.iter().enumerate() {
        // The body of `do` and of a loop right behind it may begin at the same bracket.
        out += text.get(copied..*open).unwrap_or_default();
        out += &format!("{mark}({number});");
        copied = *open;
    }
    out += &text[copied..];
    (out, bodies.into_iter().map(|(word, _)| word).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comments_and_texts_are_blank_and_places_stay() {
        let text = "let a = \"fn é\"; // fn b\n/* fn /* c */ */ fn d() {}";
        let code = code(text);
        assert_eq!(code.len(), text.len());
        assert_eq!(name_of(&code, "b"), None);
        assert_eq!(name_of(&code, "d").map(|at| &text[at]), Some("d"));
    }

    #[test]
    fn a_share_of_whole_numbers_is_found_unless_it_comes_out_even() {
        let found = |text: &str| whole_division(&code(text)).map(|at| text[at].to_owned());
        assert_eq!(found("x * 1/2"), Some("1/2".into()));
        assert_eq!(found("2 / 3 * x"), Some("2 / 3".into()));
        assert_eq!(found("1/2.0 + 1.0/2 + 4/2 + x1/2 + 3.1/2"), None);
        assert_eq!(found("// 1/2\n\"1/2\""), None);
    }

    #[test]
    fn loops_and_functions_are_marked_in_their_order() {
        let (marked, places) = marked("fn f() { while x { } }", "m");
        assert_eq!(marked, "fn f() {m(0); while x {m(1); } }");
        assert_eq!(places, [0..2, 9..14]);
    }
}
