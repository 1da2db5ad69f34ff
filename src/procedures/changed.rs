//! What a released revision rests on and what has changed since its release. The release judged records and
//! consumables as they stood then; a qualification record is held fast by that judgement, while checks read a
//! consumable as it stands now.

use serde::Serialize;
use sqlx::PgConnection;
use utoipa::ToSchema;

use super::{
    JudgedAtRelease, ProcedureDocument,
    store::{self, ConsumableRevisions},
};
use crate::{check::ProcedureState, http::problem::Problem, qualifications, records, trade::Coded};

/// A record or consumable that is no longer what it was at the release.
#[derive(Debug, PartialEq, Eq, Serialize, ToSchema)]
pub struct ChangedSinceRelease {
    /// `consumable` or `qualification`.
    #[schema(example = "consumable")]
    pub kind: &'static str,
    /// Its code or number.
    #[schema(example = "FW-71")]
    pub code: String,
    /// Its revision at the release; left out where there was none yet.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at_release: Option<i32>,
    /// Its newest revision.
    pub now: i32,
    /// What that means for checks, and what to do.
    pub advice: String,
}

/// What changed since a revision was last released; nothing where it never was.
///
/// # Errors
/// When the database fails.
pub(super) async fn since_release(
    db: &mut PgConnection,
    code: &str,
    revision: i32,
    document: &ProcedureDocument,
    judged: Option<&JudgedAtRelease>,
) -> Result<Vec<ChangedSinceRelease>, Problem> {
    let wanted = ProcedureState::Released.code();
    let events = store::events(db, code).await?;
    let mut releases =
        events.iter().filter(|event| event.revision == revision && event.event == wanted);
    let Some(release) = releases.next_back() else { return Ok(Vec::new()) };
    let codes: Vec<_> = document.consumables.iter().map(ToString::to_string).collect();
    let consumables = store::consumables_since(db, &codes, release.at).await?;
    let mut changed: Vec<_> = consumables.into_iter().map(of_consumable).collect();
    for own in judged.iter().flat_map(|judged| &judged.records) {
        if let Some(stored) = records::find(db, qualifications::KIND, &own.record).await?
            && stored.revision != own.revision
        {
            changed.push(ChangedSinceRelease {
                kind: qualifications::KIND.name,
                code: own.record.clone(),
                at_release: Some(own.revision),
                now: stored.revision,
                advice: format!(
                    "The release judged revision {}, and checks stay with that judgement. Revise and release \
                     the procedure to have revision {} judged.",
                    own.revision, stored.revision
                ),
            });
        }
    }
    Ok(changed)
}

fn of_consumable(own: ConsumableRevisions) -> ChangedSinceRelease {
    ChangedSinceRelease {
        kind: "consumable",
        advice: format!(
            "Checks read revision {} of {}, not what stood at the release: compare the two, and revise the \
             procedure where its data, diameters, gases or classification differ.",
            own.now, own.code
        ),
        code: own.code,
        at_release: own.then,
        now: own.now,
    }
}
