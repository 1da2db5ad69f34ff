//! Questions to a window: what is left of each setting, good places in it, the way back into it, and why
//! nothing is left.

mod amounts;
mod conflict;
mod conflict_words;
mod narrow;
mod nearest;
mod outline;
mod places;
mod seen;
mod stray_cause;
mod tidy;

pub use conflict::{ConflictSet, Contradiction};
pub use narrow::{Narrowed, WindowEnd};
pub use nearest::Nearest;
pub use outline::Outline;
pub use places::{Place, Places};

use super::{
    linear::{AXES, DIM, Optimum},
    space::{Region, Space, Steps},
};
use crate::check::Force;

/// One space with the faces of one force, known to hold something.
#[derive(Debug, Clone)]
pub struct Open<'a> {
    space: &'a Space,
    region: Region,
    steps: Steps,
}

impl Space {
    /// What is left under the required limits, or the required and the advised ones; nothing where something
    /// was asked that no setting is shown to keep.
    ///
    /// # Errors
    /// [`ConflictSet`] where nothing is left, and why.
    pub fn open(&self, force: Force) -> Result<Open<'_>, ConflictSet> {
        if !self.unkept().is_empty() {
            let whys: Vec<_> = self.unkept().iter().map(|unkept| unkept.why.as_str()).collect();
            return Err(ConflictSet { members: Vec::new(), words: whys.join(" ") });
        }
        let region = self.region(force);
        match region.polytope.maximise(&[0.0; DIM]) {
            Optimum::At { .. } => Ok(Open { space: self, region, steps: self.steps }),
            Optimum::Empty { contradictory } => Err(conflict::of(self, &region, &contradictory)),
            Optimum::Stalled => Err(ConflictSet::undecided()),
        }
    }

    /// Whether nothing is left, and something would be where nothing strays and no reading is off.
    pub(super) fn opens_without_strays(&self, force: Force) -> bool {
        stray_cause::of(self, &self.region(force)) != stray_cause::Cause::None
    }

    /// Whether something is known to be left; see [`Space::open`].
    pub(super) fn is_open(&self, force: Force) -> bool {
        let left = || self.region(force).polytope.maximise(&[0.0; DIM]);
        self.unkept().is_empty() && matches!(left(), Optimum::At { .. })
    }
}

impl Open<'_> {
    /// The same with finer steps where they are only assumed; `None` where there are none.
    pub(super) fn finer(&self) -> Option<Self> {
        self.steps.finer().map(|steps| Self { steps, ..self.clone() })
    }

    /// The step of an axis, in its canonical unit.
    const fn step(&self, axis: usize) -> Option<f64> {
        self.steps.by_axis()[axis]
    }

    /// Axes of this job.
    fn axes(&self) -> impl Iterator<Item = usize> + '_ {
        (0..AXES).filter(|axis| self.space.is_active(*axis))
    }
}
