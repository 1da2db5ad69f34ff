//! `POST /v1/keys`

use axum::{extract::State, http::StatusCode, response::Response};
use serde_json::json;
use time::Date;
use uuid::Uuid;

use super::{
    NewKeyOut,
    store::{self, NewKey},
};
use crate::{
    access::{AdministerKeys, Caller, Permitted, Role, Secret},
    database::{Change, TenantTx},
    http::{
        AppState, JsonBody, Retry, Writing,
        problem::{FieldError, Problem},
        responses::CreateProblems,
        retry::Begun,
    },
    trade::Coded,
    wire::{self, Code, wire_object},
};

wire_object! {
    /// A key as asked for.
    pub struct KeyIn {
        /// What it is for.
        pub label: String,
        /// Roles. Approvals and signatures need a key that stands for a person, and nobody can approve or sign what a key
        /// that stands for nobody wrote: no author is named, so nobody is a second person.
        pub roles: Vec<Role>,
        /// Person it stands for; the key may have that person's roles only.
        pub person: Option<Uuid>,
        /// Station it is bound to, for a kiosk.
        pub station: Option<Code>,
        /// Last day it works, by the organisation's time zone; for ever where left out.
        pub expires: Option<Date>,
    }
}

/// Make a key
///
/// Makes a key. Its secret is in this answer and nowhere else, so the answer is not kept for retries.
#[utoipa::path(
    post, path = "/v1/keys", tag = "organisation",
    request_body = KeyIn,
    responses((status = 201, description = "Made; the secret is shown once",
        headers(
            ("Rulebook-Version" = i64, description = "First rulebook that knows it; sent where checks need it"),
        ), body = NewKeyOut), CreateProblems),
)]
pub(in crate::organisation) async fn create_key(
    permitted: Permitted<AdministerKeys>,
    State(state): State<AppState>,
    JsonBody(body): JsonBody,
) -> Result<Response, Problem> {
    let sent: KeyIn = wire::read(&body)?;
    let begun = Writing::begin(&state, &permitted.caller, "POST /v1/keys", &Retry::NONE, &body);
    let mut writing = match begun.await? {
        Begun::Fresh(writing) => writing,
        Begun::Replay(response) => return Ok(response),
    };
    refuse_faults(&permitted.caller, writing.tx(), &sent).await?;
    let secret = Secret::random().map_err(|error| Problem::internal(error.to_string()))?;
    let last = sent.expires.and_then(Date::next_day).unwrap_or(Date::MAX);
    let station = sent.station.as_ref().map(Code::as_str);
    let new = NewKey {
        key_id: Uuid::now_v7(),
        label: &sent.label,
        roles: &sent.roles,
        person: sent.person,
        station,
        expires_at: sent.expires.map(|_| permitted.caller.rulebook.settings.start_of(last)),
        hash: secret.hash(),
    };
    let key = store::insert(writing.tx(), &new).await?;
    writing.tx().note(change("made", key.key_id));
    let answer = json!(NewKeyOut { key, secret: secret.reveal().to_owned() });
    writing.finish(&state, StatusCode::CREATED, &[], answer).await
}

/// A change of a key for the audit chain.
pub(in crate::organisation) fn change(action: &'static str, key: Uuid) -> Change {
    Change {
        action,
        kind: "key",
        subject: key.to_string(),
        revision: None,
        document_hash: None,
        changes_rules: true,
    }
}

async fn refuse_faults(caller: &Caller, tx: &mut TenantTx, sent: &KeyIn) -> Result<(), Problem> {
    let mut faults = Vec::new();
    let mut fault = |pointer: &str, detail: String| {
        faults.push(FieldError { pointer: pointer.to_owned(), detail });
    };
    if sent.roles.is_empty() {
        fault("/roles", "name at least one role".to_owned());
    }
    if sent.person.is_some() && sent.station.is_some() {
        fault(
            "/station",
            "a key stands for a person or is bound to a station, not both".to_owned(),
        );
    }
    if sent.roles.contains(&Role::Station) && sent.station.is_none() {
        fault("/station", "a station key is bound to its station".to_owned());
    }
    if let Some(station) = &sent.station
        && !caller.rulebook.book.stations.contains_key(station.as_str())
    {
        fault("/station", format!("there is no station \"{station}\"; write it first"));
    }
    if let Some(person) = sent.person {
        match store::roles_of(tx, person).await? {
            None => fault("/person", "there is no active person with this id".to_owned()),
            Some(roles) => {
                let beyond =
                    sent.roles.iter().filter(|role| !roles.iter().any(|r| r == role.code()));
                for role in beyond {
                    fault("/roles", format!("the person does not have the role {role}"));
                }
            }
        }
    }
    if faults.is_empty() { Ok(()) } else { Err(Problem::fields(faults)) }
}
