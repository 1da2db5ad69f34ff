//! Who may do what: roles, keys, and the proof a request carries.

mod caller;
mod key;
mod pace;
mod role;

pub use caller::{
    AdministerKeys, AnyRole, Approve, Caller, NoteCare, Permission, Permitted, WelderNames,
    WriteData, WriteOrders,
};
pub use key::{KeyHash, Secret};
pub use pace::{KeyUse, Limiter};
pub use role::Role;
