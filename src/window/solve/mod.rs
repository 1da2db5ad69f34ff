//! The whole answer for one case: every piece of the window, what is required and what is advised.

mod judged;
mod limits;
mod pieces;
mod shown;

pub use judged::Proposed;
pub(super) use judged::{proposed, replacing};
use limits::Aside;
pub(super) use limits::{run_size, stated};
pub use pieces::PreheatTrade;
pub use shown::in_figures;

use super::{
    ConflictSet, Follows, Holder, LimitEnd, Narrowed, Nearest, Open, Outline, Question, Response,
    Space, Subject, Unresolved, space::ORDER,
};
use crate::{
    check::{Case, Force, Notes, Settings},
    quantity::{HeatInputKind, Range, Share},
};

/// What is left under one force.
#[derive(Debug, Clone, PartialEq)]
pub struct Left {
    /// Lowest and highest value of each setting, one at a time.
    pub narrowed: Vec<Narrowed>,
    /// Greatest common drift when steps do not count.
    pub greatest_drift: Option<Share>,
    /// The most tolerant settings.
    pub starting_point: Option<Proposed>,
    /// Highest travel speed with a margin.
    pub fastest: Option<Proposed>,
    /// Least arc energy with a margin.
    pub coolest: Option<Proposed>,
    /// How often each setting may drift by its usual drift, at the fastest and the coolest at least.
    pub margin: Option<Share>,
    /// To be shown with the coolest.
    pub caution: &'static str,
    /// The least change from what the setup states.
    pub nearest: NearestProposed,
    /// The outline asked for.
    pub outline: Option<Outline>,
    /// Why there is none, where one was asked for.
    pub no_outline: Option<String>,
}

impl Left {
    /// Some of the settings proposed.
    fn any_settings(&self) -> Option<&Settings> {
        let ends = self.narrowed.iter().flat_map(|one| [&one.lowest, &one.highest]).flatten();
        let mut witnesses = ends.filter_map(|end| end.witness.as_ref());
        self.starting_point.as_ref().map(|place| &place.settings).or_else(|| witnesses.next())
    }
}

/// The least change, judged by the check.
#[derive(Debug, Clone, PartialEq)]
pub enum NearestProposed {
    /// These settings.
    At(Box<Proposed>),
    /// The window is open, but no step of the settings lies in it.
    NoStepFits,
    /// Not found within the bound of the search.
    NotDecided,
}

/// One piece of the window.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Heat input of the piece, where a cooling time makes pieces.
    pub heat_input: Option<Range<HeatInputKind>>,
    /// How the current enters.
    pub follows: Follows,
    /// Where the current has to be read because no setting keeps every required limit for every
    /// current that can follow, and a current that is read does: that conflict. A band alone forbids nothing.
    pub not_robust: Option<ConflictSet>,
    /// Every limit with its kind.
    pub limits: Vec<LimitEnd>,
    /// What the required limits leave.
    pub required: Result<Left, ConflictSet>,
    /// What the advised ones leave of it; `None` where nothing is left of the required.
    pub advised: Option<Result<Left, ConflictSet>>,
}

/// The window of one case.
#[derive(Debug, Clone, PartialEq)]
pub struct Solved {
    /// Limits that the window cannot hold: the check decides on them.
    pub unresolved: Vec<Unresolved>,
    /// The pieces, one at least; more than one where a cooling time makes them.
    pub pieces: Vec<Piece>,
    /// What a preheat and a heat input cost each other.
    pub preheat_trade: Option<PreheatTrade>,
    /// What could not be taken in, in words.
    pub notes: Vec<String>,
    /// Where the metal of the wire is known from, what was assumed for it and what is printed of it but not used;
    /// empty where nothing is asked of it.
    pub metal: Notes,
}

/// Solves the window of one case.
#[must_use]
pub fn solve(case: &Case<'_>, question: &Question) -> Solved {
    let (base, Aside { left_out: mut notes, metal }) = limits::of_case(case, question);
    let pieces = pieces::of(&base, question);
    let response = limits::robust(case, &base);
    let preheat_trade =
        pieces.first().and_then(|(_, space)| pieces::preheat_trade(space, question, &mut notes));
    let solved = |(range, space): (Option<Range<HeatInputKind>>, Space)| {
        let (space, not_robust) = following(space, &response);
        let space = advised(case, space, &mut notes);
        piece(case, question, &space, (range, not_robust))
    };
    let pieces: Vec<_> = pieces.into_iter().map(solved).collect();
    let left = pieces.iter().filter_map(|piece| piece.required.as_ref().ok());
    notes.extend(replacing(&case.setup.settings, left.filter_map(Left::any_settings)));
    Solved { unresolved: base.unresolved().to_vec(), pieces, preheat_trade, notes, metal }
}

/// The pieces of the window of one case, with the current that follows; one at least.
#[must_use]
pub fn spaces(case: &Case<'_>, question: &Question) -> Vec<Space> {
    let (base, _) = limits::of_case(case, question);
    let response = limits::robust(case, &base);
    let mut not_told = Vec::new();
    let mut followed = |space| advised(case, following(space, &response).0, &mut not_told);
    pieces::of(&base, question).into_iter().map(|(_, space)| followed(space)).collect()
}

const WIDE_BAND: &str = "no feed keeps every current that can follow inside the required limits; read \
                         the current and keep it inside its own limits";

type Pieces = Vec<(Option<Range<HeatInputKind>>, Space)>;

/// The space with its response; where nothing is left for all of it, without, and the conflict.
fn following(
    mut space: Space,
    response: &Result<Response, Option<String>>,
) -> (Space, Option<ConflictSet>) {
    match response {
        Ok(response) => {
            let mut robust = space.clone();
            robust.follow(response.clone());
            // What is asked in vain is no matter of the current.
            if !space.unkept().is_empty() {
                return (robust, None);
            }
            let conflict = robust.open(Force::Required).err();
            if conflict.is_none() {
                return (robust, None);
            }
            space.must_be_read(WIDE_BAND.to_owned());
            space.is_read_for_strays = robust.opens_without_strays(Force::Required);
            // What one current alone does not keep either is no matter of those that can follow.
            let conflict = conflict.filter(|_| space.is_open(Force::Required));
            (space, conflict)
        }
        Err(Some(reason)) => {
            space.must_be_read(reason.clone());
            (space, None)
        }
        Err(None) => (space, None),
    }
}

/// The space with the advice that is no record's own limit. Volts that go with the feed as printed, and a current that
/// is read or stated, close the advised region where they leave nothing of it; the rest gives way then: that every
/// current that can follow goes with the feed, that it is usual for the feed where nothing is printed, that the leg is
/// not over-welded, and usual values of practice. What is left out is noted once.
fn advised(case: &Case<'_>, mut space: Space, notes: &mut Vec<String>) -> Space {
    let mut note = |note: Option<String>| notes.extend(note.filter(|note| !notes.contains(note)));
    let every_current = matches!(space.follows(), Follows::Robust(_));
    note(limits::printed_volts(case, &mut space));
    if !every_current {
        note(limits::printed_current(case, &mut space));
    }
    if !space.is_open(Force::Advised) {
        return space;
    }
    if every_current {
        let what = "That every current that can follow goes with the feed as printed";
        note(try_advice(&mut space, what, |space| limits::printed_current(case, space)));
    }
    let what = "That the current is usual for the feed";
    note(try_advice(&mut space, what, |space| limits::usual_current(case, space)));
    let what = "That one run is not over-welded for the leg";
    let over_welded = try_advice(&mut space, what, |space| {
        limits::over_welding(case, space);
        None
    });
    if over_welded.is_some() {
        // Where the hand strays too much for it, there is nothing more to say than that it gave way.
        let _ = try_advice(&mut space, what, |space| {
            limits::smallest_run(case, space);
            None
        });
    }
    note(over_welded);
    for variable in ORDER {
        let of = Subject::Variable(variable);
        let usual = match limits::usual(case, variable) {
            Ok(usual) if usual.is_empty() => continue,
            Ok(usual) => usual,
            Err(why) => {
                note(Some(format!(
                    "Common practice on the {of} is not in the advised window: {why}."
                )));
                continue;
            }
        };
        let owners = usual.iter().map(|one| one.owner.to_string()).collect::<Vec<_>>().join("; ");
        let what = format!("Common practice on the {of} ({owners})");
        note(try_advice(&mut space, &what, |space| {
            for one in &usual {
                let holder = Holder::Record(one.owner.clone());
                space.limit(variable, &one.range, &holder, one.force);
            }
            None
        }));
    }
    space
}

/// Takes a piece of advice into the space, unless nothing would be left with it; says what is left out.
fn try_advice(
    space: &mut Space,
    what: &str,
    advise: impl Fn(&mut Space) -> Option<String>,
) -> Option<String> {
    let mut further = space.clone();
    let left_out = advise(&mut further).or_else(|| {
        let gives_way =
            || format!("{what} is not in the advised window: nothing would be left with it.");
        (!further.is_open(Force::Advised)).then(gives_way)
    });
    if left_out.is_none() {
        *space = further;
    }
    left_out
}

fn piece(
    case: &Case<'_>,
    question: &Question,
    space: &Space,
    (heat_input, not_robust): (Option<Range<HeatInputKind>>, Option<ConflictSet>),
) -> Piece {
    let left = |open: Open<'_>| left(case, question, space, open);
    let required = space.open(Force::Required).map(left);
    let advised = required.is_ok().then(|| space.open(Force::Advised).map(left));
    Piece {
        heat_input,
        follows: space.follows().clone(),
        not_robust,
        limits: space.limits(),
        required,
        advised,
    }
}

fn left(case: &Case<'_>, question: &Question, space: &Space, open: Open<'_>) -> Left {
    let base = &case.setup.settings;
    let (open, places) = open.with_places(base);
    let judged = |place: Option<super::Place>| {
        place.map(|place| proposed(case, &place.settings, place.drift, question.units))
    };
    let (greatest_drift, margin) = places
        .as_ref()
        .map_or((None, None), |places| (Some(places.greatest_drift), Some(places.margin)));
    let caution = places.as_ref().map_or("", |places| places.caution);
    let (starting_point, fastest, coolest) = places.map_or((None, None, None), |places| {
        (judged(places.starting_point), judged(places.fastest), judged(places.coolest))
    });
    // Speed and stick-out may follow from what was measured of the run and the gun.
    let as_read = Settings {
        travel_speed: case.readings.travel_speed,
        stick_out: case.readings.stick_out,
        ..base.clone()
    };
    let nearest = match open.nearest(&as_read) {
        Nearest::At(place) => {
            let found = proposed(case, &place.settings, place.drift, question.units);
            NearestProposed::At(Box::new(found))
        }
        Nearest::NoStepFits => NearestProposed::NoStepFits,
        Nearest::NotDecided => NearestProposed::NotDecided,
    };
    let outline = question.outline.and_then(|(right, up)| open.outline(right, up));
    let no_outline = question.outline.filter(|_| outline.is_none()).map(|(right, up)| {
        let lacking = space.lacks(right).or_else(|| space.lacks(up));
        lacking.unwrap_or_else(|| format!("{right} and {up} span no area here"))
    });
    Left {
        narrowed: open.narrow(base),
        greatest_drift,
        margin,
        starting_point,
        fastest,
        coolest,
        caution,
        nearest,
        outline,
        no_outline,
    }
}

#[cfg(test)]
mod demand_tests;
#[cfg(test)]
mod tests;
