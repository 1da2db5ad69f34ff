//! `station`: whether the station named is one the organisation has.

use crate::check::{
    Authority, Case, Finding, Force, Outcome, Owner, Shown,
    choice_check::{Rule, Words, texts},
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

fn check(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let rule = |owner| Rule { check: &CHECK, owner, force: Force::Required, words: &WORDS };
    findings.push(match (&case.setup.station, case.station) {
        (None, _) => {
            let reason = "The setup names no station.";
            rule(Owner::Service).finding(
                Outcome::NotApplicable,
                Shown::Nothing,
                Shown::Nothing,
                reason,
            )
        }
        (Some(code), Some(station)) => {
            let reason = format!("Station {code} is on record.");
            let given = Shown::word(code);
            rule(Authority::Station(station).owner()).finding(
                Outcome::Inside,
                given,
                Shown::Nothing,
                reason,
            )
        }
        (Some(code), None) => {
            let reason = format!("This organisation has no station {code}.");
            let given = Shown::word(code);
            rule(Owner::Service).finding(Outcome::NotGiven, given, Shown::Nothing, reason)
        }
    });
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
