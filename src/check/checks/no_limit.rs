//! `no-limit`: every variable that must be bounded has a permission that bounds it.

use crate::check::{
    Case, Finding, Force, Outcome, Shown, Variable,
    choice_check::{Rule, Words, texts},
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

fn check(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let unbounded = |group: &&[Variable]| !group.iter().any(|variable| case.is_bounded(*variable));
    let groups = must_be_bounded(case.procedure.process).into_iter().filter(unbounded);
    findings.extend(groups.map(|group| finding(case, group)));
}

fn finding(case: &Case<'_>, group: &[Variable]) -> Finding {
    let owner = case.procedure_owner();
    let names: Vec<_> = group.iter().map(|variable| in_words(*variable)).collect();
    let names = names.join(" or ");
    let reason = format!("{owner} sets no limit on {names}, and the process must have one.");
    let rule = Rule { check: &CHECK, owner, force: Force::Required, words: &WORDS };
    Finding {
        variable: group[0],
        remedy: Some(format!("{ADD} {names}.")),
        consequence: WORDS.consequence,
        ..rule.finding(Outcome::NoLimit, Shown::Nothing, Shown::Nothing, reason)
    }
}
