//! Consumables, their data where the procedure calls it up, and gas.

use super::{
    gather::Gathered,
    say::{self, Part, Say},
};
use crate::{
    check::NUMERIC,
    consumables::{CareDocument, ConditionDocument, ConsumableDocument, DataEditionDocument},
    procedures::ProcedureDocument,
    quantity::Diameter,
    records::Stored,
    sheet::{Section, Table},
    trade::Designation,
};

/// Consumables and how they are kept.
pub(super) fn section(gathered: &Gathered, say: &Say) -> Section {
    let document = &gathered.document;
    let mut part = Part::new("Welding consumables", Some("ISO 15609-1:2019, 4.4.8"));
    let mut table =
        Table::new(&[("Consumable", 18), ("Classification", 37), ("Maker and name", 45)]);
    for named in &gathered.consumables {
        match &named.stored {
            Some((stored, own)) => {
                let designations = own.designations.iter().map(Designation::text);
                let designations = say::listed(designations.map(ToString::to_string));
                let maker = [Some(own.name.clone()), own.trade_name.clone(), own.maker.clone()];
                table.row(&[
                    &format!("{} revision {}", named.code, stored.revision),
                    &designations.unwrap_or_else(|| "not stated".to_owned()),
                    &say::listed(maker.into_iter().flatten()).unwrap_or_default(),
                ]);
            }
            None => table.row(&[&named.code, "no such record", ""]),
        }
    }
    part.fact("Diameters", say.values(&document.diameters));
    part.fact("Polarity", say::all(&document.polarities));
    part.fact("Output", document.waveform.map(|own| format!("waveform {}", say::words(own))));
    part.also("Worst hydrogen class as used", document.hydrogen.map(say::words));
    part.fact("Handling", document.consumable_handling.clone());
    for named in &gathered.consumables {
        if let Some(care) = named.stored.as_ref().and_then(|(_, own)| own.care.as_ref()) {
            part.also(&format!("Care of {}", named.code), Some(care_words(care, say)));
        }
    }
    let data = if document.calls_up_data == Some(true) {
        "required: its limits stand below"
    } else {
        "advice, not a limit of this procedure"
    };
    part.also("Printed data of the consumables", Some(data.to_owned()));
    part.not_stated();
    part.section().table(table);
    part.end()
}

/// How a consumable is kept dry, one rule a line.
fn care_words(care: &CareDocument, say: &Say) -> String {
    let mut lines = Vec::new();
    if let Some(baking) = &care.baking {
        let first = if care.bake_before_first_use == Some(true) {
            ", and before the first use"
        } else {
            ""
        };
        lines.push(format!(
            "baked at {} for {}, no more often than {}{first}",
            say.range(&baking.temperature),
            say.range(&baking.time),
            if baking.times == 1 { "once".to_owned() } else { format!("{} times", baking.times) },
        ));
    }
    if let Some(holding) = &care.holding {
        let after = care.holding_restores_after.map(|time| say.value(time));
        let after = after.map(|time| format!(", as fresh after {time}")).unwrap_or_default();
        lines.push(format!("held in the oven at {}{after}", say.range(holding)));
    }
    for limit in &care.exposure {
        let air = limit.highest_humidity.map(|share| format!(", up to {share} humidity"));
        let class = limit.hydrogen.map(|class| format!(", then {}", say::words(class)));
        lines.push(format!(
            "in the air {}{}{}",
            say.at_most(limit.longest),
            air.unwrap_or_default(),
            class.unwrap_or_default(),
        ));
    }
    lines.push(format!("by {}", care.source));
    lines.join("\n")
}

/// The limits that printed data sets, where the procedure calls it up.
pub(super) fn called_up(gathered: &Gathered, say: &Say) -> Vec<Section> {
    if gathered.document.calls_up_data != Some(true) {
        return Vec::new();
    }
    let known = gathered.consumables.iter().filter_map(|named| named.stored.as_ref());
    known.filter_map(|(stored, own)| data(&gathered.document, stored, own, say)).collect()
}

/// The newest data edition of one consumable, as far as it speaks of what the procedure allows.
fn data(
    document: &ProcedureDocument,
    stored: &Stored,
    own: &ConsumableDocument,
    say: &Say,
) -> Option<Section> {
    let newest = own.data.last()?;
    let owner = owner(stored, newest);
    let title = format!("Data of {} that this procedure calls up", stored.code);
    let mut section = Section::new(&title, None);
    for condition in newest.conditions.iter().filter(|one| speaks_of(document, one)) {
        let ranges =
            condition.limits.as_ref().map(crate::wire::Limits::compile).unwrap_or_default();
        let mut table = Limits::new("Variable");
        for variable in NUMERIC {
            if let Some(range) = ranges.amounts(*variable) {
                table.row(&say::variable(*variable), say.allowed(&range), &owner);
            }
        }
        section.words(&condition_words(condition, say));
        section.table(table.end());
    }
    if section.is_empty() {
        section.words("Its newest data says nothing of what this procedure allows.");
    }
    Some(section)
}

fn owner(stored: &Stored, edition: &DataEditionDocument) -> String {
    let (code, revision) = (&stored.code, stored.revision);
    format!("{code} revision {revision}: {}, {}", edition.document, edition.edition)
}

fn speaks_of(document: &ProcedureDocument, condition: &ConditionDocument) -> bool {
    let among = |diameter: Diameter| document.diameters.contains(&diameter);
    let gases = document.gas.as_ref().map(|gas| &gas.groups).filter(|groups| !groups.is_empty());
    (document.diameters.is_empty() || among(condition.diameter))
        && (document.polarities.is_empty() || document.polarities.contains(&condition.polarity))
        && gases.is_none_or(|groups| condition.gas.is_none_or(|gas| groups.contains(&gas)))
}

fn condition_words(condition: &ConditionDocument, say: &Say) -> String {
    let gas = condition.gas.map(say::words);
    let own = [Some(say.value(condition.diameter)), gas, Some(say::words(condition.polarity))];
    let positions = say::all(condition.positions.as_deref().unwrap_or_default());
    own.into_iter().flatten().chain(positions).collect::<Vec<_>>().join(", ")
}

/// Shielding gas; flows and what is behind the root belong to the runs.
pub(super) fn gas(document: &ProcedureDocument) -> Section {
    let mut part = Part::new("Shielding gas (ISO 14175)", None);
    let Some(gas) = &document.gas else {
        if document.process.gas_shielded() {
            part.fact("Gas", None);
        }
        return part.end();
    };
    part.also("Groups", say::all(&gas.groups));
    part.also("Mixture", gas.mixture.map(say::mixture));
    part.end()
}

/// A table of limits; what was written in other units has a column of its own where there is such a limit.
pub(super) struct Limits {
    name: &'static str,
    rows: Vec<(String, say::Said, String)>,
}

impl Limits {
    pub(super) const fn new(name: &'static str) -> Self {
        Self { name, rows: Vec::new() }
    }

    pub(super) fn row(&mut self, name: &str, said: say::Said, owner: &str) {
        self.rows.push((name.to_owned(), said, owner.to_owned()));
    }

    pub(super) fn end(self) -> Table {
        let converted = self.rows.iter().any(|(_, said, _)| said.written.is_some());
        let mut columns = vec![(self.name, 30), ("Allowed", 25)];
        if converted {
            columns.push(("Written as", 22));
        }
        columns.push(("Set by", 30));
        let mut table = Table::new(&columns);
        for (name, said, owner) in &self.rows {
            let written = said.written.as_deref().unwrap_or(&said.printed);
            if converted {
                table.row(&[name, &said.printed, written, owner]);
            } else {
                table.row(&[name, &said.printed, owner]);
            }
        }
        table
    }
}
