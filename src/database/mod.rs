//! Everything between the service and PostgreSQL.

pub mod private;
