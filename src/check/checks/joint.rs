//! `joint`: butt or fillet against the procedure.

use crate::check::{
    Case, Findings, Force,
    choice_check::{Rule, Words, texts},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The kind of weld, butt or fillet, is one the procedure covers.
    ///
    /// ## Why
    /// A fillet cools faster and fuses a root that nobody sees; a butt weld needs its full
    /// penetration proven. Codes let a test of one stand for the other only under their own rules,
    /// which the procedure has already applied.
    ///
    /// ## Source
    /// The procedure. Rules behind it: ISO 15614-1:2017, 8.4.3 (clause from memory).
    ///
    /// ## Not checked
    /// Groove shape, root gap, backing.
    "joint", Joint => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some("Penetration and fusion were proven on another kind of weld."),
    change: Some("Use a procedure for this kind of weld; this one covers"),
    state: Some("State whether the weld is a butt or a fillet weld."),
    record: Some("Record the kinds of weld the procedure covers."),
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    if findings.has_settled(CHECK.variable) {
        return;
    }
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    rule.one_of(findings, case.setup.job.joint, &case.procedure.joints);
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{Outcome, Outcome::*, fixture::Scene},
        trade::JointKind,
    };

    fn outcomes(change: impl FnOnce(&mut Scene)) -> Vec<Outcome> {
        Scene::allowed().with(change).outcomes("joint")
    }

    #[test]
    fn every_outcome() {
        assert_eq!(outcomes(|_| ()), [Inside]);
        assert_eq!(outcomes(|s| s.procedure.joints = vec![JointKind::Butt]), [Outside]);
        assert_eq!(outcomes(|s| s.setup.job.joint = None), [NotGiven]);
        assert_eq!(outcomes(|s| s.procedure.joints.clear()), [NoLimit]);
    }
}
