//! `POST /v1/rule-packs/{key}/signatures/{signature}/withdrawal`

use axum::{extract::State, http::StatusCode, response::Response};
use serde_json::json;
use uuid::Uuid;

use super::{
    AUDIT_KIND,
    list::{self, RuleSignatureOut},
    store,
};
use crate::{
    access::{Approve, Permitted},
    database::Change,
    http::{
        AppState, JsonBody, NoQuery, Path, Retry, Writing,
        problem::{CONFLICT, Problem},
        responses::AskAboutProblems,
        retry::Begun,
    },
    rule_packs::find::named,
    wire::{self, wire_object},
};

wire_object! {
    /// Why a signature under rules is taken back.
    pub struct RuleSignatureWithdrawalIn {
        /// Why: what was found wrong.
        pub reason: String,
    }
}

/// Withdraw a signature under rules
///
/// Takes back a signature, with the reason: its rules count as they did before. The signature stays listed.
/// Procedures that are released keep their judgement; a review judges anew.
#[utoipa::path(
    post, path = "/v1/rule-packs/{key}/signatures/{signature}/withdrawal", tag = "rule-packs",
    request_body = RuleSignatureWithdrawalIn,
    params(
        ("key" = String, Path, description = "Key of the pack"),
        ("signature" = Uuid, Path, description = "Id of the signature"),
        ("Idempotency-Key" = Option<String>, Header, description = "For a safe retry"),
    ),
    responses((status = 200, description = "Withdrawn", body = RuleSignatureOut), AskAboutProblems),
)]
pub(in crate::rule_packs) async fn withdraw_rule_signature(
    permitted: Permitted<Approve>,
    State(state): State<AppState>,
    retry: Retry,
    _: NoQuery,
    Path((key, signature)): Path<(String, String)>,
    JsonBody(body): JsonBody,
) -> Result<Response, Problem> {
    let sent: RuleSignatureWithdrawalIn = wire::read(&body)?;
    let person = permitted.caller.person()?;
    let unknown = || Problem::not_found("signature", &signature);
    let id: Uuid = signature.parse().map_err(|_| unknown())?;
    let route = format!("POST /v1/rule-packs/{key}/signatures/{id}/withdrawal");
    let mut writing = match Writing::begin(&state, &permitted.caller, &route, &retry, &body).await?
    {
        Begun::Fresh(writing) => writing,
        Begun::Replay(response) => return Ok(response),
    };
    let tx = writing.tx();
    let actor = tx.actor();
    let found = named(tx.connection(), &key).await?;
    let pack = &*found.pack;
    let all = list::all(tx.connection(), pack).await?;
    if !all.iter().any(|own| own.signature == id) {
        return Err(unknown());
    }
    if !store::withdraw(tx.connection(), actor, (id, person), &sent.reason).await? {
        return Err(Problem::new(&CONFLICT, "The signature is withdrawn already."));
    }
    tx.note(Change {
        action: "rule-signature-withdrawn",
        kind: AUDIT_KIND,
        subject: key.clone(),
        revision: None,
        // Rows of signatures are told in the entry's details.
        document_hash: None,
        changes_rules: false,
    });
    let all = list::all(tx.connection(), pack).await?;
    let own = all.into_iter().find(|own| own.signature == id);
    writing.finish(&state, StatusCode::OK, &[], json!(own)).await
}
