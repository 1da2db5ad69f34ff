//! Windows of the demo's jobs: the exact ends of every settable variable, and the starting point.

use std::{hint::black_box, time::Instant};

use arcbounds::{
    check::{Force, Settings, each_case},
    window::{Question, spaces},
};
use time::macros::date;

use crate::scenario;

const ROUNDS: usize = 300;

pub fn run() {
    let book = scenario::book();
    let setup = scenario::setup(|setup| {
        setup.settings = Settings::default();
        setup.procedure = None;
        setup.work_order = None;
        setup.job.code = book.work_orders.get("WO-2102").map(|order| order.code.clone());
    });
    let question = Question::plain().unwrap_or_else(|error| panic!("{error}"));
    let (mut times, mut cases, mut open) = (Vec::new(), 0, 0);
    for _ in 0..ROUNDS {
        cases = 0;
        open = 0;
        let each = each_case(&book, &setup, date!(2026 - 12 - 01), |case, _| {
            let started = Instant::now();
            let spaces = spaces(case, &question);
            for space in &spaces {
                if let Ok(left) = space.open(Force::Required) {
                    black_box(left.narrow(&case.setup.settings));
                    black_box(left.starting_point(&case.setup.settings));
                    open += 1;
                }
            }
            cases += 1;
            started.elapsed()
        });
        times.extend(each);
    }
    times.sort_unstable();
    let at = |share: usize| times[(times.len() - 1) * share / 100].as_secs_f64() * 1e6;
    println!(
        "windows: {cases} procedures and run classes, {open} with a window; ends and starting point {:.0} us \
         median, {:.0} us p99",
        at(50),
        at(99)
    );
}
