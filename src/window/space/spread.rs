//! How far settings stray from where they are meant to be.

use crate::{
    check::{Role, Variable, role},
    quantity::{QuantityError, Share},
    trade::Process,
};

/// How far the hand strays to either side of what it aims at, as shares. Limits hold for all of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HandSpread {
    /// Travel speed.
    pub travel_speed: Share,
    /// Electrical stick-out.
    pub stick_out: Share,
}

impl HandSpread {
    /// 5 % of the travel speed and 10 % of the stick-out (common practice, no source).
    ///
    /// # Errors
    /// None in practice; the values are constants.
    pub fn usual() -> Result<Self, QuantityError> {
        Ok(Self { travel_speed: Share::computed(0.05)?, stick_out: Share::computed(0.10)? })
    }

    /// A hand that never strays.
    ///
    /// # Errors
    /// None in practice; the values are constants.
    pub fn none() -> Result<Self, QuantityError> {
        Ok(Self { travel_speed: Share::computed(0.0)?, stick_out: Share::computed(0.0)? })
    }

    /// Of one variable in a process; zero where no hand holds it.
    pub(in crate::window) fn of(&self, process: Process, variable: Variable) -> f64 {
        match (role(process, variable), variable) {
            (Some(Role::HandHeld), Variable::TravelSpeed) => self.travel_speed.ratio(),
            (Some(Role::HandHeld), Variable::StickOut) => self.stick_out.ratio(),
            _ => 0.0,
        }
    }
}

/// Relative drift of one variable, which the starting point allows for as often as it can: 2 % of what
/// is dialled, 5 % of what follows, is measured or is held by hand (common practice, no source).
pub(in crate::window) const fn drift(role: Option<Role>) -> f64 {
    match role {
        Some(Role::Settable) => 0.02,
        Some(Role::Resulting | Role::HandHeld) => 0.05,
        None => 0.0,
    }
}

/// How far a logarithm may lie below and above its aim.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(in crate::window) struct Stray {
    pub(in crate::window) down: f64,
    pub(in crate::window) up: f64,
}

impl Stray {
    /// A share to either side.
    pub(super) fn share(share: f64) -> Self {
        Self { down: -(-share).ln_1p(), up: share.ln_1p() }
    }

    /// The least of `weight · x` may lie this far above the aim's.
    pub(super) fn shift(self, weight: f64) -> f64 {
        if weight > 0.0 { weight * self.up } else { -weight * self.down }
    }
}
