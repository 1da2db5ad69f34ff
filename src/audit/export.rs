//! `GET /v1/audit/export`

use std::time::Duration;

use axum::{
    body::Bytes,
    extract::State,
    http::{HeaderValue, header},
    response::Response,
};
use futures_util::stream;
use serde::Deserialize;
use serde_json::{Value, json};
use time::{OffsetDateTime, format_description::well_known::Rfc3339};
use tokio::sync::{OwnedSemaphorePermit, mpsc};
use utoipa::IntoParams;

use super::{
    chain::{Closing, FORM, Opening, Place},
    store,
    walk::Walk,
    walking,
};
use crate::{
    access::{AnyRole, Permitted},
    database::{TenantTx, canonical_bytes},
    http::{AppState, Query, ndjson_answer, problem::Problem, responses::ListProblems},
};

/// Pages that may wait for a slow reader.
const WAITING: usize = 2;

/// Longest wait for a reader to take a page; its connection to the database is wanted by others.
const PATIENCE: Duration = Duration::from_mins(1);

/// Which part of the chain to export.
#[derive(Debug, Default, Clone, Copy, Deserialize, IntoParams)]
#[serde(deny_unknown_fields)]
#[into_params(parameter_in = Query)]
pub struct ExportQuery {
    /// Number of the first entry; 1 where left out.
    #[param(minimum = 1)]
    pub from: Option<i64>,
    /// Number of the last entry; the newest where left out.
    #[param(minimum = 1)]
    pub to: Option<i64>,
}

/// What goes to the reader: bytes, or the end of the connection where the database failed.
type Page = Result<Bytes, sqlx::Error>;

/// Export the chain
///
/// Gives the whole chain to keep or to hand to an inspector, as of one moment, one JSON object a line.
///
/// The first line, `{"opening": …}`, says what the file is; the last, `{"closing": …}`, how many entries it has and
/// where it ends. Between them each line is one entry: `entry` is the object whose RFC 8785 bytes have the
/// SHA-256 `hash`, and its `previous` is the `hash` of the entry before; `details` and `document` are what the
/// entry names by its hashes. A revision stands at the first entry that names it. People are there by id.
/// `arcbounds verify-audit FILE` proves such a file without a database. Keep the head apart from it: whoever
/// can rewrite the chain can rewrite a file, but not what you wrote down.
#[utoipa::path(
    get, path = "/v1/audit/export", tag = "audit",
    params(ExportQuery),
    responses(
        (status = 200, description = "Opening, entries, closing, one a line",
            headers(
                ("Content-Disposition" = String, description = "Name of the file"),
            ), body = String,
            content_type = "application/x-ndjson"),
        ListProblems,
    ),
)]
pub(super) async fn export_audit(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    Query(query): Query<ExportQuery>,
) -> Result<Response, Problem> {
    let actor = permitted.caller.actor();
    let permit = walking(&state).await?;
    let mut tx = TenantTx::snapshot(&state.pool, actor).await?;
    let opening = opening(&mut tx, query).await?;
    let db = tx.connection();
    let walk = Walk::between(db, opening.after.number, opening.last).await?;
    let name = format!("audit-{}-{}.ndjson", opening.first, opening.last);
    let (pages, taken) = mpsc::channel(WAITING);
    tokio::spawn(Exporting { tx, walk, pages, opening, _permit: permit }.run());
    let sent = stream::unfold(taken, |mut taken| async {
        let page: Page = taken.recv().await?;
        Some((page, taken))
    });
    let mut response = ndjson_answer(sent);
    if let Ok(value) = HeaderValue::from_str(&format!("attachment; filename=\"{name}\"")) {
        response.headers_mut().insert(header::CONTENT_DISPOSITION, value);
    }
    Ok(response)
}

/// What the file will be.
async fn opening(tx: &mut TenantTx, query: ExportQuery) -> Result<Opening, Problem> {
    let organisation = tx.actor().organisation.to_string();
    let db = tx.connection();
    let head = store::head(db).await?;
    let head = head.ok_or_else(|| Problem::internal("an audit chain has no head"))?.place();
    let (first, last) = (query.from.unwrap_or(1), query.to.unwrap_or(head.number));
    if first < 1 || first > head.number {
        let detail = format!("the entries are 1 to {}", head.number);
        return Err(Problem::parameter("?from", detail));
    }
    if last < first {
        let detail = format!("the last entry comes after the first one, {first}");
        return Err(Problem::parameter("?to", detail));
    }
    let last = last.min(head.number);
    let after = match first {
        1 => Place::start(),
        // Where the entry before is gone the walk says so: nothing has this hash.
        _ => store::place(db, first - 1)
            .await?
            .unwrap_or(Place { number: first - 1, hash: String::new() }),
    };
    let made_at = OffsetDateTime::now_utc().format(&Rfc3339).map_err(Problem::internal)?;
    Ok(Opening { form: FORM, organisation, made_at, first, last, after, head })
}

/// One export under way.
struct Exporting {
    tx: TenantTx,
    walk: Walk,
    pages: mpsc::Sender<Page>,
    opening: Opening,
    _permit: OwnedSemaphorePermit,
}

impl Exporting {
    async fn run(mut self) {
        if let Err(error) = self.lines().await {
            tracing::error!(%error, "an export of the audit chain broke off");
            // The reader sees a broken connection, not a short file.
            let _ = self.pages.send(Err(error)).await;
        }
        let _ = self.tx.abandon().await;
    }

    async fn lines(&mut self) -> sqlx::Result<()> {
        let mut page = Vec::new();
        write(&mut page, &json!({ "opening": self.opening }));
        let (mut entries, mut last) = (0, self.opening.after.clone());
        loop {
            let lines = self.walk.next(self.tx.connection()).await?;
            let Some(newest) = lines.last() else { break };
            entries += i64::try_from(lines.len()).unwrap_or(i64::MAX);
            let number = newest.entry["number"].as_i64().unwrap_or_default();
            last = Place { number, hash: newest.hash.clone() };
            for line in &lines {
                write(&mut page, &json!(line));
            }
            if !self.send(std::mem::take(&mut page)).await {
                return Ok(());
            }
        }
        write(&mut page, &json!({ "closing": Closing { entries, last } }));
        self.send(page).await;
        Ok(())
    }

    /// Hands a page over; false when nobody reads any more.
    async fn send(&self, page: Vec<u8>) -> bool {
        self.pages.send_timeout(Ok(page.into()), PATIENCE).await.is_ok()
    }
}

/// A line in canonical bytes, so that the bytes of what was hashed stand in it as they were hashed.
fn write(page: &mut Vec<u8>, line: &Value) {
    page.extend(canonical_bytes(line));
    page.push(b'\n');
}
