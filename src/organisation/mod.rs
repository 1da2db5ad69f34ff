//! The organisation: its settings, its people and their keys.

mod bootstrap;
mod keys;
mod people;
mod settings;

pub use bootstrap::{FirstAdmin, found};
pub use settings::OrganisationSettings;

use utoipa_axum::{router::OpenApiRouter, routes};

use crate::http::AppState;

/// Routes of this feature.
pub fn router() -> OpenApiRouter<AppState> {
    OpenApiRouter::new()
        .routes(routes!(settings::read_organisation, settings::change_organisation))
        .routes(routes!(people::list_people, people::create_person))
        .routes(routes!(people::change_person))
        .routes(routes!(keys::list_keys, keys::create_key))
        .routes(routes!(keys::rotate_key))
        .routes(routes!(keys::revoke_key))
}
