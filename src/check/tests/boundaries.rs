//! One limit is one limit, whichever unit it and the value are typed in: through the check itself.

use rust_decimal::{Decimal, RoundingStrategy, prelude::FromPrimitive};

use super::probe::{PROBES, Probe};
use crate::{
    check::{Outcome, fixture::Scene},
    quantity::Unit,
};

/// A canonical value typed in a unit, to 15 digits.
fn typed(canonical: f64, unit: &Unit) -> String {
    let number = Decimal::from_f64(unit.number(canonical)).unwrap();
    let digits = RoundingStrategy::MidpointAwayFromZero;
    format!("{} {}", number.round_sf_with_strategy(15, digits).unwrap(), unit.symbol)
}

fn canonical(probe: &Probe, number: f64) -> f64 {
    let unit = probe.kind.units.iter().find(|unit| unit.symbol == probe.unit).unwrap();
    (number - unit.offset) * unit.factor.0 / unit.factor.1
}

fn outcome(probe: &Probe, value: &str, min: &str, max: &str) -> Outcome {
    let scene = Scene::allowed().with(|s| {
        (probe.set)(s, Some(value));
        (probe.limit)(s, min, max);
    });
    probe.only(&scene).outcome
}

/// For every pair of units: the end itself is inside, a millionth beyond it is outside.
#[test]
fn an_end_is_the_same_end_in_every_pair_of_units() {
    let mut pairs = 0;
    for probe in PROBES {
        let low = canonical(probe, probe.ends.0);
        let high = canonical(probe, probe.ends.1);
        let step = |end: f64| 1e-6 * end.abs().max(probe.kind.tolerance_floor);
        for of_limit in probe.kind.units {
            let (min, max) = (typed(low, of_limit), typed(high, of_limit));
            for of_value in probe.kind.units {
                pairs += 1;
                let at = |value: f64| outcome(probe, &typed(value, of_value), &min, &max);
                let pair = format!("{} {} {}", probe.check, of_limit.symbol, of_value.symbol);
                assert_eq!(at(low), Outcome::Inside, "{pair} low end");
                assert_eq!(at(high), Outcome::Inside, "{pair} high end");
                assert_eq!(at(low - step(low)), Outcome::Outside, "{pair} below");
                assert_eq!(at(high + step(high)), Outcome::Outside, "{pair} above");
            }
        }
    }
    // A, V, deg and deg: 1 pair each; five units of feed, travel, stick-out, weave: 25 each; three
    // of each temperature: 9 each; two of flow and of power: 4 each.
    assert_eq!(pairs, 4 + 4 * 25 + 2 * 9 + 2 * 4);
}

/// The same limit typed in two units, from exact definitions: inch 25.4 mm, °F by 5/9 and 32, cubic
/// foot 28.316846592 L (NIST SP 811, 2008, B.8).
#[test]
fn ends_that_everybody_knows_are_the_same_in_both_units() {
    let table = [
        ("travel-speed", "10 in/min", "254 mm/min"),
        ("travel-speed", "3 in/min", "76.2 mm/min"),
        ("wire-feed", "300 in/min", "7.62 m/min"),
        ("wire-feed", "350 in/min", "8.89 m/min"),
        ("electrical-stick-out", "3/4 in", "19.05 mm"),
        ("weave-width", "5/8 in", "15.875 mm"),
        ("preheat", "212 °F", "100 °C"),
        ("preheat", "50 °F", "283.15 K"),
        ("interpass", "482 °F", "250 °C"),
        ("gas-flow", "60 ft3/h", "28.316846592 L/min"),
        ("arc-power", "5.72 kW", "5720 W"),
    ];
    for (check, one, other) in table {
        let probe = PROBES.iter().find(|probe| probe.check == check).unwrap();
        for (value, limit) in [(one, other), (other, one), (one, one), (other, other)] {
            assert_eq!(outcome(probe, value, limit, limit), Outcome::Inside, "{value} {limit}");
            assert_eq!(outcome(probe, value, "", limit), Outcome::Inside, "{value} {limit}");
            assert_eq!(outcome(probe, value, limit, ""), Outcome::Inside, "{value} {limit}");
        }
    }
}
