//! The life of a procedure, from draft to withdrawal, and who may take which step.

use arcbounds::access::Role;
use serde_json::{Value, json};

use crate::{
    behind::{count, etag, key_of, person, rows, step},
    support::{Answer, Api, documents},
};

pub const PATH: &str = "/v1/procedures/WPS-1";

/// A shop with a consumable, a station, a work order, and the procedure as a draft.
async fn with_draft() -> Api {
    let api = Api::start().await;
    api.shop.write(&api, "consumables", &documents::consumable()).await;
    api.shop.write(&api, "procedures", &documents::procedure()).await;
    api.shop.write(&api, "stations", &documents::station()).await;
    api.shop.write(&api, "work-orders", &documents::work_order()).await;
    api
}

pub async fn submit(api: &Api) -> Answer {
    let etag = etag(api, PATH).await;
    api.act(api.shop.author(), &format!("{PATH}/submission"), &etag).await
}

pub async fn release(api: &Api, body: &Value) -> Answer {
    let etag = etag(api, PATH).await;
    step(api, api.shop.approver(), &format!("{PATH}/release"), &etag, body).await
}

pub async fn sign(api: &Api) -> Answer {
    let (etag, body) = (etag(api, PATH).await, json!({ "statement": "Test report seen" }));
    step(api, api.shop.approver(), &format!("{PATH}/support-signature"), &etag, &body).await
}

async fn send_back(api: &Api) -> Answer {
    let (etag, body) = (etag(api, PATH).await, json!({ "reason": "Preheat is missing" }));
    step(api, api.shop.approver(), &format!("{PATH}/return"), &etag, &body).await
}

pub async fn revise(api: &Api, document: &Value) -> Answer {
    api.put(api.shop.author(), PATH, &etag(api, PATH).await, document).await
}

pub async fn check(api: &Api, setup: &Value) -> Value {
    api.post(api.shop.reader(), "/v1/checks", setup).await.expect(200)
}

pub fn finding<'a>(answer: &'a Value, check: &str) -> &'a Value {
    let all = answer["findings"].as_array().unwrap();
    all.iter().find(|finding| finding["check"] == check).unwrap_or(&Value::Null)
}

/// The procedure with a current so narrow that 220 A of the setup is outside.
pub fn narrower() -> Value {
    documents::with(documents::procedure(), "/runs/0/limits/current", json!("205 to 215 A"))
}

#[tokio::test]
async fn a_revision_goes_from_draft_to_withdrawal_with_two_people() {
    let api = with_draft().await;
    let setup = documents::setup();
    let answer = check(&api, &setup).await;
    assert_eq!(answer["verdict"], "not-allowed", "a draft is not released");
    assert_eq!(finding(&answer, "procedure-in-force")["outcome"], "outside");

    assert_eq!(submit(&api).await.expect(200)["state"], "in-review");
    revise(&api, &documents::procedure()).await.problem(409, "conflict");
    assert_eq!(send_back(&api).await.expect(200)["state"], "draft");
    let edited = documents::with(documents::procedure(), "/note", json!("Preheat stated"));
    let edited = revise(&api, &edited).await.expect(200);
    assert_eq!((&edited["revision"], &edited["edit"]), (&json!(1), &json!(2)));
    submit(&api).await.expect(200);
    assert_eq!(release(&api, &json!({})).await.expect(200)["state"], "released");

    let answer = check(&api, &setup).await;
    assert_eq!(answer["verdict"], "undetermined", "nobody has signed: {answer:#}");
    assert_eq!(finding(&answer, "support")["outcome"], "not-given");
    sign(&api).await.expect(200);
    assert_eq!(check(&api, &setup).await["verdict"], "allowed", "the signature lifts it");

    let next = revise(&api, &narrower()).await.expect(200);
    assert_eq!((&next["revision"], &next["state"]), (&json!(2), &json!("draft")));
    assert_eq!(check(&api, &setup).await["verdict"], "allowed", "revision 1 stays in force");

    let withdrawal = format!("{PATH}/withdrawal");
    api.withdraw(api.shop.approver(), &withdrawal, &etag(&api, PATH).await).await.expect(200);
    let answer = check(&api, &setup).await;
    assert_eq!(answer["verdict"], "not-allowed");
    let reason = finding(&answer, "procedure-in-force")["reason"].as_str().unwrap();
    assert!(reason.contains("withdrawn"), "{reason}");
    revise(&api, &documents::procedure()).await.problem(409, "conflict");

    let history = api.get(api.shop.reader(), &format!("{PATH}/history")).await.expect(200);
    let revision = &history["revisions"][0];
    let edits = revision["edits"].as_array().unwrap();
    assert_eq!(edits.len(), 2);
    assert_ne!(edits[0]["document_hash"], edits[1]["document_hash"]);
    let of = |revision: &Value| -> Vec<String> {
        let events = revision["events"].as_array().unwrap().iter();
        events.map(|event| event["event"].as_str().unwrap().to_owned()).collect()
    };
    let first = ["submitted", "returned", "submitted", "released", "support-signed", "withdrawn"];
    assert_eq!(of(revision), first);
    assert_eq!(revision["events"][1]["reason"], "Preheat is missing");
    assert_ne!(revision["events"][0]["person"], revision["events"][3]["person"]);
    assert_eq!(of(&history["revisions"][1]), ["withdrawn"]);
    assert_eq!(history["revisions"][1]["state"], "withdrawn");
}

/// A signature is for what was signed: what the author changes afterwards has to be signed again.
#[tokio::test]
async fn a_returned_revision_loses_its_signature() {
    let api = with_draft().await;
    submit(&api).await.expect(200);
    sign(&api).await.expect(200);
    send_back(&api).await.expect(200);
    let wider =
        documents::with(documents::procedure(), "/runs/0/limits/current", json!("100 to 400 A"));
    revise(&api, &wider).await.expect(200);
    submit(&api).await.expect(200);
    release(&api, &json!({})).await.expect(200);
    let answer = check(&api, &documents::setup()).await;
    assert_eq!(answer["verdict"], "undetermined", "{answer:#}");
    assert_eq!(finding(&answer, "support")["outcome"], "not-given");
    sign(&api).await.expect(200);
    assert_eq!(check(&api, &documents::setup()).await["verdict"], "allowed");
}

#[tokio::test]
async fn whoever_wrote_a_part_cannot_approve_with_any_key() {
    let api = Api::start().await;
    api.shop.write(&api, "consumables", &documents::consumable()).await;
    let both = person(&api, "Writes and approves", &[Role::Author, Role::Approver]).await;
    let writes = key_of(&api, &both, Role::Author).await;
    let approves = key_of(&api, &both, Role::Approver).await;
    api.post(&writes, "/v1/procedures", &documents::procedure()).await.expect(201);
    // Somebody else edits it and hands it in: two authors now.
    revise(&api, &narrower()).await.expect(200);
    submit(&api).await.expect(200);
    let (now, statement) = (etag(&api, PATH).await, json!({ "statement": "Seen" }));
    for (last, body) in [("release", json!({})), ("support-signature", statement)] {
        let refused = step(&api, &approves, &format!("{PATH}/{last}"), &now, &body).await;
        refused.problem(409, "conflict");
    }
    assert_eq!(etag(&api, PATH).await, now, "nothing was written");
    release(&api, &json!({})).await.expect(200);
    // The next revision is by the other author alone, so the first one may approve it.
    revise(&api, &documents::procedure()).await.expect(200);
    submit(&api).await.expect(200);
    let now = etag(&api, PATH).await;
    step(&api, &approves, &format!("{PATH}/release"), &now, &json!({})).await.expect(200);
}

/// A key that stands for nobody cannot approve; what such a key wrote has no author who is not the
/// approver, so nobody can approve it.
#[tokio::test]
async fn approvals_need_persons_on_both_sides() {
    let api = with_draft().await;
    submit(&api).await.expect(200);
    let body = json!({ "label": "software", "roles": ["author", "approver"] });
    let (_, software) = crate::behind::key(&api, &body).await;
    let path = format!("{PATH}/release");
    let refused = step(&api, &software, &path, &etag(&api, PATH).await, &json!({})).await;
    refused.problem(403, "wrong-role");

    let other = documents::with(documents::procedure(), "/number", json!("WPS-2"));
    api.post(&software, "/v1/procedures", &other).await.expect(201);
    let path = "/v1/procedures/WPS-2";
    let submission = format!("{path}/submission");
    api.act(api.shop.author(), &submission, &etag(&api, path).await).await.expect(200);
    let (now, release) = (etag(&api, path).await, format!("{path}/release"));
    let refused = step(&api, api.shop.approver(), &release, &now, &json!({})).await;
    let problem = refused.problem(409, "conflict");
    let detail = problem["detail"].as_str().unwrap();
    assert!(detail.contains("no author is named") && detail.contains("write it anew"), "{detail}");
    assert!(!detail.starts_with("Whoever wrote"), "the approver did not: {detail}");
}

#[tokio::test]
async fn every_step_is_refused_from_the_wrong_state() {
    let api = with_draft().await;
    let steps = ["submission", "return", "release", "support-signature"];
    let refused = async |state: &str, allowed: &[&str]| {
        let now = etag(&api, PATH).await;
        for last in steps.iter().filter(|last| !allowed.contains(last)) {
            let path = format!("{PATH}/{last}");
            let answer = match *last {
                "submission" => api.act(api.shop.author(), &path, &now).await,
                "release" => step(&api, api.shop.approver(), &path, &now, &json!({})).await,
                "return" => {
                    step(&api, api.shop.approver(), &path, &now, &json!({ "reason": "x" })).await
                }
                _ => {
                    let body = json!({ "statement": "x" });
                    step(&api, api.shop.approver(), &path, &now, &body).await
                }
            };
            let problem = answer.problem(409, "conflict");
            let detail = problem["detail"].as_str().unwrap();
            assert!(detail.contains(state), "{last} from {state}: {detail}");
        }
        assert_eq!(etag(&api, PATH).await, now, "nothing was written in {state}");
    };
    refused("draft", &["submission"]).await;
    submit(&api).await.expect(200);
    refused("in-review", &["return", "release", "support-signature"]).await;
    release(&api, &json!({})).await.expect(200);
    refused("released", &["support-signature"]).await;
    let withdrawal = format!("{PATH}/withdrawal");
    api.withdraw(api.shop.approver(), &withdrawal, &etag(&api, PATH).await).await.expect(200);
    refused("withdrawn", &[]).await;
    let again = api.withdraw(api.shop.approver(), &withdrawal, &etag(&api, PATH).await).await;
    again.problem(409, "conflict");
}

#[tokio::test]
async fn a_change_names_the_version_it_starts_from() {
    let api = with_draft().await;
    let records = [
        ("/v1/consumables/FCW-1", documents::consumable()),
        ("/v1/procedures/WPS-1", documents::procedure()),
        ("/v1/stations/ST-1", documents::station()),
        ("/v1/work-orders/J-100", documents::work_order()),
    ];
    let (author, approver) = (api.shop.author(), api.shop.approver());
    let stale = "\"v0\"";
    for (path, document) in &records {
        let call = api.call(reqwest::Method::PUT, path).key(author).json(document);
        call.send().await.problem(428, "version-required");
        api.put(author, path, stale, document).await.problem(412, "stale-version");
        // A weak tag never matches (RFC 9110, 13.1.1).
        let weak = format!("W/{}", etag(&api, path).await);
        api.put(author, path, &weak, document).await.problem(412, "stale-version");
        let withdrawal = format!("{path}/withdrawal");
        let key = if path.contains("work-orders") { author } else { approver };
        let call = api.call(reqwest::Method::POST, &withdrawal).key(key);
        call.send().await.problem(428, "version-required");
        api.withdraw(key, &withdrawal, stale).await.problem(412, "stale-version");
    }
    let steps = [
        ("submission", author, Value::Null),
        ("return", approver, json!({ "reason": "x" })),
        ("release", approver, json!({})),
        ("support-signature", approver, json!({ "statement": "x" })),
    ];
    for (last, key, body) in steps {
        let path = format!("{PATH}/{last}");
        let call = api.call(reqwest::Method::POST, &path).key(key).json(&body);
        call.send().await.problem(428, "version-required");
        step(&api, key, &path, stale, &body).await.problem(412, "stale-version");
    }
    assert_eq!(count(&api, "select count(*) from procedure_event").await, 0);
    assert_eq!(count(&api, "select max(version)::bigint from record").await, 1);
}

#[tokio::test]
async fn of_two_editors_at_once_one_is_stale() {
    let api = with_draft().await;
    let path = "/v1/stations/ST-1";
    let now = etag(&api, path).await;
    let named = |name: &str| documents::with(documents::station(), "/name", json!(name));
    let (one, two) = (named("By the first"), named("By the second"));
    let (one, two) = tokio::join!(
        api.put(api.shop.author(), path, &now, &one),
        api.put(api.shop.author(), path, &now, &two)
    );
    let mut statuses = [one.status, two.status];
    statuses.sort_unstable();
    assert_eq!(statuses, [200, 412], "{one:?} {two:?}");
    let kept = api.get(api.shop.reader(), path).await.expect(200);
    let winner = if one.status == 200 { "By the first" } else { "By the second" };
    assert_eq!((&kept["document"]["name"], &kept["revision"]), (&json!(winner), &json!(2)));
    let revisions = "select count(*) from record_revision where kind = 'station'";
    assert_eq!(count(&api, revisions).await, 2);
}

#[tokio::test]
async fn two_releases_at_once_leave_one() {
    let api = with_draft().await;
    submit(&api).await.expect(200);
    release(&api, &json!({})).await.expect(200);
    revise(&api, &narrower()).await.expect(200);
    submit(&api).await.expect(200);
    let third = person(&api, "Third person", &[Role::Approver]).await;
    let third = key_of(&api, &third, Role::Approver).await;
    let (now, path, body) = (etag(&api, PATH).await, format!("{PATH}/release"), json!({}));
    let (one, two) = tokio::join!(
        step(&api, api.shop.approver(), &path, &now, &body),
        step(&api, &third, &path, &now, &body)
    );
    let mut statuses = [one.status, two.status];
    statuses.sort_unstable();
    assert_eq!(statuses, [200, 412], "{one:?} {two:?}");
    let standing = "select revision, state from procedure_standing order by revision";
    let expected = [
        json!({"revision": 1, "state": "superseded"}),
        json!({"revision": 2, "state": "released"}),
    ];
    assert_eq!(rows(&api, standing).await, expected);
    let events = "select count(*) from procedure_event where revision = 2 and event = 'released'";
    assert_eq!(count(&api, events).await, 1);
    let events = "select count(*) from procedure_event where event = 'superseded'";
    assert_eq!(count(&api, events).await, 1);
}

/// The other kinds of record: in force at once, and no longer seen by checks once withdrawn.
#[tokio::test]
async fn withdrawn_records_of_other_kinds_are_not_in_force() {
    let api = Api::furnished().await;
    for (path, pointer) in [
        ("/v1/work-orders/J-100", "/work_order"),
        ("/v1/stations/ST-1", "/station"),
        ("/v1/consumables/FCW-1", "/filler/consumable"),
    ] {
        let key = if path.contains("orders") { api.shop.author() } else { api.shop.approver() };
        let done = api.withdraw(key, &format!("{path}/withdrawal"), &etag(&api, path).await).await;
        assert_eq!(done.expect(200)["state"], "withdrawn");
        let refused = api.post(api.shop.reader(), "/v1/checks", &documents::setup()).await;
        refused.problem(422, "invalid-fields");
        assert!(refused.pointers().contains(&pointer.to_owned()), "{refused:?}");
        let read = api.get(api.shop.reader(), path).await.expect(200);
        assert_eq!(read["state"], "withdrawn", "it stays readable");
    }
}

/// Whoever reads the record, its history or the chain sees why it was taken out of use; nothing that is sent is lost.
#[tokio::test]
async fn a_withdrawal_says_why() {
    let api = Api::furnished().await;
    let approver = api.shop.approver();
    for path in ["/v1/stations/ST-1", PATH] {
        let now = etag(&api, path).await;
        let withdrawal = format!("{path}/withdrawal");
        api.act(approver, &withdrawal, &now).await.problem(415, "media-type");
        let send = async |path: &str, body: Value| {
            let call = api.call(reqwest::Method::POST, path).key(approver).if_match(&now);
            call.json(&body).send().await
        };
        let because = json!({ "reason": "The torch burnt out" });
        for (body, pointer) in
            [(json!({}), "/reason"), (json!({ "why": "x", "reason": "x" }), "/why")]
        {
            let refused = send(&withdrawal, body).await;
            refused.problem(422, "invalid-fields");
            assert_eq!(refused.pointers(), [pointer]);
        }
        let lost = send(&format!("{withdrawal}?reason=x"), because.clone()).await;
        lost.problem(400, "bad-parameter");
        assert_eq!(lost.pointers(), ["?reason"]);
        let answer = send(&withdrawal, because).await.expect(200);
        assert_eq!(answer["withdrawn_because"], "The torch burnt out");
        let read = api.get(api.shop.reader(), path).await.expect(200);
        assert_eq!(read["withdrawn_because"], "The torch burnt out");
    }
    let history = api.get(api.shop.reader(), &format!("{PATH}/history")).await;
    assert!(history.text.contains("The torch burnt out"), "{history:?}");
    let export = api.get(api.shop.reader(), "/v1/audit/export").await;
    let told = export
        .text
        .lines()
        .filter(|line| line.contains("\"withdrawal\":[") && line.contains("The torch burnt out"));
    assert_eq!(told.count(), 2);
}
