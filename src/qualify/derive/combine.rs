//! What two tests qualify together where the code says so: high and low energy, positions of high and low
//! heat input. All other limits of both pieces hold.

use super::{
    Welded,
    results::{Shown, shown},
    words,
};
use crate::qualify::{
    JobFacts, Pack, QualifiedBox,
    facts::processes_of,
    pack::{Rule, RuleKind},
    range::{Allowed, Limit},
    record::{TestKind, TestPiece},
};

/// A box for each two pieces that the code combines.
pub(super) fn pairs(
    welded: &[Welded<'_>],
    boxes: &[QualifiedBox],
    pack: &Pack,
    job: &JobFacts,
) -> Vec<QualifiedBox> {
    let combines = |rule: &Rule| rule.high_low || matches!(rule.kind, RuleKind::Positions(_));
    if !pack.rules.iter().any(combines) {
        return Vec::new();
    }
    let mut all = Vec::new();
    for (i, (a, box_a)) in welded.iter().zip(boxes).enumerate() {
        for (b, box_b) in welded.iter().zip(boxes).skip(i + 1) {
            if processes_of(a.piece) == processes_of(b.piece) {
                all.extend(pair((*a, box_a), (*b, box_b), pack, job));
            }
        }
    }
    all
}

type Tested<'a> = (Welded<'a>, &'a QualifiedBox);

fn pair(a: Tested<'_>, b: Tested<'_>, pack: &Pack, job: &JobFacts) -> Option<QualifiedBox> {
    let mut limits: Vec<_> = a.1.limits.iter().chain(&b.1.limits).cloned().collect();
    let mut gained = false;
    for rule in &pack.rules {
        shared_tests(&mut limits, rule, (a.1, b.1));
        if rule.high_low {
            gained |= wider(&mut limits, rule, (a, b), job);
        }
        if let RuleKind::Positions(positions) = &rule.kind {
            let found = words::positions(positions, &[a.0.piece, b.0.piece], job);
            let (own_a, own_b) = (a.1.limit(&rule.id), b.1.limit(&rule.id));
            let Allowed::Words(together) = &found.allowed else { continue };
            let more = |own: Option<&Limit>| match own.map(|limit| &limit.allowed) {
                Some(Allowed::Words(alone)) => together.iter().any(|word| !alone.contains(word)),
                _ => false,
            };
            if !(more(own_a) && more(own_b)) {
                continue;
            }
            gained = true;
            let working = format!(
                "{} {}: {}",
                rule.variable.label(),
                found.from.as_deref().unwrap_or_default(),
                found.allowed
            );
            limits.retain(|limit| limit.rule != rule.id || own_a == Some(limit));
            for limit in limits.iter_mut().filter(|limit| limit.rule == rule.id) {
                limit.allowed = found.allowed.clone();
                limit.beyond.clone_from(&found.beyond);
                limit.working.clone_from(&working);
            }
        }
    }
    gained.then(|| QualifiedBox {
        pieces: a.1.pieces.iter().chain(&b.1.pieces).cloned().collect(),
        limits,
        runs: a.1.runs.iter().chain(&b.1.runs).cloned().collect(),
        alike: a.1.alike.clone(),
    })
}

/// Impact and hardness specimens may come from either of the two pieces.
fn shared_tests(limits: &mut Vec<Limit>, rule: &Rule, (a, b): (&QualifiedBox, &QualifiedBox)) {
    let both = a.limit(&rule.id).is_some() && b.limit(&rule.id).is_some();
    if !rule.when.not_tested.is_empty() && !both {
        limits.retain(|limit| limit.rule != rule.id);
    }
    let of_switch = rule.when.impact.is_some() || rule.when.hardness.is_some();
    let met = |limit: &Limit| limit.rule == rule.id && limit.allowed == Allowed::Met;
    if matches!(rule.kind, RuleKind::Tested { .. }) && of_switch && limits.iter().any(met) {
        limits.retain(|limit| limit.rule != rule.id || limit.allowed == Allowed::Met);
    }
}

/// Whether the piece shows the tests that a limit is there for: an upper limit of energy rests on impact
/// specimens, a lower one on hardness specimens.
fn shows(piece: &TestPiece, rule: &Rule, job: &JobFacts) -> bool {
    let passed = |kind| shown(piece, kind, job) == Shown::Passed;
    let impact = rule.when.impact != Some(true) || passed(TestKind::Impact);
    let hardness = rule.when.hardness != Some(true) || passed(TestKind::Hardness);
    impact && hardness
}

/// Keeps of the limits of one rule, per process, the wider one: from the lower test downwards and from the
/// higher test upwards, so that what lies between is covered. A piece without the tests adds nothing. Whether
/// that gained anything.
fn wider(
    limits: &mut Vec<Limit>,
    rule: &Rule,
    (a, b): (Tested<'_>, Tested<'_>),
    job: &JobFacts,
) -> bool {
    let own = |tested: Tested<'_>| -> Vec<Limit> {
        tested.1.limits.iter().filter(|limit| limit.rule == rule.id).cloned().collect()
    };
    let kept = match (shows(a.0.piece, rule, job), shows(b.0.piece, rule, job)) {
        (true, false) => own(a),
        (false, true) => own(b),
        (false, false) => return false,
        (true, true) => {
            let mut kept = own(a);
            for new in own(b) {
                let old = kept.iter_mut().find(|known| known.process == new.process);
                match old.map(|old| (is_wider(&new.allowed, &old.allowed), old)) {
                    Some((Some(true), old)) => *old = new,
                    Some((Some(false), _)) => {}
                    // Equal, not known, or of another process: both stay.
                    Some((None, _)) | None => kept.push(new),
                }
            }
            kept
        }
    };
    let before = limits.len();
    limits.retain(|limit| limit.rule != rule.id);
    limits.extend(kept);
    limits.len() < before
}

fn is_wider(new: &Allowed, old: &Allowed) -> Option<bool> {
    let (Allowed::Interval(new), Allowed::Interval(old)) = (new, old) else { return None };
    let order = match (new.min, old.min, new.max, old.max) {
        (None, None, Some(new), Some(old)) => new.amount.compare(old.amount)?,
        (Some(new), Some(old), None, None) => old.amount.compare(new.amount)?,
        _ => return None,
    };
    if order.is_eq() { None } else { Some(order.is_gt()) }
}
