//! What every handler can reach.

use std::sync::Arc;

use metrics_exporter_prometheus::PrometheusHandle;
use sqlx::PgPool;
use tokio::sync::Semaphore;

use super::Limiter;
use crate::{checks::Rounds, rulebook::Rulebooks};

/// Shared by all handlers; cheap to clone.
#[derive(Clone)]
pub struct AppState {
    /// Connections of the application role.
    pub pool: PgPool,
    /// Rulebooks of all organisations.
    pub rulebooks: Arc<Rulebooks>,
    /// Requests per key.
    pub limiter: Arc<Limiter>,
    /// Where checks are judged.
    pub rounds: Arc<Rounds>,
    /// Leave to walk whole audit chains.
    pub walks: Arc<Semaphore>,
    /// Rendering of the metrics.
    pub metrics: PrometheusHandle,
}
