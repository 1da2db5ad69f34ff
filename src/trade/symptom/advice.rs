//! Symptoms, and what they may come from.

use super::{
    arc, bead, inside,
    row::{Remedy, Row},
};
use crate::{
    quantity::QuantityError,
    trade::{Confidence, Process, coded},
};

coded! {
    /// What is seen on the bead or heard of the arc.
    pub enum Symptom: "symptom" {
        /// A groove along a toe.
        Undercut = "undercut",
        /// Pores in or on the bead.
        Porosity = "porosity",
        /// Elongated gas marks under the slag.
        WormTracks = "worm-tracks",
        /// Slag left in the weld.
        SlagInclusion = "slag-inclusion",
        /// Metal that lies on the joint without fusing; cold lap.
        LackOfFusion = "lack-of-fusion",
        /// Root not reached.
        LackOfPenetration = "lack-of-penetration",
        /// Too deep, or through.
        BurnThrough = "burn-through",
        /// High, narrow, rope-like bead.
        ConvexBead = "convex-bead",
        /// The wire pushes into the pool.
        WireStubbing = "wire-stubbing",
        /// The wire fuses to the contact tip.
        BurnBack = "burn-back",
        /// Much spatter.
        Spatter = "spatter",
        /// The arc wanders or surges.
        ErraticArc = "erratic-arc",
        /// Crack in the crater or along the middle of the bead.
        CraterCrack = "crater-crack",
        /// Crack of the cold weld, hours or days later.
        HydrogenCrack = "hydrogen-crack",
        /// Covered electrode: wide, flat, spattery bead of a long arc.
        LongArc = "long-arc",
        /// Covered electrode: the electrode sticks, the bead is high and narrow.
        StickingElectrode = "sticking-electrode",
        /// TIG: tungsten in the weld.
        TungstenInclusion = "tungsten-inclusion",
        /// TIG: grey, oxidised bead.
        GreyBead = "grey-bead",
    }
}

/// A possible cause and what to do about it, most telling first.
#[derive(Debug, Clone, PartialEq)]
pub struct Cause {
    /// The cause in a few words.
    pub in_words: &'static str,
    /// What to do, first things first.
    pub remedies: Vec<Remedy>,
    /// Where it is printed, or that there is no source.
    pub source: &'static str,
    /// How well it was confirmed.
    pub confidence: Confidence,
}

/// Rows of a symptom, in the order to check them.
pub(super) const fn rows(symptom: Symptom) -> &'static [Row] {
    match symptom {
        Symptom::Undercut => bead::UNDERCUT,
        Symptom::Porosity => inside::POROSITY,
        Symptom::WormTracks => inside::WORM_TRACKS,
        Symptom::SlagInclusion => inside::SLAG_INCLUSION,
        Symptom::LackOfFusion => inside::LACK_OF_FUSION,
        Symptom::LackOfPenetration => inside::LACK_OF_PENETRATION,
        Symptom::BurnThrough => bead::BURN_THROUGH,
        Symptom::ConvexBead => bead::CONVEX_BEAD,
        Symptom::WireStubbing => arc::WIRE_STUBBING,
        Symptom::BurnBack => arc::BURN_BACK,
        Symptom::Spatter => arc::SPATTER,
        Symptom::ErraticArc => arc::ERRATIC_ARC,
        Symptom::CraterCrack => inside::CRATER_CRACK,
        Symptom::HydrogenCrack => inside::HYDROGEN_CRACK,
        Symptom::LongArc => arc::LONG_ARC,
        Symptom::StickingElectrode => arc::STICKING_ELECTRODE,
        Symptom::TungstenInclusion => inside::TUNGSTEN_INCLUSION,
        Symptom::GreyBead => bead::GREY_BEAD,
    }
}

/// Possible causes of a symptom in the order to check them; empty where the symptom does not
/// concern the process, or the process is not in the tables.
///
/// # Errors
/// None in practice; the steps are constants.
pub fn symptom_advice(symptom: Symptom, process: Process) -> Result<Vec<Cause>, QuantityError> {
    let concerned = rows(symptom).iter().filter(|row| row.concerns(process));
    concerned
        .map(|row| {
            let remedies = row.remedies.iter().map(|remedy| remedy.read(process));
            Ok(Cause {
                in_words: row.cause,
                remedies: remedies.collect::<Result<_, _>>()?,
                source: row.source,
                confidence: row.confidence,
            })
        })
        .collect()
}
