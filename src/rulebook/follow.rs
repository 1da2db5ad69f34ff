//! Keeping up with other replicas: a notice at once, a poll in any case.

use std::{sync::Arc, time::Duration};

use sqlx::postgres::PgListener;
use uuid::Uuid;

use super::{Rulebooks, holder::one_unread};

/// How often versions are compared without a notice.
const POLL: Duration = Duration::from_secs(2);

/// How often the last use of keys is written.
const FLUSH: Duration = Duration::from_secs(30);

/// Follows changes for as long as it is awaited; every failure is logged and tried again.
pub async fn follow(rulebooks: Arc<Rulebooks>) {
    tokio::join!(listen_again(&rulebooks), poll(&rulebooks), flush(&rulebooks));
}

/// Listens; after a lost connection, again.
async fn listen_again(rulebooks: &Rulebooks) {
    loop {
        if let Err(error) = listen(rulebooks).await {
            tracing::warn!(%error, "rulebook notices lost; the poll goes on");
        }
        tokio::time::sleep(POLL).await;
    }
}

/// Writes the last use of keys now and then.
async fn flush(rulebooks: &Rulebooks) {
    loop {
        tokio::time::sleep(FLUSH).await;
        if let Err(error) = rulebooks.flush_last_use().await {
            tracing::warn!(%error, "last use of keys not written");
        }
    }
}

/// Refreshes the organisation named by each notice.
async fn listen(rulebooks: &Rulebooks) -> sqlx::Result<()> {
    let mut listener = PgListener::connect_with(rulebooks.pool()).await?;
    listener.listen("arcbounds_rulebook").await?;
    // What changed before the listener stood is found here.
    one_unread(rulebooks.poll().await)?;
    loop {
        let notice = listener.recv().await?;
        if let Ok(organisation) = notice.payload().parse::<Uuid>() {
            let refreshed = rulebooks.refresh(organisation).await;
            one_unread(refreshed.inspect_err(|error| {
                tracing::error!(%organisation, %error, "rulebook cannot be read");
            }))?;
        }
    }
}

/// Polls for ever.
async fn poll(rulebooks: &Rulebooks) {
    loop {
        tokio::time::sleep(POLL).await;
        if let Err(error) = rulebooks.poll().await {
            tracing::warn!(%error, "rulebook versions not confirmed");
        }
    }
}
