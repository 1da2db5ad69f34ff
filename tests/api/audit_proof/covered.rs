//! What entries cover, and those from before they covered it.

use arcbounds::access::Role;
use serde_json::{Value, json};
use sqlx::{Connection, PgConnection};

use super::{expected, export, found, harm, lines, prove, told, verify};
use crate::{
    behind::{administer, etag, key, person, step},
    support::{Api, Shop, documents},
};

/// What happened before entries told of rows is proved as it was written then; what comes after is covered.
#[tokio::test]
async fn entries_of_the_first_format_still_verify() {
    let api = Api::start().await;
    let shop = api.found("Shop of old").await;
    shop.furnish(&api).await;
    rewrite_in_the_first_format(&api, &shop).await;
    assert_eq!(told(&verify(&api, &shop).await), []);
    let text = export(&api, &shop).await;
    assert_eq!(lines(&text)[14]["entry"].get("format"), None);
    assert_eq!(found(&prove(&text, Vec::new())), []);
    // The next step is told.
    let path = format!("/v1/procedures/{}", documents::PROCEDURE);
    let now = api.get(shop.reader(), &path).await;
    api.withdraw(shop.approver(), &format!("{path}/withdrawal"), now.etag()).await.expect(200);
    assert_eq!(told(&verify(&api, &shop).await), []);
    let last = lines(&export(&api, &shop).await)[20].clone();
    assert_eq!(last["entry"]["format"], 2);
    assert_eq!(last["details"]["procedure-event"][0]["event"], "withdrawn");
    harm(
        &api,
        &shop,
        &["update record_revision set document = '{}' where code = 'WPS-1' and {own}"],
    )
    .await;
    assert_eq!(told(&verify(&api, &shop).await), expected(&[("document-altered", 12)]));
    // What is younger than the entries that told of no rows has to be told of.
    let slip = "insert into qualification_signature (organisation_id, code, revision, edit, document_hash,
                    person_id, key_id, statement, at)
                select organisation_id, code, 9, 1, document_hash, person_id, key_id, 'x', now() + '2 hours'
                from qualification_signature where {own}";
    harm(&api, &shop, &[slip]).await;
    let faults = expected(&[("document-altered", 12), ("row-not-in-chain", 0)]);
    assert_eq!(told(&verify(&api, &shop).await), faults);
}

/// Writes every entry again as it would have been written before entries had details, by the description of
/// that format.
async fn rewrite_in_the_first_format(api: &Api, shop: &Shop) {
    use sha2::{Digest, Sha256};

    let mut connection = PgConnection::connect(&api.superuser_url()).await.unwrap();
    let mut previous = "0".repeat(64);
    for line in lines(&export(api, shop).await) {
        let Some(entry) = line.get("entry") else { continue };
        let mut entry = entry.clone();
        let members = entry.as_object_mut().unwrap();
        members.remove("format");
        members.remove("details");
        members.insert("previous".to_owned(), json!(previous));
        let hash = Sha256::digest(arcbounds::database::canonical_bytes(&entry));
        sqlx::query(
            "update audit_entry set format = 1, details = null, details_hash = null,
                 previous_hash = decode($3, 'hex'), hash = $4
             where organisation_id = $1 and number = $2",
        )
        .bind(shop.organisation)
        .bind(entry["number"].as_i64())
        .bind(&previous)
        .bind(hash.as_slice())
        .execute(&mut connection)
        .await
        .unwrap();
        previous = hex::encode(hash);
    }
    sqlx::query("update audit_head set hash = decode($2, 'hex') where organisation_id = $1")
        .bind(shop.organisation)
        .bind(previous)
        .execute(&mut connection)
        .await
        .unwrap();
}

/// The judgement that a release kept: the floor is held to it.
#[tokio::test]
async fn a_kept_judgement_is_covered() {
    let api = Api::furnished().await;
    api.shop.write(&api, "consumables", &documents::tested_consumable()).await;
    api.shop.write(&api, "procedures", &documents::supported_procedure()).await;
    api.shop.release(&api, documents::SUPPORTED).await;
    assert_eq!(told(&verify(&api, &api.shop).await), []);
    let lines = lines(&export(&api, &api.shop).await);
    let released = lines.iter().find(|line| {
        line["entry"]["action"] == "released" && line["entry"]["subject"] == documents::SUPPORTED
    });
    let released = released.unwrap();
    let kept = &released["details"]["release-judgement"][0]["judgement"];
    assert_eq!(kept["ruling"], "qualified");
    let number = released["entry"]["number"].as_i64().unwrap();
    harm(
        &api,
        &api.shop,
        &["update procedure_support set judgement = jsonb_set(judgement, '{not_judged}', '[]'),
               at = at + interval '1 second' where {own}"],
    )
    .await;
    let faults = expected(&[("row-altered", number), ("row-not-in-chain", 0)]);
    assert_eq!(told(&verify(&api, &api.shop).await), faults);
    harm(&api, &api.shop, &["delete from procedure_support where {own}"]).await;
    assert_eq!(told(&verify(&api, &api.shop).await), expected(&[("row-altered", number)]));
}

/// Does everything that people do to welders, attachments, keys, people, settings and procedures.
async fn do_everything(api: &Api) {
    let (author, approver) = (api.shop.author(), api.shop.approver());
    api.shop.write(api, "welders", &documents::welder()).await;
    let path = "/v1/welders/W-1";
    let signed = json!({ "qualification": "Q1", "event": "range-signed", "reason": "Compared" });
    let now = etag(api, path).await;
    step(api, approver, &format!("{path}/events"), &now, &signed).await.expect(200);
    let name = json!({ "name": "Somebody", "retention": "five years" });
    let call = api.call(reqwest::Method::PUT, &format!("{path}/name")).key(author);
    call.if_match("\"v0\"").json(&name).send().await.expect(200);
    let photo = ("image/png", documents::PNG);
    let photo = api.shop.attach(api, documents::QUALIFICATION, "photo.png", photo).await;
    let path = format!("/v1/qualifications/{}/attachments/{photo}", documents::QUALIFICATION);
    let because = json!({ "reason": "Of another test" });
    api.post(author, &format!("{path}/withdrawal"), &because).await.expect(200);
    api.shop.write(api, "consumable-batches", &documents::batch()).await;
    let opened = json!({ "portion": "P-1", "event": "opened" });
    let path = format!("/v1/consumable-batches/{}/events", documents::BATCH);
    api.post(author, &path, &opened).await.expect(201);
    let rules = json!({ "rules": ["fill-thickness-wire"], "copy": "Our copy" });
    let path = "/v1/rule-packs/aws-d1.1-2020-prequalified/signatures";
    let signed = api.post(approver, path, &rules).await.expect(201);
    let path = format!("{path}/{}/withdrawal", signed["signature"].as_str().unwrap());
    api.post(approver, &path, &json!({ "reason": "A misprint" })).await.expect(200);
    let who = person(api, "Somebody", &[Role::Reader]).await;
    let (key, _) = key(api, &json!({ "label": "x", "roles": ["reader"], "person": who })).await;
    for last in ["rotation", "revocation"] {
        let path = format!("/v1/keys/{key}/{last}");
        api.post(api.shop.admin(), &path, &Value::Null).await.expect(200);
    }
    let changed = json!({ "name": "Somebody", "roles": ["author"], "active": false });
    administer(api, &format!("/v1/people/{who}"), &changed).await.expect(200);
    let settings = api.get(api.shop.admin(), "/v1/organisation").await.expect(200);
    let settings = documents::with(settings["settings"].clone(), "/units", json!("us"));
    administer(api, "/v1/organisation", &settings).await.expect(200);
    let procedure = "/v1/procedures/WPS-1";
    let reason = format!("{procedure}?reason=Wider%20voltage");
    let edited = documents::with(documents::procedure(), "/note", json!("Edited"));
    for document in [documents::procedure(), edited, documents::procedure()] {
        api.put(author, &reason, &etag(api, procedure).await, &document).await.expect(200);
    }
    api.shop.release(api, documents::PROCEDURE).await;
    for path in [procedure, "/v1/qualifications/PQR-1", "/v1/stations/ST-1"] {
        let now = etag(api, path).await;
        api.withdraw(approver, &format!("{path}/withdrawal"), &now).await.expect(200);
    }
}

#[tokio::test]
async fn a_chain_with_every_kind_of_row_is_whole() {
    let api = Api::furnished().await;
    do_everything(&api).await;
    assert_eq!(told(&verify(&api, &api.shop).await), []);
    let text = export(&api, &api.shop).await;
    assert_eq!(found(&prove(&text, Vec::new())), []);
    let lines = lines(&text);
    let detail =
        |pointer: &str| lines.iter().filter(|line| line.pointer(pointer).is_some()).count();
    for (pointer, count) in [
        ("/details/welder-event/0/test", 1),
        ("/details/attachment-withdrawal/0/reason", 1),
        // The founder, three members with a name, and the one above when added and when changed.
        ("/details/person/0/roles", 6),
        ("/details/key/0/revoked_at", 1),
        ("/details/batch-event/0/event", 1),
        ("/details/rule-signature/0/copy", 1),
        ("/details/signed-rule/0/hash", 1),
        ("/details/rule-signature-withdrawal/0/reason", 1),
        ("/details/withdrawal/0/reason", 3),
    ] {
        assert_eq!(detail(pointer), count, "{pointer}");
    }
    let reasons = lines.iter().filter(|l| l["details"]["revision"][0]["reason"] == "Wider voltage");
    assert_eq!(reasons.count(), 3);
    // What was superseded and what was withdrawn stand in the entry of the step that did it.
    let events = |action: &str, entry: usize| {
        let of = |line: &&Value| {
            line["entry"]["action"] == action && line["entry"]["kind"] == "procedure"
        };
        let found = lines.iter().filter(of).nth(entry).unwrap();
        let events = found["details"]["procedure-event"].as_array().unwrap().iter();
        events.map(|e| e["event"].as_str().unwrap().to_owned()).collect::<Vec<_>>()
    };
    let mut both = events("released", 1);
    both.sort_unstable();
    assert_eq!(both, ["released", "superseded"]);
    assert_eq!(events("withdrawn", 0), ["withdrawn", "withdrawn"]);
}
