//! What the data of a filler allows.

use crate::{
    quantity::{Duration, DurationKind, Range, Share, TemperatureKind},
    trade::HydrogenClass,
};

/// How a filler is baked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BakingRule {
    /// Temperature of the oven.
    pub temperature: Range<TemperatureKind>,
    /// Time at that temperature.
    pub time: Range<DurationKind>,
    /// How often one portion may be baked, the first time counted.
    pub times: u32,
}

/// How long a filler may lie in the air, and what it still is then.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ExposureLimit {
    /// Longest time in the air since the packet was opened or the filler was last restored.
    pub longest: Duration,
    /// Highest relative humidity it holds for; `None` for any air.
    pub highest_humidity: Option<Share>,
    /// Class that it still has up to that time; `None` for the class it has when fresh.
    pub hydrogen: Option<HydrogenClass>,
}

/// What the data of a filler allows.
#[derive(Debug, Clone, PartialEq)]
pub struct CareRules {
    /// Where it is printed.
    pub source: String,
    /// Class when fresh from the packet or the oven, where the data states it apart from the designation.
    pub hydrogen: Option<HydrogenClass>,
    /// Whether it has to be baked before the first use, since its packet is not airtight.
    pub bake_before_first_use: bool,
    /// How it is baked; `None` where the data allows no baking.
    pub baking: Option<BakingRule>,
    /// Temperature of a holding oven; `None` where the data knows none, and time there counts as air.
    pub holding: Option<Range<TemperatureKind>>,
    /// Time in the holding oven after which the air counts from nothing again, while the filler was still as
    /// good as fresh; `None` where holding only stops the count.
    pub holding_restores_after: Option<Duration>,
    /// Limits of the time in the air. Without one no time is allowed.
    pub exposure: Vec<ExposureLimit>,
}
