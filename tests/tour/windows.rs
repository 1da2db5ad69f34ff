//! Windows of the demo's jobs: every end that is stated is shown, every window that is open has a nearest setting, and
//! the check advises against nothing that the advised region proposes.

use rustix::process::Signal;
use serde_json::Value;

use crate::demo::{Demo, Scratch};

const JOBS: [&str; 5] = [
    "demo/setup-allowed.json",
    "demo/setup-butt.json",
    "demo/setup-electrode.json",
    "demo/setup-partial.json",
    "demo/setup-pulsed.json",
];

#[tokio::test]
async fn every_open_window_of_the_demo_is_answered_in_full() {
    let scratch = Scratch::new();
    let demo = Demo::start(&scratch.data());
    let (mut open, mut advised) = (0, 0);
    for job in JOBS {
        for units in ["metric", "us"] {
            let path = format!("/v1/windows?units={units}");
            let answer = demo.post("ERP", &path, job).send().await.unwrap();
            let answer: Value = answer.json().await.unwrap();
            for offer in answer["offers"].as_array().unwrap() {
                for piece in offer["solved"]["pieces"].as_array().unwrap() {
                    if piece["required"].get("conflict").is_none() {
                        answered_in_full(&piece["required"], &format!("{job} {units}"));
                        open += 1;
                    }
                    let left = piece.get("advised").filter(|left| left.get("conflict").is_none());
                    if let Some(left) = left {
                        advised_without_advice(left, &format!("{job} {units}"));
                        advised += 1;
                    }
                }
            }
        }
    }
    assert!(open >= 2 * JOBS.len(), "{open} windows were open");
    assert!(advised >= 2 * JOBS.len(), "{advised} windows had an advised region");
    assert!(demo.end(Signal::INT).success());
}

fn answered_in_full(left: &Value, job: &str) {
    for place in ["starting_point", "nearest", "fastest"] {
        assert!(left.get(place).is_some(), "{job}: no {place}: {}", left["no_nearest"]);
    }
    for one in left["narrowed"].as_array().unwrap() {
        for end in ["lowest", "highest"].iter().filter_map(|end| one.get(*end)) {
            let witness = end["witness"].as_array().unwrap();
            assert!(!witness.is_empty(), "{job}: {} has no witness: {end}", one["variable"]);
        }
    }
}

fn advised_without_advice(left: &Value, job: &str) {
    for name in ["starting_point", "fastest", "coolest", "nearest"] {
        let verdict = left[name]["verdict"].as_str().unwrap();
        assert_ne!(verdict, "allowed-with-advice", "{job}: {name}: {:#}", left[name]);
    }
}
