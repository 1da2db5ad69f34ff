//! `POST /v1/calculations/cable-drop`

use super::{Sheet, endpoint::calculation};
use crate::{
    quantity::{Area, CableLength, Current, Voltage},
    trade::{CABLE_DROP, Lead, arc_voltage_behind_leads},
    wire::wire_object,
};

wire_object! {
    /// One lead, one way: torch lead and return lead are two.
    pub struct LeadIn {
        /// Length.
        pub length: CableLength,
        /// Cross-section of the copper.
        pub section: Area,
    }
}

wire_object! {
    /// A voltage read at the power source, and the leads behind it.
    pub struct CableDropIn {
        /// Voltage read at the power source.
        pub voltage: Voltage,
        /// Welding current.
        pub current: Current,
        /// All leads the current flows through, there and back.
        pub leads: Vec<LeadIn>,
    }
}

calculation! {
    /// Voltage lost in the welding leads, and what is left at the arc.
    "/v1/calculations/cable-drop", calculate_cable_drop(CableDropIn) => fill,
    summary: "Voltage lost in the leads",
    example: {
        "voltage": "30 V", "current": "250 A",
        "leads": [
            { "length": "25 m", "section": "70 mm2" }, { "length": "25 m", "section": "70 mm2" }
        ]
    }
}

fn fill(sent: &CableDropIn, sheet: &mut Sheet) {
    let lead = |lead: &LeadIn| Lead { length: lead.length, section: lead.section };
    let leads: Vec<_> = sent.leads.iter().map(lead).collect();
    let counted = match leads.len() {
        1 => "one lead is counted; torch lead and return lead are two".to_owned(),
        count => format!("{count} leads are counted"),
    };
    let got = arc_voltage_behind_leads(sent.voltage, sent.current, &leads);
    let drop = got.clone().map(|got| got.drop);
    sheet.one("voltage-lost", drop, &CABLE_DROP, &[&counted]);
    sheet.one("arc-voltage", got.map(|got| got.arc_voltage), &CABLE_DROP, &[&counted]);
}
