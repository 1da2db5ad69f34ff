//! What may be set, over HTTP: the intersection of all limits, who binds each end, what stands in the way.

use serde_json::{Value, json};

use crate::support::{Api, documents as doc};

/// The job without settings that a kiosk can still choose.
fn job() -> Value {
    let setup = doc::with(doc::setup(), "/procedure", Value::Null);
    doc::with(setup, "/settings", json!({ "waveform": "not-controlled", "bead": "stringer" }))
}

async fn offers(api: &Api, units: &str, job: &Value) -> Vec<Value> {
    let path = format!("/v1/windows?units={units}");
    let answer = api.post(api.shop.reader(), &path, job).await.expect(200);
    assert!(answer["caution"].as_str().unwrap().contains("does not replace"));
    assert_eq!(answer["stale"], false);
    answer["offers"].as_array().unwrap().clone()
}

fn window<'a>(offer: &'a Value, variable: &str) -> &'a Value {
    let windows = offer["windows"].as_array().unwrap();
    windows.iter().find(|one| one["variable"] == variable).unwrap()
}

#[tokio::test]
async fn each_end_names_its_owner() {
    let api = Api::furnished().await;
    let offers = offers(&api, "metric", &job()).await;
    assert_eq!(offers.len(), 1);
    let offer = &offers[0];
    assert_eq!(offer["procedure"], doc::PROCEDURE);
    assert_eq!(offer["obstacles"], json!([]), "{offer:#}");
    let owners = |end: &Value| -> Vec<String> {
        let all = end.as_array().unwrap().iter();
        all.map(|owner| owner["kind"].as_str().unwrap().to_owned()).collect()
    };
    // The procedure allows 20 to 200 °C, the work order at most 180 °C.
    let interpass = window(offer, "interpass");
    assert_eq!(interpass["required"]["range"], json!({ "min": 20, "max": 180, "unit": "°C" }));
    assert_eq!(owners(&interpass["required"]["min_owners"]), ["procedure"]);
    assert_eq!(owners(&interpass["required"]["max_owners"]), ["work-order"]);
    assert_eq!(interpass["pointer"], "/settings/interpass");
    for (variable, role) in
        [("wire-feed", "settable"), ("current", "resulting"), ("travel-speed", "hand-held")]
    {
        assert_eq!(window(offer, variable)["role"], role, "{variable}");
        assert_eq!(window(offer, variable)["permitted"], true, "{variable}");
    }
    // Nobody limits arc power here, and no limit is no permission.
    assert_eq!(window(offer, "arc-power")["permitted"], false);
    assert_eq!(window(offer, "arc-power")["required"]["kind"], "no-limit");
}

/// 300 to 400 mm/min are 11.8110 to 15.7480 in/min, 14 to 18 L/min are 29.664 to 38.139 ft3/h (inch
/// 25.4 mm, cubic foot 28.316846592 L; own arithmetic). A permission is never rounded wider.
#[tokio::test]
async fn ends_that_are_converted_are_rounded_inward() {
    let api = Api::furnished().await;
    let offers = offers(&api, "us", &job()).await;
    for (variable, range, exact) in [
        ("travel-speed", json!({ "min": 11.82, "max": 15.74, "unit": "in/min" }), (11.811, 15.748)),
        ("gas-flow", json!({ "min": 29.67, "max": 38.13, "unit": "ft3/h" }), (29.664, 38.139)),
        ("preheat", json!({ "min": 68, "max": 212, "unit": "°F" }), (68.0, 212.0)),
        ("interpass", json!({ "min": 68, "max": 356, "unit": "°F" }), (68.0, 356.0)),
    ] {
        let shown = &window(&offers[0], variable)["required"]["range"];
        assert_eq!(*shown, range, "{variable}");
        assert!(shown["min"].as_f64().unwrap() >= exact.0, "{variable}");
        assert!(shown["max"].as_f64().unwrap() <= exact.1, "{variable}");
    }
}

/// Whatever end a window shows, in whichever units, the check takes it.
#[tokio::test]
async fn the_check_takes_every_end_that_a_window_shows() {
    let api = Api::furnished().await;
    let mut asked = 0;
    for units in ["metric", "us"] {
        let offers = offers(&api, units, &job()).await;
        for one in offers[0]["windows"].as_array().unwrap() {
            let pointer = one["pointer"].as_str().unwrap();
            let range = &one["required"]["range"];
            // Heat follows from the settings and cannot be set by itself.
            if !range.is_object()
                || pointer.ends_with("arc_energy")
                || pointer.ends_with("heat_input")
            {
                continue;
            }
            for end in ["min", "max"] {
                let value = json!({ "value": range[end], "unit": range["unit"] });
                let setup = doc::with(doc::setup(), pointer, value.clone());
                let answer = api.post(api.shop.reader(), "/v1/checks", &setup).await.expect(200);
                let all = answer["findings"].as_array().unwrap();
                let own = all.iter().filter(|f| {
                    let concerns = f["outcome"] != "not-applicable";
                    f["pointer"] == pointer && f["force"] == "required" && concerns
                });
                for found in own {
                    assert_eq!(found["outcome"], "inside", "{pointer} {value}: {found}");
                }
                asked += 1;
            }
        }
    }
    assert!(asked >= 40, "{asked}");
}

#[tokio::test]
async fn the_wrong_gas_stands_in_the_way() {
    let api = Api::furnished().await;
    let offers = offers(&api, "metric", &doc::with(job(), "/filler/gas", json!("C1"))).await;
    let obstacles = offers[0]["obstacles"].as_array().unwrap();
    let gas = obstacles.iter().find(|one| one["check"] == "gas").unwrap();
    assert_eq!(gas["pointer"], "/filler/gas");
    assert_eq!(gas["outcome"], "outside");
    assert!(gas["reason"].as_str().unwrap().contains("M21"), "{gas}");
    assert!(gas["remedy"].as_str().unwrap().contains("M21"), "{gas}");
}

#[tokio::test]
async fn owners_who_contradict_each_other_are_both_named() {
    let api = Api::furnished().await;
    let cold = doc::with(doc::work_order(), "/number", json!("J-COLD"));
    let cold = doc::with(cold, "/limits/interpass", json!({ "max": "15 °C" }));
    api.shop.write(&api, "work-orders", &cold).await;
    let offers = offers(&api, "metric", &doc::with(job(), "/work_order", json!("J-COLD"))).await;
    let interpass = &window(&offers[0], "interpass")["required"];
    assert_eq!(interpass["kind"], "conflict", "{interpass}");
    assert_eq!(interpass.get("range"), None);
    let words = interpass["conflict"].as_str().unwrap();
    for part in ["WPS-1", "at least 20 °C", "J-COLD", "at most 15 °C"] {
        assert!(words.contains(part), "{part}: {words}");
    }
}

#[tokio::test]
async fn a_job_that_nothing_covers_has_no_window() {
    let api = Api::furnished().await;
    let offers = offers(&api, "metric", &doc::with(job(), "/job/position", json!("PE"))).await;
    assert_eq!(offers, Vec::<Value>::new());
}
