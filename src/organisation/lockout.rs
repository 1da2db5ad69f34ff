//! Nobody locks the organisation out of itself: somebody can always administer it.

use super::store;
use crate::{
    database::TenantTx,
    http::problem::{LAST_ADMINISTRATOR, Problem},
};

/// Makes changes of who may administer take turns; call it before such a change.
///
/// # Errors
/// When the database fails.
pub(super) async fn take_turn(tx: &mut TenantTx) -> Result<(), Problem> {
    Ok(store::lock(tx.connection()).await?)
}

/// Refuses a change after which no key would work that may administer.
///
/// # Errors
/// 409 where that is so.
pub(super) async fn refuse(tx: &mut TenantTx, what: &str) -> Result<(), Problem> {
    if store::has_administrator(tx.connection()).await? {
        return Ok(());
    }
    let detail = format!(
        "{what} is the last administrator: without it no key that works has the role admin. Give another person \
         the role and a key first."
    );
    Err(Problem::new(&LAST_ADMINISTRATOR, detail))
}
