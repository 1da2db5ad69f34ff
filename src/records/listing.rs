//! Lists of records: keyset paging by code, filters by field, CSV on request.

use axum::{
    Json,
    http::{HeaderMap, Uri, header},
    response::{IntoResponse, Response},
};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use time::Date;
use utoipa::{IntoParams, ToSchema};

use super::{
    RecordBody, RecordDocument, Stored,
    store::{self, Wanted},
};
use crate::{
    access::Caller,
    database::TenantTx,
    http::{AppState, PageSize, foreign_cursor, link_to_next, problem::Problem},
    trade::{JointKind, Position, PositionClaim},
    wire::Code,
};

/// Most records of one page.
const MOST: i64 = 200;

/// Which page of a list.
#[derive(Debug, Default, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct PageQuery {
    /// Records on a page, 1 to 200; 50 where left out.
    #[param(minimum = 1, maximum = 200)]
    pub limit: Option<i64>,
    /// The `next` of the page before.
    pub cursor: Option<String>,
    /// Only records that stand in this state: `current` or `withdrawn`; procedures `draft`, `in-review`,
    /// `released` or `withdrawn`; qualification records `draft`, `signed` or `withdrawn`.
    pub state: Option<String>,
}

/// One page of records, in the order of their codes.
#[derive(Debug, Serialize, ToSchema)]
pub struct Listing<D> {
    /// The records.
    pub items: Vec<super::RecordAnswer<D>>,
    /// Cursor of the next page; left out on the last one. Also in the `Link` header.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub next: Option<String>,
}

/// Filters of one kind of record.
pub trait RecordFilter {
    /// Documents of which those that are listed contain one.
    ///
    /// # Errors
    /// A word that no document can have.
    fn contained(&self) -> Result<Vec<Value>, Problem>;
}

/// The positions that a filter means; more than one for a US name that does not say which way the arc travels.
///
/// # Errors
/// A text that names none.
pub fn positions_meant(
    text: Option<&str>,
    joint: Option<JointKind>,
) -> Result<Option<Vec<Position>>, Problem> {
    let claim = text.map(|text| PositionClaim::parse(text, joint)).transpose();
    let claim = claim.map_err(|error| Problem::parameter("?position", error.to_string()))?;
    Ok(claim.map(|claim| claim.positions().collect()))
}

/// A column of the CSV form: its heading and the pointer of its value in the document.
pub type Column = (&'static str, &'static str);

/// Which records are listed, of those on the pages.
#[derive(Debug)]
pub struct Filter {
    /// JSON documents of which listed documents contain one.
    pub contained: Vec<Value>,
    /// The codes that come into question, where not all do.
    pub only: Option<Vec<String>>,
    /// Procedures only: the revisions in force on this day, in the place of the newest ones.
    pub in_force_on: Option<Date>,
}

/// One page, as JSON or, by `Accept: text/csv`, as CSV.
///
/// # Errors
/// An unusable cursor, limit or state, a failing database.
pub async fn list<D: RecordDocument>(
    state: &AppState,
    caller: &Caller,
    (uri, headers): (&Uri, &HeaderMap),
    page: &PageQuery,
    filter: &Filter,
    columns: &[Column],
) -> Result<Response, Problem> {
    let size = PageSize::asked(page.limit, 50, MOST)?;
    if let Some(state) = page.state.as_deref()
        && !D::STATES.contains(&state)
    {
        let detail =
            format!("no {} stands so; the states are {}", D::KIND.name, D::STATES.join(", "));
        return Err(Problem::parameter("?state", detail));
    }
    if page.state.is_some() && filter.in_force_on.is_some() {
        let detail = "with ?in_force_on it is left out: every revision listed is released";
        return Err(Problem::parameter("?state", detail));
    }
    let after = page.cursor.as_deref().map(from_cursor).transpose()?;
    let mut tx = TenantTx::begin(&state.pool, caller.actor()).await?;
    let wanted = Wanted {
        after: after.as_ref().map(|(code, revision)| (code.as_str(), *revision)),
        state: page.state.as_deref(),
        filter: &filter.contained,
        only: filter.only.as_deref(),
        in_force_on: filter.in_force_on,
        limit: size.to_read(),
    };
    let mut rows = store::page(tx.connection(), D::KIND, wanted).await?;
    let last = size.cut(&mut rows);
    let next = last.map(|row| hex::encode(format!("{}/{}", row.code, row.revision)));
    let mut response = if wants_csv(headers) {
        csv_of(&rows, columns, filter.in_force_on.is_some())?
    } else {
        let items = rows.into_iter().map(RecordBody::of::<D>).collect();
        Json(Listing::<Value> { items, next: next.clone() }).into_response()
    };
    if let Some(link) = next.and_then(|next| link_to_next(uri, D::KIND.path, &next)) {
        response.headers_mut().insert(header::LINK, link);
    }
    Ok(response)
}

/// Code and revision of the last record of the page before.
fn from_cursor(cursor: &str) -> Result<(String, i32), Problem> {
    let text = hex::decode(cursor).ok().and_then(|bytes| String::from_utf8(bytes).ok());
    text.as_deref()
        .and_then(|text| text.split_once('/'))
        .filter(|(code, _)| Code::parse(code).is_some())
        .and_then(|(code, revision)| Some((code.to_owned(), revision.parse().ok()?)))
        .ok_or_else(foreign_cursor)
}

fn wants_csv(headers: &HeaderMap) -> bool {
    let accept = headers.get(header::ACCEPT).and_then(|value| value.to_str().ok());
    accept.is_some_and(|accept| accept.split(',').any(|one| one.trim().starts_with("text/csv")))
}

fn csv_of(rows: &[Stored], columns: &[Column], with_days: bool) -> Result<Response, Problem> {
    let mut writer =
        csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    let own = ["code", "revision", "state"].into_iter();
    let days: &[&str] = if with_days { &["in force from", "in force until"] } else { &[] };
    let heading =
        own.chain(days.iter().copied()).chain(columns.iter().map(|(heading, _)| *heading));
    writer.write_record(heading).map_err(Problem::internal)?;
    for row in rows {
        let own = [row.code.clone(), row.revision.to_string(), row.state.clone()];
        let days = if with_days { days_of(row) } else { Vec::new() };
        let cells = columns.iter().map(|(_, pointer)| cell(row.document.pointer(pointer)));
        writer.write_record(own.into_iter().chain(days).chain(cells)).map_err(Problem::internal)?;
    }
    let bytes = writer.into_inner().map_err(|error| Problem::internal(error.to_string()))?;
    Ok(([(header::CONTENT_TYPE, "text/csv; charset=utf-8")], bytes).into_response())
}

/// First and last day in force of a revision, each empty where it has none.
fn days_of(row: &Stored) -> Vec<String> {
    let days = [row.effective_from, row.effective_until];
    days.map(|day| day.map(|day| day.to_string()).unwrap_or_default()).into()
}

/// A value as a cell. A cell that a spreadsheet would run as a formula is quoted with an apostrophe.
fn cell(value: Option<&Value>) -> String {
    let text = match value {
        None | Some(Value::Null) => String::new(),
        Some(Value::String(text)) => text.clone(),
        Some(Value::Array(items)) => {
            items.iter().map(|item| cell(Some(item))).collect::<Vec<_>>().join("; ")
        }
        Some(Value::Object(members)) if members.contains_key("unit") => {
            let part = |name: &str| members.get(name).map(ToString::to_string).unwrap_or_default();
            let unit = members.get("unit").and_then(Value::as_str).unwrap_or_default();
            match members.get("value") {
                Some(value) => format!("{value} {unit}"),
                None => format!("{} to {} {unit}", part("min"), part("max")),
            }
        }
        Some(other) => other.to_string(),
    };
    if text.starts_with(['=', '+', '-', '@', '\t', '\r']) { format!("'{text}") } else { text }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn a_cell_never_starts_a_formula() {
        assert_eq!(cell(Some(&json!("=1+1"))), "'=1+1");
        assert_eq!(cell(Some(&json!("@sum"))), "'@sum");
        assert_eq!(cell(Some(&json!("W-101"))), "W-101");
    }

    #[test]
    fn quantities_and_lists_are_readable() {
        assert_eq!(
            cell(Some(&json!([{"value": 1.2, "unit": "mm"}, {"value": 1.6, "unit": "mm"}]))),
            "1.2 mm; 1.6 mm"
        );
        assert_eq!(cell(Some(&json!({"min": 3, "max": 24, "unit": "mm"}))), "3 to 24 mm");
    }
}
