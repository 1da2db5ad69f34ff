//! One file per quantity of arc welding.
//!
//! All factors are exact by definition: inch 25.4 mm, pound 0.453 592 37 kg, pound-force
//! 4.448 221 615 260 5 N, °F by 5/9 and 32 (NIST SP 811, 2008 edition, appendix B.8).

mod arc_energy;
mod arc_length;
mod arc_melting;
mod area;
mod bevel_angle;
mod cable_length;
mod ce_iiw;
mod ce_silicon;
mod cen;
mod cet;
mod combined_thickness;
mod cooling_rate;
mod current;
mod density;
mod deposition_rate;
mod diameter;
mod duration;
mod edge_overlap;
mod electrical_stick_out;
mod electrode_length;
mod energy;
mod face_width;
mod gas_flow;
mod gas_volume;
mod heat_input;
mod hydrogen_content;
mod included_angle;
mod joint_angle;
mod layer_thickness;
mod leg;
mod linear_mass;
mod mass;
mod mass_percent;
mod melting_energy;
mod outside_diameter;
mod pcm;
mod power;
mod preparation_depth;
mod reinforcement;
mod resistance_melting;
mod root_face;
mod root_gap;
mod root_radius;
mod run_length;
mod share;
mod specific_melt_rate;
mod stress;
mod susceptibility_index;
mod temperature;
mod temperature_difference;
mod thermal_conductivity;
mod thickness;
mod throat;
mod tip_recess;
mod travel_angle;
mod travel_speed;
mod visible_stick_out;
mod voltage;
mod volumetric_heat;
mod weave_width;
mod weld_distance;
mod wire_feed;
mod work_angle;

pub use arc_energy::{ArcEnergy, ArcEnergyKind};
pub use arc_length::{ArcLength, ArcLengthKind};
pub use arc_melting::{ArcMelting, ArcMeltingKind};
pub use area::{Area, AreaKind};
pub use bevel_angle::{BevelAngle, BevelAngleKind};
pub use cable_length::{CableLength, CableLengthKind};
pub use ce_iiw::{CeIiw, CeIiwKind};
pub use ce_silicon::{CeSilicon, CeSiliconKind};
pub use cen::{Cen, CenKind};
pub use cet::{Cet, CetKind};
pub use combined_thickness::{CombinedThickness, CombinedThicknessKind};
pub use cooling_rate::{CoolingRate, CoolingRateKind};
pub use current::{Current, CurrentKind};
pub use density::{Density, DensityKind};
pub use deposition_rate::{DepositionRate, DepositionRateKind};
pub use diameter::{Diameter, DiameterKind};
pub use duration::{Duration, DurationKind};
pub use edge_overlap::{EdgeOverlap, EdgeOverlapKind};
pub use electrical_stick_out::{ElectricalStickOut, ElectricalStickOutKind};
pub use electrode_length::{ElectrodeLength, ElectrodeLengthKind};
pub use energy::{Energy, EnergyKind};
pub use face_width::{FaceWidth, FaceWidthKind};
pub use gas_flow::{GasFlow, GasFlowKind};
pub use gas_volume::{GasVolume, GasVolumeKind};
pub use heat_input::{HeatInput, HeatInputKind};
pub use hydrogen_content::{HydrogenContent, HydrogenContentKind};
pub use included_angle::{IncludedAngle, IncludedAngleKind};
pub use joint_angle::{JointAngle, JointAngleKind};
pub use layer_thickness::{LayerThickness, LayerThicknessKind};
pub use leg::{Leg, LegKind};
pub use linear_mass::{LinearMass, LinearMassKind};
pub use mass::{Mass, MassKind};
pub use mass_percent::{MassPercent, MassPercentKind};
pub use melting_energy::{MeltingEnergy, MeltingEnergyKind};
pub use outside_diameter::{OutsideDiameter, OutsideDiameterKind};
pub use pcm::{Pcm, PcmKind};
pub use power::{Power, PowerKind};
pub use preparation_depth::{PreparationDepth, PreparationDepthKind};
pub use reinforcement::{Reinforcement, ReinforcementKind};
pub use resistance_melting::{ResistanceMelting, ResistanceMeltingKind};
pub use root_face::{RootFace, RootFaceKind};
pub use root_gap::{RootGap, RootGapKind};
pub use root_radius::{RootRadius, RootRadiusKind};
pub use run_length::{RunLength, RunLengthKind};
pub use share::{Share, ShareKind};
pub use specific_melt_rate::{SpecificMeltRate, SpecificMeltRateKind};
pub use stress::{Stress, StressKind};
pub use susceptibility_index::{SusceptibilityIndex, SusceptibilityIndexKind};
pub use temperature::{Temperature, TemperatureKind};
pub use temperature_difference::{TemperatureDifference, TemperatureDifferenceKind};
pub use thermal_conductivity::{ThermalConductivity, ThermalConductivityKind};
pub use thickness::{Thickness, ThicknessKind};
pub use throat::{Throat, ThroatKind};
pub use tip_recess::{TipRecess, TipRecessKind};
pub use travel_angle::{TravelAngle, TravelAngleKind};
pub use travel_speed::{TravelSpeed, TravelSpeedKind};
pub use visible_stick_out::{VisibleStickOut, VisibleStickOutKind};
pub use voltage::{Voltage, VoltageKind};
pub use volumetric_heat::{VolumetricHeat, VolumetricHeatKind};
pub use weave_width::{WeaveWidth, WeaveWidthKind};
pub use weld_distance::{WeldDistance, WeldDistanceKind};
pub use wire_feed::{WireFeed, WireFeedKind};
pub use work_angle::{WorkAngle, WorkAngleKind};

/// Every kind, for tables and tests that must not forget one.
pub const ALL_KINDS: &[&super::KindInfo] = &[
    <CurrentKind as super::Kind>::INFO,
    <VoltageKind as super::Kind>::INFO,
    <TravelSpeedKind as super::Kind>::INFO,
    <WireFeedKind as super::Kind>::INFO,
    <ElectricalStickOutKind as super::Kind>::INFO,
    <VisibleStickOutKind as super::Kind>::INFO,
    <TipRecessKind as super::Kind>::INFO,
    <DiameterKind as super::Kind>::INFO,
    <OutsideDiameterKind as super::Kind>::INFO,
    <ThicknessKind as super::Kind>::INFO,
    <WeaveWidthKind as super::Kind>::INFO,
    <LegKind as super::Kind>::INFO,
    <RunLengthKind as super::Kind>::INFO,
    <TravelAngleKind as super::Kind>::INFO,
    <WorkAngleKind as super::Kind>::INFO,
    <TemperatureKind as super::Kind>::INFO,
    <ArcEnergyKind as super::Kind>::INFO,
    <HeatInputKind as super::Kind>::INFO,
    <PowerKind as super::Kind>::INFO,
    <EnergyKind as super::Kind>::INFO,
    <DurationKind as super::Kind>::INFO,
    <GasFlowKind as super::Kind>::INFO,
    <GasVolumeKind as super::Kind>::INFO,
    <MassKind as super::Kind>::INFO,
    <LinearMassKind as super::Kind>::INFO,
    <DepositionRateKind as super::Kind>::INFO,
    <AreaKind as super::Kind>::INFO,
    <DensityKind as super::Kind>::INFO,
    <StressKind as super::Kind>::INFO,
    <ShareKind as super::Kind>::INFO,
    <HydrogenContentKind as super::Kind>::INFO,
    <MassPercentKind as super::Kind>::INFO,
    <CeIiwKind as super::Kind>::INFO,
    <CeSiliconKind as super::Kind>::INFO,
    <CetKind as super::Kind>::INFO,
    <PcmKind as super::Kind>::INFO,
    <CenKind as super::Kind>::INFO,
    <CombinedThicknessKind as super::Kind>::INFO,
    <CableLengthKind as super::Kind>::INFO,
    <ElectrodeLengthKind as super::Kind>::INFO,
    <WeldDistanceKind as super::Kind>::INFO,
    <CoolingRateKind as super::Kind>::INFO,
    <TemperatureDifferenceKind as super::Kind>::INFO,
    <ThermalConductivityKind as super::Kind>::INFO,
    <VolumetricHeatKind as super::Kind>::INFO,
    <SusceptibilityIndexKind as super::Kind>::INFO,
    <RootGapKind as super::Kind>::INFO,
    <RootFaceKind as super::Kind>::INFO,
    <RootRadiusKind as super::Kind>::INFO,
    <PreparationDepthKind as super::Kind>::INFO,
    <ReinforcementKind as super::Kind>::INFO,
    <FaceWidthKind as super::Kind>::INFO,
    <EdgeOverlapKind as super::Kind>::INFO,
    <ThroatKind as super::Kind>::INFO,
    <LayerThicknessKind as super::Kind>::INFO,
    <ArcLengthKind as super::Kind>::INFO,
    <IncludedAngleKind as super::Kind>::INFO,
    <BevelAngleKind as super::Kind>::INFO,
    <JointAngleKind as super::Kind>::INFO,
    <ArcMeltingKind as super::Kind>::INFO,
    <ResistanceMeltingKind as super::Kind>::INFO,
    <SpecificMeltRateKind as super::Kind>::INFO,
    <MeltingEnergyKind as super::Kind>::INFO,
];
