//! Roles of a key.

use crate::trade::coded;

coded! {
    /// What a key may do. A key may have several roles.
    pub enum Role: "role" {
        /// Reads records and asks for checks.
        Reader = "reader",
        /// A kiosk at one station: reads, asks for checks, notes what is done with packets of filler.
        Station = "station",
        /// Shop software: reads, asks for checks, writes work orders, notes what is done with packets of filler.
        Integrator = "integrator",
        /// Writes consumables, procedures and stations.
        Author = "author",
        /// Releases, returns, withdraws and signs.
        Approver = "approver",
        /// Looks after people, keys and settings.
        Admin = "admin",
    }
}
