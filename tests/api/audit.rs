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
    let actor = Actor { organisation, key: None, person: None };
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
        api.act(key, &format!("{path}/withdrawal"), &now).await.expect(200);
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

/// RFC 8785 (June 2020), section 3.2.2: the sample object, and section 3.2.4: its canonical bytes.
#[test]
fn canonical_bytes_are_those_of_the_rfc() {
    let sample = r#"{
        "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
        "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
        "literals": [null, true, false]
    }"#;
    let bytes = "
        7b 22 6c 69 74 65 72 61 6c 73 22 3a 5b 6e 75 6c 6c 2c 74 72
        75 65 2c 66 61 6c 73 65 5d 2c 22 6e 75 6d 62 65 72 73 22 3a
        5b 33 33 33 33 33 33 33 33 33 2e 33 33 33 33 33 33 33 2c 31
        65 2b 33 30 2c 34 2e 35 2c 30 2e 30 30 32 2c 31 65 2d 32 37
        5d 2c 22 73 74 72 69 6e 67 22 3a 22 e2 82 ac 24 5c 75 30 30
        30 66 5c 6e 41 27 42 5c 22 5c 5c 5c 5c 5c 22 2f 22 7d";
    let value: Value = serde_json::from_str(sample).unwrap();
    let expected = hex::decode(bytes.split_whitespace().collect::<String>()).unwrap();
    assert_eq!(canonical_bytes(&value), expected);
}

/// RFC 8785, section 3.2.3: the sample of sorted members.
#[test]
fn members_are_sorted_as_the_rfc_sorts_them() {
    let sample = r#"{
        "\u20ac": "Euro Sign",
        "\r": "Carriage Return",
        "\ufb33": "Hebrew Letter Dalet With Dagesh",
        "1": "One",
        "\ud83d\ude00": "Emoji: Grinning Face",
        "\u0080": "Control",
        "\u00f6": "Latin Small Letter O With Diaeresis"
    }"#;
    let value: Value = serde_json::from_str(sample).unwrap();
    let text = String::from_utf8(canonical_bytes(&value)).unwrap();
    let places = [
        "Carriage Return",
        "One",
        "Control",
        "Latin Small Letter O With Diaeresis",
        "Euro Sign",
        "Emoji: Grinning Face",
        "Hebrew Letter Dalet With Dagesh",
    ]
    .map(|name| text.find(&format!("\"{name}\"")).unwrap());
    assert!(places.is_sorted(), "{text}");
}

/// RFC 8785, appendix B: numbers by their bits.
const NUMBERS: &[(u64, &str)] = &[
    (0x0000_0000_0000_0000, "0"),
    (0x8000_0000_0000_0000, "0"),
    (0x0000_0000_0000_0001, "5e-324"),
    (0x8000_0000_0000_0001, "-5e-324"),
    (0x7fef_ffff_ffff_ffff, "1.7976931348623157e+308"),
    (0xffef_ffff_ffff_ffff, "-1.7976931348623157e+308"),
    (0x4340_0000_0000_0000, "9007199254740992"),
    (0xc340_0000_0000_0000, "-9007199254740992"),
    (0x4430_0000_0000_0000, "295147905179352830000"),
    (0x44b5_2d02_c7e1_4af5, "9.999999999999997e+22"),
    (0x44b5_2d02_c7e1_4af6, "1e+23"),
    (0x44b5_2d02_c7e1_4af7, "1.0000000000000001e+23"),
    (0x444b_1ae4_d6e2_ef4e, "999999999999999700000"),
    (0x444b_1ae4_d6e2_ef4f, "999999999999999900000"),
    (0x444b_1ae4_d6e2_ef50, "1e+21"),
    (0x3eb0_c6f7_a0b5_ed8c, "9.999999999999997e-7"),
    (0x3eb0_c6f7_a0b5_ed8d, "0.000001"),
    (0x41b3_de43_5555_5553, "333333333.3333332"),
    (0x41b3_de43_5555_5554, "333333333.33333325"),
    (0x41b3_de43_5555_5555, "333333333.3333333"),
    (0x41b3_de43_5555_5556, "333333333.3333334"),
    (0x41b3_de43_5555_5557, "333333333.33333343"),
    (0xbecb_f647_612f_3696, "-0.0000033333333333333333"),
    (0x4314_3ff3_c1cb_0959, "1424953923781206.2"),
];

/// Also after PostgreSQL kept them, and after a file did: else a document would seem altered.
#[tokio::test]
async fn numbers_are_written_as_the_rfc_writes_them_and_stay_so() {
    let api = Api::start().await;
    let mut connection = superuser(&api).await;
    for (bits, expected) in NUMBERS {
        let number = json!(f64::from_bits(*bits));
        assert_eq!(canonical_bytes(&number), expected.as_bytes(), "{bits:x}");
        let kept: Value = sqlx::query_scalar("select $1::jsonb")
            .bind(&number)
            .fetch_one(&mut connection)
            .await
            .unwrap();
        assert_eq!(canonical_bytes(&kept), expected.as_bytes(), "{bits:x} kept as {kept}");
        let read: Value = serde_json::from_str(expected).unwrap();
        assert_eq!(canonical_bytes(&read), expected.as_bytes(), "{bits:x} read as {read}");
    }
}

/// FIPS 180-2, appendix B.1 (for SHA-256 the same as FIPS 180-4): the one-block message "abc".
#[test]
fn hashes_are_those_of_the_standard() {
    let hash = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    assert_eq!(hex::encode(Sha256::digest(b"abc")), hash);
}

/// The canonical bytes of this station are
/// `{"code":"ST-9","heaviest_spool":{"unit":"kg","value":18},"name":"Ninth"}` (members sorted, no
/// blanks, empty lists left out); their SHA-256 was taken with `sha256sum`.
#[tokio::test]
async fn the_hash_of_a_document_is_that_of_its_canonical_bytes() {
    let hash = "215f829f65e2a8323b28d9736b9a62136f293fdfd6c748ae9f2dc2b19a43bac3";
    let api = Api::start().await;
    let document = json!({ "name": "Ninth", "code": "ST-9", "heaviest_spool": "18 kg" });
    let made = api.post(api.shop.author(), "/v1/stations", &document).await.expect(201);
    assert_eq!(made["document_hash"], hash);
    let listed = api.get(api.shop.reader(), "/v1/audit?subject=ST-9").await.expect(200);
    assert_eq!(listed["items"][0]["document_hash"], hash);
    // As stored: the same bytes come from the row.
    let stored = rows(&api, "select document, document_hash from record_revision").await;
    assert_eq!(stored[0]["document_hash"], format!("\\x{hash}"));
    let canonical = r#"{"code":"ST-9","heaviest_spool":{"unit":"kg","value":18},"name":"Ninth"}"#;
    assert_eq!(canonical_bytes(&stored[0]["document"]), canonical.as_bytes());
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
