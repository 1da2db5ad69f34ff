//! The pure core against the outside: published values, properties, unit boundaries.

#![expect(clippy::unwrap_used, reason = "helpers of tests fail the test")]

mod any_input;
mod burn_off;
mod composition;
mod conformity;
mod cooling;
mod cooling_properties;
mod estimate;
mod heat_records;
mod joint;
mod joint_properties;
mod melting;
mod power_source;
mod preheat;
mod preheat_aws;
mod preheat_properties;
mod properties;
mod published;
mod published_values;
mod qualification;
mod reference_libraries;
mod symptoms;
mod unit_boundaries;
mod welders;
mod windows;
mod windows_conflicts;
mod windows_guards;
mod windows_properties;
mod windows_reference;
mod windows_support;
