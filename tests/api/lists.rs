//! Lists: pages, filters, CSV, and conditional reads.

use reqwest::{Method, header::HeaderMap};
use serde_json::{Value, json};

use crate::{
    behind::etag,
    support::{Answer, Api, documents},
};

async fn stations(api: &Api, codes: &[&str]) {
    for code in codes {
        let document = documents::with(documents::station(), "/code", json!(code));
        api.shop.write(api, "stations", &document).await;
    }
}

fn codes(page: &Value) -> Vec<String> {
    let items = page["items"].as_array().unwrap();
    items.iter().map(|item| item["code"].as_str().unwrap().to_owned()).collect()
}

/// Target of the `Link` to the next page.
fn next_link(answer: &Answer) -> Option<String> {
    let link = answer.headers.get("link")?.to_str().unwrap();
    let (target, parameters) = link.split_once(';').unwrap();
    assert_eq!(parameters.trim(), "rel=\"next\"");
    Some(target.strip_prefix('<').unwrap().strip_suffix('>').unwrap().to_owned())
}

async fn csv(api: &Api, path: &str) -> Answer {
    let call = api.call(Method::GET, path).key(api.shop.reader());
    call.header("accept", "text/csv").send().await
}

/// Pages follow the codes, so that what is written meanwhile neither repeats nor drops a record.
#[tokio::test]
async fn pages_are_stable_while_others_write() {
    let api = Api::start().await;
    stations(&api, &["A-1", "B-1", "C-1", "D-1", "E-1", "F-1", "G-1"]).await;
    let (mut path, mut seen) = ("/v1/stations?limit=3".to_owned(), Vec::new());
    let mut pages = 0;
    loop {
        let page = api.get(api.shop.reader(), &path).await;
        let body = page.expect(200);
        seen.extend(codes(&body));
        pages += 1;
        let Some(link) = next_link(&page) else {
            assert_eq!(body.get("next"), None, "neither link nor cursor on the last page");
            break;
        };
        let cursor = body["next"].as_str().unwrap();
        assert_eq!(link, format!("/v1/stations?limit=3&cursor={cursor}"));
        if pages == 1 {
            // Before, on and behind the page that was read.
            stations(&api, &["A-0", "C-2"]).await;
            let path = "/v1/stations/E-1";
            let now = etag(&api, path).await;
            let renamed = documents::with(documents::station(), "/code", json!("E-1"));
            api.put(api.shop.author(), path, &now, &renamed).await.expect(200);
        }
        path = link;
    }
    assert_eq!(seen, ["A-1", "B-1", "C-1", "C-2", "D-1", "E-1", "F-1", "G-1"]);
    assert_eq!(pages, 3);
    // A page that is just full has no next one.
    let all = api.get(api.shop.reader(), "/v1/stations?limit=9").await;
    assert_eq!((codes(&all.expect(200)).len(), next_link(&all)), (9, None));
}

#[tokio::test]
async fn filters_hold_on_every_page() {
    let api = Api::start().await;
    stations(&api, &["A-1", "A-2", "A-3", "A-4", "A-5"]).await;
    for code in ["A-2", "A-4"] {
        let path = format!("/v1/stations/{code}");
        let now = etag(&api, &path).await;
        api.withdraw(api.shop.approver(), &format!("{path}/withdrawal"), &now).await.expect(200);
    }
    let path = "/v1/stations?state=current&limit=2&waveform=not-controlled";
    let first = api.get(api.shop.reader(), path).await;
    assert_eq!(codes(&first.expect(200)), ["A-1", "A-3"]);
    let second = api.get(api.shop.reader(), &next_link(&first).unwrap()).await;
    assert_eq!(codes(&second.expect(200)), ["A-5"], "and no withdrawn one");
    assert_eq!(next_link(&second), None);
}

#[tokio::test]
async fn every_filter_finds_what_has_it_and_nothing_else() {
    let api = Api::furnished().await;
    let table = [
        ("consumables", "kind", "flux-cored-wire", "solid-wire"),
        ("consumables", "designation", "AWS%20A5.20:%20E71T-1M", "AWS%20A5.20:%20E70T-1C"),
        ("consumables", "gas", "M21", "C1"),
        ("consumables", "state", "current", "withdrawn"),
        ("procedures", "process", "136", "135"),
        ("procedures", "process", "fcaw-g", "SMAW"),
        ("procedures", "position", "PB", "PF"),
        ("procedures", "position", "2F", "4F"),
        ("procedures", "joint", "fillet", "butt"),
        ("procedures", "consumable", "FCW-1", "FCW-2"),
        ("procedures", "code", "ISO%2015614-1", "AWS%20D1.1"),
        ("procedures", "state", "released", "draft"),
        ("stations", "waveform", "not-controlled", "controlled"),
        ("qualifications", "code", "ISO%2015614-1", "AWS%20D1.1"),
        ("qualifications", "edition", "2017%2BA1:2019", "2017"),
        ("qualifications", "process", "136", "135"),
        ("qualifications", "process", "FCAW-G", "SMAW"),
        ("qualifications", "position", "PF", "PB"),
        // Upward or downward, whichever: PF or PG.
        ("qualifications", "position", "3G", "1G"),
        ("qualifications", "state", "signed", "draft"),
        ("work-orders", "code", "ISO%2015614-1", "AWS%20D1.1"),
        ("work-orders", "reference", "ERP-4711", "ERP-4712"),
    ];
    for (path, filter, has, has_not) in table {
        for (value, expected) in [(has, 1), (has_not, 0)] {
            let path = format!("/v1/{path}?{filter}={value}");
            let found = api.get(api.shop.reader(), &path).await.expect(200);
            assert_eq!(codes(&found).len(), expected, "{path}");
        }
    }
}

/// A mistyped filter would list everything.
#[tokio::test]
async fn what_is_no_parameter_is_refused() {
    let api = Api::start().await;
    let table = [
        ("stations?wavefrom=controlled", "?wavefrom"),
        ("stations?limit=5&joint=butt", "?joint"),
        ("procedures?number=WPS-1", "?number"),
        ("work-orders?limit=0", "?limit"),
        ("consumables?limit=201", "?limit"),
        ("consumables?cursor=WPS", "?cursor"),
        ("consumables?cursor=00", "?cursor"),
        ("consumables?cursor=c328", "?cursor"),
        ("consumables?limit=many", "?limit"),
        ("consumables?designation=%00", "?"),
        ("consumables?state=a&state=b", "?state"),
        ("consumables?state=nonsense", "?state"),
        ("consumables?state=draft", "?state"),
        ("stations?state=", "?state"),
        ("welders?state=released", "?state"),
        ("work-orders?state=Current", "?state"),
        ("procedures?state=current", "?state"),
        ("procedures?in_force_on=today", "?in_force_on"),
        ("procedures?in_force_on=2026-02-30", "?in_force_on"),
        ("procedures?in_force_on=2026-11-25&state=released", "?state"),
        ("procedures?cursor=5750532d31", "?cursor"),
        ("qualifications?state=released", "?state"),
        ("procedures?process=999", "?process"),
        ("procedures?process=GMAW", "?process"),
        ("procedures?position=ZZ", "?position"),
        ("procedures?joint=butt&position=2F", "?position"),
        ("qualifications?process=999", "?process"),
        ("qualifications?position=ZZ", "?position"),
        ("consumables?kind=zz", "?kind"),
        ("consumables?gas=zz", "?gas"),
        ("welders?pack=zz", "?pack"),
    ];
    for (path, pointer) in table {
        let refused = api.get(api.shop.reader(), &format!("/v1/{path}")).await;
        refused.problem(400, "bad-parameter");
        assert_eq!(refused.pointers(), [pointer], "{path}");
    }
}

/// A parameter that cannot be read is named, with what it may be.
#[tokio::test]
async fn a_parameter_that_cannot_be_read_says_what_would_be_right() {
    let api = Api::start().await;
    let table = [
        ("consumables?limit=many", "?limit", "\"many\" is not a whole number from 1 to 200"),
        ("stations?limit=", "?limit", "\"\" is not a whole number from 1 to 200"),
        ("audit?after=1.5", "?after", "\"1.5\" is not a whole number"),
        (
            "stations/S-1?revision=first",
            "?revision",
            "\"first\" is not a whole number of at least 1",
        ),
        (
            "stations/S-1?revision=5000000000",
            "?revision",
            "\"5000000000\" is above 2147483647, the largest that this parameter takes",
        ),
        (
            "audit?after=99999999999999999999",
            "?after",
            "\"99999999999999999999\" is above 9223372036854775807, the largest that this parameter takes",
        ),
        ("procedures?joint=tee", "?joint", "\"tee\" is no joint; use one of butt, fillet"),
        (
            "stations?waveform=x",
            "?waveform",
            "\"x\" is no waveform; use one of not-controlled, controlled",
        ),
        ("procedures?joint=butt&joint=fillet", "?joint", "this parameter is given more than once"),
        ("welders/W-1/standing?dya=2026-01-01", "?dya", "no such parameter; known are day"),
    ];
    for (path, pointer, detail) in table {
        let refused = api.get(api.shop.reader(), &format!("/v1/{path}")).await;
        refused.problem(400, "bad-parameter");
        assert_eq!(refused.pointers(), [pointer], "{path}");
        assert_eq!(refused.json()["detail"], detail, "{path}");
    }
}

#[tokio::test]
async fn a_list_as_csv_opens_in_a_spreadsheet_and_runs_nothing() {
    let api = Api::start().await;
    for (code, name) in [
        ("A-1", "Plain"),
        ("A-2", "=HYPERLINK(\"https://example.invalid\",\"x\")"),
        ("A-3", "+1, with comma"),
        ("A-4", "@sum"),
        ("A-5", "-1"),
        ("A-6", "Two\r\nlines and a \"quote\""),
    ] {
        let document = documents::with(documents::station(), "/code", json!(code));
        let document = documents::with(document, "/name", json!(name));
        api.shop.write(&api, "stations", &document).await;
    }
    let answer = csv(&api, "/v1/stations").await;
    assert_eq!(answer.status, 200);
    assert_eq!(answer.header("content-type"), "text/csv; charset=utf-8");
    let expected = [
        "code,revision,state,name,outputs,diameters",
        "A-1,1,current,Plain,not-controlled,1 mm; 1.2 mm",
        "A-2,1,current,\"'=HYPERLINK(\"\"https://example.invalid\"\",\"\"x\"\")\",not-controlled,1 mm; 1.2 mm",
        "A-3,1,current,\"'+1, with comma\",not-controlled,1 mm; 1.2 mm",
        "A-4,1,current,'@sum,not-controlled,1 mm; 1.2 mm",
        "A-5,1,current,'-1,not-controlled,1 mm; 1.2 mm",
        "A-6,1,current,\"Two\r\nlines and a \"\"quote\"\"\",not-controlled,1 mm; 1.2 mm",
        "",
    ];
    assert_eq!(answer.text, expected.join("\r\n"));
    let page = csv(&api, "/v1/stations?limit=2").await;
    assert_eq!(page.text.matches("\r\n").count(), 3, "heading and two records");
    let rest = csv(&api, &next_link(&page).unwrap()).await;
    assert!(rest.text.contains("A-3,1") && !rest.text.contains("A-2,1"), "{}", rest.text);
    let empty = csv(&api, "/v1/stations?state=withdrawn").await;
    assert_eq!(empty.text, "code,revision,state,name,outputs,diameters\r\n");
}

#[tokio::test]
async fn a_record_that_did_not_change_is_not_sent_again() {
    let api = Api::furnished().await;
    let path = "/v1/procedures/WPS-1";
    let now = etag(&api, path).await;
    let ask = async |tag: &str| {
        let call = api.call(Method::GET, path).key(api.shop.reader());
        call.header("if-none-match", tag).send().await
    };
    // Weak comparison, lists and `*` (RFC 9110, 13.1.2).
    for tag in [now.as_str(), &format!("W/{now}"), &format!("\"v0\", {now}"), "*"] {
        let unchanged = ask(tag).await;
        assert_eq!((unchanged.status, unchanged.text.as_str()), (304, ""), "{tag}");
        assert_eq!(unchanged.header("etag"), now);
    }
    ask("\"v0\"").await.expect(200);
    // One strong tag for every encoding.
    let call = api.call(Method::GET, path).key(api.shop.reader());
    let packed = call.header("accept-encoding", "gzip").send().await;
    assert_eq!(headers_of(&packed.headers, "etag"), std::slice::from_ref(&now));
    api.put(api.shop.author(), path, &now, &documents::procedure()).await.expect(200);
    let changed = ask(&now).await;
    changed.expect(200);
    assert_ne!(changed.etag(), now);
}

fn headers_of(headers: &HeaderMap, name: &str) -> Vec<String> {
    headers.get_all(name).iter().map(|value| value.to_str().unwrap().to_owned()).collect()
}

/// A body of nothing but errors is answered with a hundred of them, soon.
#[tokio::test]
async fn the_list_of_errors_is_bounded() {
    let api = Api::start().await;
    let classes: Vec<_> = std::iter::repeat_n("fill", 500).collect();
    let run = json!({ "classes": classes });
    let runs: Vec<_> = std::iter::repeat_n(run, 150).collect();
    let document = documents::with(documents::procedure(), "/runs", json!(runs));
    let start = std::time::Instant::now();
    let refused = api.post(api.shop.author(), "/v1/procedures", &document).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers().len(), 100);
    assert!(start.elapsed().as_secs() < 10, "{:?}", start.elapsed());
}
