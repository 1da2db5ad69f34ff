//! Power sources over HTTP, against a glossary, a manual and own arithmetic.

use serde_json::{Value, json};

use crate::support::{
    Api,
    documents::with,
    figures::{Figures, ask, refused},
};

/// Power-source operating manual, section 2.06 (publisher not named): 400 A at 25 % are 282.8 A at 50 %; the
/// second point, 200 A at 100 %, is the same law's (own arithmetic). American Welding Society online
/// glossary, duty cycle: 60 % is 6 min in 10. IEC 60974-1, 11.2 (from memory): 14 + 0.05 * 300 V.
#[tokio::test]
async fn duty_cycle_and_load_voltage() {
    let api = Api::start().await;
    let manual = json!({
        "plate": [{ "current": "400 A", "duty": "25 %" }, { "current": "200 A", "duty": "100 %" }],
        "duty": "50 %",
    });
    let got = Figures::of(&api, "power-source", &manual).await;
    got.near("current-at-duty", 282.8, "A", 5e-4);
    // Own arithmetic: 400 A * sqrt(25/60) are 258.199 A and sqrt(25/42) of it 308.607 A, a maximum rounded down.
    let more =
        Figures::of(&api, "power-source", &with(manual.clone(), "/duty", json!("42 %"))).await;
    more.near("current-at-duty", 308.6, "A", 1e-9);
    let more =
        Figures::of(&api, "power-source", &with(manual.clone(), "/duty", json!("60 %"))).await;
    more.near("current-at-duty", 258.1, "A", 1e-9);
    assert!(got.why_absent("duty-at-current").contains("current is missing"));
    assert!(got.why_absent("conventional-load-voltage").contains("process or a load line"));
    let glossary = json!({
        "plate": [{ "current": "300 A", "duty": "60 %" }], "current": "300 A", "process": "136",
    });
    let got = Figures::of(&api, "power-source", &glossary).await;
    got.near("duty-at-current", 60.0, "%", 1e-9);
    got.near("arc-on-time", 360.0, "s", 1e-9);
    got.near("conventional-load-voltage", 29.0, "V", 1e-9);
    assert!(got.assumes("conventional-load-voltage", "no arc voltage"));
    let gouging = with(glossary.clone(), "/load_line", json!("plasma-gouging"));
    Figures::of(&api, "power-source", &gouging).await.near(
        "conventional-load-voltage",
        220.0,
        "V",
        1e-9,
    );

    let above = with(glossary.clone(), "/current", json!("301 A"));
    let above = Figures::of(&api, "power-source", &above).await;
    assert!(above.why_absent("duty-at-current").contains("above 300 A"));
    let more =
        Figures::of(&api, "power-source", &with(glossary.clone(), "/duty", json!("80 %"))).await;
    assert!(more.why_absent("current-at-duty").contains("highest duty on it is 60 %"));
    let no_plate = with(glossary.clone(), "/plate", Value::Null);
    let no_plate = Figures::of(&api, "power-source", &no_plate).await;
    assert!(no_plate.why_absent("duty-at-current").contains("no point of a rating plate"));
    for (pointer, share) in [("/duty", "0 %"), ("/plate/0/duty", "135 %")] {
        let no_part = with(glossary.clone(), pointer, json!(share));
        refused(&ask(&api, "power-source", "us", &no_part).await, &[pointer]);
    }
    let wrong = with(glossary, "/plate/0/duty", json!("60 A"));
    refused(&ask(&api, "power-source", "us", &wrong).await, &["/plate/0/duty"]);
}

/// Own arithmetic: 200 A for 4 min and 300 A for 2 min in 10: sqrt((160000 + 180000)/10) = 184.4 A.
#[tokio::test]
async fn mixed_use_as_one_current() {
    let api = Api::start().await;
    let uses =
        json!([{ "current": "200 A", "time": "4 min" }, { "current": "300 A", "time": "2 min" }]);
    let body = json!({
        "plate": [{ "current": "250 A", "duty": "60 %" }, { "current": "200 A", "duty": "100 %" }],
        "uses": uses,
    });
    let got = Figures::of(&api, "power-source", &body).await;
    got.near("equivalent-current", 184.4, "A", 5e-4);
    got.near("current-at-full-duty", 200.0, "A", 1e-9);
    assert!(got.assumes("equivalent-current", "300 A is above 250 A"));
    let long = with(body.clone(), "/uses/0/time", json!("9 min"));
    let long = Figures::of(&api, "power-source", &long).await;
    assert!(long.why_absent("equivalent-current").contains("more than the period"));
    let missing = with(body, "/uses/0/time", Value::Null);
    refused(&ask(&api, "power-source", "us", &missing).await, &["/uses/0/time"]);
}
