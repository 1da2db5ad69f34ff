//! `no-limit`: every variable that must be bounded has a permission that bounds it.

use crate::check::{
    Case, Findings, Force, Mark, Outcome, Shown, Told, Variable,
    choice_check::{Words, texts},
    registry::declare_check,
    remedy::in_words,
    shape::must_be_bounded,
};

declare_check! {
    /// ## Checks
    /// The procedure, or consumable data it calls up, bounds every variable that the process must
    /// have bounded: current or wire feed; voltage; travel speed, arc energy or heat input;
    /// electrical stick-out where there is one; gas flow where the arc is gas-shielded. A covered
    /// electrode has no feed, no stick-out and no gas flow.
    ///
    /// ## Why
    /// A check against no limits passes everything. An empty procedure must not allow anything.
    ///
    /// ## Source
    /// A rule of this service. The variables: AWS D1.1 (2015, clause 3.6, read in its commentary:
    /// amperage or wire feed, volts, travel speed, gas flow) and ISO 15609-1:2019 (stick-out of
    /// processes 13x). That energy per length stands for travel speed is our own choice.
    ///
    /// ## Not checked
    /// Whether the limits are right or qualified, and whether both ends are set. Preheat and
    /// interpass temperature: many procedures rightly set none. Limits of a station or a customer do
    /// not count: they are no permission.
    "no-limit", Procedure => check, texts!(WORDS)
}

const ADD: &str = "Add to the procedure a limit on";

const WORDS: Words = Words {
    consequence: Some("A setup could be anything in this variable and still look permitted."),
    record: Some(ADD),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let bounded = case.bounded();
    let unbounded = |group: &&[Variable]| !group.iter().any(|one| bounded.contains(*one));
    for group in must_be_bounded(case.procedure.process).filter(unbounded) {
        no_limit(case, group, findings);
    }
}

fn no_limit(case: &Case<'_>, group: &[Variable], findings: &mut Findings) {
    let mark = Mark {
        check: CHECK.code,
        variable: group[0],
        outcome: Outcome::NoLimit,
        force: Force::Required,
        accuracy_unknown: false,
    };
    findings.note(mark, || {
        let owner = case.procedure_source().owner();
        let names: Vec<_> = group.iter().map(|variable| in_words(*variable)).collect();
        let names = names.join(" or ");
        Told {
            given: Shown::Nothing,
            allowed: Shown::Nothing,
            reason: format!("{owner} sets no limit on {names}, and the process must have one."),
            owner,
            remedy: Some(format!("{ADD} {names}.")),
            consequence: WORDS.consequence,
        }
    });
}
