//! Many setups in one request: every line has its answer, in order, and one bad line is one bad answer.
//!
//! Expected verdicts follow from the made-up records of `documents`.

use std::collections::HashMap;

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
        0 => json!({ "id": index.to_string(), "setup": doc::setup() }).to_string(),
        1 => json!({ "id": index.to_string(), "setup": refused }).to_string(),
        2 => "no JSON".to_owned(),
        _ => {
            json!({ "id": index.to_string(), "setup": { "process": "welding" } }).to_string()
                + "\n "
        }
    };
    let lines: Vec<_> = (0..100).map(line).collect();
    // Without an end of the last line.
    let answers = stream(&api, &lines.join("\n")).await;
    assert_eq!(answers.len(), 101);
    for (index, answer) in (0_u64..).zip(&answers[..100]) {
        // A blank line stands behind every fourth one.
        assert_eq!(answer["line"], index + index / 4 + 1, "{answer}");
        match index % 4 {
            0 => assert_eq!(
                (&answer["id"], &answer["answer"]["verdict"]),
                (&json!(index.to_string()), &json!("allowed"))
            ),
            1 => assert_eq!(answer["answer"]["verdict"], "not-allowed", "{answer}"),
            2 => assert_eq!(answer["problem"]["type"], "/problems/unreadable", "{answer}"),
            _ => {
                assert_eq!(answer["problem"]["errors"][0]["pointer"], "/setup/process", "{answer}");
            }
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

/// A reader that remembers what was said last under each code has the cautions of single checks, whether a line
/// repeats the one before it or not.
#[tokio::test]
async fn what_is_left_out_of_a_caution_was_said_in_an_earlier_line() {
    let api = Api::furnished().await;
    let with_current = |current| {
        let mut setup = doc::setup();
        setup["settings"]["current"] = json!(current);
        setup
    };
    let setups = ["240 A", "300 A"].map(with_current);
    let mut singles = Vec::new();
    for setup in &setups {
        let path = "/v1/checks?detail=summary";
        singles.push(api.post(api.shop.reader(), path, setup).await.expect(200)["cautions"].take());
    }
    assert_ne!(singles[0], singles[1], "the shade is that of the current");
    let which: Vec<usize> = (0..60).map(|line| usize::from(line % 7 < 2)).collect();
    let lines: Vec<_> =
        which.iter().map(|which| json!({ "setup": setups[*which] }).to_string()).collect();
    let mut answers = stream(&api, &lines.join("\n")).await;
    let (mut said, mut left_out) = (HashMap::new(), 0);
    for (which, answer) in which.into_iter().zip(&mut answers) {
        for caution in answer["answer"]["cautions"].as_array_mut().unwrap() {
            let code = caution["code"].as_str().unwrap().to_owned();
            if let Some(text) = caution.get("text") {
                said.insert(code, text.clone());
            } else {
                caution["text"] = said[&code].clone();
                left_out += 1;
            }
        }
        assert_eq!(answer["answer"]["cautions"], singles[which]);
    }
    // Most lines are not the first of those judged together.
    let all = 60 * singles[0].as_array().unwrap().len();
    assert!(left_out > all / 2, "{left_out} of {all}");
}

#[tokio::test]
async fn an_empty_stream_has_a_summary() {
    let api = Api::furnished().await;
    let answers = stream(&api, "\n\n").await;
    assert_eq!(answers.len(), 1);
    assert_eq!(answers[0]["summary"]["lines"], 0);
}

#[tokio::test]
async fn a_client_that_asks_for_gzip_gets_every_line_and_the_summary() {
    let api = Api::furnished().await;
    let lines = vec![json!({ "setup": doc::setup() }).to_string(); 40].join("\n");
    let call = api.call(Method::POST, "/v1/checks/stream").key(api.shop.reader());
    let answer = call.bytes("application/x-ndjson", lines).send_asking_gzip().await;
    assert_eq!((answer.status, answer.header("content-encoding")), (200, "gzip"));
    let answers: Vec<Value> =
        answer.text.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(answers.len(), 41);
    assert_eq!(answers[40]["summary"]["allowed"], 40);
}

/// Every place at fault is told from the root of its line (RFC 6901), whichever step found it.
#[tokio::test]
async fn a_bad_line_says_where_it_is_bad_and_keeps_its_id() {
    let api = Api::furnished().await;
    for (line, id, pointer) in [
        (json!({ "id": "a", "setup": doc::setup(), "shift": "early" }), json!("a"), "/shift"),
        (json!({ "id": " b ", "setup": { "keep": true } }), json!(" b "), "/setup/keep"),
        (json!({ "id": "c" }), json!("c"), "/setup"),
        (
            json!({ "id": "d", "setup": { "settings": { "current": "fast" } } }),
            json!("d"),
            "/setup/settings/current",
        ),
        (json!({ "id": "e", "setup": { "procedure": "WPS-99" } }), json!("e"), "/setup/procedure"),
        (json!({ "id": "f", "setup": { "revision": 1 } }), json!("f"), "/setup/revision"),
        // A number of so many digits would come back as another one.
        (json!({ "id": 7, "setup": doc::setup() }), Value::Null, "/id"),
    ] {
        let answers = stream(&api, &line.to_string()).await;
        assert_eq!(answers[0]["id"], id, "{answers:?}");
        assert_eq!(answers[0]["problem"]["errors"][0]["pointer"], pointer, "{answers:?}");
        assert_eq!(answers[1]["summary"]["refused"], 1);
    }
}

#[tokio::test]
async fn a_stream_of_another_media_type_is_refused() {
    let api = Api::furnished().await;
    let line = json!({ "setup": doc::setup() }).to_string();
    let send = async |media: &str| {
        let call = api.call(Method::POST, "/v1/checks/stream").key(api.shop.reader());
        call.bytes(media, line.clone()).send().await
    };
    for media in ["application/json", "text/plain", ""] {
        send(media).await.problem(415, "media-type");
    }
    assert_eq!(send("Application/X-NDJSON; charset=utf-8").await.status, 200);
}
