//! `readings-disagree`: what is stated against what follows from other stated values.

use crate::check::{
    Case, Comparison, Findings, Force, Mark, Outcome, Owner, Told, registry::declare_check,
    remedy::in_words,
};

declare_check! {
    /// ## Checks
    /// Where a value is stated and also follows from other stated values, both agree: travel speed
    /// with run length and arc time; electrical stick-out with visible stick-out and tip recess; arc
    /// power with volts times amps where the output is not waveform-controlled; the energy of the run, over its
    /// length, with what power and speed give; arc energy and heat input with what follows of them. They disagree when they lie further apart than their
    /// combined expanded uncertainty, or than 5 % where an accuracy is not known; 1 % is put down to
    /// rounding. Advice only: every limit is held against the computed value, or against both.
    ///
    /// ## Why
    /// One of the two is wrong, and a limit met by the wrong one is not met.
    ///
    /// ## Source
    /// Combination of uncertainties: JCGM 100:2008, 5.1. The 5 % and the 1 %: common practice, no
    /// source.
    ///
    /// ## Not checked
    /// Which of the two is wrong.
    "readings-disagree", Procedure => check, TEXTS
}

const CONSEQUENCE: &str = "One of two readings is wrong, and a limit may be met on paper only.";
const MEASURE_AGAIN: &str = "Find out which reading is wrong, and measure again:";
const BETTER: &str = "The instruments are too coarse to tell these apart; use better ones for";

const TEXTS: &[&str] = &[CONSEQUENCE, MEASURE_AGAIN, BETTER];

fn check(case: &Case<'_>, findings: &mut Findings) {
    for comparison in &case.readings.comparisons {
        let mark = Mark {
            check: CHECK.code,
            variable: comparison.variable,
            outcome: comparison.outcome,
            force: Force::Advised,
            accuracy_unknown: comparison.accuracy_unknown,
        };
        findings.note(mark, || told(comparison));
    }
}

fn told(comparison: &Comparison) -> Told {
    let Comparison { variable, stated, computed, tolerance, outcome, .. } = comparison;
    let (name, apart) = (in_words(*variable), comparison.apart());
    let (reason, remedy) = match outcome {
        Outcome::Outside => (
            format!("{apart}; {tolerance} is what the instruments, or rounding, can explain."),
            Some(format!("{MEASURE_AGAIN} {name}.")),
        ),
        Outcome::EdgeInside => (
            format!("{apart}; the instruments explain up to {tolerance}."),
            Some(format!("{BETTER} {name}.")),
        ),
        _ => (format!("{apart}; they agree."), None),
    };
    Told {
        given: stated.clone(),
        allowed: computed.clone(),
        owner: Owner::SERVICE,
        reason,
        consequence: remedy.is_some().then_some(CONSEQUENCE),
        remedy,
    }
}
