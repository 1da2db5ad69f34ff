//! A joint as sent: one preparation or fillet, and what is laid beyond it.

use serde_json::Value;
use utoipa::openapi::{RefOr, Schema};

use crate::{
    quantity::{
        BevelAngle, EdgeOverlap, FaceWidth, IncludedAngle, JointAngle, LayerThickness, Leg,
        PreparationDepth, Reinforcement, RootFace, RootGap, RootRadius, Thickness, Throat,
    },
    trade::{
        BackGouge, BevelSide, Cap, DoubleBevel, DoubleVee, Fillet, FilletFace, Joint, JointKind,
        RootReinforcement, SingleBevel, SingleJ, SingleU, SingleVee, Square, VeeOnBacking, VeeSide,
        WeldSection, leg_for_throat,
    },
    wire::{Definitions, Errors, FromWire, Node, Place, ToWire, WireSchema, wire_object},
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

wire_object! {
    /// A square butt joint.
    pub struct SquareIn {
        /// Plate thickness.
        pub thickness: Thickness,
        /// Root gap.
        pub gap: RootGap,
    }
}

wire_object! {
    /// A V from one side.
    pub struct VeeIn {
        /// Plate thickness.
        pub thickness: Thickness,
        /// Root gap.
        pub gap: RootGap,
        /// Root face.
        pub face: RootFace,
        /// Included angle.
        pub angle: IncludedAngle,
    }
}

wire_object! {
    /// A V on a backing, without root face.
    pub struct VeeOnBackingIn {
        /// Plate thickness.
        pub thickness: Thickness,
        /// Root gap.
        pub gap: RootGap,
        /// Included angle.
        pub angle: IncludedAngle,
    }
}

wire_object! {
    /// One side of a double V.
    pub struct VeeSideIn {
        /// Depth of this side.
        pub depth: PreparationDepth,
        /// Included angle of this side.
        pub angle: IncludedAngle,
    }
}

wire_object! {
    /// A V from both sides; the root face is what both depths leave.
    pub struct DoubleVeeIn {
        /// Plate thickness.
        pub thickness: Thickness,
        /// Root gap.
        pub gap: RootGap,
        /// Side welded first.
        pub near: VeeSideIn,
        /// Other side.
        pub far: VeeSideIn,
    }
}

wire_object! {
    /// A bevel from one side: one edge square.
    pub struct BevelIn {
        /// Plate thickness.
        pub thickness: Thickness,
        /// Root gap.
        pub gap: RootGap,
        /// Root face.
        pub face: RootFace,
        /// Bevel angle of the prepared edge.
        pub angle: BevelAngle,
    }
}

wire_object! {
    /// One side of a double bevel.
    pub struct BevelSideIn {
        /// Depth of this side.
        pub depth: PreparationDepth,
        /// Bevel angle of this side.
        pub angle: BevelAngle,
    }
}

wire_object! {
    /// A bevel from both sides (K); the root face is what both depths leave.
    pub struct DoubleBevelIn {
        /// Plate thickness.
        pub thickness: Thickness,
        /// Root gap.
        pub gap: RootGap,
        /// Side welded first.
        pub near: BevelSideIn,
        /// Other side.
        pub far: BevelSideIn,
    }
}

wire_object! {
    /// A U or J from one side.
    pub struct RoundRootIn {
        /// Plate thickness.
        pub thickness: Thickness,
        /// Root gap.
        pub gap: RootGap,
        /// Root face.
        pub face: RootFace,
        /// Root radius.
        pub radius: RootRadius,
        /// Bevel angle of each prepared wall.
        pub angle: BevelAngle,
    }
}

wire_object! {
    /// Metal above the face of a groove.
    pub struct CapIn {
        /// Height above the plate.
        pub height: Reinforcement,
        /// How far it reaches past each edge.
        pub overlap: EdgeOverlap,
    }
}

wire_object! {
    /// Metal below the root.
    pub struct RootReinforcementIn {
        /// Width.
        pub width: FaceWidth,
        /// Height below the plate.
        pub height: Reinforcement,
    }
}

wire_object! {
    /// A groove gouged out of the back and filled again: its depth, and either its width (parabola) or
    /// radius and wall angle.
    pub struct GougeIn {
        /// Depth.
        pub depth: PreparationDepth,
        /// Width at the surface.
        pub width: Option<FaceWidth>,
        /// Radius of the bottom.
        pub radius: Option<RootRadius>,
        /// Angle of each wall.
        pub angle: Option<BevelAngle>,
    }
}

wire_object! {
    /// A joint: exactly one of fillet, square, vee, `vee_on_backing`, `double_vee`, bevel, `double_bevel`,
    /// u and j; and what is laid beyond it.
    pub struct JointParts {
        /// Fillet.
        pub fillet: Option<FilletIn>,
        /// Square butt.
        pub square: Option<SquareIn>,
        /// V from one side.
        pub vee: Option<VeeIn>,
        /// V on a backing.
        pub vee_on_backing: Option<VeeOnBackingIn>,
        /// V from both sides.
        pub double_vee: Option<DoubleVeeIn>,
        /// Bevel from one side.
        pub bevel: Option<BevelIn>,
        /// Bevel from both sides.
        pub double_bevel: Option<DoubleBevelIn>,
        /// U from one side.
        pub u: Option<RoundRootIn>,
        /// J from one side: one edge square.
        pub j: Option<RoundRootIn>,
        /// Cap on the side welded first.
        pub cap: Option<CapIn>,
        /// Cap on the other side of a joint that is open there.
        pub far_cap: Option<CapIn>,
        /// Root reinforcement.
        pub root: Option<RootReinforcementIn>,
        /// Gouged groove.
        pub gouge: Option<GougeIn>,
    }
}

/// A joint that was read: as sent, and as the formulas take it.
#[derive(Debug, Clone)]
pub struct JointIn {
    parts: JointParts,
    section: WeldSection,
}

impl JointIn {
    /// Everything that is laid.
    pub(super) const fn section(&self) -> &WeldSection {
        &self.section
    }

    /// The fillet, where it is one.
    pub(crate) const fn fillet(&self) -> Option<&Fillet> {
        match &self.section.joint {
            Joint::Fillet(fillet) => Some(fillet),
            _ => None,
        }
    }

    /// Fillet or butt.
    pub(crate) const fn kind(&self) -> JointKind {
        match self.fillet() {
            Some(_) => JointKind::Fillet,
            None => JointKind::Butt,
        }
    }

    /// Depth to be filled from one side; `None` for fillets and for joints filled from both sides.
    pub(crate) fn depth(&self) -> Option<LayerThickness> {
        let thickness = match &self.section.joint {
            Joint::Square(joint) => joint.thickness,
            Joint::SingleVee(joint) => joint.thickness,
            Joint::VeeOnBacking(joint) => joint.thickness,
            Joint::SingleBevel(joint) => joint.thickness,
            Joint::SingleU(joint) => joint.thickness,
            Joint::SingleJ(joint) => joint.thickness,
            Joint::Fillet(_) | Joint::DoubleVee(_) | Joint::DoubleBevel(_) => return None,
        };
        LayerThickness::computed(thickness.mm()).ok()
    }

    /// What was taken for granted about a fillet.
    pub(super) fn assumptions(&self) -> Vec<&'static str> {
        let Some(fillet) = &self.parts.fillet else { return Vec::new() };
        let missing = [
            (fillet.angle.is_none(), "the parts stand at 90 degrees"),
            (fillet.gap.is_none(), "the parts touch: no gap"),
            (fillet.throat.is_some(), "equal legs with a flat face, from the throat"),
        ];
        missing.into_iter().filter(|(applies, _)| *applies).map(|(_, text)| text).collect()
    }
}

impl FromWire for JointIn {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let parts = JointParts::from_wire(value, at, errors)?;
        let section = parts.section(at, errors)?;
        Some(Self { parts, section })
    }
}

impl ToWire for JointIn {
    fn to_wire(&self) -> Value {
        self.parts.to_wire()
    }
}

impl WireSchema for JointIn {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        JointParts::reference(into)
    }
}

impl JointParts {
    fn section(&self, at: Place<'_>, errors: &mut Errors) -> Option<WeldSection> {
        let forms = [
            self.fillet.as_ref().map(|form| form.joint(Place::Member(&at, "fillet"), errors)),
            self.square.as_ref().map(|form| Some(form.joint())),
            self.vee.as_ref().map(|form| Some(form.joint())),
            self.vee_on_backing.as_ref().map(|form| Some(form.joint())),
            self.double_vee.as_ref().map(|form| Some(form.joint())),
            self.bevel.as_ref().map(|form| Some(form.joint())),
            self.double_bevel.as_ref().map(|form| Some(form.joint())),
            self.u.as_ref().map(|form| Some(Joint::SingleU(form.u()))),
            self.j.as_ref().map(|form| Some(form.j())),
        ];
        let mut given = forms.into_iter().flatten();
        let (Some(joint), None) = (given.next(), given.next()) else {
            let forms =
                "fillet, square, vee, vee_on_backing, double_vee, bevel, double_bevel, u, j";
            return errors.note(at, format!("a joint has exactly one of {forms}"));
        };
        let gouge = match &self.gouge {
            Some(gouge) => Some(gouge.gouge(Place::Member(&at, "gouge"), errors)?),
            None => None,
        };
        Some(WeldSection {
            joint: joint?,
            cap: self.cap.as_ref().map(CapIn::cap),
            far_cap: self.far_cap.as_ref().map(CapIn::cap),
            root: self
                .root
                .as_ref()
                .map(|r| RootReinforcement { width: r.width, height: r.height }),
            gouge,
        })
    }
}

impl FilletIn {
    fn joint(&self, at: Place<'_>, errors: &mut Errors) -> Option<Joint> {
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

impl SquareIn {
    const fn joint(&self) -> Joint {
        Joint::Square(Square { thickness: self.thickness, gap: self.gap })
    }
}

impl VeeIn {
    const fn joint(&self) -> Joint {
        let Self { thickness, gap, face, angle } = *self;
        Joint::SingleVee(SingleVee { thickness, gap, face, angle })
    }
}

impl VeeOnBackingIn {
    const fn joint(&self) -> Joint {
        let Self { thickness, gap, angle } = *self;
        Joint::VeeOnBacking(VeeOnBacking { thickness, gap, angle })
    }
}

impl DoubleVeeIn {
    const fn joint(&self) -> Joint {
        let near = VeeSide { depth: self.near.depth, angle: self.near.angle };
        let far = VeeSide { depth: self.far.depth, angle: self.far.angle };
        Joint::DoubleVee(DoubleVee { thickness: self.thickness, gap: self.gap, near, far })
    }
}

impl BevelIn {
    const fn joint(&self) -> Joint {
        let Self { thickness, gap, face, angle } = *self;
        Joint::SingleBevel(SingleBevel { thickness, gap, face, angle })
    }
}

impl DoubleBevelIn {
    const fn joint(&self) -> Joint {
        let near = BevelSide { depth: self.near.depth, angle: self.near.angle };
        let far = BevelSide { depth: self.far.depth, angle: self.far.angle };
        Joint::DoubleBevel(DoubleBevel { thickness: self.thickness, gap: self.gap, near, far })
    }
}

impl RoundRootIn {
    const fn u(&self) -> SingleU {
        let Self { thickness, gap, face, radius, angle } = *self;
        SingleU { thickness, gap, face, radius, angle }
    }

    const fn j(&self) -> Joint {
        let Self { thickness, gap, face, radius, angle } = *self;
        Joint::SingleJ(SingleJ { thickness, gap, face, radius, angle })
    }
}

impl CapIn {
    const fn cap(&self) -> Cap {
        Cap { height: self.height, overlap: self.overlap }
    }
}

impl GougeIn {
    fn gouge(&self, at: Place<'_>, errors: &mut Errors) -> Option<BackGouge> {
        let depth = self.depth;
        match (self.width, self.radius, self.angle) {
            (Some(width), None, None) => Some(BackGouge::Parabola { width, depth }),
            (None, Some(radius), Some(angle)) => Some(BackGouge::Round { depth, radius, angle }),
            _ => errors.note(at, "a gouge has a width, or a radius and an angle"),
        }
    }
}
