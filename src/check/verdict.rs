//! From findings to one verdict.

use crate::trade::coded;

use super::{Finding, Force, Outcome};

coded! {
    /// The answer to "may I weld like this?", from best to worst.
    pub enum Verdict: "verdict" {
        /// Everything required and advised is met.
        Allowed = "allowed",
        /// Everything required is met; some advice is not.
        AllowedWithAdvice = "allowed-with-advice",
        /// Something required is not known.
        Undetermined = "undetermined",
        /// Something required is not met.
        NotAllowed = "not-allowed",
    }
}

coded! {
    /// How measurement uncertainty enters the verdict (JCGM 106, ISO 14253-1); the organisation's
    /// choice.
    pub enum DecisionRule: "decision rule" {
        /// The value shown decides; a value near the edge adds advice.
        Simple = "simple-acceptance",
        /// A value whose error could put it outside, or whose error nobody knows, decides nothing.
        Guarded = "guarded-acceptance",
    }
}

impl Verdict {
    /// How far one finding pulls the verdict down.
    #[must_use]
    pub fn of_one(finding: &Finding, rule: DecisionRule) -> Self {
        Self::of_kind(finding.force, finding.outcome, finding.accuracy_unknown, rule)
    }

    /// How far a finding of one kind pulls the verdict down.
    pub(super) fn of_kind(
        force: Force,
        outcome: Outcome,
        accuracy_unknown: bool,
        rule: DecisionRule,
    ) -> Self {
        use Outcome::{EdgeInside, EdgeOutside, Inside, NoLimit, NotApplicable, NotGiven, Outside};
        let guarded = rule == DecisionRule::Guarded;
        match (force, outcome) {
            (_, NotApplicable) => Self::Allowed,
            (Force::Required, Outside | EdgeOutside) => Self::NotAllowed,
            (Force::Required, NotGiven | NoLimit) => Self::Undetermined,
            (Force::Required, EdgeInside) if guarded => Self::Undetermined,
            (Force::Required, Inside) if guarded && accuracy_unknown => Self::Undetermined,
            (_, Inside) if !accuracy_unknown => Self::Allowed,
            (Force::Required, EdgeInside | Inside) | (Force::Advised, _) => Self::AllowedWithAdvice,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::{Owner, Shown, Variable};
    use crate::trade::Coded;

    fn finding(force: Force, outcome: Outcome) -> Finding {
        Finding {
            check: "current",
            variable: Variable::Current,
            outcome,
            force,
            given: Shown::Nothing,
            allowed: Shown::Nothing,
            owner: Owner::SERVICE,
            reason: String::new(),
            remedy: None,
            consequence: None,
            accuracy_unknown: false,
            conformity: None,
        }
    }

    /// A required finding that is met, and one more.
    fn verdict(force: Force, outcome: Outcome, rule: DecisionRule) -> Verdict {
        Verdict::of(&[finding(Force::Required, Outcome::Inside), finding(force, outcome)], rule)
    }

    #[test]
    fn every_outcome_has_its_verdict() {
        use {DecisionRule::*, Force::*, Outcome::*};
        let table = [
            (Required, Inside, Verdict::Allowed, Verdict::Allowed),
            (Required, EdgeInside, Verdict::AllowedWithAdvice, Verdict::Undetermined),
            (Required, EdgeOutside, Verdict::NotAllowed, Verdict::NotAllowed),
            (Required, Outside, Verdict::NotAllowed, Verdict::NotAllowed),
            (Required, NotGiven, Verdict::Undetermined, Verdict::Undetermined),
            (Required, NoLimit, Verdict::Undetermined, Verdict::Undetermined),
            (Required, NotApplicable, Verdict::Allowed, Verdict::Allowed),
            (Advised, Inside, Verdict::Allowed, Verdict::Allowed),
            (Advised, EdgeInside, Verdict::AllowedWithAdvice, Verdict::AllowedWithAdvice),
            (Advised, EdgeOutside, Verdict::AllowedWithAdvice, Verdict::AllowedWithAdvice),
            (Advised, Outside, Verdict::AllowedWithAdvice, Verdict::AllowedWithAdvice),
            (Advised, NotGiven, Verdict::AllowedWithAdvice, Verdict::AllowedWithAdvice),
            (Advised, NotApplicable, Verdict::Allowed, Verdict::Allowed),
        ];
        for (force, outcome, simple, guarded) in table {
            assert_eq!(verdict(force, outcome, Simple), simple, "{force} {outcome} simple");
            assert_eq!(verdict(force, outcome, Guarded), guarded, "{force} {outcome} guarded");
        }
    }

    #[test]
    fn nothing_is_allowed_on_no_findings() {
        assert_eq!(Verdict::of(&[], DecisionRule::Simple), Verdict::Undetermined);
    }

    /// One required limit, met at the edge or by an instrument nobody knows: neither may fare better
    /// than the other by being the only one.
    #[test]
    fn a_single_limit_met_at_the_edge_is_met_as_far_as_the_rule_goes() {
        let edge = finding(Force::Required, Outcome::EdgeInside);
        let mut unknown = finding(Force::Required, Outcome::Inside);
        unknown.accuracy_unknown = true;
        for (rule, verdict) in [
            (DecisionRule::Simple, Verdict::AllowedWithAdvice),
            (DecisionRule::Guarded, Verdict::Undetermined),
        ] {
            assert_eq!(Verdict::of(std::slice::from_ref(&edge), rule), verdict);
            assert_eq!(Verdict::of(std::slice::from_ref(&unknown), rule), verdict);
        }
    }

    #[test]
    fn unknown_accuracy_is_never_as_good_as_none_needed() {
        let mut unknown = finding(Force::Required, Outcome::Inside);
        unknown.accuracy_unknown = true;
        let met = finding(Force::Required, Outcome::Inside);
        let both = [met, unknown];
        assert_eq!(Verdict::of(&both, DecisionRule::Simple), Verdict::AllowedWithAdvice);
        assert_eq!(Verdict::of(&both, DecisionRule::Guarded), Verdict::Undetermined);
    }

    #[test]
    fn the_order_of_codes_is_the_order_of_severity() {
        let codes: Vec<_> = Verdict::ALL.iter().map(|(_, code)| *code).collect();
        assert_eq!(codes, ["allowed", "allowed-with-advice", "undetermined", "not-allowed"]);
        assert!(Verdict::Allowed < Verdict::NotAllowed);
    }
}
