//! A setup is read straight from its text, or by way of nodes; both ways come to the same.

use proptest::prelude::*;
use serde_json::{Map, Value, json};
use utoipa::{
    PartialSchema,
    openapi::{RefOr, Schema},
};

use super::{
    SetupIn,
    setup_in::{BaseMetalIn, FillerIn, JobIn, SettingsIn, WelderIn},
};
use crate::{
    qualifications::FluxDocument,
    wire::{DemandsDocument, ToWire, WelderWorkIn, read_node, read_plain, read_text},
};

/// Setups of the demo.
const OF_THE_DEMO: &[&str] = &[
    include_str!("../../demo/setup.json"),
    ALLOWED,
    include_str!("../../demo/setup-butt.json"),
    include_str!("../../demo/setup-electrode.json"),
    include_str!("../../demo/setup-measured.json"),
    include_str!("../../demo/setup-partial.json"),
    include_str!("../../demo/setup-pulsed.json"),
    include_str!("../../demo/setup-unsigned.json"),
    include_str!("../../demo/setup-welder.json"),
];

const ALLOWED: &str = include_str!("../../demo/setup-allowed.json");

/// Every field there is, in several forms.
fn full() -> Value {
    json!({
        "procedure": "WPS-9",
        "revision": 12,
        "work_order": "WO.9_1",
        "station": "ST-9",
        "welder": {
            "code": "W-9",
            "work": {
                "mechanisation": "manual", "transfer": "spray", "product": "plate", "rotating": false,
                "filler_group": "FM1", "filler_type": "P", "f_number": 6, "deposit": "8 mm",
                "outside_diameter": "114.3 mm", "backing": "ss-mb", "layers": "sl",
                "welding_unit": "Tractor 2, left", "sensing": "with-sensor", "view_of_arc": "direct",
            },
        },
        "process": "FCAW-G",
        "job": {
            "code": { "name": "AWS D1.1", "edition": "2020" },
            "joint": "fillet",
            "position": "3F",
            "progression": "up",
            "base_metals": [
                {
                    "group": "1.2", "form": "pipe", "thickness": "1 1/2 in", "outside_diameter": "4 in",
                    "cet": "0.34 %", "preheat_category": "B", "in_category_a": true,
                },
                { "group": "8", "thickness": { "value": 12.50, "unit": "mm" } },
                {},
            ],
            "deposited_thickness": "10 mm",
            "run_class": "single",
            "leg": "1/4 in",
            "throat": null,
            "weld_length": "20 ft",
            "arc_on_share": "35 %",
            "demands": {
                "impact_required": true, "impact_temperature": "-20 °C", "hardness_required": null,
            },
        },
        "filler": {
            "consumable": "FW-9", "batch": "FW-9-1", "portion": "S-1", "diameter": "0.045 in",
            "spool": "33 lb", "gas": { "Ar": "75 %", "CO2": "25 %" }, "backing_gas": "I1",
            "flux": {
                "designation": "S A AB 1", "maker": "Flux maker", "trade_name": "F-1", "batch": "7",
                "kind": "neutral", "recrushed_slag": false,
            },
            "polarity": "DCEP",
        },
        "settings": full_settings(),
        "day": "2026-12-01",
        "at": "2026-12-01T06:30:00+01:00",
        "keep": true,
    })
}

fn full_settings() -> Value {
    json!({
        "waveform": "controlled",
        "bead": "weave",
        "transfer": "spray",
        "mechanisation": "automatic",
        "current_form": "pulsed",
        "electrodes": 2,
        "current": {
            "value": 240, "unit": "A", "origin": "measured", "accuracy": { "of_reading": "2.5 %" },
        },
        "voltage": { "min": 26, "max": 27.5, "unit": "V" },
        "wire_feed": { "value": 400, "unit": "in/min", "origin": "measured", "instrument": "F-1" },
        "travel_speed": "11 to 12 in/min",
        "run_length": "300 mm",
        "arc_time": "65 s",
        "arc_power": "6.4 kW",
        "run_energy": "400 kJ",
        "electrical_stick_out": "3/4 in",
        "visible_stick_out": "15 mm",
        "tip_recess": "-2 mm",
        "travel_angle": "-10 deg",
        "work_angle": "45 deg",
        "weave_width": "8 mm",
        "preheat": "70 °F",
        "interpass": { "min": "150 °C", "max": "350 °F" },
        "gas_flow": "40 ft3/h",
        "arc_energy": "1.5 kJ/mm",
        "heat_input": "30 kJ/in",
    })
}

/// Whether the text is read straight; that the other way reads the same then, without an error.
fn read_straight(text: &str) -> bool {
    let Some(straight) = read_plain::<Box<SetupIn>>(text.as_bytes()) else { return false };
    let by_nodes: Box<SetupIn> = read_node(&read_text(text.as_bytes()).unwrap()).unwrap();
    assert_eq!(straight.to_wire(), by_nodes.to_wire(), "{text}");
    assert_eq!(format!("{straight:?}"), format!("{by_nodes:?}"), "{text}");
    true
}

fn is_sound(text: &str) -> bool {
    read_text(text.as_bytes()).is_ok_and(|node| read_node::<Box<SetupIn>>(&node).is_ok())
}

/// The fast way cannot fall asleep unseen.
#[test]
fn setups_of_the_demo_are_read_straight() {
    for text in OF_THE_DEMO {
        assert!(read_straight(text), "{text}");
        let compact: Value = serde_json::from_str(text).unwrap();
        assert!(read_straight(&compact.to_string()), "{compact}");
    }
}

#[test]
fn a_setup_of_every_field_is_read_straight() {
    let full = full();
    assert!(read_straight(&full.to_string()));
    assert!(read_straight(&format!("{full:#}")));
    let names = |object: &Value| object.as_object().unwrap().keys().cloned().collect::<Vec<_>>();
    for (object, fields) in [
        (&full, fields::<SetupIn>()),
        (&full["welder"], fields::<WelderIn>()),
        (&full["welder"]["work"], fields::<WelderWorkIn>()),
        (&full["job"], fields::<JobIn>()),
        (&full["job"]["base_metals"][0], fields::<BaseMetalIn>()),
        (&full["job"]["demands"], fields::<DemandsDocument>()),
        (&full["filler"], fields::<FillerIn>()),
        (&full["filler"]["flux"], fields::<FluxDocument>()),
        (&full["settings"], fields::<SettingsIn>()),
    ] {
        assert_eq!(names(object), fields);
    }
}

fn fields<T: PartialSchema>() -> Vec<String> {
    match T::schema() {
        RefOr::T(Schema::Object(object)) => object.properties.keys().cloned().collect(),
        _ => panic!("no object"),
    }
}

#[test]
fn what_is_not_sound_or_not_plain_is_left_to_the_other_way() {
    for text in [
        "",
        "null",
        "[]",
        "{} {}",
        r#"{"amps": "240 A"}"#,
        r#"{"revision": "two"}"#,
        r#"{"keep": true, "keep": true}"#,
        r#"{"keep": null, "keep": true}"#,
        r#"{"job": {"base_metals": null}}"#,
        r#"{"job": {"base_metals": [{}, {}}}"#,
        r#"{"job": {"base_metals": [{},]}}"#,
        r#"{"job": {"demands": []}}"#,
        r#"{"welder": {"work": {}}}"#,
        r#"{"station": "ST\u002d1"}"#,
        r#"{"st\u0061tion": "ST-1"}"#,
        r#"{"settings": {"current": 240}}"#,
        r#"{"settings": {"current": "240 V"}}"#,
        "{\"station\": \"ST-1\",}",
        "{\"station\" \"ST-1\"}",
        "{\"station\": \"ST-1\" \"keep\": true}",
        "{\"station\0\": \"ST-1\"}",
        "{\"keep\0\": true}",
    ] {
        assert!(!read_straight(text), "{text}");
    }
    assert!(read_plain::<Box<SetupIn>>(b"{\"station\": \"\xff\"}").is_none());
}

/// The same with some of its members left out and some values exchanged, in another order.
fn changed(value: &Value, choices: &mut impl Iterator<Item = u8>) -> Value {
    match value {
        Value::Object(members) => {
            let mut kept = Map::new();
            for (name, value) in members {
                let value = match choices.next() {
                    Some(0..60) => continue,
                    // A list that is null is left to the longer way.
                    Some(60..64) if !value.is_array() => Value::Null,
                    Some(64..66) => json!("240 A"),
                    Some(66..68) => json!(240),
                    _ => changed(value, choices),
                };
                let first = choices.next().is_some_and(|choice| choice < 80);
                kept.shift_insert(if first { 0 } else { kept.len() }, name.clone(), value);
            }
            Value::Object(kept)
        }
        Value::Array(items) => items.iter().map(|item| changed(item, choices)).collect(),
        other => other.clone(),
    }
}

fn bases() -> Vec<String> {
    let full = full();
    vec![ALLOWED.to_owned(), full.to_string(), format!("{full:#}")]
}

proptest! {
    #[test]
    fn every_sound_setup_is_read_straight(
        mut choices in prop::collection::vec(any::<u8>(), 200).prop_map(Vec::into_iter),
        line in prop::option::of(prop::sample::select(["\n", "\r\n", "\n\t", "\n\n   "].as_slice())),
    ) {
        let value = changed(&full(), &mut choices);
        let text = line.map_or_else(
            || value.to_string(),
            |line| format!("{value:#}").replace('\n', line),
        );
        prop_assert_eq!(read_straight(&text), is_sound(&text), "{}", text);
    }

    #[test]
    fn a_damaged_setup_is_read_the_same_or_left(
        base in prop::sample::select(bases()),
        damages in prop::collection::vec(
            (any::<prop::sample::Index>(), 0..4_usize, prop::sample::select(
                ["", "\"", "{", "}", "[", "]", ",", ":", "\\", " ", "\n", "1", "-", ".", "e", "null", "\0", "°",
                    "\"keep\":true,", "\"leg\":null,"].as_slice(),
            )),
            1..3,
        ),
    ) {
        let mut text = base;
        for (place, removed, put) in damages {
            let mut places: Vec<_> = text.char_indices().map(|(place, _)| place).collect();
            places.push(text.len());
            let place = place.index(places.len());
            let end = places[(place + removed).min(places.len() - 1)];
            text.replace_range(places[place]..end, put);
        }
        read_straight(&text);
    }
}
