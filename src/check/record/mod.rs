//! Records of an organisation as the check reads them: no ids of rows, no wire forms.

mod batch;
mod consumable;
mod curve;
mod points;
mod procedure;
mod station;
mod welder;
mod work_order;

pub use batch::{Batch, Portion};
pub use consumable::{Condition, Consumable, DataEdition};
pub(crate) use curve::Curve;
pub use points::{OperatingPoint, OperatingPoints};
pub use procedure::{
    FilletSizes, GasRule, JudgedSupport, Procedure, RunLimits, Support, UnjudgedClause,
};
pub use station::{
    GunRating, Instrument, InstrumentAccuracy, InstrumentGap, InstrumentLack, RatedPoint, Station,
    Steps,
};
pub use welder::{Proof, Welder, WelderQualification};
pub use work_order::{WorkOrder, WorkOrderWeld};
