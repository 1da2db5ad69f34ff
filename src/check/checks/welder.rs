//! `welder`: whether the welder's qualification covers the job and holds on the day.

use crate::{
    check::{
        Case, Findings, Force, Outcome, Shown, Source,
        choice_check::{Rule, Said, Words, texts},
        record::{Proof, Welder, WelderQualification},
        registry::declare_check,
    },
    qualify::record::ProductForm,
    qualify::welder::{Ending, FillerType, Layers, Validity, WelderJob, WelderRuling},
    quantity::OutsideDiameter,
    trade::{Designation, Position, RunClass},
};

declare_check! {
    /// ## Checks
    /// Where the setup names a welder or operator: one of the person's qualifications covers process,
    /// product, weld, filler, sizes, position and details of the job, was confirmed in time and has not
    /// reached its term on the day. A welder's qualification covers manual and partly mechanised welding, an
    /// operator's the fully mechanised and automatic: the degree is as the setup states it, else as the procedure
    /// fixes it for the run, else manual where the process is (111). A range that rests on values from memory
    /// counts only after a
    /// responsible person signed that it agrees with the printed code.
    ///
    /// ## Why
    /// A weld made by somebody whose qualification has lapsed or does not cover it is refused at hand-over,
    /// however well it was made.
    ///
    /// ## Source
    /// ISO 9606-1, ISO 14732, ASME BPVC Section IX or AWS D1.1, as the rule pack of the qualification cites
    /// them clause by clause.
    ///
    /// ## Not checked
    /// The filler type of the work, unless an AWS class of the electrode says it, and plate or pipe, unless
    /// the parts state their form or the position is one of a fixed pipe; filler group and backing, which are taken as stated. Whether the
    /// governing code accepts a qualification by this standard, and whether the person named is
    /// the one who welds.
    "welder", Welder => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some(
        "The weld would be made by somebody who is not qualified for it on this day.",
    ),
    change: Some("Have it welded by somebody whose qualification covers it and holds"),
    state: Some("Name a welder of this organisation, and say of the work what the range asks for."),
    record: None,
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let rule =
        Rule { check: &CHECK, source: Source::Service, force: Force::Required, words: &WORDS };
    let Some(claim) = &case.setup.welder else {
        return rule.finding(findings, Outcome::NotApplicable, |_| {
            Said::reason("The setup names no welder.")
        });
    };
    let Some(welder) = case.book.welders.get(&claim.code) else {
        return rule.finding(findings, Outcome::NotGiven, |_| Said {
            given: Shown::word(&claim.code),
            ..Said::reason(format!("This organisation has no welder {}.", claim.code))
        });
    };
    let rule = Rule { source: Source::Welder(welder), ..rule };
    let given = || Shown::word(&claim.code);
    let asked = job(case, &claim.work);
    let Some((qualification, proof)) = welder.best_proof(&asked, case.day) else {
        return rule.finding(findings, Outcome::Outside, |_| Said {
            given: given(),
            ..Said::reason(format!("No qualification of welder {} is recorded.", claim.code))
        });
    };
    let outcome = match proof.ruling() {
        WelderRuling::Within => Outcome::Inside,
        WelderRuling::NotJudged => Outcome::NotGiven,
        WelderRuling::Outside => Outcome::Outside,
    };
    rule.finding(findings, outcome, |_| Said {
        given: given(),
        allowed: Shown::Nothing,
        reason: reason(welder, qualification, &proof),
    });
}

/// The job as a welder's range reads it. What the job, the run or the filler says itself goes before what is said of the
/// work; a welder may deposit less than the whole, where others weld the rest.
fn job(case: &Case<'_>, work: &WelderJob) -> WelderJob {
    let job = &case.setup.job;
    let thicknesses: Option<Vec<_>> = job.base_metals.iter().map(|part| part.thickness).collect();
    let thicknesses = thicknesses.filter(|_| job.lacking_part().is_none());
    WelderJob {
        process: case.setup.process.or(Some(case.procedure.process)),
        weld: job.joint,
        thicknesses: thicknesses.unwrap_or_default(),
        positions: case.position().map(|claim| claim.positions().collect()).unwrap_or_default(),
        transfer: case.setup.settings.transfer.or(work.transfer),
        product: product(case).or(work.product),
        outside_diameter: outside_diameter(case).or(work.outside_diameter),
        mechanisation: case.setup.mechanisation().or(case.run.mechanisation),
        deposit: work.deposit.or(job.deposited_thickness),
        layers: layers(job.run_class).or(work.layers),
        filler_type: filler_type(case, work.filler_type),
        ..work.clone()
    }
}

/// A position of a fixed pipe says that it is one; else a part that is a pipe, or the form that all parts have.
fn product(case: &Case<'_>) -> Option<ProductForm> {
    let fixed =
        case.position().is_some_and(|claim| claim.positions().any(Position::is_of_fixed_pipe));
    let forms = || case.setup.job.base_metals.iter().map(|part| part.form);
    if fixed || forms().any(|form| form == Some(ProductForm::Pipe)) {
        return Some(ProductForm::Pipe);
    }
    let first = forms().next()??;
    forms().all(|form| form == Some(first)).then_some(first)
}

/// The one diameter that the parts state; of two that differ, the work says which counts.
fn outside_diameter(case: &Case<'_>) -> Option<OutsideDiameter> {
    let mut stated = case.setup.job.base_metals.iter().filter_map(|part| part.outside_diameter);
    let first = stated.next()?;
    stated.all(|other| other == first).then_some(first)
}

/// A hot, a fill and a cap run are runs of several layers.
const fn layers(run: Option<RunClass>) -> Option<Layers> {
    match run {
        Some(RunClass::Hot | RunClass::Fill | RunClass::Cap) => Some(Layers::Multi),
        _ => None,
    }
}

/// The type as stated, unless the class of the electrode says another: a low-hydrogen covering is a basic one (AWS A5.1;
/// from memory), and no other is.
fn filler_type(case: &Case<'_>, stated: Option<FillerType>) -> Option<FillerType> {
    let low_hydrogen = case.designations().find_map(Designation::low_hydrogen_covering);
    match low_hydrogen {
        Some(true) => Some(FillerType::B),
        Some(false) => stated.filter(|kind| *kind != FillerType::B),
        None => stated,
    }
}

/// Why: what ended it, else what lies outside, else what is missing, else until when it holds.
fn reason(welder: &Welder, qualification: &WelderQualification, proof: &Proof) -> String {
    let who = format!(
        "Qualification {} of welder {} by {}",
        qualification.id, welder.code, qualification.range.code
    );
    let until = match &proof.validity {
        Some(Validity::Lapsed { last_day, ending }) => {
            return format!("{who} lapsed after {last_day}: {}.", ended(*ending));
        }
        Some(Validity::NotYet { from }) => return format!("{who} begins on {from}."),
        Some(Validity::Unknown(missing)) => return format!("{who} cannot be dated: {missing}."),
        None => return format!("{who} has no rules in this service any more."),
        Some(Validity::InForce { until, .. }) => until,
    };
    if let Some(outside) = proof.judgement.with(WelderRuling::Outside).next() {
        let (variable, clause) = (outside.variable, &outside.clause);
        return format!(
            "{who} covers {variable} {}, not {} ({clause}).",
            outside.allowed, outside.given
        );
    }
    if let Some(open) = proof.judgement.with(WelderRuling::NotJudged).next() {
        let missing = open.missing.as_ref().map(ToString::to_string).unwrap_or_default();
        return format!(
            "{who} cannot be judged for {}: {missing} ({}).",
            open.variable, open.clause
        );
    }
    if proof.unsigned_memory {
        return format!("{who} rests on values from memory that nobody has signed.");
    }
    format!("{who} covers the job and holds until {until}, if nothing is done.")
}

const fn ended(ending: Ending) -> &'static str {
    match ending {
        Ending::Confirmation => "nobody confirmed it in time",
        Ending::Term => "its term was over",
        Ending::Withdrawn => "it was withdrawn",
    }
}

#[cfg(test)]
mod tests {
    use time::{Date, macros::date};

    use super::*;
    use crate::{
        check::{
            Finding,
            Outcome::{self, *},
            WelderClaim,
            fixture::{Scene, quantity},
        },
        qualify::{
            record::Mechanisation,
            welder::{
                Confirmation, ConfirmedBy, FillerGroup, QualificationDates, TestPosition,
                WelderTest, welder_pack,
            },
        },
        quantity::UnitSystem,
        trade::{JointKind, Process},
    };

    /// A fillet by 136 in PB.
    fn test() -> WelderTest {
        WelderTest {
            welded_on: date!(2024 - 10 - 01),
            system: UnitSystem::Metric,
            process: Process::MagFluxCored,
            mechanisation: None,
            transfer: None,
            product: Some(ProductForm::Plate),
            weld: Some(JointKind::Fillet),
            filler_group: Some(FillerGroup::Fm1),
            filler_type: Some(FillerType::P),
            f_number: None,
            deposit: None,
            thickness: Some(quantity("10 mm")),
            outside_diameter: None,
            positions: vec![TestPosition::Pb],
            progression: None,
            backing: None,
            layers: Some(Layers::Multi),
            layer_count: None,
            welding_unit: None,
            sensing: None,
            view: None,
        }
    }

    /// Confirmed on 2025-03-01, signed against print.
    fn welder() -> Welder {
        let test = test();
        let dates = QualificationDates {
            welded_on: test.welded_on,
            option: Some("b".to_owned()),
            confirmations: vec![Confirmation {
                on: date!(2025 - 03 - 01),
                by: ConfirmedBy::Signature,
            }],
            revalidations: Vec::new(),
            withdrawn_on: None,
        };
        let range = welder_pack("iso-9606-1-2012").unwrap().range(&test);
        let id = "Q1".to_owned();
        let qualification = WelderQualification { id, range, dates, range_signed: true };
        Welder { code: "W-1".to_owned(), qualifications: vec![qualification] }
    }

    fn scene() -> Scene {
        Scene::allowed().with(|s| {
            s.welder = Some(welder());
            let work = WelderJob {
                product: Some(ProductForm::Plate),
                filler_group: Some(FillerGroup::Fm1),
                filler_type: Some(FillerType::P),
                layers: Some(Layers::Single),
                ..WelderJob::default()
            };
            s.setup.welder = Some(WelderClaim { code: "W-1".to_owned(), work });
            s.setup.settings.mechanisation = Some(Mechanisation::Partly);
        })
    }

    fn found(change: impl FnOnce(&mut Scene)) -> Finding {
        let mut found = scene().with(change).of("welder");
        assert_eq!(found.len(), 1);
        found.remove(0)
    }

    fn work(scene: &mut Scene) -> &mut WelderJob {
        &mut scene.setup.welder.as_mut().unwrap().work
    }

    fn qualification(scene: &mut Scene) -> &mut WelderQualification {
        &mut scene.welder.as_mut().unwrap().qualifications[0]
    }

    fn on(day: Date) -> Outcome {
        found(|s| s.day = day).outcome
    }

    #[test]
    fn a_covered_job_on_a_day_in_force_is_inside() {
        let inside = found(|_| ());
        assert_eq!(inside.outcome, Inside, "{inside:?}");
        assert!(inside.reason.contains("holds until 2025-09-01"), "{}", inside.reason);
        assert!(inside.owner.to_string().contains("W-1"));
    }

    #[test]
    fn a_lapsed_one_is_refused_and_says_why() {
        assert_eq!((on(date!(2025 - 09 - 01)), on(date!(2025 - 09 - 02))), (Inside, Outside));
        assert_eq!(on(date!(2024 - 09 - 30)), Outside);
        let lapsed = found(|s| s.day = date!(2025 - 09 - 02));
        assert!(lapsed.reason.contains("nobody confirmed it in time"), "{}", lapsed.reason);
        assert!(lapsed.remedy.is_some() && lapsed.consequence.is_some());
    }

    #[test]
    fn outside_the_range_is_refused_and_a_missing_fact_is_not_given() {
        let group = found(|s| work(s).filler_group = Some(FillerGroup::Fm5));
        assert_eq!(group.outcome, Outside);
        assert!(group.reason.contains("filler-group FM1, FM2, not FM5"), "{}", group.reason);
        let open = found(|s| work(s).filler_type = None);
        assert_eq!(open.outcome, NotGiven);
        assert!(open.reason.contains("filler-type"), "{}", open.reason);
        let half = found(|s| s.setup.job.base_metals.truncate(1));
        assert_eq!(half.outcome, NotGiven, "{half:?}");
        let up = found(|s| s.setup.job.position = Some(crate::check::fixture::claim(Position::Pf)));
        assert_eq!(up.outcome, Outside);
    }

    /// ISO 9606-1:2012, 5.9 (one layer does not cover several), 5.6 (a rutile filler does not cover a basic one): from
    /// memory.
    #[test]
    fn what_run_and_filler_say_goes_before_what_is_said_of_the_work() {
        let single = |s: &mut Scene, class| {
            let test = WelderTest { layers: Some(Layers::Single), ..test() };
            qualification(s).range = welder_pack("iso-9606-1-2012").unwrap().range(&test);
            s.setup.job.run_class = Some(class);
        };
        assert_eq!(found(|s| single(s, RunClass::Single)).outcome, Inside);
        for class in [RunClass::Hot, RunClass::Fill, RunClass::Cap] {
            let several = found(|s| single(s, class));
            assert_eq!(several.outcome, Outside, "{several:?}");
        }
        let classified = |text: &str, stated| {
            found(|s| {
                let class = Designation::parse(text).unwrap();
                s.consumable.as_mut().unwrap().designations = vec![class];
                work(s).filler_type = Some(stated);
            })
        };
        assert_eq!(classified("E6013", FillerType::P).outcome, Inside);
        let basic = classified("E7018", FillerType::P);
        assert_eq!(basic.outcome, Outside);
        assert!(basic.reason.contains("not B"), "{}", basic.reason);
        assert_eq!(classified("E6013", FillerType::B).outcome, NotGiven);
    }

    /// ISO 9606-1:2012, 5.7, table 7: a pipe of 60.3 mm covers those of half its diameter on, 30.15 mm (from memory). A
    /// fixed pipe is no plate, whatever is said of the work.
    #[test]
    fn a_position_of_a_fixed_pipe_asks_for_the_diameter() {
        let of = |diameter: Option<&str>| {
            found(|s| {
                let test = WelderTest {
                    product: Some(ProductForm::Pipe),
                    outside_diameter: Some(quantity("60.3 mm")),
                    positions: vec![TestPosition::Ph],
                    ..test()
                };
                qualification(s).range = welder_pack("iso-9606-1-2012").unwrap().range(&test);
                s.setup.job.position = Some(crate::check::fixture::claim(Position::Ph));
                work(s).product = Some(ProductForm::Plate);
                work(s).outside_diameter = diameter.map(quantity);
            })
        };
        assert_eq!(of(Some("30.2 mm")).outcome, Inside, "{:?}", of(Some("30.2 mm")));
        let small = of(Some("30 mm"));
        assert_eq!(small.outcome, Outside);
        assert!(small.reason.contains("30.15 mm"), "{}", small.reason);
        let unstated = of(None);
        assert_eq!(unstated.outcome, NotGiven);
        assert!(unstated.reason.contains("outside-diameter"), "{}", unstated.reason);
    }

    /// ISO 9606-1:2012, 5.3: a test on plate covers turned pipes in PB from 75 mm (from memory).
    #[test]
    fn what_the_parts_state_goes_before_what_is_said_of_the_work() {
        let of = |form, diameter: &str| {
            found(|s| {
                for part in &mut s.setup.job.base_metals {
                    part.form = Some(form);
                    part.outside_diameter = Some(quantity(diameter));
                }
                work(s).product = Some(ProductForm::Plate);
                work(s).rotating = Some(true);
                work(s).outside_diameter = Some(quantity("600 mm"));
            })
        };
        let pipe = of(ProductForm::Pipe, "60.3 mm");
        assert_eq!(pipe.outcome, Outside, "{pipe:?}");
        assert!(pipe.reason.contains("60.3 mm"), "{}", pipe.reason);
        assert_eq!(of(ProductForm::Plate, "60.3 mm").outcome, Inside);
    }

    /// ISO 9606-1, clause 1, from memory: manual and partly mechanised; the rest is for operators (ISO 14732).
    #[test]
    fn a_welder_is_no_operator_and_an_unstated_degree_is_asked_for() {
        use Mechanisation::{Automatic, Fully, Manual, Partly};
        let by = |stated, fixed, of_work| {
            found(|s| {
                s.setup.settings.mechanisation = stated;
                s.procedure.runs[0].mechanisation = fixed;
                work(s).mechanisation = of_work;
            })
        };
        for (degree, outcome) in
            [(Manual, Inside), (Partly, Inside), (Fully, Outside), (Automatic, Outside)]
        {
            assert_eq!(by(Some(degree), None, None).outcome, outcome, "stated {degree}");
            assert_eq!(by(None, Some(degree), None).outcome, outcome, "fixed {degree}");
            assert_eq!(by(None, None, Some(degree)).outcome, outcome, "of the work {degree}");
        }
        assert_eq!(by(Some(Fully), Some(Partly), Some(Partly)).outcome, Outside);
        let automatic = by(Some(Automatic), None, None).reason;
        let expected = "covers mechanisation manual, partly-mechanised, not automatic (1)";
        assert!(automatic.contains(expected), "{automatic}");
        let unstated = by(None, None, None);
        assert_eq!(unstated.outcome, NotGiven);
        assert!(unstated.reason.contains("mechanisation"), "{}", unstated.reason);
    }

    #[test]
    fn values_from_memory_need_a_signature() {
        let unsigned = found(|s| qualification(s).range_signed = false);
        assert_eq!(unsigned.outcome, NotGiven);
        assert!(unsigned.reason.contains("memory"), "{}", unsigned.reason);
    }

    #[test]
    fn an_unknown_welder_is_not_given_none_is_no_matter_and_one_without_proof_is_refused() {
        assert_eq!(found(|s| s.welder = None).outcome, NotGiven);
        assert_eq!(found(|s| s.setup.welder = None).outcome, NotApplicable);
        let none = found(|s| s.welder.as_mut().unwrap().qualifications.clear());
        assert_eq!(none.outcome, Outside);
    }

    #[test]
    fn the_best_of_several_qualifications_decides() {
        let both = found(|s| {
            let mut old = welder().qualifications.remove(0);
            old.dates.confirmations.clear();
            old.id = "Q0".to_owned();
            s.welder.as_mut().unwrap().qualifications.insert(0, old);
        });
        assert_eq!(both.outcome, Inside);
        assert!(both.reason.contains("Q1"), "{}", both.reason);
    }
}
