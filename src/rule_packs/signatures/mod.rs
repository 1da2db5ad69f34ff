//! Rules that an organisation signed: a person compared them with its own copy of the code.
//!
//! A signature lifts the mark `memory` from the cells of its rules, for the organisation that signed. It is about
//! the rule as it is written: when a later pack writes the rule otherwise, the signature no longer counts.

mod list;
mod sign;
mod store;
mod withdraw;

use std::{borrow::Cow, collections::BTreeSet};

use sha2::{Digest, Sha256};
use sqlx::PgConnection;
use utoipa_axum::{router::OpenApiRouter, routes};

use crate::{
    http::{AppState, problem::Problem},
    qualify::{Pack, packs},
};

/// Kind of these entries in the audit chain.
const AUDIT_KIND: &str = "rule-pack";

/// Routes of signatures.
pub(super) fn router() -> OpenApiRouter<AppState> {
    OpenApiRouter::new()
        .routes(routes!(list::list_rule_signatures, sign::sign_rules))
        .routes(routes!(withdraw::withdraw_rule_signature))
}

/// The pack in the path.
///
/// # Errors
/// There is none with this key.
pub(super) fn named(key: &str) -> Result<&'static Pack, Problem> {
    let pack = packs().iter().find(|pack| pack.key == key);
    pack.ok_or_else(|| Problem::not_found("rule pack", key))
}

/// SHA-256 of a rule as it is written.
fn rule_hash(pack: &Pack, rule: &str) -> Option<Vec<u8>> {
    pack.rule_text(rule).map(|text| Sha256::digest(text).to_vec())
}

/// The pack with the rules that the organisation signed marked as checked in print.
///
/// # Errors
/// A failing database.
pub(crate) async fn as_signed<'a>(
    db: &mut PgConnection,
    pack: &'a Pack,
) -> Result<Cow<'a, Pack>, Problem> {
    let signed: BTreeSet<_> = store::standing(db, &pack.key)
        .await?
        .into_iter()
        .filter(|row| rule_hash(pack, &row.rule).is_some_and(|hash| hash == row.rule_hash))
        .map(|row| row.rule)
        .collect();
    if signed.is_empty() {
        return Ok(Cow::Borrowed(pack));
    }
    let ids: Vec<_> = signed.iter().map(String::as_str).collect();
    let checked = pack.clone().checked_in_print(&ids);
    checked.map(Cow::Owned).map_err(|rule| Problem::internal(format!("no rule {rule}")))
}
