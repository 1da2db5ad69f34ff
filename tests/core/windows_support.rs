//! Windows from plain figures in the units of the service, for tests by numbers.

use arcbounds::{
    check::{Force, Given, Owner, OwnerKind, Settings, Variable},
    quantity::{
        Amount, AmountRange, ArcEnergyKind, CurrentKind, ElectricalStickOutKind, HeatInputKind,
        Kind, PowerKind, Quantity, Share, Span, TravelSpeedKind, VoltageKind, WireFeedKind,
    },
    trade::{BurnOffPoint, Process, Waveform},
    window::{HandSpread, Holder, Response, Side, Space, Subject},
};

/// The five settings, in the order of the figures.
pub const SETTINGS: [Variable; 5] = [
    Variable::WireFeed,
    Variable::Voltage,
    Variable::Current,
    Variable::TravelSpeed,
    Variable::StickOut,
];

/// One limit: at least, at most.
pub type Limit = (Variable, Option<f64>, Option<f64>);

/// A current that follows: `I = I0 (w / w0)^p (L / L0)^q` within a band, over a reach of feeds and
/// stick-outs.
#[derive(Debug, Clone, Copy)]
pub struct Follow {
    pub through: [f64; 3],
    pub exponents: [f64; 2],
    pub band: [f64; 2],
    pub feeds: [f64; 2],
    pub stick_outs: [f64; 2],
}

/// A flux-cored wire job in plain figures.
#[derive(Debug, Clone)]
pub struct Figures {
    pub limits: Vec<Limit>,
    /// Of the hand: travel speed, stick-out.
    pub spread: [f64; 2],
    pub follow: Option<Follow>,
}

pub fn quantity<K: Kind>(value: f64) -> Quantity<K> {
    Quantity::computed(value).unwrap()
}

pub fn amount(variable: Variable, value: f64) -> Amount {
    match variable {
        Variable::WireFeed => quantity::<WireFeedKind>(value).amount(),
        Variable::Voltage => quantity::<VoltageKind>(value).amount(),
        Variable::Current => quantity::<CurrentKind>(value).amount(),
        Variable::TravelSpeed => quantity::<TravelSpeedKind>(value).amount(),
        Variable::StickOut => quantity::<ElectricalStickOutKind>(value).amount(),
        Variable::ArcPower => quantity::<PowerKind>(value).amount(),
        Variable::ArcEnergy => quantity::<ArcEnergyKind>(value).amount(),
        Variable::HeatInput => quantity::<HeatInputKind>(value).amount(),
        _ => panic!("{variable}"),
    }
}

fn share(value: f64) -> Share {
    Share::computed(value).unwrap()
}

fn span<K: Kind>([low, high]: [f64; 2]) -> Span<K> {
    Span::new(quantity(low), quantity(high)).unwrap()
}

impl Figures {
    /// The space, without the limits that `left_out` names.
    pub fn space_without(&self, left_out: &dyn Fn(Subject, Side) -> bool) -> Space {
        let spread =
            HandSpread { travel_speed: share(self.spread[0]), stick_out: share(self.spread[1]) };
        let process = Process::MagFluxCored;
        let mut space = Space::new(process, Some(Waveform::NotControlled), &spread);
        let wps = Holder::Record(Owner {
            kind: OwnerKind::Procedure,
            name: "procedure WPS-1 revision 1".into(),
        });
        for (variable, min, max) in &self.limits {
            let end = |value: &Option<f64>, side| {
                let kept = value.filter(|_| !left_out(Subject::Variable(*variable), side));
                kept.map(|value| amount(*variable, value))
            };
            let range = AmountRange { min: end(min, Side::Lowest), max: end(max, Side::Highest) };
            space.limit(*variable, &range, &wps, Force::Required);
        }
        if let Some(follow) = &self.follow {
            space.follow(follow.response());
        }
        space
    }

    pub fn space(&self) -> Space {
        self.space_without(&|_, _| false)
    }
}

impl Follow {
    fn response(&self) -> Response {
        let [feed, current, stick_out] = self.through;
        let through = BurnOffPoint {
            feed: quantity(feed),
            current: quantity(current),
            stick_out: quantity(stick_out),
        };
        let [p, q] = self.exponents.map(share);
        let [below, above] = self.band.map(share);
        let owner =
            Owner { kind: OwnerKind::ConsumableData, name: "data of consumable W (points)".into() };
        let reach = (span(self.feeds), span(self.stick_outs));
        Response::power_law(&through, (p, q), (below, above), reach, owner)
    }

    /// Lowest and highest current at a feed and a stick-out.
    pub fn currents(&self, feed: f64, stick_out: f64) -> (f64, f64) {
        let [at_feed, current, at_stick_out] = self.through;
        let by_feed = (feed / at_feed).powf(self.exponents[0]);
        let middle = current * by_feed * (stick_out / at_stick_out).powf(self.exponents[1]);
        (middle * (1.0 - self.band[0]), middle * (1.0 + self.band[1]))
    }
}

/// Feed, volts, amps, travel speed and stick-out as settings.
pub fn settings([feed, volts, amperes, speed, out]: [f64; 5]) -> Settings {
    fn set<K: Kind>(value: f64) -> Given<K> {
        Given::set(Span::one(quantity(value)))
    }
    Settings {
        wire_feed: Some(set(feed)),
        voltage: Some(set(volts)),
        current: Some(set(amperes)),
        travel_speed: Some(set(speed)),
        stick_out: Some(set(out)),
        ..Settings::default()
    }
}
