//! The released procedure revisions of one organisation, found by number or by the job they cover.

use std::{
    collections::{BTreeMap, HashMap},
    sync::Arc,
};

use super::{BaseMetal, CodeEdition, Variable, record::Procedure};
use crate::trade::{Coded, JointKind, MetalGroup, Position, PositionClaim, Process};

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
        let metal_open = self.base_metals.is_empty() || self.groups().any(|group| group.is_none());
        let open = [
            (self.code.is_none(), Fact::Code),
            (self.process.is_none(), Fact::Process),
            (self.joint.is_none(), Fact::Joint),
            (self.position.is_none(), Fact::Position),
            (metal_open, Fact::BaseMetal),
        ];
        open.into_iter().filter_map(|(missing, fact)| missing.then_some(fact)).collect()
    }

    /// Stated facts that the procedure does not cover.
    pub(super) fn uncovered_by(&self, procedure: &Procedure) -> Vec<Fact> {
        let covered = [
            (self.code.is_none_or(|code| procedure.codes.contains(code)), Fact::Code),
            (self.process.is_none_or(|process| procedure.process == process), Fact::Process),
            (self.joint.is_none_or(|joint| procedure.joints.contains(&joint)), Fact::Joint),
            (self.position_touches(procedure), Fact::Position),
            (self.metals_covered(procedure), Fact::BaseMetal),
        ];
        covered.into_iter().filter_map(|(covered, fact)| (!covered).then_some(fact)).collect()
    }

    /// Whether some position the claim can mean is covered; the check says whether all are.
    fn position_touches(&self, procedure: &Procedure) -> bool {
        self.position.is_none_or(|claim| {
            claim.positions().into_iter().any(|position| procedure.positions.contains(&position))
        })
    }

    fn metals_covered(&self, procedure: &Procedure) -> bool {
        self.groups().flatten().all(|group| procedure.covers_metal(group))
    }

    fn groups(&self) -> impl Iterator<Item = Option<MetalGroup>> {
        self.base_metals.iter().map(|part| part.group)
    }
}

type Key = (Process, JointKind, Position);

/// Released revisions, with an index by process, joint and position: the number of look-ups for one
/// job does not grow with the number of procedures. Never changed in place.
#[derive(Debug, Clone, Default)]
pub struct Procedures {
    by_number: BTreeMap<String, Vec<Arc<Procedure>>>,
    by_job: HashMap<Key, Vec<Arc<Procedure>>>,
}

impl Procedures {
    /// Indexes the released revisions.
    #[must_use]
    pub fn new(revisions: impl IntoIterator<Item = Arc<Procedure>>) -> Self {
        let mut procedures = Self::default();
        for procedure in revisions {
            for key in keys(&procedure) {
                procedures.by_job.entry(key).or_default().push(Arc::clone(&procedure));
            }
            procedures.by_number.entry(procedure.number.clone()).or_default().push(procedure);
        }
        procedures.by_number.values_mut().for_each(|all| all.sort_by_key(|p| p.revision));
        procedures
    }

    /// Released revisions of one procedure, oldest first; empty where there are none.
    #[must_use]
    pub fn revisions(&self, number: &str) -> &[Arc<Procedure>] {
        self.by_number.get(number).map_or(&[], Vec::as_slice)
    }

    /// Every released revision, by number and revision.
    pub fn all(&self) -> impl Iterator<Item = &Arc<Procedure>> {
        self.by_number.values().flatten()
    }

    /// Revisions that cover every stated fact, by number and revision.
    pub(super) fn covering(&self, facts: &JobFacts<'_>) -> Vec<&Procedure> {
        let mut found = self.at(facts);
        found.retain(|procedure| facts.uncovered_by(procedure).is_empty());
        sorted(found)
    }

    /// Revisions that cover all stated facts but one, with that one, by number and revision.
    pub(super) fn nearly_covering(&self, facts: &JobFacts<'_>) -> Vec<(&Procedure, Fact)> {
        let relaxed = [
            JobFacts { process: None, ..*facts },
            JobFacts { joint: None, ..*facts },
            JobFacts { position: None, ..*facts },
        ];
        let only_one = |procedure: &Procedure| match facts.uncovered_by(procedure)[..] {
            [fact] => Some(fact),
            _ => None,
        };
        let mut found: Vec<_> = relaxed.iter().flat_map(|facts| self.at(facts)).collect();
        found.retain(|procedure| only_one(procedure).is_some());
        sorted(found).into_iter().filter_map(|p| Some((p, only_one(p)?))).collect()
    }

    /// Revisions under the index keys of the job; code and metal are not looked at.
    fn at(&self, facts: &JobFacts<'_>) -> Vec<&Procedure> {
        let positions = facts.position.map_or_else(all_of, PositionClaim::positions);
        let processes = facts.process.map_or_else(all_of, |one| vec![one]);
        let joints = facts.joint.map_or_else(all_of, |one| vec![one]);
        let mut found = Vec::new();
        for &process in &processes {
            for &joint in &joints {
                for &position in &positions {
                    let here = self.by_job.get(&(process, joint, position));
                    found.extend(here.into_iter().flatten().map(Arc::as_ref));
                }
            }
        }
        found
    }
}

fn keys(procedure: &Procedure) -> impl Iterator<Item = Key> {
    procedure.joints.iter().flat_map(move |joint| {
        procedure.positions.iter().map(move |position| (procedure.process, *joint, *position))
    })
}

fn all_of<T: Coded>() -> Vec<T> {
    T::ALL.iter().map(|(value, _)| *value).collect()
}

/// Each revision once, by number and revision.
fn sorted(mut procedures: Vec<&Procedure>) -> Vec<&Procedure> {
    procedures.sort_by(|a, b| (&a.number, a.revision).cmp(&(&b.number, b.revision)));
    procedures.dedup_by(|a, b| a.number == b.number && a.revision == b.revision);
    procedures
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::fixture::Scene;

    /// One procedure for every process and joint of a few, in two positions each.
    fn many() -> Procedures {
        let model = Scene::allowed().procedure;
        let mut all = Vec::new();
        for (process, _) in Process::ALL.iter().take(6) {
            for (joint, _) in JointKind::ALL {
                for positions in [[Position::Pa, Position::Pb], [Position::Pb, Position::Pf]] {
                    let number = format!("WPS-{process}-{joint}-{}", positions[0]);
                    all.push(Procedure {
                        number,
                        process: *process,
                        joints: vec![*joint],
                        positions: positions.to_vec(),
                        ..model.clone()
                    });
                }
            }
        }
        Procedures::new(all.into_iter().map(Arc::new))
    }

    fn numbers<'a>(found: impl IntoIterator<Item = &'a Procedure>) -> Vec<&'a str> {
        found.into_iter().map(|procedure| procedure.number.as_str()).collect()
    }

    /// The index must find what reading every procedure finds, for stated and unstated facts alike.
    #[test]
    fn the_index_finds_what_a_full_reading_finds() {
        let procedures = many();
        let metals = Scene::allowed().setup.job.base_metals;
        let claims: Vec<_> = ["PA", "PB", "PF", "PE", "3G"]
            .iter()
            .map(|text| Some(PositionClaim::parse(text, None).unwrap()))
            .chain([None])
            .collect();
        let processes = Process::ALL.iter().take(7).map(|(p, _)| Some(*p)).chain([None]);
        for process in processes {
            for joint in [Some(JointKind::Butt), Some(JointKind::Fillet), None] {
                for claim in &claims {
                    let facts = JobFacts {
                        code: None,
                        process,
                        joint,
                        position: claim.as_ref(),
                        base_metals: &metals,
                    };
                    let misses = |count| move |p: &&Procedure| facts.uncovered_by(p).len() == count;
                    let all = || procedures.all().map(AsRef::as_ref);
                    let covering = numbers(procedures.covering(&facts));
                    assert_eq!(covering, numbers(all().filter(misses(0))), "{facts:?}");
                    let near = procedures.nearly_covering(&facts).into_iter().map(|(p, _)| p);
                    assert_eq!(numbers(near), numbers(all().filter(misses(1))), "{facts:?}");
                }
            }
        }
    }

    #[test]
    fn revisions_of_one_number_come_oldest_first() {
        let model = Scene::allowed().procedure;
        let revision = |revision| Arc::new(Procedure { revision, ..model.clone() });
        let procedures = Procedures::new([revision(3), revision(1)]);
        let found: Vec<_> = procedures.revisions("WPS-1").iter().map(|p| p.revision).collect();
        assert_eq!(found, [1, 3]);
        assert!(procedures.revisions("WPS-2").is_empty());
    }
}
