//! A procedure that needs no test by AWS D1.1:2020, and a setup that it allows.

use serde_json::{Value, json};

use super::{CONSUMABLE, setup, with};

/// Number of [`prequalified_procedure`].
pub const PREQUALIFIED: &str = "WPS-8";
/// Key of its rules.
pub const PREQUALIFIED_PACK: &str = "aws-d1.1-2020-prequalified";

fn code() -> Value {
    json!({ "name": "AWS D1.1", "edition": "2020" })
}

/// Horizontal fillets in one run with the wire of [`super::consumable`], inside every limit of Table 5.1 and the
/// tables that go with it: plates of 6 to 12 mm ask for a leg of 5 mm, one pass may have 10 mm.
pub fn prequalified_procedure() -> Value {
    let stated = |rule| json!({ "rule": rule, "holds": true });
    json!({
        "number": PREQUALIFIED,
        "title": "Horizontal fillets in one run",
        "codes": [code()],
        "support": {
            "kind": "prequalified",
            "route": "prequalified",
            "pack": PREQUALIFIED_PACK,
            "columns": "metric",
            "job": {
                "impact_required": false,
                "hardness_required": false,
                "stated": [
                    stated("current-of-maker"), stated("joint-detail"), stated("smallest-fillet-cyclic"),
                ],
            },
        },
        "process": "136",
        "joints": ["fillet"],
        "positions": ["PB"],
        "base_metals": ["1.2"],
        "thickness": "6 to 12 mm",
        "parent_metal": {
            "designations": ["ASTM A572 Grade 50"], "forms": ["plate"],
            "d11_group": "II", "d11_preheat_category": "B",
        },
        "joint_design": { "weld": "fillet" },
        "layering": "single-run",
        "leg": "5 to 8 mm",
        "consumables": [CONSUMABLE],
        "diameters": ["1.2 mm"],
        "gas": { "groups": ["M21"], "mixture": "M21-ArC-20" },
        "polarities": ["DCEP"],
        "waveform": "not-controlled",
        "runs": [{
            "classes": ["single"],
            "beads": ["stringer", "weave"],
            "mechanisation": "partly-mechanised",
            "transfer": "spray",
            "characteristic": "constant-voltage",
            "electrodes": 1,
            "run_width": { "max": 12, "unit": "mm" },
            "limits": {
                "current": "200 to 240 A",
                "voltage": "25 to 27 V",
                "wire_feed": "7 to 8.5 m/min",
                "travel_speed": "300 to 400 mm/min",
                "electrical_stick_out": "17 to 23 mm",
                "travel_angle": "5 to 15 deg",
                "work_angle": "40 to 50 deg",
                "weave_width": "4 to 12 mm",
                "preheat": "20 to 100 °C",
                "gas_flow": "14 to 18 L/min",
            },
        }],
        "heat_treatment": { "class": "none" },
    })
}

/// A setup for [`prequalified_procedure`], inside everywhere.
pub fn prequalified_setup() -> Value {
    let mut own = with(setup(), "/procedure", json!(PREQUALIFIED));
    own.as_object_mut().unwrap().remove("work_order");
    let own = with(own, "/job/code", code());
    let own = with(own, "/job/base_metals/0/form", json!("plate"));
    let own = with(own, "/job/base_metals/1/form", json!("plate"));
    let own = with(own, "/job/run_class", json!("single"));
    let own = with(own, "/job/leg", json!("5 mm"));
    let own = with(own, "/settings/travel_speed", json!("320 mm/min"));
    let own = with(own, "/settings/transfer", json!("spray"));
    let own = with(own, "/settings/mechanisation", json!("partly-mechanised"));
    let own = with(own, "/settings/electrodes", json!(1));
    with(own, "/job/demands", json!({ "impact_required": false, "hardness_required": false }))
}
