//! The gas a class is bound to, and whether a given gas agrees with it.

use rust_decimal::Decimal;

use crate::trade::GasComponent::{Argon, CarbonDioxide, Helium};
use crate::trade::{Coded, Gas, GasComponent, GasGroup, GasMixture, coded};

/// The gas a class was tested with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GasRequirement {
    /// No gas: covered electrode or self-shielded wire.
    SelfShielded,
    /// Pure CO2 (C1).
    Co2,
    /// 75 to 80 % argon, the rest CO2: letter M of AWS A5.18 and A5.20. Narrower than M21.
    ArgonCo2Test,
    /// A sub-group of ISO 14175.
    Group(GasGroup),
    /// Any M1 gas; that it holds no helium is taken over from M2: symbol M1 of older ISO editions
    /// (from memory).
    AnyM1WithoutHelium,
    /// Any M2 gas without helium: letter M of older ISO editions (from memory).
    AnyM2WithoutHelium,
    /// Not stated.
    NotStated,
}

coded! {
    /// Whether a gas agrees with the one a class was tested with.
    pub enum GasFit: "gas fit" {
        /// It does.
        Fits = "fits",
        /// Right group, but not the mixture the class was tested with: 82/18 is M21, not 75 to
        /// 80 % argon.
        OutsideTestMixture = "outside test mixture",
        /// It does not.
        DoesNotFit = "does not fit",
        /// Too little is known of the class or the gas.
        Unknown = "unknown",
    }
}

impl GasRequirement {
    /// Whether it is an inert gas: MIG, not MAG.
    pub(super) const fn is_inert(self) -> bool {
        matches!(self, Self::Group(GasGroup::I1 | GasGroup::I2 | GasGroup::I3))
    }

    /// Whether a gas agrees with the requirement. A gas known by its group only fits a required
    /// group, but cannot be shown to be a test mixture.
    #[must_use]
    pub fn admits(self, gas: &Gas) -> GasFit {
        match (self, gas.group()) {
            // Two Z gases are not interchangeable (ISO 14175:2008, from memory).
            (Self::NotStated, _) | (Self::Group(GasGroup::Z), Some(GasGroup::Z)) => GasFit::Unknown,
            (Self::SelfShielded, None) => GasFit::Fits,
            (Self::SelfShielded, Some(_)) | (_, None) => GasFit::DoesNotFit,
            (Self::Co2, Some(group)) => fit(group == GasGroup::C1),
            (Self::Group(required), Some(group)) => fit(group == required),
            (Self::ArgonCo2Test, Some(group)) if group != GasGroup::M21 => GasFit::DoesNotFit,
            (Self::AnyM1WithoutHelium, Some(group)) if group.main_group() != "M1" => {
                GasFit::DoesNotFit
            }
            (Self::AnyM2WithoutHelium, Some(group)) if group.main_group() != "M2" => {
                GasFit::DoesNotFit
            }
            (Self::ArgonCo2Test, Some(_)) => tested(gas, is_test_mixture),
            (Self::AnyM1WithoutHelium | Self::AnyM2WithoutHelium, Some(_)) => {
                tested(gas, |m| m.share(Helium).is_zero())
            }
        }
    }
}

const fn fit(fits: bool) -> GasFit {
    if fits { GasFit::Fits } else { GasFit::DoesNotFit }
}

fn tested(gas: &Gas, is_tested: impl Fn(&GasMixture) -> bool) -> GasFit {
    match gas {
        Gas::Mixture(mixture) if is_tested(mixture) => GasFit::Fits,
        Gas::Mixture(_) => GasFit::OutsideTestMixture,
        Gas::Group(_) | Gas::None => GasFit::Unknown,
    }
}

/// AWS A5.20/A5.20M: 75 to 80 % argon, balance CO2.
fn is_test_mixture(mixture: &GasMixture) -> bool {
    let argon = mixture.share(Argon);
    GasComponent::ALL.iter().all(|(component, _)| {
        matches!(component, Argon | CarbonDioxide) || mixture.share(*component).is_zero()
    }) && argon >= Decimal::from(75)
        && argon <= Decimal::from(80)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fit_of(requirement: GasRequirement, gas: &str) -> GasFit {
        requirement.admits(&Gas::parse(gas).unwrap())
    }

    /// AWS A5.20/A5.20M as quoted in a vocational textbook: 75 to 80 % argon, balance CO2.
    #[test]
    fn the_test_mixture_is_narrower_than_m21() {
        use GasFit::{DoesNotFit, Fits, OutsideTestMixture, Unknown};
        for (gas, expected) in [
            ("ArC-25", Fits),
            ("ArC-20", Fits),
            ("ArC-19.999", OutsideTestMixture),
            ("ArC-18", OutsideTestMixture),
            ("ArC-25.001", DoesNotFit),
            ("ArHeC-20/20", OutsideTestMixture),
            ("ArC-10", DoesNotFit),
            ("C1", DoesNotFit),
            ("M21", Unknown),
        ] {
            assert_eq!(fit_of(GasRequirement::ArgonCo2Test, gas), expected, "{gas}");
        }
        assert_eq!(GasRequirement::ArgonCo2Test.admits(&Gas::None), DoesNotFit);
    }

    #[test]
    fn a_required_group_is_that_group() {
        let m21 = GasRequirement::Group(GasGroup::M21);
        assert_eq!(fit_of(m21, "ArC-18"), GasFit::Fits);
        assert_eq!(fit_of(m21, "M21"), GasFit::Fits);
        assert_eq!(fit_of(m21, "ArC-10"), GasFit::DoesNotFit);
        assert_eq!(fit_of(GasRequirement::Group(GasGroup::Z), "Z"), GasFit::Unknown);
        assert_eq!(fit_of(GasRequirement::Co2, "C1-C"), GasFit::Fits);
        assert_eq!(fit_of(GasRequirement::Co2, "ArC-20"), GasFit::DoesNotFit);
    }

    #[test]
    fn the_older_letter_m_is_any_m2_gas_without_helium() {
        let older = GasRequirement::AnyM2WithoutHelium;
        assert_eq!(fit_of(older, "ArC-18"), GasFit::Fits);
        assert_eq!(fit_of(older, "ArO-5"), GasFit::Fits);
        assert_eq!(fit_of(older, "ArHeC-20/18"), GasFit::OutsideTestMixture);
        assert_eq!(fit_of(older, "M20"), GasFit::Unknown);
        assert_eq!(fit_of(older, "M12"), GasFit::DoesNotFit);
        let lean = GasRequirement::AnyM1WithoutHelium;
        assert_eq!(fit_of(lean, "ArC-2.5"), GasFit::Fits);
        assert_eq!(fit_of(lean, "ArHeC-20/2"), GasFit::OutsideTestMixture);
        assert_eq!(fit_of(lean, "M13"), GasFit::Unknown);
        assert_eq!(fit_of(lean, "ArC-18"), GasFit::DoesNotFit);
    }

    #[test]
    fn a_filler_without_gas_takes_none_and_the_unknown_stays_unknown() {
        assert_eq!(GasRequirement::SelfShielded.admits(&Gas::None), GasFit::Fits);
        assert_eq!(fit_of(GasRequirement::SelfShielded, "C1"), GasFit::DoesNotFit);
        assert_eq!(GasRequirement::NotStated.admits(&Gas::None), GasFit::Unknown);
    }
}
