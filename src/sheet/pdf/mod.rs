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
