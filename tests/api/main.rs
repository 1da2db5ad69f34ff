//! The service over HTTP: the real router and server, on a real PostgreSQL.

#![expect(clippy::unwrap_used, reason = "helpers of tests fail the test")]

mod checks;
mod edges;
mod every_operation;
mod keys;
mod openapi;
mod support;
