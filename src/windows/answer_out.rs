//! Windows as sent.

use serde::Serialize;
use utoipa::ToSchema;

use super::solved_out::SolvedOut;
use crate::{
    check::{Finding, Owner},
    checks::{Detail, NearMissOut, OwnerOut, RulebookOut, near_miss, pointer},
    trade::Coded,
    window::{BoxRange, Nothing, Offer, Region, Window},
    wire::{AmountOut, RangeOut, Units},
};

/// Values left, and who binds each end.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RegionOut {
    /// The values; left out where owners contradict each other or nobody sets a limit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub range: Option<RangeOut>,
    /// Owners of the lower end.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub min_owners: Vec<OwnerOut>,
    /// Owners of the upper end.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub max_owners: Vec<OwnerOut>,
    /// `range`, `no-limit` or `conflict`.
    #[schema(example = "range")]
    pub kind: &'static str,
    /// Where owners contradict each other: what each side wants, in words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub conflict: Option<String>,
}

/// The window of one variable.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct WindowOut {
    /// The variable.
    #[schema(example = "current")]
    pub variable: &'static str,
    /// Its place in the setup.
    #[schema(example = "/settings/current")]
    pub pointer: &'static str,
    /// `settable` (dialled), `resulting` (follows from what is dialled) or `hand-held`.
    #[schema(example = "settable")]
    pub role: &'static str,
    /// Whether a permission bounds it. Where not, the required values are no permission.
    pub permitted: bool,
    /// What all required limits allow together.
    pub required: RegionOut,
    /// What advice leaves inside it.
    pub advised: RegionOut,
    /// What each source of common practice leaves of the required values; one that is met is enough.
    pub practice: Vec<RegionOut>,
}

/// Something that stands in the way however the arc is set.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ObstacleOut {
    /// Code of the check.
    pub check: &'static str,
    /// Place in the setup.
    pub pointer: &'static str,
    /// Outcome of the check.
    pub outcome: &'static str,
    /// Why.
    pub reason: String,
    /// What to change.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub remedy: Option<String>,
}

/// The window of one procedure revision and one set of run limits.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct OfferOut {
    /// Number of the procedure.
    #[schema(example = "WPS-014")]
    pub procedure: String,
    /// Its revision.
    pub revision: u32,
    /// Run classes the limits are for.
    pub run_classes: Vec<&'static str>,
    /// What stands in the way whatever is set; empty where nothing does.
    pub obstacles: Vec<ObstacleOut>,
    /// The limits on each variable by itself. Limits that couple variables, such as heat input, stand on
    /// the resulting variable only; `solved` has them all at once.
    pub windows: Vec<WindowOut>,
    /// What every limit at once leaves.
    pub solved: SolvedOut,
}

/// Why no procedure revision covers the job, as the check of the setup has it.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct NothingOut {
    /// What the check finds: of the procedure named, or of the facts that one is looked for by.
    pub reasons: Vec<ObstacleOut>,
    /// Revisions that cover the job but for one fact; at most ten.
    pub near_misses: Vec<NearMissOut>,
}

impl From<Nothing> for NothingOut {
    fn from(nothing: Nothing) -> Self {
        Self {
            reasons: nothing.reasons.iter().map(obstacle).collect(),
            near_misses: nothing.near_misses.into_iter().map(near_miss).collect(),
        }
    }
}

/// What may be set.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct WindowsAnswer {
    /// One offer for each procedure revision and set of run limits that covers the job; those without
    /// obstacles first.
    pub offers: Vec<OfferOut>,
    /// Why there is no offer, where there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub nothing_offered: Option<NothingOut>,
    /// What the reader must know before using a window.
    pub caution: &'static str,
    /// Records the answer rests on.
    pub rulebook: RulebookOut,
    /// The records are too old: nothing here is a permission.
    pub stale: bool,
}

impl OfferOut {
    /// An offer in the caller's units.
    #[must_use]
    pub fn new(offer: &Offer, units: Units, detail: Detail) -> Self {
        Self {
            procedure: offer.procedure.clone(),
            revision: offer.revision,
            run_classes: offer.run_classes.iter().map(|class| class.code()).collect(),
            obstacles: offer.obstacles.iter().map(obstacle).collect(),
            windows: offer.windows.iter().map(|one| window(one, units)).collect(),
            solved: SolvedOut::new(&offer.solved, units, detail),
        }
    }
}

pub(crate) fn obstacle(finding: &Finding) -> ObstacleOut {
    ObstacleOut {
        check: finding.check,
        pointer: pointer(finding.variable),
        outcome: finding.outcome.code(),
        reason: finding.reason.clone(),
        remedy: finding.remedy.clone(),
    }
}

fn window(window: &Window, units: Units) -> WindowOut {
    WindowOut {
        variable: window.variable.code(),
        pointer: pointer(window.variable),
        role: window.role.code(),
        permitted: window.permitted,
        required: region(&window.required, units),
        advised: region(&window.advised, units),
        practice: window.practice.iter().map(|one| region(one, units)).collect(),
    }
}

fn region(region: &Region, units: Units) -> RegionOut {
    let owners = |owners: &[Owner]| owners.iter().cloned().map(OwnerOut::from).collect();
    let empty = RegionOut {
        range: None,
        min_owners: Vec::new(),
        max_owners: Vec::new(),
        kind: "no-limit",
        conflict: None,
    };
    match region {
        Region::NoLimit => empty,
        Region::Range(BoxRange { range, min_owners, max_owners }) => RegionOut {
            range: RangeOut::inward(range, units),
            min_owners: owners(min_owners),
            max_owners: owners(max_owners),
            kind: "range",
            ..empty
        },
        Region::Conflict(conflict) => {
            let words = |owners: &[Owner]| {
                owners.iter().map(ToString::to_string).collect::<Vec<_>>().join(" and ")
            };
            let shown = |amount| {
                let AmountOut { value, unit } = AmountOut::new(amount, units);
                format!("{value} {unit}")
            };
            RegionOut {
                min_owners: owners(&conflict.min_owners),
                max_owners: owners(&conflict.max_owners),
                kind: "conflict",
                conflict: Some(format!(
                    "{} wants at least {}, {} at most {}",
                    words(&conflict.min_owners),
                    shown(conflict.min),
                    words(&conflict.max_owners),
                    shown(conflict.max),
                )),
                ..empty
            }
        }
    }
}
