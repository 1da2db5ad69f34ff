//! From a qualification test to what may be welded: the record of a test, the rules of codes as data, and
//! the engine that turns both into limits with their clauses. Pure.

pub mod record;
