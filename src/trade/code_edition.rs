//! A code and its edition.

/// A code and its edition, such as `AWS D1.1` of `2020`.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct CodeEdition {
    /// The code's designation.
    pub name: String,
    /// Its edition.
    pub edition: String,
}

impl std::fmt::Display for CodeEdition {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}:{}", self.name, self.edition)
    }
}
