//! A head that was kept elsewhere shows a chain that was rewritten.

use arcbounds::audit::Place;
use serde_json::json;

use super::{expected, export, found, harm, head, prove, told, verify, verify_against};
use crate::support::{Api, documents};

/// The chain shortened by whoever may write everything, so that it fits together again: only a head that was
/// kept elsewhere shows it.
#[tokio::test]
async fn a_kept_head_shows_a_chain_that_was_shortened() {
    let api = Api::start().await;
    let shop = api.found("Shop with a kept head").await;
    let early = head(&api, &shop).await;
    api.shop.write(&api, "stations", &documents::station()).await;
    shop.write(&api, "stations", &documents::station()).await;
    let late = head(&api, &shop).await;
    assert_eq!(late["number"], early["number"].as_i64().unwrap() + 1);
    for kept in [&early, &late] {
        assert_eq!(verify_against(&api, &shop, kept).await["contains_head"], true);
    }
    harm(
        &api,
        &shop,
        &[
            "delete from audit_entry e using audit_head h
             where h.organisation_id = e.organisation_id and h.number = e.number and e.{own}",
            "delete from record_revision where {own}",
            "delete from record where {own}",
            "update audit_head h set number = e.number, hash = e.hash, rulebook_version = (
                 select max(number) from audit_entry r where r.organisation_id = e.organisation_id
                    and r.changes_rules)
             from audit_entry e
             where e.organisation_id = h.organisation_id and e.number = h.number - 1 and h.{own}",
        ],
    )
    .await;
    assert_eq!(told(&verify(&api, &shop).await), [], "it fits together");
    assert_eq!(verify_against(&api, &shop, &early).await["contains_head"], true);
    let shortened = verify_against(&api, &shop, &late).await;
    assert_eq!(shortened["contains_head"], false);
    let number = late["number"].as_i64().unwrap();
    assert_eq!(told(&shortened), expected(&[("head-not-in-chain", number)]));
    let place: Place = serde_json::from_value(late).unwrap();
    let outcome = prove(&export(&api, &shop).await, vec![place]);
    assert_eq!(found(&outcome), expected(&[("head-not-in-chain", number)]));
}

#[tokio::test]
async fn a_head_of_another_chain_is_not_in_this_one() {
    let api = Api::furnished().await;
    let foreign = head(&api, &api.stranger).await;
    let answer = verify_against(&api, &api.shop, &foreign).await;
    assert_eq!(answer["contains_head"], false);
    assert_eq!(told(&answer)[0].0, "head-not-in-chain");
    let own = head(&api, &api.shop).await;
    let upper =
        json!({ "number": own["number"], "hash": own["hash"].as_str().unwrap().to_uppercase() });
    assert_eq!(verify_against(&api, &api.shop, &upper).await["contains_head"], true);
    for (body, pointer) in [
        (json!({ "head": { "number": 1, "hash": "00" } }), "/head/hash"),
        (json!({ "head": { "number": 1, "hash": "x".repeat(64) } }), "/head/hash"),
        (json!({ "head": { "number": -1, "hash": own["hash"] } }), "/head/number"),
        (json!({ "head": { "number": 1 } }), "/head/hash"),
        (json!({ "number": 1 }), "/number"),
    ] {
        let refused = api.post(api.shop.reader(), "/v1/audit/verify", &body).await;
        refused.problem(422, "invalid-fields");
        assert_eq!(refused.pointers(), [pointer], "{body}");
    }
}
