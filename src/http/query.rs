//! Query parameters, and what is said of those that cannot be read.

use std::num::IntErrorKind;

use axum::{
    extract::FromRequestParts,
    http::{Uri, request::Parts},
};
use serde::de::DeserializeOwned;
use time::Date;
use utoipa::{
    IntoParams,
    openapi::{
        RefOr, Required,
        path::Parameter,
        schema::{KnownFormat, Schema, SchemaFormat, SchemaType, Type},
    },
};

use super::{AppState, problem::Problem};
use crate::wire::{self, FromWire, Node, calendar_day};

/// Query parameters. The database holds no NUL, so none may hold one.
#[derive(Debug)]
pub struct Query<T>(pub T);

impl<T: DeserializeOwned + IntoParams> FromRequestParts<AppState> for Query<T> {
    type Rejection = Problem;

    async fn from_request_parts(parts: &mut Parts, _: &AppState) -> Result<Self, Problem> {
        // The database keeps no text with a NUL.
        if parts.uri.query().is_some_and(|query| query.contains("%00")) {
            return Err(Problem::parameter("?", "a parameter has no NUL"));
        }
        if let Ok(query) = serde_urlencoded::from_str(parts.uri.query().unwrap_or_default()) {
            return Ok(Self(query));
        }
        // This reader says at which parameter it failed, and takes longer.
        match axum::extract::Query::<T>::try_from_uri(&parts.uri) {
            Ok(axum::extract::Query(query)) => Ok(Self(query)),
            Err(error) => {
                Err(why::<T>(&parts.uri)
                    .unwrap_or_else(|| Problem::parameter("?", error.body_text())))
            }
        }
    }
}

/// The first known parameter that is missing, doubled or unreadable; else the first unknown one.
fn why<T: IntoParams>(uri: &Uri) -> Option<Problem> {
    let known = T::into_params(|| None);
    let unreadable = known.iter().find_map(|parameter| {
        let of_it: Vec<_> = pairs(uri).filter(|pair| name_of(pair) == parameter.name).collect();
        fault(parameter, &of_it)
            .map(|detail| Problem::parameter(&format!("?{}", parameter.name), detail))
    });
    unreadable.or_else(|| unknown(uri, &names_of::<T>()))
}

/// What is wrong with one parameter, and what would be right.
fn fault(parameter: &Parameter, pairs: &[&str]) -> Option<String> {
    match pairs {
        [] => (parameter.required == Required::True).then(|| "this parameter is needed".to_owned()),
        [pair] => {
            let whole = whole_number(parameter)?;
            let value = pair.split_once('=').map_or("", |(_, value)| value);
            let largest = largest(parameter);
            match value.parse::<i64>() {
                Ok(number) if number <= largest => None,
                Err(error) if *error.kind() != IntErrorKind::PosOverflow => {
                    Some(format!("\"{value}\" is not {whole}"))
                }
                _ => Some(format!(
                    "\"{value}\" is above {largest}, the largest that this parameter takes"
                )),
            }
        }
        _ => Some("this parameter is given more than once".to_owned()),
    }
}

/// The largest whole number that a parameter is read into.
fn largest(parameter: &Parameter) -> i64 {
    const SHORT: SchemaFormat = SchemaFormat::KnownFormat(KnownFormat::Int32);
    match &parameter.schema {
        Some(RefOr::T(Schema::Object(schema))) if schema.format == Some(SHORT) => i32::MAX.into(),
        _ => i64::MAX,
    }
}

/// What a parameter may be, in words, where it is a whole number.
fn whole_number(parameter: &Parameter) -> Option<String> {
    let Some(RefOr::T(Schema::Object(schema))) = &parameter.schema else { return None };
    if !matches!(schema.schema_type, SchemaType::Type(Type::Integer)) {
        return None;
    }
    let end = |number: &utoipa::Number| match number {
        utoipa::Number::Int(number) => number.to_string(),
        utoipa::Number::UInt(number) => number.to_string(),
        utoipa::Number::Float(number) => number.to_string(),
    };
    Some(match (schema.minimum.as_ref().map(end), schema.maximum.as_ref().map(end)) {
        (Some(least), Some(most)) => format!("a whole number from {least} to {most}"),
        (Some(least), None) => format!("a whole number of at least {least}"),
        _ => "a whole number".to_owned(),
    })
}

/// A day that a query parameter names.
///
/// # Errors
/// A text that is no day.
pub fn day_parameter(name: &str, text: &str) -> Result<Date, Problem> {
    calendar_day(text).ok_or_else(|| Problem::parameter(name, "a day is written as 2026-11-25"))
}

/// No query parameters: what is asked for there would be lost.
#[derive(Debug, Clone, Copy)]
pub struct NoQuery;

impl FromRequestParts<AppState> for NoQuery {
    type Rejection = Problem;

    async fn from_request_parts(parts: &mut Parts, _: &AppState) -> Result<Self, Problem> {
        let Some(first) = pairs(&parts.uri).map(name_of).next() else { return Ok(Self) };
        let detail = "no such parameter; this request takes none";
        Err(Problem::parameter(&format!("?{first}"), detail))
    }
}

/// Reads a parameter as a member of a body is read.
///
/// # Errors
/// What is wrong with it, and what would be right.
pub fn read_parameter<T: FromWire>(name: &str, text: Option<&str>) -> Result<Option<T>, Problem> {
    let Some(text) = text else { return Ok(None) };
    wire::read_node(&Node::Text(text.into())).map(Some).map_err(|problem| {
        let detail = problem.errors().first().map(|error| error.detail.clone());
        Problem::parameter(name, detail.unwrap_or_default())
    })
}

/// Refuses query parameters that neither set has: a mistyped filter would list everything.
///
/// # Errors
/// The first unknown parameter, with the known ones.
pub fn known_parameters<A: IntoParams, B: IntoParams>(uri: &Uri) -> Result<(), Problem> {
    let unknown = unknown(uri, &[names_of::<A>(), names_of::<B>()].concat());
    unknown.map_or(Ok(()), Err)
}

/// The first parameter that is none of these.
fn unknown(uri: &Uri, known: &[String]) -> Option<Problem> {
    let mut names = pairs(uri).map(name_of);
    let unknown = names.find(|name| !known.iter().any(|known| known == name))?;
    let detail = format!("no such parameter; known are {}", known.join(", "));
    Some(Problem::parameter(&format!("?{unknown}"), detail))
}

fn names_of<T: IntoParams>() -> Vec<String> {
    T::into_params(|| None).into_iter().map(|parameter| parameter.name).collect()
}

/// Names with their values.
fn pairs(uri: &Uri) -> impl Iterator<Item = &str> {
    uri.query().unwrap_or_default().split('&').filter(|pair| !pair.is_empty())
}

fn name_of(pair: &str) -> &str {
    pair.split_once('=').map_or(pair, |(name, _)| name)
}
