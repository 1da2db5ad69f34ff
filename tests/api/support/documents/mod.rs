//! A complete job that is allowed, as JSON: consumable, procedure, station, work order and setup.
//!
//! All numbers are made up. 26 V, 220 A and 350 mm/min are 0.9806 kJ/mm of arc energy and 0.7845 kJ/mm of
//! heat input at k = 0.8 (own arithmetic).

mod prequalified;
mod qualification;
mod supported;

pub use prequalified::{
    PREQUALIFIED, PREQUALIFIED_PACK, prequalified_procedure, prequalified_setup,
};
pub use qualification::{PDF, PNG, QUALIFICATION, RULE_PACK, qualification, support_question};
pub use supported::{SUPPORTED, supported_procedure, supported_setup, tested_consumable};

use serde_json::{Value, json};

/// Code of [`consumable`].
pub const CONSUMABLE: &str = "FCW-1";
/// Number of [`procedure`].
pub const PROCEDURE: &str = "WPS-1";
/// Code of [`station`].
pub const STATION: &str = "ST-1";
/// Number of [`work_order`].
pub const WORK_ORDER: &str = "J-100";

/// Code of [`welder`].
pub const WELDER: &str = "W-1";

/// Code of [`batch`].
pub const BATCH: &str = "B-1";

/// A batch of [`consumable`].
pub fn batch() -> Value {
    json!({
        "code": BATCH,
        "consumable": CONSUMABLE,
        "lot": "L-0471",
        "received_on": "2026-01-12",
        "certificate": { "reference": "Certificate 17", "hydrogen": "4.2 mL/100g" },
    })
}

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

/// A welder with one fillet test by ISO 9606-1.
pub fn welder() -> Value {
    json!({
        "code": WELDER,
        "reference": "stamp 1",
        "qualifications": [{
            "id": "Q1",
            "pack": "iso-9606-1-2012",
            "certificate": "C-1",
            "welded_on": "2026-01-15",
            "revalidation": "b",
            "process": "136",
            "product": "plate",
            "weld": "fillet",
            "filler_group": "FM1",
            "filler_type": "P",
            "thickness": "10 mm",
            "positions": ["PB"],
            "layers": "ml",
        }],
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
