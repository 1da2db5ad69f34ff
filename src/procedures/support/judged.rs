//! The judgement that a release keeps: the floor is held to it, whatever happens to the records later.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// A qualification record as it was judged.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct RecordJudgedBy {
    /// Number of the record.
    #[schema(example = "PQR-37")]
    pub record: String,
    /// Its signed revision.
    pub revision: i32,
    /// SHA-256 of that revision's document.
    pub document_hash: String,
}

/// A clause by which something could not be judged.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct NotJudgedClause {
    /// The clause, or a code without rules here.
    #[schema(example = "8.4.4")]
    pub clause: String,
    /// The fact that is missing, and whose it is.
    pub missing: String,
}

/// A rule that was only remembered, and that nobody had signed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct RememberedRule {
    /// Id of the rule; `POST /v1/rule-packs/{key}/signatures` signs it.
    #[schema(example = "width-wire-vertical")]
    pub rule: String,
    /// Its clause.
    #[schema(example = "Table 5.1, layer width")]
    pub clause: String,
}

/// The judgement made when a revision was released.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct JudgedAtRelease {
    /// The rules in words.
    #[schema(example = "ISO 15614-1:2017+A1:2019, level 2")]
    pub rules: String,
    /// Key of the rules.
    pub pack: String,
    /// Whether the rules are fixed limits of the code, without a test.
    #[serde(default)]
    pub prequalified: bool,
    /// `qualified`, `needs-a-revised-procedure` or `not-judged`.
    #[schema(example = "qualified")]
    pub ruling: String,
    /// The records.
    pub records: Vec<RecordJudgedBy>,
    /// Test pieces that qualify it.
    pub pieces: Vec<String>,
    /// Clauses that it is inside of.
    pub clauses: Vec<String>,
    /// What could not be judged: until somebody vouches for it, no check is allowed.
    pub not_judged: Vec<NotJudgedClause>,
    /// Whether a limit it is inside of was only remembered: until somebody accepts it, no check is allowed.
    pub rests_on_memory: bool,
    /// These limits.
    #[serde(default)]
    pub remembered: Vec<RememberedRule>,
    /// Rules it is inside of that the organisation had signed.
    #[serde(default)]
    pub signed_rules: Vec<String>,
    /// Revision of the rules, where the organisation wrote them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pack_revision: Option<i32>,
    /// SHA-256 of the rules as they were written.
    #[serde(default)]
    pub pack_hash: String,
}

impl JudgedAtRelease {
    /// Whether a person has to vouch for a part of it before a check can be allowed.
    pub(in crate::procedures) fn needs_signature(&self) -> bool {
        self.rests_on_memory || !self.not_judged.is_empty()
    }

    /// Where no judgement was kept: nothing was judged.
    pub(super) fn none() -> Self {
        let every = NotJudgedClause {
            clause: "every clause".to_owned(),
            missing: "the release kept no judgement".to_owned(),
        };
        Self {
            rules: "no rules".to_owned(),
            pack: String::new(),
            prequalified: false,
            ruling: String::new(),
            records: Vec::new(),
            pieces: Vec::new(),
            clauses: Vec::new(),
            not_judged: vec![every],
            rests_on_memory: false,
            remembered: Vec::new(),
            signed_rules: Vec::new(),
            pack_revision: None,
            pack_hash: String::new(),
        }
    }
}
