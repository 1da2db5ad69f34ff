//! Writing requests: one transaction, one retry key, one answer.

mod store;

use axum::{
    Json,
    extract::FromRequestParts,
    http::{HeaderName, HeaderValue, StatusCode, header, request::Parts},
    response::{IntoResponse, Response},
};
use serde_json::{Value, json};

use self::store::{Kept, Slot};
use super::{
    AppState,
    problem::{FieldError, IN_PROGRESS, KEY_REUSED, MATCH_REQUIRED, Problem, STALE},
};
use crate::{
    access::Caller,
    database::{TenantTx, document_hash},
};

/// How often a held slot is tried.
const TRIES: u32 = 5;

/// Time between two tries.
const PAUSE: std::time::Duration = std::time::Duration::from_millis(20);

/// Header of a retry key.
static IDEMPOTENCY_KEY: HeaderName = HeaderName::from_static("idempotency-key");

/// Header that says which rulebook a write led to, and which one a question wants at least.
static RULEBOOK_VERSION: HeaderName = HeaderName::from_static(RULEBOOK_VERSION_NAME);

const RULEBOOK_VERSION_NAME: &str = "rulebook-version";

/// The retry key of a request; none where the caller sent none. With the query, which the answer depends on too.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Retry(Option<(String, Vec<String>)>);

impl Retry {
    /// No retry key.
    pub const NONE: Self = Self(None);

    /// Whether the caller sent a retry key.
    #[must_use]
    pub const fn is_asked_for(&self) -> bool {
        self.0.is_some()
    }
}

impl FromRequestParts<AppState> for Retry {
    type Rejection = Problem;

    async fn from_request_parts(parts: &mut Parts, _: &AppState) -> Result<Self, Problem> {
        let Some(value) = parts.headers.get(&IDEMPOTENCY_KEY) else { return Ok(Self(None)) };
        let text = value.to_str().unwrap_or_default().trim_matches('"');
        if (1..=255).contains(&text.len()) && text.bytes().all(|b| (0x21..0x7f).contains(&b)) {
            let query = parts.uri.query().unwrap_or_default().split('&');
            let mut query: Vec<_> =
                query.filter(|pair| !pair.is_empty()).map(ToOwned::to_owned).collect();
            query.sort_unstable();
            return Ok(Self(Some((text.to_owned(), query))));
        }
        Err(Problem::parameter(
            "Idempotency-Key",
            "a retry key has 1 to 255 printable characters without blanks, such as a UUID",
        ))
    }
}

/// The rulebook version that a question wants at least; none where it takes what is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WantedRulebook(pub Option<i64>);

impl FromRequestParts<AppState> for WantedRulebook {
    type Rejection = Problem;

    async fn from_request_parts(parts: &mut Parts, _: &AppState) -> Result<Self, Problem> {
        let Some(asked) = parts.headers.get(&RULEBOOK_VERSION) else { return Ok(Self(None)) };
        let version = asked.to_str().ok().and_then(|text| text.parse().ok());
        version.map(|version| Self(Some(version))).ok_or_else(|| {
            Problem::parameter("Rulebook-Version", "expected a whole number as a write gave it")
        })
    }
}

/// The version a change starts from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct IfMatch(String);

impl IfMatch {
    /// Whether the record is still at the version the caller saw.
    ///
    /// # Errors
    /// 412 when it is not.
    pub fn holds(&self, version: i32) -> Result<(), Problem> {
        let tag = crate::records::etag(version);
        if self.0.split(',').any(|one| one.trim() == tag) {
            return Ok(());
        }
        Err(Problem::new(&STALE, format!("The record's ETag is now {tag}.")))
    }
}

impl FromRequestParts<AppState> for IfMatch {
    type Rejection = Problem;

    async fn from_request_parts(parts: &mut Parts, _: &AppState) -> Result<Self, Problem> {
        let value = parts.headers.get(header::IF_MATCH).and_then(|value| value.to_str().ok());
        let form = "Send the ETag of the version you read as `If-Match`";
        match value.map(str::trim) {
            None => Err(Problem::new(&MATCH_REQUIRED, format!("{form}."))),
            // It would match whatever somebody else wrote since.
            Some("*") => Err(Problem::new(&MATCH_REQUIRED, format!("{form}; `*` names none."))),
            Some(value) => Ok(Self(value.to_owned())),
        }
    }
}

/// An open write.
#[derive(Debug)]
pub struct Writing {
    tx: TenantTx,
    slot: Option<Slot>,
}

/// A write that begins, or the answer of one that is done.
#[derive(Debug)]
pub enum Begun {
    /// Go on.
    Fresh(Writing),
    /// The same request was answered before; this is that answer.
    Replay(Response),
}

impl Writing {
    /// Opens a transaction and looks the retry key up in it.
    ///
    /// # Errors
    /// 409 while the first request is running, 422 when the key was used for another body or query.
    pub async fn begin(
        state: &AppState,
        caller: &Caller,
        route: &str,
        retry: &Retry,
        body: &Value,
    ) -> Result<Begun, Problem> {
        let mut tx = TenantTx::begin(&state.pool, caller.actor()).await?;
        let Some((key, query)) = retry.0.clone() else {
            return Ok(Begun::Fresh(Self { tx, slot: None }));
        };
        let fingerprint = if query.is_empty() {
            document_hash(body)
        } else {
            document_hash(&json!({ "body": body, "query": query }))
        };
        let slot = Slot { route: route.to_owned(), key, fingerprint };
        if !locked(&mut tx, &slot).await? {
            return Err(Problem::new(
                &IN_PROGRESS,
                "The first request with this key has no answer yet.",
            ));
        }
        let Some(kept) = store::kept(&mut tx, &slot).await? else {
            return Ok(Begun::Fresh(Self { tx, slot: Some(slot) }));
        };
        // The lock goes with the transaction: the next twin must not find it held.
        tx.abandon().await?;
        if kept.fingerprint == slot.fingerprint {
            return Ok(Begun::Replay(kept.replay()));
        }
        let detail = "this key came with another body or other parameters before; use a new one";
        let at = FieldError { pointer: "Idempotency-Key".to_owned(), detail: detail.to_owned() };
        let detail = "This key came with another body or other parameters before.";
        Err(Problem::new(&KEY_REUSED, detail).with_errors(vec![at]))
    }

    /// The transaction.
    pub const fn tx(&mut self) -> &mut TenantTx {
        &mut self.tx
    }

    /// Keeps the answer under the retry key, commits, brings this process's rulebook up to date and
    /// answers.
    ///
    /// # Errors
    /// When the database fails; nothing is written then.
    pub async fn finish(
        mut self,
        state: &AppState,
        status: StatusCode,
        headers: &[(&'static str, String)],
        body: Value,
    ) -> Result<Response, Problem> {
        let sealed = self.tx.seal().await?;
        let mut headers = headers.to_vec();
        if sealed.rules_changed {
            headers.push((RULEBOOK_VERSION_NAME, sealed.rulebook_version.to_string()));
        }
        if let Some(slot) = self.slot.take() {
            store::keep(&mut self.tx, &slot, status, &headers, &body).await?;
        }
        let organisation = self.tx.actor().organisation;
        self.tx.commit().await?;
        if sealed.rules_changed
            && let Err(error) = state.rulebooks.refresh(organisation).await
        {
            // The write stands, so the answer must say so; the poll catches up.
            tracing::error!(%organisation, %error, "rulebook not read after a write");
        }
        let mut response = (status, Json(body)).into_response();
        for (name, value) in headers {
            if let Ok(value) = HeaderValue::from_str(&value) {
                response.headers_mut().insert(name, value);
            }
        }
        Ok(response)
    }
}

/// Takes the slot, with a little patience: a request that failed gives it back a moment after its answer.
async fn locked(tx: &mut TenantTx, slot: &Slot) -> sqlx::Result<bool> {
    for _ in 0..TRIES {
        if store::lock(tx, slot).await? {
            return Ok(true);
        }
        tokio::time::sleep(PAUSE).await;
    }
    Ok(false)
}

impl Kept {
    fn replay(self) -> Response {
        let status =
            u16::try_from(self.status).ok().and_then(|code| StatusCode::from_u16(code).ok());
        let mut response = (status.unwrap_or(StatusCode::OK), self.body).into_response();
        let mut put = |name: &str, value: &str| {
            if let (Ok(name), Ok(value)) =
                (HeaderName::try_from(name), HeaderValue::from_str(value))
            {
                response.headers_mut().insert(name, value);
            }
        };
        put("content-type", "application/json");
        for (name, value) in self.headers.as_object().into_iter().flatten() {
            put(name, value.as_str().unwrap_or_default());
        }
        response
    }
}
