//! `POST /v1/welders/{code}/events`

use axum::{extract::State, http::StatusCode, response::Response};
use serde_json::json;
use time::Date;
use uuid::Uuid;

use super::{
    KIND, WelderDocument, WelderQualificationDocument,
    store::{self, EventRow, NewEvent},
};
use crate::{
    access::{Approve, Permitted},
    database::{Change, TenantTx},
    http::{
        AppState, CodePath, IfMatch, JsonBody, Retry, Writing,
        problem::{CONFLICT, FieldError, Problem},
        responses::ChangeProblems,
        retry::Begun,
    },
    qualify::welder::{Revalidation, RevalidationWay, WeldFault, WelderPack, welder_pack},
    records::{self, RecordAnswer, RecordBody, Signing, etag},
    trade::{Coded, coded},
    wire::{self, Code, wire_object},
};

coded! {
    /// What happens to a qualification.
    pub enum EventKind: "event of a qualification" {
        /// The welder has worked within the range.
        Confirmed = "confirmed",
        /// It was prolonged by the option of its code.
        Revalidated = "revalidated",
        /// The range that this service derives agrees with the printed code.
        RangeSigned = "range-signed",
        /// It was withdrawn for a reason.
        Withdrawn = "withdrawn",
    }
}

wire_object! {
    /// What a responsible person signs about a qualification.
    pub struct WelderEventIn {
        /// Id of the qualification within the welder's record.
        pub qualification: Code,
        /// What happened.
        pub event: EventKind,
        /// Day it is for, not in the future; today where left out.
        pub on: Option<Date>,
        /// A confirmation by use alone, where the runs show it and nobody saw the work. Counts where the code
        /// says that use suffices.
        pub by_use: Option<bool>,
        /// Option of the revalidation: the one that the certificate states, such as `b` of ISO 9606-1, 9.3.
        pub option: Option<String>,
        /// Days of the production welds that were tested and found good, for a revalidation by welds: two different
        /// ones of the last six months of the term, from memory of ISO 9606-1:2012, 9.3 b, and ISO 14732:2013, 6.3 b.
        pub welds: Vec<Date>,
        /// Why, or what was seen; no names.
        pub reason: String,
    }
}

/// Sign a confirmation, a revalidation, the range or a withdrawal
///
/// Adds to the history of a qualification what a responsible person signs. Nobody signs their own
/// qualification, nor a record that they wrote a part of, in whichever revision; any approver withdraws. A confirmation
/// counts by the day it is for, so that one signed on paper can be entered later: the welder's standing tells when each
/// was entered. One for a day after the qualification lapsed is kept and brings nothing back.
#[utoipa::path(
    post, path = "/v1/welders/{code}/events", tag = "welders",
    request_body = WelderEventIn,
    params(
        ("code" = String, Path, description = "Code of the welder"),
        ("If-Match" = String, Header, description = "ETag of the version you read"),
        ("Idempotency-Key" = Option<String>, Header, description = "For a safe retry"),
    ),
    responses(
        (status = 200, description = "Noted, with the record's new `ETag`",
            headers(
                ("ETag" = String, description = "Version of the record"),
                ("Rulebook-Version" = i64, description = "First rulebook that knows it; sent where checks need it"),
            ),
            body = RecordAnswer<WelderDocument>),
        ChangeProblems,
    ),
)]
pub(super) async fn note_welder_event(
    permitted: Permitted<Approve>,
    State(state): State<AppState>,
    if_match: IfMatch,
    retry: Retry,
    CodePath(code): CodePath,
    JsonBody(body): JsonBody,
) -> Result<Response, Problem> {
    let sent: WelderEventIn = wire::read(&body)?;
    let person = permitted.caller.person()?;
    let today = permitted.caller.rulebook.settings.today();
    let on_day = sent.on.unwrap_or(today);
    if on_day > today {
        return Err(Problem::field("/on", "a signature is for today or a day before"));
    }
    let route = format!("POST /v1/welders/{code}/events");
    let mut writing = match Writing::begin(&state, &permitted.caller, &route, &retry, &body).await?
    {
        Begun::Fresh(writing) => writing,
        Begun::Replay(response) => return Ok(response),
    };
    let tx = writing.tx();
    let head = records::lock(tx.connection(), KIND, &code).await?;
    let head = head.ok_or_else(|| Problem::not_found(KIND.name, &code))?;
    if_match.holds(head.version)?;
    if head.state == "withdrawn" {
        return Err(Problem::new(&CONFLICT, "The record is withdrawn."));
    }
    let stored = records::find(tx.connection(), KIND, &code).await?;
    let stored = stored.ok_or_else(|| Problem::not_found(KIND.name, &code))?;
    let document: WelderDocument = wire::read_stored(&stored.document)?;
    let qualification = document.qualifications.iter().find(|one| one.id == sent.qualification);
    let qualification = qualification.ok_or_else(|| {
        Problem::field("/qualification", "the welder's record has no such qualification")
    })?;
    let earlier = store::events(tx.connection(), &code).await?;
    fits(&sent, qualification, on_day, &earlier)?;
    // A withdrawal only takes away, and waits for nobody.
    if sent.event != EventKind::Withdrawn {
        is_second_person(tx, &document, &code, person).await?;
    }
    write(tx, (&code, &sent, on_day), qualification, (person, &earlier)).await?;
    let version =
        records::move_head(tx.connection(), KIND, &code, (head.revision, head.edit), &head.state)
            .await?;
    tx.note(Change {
        action: sent.event.code(),
        kind: KIND.column,
        subject: code.clone(),
        revision: Some(head.revision),
        document_hash: Some(stored.document_hash.clone()),
        changes_rules: true,
    });
    let stored = records::find(tx.connection(), KIND, &code).await?;
    let answer = json!(stored.map(RecordBody::of::<WelderDocument>));
    writing.finish(&state, StatusCode::OK, &[("etag", etag(version))], answer).await
}

/// Whether what is signed makes sense for the qualification.
fn fits(
    sent: &WelderEventIn,
    qualification: &WelderQualificationDocument,
    on_day: Date,
    earlier: &[EventRow],
) -> Result<(), Problem> {
    if on_day < qualification.welded_on && sent.event != EventKind::RangeSigned {
        return Err(Problem::field("/on", "the test piece was welded later"));
    }
    if sent.event != EventKind::Revalidated {
        return if sent.option.is_some() || !sent.welds.is_empty() {
            Err(Problem::field("/option", "only a revalidation has an option and welds"))
        } else {
            Ok(())
        };
    }
    let option = welder_pack(&qualification.pack)
        .zip(sent.option.as_ref())
        .and_then(|(pack, sign)| Some((pack, pack.option(sign)?)));
    let Some((pack, option)) = option else {
        return Err(Problem::field("/option", "name an option of the qualification's code"));
    };
    match option.way {
        RevalidationWay::NewTest => Err(Problem::field(
            "/option",
            "this option is a new test: write it as a qualification of its own",
        )),
        RevalidationWay::QualitySystem => {
            Err(Problem::field("/option", "this option has no end, and nothing to revalidate"))
        }
        RevalidationWay::TwoWelds if qualification.revalidation != sent.option => {
            Err(Problem::field("/option", other_option(qualification)))
        }
        RevalidationWay::TwoWelds if sent.welds.len() < 2 => {
            Err(Problem::field("/welds", "this option takes two welds"))
        }
        RevalidationWay::TwoWelds => welds_count(sent, pack, qualification, on_day, earlier),
        RevalidationWay::OneCoupon => Ok(()),
    }
}

/// Whether every weld counts for the term that is to be prolonged.
fn welds_count(
    sent: &WelderEventIn,
    pack: &WelderPack,
    qualification: &WelderQualificationDocument,
    on_day: Date,
    earlier: &[EventRow],
) -> Result<(), Problem> {
    let option = sent.option.clone().unwrap_or_default();
    let one = Revalidation { on: on_day, option, welds: sent.welds.clone() };
    let faults = pack.weld_faults(&qualification.dates(earlier), &one);
    if faults.is_empty() {
        return Ok(());
    }
    let fault = |(index, fault): (usize, WeldFault)| FieldError {
        pointer: format!("/welds/{index}"),
        detail: why_it_does_not_count(fault, qualification.welded_on, on_day),
    };
    Err(Problem::fields(faults.into_iter().map(fault).collect()))
}

fn why_it_does_not_count(fault: WeldFault, test: Date, on_day: Date) -> String {
    match fault {
        WeldFault::BeforeTest => {
            format!("a weld made before the test piece of {test} revalidates nothing")
        }
        WeldFault::AfterSignature => {
            format!("a weld that was tested by {on_day} was made on that day or before")
        }
        WeldFault::SameDay => "two welds are of two days; this day is there already".to_owned(),
        WeldFault::NotOfLastMonths { first, last } => format!(
            "the welds are of the last six months of the term that they prolong: {first} to {last}"
        ),
    }
}

/// Why an option is not that of the certificate.
fn other_option(qualification: &WelderQualificationDocument) -> String {
    let stated = qualification.revalidation.as_ref();
    stated.map_or_else(
        || {
            "the record does not say which option the certificate states: write it as revalidation of the \
             qualification first"
                .to_owned()
        },
        |own| format!("the certificate was issued with option \"{own}\", and no other one prolongs it"),
    )
}

/// Nobody signs for themselves, nor what they wrote.
async fn is_second_person(
    tx: &mut TenantTx,
    document: &WelderDocument,
    code: &str,
    person: Uuid,
) -> Result<(), Problem> {
    if document.person == Some(person) {
        let detail = "The welder cannot sign their own qualification; a second person has to.";
        return Err(Problem::new(&CONFLICT, detail));
    }
    records::hold_second_person(tx.connection(), KIND, code, Signing::Content, person).await
}

async fn write(
    tx: &mut TenantTx,
    (code, sent, on_day): (&str, &WelderEventIn, Date),
    qualification: &WelderQualificationDocument,
    (person, earlier): (Uuid, &[EventRow]),
) -> Result<(), Problem> {
    let actor = tx.actor();
    let new = NewEvent {
        code,
        sequence: earlier.last().map_or(1, |last| last.sequence + 1),
        qualification: sent.qualification.as_str(),
        event: sent.event.code(),
        on_day,
        by_use: sent.by_use.unwrap_or(false),
        option: sent.option.as_deref(),
        welds: &sent.welds,
        reason: &sent.reason,
        test_hash: &qualification.hash(),
        person,
    };
    store::write_event(tx.connection(), actor, new).await?;
    Ok(())
}
