//! `support`: what stands behind the procedure.

use crate::check::{
    Case, Demands, Findings, Force, Outcome, Shown, Variable,
    choice_check::{Rule, Said, Words, texts},
    record::{JudgedSupport, Support},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// A procedure whose qualification is declared, not judged by the service, carries the signature
    /// of a person with the right to declare it. Unsigned, it can allow nothing. One that rests on
    /// qualification records was judged by the rules of their code when it was released: the finding says
    /// by which records and clauses. One that a code lets weld without a test was judged by the code's
    /// fixed limits in the same way. What could not be judged, and what lies inside a limit that
    /// was only remembered, needs the same signature. The job may demand
    /// no impact or hardness tests beyond those the procedure was judged for; where nobody says whether it
    /// does, nothing is allowed. A procedure that was judged without saying whether such tests are demanded
    /// serves only jobs that demand none.
    ///
    /// ## Why
    /// The limits of a procedure are worth what the tests behind them are worth.
    ///
    /// ## Source
    /// A rule of this service. That a procedure needs a record of its test: ISO 15607 (from memory)
    /// and AWS D1.1 (2015, clause 4). That ranges are narrower where impact or hardness tests are
    /// required: ISO 15614-1:2017, 8.4.2 to 8.4.9.
    ///
    /// ## Not checked
    /// The declaration itself: whether the tests were made and passed. Records that changed after the
    /// release: the review of the procedure judges it anew.
    "support", Procedure => check, texts!(WORDS, UNJUDGED, IMPACT, COLDER, HARDNESS, UNTOLD)
}

const WORDS: Words = Words {
    state: Some("Have a person with the right sign the declaration of qualification."),
    ..Words::NONE
};

const UNJUDGED: Words = Words {
    state: Some(
        "Have a person with the right vouch for what the rules could not judge or only remember.",
    ),
    ..Words::NONE
};

const IMPACT: Words = Words {
    consequence: Some(
        "Weld and heat-affected zone may be too brittle: nobody tested what this job needs.",
    ),
    change: Some("Take a procedure for jobs with impact tests; this one is for jobs with"),
    state: Some("State whether the job demands impact tests, and at which temperature."),
    record: None,
};

const COLDER: Words = Words {
    consequence: Some("The weld may break in the cold that the customer asks it to stand."),
    change: Some("Take a procedure whose impact tests are as cold as the job's; this one has"),
    ..Words::NONE
};

const HARDNESS: Words = Words {
    consequence: Some("The heat-affected zone may be harder than the job allows."),
    change: Some("Take a procedure for jobs with hardness tests; this one is for jobs with"),
    state: Some("State whether the job demands hardness tests."),
    record: None,
};

const UNTOLD: Words = Words {
    state: Some(
        "State that the job demands no such tests, or say in the support of the procedure what it is judged for, and \
         release it anew.",
    ),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    match &case.procedure.support {
        Support::Declared { signed_by } => declared(case, signed_by.as_deref(), findings),
        Support::Judged(judged) => {
            by_records(case, judged, findings);
            let order = case.work_order.map(|order| order.demands).unwrap_or_default();
            let wanted = case.setup.job.demands.and(order);
            impact(case, judged.demands, wanted, findings);
            hardness(case, judged.demands, wanted, findings);
        }
    }
}

const fn rule<'a>(case: &Case<'a>, words: &'a Words) -> Rule<'a> {
    Rule { check: &CHECK, source: case.procedure_source(), force: Force::Required, words }
}

fn declared(case: &Case<'_>, signed_by: Option<&str>, findings: &mut Findings) {
    let outcome = if signed_by.is_some() { Outcome::Inside } else { Outcome::NotGiven };
    rule(case, &WORDS).finding(findings, outcome, |_| {
        let (given, reason) = match signed_by {
            Some(person) => (
                "signed",
                format!("The qualification is declared, not judged here; {person} signed it."),
            ),
            None => (
                "unsigned",
                "The qualification is declared, not judged here, and nobody has signed it."
                    .to_owned(),
            ),
        };
        Said { given: Shown::word(given), allowed: Shown::word("signed declaration"), reason }
    });
}

fn by_records(case: &Case<'_>, judged: &JudgedSupport, findings: &mut Findings) {
    let open = judged.rests_on_memory || !judged.unjudged.is_empty();
    let outcome =
        if open && judged.signed_by.is_none() { Outcome::NotGiven } else { Outcome::Inside };
    rule(case, &UNJUDGED).finding(findings, outcome, |_| {
        let given = match (open, &judged.signed_by) {
            (false, _) => "judged",
            (true, Some(_)) => "judged in part, signed",
            (true, None) => "judged in part, unsigned",
        };
        let allowed = if judged.prequalified {
            Shown::word(judged.rules.clone())
        } else {
            Shown::words(&judged.pieces)
        };
        Said { given: Shown::word(given), allowed, reason: reason(judged) }
    });
}

/// Which records support it, by which clauses, and what is left to a person.
fn reason(judged: &JudgedSupport) -> String {
    let clauses = judged.clauses.join("; ");
    let mut text = if judged.prequalified {
        format!("Judged at its release by {}, without a test: it keeps {clauses}.", judged.rules)
    } else {
        let pieces = judged.pieces.join(", ");
        format!("Judged at its release by {}: {pieces} qualifies it by {clauses}.", judged.rules)
    };
    let signed_by = judged.signed_by.as_deref();
    if judged.rests_on_memory {
        let which = if judged.remembered.is_empty() {
            "some of these clauses".to_owned()
        } else {
            judged.remembered.join("; ")
        };
        let who = signed_by.map_or_else(
            || "nobody has compared them with the printed code or accepted that".to_owned(),
            |person| format!("{person} accepts that"),
        );
        text = format!("{text} From memory: {which}; {who}.");
    }
    if !judged.unjudged.is_empty() {
        let open: Vec<_> =
            judged.unjudged.iter().map(|one| format!("{} ({})", one.clause, one.missing)).collect();
        let who = signed_by.map_or_else(
            || "nobody has vouched for it".to_owned(),
            |person| format!("{person} vouches for it"),
        );
        text = format!("{text} Not judged: {}; {who}.", open.join("; "));
    }
    text
}

fn impact(case: &Case<'_>, judged: Demands, wanted: Demands, findings: &mut Findings) {
    let Some(with_tests) = judged.impact_required else {
        let asked = wanted.impact_required;
        let given = asked.map(|asked| impact_words(asked, wanted));
        return untold(case, "impact tests", (asked, given), findings);
    };
    let (outcome, words) = match (with_tests, wanted.impact_required) {
        (_, None) => (Outcome::NotGiven, &IMPACT),
        (_, Some(false)) => (Outcome::Inside, &IMPACT),
        (false, Some(true)) => (Outcome::Outside, &IMPACT),
        (true, Some(true)) => match (judged.impact_temperature, wanted.impact_temperature) {
            (None, None) => (Outcome::Inside, &IMPACT),
            // Tests at a temperature that one of both leaves open show nothing for the other.
            (None, Some(_)) | (Some(_), None) => (Outcome::NotGiven, &IMPACT),
            (Some(tested), Some(asked)) if asked.at_least(tested) => (Outcome::Inside, &IMPACT),
            _ => (Outcome::Outside, &COLDER),
        },
    };
    rule(case, words).about(Variable::Demands, findings, outcome, |owner| {
        let given = wanted.impact_required.map(|asked| impact_words(asked, wanted));
        let allowed = impact_words(with_tests, judged);
        let reason = said(outcome, given.as_deref(), owner, &allowed);
        Said { given: shown(given), allowed: Shown::word(allowed), reason }
    });
}

fn hardness(case: &Case<'_>, judged: Demands, wanted: Demands, findings: &mut Findings) {
    let in_words =
        |required: bool| if required { "hardness tests" } else { "no hardness tests" }.to_owned();
    let Some(with_tests) = judged.hardness_required else {
        let asked = wanted.hardness_required;
        return untold(case, "hardness tests", (asked, asked.map(in_words)), findings);
    };
    let outcome = match (with_tests, wanted.hardness_required) {
        (true, _) | (false, Some(false)) => Outcome::Inside,
        (false, None) => Outcome::NotGiven,
        (false, Some(true)) => Outcome::Outside,
    };
    rule(case, &HARDNESS).about(Variable::Demands, findings, outcome, |owner| {
        let given = wanted.hardness_required.map(in_words);
        let allowed = in_words(with_tests);
        let reason = said(outcome, given.as_deref(), owner, &allowed);
        Said { given: shown(given), allowed: Shown::word(allowed), reason }
    });
}

/// A procedure that was judged without saying whether jobs demand these tests: a person who vouches for what was not
/// judged does not say for which tests.
fn untold(
    case: &Case<'_>,
    tests: &str,
    (asked, given): (Option<bool>, Option<String>),
    findings: &mut Findings,
) {
    let outcome = if asked == Some(false) { Outcome::Inside } else { Outcome::NotGiven };
    rule(case, &UNTOLD).about(Variable::Demands, findings, outcome, |owner| {
        let demands = given.as_deref().unwrap_or("nothing that is stated");
        Said {
            reason: format!(
                "The job demands {demands}; {owner} was judged without saying whether {tests} are demanded."
            ),
            allowed: Shown::word(format!("no {tests}")),
            given: shown(given),
        }
    });
}

fn impact_words(required: bool, demands: Demands) -> String {
    match (required, demands.impact_temperature) {
        (false, _) => "no impact tests".to_owned(),
        (true, None) => "impact tests".to_owned(),
        (true, Some(at)) => format!("impact tests at {at}"),
    }
}

fn shown(given: Option<String>) -> Shown {
    given.map_or(Shown::Nothing, Shown::word)
}

fn said(
    outcome: Outcome,
    given: Option<&str>,
    owner: &crate::check::Owner,
    judged_for: &str,
) -> String {
    match (outcome, given) {
        (Outcome::Inside, Some(given)) => {
            format!("The job demands {given}; {owner} was judged for jobs with {judged_for}.")
        }
        (Outcome::Inside, None) => format!("{owner} was judged for jobs with {judged_for}."),
        (Outcome::NotGiven, given) => format!(
            "The job demands {}, which does not say enough; {owner} was judged for jobs with {judged_for}.",
            given.unwrap_or("nothing that is stated")
        ),
        (_, given) => format!(
            "The job demands {}; {owner} was judged for jobs with {judged_for} only.",
            given.unwrap_or("more")
        ),
    }
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{
            Demands, Outcome, Verdict,
            fixture::{Scene, quantity},
            record::{JudgedSupport, Support, UnjudgedClause},
        },
        quantity::Temperature,
    };

    const fn demands(impact: Option<bool>, at: Option<Temperature>, hard: Option<bool>) -> Demands {
        Demands { impact_required: impact, impact_temperature: at, hardness_required: hard }
    }

    /// The allowed job, held to a procedure that was judged for these demands.
    fn judged_for(judged: Demands, wanted: Demands) -> Scene {
        Scene::allowed().with(|scene| {
            scene.procedure.support = Support::Judged(Box::new(JudgedSupport {
                rules: "ISO 15614-1:2017+A1:2019, level 2".to_owned(),
                prequalified: false,
                pieces: vec!["PQR-1 piece A".to_owned()],
                clauses: vec!["8.3.2, Table 7".to_owned()],
                unjudged: Vec::new(),
                rests_on_memory: false,
                remembered: Vec::new(),
                demands: judged,
                signed_by: None,
            }));
            scene.setup.job.demands = wanted;
        })
    }

    #[test]
    fn an_unsigned_declaration_allows_nothing() {
        let signed = Scene::allowed();
        assert_eq!(signed.outcomes("support"), [Outcome::Inside]);
        let unsigned = signed.with(|s| s.procedure.support = Support::Declared { signed_by: None });
        assert_eq!(unsigned.outcomes("support"), [Outcome::NotGiven]);
        assert_eq!(unsigned.verdict(), Verdict::Undetermined);
    }

    const NO_TESTS: Demands = demands(Some(false), None, Some(false));

    #[test]
    fn what_was_judged_needs_no_signature_and_what_was_not_does() {
        let scene = judged_for(NO_TESTS, NO_TESTS);
        assert_eq!(scene.outcomes("support"), [Outcome::Inside; 3]);
        assert_eq!(scene.verdict(), Verdict::Allowed);
        let open = |signed_by: Option<&str>| {
            judged_for(NO_TESTS, NO_TESTS).with(|scene| {
                if let Support::Judged(judged) = &mut scene.procedure.support {
                    judged.unjudged = vec![UnjudgedClause {
                        clause: "8.4.4".to_owned(),
                        missing: "the proposal does not say: filler-designation".to_owned(),
                    }];
                    judged.signed_by = signed_by.map(str::to_owned);
                }
            })
        };
        let unsigned = [Outcome::NotGiven, Outcome::Inside, Outcome::Inside];
        assert_eq!(open(None).outcomes("support"), unsigned);
        assert_eq!(open(None).verdict(), Verdict::Undetermined);
        assert_eq!(open(Some("engineer")).verdict(), Verdict::Allowed);
        let remembered = |signed_by: Option<&str>| {
            judged_for(NO_TESTS, NO_TESTS).with(|scene| {
                if let Support::Judged(judged) = &mut scene.procedure.support {
                    judged.rests_on_memory = true;
                    judged.remembered = vec!["Table 5.1, layer width".to_owned()];
                    judged.signed_by = signed_by.map(str::to_owned);
                }
            })
        };
        assert_eq!(remembered(None).verdict(), Verdict::Undetermined);
        assert_eq!(remembered(Some("engineer")).verdict(), Verdict::Allowed);
    }

    /// Impact findings, then hardness findings, of each pair of demands.
    fn hold(cases: &[(Demands, Demands, Outcome)], of_hardness: bool) {
        for (judged, wanted, outcome) in cases {
            let scene = judged_for(*judged, *wanted);
            let mut expected = [Outcome::Inside; 3];
            expected[1 + usize::from(of_hardness)] = *outcome;
            assert_eq!(scene.outcomes("support"), expected, "{judged:?} {wanted:?}");
            let verdict = match outcome {
                Outcome::Inside => Verdict::Allowed,
                Outcome::NotGiven => Verdict::Undetermined,
                _ => Verdict::NotAllowed,
            };
            assert_eq!(scene.verdict(), verdict, "{judged:?} {wanted:?}");
        }
    }

    #[test]
    fn tests_that_the_job_demands_and_those_it_was_judged_for() {
        let at = |text: &str| Some(quantity::<crate::quantity::TemperatureKind>(text));
        let (no, yes) = (Some(false), Some(true));
        let impact = |impact, at| demands(impact, at, no);
        let cold = impact(yes, at("-20 °C"));
        // Judged for, wanted, outcome of the impact finding.
        let impacts = [
            (impact(no, None), impact(no, None), Outcome::Inside),
            (impact(no, None), impact(None, None), Outcome::NotGiven),
            (impact(no, None), impact(yes, None), Outcome::Outside),
            (cold, impact(no, None), Outcome::Inside),
            (cold, impact(None, None), Outcome::NotGiven),
            (cold, impact(yes, None), Outcome::NotGiven),
            (cold, impact(yes, at("0 °C")), Outcome::Inside),
            (cold, impact(yes, at("-20 °C")), Outcome::Inside),
            (cold, impact(yes, at("-21 °C")), Outcome::Outside),
            (impact(yes, None), impact(yes, None), Outcome::Inside),
            (impact(yes, None), impact(yes, at("-60 °C")), Outcome::NotGiven),
        ];
        hold(&impacts, false);
        let hard = |hard| demands(no, None, hard);
        let hardness = [
            (hard(no), hard(no), Outcome::Inside),
            (hard(no), hard(None), Outcome::NotGiven),
            (hard(no), hard(yes), Outcome::Outside),
            (hard(yes), hard(None), Outcome::Inside),
        ];
        hold(&hardness, true);
    }

    /// Judged without the fact: a signature vouches for what was not judged, not for tests that nobody named.
    #[test]
    fn what_was_judged_without_saying_for_which_tests_serves_only_jobs_without() {
        let at = |text: &str| Some(quantity::<crate::quantity::TemperatureKind>(text));
        let (no, yes) = (Some(false), Some(true));
        let impacts = [
            (demands(None, None, no), NO_TESTS, Outcome::Inside),
            (demands(None, None, no), demands(None, None, no), Outcome::NotGiven),
            (demands(None, None, no), demands(yes, None, no), Outcome::NotGiven),
            (demands(None, None, no), demands(yes, at("-60 °C"), no), Outcome::NotGiven),
        ];
        hold(&impacts, false);
        let hardness = [
            (demands(no, None, None), NO_TESTS, Outcome::Inside),
            (demands(no, None, None), demands(no, None, None), Outcome::NotGiven),
            (demands(no, None, None), demands(no, None, yes), Outcome::NotGiven),
        ];
        hold(&hardness, true);
        let signed = judged_for(demands(None, None, no), demands(yes, at("-60 °C"), no));
        let signed = signed.with(|scene| {
            if let Support::Judged(judged) = &mut scene.procedure.support {
                judged.rests_on_memory = true;
                judged.signed_by = Some("engineer".to_owned());
            }
        });
        assert_eq!(signed.verdict(), Verdict::Undetermined);
        let found = &signed.of("support")[1];
        assert!(found.reason.contains("without saying whether impact tests"), "{}", found.reason);
        assert!(found.remedy.as_ref().is_some_and(|text| text.contains("demands no such tests")));
    }

    #[test]
    fn what_the_work_order_demands_counts() {
        let scene = judged_for(NO_TESTS, NO_TESTS);
        let scene = scene.with(|scene| {
            let order = scene.work_order.as_mut().unwrap();
            order.demands = demands(Some(true), None, None);
        });
        let expected = [Outcome::Inside, Outcome::Outside, Outcome::Inside];
        assert_eq!(scene.outcomes("support"), expected);
    }
}
