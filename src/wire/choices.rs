//! Closed sets of codes.

use std::collections::BTreeSet;

use serde_json::Value;
use utoipa::openapi::{
    ObjectBuilder, RefOr, Schema,
    schema::{AnyOfBuilder, Type},
};

use super::{
    Definitions, Errors, FromWire, Node, Place, ToWire, WireSchema, define, scalars::text, schema,
};
use crate::{
    access::Role,
    batches::CareEventKind,
    calculations::HeatPathForm,
    check::{DecisionRule, Origin, ProcedureState},
    procedures::{QualificationRoute, SupportKind},
    qualify::record::{
        Backing, BackingMaterial, CurrentForm, D11Group, DeliveryCondition, FluxKind, GrooveKind,
        HardnessScale, HotOrCold, Layering, Mechanisation, Outcome, OutputCharacteristic,
        Penetration, ProductForm, RootRemoval, Sides, TestKind, TestLevel, TestPlace, Transfer,
        TreatmentClass, WeldKind, WeldSide, WitnessKind,
    },
    qualify::welder::{
        FillerGroup, FillerType, Layers, Sensing, TestPosition, ViewOfArc, WelderBacking,
    },
    quantity::UnitSystem,
    trade::{
        BeadPattern, BurnOffForm, Coded, ErrorModel, FillerKind, GasGroup, GunCooling,
        HydrogenClass, HydrogenScale, JointKind, LoadFamily, Manner, MaterialConstants, Polarity,
        Position, PreheatCategory, PrequalifiedColumn, Process, Progression, RankBy, Restraint,
        RunClass, SprayMetal, SteelCondition, StructuralGrade, Symptom, Waveform, WeldShape,
    },
    wire::Measurand,
};

/// Reads a code of a closed set.
fn read_code<T: Coded>(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<T> {
    let codes = || T::ALL.iter().map(|(_, code)| *code).collect::<Vec<_>>().join(", ");
    match value.as_str() {
        Some(text) => T::from_code(text).or_else(|| {
            errors.note(at, format!("\"{text}\" is no {}; use one of {}", T::NAME, codes()))
        }),
        None => {
            errors.note(at, format!("expected a {} ({}), found {}", T::NAME, codes(), value.kind()))
        }
    }
}

macro_rules! coded_on_the_wire {
    ($($type:ty),+ $(,)?) => {$(
        impl FromWire for $type {
            fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
                read_code(value, at, errors)
            }
        }
        impl ToWire for $type {
            fn to_wire(&self) -> Value {
                Value::from(self.code())
            }
        }
        impl WireSchema for $type {
            fn reference(into: &mut Definitions) -> RefOr<Schema> {
                schema::coded::<$type>(into)
            }
        }
    )+};
}

coded_on_the_wire!(
    Backing,
    BackingMaterial,
    BeadPattern,
    BurnOffForm,
    CareEventKind,
    CurrentForm,
    D11Group,
    DecisionRule,
    DeliveryCondition,
    ErrorModel,
    FillerKind,
    FluxKind,
    GasGroup,
    GrooveKind,
    GunCooling,
    HardnessScale,
    HeatPathForm,
    HotOrCold,
    HydrogenClass,
    HydrogenScale,
    JointKind,
    Layering,
    LoadFamily,
    Manner,
    MaterialConstants,
    Measurand,
    Mechanisation,
    Origin,
    Outcome,
    OutputCharacteristic,
    Penetration,
    Polarity,
    Position,
    PreheatCategory,
    PrequalifiedColumn,
    ProcedureState,
    ProductForm,
    Progression,
    QualificationRoute,
    RankBy,
    Restraint,
    Role,
    RootRemoval,
    RunClass,
    Sides,
    SupportKind,
    SprayMetal,
    SteelCondition,
    StructuralGrade,
    Symptom,
    TestKind,
    TestLevel,
    TestPlace,
    Transfer,
    TreatmentClass,
    UnitSystem,
    Waveform,
    WeldKind,
    WeldShape,
    WeldSide,
    WitnessKind,
);

coded_on_the_wire!(
    FillerGroup,
    FillerType,
    Layers,
    Sensing,
    TestPosition,
    ViewOfArc,
    WelderBacking,
    crate::welders::EventKind,
);

/// A process is read by its ISO 4063 number, or by AWS letters that mean one process only.
impl FromWire for Process {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let text = text(value, at, errors)?;
        Self::parse(text).map_or_else(|error| errors.note(at, error.to_string()), Some)
    }
}

impl ToWire for Process {
    fn to_wire(&self) -> Value {
        Value::from(self.code())
    }
}

impl WireSchema for Process {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        let mut letters = BTreeSet::new();
        for (process, _) in Self::ALL {
            if Self::parse(process.aws_letters()).is_ok() {
                letters.insert(process.aws_letters());
            }
        }
        let letters: Vec<_> = letters.into_iter().collect();
        let numbers: Vec<_> = Self::ALL.iter().map(|(_, code)| *code).collect();
        let text = || ObjectBuilder::new().schema_type(Type::String);
        let words = format!("AWS letters that mean one process only: {}.", letters.join(", "));
        let schema = AnyOfBuilder::new()
            .description(Some("A process, by its number or its letters; answers have the number."))
            .item(text().enum_values(Some(numbers)).description(Some("An ISO 4063 number.")))
            .item(text().pattern(Some("^[A-Za-z-]+$")).description(Some(words)));
        define(into, "Process".to_owned(), Schema::AnyOf(schema.build()).into())
    }
}
