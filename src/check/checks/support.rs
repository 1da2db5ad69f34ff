//! `support`: what stands behind the procedure.

use crate::check::{
    Case, Findings, Force, Outcome, Shown,
    choice_check::{Rule, Said, Words, texts},
    record::Support,
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// A procedure whose qualification is declared, not judged by the service, carries the signature
    /// of a person with the right to declare it. Unsigned, it can allow nothing.
    ///
    /// ## Why
    /// The limits of a procedure are worth what the tests behind them are worth.
    ///
    /// ## Source
    /// A rule of this service. That a procedure needs a record of its test: ISO 15607 (from memory)
    /// and AWS D1.1 (2015, clause 4).
    ///
    /// ## Not checked
    /// The declaration itself: whether the tests were made and passed.
    "support", Procedure => check, texts!(WORDS)
}

const WORDS: Words = Words {
    state: Some("Have a person with the right sign the declaration of qualification."),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    let Support::Declared { signed_by } = &case.procedure.support;
    let outcome = if signed_by.is_some() { Outcome::Inside } else { Outcome::NotGiven };
    rule.finding(findings, outcome, |_| {
        let (given, reason) = match signed_by {
            Some(person) => (
                "signed",
                format!("The qualification is declared, not judged here; {person} signed it."),
            ),
            None => (
                "unsigned",
                "The qualification is declared, not judged here, and nobody has signed it."
                    .to_owned(),
            ),
        };
        Said { given: Shown::word(given), allowed: Shown::word("signed declaration"), reason }
    });
}

#[cfg(test)]
mod tests {
    use crate::check::{Outcome, Verdict, fixture::Scene, record::Support};

    #[test]
    fn an_unsigned_declaration_allows_nothing() {
        let signed = Scene::allowed();
        assert_eq!(signed.outcomes("support"), [Outcome::Inside]);
        let unsigned = signed.with(|s| s.procedure.support = Support::Declared { signed_by: None });
        assert_eq!(unsigned.outcomes("support"), [Outcome::NotGiven]);
        assert_eq!(unsigned.verdict(), Verdict::Undetermined);
    }
}
