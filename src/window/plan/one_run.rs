//! Why a joint cannot be had in one run.

use super::{JointAsked, JointKind, SideAsked, model::Models};
use crate::{
    check::Force,
    quantity::{Area, LayerThickness, Range},
    trade::{PrequalifiedLimits, RunClass, SizeLimit, usual_shape_factors},
    window::{Space, plan::model::RunModel},
};

/// Why one run does not do, in words; `None` where it does.
pub(super) fn words(joint: &JointAsked, models: &Models) -> Option<String> {
    if joint.far.is_some() {
        let why = "The joint cannot be had in one run: it is filled from both sides.";
        return Some(why.to_owned());
    }
    let size = if let (JointKind::Fillet, Some(leg)) = (joint.kind, joint.leg()) {
        format!("{leg} leg in one run")
    } else {
        format!("{} in one run", joint.near.area.amount().told(joint.units))
    };
    if let Some(limits) = &models.limits {
        if let (Some(leg), Some(SizeLimit::AtMost(most))) = (joint.leg(), limits.single_run_fillet)
            && !leg.at_most(most)
        {
            return Some(format!("{size} cannot be had: one run may have at most {most}."));
        }
        if let Some((depth, most)) = deeper(&joint.near, limits.root) {
            return Some(format!(
                "{size} cannot be had: {depth} deep, where the root layer may have at most {most}."
            ));
        }
    }
    let model = match models.run(RunClass::Single) {
        Ok(model) => model,
        Err(why) if models.has(RunClass::Single) => {
            let why = why.trim_end_matches('.');
            return Some(format!("{size} is not computed, which says nothing against it: {why}."));
        }
        Err(why) => return Some(format!("{size} cannot be had: {why}.")),
    };
    let mut first = None;
    for piece in &model.pieces {
        match fits(joint, model, &piece.space) {
            Ok(()) => return None,
            Err(words) => first = first.or(Some(words)),
        }
    }
    let why = first.or_else(|| model.conflict.clone()).unwrap_or_default();
    // A conflict about a leg names it itself.
    let why = why.strip_prefix(&format!("{size}: ")).unwrap_or(&why);
    Some(format!("{size} cannot be had: {why}"))
}

/// Whether both sides are no deeper than one run may be: a root layer near, a fill layer far.
pub(super) fn is_one_layer_each(joint: &JointAsked, limits: Option<&PrequalifiedLimits>) -> bool {
    let Some(limits) = limits else { return true };
    let far = joint.far.as_ref().and_then(|far| deeper(far, limits.fill));
    deeper(&joint.near, limits.root).is_none() && far.is_none()
}

/// Depth of a side that is more than its layer may have, and the most it may.
fn deeper(
    side: &SideAsked,
    layer: Option<SizeLimit<LayerThickness>>,
) -> Option<(LayerThickness, LayerThickness)> {
    match (side.depth, layer) {
        (Some(depth), Some(SizeLimit::AtMost(most))) if !depth.at_most(most) => Some((depth, most)),
        _ => None,
    }
}

/// Whether a run of the size fits into a window.
///
/// # Errors
/// The conflict in words: about the leg, where the leg alone does not fit.
fn fits(joint: &JointAsked, model: &RunModel, space: &Space) -> Result<(), String> {
    let mut space = space.clone();
    let open = |space: &Space| match space.open(Force::Required) {
        Ok(_) => Ok(()),
        Err(conflict) => Err(conflict.words),
    };
    if let Some(leg) = joint.leg()
        && let Ok(shape) = usual_shape_factors()
    {
        space.leg_at_least(leg, &model.size, &shape, Force::Required);
        open(&space)?;
    }
    // Told in the units asked for, not as typed.
    if let Ok(area) = Area::computed(joint.near.area.mm2()) {
        space.run_planned(&Range::at_least(area), &model.size);
    }
    open(&space)
}

/// What does instead.
pub(super) fn instead(count: u32) -> String {
    let number = match count {
        1 => "one run".to_owned(),
        2 => "two runs".to_owned(),
        3 => "three runs".to_owned(),
        4 => "four runs".to_owned(),
        more => format!("{more} runs"),
    };
    format!("Instead: {number}.")
}
