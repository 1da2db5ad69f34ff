//! A gas mixture as shares in vol %, exactly as typed.

use rust_decimal::Decimal;

use super::{
    GasGroup,
    share::{compared, in_thousandths},
};
use crate::trade::{Coded, coded};

coded! {
    /// A component that ISO 14175:2008 groups gases by.
    pub enum GasComponent: "gas component" {
        /// Argon.
        Argon = "Ar",
        /// Helium.
        Helium = "He",
        /// Carbon dioxide.
        CarbonDioxide = "CO2",
        /// Oxygen.
        Oxygen = "O2",
        /// Hydrogen.
        Hydrogen = "H2",
        /// Nitrogen.
        Nitrogen = "N2",
    }
}

impl GasComponent {
    /// The symbol in a designation of ISO 14175, as `C` for CO2.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Argon => "Ar",
            Self::Helium => "He",
            Self::CarbonDioxide => "C",
            Self::Oxygen => "O",
            Self::Hydrogen => "H",
            Self::Nitrogen => "N",
        }
    }
}

/// Why shares or a text make no gas mixture.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum GasError {
    /// A share below zero or above 100.
    #[error("a share of {component} lies between 0 and 100 %, not at {share} %")]
    Share {
        /// Component of the share.
        component: GasComponent,
        /// The share given, in vol %.
        share: Decimal,
    },
    /// One component with two shares.
    #[error("{component} is given twice")]
    Twice {
        /// The component.
        component: GasComponent,
    },
    /// The shares do not add up to a whole.
    #[error("the shares add up to {sum} %, not to 100 %")]
    Sum {
        /// What they add up to, in vol %.
        sum: Decimal,
    },
    /// The text is no designation of ISO 14175.
    #[error("at character {at}: \"{found}\" stands where {expected} is expected")]
    Text {
        /// Characters of the text before this one.
        at: usize,
        /// What stands there.
        found: String,
        /// What can stand there.
        expected: &'static str,
    },
    /// The text names another group than its shares make.
    #[error("the text says {stated}, its shares make {computed}")]
    OtherGroup {
        /// Group in the text.
        stated: GasGroup,
        /// Group of the shares.
        computed: GasGroup,
    },
}

/// All of a gas, in thousandths of a vol %.
pub(super) const WHOLE: i64 = 100_000;

/// How far shares may add up to another sum, in thousandths of a vol %.
const MOST_OFF: i64 = 10;

/// Shares of a gas in vol %; they add up to 100 within 0.01.
#[derive(Debug, Clone, Copy, Eq)]
pub struct GasMixture {
    shares: [Decimal; GasComponent::ALL.len()],
    /// The same in thousandths of a vol %; `None` where one is typed with more digits.
    thousandths: Option<[u32; GasComponent::ALL.len()]>,
    /// Follows from the shares; kept, since every check asks for it.
    group: GasGroup,
}

/// The same shares; nearly all are compared without decimals.
impl PartialEq for GasMixture {
    fn eq(&self, other: &Self) -> bool {
        match (&self.thousandths, &other.thousandths) {
            (Some(own), Some(other)) => own == other,
            _ => self.shares == other.shares,
        }
    }
}

impl GasMixture {
    /// A mixture from its shares in vol %. Components left out are absent.
    ///
    /// # Errors
    /// [`GasError`] for a share outside 0 to 100, a component given twice, or a sum off 100 by
    /// more than 0.01.
    pub fn new(parts: &[(GasComponent, Decimal)]) -> Result<Self, GasError> {
        let mut shares = [Decimal::ZERO; GasComponent::ALL.len()];
        let (mut given, mut sum) = ([false; GasComponent::ALL.len()], Decimal::ZERO);
        let mut thousandths = Some([0; GasComponent::ALL.len()]);
        for &(component, share) in parts {
            if compared(share, 0).is_lt() || compared(share, WHOLE).is_gt() {
                return Err(GasError::Share { component, share });
            }
            if std::mem::replace(&mut given[component as usize], true) {
                return Err(GasError::Twice { component });
            }
            shares[component as usize] = share;
            sum += share;
            match (in_thousandths(share), &mut thousandths) {
                (Some(share), Some(all)) => all[component as usize] = share,
                _ => thousandths = None,
            }
        }
        if compared(sum, WHOLE - MOST_OFF).is_lt() || compared(sum, WHOLE + MOST_OFF).is_gt() {
            return Err(GasError::Sum { sum: sum.normalize() });
        }
        let group = GasGroup::of(|component| shares[component as usize]);
        Ok(Self { shares, thousandths, group })
    }

    /// Share of a component in vol %; zero where absent.
    #[must_use]
    pub const fn share(&self, component: GasComponent) -> Decimal {
        self.shares[component as usize]
    }

    /// The sub-group of ISO 14175:2008, Table 2.
    #[must_use]
    pub const fn iso_14175(&self) -> GasGroup {
        self.group
    }

    /// Components present, the largest share first.
    pub(super) fn descending(&self) -> Vec<(GasComponent, Decimal)> {
        let all =
            GasComponent::ALL.iter().map(|(component, _)| (*component, self.share(*component)));
        let mut present: Vec<_> = all.filter(|(_, share)| !share.is_zero()).collect();
        present.sort_by(|(_, a), (_, b)| b.cmp(a));
        present
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn thousandths(parts: &[(GasComponent, i64)]) -> Result<GasMixture, GasError> {
        let parts: Vec<_> = parts.iter().map(|(c, share)| (*c, Decimal::new(*share, 3))).collect();
        GasMixture::new(&parts)
    }

    #[test]
    fn shares_must_make_a_whole_within_a_hundredth() {
        use GasComponent::{Argon, CarbonDioxide};
        for (carbon_dioxide, good) in
            [(25_000, true), (25_010, true), (24_990, true), (25_011, false), (24_989, false)]
        {
            let mixture = thousandths(&[(Argon, 75_000), (CarbonDioxide, carbon_dioxide)]);
            assert_eq!(mixture.is_ok(), good, "{carbon_dioxide}");
        }
        assert_eq!(GasMixture::new(&[]), Err(GasError::Sum { sum: Decimal::ZERO }));
    }

    #[test]
    fn mixtures_are_the_same_however_their_shares_were_typed() {
        let mix = |argon: &str, carbon_dioxide: &str| {
            let parts =
                [(GasComponent::Argon, argon), (GasComponent::CarbonDioxide, carbon_dioxide)];
            GasMixture::new(&parts.map(|(component, share)| (component, share.parse().unwrap())))
        };
        assert_eq!(mix("75", "25"), mix("75.00", "25.0"));
        assert_eq!(mix("75", "25"), mix("75", "25"));
        assert_eq!(mix("75", "25"), mix("75.0000", "25"));
        assert_ne!(mix("75", "25"), mix("74.9999", "25.0001"));
        assert_eq!(mix("74.9999", "25.0001"), mix("74.99990", "25.0001"));
        assert_ne!(mix("75", "25"), mix("74.995", "25.005"));
        assert_ne!(mix("75", "25"), mix("25", "75"));
    }

    #[test]
    fn impossible_shares_are_refused() {
        use GasComponent::{Argon, CarbonDioxide};
        let error = thousandths(&[(Argon, 101_000), (CarbonDioxide, -1_000)]).unwrap_err();
        assert!(matches!(error, GasError::Share { component: Argon, .. }));
        let error = thousandths(&[(CarbonDioxide, -1)]).unwrap_err();
        assert!(matches!(error, GasError::Share { component: CarbonDioxide, .. }));
        let error = thousandths(&[(Argon, 50_000), (Argon, 50_000)]).unwrap_err();
        assert_eq!(error, GasError::Twice { component: Argon });
    }
}
