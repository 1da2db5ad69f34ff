//! Many setups in one request: every line has its answer, in order, and one bad line is one bad answer.
//!
//! Expected verdicts follow from the made-up records of `documents`.

use reqwest::Method;
use serde_json::{Value, json};

use crate::support::{Api, documents as doc};

async fn stream(api: &Api, lines: &str) -> Vec<Value> {
    let call = api.call(Method::POST, "/v1/checks/stream").key(api.shop.reader());
    let answer = call.bytes("application/x-ndjson", lines).send().await;
    assert_eq!(answer.status, 200, "{}", answer.text);
    answer.text.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
}

/// More lines than are judged together, so that several pieces are under way at once.
#[tokio::test]
async fn every_line_is_answered_in_order_and_counted() {
    let api = Api::furnished().await;
    let mut refused = doc::setup();
    refused["settings"]["current"] = json!("400 A");
    let line = |index: u64| match index % 4 {
        0 => json!({ "id": index, "setup": doc::setup() }).to_string(),
        1 => json!({ "id": index, "setup": refused }).to_string(),
        2 => "no JSON".to_owned(),
        _ => json!({ "id": index, "setup": { "process": "welding" } }).to_string() + "\n ",
    };
    let lines: Vec<_> = (0..100).map(line).collect();
    // Without an end of the last line.
    let answers = stream(&api, &lines.join("\n")).await;
    assert_eq!(answers.len(), 101);
    for (index, answer) in (0_u64..).zip(&answers[..100]) {
        assert_eq!(answer["line"], index + 1, "{answer}");
        match index % 4 {
            0 => assert_eq!(
                (&answer["id"], &answer["answer"]["verdict"]),
                (&json!(index), &json!("allowed"))
            ),
            1 => assert_eq!(answer["answer"]["verdict"], "not-allowed", "{answer}"),
            2 => assert_eq!(answer["problem"]["type"], "/problems/unreadable", "{answer}"),
            _ => assert_eq!(answer["problem"]["errors"][0]["pointer"], "/process", "{answer}"),
        }
    }
    let summary = json!({
        "lines": 100, "allowed": 25, "allowed_with_advice": 0, "undetermined": 0, "not_allowed": 25, "refused": 50,
    });
    assert_eq!(answers[100], json!({ "summary": summary }));
}

/// The answers of a stream are those of single checks.
#[tokio::test]
async fn a_line_is_answered_as_a_single_check_is() {
    let api = Api::furnished().await;
    let path = "/v1/checks?detail=summary";
    let mut single = api.post(api.shop.reader(), path, &doc::setup()).await.expect(200);
    let mut line = stream(&api, &json!({ "setup": doc::setup() }).to_string()).await.remove(0);
    for answer in [&mut single, &mut line["answer"]] {
        answer["rulebook"]["age"] = Value::Null;
    }
    assert_eq!(line["answer"], single);
}

#[tokio::test]
async fn an_empty_stream_has_a_summary() {
    let api = Api::furnished().await;
    let answers = stream(&api, "\n\n").await;
    assert_eq!(answers.len(), 1);
    assert_eq!(answers[0]["summary"]["lines"], 0);
}
