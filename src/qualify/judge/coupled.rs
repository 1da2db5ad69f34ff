//! Quantities that hang together: the energy that volts, amperes and travel imply, and limits that stand
//! for each other.

use super::{Finding, Standing, fit};
use crate::{
    qualify::{
        Limit, Proposal, ProposedRun, QualifiedBox, QualifiedVariable,
        facts::{Fact, proposed_run},
        range::{Allowed, Interval, Missing, Whose},
        record::OutputCharacteristic,
    },
    quantity::{Amount, AmountRange, ArcEnergy, ArcEnergyKind, HeatInput, Kind, Share},
    trade::{Waveform, arc_energy_from_averages, heat_input, thermal_efficiency},
};

/// Findings of an energy limit for one kind of run: of the energy as stated, and of what the corners of
/// volts, amperes and travel imply.
///
/// Where an energy range is stated and held, corners outside are said for information: the settings alone
/// do not hold the limit. Where none is stated, the corners decide.
pub(super) fn energy(limit: &Limit, run: &ProposedRun) -> Vec<Finding> {
    let stated = proposed_run(run, limit.variable);
    let Allowed::Interval(interval) = &limit.allowed else {
        let (standing, _) = fit::fit(limit, stated.as_ref());
        return vec![Finding::of(limit, standing, stated.as_ref().map(fit::in_words))];
    };
    let implied = corners(run, interval);
    if let Some(Fact::Range(range)) = &stated {
        let own = fit::within(interval, *range);
        let own = Finding::of(limit, own, Some(range.to_string()));
        let outside = match implied {
            Ok(corners) => (fit::within(interval, corners) == Standing::Outside).then_some(corners),
            Err(_) => None,
        };
        let corner = outside.map(|corners| {
            let mut corner =
                Finding::of(limit, Standing::Informative, Some(words(corners, interval)));
            corner.note = Some(
                "the ranges of volts, amperes and travel speed alone do not hold this limit; hold \
                 the energy as well"
                    .to_owned(),
            );
            corner
        });
        return std::iter::once(own).chain(corner).collect();
    }
    let (standing, given) = match implied {
        Ok(corners) => (fit::within(interval, corners), Some(words(corners, interval))),
        Err(missing) => (Standing::NotJudged(missing), None),
    };
    vec![Finding::of(limit, standing, given)]
}

fn words(corners: AmountRange, interval: &Interval) -> String {
    let end = |amount: Option<Amount>| {
        amount.map_or_else(|| "open".to_owned(), |amount| amount.told(interval.system))
    };
    format!(
        "{} to {} implied by volts, amperes and travel speed",
        end(corners.min),
        end(corners.max)
    )
}

/// Energy at the coldest and the hottest corner, on the basis of the limit. An open end of a range leaves
/// its corner open.
fn corners(run: &ProposedRun, interval: &Interval) -> Result<AmountRange, Missing> {
    let missing = |fact: &str| Missing::new(Whose::Proposal, fact);
    let (Some(volts), Some(amps), Some(speed)) = (run.voltage, run.current, run.travel_speed)
    else {
        return Err(missing("energy per length, or volts, amperes and travel speed"));
    };
    match run.waveform {
        Some(Waveform::NotControlled) => {}
        Some(Waveform::Controlled) => {
            return Err(missing("energy per length; averages do not count with this output"));
        }
        None => return Err(missing("whether the output is waveform-controlled")),
    }
    let energy = |volts, amps, speed| -> Option<ArcEnergy> {
        arc_energy_from_averages(volts?, amps?, speed?, Waveform::NotControlled).ok()
    };
    let low = energy(volts.min(), amps.min(), speed.max());
    let high = energy(volts.max(), amps.max(), speed.min());
    let end = interval.max.or(interval.min);
    let on_arc_energy = end.is_some_and(|end| end.amount.kind() == ArcEnergyKind::INFO);
    if on_arc_energy {
        let amount = |energy: Option<ArcEnergy>| energy.map(ArcEnergy::amount);
        return Ok(AmountRange { min: amount(low), max: amount(high) });
    }
    let efficiency: Option<Share> =
        run.efficiency.or_else(|| thermal_efficiency(run.process).map(|(share, _)| share));
    let k = efficiency.ok_or_else(|| missing("the thermal efficiency factor of the process"))?;
    let amount = |energy: Option<ArcEnergy>| {
        energy.and_then(|energy| heat_input(energy, k).ok()).map(HeatInput::amount)
    };
    Ok(AmountRange { min: amount(low), max: amount(high) })
}

/// Of limits that stand for each other, the first that could be judged decides; the others inform. Where the
/// output is of constant current, the amperage is what is set, and it comes first.
pub(super) fn settle_alternatives(
    own: &QualifiedBox,
    proposal: &Proposal,
    findings: &mut [Finding],
) {
    let by_current = |finding: &Finding| {
        let mut runs = proposal.runs.iter();
        runs.any(|run| {
            Some(run.process) == finding.process
                && run.class == finding.run_class
                && run.characteristic == Some(OutputCharacteristic::ConstantCurrent)
        })
    };
    let group_of = |finding: &Finding| {
        let mut limits = own.all_limits().filter(|limit| limit.rule == finding.rule);
        limits.find_map(|limit| limit.one_of.clone())
    };
    let groups: Vec<_> = findings.iter().map(group_of).collect();
    for index in 0..findings.len() {
        let Some(group) = &groups[index] else { continue };
        let same = |other: usize| {
            groups[other].as_ref() == Some(group)
                && findings[other].process == findings[index].process
                && findings[other].run_class == findings[index].run_class
        };
        let judged = |other: &usize| {
            same(*other)
                && matches!(findings[*other].standing, Standing::Inside | Standing::Outside)
        };
        let is_current = |other: &usize| findings[*other].variable == QualifiedVariable::Current;
        let all = || (0..findings.len()).filter(judged);
        let set = by_current(&findings[index]).then(|| all().find(is_current)).flatten();
        let decided = set.or_else(|| all().next());
        if decided.is_some_and(|decided| decided != index) {
            let by = decided.map(|at| findings[at].variable.to_string()).unwrap_or_default();
            findings[index].standing = Standing::Informative;
            findings[index].note = Some(format!("judged by {by}"));
        }
    }
}
