//! The list of checks, and how one declares itself.

use super::{Case, Finding, Variable};

/// One small named test of a setup against limits.
pub struct Check {
    /// Stable kebab-case code; never reused for another check.
    pub code: &'static str,
    /// Variable it looks at first.
    pub variable: Variable,
    /// Markdown from the doc comment of the check: what it checks, why, by which source, and what
    /// it does not check.
    pub explanation: &'static str,
    /// Adds the check's findings for one case.
    pub run: fn(&Case<'_>, &mut Vec<Finding>),
}

/// Declares `CHECK` and keeps its doc comment as the explanation served to users, so that rustdoc
/// and the catalogue say the same words.
macro_rules! declare_check {
    ($(#[doc = $line:literal])+ $code:literal, $variable:ident => $run:path) => {
        $(#[doc = $line])+
        pub const CHECK: $crate::check::Check = $crate::check::Check {
            code: $code,
            variable: $crate::check::Variable::$variable,
            explanation: concat!($($line, "\n"),+),
            run: $run,
        };
    };
}
pub(crate) use declare_check;
