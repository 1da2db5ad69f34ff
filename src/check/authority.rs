//! Everyone who sets ranges in a case: what they allow, with which force, and their name.

use super::{
    Force, OwnedRanges, Owner, OwnerKind,
    record::{Condition, Consumable, DataEdition, Procedure, RunLimits, Station, WorkOrder},
};

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
    pub const fn ranges(self) -> &'a OwnedRanges {
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
            Self::Procedure { procedure: Procedure { number, revision, .. }, .. } => {
                let name = format_args!("procedure {number} revision {revision}");
                Owner::on_record(OwnerKind::Procedure, name)
            }
            Self::Data { consumable, edition: DataEdition { document, edition, .. }, .. } => {
                let code = consumable.map_or("", |consumable| &consumable.code);
                let name = format_args!("data of consumable {code} ({document}, {edition})");
                Owner::on_record(OwnerKind::ConsumableData, name)
            }
            Self::Station(Station { code, .. }) => {
                Owner::on_record(OwnerKind::Station, format_args!("station {code}"))
            }
            Self::WorkOrder(WorkOrder { number, .. }) => {
                Owner::on_record(OwnerKind::WorkOrder, format_args!("work order {number}"))
            }
        }
    }
}
