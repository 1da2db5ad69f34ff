//! Hydrogen and heat paths as sent.

use serde_json::{Value, json};
use utoipa::openapi::{
    RefOr, Schema,
    schema::{AnyOfBuilder, ArrayBuilder},
};

use crate::{
    quantity::{HydrogenContent, QuantityError, Thickness, WeldDistance},
    trade::{
        Coded, HeatPaths, HydrogenClass, HydrogenLevel, HydrogenScale, PlateStrip, PreheatError,
        coded, mean_thickness_near_weld,
    },
    wire::{Definitions, Errors, FromWire, Node, Place, ToWire, WireSchema, define, wire_object},
};

/// Diffusible hydrogen: a class, or a content.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Hydrogen {
    /// Class of the consumable; its ceiling counts.
    Class(HydrogenClass),
    /// Measured or declared content.
    Content(HydrogenContent),
}

impl Hydrogen {
    /// Content, or the ceiling of the class.
    pub(crate) fn content(self) -> Result<HydrogenContent, QuantityError> {
        match self {
            Self::Class(class) => class.ceiling(),
            Self::Content(content) => Ok(content),
        }
    }

    /// Scale of EN 1011-2.
    pub(super) fn scale(self) -> Result<HydrogenScale, QuantityError> {
        match self {
            Self::Class(class) => class.scale(),
            Self::Content(content) => HydrogenScale::of(content),
        }
    }

    /// Level of AWS D1.1, and the better level that it just misses.
    pub(super) fn level(self) -> Result<(HydrogenLevel, Option<HydrogenLevel>), QuantityError> {
        match self {
            Self::Class(class) => {
                class.level().map(|level| (level.level, level.at_the_limit_of_better))
            }
            Self::Content(content) => HydrogenLevel::of(content).map(|level| (level, None)),
        }
    }
}

impl FromWire for Hydrogen {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        match value.as_str().filter(|text| text.starts_with('H')) {
            Some(_) => HydrogenClass::from_wire(value, at, errors).map(Self::Class),
            None => HydrogenContent::from_wire(value, at, errors).map(Self::Content),
        }
    }
}

impl ToWire for Hydrogen {
    fn to_wire(&self) -> Value {
        match self {
            Self::Class(class) => class.to_wire(),
            Self::Content(content) => content.to_wire(),
        }
    }
}

impl WireSchema for Hydrogen {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        let schema = AnyOfBuilder::new()
            .description(Some("Diffusible hydrogen: a class of consumables, or a content."))
            .item(<HydrogenClass as WireSchema>::reference(into))
            .item(<HydrogenContent as WireSchema>::reference(into));
        define(into, "Hydrogen".to_owned(), Schema::AnyOf(schema.build()).into())
    }
}

wire_object! {
    /// A strip of a plate along the weld.
    pub struct StripIn {
        /// Width, away from the weld line.
        pub width: WeldDistance,
        /// Thickness, the mean one of a taper.
        pub thickness: Thickness,
    }
}

/// A plate near the weld: of one thickness, or of strips in order away from the weld line.
#[derive(Debug, Clone)]
pub enum Plate {
    /// One thickness over 75 mm from the weld line.
    Even(Thickness),
    /// Strips, averaged over 75 mm from the weld line.
    Strips(Vec<StripIn>),
}

impl Plate {
    fn thickness(&self) -> Result<Thickness, PreheatError> {
        match self {
            Self::Even(thickness) => Ok(*thickness),
            Self::Strips(strips) => {
                let strip =
                    |strip: &StripIn| PlateStrip { width: strip.width, thickness: strip.thickness };
                mean_thickness_near_weld(&strips.iter().map(strip).collect::<Vec<_>>())
            }
        }
    }
}

impl FromWire for Plate {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        if value.as_list().is_some() {
            Vec::from_wire(value, at, errors).map(Self::Strips)
        } else {
            Thickness::from_wire(value, at, errors).map(Self::Even)
        }
    }
}

impl ToWire for Plate {
    fn to_wire(&self) -> Value {
        match self {
            Self::Even(thickness) => thickness.to_wire(),
            Self::Strips(strips) => strips.to_wire(),
        }
    }
}

impl WireSchema for Plate {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        let strips = ArrayBuilder::new().items(<StripIn as WireSchema>::reference(into));
        let schema = AnyOfBuilder::new()
            .description(Some(
                "A plate near the weld: its thickness, or strips in order away from the weld line.",
            ))
            .item(<Thickness as WireSchema>::reference(into))
            .item(strips);
        define(into, "PlateNearWeld".to_owned(), Schema::AnyOf(schema.build()).into())
    }
}

coded! {
    /// How plates meet, for the heat they lead away.
    pub enum HeatPathForm: "form of heat paths" {
        /// Butt weld: two plates.
        Butt = "butt",
        /// Corner joint: two plates.
        Corner = "corner",
        /// Fillet on a T-joint, or one side of a cruciform joint: flange, other flange, web.
        Fillet = "fillet",
        /// Two opposed fillets laid at the same time: flange, other flange, web.
        OpposedFillets = "opposed-fillets",
    }
}

/// Plates that lead heat from a weld.
#[derive(Debug, Clone)]
pub struct HeatPathsIn {
    form: HeatPathForm,
    plates: Vec<Plate>,
}

wire_object! {
    /// Plates that lead heat from a weld.
    pub struct HeatPathsForm {
        /// How the plates meet.
        pub form: HeatPathForm,
        /// The plates: two of a butt weld or corner; flange, other flange and web of a fillet.
        pub plates: Vec<Plate>,
    }
}

impl HeatPathsIn {
    /// The paths with each plate's mean thickness near the weld.
    pub(super) fn compile(&self) -> Result<HeatPaths, PreheatError> {
        let plates: Vec<_> = self.plates.iter().map(Plate::thickness).collect::<Result<_, _>>()?;
        match (self.form, plates.as_slice()) {
            (HeatPathForm::Butt, &[first, second]) => Ok(HeatPaths::Butt { first, second }),
            (HeatPathForm::Corner, &[first, second]) => Ok(HeatPaths::Corner { first, second }),
            (HeatPathForm::Fillet, &[flange, other_flange, web]) => {
                Ok(HeatPaths::Fillet { flange, other_flange, web })
            }
            (HeatPathForm::OpposedFillets, &[flange, other_flange, web]) => {
                Ok(HeatPaths::OpposedFillets { flange, other_flange, web })
            }
            _ => Err(PreheatError::NoPlate),
        }
    }
}

impl FromWire for HeatPathsIn {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let HeatPathsForm { form, plates } = HeatPathsForm::from_wire(value, at, errors)?;
        let count = match form {
            HeatPathForm::Butt | HeatPathForm::Corner => 2,
            HeatPathForm::Fillet | HeatPathForm::OpposedFillets => 3,
        };
        if plates.len() != count {
            let message = format!("form {form} has {count} plates, found {}", plates.len());
            return errors.note(Place::Member(&at, "plates"), message);
        }
        Some(Self { form, plates })
    }
}

impl ToWire for HeatPathsIn {
    fn to_wire(&self) -> Value {
        json!({ "form": self.form.code(), "plates": self.plates.to_wire() })
    }
}

impl WireSchema for HeatPathsIn {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        HeatPathsForm::reference(into)
    }
}
