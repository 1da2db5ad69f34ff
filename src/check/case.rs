//! Everything one check may look at: the setup, one procedure revision and one run class of it.

use time::Date;

use super::{
    Book, CodeEdition, DecisionRule, Force, Owner, Ranges, Readings, Setup,
    record::{Condition, Consumable, DataEdition, Procedure, RunLimits, Station, WorkOrder},
};
use crate::{
    quantity::{Kind, Range},
    trade::{Advice, Designation, PositionClaim},
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
            push(pick(&station.ranges), Force::Required, &|| self.station_owner(station));
        }
        if let Some(order) = self.work_order {
            push(pick(&order.ranges), Force::Required, &|| self.work_order_owner(order));
        }
        limits
    }

    /// Code that governs the job: as the setup states it, else as its work order does.
    #[must_use]
    pub fn code(&self) -> Option<&'a CodeEdition> {
        self.setup.job.code.as_ref().or(self.work_order.map(|order| &order.code))
    }

    /// Position, narrowed by the stated progression.
    #[must_use]
    pub fn position(&self) -> Option<PositionClaim> {
        self.setup.job.narrowed_position()
    }

    /// Designations of the consumable; none where it is not known.
    pub fn designations(&self) -> impl Iterator<Item = &'a Designation> + use<'a> {
        self.consumable.into_iter().flat_map(|consumable| &consumable.designations)
    }

    /// The owner of what a designation of the consumable says.
    #[must_use]
    pub fn designation_owner(&self, designation: &Designation) -> Owner {
        Owner::Consumable {
            consumable: self.consumable.map(|c| c.code.clone()).unwrap_or_default(),
            designation: Some(designation.text().to_owned()),
        }
    }

    /// The owner of what the consumable's maker says.
    #[must_use]
    pub fn maker_owner(&self, consumable: &Consumable) -> Owner {
        Owner::Consumable { consumable: consumable.code.clone(), designation: None }
    }

    /// The owner of what the customer requires.
    #[must_use]
    pub fn work_order_owner(&self, order: &WorkOrder) -> Owner {
        Owner::WorkOrder { number: order.number.clone() }
    }

    /// The owner of what a station can do.
    #[must_use]
    pub fn station_owner(&self, station: &Station) -> Owner {
        Owner::Station { station: station.code.clone() }
    }

    /// The owner of a data edition's limits.
    #[must_use]
    pub fn data_owner(&self, edition: &DataEdition) -> Owner {
        let consumable = self.consumable.map(|c| c.code.clone()).unwrap_or_default();
        let document = format!("{}, {}", edition.document, edition.edition);
        Owner::ConsumableData { consumable, document }
    }
}
