//! `GET /v1/procedures/{code}/print`

mod compose;
mod filler;
mod gather;
mod heat;
mod joint;
mod metal;
mod runs;
mod say;
mod sketch;
mod sources;
#[cfg(test)]
mod tests;
mod warnings;

use axum::{
    body::Body,
    extract::State,
    http::{HeaderMap, HeaderName, HeaderValue, StatusCode, header},
    response::{IntoResponse, Response},
};
use serde::Deserialize;
use sha2::{Digest, Sha256};
use utoipa::IntoParams;

use self::gather::Gathered;
use crate::{
    access::{AnyRole, Permitted},
    database::TenantTx,
    http::{AppState, CodePath, Query, aside, problem::Problem, responses::ReadProblems},
    quantity::UnitSystem,
    records,
    sheet::{self, Paper, Sheet},
    trade::Coded,
};

/// What to print.
#[derive(Debug, Deserialize, IntoParams)]
#[serde(deny_unknown_fields)]
#[into_params(parameter_in = Query)]
pub(super) struct PrintQuery {
    /// Revision to print; the newest where left out.
    #[param(minimum = 1)]
    revision: Option<i32>,
    /// `metric` or `us`; the organisation's choice where left out.
    units: Option<String>,
    /// `a4` or `letter`; A4 for metric units and letter for US units where left out.
    paper: Option<String>,
}

impl PrintQuery {
    fn units(&self, choice: UnitSystem) -> Result<UnitSystem, Problem> {
        let Some(name) = self.units.as_deref() else { return Ok(choice) };
        let wrong = || Problem::parameter("?units", "units are \"metric\" or \"us\"");
        UnitSystem::from_code(name).ok_or_else(wrong)
    }

    fn paper(&self, units: UnitSystem) -> Result<Paper, Problem> {
        match (self.paper.as_deref(), units) {
            (Some("a4"), _) | (None, UnitSystem::Metric) => Ok(Paper::A4),
            (Some("letter"), _) | (None, UnitSystem::Us) => Ok(Paper::Letter),
            (Some(_), _) => Err(Problem::parameter("?paper", "paper is \"a4\" or \"letter\"")),
        }
    }
}

/// Print a procedure
///
/// One revision as a sheet for the floor, in the order of ISO 15609-1: an HTML page that needs nothing else, or
/// with `Accept: application/pdf` a PDF. Every limit has its unit and its owner, what is not stated is named, and
/// a revision that nobody may weld by says so across every page. A code on it leads to the revision as it
/// stands, where the organisation has set its public address. The same records give the same bytes.
#[utoipa::path(
    get, path = "/v1/procedures/{code}/print", tag = "procedures",
    params(
        ("code" = String, Path, description = "Number of the procedure"),
        PrintQuery,
        ("Accept" = Option<String>, Header, description = "`text/html` or `application/pdf`"),
        ("If-None-Match" = Option<String>, Header, description = "ETag you hold"),
    ),
    responses(
        (status = 200, description = "The sheet; `ETag` is the SHA-256 of its bytes",
            headers(
                ("ETag" = String, description = "Hash of the bytes"),
                ("Content-Disposition" = String, description = "Name of the file"),
            ),
            content((String = "text/html"), (String = "application/pdf"))),
        (status = 304, description = "You hold it already",
            headers(
                ("ETag" = String, description = "Hash of the bytes"),
            )),
        ReadProblems,
    ),
)]
pub(super) async fn print_procedure(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    headers: HeaderMap,
    CodePath(code): CodePath,
    Query(query): Query<PrintQuery>,
) -> Result<Response, Problem> {
    let caller = &permitted.caller;
    let units = query.units(caller.rulebook.settings.units)?;
    let paper = query.paper(units)?;
    let mut tx = TenantTx::snapshot(&state.pool, caller.actor()).await?;
    let gathered = Gathered::read(&mut tx, &code, query.revision).await?;
    drop(tx);
    let name = format!("{code}-{}", gathered.stored.revision);
    let form = Form::wanted(&headers);
    // A sheet of many pages takes a while: not on a thread that serves others.
    let made = aside(move || {
        let sheet = compose::sheet(&gathered, units, paper);
        form.made(&sheet)
    });
    let bytes = made.await?.map_err(Problem::internal)?;
    answer(&headers, bytes, form, paper, &name)
}

/// HTML or PDF.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Form {
    Html,
    Pdf,
}

impl Form {
    /// The first of the two that `Accept` names; HTML where it names neither.
    fn wanted(headers: &HeaderMap) -> Self {
        let accept = headers.get(header::ACCEPT).and_then(|value| value.to_str().ok());
        let named = accept.unwrap_or_default().split(',').find_map(|one| {
            match one.split(';').next().unwrap_or_default().trim() {
                "text/html" => Some(Self::Html),
                "application/pdf" => Some(Self::Pdf),
                _ => None,
            }
        });
        named.unwrap_or(Self::Html)
    }

    fn made(self, sheet: &Sheet) -> Result<Vec<u8>, String> {
        match self {
            Self::Html => Ok(sheet::html(sheet).into_bytes()),
            Self::Pdf => sheet::pdf(sheet),
        }
    }
}

fn answer(
    headers: &HeaderMap,
    bytes: Vec<u8>,
    form: Form,
    paper: Paper,
    name: &str,
) -> Result<Response, Problem> {
    let tag = format!("\"{}\"", hex::encode(Sha256::digest(&bytes)));
    let (media, ending, policy) = match form {
        Form::Html => ("text/html; charset=utf-8", "html", sheet::policy(paper)),
        Form::Pdf => ("application/pdf", "pdf", "default-src 'none'; sandbox"),
    };
    let (status, body) = if records::holds_already(headers, &tag) {
        (StatusCode::NOT_MODIFIED, Body::empty())
    } else {
        (StatusCode::OK, Body::from(bytes))
    };
    let mut response = (status, body).into_response();
    let put: [(HeaderName, String); 5] = [
        (header::CONTENT_TYPE, media.to_owned()),
        (header::CONTENT_DISPOSITION, format!("inline; filename=\"{name}.{ending}\"")),
        (header::ETAG, tag),
        (header::VARY, "Accept".to_owned()),
        (header::CONTENT_SECURITY_POLICY, policy.to_owned()),
    ];
    for (name, value) in put {
        let value = HeaderValue::from_str(&value).map_err(Problem::internal)?;
        response.headers_mut().insert(name, value);
    }
    Ok(response)
}
