//! `GET /v1/welders/{code}/standing`

use axum::{Json, extract::State};
use serde::{Deserialize, Serialize};
use time::{Date, OffsetDateTime};
use utoipa::{IntoParams, ToSchema};
use uuid::Uuid;

use super::{
    KIND,
    store::{self, EventRow},
};
use crate::{
    access::{AnyRole, Permitted},
    check::record::WelderQualification,
    database::TenantTx,
    http::{AppState, CodePath, Query, day_parameter, problem::Problem, responses::ReadProblems},
    organisation::OrganisationSettings,
    qualify::welder::{Validity, WelderLimit},
    trade::Coded,
};

/// Day of a question.
#[derive(Debug, Default, Deserialize, IntoParams)]
#[serde(deny_unknown_fields)]
#[into_params(parameter_in = Query)]
pub(super) struct DayQuery {
    /// Day, such as `2026-11-25`; today where left out.
    day: Option<String>,
}

impl DayQuery {
    fn day(&self, settings: &OrganisationSettings) -> Result<Date, Problem> {
        let Some(text) = &self.day else { return Ok(settings.today()) };
        day_parameter("?day", text)
    }
}

/// One limit of a welder's range.
#[derive(Debug, Serialize, ToSchema)]
pub struct WelderLimitOut {
    /// Id of the rule.
    pub rule: String,
    /// Clause.
    pub clause: String,
    /// Variable.
    pub variable: &'static str,
    /// The working: `deposit-thickness 8 mm: 3 mm to 16 mm`.
    pub working: String,
    /// What the limit is for, where it is not for every weld.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub only_for: Option<String>,
    /// How well the rule was confirmed.
    pub confidence: &'static str,
}

/// What was signed of a qualification.
#[derive(Debug, Serialize, ToSchema)]
pub struct WelderEventOut {
    /// What happened: `confirmed`, `revalidated`, `range-signed` or `withdrawn`.
    #[schema(example = "confirmed")]
    pub event: String,
    /// Day it is for: by it is judged whether it was in time.
    pub on: Date,
    /// When it was entered. One that was entered long after its day is as good as the paper it was signed on.
    #[serde(with = "time::serde::rfc3339")]
    pub entered_at: OffsetDateTime,
    /// Id of the person who entered it.
    pub person: Uuid,
    /// Whether a confirmation rests on use alone.
    pub by_use: bool,
    /// Option of a revalidation.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub option: Option<String>,
    /// Days of the welds that were tested.
    pub welds: Vec<Date>,
}

/// How one qualification stands.
#[derive(Debug, Serialize, ToSchema)]
pub struct QualificationStandingOut {
    /// Id within the welder's record.
    pub id: String,
    /// Code and edition of the qualification.
    #[schema(example = "ISO 9606-1:2012")]
    pub code: String,
    /// `in-force`, `lapsed`, `not-yet` or `unknown`.
    #[schema(example = "in-force")]
    pub standing: &'static str,
    /// Last day it holds or held; the first where it does not hold yet.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub day: Option<Date>,
    /// What ends it then: `confirmation`, `term` or `withdrawn`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ending: Option<&'static str>,
    /// What is missing, where nobody can tell.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub missing: Option<String>,
    /// Whether a responsible person signed that the range agrees with the printed code.
    pub range_signed: bool,
    /// What was signed of it, whatever the day asked for, in the order of entry.
    pub events: Vec<WelderEventOut>,
    /// The range.
    pub limits: Vec<WelderLimitOut>,
}

/// How a welder stands on a day.
#[derive(Debug, Serialize, ToSchema)]
pub struct WelderStandingOut {
    /// Code of the welder.
    pub welder: String,
    /// Day.
    pub day: Date,
    /// Qualifications.
    pub qualifications: Vec<QualificationStandingOut>,
}

/// Standing and range of a welder
///
/// Which qualifications hold on a day, until when and why, and what they cover, clause by clause. What was signed is told
/// with the day it is for and when it was entered: a signature given on paper may be entered later, and counts by its day.
#[utoipa::path(
    get, path = "/v1/welders/{code}/standing", tag = "welders",
    params(("code" = String, Path, description = "Code of the welder"), DayQuery),
    responses((status = 200, description = "The standing", body = WelderStandingOut), ReadProblems),
)]
pub(super) async fn read_welder_standing(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    CodePath(code): CodePath,
    Query(query): Query<DayQuery>,
) -> Result<Json<WelderStandingOut>, Problem> {
    let day = query.day(&permitted.caller.rulebook.settings)?;
    let welder = permitted.caller.rulebook.book.welders.get(&code);
    let welder = welder.ok_or_else(|| Problem::not_found(KIND.name, &code))?;
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    let events = store::events(tx.connection(), &code).await?;
    drop(tx);
    let standing = |one| standing(one, day, &events);
    let qualifications = welder.qualifications.iter().map(standing).collect();
    Ok(Json(WelderStandingOut { welder: code, day, qualifications }))
}

fn standing(one: &WelderQualification, day: Date, events: &[EventRow]) -> QualificationStandingOut {
    let (standing, day, ending, missing) = match one.validity(day) {
        Some(Validity::InForce { until, ending }) => {
            ("in-force", Some(until), Some(ending.code()), None)
        }
        Some(Validity::Lapsed { last_day, ending }) => {
            ("lapsed", Some(last_day), Some(ending.code()), None)
        }
        Some(Validity::NotYet { from }) => ("not-yet", Some(from), None, None),
        Some(Validity::Unknown(missing)) => ("unknown", None, None, Some(missing.to_string())),
        None => ("unknown", None, None, Some("the rule pack".to_owned())),
    };
    QualificationStandingOut {
        id: one.id.clone(),
        code: one.range.code.to_string(),
        standing,
        day,
        ending,
        missing,
        range_signed: one.range_signed,
        events: events.iter().filter(|event| event.qualification == one.id).map(event).collect(),
        limits: one.range.limits.iter().map(limit).collect(),
    }
}

fn event(row: &EventRow) -> WelderEventOut {
    WelderEventOut {
        event: row.event.clone(),
        on: row.on_day,
        entered_at: row.at,
        person: row.person_id,
        by_use: row.by_use,
        option: row.option.clone(),
        welds: row.welds.clone(),
    }
}

fn limit(limit: &WelderLimit) -> WelderLimitOut {
    WelderLimitOut {
        rule: limit.rule.clone(),
        clause: limit.clause.clone(),
        variable: limit.variable.code(),
        working: limit.working.clone(),
        only_for: limit.only_for(),
        confidence: limit.confidence.code(),
    }
}
