//! Where the time of one check goes: each stage of the demo's allowed setup on its own, without HTTP.
//!
//! `cargo bench --bench check_stages` prints nanoseconds of each stage. For counts that do not depend on how
//! busy the machine is, `scripts/instructions` runs single stages under valgrind.

mod scenario;

use std::{env, hint::black_box, time::Instant};

use arcbounds::{
    check::{Setup, Telling, judge},
    checks::{CheckAnswer, Detail, RulebookOut, SetupIn},
    quantity::UnitSystem,
    wire::{self, AmountOut, Errors, Node},
};
use time::macros::date;

/// As in the service.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() {
    let asked =
        env::args().find_map(|argument| argument.strip_prefix("--only=").map(str::to_owned));
    let rounds = if asked.is_some() { 200 } else { 20_000 };
    let book = scenario::book();
    let day = date!(2026 - 12 - 01);
    let value = parse();
    let sent = read(&value);
    let setup = convert(&sent);
    let judged = judge(&book, &setup, day, Telling::WhatNeedsSomething);
    let answer =
        || CheckAnswer::new(&judged, rulebook(), Some(UnitSystem::Metric), Detail::Summary);
    let told = answer();
    println!(
        "{} with {} findings, {} bytes",
        told.verdict,
        told.findings.len(),
        write(&told).len()
    );
    let time = |name: &str, stage: &mut dyn FnMut()| {
        if asked.as_deref().is_some_and(|asked| asked != name) {
            return;
        }
        (0..rounds / 10).for_each(|_| stage());
        let started = Instant::now();
        (0..rounds).for_each(|_| stage());
        println!("{name:10} {:8} ns", started.elapsed().as_nanos() / rounds);
    };
    time("none", &mut || ());
    time("parse", &mut || drop(black_box(parse())));
    time("read", &mut || drop(black_box(read(&value))));
    time("convert", &mut || drop(black_box(convert(&sent))));
    time("judge", &mut || drop(black_box(judge(&book, &setup, day, Telling::WhatNeedsSomething))));
    time("tell", &mut || drop(black_box(answer())));
    time("write", &mut || drop(black_box(write(&told))));
}

fn parse() -> Node<'static> {
    serde_json::from_str(scenario::SETUP).unwrap_or(Node::Null)
}

fn read(value: &Node<'_>) -> SetupIn {
    wire::read_node(value).unwrap_or_else(|problem| panic!("{problem:?}"))
}

fn convert(sent: &SetupIn) -> Setup {
    let mut errors = Errors::default();
    let setup = sent.setup((Some("ST-1".to_owned()), None), date!(2026 - 12 - 01), &mut errors);
    setup.unwrap_or_else(|| panic!("{errors:?}"))
}

fn rulebook() -> RulebookOut {
    let seconds = |value: i64| AmountOut { value: value.into(), unit: "s" };
    RulebookOut { version: 1, age: seconds(1), stale_after: seconds(900) }
}

fn write(answer: &CheckAnswer) -> Vec<u8> {
    sonic_rs::to_vec(answer).unwrap_or_default()
}
