//! Test pieces, on the wire.

use super::{BaseMetalDocument, RecordedRunDocument, TestDocument};
use crate::{
    qualify::record::{
        Backing, BackingMaterial, Deposit, FitUp, GrooveKind, HeatTreatment, Joint, Layering, Part,
        Penetration, PostHeating, ProductForm, RootRemoval, Sides, TestPiece, TreatmentClass,
        WeldKind,
    },
    quantity::{
        BevelAngle, CoolingRate, CoolingRateKind, Diameter, Duration, IncludedAngle, JointAngle,
        Leg, OutsideDiameter, Range, RootFace, RootGap, RootRadius, RunLength, Span,
        TemperatureKind, Thickness, Throat,
    },
    trade::{Position, Process},
    wire::wire_object,
};

wire_object! {
    /// One side of the joint.
    pub struct PartDocument {
        /// Form of the part.
        pub form: Option<ProductForm>,
        /// Thickness at the joint.
        pub thickness: Option<Thickness>,
        /// Outside diameter; smaller side of a hollow section; the branch's own where it is the branch.
        pub outside_diameter: Option<OutsideDiameter>,
        /// The metal.
        pub metal: Option<BaseMetalDocument>,
    }
}

wire_object! {
    /// Fit-up: as measured in a record, nominal in a procedure.
    pub struct FitUpDocument {
        /// Angle between the prepared edges.
        pub groove_angle: Option<IncludedAngle>,
        /// Angle of one prepared edge.
        pub bevel_angle: Option<BevelAngle>,
        /// Opening at the root.
        pub root_gap: Option<RootGap>,
        /// Unprepared edge at the root.
        pub root_face: Option<RootFace>,
        /// Radius at the root of a U or J.
        pub root_radius: Option<RootRadius>,
        /// Angle between the parts of a T, corner or branch.
        pub joint_angle: Option<JointAngle>,
    }
}

wire_object! {
    /// Joint, preparation and fit-up.
    pub struct JointDocument {
        /// Kind of weld.
        pub weld: Option<WeldKind>,
        /// Full or partial penetration; for butt welds.
        pub penetration: Option<Penetration>,
        /// Welded from one side or both.
        pub sides: Option<Sides>,
        /// Shape of the groove.
        pub groove: Option<GrooveKind>,
        /// What lies behind the root.
        pub backing: Option<Backing>,
        /// Material of the backing.
        pub backing_material: Option<BackingMaterial>,
        /// Root removal before the second side.
        pub root_removal: Option<RootRemoval>,
        /// Diameter of the gouging carbon or burr.
        pub gouging_tool: Option<Diameter>,
        /// How the edges were prepared and cleaned, in words.
        pub preparation: Option<String>,
        /// How the parts were held and tacked, in words.
        pub assembly: Option<String>,
        /// Fit-up as measured.
        pub fit_up: Option<FitUpDocument>,
        /// Whether a pipe piece had the restriction ring of 6GR.
        pub restriction_ring: Option<bool>,
    }
}

wire_object! {
    /// Metal that one process deposited.
    pub struct DepositDocument {
        /// Process.
        pub process: Process,
        /// Deposited thickness, without excess metal.
        pub thickness: Option<Thickness>,
    }
}

wire_object! {
    /// Heating after welding that lets hydrogen out. `"done": false` states that there was none.
    pub struct PostHeatingDocument {
        /// Whether it was done.
        pub done: bool,
        /// Temperature held.
        pub temperature: Option<Span<TemperatureKind>>,
        /// Time held.
        pub time: Option<Duration>,
    }
}

wire_object! {
    /// Heat treatment after welding. The class `none` states that there was none.
    pub struct HeatTreatmentDocument {
        /// Class by the transformation temperatures of the steel.
        pub class: TreatmentClass,
        /// Holding temperature.
        pub temperature: Option<Span<TemperatureKind>>,
        /// Holding time.
        pub time: Option<Duration>,
        /// Where heating and cooling were controlled, in words.
        pub rates: Option<String>,
        /// Slowest and fastest cooling rate.
        pub cooling: Option<Range<CoolingRateKind>>,
        /// Fastest heating rate.
        pub heating: Option<CoolingRate>,
    }
}

wire_object! {
    /// One welded test piece with its tests.
    pub struct PieceDocument {
        /// Mark that tells the pieces of a record apart.
        pub mark: String,
        /// Parts joined: two, or three where permanent backing counts as one.
        pub parts: Vec<PartDocument>,
        /// Joint and fit-up.
        pub joint: Option<JointDocument>,
        /// ISO 6947 position of the piece.
        pub position: Option<Position>,
        /// Whether the pipe was rotated under the arc.
        pub rotated: Option<bool>,
        /// One run per side or several.
        pub layering: Option<Layering>,
        /// What each process deposited, in the order of welding.
        pub deposits: Vec<DepositDocument>,
        /// Throat of a fillet.
        pub throat: Option<Throat>,
        /// Leg of a fillet.
        pub leg: Option<Leg>,
        /// Length of the weld.
        pub length: Option<RunLength>,
        /// Runs in the order of welding.
        pub runs: Vec<RecordedRunDocument>,
        /// Heating after welding that lets hydrogen out.
        pub post_heating: Option<PostHeatingDocument>,
        /// Heat treatment after welding.
        pub heat_treatment: Option<HeatTreatmentDocument>,
        /// Tests and their results, repeated ones included.
        pub tests: Vec<TestDocument>,
    }
}

impl PieceDocument {
    pub(super) fn compile(&self) -> TestPiece {
        let deposit =
            |one: &DepositDocument| Deposit { process: one.process, thickness: one.thickness };
        TestPiece {
            mark: self.mark.clone(),
            parts: self.parts.iter().map(PartDocument::compile).collect(),
            joint: self.joint.as_ref().map(JointDocument::compile).unwrap_or_default(),
            position: self.position,
            rotated: self.rotated,
            layering: self.layering,
            deposits: self.deposits.iter().map(deposit).collect(),
            throat: self.throat,
            leg: self.leg,
            length: self.length,
            runs: self.runs.iter().map(RecordedRunDocument::compile).collect(),
            post_heating: self.post_heating.as_ref().map(PostHeatingDocument::compile),
            heat_treatment: self.heat_treatment.as_ref().map(HeatTreatmentDocument::compile),
            tests: self.tests.iter().map(TestDocument::compile).collect(),
        }
    }
}

impl PartDocument {
    fn compile(&self) -> Part {
        Part {
            form: self.form,
            thickness: self.thickness,
            outside_diameter: self.outside_diameter,
            metal: self.metal.as_ref().map(BaseMetalDocument::compile).unwrap_or_default(),
        }
    }
}

impl JointDocument {
    /// As the rules read it.
    pub(crate) fn compile(&self) -> Joint {
        Joint {
            weld: self.weld,
            penetration: self.penetration,
            sides: self.sides,
            groove: self.groove,
            backing: self.backing,
            backing_material: self.backing_material,
            root_removal: self.root_removal,
            gouging_tool: self.gouging_tool,
            preparation: self.preparation.clone(),
            assembly: self.assembly.clone(),
            fit_up: self.fit_up.as_ref().map(FitUpDocument::compile).unwrap_or_default(),
            restriction_ring: self.restriction_ring,
        }
    }
}

impl FitUpDocument {
    const fn compile(&self) -> FitUp {
        FitUp {
            groove_angle: self.groove_angle,
            bevel_angle: self.bevel_angle,
            root_gap: self.root_gap,
            root_face: self.root_face,
            root_radius: self.root_radius,
            joint_angle: self.joint_angle,
        }
    }
}

impl PostHeatingDocument {
    /// As the rules read it.
    pub(crate) const fn compile(&self) -> PostHeating {
        if self.done {
            PostHeating::Done { temperature: self.temperature, time: self.time }
        } else {
            PostHeating::NotDone
        }
    }
}

impl HeatTreatmentDocument {
    /// As the rules read it.
    pub(crate) fn compile(&self) -> HeatTreatment {
        HeatTreatment {
            class: self.class,
            temperature: self.temperature,
            time: self.time,
            rates: self.rates.clone(),
            cooling: self.cooling,
            heating: self.heating,
        }
    }
}
