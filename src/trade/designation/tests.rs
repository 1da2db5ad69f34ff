//! Decoded designations against the tables of the standards.
