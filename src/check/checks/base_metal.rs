//! `base-metal`: group of every part against the procedure.

use crate::check::{
    Case, Findings, Force, Shown,
    choice_check::{Rule, Words, texts},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The base-metal group of every part, by ISO/TR 15608, is one the procedure covers, or a
    /// sub-group of one. A butt or a fillet joins two parts: one that is stated alone does not stand for
    /// the other.
    ///
    /// ## Why
    /// Composition and strength decide hardening, cracking and the filler that matches.
    ///
    /// ## Source
    /// The procedure. Groups: ISO/TR 15608; rules behind the list: ISO 15614-1:2017, 8.3.
    ///
    /// ## Not checked
    /// Pairings of unlike groups, heat analysis and carbon equivalent.
    "base-metal", BaseMetal => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some(
        "Another group may harden and crack, or come out too weak, with this filler and heat.",
    ),
    change: Some("Use a procedure for this metal; this one covers groups"),
    state: Some("State the ISO/TR 15608 group of every part; two parts alike are listed twice."),
    record: Some("Record the base-metal groups the procedure covers."),
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    if findings.has_settled(CHECK.variable) {
        return;
    }
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    let groups = &case.procedure.base_metals;
    for part in &case.setup.job.base_metals {
        rule.judged(
            findings,
            part.group.as_ref(),
            || Shown::words(groups),
            !groups.is_empty(),
            |group| case.procedure.covers_metal(*group),
        );
    }
    rule.lacking_part(findings, &case.setup.job, "allows", || Shown::words(groups));
}

#[cfg(test)]
mod tests {
    use crate::check::{Outcome, Outcome::*, fixture::Scene};

    fn outcomes(change: impl FnOnce(&mut Scene)) -> Vec<Outcome> {
        Scene::allowed().with(change).outcomes("base-metal")
    }

    #[test]
    fn every_part_has_every_outcome() {
        assert_eq!(outcomes(|_| ()), [Inside, Inside]);
        let moved = outcomes(|s| s.procedure.base_metals = vec!["2".parse().unwrap()]);
        assert_eq!(moved, [Outside, Outside]);
        let mixed = outcomes(|s| s.setup.job.base_metals[1].group = "8.1".parse().ok());
        assert_eq!(mixed, [Inside, Outside]);
        let open = outcomes(|s| s.setup.job.base_metals[1].group = None);
        assert_eq!(open, [Inside, NotGiven]);
        assert_eq!(outcomes(|s| s.setup.job.base_metals.clear()), [NotGiven]);
        assert_eq!(outcomes(|s| s.setup.job.base_metals.truncate(1)), [Inside, NotGiven]);
        assert_eq!(outcomes(|s| s.procedure.base_metals.clear()), [NoLimit, NoLimit]);
    }

    #[test]
    fn a_sub_group_does_not_cover_its_group() {
        let outcomes = outcomes(|s| {
            s.procedure.base_metals = vec!["1.2".parse().unwrap()];
            s.setup.job.base_metals[0].group = "1".parse().ok();
        });
        assert_eq!(outcomes, [Outside, Inside]);
    }
}
