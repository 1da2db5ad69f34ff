//! A run that says nothing is unknown: no other run answers for it. ISO 15614-1:2017, 8.5.6, gas behind the root of an
//! austenitic joint (group 8, level 2).

use arcbounds::{
    qualify::{
        Allowed, Judgement, Proposal, Standing, Whose,
        record::{Record, Run},
    },
    trade::{
        Gas, Process,
        RunClass::{self, Cap, Fill, Hot, Root},
    },
};

use super::fixture::*;

const RULE: &str = "backing-gas-austenitic";

/// TIG on group 8.1, one run for each class with the gas behind it: a code, `none`, or nothing said.
fn record(runs: &[(Option<RunClass>, &str)]) -> Record {
    let mut record = iso_record();
    let piece = &mut record.pieces[0];
    piece.deposits[0].process = Process::TigSolidFiller;
    for part in &mut piece.parts {
        part.metal.group = Some("8.1".parse().unwrap());
    }
    let run = |(class, behind): &(Option<RunClass>, &str)| {
        let mut run = Run { class: *class, ..iso_run(Process::TigSolidFiller) };
        run.gases.backing = match *behind {
            "" => None,
            "none" => Some(Gas::None),
            text => gas(text),
        };
        run
    };
    piece.runs = runs.iter().map(run).collect();
    record
}

fn all_argon() -> Record {
    record(&[(Some(Root), "I1"), (Some(Hot), "I1"), (Some(Fill), "I1")])
}

fn by(record: &Record, proposal: &Proposal) -> Judgement {
    judged(record, iso(), &demanding(), proposal)
}

#[test]
fn a_root_that_is_silent_is_not_answered_for_by_its_fill() {
    let tested = all_argon();
    let of =
        |runs: &[(Option<RunClass>, &str)]| standing(&by(&tested, &repeated(&record(runs))), RULE);
    let root = |behind| of(&[(Some(Root), behind), (Some(Fill), "I1"), (Some(Cap), "I1")]);
    assert_eq!(root("I1"), Standing::Inside);
    assert_eq!(root("none"), Standing::Outside);
    let open = |standing: Standing| match standing {
        Standing::NotJudged(missing) => assert_eq!(missing.whose, Whose::Proposal),
        other => panic!("{other:?}"),
    };
    open(root(""));
    open(of(&[(Some(Root), "I1"), (Some(Hot), ""), (Some(Fill), "I1")]));
    open(of(&[(None, ""), (Some(Fill), "I1")]));
    open(of(&[(Some(Fill), "I1"), (Some(Cap), "")]));
}

/// A check holds runs that lie on others only to a gas that is set for them apart.
#[test]
fn a_run_that_lies_on_the_root_needs_no_gas_of_its_own() {
    let tested = all_argon();
    for (fill, expected) in [
        ("", Standing::Inside),
        ("none", Standing::Inside),
        ("I3", Standing::Inside),
        ("R1", Standing::Outside),
    ] {
        let proposal = repeated(&record(&[(Some(Root), "I1"), (Some(Fill), fill)]));
        assert_eq!(standing(&by(&tested, &proposal), RULE), expected, "{fill}");
    }
}

#[test]
fn only_the_root_of_a_record_says_what_was_behind_it() {
    let allowed =
        |runs: &[(Option<RunClass>, &str)]| limit(&record(runs), iso(), &demanding(), RULE).allowed;
    let words = |all: &[&str]| Allowed::Words(all.iter().map(ToString::to_string).collect());
    let argon = words(&["I1", "I2", "I3"]);
    assert_eq!(allowed(&[(Some(Root), "I1"), (Some(Fill), "")]), argon);
    assert_eq!(allowed(&[(Some(Root), "I1"), (Some(Fill), "none")]), argon);
    for runs in [
        [(Some(Root), ""), (Some(Fill), "I1")],
        [(Some(Root), "I1"), (Some(Hot), "")],
        [(Some(Root), "I1"), (Some(Hot), "none")],
        [(None, ""), (Some(Fill), "I1")],
    ] {
        let Allowed::Unknown(missing) = allowed(&runs) else { panic!("{runs:?}") };
        assert_eq!(missing.whose, Whose::Record, "{runs:?}");
    }
}
