//! `outside-diameter`: outside diameter of pipes and hollow sections against the procedure.

use crate::{
    check::{
        BaseMetal, Case, Findings, Force, Outcome, Shown,
        choice_check::{Rule, Words, texts},
        registry::declare_check,
    },
    qualify::record::ProductForm,
    trade::Coded,
};

declare_check! {
    /// ## Checks
    /// Where the procedure sets a range of outside diameters, that of every pipe lies inside it, ends included; of a
    /// hollow section its smaller side. A part of another form has none; a part of which nothing is said may be a pipe.
    /// Where the procedure sets none, nothing is said, unless the setup states one: that is then left open.
    ///
    /// ## Why
    /// The smaller the pipe, the faster position and gap change under the arc, and the less metal takes up the heat.
    ///
    /// ## Source
    /// The procedure. Rules behind it: ISO 15614-1:2017, 8.3.3, Table 9 (from half the diameter of the test piece; a test
    /// on plate above 500 mm, turned or in PC above 150 mm).
    ///
    /// ## Not checked
    /// Which of two pipes is the branch, and at which angle it stands.
    "outside-diameter", OutsideDiameter => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some(
        "On a smaller pipe than tested, angles and heat change too fast: lack of fusion, burn-through.",
    ),
    change: Some("Use a procedure for this outside diameter; this one covers"),
    state: Some(
        "State the outside diameter of every pipe and hollow section, and the form of every other part.",
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
    let parts = &case.setup.job.base_metals;
    let Some(range) = case.procedure.outside_diameter.as_deref() else {
        if let Some(stated) = parts.iter().find_map(|part| part.outside_diameter) {
            let given = || Shown::Amount(stated.amount());
            let why = "The outside diameter is left open";
            rule.of_owner(findings, Outcome::NotApplicable, given, why);
        }
        return;
    };
    for part in parts.iter().filter(|part| may_have_one(part)) {
        let what = part.form.map_or("part", Coded::code);
        let unsaid = format_args!("the outside diameter of a {what}");
        rule.within(findings, part.outside_diameter, range, (unsaid, "An outside diameter"));
    }
    rule.lacking_part(findings, &case.setup.job, "sets", || Shown::Range(range.amounts()));
}

/// Whether a part is a pipe or a hollow section, may be one, or states a diameter.
const fn may_have_one(part: &BaseMetal) -> bool {
    part.outside_diameter.is_some()
        || matches!(part.form, None | Some(ProductForm::Pipe | ProductForm::HollowSection))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::{
        Outcome::*,
        Verdict,
        fixture::{Scene, quantity, range},
    };

    /// Parts by form and diameter, under a procedure with a range of diameters or without.
    fn scene(limited: bool, parts: &[(Option<ProductForm>, Option<&'static str>)]) -> Scene {
        Scene::allowed().with(|s| {
            let own = Box::new(range("84.15 mm", ""));
            s.procedure.outside_diameter = limited.then_some(own);
            let part = s.setup.job.base_metals[0];
            let of = |(form, diameter): &(Option<ProductForm>, Option<&'static str>)| BaseMetal {
                form: *form,
                outside_diameter: diameter.map(quantity),
                ..part
            };
            s.setup.job.base_metals = parts.iter().map(of).collect();
        })
    }

    const PIPE: Option<ProductForm> = Some(ProductForm::Pipe);
    const PLATE: Option<ProductForm> = Some(ProductForm::Plate);

    /// ISO 15614-1:2017, 8.3.3, Table 9: a pipe of 168.3 mm covers from half of it, 84.15 mm or 3.312 99 in (own
    /// arithmetic).
    #[test]
    fn every_pipe_is_held_to_the_range() {
        for (diameter, outcome, verdict) in [
            (Some("84.15 mm"), Inside, Verdict::Allowed),
            (Some("84.1 mm"), Outside, Verdict::NotAllowed),
            (Some("3.313 in"), Inside, Verdict::Allowed),
            (Some("3.312 in"), Outside, Verdict::NotAllowed),
            (None, NotGiven, Verdict::Undetermined),
        ] {
            let scene = scene(true, &[(PIPE, Some("168.3 mm")), (PIPE, diameter)]);
            assert_eq!(scene.outcomes("outside-diameter"), [Inside, outcome], "{diameter:?}");
            assert_eq!(scene.verdict(), verdict, "{diameter:?}");
        }
    }

    #[test]
    fn a_plate_has_none_and_what_is_not_said_may_be_a_pipe() {
        let outcomes = |parts: &[_]| scene(true, parts).outcomes("outside-diameter");
        assert_eq!(outcomes(&[(PLATE, None); 2]), []);
        assert_eq!(outcomes(&[(PLATE, None), (PIPE, Some("200 mm"))]), [Inside]);
        assert_eq!(outcomes(&[(None, None); 2]), [NotGiven; 2]);
        assert_eq!(outcomes(&[(None, Some("60.3 mm")), (PLATE, None)]), [Outside]);
        assert_eq!(
            outcomes(&[(Some(ProductForm::HollowSection), None), (PLATE, None)]),
            [NotGiven]
        );
        assert_eq!(outcomes(&[(PIPE, Some("200 mm"))]), [Inside, NotGiven]);
        assert_eq!(outcomes(&[]), [NotGiven]);
    }

    #[test]
    fn a_procedure_without_a_range_leaves_it_open() {
        let outcomes = |parts: &[_]| scene(false, parts).outcomes("outside-diameter");
        assert_eq!(outcomes(&[(PIPE, None); 2]), []);
        assert_eq!(outcomes(&[(PIPE, Some("60.3 mm")), (PIPE, None)]), [NotApplicable]);
    }

    #[test]
    fn a_refusal_names_owner_and_remedy() {
        let found = scene(true, &[(PIPE, Some("60.3 mm")), (PLATE, None)]).of("outside-diameter");
        assert!(found[0].owner.to_string().contains("WPS-1"), "{}", found[0].owner);
        let remedy = found[0].remedy.as_deref().unwrap_or_default();
        assert!(remedy.starts_with("Use a procedure for this outside diameter"), "{remedy}");
        assert!(remedy.contains("84.15 mm"), "{remedy}");
    }
}
