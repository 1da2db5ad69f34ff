//! What a portion still is at a moment, by what its data allows and what happened to it.

use time::OffsetDateTime;

use super::{CareAction, CareRules, CareStep, ExposureLimit};
use crate::{
    quantity::{Duration, HydrogenContent, Share, Temperature},
    trade::coded,
};

coded! {
    /// Where a portion is.
    pub enum CarePlace: "place of a filler" {
        /// In its packet, as received.
        Packed = "packed",
        /// In the air.
        InAir = "in-air",
        /// In a holding oven.
        InOven = "in-oven",
        /// In the baking oven.
        InBake = "in-bake",
        /// Thrown away.
        Gone = "gone",
    }
}

coded! {
    /// What took a portion its hydrogen class.
    pub enum CareLoss: "loss of a filler" {
        /// It has to be baked before the first use, and was not.
        NeverBaked = "never-baked",
        /// It lay in the air for longer than its data allows.
        ExposedTooLong = "exposed-too-long",
        /// It is being baked.
        BeingBaked = "being-baked",
        /// It was baked more often than its data allows.
        BakedTooOften = "baked-too-often",
        /// It was baked hotter than its data allows.
        BakedTooHot = "baked-too-hot",
        /// It was baked for longer than its data allows.
        BakedTooLong = "baked-too-long",
        /// It was baked, and its data allows no baking.
        BakedAtAll = "baked-at-all",
        /// It was thrown away.
        Scrapped = "scrapped",
    }
}

coded! {
    /// What a bake did.
    pub enum BakeResult: "result of a bake" {
        /// The filler is as good as fresh.
        Restored = "restored",
        /// Colder than the data asks for: nothing is restored, and the bake is used up.
        TooCold = "too-cold",
        /// Shorter than the data asks for: nothing is restored, and the bake is used up.
        TooShort = "too-short",
        /// The filler is spoiled.
        Spoiled = "spoiled",
    }
}

/// Whether a portion may be welded with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CareFitness {
    /// As far as its hydrogen goes, it may.
    Usable,
    /// It has to be baked first, and may be.
    Bake(CareLoss),
    /// It may not, and nothing makes it good again.
    Scrap(CareLoss),
    /// Nobody can tell: its data holds for air of a stated humidity, and that of the air it lay in is not
    /// known.
    HumidityUnknown,
}

/// What a portion is at a moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CareState {
    /// Where it is.
    pub place: CarePlace,
    /// Whether it may be welded with.
    pub fitness: CareFitness,
    /// Time in the air that counts.
    pub exposed: Duration,
    /// Highest hydrogen it still has; `None` where it lost its class or nobody states one.
    pub hydrogen: Option<HydrogenContent>,
    /// Until when it keeps that hydrogen, while it stays in the air.
    pub hydrogen_until: Option<OffsetDateTime>,
    /// Until when it may be used at all, while it stays in the air.
    pub usable_until: Option<OffsetDateTime>,
    /// Time in the air that is left.
    pub left: Option<Duration>,
    /// Bakes so far, whatever they did.
    pub bakes: u32,
    /// Bakes that its data still allows.
    pub bakes_left: u32,
    /// What the last bake did.
    pub last_bake: Option<BakeResult>,
}

/// The state of a portion after these steps, in the order they happened, those after the moment left aside.
/// `fresh` is the hydrogen of the packed or dried condition, where somebody states it.
///
/// Own reading of such data, on the safe side throughout: time in the air adds up over several stays; each
/// limit holds only if all of that air was dry enough for it; between a bake and the holding oven, and in an
/// oven outside its span, the filler counts as in the air; a bake that restored nothing is used up all the
/// same.
#[must_use]
pub fn care_state(
    rules: &CareRules,
    fresh: Option<HydrogenContent>,
    steps: &[CareStep],
    at: OffsetDateTime,
) -> CareState {
    let mut course = Course::new(rules, fresh, at);
    for step in steps.iter().filter(|step| step.at <= at) {
        course.take(step);
    }
    course.pass(at);
    course.state(at)
}

/// Where a portion lies, with what decides how it fares there.
#[derive(Debug, Clone, Copy)]
enum Lies {
    Packed,
    Air(Option<Share>),
    Oven(Temperature),
    Bake { until: OffsetDateTime, temperature: Temperature },
    Gone,
}

/// A limit of the time in the air, and how far it applies to the air so far.
#[derive(Debug, Clone, Copy)]
struct Tier {
    longest: f64,
    hydrogen: Option<HydrogenContent>,
    highest_humidity: Option<Share>,
    /// No stay is known to have been too damp for it.
    possible: bool,
    /// Every stay is known to have been dry enough.
    sure: bool,
}

/// A portion on its way through time.
struct Course<'a> {
    rules: &'a CareRules,
    fresh: Option<HydrogenContent>,
    lies: Lies,
    since: OffsetDateTime,
    exposed: f64,
    tiers: Vec<Tier>,
    lost: Option<CareLoss>,
    spoiled: Option<CareLoss>,
    bakes: u32,
    last_bake: Option<BakeResult>,
}

impl<'a> Course<'a> {
    fn new(rules: &'a CareRules, fresh: Option<HydrogenContent>, since: OffsetDateTime) -> Self {
        let tier = |limit: &ExposureLimit| Tier {
            longest: limit.longest.seconds(),
            hydrogen: worse(limit.hydrogen.and_then(|class| class.ceiling().ok()), fresh),
            highest_humidity: limit.highest_humidity,
            possible: true,
            sure: true,
        };
        Self {
            rules,
            fresh,
            lies: Lies::Packed,
            since,
            exposed: 0.0,
            tiers: rules.exposure.iter().map(tier).collect(),
            lost: rules.bake_before_first_use.then_some(CareLoss::NeverBaked),
            spoiled: None,
            bakes: 0,
            last_bake: None,
        }
    }

    fn take(&mut self, step: &CareStep) {
        self.pass(step.at);
        self.lies = match step.action {
            CareAction::Opened { humidity } | CareAction::OutOfOven { humidity } => {
                Lies::Air(humidity)
            }
            CareAction::Baked { until, temperature } => Lies::Bake { until, temperature },
            CareAction::IntoOven { temperature } => Lies::Oven(temperature),
            CareAction::Scrapped => Lies::Gone,
        };
        self.since = step.at;
    }

    /// Lets time pass where the portion lies.
    fn pass(&mut self, to: OffsetDateTime) {
        let seconds = (to - self.since).as_seconds_f64();
        match self.lies {
            Lies::Packed | Lies::Gone => {}
            Lies::Air(humidity) => self.expose(seconds, humidity),
            Lies::Oven(temperature) => self.hold(seconds, temperature),
            Lies::Bake { until, temperature } if to >= until => {
                self.bake((until - self.since).as_seconds_f64(), temperature);
                self.lies = Lies::Air(None);
                self.expose((to - until).as_seconds_f64(), None);
            }
            // The begin of a bake stays, for its length.
            Lies::Bake { .. } => return,
        }
        self.since = to;
    }

    fn expose(&mut self, seconds: f64, humidity: Option<Share>) {
        if seconds <= 0.0 {
            return;
        }
        self.exposed += seconds;
        for tier in &mut self.tiers {
            let Some(highest) = tier.highest_humidity else { continue };
            tier.sure &= humidity.is_some_and(|humidity| humidity.at_most(highest));
            tier.possible &= humidity.is_none_or(|humidity| humidity.at_most(highest));
        }
        if !self.tiers.iter().any(|tier| tier.possible && self.within(tier)) {
            self.lost.get_or_insert(CareLoss::ExposedTooLong);
        }
    }

    fn within(&self, tier: &Tier) -> bool {
        duration(self.exposed).at_most(duration(tier.longest))
    }

    fn hold(&mut self, seconds: f64, temperature: Temperature) {
        let held = self
            .rules
            .holding
            .is_some_and(|range| range.contains(&crate::quantity::Span::one(temperature)));
        if !held {
            return self.expose(seconds, None);
        }
        let enough = self
            .rules
            .holding_restores_after
            .is_some_and(|least| duration(seconds).at_least(least));
        if enough && self.lost.is_none() && self.is_as_fresh() {
            self.restore();
        }
    }

    /// Whether the air so far took nothing of the fresh class.
    fn is_as_fresh(&self) -> bool {
        let fresh = |tier: &&Tier| tier.sure && tier.hydrogen == self.fresh && self.within(tier);
        self.tiers.iter().any(|tier| fresh(&tier))
    }

    fn restore(&mut self) {
        self.exposed = 0.0;
        self.lost = None;
        for tier in &mut self.tiers {
            (tier.possible, tier.sure) = (true, true);
        }
    }

    fn bake(&mut self, seconds: f64, temperature: Temperature) {
        self.bakes += 1;
        let result = self.baked(duration(seconds), temperature);
        self.last_bake = Some(match result {
            Ok(BakeResult::Restored) => {
                self.restore();
                BakeResult::Restored
            }
            Ok(result) => result,
            Err(loss) => {
                self.spoiled.get_or_insert(loss);
                BakeResult::Spoiled
            }
        });
    }

    fn baked(&self, time: Duration, temperature: Temperature) -> Result<BakeResult, CareLoss> {
        let rule = self.rules.baking.as_ref().ok_or(CareLoss::BakedAtAll)?;
        if self.bakes > rule.times {
            return Err(CareLoss::BakedTooOften);
        }
        if rule.temperature.max().is_some_and(|most| !temperature.at_most(most)) {
            return Err(CareLoss::BakedTooHot);
        }
        if rule.time.max().is_some_and(|most| !time.at_most(most)) {
            return Err(CareLoss::BakedTooLong);
        }
        if rule.temperature.min().is_some_and(|least| !temperature.at_least(least)) {
            return Ok(BakeResult::TooCold);
        }
        let short = rule.time.min().is_some_and(|least| !time.at_least(least));
        Ok(if short { BakeResult::TooShort } else { BakeResult::Restored })
    }

    fn state(&self, at: OffsetDateTime) -> CareState {
        let bakes_allowed = self.rules.baking.map_or(0, |rule| rule.times);
        let bakes_left = bakes_allowed.saturating_sub(self.bakes);
        let fitness = self.fitness(bakes_left);
        let usable = fitness == CareFitness::Usable;
        let hydrogen = self.hydrogen().filter(|_| usable);
        let sure = || self.tiers.iter().filter(|tier| tier.sure && usable);
        let keeps = |tier: &&Tier| hydrogen.is_some() && tier.hydrogen == hydrogen;
        let last = longest(sure()).map(|longest| longest - self.exposed);
        let in_air = matches!(self.lies, Lies::Air(_));
        let moment = |left: f64| at.checked_add(time::Duration::seconds_f64(left.max(0.0)));
        CareState {
            place: self.place(),
            fitness,
            exposed: duration(self.exposed),
            hydrogen,
            hydrogen_until: longest(sure().filter(keeps))
                .filter(|_| in_air)
                .and_then(|longest| moment(longest - self.exposed)),
            usable_until: last.filter(|_| in_air).and_then(moment),
            left: last.map(|left| duration(left.max(0.0))),
            bakes: self.bakes,
            bakes_left,
            last_bake: self.last_bake,
        }
    }

    const fn place(&self) -> CarePlace {
        match self.lies {
            Lies::Packed => CarePlace::Packed,
            Lies::Air(_) => CarePlace::InAir,
            Lies::Oven(_) => CarePlace::InOven,
            Lies::Bake { .. } => CarePlace::InBake,
            Lies::Gone => CarePlace::Gone,
        }
    }

    fn fitness(&self, bakes_left: u32) -> CareFitness {
        let in_bake = matches!(self.lies, Lies::Bake { .. });
        match (self.lies, self.spoiled, self.lost) {
            (Lies::Gone, ..) => CareFitness::Scrap(CareLoss::Scrapped),
            (_, Some(loss), _) => CareFitness::Scrap(loss),
            _ if in_bake => CareFitness::Bake(CareLoss::BeingBaked),
            (_, None, Some(loss)) if bakes_left > 0 => CareFitness::Bake(loss),
            (_, None, Some(loss)) => CareFitness::Scrap(loss),
            _ if self.exposed > 0.0 && longest(self.good()).is_none() => {
                CareFitness::HumidityUnknown
            }
            _ => CareFitness::Usable,
        }
    }

    /// Limits that surely hold for the air so far.
    fn good(&self) -> impl Iterator<Item = &Tier> {
        self.tiers.iter().filter(|tier| tier.sure && self.within(tier))
    }

    /// The best class that surely holds. A class of a longer time holds for a shorter one too.
    fn hydrogen(&self) -> Option<HydrogenContent> {
        let fresh = self.fresh.filter(|_| self.exposed <= 0.0);
        let of_tiers = self.good().filter_map(|tier| tier.hydrogen);
        fresh.or_else(|| of_tiers.reduce(HydrogenContent::min))
    }
}

fn longest<'t>(tiers: impl Iterator<Item = &'t Tier>) -> Option<f64> {
    tiers.map(|tier| tier.longest).reduce(f64::max)
}

/// The class of a limit where it has one of its own, never better than fresh.
fn worse(own: Option<HydrogenContent>, fresh: Option<HydrogenContent>) -> Option<HydrogenContent> {
    match (own, fresh) {
        (Some(own), Some(fresh)) => Some(own.max(fresh)),
        (own, fresh) => own.or(fresh),
    }
}

/// Seconds as a duration; they come from two moments, and are finite.
fn duration(seconds: f64) -> Duration {
    Duration::computed(seconds).unwrap_or(Duration::ZERO)
}
