//! What an instrument's accuracy makes of a verdict, over HTTP.

use reqwest::Method;
use serde_json::{Value, json};

use crate::{
    behind::settle,
    support::{Api, documents as doc},
};

/// 281 A of 286 A with an expanded uncertainty of 7 A: Phi(5/3.5) = 0.923 (own arithmetic by JCGM
/// 106:2012, 7.3).
const READ: (f64, &str) = (281.0, "7 A");

/// The finding of a work order that allows 234 to 286 A, and the answer.
async fn asked(api: &Api, current: Value) -> (Value, Value) {
    let setup = doc::with(doc::setup(), "/settings/current", current);
    let answer = api.post(api.shop.reader(), "/v1/checks?detail=full", &setup).await.expect(200);
    let of_order = |one: &&Value| one["check"] == "current" && one["owner"]["kind"] == "work-order";
    let found = answer["findings"].as_array().unwrap().iter().find(of_order).unwrap().clone();
    (found, answer)
}

async fn revise(api: &Api, place: &str, body: &Value) {
    let etag = api.get(api.shop.author(), place).await.header("etag").to_owned();
    api.put(api.shop.author(), place, &etag, body).await.expect(200);
}

async fn furnished() -> Api {
    let api = Api::furnished().await;
    let order = doc::with(doc::work_order(), "/limits/current", json!("234 to 286 A"));
    revise(&api, &format!("/v1/work-orders/{}", doc::WORK_ORDER), &order).await;
    api
}

fn measured(value: f64, accuracy: &Value) -> Value {
    json!({ "value": value, "unit": "A", "origin": "measured", "accuracy": accuracy })
}

#[tokio::test]
async fn the_probability_stands_in_the_finding_and_the_rule_in_the_answer() {
    let api = furnished().await;
    let (found, answer) = asked(&api, measured(READ.0, &json!({ "absolute": READ.1 }))).await;
    assert_eq!(found["outcome"], "edge-inside", "{found:#}");
    assert_eq!(found["conformity"]["probability"], 0.923);
    assert_eq!(found["conformity"]["model"], "expanded-uncertainty");
    assert_eq!(found["conformity"]["provable"], true);
    assert_eq!(found["conformity"]["formula"], "conformity-normal");
    assert!(found["conformity"]["source"].as_str().unwrap().contains("JCGM 106:2012"));
    assert_eq!(answer["rulebook"]["decision_rule"], "simple-acceptance");
    assert_eq!(answer["rulebook"]["guard_factor"], 1.0);
    // The same figure as a largest error: 12 of 14 A (own arithmetic).
    let largest = json!({ "absolute": READ.1, "meaning": "maximum-permissible-error" });
    let (found, _) = asked(&api, measured(READ.0, &largest)).await;
    assert_eq!(found["conformity"]["probability"], 0.857);
    assert_eq!(found["conformity"]["model"], "maximum-permissible-error");
    // At a coverage factor of 3 the same 10.5 A are 7 A at 2.
    let wide = json!({ "absolute": "10.5 A", "coverage_factor": 3 });
    let (found, _) = asked(&api, measured(READ.0, &wide)).await;
    assert_eq!(found["conformity"]["probability"], 0.923);
    // Nothing measured, nothing to say.
    let (found, _) = asked(&api, json!("281 A")).await;
    assert_eq!(found["conformity"], Value::Null);
}

#[tokio::test]
async fn the_guard_factor_is_the_organisations() {
    let api = furnished().await;
    let reading = || measured(READ.0, &json!({ "absolute": READ.1 }));
    // 0.7 times 7 A are 4.9 A, and 281 A lies 5 A inside (own arithmetic).
    settle(&api, "/guard_factor", json!(0.7)).await;
    let (found, answer) = asked(&api, reading()).await;
    assert_eq!(found["outcome"], "inside", "{found:#}");
    assert_eq!(answer["rulebook"]["guard_factor"], 0.7);
    settle(&api, "/guard_factor", json!(0.72)).await;
    assert_eq!(asked(&api, reading()).await.0["outcome"], "edge-inside");
    let read = api.get(api.shop.admin(), "/v1/organisation").await;
    let settings = read.expect(200);
    for wrong in [json!(0), json!(-1), json!(3.5), json!("1")] {
        let wrong = doc::with(settings["settings"].clone(), "/guard_factor", wrong);
        let call = api.call(Method::PUT, "/v1/organisation").key(api.shop.admin());
        let answer = call.if_match(read.etag()).json(&wrong).send().await;
        answer.problem(422, "invalid-fields");
        assert_eq!(answer.pointers(), ["/guard_factor"]);
    }
}

#[tokio::test]
async fn an_instrument_that_can_prove_nothing_is_named() {
    let api = furnished().await;
    let (found, _) = asked(&api, measured(260.0, &json!({ "of_reading": "12 %" }))).await;
    assert_eq!(found["outcome"], "edge-inside");
    assert_eq!(found["conformity"]["provable"], false);
    assert!(found["reason"].as_str().unwrap().contains("cannot prove conformity"), "{found:#}");
    assert!(found["remedy"].as_str().unwrap().contains("26 A"), "{found:#}");
}

/// The station with one instrument for the current.
fn station_with(accuracy: &Value, due: &str) -> Value {
    let instruments = json!([{ "code": "A-1", "measures": "current", "accuracy": accuracy,
        "calibration_due": due }]);
    doc::with(doc::station(), "/instruments", instruments)
}

/// What it reads is read, but how well nobody knows any more.
#[tokio::test]
async fn an_instrument_past_its_calibration_is_none() {
    let api = furnished().await;
    let read = json!({ "value": 237, "unit": "A", "origin": "measured", "instrument": "A-1" });
    let place = format!("/v1/stations/{}", doc::STATION);
    for (due, unknown) in [("2999-12-31", false), ("2020-01-01", true)] {
        revise(&api, &place, &station_with(&json!({ "absolute": "1 A" }), due)).await;
        let (found, _) = asked(&api, read.clone()).await;
        assert_eq!(found["outcome"], "inside", "{found:#}");
        assert_eq!(found["accuracy_unknown"] == true, unknown, "{found:#}");
        let remedy = found["remedy"].as_str().unwrap_or_default();
        let expired = "The instrument named for the current is out of calibration: it held until 2020-01-01, ";
        assert_eq!(remedy.starts_with(expired), unknown, "{found:#}");
    }
    settle(&api, "/decision_rule", json!("guarded-acceptance")).await;
    let (_, answer) = asked(&api, read).await;
    assert_eq!(answer["verdict"], "undetermined", "{answer:#}");
}

/// Whatever is said beside it, an instrument past its calibration proves nothing, one that no record knows neither; of
/// two accuracies the worse counts, and none is known of a reading beyond the scale.
#[tokio::test]
async fn an_accuracy_beside_an_instrument_does_not_mend_it() {
    let api = furnished().await;
    let place = format!("/v1/stations/{}", doc::STATION);
    let read = |instrument: &str, accuracy: Value| {
        let read = measured(282.0, &accuracy);
        doc::with(read, "/instrument", json!(instrument))
    };
    let fine = || json!({ "absolute": "1 A" });
    let of_scale = json!({ "of_full_scale": "1 %", "full_scale": "500 A" });
    revise(&api, &place, &station_with(&of_scale, "2999-12-31")).await;
    let outcome = async |value| asked(&api, value).await.0["outcome"].clone();
    // 282 A of 286 A: 1 A of error leaves it inside, 5 A do not.
    assert_eq!(outcome(measured(282.0, &fine())).await, "inside");
    assert_eq!(outcome(read("A-1", fine())).await, "edge-inside");
    assert_eq!(outcome(read("A-1", json!({ "absolute": "6 A" }))).await, "edge-inside");
    let unknown = async |value| asked(&api, value).await.0["accuracy_unknown"] == true;
    assert!(!unknown(read("A-1", fine())).await);
    assert!(unknown(read("A-9", fine())).await);
    let short = json!({ "of_full_scale": "1 %", "full_scale": "250 A" });
    revise(&api, &place, &station_with(&short, "2999-12-31")).await;
    assert!(unknown(read("A-1", fine())).await);
    revise(&api, &place, &station_with(&of_scale, "2020-01-01")).await;
    assert!(unknown(read("A-1", fine())).await);
    let setup = doc::with(doc::setup(), "/settings/current", measured(282.0, &short));
    let refused = api.post(api.shop.reader(), "/v1/checks", &setup).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/settings/current/accuracy"]);
}

/// A share of the reading could be that of any quantity: an ammeter proves nothing of volts, in checks and windows.
#[tokio::test]
async fn an_instrument_of_another_quantity_is_none() {
    let api = Api::furnished().await;
    let place = format!("/v1/stations/{}", doc::STATION);
    revise(&api, &place, &station_with(&json!({ "of_reading": "2.5 %" }), "2999-12-31")).await;
    settle(&api, "/decision_rule", json!("guarded-acceptance")).await;
    let read = json!({ "value": 26, "unit": "V", "origin": "measured", "instrument": "A-1" });
    let setup = doc::with(doc::setup(), "/settings/voltage", read);
    let answer = api.post(api.shop.reader(), "/v1/checks", &setup).await.expect(200);
    assert_eq!(answer["verdict"], "undetermined", "{answer:#}");
    let guard = json!({ "guards": [{ "variable": "voltage", "instrument": "A-1" }] });
    let asked = doc::with(doc::setup(), "/ask", guard);
    let refused = api.post(api.shop.reader(), "/v1/windows", &asked).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/ask/guards/0/instrument"]);
}

#[tokio::test]
async fn a_stations_instrument_says_what_its_figure_means() {
    let api = furnished().await;
    let instrument = |accuracy: Value| station_with(&accuracy, "2999-12-31");
    let place = format!("/v1/stations/{}", doc::STATION);
    let wrong = [
        json!({ "absolute": "7 A", "meaning": "typical" }),
        json!({ "absolute": "7 A", "coverage_factor": 9 }),
        json!({ "absolute": "7 V" }),
    ];
    for accuracy in wrong {
        let body = instrument(accuracy.clone());
        let body = doc::with(body, "/code", json!("ST-7"));
        let answer = api.post(api.shop.author(), "/v1/stations", &body).await;
        answer.problem(422, "invalid-fields");
        assert_eq!(answer.pointers(), ["/instruments/0/accuracy"], "{accuracy}");
    }
    let negative = doc::with(instrument(json!({ "absolute": "-7 A" })), "/code", json!("ST-7"));
    let answer = api.post(api.shop.author(), "/v1/stations", &negative).await;
    let problem = answer.problem(422, "invalid-fields");
    let detail = problem["errors"][0]["detail"].as_str().unwrap();
    assert_eq!(detail, "absolute: \"-7 A\" is negative; a right form is \"2.5 A\"");
    let largest = json!({ "absolute": "7 A", "meaning": "maximum-permissible-error" });
    revise(&api, &place, &instrument(largest)).await;
    let read = json!({ "value": 281, "unit": "A", "origin": "measured", "instrument": "A-1" });
    let (found, _) = asked(&api, read).await;
    assert_eq!(found["conformity"]["model"], "maximum-permissible-error");
    assert_eq!(found["conformity"]["probability"], 0.857);
}
