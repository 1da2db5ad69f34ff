//! The written form of a rule pack, TOML. An unknown field is an error, so that a slip of the pen is not
//! a rule left out.

use std::collections::BTreeMap;

use serde::Deserialize;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct PackFile {
    pub key: String,
    pub title: String,
    pub code: String,
    pub edition: String,
    pub level: Option<String>,
    #[serde(default = "tested")]
    pub route: String,
    pub systems: Vec<String>,
    pub processes: Vec<String>,
    pub sources: Vec<String>,
    #[serde(default)]
    pub open: Vec<OpenFile>,
    pub rule: Vec<RuleFile>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::qualify) struct OpenFile {
    pub clause: String,
    pub what: String,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct RuleFile {
    pub id: String,
    pub clause: String,
    pub variable: String,
    #[serde(default = "essential")]
    pub class: String,
    pub confidence: String,
    pub per: String,
    pub note: Option<String>,
    pub one_of: Option<String>,
    #[serde(default)]
    pub high_low: bool,
    #[serde(default)]
    pub when: WhenFile,
    pub limit: LimitFile,
}

fn tested() -> String {
    "tested".to_owned()
}

fn essential() -> String {
    "essential".to_owned()
}

#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case", default)]
pub(super) struct WhenFile {
    pub process: Vec<String>,
    pub weld: Vec<String>,
    pub for_weld: Vec<String>,
    pub for_product: Vec<String>,
    pub product: Vec<String>,
    pub penetration: Option<String>,
    pub post_heated: Option<bool>,
    pub run_thicker_than: Option<SizeFile>,
    pub layering: Option<String>,
    pub for_layering: Option<String>,
    pub impact: Option<bool>,
    pub impact_below: Option<f64>,
    pub hardness: Option<bool>,
    pub impact_or_hardness: Option<bool>,
    pub tested: Vec<String>,
    pub not_tested: Vec<String>,
    pub metal_group: Vec<u8>,
    pub not_metal_group: Vec<u8>,
    pub not_treatment: Vec<String>,
    pub form: Vec<String>,
    pub transfer: Vec<String>,
    pub not_transfer: Vec<String>,
    pub position: Vec<String>,
    pub for_position: Vec<String>,
    pub not_for_position: Vec<String>,
    #[serde(rename = "for")]
    pub given: BTreeMap<String, Vec<String>>,
}

#[derive(Debug, Clone, Copy, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::qualify) struct SizeFile {
    pub metric: Option<f64>,
    pub us: Option<f64>,
}

#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum LimitFile {
    Percent(PercentFile),
    Shift(ShiftFile),
    Table(TableFile),
    Same,
    SameClass(ClassesFile),
    Ordered(OrderedFile),
    MemberOf(MembersFile),
    Coverage(CoverageFile),
    MetalPairs(MetalPairsFile),
    GasWindow(GasWindowFile),
    Fixed(FixedFile),
    BySize(BySizeFile),
    Spread(SpreadFile),
    Positions(PositionsFile),
    Tested(TestedFile),
    Stated(StatedFile),
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PercentFile {
    pub minus: Option<f64>,
    pub plus: Option<f64>,
    pub of: Option<String>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct StepFile {
    pub minus: Option<f64>,
    pub plus: Option<f64>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ShiftFile {
    pub of: Option<String>,
    pub metric: Option<StepFile>,
    pub us: Option<StepFile>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct TableFile {
    pub by: String,
    pub and_by: Option<String>,
    pub thicker_part_unlimited_from: Option<f64>,
    #[serde(default)]
    pub runs_alike_in: Vec<String>,
    pub metric: Option<Vec<RowFile>>,
    pub us: Option<Vec<RowFile>>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct RowFile {
    pub above: Option<f64>,
    pub from: Option<f64>,
    pub below: Option<f64>,
    pub up_to: Option<f64>,
    pub and_from: Option<f64>,
    pub and_below: Option<f64>,
    pub min: Option<String>,
    pub max: Option<String>,
    pub max_below: Option<String>,
    pub confidence: Option<String>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ClassesFile {
    pub classes: Vec<Vec<String>>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct OrderedFile {
    pub order: Vec<String>,
    pub allow: String,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct MembersFile {
    pub values: Vec<String>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CoverageFile {
    pub covers: BTreeMap<String, Vec<String>>,
    #[serde(default)]
    pub others: Option<String>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct MetalPairsFile {
    pub covers: BTreeMap<String, Vec<String>>,
    pub doubtful: BTreeMap<String, Vec<String>>,
    pub equal_or_lower_yield: Vec<u8>,
    pub same_or_lower_sub_group: Vec<u8>,
    pub same_sub_group: Vec<u8>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct GasWindowFile {
    pub relative: BTreeMap<String, f64>,
    pub free: f64,
}

#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct EndsFile {
    pub above: Option<f64>,
    pub min: Option<f64>,
    pub max: Option<f64>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FixedFile {
    pub metric: Option<EndsFile>,
    pub us: Option<EndsFile>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct BySizeFile {
    pub by: String,
    pub metric: Option<Vec<SizeRowFile>>,
    pub us: Option<Vec<SizeRowFile>>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct SizeRowFile {
    pub above: Option<f64>,
    pub from: Option<f64>,
    pub below: Option<f64>,
    pub up_to: Option<f64>,
    pub min: Option<f64>,
    pub max: Option<f64>,
    pub confidence: Option<String>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SpreadFile {
    pub minus: f64,
    pub plus: f64,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct PositionsFile {
    pub high: Vec<String>,
    pub low: Vec<String>,
    pub both: Vec<String>,
    pub own_test: Vec<String>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct TestedFile {
    #[serde(default)]
    pub all_of: Vec<String>,
    #[serde(default)]
    pub any_of: Vec<String>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct StatedFile {
    pub question: String,
}
