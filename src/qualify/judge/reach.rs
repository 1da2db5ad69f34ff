//! Whether a limit is about the joint that is proposed.

use crate::{
    qualify::{
        Proposal, ProposedRun,
        derive::{Applies, all_of},
        facts::{Fact, proposed_joint, proposed_run},
        pack::{Given, When},
        range::{Missing, Whose, listed},
        variable::Home,
    },
    trade::{Coded, Position},
};

/// Whether a limit that some rules keep for other welds, products or positions reaches the proposal.
pub(super) fn reaches(
    when: &When,
    proposal: &Proposal,
    position: Option<Position>,
    run: Option<&ProposedRun>,
) -> Applies {
    let given = when.given.iter().map(|given| says(given, proposal, position, run));
    all_of(given.chain([
        among(&when.for_welds, proposal.joint.weld, "the kind of weld"),
        product(when, proposal),
        among(when.for_layering.as_slice(), proposal.layering, "single-run or multi-run"),
        among(&when.for_positions, position, "the position"),
        match among(&when.not_for_positions, position, "the position") {
            _ if when.not_for_positions.is_empty() => Applies::Yes,
            Applies::Yes => Applies::No,
            Applies::No => Applies::Yes,
            unknown @ Applies::If(_) => unknown,
        },
    ]))
}

/// Whether the proposal says one of the words: of this run where the matter is one of runs, of any of its
/// runs where the limit is one of the whole joint.
fn says(
    given: &Given,
    proposal: &Proposal,
    position: Option<Position>,
    run: Option<&ProposedRun>,
) -> Applies {
    let variable = given.variable;
    let facts: Vec<_> = match (variable.home(), run) {
        (Home::Run, Some(run)) => vec![proposed_run(run, variable)],
        (Home::Run, None) => proposal.runs.iter().map(|run| proposed_run(run, variable)).collect(),
        _ => vec![proposed_joint(proposal, position, variable)],
    };
    let found = facts.iter().flatten().any(|fact| match fact {
        Fact::Words(words) => words.iter().any(|word| given.words.contains(word)),
        _ => false,
    });
    let all_known = !facts.is_empty() && facts.iter().all(Option::is_some);
    let answer = if found { Some(true) } else { all_known.then_some(false) };
    Applies::known(answer, || Missing::new(Whose::Proposal, variable.to_string()))
}

fn among<T: Coded>(wanted: &[T], given: Option<T>, what: &str) -> Applies {
    if wanted.is_empty() {
        return Applies::Yes;
    }
    let answer = given.map(|given| wanted.contains(&given));
    Applies::known(answer, || Missing::new(Whose::Proposal, what))
}

fn product(when: &When, proposal: &Proposal) -> Applies {
    let wanted = &when.for_products;
    if wanted.is_empty() {
        return Applies::Yes;
    }
    let forms: Vec<_> = proposal.parts.iter().map(|part| part.form).collect();
    let found = forms.iter().flatten().any(|form| wanted.contains(form));
    let all_known = !forms.is_empty() && forms.iter().all(Option::is_some);
    Applies::known(if found { Some(true) } else { all_known.then_some(false) }, || {
        Missing::new(Whose::Proposal, format!("the product form ({})", listed(wanted)))
    })
}
