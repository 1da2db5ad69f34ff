//! `GET /v1/checks/catalogue`

use axum::Json;
use serde::Serialize;
use utoipa::ToSchema;

use super::pointers::pointer;
use crate::{
    access::{AnyRole, Permitted},
    check,
    http::responses::ListProblems,
};

/// One check of the catalogue.
#[derive(Debug, Serialize, ToSchema)]
pub struct CatalogueEntry {
    /// Stable code.
    #[schema(example = "current")]
    pub code: &'static str,
    /// Place in the setup it looks at first.
    #[schema(example = "/settings/current")]
    pub pointer: &'static str,
    /// What it checks, why, by which source, and what it does not check; Markdown.
    pub explanation: String,
}

/// All checks.
#[derive(Debug, Serialize, ToSchema)]
pub struct Catalogue {
    /// The checks, in the order findings are reported.
    pub items: Vec<CatalogueEntry>,
}

/// List the checks
///
/// Lists every check with its explanation, from the same source as the code's documentation.
#[utoipa::path(
    get, path = "/v1/checks/catalogue", tag = "checks",
    responses((status = 200, description = "All checks", body = Catalogue), ListProblems),
)]
pub(super) async fn list_checks(_: Permitted<AnyRole>) -> Json<Catalogue> {
    let entry = |check: &check::Check| CatalogueEntry {
        code: check.code,
        pointer: pointer(check.variable),
        explanation: unindented(check.explanation),
    };
    Json(Catalogue { items: check::ALL.iter().map(entry).collect() })
}

/// Documentation comments carry one blank before each line.
fn unindented(text: &str) -> String {
    text.lines().map(|line| line.strip_prefix(' ').unwrap_or(line)).collect::<Vec<_>>().join("\n")
}
