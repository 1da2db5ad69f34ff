//! Making a record.

use axum::{http::StatusCode, response::Response};
use serde_json::{Value, json};

use super::{
    RecordDocument,
    answer::etag,
    store::{self, NewDocument},
};
use crate::{
    access::Caller,
    database::{Change, TenantTx},
    http::{
        AppState, Retry, Writing,
        problem::{CONFLICT, FieldError, Problem},
        retry::Begun,
    },
    wire,
};

/// Reads the document, writes the record with revision 1, and answers 201 with its place.
///
/// # Errors
/// Field errors of the document, a taken code, a failing database.
pub async fn create<D: RecordDocument>(
    state: &AppState,
    caller: &Caller,
    retry: &Retry,
    body: &Value,
) -> Result<Response, Problem> {
    let document: D = wire::read(body)?;
    let code = document.code().to_owned();
    let route = format!("POST /v1/{}", D::KIND.path);
    let mut writing = match Writing::begin(state, caller, &route, retry, body).await? {
        Begun::Fresh(writing) => writing,
        Begun::Replay(response) => return Ok(response),
    };
    refuse_faults(writing.tx(), &document).await?;
    let tx = writing.tx();
    let actor = tx.actor();
    if !store::insert_head(tx.connection(), actor, D::KIND, &code, D::FIRST_STATE).await? {
        let detail = format!("There is already a {} \"{code}\".", D::KIND.name);
        return Err(Problem::new(&CONFLICT, detail));
    }
    let written = write(tx, &document, (1, 1), None, "created").await?;
    let stored = store::find(tx.connection(), D::KIND, &code).await?;
    let location = format!("/v1/{}/{code}", D::KIND.path);
    let answer = json!(stored.map(super::RecordBody::of::<D>));
    writing
        .finish(
            state,
            StatusCode::CREATED,
            &[("location", location), ("etag", etag(written))],
            answer,
        )
        .await
}

/// Inserts a document with its projections and notes the change; gives the record's first version.
pub(super) async fn write<D: RecordDocument>(
    tx: &mut TenantTx,
    document: &D,
    revision: (i32, i32),
    reason: Option<&str>,
    action: &'static str,
) -> Result<i32, Problem> {
    let (actor, canonical) = (tx.actor(), document.to_wire());
    let new = NewDocument {
        kind: D::KIND,
        code: document.code(),
        revision,
        document: &canonical,
        reason,
    };
    let hash = store::write_document(tx.connection(), actor, new).await?;
    document.project(tx.connection(), actor.organisation, revision.0).await?;
    tx.note(Change {
        action,
        kind: D::KIND.column,
        subject: document.code().to_owned(),
        revision: Some(revision.0),
        document_hash: Some(hash),
        changes_rules: D::CHANGES_RULES,
    });
    Ok(1)
}

/// Refuses a document with faults across fields or with references to nothing.
pub(super) async fn refuse_faults<D: RecordDocument>(
    tx: &mut TenantTx,
    document: &D,
) -> Result<(), Problem> {
    let mut faults = document.faults();
    let references = document.references();
    let kinds: Vec<_> = references.iter().map(|(_, kind, _)| kind.column.to_owned()).collect();
    let codes: Vec<_> = references.iter().map(|(_, _, code)| code.clone()).collect();
    let known = store::existing(tx.connection(), &kinds, &codes).await?;
    faults.extend(references.into_iter().filter_map(|(pointer, kind, code)| {
        let missing = !known.contains(&(kind.column.to_owned(), code.clone()));
        missing.then(|| FieldError {
            pointer,
            detail: format!("there is no {} \"{code}\"; write it first", kind.name),
        })
    }));
    if faults.is_empty() { Ok(()) } else { Err(Problem::fields(faults)) }
}
