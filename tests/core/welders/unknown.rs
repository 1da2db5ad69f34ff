//! What nobody states is never a pass; packs and designation.

use arcbounds::{
    qualify::{
        Whose,
        record::{Mechanisation, ProductForm},
        welder::{
            Layers, TestPosition, WELDER_PACK_FORMAT, WelderJob, WelderPack,
            WelderRuling::{self, NotJudged, Outside, Within},
            WelderTest, WelderVariable, designation, welder_packs,
        },
    },
    quantity::UnitSystem,
    trade::{JointKind, Position, Process},
};

use super::fixture::{
    aws, butt_job, butt_test, fillet_job, fillet_test, iso, pack, ruling, size, us_test,
};

fn judged(test: &WelderTest, job: &WelderJob) -> WelderRuling {
    iso().range(test).judge(job).ruling()
}

/// Takes one fact away.
type Change<T> = fn(&mut T);

#[test]
fn a_test_covers_what_it_is_and_every_missing_fact_of_the_job_undoes_that() {
    assert_eq!(judged(&fillet_test(), &fillet_job()), Within);
    assert_eq!(judged(&butt_test(), &butt_job()), Within);
    let changes: &[(&str, Change<WelderJob>)] = &[
        ("process", |job| job.process = None),
        ("transfer", |job| job.transfer = None),
        ("product", |job| job.product = None),
        ("weld", |job| job.weld = None),
        ("filler-group", |job| job.filler_group = None),
        ("filler-type", |job| job.filler_type = None),
        ("deposit-thickness", |job| job.deposit = None),
        ("position", |job| job.positions.clear()),
        ("backing", |job| job.backing = None),
    ];
    for (fact, change) in changes {
        let mut job = butt_job();
        change(&mut job);
        assert_eq!(judged(&butt_test(), &job), NotJudged, "{fact}");
    }
    let changes: &[(&str, Change<WelderTest>)] = &[
        ("transfer", |test| test.transfer = None),
        ("product", |test| test.product = None),
        ("weld", |test| test.weld = None),
        ("filler-group", |test| test.filler_group = None),
        ("filler-type", |test| test.filler_type = None),
        ("deposit-thickness", |test| test.deposit = None),
        ("position", |test| test.positions.clear()),
        ("backing", |test| test.backing = None),
    ];
    for (fact, change) in changes {
        let mut test = butt_test();
        change(&mut test);
        let judgement = iso().range(&test).judge(&butt_job());
        assert_eq!(judgement.ruling(), NotJudged, "{fact}");
        let missing = judgement.findings.iter().filter_map(|one| one.missing.as_ref());
        assert!(missing.into_iter().any(|one| one.whose == Whose::Record), "{fact}");
    }
}

/// A claim such as 3G can mean vertical up and down.
#[test]
fn a_position_that_may_be_outside_is_not_inside() {
    let both = WelderJob { positions: vec![Position::Pf, Position::Pg], ..butt_job() };
    assert_eq!(judged(&butt_test(), &both), NotJudged);
    let down = WelderJob { positions: vec![Position::Pg], ..butt_job() };
    assert_eq!(judged(&butt_test(), &down), Outside);
}

#[test]
fn a_certificate_in_inches_is_not_read_in_millimetres() {
    let test = WelderTest { system: UnitSystem::Us, ..butt_test() };
    assert_eq!(judged(&test, &butt_job()), NotJudged);
}

#[test]
fn what_a_pack_does_not_hold_is_not_judged() {
    let pipe = WelderTest {
        product: Some(ProductForm::Pipe),
        outside_diameter: size("168.3 mm"),
        ..us_test(TestPosition::G6)
    };
    let got = ruling(aws(), &pipe, &butt_job(), WelderVariable::Position);
    assert_eq!(got, Some(NotJudged));
    let section = WelderTest { product: Some(ProductForm::HollowSection), ..butt_test() };
    assert_eq!(ruling(iso(), &section, &butt_job(), WelderVariable::Product), Some(NotJudged));
}

#[test]
fn every_pack_loads_and_a_slip_of_the_pen_does_not() {
    let keys: Vec<_> = welder_packs().iter().map(|pack| pack.key.as_str()).collect();
    assert_eq!(
        keys,
        [
            "iso-9606-1-2012",
            "iso-14732-2013",
            "asme-ix-2017-performance",
            "aws-d1.1-2020-performance"
        ]
    );
    for pack in welder_packs() {
        assert!(!pack.open.is_empty() && !pack.sources.is_empty(), "{}", pack.key);
        assert!(pack.summaries().iter().all(|rule| !rule.clause.is_empty()));
    }
    let sound = r#"
key = "k"
title = "t"
code = "c"
edition = "e"
person = "welder"
systems = ["metric"]
us-position-letters = false
sources = ["s"]
confirmation = { clause = "1", every-months = 6, use-suffices = false, confidence = "memory" }
[[rule]]
id = "process"
clause = "2"
variable = "process"
confidence = "memory"
limit = "same"
[[rule]]
id = "welders-only"
clause = "1"
variable = "mechanisation"
confidence = "memory"
limit = "of-person"
"#;
    assert!(WelderPack::load(sound).is_ok());
    for (was, becomes, word) in [
        ("limit = \"same\"", "limit = { table = { metric = [{ min = \"3\" }] } }", "does not fit"),
        ("variable = \"process\"", "variable = \"layers\"", "none is about the process"),
        ("clause = \"2\"", "clause = \" \"", "is empty"),
        ("every-months = 6", "every-months = 0", "zero"),
        ("limit = \"of-person\"", "limit = \"same\"", "none is of-person"),
        ("limit = \"same\"", "limit = \"of-person\"", "does not fit"),
        ("limit = \"same\"", "limit = \"same\"\ncolour = \"red\"", "colour"),
        ("confidence = \"memory\"\nlimit", "confidence = \"sure\"\nlimit", "sure"),
    ] {
        let error = WelderPack::load(&sound.replace(was, becomes)).unwrap_err().to_string();
        assert!(error.contains(word), "{error}");
    }
    for word in ["not-held", "layers-from", "use-suffices", "for-pipe-up-to", "classes"] {
        assert!(WELDER_PACK_FORMAT.contains(word), "{word}");
    }
}

/// The shape of the designation, ISO 9606-1 clause 11 (order from memory).
#[test]
fn the_designation_is_as_certificates_print_it() {
    assert_eq!(designation(&fillet_test()).unwrap(), "ISO 9606-1 135 P FW FM1 S t10 PB ml");
    assert_eq!(designation(&butt_test()).unwrap(), "ISO 9606-1 135 P BW FM1 S s8 PF ss nb");
    let pipe = WelderTest {
        product: Some(ProductForm::Pipe),
        outside_diameter: size("60.3 mm"),
        deposit: size("3.6 mm"),
        positions: vec![TestPosition::HL045],
        ..butt_test()
    };
    assert_eq!(designation(&pipe).unwrap(), "ISO 9606-1 135 T BW FM1 S s3.6 D60.3 H-L045 ss nb");
    let open = WelderTest { layers: None, ..fillet_test() };
    assert_eq!(designation(&open).unwrap_err().fact, "layers");
    let unknown = WelderTest { weld: None, ..fillet_test() };
    assert_eq!(designation(&unknown).unwrap_err().fact, "weld");
    assert_eq!(fillet_test().weld, Some(JointKind::Fillet));
    assert_eq!(fillet_test().layers, Some(Layers::Multi));
}

#[test]
fn a_limit_says_its_working_and_what_it_is_for() {
    let range = iso().range(&butt_test());
    let limit = range.limits.iter().find(|limit| limit.rule == "deposit").unwrap();
    assert_eq!(limit.working, "deposit-thickness 8 mm: 3 mm to 16 mm");
    assert_eq!(limit.only_for().unwrap(), "butt");
    let turned = range.limits.iter().find(|limit| limit.rule == "plate-for-turned-pipe").unwrap();
    assert_eq!(turned.only_for().unwrap(), "pipe; in PA, PB, PC, PD; turned");
}

/// ISO 9606-1, ASME IX QW-361 and AWS D1.1 qualify welders apart from operators, whom ISO 14732 is about (all from
/// memory). Process 111 is manual by its name (ISO 4063).
#[test]
fn welders_weld_by_hand_and_operators_run_machines() {
    use Mechanisation::{Automatic, Fully, Manual, Partly};
    let of_degree = |pack: &WelderPack, test: &WelderTest, job: WelderJob| {
        let judgement = pack.range(test).judge(&job);
        let rules = judgement.findings.into_iter();
        rules.filter(|one| one.rule.ends_with("-only")).map(|one| one.ruling).collect::<Vec<_>>()
    };
    for key in ["iso-9606-1-2012", "asme-ix-2017-performance", "aws-d1.1-2020-performance"] {
        let ruled = |mechanisation| {
            of_degree(pack(key), &fillet_test(), WelderJob { mechanisation, ..fillet_job() })
        };
        for degree in [Manual, Partly] {
            assert_eq!(ruled(Some(degree)), [WelderRuling::Within], "{key} {degree}");
        }
        for degree in [Fully, Automatic] {
            assert_eq!(ruled(Some(degree)), [WelderRuling::Outside], "{key} {degree}");
        }
        assert_eq!(ruled(None), [WelderRuling::NotJudged], "{key}");
    }
    let operator = WelderTest { mechanisation: Some(Fully), ..fillet_test() };
    let ruled = |mechanisation| {
        let job = WelderJob { mechanisation: Some(mechanisation), ..fillet_job() };
        of_degree(pack("iso-14732-2013"), &operator, job)
    };
    let all = [Manual, Partly, Fully, Automatic].map(ruled).concat();
    assert_eq!(all, [Outside, Outside, Within, Within]);
    // A test by a machine is none of a welder.
    let judged = of_degree(iso(), &operator, fillet_job());
    assert_eq!(judged, [WelderRuling::NotJudged]);
    let electrode =
        WelderTest { process: Process::ManualMetalArc, mechanisation: None, ..fillet_test() };
    let stick = |mechanisation| {
        let job =
            WelderJob { process: Some(Process::ManualMetalArc), mechanisation, ..fillet_job() };
        of_degree(iso(), &electrode, job)
    };
    assert_eq!(stick(None), [Within]);
    assert_eq!(stick(Some(Automatic)), [Outside]);
}
