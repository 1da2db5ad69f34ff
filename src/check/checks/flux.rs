//! `flux`: flux of a submerged arc against the procedure.

use crate::{
    check::{
        Case, Findings, Force, Outcome, Shown,
        choice_check::{Rule, Said, Words, texts},
        registry::declare_check,
    },
    qualify::record::Flux,
    trade::Coded,
};

declare_check! {
    /// ## Checks
    /// The flux is the one the procedure fixes for this run: each of designation, maker, trade name, batch, kind
    /// and whether slag is crushed into it again, as far as the procedure states it. Upper and lower case and
    /// the width of gaps do not count. A submerged arc needs a flux; a procedure that states none sets no limit.
    ///
    /// ## Why
    /// The flux shields a submerged arc and alloys its weld metal: with another one strength, toughness and
    /// hydrogen are not those of the test.
    ///
    /// ## Source
    /// The procedure. Rules behind it: ISO 15614-1:2017, 8.5.1 (designation, maker and trade name, level 2; each
    /// batch of recrushed slag apart); ASME IX QW-404.9, QW-404.34 to .36; AWS D1.1:2015, Table 4.5, rows 3 and
    /// 4 (Table 6.5 of 2020; the edition's numbering is from a secondary text).
    ///
    /// ## Not checked
    /// Drying and grain of the flux, height of its layer, flux as a backing.
    "flux", Flux => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some(
        "Another flux gives another weld metal: strength, toughness and hydrogen are not proven.",
    ),
    change: Some("Fill the hopper with the flux of the procedure:"),
    state: Some("State the flux as the procedure does: designation, maker and trade name."),
    record: Some("Record the flux: designation, maker and trade name."),
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let stated = case.setup.filler.flux.as_deref();
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    let given = || stated.map_or(Shown::Nothing, shown);
    match case.run.flux.as_deref().filter(|fixed| **fixed != Flux::default()) {
        Some(fixed) => against(findings, &rule, stated, fixed),
        None if case.procedure.process.is_submerged() => {
            let why = "A submerged arc needs a flux, and none is set";
            rule.of_owner(findings, Outcome::NoLimit, given, why);
        }
        None if stated.is_some() => rule.finding(findings, Outcome::NotApplicable, |owner| Said {
            given: given(),
            ..Said::reason(format!("No flux is set by {owner}, and the process needs none."))
        }),
        None => {}
    }
}

fn against(findings: &mut Findings, rule: &Rule<'_>, stated: Option<&Flux>, fixed: &Flux) {
    let pairs = stated.map_or([Fit::Open; FACTS.len()], |stated| fits(stated, fixed));
    let has = |fit: Fit| pairs.contains(&fit);
    let outcome = match (has(Fit::Differs), has(Fit::Open)) {
        (true, _) => Outcome::Outside,
        (false, true) => Outcome::NotGiven,
        (false, false) => Outcome::Inside,
    };
    rule.finding(findings, outcome, |owner| {
        let given = stated.map_or(Shown::Nothing, shown);
        let allowed = shown(fixed);
        let named = |wanted: Fit| {
            let of = pairs.iter().zip(FACTS).filter(|(fit, _)| **fit == wanted);
            of.map(|(_, name)| name).collect::<Vec<_>>().join(", ")
        };
        let reason = match outcome {
            Outcome::Inside => format!("{given} is the flux of {owner}."),
            Outcome::Outside => {
                let which = named(Fit::Differs);
                format!("{given} differs from {allowed} of {owner} in: {which}.")
            }
            _ if stated.is_none() => {
                format!("The setup does not state the flux; {owner} sets {allowed}.")
            }
            _ => {
                let which = named(Fit::Open);
                format!("The setup does not state of the flux: {which}; {owner} sets {allowed}.")
            }
        };
        Said { given, allowed, reason }
    });
}

/// How one fact of a flux lies to what the procedure says of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Fit {
    /// The same, or the procedure does not say.
    Fits,
    /// The setup does not say.
    Open,
    Differs,
}

/// What of a flux is compared, in the order of [`fits`].
const FACTS: [&str; 6] = ["designation", "maker", "trade name", "batch", "kind", "recrushed slag"];

fn fits(stated: &Flux, fixed: &Flux) -> [Fit; FACTS.len()] {
    fn fit<T>(stated: Option<&T>, fixed: Option<&T>, same: impl Fn(&T, &T) -> bool) -> Fit {
        match (stated, fixed) {
            (_, None) => Fit::Fits,
            (None, Some(_)) => Fit::Open,
            (Some(stated), Some(fixed)) if same(stated, fixed) => Fit::Fits,
            _ => Fit::Differs,
        }
    }
    let text = |stated: &Option<String>, fixed: &Option<String>| {
        fit(stated.as_ref(), fixed.as_ref(), |a, b| reads_alike(a, b))
    };
    [
        text(&stated.designation, &fixed.designation),
        text(&stated.maker, &fixed.maker),
        text(&stated.trade_name, &fixed.trade_name),
        text(&stated.batch, &fixed.batch),
        fit(stated.kind.as_ref(), fixed.kind.as_ref(), PartialEq::eq),
        fit(stated.recrushed_slag.as_ref(), fixed.recrushed_slag.as_ref(), PartialEq::eq),
    ]
}

/// Whether two texts have the same words, whatever their case.
fn reads_alike(one: &str, other: &str) -> bool {
    let words = |text: &'_ str| text.to_lowercase();
    let (one, other) = (words(one), words(other));
    one.split_whitespace().eq(other.split_whitespace())
}

/// What is stated of a flux, in words.
fn shown(flux: &Flux) -> Shown {
    let texts = [&flux.designation, &flux.maker, &flux.trade_name].map(Clone::clone);
    let batch = flux.batch.as_ref().map(|batch| format!("batch {batch}"));
    let kind = flux.kind.map(|kind| kind.code().to_owned());
    let slag = flux.recrushed_slag.map(|is_in| {
        if is_in { "with recrushed slag" } else { "without recrushed slag" }.to_owned()
    });
    Shown::words(texts.into_iter().chain([batch, kind, slag]).flatten())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        check::{Outcome::*, fixture::Scene},
        qualify::record::FluxKind,
        trade::Process,
    };

    fn flux(designation: &str, maker: &str, trade_name: &str) -> Flux {
        let text = |text: &str| (!text.is_empty()).then(|| text.to_owned());
        let (designation, maker) = (text(designation), text(maker));
        Flux { designation, maker, trade_name: text(trade_name), ..Flux::default() }
    }

    fn fixed() -> Flux {
        flux("ISO 14174 S A AB 1 67 AC H5", "Flux maker (invented)", "F-1")
    }

    fn scene(fixed: Option<Flux>, stated: Option<Flux>) -> Scene {
        Scene::allowed().with(|s| {
            s.procedure.process = Process::SubmergedSolidWire;
            s.procedure.runs[0].electrodes = Some(1);
            s.setup.settings.electrodes = Some(1);
            s.procedure.runs[0].flux = fixed.map(Box::new);
            s.setup.filler.flux = stated.map(Box::new);
        })
    }

    fn outcomes(fixed: Option<Flux>, stated: Option<Flux>) -> Vec<Outcome> {
        scene(fixed, stated).outcomes("flux")
    }

    #[test]
    fn what_the_procedure_states_of_it_has_to_be_stated_and_the_same() {
        assert_eq!(outcomes(Some(fixed()), Some(fixed())), [Inside]);
        let typed = flux("iso 14174  s a ab 1 67 ac h5", "FLUX MAKER (Invented) ", "f-1");
        assert_eq!(outcomes(Some(fixed()), Some(typed)), [Inside]);
        let other = Flux { trade_name: Some("F-2".to_owned()), ..fixed() };
        assert_eq!(outcomes(Some(fixed()), Some(other)), [Outside]);
        assert_eq!(outcomes(Some(fixed()), None), [NotGiven]);
        let half = Flux { maker: None, ..fixed() };
        assert_eq!(outcomes(Some(fixed()), Some(half.clone())), [NotGiven]);
        assert_eq!(outcomes(Some(half), Some(fixed())), [Inside]);
        let active = Flux { kind: Some(FluxKind::Active), ..fixed() };
        let neutral = Flux { kind: Some(FluxKind::Neutral), ..fixed() };
        assert_eq!(outcomes(Some(active.clone()), Some(neutral)), [Outside]);
        assert_eq!(outcomes(Some(active), Some(fixed())), [NotGiven]);
    }

    #[test]
    fn a_reason_names_what_differs_and_what_is_missing() {
        let reason = |stated| scene(Some(fixed()), stated).of("flux")[0].reason.clone();
        let other = Flux { trade_name: Some("F-2".to_owned()), ..fixed() };
        assert!(reason(Some(other)).ends_with("in: trade name."));
        let half = Flux { maker: None, trade_name: None, ..fixed() };
        assert!(reason(Some(half)).contains("of the flux: maker, trade name;"));
    }

    #[test]
    fn a_submerged_arc_without_a_flux_on_the_procedure_has_no_limit() {
        assert_eq!(outcomes(None, None), [NoLimit]);
        assert_eq!(outcomes(None, Some(fixed())), [NoLimit]);
        assert_eq!(outcomes(Some(Flux::default()), Some(fixed())), [NoLimit]);
        let gas_shielded = |stated| {
            let scene = scene(None, stated);
            scene.with(|s| s.procedure.process = Process::MagFluxCored).outcomes("flux")
        };
        assert_eq!(gas_shielded(None), []);
        assert_eq!(gas_shielded(Some(fixed())), [NotApplicable]);
    }
}
