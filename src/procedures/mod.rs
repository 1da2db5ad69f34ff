//! Procedures: welding procedure specifications, their revisions and their life.

mod changed;
mod content;
mod difference;
mod document;
mod effects;
mod faults;
mod history;
mod life;
mod limits;
mod missing_limits;
mod print;
mod review;
mod store;
mod support;

pub use content::{ExecutionDocument, ParentMetalDocument};
pub use document::{ProcedureDocument, RunDocument, Standing};
pub(crate) use life::{release::ReleaseIn, sign::SignatureIn};
pub use support::{JudgedAtRelease, QualificationRoute, SupportDocument, SupportKind};

use serde::Deserialize;
use serde_json::{Map, Value, json};
use sqlx::PgConnection;
use time::Date;
use utoipa::IntoParams;
use utoipa_axum::{router::OpenApiRouter, routes};
use uuid::Uuid;

use crate::{
    access::{Approve, WriteData},
    consumables,
    database::TenantTx,
    http::{
        AppState, day_parameter,
        problem::{FieldError, Problem},
        read_parameter,
    },
    qualifications,
    records::{Column, Kind, RecordDocument, RecordFilter, positions_meant, record_endpoints},
    rule_packs,
    trade::{Coded, JointKind, Position, Process},
};

/// The kind of record.
pub const KIND: Kind = Kind { column: "procedure", name: "procedure", path: "procedures" };

const COLUMNS: &[Column] = &[
    ("title", "/title"),
    ("process", "/process"),
    ("joints", "/joints"),
    ("positions", "/positions"),
    ("base metals", "/base_metals"),
    ("thickness", "/thickness"),
    ("consumables", "/consumables"),
];

/// Which procedures to list.
#[derive(Debug, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct ProcedureFilter {
    /// Only this process, by its ISO 4063 number or AWS letters that mean one process only.
    process: Option<String>,
    /// Only those that cover this position: of ISO 6947, or one of those that a US name such as `3G` can mean.
    position: Option<String>,
    /// Only those that cover this joint: `butt` or `fillet`.
    joint: Option<String>,
    /// Only those that name this consumable.
    consumable: Option<String>,
    /// Only those written for this code, such as `AWS D1.1`.
    code: Option<String>,
    /// The revisions that checks of this day, such as `2026-11-25`, are held to, in the place of the newest ones:
    /// two of one procedure where their days overlap by plan.
    in_force_on: Option<String>,
}

/// The day whose revisions are listed.
fn in_force_on(filter: &ProcedureFilter) -> Result<Option<Date>, Problem> {
    filter.in_force_on.as_deref().map(|day| day_parameter("?in_force_on", day)).transpose()
}

impl RecordFilter for ProcedureFilter {
    fn contained(&self) -> Result<Vec<Value>, Problem> {
        let process = read_parameter::<Process>("?process", self.process.as_deref())?;
        let joint = read_parameter::<JointKind>("?joint", self.joint.as_deref())?;
        let mut wanted = Map::new();
        wanted.extend(process.map(|process| ("process".to_owned(), json!(process.code()))));
        wanted.extend(joint.map(|joint| ("joints".to_owned(), json!([joint.code()]))));
        let consumable = self.consumable.as_ref();
        wanted.extend(consumable.map(|code| ("consumables".to_owned(), json!([code]))));
        let code = self.code.as_ref();
        wanted.extend(code.map(|name| ("codes".to_owned(), json!([{ "name": name }]))));
        let Some(positions) = positions_meant(self.position.as_deref(), joint)? else {
            return Ok(vec![Value::Object(wanted)]);
        };
        let covered = |position: Position| {
            let mut wanted = wanted.clone();
            wanted.insert("positions".to_owned(), json!([position.code()]));
            Value::Object(wanted)
        };
        Ok(positions.into_iter().map(covered).collect())
    }
}

impl RecordDocument for ProcedureDocument {
    const KIND: Kind = KIND;
    const FIRST_STATE: &'static str = "draft";
    const STATES: &'static [&'static str] = &["draft", "in-review", "released", "withdrawn"];
    const CODE_POINTER: &'static str = "/number";

    fn code(&self) -> &str {
        self.number.as_str()
    }

    fn faults(&self) -> Vec<FieldError> {
        faults::of(self)
    }

    fn references(&self) -> Vec<(String, Kind, String)> {
        let consumables = self.consumables.iter().enumerate().map(|(index, code)| {
            (format!("/consumables/{index}"), consumables::KIND, code.to_string())
        });
        let records = self.support.records.iter().enumerate().map(|(index, code)| {
            (format!("/support/records/{index}"), qualifications::KIND, code.to_string())
        });
        let rules = self
            .support
            .own_rules()
            .map(|key| ("/support/pack".to_owned(), rule_packs::KIND, key.to_owned()));
        consumables.chain(records).chain(rules).collect()
    }

    async fn withdrawn(tx: &mut TenantTx, code: &str, reason: &str) -> Result<(), Problem> {
        life::withdraw_all(tx, code, reason).await
    }

    async fn project(
        &self,
        db: &mut PgConnection,
        organisation: Uuid,
        revision: i32,
    ) -> sqlx::Result<()> {
        store::open_standing(db, organisation, self.number.as_str(), revision).await?;
        store::write_limits(db, organisation, self, revision).await
    }
}

record_endpoints! {
    tag: "procedures",
    one: "procedure",
    many: "procedures",
    document: ProcedureDocument,
    filter: ProcedureFilter,
    columns: COLUMNS,
    write: WriteData,
    retire: Approve,
    paths: "/v1/procedures", "/v1/procedures/{code}", "/v1/procedures/{code}/withdrawal",
    operations: list_procedures, create_procedure, read_procedure, revise_procedure, withdraw_procedure,
    in_force: in_force_on,
}

/// Routes of this feature.
#[must_use]
pub fn router() -> OpenApiRouter<AppState> {
    record_routes()
        .routes(routes!(history::read_procedure_history))
        .routes(routes!(review::review_procedure))
        .routes(routes!(difference::compare_procedure_revisions))
        .routes(routes!(effects::foresee_release))
        .routes(routes!(print::print_procedure))
        .routes(routes!(life::submit::submit_procedure))
        .routes(routes!(life::send_back::return_procedure))
        .routes(routes!(life::release::release_procedure))
        .routes(routes!(life::sign::sign_procedure_support))
        .routes(routes!(life::withdraw_revision::withdraw_procedure_revision))
}
