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
    qualify::Pack,
};

/// Kind of these entries in the audit chain.
const AUDIT_KIND: &str = "rule-signature";

/// Routes of signatures.
pub(super) fn router() -> OpenApiRouter<AppState> {
    OpenApiRouter::new()
        .routes(routes!(list::list_rule_signatures, sign::sign_rules))
        .routes(routes!(withdraw::withdraw_rule_signature))
}

/// SHA-256 of a rule as it is written.
fn rule_hash(pack: &Pack, rule: &str) -> Option<Vec<u8>> {
    pack.rule_text(rule).map(|text| Sha256::digest(text).to_vec())
}

/// The pack with the rules that the organisation signed marked as checked in print.
///
/// # Errors
/// A failing database.
pub(super) async fn as_signed(
    db: &mut PgConnection,
    pack: Cow<'static, Pack>,
) -> Result<Cow<'static, Pack>, Problem> {
    let signed: BTreeSet<_> = store::standing(db, &pack.key)
        .await?
        .into_iter()
        .filter(|row| rule_hash(&pack, &row.rule).is_some_and(|hash| hash == row.rule_hash))
        .map(|row| row.rule)
        .collect();
    if signed.is_empty() {
        return Ok(pack);
    }
    let ids: Vec<_> = signed.iter().map(String::as_str).collect();
    let checked = pack.into_owned().checked_in_print(&ids);
    checked.map(Cow::Owned).map_err(|rule| Problem::internal(format!("no rule {rule}")))
}
