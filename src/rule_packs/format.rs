//! `GET /v1/rule-packs/format`

use axum::{
    http::header,
    response::{IntoResponse, Response},
};

use crate::{
    access::{AnyRole, Permitted},
    http::responses::ListProblems,
    qualify::PACK_FORMAT,
};

/// Read the format of rule packs
///
/// Describes how a rule pack is written in TOML: kinds of rule, scopes, tables, units, confidence.
#[utoipa::path(
    get, path = "/v1/rule-packs/format", tag = "rule-packs",
    responses(
        (status = 200, description = "The description", body = String, content_type = "text/markdown"),
        ListProblems,
    ),
)]
pub(super) async fn read_rule_pack_format(_permitted: Permitted<AnyRole>) -> Response {
    ([(header::CONTENT_TYPE, "text/markdown; charset=utf-8")], PACK_FORMAT).into_response()
}
