//! What a power source can deliver: load voltage of its rating, duty cycle, external characteristic.

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
