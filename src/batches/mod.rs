//! Batches of consumables: certificate, what was done with each packet, and what each still is.
//!
//! What was done is noted as it happens, by people or by the kiosk of a station; nothing is changed or taken
//! back. State and check read the same history.

mod care;
mod document;
mod events;
mod store;

pub use document::BatchDocument;
pub use events::{CareEventDocument, CareEventKind, canonical_event, faults_of_events, portions};
pub use store::{EventRow, events};

use serde::Deserialize;
use serde_json::{Map, Value, json};
use sqlx::PgConnection;
use utoipa::IntoParams;
use utoipa_axum::{router::OpenApiRouter, routes};
use uuid::Uuid;

use crate::{
    access::{Approve, WriteData},
    consumables,
    http::{
        AppState,
        problem::{FieldError, Problem},
    },
    records::{Column, Kind, RecordDocument, RecordFilter, record_endpoints},
};

/// The kind of record.
pub const KIND: Kind =
    Kind { column: "consumable-batch", name: "consumable batch", path: "consumable-batches" };

const COLUMNS: &[Column] = &[
    ("consumable", "/consumable"),
    ("lot", "/lot"),
    ("received on", "/received_on"),
    ("certificate", "/certificate/reference"),
];

/// Which batches to list.
#[derive(Debug, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct BatchFilter {
    /// Only batches of this consumable.
    consumable: Option<String>,
    /// Only the batch of this lot number of the maker.
    lot: Option<String>,
}

impl RecordFilter for BatchFilter {
    fn contained(&self) -> Result<Vec<Value>, Problem> {
        let mut wanted = Map::new();
        wanted.extend(self.consumable.as_ref().map(|code| ("consumable".to_owned(), json!(code))));
        wanted.extend(self.lot.as_ref().map(|lot| ("lot".to_owned(), json!(lot))));
        Ok(vec![Value::Object(wanted)])
    }
}

impl RecordDocument for BatchDocument {
    const KIND: Kind = KIND;

    fn code(&self) -> &str {
        self.code.as_str()
    }

    fn faults(&self) -> Vec<FieldError> {
        self.faults()
    }

    fn references(&self) -> Vec<(String, Kind, String)> {
        vec![("/consumable".to_owned(), consumables::KIND, self.consumable.to_string())]
    }

    async fn project(&self, _: &mut PgConnection, _: Uuid, _: i32) -> sqlx::Result<()> {
        Ok(())
    }
}

record_endpoints! {
    tag: "batches",
    one: "consumable batch",
    many: "consumable batches",
    document: BatchDocument,
    filter: BatchFilter,
    columns: COLUMNS,
    write: WriteData,
    retire: Approve,
    paths: "/v1/consumable-batches", "/v1/consumable-batches/{code}",
        "/v1/consumable-batches/{code}/withdrawal",
    operations: list_batches, create_batch, read_batch, revise_batch, withdraw_batch,
}

/// Routes of this feature.
#[must_use]
pub fn router() -> OpenApiRouter<AppState> {
    record_routes().routes(routes!(events::note_care_event)).routes(routes!(care::read_batch_care))
}
