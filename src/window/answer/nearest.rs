//! The least change that brings settings back into the window.

use super::{Open, Place};
use crate::{
    check::{Given, Settings},
    quantity::{Kind, Share},
    window::{
        linear::{AXES, DIM, OnLattice, Polytope, Vector, on_lattice},
        space::{CURRENT, FEED, POWER, SPEED, STICK_OUT, VOLTAGE, settings_at},
    },
};

/// The nearest settings that keep every limit.
#[derive(Debug, Clone, PartialEq)]
pub enum Nearest {
    /// On whole steps of what is dialled.
    At(Box<Place>),
    /// The window is open, but no step of the settings lies in it.
    NoStepFits,
    /// Not found within the bound of the search.
    NotDecided,
}

/// Digits of a setting without a step, where they fit.
const DIGITS: i32 = 4;

impl Open<'_> {
    /// The settings with the least change from those given: the least sum of squares of relative changes
    /// (as logarithms) of all settings, over the lattice of steps; settings that keep every limit stay as
    /// they are, on a step or not. A setting not stated starts from
    /// the most tolerant place.
    #[must_use]
    pub fn nearest(&self, from: &Settings) -> Nearest {
        let Some(start) = self.start(from) else { return Nearest::NotDecided };
        let all_stated = self.axes().all(|axis| stated(from, axis).is_some());
        if all_stated && self.region.polytope.contains(&start) {
            return self.place_at(from, start);
        }
        let relaxed = |part: &Polytope| {
            let point = part.nearest(&start)?;
            Some((point, change(&start, &point)))
        };
        match on_lattice(&self.region.polytope, self.steps.by_axis(), &relaxed) {
            OnLattice::Best(point, _) => {
                let held = self.held_on_steps(&point);
                let point = self.tidied(&held, &point, DIGITS);
                self.place_at(from, point)
            }
            OnLattice::NoStepFits => Nearest::NoStepFits,
            OnLattice::GaveUp => Nearest::NotDecided,
        }
    }

    fn place_at(&self, from: &Settings, point: Vector) -> Nearest {
        let settings = settings_at(self.space, from, &point);
        Share::computed(self.drift_at(&point)).map_or(Nearest::NotDecided, |drift| {
            Nearest::At(Box::new(Place { settings, drift, point }))
        })
    }

    /// The nearest point when steps do not count, as settings with the change from those given.
    #[must_use]
    pub fn nearest_without_steps(&self, from: &Settings) -> Option<(Settings, Share)> {
        let start = self.start(from)?;
        let point = self.region.polytope.nearest(&start)?;
        let change = Share::computed(change(&start, &point).sqrt()).ok()?;
        Some((settings_at(self.space, from, &point), change))
    }

    fn held_on_steps(&self, point: &Vector) -> Polytope {
        let stepped = (0..AXES).filter(|axis| self.step(*axis).is_some());
        let active = stepped.filter(|axis| self.space.is_active(*axis));
        active.fold(self.region.polytope.clone(), |all, axis| all.held(axis, point[axis]))
    }

    pub(in crate::window) fn start(&self, from: &Settings) -> Option<Vector> {
        let mut start = [0.0; DIM];
        let mut tolerant = None;
        for axis in self.axes() {
            start[axis] = match stated(from, axis) {
                Some(stated) => stated,
                None if tolerant.is_none() => tolerant.insert(self.most_tolerant()?)[axis],
                None => tolerant?[axis],
            };
        }
        Some(start)
    }
}

/// The logarithm of what is stated of one setting.
fn stated(from: &Settings, axis: usize) -> Option<f64> {
    match axis {
        FEED => middle(from.wire_feed.as_ref()),
        VOLTAGE => middle(from.voltage.as_ref()),
        CURRENT => middle(from.current.as_ref()),
        SPEED => middle(from.travel_speed.as_ref()),
        STICK_OUT => middle(from.stick_out.as_ref()),
        POWER => middle(from.arc_power.as_ref()),
        _ => None,
    }
}

fn middle<K: Kind>(given: Option<&Given<K>>) -> Option<f64> {
    let span = given?.span;
    let (low, high) = (span.low().canonical(), span.high().canonical());
    (low > 0.0).then(|| f64::midpoint(low.ln(), high.ln()))
}

/// Sum of squares of the changes.
fn change(from: &Vector, to: &Vector) -> f64 {
    from.iter().zip(to).map(|(from, to)| (to - from).powi(2)).sum()
}
