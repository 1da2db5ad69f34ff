//! The demo's records as a book in memory, without a database.

use std::sync::Arc;

use arcbounds::{
    check::{Book, Procedures, Setup, record::Procedure},
    checks::SetupIn,
    consumables::ConsumableDocument,
    procedures::{ProcedureDocument, Standing},
    stations::StationDocument,
    wire::{self, Errors, FromWire, Node},
    work_orders::WorkOrderDocument,
};
use serde_json::Value;
use time::macros::date;

/// Lines of the demo.
pub const SCENARIO: &str = include_str!("../../demo/scenario.ndjson");

/// A setup of the demo that is allowed.
pub const SETUP: &str = include_str!("../../demo/setup-allowed.json");

/// The demo's records; every procedure that is released there, in force at once.
pub fn book() -> Book {
    let mut book = Book::default();
    let mut procedures: Vec<Procedure> = Vec::new();
    for line in SCENARIO.lines().filter(|line| line.starts_with('{')) {
        let line: Value = serde_json::from_str(line).unwrap_or_default();
        let body = &line["document"];
        match line["record"].as_str() {
            Some("consumable") => {
                let code = text(&body["code"]);
                let compiled = read::<ConsumableDocument>(body).compile(&code);
                book.consumables.insert_mut(code, Arc::new(compiled));
            }
            Some("station") => {
                let code = text(&body["code"]);
                let compiled = read::<StationDocument>(body).compile(&code);
                book.stations.insert_mut(code, Arc::new(compiled));
            }
            Some("work-order") => {
                let number = text(&body["number"]);
                let compiled = read::<WorkOrderDocument>(body).compile(&number);
                book.work_orders.insert_mut(number, Arc::new(compiled));
            }
            _ if line["release"].is_null() => {}
            _ => {
                let number = text(&body["number"]);
                let earlier = procedures.iter().filter(|known| known.number == number).count();
                let standing = Standing {
                    revision: u32::try_from(earlier + 1).unwrap_or(u32::MAX),
                    effective_from: None,
                    effective_until: None,
                    signed_by: (!line["sign"].is_null()).then(|| "Bench".to_owned()),
                    judged: None,
                };
                procedures.push(read::<ProcedureDocument>(body).compile(&number, standing));
            }
        }
    }
    book.procedures = Procedures::new(procedures.into_iter().map(Arc::new));
    book
}

/// The demo's allowed setup, changed.
#[allow(dead_code, reason = "not every benchmark changes it")]
pub fn setup(change: impl FnOnce(&mut Setup)) -> Setup {
    let mut setup = read_setup(SETUP.as_bytes());
    change(&mut setup);
    setup
}

/// A setup as sent.
pub fn read_setup(body: &[u8]) -> Setup {
    let node = wire::read_text(body).unwrap_or(Node::Null);
    let sent: SetupIn = wire::read_node(&node).unwrap_or_else(|problem| panic!("{problem:?}"));
    let station = Some("ST-1".to_owned());
    let setup = sent.setup((station, None), date!(2026 - 12 - 01), &mut Errors::default());
    *setup.unwrap_or_else(|| panic!("the setup is refused"))
}

fn text(value: &Value) -> String {
    value.as_str().unwrap_or_default().to_owned()
}

fn read<T: FromWire>(body: &Value) -> T {
    wire::read(body).unwrap_or_else(|problem| panic!("the scenario is refused: {problem:?}"))
}
