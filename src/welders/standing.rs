//! `GET /v1/welders/{code}/standing`

use axum::Json;
use serde::{Deserialize, Serialize};
use time::Date;
use utoipa::{IntoParams, ToSchema};

use super::KIND;
use crate::{
    access::{AnyRole, Permitted},
    check::record::WelderQualification,
    http::{CodePath, Query, day_parameter, problem::Problem, responses::ReadProblems},
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
/// Which qualifications hold on a day, until when and why, and what they cover, clause by clause.
#[utoipa::path(
    get, path = "/v1/welders/{code}/standing", tag = "welders",
    params(("code" = String, Path, description = "Code of the welder"), DayQuery),
    responses((status = 200, description = "The standing", body = WelderStandingOut), ReadProblems),
)]
pub(super) async fn read_welder_standing(
    permitted: Permitted<AnyRole>,
    CodePath(code): CodePath,
    Query(query): Query<DayQuery>,
) -> Result<Json<WelderStandingOut>, Problem> {
    let day = query.day(&permitted.caller.rulebook.settings)?;
    let welder = permitted.caller.rulebook.book.welders.get(&code);
    let welder = welder.ok_or_else(|| Problem::not_found(KIND.name, &code))?;
    let qualifications = welder.qualifications.iter().map(|one| standing(one, day)).collect();
    Ok(Json(WelderStandingOut { welder: code, day, qualifications }))
}

fn standing(one: &WelderQualification, day: Date) -> QualificationStandingOut {
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
        limits: one.range.limits.iter().map(limit).collect(),
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
