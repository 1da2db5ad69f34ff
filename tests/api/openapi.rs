//! The committed OpenAPI document against the router.
