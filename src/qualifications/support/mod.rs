//! `POST /v1/qualifications/support`

mod answer_out;
mod proposal_in;

pub(crate) use answer_out::finding as finding_out;
pub use answer_out::{SupportAnswer, SupportFindingOut};
pub use proposal_in::ProposalIn;

use axum::{Json, extract::State};

use self::answer_out::{PassedOverOut, UnsignedOut};
use super::{
    QualificationDocument,
    facts_in::{self, JobFactsIn},
    store::{self, CandidateRow},
};
use crate::{
    access::{AnyRole, Permitted},
    database::TenantTx,
    http::{
        AppState, JsonBody, aside,
        problem::{FieldError, Problem},
        responses::AskProblems,
    },
    qualify::{JobFacts, Pack, Proposal, derive, derive_all, judge, record::Record},
    records::plausible,
    trade::Coded,
    wire::{self, Code, wire_object},
};

/// Most records judged at once.
const MOST_RECORDS: usize = 500;

wire_object! {
    /// What is to be welded, and by which rules.
    pub struct SupportIn {
        /// Key of the rule pack: code, edition and level that the job is held to.
        pub pack: String,
        /// What the job demands.
        pub job: Option<JobFactsIn>,
        /// Setup, or ranges of a procedure.
        pub proposal: ProposalIn,
        /// Only these records; all of the code where left out.
        pub records: Option<Vec<Code>>,
    }
}

/// Ask which records support a proposal
///
/// Holds a setup, or the ranges of a procedure, against every signed qualification record of the code and
/// edition: which of them support it, or which comes nearest and what it lacks, with clause and working.
#[utoipa::path(
    post, path = "/v1/qualifications/support", tag = "qualifications",
    request_body(content = SupportIn, example = json!({
        "pack": "iso-15614-1-2017-level-2",
        "job": {"impact_required": false, "hardness_required": false},
        "proposal": {
            "joint": {"weld": "butt", "penetration": "full", "sides": "one", "backing": "none"},
            "parts": [
                {"form": "plate", "thickness": "10 mm", "group": "1.2", "specified_yield": "355 MPa"},
                {"form": "plate", "thickness": "10 mm", "group": "1.2", "specified_yield": "355 MPa"},
            ],
            "positions": ["PF"],
            "layering": "multi-run",
            "runs": [{"process": "136", "current": "160 to 200 A", "voltage": "22 to 26 V"}],
        },
    })),
    responses((status = 200, description = "Who supports it", body = SupportAnswer), AskProblems),
)]
pub(super) async fn find_support(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    JsonBody(body): JsonBody,
) -> Result<Json<SupportAnswer>, Problem> {
    let sent: SupportIn = wire::read(&body)?;
    let named = sent.records.as_deref();
    let mut faults = sent.proposal.faults();
    faults.extend(plausible::names_none("/records".to_owned(), named, "asks all of the code"));
    if !faults.is_empty() {
        return Err(Problem::fields(faults));
    }
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    let wanted: Vec<_> = named.iter().copied().flatten().map(ToString::to_string).collect();
    let limit = i64::try_from(MOST_RECORDS + 1).map_err(Problem::internal)?;
    let pack = facts_in::tested(tx.connection(), &sent.pack).await?;
    let job =
        sent.job.as_ref().map_or_else(|| Ok(JobFacts::default()), |job| job.compile(&pack))?;
    let mut rows = store::candidates(tx.connection(), &pack.code, &wanted, limit).await?;
    drop(tx);
    refuse_unknown(named.unwrap_or_default(), &rows)?;
    let more_records = rows.len() > MOST_RECORDS;
    rows.truncate(MOST_RECORDS);
    let proposal = sent.proposal.compile();
    let answer = aside(move || held_against(rows, &pack, &job, &proposal)).await??;
    Ok(Json(SupportAnswer { more_records, ..answer }))
}

/// A record that is named has to be there, and of the code.
fn refuse_unknown(wanted: &[Code], rows: &[CandidateRow]) -> Result<(), Problem> {
    let unknown = wanted
        .iter()
        .enumerate()
        .filter(|(_, code)| !rows.iter().any(|row| row.code == code.as_str()));
    let faults: Vec<_> = unknown
        .map(|(index, code)| FieldError {
            pointer: format!("/records/{index}"),
            detail: format!(
                "there is no qualification record \"{code}\" in use by this code and edition"
            ),
        })
        .collect();
    if faults.is_empty() { Ok(()) } else { Err(Problem::fields(faults)) }
}

fn held_against(
    rows: Vec<CandidateRow>,
    pack: &Pack,
    job: &JobFacts,
    proposal: &Proposal,
) -> Result<SupportAnswer, Problem> {
    let (mut signed, mut unsigned, mut passed_over) = (Vec::new(), Vec::new(), Vec::new());
    for row in rows {
        let record = record(&row)?;
        match derive(&record, pack, job) {
            Ok(_) if row.is_signed => signed.push(record),
            Ok(range) => unsigned.push(UnsignedOut {
                record: row.code,
                ruling: judge(proposal, &[range]).ruling.code(),
            }),
            Err(wrong) => {
                passed_over.push(PassedOverOut { record: row.code, reason: wrong.to_string() });
            }
        }
    }
    // Together, since the code lets some tests qualify more in pairs.
    let all: Vec<&Record> = signed.iter().collect();
    let range = derive_all(&all, pack, job).map_err(Problem::internal)?;
    let judgement = judge(proposal, &[range]);
    Ok(SupportAnswer {
        records: signed.len(),
        unsigned,
        passed_over,
        ..SupportAnswer::new(&judgement, pack)
    })
}

fn record(row: &CandidateRow) -> Result<Record, Problem> {
    let document: QualificationDocument =
        wire::read_stored(&row.document).map_err(|_| Problem::internal("a stored document"))?;
    Ok(document.compile(None))
}
