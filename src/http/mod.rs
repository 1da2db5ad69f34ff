//! The shared edge: state, extractors, problems, retries, the OpenAPI document, the router.

mod aside;
mod extract;
mod limiter;
mod openapi;
mod query;
mod router;
mod state;

pub mod problem;
pub mod responses;
pub mod retry;
pub mod trace;

pub use aside::aside;
pub use extract::{CodePath, JsonBody, JsonText, NDJSON, Path, json_answer};
pub use limiter::Limiter;
pub use openapi::document;
pub use query::{Query, day_parameter, known_parameters};
pub use retry::{IfMatch, Retry, Writing};
pub use router::{layered, router};
pub use state::{AppState, Reach};
