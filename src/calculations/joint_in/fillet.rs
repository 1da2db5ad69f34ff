//! A fillet as sent.

use crate::{
    quantity::{JointAngle, Leg, Reinforcement, RootGap, Throat},
    trade::{Fillet, FilletFace, Joint, leg_for_throat},
    wire::{Errors, Place, wire_object},
};

wire_object! {
    /// A fillet. Give its leg, or the throat of a flat one with equal legs.
    pub struct FilletIn {
        /// Drawn leg.
        pub leg: Option<Leg>,
        /// Drawn leg on the other part, where it differs.
        pub other_leg: Option<Leg>,
        /// Throat, in place of the leg.
        pub throat: Option<Throat>,
        /// Angle between the parts; 90 degrees where left out.
        pub angle: Option<JointAngle>,
        /// Gap between the parts, laid on both legs; they touch where left out.
        pub gap: Option<RootGap>,
        /// Height of a convex face, as an arc of a circle.
        pub convex: Option<Reinforcement>,
        /// Height of a convex face, as the handbooks' parabola.
        pub convex_parabola: Option<Reinforcement>,
        /// Depth of a concave face, as an arc of a circle.
        pub concave: Option<Reinforcement>,
    }
}

impl FilletIn {
    /// What was taken for granted.
    pub(super) fn assumptions(&self) -> Vec<&'static str> {
        let missing = [
            (self.angle.is_none(), "the parts stand at 90 degrees"),
            (self.gap.is_none(), "the parts touch: no gap"),
            (self.throat.is_some(), "equal legs with a flat face, from the throat"),
        ];
        missing.into_iter().filter(|(applies, _)| *applies).map(|(_, text)| text).collect()
    }

    pub(super) fn joint(&self, at: Place<'_>, errors: &mut Errors) -> Option<Joint> {
        let angle = self.angle.or_else(|| JointAngle::computed(90.0).ok())?;
        let leg = match (self.leg, self.throat) {
            (Some(leg), None) => leg,
            (None, Some(throat)) if self.other_leg.is_none() => leg_for_throat(throat, angle)
                .map_or_else(|error| errors.note(at, error.to_string()), Some)?,
            _ => return errors.note(at, "give one leg or both, or the throat of equal legs"),
        };
        let faces = [
            self.convex.map(FilletFace::Convex),
            self.convex_parabola.map(FilletFace::ConvexParabola),
            self.concave.map(FilletFace::Concave),
        ];
        let mut faces = faces.into_iter().flatten();
        let face = match (faces.next(), faces.next()) {
            (None, _) => FilletFace::Flat,
            (Some(face), None) => face,
            _ => return errors.note(at, "a face is convex or concave, said in one way"),
        };
        let gap = self.gap.or_else(|| RootGap::computed(0.0).ok())?;
        Some(Joint::Fillet(Fillet {
            leg,
            other_leg: self.other_leg.unwrap_or(leg),
            angle,
            gap,
            face,
        }))
    }
}
