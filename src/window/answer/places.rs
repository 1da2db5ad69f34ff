//! Good places in the window: the most tolerant, the fastest, the coolest.

use super::Open;
use crate::{
    check::{Settings, Variable},
    quantity::Share,
    window::{
        linear::{
            AXES, DIM, DRIFT, HalfSpace, OnLattice, Polytope, Vector, along, dot, on_lattice,
        },
        space::{CURRENT, POWER, SPEED, VOLTAGE, drift, settings_at},
    },
};

/// No setting drifts farther than this many times its usual drift.
const MOST_DRIFT: f64 = 100.0;
/// What rounding to plain figures may take of a drift.
const ROUNDING: f64 = 0.98;
/// Share of the best that plain figures may cost.
const PLAIN_FIGURES: f64 = 1e-3;
/// Drifts closer than this are the same: nobody tells a millionth of two percent apart, and it leaves the next
/// programme room for the rounding of the one before.
const SAME_DRIFT: f64 = 1e-6;

/// One place of the window.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// The settings; what is dialled on whole steps.
    pub settings: Settings,
    /// How often each setting may drift by its usual drift, all at once and each to either side.
    pub drift: Share,
    pub(in crate::window) point: Vector,
}

/// Good places; each `None` where no step of the settings fits there.
#[derive(Debug, Clone, PartialEq)]
pub struct Places {
    /// Greatest common drift when steps do not count.
    pub greatest_drift: Share,
    /// The most tolerant: the greatest common drift on whole steps.
    pub starting_point: Option<Place>,
    /// Highest travel speed that keeps the margin.
    pub fastest: Option<Place>,
    /// Least arc energy that keeps the margin; `None` too where no arc energy is known.
    pub coolest: Option<Place>,
    /// The drift that fastest and coolest keep: the usual one, or half of the greatest.
    pub margin: Share,
    /// To be shown with the coolest.
    pub caution: &'static str,
}

/// What the coolest place invites (common practice, no source).
const COLD: &str = "The coolest settings invite lack of fusion; they are no starting point.";

/// Digits of a setting without a step, where they fit.
const DIGITS: i32 = 3;

impl Open<'_> {
    /// The three places, everything else from `base`; `None` where rounding kept them from being found.
    #[must_use]
    pub fn places(&self, base: &Settings) -> Option<Places> {
        let all = self.likely();
        let (_, greatest) = all.highest(&along(DRIFT, 1.0))?;
        let margin = (greatest / 2.0).min(1.0);
        let kept = all.between(DRIFT, margin, MOST_DRIFT);
        let best = |objective: Vector| {
            self.best_step(&kept, &objective).and_then(|point| self.place(base, point))
        };
        Some(Places {
            greatest_drift: Share::computed(greatest).ok()?,
            starting_point: self.most_tolerant_step(&all, base),
            fastest: best(along(SPEED, 1.0)),
            coolest: self.least_energy().and_then(best),
            margin: Share::computed(margin).ok()?,
            caution: COLD,
        })
    }

    /// The places, by steps that are as fine as they have to be for a starting point where they are only assumed.
    #[must_use]
    pub fn with_places(self, base: &Settings) -> (Self, Option<Places>) {
        let (mut open, mut places) = (self.clone(), self.places(base));
        while places.as_ref().is_some_and(|places| places.starting_point.is_none())
            && let Some(finer) = open.finer()
        {
            places = finer.places(base);
            open = finer;
        }
        (open, places)
    }

    /// The most tolerant place on whole steps, everything else from `base`.
    #[must_use]
    pub fn starting_point(&self, base: &Settings) -> Option<Place> {
        self.most_tolerant_step(&self.likely(), base)
    }

    fn most_tolerant_step(&self, all: &Polytope, base: &Settings) -> Option<Place> {
        self.place(base, self.best_step(all, &along(DRIFT, 1.0))?)
    }

    fn place(&self, base: &Settings, point: Vector) -> Option<Place> {
        let settings = settings_at(self.space, base, &point);
        Some(Place { settings, drift: Share::computed(self.drift_at(&point)).ok()?, point })
    }

    /// What of the window keeps a common drift; `None` where nothing does.
    pub(in crate::window) fn keeping(&self, drift: f64) -> Option<Polytope> {
        let kept = self.with_drift(&[]).between(DRIFT, drift, MOST_DRIFT);
        kept.highest(&[0.0; DIM]).map(|_| kept)
    }

    /// The greatest common drift that any settings have when steps do not count.
    #[must_use]
    pub fn greatest_drift(&self) -> Option<Share> {
        let (_, greatest) = self.likely().highest(&along(DRIFT, 1.0))?;
        Share::computed(greatest).ok()
    }

    /// The window with room for a common drift, of a controlled output only what its power can be: the volts of a pulse rise with its amperes, so the mean
    /// power is not below the product of the means (Chebyshev's sum inequality). Meters that show effective values
    /// may read otherwise; so where this leaves nothing, it is left aside.
    fn likely(&self) -> Polytope {
        let polytope = self.with_drift(&[]);
        if !self.space.is_active(POWER) {
            return polytope;
        }
        let mut weights = [0.0; AXES];
        (weights[VOLTAGE], weights[CURRENT], weights[POWER]) = (1.0, 1.0, -1.0);
        let mut likely = polytope.clone();
        let product = self.space.substituted(&weights).into_iter();
        likely
            .faces
            .extend(product.map(|(normal, constant)| HalfSpace { normal, bound: -constant }));
        if likely.highest(&[0.0; DIM]).is_some() { likely } else { polytope }
    }

    /// The direction in which arc energy falls, for the mean of the upper planes of the current.
    fn least_energy(&self) -> Option<Vector> {
        let (weights, _) = self.space.terms(Variable::ArcEnergy).ok()??;
        let all = self.space.substituted(&weights);
        let parts = f64::from(u32::try_from(all.len()).ok()?);
        let mut way = [0.0; DIM];
        for (normal, _) in &all {
            way.iter_mut().zip(normal).for_each(|(way, weight)| *way -= weight / parts);
        }
        Some(way)
    }

    /// The best point on whole steps, in plain figures, as tolerant as there is among equals.
    fn best_step(&self, polytope: &Polytope, objective: &Vector) -> Option<Vector> {
        let relaxed = |part: &Polytope| {
            let (point, value) = part.highest(objective)?;
            Some((point, -value))
        };
        let on_steps = |part: &Polytope| match on_lattice(part, self.steps.by_axis(), &relaxed) {
            OnLattice::Best(point, cost) => Some((point, -cost)),
            OnLattice::NoStepFits | OnLattice::GaveUp => None,
        };
        let (point, best) = on_steps(polytope)?;
        let is_drift = objective[DRIFT] > 0.0;
        let may_cost = if is_drift { (1.0 - ROUNDING) * best } else { PLAIN_FIGURES };
        let mut as_good = polytope.clone();
        as_good.faces.push(HalfSpace {
            normal: objective.map(|weight| -weight),
            bound: SAME_DRIFT - best + may_cost,
        });
        let held = self.centred_on_steps(as_good, point, &on_steps)?;
        let (_, drift) = held.highest(&along(DRIFT, 1.0))?;
        let keeps = ROUNDING * if is_drift { best } else { drift };
        let kept = held.between(DRIFT, keeps.min(drift).max(polytope.low[DRIFT]), MOST_DRIFT);
        let middle = self.centred(&kept).unwrap_or(point);
        Some(self.tidied(&kept, &middle, DIGITS))
    }

    /// What is left with every dial held on the step closest to the middle of what is left for it, dial after dial;
    /// `point` is on steps.
    fn centred_on_steps(
        &self,
        mut left: Polytope,
        mut point: Vector,
        on_steps: &dyn Fn(&Polytope) -> Option<(Vector, f64)>,
    ) -> Option<Polytope> {
        for axis in self.axes() {
            let Some(step) = self.step(axis) else { continue };
            let (low, high) = left.ends_of(axis)?;
            let middle = f64::midpoint(low, high).exp() / step;
            let near =
                [middle.round(), middle.floor(), middle.ceil()].map(|count| (count * step).ln());
            let fit = near.iter().filter(|at| low <= **at && **at <= high).find_map(|at| {
                let held = left.held(axis, *at);
                on_steps(&held).map(|(point, _)| (held, point))
            });
            (left, point) = fit.unwrap_or_else(|| (left.held(axis, point[axis]), point));
        }
        Some(left)
    }

    /// A point of greatest common drift with some axes held.
    pub(super) fn as_tolerant_as_any(&self, held: &[(usize, f64)]) -> Option<Vector> {
        self.with_drift(held).highest(&along(DRIFT, 1.0)).map(|(point, _)| point)
    }

    /// The point of greatest common drift, ties broken by going to the middle of what is left, axis by axis.
    pub(super) fn most_tolerant(&self) -> Option<Vector> {
        let polytope = self.with_drift(&[]);
        let (point, greatest) = polytope.highest(&along(DRIFT, 1.0))?;
        let kept = polytope.between(DRIFT, (greatest - SAME_DRIFT).max(0.0), MOST_DRIFT);
        Some(self.centred(&kept).unwrap_or(point))
    }

    fn centred(&self, polytope: &Polytope) -> Option<Vector> {
        let mut left = polytope.clone();
        let open = |axis: &usize| polytope.low[*axis] < polytope.high[*axis];
        for axis in self.axes().filter(open) {
            let (low, high) = left.ends_of(axis)?;
            left = left.held(axis, f64::midpoint(low, high));
        }
        left.highest(&along(DRIFT, 1.0)).map(|(point, _)| point)
    }

    /// The faces with room for a common drift; what is chosen or held does not drift.
    fn with_drift(&self, held: &[(usize, f64)]) -> Polytope {
        let mut polytope = self.region.polytope.clone();
        for (number, row) in polytope.faces.iter_mut().enumerate() {
            if self.space.faces[self.region.faces[number]].of_aim {
                continue;
            }
            row.normal[DRIFT] = (0..AXES)
                .filter(|axis| !held.iter().any(|(other, _)| other == axis))
                .map(|axis| row.normal[axis].abs() * self.usual_drift(axis))
                .sum();
        }
        polytope.high[DRIFT] = MOST_DRIFT;
        held.iter().fold(polytope, |all, (axis, value)| all.held(*axis, *value))
    }

    fn usual_drift(&self, axis: usize) -> f64 {
        let moves = self.space.is_active(axis) && !self.space.chosen[axis];
        if moves { drift(self.space.role(axis)).ln_1p() } else { 0.0 }
    }

    /// The common drift that a point has.
    pub(in crate::window) fn drift_at(&self, point: &Vector) -> f64 {
        let room = |row: &HalfSpace| {
            let weight = row.normal[DRIFT];
            let mut at = *point;
            at[DRIFT] = 0.0;
            (weight > 0.0).then(|| (row.bound - dot(&row.normal, &at)) / weight)
        };
        let rooms = self.with_drift(&[]).faces;
        rooms.iter().filter_map(room).fold(MOST_DRIFT, f64::min).max(0.0)
    }
}
