//! What a gas-shielded gun carries: its rating depends on the gas.
//!
//! Carbon dioxide cools a gun better than argon mixtures do, and a rating printed for it says too much of M21. Where
//! only that rating is known the limit is a band, and advice only.

use super::{Confidence, Gas, coded, corners::span_of};
use crate::quantity::{Current, CurrentKind, QuantityError, Share, Span};

/// Where the reduction for argon mixtures is printed.
pub const GUN_DERATING_SOURCE: (&str, Confidence) = (
    "trade article comparing air-cooled and water-cooled guns: argon mixtures take 40 to 50 % off \
     the rating of an air-cooled gun and 10 % off that of a water-cooled one",
    Confidence::Secondary,
);

coded! {
    /// How a gun is cooled.
    pub enum GunCooling: "cooling of the gun" {
        /// By gas and air.
        Air = "air",
        /// By a liquid.
        Liquid = "liquid",
    }
}

coded! {
    /// Where a gun's limit comes from.
    pub enum GunLimitBasis: "basis of the gun limit" {
        /// The rating for this gas.
        Rated = "rated",
        /// The rating for another gas, reduced; advice, for the gun has no rating for this gas.
        Reduced = "reduced-from-carbon-dioxide",
        /// The rating for argon mixtures, which a gun in carbon dioxide exceeds.
        CoolerGas = "rated-for-a-hotter-gas",
    }
}

/// Ratings of a gun at one duty cycle, as its plate or sheet states them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GunRating {
    /// In carbon dioxide.
    pub carbon_dioxide: Option<Current>,
    /// In argon mixtures (M21).
    pub mixture: Option<Current>,
    /// How it is cooled.
    pub cooling: GunCooling,
}

/// The most a gun carries in a gas.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GunLimit {
    /// The limit: one value where rated, a band where reduced from another gas.
    pub current: Span<CurrentKind>,
    /// Where it comes from.
    pub basis: GunLimitBasis,
}

impl GunLimitBasis {
    /// Whether the limit only advises: the gun's own rating is not known.
    #[must_use]
    pub fn advises_only(self) -> bool {
        self == Self::Reduced
    }
}

/// The most a gun carries in a gas; `None` where nothing is known: no rating given, no gas, or a
/// gas that is neither carbon dioxide nor argon-based.
///
/// # Errors
/// None in practice; a rating is finite.
pub fn gun_limit(rating: &GunRating, gas: &Gas) -> Result<Option<GunLimit>, QuantityError> {
    let Some(group) = gas.group() else { return Ok(None) };
    let (rated, other, basis) = match group.main_group() {
        "C" => (rating.carbon_dioxide, rating.mixture, GunLimitBasis::CoolerGas),
        "M1" | "M2" | "M3" => (rating.mixture, rating.carbon_dioxide, GunLimitBasis::Reduced),
        _ => return Ok(None),
    };
    let one = |current| GunLimit { current: Span::one(current), basis: GunLimitBasis::Rated };
    if let Some(rated) = rated {
        return Ok(Some(one(rated)));
    }
    let Some(other) = other else { return Ok(None) };
    let current = match basis {
        GunLimitBasis::Reduced => reduced(other, rating.cooling)?,
        GunLimitBasis::Rated | GunLimitBasis::CoolerGas => Span::one(other),
    };
    Ok(Some(GunLimit { current, basis }))
}

/// What is left in an argon mixture, [`GUN_DERATING_SOURCE`].
fn reduced(rated: Current, cooling: GunCooling) -> Result<Span<CurrentKind>, QuantityError> {
    let (low, high) = match cooling {
        GunCooling::Air => (0.50, 0.60),
        GunCooling::Liquid => (0.90, 0.90),
    };
    let left = |share: Share| Current::computed(rated.amperes() * share.ratio());
    span_of(left(Share::computed(low)?), left(Share::computed(high)?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::GasGroup;

    fn gun(carbon_dioxide: Option<&str>, mixture: Option<&str>, cooling: GunCooling) -> GunRating {
        let read = |text: Option<&str>| text.map(|text| text.parse().unwrap());
        GunRating { carbon_dioxide: read(carbon_dioxide), mixture: read(mixture), cooling }
    }

    fn shown(rating: &GunRating, group: GasGroup) -> Option<(String, GunLimitBasis)> {
        let limit = gun_limit(rating, &Gas::Group(group)).unwrap()?;
        Some((limit.current.amounts().to_string(), limit.basis))
    }

    #[test]
    fn a_rating_for_the_gas_goes_first() {
        let rated = gun(Some("400 A"), Some("320 A"), GunCooling::Air);
        assert_eq!(shown(&rated, GasGroup::C1), Some(("400 A".into(), GunLimitBasis::Rated)));
        assert_eq!(shown(&rated, GasGroup::M21), Some(("320 A".into(), GunLimitBasis::Rated)));
    }

    /// Trade article comparing air-cooled and water-cooled guns: 40 to 50 % and 10 % less.
    #[test]
    fn argon_mixtures_take_a_share_off() {
        let reduced = GunLimitBasis::Reduced;
        let air = gun(Some("400 A"), None, GunCooling::Air);
        assert_eq!(shown(&air, GasGroup::M21), Some(("200 A to 240 A".into(), reduced)));
        let liquid = gun(Some("400 A"), None, GunCooling::Liquid);
        assert_eq!(shown(&liquid, GasGroup::M21), Some(("360 A".into(), reduced)));
        assert!(reduced.advises_only() && !GunLimitBasis::Rated.advises_only());
    }

    #[test]
    fn a_rating_for_the_hotter_gas_holds_in_the_cooler_one() {
        let mixture = gun(None, Some("320 A"), GunCooling::Air);
        assert_eq!(shown(&mixture, GasGroup::C1), Some(("320 A".into(), GunLimitBasis::CoolerGas)));
    }

    #[test]
    fn nothing_known_is_no_limit() {
        let none = gun(None, None, GunCooling::Air);
        assert_eq!(shown(&none, GasGroup::M21), None);
        let rated = gun(Some("400 A"), Some("320 A"), GunCooling::Air);
        assert_eq!(shown(&rated, GasGroup::I2), None);
        assert_eq!(gun_limit(&rated, &Gas::None), Ok(None));
    }
}
