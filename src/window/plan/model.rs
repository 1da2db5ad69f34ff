//! What the limits of one procedure leave of a run of each class.

use std::{collections::BTreeMap, sync::Arc};

use time::Date;

use super::{JointAsked, RunRule, each_case, is_obstacle};
use crate::{
    check::{Book, Case, Finding, Force, Notes, Setup, Variable},
    quantity::{Area, AreaKind, Range},
    trade::{
        BeadPattern, JointKind, PrequalifiedLimits, RunClass, SizeLimit, prequalified_column,
        prequalified_limits,
    },
    window::{
        Question, RunSize, Space,
        linear::{HalfSpace, Polytope, along},
        solve::{run_size, spaces},
        space::{SPEED, towards_size},
    },
};

/// One piece of the window of a run.
pub(super) struct ModelPiece {
    pub(super) space: Arc<Space>,
    pub(super) polytope: Polytope,
    /// What of it keeps [`LEAST_DRIFT`]; `None` where nothing does.
    steady: Option<Polytope>,
}

/// The usual drift of a hand and a machine, as a share, that a run should keep where there is a choice (own choice):
/// a plan at the very edge of its limits saves seconds and fails on the floor.
pub(super) const LEAST_DRIFT: f64 = 0.2;

/// The fastest run of a size.
pub(super) struct Fastest<'m> {
    /// Travel speed in mm/min.
    pub(super) speed: f64,
    pub(super) piece: &'m ModelPiece,
    /// Whether it keeps [`LEAST_DRIFT`].
    pub(super) is_steady: bool,
}

/// Runs of one class, under the limits of one force.
pub(super) struct RunModel {
    pub(super) pieces: Vec<ModelPiece>,
    pub(super) size: RunSize,
    /// The limits they keep to.
    pub(super) force: Force,
    /// How the arc is led.
    pub(super) bead: Option<BeadPattern>,
    /// Where their size is known from.
    metal: Notes,
    /// Why nothing is left, in words; of the first piece.
    pub(super) conflict: Option<String>,
    /// The window under every force, in pieces.
    spaces: Vec<Arc<Space>>,
}

/// All that one procedure revision says of the job.
pub(super) struct Models {
    pub(super) procedure: String,
    pub(super) revision: u32,
    pub(super) obstacles: Vec<Finding>,
    pub(super) limits: Option<PrequalifiedLimits>,
    runs: BTreeMap<RunClass, Result<RunModel, String>>,
}

/// Classes that a joint may be planned in.
pub(super) const fn classes(joint: &JointAsked) -> &'static [RunClass] {
    match (joint.kind, &joint.far) {
        (JointKind::Fillet, _) => &[RunClass::Single, RunClass::Fill],
        (JointKind::Butt, None) => {
            &[RunClass::Single, RunClass::Root, RunClass::Hot, RunClass::Fill, RunClass::Cap]
        }
        (JointKind::Butt, Some(_)) => {
            &[RunClass::Root, RunClass::Hot, RunClass::Fill, RunClass::Cap, RunClass::Single]
        }
    }
}

/// The setup of one run of a class, laid in this bead pattern: the leg asked for is that of the whole joint, and the
/// interpass temperature that of the runs that lie on others.
pub(super) fn setup_of(
    setup: &Setup,
    joint: &JointAsked,
    (class, bead): (RunClass, Option<BeadPattern>),
) -> Setup {
    let mut setup = setup.clone();
    setup.job.run_class = Some(class);
    setup.job.joint = Some(joint.kind);
    setup.job.fillet = joint.fillet;
    setup.job.leg = None;
    if class.is_first() {
        setup.settings.interpass = None;
    }
    setup.settings.bead = bead;
    setup.settings.weave_width =
        setup.settings.weave_width.filter(|_| bead != Some(BeadPattern::Stringer));
    setup
}

/// What one procedure revision says of runs of one class.
struct Seen {
    key: (String, u32),
    obstacles: Vec<Finding>,
    limits: Option<PrequalifiedLimits>,
    /// Whether its limits are for runs of the class.
    is_listed: bool,
    /// `None` where there are no such limits, or obstacles.
    model: Option<Result<RunModel, String>>,
}

impl Seen {
    fn refuses_bead(&self) -> bool {
        self.obstacles.iter().any(refuses_bead)
    }
}

fn refuses_bead(finding: &Finding) -> bool {
    finding.variable == Variable::Bead && is_obstacle(finding)
}

/// Whether it is refused as a run of its class: runs of another class may do.
fn refuses_class(finding: &Finding) -> bool {
    finding.variable == Variable::RunClass
}

/// What every procedure revision that covers the job says of runs of a class. They are laid as the setup states where
/// the limits of the class allow that; else as these do, a root as a stringer where the fill is woven.
fn seen(
    (book, setup, day): (&Book, &Setup, Date),
    question: &Question,
    joint: &JointAsked,
    class: RunClass,
) -> Vec<Seen> {
    let laid = |bead, look: &mut dyn FnMut(&Case<'_>, &[Finding])| {
        each_case(book, &setup_of(setup, joint, (class, bead)), day, look);
    };
    let seen_of = |case: &Case<'_>, findings: &[Finding]| {
        let (of_class, obstacles): (Vec<_>, Vec<_>) =
            findings.iter().filter(|one| is_obstacle(one)).cloned().partition(refuses_class);
        let closed = of_class.first().map(|one| one.reason.trim_end_matches('.').to_owned());
        let is_listed = case.run.classes.contains(&class);
        let is_open = is_listed && obstacles.is_empty();
        Seen {
            key: (case.procedure.number.clone(), case.procedure.revision),
            limits: rule(case, joint),
            is_listed,
            model: is_open.then(|| match &closed {
                Some(why) => Err(why.clone()),
                None => RunModel::of(case, question, joint),
            }),
            obstacles,
        }
    };
    let mut seen = Vec::new();
    laid(setup.settings.bead, &mut |case, findings| seen.push(seen_of(case, findings)));
    for bead in [BeadPattern::Stringer, BeadPattern::Weave] {
        if seen.iter().any(Seen::refuses_bead) {
            let mut each = seen.iter_mut();
            laid(Some(bead), &mut |case, findings| {
                let refused = each.next().filter(|one| one.refuses_bead());
                if let Some(one) = refused
                    && !findings.iter().any(refuses_bead)
                {
                    *one = seen_of(case, findings);
                }
            });
        }
    }
    seen
}

impl Models {
    /// The models of every procedure revision that covers the job, by number and revision.
    pub(super) fn all(
        book: &Book,
        setup: &Setup,
        day: Date,
        question: &Question,
        joint: &JointAsked,
    ) -> Vec<Self> {
        let mut all: BTreeMap<(String, u32), Self> = BTreeMap::new();
        for &class in classes(joint) {
            for Seen { key, obstacles, limits, is_listed, model } in
                seen((book, setup, day), question, joint, class)
            {
                let models = all.entry(key.clone()).or_insert_with(|| Self {
                    procedure: key.0,
                    revision: key.1,
                    obstacles: Vec::new(),
                    limits,
                    runs: BTreeMap::new(),
                });
                if !is_listed {
                    continue;
                }
                for obstacle in obstacles {
                    if !models.obstacles.iter().any(|known| known.check == obstacle.check) {
                        models.obstacles.push(obstacle);
                    }
                }
                if let Some(model) = model {
                    models.runs.entry(class).or_insert(model);
                }
            }
        }
        all.into_values().collect()
    }

    /// The same, with settings that keep to what is advised too.
    pub(super) fn advised(&self) -> Self {
        let advised = |run: &RunModel| run.under(Force::Advised);
        let of_class = |(class, run): (&RunClass, &Result<RunModel, String>)| {
            (*class, run.as_ref().map(advised).map_err(Clone::clone))
        };
        Self {
            procedure: self.procedure.clone(),
            revision: self.revision,
            obstacles: self.obstacles.clone(),
            limits: self.limits,
            runs: self.runs.iter().map(of_class).collect(),
        }
    }

    /// Whether the procedure has limits for runs of this class.
    pub(super) fn has(&self, class: RunClass) -> bool {
        self.runs.contains_key(&class)
    }

    /// Where the sizes of its runs are known from; its classes share one wire.
    pub(super) fn metal(&self) -> Notes {
        let known = self.runs.values().find_map(|run| run.as_ref().ok());
        known.map(|run| run.metal.clone()).unwrap_or_default()
    }

    /// The model of a class.
    ///
    /// # Errors
    /// Why there is none, in words.
    pub(super) fn run(&self, class: RunClass) -> Result<&RunModel, String> {
        let none = || {
            let Self { procedure, revision, .. } = self;
            Err(format!("procedure {procedure} revision {revision} has no limits for {class} runs"))
        };
        self.runs.get(&class).map_or_else(none, |found| found.as_ref().map_err(Clone::clone))
    }
}

/// The rule on the size of one run.
fn rule(case: &Case<'_>, joint: &JointAsked) -> Option<PrequalifiedLimits> {
    match joint.rule {
        RunRule::None => None,
        RunRule::Own(limits) => Some(limits),
        RunRule::Prequalified(units) => {
            let position = case.setup.job.only_position()?;
            prequalified_limits(prequalified_column(case.procedure.process)?, position, units)
        }
    }
}

impl RunModel {
    fn of(case: &Case<'_>, question: &Question, joint: &JointAsked) -> Result<Self, String> {
        let (size, metal) = run_size(case)?;
        let mut spaces = spaces(case, question);
        if let Some(most) = largest(case, joint) {
            for space in &mut spaces {
                space.run_area(&Range::at_most(most), &size);
            }
        }
        let bead = case.setup.settings.bead;
        let spaces = spaces.into_iter().map(Arc::new).collect();
        Ok(Self::kept(spaces, (size, metal, bead), Force::Required))
    }

    /// The same runs under the limits of this force.
    fn under(&self, force: Force) -> Self {
        Self::kept(self.spaces.clone(), (self.size, self.metal.clone(), self.bead), force)
    }

    /// What the limits of this force leave of the spaces.
    fn kept(
        spaces: Vec<Arc<Space>>,
        (size, metal, bead): (RunSize, Notes, Option<BeadPattern>),
        force: Force,
    ) -> Self {
        let mut pieces = Vec::new();
        let mut conflict = None;
        for space in &spaces {
            match space.open(force) {
                Ok(open) => {
                    let steady = open.keeping(LEAST_DRIFT);
                    let polytope = space.region(force).polytope;
                    pieces.push(ModelPiece { space: Arc::clone(space), polytope, steady });
                }
                Err(found) => conflict = conflict.or(Some(found.words)),
            }
        }
        Self { pieces, size, force, bead, metal, conflict, spaces }
    }

    /// Smallest and largest cross-section of a run in mm², for the least favourable wire; `None` where no
    /// setting is left.
    pub(super) fn reach(&self) -> Option<(f64, f64)> {
        let end = |sign: f64| {
            let way = towards_size(sign);
            let ends = self.pieces.iter().filter_map(|piece| piece.polytope.highest(&way));
            let ends = ends.map(|(_, value)| sign * value);
            let best = if sign > 0.0 { ends.reduce(f64::max) } else { ends.reduce(f64::min) };
            best.map(|end| (end + self.size.least()).exp())
        };
        end(-1.0).zip(end(1.0))
    }

    /// The highest travel speed in mm/min at which a run has this cross-section at least, and the piece that
    /// has it. It keeps some drift where it can.
    pub(super) fn speed(&self, area: f64) -> Option<Fastest<'_>> {
        [true, false].into_iter().find_map(|is_steady| self.fastest(area, is_steady))
    }

    fn fastest(&self, area: f64, is_steady: bool) -> Option<Fastest<'_>> {
        let mut best: Option<Fastest<'_>> = None;
        for piece in &self.pieces {
            let within = if is_steady { piece.steady.as_ref() } else { Some(&piece.polytope) };
            let Some(mut held) = within.cloned() else { continue };
            let normal = towards_size(-1.0);
            held.faces.push(HalfSpace { normal, bound: self.size.least() - area.ln() });
            let Some((_, speed)) = held.highest(&along(SPEED, 1.0)) else { continue };
            let speed = speed.exp();
            if best.as_ref().is_none_or(|best| speed > best.speed) {
                best = Some(Fastest { speed, piece, is_steady });
            }
        }
        best
    }

    /// A run of this cross-section at least, and so many times it at most.
    pub(super) fn wanted(area: f64, times: f64) -> Option<Range<AreaKind>> {
        let end = |area| Area::computed(area).ok();
        Range::new(Some(end(area)?), Some(end(area * times)?)).ok()
    }
}

/// The largest cross-section of one run of a fillet: a flat one with the largest leg of one run.
fn largest(case: &Case<'_>, joint: &JointAsked) -> Option<Area> {
    if joint.kind != JointKind::Fillet {
        return None;
    }
    match rule(case, joint)?.single_run_fillet? {
        SizeLimit::AtMost(leg) => Area::computed(leg.mm().powi(2) / 2.0).ok(),
        SizeLimit::Unlimited => None,
    }
}
