//! What is asked is a demand, over HTTP: what cannot be kept leaves nothing, and what cannot be computed is a
//! problem that names its field; for windows and for run plans alike.

use serde_json::{Value, json};

use crate::{
    support::{Api, documents as doc},
    windows_solved::job,
};

/// With a hand that never strays, since the limits of the test's procedure are narrow.
fn steady(mut ask: Value) -> Value {
    ask["hand_spread"] = json!({ "travel_speed": "0 %", "stick_out": "0 %" });
    ask
}

async fn solved(api: &Api, ask: Value) -> Value {
    let body = doc::with(job(), "/ask", steady(ask));
    let answer = api.post(api.shop.reader(), "/v1/windows?units=metric", &body).await.expect(200);
    answer["offers"][0]["solved"].clone()
}

/// The same asked of the runs of a fillet.
fn fillet(ask: Value) -> Value {
    let mut setup = doc::with(job(), "/procedure", Value::Null);
    setup["job"].as_object_mut().unwrap().shift_remove("run_class");
    json!({
        "setup": setup, "joint": { "fillet": { "leg": "5 mm" } }, "length": "2 m", "ask": steady(ask)
    })
}

/// The plan of the only procedure.
async fn planned(api: &Api, ask: Value) -> Value {
    let path = "/v1/run-plans?units=metric";
    let answer = api.post(api.shop.reader(), path, &fillet(ask)).await.expect(200);
    assert_eq!(answer["plans"].as_array().unwrap().len(), 1, "{answer:#}");
    assert_eq!(answer.get("best").is_some(), answer["plans"][0].get("fastest").is_some());
    answer["plans"][0].clone()
}

/// CET 0.34 %, 25 mm, H10 by EN 1011-2 C.3: 145.9 °C without heat, less 13.98 °C for each kJ/mm, so 90.0 °C at
/// 4 kJ/mm and 131.9 °C at 1 (own arithmetic).
fn preheat(preheat: &str) -> Value {
    json!({ "preheat": {
        "metal": "low-alloy-ferritic", "cet": "0.34 %", "thickness": "25 mm", "hydrogen": "H10",
        "ambient": "20 °C", "preheat": preheat
    } })
}

#[tokio::test]
async fn a_preheat_that_no_heat_input_helps_leaves_nothing() {
    let api = Api::furnished().await;
    for cold in ["20 °C", "80 °C"] {
        let answer = solved(&api, preheat(cold)).await;
        assert_eq!(answer["preheat_trade"]["heat_input"], "none-in-range");
        let pieces = answer["pieces"].as_array().unwrap();
        assert_eq!(pieces.len(), 1, "{answer:#}");
        let left = &pieces[0]["required"];
        let words = left["conflict"]["words"].as_str().unwrap();
        assert!(
            words.starts_with(&format!("A preheat of {cold} does at no heat input")),
            "{words}"
        );
        assert!(words.contains("90 °C would do"), "{words}");
        for name in ["starting_point", "fastest", "coolest", "nearest"] {
            assert_eq!(left.get(name), None, "{left:#}");
        }
        assert_eq!(left["narrowed"], json!([]));
        assert_eq!(pieces[0].get("advised"), None);

        let plan = planned(&api, preheat(cold)).await;
        assert_eq!(plan.get("fastest"), None, "{plan:#}");
        assert!(plan["reasons"].to_string().contains("90 °C would do"), "{plan:#}");
        assert!(plan["not_in_one_run"].as_str().unwrap().contains("does at no heat input"));
    }
    let between = solved(&api, preheat("90 °C")).await;
    let conflict = &between["pieces"][0]["required"]["conflict"];
    assert!(conflict["limits"].as_array().unwrap().len() > 1, "{between:#}");
    let warm = solved(&api, preheat("150 °C")).await;
    assert!(warm["pieces"][0]["required"]["starting_point"].is_object(), "{warm:#}");
    assert!(planned(&api, preheat("150 °C")).await["fastest"].is_object());
}

/// EN 1011-2, Annex D: what cools in 5 s from 20 °C takes more than twice that from 250 °C (own arithmetic).
#[tokio::test]
async fn a_cooling_time_that_no_heat_input_keeps_leaves_nothing() {
    let api = Api::furnished().await;
    let cooling = json!({ "cooling": {
        "metal": "low-alloy-ferritic", "cooling_time": "5 to 6 s", "lowest_temperature": "20 °C",
        "highest_temperature": "250 °C", "thickness": "40 mm",
        "shape_factors": { "two_dimensional": "67 %", "three_dimensional": "67 %" }
    } });
    let answer = solved(&api, cooling.clone()).await;
    let words = answer["pieces"][0]["required"]["conflict"]["words"].as_str().unwrap();
    assert!(words.starts_with("No heat input keeps a cooling time of 5 s to 6 s"), "{words}");
    let plan = planned(&api, cooling).await;
    assert_eq!(plan.get("fastest"), None, "{plan:#}");
    assert!(plan["reasons"].to_string().contains("No heat input keeps a cooling time"), "{plan:#}");
}

/// Ranges of the CET method: CET 0.20 to 0.50 %, 10 to 90 mm, 1 to 20 mL/100 g, shop of 5 to 60 °C, yield strength
/// up to 1000 N/mm² (EN 1011-2 C.3; from memory). Cooling times: starts at 0 to 300 °C (Annex D; from memory).
#[tokio::test]
async fn what_a_method_is_not_valid_for_is_named() {
    let api = Api::furnished().await;
    let cooling = json!({ "cooling": {
        "metal": "low-alloy-ferritic", "cooling_time": "5 to 6 s", "lowest_temperature": "20 °C",
        "highest_temperature": "100 °C", "thickness": "40 mm",
        "shape_factors": { "two_dimensional": "67 %", "three_dimensional": "67 %" }
    } });
    let of = |ask: &Value, field: &str, value: Value| doc::with(ask.clone(), field, value);
    let preheat = preheat("100 °C");
    let composition = json!({ "C": "0.9 %", "Si": "0.3 %", "Mn": "1.5 %" });
    let cases = [
        (
            of(&cooling, "/cooling/highest_temperature", json!("450 °C")),
            "cooling/highest_temperature",
        ),
        (
            of(&cooling, "/cooling/lowest_temperature", json!("-10 °C")),
            "cooling/lowest_temperature",
        ),
        (of(&cooling, "/cooling/thickness", json!("0 mm")), "cooling/thickness"),
        (of(&cooling, "/cooling/metal", json!("8.1")), "cooling/metal"),
        (of(&preheat, "/preheat/ambient", json!("0 °C")), "preheat/ambient"),
        (of(&preheat, "/preheat/cet", json!("0.6 %")), "preheat/cet"),
        (of(&preheat, "/preheat/weld_metal_cet", json!("0.6 %")), "preheat/weld_metal_cet"),
        (of(&preheat, "/preheat/thickness", json!("8 mm")), "preheat/thickness"),
        (of(&preheat, "/preheat/hydrogen", json!("25 mL/100g")), "preheat/hydrogen"),
        (of(&preheat, "/preheat/yield_strength", json!("1100 MPa")), "preheat/yield_strength"),
        (of(&preheat, "/preheat/metal", json!("8.1")), "preheat/metal"),
        (of(&preheat, "/preheat/composition", composition), "preheat/composition"),
    ];
    for (ask, field) in cases {
        let body = doc::with(job(), "/ask", steady(ask.clone()));
        for (path, body) in [("/v1/windows", body), ("/v1/run-plans", fillet(ask))] {
            let refused = api.post(api.shop.reader(), path, &body).await;
            refused.problem(422, "invalid-fields");
            assert_eq!(refused.pointers(), [format!("/ask/{field}")], "{path}");
        }
    }
    // Hardly a volt is left beyond 99 % of the short-circuit current, and a chord holds nothing there.
    let line = json!({
        "open_circuit": "40 V", "short_circuit": "300 A", "from": "298 A", "to": "299 A"
    });
    let body = doc::with(job(), "/ask", json!({ "output_line": line }));
    let refused = api.post(api.shop.reader(), "/v1/windows", &body).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/ask/output_line"]);
}

/// ±5 A at 200 to 240 A leaves 205 to 235 A, whichever instrument is named last (own arithmetic).
#[tokio::test]
async fn of_several_instruments_the_wider_error_counts() {
    let api = Api::furnished().await;
    let guard =
        |absolute: &str| json!({ "variable": "current", "accuracy": { "absolute": absolute } });
    for guards in [
        json!([guard("5 A")]),
        json!([guard("5 A"), guard("0.1 A")]),
        json!([guard("0.1 A"), guard("5 A")]),
    ] {
        let answer = solved(&api, json!({ "guards": guards })).await;
        let narrowed = answer["pieces"][0]["required"]["narrowed"].as_array().unwrap().clone();
        let current = narrowed.iter().find(|one| one["variable"] == "current").unwrap();
        let end = |end: &str| current[end]["value"]["value"].as_f64().unwrap();
        assert_eq!((end("lowest"), end("highest")), (205.0, 235.0), "{guards}");
    }
}

/// Volts times amps are the power of an output that is not controlled: there is nothing to set.
#[tokio::test]
async fn an_instrument_of_what_is_not_set_is_refused() {
    let api = Api::furnished().await;
    let power = json!([{ "variable": "arc-power", "accuracy": { "of_reading": "2 %" } }]);
    let answer = solved(&api, json!({ "guards": power })).await;
    let words = answer["pieces"][0]["required"]["conflict"]["words"].as_str().unwrap();
    assert!(words.contains("only where the output is waveform-controlled"), "{words}");

    let feed = json!({ "guards": [
        { "variable": "current", "accuracy": { "absolute": "5 A" } },
        { "variable": "wire-feed", "accuracy": { "of_reading": "2 %" } }
    ] });
    let stick = doc::with(doc::with(job(), "/ask", feed), "/process", json!("111"));
    let refused = api.post(api.shop.reader(), "/v1/windows", &stick).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/ask/guards/1/variable"]);
    assert!(
        refused.json().to_string().contains("process 111 has no wire-feed"),
        "{}",
        refused.json()
    );
}

#[tokio::test]
async fn what_is_asked_in_the_query_is_kept_or_refused() {
    let api = Api::furnished().await;
    let body = job();
    for (query, name, part) in [
        ("chosen=arc-energy", "?chosen", "arc-energy is no setting"),
        ("chosen=preheat", "?chosen", "preheat is no setting"),
        ("chosen=voltage", "?chosen", "the setup states none: state it at /settings/voltage"),
        ("outline=wire-feed,arc-energy", "?outline", "arc-energy is no setting"),
        ("outline=wire-feed,preheat", "?outline", "preheat is no setting"),
        ("outline=wire-feed,wire-feed", "?outline", "two settings that differ"),
        ("outline=wire-feed", "?outline", "two settings that differ"),
    ] {
        let path = format!("/v1/windows?{query}");
        let refused = api.post(api.shop.reader(), &path, &body).await;
        refused.problem(400, "bad-parameter");
        assert_eq!(refused.pointers(), [name], "{query}");
        assert!(refused.json().to_string().contains(part), "{query}: {}", refused.json());
    }
    let stick = doc::with(body.clone(), "/process", json!("111"));
    for query in ["chosen=wire-feed", "outline=wire-feed,voltage"] {
        let refused = api.post(api.shop.reader(), &format!("/v1/windows?{query}"), &stick).await;
        refused.problem(400, "bad-parameter");
        assert!(
            refused.json().to_string().contains("process 111 has no wire-feed"),
            "{}",
            refused.json()
        );
    }
    // Length and time of the run state a travel speed too: 350 mm in a minute.
    let run = doc::with(body.clone(), "/settings/run_length", json!("350 mm"));
    let run = doc::with(run, "/settings/arc_time", json!("60 s"));
    api.post(api.shop.reader(), "/v1/windows?chosen=travel-speed", &run).await.expect(200);

    // Whether the current is a setting depends on the data: either it is outlined, or the answer says why not.
    let path = "/v1/windows?outline=current,voltage";
    let steady_body = doc::with(body, "/ask", steady(json!({})));
    let answer = api.post(api.shop.reader(), path, &steady_body).await.expect(200);
    let piece = &answer["offers"][0]["solved"]["pieces"][0];
    let left = &piece["required"];
    if piece["current"].as_str().unwrap().starts_with("follows") {
        assert_eq!(left.get("outline"), None, "{piece:#}");
        assert!(left["no_outline"].as_str().unwrap().contains("it follows from wire feed"));
    } else {
        assert!(left["outline"]["points"].as_array().unwrap().len() >= 3, "{piece:#}");
        assert_eq!(left.get("no_outline"), None);
    }
}

/// What the check says of a procedure that is not in force, windows and run plans say too.
#[tokio::test]
async fn where_nothing_is_offered_the_answer_says_why() {
    let api = Api::furnished().await;
    let named = |name: Value| doc::with(job(), "/procedure", name);
    let ninth = |setup: Value| doc::with(setup, "/revision", json!(9));
    let body = ninth(named(json!("WPS-1")));
    let check = api.post(api.shop.reader(), "/v1/checks", &body).await.expect(200);
    let windows = api.post(api.shop.reader(), "/v1/windows", &body).await.expect(200);
    let mut plan = fillet(json!({}));
    plan["setup"] = ninth(doc::with(plan["setup"].clone(), "/procedure", json!("WPS-1")));
    let plans = api.post(api.shop.reader(), "/v1/run-plans", &plan).await.expect(200);
    assert_eq!((&windows["offers"], &plans["plans"]), (&json!([]), &json!([])));
    for nothing in [&windows["nothing_offered"], &plans["nothing_planned"]] {
        let reasons = nothing["reasons"].as_array().unwrap();
        assert_eq!(reasons.len(), 1, "{nothing:#}");
        assert_eq!(reasons[0]["pointer"], "/procedure");
        assert_eq!(reasons[0]["reason"], check["findings"][0]["reason"], "{nothing:#}");
        assert!(reasons[0]["reason"].as_str().unwrap().contains("not released"), "{nothing:#}");
    }

    // Without a procedure: what nearly covers the job.
    let overhead = doc::with(named(Value::Null), "/job/position", json!("PE"));
    let windows = api.post(api.shop.reader(), "/v1/windows", &overhead).await.expect(200);
    let plan = doc::with(fillet(json!({})), "/setup/job/position", json!("PE"));
    let plans = api.post(api.shop.reader(), "/v1/run-plans", &plan).await.expect(200);
    for nothing in [&windows["nothing_offered"], &plans["nothing_planned"]] {
        let reason = nothing["reasons"][0]["reason"].as_str().unwrap();
        assert!(reason.starts_with("No released procedure in force covers"), "{nothing:#}");
        let miss = json!([{ "procedure": "WPS-1", "revision": 1, "checks": ["position"] }]);
        assert_eq!(nothing["near_misses"], miss);
    }
    let covered = api.post(api.shop.reader(), "/v1/windows", &job()).await.expect(200);
    assert_eq!(covered.get("nothing_offered"), None);
}
