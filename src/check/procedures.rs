//! The released procedure revisions of one organisation, found by number or by the job they cover.

use std::{
    cmp::Reverse,
    collections::{BinaryHeap, HashMap, HashSet},
    iter,
    sync::Arc,
};

use super::{Fact, JobFacts, SharedMap, record::Procedure};
use crate::trade::{Coded, JointKind, MetalGroup, Position, Process};

/// What a revision is found by; without a group where the job does not say one.
type Key = (Process, JointKind, Position, Option<MetalGroup>);

/// Revisions by number and revision.
type Revisions = Arc<Vec<Arc<Procedure>>>;

/// Released revisions, with an index by process, joint, position and base-metal group: the work for one
/// job goes with the candidates that share these, not with the number of procedures. A clone shares
/// everything, and [`Procedures::replace`] writes anew only what the replaced revisions stand in.
#[derive(Debug, Clone, Default)]
pub struct Procedures {
    by_number: SharedMap<String, Revisions>,
    by_job: SharedMap<Key, Revisions>,
}

impl Procedures {
    /// Indexes the released revisions.
    #[must_use]
    pub fn new(revisions: impl IntoIterator<Item = Arc<Procedure>>) -> Self {
        let mut procedures = Self::default();
        procedures.replace(&[], revisions);
        procedures
    }

    /// Puts these revisions in the place of all revisions of the procedures with these numbers.
    pub fn replace(
        &mut self,
        numbers: &[String],
        revisions: impl IntoIterator<Item = Arc<Procedure>>,
    ) {
        let gone: HashSet<&str> = numbers.iter().map(String::as_str).collect();
        let mut by_number: HashMap<String, Vec<Arc<Procedure>>> = HashMap::new();
        let mut by_job: HashMap<Key, Vec<Arc<Procedure>>> = HashMap::new();
        for number in &gone {
            for old in self.revisions(number) {
                for key in keys(old) {
                    by_job.entry(key).or_default();
                }
                by_number.entry((*number).to_owned()).or_default();
            }
        }
        for revision in revisions {
            for key in keys(&revision) {
                by_job.entry(key).or_default().push(Arc::clone(&revision));
            }
            by_number.entry(revision.number.clone()).or_default().push(revision);
        }
        for (key, new) in by_number {
            merge(&mut self.by_number, key, &gone, new);
        }
        for (key, new) in by_job {
            merge(&mut self.by_job, key, &gone, new);
        }
    }

    /// Released revisions of one procedure, oldest first; empty where there are none.
    #[must_use]
    pub fn revisions(&self, number: &str) -> &[Arc<Procedure>] {
        self.by_number.get(number).map_or(&[], |revisions| revisions)
    }

    /// Every released revision, by number and revision.
    pub fn all(&self) -> impl Iterator<Item = &Arc<Procedure>> {
        let mut all: Vec<_> = self.by_number.values().flat_map(|one| one.iter()).collect();
        all.sort_by(|a, b| rank(a).cmp(&rank(b)));
        all.into_iter()
    }

    /// Revisions that cover every stated fact, by number and revision; each is looked for when it is
    /// asked for.
    pub(super) fn covering<'a>(
        &'a self,
        facts: &JobFacts<'_>,
    ) -> impl Iterator<Item = &'a Procedure> {
        let covers = |procedure: &&Procedure| facts.uncovered_by(procedure).next().is_none();
        in_order(self.at(facts)).filter(covers)
    }

    /// Revisions that cover all stated facts but one, with that one, by number and revision; each is
    /// looked for when it is asked for.
    pub(super) fn nearly_covering<'a>(
        &'a self,
        facts: &JobFacts<'a>,
    ) -> impl Iterator<Item = (&'a Procedure, Fact)> + use<'a> {
        let facts = *facts;
        let relaxed = [
            Some(facts),
            facts.process.map(|_| JobFacts { process: None, ..facts }),
            facts.joint.map(|_| JobFacts { joint: None, ..facts }),
            facts.position.map(|_| JobFacts { position: None, ..facts }),
            facts.first_group().map(|_| JobFacts { base_metals: &[], ..facts }),
        ];
        let lists = relaxed.iter().flatten().flat_map(|facts| self.at(facts)).collect();
        in_order(lists).filter_map(move |one| Some((one, facts.only_uncovered_by(one)?)))
    }

    /// Revisions under the index keys of the job; code and further groups are not looked at.
    fn at(&self, facts: &JobFacts<'_>) -> Vec<&[Arc<Procedure>]> {
        let positions = facts.position.map_or_else(all_of, |claim| claim.positions().collect());
        let processes = facts.process.map_or_else(all_of, |one| vec![one]);
        let joints = facts.joint.map_or_else(all_of, |one| vec![one]);
        let groups = match facts.first_group() {
            // A procedure for the whole group covers each sub-group.
            Some(group) if group.whole() == group => vec![Some(group)],
            Some(group) => vec![Some(group), Some(group.whole())],
            None => vec![None],
        };
        let mut found = Vec::new();
        for &process in &processes {
            for &joint in &joints {
                for &position in &positions {
                    for &group in &groups {
                        let here = self.by_job.get(&(process, joint, position, group));
                        found.extend(here.map(|revisions| revisions.as_slice()));
                    }
                }
            }
        }
        found
    }
}

/// Takes out what is gone and puts in what is new; the copy of a list that others hold stays as it was. Lists are
/// by number and revision, so that a few changes look at a few records, however long the list is.
fn merge<K: Eq + std::hash::Hash + Clone>(
    lists: &mut SharedMap<K, Revisions>,
    key: K,
    gone: &HashSet<&str>,
    new: Vec<Arc<Procedure>>,
) {
    let mut list = lists.get(&key).cloned().unwrap_or_default();
    let own = Arc::make_mut(&mut list);
    // Whichever is fewer is gone through.
    if gone.len() < own.len() {
        for number in gone {
            let from = own.partition_point(|procedure| procedure.number.as_str() < *number);
            let revisions = own[from..].partition_point(|procedure| procedure.number == *number);
            own.drain(from..from + revisions);
        }
    } else {
        own.retain(|procedure| !gone.contains(procedure.number.as_str()));
    }
    // Many are sorted in together; each of a few is put in its place.
    if new.len() > own.len() / 16 {
        own.extend(new);
        own.sort_by(|a, b| rank(a).cmp(&rank(b)));
        // One that names a group twice stands under it once.
        own.dedup_by(|a, b| Arc::ptr_eq(a, b));
    } else {
        for one in new {
            if let Err(place) = own.binary_search_by(|known| rank(known).cmp(&rank(&one))) {
                own.insert(place, one);
            }
        }
    }
    if own.is_empty() {
        lists.remove_mut(&key);
    } else {
        own.shrink_to_fit();
        lists.insert_mut(key, list);
    }
}

fn keys(procedure: &Procedure) -> Vec<Key> {
    let groups: Vec<_> =
        iter::once(None).chain(procedure.base_metals.iter().copied().map(Some)).collect();
    let mut keys = Vec::new();
    for &joint in &procedure.joints {
        for &position in &procedure.positions {
            keys.extend(groups.iter().map(|group| (procedure.process, joint, position, *group)));
        }
    }
    keys
}

fn all_of<T: Coded>() -> Vec<T> {
    T::ALL.iter().map(|(value, _)| *value).collect()
}

fn rank(procedure: &Procedure) -> (&str, u32) {
    (&procedure.number, procedure.revision)
}

/// Merges lists that are each by number and revision: each revision once, in that order.
fn in_order<'a>(lists: Vec<&'a [Arc<Procedure>]>) -> impl Iterator<Item = &'a Procedure> {
    let head = |list: usize, rest: &'a [Arc<Procedure>]| {
        rest.first().map(|first| Reverse((rank(first), list)))
    };
    let mut lists = lists;
    let mut heads: BinaryHeap<_> =
        lists.iter().enumerate().filter_map(|(index, rest)| head(index, rest)).collect();
    let mut shown = None;
    iter::from_fn(move || {
        loop {
            let Reverse((here, list)) = heads.pop()?;
            let (first, rest) = lists[list].split_first()?;
            lists[list] = rest;
            heads.extend(head(list, rest));
            if shown != Some(here) {
                shown = Some(here);
                return Some(first.as_ref());
            }
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        check::{BaseMetal, fixture::Scene},
        trade::PositionClaim,
    };

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
                    let misses =
                        |count| move |p: &&Procedure| facts.uncovered_by(p).count() == count;
                    let all = || procedures.all().map(AsRef::as_ref);
                    let covering = numbers(procedures.covering(&facts));
                    assert_eq!(covering, numbers(all().filter(misses(0))), "{facts:?}");
                    let near = procedures.nearly_covering(&facts).map(|(p, _)| p);
                    assert_eq!(numbers(near), numbers(all().filter(misses(1))), "{facts:?}");
                }
            }
        }
    }

    /// Sub-groups, whole groups and a second part: what the index leaves to the full look must be found too.
    #[test]
    fn metals_are_found_by_group_and_by_sub_group() {
        let model = Scene::allowed().procedure;
        let group = |text: &str| text.parse::<MetalGroup>().unwrap();
        let with = |number: &str, groups: &[&str]| {
            let base_metals = groups.iter().map(|text| group(text)).collect();
            Arc::new(Procedure { number: number.to_owned(), base_metals, ..model.clone() })
        };
        let procedures = Procedures::new([
            with("A", &["1"]),
            with("B", &["1.2", "1.2"]),
            with("C", &["1.1", "8.1"]),
            with("D", &["1", "8"]),
        ]);
        let part = |text: &str| BaseMetal { group: Some(group(text)), ..BaseMetal::UNKNOWN };
        let unknown = BaseMetal::UNKNOWN;
        let cases: [(&[BaseMetal], &[&str], &[&str]); 6] = [
            (&[part("1.2")], &["A", "B", "D"], &["C"]),
            (&[part("1")], &["A", "D"], &["B", "C"]),
            (&[part("1.1"), part("8.1")], &["C", "D"], &["A", "B"]),
            (&[part("8.1"), part("1.1")], &["C", "D"], &["A", "B"]),
            (&[unknown, part("8.1")], &["C", "D"], &["A", "B"]),
            (&[], &["A", "B", "C", "D"], &[]),
        ];
        for (base_metals, covering, near) in cases {
            let facts =
                JobFacts { code: None, process: None, joint: None, position: None, base_metals };
            assert_eq!(numbers(procedures.covering(&facts)), covering, "{base_metals:?}");
            let found = procedures.nearly_covering(&facts).map(|(p, _)| p);
            assert_eq!(numbers(found), near, "{base_metals:?}");
        }
    }

    /// Some revisions of a few procedures, from a number: which, where and for what metal.
    fn some_of(seed: u32) -> Vec<Arc<Procedure>> {
        let model = Scene::allowed().procedure;
        let revision = |index: u32| {
            let pick = seed.rotate_left(index * 5);
            let base_metals = ["1", "1.2", "8.1"].map(|text| text.parse().unwrap());
            Arc::new(Procedure {
                number: format!("WPS-{}", pick % 5),
                revision: index + pick % 3 * 4,
                process: Process::ALL[(pick / 8 % 3) as usize].0,
                positions: vec![Position::Pa, Position::ALL[(pick / 64 % 4) as usize].0],
                base_metals: base_metals[..(pick / 512 % 4) as usize].to_vec(),
                ..model.clone()
            })
        };
        (0..seed % 4).map(revision).collect()
    }

    /// Everything a reader can find, in the order in which it finds it.
    fn laid_out(procedures: &Procedures) -> Vec<String> {
        let name = |p: &Procedure| format!("{} {} {:?}", p.number, p.revision, p.positions);
        let mut all: Vec<_> = procedures.all().map(|p| name(p)).collect();
        for (key, list) in &procedures.by_job {
            let names: Vec<_> = list.iter().map(|p| name(p)).collect();
            all.push(format!("{key:?}: {names:?}"));
        }
        all.sort();
        all
    }

    proptest::proptest! {
        /// However revisions came and went, the index is the one that a full reading makes; what was not
        /// replaced is the same record, and an older book stays as it was.
        #[test]
        fn replacing_step_by_step_equals_indexing_at_once(
            steps in proptest::collection::vec(proptest::prelude::any::<u32>(), 1..12),
        ) {
            let mut procedures = Procedures::default();
            for seed in steps {
                let new = some_of(seed);
                let mut numbers: Vec<_> = new.iter().map(|p| p.number.clone()).collect();
                numbers.push(format!("WPS-{}", seed / 4096 % 5));
                let older = procedures.clone();
                let before = laid_out(&older);
                procedures.replace(&numbers, new);
                proptest::prop_assert_eq!(laid_out(&older), before);
                let all: Vec<_> = procedures.all().cloned().collect();
                proptest::prop_assert_eq!(laid_out(&procedures), laid_out(&Procedures::new(all)));
                for kept in older.all().filter(|p| !numbers.contains(&p.number)) {
                    let found = procedures.revisions(&kept.number);
                    proptest::prop_assert!(found.iter().any(|one| Arc::ptr_eq(one, kept)));
                }
            }
        }
    }

    /// A few changes of a long list are put in where they belong; the index is again that of a full reading.
    #[test]
    fn a_few_changes_of_a_long_list_equal_indexing_at_once() {
        let model = Scene::allowed().procedure;
        let group = |text: &str| text.parse::<MetalGroup>().unwrap();
        let one = |number: u32, revision| {
            let base_metals = vec![group("1"), group("1")];
            let number = format!("WPS-{number:03}");
            Arc::new(Procedure { number, revision, base_metals, ..model.clone() })
        };
        let mut procedures = Procedures::new((0..200).map(|number| one(2 * number, 1)));
        let before = laid_out(&procedures);
        let older = procedures.clone();
        let new = [one(0, 2), one(0, 1), one(101, 1), one(398, 3), one(399, 1)];
        let numbers = ["WPS-000", "WPS-101", "WPS-200", "WPS-398", "WPS-399", "WPS-777"];
        procedures.replace(&numbers.map(str::to_owned), new);
        let all: Vec<_> = procedures.all().cloned().collect();
        assert_eq!(all.len(), 202);
        assert_eq!(laid_out(&procedures), laid_out(&Procedures::new(all)));
        assert_eq!(laid_out(&older), before);
        assert!(procedures.revisions("WPS-200").is_empty());
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
