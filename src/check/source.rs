//! Who set a limit, as a reference into the records: the name is made only where it is read.

use super::{
    Authority, Owner, OwnerKind,
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
            Self::Maker(Consumable { code, .. }) => {
                Owner::on_record(OwnerKind::Consumable, format_args!("consumable {code}"))
            }
            Self::Designation(consumable, designation) => {
                let code = consumable.map_or("", |known| &known.code);
                let text = designation.text();
                let name = format_args!("designation {text} of consumable {code}");
                Owner::on_record(OwnerKind::Consumable, name)
            }
            Self::Practice(source) => Owner::practice(source),
            Self::Welder(Welder { code, .. }) => {
                let name = format_args!("qualifications of welder {code}");
                Owner::on_record(OwnerKind::Welder, name)
            }
            Self::Service => Owner::SERVICE,
        }
    }
}

impl<'a> From<Authority<'a>> for Source<'a> {
    fn from(authority: Authority<'a>) -> Self {
        Self::Authority(authority)
    }
}
