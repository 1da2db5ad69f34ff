//! Work that takes long, away from the threads that answer others.

use std::{sync::LazyLock, thread::available_parallelism};

use tokio::{sync::Semaphore, task::spawn_blocking};

use super::problem::Problem;

/// As much of it at once as there are processors; the rest waits for its turn.
static TURNS: LazyLock<Semaphore> =
    LazyLock::new(|| Semaphore::new(available_parallelism().map_or(1, Into::into)));

/// Does it on a thread of its own. A caller that hangs up leaves it to end by itself.
///
/// # Errors
/// Work that panics.
pub async fn aside<T: Send + 'static>(
    work: impl FnOnce() -> T + Send + 'static,
) -> Result<T, Problem> {
    let turn = TURNS.acquire().await.map_err(Problem::internal)?;
    let done = spawn_blocking(move || {
        let _until_done = turn;
        work()
    });
    done.await.map_err(Problem::internal)
}
