//! `consumable-data`: printed data for exactly this setup, where the procedure calls it up.

use crate::check::{
    Case, Findings, Force, Outcome, Shown,
    choice_check::{Rule, Said, Words, texts},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// Where the procedure makes the consumable's printed ranges its own limits, a data edition holds
    /// a condition for this diameter, gas group, polarity and position.
    ///
    /// ## Why
    /// Without such a condition the limits the procedure counts on do not exist, and a setup would
    /// pass unbounded.
    ///
    /// ## Source
    /// The procedure and the consumable's data editions; the newest edition with a matching condition
    /// counts.
    ///
    /// ## Not checked
    /// The values themselves: each variable has its own check.
    "consumable-data", Consumable => check, texts!(WORDS)
}

const WORDS: Words = Words {
    state: Some(
        "State consumable, diameter, gas, polarity and position, which select the printed data.",
    ),
    record: Some("Record the printed data for this diameter, gas, polarity and position."),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    if !case.procedure.calls_up_data {
        rule.finding(findings, Outcome::NotApplicable, |owner| {
            Said::reason(format!("The printed data is not called up by {owner}."))
        });
        return;
    }
    let filler = &case.setup.filler;
    let selectors = [
        (case.consumable.is_none(), "consumable"),
        (filler.diameter.is_none(), "diameter"),
        (filler.polarity.is_none(), "polarity"),
        (case.setup.job.position.is_none(), "position"),
        (case.procedure.process.gas_shielded() && filler.gas.is_none(), "gas"),
    ];
    let missing = || selectors.iter().filter(|(gap, _)| *gap).map(|(_, name)| *name);
    let outcome = match case.data {
        Some(_) => Outcome::Inside,
        None if missing().next().is_some() => Outcome::NotGiven,
        None => Outcome::NoLimit,
    };
    rule.finding(findings, outcome, |_| match case.data {
        Some((edition, _)) => {
            let document = format!("{}, {}", edition.document, edition.edition);
            let reason = format!("{document} holds a condition for this setup.");
            Said { given: Shown::word(document), ..Said::reason(reason) }
        }
        None if outcome == Outcome::NotGiven => {
            let missing: Vec<_> = missing().collect();
            Said::reason(format!("The data cannot be selected without: {}.", missing.join(", ")))
        }
        None => Said::reason(
            "No edition holds a condition for this diameter, gas, polarity and position.",
        ),
    });
}

#[cfg(test)]
mod tests {
    use crate::check::{Outcome, Outcome::*, fixture::Scene};

    fn outcomes(change: impl FnOnce(&mut Scene)) -> Vec<Outcome> {
        let called_up = Scene::allowed().with(|s| s.procedure.calls_up_data = true);
        called_up.with(change).outcomes("consumable-data")
    }

    #[test]
    fn data_that_is_called_up_must_exist_for_the_setup() {
        assert_eq!(outcomes(|_| ()), [Inside]);
        assert_eq!(outcomes(|s| s.consumable.as_mut().unwrap().data.clear()), [NoLimit]);
        let unknown = outcomes(|s| {
            s.consumable.as_mut().unwrap().data.clear();
            s.setup.filler.polarity = None;
        });
        assert_eq!(unknown, [NotGiven]);
        assert_eq!(outcomes(|s| s.procedure.calls_up_data = false), [NotApplicable]);
    }
}
