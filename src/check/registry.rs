//! The list of checks, and how one declares itself.

use super::{Case, Findings, Variable};

/// One small named test of a setup against limits.
pub struct Check {
    /// Stable kebab-case code; never reused for another check.
    pub code: &'static str,
    /// Variable it looks at first.
    pub variable: Variable,
    /// Markdown from the doc comment of the check: what it checks, why, by which source, and what
    /// it does not check.
    pub explanation: &'static str,
    /// Every consequence and every remedy the check can print, a remedy without the value that
    /// completes it. No two checks share one.
    pub texts: &'static [&'static str],
    /// Adds the check's findings for one case.
    pub run: fn(&Case<'_>, &mut Findings),
}

/// Declares `CHECK` and keeps its doc comment as the explanation served to users, so that rustdoc
/// and the catalogue say the same words: code, variable, function and texts.
macro_rules! declare_check {
    ($(#[doc = $line:literal])+ $code:literal, $variable:ident => $run:path, $texts:expr) => {
        $(#[doc = $line])+
        pub const CHECK: $crate::check::Check = $crate::check::Check {
            code: $code,
            variable: $crate::check::Variable::$variable,
            explanation: concat!($($line, "\n"),+),
            texts: $texts,
            run: $run,
        };
    };
}
pub(crate) use declare_check;

#[cfg(test)]
mod tests {
    use std::collections::HashMap;

    use crate::check::ALL;

    fn is_kebab_case(code: &str) -> bool {
        code.split('-').all(|word| {
            !word.is_empty() && word.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit())
        })
    }

    #[test]
    fn codes_are_kebab_case_and_unique() {
        let mut seen = HashMap::new();
        for (index, check) in ALL.iter().enumerate() {
            assert!(is_kebab_case(check.code), "{}", check.code);
            assert_eq!(seen.insert(check.code, index), None, "{} is used twice", check.code);
        }
        for bad in ["", "Current", "wire_feed", "wire--feed", "-current", "current-"] {
            assert!(!is_kebab_case(bad), "{bad}");
        }
    }

    #[test]
    fn every_explanation_has_its_four_parts_in_order_and_none_is_empty() {
        for check in ALL {
            let mut rest = check.explanation;
            for heading in ["## Checks\n", "## Why\n", "## Source\n", "## Not checked\n"] {
                let (before, after) = rest
                    .split_once(heading)
                    .unwrap_or_else(|| panic!("{} lacks {heading:?}", check.code));
                assert!(heading.contains("Checks") || before.trim().len() > 20, "{}", check.code);
                rest = after;
            }
            assert!(rest.trim().len() > 20, "{}", check.code);
        }
    }

    #[test]
    fn no_two_checks_share_a_consequence_or_a_remedy() {
        let mut owners = HashMap::new();
        for check in ALL {
            assert!(!check.texts.is_empty(), "{} says nothing of its own", check.code);
            for text in check.texts {
                assert!(text.len() > 10, "{}: {text:?}", check.code);
                let other = owners.insert(*text, check.code);
                assert_eq!(other, None, "{} shares {text:?}", check.code);
            }
        }
    }
}
