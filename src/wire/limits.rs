//! Allowed ranges of one owner, as procedures, data editions, stations and work orders write them.

use std::cmp::Ordering;

use crate::{
    check::{OwnedRanges, Ranges},
    http::problem::FieldError,
    quantity::{
        ArcEnergyKind, CurrentKind, ElectricalStickOutKind, GasFlowKind, HeatInputKind, PowerKind,
        Range, TemperatureKind, TravelAngleKind, TravelSpeedKind, VoltageKind, WeaveWidthKind,
        WireFeedKind, WorkAngleKind,
    },
    wire::wire_object,
};

wire_object! {
    /// Allowed ranges, ends included. A variable that is left out is not limited here.
    pub struct Limits {
        /// Welding current.
        pub current: Option<Range<CurrentKind>>,
        /// Arc voltage.
        pub voltage: Option<Range<VoltageKind>>,
        /// Wire feed speed.
        pub wire_feed: Option<Range<WireFeedKind>>,
        /// Travel speed along the joint.
        pub travel_speed: Option<Range<TravelSpeedKind>>,
        /// Electrical stick-out: contact tip to work, recess of the tip counted.
        pub electrical_stick_out: Option<Range<ElectricalStickOutKind>>,
        /// Travel angle; drag is positive, push is negative.
        pub travel_angle: Option<Range<TravelAngleKind>>,
        /// Work angle.
        pub work_angle: Option<Range<WorkAngleKind>>,
        /// Weave width; zero for a stringer.
        pub weave_width: Option<Range<WeaveWidthKind>>,
        /// Preheat temperature.
        pub preheat: Option<Range<TemperatureKind>>,
        /// Interpass temperature.
        pub interpass: Option<Range<TemperatureKind>>,
        /// Shielding gas flow.
        pub gas_flow: Option<Range<GasFlowKind>>,
        /// Arc energy: U·I/v without thermal efficiency. US codes call it heat input.
        pub arc_energy: Option<Range<ArcEnergyKind>>,
        /// Heat input: arc energy times the thermal efficiency factor of the process.
        pub heat_input: Option<Range<HeatInputKind>>,
        /// Mean instantaneous arc power, for waveform-controlled output.
        pub arc_power: Option<Range<PowerKind>>,
    }
}

impl Limits {
    /// What is wrong across the ranges, at this place: before any run the metal has at least the preheat, before the
    /// next one at most the interpass temperature (ISO 13916:2017, clause 3, terms; EN 1011-2:2001, 9.2.1; both from
    /// memory), so the least preheat is not above the highest interpass temperature.
    #[must_use]
    pub fn faults(&self, at: &str) -> Option<FieldError> {
        let least = self.preheat.and_then(|preheat| preheat.min())?;
        let most = self.interpass.and_then(|interpass| interpass.max())?;
        (least.compare(most) == Ordering::Greater).then(|| FieldError {
            pointer: format!("{at}/interpass"),
            detail: format!(
                "metal preheated to at least {least} is never at most {most} before its next run; raise this \
                 maximum or lower the preheat"
            ),
        })
    }

    /// The ranges as the check reads them.
    #[must_use]
    pub fn compile(&self) -> OwnedRanges {
        let ranges = Ranges {
            current: self.current,
            voltage: self.voltage,
            wire_feed: self.wire_feed,
            travel_speed: self.travel_speed,
            stick_out: self.electrical_stick_out,
            travel_angle: self.travel_angle,
            work_angle: self.work_angle,
            weave_width: self.weave_width,
            preheat: self.preheat,
            interpass: self.interpass,
            gas_flow: self.gas_flow,
            arc_energy: self.arc_energy,
            heat_input: self.heat_input,
            arc_power: self.arc_power,
        };
        ranges.into()
    }
}
