//! A sheet as one HTML document that needs nothing else: no script, no request, its style inside.

use std::{fmt::Write, sync::LazyLock};

use base64::{Engine, prelude::BASE64_STANDARD};
use maud::{DOCTYPE, Markup, PreEscaped, html};
use sha2::{Digest, Sha256};

use super::{Anchor, Block, Drawing, Paper, Section, Shape, Sheet, Table, Tone};

const STYLE: &str = include_str!("sheet.css");
const A4: &str = "@page { size: A4; }\n";
const LETTER: &str = "@page { size: letter; }\n";

/// Height of the letters in a drawing, in millimetres.
const LABEL: f64 = 2.6;

/// `Content-Security-Policy` of such a document: nothing runs, nothing is fetched, nothing frames it, and the one
/// style is the one written here, known by its hash.
#[must_use]
pub fn policy(paper: Paper) -> &'static str {
    static POLICIES: LazyLock<[String; 2]> = LazyLock::new(|| [of(A4), of(LETTER)]);
    fn of(size: &str) -> String {
        let hash = Sha256::new().chain_update(size).chain_update(STYLE).finalize();
        format!(
            "default-src 'none'; style-src 'sha256-{}'; base-uri 'none'; form-action 'none'; \
             frame-ancestors 'none'; sandbox",
            BASE64_STANDARD.encode(hash)
        )
    }
    match paper {
        Paper::A4 => &POLICIES[0],
        Paper::Letter => &POLICIES[1],
    }
}

/// The sheet as HTML.
#[must_use]
pub fn html(sheet: &Sheet) -> String {
    let size = match sheet.paper {
        Paper::A4 => A4,
        Paper::Letter => LETTER,
    };
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                title { (sheet.title) }
                style { (PreEscaped(size)) (PreEscaped(STYLE)) }
            }
            body {
                @if let Some(stamp) = &sheet.stamp { div.across aria-hidden="true" { (stamp) } }
                table.page {
                    thead { tr { td { (sheet.running) } } }
                    tfoot { tr { td { (sheet.foot) } } }
                    tbody { tr { td { (body(sheet)) } } }
                }
            }
        }
    };
    page.into_string()
}

fn body(sheet: &Sheet) -> Markup {
    html! {
        h1 { (sheet.title) }
        p { (sheet.subtitle) }
        @if let Some(stamp) = &sheet.stamp { div.stamp { (stamp) } }
        @for notice in &sheet.notices { p.notice { (notice) } }
        @for own in &sheet.sections { (section(own)) }
    }
}

fn section(section: &Section) -> Markup {
    html! {
        section {
            h2 {
                (section.title)
                @if let Some(source) = section.source { small { (source) } }
            }
            @if let Some(aside) = &section.aside { (figure(aside)) }
            div.beside { @for own in &section.blocks { (block(own)) } }
        }
    }
}

fn block(block: &Block) -> Markup {
    match block {
        Block::Words(words) => html! { p { (words) } },
        Block::Table(own) => table(own),
        Block::Facts(facts) => html! {
            table.rows.facts {
                tbody {
                    @for fact in facts { tr { th scope="row" { (fact.name) } td { (fact.value) } } }
                }
            }
        },
    }
}

fn table(table: &Table) -> Markup {
    let all: u32 = table.columns.iter().map(|column| u32::from(column.share)).sum();
    let width = |share: u16| format!("{}%", u32::from(share) * 100 / all.max(1));
    html! {
        table.rows {
            colgroup { @for column in &table.columns { col width=(width(column.share)); } }
            thead { tr { @for column in &table.columns { th scope="col" { (column.heading) } } } }
            tbody {
                @for row in &table.rows { tr { @for cell in row { td { (cell) } } } }
            }
        }
    }
}

fn figure(drawing: &Drawing) -> Markup {
    let (width, height) = drawing.size;
    let view = format!("0 0 {} {}", number(width), number(height));
    let size = |millimetres: f64| format!("{}mm", number(millimetres));
    let letters = number(LABEL / drawing.scale());
    html! {
        figure {
            svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label=(drawing.caption) viewBox=(view)
                width=(size(drawing.printed_width)) height=(size(drawing.printed_height()))
                font-family="sans-serif" font-size=(letters) {
                @for own in &drawing.shapes { (shape(own, drawing.scale())) }
            }
            figcaption { (drawing.caption) }
        }
    }
}

fn shape(shape: &Shape, scale: f64) -> Markup {
    match shape {
        Shape::Path(points, tone) => {
            let (fill, stroke, width) = match tone {
                Tone::Black => ("#000", "none", 0.0),
                Tone::Part => ("#ccc", "#000", 0.3),
                Tone::Weld => ("#f4f4f4", "#000", 0.3),
                Tone::Thin => ("none", "#000", 0.15),
            };
            let close = if *tone == Tone::Thin { "" } else { "Z" };
            html! {
                path d={ (path(points)) (close) } fill=(fill) stroke=(stroke)
                    stroke-width=(number(width / scale)) {}
            }
        }
        Shape::Label { at, words, anchor } => {
            let anchor = match anchor {
                Anchor::Start => "start",
                Anchor::Middle => "middle",
                Anchor::End => "end",
            };
            html! { text x=(number(at.0)) y=(number(at.1)) text-anchor=(anchor) { (words) } }
        }
    }
}

fn path(points: &[(f64, f64)]) -> String {
    let mut d = String::new();
    for (index, (x, y)) in points.iter().enumerate() {
        let step = if index == 0 { 'M' } else { 'L' };
        // Writing to a text cannot fail.
        let _ = write!(d, "{step}{} {}", number(*x), number(*y));
    }
    d
}

/// A number with at most three decimals.
fn number(value: f64) -> String {
    let text = format!("{value:.3}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" { "0".to_owned() } else { short.to_owned() }
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::sheet::{tests::sample, visible};

    /// Elements that have no end (HTML, 13.1.2).
    const VOID: [&str; 2] = ["meta", "col"];

    /// The words between the tags of a document, with its tags checked: known names only, each closed in order.
    pub(crate) fn words_of(html: &str) -> String {
        const KNOWN: &[&str] = &[
            "html",
            "head",
            "meta",
            "title",
            "style",
            "body",
            "div",
            "table",
            "thead",
            "tfoot",
            "tbody",
            "tr",
            "td",
            "th",
            "h1",
            "h2",
            "p",
            "section",
            "small",
            "colgroup",
            "col",
            "figure",
            "figcaption",
            "svg",
            "path",
            "text",
        ];
        let mut open = Vec::new();
        let mut words = String::new();
        let body = html.strip_prefix("<!DOCTYPE html>").unwrap();
        for part in body.split('<').skip(1) {
            let (tag, rest) = part.split_once('>').unwrap();
            let name = tag.split(' ').next().unwrap();
            if let Some(name) = name.strip_prefix('/') {
                assert_eq!(open.pop(), Some(name));
            } else {
                assert!(KNOWN.contains(&name), "{name}");
                if !VOID.contains(&name) {
                    open.push(name);
                }
            }
            assert!(!tag.contains(" on") && !tag.contains("style="), "{tag}");
            words.push_str(rest);
            words.push('\n');
        }
        assert!(open.is_empty(), "{open:?}");
        let plain = words.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"");
        plain.replace("&amp;", "&")
    }

    #[test]
    fn markup_in_words_is_shown_and_not_obeyed() {
        let evil = "</style><script>alert('1')</script><a href=\"javascript:x\">&amp;";
        let page = html(&sample(Paper::A4, evil));
        assert!(!page.contains("<script") && !page.contains("<a "), "{page}");
        assert!(words_of(&page).contains(evil));
    }

    /// SHA-256 in Base64 of the style that stands in the page, by the rules of CSP level 3, 2.3.1.
    #[test]
    fn the_policy_names_the_style_of_the_page() {
        for paper in [Paper::A4, Paper::Letter] {
            let page = html(&sample(paper, "x"));
            let style = page.split_once("<style>").unwrap().1.split_once("</style>").unwrap().0;
            let hash = BASE64_STANDARD.encode(Sha256::digest(style));
            assert!(policy(paper).contains(&format!("style-src 'sha256-{hash}'")));
        }
        assert_ne!(policy(Paper::A4), policy(Paper::Letter));
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

        #[test]
        fn any_words_stand_on_the_page_as_they_are(words in any::<String>()) {
            let page = html(&sample(Paper::Letter, &words));
            prop_assert!(words_of(&page).contains(&visible(&words)));
        }
    }
}
