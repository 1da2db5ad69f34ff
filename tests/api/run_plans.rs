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

/// A released procedure of butt welds with wide limits.
async fn release(api: &Api, number: &str, wire_feed: &str, classes: &[&str]) {
    let butt = doc::with(doc::procedure(), "/number", json!(number));
    let butt = doc::with(butt, "/joints", json!(["butt"]));
    let butt = doc::with(butt, "/thickness", json!("6 to 30 mm"));
    let butt = doc::with(butt, "/runs/0/classes", json!(classes));
    let butt = doc::with(butt, "/runs/0/limits/wire_feed", json!(wire_feed));
    let butt = doc::with(butt, "/runs/0/limits/heat_input", json!("0.5 to 2 kJ/mm"));
    let butt = doc::with(butt, "/runs/0/limits/arc_energy", json!("0.5 to 2.5 kJ/mm"));
    let butt = doc::with(butt, "/runs/0/limits/travel_speed", json!("200 to 700 mm/min"));
    api.shop.write(api, "procedures", &butt).await;
    api.shop.release(api, number).await;
}

/// One metre of a butt weld of parts as thick as the joint.
fn butt(joint: &Value) -> Value {
    let members = joint.as_object().unwrap();
    let thickness = members.values().find_map(|form| form.get("thickness")).unwrap();
    let body = json!({
        "setup": doc::with(setup(), "/work_order", Value::Null),
        "joint": joint,
        "length": "1 m",
        "limits": { "root_layer": "4 mm", "fill_layer": "3 mm" }
    });
    let body = doc::with(body, "/setup/job/joint", json!("butt"));
    let body = doc::with(body, "/setup/job/base_metals/0/thickness", thickness.clone());
    doc::with(body, "/setup/job/base_metals/1/thickness", thickness.clone())
}

/// A butt weld takes a root, fill runs and a cap of a procedure that has them, and ranks by time.
#[tokio::test]
async fn procedures_are_ranked_by_time_and_a_groove_has_its_classes() {
    let api = Api::furnished().await;
    release(&api, "WPS-10", "7 to 7.5 m/min", &["root", "fill", "cap"]).await;
    release(&api, "WPS-20", "7 to 9 m/min", &["root", "fill", "cap"]).await;
    let body = butt(&json!({
        "vee": { "thickness": "12 mm", "gap": "3 mm", "face": "1 mm", "angle": "60 deg" },
        "cap": { "height": "1 mm", "overlap": "1 mm" }
    }));
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

fn of_side(plan: &Value, side: &str) -> Vec<Value> {
    let runs = plan["runs"].as_array().unwrap().iter();
    runs.filter(|run| run["side"] == side).cloned().collect()
}

fn sum(runs: &[Value], of: &dyn Fn(&Value) -> f64) -> f64 {
    runs.iter().map(|run| run["count"].as_f64().unwrap() * of(run)).sum()
}

/// Double V, 14 and 9 mm deep under 60 degrees in 25 mm, gap 2 mm, both sides capped 2 mm over 1 mm past each edge, and
/// a gouge 3 mm deep and 8 mm wide. Own arithmetic: near 14² tan 30 + 2 * 16 + 26.89 = 172.0 mm², 16 mm deep; far
/// 9² tan 30 + 2 * 9 + 19.19 + 16 = 99.96 mm², 12 mm deep. Layers: near 1 + (16 - 4) / 3 = 5, far 12 / 3 = 4.
fn double_vee() -> Value {
    let body = butt(&json!({
        "double_vee": {
            "thickness": "25 mm", "gap": "2 mm",
            "near": { "depth": "14 mm", "angle": "60 deg" },
            "far": { "depth": "9 mm", "angle": "60 deg" }
        },
        "cap": { "height": "2 mm", "overlap": "1 mm" },
        "far_cap": { "height": "2 mm", "overlap": "1 mm" },
        "gouge": { "depth": "3 mm", "width": "8 mm" }
    }));
    doc::with(body, "/operating_factor", json!("25 %"))
}

#[tokio::test]
async fn a_joint_prepared_on_both_sides_is_planned_for_each() {
    let api = Api::furnished().await;
    release(&api, "WPS-30", "7 to 9 m/min", &["single", "root", "hot", "fill", "cap"]).await;
    let body = double_vee();
    let answer = planned(&api, "metric", &body).await;
    let plan = &answer["plans"][0];
    assert_eq!(plan["procedure"], "WPS-30", "{answer:#}");
    let why = plan["not_in_one_run"].as_str().unwrap();
    let both = "The joint cannot be had in one run: it is filled from both sides. Instead: ";
    assert!(why.starts_with(both), "{why}");
    for kind in ["fastest", "fewest_runs"] {
        let Some(plan) = plan.get(kind) else { continue };
        let (near, far) = (of_side(plan, "near"), of_side(plan, "far"));
        let in_order = [near.clone(), far.clone()].concat();
        assert_eq!(plan["runs"], json!(in_order), "near side first, and no run without a side");
        let mut count = 0;
        for (runs, area, layers) in [(&near, 172.0, 5), (&far, 99.96, 4)] {
            let laid = sum(runs, &|run| run["area"]["min"].as_f64().unwrap());
            assert!(laid >= area * 0.999, "{laid} of {area}: {runs:?}");
            let of_side: u64 = runs.iter().map(|run| run["count"].as_u64().unwrap()).sum();
            assert!(of_side >= layers, "{runs:?}");
            assert_eq!(runs.last().unwrap()["class"], "cap");
            count += of_side;
        }
        assert_eq!((&near[0]["class"], &near[1]["class"]), (&json!("root"), &json!("hot")));
        assert!(far.iter().all(|run| ["fill", "cap"].contains(&run["class"].as_str().unwrap())));
        assert_eq!(plan["count"], json!(count));
        let time = sum(&in_order, &|run| number(&run["arc_time"]));
        assert!((time - number(&plan["arc_time"])).abs() <= 2e-3 * time, "{plan:#}");
        assert!((number(&plan["elapsed"]) * 0.25 - time).abs() <= 2e-3 * time, "{plan:#}");
        runs_pass(&api, &body, plan).await;
    }
}

#[tokio::test]
async fn each_side_shows_its_section_and_what_was_assumed() {
    let api = Api::furnished().await;
    release(&api, "WPS-30", "7 to 9 m/min", &["root", "fill", "cap"]).await;
    let answer = planned(&api, "metric", &double_vee()).await;
    let figures = answer["figures"]["figures"].as_array().unwrap();
    let figure = |name: &str| figures.iter().find(|figure| figure["name"] == name).unwrap();
    for (name, expected) in [
        ("cross-section", 272.0),
        ("near-side-section", 172.0),
        ("near-side-depth", 16.0),
        ("far-side-section", 99.96),
        ("far-side-depth", 12.0),
    ] {
        let value = number(&figure(name)["value"]);
        assert!((value - expected).abs() <= 5e-4 * expected, "{name}: {value}");
    }
    assert!(figure("far-side-section")["assumptions"].to_string().contains("gouged out"));
    assert!(figure("arc-time")["assumptions"].to_string().contains("position of the setup"));
    // Nothing tells that the root is sound where no gouge is given.
    let body = doc::with(double_vee(), "/joint/gouge", Value::Null);
    let left = planned(&api, "metric", &body).await;
    assert!(left["figures"].to_string().contains("whether the root must be gouged or ground"));
}

/// What is gouged out of the back of a joint of one side is laid from the back; all else stays on the one side, without
/// a word about sides. Own arithmetic: 2/3 * 9 * 4 = 24 mm², a root bead 2/3 * 6 * 1 = 4 mm² on top.
#[tokio::test]
async fn a_gouged_back_is_a_side_of_its_own() {
    let api = Api::furnished().await;
    release(&api, "WPS-30", "7 to 9 m/min", &["root", "fill", "cap"]).await;
    let open = butt(&json!({
        "vee": { "thickness": "12 mm", "gap": "3 mm", "face": "1 mm", "angle": "60 deg" },
        "root": { "width": "6 mm", "height": "1 mm" }
    }));
    let answer = planned(&api, "metric", &open).await;
    let runs = answer["plans"][0]["fastest"]["runs"].as_array().unwrap();
    assert!(runs.iter().all(|run| run.get("side").is_none()), "{answer:#}");
    assert!(!answer["figures"].to_string().contains("-side-section"), "{answer:#}");
    let gouged = doc::with(open, "/joint/gouge", json!({ "depth": "4 mm", "width": "9 mm" }));
    let answer = planned(&api, "metric", &gouged).await;
    let plan = &answer["plans"][0]["fastest"];
    assert_eq!(of_side(plan, "near")[0]["class"], "root");
    let far = of_side(plan, "far");
    assert_eq!(far.last().unwrap()["class"], "cap");
    // Fill layers of 3 mm in 4 mm are two.
    assert!(sum(&far, &|_| 1.0) >= 2.0, "{far:?}");
    assert!(sum(&far, &|run| run["area"]["min"].as_f64().unwrap()) >= 28.0 * 0.999, "{far:?}");
    runs_pass(&api, &gouged, plan).await;
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
    let refused = api.post(api.shop.reader(), "/v1/run-plans", &body).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(
        refused.pointers(),
        ["/ask/hand_spread/travel_speed", "/setup/job/joint", "/prequalified"]
    );
    for factor in ["0 %", "140 %"] {
        let body = doc::with(fillet("6 mm"), "/operating_factor", json!(factor));
        let refused = api.post(api.shop.reader(), "/v1/run-plans", &body).await;
        refused.problem(422, "invalid-fields");
        assert_eq!(refused.pointers(), ["/operating_factor"], "{factor}");
    }
    let through = json!({
        "vee": { "thickness": "12 mm", "gap": "3 mm", "face": "1 mm", "angle": "60 deg" },
        "gouge": { "depth": "13 mm", "width": "9 mm" }
    });
    let closed = json!({
        "square": { "thickness": "6 mm", "gap": "0 mm" },
        "gouge": { "depth": "3 mm", "width": "8 mm" }
    });
    for (joint, why) in [(through, "deeper than the plate"), (closed, "the near side")] {
        let refused = api.post(api.shop.reader(), "/v1/run-plans", &butt(&joint)).await;
        let problem = refused.problem(422, "invalid-fields");
        assert_eq!(refused.pointers(), ["/joint"]);
        assert!(problem.to_string().contains(why), "{problem}");
    }
    // What the setup says of the joint is not another joint.
    let body = doc::with(fillet("6 mm"), "/setup/job/leg", json!("5 mm"));
    let body = doc::with(body, "/setup/job/weld_length", json!("3 m"));
    let refused = api.post(api.shop.reader(), "/v1/run-plans", &body).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/setup/job/leg", "/setup/job/weld_length"]);
    // A throat of 3 mm is that of a leg of 4.24 mm (own arithmetic: 3 times the root of 2).
    let body = doc::with(fillet("6 mm"), "/setup/job/throat", json!("3 mm"));
    let refused = api.post(api.shop.reader(), "/v1/run-plans", &body).await;
    assert_eq!(refused.pointers(), ["/setup/job/throat"]);
    let body = doc::with(fillet("6 mm"), "/setup/job/leg", json!("6 mm"));
    let body = doc::with(body, "/setup/job/weld_length", json!("200 cm"));
    planned(&api, "metric", &body).await;
    let thick = json!({
        "vee": { "thickness": "40 mm", "gap": "3 mm", "face": "1 mm", "angle": "60 deg" }
    });
    let thin = doc::with(butt(&thick), "/setup/job/base_metals/0/thickness", json!("15 mm"));
    let thin = doc::with(thin, "/setup/job/base_metals/1/thickness", json!("15 mm"));
    let refused = api.post(api.shop.reader(), "/v1/run-plans", &thin).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/joint/vee/thickness", "/setup/job/base_metals"]);

    let body = doc::with(fillet("6 mm"), "/setup/station", json!("ST-404"));
    let refused = api.post(api.shop.reader(), "/v1/run-plans", &body).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/setup/station"]);
}

/// A position is read with the joint that is planned: `1G` is a groove's, and `H` on a fillet is PB (ISO 6947, from
/// memory), which the test's procedure allows.
#[tokio::test]
async fn a_position_is_one_of_the_joint_that_is_planned() {
    let api = Api::furnished().await;
    let square = json!({ "square": { "thickness": "12 mm", "gap": "2 mm" } });
    for (body, name, kind) in [(fillet("6 mm"), "1G", "fillet"), (butt(&square), "2F", "butt")] {
        let body = doc::with(body, "/setup/job/joint", Value::Null);
        let body = doc::with(body, "/setup/job/position", json!(name));
        let refused = api.post(api.shop.reader(), "/v1/run-plans", &body).await;
        let problem = refused.problem(422, "invalid-fields").to_string();
        assert_eq!(refused.pointers(), ["/setup/job/position"]);
        let why = format!("{name} does not name a position of a {kind} weld");
        assert!(problem.contains(&why), "{problem}");
    }
    let body = doc::with(fillet("6 mm"), "/setup/job/joint", Value::Null);
    let named = |name| doc::with(body.clone(), "/setup/job/position", json!(name));
    let iso = planned(&api, "metric", &named("PB")).await["plans"][0]["fastest"].clone();
    let us = planned(&api, "metric", &named("H")).await;
    assert_eq!(us["plans"][0]["obstacles"], json!([]), "{us:#}");
    assert_eq!(us["plans"][0]["fastest"], iso);
    assert!(iso.is_object());
}

/// A stick-out that the gun shows stands beside the one that is proposed; sent back, both would be checked.
#[tokio::test]
async fn what_the_settings_take_the_place_of_is_named() {
    let api = Api::furnished().await;
    let shown = doc::with(fillet("6 mm"), "/setup/settings/visible_stick_out", json!("8 mm"));
    let shown = doc::with(shown, "/setup/settings/tip_recess", json!("3 mm"));
    let answer = planned(&api, "metric", &shown).await;
    let notes = answer["plans"][0]["notes"].as_array().unwrap();
    assert_eq!(notes.len(), 1, "{notes:?}");
    assert!(notes[0].as_str().unwrap().contains("visible stick-out and tip recess:"), "{notes:?}");
    let none = planned(&api, "metric", &fillet("6 mm")).await;
    assert_eq!(none["plans"][0].get("notes"), None);
    // The leg of several runs is that of none of them.
    let several = doc::with(fillet("10 mm"), "/setup/job/leg", json!("10 mm"));
    let plan = planned(&api, "metric", &several).await["plans"][0].clone();
    assert!(plan["notes"].to_string().contains("of all runs together"), "{plan:#}");
    runs_pass(&api, &doc::with(several, "/setup/job/leg", Value::Null), &plan["fastest"]).await;
}
