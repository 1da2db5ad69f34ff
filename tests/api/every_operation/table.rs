//! How each operation is asked: well, badly, for nothing, by the wrong person and by a stranger.

use arcbounds::access::Role::{self, Admin, Approver, Author, Integrator, Reader, Station};
use serde_json::{Value, json};

use crate::support::documents as doc;

/// A case that is sent, or the reason why the operation cannot have it.
pub enum Case<T> {
    Sent(T),
    None(&'static str),
}

/// Input that is refused.
pub enum Bad {
    /// This member of the body, with this value; the answer points at it.
    Field(&'static str, Value),
    /// This query; the answer names this parameter.
    Query(&'static str, &'static str),
    /// A retry key that is none.
    RetryKey,
}

/// A record that does not exist.
pub enum Missing {
    /// In the path.
    Path,
    /// At this place of the body.
    Field(&'static str, Value),
}

/// What a key of another organisation meets.
pub enum Stranger {
    /// The record in the path does not exist for it.
    NotFound,
    /// The records that the body names do not exist for it; the answer points at them.
    Fields(&'static [&'static str]),
    /// It is answered, from its own organisation only.
    Apart,
}

/// One operation.
pub struct Row {
    pub operation: &'static str,
    /// Roles that may; all others are refused.
    pub by: &'static [Role],
    /// The record in the path; `{name}` stands for an id that the preparation made.
    pub named: Option<&'static str>,
    pub body: Option<Value>,
    /// A file in place of a body.
    pub file: Option<(&'static str, &'static [u8])>,
    /// What the query has to say.
    pub query: Option<&'static str>,
    pub status: u16,
    pub bad: Case<Bad>,
    pub missing: Case<Missing>,
    pub stranger: Case<Stranger>,
}

/// Any key will do, so no role is wrong.
pub const ANY: &[Role] = &[Reader, Station, Integrator, Author, Approver, Admin];

/// No key is asked for: a load balancer has none.
pub const OPEN: &[Role] = &[];

/// Number of a procedure in draft.
pub const DRAFT: &str = "WPS-2";

/// Number of a procedure in review.
pub const IN_REVIEW: &str = "WPS-3";
/// A released procedure with a newer draft; made for the operations that name it.
pub const REVISED: &str = "WPS-5";

/// Key of a rule pack of the organisation.
pub const OWN_PACK: &str = "own-1";

/// A rule pack of the organisation with one rule.
pub fn own_pack(key: &str) -> Value {
    let text = format!(
        "key = \"{key}\"\ntitle = \"Contract\"\ncode = \"Contract\"\nedition = \"1\"\nsystems = [\"metric\"]\n\
         processes = [\"136\"]\nsources = [\"the contract\"]\n[[rule]]\nid = \"process\"\nclause = \"1\"\n\
         variable = \"process\"\nconfidence = \"text-read\"\nper = \"test-piece\"\nlimit = \"same\"\n"
    );
    json!({ "code": key, "text": text })
}

/// A line of a stream of checks.
const LINE: &[u8] =
    br#"{ "id": "1", "setup": { "process": "136", "settings": { "current": "240 A" } } }"#;

/// Number of a qualification record in draft.
pub const UNSIGNED: &str = "PQR-2";

const NO_INPUT: Case<Bad> = Case::None("nothing but the path is read");
const NOTHING_NAMED: Case<Missing> = Case::None("the path names no record");

impl Row {
    /// A question any key may ask about everything.
    fn list(operation: &'static str) -> Self {
        Self {
            operation,
            by: ANY,
            named: None,
            body: None,
            file: None,
            query: None,
            status: 200,
            bad: Case::Sent(Bad::Query("limit=0", "?limit")),
            missing: NOTHING_NAMED,
            stranger: Case::Sent(Stranger::Apart),
        }
    }

    /// A question any key may ask about one record.
    fn read(operation: &'static str, named: &'static str) -> Self {
        Self {
            named: Some(named),
            bad: Case::Sent(Bad::Query("revision=one", "?revision")),
            missing: Case::Sent(Missing::Path),
            stranger: Case::Sent(Stranger::NotFound),
            ..Self::list(operation)
        }
    }

    /// A new record.
    fn create(operation: &'static str, body: Value, bad: Bad) -> Self {
        let by: &[_] = &[Author];
        Self { by, body: Some(body), status: 201, bad: Case::Sent(bad), ..Self::list(operation) }
    }

    /// The next revision of a record.
    fn revise(operation: &'static str, named: &'static str, body: Value, bad: Bad) -> Self {
        Self {
            by: &[Author],
            body: Some(body),
            bad: Case::Sent(bad),
            ..Self::read(operation, named)
        }
    }

    /// A step in the life of a record.
    fn step(operation: &'static str, named: &'static str, by: &'static [Role]) -> Self {
        Self { by, bad: Case::Sent(Bad::RetryKey), ..Self::read(operation, named) }
    }

    /// Takes a record out of use.
    fn withdraw(operation: &'static str, named: &'static str, by: &'static [Role]) -> Self {
        Self {
            body: Some(json!({ "reason": "No longer used" })),
            bad: Case::Sent(Bad::Field("/reason", json!(7))),
            ..Self::step(operation, named, by)
        }
    }

    /// A step that is told something.
    fn told(operation: &'static str, body: Value, pointer: &'static str) -> Self {
        Self {
            body: Some(body),
            bad: Case::Sent(Bad::Field(pointer, json!(7))),
            ..Self::step(operation, IN_REVIEW, &[Approver])
        }
    }

    /// A question about a setup.
    fn ask(operation: &'static str) -> Self {
        let named = &["/procedure", "/work_order", "/station", "/filler/consumable"];
        Self {
            body: Some(doc::setup()),
            bad: Case::Sent(Bad::Field("/settings/current", json!(220))),
            missing: Case::Sent(Missing::Field("/station", json!("ST-404"))),
            stranger: Case::Sent(Stranger::Fields(named)),
            ..Self::list(operation)
        }
    }

    /// A computation, which knows no records.
    fn calculate(operation: &'static str, body: Value, bad: (&'static str, Value)) -> Self {
        let bad = Case::Sent(Bad::Field(bad.0, bad.1));
        Self { body: Some(body), bad, ..Self::list(operation) }
    }

    fn by(self, by: &'static [Role]) -> Self {
        Self { by, ..self }
    }

    fn bad(self, bad: Case<Bad>) -> Self {
        Self { bad, ..self }
    }

    fn missing(self, pointer: &'static str, value: Value) -> Self {
        Self { missing: Case::Sent(Missing::Field(pointer, value)), ..self }
    }

    fn strange(self, pointers: &'static [&'static str]) -> Self {
        Self { stranger: Case::Sent(Stranger::Fields(pointers)), ..self }
    }

    /// A question about the service, not about an organisation.
    fn health(operation: &'static str) -> Self {
        let stranger = Case::None("nothing of any organisation is in the answer");
        Self { by: OPEN, bad: NO_INPUT, stranger, ..Self::list(operation) }
    }
}

/// All operations.
pub fn rows() -> Vec<Row> {
    let mut rows = records();
    rows.extend(procedures());
    rows.extend(qualifications());
    rows.extend(rule_packs());
    rows.extend(organisation());
    rows.extend(welders());
    rows.extend(batches());
    rows.extend(calculations());
    rows.extend([
        Row::health("live"),
        Row::health("ready"),
        Row::health("metrics"),
        Row::list("list_audit_entries"),
        Row::list("export_audit").bad(Case::Sent(Bad::Query("from=0", "?from"))),
        Row {
            body: Some(json!({})),
            bad: Case::Sent(Bad::Field("/head", json!(7))),
            ..Row::list("verify_audit")
        },
        Row::ask("check_setup"),
        Row::ask("open_windows"),
        Row {
            body: Some(json!({
                "setup": doc::with(doc::setup(), "/job/run_class", Value::Null),
                "joint": { "fillet": { "leg": "6 mm" } }, "length": "1 m"
            })),
            bad: Case::Sent(Bad::Field("/joint/fillet/leg", json!(6))),
            ..Row::ask("plan_runs")
        }
        .missing("/setup/station", json!("ST-404"))
        .strange(&[
            "/setup/procedure",
            "/setup/work_order",
            "/setup/station",
            "/setup/filler/consumable",
        ]),
        Row {
            body: Some(json!({ "symptom": "spatter", "setup": doc::setup() })),
            bad: Case::Sent(Bad::Field("/symptom", json!("bad-mood"))),
            ..Row::ask("advise")
        }
        .missing("/setup/station", json!("ST-404"))
        .strange(&[
            "/setup/procedure",
            "/setup/work_order",
            "/setup/station",
            "/setup/filler/consumable",
        ]),
        Row {
            file: Some(("application/x-ndjson", LINE)),
            bad: Case::Sent(Bad::Query("detail=some", "?detail")),
            ..Row::list("check_stream")
        },
        Row::list("list_checks").bad(NO_INPUT),
        Row::list("list_kept_checks").bad(Case::Sent(Bad::Query("from=today", "?from"))),
        Row::read("read_check", "{check}").bad(NO_INPUT),
    ]);
    rows
}

fn renamed(document: Value, member: &str, code: &str) -> Value {
    doc::with(document, member, json!(code))
}

fn records() -> Vec<Row> {
    let bad_wire = || Bad::Field("/data/0/conditions/0/points/1/current", json!("40000 A"));
    let bad_station = || Bad::Field("/rated/0/current", json!(400));
    let bad_order = || Bad::Field("/limits/interpass", json!(180));
    let writers: &[_] = &[Integrator, Author];
    let order = renamed(doc::work_order(), "/number", "J-101");
    vec![
        Row::list("list_consumables"),
        Row::create("create_consumable", renamed(doc::consumable(), "/code", "FCW-2"), bad_wire()),
        Row::read("read_consumable", doc::CONSUMABLE),
        Row::revise("revise_consumable", doc::CONSUMABLE, doc::consumable(), bad_wire()),
        Row::withdraw("withdraw_consumable", doc::CONSUMABLE, &[Approver]),
        Row::list("list_stations"),
        Row::create("create_station", renamed(doc::station(), "/code", "ST-2"), bad_station()),
        Row::read("read_station", doc::STATION),
        Row::revise("revise_station", doc::STATION, doc::station(), bad_station()),
        Row::withdraw("withdraw_station", doc::STATION, &[Approver]),
        Row::list("list_work_orders"),
        Row::create("create_work_order", order, bad_order())
            .by(writers)
            .missing("/accepted_procedures/0", json!("WPS-404"))
            .strange(&["/accepted_procedures/0"]),
        Row::read("read_work_order", doc::WORK_ORDER),
        Row::revise("revise_work_order", doc::WORK_ORDER, doc::work_order(), bad_order())
            .by(writers),
        Row::withdraw("withdraw_work_order", doc::WORK_ORDER, writers),
    ]
}

fn procedures() -> Vec<Row> {
    let bad_run = || Bad::Field("/runs/0/limits/travel_speed", json!("400 to 300 mm/min"));
    let statement = json!({ "statement": "Test report 17 seen" });
    let reason = json!({ "reason": "The gas flow is missing" });
    let effect = json!({ "effective_from": "2026-01-01" });
    let one_revision = json!({ "revision": 1, "reason": "Cracks were found" });
    vec![
        Row::list("list_procedures"),
        Row::create("create_procedure", renamed(doc::procedure(), "/number", "WPS-4"), bad_run())
            .missing("/consumables/0", json!("FCW-404"))
            .strange(&["/consumables/0"]),
        Row::read("read_procedure", doc::PROCEDURE),
        Row::revise("revise_procedure", doc::PROCEDURE, doc::procedure(), bad_run()),
        Row::read("read_procedure_history", doc::PROCEDURE).bad(NO_INPUT),
        Row::read("review_procedure", doc::PROCEDURE),
        Row::read("foresee_release", doc::PROCEDURE).bad(NO_INPUT),
        Row {
            bad: Case::Sent(Bad::Query("units=furlong", "?units")),
            ..Row::read("print_procedure", doc::PROCEDURE)
        },
        Row {
            bad: Case::Sent(Bad::Query("after=x", "?after")),
            ..Row::read("compare_procedure_revisions", doc::PROCEDURE)
        },
        Row::step("submit_procedure", DRAFT, &[Author]),
        Row::told("release_procedure", effect, "/effective_from"),
        Row::told("return_procedure", reason, "/reason"),
        Row::told("sign_procedure_support", statement, "/statement"),
        Row {
            named: Some(REVISED),
            ..Row::told("withdraw_procedure_revision", one_revision, "/reason")
        },
        Row::withdraw("withdraw_procedure", doc::PROCEDURE, &[Approver]),
    ]
}

/// Who notes what is done with packets of filler.
const CARERS: &[Role] = &[Author, Approver, Integrator, Station];

fn batches() -> Vec<Row> {
    let bad_hydrogen = || Bad::Field("/certificate/hydrogen", json!(4));
    let opened = json!({ "portion": "P-1", "event": "opened" });
    vec![
        Row::list("list_batches"),
        Row::create("create_batch", renamed(doc::batch(), "/code", "B-2"), bad_hydrogen())
            .missing("/consumable", json!("FCW-404"))
            .strange(&["/consumable"]),
        Row::read("read_batch", doc::BATCH),
        Row::revise("revise_batch", doc::BATCH, doc::batch(), bad_hydrogen()),
        Row::withdraw("withdraw_batch", doc::BATCH, &[Approver]),
        Row {
            body: Some(opened),
            status: 201,
            bad: Case::Sent(Bad::Field("/event", json!("sniffed"))),
            ..Row::step("note_care_event", doc::BATCH, CARERS)
        },
        Row::read("read_batch_care", doc::BATCH).bad(Case::Sent(Bad::Query("at=yesterday", "?at"))),
    ]
}

fn welders() -> Vec<Row> {
    let bad_test = || Bad::Field("/qualifications/0/thickness", json!(10));
    let name = json!({ "name": "Somebody", "retention": "five years after the last weld" });
    let job = json!({ "process": "136", "joint": "fillet", "position": "PB" });
    let seen = json!({ "qualification": "Q1", "event": "range-signed", "reason": "Compared" });
    vec![
        Row::list("list_welders"),
        Row::create("create_welder", renamed(doc::welder(), "/code", "W-2"), bad_test()),
        Row::read("read_welder", doc::WELDER),
        Row::revise("revise_welder", doc::WELDER, doc::welder(), bad_test()),
        Row::withdraw("withdraw_welder", doc::WELDER, &[Approver]),
        Row {
            body: Some(seen),
            bad: Case::Sent(Bad::Field("/event", json!("seen"))),
            ..Row::step("note_welder_event", doc::WELDER, &[Approver])
        },
        Row::read("read_welder_standing", doc::WELDER)
            .bad(Case::Sent(Bad::Query("day=never", "?day"))),
        Row::read("read_welder_name", doc::WELDER).by(NAMES).bad(NO_INPUT),
        Row::revise("change_welder_name", doc::WELDER, name, Bad::Field("/retention", json!(5)))
            .by(NAMES),
        Row {
            body: Some(job),
            bad: Case::Sent(Bad::Field("/process", json!("999"))),
            ..Row::list("find_welders")
        },
    ]
}

fn qualifications() -> Vec<Row> {
    let bad_run = || Bad::Field("/pieces/0/runs/0/electrical/current", json!(180));
    let named = |number| renamed(doc::qualification(), "/number", number);
    vec![
        Row::list("list_qualifications"),
        Row::create("create_qualification", named("PQR-3"), bad_run()),
        Row::read("read_qualification", doc::QUALIFICATION),
        Row::revise("revise_qualification", UNSIGNED, named(UNSIGNED), bad_run()),
        Row {
            body: Some(json!({ "statement": "Compared with the paper record" })),
            bad: Case::Sent(Bad::Field("/statement", json!(7))),
            ..Row::step("sign_qualification", UNSIGNED, &[Approver])
        },
        Row::read("read_qualification_signatures", doc::QUALIFICATION).bad(NO_INPUT),
        Row::withdraw("withdraw_qualification", doc::QUALIFICATION, &[Approver]),
        Row {
            body: Some(json!({ "job": { "impact_required": false } })),
            bad: Case::Sent(Bad::Field("/job/impact_required", json!("no"))),
            ..Row::read("derive_qualification_range", doc::QUALIFICATION)
        },
        Row {
            body: Some(doc::support_question()),
            bad: Case::Sent(Bad::Field("/proposal/runs/0/current", json!(180))),
            ..Row::list("find_support")
        }
        .missing("/pack", json!("no-such-code"))
        .strange(&["/records/0"]),
        Row::read("list_attachments", doc::QUALIFICATION).bad(NO_INPUT),
        Row {
            file: Some(("application/pdf", doc::PDF)),
            query: Some("name=RT-9.pdf"),
            status: 201,
            bad: Case::Sent(Bad::Query("name=a/b.pdf", "?name")),
            ..Row::step("add_attachment", doc::QUALIFICATION, &[Author])
        },
        Row::read("read_attachment", doc::QUALIFICATION).bad(NO_INPUT),
        Row {
            body: Some(json!({ "reason": "Of another test" })),
            bad: Case::Sent(Bad::Field("/reason", json!(7))),
            ..Row::step("withdraw_attachment", doc::QUALIFICATION, &[Author])
        },
    ]
}

fn rule_packs() -> Vec<Row> {
    let bad_pack = || Bad::Field("/text", json!("key = 1"));
    vec![
        Row::list("list_own_rule_packs"),
        Row::create("create_own_rule_pack", own_pack("own-2"), bad_pack()),
        Row::read("read_own_rule_pack", OWN_PACK),
        Row::revise("revise_own_rule_pack", OWN_PACK, own_pack(OWN_PACK), bad_pack()),
        Row::withdraw("withdraw_own_rule_pack", OWN_PACK, &[Approver]),
        Row::list("list_rule_packs").bad(NO_INPUT),
        Row::list("read_rule_pack_format").bad(NO_INPUT),
        Row {
            stranger: Case::Sent(Stranger::Apart),
            ..Row::read("read_rule_pack", doc::RULE_PACK).bad(NO_INPUT)
        },
        Row {
            stranger: Case::Sent(Stranger::Apart),
            ..Row::read("list_rule_signatures", doc::PREQUALIFIED_PACK).bad(NO_INPUT)
        },
        Row {
            body: Some(json!({ "rules": ["process"], "copy": "On the shelf" })),
            status: 201,
            bad: Case::Sent(Bad::Field("/rules/0", json!("no-rule"))),
            stranger: Case::Sent(Stranger::Apart),
            ..Row::step("sign_rules", doc::PREQUALIFIED_PACK, &[Approver])
        },
        Row {
            body: Some(json!({ "reason": "Another printing" })),
            bad: Case::Sent(Bad::Field("/reason", json!(7))),
            ..Row::step("withdraw_rule_signature", doc::PREQUALIFIED_PACK, &[Approver])
        },
    ]
}

/// Who reads and writes the names of welders.
const NAMES: &[Role] = &[Author, Approver, Admin];

fn organisation() -> Vec<Row> {
    let person = json!({ "name": "New colleague", "roles": ["reader"] });
    let kiosk = json!({ "label": "kiosk", "roles": ["station"], "station": doc::STATION });
    let settings =
        json!({ "units": "us", "decision_rule": "simple-acceptance", "stale_after": "10 min" });
    let bad_role = || Bad::Field("/roles/0", json!("wizard"));
    vec![
        Row::list("list_people").by(&[Admin]).bad(NO_INPUT),
        Row::create("create_person", person.clone(), bad_role()).by(&[Admin]),
        Row::read("read_person", "{person}").by(&[Admin]).bad(NO_INPUT),
        Row::revise("change_person", "{person}", person, bad_role()).by(&[Admin]),
        Row::list("list_keys").by(&[Admin]).bad(NO_INPUT),
        Row::create("create_key", kiosk, bad_role())
            .by(&[Admin])
            .missing("/station", json!("ST-404"))
            .strange(&["/station"]),
        Row::step("rotate_key", "{key}", &[Admin]).bad(NO_INPUT),
        Row::step("revoke_key", "{key}", &[Admin]).bad(NO_INPUT),
        Row::list("read_organisation").bad(NO_INPUT),
        Row {
            by: &[Admin],
            body: Some(settings),
            bad: Case::Sent(Bad::Field("/stale_after", json!("10 mm"))),
            ..Row::list("change_organisation")
        },
    ]
}

fn calculations() -> Vec<Row> {
    let mut rows = steel();
    rows.extend(arcs());
    rows.extend(joints());
    rows
}

fn steel() -> Vec<Row> {
    let run = json!({
        "metal": "1.2", "heat_input": "1 kJ/mm", "temperature": "20 °C", "thickness": "10 mm",
        "shape": "run-on-plate",
    });
    let allowed = json!({
        "metal": "1.2", "cooling_time": "5 to 20 s", "lowest_temperature": "100 °C",
        "highest_temperature": "200 °C", "thickness": "20 mm", "shape": "run-on-plate",
    });
    let zone = json!({
        "metal": "1.2", "heat_input": "720 J/mm", "temperature": "25 °C", "thickness": "5 mm",
        "melting": "1510 °C", "peak": "730 °C",
    });
    let steel = json!({ "composition": { "C": "0.16 %" } });
    let joint = json!({ "metal": "1.2", "thickness": "25 mm" });
    vec![
        Row::calculate("calculate_cooling_time", run, ("/heat_input", json!(1))),
        Row::calculate(
            "calculate_heat_input_for_cooling_time",
            allowed,
            ("/cooling_time", json!("20 to 5 s")),
        ),
        Row::calculate("calculate_heat_affected_zone", zone, ("/peak", json!("730 mm"))),
        Row::calculate("calculate_carbon_equivalents", steel, ("/composition/C", json!(0.16))),
        Row::calculate("calculate_preheat", joint, ("/metal", json!("steel"))),
    ]
}

fn joints() -> Vec<Row> {
    let fillet = json!({ "fillet": { "leg": "6 mm" } });
    let joint = json!({ "joint": fillet });
    let plan = json!({ "joint": fillet, "run_area": "20 mm2" });
    let work = json!({
        "process": "136", "deposition_rate": "3.5 kg/h", "efficiency": "86 %",
        "operating_factor": "35 %",
    });
    let estimate = json!({ "joint": fillet, "length": "1 m", "work": work });
    let named = json!({ "name": "one", "work": work, "setup": doc::setup() });
    let comparison = json!({
        "joint": fillet, "length": "1 m", "position": "PB", "rank_by": "arc-time",
        "options": [named, { "name": "other", "work": work }],
    });
    let printed = json!({
        "consumable": doc::CONSUMABLE, "diameter": "1.2 mm", "gas": "M21", "polarity": "DCEP",
    });
    let pace = json!({ "length": "300 mm", "travel_speed": "230 mm/min" });
    let gun = json!({ "carbon_dioxide": "400 A", "cooling": "air", "gas": "C1" });
    let in_setup = &[
        "/options/0/setup/procedure",
        "/options/0/setup/work_order",
        "/options/0/setup/station",
        "/options/0/setup/filler/consumable",
    ];
    vec![
        Row::calculate("calculate_joint", joint, ("/joint/fillet/leg", json!(6))),
        Row::calculate("calculate_run_plan", plan, ("/run_area", json!("20 mm"))),
        Row::calculate("calculate_joint_estimate", estimate, ("/work/efficiency", json!("86 V"))),
        Row::calculate("calculate_comparison", comparison, ("/rank_by", json!("beauty")))
            .missing("/options/0/setup/station", json!("ST-404"))
            .strange(in_setup),
        Row::calculate(
            "calculate_burn_off",
            json!({ "printed": printed }),
            ("/form", json!("best")),
        )
        .missing("/printed/consumable", json!("FCW-404"))
        .strange(&["/printed/consumable"]),
        Row::calculate("calculate_hand_pace", pace, ("/length", json!("300 s"))),
        Row::calculate("calculate_gun_rating", gun, ("/gas", json!("X9"))),
        Row::calculate(
            "find_steel_limits",
            json!({ "grade": "S355", "thickness": "40 mm" }),
            ("/grade", json!("S999")),
        ),
        Row::calculate(
            "find_technique",
            json!({ "process": "136", "slag": true }),
            ("/slag", json!("yes")),
        ),
    ]
}

fn arcs() -> Vec<Row> {
    let samples = json!({ "voltage": "25 V", "current": "200 A", "duration": "1 s" });
    let record = json!({ "samples": samples });
    let several = json!({ "arcs": [{ "arc_power": "5 kW" }], "travel_speed": "400 mm/min" });
    let electrode = json!({ "core": "4 mm", "melted": "410 mm", "efficiency": "95 %" });
    let run_out = json!({ "electrode": electrode, "run_length": "240 mm" });
    let lead = json!({ "length": "25 m", "section": "70 mm2" });
    let leads = json!({ "voltage": "30 V", "current": "250 A", "leads": [lead] });
    let plate = json!([{ "current": "300 A", "duty": "60 %" }]);
    let source = json!({ "plate": plate, "current": "300 A" });
    let heat = json!({
        "voltage": "28 V", "current": "250 A", "travel_speed": "12 in/min",
        "waveform": "not-controlled", "process": "135",
    });
    let metal = json!({ "wire_feed": "8.0 m/min", "diameter": "1.2 mm", "efficiency": "95 %" });
    let designation = json!({ "designation": "AWS A5.20: E71T-1M" });
    let gas = json!({ "mixture": { "Ar": "75 %", "CO2": "25 %" } });
    let arc = json!({ "process": "136", "current": "220 A" });
    vec![
        Row::calculate("calculate_heat", heat, ("/travel_speed", json!(12))),
        Row::calculate("calculate_heat_record", record, ("/samples/current", json!("200 V"))),
        Row::calculate("calculate_several_arcs", several, ("/arcs/0/arc_power", json!(5))),
        Row::calculate("calculate_run_out", run_out, ("/electrode/core", json!("4 A"))),
        Row::calculate("calculate_cable_drop", leads, ("/leads/0/section", json!("70 mm"))),
        Row::calculate("calculate_power_source", source, ("/plate/0/duty", json!("60 A"))),
        Row::calculate("calculate_deposition", metal, ("/wire_feed", json!("8.0 mm"))),
        Row::calculate("read_designation", designation, ("/designation", json!("E71T-99Z"))),
        Row::calculate("classify_gas", gas, ("/mixture/Ar", json!(75))),
        Row::calculate("find_filter_shade", arc, ("/process", json!("GMAW"))),
    ]
}
