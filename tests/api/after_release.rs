//! What can be done with a released revision while a newer one is written, and what is told of what changed.
//! The service's own promises; there is no outside source to cite.

use serde_json::{Value, json};
use time::{Duration, OffsetDateTime};

use crate::{
    behind::{etag, step},
    life::{PATH, check, narrower, release, revise, sign, submit},
    support::{Answer, Api, documents},
};

async fn act(api: &Api, path: &str, body: &Value) -> Answer {
    let tag = etag(api, PATH).await;
    step(api, api.shop.approver(), &format!("{PATH}/{path}"), &tag, body).await
}

/// Released but not signed, with a newer draft.
async fn unsigned_with_draft() -> Api {
    let api = Api::start().await;
    api.shop.write(&api, "consumables", &documents::consumable()).await;
    api.shop.write(&api, "procedures", &documents::procedure()).await;
    api.shop.write(&api, "stations", &documents::station()).await;
    api.shop.write(&api, "work-orders", &documents::work_order()).await;
    submit(&api).await.expect(200);
    release(&api, &json!({})).await.expect(200);
    revise(&api, &narrower()).await.expect(200);
    api
}

#[tokio::test]
async fn a_released_revision_is_signed_while_a_newer_one_is_a_draft() {
    let api = unsigned_with_draft().await;
    let setup = documents::setup();
    assert_eq!(check(&api, &setup).await["verdict"], "undetermined");
    let statement = |revision: u32| json!({ "statement": "Report seen", "revision": revision });
    let refused = act(&api, "support-signature", &statement(2)).await.problem(409, "conflict");
    assert!(refused["detail"].as_str().unwrap().starts_with("Revision 2 is draft"), "{refused}");
    act(&api, "support-signature", &statement(7)).await.problem(404, "not-found");
    let signed = act(&api, "support-signature", &statement(1)).await.expect(200);
    assert_eq!((&signed["revision"], &signed["state"]), (&json!(1), &json!("released")));
    assert_eq!(check(&api, &setup).await["verdict"], "allowed");
    let newest = api.get(api.shop.reader(), PATH).await.expect(200);
    assert_eq!((&newest["revision"], &newest["state"]), (&json!(2), &json!("draft")));
}

#[tokio::test]
async fn a_released_revision_is_withdrawn_alone_while_a_newer_one_is_a_draft() {
    let api = Api::furnished().await;
    let body = json!({ "revision": 1, "reason": "Cracks found on job 4" });
    let newest = act(&api, "revision-withdrawal", &body).await.problem(409, "conflict");
    assert!(newest["detail"].as_str().unwrap().contains("is the newest"), "{newest}");
    revise(&api, &narrower()).await.expect(200);
    let withdrawn = act(&api, "revision-withdrawal", &body).await.expect(200);
    assert_eq!((&withdrawn["revision"], &withdrawn["state"]), (&json!(1), &json!("withdrawn")));
    assert_eq!(check(&api, &documents::setup()).await["verdict"], "not-allowed");
    act(&api, "revision-withdrawal", &body).await.problem(409, "conflict");
    // The draft goes on.
    submit(&api).await.expect(200);
    release(&api, &json!({})).await.expect(200);
    sign(&api).await.expect(200);
    assert_eq!(check(&api, &documents::setup()).await["held_to"]["revision"], 2);
    let history = api.get(api.shop.reader(), &format!("{PATH}/history")).await.expect(200);
    let events = history["revisions"][0]["events"].as_array().unwrap();
    assert_eq!(events.last().unwrap()["reason"], "Cracks found on job 4");
}

/// ISO 9606-1:2012, table 10 (from memory): a fillet welded in PB qualifies PA and PB, not PF.
#[tokio::test]
async fn a_release_tells_its_effects_and_the_welders_it_leaves_behind() {
    let api = Api::furnished().await;
    let tested_on = OffsetDateTime::now_utc().date() - Duration::days(30);
    let pointer = "/qualifications/0/welded_on";
    let welder = documents::with(documents::welder(), pointer, json!(tested_on.to_string()));
    api.shop.write(&api, "welders", &welder).await;
    let kept = documents::with(documents::setup(), "/keep", json!(true));
    api.post(api.shop.reader(), "/v1/checks", &kept).await.expect(200);
    let next = documents::with(narrower(), "/positions", json!(["PA", "PB", "PF"]));
    revise(&api, &next).await.expect(200);
    submit(&api).await.expect(200);
    let foreseen = api.get(api.shop.reader(), &format!("{PATH}/effects")).await.expect(200);
    let released = release(&api, &json!({})).await.expect(200);
    assert_eq!(released["state"], "released");
    // At once, as it was foreseen.
    let done = documents::with(foreseen.clone(), "/state", json!("released"));
    assert_eq!(released["effects"], done);
    assert_eq!(foreseen["replaces"], json!([1]));
    assert_eq!(foreseen["checks"][0]["after"], "not-allowed");
    let welders = foreseen["welders"].as_array().unwrap();
    assert_eq!(welders.len(), 1, "{foreseen:#}");
    assert_eq!(welders[0]["welder"], documents::WELDER);
    let jobs = welders[0]["jobs"].as_array().unwrap();
    assert!(!jobs.is_empty());
    for job in jobs {
        let job = job.as_str().unwrap();
        assert!(job.starts_with("fillet PF") && job.contains("ISO 9606-1"), "{job}");
    }
}

#[tokio::test]
async fn a_consumable_changed_after_the_release_is_told_by_review_and_print() {
    let api = Api::furnished().await;
    let review = async || {
        api.get(api.shop.reader(), &format!("{PATH}/review")).await.expect(200)["changed_since_release"]
            .clone()
    };
    let print = async || api.get(api.shop.reader(), &format!("{PATH}/print")).await.text;
    assert_eq!(review().await, json!([]));
    assert!(!print().await.contains("was revised"));
    let path = format!("/v1/consumables/{}", documents::CONSUMABLE);
    let other = documents::with(documents::consumable(), "/name", json!("Another wire"));
    api.put(api.shop.author(), &path, &etag(&api, &path).await, &other).await.expect(200);
    let changed = review().await;
    assert_eq!(changed.as_array().unwrap().len(), 1);
    let one = &changed[0];
    assert_eq!((&one["kind"], &one["code"]), (&json!("consumable"), &json!("FCW-1")));
    assert_eq!((&one["at_release"], &one["now"]), (&json!(1), &json!(2)));
    assert!(one["advice"].as_str().unwrap().contains("revise the procedure"));
    let words = "Since the release consumable FCW-1 was revised: revision 2 now, revision 1 then.";
    assert!(print().await.contains(words));
}

/// The judgement of the release stays; the review tells that the record was corrected since.
#[tokio::test]
async fn a_corrected_record_changes_no_verdict_and_the_review_says_so() {
    let api = Api::furnished().await;
    api.shop.write(&api, "consumables", &documents::tested_consumable()).await;
    api.shop.write(&api, "procedures", &documents::supported_procedure()).await;
    api.shop.release(&api, documents::SUPPORTED).await;
    let setup = documents::supported_setup();
    let before = check(&api, &setup).await;
    let path = format!("/v1/qualifications/{}", documents::QUALIFICATION);
    // The plate was 3 mm thick: it would no longer qualify 10 to 20 mm.
    let mut corrected = documents::qualification();
    for part in corrected["pieces"][0]["parts"].as_array_mut().unwrap() {
        part["thickness"] = json!("3 mm");
    }
    let reason = "?reason=Thickness%20misread";
    let tag = etag(&api, &path).await;
    api.put(api.shop.author(), &format!("{path}{reason}"), &tag, &corrected).await.expect(200);
    api.shop.sign_qualification(&api, documents::QUALIFICATION).await;
    let after = check(&api, &setup).await;
    assert_eq!(after["verdict"], before["verdict"]);
    assert_eq!(after["findings"], before["findings"]);
    let review = format!("/v1/procedures/{}/review", documents::SUPPORTED);
    let review = api.get(api.shop.reader(), &review).await.expect(200);
    assert_eq!(review["release_refused"], true, "by the record as it stands");
    let changed = &review["changed_since_release"];
    assert_eq!(changed.as_array().unwrap().len(), 1, "{changed}");
    assert_eq!(changed[0]["kind"], "qualification record");
    assert_eq!((&changed[0]["at_release"], &changed[0]["now"]), (&json!(1), &json!(2)));
    assert!(changed[0]["advice"].as_str().unwrap().contains("checks stay with that judgement"));
}
