//! What people read: no word is lost, and no line is wider than the page.

use costcard::show::page::wrapped;
use proptest::prelude::*;

proptest! {
    #[test]
    fn a_wrapped_text_keeps_its_words_and_its_width(
        words in prop::collection::vec("[^\\s\u{a0}]{1,12}", 1..40),
        width in 20..100_usize,
        indent in 0..8_usize,
    ) {
        let text = words.join(" ");
        let shown = wrapped(&text, width, indent);
        let kept: Vec<&str> = shown.split([' ', '\n']).filter(|word| !word.is_empty()).collect();
        prop_assert_eq!(kept, words.iter().map(String::as_str).collect::<Vec<_>>());
        for line in shown.lines() {
            prop_assert!(line.chars().count() <= width, "{:?}", line);
        }
    }
}
