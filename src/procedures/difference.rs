//! `GET /v1/procedures/{code}/difference`

use axum::{Json, extract::State};
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};
use utoipa::{IntoParams, ToSchema};

use super::{KIND, ProcedureDocument};
use crate::{
    access::{AnyRole, Permitted},
    database::TenantTx,
    http::{AppState, CodePath, Query, problem::Problem, responses::ReadProblems},
    records,
    wire::{self, ToWire},
};

/// Which revisions to compare.
#[derive(Debug, Deserialize, IntoParams)]
#[serde(deny_unknown_fields)]
#[into_params(parameter_in = Query)]
pub(super) struct DifferenceQuery {
    /// Earlier revision; the one before `after` where left out.
    #[param(minimum = 1)]
    before: Option<i32>,
    /// Later revision; the newest where left out.
    #[param(minimum = 1)]
    after: Option<i32>,
}

/// One field that differs.
#[derive(Debug, PartialEq, Eq, Serialize, ToSchema)]
pub struct FieldDifferenceOut {
    /// JSON Pointer into the procedure.
    #[schema(example = "/runs/0/limits/current")]
    pub pointer: String,
    /// The field in words.
    #[schema(example = "runs 1, limits, current")]
    pub field: String,
    /// What it said; left out where it said nothing.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(example = "190 to 240 A")]
    pub before: Option<String>,
    /// What it says; left out where it says nothing.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(example = "210 to 260 A")]
    pub after: Option<String>,
}

/// What differs between two revisions.
#[derive(Debug, Serialize, ToSchema)]
pub struct ProcedureDifference {
    /// Number of the procedure.
    pub procedure: String,
    /// Earlier revision.
    pub before: i32,
    /// Later revision.
    pub after: i32,
    /// Fields that differ, in the order of the document; empty where nothing does.
    pub fields: Vec<FieldDifferenceOut>,
}

/// Compare two revisions of a procedure
///
/// Says field by field what a revision changes, as typed. Items of a list are compared by their place.
#[utoipa::path(
    get, path = "/v1/procedures/{code}/difference", tag = "procedures",
    params(("code" = String, Path, description = "Number of the procedure"), DifferenceQuery),
    responses((status = 200, description = "What differs", body = ProcedureDifference), ReadProblems),
)]
pub(super) async fn compare_procedure_revisions(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    CodePath(code): CodePath,
    Query(query): Query<DifferenceQuery>,
) -> Result<Json<ProcedureDifference>, Problem> {
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    let db = tx.connection();
    let newest = records::find(db, KIND, &code).await?;
    let newest = newest.ok_or_else(|| Problem::not_found(KIND.name, &code))?;
    let after = query.after.unwrap_or(newest.revision);
    let before = query.before.unwrap_or_else(|| (after - 1).max(1));
    let mut documents = Vec::new();
    for revision in [before, after] {
        let found = records::find_revision(db, KIND, &code, revision).await?;
        let what = format!("{code}\" revision \"{revision}");
        let found = found.ok_or_else(|| Problem::not_found(KIND.name, &what))?;
        // The database keeps no order of members; the type has one.
        let document: ProcedureDocument = wire::read_stored(&found.document)
            .map_err(|_| Problem::internal("a stored document"))?;
        documents.push(document.to_wire());
    }
    let mut fields = Vec::new();
    differ(&documents[0], &documents[1], &mut Vec::new(), &mut fields);
    Ok(Json(ProcedureDifference { procedure: code, before, after, fields }))
}

/// Walks both documents; what one of them has as a whole is told as a whole.
fn differ(
    before: &Value,
    after: &Value,
    path: &mut Vec<String>,
    found: &mut Vec<FieldDifferenceOut>,
) {
    if before == after {
        return;
    }
    match (before, after) {
        (Value::Object(a), Value::Object(b)) if quantity(a).is_none() && quantity(b).is_none() => {
            let mut names: Vec<_> = a.keys().collect();
            names.extend(b.keys().filter(|name| !a.contains_key(*name)));
            for name in names {
                let (a, b) = (a.get(name), b.get(name));
                path.push(name.clone());
                either(a, b, path, found);
                path.pop();
            }
        }
        (Value::Array(a), Value::Array(b)) if a.iter().chain(b).any(is_part) => {
            for index in 0..a.len().max(b.len()) {
                path.push(index.to_string());
                either(a.get(index), b.get(index), path, found);
                path.pop();
            }
        }
        _ => told(Some(before), Some(after), path, found),
    }
}

fn either(
    before: Option<&Value>,
    after: Option<&Value>,
    path: &mut Vec<String>,
    found: &mut Vec<FieldDifferenceOut>,
) {
    match (before, after) {
        (Some(before), Some(after)) => differ(before, after, path, found),
        (before, after) => told(before, after, path, found),
    }
}

fn told(
    before: Option<&Value>,
    after: Option<&Value>,
    path: &[String],
    found: &mut Vec<FieldDifferenceOut>,
) {
    let escaped = |part: &String| format!("/{}", part.replace('~', "~0").replace('/', "~1"));
    found.push(FieldDifferenceOut {
        pointer: path.iter().map(escaped).collect(),
        field: in_words(path),
        before: before.map(readable),
        after: after.map(readable),
    });
}

/// `runs 1, limits, wire feed`: places in lists count from one.
fn in_words(path: &[String]) -> String {
    let mut words: Vec<String> = Vec::new();
    for part in path {
        match (part.parse::<usize>(), words.last_mut()) {
            (Ok(index), Some(list)) => *list = format!("{list} {}", index + 1),
            _ => words.push(part.replace('_', " ")),
        }
    }
    words.join(", ")
}

/// An object with members of its own, rather than a quantity.
fn is_part(value: &Value) -> bool {
    value.as_object().is_some_and(|members| quantity(members).is_none())
}

/// `200 to 240 A` of a quantity or a range as the service writes it; `None` for any other object.
fn quantity(members: &Map<String, Value>) -> Option<String> {
    let unit = members.get("unit")?.as_str()?;
    let number = |name: &str| members.get(name).map(ToString::to_string);
    let numbers = match (number("value"), number("min"), number("max")) {
        (Some(value), ..) => value,
        (None, Some(min), Some(max)) => format!("{min} to {max}"),
        (None, Some(min), None) => format!("at least {min}"),
        (None, None, Some(max)) => format!("at most {max}"),
        (None, None, None) => return None,
    };
    Some(format!("{numbers} {unit}"))
}

fn readable(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        Value::Bool(true) => "yes".to_owned(),
        Value::Bool(false) => "no".to_owned(),
        Value::Array(items) => items.iter().map(readable).collect::<Vec<_>>().join(", "),
        Value::Object(members) => quantity(members).unwrap_or_else(|| {
            let each = |(name, value): (&String, &Value)| {
                format!("{} {}", name.replace('_', " "), readable(value))
            };
            members.iter().map(each).collect::<Vec<_>>().join(", ")
        }),
        other => other.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    fn fields(before: &Value, after: &Value) -> Vec<[String; 3]> {
        let mut found = Vec::new();
        differ(before, after, &mut Vec::new(), &mut found);
        let words = |text: Option<String>| text.unwrap_or_else(|| "-".to_owned());
        found.into_iter().map(|one| [one.field, words(one.before), words(one.after)]).collect()
    }

    #[test]
    fn what_differs_is_told_field_by_field_in_words() {
        let before = json!({
            "title": "Fillets", "positions": ["PA", "PB"],
            "runs": [{ "limits": {
                "current": { "min": 190, "max": 240, "unit": "A" },
                "interpass": { "max": 200, "unit": "°C" },
            } }],
        });
        let after = json!({
            "title": "Fillets", "positions": ["PA"],
            "runs": [
                { "limits": {
                    "current": { "min": 210, "max": 260, "unit": "A" },
                    "preheat": { "min": 20, "unit": "°C" },
                } },
                { "classes": ["root"] },
            ],
        });
        assert!(fields(&before, &before).is_empty());
        let found = fields(&before, &after);
        let expected = [
            ["positions", "PA, PB", "PA"],
            ["runs 1, limits, current", "190 to 240 A", "210 to 260 A"],
            ["runs 1, limits, interpass", "at most 200 °C", "-"],
            ["runs 1, limits, preheat", "-", "at least 20 °C"],
            ["runs 2", "-", "classes root"],
        ];
        let expected: Vec<_> = expected.map(|row| row.map(str::to_owned)).to_vec();
        assert_eq!(found, expected);
    }
}
