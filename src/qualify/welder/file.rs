//! The written form of a welder's rule pack, TOML. An unknown field is an error, so that a slip of the pen is
//! not a rule left out.

use std::collections::BTreeMap;

use serde::Deserialize;

use crate::qualify::pack::file::{OpenFile, SizeFile};

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct PackFile {
    pub key: String,
    pub title: String,
    pub code: String,
    pub edition: String,
    pub person: String,
    pub systems: Vec<String>,
    pub us_position_letters: bool,
    pub sources: Vec<String>,
    #[serde(default)]
    pub open: Vec<OpenFile>,
    pub confirmation: ConfirmationFile,
    #[serde(default)]
    pub revalidation: Vec<RevalidationFile>,
    pub rule: Vec<RuleFile>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct ConfirmationFile {
    pub clause: String,
    pub every_months: u32,
    pub use_suffices: bool,
    pub confidence: String,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct RevalidationFile {
    pub option: String,
    pub clause: String,
    pub way: String,
    pub every_years: Option<u32>,
    pub confidence: String,
    pub note: Option<String>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct RuleFile {
    pub id: String,
    pub clause: String,
    pub variable: String,
    pub confidence: String,
    pub note: Option<String>,
    #[serde(default)]
    pub when: WhenFile,
    pub limit: LimitFile,
}

#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case", default)]
pub(super) struct WhenFile {
    pub process: Vec<String>,
    pub weld: Vec<String>,
    pub product: Vec<String>,
    pub transfer: Vec<String>,
    pub mechanisation: Vec<String>,
    pub position: Vec<String>,
    pub diameter_up_to: Option<SizeFile>,
    pub diameter_above: Option<SizeFile>,
    pub for_weld: Vec<String>,
    pub for_product: Vec<String>,
    pub for_backing: Vec<String>,
    pub for_position: Vec<String>,
    pub not_for_position: Vec<String>,
    pub for_rotating: Option<bool>,
    pub for_pipe_up_to: Option<SizeFile>,
    pub not_for_pipe_up_to: Option<SizeFile>,
}

#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum LimitFile {
    Same,
    /// What a person of the pack's kind works with.
    OfPerson,
    Classes(Vec<Vec<String>>),
    Covers(BTreeMap<String, Vec<String>>),
    Table(TableFile),
    /// The code has a rule here that the pack does not hold.
    NotHeld(String),
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TableFile {
    pub by: Option<String>,
    pub metric: Option<Vec<RowFile>>,
    pub us: Option<Vec<RowFile>>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct RowFile {
    pub from: Option<f64>,
    pub above: Option<f64>,
    pub below: Option<f64>,
    pub up_to: Option<f64>,
    pub layers_from: Option<u32>,
    pub layers_below: Option<u32>,
    pub min: Option<String>,
    pub max: Option<String>,
    #[serde(default)]
    pub free: bool,
}
