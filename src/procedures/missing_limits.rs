//! Limits without which every check of a run is undetermined, named before anybody is asked to release the revision.

use serde::Serialize;
use utoipa::ToSchema;

use super::{ProcedureDocument, RunDocument};
use crate::{
    check::{Book, VariableSet, in_words, unbounded},
    trade::Coded,
};

/// A limit that a run has to have and has not.
#[derive(Debug, Serialize, ToSchema)]
pub struct MissingLimitOut {
    /// JSON Pointer of the limits in the procedure.
    #[schema(example = "/runs/0/limits")]
    pub pointer: String,
    /// Run classes that they are for.
    #[schema(example = json!(["fill"]))]
    pub run_classes: Vec<&'static str>,
    /// Variables of which one has to be limited.
    #[schema(example = json!(["electrical-stick-out"]))]
    pub one_of: Vec<&'static str>,
    /// What is missing and what follows, in words.
    pub reason: String,
}

/// What is missing in the runs of a procedure, by what its check asks for: data that it calls up counts where all of
/// its consumables have it.
pub(super) fn of(document: &ProcedureDocument, book: &Book) -> Vec<MissingLimitOut> {
    let called_up = called_up(document, book);
    let runs = document.runs.iter().enumerate();
    runs.flat_map(|(index, run)| {
        let bounded = run.limits.compile().limited() | called_up;
        unbounded(document.process, bounded).map(move |group| {
            let names: Vec<_> = group.iter().map(|variable| in_words(*variable)).collect();
            MissingLimitOut {
                pointer: format!("/runs/{index}/limits"),
                run_classes: run.classes.iter().map(|class| class.code()).collect(),
                one_of: group.iter().map(|variable| variable.code()).collect(),
                reason: format!(
                    "There is no limit on {} for {}, and the process must have one: without it every check of \
                     these runs is undetermined.",
                    names.join(" or "),
                    runs_in_words(run)
                ),
            }
        })
    })
    .collect()
}

fn runs_in_words(run: &RunDocument) -> String {
    let classes: Vec<&str> = run.classes.iter().map(|class| class.code()).collect();
    format!("runs of the class {}", classes.join(" or "))
}

/// Variables that the data of every consumable limits, where the procedure calls it up.
fn called_up(document: &ProcedureDocument, book: &Book) -> VariableSet {
    if document.calls_up_data != Some(true) {
        return VariableSet::default();
    }
    let of_each = document.consumables.iter().map(|code| {
        let consumable = book.consumables.get(code.as_str());
        let editions = consumable.into_iter().flat_map(|consumable| &consumable.data);
        let conditions = editions.flat_map(|edition| &edition.conditions);
        conditions.fold(VariableSet::default(), |all, one| all | one.ranges.limited())
    });
    of_each.reduce(|all, one| all & one).unwrap_or_default()
}
