//! Reads what packs of fixed limits have: tables by a proposed size, spreads, conditions about the proposal.

use std::collections::BTreeMap;

use super::{
    Band, Ends, Given, PackError, Rule, RuleKind, SizeOf, SizeRow, When,
    at::{At, Read},
    file::{BySizeFile, SizeRowFile, SpreadFile},
    read::per_system,
};
use crate::{
    qualify::QualifiedVariable,
    quantity::{UnitSystem, compare},
};

/// Conditions about words of the proposal, each word one that its variable can have.
pub(super) fn given(at: At<'_>, file: &BTreeMap<String, Vec<String>>) -> Read<Vec<Given>> {
    let one = |(name, words): (&String, &Vec<String>)| -> Read<Given> {
        let variable: QualifiedVariable = at.code(name)?;
        let known = variable.closed_words().ok_or_else(|| {
            at.wrong(format!("{variable} has no closed list of words, so it cannot be a condition"))
        })?;
        if let Some(strange) = words.iter().find(|word| !known.contains(word)) {
            let known = known.join(", ");
            return Err(at.wrong(format!("\"{strange}\" is no {variable}; known are {known}")));
        }
        Ok(Given { variable, words: at.not_empty(words.clone())? })
    };
    file.iter().map(one).collect()
}

pub(super) fn by_size(at: At<'_>, file: &BySizeFile, systems: &[UnitSystem]) -> Read<RuleKind> {
    let rows = |rows: &Vec<SizeRowFile>| -> Read<Vec<SizeRow>> {
        let rows = rows.iter().map(|file| row(at, file)).collect::<Read<Vec<_>>>()?;
        without_gap(at, &rows)?;
        at.not_empty(rows)
    };
    Ok(RuleKind::BySize {
        by: at.code::<SizeOf>(&file.by)?,
        rows: per_system(at, systems, file.metric.as_ref(), file.us.as_ref(), rows)?,
    })
}

fn row(at: At<'_>, file: &SizeRowFile) -> Read<SizeRow> {
    let ends = Ends { min: file.min.map(|min| (min, true)), max: file.max };
    if ends.min.is_none() && ends.max.is_none() {
        return Err(at.wrong("a row has min, max or both"));
    }
    Ok(SizeRow {
        band: Band {
            low: at.bound(file.above, file.from)?,
            high: at.bound(file.below, file.up_to)?,
        },
        ends,
        confidence: at.optional(file.confidence.as_ref())?,
    })
}

/// Each row begins where the one before ends: a size between two rows would have no limit.
fn without_gap(at: At<'_>, rows: &[SizeRow]) -> Read<()> {
    let joined = |pair: &[SizeRow]| match (pair[0].band.high, pair[1].band.low) {
        (Some((high, high_in)), Some((low, low_in))) => {
            compare(high, low, 0.0).is_eq() && high_in != low_in
        }
        _ => false,
    };
    if rows.windows(2).all(joined) {
        return Ok(());
    }
    Err(at.wrong("a row does not begin where the one before ends"))
}

/// Shares of one value; 100 % down would let a range begin at nothing.
pub(super) fn spread(at: At<'_>, file: &SpreadFile) -> Read<RuleKind> {
    at.positive(Some(file.minus))?;
    at.positive(Some(file.plus))?;
    if file.minus >= 100.0 {
        return Err(at.wrong(format!("minus is {}; it has to be below 100", file.minus)));
    }
    Ok(RuleKind::Spread { minus: file.minus, plus: file.plus })
}

/// What a rule asks of a record that a pack of fixed limits does not have: without one there is nothing to count
/// from, and no condition about a test can hold.
pub(super) fn without_record(rule: &Rule) -> Option<PackError> {
    let at = At { rule: Some(&rule.id), field: "limit" };
    let is_fixed = matches!(
        rule.kind,
        RuleKind::Fixed(_)
            | RuleKind::BySize { .. }
            | RuleKind::Spread { .. }
            | RuleKind::MemberOf(_)
            | RuleKind::Stated { .. }
    );
    if !is_fixed {
        let kinds = "fixed, by-size, spread, member-of or stated";
        return Some(at.wrong(format!("counts from a record; without one it is {kinds}")));
    }
    let of_proposal = When {
        processes: rule.when.processes.clone(),
        for_welds: rule.when.for_welds.clone(),
        for_products: rule.when.for_products.clone(),
        for_layering: rule.when.for_layering,
        for_positions: rule.when.for_positions.clone(),
        not_for_positions: rule.when.not_for_positions.clone(),
        given: rule.when.given.clone(),
        impact: rule.when.impact,
        impact_below: rule.when.impact_below,
        hardness: rule.when.hardness,
        impact_or_hardness: rule.when.impact_or_hardness,
        ..When::default()
    };
    (rule.when != of_proposal).then(|| {
        at.field("when").wrong(
            "asks for a test piece; without a record conditions are process, those of the job and those of the \
             proposal: for, for-weld, for-product, for-position, for-layering",
        )
    })
}
