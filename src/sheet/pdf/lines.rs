//! Breaking texts into lines.

use super::font::Face;

/// The lines of a text at this size, none wider than this: broken at spaces and after hyphens and slashes, and
/// inside a word only where it is wider than a whole line.
pub(super) fn lines(face: &Face, text: &str, size: f32, width: f32) -> Vec<String> {
    let text = face.drawable(text);
    text.split('\n').flat_map(|paragraph| wrapped(face, paragraph, size, width)).collect()
}

fn wrapped(face: &Face, paragraph: &str, size: f32, width: f32) -> Vec<String> {
    let chars: Vec<char> = paragraph.chars().collect();
    let widths = face.widths(paragraph, size);
    let mut lines = Vec::new();
    let (mut start, mut filled) = (0, 0.0);
    // Where the line may end, and what stands up to there.
    let mut fit: Option<(usize, f32)> = None;
    for index in 0..chars.len() {
        filled += widths[index];
        while filled > width && index > start && chars[index] != ' ' {
            let (end, used) = fit.take().unwrap_or((index, filled - widths[index]));
            lines.push(line(&chars[start..end]));
            (start, filled) = (end, filled - used);
        }
        if matches!(chars[index], ' ' | '-' | '/') && index > start {
            fit = Some((index + 1, filled));
        }
    }
    lines.push(line(&chars[start..]));
    lines
}

fn line(chars: &[char]) -> String {
    chars.iter().collect::<String>().trim_end_matches(' ').to_owned()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::sheet::pdf::font::fonts;

    const SIZE: f32 = 9.0;

    fn broken(text: &str, width: f32) -> Vec<String> {
        lines(&fonts().unwrap().regular, text, SIZE, width)
    }

    #[test]
    fn lines_break_at_spaces_and_long_words_anywhere() {
        assert_eq!(broken("", 50.0), [""]);
        assert_eq!(broken("one two three", 45.0), ["one two", "three"]);
        assert_eq!(broken("a\nb", 45.0), ["a", "b"]);
        let long = broken(&"w".repeat(100), 100.0);
        assert!(long.len() > 3, "{long:?}");
        assert_eq!(long.concat(), "w".repeat(100));
    }

    proptest! {
        /// Nothing of a text is lost but spaces at line ends, and no line is wider than asked.
        #[test]
        fn nothing_is_lost_and_no_line_is_too_wide(text in "[ -~äöß≤]{0,200}", width in 30.0_f32..300.0) {
            let face = &fonts().unwrap().regular;
            let lines = broken(&text, width);
            let bare = |text: &str| text.replace(' ', "");
            prop_assert_eq!(bare(&lines.concat()), bare(&text));
            for line in lines {
                prop_assert!(face.width(&line, SIZE) <= width + 0.01, "{}", line);
            }
        }
    }
}
