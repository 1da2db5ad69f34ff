//! arcbounds keeps every welding arc inside what the company has qualified and what the wire was made
//! for: an HTTP API on PostgreSQL.
//!
//! # Map
//! The **core** is pure: no I/O, no clock, no HTTP, no SQL.
//!
//! | module | holds |
//! |---|---|
//! | [`quantity`] | numbers with units; one comparison for all boundaries |
//! | [`trade`] | welding computations and tables, one file per family |
//! | [`check`] | a setup against an organisation's records: findings, one verdict |
//! | [`qualify`] | what a qualification test allows by the rules of its code |
//! | [`window`] | what may be set: the intersection of all limits |
//!
//! The **shell** is one folder per thing a user meets, each with its router, its endpoints and its SQL:
//! [`consumables`], [`procedures`], [`qualifications`], [`rule_packs`], [`stations`], [`work_orders`],
//! [`organisation`], [`audit`], [`checks`], [`windows`], [`run_plans`], [`advice`], [`calculations`],
//! [`health`]. What they share: [`access`] (keys and roles), [`records`]
//! (revisions of documents), [`wire`] (JSON forms), [`http`] (the edge), [`sheet`] (printing), [`database`], and
//! [`rulebook`], the records in force, compiled in memory.
//!
//! The one rule: **the core never imports the shell.** Arrows point one way, shell → rulebook →
//! `window` → `check` → `trade` → `quantity`; a test reads the core's files and fails otherwise.

pub mod check;
pub mod qualify;
pub mod quantity;
pub mod trade;
pub mod window;

pub mod access;
pub mod advice;
pub mod audit;
pub mod batches;
pub mod calculations;
pub mod checks;
pub mod config;
pub mod consumables;
pub mod database;
pub mod demo;
pub mod health;
pub mod http;
pub mod import;
pub mod organisation;
pub mod procedures;
pub mod qualifications;
pub mod records;
pub mod rule_packs;
pub mod rulebook;
pub mod run_plans;
pub mod server;
pub mod sheet;
pub mod stations;
pub mod welders;
pub mod windows;
pub mod wire;
pub mod work_orders;
