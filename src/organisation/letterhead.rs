//! What stands at the head of a printed sheet.

use sqlx::PgConnection;

use super::{OrganisationSettings, PublicAddress, store};
use crate::{http::problem::Problem, wire};

/// Name and address of an organisation.
#[derive(Debug, Clone)]
pub struct Letterhead {
    /// Its name.
    pub name: String,
    /// Where its service is reached from the floor.
    pub address: Option<PublicAddress>,
}

/// The letterhead of the organisation whose transaction this is.
///
/// # Errors
/// A failing database, or settings that cannot be read.
pub async fn letterhead(db: &mut PgConnection) -> Result<Letterhead, Problem> {
    let row = store::find(db).await?;
    let settings: OrganisationSettings =
        wire::read_stored(&row.settings).map_err(|_| Problem::internal("stored settings"))?;
    Ok(Letterhead { name: row.name, address: settings.public_address })
}
