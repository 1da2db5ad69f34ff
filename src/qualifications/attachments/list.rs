//! `GET /v1/qualifications/{code}/attachments`

use axum::{Json, extract::State};
use serde::Serialize;
use time::OffsetDateTime;
use utoipa::ToSchema;
use uuid::Uuid;

use super::store::{self, AttachmentRow};
use crate::{
    access::{AnyRole, Permitted},
    database::TenantTx,
    http::{AppState, CodePath, problem::Problem, responses::ReadProblems},
    qualifications::KIND,
    records,
};

/// Why and when an attachment was taken back.
#[derive(Debug, Serialize, ToSchema)]
pub struct WithdrawnOut {
    /// When.
    #[serde(with = "time::serde::rfc3339")]
    pub at: OffsetDateTime,
    /// Id of the person.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub by: Option<Uuid>,
    /// Why.
    pub reason: String,
}

/// What is known of an attachment.
#[derive(Debug, Serialize, ToSchema)]
pub struct AttachmentOut {
    /// Id of the attachment.
    pub attachment: Uuid,
    /// Name of the file.
    #[schema(example = "RT-9.pdf")]
    pub name: String,
    /// Media type, which its first bytes confirmed.
    #[schema(example = "application/pdf")]
    pub media_type: String,
    /// Length in bytes.
    pub length: i32,
    /// SHA-256 of its bytes, in hexadecimal; also its `ETag`, and in the audit chain.
    pub sha256: String,
    /// Id of the person who attached it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub person: Option<Uuid>,
    /// When.
    #[serde(with = "time::serde::rfc3339")]
    pub at: OffsetDateTime,
    /// That it was taken back. It stays readable.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub withdrawn: Option<WithdrawnOut>,
}

/// Attachments of a record.
#[derive(Debug, Serialize, ToSchema)]
pub struct Attachments {
    /// In the order they came.
    pub items: Vec<AttachmentOut>,
}

impl AttachmentOut {
    pub(super) fn of(row: AttachmentRow) -> Self {
        let withdrawn = row.withdrawn_at.map(|at| WithdrawnOut {
            at,
            by: row.withdrawn_by,
            reason: row.withdrawn_because.unwrap_or_default(),
        });
        Self {
            attachment: row.attachment_id,
            name: row.name,
            media_type: row.media_type,
            length: row.length,
            sha256: hex::encode(row.sha256),
            person: row.person_id,
            at: row.at,
            withdrawn,
        }
    }
}

/// List attachments
///
/// Lists what is attached to a qualification record, withdrawn attachments included.
#[utoipa::path(
    get, path = "/v1/qualifications/{code}/attachments", tag = "qualifications",
    params(("code" = String, Path, description = "Number of the record")),
    responses((status = 200, description = "The attachments", body = Attachments), ReadProblems),
)]
pub(super) async fn list_attachments(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    CodePath(code): CodePath,
) -> Result<Json<Attachments>, Problem> {
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    if records::find(tx.connection(), KIND, &code).await?.is_none() {
        return Err(Problem::not_found(KIND.name, &code));
    }
    let rows = store::all(tx.connection(), &code).await?;
    Ok(Json(Attachments { items: rows.into_iter().map(AttachmentOut::of).collect() }))
}
