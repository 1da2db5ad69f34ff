//! What must hold for any preheat: monotony, inverse, rounding up, no panic.

use arcbounds::{
    quantity::{HeatInput, Kind, Quantity, UnitSystem},
    trade::{
        Coded, HeatInputNeed, HydrogenControl, HydrogenLevel, HydrogenScale, MethodA, MethodB,
        MethodBConstants, PreheatCategory, PreheatNeed, Restraint, SteelFamily, SusceptibilityPath,
        category_preheat, heat_input_for_preheat, hydrogen_control_preheat, measuring_point,
        method_a_preheat, method_b_parts, method_b_preheat, susceptibility_index,
    },
};
use proptest::prelude::*;

use super::published::{assert_near, q};

const STEEL: SteelFamily = SteelFamily::LowAlloyFerritic;

fn computed<K: Kind>(canonical: f64) -> Quantity<K> {
    Quantity::computed(canonical).unwrap()
}

fn method_b([cet, d, hydrogen, heat]: [f64; 4]) -> MethodB {
    MethodB {
        metal: STEEL,
        cet: computed(cet),
        thickness: computed(d),
        hydrogen: computed(hydrogen),
        heat_input: computed(heat),
        composition: None,
        yield_strength: None,
        ambient: q("20 °C"),
        constants: MethodBConstants::En1011,
    }
}

fn control(
    pcm: f64,
    thickness: &str,
    restraint: Restraint,
    path: SusceptibilityPath,
) -> HydrogenControl {
    let level = HydrogenLevel::Low;
    HydrogenControl {
        metal: STEEL,
        pcm: computed(pcm),
        level,
        restraint,
        thickness: q(thickness),
        path,
        columns: UnitSystem::Metric,
    }
}

proptest! {
    #[test]
    fn method_b_moves_the_right_way_and_its_inverse_comes_back(
        cet in 0.20_f64..=0.48, d in 10.0_f64..=85.0, hydrogen in 1.0_f64..=18.0, heat in 0.5_f64..=3.8,
        more in 0.001_f64..0.02
    ) {
        let at = |inputs| method_b_preheat(&method_b(inputs)).unwrap().calculated;
        let base = at([cet, d, hydrogen, heat]);
        prop_assert!(base.compare(at([cet + more, d, hydrogen, heat])).is_lt());
        prop_assert!(base.at_most(at([cet, d + more, hydrogen, heat])));
        prop_assert!(base.compare(at([cet, d, hydrogen + more, heat])).is_lt());
        prop_assert!(base.compare(at([cet, d, hydrogen, heat + more])).is_gt());
        let case = method_b([cet, d, hydrogen, heat]);
        prop_assert!(method_b_parts(&case).unwrap().sum().unwrap() == base);
        let least: HeatInput = computed(0.5);
        let back = heat_input_for_preheat(&case, base).unwrap();
        match back {
            HeatInputNeed::AtLeast(needed) => assert_near("back", needed, computed(heat), 1e-6),
            HeatInputNeed::AnyInRange => prop_assert!(case.heat_input.at_most(least)),
            HeatInputNeed::NoneInRange => prop_assert!(false, "{} kJ/mm was enough", heat),
        }
    }

    /// The stated preheat is never below the calculated one, and less than a step above it.
    #[test]
    fn preheat_is_rounded_up(
        cet in 0.20_f64..=0.50, d in 10.0_f64..=90.0, hydrogen in 1.0_f64..=20.0, heat in 0.5_f64..=4.0
    ) {
        let got = method_b_preheat(&method_b([cet, d, hydrogen, heat])).unwrap();
        match got.need {
            PreheatNeed::AtLeast(stated) => {
                prop_assert!(stated.at_least(got.calculated));
                prop_assert!(stated.celsius() - got.calculated.celsius() < 5.0);
            }
            PreheatNeed::NoneCalculated => prop_assert!(got.calculated.at_most(q("20 °C"))),
        }
    }

    /// A worse case is never welded without preheat by the table where a better one is not.
    #[test]
    fn method_a_is_never_kinder_to_a_worse_case(
        ce in 0.30_f64..=0.70, heat in 0.3_f64..4.0, combined in 5.0_f64..150.0,
        (scale, worse_scale) in (0_usize..5, 0_usize..5), worse in prop::array::uniform3(1.0_f64..1.5)
    ) {
        let of = |ce: f64, scale: usize, heat: f64, combined: f64| MethodA {
            metal: STEEL,
            ce: computed(ce.min(0.70)),
            scale: HydrogenScale::ALL[scale].0,
            heat_input: computed(heat),
            combined: computed(combined),
        };
        let better = of(ce, scale.max(worse_scale), heat, combined);
        let worse = of(ce * worse[0], scale.min(worse_scale), heat / worse[1], combined * worse[2]);
        if method_a_preheat(&worse, &[]).is_ok() {
            prop_assert!(method_a_preheat(&better, &[]).is_ok());
        }
    }

    #[test]
    fn no_preheat_input_causes_a_panic(
        a in prop::num::f64::POSITIVE | prop::num::f64::SUBNORMAL | prop::num::f64::ZERO,
        b in prop::num::f64::POSITIVE | prop::num::f64::SUBNORMAL | prop::num::f64::ZERO,
    ) {
        let _ = method_b_preheat(&method_b([a, b, a, b]));
        let path = SusceptibilityPath::CalculatedIndex;
        let case = HydrogenControl { thickness: computed(b), ..control(a, "25 mm", Restraint::High, path) };
        let _ = hydrogen_control_preheat(&case);
        let _ = susceptibility_index(computed(a), computed(b));
        let _ = measuring_point(computed(a));
        let _ = category_preheat(&[PreheatCategory::A], computed(a), UnitSystem::Us);
        let _ = HydrogenScale::of(computed(a));
    }
}
