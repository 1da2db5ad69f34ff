//! A complete job that is allowed, and small ways to change one thing of it. All records are made up.

use std::{cell::OnceCell, sync::Arc};

use time::{Date, macros::date};

use super::{
    Accuracy, Arcs, BaseMetal, Book, BookSettings, CareSeen, Case, CodeEdition, DecisionRule,
    Demands, Edit, Filler, Finding, Findings, Given, GuardFactor, Job, Origin, Outcome,
    ProcedureReference, Procedures, Ranges, Readings, Records, Settings, Setup, SharedMap, Telling,
    Verdict,
    checks::nominal_gas,
    data_selection::matching_data,
    output_of,
    record::{
        Batch, Condition, Consumable, DataEdition, GasRule, GunRating, OperatingPoint,
        OperatingPoints, Procedure, RatedPoint, RunLimits, Station, Steps, Support, Welder,
        WorkOrder, WorkOrderWeld,
    },
};
use crate::{
    quantity::{Kind, Quantity, Range, Span},
    trade::{
        BeadPattern, Designation, FillerKind, Gas, GasGroup, GasMixture, JointKind, Polarity,
        Position, PositionClaim, Practice, Process, RunClass, TechniqueCase, Waveform,
    },
};

/// A setup, and every record it is held to.
#[derive(Debug, Clone)]
pub(crate) struct Scene {
    pub setup: Setup,
    pub procedure: Procedure,
    pub consumable: Option<Consumable>,
    pub station: Option<Station>,
    pub work_order: Option<WorkOrder>,
    pub welder: Option<Welder>,
    pub batch: Option<Batch>,
    pub rule: DecisionRule,
    pub guard: GuardFactor,
    pub day: Date,
}

pub(crate) fn quantity<K: Kind>(text: &str) -> Quantity<K> {
    text.parse().unwrap_or_else(|error| panic!("{text}: {error}"))
}

/// One change of a scene.
pub(crate) type Change = fn(&mut Scene);

/// A value that is set.
pub(crate) fn set<K: Kind>(text: &str) -> Given<K> {
    Given::set(Span::one(quantity(text)))
}

/// One ISO position.
pub(crate) fn claim(position: Position) -> PositionClaim {
    PositionClaim::parse(&position.to_string(), None).unwrap()
}

/// An interval that is set.
pub(crate) fn interval<K: Kind>(low: &str, high: &str) -> Given<K> {
    Given::set(Span::new(quantity(low), quantity(high)).unwrap())
}

/// A measured value with an absolute expanded uncertainty; empty for an unknown one.
pub(crate) fn measured<K: Kind>(text: &str, uncertainty: &str) -> Given<K> {
    let accuracy = uncertainty.split_once(' ').map_or(Accuracy::Unknown, |(number, unit)| {
        Accuracy::absolute(number.parse().unwrap(), unit).unwrap()
    });
    Given { origin: Origin::Measured, accuracy, ..set(text) }
}

/// A range from two texts; an empty one leaves the end open.
pub(crate) fn range<K: Kind>(min: &str, max: &str) -> Range<K> {
    let end = |text: &str| (!text.is_empty()).then(|| quantity(text));
    Range::new(end(min), end(max)).unwrap()
}

pub(crate) fn code_edition() -> CodeEdition {
    CodeEdition { name: "ISO 15614-1".to_owned(), edition: "2017".to_owned() }
}

impl Scene {
    /// A horizontal fillet in MAG flux-cored wire of 1.2 mm, everything stated, everything inside.
    pub(crate) fn allowed() -> Self {
        Self {
            setup: setup(),
            procedure: procedure(),
            consumable: Some(consumable()),
            station: Some(station()),
            work_order: Some(work_order()),
            welder: None,
            batch: None,
            rule: DecisionRule::Simple,
            guard: GuardFactor::ONE,
            day: date!(2025 - 06 - 01),
        }
    }

    /// The same with something changed.
    #[must_use]
    pub(crate) fn with(mut self, change: impl FnOnce(&mut Self)) -> Self {
        change(&mut self);
        self
    }

    /// Limits of the procedure's only entry.
    pub(crate) fn limits(&mut self) -> Edit<'_> {
        self.procedure.runs[0].ranges.edit()
    }

    /// The records as a rulebook.
    pub(crate) fn book(&self) -> Book {
        Book {
            settings: BookSettings {
                decision_rule: self.rule,
                guard_factor: self.guard,
                ..BookSettings::default()
            },
            procedures: Procedures::new([Arc::new(self.procedure.clone())]),
            states: SharedMap::default(),
            consumables: by_code(self.consumable.as_ref(), |record| &record.code),
            stations: by_code(self.station.as_ref(), |record| &record.code),
            work_orders: by_code(self.work_order.as_ref(), |record| &record.number),
            welders: by_code(self.welder.as_ref(), |record| &record.code),
            batches: by_code(self.batch.as_ref(), |record| &record.code),
        }
    }

    /// Gives the case of this scene to a function.
    pub(crate) fn in_case<T>(&self, look: impl FnOnce(&Case<'_>) -> T) -> T {
        let (book, setup, procedure) = (self.book(), &self.setup, &self.procedure);
        let station = self.station.as_ref().filter(|s| setup.station.as_ref() == Some(&s.code));
        let waveform = output_of(setup, Some(procedure), station);
        let arcs = Arcs::of(setup, Some(&procedure.runs[0]));
        let readings = Readings::of(setup, Some(procedure.process), waveform, arcs);
        let position = setup.job.only_position();
        let practice = Practice::of(&TechniqueCase {
            process: procedure.process,
            slag: true,
            position,
            diameter: setup.filler.diameter,
            run: setup.job.run_class,
        });
        let care = CareSeen::of(&book, setup, self.consumable.as_ref());
        look(&Case {
            care: &care,
            setup,
            readings: &readings,
            book: &book,
            procedure,
            run: &procedure.runs[0],
            consumable: self.consumable.as_ref(),
            data: self.consumable.as_ref().and_then(|known| {
                matching_data(known, setup, nominal_gas(procedure, setup.filler.gas))
            }),
            station,
            work_order: self.work_order.as_ref(),
            usual: practice,
            known_figures: &OnceCell::new(),
            tells_assumptions: true,
            day: self.day,
        })
    }

    /// Findings of all checks.
    pub(crate) fn findings(&self) -> Vec<Finding> {
        self.in_case(|case| Findings::of(case, Telling::Everything).into_told())
    }

    /// Findings of one check.
    pub(crate) fn of(&self, code: &str) -> Vec<Finding> {
        let mut findings = self.findings();
        findings.retain(|finding| finding.check == code);
        findings
    }

    /// Outcomes of one check, in the order it reports them.
    pub(crate) fn outcomes(&self, code: &str) -> Vec<Outcome> {
        self.of(code).iter().map(|finding| finding.outcome).collect()
    }

    pub(crate) fn verdict(&self) -> Verdict {
        Verdict::of(&self.findings(), self.rule)
    }
}

fn by_code<T: Clone>(record: Option<&T>, code: fn(&T) -> &String) -> Records<T> {
    let pair = |record: &T| (code(record).clone(), Arc::new(record.clone()));
    record.into_iter().map(pair).collect()
}

fn mixture() -> GasMixture {
    GasMixture::parse("ISO 14175-M21-ArC-20").unwrap()
}

fn setup() -> Setup {
    let part = BaseMetal {
        group: Some("1.2".parse().unwrap()),
        thickness: Some(quantity("12 mm")),
        ..BaseMetal::UNKNOWN
    };
    Setup {
        procedure: Some(ProcedureReference { number: "WPS-1".to_owned(), revision: Some(1) }),
        work_order: Some("J-100".to_owned()),
        welder: None,
        station: Some("S-1".to_owned()),
        process: Some(Process::MagFluxCored),
        job: Job {
            code: Some(code_edition()),
            joint: Some(JointKind::Fillet),
            position: Some(PositionClaim::parse("PB", Some(JointKind::Fillet)).unwrap()),
            progression: None,
            base_metals: vec![part; 2],
            deposited_thickness: None,
            run_class: Some(RunClass::Fill),
            fillet: None,
            leg: None,
            weld_length: None,
            arc_on_share: None,
            demands: Demands::default(),
        },
        filler: Filler {
            consumable: Some("FCW-1".to_owned()),
            batch: None,
            portion: None,
            diameter: Some(quantity("1.2 mm")),
            spool: Some(quantity("15 kg")),
            gas: Some(Gas::Mixture(mixture())),
            polarity: Some(Polarity::Dcep),
            ..Filler::default()
        },
        settings: settings(),
        at: None,
    }
}

fn settings() -> Settings {
    Settings {
        waveform: Some(Waveform::NotControlled),
        bead: Some(BeadPattern::Weave),
        current: Some(set("220 A")),
        voltage: Some(set("26 V")),
        wire_feed: Some(set("8 m/min")),
        travel_speed: Some(set("350 mm/min")),
        stick_out: Some(set("20 mm")),
        travel_angle: Some(set("10 deg")),
        work_angle: Some(set("45 deg")),
        weave_width: Some(set("8 mm")),
        preheat: Some(set("50 °C")),
        interpass: Some(set("120 °C")),
        gas_flow: Some(set("16 L/min")),
        ..Settings::default()
    }
}

fn procedure() -> Procedure {
    Procedure {
        number: "WPS-1".to_owned(),
        revision: 1,
        effective_from: Some(date!(2025 - 01 - 01)),
        effective_until: None,
        codes: vec![code_edition()],
        support: Support::Declared { signed_by: Some("welding engineer".to_owned()) },
        calls_up_data: false,
        forms: Vec::new(),
        outside_diameter: None,
        deposited_thickness: None,
        layering: None,
        fillet: None,
        process: Process::MagFluxCored,
        joints: vec![JointKind::Fillet],
        positions: vec![Position::Pa, Position::Pb],
        base_metals: vec!["1".parse().unwrap()],
        thickness: Some(range("6 mm", "24 mm")),
        consumables: vec!["FCW-1".to_owned()],
        diameters: vec![quantity("1.2 mm")],
        gas: Some(GasRule { groups: vec![GasGroup::M21], mixture: None }),
        polarities: vec![Polarity::Dcep],
        waveform: Some(Waveform::NotControlled),
        hydrogen: None,
        runs: vec![RunLimits {
            classes: vec![RunClass::Fill, RunClass::Cap, RunClass::Single],
            beads: vec![BeadPattern::Stringer, BeadPattern::Weave],
            ranges: procedure_ranges().into(),
            ..RunLimits::default()
        }],
    }
}

/// 26 V, 220 A and 350 mm/min are 0.9806 kJ/mm of arc energy, 0.7845 of heat input at k = 0.8 and
/// 5720 W (own arithmetic).
fn procedure_ranges() -> Ranges {
    Ranges {
        current: Some(range("200 A", "240 A")),
        voltage: Some(range("25 V", "27 V")),
        wire_feed: Some(range("7 m/min", "9 m/min")),
        travel_speed: Some(range("300 mm/min", "400 mm/min")),
        stick_out: Some(range("17 mm", "23 mm")),
        travel_angle: Some(range("5 deg", "15 deg")),
        work_angle: Some(range("40 deg", "50 deg")),
        weave_width: Some(range("4 mm", "12 mm")),
        preheat: Some(range("20 °C", "100 °C")),
        interpass: Some(range("20 °C", "200 °C")),
        gas_flow: Some(range("14 L/min", "18 L/min")),
        arc_energy: Some(range("0.7 kJ/mm", "1.3 kJ/mm")),
        heat_input: Some(range("0.6 kJ/mm", "1 kJ/mm")),
        arc_power: Some(range("5 kW", "6.5 kW")),
    }
}

fn consumable() -> Consumable {
    let point = |feed: &str, current: &str, voltage: &str| OperatingPoint {
        wire_feed: Some(quantity(feed)),
        current: quantity(current),
        voltage: quantity(voltage),
        deposition_rate: None,
        efficiency: None,
    };
    let condition = Condition {
        diameter: quantity("1.2 mm"),
        gas: Some(GasGroup::M21),
        polarity: Polarity::Dcep,
        positions: Vec::new(),
        points: OperatingPoints::new(vec![
            point("6 m/min", "180 A", "24 V"),
            point("8 m/min", "220 A", "26 V"),
            point("10 m/min", "260 A", "28 V"),
        ]),
        ranges: Ranges {
            current: Some(range("150 A", "300 A")),
            voltage: Some(range("23 V", "30 V")),
            wire_feed: Some(range("5 m/min", "12 m/min")),
            stick_out: Some(range("15 mm", "25 mm")),
            ..Ranges::default()
        }
        .into(),
    };
    Consumable {
        code: "FCW-1".to_owned(),
        name: "rutile flux-cored wire".to_owned(),
        kind: FillerKind::FluxCoredWire,
        designations: vec![Designation::parse("AWS A5.20: E71T-1M").unwrap()],
        diameters: vec![quantity("1.2 mm")],
        spools: vec![quantity("15 kg")],
        gases: vec![GasGroup::M21],
        polarities: vec![Polarity::Dcep],
        linear_masses: Vec::new(),
        efficiency: None,
        care: None,
        data: vec![DataEdition {
            document: "data sheet 1".to_owned(),
            edition: "2024".to_owned(),
            conditions: vec![condition],
        }],
    }
}

fn station() -> Station {
    let point = |current: &str, voltage: &str, duty: &str| RatedPoint {
        current: quantity(current),
        voltage: Some(quantity(voltage)),
        duty: quantity(duty),
    };
    Station {
        instruments: Vec::new(),
        steps: Steps::default(),
        code: "S-1".to_owned(),
        name: "first station".to_owned(),
        waveforms: vec![Waveform::NotControlled],
        rated: vec![point("400 A", "34 V", "60 %"), point("320 A", "30 V", "100 %")],
        gun: Some(GunRating { current: quantity("350 A"), duty: quantity("60 %") }),
        diameters: vec![quantity("1 mm"), quantity("1.2 mm")],
        heaviest_spool: Some(quantity("18 kg")),
        ranges: Ranges {
            current: Some(range("40 A", "400 A")),
            voltage: Some(range("14 V", "34 V")),
            wire_feed: Some(range("1 m/min", "20 m/min")),
            ..Ranges::default()
        }
        .into(),
    }
}

fn work_order() -> WorkOrder {
    WorkOrder {
        number: "J-100".to_owned(),
        code: code_edition(),
        accepted_procedures: Some(vec!["WPS-1".to_owned()]),
        demands: Demands::default(),
        ranges: Ranges { interpass: Some(range("", "180 °C")), ..Ranges::default() }.into(),
        welds: vec![WorkOrderWeld { id: "W1".to_owned(), joint: Some(JointKind::Fillet) }],
    }
}

#[test]
fn the_scene_is_allowed() {
    let scene = Scene::allowed();
    let unmet: Vec<_> = scene
        .findings()
        .into_iter()
        .filter(|finding| Verdict::of_one(finding, scene.rule) != Verdict::Allowed)
        .collect();
    assert!(unmet.is_empty(), "{unmet:#?}");
    assert_eq!(scene.verdict(), Verdict::Allowed);
}
