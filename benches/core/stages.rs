//! Where the time of one check goes: each stage of the demo's allowed setup on its own. `look` is the first look alone, on
//! prepared values, which `judge` takes too.

use std::{env, hint::black_box, time::Instant};

use arcbounds::{
    check::{Answer, PlainValues, Setup, each_case, judge, plainly_met},
    checks::{CheckAnswer, Detail, RulebookOut, SetupIn},
    quantity::UnitSystem,
    wire::{AmountOut, Errors, read_plain, write_json},
};
use time::macros::date;

use crate::scenario;

/// How much is told, and what its stages are called.
const DETAILS: [(Detail, [&str; 3]); 2] = [
    (Detail::Summary, ["judge", "tell", "write"]),
    (Detail::Full, ["judge-all", "tell-all", "write-all"]),
];

/// `--only=judge` runs one stage, a fixed number of rounds.
pub fn run() {
    let asked = env::args().find_map(|word| word.strip_prefix("--only=").map(str::to_owned));
    let rounds: u32 = if asked.is_some() { 1000 } else { 20_000 };
    let book = scenario::book();
    let day = date!(2026 - 12 - 01);
    let sent = read();
    let setup = convert(&sent);
    println!("one check: {} bytes in", scenario::SETUP.len());
    let time = |name: &str, stage: &mut dyn FnMut()| {
        if asked.as_deref().is_some_and(|asked| asked != name) {
            return;
        }
        (0..rounds / 10).for_each(|_| stage());
        let started = Instant::now();
        (0..rounds).for_each(|_| stage());
        println!("  {name:9} {:6} ns", (started.elapsed() / rounds).as_nanos());
    };
    time("read", &mut || drop(black_box(read())));
    time("convert", &mut || drop(black_box(convert(&sent))));
    each_case(&book, &setup, day, |case, _| {
        let values = PlainValues::of(&setup, case.readings);
        time("look", &mut || {
            let (procedure, run) = (black_box(case.procedure), black_box(case.run));
            black_box(plainly_met(procedure, run, black_box(&setup), black_box(&values)));
        });
    });
    for (detail, rows) in DETAILS {
        let judged = judge(&book, &setup, day, detail.telling());
        let answer = || told(judged.clone(), detail);
        let told = answer();
        let [judging, telling, writing] = rows;
        time(judging, &mut || drop(black_box(judge(&book, &setup, day, detail.telling()))));
        time(telling, &mut || drop(black_box(answer())));
        time(writing, &mut || drop(black_box(write(&told))));
        if asked.is_none() {
            println!(
                "  {}, {} findings told, {} bytes out",
                told.verdict,
                told.findings.len(),
                write(&told).len()
            );
        }
    }
}

fn read() -> Box<SetupIn> {
    let body = black_box(scenario::SETUP.as_bytes());
    read_plain(body).unwrap_or_else(|| panic!("the setup is not read from its text"))
}

fn convert(sent: &SetupIn) -> Box<Setup> {
    let mut errors = Errors::default();
    let setup = sent.setup((Some("ST-1".to_owned()), None), date!(2026 - 12 - 01), &mut errors);
    setup.unwrap_or_else(|| panic!("{errors:?}"))
}

fn told(judged: Answer, detail: Detail) -> CheckAnswer {
    CheckAnswer::new(judged, rulebook(), Some(UnitSystem::Metric), detail)
        .unwrap_or_else(|error| panic!("{error}"))
}

fn rulebook() -> RulebookOut {
    let seconds = |value: i64| AmountOut { value: value.into(), unit: "s" };
    RulebookOut {
        version: 1,
        decision_rule: "simple-acceptance",
        guard_factor: 1.0,
        age: seconds(1),
        stale_after: seconds(900),
    }
}

fn write(answer: &CheckAnswer) -> Vec<u8> {
    let mut text = Vec::with_capacity(8 * 1024);
    drop(write_json(answer, &mut text));
    text
}
