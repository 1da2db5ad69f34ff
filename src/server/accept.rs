//! Connections: taken one by one, each with patience for its request heads, and let go when the service stops.

use std::{future::Future, io, pin::pin, time::Duration};

use axum::Router;
use hyper::server::conn::http1;
use hyper_util::{
    rt::{TokioIo, TokioTimer},
    server::graceful::GracefulShutdown,
    service::TowerToHyperService,
};
use tokio::{
    net::{TcpListener, TcpStream},
    task::JoinSet,
};

/// How long a client may take to send the head of a request, and to think before the next one.
const HEAD: Duration = Duration::from_mins(1);

/// How long running requests may take to end when the service stops: longer than any but a stream takes.
const FAREWELL: Duration = Duration::from_secs(35);

/// Pause after a connection could not be taken: for want of file descriptors it would fail again at once.
const BREATH: Duration = Duration::from_secs(1);

/// Serves until `stop` resolves, and then lets running requests finish, within [`FAREWELL`].
pub(super) async fn serve(listener: TcpListener, router: Router, stop: impl Future<Output = ()>) {
    serve_patiently(listener, router, stop, (HEAD, FAREWELL)).await;
}

async fn serve_patiently(
    listener: TcpListener,
    router: Router,
    stop: impl Future<Output = ()>,
    (head, farewell): (Duration, Duration),
) {
    let mut server = http1::Builder::new();
    server.timer(TokioTimer::new()).header_read_timeout(head);
    let open = GracefulShutdown::new();
    let mut running = JoinSet::new();
    let mut stop = pin!(stop);
    loop {
        let stream = tokio::select! {
            stream = next(&listener) => stream,
            Some(_) = running.join_next() => continue,
            () = &mut stop => break,
        };
        let service = TowerToHyperService::new(router.clone());
        let connection = open.watch(server.serve_connection(TokioIo::new(stream), service));
        running.spawn(async move {
            if let Err(error) = connection.await {
                tracing::debug!(%error, "connection ended early");
            }
        });
    }
    drop(listener);
    if tokio::time::timeout(farewell, open.shutdown()).await.is_err() {
        tracing::warn!("requests still running are cut off");
        running.shutdown().await;
    }
}

/// The next connection, however long it takes.
async fn next(listener: &TcpListener) -> TcpStream {
    loop {
        match listener.accept().await {
            Ok((stream, _)) => return stream,
            Err(error) if is_of_one_client(&error) => {}
            Err(error) => {
                tracing::error!(%error, "no connection can be taken");
                tokio::time::sleep(BREATH).await;
            }
        }
    }
}

fn is_of_one_client(error: &io::Error) -> bool {
    use io::ErrorKind::{ConnectionAborted, ConnectionRefused, ConnectionReset};
    matches!(error.kind(), ConnectionAborted | ConnectionRefused | ConnectionReset)
}

#[cfg(test)]
mod tests {
    use axum::routing::get;
    use tokio::{
        io::{AsyncReadExt, AsyncWriteExt},
        sync::oneshot,
    };

    use super::*;

    const SHORT: Duration = Duration::from_millis(100);
    const LONG: Duration = Duration::from_hours(1);

    /// A service whose `/slow` never answers, with a way to stop it, and the end of it.
    async fn started(
        patience: (Duration, Duration),
    ) -> (std::net::SocketAddr, oneshot::Sender<()>, tokio::task::JoinHandle<()>) {
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        let address = listener.local_addr().unwrap();
        let never = std::future::pending::<()>;
        let router = Router::new().route("/", get(|| async { "here" })).route("/slow", get(never));
        let (stop, stopped) = oneshot::channel();
        let stopped = async { stopped.await.unwrap() };
        let served = tokio::spawn(serve_patiently(listener, router, stopped, patience));
        (address, stop, served)
    }

    /// All that comes back until the other side hangs up.
    async fn sent(address: std::net::SocketAddr, text: &str) -> String {
        let mut client = TcpStream::connect(address).await.unwrap();
        client.write_all(text.as_bytes()).await.unwrap();
        let mut answer = String::new();
        let _ = client.read_to_string(&mut answer).await;
        answer
    }

    #[tokio::test]
    async fn a_head_that_never_ends_is_hung_up_on() {
        let (address, _stop, _served) = started((SHORT, LONG)).await;
        assert_eq!(sent(address, "GET / HTTP/1.1\r\nHost: x\r\nX-A: b").await, "");
        // As is a client that has its answer and says no more.
        let answer = sent(address, "GET / HTTP/1.1\r\nHost: x\r\n\r\n").await;
        assert!(answer.starts_with("HTTP/1.1 200") && answer.ends_with("here"), "{answer}");
    }

    #[tokio::test]
    async fn a_request_without_end_keeps_the_service_from_stopping_for_a_while_only() {
        let (address, stop, served) = started((LONG, SHORT)).await;
        let slow = tokio::spawn(sent(address, "GET /slow HTTP/1.1\r\nHost: x\r\n\r\n"));
        // An answer to a later connection: the slow one has been taken.
        sent(address, "GET / HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n").await;
        stop.send(()).unwrap();
        served.await.unwrap();
        assert!(TcpStream::connect(address).await.is_err());
        slow.abort();
    }
}
