//! How a record is answered, and its ETag.

use axum::{
    Json,
    http::{HeaderValue, StatusCode, header},
    response::{IntoResponse, Response},
};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use time::{Date, OffsetDateTime};
use utoipa::ToSchema;
use uuid::Uuid;

use super::{RecordDocument, Stored};
use crate::wire;

/// A revision of a procedure that checks are held to between its days.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct RevisionInForce {
    /// Revision.
    pub revision: i32,
    /// When it was released.
    #[serde(with = "time::serde::rfc3339")]
    pub released_at: OffsetDateTime,
    /// First day in force; left out where it was released for at once.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    #[schema(value_type = Option<String>, format = Date)]
    pub effective_from: Option<Date>,
    /// Last day in force; left out where none is planned.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    #[schema(value_type = Option<String>, format = Date)]
    pub effective_until: Option<Date>,
    /// Whether a person has signed its support.
    pub support_signed: bool,
}

/// One revision of a record. The document comes back as typed, whatever units the caller prefers: it
/// is what was signed and hashed.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RecordAnswer<D> {
    /// Code of the record.
    pub code: String,
    /// Revision, counted from 1.
    pub revision: i32,
    /// Edit of the revision; more than 1 only for drafts that were changed.
    pub edit: i32,
    /// State of this revision.
    #[schema(example = "current")]
    pub state: String,
    /// The canonical document.
    pub document: D,
    /// SHA-256 of the document's RFC 8785 bytes, in hexadecimal.
    pub document_hash: String,
    /// Why this revision was made.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
    /// Id of the person who wrote it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub author: Option<Uuid>,
    /// When it was written.
    #[serde(with = "time::serde::rfc3339")]
    pub written_at: OffsetDateTime,
    /// First day in force of this revision of a procedure; left out where no release named one.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(value_type = Option<String>, format = Date)]
    pub effective_from: Option<Date>,
    /// Last day in force of this revision of a procedure; left out where none is planned.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(value_type = Option<String>, format = Date)]
    pub effective_until: Option<Date>,
    /// Procedures only: the revisions in force today or from a day to come, each with its days, whichever revision
    /// is read. Empty where checks cannot be held to the procedure.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub in_force: Option<Vec<RevisionInForce>>,
    /// Why the record was taken out of use.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub withdrawn_because: Option<String>,
}

/// A record whose document is passed on as stored.
pub type RecordBody = RecordAnswer<Value>;

impl RecordBody {
    /// A stored record as an answer, its members in the order that the kind of document declares.
    #[must_use]
    pub fn of<D: RecordDocument>(stored: Stored) -> Self {
        let ordered = wire::read_stored::<D>(&stored.document).map(|document| document.to_wire());
        let document = ordered.unwrap_or(stored.document);
        Self {
            code: stored.code,
            revision: stored.revision,
            edit: stored.edit,
            state: stored.state,
            document,
            document_hash: hex::encode(stored.document_hash),
            reason: stored.reason,
            author: stored.author_id,
            written_at: stored.created_at,
            effective_from: stored.effective_from,
            effective_until: stored.effective_until,
            in_force: stored.in_force.map(|in_force| in_force.0),
            withdrawn_because: stored.withdrawn_because,
        }
    }
}

/// The strong ETag of a record's version: one for every encoding of it.
#[must_use]
pub fn etag(version: i32) -> String {
    format!("\"v{version}\"")
}

/// A record with its ETag.
pub(super) fn with_etag<D: RecordDocument>(stored: Stored) -> Response {
    let tag = etag(stored.version);
    let mut response = (StatusCode::OK, Json(RecordBody::of::<D>(stored))).into_response();
    if let Ok(tag) = HeaderValue::from_str(&tag) {
        response.headers_mut().insert(header::ETAG, tag);
    }
    response
}
