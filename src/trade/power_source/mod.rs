//! What a power source can deliver: load voltage of its rating, duty cycle, external characteristic.
//!
//! A rating plate is held as its points. Between two of them the law of constant heating estimates
//! ([`DUTY_FROM_PLATE`]); beyond them there is no answer. A duty cycle is of any ten minutes, never a mean over a shift.
//! The conventional load voltage ([`LOAD_VOLTAGE`]) rates power sources: it is no arc voltage and enters no heat input.
//!
//! Worked: 300 A at 60 % carries 232.4 A all the time; 200 A for 4 min and 300 A for 2 min in ten heat like 184.4 A.

mod characteristic;
mod duty;
mod equivalent;
mod error;
mod load_voltage;
mod plate;

pub use characteristic::{
    LINEAR_CHARACTERISTIC, LinearCharacteristic, OperatingPoint, linear_characteristic,
};
pub use duty::{
    ARC_ON_TIME, CONSTANT_HEATING, DutyPoint, arc_on_time, current_by_constant_heating,
    duty_by_constant_heating,
};
pub use equivalent::{CurrentUse, EQUIVALENT_CURRENT, equivalent_current};
pub use error::PowerSourceError;
pub use load_voltage::{LOAD_VOLTAGE, LoadFamily, conventional_load_voltage, load_family};
pub use plate::{DUTY_FROM_PLATE, RatingPlate};
