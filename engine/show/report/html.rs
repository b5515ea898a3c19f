//! Tables and pictures as a page holds them.

use maud::{Markup, PreEscaped, html};

use crate::show::draw::{Picture, Style};
use crate::show::reading::Reading;

/// What stands at the head of every page: how it is to be read, and its title.
pub fn head_of(title: &str) -> Markup {
    html! {
        meta charset="utf-8";
        meta name="viewport" content="width=device-width, initial-scale=1";
        meta name="color-scheme" content="light dark";
        title { (title) }
    }
}

/// A table with a caption; the first column names the rows, the rest are figures. Where it is wider than the screen it
/// can be moved by finger or key.
pub fn table(caption: &str, headings: &[&str], rows: &[Vec<String>]) -> Markup {
    html! {
        div.wide role="region" aria-label=(caption) tabindex="0" {
            table {
                caption { (caption) }
                thead {
                    tr {
                        @for heading in headings { (column(heading)) }
                    }
                }
                tbody {
                    @for row in rows { (line(row)) }
                }
            }
        }
    }
}

fn column(heading: &str) -> Markup {
    // A corner that names nothing is no heading.
    if heading.is_empty() {
        return html! { td {} };
    }
    html! { th scope="col" { (heading.replace('\n', " ")) } }
}

fn line(row: &[String]) -> Markup {
    html! {
        tr {
            @for (index, cell) in row.iter().enumerate() {
                @if index == 0 { th scope="row" { (cell) } } @else { td { (minus(cell)) } }
            }
        }
    }
}

/// Figures below zero with a true minus, which is as wide as a plus.
fn minus(cell: &str) -> String {
    let words: Vec<String> = cell
        .split(' ')
        .map(|word| match word.strip_prefix('-') {
            Some(rest) if rest.starts_with(|first: char| first.is_ascii_digit()) => {
                format!("−{rest}")
            }
            _ => word.to_owned(),
        })
        .collect();
    words.join(" ")
}

/// A picture as it stands in a page.
pub fn picture(picture: &Picture) -> Markup {
    PreEscaped(picture.svg.trim_end().to_owned())
}

/// A picture with words below it.
pub fn figure(drawn: &Picture, caption: &str) -> Markup {
    html! {
        figure {
            (picture(drawn))
            figcaption { (caption) }
        }
    }
}

/// A picture's style with a name of its own.
pub const fn style(reading: Reading, id: &str) -> Style<'_> {
    Style { reading, id }
}

/// Marks of pictures with what they mean.
pub fn key(entries: &[(Picture, String)]) -> Markup {
    html! {
        ul.key {
            @for (mark, words) in entries {
                li { (picture(mark)) span { (words) } }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_below_zero_have_a_true_minus_and_words_keep_their_hyphens() {
        assert_eq!(minus("-0.4 to -0.1"), "−0.4 to −0.1");
        assert_eq!(minus("three-putts -"), "three-putts -");
    }
}
