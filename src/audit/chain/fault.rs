//! What can be wrong with a chain.

use serde::Serialize;
use utoipa::ToSchema;

use crate::trade::{Coded, coded};

coded! {
    /// What is wrong.
    pub enum FaultKind: "fault of an audit chain" {
        /// What an entry says is not what its hash was taken over.
        EntryAltered = "entry-altered",
        /// A number is missing between two entries.
        EntryMissing = "entry-missing",
        /// An entry comes again, or after a later one.
        EntryOutOfOrder = "entry-out-of-order",
        /// An entry was written after an entry with another hash than the one before it now.
        LinkBroken = "link-broken",
        /// Something knows a later entry than the last one.
        ChainCutOff = "chain-cut-off",
        /// The head does not say what the last entry is.
        HeadAltered = "head-altered",
        /// A head that was kept from before is not in the chain: it was rewritten or shortened since.
        HeadNotInChain = "head-not-in-chain",
        /// A document is not the one that the entry names by its hash.
        DocumentAltered = "document-altered",
        /// A document that an entry names is not there.
        DocumentMissing = "document-missing",
        /// A revision, kept check or attachment is there that no entry names.
        DocumentNotInChain = "document-not-in-chain",
        /// The details of an entry are not those that it names by their hash.
        DetailsAltered = "details-altered",
        /// The details that an entry names are not there.
        DetailsMissing = "details-missing",
        /// A reason, date, signature, judgement or role is no longer what the entry's details tell.
        RowAltered = "row-altered",
        /// An event, judgement, signature, person or key is there that no entry tells of.
        RowNotInChain = "row-not-in-chain",
        /// Where a record stands is not what its revisions, events and entries add up to.
        StandingAltered = "standing-altered",
        /// A line of an export cannot be read.
        LineUnreadable = "line-unreadable",
    }
}

/// One thing that is wrong.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct Fault {
    /// What is wrong: `entry-altered`, `entry-missing`, `entry-out-of-order`, `link-broken`, `chain-cut-off`,
    /// `head-altered`, `head-not-in-chain`, `document-altered`, `document-missing`,
    /// `document-not-in-chain`, `details-altered`, `details-missing`, `row-altered`, `row-not-in-chain`,
    /// `standing-altered` or `line-unreadable`.
    #[schema(example = "document-altered")]
    #[serde(rename = "fault")]
    pub what: &'static str,
    /// Number of the entry concerned.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub entry: Option<i64>,
    /// Kind of record concerned.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(example = "procedure")]
    pub kind: Option<String>,
    /// Which record.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(example = "WPS-1")]
    pub subject: Option<String>,
    /// Revision concerned.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub revision: Option<i64>,
    /// In words.
    pub detail: String,
}

impl Fault {
    /// A fault of the chain as a whole.
    pub(in crate::audit) fn new(kind: FaultKind, detail: impl Into<String>) -> Self {
        Self {
            what: kind.code(),
            entry: None,
            kind: None,
            subject: None,
            revision: None,
            detail: detail.into(),
        }
    }

    /// The same, at an entry.
    pub(in crate::audit) fn at(self, entry: i64) -> Self {
        Self { entry: Some(entry), ..self }
    }

    /// The same, about a record.
    pub(in crate::audit) fn about(
        self,
        kind: impl Into<String>,
        subject: impl Into<String>,
        revision: Option<i64>,
    ) -> Self {
        Self { kind: Some(kind.into()), subject: Some(subject.into()), revision, ..self }
    }
}

impl std::fmt::Display for Fault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if let Some(entry) = self.entry {
            write!(f, "entry {entry}: ")?;
        }
        write!(f, "{}", self.what)?;
        if let (Some(kind), Some(subject)) = (&self.kind, &self.subject) {
            write!(f, ", {kind} {subject}")?;
        }
        if let Some(revision) = self.revision {
            write!(f, " revision {revision}")?;
        }
        write!(f, ": {}", self.detail)
    }
}
