//! Keys: 256 random bits, of which only the hash is kept.

use sha2::{Digest, Sha256};

/// SHA-256 of a key. A fast hash is right for 256 random bits: there is nothing to guess.
pub type KeyHash = [u8; 32];

/// Start of every key, so that a leaked one is recognised by scanners.
const PREFIX: &str = "arcbounds_";

/// A key in the clear; shown once, when it is made.
#[derive(Clone, PartialEq, Eq)]
pub struct Secret(String);

impl Secret {
    /// A new key from the operating system's random source.
    ///
    /// # Errors
    /// When that source fails.
    pub fn random() -> Result<Self, getrandom::Error> {
        let mut bytes = [0_u8; 32];
        getrandom::fill(&mut bytes)?;
        Ok(Self(format!("{PREFIX}{}", hex::encode(bytes))))
    }

    /// The hash that is kept.
    #[must_use]
    pub fn hash(&self) -> KeyHash {
        hash_of(&self.0)
    }

    /// The key itself, for the one answer that shows it.
    #[must_use]
    pub fn reveal(&self) -> &str {
        &self.0
    }
}

/// The hash of a key as a caller sent it.
pub(super) fn hash_of(key: &str) -> KeyHash {
    Sha256::digest(key).into()
}

impl std::fmt::Debug for Secret {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Secret(…)")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_keys_differ_and_neither_shows_in_a_log() {
        let (one, two) = (Secret::random().unwrap(), Secret::random().unwrap());
        assert_ne!(one.hash(), two.hash());
        assert_eq!(one.reveal().len(), PREFIX.len() + 64);
        assert_eq!(format!("{one:?}"), "Secret(…)");
    }
}
