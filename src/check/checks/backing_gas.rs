//! `backing-gas`: gas behind the root against the procedure.

use super::gas;
use crate::{
    check::{
        Case, Findings, Force, Outcome,
        choice_check::{Rule, Said, Words, texts},
        registry::declare_check,
    },
    trade::{Gas, GasGroup},
};

declare_check! {
    /// ## Checks
    /// The gas behind the root is the one the procedure fixes: its group, or its mixture where it fixes one;
    /// `none` where the procedure says that there is none. It concerns the runs whose back is open, root, hot
    /// and single ones, and fill and cap runs only where the procedure asks for a gas behind these alone. A
    /// procedure that says nothing of it leaves it open.
    ///
    /// ## Why
    /// Without it the back of a stainless or reactive root burns: it scales, loses chromium and corrodes there.
    ///
    /// ## Source
    /// The procedure. Rules behind it: ISO 15614-1:2017, 8.5.6; ASME IX QW-408.9. Tolerance of a mixture as for the
    /// shielding gas (ISO 14175, from memory). Which runs have an open back: common practice, no source.
    ///
    /// ## Not checked
    /// Flow, purge time and oxygen left behind the root.
    "backing-gas", BackingGas => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some(
        "The back of the root is not protected as in the test: scale, loss of alloy, corrosion.",
    ),
    change: Some("Purge the back of the root as the procedure says, with"),
    state: Some("State the gas behind the root, best as its composition, or none."),
    record: Some("Record the mixture of the gas behind the root."),
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let stated = case.setup.filler.backing_gas;
    if case.run.backing_gas.is_none() && stated.is_none() {
        return;
    }
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    let no_matter = |findings: &mut Findings, why: &str| {
        rule.of_owner(findings, Outcome::NotApplicable, || gas::shown(stated), why);
    };
    match case.run.backing_gas {
        None => no_matter(findings, "The gas behind the root is left open for this run"),
        Some(fixed) if is_covered(case, fixed) => {
            no_matter(
                findings,
                "The root covers the back of this run; what stands there is set for it",
            );
        }
        Some(fixed) => against(findings, &rule, stated, fixed),
    }
}

/// Whether the root lies between this run and the back, and the procedure asks for no gas behind this run apart from
/// the root.
fn is_covered(case: &Case<'_>, fixed: Gas) -> bool {
    case.setup.job.run_class.is_some_and(|class| !class.has_open_back())
        && (fixed == Gas::None || case.run.classes.iter().any(|class| class.has_open_back()))
}

fn against(findings: &mut Findings, rule: &Rule<'_>, stated: Option<Gas>, fixed: Gas) {
    let outcome = stated.map_or(Outcome::NotGiven, |stated| outcome(stated, fixed));
    rule.finding(findings, outcome, |owner| {
        let given = gas::shown(stated);
        let allowed = gas::shown(Some(fixed));
        let reason = match (outcome, stated) {
            (Outcome::Inside, _) => format!("Behind the root {given} is what {owner} sets."),
            (Outcome::EdgeInside, _) => format!(
                "Behind the root {given} differs from {allowed} of {owner} by no more than the tolerance of \
                 a mixture in ISO 14175, which is from memory."
            ),
            (Outcome::NotGiven, None) => {
                format!("The setup does not state the gas behind the root; {owner} sets {allowed}.")
            }
            (Outcome::NotGiven, Some(_)) => {
                format!("Behind the root {given} is only a group; {owner} sets {allowed}.")
            }
            (Outcome::NoLimit, _) => format!(
                "Two gases of group Z are not interchangeable (ISO 14175, from memory), and no mixture behind \
                 the root is set by {owner}."
            ),
            _ => format!("Behind the root {given} is not {allowed} of {owner}."),
        };
        Said { given, allowed, reason }
    });
}

fn outcome(stated: Gas, fixed: Gas) -> Outcome {
    match (stated.mixture(), fixed) {
        (_, Gas::None) if stated == Gas::None => Outcome::Inside,
        (Some(own), Gas::Mixture(mixture)) if own == mixture => Outcome::Inside,
        (Some(own), Gas::Mixture(mixture)) if gas::within_tolerance(&own, &mixture) => {
            Outcome::EdgeInside
        }
        (None, Gas::Mixture(mixture)) if stated.group() == Some(mixture.iso_14175()) => {
            Outcome::NotGiven
        }
        (_, Gas::Group(group)) if stated.group() == Some(group) => {
            if group == GasGroup::Z {
                Outcome::NoLimit
            } else {
                Outcome::Inside
            }
        }
        _ => Outcome::Outside,
    }
}

#[cfg(test)]
mod tests {
    use rust_decimal::Decimal;

    use crate::{
        check::{Outcome, Outcome::*, Verdict, fixture::Scene},
        trade::{
            Gas, GasComponent, GasMixture,
            RunClass::{self, Cap, Fill, Hot, Root, Single},
        },
    };

    fn gas(text: &str) -> Option<Gas> {
        match text {
            "" => None,
            "none" => Some(Gas::None),
            text => Some(Gas::parse(text).unwrap()),
        }
    }

    /// A stainless root, group 8.1 of ISO/TR 15608.
    fn scene(fixed: &str, stated: &str) -> Scene {
        Scene::allowed().with(|s| {
            s.procedure.base_metals = vec!["8.1".parse().unwrap()];
            s.setup.job.base_metals.iter_mut().for_each(|part| part.group = "8.1".parse().ok());
            s.procedure.runs[0].classes = vec![Root];
            s.setup.job.run_class = Some(Root);
            s.procedure.runs[0].backing_gas = gas(fixed);
            s.setup.filler.backing_gas = gas(stated);
        })
    }

    fn outcomes(fixed: &str, stated: &str) -> Vec<Outcome> {
        scene(fixed, stated).outcomes("backing-gas")
    }

    #[test]
    fn what_the_procedure_sets_has_to_be_stated_and_the_same() {
        assert_eq!(outcomes("I1", "I1"), [Inside]);
        assert_eq!(outcomes("I1", "none"), [Outside]);
        assert_eq!(outcomes("I1", "N2"), [Outside]);
        assert_eq!(outcomes("I1", ""), [NotGiven]);
        assert_eq!(scene("I1", "").verdict(), Verdict::Undetermined);
        assert_eq!(scene("I1", "none").verdict(), Verdict::NotAllowed);
        assert_eq!(outcomes("none", "none"), [Inside]);
        assert_eq!(outcomes("none", "I1"), [Outside]);
        assert_eq!(outcomes("none", ""), [NotGiven]);
    }

    /// 10 % of hydrogen in nitrogen is N5; 9.1 % lies within a tenth of its share (ISO 14175, from memory).
    #[test]
    fn a_mixture_is_held_to_its_shares() {
        assert_eq!(outcomes("NH-10", "NH-10"), [Inside]);
        assert_eq!(outcomes("NH-10", "NH-9.1"), [EdgeInside]);
        assert_eq!(outcomes("NH-10", "NH-8"), [Outside]);
        assert_eq!(outcomes("NH-10", "N5"), [NotGiven]);
        assert_eq!(outcomes("N5", "NH-10"), [Inside]);
        assert_eq!(outcomes("Z", "Z"), [NoLimit]);
    }

    /// ISO 14175:2008, Table 2, from memory: I1 is argon and N1 nitrogen, and nothing else.
    #[test]
    fn a_group_of_one_pure_gas_is_its_composition() {
        let of = |fixed: GasComponent, stated: &str| {
            let pure = GasMixture::new(&[(fixed, Decimal::ONE_HUNDRED)]).unwrap();
            let fixed = scene("I1", stated);
            let fixed = fixed.with(|s| s.procedure.runs[0].backing_gas = Some(Gas::Mixture(pure)));
            fixed.outcomes("backing-gas")
        };
        assert_eq!(of(GasComponent::Argon, "I1"), [Inside]);
        assert_eq!(of(GasComponent::Argon, "I3"), [Outside]);
        assert_eq!(of(GasComponent::Nitrogen, "N1"), [Inside]);
        assert_eq!(of(GasComponent::Nitrogen, "I1"), [Outside]);
    }

    #[test]
    fn what_the_procedure_leaves_open_is_no_matter() {
        assert_eq!(outcomes("", ""), []);
        assert_eq!(outcomes("", "I1"), [NotApplicable]);
    }

    #[test]
    fn only_runs_with_an_open_back_are_concerned() {
        let run = |classes: &[RunClass], stated: Option<RunClass>| {
            let scene = scene("I1", "").with(|s| {
                s.procedure.runs[0].classes = classes.to_vec();
                s.setup.job.run_class = stated;
            });
            scene.outcomes("backing-gas")
        };
        for open in [Root, Hot, Single] {
            assert_eq!(run(&[Root, Hot, Single, Fill, Cap], Some(open)), [NotGiven], "{open}");
        }
        for covered in [Fill, Cap] {
            assert_eq!(run(&[Root, Fill, Cap], Some(covered)), [NotApplicable], "{covered}");
            assert_eq!(
                run(&[Fill, Cap], Some(covered)),
                [NotGiven],
                "{covered}: stated for it alone"
            );
        }
        assert_eq!(run(&[Root, Fill], None), [NotGiven]);
        let none = scene("none", "").with(|s| {
            s.procedure.runs[0].classes = vec![Fill];
            s.setup.job.run_class = Some(Fill);
        });
        assert_eq!(none.outcomes("backing-gas"), [NotApplicable]);
    }
}
