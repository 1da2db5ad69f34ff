//! The only way to the database: a transaction of one organisation.

use sqlx::{PgConnection, PgPool, Postgres, Transaction};
use time::{Date, OffsetDateTime};
use uuid::Uuid;

use super::audit::{self, Change};

/// Who acts: a key, and the person it stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Actor {
    /// Organisation.
    pub organisation: Uuid,
    /// Key used; `None` for the command line.
    pub key: Option<Uuid>,
    /// Person behind the key; `None` for stations and shop software.
    pub person: Option<Uuid>,
    /// The day that it is for the organisation; SQL reads it as `current_setting('arcbounds.today')::date`.
    pub today: Date,
}

impl Actor {
    /// The service itself, on an organisation's behalf; its days are those of UTC.
    #[must_use]
    pub fn service(organisation: Uuid) -> Self {
        Self { organisation, key: None, person: None, today: OffsetDateTime::now_utc().date() }
    }
}

/// A transaction that sees one organisation's rows and no others.
///
/// Changes noted with [`note`](Self::note) enter the audit chain when the transaction commits: the
/// chain's head is locked last, so that its numbers have no gap and it is held as short as possible.
#[derive(Debug)]
pub struct TenantTx {
    transaction: Transaction<'static, Postgres>,
    actor: Actor,
    changes: Vec<Change>,
}

/// Where the audit chain stands after a commit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Committed {
    /// Number of the newest rule-changing entry.
    pub rulebook_version: i64,
    /// Whether this commit changed the rules.
    pub rules_changed: bool,
}

impl TenantTx {
    /// Opens a transaction for the actor's organisation.
    ///
    /// # Errors
    /// When the database cannot be reached.
    pub async fn begin(pool: &PgPool, actor: Actor) -> sqlx::Result<Self> {
        Self::of(pool.begin().await?, actor).await
    }

    /// Opens a transaction that only reads, all of it from one moment: several queries see one state
    /// of the records.
    ///
    /// # Errors
    /// When the database cannot be reached.
    pub async fn snapshot(pool: &PgPool, actor: Actor) -> sqlx::Result<Self> {
        let begin = "begin transaction isolation level repeatable read, read only";
        Self::of(pool.begin_with(begin).await?, actor).await
    }

    async fn of(
        mut transaction: Transaction<'static, Postgres>,
        actor: Actor,
    ) -> sqlx::Result<Self> {
        let settings = "select set_config('arcbounds.organisation', $1, true),
                               set_config('arcbounds.today', $2, true)";
        sqlx::query(settings)
            .bind(actor.organisation.to_string())
            .bind(actor.today.to_string())
            .execute(&mut *transaction)
            .await?;
        Ok(Self { transaction, actor, changes: Vec::new() })
    }

    /// The connection, for the SQL of a store.
    pub fn connection(&mut self) -> &mut PgConnection {
        &mut self.transaction
    }

    /// Who acts.
    #[must_use]
    pub const fn actor(&self) -> Actor {
        self.actor
    }

    /// Notes a change for the audit chain.
    pub fn note(&mut self, change: Change) {
        self.changes.push(change);
    }

    /// Ends the transaction without writing anything, and with it the locks it holds. Dropping it does the
    /// same a moment later, when the connection is next looked after.
    ///
    /// # Errors
    /// When the database fails.
    pub async fn abandon(self) -> sqlx::Result<()> {
        self.transaction.rollback().await
    }

    /// Writes the audit entries and commits.
    ///
    /// # Errors
    /// When the database fails; nothing is written then.
    pub async fn commit(mut self) -> sqlx::Result<Committed> {
        let sealed = self.seal().await?;
        self.transaction.commit().await?;
        Ok(sealed)
    }

    /// Writes the audit entries of what was noted so far. From here on the organisation's other writers
    /// wait, so commit soon.
    ///
    /// # Errors
    /// When the database fails; nothing is written then.
    pub async fn seal(&mut self) -> sqlx::Result<Committed> {
        let (actor, changes) = (self.actor, std::mem::take(&mut self.changes));
        audit::append(self.connection(), actor, &changes).await
    }
}
