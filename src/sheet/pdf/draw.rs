//! Drawing laid-out pages.

use krilla::{
    Document, SerializeSettings,
    color::luma,
    geom::{Path, PathBuilder, Point, Rect, Transform},
    metadata::{DateTime, Metadata},
    num::NormalizedF32,
    page::PageSettings,
    paint::{Fill, FillRule, Stroke},
    surface::Surface,
};
use time::{OffsetDateTime, UtcOffset};

use super::{
    MM,
    flow::{Flow, Mark},
    font::Fonts,
    layout::{MARGIN, size},
    lines::lines,
};
use crate::sheet::{Sheet, Tone};

/// Size of the running letters in points.
const RUNNING: f32 = 7.5;

/// Lines of the running words.
const MOST_LINES: usize = 2;

pub(super) fn document(
    sheet: &Sheet,
    fonts: &Fonts,
    pages: &[Vec<Mark>],
) -> Result<Vec<u8>, String> {
    let settings = SerializeSettings { enable_tagging: false, ..SerializeSettings::default() };
    let mut document = Document::new_with(settings);
    let (width, height) = size(sheet.paper);
    for (index, marks) in pages.iter().enumerate() {
        let settings = PageSettings::from_wh(width, height).ok_or("a page has no size")?;
        let mut page = document.start_page_with(settings);
        let mut surface = page.surface();
        let mut pen = Pen { surface: &mut surface, fonts };
        if let Some(stamp) = &sheet.stamp {
            pen.stamp(stamp, (width, height));
        }
        for mark in marks {
            pen.mark(mark);
        }
        let number = format!("Page {} of {}", index + 1, pages.len());
        pen.running(sheet, &number, (width, height));
        surface.finish();
        page.finish();
    }
    document.set_metadata(metadata(sheet));
    document.finish().map_err(|error| format!("{error:?}"))
}

fn metadata(sheet: &Sheet) -> Metadata {
    Metadata::new()
        .title(sheet.title.clone())
        .description(sheet.subtitle.clone())
        .creator("arcbounds".to_owned())
        .language("en".to_owned())
        .creation_date(date(sheet.written))
}

fn date(at: OffsetDateTime) -> DateTime {
    let at = at.to_offset(UtcOffset::UTC);
    DateTime::new(u16::try_from(at.year()).unwrap_or_default())
        .month(at.month().into())
        .day(at.day())
        .hour(at.hour())
        .minute(at.minute())
        .second(at.second())
        .utc_offset_hour(0)
        .utc_offset_minute(0)
}

/// What draws on one page.
struct Pen<'a, 'b> {
    surface: &'a mut Surface<'b>,
    fonts: &'a Fonts,
}

impl Pen<'_, '_> {
    fn mark(&mut self, mark: &Mark) {
        match mark {
            Mark::Text { at, size, bold, line } => self.text(*at, *size, *bold, line),
            Mark::Shade { rectangle, lightness } => self.filled(framed(*rectangle), *lightness),
            Mark::Frame { rectangle } => self.stroked(framed(*rectangle), 0.4),
            Mark::Shape { points, tone } => match tone {
                Tone::Black => self.filled(path(points, true), 0),
                Tone::Part => {
                    self.filled(path(points, true), 205);
                    self.stroked(path(points, true), 0.3 * MM);
                }
                Tone::Weld => {
                    self.filled(path(points, true), 245);
                    self.stroked(path(points, true), 0.3 * MM);
                }
                Tone::Thin => self.stroked(path(points, false), 0.15 * MM),
            },
        }
    }

    fn text(&mut self, (x, y): (f32, f32), size: f32, bold: bool, line: &str) {
        self.surface.set_stroke(None);
        self.surface.set_fill(Some(fill(0, 1.0)));
        if line.is_empty() {
            return;
        }
        let face = self.fonts.face(bold);
        let glyphs = face.glyphs(line);
        let start = Point::from_xy(x, y);
        self.surface.draw_glyphs(start, &glyphs, face.font.clone(), line, size, false);
    }

    fn filled(&mut self, path: Option<Path>, lightness: u8) {
        self.surface.set_stroke(None);
        self.surface.set_fill(Some(fill(lightness, 1.0)));
        if let Some(path) = path {
            self.surface.draw_path(&path);
        }
    }

    fn stroked(&mut self, path: Option<Path>, width: f32) {
        self.surface.set_fill(None);
        let paint = luma::Color::black().into();
        self.surface.set_stroke(Some(Stroke { paint, width, ..Stroke::default() }));
        if let Some(path) = path {
            self.surface.draw_path(&path);
        }
    }

    /// Words across the whole page, as large as fits.
    fn stamp(&mut self, words: &str, (width, height): (f32, f32)) {
        const ANGLE: f32 = -52.0;
        let face = self.fonts.face(true);
        let words = face.drawable(words);
        let length = 0.9 * width.hypot(height) - 2.0 * MARGIN;
        let size = (length / face.width(&words, 1.0).max(1.0)).min(48.0);
        let (x, y) = (width / 2.0, height / 2.0);
        self.surface.push_transform(&Transform::from_rotate_at(ANGLE, x, y));
        self.surface.set_stroke(None);
        self.surface.set_fill(Some(fill(0, 0.13)));
        let start = Point::from_xy(x - face.width(&words, size) / 2.0, y + size / 3.0);
        // As outlines: letters across the page would break the text that is copied or read aloud. The words
        // stand in the running line as well.
        let glyphs = face.glyphs(&words);
        self.surface.draw_glyphs(start, &glyphs, face.font.clone(), &words, size, true);
        self.surface.pop();
    }

    /// The lines at head and foot of every page.
    fn running(&mut self, sheet: &Sheet, number: &str, (width, height): (f32, f32)) {
        let (left, right) = (MARGIN, width - MARGIN);
        let taken = self.fonts.regular.width(number, RUNNING);
        let room = right - left - taken - 4.0 * MM;
        let line_height = Flow::line_height(RUNNING);
        let mut foot = MARGIN + RUNNING;
        for line in self.few_lines(&sheet.running, room) {
            self.text((left, foot), RUNNING, true, &line);
            foot += line_height;
        }
        self.text((right - taken, MARGIN + RUNNING), RUNNING, false, number);
        let rule = MARGIN + 2.0 * line_height + MM;
        self.stroked(path(&[(left, rule), (right, rule)], false), 0.6);
        let rule = height - MARGIN - 2.0 * line_height - MM;
        self.stroked(path(&[(left, rule), (right, rule)], false), 0.4);
        let mut foot = rule + MM + RUNNING;
        for line in self.few_lines(&sheet.foot, right - left) {
            self.text((left, foot), RUNNING, false, &line);
            foot += line_height;
        }
    }

    /// The first lines of words; what is left out shows as an ellipsis.
    fn few_lines(&self, words: &str, width: f32) -> Vec<String> {
        let all = lines(&self.fonts.bold, words, RUNNING, width - 2.0 * MM);
        let more = all.len() > MOST_LINES;
        let mut few: Vec<_> = all.into_iter().take(MOST_LINES).collect();
        if let Some(last) = few.last_mut().filter(|_| more) {
            last.push('…');
        }
        few
    }
}

fn fill(lightness: u8, opacity: f32) -> Fill {
    let opacity = NormalizedF32::new(opacity).unwrap_or(NormalizedF32::ONE);
    Fill { paint: luma::Color::new(lightness).into(), opacity, rule: FillRule::NonZero }
}

fn framed([left, top, width, height]: [f32; 4]) -> Option<Path> {
    let mut path = PathBuilder::new();
    path.push_rect(Rect::from_xywh(left, top, width, height)?);
    path.finish()
}

fn path(points: &[(f32, f32)], closed: bool) -> Option<Path> {
    let mut path = PathBuilder::new();
    for (index, (x, y)) in points.iter().enumerate() {
        if index == 0 { path.move_to(*x, *y) } else { path.line_to(*x, *y) }
    }
    if closed {
        path.close();
    }
    path.finish()
}
