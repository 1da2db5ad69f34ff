//! `POST /v1/rule-packs/{key}/signatures`

use axum::{extract::State, http::StatusCode, response::Response};
use serde_json::json;
use uuid::Uuid;

use super::{
    AUDIT_KIND,
    list::{self, RuleSignatureOut},
    rule_hash,
    store::{self, NewSignature},
};
use crate::{
    access::{Approve, Permitted},
    database::Change,
    http::{
        AppState, JsonBody, Path, Retry, Writing,
        problem::{FieldError, Problem},
        responses::AskAboutProblems,
        retry::Begun,
    },
    qualify::Pack,
    records::{self, Signing},
    rule_packs::{KIND, find::named},
    wire::{self, wire_object},
};

wire_object! {
    /// Which rules a person compared with which copy of the code.
    pub struct RuleSignatureIn {
        /// Ids of the rules; every cell of each was compared.
        pub rules: Vec<String>,
        /// Which copy: edition, printing, where it is kept.
        pub copy: String,
        /// What the signer adds, in words.
        pub statement: Option<String>,
    }
}

/// Sign rules of a pack
///
/// A person signs rules that they compared, cell by cell, with the organisation's own copy of the code. For this
/// organisation these rules are then `print-checked`: what lies inside them no longer rests on memory. A rule that
/// is found wrong is not signed. A signature is about the rule as it is written, and ends when a later pack writes
/// it otherwise. Procedures that are released already keep their judgement.
#[utoipa::path(
    post, path = "/v1/rule-packs/{key}/signatures", tag = "rule-packs",
    request_body(content = RuleSignatureIn, example = json!({
        "rules": ["fill-thickness-wire", "fillet-wire-horizontal"],
        "copy": "D1.1:2020, first printing, shelf mark W-12",
    })),
    params(
        ("key" = String, Path, description = "Key of the pack"),
        ("Idempotency-Key" = Option<String>, Header, description = "For a safe retry"),
    ),
    responses((status = 201, description = "Signed", body = RuleSignatureOut), AskAboutProblems),
)]
pub(in crate::rule_packs) async fn sign_rules(
    permitted: Permitted<Approve>,
    State(state): State<AppState>,
    retry: Retry,
    Path(key): Path<String>,
    JsonBody(body): JsonBody,
) -> Result<Response, Problem> {
    let sent: RuleSignatureIn = wire::read(&body)?;
    let person = permitted.caller.person()?;
    let route = format!("POST /v1/rule-packs/{key}/signatures");
    let mut writing = match Writing::begin(&state, &permitted.caller, &route, &retry, &body).await?
    {
        Begun::Fresh(writing) => writing,
        Begun::Replay(response) => return Ok(response),
    };
    let tx = writing.tx();
    let found = named(tx.connection(), &key).await?;
    let pack = &*found.pack;
    let rules = hashed(&sent, pack)?;
    records::hold_second_person(tx.connection(), KIND, &key, Signing::Content, person).await?;
    let (actor, id) = (tx.actor(), Uuid::now_v7());
    let (copy, statement) = (sent.copy.as_str(), sent.statement.as_deref());
    let new = NewSignature { id, pack: &pack.key, copy, statement, person };
    store::insert(tx.connection(), actor, new, &rules).await?;
    tx.note(Change {
        action: "rules-signed",
        kind: AUDIT_KIND,
        subject: key.clone(),
        revision: None,
        // Rows of signatures are told in the entry's details.
        document_hash: None,
        changes_rules: false,
    });
    let all = list::all(tx.connection(), pack).await?;
    let own = all.into_iter().find(|own| own.signature == id);
    writing.finish(&state, StatusCode::CREATED, &[], json!(own)).await
}

/// Each rule with the hash of its text.
fn hashed(sent: &RuleSignatureIn, pack: &Pack) -> Result<Vec<(String, Vec<u8>)>, Problem> {
    let mut faults = Vec::new();
    let mut fault = |pointer: String, detail: String| faults.push(FieldError { pointer, detail });
    if sent.rules.is_empty() {
        fault("/rules".into(), "name at least one rule".into());
    }
    let mut rules = Vec::new();
    for (index, rule) in sent.rules.iter().enumerate() {
        let pointer = format!("/rules/{index}");
        match rule_hash(pack, rule) {
            None => fault(
                pointer,
                format!("{0} has no rule \"{rule}\"; GET /v1/rule-packs/{0} lists them", pack.key),
            ),
            Some(_) if sent.rules[..index].contains(rule) => {
                fault(pointer, format!("\"{rule}\" is named twice"));
            }
            Some(hash) => rules.push((rule.clone(), hash)),
        }
    }
    if faults.is_empty() { Ok(rules) } else { Err(Problem::fields(faults)) }
}
