//! Sheets for printing: one structure of sections, facts, tables and drawings, which [`html`] and [`pdf`] both
//! render, so that the two cannot say different things. What is on a sheet comes from the records alone: the same
//! records give the same bytes.

mod code;
mod drawing;
mod html;
mod pdf;
mod text;

pub use code::code;
pub use drawing::{Anchor, Drawing, Shape, Tone};
pub use html::{html, policy};
pub use pdf::pdf;
pub use text::visible;

#[cfg(test)]
pub(crate) use {
    html::tests::words_of,
    pdf::{lines_drawn, tests::nothing_leaves_the_page},
};

use time::OffsetDateTime;

/// Size of the paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// 210 mm by 297 mm (ISO 216).
    A4,
    /// 8.5 in by 11 in.
    Letter,
}

/// One document.
#[derive(Debug, Clone)]
pub struct Sheet {
    paper: Paper,
    title: String,
    subtitle: String,
    running: String,
    foot: String,
    stamp: Option<String>,
    notices: Vec<String>,
    written: OffsetDateTime,
    sections: Vec<Section>,
}

/// What the head of a sheet says.
#[derive(Debug, Clone, Copy)]
pub struct Head<'a> {
    /// What it is, in large letters.
    pub title: &'a str,
    /// A line below.
    pub subtitle: &'a str,
    /// Line at the top of every page.
    pub running: &'a str,
    /// Line at the foot of every page.
    pub foot: &'a str,
    /// Words across every page, where nobody may work by the sheet.
    pub stamp: Option<&'a str>,
    /// When the newest thing on the sheet was written.
    pub written: OffsetDateTime,
}

/// A part of a sheet under a title of its own.
#[derive(Debug, Clone)]
pub struct Section {
    title: String,
    source: Option<&'static str>,
    aside: Option<Drawing>,
    blocks: Vec<Block>,
}

/// What a section is made of.
#[derive(Debug, Clone)]
enum Block {
    /// Names with what they are.
    Facts(Vec<Fact>),
    /// A table.
    Table(Table),
    /// Words.
    Words(String),
}

/// One name with what it is.
#[derive(Debug, Clone)]
struct Fact {
    name: String,
    value: String,
}

/// A table; its head is repeated on every page that it reaches.
#[derive(Debug, Clone)]
pub struct Table {
    columns: Vec<Column>,
    rows: Vec<Vec<String>>,
}

/// One column: its heading, and its share of the width.
#[derive(Debug, Clone)]
struct Column {
    heading: String,
    share: u16,
}

impl Sheet {
    /// A sheet without sections.
    #[must_use]
    pub fn new(paper: Paper, head: Head<'_>) -> Self {
        Self {
            paper,
            title: visible(head.title),
            subtitle: visible(head.subtitle),
            running: one_line(head.running),
            foot: one_line(head.foot),
            stamp: head.stamp.map(one_line),
            notices: Vec::new(),
            written: head.written,
            sections: Vec::new(),
        }
    }

    /// Adds a sentence that stands before everything else.
    pub fn notice(&mut self, words: &str) {
        self.notices.push(visible(words));
    }

    /// Adds a section, unless it is empty.
    pub fn push(&mut self, section: Section) {
        if !section.blocks.is_empty() || section.aside.is_some() {
            self.sections.push(section);
        }
    }
}

impl Section {
    /// A section with this title, and the clause that asks for its content.
    #[must_use]
    pub fn new(title: &str, source: Option<&'static str>) -> Self {
        Self { title: visible(title), source, aside: None, blocks: Vec::new() }
    }

    /// Adds a name with what it is; neighbours stand in one list.
    pub fn fact(&mut self, name: &str, value: &str) {
        let fact = Fact { name: visible(name), value: visible(value) };
        match self.blocks.last_mut() {
            Some(Block::Facts(facts)) => facts.push(fact),
            _ => self.blocks.push(Block::Facts(vec![fact])),
        }
    }

    /// Adds a table, unless it has no rows.
    pub fn table(&mut self, table: Table) {
        if !table.rows.is_empty() {
            self.blocks.push(Block::Table(table));
        }
    }

    /// Adds words.
    pub fn words(&mut self, words: &str) {
        self.blocks.push(Block::Words(visible(words)));
    }

    /// Whether nothing was added yet.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.blocks.is_empty()
    }

    /// Puts a drawing beside the section.
    pub fn beside(&mut self, drawing: Drawing) {
        self.aside = Some(drawing);
    }
}

impl Table {
    /// A table with these headings, each with its share of the width.
    #[must_use]
    pub fn new(columns: &[(&str, u16)]) -> Self {
        let column =
            |(heading, share): &(&str, u16)| Column { heading: visible(heading), share: *share };
        Self { columns: columns.iter().map(column).collect(), rows: Vec::new() }
    }

    /// Adds a row; cells that are missing stay empty, and further ones are left out.
    pub fn row(&mut self, cells: &[&str]) {
        let cell = |index: usize| cells.get(index).map(|text| visible(text)).unwrap_or_default();
        self.rows.push((0..self.columns.len()).map(cell).collect());
    }
}

/// Visible words without line breaks.
fn one_line(text: &str) -> String {
    visible(text).replace('\n', " ")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A sheet with everything that a sheet can have, and these words in every place.
    pub(super) fn sample(paper: Paper, words: &str) -> Sheet {
        let head = Head {
            title: &format!("Sheet {words}"),
            subtitle: words,
            running: words,
            foot: words,
            stamp: Some("Draft"),
            written: OffsetDateTime::UNIX_EPOCH,
        };
        let mut sheet = Sheet::new(paper, head);
        sheet.notice(words);
        let mut section = Section::new(&format!("Title {words}"), Some("a clause"));
        section.fact("Name", words);
        section.words(words);
        let mut table = Table::new(&[("First", 1), (words, 3)]);
        table.row(&["cell", words]);
        section.table(table);
        section.beside(code(&words.chars().take(20).collect::<String>(), words).unwrap());
        sheet.push(section);
        sheet
    }

    #[test]
    fn a_section_without_content_is_left_out() {
        let mut sheet = sample(Paper::A4, "x");
        sheet.push(Section::new("Nothing", None));
        assert_eq!(sheet.sections.len(), 1);
    }
}
