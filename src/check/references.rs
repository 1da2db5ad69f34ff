//! Records a setup names that the organisation does not have.

use super::{Book, Setup, Variable};

/// Every record named by the setup that is not in the book, with the variable that names it. A
/// caller refuses such a setup; a check that is made all the same takes them as not given.
#[must_use]
pub fn unknown_references(book: &Book, setup: &Setup) -> Vec<(Variable, String)> {
    let procedure = setup.procedure.as_ref().map(|named| &named.number);
    let consumable = setup.filler.consumable.as_ref();
    let batch = setup.filler.batch.as_ref();
    let (station, order) = (setup.station.as_ref(), setup.work_order.as_ref());
    let welder = setup.welder.as_ref().map(|claim| &claim.code);
    let has_procedure = |number: &String| {
        book.states.contains_key(number) || !book.procedures.revisions(number).is_empty()
    };
    let named = [
        (Variable::Procedure, procedure, procedure.is_some_and(has_procedure)),
        (Variable::WorkOrder, order, order.is_some_and(|it| book.work_orders.contains_key(it))),
        (Variable::Station, station, station.is_some_and(|it| book.stations.contains_key(it))),
        (Variable::Welder, welder, welder.is_some_and(|it| book.welders.contains_key(it))),
        (Variable::Batch, batch, batch.is_some_and(|it| book.batches.contains_key(it))),
        (
            Variable::Consumable,
            consumable,
            consumable.is_some_and(|it| book.consumables.contains_key(it)),
        ),
    ];
    let unknown = named.into_iter().filter(|(_, _, known)| !known);
    unknown.filter_map(|(variable, name, _)| Some((variable, name?.clone()))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::{
        ProcedureReference, Telling, WelderClaim, fixture::Scene, judge, judge_named,
    };

    #[test]
    fn every_unknown_record_is_named_once() {
        let scene = Scene::allowed();
        let (book, mut setup) = (scene.book(), scene.setup);
        assert_eq!(unknown_references(&book, &setup), []);
        setup.procedure = Some(ProcedureReference { number: "WPS-9".to_owned(), revision: None });
        setup.station = Some("S-9".to_owned());
        setup.filler.consumable = Some("FCW-9".to_owned());
        setup.filler.batch = Some("B-9".to_owned());
        setup.work_order = Some("J-9".to_owned());
        setup.welder = Some(WelderClaim { code: "W-9".to_owned(), ..WelderClaim::default() });
        let expected = [
            (Variable::Procedure, "WPS-9"),
            (Variable::WorkOrder, "J-9"),
            (Variable::Station, "S-9"),
            (Variable::Welder, "W-9"),
            (Variable::Batch, "B-9"),
            (Variable::Consumable, "FCW-9"),
        ];
        let unknown = unknown_references(&book, &setup);
        assert_eq!(unknown, expected.map(|(variable, name)| (variable, name.to_owned())));
        assert_eq!(unknown_references(&book, &Setup::default()), []);
    }

    /// The list is the reference.
    #[test]
    fn a_setup_that_names_an_unknown_record_is_not_judged() {
        let scene = Scene::allowed();
        let (book, day) = (scene.book(), scene.day);
        let judged = |setup: &Setup| judge_named(&book, setup, day, Telling::Everything);
        assert_eq!(judged(&scene.setup), Ok(judge(&book, &scene.setup, day, Telling::Everything)));
        let named = ProcedureReference { number: "WPS-9".to_owned(), revision: None };
        let changes: [&dyn Fn(&mut Setup); 6] = [
            &|setup| setup.procedure = Some(named.clone()),
            &|setup| setup.station = Some("S-9".to_owned()),
            &|setup| setup.filler.consumable = Some("FCW-9".to_owned()),
            &|setup| setup.filler.batch = Some("B-9".to_owned()),
            &|setup| setup.work_order = Some("J-9".to_owned()),
            &|setup| {
                setup.welder =
                    Some(WelderClaim { code: "W-9".to_owned(), ..WelderClaim::default() });
            },
        ];
        for change in changes {
            let mut setup = scene.setup.clone();
            change(&mut setup);
            let unknown = unknown_references(&book, &setup);
            assert_eq!(unknown.len(), 1);
            assert_eq!(judged(&setup), Err(unknown));
        }
    }
}
