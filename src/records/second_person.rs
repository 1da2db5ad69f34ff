//! Nobody approves or signs what they wrote.

use sqlx::PgConnection;
use uuid::Uuid;

use super::{Kind, store};
use crate::http::problem::{CONFLICT, Problem};

/// What a person wants to sign of a record.
#[derive(Debug, Clone, Copy)]
pub enum Signing {
    /// One revision, which is written and approved by itself.
    Revision(i32),
    /// What it says, in whichever revision that was written: who corrects a trifle did not write the rest.
    Content,
}

impl Signing {
    /// The one revision whose authors count; those of all where `None`.
    pub(super) const fn revision(self) -> Option<i32> {
        match self {
            Self::Revision(revision) => Some(revision),
            Self::Content => None,
        }
    }

    const fn words(self) -> [&'static str; 3] {
        match self {
            Self::Revision(_) => [
                "the revision cannot approve it",
                "the revision",
                "as the next revision where this one is released, or else under a number of its own",
            ],
            Self::Content => [
                "the record, in whichever revision, cannot sign it",
                "the record",
                "under a code of its own",
            ],
        }
    }
}

/// Holds that a person wrote no part of what they approve or sign, with whichever key. A part that nobody is named for
/// may be theirs.
///
/// # Errors
/// A conflict where they did, or where nobody is named for a part; a failing database.
pub async fn hold_second_person(
    db: &mut PgConnection,
    kind: Kind,
    code: &str,
    signing: Signing,
    person: Uuid,
) -> Result<(), Problem> {
    let authors = store::authors(db, kind, code, signing.revision()).await?;
    let [cannot, whole, anew] = signing.words();
    if authors.contains(&Some(person)) {
        let detail = format!("Whoever wrote a part of {cannot}; a second person has to.");
        return Err(Problem::new(&CONFLICT, detail));
    }
    if authors.contains(&None) {
        let detail = format!(
            "A part of {whole} was written with a key that stands for nobody: no author is named, so nobody can be \
             the second person. A person has to write it anew, {anew}."
        );
        return Err(Problem::new(&CONFLICT, detail));
    }
    Ok(())
}
