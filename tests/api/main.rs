//! The service over HTTP: the real router and server, on a real PostgreSQL.

#![expect(clippy::unwrap_used, reason = "helpers of tests fail the test")]

mod administration;
mod advice;
mod attachments;
mod audit;
mod audit_hashes;
mod audit_proof;
mod batches;
mod behind;
mod calculation_examples;
mod calculations_arc;
mod calculations_cooling;
mod calculations_heat;
mod calculations_joint;
mod calculations_power_source;
mod calculations_steel;
mod checks;
mod conditions;
mod edges;
mod every_operation;
mod instruments;
mod keys;
mod life;
mod lists;
mod openapi;
mod own_rule_packs;
mod practice;
mod prequalified;
mod procedure_support;
mod projections;
mod qualification_ranges;
mod qualifications;
mod quantities;
mod retries;
mod rule_packs;
mod rulebook;
mod run_plans;
mod stream;
mod succession;
mod support;
mod tenancy;
mod welders;
mod windows;
mod windows_solved;
