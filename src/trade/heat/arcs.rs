//! Several arcs in one pool: tandem, twin, multi-wire submerged arc.

use crate::{
    quantity::{ArcEnergy, HeatInput, Kind, Power, Quantity, QuantityError},
    trade::formula,
};

formula! {
    /// Energy of several arcs in one pool.
    pub const SUM_OF_ARCS {
        name: "sum-of-arcs",
        equation: "P = sum of P_i; E = sum of E_i; Q = sum of k_i * E_i",
        source: "from memory: arcs of one pool at one travel speed add up",
        validity: "all arcs feed one pool and travel together; arcs that follow at a distance are runs \
                   of their own, with interpass temperature between",
        confidence: Memory,
    }
}

/// Power of all arcs of one pool, [`SUM_OF_ARCS`].
///
/// # Errors
/// [`QuantityError::NotFinite`] for no arc at all, or on overflow.
pub fn power_of_arcs(arcs: &[Power]) -> Result<Power, QuantityError> {
    sum(arcs)
}

/// Arc energy of all arcs of one pool, [`SUM_OF_ARCS`].
///
/// # Errors
/// As [`power_of_arcs`].
pub fn arc_energy_of_arcs(arcs: &[ArcEnergy]) -> Result<ArcEnergy, QuantityError> {
    sum(arcs)
}

/// Heat input of all arcs of one pool, [`SUM_OF_ARCS`], each with its own thermal efficiency.
///
/// # Errors
/// As [`power_of_arcs`].
pub fn heat_input_of_arcs(arcs: &[HeatInput]) -> Result<HeatInput, QuantityError> {
    sum(arcs)
}

fn sum<K: Kind>(parts: &[Quantity<K>]) -> Result<Quantity<K>, QuantityError> {
    if parts.is_empty() {
        return Quantity::computed(f64::NAN);
    }
    Quantity::computed(parts.iter().map(|part| part.canonical()).sum())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Own arithmetic: tandem, 30 V * 700 A + 34 V * 600 A = 21.0 + 20.4 = 41.4 kW; at 1200 mm/min
    /// 1.05 + 1.02 = 2.07 kJ/mm.
    #[test]
    fn arcs_of_a_tandem_add_up() {
        let power = power_of_arcs(&["21 kW".parse().unwrap(), "20.4 kW".parse().unwrap()]);
        assert_eq!(power, Ok("41.4 kW".parse().unwrap()));
        let parts = ["1.05 kJ/mm".parse().unwrap(), "1.02 kJ/mm".parse().unwrap()];
        assert_eq!(arc_energy_of_arcs(&parts), Ok("2.07 kJ/mm".parse().unwrap()));
        let parts = ["1.05 kJ/mm".parse().unwrap(), "0.816 kJ/mm".parse().unwrap()];
        assert_eq!(heat_input_of_arcs(&parts), Ok("1.866 kJ/mm".parse().unwrap()));
    }

    #[test]
    fn no_arc_is_not_zero_power() {
        assert!(power_of_arcs(&[]).is_err());
    }
}
