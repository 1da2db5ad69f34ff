//! `position-designation`: welding position against what the filler's designation says.

use crate::check::{
    Case, Findings, Force,
    checks::position,
    choice_check::{Rule, Words, texts},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The position is one the designation of the filler is usable in, by its position digit or
    /// usability designator.
    ///
    /// ## Why
    /// A fluid slag made for flat and horizontal welding does not hold the puddle on a wall or
    /// overhead.
    ///
    /// ## Source
    /// The designation's own standard, such as AWS A5.20 or ISO 17632-A.
    ///
    /// ## Not checked
    /// Positions the maker allows beyond the designation.
    "position-designation", Position => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some(
        "The slag of this filler cannot hold the puddle here: it drips out of the joint.",
    ),
    change: Some("Take a filler usable in this position; this one is for"),
    state: Some("State one position, so that it can be held against the filler's designation."),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let claim = case.position();
    for designation in case.designations() {
        let Some(usable) = designation.usable_positions() else { continue };
        let source = case.designation_source(designation);
        let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
        position::against(findings, &rule, claim.as_deref(), usable.positions);
    }
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{Outcome, Outcome::*, fixture::Scene},
        trade::{Designation, PositionClaim},
    };

    fn outcomes(designation: &str, position: Option<&str>) -> Vec<Outcome> {
        let changed = Scene::allowed().with(|s| {
            let designation = Designation::parse(designation).unwrap();
            s.consumable.as_mut().unwrap().designations = vec![designation];
            s.setup.job.position = position.map(|text| PositionClaim::parse(text, None).unwrap());
        });
        changed.outcomes("position-designation")
    }

    /// AWS A5.20: the digit 0 of E70T-1 is flat and horizontal, the 1 of E71T-1 all positions.
    #[test]
    fn a_flat_wire_stays_flat() {
        assert_eq!(outcomes("E70T-1C", Some("PB")), [Inside]);
        assert_eq!(outcomes("E70T-1C", Some("PF")), [Outside]);
        assert_eq!(outcomes("E71T-1C", Some("PF")), [Inside]);
        assert_eq!(outcomes("E70T-1C", None), [NotGiven]);
    }

    #[test]
    fn without_designation_there_is_nothing_to_hold_against() {
        let bare = Scene::allowed().with(|s| s.consumable = None);
        assert_eq!(bare.outcomes("position-designation"), []);
    }
}
