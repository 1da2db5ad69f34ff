//! Safe retries: the same key and body write once and answer the same.

use reqwest::Method;
use serde_json::{Value, json};

use crate::{
    behind::{count, etag, execute},
    support::{Answer, Api, documents},
};

/// Posts with a retry key, and the version a step starts from.
async fn post(api: &Api, key: &str, path: &str, retry: &str, body: &Value) -> Answer {
    let call = api.call(Method::POST, path).key(key).header("idempotency-key", retry);
    call.json(body).send().await
}

/// Everything of an answer that its sender can see, but what is new for each request.
fn seen(answer: &Answer) -> (u16, Vec<(String, String)>, Value) {
    let fresh = ["date", "x-request-id"];
    let mut headers: Vec<_> = answer
        .headers
        .iter()
        .map(|(name, value)| (name.to_string(), value.to_str().unwrap().to_owned()))
        .filter(|(name, _)| !fresh.contains(&name.as_str()))
        .collect();
    headers.sort();
    (answer.status, headers, answer.json())
}

async fn entries(api: &Api) -> i64 {
    count(api, "select count(*) from audit_entry").await
}

#[tokio::test]
async fn the_same_request_writes_once_and_answers_the_same() {
    let api = Api::start().await;
    let author = api.shop.author();
    let first = post(&api, author, "/v1/stations", "one", &documents::station()).await;
    first.expect(201);
    for header in ["location", "etag", "rulebook-version"] {
        assert!(!first.header(header).is_empty(), "{header} of {first:?}");
    }
    let before = entries(&api).await;
    let again = post(&api, author, "/v1/stations", "one", &documents::station()).await;
    assert_eq!(seen(&again), seen(&first));
    // The same document in another order and layout is the same body (RFC 8785).
    let members = documents::station().as_object().unwrap().clone();
    let turned: serde_json::Map<_, _> = members.into_iter().rev().collect();
    let turned = serde_json::to_string_pretty(&turned).unwrap();
    let call = api.call(Method::POST, "/v1/stations").key(author);
    let call = call.header("idempotency-key", "one").bytes("application/json", turned);
    assert_eq!(seen(&call.send().await), seen(&first));
    assert_eq!(entries(&api).await, before);
    assert_eq!(count(&api, "select count(*) from record_revision").await, 1);
    assert_eq!(count(&api, "select count(*) from retry").await, 1);
}

#[tokio::test]
async fn a_step_of_the_life_is_taken_once() {
    let api = Api::start().await;
    api.shop.write(&api, "consumables", &documents::consumable()).await;
    api.shop.write(&api, "procedures", &documents::procedure()).await;
    let path = "/v1/procedures/WPS-1";
    let draft = etag(&api, path).await;
    let submit = || {
        let call = api.call(Method::POST, &format!("{path}/submission"));
        call.key(api.shop.author()).if_match(&draft).header("idempotency-key", "s").send()
    };
    let first = submit().await;
    first.expect(200);
    assert_eq!(seen(&submit().await), seen(&first), "and no 412, although the ETag is old now");
    assert_eq!(count(&api, "select count(*) from procedure_event").await, 1);
}

#[tokio::test]
async fn another_body_is_refused_and_other_keys_and_routes_are_apart() {
    let api = Api::start().await;
    let author = api.shop.author();
    post(&api, author, "/v1/stations", "k", &documents::station()).await.expect(201);
    let other = documents::with(documents::station(), "/code", json!("ST-2"));
    post(&api, author, "/v1/stations", "k", &other).await.problem(422, "retry-key-reused");
    post(&api, author, "/v1/stations/ST-2", "k", &other).await.problem(405, "method-not-allowed");
    post(&api, author, "/v1/consumables", "k", &documents::consumable()).await.expect(201);
    let body = json!({ "label": "second", "roles": ["author"] });
    let (_, second) = crate::behind::key(&api, &body).await;
    post(&api, &second, "/v1/stations", "k", &other).await.expect(201);
    assert_eq!(count(&api, "select count(*) from retry").await, 3);
}

#[tokio::test]
async fn of_twins_at_once_one_writes() {
    let api = Api::start().await;
    let (author, station) = (api.shop.author(), documents::station());
    let twin = || post(&api, author, "/v1/stations", "twin", &station);
    let answers = tokio::join!(twin(), twin(), twin(), twin(), twin(), twin());
    let answers = [answers.0, answers.1, answers.2, answers.3, answers.4, answers.5];
    let written: Vec<_> = answers.iter().filter(|answer| answer.status == 201).collect();
    assert!(!written.is_empty(), "{answers:?}");
    assert!(written.iter().all(|answer| seen(answer) == seen(written[0])));
    for waiting in answers.iter().filter(|answer| answer.status != 201) {
        waiting.problem(409, "still-running");
    }
    assert_eq!(count(&api, "select count(*) from record where kind = 'station'").await, 1);
    assert_eq!(seen(&twin().await), seen(written[0]), "afterwards it is the kept answer");
}

/// A twin that comes while the first is at work: held up here by another session's lock on the record.
#[tokio::test]
async fn a_twin_of_a_running_request_is_told_so() {
    use sqlx::Connection;
    let api = Api::start().await;
    api.shop.write(&api, "consumables", &documents::consumable()).await;
    api.shop.write(&api, "procedures", &documents::procedure()).await;
    let path = "/v1/procedures/WPS-1";
    let draft = etag(&api, path).await;
    let submit = || {
        let call = api.call(Method::POST, &format!("{path}/submission"));
        call.key(api.shop.author()).if_match(&draft).header("idempotency-key", "s").send()
    };
    let mut blocker = crate::behind::superuser(&api).await;
    let mut held = blocker.begin().await.unwrap();
    sqlx::query("select from record where code = 'WPS-1' for update")
        .execute(&mut *held)
        .await
        .unwrap();
    let waiting = async {
        // The first one has its slot once it waits for the record.
        let stuck = "select count(*) from pg_stat_activity
                     where wait_event_type = 'Lock' and datname = current_database()";
        while count(&api, stuck).await == 0 {
            tokio::time::sleep(std::time::Duration::from_millis(10)).await;
        }
        submit().await.problem(409, "still-running");
        held.rollback().await.unwrap();
    };
    let (first, ()) = tokio::join!(submit(), waiting);
    first.expect(200);
    assert_eq!(seen(&submit().await), seen(&first));
}

/// A failed request has written nothing, so its key is free for the corrected one.
#[tokio::test]
async fn a_refused_request_leaves_its_key_free() {
    let api = Api::start().await;
    let author = api.shop.author();
    post(&api, author, "/v1/stations", "k", &json!({ "code": "ST-1" }))
        .await
        .problem(422, "invalid-fields");
    post(&api, author, "/v1/stations", "k", &documents::station()).await.expect(201);
    for unusable in ["", "with blank", &"x".repeat(256)] {
        post(&api, author, "/v1/stations", unusable, &documents::station())
            .await
            .problem(400, "bad-parameter");
    }
}

#[tokio::test]
async fn an_answer_with_a_secret_is_never_kept() {
    let api = Api::start().await;
    let admin = api.shop.admin();
    let body = json!({ "label": "x", "roles": ["reader"] });
    let one = post(&api, admin, "/v1/keys", "k", &body).await.expect(201);
    let two = post(&api, admin, "/v1/keys", "k", &body).await.expect(201);
    assert_ne!(one["secret"], two["secret"]);
    let rotation = format!("/v1/keys/{}/rotation", one["key"].as_str().unwrap());
    post(&api, admin, &rotation, "k", &Value::Null).await.expect(200);
    assert_eq!(count(&api, "select count(*) from retry").await, 0);
    // Nor is it anywhere else: no text of the database holds it.
    for secret in [&one["secret"], &two["secret"]] {
        for table in ["retry", "audit_entry", "api_key"] {
            let found = format!(
                "select count(*) from {table} t where t::text like '%{}%'",
                secret.as_str().unwrap()
            );
            assert_eq!(count(&api, &found).await, 0, "{table}");
        }
    }
}

#[tokio::test]
async fn a_kept_check_is_kept_once_until_the_day_is_over() {
    let api = Api::furnished().await;
    let keep = documents::with(documents::setup(), "/keep", json!(true));
    let ask = || post(&api, api.shop.reader(), "/v1/checks", "evidence", &keep);
    let first = ask().await;
    let id = first.expect(200)["check_id"].clone();
    assert!(id.is_string(), "{first:?}");
    assert_eq!(ask().await.expect(200), first.json());
    assert_eq!(count(&api, "select count(*) from kept_check").await, 1);
    execute(&api, "update retry set created_at = now() - interval '25 hours'").await;
    assert_ne!(ask().await.expect(200)["check_id"], id, "after a day it is a new request");
    assert_eq!(count(&api, "select count(*) from retry").await, 1, "the old answer is gone");
    // Without `keep` nothing is written, and the retry key does nothing.
    post(&api, api.shop.reader(), "/v1/checks", "evidence", &documents::setup()).await.expect(200);
    assert_eq!(count(&api, "select count(*) from kept_check").await, 2);
}

/// What was answered stands, whatever becomes of the records that the setup names.
#[tokio::test]
async fn a_kept_check_answers_again_after_its_station_is_withdrawn() {
    let api = Api::furnished().await;
    let keep = documents::with(documents::setup(), "/keep", json!(true));
    let ask = |retry: &'static str, setup: Value| {
        let api = &api;
        async move { post(api, api.shop.reader(), "/v1/checks", retry, &setup).await }
    };
    let first = ask("evidence", keep.clone()).await;
    first.expect(200);
    let station = api.get(api.shop.reader(), "/v1/stations/ST-1").await;
    let path = "/v1/stations/ST-1/withdrawal";
    api.withdraw(api.shop.approver(), path, station.etag()).await.expect(200);
    assert_eq!(ask("evidence", keep.clone()).await.expect(200), first.json());
    // A new key, or a check that is not kept, has no answer from before.
    for (retry, setup) in [("new", keep.clone()), ("evidence", documents::setup())] {
        let refused = ask(retry, setup).await;
        refused.problem(422, "invalid-fields");
        assert_eq!(refused.pointers(), ["/station"]);
    }
    let other = documents::with(keep, "/settings/current", json!("230 A"));
    ask("evidence", other).await.problem(422, "retry-key-reused");
    assert_eq!(count(&api, "select count(*) from kept_check").await, 1);
}

/// The answer depends on the query too: another one is another request.
#[tokio::test]
async fn other_parameters_are_another_request() {
    let api = Api::furnished().await;
    let setup = documents::with(documents::setup(), "/keep", json!(true));
    let ask = |query: &'static str| {
        let path = format!("/v1/checks?{query}");
        let (api, setup) = (&api, &setup);
        async move { post(api, api.shop.reader(), &path, "k", setup).await }
    };
    let first = ask("units=us&detail=summary").await;
    first.expect(200);
    assert_eq!(seen(&ask("detail=summary&units=us").await), seen(&first));
    for other in ["units=metric&detail=summary", "units=us", "units=us&detail=full"] {
        let refused = ask(other).await;
        refused.problem(422, "retry-key-reused");
        assert_eq!(refused.pointers(), ["Idempotency-Key"]);
    }
    assert_eq!(count(&api, "select count(*) from kept_check").await, 1);
}
