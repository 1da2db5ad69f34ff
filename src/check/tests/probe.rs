//! One row per numeric variable: how to state it, how to limit it, and values around its limits.

use crate::{
    check::{
        Finding, OwnerKind, Variable,
        fixture::{Scene, measured, range, set},
    },
    quantity::{Kind, KindInfo},
};

/// A numeric variable of the complete job, with the procedure as the owner of its limit.
pub(super) struct Probe {
    pub variable: Variable,
    pub check: &'static str,
    pub kind: &'static KindInfo,
    pub unit: &'static str,
    /// Lower and upper end of the procedure's range, as in the complete job.
    pub ends: (f64, f64),
    /// Two values below the range, one inside near the lower end, one in the middle, one inside near
    /// the upper end, two above.
    pub values: [f64; 7],
    /// Uncertainty that reaches over an end from the values next to it, and no further.
    pub error: f64,
    /// States the variable as set, or as nothing.
    pub set: fn(&mut Scene, Option<&str>),
    /// States the variable as measured, with an uncertainty or an unknown one.
    pub measure: fn(&mut Scene, &str, &str),
    /// Limits the variable in the procedure; two empty ends for no limit.
    pub limit: fn(&mut Scene, &str, &str),
}

const fn info<K: Kind>(_: Option<fn(K)>) -> &'static KindInfo {
    K::INFO
}

macro_rules! probe {
    ($variable:ident, $check:literal, $kind:ident, $setting:ident, $limit:ident, $unit:literal,
     $ends:expr, $values:expr, $error:expr) => {
        Probe {
            variable: Variable::$variable,
            check: $check,
            kind: info::<crate::quantity::$kind>(None),
            unit: $unit,
            ends: $ends,
            values: $values,
            error: $error,
            set: |scene, text| scene.setup.settings.$setting = text.map(set),
            measure: |scene, text, error| {
                scene.setup.settings.$setting = Some(measured(text, error));
            },
            limit: |scene, min, max| {
                alone(scene, Variable::$variable);
                scene.limits().$limit = match (min, max) {
                    ("", "") => None,
                    (min, max) => Some(range(min, max)),
                };
            },
        }
    };
}

/// Takes away the limit of the other temperature, which would carry over.
fn alone(scene: &mut Scene, variable: Variable) {
    match variable {
        Variable::Preheat => scene.limits().interpass = None,
        Variable::Interpass => scene.limits().preheat = None,
        _ => {}
    }
}

/// Every numeric variable that a setup states itself; arc energy and heat input are computed.
pub(super) const PROBES: &[Probe] = &[
    probe!(
        Current,
        "current",
        CurrentKind,
        current,
        current,
        "A",
        (200.0, 240.0),
        [190.0, 198.0, 202.0, 220.0, 238.0, 242.0, 250.0],
        5.0
    ),
    probe!(
        Voltage,
        "voltage",
        VoltageKind,
        voltage,
        voltage,
        "V",
        (25.0, 27.0),
        [24.0, 24.8, 25.2, 26.0, 26.8, 27.2, 28.0],
        0.5
    ),
    probe!(
        WireFeed,
        "wire-feed",
        WireFeedKind,
        wire_feed,
        wire_feed,
        "m/min",
        (7.0, 9.0),
        [6.0, 6.9, 7.1, 8.0, 8.9, 9.1, 10.0],
        0.3
    ),
    probe!(
        TravelSpeed,
        "travel-speed",
        TravelSpeedKind,
        travel_speed,
        travel_speed,
        "mm/min",
        (300.0, 400.0),
        [280.0, 298.0, 302.0, 350.0, 398.0, 402.0, 420.0],
        5.0
    ),
    probe!(
        StickOut,
        "electrical-stick-out",
        ElectricalStickOutKind,
        stick_out,
        stick_out,
        "mm",
        (17.0, 23.0),
        [15.0, 16.8, 17.2, 20.0, 22.8, 23.2, 25.0],
        0.5
    ),
    probe!(
        TravelAngle,
        "travel-angle",
        TravelAngleKind,
        travel_angle,
        travel_angle,
        "deg",
        (5.0, 15.0),
        [0.0, 4.0, 6.0, 10.0, 14.0, 16.0, 20.0],
        2.0
    ),
    probe!(
        WorkAngle,
        "work-angle",
        WorkAngleKind,
        work_angle,
        work_angle,
        "deg",
        (40.0, 50.0),
        [35.0, 39.0, 41.0, 45.0, 49.0, 51.0, 55.0],
        2.0
    ),
    probe!(
        WeaveWidth,
        "weave-width",
        WeaveWidthKind,
        weave_width,
        weave_width,
        "mm",
        (4.0, 12.0),
        [2.0, 3.8, 4.2, 8.0, 11.8, 12.2, 14.0],
        0.5
    ),
    probe!(
        Preheat,
        "preheat",
        TemperatureKind,
        preheat,
        preheat,
        "°C",
        (20.0, 100.0),
        [5.0, 18.0, 22.0, 50.0, 98.0, 102.0, 120.0],
        5.0
    ),
    probe!(
        Interpass,
        "interpass",
        TemperatureKind,
        interpass,
        interpass,
        "°C",
        (20.0, 200.0),
        [5.0, 18.0, 22.0, 120.0, 198.0, 202.0, 220.0],
        5.0
    ),
    probe!(
        GasFlow,
        "gas-flow",
        GasFlowKind,
        gas_flow,
        gas_flow,
        "L/min",
        (14.0, 18.0),
        [12.0, 13.8, 14.2, 16.0, 17.8, 18.2, 20.0],
        0.5
    ),
    probe!(
        ArcPower,
        "arc-power",
        PowerKind,
        arc_power,
        arc_power,
        "kW",
        (5.0, 6.5),
        [4.5, 4.9, 5.1, 5.72, 6.4, 6.6, 7.0],
        0.2
    ),
];

impl Probe {
    /// A number of this row with its unit.
    pub fn text(&self, number: f64) -> String {
        format!("{number} {}", self.unit)
    }

    /// The findings of the procedure's own limit on the variable.
    pub fn of_procedure(&self, scene: &Scene) -> Vec<Finding> {
        let mut findings = scene.of(self.check);
        findings.retain(|finding| {
            finding.variable == self.variable && finding.owner.kind == OwnerKind::Procedure
        });
        findings
    }

    /// The one finding of the procedure's own limit.
    pub fn only(&self, scene: &Scene) -> Finding {
        let findings = self.of_procedure(scene);
        assert_eq!(findings.len(), 1, "{}: {findings:#?}", self.check);
        findings[0].clone()
    }
}

#[test]
fn no_numeric_variable_is_left_out() {
    let computed = [Variable::ArcEnergy, Variable::HeatInput];
    for variable in crate::check::NUMERIC {
        let probes = PROBES.iter().filter(|probe| probe.variable == *variable).count();
        assert_eq!(probes, usize::from(!computed.contains(variable)), "{variable}");
    }
}
