//! Work orders: customers' jobs with their governing code.

mod document;

pub use document::WorkOrderDocument;

use serde::Deserialize;
use serde_json::{Map, Value, json};
use sqlx::PgConnection;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use uuid::Uuid;

use crate::{
    access::WriteOrders,
    http::{
        AppState,
        problem::{FieldError, Problem},
    },
    procedures,
    records::{Column, Kind, RecordDocument, RecordFilter, plausible, record_endpoints},
};

/// The kind of record.
pub const KIND: Kind = Kind { column: "work-order", name: "work order", path: "work-orders" };

const COLUMNS: &[Column] = &[
    ("title", "/title"),
    ("governing code", "/code/name"),
    ("edition", "/code/edition"),
    ("accepted procedures", "/accepted_procedures"),
    ("reference", "/reference"),
];

/// Which work orders to list.
#[derive(Debug, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct WorkOrderFilter {
    /// Only those governed by this code, such as `AWS D1.1`.
    code: Option<String>,
    /// Only the one with your own reference.
    reference: Option<String>,
}

impl RecordFilter for WorkOrderFilter {
    fn contained(&self) -> Result<Vec<Value>, Problem> {
        let mut wanted = Map::new();
        wanted.extend(self.code.as_ref().map(|name| ("code".to_owned(), json!({ "name": name }))));
        wanted.extend(self.reference.as_ref().map(|text| ("reference".to_owned(), json!(text))));
        Ok(vec![Value::Object(wanted)])
    }
}

impl RecordDocument for WorkOrderDocument {
    const KIND: Kind = KIND;
    const CODE_POINTER: &'static str = "/number";

    fn code(&self) -> &str {
        self.number.as_str()
    }

    fn faults(&self) -> Vec<FieldError> {
        let ids = self.welds.iter().map(|weld| weld.id.as_str());
        let mut faults = plausible::named_twice("/welds", "id", ids);
        faults.extend(plausible::names_none(
            "/accepted_procedures".to_owned(),
            self.accepted_procedures.as_deref(),
            "accepts all released ones",
        ));
        faults.extend(self.limits.as_ref().and_then(|limits| limits.faults("/limits")));
        faults
    }

    fn references(&self) -> Vec<(String, Kind, String)> {
        let accepted = self.accepted_procedures.iter().flatten().enumerate();
        accepted
            .map(|(index, number)| {
                (format!("/accepted_procedures/{index}"), procedures::KIND, number.to_string())
            })
            .collect()
    }

    async fn project(&self, _: &mut PgConnection, _: Uuid, _: i32) -> sqlx::Result<()> {
        Ok(())
    }
}

record_endpoints! {
    tag: "work-orders",
    one: "work order",
    many: "work orders",
    document: WorkOrderDocument,
    filter: WorkOrderFilter,
    columns: COLUMNS,
    write: WriteOrders,
    retire: WriteOrders,
    paths: "/v1/work-orders", "/v1/work-orders/{code}", "/v1/work-orders/{code}/withdrawal",
    operations: list_work_orders, create_work_order, read_work_order, revise_work_order, withdraw_work_order,
}

/// Routes of this feature.
#[must_use]
pub fn router() -> OpenApiRouter<AppState> {
    record_routes()
}
