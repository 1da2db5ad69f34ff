//! An organisation with a key for each role, and the steps people take there.

use std::collections::HashMap;

use arcbounds::{
    access::Role,
    organisation::{self, Member},
};
use serde_json::{Value, json};
use uuid::Uuid;

use super::{Answer, Service, documents};

/// Who gets which key. Shop software stands for no person.
const MEMBERS: &[(Role, Option<&str>)] = &[
    (Role::Author, Some("Writer")),
    (Role::Approver, Some("Second person")),
    (Role::Reader, Some("Reader")),
    (Role::Integrator, None),
];

/// An organisation and its keys.
pub struct Shop {
    pub organisation: Uuid,
    keys: HashMap<Role, String>,
}

impl Shop {
    pub(super) async fn found(service: &Service, name: &str) -> Self {
        let state = service.state();
        let first = organisation::found(&state.pool, name, "Administrator").await.unwrap();
        let mut keys = HashMap::from([(Role::Admin, first.secret.reveal().to_owned())]);
        for (role, name) in MEMBERS {
            let label = format!("{role:?}");
            let member = Member { name: *name, role: *role, station: None, label: &label };
            let secret = organisation::enrol(&state.pool, first.organisation, member).await;
            keys.insert(*role, secret.unwrap().reveal().to_owned());
        }
        state.rulebooks.refresh(first.organisation).await.unwrap();
        Self { organisation: first.organisation, keys }
    }

    /// The key of a role; a kiosk's is made with [`Shop::kiosk`].
    pub fn key(&self, role: Role) -> &str {
        &self.keys[&role]
    }

    /// Writes consumables, procedures and stations.
    pub fn author(&self) -> &str {
        self.key(Role::Author)
    }

    /// Releases, returns, withdraws and signs.
    pub fn approver(&self) -> &str {
        self.key(Role::Approver)
    }

    /// Reads and checks.
    pub fn reader(&self) -> &str {
        self.key(Role::Reader)
    }

    /// Looks after people and keys.
    pub fn admin(&self) -> &str {
        self.key(Role::Admin)
    }

    /// Makes a key of a kiosk at a station that has been written.
    pub async fn kiosk(&self, service: &Service, station: &str) -> String {
        let body = json!({ "label": "kiosk", "roles": ["station"], "station": station });
        let made = service.post(self.admin(), "/v1/keys", &body).await.expect(201);
        made["secret"].as_str().unwrap().to_owned()
    }

    /// Writes a new record of this kind of path, such as `stations`.
    pub async fn write(&self, service: &Service, path: &str, document: &Value) -> Answer {
        let answer = service.post(self.author(), &format!("/v1/{path}"), document).await;
        answer.expect(201);
        answer
    }

    /// Submits the draft of a procedure.
    pub async fn submit(&self, service: &Service, number: &str) -> Answer {
        let path = format!("/v1/procedures/{number}");
        let draft = service.get(self.author(), &path).await;
        draft.expect(200);
        let submission = format!("{path}/submission");
        let submitted = service.act(self.author(), &submission, draft.etag()).await;
        submitted.expect(200);
        submitted
    }

    /// Submits the draft of a procedure, and has a second person release it and sign its support.
    pub async fn release(&self, service: &Service, number: &str) -> Answer {
        let path = format!("/v1/procedures/{number}");
        let submitted = self.submit(service, number).await;
        let released = self.approve(service, &path, "release", submitted.etag(), &json!({})).await;
        let statement = json!({ "statement": "Test report seen" });
        self.approve(service, &path, "support-signature", released.etag(), &statement).await
    }

    async fn approve(
        &self,
        service: &Service,
        path: &str,
        step: &str,
        etag: &str,
        body: &Value,
    ) -> Answer {
        let call = service.call(reqwest::Method::POST, &format!("{path}/{step}"));
        let answer = call.key(self.approver()).if_match(etag).json(body).send().await;
        answer.expect(200);
        answer
    }

    /// Has a second person sign rules of a pack as compared with the printed code.
    pub async fn sign_rules(&self, service: &Service, pack: &str, rules: &[&str]) -> Answer {
        let body = json!({ "rules": rules, "copy": "Library, 1" });
        let path = format!("/v1/rule-packs/{pack}/signatures");
        service.post(self.approver(), &path, &body).await
    }

    /// Has a second person sign a qualification record.
    pub async fn sign_qualification(&self, service: &Service, number: &str) -> Answer {
        let path = format!("/v1/qualifications/{number}");
        let draft = service.get(self.author(), &path).await;
        draft.expect(200);
        let statement = json!({ "statement": "Compared with the paper record" });
        self.approve(service, &path, "signature", draft.etag(), &statement).await
    }

    /// Attaches a file to a qualification record; gives the attachment's id.
    pub async fn attach(
        &self,
        service: &Service,
        number: &str,
        name: &str,
        (media, bytes): (&str, &[u8]),
    ) -> String {
        let path = format!("/v1/qualifications/{number}/attachments?name={name}");
        let call = service.call(reqwest::Method::POST, &path).key(self.author());
        let attached = call.bytes(media, bytes).send().await.expect(201);
        attached["attachment"].as_str().unwrap().to_owned()
    }

    /// Writes the documents of [`documents`], with the procedure released and signed and
    /// the qualification record signed.
    pub async fn furnish(&self, service: &Service) {
        self.write(service, "consumables", &documents::consumable()).await;
        self.write(service, "procedures", &documents::procedure()).await;
        self.release(service, documents::PROCEDURE).await;
        self.write(service, "stations", &documents::station()).await;
        self.write(service, "work-orders", &documents::work_order()).await;
        self.write(service, "qualifications", &documents::qualification()).await;
        self.sign_qualification(service, documents::QUALIFICATION).await;
    }
}
