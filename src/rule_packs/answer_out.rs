//! Rule packs as sent.

use serde::Serialize;
use utoipa::ToSchema;

use super::PackInUse;
use crate::{
    qualify::{OpenClause, Pack},
    trade::Coded,
};

/// Which rules an answer rests on.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct PackReference {
    /// Stable name.
    #[schema(example = "iso-15614-1-2017-level-2")]
    pub key: String,
    /// Title in words.
    pub title: String,
    /// The code.
    #[schema(example = "ISO 15614-1")]
    pub code: String,
    /// Its edition; records of another edition are not judged by these rules.
    #[schema(example = "2017+A1:2019")]
    pub edition: String,
    /// Level, where the code has levels.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(example = "2")]
    pub level: Option<&'static str>,
}

/// A clause that no rule covers: nothing is judged by it here.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct OpenClauseOut {
    /// Clause or row.
    pub clause: String,
    /// What it is about, and why it is left out.
    pub what: String,
}

/// A rule pack and how far it can be relied on.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RulePackOut {
    /// Which one.
    #[serde(flatten)]
    pub pack: PackReference,
    /// Revision, where the organisation wrote the pack.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub own_revision: Option<i32>,
    /// Whether the organisation took its own pack out of use; it supports nothing then.
    pub is_withdrawn: bool,
    /// `tested`: judges by qualification records; `prequalified`: fixed limits, without a test.
    #[schema(example = "tested")]
    pub route: &'static str,
    /// Units that the code prints tables for.
    pub units: Vec<&'static str>,
    /// Where the figures were read.
    pub sources: Vec<String>,
    /// Number of rules.
    pub rules: usize,
    /// Number of cells: rows of tables, entries of maps, one for any other rule.
    pub cells: usize,
    /// Cells from memory, of those, that the organisation has not signed: to be compared with the printed code
    /// before they are relied on.
    pub cells_from_memory: usize,
    /// Their share, 0 to 1.
    #[schema(example = 0.25)]
    pub share_from_memory: f64,
    /// Clauses covered.
    pub clauses_covered: Vec<String>,
    /// Clauses left out.
    pub clauses_not_covered: Vec<OpenClauseOut>,
}

impl PackReference {
    /// A pack by its name.
    #[must_use]
    pub fn of(pack: &Pack) -> Self {
        Self {
            key: pack.key.clone(),
            title: pack.title.clone(),
            code: pack.code.name.clone(),
            edition: pack.code.edition.clone(),
            level: pack.level.map(Coded::code),
        }
    }
}

impl OpenClauseOut {
    /// A clause as the pack has it.
    #[must_use]
    pub fn of(open: &OpenClause) -> Self {
        Self { clause: open.clause.clone(), what: open.what.clone() }
    }
}

impl RulePackOut {
    pub(super) fn of(found: &PackInUse) -> Self {
        let pack = &*found.pack;
        let standing = pack.standing();
        Self {
            pack: PackReference::of(pack),
            own_revision: found.revision,
            is_withdrawn: found.is_withdrawn,
            route: pack.route.code(),
            units: pack.systems.iter().map(|system| system.code()).collect(),
            sources: pack.sources.clone(),
            rules: standing.rules,
            cells: standing.cells,
            cells_from_memory: standing.cells_from_memory,
            share_from_memory: share(standing.cells_from_memory, standing.cells),
            clauses_covered: standing.clauses,
            clauses_not_covered: standing.open.iter().map(OpenClauseOut::of).collect(),
        }
    }
}

/// A share of cells, to three digits.
fn share(part: usize, whole: usize) -> f64 {
    let thousandths = (part * 1000).checked_div(whole).unwrap_or_default();
    u32::try_from(thousandths).map_or(0.0, f64::from) / 1000.0
}
