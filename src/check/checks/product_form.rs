//! `product-form`: plate, pipe and so on, of every part, against the procedure.

use crate::check::{
    Case, Findings, Force, Outcome, Shown,
    choice_check::{Rule, Words, texts},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// Where the procedure names forms of the parts, as plate or pipe, the form of every part is one of them. A butt or
    /// a fillet joins two parts: one that is stated alone does not stand for the other. Where the procedure names none,
    /// nothing is said, unless the setup states one: that is then left open.
    ///
    /// ## Why
    /// Procedure tests on plate qualify pipes of large diameters only, and the judgement of a procedure by its
    /// records holds for the forms that it names.
    ///
    /// ## Source
    /// The procedure. Rules behind it: ISO 15614-1:2017, 8.3.3 (a test on plate covers pipes above 500 mm, turned
    /// or in PC above 150 mm); that a procedure states it: ISO 15609-1 (from memory).
    ///
    /// ## Not checked
    /// Which form is joined to which. A position of a fixed pipe does not say which of the parts is one.
    "product-form", ProductForm => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some(
        "Nothing behind the procedure was tested or judged for this form: bead, heat and access differ.",
    ),
    change: Some("Use a procedure for this form; this one covers"),
    state: Some(
        "State the form of every part, as plate or pipe; two parts alike are listed twice.",
    ),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let rule = Rule {
        check: &CHECK,
        source: case.procedure_source(),
        force: Force::Required,
        words: &WORDS,
    };
    let (parts, forms) = (&case.setup.job.base_metals, &case.procedure.forms);
    if forms.is_empty() {
        if parts.iter().any(|part| part.form.is_some()) {
            let given = || Shown::words(parts.iter().filter_map(|part| part.form));
            let why = "The form of the parts is left open";
            rule.of_owner(findings, Outcome::NotApplicable, given, why);
        }
        return;
    }
    for part in parts {
        rule.one_of(findings, part.form, forms);
    }
    rule.lacking_part(findings, &case.setup.job, "allows", || Shown::words(forms));
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{Outcome::*, Verdict, fixture::Scene},
        qualify::record::ProductForm::{self, HollowSection, Pipe, Plate},
    };

    fn scene(covered: &[ProductForm], stated: &[Option<ProductForm>]) -> Scene {
        Scene::allowed().with(|s| {
            s.procedure.forms = covered.to_vec();
            let part = s.setup.job.base_metals[0];
            let of = |form: &Option<ProductForm>| crate::check::BaseMetal { form: *form, ..part };
            s.setup.job.base_metals = stated.iter().map(of).collect();
        })
    }

    /// ISO 15614-1:2017, 8.3.3: a record of a plate does not cover every pipe.
    #[test]
    fn a_pipe_is_not_welded_by_a_procedure_for_plate() {
        let of = |stated: &[Option<ProductForm>]| {
            let scene = scene(&[Plate], stated);
            (scene.outcomes("product-form"), scene.verdict())
        };
        assert_eq!(of(&[Some(Plate); 2]), (vec![Inside; 2], Verdict::Allowed));
        assert_eq!(of(&[Some(Plate), Some(Pipe)]), (vec![Inside, Outside], Verdict::NotAllowed));
        assert_eq!(of(&[Some(Plate), None]), (vec![Inside, NotGiven], Verdict::Undetermined));
        assert_eq!(of(&[None; 2]), (vec![NotGiven; 2], Verdict::Undetermined));
        assert_eq!(of(&[Some(Plate)]), (vec![Inside, NotGiven], Verdict::Undetermined));
    }

    #[test]
    fn each_form_that_is_named_is_covered() {
        let both = scene(&[Plate, Pipe], &[Some(Pipe), Some(Plate)]);
        assert_eq!(both.outcomes("product-form"), [Inside; 2]);
        let other = scene(&[Plate, Pipe], &[Some(Pipe), Some(HollowSection)]);
        assert_eq!(other.outcomes("product-form"), [Inside, Outside]);
        let found = &other.of("product-form")[1];
        assert!(found.owner.to_string().contains("WPS-1"), "{}", found.owner);
        let remedy = "Use a procedure for this form; this one covers plate, pipe.";
        assert_eq!(found.remedy.as_deref(), Some(remedy));
    }

    #[test]
    fn a_procedure_that_names_none_leaves_it_open() {
        assert_eq!(scene(&[], &[None; 2]).outcomes("product-form"), []);
        assert_eq!(scene(&[], &[Some(Pipe), None]).outcomes("product-form"), [NotApplicable]);
    }
}
