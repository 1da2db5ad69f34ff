//! `station`: whether the station named is one the organisation has.

use crate::check::{
    Authority, Case, Findings, Force, Outcome, Shown, Source,
    choice_check::{Rule, Said, Words, texts},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// A station that the setup names is on record, so that its ratings can limit the setup.
    ///
    /// ## Why
    /// With a station nobody knows, every limit of source, feeder and gun would silently fall away.
    ///
    /// ## Source
    /// The organisation's stations.
    ///
    /// ## Not checked
    /// The ratings themselves, which other checks read; a setup that names no station.
    "station", Station => check, texts!(WORDS)
}

const WORDS: Words =
    Words { state: Some("Name a station that this organisation has."), ..Words::NONE };

fn check(case: &Case<'_>, findings: &mut Findings) {
    let rule = |source| Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    match (&case.setup.station, case.station) {
        (None, _) => rule(Source::Service).finding(findings, Outcome::NotApplicable, |_| {
            Said::reason("The setup names no station.")
        }),
        (Some(code), Some(station)) => {
            let rule = rule(Authority::Station(station).into());
            rule.finding(findings, Outcome::Inside, |_| Said {
                given: Shown::word(code),
                ..Said::reason(format!("Station {code} is on record."))
            });
        }
        (Some(code), None) => {
            rule(Source::Service).finding(findings, Outcome::NotGiven, |_| Said {
                given: Shown::word(code),
                ..Said::reason(format!("This organisation has no station {code}."))
            });
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::check::{Outcome, Outcome::*, fixture::Scene};

    fn outcomes(change: impl FnOnce(&mut Scene)) -> Vec<Outcome> {
        Scene::allowed().with(change).outcomes("station")
    }

    #[test]
    fn a_station_nobody_knows_decides_nothing() {
        assert_eq!(outcomes(|_| ()), [Inside]);
        assert_eq!(outcomes(|s| s.station = None), [NotGiven]);
        assert_eq!(outcomes(|s| s.setup.station = None), [NotApplicable]);
    }
}
