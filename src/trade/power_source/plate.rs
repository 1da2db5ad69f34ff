//! Duty cycle from a rating plate, only as far as its points go.

use super::{DutyPoint, PowerSourceError, duty::check_duty, duty_by_constant_heating};
use crate::{
    quantity::{Current, Share},
    trade::{formula, scope::positive},
};

formula! {
    /// Duty cycle and current from a rating plate.
    pub const DUTY_FROM_PLATE {
        name: "duty-from-plate",
        equation: "between two points: X = X1*(I1/I)^2 from the point above, at most the duty of the point \
                   below; below the lowest point: the duty of that point; above the highest: none",
        source: "points as rated (IEC 60974-1); between them constant-heating, downward in current only",
        validity: "rating at 40 °C ambient (from memory); torch and cables have ratings of their own",
        confidence: Memory,
    }
}

/// Points of a rating plate, from low to high current; more current never has more duty.
#[derive(Debug, Clone, PartialEq)]
pub struct RatingPlate {
    points: Vec<DutyPoint>,
}

impl RatingPlate {
    /// A plate from its points in any order.
    ///
    /// # Errors
    /// [`PowerSourceError::NoPoint`] without one, [`PowerSourceError::OutOfRange`] for a current or
    /// duty not above zero or a duty above 100 %, [`PowerSourceError::Inconsistent`] where more
    /// current has more duty.
    pub fn new(mut points: Vec<DutyPoint>) -> Result<Self, PowerSourceError> {
        if points.is_empty() {
            return Err(PowerSourceError::NoPoint);
        }
        for point in &points {
            point.check()?;
        }
        points.sort_by(|a, b| a.current.compare(b.current));
        for pair in points.windows(2) {
            let same_current = pair[0].current == pair[1].current;
            let consistent = if same_current {
                pair[0].duty == pair[1].duty
            } else {
                pair[1].duty.at_most(pair[0].duty)
            };
            if !consistent {
                let (lower, higher) = (pair[0].current, pair[1].current);
                return Err(PowerSourceError::Inconsistent { lower, higher });
            }
        }
        Ok(Self { points })
    }

    /// Duty cycle at a current, [`DUTY_FROM_PLATE`].
    ///
    /// # Errors
    /// [`PowerSourceError::AboveRating`] above the highest point,
    /// [`PowerSourceError::OutOfRange`] for a current not above zero.
    pub fn duty_at(&self, current: Current) -> Result<Share, PowerSourceError> {
        positive(current)?;
        let mut below: Option<&DutyPoint> = None;
        for point in &self.points {
            if point.current == current {
                return Ok(point.duty);
            }
            if current.at_most(point.current) {
                let Some(below) = below else { return Ok(point.duty) };
                return Ok(duty_by_constant_heating(point, current)?.min(below.duty));
            }
            below = Some(point);
        }
        let highest = below.ok_or(PowerSourceError::NoPoint)?.current;
        Err(PowerSourceError::AboveRating { given: current, highest })
    }

    /// Highest current at a duty cycle, [`DUTY_FROM_PLATE`].
    ///
    /// # Errors
    /// [`PowerSourceError::AboveDuty`] above the duty of every point,
    /// [`PowerSourceError::OutOfRange`] for a duty not above zero or above 100 %.
    pub fn current_at(&self, duty: Share) -> Result<Current, PowerSourceError> {
        check_duty(duty)?;
        let (enough, short): (Vec<&DutyPoint>, Vec<_>) =
            self.points.iter().partition(|point| point.duty.at_least(duty));
        let Some(last) = enough.last() else {
            let highest = self.points.first().ok_or(PowerSourceError::NoPoint)?.duty;
            return Err(PowerSourceError::AboveDuty { given: duty, highest });
        };
        let by_law = short.first().map(|next| super::current_by_constant_heating(next, duty));
        Ok(by_law.transpose()?.map_or(last.current, |current| current.max(last.current)))
    }
}
