//! Sentences about figures.

use std::{
    borrow::{Borrow, Cow},
    fmt,
    ops::Deref,
    sync::Arc,
};

/// One sentence about a figure; several figures share it, so that a copy costs next to nothing.
#[derive(Clone)]
pub struct Note(Text);

/// A text, and whether it is plain: see [`Note::is_plain`].
#[derive(Clone)]
enum Text {
    /// Always the same.
    Always(&'static str, bool),
    /// Made from values.
    Made(Arc<str>, bool),
}

/// The sentences about one figure.
pub type Notes = Vec<Note>;

impl Note {
    /// A sentence that is always the same; in a constant nothing is left to do.
    #[must_use]
    pub const fn always(text: &'static str) -> Self {
        Self(Text::Always(text, is_plain(text.as_bytes())))
    }

    /// Whether it holds no control, quotation mark or backslash, and may stand between quotation marks as it is.
    #[must_use]
    pub const fn is_plain(&self) -> bool {
        let (Text::Always(_, is_plain) | Text::Made(_, is_plain)) = &self.0;
        *is_plain
    }
}

const fn is_plain(text: &[u8]) -> bool {
    let (mut at, mut special) = (0, false);
    // Without a way out half way, so that the compiler looks at many bytes at once.
    while at < text.len() {
        special |= text[at] < b' ' || text[at] == b'"' || text[at] == b'\\';
        at += 1;
    }
    !special
}

impl Deref for Note {
    type Target = str;

    fn deref(&self) -> &str {
        match &self.0 {
            Text::Always(text, _) => text,
            Text::Made(text, _) => text,
        }
    }
}

impl Borrow<str> for Note {
    fn borrow(&self) -> &str {
        self
    }
}

impl From<&'static str> for Note {
    fn from(text: &'static str) -> Self {
        Self::always(text)
    }
}

impl From<String> for Note {
    fn from(text: String) -> Self {
        let is_plain = is_plain(text.as_bytes());
        Self(Text::Made(text.into(), is_plain))
    }
}

impl From<&Note> for Cow<'static, str> {
    fn from(note: &Note) -> Self {
        match &note.0 {
            Text::Always(text, _) => Self::Borrowed(text),
            Text::Made(text, _) => Self::Owned(text.as_ref().to_owned()),
        }
    }
}

impl PartialEq for Note {
    fn eq(&self, other: &Self) -> bool {
        **self == **other
    }
}

impl Eq for Note {}

impl fmt::Debug for Note {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Debug::fmt(&**self, f)
    }
}

impl fmt::Display for Note {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(&**self, f)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 8259, section 7: quotation mark, reverse solidus and U+0000 to U+001F are escaped, nothing else.
    #[test]
    fn a_note_knows_whether_anything_in_it_needs_an_escape() {
        for plain in ["", "20 °C to 30 °C", "a/b \u{7f}"] {
            assert!(Note::always(plain).is_plain() && Note::from(plain.to_owned()).is_plain());
        }
        for special in ["\"", "a\\b", "a\nb", "\u{1f}", "\0"] {
            assert!(!Note::always(special).is_plain(), "{special:?}");
            assert!(!Note::from(format!("a{special}")).is_plain(), "{special:?}");
        }
    }

    #[test]
    fn a_note_is_its_text() {
        let (always, made) = (Note::always("as printed"), Note::from("as printed".to_owned()));
        assert_eq!(always, made);
        assert_eq!([always.clone(), made.clone()].join("; "), "as printed; as printed");
        assert_eq!(format!("{made} {always:?}"), "as printed \"as printed\"");
        assert_eq!([Cow::from(&always), Cow::from(&made)], ["as printed", "as printed"]);
    }
}
