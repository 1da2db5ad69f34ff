//! Deposition rates and efficiencies printed for a condition. The scene's wire is invented.

use super::{figures, printed, reason};
use crate::{
    check::fixture::{Scene, interval, quantity, set},
    trade::{FillerKind, Gas, GasGroup},
};

/// Prints a rate at each point of the scene's wire, at 6, 8 and 10 m/min; an empty text prints none.
fn rates(scene: &mut Scene, printed: [&str; 3]) {
    let points = &mut scene.consumable.as_mut().unwrap().data[0].conditions[0].points;
    points.change(|points| {
        for (point, rate) in points.iter_mut().zip(printed) {
            point.deposition_rate = (!rate.is_empty()).then(|| quantity(rate));
        }
    });
}

/// 6.11, 6.25 and 6.17 g of metal per metre of wire.
const USUAL: [&str; 3] = ["2.2 kg/h", "3 kg/h", "3.7 kg/h"];

fn assumed(figures: &crate::check::Figures, name: &str) -> String {
    figures.get(name).unwrap().assumptions.join("; ")
}

/// Own arithmetic: 3 kg/h are 50 g/min, of 7.85 g/cm³ 6369 mm³; over 350 mm 18.198 mm². A leg of
/// sqrt(2 * 18.198 / 1.2) = 5.507 mm to sqrt(2 * 18.198) = 6.033 mm.
#[test]
fn rates_printed_for_the_condition_go_first() {
    let figures = figures(|s| rates(s, USUAL));
    assert_eq!(printed(&figures, "deposition-rate"), "3 kg/h");
    assert_eq!(printed(&figures, "run-area"), "18.2 mm2");
    assert_eq!(printed(&figures, "leg-of-one-run"), "5.507 mm to 6.033 mm");
    assert_eq!(figures.get("deposition-rate").unwrap().formula.name, "printed-deposition-rate");
    for name in ["deposition-rate", "run-area", "leg-of-one-run"] {
        let assumed = assumed(&figures, name);
        assert!(assumed.contains("data sheet 1, edition 2024"), "{name}: {assumed}");
        assert!(!assumed.contains("estimated") && !assumed.contains("typical"), "{assumed}");
    }
    // What melts is the wire: as without printed rates.
    assert_eq!(printed(&figures, "melt-rate"), "2.776 kg/h to 3.708 kg/h");
}

/// Own arithmetic: half way from 3 to 3.7 kg/h is 3.35, half way from 2.2 to 3 is 2.6.
#[test]
fn rates_are_taken_between_the_printed_feeds() {
    let at = |feed: &'static str| {
        printed(
            &figures(|s| {
                rates(s, USUAL);
                s.setup.settings.wire_feed = Some(set(feed));
            }),
            "deposition-rate",
        )
    };
    assert_eq!(at("9 m/min"), "3.35 kg/h");
    assert_eq!(at("7 m/min"), "2.6 kg/h");
    let span = figures(|s| {
        rates(s, USUAL);
        s.setup.settings.wire_feed = Some(interval("7 m/min", "9 m/min"));
    });
    assert_eq!(printed(&span, "deposition-rate"), "2.6 kg/h to 3.35 kg/h");
}

/// Own arithmetic: 3.7 / 10 * 12 = 4.44 kg/h; 2.2 / 6 * 4 = 1.467 kg/h.
#[test]
fn beyond_the_printed_feeds_the_metal_per_length_is_kept_and_that_is_said() {
    let at = |feed: &'static str| {
        figures(|s| {
            rates(s, USUAL);
            s.setup.settings.wire_feed = Some(set(feed));
        })
    };
    for (feed, rate) in [("12 m/min", "4.44 kg/h"), ("4 m/min", "1.467 kg/h")] {
        let figures = at(feed);
        assert_eq!(printed(&figures, "deposition-rate"), rate);
        assert!(assumed(&figures, "deposition-rate").contains("beyond the printed ones"));
    }
    for feed in ["6 m/min", "10 m/min"] {
        assert!(!assumed(&at(feed), "deposition-rate").contains("beyond"));
    }
}

/// Own arithmetic: 7 g/m at 8 m/min melt 3.36 kg/h, of which 90 % would be 3.024 kg/h.
#[test]
fn printed_rates_go_before_a_weighed_mass_and_a_printed_efficiency() {
    let weighed = |scene: &mut Scene| {
        let wire = scene.consumable.as_mut().unwrap();
        wire.linear_masses = vec![(quantity("1.2 mm"), quantity("7 g/m"))];
        wire.efficiency = Some(quantity("90 %"));
    };
    let with = figures(|s| {
        weighed(s);
        rates(s, USUAL);
    });
    assert_eq!(printed(&with, "deposition-rate"), "3 kg/h");
    assert_eq!(printed(&with, "melt-rate"), "3.36 kg/h");
    let without = figures(weighed);
    assert_eq!(printed(&without, "deposition-rate"), "3.024 kg/h");
    assert_eq!(without.get("deposition-rate").unwrap().formula.name, "deposition-rate");
}

/// Own arithmetic: 4 kg/h at 8 m/min are 8.333 g/m, more than the 7.726 g/m of the heaviest such wire (1.131 mm²
/// of 6.831 g/cm³). What is used then: 5.784 g/m * 8 * 0.06 * 0.83 = 2.304 kg/h with the least typical efficiency,
/// 7.726 g/m * 8 * 0.06 * 0.92 = 3.412 kg/h with the greatest. A weighed wire of 6 g/m is lighter than the 6.25 g/m
/// of 3 kg/h: 6 * 8 * 0.06 * 0.83 = 2.39 and * 0.92 = 2.65 kg/h.
#[test]
fn rates_of_more_metal_than_the_wire_weighs_are_not_used_and_that_is_said() {
    let heavy = figures(|s| rates(s, ["2.2 kg/h", "4 kg/h", "3.7 kg/h"]));
    assert_eq!(printed(&heavy, "deposition-rate"), "2.304 kg/h to 3.412 kg/h");
    let light = figures(|s| {
        rates(s, USUAL);
        let wire = s.consumable.as_mut().unwrap();
        wire.linear_masses = vec![(quantity("1.2 mm"), quantity("6 g/m"))];
    });
    assert_eq!(printed(&light, "deposition-rate"), "2.39 kg/h to 2.65 kg/h");
    for (figures, said) in [
        (&heavy, "8.333 g/m of metal per length of wire, more than the 7.726 g/m"),
        (&light, "6.25 g/m of metal per length of wire, more than the 6 g/m"),
    ] {
        let assumed = assumed(figures, "run-area");
        assert!(assumed.contains("data sheet 1, edition 2024"), "{assumed}");
        assert!(assumed.contains("not used") && assumed.contains(said), "{assumed}");
        assert_eq!(figures.get("deposition-rate").unwrap().formula.name, "deposition-rate");
    }
}

/// Of a tubular wire with an unknown core solid steel is the heaviest, 1.131 mm² of 7.85 g/cm³: 8.878 g/m (own
/// arithmetic), so 4 kg/h at 8 m/min, 8.333 g/m, can be and 4.4 kg/h, 9.167 g/m, cannot. Where not even the metal is
/// known, the rate stands as printed and the area is not known.
#[test]
fn a_rate_needs_no_known_core_or_metal() {
    let tubular = |rate: &'static str| {
        figures(move |s| {
            rates(s, ["", rate, ""]);
            s.consumable.as_mut().unwrap().kind = FillerKind::TubularWire;
        })
    };
    assert_eq!(printed(&tubular("4 kg/h"), "deposition-rate"), "4 kg/h");
    assert!(reason(&tubular("4.4 kg/h"), "deposition-rate").contains("core of the wire"));
    let unknown = figures(|s| {
        rates(s, USUAL);
        s.consumable.as_mut().unwrap().designations.clear();
    });
    assert_eq!(printed(&unknown, "deposition-rate"), "3 kg/h");
    assert!(assumed(&unknown, "deposition-rate").contains("not compared"));
    assert!(reason(&unknown, "run-area").contains("not known to be unalloyed"));
}

#[test]
fn rates_of_another_condition_say_nothing() {
    let other = figures(|s| {
        rates(s, USUAL);
        s.setup.filler.gas = Some(Gas::Group(GasGroup::C1));
    });
    let none = figures(|s| rates(s, ["", "", ""]));
    for figures in [&other, &none] {
        assert_eq!(printed(figures, "deposition-rate"), "2.304 kg/h to 3.412 kg/h");
    }
}

/// Own arithmetic: 5.784 g/m * 8 * 0.06 * 0.88 = 2.443 kg/h, 7.726 g/m * 8 * 0.06 * 0.90 = 3.338 kg/h; with the 85 % of the
/// wire 2.36 to 3.152 kg/h.
#[test]
fn an_efficiency_printed_for_the_condition_goes_before_that_of_the_wire() {
    let with = |printed: [&'static str; 2], wire: &'static str| {
        figures(move |s| {
            let wire = (!wire.is_empty()).then(|| quantity(wire));
            s.consumable.as_mut().unwrap().efficiency = wire;
            let points = &mut s.consumable.as_mut().unwrap().data[0].conditions[0].points;
            points.change(|points| {
                for (point, share) in points.iter_mut().zip(printed) {
                    point.efficiency = Some(quantity(share));
                }
            });
        })
    };
    for wire in ["", "85 %"] {
        let figures = with(["88 %", "90 %"], wire);
        assert_eq!(printed(&figures, "deposition-rate"), "2.443 kg/h to 3.338 kg/h");
        let assumed = assumed(&figures, "deposition-rate");
        assert!(assumed.contains("printed in data sheet 1, edition 2024"), "{assumed}");
    }
    let too_much = with(["88 %", "110 %"], "85 %");
    assert_eq!(printed(&too_much, "deposition-rate"), "2.36 kg/h to 3.152 kg/h");
    assert!(assumed(&too_much, "deposition-rate").contains("110 % in data sheet 1"));
}
