//! Facts of a job that decide which procedures cover it.

use super::{BaseMetal, CodeEdition, PARTS_OF_A_JOINT, Variable, record::Procedure};
use crate::trade::{JointKind, MetalGroup, PositionClaim, Process};

/// Facts of a job that decide which procedures cover it. A fact that is not stated excludes
/// nothing.
#[derive(Debug, Clone, Copy)]
pub(super) struct JobFacts<'a> {
    /// Code and edition that govern the work.
    pub code: Option<&'a CodeEdition>,
    /// Welding process.
    pub process: Option<Process>,
    /// Butt or fillet.
    pub joint: Option<JointKind>,
    /// Position, narrowed by the progression.
    pub position: Option<&'a PositionClaim>,
    /// The parts joined.
    pub base_metals: &'a [BaseMetal],
}

/// A fact by which a procedure is found, named by the check that judges it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(super) enum Fact {
    Code,
    Process,
    Joint,
    Position,
    BaseMetal,
}

impl Fact {
    /// Code of the check that judges this fact.
    pub(super) const fn check(self) -> &'static str {
        match self {
            Self::Code => "governing-code",
            Self::Process => "process",
            Self::Joint => "joint",
            Self::Position => "position",
            Self::BaseMetal => "base-metal",
        }
    }

    /// Variable that states it.
    pub(super) const fn variable(self) -> Variable {
        match self {
            Self::Code => Variable::GoverningCode,
            Self::Process => Variable::Process,
            Self::Joint => Variable::Joint,
            Self::Position => Variable::Position,
            Self::BaseMetal => Variable::BaseMetal,
        }
    }
}

impl JobFacts<'_> {
    /// Facts the setup does not state.
    pub(super) fn missing(&self) -> Vec<Fact> {
        let stated = self.groups().flatten().count();
        let metal_open = stated < self.base_metals.len().max(PARTS_OF_A_JOINT);
        let open = [
            (self.code.is_none(), Fact::Code),
            (self.process.is_none(), Fact::Process),
            (self.joint.is_none(), Fact::Joint),
            (self.position.is_none(), Fact::Position),
            (metal_open, Fact::BaseMetal),
        ];
        open.into_iter().filter_map(|(missing, fact)| missing.then_some(fact)).collect()
    }

    /// The first base-metal group that is stated.
    pub(super) fn first_group(&self) -> Option<MetalGroup> {
        self.groups().flatten().next()
    }

    /// Stated facts that the procedure does not cover.
    pub(super) fn uncovered_by(&self, procedure: &Procedure) -> impl Iterator<Item = Fact> + use<> {
        let covered = [
            (self.code.is_none_or(|code| procedure.codes.contains(code)), Fact::Code),
            (self.process.is_none_or(|process| procedure.process == process), Fact::Process),
            (self.joint.is_none_or(|joint| procedure.joints.contains(&joint)), Fact::Joint),
            (self.position_touches(procedure), Fact::Position),
            (self.metals_covered(procedure), Fact::BaseMetal),
        ];
        covered.into_iter().filter_map(|(covered, fact)| (!covered).then_some(fact))
    }

    /// The only stated fact that the procedure does not cover, where there is exactly one.
    pub(super) fn only_uncovered_by(&self, procedure: &Procedure) -> Option<Fact> {
        let mut uncovered = self.uncovered_by(procedure);
        uncovered.next().filter(|_| uncovered.next().is_none())
    }

    /// Whether some position the claim can mean is covered; the check says whether all are.
    fn position_touches(&self, procedure: &Procedure) -> bool {
        self.position.is_none_or(|claim| {
            claim.positions().any(|position| procedure.positions.contains(&position))
        })
    }

    fn metals_covered(&self, procedure: &Procedure) -> bool {
        self.groups().flatten().all(|group| procedure.covers_metal(group))
    }

    fn groups(&self) -> impl Iterator<Item = Option<MetalGroup>> {
        self.base_metals.iter().map(|part| part.group)
    }
}
