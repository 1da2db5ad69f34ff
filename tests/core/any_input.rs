//! No formula panics or answers with "not a number", whatever finite numbers it is given: below zero, zero,
//! subnormal and huge ones too. What the other files of properties hold for heat, cooling, preheat, joints and
//! power sources, this one holds for the rest.

use arcbounds::{
    quantity::{AreaKind, Kind, Quantity, QuantityError, Span, UnitSystem},
    trade::{
        Coded, CoolingCase, CoolingSpanCase, Gas, GasGroup, GunCooling, GunRating, HandPace, Lead,
        Manner, Process, RunMetal, RunOut, ShapeFactors, SprayMetal, SteelCondition, SteelFamily,
        StructuralGrade, arc_energy_from_burn_time, arc_energy_to_melt, arc_time,
        arc_voltage_behind_leads, cooling_time, cooling_time_span, current_for_arc_energy,
        cylinder_mass, deposition_rate, efficiency_with_stub, elapsed_time, electrical_stick_out,
        filler_bought, gas_used, greatest_cev, gun_limit, handbook_melt_rate,
        heat_input_from_run_out, interpass_by_aws, joint_mass, leg_band, melt_rate, melted_area,
        melting_efficiency, minimum_shade, run_area, run_out_for_heat_input, run_out_ratio,
        run_time, spray_transition, travel_speed, travel_speed_for_arc_energy,
        travel_speed_for_leg, tubular_wire_density, usual_operating_factor, usual_shape_factors,
        visible_stick_out, weld_metal_mass,
    },
};
use proptest::prelude::*;

fn q<K: Kind>(canonical: f64) -> Quantity<K> {
    Quantity::computed(canonical).unwrap()
}

/// An error, or a number.
fn sound<K: Kind, E>(result: Result<Quantity<K>, E>) -> bool {
    result.map_or(true, |value| value.canonical().is_finite())
}

fn any() -> impl Strategy<Value = f64> {
    prop::num::f64::NORMAL | prop::num::f64::SUBNORMAL | prop::num::f64::ZERO
}

proptest! {
    #[test]
    fn wire_and_bead(a in any(), b in any(), c in any(), d in any()) {
        prop_assert!(sound(cylinder_mass(q(a), q(b))));
        prop_assert!(sound(tubular_wire_density(q(a), q(b), q(c))));
        prop_assert!(sound(melt_rate(q(a), q(b))));
        prop_assert!(sound(deposition_rate(q(a), q(b), q(c))));
        prop_assert!(sound(handbook_melt_rate(q(a), q(b))));
        prop_assert!(sound(efficiency_with_stub(q(a), q(b), q(c))));
        let metal = RunMetal { wire: q(a), feed: q(b), efficiency: q(c), density: q(d) };
        prop_assert!(sound(run_area(&metal, q(a))));
        prop_assert!(sound(travel_speed_for_leg(&metal, q(b), q(c))));
        let legs = leg_band(q(a), &usual_shape_factors().unwrap());
        prop_assert!(legs.is_err() || legs.unwrap().high().mm().is_finite());
        prop_assert!(sound(weld_metal_mass(q(a), q(b))));
        prop_assert!(sound(joint_mass(q(a), q(b))));
        prop_assert!(sound(melted_area(q(a), q(b), q(c))));
        prop_assert!(sound(arc_energy_to_melt(q(a), q(b), q(c))));
        prop_assert!(sound(melting_efficiency(q(a), q(b), q(c))));
        prop_assert!(sound(electrical_stick_out(q(a), q(b))));
        prop_assert!(sound(visible_stick_out(q(a), q(b))));
    }

    #[test]
    fn times_and_use(a in any(), b in any()) {
        prop_assert!(sound(arc_time(q(a), q(b))));
        prop_assert!(sound(run_time(q(a), q(b))));
        prop_assert!(sound(elapsed_time(q(a), q(b))));
        prop_assert!(sound(filler_bought(q(a), q(b))));
        prop_assert!(sound(gas_used(q(a), q(b))));
        prop_assert!(sound(travel_speed(q(a), q(b))));
        if let Ok(pace) = HandPace::new(q(a), q(b)) {
            prop_assert!(!pace.to_string().contains("NaN"));
        }
    }

    #[test]
    fn electrodes_leads_and_inverses(a in any(), b in any(), c in any(), d in any()) {
        let electrode = RunOut { core: q(a), melted: q(b), efficiency: q(c) };
        prop_assert!(sound(heat_input_from_run_out(&electrode, q(d))));
        prop_assert!(sound(run_out_for_heat_input(&electrode, q(d))));
        prop_assert!(sound(run_out_ratio(q(a), q(b))));
        prop_assert!(sound(arc_energy_from_burn_time(q(a), q(b), q(c), q(d))));
        prop_assert!(sound(travel_speed_for_arc_energy(q(a), q(b), q(c))));
        prop_assert!(sound(current_for_arc_energy(q(a), q(b), q(c))));
        let lead = Lead { length: q(c), section: q(d) };
        if let Ok(corrected) = arc_voltage_behind_leads(q(a), q(b), &[lead, lead]) {
            let shown = format!("{corrected:?}");
            prop_assert!(!shown.contains("NaN"), "{}", shown);
        }
    }

    #[test]
    fn tables(a in any(), b in any()) {
        for (process, _) in Process::ALL {
            let _ = minimum_shade(*process, Some(q(a)), q(b));
            let _ = minimum_shade(*process, None, q(b));
        }
        for (grade, _) in StructuralGrade::ALL {
            prop_assert!(sound(greatest_cev(*grade, q(a))));
        }
        for (condition, _) in SteelCondition::ALL {
            prop_assert!(sound(interpass_by_aws(*condition, q(a), UnitSystem::Us)));
        }
        for (metal, _) in SprayMetal::ALL {
            let _ = spray_transition(*metal, q(a));
        }
        let gas = Gas::Group(GasGroup::M21);
        for (cooling, _) in GunCooling::ALL {
            let rating = GunRating { carbon_dioxide: Some(q(a)), mixture: Some(q(b)), cooling: *cooling };
            let _ = gun_limit(&rating, &gas);
        }
    }

    /// Any run between the ends cools within the band, whatever heat flow it has.
    #[test]
    fn a_cooling_band_holds_every_run_between_its_ends(
        heat in (0.3_f64..2.0, 0.0_f64..2.0), t0 in (0.0_f64..200.0, 0.0_f64..100.0),
        d in (3.0_f64..40.0, 0.0_f64..40.0), at in (0.0_f64..=1.0, 0.0_f64..=1.0, 0.0_f64..=1.0),
    ) {
        let span = |(low, more): (f64, f64)| (low, low + more);
        let (heat, t0, d) = (span(heat), span(t0), span(d));
        let shape = ShapeFactors {
            two_dimensional: Span::new(q(0.45), q(0.9)).unwrap(),
            three_dimensional: Span::one(q(0.67)),
        };
        let metal = SteelFamily::LowAlloyFerritic;
        let band = cooling_time_span(&CoolingSpanCase {
            metal,
            heat_input: Span::new(q(heat.0), q(heat.1)).unwrap(),
            temperature: Span::new(q(t0.0), q(t0.1)).unwrap(),
            thickness: Span::new(q(d.0), q(d.1)).unwrap(),
            shape,
        }).unwrap();
        let between = |(low, high): (f64, f64), share: f64| low + (high - low) * share;
        let one = cooling_time(&CoolingCase {
            metal,
            heat_input: q(between(heat, at.0)),
            temperature: q(between(t0, at.1)),
            thickness: q(between(d, at.2)),
            shape,
        }).unwrap();
        for time in std::iter::once(one.time).chain(one.other_heat_flow) {
            prop_assert!(time.low().at_least(band.time.low()), "{:?} {:?}", one, band);
            prop_assert!(time.high().at_most(band.time.high()), "{:?} {:?}", one, band);
        }
    }

    #[test]
    fn a_cooling_band_of_any_numbers_is_sound(a in any(), b in any(), c in any()) {
        let factors = Span::new(q(0.45), q(0.9)).unwrap();
        let case = CoolingSpanCase {
            metal: SteelFamily::LowAlloyFerritic,
            heat_input: Span::one(q(a)),
            temperature: Span::one(q(b)),
            thickness: Span::one(q(c)),
            shape: ShapeFactors { two_dimensional: factors, three_dimensional: factors },
        };
        if let Ok(band) = cooling_time_span(&case) {
            prop_assert!(band.time.low().seconds().is_finite() && band.time.high().seconds().is_finite());
        }
    }
}

#[test]
fn constants_are_numbers() {
    for (manner, _) in Manner::ALL {
        assert!(usual_operating_factor(*manner).is_ok());
    }
    let none = Quantity::<AreaKind>::computed(f64::NAN);
    assert!(matches!(none, Err(QuantityError::NotFinite { .. })));
}
