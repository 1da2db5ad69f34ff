//! `GET /v1/audit`

use axum::{Json, extract::State};
use serde::{Deserialize, Serialize};
use time::OffsetDateTime;
use utoipa::{IntoParams, ToSchema};
use uuid::Uuid;

use super::store::{self, EntryRow};
use crate::{
    access::{AnyRole, Permitted},
    database::TenantTx,
    http::{AppState, PageSize, Query, problem::Problem, responses::ListProblems},
};

/// Which entries to list.
#[derive(Debug, Default, Deserialize, IntoParams)]
#[serde(deny_unknown_fields)]
#[into_params(parameter_in = Query)]
pub struct AuditQuery {
    /// Only entries after this number.
    pub after: Option<i64>,
    /// Only entries about this record.
    pub subject: Option<String>,
    /// Entries on a page, 1 to 500; 100 where left out.
    #[param(minimum = 1, maximum = 500)]
    pub limit: Option<i64>,
}

/// One entry of the chain.
#[derive(Debug, Serialize, ToSchema)]
pub struct AuditEntryOut {
    /// Number, without gaps.
    pub number: i64,
    /// When.
    #[serde(with = "time::serde::rfc3339")]
    pub at: OffsetDateTime,
    /// Who; a pseudonym that `people` resolves for administrators.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub person: Option<Uuid>,
    /// With which key.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub key: Option<Uuid>,
    /// What was done.
    #[schema(example = "released")]
    pub action: String,
    /// Kind of record.
    #[schema(example = "procedure")]
    pub kind: String,
    /// Which one.
    pub subject: String,
    /// Revision concerned.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub revision: Option<i32>,
    /// Hash of the document.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub document_hash: Option<String>,
    /// Which members the hash covers: in format 1 there are no details.
    pub format: i16,
    /// Hash of the details, which the export shows: reasons, dates, signatures, judgements and roles that were
    /// written with it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub details_hash: Option<String>,
    /// Whether checks may answer otherwise after it.
    pub changes_rules: bool,
    /// Hash of the entry before.
    pub previous_hash: String,
    /// SHA-256 over this entry's RFC 8785 bytes.
    pub hash: String,
}

/// A page of the chain.
#[derive(Debug, Serialize, ToSchema)]
pub struct AuditOut {
    /// Entries, in order.
    pub items: Vec<AuditEntryOut>,
    /// `after` of the next page; left out on the last one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub next: Option<i64>,
}

/// List audit entries
///
/// Lists who changed what, in order.
#[utoipa::path(
    get, path = "/v1/audit", tag = "audit",
    params(AuditQuery),
    responses((status = 200, description = "A page of the chain", body = AuditOut), ListProblems),
)]
pub(super) async fn list_audit_entries(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    Query(query): Query<AuditQuery>,
) -> Result<Json<AuditOut>, Problem> {
    let size = PageSize::asked(query.limit, 100, 500)?;
    let after = query.after.unwrap_or(0);
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    let subject = query.subject.as_deref();
    let mut rows = store::page(tx.connection(), after, subject, size.to_read()).await?;
    let next = size.cut(&mut rows).map(|row| row.number);
    Ok(Json(AuditOut { items: rows.into_iter().map(entry).collect(), next }))
}

fn entry(row: EntryRow) -> AuditEntryOut {
    AuditEntryOut {
        number: row.number,
        at: row.at,
        person: row.person_id,
        key: row.key_id,
        action: row.action,
        kind: row.subject_kind,
        subject: row.subject,
        revision: row.revision,
        document_hash: row.document_hash.map(hex::encode),
        format: row.format,
        details_hash: row.details_hash.map(hex::encode),
        changes_rules: row.changes_rules,
        previous_hash: hex::encode(row.previous_hash),
        hash: hex::encode(row.hash),
    }
}
