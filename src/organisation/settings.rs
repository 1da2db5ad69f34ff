//! Choices of the organisation.

use axum::{
    Json,
    extract::State,
    http::{StatusCode, header},
    response::{IntoResponse, Response},
};
use serde::Serialize;
use serde_json::{Value, json};
use sqlx::PgConnection;
use time::{Date, OffsetDateTime};
use utoipa::ToSchema;
use uuid::Uuid;

use super::{PublicAddress, TimeZone, store};
use crate::{
    access::{AdministerKeys, AnyRole, Permitted},
    check::{DecisionRule, GuardFactor},
    database::{Change, TenantTx, document_hash},
    http::{
        AppState, IfMatch, JsonBody, Retry, Writing,
        problem::Problem,
        responses::{ListProblems, SettingsProblems},
        retry::Begun,
    },
    quantity::{Duration, UnitSystem},
    records::etag,
    wire::{self, ChartReadingIn, ToWire, wire_object},
};

wire_object! {
    /// Choices of the organisation.
    pub struct OrganisationSettings {
        /// Units of answers where the caller asks for none.
        pub units: UnitSystem,
        /// How measurement uncertainty enters the verdict.
        pub decision_rule: DecisionRule,
        /// Width of the guard band along each limit, as a multiple of the expanded uncertainty (k = 2) or the
        /// largest error of the instrument: more than 0, at most 3; 1 where left out, as ISO 14253-1 takes it.
        /// A value in the band is `edge-inside` or `edge-outside`.
        pub guard_factor: Option<GuardFactor>,
        /// Age of the records in memory past which nothing is allowed.
        pub stale_after: Duration,
        /// Where the organisation's day begins: its "today" is the day there. UTC where left out.
        pub time_zone: Option<TimeZone>,
        /// The organisation's own readings of the preheat charts of EN 1011-2 Method A, each with who read
        /// it and when. `/v1/calculations/preheat` uses the first that covers the case.
        pub chart_readings: Vec<ChartReadingIn>,
        /// Where this service is reached from the floor, such as `https://weld.example`. The code on a printed
        /// procedure leads there; without it the code holds number, revision and hash.
        pub public_address: Option<PublicAddress>,
    }
}

impl Default for OrganisationSettings {
    /// Metric, simple acceptance, fifteen minutes.
    fn default() -> Self {
        let minutes = rust_decimal::Decimal::from(15);
        #[expect(clippy::unwrap_used, reason = "15 min is a duration; a test makes this value")]
        let stale_after = Duration::entered(minutes, "min").unwrap();
        Self {
            units: UnitSystem::Metric,
            decision_rule: DecisionRule::Simple,
            guard_factor: None,
            stale_after,
            time_zone: None,
            chart_readings: Vec::new(),
            public_address: None,
        }
    }
}

impl OrganisationSettings {
    /// The day that it is for the organisation at a moment.
    #[must_use]
    pub fn day_of(&self, moment: OffsetDateTime) -> Date {
        self.time_zone.as_ref().map_or(moment.date(), |zone| zone.day_of(moment))
    }

    /// The moment at which a day begins for the organisation.
    #[must_use]
    pub fn start_of(&self, day: Date) -> OffsetDateTime {
        let in_utc = day.midnight().assume_utc();
        self.time_zone.as_ref().map_or(in_utc, |zone| zone.start_of(day))
    }

    /// The day that it is for the organisation.
    #[must_use]
    pub fn today(&self) -> Date {
        self.day_of(OffsetDateTime::now_utc())
    }
}

/// The organisation as it stands.
#[derive(Debug, Serialize, ToSchema)]
pub struct OrganisationOut {
    /// Id of the organisation.
    pub organisation: Uuid,
    /// Name.
    pub name: String,
    /// Choices.
    #[schema(value_type = OrganisationSettings)]
    pub settings: Value,
}

/// Read the organisation
///
/// Reads the organisation's name and settings.
#[utoipa::path(
    get, path = "/v1/organisation", tag = "organisation",
    responses(
        (status = 200, description = "The organisation, with its `ETag`",
            headers(
                ("ETag" = String, description = "Version of the settings"),
            ), body = OrganisationOut),
        ListProblems,
    ),
)]
pub(super) async fn read_organisation(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
) -> Result<Response, Problem> {
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    let (found, version) = find(tx.connection()).await?;
    Ok((StatusCode::OK, [(header::ETAG, etag(version))], Json(found)).into_response())
}

/// Change the settings
///
/// Changes the organisation's settings; all of them are sent, and what is left out is no longer kept.
#[utoipa::path(
    put, path = "/v1/organisation", tag = "organisation",
    request_body = OrganisationSettings,
    params(("If-Match" = String, Header, description = "ETag of the version you read")),
    responses(
        (status = 200, description = "Changed, with the new `ETag`",
            headers(
                ("ETag" = String, description = "Version of the settings"),
                ("Rulebook-Version" = i64, description = "First rulebook that knows it; sent where checks need it"),
            ), body = OrganisationOut),
        SettingsProblems,
    ),
)]
pub(super) async fn change_organisation(
    permitted: Permitted<AdministerKeys>,
    State(state): State<AppState>,
    if_match: IfMatch,
    JsonBody(body): JsonBody,
) -> Result<Response, Problem> {
    let settings: OrganisationSettings = wire::read(&body)?;
    let document = settings.to_wire();
    let begun =
        Writing::begin(&state, &permitted.caller, "PUT /v1/organisation", &Retry::NONE, &body);
    let mut writing = match begun.await? {
        Begun::Fresh(writing) => writing,
        Begun::Replay(response) => return Ok(response),
    };
    let tx = writing.tx();
    store::lock(tx.connection()).await?;
    if_match.holds(find(tx.connection()).await?.1)?;
    store::write_settings(tx.connection(), &document).await?;
    tx.note(Change {
        action: "changed",
        kind: "organisation",
        subject: "settings".to_owned(),
        revision: None,
        document_hash: Some(document_hash(&document)),
        changes_rules: true,
    });
    let (found, version) = find(tx.connection()).await?;
    writing.finish(&state, StatusCode::OK, &[("etag", etag(version))], json!(found)).await
}

/// The organisation, and its version.
async fn find(db: &mut PgConnection) -> Result<(OrganisationOut, i32), Problem> {
    let row = store::find(db).await?;
    let found = OrganisationOut {
        organisation: row.organisation_id,
        name: row.name,
        settings: row.settings,
    };
    Ok((found, row.version))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_settings_can_be_read_back() {
        let first = OrganisationSettings::default();
        let again: OrganisationSettings = wire::read(&first.to_wire()).unwrap();
        assert_eq!(again.stale_after, "900 s".parse().unwrap());
        assert_eq!(again.decision_rule, DecisionRule::Simple);
    }
}
