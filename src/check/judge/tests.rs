use std::sync::Arc;

use time::macros::date;

use super::*;
use crate::{
    check::{
        Force, Outcome, OwnerKind, Procedures, Telling, Variable, Verdict,
        fixture::{Scene as Records, quantity, range, set},
        record::Support,
    },
    qualify::record::{CurrentForm, Flux, Mechanisation, ProductForm, Transfer},
    trade::{
        BeadPattern, Coded, Gas, GasGroup, JointKind, Polarity, Position, PositionClaim, Process,
        RunClass, Waveform,
    },
};

fn answer(change: impl FnOnce(&mut Records)) -> Answer {
    let records = Records::allowed().with(change);
    judge(&records.book(), &records.setup, records.day, Telling::Everything)
}

/// The answer over several revisions instead of the scene's own.
fn among(revisions: Vec<Procedure>, change: impl FnOnce(&mut Records)) -> Answer {
    let records = Records::allowed().with(change);
    let mut book = records.book();
    book.procedures = Procedures::new(revisions.into_iter().map(Arc::new));
    judge(&book, &records.setup, records.day, Telling::Everything)
}

fn revision(number: &str, revision: u32) -> Procedure {
    Procedure { number: number.to_owned(), revision, ..Records::allowed().procedure }
}

fn unnamed(records: &mut Records) {
    records.setup.procedure = None;
    records.setup.work_order = None;
}

fn outcome(answer: &Answer, check: &str) -> Outcome {
    answer.findings.iter().find(|finding| finding.check == check).unwrap().outcome
}

/// Variables that a required finding says are not given.
fn not_given(answer: &Answer) -> Vec<Variable> {
    let open = |f: &&Finding| f.force == Force::Required && f.outcome == Outcome::NotGiven;
    answer.findings.iter().filter(open).map(|finding| finding.variable).collect()
}

#[test]
fn a_full_setup_inside_its_procedure_is_allowed() {
    let answer = answer(|_| ());
    assert_eq!(answer.verdict, Verdict::Allowed);
    let held_to = answer.held_to.unwrap();
    assert_eq!((held_to.procedure.as_str(), held_to.revision), ("WPS-1", 1));
    assert_eq!(held_to.run_classes, [RunClass::Fill]);
    assert!(answer.candidates.is_empty() && answer.near_misses.is_empty());
    assert_eq!(answer.cautions.into_list().last().unwrap().code, "judgement");
    assert!(answer.figures.get("iso-heat-input").is_some());
}

#[test]
fn without_a_named_procedure_the_covering_one_is_found() {
    let answer = answer(unnamed);
    assert_eq!(answer.verdict, Verdict::Allowed);
    assert_eq!(answer.held_to.unwrap().procedure, "WPS-1");
}

/// A change of a setup, as a plain function so that tables can hold it.
type Change = fn(&mut Records);

const MISSING: &[(Variable, Change)] = &[
    (Variable::Process, |s| s.setup.process = None),
    (Variable::Joint, |s| s.setup.job.joint = None),
    (Variable::Position, |s| s.setup.job.position = None),
    (Variable::BaseMetal, |s| {
        s.setup.job.base_metals.iter_mut().take(1).for_each(|part| part.group = None);
    }),
    (Variable::BaseMetal, |s| s.setup.job.base_metals.clear()),
    (Variable::BaseMetal, |s| s.setup.job.base_metals.truncate(1)),
    (Variable::Thickness, |s| s.setup.job.base_metals.truncate(1)),
    (Variable::Thickness, |s| {
        s.setup.job.base_metals.iter_mut().take(1).for_each(|part| part.thickness = None);
    }),
    (Variable::RunClass, |s| s.setup.job.run_class = None),
    (Variable::Bead, |s| s.setup.settings.bead = None),
    (Variable::Consumable, |s| s.setup.filler.consumable = None),
    (Variable::Diameter, |s| s.setup.filler.diameter = None),
    (Variable::Gas, |s| s.setup.filler.gas = None),
    (Variable::Polarity, |s| s.setup.filler.polarity = None),
    (Variable::Waveform, |s| s.setup.settings.waveform = None),
    (Variable::Transfer, |s| s.procedure.runs[0].transfer = Some(Transfer::Spray)),
    (Variable::Mechanisation, |s| {
        s.procedure.runs[0].mechanisation = Some(Mechanisation::Partly);
    }),
    (Variable::CurrentForm, |s| s.procedure.runs[0].current_form = Some(CurrentForm::Steady)),
    (Variable::DepositedThickness, |s| {
        s.procedure.deposited_thickness = Some(Box::new(range("8 mm", "24 mm")));
    }),
    (Variable::ProductForm, |s| s.procedure.forms = vec![ProductForm::Plate]),
    (Variable::OutsideDiameter, |s| {
        s.procedure.outside_diameter = Some(Box::new(range("84.15 mm", "")));
    }),
    (Variable::Electrodes, |s| s.procedure.runs[0].electrodes = Some(1)),
    (Variable::BackingGas, |s| {
        s.procedure.runs[0].classes = vec![RunClass::Fill];
        s.procedure.runs[0].backing_gas = Some(Gas::Group(GasGroup::I1));
    }),
    (Variable::Flux, |s| {
        let designation = Some("S A AB 1".to_owned());
        s.procedure.runs[0].flux = Some(Box::new(Flux { designation, ..Flux::default() }));
    }),
    (Variable::Current, |s| s.setup.settings.current = None),
    (Variable::Voltage, |s| s.setup.settings.voltage = None),
    (Variable::WireFeed, |s| s.setup.settings.wire_feed = None),
    (Variable::TravelSpeed, |s| s.setup.settings.travel_speed = None),
    (Variable::StickOut, |s| s.setup.settings.stick_out = None),
    (Variable::Preheat, |s| s.setup.settings.preheat = None),
    (Variable::Interpass, |s| s.setup.settings.interpass = None),
    (Variable::GasFlow, |s| s.setup.settings.gas_flow = None),
    (Variable::GoverningCode, |s| {
        s.setup.job.code = None;
        s.setup.work_order = None;
    }),
    (Variable::Station, |s| s.setup.station = Some("S-9".to_owned())),
    (Variable::Consumable, |s| s.setup.filler.consumable = Some("FCW-9".to_owned())),
    (Variable::WorkOrder, |s| s.setup.work_order = Some("J-9".to_owned())),
];

#[test]
fn every_missing_field_is_undetermined_and_named() {
    for (index, (variable, change)) in MISSING.iter().enumerate() {
        let answer = answer(change);
        assert_eq!(answer.verdict, Verdict::Undetermined, "{index} {variable}");
        assert!(not_given(&answer).contains(variable), "{index} {variable}");
    }
}

#[test]
fn two_gaps_never_fill_each_other() {
    for (first, change) in MISSING {
        for (second, other) in MISSING {
            let answer = answer(|s| {
                change(s);
                other(s);
            });
            assert!(answer.verdict >= Verdict::Undetermined, "{first} and {second}");
        }
    }
}

const CHANGED: &[(&str, Change)] = &[
    ("process", |s| s.setup.process = Some(Process::MagSolidWire)),
    ("joint", |s| s.setup.job.joint = Some(JointKind::Butt)),
    ("position", |s| s.setup.job.position = PositionClaim::parse("PE", None).ok()),
    ("base-metal", |s| s.setup.job.base_metals[0].group = "8.1".parse().ok()),
    ("thickness", |s| s.setup.job.base_metals[0].thickness = Some(quantity("25 mm"))),
    ("product-form", |s| {
        s.procedure.forms = vec![ProductForm::Plate];
        s.setup.job.base_metals.iter_mut().for_each(|part| part.form = Some(ProductForm::Pipe));
    }),
    ("outside-diameter", |s| {
        s.procedure.outside_diameter = Some(Box::new(range("84.15 mm", "")));
        let size = Some(quantity("60.3 mm"));
        s.setup.job.base_metals.iter_mut().for_each(|part| part.outside_diameter = size);
    }),
    ("run-class", |s| s.setup.job.run_class = Some(RunClass::Root)),
    ("diameter", |s| s.setup.filler.diameter = Some(quantity("1 mm"))),
    ("gas", |s| s.setup.filler.gas = Some(Gas::Group(GasGroup::C1))),
    ("gas-designation", |s| s.setup.filler.gas = Some(Gas::Group(GasGroup::C1))),
    ("polarity", |s| s.setup.filler.polarity = Some(Polarity::Dcen)),
    ("waveform", |s| s.setup.settings.waveform = Some(Waveform::Controlled)),
    ("governing-code", |s| s.procedure.codes[0].edition = "2004".to_owned()),
    ("current", |s| s.setup.settings.current = Some(set("241 A"))),
    ("bead", |s| s.procedure.runs[0].beads = vec![BeadPattern::Stringer]),
    ("procedure-in-force", |s| s.day = date!(2024 - 12 - 31)),
];

#[test]
fn one_changed_field_flips_the_answer_and_its_check_says_so() {
    for (check, change) in CHANGED {
        let answer = answer(change);
        assert_eq!(answer.verdict, Verdict::NotAllowed, "{check}");
        assert_eq!(outcome(&answer, check), Outcome::Outside, "{check}");
    }
}

const UNSAID: &[(&str, Change)] = &[
    ("joint", |s| s.procedure.joints.clear()),
    ("position", |s| s.procedure.positions.clear()),
    ("base-metal", |s| s.procedure.base_metals.clear()),
    ("thickness", |s| s.procedure.thickness = None),
    ("consumable-approved", |s| s.procedure.consumables.clear()),
    ("diameter", |s| s.procedure.diameters.clear()),
    ("gas", |s| s.procedure.gas = None),
    ("polarity", |s| s.procedure.polarities.clear()),
    ("waveform", |s| s.procedure.waveform = None),
    ("governing-code", |s| s.procedure.codes.clear()),
    ("run-class", |s| s.procedure.runs.clear()),
];

#[test]
fn a_procedure_with_one_fact_missing_allows_nothing() {
    for (check, change) in UNSAID {
        let answer = answer(change);
        assert_eq!(answer.verdict, Verdict::Undetermined, "{check}");
        assert_eq!(outcome(&answer, check), Outcome::NoLimit, "{check}");
    }
    let unsigned = answer(|s| s.procedure.support = Support::Declared { signed_by: None });
    assert_eq!(unsigned.verdict, Verdict::Undetermined);
}

#[test]
fn whatever_facts_a_procedure_lacks_it_allows_nothing() {
    for mask in 1_u32..1 << UNSAID.len() {
        let lacking = UNSAID.iter().enumerate().filter(|(bit, _)| mask & 1 << bit != 0);
        let answer = answer(|s| lacking.for_each(|(_, (_, change))| change(s)));
        assert_eq!(answer.verdict, Verdict::Undetermined, "{mask:b}");
    }
}

#[test]
fn every_text_of_a_finding_is_one_of_its_check_and_none_is_left_out() {
    let missing = MISSING.iter().map(|(_, change)| change);
    let changed = CHANGED.iter().chain(UNSAID).map(|(_, change)| change);
    for change in missing.chain(changed) {
        for finding in answer(change).findings {
            let check = crate::check::ALL.iter().find(|check| check.code == finding.check).unwrap();
            let met = matches!(finding.outcome, Outcome::Inside | Outcome::NotApplicable);
            assert_eq!(finding.remedy.is_none(), met, "{finding:?}");
            let known = |text: &str| check.texts.iter().any(|own| text.starts_with(own));
            assert!(finding.remedy.as_deref().is_none_or(known), "{finding:?}");
            assert!(finding.consequence.is_none_or(known), "{finding:?}");
            assert!(finding.reason.ends_with('.'), "{}", finding.reason);
        }
    }
}

#[test]
fn a_nearly_empty_procedure_allows_nothing() {
    let full = Records::allowed().procedure;
    let empty = Procedure {
        effective_from: None,
        codes: Vec::new(),
        joints: Vec::new(),
        positions: Vec::new(),
        base_metals: Vec::new(),
        thickness: None,
        consumables: Vec::new(),
        diameters: Vec::new(),
        gas: None,
        polarities: Vec::new(),
        waveform: None,
        runs: Vec::new(),
        ..full
    };
    let named = answer(|s| s.procedure = empty.clone());
    assert_eq!(named.verdict, Verdict::Undetermined);
    let found = answer(|s| {
        unnamed(s);
        s.procedure = empty;
    });
    assert_eq!(found.verdict, Verdict::NotAllowed);
    assert_eq!(found.findings[0].check, "no-procedure-covers");
}

#[test]
fn an_empty_setup_is_undetermined() {
    let records = Records::allowed();
    let answer = judge(&records.book(), &Setup::default(), records.day, Telling::Everything);
    assert_eq!(answer.verdict, Verdict::Undetermined);
    let answer = judge(&Book::default(), &Setup::default(), records.day, Telling::Everything);
    assert_eq!(answer.verdict, Verdict::Undetermined);
    assert!(answer.held_to.is_none());
    for variable in [Variable::GoverningCode, Variable::Process, Variable::Joint] {
        assert!(not_given(&answer).contains(&variable), "{variable}");
    }
}

#[test]
fn overlapping_revisions_are_all_tried_and_the_best_comes_first() {
    let named = |s: &mut Records| s.setup.procedure.as_mut().unwrap().revision = None;
    let mut narrow = revision("WPS-1", 2);
    narrow.runs[0].ranges.edit().current = Some(range("200 A", "210 A"));
    let both = among(vec![revision("WPS-1", 1), narrow.clone()], named);
    assert_eq!(both.verdict, Verdict::Allowed);
    assert_eq!(both.held_to.as_ref().unwrap().revision, 1);
    assert_eq!(both.candidates.len(), 1);
    assert_eq!(both.candidates[0].held_to.revision, 2);
    assert_eq!(both.candidates[0].verdict, Verdict::NotAllowed);
    assert_eq!(both.candidates[0].breaches, 1);
    // No finding of one answer comes from another revision.
    let owners = both.findings.iter().map(|finding| &finding.owner);
    let mut procedures = owners.filter(|owner| owner.kind == OwnerKind::Procedure).peekable();
    assert!(procedures.peek().is_some());
    assert!(procedures.all(|owner| owner.name == "procedure WPS-1 revision 1"));

    let equal = among(vec![revision("WPS-1", 1), revision("WPS-1", 2)], named);
    assert_eq!(equal.held_to.unwrap().revision, 2);

    let mut ended = revision("WPS-1", 1);
    ended.effective_until = Some(date!(2025 - 05 - 31));
    let after = among(vec![ended, narrow], named);
    assert_eq!(after.verdict, Verdict::NotAllowed);
    assert_eq!(after.held_to.unwrap().revision, 2);
    assert!(after.candidates.is_empty());
}

#[test]
fn a_revision_that_is_not_in_force_yet_is_shown_and_refused() {
    let mut later = revision("WPS-1", 2);
    later.effective_from = Some(date!(2025 - 07 - 01));
    let second = |s: &mut Records| s.setup.procedure.as_mut().unwrap().revision = Some(2);
    let answer = among(vec![revision("WPS-1", 1), later.clone()], second);
    assert_eq!(answer.verdict, Verdict::NotAllowed);
    assert_eq!(answer.held_to.as_ref().unwrap().revision, 2);
    assert_eq!(outcome(&answer, "procedure-in-force"), Outcome::Outside);
    // It is no candidate for a job that names none.
    let found = among(vec![later], unnamed);
    assert!(found.held_to.is_none());
}

#[test]
fn a_named_revision_is_the_only_one_tried() {
    let mut narrow = revision("WPS-1", 2);
    narrow.runs[0].ranges.edit().current = Some(range("200 A", "210 A"));
    let second = |s: &mut Records| s.setup.procedure.as_mut().unwrap().revision = Some(2);
    let answer = among(vec![revision("WPS-1", 1), narrow], second);
    assert_eq!(answer.verdict, Verdict::NotAllowed);
    assert_eq!(answer.held_to.unwrap().revision, 2);
}

#[test]
fn a_procedure_that_is_not_released_is_refused() {
    for (state, _) in ProcedureState::ALL {
        let records = Records::allowed();
        let mut book = records.book();
        book.procedures = Procedures::default();
        book.states.insert_mut("WPS-1".to_owned(), *state);
        let answer = judge(&book, &records.setup, records.day, Telling::Everything);
        assert_eq!(answer.verdict, Verdict::NotAllowed, "{state}");
        assert_eq!(answer.findings[0].check, "procedure-in-force");
        assert!(answer.held_to.is_none());
        assert!(answer.cautions.into_list().count() > 1);
    }
    let unknown = among(Vec::new(), |_| ());
    assert_eq!(unknown.verdict, Verdict::Undetermined);
}

#[test]
fn a_superseded_revision_named_by_number_is_refused() {
    let old = |s: &mut Records| s.setup.procedure.as_mut().unwrap().revision = Some(1);
    let answer = among(vec![revision("WPS-1", 2)], old);
    assert_eq!(answer.verdict, Verdict::NotAllowed);
    assert_eq!(answer.findings[0].check, "procedure-in-force");
}

#[test]
fn candidates_come_by_verdict_breaches_and_number() {
    let mut one_breach = revision("WPS-A", 1);
    one_breach.runs[0].ranges.edit().current = Some(range("100 A", "150 A"));
    let mut two_breaches = one_breach.clone();
    two_breaches.number = "WPS-0".to_owned();
    two_breaches.runs[0].ranges.edit().voltage = Some(range("20 V", "22 V"));
    let mut open = revision("WPS-B", 1);
    open.waveform = None;
    let all = vec![two_breaches, one_breach, open, revision("WPS-D", 1), revision("WPS-C", 1)];
    let answer = among(all, unnamed);
    assert_eq!(answer.held_to.unwrap().procedure, "WPS-C");
    let others: Vec<_> =
        answer.candidates.iter().map(|one| (one.held_to.procedure.as_str(), one.verdict)).collect();
    assert_eq!(
        others,
        [
            ("WPS-D", Verdict::Allowed),
            ("WPS-B", Verdict::Undetermined),
            ("WPS-A", Verdict::NotAllowed),
            ("WPS-0", Verdict::NotAllowed),
        ]
    );
}

#[test]
fn near_misses_are_ten_at_most_and_say_which_check_fails() {
    let mut all: Vec<_> = (1..=12).map(|n| revision(&format!("WPS-{n:02}"), 1)).collect();
    for procedure in &mut all {
        procedure.positions = vec![Position::Pa];
    }
    all[0].positions = vec![Position::Pb];
    all[0].process = Process::MagMetalCored;
    all[1].codes[0].edition = "2004".to_owned();
    all[2].effective_until = Some(date!(2025 - 01 - 31));
    let answer = among(all, unnamed);
    assert_eq!(answer.verdict, Verdict::NotAllowed);
    assert_eq!(answer.findings[0].check, "no-procedure-covers");
    assert_eq!(answer.near_misses.len(), 10);
    assert_eq!(answer.near_misses[0].procedure, "WPS-01");
    assert_eq!(answer.near_misses[0].checks, ["process"]);
    // WPS-02 misses code and position, WPS-03 is no longer in force.
    assert_eq!(answer.near_misses[1].procedure, "WPS-04");
    assert!(answer.near_misses[1..].iter().all(|miss| miss.checks == ["position"]));
}

#[test]
fn near_misses_stand_beside_a_covering_procedure() {
    let mut other = revision("WPS-2", 1);
    other.base_metals = vec!["8".parse().unwrap()];
    let answer = among(vec![revision("WPS-1", 1), other], unnamed);
    assert_eq!(answer.verdict, Verdict::Allowed);
    assert_eq!(answer.near_misses.len(), 1);
    assert_eq!(answer.near_misses[0].checks, ["base-metal"]);
}

#[test]
fn a_job_nothing_covers_is_refused_when_full_and_open_when_not() {
    let change = |s: &mut Records| {
        unnamed(s);
        s.setup.job.position = PositionClaim::parse("PE", None).ok();
    };
    let full = answer(change);
    assert_eq!(full.verdict, Verdict::NotAllowed);
    assert!(full.held_to.is_none());
    let open = answer(|s| {
        change(s);
        s.setup.process = None;
        s.setup.job.base_metals[1].group = None;
    });
    assert_eq!(open.verdict, Verdict::Undetermined);
    assert_eq!(not_given(&open), [Variable::Process, Variable::BaseMetal]);
}

#[test]
fn without_a_code_nothing_is_allowed() {
    let answer = answer(|s| {
        unnamed(s);
        s.setup.job.code = None;
    });
    assert_eq!(answer.verdict, Verdict::Undetermined);
    assert_eq!(not_given(&answer), [Variable::GoverningCode]);
}

#[test]
fn without_a_run_class_the_best_limits_are_shown_and_nothing_is_allowed() {
    let with_root = |s: &mut Records| {
        let mut root = s.procedure.runs[0].clone();
        root.classes = vec![RunClass::Root];
        root.ranges.edit().current = Some(range("120 A", "150 A"));
        s.procedure.runs.insert(0, root);
    };
    let open = answer(|s| {
        with_root(s);
        s.setup.job.run_class = None;
    });
    assert_eq!(open.verdict, Verdict::Undetermined);
    assert_eq!(not_given(&open), [Variable::RunClass]);
    let classes = open.held_to.unwrap().run_classes;
    assert_eq!(classes, [RunClass::Fill, RunClass::Cap, RunClass::Single]);
    let root = answer(|s| {
        with_root(s);
        s.setup.job.run_class = Some(RunClass::Root);
    });
    assert_eq!(root.verdict, Verdict::NotAllowed);
    assert_eq!(outcome(&root, "current"), Outcome::Outside);
}

#[test]
fn data_that_is_called_up_cannot_fall_away() {
    let called_up = |s: &mut Records| s.procedure.calls_up_data = true;
    assert_eq!(answer(called_up).verdict, Verdict::Allowed);
    let gone = answer(|s| {
        called_up(s);
        s.consumable.as_mut().unwrap().data[0].conditions[0].polarity = Polarity::Dcen;
    });
    assert_eq!(gone.verdict, Verdict::Undetermined);
    assert_eq!(outcome(&gone, "consumable-data"), Outcome::NoLimit);
}

#[test]
fn a_job_that_lacks_a_fact_is_held_to_no_crowd_of_procedures() {
    let many = |count: u32| (1..=count).map(|n| revision(&format!("WPS-{n}"), 1)).collect();
    let open = |records: &mut Records| {
        unnamed(records);
        records.setup.job.joint = None;
    };
    assert!(among(many(200), open).held_to.is_some());
    let crowd = among(many(201), open);
    assert!(crowd.held_to.is_none() && crowd.candidates.is_empty());
    assert_eq!(crowd.verdict, Verdict::Undetermined);
    assert_eq!(not_given(&crowd), [Variable::Joint]);
    assert!(crowd.findings[0].reason.starts_with("More than 200 released procedures cover"));
    // A job that is fully stated is held to all.
    assert_eq!(among(many(201), unnamed).candidates.len(), 200);
}
