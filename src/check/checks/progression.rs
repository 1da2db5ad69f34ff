//! `progression`: vertical up or down against procedure and designation.

use crate::{
    check::{
        Case, Findings, Force, Outcome, Shown, Source,
        choice_check::{Rule, Said, Words, texts},
        registry::declare_check,
    },
    trade::{Position, PositionClaim, Progression, designation::VerticalRule},
};

declare_check! {
    /// ## Checks
    /// A vertical run goes up or down as the procedure's limits for this run say, else as its positions do, and as
    /// the filler's designation allows; a stated progression does not contradict the position.
    ///
    /// ## Why
    /// Vertical down runs fast and shallow, with slag that may overtake the arc; vertical up puts in
    /// more heat. A change between them is a new test in most codes.
    ///
    /// ## Source
    /// The procedure and the designation. Change of vertical progression: AWS D1.1 (2015, Table 4.5);
    /// ISO 15614-1:2017 sees it as a change of position (from memory).
    ///
    /// ## Not checked
    /// Positions without a vertical run.
    "progression", Progression => check, texts!(PROCEDURE, DESIGNATION, CONTRADICTION)
}

const PROCEDURE: Words = Words {
    consequence: Some(
        "Welding the other way changes fusion and heat: lack of fusion going down, too much heat going up.",
    ),
    change: Some("Weld in the tested direction:"),
    state: Some("State whether the vertical run goes up or down."),
    record: Some("Record whether the procedure's vertical positions go up or down."),
};

const DESIGNATION: Words = Words {
    consequence: Some(
        "The filler's slag is not made for this direction: it runs ahead of the arc or falls behind.",
    ),
    change: Some("With this filler weld"),
    state: Some(
        "State the direction of the vertical run, so that it can be held against the filler.",
    ),
    ..Words::NONE
};

const CONTRADICTION: Words = Words {
    consequence: Some(
        "Position and direction cannot both be right, so one sheet on the floor is wrong.",
    ),
    change: Some("Correct the position or the progression; this position goes"),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let job = &case.setup.job;
    let Some(claim) = &job.position else {
        if job.progression.is_some() {
            let rule = rule(Source::Service, &CONTRADICTION);
            rule.finding(findings, Outcome::NotApplicable, |_| Said {
                given: Shown::words(job.progression),
                ..Said::reason("Without a position the direction decides nothing.")
            });
        }
        return;
    };
    let possible = directions(claim);
    if possible.is_empty() {
        let rule = rule(case.procedure_source(), &PROCEDURE);
        rule.finding(findings, Outcome::NotApplicable, |_| Said {
            given: Shown::words(job.progression),
            ..Said::reason(format!("\"{}\" is no vertical position.", claim.text()))
        });
        return;
    }
    if let Some(stated) = job.progression
        && !possible.contains(&stated)
    {
        rule(Source::Service, &CONTRADICTION).one_of(findings, Some(stated), &possible);
        return;
    }
    let direction = job.progression.or(match possible.as_slice() {
        [only] if is_always_vertical(claim) => Some(*only),
        _ => None,
    });
    against_procedure(case, direction, findings);
    against_designations(case, direction, findings);
}

const fn rule<'a>(source: Source<'a>, words: &'a Words) -> Rule<'a> {
    Rule { check: &CHECK, source, force: Force::Required, words }
}

/// The procedure says the direction of all runs by its positions, and of one run in its limits.
fn against_procedure(case: &Case<'_>, direction: Option<Progression>, findings: &mut Findings) {
    let of_positions = case.procedure.positions.iter().filter_map(|one| one.progression());
    let is_for_the_run = |way: &Progression| case.run.progression.is_none_or(|own| own == *way);
    let mut allowed: Vec<_> = of_positions.filter(is_for_the_run).collect();
    allowed.sort_unstable();
    allowed.dedup();
    rule(case.procedure_source(), &PROCEDURE).one_of(findings, direction, &allowed);
}

fn against_designations(case: &Case<'_>, direction: Option<Progression>, findings: &mut Findings) {
    for designation in case.designations() {
        let only = match designation.usable_positions().map(|usable| usable.progression) {
            Some(VerticalRule::UpOnly) => Some(Progression::Up),
            Some(VerticalRule::DownOnly) => Some(Progression::Down),
            _ => None,
        };
        if let Some(only) = only {
            let rule = rule(case.designation_source(designation), &DESIGNATION);
            rule.one_of(findings, direction, &[only]);
        }
    }
}

/// Directions the claim can mean.
fn directions(claim: &PositionClaim) -> Vec<Progression> {
    let mut found: Vec<_> = claim.positions().filter_map(Position::progression).collect();
    found.sort_unstable();
    found.dedup();
    found
}

fn is_always_vertical(claim: &PositionClaim) -> bool {
    claim.positions().all(|position| position.progression().is_some())
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{Outcome, Outcome::*, fixture::Scene},
        trade::{Designation, Position, PositionClaim, Progression},
    };

    fn outcomes(
        position: Option<&str>,
        progression: Option<Progression>,
        covered: &[Position],
    ) -> Vec<Outcome> {
        let changed = Scene::allowed().with(|s| {
            s.setup.job.position = position.map(|text| PositionClaim::parse(text, None).unwrap());
            s.setup.job.progression = progression;
            s.procedure.positions = covered.to_vec();
            s.consumable.as_mut().unwrap().designations.clear();
        });
        changed.outcomes("progression")
    }

    #[test]
    fn a_vertical_run_goes_as_the_procedure_says() {
        use Position::{Pa, Pf, Pg};
        assert_eq!(outcomes(Some("PF"), None, &[Pf]), [Inside]);
        assert_eq!(outcomes(Some("PG"), None, &[Pf]), [Outside]);
        assert_eq!(outcomes(Some("3G"), Some(Progression::Up), &[Pf]), [Inside]);
        assert_eq!(outcomes(Some("3G"), Some(Progression::Down), &[Pf]), [Outside]);
        assert_eq!(outcomes(Some("3G"), None, &[Pf]), [NotGiven]);
        assert_eq!(outcomes(Some("PF"), None, &[Pa]), [NoLimit]);
        assert_eq!(outcomes(Some("PF"), None, &[Pa, Pg]), [Outside]);
    }

    /// A root may go down where the other runs go up.
    #[test]
    fn a_run_goes_as_its_own_limits_say() {
        use Position::{Pf, Pg};
        let of_run = |own, position: &str, stated| {
            let changed = Scene::allowed().with(|s| {
                s.setup.job.position = Some(PositionClaim::parse(position, None).unwrap());
                s.setup.job.progression = stated;
                s.procedure.positions = vec![Pf, Pg];
                s.procedure.runs[0].progression = own;
                s.consumable.as_mut().unwrap().designations.clear();
            });
            changed.outcomes("progression")
        };
        let (up, down) = (Some(Progression::Up), Some(Progression::Down));
        assert_eq!(of_run(None, "PG", None), [Inside]);
        assert_eq!(of_run(up, "PG", None), [Outside]);
        assert_eq!(of_run(down, "PG", None), [Inside]);
        assert_eq!(of_run(down, "3G", up), [Outside]);
        assert_eq!(of_run(up, "3G", up), [Inside]);
        assert_eq!(of_run(up, "3G", None), [NotGiven]);
    }

    #[test]
    fn position_and_direction_must_not_contradict_each_other() {
        let down = Some(Progression::Down);
        assert_eq!(outcomes(Some("PF"), down, &[Position::Pf, Position::Pg]), [Outside]);
    }

    #[test]
    fn without_a_vertical_run_there_is_no_direction() {
        assert_eq!(outcomes(Some("PB"), None, &[Position::Pb]), [NotApplicable]);
        assert_eq!(outcomes(None, Some(Progression::Up), &[Position::Pb]), [NotApplicable]);
        assert_eq!(outcomes(None, None, &[Position::Pb]), []);
    }

    /// AWS A5.20: the vertical position of E71T-1 is welded up.
    #[test]
    fn the_designation_may_fix_the_direction() {
        let with = |position: &str| {
            let changed = Scene::allowed().with(|s| {
                s.setup.job.position = Some(PositionClaim::parse(position, None).unwrap());
                s.procedure.positions = vec![Position::Pf, Position::Pg];
                let wire = Designation::parse("E71T-1M").unwrap();
                s.consumable.as_mut().unwrap().designations = vec![wire];
            });
            changed.outcomes("progression")
        };
        assert_eq!(with("PF"), [Inside, Inside]);
        assert_eq!(with("PG"), [Inside, Outside]);
    }
}
