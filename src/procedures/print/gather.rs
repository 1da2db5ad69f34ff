//! What a sheet is made from, read at one moment.

use std::collections::HashMap;

use time::OffsetDateTime;
use uuid::Uuid;

use crate::{
    audit::{self, Entry},
    check::ProcedureState,
    consumables::{self, ConsumableDocument},
    database::TenantTx,
    http::problem::Problem,
    organisation::{self, Letterhead},
    procedures::{
        JudgedAtRelease, KIND, ProcedureDocument,
        changed::{self, ChangedSinceRelease},
        store::{self, EditRow, EventRow, StandingRow},
    },
    records::{self, Stored},
    trade::Coded,
    wire,
};

/// Records behind one printed revision.
pub(super) struct Gathered {
    pub(super) letterhead: Letterhead,
    pub(super) stored: Stored,
    pub(super) document: ProcedureDocument,
    pub(super) standing: StandingRow,
    /// Edits of this revision.
    pub(super) edits: Vec<EditRow>,
    /// What happened to this revision.
    pub(super) events: Vec<EventRow>,
    /// Names of those who wrote, reviewed and signed.
    pub(super) people: HashMap<Uuid, String>,
    pub(super) consumables: Vec<NamedConsumable>,
    pub(super) judged: Option<JudgedAtRelease>,
    /// Records and consumables that were revised since the release.
    pub(super) changed: Vec<ChangedSinceRelease>,
    /// Entry of the chain that tells of the release.
    pub(super) released: Option<Entry>,
}

/// A consumable that the procedure names, as it stands.
pub(super) struct NamedConsumable {
    pub(super) code: String,
    pub(super) stored: Option<(Stored, ConsumableDocument)>,
}

impl Gathered {
    /// Reads the newest revision, or the one asked for.
    pub(super) async fn read(
        tx: &mut TenantTx,
        code: &str,
        revision: Option<i32>,
    ) -> Result<Self, Problem> {
        let db = tx.connection();
        let stored = match revision {
            Some(revision) => records::find_revision(db, KIND, code, revision).await?,
            None => records::find(db, KIND, code).await?,
        };
        let what = revision.map_or_else(|| code.to_owned(), |r| format!("{code}\" revision \"{r}"));
        let stored = stored.ok_or_else(|| Problem::not_found(KIND.name, &what))?;
        let number = stored.revision;
        let document: ProcedureDocument = wire::read_stored(&stored.document)
            .map_err(|_| Problem::internal("a stored document"))?;
        let standings = store::standings(db, code).await?;
        let standing = standings.into_iter().find(|own| own.revision == number);
        let standing = standing.ok_or_else(|| Problem::internal("a revision has no standing"))?;
        let mut edits = store::edits(db, code).await?;
        edits.retain(|edit| edit.revision == number);
        let mut events = store::events(db, code).await?;
        events.retain(|event| event.revision == number);
        let authors = edits.iter().filter_map(|edit| edit.author_id);
        let people: Vec<_> = authors.chain(events.iter().map(|event| event.person_id)).collect();
        let mut consumables = Vec::new();
        for named in &document.consumables {
            let stored = records::find(db, consumables::KIND, named.as_str()).await?;
            let stored = stored.map(|stored| {
                wire::read_stored::<ConsumableDocument>(&stored.document)
                    .map(|document| (stored, document))
                    .map_err(|_| Problem::internal("a stored document"))
            });
            let code = named.to_string();
            consumables.push(NamedConsumable { code, stored: stored.transpose()? });
        }
        let release = ProcedureState::Released.code();
        let judged = store::judgement(db, code, number).await?;
        let changed = changed::since_release(db, code, number, &document, judged.as_ref()).await?;
        Ok(Self {
            letterhead: organisation::letterhead(db).await?,
            people: store::names(db, &people).await?.into_iter().collect(),
            judged,
            changed,
            released: audit::newest(db, (KIND.column, code, number), release).await?,
            stored,
            document,
            standing,
            edits,
            events,
            consumables,
        })
    }

    /// When the newest thing on the sheet was written.
    pub(super) fn written(&self) -> OffsetDateTime {
        let edits = self.edits.iter().map(|edit| edit.created_at);
        let events = self.events.iter().map(|event| event.at);
        let consumables = self.consumables.iter().filter_map(|own| own.stored.as_ref());
        let consumables = consumables.map(|(stored, _)| stored.created_at);
        let all = edits.chain(events).chain(consumables);
        all.max().unwrap_or(self.stored.created_at)
    }

    /// Name of a person.
    pub(super) fn name(&self, person: Uuid) -> String {
        self.people.get(&person).cloned().unwrap_or_else(|| person.to_string())
    }

    /// Where the revision stands.
    pub(super) fn state(&self) -> Option<ProcedureState> {
        ProcedureState::from_code(&self.standing.state)
    }

    /// Whether a person still has to sign its support before any check can be allowed.
    pub(super) fn needs_signature(&self) -> bool {
        self.standing.signed_by.is_none()
            && self.judged.as_ref().is_none_or(JudgedAtRelease::needs_signature)
    }

    /// The procedure with its revision, as findings name it.
    pub(super) fn owner(&self) -> String {
        format!("procedure {} revision {}", self.stored.code, self.stored.revision)
    }
}
