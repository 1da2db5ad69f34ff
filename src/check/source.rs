//! Who set a limit, as a reference into the records: the name is made only where it is read.

use super::{
    Authority, Owner,
    record::{Consumable, Welder},
};
use crate::trade::Designation;

/// Who set a limit.
#[derive(Debug, Clone, Copy)]
pub enum Source<'a> {
    /// Somebody who sets ranges.
    Authority(Authority<'a>),
    /// The maker of a consumable.
    Maker(&'a Consumable),
    /// A designation of a consumable.
    Designation(Option<&'a Consumable>, &'a Designation),
    /// Common practice of the trade, or a printed handbook.
    Practice(&'static str),
    /// A welder's own record.
    Welder(&'a Welder),
    /// The service.
    Service,
}

impl Source<'_> {
    /// Its name in findings.
    #[must_use]
    pub fn owner(self) -> Owner {
        match self {
            Self::Authority(authority) => authority.owner(),
            Self::Maker(consumable) => {
                Owner::Consumable { consumable: consumable.code.clone(), designation: None }
            }
            Self::Designation(consumable, designation) => Owner::Consumable {
                consumable: consumable.map(|known| known.code.clone()).unwrap_or_default(),
                designation: Some(designation.text().to_owned()),
            },
            Self::Practice(source) => Owner::Practice { source: source.to_owned() },
            Self::Welder(welder) => Owner::Welder { welder: welder.code.clone() },
            Self::Service => Owner::Service,
        }
    }
}

impl<'a> From<Authority<'a>> for Source<'a> {
    fn from(authority: Authority<'a>) -> Self {
        Self::Authority(authority)
    }
}
