//! The form that every calculation's endpoint has.

use serde::Deserialize;
use utoipa::IntoParams;

use crate::{
    access::Caller, http::problem::Problem, quantity::UnitSystem, trade::Coded, wire::Units,
};

/// Units of the answer.
#[derive(Debug, Default, Clone, Deserialize, IntoParams)]
#[serde(deny_unknown_fields)]
#[into_params(parameter_in = Query)]
pub struct UnitsQuery {
    /// `metric` or `us`; the organisation's choice where left out.
    pub units: Option<String>,
}

impl UnitsQuery {
    /// The units of an answer to this caller.
    ///
    /// # Errors
    /// A name that is no system of units.
    pub fn of(&self, caller: &Caller) -> Result<Units, Problem> {
        let Some(name) = self.units.as_deref() else {
            return Ok(Some(caller.rulebook.settings.units));
        };
        UnitSystem::from_code(name)
            .map(Some)
            .ok_or_else(|| Problem::parameter("?units", "units are \"metric\" or \"us\""))
    }
}

/// Declares the endpoint of one calculation: its path, its input, an example that a test executes, and
/// the function that fills the sheet, with the rulebook's member it needs beside what was sent.
macro_rules! calculation {
    (
        $(#[doc = $doc:literal])+
        $path:literal, $name:ident($input:ty) => $fill:path,
        $(with: $with:ident,)?
        summary: $summary:literal,
        example: $example:tt
    ) => {
        #[doc = $summary]
        #[doc = ""]
        $(#[doc = $doc])+
        #[utoipa::path(
            post, path = $path, tag = "calculations",
            request_body(content = $input, example = json!($example)),
            params($crate::calculations::UnitsQuery),
            responses(
                (status = 200, description = "The figures with their sources",
                    body = $crate::calculations::CalculationAnswer),
                $crate::http::responses::AskProblems,
            ),
        )]
        pub(in crate::calculations) async fn $name(
            permitted: $crate::access::Permitted<$crate::access::AnyRole>,
            $crate::http::Query(query): $crate::http::Query<$crate::calculations::UnitsQuery>,
            $crate::http::JsonBody(body): $crate::http::JsonBody,
        ) -> Result<axum::Json<$crate::calculations::CalculationAnswer>, $crate::http::problem::Problem> {
            let mut sheet = $crate::calculations::Sheet::new(query.of(&permitted.caller)?);
            let sent: $input = $crate::wire::read(&body)?;
            $fill(&sent, $(&permitted.caller.rulebook.$with,)? &mut sheet);
            Ok(axum::Json(sheet.finish()))
        }
    };
}
pub(in crate::calculations) use calculation;
