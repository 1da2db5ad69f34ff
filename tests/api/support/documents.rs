//! A complete job that is allowed, as JSON: consumable, procedure, station, work order and setup.
//!
//! All numbers are made up. 26 V, 220 A and 350 mm/min are 0.9806 kJ/mm of arc energy and 0.7845 kJ/mm of
//! heat input at k = 0.8 (own arithmetic).

use serde_json::{Value, json};

/// Code of [`consumable`].
pub const CONSUMABLE: &str = "FCW-1";
/// Number of [`procedure`].
pub const PROCEDURE: &str = "WPS-1";
/// Code of [`station`].
pub const STATION: &str = "ST-1";
/// Number of [`qualification`].
pub const QUALIFICATION: &str = "PQR-1";
/// A file that starts as a PDF does (ISO 32000-1, 7.5.2).
pub const PDF: &[u8] = b"%PDF-1.7\n% a report that nobody wrote\n%%EOF\n";
/// A file that starts as a PNG does (W3C PNG, 5.2).
pub const PNG: &[u8] = b"\x89PNG\r\n\x1a\n and no more";
/// Code of [`tested_consumable`].
pub const TESTED_CONSUMABLE: &str = "FCW-2";
/// Number of [`supported_procedure`].
pub const SUPPORTED: &str = "WPS-9";
/// Key of the rules that [`qualification`] was made by.
pub const RULE_PACK: &str = "iso-15614-1-2017-level-2";
/// Number of [`work_order`].
pub const WORK_ORDER: &str = "J-100";

/// The governing code of everything here.
pub fn governing_code() -> Value {
    json!({ "name": "ISO 15614-1", "edition": "2017" })
}

/// A rutile flux-cored wire of 1.2 mm with one data condition.
pub fn consumable() -> Value {
    json!({
        "code": CONSUMABLE,
        "name": "Rutile flux-cored wire",
        "kind": "flux-cored-wire",
        "designations": ["AWS A5.20: E71T-1M"],
        "diameters": ["1.2 mm"],
        "spools": ["15 kg"],
        "gases": ["M21"],
        "polarities": ["DCEP"],
        "data": [{
            "document": "Data sheet 1",
            "edition": "2024",
            "conditions": [{
                "diameter": "1.2 mm",
                "gas": "M21",
                "polarity": "DCEP",
                "points": [
                    { "wire_feed": "6 m/min", "current": "180 A", "voltage": "24 V" },
                    { "wire_feed": "8 m/min", "current": "220 A", "voltage": "26 V" },
                    { "wire_feed": "10 m/min", "current": "260 A", "voltage": "28 V" },
                ],
                "limits": {
                    "current": "150 to 300 A",
                    "voltage": "23 to 30 V",
                    "wire_feed": "5 to 12 m/min",
                    "electrical_stick_out": "15 to 25 mm",
                },
            }],
        }],
    })
}

/// A procedure for fillets in flat and horizontal positions with [`consumable`].
pub fn procedure() -> Value {
    json!({
        "number": PROCEDURE,
        "title": "Fillets with flux-cored wire",
        "codes": [governing_code()],
        "support": { "kind": "declared-not-judged", "statement": "Test report 17, in the archive" },
        "process": "136",
        "joints": ["fillet"],
        "positions": ["PA", "PB"],
        "base_metals": ["1"],
        "thickness": "6 to 24 mm",
        "consumables": [CONSUMABLE],
        "diameters": ["1.2 mm"],
        "gas": { "groups": ["M21"] },
        "polarities": ["DCEP"],
        "waveform": "not-controlled",
        "runs": [{
            "classes": ["fill", "cap", "single"],
            "beads": ["stringer", "weave"],
            "limits": {
                "current": "200 to 240 A",
                "voltage": "25 to 27 V",
                "wire_feed": "7 to 9 m/min",
                "travel_speed": "300 to 400 mm/min",
                "electrical_stick_out": "17 to 23 mm",
                "travel_angle": "5 to 15 deg",
                "work_angle": "40 to 50 deg",
                "weave_width": "4 to 12 mm",
                "preheat": "20 to 100 °C",
                "interpass": "20 to 200 °C",
                "gas_flow": "14 to 18 L/min",
                "arc_energy": "0.7 to 1.3 kJ/mm",
                "heat_input": "0.6 to 1 kJ/mm",
            },
        }],
    })
}

/// A record of a butt weld of 12 mm, welded vertically up in several runs, with impact tests at the weld
/// metal.
///
/// 24 V, 180 A and 200 mm/min are 1.296 kJ/mm of arc energy (own arithmetic).
pub fn qualification() -> Value {
    let part = |heat: &str| {
        json!({
            "form": "plate",
            "thickness": "12 mm",
            "metal": {
                "standard": "EN 10025-2", "grade": "S355J2", "condition": "as-rolled", "group": "1.2",
                "specified_yield": "355 MPa", "heat_number": heat, "certificate": "3.1 no. 7",
                "heat_analysis": { "C": "0.17 %", "Mn": "1.42 %", "Cr": { "at_most": "0.05 %" } },
            },
        })
    };
    let run = |number: u32, class: &str| {
        json!({
            "number": number,
            "class": class,
            "process": "136",
            "mechanisation": "partly-mechanised",
            "progression": "up",
            "filler": {
                "designation": "ISO 17632-A - T 46 4 P M21 1 H5",
                "maker": "Maker A", "trade_name": "Wire A", "batch": "L-1", "diameter": "1.2 mm",
            },
            "gases": { "shielding": { "Ar": "82 %", "CO2": "18 %" }, "flow": "16 L/min", "backing": "none" },
            "electrodes": 1,
            "electrical": {
                "polarity": "DCEP", "form": "steady", "waveform": "not-controlled",
                "characteristic": "constant-voltage", "transfer": "spray",
                "wire_feed": { "value": 7.5, "unit": "m/min", "instrument": "F-1" },
                "current": { "value": 180, "min": 174, "max": 187, "unit": "A", "instrument": "A-1" },
                "voltage": { "value": 24, "unit": "V", "instrument": "V-1" },
                "arc_energy": "1.296 kJ/mm",
            },
            "travel_speed": "200 mm/min",
            "electrical_stick_out": "18 mm",
            "bead": "weave",
            "weave_width": "9 mm",
            "preheat": "80 °C",
            "interpass": { "value": 150, "min": 110, "max": 180, "unit": "°C", "instrument": "T-1" },
        })
    };
    json!({
        "number": QUALIFICATION,
        "code": { "name": "ISO 15614-1", "edition": "2017+A1:2019" },
        "level": "2",
        "units": "metric",
        "manufacturer": "Shop under test",
        "preliminary_procedure": "pWPS-1",
        "welders": [{ "name": "A Welder", "stamp": "W1" }],
        "welded_on": "2025-03-04",
        "place": "Bay 1",
        "pieces": [{
            "mark": "A",
            "parts": [part("H-4711"), part("H-4712")],
            "joint": {
                "weld": "butt", "penetration": "full", "sides": "one", "groove": "single-v",
                "backing": "none",
                "fit_up": { "groove_angle": "60 deg", "root_gap": "3 mm", "root_face": "1 mm" },
            },
            "position": "PF",
            "layering": "multi-run",
            "deposits": [{ "process": "136", "thickness": "12 mm" }],
            "length": "350 mm",
            "runs": [run(1, "root"), run(2, "fill"), run(3, "cap")],
            "post_heating": { "done": false },
            "heat_treatment": { "class": "none" },
            "tests": [
                { "kind": "visual", "outcome": "passed", "standard": "ISO 17637" },
                { "kind": "radiographic", "outcome": "passed", "report": "RT-9" },
                { "kind": "transverse-tension", "strengths": ["548 MPa", "551 MPa"], "outcome": "passed" },
                { "kind": "side-bend", "found": "four specimens, no flaw", "outcome": "passed" },
                {
                    "kind": "impact", "place": "weld-metal", "temperature": "-20 °C",
                    "impact_energies": ["82 J", "76 J", "91 J"], "outcome": "passed",
                },
                {
                    "kind": "impact", "place": "heat-affected-zone", "temperature": "-20 °C",
                    "impact_energies": ["64 J", "71 J", "58 J"], "outcome": "passed",
                },
                {
                    "kind": "hardness", "place": "heat-affected-zone",
                    "hardness": [{ "number": 231, "scale": "HV10" }], "outcome": "passed",
                },
                { "kind": "macro", "outcome": "passed" },
            ],
        }],
        "witnesses": [{ "name": "An Examiner", "kind": "examiner", "body": "Body X", "on": "2025-03-04" }],
        "signatures": [{ "person": "An Engineer", "function": "welding engineer", "on": "2025-03-18" }],
    })
}

/// The wire of [`qualification`], with the data of [`consumable`].
pub fn tested_consumable() -> Value {
    let own = with(consumable(), "/code", json!(TESTED_CONSUMABLE));
    let own = with(own, "/designations", json!(["ISO 17632-A - T 46 4 P M21 1 H5"]));
    with(with(own, "/maker", json!("Maker A")), "/trade_name", json!("Wire A"))
}

/// A procedure for vertical-up butts that [`qualification`] supports, for jobs without impact and hardness
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
                "stated": [{ "rule": "preheat-rule", "holds": true }],
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
    let part = json!({ "group": "1.2", "thickness": "12 mm" });
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

/// A butt weld that [`qualification`] supports, where neither impact nor hardness tests are required.
pub fn support_question() -> Value {
    let part = json!({
        "form": "plate", "thickness": "10 to 20 mm", "group": "1.2", "specified_yield": "355 MPa",
    });
    json!({
        "pack": RULE_PACK,
        "job": {
            "impact_required": false,
            "hardness_required": false,
            "stated": [{ "rule": "preheat-rule", "holds": true }],
        },
        "proposal": {
            "joint": {
                "weld": "butt", "penetration": "full", "sides": "one", "groove": "single-v",
                "backing": "none",
            },
            "parts": [part, part],
            "positions": ["PF"],
            "layering": "multi-run",
            "deposits": [{ "process": "136", "thickness": "10 to 20 mm" }],
            "runs": [{
                "process": "136",
                "class": "fill",
                "mechanisation": "partly-mechanised",
                "progression": "up",
                "filler": {
                    "designation": "ISO 17632-A - T 46 4 P M21 1 H5",
                    "maker": "Maker A", "trade_name": "Wire A", "diameter": "1.2 mm",
                },
                "electrodes": 1,
                "gas": { "Ar": "82 %", "CO2": "18 %" },
                "backing_gas": "none",
                "polarity": "DCEP",
                "form": "steady",
                "waveform": "not-controlled",
                "characteristic": "constant-voltage",
                "transfer": "spray",
                "bead": "weave",
                "current": "165 to 195 A",
                "voltage": "23 to 25 V",
                "wire_feed": "7 to 8 m/min",
                "travel_speed": "190 to 220 mm/min",
                "gas_flow": "15 to 17 L/min",
                "arc_energy": "1.1 to 1.4 kJ/mm",
            }],
            "preheat": "80 °C",
            "interpass_max": "180 °C",
            "post_heating": { "done": false },
            "heat_treatment": { "class": "none" },
        },
        "records": [QUALIFICATION],
    })
}

/// A station that can do [`setup`].
pub fn station() -> Value {
    json!({
        "code": STATION,
        "name": "First station",
        "waveforms": ["not-controlled"],
        "rated": [
            { "current": "400 A", "voltage": "34 V", "duty": "60 %" },
            { "current": "320 A", "voltage": "30 V", "duty": "100 %" },
        ],
        "gun": { "current": "350 A", "duty": "60 %" },
        "diameters": ["1 mm", "1.2 mm"],
        "heaviest_spool": "18 kg",
        "limits": {
            "current": "40 to 400 A",
            "voltage": "14 to 34 V",
            "wire_feed": "1 to 20 m/min",
        },
    })
}

/// A work order that accepts [`procedure`].
pub fn work_order() -> Value {
    json!({
        "number": WORK_ORDER,
        "code": governing_code(),
        "accepted_procedures": [PROCEDURE],
        "limits": { "interpass": { "max": 180, "unit": "°C" } },
        "welds": [{ "id": "W1", "joint": "fillet" }],
        "reference": "ERP-4711",
    })
}

/// A horizontal fillet with everything stated and everything inside.
pub fn setup() -> Value {
    let part = json!({ "group": "1.2", "thickness": "12 mm" });
    json!({
        "procedure": PROCEDURE,
        "work_order": WORK_ORDER,
        "station": STATION,
        "process": "136",
        "job": {
            "code": governing_code(),
            "joint": "fillet",
            "position": "PB",
            "base_metals": [part, part],
            "run_class": "fill",
        },
        "filler": {
            "consumable": CONSUMABLE,
            "diameter": "1.2 mm",
            "spool": "15 kg",
            "gas": "M21-ArC-20",
            "polarity": "DCEP",
        },
        "settings": {
            "waveform": "not-controlled",
            "bead": "weave",
            "current": "220 A",
            "voltage": "26 V",
            "wire_feed": "8 m/min",
            "travel_speed": "350 mm/min",
            "electrical_stick_out": "20 mm",
            "travel_angle": "10 deg",
            "work_angle": "45 deg",
            "weave_width": "8 mm",
            "preheat": "50 °C",
            "interpass": "120 °C",
            "gas_flow": "16 L/min",
        },
    })
}

/// The document with the member at this JSON Pointer replaced or added; `null` takes it away.
pub fn with(mut document: Value, pointer: &str, value: Value) -> Value {
    let (parent, name) = pointer.rsplit_once('/').unwrap();
    let parent = document.pointer_mut(parent).unwrap_or_else(|| panic!("no {pointer}"));
    match parent {
        Value::Object(members) if value.is_null() => drop(members.shift_remove(name)),
        Value::Object(members) => drop(members.insert(name.to_owned(), value)),
        Value::Array(items) => items[name.parse::<usize>().unwrap()] = value,
        other => panic!("{pointer} is in {other}"),
    }
    document
}
