//! A rule pack by its key: built in, or of the organisation; as far as the organisation signed it.

use std::borrow::Cow;

use sqlx::PgConnection;

use super::{own, signatures::as_signed};
use crate::{
    http::problem::Problem,
    qualify::{Pack, packs},
    wire::Code,
};

/// A pack with what an organisation knows of it.
#[derive(Debug, Clone)]
pub struct PackInUse {
    /// The rules; those that the organisation signed are `print-checked`.
    pub pack: Cow<'static, Pack>,
    /// Revision, where the organisation wrote it.
    pub revision: Option<i32>,
    /// Whether the organisation took its own pack out of use.
    pub is_withdrawn: bool,
}

/// The pack with this key; `None` where there is none.
///
/// # Errors
/// A failing database, or a stored pack that cannot be read.
pub async fn find_pack(db: &mut PgConnection, key: &str) -> Result<Option<PackInUse>, Problem> {
    if let Some(pack) = built_in(key) {
        let pack = as_signed(db, Cow::Borrowed(pack)).await?;
        return Ok(Some(PackInUse { pack, revision: None, is_withdrawn: false }));
    }
    let Some(own) = own::find(db, key).await? else { return Ok(None) };
    let pack = as_signed(db, Cow::Owned(own.pack)).await?;
    let (revision, is_withdrawn) = (Some(own.revision), own.is_withdrawn);
    Ok(Some(PackInUse { pack, revision, is_withdrawn }))
}

/// The built-in pack with this key.
#[must_use]
pub fn built_in(key: &str) -> Option<&'static Pack> {
    packs().iter().find(|pack| pack.key == key)
}

/// The pack in a path.
///
/// # Errors
/// There is none with this key; as [`find_pack`].
pub(super) async fn named(db: &mut PgConnection, key: &str) -> Result<PackInUse, Problem> {
    let unknown = || Problem::not_found("rule pack", key);
    // What is no code cannot be asked for in the database.
    Code::parse(key).ok_or_else(unknown)?;
    find_pack(db, key).await?.ok_or_else(unknown)
}
