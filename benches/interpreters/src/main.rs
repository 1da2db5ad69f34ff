//! The pure check against the same limits in general-purpose rule engines: an expression of CEL, a policy of Rego,
//! and a JSON Schema.
//!
//! Each engine gets the limits of one procedure, compiled once, and the settings as its own kind of value, prepared
//! beforehand: ranges and lists of the demo's WPS-101, the heat input among them as a number, since a schema cannot
//! multiply. "The same limits" is the first look of a check, which decides just those limits of just this procedure on
//! values prepared beforehand too. "Their checks" are the checks of those limits, held to every owner that sets one;
//! the whole check runs some forty checks and computes figures and cautions besides. Run with
//! `cargo run --release --manifest-path benches/interpreters/Cargo.toml --target-dir target`.

#[path = "../../shared/scenario.rs"]
mod scenario;

use std::{error::Error, hint::black_box, time::Instant};

use arcbounds::{
    check::{
        ALL, Arcs, Book, Case, Check, Findings, NUMERIC, PlainValues, Readings, Setup, Telling, Variable,
        VariableSet, Verdict, each_case, judge, plainly_met, record::Procedure,
    },
    trade::Coded,
};
use serde_json::{Map, Value, json};
use time::macros::date;

/// As in the service.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

type Failure = Box<dyn Error + Send + Sync>;

const ROUNDS: u32 = 20_000;
const TURNS: usize = 7;

/// One limit: the name of the input, and what it may be.
enum Limit {
    OneOf(&'static str, Vec<String>),
    Between(String, f64, f64),
}

impl Limit {
    fn name(&self) -> &str {
        match self {
            Self::OneOf(name, _) => name,
            Self::Between(name, ..) => name,
        }
    }

    /// What it limits.
    fn variable(&self) -> Result<Variable, String> {
        match self.name() {
            "arc_energy" => Ok(Variable::ArcEnergy),
            _ => self.check().map(|check| check.variable),
        }
    }

    /// The check that holds a setup to this limit.
    fn check(&self) -> Result<&'static Check, String> {
        let code = match self.name() {
            "consumable" => "consumable-approved".to_owned(),
            // One check holds heat input and arc energy, each to its own limits.
            "arc_energy" => "heat-input".to_owned(),
            name => name.replace('_', "-"),
        };
        ALL.iter().find(|check| check.code == code).ok_or_else(|| format!("no check {code}"))
    }
}

fn main() -> Result<(), Failure> {
    let book = scenario::book();
    let setup = scenario::setup(|_| ());
    let compared = each_case(&book, &setup, date!(2026 - 12 - 01), |case, _| compare(&book, case));
    compared.into_iter().next().ok_or("no procedure to be held to")?
}

fn compare(book: &Book, case: &Case<'_>) -> Result<(), Failure> {
    let (setup, day) = (case.setup, case.day);
    let input = input(setup);
    let limits = limits(case.procedure, &input);
    let checks = limits.iter().map(Limit::check).collect::<Result<Vec<_>, _>>()?;
    let limited = limits.iter().map(Limit::variable).collect::<Result<Vec<_>, _>>()?;
    let limited = VariableSet::of(&limited);
    let values = PlainValues::of(setup, case.readings);
    println!("{} limits", limits.len());

    let program = cel::Program::compile(&cel_text(&limits)).map_err(|error| error.to_string())?;
    let mut context = cel::Context::default();
    for (name, value) in input.as_object().into_iter().flatten() {
        context.add_variable(name.clone(), value.clone()).map_err(|error| error.to_string())?;
    }
    let mut engine = regorus::Engine::new();
    engine.add_policy("arc.rego".to_owned(), rego_text(&limits)).map_err(|e| e.to_string())?;
    engine.set_input(regorus::Value::from_json_str(&input.to_string()).map_err(|e| e.to_string())?);
    let validator = jsonschema::validator_for(&schema(&limits)).map_err(|e| e.to_string())?;

    let mut sides: [(&str, Box<dyn FnMut() -> bool>, Vec<f64>); 7] = [
        (
            "the same limits",
            Box::new(|| {
                let (procedure, run) = (black_box(case.procedure), black_box(case.run));
                plainly_met(procedure, run, black_box(setup), black_box(&values)).includes(limited)
            }),
            Vec::new(),
        ),
        (
            "their checks",
            Box::new(|| {
                let mut findings = Findings::new(Telling::Nothing);
                checks.iter().for_each(|check| (check.run)(case, &mut findings));
                findings.verdict(case.rule()) <= Verdict::AllowedWithAdvice
            }),
            Vec::new(),
        ),
        (
            "check, verdict",
            Box::new(|| judge(book, setup, day, Telling::Nothing).verdict.code() == "allowed"),
            Vec::new(),
        ),
        (
            "check, summary",
            Box::new(|| {
                let telling = Telling::WhatNeedsSomething;
                judge(book, setup, day, telling).verdict.code() == "allowed"
            }),
            Vec::new(),
        ),
        ("CEL", Box::new(|| program.execute(&context) == Ok(cel::Value::Bool(true))), Vec::new()),
        (
            "Rego",
            Box::new(move || {
                engine.eval_rule("data.arc.allow".to_owned()).ok()
                    == Some(regorus::Value::from(true))
            }),
            Vec::new(),
        ),
        ("JSON Schema", Box::new(|| validator.is_valid(&input)), Vec::new()),
    ];
    for (name, decide, _) in &mut sides {
        if !decide() {
            return Err(format!("{name} does not allow the setup").into());
        }
    }
    for _ in 0..TURNS {
        for (_, decide, times) in &mut sides {
            let started = Instant::now();
            for _ in 0..ROUNDS {
                black_box(decide());
            }
            times.push(started.elapsed().as_secs_f64() * 1e9 / f64::from(ROUNDS));
        }
    }
    let mut own = None;
    for (name, _, mut times) in sides {
        times.sort_by(f64::total_cmp);
        let median = times[TURNS / 2];
        let own = *own.get_or_insert(median);
        println!("{name:15} {median:8.0} ns, {:6.2} times the same limits", median / own);
    }
    Ok(())
}

/// What the engines are given.
fn input(setup: &Setup) -> Value {
    let settings = &setup.settings;
    let arcs = Arcs::of(setup, None);
    let readings = Readings::of(setup, setup.process, settings.waveform, arcs);
    let mut input = Map::new();
    let mut word = |name: &str, value: Option<String>| {
        input.extend(value.map(|value| (name.to_owned(), json!(value))));
    };
    word("process", setup.process.map(|one| one.code().to_owned()));
    word("joint", setup.job.joint.map(|one| one.code().to_owned()));
    let position = setup.job.only_position();
    word("position", position.map(|one| one.code().to_owned()));
    word("consumable", setup.filler.consumable.clone());
    word("polarity", setup.filler.polarity.map(|one| one.code().to_owned()));
    let gas = setup.filler.gas.and_then(|gas| gas.group());
    word("gas", gas.map(|one| one.code().to_owned()));
    word("waveform", settings.waveform.map(|one| one.code().to_owned()));
    let thickest = setup.job.base_metals.iter().filter_map(|part| part.thickness);
    let mut number = |name: &str, value: Option<f64>| {
        input.extend(value.map(|value| (name.to_owned(), json!(value))));
    };
    number("thickness", thickest.map(|part| part.canonical()).reduce(f64::max));
    number("current", settings.current.map(|given| given.span.low().canonical()));
    number("voltage", settings.voltage.map(|given| given.span.low().canonical()));
    number("wire_feed", settings.wire_feed.map(|given| given.span.low().canonical()));
    number("travel_speed", readings.travel_speed.map(|given| given.span.low().canonical()));
    number("electrical_stick_out", readings.stick_out.map(|given| given.span.low().canonical()));
    number("travel_angle", settings.travel_angle.map(|given| given.span.low().canonical()));
    number("work_angle", settings.work_angle.map(|given| given.span.low().canonical()));
    number("preheat", settings.preheat.map(|given| given.span.low().canonical()));
    number("gas_flow", settings.gas_flow.map(|given| given.span.low().canonical()));
    number("arc_energy", readings.arc_energy.ok().map(|one| one.given.span.low().canonical()));
    number("heat_input", readings.heat_input.ok().map(|one| one.given.span.low().canonical()));
    Value::Object(input)
}

fn limits(procedure: &Procedure, input: &Value) -> Vec<Limit> {
    fn codes<T: Coded>(values: &[T]) -> Vec<String> {
        values.iter().map(|value| value.code().to_owned()).collect()
    }
    let mut limits = vec![
        Limit::OneOf("process", vec![procedure.process.code().to_owned()]),
        Limit::OneOf("joint", codes(&procedure.joints)),
        Limit::OneOf("position", codes(&procedure.positions)),
        Limit::OneOf("consumable", procedure.consumables.clone()),
        Limit::OneOf("polarity", codes(&procedure.polarities)),
        Limit::OneOf(
            "gas",
            procedure.gas.as_ref().map(|gas| codes(&gas.groups)).unwrap_or_default(),
        ),
        Limit::OneOf("waveform", codes(procedure.waveform.as_slice())),
    ];
    let ends = |min: Option<f64>, max: Option<f64>| (min.unwrap_or(-1e9), max.unwrap_or(1e9));
    if let Some(range) = &procedure.thickness {
        let (low, high) =
            ends(range.min().map(|end| end.canonical()), range.max().map(|end| end.canonical()));
        limits.push(Limit::Between("thickness".to_owned(), low, high));
    }
    let run = procedure.runs.first();
    for variable in NUMERIC {
        let Some(range) = run.and_then(|run| run.ranges.amounts(*variable)) else { continue };
        let name = Variable::code(*variable).replace('-', "_");
        if input.get(&name).is_some() {
            let (low, high) =
                ends(range.min.map(|end| end.canonical()), range.max.map(|end| end.canonical()));
            limits.push(Limit::Between(name, low, high));
        }
    }
    limits
}

fn cel_text(limits: &[Limit]) -> String {
    let terms: Vec<_> = limits
        .iter()
        .map(|limit| match limit {
            Limit::OneOf(name, words) => format!("{name} in {}", json!(words)),
            Limit::Between(name, low, high) => {
                format!("{name} >= {low:?} && {name} <= {high:?}").replace("e9", "000000000.0")
            }
        })
        .collect();
    terms.join(" && ")
}

fn rego_text(limits: &[Limit]) -> String {
    let lines: Vec<_> = limits
        .iter()
        .map(|limit| match limit {
            Limit::OneOf(name, words) => format!("    input.{name} in {}", json!(words)),
            Limit::Between(name, low, high) => {
                format!("    input.{name} >= {low:?}\n    input.{name} <= {high:?}")
            }
        })
        .collect();
    format!("package arc\nimport rego.v1\nallow if {{\n{}\n}}\n", lines.join("\n"))
}

fn schema(limits: &[Limit]) -> Value {
    let properties: Map<_, _> = limits
        .iter()
        .map(|limit| match limit {
            Limit::OneOf(name, words) => ((*name).to_owned(), json!({ "enum": words })),
            Limit::Between(name, low, high) => {
                (name.clone(), json!({ "type": "number", "minimum": low, "maximum": high }))
            }
        })
        .collect();
    let required: Vec<_> = properties.keys().cloned().collect();
    json!({ "type": "object", "properties": properties, "required": required })
}
