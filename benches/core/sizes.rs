//! One check that names no procedure, with 100 to 100,000 procedures on record. Whatever their number, 20 of them
//! cover the job, so what grows is only what a check must not depend on.

use std::{hint::black_box, sync::Arc, time::Instant};

use arcbounds::{
    check::{Book, Procedures, Setup, Telling, judge, record::Procedure},
    trade::{Coded, JointKind, MetalGroup, Position, Process},
};
use time::macros::date;

use crate::{memory::resident, scenario};

/// Procedures that cover one job.
const COVERING: usize = 20;

const SIZES: [usize; 4] = [100, 1_000, 10_000, 100_000];

/// Times each size is looked at, in turns, so that a busy machine spoils no single size.
const TURNS: usize = 9;

const ROUNDS: u32 = 300;

/// Sub-groups of ISO/TR 15608 that the copies are spread over.
const GROUPS: &[&str] = &[
    "1.1", "1.2", "1.3", "1.4", "2.1", "2.2", "3.1", "3.2", "3.3", "4.1", "4.2", "5.1", "5.2",
    "5.3", "5.4", "6.1", "6.2", "6.3", "6.4", "7.1", "7.2", "7.3", "8.1", "8.2", "8.3", "9.1",
    "9.2", "9.3", "10.1", "10.2", "11.1", "11.2", "11.3",
];

pub fn run() {
    println!("one check that names no procedure; {COVERING} cover the job");
    let setup = scenario::setup(|setup| setup.procedure = None);
    let before = resident();
    let mut sides = Vec::new();
    for size in SIZES {
        let started = Instant::now();
        let held = resident();
        let book = book(size, &setup);
        let took = started.elapsed();
        let answer = judge(&book, &setup, date!(2026 - 12 - 01), Telling::Nothing);
        assert_eq!(answer.candidates.len() + 1, COVERING, "{size}");
        sides.push((size, book, Vec::new(), took, resident().saturating_sub(held)));
    }
    for _ in 0..TURNS {
        for (_, book, times, ..) in &mut sides {
            let started = Instant::now();
            for _ in 0..ROUNDS {
                let day = date!(2026 - 12 - 01);
                black_box(judge(book, &setup, day, Telling::WhatNeedsSomething));
            }
            times.push(started.elapsed() / ROUNDS);
        }
    }
    let mut first = None;
    for (size, _, mut times, took, bytes) in sides {
        times.sort_unstable();
        let median = times[TURNS / 2].as_secs_f64() * 1e6;
        let ratio = median / *first.get_or_insert(median);
        println!(
            "  {size:6} procedures: {median:6.1} us a check, {ratio:4.2} times the first; indexed in {:.2?}, \
             {} bytes a procedure",
            took,
            bytes / size
        );
    }
    println!("  resident before: {} MiB", before >> 20);
}

/// So many procedures, of which [`COVERING`] cover the job of the setup; the others cover others.
fn book(size: usize, setup: &Setup) -> Book {
    let mut book = scenario::book();
    let model = book.procedures.revisions("WPS-101").last().map(|one| Procedure::clone(one));
    let model = model.unwrap_or_else(|| panic!("the scenario has no WPS-101"));
    let groups: Vec<MetalGroup> = GROUPS.iter().filter_map(|text| text.parse().ok()).collect();
    let own = setup.job.base_metals.first().and_then(|part| part.group);
    let others = groups.iter().filter(|group| Some(**group) != own).flat_map(|group| {
        Process::ALL.iter().flat_map(move |(process, _)| {
            JointKind::ALL.iter().flat_map(move |(joint, _)| {
                Position::ALL.iter().map(move |(position, _)| (*process, *joint, *position, *group))
            })
        })
    });
    let copy = |class: usize, copy: usize| Procedure {
        number: format!("{}-{class}-{copy}", model.number),
        ..model.clone()
    };
    let mut all: Vec<_> = (0..COVERING).map(|number| copy(0, number)).collect();
    for (class, (process, joint, position, group)) in others.enumerate() {
        if all.len() >= size {
            break;
        }
        all.extend((0..COVERING).map(|number| Procedure {
            process,
            joints: vec![joint],
            positions: vec![position],
            base_metals: vec![group],
            ..copy(class + 1, number)
        }));
    }
    assert!(all.len() >= size, "{size} procedures cannot be told apart");
    book.procedures = Procedures::new(all.into_iter().map(Arc::new));
    book
}
