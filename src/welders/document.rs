//! The canonical document of a welder: codes and test pieces, no name.

use time::Date;
use uuid::Uuid;

use super::store::EventRow;
use crate::{
    check::record::{Welder, WelderQualification},
    database::document_hash,
    http::problem::FieldError,
    qualify::{
        record::{Mechanisation, ProductForm, Transfer},
        welder::{
            Confirmation, ConfirmedBy, FillerGroup, FillerType, Layers, QualificationDates,
            Revalidation, Sensing, TestPosition, ViewOfArc, WelderBacking, WelderTest, welder_pack,
            welder_packs,
        },
    },
    quantity::{OutsideDiameter, Thickness, UnitSystem},
    trade::{Coded, JointKind, Process, Progression},
    wire::{Code, ToWire, wire_object},
};

use super::EventKind;

wire_object! {
    /// One test of a welder or operator, as the certificate states it. What was not recorded is left out, and
    /// nothing is allowed on it.
    pub struct WelderQualificationDocument {
        /// Id within this record.
        pub id: Code,
        /// Key of the rule pack: code and edition of the qualification, such as `iso-9606-1-2012`.
        pub pack: String,
        /// Number of the certificate.
        pub certificate: Option<String>,
        /// Day the test piece was welded.
        pub welded_on: Date,
        /// Units of the certificate: `metric` where left out.
        pub units: Option<UnitSystem>,
        /// Option of revalidation that the certificate states, such as `b` of ISO 9606-1, 9.3.
        pub revalidation: Option<String>,
        /// Process.
        pub process: Process,
        /// Degree of mechanisation.
        pub mechanisation: Option<Mechanisation>,
        /// Metal transfer.
        pub transfer: Option<Transfer>,
        /// Plate or pipe.
        pub product: Option<ProductForm>,
        /// Butt or fillet.
        pub weld: Option<JointKind>,
        /// Filler group, ISO 9606-1.
        pub filler_group: Option<FillerGroup>,
        /// Filler type, ISO 9606-1.
        pub filler_type: Option<FillerType>,
        /// F-Number.
        pub f_number: Option<u32>,
        /// Thickness deposited in a butt weld.
        pub deposit: Option<Thickness>,
        /// Thickness of the material.
        pub thickness: Option<Thickness>,
        /// Outside diameter of a pipe.
        pub outside_diameter: Option<OutsideDiameter>,
        /// Positions of the test pieces: ISO 6947 symbols, or US test positions where the code uses them.
        pub positions: Vec<TestPosition>,
        /// Direction of vertical welding.
        pub progression: Option<Progression>,
        /// Backing of the root.
        pub backing: Option<WelderBacking>,
        /// Single layer or several.
        pub layers: Option<Layers>,
        /// Number of layers.
        pub layer_count: Option<u32>,
        /// Type of welding unit.
        pub welding_unit: Option<String>,
        /// Arc or joint sensor.
        pub sensing: Option<Sensing>,
        /// How the operator sees the arc.
        pub view_of_arc: Option<ViewOfArc>,
    }
}

wire_object! {
    /// A welder or operator under a code. The name is kept apart: see the welder's `name`.
    pub struct WelderDocument {
        /// Code in your organisation: the stamp, or another pseudonym.
        pub code: Code,
        /// Your own reference, without personal data: it is hashed into the audit chain and stays.
        pub reference: Option<String>,
        /// Id of the person with keys of this service, who can then confirm nothing of their own.
        pub person: Option<Uuid>,
        /// Qualifications.
        pub qualifications: Vec<WelderQualificationDocument>,
    }
}

impl WelderQualificationDocument {
    /// The test piece as the core reads it.
    #[must_use]
    pub fn test(&self) -> WelderTest {
        WelderTest {
            welded_on: self.welded_on,
            system: self.units.unwrap_or(UnitSystem::Metric),
            process: self.process,
            mechanisation: self.mechanisation,
            transfer: self.transfer,
            product: self.product,
            weld: self.weld,
            filler_group: self.filler_group,
            filler_type: self.filler_type,
            f_number: self.f_number,
            deposit: self.deposit,
            thickness: self.thickness,
            outside_diameter: self.outside_diameter,
            positions: self.positions.clone(),
            progression: self.progression,
            backing: self.backing,
            layers: self.layers,
            layer_count: self.layer_count,
            welding_unit: self.welding_unit.clone(),
            sensing: self.sensing,
            view: self.view_of_arc,
        }
    }

    /// Hash of the test as written: a signature counts for what was signed only.
    #[must_use]
    pub fn hash(&self) -> Vec<u8> {
        document_hash(&self.to_wire())
    }

    /// Events of this qualification of a kind.
    fn happened<'a>(
        &self,
        events: &'a [EventRow],
        kind: EventKind,
    ) -> impl Iterator<Item = &'a EventRow> {
        events.iter().filter(move |event| {
            event.qualification == self.id.as_str() && event.event == kind.code()
        })
    }

    /// What decides how long it holds.
    pub(super) fn dates(&self, events: &[EventRow]) -> QualificationDates {
        let confirmation = |event: &EventRow| Confirmation {
            on: event.on_day,
            by: if event.by_use { ConfirmedBy::Use } else { ConfirmedBy::Signature },
        };
        let revalidation = |event: &EventRow| Revalidation {
            on: event.on_day,
            option: event.option.clone().unwrap_or_default(),
            welds: event.welds.clone(),
        };
        let withdrawn = self.happened(events, EventKind::Withdrawn);
        QualificationDates {
            welded_on: self.welded_on,
            option: self.revalidation.clone(),
            confirmations: self.happened(events, EventKind::Confirmed).map(confirmation).collect(),
            revalidations: self
                .happened(events, EventKind::Revalidated)
                .map(revalidation)
                .collect(),
            withdrawn_on: withdrawn.map(|event| event.on_day).min(),
        }
    }

    /// As the check reads it; `None` where its pack is not there any more.
    fn compile(&self, events: &[EventRow]) -> Option<WelderQualification> {
        let pack = welder_pack(&self.pack)?;
        let hash = self.hash();
        Some(WelderQualification {
            id: self.id.to_string(),
            range: pack.range(&self.test()),
            dates: self.dates(events),
            range_signed: self
                .happened(events, EventKind::RangeSigned)
                .any(|event| event.test_hash == hash),
        })
    }
}

impl WelderDocument {
    /// As the check reads it.
    #[must_use]
    pub fn compile(&self, code: &str, events: &[EventRow]) -> Welder {
        let qualifications = self.qualifications.iter().filter_map(|one| one.compile(events));
        Welder { code: code.to_owned(), qualifications: qualifications.collect() }
    }

    /// What is wrong across fields.
    pub(super) fn faults(&self) -> Vec<FieldError> {
        let mut faults = Vec::new();
        for (index, one) in self.qualifications.iter().enumerate() {
            let mut fault = |member: &str, detail: String| {
                let pointer = format!("/qualifications/{index}/{member}");
                faults.push(FieldError { pointer, detail });
            };
            if self.qualifications.iter().take(index).any(|earlier| earlier.id == one.id) {
                fault("id", format!("there is another qualification \"{}\"", one.id));
            }
            match welder_pack(&one.pack) {
                None => {
                    let known: Vec<_> =
                        welder_packs().iter().map(|pack| pack.key.as_str()).collect();
                    fault("pack", format!("no such pack; known are {}", known.join(", ")));
                }
                Some(pack) => {
                    let unknown = one.revalidation.as_ref().filter(|it| pack.option(it).is_none());
                    if let Some(sign) = unknown {
                        fault("revalidation", format!("{} has no option \"{sign}\"", pack.code));
                    }
                    let system = one.units.unwrap_or(UnitSystem::Metric);
                    if !pack.systems.contains(&system) {
                        let units = system.code();
                        fault("units", format!("{} has no column of {units} units", pack.code));
                    }
                }
            }
        }
        faults
    }
}
