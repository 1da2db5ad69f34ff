//! The two embedded fonts: which characters they have and how wide these are.

use std::sync::LazyLock;

use krilla::text::{Font, GlyphId, KrillaGlyph};
use skrifa::{FontRef, MetadataProvider, instance::LocationRef, prelude::Size};

use crate::sheet::text::push_number;

static REGULAR: &[u8] = include_bytes!("../../../assets/fonts/DejaVuSansCondensed.ttf");
static BOLD: &[u8] = include_bytes!("../../../assets/fonts/DejaVuSansCondensed-Bold.ttf");

/// Regular and bold.
pub(super) struct Fonts {
    pub(super) regular: Face,
    pub(super) bold: Face,
}

/// One font.
pub(super) struct Face {
    pub(super) font: Font,
    reference: FontRef<'static>,
    units_per_em: f32,
}

/// The fonts, read once.
pub(super) fn fonts() -> Result<&'static Fonts, String> {
    static FONTS: LazyLock<Result<Fonts, String>> =
        LazyLock::new(|| Ok(Fonts { regular: Face::read(REGULAR)?, bold: Face::read(BOLD)? }));
    FONTS.as_ref().map_err(Clone::clone)
}

impl Fonts {
    /// The bold one, or the other.
    pub(super) const fn face(&self, bold: bool) -> &Face {
        if bold { &self.bold } else { &self.regular }
    }
}

impl Face {
    fn read(bytes: &'static [u8]) -> Result<Self, String> {
        let reference = FontRef::new(bytes).map_err(|error| error.to_string())?;
        let font = Font::new(bytes.into(), 0).ok_or("an embedded font cannot be read")?;
        let units_per_em = font.units_per_em();
        Ok(Self { font, reference, units_per_em })
    }

    /// The text with the number of each character that cannot be drawn in its stead: the font lacks it, or its
    /// script needs letters joined or set from right to left.
    pub(super) fn drawable(&self, text: &str) -> String {
        let map = self.reference.charmap();
        let mut out = String::with_capacity(text.len());
        for c in text.chars() {
            if c == '\n' || (map.map(c).is_some() && !runs_left(c)) {
                out.push(c);
            } else {
                push_number(&mut out, c);
            }
        }
        out
    }

    /// The glyphs of a line.
    pub(super) fn glyphs(&self, line: &str) -> Vec<KrillaGlyph> {
        let map = self.reference.charmap();
        let metrics = self.reference.glyph_metrics(Size::unscaled(), LocationRef::default());
        line.char_indices()
            .map(|(at, c)| {
                let glyph = map.map(c).unwrap_or_default();
                let advance = metrics.advance_width(glyph).unwrap_or_default() / self.units_per_em;
                let range = at..at + c.len_utf8();
                KrillaGlyph::new(GlyphId::new(glyph.to_u32()), advance, 0.0, 0.0, 0.0, range, None)
            })
            .collect()
    }

    /// Widths of the characters of a text in points, at this size.
    pub(super) fn widths(&self, text: &str, size: f32) -> Vec<f32> {
        let map = self.reference.charmap();
        let metrics = self.reference.glyph_metrics(Size::unscaled(), LocationRef::default());
        let width = |c| metrics.advance_width(map.map(c).unwrap_or_default()).unwrap_or_default();
        text.chars().map(|c| width(c) * size / self.units_per_em).collect()
    }

    /// Width of a line in points, at this size.
    pub(super) fn width(&self, line: &str, size: f32) -> f32 {
        self.widths(line, size).iter().sum()
    }
}

/// Blocks of scripts that are written from right to left, or whose letters join (Unicode, from memory).
const fn runs_left(c: char) -> bool {
    matches!(c,
        '\u{590}'..='\u{8ff}' | '\u{fb1d}'..='\u{fdff}' | '\u{fe70}'..='\u{feff}'
        | '\u{10800}'..='\u{10fff}' | '\u{1e800}'..='\u{1efff}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_characters_of_the_trade_are_in_both_fonts() {
        let fonts = fonts().unwrap();
        let trade = "°±≤≥²³·×–—µΩαβ€½¼‹›“”’√≈°C Łódź Škoda Ørsted Ğ Привет Ελλάδα";
        for bold in [false, true] {
            assert_eq!(fonts.face(bold).drawable(trade), trade);
        }
    }

    #[test]
    fn what_cannot_be_drawn_shows_its_number() {
        let face = &fonts().unwrap().regular;
        assert_eq!(face.drawable("溶A"), "‹U+6EB6›A");
        assert_eq!(face.drawable("א"), "‹U+05D0›");
    }
}
