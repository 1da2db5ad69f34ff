//! The canonical document of a station.

use time::Date;

use crate::{
    check::record::{GunRating, Instrument, RatedPoint, Station, Steps},
    quantity::{Current, CurrentKind, Diameter, Mass, Share, Voltage, VoltageKind, WireFeedKind},
    trade::{ErrorModel, Waveform},
    wire::{AnyAccuracy, Code, Limits, Measurand, Step, wire_object},
};

wire_object! {
    /// A point of the rating plate.
    pub struct RatedPointDocument {
        /// Rated current.
        pub current: Current,
        /// Rated load voltage.
        pub voltage: Option<Voltage>,
        /// Duty cycle of a ten-minute period.
        pub duty: Share,
    }
}

wire_object! {
    /// Rating of the gun.
    pub struct GunRatingDocument {
        /// Rated current.
        pub current: Current,
        /// Duty cycle of a ten-minute period.
        pub duty: Share,
    }
}

wire_object! {
    /// A measuring instrument of the station.
    pub struct InstrumentDocument {
        /// Code of the instrument.
        pub code: Code,
        /// What it measures.
        pub measures: Measurand,
        /// `{"of_reading": "2.5 %"}`, `{"of_full_scale": "1 %", "full_scale": "500 A"}` or
        /// `{"absolute": "5 A"}`: an expanded uncertainty, at `coverage_factor` 2 where that is left out. With
        /// `"meaning": "maximum-permissible-error"` the largest error instead. Left out where nobody knows.
        pub accuracy: Option<AnyAccuracy>,
        /// Last day its calibration holds.
        pub calibration_due: Option<Date>,
    }
}

wire_object! {
    /// Smallest steps of what is dialled; a dial that is left out has none.
    pub struct StepsDocument {
        /// Step of the current.
        pub current: Option<Step<CurrentKind>>,
        /// Step of the voltage.
        pub voltage: Option<Step<VoltageKind>>,
        /// Step of the wire feed speed.
        pub wire_feed: Option<Step<WireFeedKind>>,
    }
}

wire_object! {
    /// One welding place: power source, feeder, gun and instruments.
    pub struct StationDocument {
        /// Code in your organisation.
        pub code: Code,
        /// Name in words.
        pub name: String,
        /// Outputs the power source can be switched to.
        pub waveforms: Vec<Waveform>,
        /// Rating plate.
        pub rated: Vec<RatedPointDocument>,
        /// Rating of the gun.
        pub gun: Option<GunRatingDocument>,
        /// Diameters the feeder's rolls take.
        pub diameters: Vec<Diameter>,
        /// Heaviest spool the feeder takes.
        pub heaviest_spool: Option<Mass>,
        /// What the source and the feeder can be set to.
        pub limits: Option<Limits>,
        /// Smallest steps of what is dialled.
        pub steps: Option<StepsDocument>,
        /// Instruments.
        pub instruments: Vec<InstrumentDocument>,
        /// Anything else worth knowing.
        pub note: Option<String>,
    }
}

impl StationDocument {
    /// As the check reads it.
    #[must_use]
    pub fn compile(&self, code: &str) -> Station {
        Station {
            code: code.to_owned(),
            name: self.name.clone(),
            waveforms: self.waveforms.clone(),
            rated: self.rated.iter().map(RatedPointDocument::compile).collect(),
            gun: self.gun.as_ref().map(|gun| GunRating { current: gun.current, duty: gun.duty }),
            diameters: self.diameters.clone(),
            heaviest_spool: self.heaviest_spool,
            ranges: self.limits.as_ref().map(Limits::compile).unwrap_or_default(),
            instruments: self.instruments.iter().map(InstrumentDocument::compile).collect(),
            steps: self.steps.as_ref().map(StepsDocument::compile).unwrap_or_default(),
        }
    }
}

impl StepsDocument {
    fn compile(&self) -> Steps {
        Steps {
            current: self.current.as_ref().map(Step::quantity),
            voltage: self.voltage.as_ref().map(Step::quantity),
            wire_feed: self.wire_feed.as_ref().map(Step::quantity),
        }
    }
}

impl RatedPointDocument {
    const fn compile(&self) -> RatedPoint {
        RatedPoint { current: self.current, voltage: self.voltage, duty: self.duty }
    }
}

impl InstrumentDocument {
    fn compile(&self) -> Instrument {
        Instrument {
            code: self.code.to_string(),
            accuracy: self.accuracy.as_ref().and_then(|accuracy| accuracy.of(self.measures).ok()),
            model: self.accuracy.as_ref().map_or(ErrorModel::Expanded, AnyAccuracy::model),
            calibration_due: self.calibration_due,
        }
    }
}
