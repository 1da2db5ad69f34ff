//! `consumable-approved`: whether the procedure names the filler.

use crate::{
    check::{
        Case, Findings, Force, Outcome, Shown,
        choice_check::{Rule, Said, Words, texts},
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

fn check(case: &Case<'_>, findings: &mut Findings) {
    if findings.has_settled(CHECK.variable) {
        return;
    }
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    let named = &case.procedure.consumables;
    let stated = case.setup.filler.consumable.as_ref();
    if case.procedure.process == Process::TigAutogenous && named.is_empty() {
        let outcome = if stated.is_some() { Outcome::Outside } else { Outcome::NotApplicable };
        rule.finding(findings, outcome, |owner| match stated {
            Some(filler) => Said {
                given: Shown::word(filler),
                ..Said::reason(format!("No filler is used by {owner}."))
            },
            None => Said::reason("The process has no filler."),
        });
        return;
    }
    let allowed = || Shown::words(named);
    match (stated, case.consumable) {
        (Some(stated), None) if !named.is_empty() => {
            rule.finding(findings, Outcome::NotGiven, |_| Said {
                given: Shown::word(stated),
                allowed: allowed(),
                reason: format!("This organisation has no consumable {stated}."),
            });
        }
        _ => {
            rule.judged(findings, stated, allowed, !named.is_empty(), |code| named.contains(code));
        }
    }
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
