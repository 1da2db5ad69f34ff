//! A proposed setup as sent, and its one conversion to what the check reads.

use time::{Date, OffsetDateTime};

use crate::{
    check::{
        BaseMetal, Filler, Given, Job, Origin, ProcedureReference, Settings, Setup, WelderClaim,
        record::{InstrumentLack, Station},
    },
    qualifications::FluxDocument,
    qualify::record::{CurrentForm, Mechanisation, ProductForm, Transfer},
    quantity::{
        ArcEnergyKind, Cet, CurrentKind, Diameter, DurationKind, ElectricalStickOutKind,
        EnergyKind, GasFlowKind, HeatInputKind, Kind, Leg, Mass, OutsideDiameter, PowerKind,
        RunLength, RunLengthKind, TemperatureKind, Thickness, Throat, TipRecessKind,
        TravelAngleKind, TravelSpeedKind, VisibleStickOutKind, VoltageKind, WeaveWidthKind,
        WireFeedKind, WorkAngleKind,
    },
    trade::{
        BeadPattern, Fillet, Gas, JointKind, MetalGroup, Polarity, PositionClaim, PreheatCategory,
        Process, Progression, RunClass, Waveform,
    },
    wire::{
        Code, CodeEditionDocument, DemandsDocument, Errors, Part, Place, Stated, WelderWorkIn,
        wire_object,
    },
};

wire_object! {
    /// One part of the joint.
    pub struct BaseMetalIn {
        /// Group or sub-group of ISO/TR 15608, such as `1.2`.
        pub group: Option<MetalGroup>,
        /// Form of the part. A procedure that names forms needs it.
        pub form: Option<ProductForm>,
        /// Thickness at the joint.
        pub thickness: Option<Thickness>,
        /// Outside diameter of a pipe; the smaller side of a hollow section. A procedure that covers a range of it
        /// needs it.
        pub outside_diameter: Option<OutsideDiameter>,
        /// Carbon equivalent CET, its upper bound: the preheat is then held to EN 1011-2 Method B with the
        /// hydrogen that the filler has.
        pub cet: Option<Cet>,
        /// Preheat category of AWS D1.1 that lists the steel for low-hydrogen processes: `B`, `C` or `D`.
        pub preheat_category: Option<PreheatCategory>,
        /// Whether category `A` lists the steel too, for electrodes that are not low-hydrogen.
        pub in_category_a: Option<bool>,
    }
}

wire_object! {
    /// What is to be welded.
    pub struct JobIn {
        /// Governing code; the work order's where left out.
        pub code: Option<CodeEditionDocument>,
        /// Butt or fillet.
        pub joint: Option<JointKind>,
        /// Position: ISO 6947 (`PF`), US test position (`3G`, `3F`) or US letter (`F`, `H`, `V`, `O`).
        pub position: Option<String>,
        /// Direction of a vertical run.
        pub progression: Option<Progression>,
        /// Every part joined, two at least: two parts alike are listed twice, and one stated alone does not stand
        /// for the other.
        pub base_metals: Vec<BaseMetalIn>,
        /// Thickness that this process deposits in all its runs. A procedure that covers a range of it needs it.
        pub deposited_thickness: Option<Thickness>,
        /// Which run of the joint.
        pub run_class: Option<RunClass>,
        /// Fillet leg asked for; a butt weld has none. A procedure that covers a range of legs or throats needs it.
        pub leg: Option<Leg>,
        /// Throat of it, in place of the leg: of a flat face and equal legs.
        pub throat: Option<Throat>,
        /// Length of weld to be made, for arc time, wire and gas.
        pub weld_length: Option<RunLength>,
        /// Share of any ten minutes that the arc burns, for the duty cycle of the station's power source; more than
        /// 0 % and at most 100 %.
        pub arc_on_share: Option<Part>,
        /// Tests that the job demands, beside those the work order names.
        pub demands: Option<DemandsDocument>,
    }
}

wire_object! {
    /// Wire or electrode, gas and polarity.
    pub struct FillerIn {
        /// Code of the consumable.
        pub consumable: Option<Code>,
        /// Code of the batch it is taken from.
        pub batch: Option<Code>,
        /// Portion of the batch, such as the packet or the quiver; the only one where left out.
        pub portion: Option<Code>,
        /// Nominal diameter.
        pub diameter: Option<Diameter>,
        /// Mass of the full spool.
        pub spool: Option<Mass>,
        /// Shielding gas: group, mixture, or `none`.
        pub gas: Option<Gas>,
        /// Gas behind the root: group, mixture, or `none`.
        pub backing_gas: Option<Gas>,
        /// Flux of a submerged arc; what the procedure states of it has to stand here too.
        pub flux: Option<Box<FluxDocument>>,
        /// Polarity.
        pub polarity: Option<Polarity>,
    }
}

wire_object! {
    /// What is dialled, what follows, and what the hand holds. Most are left out in any one setup, so each
    /// stands in a box: a setup is moved often.
    pub struct SettingsIn {
        /// Output of the power source.
        pub waveform: Option<Waveform>,
        /// Stringer or weave.
        pub bead: Option<BeadPattern>,
        /// Metal transfer through the arc.
        pub transfer: Option<Transfer>,
        /// Degree of mechanisation. Where left out, that of the welder's work.
        pub mechanisation: Option<Mechanisation>,
        /// Steady or pulsed current.
        pub current_form: Option<CurrentForm>,
        /// Number of electrodes that burn together. `current`, `voltage` and `wire_feed` are then those of each, an
        /// interval where they differ; `arc_power` and `run_energy` are those of all together, and energy per
        /// length is computed from these alone.
        pub electrodes: Option<u8>,
        /// Welding current.
        pub current: Option<Box<Stated<CurrentKind>>>,
        /// Arc voltage, as near the arc as it is read.
        pub voltage: Option<Box<Stated<VoltageKind>>>,
        /// Wire feed speed.
        pub wire_feed: Option<Box<Stated<WireFeedKind>>>,
        /// Travel speed along the joint; or give run length and arc time.
        pub travel_speed: Option<Box<Stated<TravelSpeedKind>>>,
        /// Length of the run.
        pub run_length: Option<Box<Stated<RunLengthKind>>>,
        /// Arc time of the run.
        pub arc_time: Option<Box<Stated<DurationKind>>>,
        /// Mean instantaneous arc power, for waveform-controlled output; of several electrodes the sum.
        pub arc_power: Option<Box<Stated<PowerKind>>>,
        /// Electrical energy of the run, for waveform-controlled output; of several electrodes the sum.
        pub run_energy: Option<Box<Stated<EnergyKind>>>,
        /// Electrical stick-out: contact tip to work, recess of the tip counted.
        pub electrical_stick_out: Option<Box<Stated<ElectricalStickOutKind>>>,
        /// Visible stick-out: nozzle to work.
        pub visible_stick_out: Option<Box<Stated<VisibleStickOutKind>>>,
        /// Recess of the contact tip in the nozzle; negative where it protrudes.
        pub tip_recess: Option<Box<Stated<TipRecessKind>>>,
        /// Travel angle; drag is positive, push is negative.
        pub travel_angle: Option<Box<Stated<TravelAngleKind>>>,
        /// Work angle.
        pub work_angle: Option<Box<Stated<WorkAngleKind>>>,
        /// Weave width.
        pub weave_width: Option<Box<Stated<WeaveWidthKind>>>,
        /// Preheat temperature.
        pub preheat: Option<Box<Stated<TemperatureKind>>>,
        /// Interpass temperature.
        pub interpass: Option<Box<Stated<TemperatureKind>>>,
        /// Shielding gas flow.
        pub gas_flow: Option<Box<Stated<GasFlowKind>>>,
        /// Arc energy as you state it; compared with what the settings imply.
        pub arc_energy: Option<Box<Stated<ArcEnergyKind>>>,
        /// Heat input as you state it; compared with what the settings imply.
        pub heat_input: Option<Box<Stated<HeatInputKind>>>,
    }
}

wire_object! {
    /// Who is to weld, and what of the work only a welder's range asks for.
    pub struct WelderIn {
        /// Code of the welder or operator.
        pub code: Code,
        /// The work, beyond process, joint, position and thickness of the job.
        pub work: Option<WelderWorkIn>,
    }
}

wire_object! {
    /// A proposed setup. Every part may be left out: what is missing is named in the answer, and
    /// nothing is allowed on missing data.
    pub struct SetupIn {
        /// Number of the procedure to hold it to; all that cover the job where left out.
        pub procedure: Option<Code>,
        /// Revision of that procedure; those in force where left out.
        pub revision: Option<u32>,
        /// Number of the work order.
        pub work_order: Option<Code>,
        /// Code of the station; a kiosk's own where left out.
        pub station: Option<Code>,
        /// Who is to weld.
        pub welder: Option<Box<WelderIn>>,
        /// Process: ISO 4063 number, or AWS letters that mean one process only.
        pub process: Option<Process>,
        /// What is to be welded.
        pub job: Option<Box<JobIn>>,
        /// Wire, gas and polarity.
        pub filler: Option<Box<FillerIn>>,
        /// Settings.
        pub settings: Option<Box<SettingsIn>>,
        /// Day the setup is for; today where left out.
        pub day: Option<Date>,
        /// Moment the setup is for, by which it is reckoned how long a filler lay in the air; now where left out
        /// and the day is today.
        pub at: Option<OffsetDateTime>,
        /// Whether to keep setup and answer as evidence. Only `POST /v1/checks` keeps them, one at a time; everywhere
        /// else `true` is refused.
        pub keep: Option<bool>,
    }
}

/// Instruments a stated value may name, on a day.
#[derive(Debug, Clone, Copy)]
struct Instruments<'a> {
    station: Option<&'a Station>,
    day: Date,
}

impl Instruments<'_> {
    /// Puts the value with the accuracy of the instrument it names into its place. An instrument that is unknown
    /// or out of calibration leaves the accuracy unknown, and says why, whatever the value states itself; only an
    /// accuracy that the record leaves out may be stated so.
    fn put<K: Kind>(&self, stated: Option<&Stated<K>>, place: &mut Option<Given<K>>) {
        let Some(stated) = stated else { return };
        let given = place.insert(stated.given());
        if given.origin == Origin::Measured
            && let (Some(instrument), Some(station)) = (stated.instrument(), self.station)
        {
            match station.known_accuracy(instrument, self.day) {
                Ok(recorded) => given.read_by(recorded),
                Err(gap) if gap.lack == InstrumentLack::NotStated && !given.accuracy_unknown() => {}
                Err(gap) => given.lacking(gap.lack),
            }
        }
    }
}

impl SetupIn {
    /// The setup as the check reads it, at the station of this code. Positions are read here, since
    /// `2F` needs the joint. It has some four kilobytes and is written where it stays.
    pub fn setup(
        &self,
        (code, station): (Option<String>, Option<&Station>),
        day: Date,
        errors: &mut Errors,
    ) -> Option<Box<Setup>> {
        let mut setup = Box::<Setup>::default();
        if let Some(job) = &self.job {
            setup.job = job.job(Place::Member(&Place::Root, "job"), errors)?;
        }
        if self.procedure.is_none() && self.revision.is_some() {
            let at = Place::Member(&Place::Root, "revision");
            return errors.note(at, "a revision needs the procedure it is of");
        }
        if self.filler.as_ref().is_some_and(|f| f.portion.is_some() && f.batch.is_none()) {
            let filler = Place::Member(&Place::Root, "filler");
            let at = Place::Member(&filler, "portion");
            return errors.note(at, "a portion needs the batch it is of");
        }
        if self.settings.as_ref().is_some_and(|settings| settings.electrodes == Some(0)) {
            let settings = Place::Member(&Place::Root, "settings");
            let at = Place::Member(&settings, "electrodes");
            return errors.note(at, "at least one electrode burns");
        }
        // Each field is named, so that none is forgotten.
        let Setup {
            procedure,
            work_order,
            station: at_station,
            welder,
            process,
            job: _,
            filler,
            settings,
            at,
        } = &mut *setup;
        *procedure = text(self.procedure.as_ref())
            .map(|number| ProcedureReference { number, revision: self.revision });
        *work_order = text(self.work_order.as_ref());
        *at_station = code;
        *welder = self.welder.as_deref().map(WelderIn::claim);
        *process = self.process;
        if let Some(sent) = &self.filler {
            *filler = sent.filler();
        }
        if let Some(sent) = &self.settings {
            sent.put(settings, Instruments { station, day });
        }
        *at = self.at;
        Some(setup)
    }
}

/// The text of a code.
fn text(code: Option<&Code>) -> Option<String> {
    code.map(|code| code.as_str().to_owned())
}

impl WelderIn {
    fn claim(&self) -> WelderClaim {
        let work = self.work.as_ref().map(WelderWorkIn::job).unwrap_or_default();
        WelderClaim { code: self.code.as_str().to_owned(), work }
    }
}

impl JobIn {
    fn job(&self, at: Place<'_>, errors: &mut Errors) -> Option<Job> {
        let position = match &self.position {
            Some(text) => match PositionClaim::parse(text, self.joint) {
                Ok(claim) => Some(claim),
                Err(error) => {
                    return errors.note(Place::Member(&at, "position"), error.to_string());
                }
            },
            None => None,
        };
        let fillet = match (self.leg, self.throat) {
            (None, None) => None,
            (Some(leg), None) => Some(Fillet::equal(leg)),
            (None, Some(throat)) => Some(Fillet::with_throat(throat)),
            (Some(_), Some(_)) => {
                let place = Place::Member(&at, "throat");
                return errors.note(place, "give the leg or the throat of a fillet");
            }
        };
        let fillet = match fillet.transpose() {
            Ok(fillet) => fillet,
            Err(error) => return errors.note(Place::Member(&at, "throat"), error.to_string()),
        };
        // One that was kept before this was asked stays readable.
        if fillet.is_some() && self.joint == Some(JointKind::Butt) && !errors.of_stored() {
            let place = Place::Member(&at, if self.leg.is_some() { "leg" } else { "throat" });
            let why = "a leg or a throat is that of a fillet, and the joint is a butt weld: leave it out, or check the \
                       fillet on a butt weld as a setup of its own";
            return errors.note(place, why);
        }
        let metal = |metal: &BaseMetalIn| BaseMetal {
            group: metal.group,
            form: metal.form,
            thickness: metal.thickness,
            outside_diameter: metal.outside_diameter,
            cet: metal.cet,
            preheat_category: metal.preheat_category,
            in_category_a: metal.in_category_a,
        };
        Some(Job {
            code: self.code.as_ref().map(CodeEditionDocument::compile),
            joint: self.joint,
            position,
            progression: self.progression,
            base_metals: self.base_metals.iter().map(metal).collect(),
            deposited_thickness: self.deposited_thickness,
            run_class: self.run_class,
            fillet,
            leg: fillet.map(|fillet| fillet.leg),
            weld_length: self.weld_length,
            arc_on_share: self.arc_on_share.map(Part::share),
            demands: self.demands.as_ref().map(DemandsDocument::compile).unwrap_or_default(),
        })
    }
}

impl FillerIn {
    fn filler(&self) -> Filler {
        Filler {
            consumable: text(self.consumable.as_ref()),
            batch: text(self.batch.as_ref()),
            portion: text(self.portion.as_ref()),
            diameter: self.diameter,
            spool: self.spool,
            gas: self.gas,
            backing_gas: self.backing_gas,
            flux: self.flux.as_ref().map(|flux| Box::new(flux.compile())),
            polarity: self.polarity,
        }
    }
}

impl SettingsIn {
    fn put(&self, settings: &mut Settings, instruments: Instruments<'_>) {
        // Each field is named, so that none is forgotten.
        let Settings {
            waveform,
            bead,
            transfer,
            mechanisation,
            current_form,
            electrodes,
            current,
            voltage,
            wire_feed,
            travel_speed,
            run_length,
            arc_time,
            arc_power,
            run_energy,
            stick_out,
            visible_stick_out,
            tip_recess,
            travel_angle,
            work_angle,
            weave_width,
            preheat,
            interpass,
            gas_flow,
            arc_energy,
            heat_input,
        } = settings;
        *waveform = self.waveform;
        *bead = self.bead;
        *transfer = self.transfer;
        *mechanisation = self.mechanisation;
        *current_form = self.current_form;
        *electrodes = self.electrodes;
        instruments.put(self.current.as_deref(), current);
        instruments.put(self.voltage.as_deref(), voltage);
        instruments.put(self.wire_feed.as_deref(), wire_feed);
        instruments.put(self.travel_speed.as_deref(), travel_speed);
        instruments.put(self.run_length.as_deref(), run_length);
        instruments.put(self.arc_time.as_deref(), arc_time);
        instruments.put(self.arc_power.as_deref(), arc_power);
        instruments.put(self.run_energy.as_deref(), run_energy);
        instruments.put(self.electrical_stick_out.as_deref(), stick_out);
        instruments.put(self.visible_stick_out.as_deref(), visible_stick_out);
        instruments.put(self.tip_recess.as_deref(), tip_recess);
        instruments.put(self.travel_angle.as_deref(), travel_angle);
        instruments.put(self.work_angle.as_deref(), work_angle);
        instruments.put(self.weave_width.as_deref(), weave_width);
        instruments.put(self.preheat.as_deref(), preheat);
        instruments.put(self.interpass.as_deref(), interpass);
        instruments.put(self.gas_flow.as_deref(), gas_flow);
        instruments.put(self.arc_energy.as_deref(), arc_energy);
        instruments.put(self.heat_input.as_deref(), heat_input);
    }
}
