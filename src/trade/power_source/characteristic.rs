//! A linear drooping characteristic of a power source.

use super::PowerSourceError;
use crate::{
    quantity::{Current, Power, Voltage},
    trade::{formula, scope::positive},
};

formula! {
    /// Linear characteristic of a drooping power source.
    pub const LINEAR_CHARACTERISTIC {
        name: "linear-characteristic",
        equation: "U/U0 + I/Is = 1; U0 open-circuit voltage in V, Is short-circuit current in A; most \
                   power at U0/2 and Is/2",
        source: "textbooks on arc welding; exam questions of GATE 1989, 2014 and 2016",
        validity: "drooping sources whose characteristic is straight, as exam questions assume; a wire \
                   process on constant voltage is another case",
        confidence: Derived,
    }
}

/// A straight line from open circuit to short circuit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LinearCharacteristic {
    /// Voltage without current.
    pub open_circuit: Voltage,
    /// Current without voltage.
    pub short_circuit: Current,
}

/// A voltage and current that stand together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OperatingPoint {
    /// Voltage.
    pub voltage: Voltage,
    /// Current.
    pub current: Current,
}

/// The characteristic through two points, [`LINEAR_CHARACTERISTIC`].
///
/// # Errors
/// [`PowerSourceError::NotDrooping`] unless the point of higher voltage has the lower current;
/// [`PowerSourceError::OutOfRange`] for values not above zero.
pub fn linear_characteristic(
    one: &OperatingPoint,
    other: &OperatingPoint,
) -> Result<LinearCharacteristic, PowerSourceError> {
    for point in [one, other] {
        positive(point.voltage)?;
        positive(point.current)?;
    }
    let (high, low) = if one.voltage.at_least(other.voltage) { (one, other) } else { (other, one) };
    if high.voltage == low.voltage || high.current.at_least(low.current) {
        return Err(PowerSourceError::NotDrooping);
    }
    let slope = (high.voltage.volts() - low.voltage.volts())
        / (low.current.amperes() - high.current.amperes());
    let open = high.voltage.volts() + slope * high.current.amperes();
    Ok(LinearCharacteristic {
        open_circuit: Voltage::computed(open)?,
        short_circuit: Current::computed(open / slope)?,
    })
}

impl LinearCharacteristic {
    /// Current at an arc voltage.
    ///
    /// # Errors
    /// [`PowerSourceError::AboveOpenCircuit`] for a voltage above open circuit,
    /// [`PowerSourceError::OutOfRange`] for one not above zero.
    pub fn current_at(&self, voltage: Voltage) -> Result<Current, PowerSourceError> {
        positive(self.open_circuit)?;
        positive(voltage)?;
        if !voltage.at_most(self.open_circuit) {
            let open_circuit = self.open_circuit;
            return Err(PowerSourceError::AboveOpenCircuit { given: voltage, open_circuit });
        }
        let share = 1.0 - voltage.volts() / self.open_circuit.volts();
        Ok(Current::computed(share.max(0.0) * self.short_circuit.amperes())?)
    }

    /// The point of most power, and that power.
    ///
    /// # Errors
    /// [`PowerSourceError::OutOfRange`] for ends not above zero.
    pub fn most_power(&self) -> Result<(OperatingPoint, Power), PowerSourceError> {
        positive(self.open_circuit)?;
        positive(self.short_circuit)?;
        let (volts, amperes) =
            (self.open_circuit.volts() / 2.0, self.short_circuit.amperes() / 2.0);
        let point = OperatingPoint {
            voltage: Voltage::computed(volts)?,
            current: Current::computed(amperes)?,
        };
        Ok((point, Power::computed(volts * amperes)?))
    }
}
