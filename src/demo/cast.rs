//! The invented people of the demo, and their keys.

use std::fmt::Write;

use uuid::Uuid;

use super::Failure;
use crate::{
    access::{Role, Secret},
    http::AppState,
    import,
    organisation::{self, Member},
};

/// The invented fabricator.
const ORGANISATION: &str = "Brightwater Bridge & Tank Works (invented for the demo)";

/// Station of the demo kiosk.
const KIOSK_STATION: &str = "ST-1";

/// Who holds which key: variable of the shell, name, roles, and what the key is for. A key without a
/// name stands for shop software.
const MEMBERS: &[(&str, Option<&str>, Role)] = &[
    ("ARCBOUNDS_ADMIN_KEY", Some("Ada Quill (invented)"), Role::Admin),
    ("ARCBOUNDS_AUTHOR_KEY", Some("Wim Tarrow (invented)"), Role::Author),
    ("ARCBOUNDS_APPROVER_KEY", Some("Ines Hollow (invented)"), Role::Approver),
    ("ARCBOUNDS_READER_KEY", Some("Bo Lantern (invented)"), Role::Reader),
    ("ARCBOUNDS_ERP_KEY", None, Role::Integrator),
];

/// The demo organisation with this start's keys.
pub(super) struct Cast {
    organisation: Uuid,
    keys: Vec<(&'static str, Role, Secret)>,
}

impl Cast {
    /// Founds the organisation where there is none, and makes new keys; those of the start before are
    /// revoked.
    pub(super) async fn assemble(state: &AppState) -> Result<Self, Failure> {
        let organisation = match state.rulebooks.organisations().first() {
            Some(organisation) => *organisation,
            None => {
                organisation::found(&state.pool, ORGANISATION, "First start").await?.organisation
            }
        };
        let mut keys = Vec::new();
        for (variable, name, role) in MEMBERS {
            let member = Member { name: *name, role: *role, station: None, label: variable };
            let secret = organisation::enrol(&state.pool, organisation, member).await?;
            keys.push((*variable, *role, secret));
        }
        state.rulebooks.refresh(organisation).await?;
        Ok(Self { organisation, keys })
    }

    /// Whether the organisation has this work order.
    pub(super) fn has_work_order(&self, state: &AppState, number: &str) -> bool {
        let rulebook = state.rulebooks.of(self.organisation);
        rulebook.is_some_and(|rulebook| rulebook.book.work_orders.contains_key(number))
    }

    /// Keys of the two people who write and release.
    pub(super) fn import_keys(&self) -> import::Keys {
        import::Keys {
            author: self.key(Role::Author).unwrap_or_default(),
            approver: self.key(Role::Approver),
        }
    }

    /// Makes the kiosk's key, now that its station is there.
    pub(super) async fn bind_kiosk(&mut self, state: &AppState) -> Result<(), Failure> {
        let label = "ARCBOUNDS_KIOSK_KEY";
        let member =
            Member { name: None, role: Role::Station, station: Some(KIOSK_STATION), label };
        let secret = organisation::enrol(&state.pool, self.organisation, member).await?;
        self.keys.push((label, Role::Station, secret));
        state.rulebooks.refresh(self.organisation).await?;
        Ok(())
    }

    /// What to paste into another terminal.
    pub(super) fn introduction(&self, address: &str) -> String {
        let mut text = format!(
            "\narcbounds listens on {address}; the reference is at {address}/docs.\n\
             All names, records and numbers of the demo are invented.\n\
             Paste this into another terminal:\n\n  export ARCBOUNDS_ADDRESS={address}\n"
        );
        for (variable, _, secret) in &self.keys {
            // Writing to a text cannot fail.
            let _ = writeln!(text, "  export {variable}={}", secret.reveal());
        }
        text.push_str(include_str!("../../demo/try.txt"));
        text.push_str("\nCtrl-C stops the service and its database.");
        text
    }

    fn key(&self, role: Role) -> Option<String> {
        let found = self.keys.iter().find(|(_, known, _)| *known == role);
        found.map(|(_, _, secret)| secret.reveal().to_owned())
    }
}
