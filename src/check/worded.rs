//! Sentences made with room for all of their words.

use std::fmt::{Arguments, Write};

/// Bytes that hold most sentences.
const ROOM: usize = 160;

/// The text of `format_args!`; of `format!` it differs in its room only: a text that starts without any is moved several
/// times while it grows, which takes longer than its words.
pub fn worded(words: Arguments<'_>) -> String {
    let mut text = String::with_capacity(ROOM);
    // A text takes whatever is written.
    let _ = text.write_fmt(words);
    text
}
