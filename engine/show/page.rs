//! The page that is printed on: units and width.

use super::reading::Reading;

/// The widest page: lines any longer are tiring to read.
pub const WIDEST: usize = 80;

/// The narrowest page laid out for; below it lines run over.
const NARROWEST: usize = 30;

/// Width of the name of a figure.
const NAME: usize = 14;
/// Width of the figure.
const FIGURE: usize = 6;

/// The page that is printed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Page {
    /// Units people read.
    pub reading: Reading,
    /// Characters to a line.
    pub width: usize,
}

impl Page {
    /// A page on a terminal of that many columns.
    #[must_use]
    pub fn new(reading: Reading, columns: usize) -> Self {
        Self {
            reading,
            width: columns.clamp(NARROWEST, WIDEST),
        }
    }

    /// A paragraph broken into lines.
    #[must_use]
    pub fn paragraph(&self, text: &str) -> String {
        wrapped(text, self.width, 0)
    }

    /// A named figure, its end in one column with those above and below, and a remark where there is room.
    #[must_use]
    pub fn figure(&self, name: &str, figure: &str, remark: &str) -> String {
        let text = format!("{name:NAME$}{figure:>FIGURE$}");
        let indent = NAME + FIGURE + 2;
        if remark.is_empty() {
            return text + "\n";
        }
        if indent + remark.chars().count() <= self.width {
            return format!("{text}  {remark}\n");
        }
        format!("{text}\n  {}", wrapped(remark, self.width - 2, 2))
    }

    /// One entry of a list: lines after the first are indented.
    #[must_use]
    pub fn item(&self, text: &str) -> String {
        wrapped(text, self.width, 2)
    }
}

/// A blank no line is broken at; it is printed as a plain one.
pub const TIE: char = '\u{a0}';

/// A text broken at blanks into lines of at most `width` characters, all but the first indented.
#[must_use]
pub fn wrapped(text: &str, width: usize, indent: usize) -> String {
    let mut out = String::new();
    let mut column = 0;
    for word in text.split([' ', '\n']).filter(|word| !word.is_empty()) {
        let length = word.chars().count();
        if column > indent && column + 1 + length > width {
            out.push('\n');
            out += &" ".repeat(indent);
            column = indent;
        } else if column > 0 {
            out.push(' ');
            column += 1;
        }
        out += word;
        column += length;
    }
    out.push('\n');
    out.replace(TIE, " ")
}

/// Words with their first letter large.
#[must_use]
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(|first| first.to_uppercase().to_string());
    first.unwrap_or_default() + letters.as_str()
}

/// Words that stay together on one line.
#[must_use]
pub fn tied(words: &str) -> String {
    words.replace(' ', &TIE.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_break_at_blanks() {
        assert_eq!(wrapped("one two three", 7, 0), "one two\nthree\n");
        assert_eq!(wrapped("one two three", 8, 2), "one two\n  three\n");
        assert_eq!(
            wrapped(&format!("one {}", tied("two three")), 8, 0),
            "one\ntwo three\n"
        );
        assert_eq!(wrapped("unbreakable word", 4, 0), "unbreakable\nword\n");
    }

    #[test]
    fn a_page_is_never_wider_than_is_good_to_read() {
        assert_eq!(Page::new(Reading::Yards, 300).width, WIDEST);
    }
}
