//! AWS D1.1: the table of categories, and hydrogen control on both of its paths.

use super::{PreheatIn, Shared, Sheet, need, text};
use crate::{
    quantity::UnitSystem,
    trade::{
        CATEGORY_PREHEAT, HYDROGEN_CONTROL, HydrogenControl, HydrogenLevel, OutsideScope,
        SUSCEPTIBILITY_INDEX, SteelFamily, SusceptibilityPath, category_preheat,
        hydrogen_control_preheat, susceptibility_index,
    },
};

/// Minimum preheat by category.
pub(super) fn category(sent: &PreheatIn, sheet: &mut Sheet) {
    let name = "preheat-category";
    let got = need(sent.thickness, "the thickness").and_then(|thickness| {
        if sent.metal.0 != SteelFamily::LowAlloyFerritic {
            return Err(text(OutsideScope(sent.metal.0)));
        }
        let columns = need(sent.columns, "\"columns\" (metric or us)")?;
        category_preheat(&sent.categories, thickness, columns).map_err(text)
    });
    let said = got.as_ref().map(|got| {
        let mut said = vec![format!("category {}", got.category)];
        said.extend(got.if_freezing.map(|heat| {
            format!("where the base metal is colder than the minimum: heat to {heat} and keep it")
        }));
        said
    });
    let said = said.unwrap_or_default();
    let said: Vec<_> = said.iter().map(String::as_str).collect();
    sheet.at_least(name, got.map(|got| got.minimum), &CATEGORY_PREHEAT, &said);
}

/// Minimum preheat by hydrogen control; the two paths to the group can differ.
pub(super) fn hydrogen_control(sent: &PreheatIn, shared: &Shared, sheet: &mut Sheet) {
    let level = need(sent.hydrogen, "the hydrogen")
        .and_then(|hydrogen| hydrogen.level().map_err(|error| error.to_string()));
    let note = level.as_ref().map(|level| level_in_words(*level)).unwrap_or_default();
    let level = level.map(|(level, _)| level);
    let index = level.clone().and_then(|level| {
        let content = level.index_content().map_err(|error| error.to_string())?;
        susceptibility_index(shared.pcm.clone()?, content).map_err(text)
    });
    sheet.one("susceptibility-index", index, &SUSCEPTIBILITY_INDEX, &[&note]);
    let columns = sent.columns.unwrap_or(UnitSystem::Metric);
    let printed = match columns {
        UnitSystem::Metric => "columns in mm and °C",
        UnitSystem::Us => "columns in in and °F",
    };
    for (path, suffix) in [
        (SusceptibilityPath::PrintedTable, "by-table"),
        (SusceptibilityPath::CalculatedIndex, "by-index"),
    ] {
        let name = format!("preheat-hydrogen-control-{suffix}");
        let got = level.clone().and_then(|level| {
            let case = HydrogenControl {
                metal: sent.metal.0,
                pcm: shared.pcm.clone()?,
                level,
                restraint: need(sent.restraint, "the restraint")?,
                thickness: need(sent.thickness, "the thickness")?,
                path,
                columns,
            };
            hydrogen_control_preheat(&case).map_err(text)
        });
        let mut said = vec![note.clone(), printed.to_owned()];
        if let Ok(got) = &got {
            said.push(format!("group {} by {path}", got.group));
            if got.less_may_do {
                said.push("the table prints \"below\" this temperature".to_owned());
            }
        }
        let said: Vec<_> = said.iter().map(String::as_str).collect();
        sheet.at_least(&name, got.map(|got| got.minimum), &HYDROGEN_CONTROL, &said);
    }
}

fn level_in_words((level, better): (HydrogenLevel, Option<HydrogenLevel>)) -> String {
    let just = better.map_or_else(String::new, |better| {
        format!("; the class allows just what level {better} has to stay below")
    });
    format!("hydrogen level {level}{just}")
}
