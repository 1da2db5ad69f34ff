//! `POST /v1/calculations/joint`

use super::{Sheet, endpoint::calculation, joint_in::JointIn};
use crate::{
    quantity::{Area, Density, RunLength},
    trade::{
        CAP_SECTION, Confidence, FACE_PARABOLA, FILLET_THROAT, Formula, GOUGE_SECTION, Joint,
        JointError, MetalGroup, SIDES_OF_A_JOINT, WeldSides, face_parabola, joint_mass,
        steel_density, weld_metal_mass,
    },
    wire::wire_object,
};

/// All that is laid.
const WELD_SECTION: Formula = Formula {
    name: "weld-section",
    equation: "A = A_joint + A_cap + A_far_cap + A_root + A_gouge; mm2",
    source: "sum of the parts, each with its own formula in this answer",
    validity: "filler area: penetration into parent metal is left out",
    confidence: Confidence::Derived,
};

/// A root that is gouged out of the back.
const GOUGED: &str = "what is gouged out of the back is laid again from the far side";
/// A root that stays.
const NOT_GOUGED: &str = "no gouge is given, so none is filled; whether the root must be gouged or ground before the \
                          far side is welded is for your procedure and code";

/// Width of a face.
const FACE_WIDTH: Formula = Formula {
    name: "face-width",
    equation: "fillet: distance between the toes; groove: gap plus what the prepared edges open",
    source: "geometry of the joint, by the formula of its cross-section",
    validity: "before the cap; the metal of a cap reaches past it",
    confidence: Confidence::Derived,
};

/// Mass of a length.
pub(super) const WELD_METAL: Formula = Formula {
    name: "weld-metal",
    equation: "m' = rho A; M = m' L; rho in g/cm3, A in mm2, m' in g/m",
    source: "definition of density; TWI Job Knowledge 95, Calculating weld volume and weight",
    validity: "weld metal in the joint; spatter, stubs and slag are not in it",
    confidence: Confidence::TextRead,
};

wire_object! {
    /// A joint, and how much of it.
    pub struct JointMetalIn {
        /// The joint.
        pub joint: JointIn,
        /// Length of the joint.
        pub length: Option<RunLength>,
        /// Density of the weld metal; unalloyed steel, 7.85 g/cm3, where left out.
        pub density: Option<Density>,
    }
}

calculation! {
    /// Cross-section of a joint with all that is laid in it, width of its faces, throat and leg of a
    /// fillet, mass per length and in all.
    "/v1/calculations/joint", calculate_joint(JointMetalIn) => fill,
    summary: "Weld metal of a joint",
    example: {
        "joint": {
            "vee": { "thickness": "12 mm", "gap": "3 mm", "face": "2 mm", "angle": "60 deg" },
            "cap": { "height": "2 mm", "overlap": "1 mm" }
        },
        "length": "2 m"
    }
}

fn fill(sent: &JointMetalIn, sheet: &mut Sheet) {
    parts(&sent.joint, sheet);
    fillet(&sent.joint, sheet);
    let Some(section) = section(&sent.joint, sheet) else { return };
    metal(section, sent.length, sent.density, sheet);
}

/// ISO/TR 15608: groups 1 to 11 are steels; aluminium begins at 21.
const LAST_GROUP_OF_STEEL: u8 = 11;

/// Why nothing can be assumed of the density: none is given, and a base metal is no steel.
pub(super) fn needs_density(
    given: Option<Density>,
    groups: impl IntoIterator<Item = MetalGroup>,
) -> Option<String> {
    let mut groups = groups.into_iter().filter(|_| given.is_none());
    let group = groups.find(|group| group.group() > LAST_GROUP_OF_STEEL)?;
    Some(format!("group {group} is no steel; state the density of the weld metal"))
}

/// Density as given, else of unalloyed steel; and which it is.
pub(super) fn density_of(given: Option<Density>) -> Option<(Density, &'static str)> {
    match given {
        Some(density) => Some((density, "density as given")),
        None => Some((steel_density().ok()?, "density of unalloyed steel, 7.85 g/cm3")),
    }
}

/// Cross-section of all that is laid.
pub(crate) fn section(joint: &JointIn, sheet: &mut Sheet) -> Option<Area> {
    let section = joint.section();
    let bare = section.cap.is_none()
        && section.far_cap.is_none()
        && section.root.is_none()
        && section.gouge.is_none();
    let formula = if bare { section.joint.formula() } else { &WELD_SECTION };
    let area = section.area();
    let known = area.as_ref().ok().copied();
    sheet.one("cross-section", area, formula, &joint.assumptions());
    known
}

/// What is laid from each side and how deep that is filled, of a groove that is filled from both.
pub(crate) fn sides(joint: &JointIn, sheet: &mut Sheet) -> Result<Option<WeldSides>, JointError> {
    let sides = joint.section().sides()?;
    if let Some(WeldSides { near, far: Some(far) }) = sides {
        let formula = &SIDES_OF_A_JOINT;
        let far_basis = if joint.section().gouge.is_some() { GOUGED } else { NOT_GOUGED };
        sheet.one::<_, JointError>("near-side-section", Ok(near.area), formula, &[]);
        sheet.one::<_, JointError>("near-side-depth", Ok(near.depth), formula, &[]);
        sheet.one::<_, JointError>("far-side-section", Ok(far.area), formula, &[far_basis]);
        sheet.one::<_, JointError>("far-side-depth", Ok(far.depth), formula, &[far_basis]);
    }
    Ok(sides)
}

/// Each part by itself, and the faces.
fn parts(joint: &JointIn, sheet: &mut Sheet) {
    let section = joint.section();
    let preparation = &section.joint;
    sheet.one("joint-section", preparation.area(), preparation.formula(), &joint.assumptions());
    sheet.one("face-width", preparation.face_width(), &FACE_WIDTH, &[]);
    if let Some(width) = preparation.far_face_width().transpose() {
        sheet.one("far-face-width", width, &FACE_WIDTH, &[]);
    }
    if let Some(cap) = &section.cap {
        let area = preparation.face_width().and_then(|width| cap.area(width));
        sheet.one("cap-section", area, &CAP_SECTION, &[]);
    }
    if let Some(cap) = &section.far_cap {
        let width = preparation.far_face_width().and_then(|w| w.ok_or(JointError::NoFarFace));
        sheet.one("far-cap-section", width.and_then(|width| cap.area(width)), &CAP_SECTION, &[]);
    }
    if let Some(root) = &section.root {
        sheet.one("root-section", face_parabola(root.width, root.height), &FACE_PARABOLA, &[]);
    }
    if let Some(gouge) = &section.gouge {
        sheet.one("gouge-section", gouge.area(), &GOUGE_SECTION, &[]);
    }
}

fn fillet(joint: &JointIn, sheet: &mut Sheet) {
    let Joint::Fillet(fillet) = &joint.section().joint else { return };
    let legs = ["legs as drawn; penetration and convexity are not counted"];
    sheet.one("throat", fillet.throat(), &FILLET_THROAT, &legs);
    sheet.one::<_, JointError>("leg", Ok(fillet.leg), &FILLET_THROAT, &legs);
    if fillet.other_leg != fillet.leg {
        sheet.one::<_, JointError>("other-leg", Ok(fillet.other_leg), &FILLET_THROAT, &legs);
    }
}

fn metal(section: Area, length: Option<RunLength>, density: Option<Density>, sheet: &mut Sheet) {
    let Some((density, basis)) = density_of(density) else { return };
    let per_length = weld_metal_mass(section, density);
    sheet.one("mass-per-length", per_length.clone(), &WELD_METAL, &[basis]);
    match length {
        Some(length) => {
            let mass = per_length.and_then(|per_length| joint_mass(per_length, length));
            sheet.one("mass", mass, &WELD_METAL, &[basis]);
        }
        None => sheet.absent("mass", "the length of the joint is missing"),
    }
}
