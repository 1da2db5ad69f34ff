//! The HTTP client for requests of our own.

use std::time::Duration;

/// A client that gives up after this time. TLS is rustls with ring, which has to be named once a process.
///
/// # Errors
/// When the machine's root certificates cannot be read.
pub(crate) fn client(patience: Duration) -> reqwest::Result<reqwest::Client> {
    // A second installation fails and is harmless.
    let _ = rustls::crypto::ring::default_provider().install_default();
    reqwest::Client::builder().timeout(patience).build()
}
