//! The five endpoints that every kind of record has.

/// Declares `list`, `create`, `read`, `revise` and `withdraw` for one kind of record, with its router.
/// The features differ in their documents, filters and roles only.
macro_rules! record_endpoints {
    (
        tag: $tag:literal,
        one: $one:literal,
        many: $many:literal,
        document: $document:ty,
        filter: $filter:ty,
        columns: $columns:expr,
        write: $write:ty,
        retire: $retire:ty,
        paths: $all:literal, $item:literal, $withdrawal:literal,
        operations: $list:ident, $create:ident, $read:ident, $revise:ident, $withdraw:ident,
        $(narrowed: $narrowed:path,)?
        $(in_force: $in_force:path,)?
    ) => {
        // The derived description of a generic body wants its type in scope.
        use $crate::records::{Listing, RecordAnswer};

        #[doc = concat!("Lists ", $many, " in the order of their codes.")]
        #[utoipa::path(
            get, path = $all, tag = $tag,
            summary = concat!("List ", $many),
            description = concat!("Lists ", $many, " in the order of their codes."),
            params($crate::records::PageQuery, $filter),
            responses(
                (status = 200, description = "One page; CSV with `Accept: text/csv`",
                    headers(
                        ("Link" = String, description = "The next page, as `rel=\"next\"`; sent where there is one"),
                    ),
                    body = Listing<$document>),
                $crate::http::responses::ListProblems,
            ),
        )]
        async fn $list(
            permitted: $crate::access::Permitted<$crate::access::AnyRole>,
            axum::extract::State(state): axum::extract::State<$crate::http::AppState>,
            uri: axum::http::Uri,
            headers: axum::http::HeaderMap,
            $crate::http::Query(page): $crate::http::Query<$crate::records::PageQuery>,
            $crate::http::Query(filter): $crate::http::Query<$filter>,
        ) -> Result<axum::response::Response, $crate::http::problem::Problem> {
            $crate::http::known_parameters::<$crate::records::PageQuery, $filter>(&uri)?;
            let only: Option<Vec<String>> = None;
            $(let only = only.or($narrowed(&permitted.caller, &filter)?);)?
            let in_force_on: Option<time::Date> = None;
            $(let in_force_on = in_force_on.or($in_force(&filter)?);)?
            let filter = $crate::records::Filter { contained: $crate::records::RecordFilter::contained(&filter)?, only, in_force_on };
            let request = (&uri, &headers);
            $crate::records::list::<$document>(&state, &permitted.caller, request, &page, &filter, $columns)
                .await
        }

        #[doc = concat!("Makes a ", $one, ".")]
        #[utoipa::path(
            post, path = $all, tag = $tag,
            summary = concat!("Make a ", $one),
            description = concat!("Makes a ", $one, "."),
            request_body = $document,
            params(("Idempotency-Key" = Option<String>, Header, description = "For a safe retry")),
            responses(
                (status = 201, description = "Made; `Location` and `ETag` say where and which version",
                    headers(
                        ("Location" = String, description = "Path of what was made"),
                        ("ETag" = String, description = "Version of the record"),
                        ("Rulebook-Version" = i64, description = "First rulebook that knows it; sent where checks need it"),
                    ),
                    body = RecordAnswer<$document>),
                $crate::http::responses::CreateProblems,
            ),
        )]
        async fn $create(
            permitted: $crate::access::Permitted<$write>,
            axum::extract::State(state): axum::extract::State<$crate::http::AppState>,
            retry: $crate::http::Retry,
            $crate::http::JsonBody(body): $crate::http::JsonBody,
        ) -> Result<axum::response::Response, $crate::http::problem::Problem> {
            $crate::records::create::<$document>(&state, &permitted.caller, &retry, &body).await
        }

        #[doc = concat!("Reads a ", $one, ": the newest revision, or the one asked for.")]
        #[utoipa::path(
            get, path = $item, tag = $tag,
            summary = concat!("Read a ", $one),
            description = concat!("Reads a ", $one, ": the newest revision, or the one asked for."),
            params(
                ("code" = String, Path, description = "Code of the record"),
                ("If-None-Match" = Option<String>, Header, description = "ETag you hold"),
                $crate::records::ReadQuery,
            ),
            responses(
                (status = 200, description = "The revision, with the record's `ETag`",
                    headers(
                        ("ETag" = String, description = "Version of the record"),
                    ),
                    body = RecordAnswer<$document>),
                (status = 304, description = "Unchanged since that `ETag`",
                    headers(
                        ("ETag" = String, description = "Version of the record"),
                    )),
                $crate::http::responses::ReadProblems,
            ),
        )]
        async fn $read(
            permitted: $crate::access::Permitted<$crate::access::AnyRole>,
            axum::extract::State(state): axum::extract::State<$crate::http::AppState>,
            headers: axum::http::HeaderMap,
            $crate::http::CodePath(code): $crate::http::CodePath,
            $crate::http::Query(query): $crate::http::Query<$crate::records::ReadQuery>,
        ) -> Result<axum::response::Response, $crate::http::problem::Problem> {
            $crate::records::read::<$document>(&state, &permitted.caller, &headers, &code, &query).await
        }

        #[doc = concat!("Changes a ", $one, ": the document becomes the next revision.")]
        #[utoipa::path(
            put, path = $item, tag = $tag,
            summary = concat!("Revise a ", $one),
            description = concat!("Changes a ", $one, ": the document becomes the next revision."),
            request_body = $document,
            params(
                ("code" = String, Path, description = "Code of the record"),
                ("If-Match" = String, Header, description = "ETag of the version you read"),
                $crate::records::ReasonQuery,
            ),
            responses(
                (status = 200, description = "The new revision, with the record's new `ETag`",
                    headers(
                        ("ETag" = String, description = "Version of the record"),
                        ("Rulebook-Version" = i64, description = "First rulebook that knows it; sent where checks need it"),
                    ),
                    body = RecordAnswer<$document>),
                $crate::http::responses::ChangeProblems,
            ),
        )]
        async fn $revise(
            permitted: $crate::access::Permitted<$write>,
            axum::extract::State(state): axum::extract::State<$crate::http::AppState>,
            if_match: $crate::http::IfMatch,
            $crate::http::CodePath(code): $crate::http::CodePath,
            $crate::http::Query(query): $crate::http::Query<$crate::records::ReasonQuery>,
            $crate::http::JsonBody(body): $crate::http::JsonBody,
        ) -> Result<axum::response::Response, $crate::http::problem::Problem> {
            let reason = query.reason.as_deref();
            $crate::records::revise::<$document>(&state, &permitted.caller, &if_match, &code, reason, &body)
                .await
        }

        #[doc = concat!("Takes a ", $one, " out of use, with the reason. Nothing is deleted.")]
        #[utoipa::path(
            post, path = $withdrawal, tag = $tag,
            summary = concat!("Withdraw a ", $one),
            description = concat!(
                "Takes a ", $one, " out of use, with the reason, which stays with it. Nothing is deleted."
            ),
            request_body = $crate::records::WithdrawalIn,
            params(
                ("code" = String, Path, description = "Code of the record"),
                ("If-Match" = String, Header, description = "ETag of the version you read"),
                ("Idempotency-Key" = Option<String>, Header, description = "For a safe retry"),
            ),
            responses(
                (status = 200, description = "Withdrawn; checks no longer see it",
                    headers(
                        ("ETag" = String, description = "Version of the record"),
                        ("Rulebook-Version" = i64, description = "First rulebook that knows it; sent where checks need it"),
                    ),
                    body = RecordAnswer<$document>),
                $crate::http::responses::ChangeProblems,
            ),
        )]
        async fn $withdraw(
            permitted: $crate::access::Permitted<$retire>,
            axum::extract::State(state): axum::extract::State<$crate::http::AppState>,
            if_match: $crate::http::IfMatch,
            retry: $crate::http::Retry,
            _: $crate::http::NoQuery,
            $crate::http::CodePath(code): $crate::http::CodePath,
            $crate::http::JsonBody(body): $crate::http::JsonBody,
        ) -> Result<axum::response::Response, $crate::http::problem::Problem> {
            let caller = &permitted.caller;
            $crate::records::withdraw::<$document>(&state, caller, &if_match, &retry, &code, &body).await
        }

        /// The five endpoints of the kind.
        fn record_routes() -> utoipa_axum::router::OpenApiRouter<$crate::http::AppState> {
            utoipa_axum::router::OpenApiRouter::new()
                .routes(utoipa_axum::routes!($list, $create))
                .routes(utoipa_axum::routes!($read, $revise))
                .routes(utoipa_axum::routes!($withdraw))
        }
    };
}
pub(crate) use record_endpoints;
