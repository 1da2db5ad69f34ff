//! The ranges of a procedure as rows: one for each run class and variable.

use rust_decimal::Decimal;
use sqlx::postgres::types::PgRange;

use super::ProcedureDocument;
use crate::{
    check::{Ranges, Variable},
    database::numrange,
    trade::Coded,
};

/// One row of the projection.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct LimitRow {
    pub run_class: &'static str,
    pub variable: &'static str,
    pub allowed: PgRange<Decimal>,
}

/// All rows of a document.
pub(super) fn rows(document: &ProcedureDocument) -> Vec<LimitRow> {
    let mut rows = Vec::new();
    for run in &document.runs {
        let ranges = run.limits.compile();
        for class in &run.classes {
            rows.extend(of(&ranges).into_iter().filter_map(|(variable, allowed)| {
                Some(LimitRow {
                    run_class: class.code(),
                    variable: variable.code(),
                    allowed: allowed?,
                })
            }));
        }
    }
    rows
}

/// Every variable of a set of ranges, canonical.
fn of(ranges: &Ranges) -> [(Variable, Option<PgRange<Decimal>>); 14] {
    [
        (Variable::Current, ranges.current.as_ref().map(numrange)),
        (Variable::Voltage, ranges.voltage.as_ref().map(numrange)),
        (Variable::WireFeed, ranges.wire_feed.as_ref().map(numrange)),
        (Variable::TravelSpeed, ranges.travel_speed.as_ref().map(numrange)),
        (Variable::StickOut, ranges.stick_out.as_ref().map(numrange)),
        (Variable::TravelAngle, ranges.travel_angle.as_ref().map(numrange)),
        (Variable::WorkAngle, ranges.work_angle.as_ref().map(numrange)),
        (Variable::WeaveWidth, ranges.weave_width.as_ref().map(numrange)),
        (Variable::Preheat, ranges.preheat.as_ref().map(numrange)),
        (Variable::Interpass, ranges.interpass.as_ref().map(numrange)),
        (Variable::GasFlow, ranges.gas_flow.as_ref().map(numrange)),
        (Variable::ArcEnergy, ranges.arc_energy.as_ref().map(numrange)),
        (Variable::HeatInput, ranges.heat_input.as_ref().map(numrange)),
        (Variable::ArcPower, ranges.arc_power.as_ref().map(numrange)),
    ]
}
