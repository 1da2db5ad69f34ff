//! Every operation of the committed document, with every case it can have.
//!
//! The statuses are those that RFC 9110 (section 15.5) and RFC 6585 (section 3, 428) define for each
//! situation; the kinds of problem are the service's own words.

mod document;
mod schemas;
mod table;

pub use document::{Operation, PLACE, committed, operations};

use std::{
    cell::RefCell,
    collections::{BTreeMap, BTreeSet, HashMap},
};

use arcbounds::access::Role;
use serde_json::{Value, json};

use crate::support::{Answer, Api, Call, Shop, documents as doc};
use schemas::Served;
use table::{
    ANY, Bad, Case, DRAFT, IN_REVIEW, Missing, OPEN, OWN_PACK, REVISED, Row, Stranger, UNSIGNED,
    own_pack, rows,
};

#[test]
fn the_table_has_every_operation_and_no_other() {
    let documented: BTreeSet<_> = operations().into_iter().map(|operation| operation.id).collect();
    let listed: BTreeSet<_> = rows().iter().map(|row| row.operation.to_owned()).collect();
    assert_eq!(documented.difference(&listed).collect::<Vec<_>>(), Vec::<&String>::new());
    assert_eq!(listed.difference(&documented).collect::<Vec<_>>(), Vec::<&String>::new());
    assert_eq!(listed.len(), rows().len(), "an operation is listed twice");
}

#[tokio::test]
async fn every_operation_answers_every_case() {
    let api = Api::start().await;
    let rows: BTreeMap<_, _> = rows().into_iter().map(|row| (row.operation, row)).collect();
    let served = Served::new();
    let mut faults = Vec::new();
    for operation in operations() {
        let row = &rows[operation.id.as_str()];
        faults.extend(Walk::prepare(&api, &served, &operation, row).await.all().await);
    }
    assert!(faults.is_empty(), "{} faults:\n{}", faults.len(), faults.join("\n"));
}

/// One operation, with an organisation made for it.
struct Walk<'a> {
    api: &'a Api,
    served: &'a Served,
    operation: &'a Operation,
    row: &'a Row,
    shop: Shop,
    kiosk: String,
    /// Ids that the preparation made, and codes: nothing of it may be seen by a stranger.
    made: HashMap<&'static str, String>,
    /// The record in the path, and its version where the operation asks for one.
    named: String,
    etag: Option<String>,
    faults: RefCell<Vec<String>>,
}

impl<'a> Walk<'a> {
    async fn prepare(
        api: &'a Api,
        served: &'a Served,
        operation: &'a Operation,
        row: &'a Row,
    ) -> Self {
        let shop = api.found("Shop of one operation").await;
        shop.furnish(api).await;
        for number in [DRAFT, IN_REVIEW] {
            let another = doc::with(doc::procedure(), "/number", json!(number));
            shop.write(api, "procedures", &another).await;
        }
        shop.submit(api, IN_REVIEW).await;
        if row.named == Some(REVISED) {
            let another = doc::with(doc::procedure(), "/number", json!(REVISED));
            shop.write(api, "procedures", &another).await;
            let released = shop.release(api, REVISED).await;
            let path = format!("/v1/procedures/{REVISED}");
            api.put(shop.author(), &path, released.etag(), &another).await.expect(200);
        }
        shop.write(api, "welders", &doc::welder()).await;
        shop.write(api, "consumable-batches", &doc::batch()).await;
        let unsigned = doc::with(doc::qualification(), "/number", json!(UNSIGNED));
        shop.write(api, "qualifications", &unsigned).await;
        shop.write(api, "own-rule-packs", &own_pack(OWN_PACK)).await;
        let kiosk = shop.kiosk(api, doc::STATION).await;
        let person = json!({ "name": "Someone", "roles": ["reader"] });
        let person = api.post(shop.admin(), "/v1/people", &person).await.expect(201);
        let key = json!({ "label": "Someone's", "roles": ["reader"], "person": person["person"] });
        let key = api.post(shop.admin(), "/v1/keys", &key).await.expect(201);
        let kept = doc::with(doc::setup(), "/keep", json!(true));
        let kept = api.post(shop.reader(), "/v1/checks", &kept).await.expect(200);
        let photo =
            shop.attach(api, doc::QUALIFICATION, "photo.png", ("image/png", doc::PNG)).await;
        let signed = json!({ "rules": ["transfer"], "copy": "On the shelf" });
        let signatures = format!("/v1/rule-packs/{}/signatures", doc::PREQUALIFIED_PACK);
        let signed = api.post(shop.approver(), &signatures, &signed).await.expect(201);
        let text = |value: &Value| value.as_str().unwrap().to_owned();
        let made = HashMap::from([
            ("{person}", text(&person["person"])),
            ("{key}", text(&key["key"])),
            ("{attachment}", photo),
            ("{signature}", text(&signed["signature"])),
            ("{check}", text(&kept["check_id"])),
            ("{organisation}", shop.organisation.to_string()),
        ]);
        let named = row.named.unwrap_or_default();
        let named = made.get(named).cloned().unwrap_or_else(|| named.to_owned());
        let etag = if operation.takes("header", Some("If-Match")) {
            let record = api.get(shop.admin(), &operation.record(&named)).await;
            Some(record.etag().to_owned())
        } else {
            None
        };
        let faults = RefCell::default();
        Self { api, served, operation, row, shop, kiosk, made, named, etag, faults }
    }

    /// All cases: the refused ones first, which must leave nothing behind. Gives what was wrong.
    async fn all(self) -> Vec<String> {
        let before = self.audit().await;
        self.keys().await;
        self.bad_input().await;
        self.missing_record().await;
        self.wrong_role().await;
        self.version().await;
        self.stranger().await;
        self.must(self.audit().await == before, "a refused request wrote something");
        let answer = self.permitted(&self.path(), self.row.body.as_ref()).send().await;
        self.answered(&answer);
        for body in self.row.body.iter().filter(|_| self.row.file.is_none()) {
            for fault in self.served.faults_of_body(self.operation, body) {
                self.must(false, &fault);
            }
        }
        self.faults.into_inner()
    }

    /// Notes a fault.
    fn must(&self, holds: bool, otherwise: &str) {
        if !holds {
            self.faults.borrow_mut().push(format!("{}: {otherwise}", self.operation.id));
        }
    }

    fn path(&self) -> String {
        self.path_to(&self.named)
    }

    /// The path with this record in it, and the query that the operation asks for.
    fn path_to(&self, named: &str) -> String {
        let query = self.row.query.map(|query| format!("?{query}")).unwrap_or_default();
        format!("{}{query}", self.bare_path(named))
    }

    fn bare_path(&self, named: &str) -> String {
        let place = |path: String, name: &str| path.replace(name, &self.made[name]);
        place(place(self.operation.at(named), "{attachment}"), "{signature}")
    }

    fn key(&self, role: Role) -> &str {
        if role == Role::Station { &self.kiosk } else { self.shop.key(role) }
    }

    /// A request that lacks nothing.
    fn call(&self, path: &str, key: Option<&str>, body: Option<&Value>) -> Call {
        let call = self.unversioned(path, key, body);
        match &self.etag {
            Some(etag) => call.if_match(etag),
            None => call,
        }
    }

    fn unversioned(&self, path: &str, key: Option<&str>, body: Option<&Value>) -> Call {
        let mut call = self.api.call(self.operation.method.clone(), path);
        if let Some(key) = key {
            call = call.key(key);
        }
        if let Some(body) = body {
            call = call.json(body);
        }
        if let Some((media, bytes)) = self.row.file {
            call = call.bytes(media, bytes);
        }
        call
    }

    /// The same request by somebody who may.
    fn permitted(&self, path: &str, body: Option<&Value>) -> Call {
        self.call(path, self.row.by.first().map(|role| self.key(*role)), body)
    }

    /// Every status that is met has to be in the document.
    fn documented(&self, answer: &Answer) {
        let status = answer.status;
        let otherwise = format!("{status} is not documented: {}", answer.text);
        self.must(self.operation.answers(status), &otherwise);
        for fault in self.served.faults_of_answer(self.operation, answer) {
            self.must(false, &fault);
        }
    }

    fn answered(&self, answer: &Answer) {
        self.documented(answer);
        let otherwise = format!("{}, not {}: {}", answer.status, self.row.status, answer.text);
        self.must(answer.status == self.row.status, &otherwise);
    }

    fn refused(&self, answer: &Answer, status: u16, slug: &str, pointers: &[&str]) {
        self.documented(answer);
        let is_it = answer.is_problem(status, slug) && answer.pointers() == pointers;
        let otherwise = format!("not {status} {slug} {pointers:?}: {answer:?}");
        self.must(is_it, &otherwise);
    }

    /// What happened in the organisation so far.
    async fn audit(&self) -> Value {
        self.api.get(self.shop.reader(), "/v1/audit?limit=500").await.expect(200)
    }

    async fn keys(&self) {
        if self.row.by == OPEN {
            return;
        }
        for key in [None, Some("arcbounds_0000"), Some("")] {
            let answer = self.call(&self.path(), key, self.row.body.as_ref()).send().await;
            self.refused(&answer, 401, "no-key", &[]);
            let asked = answer.header("www-authenticate") == "Bearer";
            self.must(asked, "401 without WWW-Authenticate");
        }
    }

    async fn bad_input(&self) {
        let body = self.row.body.as_ref();
        match &self.row.bad {
            Case::None(reason) => {
                let takes = self.operation.takes("query", None)
                    || self.operation.takes("header", Some("Idempotency-Key"));
                self.must(body.is_none() && !takes, &format!("not so: {reason}"));
            }
            Case::Sent(Bad::Field(pointer, value)) => {
                let bad = doc::with(body.unwrap().clone(), pointer, value.clone());
                let answer = self.permitted(&self.path(), Some(&bad)).send().await;
                self.refused(&answer, 422, "invalid-fields", &[pointer]);
                self.unknown_field().await;
            }
            Case::Sent(Bad::Query(query, parameter)) => {
                let path = format!("{}?{query}", self.bare_path(&self.named));
                let answer = self.permitted(&path, body).send().await;
                self.refused(&answer, 400, "bad-parameter", &[parameter]);
            }
            Case::Sent(Bad::RetryKey) => {
                let call = self.permitted(&self.path(), body);
                let answer = call.header("idempotency-key", "two words").send().await;
                self.refused(&answer, 400, "bad-parameter", &["Idempotency-Key"]);
            }
        }
    }

    /// A misspelt field is refused, not passed over.
    async fn unknown_field(&self) {
        let bad = doc::with(self.row.body.clone().unwrap(), "/nonsense", json!("1 mm"));
        let answer = self.permitted(&self.path(), Some(&bad)).send().await;
        self.refused(&answer, 422, "invalid-fields", &["/nonsense"]);
    }

    async fn missing_record(&self) {
        match &self.row.missing {
            Case::None(reason) => {
                self.must(!self.operation.path.contains('{'), &format!("not so: {reason}"));
            }
            Case::Sent(Missing::Path) => {
                let id = uuid::Uuid::now_v7().to_string();
                for nothing in ["NO-SUCH", &id, "%FF", "%00", "a%2Fb", "%20"] {
                    let path = self.path_to(nothing);
                    let answer =
                        self.permitted(&path, self.own_code(nothing).as_ref()).send().await;
                    self.refused(&answer, 404, "not-found", &[]);
                }
            }
            Case::Sent(Missing::Field(pointer, value)) => {
                let bad = doc::with(self.row.body.clone().unwrap(), pointer, value.clone());
                let answer = self.permitted(&self.path(), Some(&bad)).send().await;
                self.refused(&answer, 422, "invalid-fields", &[pointer]);
            }
        }
    }

    /// The body with the code of the path, where the body has one.
    fn own_code(&self, code: &str) -> Option<Value> {
        let mut body = self.row.body.clone()?;
        for member in ["code", "number"] {
            if let Some(text) = body.get_mut(member).filter(|value| value.is_string()) {
                *text = json!(code);
            }
        }
        Some(body)
    }

    async fn wrong_role(&self) {
        if self.row.by == OPEN {
            return;
        }
        for role in ANY.iter().filter(|role| !self.row.by.contains(role)) {
            let key = self.key(*role);
            let answer = self.call(&self.path(), Some(key), self.row.body.as_ref()).send().await;
            self.refused(&answer, 403, "wrong-role", &[]);
        }
        if self.row.by == ANY {
            for role in ANY {
                let key = self.key(*role);
                let answer =
                    self.call(&self.path(), Some(key), self.row.body.as_ref()).send().await;
                self.answered(&answer);
            }
        }
    }

    async fn version(&self) {
        let key = self.row.by.first().map(|role| self.key(*role));
        if self.etag.is_some() {
            let call = || self.unversioned(&self.path(), key, self.row.body.as_ref());
            self.refused(&call().send().await, 428, "version-required", &[]);
            let stale = call().if_match("\"v99\"").send().await;
            self.refused(&stale, 412, "stale-version", &[]);
        }
    }

    async fn stranger(&self) {
        let Some(role) = self.row.by.first() else { return };
        let stranger = self.api.stranger.key(*role);
        let answer = self.call(&self.path(), Some(stranger), self.row.body.as_ref()).send().await;
        match &self.row.stranger {
            Case::None(reason) => self.must(self.row.by == OPEN, &format!("not so: {reason}")),
            Case::Sent(Stranger::NotFound) => self.refused(&answer, 404, "not-found", &[]),
            Case::Sent(Stranger::Fields(pointers)) => {
                self.refused(&answer, 422, "invalid-fields", pointers);
            }
            Case::Sent(Stranger::Apart) => {
                self.answered(&answer);
                let seen = self.made.values().find(|ours| answer.text.contains(ours.as_str()));
                self.must(seen.is_none(), &format!("shows {seen:?}: {}", answer.text));
                let listed = answer.text.contains(doc::CONSUMABLE) && self.row.body.is_none();
                self.must(!listed, &format!("shows our records: {}", answer.text));
            }
        }
    }
}
