//! How a consumable is kept dry, as its data states it.

use crate::{
    http::problem::FieldError,
    quantity::{Duration, DurationKind, Range, Share, TemperatureKind},
    records::plausible,
    trade::{BakingRule, CareRules, ExposureLimit, HydrogenClass},
    wire::wire_object,
};

wire_object! {
    /// How a filler is baked.
    pub struct BakingDocument {
        /// Temperature of the oven, such as `300 to 350 °C`.
        pub temperature: Range<TemperatureKind>,
        /// Time at that temperature, such as `1 to 2 h`.
        pub time: Range<DurationKind>,
        /// How often one portion may be baked, the first time counted.
        pub times: u32,
    }
}

wire_object! {
    /// How long a filler may lie in the air. Times in the air add up until it is baked.
    pub struct ExposureDocument {
        /// Longest time in the air, such as `4 h`.
        pub longest: Duration,
        /// Highest relative humidity that it holds for, such as `70 %`; left out for any air.
        pub highest_humidity: Option<Share>,
        /// Class that the filler still has up to that time; left out for the class it has when fresh.
        pub hydrogen: Option<HydrogenClass>,
    }
}

wire_object! {
    /// How a filler is kept dry, as its data states it.
    pub struct CareDocument {
        /// Document and edition that state it.
        pub source: String,
        /// Hydrogen class when fresh from the packet or the oven; that of the designations where left out.
        pub hydrogen: Option<HydrogenClass>,
        /// Whether it has to be baked before the first use, since its packet is not airtight; not where left
        /// out.
        pub bake_before_first_use: Option<bool>,
        /// How it is baked; left out where the data allows no baking.
        pub baking: Option<BakingDocument>,
        /// Temperature of a holding oven; left out where the data knows none: time there then counts as air.
        pub holding: Option<Range<TemperatureKind>>,
        /// Time in the holding oven after which the air counts from nothing again; left out where holding only
        /// stops the count.
        pub holding_restores_after: Option<Duration>,
        /// Limits of the time in the air, one at least.
        pub exposure: Vec<ExposureDocument>,
    }
}

impl CareDocument {
    /// As the check reads it.
    pub(super) fn compile(&self) -> CareRules {
        let limit = |limit: &ExposureDocument| ExposureLimit {
            longest: limit.longest,
            highest_humidity: limit.highest_humidity,
            hydrogen: limit.hydrogen,
        };
        CareRules {
            source: self.source.clone(),
            hydrogen: self.hydrogen,
            bake_before_first_use: self.bake_before_first_use.unwrap_or(false),
            baking: self.baking.as_ref().map(|baking| BakingRule {
                temperature: baking.temperature,
                time: baking.time,
                times: baking.times,
            }),
            holding: self.holding,
            holding_restores_after: self.holding_restores_after,
            exposure: self.exposure.iter().map(limit).collect(),
        }
    }

    /// What is wrong across its fields.
    pub(super) fn faults(&self) -> Vec<FieldError> {
        let mut faults = Vec::new();
        let mut fault = |pointer: &str, detail: &str| {
            faults.push(FieldError { pointer: pointer.to_owned(), detail: detail.to_owned() });
        };
        if self.exposure.is_empty() {
            fault("/care/exposure", "state at least one time that the filler may lie in the air");
        }
        let needs_baking = self.bake_before_first_use == Some(true);
        if needs_baking && self.baking.as_ref().is_none_or(|baking| baking.times == 0) {
            fault("/care/baking", "what has to be baked before the first use needs a bake");
        }
        if self.holding_restores_after.is_some() && self.holding.is_none() {
            fault("/care/holding", "state the temperature of the oven that restores the filler");
        }
        faults.extend(self.exposure.iter().enumerate().filter_map(|(index, limit)| {
            let pointer = format!("/care/exposure/{index}/highest_humidity");
            plausible::no_humidity(pointer, limit.highest_humidity)
        }));
        faults
    }
}
