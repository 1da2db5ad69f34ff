//! `work-order-acceptance`: whether the customer has accepted the procedure for the job.

use crate::check::{
    Authority, Case, Findings, Force, Outcome, Shown, Source,
    choice_check::{Rule, Said, Words, texts},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// Where the work order lists the procedures its customer has accepted, the procedure is one of
    /// them. An order without a list accepts every released procedure.
    ///
    /// ## Why
    /// Customers and inspectors approve procedures one by one; a sound procedure they have not seen is
    /// still refused at hand-over.
    ///
    /// ## Source
    /// The customer's order.
    ///
    /// ## Not checked
    /// Which revision of the procedure the customer has seen.
    "work-order-acceptance", WorkOrder => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some(
        "The customer may refuse a weld made to a procedure that was never accepted.",
    ),
    change: Some("Submit the procedure to the customer, or use one of"),
    state: Some("Name a work order that this organisation has."),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let number = &case.procedure.number;
    let Some(order) = case.work_order else {
        let rule = rule(Source::Service);
        match &case.setup.work_order {
            None => rule.finding(findings, Outcome::NotApplicable, |_| {
                Said::reason("The setup names no work order.")
            }),
            Some(unknown) => rule.finding(findings, Outcome::NotGiven, |_| Said {
                given: Shown::word(unknown),
                ..Said::reason(format!("This organisation has no work order {unknown}."))
            }),
        }
        return;
    };
    let rule = rule(Authority::WorkOrder(order).into());
    if let Some(accepted) = &order.accepted_procedures {
        let allowed = || Shown::words(accepted);
        rule.judged(findings, Some(number), allowed, true, |own| accepted.contains(own));
    } else {
        rule.finding(findings, Outcome::Inside, |_| Said {
            given: Shown::word(number),
            ..Said::reason(format!("Work order {} accepts every released procedure.", order.number))
        });
    }
}

const fn rule(source: Source<'_>) -> Rule<'_> {
    Rule { check: &CHECK, source, force: Force::Required, words: &WORDS }
}

#[cfg(test)]
mod tests {
    use crate::check::{Outcome, Outcome::*, fixture::Scene};

    fn outcomes(change: impl FnOnce(&mut Scene)) -> Vec<Outcome> {
        Scene::allowed().with(change).outcomes("work-order-acceptance")
    }

    #[test]
    fn a_list_accepts_what_it_names_and_no_list_accepts_all() {
        assert_eq!(outcomes(|_| ()), [Inside]);
        let accept = |number: &str| Some(vec![number.to_owned()]);
        let order = |s: &mut Scene, list| s.work_order.as_mut().unwrap().accepted_procedures = list;
        assert_eq!(outcomes(|s| order(s, accept("WPS-2"))), [Outside]);
        assert_eq!(outcomes(|s| order(s, None)), [Inside]);
        assert_eq!(outcomes(|s| order(s, Some(Vec::new()))), [Outside]);
    }

    #[test]
    fn an_unknown_order_decides_nothing_and_none_is_no_matter() {
        assert_eq!(outcomes(|s| s.work_order = None), [NotGiven]);
        let without = outcomes(|s| {
            s.work_order = None;
            s.setup.work_order = None;
        });
        assert_eq!(without, [NotApplicable]);
    }
}
