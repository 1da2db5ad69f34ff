//! A sheet as PDF: laid out on pages first, so that every page knows how many there are, then drawn.

mod draw;
mod flow;
mod font;
mod layout;
mod lines;

use super::Sheet;

/// Points of one millimetre.
const MM: f32 = 72.0 / 25.4;

/// The sheet as PDF. Its text can be searched, and the same sheet always gives the same bytes.
///
/// # Errors
/// In words, where the document cannot be made.
pub fn pdf(sheet: &Sheet) -> Result<Vec<u8>, String> {
    let fonts = font::fonts()?;
    let pages = layout::pages(sheet, fonts);
    draw::document(sheet, fonts, &pages)
}

/// Every line of letters on the pages, in the order in which they are drawn.
#[cfg(test)]
pub(crate) fn lines_drawn(sheet: &Sheet) -> Vec<String> {
    let marks = layout::pages(sheet, font::fonts().unwrap()).concat();
    let line = |mark| match mark {
        flow::Mark::Text { line, .. } => Some(line),
        _ => None,
    };
    marks.into_iter().filter_map(line).collect()
}

#[cfg(test)]
pub(crate) mod tests {
    use proptest::prelude::*;

    use super::{flow::Mark, *};
    use crate::sheet::{Paper, Section, Table, tests::sample};

    /// Every mark lies on its page, inside the white around it.
    pub(crate) fn nothing_leaves_the_page(sheet: &Sheet) {
        let fonts = font::fonts().unwrap();
        let (width, height) = layout::size(sheet.paper);
        let (right, bottom) = (width - layout::MARGIN + 0.1, height - layout::MARGIN + 0.1);
        for page in layout::pages(sheet, fonts) {
            for mark in page {
                match mark {
                    Mark::Text { at: (x, y), size, bold, line } => {
                        let end = x + fonts.face(bold).width(&line, size);
                        assert!(
                            x > 0.0 && end <= right && y <= bottom,
                            "{line} ends at {end}, {y}"
                        );
                    }
                    Mark::Shade { rectangle: [x, y, w, h], .. }
                    | Mark::Frame { rectangle: [x, y, w, h] } => {
                        assert!(x + w <= right && y + h <= bottom, "{x} {y} {w} {h}");
                    }
                    Mark::Shape { points, .. } => {
                        assert!(points.iter().all(|(x, y)| *x <= right && *y <= bottom));
                    }
                }
            }
        }
    }

    #[test]
    fn the_same_sheet_gives_the_same_bytes() {
        let sheet = sample(Paper::A4, "Root gap 3 mm");
        let made = pdf(&sheet).unwrap();
        assert!(made.starts_with(b"%PDF-1.7"));
        assert_eq!(made, pdf(&sheet).unwrap());
        assert_ne!(made, pdf(&sample(Paper::A4, "Root gap 4 mm")).unwrap());
    }

    #[test]
    fn a_long_table_repeats_its_head_on_every_page() {
        let mut table = Table::new(&[("Variable", 1), ("Allowed", 1)]);
        for number in 0..200 {
            table.row(&[&format!("row {number}"), "x"]);
        }
        let mut section = Section::new("Runs", None);
        section.table(table);
        let mut sheet = sample(Paper::Letter, "");
        sheet.push(section);
        nothing_leaves_the_page(&sheet);
        let pages = layout::pages(&sheet, font::fonts().unwrap());
        assert!(pages.len() > 3, "{}", pages.len());
        let mut heads = 0;
        for page in &pages {
            let says = |words: &str| {
                page.iter().any(|mark| matches!(mark, Mark::Text { line, .. } if line == words))
            };
            let has_rows = (0..200).any(|number| says(&format!("row {number}")));
            assert_eq!(says("Variable"), has_rows);
            heads += usize::from(has_rows);
        }
        assert!(heads > 3);
        let rows = lines_drawn(&sheet).into_iter().filter(|line| line.starts_with("row ")).count();
        assert_eq!(rows, 200);
    }

    #[test]
    fn a_cell_longer_than_a_page_goes_on_overleaf() {
        let words: Vec<_> = (0..1500).map(|number| format!("word{number}")).collect();
        let sheet = sample(Paper::A4, &words.join(" "));
        nothing_leaves_the_page(&sheet);
        let drawn = lines_drawn(&sheet).join(" ");
        assert!(words.iter().all(|word| drawn.contains(word.as_str())));
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

        #[test]
        fn any_words_stay_on_the_page(words in any::<String>(), long in "\\PC{0,400}") {
            let mut sheet = sample(Paper::Letter, &words);
            sheet.notice(&long);
            nothing_leaves_the_page(&sheet);
        }
    }
}
