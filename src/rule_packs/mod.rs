//! Rule packs: which codes can be judged, how much of each, and how well confirmed; and the rules that an
//! organisation signed after it read them in its own copy of the code; and packs that it writes itself.

mod answer_out;
mod find;
mod format;
mod list;
mod own;
mod read;
mod signatures;
mod store;

pub use answer_out::{OpenClauseOut, PackReference};
pub use find::{PackInUse, built_in, find_pack};
pub use own::{KIND, OwnRulePackDocument};

use utoipa_axum::{router::OpenApiRouter, routes};

use crate::http::AppState;

/// Routes of this feature.
#[must_use]
pub fn router() -> OpenApiRouter<AppState> {
    OpenApiRouter::new()
        .routes(routes!(list::list_rule_packs))
        .routes(routes!(format::read_rule_pack_format))
        .routes(routes!(read::read_rule_pack))
        .merge(signatures::router())
        .merge(own::router())
}
