//! Stations: welding places, their ratings and instruments.

mod document;

pub use document::StationDocument;

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
    records::{Column, Kind, RecordDocument, RecordFilter, plausible, record_endpoints},
    trade::{Coded, Waveform},
};

/// The kind of record.
pub const KIND: Kind = Kind { column: "station", name: "station", path: "stations" };

const COLUMNS: &[Column] =
    &[("name", "/name"), ("outputs", "/waveforms"), ("diameters", "/diameters")];

/// Which stations to list.
#[derive(Debug, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct StationFilter {
    /// Only stations whose source has this output.
    waveform: Option<String>,
}

impl RecordFilter for StationFilter {
    fn contained(&self) -> Result<Vec<Value>, Problem> {
        let output = read_parameter::<Waveform>("?waveform", self.waveform.as_deref())?;
        let mut wanted = Map::new();
        wanted.extend(output.map(|output| ("waveforms".to_owned(), json!([output.code()]))));
        Ok(vec![Value::Object(wanted)])
    }
}

/// What a duty cycle is called in a refusal.
const DUTY: &str = "a duty cycle";

impl RecordDocument for StationDocument {
    const KIND: Kind = KIND;

    fn code(&self) -> &str {
        self.code.as_str()
    }

    /// An accuracy has to be one of what the instrument measures, and a duty a part of the time.
    fn faults(&self) -> Vec<FieldError> {
        let unfit = self.instruments.iter().enumerate().filter_map(|(index, instrument)| {
            let detail = instrument.accuracy.as_ref()?.of(instrument.measures).err()?;
            Some(FieldError { pointer: format!("/instruments/{index}/accuracy"), detail })
        });
        let duties = self.rated.iter().enumerate().filter_map(|(index, rated)| {
            plausible::no_part(format!("/rated/{index}/duty"), DUTY, rated.duty)
        });
        let gun = self.gun.as_ref();
        let gun = gun.and_then(|gun| plausible::no_part("/gun/duty".to_owned(), DUTY, gun.duty));
        let spool = self.heaviest_spool.and_then(|spool| {
            plausible::nothing("/heaviest_spool".to_owned(), "the mass of a spool", spool)
        });
        let codes = self.instruments.iter().map(|instrument| instrument.code.as_str());
        let twice = plausible::named_twice("/instruments", "code", codes);
        unfit.chain(duties).chain(gun).chain(spool).chain(twice).collect()
    }

    async fn project(&self, _: &mut PgConnection, _: Uuid, _: i32) -> sqlx::Result<()> {
        Ok(())
    }
}

record_endpoints! {
    tag: "stations",
    one: "station",
    many: "stations",
    document: StationDocument,
    filter: StationFilter,
    columns: COLUMNS,
    write: WriteData,
    retire: Approve,
    paths: "/v1/stations", "/v1/stations/{code}", "/v1/stations/{code}/withdrawal",
    operations: list_stations, create_station, read_station, revise_station, withdraw_station,
}

/// Routes of this feature.
#[must_use]
pub fn router() -> OpenApiRouter<AppState> {
    record_routes()
}
