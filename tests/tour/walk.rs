//! The tour itself: every request of the README, in order, against a fresh demo.

use serde_json::Value;

use crate::{
    blocks::{readme, stops},
    curl,
    demo::{Demo, Scratch},
    subset::lacking,
};

/// Job cards of the demo beside those of the tour, with the verdicts that the README gives them.
const CARDS: &[(&str, &str)] = &[
    ("demo/setup-butt.json", "allowed"),
    ("demo/setup-pulsed.json", "allowed"),
    ("demo/setup-measured.json", "allowed-with-advice"),
    ("demo/setup-unsigned.json", "undetermined"),
];

#[tokio::test]
async fn the_readme_is_true() {
    let scratch = Scratch::new();
    let demo = Demo::start(&scratch.data());
    the_scenario_is_complete(&demo).await;
    what_the_demo_prints_works(&demo).await;
    other_cards_have_their_verdicts(&demo).await;
    the_examples_of_the_reference_work(&demo).await;
    the_printed_rate_counts(&demo).await;
    let stops = stops(&readme());
    assert!(stops.len() >= 15, "only {} requests were found", stops.len());
    for stop in stops {
        let answer = curl::run(&stop.command, &demo.variables).await;
        let at = format!("README line {}: {}", stop.line, answer.body);
        assert_eq!(answer.status, stop.status, "{at}");
        if let Some(etag) = stop.etag {
            assert_eq!(answer.etag, Some(format!("\"{etag}\"")), "{at}");
        }
        let mut answers = serde_json::Deserializer::from_str(&answer.body).into_iter::<Value>();
        for promised in stop.answers {
            let own = answers.next().expect("there are as many answers").unwrap();
            let lacking = lacking(&promised, &own);
            assert!(lacking.is_empty(), "{lacking:#?}\n{at}");
        }
        assert!(answers.next().is_none(), "more answers than promised; {at}");
    }
}

/// Every line of the scenario is loaded: what it holds can be listed.
async fn the_scenario_is_complete(demo: &Demo) {
    assert!(demo.printed.contains("Loaded 32 lines, refused 0."), "{}", demo.printed);
    let listed = async |path: &str| {
        let response = demo.get("READER", path).send().await.unwrap();
        let list: Value = response.json().await.unwrap();
        list["items"].as_array().unwrap().clone()
    };
    assert_eq!(listed("/v1/stations").await.len(), 3);
    assert_eq!(listed("/v1/consumables").await.len(), 5);
    assert_eq!(listed("/v1/work-orders").await.len(), 4);
    assert_eq!(listed("/v1/welders").await.len(), 6);
    // On the day of the job cards one of the six has lapsed.
    let mut lapsed = Vec::new();
    for code in ["W-11", "W-12", "W-13", "W-14", "W-15", "W-16"] {
        let path = format!("/v1/welders/{code}/standing?day=2026-12-01");
        let standing: Value = demo.get("READER", &path).send().await.unwrap().json().await.unwrap();
        let first = &standing["qualifications"][0];
        assert_eq!(first["range_signed"], true, "{code}");
        lapsed.extend((first["standing"] == "lapsed").then_some(code));
    }
    assert_eq!(lapsed, ["W-16"]);
    let qualifications = listed("/v1/qualifications").await;
    let signed: Vec<_> =
        qualifications.iter().map(|item| (&item["code"], &item["state"])).collect();
    let expected = [("PQR-31", "signed"), ("PQR-37", "signed"), ("PQR-41", "draft")];
    assert_eq!(signed.len(), expected.len());
    for ((code, state), (expected_code, expected_state)) in signed.iter().zip(expected) {
        assert!(*code == expected_code && *state == expected_state, "{code} is {state}");
    }
    let procedures = listed("/v1/procedures").await;
    let standing = |item: &Value| {
        let text = |name: &str| item[name].as_str().unwrap().to_owned();
        (text("code"), item["revision"].as_u64().unwrap(), text("state"))
    };
    let expected = [
        ("WPS-101", 2, "released"),
        ("WPS-102", 1, "released"),
        ("WPS-103", 1, "released"),
        ("WPS-104", 1, "released"),
        ("WPS-105", 1, "draft"),
        ("WPS-106", 1, "released"),
        ("WPS-107", 1, "draft"),
        ("WPS-108", 1, "released"),
        ("WPS-109", 1, "draft"),
    ];
    let expected = expected.map(|(code, revision, state)| (code.into(), revision, state.into()));
    assert_eq!(procedures.iter().map(standing).collect::<Vec<_>>(), expected);
}

/// The requests that the demo prints to be pasted.
async fn what_the_demo_prints_works(demo: &Demo) {
    let text = demo.printed.replace("\\\n", " ");
    let commands: Vec<_> =
        text.lines().map(str::trim).filter(|line| line.starts_with("curl ")).collect();
    assert_eq!(commands.len(), 3, "{text}");
    for command in commands {
        let answer = curl::run(command, &demo.variables).await;
        assert_eq!(answer.status, 200, "{command}: {}", answer.body);
    }
}

async fn other_cards_have_their_verdicts(demo: &Demo) {
    for (file, verdict) in CARDS {
        assert!(readme().contains(file), "the README does not name {file}");
        let response = demo.post("ERP", "/v1/checks", file).send().await.unwrap();
        let answer: Value = response.json().await.unwrap();
        assert_eq!(answer["verdict"], *verdict, "{file}: {answer:#}");
    }
    the_voltmeter_alone_is_in_doubt(demo).await;
}

/// What the reference shows of windows and run plans can be sent as it stands.
async fn the_examples_of_the_reference_work(demo: &Demo) {
    let document: Value = serde_json::from_str(include_str!("../../openapi/openapi.json")).unwrap();
    let answer = async |path: &str| -> Value {
        let body = &document["paths"][path]["post"]["requestBody"]["content"];
        let example = body["application/json"]["example"].to_string();
        let response = demo.post_text("ERP", path, example).send().await.unwrap();
        assert_eq!(response.status(), 200, "{path}");
        response.json().await.unwrap()
    };
    let windows = answer("/v1/windows").await;
    let piece = &windows["offers"][0]["solved"]["pieces"][0];
    assert!(piece["heat_input"].is_object(), "the cooling time is in it: {windows:#}");
    let start = &piece["required"]["starting_point"];
    assert!(start["settings"].as_array().is_some_and(|all| all.len() >= 4), "{piece:#}");
    let plans = answer("/v1/run-plans").await;
    assert!(plans["best"].is_object(), "{plans:#}");
}

/// The data of FF-70 prints 10.2 lb/h at 280 in/min and 12.8 at 350: at 300 in/min 10.2 + 20 / 70 * 2.6 = 10.94 lb/h (own
/// arithmetic).
async fn the_printed_rate_counts(demo: &Demo) {
    let request = demo.post("ERP", "/v1/checks?units=us", "demo/setup-measured.json");
    let answer: Value = request.send().await.unwrap().json().await.unwrap();
    let figures = answer["figures"].as_array().unwrap();
    let rate = figures.iter().find(|figure| figure["name"] == "deposition-rate").unwrap();
    assert_eq!(rate["value"], serde_json::json!({ "value": 10.94, "unit": "lb/h" }));
    let assumed = rate["assumptions"].to_string();
    assert!(assumed.contains("Wire data sheet FF-70, edition 2024-09"), "{assumed}");
}

/// Of the two instruments of station ST-2 the ammeter is in calibration and the voltmeter is not.
async fn the_voltmeter_alone_is_in_doubt(demo: &Demo) {
    let request = demo.post("ERP", "/v1/checks", "demo/setup-measured.json");
    let answer: Value = request.send().await.unwrap().json().await.unwrap();
    let findings = answer["findings"].as_array().unwrap();
    let of = |check: &str| findings.iter().filter(|f| f["check"] == check).collect::<Vec<_>>();
    assert!(!of("voltage").is_empty() && !of("current").is_empty());
    assert!(of("voltage").iter().all(|finding| finding["accuracy_unknown"] == true));
    assert!(of("current").iter().all(|finding| finding["accuracy_unknown"] != true));
}
