//! Everything one check may look at: the setup, one procedure revision and one run class of it.

use time::Date;

use super::{
    Book, DecisionRule, Force, Owner, Ranges, Readings, Setup,
    record::{Condition, Consumable, DataEdition, Procedure, RunLimits, Station, WorkOrder},
};
use crate::{
    quantity::{Kind, Range},
    trade::Advice,
};

/// One setup held to one procedure revision and one run class.
#[derive(Debug, Clone, Copy)]
pub struct Case<'a> {
    /// The proposed setup.
    pub setup: &'a Setup,
    /// Its values, with what follows from them.
    pub readings: &'a Readings,
    /// The organisation's records.
    pub book: &'a Book,
    /// Procedure revision.
    pub procedure: &'a Procedure,
    /// Limits of the run class.
    pub run: &'a RunLimits,
    /// Consumable named by the setup, where the organisation has it.
    pub consumable: Option<&'a Consumable>,
    /// Data edition and condition that match the setup.
    pub data: Option<(&'a DataEdition, &'a Condition)>,
    /// Station named by the setup.
    pub station: Option<&'a Station>,
    /// Work order named by the setup.
    pub work_order: Option<&'a WorkOrder>,
    /// Practice that applies.
    pub practice: &'a [Advice],
    /// Day the setup is judged for.
    pub day: Date,
}

/// One allowed range and who set it.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit<K: Kind> {
    /// The range.
    pub range: Range<K>,
    /// Who set it.
    pub owner: Owner,
    /// Permission or advice.
    pub force: Force,
}

impl<'a> Case<'a> {
    /// How uncertainty enters the verdict.
    #[must_use]
    pub const fn rule(&self) -> DecisionRule {
        self.book.settings.decision_rule
    }

    /// The owner of the procedure's own limits.
    #[must_use]
    pub fn procedure_owner(&self) -> Owner {
        let Procedure { number, revision, .. } = self.procedure;
        Owner::Procedure { number: number.clone(), revision: *revision }
    }

    /// Whether the consumable's printed data is required by the procedure, or advice.
    #[must_use]
    pub const fn data_force(&self) -> Force {
        if self.procedure.calls_up_data { Force::Required } else { Force::Advised }
    }

    /// Every range that any recorded owner sets for one variable, in a fixed order: procedure,
    /// consumable data, station, work order. Practice is advice of its own kind and not in here.
    pub fn limits<K: Kind>(&self, pick: fn(&Ranges) -> Option<Range<K>>) -> Vec<Limit<K>> {
        let mut limits = Vec::new();
        let mut push = |range: Option<Range<K>>, force, owner: &dyn Fn() -> Owner| {
            limits.extend(range.map(|range| Limit { range, owner: owner(), force }));
        };
        push(pick(&self.run.ranges), Force::Required, &|| self.procedure_owner());
        if let Some((edition, condition)) = self.data {
            push(pick(&condition.ranges), self.data_force(), &|| self.data_owner(edition));
        }
        if let Some(station) = self.station {
            let owner = || Owner::Station { station: station.code.clone() };
            push(pick(&station.ranges), Force::Required, &owner);
        }
        if let Some(order) = self.work_order {
            let owner = || Owner::WorkOrder { number: order.number.clone() };
            push(pick(&order.ranges), Force::Required, &owner);
        }
        limits
    }

    /// The owner of a data edition's limits.
    #[must_use]
    pub fn data_owner(&self, edition: &DataEdition) -> Owner {
        let consumable = self.consumable.map(|c| c.code.clone()).unwrap_or_default();
        let document = format!("{}, {}", edition.document, edition.edition);
        Owner::ConsumableData { consumable, document }
    }
}
