//! A joint as sent: one preparation or fillet, and what is laid beyond it.

mod beyond;
mod fillet;
mod round;
mod straight;

use serde_json::Value;
use utoipa::openapi::{RefOr, Schema};

use self::{
    beyond::{CapIn, GougeIn, RootReinforcementIn},
    fillet::FilletIn,
    round::{DoubleRoundRootIn, RoundRootIn},
    straight::{BevelIn, DoubleBevelIn, DoubleVeeIn, SquareIn, VeeIn, VeeOnBackingIn},
};
use crate::{
    trade::{Fillet, Joint, JointKind, WeldSection},
    wire::{Definitions, Errors, FromWire, Node, Place, ToWire, WireSchema, wire_object},
};

wire_object! {
    /// A joint: exactly one of fillet, square, vee, `vee_on_backing`, `double_vee`, bevel, `double_bevel`,
    /// u, j, `double_u` and `double_j`; and what is laid beyond it.
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
        /// U from both sides.
        pub double_u: Option<DoubleRoundRootIn>,
        /// J from both sides: one edge square.
        pub double_j: Option<DoubleRoundRootIn>,
        /// Cap on the side welded first.
        pub cap: Option<CapIn>,
        /// Cap on the other side of a joint that is open there.
        pub far_cap: Option<CapIn>,
        /// Root reinforcement: laid with the root; with a gouge, on top of what fills that.
        pub root: Option<RootReinforcementIn>,
        /// Gouged groove, filled from the far side.
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
    pub(crate) const fn section(&self) -> &WeldSection {
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

    /// Name of the member that holds its form.
    pub(crate) const fn form(&self) -> &'static str {
        match &self.section.joint {
            Joint::Fillet(_) => "fillet",
            Joint::Square(_) => "square",
            Joint::SingleVee(_) => "vee",
            Joint::VeeOnBacking(_) => "vee_on_backing",
            Joint::DoubleVee(_) => "double_vee",
            Joint::SingleBevel(_) => "bevel",
            Joint::DoubleBevel(_) => "double_bevel",
            Joint::SingleU(_) => "u",
            Joint::SingleJ(_) => "j",
            Joint::DoubleU(_) => "double_u",
            Joint::DoubleJ(_) => "double_j",
        }
    }

    /// What was taken for granted about a fillet.
    pub(in crate::calculations) fn assumptions(&self) -> Vec<&'static str> {
        self.parts.fillet.as_ref().map_or_else(Vec::new, FilletIn::assumptions)
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
            self.u.as_ref().map(|form| Some(form.u())),
            self.j.as_ref().map(|form| Some(form.j())),
            self.double_u.as_ref().map(|form| Some(form.u())),
            self.double_j.as_ref().map(|form| Some(form.j())),
        ];
        let mut given = forms.into_iter().flatten();
        let (Some(joint), None) = (given.next(), given.next()) else {
            let forms = "fillet, square, vee, vee_on_backing, double_vee, bevel, double_bevel, u, j, \
                         double_u, double_j";
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
            root: self.root.as_ref().map(RootReinforcementIn::root),
            gouge,
        })
    }
}
