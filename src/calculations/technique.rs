//! `POST /v1/calculations/technique`

use super::{Sheet, endpoint::calculation};
use crate::{
    quantity::Diameter,
    trade::{
        Advice, AdvisedRange, AdvisedVariable, Coded, Formula, Position, Process, RunClass,
        SprayMetal, TechniqueCase, advice, spray_transition,
    },
    wire::wire_object,
};

wire_object! {
    /// A job whose usual technique is wanted. Advice that depends on something left out is left out too.
    pub struct TechniqueIn {
        /// Process.
        pub process: Process,
        /// Whether the consumable leaves a slag.
        pub slag: bool,
        /// Position by ISO 6947.
        pub position: Option<Position>,
        /// Diameter of the wire or core.
        pub diameter: Option<Diameter>,
        /// What the run does in the joint.
        pub run_class: Option<RunClass>,
        /// Wire metal and gas, for the current above which the wire sprays.
        pub spray: Option<SprayMetal>,
    }
}

calculation! {
    /// Usual technique for a process, a position and a wire: angles, stick-out, current, volts, weave and
    /// bead, each with its source. Where sources differ every one is shown, numbered; any of them will do. And
    /// the current above which a solid wire sprays. Advice only: the approved procedure goes before it.
    "/v1/calculations/technique", find_technique(TechniqueIn) => fill,
    summary: "Usual technique",
    example: {
        "process": "136", "slag": true, "position": "PB", "diameter": "1.2 mm", "run_class": "fill"
    }
}

fn fill(sent: &TechniqueIn, sheet: &mut Sheet) {
    let all = advice(&TechniqueCase {
        process: sent.process,
        slag: sent.slag,
        position: sent.position,
        diameter: sent.diameter,
        run: sent.run_class,
    });
    for (variable, code) in AdvisedVariable::ALL {
        let own: Vec<_> = all.iter().filter(|advice| advice.variable() == *variable).collect();
        match own.as_slice() {
            [] => sheet.absent(code, "nothing is known for what was given"),
            [only] => put(code, only, &[], sheet),
            several => {
                let note = format!("{} sources; any one will do", several.len());
                for (index, advice) in several.iter().enumerate() {
                    put(&format!("{code}-{}", index + 1), advice, &[&note], sheet);
                }
            }
        }
    }
    spray(sent, sheet);
}

fn put(name: &str, advice: &Advice, notes: &[&str], sheet: &mut Sheet) {
    let formula = Formula {
        name: "usual-technique",
        equation: "read from a table, not computed",
        source: advice.source,
        validity: advice.statement,
        confidence: advice.confidence,
    };
    let formula = &formula;
    match advice.range {
        AdvisedRange::TravelAngle(range) => {
            let drag = [&["drag positive, push negative"], notes].concat();
            sheet.bounds::<_, &str>(name, Ok(range), formula, &drag);
        }
        AdvisedRange::WorkAngle(range) => sheet.bounds::<_, &str>(name, Ok(range), formula, notes),
        AdvisedRange::ElectricalStickOut(range) => {
            sheet.bounds::<_, &str>(name, Ok(range), formula, notes);
        }
        AdvisedRange::Current(range) => sheet.bounds::<_, &str>(name, Ok(range), formula, notes),
        AdvisedRange::Voltage(range) => sheet.bounds::<_, &str>(name, Ok(range), formula, notes),
        AdvisedRange::WeaveWidth(range) => sheet.bounds::<_, &str>(name, Ok(range), formula, notes),
        AdvisedRange::BeadPattern(pattern) => {
            sheet.words(name, vec![pattern.to_string()], formula, notes);
        }
    }
}

fn spray(sent: &TechniqueIn, sheet: &mut Sheet) {
    let name = "spray-current";
    let (Some(metal), Some(diameter)) = (sent.spray, sent.diameter) else {
        return sheet.absent(name, "give wire metal and gas (\"spray\") and the diameter");
    };
    match spray_transition(metal, diameter) {
        Some(advice) => put(name, &advice, &[metal.code()], sheet),
        None => sheet.absent(name, "the table does not list this size"),
    }
}
