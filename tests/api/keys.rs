//! Keys: made, shown once, rotated, revoked, expired, and never more than their person.

use arcbounds::access::Role;
use serde_json::{Value, json};
use sha2::{Digest, Sha256};

use crate::{
    behind::{administer, count, execute, key, key_of, person, rows},
    support::{Api, documents},
};

/// Status of a read with this key.
async fn status(api: &Api, secret: &str) -> u16 {
    api.get(secret, "/v1/stations").await.status
}

async fn change(api: &Api, person: &str, name: &str, roles: &[Role], active: bool) {
    let roles: Vec<_> = roles.iter().map(ToString::to_string).collect();
    let body = json!({ "name": name, "roles": roles, "active": active });
    administer(api, &format!("/v1/people/{person}"), &body).await.expect(200);
}

async fn listed(api: &Api, id: &str) -> Value {
    let all = api.get(api.shop.admin(), "/v1/keys").await.expect(200);
    let items = all["items"].as_array().unwrap();
    items.iter().find(|item| item["key"] == id).unwrap().clone()
}

#[tokio::test]
async fn a_secret_is_shown_once_and_only_its_hash_is_kept() {
    let api = Api::start().await;
    let (id, secret) = key(&api, &json!({ "label": "terminal", "roles": ["reader"] })).await;
    assert_eq!(status(&api, &secret).await, 200);
    let list = api.get(api.shop.admin(), "/v1/keys").await;
    assert!(list.text.contains(&id), "{}", list.text);
    for shown in ["secret", "arcbounds_", &secret] {
        assert!(!list.text.contains(shown), "{shown} in {}", list.text);
    }
    let kept = rows(&api, "select secret_hash, label from api_key where label = 'terminal'").await;
    let hash = format!("\\x{}", hex::encode(Sha256::digest(secret.as_bytes())));
    assert_eq!(kept, [json!({ "secret_hash": hash, "label": "terminal" })]);
    api.post(api.shop.author(), "/v1/keys", &json!({ "label": "x", "roles": ["reader"] }))
        .await
        .problem(403, "wrong-role");
}

#[tokio::test]
async fn rotation_and_revocation_stop_a_secret_at_once() {
    let api = Api::start().await;
    let (id, first) = key(&api, &json!({ "label": "terminal", "roles": ["reader"] })).await;
    let rotation = format!("/v1/keys/{id}/rotation");
    let rotated = api.post(api.shop.admin(), &rotation, &Value::Null).await.expect(200);
    let second = rotated["secret"].as_str().unwrap();
    assert_eq!(rotated["key"], id.as_str());
    assert_eq!((status(&api, &first).await, status(&api, second).await), (401, 200));

    let revocation = format!("/v1/keys/{id}/revocation");
    let revoked = api.post(api.shop.admin(), &revocation, &Value::Null).await;
    assert!(revoked.expect(200)["revoked_at"].is_string());
    assert!(!revoked.header("rulebook-version").is_empty());
    assert_eq!(status(&api, second).await, 401);
    api.get(second, "/v1/stations").await.problem(401, "no-key");
    for path in [&revocation, &rotation] {
        api.post(api.shop.admin(), path, &Value::Null).await.problem(404, "not-found");
    }
    assert!(listed(&api, &id).await["revoked_at"].is_string(), "it stays in the list");
}

#[tokio::test]
async fn a_key_works_through_its_last_day_and_no_longer() {
    let api = Api::start().await;
    let today = time::OffsetDateTime::now_utc().date();
    let until = |day: time::Date| json!({ "label": "visitor", "roles": ["reader"], "expires": day.to_string() });
    let (_, works) = key(&api, &until(today.next_day().unwrap())).await;
    let (id, over) = key(&api, &until(today.previous_day().unwrap())).await;
    assert_eq!((status(&api, &works).await, status(&api, &over).await), (200, 401));
    let midnight = format!("{today}T00:00:00Z");
    assert_eq!(listed(&api, &id).await["expires_at"], midnight.as_str());
    // By the organisation's own day: five hours west of Greenwich it ends five hours later.
    let read = api.get(api.shop.admin(), "/v1/organisation").await;
    let settings =
        documents::with(read.json()["settings"].clone(), "/time_zone", json!("Etc/GMT+5"));
    api.put(api.shop.admin(), "/v1/organisation", read.etag(), &settings).await.expect(200);
    let (id, _) = key(&api, &until(time::macros::date!(2031 - 03 - 01))).await;
    assert_eq!(listed(&api, &id).await["expires_at"], "2031-03-02T05:00:00Z");
}

#[tokio::test]
async fn a_key_has_no_role_that_its_person_does_not_have() {
    let api = Api::start().await;
    let who = person(&api, "Writer of wires", &[Role::Author, Role::Reader]).await;
    let asked = json!({ "label": "x", "roles": ["author", "approver"], "person": who });
    let refused = api.post(api.shop.admin(), "/v1/keys", &asked).await;
    assert!(refused.problem(422, "invalid-fields").to_string().contains("approver"));
    assert_eq!(refused.pointers(), ["/roles"]);

    // A role that is taken from the person is taken from the keys, and comes back with it.
    let secret = key_of(&api, &who, Role::Author).await;
    api.post(&secret, "/v1/stations", &documents::station()).await.expect(201);
    change(&api, &who, "Writer of wires", &[Role::Reader], true).await;
    let other = documents::with(documents::station(), "/code", json!("ST-2"));
    api.post(&secret, "/v1/stations", &other).await.problem(403, "wrong-role");
    change(&api, &who, "Writer of wires", &[Role::Reader, Role::Author], true).await;
    api.post(&secret, "/v1/stations", &other).await.expect(201);
}

#[tokio::test]
async fn the_keys_of_somebody_who_left_stop_at_once() {
    let api = Api::start().await;
    let who = person(&api, "Leaver", &[Role::Reader]).await;
    let secret = key_of(&api, &who, Role::Reader).await;
    assert_eq!(status(&api, &secret).await, 200);
    change(&api, &who, "Leaver", &[Role::Reader], false).await;
    api.get(&secret, "/v1/stations").await.problem(401, "no-key");
    let asked = json!({ "label": "x", "roles": ["reader"], "person": who });
    let refused = api.post(api.shop.admin(), "/v1/keys", &asked).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/person"]);
    change(&api, &who, "Leaver", &[Role::Reader], true).await;
    assert_eq!(status(&api, &secret).await, 200);
}

#[tokio::test]
async fn a_kiosk_speaks_for_its_own_station_only() {
    let api = Api::furnished().await;
    let other = documents::with(documents::station(), "/code", json!("ST-2"));
    api.shop.write(&api, "stations", &other).await;
    let kiosk = api.shop.kiosk(&api, documents::STATION).await;
    let left_out = documents::with(documents::setup(), "/station", Value::Null);
    let answer = api.post(&kiosk, "/v1/checks?detail=full", &left_out).await.expect(200);
    let stated = answer["findings"]
        .as_array()
        .unwrap()
        .iter()
        .any(|finding| finding["owner"]["kind"] == "station" && finding["outcome"] == "inside");
    assert!(stated, "held to its own station: {answer:#}");
    let foreign = documents::with(documents::setup(), "/station", json!("ST-2"));
    for path in ["/v1/checks", "/v1/windows"] {
        let refused = api.post(&kiosk, path, &foreign).await;
        refused.problem(422, "invalid-fields");
        assert_eq!(refused.pointers(), ["/station"]);
    }
    api.post(&kiosk, "/v1/stations", &other).await.problem(403, "wrong-role");
}

#[tokio::test]
async fn a_key_stands_for_one_known_holder() {
    let api = Api::furnished().await;
    let who = person(&api, "Somebody", &[Role::Reader]).await;
    let nobody = "019ab3c4-5d6e-7f80-91a2-b3c4d5e6f708";
    let table = [
        (json!({ "label": "x", "roles": [] }), "/roles"),
        (json!({ "label": "x", "roles": ["station"] }), "/station"),
        (json!({ "label": "x", "roles": ["station"], "station": "ST-9" }), "/station"),
        (
            json!({ "label": "x", "roles": ["reader"], "station": "ST-1", "person": who }),
            "/station",
        ),
        (json!({ "label": "x", "roles": ["reader"], "person": nobody }), "/person"),
        (json!({ "label": "x", "roles": ["owner"] }), "/roles/0"),
    ];
    let before = count(&api, "select count(*) from api_key").await;
    for (body, pointer) in table {
        let refused = api.post(api.shop.admin(), "/v1/keys", &body).await;
        refused.problem(422, "invalid-fields");
        assert_eq!(refused.pointers(), [pointer], "{body}");
    }
    assert_eq!(count(&api, "select count(*) from api_key").await, before);
}

/// The last use is flushed in batches. Neither a reload of the rulebook nor a failed write loses it.
#[tokio::test]
async fn the_last_use_of_a_key_is_written() {
    let api = Api::start().await;
    let (used, secret) = key(&api, &json!({ "label": "used", "roles": ["reader"] })).await;
    let (unused, _) = key(&api, &json!({ "label": "unused", "roles": ["reader"] })).await;
    let start = time::OffsetDateTime::now_utc().unix_timestamp();
    assert_eq!(status(&api, &secret).await, 200);
    // A write reloads the keys.
    api.shop.write(&api, "stations", &documents::station()).await;
    execute(&api, "revoke update on api_key from arcbounds_app").await;
    execute(&api, "revoke update (last_used_at) on api_key from arcbounds_app").await;
    assert!(api.state().rulebooks.flush_last_use().await.is_err());
    execute(&api, "grant update (last_used_at) on api_key to arcbounds_app").await;
    api.state().rulebooks.flush_last_use().await.unwrap();
    let written = listed(&api, &used).await;
    let at = written["last_used_at"].as_str().unwrap_or_else(|| panic!("{written}"));
    let at = time::OffsetDateTime::parse(at, &time::format_description::well_known::Rfc3339);
    let at = at.unwrap().unix_timestamp();
    assert!((start..start + 60).contains(&at), "{at} after {start}");
    assert_eq!(listed(&api, &unused).await["last_used_at"], Value::Null);
}

#[tokio::test]
async fn a_person_keeps_at_least_one_role() {
    let api = Api::start().await;
    let who = person(&api, "Somebody", &[Role::Reader]).await;
    let none = json!({ "name": "Somebody", "roles": [] });
    let refused = administer(&api, &format!("/v1/people/{who}"), &none).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/roles"]);
}

/// Nobody asks for a revoked key again, so its last use is written as it goes.
#[tokio::test]
async fn the_last_use_of_a_revoked_key_is_kept() {
    let api = Api::start().await;
    let (id, secret) = key(&api, &json!({ "label": "x", "roles": ["reader"] })).await;
    assert_eq!(status(&api, &secret).await, 200);
    let path = format!("/v1/keys/{id}/revocation");
    api.post(api.shop.admin(), &path, &Value::Null).await.expect(200);
    assert!(listed(&api, &id).await["last_used_at"].is_string());
}

/// A stream of checks can last longer than the key that opened it.
#[tokio::test]
async fn a_stream_ends_when_its_key_is_revoked() {
    use tokio::io::{AsyncBufReadExt, AsyncWriteExt, BufReader};

    let api = Api::furnished().await;
    let (id, secret) = key(&api, &json!({ "label": "x", "roles": ["reader"] })).await;
    let host = api.address().strip_prefix("http://").unwrap();
    let stream = tokio::net::TcpStream::connect(host).await.unwrap();
    let (answers, mut requests) = stream.into_split();
    let mut answers = BufReader::new(answers).lines();
    let head = format!(
        "POST /v1/checks/stream HTTP/1.1\r\nhost: {host}\r\nauthorization: Bearer {secret}\r\n\
         content-type: application/x-ndjson\r\ntransfer-encoding: chunked\r\n\r\n"
    );
    requests.write_all(head.as_bytes()).await.unwrap();
    let line = json!({ "id": "W1", "setup": documents::setup() }).to_string() + "\n";
    let chunk = format!("{:x}\r\n{line}\r\n", line.len());
    // The next line of the answer that is one of the stream, past heads and sizes of chunks.
    let mut next = async || loop {
        let text = answers.next_line().await.unwrap()?;
        if text.starts_with('{') {
            return Some(serde_json::from_str::<Value>(&text).unwrap());
        }
    };
    requests.write_all(chunk.as_bytes()).await.unwrap();
    assert_eq!(next().await.unwrap()["answer"]["verdict"], "allowed");
    let path = format!("/v1/keys/{id}/revocation");
    api.post(api.shop.admin(), &path, &Value::Null).await.expect(200);
    requests.write_all(chunk.as_bytes()).await.unwrap();
    let refused = next().await.unwrap();
    assert_eq!(refused["problem"]["type"], "/problems/no-key", "{refused}");
    assert_eq!(refused.get("answer"), None);
    // The body is still open, and nothing more comes.
    let end = tokio::time::timeout(std::time::Duration::from_secs(5), next()).await;
    assert_eq!(end.unwrap(), None);
}
