//! The outline of two settings, for a plot.

use super::{Open, amounts::rounded_to};
use crate::{
    check::Variable,
    quantity::Amount,
    window::{
        linear::{DIM, Vector, dot},
        space::{ORDER, amount, axis_of},
    },
};

/// Points on each edge.
const ON_EDGE: usize = 8;
/// Corners closer than this are one.
const SAME_CORNER: f64 = 1e-9;
/// Chords that leave the edge by less are straight.
const NO_BULGE: f64 = 1e-13;
/// Digits of a point, enough for a smooth plot.
const DIGITS: u32 = 6;
/// What a point may lie beyond an edge by the noise of computing.
const NOISE: f64 = 1e-15;
/// No outline of a few dozen limits has more corners.
const MOST_CORNERS: usize = 200;

/// What is left of two settings together, whatever the others are.
#[derive(Debug, Clone, PartialEq)]
pub struct Outline {
    /// The setting to the right.
    pub right: Variable,
    /// The setting upward.
    pub up: Variable,
    /// Points around it, rounded inward; straight lines between them stay inside.
    pub points: Vec<(Amount, Amount)>,
}

type Corner = [f64; 2];

impl Open<'_> {
    /// The outline of two settings; `None` where one of them is none of this job, or both are the same.
    #[must_use]
    pub fn outline(&self, right: Variable, up: Variable) -> Option<Outline> {
        let axes = (axis_of(right)?, axis_of(up)?);
        let active = |axis: usize| self.space.is_active(axis);
        if axes.0 == axes.1 || !active(axes.0) || !active(axes.1) {
            return None;
        }
        let corners = self.corners(axes)?;
        let mut points = Vec::new();
        for (place, from) in corners.iter().enumerate() {
            let to = &corners[(place + 1) % corners.len()];
            points.extend(edge(*from, *to));
        }
        let shown = |point| self.inward(axes, &corners, point);
        let points = points.into_iter().filter_map(shown).collect();
        Some(Outline { right, up, points })
    }

    /// The point as it is written, on that side where it stays inside. Where no written one does, the outline is
    /// thinner than the last digit, and the point stands as it is.
    fn inward(
        &self,
        axes: (usize, usize),
        corners: &[Corner],
        (x, y): (f64, f64),
    ) -> Option<(Amount, Amount)> {
        let exact = (amount(ORDER[axes.0], x)?, amount(ORDER[axes.1], y)?);
        let written = |exact, up| rounded_to(DIGITS, exact, up, self.space.system);
        let ways = [(false, false), (false, true), (true, false), (true, true)];
        let around = ways
            .iter()
            .filter_map(|way| Some((written(exact.0, way.0)?, written(exact.1, way.1)?)));
        let off = |(right, up): &(Amount, Amount)| {
            (right.canonical() / x - 1.0).abs() + (up.canonical() / y - 1.0).abs()
        };
        let inside = around.filter(|(right, up)| {
            is_inside(corners, [right.canonical().ln(), up.canonical().ln()])
        });
        Some(inside.min_by(|a, b| off(a).total_cmp(&off(b))).unwrap_or(exact))
    }

    /// Corners of the projection, anticlockwise: extreme points, and between two of them whatever lies
    /// farther out.
    fn corners(&self, axes: (usize, usize)) -> Option<Vec<Corner>> {
        let ways = [[1.0, 0.0], [0.0, 1.0], [-1.0, 0.0], [0.0, -1.0]];
        let mut corners: Vec<Corner> = Vec::new();
        for way in ways {
            let corner = self.farthest(axes, way)?;
            if !corners.iter().any(|known| is_same(*known, corner)) {
                corners.push(corner);
            }
        }
        let mut place = 0;
        while corners.len() > 1 && place < corners.len() && corners.len() < MOST_CORNERS {
            let (from, to) = (corners[place], corners[(place + 1) % corners.len()]);
            let outward = [to[1] - from[1], from[0] - to[0]];
            let corner = self.farthest(axes, outward)?;
            let length = outward[0].hypot(outward[1]);
            let beyond = outward[0] * (corner[0] - from[0]) + outward[1] * (corner[1] - from[1]);
            if beyond > SAME_CORNER * length && !is_same(corner, from) && !is_same(corner, to) {
                corners.insert(place + 1, corner);
            } else {
                place += 1;
            }
        }
        Some(corners)
    }

    fn farthest(&self, axes: (usize, usize), way: Corner) -> Option<Corner> {
        let mut objective: Vector = [0.0; DIM];
        (objective[axes.0], objective[axes.1]) = (way[0], way[1]);
        let (point, value) = self.region.polytope.highest(&objective)?;
        debug_assert!((dot(&objective, &point) - value).abs() < SAME_CORNER);
        Some([point[axes.0], point[axes.1]])
    }
}

/// Whether a point lies within corners that go anticlockwise.
fn is_inside(corners: &[Corner], point: Corner) -> bool {
    corners.iter().zip(corners.iter().cycle().skip(1)).all(|(from, to)| {
        let (right, up) = (to[0] - from[0], to[1] - from[1]);
        right * (point[1] - from[1]) - up * (point[0] - from[0]) >= -NOISE
    })
}

fn is_same(a: Corner, b: Corner) -> bool {
    (a[0] - b[0]).abs() <= SAME_CORNER && (a[1] - b[1]).abs() <= SAME_CORNER
}

/// Points of one edge, its end left to the next one. An edge is straight in logarithms, a curve in the
/// settings; where its chord would leave the window, the tangents at both ends take its place.
fn edge(from: Corner, to: Corner) -> Vec<(f64, f64)> {
    let at = |place: usize| {
        let share = f64::from(u32::try_from(place).unwrap_or(0))
            / f64::from(u32::try_from(ON_EDGE).unwrap_or(1));
        [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share]
    };
    let mut points = Vec::new();
    for place in 0..ON_EDGE {
        let (one, other) = (at(place), at(place + 1));
        points.push((one[0].exp(), one[1].exp()));
        if leaves(from, to, one, other) {
            points.extend(tangents_meet(one, other));
        }
    }
    points
}

/// Whether the middle of the chord lies outside the edge; corners go anticlockwise, so the outside is to
/// the right.
fn leaves(from: Corner, to: Corner, one: Corner, other: Corner) -> bool {
    let middle = [
        f64::midpoint(one[0].exp(), other[0].exp()).ln(),
        f64::midpoint(one[1].exp(), other[1].exp()).ln(),
    ];
    let outward = [to[1] - from[1], from[0] - to[0]];
    outward[0] * (middle[0] - from[0]) + outward[1] * (middle[1] - from[1]) > NO_BULGE
}

/// Where the tangents at two points of a power law meet; `None` on a straight line.
fn tangents_meet(one: Corner, other: Corner) -> Option<(f64, f64)> {
    let slope = (other[1] - one[1]) / (other[0] - one[0]);
    let point = |corner: Corner| (corner[0].exp(), corner[1].exp());
    let ((x1, y1), (x2, y2)) = (point(one), point(other));
    let (rise1, rise2) = (slope * y1 / x1, slope * y2 / x2);
    let x = (y2 - y1 + rise1 * x1 - rise2 * x2) / (rise1 - rise2);
    let meeting = (x, y1 + rise1 * (x - x1));
    let between = |value: f64, a: f64, b: f64| a.min(b) <= value && value <= a.max(b);
    (between(meeting.0, x1, x2) && between(meeting.1, y1, y2)).then_some(meeting)
}
