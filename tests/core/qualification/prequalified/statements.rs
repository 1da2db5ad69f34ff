//! How closely settings are stated, what a person has to see, and slips of such packs.

use super::*;

/// C-3.6: as closely as a procedure qualified by test. A range fits if it lies within the shares of one value:
/// 10 %: 180 to 220 around 200 A. 7 %: 23.25 to 26.75 around 25 V. 25 %: 300 to 500 around 400 mm/min; 15 %: 340 to
/// 460. -20/+50 %: 16 to 30 around 20 L/min (own arithmetic; rows 17, 18, 20 from memory).
#[test]
fn settings_are_stated_closely_enough() {
    type Set = fn(&mut Proposal, &str, &str);
    let current: Set = |all, low, high| all.runs[0].current = range(low, high);
    let feed: Set = |all, low, high| {
        all.runs[0].current = None;
        all.runs[0].wire_feed = range(low, high);
    };
    let volts: Set = |all, low, high| all.runs[0].voltage = range(low, high);
    let travel: Set = |all, low, high| all.runs[0].travel_speed = range(low, high);
    let flow: Set = |all, low, high| all.runs[0].gas_flow = range(low, high);
    for (code, rule, set, low, high, above) in [
        ("136", "current-stated", current, "180 A", "220 A", "220.1 A"),
        ("121", "current-stated", current, "180 A", "220 A", "220.1 A"),
        ("135", "feed-stated", feed, "9 m/min", "11 m/min", "11.01 m/min"),
        ("136", "voltage-stated", volts, "23.25 V", "26.75 V", "26.76 V"),
        ("136", "travel-speed-stated-wire", travel, "300 mm/min", "500 mm/min", "501 mm/min"),
        ("121", "travel-speed-stated-submerged", travel, "340 mm/min", "460 mm/min", "461 mm/min"),
        ("135", "gas-flow-stated", flow, "16 L/min", "30 L/min", "30.1 L/min"),
    ] {
        for (to, expected) in [(low, INSIDE), (high, INSIDE), (above, OUTSIDE)] {
            let mut all = kept(code, WeldKind::Butt, Position::Pa, RunClass::Fill);
            set(&mut all, low, to);
            assert_eq!(stands(Metric, &all, rule), Some(expected), "{code} {rule} {to}");
        }
    }
    let mut open = kept("136", WeldKind::Butt, Position::Pa, RunClass::Fill);
    open.runs[0].voltage = Some(arcbounds::quantity::Range::at_most(q("26 V")));
    assert_eq!(stands(Metric, &open, "voltage-stated"), Some(OUTSIDE));
    open.runs[0].voltage = None;
    assert!(matches!(stands(Metric, &open, "voltage-stated"), Some(Standing::NotJudged(_))));
    // Current or feed: one of them is enough, neither is not judged.
    open.runs[0].current = None;
    assert!(matches!(stands(Metric, &open, "feed-stated"), Some(Standing::NotJudged(_))));
    open.runs[0].wire_feed = range("9 m/min", "11 m/min");
    assert_eq!(stands(Metric, &open, "feed-stated"), Some(INSIDE));
    assert_eq!(stands(Metric, &open, "current-stated"), Some(Standing::Informative));
}

#[test]
fn what_a_person_has_to_see() {
    let all = kept("136", WeldKind::Butt, Position::Pf, RunClass::Fill);
    let mut job = answered();
    job.stated.remove("joint-detail");
    assert_eq!(judged_in(Metric, &all, &job).ruling, Ruling::NotJudged);
    // Impact tests: asked only where the contract asks for them, or nobody says.
    let mut job = answered();
    job.stated.remove("impact-tests");
    assert_eq!(judged_in(Metric, &all, &job).ruling, Ruling::Qualified);
    for required in [Some(true), None] {
        job.impact_required = required;
        assert_eq!(judged_in(Metric, &all, &job).ruling, Ruling::NotJudged, "{required:?}");
    }
    let mut job = answered();
    job.stated.remove("heat-treatment");
    assert_eq!(judged_in(Metric, &all, &job).ruling, Ruling::Qualified);
    let mut treated = all.clone();
    treated.heat_treatment.as_mut().unwrap().class = TreatmentClass::BelowLower;
    assert_eq!(judged_in(Metric, &treated, &job).ruling, Ruling::NotJudged);
    treated.heat_treatment = None;
    assert_eq!(judged_in(Metric, &treated, &job).ruling, Ruling::NotJudged);
    let empty = Proposal {
        deposits: vec![(process("136"), None)],
        runs: vec![ProposedRun::new(process("136"))],
        ..Proposal::default()
    };
    let nothing = judged_in(Metric, &empty, &JobFacts::default());
    assert_eq!(nothing.ruling, Ruling::NotJudged, "{:#?}", complaints(&nothing));
}

/// Fixed limits judge no record, and rules about records judge nothing without one.
#[test]
fn routes_are_kept_apart() {
    assert_eq!((pack().route, aws().route), (PackRoute::Prequalified, PackRoute::Tested));
    let mut record = aws_record();
    record.code.edition = "2020".to_owned();
    let refused = derive(&record, pack(), &undemanding()).unwrap_err();
    assert!(matches!(refused, WrongPack::Route { route: PackRoute::Prequalified, .. }));
    let refused = without_test(aws(), &[process("136")], Metric, &undemanding()).unwrap_err();
    assert!(matches!(refused, WrongPack::Route { route: PackRoute::Tested, .. }));
}

const HEAD: &str = r#"
key = "x"
title = "x"
code = "X"
edition = "1"
route = "prequalified"
systems = ["metric"]
processes = ["135"]
sources = ["x"]
[[rule]]
id = "process"
clause = "1"
variable = "process"
confidence = "memory"
per = "test-piece"
limit = { member-of = { values = ["135"] } }
"#;

#[test]
fn a_slip_in_a_pack_of_fixed_limits_is_named() {
    assert!(Pack::load(HEAD).is_ok());
    let rule = |variable: &str, when: &str, limit: &str| {
        format!(
            "{HEAD}\n[[rule]]\nid = \"r\"\nclause = \"2\"\nvariable = \"{variable}\"\nconfidence = \"memory\"\n\
             per = \"test-piece\"\nwhen = {when}\nlimit = {limit}"
        )
    };
    let ten = "{ fixed = { metric = { max = 10 } } }";
    let sized =
        |rows: &str| format!("{{ by-size = {{ by = \"thinner-part\", metric = [{rows}] }} }}");
    for (text, field, problem) in [
        (rule("position", "{}", "\"same\""), "limit", "counts from a record"),
        (rule("fillet-leg", "{ weld = [\"fillet\"] }", ten), "when", "asks for a test piece"),
        (
            rule("fillet-leg", "{ for = { run-class = [\"rot\"] } }", ten),
            "when.for",
            "\"rot\" is no run-class; known are root, hot, fill, cap, single",
        ),
        (rule("fillet-leg", "{ for = { groove = [\"u\"] } }", ten), "when.for", "no closed list"),
        (rule("fillet-leg", "{ for = { run-class = [] } }", ten), "when.for", "is empty"),
        (
            rule("fillet-leg", "{}", &sized("{ up-to = 6, min = 3 }, { above = 7, min = 5 }")),
            "limit",
            "begin where the one before ends",
        ),
        (
            rule("fillet-leg", "{}", &sized("{ up-to = 6, min = 3 }, { from = 6, min = 5 }")),
            "limit",
            "begin where the one before ends",
        ),
        (rule("fillet-leg", "{}", &sized("{ up-to = 6 }")), "limit", "min, max or both"),
        (rule("fillet-leg", "{}", "{ spread = { minus = 100, plus = 10 } }"), "limit", "below 100"),
    ] {
        let error = Pack::load(&text).unwrap_err().remove(0);
        assert_eq!((error.rule.as_deref(), error.field.as_str()), (Some("r"), field), "{text}");
        assert!(error.problem.contains(problem), "{error}");
    }
}
