//! The proof a request carries: a key, looked up in memory, and the role a handler asks for.

use std::{marker::PhantomData, sync::Arc};

use axum::{
    extract::FromRequestParts,
    http::{header, request::Parts},
};
use uuid::Uuid;

use super::{Role, key::hash_of};
use crate::{
    database::Actor,
    http::{
        AppState,
        problem::{NO_KEY, Problem, WRONG_ROLE},
    },
    rulebook::{KeyHolder, Rulebook},
    trade::Coded,
};

/// A caller with a valid key.
#[derive(Debug, Clone)]
pub struct Caller {
    /// The key and whom it stands for.
    pub holder: Arc<KeyHolder>,
    /// The organisation's rulebook as of this request.
    pub rulebook: Arc<Rulebook>,
}

impl Caller {
    /// Who acts, for transactions and the audit chain.
    #[must_use]
    pub fn actor(&self) -> Actor {
        Actor {
            organisation: self.holder.organisation,
            key: Some(self.holder.key),
            person: self.holder.person,
            today: self.rulebook.settings.today(),
        }
    }

    /// The person behind the key.
    ///
    /// # Errors
    /// A problem when the key stands for no person: approvals and signatures need one.
    pub fn person(&self) -> Result<Uuid, Problem> {
        self.holder.person.ok_or_else(|| {
            Problem::new(
                &WRONG_ROLE,
                "This needs a key that stands for a person; this one does not.",
            )
        })
    }
}

/// What a handler asks of its caller.
pub trait Permission: Send + Sync + 'static {
    /// Any one of these roles will do.
    const ROLES: &'static [Role];
}

macro_rules! permissions {
    ($($(#[$meta:meta])* $name:ident: $($role:ident)|+;)+) => {$(
        $(#[$meta])*
        #[derive(Debug, Clone, Copy)]
        pub enum $name {}

        impl Permission for $name {
            const ROLES: &'static [Role] = &[$(Role::$role),+];
        }
    )+};
}

permissions! {
    /// Reads and checks.
    AnyRole: Reader | Station | Integrator | Author | Approver | Admin;
    /// Writes consumables, procedures and stations.
    WriteData: Author;
    /// Writes work orders.
    WriteOrders: Integrator | Author;
    /// Notes what was done with a packet of filler.
    NoteCare: Station | Integrator | Author | Approver;
    /// Reads and writes the names behind welders' codes.
    WelderNames: Author | Approver | Admin;
    /// Releases, returns, withdraws and signs.
    Approve: Approver;
    /// Looks after people, keys and settings.
    AdministerKeys: Admin;
}

/// A caller who holds one of the roles of `P`. As a handler's first argument it is checked before
/// the body is read.
#[derive(Debug)]
pub struct Permitted<P: Permission> {
    /// The caller.
    pub caller: Caller,
    permission: PhantomData<P>,
}

impl<P: Permission> FromRequestParts<AppState> for Permitted<P> {
    type Rejection = Problem;

    async fn from_request_parts(parts: &mut Parts, state: &AppState) -> Result<Self, Problem> {
        let caller = caller(parts, state)?;
        state.limiter.admit(&caller.holder.used)?;
        if P::ROLES.iter().any(|role| caller.holder.roles.contains(role)) {
            return Ok(Self { caller, permission: PhantomData });
        }
        let roles: Vec<_> = P::ROLES.iter().map(|role| role.code()).collect();
        Err(Problem::new(
            &WRONG_ROLE,
            format!("This needs a key with the role {}.", roles.join(" or ")),
        ))
    }
}

fn caller(parts: &Parts, state: &AppState) -> Result<Caller, Problem> {
    let header = parts.headers.get(header::AUTHORIZATION).and_then(|value| value.to_str().ok());
    let Some(token) = header.and_then(bearer) else {
        return Err(Problem::new(&NO_KEY, "The request carries no key."));
    };
    let refused = || Problem::new(&NO_KEY, "The key is unknown, expired or revoked.");
    let (holder, rulebook) = state.rulebooks.known(&hash_of(token)).ok_or_else(refused)?;
    if holder.has_expired() {
        return Err(refused());
    }
    holder.used.touch();
    Ok(Caller { holder, rulebook })
}

/// The key of an `Authorization` header. The scheme's name is read in any case (RFC 9110, 11.1).
fn bearer(header: &str) -> Option<&str> {
    let (scheme, token) = header.split_once(' ')?;
    scheme.eq_ignore_ascii_case("Bearer").then(|| token.trim())
}
