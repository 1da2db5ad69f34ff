//! Reading a designation from the left, knowing where one is.

/// A designation stopped making sense.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("at character {at} of \"{text}\": \"{found}\" stands where {expected} is expected")]
pub struct DesignationError {
    /// The text as typed.
    pub text: String,
    /// Characters of the text before the one that makes no sense.
    pub at: usize,
    /// What stands there, up to the next blank; `end of text` behind the last character.
    pub found: String,
    /// What can stand there.
    pub expected: String,
}

/// A place in a text. Words are matched without regard to case.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cursor<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Cursor<'a> {
    pub const fn new(text: &'a str) -> Self {
        Self { text, at: 0 }
    }

    /// What was not read yet.
    pub fn rest(&self) -> &'a str {
        &self.text[self.at..]
    }

    /// What was read since an earlier place.
    pub fn since(&self, start: &Self) -> &'a str {
        self.text.get(start.at..self.at).unwrap_or_default().trim()
    }

    /// The character before this place.
    pub fn before(&self) -> Option<char> {
        self.text[..self.at].chars().next_back()
    }

    pub fn skip_blanks(&mut self) {
        self.skip_while(char::is_whitespace);
    }

    pub fn skip_while(&mut self, skipped: impl Fn(char) -> bool) {
        self.at += self.rest().len() - self.rest().trim_start_matches(skipped).len();
    }

    /// Passes one character.
    pub fn skip_one(&mut self) {
        self.at += self.rest().chars().next().map_or(0, char::len_utf8);
    }

    /// Reads an ASCII word, if it stands here.
    pub fn take(&mut self, word: &str) -> bool {
        let start = self.rest().get(..word.len());
        let found = start.is_some_and(|start| start.eq_ignore_ascii_case(word));
        if found {
            self.at += word.len();
        }
        found
    }

    /// Reads the longest of the symbols that stands here.
    pub fn symbol<T: Copy>(&mut self, symbols: &[(&str, T)]) -> Option<T> {
        let here = |(symbol, _): &&(&str, T)| {
            self.rest().get(..symbol.len()).is_some_and(|start| start.eq_ignore_ascii_case(symbol))
        };
        let (symbol, value) = symbols.iter().filter(here).max_by_key(|(symbol, _)| symbol.len())?;
        self.at += symbol.len();
        Some(*value)
    }

    /// Reads one of the symbols, or says which were expected.
    pub fn need<T: Copy>(
        &mut self,
        symbols: &[(&str, T)],
        what: &str,
    ) -> Result<T, DesignationError> {
        self.symbol(symbols).ok_or_else(|| {
            let known: Vec<_> = symbols.iter().map(|(symbol, _)| *symbol).collect();
            self.wrong(format!("{what} ({})", known.join(", ")))
        })
    }

    /// Reads a word, or says that it was expected.
    pub fn need_word(&mut self, word: &str, what: &str) -> Result<(), DesignationError> {
        if self.take(word) { Ok(()) } else { Err(self.wrong(what)) }
    }

    /// Reads a suffix that may stand behind blanks, a hyphen or both.
    pub fn suffix<T: Copy>(&mut self, symbols: &[(&str, T)]) -> Option<T> {
        let start = *self;
        self.skip_blanks();
        self.take("-");
        self.skip_blanks();
        let found = self.symbol(symbols);
        if found.is_none() {
            *self = start;
        }
        found
    }

    /// Accepts the end of the text only.
    pub fn end(&mut self, expected: &str) -> Result<(), DesignationError> {
        self.skip_blanks();
        if self.rest().is_empty() { Ok(()) } else { Err(self.wrong(expected)) }
    }

    /// The refusal of what stands here.
    pub fn wrong(&self, expected: impl Into<String>) -> DesignationError {
        let found = self.rest().split_whitespace().next().unwrap_or("end of text");
        DesignationError {
            text: self.text.to_owned(),
            at: self.text[..self.at].chars().count(),
            found: found.to_owned(),
            expected: expected.into(),
        }
    }
}
