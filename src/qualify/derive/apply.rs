//! Whether a rule applies to a piece, as far as that is known.

use super::{
    Scene,
    results::{shown, temperature_of_job},
};
use crate::qualify::{
    JobFacts, QualifiedVariable as V,
    facts::Fact,
    pack::When,
    range::{Missing, Whose, listed},
    record::{PostHeating, ProductForm, TestPiece},
};
use crate::{
    quantity::{Kind, LayerThicknessKind, Thickness, compare},
    trade::Coded,
};

/// Whether something applies.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::qualify) enum Applies {
    Yes,
    No,
    /// That hangs on facts which nobody states.
    If(Vec<Missing>),
}

impl Applies {
    pub(in crate::qualify) fn known(
        answer: Option<bool>,
        missing: impl FnOnce() -> Missing,
    ) -> Self {
        match answer {
            Some(true) => Self::Yes,
            Some(false) => Self::No,
            None => Self::If(vec![missing()]),
        }
    }
}

/// Whether all of several conditions hold. One that does not decides.
pub(in crate::qualify) fn all_of(conditions: impl IntoIterator<Item = Applies>) -> Applies {
    let mut unknown = Vec::new();
    for condition in conditions {
        match condition {
            Applies::Yes => {}
            Applies::No => return Applies::No,
            Applies::If(missing) => unknown.extend(missing),
        }
    }
    if unknown.is_empty() { Applies::Yes } else { Applies::If(unknown) }
}

/// Whether impact tests are required.
pub(super) fn impact(job: &JobFacts) -> Applies {
    Applies::known(job.impact_required, || {
        Missing::new(Whose::Job, "whether impact tests are required")
    })
}

pub(super) fn hardness(job: &JobFacts) -> Applies {
    Applies::known(job.hardness_required, || {
        Missing::new(Whose::Job, "whether hardness tests are required")
    })
}

/// Reads both sides of an expectation: the fact is or is not as the rule asks.
fn expected(wanted: Option<bool>, fact: Applies) -> Applies {
    match (wanted, fact) {
        (None, _) | (Some(true), Applies::Yes) | (Some(false), Applies::No) => Applies::Yes,
        (Some(_), Applies::If(missing)) => Applies::If(missing),
        (Some(_), _) => Applies::No,
    }
}

/// A recorded choice in a list; an empty list asks nothing.
fn among<T: Coded>(wanted: &[T], given: Option<T>, what: &str) -> Applies {
    if wanted.is_empty() {
        return Applies::Yes;
    }
    Applies::known(given.map(|given| wanted.contains(&given)), || Missing::new(Whose::Record, what))
}

/// Whether the rule applies to the scene. What it asks of the job's own weld is judged later, against
/// each proposal.
pub(super) fn applies(when: &When, scene: Scene<'_>) -> Applies {
    let (piece, job) = (scene.piece, scene.job);
    all_of([
        process(when, scene),
        among(&when.welds, piece.joint.weld, "the kind of weld"),
        product(&when.products, piece),
        among(when.penetration.as_slice(), piece.joint.penetration, "the penetration"),
        expected(when.post_heated, post_heated(piece)),
        run_thicker_than(when, scene),
        among(when.layering.as_slice(), piece.layering, "single-run or multi-run"),
        expected(when.impact, impact(job)),
        expected(when.hardness, hardness(job)),
        expected(when.impact_or_hardness, either(job)),
        impact_below(when, job),
        all_of(when.tested.iter().map(|kind| shown(piece, *kind, job).passed())),
        all_of(
            when.not_tested
                .iter()
                .map(|kind| expected(Some(false), shown(piece, *kind, job).passed())),
        ),
        groups(&when.metal_groups, piece, true),
        groups(&when.not_metal_groups, piece, false),
        treatment(when, piece),
        among(&when.positions, piece.position, "the position"),
        words(scene, V::FillerForm, &listed_codes(&when.forms), true),
        words(scene, V::Transfer, &listed_codes(&when.transfers), true),
        words(scene, V::Transfer, &listed_codes(&when.not_transfers), false),
    ])
}

const fn decided(yes: bool) -> Applies {
    if yes { Applies::Yes } else { Applies::No }
}

fn process(when: &When, scene: Scene<'_>) -> Applies {
    let wanted = &when.processes;
    let welded = crate::qualify::facts::processes_of(scene.piece);
    let found = match scene.process {
        Some(process) => wanted.contains(&process),
        None => welded.iter().any(|process| wanted.contains(process)),
    };
    decided(wanted.is_empty() || found)
}

fn product(wanted: &[ProductForm], piece: &TestPiece) -> Applies {
    if wanted.is_empty() {
        return Applies::Yes;
    }
    let forms: Vec<_> = piece.parts.iter().map(|part| part.form).collect();
    let found = forms.iter().flatten().any(|form| wanted.contains(form));
    let all_known = !forms.is_empty() && forms.iter().all(Option::is_some);
    Applies::known(if found { Some(true) } else { all_known.then_some(false) }, || {
        Missing::new(Whose::Record, format!("the product form ({})", listed(wanted)))
    })
}

fn either(job: &JobFacts) -> Applies {
    match (impact(job), hardness(job)) {
        (Applies::Yes, _) | (_, Applies::Yes) => Applies::Yes,
        (Applies::No, other) | (other, Applies::No) => other,
        (Applies::If(mut a), Applies::If(b)) => {
            a.extend(b);
            Applies::If(a)
        }
    }
}

fn impact_below(when: &When, job: &JobFacts) -> Applies {
    let Some(edge) = when.impact_below else { return Applies::Yes };
    let below = job.impact_temperature.map(|temperature| !temperature.at_least(edge));
    Applies::known(below, temperature_of_job)
}

fn groups(wanted: &[u8], piece: &TestPiece, inside: bool) -> Applies {
    if wanted.is_empty() {
        return Applies::Yes;
    }
    let groups: Vec<_> = piece.parts.iter().map(|part| part.metal.group).collect();
    let found = groups.iter().flatten().any(|group| wanted.contains(&group.group()));
    let all_known = !groups.is_empty() && groups.iter().all(Option::is_some);
    let answer = if found { Some(true) } else { all_known.then_some(false) };
    Applies::known(answer.map(|found| found == inside), || {
        Missing::new(Whose::Record, "the base-metal group of each part")
    })
}

fn treatment(when: &When, piece: &TestPiece) -> Applies {
    if when.not_treatments.is_empty() {
        return Applies::Yes;
    }
    let class = piece.heat_treatment.as_ref().map(|treated| treated.class);
    Applies::known(class.map(|class| !when.not_treatments.contains(&class)), || {
        Missing::new(Whose::Record, "the class of heat treatment")
    })
}

fn post_heated(piece: &TestPiece) -> Applies {
    let done = piece.post_heating.map(|heated| heated != PostHeating::NotDone);
    Applies::known(done, || Missing::new(Whose::Record, "whether it was post-heated"))
}

/// Whether a run was thicker than a size. None can be thicker than the thinner part.
fn run_thicker_than(when: &When, scene: Scene<'_>) -> Applies {
    let Some(size) = when.run_thicker_than.as_ref().and_then(|size| size.of(scene.system)) else {
        return Applies::Yes;
    };
    let unit = <LayerThicknessKind as Kind>::INFO.answer_unit(scene.system);
    let is_thicker = |mm: f64| compare(unit.number(mm), *size, 0.0).is_gt();
    let parts = scene.piece.parts.iter().map(|part| part.thickness);
    let thinnest = parts.flatten().map(Thickness::mm).reduce(f64::min);
    if thinnest.is_some_and(|mm| !is_thicker(mm)) {
        return Applies::No;
    }
    let runs: Vec<_> = scene.piece.runs.iter().map(|run| run.thickness).collect();
    let found = runs.iter().flatten().any(|thickness| is_thicker(thickness.canonical()));
    let all_known = !runs.is_empty() && runs.iter().all(Option::is_some);
    Applies::known(if found { Some(true) } else { all_known.then_some(false) }, || {
        Missing::new(
            Whose::Record,
            format!("whether a run was thicker than {size} {}", unit.symbol),
        )
    })
}

fn listed_codes<T: Coded>(values: &[T]) -> Vec<String> {
    values.iter().map(|value| value.code().to_owned()).collect()
}

fn words(scene: Scene<'_>, variable: V, wanted: &[String], inside: bool) -> Applies {
    if wanted.is_empty() {
        return Applies::Yes;
    }
    let found = match scene.fact(variable) {
        Some(Fact::Words(given)) => Some(given.iter().any(|word| wanted.contains(word)) == inside),
        _ => None,
    };
    Applies::known(found, || Missing::new(Whose::Record, variable.to_string()))
}
