//! Content of ISO 15609-1 of which a check reads the forms and diameters of the parts alone: parent metal, and how the
//! joint is made.

use crate::{
    qualifications::PNumberDocument,
    qualify::record::{D11Group, DeliveryCondition, ProductForm},
    quantity::{OutsideDiameterKind, PreparationDepth, Range, Stress},
    trade::PreheatCategory,
    wire::wire_object,
};

wire_object! {
    /// Parent metal, beside the groups and the thickness of the procedure.
    pub struct ParentMetalDocument {
        /// Standards and grades, as `EN 10025-2 S355J2`.
        pub designations: Vec<String>,
        /// Delivery condition.
        pub condition: Option<DeliveryCondition>,
        /// Forms of the parts: a check asks the setup for them.
        pub forms: Vec<ProductForm>,
        /// Outside diameter of pipes and hollow sections: a check asks the setup for it.
        pub outside_diameter: Option<Range<OutsideDiameterKind>>,
        /// Highest specified minimum yield strength. Where rules judge the support, no group of the base metals may
        /// have steels above it by its definition (ISO/TR 15608: 1.1 to 275 MPa, 1.2, counted to 355 MPa, 1.3 to
        /// 460 MPa): a check is told a part's group, not its yield.
        pub highest_yield: Option<Stress>,
        /// P-Number of ASME IX, of both parts.
        pub p_number: Option<PNumberDocument>,
        /// Base-metal group of AWS D1.1, of both parts.
        pub d11_group: Option<D11Group>,
        /// Category of base metal and process in the preheat table of AWS D1.1.
        pub d11_preheat_category: Option<PreheatCategory>,
    }
}

wire_object! {
    /// How the joint is made, as far as words and sketches say it.
    pub struct ExecutionDocument {
        /// Tolerances of the joint dimensions.
        pub tolerances: Option<String>,
        /// Cleaning and degreasing.
        pub cleaning: Option<String>,
        /// Where the joint sketch is kept, or what it shows.
        pub sketch: Option<String>,
        /// Sequence of runs.
        pub run_sequence: Option<String>,
        /// Method of back gouging.
        pub gouging_method: Option<String>,
        /// Depth of back gouging.
        pub gouging_depth: Option<PreparationDepth>,
        /// Shape that gouging leaves.
        pub gouging_shape: Option<String>,
        /// Dimensions of the backing.
        pub backing_dimensions: Option<String>,
    }
}
