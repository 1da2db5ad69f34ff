//! `POST /v1/welder-search`

use axum::Json;
use serde::Serialize;
use time::Date;
use utoipa::ToSchema;

use crate::{
    access::{AnyRole, Permitted},
    check::record::{Proof, Welder},
    http::{JsonBody, problem::Problem, responses::AskProblems},
    qualify::welder::{Validity, WelderJob, WelderRuling},
    quantity::Thickness,
    trade::{Coded, JointKind, PositionClaim, Process},
    wire::{self, WelderWorkIn, wire_object},
};

wire_object! {
    /// A job, to find who may weld it. What is left out is unknown, and nobody may weld on it.
    pub struct WelderSearchIn {
        /// Day; today where left out.
        pub day: Option<Date>,
        /// Process.
        pub process: Option<Process>,
        /// Butt or fillet.
        pub joint: Option<JointKind>,
        /// Position: ISO 6947, US test position or US letter.
        pub position: Option<String>,
        /// Thickness of each part.
        pub thicknesses: Vec<Thickness>,
        /// The rest of the work.
        pub work: Option<WelderWorkIn>,
    }
}

/// How one welder lies to the job.
#[derive(Debug, Serialize, ToSchema)]
pub struct WelderFitOut {
    /// Code of the welder.
    pub welder: String,
    /// `within` (may weld it), `not-judged` or `outside`.
    #[schema(example = "within")]
    pub ruling: &'static str,
    /// The qualification that proves most; left out where there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub qualification: Option<String>,
    /// Last day it holds, where it does.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub until: Option<Date>,
    /// Limits that are not within, with their clauses, and what else is against it.
    pub against: Vec<String>,
}

/// Who may weld a job.
#[derive(Debug, Serialize, ToSchema)]
pub struct WelderSearchOut {
    /// Day.
    pub day: Date,
    /// All welders: first who may, then who cannot be judged, then who may not, each by code.
    pub welders: Vec<WelderFitOut>,
}

/// Who may weld this job
///
/// Lays a job beside every welder's qualifications on a day.
#[utoipa::path(
    post, path = "/v1/welder-search", tag = "welders",
    request_body = WelderSearchIn,
    responses((status = 200, description = "Every welder, the able first", body = WelderSearchOut), AskProblems),
)]
pub(super) async fn find_welders(
    permitted: Permitted<AnyRole>,
    JsonBody(body): JsonBody,
) -> Result<Json<WelderSearchOut>, Problem> {
    let sent: WelderSearchIn = wire::read(&body)?;
    let day = sent.day.unwrap_or_else(|| permitted.caller.rulebook.settings.today());
    let claim = sent.position.as_ref().map(|text| PositionClaim::parse(text, sent.joint));
    let claim =
        claim.transpose().map_err(|error| Problem::field("/position", error.to_string()))?;
    let job = WelderJob {
        process: sent.process,
        weld: sent.joint,
        positions: claim.map(|claim| claim.positions().collect()).unwrap_or_default(),
        thicknesses: sent.thicknesses,
        ..sent.work.as_ref().map(WelderWorkIn::job).unwrap_or_default()
    };
    let book = &permitted.caller.rulebook.book;
    let mut fits: Vec<_> = book.welders.values().map(|welder| fit(welder, &job, day)).collect();
    fits.sort_by(|a, b| (a.0, &a.1.welder).cmp(&(b.0, &b.1.welder)));
    Ok(Json(WelderSearchOut { day, welders: fits.into_iter().map(|(_, fit)| fit).collect() }))
}

fn fit(welder: &Welder, job: &WelderJob, day: Date) -> (WelderRuling, WelderFitOut) {
    let code = welder.code.clone();
    let Some((qualification, proof)) = welder.best_proof(job, day) else {
        let against = vec!["no qualification is recorded".to_owned()];
        let ruling = WelderRuling::Outside;
        let fit = WelderFitOut {
            welder: code,
            ruling: ruling.code(),
            qualification: None,
            until: None,
            against,
        };
        return (ruling, fit);
    };
    let until = match proof.validity {
        Some(Validity::InForce { until, .. }) => Some(until),
        _ => None,
    };
    let ruling = proof.ruling();
    let fit = WelderFitOut {
        welder: code,
        ruling: ruling.code(),
        qualification: Some(qualification.id.clone()),
        until,
        against: against(&proof),
    };
    (ruling, fit)
}

fn against(proof: &Proof) -> Vec<String> {
    let mut all = Vec::new();
    match &proof.validity {
        Some(Validity::InForce { .. }) => {}
        Some(Validity::Lapsed { last_day, ending }) => {
            all.push(format!("lapsed after {last_day}: {ending}"));
        }
        Some(Validity::NotYet { from }) => all.push(format!("begins on {from}")),
        Some(Validity::Unknown(missing)) => all.push(missing.to_string()),
        None => all.push("its rule pack is not there any more".to_owned()),
    }
    if proof.unsigned_memory {
        all.push("the range rests on values from memory that nobody has signed".to_owned());
    }
    for one in proof.judgement.findings.iter().filter(|one| one.ruling != WelderRuling::Within) {
        let why = one.missing.as_ref().map_or_else(
            || format!("{} is not in {}", one.given, one.allowed),
            ToString::to_string,
        );
        all.push(format!("{} ({}): {why}", one.variable, one.clause));
    }
    all
}
