//! Fillet welds: equal or unequal legs, any angle between the parts, gap, shape of the face.

use super::{
    JointError,
    dimension::{between_parts, mm},
    face::{face_parabola, face_segment},
};
use crate::{
    quantity::{Area, FaceWidth, JointAngle, Leg, Reinforcement, RootGap, Throat},
    trade::formula,
};

formula! {
    /// Cross-section of a fillet.
    pub const FILLET_SECTION {
        name: "fillet-section",
        equation: "A = (z1 + g) * (z2 + g) * sin psi / 2, plus or minus the face segment over the \
                   chord c; c^2 = a^2 + b^2 - 2 a b cos psi with a = z1 + g, b = z2 + g",
        source: "area of a triangle; the gap is added to both legs as AWS D1.1 asks above 1/16 in \
                 (read in a discussion that quotes the clause)",
        validity: "z as drawn; metal that runs into the gap behind the root is not counted; a convex \
                   or concave face stands on the straight line between the toes",
        confidence: Secondary,
    }
}

formula! {
    /// Throat of a flat fillet.
    pub const FILLET_THROAT {
        name: "fillet-throat",
        equation: "a = z1 * z2 * sin psi / sqrt(z1^2 + z2^2 - 2 z1 z2 cos psi); equal legs: \
                   a = z * cos(psi / 2), at 90 degrees z / sqrt 2",
        source: "height of a triangle over the line between the toes",
        validity: "drawn legs; convexity and penetration not counted",
        confidence: Derived,
    }
}

/// Shape of the face between the toes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum FilletFace {
    /// Straight from toe to toe.
    Flat,
    /// Convex, arc of a circle of this height.
    Convex(Reinforcement),
    /// Convex, parabola of this height: the handbooks' way.
    ConvexParabola(Reinforcement),
    /// Concave, arc of a circle of this depth.
    Concave(Reinforcement),
}

/// A fillet weld.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fillet {
    /// Drawn leg on one part.
    pub leg: Leg,
    /// Drawn leg on the other part; the same for equal legs.
    pub other_leg: Leg,
    /// Angle between the parts; 90 degrees for a square joint.
    pub angle: JointAngle,
    /// Gap between the parts; zero where they touch.
    pub gap: RootGap,
    /// Shape of the face.
    pub face: FilletFace,
}

/// Two sides of a triangle and the angle between them.
struct Triangle {
    a: f64,
    b: f64,
    psi: f64,
}

impl Triangle {
    fn area(&self) -> f64 {
        self.a * self.b * self.psi.sin() / 2.0
    }

    fn chord(&self) -> f64 {
        let square = self.a * self.a + self.b * self.b - 2.0 * self.a * self.b * self.psi.cos();
        square.max(0.0).sqrt()
    }

    fn height(&self) -> f64 {
        2.0 * self.area() / self.chord()
    }
}

impl Fillet {
    /// A flat fillet of equal legs in a square joint without gap.
    ///
    /// # Errors
    /// None in practice; the angle and the gap are constants.
    pub fn equal(leg: Leg) -> Result<Self, JointError> {
        Ok(Self {
            leg,
            other_leg: leg,
            angle: JointAngle::computed(90.0)?,
            gap: RootGap::computed(0.0)?,
            face: FilletFace::Flat,
        })
    }

    /// The same by its throat.
    ///
    /// # Errors
    /// [`JointError::Negative`].
    pub fn with_throat(throat: Throat) -> Result<Self, JointError> {
        Self::equal(leg_for_throat(throat, JointAngle::computed(90.0)?)?)
    }

    /// Cross-section, [`FILLET_SECTION`].
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no fillet.
    pub fn area(&self) -> Result<Area, JointError> {
        let laid = self.laid()?;
        let chord = FaceWidth::computed(laid.chord())?;
        let beyond = match self.face {
            FilletFace::Flat => 0.0,
            FilletFace::Convex(height) => face_segment(chord, height)?.mm2(),
            FilletFace::ConvexParabola(height) => face_parabola(chord, height)?.mm2(),
            FilletFace::Concave(depth) => {
                if mm(depth)? >= laid.height() {
                    return Err(JointError::TooConcave);
                }
                -face_segment(chord, depth)?.mm2()
            }
        };
        Ok(Area::computed(laid.area() + beyond)?)
    }

    /// Width of the face from toe to toe.
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no fillet.
    pub fn face_width(&self) -> Result<FaceWidth, JointError> {
        Ok(FaceWidth::computed(self.laid()?.chord())?)
    }

    /// Throat of the drawn legs, [`FILLET_THROAT`]; the depth of a concave face is taken off.
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no fillet.
    pub fn throat(&self) -> Result<Throat, JointError> {
        let flat = self.triangle(0.0)?.height();
        let throat = match self.face {
            FilletFace::Concave(depth) => flat - mm(depth)?,
            FilletFace::Flat | FilletFace::Convex(_) | FilletFace::ConvexParabola(_) => flat,
        };
        if throat < 0.0 {
            return Err(JointError::TooConcave);
        }
        Ok(Throat::computed(throat)?)
    }

    fn laid(&self) -> Result<Triangle, JointError> {
        self.triangle(mm(self.gap)?)
    }

    fn triangle(&self, longer: f64) -> Result<Triangle, JointError> {
        let [a, b] = [mm(self.leg)? + longer, mm(self.other_leg)? + longer];
        Ok(Triangle { a, b, psi: between_parts(self.angle)? })
    }
}

/// Leg of an equal-leg flat fillet with this throat: the inverse of [`FILLET_THROAT`].
///
/// # Errors
/// [`JointError::Angle`] for parts that lie flat on each other, [`JointError::Negative`].
pub fn leg_for_throat(throat: Throat, angle: JointAngle) -> Result<Leg, JointError> {
    Ok(Leg::computed(mm(throat)? / (between_parts(angle)? / 2.0).cos())?)
}
