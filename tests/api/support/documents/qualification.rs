//! A qualification record, what may be attached to it, and a job that it supports.

use serde_json::{Value, json};

/// A file that starts as a PDF does (ISO 32000-1, 7.5.2).
pub const PDF: &[u8] = b"%PDF-1.7\n% a report that nobody wrote\n%%EOF\n";
/// A file that starts as a PNG does (W3C PNG, 5.2).
pub const PNG: &[u8] = b"\x89PNG\r\n\x1a\n and no more";
/// Key of the rules that [`qualification`] was made by.
pub const RULE_PACK: &str = "iso-15614-1-2017-level-2";
/// Number of [`qualification`].
pub const QUALIFICATION: &str = "PQR-1";

/// A record of a butt weld of 12 mm, welded vertically up in several runs, with impact tests at the weld
/// metal.
///
/// 24 V, 180 A and 200 mm/min are 1.296 kJ/mm of arc energy (own arithmetic).
pub fn qualification() -> Value {
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
            "tests": tests(),
        }],
        "witnesses": [{ "name": "An Examiner", "kind": "examiner", "body": "Body X", "on": "2025-03-04" }],
        "signatures": [{ "person": "An Engineer", "function": "welding engineer", "on": "2025-03-18" }],
    })
}

fn part(heat: &str) -> Value {
    json!({
        "form": "plate",
        "thickness": "12 mm",
        "metal": {
            "standard": "EN 10025-2", "grade": "S355J2", "condition": "as-rolled", "group": "1.2",
            "specified_yield": "355 MPa", "heat_number": heat, "certificate": "3.1 no. 7",
            "heat_analysis": { "C": "0.17 %", "Mn": "1.42 %", "Cr": { "at_most": "0.05 %" } },
        },
    })
}

fn run(number: u32, class: &str) -> Value {
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
}

fn tests() -> Value {
    json!([
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
    ])
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
            "stated": [
                    { "rule": "preheat-rule", "holds": true },
                    { "rule": "extent-of-tests", "holds": true },
                ],
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
