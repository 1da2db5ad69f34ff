//! `GET /v1/procedures/{code}/history`

use axum::{Json, extract::State};
use serde::Serialize;
use time::{Date, OffsetDateTime};
use utoipa::ToSchema;
use uuid::Uuid;

use super::{
    KIND,
    store::{self, EditRow, EventRow, StandingRow},
};
use crate::{
    access::{AnyRole, Permitted},
    database::TenantTx,
    http::{AppState, CodePath, problem::Problem, responses::ReadProblems},
};

/// One written edit.
#[derive(Debug, Serialize, ToSchema)]
pub struct EditOut {
    /// Edit of the revision, counted from 1.
    pub edit: i32,
    /// Hash of the document.
    pub document_hash: String,
    /// Why.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
    /// Who wrote it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub author: Option<Uuid>,
    /// When.
    #[serde(with = "time::serde::rfc3339")]
    pub at: OffsetDateTime,
}

/// One thing that happened.
#[derive(Debug, Serialize, ToSchema)]
pub struct EventOut {
    /// What happened.
    #[schema(example = "released")]
    pub event: String,
    /// Who did it.
    pub person: Uuid,
    /// Why.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
    /// First day in force after it.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(value_type = Option<String>, format = Date)]
    pub effective_from: Option<Date>,
    /// Last day in force after it.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(value_type = Option<String>, format = Date)]
    pub effective_until: Option<Date>,
    /// When.
    #[serde(with = "time::serde::rfc3339")]
    pub at: OffsetDateTime,
}

/// One revision with all that was written and all that happened.
#[derive(Debug, Serialize, ToSchema)]
pub struct RevisionHistory {
    /// Revision, counted from 1.
    pub revision: i32,
    /// Where it stands now.
    #[schema(example = "released")]
    pub state: String,
    /// First day in force.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(value_type = Option<String>, format = Date)]
    pub effective_from: Option<Date>,
    /// Last day in force.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(value_type = Option<String>, format = Date)]
    pub effective_until: Option<Date>,
    /// Who signed the declared support.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub support_signed_by: Option<Uuid>,
    /// Edits, in order.
    pub edits: Vec<EditOut>,
    /// Events, in order.
    pub events: Vec<EventOut>,
}

/// The history of a procedure.
#[derive(Debug, Serialize, ToSchema)]
pub struct ProcedureHistory {
    /// Revisions, oldest first.
    pub revisions: Vec<RevisionHistory>,
}

/// Read the history of a procedure
///
/// Reads who wrote, reviewed, released and withdrew which revision, and why.
#[utoipa::path(
    get, path = "/v1/procedures/{code}/history", tag = "procedures",
    params(("code" = String, Path, description = "Number of the procedure")),
    responses((status = 200, description = "All revisions", body = ProcedureHistory), ReadProblems),
)]
pub(super) async fn read_procedure_history(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    CodePath(code): CodePath,
) -> Result<Json<ProcedureHistory>, Problem> {
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    let standings = store::standings(tx.connection(), &code).await?;
    if standings.is_empty() {
        return Err(Problem::not_found(KIND.name, &code));
    }
    let edits = store::edits(tx.connection(), &code).await?;
    let events = store::events(tx.connection(), &code).await?;
    let revisions =
        standings.into_iter().map(|standing| revision(standing, &edits, &events)).collect();
    Ok(Json(ProcedureHistory { revisions }))
}

fn revision(standing: StandingRow, edits: &[EditRow], events: &[EventRow]) -> RevisionHistory {
    let number = standing.revision;
    RevisionHistory {
        revision: number,
        state: standing.state,
        effective_from: standing.effective_from,
        effective_until: standing.effective_until,
        support_signed_by: standing.signed_by,
        edits: edits.iter().filter(|edit| edit.revision == number).map(edit).collect(),
        events: events.iter().filter(|event| event.revision == number).map(event).collect(),
    }
}

fn edit(row: &EditRow) -> EditOut {
    EditOut {
        edit: row.edit,
        document_hash: hex::encode(&row.document_hash),
        reason: row.reason.clone(),
        author: row.author_id,
        at: row.created_at,
    }
}

fn event(row: &EventRow) -> EventOut {
    EventOut {
        event: row.event.clone(),
        person: row.person_id,
        reason: row.reason.clone(),
        effective_from: row.effective_from,
        effective_until: row.effective_until,
        at: row.at,
    }
}
