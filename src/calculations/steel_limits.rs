//! `POST /v1/calculations/steel-limits`

use super::{Sheet, endpoint::calculation};
use crate::{
    quantity::{Thickness, UnitSystem},
    trade::{
        GREATEST_CEV, INTERPASS_AWS, INTERPASS_PRACTICE, INTERPASS_US_NAVY, SteelCondition,
        StructuralGrade, greatest_cev, interpass_by_aws, interpass_by_practice,
        interpass_by_us_navy,
    },
    wire::wire_object,
};

wire_object! {
    /// A steel whose printed limits are wanted.
    pub struct SteelLimitsIn {
        /// Grade of EN 10025-2, for its greatest carbon equivalent.
        pub grade: Option<StructuralGrade>,
        /// Condition, for the highest interpass temperature.
        pub condition: Option<SteelCondition>,
        /// Nominal thickness.
        pub thickness: Option<Thickness>,
        /// Columns of AWS D1.1 that the code is applied in; metric where left out.
        pub columns: Option<UnitSystem>,
    }
}

calculation! {
    /// Printed limits of a steel: the greatest carbon equivalent of its grade, and the highest interpass
    /// temperature by each source that has one, side by side. What the steelmaker states and the approved
    /// procedure go before them.
    "/v1/calculations/steel-limits", find_steel_limits(SteelLimitsIn) => fill,
    summary: "Limits of a steel",
    example: { "grade": "S355", "condition": "normalised-or-thermomechanical", "thickness": "40 mm" }
}

fn fill(sent: &SteelLimitsIn, sheet: &mut Sheet) {
    let thickness = sent.thickness.ok_or_else(|| "the thickness is missing".to_owned());
    let grade = sent.grade.ok_or_else(|| "the grade is missing".to_owned());
    let cev = grade.and_then(|grade| {
        greatest_cev(grade, thickness.clone()?).map_err(|error| error.to_string())
    });
    sheet.at_most("greatest-cev", cev, &GREATEST_CEV, &[]);
    let condition = sent.condition.ok_or_else(|| "the condition is missing".to_owned());
    let columns = sent.columns.unwrap_or(UnitSystem::Metric);
    let aws = condition.clone().and_then(|condition| {
        interpass_by_aws(condition, thickness?, columns).map_err(|error| error.to_string())
    });
    sheet.at_most("interpass-maximum-aws-d1-1", aws, &INTERPASS_AWS, &[]);
    let navy = condition
        .clone()
        .and_then(|condition| interpass_by_us_navy(condition).map_err(|error| error.to_string()));
    sheet.at_most("interpass-maximum-us-navy", navy, &INTERPASS_US_NAVY, &[]);
    let practice = condition
        .and_then(|condition| interpass_by_practice(condition).map_err(|error| error.to_string()));
    sheet.at_most_within("interpass-maximum-practice", practice, &INTERPASS_PRACTICE, &[]);
}
