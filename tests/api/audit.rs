//! The audit chain: complete, without gaps, and not to be changed unseen.

use arcbounds::{
    access::Role,
    database::{Actor, Change, TenantTx, canonical_bytes},
};
use serde_json::{Value, json};
use sha2::{Digest, Sha256};
use sqlx::FromRow;
use time::OffsetDateTime;
use uuid::Uuid;

use crate::{
    behind::{administer, count, etag, execute, person, rows, step, superuser},
    support::{Api, documents},
};

#[derive(Debug, FromRow)]
struct Entry {
    number: i64,
    at: OffsetDateTime,
    person_id: Option<Uuid>,
    key_id: Option<Uuid>,
    action: String,
    subject_kind: String,
    subject: String,
    revision: Option<i32>,
    document_hash: Option<Vec<u8>>,
    changes_rules: bool,
    previous_hash: Vec<u8>,
    hash: Vec<u8>,
    format: i16,
    details: Option<Value>,
    details_hash: Option<Vec<u8>>,
}

impl Entry {
    /// What the hash covers, by the description of the export: written here again, apart from the service.
    fn hashed_again(&self, previous: &[u8]) -> Vec<u8> {
        let mut entry = json!({
            "number": self.number,
            "at": self.at.format(&time::format_description::well_known::Rfc3339).unwrap(),
            "person": self.person_id,
            "key": self.key_id,
            "action": self.action,
            "kind": self.subject_kind,
            "subject": self.subject,
            "revision": self.revision,
            "document": self.document_hash.as_deref().map(hex::encode),
            "changes_rules": self.changes_rules,
            "previous": hex::encode(previous),
        });
        if self.format == 2 {
            entry["format"] = json!(2);
            entry["details"] = json!(self.details.as_ref().map(sha256));
        }
        Sha256::digest(canonical_bytes(&entry)).to_vec()
    }
}

fn sha256(value: &Value) -> String {
    hex::encode(Sha256::digest(canonical_bytes(value)))
}

/// Walks the chain from its start: the number of the first entry that does not follow, if any.
async fn broken_at(api: &Api, organisation: Uuid) -> Option<i64> {
    let mut connection = superuser(api).await;
    let entries: Vec<Entry> =
        sqlx::query_as("select * from audit_entry where organisation_id = $1 order by number")
            .bind(organisation)
            .fetch_all(&mut connection)
            .await
            .unwrap();
    let (head, head_hash): (i64, Vec<u8>) =
        sqlx::query_as("select number, hash from audit_head where organisation_id = $1")
            .bind(organisation)
            .fetch_one(&mut connection)
            .await
            .unwrap();
    let (mut number, mut hash, mut at) = (0, vec![0; 32], OffsetDateTime::UNIX_EPOCH);
    for entry in &entries {
        number += 1;
        let follows = entry.number == number
            && entry.previous_hash == hash
            && entry.hash == entry.hashed_again(&hash)
            && entry.details.as_ref().map(sha256) == entry.details_hash.as_deref().map(hex::encode)
            && entry.at >= at;
        if !follows {
            return Some(number);
        }
        (hash, at) = (entry.hash.clone(), entry.at);
    }
    ((head, head_hash) != (number, hash)).then_some(number + 1)
}

async fn entries(api: &Api) -> i64 {
    let own = format!(
        "select count(*) from audit_entry where organisation_id = '{}'",
        api.shop.organisation
    );
    count(api, &own).await
}

#[tokio::test]
async fn the_chain_can_be_computed_again_and_shows_every_change_to_it() {
    let api = Api::furnished().await;
    let own = api.shop.organisation;
    assert_eq!(broken_at(&api, own).await, None);
    assert_eq!(broken_at(&api, api.stranger.organisation).await, None);
    let of_own = format!("organisation_id = '{own}'");
    // Changed, put back, moved in time, taken out, shortened.
    let original = "update audit_entry set subject = 'WPS-1' where subject = 'WPS-9' and";
    for (harm, at) in [
        (
            format!(
                "update audit_entry set subject = 'WPS-9' where subject = 'WPS-1' and {of_own}"
            ),
            true,
        ),
        (format!("{original} {of_own}"), false),
        (
            format!(
                "update audit_entry set at = at + interval '1 microsecond' where number = 7 and {of_own}"
            ),
            true,
        ),
        (
            format!(
                "update audit_entry set at = at - interval '1 microsecond' where number = 7 and {of_own}"
            ),
            false,
        ),
        (
            format!(
                "delete from audit_entry where number = (select max(number) from audit_entry where {of_own}) and {of_own}"
            ),
            true,
        ),
    ] {
        execute(&api, &harm).await;
        assert_eq!(broken_at(&api, own).await.is_some(), at, "{harm}");
    }
}

#[tokio::test]
async fn many_writers_at_once_leave_no_gap() {
    let api = Api::start().await;
    let before = entries(&api).await;
    let (author, first) = (api.shop.author(), documents::station());
    let writes = (0..24).map(|index| {
        // Every third one takes a code that another one takes too, and is refused.
        let code = format!("ST-{}", if index % 3 == 0 { 0 } else { index });
        let document = documents::with(first.clone(), "/code", json!(code));
        let api = &api;
        async move { api.post(author, "/v1/stations", &document).await.status }
    });
    let mut statuses = Vec::new();
    let mut running: Vec<_> = writes.map(Box::pin).collect();
    // All are polled from the start, so that they run side by side.
    std::future::poll_fn(|context| {
        running.retain_mut(|write| match write.as_mut().poll(context) {
            std::task::Poll::Ready(status) => {
                statuses.push(status);
                false
            }
            std::task::Poll::Pending => true,
        });
        if running.is_empty() { std::task::Poll::Ready(()) } else { std::task::Poll::Pending }
    })
    .await;
    let with = |status| statuses.iter().filter(|found| **found == status).count();
    assert_eq!((with(201), with(409)), (17, 7), "{statuses:?}");
    assert_eq!(entries(&api).await, before + 17);
    assert_eq!(broken_at(&api, api.shop.organisation).await, None);
}

#[tokio::test]
async fn what_is_rolled_back_leaves_neither_entry_nor_gap() {
    let api = Api::start().await;
    let (pool, organisation) = (&api.state().pool, api.shop.organisation);
    let actor = Actor::service(organisation);
    let before = entries(&api).await;
    let change = || Change {
        action: "tried",
        kind: "station",
        subject: "ST-1".to_owned(),
        revision: None,
        document_hash: None,
        changes_rules: true,
    };
    let mut noted = TenantTx::begin(pool, actor).await.unwrap();
    noted.note(change());
    drop(noted);
    let mut sealed = TenantTx::begin(pool, actor).await.unwrap();
    sealed.note(change());
    sealed.seal().await.unwrap();
    drop(sealed);
    api.post(api.shop.author(), "/v1/stations", &json!({})).await.problem(422, "invalid-fields");
    assert_eq!(entries(&api).await, before);
    api.shop.write(&api, "stations", &documents::station()).await;
    assert_eq!(entries(&api).await, before + 1);
    assert_eq!(broken_at(&api, organisation).await, None);
}

/// Follows the chain of the shop entry by entry.
struct Ledger<'a> {
    api: &'a Api,
    seen: i64,
}

impl Ledger<'_> {
    /// The one entry since the last time: action and kind.
    async fn left(&mut self, what: &str, expected: &str) {
        let new = format!(
            "select action || ' ' || subject_kind as entry, coalesce(person_id, key_id) is not null as known
             from audit_entry where organisation_id = '{}' and number > {} order by number",
            self.api.shop.organisation, self.seen
        );
        let new = rows(self.api, &new).await;
        assert_eq!(new, [json!({ "entry": expected, "known": true })], "{what}");
        self.seen += 1;
    }
}

#[tokio::test]
async fn every_write_of_a_record_leaves_its_entry() {
    let api = Api::start().await;
    let (author, approver) = (api.shop.author(), api.shop.approver());
    let mut ledger = Ledger { api: &api, seen: entries(&api).await };
    for (path, kind, document) in [
        ("consumables", "consumable", documents::consumable()),
        ("procedures", "procedure", documents::procedure()),
        ("stations", "station", documents::station()),
        ("work-orders", "work-order", documents::work_order()),
    ] {
        api.post(author, &format!("/v1/{path}"), &document).await.expect(201);
        ledger.left(path, &format!("created {kind}")).await;
        let code = document["code"].as_str().or(document["number"].as_str()).unwrap();
        let path = format!("/v1/{path}/{code}");
        api.put(author, &path, &etag(&api, &path).await, &document).await.expect(200);
        ledger.left(&path, &format!("revised {kind}")).await;
    }
    let path = "/v1/procedures/WPS-1";
    let reason = json!({ "reason": "x" });
    let statement = json!({ "statement": "x" });
    for (last, key, body, action) in [
        ("submission", author, Value::Null, "submitted"),
        ("return", approver, reason, "returned"),
        ("submission", author, Value::Null, "submitted"),
        ("release", approver, json!({}), "released"),
        ("support-signature", approver, statement, "support-signed"),
    ] {
        let now = etag(&api, path).await;
        step(&api, key, &format!("{path}/{last}"), &now, &body).await.expect(200);
        ledger.left(last, &format!("{action} procedure")).await;
    }
    assert_eq!(broken_at(&api, api.shop.organisation).await, None);
}

#[tokio::test]
async fn evidence_and_withdrawals_leave_their_entries() {
    let api = Api::furnished().await;
    let (author, approver) = (api.shop.author(), api.shop.approver());
    let mut ledger = Ledger { api: &api, seen: entries(&api).await };
    let kept = documents::with(documents::setup(), "/keep", json!(true));
    api.post(api.shop.reader(), "/v1/checks", &kept).await.expect(200);
    ledger.left("kept check", "kept check").await;
    for (path, key, kind) in [
        ("work-orders/J-100", author, "work-order"),
        ("stations/ST-1", approver, "station"),
        ("procedures/WPS-1", approver, "procedure"),
        ("consumables/FCW-1", approver, "consumable"),
    ] {
        let path = format!("/v1/{path}");
        let now = etag(&api, &path).await;
        api.withdraw(key, &format!("{path}/withdrawal"), &now).await.expect(200);
        ledger.left(&path, &format!("withdrawn {kind}")).await;
    }
    assert_eq!(broken_at(&api, api.shop.organisation).await, None);
}

#[tokio::test]
async fn every_change_of_people_keys_and_settings_leaves_its_entry() {
    let api = Api::start().await;
    let admin = api.shop.admin();
    let mut ledger = Ledger { api: &api, seen: entries(&api).await };
    let who = person(&api, "Somebody", &[Role::Reader]).await;
    ledger.left("person added", "added person").await;
    let body = json!({ "name": "Somebody else", "roles": ["reader"] });
    administer(&api, &format!("/v1/people/{who}"), &body).await.expect(200);
    ledger.left("person changed", "changed person").await;
    let (key, _) = crate::behind::key(&api, &json!({ "label": "x", "roles": ["reader"] })).await;
    ledger.left("key made", "made key").await;
    for (last, action) in [("rotation", "rotated"), ("revocation", "revoked")] {
        api.post(admin, &format!("/v1/keys/{key}/{last}"), &Value::Null).await.expect(200);
        ledger.left(last, &format!("{action} key")).await;
    }
    let settings = api.get(admin, "/v1/organisation").await.expect(200)["settings"].clone();
    administer(&api, "/v1/organisation", &settings).await.expect(200);
    ledger.left("settings", "changed organisation").await;
    assert_eq!(broken_at(&api, api.shop.organisation).await, None);
}

/// Reading and asking leave nothing.
#[tokio::test]
async fn questions_leave_no_entry() {
    let api = Api::furnished().await;
    let before = entries(&api).await;
    api.post(api.shop.reader(), "/v1/checks", &documents::setup()).await.expect(200);
    api.post(api.shop.reader(), "/v1/windows", &documents::setup()).await.expect(200);
    for path in ["procedures", "procedures/WPS-1", "procedures/WPS-1/history", "audit"] {
        api.get(api.shop.reader(), &format!("/v1/{path}")).await.expect(200);
    }
    assert_eq!(entries(&api).await, before);
}

#[tokio::test]
async fn the_list_of_entries_pages_without_loss() {
    let api = Api::furnished().await;
    let (mut after, mut numbers) = (0, Vec::new());
    loop {
        let page = api.get(api.shop.reader(), &format!("/v1/audit?limit=4&after={after}")).await;
        let page = page.expect(200);
        let items = page["items"].as_array().unwrap();
        assert!(items.len() <= 4);
        numbers.extend(items.iter().map(|item| item["number"].as_i64().unwrap()));
        let Some(next) = page["next"].as_i64() else { break };
        after = next;
    }
    let all: Vec<_> = (1..=entries(&api).await).collect();
    assert_eq!(numbers, all);
    for query in ["limit=0", "limit=501", "limit=x", "subjekt=ST-1", "subject=%00"] {
        let refused = api.get(api.shop.reader(), &format!("/v1/audit?{query}")).await;
        refused.problem(400, "bad-parameter");
    }
}
