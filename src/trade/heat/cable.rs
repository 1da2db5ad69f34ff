//! Voltage lost in the welding leads, where it was read at the power source.

use crate::{
    quantity::{Area, CableLength, Current, QuantityError, Voltage},
    trade::{OutOfRange, formula, scope::positive},
};

formula! {
    /// Voltage drop of the leads.
    pub const CABLE_DROP {
        name: "cable-drop",
        equation: "dU = I * rho * sum of (l / A); U_arc = U - dU; I in A, rho = 0.0175 ohm*mm2/m, l in \
                   m, A in mm2, U in V",
        source: "Ohm's law; resistivity of copper at 20 °C: textbook value, from memory",
        validity: "copper leads at 20 °C; a lead at 70 °C drops some 20 % more; contacts, clamps and \
                   the work itself are not counted; direct current",
        confidence: Memory,
    }
}

/// Resistivity of copper at 20 °C in Ω·mm²/m.
const COPPER: f64 = 0.017_5;

/// One lead: the torch lead and the return lead are two.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lead {
    /// Length, one way.
    pub length: CableLength,
    /// Cross-section of the copper.
    pub section: Area,
}

/// Arc voltage behind the leads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CableCorrection {
    /// Lost in the leads.
    pub drop: Voltage,
    /// Left at the arc.
    pub arc_voltage: Voltage,
}

/// Why there is no corrected voltage.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum CableError {
    /// No lead was given; a cable that nobody described is not a cable of no length.
    #[error("no lead is given, so the voltage lost in the leads is unknown")]
    NoLead,
    /// A length, section, current or voltage is not above zero.
    #[error(transparent)]
    OutOfRange(#[from] Box<OutOfRange>),
    /// The leads would take all of the voltage.
    #[error("the leads would take {drop} of {read}; check lengths, sections and current")]
    NothingLeft {
        /// Computed drop.
        drop: Voltage,
        /// Voltage read.
        read: Voltage,
    },
    /// The result is no number.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}

/// Arc voltage from the voltage at the power source, [`CABLE_DROP`].
///
/// # Errors
/// [`CableError`].
pub fn arc_voltage_behind_leads(
    read: Voltage,
    current: Current,
    leads: &[Lead],
) -> Result<CableCorrection, CableError> {
    if leads.is_empty() {
        return Err(CableError::NoLead);
    }
    positive(read)?;
    positive(current)?;
    let mut resistance = 0.0;
    for lead in leads {
        positive(lead.length)?;
        positive(lead.section)?;
        resistance += COPPER * lead.length.m() / lead.section.mm2();
    }
    let drop = Voltage::computed(current.amperes() * resistance)?;
    if drop.at_least(read) {
        return Err(CableError::NothingLeft { drop, read });
    }
    Ok(CableCorrection { drop, arc_voltage: Voltage::computed(read.volts() - drop.volts())? })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lead(length: &str, section: &str) -> Lead {
        Lead { length: length.parse().unwrap(), section: section.parse().unwrap() }
    }

    fn drop(current: &str, leads: &[Lead]) -> f64 {
        let read = "30 V".parse().unwrap();
        arc_voltage_behind_leads(read, current.parse().unwrap(), leads).unwrap().drop.volts()
    }

    /// Own arithmetic: 2 * 25 m of 70 mm² are 0.0125 ohm, 3.125 V at 250 A, 26.875 V of 30 V left.
    #[test]
    fn there_and_back() {
        let leads = [lead("25 m", "70 mm2"), lead("25 m", "70 mm2")];
        let got =
            arc_voltage_behind_leads("30 V".parse().unwrap(), "250 A".parse().unwrap(), &leads);
        let got = got.unwrap();
        assert_eq!(got.drop, "3.125 V".parse().unwrap());
        assert_eq!(got.arc_voltage, "26.875 V".parse().unwrap());
    }

    /// IEC 60228, Table 3 (flexible conductors, plain copper, 20 °C; from memory): at most 0.554,
    /// 0.386, 0.272 and 0.206 ohm/km at 35, 50, 70 and 95 mm². These are maxima of real cables, up
    /// to 12 % above the resistance of the nominal section.
    #[test]
    fn leads_of_the_nominal_section_stay_below_the_maxima_of_real_ones() {
        for (section, at_most) in
            [("35 mm2", 0.554), ("50 mm2", 0.386), ("70 mm2", 0.272), ("95 mm2", 0.206)]
        {
            let per_km = drop("10 A", &[lead("100 m", section)]);
            assert!(per_km < at_most && per_km > 0.88 * at_most, "{section}: {per_km}");
        }
    }

    #[test]
    fn what_is_unknown_or_impossible_is_refused() {
        let read = "30 V".parse().unwrap();
        let current = "500 A".parse().unwrap();
        assert_eq!(arc_voltage_behind_leads(read, current, &[]), Err(CableError::NoLead));
        let long = arc_voltage_behind_leads(read, current, &[lead("200 m", "50 mm2")]);
        assert!(matches!(long, Err(CableError::NothingLeft { .. })));
        let no_copper = Lead { section: Area::computed(0.0).unwrap(), ..lead("1 m", "50 mm2") };
        let refused = arc_voltage_behind_leads(read, current, &[no_copper]);
        assert!(matches!(refused, Err(CableError::OutOfRange(_))));
    }
}
