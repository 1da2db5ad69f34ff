//! Consumables: wires and electrodes with their printed data ranges.

mod care;
mod document;
mod faults;
mod store;

pub use care::CareDocument;
pub use document::{ConditionDocument, ConsumableDocument, DataEditionDocument};

use serde::Deserialize;
use serde_json::{Map, Value, json};
use sqlx::PgConnection;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use uuid::Uuid;

use crate::{
    access::{Approve, WriteData},
    http::{
        AppState,
        problem::{FieldError, Problem},
        read_parameter,
    },
    records::{Column, Kind, RecordDocument, RecordFilter, record_endpoints},
    trade::{Coded, FillerKind, GasGroup},
};

/// The kind of record.
pub const KIND: Kind = Kind { column: "consumable", name: "consumable", path: "consumables" };

const COLUMNS: &[Column] = &[
    ("name", "/name"),
    ("kind", "/kind"),
    ("designations", "/designations"),
    ("diameters", "/diameters"),
    ("gases", "/gases"),
];

/// Which consumables to list.
#[derive(Debug, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct ConsumableFilter {
    /// Only this kind of filler, such as `flux-cored-wire`.
    kind: Option<String>,
    /// Only those that hold this designation, as written in the record.
    designation: Option<String>,
    /// Only those whose maker allows this gas group, such as `M21`.
    gas: Option<String>,
}

impl RecordFilter for ConsumableFilter {
    fn contained(&self) -> Result<Vec<Value>, Problem> {
        let kind = read_parameter::<FillerKind>("?kind", self.kind.as_deref())?;
        let gas = read_parameter::<GasGroup>("?gas", self.gas.as_deref())?;
        let mut wanted = Map::new();
        wanted.extend(kind.map(|kind| ("kind".to_owned(), json!(kind.code()))));
        let designation = self.designation.as_ref();
        wanted.extend(designation.map(|text| ("designations".to_owned(), json!([text]))));
        wanted.extend(gas.map(|gas| ("gases".to_owned(), json!([gas.code()]))));
        Ok(vec![Value::Object(wanted)])
    }
}

impl RecordDocument for ConsumableDocument {
    const KIND: Kind = KIND;

    fn code(&self) -> &str {
        self.code.as_str()
    }

    fn faults(&self) -> Vec<FieldError> {
        faults::of(self)
    }

    async fn project(&self, db: &mut PgConnection, organisation: Uuid, _: i32) -> sqlx::Result<()> {
        store::write_conditions(db, organisation, self).await
    }
}

record_endpoints! {
    tag: "consumables",
    one: "consumable",
    many: "consumables",
    document: ConsumableDocument,
    filter: ConsumableFilter,
    columns: COLUMNS,
    write: WriteData,
    retire: Approve,
    paths: "/v1/consumables", "/v1/consumables/{code}", "/v1/consumables/{code}/withdrawal",
    operations: list_consumables, create_consumable, read_consumable, revise_consumable, withdraw_consumable,
}

/// Routes of this feature.
#[must_use]
pub fn router() -> OpenApiRouter<AppState> {
    record_routes()
}
