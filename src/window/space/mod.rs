//! The settings of one job as logarithms, and every limit on them as a face.

mod axis;
mod derived;
mod face;
mod guard;
mod printed;
mod proposal;
mod response;
mod setting;
mod spread;
mod step;
mod unkept;
mod usual;

pub(super) use axis::{
    CURRENT, FEED, ORDER, POWER, SPEED, STICK_OUT, VOLTAGE, amount, axis_of, plausible,
    typed_amount,
};
pub(in crate::window) use derived::towards_size;
pub use derived::{OutputLine, RunSize};
pub(super) use face::Face;
pub use face::{Derived, Holder, LimitEnd, LimitKind, Side, Subject};
pub use guard::Guard;
pub(super) use printed::Asked;
pub(super) use proposal::{replaced, settings_at};
pub(super) use response::Plane;
pub use response::{Follows, Response};
pub use setting::{no_setting, stated_setting};
pub use spread::HandSpread;
pub(super) use spread::{Stray, drift};
pub(super) use step::{Steps, usual_step};
pub use unkept::Unkept;

use crate::{
    check::{Force, NUMERIC, Role, Variable, role},
    quantity::{Amount, AmountRange, RELATIVE_TOLERANCE, Unit, UnitSystem},
    trade::{Process, Waveform, thermal_efficiency},
    window::linear::{AXES, DIM, HalfSpace, Polytope, Vector},
};

/// kJ/mm of one watt at one mm/min: 60 s/min over 1000 J/kJ.
const KJ_PER_WATT: f64 = 0.06;

/// A limit that the window cannot hold, and why: an answer may still be refused for it.
#[derive(Debug, Clone, PartialEq)]
pub struct Unresolved {
    /// The limit.
    pub limit: LimitEnd,
    /// Why it stands outside.
    pub reason: String,
}

/// The settings of one job with every limit on them.
#[derive(Debug, Clone, PartialEq)]
pub struct Space {
    process: Process,
    waveform: Option<Waveform>,
    /// Whether several arcs may burn together: what is set is that of one, power and energy those of all.
    several_arcs: bool,
    follows: Follows,
    pub(super) faces: Vec<Face>,
    afterwards: Vec<LimitEnd>,
    unresolved: Vec<Unresolved>,
    unkept: Vec<Unkept>,
    strays: [Stray; AXES],
    guards: [guard::ErrorBand; AXES],
    pub(super) steps: Steps,
    /// Unit of each dial that states its steps.
    dials: [Option<&'static Unit>; AXES],
    pub(super) system: UnitSystem,
    pub(super) chosen: [bool; AXES],
    /// Where what strays is an interval that was chosen, and not the hand.
    pub(super) intervals: [bool; AXES],
    /// Whether the current is only read because of what strays: without that it would follow, within limits of its own.
    pub(super) is_read_for_strays: bool,
}

/// The faces of one force as half-spaces.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Region {
    pub(super) polytope: Polytope,
    /// For each half-space, the face it comes from.
    pub(super) faces: Vec<usize>,
}

impl Space {
    /// A job without limits: only what is plausible bounds it, which is never permission.
    #[must_use]
    pub fn new(process: Process, waveform: Option<Waveform>, spread: &HandSpread) -> Self {
        let stray = |variable| Stray::share(spread.of(process, variable));
        let follows = if role(process, Variable::Current) == Some(Role::Settable) {
            Follows::IsSet
        } else {
            Follows::MustBeRead { reason: "nothing says how it follows from the feed".to_owned() }
        };
        Self {
            process,
            waveform,
            several_arcs: false,
            follows,
            faces: Vec::new(),
            afterwards: Vec::new(),
            unresolved: Vec::new(),
            unkept: Vec::new(),
            strays: ORDER.map(stray),
            guards: [guard::ErrorBand::default(); AXES],
            steps: Steps::NONE,
            dials: [None; AXES],
            system: UnitSystem::Metric,
            chosen: [false; AXES],
            intervals: [false; AXES],
            is_read_for_strays: false,
        }
    }

    /// Takes the settings as those of one of several arcs: nothing here is the power of all.
    pub(super) const fn of_several_arcs(&mut self) {
        self.several_arcs = true;
    }

    /// The process.
    #[must_use]
    pub const fn process(&self) -> Process {
        self.process
    }

    /// How the current enters.
    #[must_use]
    pub const fn follows(&self) -> &Follows {
        &self.follows
    }

    /// Limits that the window cannot hold.
    #[must_use]
    pub fn unresolved(&self) -> &[Unresolved] {
        &self.unresolved
    }

    /// Adds a limit on one variable. One that is no matter of the arc's settings, such as a
    /// temperature, is noted as checked afterwards; one that nothing computes, as unresolved.
    pub fn limit(
        &mut self,
        variable: Variable,
        range: &AmountRange,
        holder: &Holder,
        force: Force,
    ) {
        let subject = Subject::Variable(variable);
        match self.terms(variable) {
            Ok(Some((weights, constant))) => {
                for (side, at) in ends(range) {
                    let limit = end_of(subject, side, at, holder, force);
                    self.add(weights, constant, limit);
                }
            }
            Ok(None) if role(self.process, variable).is_some() => {
                let left = |(side, at)| LimitEnd {
                    kind: LimitKind::CheckedAfterwards,
                    ..end_of(subject, side, at, holder, force)
                };
                self.afterwards.extend(ends(range).map(left));
            }
            Ok(None) => {}
            Err(reason) => {
                let left = |(side, at)| Unresolved {
                    limit: end_of(subject, side, at, holder, force),
                    reason: reason.to_owned(),
                };
                self.unresolved.extend(ends(range).map(left));
            }
        }
    }

    /// Weights of a variable's logarithm and a constant; `None` for one that is no matter of the arc.
    pub(super) fn terms(
        &self,
        variable: Variable,
    ) -> Result<Option<([f64; AXES], f64)>, &'static str> {
        if !NUMERIC.contains(&variable) || role(self.process, variable).is_none() {
            return Ok(None);
        }
        let mut weights = [0.0; AXES];
        let per_length = KJ_PER_WATT.ln();
        match variable {
            Variable::ArcPower => Ok(Some((self.power()?, 0.0))),
            Variable::ArcEnergy | Variable::HeatInput => {
                weights = self.power()?;
                weights[SPEED] -= 1.0;
                let factor = if variable == Variable::HeatInput {
                    let known = thermal_efficiency(self.process);
                    known.ok_or("no thermal efficiency is known for the process")?.0.ratio()
                } else {
                    1.0
                };
                Ok(Some((weights, per_length + factor.ln())))
            }
            _ => Ok(axis_of(variable).map(|axis| {
                weights[axis] = 1.0;
                (weights, 0.0)
            })),
        }
    }

    /// Weights of the arc power.
    fn power(&self) -> Result<[f64; AXES], &'static str> {
        let mut weights = [0.0; AXES];
        if self.several_arcs {
            return Err("several electrodes burn together, and the settings are those of one");
        }
        match self.waveform {
            Some(Waveform::NotControlled) => {
                weights[VOLTAGE] = 1.0;
                weights[CURRENT] = 1.0;
            }
            Some(Waveform::Controlled) => weights[POWER] = 1.0,
            None => {
                return Err(
                    "nobody says whether the output is waveform-controlled, so volts times \
                            amps may be no arc power",
                );
            }
        }
        Ok(weights)
    }

    /// Adds `Σ weights · x + constant` at most, or at least, the end of the limit.
    fn add(&mut self, weights: [f64; AXES], constant: f64, limit: LimitEnd) {
        // No logarithm below zero: such a lower end is always met, such an upper one never.
        let value = limit.at.canonical();
        if limit.side == Side::Lowest && value <= 0.0 {
            return;
        }
        let end = value.max(f64::MIN_POSITIVE).ln() - constant;
        let (weights, bound) = match limit.side {
            Side::Highest => (weights, end),
            Side::Lowest => (weights.map(|weight| -weight), -end),
        };
        self.faces.push(Face { weights, bound, limit, of_aim: false });
    }

    /// Holds required limits for every current that can follow, and stays where that is known.
    pub fn follow(&mut self, response: Response) {
        let holder = Holder::ResponseData(response.owner.clone());
        let reach = [
            (Variable::WireFeed, response.feeds.amounts()),
            (Variable::StickOut, response.stick_outs.amounts()),
        ];
        for (variable, range) in reach {
            self.limit(variable, &range, &holder, Force::Required);
        }
        self.follows = Follows::Robust(Box::new(response));
    }

    /// Says why the current does not follow in a known way.
    pub(super) fn must_be_read(&mut self, reason: String) {
        self.follows = Follows::MustBeRead { reason };
    }

    /// Holds a variable at a chosen value, or all limits for every value of a chosen interval. A stated
    /// current takes the place of the response.
    pub fn choose(&mut self, variable: Variable, range: &AmountRange) {
        let (Some(axis), Some((low, high))) = (axis_of(variable), range.min.zip(range.max)) else {
            return;
        };
        if axis == CURRENT && self.follows != Follows::IsSet {
            self.must_be_read("it is stated".to_owned());
        }
        let (from, to) = (low.canonical().ln(), high.canonical().ln());
        let middle = f64::midpoint(from, to);
        if to > from {
            self.strays[axis] = Stray { down: middle - from, up: to - middle };
            self.intervals[axis] = true;
        }
        self.chosen[axis] = true;
        // What is chosen stands as it is, on a step of the dial or not.
        self.steps.leave_out(axis);
        let mut weights = [0.0; AXES];
        weights[axis] = 1.0;
        let subject = Subject::Variable(variable);
        for (side, at, sign) in [(Side::Lowest, low, -1.0), (Side::Highest, high, 1.0)] {
            let limit = end_of(subject, side, at, &Holder::Chosen, Force::Required);
            let weights = weights.map(|weight| sign * weight);
            self.faces.push(Face { weights, bound: sign * middle, limit, of_aim: true });
        }
    }

    /// The units in which answers state their values, but for dials with steps of their own.
    pub const fn write_in(&mut self, system: UnitSystem) {
        self.system = system;
    }

    /// The unit in which answers state an axis.
    pub(super) fn unit(&self, axis: usize) -> &'static Unit {
        self.dials[axis].unwrap_or_else(|| axis::info(axis).answer_unit(self.system))
    }

    /// Whether the axis is one of this job's, and free.
    pub(super) fn is_active(&self, axis: usize) -> bool {
        let follows = matches!(self.follows, Follows::Robust(_));
        match axis {
            CURRENT => !follows,
            POWER => self.waveform == Some(Waveform::Controlled),
            _ => role(self.process, ORDER[axis]).is_some(),
        }
    }

    /// Role of the variable of an axis.
    pub(super) fn role(&self, axis: usize) -> Option<Role> {
        role(self.process, ORDER[axis])
    }

    /// The same without the limits on one derived quantity.
    pub(super) fn without(&self, derived: Derived) -> Self {
        let mut space = self.clone();
        space.faces.retain(|face| face.limit.subject != Subject::Derived(derived));
        space.unkept.retain(|unkept| unkept.demand != Subject::Derived(derived));
        space
    }

    pub(super) const fn stray(&self, axis: usize) -> Stray {
        self.strays[axis]
    }

    /// Weights with the current replaced by each plane of its response that can be the worst, and what
    /// that plane adds.
    pub(super) fn substituted(&self, weights: &[f64; AXES]) -> Vec<(Vector, f64)> {
        let mut normal = [0.0; DIM];
        normal[..AXES].copy_from_slice(weights);
        let on_current = weights[CURRENT];
        let Follows::Robust(response) = &self.follows else { return vec![(normal, 0.0)] };
        if on_current == 0.0 {
            return vec![(normal, 0.0)];
        }
        normal[CURRENT] = 0.0;
        let planes = if on_current > 0.0 { &response.upper } else { &response.lower };
        let by = |plane: &Plane| {
            let mut normal = normal;
            normal[FEED] += on_current * plane.feed;
            normal[STICK_OUT] += on_current * plane.stick_out;
            (normal, on_current * plane.at)
        };
        planes.iter().map(by).collect()
    }

    /// The largest value of `Σ weights · x` above that of the aim, for all that strays.
    pub(super) fn worst(&self, normal: &Vector) -> f64 {
        let of = |axis: usize| self.strays[axis].shift(normal[axis]);
        (0..AXES).filter(|axis| normal[*axis] != 0.0).map(of).sum()
    }

    /// The half-spaces of a face: one for each plane that the current can follow.
    pub(super) fn half_spaces(&self, face: &Face) -> Vec<HalfSpace> {
        let half_space = |(normal, shift): (Vector, f64)| {
            let beside = |normal| self.worst(normal) + self.errors(face, normal);
            let strays = if face.of_aim { 0.0 } else { beside(&normal) };
            HalfSpace { normal, bound: face.bound - shift - strays }
        };
        self.substituted(&face.weights).into_iter().map(half_space).collect()
    }

    /// All required faces; for [`Force::Advised`] the advised ones with them.
    pub(super) fn region(&self, force: Force) -> Region {
        let wanted = |face: &Face| force == Force::Advised || face.limit.force == Force::Required;
        let (mut faces, mut half_spaces) = (Vec::new(), Vec::new());
        for (number, face) in self.faces.iter().enumerate().filter(|(_, face)| wanted(face)) {
            for half_space in self.half_spaces(face) {
                faces.push(number);
                half_spaces.push(half_space);
            }
        }
        let (mut low, mut high) = ([0.0; DIM], [0.0; DIM]);
        for axis in (0..AXES).filter(|axis| self.is_active(*axis)) {
            (low[axis], high[axis]) = plausible(axis);
        }
        let polytope = Polytope { faces: half_spaces, low, high };
        Region { polytope, faces }
    }

    /// Every limit with its kind.
    #[must_use]
    pub fn limits(&self) -> Vec<LimitEnd> {
        let of_face = |face: &Face| {
            let mut limit = face.limit.clone();
            let follows = match &self.follows {
                Follows::Robust(response) if face.weights[CURRENT] != 0.0 => {
                    Some(face.weights[CURRENT].abs() * response.gap)
                }
                _ => None,
            };
            let spare = self.spare_errors(face);
            if follows.is_some() || spare > RELATIVE_TOLERANCE {
                let own = limit.gap.map_or(0.0, |gap| gap.ratio().ln_1p());
                limit = limit.linearised(own + follows.unwrap_or_default() + spare);
            }
            limit
        };
        self.faces.iter().map(of_face).chain(self.afterwards.iter().cloned()).collect()
    }
}

/// The ends of a range.
fn ends(range: &AmountRange) -> impl Iterator<Item = (Side, Amount)> + use<> {
    let min = range.min.map(|at| (Side::Lowest, at));
    min.into_iter().chain(range.max.map(|at| (Side::Highest, at)))
}

fn end_of(subject: Subject, side: Side, at: Amount, holder: &Holder, force: Force) -> LimitEnd {
    let kind = LimitKind::ExactLinear;
    LimitEnd { subject, side, at, holder: holder.clone(), force, kind, gap: None }
}
