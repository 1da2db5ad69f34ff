//! Fixed limits of AWS D1.1/D1.1M:2020, Table 5.1 with Tables 5.8, 5.4 and 7.7: inside, on and outside each end, in
//! both printed columns. How well each figure was confirmed stands in the pack; what is marked memory there is from
//! memory here as well.

mod metals;
mod sizes;
mod statements;

use arcbounds::{
    qualify::{
        JobFacts, Judgement, Pack, PackRoute, Proposal, ProposedPart, ProposedRun, Ruling,
        Standing, WrongPack, derive, judge, packs,
        record::{
            D11Group, HeatTreatment, Joint, Layering, Mechanisation, OutputCharacteristic,
            Penetration, ProductForm, Transfer, TreatmentClass, WeldKind,
        },
        without_test,
    },
    quantity::UnitSystem,
    trade::{
        Coded, Confidence, Polarity, Position, PreheatCategory, Process, RunClass, Waveform,
        category_preheat,
    },
};

use super::fixture::*;
use UnitSystem::{Metric, Us};

const INSIDE: Standing = Standing::Inside;

const OUTSIDE: Standing = Standing::Outside;

fn pack() -> &'static Pack {
    packs().iter().find(|pack| pack.key == "aws-d1.1-2020-prequalified").unwrap()
}

fn process(code: &str) -> Process {
    Process::from_code(code).unwrap()
}

/// Every question of the pack answered with yes, no tests demanded.
fn answered() -> JobFacts {
    let asked = pack().summaries().into_iter().filter(|rule| rule.question.is_some());
    JobFacts {
        impact_required: Some(false),
        hardness_required: Some(false),
        stated: asked.map(|rule| (rule.id, true)).collect(),
        ..JobFacts::default()
    }
}

fn filler_of(code: &str) -> &'static str {
    match code {
        "111" => "E7018 H4R",
        "114" => "E71T-8",
        "136" => "E71T-1C H8",
        _ => "ER70S-6",
    }
}

/// A joint that keeps every limit of its process: plate of 10 mm, group II, category B. Invented.
fn kept(code: &str, weld: WeldKind, position: Position, class: RunClass) -> Proposal {
    let own = process(code);
    let part = ProposedPart {
        form: Some(ProductForm::Plate),
        thickness: one("10 mm"),
        d11_group: Some(D11Group::II),
        ..ProposedPart::default()
    };
    let gas_text = if code == "136" { "C1" } else { "M21-ArC-18" };
    let run = ProposedRun {
        class: Some(class),
        mechanisation: Some(Mechanisation::Partly),
        filler: Some(filler(filler_of(code), "2.0 mm")),
        electrodes: Some(1),
        gas: if matches!(code, "111" | "114" | "121") { None } else { gas(gas_text) },
        polarity: Some(Polarity::Dcep),
        waveform: Some(Waveform::NotControlled),
        characteristic: Some(OutputCharacteristic::ConstantVoltage),
        transfer: Some(Transfer::Spray),
        current: range("190 A", "210 A"),
        voltage: range("24 V", "26 V"),
        travel_speed: range("350 mm/min", "400 mm/min"),
        layer_thickness: one("4 mm"),
        width: one("12 mm"),
        gas_flow: range("16 L/min", "20 L/min"),
        ..ProposedRun::new(own)
    };
    Proposal {
        joint: Joint {
            weld: Some(weld),
            penetration: (weld == WeldKind::Butt).then_some(Penetration::Full),
            ..Joint::default()
        },
        parts: vec![part.clone(), part],
        positions: vec![position],
        layering: Some(Layering::SingleRun),
        leg: one("6 mm"),
        deposits: vec![(own, one("10 mm"))],
        runs: vec![run],
        preheat_category: Some(PreheatCategory::B),
        preheat: Some(q("20 °C")),
        interpass_min: Some(q("20 °C")),
        heat_treatment: Some(HeatTreatment {
            class: TreatmentClass::None,
            temperature: None,
            time: None,
            rates: None,
            cooling: None,
            heating: None,
        }),
        ..Proposal::default()
    }
}

fn judged_in(columns: UnitSystem, proposal: &Proposal, job: &JobFacts) -> Judgement {
    let processes: Vec<_> = proposal.deposits.iter().map(|(process, _)| *process).collect();
    judge(proposal, &[without_test(pack(), &processes, columns, job).unwrap()])
}

/// How a changed joint stands to one rule; `None` where the rule is not about it.
fn stands(columns: UnitSystem, proposal: &Proposal, rule: &str) -> Option<Standing> {
    let judgement = judged_in(columns, proposal, &answered());
    let found = best(&judgement).findings.iter().find(|finding| finding.rule == rule);
    found.map(|finding| finding.standing.clone())
}

#[test]
fn what_keeps_every_limit_is_prequalified() {
    for (code, weld, position, class) in [
        ("111", WeldKind::Butt, Position::Pf, RunClass::Root),
        ("111", WeldKind::Fillet, Position::Pb, RunClass::Single),
        ("136", WeldKind::Butt, Position::Pf, RunClass::Fill),
        ("136", WeldKind::Fillet, Position::Pd, RunClass::Single),
        ("135", WeldKind::Fillet, Position::Pa, RunClass::Single),
        ("114", WeldKind::Butt, Position::Pc, RunClass::Cap),
        ("121", WeldKind::Butt, Position::Pa, RunClass::Fill),
        ("121", WeldKind::Fillet, Position::Pb, RunClass::Single),
    ] {
        let judgement = judged_in(Metric, &kept(code, weld, position, class), &answered());
        assert_eq!(judgement.ruling, Ruling::Qualified, "{code} {:#?}", complaints(&judgement));
        assert!(best(&judgement).rests_on_memory, "{code}");
        assert!(best(&judgement).pieces.is_empty());
    }
}

/// 5.5.1: TIG and plasma have no fixed limits, short circuit is never prequalified; what the pack does not name is
/// not judged.
#[test]
fn banned_and_unknown_processes() {
    let ruled = |code: &str| {
        let all = kept(code, WeldKind::Butt, Position::Pa, RunClass::Fill);
        stands(Metric, &all, "process").unwrap()
    };
    for code in ["111", "114", "121", "125", "131", "132", "133", "135", "136", "138"] {
        assert_eq!(ruled(code), INSIDE, "{code}");
    }
    for code in ["141", "142", "143", "145", "15"] {
        assert_eq!(ruled(code), OUTSIDE, "{code}");
    }
    for code in ["122", "124", "126", "151"] {
        assert!(matches!(ruled(code), Standing::NotJudged(_)), "{code}");
    }
    for (transfer, expected) in [
        (Transfer::ShortCircuit, OUTSIDE),
        (Transfer::Globular, INSIDE),
        (Transfer::Spray, INSIDE),
        (Transfer::Pulsed, INSIDE),
    ] {
        let mut all = kept("135", WeldKind::Butt, Position::Pa, RunClass::Root);
        all.runs[0].transfer = Some(transfer);
        assert_eq!(stands(Metric, &all, "transfer"), Some(expected), "{transfer}");
    }
    let mut all = kept("135", WeldKind::Butt, Position::Pa, RunClass::Root);
    all.runs[0].transfer = None;
    assert!(matches!(stands(Metric, &all, "transfer"), Some(Standing::NotJudged(_))));
    all.runs[0].characteristic = Some(OutputCharacteristic::ConstantCurrent);
    assert_eq!(stands(Metric, &all, "constant-voltage"), Some(OUTSIDE));
}
