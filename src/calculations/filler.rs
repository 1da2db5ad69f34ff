//! `POST /v1/calculations/designation`, `…/gas`, `…/filter-shade`

use super::{Sheet, endpoint::calculation};
use crate::{
    quantity::{Current, Diameter},
    trade::{
        Coded, Confidence, Designation, Formula, GasMixture, GasRequirement, Process,
        designation::Impact, minimum_shade,
    },
    wire::wire_object,
};

/// What a designation says is read, not computed.
const DESIGNATION: Formula = Formula {
    name: "designation",
    equation: "read field by field",
    source: "the standard named in the answer",
    validity: "a classification describes all-weld-metal tests under the standard's own conditions; it is no \
               limit of a procedure",
    confidence: Confidence::Secondary,
};

/// Group of a gas.
const GAS_GROUP: Formula = Formula {
    name: "iso-14175-group",
    equation: "bands of the components in vol %",
    source: "ISO 14175:2008, Table 2, as quoted in two texts",
    validity: "the mixture as stated; the tolerance of a filled cylinder is not in it",
    confidence: Confidence::Secondary,
};

/// Least filter shade.
const FILTER_SHADE: Formula = Formula {
    name: "filter-shade",
    equation: "row of the table by process and arc current; a shared end goes to the darker shade",
    source: "29 CFR 1910.133(a)(5)",
    validity: "United States; the minimum, not the comfortable shade: start too dark, then go lighter until \
               the weld zone is seen, never below the minimum",
    confidence: Confidence::TextRead,
};

wire_object! {
    /// A designation of a filler metal.
    pub struct DesignationIn {
        /// As printed on the box, with or without its standard.
        pub designation: Designation,
    }
}

calculation! {
    /// Reads a filler-metal designation. One that cannot be read says where it stopped making sense and what
    /// was expected there.
    "/v1/calculations/designation", read_designation(DesignationIn) => designation,
    summary: "Read a filler designation",
    example: { "designation": "AWS A5.20: E71T-1M" }
}

fn designation(sent: &DesignationIn, sheet: &mut Sheet) {
    let read = &sent.designation;
    let notes = read.notes();
    let mut say = |name: &str, words: Vec<String>| {
        if words.is_empty() {
            sheet.absent(name, "the designation does not say");
        } else {
            sheet.words(name, words, &DESIGNATION, &notes);
        }
    };
    say("standard", vec![read.standard().to_string()]);
    say("kind", vec![read.kind().to_string()]);
    say("processes", read.processes().iter().map(ToString::to_string).collect());
    let usability = read.usable_positions();
    say("positions", usability.iter().flat_map(|u| u.positions).map(ToString::to_string).collect());
    say("vertical", usability.iter().map(|u| u.progression.to_string()).collect());
    say("polarities", read.polarities().into_iter().flatten().map(ToString::to_string).collect());
    say("gas", gas_words(read.gas()));
    let strength = read.strength();
    say(
        "tensile-strength",
        strength.tensile.iter().map(|range| range.amounts().to_string()).collect(),
    );
    say(
        "yield-strength",
        strength.yield_strength.iter().map(|range| range.amounts().to_string()).collect(),
    );
    say("impact", impact_words(read.impact()));
    say("alloy", read.composition().iter().map(|&alloy| alloy.to_owned()).collect());
    say("alloy-family", read.family().iter().map(ToString::to_string).collect());
    say("condition", read.condition().iter().map(ToString::to_string).collect());
    say(
        "diffusible-hydrogen",
        read.hydrogen().iter().map(|most| format!("at most {most}")).collect(),
    );
    let passes = read.single_pass_only().map(|single| if single { "single" } else { "multiple" });
    say("passes", passes.iter().map(|&word| word.to_owned()).collect());
}

fn impact_words(impact: Impact) -> Vec<String> {
    match impact {
        Impact::Required(test) => vec![format!("{} J at {}", test.energy_joules, test.temperature)],
        Impact::NotRequired => vec!["none required".to_owned()],
        Impact::AsAgreed => vec!["as agreed".to_owned()],
        Impact::NotStated => Vec::new(),
    }
}

fn gas_words(gas: GasRequirement) -> Vec<String> {
    match gas {
        GasRequirement::SelfShielded => vec!["none".to_owned()],
        GasRequirement::Co2 => vec!["C1".to_owned()],
        GasRequirement::ArgonCo2Test => vec!["75 to 80 % argon, rest CO2".to_owned()],
        GasRequirement::Group(group) => vec![group.to_string()],
        GasRequirement::AnyM1WithoutHelium => vec!["M1 without helium".to_owned()],
        GasRequirement::AnyM2WithoutHelium => vec!["M2 without helium".to_owned()],
        GasRequirement::NotStated => Vec::new(),
    }
}

wire_object! {
    /// A gas mixture.
    pub struct GasIn {
        /// Shares in vol %, or a designation such as `M21-ArC-25`.
        pub mixture: GasMixture,
    }
}

calculation! {
    /// Puts a shielding gas into its ISO 14175 group.
    "/v1/calculations/gas", classify_gas(GasIn) => gas,
    summary: "Classify a shielding gas",
    example: { "mixture": { "Ar": "75 %", "CO2": "25 %" } }
}

fn gas(sent: &GasIn, sheet: &mut Sheet) {
    sheet.words("group", vec![sent.mixture.iso_14175().to_string()], &GAS_GROUP, &[]);
    sheet.words("designation", vec![sent.mixture.designation()], &GAS_GROUP, &[]);
}

wire_object! {
    /// An arc to look at.
    pub struct FilterShadeIn {
        /// Process.
        pub process: Process,
        /// Arc current.
        pub current: Current,
        /// Diameter of a covered electrode.
        pub electrode: Option<Diameter>,
    }
}

calculation! {
    /// The least filter shade for an arc.
    "/v1/calculations/filter-shade", find_filter_shade(FilterShadeIn) => filter_shade,
    summary: "Find the filter shade",
    example: { "process": "136", "current": "220 A" }
}

fn filter_shade(sent: &FilterShadeIn, sheet: &mut Sheet) {
    let answer = minimum_shade(sent.process, sent.electrode, sent.current);
    match answer.shade {
        Some(shade) => {
            let words = vec![shade.to_string()];
            sheet.words(
                "minimum-shade",
                words,
                &FILTER_SHADE,
                &[answer.basis.code(), answer.source],
            );
        }
        None => {
            sheet.absent("minimum-shade", format!("{}: {}", answer.basis.code(), answer.source));
        }
    }
}
