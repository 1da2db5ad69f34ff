//! The shared edge: state, extractors, problems, retries, the OpenAPI document, the router.

mod aside;
mod extract;
mod openapi;
mod page;
mod query;
mod router;
mod state;

pub mod problem;
pub mod responses;
pub mod retry;
pub mod trace;

pub use aside::aside;
pub use extract::{
    CodePath, JsonBody, JsonText, NdjsonBody, Path, json_answer, media_of, ndjson_answer,
};
pub use openapi::document;
pub use page::{PageSize, foreign_cursor, link_to_next};
pub use query::{NoQuery, Query, day_parameter, known_parameters, read_parameter};
pub use retry::{IfMatch, Retry, Writing};
pub use router::{layered, router};
pub use state::{AppState, Reach};
