//! `POST /v1/calculations/run-out`

use super::{
    Sheet,
    endpoint::calculation,
    thermal_factor::{ThermalFactor, put_heat_input},
};
use crate::{
    quantity::{
        Current, Diameter, Duration, ElectrodeLength, HeatInput, HeatInputKind, Range, RunLength,
        RunLengthKind, Share, Span, Voltage,
    },
    trade::{
        ARC_ENERGY_FROM_BURN_TIME, HEAT_INPUT_FROM_RUN_OUT, HeatError, Process,
        RUN_OUT_FOR_HEAT_INPUT, RUN_OUT_RATIO, RunOut, Waveform, arc_energy_from_burn_time,
        heat_input_from_run_out, run_out_for_heat_input, run_out_ratio,
    },
    wire::{Part, wire_object},
};

wire_object! {
    /// A covered electrode and how much of it was melted.
    pub struct ElectrodeIn {
        /// Diameter of the core wire.
        pub core: Diameter,
        /// Length melted off, stub not counted.
        pub melted: ElectrodeLength,
        /// Nominal electrode efficiency (ISO 2401): metal deposited per mass of core wire.
        pub efficiency: Share,
    }
}

wire_object! {
    /// A run with a covered electrode. What can be computed from the values given is.
    pub struct RunOutIn {
        /// The electrode, for heat input with a ruler.
        pub electrode: Option<ElectrodeIn>,
        /// Length of run welded with it.
        pub run_length: Option<RunLength>,
        /// Heat input allowed, for the lengths of run that keep it.
        pub heat_input: Option<Range<HeatInputKind>>,
        /// Arc voltage, for heat input with a watch.
        pub voltage: Option<Voltage>,
        /// Welding current.
        pub current: Option<Current>,
        /// Time the arc burned over the length of run.
        pub burn_time: Option<Duration>,
        /// Output of the power source; needed for voltage and current.
        pub waveform: Option<Waveform>,
        /// Thermal efficiency factor, where your code or contract gives one; that of process 111 where left
        /// out; more than 0 % and at most 100 %.
        pub thermal_efficiency: Option<Part>,
    }
}

calculation! {
    /// Heat input of covered electrodes in two ways: with a ruler, from the length of run that a length of
    /// electrode makes; and with a watch, from voltage, current and burn time. The inverse gives the lengths
    /// of run that keep an allowed heat input.
    "/v1/calculations/run-out", calculate_run_out(RunOutIn) => fill,
    summary: "Heat input of covered electrodes",
    example: {
        "electrode": { "core": "4 mm", "melted": "410 mm", "efficiency": "95 %" },
        "run_length": "240 mm",
        "heat_input": "0.8 to 1.5 kJ/mm",
        "voltage": "24 V", "current": "160 A", "burn_time": "68 s", "waveform": "not-controlled"
    }
}

fn fill(sent: &RunOutIn, sheet: &mut Sheet) {
    let electrode = sent.electrode.as_ref().map(|electrode| RunOut {
        core: electrode.core,
        melted: electrode.melted,
        efficiency: electrode.efficiency,
    });
    by_ruler(sent, electrode.as_ref(), sheet);
    by_watch(sent, sheet);
    if let Some(allowed) = sent.heat_input {
        let lengths = electrode
            .ok_or_else(|| "the electrode is missing".to_owned())
            .and_then(|electrode| lengths(&electrode, &allowed));
        let meaning = "the shortest run goes with the highest heat input";
        sheet.range("run-length-for-heat-input", lengths, &RUN_OUT_FOR_HEAT_INPUT, &[meaning]);
    }
}

fn by_ruler(sent: &RunOutIn, electrode: Option<&RunOut>, sheet: &mut Sheet) {
    let name = "heat-input-by-run-out";
    match (electrode, sent.run_length) {
        (Some(electrode), Some(run)) => {
            let heat = heat_input_from_run_out(electrode, run);
            let basis = "basis: heat input; the factor holds a thermal efficiency of 0.8";
            sheet.one(name, heat, &HEAT_INPUT_FROM_RUN_OUT, &[basis]);
            let ratio = run_out_ratio(run, electrode.melted);
            sheet.one("run-out-ratio", ratio, &RUN_OUT_RATIO, &[]);
        }
        (None, _) => sheet.absent(name, "the electrode is missing"),
        (_, None) => sheet.absent(name, "the length of the run is missing"),
    }
}

fn by_watch(sent: &RunOutIn, sheet: &mut Sheet) {
    let name = "arc-energy-by-burn-time";
    let values = (sent.voltage, sent.current, sent.burn_time, sent.run_length);
    let (Some(voltage), Some(current), Some(burned), Some(run)) = values else {
        sheet.absent(name, "voltage, current, burn time and length of run are needed");
        return;
    };
    match sent.waveform {
        Some(Waveform::NotControlled) => {}
        Some(Waveform::Controlled) => return sheet.absent(name, HeatError::WaveformControlled),
        None => {
            let why =
                "state \"waveform\": volts times amps is wrong for waveform-controlled output";
            return sheet.absent(name, why);
        }
    }
    let energy = arc_energy_from_burn_time(voltage, current, burned, run);
    sheet.one(name, energy.clone(), &ARC_ENERGY_FROM_BURN_TIME, &["basis: arc energy"]);
    if let Ok(energy) = energy {
        let factor = ThermalFactor::of(sent.thermal_efficiency, Some(Process::ManualMetalArc));
        put_heat_input("heat-input-by-burn-time", factor, &Span::one(energy), &[], sheet);
    }
}

/// Lengths of run that keep a heat input.
fn lengths(
    electrode: &RunOut,
    allowed: &Range<HeatInputKind>,
) -> Result<Range<RunLengthKind>, String> {
    let length = |heat: Option<HeatInput>| {
        let length = heat.map(|heat| run_out_for_heat_input(electrode, heat));
        length.transpose().map_err(|error| error.to_string())
    };
    Range::new(length(allowed.max())?, length(allowed.min())?).map_err(|error| error.to_string())
}
