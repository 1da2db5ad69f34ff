//! Settings of an answer, held to the check that will judge them.

use std::cell::OnceCell;

use super::in_figures;
use crate::{
    check::{
        Case, Finding, Findings, Force, Outcome, Readings, Settings, Setup, Telling, Verdict,
        output_of,
    },
    quantity::{Share, UnitSystem},
    window::space::replaced,
};

/// Settings with what the check says of them.
#[derive(Debug, Clone, PartialEq)]
pub struct Proposed {
    /// The settings.
    pub settings: Settings,
    /// How often each may drift by its usual drift.
    pub drift: Share,
    /// Verdict of the check on the whole setup with these settings.
    pub verdict: Verdict,
    /// Required limits that it does not meet, of whatever kind: gas, position, a temperature not given.
    pub unmet: Vec<Finding>,
}

/// The settings in the setup of the case, in the figures of an answer in this system, and judged as they stand
/// there.
pub(in crate::window) fn proposed(
    case: &Case<'_>,
    settings: &Settings,
    drift: Share,
    system: UnitSystem,
) -> Proposed {
    let settings = in_figures(settings, system);
    let findings = findings(case, &settings, Telling::WhatNeedsSomething);
    let verdict = findings.verdict(case.rule());
    let met = |finding: &Finding| {
        finding.force == Force::Advised
            || matches!(
                finding.outcome,
                Outcome::Inside | Outcome::EdgeInside | Outcome::NotApplicable
            )
    };
    let unmet = findings.into_told().into_iter().filter(|finding| !met(finding)).collect();
    Proposed { settings, drift, verdict, unmet }
}

/// What a setup states and settings proposed in its place do not, in words: together, the check would find them to
/// disagree. `None` where they take the place of nothing.
pub(in crate::window) fn replacing<'s>(
    stated: &Settings,
    proposed: impl Iterator<Item = &'s Settings>,
) -> Option<String> {
    let mut names: Vec<&str> = Vec::new();
    for name in proposed.flat_map(|proposed| replaced(stated, proposed)) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let (last, others) = names.split_last()?;
    let link = if others.is_empty() { "" } else { " and " };
    let names = format!("{}{link}{last}", others.join(", "));
    Some(format!(
        "The settings proposed take the place of what the setup states as {names}: leave that out where they are sent \
         back with it."
    ))
}

/// What every check says of the case with other settings.
pub(super) fn findings(case: &Case<'_>, settings: &Settings, telling: Telling) -> Findings {
    let setup = Setup { settings: settings.clone(), ..case.setup.clone() };
    let process = Some(setup.process.unwrap_or(case.procedure.process));
    let output = output_of(&setup, Some(case.procedure), case.station);
    let readings = Readings::of(&setup, process, output, case.readings.arcs);
    // What is computed for the setup of the case is not that of these settings.
    let figures = OnceCell::new();
    let other = Case {
        setup: &setup,
        readings: &readings,
        known_figures: &figures,
        tells_assumptions: false,
        ..*case
    };
    Findings::of(&other, telling)
}
