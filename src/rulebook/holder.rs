//! All rulebooks of this process, swapped as a whole; readers take no lock.

use std::{
    collections::HashMap,
    sync::Arc,
    time::{Duration, Instant},
};

use arc_swap::ArcSwap;
use sqlx::PgPool;
use time::OffsetDateTime;
use tokio::sync::{Mutex, watch};
use uuid::Uuid;

use super::{
    Rulebook,
    load::{self, KeyUses, Keys, Loaded, in_time},
    store,
};
use crate::{
    access::{KeyHash, KeyUse, Role},
    check::SharedMap,
};

/// A key and whom it stands for.
#[derive(Debug)]
pub struct KeyHolder {
    /// Organisation.
    pub organisation: Uuid,
    /// Id of the key.
    pub key: Uuid,
    /// Roles.
    pub roles: Vec<Role>,
    /// Person the key stands for.
    pub person: Option<Uuid>,
    /// Station the key is bound to.
    pub station: Option<String>,
    /// When it stops working.
    pub expires_at: Option<OffsetDateTime>,
    /// Hash that the key is found by.
    pub(super) hash: KeyHash,
    /// How it is used; flushed to the database in batches.
    pub used: Arc<KeyUse>,
}

impl KeyHolder {
    /// Whether its last day is over.
    #[must_use]
    pub fn has_expired(&self) -> bool {
        self.expires_at.is_some_and(|end| end <= OffsetDateTime::now_utc())
    }
}

/// What readers see: one consistent picture. The next one shares all that did not change.
#[derive(Debug, Default, Clone)]
struct Snapshot {
    organisations: SharedMap<Uuid, Held>,
    keys: SharedMap<KeyHash, Known>,
}

/// A key that works, with the rulebook it opens: one look finds both.
#[derive(Debug, Clone)]
struct Known {
    holder: Arc<KeyHolder>,
    book: Arc<Rulebook>,
}

/// What is held of one organisation.
#[derive(Debug, Clone)]
struct Held {
    book: Arc<Rulebook>,
    keys: Arc<[Arc<KeyHolder>]>,
}

impl Snapshot {
    /// The picture after an organisation was read.
    fn with(&self, rulebook: Rulebook, keys: Option<Keys>) -> Self {
        let mut next = self.clone();
        let organisation = rulebook.organisation;
        let held = self.organisations.get(&organisation).map(|held| &held.keys);
        let book = Arc::new(rulebook);
        let keys: Arc<[_]> = match (keys, held) {
            (None, Some(held)) => Arc::clone(held),
            (keys, held) => {
                for gone in held.iter().flat_map(|held| held.iter()) {
                    next.keys.remove_mut(&gone.hash);
                }
                keys.into_iter().flatten().map(Arc::new).collect()
            }
        };
        for holder in keys.iter() {
            let known = Known { holder: Arc::clone(holder), book: Arc::clone(&book) };
            next.keys.insert_mut(holder.hash, known);
        }
        next.organisations.insert_mut(organisation, Held { book, keys });
        next
    }
}

/// Takes it that records of one organisation cannot be read, as when a newer version wrote them: that is its matter
/// alone.
///
/// # Errors
/// Any other: the database failed.
pub(super) fn one_unread(outcome: sqlx::Result<()>) -> sqlx::Result<()> {
    match outcome {
        Err(sqlx::Error::Decode(_) | sqlx::Error::ColumnDecode { .. }) => Ok(()),
        outcome => outcome,
    }
}

/// The rulebooks of all organisations.
#[derive(Debug)]
pub struct Rulebooks {
    pool: PgPool,
    epoch: Instant,
    snapshot: ArcSwap<Snapshot>,
    refreshing: Mutex<()>,
    changed: watch::Sender<()>,
}

impl Rulebooks {
    /// Reads all rulebooks once. An organisation whose records cannot be read keeps no other from being served; its
    /// own keys are unknown until they can be.
    ///
    /// # Errors
    /// When the database cannot be read.
    pub async fn load(pool: PgPool) -> sqlx::Result<Arc<Self>> {
        let rulebooks = Arc::new(Self {
            pool,
            epoch: Instant::now(),
            snapshot: ArcSwap::default(),
            refreshing: Mutex::new(()),
            changed: watch::Sender::new(()),
        });
        one_unread(rulebooks.poll().await)?;
        Ok(rulebooks)
    }

    /// Rulebook of one organisation.
    #[must_use]
    pub fn of(&self, organisation: Uuid) -> Option<Arc<Rulebook>> {
        self.snapshot.load().organisations.get(&organisation).map(|held| Arc::clone(&held.book))
    }

    /// Organisations that have a rulebook.
    #[must_use]
    pub fn organisations(&self) -> Vec<Uuid> {
        self.snapshot.load().organisations.keys().copied().collect()
    }

    /// Whom a key stands for, with the rulebook of the organisation; `None` for unknown and revoked keys.
    #[must_use]
    pub fn known(&self, hash: &KeyHash) -> Option<(Arc<KeyHolder>, Arc<Rulebook>)> {
        let snapshot = self.snapshot.load();
        let Known { holder, book } = snapshot.keys.get(hash)?;
        Some((Arc::clone(holder), Arc::clone(book)))
    }

    /// The rulebook as it is now for a key that was known; `None` where it works no longer: it was revoked or rotated
    /// since, or has expired.
    #[must_use]
    pub fn still_for(&self, holder: &KeyHolder) -> Option<Arc<Rulebook>> {
        let (holder, rulebook) = self.known(&holder.hash)?;
        (!holder.has_expired()).then_some(rulebook)
    }

    /// Time since the rulebook's version was last confirmed.
    #[must_use]
    pub fn age(&self, rulebook: &Rulebook) -> time::Duration {
        rulebook.age_at(self.now())
    }

    /// Waits until the organisation's rulebook is at least at this version.
    pub async fn at_least(
        &self,
        organisation: Uuid,
        version: i64,
        limit: Duration,
    ) -> Option<Arc<Rulebook>> {
        let mut changed = self.changed.subscribe();
        let reached = || self.of(organisation).filter(|book| book.version >= version);
        let wait = async {
            loop {
                if let Some(book) = reached() {
                    return book;
                }
                if changed.changed().await.is_err() {
                    std::future::pending::<()>().await;
                }
            }
        };
        tokio::time::timeout(limit, wait).await.ok()
    }

    /// Compares all versions with the database and reads what is new.
    ///
    /// # Errors
    /// When the database cannot be read; what is held stays, and ages. One organisation that cannot be
    /// read keeps no other from being confirmed; its error comes back at the end.
    pub async fn poll(&self) -> sqlx::Result<()> {
        let asked = self.now();
        let mut outcome = Ok(());
        for (organisation, version) in in_time(store::versions(&self.pool)).await? {
            match self.of(organisation) {
                Some(book) if book.version >= version => book.confirm(asked),
                _ => {
                    if let Err(error) = self.refresh(organisation).await {
                        tracing::error!(%organisation, %error, "rulebook cannot be read");
                        outcome = one_unread(outcome).and(Err(error));
                    }
                }
            }
        }
        outcome
    }

    /// Reads what is new for one organisation; what did not change is shared with what was held before.
    ///
    /// # Errors
    /// When the database cannot be read.
    pub async fn refresh(&self, organisation: Uuid) -> sqlx::Result<()> {
        let _one_at_a_time = self.refreshing.lock().await;
        let asked = self.now();
        let old = self.snapshot.load_full();
        let held = old.organisations.get(&organisation);
        let known = held.map(|held| held.book.as_ref());
        let own = held.iter().flat_map(|held| held.keys.iter());
        let uses = own.map(|holder| (holder.key, Arc::clone(&holder.used))).collect();
        let Some(loaded) = load::load(&self.pool, organisation, known, &uses).await? else {
            known.inspect(|book| book.confirm(asked));
            return Ok(());
        };
        let Loaded { rulebook, keys } = loaded;
        rulebook.confirm(asked);
        if let Some(keys) = &keys {
            self.flush_gone(organisation, uses, keys).await;
        }
        self.snapshot.store(Arc::new(old.with(rulebook, keys)));
        self.changed.send_replace(());
        Ok(())
    }

    /// Writes the last use of keys that work no longer; nobody would ask for it again.
    async fn flush_gone(&self, organisation: Uuid, mut gone: KeyUses, keys: &Keys) {
        for holder in keys {
            gone.remove(&holder.key);
        }
        let used: Vec<_> =
            gone.into_iter().filter_map(|(key, used)| Some((key, used.unwritten()?))).collect();
        if used.is_empty() {
            return;
        }
        let written = in_time(store::write_last_use(&self.pool, organisation, &used)).await;
        if let Err(error) = written {
            tracing::warn!(%error, "last use of keys not written");
        }
    }

    /// Writes the last use of every key that was used since the last time.
    ///
    /// # Errors
    /// When the database cannot be written.
    pub async fn flush_last_use(&self) -> sqlx::Result<()> {
        let mut used: HashMap<Uuid, Vec<(Arc<KeyHolder>, i64)>> = HashMap::new();
        for Known { holder, .. } in self.snapshot.load().keys.values() {
            if let Some(seconds) = holder.used.unwritten() {
                let holders = used.entry(holder.organisation).or_default();
                holders.push((Arc::clone(holder), seconds));
            }
        }
        for (organisation, holders) in used {
            let keys: Vec<_> = holders.iter().map(|(holder, at)| (holder.key, *at)).collect();
            in_time(store::write_last_use(&self.pool, organisation, &keys)).await?;
            for (holder, at) in holders {
                holder.used.written(at);
            }
        }
        Ok(())
    }

    /// The pool, to follow notices on.
    pub(super) const fn pool(&self) -> &PgPool {
        &self.pool
    }

    fn now(&self) -> i64 {
        i64::try_from(self.epoch.elapsed().as_millis()).unwrap_or(i64::MAX)
    }
}
