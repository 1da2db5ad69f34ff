//! Advice as sent.

use serde::Serialize;
use utoipa::ToSchema;

use super::{
    remedy_out::RemedyOut,
    technique_out::{TechniqueOut, technique},
};
use crate::{
    check::{Book, Setup, Verdict, cautions},
    checks::{CautionOut, HeldToOut, RulebookOut},
    http::problem::Problem,
    trade::{Advice, Cause, Coded, Process, Symptom},
    window::Governing,
    windows::{ObstacleOut, obstacle},
    wire::Units,
};

/// What advice is not.
const CAUTION: &str = "Advice never widens a procedure and never forbids. Change one thing at a time, and have \
the changed setup checked before the arc. The approved procedure, the governing code, local rules and a \
qualified person's judgement govern.";

/// A possible cause and what to do about it.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct CauseOut {
    /// The cause in a few words.
    #[schema(example = "volts too high")]
    pub cause: &'static str,
    /// What to do, first things first.
    pub remedies: Vec<RemedyOut>,
    /// Where it is printed, or that there is no source.
    pub source: &'static str,
    /// How well it was confirmed.
    pub confidence: &'static str,
}

/// What a symptom may come from, and what may be changed.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct AdviceAnswer {
    /// The symptom.
    #[schema(example = "worm-tracks")]
    pub symptom: &'static str,
    /// Process that the advice is for.
    #[schema(example = "136")]
    pub process: &'static str,
    /// Verdict on the setup as it was sent.
    #[schema(example = "allowed")]
    pub verdict: &'static str,
    /// Procedure revision and run limits that changes were cut to; left out where none governs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub held_to: Option<HeldToOut>,
    /// What stands in the way whatever is set, such as a wrong gas: put that right first.
    pub obstacles: Vec<ObstacleOut>,
    /// Possible causes, in the order to check them; none where the symptom does not concern the process.
    pub causes: Vec<CauseOut>,
    /// Usual technique for process and position, by variable.
    pub technique: Vec<TechniqueOut>,
    /// Cautions that apply.
    pub cautions: Vec<CautionOut>,
    /// What goes with the advice.
    pub caution: &'static str,
    /// Records the answer rests on.
    pub rulebook: RulebookOut,
    /// The records are too old: no value is given.
    pub stale: bool,
}

/// What the advice rests on.
pub(super) struct Ground<'a> {
    pub(super) setup: &'a Setup,
    pub(super) book: &'a Book,
    pub(super) process: Process,
    pub(super) verdict: Verdict,
    pub(super) governing: Option<&'a Governing<'a>>,
    pub(super) units: Units,
}

impl AdviceAnswer {
    pub(super) fn new(
        symptom: Symptom,
        causes: &[Cause],
        practice: &[Advice],
        ground: &Ground<'_>,
        (rulebook, stale): (RulebookOut, bool),
    ) -> Result<Self, Problem> {
        let Ground { setup, book, process, governing, .. } = *ground;
        let consumable = setup.filler.consumable.as_ref();
        let consumable = consumable.and_then(|code| book.consumables.get(code)).map(AsRef::as_ref);
        let verdict =
            if stale { ground.verdict.max(Verdict::Undetermined) } else { ground.verdict };
        let obstacles = governing.map(|case| case.obstacles.iter().map(obstacle).collect());
        let causes = causes.iter().map(|cause| CauseOut::new(cause, ground));
        Ok(Self {
            symptom: symptom.code(),
            process: process.code(),
            verdict: verdict.code(),
            held_to: governing.map(held_to),
            obstacles: obstacles.unwrap_or_default(),
            causes: causes.collect::<Result<_, _>>()?,
            technique: technique(practice, ground),
            cautions: cautions(setup, Some(process), consumable)
                .into_list()
                .map(CautionOut::from)
                .collect(),
            caution: CAUTION,
            rulebook,
            stale,
        })
    }
}

impl CauseOut {
    fn new(cause: &Cause, ground: &Ground<'_>) -> Result<Self, Problem> {
        let remedies = cause.remedies.iter().map(|remedy| RemedyOut::new(remedy, ground));
        Ok(Self {
            cause: cause.in_words,
            remedies: remedies.collect::<Result<_, _>>().map_err(Problem::internal)?,
            source: cause.source,
            confidence: cause.confidence.code(),
        })
    }
}

fn held_to(case: &Governing<'_>) -> HeldToOut {
    HeldToOut {
        procedure: case.procedure.clone(),
        revision: case.revision,
        run_classes: case.run_classes.iter().map(|class| class.code()).collect(),
    }
}
