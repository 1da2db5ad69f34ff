//! Heat input that keeps a cooling time within its limit.

use super::{CoolingError, ShapeFactors, t8_5::Terms};
use crate::{
    quantity::{
        Duration, DurationKind, HeatInput, HeatInputKind, QuantityError, Range, Temperature,
        Thickness,
    },
    trade::{SteelFamily, formula, scope::positive},
};

formula! {
    /// Heat input for a cooling time.
    pub const HEAT_INPUT_FOR_COOLING_TIME {
        name: "heat-input-for-cooling-time",
        equation: "thick: Q = t / {(6700-5*T0)*[...]*F3}; thin: Q = d * sqrt(t / {(4300-4.3*T0)*10^5*\
                   [...]*F2}); symbols of the cooling times; lower end with the smallest F and the \
                   lowest T0, upper end with the largest F and the highest T0",
        source: "EN 1011-2:2001, Annex D, solved for Q",
        validity: "as the cooling times; between the transition heat inputs of the lowest and the \
                   highest T0 either heat flow may be true, so both have to hold",
        confidence: Derived,
    }
}

/// An end of a piece that does not belong to it is moved inward by this share: ten times the
/// tolerance of comparisons, so that the end never counts as inside.
const EXCLUDED_END: f64 = 1e-8;

/// A limit on the cooling time of runs on one plate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoolingLimit {
    /// What the metal is.
    pub metal: SteelFamily,
    /// Allowed cooling time.
    pub time: Range<DurationKind>,
    /// Lowest temperature a run may start at: the preheat.
    pub lowest_temperature: Temperature,
    /// Highest temperature a run may start at: the interpass maximum.
    pub highest_temperature: Temperature,
    /// Thickness of the plate.
    pub thickness: Thickness,
    /// Shape factors.
    pub shape: ShapeFactors,
}

/// Ends of heat input by one heat flow, in kJ/mm.
#[derive(Debug, Clone, Copy)]
struct Ends {
    min: f64,
    max: f64,
}

/// All heat inputs that keep the cooling time within its limit for every temperature and every
/// shape factor given, [`HEAT_INPUT_FOR_COOLING_TIME`]: none, one piece or more, from low to high.
///
/// Exact for one temperature; for an interval of temperatures exact outside the two transition heat
/// inputs and on the safe side between them. Two pieces arise where `F2` is below `F3`: above the
/// transition heat input the run cools faster again. State the pieces with
/// [`rounded_inward`](crate::trade::rounded_inward).
///
/// # Errors
/// As [`cooling_time`](super::cooling_time); [`CoolingError::Order`] where the lowest temperature is
/// above the highest.
pub fn heat_input_for_cooling_time(
    limit: &CoolingLimit,
) -> Result<Vec<Range<HeatInputKind>>, CoolingError> {
    let (low, high) = checked(limit)?;
    let thick = thick_ends(limit, &low, &high);
    let thin = thin_ends(limit, &low, &high);
    let d2 = limit.thickness.mm().powi(2);
    // Hotter plate turns thin at a lower heat input.
    let (all_thick_to, all_thin_from) = (d2 / high.transition, d2 / low.transition);
    let both = Ends { min: thick.min.max(thin.min), max: thick.max.min(thin.max) };
    let zones = [
        (0.0, all_thick_to, thick),
        (all_thick_to, all_thin_from, both),
        (all_thin_from, f64::INFINITY, thin),
    ];
    let mut pieces: Vec<Ends> = Vec::new();
    for (above, up_to, ends) in zones {
        let open = above * (1.0 + EXCLUDED_END);
        let piece = Ends { min: ends.min.max(open), max: ends.max.min(up_to) };
        if piece.min > piece.max {
            continue;
        }
        match pieces.last_mut() {
            // The piece before ends where this zone begins, and this piece begins there too.
            Some(last) if last.max >= above && piece.min <= open => last.max = piece.max,
            _ => pieces.push(piece),
        }
    }
    pieces.into_iter().filter_map(|piece| range(piece).transpose()).collect()
}

/// The temperature terms at both ends, once all inputs are in range.
fn checked(limit: &CoolingLimit) -> Result<(Terms, Terms), CoolingError> {
    limit.metal.low_alloy_only()?;
    positive(limit.thickness)?;
    positive(limit.shape.two_dimensional.low())?;
    positive(limit.shape.three_dimensional.low())?;
    let (low, high) = (limit.lowest_temperature, limit.highest_temperature);
    if !low.at_most(high) {
        return Err(CoolingError::Order { low, high });
    }
    Ok((Terms::at(low)?, Terms::at(high)?))
}

/// Shortest and longest time in seconds, for which a heat input is sought.
fn times(limit: &CoolingLimit) -> (f64, f64) {
    let shortest = limit.time.min().map_or(0.0, |time| time.seconds().max(0.0));
    (shortest, limit.time.max().map_or(f64::INFINITY, Duration::seconds))
}

fn thick_ends(limit: &CoolingLimit, low: &Terms, high: &Terms) -> Ends {
    let (shortest, longest) = times(limit);
    let factor = &limit.shape.three_dimensional;
    Ends {
        min: shortest / (low.thick * factor.low().ratio()),
        max: longest / (high.thick * factor.high().ratio()),
    }
}

fn thin_ends(limit: &CoolingLimit, low: &Terms, high: &Terms) -> Ends {
    let (shortest, longest) = times(limit);
    let factor = &limit.shape.two_dimensional;
    let d = limit.thickness.mm();
    Ends {
        min: d * (shortest / (low.thin * factor.low().ratio())).sqrt(),
        max: if longest < 0.0 {
            longest
        } else {
            d * (longest / (high.thin * factor.high().ratio())).sqrt()
        },
    }
}

/// The piece as a range; `None` where it holds no heat input above zero.
fn range(piece: Ends) -> Result<Option<Range<HeatInputKind>>, CoolingError> {
    if piece.max <= 0.0 {
        return Ok(None);
    }
    let min = (piece.min > 0.0).then(|| HeatInput::computed(piece.min)).transpose()?;
    let max = piece.max.is_finite().then(|| HeatInput::computed(piece.max)).transpose()?;
    if min.is_none() && max.is_none() {
        return Ok(Some(Range::at_least(HeatInput::computed(0.0)?)));
    }
    Range::new(min, max)
        .map(Some)
        .map_err(|_| QuantityError::NotFinite { quantity: "heat input" }.into())
}
