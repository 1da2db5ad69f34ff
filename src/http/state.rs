//! What every handler can reach.

use std::{ops::Deref, sync::Arc};

use metrics_exporter_prometheus::PrometheusHandle;
use sqlx::PgPool;
use tokio::sync::Semaphore;

use crate::{access::Limiter, rulebook::Rulebooks};

/// Shared by all handlers. Every request clones it some times, which counts one holder more.
#[derive(Clone)]
pub struct AppState(Arc<Reach>);

/// All that handlers reach.
pub struct Reach {
    /// Connections of the application role.
    pub pool: PgPool,
    /// Rulebooks of all organisations.
    pub rulebooks: Arc<Rulebooks>,
    /// Requests per key.
    pub limiter: Limiter,
    /// Leave to walk whole audit chains.
    pub walks: Arc<Semaphore>,
    /// Rendering of the metrics.
    pub metrics: PrometheusHandle,
}

impl From<Reach> for AppState {
    fn from(reach: Reach) -> Self {
        Self(Arc::new(reach))
    }
}

impl Deref for AppState {
    type Target = Reach;

    fn deref(&self) -> &Reach {
        &self.0
    }
}
