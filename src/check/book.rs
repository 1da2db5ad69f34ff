//! One organisation's records in force, as the check reads them.

use std::sync::Arc;

use foldhash::quality::RandomState;
use rpds::HashTrieMapSync;

use super::{
    DecisionRule, GuardFactor, Procedures,
    record::{Batch, Consumable, Station, Welder, WorkOrder},
};
use crate::{quantity::UnitSystem, trade::coded};

coded! {
    /// Where a procedure revision stands in its life.
    pub enum ProcedureState: "state" {
        /// Being written.
        Draft = "draft",
        /// Waiting for a second person.
        InReview = "in-review",
        /// May be welded to.
        Released = "released",
        /// Replaced by a later revision.
        Superseded = "superseded",
        /// Taken out of use.
        Withdrawn = "withdrawn",
    }
}

/// Choices of the organisation that a check depends on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BookSettings {
    /// How uncertainty enters the verdict.
    pub decision_rule: DecisionRule,
    /// How wide a guard band is.
    pub guard_factor: GuardFactor,
    /// Units of answers where the caller asks for none.
    pub units: UnitSystem,
}

/// Records by their code. A clone shares every record, and a change of one copies only the way to it, so
/// that the next book costs what changed.
pub type Records<T> = SharedMap<String, Arc<T>>;

/// A map whose clone shares what did not change. Its hash is keyed anew in every process, and much faster than the
/// standard one: a check looks up some ten records.
pub(crate) type SharedMap<K, V> = HashTrieMapSync<K, V, RandomState>;

/// Records in force. Shared; a changed book is a clone, which shares all that did not change.
#[derive(Debug, Clone, Default)]
pub struct Book {
    /// Choices of the organisation.
    pub settings: BookSettings,
    /// Released revisions.
    pub procedures: Procedures,
    /// State of the newest revision of every procedure, released or not.
    pub states: SharedMap<String, ProcedureState>,
    /// Consumables by code.
    pub consumables: Records<Consumable>,
    /// Stations by code.
    pub stations: Records<Station>,
    /// Work orders by number.
    pub work_orders: Records<WorkOrder>,
    /// Welders and operators by code.
    pub welders: Records<Welder>,
    /// Batches of consumables by code.
    pub batches: Records<Batch>,
}

impl Default for BookSettings {
    fn default() -> Self {
        Self {
            decision_rule: DecisionRule::Simple,
            guard_factor: GuardFactor::ONE,
            units: UnitSystem::Metric,
        }
    }
}
