//! Qualification records: tests of welding procedures as they were made, what they qualify by the rules of
//! their code, and the reports that belong to them.
//!
//! A record is entered as a draft and signed by a second person, who vouches that the entry says what the
//! paper says. A correction after that is a new revision that states its reason, and is signed again.

mod attachments;
mod document;
mod facts_in;
mod faults;
mod in_use;
mod range;
mod sign;
mod store;
mod support;

pub use document::{
    BaseMetalDocument, DepositDocument, ElectricalDocument, FillerAdditionDocument, FillerDocument,
    FitUpDocument, FluxDocument, GasesDocument, HardnessDocument, HeatTreatmentDocument,
    JointDocument, PNumberDocument, PartDocument, ParticipantDocument, PieceDocument,
    PostHeatingDocument, QualificationDocument, RecordSignatureDocument, RecordedRunDocument,
    TestDocument, TungstenDocument, WitnessDocument,
};

pub use facts_in::{JobFactsIn, StatementIn};
pub(crate) use in_use::{RecordInUse, in_use};
pub(crate) use range::CAUTION;
pub use sign::QualificationSignatureIn;
pub use support::SupportFindingOut;
pub(crate) use support::finding_out;

use serde::Deserialize;
use serde_json::{Map, Value, json};
use sqlx::PgConnection;
use utoipa::IntoParams;
use utoipa_axum::{router::OpenApiRouter, routes};
use uuid::Uuid;

use crate::{
    access::{Approve, WriteData},
    database::TenantTx,
    http::{
        AppState,
        problem::{FieldError, Problem},
        read_parameter,
    },
    qualify::record::Signature,
    records::{
        Column, Head, Kind, RecordDocument, RecordFilter, positions_meant, record_endpoints,
    },
    trade::{Coded, Position, Process},
};

/// The kind of record.
pub const KIND: Kind =
    Kind { column: "qualification", name: "qualification record", path: "qualifications" };

/// State of a record whose newest revision somebody signed.
const SIGNED: &str = "signed";

const COLUMNS: &[Column] = &[
    ("governing code", "/code/name"),
    ("edition", "/code/edition"),
    ("level", "/level"),
    ("welded on", "/welded_on"),
    ("manufacturer", "/manufacturer"),
];

/// Which qualification records to list.
#[derive(Debug, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct QualificationFilter {
    /// Only those made by this code, such as `AWS D1.1`.
    code: Option<String>,
    /// Only those made by this edition.
    edition: Option<String>,
    /// Only those with a run of this process, by its ISO 4063 number or AWS letters that mean one process only.
    process: Option<String>,
    /// Only those with a test piece in this position: of ISO 6947, or as US codes name it, such as `3G`.
    position: Option<String>,
}

impl RecordFilter for QualificationFilter {
    fn contained(&self) -> Result<Vec<Value>, Problem> {
        let process = read_parameter::<Process>("?process", self.process.as_deref())?;
        let mut wanted = Map::new();
        let mut code = Map::new();
        code.extend(self.code.as_ref().map(|name| ("name".to_owned(), json!(name))));
        code.extend(self.edition.as_ref().map(|edition| ("edition".to_owned(), json!(edition))));
        if !code.is_empty() {
            wanted.insert("code".to_owned(), Value::Object(code));
        }
        // Two wishes may be met by two pieces of one record: each piece is asked for by itself.
        let run = process.map(|process| json!({ "runs": [{ "process": process.code() }] }));
        let Some(positions) = positions_meant(self.position.as_deref(), None)? else {
            wanted.extend(run.map(|run| ("pieces".to_owned(), json!([run]))));
            return Ok(vec![Value::Object(wanted)]);
        };
        let in_position = |position: Position| {
            let place = json!({ "position": position.code() });
            let pieces: Vec<_> = run.iter().cloned().chain([place]).collect();
            let mut wanted = wanted.clone();
            wanted.insert("pieces".to_owned(), Value::Array(pieces));
            Value::Object(wanted)
        };
        Ok(positions.into_iter().map(in_position).collect())
    }
}

impl RecordDocument for QualificationDocument {
    const KIND: Kind = KIND;
    const FIRST_STATE: &'static str = "draft";
    const STATES: &'static [&'static str] = &["draft", SIGNED, "withdrawn"];
    const CODE_POINTER: &'static str = "/number";
    const CHANGES_RULES: bool = false;

    fn code(&self) -> &str {
        self.number.as_str()
    }

    fn faults(&self) -> Vec<FieldError> {
        faults::of(self)
    }

    /// What was signed is only corrected for a reason that its readers can see.
    fn may_revise(head: &Head, reason: Option<&str>) -> Result<(), Problem> {
        if head.state == SIGNED && reason.is_none_or(|reason| reason.trim().is_empty()) {
            let detail = "the record is signed; say why it is corrected";
            return Err(Problem::parameter("?reason", detail));
        }
        Ok(())
    }

    async fn withdrawn(tx: &mut TenantTx, code: &str, _: &str) -> Result<(), Problem> {
        in_use::refuse_while_rested_on(tx.connection(), code).await
    }

    async fn project(&self, _: &mut PgConnection, _: Uuid, _: i32) -> sqlx::Result<()> {
        Ok(())
    }
}

record_endpoints! {
    tag: "qualifications",
    one: "qualification record",
    many: "qualification records",
    document: QualificationDocument,
    filter: QualificationFilter,
    columns: COLUMNS,
    write: WriteData,
    retire: Approve,
    paths: "/v1/qualifications", "/v1/qualifications/{code}", "/v1/qualifications/{code}/withdrawal",
    operations: list_qualifications, create_qualification, read_qualification, revise_qualification,
        withdraw_qualification,
}

/// The signature of an entry, as the rules read it.
fn signed(row: &store::SignatureRow) -> Signature {
    let function = Some("second person of the entry".to_owned());
    Signature { person: row.name.clone(), function, body: None, on: row.at.date() }
}

/// Routes of this feature.
#[must_use]
pub fn router() -> OpenApiRouter<AppState> {
    record_routes()
        .routes(routes!(sign::sign_qualification))
        .routes(routes!(sign::read_qualification_signatures))
        .routes(routes!(range::derive_qualification_range))
        .routes(routes!(support::find_support))
        .merge(attachments::router())
}
