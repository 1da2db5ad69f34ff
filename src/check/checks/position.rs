//! `position`: welding position against the procedure.

use crate::{
    check::{
        Case, Findings, Force, Outcome, Shown,
        choice_check::{Rule, Said, Words, texts},
        registry::declare_check,
    },
    trade::{Position, PositionClaim},
};

declare_check! {
    /// ## Checks
    /// The position, narrowed by the progression, is one the procedure covers. A text that can mean
    /// several ISO 6947 positions is inside only when all of them are covered and outside only when
    /// none is.
    ///
    /// ## Why
    /// Gravity decides where the puddle and the slag run: a setting that welds flat drops out of an
    /// overhead joint.
    ///
    /// ## Source
    /// The procedure. Positions by ISO 6947:2011; US test positions map to several of them.
    ///
    /// ## Not checked
    /// Slope and rotation in degrees.
    "position", Position => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some(
        "The puddle runs or sags in a position nobody has tested: cold laps, slag in the weld.",
    ),
    change: Some("Turn the work, or use a procedure for this position; this one covers"),
    state: Some("State the position by its ISO 6947 symbol, or add joint and progression."),
    record: Some("Record the ISO 6947 positions the procedure covers."),
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    if findings.has_settled(CHECK.variable) {
        return;
    }
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    against(findings, &rule, case.position().as_deref(), &case.procedure.positions);
}

/// The finding of a claim against a list of positions; an empty list sets no limit.
pub(super) fn against(
    findings: &mut Findings,
    rule: &Rule<'_>,
    claim: Option<&PositionClaim>,
    allowed: &[Position],
) {
    let Some(claim) = claim else { return rule.one_of::<Position>(findings, None, allowed) };
    if let Some(only) = claim.only() {
        return rule.one_of(findings, Some(only), allowed);
    }
    let meant: Vec<_> = claim.positions().collect();
    let covered = meant.iter().filter(|position| allowed.contains(position)).count();
    let outcome = match covered {
        _ if allowed.is_empty() => Outcome::NoLimit,
        0 => Outcome::Outside,
        all if all == meant.len() => Outcome::Inside,
        _ => Outcome::NotGiven,
    };
    rule.finding(findings, outcome, |owner| {
        let (given, allowed) = (Shown::words(&meant), Shown::words(allowed));
        let text = claim.text();
        let reason = match outcome {
            Outcome::NoLimit => format!("No position is listed by {owner}."),
            Outcome::Outside => {
                format!("\"{text}\" means one of {given}; {owner} allows {allowed}.")
            }
            Outcome::Inside => {
                format!("\"{text}\" means one of {given}; {owner} allows them all.")
            }
            _ => format!("\"{text}\" means one of {given}; {owner} allows only {allowed}."),
        };
        Said { given, allowed, reason }
    });
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{Outcome, Outcome::*, fixture::Scene},
        trade::{JointKind, Position, PositionClaim, Progression},
    };

    fn outcomes(change: impl FnOnce(&mut Scene)) -> Vec<Outcome> {
        Scene::allowed().with(change).outcomes("position")
    }

    fn claim(text: &str) -> PositionClaim {
        PositionClaim::parse(text, Some(JointKind::Butt)).unwrap()
    }

    #[test]
    fn one_position_has_every_outcome() {
        assert_eq!(outcomes(|_| ()), [Inside]);
        assert_eq!(outcomes(|s| s.procedure.positions = vec![Position::Pa]), [Outside]);
        assert_eq!(outcomes(|s| s.setup.job.position = None), [NotGiven]);
        assert_eq!(outcomes(|s| s.procedure.positions.clear()), [NoLimit]);
    }

    /// 3G is PF or PG (ISO 6947:2011 against AWS test positions).
    #[test]
    fn a_text_with_two_meanings_is_inside_only_when_both_are_covered() {
        let with = |positions: &[Position], progression| {
            outcomes(|s| {
                s.setup.job.position = Some(claim("3G"));
                s.setup.job.progression = progression;
                s.procedure.positions = positions.to_vec();
            })
        };
        assert_eq!(with(&[Position::Pf, Position::Pg], None), [Inside]);
        assert_eq!(with(&[Position::Pf], None), [NotGiven]);
        assert_eq!(with(&[Position::Pa], None), [Outside]);
        assert_eq!(with(&[Position::Pf], Some(Progression::Up)), [Inside]);
        assert_eq!(with(&[Position::Pf], Some(Progression::Down)), [Outside]);
        assert_eq!(with(&[], None), [NoLimit]);
    }
}
