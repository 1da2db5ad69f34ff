//! `GET /v1/checks`

use axum::{
    Json,
    extract::State,
    http::{Uri, header},
    response::{IntoResponse, Response},
};
use serde::{Deserialize, Serialize};
use time::{Date, OffsetDateTime};
use utoipa::{IntoParams, ToSchema};
use uuid::Uuid;

use super::store::{self, KeptLine, Wanted};
use crate::{
    access::{AnyRole, Permitted},
    database::TenantTx,
    http::{
        AppState, PageSize, Query, day_parameter, foreign_cursor, link_to_next, problem::Problem,
        responses::ListProblems,
    },
    organisation::OrganisationSettings,
};

/// Most checks of one page.
const MOST: i64 = 200;

/// Which kept checks to list.
#[derive(Debug, Default, Deserialize, IntoParams)]
#[serde(deny_unknown_fields)]
#[into_params(parameter_in = Query)]
pub(super) struct KeptQuery {
    /// Only checks for this work order.
    work_order: Option<String>,
    /// Only checks for this station.
    station: Option<String>,
    /// Only checks answered on this day or later, such as `2026-11-25`; days begin where the
    /// organisation is.
    from: Option<String>,
    /// Only checks answered on this day or before.
    until: Option<String>,
    /// Checks on a page, 1 to 200; 50 where left out.
    #[param(minimum = 1, maximum = 200)]
    limit: Option<i64>,
    /// The `next` of the page before.
    cursor: Option<String>,
}

impl KeptQuery {
    /// First moment, and the first moment after the last day.
    fn span(
        &self,
        settings: &OrganisationSettings,
    ) -> Result<(Option<OffsetDateTime>, Option<OffsetDateTime>), Problem> {
        let day = |name: &str, text: &Option<String>| {
            text.as_deref().map(|text| day_parameter(name, text)).transpose()
        };
        let (from, until) = (day("?from", &self.from)?, day("?until", &self.until)?);
        if from.zip(until).is_some_and(|(from, until)| until < from) {
            return Err(Problem::parameter("?until", "the last day lies before the first"));
        }
        let start = |day: Date| settings.start_of(day);
        Ok((from.map(start), until.and_then(Date::next_day).map(start)))
    }
}

/// A kept check in a list; the whole of it is at `/v1/checks/{id}`.
#[derive(Debug, Serialize, ToSchema)]
pub struct KeptCheckLine {
    /// Id of the evidence.
    pub check_id: Uuid,
    /// When it was answered.
    #[serde(with = "time::serde::rfc3339")]
    pub at: OffsetDateTime,
    /// Its verdict.
    #[schema(example = "allowed")]
    pub verdict: String,
    /// Number of the procedure it was held to; left out where none was found.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(example = "WPS-101")]
    pub procedure: Option<String>,
    /// Revision of that procedure.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub revision: Option<i32>,
    /// Work order it was for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub work_order: Option<String>,
    /// Station it was for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub station: Option<String>,
    /// Code of the welder it was for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub welder: Option<String>,
    /// Id of the person who asked; left out for a kiosk or shop software.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub person: Option<Uuid>,
    /// Key it was asked with.
    pub key: Uuid,
}

/// One page of kept checks, the newest first.
#[derive(Debug, Serialize, ToSchema)]
pub struct KeptChecks {
    /// The checks.
    pub items: Vec<KeptCheckLine>,
    /// Cursor of the next page; left out on the last one. Also in the `Link` header.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub next: Option<String>,
}

/// List kept checks
///
/// Lists the checks that were kept as evidence, the newest first, also those of one work order, of one station or of
/// some days.
#[utoipa::path(
    get, path = "/v1/checks", tag = "checks",
    params(KeptQuery),
    responses(
        (status = 200, description = "One page",
            headers(
                ("Link" = String, description = "The next page, as `rel=\"next\"`; sent where there is one"),
            ), body = KeptChecks),
        ListProblems,
    ),
)]
pub(super) async fn list_kept_checks(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    uri: Uri,
    Query(query): Query<KeptQuery>,
) -> Result<Response, Problem> {
    let size = PageSize::asked(query.limit, 50, MOST)?;
    let (from, before) = query.span(&permitted.caller.rulebook.settings)?;
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    let mut after = None;
    if let Some(cursor) = &query.cursor {
        let last = Uuid::parse_str(cursor).ok();
        let at = match last {
            Some(last) => store::moment(&mut tx, last).await?,
            None => None,
        };
        after = at.zip(last);
        if after.is_none() {
            return Err(foreign_cursor());
        }
    }
    let wanted = Wanted {
        work_order: query.work_order.as_deref(),
        station: query.station.as_deref(),
        from,
        before,
        after,
        limit: size.to_read(),
    };
    let mut rows = store::page(&mut tx, wanted).await?;
    let next = size.cut(&mut rows).map(|row| row.check_id.to_string());
    let link = next.as_ref().and_then(|next| link_to_next(&uri, "checks", next));
    let items = rows.into_iter().map(line).collect();
    let mut response = Json(KeptChecks { items, next }).into_response();
    if let Some(link) = link {
        response.headers_mut().insert(header::LINK, link);
    }
    Ok(response)
}

fn line(row: KeptLine) -> KeptCheckLine {
    KeptCheckLine {
        check_id: row.check_id,
        at: row.at,
        verdict: row.verdict,
        procedure: row.procedure,
        revision: row.revision,
        work_order: row.work_order,
        station: row.station,
        welder: row.welder,
        person: row.person_id,
        key: row.key_id,
    }
}
