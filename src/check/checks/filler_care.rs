//! `filler-care`: whether the filler was kept as dry as its class needs.

use time::{OffsetDateTime, format_description::well_known::Rfc3339};

use crate::{
    check::{
        CareGap, CareSeen, Case, Findings, Force, Mark, Outcome, Owner, Shown, Source, Told,
        record::{Batch, Consumable, Portion},
        registry::declare_check,
    },
    quantity::{Duration, HydrogenContent},
    trade::{CareFitness, CareLoss, CareRules, CareState, Designation, FillerKind, d11_care},
};

declare_check! {
    /// ## Checks
    /// The batch and portion that the setup names were opened, baked, held and exposed within what the data of
    /// the consumable allows, up to the moment of the setup; and the hydrogen class that is left is the one the
    /// procedure asks for, where it asks for one. A batch has to be named where the procedure states a hydrogen
    /// class or the consumable has care rules. Under AWS D1.1 the electrode is held to that code's own table
    /// too, as advice.
    ///
    /// ## Why
    /// A covering or core that took up moisture brings hydrogen into the weld, whatever its designation says:
    /// the class holds for the packed or dried condition only.
    ///
    /// ## Source
    /// The data of the consumable, as recorded with its own source. AWS D1.1/D1.1M:2020, 7.3.2 and Table 7.1,
    /// from memory. How stays in the air add up is an own reading on the safe side.
    ///
    /// ## Not checked
    /// Whether what was noted of oven and air is true, and whether the electrode comes from that portion.
    "filler-care", Batch => check, TEXTS
}

const DAMP: &str =
    "A damp filler brings hydrogen: porosity at the start, and cracks that may open hours later.";
const BAKE: &str = "Bake the portion as its data says, or take a fresh one";
const SCRAP: &str = "Scrap the portion and take a fresh one; its data allows no further bake.";
const WAIT: &str = "Wait for the end of the bake, or take a portion that is ready.";
const DRIER: &str =
    "Take a portion that still has the class asked for, or bake this one if its data allows it.";
const NAME: &str = "Name the batch and the portion that the filler is taken from.";
const NOTE: &str = "Note what was done with the portion: opened, baked, into the oven, out of it.";
const STATE: &str = "State the moment the setup is for, beside or in place of the day.";
const RULES: &str =
    "Record in the consumable how long it may lie in the air, and how it is baked and held.";
const HUMID: &str = "Note the humidity of the air that the portion lay in, or take a fresh one.";
const FILLER: &str = "Name the consumable beside its batch.";
const OTHER: &str = "Name a batch of the consumable that is used.";
const CLASS: &str =
    "Record the hydrogen class of the consumable, or the hydrogen on the batch's certificate.";
const BY_CODE: &str =
    "Keep the electrode within the code's own table, or agree on another time by test";

const TEXTS: &[&str] = &[
    DAMP, BAKE, SCRAP, WAIT, DRIER, NAME, NOTE, STATE, RULES, HUMID, FILLER, OTHER, CLASS, BY_CODE,
];

fn check(case: &Case<'_>, findings: &mut Findings) {
    let wanted = case.procedure.hydrogen.and_then(|class| class.ceiling().ok());
    let has_rules = case.consumable.is_some_and(|consumable| consumable.care.is_some());
    let needed = wanted.is_some() || has_rules;
    let required = |outcome| (outcome, Force::Required);
    match case.care {
        CareSeen::NoBatch if needed => note(case, findings, required(Outcome::NotGiven), || {
            (
                "The setup names no batch, and nobody can tell how dry the filler is.".to_owned(),
                NAME,
            )
        }),
        CareSeen::NoBatch if has_low_hydrogen_covering(case.consumable) => {
            note(case, findings, (Outcome::NotGiven, Force::Advised), || {
                ("The electrode is low-hydrogen, and the setup names no batch.".to_owned(), NAME)
            });
        }
        CareSeen::NoBatch => note(case, findings, required(Outcome::NotApplicable), || {
            ("Neither the procedure nor the data of the filler asks how dry it is.".to_owned(), "")
        }),
        CareSeen::Unknown(code) => note(case, findings, required(Outcome::NotGiven), || {
            (format!("This organisation has no batch {code}."), NAME)
        }),
        CareSeen::OfAnother(batch) => note(case, findings, required(Outcome::Outside), || {
            let (code, of) = (&batch.code, &batch.consumable);
            (format!("Batch {code} is of consumable {of}, not of the one the setup names."), OTHER)
        }),
        CareSeen::Unjudged(batch, gap) => unjudged(case, findings, (batch, *gap), wanted),
        CareSeen::Judged { batch, portion, state } => {
            judged(case, findings, (batch, portion), state, wanted);
        }
    }
}

/// A filler that the trade keeps dry without being told: a covered electrode whose designation limits hydrogen.
fn has_low_hydrogen_covering(consumable: Option<&Consumable>) -> bool {
    consumable.is_some_and(|consumable| {
        consumable.kind == FillerKind::CoveredElectrode
            && consumable.designations.iter().any(|one| one.hydrogen().is_some())
    })
}

/// One finding; reason and remedy are made where they are read.
fn note(
    case: &Case<'_>,
    findings: &mut Findings,
    (outcome, force): (Outcome, Force),
    words: impl FnOnce() -> (String, &'static str),
) {
    let mark = Mark {
        check: CHECK.code,
        variable: CHECK.variable,
        outcome,
        force,
        accuracy_unknown: false,
    };
    findings.note(mark, || {
        let (reason, remedy) = words();
        Told {
            given: given(case),
            allowed: Shown::Nothing,
            owner: owner(case),
            reason,
            remedy: (!remedy.is_empty()).then(|| sentence_end(remedy)),
            consequence: (outcome == Outcome::Outside).then_some(DAMP),
        }
    });
}

fn sentence_end(text: &str) -> String {
    if text.ends_with('.') { text.to_owned() } else { format!("{text}.") }
}

/// Batch and portion as the setup names them.
fn given(case: &Case<'_>) -> Shown {
    let filler = &case.setup.filler;
    match filler.batch.iter().chain(&filler.portion).collect::<Vec<_>>() {
        codes if codes.is_empty() => Shown::Nothing,
        codes => Shown::words(codes),
    }
}

/// The data of the consumable asks for care; else the procedure does.
fn owner(case: &Case<'_>) -> Owner {
    match case.consumable {
        Some(consumable) if consumable.care.is_some() => Source::Maker(consumable).owner(),
        _ if case.procedure.hydrogen.is_some() => case.procedure_source().owner(),
        _ => Owner::SERVICE,
    }
}

fn unjudged(
    case: &Case<'_>,
    findings: &mut Findings,
    (batch, gap): (&Batch, CareGap),
    wanted: Option<HydrogenContent>,
) {
    let advice_only = gap == CareGap::NoRules && wanted.is_none();
    let force = if advice_only { Force::Advised } else { Force::Required };
    note(case, findings, (Outcome::NotGiven, force), || {
        let code = &batch.code;
        match gap {
            CareGap::NoConsumable => {
                (format!("Batch {code} is named, and not what consumable is welded with."), FILLER)
            }
            CareGap::NoRules => {
                (format!("The consumable of batch {code} has no care rules on record."), RULES)
            }
            CareGap::NoMoment => (
                format!(
                    "The setup is for a day, and how long batch {code} lies in the air by then is open."
                ),
                STATE,
            ),
            CareGap::NotOpened => {
                (format!("Nobody noted that a packet of batch {code} was opened by then."), NOTE)
            }
            CareGap::WhichPortion => (
                format!("Several portions of batch {code} are open, and the setup names none."),
                NAME,
            ),
            CareGap::UnknownPortion => {
                (format!("Nothing is noted of that portion of batch {code}."), NOTE)
            }
        }
    });
}

fn judged(
    case: &Case<'_>,
    findings: &mut Findings,
    (batch, portion): (&Batch, &Portion),
    state: &CareState,
    wanted: Option<HydrogenContent>,
) {
    let outcome = match (state.fitness, wanted, state.hydrogen) {
        (CareFitness::Bake(_) | CareFitness::Scrap(_), ..) => Outcome::Outside,
        (CareFitness::HumidityUnknown, ..) | (CareFitness::Usable, Some(_), None) => {
            Outcome::NotGiven
        }
        (CareFitness::Usable, Some(wanted), Some(has)) if !has.at_most(wanted) => Outcome::Outside,
        (CareFitness::Usable, ..) => Outcome::Inside,
    };
    note(case, findings, (outcome, Force::Required), || {
        let which = format!("Portion {} of batch {}", portion.code, batch.code);
        (told(&which, state, (outcome, wanted)), remedy(state, outcome))
    });
    by_code(case, findings, (batch, portion));
}

/// What is the matter with a portion, or until when nothing is; and what to do about it.
#[must_use]
pub fn care_words(batch: &Batch, portion: &Portion, state: &CareState) -> (String, Option<String>) {
    let which = format!("Portion {} of batch {}", portion.code, batch.code);
    let outcome = match state.fitness {
        CareFitness::Usable => Outcome::Inside,
        CareFitness::HumidityUnknown => Outcome::NotGiven,
        CareFitness::Bake(_) | CareFitness::Scrap(_) => Outcome::Outside,
    };
    let remedy = remedy(state, outcome);
    (told(&which, state, (outcome, None)), (!remedy.is_empty()).then(|| sentence_end(remedy)))
}

/// What is the matter, or until when nothing is.
fn told(
    which: &str,
    state: &CareState,
    (outcome, wanted): (Outcome, Option<HydrogenContent>),
) -> String {
    let air = hours(state.exposed);
    match state.fitness {
        CareFitness::Bake(loss) | CareFitness::Scrap(loss) => {
            format!("{which} lost its hydrogen class: {}.", lost(loss, &air))
        }
        CareFitness::HumidityUnknown => format!(
            "{which} lay in the air for {air}; its data holds for air of a stated humidity, and nobody noted it."
        ),
        CareFitness::Usable => {
            let has = match state.hydrogen {
                Some(content) => format!("has at most {content}"),
                None => "has no hydrogen class on record".to_owned(),
            };
            let against = match (outcome, wanted) {
                (Outcome::Inside, _) | (_, None) => String::new(),
                (_, Some(wanted)) => format!(", and the procedure asks for at most {wanted}"),
            };
            let until = match state.usable_until {
                Some(until) if outcome == Outcome::Inside => {
                    format!("; it may be used until {}", moment(until))
                }
                _ => String::new(),
            };
            format!("{which} lay in the air for {air} and {has}{against}{until}.")
        }
    }
}

fn lost(loss: CareLoss, air: &str) -> String {
    match loss {
        CareLoss::NeverBaked => "it has to be baked before the first use, and was not".to_owned(),
        CareLoss::ExposedTooLong => {
            format!("it lay in the air for {air}, longer than its data allows")
        }
        CareLoss::BeingBaked => "it is being baked".to_owned(),
        CareLoss::BakedTooOften => "it was baked more often than its data allows".to_owned(),
        CareLoss::BakedTooHot => "it was baked hotter than its data allows".to_owned(),
        CareLoss::BakedTooLong => "it was baked for longer than its data allows".to_owned(),
        CareLoss::BakedAtAll => "it was baked, and its data allows no baking".to_owned(),
        CareLoss::Scrapped => "it was scrapped".to_owned(),
    }
}

const fn remedy(state: &CareState, outcome: Outcome) -> &'static str {
    match (state.fitness, outcome) {
        (CareFitness::Bake(CareLoss::BeingBaked), _) => WAIT,
        (CareFitness::Bake(_), _) => BAKE,
        (CareFitness::Scrap(_), _) => SCRAP,
        (CareFitness::HumidityUnknown, _) => HUMID,
        (CareFitness::Usable, Outcome::Outside) => DRIER,
        (CareFitness::Usable, Outcome::NotGiven) => CLASS,
        (CareFitness::Usable, _) => "",
    }
}

/// What the structural code's own table says, where that code governs: advice, for its figures are from memory.
fn by_code(case: &Case<'_>, findings: &mut Findings, (batch, portion): (&Batch, &Portion)) {
    let governs = case.code().is_some_and(|code| code.name == "AWS D1.1");
    let (true, Some(at)) = (governs, case.setup.at) else { return };
    let Some((rules, designation)) = code_rules(case) else { return };
    let state = batch.state(&rules, designation.hydrogen(), &portion.steps, at);
    let held = state.fitness == CareFitness::Usable;
    let mark = Mark {
        check: CHECK.code,
        variable: CHECK.variable,
        outcome: if held { Outcome::Inside } else { Outcome::Outside },
        force: Force::Advised,
        accuracy_unknown: false,
    };
    findings.note(mark, || {
        let which = format!("Portion {} of batch {}", portion.code, batch.code);
        let allowed = rules.exposure.first().map(|limit| hours(limit.longest)).unwrap_or_default();
        let verb = if held { "keeps within" } else { "does not keep within" };
        Told {
            given: given(case),
            allowed: Shown::word(&allowed),
            owner: Owner::practice(rules.source.clone()),
            reason: format!(
                "{which} {verb} what the code's table allows for {}: {allowed} in the air, one bake.",
                designation.text()
            ),
            remedy: (!held).then(|| sentence_end(BY_CODE)),
            consequence: (!held).then_some(DAMP),
        }
    });
}

/// The strictest of what the code says of the consumable's designations.
fn code_rules<'a>(case: &Case<'a>) -> Option<(CareRules, &'a Designation)> {
    let longest = |(rules, _): &(CareRules, _)| {
        rules.exposure.first().map_or(0.0, |limit| limit.longest.seconds())
    };
    let all = case.designations().filter_map(|one| Some((d11_care(one)?, one)));
    all.min_by(|a, b| longest(a).total_cmp(&longest(b)))
}

/// A time in words: `42 min`, `4.25 h`.
fn hours(time: Duration) -> String {
    let seconds = time.seconds();
    if seconds < 3600.0 {
        return format!("{:.0} min", seconds / 60.0);
    }
    let text = format!("{:.2}", seconds / 3600.0);
    format!("{} h", text.trim_end_matches('0').trim_end_matches('.'))
}

fn moment(at: OffsetDateTime) -> String {
    let whole = at.replace_nanosecond(0).unwrap_or(at);
    whole.format(&Rfc3339).unwrap_or_default()
}
