//! `POST /v1/calculations/run-plan`

use super::{
    Sheet,
    deposition::{CoreIn, WireGiven, wire_mass},
    endpoint::calculation,
    joint::{density_of, section, sides},
    joint_in::JointIn,
};
use crate::{
    quantity::{
        Area, Density, Diameter, Kind, LayerThickness, Leg, LinearMass, Quantity, TravelSpeed,
        WireFeed,
    },
    trade::{
        Coded, Formula, NUMBER_OF_RUNS, PREQUALIFIED_SOURCE, Position, PrequalifiedColumn,
        PrequalifiedLimits, Process, RUN_AREA, RunMetal, RunPlan, RunPlanError, SideSection,
        SizeLimit, WeldSides, fillet_runs, groove_runs, prequalified_column, prequalified_limits,
        run_area, runs_for_area,
    },
    wire::{Part, wire_object},
};

/// Limits of the printed table.
const PREQUALIFIED: Formula = Formula {
    name: "prequalified-limits",
    equation: "cell of the table by process and position, in the sizes printed for the unit system",
    source: PREQUALIFIED_SOURCE.0,
    validity: "prequalified procedures of that code only; the governing procedure goes first",
    confidence: PREQUALIFIED_SOURCE.1,
};

/// A limit that the caller gives.
const OWN_LIMIT: &str = "limits as given by the caller";

wire_object! {
    /// The wire of one run.
    pub struct RunIn {
        /// Wire feed speed.
        pub wire_feed: WireFeed,
        /// Diameter; needed where the mass per length is not given.
        pub diameter: Option<Diameter>,
        /// Weighed mass of one metre of wire.
        pub linear_mass: Option<LinearMass>,
        /// Core of a tubular wire; a solid wire where left out.
        pub core: Option<CoreIn>,
        /// Deposition efficiency, more than 0 % and at most 100 %.
        pub efficiency: Part,
        /// Travel speed.
        pub travel_speed: TravelSpeed,
    }
}

wire_object! {
    /// Size limits of one run, by your procedure or code.
    pub struct RunLimitsIn {
        /// Largest fillet leg in one run.
        pub single_run_fillet: Option<Leg>,
        /// Thickest root layer.
        pub root_layer: Option<LayerThickness>,
        /// Thickest fill layer.
        pub fill_layer: Option<LayerThickness>,
    }
}

wire_object! {
    /// A joint, the size of one run, and the limits to keep.
    pub struct RunPlanIn {
        /// The joint.
        pub joint: JointIn,
        /// Cross-section of one run; or give the run.
        pub run_area: Option<Area>,
        /// Wire data of one run.
        pub run: Option<RunIn>,
        /// Density of the weld metal; unalloyed steel, 7.85 g/cm3, where left out.
        pub density: Option<Density>,
        /// Your own limits.
        pub limits: Option<RunLimitsIn>,
        /// Process, for the limits of prequalified procedures.
        pub process: Option<Process>,
        /// Column of the table, where the process alone does not name it: submerged arc with several
        /// electrodes.
        pub column: Option<PrequalifiedColumn>,
        /// Position, for the limits of prequalified procedures.
        pub position: Option<Position>,
    }
}

calculation! {
    /// Number of runs: by the metal of one run alone, within limits of your own, and within the limits of
    /// prequalified procedures (AWS D1.1), side by side. A groove that is filled from both sides has runs for each
    /// of them; every layer of the far side is a fill layer.
    "/v1/calculations/run-plan", calculate_run_plan(RunPlanIn) => fill,
    summary: "Number of runs",
    example: {
        "joint": {
            "vee": { "thickness": "12 mm", "gap": "3 mm", "face": "2 mm", "angle": "60 deg" },
            "cap": { "height": "2 mm", "overlap": "1 mm" }
        },
        "run": {
            "wire_feed": "9.5 m/min", "linear_mass": "7.145 g/m", "efficiency": "86 %",
            "travel_speed": "0.25 m/min"
        },
        "process": "136", "position": "PF"
    }
}

fn fill(sent: &RunPlanIn, sheet: &mut Sheet) {
    let Some(total) = section(&sent.joint, sheet) else { return };
    let Some(one) = one_run(sent, sheet) else {
        sheet.absent("runs-by-area", "the cross-section of one run is not known");
        return;
    };
    let sides = match sides(&sent.joint, sheet) {
        Ok(sides) => sides,
        Err(error) => return sheet.absent("runs-by-area", error),
    };
    let joint = Asked { joint: &sent.joint, sides, total, one };
    sheet.count("runs-by-area", joint.by_area(), &NUMBER_OF_RUNS, &["runs of one size"]);
    match &sent.limits {
        Some(limits) => {
            let at_most = |leg: Leg| SizeLimit::AtMost(leg);
            let layer = |layer: Option<LayerThickness>| layer.map(SizeLimit::AtMost);
            let limits = PrequalifiedLimits {
                single_run_fillet: limits.single_run_fillet.map(at_most),
                root: layer(limits.root_layer),
                fill: layer(limits.fill_layer),
            };
            plan("runs-within-own-limits", &joint, (&limits, OWN_LIMIT), sheet);
        }
        None => sheet.absent("runs-within-own-limits", "no limits are given"),
    }
    prequalified(sent, &joint, sheet);
}

/// What is to be filled with runs of one size.
struct Asked<'a> {
    joint: &'a JointIn,
    sides: Option<WeldSides>,
    total: Area,
    one: Area,
}

impl Asked<'_> {
    /// Runs for the area alone. No run lies on both sides.
    fn by_area(&self) -> Result<u32, RunPlanError> {
        match self.sides {
            Some(WeldSides { near, far: Some(far) }) => Ok(runs_for_area(near.area, self.one)?
                .saturating_add(runs_for_area(far.area, self.one)?)),
            _ => runs_for_area(self.total, self.one),
        }
    }

    /// Runs of a groove within limits of layers, and what set their number.
    fn groove(
        &self,
        sides: &WeldSides,
        limits: &PrequalifiedLimits,
    ) -> Result<(u32, String), RunPlanError> {
        let of = |side: &SideSection, first| {
            groove_runs(side.area, self.one, side.depth, first, limits.fill)
        };
        let near = of(&sides.near, limits.root)?;
        let Some(far) = &sides.far else { return Ok((near.runs, set_by(&near))) };
        let far = of(far, limits.fill)?;
        let words = format!("near side {}, far side {}", set_by(&near), set_by(&far));
        Ok((near.runs.saturating_add(far.runs), words))
    }
}

fn set_by(plan: &RunPlan) -> String {
    format!("set by {}", plan.set_by.code())
}

/// Cross-section of one run: as given, else of its wire data.
fn one_run(sent: &RunPlanIn, sheet: &mut Sheet) -> Option<Area> {
    if let Some(area) = sent.run_area {
        return Some(area);
    }
    let Some(run) = &sent.run else {
        sheet.absent("run-area", "give \"run_area\", or the wire data of one \"run\"");
        return None;
    };
    let (density, basis) = density_of(sent.density)?;
    let given =
        WireGiven { linear_mass: run.linear_mass, diameter: run.diameter, core: run.core.as_ref() };
    let wire = wire_mass(given, density, sheet)?;
    let metal = RunMetal { wire, feed: run.wire_feed, efficiency: run.efficiency.share(), density };
    let area = run_area(&metal, run.travel_speed);
    let known = area.as_ref().ok().copied();
    sheet.one("run-area", area, &RUN_AREA, &[basis]);
    known
}

/// Limits of prequalified procedures, and the runs within them.
fn prequalified(sent: &RunPlanIn, joint: &Asked<'_>, sheet: &mut Sheet) {
    let name = "runs-within-prequalified-limits";
    let Some(position) = sent.position else {
        return sheet.absent(name, "the position is missing");
    };
    let column = sent.column.or_else(|| sent.process.and_then(prequalified_column));
    let Some(column) = column else {
        return sheet.absent(
            name,
            match sent.process {
                Some(process) => format!("the table does not list process {}", process.code()),
                None => "the process, or the column of the table, is missing".to_owned(),
            },
        );
    };
    let units = sheet.units().unwrap_or(crate::quantity::UnitSystem::Metric);
    let Some(limits) = prequalified_limits(column, position, units) else {
        return sheet.absent(name, format!("the table has no row for position {position}"));
    };
    let cell = format!("column {column}, position {position}");
    show("largest-single-run-fillet", limits.single_run_fillet, &cell, sheet);
    show("thickest-root-run", limits.root, &cell, sheet);
    show("thickest-fill-run", limits.fill, &cell, sheet);
    plan(name, joint, (&limits, &cell), sheet);
}

fn show<K: Kind>(name: &str, limit: Option<SizeLimit<Quantity<K>>>, cell: &str, sheet: &mut Sheet) {
    match limit {
        Some(SizeLimit::AtMost(size)) => {
            sheet.at_most::<_, RunPlanError>(name, Ok(size), &PREQUALIFIED, &[cell]);
        }
        Some(SizeLimit::Unlimited) => {
            sheet.words(name, vec!["unlimited".to_owned()], &PREQUALIFIED, &[cell]);
        }
        None => sheet.absent(name, format!("the table has no entry: {cell}")),
    }
}

/// Runs within limits. A limit that is not known leaves the number unknown.
fn plan(
    name: &str,
    asked: &Asked<'_>,
    (limits, basis): (&PrequalifiedLimits, &str),
    sheet: &mut Sheet,
) {
    let planned = match (asked.joint.fillet(), &asked.sides) {
        (Some(_), _) if limits.single_run_fillet.is_none() => {
            return sheet.absent(name, "the largest leg of one run is not known");
        }
        (Some(fillet), _) => {
            let leg = fillet.leg.max(fillet.other_leg);
            let plan = fillet_runs(asked.total, asked.one, leg, limits.single_run_fillet);
            plan.map(|plan| (plan.runs, set_by(&plan)))
        }
        (None, Some(sides)) if limits.root.is_some() && limits.fill.is_some() => {
            asked.groove(sides, limits)
        }
        (None, _) => {
            return sheet.absent(name, "the thickest root layer or fill layer is not known");
        }
    };
    let set_by = planned.as_ref().map(|(_, words)| words.clone()).unwrap_or_default();
    let runs = planned.map(|(runs, _)| runs);
    sheet.count(name, runs, &NUMBER_OF_RUNS, &["at least so many", &set_by, basis]);
}
