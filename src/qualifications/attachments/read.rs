//! `GET /v1/qualifications/{code}/attachments/{attachment}`

use axum::{
    extract::State,
    http::{HeaderMap, HeaderName, HeaderValue, StatusCode, header},
    response::{IntoResponse, Response},
};
use uuid::Uuid;

use super::{media, store};
use crate::{
    access::{AnyRole, Permitted},
    database::TenantTx,
    http::{AppState, Path, problem::Problem, responses::ReadProblems},
    records,
    wire::Code,
};

/// Read an attachment
///
/// Gives the file itself, for saving: `ETag` is its SHA-256. A withdrawn attachment can still be read.
#[utoipa::path(
    get, path = "/v1/qualifications/{code}/attachments/{attachment}", tag = "qualifications",
    params(
        ("code" = String, Path, description = "Number of the record"),
        ("attachment" = Uuid, Path, description = "Id of the attachment"),
        ("If-None-Match" = Option<String>, Header, description = "ETag you hold"),
    ),
    responses(
        (status = 200, description = "The file; `Content-Disposition` has its name",
            headers(
                ("ETag" = String, description = "Hash of the bytes"),
                ("Content-Disposition" = String, description = "Name of the file"),
            ),
            content(("application/pdf"), ("image/jpeg"), ("image/png"))),
        (status = 304, description = "You hold it already",
            headers(
                ("ETag" = String, description = "Hash of the bytes"),
            )),
        ReadProblems,
    ),
)]
pub(super) async fn read_attachment(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    headers: HeaderMap,
    Path((code, attachment)): Path<(String, String)>,
) -> Result<Response, Problem> {
    let id = named(&code, &attachment)?;
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    let row = store::find(tx.connection(), &code, id).await?;
    let row = row.ok_or_else(|| Problem::not_found("attachment", &attachment))?;
    let tag = format!("\"{}\"", hex::encode(&row.sha256));
    if records::holds_already(&headers, &tag) {
        return Ok((StatusCode::NOT_MODIFIED, [(header::ETAG, tag)]).into_response());
    }
    let content = store::content(tx.connection(), &code, id).await?;
    let mut response = content.into_response();
    let put = [
        (header::CONTENT_TYPE, row.media_type),
        (header::CONTENT_DISPOSITION, media::disposition(&row.name)),
        (header::ETAG, tag),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff".to_owned()),
        // Should a browser show it all the same: no script, no request, no frame.
        (header::CONTENT_SECURITY_POLICY, "default-src 'none'; sandbox".to_owned()),
    ];
    let put: [(HeaderName, String); 5] = put;
    for (name, value) in put {
        let value = HeaderValue::from_str(&value).map_err(Problem::internal)?;
        response.headers_mut().insert(name, value);
    }
    Ok(response)
}

/// The id in the path. Texts that cannot be one name nothing.
pub(super) fn named(code: &str, attachment: &str) -> Result<Uuid, Problem> {
    if Code::parse(code).is_none() {
        return Err(Problem::not_found("record", code));
    }
    Uuid::parse_str(attachment).map_err(|_| Problem::not_found("attachment", attachment))
}
