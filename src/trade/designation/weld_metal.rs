//! Steel of a weld metal, and the condition it was tested in.

use crate::trade::coded;

coded! {
    /// Family of a filler's steel.
    pub enum AlloyFamily: "alloy family" {
        /// Carbon steel.
        Unalloyed = "unalloyed",
        /// Low-alloy steel without the chromium of creep-resisting steels.
        LowAlloy = "low-alloy",
        /// Creep-resisting chromium-molybdenum steel: 0.5 to 10 % chromium.
        ChromiumMolybdenum = "chromium-molybdenum",
        /// Stainless or heat-resisting steel.
        Stainless = "stainless",
    }
}

coded! {
    /// Condition of the weld metal in the classification tests.
    pub enum WeldCondition: "post-weld condition" {
        /// As welded.
        AsWelded = "as-welded",
        /// After post-weld heat treatment.
        HeatTreated = "post-weld-heat-treated",
        /// Both.
        Both = "as-welded-and-post-weld-heat-treated",
        /// For buyer and maker to agree.
        AsAgreed = "as-agreed",
    }
}
