//! The OpenAPI document, made from the router that serves it.

use utoipa::{
    Modify, OpenApi,
    openapi::{
        OpenApi as Document,
        security::{HttpAuthScheme, HttpBuilder, SecurityScheme},
    },
};

use super::problem::ProblemBody;

/// The parts of the document that no operation carries.
#[derive(OpenApi)]
#[openapi(
    info(
        title = "arcbounds",
        description = "Keeps every welding arc inside what was qualified: stores procedures and \
consumable data, checks a proposed setup before the arc, says why not and what to change.\n\n\
Every quantity carries its unit: `{\"value\": 350, \"unit\": \"in/min\"}` or `\"350 in/min\"`; a bare number \
is refused. A member that is `null` is as if it had been left out, and one that nobody knows, or that its object \
has twice, is refused. Errors are \
problem details (RFC 9457). A setup that fails its check is an answer, not an error.\n\n\
Records have one strong ETag for every encoding; a change needs it as `If-Match`. Writing requests take an \
`Idempotency-Key`: the same key, body and parameters give the same answer for 24 hours.\n\n\
Figures support, and do not replace, the governing code, local rules and a qualified person's judgement.",
        license(name = "MIT", identifier = "MIT"),
        contact(),
    ),
    components(schemas(ProblemBody)),
    modifiers(&Bearer),
    security(("key" = [])),
    tags(
        (name = "checks", description = "May this setup be welded? Why not, and what to change."),
        (name = "windows", description = "What may be set: every limit at once."),
        (name = "advice", description = "What a symptom may come from, and what may be changed."),
        (name = "calculations", description = "The trade's formulas, each figure with its source."),
        (name = "consumables", description = "Wires and electrodes with their printed data ranges."),
        (name = "batches", description = "Batches of fillers, and how dry each packet was kept."),
        (name = "procedures", description = "Welding procedure specifications and their life."),
        (name = "qualifications", description = "Records of procedure tests, and what they qualify."),
        (name = "rule-packs", description = "Rules of codes: what a procedure test qualifies."),
        (name = "stations", description = "Welding places and their ratings."),
        (name = "welders", description = "Who may weld what, by which proof and until when."),
        (name = "work-orders", description = "Customers' jobs with their governing code."),
        (name = "organisation", description = "Settings, people and keys."),
        (name = "audit", description = "Who changed what, in an unbroken chain."),
        (name = "health", description = "Whether the service lives and is ready."),
    ),
)]
pub(super) struct ApiDoc;

struct Bearer;

impl Modify for Bearer {
    fn modify(&self, document: &mut Document) {
        let scheme = HttpBuilder::new()
            .scheme(HttpAuthScheme::Bearer)
            .description(Some("A key, as an administrator made it."))
            .build();
        if let Some(components) = document.components.as_mut() {
            components.add_security_scheme("key", SecurityScheme::Http(scheme));
        }
    }
}

/// The document of the router, pretty-printed, with a newline at its end.
///
/// # Errors
/// When it cannot be written as JSON.
pub fn document() -> Result<String, serde_json::Error> {
    super::router::routes().split_for_parts().1.to_pretty_json().map(|text| text + "\n")
}
