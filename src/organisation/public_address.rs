//! Where a service is reached.

use reqwest::Url;
use serde_json::Value;
use utoipa::openapi::{ObjectBuilder, RefOr, Schema, schema::Type};

use crate::wire::{Definitions, Errors, FromWire, Node, Place, ToWire, WireSchema};

/// Longest address in bytes: a QR code of a whole link stays easy to read.
const LONGEST: usize = 200;

/// Address under which an organisation's people reach the service, without a slash at its end. It is a setting,
/// never taken from a request: whoever sends a request can name any host.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PublicAddress(String);

impl PublicAddress {
    /// An address with `http` or `https`, a host, and at most a path.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let url = Url::parse(text.trim()).ok()?;
        let sound = matches!(url.scheme(), "http" | "https")
            && url.has_host()
            && url.username().is_empty()
            && url.password().is_none()
            && url.query().is_none()
            && url.fragment().is_none()
            && url.as_str().len() <= LONGEST;
        sound.then(|| Self(url.as_str().trim_end_matches('/').to_owned()))
    }

    /// The address as text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl FromWire for PublicAddress {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        value.as_str().and_then(Self::parse).or_else(|| {
            errors.note(
                at,
                format!(
                    "expected an address of at most {LONGEST} bytes with http or https and a host, without \
                     name, query or fragment, such as \"https://weld.example\""
                ),
            )
        })
    }
}

impl ToWire for PublicAddress {
    fn to_wire(&self) -> Value {
        Value::String(self.0.clone())
    }
}

impl WireSchema for PublicAddress {
    fn reference(_: &mut Definitions) -> RefOr<Schema> {
        ObjectBuilder::new().schema_type(Type::String).examples(["https://weld.example"]).into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_address_has_a_scheme_a_host_and_at_most_a_path() {
        let read = |text: &str| PublicAddress::parse(text).map(|own| own.as_str().to_owned());
        assert_eq!(read("https://Weld.example/"), Some("https://weld.example".into()));
        assert_eq!(read("http://10.0.0.7:8080/arc/"), Some("http://10.0.0.7:8080/arc".into()));
        for wrong in [
            "weld.example",
            "ftp://weld.example",
            "javascript:alert(1)",
            "https://",
            "https://a@weld.example",
            "https://weld.example?x=1",
            "https://weld.example#x",
        ] {
            assert_eq!(read(wrong), None, "{wrong}");
        }
    }
}
