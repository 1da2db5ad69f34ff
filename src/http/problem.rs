//! Every way a request can fail, as RFC 9457 problem details.

use axum::{
    Json,
    http::{HeaderValue, StatusCode, header},
    response::{IntoResponse, Response},
};
use serde::Serialize;
use utoipa::ToSchema;

/// Media type of problem details (RFC 9457, section 6.1).
pub const PROBLEM_JSON: &str = "application/problem+json";

/// Most field errors that are told of one request: a body of nothing but errors must not become an answer
/// many times its size.
pub const MOST_ERRORS: usize = 100;

/// One field at fault.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct FieldError {
    /// JSON Pointer (RFC 6901) into the request body; for a query parameter `?name`.
    #[schema(example = "/settings/current")]
    pub pointer: String,
    /// What was wrong and what would be right.
    pub detail: String,
}

/// Body of every error answer.
#[derive(Debug, Serialize, ToSchema)]
pub struct ProblemBody {
    /// Reference that identifies the kind of problem; readable at that path.
    #[serde(rename = "type")]
    #[schema(example = "/problems/invalid-fields")]
    pub kind: String,
    /// The kind in words, the same each time.
    pub title: &'static str,
    /// HTTP status, repeated for clients that only see the body.
    pub status: u16,
    /// What went wrong this time and what to do.
    pub detail: String,
    /// All fields at fault.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub errors: Vec<FieldError>,
    /// Id of the request, as in the `x-request-id` header and the logs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub request_id: Option<String>,
}

/// One kind of problem: its slug, status, title and what the caller can do.
#[derive(Debug, PartialEq, Eq)]
pub struct ProblemKind {
    /// Last part of the type reference.
    pub slug: &'static str,
    /// HTTP status.
    pub status: StatusCode,
    /// The kind in words.
    pub title: &'static str,
    /// What the caller can do; shown at `/problems/{slug}`.
    pub remedy: &'static str,
}

macro_rules! problem_kinds {
    ($($(#[$meta:meta])* $name:ident = $slug:literal, $status:ident, $title:literal, $remedy:literal;)+) => {
        $($(#[$meta])* pub const $name: ProblemKind = ProblemKind {
            slug: $slug, status: StatusCode::$status, title: $title, remedy: $remedy,
        };)+
        /// Every kind of problem.
        pub const ALL_KINDS: &[&ProblemKind] = &[$(&$name),+];
    };
}

problem_kinds! {
    /// The body is no JSON, or no object.
    UNREADABLE = "unreadable", BAD_REQUEST, "Unreadable request",
        "Send one JSON object in UTF-8; the detail says where reading stopped.";
    /// A query parameter or header cannot be read.
    BAD_PARAMETER = "bad-parameter", BAD_REQUEST, "Unusable parameter",
        "Correct the parameter or header that the errors name.";
    /// No key, or one that is unknown, expired or revoked.
    NO_KEY = "no-key", UNAUTHORIZED, "No valid key",
        "Send a key as `Authorization: Bearer KEY`; an administrator can make one.";
    /// The key's roles do not permit this.
    WRONG_ROLE = "wrong-role", FORBIDDEN, "Role does not permit this",
        "Use a key with one of the roles that the detail names.";
    /// The path names nothing the caller may see.
    NOT_FOUND = "not-found", NOT_FOUND, "Not found",
        "Check the path; another organisation's records are never found.";
    /// The path exists, the method does not.
    METHOD = "method-not-allowed", METHOD_NOT_ALLOWED, "Method not allowed",
        "The `Allow` header lists what this path takes.";
    /// The state of the record does not permit this.
    CONFLICT = "conflict", CONFLICT, "In conflict with the record",
        "Read the record, then decide again; the detail says what stands in the way.";
    /// A procedure reaches outside what its support qualifies.
    UNSUPPORTED = "not-supported", CONFLICT, "Outside what its support qualifies",
        "Narrow the limit that each error names, or name a record that qualifies it; the review says more.";
    /// Nobody could administer the organisation any more.
    LAST_ADMINISTRATOR = "last-administrator", CONFLICT, "Nobody could administer any more",
        "Give another person the role admin and a key with it, then repeat the change.";
    /// The same retry key is being worked on.
    IN_PROGRESS = "still-running", CONFLICT, "The first request is still running",
        "Wait, then send the same request again with the same key.";
    /// `If-Match` names an older version.
    STALE = "stale-version", PRECONDITION_FAILED, "The record has changed",
        "Read the record again and repeat the change with its new ETag.";
    /// The body is too large.
    TOO_LARGE = "too-large", PAYLOAD_TOO_LARGE, "Request too large",
        "Send less; the detail says what the limit is.";
    /// The body is not of a media type that is read.
    MEDIA_TYPE = "media-type", UNSUPPORTED_MEDIA_TYPE, "Media type not read",
        "Send the body as the `Content-Type` that the detail names; most often that is `application/json`.";
    /// The body is compressed.
    CODING = "content-coding", UNSUPPORTED_MEDIA_TYPE, "Content coding not read",
        "Send the body as it is, without a `Content-Encoding`.";
    /// Fields are missing, unknown or out of their span.
    INVALID_FIELDS = "invalid-fields", UNPROCESSABLE_ENTITY, "Unusable fields",
        "Correct every field in `errors`; each says what would be right.";
    /// The retry key was used with another request.
    KEY_REUSED = "retry-key-reused", UNPROCESSABLE_ENTITY, "Retry key used for another request",
        "Use a new `Idempotency-Key` for a new request.";
    /// `If-Match` is missing.
    MATCH_REQUIRED = "version-required", PRECONDITION_REQUIRED, "Version required",
        "Send the record's ETag as `If-Match`.";
    /// Too many requests with this key.
    TOO_MANY = "too-many-requests", TOO_MANY_REQUESTS, "Too many requests",
        "Wait as long as `Retry-After` says.";
    /// Our fault.
    INTERNAL = "internal", INTERNAL_SERVER_ERROR, "Internal error",
        "Try again; if it stays, report the request id.";
    /// The rulebook or the database is not ready.
    UNAVAILABLE = "unavailable", SERVICE_UNAVAILABLE, "Not available now",
        "Try again after a moment.";
    /// The request took too long.
    TIMEOUT = "timeout", GATEWAY_TIMEOUT, "Took too long",
        "Try again, or ask for less at once.";
}

/// A failed request. Handlers return `Result<_, Problem>`.
#[derive(Debug)]
pub struct Problem {
    kind: &'static ProblemKind,
    detail: String,
    errors: Vec<FieldError>,
    retry_after: Option<u32>,
    cause: Option<Box<dyn std::error::Error + Send + Sync>>,
}

impl Problem {
    /// A problem of this kind.
    pub fn new(kind: &'static ProblemKind, detail: impl Into<String>) -> Self {
        Self { kind, detail: detail.into(), errors: Vec::new(), retry_after: None, cause: None }
    }

    /// The path names nothing the caller may see.
    #[must_use]
    pub fn not_found(what: &str, code: &str) -> Self {
        Self::new(&NOT_FOUND, format!("There is no {what} \"{code}\"."))
    }

    /// Fields of the body at fault; the first [`MOST_ERRORS`] are told.
    #[must_use]
    pub fn fields(mut errors: Vec<FieldError>) -> Self {
        errors.truncate(MOST_ERRORS);
        let count = errors.len();
        let detail = match count {
            1 => "One field cannot be used.".to_owned(),
            _ => format!("{count} fields cannot be used."),
        };
        Self { kind: &INVALID_FIELDS, detail, errors, retry_after: None, cause: None }
    }

    /// One field of the body at fault.
    pub fn field(pointer: impl Into<String>, detail: impl Into<String>) -> Self {
        Self::fields(vec![FieldError { pointer: pointer.into(), detail: detail.into() }])
    }

    /// One query parameter or header at fault.
    pub fn parameter(name: &str, detail: impl Into<String>) -> Self {
        let detail = detail.into();
        let errors = vec![FieldError { pointer: name.to_owned(), detail: detail.clone() }];
        Self { kind: &BAD_PARAMETER, detail, errors, retry_after: None, cause: None }
    }

    /// Our fault; the cause is logged and never sent.
    pub fn internal(cause: impl Into<Box<dyn std::error::Error + Send + Sync>>) -> Self {
        let detail = "The request could not be completed.".to_owned();
        Self {
            kind: &INTERNAL,
            detail,
            errors: Vec::new(),
            retry_after: None,
            cause: Some(cause.into()),
        }
    }

    /// With the places at fault; the first [`MOST_ERRORS`] are told.
    #[must_use]
    pub fn with_errors(mut self, mut errors: Vec<FieldError>) -> Self {
        errors.truncate(MOST_ERRORS);
        self.errors = errors;
        self
    }

    /// Tells the caller how many seconds to wait.
    #[must_use]
    pub const fn retry_after(mut self, seconds: u32) -> Self {
        self.retry_after = Some(seconds);
        self
    }

    /// Fields at fault.
    #[must_use]
    pub fn errors(&self) -> &[FieldError] {
        &self.errors
    }

    /// The same, where what was read is a part of the body: its fields lie below this place.
    #[must_use]
    pub fn under(mut self, at: &str) -> Self {
        for error in &mut self.errors {
            error.pointer.insert_str(0, at);
        }
        self
    }

    /// The kind of this problem.
    #[must_use]
    pub const fn kind(&self) -> &'static ProblemKind {
        self.kind
    }
}

impl From<sqlx::Error> for Problem {
    fn from(error: sqlx::Error) -> Self {
        match error {
            sqlx::Error::PoolTimedOut | sqlx::Error::PoolClosed | sqlx::Error::Io(_) => {
                let mut problem = Self::new(&UNAVAILABLE, "The database cannot be reached.");
                problem.cause = Some(error.into());
                problem
            }
            error => Self::internal(error),
        }
    }
}

impl From<Problem> for ProblemBody {
    fn from(problem: Problem) -> Self {
        if let Some(cause) = &problem.cause {
            tracing::error!(error = cause.as_ref(), kind = problem.kind.slug, "request failed");
        }
        Self {
            kind: format!("/problems/{}", problem.kind.slug),
            title: problem.kind.title,
            status: problem.kind.status.as_u16(),
            detail: problem.detail,
            errors: problem.errors,
            request_id: super::trace::current_request_id(),
        }
    }
}

impl IntoResponse for Problem {
    fn into_response(self) -> Response {
        let (kind, retry_after) = (self.kind, self.retry_after);
        let mut response = (kind.status, Json(ProblemBody::from(self))).into_response();
        let headers = response.headers_mut();
        headers.insert(header::CONTENT_TYPE, HeaderValue::from_static(PROBLEM_JSON));
        if let Some(seconds) = retry_after {
            headers.insert(header::RETRY_AFTER, HeaderValue::from(seconds));
        }
        if *kind == CODING {
            // RFC 9110, 15.5.16 and 12.5.3: which codings would have been read.
            headers.insert(header::ACCEPT_ENCODING, HeaderValue::from_static("identity"));
        }
        if kind.status == StatusCode::UNAUTHORIZED {
            headers.insert(header::WWW_AUTHENTICATE, HeaderValue::from_static("Bearer"));
        }
        response
    }
}
