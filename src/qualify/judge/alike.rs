//! Processes that a code takes as one: the limits of the recorded one hold for the proposed one.

use std::borrow::Cow;

use crate::{
    qualify::{Proposal, QualifiedBox},
    quantity::{Quantity, Range, Thickness, ThicknessKind},
    trade::Process,
};

/// The proposal with each process that the box does not know under the name of one that it knows and the code takes
/// as the same. What several of them deposit adds up.
pub(super) fn by_recorded_names<'a>(
    proposal: &'a Proposal,
    own: &QualifiedBox,
) -> Cow<'a, Proposal> {
    let recorded = |process: &Process| own.runs.iter().flatten().any(|run| run.process == *process);
    let name = |process: Process| {
        let class = own.alike.iter().find(|class| class.contains(&process));
        let known = || class?.iter().copied().find(recorded);
        if recorded(&process) { process } else { known().unwrap_or(process) }
    };
    let deposited = proposal.deposits.iter().map(|(process, _)| *process);
    let mut proposed = deposited.chain(proposal.runs.iter().map(|run| run.process));
    if proposed.all(|process| name(process) == process) {
        return Cow::Borrowed(proposal);
    }
    let mut renamed = proposal.clone();
    for run in &mut renamed.runs {
        run.process = name(run.process);
    }
    renamed.deposits.clear();
    for (process, thickness) in &proposal.deposits {
        let process = name(*process);
        match renamed.deposits.iter_mut().find(|(known, _)| *known == process) {
            Some((_, together)) => *together = together.zip(*thickness).and_then(sum),
            None => renamed.deposits.push((process, *thickness)),
        }
    }
    Cow::Owned(renamed)
}

/// Both of them; `None` where they make no range.
fn sum((a, b): (Range<ThicknessKind>, Range<ThicknessKind>)) -> Option<Range<ThicknessKind>> {
    let end = |a: Option<Thickness>, b: Option<Thickness>| {
        a.zip(b).and_then(|(a, b)| Quantity::computed(a.canonical() + b.canonical()).ok())
    };
    Range::new(end(a.min(), b.min()), end(a.max(), b.max())).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        qualify::{ProposedRun, RunBox},
        trade::Coded,
    };

    fn process(code: &str) -> Process {
        Process::from_code(code).unwrap()
    }

    fn of(range: &str) -> Option<Range<ThicknessKind>> {
        let (low, high) = range.split_once(" to ").unwrap();
        Range::new(low.parse().ok(), high.parse().ok()).ok()
    }

    /// Own arithmetic: 2 to 6 mm by one of two alike processes and 3 to 8 mm by the other are 5 to 14 mm.
    #[test]
    fn alike_processes_add_up_under_the_recorded_name() {
        let run = |process| RunBox {
            process,
            runs: vec![1],
            diameter: None,
            class: None,
            limits: Vec::new(),
        };
        let own = QualifiedBox {
            pieces: Vec::new(),
            limits: Vec::new(),
            runs: vec![vec![run(process("135"))]],
            alike: vec![vec![process("135"), process("138")]],
        };
        let proposal = |codes: &[(&str, &str)]| Proposal {
            deposits: codes.iter().map(|(code, range)| (process(code), of(range))).collect(),
            runs: codes.iter().map(|(code, _)| ProposedRun::new(process(code))).collect(),
            ..Proposal::default()
        };
        let both = proposal(&[("135", "2 mm to 6 mm"), ("138", "3 mm to 8 mm")]);
        let renamed = by_recorded_names(&both, &own);
        assert_eq!(renamed.deposits, [(process("135"), of("5 mm to 14 mm"))]);
        assert!(renamed.runs.iter().all(|run| run.process == process("135")));
        for codes in [[("135", "2 mm to 6 mm")], [("136", "2 mm to 6 mm")]] {
            assert!(matches!(by_recorded_names(&proposal(&codes), &own), Cow::Borrowed(_)));
        }
    }
}
