//! Welders and operators: codes, qualifications, confirmations, and who may weld a job today.
//!
//! A check reads codes only. The name behind a code stands in a table of its own that authors, approvers and
//! administrators read; it can be taken out, and no hash of the audit chain contains it.

mod document;
mod events;
mod names;
mod search;
mod standing;
mod store;

pub use document::{WelderDocument, WelderQualificationDocument};
pub use events::{EventKind, WelderEventIn};
pub use store::{EventRow, events};

use serde::Deserialize;
use serde_json::{Map, Value, json};
use sqlx::PgConnection;
use time::Duration;
use utoipa::IntoParams;
use utoipa_axum::{router::OpenApiRouter, routes};
use uuid::Uuid;

use crate::{
    access::{Approve, Caller, WriteData},
    http::{
        AppState,
        problem::{FieldError, Problem},
    },
    qualify::welder::{Validity, welder_pack, welder_packs},
    records::{Column, Kind, RecordDocument, RecordFilter, record_endpoints},
};

/// The kind of record.
pub const KIND: Kind = Kind { column: "welder", name: "welder", path: "welders" };

const COLUMNS: &[Column] = &[
    ("reference", "/reference"),
    ("first qualification", "/qualifications/0/pack"),
    ("certificate", "/qualifications/0/certificate"),
];

/// Which welders to list.
#[derive(Debug, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct WelderFilter {
    /// Only those with a qualification by this pack, such as `iso-9606-1-2012`.
    pack: Option<String>,
    /// Only those of whose qualifications in force one lapses within so many days, 1 to 366, if nothing is
    /// done.
    #[param(minimum = 1, maximum = 366)]
    lapses_within: Option<i64>,
}

impl RecordFilter for WelderFilter {
    fn contained(&self) -> Result<Vec<Value>, Problem> {
        let known = || welder_packs().iter().map(|pack| pack.key.as_str()).collect::<Vec<_>>();
        if let Some(pack) = self.pack.as_deref().filter(|pack| welder_pack(pack).is_none()) {
            let detail = format!("there is no pack \"{pack}\"; known are {}", known().join(", "));
            return Err(Problem::parameter("?pack", detail));
        }
        let mut wanted = Map::new();
        let pack = self.pack.as_ref();
        wanted.extend(pack.map(|key| ("qualifications".to_owned(), json!([{ "pack": key }]))));
        Ok(vec![Value::Object(wanted)])
    }
}

/// Codes of those who lapse soon, from the rulebook.
fn lapsing(caller: &Caller, filter: &WelderFilter) -> Result<Option<Vec<String>>, Problem> {
    let Some(days) = filter.lapses_within else { return Ok(None) };
    if !(1..=366).contains(&days) {
        return Err(Problem::parameter("?lapses_within", "days lie between 1 and 366"));
    }
    let today = caller.rulebook.settings.today();
    let last = today.saturating_add(Duration::days(days));
    let soon = caller.rulebook.book.welders.iter().filter(|(_, welder)| {
        welder.qualifications.iter().any(|one| {
            matches!(one.validity(today), Some(Validity::InForce { until, .. }) if until <= last)
        })
    });
    Ok(Some(soon.map(|(code, _)| code.clone()).collect()))
}

impl RecordDocument for WelderDocument {
    const KIND: Kind = KIND;

    fn code(&self) -> &str {
        self.code.as_str()
    }

    fn faults(&self) -> Vec<FieldError> {
        self.faults()
    }

    async fn project(&self, _: &mut PgConnection, _: Uuid, _: i32) -> sqlx::Result<()> {
        Ok(())
    }
}

record_endpoints! {
    tag: "welders",
    one: "welder",
    many: "welders",
    document: WelderDocument,
    filter: WelderFilter,
    columns: COLUMNS,
    write: WriteData,
    retire: Approve,
    paths: "/v1/welders", "/v1/welders/{code}", "/v1/welders/{code}/withdrawal",
    operations: list_welders, create_welder, read_welder, revise_welder, withdraw_welder,
    narrowed: lapsing,
}

/// Routes of this feature.
#[must_use]
pub fn router() -> OpenApiRouter<AppState> {
    record_routes()
        .routes(routes!(events::note_welder_event))
        .routes(routes!(standing::read_welder_standing))
        .routes(routes!(names::read_welder_name, names::change_welder_name))
        .routes(routes!(search::find_welders))
}
