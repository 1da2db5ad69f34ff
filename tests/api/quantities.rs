//! Numbers with units over HTTP: one boundary in every unit, what is refused and how, what comes back.
//!
//! Factors by definition: inch 25.4 mm; °F by 5/9 and 32; K by 273.15; foot 304.8 mm (NIST SP 811, 2008
//! edition, appendix B.8).

use serde_json::{Value, json};

use crate::support::{Api, documents as doc, finding};

/// One limit: the variable, the check that judges it, the limit in two units, the same value in more
/// spellings, and values just below and just above.
struct Boundary {
    variable: &'static str,
    check: &'static str,
    limits: [&'static str; 2],
    at: &'static [&'static str],
    below: &'static [&'static str],
    above: &'static [&'static str],
}

const BOUNDARIES: &[Boundary] = &[
    Boundary {
        variable: "travel_speed",
        check: "travel-speed",
        limits: ["76.2 mm/min", "3 in/min"],
        at: &[
            "3 in/min",
            "3.0 [in_i]/min",
            "76.2 mm/min",
            "7.62 cm/min",
            "1.27 mm/s",
            "0.0762 m/min",
        ],
        below: &["2.999 in/min", "76.19 mm/min", "1.2699 mm/s"],
        above: &["3.001 in/min", "76.21 mm/min", "1.2701 mm/s"],
    },
    Boundary {
        variable: "wire_feed",
        check: "wire-feed",
        limits: ["8.89 m/min", "350 in/min"],
        at: &["350 in/min", "8.89 m/min", "8890 mm/min", "889 cm/min"],
        below: &["349.9 in/min", "8.889 m/min"],
        above: &["350.1 in/min", "8.891 m/min"],
    },
    Boundary {
        variable: "electrical_stick_out",
        check: "electrical-stick-out",
        limits: ["19.05 mm", "3/4 in"],
        at: &["3/4 in", "0.75 in", "19.05 mm", "1.905 cm"],
        below: &["0.749 in", "19.04 mm"],
        above: &["0.751 in", "19.06 mm"],
    },
    Boundary {
        variable: "weave_width",
        check: "weave-width",
        limits: ["12.7 mm", "1/2 in"],
        at: &["1/2 in", "0.5 in", "12.7 mm"],
        below: &["0.499 in", "12.69 mm"],
        above: &["0.501 in", "12.71 mm"],
    },
    Boundary {
        variable: "preheat",
        check: "preheat",
        limits: ["50 °C", "122 °F"],
        at: &["122 °F", "50 °C", "323.15 K"],
        below: &["121.9 °F", "49.9 °C", "323.1 K"],
        above: &["122.1 °F", "50.1 °C", "323.2 K"],
    },
    Boundary {
        variable: "interpass",
        check: "interpass",
        limits: ["200 °C", "392 °F"],
        at: &["392 °F", "200 °C", "473.15 K"],
        below: &["391.9 °F", "199.9 °C"],
        above: &["392.1 °F", "200.1 °C"],
    },
];

/// The one end as a range.
fn open_range(end: &str, limit: &str) -> Value {
    let (number, unit) = limit.split_once(' ').unwrap();
    json!({ end: format!("{number} {unit}") })
}

/// Releases a procedure whose limits have this end only, typed in the first or second unit.
async fn procedure_with(api: &Api, number: &str, end: &str, typed: usize) {
    let mut procedure = doc::with(doc::procedure(), "/number", json!(number));
    for boundary in BOUNDARIES {
        let pointer = format!("/runs/0/limits/{}", boundary.variable);
        procedure = doc::with(procedure, &pointer, open_range(end, boundary.limits[typed]));
    }
    api.shop.write(api, "procedures", &procedure).await;
    api.shop.release(api, number).await;
}

async fn outcome(api: &Api, number: &str, boundary: &Boundary, value: &str) -> Value {
    let setup = doc::with(doc::setup(), "/procedure", json!(number));
    let setup = doc::with(setup, "/work_order", Value::Null);
    let setup = doc::with(setup, &format!("/settings/{}", boundary.variable), json!(value));
    let answer = api.post(api.shop.reader(), "/v1/checks", &setup).await.expect(200);
    finding(&answer, boundary.check, "procedure")["outcome"].clone()
}

#[tokio::test]
async fn a_boundary_is_the_same_in_every_unit_on_both_sides() {
    let api = Api::furnished().await;
    let mut asked = 0;
    for (end, typed) in [("max", 0), ("max", 1), ("min", 0), ("min", 1)] {
        let number = format!("WPS-{end}-{typed}");
        procedure_with(&api, &number, end, typed).await;
        for boundary in BOUNDARIES {
            let (inside, outside) = match end {
                "max" => (boundary.below, boundary.above),
                _ => (boundary.above, boundary.below),
            };
            for (values, expected) in
                [(boundary.at, "inside"), (inside, "inside"), (outside, "outside")]
            {
                for value in values {
                    let outcome = outcome(&api, &number, boundary, value).await;
                    let limit = boundary.limits[typed];
                    assert_eq!(outcome, expected, "{value} against {end} {limit}");
                    asked += 1;
                }
            }
        }
    }
    assert_eq!(asked, 4 * 51, "every spelling was asked in every way");
}

#[tokio::test]
async fn what_was_typed_comes_back() {
    let api = Api::furnished().await;
    let reader = api.shop.reader();
    let limit = "/runs/0/limits/electrical_stick_out";
    let procedure = doc::with(doc::procedure(), "/number", json!("WPS-IN"));
    let procedure = doc::with(procedure, limit, json!({ "max": "3/4 in" }));
    api.shop.write(&api, "procedures", &procedure).await;
    let read = api.get(reader, "/v1/procedures/WPS-IN").await;
    let stored = read.expect(200)["document"].clone();
    assert_eq!(stored.pointer(limit), Some(&json!({ "max": 0.75, "unit": "in" })));
    assert!(!read.text.contains("19.0"), "{}", read.text);

    let setup = doc::with(doc::setup(), "/settings/electrical_stick_out", json!("3/4 in"));
    for (units, shown) in [
        ("?units=us", json!({ "value": 0.75, "unit": "in" })),
        ("?units=metric", json!({ "value": 19.05, "unit": "mm" })),
        ("", json!({ "value": 19.05, "unit": "mm" })),
    ] {
        let answer = api.post(reader, &format!("/v1/checks{units}"), &setup).await.expect(200);
        let finding = finding(&answer, "electrical-stick-out", "procedure");
        assert_eq!(finding["given"], shown, "{units}");
        assert!(finding["reason"].as_str().unwrap().contains("0.75 in"), "{finding}");
    }
}

/// Every unit of a whole answer, in the order met.
fn units_of(value: &Value, into: &mut Vec<String>) {
    match value {
        Value::Object(members) => {
            into.extend(members.get("unit").and_then(Value::as_str).map(str::to_owned));
            members.values().for_each(|member| units_of(member, into));
        }
        Value::Array(items) => items.iter().for_each(|item| units_of(item, into)),
        _ => {}
    }
}

#[tokio::test]
async fn answers_come_in_the_units_asked_for() {
    let api = Api::furnished().await;
    let metric = ["mm", "mm/min", "m/min", "°C", "L/min", "kJ/mm", "kg", "kg/h", "mm2"];
    let customary = ["in", "in/min", "°F", "ft3/h", "kJ/in", "lb", "lb/h", "in2"];
    for (units, own, other) in
        [("us", &customary[..], &metric[..]), ("metric", &metric[..], &customary[..])]
    {
        let path = format!("/v1/checks?units={units}");
        let answer = api.post(api.shop.reader(), &path, &doc::setup()).await.expect(200);
        let mut met = Vec::new();
        units_of(&answer, &mut met);
        for unit in own {
            assert!(met.iter().any(|met| met == unit), "{units}: no {unit}");
        }
        let strangers: Vec<_> = met.iter().filter(|met| other.contains(&met.as_str())).collect();
        assert_eq!(strangers, Vec::<&String>::new(), "{units}");
    }
    let answer = api.post(api.shop.reader(), "/v1/checks?units=imperial", &doc::setup()).await;
    answer.problem(400, "bad-parameter");
    assert_eq!(answer.pointers(), ["?units"]);
}

#[tokio::test]
async fn an_unknown_parameter_is_named_beside_the_known_ones() {
    let api = Api::furnished().await;
    for (path, query, known) in [
        ("/v1/checks", "units=us&colour=red", "units, detail"),
        ("/v1/windows", "colour=red", "units, detail, chosen, outline"),
    ] {
        let answer = api.post(api.shop.reader(), &format!("{path}?{query}"), &doc::setup()).await;
        let problem = answer.problem(400, "bad-parameter");
        assert_eq!(answer.pointers(), ["?colour"], "{path}");
        let expected = format!("no such parameter; known are {known}");
        assert_eq!(problem["errors"][0]["detail"], expected, "{problem}");
    }
}

#[tokio::test]
async fn an_arc_burns_for_a_part_of_the_time() {
    let api = Api::furnished().await;
    let setup = |share: &str| doc::with(doc::setup(), "/job/arc_on_share", json!(share));
    for share in ["0 %", "150 %"] {
        let refused = api.post(api.shop.reader(), "/v1/checks", &setup(share)).await;
        refused.problem(422, "invalid-fields");
        assert_eq!(refused.pointers(), ["/job/arc_on_share"], "{share}");
    }
    api.post(api.shop.reader(), "/v1/checks", &setup("100 %")).await.expect(200);
}

/// Sends a setup with this current, and gives the only field error.
async fn refused(api: &Api, field: &str, value: Value) -> (String, String) {
    let setup = doc::with(doc::setup(), &format!("/settings/{field}"), value);
    let answer = api.post(api.shop.reader(), "/v1/checks", &setup).await;
    let body = answer.problem(422, "invalid-fields");
    assert_eq!(body["errors"].as_array().unwrap().len(), 1, "{body}");
    let text = |member: &str| body["errors"][0][member].as_str().unwrap().to_owned();
    (text("pointer"), text("detail"))
}

#[tokio::test]
async fn a_bare_number_is_refused_with_the_right_form() {
    let api = Api::furnished().await;
    for (field, value, forms) in [
        ("current", json!(220), ["\"220 A\"", "{\"value\": 220, \"unit\": \"A\"}"]),
        ("travel_speed", json!(12.5), ["\"12.5 mm/min\"", "\"unit\": \"mm/min\""]),
        ("current", json!("220"), ["\"220 A\"", "{\"value\": 220, \"unit\": \"A\"}"]),
    ] {
        let (pointer, detail) = refused(&api, field, value).await;
        assert_eq!(pointer, format!("/settings/{field}"));
        for form in forms {
            assert!(detail.contains(form), "{form}: {detail}");
        }
    }
    // 400 m/min would be refused next; 400 in/min are 10.16 m/min.
    let (_, detail) = refused(&api, "wire_feed", json!(400)).await;
    assert!(detail.contains("\"400 in/min\""), "{detail}");
    let (pointer, detail) = refused(&api, "current", json!({ "value": 220 })).await;
    assert_eq!(pointer, "/settings/current/unit");
    assert!(detail.contains("\"A\""), "{detail}");
}

#[tokio::test]
async fn what_no_arc_can_be_is_refused_with_its_span() {
    let api = Api::furnished().await;
    for current in ["40000 A", "-1 A", "0 A", "3000.1 A"] {
        let (pointer, detail) = refused(&api, "current", json!(current)).await;
        assert_eq!(pointer, "/settings/current", "{current}");
        assert!(detail.contains("between 1 and 3000 A"), "{current}: {detail}");
    }
    let (pointer, detail) = refused(&api, "current", json!({ "value": -1, "unit": "A" })).await;
    assert_eq!(pointer, "/settings/current/value");
    assert!(detail.contains("between 1 and 3000 A"), "{detail}");
    for current in ["NaN A", "nan A", "Infinity A", "inf A", "-Infinity A", "1e999 A", "٣ A"] {
        let (pointer, detail) = refused(&api, "current", json!(current)).await;
        assert_eq!(pointer, "/settings/current", "{current}");
        assert!(detail.contains("number") || detail.contains("between"), "{current}: {detail}");
    }
}

#[tokio::test]
async fn a_unit_of_another_kind_is_refused_with_those_that_would_do() {
    let api = Api::furnished().await;
    let (_, detail) = refused(&api, "voltage", json!("26 mm")).await;
    assert!(detail.contains("use one of V"), "{detail}");
    let (_, detail) = refused(&api, "travel_speed", json!("12 in")).await;
    assert!(detail.contains("in/min") && detail.contains("mm/min"), "{detail}");
    // An arc energy is a heat input to US codes, but no length.
    let (_, detail) = refused(&api, "heat_input", json!("35 in")).await;
    assert!(detail.contains("kJ/in"), "{detail}");
}

#[tokio::test]
async fn all_fields_at_fault_are_named_at_once() {
    let api = Api::furnished().await;
    let mut setup = doc::setup();
    for (pointer, value) in [
        ("/process", json!("GMAW")),
        ("/nonsense", json!(true)),
        ("/job/joint", json!("corner")),
        ("/job/base_metals/1/thickness", json!(12)),
        ("/filler/diameter", json!("1.2 kg")),
        ("/settings/current", json!(220)),
        ("/settings/voltage", json!({ "value": 26, "unit": "A" })),
        ("/settings/travel_speed", json!({ "min": 400, "max": 300, "unit": "mm/min" })),
        ("/settings/a~b", json!("1 mm")),
        ("/settings/interpass", json!({ "min": 100, "max": 120, "unit": "°C", "orgin": "set" })),
    ] {
        setup = doc::with(setup, pointer, value);
    }
    let answer = api.post(api.shop.reader(), "/v1/checks", &setup).await;
    answer.problem(422, "invalid-fields");
    let mut pointers = answer.pointers();
    pointers.sort();
    // RFC 6901, section 3: "~" is written "~0".
    let expected = [
        "/filler/diameter",
        "/job/base_metals/1/thickness",
        "/job/joint",
        "/nonsense",
        "/process",
        "/settings/a~0b",
        "/settings/current",
        "/settings/interpass/orgin",
        "/settings/travel_speed",
        "/settings/voltage/unit",
    ];
    assert_eq!(pointers, expected);
}

/// Only what a setup states has an origin; a limit of a record with one is a mistake.
#[tokio::test]
async fn a_limit_has_no_origin() {
    let api = Api::start().await;
    let limit = json!({ "min": 40, "max": 400, "unit": "A", "origin": "measured" });
    let station = doc::with(doc::station(), "/limits/current", limit);
    let answer = api.post(api.shop.author(), "/v1/stations", &station).await;
    answer.problem(422, "invalid-fields");
    assert_eq!(answer.pointers(), ["/limits/current/origin"]);
}

#[tokio::test]
async fn an_interval_is_inside_only_as_a_whole() {
    let api = Api::furnished().await;
    // The procedure allows 200 to 240 A.
    for (current, expected) in [
        (json!("200 to 240 A"), "inside"),
        (json!({ "min": 210, "max": 230, "unit": "A" }), "inside"),
        (json!({ "min": "200 A", "max": "240.1 A" }), "outside"),
        (json!("199 to 240 A"), "outside"),
        (json!({ "value": 240, "unit": "A" }), "inside"),
    ] {
        let setup = doc::with(doc::setup(), "/settings/current", current.clone());
        let answer = api.post(api.shop.reader(), "/v1/checks", &setup).await.expect(200);
        assert_eq!(finding(&answer, "current", "procedure")["outcome"], expected, "{current}");
    }
}
