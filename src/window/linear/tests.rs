//! The solvers against figures that are plain to see.

use super::*;

/// A box from 0 to 10 on two axes, the others at rest.
fn plane(faces: &[([f64; 2], f64)]) -> Polytope {
    let faces = faces.iter().map(|(normal, bound)| {
        let mut all = [0.0; DIM];
        all[..2].copy_from_slice(normal);
        HalfSpace { normal: all, bound: *bound }
    });
    let mut high = [0.0; DIM];
    high[..2].fill(10.0);
    Polytope { faces: faces.collect(), low: [0.0; DIM], high }
}

fn at(x: f64, y: f64) -> Vector {
    let mut point = [0.0; DIM];
    (point[0], point[1]) = (x, y);
    point
}

fn close(a: &Vector, b: &Vector) -> bool {
    a.iter().zip(b).all(|(a, b)| (a - b).abs() < 1e-9)
}

/// x + y <= 4, x <= 3: the most of 2x + y is 7 at (3, 1) (own arithmetic).
#[test]
fn an_optimum_names_what_binds_it() {
    let set = plane(&[([1.0, 1.0], 4.0), ([1.0, 0.0], 3.0), ([0.0, 1.0], 9.0)]);
    let Optimum::At { point, mut binding } = set.maximise(&at(2.0, 1.0)) else { panic!() };
    binding.sort_unstable();
    assert!(close(&point, &at(3.0, 1.0)), "{point:?}");
    assert_eq!(binding, [0, 1]);
}

#[test]
fn an_empty_set_names_what_contradicts() {
    let set = plane(&[([1.0, 1.0], 4.0), ([1.0, 0.0], 9.0), ([-1.0, -1.0], -5.0)]);
    let Optimum::Empty { mut contradictory } = set.maximise(&at(1.0, 0.0)) else { panic!() };
    contradictory.sort_unstable();
    assert_eq!(contradictory, [0, 2]);
    assert!(set.nearest(&at(1.0, 1.0)).is_none());
}

/// The foot of (3, 4) on x + y = 3 is (1, 2); beyond the corner x = 0 it is (0, 3) from (-1, 5).
#[test]
fn the_nearest_point_is_a_foot_or_a_corner() {
    let set = plane(&[([1.0, 1.0], 3.0)]);
    assert!(close(&set.nearest(&at(3.0, 4.0)).unwrap(), &at(1.0, 2.0)));
    assert!(close(&set.nearest(&at(-1.0, 5.0)).unwrap(), &at(0.0, 3.0)));
    assert!(close(&set.nearest(&at(1.0, 1.0)).unwrap(), &at(1.0, 1.0)));
}

/// Settings e^x in steps of 0.5 with e^x <= 2.3: the nearest to 2.4 is 2 (own arithmetic).
#[test]
fn a_lattice_point_is_inside_and_no_nearer_one_is() {
    let set = plane(&[([1.0, 0.0], 2.3_f64.ln())]);
    let mut steps = [None; AXES];
    steps[0] = Some(0.5);
    let from = at(2.4_f64.ln(), 0.0);
    let cost = |part: &Polytope| {
        let point = part.nearest(&from)?;
        Some((point, (0..DIM).map(|axis| (point[axis] - from[axis]).powi(2)).sum()))
    };
    let OnLattice::Best(point, _) = on_lattice(&set, &steps, &cost) else { panic!() };
    assert!(close(&point, &at(2.0_f64.ln(), 0.0)));
    let none = set.between(0, 2.1_f64.ln(), 2.3_f64.ln());
    assert_eq!(on_lattice(&none, &steps, &cost), OnLattice::NoStepFits);
}
