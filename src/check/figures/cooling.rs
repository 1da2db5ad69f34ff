//! Cooling time of the run: a band from the lowest preheat to the highest interpass temperature.

use std::sync::LazyLock;

use super::{Estimate, FigureInputs, Figures, Found, Note};
use crate::{
    check::{BaseMetal, range_check::shown},
    quantity::{
        AmountRange, DurationKind, HeatInputKind, Kind, Span, TemperatureKind, Thickness,
        ThicknessKind,
    },
    trade::{
        COOLING_TIME, Coded, CoolingSpanCase, HeatFlow, JointKind, RunClass, ShapeFactors,
        SteelFamily, WeldShape, cooling_time_span, shape_factors,
    },
};

/// Bytes that hold temperature and heat input in words.
const ROOM: usize = 128;

const TWO_DIMENSIONAL: Note = Note::always("two-dimensional heat flow");
const THREE_DIMENSIONAL: Note = Note::always("three-dimensional heat flow");
const NEAR_TRANSITION: Note =
    Note::always("either heat flow: the thickness is near the transition thickness");

/// Adds the figure.
pub(super) fn add(inputs: &FigureInputs<'_>, figures: &mut Figures) {
    figures.add("cooling-time", &COOLING_TIME, time(inputs));
}

fn time(inputs: &FigureInputs<'_>) -> Found<DurationKind> {
    let heat_input = match &inputs.readings.heat_input {
        Ok(heat) => heat.given.span,
        Err(missing) => return Err(format!("{}.", missing.0).into()),
    };
    let parts = &inputs.setup.job.base_metals;
    if let Some(lacking) = inputs.setup.job.lacking_part() {
        return Err(format!("The joint has {lacking}.").into());
    }
    let shapes = Shapes::of_run(inputs.setup.job.joint, inputs.setup.job.run_class)?;
    let case = CoolingSpanCase {
        metal: metal(parts)?,
        heat_input,
        temperature: temperature(inputs)?,
        thickness: thickness(parts)?,
        shape: shapes.factors.clone()?,
    };
    let got = cooling_time_span(&case).map_err(|error| format!("The cooling time: {error}."))?;
    let flow = match got.heat_flow {
        Some(HeatFlow::TwoDimensional) => TWO_DIMENSIONAL,
        Some(HeatFlow::ThreeDimensional) => THREE_DIMENSIONAL,
        None => NEAR_TRANSITION,
    };
    let assumed = || vec![flow, before(inputs, &case), shapes.said.clone()];
    Ok(Estimate::with(got.time, inputs.assumed(assumed)))
}

/// Temperature and heat input in words.
fn before(inputs: &FigureInputs<'_>, case: &CoolingSpanCase) -> Note {
    let mut text = String::with_capacity(ROOM);
    text.push_str("temperature before the run: ");
    case.temperature.amounts().push_to(&mut text);
    text.push_str("; heat input ");
    heat_input_said(inputs, case).push_to(&mut text);
    text.into()
}

/// The heat input; a computed one in the units of the travel speed it follows from, else of the temperature.
fn heat_input_said(inputs: &FigureInputs<'_>, case: &CoolingSpanCase) -> AmountRange {
    let speed = inputs.readings.travel_speed.as_ref();
    let speed = speed.and_then(|speed| shown(speed).unit_typed());
    let near = speed.or_else(|| case.temperature.low().amount().unit_typed());
    let heat_input = case.heat_input.amounts();
    match near.and_then(|unit| unit.system) {
        Some(system) => heat_input.said_in(HeatInputKind::INFO.answer_unit(system)),
        None => heat_input,
    }
}

/// The family that all parts belong to.
fn metal(parts: &[BaseMetal]) -> Result<SteelFamily, Note> {
    let mut families = parts.iter().map(|part| {
        let group = part.group.ok_or("The group of a base metal is not stated.")?;
        SteelFamily::of(group).ok_or_else(|| {
            format!(
                "Group {group} has low-alloy and high-alloy steel; its sub-group is not stated."
            )
        })
    });
    let first = families.next().ok_or("The base metals are not stated.")??;
    for family in families {
        if family? != first {
            return Err("The parts are of unlike metal: no cooling formula is for both.".into());
        }
    }
    Ok(first)
}

/// Thinnest and thickest part.
fn thickness(parts: &[BaseMetal]) -> Result<Span<ThicknessKind>, Note> {
    let mut ends: Option<(Thickness, Thickness)> = None;
    for part in parts {
        let one = part.thickness.ok_or("The thickness of a part is not stated.")?;
        ends = Some(ends.map_or((one, one), |(low, high)| (low.min(one), high.max(one))));
    }
    let (low, high) = ends.ok_or("The base metals are not stated.")?;
    Ok(Span::new(low, high).map_err(|error| error.to_string())?)
}

/// From the lowest preheat to the highest interpass temperature; the first run has no interpass.
fn temperature(inputs: &FigureInputs<'_>) -> Result<Span<TemperatureKind>, Note> {
    let settings = &inputs.setup.settings;
    let preheat = settings.preheat.as_ref().ok_or("The preheat temperature is not stated.")?;
    if inputs.setup.job.run_class.is_some_and(RunClass::is_first) {
        return Ok(preheat.span);
    }
    let interpass =
        settings.interpass.as_ref().ok_or("The interpass temperature is not stated.")?;
    Span::new(preheat.span.low(), interpass.span.high())
        .map_err(|_| "The interpass temperature is below the preheat temperature.".into())
}

/// Shapes that a weld may have: their factors, and what is said of them.
struct Shapes {
    factors: Result<ShapeFactors, Note>,
    said: Note,
}

static ROOT: LazyLock<Shapes> =
    LazyLock::new(|| Shapes::of(&[WeldShape::RootOfVee, WeldShape::RootOfDoubleVee]));
static INNER: LazyLock<Shapes> =
    LazyLock::new(|| Shapes::of(&[WeldShape::BetweenRun, WeldShape::FillRun]));
static CAP: LazyLock<Shapes> = LazyLock::new(|| Shapes::of(&[WeldShape::CapRun]));
static FILLET: LazyLock<Shapes> = LazyLock::new(|| {
    Shapes::of(&[WeldShape::TeeFillet, WeldShape::CornerFillet, WeldShape::LapFillet])
});

impl Shapes {
    fn of(shapes: &[WeldShape]) -> Self {
        let each = shapes.iter().map(|shape| format!("{} ({})", shape.code(), shape.source()));
        let said = format!("shape factors of {}", each.collect::<Vec<_>>().join(" or "));
        Self { factors: factors(shapes), said: said.into() }
    }

    /// Those of a run; nobody says whether a groove is a V or a double V, or whether a fillet joins a tee, a corner
    /// or a lap.
    fn of_run(joint: Option<JointKind>, run: Option<RunClass>) -> Result<&'static Self, Note> {
        let joint = joint.ok_or("The joint is not stated.")?;
        let run = run.ok_or("The run is not stated, and with it the shape factor.")?;
        match (joint, run) {
            (JointKind::Butt, RunClass::Root) => Ok(&ROOT),
            (JointKind::Butt, RunClass::Hot | RunClass::Fill) => Ok(&INNER),
            (JointKind::Butt, RunClass::Cap) => Ok(&CAP),
            (JointKind::Butt, RunClass::Single) => {
                Err("No shape factor is printed for a butt weld of one run.".into())
            }
            (JointKind::Fillet, RunClass::Root | RunClass::Single) => Ok(&FILLET),
            (JointKind::Fillet, _) => {
                Err("Shape factors of fillets are printed for a single run only.".into())
            }
        }
    }
}

/// The factors of any of the shapes.
fn factors(shapes: &[WeldShape]) -> Result<ShapeFactors, Note> {
    let text = |error: crate::quantity::QuantityError| error.to_string();
    let mut all = shapes.iter().map(|shape| shape_factors(*shape));
    let first = all.next().ok_or("No shape factor is printed for this weld.")?.map_err(text)?;
    Ok(all.try_fold(first, |known, next| known.or(next?)).map_err(text)?)
}
