//! Records that others may rest on.

use sqlx::PgConnection;

use super::{QualificationDocument, store};
use crate::{
    http::problem::{CONFLICT, Problem},
    qualify::record::Record,
    trade::CodeEdition,
    wire,
};

/// Most records that one procedure can name.
const MOST: i64 = 100;

/// A record that is not withdrawn: its newest signed revision, or its draft where nobody has signed any.
#[derive(Debug, Clone)]
pub(crate) struct RecordInUse {
    /// Number.
    pub number: String,
    /// Revision.
    pub revision: i32,
    /// SHA-256 of that revision's document.
    pub document_hash: Vec<u8>,
    /// Whether that revision is signed; unsigned it supports nothing.
    pub is_signed: bool,
    /// What it says.
    pub record: Record,
}

/// Those of the records with these numbers that are in use and were made by this code and edition.
///
/// # Errors
/// A failing database, or a stored document that cannot be read.
pub(crate) async fn in_use(
    db: &mut PgConnection,
    code: &CodeEdition,
    numbers: &[String],
) -> Result<Vec<RecordInUse>, Problem> {
    if numbers.is_empty() {
        return Ok(Vec::new());
    }
    let rows = store::candidates(db, code, numbers, MOST).await?;
    rows.into_iter()
        .map(|row| {
            let document: QualificationDocument = wire::read_stored(&row.document)
                .map_err(|_| Problem::internal("a stored document"))?;
            Ok(RecordInUse {
                number: row.code,
                revision: row.revision,
                document_hash: row.document_hash,
                is_signed: row.is_signed,
                record: document.compile(None),
            })
        })
        .collect()
}

/// Refuses to take a record away from under a procedure that may be welded to.
pub(super) async fn refuse_while_rested_on(
    db: &mut PgConnection,
    code: &str,
) -> Result<(), Problem> {
    let resting = store::rests_on(db, code).await?;
    if resting.is_empty() {
        return Ok(());
    }
    let named: Vec<_> =
        resting.iter().map(|(code, revision)| format!("{code} revision {revision}")).collect();
    let detail = format!(
        "It supports what may be welded to: {}. Withdraw that first, or release a revision with other support.",
        named.join(", ")
    );
    Err(Problem::new(&CONFLICT, detail))
}
