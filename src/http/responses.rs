//! Problem responses of the OpenAPI document, declared once for each shape of operation.

use std::collections::BTreeMap;

use axum::http::StatusCode;
use utoipa::{
    IntoResponses, ToSchema,
    openapi::{
        ContentBuilder, Header, ObjectBuilder, Ref, RefOr, Response, ResponseBuilder, schema::Type,
    },
};

use super::problem::{self, PROBLEM_JSON, ProblemBody, ProblemKind};

/// What any request with a key can meet.
const ALWAYS: &[&ProblemKind] = &[
    &problem::NO_KEY,
    &problem::WRONG_ROLE,
    &problem::TOO_MANY,
    &problem::INTERNAL,
    &problem::UNAVAILABLE,
];

/// What a request with a body can meet besides.
const BODY: &[&ProblemKind] = &[
    &problem::UNREADABLE,
    &problem::TOO_LARGE,
    &problem::MEDIA_TYPE,
    &problem::CODING,
    &problem::INVALID_FIELDS,
];

macro_rules! problem_sets {
    ($($(#[$meta:meta])* $name:ident: [$($extra:expr),*] + [$($kind:ident),*];)+) => {$(
        $(#[$meta])*
        #[derive(Debug)]
        pub enum $name {}

        impl IntoResponses for $name {
            fn responses() -> BTreeMap<String, RefOr<Response>> {
                let sets: &[&[&ProblemKind]] = &[ALWAYS, $($extra,)* &[$(&problem::$kind),*]];
                responses(sets.iter().flat_map(|set| set.iter().copied()))
            }
        }
    )+};
}

problem_sets! {
    /// Reading something that has no name in the path.
    ListProblems: [] + [BAD_PARAMETER];
    /// Reading something named in the path.
    ReadProblems: [] + [BAD_PARAMETER, NOT_FOUND];
    /// Ending something named in the path.
    RevokeProblems: [] + [BAD_PARAMETER, NOT_FOUND, LAST_ADMINISTRATOR];
    /// Changing the settings.
    SettingsProblems: [BODY] + [BAD_PARAMETER, STALE, MATCH_REQUIRED];
    /// Changing a person.
    PersonProblems: [BODY]
        + [BAD_PARAMETER, NOT_FOUND, CONFLICT, LAST_ADMINISTRATOR, STALE, MATCH_REQUIRED];
    /// Asking a question with a body.
    AskProblems: [BODY] + [BAD_PARAMETER];
    /// Walking what may be long, with a body.
    WalkProblems: [BODY] + [BAD_PARAMETER, TIMEOUT];
    /// Asking a question with a body about something named in the path.
    AskAboutProblems: [BODY] + [BAD_PARAMETER, NOT_FOUND, CONFLICT];
    /// Asking questions, one a line.
    StreamProblems: [] + [BAD_PARAMETER, MEDIA_TYPE, CODING];
    /// Attaching a file to something named in the path.
    AttachProblems: [] + [BAD_PARAMETER, NOT_FOUND, CONFLICT, KEY_REUSED, TOO_LARGE, MEDIA_TYPE, CODING];
    /// Asking a question with a body, whose answer may be kept.
    KeepProblems: [BODY] + [BAD_PARAMETER, IN_PROGRESS, KEY_REUSED];
    /// Making something new.
    CreateProblems: [BODY] + [BAD_PARAMETER, CONFLICT];
    /// Adding to the history of something named in the path.
    NoteProblems: [BODY] + [BAD_PARAMETER, NOT_FOUND, CONFLICT, IN_PROGRESS, KEY_REUSED];
    /// Changing something named in the path, with a body.
    ChangeProblems: [BODY] + [BAD_PARAMETER, NOT_FOUND, CONFLICT, STALE, MATCH_REQUIRED];
    /// Releasing something named in the path.
    ReleaseProblems: [BODY] + [BAD_PARAMETER, NOT_FOUND, CONFLICT, UNSUPPORTED, STALE, MATCH_REQUIRED];
    /// Changing something named in the path, without a body.
    ActProblems: [] + [BAD_PARAMETER, NOT_FOUND, CONFLICT, KEY_REUSED, STALE, MATCH_REQUIRED];
}

/// Responses by status; kinds that share a status share a response.
fn responses<'a>(
    kinds: impl Iterator<Item = &'a ProblemKind>,
) -> BTreeMap<String, RefOr<Response>> {
    let mut by_status: BTreeMap<u16, Vec<&ProblemKind>> = BTreeMap::new();
    for kind in kinds {
        by_status.entry(kind.status.as_u16()).or_default().push(kind);
    }
    by_status
        .into_iter()
        .map(|(status, kinds)| {
            let titles: Vec<_> =
                kinds.iter().map(|kind| format!("{} (`{}`)", kind.title, kind.slug)).collect();
            let schema = Ref::from_schema_name(ProblemBody::name());
            let content = ContentBuilder::new().schema(Some(schema)).build();
            let mut response = ResponseBuilder::new()
                .description(titles.join("; "))
                .content(PROBLEM_JSON, content);
            if let Some((name, header)) = headers(status) {
                response = response.header(name, header);
            }
            (status.to_string(), response.build().into())
        })
        .collect()
}

/// What a problem of this status carries besides.
fn headers(status: u16) -> Option<(&'static str, Header)> {
    let header = |kind: Type, words: &str| {
        let mut header = Header::new(ObjectBuilder::new().schema_type(kind));
        header.description = Some(words.to_owned());
        header
    };
    match StatusCode::from_u16(status).ok()? {
        StatusCode::UNAUTHORIZED => {
            Some(("WWW-Authenticate", header(Type::String, "`Bearer`: send a key")))
        }
        StatusCode::TOO_MANY_REQUESTS => {
            Some(("Retry-After", header(Type::Integer, "Seconds to wait")))
        }
        StatusCode::SERVICE_UNAVAILABLE => {
            Some(("Retry-After", header(Type::Integer, "Seconds to wait, where that is known")))
        }
        StatusCode::UNSUPPORTED_MEDIA_TYPE => {
            let words = "`identity`, where the body was compressed: it is read as it is";
            Some(("Accept-Encoding", header(Type::String, words)))
        }
        _ => None,
    }
}
