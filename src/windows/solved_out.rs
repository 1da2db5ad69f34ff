//! The solved window as sent: every limit at once.

use serde::Serialize;
use utoipa::ToSchema;

use crate::{
    check::{Given, Settings, Variable},
    checks::{Detail, pointer},
    quantity::{Amount, Kind, Rounding, Share, UnitSystem},
    trade::{Coded, HeatInputNeed},
    window::{
        ConflictSet, Follows, Left, LimitEnd, Narrowed, NearestProposed, Outline, Piece,
        PreheatTrade, Proposed, Solved, WindowEnd, in_figures,
    },
    wire::{AmountOut, RangeOut, ShownOut, Units},
};

/// One limit of the window.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct LimitOut {
    /// The limit in words, with its value as typed; a computed one in the units asked for.
    #[schema(example = "arc energy at most 40 kJ/in (procedure WPS-101 revision 2)")]
    pub limit: String,
    /// Who holds it.
    pub holder: String,
    /// `required` or `advised`.
    pub force: &'static str,
    /// `exact-linear`, `inner-linearised` or `checked-afterwards`.
    pub kind: &'static str,
    /// For an inner-linearised limit, how much of the value may be lost at most.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gap: Option<AmountOut>,
}

/// One setting.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct SettingOut {
    /// The variable.
    #[schema(example = "voltage")]
    pub variable: &'static str,
    /// Its place in the setup.
    #[schema(example = "/settings/voltage")]
    pub pointer: &'static str,
    /// The value; a range where an interval was chosen.
    pub value: ShownOut,
}

/// One end of what is left of a setting.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct EndOut {
    /// The end, rounded inward: to a whole step of what is dialled, in the unit of a dial with steps of its
    /// own.
    pub value: AmountOut,
    /// Limits without which it would lie farther out.
    pub bound_by: Vec<LimitOut>,
    /// Settings with this value that keep every limit; left out in a summary.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub witness: Vec<SettingOut>,
}

/// What is left of one setting. Ends hold one at a time: ask again after each choice.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct NarrowedOut {
    /// The setting.
    #[schema(example = "voltage")]
    pub variable: &'static str,
    /// Its place in the setup.
    pub pointer: &'static str,
    /// `settable`, `resulting` or `hand-held`.
    pub role: &'static str,
    /// Lowest end.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lowest: Option<EndOut>,
    /// Highest end.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub highest: Option<EndOut>,
    /// Values lie between the ends, but no step of the setting does; never of a setting without steps.
    pub emptied_by_rounding: bool,
}

/// Settings that the window proposes, with what the check says of them.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ProposedOut {
    /// The settings.
    pub settings: Vec<SettingOut>,
    /// How often each setting may drift by its usual drift, all at once.
    pub drift: AmountOut,
    /// Verdict of the check on the whole setup with these settings.
    pub verdict: &'static str,
    /// What else the check requires, in words.
    pub unmet: Vec<String>,
}

/// Limits that cannot hold together.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ConflictOut {
    /// The conflict in words, with what each limit would have to become, where that lies within the reach of the data
    /// and arcs are seen there.
    pub words: String,
    /// The limits; without any one of them the others can hold. None where it is no matter of limits: something
    /// was asked that no setting is shown to keep.
    pub limits: Vec<LimitOut>,
}

/// What a preheat and a heat input cost each other by the CET method: keep to the heat input at this
/// preheat, or preheat more and have all of the window.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct PreheatTradeOut {
    /// `any-in-range`, `at-least` or `none-in-range`: what the preheat planned asks of the heat input, within
    /// the range of the method.
    pub heat_input: &'static str,
    /// That heat input, rounded up.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub least_heat_input: Option<AmountOut>,
    /// Least heat input that all other limits leave, for every value that strays.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub least_heat_input_of_the_window: Option<AmountOut>,
    /// Preheat that does for that one too.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub preheat_for_all_of_the_window: Option<AmountOut>,
}

/// What is left under the required or the advised limits.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct LeftOut {
    /// Why nothing is left: limits that cannot hold together, or something asked that no setting is shown to
    /// keep; left out where something is left.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub conflict: Option<ConflictOut>,
    /// Lowest and highest value of each setting.
    pub narrowed: Vec<NarrowedOut>,
    /// How often each setting may drift by its usual drift, all at once, when steps do not count.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub greatest_drift: Option<AmountOut>,
    /// The most tolerant settings.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub starting_point: Option<ProposedOut>,
    /// Highest travel speed with a margin.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fastest: Option<ProposedOut>,
    /// Least arc energy with a margin; see the caution.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub coolest: Option<ProposedOut>,
    /// How often each setting may drift by its usual drift at the fastest and the coolest: their margin.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub margin: Option<AmountOut>,
    /// What the coolest settings invite.
    #[serde(skip_serializing_if = "str::is_empty")]
    pub caution: &'static str,
    /// The least change of the stated settings that keeps every limit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub nearest: Option<ProposedOut>,
    /// Why there is no nearest setting.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub no_nearest: Option<&'static str>,
    /// The outline asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub outline: Option<OutlineOut>,
    /// Why there is no outline, where one was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub no_outline: Option<String>,
}

/// The outline of two settings.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct OutlineOut {
    /// The setting to the right.
    pub right: &'static str,
    /// The setting upward.
    pub up: &'static str,
    /// Points around it, rounded inward; straight lines between them stay inside.
    pub points: Vec<[AmountOut; 2]>,
}

/// One piece of the window.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct PieceOut {
    /// Heat input of the piece, where a cooling time makes pieces.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub heat_input: Option<RangeOut>,
    /// How the current enters: set, following with every limit kept for all of its band, or to be read.
    pub current: String,
    /// Where no setting keeps every limit for every current that can follow, and some do for a current that is read:
    /// that conflict, in words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub not_robust: Option<String>,
    /// Every limit with its kind; left out in a summary.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub limits: Vec<LimitOut>,
    /// What the required limits leave: permission.
    pub required: LeftOut,
    /// What the advised ones leave of it: recorded advice, the leg of the job without over-welding, volts and current
    /// that go with the feed as printed (within the printed feeds), and common practice, sources that overlap taken
    /// together.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub advised: Option<LeftOut>,
}

/// The window with every limit at once.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct SolvedOut {
    /// Its pieces, each with an answer of its own; more than one where a cooling time makes them.
    pub pieces: Vec<PieceOut>,
    /// Where a preheat is planned: what it and the heat input cost each other.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub preheat_trade: Option<PreheatTradeOut>,
    /// Limits that the window cannot hold; the check decides on them.
    pub checked_afterwards: Vec<String>,
    /// What could not be taken in, or is left out because nothing would be left with it; and what the setup states and
    /// the settings proposed take the place of, to be left out where they are sent back with the setup.
    pub notes: Vec<String>,
    /// Where the metal of the wire is known from, what was assumed for it and what is printed of it but not used;
    /// left out where nothing is asked of it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub metal: Vec<String>,
}

impl SolvedOut {
    /// A solved window in the caller's units.
    #[must_use]
    pub fn new(solved: &Solved, units: Units, detail: Detail) -> Self {
        let unresolved = solved.unresolved.iter();
        Self {
            pieces: solved.pieces.iter().map(|one| piece(one, (units, detail))).collect(),
            checked_afterwards: unresolved
                .map(|one| format!("{}: {}", one.limit.said(system(units)), one.reason))
                .collect(),
            preheat_trade: solved.preheat_trade.as_ref().map(|one| trade(one, units)),
            notes: solved.notes.clone(),
            metal: solved.metal.iter().map(ToString::to_string).collect(),
        }
    }
}

fn trade(trade: &PreheatTrade, units: Units) -> PreheatTradeOut {
    let up = |amount: Amount| AmountOut::rounded(amount, units, Rounding::Up);
    let (heat_input, least) = match trade.heat_input {
        HeatInputNeed::AnyInRange => ("any-in-range", None),
        HeatInputNeed::AtLeast(least) => ("at-least", Some(up(least.amount()))),
        HeatInputNeed::NoneInRange => ("none-in-range", None),
    };
    PreheatTradeOut {
        heat_input,
        least_heat_input: least,
        least_heat_input_of_the_window: trade
            .least_heat_input
            .map(|least| AmountOut::rounded(least.amount(), units, Rounding::Down)),
        preheat_for_all_of_the_window: trade.preheat_for_least.map(|preheat| up(preheat.amount())),
    }
}

/// What a summary has of a list.
fn in_full<T>(detail: Detail, list: impl FnOnce() -> Vec<T>) -> Vec<T> {
    if detail == Detail::Full { list() } else { Vec::new() }
}

fn piece(piece: &Piece, told: (Units, Detail)) -> PieceOut {
    let (units, detail) = told;
    let current = match &piece.follows {
        Follows::IsSet => "set".to_owned(),
        Follows::Robust(_) => {
            "follows feed and stick-out; every limit holds for all of its band".to_owned()
        }
        Follows::MustBeRead { reason } => format!("to be read: {reason}"),
    };
    PieceOut {
        heat_input: piece.heat_input.and_then(|range| RangeOut::inward(&range.amounts(), units)),
        current,
        not_robust: piece.not_robust.as_ref().map(|conflict| conflict.words.clone()),
        limits: in_full(detail, || piece.limits.iter().map(|one| limit(one, units)).collect()),
        required: left(&piece.required, told),
        advised: piece.advised.as_ref().map(|advised| left(advised, told)),
    }
}

fn left(result: &Result<Left, ConflictSet>, told: (Units, Detail)) -> LeftOut {
    let (units, _) = told;
    let nothing = LeftOut {
        conflict: None,
        narrowed: Vec::new(),
        greatest_drift: None,
        margin: None,
        starting_point: None,
        fastest: None,
        coolest: None,
        caution: "",
        nearest: None,
        no_nearest: None,
        outline: None,
        no_outline: None,
    };
    let left = match result {
        Ok(left) => left,
        Err(set) => return LeftOut { conflict: Some(conflict(set, units)), ..nothing },
    };
    let place = |place: &Option<Proposed>| place.as_ref().map(|place| proposed(place, units));
    let (nearest, no_nearest) = match &left.nearest {
        NearestProposed::At(place) => (Some(proposed(place, units)), None),
        NearestProposed::NoStepFits => {
            (None, Some("the window is open, but no settable step fits"))
        }
        NearestProposed::NotDecided => (None, Some("not found within the bound of the search")),
    };
    LeftOut {
        narrowed: left.narrowed.iter().map(|one| narrowed(one, told)).collect(),
        greatest_drift: left.greatest_drift.map(|drift| AmountOut::new(drift.amount(), units)),
        margin: left.margin.map(|margin| AmountOut::new(margin.amount(), units)),
        starting_point: place(&left.starting_point),
        fastest: place(&left.fastest),
        coolest: place(&left.coolest),
        caution: left.caution,
        nearest,
        no_nearest,
        outline: left.outline.as_ref().map(|one| outline(one, units)),
        no_outline: left.no_outline.clone(),
        ..nothing
    }
}

fn conflict(set: &ConflictSet, units: Units) -> ConflictOut {
    let limits = set.members.iter().map(|member| limit(&member.limit, units)).collect();
    ConflictOut { words: set.words.clone(), limits }
}

/// The system in which computed values stand.
fn system(units: Units) -> UnitSystem {
    units.unwrap_or(UnitSystem::Metric)
}

fn limit(end: &LimitEnd, units: Units) -> LimitOut {
    LimitOut {
        limit: end.said(system(units)),
        holder: end.holder.to_string(),
        force: end.force.code(),
        kind: end.kind.code(),
        gap: end.gap.map(|gap: Share| AmountOut::new(gap.amount(), units)),
    }
}

fn narrowed(narrowed: &Narrowed, told: (Units, Detail)) -> NarrowedOut {
    let out = |found: &Option<WindowEnd>| found.as_ref().map(|found| end(found, told));
    NarrowedOut {
        variable: narrowed.variable.code(),
        pointer: pointer(narrowed.variable),
        role: narrowed.role.code(),
        lowest: out(&narrowed.lowest),
        highest: out(&narrowed.highest),
        emptied_by_rounding: narrowed.emptied_by_rounding,
    }
}

fn end(end: &WindowEnd, (units, detail): (Units, Detail)) -> EndOut {
    let witness = || end.witness.as_ref().map(|found| settings(found, units)).unwrap_or_default();
    EndOut {
        // Stated in its own unit already, on a step of the dial or rounded inward.
        value: AmountOut::new(end.stated, None),
        bound_by: end.binding.iter().map(|one| limit(one, units)).collect(),
        witness: in_full(detail, witness),
    }
}

fn proposed(proposed: &Proposed, units: Units) -> ProposedOut {
    ProposedOut {
        settings: settings(&proposed.settings, units),
        drift: AmountOut::new(proposed.drift.amount(), units),
        verdict: proposed.verdict.code(),
        unmet: proposed.unmet.iter().map(|finding| finding.reason.clone()).collect(),
    }
}

/// The settings that a window speaks about. Each is shown in its own unit, as it is to be set: a conversion would
/// move it off its step.
pub(crate) fn settings(settings: &Settings, units: Units) -> Vec<SettingOut> {
    let settings = in_figures(settings, system(units));
    [
        setting(Variable::WireFeed, settings.wire_feed.as_ref()),
        setting(Variable::Voltage, settings.voltage.as_ref()),
        setting(Variable::Current, settings.current.as_ref()),
        setting(Variable::ArcPower, settings.arc_power.as_ref()),
        setting(Variable::TravelSpeed, settings.travel_speed.as_ref()),
        setting(Variable::StickOut, settings.stick_out.as_ref()),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn setting<K: Kind>(variable: Variable, given: Option<&Given<K>>) -> Option<SettingOut> {
    let span = given?.span;
    let value = match span.single() {
        Some(one) => ShownOut::Amount(AmountOut::new(one.amount(), None)),
        None => ShownOut::Range(RangeOut::new(&span.amounts(), None)?),
    };
    Some(SettingOut { variable: variable.code(), pointer: pointer(variable), value })
}

fn outline(outline: &Outline, units: Units) -> OutlineOut {
    let out = |amount| AmountOut::new(amount, units);
    OutlineOut {
        right: outline.right.code(),
        up: outline.up.code(),
        points: outline.points.iter().map(|(right, up)| [out(*right), out(*up)]).collect(),
    }
}
