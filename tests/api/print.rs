//! The printed procedure: every limit with its unit and owner, what nobody may weld by, the code that is read
//! back by a decoder of other authors, and the same bytes for the same records. What is expected stands in the
//! documents that were written; conversions are own arithmetic with 1 in = 25.4 mm and 1 ft = 304.8 mm (NIST SP
//! 811, appendix B.8).

use reqwest::Method;
use serde_json::json;

use crate::{
    behind::{administer, etag, step},
    life::{PATH, revise, submit},
    support::{Answer, Api, documents},
};

async fn print(api: &Api, query: &str, accept: &str) -> Answer {
    let call = api.call(Method::GET, &format!("{PATH}/print{query}")).key(api.shop.reader());
    call.header("accept", accept).send().await
}

async fn page(api: &Api, query: &str) -> String {
    let answer = print(api, query, "text/html").await;
    assert_eq!(answer.status, 200, "{}", answer.text);
    answer.text
}

#[tokio::test]
async fn every_limit_of_the_document_stands_with_unit_and_owner() {
    let api = Api::furnished().await;
    let page = page(&api, "").await;
    let document = documents::procedure();
    let limits = document["runs"][0]["limits"].as_object().unwrap();
    assert_eq!(limits.len(), 13);
    for (name, limit) in limits {
        let label = match name.as_str() {
            "electrical_stick_out" => "electrical stick-out".to_owned(),
            other => other.replace('_', " "),
        };
        let limit = limit.as_str().unwrap();
        let row = format!("<td>{label}</td><td>{limit}</td><td>procedure WPS-1 revision 1</td>");
        assert!(page.contains(&row), "{row}");
    }
    for words in [
        "Shop under test",
        "ISO 15614-1 2017",
        "136, MAG, flux-cored wire (FCAW-G)",
        "PA, PB",
        "6 to 24 mm",
        "1.2 mm",
        "FCW-1 revision 1",
        "AWS A5.20: E71T-1M",
        "M21",
        "DCEP",
        "Test report 17, in the archive",
        "Second person",
        "At least filter shade",
    ] {
        assert!(page.contains(words), "{words}");
    }
    let missing = "<th scope=\"row\">Not stated</th><td>preparation of the edges, cleaning, ";
    assert!(page.contains(missing), "what is not stated is named");
    let read = api.get(api.shop.reader(), PATH).await.expect(200);
    assert!(page.contains(read["document_hash"].as_str().unwrap()));
}

#[tokio::test]
async fn other_units_are_rounded_inward_and_what_was_written_stands_beside() {
    let api = Api::furnished().await;
    let page = page(&api, "?units=us").await;
    for (label, printed, written) in [
        ("travel speed", "11.82 to 15.74 in/min", "300 to 400 mm/min"),
        ("electrical stick-out", "0.6693 to 0.9055 in", "17 to 23 mm"),
        ("weave width", "0.1575 to 0.4724 in", "4 to 12 mm"),
        ("gas flow", "29.67 to 38.13 ft3/h", "14 to 18 L/min"),
        ("preheat", "68 to 212 °F", "20 to 100 °C"),
        ("arc energy", "17.78 to 33.02 kJ/in", "0.7 to 1.3 kJ/mm"),
        ("current", "200 to 240 A", "200 to 240 A"),
    ] {
        let row = format!("<td>{label}</td><td>{printed}</td><td>{written}</td>");
        assert!(page.contains(&row), "{row}");
    }
    assert!(page.contains("size: letter"));
    assert!(page.contains("What was written counts."));
    assert!(!self::page(&api, "?units=metric").await.contains("What was written counts."));
}

#[tokio::test]
async fn the_release_stands_with_its_entry_of_the_chain() {
    let api = Api::furnished().await;
    let page = page(&api, "").await;
    let trail = api.get(api.shop.reader(), "/v1/audit?subject=WPS-1").await.expect(200);
    let all = trail["items"].as_array().unwrap();
    let entry = all.iter().find(|entry| entry["action"] == "released").unwrap();
    let (number, hash) = (entry["number"].as_i64().unwrap(), entry["hash"].as_str().unwrap());
    assert!(page.contains(&format!("entry {number}, ")) && page.contains(hash), "{entry}");
}

#[tokio::test]
async fn a_revision_that_is_not_in_force_says_so_in_both_forms() {
    const DRAFT: &str = "Draft, not released: do not weld by this sheet";
    let api = Api::furnished().await;
    assert!(!page(&api, "").await.contains("do not weld"));
    let pdf = print(&api, "", "application/pdf").await;
    revise(&api, &documents::procedure()).await.expect(200);
    assert!(page(&api, "").await.contains(DRAFT));
    assert!(!page(&api, "?revision=1").await.contains("do not weld"), "it is still released");
    let draft = print(&api, "", "application/pdf").await;
    assert_ne!(draft.etag(), pdf.etag());
    submit(&api).await.expect(200);
    assert!(page(&api, "").await.contains("In review, not released: do not weld by this sheet"));
    let release = format!("{PATH}/release");
    let tag = etag(&api, PATH).await;
    step(&api, api.shop.approver(), &release, &tag, &json!({})).await.expect(200);
    assert!(page(&api, "").await.contains("Nobody has signed its support"));
    assert!(page(&api, "?revision=1").await.contains("Superseded: do not weld by this sheet"));
    let withdrawal = format!("{PATH}/withdrawal");
    api.withdraw(api.shop.approver(), &withdrawal, &etag(&api, PATH).await).await.expect(200);
    assert!(page(&api, "").await.contains("Withdrawn: do not weld by this sheet"));
}

#[tokio::test]
async fn the_same_records_give_the_same_bytes_and_are_not_sent_twice() {
    let api = Api::furnished().await;
    for (accept, media, start) in [
        ("text/html", "text/html; charset=utf-8", "<!DOCTYPE html>"),
        ("application/pdf", "application/pdf", "%PDF-1.7"),
        ("image/png, application/pdf;q=0.9", "application/pdf", "%PDF-1.7"),
        ("*/*", "text/html; charset=utf-8", "<!DOCTYPE html>"),
    ] {
        let first = print(&api, "", accept).await;
        assert_eq!((first.status, first.header("content-type")), (200, media));
        assert!(first.text.starts_with(start), "{accept}");
        assert!(first.header("content-security-policy").starts_with("default-src 'none'"));
        assert!(first.header("content-security-policy").ends_with("sandbox"));
        assert_eq!(first.headers.get_all("vary").iter().next().unwrap(), "Accept");
        let call = api.call(Method::GET, &format!("{PATH}/print")).key(api.shop.reader());
        let call = call.header("accept", accept).header("if-none-match", first.etag());
        let again = call.send().await;
        assert_eq!((again.status, again.text.as_str()), (304, ""), "{accept}");
        assert_eq!(again.etag(), first.etag());
    }
    let html = print(&api, "", "text/html").await;
    assert_eq!(html.header("content-disposition"), "inline; filename=\"WPS-1-1.html\"");
    let policy = html.header("content-security-policy").to_owned();
    assert!(policy.contains("style-src 'sha256-") && !policy.contains("unsafe"), "{policy}");
}

#[tokio::test]
async fn wrong_parameters_are_refused() {
    let api = Api::furnished().await;
    for (query, pointer) in [
        ("?units=furlong", "?units"),
        ("?paper=a0", "?paper"),
        ("?revision=0.5", "?revision"),
        ("?revision=1&colour=red", "?colour"),
    ] {
        let refused = print(&api, query, "text/html").await;
        refused.problem(400, "bad-parameter");
        assert_eq!(refused.pointers(), [pointer], "{query}");
    }
    print(&api, "?revision=9", "text/html").await.problem(404, "not-found");
}

#[tokio::test]
async fn markup_in_a_document_is_printed_and_not_obeyed() {
    let api = Api::furnished().await;
    let evil = "</td><script>alert(1)</script>\u{202e}";
    let document = documents::with(documents::procedure(), "/note", json!(evil));
    revise(&api, &document).await.expect(200);
    let page = page(&api, "").await;
    assert!(!page.contains("<script"));
    assert!(page.contains("&lt;/td&gt;&lt;script&gt;alert(1)&lt;/script&gt;‹U+202E›"));
}

#[tokio::test]
async fn the_code_leads_to_the_set_address_and_never_to_the_host_of_a_request() {
    let api = Api::furnished().await;
    let read = api.get(api.shop.reader(), PATH).await.expect(200);
    let hash = read["document_hash"].as_str().unwrap();
    let call = api.call(Method::GET, &format!("{PATH}/print")).key(api.shop.reader());
    let page = call.header("host", "evil.example").send().await.text;
    assert!(!page.contains("evil.example"));
    assert_eq!(read_code(&page), format!("procedure WPS-1 revision 1 sha256 {hash}"));

    let own = api.get(api.shop.admin(), "/v1/organisation").await.expect(200);
    let set =
        |address: &str| documents::with(own["settings"].clone(), "/public_address", json!(address));
    let call = async |address| administer(&api, "/v1/organisation", &set(address)).await;
    let refused = call("javascript:alert(1)").await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/public_address"]);
    call("https://weld.example/shop/").await.expect(200);
    let page = self::page(&api, "").await;
    let link = "https://weld.example/shop/v1/procedures/WPS-1?revision=1";
    assert_eq!(read_code(&page), link);
    assert!(page.contains(link), "it can be typed as well");
}

/// Reads the first drawing of a page as a QR code.
fn read_code(page: &str) -> String {
    const DOTS: f64 = 4.0;
    let svg = page.split_once("<svg").unwrap().1.split_once("</svg>").unwrap().0;
    let view = svg.split_once("viewBox=\"0 0 ").unwrap().1.split_once('"').unwrap().0;
    let side: f64 = view.split(' ').next().unwrap().parse().unwrap();
    let corners = |path: &str| -> Vec<f64> {
        let path = path.split_once('"').unwrap().0;
        let numbers = path.split(['M', 'L', 'Z', ' ']).filter(|part| !part.is_empty());
        numbers.map(|number| number.parse().unwrap()).collect()
    };
    let bars: Vec<_> = svg.split(" d=\"").skip(1).map(corners).collect();
    assert!(bars.iter().all(|bar| bar.len() == 8), "{svg}");
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small side")]
    let dots = (side * DOTS) as usize;
    let mut image = rqrr::PreparedImage::prepare_from_greyscale(dots, dots, |x, y| {
        let at = |dot: usize| (f64::from(u32::try_from(dot).unwrap()) + 0.5) / DOTS;
        let dark =
            |bar: &Vec<f64>| bar[0] <= at(x) && at(x) < bar[4] && bar[1] <= at(y) && at(y) < bar[5];
        if bars.iter().any(dark) { 0 } else { 255 }
    });
    image.detect_grids()[0].decode().unwrap().1
}
