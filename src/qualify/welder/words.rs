//! Words of a welder's qualification, as certificates print them.

use crate::{
    quantity::{Kind, KindInfo, OutsideDiameterKind, ThicknessKind},
    trade::coded,
};

coded! {
    /// A variable of a welder's qualification.
    pub enum WelderVariable: "variable of a welder's qualification" {
        /// Welding process.
        Process = "process",
        /// Degree of mechanisation.
        Mechanisation = "mechanisation",
        /// Metal transfer.
        Transfer = "transfer",
        /// Plate or pipe.
        Product = "product",
        /// Butt or fillet.
        Weld = "weld",
        /// Filler group, FM1 to FM6.
        FillerGroup = "filler-group",
        /// Covering, core or form of the filler.
        FillerType = "filler-type",
        /// F-Number.
        FNumber = "f-number",
        /// Thickness deposited.
        Deposit = "deposit-thickness",
        /// Thickness of the material.
        Thickness = "material-thickness",
        /// Outside diameter of a pipe.
        OutsideDiameter = "outside-diameter",
        /// Welding position.
        Position = "position",
        /// Vertical up or down.
        Progression = "progression",
        /// Backing of the root.
        Backing = "backing",
        /// Single layer or several.
        Layers = "layers",
        /// Type of welding unit.
        WeldingUnit = "welding-unit",
        /// Arc or joint sensor.
        Sensing = "sensing",
        /// How the operator sees the arc.
        View = "view-of-arc",
    }
}

impl WelderVariable {
    /// Kind of its quantity; `None` for words.
    pub(super) const fn kind(self) -> Option<&'static KindInfo> {
        match self {
            Self::Deposit | Self::Thickness => Some(<ThicknessKind as Kind>::INFO),
            Self::OutsideDiameter => Some(<OutsideDiameterKind as Kind>::INFO),
            _ => None,
        }
    }
}

coded! {
    /// Filler group of ISO 9606-1, 5.5 (from memory).
    pub enum FillerGroup: "filler group" {
        /// Unalloyed and fine grain steels.
        Fm1 = "FM1",
        /// High-strength steels.
        Fm2 = "FM2",
        /// Creep-resisting steels, Cr below 3.75 %.
        Fm3 = "FM3",
        /// Creep-resisting steels, Cr from 3.75 to 12 %.
        Fm4 = "FM4",
        /// Stainless and heat-resisting steels.
        Fm5 = "FM5",
        /// Nickel and nickel alloys.
        Fm6 = "FM6",
    }
}

coded! {
    /// Type of filler of ISO 9606-1, 5.6 (from memory): covering of an electrode, core or form of a wire.
    pub enum FillerType: "filler type" {
        /// Acid covering.
        A = "A",
        /// Rutile-acid covering.
        Ra = "RA",
        /// Rutile-basic covering.
        Rb = "RB",
        /// Rutile-cellulosic covering.
        Rc = "RC",
        /// Thick rutile covering.
        Rr = "RR",
        /// Rutile covering, or a rutile core that freezes slowly.
        R = "R",
        /// Basic covering or core.
        B = "B",
        /// Cellulosic covering.
        C = "C",
        /// Solid wire or rod.
        S = "S",
        /// Metal-powder core.
        M = "M",
        /// Rutile core that freezes fast.
        P = "P",
        /// Rutile or basic-fluoride core.
        V = "V",
        /// Basic-fluoride core, slow freezing.
        W = "W",
        /// Basic-fluoride core, fast freezing.
        Y = "Y",
        /// Another core.
        Z = "Z",
        /// No filler.
        None = "nm",
    }
}

coded! {
    /// Backing of the root, by the signs of certificates: from one side or both, with what behind it.
    pub enum WelderBacking: "weld backing" {
        /// One side, no backing.
        OneSideNone = "ss-nb",
        /// One side, material backing.
        OneSideMaterial = "ss-mb",
        /// Both sides.
        BothSides = "bs",
        /// One side, gas backing.
        OneSideGas = "ss-gb",
        /// One side, flux backing.
        OneSideFlux = "ss-fb",
        /// Consumable insert.
        Insert = "ci",
    }
}

coded! {
    /// Layers of the weld.
    pub enum Layers: "layers" {
        /// Single layer.
        Single = "sl",
        /// Several layers.
        Multi = "ml",
    }
}

coded! {
    /// Whether the welding unit follows the joint or holds the arc by sensors.
    pub enum Sensing: "sensing" {
        /// With an arc or joint sensor.
        With = "with-sensor",
        /// Without.
        Without = "without-sensor",
    }
}

coded! {
    /// How the operator sees the arc.
    pub enum ViewOfArc: "view of the arc" {
        /// With the eye.
        Direct = "direct",
        /// By camera.
        Remote = "remote",
    }
}

coded! {
    /// Position of a test piece: ISO 6947 symbol, or the US test position.
    pub enum TestPosition: "test position" {
        /// Flat.
        Pa = "PA",
        /// Horizontal-vertical.
        Pb = "PB",
        /// Horizontal.
        Pc = "PC",
        /// Horizontal overhead.
        Pd = "PD",
        /// Overhead.
        Pe = "PE",
        /// Vertical up.
        Pf = "PF",
        /// Vertical down.
        Pg = "PG",
        /// Fixed pipe upwards.
        Ph = "PH",
        /// Fixed pipe downwards.
        Pj = "PJ",
        /// Fixed pipe at 45°, upwards.
        HL045 = "H-L045",
        /// Fixed pipe at 45°, downwards.
        JL045 = "J-L045",
        /// Groove, flat.
        G1 = "1G",
        /// Groove, horizontal.
        G2 = "2G",
        /// Groove, vertical.
        G3 = "3G",
        /// Groove, overhead.
        G4 = "4G",
        /// Groove, fixed pipe.
        G5 = "5G",
        /// Groove, fixed pipe at 45°.
        G6 = "6G",
        /// Fillet, flat.
        F1 = "1F",
        /// Fillet, horizontal.
        F2 = "2F",
        /// Fillet, vertical.
        F3 = "3F",
        /// Fillet, overhead.
        F4 = "4F",
        /// Fillet, fixed pipe.
        F5 = "5F",
    }
}
