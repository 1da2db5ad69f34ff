//! The window of a shielding gas around the recorded mixture.

use rust_decimal::Decimal;

use super::allow::Found;
use crate::{
    qualify::{
        facts::Fact,
        range::{Allowed, GasWindow, Whose},
    },
    trade::{Coded, Gas, GasComponent},
};

/// Shares around those recorded: `relative` percent of a component's own share, else `free` vol %. The
/// component with the largest share makes up the rest, unless it has a relative window of its own.
pub(super) fn window(relative: &[(GasComponent, f64)], free: f64, fact: &Fact) -> Found {
    let Fact::Gas(gas) = *fact else { return Found::unknown(Whose::Record, "the gas") };
    if gas == Gas::None {
        let none = GasWindow { shares: Vec::new(), none: true };
        return Found::plain(Allowed::Gas(none), None);
    }
    let Some(mixture) = gas.mixture() else {
        return Found::unknown(Whose::Record, "the composition of the gas");
    };
    let components = || GasComponent::ALL.iter().map(|(component, _)| *component);
    let largest = components().max_by_key(|component| mixture.share(*component));
    let free = Decimal::try_from(free).unwrap_or_default();
    let shares = components().filter_map(|component| {
        let share = mixture.share(component);
        let own = relative.iter().find(|(known, _)| *known == component && !share.is_zero());
        let reach = match own {
            Some((_, percent)) => {
                share * Decimal::try_from(*percent).unwrap_or_default() / Decimal::ONE_HUNDRED
            }
            None if Some(component) == largest => return None,
            None => Decimal::ZERO,
        };
        let reach = reach.max(free);
        let low = (share - reach).max(Decimal::ZERO);
        let high = (share + reach).min(Decimal::ONE_HUNDRED);
        Some((component, low, high))
    });
    let window = GasWindow { shares: shares.collect(), none: false };
    Found::plain(Allowed::Gas(window), None)
}
