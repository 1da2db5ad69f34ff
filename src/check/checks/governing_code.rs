//! `governing-code`: code and edition of the job against those of the procedure.

use crate::check::{
    Authority, Case, Findings, Force, Shown,
    choice_check::{Rule, Words, texts},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The code and edition that govern the job, as the setup or its work order states them, are among
    /// those the procedure is written for; a setup that names another code than its work order is
    /// refused.
    ///
    /// ## Why
    /// The same test qualifies different ranges under different codes and editions, and a limit means
    /// nothing without the rules it came from.
    ///
    /// ## Source
    /// The records of the organisation and the customer's order.
    ///
    /// ## Not checked
    /// Whether another edition of the code would accept the procedure as well.
    "governing-code", GoverningCode => check, texts!(PROCEDURE, WORK_ORDER)
}

const PROCEDURE: Words = Words {
    consequence: Some(
        "A procedure for another code or edition need not satisfy this one: the work may be refused.",
    ),
    change: Some(
        "Use a procedure written for the code of the job, or have this one reviewed for it; it is written for",
    ),
    state: Some("State the code and edition that govern the job."),
    record: Some("Record the codes and editions the procedure is written for."),
};

const WORK_ORDER: Words = Words {
    consequence: Some("The customer ordered the work under another code."),
    change: Some("Work under the code of the order,"),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let codes = &case.procedure.codes;
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &PROCEDURE };
    let allowed = || Shown::words(codes);
    rule.judged(findings, case.code(), allowed, !codes.is_empty(), |code| codes.contains(code));
    if let (Some(stated), Some(order)) = (&case.setup.job.code, case.work_order) {
        let source = Authority::WorkOrder(order).into();
        let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORK_ORDER };
        let allowed = || Shown::word(&order.code);
        rule.judged(findings, Some(stated), allowed, true, |code| *code == order.code);
    }
}

#[cfg(test)]
mod tests {
    use crate::check::{CodeEdition, Outcome, Outcome::*, fixture::Scene};

    fn outcomes(change: impl FnOnce(&mut Scene)) -> Vec<Outcome> {
        Scene::allowed().with(change).outcomes("governing-code")
    }

    fn other_edition() -> CodeEdition {
        CodeEdition { edition: "2004".to_owned(), ..crate::check::fixture::code_edition() }
    }

    #[test]
    fn code_and_edition_are_those_of_procedure_and_order() {
        assert_eq!(outcomes(|_| ()), [Inside, Inside]);
        assert_eq!(outcomes(|s| s.setup.job.code = Some(other_edition())), [Outside, Outside]);
        assert_eq!(outcomes(|s| s.procedure.codes = vec![other_edition()]), [Outside, Inside]);
        assert_eq!(outcomes(|s| s.procedure.codes.clear()), [NoLimit, Inside]);
    }

    #[test]
    fn the_work_order_states_the_code_where_the_setup_does_not() {
        assert_eq!(outcomes(|s| s.setup.job.code = None), [Inside]);
        let unknown = outcomes(|s| {
            s.setup.job.code = None;
            s.work_order = None;
        });
        assert_eq!(unknown, [NotGiven]);
    }
}
