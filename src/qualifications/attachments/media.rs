//! Kinds of attachment, told by their first bytes, and names of files.

use std::fmt::Write;

use axum::http::HeaderMap;

use crate::http::{
    media_of,
    problem::{MEDIA_TYPE, Problem},
};

/// A kind of attachment.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Media {
    /// Media type.
    pub name: &'static str,
    /// How its files start.
    starts: &'static [u8],
}

/// PDF: ISO 32000-1, 7.5.2; JPEG: ISO/IEC 10918-1, B.1.1.3 (SOI and the next marker); PNG: W3C PNG, 5.2.
const KNOWN: &[Media] = &[
    Media { name: "application/pdf", starts: b"%PDF-" },
    Media { name: "image/jpeg", starts: &[0xff, 0xd8, 0xff] },
    Media { name: "image/png", starts: &[0x89, b'P', b'N', b'G', b'\r', b'\n', 0x1a, b'\n'] },
];

impl Media {
    /// The kind that the request states.
    ///
    /// # Errors
    /// One that is not kept.
    pub(super) fn stated(headers: &HeaderMap) -> Result<Self, Problem> {
        let stated = media_of(headers)?;
        let known = KNOWN.iter().find(|media| media.name.eq_ignore_ascii_case(stated)).copied();
        known.ok_or_else(|| {
            let detail = format!("The body came as \"{stated}\"; attachments are {}.", listed());
            Problem::new(&MEDIA_TYPE, detail)
        })
    }

    /// Whether the bytes are what was stated.
    ///
    /// # Errors
    /// Where they start like something else.
    pub(super) fn holds(self, bytes: &[u8]) -> Result<(), Problem> {
        if bytes.starts_with(self.starts) {
            return Ok(());
        }
        let own = KNOWN.iter().find(|media| bytes.starts_with(media.starts));
        let found =
            own.map_or_else(|| format!("none of {}", listed()), |media| media.name.to_owned());
        let detail = format!(
            "The body came as {} but starts like {found}; send the file itself.",
            self.name
        );
        Err(Problem::new(&MEDIA_TYPE, detail))
    }
}

fn listed() -> String {
    let names: Vec<_> = KNOWN.iter().map(|media| media.name).collect();
    names.join(", ")
}

/// A name that can be a file's on any machine.
///
/// # Errors
/// What is wrong with it.
pub(super) fn file_name(text: &str) -> Result<String, Problem> {
    let name = text.trim();
    let forbidden = |c: char| c.is_control() || "/\\:*?\"<>|".contains(c);
    if name.is_empty()
        || name.chars().count() > 120
        || name.chars().any(forbidden)
        || name.starts_with('.')
    {
        let detail = "a name has 1 to 120 characters, no control character and none of / \\ : * ? \" < > |, and \
                      does not start with a dot";
        return Err(Problem::parameter("?name", detail));
    }
    Ok(name.to_owned())
}

/// `Content-Disposition` of a download (RFC 6266): the name in ASCII, and whole in UTF-8 (RFC 8187).
pub(super) fn disposition(name: &str) -> String {
    let plain =
        |c: char| if c.is_ascii_graphic() && !"\"\\%".contains(c) || c == ' ' { c } else { '_' };
    let ascii: String = name.chars().map(plain).collect();
    let mut whole = String::new();
    for byte in name.bytes() {
        if byte.is_ascii_alphanumeric() || b"!#$&+-.^_`|~".contains(&byte) {
            whole.push(char::from(byte));
        } else {
            let _ = write!(whole, "%{byte:02X}");
        }
    }
    format!("attachment; filename=\"{ascii}\"; filename*=UTF-8''{whole}")
}

#[cfg(test)]
mod tests {
    use axum::http::header;

    use super::*;

    fn stated(name: &'static str) -> Result<Media, Problem> {
        let mut headers = HeaderMap::new();
        headers.insert(header::CONTENT_TYPE, name.parse().unwrap());
        Media::stated(&headers)
    }

    #[test]
    fn the_first_bytes_tell_the_kind() {
        let pdf = stated("application/pdf").unwrap();
        assert!(pdf.holds(b"%PDF-1.7\n").is_ok());
        assert!(pdf.holds(b" %PDF-1.7\n").is_err());
        assert!(stated("IMAGE/JPEG").unwrap().holds(&[0xff, 0xd8, 0xff, 0xe0]).is_ok());
        assert!(stated("image/jpeg").unwrap().holds(&[0xff, 0xd8]).is_err());
        let png = stated("image/png; x=y").unwrap();
        assert!(png.holds(b"\x89PNG\r\n\x1a\nrest").is_ok());
        assert!(png.holds(b"\x89PNG\n\x1a\n").is_err(), "line ends were changed on the way");
        assert!(stated("image/svg+xml").is_err());
        assert!(Media::stated(&HeaderMap::new()).is_err());
    }

    #[test]
    fn a_name_is_no_path() {
        assert_eq!(file_name(" report 9.pdf ").unwrap(), "report 9.pdf");
        assert!(file_name("Prüfbericht.pdf").is_ok());
        for bad in ["", " ", "../x", "a/b", "a\\b", "a\nb", ".pdf", "a\"b", &"x".repeat(121)] {
            assert!(file_name(bad).is_err(), "{bad}");
        }
    }

    /// RFC 8187, 3.2.2 has this example of a value with `£` and `€`.
    #[test]
    fn a_name_beyond_ascii_is_sent_whole() {
        assert_eq!(
            disposition("£ and € rates"),
            "attachment; filename=\"_ and _ rates\"; filename*=UTF-8''%C2%A3%20and%20%E2%82%AC%20rates"
        );
    }
}
