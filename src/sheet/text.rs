//! Texts that people typed, made fit for paper: nothing in them stays unseen, and nothing turns them round.

use std::fmt::Write;

/// A text in which every character can be seen: line breaks stay, tabs become spaces, and characters that are
/// unseen or that turn the direction of a line stand as `‹U+202E›`.
#[must_use]
pub fn visible(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text.chars().peekable();
    while let Some(c) = rest.next() {
        match c {
            '\r' if rest.peek() == Some(&'\n') => {}
            '\r' | '\n' | '\u{2028}' | '\u{2029}' => out.push('\n'),
            '\t' => out.push(' '),
            c if c.is_control() || is_unseen(c) => push_number(&mut out, c),
            c => out.push(c),
        }
    }
    out
}

/// The number of a character in its stead.
pub(super) fn push_number(out: &mut String, c: char) {
    // Writing to a text cannot fail.
    let _ = write!(out, "‹U+{:04X}›", u32::from(c));
}

/// Characters without a shape of their own: joiners, marks and overrides of direction, fillers, tags and variation
/// selectors (Unicode, `Default_Ignorable_Code_Point`, from memory).
const fn is_unseen(c: char) -> bool {
    matches!(c,
        '\u{ad}' | '\u{34f}' | '\u{61c}' | '\u{115f}'..='\u{1160}' | '\u{17b4}'..='\u{17b5}'
        | '\u{180b}'..='\u{180f}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}'
        | '\u{2060}'..='\u{206f}' | '\u{3164}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}' | '\u{ffa0}'
        | '\u{fff0}'..='\u{fffb}' | '\u{1bca0}'..='\u{1bca3}' | '\u{1d173}'..='\u{1d17a}'
        | '\u{e0000}'..='\u{e0fff}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_stay_as_they_are_and_what_is_unseen_shows() {
        assert_eq!(visible("Groove 60° ± 5°, ≤ 2 mm² · ok"), "Groove 60° ± 5°, ≤ 2 mm² · ok");
        assert_eq!(visible("a\r\nb\rc\td"), "a\nb\nc d");
        assert_eq!(visible("max\u{202e}52\u{202c} A"), "max‹U+202E›52‹U+202C› A");
        assert_eq!(visible("a\u{7}b\u{200b}c"), "a‹U+0007›b‹U+200B›c");
    }
}
