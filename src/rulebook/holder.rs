//! All rulebooks of this process, swapped as a whole; readers take no lock.

use std::{
    collections::HashMap,
    sync::{
        Arc,
        atomic::{AtomicI64, Ordering},
    },
    time::{Duration, Instant},
};

use arc_swap::ArcSwap;
use sqlx::PgPool;
use time::OffsetDateTime;
use tokio::sync::{Mutex, watch};
use uuid::Uuid;

use super::{
    Rulebook,
    load::{self, Keys, LastUses},
    store,
};
use crate::access::{KeyHash, Role};

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
    /// Unix seconds of the last use; flushed to the database in batches.
    pub(super) last_used: Arc<AtomicI64>,
}

impl KeyHolder {
    /// Whether its last day is over.
    #[must_use]
    pub fn has_expired(&self) -> bool {
        self.expires_at.is_some_and(|end| end <= OffsetDateTime::now_utc())
    }

    /// Notes that the key was used.
    pub fn touch(&self) {
        self.last_used.store(OffsetDateTime::now_utc().unix_timestamp(), Ordering::Relaxed);
    }
}

/// Longest wait for the database: a connection that hangs must not keep later changes from being read.
const PATIENCE: Duration = Duration::from_secs(20);

async fn in_time<T>(work: impl Future<Output = sqlx::Result<T>>) -> sqlx::Result<T> {
    tokio::time::timeout(PATIENCE, work).await.unwrap_or(Err(sqlx::Error::PoolTimedOut))
}

/// What readers see: one consistent picture.
#[derive(Debug, Default)]
struct Snapshot {
    books: HashMap<Uuid, Arc<Rulebook>>,
    keys: HashMap<KeyHash, Arc<KeyHolder>>,
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
    /// Reads all rulebooks once.
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
        rulebooks.poll().await?;
        Ok(rulebooks)
    }

    /// Rulebook of one organisation.
    #[must_use]
    pub fn of(&self, organisation: Uuid) -> Option<Arc<Rulebook>> {
        self.snapshot.load().books.get(&organisation).cloned()
    }

    /// Organisations that have a rulebook.
    #[must_use]
    pub fn organisations(&self) -> Vec<Uuid> {
        self.snapshot.load().books.keys().copied().collect()
    }

    /// Whom a key stands for; `None` for unknown and revoked ones.
    #[must_use]
    pub fn holder(&self, hash: &KeyHash) -> Option<Arc<KeyHolder>> {
        self.snapshot.load().keys.get(hash).cloned()
    }

    /// Whether the key still works: it was neither revoked nor rotated since, and has not expired.
    #[must_use]
    pub fn works(&self, holder: &KeyHolder) -> bool {
        self.holder(&holder.hash).is_some_and(|now| !now.has_expired())
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
                        outcome = Err(error);
                    }
                }
            }
        }
        outcome
    }

    /// Reads what is new for one organisation.
    ///
    /// # Errors
    /// When the database cannot be read.
    pub async fn refresh(&self, organisation: Uuid) -> sqlx::Result<()> {
        let _one_at_a_time = self.refreshing.lock().await;
        let asked = self.now();
        let known = self.of(organisation);
        let old = self.snapshot.load_full();
        let own = old.keys.values().filter(|holder| holder.organisation == organisation);
        let last_uses = own.map(|holder| (holder.key, Arc::clone(&holder.last_used))).collect();
        let loading = load::load(&self.pool, organisation, known.as_deref(), &last_uses);
        let (rulebook, keys) = in_time(loading).await?;
        rulebook.confirm(asked);
        self.flush_gone(organisation, last_uses, &keys).await;
        let mut books = old.books.clone();
        books.insert(organisation, Arc::new(rulebook));
        let mut all_keys: HashMap<_, _> = old
            .keys
            .iter()
            .filter(|(_, holder)| holder.organisation != organisation)
            .map(|(hash, holder)| (*hash, Arc::clone(holder)))
            .collect();
        all_keys.extend(keys.into_iter().map(|(hash, holder)| (hash, Arc::new(holder))));
        self.snapshot.store(Arc::new(Snapshot { books, keys: all_keys }));
        self.changed.send_replace(());
        Ok(())
    }

    /// Writes the last use of keys that work no longer; nobody would ask for it again.
    async fn flush_gone(&self, organisation: Uuid, mut gone: LastUses, keys: &Keys) {
        for (_, holder) in keys {
            gone.remove(&holder.key);
        }
        let used: Vec<_> = gone
            .into_iter()
            .map(|(key, at)| (key, at.load(Ordering::Relaxed)))
            .filter(|(_, seconds)| *seconds > 0)
            .collect();
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
        for holder in self.snapshot.load().keys.values() {
            let seconds = holder.last_used.load(Ordering::Relaxed);
            if seconds > 0 {
                let holders = used.entry(holder.organisation).or_default();
                holders.push((Arc::clone(holder), seconds));
            }
        }
        for (organisation, holders) in used {
            let keys: Vec<_> = holders.iter().map(|(holder, at)| (holder.key, *at)).collect();
            in_time(store::write_last_use(&self.pool, organisation, &keys)).await?;
            for (holder, at) in holders {
                // Unless it was used again in the meantime.
                let relaxed = Ordering::Relaxed;
                let _ = holder.last_used.compare_exchange(at, 0, relaxed, relaxed);
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
