//! What an answer says about the formula behind a figure.

use super::coded;

coded! {
    /// How well a number or formula was confirmed.
    pub enum Confidence: "confidence" {
        /// Checked against the printed standard by a named person.
        PrintChecked = "print-checked",
        /// Read in the text of the standard or table itself.
        TextRead = "text-read",
        /// Read in a text that quotes the standard.
        Secondary = "secondary",
        /// Remembered, not confirmed in print.
        Memory = "memory",
        /// Follows from definitions by arithmetic.
        Derived = "derived",
        /// Common practice of the trade; no source.
        CommonPractice = "common practice, no source",
    }
}

/// A formula of the trade: its name, where it is printed, where it holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Formula {
    /// Stable name, kebab-case.
    pub name: &'static str,
    /// Equation in the trade's symbols.
    pub equation: &'static str,
    /// Standard, edition and clause, or the handbook and page.
    pub source: &'static str,
    /// Where the formula holds, and what it assumes.
    pub validity: &'static str,
    /// How well source and constants were confirmed.
    pub confidence: Confidence,
}
