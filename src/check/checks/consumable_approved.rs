//! `consumable-approved`: whether the procedure names the filler.

use crate::{
    check::{
        Case, Finding, Force, Outcome, Shown,
        choice_check::{Rule, Words, texts},
        registry::declare_check,
    },
    trade::Process,
};

declare_check! {
    /// ## Checks
    /// The consumable is one of those the procedure names. A consumable that this organisation does
    /// not have counts as not given.
    ///
    /// ## Why
    /// Fillers of one classification still differ in slag, hydrogen and toughness; the procedure was
    /// tested with the ones it names.
    ///
    /// ## Source
    /// The procedure. Filler as an essential variable: ISO 15614-1:2017, 8.4.4.
    ///
    /// ## Not checked
    /// Batch, certificate, storage and drying of the filler.
    "consumable-approved", Consumable => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some("Strength and toughness of the deposit were never tested with this filler."),
    change: Some("Load one of the procedure's fillers:"),
    state: Some("State the filler by the code of its record."),
    record: Some("Record which fillers the procedure allows."),
};

fn check(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let owner = case.procedure_owner();
    let rule = Rule { check: &CHECK, owner, force: Force::Required, words: &WORDS };
    let named = &case.procedure.consumables;
    let allowed = Shown::words(named);
    if case.procedure.process == Process::TigAutogenous && named.is_empty() {
        findings.push(if let Some(filler) = &case.setup.filler.consumable {
            let reason = format!("No filler is used by {}.", rule.owner);
            rule.finding(Outcome::Outside, Shown::word(filler), Shown::Nothing, reason)
        } else {
            let reason = "The process has no filler.";
            rule.finding(Outcome::NotApplicable, Shown::Nothing, Shown::Nothing, reason)
        });
        return;
    }
    findings.push(match (&case.setup.filler.consumable, case.consumable) {
        (Some(stated), None) if !named.is_empty() => {
            let reason = format!("This organisation has no consumable {stated}.");
            rule.finding(Outcome::NotGiven, Shown::word(stated), allowed, reason)
        }
        (stated, _) => {
            rule.judged(stated.as_ref(), allowed, !named.is_empty(), |code| named.contains(code))
        }
    });
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{Outcome, Outcome::*, fixture::Scene},
        trade::Process,
    };

    fn outcomes(change: impl FnOnce(&mut Scene)) -> Vec<Outcome> {
        Scene::allowed().with(change).outcomes("consumable-approved")
    }

    #[test]
    fn every_outcome() {
        assert_eq!(outcomes(|_| ()), [Inside]);
        let other = || vec!["FCW-2".to_owned()];
        assert_eq!(outcomes(|s| s.procedure.consumables = other()), [Outside]);
        assert_eq!(outcomes(|s| s.setup.filler.consumable = None), [NotGiven]);
        assert_eq!(outcomes(|s| s.consumable = None), [NotGiven]);
        assert_eq!(outcomes(|s| s.procedure.consumables.clear()), [NoLimit]);
    }

    #[test]
    fn a_weld_without_filler_takes_none() {
        let autogenous = |s: &mut Scene| {
            s.procedure.process = Process::TigAutogenous;
            s.procedure.consumables.clear();
        };
        assert_eq!(outcomes(autogenous), [Outside]);
        let without = outcomes(|s| {
            autogenous(s);
            s.setup.filler.consumable = None;
        });
        assert_eq!(without, [NotApplicable]);
    }
}
