//! One box against a proposal, and which box supports it best.

use super::{Finding, Ruling, Standing, alike, coupled, fit, reach, sized};
use crate::{
    qualify::{
        Limit, Proposal, ProposedRun, QualifiedBox, QualifiedVariable, VariableClass,
        derive::Applies,
        facts::{Fact, proposed_joint, proposed_parts, proposed_process, proposed_run},
        range::{Allowed, Missing, PieceReference, RunBox, Whose},
        variable::Home,
    },
    trade::{Confidence, Position, Process},
};

/// A proposal against one box.
#[derive(Debug, Clone, PartialEq)]
pub struct BoxJudgement {
    /// Pieces the box rests on.
    pub pieces: Vec<PieceReference>,
    /// Ruling by this box.
    pub ruling: Ruling,
    /// Whether something essential is inside a limit that was only remembered.
    pub rests_on_memory: bool,
    /// One finding per limit, in the order of the pack.
    pub findings: Vec<Finding>,
}

impl BoxJudgement {
    /// What lies outside.
    pub fn breaches(&self) -> impl Iterator<Item = &Finding> {
        self.findings.iter().filter(|finding| finding.standing == Standing::Outside)
    }

    /// What could not be judged.
    pub fn not_judged(&self) -> impl Iterator<Item = &Finding> {
        self.findings.iter().filter(|finding| matches!(finding.standing, Standing::NotJudged(_)))
    }
}

/// One position against every box.
#[derive(Debug, Clone, PartialEq)]
pub struct PositionJudgement {
    /// The position; `None` where the proposal states none.
    pub position: Option<Position>,
    /// Ruling by the best box.
    pub ruling: Ruling,
    /// Every box, the best one first: what supports the proposal, or comes nearest and what it lacks.
    pub boxes: Vec<BoxJudgement>,
}

pub(super) fn best_first<'a>(
    proposal: &Proposal,
    position: Option<Position>,
    boxes: impl Iterator<Item = &'a QualifiedBox>,
) -> PositionJudgement {
    let mut judged: Vec<_> = boxes.map(|own| one(proposal, position, own)).collect();
    judged.sort_by_key(|own| {
        let essential = own.breaches().filter(|f| f.class != VariableClass::Nonessential).count();
        (
            own.ruling,
            essential,
            own.breaches().count(),
            own.not_judged().count(),
            own.rests_on_memory,
        )
    });
    let best = judged.first().map_or(Ruling::NeedsNewQualification, |own| own.ruling);
    PositionJudgement { position, ruling: best, boxes: judged }
}

fn one(proposal: &Proposal, position: Option<Position>, own: &QualifiedBox) -> BoxJudgement {
    let mut findings = Vec::new();
    // Which processes there are is judged by their own names, all else by the names that the record has.
    let renamed = alike::by_recorded_names(proposal, own);
    for limit in &own.limits {
        let by_name = limit.variable == QualifiedVariable::Process;
        let proposal = if by_name { proposal } else { renamed.as_ref() };
        findings.extend(of_joint(proposal, position, limit));
    }
    let proposal = renamed.as_ref();
    for group in &own.runs {
        for run in &proposal.runs {
            findings.extend(of_run(proposal, position, run, group));
        }
        findings.extend(not_proposed(proposal, group));
    }
    coupled::settle_alternatives(own, proposal, &mut findings);
    let ruling = findings.iter().map(ruling_of).max().unwrap_or(Ruling::NotJudged);
    let remembered = |finding: &Finding| {
        finding.class != VariableClass::Nonessential
            && finding.standing == Standing::Inside
            && finding.confidence == Confidence::Memory
    };
    BoxJudgement {
        pieces: own.pieces.clone(),
        ruling,
        rests_on_memory: findings.iter().any(remembered),
        findings,
    }
}

fn ruling_of(finding: &Finding) -> Ruling {
    match (&finding.standing, finding.class) {
        (Standing::Inside | Standing::Informative, _) => Ruling::Qualified,
        (Standing::Outside, VariableClass::Nonessential) => Ruling::NeedsRevisedProcedure,
        (Standing::Outside, _) => Ruling::NeedsNewQualification,
        (Standing::NotJudged(_), _) => Ruling::NotJudged,
    }
}

/// Findings of a limit of joint or process.
fn of_joint(proposal: &Proposal, position: Option<Position>, limit: &Limit) -> Vec<Finding> {
    let unless = match reach::reaches(&limit.when, proposal, position, None) {
        Applies::No => return Vec::new(),
        Applies::Yes => None,
        Applies::If(missing) => missing.into_iter().next(),
    };
    let resolved = sized::for_proposal(limit, proposal);
    let limit = resolved.as_ref();
    let only_if = unless.as_ref().or_else(|| limit.only_if.first());
    let variable = limit.variable;
    if let Allowed::EachPart(intervals) = &limit.allowed {
        let parts = proposed_parts(proposal);
        let standing = match &parts {
            Some(parts) => fit::each_part(intervals, parts),
            None => Standing::NotJudged(Missing::new(Whose::Proposal, variable.to_string())),
        };
        let given = parts.map(|parts| {
            parts.iter().map(ToString::to_string).collect::<Vec<_>>().join(" beside ")
        });
        return vec![Finding::of(limit, conditional(standing, limit, only_if), given)];
    }
    let own_process = limit.process.filter(|_| variable.home() != Home::Piece);
    // A process that the proposal does not use is not its matter; the rule of processes has it.
    if limit.process.is_some_and(|process| !uses(proposal, process)) {
        return Vec::new();
    }
    let Some(process) = own_process else {
        let thicker = matches!(&limit.allowed, Allowed::Interval(own) if own.thicker_part_free);
        let fact = if thicker {
            fit::thinnest(proposal)
        } else {
            proposed_joint(proposal, position, variable)
        };
        return vec![finding(limit, fact.as_ref(), only_if)];
    };
    if variable == QualifiedVariable::Energy || variable.home() == Home::Run {
        let runs: Vec<_> = proposal.runs.iter().filter(|run| run.process == process).collect();
        let judged = |run: &&ProposedRun| {
            let mut all = if variable == QualifiedVariable::Energy {
                coupled::energy(limit, run)
            } else {
                vec![(limit_finding(limit, proposed_run(run, variable).as_ref()))]
            };
            for own in &mut all {
                own.run_class = run.class;
                own.standing = conditional(own.standing.clone(), limit, only_if);
            }
            all
        };
        if runs.is_empty() {
            return vec![without_runs(limit, process)];
        }
        return runs.iter().flat_map(judged).collect();
    }
    vec![finding(limit, proposed_process(proposal, process, variable).as_ref(), only_if)]
}

/// Limits of runs that the proposal says nothing about, though it deposits with their process.
fn not_proposed(proposal: &Proposal, group: &[RunBox]) -> Vec<Finding> {
    let mut seen = Vec::new();
    let mut all = Vec::new();
    for own in group {
        let process = own.process;
        let stated = proposal.runs.iter().any(|run| run.process == process);
        if seen.contains(&process) || stated || !uses(proposal, process) {
            continue;
        }
        seen.push(process);
        all.extend(own.limits.iter().map(|limit| without_runs(limit, process)));
    }
    all
}

fn without_runs(limit: &Limit, process: Process) -> Finding {
    let missing = Missing::new(Whose::Proposal, format!("runs of process {process}"));
    Finding::of(limit, Standing::NotJudged(missing), None)
}

fn uses(proposal: &Proposal, process: Process) -> bool {
    proposal.deposits.iter().any(|(own, _)| *own == process)
        || proposal.runs.iter().any(|run| run.process == process)
}

fn limit_finding(limit: &Limit, fact: Option<&Fact>) -> Finding {
    let (standing, confidence) = fit::fit(limit, fact);
    let given = fact.map(fit::in_words);
    let mut finding = Finding::of(limit, standing, given);
    finding.confidence = confidence;
    finding
}

fn finding(limit: &Limit, fact: Option<&Fact>, only_if: Option<&Missing>) -> Finding {
    let mut finding = limit_finding(limit, fact);
    finding.standing = conditional(finding.standing, limit, only_if);
    finding
}

/// What lies outside a limit that may not apply, or may be wider, is not judged. What is not known is
/// missing for the reason the limit itself gives.
fn conditional(standing: Standing, limit: &Limit, only_if: Option<&Missing>) -> Standing {
    match (standing, only_if.or(limit.beyond.as_ref())) {
        (Standing::Outside, Some(missing)) => Standing::NotJudged(missing.clone()),
        (standing, _) => standing,
    }
}

/// Runs of one kind against the boxes of one group: the box that fits best.
fn of_run(
    proposal: &Proposal,
    position: Option<Position>,
    run: &ProposedRun,
    group: &[RunBox],
) -> Vec<Finding> {
    let of_process = group.iter().filter(|own| own.process == run.process);
    let judged = of_process.map(|own| in_box(proposal, position, run, own));
    let score = |findings: &Vec<Finding>| {
        let count = |wanted: fn(&Standing) -> bool| {
            findings.iter().filter(|finding| wanted(&finding.standing)).count()
        };
        let outside = count(|standing| *standing == Standing::Outside);
        (outside, count(|standing| matches!(standing, Standing::NotJudged(_))))
    };
    judged.min_by_key(score).unwrap_or_default()
}

fn in_box(
    proposal: &Proposal,
    position: Option<Position>,
    run: &ProposedRun,
    own: &RunBox,
) -> Vec<Finding> {
    use crate::qualify::pack::Per;
    let other_size = size_missing(run, own);
    let other_class = class_missing(run, own);
    let mut all = Vec::new();
    for limit in &own.limits {
        let unless = match reach::reaches(&limit.when, proposal, position, Some(run)) {
            Applies::No => continue,
            Applies::Yes => None,
            Applies::If(missing) => missing.into_iter().next(),
        };
        let only_if = unless.as_ref().or_else(|| limit.only_if.first());
        let fact = proposed_run(run, limit.variable);
        let resolved = sized::for_proposal(limit, proposal);
        let mut found = finding(&resolved, fact.as_ref(), only_if);
        let unfit = match limit.per {
            Per::FillerDiameter => other_size.as_ref(),
            Per::RunClass => other_class.as_ref(),
            _ => None,
        };
        if let Some(missing) = unfit {
            found.standing = Standing::NotJudged(missing.clone());
        }
        found.run_class = run.class;
        all.push(found);
    }
    all
}

/// Limits by filler diameter say nothing about other diameters.
fn size_missing(run: &ProposedRun, own: &RunBox) -> Option<Missing> {
    let recorded = own.diameter;
    let proposed = run.filler.as_ref().and_then(|filler| filler.diameter);
    match (recorded, proposed) {
        (Some(a), Some(b)) if a == b => None,
        (Some(_), Some(b)) => {
            Some(Missing::new(Whose::Record, format!("a run with filler of {b}")))
        }
        (None, _) => Some(Missing::new(Whose::Record, "the filler diameter of the run")),
        (_, None) => Some(Missing::new(Whose::Proposal, "the filler diameter")),
    }
}

fn class_missing(run: &ProposedRun, own: &RunBox) -> Option<Missing> {
    match (own.class, run.class) {
        (Some(a), Some(b)) if a == b => None,
        (_, Some(b)) => Some(Missing::new(Whose::Record, format!("a {b} run"))),
        (_, None) => Some(Missing::new(Whose::Proposal, "the run class")),
    }
}
