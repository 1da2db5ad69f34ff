//! `preheat-hydrogen`: preheat against what steel, thickness, heat and the hydrogen of the filler ask for.

use crate::{
    check::{
        BaseMetal, Case, FillerHydrogen, Findings, Force, Given, Limit, Mark, Outcome, Owner,
        Shown, Source, Told, Variable,
        range_check::{Stated, Words, against, not_applicable},
        registry::declare_check,
    },
    quantity::{
        Cet, HydrogenContent, Quantity, Range, Rounding, Temperature, TemperatureKind, Thickness,
        UnitSystem,
    },
    trade::{
        MethodB, MethodBConstants, PreheatCategory, PreheatNeed, SteelFamily, category_preheat,
        method_b_preheat,
    },
};

declare_check! {
    /// ## Checks
    /// Where the parts state a carbon equivalent CET: the preheat reaches what EN 1011-2 Method B asks for with
    /// the hydrogen that the filler has at the moment of the setup. Where they state their preheat category of
    /// AWS D1.1: the preheat reaches that table's, by category A once the filler has lost its class. So does a
    /// stated interpass temperature. Advice beside the procedure's own minimum.
    ///
    /// ## Why
    /// A minimum preheat holds for a hydrogen content. A filler that lay in the air needs more of it, or another
    /// filler.
    ///
    /// ## Source
    /// EN 1011-2:2001, C.3 (secondary source), for butt welds with stress at the yield level. AWS D1.1, table of
    /// minimum preheat (5.8 in 2020), read in the edition of 2015.
    ///
    /// ## Not checked
    /// Restraint, and whether the CET or the category stated is that of the steel.
    "preheat-hydrogen", Preheat => check, TEXTS
}

const BY_CET: Words = Words {
    variable: Variable::Preheat,
    below: "With this hydrogen the steel asks for more preheat: cold cracks become more likely, hours after welding.",
    above: "More preheat than the hydrogen asks for.",
    raise: "Preheat, for the hydrogen that the filler now has, to at least",
    lower: "Preheat less, to at most",
    state: "State the preheat that is to stand up to the hydrogen of the filler.",
};

/// The same between runs; only the lower end is held to.
const BY_CET_BETWEEN: Words = Words {
    variable: Variable::Interpass,
    below: "Between runs the joint is colder than its hydrogen asks for: cold cracks become more likely.",
    raise: "Warm the joint between runs, for the hydrogen that the filler now has, to at least",
    ..BY_CET
};

const BY_CATEGORY: Words = Words {
    variable: Variable::Preheat,
    below: "The table of the structural code asks for more preheat with a filler in this condition.",
    above: "More preheat than the table asks for.",
    raise: "Preheat, by the code's table for this filler, to at least",
    lower: "Preheat less than the table's, to at most",
    state: "State the preheat that is to be held to the code's table.",
};

const BY_CATEGORY_BETWEEN: Words = Words {
    variable: Variable::Interpass,
    below: "The table's minimum is one of interpass temperature too, and the joint is colder than that.",
    raise: "Warm the joint between runs, by the code's table for this filler, to at least",
    ..BY_CATEGORY
};

const UNKNOWN: &str =
    "State what the calculation of the preheat lacks, or have the welding coordinator set it.";

const TEXTS: &[&str] = &{
    let (c, t) = (BY_CET.texts(), BY_CATEGORY.texts());
    let (d, u) = (BY_CET_BETWEEN.texts(), BY_CATEGORY_BETWEEN.texts());
    [c[0], c[1], c[2], c[3], c[4], t[0], t[1], t[2], t[3], t[4], d[0], d[2], u[0], u[2], UNKNOWN]
};

/// Where the two methods stand.
const METHOD_B_SOURCE: &str = "EN 1011-2:2001, C.3 (Method B)";
const CATEGORY_SOURCE: &str = "AWS D1.1, minimum preheat by category";

/// The lowest temperature of shop and plate that Method B is for, in °C: a preheat is the temperature of the
/// plate, so that a plate as warm as it needs no torch.
const COLDEST: f64 = 5.0;

fn check(case: &Case<'_>, findings: &mut Findings) {
    let parts = &case.setup.job.base_metals;
    let by_cet = parts.iter().any(|part| part.cet.is_some());
    let by_category = parts.iter().any(|part| part.preheat_category.is_some());
    if !by_cet && !by_category {
        return not_applicable(
            findings,
            &CHECK,
            || "No part states a CET or a preheat category, by which hydrogen would ask for preheat.",
        );
    }
    let hydrogen = case.care.hydrogen(case.consumable);
    // The part that governs may be the one that nobody states.
    let every_part = || match case.setup.job.lacking_part() {
        Some(lacking) => Err(format!("the joint has {lacking}")),
        None => Ok(()),
    };
    if by_cet {
        let minimum = every_part().and_then(|()| method_b(case, hydrogen));
        held_to(case, findings, minimum, (METHOD_B_SOURCE, &BY_CET, &BY_CET_BETWEEN));
    }
    if by_category {
        let minimum = every_part().and_then(|()| category(case, hydrogen));
        held_to(case, findings, minimum, (CATEGORY_SOURCE, &BY_CATEGORY, &BY_CATEGORY_BETWEEN));
    }
}

/// The stated preheat, and a stated interpass temperature, against a minimum, or why there is none.
fn held_to(
    case: &Case<'_>,
    findings: &mut Findings,
    minimum: Result<Temperature, String>,
    (source, words, between): (&'static str, &Words, &Words),
) {
    match minimum {
        Ok(minimum) => {
            let preheat = case.setup.settings.preheat.as_ref();
            let stated: Stated<'_, _> = preheat.into();
            let range = Range::at_least(in_unit_of(minimum, preheat));
            let limit =
                Limit { range: &range, source: Source::Practice(source), force: Force::Advised };
            against(findings, &CHECK, &stated, &limit, words);
            let between_runs = case.lacks(Variable::Interpass).is_none();
            let interpass = case.setup.settings.interpass.as_ref().filter(|_| between_runs);
            if let Some(given) = interpass {
                against(findings, &CHECK, &Stated::Known(given), &limit, between);
            }
        }
        Err(why) => {
            let mark = Mark {
                check: CHECK.code,
                variable: Variable::Preheat,
                outcome: Outcome::NotGiven,
                force: Force::Advised,
                accuracy_unknown: false,
            };
            findings.note(mark, || Told {
                given: Shown::Nothing,
                allowed: Shown::Nothing,
                owner: Owner::practice(source),
                reason: format!("The preheat for the hydrogen of the filler is not known: {why}."),
                remedy: Some(UNKNOWN.to_owned()),
                consequence: None,
            });
        }
    }
}

/// A minimum in the unit that the preheat was typed in, rounded up, so that both compare at sight.
fn in_unit_of(minimum: Temperature, preheat: Option<&Given<TemperatureKind>>) -> Temperature {
    let typed = preheat.and_then(|given| given.span.low().as_entered());
    let unit = typed.map(|typed| typed.unit).filter(|_| minimum.as_entered().is_none());
    let written = unit.map(|unit| {
        let digits = if unit.number(minimum.canonical()) < 100.0 { 2 } else { 3 };
        Quantity::in_figures(minimum.canonical(), unit, digits, Rounding::Up)
    });
    written.and_then(Result::ok).unwrap_or(minimum)
}

/// Minimum preheat by Method B.
fn method_b(case: &Case<'_>, hydrogen: FillerHydrogen) -> Result<Temperature, String> {
    let hydrogen = match hydrogen {
        FillerHydrogen::AtMost(content) => content,
        FillerHydrogen::Lost => {
            return Err(
                "the filler has lost its class, and the method ends at 20 mL/100g".to_owned()
            );
        }
        FillerHydrogen::Unknown => return Err("nobody states how much it is".to_owned()),
    };
    let parts = &case.setup.job.base_metals;
    let heat = case.readings.heat_input.as_ref().map_err(|missing| missing.0.to_owned())?;
    let asked = MethodB {
        metal: SteelFamily::LowAlloyFerritic,
        cet: worst_cet(parts)?,
        thickness: thickest(parts)?,
        hydrogen: at_least_one(hydrogen)?,
        heat_input: heat.given.span.low(),
        composition: None,
        yield_strength: None,
        ambient: Quantity::computed(COLDEST).map_err(text)?,
        constants: MethodBConstants::En1011,
    };
    let answer = method_b_preheat(&asked).map_err(text)?;
    match answer.need {
        PreheatNeed::AtLeast(minimum) => Ok(minimum),
        PreheatNeed::NoneCalculated => Ok(asked.ambient),
    }
}

/// The method begins at 1 mL/100 g; with less it would ask for no more.
fn at_least_one(content: HydrogenContent) -> Result<HydrogenContent, String> {
    Ok(content.max(HydrogenContent::computed(1.0).map_err(text)?))
}

fn worst_cet(parts: &[BaseMetal]) -> Result<Cet, String> {
    for part in parts {
        let group = part.group.ok_or("the group of a part is not stated")?;
        if SteelFamily::of(group) != Some(SteelFamily::LowAlloyFerritic) {
            return Err(format!("the method is not for group {group}"));
        }
    }
    let all: Option<Vec<_>> = parts.iter().map(|part| part.cet).collect();
    let all = all.ok_or("the CET of a part is not stated")?;
    all.into_iter().reduce(Cet::max).ok_or_else(|| "no part is stated".to_owned())
}

fn thickest(parts: &[BaseMetal]) -> Result<Thickness, String> {
    let all: Option<Vec<_>> = parts.iter().map(|part| part.thickness).collect();
    let all = all.ok_or("the thickness of a part is not stated")?;
    all.into_iter().reduce(Thickness::max).ok_or_else(|| "no part is stated".to_owned())
}

/// Minimum preheat by the categories of AWS D1.1, in the columns that the thickness was typed in.
fn category(case: &Case<'_>, hydrogen: FillerHydrogen) -> Result<Temperature, String> {
    let parts = &case.setup.job.base_metals;
    let thickness = thickest(parts)?;
    let categories: Result<Vec<_>, _> =
        parts.iter().map(|part| category_of(part, hydrogen)).collect();
    let typed = thickness.as_entered().and_then(|typed| typed.unit.system);
    let columns = typed.unwrap_or(UnitSystem::Metric);
    let answer = category_preheat(&categories?, thickness, columns).map_err(text)?;
    // Where the table says freezing, colder metal is warmed; a plate above that is warm enough.
    Ok(answer.minimum)
}

/// The category of a part with a filler in this condition.
fn category_of(part: &BaseMetal, hydrogen: FillerHydrogen) -> Result<PreheatCategory, String> {
    let low = part.preheat_category.ok_or("the preheat category of a part is not stated")?;
    match hydrogen {
        FillerHydrogen::Lost if part.in_category_a == Some(true) => Ok(PreheatCategory::A),
        FillerHydrogen::Lost => {
            Err("the filler has lost its class, and the steel is not stated to be in category A"
                .to_owned())
        }
        FillerHydrogen::AtMost(content) => {
            let dry = content.at_most(HydrogenContent::computed(8.0).map_err(text)?);
            match low {
                PreheatCategory::D if !dry => {
                    Err("category D is for H8 or drier, which the filler is not".to_owned())
                }
                low => Ok(low),
            }
        }
        FillerHydrogen::Unknown => Err("nobody states how much it is".to_owned()),
    }
}

fn text(error: impl std::fmt::Display) -> String {
    error.to_string()
}
