//! Filling pages from top to bottom.

use super::{MM, font::Fonts, lines::lines};
use crate::sheet::Tone;

/// Size of plain letters in points.
pub(super) const SIZE: f32 = 8.5;

/// Height of a line over the size of its letters.
const LINE: f32 = 1.32;

/// White inside the frame of a cell.
const PAD: f32 = 1.1 * MM;

/// One thing on a page; lengths in points from the upper left corner.
#[derive(Debug, Clone)]
pub(super) enum Mark {
    /// A line of text; the place is the foot of its letters.
    Text { at: (f32, f32), size: f32, bold: bool, line: String },
    /// A filled rectangle of this lightness: left, top, width, height.
    Shade { rectangle: [f32; 4], lightness: u8 },
    /// The frame of a rectangle.
    Frame { rectangle: [f32; 4] },
    /// A shape of a drawing.
    Shape { points: Vec<(f32, f32)>, tone: Tone },
}

/// A cell of a row, broken into lines.
pub(super) struct Cell {
    pub(super) lines: Vec<String>,
    pub(super) width: f32,
}

/// A row of cells.
pub(super) struct Row {
    pub(super) cells: Vec<Cell>,
    /// Whether the first cells, so many of them, are bold.
    pub(super) bold: usize,
    /// Whether its ground is grey.
    pub(super) shaded: bool,
}

/// The pages so far, and the place on the last one.
pub(super) struct Flow<'a> {
    pub(super) fonts: &'a Fonts,
    pub(super) pages: Vec<Vec<Mark>>,
    pub(super) y: f32,
    pub(super) left: f32,
    width: f32,
    top: f32,
    bottom: f32,
    /// Page, lower end and width of what stands at the right side.
    aside: Option<(usize, f32, f32)>,
}

impl<'a> Flow<'a> {
    /// Pages with room between these.
    pub(super) fn new(
        fonts: &'a Fonts,
        (left, width): (f32, f32),
        (top, bottom): (f32, f32),
    ) -> Self {
        Self { fonts, pages: vec![Vec::new()], y: top, left, width, top, bottom, aside: None }
    }

    /// Width that is free at this height.
    pub(super) fn width(&self) -> f32 {
        match self.aside {
            Some((page, end, taken)) if page == self.pages.len() && self.y < end => {
                self.width - taken
            }
            _ => self.width,
        }
    }

    /// Keeps the right side free for so much, from here down.
    pub(super) fn keep_aside(&mut self, width: f32, height: f32) {
        self.aside = Some((self.pages.len(), self.y + height, width));
    }

    /// Goes below what stands aside.
    pub(super) fn clear(&mut self) {
        if let Some((page, end, _)) = self.aside.take()
            && page == self.pages.len()
        {
            self.y = self.y.max(end);
        }
    }

    /// Begins a page where less than this is left of the one before.
    pub(super) fn room(&mut self, height: f32) {
        if self.y + height > self.bottom && self.y > self.top {
            self.next_page();
        }
    }

    fn next_page(&mut self) {
        self.pages.push(Vec::new());
        self.y = self.top;
    }

    /// Puts a mark on the page.
    pub(super) fn put(&mut self, mark: Mark) {
        if let Some(page) = self.pages.last_mut() {
            page.push(mark);
        }
    }

    /// Height of a line of letters of this size.
    pub(super) const fn line_height(size: f32) -> f32 {
        size * LINE
    }

    /// Writes words over the whole width.
    pub(super) fn words(&mut self, words: &str, size: f32, bold: bool) {
        let height = Self::line_height(size);
        for line in lines(self.fonts.face(bold), words, size, self.width()) {
            self.room(height);
            self.put(Mark::Text { at: (self.left, self.y + size), size, bold, line });
            self.y += height;
        }
    }

    /// Words as a cell.
    pub(super) fn cell(&self, words: &str, width: f32, bold: bool) -> Cell {
        Cell { lines: lines(self.fonts.face(bold), words, SIZE, width - 2.0 * PAD), width }
    }

    /// Writes a row; the head, where there is one, once more on every page that it begins. A row that fits on
    /// one page stays whole.
    pub(super) fn row(&mut self, row: &Row, head: Option<&Row>) {
        let most = row.cells.iter().map(|cell| cell.lines.len()).max().unwrap_or_default();
        let mut written = 0;
        while written < most {
            let fits = self.lines_left();
            let is_split = written > 0 || most > self.lines_of_a_page();
            if self.y > self.top && (fits == 0 || (most > fits && !is_split)) {
                self.next_page();
                if let Some(head) = head {
                    self.row(head, None);
                }
                continue;
            }
            let now = (most - written).min(fits.max(1));
            self.part(row, written, now);
            written += now;
            if written < most {
                self.next_page();
                if let Some(head) = head {
                    self.row(head, None);
                }
            }
        }
    }

    fn lines_left(&self) -> usize {
        whole((self.bottom - self.y - PAD) / Self::line_height(SIZE))
    }

    fn lines_of_a_page(&self) -> usize {
        // The head of a table takes two lines more.
        whole((self.bottom - self.top - PAD) / Self::line_height(SIZE)).saturating_sub(3)
    }

    /// Writes some lines of a row in a frame of their own.
    fn part(&mut self, row: &Row, from: usize, count: usize) {
        let line_height = Self::line_height(SIZE);
        #[expect(clippy::cast_precision_loss, reason = "lines of one page")]
        let height = count as f32 * line_height + PAD;
        let mut left = self.left;
        for (index, cell) in row.cells.iter().enumerate() {
            let rectangle = [left, self.y, cell.width, height];
            if row.shaded {
                self.put(Mark::Shade { rectangle, lightness: 238 });
            }
            self.put(Mark::Frame { rectangle });
            let mut foot = self.y + PAD / 2.0 + SIZE;
            for line in cell.lines.iter().skip(from).take(count) {
                let at = (left + PAD, foot);
                self.put(Mark::Text { at, size: SIZE, bold: index < row.bold, line: line.clone() });
                foot += line_height;
            }
            left += cell.width;
        }
        self.y += height;
    }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "lines of one page")]
fn whole(lines: f32) -> usize {
    lines.max(0.0).floor() as usize
}
