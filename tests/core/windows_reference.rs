//! One thousand windows against scipy's linear and least-distance solvers: `tests/reference/windows.py`
//! says how to repeat.

use arcbounds::{
    check::{Force, Variable},
    trade::Coded,
};
use serde_json::Value;

use super::windows_support::{Figures, Follow, settings};

const REFERENCE: &str = include_str!("../reference/windows.json");

/// Share by which two optima may differ: far above the 1e-10 of either solver, far below any step.
const TOLERANCE: f64 = 1e-7;

fn numbers<const N: usize>(value: &Value) -> [f64; N] {
    let all: Vec<_> = value.as_array().unwrap().iter().map(|one| one.as_f64().unwrap()).collect();
    all.try_into().unwrap()
}

fn figures(window: &Value) -> Figures {
    let limits = window["limits"].as_object().unwrap().iter().map(|(name, ends)| {
        (Variable::from_code(name).unwrap(), ends[0].as_f64(), ends[1].as_f64())
    });
    let follow = window.get("response").map(|response| Follow {
        through: numbers(&response["through"]),
        exponents: numbers(&response["exponents"]),
        band: numbers(&response["band"]),
        feeds: numbers(&response["reach"][0]),
        stick_outs: numbers(&response["reach"][1]),
    });
    Figures { limits: limits.collect(), spread: numbers(&window["spread"]), follow }
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= TOLERANCE * b.abs().max(1.0)
}

#[test]
fn a_thousand_windows_agree_with_scipy() {
    let reference: Value = serde_json::from_str(REFERENCE).unwrap();
    let windows = reference["windows"].as_array().unwrap();
    assert_eq!(windows.len(), 1000);
    let mut open = 0;
    for (number, window) in windows.iter().enumerate() {
        let space = figures(window).space();
        let answer = &window["answer"];
        let found = space.open(Force::Required);
        assert_eq!(found.is_err(), answer.get("empty").is_some(), "{number}: {window}");
        let Ok(found) = found else { continue };
        open += 1;
        let from = settings(numbers(&window["from"]));
        let ends = answer["ends"].as_object().unwrap();
        for (name, expected) in ends {
            let expected: [f64; 2] = numbers(expected);
            let extent = found.extent(Variable::from_code(name).unwrap()).unwrap();
            let exact = [extent.min, extent.max].map(|end| end.unwrap().canonical());
            let both = near(exact[0], expected[0]) && near(exact[1], expected[1]);
            assert!(both, "{number} {name}: {exact:?} {expected:?}");
        }
        let drift = found.greatest_drift().unwrap().ratio();
        assert!(near(drift, answer["drift"].as_f64().unwrap()), "{number}: drift {drift}");
        let (_, change) = found.nearest_without_steps(&from).unwrap();
        let expected = answer["change"].as_f64().unwrap();
        assert!(near(change.ratio(), expected), "{number}: change {change} {expected}");
    }
    assert_eq!(open, 632);
}
