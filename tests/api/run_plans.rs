//! Run plans over HTTP: they add up, each setting passes the check, and a bare refusal says how many runs do.

use serde_json::{Value, json};

use crate::support::{Api, documents as doc};

/// What is welded, without the settings of the arc.
fn setup() -> Value {
    let mut setup = doc::setup();
    let settings = setup["settings"].as_object_mut().unwrap();
    for dialled in ["current", "voltage", "wire_feed", "travel_speed", "electrical_stick_out"] {
        settings.shift_remove(dialled);
    }
    setup["job"].as_object_mut().unwrap().shift_remove("run_class");
    doc::with(setup, "/procedure", Value::Null)
}

/// A fillet; the hand is held steady, since the limits of the test's procedure are narrow.
fn fillet(leg: &str) -> Value {
    json!({
        "setup": setup(),
        "joint": { "fillet": { "leg": leg } },
        "length": "2 m",
        "operating_factor": "40 %",
        "ask": { "hand_spread": { "travel_speed": "0 %", "stick_out": "0 %" } }
    })
}

async fn planned(api: &Api, units: &str, body: &Value) -> Value {
    let path = format!("/v1/run-plans?units={units}");
    let answer = api.post(api.shop.reader(), &path, body).await.expect(200);
    assert_eq!(answer["stale"], false);
    answer
}

fn number(value: &Value) -> f64 {
    value["value"].as_f64().unwrap_or_else(|| panic!("{value}"))
}

/// Every run of a plan as a setup of its own, held to the check.
async fn runs_pass(api: &Api, body: &Value, plan: &Value) {
    for run in plan["runs"].as_array().unwrap() {
        let mut setup = doc::with(body["setup"].clone(), "/job/run_class", run["class"].clone());
        for setting in run["settings"].as_array().unwrap() {
            let pointer = setting["pointer"].as_str().unwrap();
            setup = doc::with(setup, pointer, setting["value"].clone());
        }
        let answer = api.post(api.shop.reader(), "/v1/checks", &setup).await.expect(200);
        assert_eq!(answer["verdict"], run["verdict"], "{run:#} {answer:#}");
        let allowed = ["allowed", "allowed-with-advice"];
        assert!(allowed.contains(&answer["verdict"].as_str().unwrap()), "{answer:#}");
    }
}

/// Own arithmetic: a flat fillet of leg z has z²/2: 18, 32 and 50 mm² for 6, 8 and 10 mm; 2 m of it at v mm/min
/// burn 120 000 / v seconds.
#[tokio::test]
async fn a_plan_adds_up_and_each_run_passes_the_check() {
    let api = Api::furnished().await;
    for units in ["metric", "us"] {
        for (leg, area) in [("5 mm", 12.5), ("6 mm", 18.0), ("8 mm", 32.0), ("10 mm", 50.0)] {
            let body = fillet(leg);
            let answer = planned(&api, units, &body).await;
            let plan = &answer["plans"][0];
            assert_eq!(plan["procedure"], "WPS-1", "{answer:#}");
            for kind in ["fastest", "fewest_runs"] {
                let Some(plan) = plan.get(kind) else { continue };
                let runs = plan["runs"].as_array().unwrap();
                let sum = |of: &dyn Fn(&Value) -> f64| -> f64 {
                    runs.iter().map(|run| run["count"].as_f64().unwrap() * of(run)).sum()
                };
                let unit = if units == "us" { 645.16 } else { 1.0 };
                let laid = sum(&|run| run["area"]["min"].as_f64().unwrap()) * unit;
                assert!(laid >= area * 0.999, "{leg}: {laid} {plan:#}");
                let time = sum(&|run| number(&run["arc_time"]));
                assert!((time - number(&plan["arc_time"])).abs() <= 2e-3 * time, "{plan:#}");
                assert!((number(&plan["elapsed"]) * 0.4 - time).abs() <= 2e-3 * time, "{plan:#}");
                runs_pass(&api, &body, plan).await;
                if units == "metric" {
                    for run in runs {
                        let speed = run["settings"].as_array().unwrap().iter();
                        let speed =
                            speed.clone().find(|s| s["variable"] == "travel-speed").unwrap();
                        let seconds = 120_000.0 / number(&speed["value"]);
                        assert!(
                            (number(&run["arc_time"]) - seconds).abs() <= 1e-3 * seconds,
                            "{run:#}"
                        );
                    }
                }
            }
            let best = &answer["best"];
            assert_eq!(best["arc_time"], plan["fastest"]["arc_time"], "{answer:#}");
            let figures = answer["figures"]["figures"].as_array().unwrap();
            let names: Vec<_> =
                figures.iter().map(|figure| figure["name"].as_str().unwrap()).collect();
            assert_eq!(names, ["cross-section", "arc-time"]);
        }
    }
}

#[tokio::test]
async fn a_leg_that_one_run_cannot_give_says_how_many_runs_do() {
    let api = Api::furnished().await;
    let answer = planned(&api, "metric", &fillet("10 mm")).await;
    let why = answer["plans"][0]["not_in_one_run"].as_str().unwrap();
    for part in ["10 mm leg in one run cannot be had: needs", "One run gives at most", "Instead: "]
    {
        assert!(why.contains(part), "{part}: {why}");
    }
    let limited = doc::with(fillet("8 mm"), "/limits", json!({ "single_run_fillet": "6 mm" }));
    let answer = planned(&api, "metric", &limited).await;
    let plan = &answer["plans"][0];
    let why = plan["not_in_one_run"].as_str().unwrap();
    assert!(
        why.starts_with("8 mm leg in one run cannot be had: one run may have at most 6 mm."),
        "{why}"
    );
    // A flat run of 6 mm has 18 mm² (own arithmetic).
    for run in plan["fastest"]["runs"].as_array().unwrap() {
        assert_eq!(run["class"], "fill");
        assert!(run["area"]["max"].as_f64().unwrap() <= 18.01, "{run:#}");
    }
    // AWS D1.1/D1.1M:2020, Table 5.1 (secondary): 10 mm horizontal in one run with wire.
    let coded = doc::with(fillet("11 mm"), "/prequalified", json!(true));
    let answer = planned(&api, "metric", &coded).await;
    let why = answer["plans"][0]["not_in_one_run"].as_str().unwrap();
    assert!(why.contains("one run may have at most 10 mm"), "{why}");
    // A small fillet needs no more than one.
    let small = planned(&api, "metric", &fillet("4 mm")).await;
    let plan = &small["plans"][0];
    assert_eq!(plan.get("not_in_one_run"), None, "{plan:#}");
    assert_eq!(plan["fastest"]["runs"][0]["class"], "single");
    assert!(plan["fastest"]["runs"][0]["leg"]["min"].as_f64().unwrap() >= 4.0, "{plan:#}");
}

/// A butt weld takes a root, fill runs and a cap of a procedure that has them, and ranks by time.
#[tokio::test]
async fn procedures_are_ranked_by_time_and_a_groove_has_its_classes() {
    let api = Api::furnished().await;
    let release = async |number: &str, speed: &str| {
        let butt = doc::with(doc::procedure(), "/number", json!(number));
        let butt = doc::with(butt, "/joints", json!(["butt"]));
        let butt = doc::with(butt, "/runs/0/classes", json!(["root", "fill", "cap"]));
        let butt = doc::with(butt, "/runs/0/limits/wire_feed", json!(speed));
        let butt = doc::with(butt, "/runs/0/limits/heat_input", json!("0.5 to 2 kJ/mm"));
        let butt = doc::with(butt, "/runs/0/limits/arc_energy", json!("0.5 to 2.5 kJ/mm"));
        let butt = doc::with(butt, "/runs/0/limits/travel_speed", json!("200 to 700 mm/min"));
        api.shop.write(&api, "procedures", &butt).await;
        api.shop.release(&api, number).await;
    };
    release("WPS-10", "7 to 7.5 m/min").await;
    release("WPS-20", "7 to 9 m/min").await;
    let body = json!({
        "setup": doc::with(setup(), "/work_order", Value::Null),
        "joint": {
            "vee": { "thickness": "12 mm", "gap": "3 mm", "face": "1 mm", "angle": "60 deg" },
            "cap": { "height": "1 mm", "overlap": "1 mm" }
        },
        "length": "1 m",
        "limits": { "root_layer": "4 mm", "fill_layer": "3 mm" }
    });
    let body = doc::with(body, "/setup/job/joint", json!("butt"));
    let answer = planned(&api, "metric", &body).await;
    let plans = answer["plans"].as_array().unwrap();
    let numbers: Vec<_> = plans.iter().map(|plan| plan["procedure"].as_str().unwrap()).collect();
    assert_eq!(numbers, ["WPS-20", "WPS-10"], "{answer:#}");
    assert!(number(&plans[0]["fastest"]["arc_time"]) < number(&plans[1]["fastest"]["arc_time"]));
    let runs = plans[0]["fastest"]["runs"].as_array().unwrap();
    assert_eq!(runs.first().unwrap()["class"], "root");
    assert_eq!(runs.last().unwrap()["class"], "cap");
    // 4 mm of root and layers of 3 mm in 12 mm: 1 + ceil(8/3) = 4 (own arithmetic).
    assert!(plans[0]["fastest"]["count"].as_u64().unwrap() >= 4, "{:#}", plans[0]);
    assert!(
        plans[0]["not_in_one_run"]
            .as_str()
            .unwrap()
            .contains("the root layer may have at most 4 mm")
    );
    for plan in plans {
        runs_pass(&api, &body, &plan["fastest"]).await;
    }
}

/// What stands in the way is named, and nothing is planned; what is not stated caps the verdict.
#[tokio::test]
async fn what_is_missing_or_wrong_is_no_plan() {
    let api = Api::furnished().await;
    let wrong = doc::with(fillet("6 mm"), "/setup/filler/gas", json!("C1"));
    let answer = planned(&api, "metric", &wrong).await;
    let plan = &answer["plans"][0];
    assert_eq!(plan.get("fastest"), None, "{plan:#}");
    assert!(plan["obstacles"].to_string().contains("\"gas\""), "{plan:#}");
    assert_eq!(answer.get("best"), None);

    let cold = doc::with(fillet("6 mm"), "/setup/settings/preheat", Value::Null);
    let answer = planned(&api, "metric", &cold).await;
    let plan = &answer["plans"][0]["fastest"];
    assert_eq!(plan["verdict"], "undetermined", "{plan:#}");
    assert!(plan["runs"][0]["unmet"].to_string().contains("reheat"), "{plan:#}");
    assert_eq!(answer.get("best"), None, "nothing that the check does not allow is the best");

    let overhead = doc::with(fillet("6 mm"), "/setup/job/position", json!("PE"));
    assert_eq!(planned(&api, "metric", &overhead).await["plans"], json!([]));
}

#[tokio::test]
async fn what_cannot_be_used_is_named() {
    let api = Api::furnished().await;
    let body = doc::with(fillet("6 mm"), "/setup/job/joint", json!("butt"));
    let body = doc::with(body, "/prequalified", json!(true));
    let body = doc::with(body, "/limits", json!({}));
    let body = doc::with(body, "/ask/hand_spread/travel_speed", json!("90 %"));
    let body = doc::with(body, "/operating_factor", json!("140 %"));
    let refused = api.post(api.shop.reader(), "/v1/run-plans", &body).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(
        refused.pointers(),
        ["/ask/hand_spread/travel_speed", "/setup/job/joint", "/prequalified", "/operating_factor"]
    );
    let body = doc::with(fillet("6 mm"), "/setup/station", json!("ST-404"));
    let refused = api.post(api.shop.reader(), "/v1/run-plans", &body).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/setup/station"]);
}
