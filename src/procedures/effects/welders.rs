//! Welders who could weld by the revision in force and lack a qualification for what the next one adds.

use serde::Serialize;
use time::Date;
use utoipa::ToSchema;

use crate::{
    check::{
        Book,
        record::{Procedure, Welder},
    },
    qualify::welder::{WelderJob, WelderRuling},
    quantity::Thickness,
    trade::{JointKind, Position},
};

/// A welder, and the jobs of the new revision that no qualification of the person covers.
#[derive(Debug, PartialEq, Eq, Serialize, ToSchema)]
pub struct UncoveredWelderOut {
    /// Code of the welder.
    #[schema(example = "W-11")]
    pub welder: String,
    /// The jobs, and what is not covered of each.
    #[schema(example = json!(["fillet PF: position PF is not in PA, PB (ISO 9606-1:2012, 5.8, table 10)"]))]
    pub jobs: Vec<String>,
}

/// One job by a revision: joint, position, and an end of the thickness.
struct Job {
    joint: JointKind,
    position: Position,
    thickness: Option<Thickness>,
    asked: WelderJob,
}

/// Welders whom a revision in force leaves some job of, in the order of their codes, with the jobs of the next
/// revision that they are outside of and were not outside of before. What a job does not state (product, filler,
/// layers) is not judged here, and names nobody.
pub(super) fn uncovered(book: &Book, next: &Procedure, day: Date) -> Vec<UncoveredWelderOut> {
    let before: Vec<_> = book
        .procedures
        .revisions(&next.number)
        .iter()
        .filter(|own| own.revision != next.revision)
        .flat_map(|own| jobs(own))
        .collect();
    let after = jobs(next);
    let mut all: Vec<_> = book
        .welders
        .values()
        .filter_map(|welder| {
            let could = before.iter().any(|job| outside(welder, job, day).is_none());
            let stays_out = |new: &Job| {
                before.iter().any(|old| old.is(new) && outside(welder, old, day).is_some())
            };
            let of_one = |job: &Job| {
                let why = outside(welder, job, day).filter(|_| !stays_out(job))?;
                Some(format!("{}: {why}", job.words()))
            };
            let mut jobs: Vec<_> = after.iter().filter_map(of_one).collect();
            jobs.dedup();
            let welder = welder.code.clone();
            (could && !jobs.is_empty()).then_some(UncoveredWelderOut { welder, jobs })
        })
        .collect();
    all.sort_by(|a, b| a.welder.cmp(&b.welder));
    all
}

fn jobs(procedure: &Procedure) -> Vec<Job> {
    let range = procedure.thickness;
    let ends = [range.and_then(|range| range.min()), range.and_then(|range| range.max())];
    // Without a stated thickness there is still the job.
    let ends: &[Option<Thickness>] = match ends {
        [None, None] => &[None],
        [Some(_), Some(_)] => &ends,
        [Some(_), None] => &ends[..1],
        [None, Some(_)] => &ends[1..],
    };
    let mut all = Vec::new();
    for joint in &procedure.joints {
        for position in &procedure.positions {
            for thickness in ends {
                let asked = WelderJob {
                    process: Some(procedure.process),
                    weld: Some(*joint),
                    positions: vec![*position],
                    thicknesses: thickness.map(|one| vec![one, one]).unwrap_or_default(),
                    ..WelderJob::default()
                };
                all.push(Job { joint: *joint, position: *position, thickness: *thickness, asked });
            }
        }
    }
    all
}

impl Job {
    fn is(&self, other: &Self) -> bool {
        self.joint == other.joint
            && self.position == other.position
            && self.thickness == other.thickness
            && self.asked.process == other.asked.process
    }

    fn words(&self) -> String {
        let thickness = self.thickness.map(|one| format!(" {one}")).unwrap_or_default();
        format!("{} {}{thickness}", self.joint, self.position)
    }
}

/// What keeps a welder from a job; `None` where nothing is known to.
fn outside(welder: &Welder, job: &Job, day: Date) -> Option<String> {
    let Some((qualification, proof)) = welder.best_proof(&job.asked, day) else {
        return Some("no qualification is recorded".to_owned());
    };
    if proof.ruling() != WelderRuling::Outside {
        return None;
    }
    let first = proof.judgement.with(WelderRuling::Outside).next();
    Some(first.map_or_else(
        || "the qualification does not hold".to_owned(),
        |one| {
            let (code, clause) = (&qualification.range.code, &one.clause);
            format!("{} {} is not in {} ({code}, {clause})", one.variable, one.given, one.allowed)
        },
    ))
}
