//! Judging: missing facts one by one, several positions, nothing at all.

use arcbounds::qualify::{
    Finding, Pack, Proposal, QualifiedVariable, Ruling, Standing, Whose, judge,
    record::{ProductForm, Record},
};
use arcbounds::trade::Position;

use super::fixture::*;

type Take = (&'static str, fn(&mut Proposal));

/// Each fact taken away from a proposal that is qualified, and the rule that then cannot judge.
const TAKEN_FROM_A_PROPOSAL: &[Take] = &[
    ("sides", |p| p.joint.sides = None),
    ("weld-plate", |p| p.joint.penetration = None),
    ("parent-thickness-multi-run", |p| p.parts[0].thickness = None),
    ("base-metals", |p| p.parts[1].group = None),
    ("base-metals", |p| p.parts[1].specified_yield = None),
    ("position", |p| p.positions.clear()),
    ("layering", |p| p.layering = None),
    ("deposit-thickness", |p| p.deposits[0].1 = None),
    ("preheat", |p| p.preheat = None),
    ("interpass", |p| p.interpass_max = None),
    ("heat-treatment-class", |p| p.heat_treatment = None),
    ("mechanisation", |p| p.runs[0].mechanisation = None),
    ("filler-designation", |p| p.runs[0].filler = None),
    ("shielding-gas-mig-mag", |p| p.runs[0].gas = None),
    ("wire-system", |p| p.runs[0].electrodes = None),
    ("current-type", |p| p.runs[0].polarity = None),
    ("transfer", |p| p.runs[0].transfer = None),
    ("energy-upper", |p| p.runs[0].energy = None),
];

#[test]
fn a_fact_the_proposal_leaves_out_is_not_judged() {
    let record = iso_record();
    for (rule, take) in TAKEN_FROM_A_PROPOSAL {
        let mut proposal = repeated(&record);
        take(&mut proposal);
        let judgement = judged(&record, iso(), &demanding(), &proposal);
        let Standing::NotJudged(missing) = standing(&judgement, rule) else {
            panic!("{rule}: {:?}", standing(&judgement, rule))
        };
        assert_eq!(missing.whose, Whose::Proposal, "{rule}");
        assert_eq!(judgement.ruling, Ruling::NotJudged, "{rule}");
    }
}

type TakeRecord = (&'static str, fn(&mut Record));

const TAKEN_FROM_A_RECORD: &[TakeRecord] = &[
    ("sides", |r| r.pieces[0].joint.backing = None),
    ("weld-plate", |r| r.pieces[0].joint.weld = None),
    ("parent-thickness-multi-run", |r| r.pieces[0].parts[1].thickness = None),
    ("base-metals", |r| r.pieces[0].parts[1].metal.group = None),
    ("base-metals", |r| r.pieces[0].parts[1].metal.specified_yield = None),
    ("position", |r| r.pieces[0].position = None),
    ("deposit-thickness", |r| r.pieces[0].deposits[0].thickness = None),
    ("preheat", |r| r.pieces[0].runs[0].preheat = None),
    ("interpass", |r| r.pieces[0].runs[0].interpass = None),
    ("heat-treatment-class", |r| r.pieces[0].heat_treatment = None),
    ("mechanisation", |r| r.pieces[0].runs[0].mechanisation = None),
    ("filler-designation", |r| r.pieces[0].runs[0].filler = None),
    ("shielding-gas-mig-mag", |r| r.pieces[0].runs[0].gases.shielding = None),
    ("wire-system", |r| r.pieces[0].runs[0].arcs.electrodes = None),
    ("current-type", |r| r.pieces[0].runs[0].electrical.polarity = None),
    ("transfer", |r| r.pieces[0].runs[0].electrical.transfer = None),
    ("energy-upper", |r| r.pieces[0].runs[0].electrical.energy = None),
];

/// The proposal stays what the whole record repeats, and is held against the record with a gap.
#[test]
fn a_fact_the_record_leaves_out_qualifies_nothing() {
    let whole = iso_record();
    let proposal = repeated(&whole);
    for (rule, take) in TAKEN_FROM_A_RECORD {
        let mut record = whole.clone();
        take(&mut record);
        let judgement = judged(&record, iso(), &demanding(), &proposal);
        // A rule that hangs on the missing fact alone may be inside in either case; another then stands open.
        assert_eq!(judgement.ruling, Ruling::NotJudged, "{rule}: {:?}", complaints(&judgement));
        let open = best(&judgement).not_judged().any(|finding| match &finding.standing {
            Standing::NotJudged(missing) => missing.whose == Whose::Record,
            _ => false,
        });
        assert!(open, "{rule}: {:?}", complaints(&judgement));
    }
}

/// A fact that decides between two limits: inside both is inside, inside one is not judged.
#[test]
fn an_unknown_product_form_leaves_what_both_forms_cover() {
    use arcbounds::qualify::record::WeldKind;
    let mut record = iso_record();
    for part in &mut record.pieces[0].parts {
        part.form = None;
    }
    let judgement = judged(&record, iso(), &demanding(), &repeated(&iso_record()));
    assert_eq!(judgement.ruling, Ruling::Qualified, "{:?}", complaints(&judgement));
    let mut proposal = repeated(&iso_record());
    proposal.joint.weld = Some(WeldKind::Branch);
    proposal.joint.fit_up.joint_angle = Some(q("90 deg"));
    let judgement = judged(&record, iso(), &demanding(), &proposal);
    assert!(matches!(standing(&judgement, "weld-plate"), Standing::NotJudged(_)));
    assert_eq!(judgement.ruling, Ruling::NotJudged);
}

/// Inside the qualification and outside the procedure: revise the procedure. Outside both: qualify anew.
#[test]
fn a_setup_outside_its_procedure_needs_a_revision_or_a_new_qualification() {
    for (range, inside, expected) in [
        (Ruling::Qualified, true, Ruling::Qualified),
        (Ruling::Qualified, false, Ruling::NeedsRevisedProcedure),
        (Ruling::NotJudged, false, Ruling::NotJudged),
        (Ruling::NeedsNewQualification, false, Ruling::NeedsNewQualification),
        (Ruling::NeedsNewQualification, true, Ruling::NeedsNewQualification),
    ] {
        assert_eq!(range.of_setup(inside), expected);
    }
}

#[test]
fn a_record_of_which_nothing_is_known_qualifies_nothing() {
    for (record, pack) in [(iso_record(), iso()), (aws_record(), aws())] {
        let mut empty = record.clone();
        empty.pieces[0] = arcbounds::qualify::record::TestPiece::default();
        let judgement = judged(&empty, pack, &demanding(), &repeated(&record));
        assert_eq!(judgement.ruling, Ruling::NotJudged);
        let nothing = judged(&record, pack, &demanding(), &Proposal::default());
        assert_eq!(nothing.ruling, Ruling::NotJudged);
        assert_eq!(judge(&repeated(&record), &[]).ruling, Ruling::NeedsNewQualification);
    }
}

/// Runs that nobody describes are not judged, on either side.
#[test]
fn no_runs_are_no_pass() {
    let whole = iso_record();
    let mut proposal = repeated(&whole);
    proposal.runs.clear();
    let judgement = judged(&whole, iso(), &demanding(), &proposal);
    assert_eq!(judgement.ruling, Ruling::NotJudged);
    for rule in ["filler-designation", "shielding-gas-mig-mag", "energy-upper"] {
        assert!(matches!(standing(&judgement, rule), Standing::NotJudged(_)), "{rule}");
    }
    let mut record = whole.clone();
    record.pieces[0].runs.clear();
    let judgement = judged(&record, iso(), &demanding(), &repeated(&whole));
    assert_eq!(judgement.ruling, Ruling::NotJudged);
    for rule in ["filler-designation", "shielding-gas-mig-mag", "energy-upper"] {
        assert!(matches!(standing(&judgement, rule), Standing::NotJudged(_)), "{rule}");
    }
}

/// A process that a pack has no rules for is not judged, rather than free.
#[test]
fn a_process_without_rules_is_not_judged() {
    use arcbounds::trade::Process;
    let mut record = aws_record();
    record.pieces[0].runs[0].process = Process::Plasma;
    let judgement = judged(&record, aws(), &undemanding(), &repeated(&record));
    let Standing::NotJudged(missing) = standing(&judgement, "process") else { panic!() };
    assert_eq!(missing.to_string(), "the rule pack does not say: rules for process 15");
    assert_eq!(judgement.ruling, Ruling::NotJudged);
}

/// Each position may rest on another record; the ruling is that of the worst.
#[test]
fn each_position_has_its_own_box() {
    let up = aws_record();
    let mut flat = aws_record();
    flat.number = "Q-2".to_owned();
    flat.pieces[0].position = Some(Position::Pa);
    let mut proposal = repeated(&up);
    proposal.positions = vec![Position::Pf, Position::Pa];
    let judgement = judged_all(&[&up, &flat], aws(), &undemanding(), &proposal);
    assert_eq!(judgement.ruling, Ruling::Qualified, "{:?}", complaints(&judgement));
    let records: Vec<_> =
        judgement.positions.iter().map(|own| own.boxes[0].pieces[0].record.as_str()).collect();
    assert_eq!(records, ["Q-1", "Q-2"]);
    proposal.positions.push(Position::Pe);
    let judgement = judged_all(&[&up, &flat], aws(), &undemanding(), &proposal);
    assert_eq!(judgement.ruling, Ruling::NeedsNewQualification);
    assert_eq!(judgement.positions[0].ruling, Ruling::Qualified);
}

/// A range with an open end lies outside a limit at that end.
#[test]
fn an_open_end_is_not_inside_a_limit() {
    let record = aws_record();
    let mut proposal = repeated(&record);
    proposal.runs[0].wire_feed = None;
    proposal.runs[0].current = Some(arcbounds::quantity::Range::at_least(q("240 A")));
    let judgement = judged(&record, aws(), &undemanding(), &proposal);
    assert_eq!(standing(&judgement, "current-wire"), Standing::Outside);
    assert_eq!(judgement.ruling, Ruling::NeedsNewQualification);
}

/// Each breach has its clause, its limit, its working and what was given.
#[test]
fn a_breach_says_all_that_is_needed() {
    let record = aws_record();
    let mut proposal = repeated(&record);
    proposal.runs[0].voltage = range("26 V", "30 V");
    let judgement = judged(&record, aws(), &undemanding(), &proposal);
    let breaches: Vec<_> = best(&judgement).breaches().collect();
    assert_eq!(breaches.len(), 1);
    assert_eq!(breaches[0].clause, "Table 4.5, row 16");
    assert_eq!(breaches[0].given.as_deref(), Some("26 V to 30 V"));
    assert_eq!(breaches[0].allowed, "25.11 V to 28.89 V");
    assert_eq!(breaches[0].working, "136: voltage 27 V: 25.11 V to 28.89 V");
}

/// The clauses a pack leaves out come with every ruling.
#[test]
fn open_clauses_come_with_the_ruling() {
    for (record, pack) in [(iso_record(), iso()), (aws_record(), aws())] {
        let pack: &Pack = pack;
        let judgement = judged(&record, pack, &demanding(), &repeated(&record));
        assert_eq!(judgement.open, pack.open);
        assert!(!judgement.open.is_empty());
    }
}

/// Of a joint of two pipes the diameter of both is judged: 150 mm at least after a test on 300 mm (ISO 15614-1:2017,
/// 8.3.3: half of it; own arithmetic).
#[test]
fn a_pipe_without_a_diameter_is_not_judged_by_the_other() {
    let mut record = iso_record();
    for part in &mut record.pieces[0].parts {
        part.form = Some(ProductForm::Pipe);
        part.outside_diameter = Some(q("300 mm"));
    }
    let with = |form, second| {
        let mut proposal = repeated(&record);
        proposal.parts[1].form = form;
        proposal.parts[1].outside_diameter = second;
        let judgement = judged(&record, iso(), &undemanding(), &proposal);
        let of_pipe = |f: &&Finding| f.variable == QualifiedVariable::OutsideDiameter;
        best(&judgement).findings.iter().find(of_pipe).unwrap().standing.clone()
    };
    let pipe = Some(ProductForm::Pipe);
    assert_eq!(with(pipe, one("150 mm")), Standing::Inside);
    assert_eq!(with(pipe, one("149 mm")), Standing::Outside);
    for form in [pipe, Some(ProductForm::HollowSection), None] {
        let found = with(form, None);
        assert!(matches!(found, Standing::NotJudged(_)), "{form:?}: {found:?}");
    }
    assert_eq!(with(Some(ProductForm::Plate), None), Standing::Inside);
}
