//! The probability that a measured quantity lies inside its limits, against a general library; and what
//! must hold for any instrument.

use arcbounds::{
    check::{Accuracy, Given, GuardFactor, Origin},
    quantity::{Current, CurrentKind, Quantity, Range, Span},
    trade::{Coded, ErrorModel, ErrorSize},
};
use proptest::prelude::*;
use serde_json::Value;

fn amperes(value: f64) -> Current {
    Quantity::computed(value).unwrap()
}

fn read(value: f64, model: ErrorModel, figure: f64) -> Given<CurrentKind> {
    let accuracy = Accuracy::Known(model, ErrorSize::Absolute(amperes(figure)));
    Given { origin: Origin::Measured, accuracy, ..Given::set(Span::one(amperes(value))) }
}

fn probability(given: &Given<CurrentKind>, range: &Range<CurrentKind>) -> f64 {
    given.conformity(range, GuardFactor::ONE).unwrap().probability.ratio()
}

/// Source: scipy, version in the file; script and output in `tests/reference/`.
#[test]
fn probabilities_are_those_of_a_general_library() {
    let file: Value = serde_json::from_str(include_str!("../reference/conformity.json")).unwrap();
    let rows = file["rows"].as_array().unwrap();
    assert_eq!(rows.len(), 440);
    for row in rows {
        let model = ErrorModel::from_code(row["model"].as_str().unwrap()).unwrap();
        let end = |name: &str| row[name].as_f64().map(amperes);
        let range = Range::new(end("min"), end("max")).unwrap();
        let of = |name: &str| row[name].as_f64().unwrap();
        let got = probability(&read(of("value"), model, of("figure")), &range);
        assert!((got - of("probability")).abs() < 1e-12, "{got} for {row}");
    }
}

fn model() -> impl Strategy<Value = ErrorModel> {
    prop_oneof![Just(ErrorModel::Expanded), Just(ErrorModel::Largest)]
}

proptest! {
    /// Shown inside, a worse instrument makes it less certain; one that can prove nothing does not become
    /// able to by being worse.
    #[test]
    fn a_worse_instrument_never_shows_more(
        model in model(),
        value in 234.0..286.0_f64,
        figure in 0.01..40.0_f64,
        more in 0.0..40.0_f64,
        factor in 0.1..3.0_f64,
        open in any::<bool>(),
    ) {
        let min = (!open).then(|| amperes(234.0));
        let range = Range::new(min, Some(amperes(286.0))).unwrap();
        let (better, worse) = (read(value, model, figure), read(value, model, figure + more));
        prop_assert!(probability(&worse, &range) <= probability(&better, &range) + 1e-12);
        let guard = GuardFactor::new(factor).unwrap();
        prop_assert!(better.can_prove(&range, guard) || !worse.can_prove(&range, guard));
        prop_assert!(worse.can_prove(&range, guard) || !range_is_met(&worse, &range, guard));
    }

    /// A value clear of its guard band lies inside with 97.7 % at least where errors are normal (JCGM
    /// 106:2012, 8.3: one-sided 2.3 % at w = 2 u, own arithmetic; two limits can both take it), and with
    /// certainty where the largest error is known.
    #[test]
    fn guarded_acceptance_keeps_its_promise(
        model in model(), value in 234.0..286.0_f64, figure in 0.01..30.0_f64,
    ) {
        let range = Range::new(Some(amperes(234.0)), Some(amperes(286.0))).unwrap();
        let given = read(value, model, figure);
        if range_is_met(&given, &range, GuardFactor::ONE) {
            let least = if model == ErrorModel::Largest { 1.0 - 1e-9 } else { 0.954 };
            prop_assert!(probability(&given, &range) >= least);
        }
    }
}

fn range_is_met(
    given: &Given<CurrentKind>,
    range: &Range<CurrentKind>,
    guard: GuardFactor,
) -> bool {
    given.place(range, guard) == arcbounds::check::Place::Inside
}
