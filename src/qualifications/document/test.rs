//! Tests and their results, on the wire.

use time::Date;

use crate::{
    qualify::record::{Hardness, HardnessScale, Outcome, Test, TestKind, TestPlace, TestValue},
    quantity::{Energy, Share, Stress, Temperature},
    wire::wire_object,
};

wire_object! {
    /// A hardness reading on its scale.
    pub struct HardnessDocument {
        /// Number read.
        pub number: u16,
        /// Scale.
        pub scale: HardnessScale,
    }
}

wire_object! {
    /// One test and its result.
    pub struct TestDocument {
        /// Kind of test.
        pub kind: TestKind,
        /// Where the specimen was taken.
        pub place: Option<TestPlace>,
        /// Test temperature; for impact tests.
        pub temperature: Option<Temperature>,
        /// Impact energies, one per specimen.
        pub impact_energies: Vec<Energy>,
        /// Hardness readings.
        pub hardness: Vec<HardnessDocument>,
        /// Strengths, one per specimen.
        pub strengths: Vec<Stress>,
        /// Elongations or reductions, one per specimen.
        pub elongations: Vec<Share>,
        /// What was found, in words.
        pub found: Option<String>,
        /// Result.
        pub outcome: Outcome,
        /// Standard tested and judged by.
        pub standard: Option<String>,
        /// Number of the report.
        pub report: Option<String>,
        /// Laboratory.
        pub laboratory: Option<String>,
        /// Day of the test.
        pub on: Option<Date>,
        /// Whether it repeats a failed test; it does not where left out.
        pub retest: Option<bool>,
    }
}

impl TestDocument {
    pub(super) fn compile(&self) -> Test {
        Test {
            kind: self.kind,
            place: self.place,
            temperature: self.temperature,
            values: self.values(),
            outcome: self.outcome,
            standard: self.standard.clone(),
            report: self.report.clone(),
            laboratory: self.laboratory.clone(),
            on: self.on,
            retest: self.retest.unwrap_or(false),
        }
    }

    fn values(&self) -> Vec<TestValue> {
        let mut values = Vec::new();
        if !self.impact_energies.is_empty() {
            values.push(TestValue::Impact(self.impact_energies.clone()));
        }
        if !self.hardness.is_empty() {
            let one = |read: &HardnessDocument| Hardness { number: read.number, scale: read.scale };
            values.push(TestValue::Hardness(self.hardness.iter().map(one).collect()));
        }
        if !self.strengths.is_empty() {
            values.push(TestValue::Strength(self.strengths.clone()));
        }
        if !self.elongations.is_empty() {
            values.push(TestValue::Elongation(self.elongations.clone()));
        }
        values.extend(self.found.clone().map(TestValue::Words));
        values
    }
}
