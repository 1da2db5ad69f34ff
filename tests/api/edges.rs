//! What no operation is asked for: paths that are not there, bodies that are no JSON, too much of
//! anything. The statuses are those of RFC 9110, section 15.5; the service never fails itself.

use reqwest::Method;
use serde_json::json;

use crate::support::{Answer, Api, documents as doc};

/// A kibibyte.
const KIB: usize = 1024;

#[tokio::test]
async fn unknown_paths_and_wrong_methods_are_problems() {
    let api = Api::start().await;
    for path in ["/", "/v1", "/v1/", "/v1/nothing", "/v1/stations/", "/v2/checks", "/v1/checks/a/b"]
    {
        api.get(api.shop.reader(), path).await.problem(404, "not-found");
    }
    let wrong = [
        (Method::DELETE, "/v1/stations", &["GET", "POST"]),
        (Method::PATCH, "/v1/stations/ST-1", &["GET", "PUT"]),
    ];
    for (method, path, allowed) in wrong {
        let answer = api.call(method, path).key(api.shop.author()).send().await;
        answer.problem(405, "method-not-allowed");
        // RFC 9110, 15.5.6: the answer must list what the path takes.
        for method in allowed {
            assert!(answer.header("allow").contains(method), "{path}: {answer:?}");
        }
    }
}

#[tokio::test]
async fn the_kind_of_a_problem_can_be_read() {
    let api = Api::start().await;
    let problem = api.get("arcbounds_0000", "/v1/keys").await.problem(401, "no-key");
    let kind = api.call(Method::GET, problem["type"].as_str().unwrap()).send().await.expect(200);
    assert_eq!(kind["status"], 401);
    assert_eq!(kind["title"], problem["title"]);
    assert!(kind["remedy"].as_str().unwrap().contains("Authorization"));
    api.call(Method::GET, "/problems/none-such").send().await.problem(404, "not-found");
}

/// RFC 9110, 11.1: the name of the scheme is case-insensitive.
#[tokio::test]
async fn the_scheme_of_a_key_is_read_in_any_case() {
    let api = Api::start().await;
    for (scheme, status) in [("Bearer", 200), ("bearer", 200), ("BEARER", 200), ("Basic", 401)] {
        let proof = format!("{scheme} {}", api.shop.reader());
        let call = api.call(Method::GET, "/v1/organisation").header("authorization", &proof);
        assert_eq!(call.send().await.status, status, "{scheme}");
    }
}

async fn send(api: &Api, media: &str, body: impl Into<Vec<u8>>) -> Answer {
    let call = api.call(Method::POST, "/v1/stations").key(api.shop.author());
    call.bytes(media, body).send().await
}

#[tokio::test]
async fn a_body_that_is_no_json_is_refused() {
    let api = Api::start().await;
    let deep = |depth: usize| format!("{}{}", "[".repeat(depth), "]".repeat(depth));
    let unreadable: Vec<Vec<u8>> = vec![
        Vec::new(),
        b"{".to_vec(),
        b"{\"code\": \"ST-9\"} {}".to_vec(),
        b"{\"code\": \"\xff\xfe\"}".to_vec(),
        b"\xef\xbb\xbf{}".to_vec(),
        b"{\"code\": \"\\ud800\"}".to_vec(),
        b"{\"rated\": NaN}".to_vec(),
        b"{\"rated\": Infinity}".to_vec(),
        b"{\"rated\": 1e999}".to_vec(),
        deep(10_000).into_bytes(),
        deep(400_000).into_bytes(),
    ];
    for body in unreadable {
        let start = String::from_utf8_lossy(&body[..body.len().min(40)]).into_owned();
        let answer = send(&api, "application/json", body).await;
        assert!(answer.is_problem(400, "unreadable"), "{start}: {answer:?}");
    }
    for body in ["null", "7", "\"text\"", "[]", &deep(100), "true"] {
        let answer = send(&api, "application/json", body).await;
        answer.problem(422, "invalid-fields");
        assert_eq!(answer.pointers(), [""], "the whole body is at fault: {body}");
    }
}

/// RFC 8259, section 4, and RFC 7493 (I-JSON), section 2.3: names within an object are unique. Readers differ in
/// which of two counts, so that one could be checked and the other welded.
#[tokio::test]
async fn a_member_that_is_given_twice_is_refused_at_its_place() {
    let api = Api::furnished().await;
    let twice = |body: &serde_json::Value, member: &str| {
        let (once, text) = (format!("{member}:"), body.to_string());
        assert!(text.contains(&once), "{text}");
        text.replacen(&once, &format!("{member}:\"400 A\",{once}"), 1)
    };
    let (setup, station) = (doc::setup(), doc::station());
    for (path, key, body, pointer) in [
        ("/v1/checks", api.shop.reader(), twice(&setup, "\"current\""), "/settings/current"),
        (
            "/v1/checks",
            api.shop.reader(),
            twice(&setup, "\"thickness\""),
            "/job/base_metals/0/thickness",
        ),
        ("/v1/windows", api.shop.reader(), twice(&setup, "\"process\""), "/process"),
        (
            "/v1/run-plans",
            api.shop.reader(),
            twice(&json!({ "setup": setup }), "\"current\""),
            "/setup/settings/current",
        ),
        ("/v1/stations", api.shop.author(), twice(&station, "\"code\""), "/code"),
    ] {
        let answer =
            api.call(Method::POST, path).key(key).bytes("application/json", body).send().await;
        answer.problem(422, "invalid-fields");
        assert_eq!(answer.pointers(), [pointer], "{path}");
    }
    let line = twice(&json!({ "id": "1", "setup": setup }), "\"current\"");
    let call = api.call(Method::POST, "/v1/checks/stream").key(api.shop.reader());
    let answers = call.bytes("application/x-ndjson", line).send().await;
    assert!(answers.text.contains("\"/setup/settings/current\""), "{answers:?}");
    assert!(answers.text.contains("\"refused\":1"), "{answers:?}");
}

#[tokio::test]
async fn a_body_of_another_media_type_is_refused() {
    let api = Api::start().await;
    let body = doc::station().to_string();
    for media in ["text/plain", "application/xml", "application/x-www-form-urlencoded", "json", ""]
    {
        send(&api, media, body.clone()).await.problem(415, "media-type");
    }
    let none = api.call(Method::POST, "/v1/stations").key(api.shop.author()).send().await;
    none.problem(415, "media-type");
    send(&api, "Application/JSON; charset=utf-8", body).await.expect(201);
}

/// RFC 9110, 15.5.16: a coding that is not read is 415, and `Accept-Encoding` says what would be (12.5.3).
#[tokio::test]
async fn a_compressed_body_is_refused_as_such() {
    let api = Api::start().await;
    for (path, key, media) in [
        ("/v1/stations", api.shop.author(), "application/json"),
        ("/v1/checks", api.shop.reader(), "application/json"),
        ("/v1/checks/stream", api.shop.reader(), "application/x-ndjson"),
    ] {
        let call = api.call(Method::POST, path).key(key).header("content-encoding", "gzip");
        let refused = call.bytes(media, b"\x1f\x8b\x08").send().await;
        refused.problem(415, "content-coding");
        assert_eq!(refused.header("accept-encoding"), "identity", "{path}");
    }
    let call = api.call(Method::POST, "/v1/stations").key(api.shop.author());
    let plain = call.header("content-encoding", "identity").json(&doc::station()).send().await;
    plain.expect(201);
    let other = send(&api, "text/plain", "x").await;
    assert_eq!(other.header("accept-encoding"), "", "no coding was the reason");
}

#[tokio::test]
async fn a_path_that_is_no_text_and_a_page_that_is_not_there_are_problems_in_plain_words() {
    let api = Api::start().await;
    let answer = api.get(api.shop.reader(), "/v1/procedures/%FF").await;
    let detail = answer.problem(404, "not-found")["detail"].clone();
    assert_eq!(detail, "The path has bytes that are no UTF-8 text, so it names nothing.");
    api.call(Method::GET, "/docs/x").send().await.problem(404, "not-found");
    let page = api.call(Method::GET, "/docs/").send().await;
    assert!(page.status == 200 && page.header("content-type").starts_with("text/html"));
}

#[tokio::test]
async fn too_much_is_refused() {
    let api = Api::start().await;
    let large = |size: usize| format!("{{\"note\": \"{}\"}}", "x".repeat(size));
    send(&api, "application/json", large(KIB * KIB)).await.problem(413, "too-large");
    // Just below the limit of the body, the limit of the text speaks.
    let answer = send(&api, "application/json", large(KIB * KIB - 100)).await;
    answer.problem(422, "invalid-fields");
    assert!(answer.pointers().contains(&"/note".to_owned()), "{}", &answer.text[..500]);
    let many: Vec<_> = (0..2000).map(|_| "not-controlled").collect();
    let station = doc::with(doc::station(), "/waveforms", json!(many));
    let answer = send(&api, "application/json", station.to_string()).await;
    answer.problem(422, "invalid-fields");
    assert_eq!(answer.pointers(), ["/waveforms"]);
}

#[tokio::test]
async fn a_key_that_asks_too_often_is_told_when_to_come_back() {
    let api = Api::with_rate(3).await;
    let mut answers = Vec::new();
    for _ in 0..12 {
        answers.push(api.get(api.shop.reader(), "/v1/organisation").await);
    }
    let refused = answers.iter().find(|answer| answer.status != 200).unwrap();
    refused.problem(429, "too-many-requests");
    assert_eq!(refused.header("retry-after"), "1");
    // The key of somebody else has its own measure.
    api.get(api.shop.admin(), "/v1/organisation").await.expect(200);
}

/// Texts that PostgreSQL cannot hold, in every place that reaches it.
#[tokio::test]
async fn texts_that_no_database_holds_are_refused_or_found_nowhere() {
    let api = Api::furnished().await;
    let queries = [
        "/v1/stations?state=%00",
        "/v1/stations?waveform=%00",
        "/v1/stations?cursor=00",
        "/v1/stations?cursor=zz",
        "/v1/work-orders?reference=a%00b",
        "/v1/work-orders?code=%00",
        "/v1/procedures?process=%00&position=%00",
        "/v1/consumables?designation=%00",
        "/v1/audit?subject=%00",
        "/v1/audit?after=9223372036854775808",
        "/v1/stations/ST-1?revision=99999999999",
        "/v1/stations?limit=1&limit=2",
    ];
    for path in queries {
        let answer = api.get(api.shop.reader(), path).await;
        assert!(answer.is_problem(400, "bad-parameter"), "{path}: {answer:?}");
    }
    let etag = api.get(api.shop.reader(), "/v1/stations/ST-1").await;
    let path = "/v1/stations/ST-1?reason=%00";
    let answer = api.put(api.shop.author(), path, etag.etag(), &doc::station()).await;
    answer.problem(400, "bad-parameter");
    let nul = doc::with(doc::station(), "/name", json!("a\0b"));
    let answer = api.post(api.shop.author(), "/v1/stations", &nul).await;
    answer.problem(422, "invalid-fields");
    assert_eq!(answer.pointers(), ["/name"]);
}

/// A number that no measuring instrument shows is refused at its place, whichever way it is written.
#[tokio::test]
async fn numbers_that_are_none_are_refused_at_their_place() {
    let api = Api::start().await;
    for current in
        ["NaN A", "Infinity A", "-Infinity A", "1e400 A", "-1 A", "0x1F A", "1,5 A", " A", "A"]
    {
        let station = doc::with(doc::station(), "/gun/current", json!(current));
        let answer = api.post(api.shop.author(), "/v1/stations", &station).await;
        assert!(answer.is_problem(422, "invalid-fields"), "{current}: {answer:?}");
        assert_eq!(answer.pointers(), ["/gun/current"], "{current}");
    }
    for number in ["1e308", "-1e308", "1e-308", "123456789012345678901234567890123456789", "-0.0"] {
        let text = doc::with(doc::station(), "/gun/current", json!("#")).to_string();
        let body = text.replace("\"#\"", &format!("{{\"value\": {number}, \"unit\": \"A\"}}"));
        let answer = send(&api, "application/json", body).await;
        assert!(answer.is_problem(422, "invalid-fields"), "{number}: {answer:?}");
        assert!(answer.pointers()[0].starts_with("/gun/current"), "{number}: {answer:?}");
    }
}
