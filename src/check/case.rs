//! Everything one check may look at: the setup, one procedure revision and one run class of it.

use time::Date;

use super::{
    Book, DecisionRule, Force, Owner, Ranges, Readings, Setup, Variable,
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
        Authority::Procedure { procedure: self.procedure, run: self.run }.owner()
    }

    /// Everyone who sets ranges here, in a fixed order: procedure, consumable data, station, work
    /// order. Practice is advice of its own kind and not among them.
    pub fn authorities(&self) -> impl Iterator<Item = Authority<'a>> {
        let data = self.data.map(|(edition, condition)| Authority::Data {
            consumable: self.consumable,
            edition,
            condition,
            called_up: self.procedure.calls_up_data,
        });
        let procedure = Authority::Procedure { procedure: self.procedure, run: self.run };
        let station = self.station.map(Authority::Station);
        let order = self.work_order.map(Authority::WorkOrder);
        std::iter::once(procedure).chain(data).chain(station).chain(order)
    }

    /// Every range that somebody sets for one variable.
    pub fn limits<K: Kind>(&self, pick: fn(&Ranges) -> Option<Range<K>>) -> Vec<Limit<K>> {
        let limit = |authority: Authority<'_>| {
            let range = pick(authority.ranges())?;
            Some(Limit { range, owner: authority.owner(), force: authority.force() })
        };
        self.authorities().filter_map(limit).collect()
    }

    /// Whether a permission bounds the variable: the procedure, or data it calls up. What a station
    /// can do or a customer adds is no permission to weld like that.
    #[must_use]
    pub fn is_bounded(&self, variable: Variable) -> bool {
        self.authorities()
            .any(|authority| authority.permits() && authority.ranges().amounts(variable).is_some())
    }
}

/// Somebody who sets ranges in a case.
#[derive(Debug, Clone, Copy)]
pub enum Authority<'a> {
    /// The procedure revision, for the run class.
    Procedure {
        /// The revision.
        procedure: &'a Procedure,
        /// Limits of the run class.
        run: &'a RunLimits,
    },
    /// Printed data of the consumable.
    Data {
        /// The consumable.
        consumable: Option<&'a Consumable>,
        /// The edition.
        edition: &'a DataEdition,
        /// The condition that matches the setup.
        condition: &'a Condition,
        /// Whether the procedure calls the data up.
        called_up: bool,
    },
    /// The station.
    Station(&'a Station),
    /// The work order.
    WorkOrder(&'a WorkOrder),
}

impl<'a> Authority<'a> {
    /// Its ranges.
    #[must_use]
    pub const fn ranges(self) -> &'a Ranges {
        match self {
            Self::Procedure { run, .. } => &run.ranges,
            Self::Data { condition, .. } => &condition.ranges,
            Self::Station(station) => &station.ranges,
            Self::WorkOrder(order) => &order.ranges,
        }
    }

    /// Permission or advice. Printed data is advice unless the procedure calls it up.
    #[must_use]
    pub const fn force(self) -> Force {
        match self {
            Self::Data { called_up: false, .. } => Force::Advised,
            _ => Force::Required,
        }
    }

    /// Whether staying inside is permission to weld.
    #[must_use]
    pub const fn permits(self) -> bool {
        matches!(self, Self::Procedure { .. } | Self::Data { called_up: true, .. })
    }

    /// Its name in findings.
    #[must_use]
    pub fn owner(self) -> Owner {
        match self {
            Self::Procedure { procedure, .. } => Owner::Procedure {
                number: procedure.number.clone(),
                revision: procedure.revision,
            },
            Self::Data { consumable, edition, .. } => Owner::ConsumableData {
                consumable: consumable.map(|consumable| consumable.code.clone()).unwrap_or_default(),
                document: format!("{}, {}", edition.document, edition.edition),
            },
            Self::Station(station) => Owner::Station { station: station.code.clone() },
            Self::WorkOrder(order) => Owner::WorkOrder { number: order.number.clone() },
        }
    }
}
