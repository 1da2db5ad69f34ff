//! What is asked of the windows beyond the setup, as sent.

use crate::{
    calculations::{Hydrogen, Metal, ShapeFactorsIn, shape_of},
    check::{
        Variable,
        record::{InstrumentAccuracy, InstrumentGap, Station},
    },
    quantity::{
        AreaKind, Cet, Current, CurrentKind, DepositionRateKind, DurationKind,
        ElectricalStickOutKind, HeatInput, Kind, PowerKind, QuantityError, Range, Share, Stress,
        Temperature, Thickness, TravelSpeedKind, Voltage, VoltageKind, WireFeedKind,
    },
    trade::{
        Composition, CoolingLimit, LinearCharacteristic, MethodB, MethodBConstants, Process,
        WeldShape, carbon_equivalents, governing_cet, heat_input_for_cooling_time,
        heat_input_for_preheat,
    },
    window::{Guard, HandSpread, OutputLine, PreheatPlan, Question, no_setting},
    wire::{AnyAccuracy, Code, Errors, Measurand, Place, wire_object},
};

wire_object! {
    /// A limit on the cooling time of the runs.
    pub struct CoolingIn {
        /// The metal; the formulas are for unalloyed and low-alloy ferritic steel.
        pub metal: Metal,
        /// Allowed cooling time from 800 °C to 500 °C.
        pub cooling_time: Range<DurationKind>,
        /// Lowest temperature a run may start at: the preheat.
        pub lowest_temperature: Temperature,
        /// Highest temperature a run may start at: the interpass maximum.
        pub highest_temperature: Temperature,
        /// Thickness of the plate, not the combined thickness.
        pub thickness: Thickness,
        /// Shape of the weld.
        pub shape: Option<WeldShape>,
        /// Shape factors of your own, each one value or an interval, in place of those of a shape.
        pub shape_factors: Option<ShapeFactorsIn>,
    }
}

wire_object! {
    /// A planned preheat, held by the CET method of EN 1011-2: it does from a heat input on only. Give the CET
    /// or the composition, whose upper bound counts.
    pub struct PreheatPlanIn {
        /// The metal; the method is for unalloyed and low-alloy ferritic steel.
        pub metal: Metal,
        /// CET of the parent metal.
        pub cet: Option<Cet>,
        /// Composition of the parent metal.
        pub composition: Option<Composition>,
        /// CET of the weld metal: it governs, with 0.03 % added, where it is the higher one.
        pub weld_metal_cet: Option<Cet>,
        /// Thickness of the thicker part.
        pub thickness: Thickness,
        /// Diffusible hydrogen of the consumable, as used: a class such as `H5`, or a content.
        pub hydrogen: Hydrogen,
        /// Yield strength, to check the range of the method.
        pub yield_strength: Option<Stress>,
        /// Temperature of the shop and of the unheated plate.
        pub ambient: Temperature,
        /// The preheat planned.
        pub preheat: Temperature,
    }
}

wire_object! {
    /// An instrument that a setting will be read with: limits hold for its whole error, times the organisation's
    /// `guard_factor`. Give its accuracy, or name an instrument of the station. Of several for one setting the wider
    /// error counts.
    pub struct GuardIn {
        /// What it reads: `current`, `voltage`, `wire-feed`, `travel-speed`, `electrical-stick-out` or
        /// `arc-power`.
        pub variable: Measurand,
        /// Its accuracy: `of_reading`, `of_full_scale` with `full_scale`, or `absolute`; an expanded uncertainty
        /// (k = 2), or with `meaning` the largest error.
        pub accuracy: Option<AnyAccuracy>,
        /// Code of an instrument of the station.
        pub instrument: Option<Code>,
    }
}

wire_object! {
    /// How far the hand strays to either side, as shares; 5 % of the travel speed and 10 % of the stick-out
    /// where left out (common practice, no source).
    pub struct HandSpreadIn {
        /// Of the travel speed.
        pub travel_speed: Option<Share>,
        /// Of the electrical stick-out.
        pub stick_out: Option<Share>,
    }
}

wire_object! {
    /// Output line of a drooping power source, from open circuit to short circuit, and the currents it is
    /// straight between.
    pub struct OutputLineIn {
        /// Voltage without current.
        pub open_circuit: Voltage,
        /// Current without voltage.
        pub short_circuit: Current,
        /// Lowest current it holds at.
        pub from: Current,
        /// Highest current it holds at.
        pub to: Current,
    }
}

wire_object! {
    /// What is asked of the windows beyond the setup.
    pub struct AskIn {
        /// A limit on the cooling time.
        pub cooling: Option<CoolingIn>,
        /// A preheat that has to do.
        pub preheat: Option<PreheatPlanIn>,
        /// Deposition rate asked for.
        pub deposition_rate: Option<Range<DepositionRateKind>>,
        /// Cross-section asked of one run.
        pub run_area: Option<Range<AreaKind>>,
        /// Instruments whose error is kept inside the limits.
        pub guards: Vec<GuardIn>,
        /// How far the hand strays.
        pub hand_spread: Option<HandSpreadIn>,
        /// Output line of the power source.
        pub output_line: Option<OutputLineIn>,
    }
}

/// A hand that strays farther than this holds nothing.
const MOST_SPREAD: f64 = 0.5;
/// Share of the short-circuit current up to which an output line is followed: beyond it hardly a volt is left.
const STRAIGHT_TO: f64 = 0.99;

impl AskIn {
    /// Puts what is asked into a question; what cannot be used is noted under `at`. Instruments are those of
    /// the station, with the accuracy that a lookup gives.
    pub(super) fn put(
        &self,
        question: &mut Question,
        at: Place<'_>,
        accuracy: &dyn Fn(&GuardIn, Place<'_>, &mut Errors) -> Option<InstrumentAccuracy>,
        errors: &mut Errors,
    ) {
        if let Some(cooling) = &self.cooling {
            question.cooling = cooling.limit(Place::Member(&at, "cooling"), errors);
        }
        if let Some(preheat) = &self.preheat {
            question.preheat = preheat.plan(Place::Member(&at, "preheat"), errors);
        }
        question.deposition_rate = self.deposition_rate;
        question.run_area = self.run_area;
        let guards = Place::Member(&at, "guards");
        for (number, guard) in self.guards.iter().enumerate() {
            let place = Place::Item(&guards, number);
            question.guards.extend(guard.guard(place, accuracy, errors));
        }
        if let Some(spread) = &self.hand_spread {
            let place = Place::Member(&at, "hand_spread");
            question.spread = spread.spread(question.spread, place, errors);
        }
        if let Some(line) = &self.output_line {
            question.output_line = line.line(Place::Member(&at, "output_line"), errors);
        }
    }
}

impl AskIn {
    /// Refuses instruments that read what the process does not set.
    pub(super) fn refuse_unread(
        &self,
        process: Option<Process>,
        at: Place<'_>,
        errors: &mut Errors,
    ) {
        let guards = Place::Member(&at, "guards");
        for (number, guard) in self.guards.iter().enumerate() {
            let place = Place::Item(&guards, number);
            let why = variable_of(guard.variable).and_then(|read| no_setting(read, process));
            if let Some(why) = why {
                let why = format!("{why}; guard a setting of the process");
                errors.note::<()>(Place::Member(&place, "variable"), why);
            }
        }
    }
}

impl CoolingIn {
    fn limit(&self, at: Place<'_>, errors: &mut Errors) -> Option<CoolingLimit> {
        let (shape, _) = match shape_of(self.shape, self.shape_factors.as_ref()) {
            Ok(shape) => shape,
            Err(reason) => return errors.note(Place::Member(&at, "shape"), reason),
        };
        if !self.lowest_temperature.at_most(self.highest_temperature) {
            let place = Place::Member(&at, "lowest_temperature");
            return errors.note(place, "the lowest temperature is above the highest");
        }
        let limit = CoolingLimit {
            metal: self.metal.0,
            time: self.cooling_time,
            lowest_temperature: self.lowest_temperature,
            highest_temperature: self.highest_temperature,
            thickness: self.thickness,
            shape,
        };
        match heat_input_for_cooling_time(&limit) {
            Ok(_) => Some(limit),
            Err(error) => match self.field_at_fault(&error) {
                Some(field) => errors.note(Place::Member(&at, field), error.to_string()),
                None => errors.note(at, error.to_string()),
            },
        }
    }
}

impl PreheatPlanIn {
    fn plan(&self, at: Place<'_>, errors: &mut Errors) -> Option<PreheatPlan> {
        let parent = match (self.cet, &self.composition) {
            (Some(cet), _) => cet,
            (None, Some(steel)) => {
                let high = carbon_equivalents(steel).ok().and_then(|all| all.cet.high);
                let Some(cet) = high else {
                    let why = "CET has no upper bound: state the other elements, or the CET";
                    return errors.note(Place::Member(&at, "composition"), why);
                };
                cet
            }
            (None, None) => {
                return errors
                    .note(Place::Member(&at, "cet"), "the CET or the composition is missing");
            }
        };
        let governing = self.weld_metal_cet.map_or(Ok(parent), |weld| governing_cet(parent, weld));
        let joint = governing.and_then(|cet| {
            Ok::<_, QuantityError>(MethodB {
                metal: self.metal.0,
                cet,
                thickness: self.thickness,
                hydrogen: self.hydrogen.content()?,
                // The method's own heat input is what is sought.
                heat_input: HeatInput::computed(1.0)?,
                composition: self.composition.clone(),
                yield_strength: self.yield_strength,
                ambient: self.ambient,
                constants: MethodBConstants::En1011,
            })
        });
        let joint = match joint {
            Ok(joint) => joint,
            Err(error) => return errors.note(at, error.to_string()),
        };
        match heat_input_for_preheat(&joint, self.preheat) {
            Ok(_) => Some(PreheatPlan { joint, preheat: self.preheat }),
            Err(error) => match self.field_at_fault(&error, joint.cet != parent) {
                Some(field) => errors.note(Place::Member(&at, field), error.to_string()),
                None => errors.note(at, error.to_string()),
            },
        }
    }
}

impl GuardIn {
    fn guard(
        &self,
        at: Place<'_>,
        accuracy: &dyn Fn(&Self, Place<'_>, &mut Errors) -> Option<InstrumentAccuracy>,
        errors: &mut Errors,
    ) -> Option<Guard> {
        let Some(variable) = variable_of(self.variable) else {
            let why = "no setting of the window; such as current or voltage";
            return errors.note(Place::Member(&at, "variable"), why);
        };
        let known = match (&self.accuracy, &self.instrument) {
            (Some(stated), None) => {
                let place = Place::Member(&at, "accuracy");
                stated.of(self.variable).map_or_else(|why| errors.note(place, why), Some)
            }
            (None, Some(_)) => accuracy(self, Place::Member(&at, "instrument"), errors),
            _ => return errors.note(at, "give the accuracy, or an instrument of the station"),
        };
        Some(Guard { variable, accuracy: known? })
    }

    /// The accuracy of the station's instrument on a day; one that nobody knows is no guard band.
    pub(super) fn of_station(
        &self,
        station: Option<&Station>,
        day: time::Date,
        at: Place<'_>,
        errors: &mut Errors,
    ) -> Option<InstrumentAccuracy> {
        let code = self.instrument.as_ref()?.to_string();
        let Some(station) = station else {
            return errors.note(at, "an instrument needs the station it belongs to");
        };
        let found = match self.variable {
            Measurand::Current => accuracy::<CurrentKind>(station, &code, day),
            Measurand::Voltage => accuracy::<VoltageKind>(station, &code, day),
            Measurand::WireFeed => accuracy::<WireFeedKind>(station, &code, day),
            Measurand::TravelSpeed => accuracy::<TravelSpeedKind>(station, &code, day),
            Measurand::StickOut => accuracy::<ElectricalStickOutKind>(station, &code, day),
            Measurand::ArcPower => accuracy::<PowerKind>(station, &code, day),
            // Refused at the variable.
            _ => return None,
        };
        found.map_or_else(|gap| errors.note(at, gap.to_string()), Some)
    }
}

fn accuracy<K: Kind>(
    station: &Station,
    code: &str,
    day: time::Date,
) -> Result<InstrumentAccuracy, InstrumentGap> {
    station.known_accuracy::<K>(code, day).map(|(_, size)| size.into())
}

const fn variable_of(measurand: Measurand) -> Option<Variable> {
    match measurand {
        Measurand::Current => Some(Variable::Current),
        Measurand::Voltage => Some(Variable::Voltage),
        Measurand::WireFeed => Some(Variable::WireFeed),
        Measurand::TravelSpeed => Some(Variable::TravelSpeed),
        Measurand::StickOut => Some(Variable::StickOut),
        Measurand::ArcPower => Some(Variable::ArcPower),
        Measurand::Length | Measurand::Time | Measurand::Temperature | Measurand::GasFlow => None,
    }
}

impl HandSpreadIn {
    fn spread(&self, usual: HandSpread, at: Place<'_>, errors: &mut Errors) -> HandSpread {
        let mut of = |share: Option<Share>, name: &str, usual: Share| match share {
            Some(share) if share.ratio() < 0.0 || share.ratio() > MOST_SPREAD => {
                let why = "a hand strays by 0 to 50 % to either side";
                errors.note::<()>(Place::Member(&at, name), why);
                usual
            }
            given => given.unwrap_or(usual),
        };
        HandSpread {
            travel_speed: of(self.travel_speed, "travel_speed", usual.travel_speed),
            stick_out: of(self.stick_out, "stick_out", usual.stick_out),
        }
    }
}

impl OutputLineIn {
    fn line(&self, at: Place<'_>, errors: &mut Errors) -> Option<OutputLine> {
        let positive = self.open_circuit.volts() > 0.0 && self.from.amperes() > 0.0;
        let ordered = self.from.amperes() < self.to.amperes();
        let highest = STRAIGHT_TO * self.short_circuit.amperes();
        if !positive || !ordered || self.to.amperes() > highest {
            let why = "an output line falls from its open-circuit voltage to its short-circuit current, \
                       and holds between two currents above zero and up to 99 % of that";
            return errors.note(at, why);
        }
        let line = LinearCharacteristic {
            open_circuit: self.open_circuit,
            short_circuit: self.short_circuit,
        };
        Some(OutputLine { line, from: self.from, to: self.to })
    }
}
