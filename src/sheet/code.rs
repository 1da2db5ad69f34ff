//! QR codes (ISO/IEC 18004) as drawings.

use qrcodegen::{QrCode, QrCodeEcc};

use super::{Drawing, Shape, Tone};

/// Light modules that stand around a code (ISO/IEC 18004: four on every side).
const QUIET_ZONE: i32 = 4;

/// Width on paper in millimetres.
const PRINTED_WIDTH: f64 = 30.0;

/// A text as a QR code that still reads with some 15 % of it spoiled; `None` where it is too long for one.
#[must_use]
pub fn code(text: &str, caption: &str) -> Option<Drawing> {
    let qr = QrCode::encode_text(text, QrCodeEcc::Medium).ok()?;
    let side = f64::from(qr.size() + 2 * QUIET_ZONE);
    let mut shapes = Vec::new();
    for y in 0..qr.size() {
        let mut x = 0;
        while x < qr.size() {
            let start = x;
            while x < qr.size() && qr.get_module(x, y) {
                x += 1;
            }
            if x > start {
                shapes.push(bar(start, x, y));
            }
            x += 1;
        }
    }
    let caption = super::visible(caption);
    Some(Drawing { size: (side, side), printed_width: PRINTED_WIDTH, shapes, caption })
}

/// Dark modules side by side, as one rectangle.
fn bar(start: i32, end: i32, row: i32) -> Shape {
    let at = |module: i32| f64::from(module + QUIET_ZONE);
    let (left, right, top, bottom) = (at(start), at(end), at(row), at(row + 1));
    Shape::Path(vec![(left, top), (right, top), (right, bottom), (left, bottom)], Tone::Black)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A decoder of other authors reads the drawn modules back.
    #[test]
    fn what_was_put_in_is_read_back() {
        let long = "x".repeat(300);
        for text in ["https://weld.example/v1/procedures/WPS-1?revision=2", "ÄÖ≤ 2", &long] {
            let drawing = code(text, "").unwrap();
            assert_eq!(read_back(&drawing), text);
        }
        assert!(code(&"x".repeat(5000), "").is_none());
    }

    fn read_back(drawing: &Drawing) -> String {
        const DOTS: f64 = 4.0;
        let inside = |x: f64, y: f64| {
            drawing.shapes.iter().any(|shape| match shape {
                Shape::Path(points, Tone::Black) => {
                    let (left, top) = points[0];
                    let (right, bottom) = points[2];
                    left <= x && x < right && top <= y && y < bottom
                }
                _ => false,
            })
        };
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small side")]
        let side = (drawing.size.0 * DOTS) as usize;
        let mut image = rqrr::PreparedImage::prepare_from_greyscale(side, side, |x, y| {
            let at = |dot: usize| (f64::from(u32::try_from(dot).unwrap()) + 0.5) / DOTS;
            if inside(at(x), at(y)) { 0 } else { 255 }
        });
        let grids = image.detect_grids();
        assert_eq!(grids.len(), 1);
        grids[0].decode().unwrap().1
    }
}
