//! Checks: may this setup be welded? Why not, and what to change.

mod again;
mod answer_out;
mod answering;
mod catalogue;
mod caution_out;
mod create;
mod list;
#[cfg(test)]
mod plain_setups;
mod pointers;
mod question;
mod read;
mod rulebook_out;
mod setup_in;
mod store;
mod stream;

pub use again::{KeptSetup, kept_setups};
pub use answer_out::{CheckAnswer, Detail, HeldToOut, NearMissOut, OwnerOut, near_miss};
pub use caution_out::CautionOut;
pub use pointers::pointer;
pub use question::{Question, QuestionQuery};
pub use rulebook_out::RulebookOut;
pub use setup_in::SetupIn;

use utoipa_axum::{router::OpenApiRouter, routes};

use crate::http::AppState;

/// Routes of this feature.
#[must_use]
pub fn router() -> OpenApiRouter<AppState> {
    OpenApiRouter::new()
        .routes(routes!(list::list_kept_checks, create::check_setup))
        .routes(routes!(catalogue::list_checks))
        .routes(routes!(read::read_check))
        .routes(routes!(stream::check_stream))
}
