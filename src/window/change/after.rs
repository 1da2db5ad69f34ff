//! A setup after one of its variables was changed, and what follows from that.

use super::Governing;
use crate::{
    check::{Given, Settings, Setup, Variable},
    quantity::{
        AmountRange, Current, CurrentKind, ElectricalStickOutKind, GasFlowKind, Kind,
        QuantityError, Span, TemperatureKind, TravelAngleKind, TravelSpeedKind, VoltageKind,
        WeaveWidthKind, WireFeedKind,
    },
};

/// A changed setup.
pub(super) struct Changed {
    pub(super) setup: Setup,
    /// The changed value.
    pub(super) to: AmountRange,
    /// The current that follows, where the change moves it.
    pub(super) current_then: Option<AmountRange>,
    /// Variables that are not what they were.
    pub(super) affected: &'static [Variable],
}

/// Least and greatest ratio of the new current to the old, from the values before and after.
type CurrentRatio<K> = fn(Span<K>, Span<K>) -> (f64, f64);

/// What a change of one variable does.
#[derive(Clone, Copy)]
pub(super) struct Effect<K: Kind> {
    pub(super) variable: Variable,
    /// The present value.
    pub(super) present: fn(&Governing<'_>) -> Option<Span<K>>,
    /// Puts the new value; readings of the old one go.
    put: fn(&mut Settings, Span<K>),
    /// Least and greatest ratio of the new current to the old; `None` where the current stays.
    current: Option<CurrentRatio<K>>,
    affected: &'static [Variable],
}

const CURRENT_SET: &[Variable] =
    &[Variable::Current, Variable::ArcPower, Variable::ArcEnergy, Variable::HeatInput];

const VOLTS_SET: &[Variable] =
    &[Variable::Voltage, Variable::ArcPower, Variable::ArcEnergy, Variable::HeatInput];

const FEED_SET: &[Variable] = &[
    Variable::WireFeed,
    Variable::Current,
    Variable::ArcPower,
    Variable::ArcEnergy,
    Variable::HeatInput,
];

const STICK_OUT_HELD: &[Variable] = &[
    Variable::StickOut,
    Variable::Current,
    Variable::ArcPower,
    Variable::ArcEnergy,
    Variable::HeatInput,
];

const SPEED_HELD: &[Variable] = &[Variable::TravelSpeed, Variable::ArcEnergy, Variable::HeatInput];

pub(super) const CURRENT: Effect<CurrentKind> = Effect {
    variable: Variable::Current,
    present: |governing| span(governing.setup.settings.current),
    put: |settings, to| {
        settings.current = Some(Given::set(to));
        forget_power(settings);
    },
    current: None,
    affected: CURRENT_SET,
};

pub(super) const VOLTAGE: Effect<VoltageKind> = Effect {
    variable: Variable::Voltage,
    present: |governing| span(governing.setup.settings.voltage),
    put: |settings, to| {
        settings.voltage = Some(Given::set(to));
        forget_power(settings);
    },
    current: None,
    affected: VOLTS_SET,
};

/// By the burn-off equation, w = alpha I + beta L I², whose coefficients are not below zero: r times the feed
/// draws between √r and r times the current.
pub(super) const WIRE_FEED: Effect<WireFeedKind> = Effect {
    variable: Variable::WireFeed,
    present: |governing| span(governing.setup.settings.wire_feed),
    put: |settings, to| {
        settings.wire_feed = Some(Given::set(to));
        forget_power(settings);
    },
    current: Some(|from, to| {
        ends(from, to, |ratio| (ratio.min(ratio.sqrt()), ratio.max(ratio.sqrt())))
    }),
    affected: FEED_SET,
};

/// By the same equation at constant feed: k times the stick-out draws between 1/√k and 1 times the current.
pub(super) const STICK_OUT: Effect<ElectricalStickOutKind> = Effect {
    variable: Variable::StickOut,
    present: |governing| span(governing.readings.stick_out),
    put: |settings, to| {
        settings.stick_out = Some(Given::set(to));
        settings.visible_stick_out = None;
        forget_power(settings);
    },
    current: Some(|from, to| {
        ends(from, to, |ratio| {
            let resistive = 1.0 / ratio.sqrt();
            (resistive.min(1.0), resistive.max(1.0))
        })
    }),
    affected: STICK_OUT_HELD,
};

pub(super) const TRAVEL_SPEED: Effect<TravelSpeedKind> = Effect {
    variable: Variable::TravelSpeed,
    present: |governing| span(governing.readings.travel_speed),
    put: |settings, to| {
        settings.travel_speed = Some(Given::set(to));
        settings.run_length = None;
        settings.arc_time = None;
        settings.run_energy = None;
        settings.arc_energy = None;
        settings.heat_input = None;
    },
    current: None,
    affected: SPEED_HELD,
};

pub(super) const TRAVEL_ANGLE: Effect<TravelAngleKind> = Effect {
    variable: Variable::TravelAngle,
    present: |governing| span(governing.setup.settings.travel_angle),
    put: |settings, to| settings.travel_angle = Some(Given::set(to)),
    current: None,
    affected: &[Variable::TravelAngle],
};

pub(super) const WEAVE_WIDTH: Effect<WeaveWidthKind> = Effect {
    variable: Variable::WeaveWidth,
    present: |governing| span(governing.setup.settings.weave_width),
    put: |settings, to| settings.weave_width = Some(Given::set(to)),
    current: None,
    affected: &[Variable::WeaveWidth],
};

pub(super) const GAS_FLOW: Effect<GasFlowKind> = Effect {
    variable: Variable::GasFlow,
    present: |governing| span(governing.setup.settings.gas_flow),
    put: |settings, to| settings.gas_flow = Some(Given::set(to)),
    current: None,
    affected: &[Variable::GasFlow],
};

pub(super) const PREHEAT: Effect<TemperatureKind> = Effect {
    variable: Variable::Preheat,
    present: |governing| span(governing.setup.settings.preheat),
    put: |settings, to| settings.preheat = Some(Given::set(to)),
    current: None,
    affected: &[Variable::Preheat],
};

impl<K: Kind> Effect<K> {
    /// The setup with the new value and what follows from it.
    pub(super) fn changed(
        &self,
        governing: &Governing<'_>,
        from: Span<K>,
        to: Span<K>,
    ) -> Result<Changed, QuantityError> {
        let mut setup = governing.setup.clone();
        (self.put)(&mut setup.settings, to);
        let mut current_then = None;
        if let (Some(ratios), Some(now)) = (self.current, setup.settings.current) {
            let (least, most) = ratios(from, to);
            let then = scaled(now.span, least, most)?;
            current_then = Some(then.amounts());
            setup.settings.current = Some(Given::set(then));
        }
        Ok(Changed { setup, to: to.amounts(), current_then, affected: self.affected })
    }
}

fn span<K: Kind>(given: Option<Given<K>>) -> Option<Span<K>> {
    given.map(|given| given.span)
}

/// What was measured of the arc before is not so any more.
fn forget_power(settings: &mut Settings) {
    settings.arc_power = None;
    settings.run_energy = None;
    settings.arc_energy = None;
    settings.heat_input = None;
}

/// Least and greatest ratio over both ends of an interval.
fn ends<K: Kind>(from: Span<K>, to: Span<K>, of: impl Fn(f64) -> (f64, f64)) -> (f64, f64) {
    let low = of(to.low().canonical() / from.low().canonical());
    let high = of(to.high().canonical() / from.high().canonical());
    (low.0.min(high.0), low.1.max(high.1))
}

fn scaled(
    now: Span<CurrentKind>,
    least: f64,
    most: f64,
) -> Result<Span<CurrentKind>, QuantityError> {
    let low = Current::computed(now.low().amperes() * least)?;
    let high = Current::computed(now.high().amperes() * most)?;
    Span::new(low, high).map_err(|_| QuantityError::NotFinite { quantity: "welding current" })
}
