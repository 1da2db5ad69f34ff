//! Records and proposals to vary. All invented.

#![expect(clippy::unnecessary_wraps, reason = "records and proposals hold options")]

use arcbounds::{
    qualify::{
        Allowed, BoxJudgement, Finding, Interval, JobFacts, Judgement, Limit, Pack, Proposal,
        ProposedEnergy, ProposedPart, ProposedRun, QualifiedBox, QualifiedRange, Standing, derive,
        derive_all, judge, packs,
        record::{
            Arcs, Backing, BaseMetal, CurrentForm, D11Group, Deposit, Electrical, Filler, FitUp,
            Gases, GrooveKind, HeatTreatment, Joint, Layering, Measured, Mechanisation, Outcome,
            OutputCharacteristic, Part, Penetration, PostHeating, ProductForm, Record, RootRemoval,
            Run, RunEnergy, Sides, Test, TestKind, TestLevel, TestPiece, Transfer, TreatmentClass,
            WeldKind,
        },
    },
    quantity::{Kind, Quantity, Range, UnitSystem},
    trade::{
        BeadPattern, CodeEdition, Designation, Gas, Polarity, Position, Process, RunClass, Waveform,
    },
};

/// A quantity from text.
pub fn q<K: Kind>(text: &str) -> Quantity<K> {
    text.parse().unwrap()
}

pub fn measured<K: Kind>(text: &str) -> Option<Measured<K>> {
    Some(Measured::of(q(text)))
}

pub fn range<K: Kind>(min: &str, max: &str) -> Option<Range<K>> {
    Some(Range::new(Some(q(min)), Some(q(max))).unwrap())
}

pub fn one<K: Kind>(value: &str) -> Option<Range<K>> {
    range(value, value)
}

pub fn iso() -> &'static Pack {
    packs().iter().find(|pack| pack.key == "iso-15614-1-2017-level-2").unwrap()
}

pub fn aws() -> &'static Pack {
    packs().iter().find(|pack| pack.key == "aws-d1.1-2015-tested").unwrap()
}

pub fn gas(text: &str) -> Option<Gas> {
    Some(Gas::parse(text).unwrap())
}

pub fn filler(designation: &str, diameter: &str) -> Filler {
    Filler {
        designation: Some(Designation::parse(designation).unwrap()),
        diameter: Some(q(diameter)),
        maker: Some("Invented Works".to_owned()),
        trade_name: Some("Example 1".to_owned()),
        ..Filler::default()
    }
}

pub fn passed(kind: TestKind) -> Test {
    Test {
        kind,
        place: None,
        temperature: (kind == TestKind::Impact).then(|| q("-60 °C")),
        values: Vec::new(),
        outcome: Outcome::Passed,
        standard: None,
        report: None,
        laboratory: None,
        on: None,
        retest: false,
    }
}

fn s355(form: ProductForm, thickness: &str) -> Part {
    Part {
        form: Some(form),
        thickness: Some(q(thickness)),
        outside_diameter: None,
        metal: BaseMetal {
            group: Some("1.2".parse().unwrap()),
            d11_group: Some(D11Group::II),
            specified_yield: Some(q("355 MPa")),
            ..BaseMetal::default()
        },
    }
}

/// Two plates or pipes of S355, group 1.2.
pub fn parts(form: ProductForm, thickness: &str) -> Vec<Part> {
    vec![s355(form, thickness), s355(form, thickness)]
}

fn record(code: &str, edition: &str, level: Option<TestLevel>, piece: TestPiece) -> Record {
    Record {
        number: "Q-1".to_owned(),
        code: CodeEdition { name: code.to_owned(), edition: edition.to_owned() },
        level,
        units: UnitSystem::Metric,
        manufacturer: None,
        preliminary_procedure: None,
        welders: Vec::new(),
        welded_on: None,
        place: None,
        pieces: vec![piece],
        witnesses: Vec::new(),
        signatures: Vec::new(),
        remarks: None,
    }
}

pub fn iso_run(process: Process) -> Run {
    Run {
        class: Some(RunClass::Fill),
        mechanisation: Some(Mechanisation::Partly),
        filler: Some(filler("ISO 14341-A - G 42 4 M21 3Si1", "1.2 mm")),
        gases: Gases { shielding: gas("M21-ArC-18"), backing: Some(Gas::None), ..Gases::default() },
        arcs: Arcs { electrodes: Some(1), arrangement: None },
        electrical: Electrical {
            polarity: Some(Polarity::Dcep),
            form: Some(CurrentForm::Steady),
            waveform: Some(Waveform::NotControlled),
            transfer: Some(Transfer::Spray),
            energy: Some(RunEnergy::Arc(Measured::of(q("1.2 kJ/mm")))),
            ..Electrical::default()
        },
        preheat: measured("100 °C"),
        interpass: measured("180 °C"),
        ..Run::new(1, process)
    }
}

/// Case 1: level 2, 135, multi-run butt, plate 12 mm, PF from one side without backing, impacts and hardness
/// tested, arc energy 1.20 kJ/mm, preheat 100 °C, interpass 180 °C, M21 with 18 % CO2, spray.
pub fn iso_record() -> Record {
    let piece = TestPiece {
        mark: "A".to_owned(),
        parts: parts(ProductForm::Plate, "12 mm"),
        joint: Joint {
            weld: Some(WeldKind::Butt),
            penetration: Some(Penetration::Full),
            sides: Some(Sides::One),
            groove: Some(GrooveKind::SingleV),
            backing: Some(Backing::None),
            root_removal: Some(RootRemoval::None),
            ..Joint::default()
        },
        position: Some(Position::Pf),
        rotated: Some(false),
        layering: Some(Layering::MultiRun),
        deposits: vec![Deposit { process: Process::MagSolidWire, thickness: Some(q("12 mm")) }],
        runs: vec![iso_run(Process::MagSolidWire)],
        post_heating: Some(PostHeating::NotDone),
        heat_treatment: Some(untreated()),
        tests: [
            TestKind::Visual,
            TestKind::Radiographic,
            TestKind::TransverseTension,
            TestKind::SideBend,
            TestKind::Macro,
            TestKind::Impact,
            TestKind::Hardness,
        ]
        .map(passed)
        .to_vec(),
        ..TestPiece::default()
    };
    record("ISO 15614-1", "2017+A1:2019", Some(TestLevel::Level2), piece)
}

pub fn untreated() -> HeatTreatment {
    HeatTreatment {
        class: TreatmentClass::None,
        temperature: None,
        time: None,
        rates: None,
        cooling: None,
        heating: None,
    }
}

/// Case 10: AWS D1.1, FCAW-G 1.2 mm, 260 A, 27 V, 9.0 m/min, 350 mm/min, 20 L/min, preheat 65 °C, 20 mm,
/// 3G up. The numbers are for arithmetic; nobody should weld with them.
pub fn aws_record() -> Record {
    let run = Run {
        class: Some(RunClass::Fill),
        mechanisation: Some(Mechanisation::Partly),
        filler: Some(filler("AWS A5.20: E71T-1M", "1.2 mm")),
        gases: Gases { shielding: gas("ArC-25"), flow: measured("20 L/min"), ..Gases::default() },
        arcs: Arcs { electrodes: Some(1), arrangement: None },
        electrical: Electrical {
            polarity: Some(Polarity::Dcep),
            waveform: Some(Waveform::NotControlled),
            characteristic: Some(OutputCharacteristic::ConstantVoltage),
            transfer: Some(Transfer::Spray),
            wire_feed: measured("9 m/min"),
            current: measured("260 A"),
            voltage: measured("27 V"),
            ..Electrical::default()
        },
        travel_speed: measured("350 mm/min"),
        bead: Some(BeadPattern::Weave),
        preheat: measured("65 °C"),
        interpass: measured("120 °C"),
        ..Run::new(1, Process::MagFluxCored)
    };
    let piece = TestPiece {
        mark: "A".to_owned(),
        parts: parts(ProductForm::Plate, "20 mm"),
        joint: Joint {
            weld: Some(WeldKind::Butt),
            penetration: Some(Penetration::Full),
            sides: Some(Sides::One),
            groove: Some(GrooveKind::SingleV),
            backing: Some(Backing::Permanent),
            fit_up: FitUp {
                groove_angle: Some(q("45 deg")),
                root_gap: Some(q("6 mm")),
                root_face: Some(q("2 mm")),
                ..FitUp::default()
            },
            ..Joint::default()
        },
        position: Some(Position::Pf),
        layering: Some(Layering::MultiRun),
        runs: vec![run],
        post_heating: Some(PostHeating::NotDone),
        heat_treatment: Some(untreated()),
        tests: [TestKind::Visual, TestKind::SideBend, TestKind::Impact].map(passed).to_vec(),
        ..TestPiece::default()
    };
    record("AWS D1.1", "2015", None, piece)
}

/// Both kinds of test required, and every question of the packs answered yes.
pub fn demanding() -> JobFacts {
    let questions = [
        "preheat-rule",
        "extent-of-tests",
        "groove-detail",
        "gas-of-classification",
        "impact-heat-treatment",
        "low-hydrogen",
        "current-covered",
    ];
    JobFacts {
        impact_required: Some(true),
        impact_temperature: Some(q("-20 °C")),
        hardness_required: Some(true),
        stated: questions.map(|id| (id.to_owned(), true)).into(),
    }
}

/// Neither impact nor hardness tests required.
pub fn undemanding() -> JobFacts {
    JobFacts { impact_required: Some(false), hardness_required: Some(false), ..demanding() }
}

/// The proposal that repeats a record's only piece.
pub fn repeated(record: &Record) -> Proposal {
    let piece = &record.pieces[0];
    let parts = piece.parts.iter().map(|part| ProposedPart {
        form: part.form,
        thickness: part.thickness.map(|t| Range::new(Some(t), Some(t)).unwrap()),
        outside_diameter: part.outside_diameter.map(|d| Range::new(Some(d), Some(d)).unwrap()),
        group: part.metal.group,
        p_number: part.metal.p_number.clone(),
        d11_group: part.metal.d11_group,
        specified_yield: part.metal.specified_yield,
    });
    let highest = |pick: fn(&Run) -> Option<&Measured<_>>| {
        piece.runs.iter().filter_map(pick).map(Measured::highest).reduce(Quantity::max)
    };
    let lowest = |pick: fn(&Run) -> Option<&Measured<_>>| {
        piece.runs.iter().filter_map(pick).map(Measured::lowest).reduce(Quantity::min)
    };
    Proposal {
        preheat_category: None,
        joint: piece.joint.clone(),
        parts: parts.collect(),
        positions: piece.position.into_iter().collect(),
        layering: piece.layering,
        throat: piece.throat.map(|a| Range::new(Some(a), Some(a)).unwrap()),
        leg: piece.leg.map(|z| Range::new(Some(z), Some(z)).unwrap()),
        deposits: piece
            .deposits
            .iter()
            .map(|own| (own.process, own.thickness.map(|s| Range::new(Some(s), Some(s)).unwrap())))
            .collect(),
        runs: piece.runs.iter().map(run_again).collect(),
        preheat: lowest(|run| run.preheat.as_ref()),
        interpass_max: highest(|run| run.interpass.as_ref()),
        interpass_min: lowest(|run| run.interpass.as_ref()),
        post_heating: piece.post_heating,
        heat_treatment: piece.heat_treatment.clone(),
    }
}

fn again<K: Kind>(own: Option<&Measured<K>>) -> Option<Range<K>> {
    own.map(|own| Range::new(Some(own.value), Some(own.value)).unwrap())
}

fn run_again(run: &Run) -> ProposedRun {
    let electrical = &run.electrical;
    ProposedRun {
        class: run.class,
        mechanisation: run.mechanisation,
        progression: run.progression,
        filler: run.filler.clone(),
        flux: run.flux.clone(),
        electrodes: run.arcs.electrodes,
        gas: run.gases.shielding,
        backing_gas: run.gases.backing,
        polarity: electrical.polarity,
        form: electrical.form,
        waveform: electrical.waveform,
        characteristic: electrical.characteristic,
        transfer: electrical.transfer,
        bead: run.bead,
        current: again(electrical.current.as_ref()),
        voltage: again(electrical.voltage.as_ref()),
        wire_feed: again(electrical.wire_feed.as_ref()),
        travel_speed: again(run.travel_speed.as_ref()),
        gas_flow: again(run.gases.flow.as_ref()),
        energy: match &electrical.energy {
            Some(RunEnergy::Arc(own)) => again(Some(own)).map(ProposedEnergy::Arc),
            Some(RunEnergy::HeatInput { value, .. }) => {
                again(Some(value)).map(ProposedEnergy::HeatInput)
            }
            None => None,
        },
        ..ProposedRun::new(run.process)
    }
}

pub fn derived(record: &Record, pack: &Pack, job: &JobFacts) -> QualifiedRange {
    derive(record, pack, job).unwrap()
}

pub fn first_box(record: &Record, pack: &Pack, job: &JobFacts) -> QualifiedBox {
    derived(record, pack, job).boxes.remove(0)
}

pub fn limit(record: &Record, pack: &Pack, job: &JobFacts, rule: &str) -> Limit {
    let own = first_box(record, pack, job);
    own.limit(rule).unwrap_or_else(|| panic!("no limit by {rule}")).clone()
}

/// Both ends of the interval of a rule, as canonical numbers.
pub fn ends(limit: &Limit) -> (Option<f64>, Option<f64>) {
    let Allowed::Interval(Interval { min, max, .. }) = &limit.allowed else {
        panic!("{}: {}", limit.rule, limit.allowed)
    };
    (min.map(|min| min.amount.canonical()), max.map(|max| max.amount.canonical()))
}

pub fn assert_ends(limit: &Limit, min: Option<f64>, max: Option<f64>) {
    let close = |a: Option<f64>, b: Option<f64>| match (a, b) {
        (Some(a), Some(b)) => (a - b).abs() <= 1e-9 * a.abs().max(b.abs()),
        (a, b) => a.is_none() && b.is_none(),
    };
    let (own_min, own_max) = ends(limit);
    assert!(close(own_min, min) && close(own_max, max), "{}: {}", limit.rule, limit.working);
}

pub fn judged(record: &Record, pack: &Pack, job: &JobFacts, proposal: &Proposal) -> Judgement {
    judge(proposal, &[derived(record, pack, job)])
}

pub fn judged_all(records: &[&Record], pack: &Pack, job: &JobFacts, p: &Proposal) -> Judgement {
    judge(p, &[derive_all(records, pack, job).unwrap()])
}

/// The box of the first position that fits best.
pub fn best(judgement: &Judgement) -> &BoxJudgement {
    &judgement.positions[0].boxes[0]
}

/// The finding of a rule in the best box.
pub fn finding<'a>(judgement: &'a Judgement, rule: &str) -> &'a Finding {
    let own = best(judgement).findings.iter().find(|finding| finding.rule == rule);
    own.unwrap_or_else(|| panic!("no finding by {rule}"))
}

pub fn standing(judgement: &Judgement, rule: &str) -> Standing {
    finding(judgement, rule).standing.clone()
}

/// All that is not inside, in words.
pub fn complaints(judgement: &Judgement) -> Vec<String> {
    let open =
        |finding: &&Finding| !matches!(finding.standing, Standing::Inside | Standing::Informative);
    let findings = best(judgement).findings.iter().filter(open);
    findings.map(|f| format!("{}: {:?} ({})", f.rule, f.standing, f.working)).collect()
}
