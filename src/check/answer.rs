//! The answer to "may I weld like this?".

use std::sync::Arc;

use super::{Cautions, Figures, Finding, Verdict};
use crate::trade::RunClass;

/// What the findings of an answer were held to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HeldTo {
    /// Number of the procedure.
    pub procedure: String,
    /// Its revision.
    pub revision: u32,
    /// Runs the limits are for: the stated one, or where none is stated, those of the limits the
    /// setup meets best. Empty where the procedure has no limits for the stated run.
    pub run_classes: Vec<RunClass>,
}

/// Another procedure revision the setup was held to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Candidate {
    /// Which one.
    pub held_to: HeldTo,
    /// Its verdict.
    pub verdict: Verdict,
    /// Required limits that are not met.
    pub breaches: usize,
    /// Required limits that are missing, or that the setup does not speak about.
    pub unknowns: usize,
}

/// A procedure revision that covers all facts of the job but one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NearMiss {
    /// Number of the procedure.
    pub procedure: String,
    /// Its revision.
    pub revision: u32,
    /// Codes of the checks that fail.
    pub checks: Vec<&'static str>,
}

/// Verdict, reasons, figures and cautions for one setup.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// The verdict over the findings.
    pub verdict: Verdict,
    /// What the findings were held to; `None` where no procedure revision could be found.
    pub held_to: Option<HeldTo>,
    /// Findings of one procedure revision and one set of run limits, in the order of the checks.
    pub findings: Vec<Finding>,
    /// Computed figures, and why others are absent.
    pub figures: Arc<Figures>,
    /// Cautions that apply.
    pub cautions: Cautions,
    /// The other revisions tried: by verdict, then fewer breaches, fewer unknowns, number, and the
    /// newer revision first.
    pub candidates: Vec<Candidate>,
    /// Revisions that nearly cover the job, by number and revision; at most ten.
    pub near_misses: Vec<NearMiss>,
}
