//! Reading one record or one of its revisions.

use axum::{
    http::{HeaderMap, StatusCode, header},
    response::{IntoResponse, Response},
};
use serde::Deserialize;
use utoipa::IntoParams;

use super::{
    RecordDocument,
    answer::{etag, with_etag},
    store,
};
use crate::{
    access::Caller,
    database::TenantTx,
    http::{AppState, problem::Problem},
};

/// Which revision to read.
#[derive(Debug, Default, Deserialize, IntoParams)]
#[serde(deny_unknown_fields)]
#[into_params(parameter_in = Query)]
pub struct ReadQuery {
    /// Revision to read; the newest where left out.
    #[param(minimum = 1)]
    pub revision: Option<i32>,
}

/// The newest revision, or the one asked for.
///
/// # Errors
/// A record or revision that does not exist.
pub async fn read<D: RecordDocument>(
    state: &AppState,
    caller: &Caller,
    headers: &HeaderMap,
    code: &str,
    query: &ReadQuery,
) -> Result<Response, Problem> {
    let mut tx = TenantTx::begin(&state.pool, caller.actor()).await?;
    let stored = match query.revision {
        Some(revision) => store::find_revision(tx.connection(), D::KIND, code, revision).await?,
        None => store::find(tx.connection(), D::KIND, code).await?,
    };
    let Some(stored) = stored else {
        let what =
            query.revision.map_or_else(|| code.to_owned(), |r| format!("{code}\" revision \"{r}"));
        return Err(Problem::not_found(D::KIND.name, &what));
    };
    if query.revision.is_none() && holds_already(headers, &etag(stored.version)) {
        return Ok(
            (StatusCode::NOT_MODIFIED, [(header::ETAG, etag(stored.version))]).into_response()
        );
    }
    Ok(with_etag::<D>(stored))
}

/// Whether `If-None-Match` names this version (weak comparison, RFC 9110, 13.1.2).
#[must_use]
pub fn holds_already(headers: &HeaderMap, tag: &str) -> bool {
    let given = headers.get(header::IF_NONE_MATCH).and_then(|value| value.to_str().ok());
    given.is_some_and(|given| {
        given.split(',').map(str::trim).any(|one| one == "*" || one.trim_start_matches("W/") == tag)
    })
}

/// Why a revision is made.
#[derive(Debug, Default, Deserialize, IntoParams)]
#[serde(deny_unknown_fields)]
#[into_params(parameter_in = Query)]
pub struct ReasonQuery {
    /// Why, for those who read the history.
    pub reason: Option<String>,
}
