//! Kept checks judged again, to foresee what a change of the records changes on the floor.

use time::{Date, OffsetDateTime};
use uuid::Uuid;

use super::{SetupIn, store};
use crate::{
    check::{Book, Setup, unknown_references},
    database::TenantTx,
    wire::{self, Errors},
};

/// The setup of a kept check.
#[derive(Debug)]
pub struct KeptSetup {
    /// Id of the evidence.
    pub check_id: Uuid,
    /// When it was answered.
    pub at: OffsetDateTime,
    /// Day it was for.
    pub day: Date,
    /// The setup; `None` where it cannot be read by today's records.
    pub setup: Option<Box<Setup>>,
}

/// Setups of the checks that were kept last, newest first, as they read with the records of this book. `day` is
/// that of a setup that names none.
///
/// # Errors
/// When the database fails.
pub async fn kept_setups(
    tx: &mut TenantTx,
    book: &Book,
    day: Date,
    most: i64,
) -> sqlx::Result<Vec<KeptSetup>> {
    let kept = store::newest(tx, most).await?;
    let read = |kept: store::KeptSetupRow| {
        let sent = wire::read_stored::<SetupIn>(&kept.setup).ok();
        let day = sent.as_ref().and_then(|sent| sent.day).unwrap_or(day);
        KeptSetup {
            check_id: kept.check_id,
            at: kept.at,
            day,
            setup: sent.and_then(|sent| read(&sent, book, day)),
        }
    };
    Ok(kept.into_iter().map(read).collect())
}

fn read(sent: &SetupIn, book: &Book, day: Date) -> Option<Box<Setup>> {
    let code = sent.station.as_ref().map(ToString::to_string);
    let station = code.as_ref().and_then(|code| book.stations.get(code));
    let mut errors = Errors::in_stored();
    let setup = sent.setup((code.clone(), station.map(AsRef::as_ref)), day, &mut errors);
    errors.finish().ok()?;
    setup.filter(|setup| unknown_references(book, setup).is_empty())
}
