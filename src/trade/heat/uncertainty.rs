//! Uncertainty of a product or quotient of measured values.

use crate::{
    quantity::{QuantityError, Share},
    trade::formula,
};

formula! {
    /// Relative uncertainty of a product or quotient.
    pub const COMBINED_UNCERTAINTY {
        name: "combined-relative-uncertainty",
        equation: "U(y)/y = sqrt(sum of (U(x)/x)^2); every U at coverage factor 2",
        source: "JCGM 100:2008, 5.1.6 with exponents of 1 and -1, and 6.2 (expanded uncertainty)",
        validity: "factors and divisors of power one, independent of each other; each uncertainty is \
                   expanded with coverage factor 2, and so is the result",
        confidence: Memory,
    }
}

/// Combined relative expanded uncertainty, [`COMBINED_UNCERTAINTY`]. Each part is the expanded
/// uncertainty (coverage factor 2) of one factor or divisor, as a share of its value.
///
/// All parts must be known: leave no unknown one out, it would count as zero.
///
/// # Errors
/// [`QuantityError::NotFinite`] for no parts at all (nothing is known then), or an overflow.
pub fn combined_uncertainty(parts: &[Share]) -> Result<Share, QuantityError> {
    if parts.is_empty() {
        return Share::computed(f64::NAN);
    }
    Share::computed(parts.iter().map(|part| part.ratio().powi(2)).sum::<f64>().sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 3 % of the volts, 3 % of the amps and 5 % of the speed give 6.6 % (own arithmetic:
    /// sqrt(9 + 9 + 25) = sqrt(43) = 6.557).
    #[test]
    fn parts_add_in_quadrature() {
        let parts = ["3 %", "3 %", "5 %"].map(|part| part.parse().unwrap());
        assert_eq!(combined_uncertainty(&parts).unwrap().to_string(), "6.557 %");
    }

    #[test]
    fn nothing_known_is_not_zero() {
        assert!(combined_uncertainty(&[]).is_err());
    }
}
