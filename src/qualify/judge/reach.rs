//! Whether a limit is about the joint that is proposed.

use crate::{
    qualify::{
        Proposal,
        derive::{Applies, all_of},
        pack::When,
        range::{Missing, Whose, listed},
    },
    trade::{Coded, Position},
};

/// Whether a limit that some rules keep for other welds, products or positions reaches the proposal.
pub(super) fn reaches(when: &When, proposal: &Proposal, position: Option<Position>) -> Applies {
    all_of([
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
    ])
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
