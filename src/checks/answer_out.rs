//! The answer of a check as sent.

use std::borrow::Cow;

use serde::Serialize;
use utoipa::ToSchema;
use uuid::Uuid;

use super::{
    caution_out::{CautionList, CheckCautionOut, Said},
    pointers::pointer,
    rulebook_out::{self, RulebookOut},
};
use crate::{
    check::{Answer, Candidate, Finding, HeldTo, NearMiss, Owner, Telling},
    trade::{Coded, Conformity},
    wire::{AbsentFigureOut, FigureOut, Ready, ShownOut, Units, figures_ready},
};

/// Who set a limit.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct OwnerOut {
    /// Kind of owner.
    #[schema(example = "procedure")]
    pub kind: &'static str,
    /// The owner in words.
    #[schema(example = "procedure WPS-014 revision 2")]
    pub name: Cow<'static, str>,
}

/// What one check says about one limit.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct FindingOut {
    /// Code of the check; the catalogue explains it.
    #[schema(example = "current")]
    pub check: &'static str,
    /// Place of the variable in the setup, as JSON Pointer.
    #[schema(example = "/settings/current")]
    pub pointer: &'static str,
    /// `inside`, `edge-inside`, `edge-outside`, `outside`, `not-given`, `no-limit` or
    /// `not-applicable`.
    #[schema(example = "outside")]
    pub outcome: &'static str,
    /// `required` or `advised`.
    #[schema(example = "required")]
    pub force: &'static str,
    /// What the setup says.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub given: Option<ShownOut>,
    /// What is allowed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub allowed: Option<ShownOut>,
    /// Who set the limit.
    pub owner: OwnerOut,
    /// Why this outcome, in one sentence, with values as typed.
    pub reason: String,
    /// What to change it to.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub remedy: Option<String>,
    /// What may happen otherwise.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub consequence: Option<&'static str>,
    /// The value was measured with an accuracy nobody knows.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub accuracy_unknown: bool,
    /// What the instrument shows of the quantity being inside; for measured values of known accuracy near the
    /// limit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub conformity: Option<ConformityOut>,
}

/// What the instrument shows of the quantity being inside the limit.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ConformityOut {
    /// Probability that the quantity lies inside the limit, from 0 to 1, rounded to a tenth of a percent.
    #[schema(example = 0.923)]
    pub probability: f64,
    /// What the figure of the instrument's accuracy means: `expanded-uncertainty` (normal errors) or
    /// `maximum-permissible-error` (rectangular).
    #[schema(example = "expanded-uncertainty")]
    pub model: &'static str,
    /// Whether some value read with this instrument could prove conformity: `false` where the guard bands
    /// leave nothing of the limit.
    pub provable: bool,
    /// Name of the formula.
    #[schema(example = "conformity-normal")]
    pub formula: &'static str,
    /// Where it is printed.
    pub source: &'static str,
}

/// What the findings were held to.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct HeldToOut {
    /// Number of the procedure.
    #[schema(example = "WPS-014")]
    pub procedure: String,
    /// Its revision.
    pub revision: u32,
    /// Run classes of the limits used.
    pub run_classes: Vec<&'static str>,
}

/// Another procedure revision the setup was held to.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct CandidateOut {
    /// Which one.
    #[serde(flatten)]
    pub held_to: HeldToOut,
    /// Its verdict.
    pub verdict: &'static str,
    /// Required limits that are not met.
    pub breaches: usize,
    /// Required limits that are missing or not given.
    pub unknowns: usize,
}

/// A procedure revision that nearly covers the job.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct NearMissOut {
    /// Number of the procedure.
    pub procedure: String,
    /// Its revision.
    pub revision: u32,
    /// Checks that fail.
    pub checks: Vec<&'static str>,
}

/// The answer to "may I weld like this?".
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct CheckAnswer {
    /// `allowed`, `allowed-with-advice`, `undetermined` or `not-allowed`.
    #[schema(example = "not-allowed")]
    pub verdict: &'static str,
    /// Id of the kept evidence, where the caller asked to keep it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub check_id: Option<Uuid>,
    /// What the findings were held to; left out where no procedure was found.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub held_to: Option<HeldToOut>,
    /// Findings of one procedure revision and one set of run limits. A summary leaves out those that
    /// need nothing.
    pub findings: Vec<FindingOut>,
    /// Computed figures; a summary has their names, values and confidence only.
    #[schema(value_type = Vec<FigureOut>)]
    pub figures: Ready,
    /// Figures that cannot be computed, and why.
    pub absent_figures: Vec<AbsentFigureOut>,
    /// Cautions that apply; a summary leaves out where they are printed, a line of a stream what an earlier one said.
    #[schema(value_type = Vec<CheckCautionOut>)]
    pub cautions: CautionList,
    /// Other procedure revisions tried, best first.
    pub candidates: Vec<CandidateOut>,
    /// Procedures that nearly cover the job; at most ten.
    pub near_misses: Vec<NearMissOut>,
    /// Records the answer rests on.
    #[serde(serialize_with = "rulebook_out::quickly")]
    pub rulebook: RulebookOut,
}

/// How much of an answer is sent.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Detail {
    /// Only findings that need something, no near misses.
    Summary,
    /// Everything.
    Full,
}

impl Detail {
    /// Which findings are told.
    #[must_use]
    pub const fn telling(self) -> Telling {
        match self {
            Self::Summary => Telling::WhatNeedsSomething,
            Self::Full => Telling::Everything,
        }
    }
}

impl CheckAnswer {
    /// The answer in the caller's units; its findings are those that were told.
    ///
    /// # Errors
    /// Where a figure or a caution cannot be written, which none of those there are is.
    pub fn new(
        answer: Answer,
        rulebook: RulebookOut,
        units: Units,
        detail: Detail,
    ) -> Result<Self, serde_json::Error> {
        Self::after(None, answer, rulebook, units, detail)
    }

    /// The same where it is read after others: it does not say again what they `said` of cautions.
    pub(super) fn after(
        said: Option<&mut Said>,
        answer: Answer,
        rulebook: RulebookOut,
        units: Units,
        detail: Detail,
    ) -> Result<Self, serde_json::Error> {
        let full = detail == Detail::Full;
        Ok(Self {
            verdict: answer.verdict.code(),
            check_id: None,
            held_to: answer.held_to.map(held_to),
            findings: answer.findings.into_iter().map(|f| finding(f, units)).collect(),
            figures: figures_ready(&answer.figures.computed, units, !full)?,
            absent_figures: if full {
                answer.figures.absent.iter().map(AbsentFigureOut::from).collect()
            } else {
                Vec::new()
            },
            cautions: CautionList::new(answer.cautions, said, !full)?,
            candidates: answer.candidates.into_iter().map(candidate).collect(),
            near_misses: answer.near_misses.into_iter().map(near_miss).collect(),
            rulebook,
        })
    }

    /// Bytes that hold the text of most answers as this one.
    pub(super) fn room(&self) -> usize {
        const ROOM: usize = 1024;
        self.figures.bytes() + self.cautions.bytes() + ROOM * (1 + self.findings.len())
    }
}

impl From<Owner> for OwnerOut {
    fn from(owner: Owner) -> Self {
        Self { kind: owner.kind.code(), name: owner.name }
    }
}

fn finding(finding: Finding, units: Units) -> FindingOut {
    FindingOut {
        check: finding.check,
        pointer: pointer(finding.variable),
        outcome: finding.outcome.code(),
        force: finding.force.code(),
        given: ShownOut::new(finding.given, units),
        allowed: ShownOut::new(finding.allowed, units),
        owner: finding.owner.into(),
        reason: finding.reason,
        remedy: finding.remedy,
        consequence: finding.consequence,
        accuracy_unknown: finding.accuracy_unknown,
        conformity: finding.conformity.map(ConformityOut::from),
    }
}

impl From<Conformity> for ConformityOut {
    fn from(conformity: Conformity) -> Self {
        let formula = conformity.formula();
        Self {
            probability: (conformity.probability.ratio() * 1000.0).round() / 1000.0,
            model: conformity.model.code(),
            provable: conformity.provable,
            formula: formula.name,
            source: formula.source,
        }
    }
}

fn held_to(held: HeldTo) -> HeldToOut {
    HeldToOut {
        procedure: held.procedure,
        revision: held.revision,
        run_classes: held.run_classes.iter().map(|class| class.code()).collect(),
    }
}

fn candidate(candidate: Candidate) -> CandidateOut {
    CandidateOut {
        held_to: held_to(candidate.held_to),
        verdict: candidate.verdict.code(),
        breaches: candidate.breaches,
        unknowns: candidate.unknowns,
    }
}

/// A revision that nearly covers the job, as sent.
#[must_use]
pub fn near_miss(miss: NearMiss) -> NearMissOut {
    NearMissOut { procedure: miss.procedure, revision: miss.revision, checks: miss.checks }
}
