//! The pure core against the outside: published values, properties, unit boundaries.

#![expect(clippy::unwrap_used, reason = "helpers of tests fail the test")]

mod burn_off;
mod estimate;
mod joint;
mod joint_properties;
mod melting;
mod properties;
mod published;
mod published_values;
mod symptoms;
mod unit_boundaries;
