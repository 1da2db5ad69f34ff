//! What a record qualifies, and which records support a job, over HTTP.
//!
//! Limits are those of ISO 15614-1:2017+A1:2019, level 2, from the record of `documents::qualification`:
//! butt of 12 mm in several runs, 1.296 kJ/mm, preheat 80 °C, interpass 110 to 180 °C, 18 % CO2. Each
//! expected number stands beside its clause; the arithmetic is our own.

use reqwest::Method;
use serde_json::{Value, json};

use crate::{
    behind::etag,
    support::{Answer, Api, documents},
};

const RANGE: &str = "/v1/qualifications/PQR-1/range";
const SUPPORT: &str = "/v1/qualifications/support";

/// A job that asks for both, with what a person has to state.
fn strict() -> Value {
    json!({ "job": {
        "impact_required": true, "impact_temperature": "-20 °C", "hardness_required": true,
        "stated": [
                    { "rule": "preheat-rule", "holds": true },
                    { "rule": "extent-of-tests", "holds": true },
                ],
    } })
}

async fn range(api: &Api, body: &Value) -> Value {
    api.post(api.shop.reader(), RANGE, body).await.expect(200)
}

/// All limits of the first box.
fn limits(answer: &Value) -> Vec<Value> {
    let own = &answer["boxes"][0];
    let mut all = own["limits"].as_array().unwrap().clone();
    for run in own["runs"].as_array().unwrap().iter().flat_map(|group| group.as_array().unwrap()) {
        all.extend(run["limits"].as_array().unwrap().clone());
    }
    all
}

fn limit(answer: &Value, rule: &str) -> Value {
    let all = limits(answer);
    let found = all.iter().find(|limit| limit["rule"] == rule);
    found.unwrap_or_else(|| panic!("{rule}: {answer:#}")).clone()
}

/// Both ends of the first interval in the units of the answer.
fn ends(limit: &Value) -> (Value, Value) {
    let end = |name: &str| limit["intervals"][0][name]["value"].clone();
    (end("min"), end("max"))
}

#[tokio::test]
async fn every_limit_has_clause_working_class_and_confidence() {
    let api = Api::furnished().await;
    let answer = range(&api, &strict()).await;
    assert_eq!((&answer["record"], &answer["revision"]), (&json!("PQR-1"), &json!(1)));
    assert_eq!((&answer["state"], &answer["units"]), (&json!("signed"), &json!("metric")));
    assert_eq!(answer["pack"]["key"], documents::RULE_PACK);
    assert!(answer["signature"]["name"].is_string(), "{answer:#}");
    // Table 7, row 3 < t <= 12: 3 mm to 2 t.
    let thickness = limit(&answer, "parent-thickness-multi-run");
    assert_eq!(ends(&thickness), (json!(3), json!(24)));
    assert_eq!(thickness["clause"], "8.3.2, Table 7");
    assert_eq!(thickness["class"], "essential");
    let working = thickness["working"].as_str().unwrap();
    assert!(working.contains("12 mm") && working.contains("3 mm to 24 mm"), "{working}");
    // Table 7: deposit at most 2 s. 8.4.7: 25 % up for impact, 25 % down for hardness. 8.4.8: 50 °C below the
    // preheat. 8.4.9: 50 °C above the highest interpass temperature.
    assert_eq!(ends(&limit(&answer, "deposit-thickness")).1, 24);
    assert_eq!(ends(&limit(&answer, "energy-upper")).1, 1.62);
    assert_eq!(ends(&limit(&answer, "energy-lower")).0, 0.972);
    assert_eq!(ends(&limit(&answer, "preheat")).0, 30);
    assert_eq!(ends(&limit(&answer, "interpass")).1, 230);
    // 8.5.2.1: 20 % of the stated CO2, 14.4 to 21.6 %.
    let gas = limit(&answer, "shielding-gas-mig-mag");
    assert!(gas["allowed"].as_str().unwrap().contains("CO2 14.4 to 21.6 %"), "{gas}");
    for limit in limits(&answer) {
        for member in ["rule", "clause", "variable", "class", "confidence", "allowed", "working"] {
            assert!(
                limit[member].as_str().is_some_and(|text| !text.is_empty()),
                "{member}: {limit}"
            );
        }
    }
    assert_eq!(answer["limits"], limits(&answer).len());
    assert!(!answer["not_covered"].as_array().unwrap().is_empty());
}

#[tokio::test]
async fn what_nobody_states_is_named_and_not_judged() {
    let api = Api::furnished().await;
    let answer = range(&api, &json!({})).await;
    let upper = limit(&answer, "energy-upper");
    assert_eq!(upper["only_if"][0]["whose"], "the job", "{upper}");
    let statement = limit(&answer, "preheat-rule");
    assert!(statement["not_judged"]["fact"].is_string(), "{statement}");
    assert!(answer["missing"].as_array().unwrap().contains(&upper["only_if"][0]), "{answer:#}");
    // Not required: the limits of impact and hardness fall away.
    let lenient =
        range(&api, &json!({ "job": { "impact_required": false, "hardness_required": false } }))
            .await;
    let rules: Vec<_> = limits(&lenient).iter().map(|limit| limit["rule"].clone()).collect();
    assert!(!rules.contains(&json!("energy-upper")) && !rules.contains(&json!("energy-lower")));
    // A record that does not say its preheat gives no limit of it.
    let path = "/v1/qualifications/PQR-1";
    let mut silent = documents::qualification();
    for run in 0..3 {
        silent = documents::with(silent, &format!("/pieces/0/runs/{run}/preheat"), Value::Null);
    }
    let now = etag(&api, path).await;
    let path = format!("{path}?reason=The%20preheat%20was%20of%20another%20test");
    api.put(api.shop.author(), &path, &now, &silent).await.expect(200);
    let answer = range(&api, &strict()).await;
    assert_eq!((&answer["state"], &answer["revision"]), (&json!("draft"), &json!(2)));
    assert_eq!(answer.get("signature"), None);
    let preheat = limit(&answer, "preheat");
    assert_eq!(preheat["not_judged"]["whose"], "the record", "{preheat}");
    assert_eq!(preheat.get("intervals"), None);
    let first =
        api.post(api.shop.reader(), &format!("{RANGE}?revision=1"), &strict()).await.expect(200);
    assert_eq!(ends(&limit(&first, "preheat")).0, 30, "the signed revision says it still");
    let none = api.post(api.shop.reader(), &format!("{RANGE}?revision=7"), &strict()).await;
    none.problem(404, "not-found");
}

/// A record keeps the rules of its own edition and level.
#[tokio::test]
async fn rules_of_another_edition_or_level_do_not_apply() {
    let api = Api::furnished().await;
    let ask = async |body: Value| api.post(api.shop.reader(), RANGE, &body).await;
    let refused = ask(json!({ "pack": "aws-d1.1-2015-tested" })).await;
    let problem = refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/pack"]);
    let detail = problem["errors"][0]["detail"].as_str().unwrap();
    assert!(
        detail.contains("ISO 15614-1:2017+A1:2019") && detail.contains("AWS D1.1:2015"),
        "{detail}"
    );
    let unknown = ask(json!({ "pack": "iso-15614-1-2004" })).await;
    assert!(
        unknown.problem(422, "invalid-fields")["errors"][0]["detail"]
            .as_str()
            .unwrap()
            .contains(documents::RULE_PACK)
    );
    let unasked = json!({ "job": { "stated": [{ "rule": "no-such-rule", "holds": true }] } });
    assert_eq!(ask(unasked).await.pointers(), ["/job/stated/0/rule"]);
    for (place, value) in [("/code/edition", json!("2004")), ("/level", Value::Null)] {
        let other = documents::with(documents::qualification(), "/number", json!("PQR-9"));
        let other = documents::with(other, place, value);
        let api = Api::start().await;
        api.shop.write(&api, "qualifications", &other).await;
        let path = "/v1/qualifications/PQR-9/range";
        let refused = api.post(api.shop.reader(), path, &json!({})).await;
        let problem = refused.problem(409, "conflict");
        assert!(problem["detail"].as_str().unwrap().contains("no rule pack"), "{problem}");
    }
    // A test of level 2 serves level 1 as well, not the reverse (introduction of the standard).
    let level_1 = "iso-15614-1-2017-level-1";
    let answer = ask(json!({ "pack": level_1 })).await.expect(200);
    assert_eq!(answer["pack"]["level"], "1");
    let lower = documents::with(documents::qualification(), "/number", json!("PQR-9"));
    let lower = documents::with(lower, "/level", json!("1"));
    api.shop.write(&api, "qualifications", &lower).await;
    let path = "/v1/qualifications/PQR-9/range";
    let own = api.post(api.shop.reader(), path, &json!({})).await.expect(200);
    assert_eq!(own["pack"]["key"], level_1);
    let wanted = json!({ "pack": documents::RULE_PACK });
    assert_eq!(api.post(api.shop.reader(), path, &wanted).await.pointers(), ["/pack"]);
}

/// Both columns of AWS D1.1 are printed; a record is judged by that of its own units.
#[tokio::test]
async fn a_record_in_us_units_is_judged_by_the_us_column() {
    let api = Api::start().await;
    let record = us_record();
    api.shop.write(&api, "qualifications", &record).await;
    let path = "/v1/qualifications/PQR-31/range";
    let answer = api.post(api.shop.reader(), path, &json!({})).await.expect(200);
    assert_eq!((&answer["units"], &answer["pack"]["edition"]), (&json!("us"), &json!("2015")));
    assert_eq!(answer["signature"], Value::Null, "nobody signed it");
    // Own arithmetic on the bands of Table 4.5: 10 % of 240 A and of 300 in/min, 7 % of 26 V.
    for (variable, low, high, unit) in [
        ("current", 216.0, 264.0, "A"),
        ("voltage", 24.18, 27.82, "V"),
        ("wire-feed", 270.0, 330.0, "in/min"),
    ] {
        let all = limits(&answer);
        let found = all.iter().find(|limit| limit["variable"] == variable);
        let found = found.unwrap_or_else(|| panic!("{variable}: {answer:#}"));
        let end = |name: &str| found["intervals"][0][name]["value"].as_f64().unwrap();
        assert!((end("min") - low).abs() < 1e-9 && (end("max") - high).abs() < 1e-9, "{found}");
        assert_eq!(found["intervals"][0]["min"]["unit"], unit, "{found}");
    }
    for limit in limits(&answer) {
        let text = limit["working"].as_str().unwrap();
        assert!(!text.contains(" mm") && !text.contains("°C"), "no metric figure: {text}");
    }
}

fn us_record() -> Value {
    let part = json!({ "form": "plate", "thickness": "3/4 in", "metal": { "d11_group": "II" } });
    let measured =
        |number: f64, unit: &str| json!({ "value": number, "unit": unit, "instrument": "M-1" });
    json!({
        "number": "PQR-31",
        "code": { "name": "AWS D1.1", "edition": "2015" },
        "units": "us",
        "pieces": [{
            "mark": "1",
            "parts": [part, part],
            "joint": { "weld": "butt", "penetration": "full", "sides": "one", "backing": "permanent" },
            "position": "PF",
            "layering": "multi-run",
            "runs": [{
                "number": 1, "class": "fill", "process": "136", "mechanisation": "partly-mechanised",
                "progression": "up",
                "filler": { "designation": "AWS A5.20: E71T-1M", "diameter": "0.045 in" },
                "gases": { "shielding": { "Ar": "75 %", "CO2": "25 %" }, "flow": "40 ft3/h" },
                "electrodes": 1,
                "electrical": {
                    "polarity": "DCEP", "transfer": "spray",
                    "current": measured(240.0, "A"), "voltage": measured(26.0, "V"),
                    "wire_feed": measured(300.0, "in/min"),
                },
                "travel_speed": "10 in/min",
                "preheat": "70 °F", "interpass": "250 °F",
            }],
            "tests": [{ "kind": "radiographic", "outcome": "passed" }],
        }],
    })
}

async fn support(api: &Api, question: &Value) -> Answer {
    api.post(api.shop.reader(), SUPPORT, question).await
}

#[tokio::test]
async fn the_records_that_support_a_job_are_named() {
    let api = Api::furnished().await;
    let answer = support(&api, &documents::support_question()).await.expect(200);
    let position = &answer["positions"][0];
    assert_eq!(answer["ruling"], "qualified", "{:#}", position["nearest"]);
    assert_eq!((&answer["records"], &position["position"]), (&json!(1), &json!("PF")));
    let by = &position["supported_by"][0];
    assert_eq!(by["pieces"], json!([{ "record": "PQR-1", "piece": "A" }]));
    assert_eq!((&by["lacks"], &by["not_judged"]), (&json!([]), &json!([])));
    assert_eq!(position.get("nearest"), None);
    let inside = position["inside"].as_array().unwrap();
    let thickness = inside.iter().find(|one| one["rule"] == "parent-thickness-multi-run").unwrap();
    assert_eq!(thickness["standing"], "inside");
    assert_eq!(thickness["given"], "10 mm to 20 mm");
}

#[tokio::test]
async fn the_nearest_record_says_what_it_lacks_clause_by_clause() {
    let api = Api::furnished().await;
    let question = documents::support_question();
    // Table 7: 24 mm is the thickest; 8.4.1: the process is that of the test.
    let thick =
        documents::with(question.clone(), "/proposal/parts/0/thickness", json!("10 to 24.1 mm"));
    let thick = documents::with(thick, "/proposal/parts/1/thickness", json!("10 to 24.1 mm"));
    let answer = support(&api, &thick).await.expect(200);
    assert_eq!(answer["ruling"], "needs-a-new-qualification");
    let nearest = &answer["positions"][0]["nearest"];
    let lacks = nearest["lacks"].as_array().unwrap();
    assert_eq!(lacks.len(), 1, "{lacks:#?}");
    assert_eq!(
        (&lacks[0]["clause"], &lacks[0]["given"]),
        (&json!("8.3.2, Table 7"), &json!("10 mm to 24.1 mm"))
    );
    assert!(lacks[0]["allowed"].as_str().unwrap().contains("3 mm to 24 mm"), "{lacks:#?}");
    assert_eq!(answer["positions"][0]["supported_by"], json!([]));

    let edge =
        documents::with(question.clone(), "/proposal/parts/0/thickness", json!("3 to 24 mm"));
    let edge = documents::with(edge, "/proposal/parts/1/thickness", json!("3 to 24 mm"));
    assert_eq!(
        support(&api, &edge).await.expect(200)["ruling"],
        "qualified",
        "the ends belong to it"
    );

    let other = documents::with(question.clone(), "/proposal/runs/0/process", json!("135"));
    let answer = support(&api, &other).await.expect(200);
    assert_eq!(answer["ruling"], "needs-a-new-qualification");

    // Nobody says whether impact tests are required: nothing is qualified by silence.
    let silent = documents::with(question, "/job", json!({}));
    let answer = support(&api, &silent).await.expect(200);
    assert_eq!(answer["ruling"], "not-judged", "{answer:#}");
    let open = answer["positions"][0]["nearest"]["not_judged"].as_array().unwrap();
    assert!(open.iter().any(|one| one["missing"]["whose"] == "the job"), "{open:#?}");
}

/// Only what a person signed supports anything, and as it was signed.
#[tokio::test]
async fn drafts_withdrawn_records_and_unsigned_corrections_support_nothing() {
    let api = Api::furnished().await;
    let question = documents::with(documents::support_question(), "/records", Value::Null);
    let draft = documents::with(documents::qualification(), "/number", json!("PQR-2"));
    api.shop.write(&api, "qualifications", &draft).await;
    let answer = support(&api, &question).await.expect(200);
    assert_eq!(answer["records"], 1);
    assert_eq!(answer["unsigned"], json!([{ "record": "PQR-2", "ruling": "qualified" }]));
    let path = "/v1/qualifications/PQR-1";
    let thin =
        documents::with(documents::qualification(), "/pieces/0/parts/0/thickness", json!("5 mm"));
    let thin = documents::with(thin, "/pieces/0/parts/1/thickness", json!("5 mm"));
    let now = etag(&api, path).await;
    let correction = format!("{path}?reason=Thickness%20misread");
    api.put(api.shop.author(), &correction, &now, &thin).await.expect(200);
    assert_eq!(
        support(&api, &question).await.expect(200)["ruling"],
        "qualified",
        "until it is signed"
    );
    api.shop.sign_qualification(&api, "PQR-1").await;
    let answer = support(&api, &question).await.expect(200);
    // Table 7: 5 mm qualifies to 10 mm.
    assert_eq!(answer["ruling"], "needs-a-new-qualification");
    api.withdraw(api.shop.approver(), &format!("{path}/withdrawal"), &etag(&api, path).await)
        .await
        .expect(200);
    let answer = support(&api, &question).await.expect(200);
    assert_eq!(
        (&answer["records"], &answer["ruling"]),
        (&json!(0), &json!("needs-a-new-qualification"))
    );
    let named = documents::support_question();
    assert_eq!(support(&api, &named).await.pointers(), ["/records/0"], "it is not in use");
}

#[tokio::test]
async fn a_record_of_too_low_a_level_is_passed_over_with_the_reason() {
    let api = Api::furnished().await;
    let first = documents::with(documents::qualification(), "/number", json!("PQR-7"));
    let first = documents::with(first, "/level", json!("1"));
    api.shop.write(&api, "qualifications", &first).await;
    api.shop.sign_qualification(&api, "PQR-7").await;
    let question = documents::with(documents::support_question(), "/records", Value::Null);
    let answer = support(&api, &question).await.expect(200);
    assert_eq!(answer["passed_over"][0]["record"], "PQR-7");
    let reason = answer["passed_over"][0]["reason"].as_str().unwrap();
    assert!(reason.contains("level 1") && reason.contains("level 2"), "{reason}");
}

#[tokio::test]
async fn a_proposal_that_cannot_be_read_names_its_fields() {
    let api = Api::furnished().await;
    let question = documents::support_question();
    for (place, value, named) in [
        ("/pack", json!("d1.1"), "/pack"),
        ("/proposal/runs", json!([]), "/proposal/runs"),
        ("/proposal/runs/0/heat_input", json!("1 kJ/mm"), "/proposal/runs/0/heat_input"),
        ("/proposal/parts/0/thickness", json!("20 to 10 mm"), "/proposal/parts/0/thickness"),
        ("/proposal/runs/0/process", json!("FCAW"), "/proposal/runs/0/process"),
        // P-No. 8 of ASME IX is austenitic, group 1.2 of ISO/TR 15608 ferritic (from memory).
        (
            "/proposal/parts/0/p_number",
            json!({ "number": "8" }),
            "/proposal/parts/0/p_number/number",
        ),
        ("/job/stated/0/rule", json!("rule of thumb"), "/job/stated/0/rule"),
        ("/records/0", json!("PQR-404"), "/records/0"),
    ] {
        let refused = support(&api, &documents::with(question.clone(), place, value)).await;
        refused.problem(422, "invalid-fields");
        assert_eq!(refused.pointers(), [named], "{place}");
    }
    let call = api.call(Method::POST, SUPPORT).key(api.stranger.reader());
    call.json(&question).send().await.problem(422, "invalid-fields");
}
