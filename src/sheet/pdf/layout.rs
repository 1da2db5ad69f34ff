//! What stands where on which page.

use super::{
    MM,
    flow::{Flow, Mark, Row, SIZE},
    font::Fonts,
    lines::lines,
};
use crate::sheet::{Anchor, Block, Drawing, Paper, Section, Shape, Sheet, Table};

/// White around a page.
pub(super) const MARGIN: f32 = 14.0 * MM;

/// Room of the running lines at head and foot.
const RUNNING: f32 = 9.0 * MM;

/// Share of the width that the names of facts take.
const NAMES: f32 = 0.3;

/// Size of the letters of captions and labels.
const SMALL: f32 = 7.0;

/// Most lines of a caption: it stands beside the text and cannot go on overleaf.
const CAPTION: usize = 12;

/// Size of the letters of a section's title.
const TITLE: f32 = 10.0;

/// Width and height of the paper in points.
pub(super) const fn size(paper: Paper) -> (f32, f32) {
    match paper {
        Paper::A4 => (210.0 * MM, 297.0 * MM),
        Paper::Letter => (612.0, 792.0),
    }
}

/// The pages of a sheet, without what every page has.
pub(super) fn pages(sheet: &Sheet, fonts: &Fonts) -> Vec<Vec<Mark>> {
    let (width, height) = size(sheet.paper);
    let across = (MARGIN, width - 2.0 * MARGIN);
    let mut flow = Flow::new(fonts, across, (MARGIN + RUNNING, height - MARGIN - RUNNING));
    flow.words(&sheet.title, 16.0, true);
    flow.words(&sheet.subtitle, 10.0, false);
    if let Some(stamp) = &sheet.stamp {
        flow.y += 1.5 * MM;
        boxed(&mut flow, stamp);
    }
    for notice in &sheet.notices {
        flow.y += MM;
        flow.words(notice, SIZE, true);
    }
    for own in &sheet.sections {
        section(&mut flow, own);
    }
    flow.pages
}

/// Large words in a frame.
fn boxed(flow: &mut Flow<'_>, words: &str) {
    const SIZE: f32 = 13.0;
    let (width, height) = (flow.width(), Flow::line_height(SIZE));
    for line in lines(flow.fonts.face(true), words, SIZE, width - 4.0 * MM) {
        flow.room(height);
        let rectangle = [flow.left, flow.y, width, height];
        flow.put(Mark::Shade { rectangle, lightness: 225 });
        let at = (flow.left + 2.0 * MM, flow.y + SIZE);
        flow.put(Mark::Text { at, size: SIZE, bold: true, line });
        flow.y += height;
    }
    flow.y += MM;
}

fn section(flow: &mut Flow<'_>, section: &Section) {
    let aside = section.aside.as_ref();
    let aside_height = aside.map_or(0.0, |drawing| figure_height(flow, drawing));
    flow.y += 3.0 * MM;
    // A title does not stand alone at the foot of a page.
    let title_height = Flow::line_height(TITLE) + 2.0 * MM;
    flow.room(title_height + aside_height.max(4.0 * Flow::line_height(SIZE)));
    title(flow, section);
    if let Some(drawing) = aside {
        figure(flow, drawing, aside_height);
    }
    for block in &section.blocks {
        match block {
            Block::Words(words) => {
                flow.y += 0.6 * MM;
                flow.words(words, SIZE, false);
            }
            Block::Facts(facts) => {
                for fact in facts {
                    let width = flow.width();
                    let names = (width * NAMES).min(45.0 * MM);
                    let cells = vec![
                        flow.cell(&fact.name, names, false),
                        flow.cell(&fact.value, width - names, false),
                    ];
                    flow.row(&Row { cells, bold: 0, shaded: false }, None);
                }
            }
            Block::Table(own) => table(flow, own),
        }
    }
    flow.clear();
}

fn title(flow: &mut Flow<'_>, section: &Section) {
    let width = flow.width();
    let source = section.source.unwrap_or_default();
    let taken = flow.fonts.regular.width(source, SMALL);
    let all = lines(flow.fonts.face(true), &section.title, TITLE, width - taken - 6.0 * MM);
    let height = Flow::line_height(TITLE);
    for (index, line) in all.into_iter().enumerate() {
        flow.room(height);
        let rectangle = [flow.left, flow.y, width, height];
        flow.put(Mark::Shade { rectangle, lightness: 225 });
        let at = (flow.left + 1.5 * MM, flow.y + TITLE);
        flow.put(Mark::Text { at, size: TITLE, bold: true, line });
        if index == 0 {
            let at = (flow.left + width - taken - 1.5 * MM, flow.y + TITLE);
            flow.put(Mark::Text { at, size: SMALL, bold: false, line: source.to_owned() });
        }
        flow.y += height;
    }
    flow.y += MM;
}

fn table(flow: &mut Flow<'_>, table: &Table) {
    let width = flow.width();
    let all: f32 = table.columns.iter().map(|column| f32::from(column.share)).sum();
    let widths: Vec<f32> =
        table.columns.iter().map(|column| width * f32::from(column.share) / all.max(1.0)).collect();
    let row = |flow: &Flow<'_>, cells: &mut dyn Iterator<Item = &String>, is_head: bool| Row {
        cells: cells.zip(&widths).map(|(cell, width)| flow.cell(cell, *width, is_head)).collect(),
        bold: if is_head { widths.len() } else { 0 },
        shaded: is_head,
    };
    let head = row(flow, &mut table.columns.iter().map(|column| &column.heading), true);
    flow.y += MM;
    flow.room(5.0 * Flow::line_height(SIZE));
    flow.row(&head, None);
    for cells in &table.rows {
        let own = row(flow, &mut cells.iter(), false);
        flow.row(&own, Some(&head));
    }
    flow.y += MM;
}

/// A length of a drawing in points.
#[expect(clippy::cast_possible_truncation, reason = "no page is that large")]
fn points(millimetres: f64) -> f32 {
    millimetres as f32 * MM
}

/// The first lines of a caption; what is left out shows as an ellipsis.
fn caption(flow: &Flow<'_>, drawing: &Drawing) -> Vec<String> {
    let width = points(drawing.printed_width) - MM;
    let mut all = lines(&flow.fonts.regular, &drawing.caption, SMALL, width);
    if all.len() > CAPTION {
        all.truncate(CAPTION - 1);
        all.push("…".to_owned());
    }
    all
}

fn figure_height(flow: &Flow<'_>, drawing: &Drawing) -> f32 {
    #[expect(clippy::cast_precision_loss, reason = "lines of a caption")]
    let lines = caption(flow, drawing).len() as f32;
    points(drawing.printed_height()) + lines * Flow::line_height(SMALL) + 2.0 * MM
}

/// Puts a drawing at the right side.
fn figure(flow: &mut Flow<'_>, drawing: &Drawing, height: f32) {
    let width = points(drawing.printed_width);
    let (left, top) = (flow.left + flow.width() - width, flow.y);
    let place = |(x, y): (f64, f64)| {
        (left + points(x * drawing.scale()), top + points(y * drawing.scale()))
    };
    for shape in &drawing.shapes {
        match shape {
            Shape::Path(path, tone) => {
                let points = path.iter().copied().map(place).collect();
                flow.put(Mark::Shape { points, tone: *tone });
            }
            Shape::Label { at, words, anchor } => {
                let line = flow.fonts.regular.drawable(words);
                let (x, y) = place(*at);
                let taken = flow.fonts.regular.width(&line, SMALL);
                let x = match anchor {
                    Anchor::Start => x,
                    Anchor::Middle => x - taken / 2.0,
                    Anchor::End => x - taken,
                };
                flow.put(Mark::Text { at: (x, y), size: SMALL, bold: false, line });
            }
        }
    }
    let mut foot = top + points(drawing.printed_height()) + SMALL;
    for line in caption(flow, drawing) {
        flow.put(Mark::Text { at: (left, foot), size: SMALL, bold: false, line });
        foot += Flow::line_height(SMALL);
    }
    flow.keep_aside(width + 4.0 * MM, height);
}
