//! The corner where as many half-spaces meet as there are axes.
//!
//! Most of them are ends of the box, which fix their axis. Only as many equations are left as there are faces
//! among them.

use smallvec::SmallVec;

use super::{DIM, Polytope, Vector, dot, eliminate::solve};

/// A corner of a polytope's half-spaces. Each axis has one place in it: an end of the box that holds the axis,
/// or a face in its stead.
pub(super) struct Corner<'p> {
    polytope: &'p Polytope,
    places: [Place; DIM],
}

#[derive(Clone, Copy)]
enum Place {
    /// The axis is at an end of the box: the upper one, or else the lower one.
    Held { upper: bool },
    /// The axis is free, and this face is in the corner.
    Face(usize),
}

impl<'p> Corner<'p> {
    /// The corner of the box that a direction points to.
    pub(super) fn of_box(polytope: &'p Polytope, direction: &Vector) -> Self {
        let places = direction.map(|length| Place::Held { upper: length >= 0.0 });
        Self { polytope, places }
    }

    /// Number of the half-space at a place.
    pub(super) fn number(&self, place: usize) -> usize {
        match self.places[place] {
            Place::Held { upper } => self.polytope.end(place, upper),
            Place::Face(number) => number,
        }
    }

    /// Where the half-spaces meet; `None` where they meet in no single point.
    pub(super) fn point(&self) -> Option<Vector> {
        let Polytope { faces, low, high, .. } = self.polytope;
        let mut point: Vector = std::array::from_fn(|axis| match self.places[axis] {
            Place::Held { upper: true } => high[axis],
            Place::Held { upper: false } => low[axis],
            Place::Face(_) => 0.0,
        });
        let open = self.open();
        let (mut matrix, mut right) = ([[0.0; DIM]; DIM], [[0.0]; DIM]);
        for ((row, right), (_, number)) in matrix.iter_mut().zip(&mut right).zip(&open) {
            let face = &faces[*number];
            row.iter_mut().zip(&open).for_each(|(own, (axis, _))| *own = face.normal[*axis]);
            *right = [face.bound - dot(&face.normal, &point)];
        }
        let found = solve(open.len(), matrix, right)?;
        open.iter().zip(found).for_each(|((axis, _), [value])| point[*axis] = value);
        Some(point)
    }

    /// The share of the half-space at each place in two vectors; `None` where they do not span everything.
    pub(super) fn shares(&self, vectors: [&Vector; 2]) -> Option<[[f64; 2]; DIM]> {
        let faces = &self.polytope.faces;
        let mut rest = std::array::from_fn(|axis| vectors.map(|vector| vector[axis]));
        let open = self.open();
        let (mut matrix, mut right) = ([[0.0; DIM]; DIM], [[0.0; 2]; DIM]);
        for ((row, right), (axis, _)) in matrix.iter_mut().zip(&mut right).zip(&open) {
            row.iter_mut()
                .zip(&open)
                .for_each(|(own, (_, face))| *own = faces[*face].normal[*axis]);
            *right = rest[*axis];
        }
        let found = solve(open.len(), matrix, right)?;
        for ((_, face), [first, second]) in open.iter().zip(found) {
            for ([rest_of_first, rest_of_second], length) in
                rest.iter_mut().zip(&faces[*face].normal)
            {
                *rest_of_first -= first * length;
                *rest_of_second -= second * length;
            }
        }
        // What the faces leave lies along the axes of the ends.
        for (rest, place) in rest.iter_mut().zip(&self.places) {
            if let Place::Held { upper: false } = place {
                *rest = rest.map(|rest| -rest);
            }
        }
        open.iter().zip(found).for_each(|((axis, _), found)| rest[*axis] = found);
        Some(rest)
    }

    /// Takes a half-space in and lets go of the one at a place.
    pub(super) fn exchange(&mut self, place: usize, entering: usize) {
        match entering.checked_sub(self.polytope.faces.len()) {
            None => self.places[place] = Place::Face(entering),
            Some(end) => {
                // The axis may have had a face in its stead; that one stands where another left.
                let axis = end / 2;
                self.places[place] = self.places[axis];
                self.places[axis] = Place::Held { upper: end % 2 == 1 };
            }
        }
    }

    /// Free axes, each with the face in its stead.
    fn open(&self) -> SmallVec<[(usize, usize); DIM]> {
        let faces = self.places.iter().enumerate().filter_map(|(axis, place)| match place {
            Place::Held { .. } => None,
            Place::Face(number) => Some((axis, *number)),
        });
        faces.collect()
    }
}
