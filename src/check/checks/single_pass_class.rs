//! `single-pass-class`: the run of the joint against classes for welds of one run.

use crate::{
    check::{
        Case, Findings, Force, Outcome, Shown,
        choice_check::{Rule, Said, Words, texts},
        registry::declare_check,
    },
    trade::{Coded, Designation, RunClass},
};

declare_check! {
    /// ## Checks
    /// A filler whose designation is for single-run welds only lays a run of the class `single`, not one of
    /// several. Where the filler is classified for several runs by another of its designations, that one counts.
    /// AWS T-13 lays a root as well.
    ///
    /// ## Why
    /// Such wires hold much deoxidiser, for rust and scale. Run over run it builds up in the weld, which turns hard and
    /// cracks.
    ///
    /// ## Source
    /// The designation's own standard: AWS A5.20 codes 2, 3, 10, 13, 14 and GS (Bohnart, Welding: Principles and
    /// Practices, Table 23-2; T-13 in roots from memory), A5.18 class GS and A5.1 class E6022 (from memory), symbols
    /// 2T to 5T of ISO 17632-A (from memory).
    ///
    /// ## Not checked
    /// Whether a weld of the class `single` really gets one run.
    "single-pass-class", RunClass => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some(
        "Run over run the weld metal takes up too much manganese and silicon, or aluminium: it turns hard and cracks.",
    ),
    change: Some(
        "Take a filler that is classified for welds of several runs; this one is for runs of the class",
    ),
    state: Some(
        "State which run of the joint is meant: this filler is classified for single-run welds.",
    ),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let single = |one: &&Designation| one.single_pass_only() == Some(true);
    let Some(designation) = case.designations().find(single) else { return };
    let source = case.designation_source(designation);
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    let several = case.designations().find(|one| one.single_pass_only() == Some(false));
    if let Some(several) = several {
        let reason =
            || format!("The filler is classified for several runs as {} too.", several.text());
        rule.finding(findings, Outcome::NotApplicable, |_| Said {
            given: Shown::words(case.setup.job.run_class),
            ..Said::reason(reason())
        });
        return;
    }
    let all = RunClass::ALL.iter().map(|(class, _)| *class);
    let laid: Vec<_> = all.filter(|class| designation.lays(*class) == Some(true)).collect();
    rule.one_of(findings, case.setup.job.run_class, &laid);
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{
            Outcome::{self, *},
            fixture::Scene,
        },
        trade::{Designation, RunClass},
    };

    fn outcomes(designations: &[&str], run: Option<RunClass>) -> Vec<Outcome> {
        let scene = Scene::allowed().with(|s| {
            let read = designations.iter().map(|text| Designation::parse(text).unwrap());
            s.consumable.as_mut().unwrap().designations = read.collect();
            s.setup.job.run_class = run;
        });
        scene.outcomes("single-pass-class")
    }

    const SEVERAL: [RunClass; 4] = [RunClass::Root, RunClass::Hot, RunClass::Fill, RunClass::Cap];

    /// Bohnart, Table 23-2: single pass are T-2, T-3, T-10, T-13, T-14 and T-GS; A5.36 and ISO 17632-B repeat the
    /// codes; E70C-GS, E6022 and the symbols 2T to 5T from memory.
    #[test]
    fn a_class_for_one_run_lays_no_run_of_several() {
        for class in [
            "E71T-2C",
            "E70T-2M",
            "E70T-3",
            "E70T-10",
            "E71T-14",
            "E71T-GS",
            "E70C-GS",
            "E6022",
            "T 3T Z P M21 1",
        ] {
            for run in SEVERAL {
                assert_eq!(outcomes(&[class], Some(run)), [Outside], "{class} {run}");
            }
            assert_eq!(outcomes(&[class], Some(RunClass::Single)), [Inside], "{class}");
            assert_eq!(outcomes(&[class], None), [NotGiven], "{class}");
        }
    }

    /// AWS A5.20, annex (from memory): T-13 is for the root of pipe and not for several runs.
    #[test]
    fn a_root_pass_class_lays_a_root() {
        let t13 = |run| outcomes(&["E71T-13"], Some(run));
        assert_eq!(t13(RunClass::Root), [Inside]);
        assert_eq!(t13(RunClass::Single), [Inside]);
        for run in [RunClass::Hot, RunClass::Fill, RunClass::Cap] {
            assert_eq!(t13(run), [Outside], "{run}");
        }
    }

    #[test]
    fn other_classes_and_another_designation_say_nothing_against_several_runs() {
        for class in ["E71T-1C", "E71T-8", "E71T-11", "E71T-G", "ER70S-6", "T 46 4 P M21 1 H5"] {
            assert_eq!(outcomes(&[class], Some(RunClass::Fill)), [], "{class}");
        }
        let both = ["E71T-GS", "E71T-11"];
        assert_eq!(outcomes(&both, Some(RunClass::Fill)), [NotApplicable]);
    }
}
