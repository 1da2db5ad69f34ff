//! A procedure that a qualification record supports, its wire, and a setup that it allows.

use serde_json::{Value, json};

use super::{QUALIFICATION, RULE_PACK, STATION, consumable, with};

/// Code of [`tested_consumable`].
pub const TESTED_CONSUMABLE: &str = "FCW-2";
/// Number of [`supported_procedure`].
pub const SUPPORTED: &str = "WPS-9";

/// The wire of [`super::qualification`], with the data of [`super::consumable`].
pub fn tested_consumable() -> Value {
    let own = with(consumable(), "/code", json!(TESTED_CONSUMABLE));
    let own = with(own, "/designations", json!(["ISO 17632-A - T 46 4 P M21 1 H5"]));
    with(with(own, "/maker", json!("Maker A")), "/trade_name", json!("Wire A"))
}

/// A procedure for vertical-up butts that [`super::qualification`] supports, for jobs without impact and hardness
/// tests, with the content that ISO 15609-1 lists.
pub fn supported_procedure() -> Value {
    json!({
        "number": SUPPORTED,
        "title": "Vertical-up butts with flux-cored wire",
        "manufacturer": "Shop under test",
        "codes": [{ "name": "ISO 15614-1", "edition": "2017+A1:2019" }],
        "support": {
            "kind": "qualification-records",
            "route": "procedure-test",
            "records": [QUALIFICATION],
            "pack": RULE_PACK,
            "job": {
                "impact_required": false,
                "hardness_required": false,
                "stated": [
                    { "rule": "preheat-rule", "holds": true },
                    { "rule": "extent-of-tests", "holds": true },
                ],
            },
        },
        "process": "136",
        "joints": ["butt"],
        "positions": ["PF"],
        "base_metals": ["1.2"],
        "thickness": "10 to 20 mm",
        "parent_metal": {
            "designations": ["EN 10025-2 S355J2"], "condition": "as-rolled", "forms": ["plate"],
            "highest_yield": "355 MPa",
        },
        "joint_design": {
            "weld": "butt", "penetration": "full", "sides": "one", "groove": "single-v", "backing": "none",
            "preparation": "Machined", "assembly": "Tacked on both ends",
            "fit_up": { "groove_angle": "60 deg", "root_gap": "3 mm", "root_face": "1 mm" },
        },
        "execution": {
            "tolerances": "gap 2 to 4 mm", "cleaning": "bright metal, dry", "sketch": "Drawing 9",
            "run_sequence": "root, fill, cap, alternating from the sides",
            "gouging_method": "none",
        },
        "layering": "multi-run",
        "deposited_thickness": "10 to 20 mm",
        "consumables": [TESTED_CONSUMABLE],
        "consumable_handling": "Dry store, used within a week of opening",
        "diameters": ["1.2 mm"],
        "gas": { "groups": ["M21"], "mixture": "M21-ArC-18" },
        "polarities": ["DCEP"],
        "waveform": "not-controlled",
        "runs": [supported_run()],
        "preheat_maintenance": "60 °C",
        "post_heating": { "done": false },
        "heat_treatment": { "class": "none" },
    })
}

/// Fill and cap runs of [`supported_procedure`].
fn supported_run() -> Value {
    json!({
        "classes": ["fill", "cap"],
        "beads": ["stringer", "weave"],
        "mechanisation": "partly-mechanised",
        "progression": "up",
        "transfer": "spray",
        "current_form": "steady",
        "characteristic": "constant-voltage",
        "electrodes": 1,
        "nozzle": "14 to 18 mm",
        "backing_gas": "none",
        "run_width": { "max": 15, "unit": "mm" },
        "weaving": "one second at each side",
        "limits": {
            "current": "165 to 195 A",
            "voltage": "23 to 25 V",
            "wire_feed": "5.5 to 6.5 m/min",
            "travel_speed": "190 to 220 mm/min",
            "electrical_stick_out": "17 to 23 mm",
            "travel_angle": "-10 to 0 deg",
            "work_angle": "80 to 100 deg",
            "weave_width": "4 to 12 mm",
            "preheat": "80 to 150 °C",
            "interpass": "80 to 180 °C",
            "gas_flow": "14 to 18 L/min",
            "arc_energy": "1 to 1.5 kJ/mm",
            "heat_input": "0.8 to 1.2 kJ/mm",
        },
    })
}

/// A setup for [`supported_procedure`], inside everywhere: 24 V, 180 A and 200 mm/min are 1.296 kJ/mm of arc
/// energy, with k = 0.8 a heat input of 1.037 kJ/mm (own arithmetic).
pub fn supported_setup() -> Value {
    let part = json!({ "group": "1.2", "form": "plate", "thickness": "12 mm" });
    json!({
        "procedure": SUPPORTED,
        "station": STATION,
        "process": "136",
        "job": {
            "code": { "name": "ISO 15614-1", "edition": "2017+A1:2019" },
            "joint": "butt",
            "position": "PF",
            "progression": "up",
            "base_metals": [part, part],
            "deposited_thickness": "12 mm",
            "run_class": "fill",
            "demands": { "impact_required": false, "hardness_required": false },
        },
        "filler": {
            "consumable": TESTED_CONSUMABLE,
            "diameter": "1.2 mm",
            "spool": "15 kg",
            "gas": "M21-ArC-18",
            "polarity": "DCEP",
        },
        "settings": {
            "waveform": "not-controlled",
            "bead": "weave",
            "transfer": "spray",
            "mechanisation": "partly-mechanised",
            "current_form": "steady",
            "electrodes": 1,
            "current": "180 A",
            "voltage": "24 V",
            "wire_feed": "6 m/min",
            "travel_speed": "200 mm/min",
            "electrical_stick_out": "20 mm",
            "travel_angle": "-5 deg",
            "work_angle": "90 deg",
            "weave_width": "8 mm",
            "preheat": "80 °C",
            "interpass": "120 °C",
            "gas_flow": "16 L/min",
        },
    })
}
