//! Against general libraries: unit conversions by pint, cooling times by numerical integration. The scripts
//! and their outputs, with versions and how to repeat them, are in `tests/reference/`.

use arcbounds::{
    quantity::{ALL_KINDS, HeatInput, Temperature, ThermalConductivity, Thickness, VolumetricHeat},
    trade::{SteelFamily, ThermalProperties, WeldOnPlate, any_thickness_cooling_time},
};
use serde_json::Value;

fn read(text: &str) -> Value {
    serde_json::from_str(text).unwrap()
}

/// Source: pint, version in the file. Doubles on both sides: 1e-12 apart at most.
#[test]
fn every_unit_converts_as_pint_converts_it() {
    let file = read(include_str!("../reference/unit_conversions.json"));
    let number = file["number"].as_f64().unwrap();
    let rows = file["rows"].as_array().unwrap();
    let mut compared = 0;
    for kind in ALL_KINDS {
        for unit in kind.units {
            let row =
                rows.iter().find(|row| row["kind"] == kind.name && row["unit"] == unit.symbol);
            let row = row.unwrap_or_else(|| panic!("no row for {} in {}", kind.name, unit.symbol));
            let back = unit.number(row["canonical"].as_f64().unwrap());
            assert!(
                (back - number).abs() < 1e-12 * 300.0,
                "{} in {}: {back}",
                kind.name,
                unit.symbol
            );
            compared += 1;
        }
    }
    assert_eq!(compared, rows.len());
}

/// Source: the moving point source integrated with scipy, version in the file. At 20 mm/s the source is
/// fast: the two agree within 0.1 %.
#[test]
fn the_method_of_images_is_the_integral_of_the_moving_source() {
    let file = read(include_str!("../reference/cooling_times.json"));
    let rows = file["rows"].as_array().unwrap();
    assert_eq!(rows.len(), 18);
    for row in rows {
        let of = |name: &str| row[name].as_f64().unwrap();
        let weld = WeldOnPlate {
            metal: SteelFamily::LowAlloyFerritic,
            heat_input: HeatInput::computed(of("q")).unwrap(),
            temperature: Temperature::computed(of("t0")).unwrap(),
            thickness: Thickness::computed(of("d")).unwrap(),
            properties: ThermalProperties {
                conductivity: ThermalConductivity::computed(of("l")).unwrap(),
                heat_capacity: VolumetricHeat::computed(of("c")).unwrap(),
            },
        };
        let seconds = any_thickness_cooling_time(&weld).unwrap().seconds();
        assert!((seconds / of("seconds") - 1.0).abs() < 1e-3, "{seconds} s for {row}");
    }
}
