//! The README's tour and the demo as a user meets them: the real program, its printed keys, its own
//! PostgreSQL. What is expected stands in the README and in the service's own promises, so there is no
//! outside source to cite.

#![cfg(target_os = "linux")]
#![expect(clippy::unwrap_used, clippy::expect_used, reason = "helpers of tests fail the test")]

mod blocks;
mod curl;
mod demo;
mod import;
mod process;
mod subset;
mod walk;
mod windows;
