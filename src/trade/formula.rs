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

/// Declares a [`Formula`] and writes equation, source and validity into its documentation, so that both say
/// the same words. `validity: as OTHER` takes over that of another formula.
macro_rules! formula {
    (
        $(#[doc = $doc:literal])+
        pub const $id:ident {
            name: $name:literal,
            equation: $equation:literal,
            source: $source:literal,
            validity: $validity:literal,
            confidence: $confidence:ident,
        }
    ) => {
        $crate::trade::formula! {
            @declare [$($doc)+] $id, $name, $equation, $source, $validity, ($validity), $confidence
        }
    };
    (
        $(#[doc = $doc:literal])+
        pub const $id:ident {
            name: $name:literal,
            equation: $equation:literal,
            source: $source:literal,
            validity: as $other:ident,
            confidence: $confidence:ident,
        }
    ) => {
        $crate::trade::formula! {
            @declare [$($doc)+] $id, $name, $equation, $source, ("as [`", stringify!($other), "`]"),
            ($other.validity), $confidence
        }
    };
    (
        @declare [$($doc:literal)+] $id:ident, $name:literal, $equation:literal, $source:literal,
        $said:tt, ($validity:expr), $confidence:ident
    ) => {
        $(#[doc = $doc])+
        #[doc = ""]
        #[doc = concat!("> `", $equation, "`")]
        #[doc = ""]
        #[doc = concat!("- **Name in answers:** `", $name, "`")]
        #[doc = concat!("- **Source:** ", $source, ".")]
        #[doc = $crate::trade::formula!(@holds $said)]
        #[doc = concat!(
            "- **Confirmed:** [`", stringify!($confidence), "`](crate::trade::Confidence::",
            stringify!($confidence), ")"
        )]
        pub const $id: $crate::trade::Formula = $crate::trade::Formula {
            name: $name,
            equation: $equation,
            source: $source,
            validity: $validity,
            confidence: $crate::trade::Confidence::$confidence,
        };
    };
    (@holds ($($part:expr),+)) => {
        concat!("- **Holds for:** ", $($part),+, ".")
    };
    (@holds $said:literal) => {
        concat!("- **Holds for:** ", $said, ".")
    };
}
pub(crate) use formula;
