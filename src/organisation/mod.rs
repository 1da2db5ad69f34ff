//! The organisation: its settings, its people and their keys.

mod bootstrap;
mod keys;
mod letterhead;
mod lockout;
mod people;
mod public_address;
mod settings;
mod store;
mod time_zone;

pub use bootstrap::{FirstAdmin, Member, enrol, found};
pub use letterhead::{Letterhead, letterhead};
pub use public_address::PublicAddress;
pub use settings::OrganisationSettings;
pub use time_zone::TimeZone;

use utoipa_axum::{router::OpenApiRouter, routes};

use crate::http::AppState;

/// Routes of this feature.
#[must_use]
pub fn router() -> OpenApiRouter<AppState> {
    OpenApiRouter::new()
        .routes(routes!(settings::read_organisation, settings::change_organisation))
        .routes(routes!(people::list::list_people, people::create::create_person))
        .routes(routes!(people::read::read_person, people::change::change_person))
        .routes(routes!(keys::list::list_keys, keys::create::create_key))
        .routes(routes!(keys::rotate::rotate_key))
        .routes(routes!(keys::revoke::revoke_key))
}
