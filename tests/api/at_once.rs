//! Checks asked at the same moment are each answered as if they were alone.

use axum::http::StatusCode;
use futures_util::future::join_all;
use reqwest::Method;
use serde_json::{Value, json};

use crate::support::{Answer, Api, documents as doc};

/// One question of each sort: status and verdict follow from the made-up records of `documents`.
fn sorts(other: &str, own: &str) -> Vec<(String, &'static str, String, u16, &'static str)> {
    let with = |place: &str, value: Value| {
        let mut setup = doc::setup();
        *setup.pointer_mut(place).unwrap() = value;
        setup.to_string()
    };
    let mut kept = doc::setup();
    kept["keep"] = json!(true);
    let key = |key: &str| key.to_owned();
    vec![
        (key(own), "?detail=summary", doc::setup().to_string(), 200, "allowed"),
        (key(own), "?detail=full", doc::setup().to_string(), 200, "allowed"),
        (key(own), "?units=us", with("/settings/current", json!("400 A")), 200, "not-allowed"),
        (key(own), "", kept.to_string(), 200, "allowed"),
        (key(own), "", "no JSON".to_owned(), 400, ""),
        (key(own), "", with("/process", json!("welding")), 422, ""),
        (key(own), "?units=ells", doc::setup().to_string(), 400, ""),
        // The other organisation has none of these records.
        (key(other), "", doc::setup().to_string(), 422, ""),
    ]
}

/// What is the same whenever it is asked.
fn lasting(answer: &Answer) -> Value {
    let mut body = answer.json();
    body["rulebook"]["age"] = Value::Null;
    for of_one_request in ["check_id", "request_id"] {
        if let Some(members) = body.as_object_mut() {
            members.remove(of_one_request);
        }
    }
    body
}

#[tokio::test]
async fn each_of_many_at_once_is_answered_as_if_it_were_alone() {
    let api = Api::furnished().await;
    let other = api.found("Other").await;
    let sorts = sorts(other.reader(), api.shop.author());
    let ask = async |(key, query, body, status, verdict): &(String, &str, String, u16, &str)| {
        let call = api.call(Method::POST, &format!("/v1/checks{query}")).key(key);
        let answer = call.bytes("application/json", body.as_str()).send().await;
        assert_eq!(answer.status, *status, "{}", answer.text);
        let answer = lasting(&answer);
        if StatusCode::from_u16(*status).is_ok_and(|status| status.is_success()) {
            assert_eq!(answer["verdict"], *verdict, "{answer}");
        }
        answer
    };
    let mut alone = Vec::new();
    for sort in &sorts {
        alone.push(ask(sort).await);
    }
    // More than are judged together, of all sorts in turn.
    let asked: Vec<_> = sorts.iter().cycle().take(64).collect();
    let answers = join_all(asked.into_iter().map(&ask)).await;
    for (answer, alone) in answers.iter().zip(alone.iter().cycle()) {
        assert_eq!(answer, alone);
    }
}
