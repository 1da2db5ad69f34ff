//! A body cut into pieces of whole lines as it arrives.

use std::time::Duration;

use axum::body::Body;
use http_body_util::BodyExt;
use memchr::memchr_iter;

use super::LONGEST_LINE;

/// Lines judged together at most: few, so that all cores have their share of what arrives at once.
const TOGETHER: usize = 16;

/// Longest wait for the next part of the body.
const PATIENCE: Duration = Duration::from_secs(30);

/// Whole lines.
#[derive(Debug)]
pub(super) struct Piece {
    /// Lines before it, blank ones too.
    pub(super) before: u64,
    /// The lines.
    pub(super) text: Vec<u8>,
}

impl Piece {
    /// Its lines that are not blank, each with its number in the whole body, counted from 1.
    pub(super) fn lines(&self) -> impl Iterator<Item = (u64, &[u8])> {
        let mut from = 0;
        let lines = memchr_iter(b'\n', &self.text).chain([self.text.len()]).map(move |end| {
            let line = &self.text[from..end];
            from = end + 1;
            line
        });
        (self.before + 1..).zip(lines).filter(|(_, line)| !line.trim_ascii().is_empty())
    }
}

/// A body under way.
pub(super) struct Pieces {
    body: Body,
    /// What arrived and is not cut yet starts at `from`.
    arrived: Vec<u8>,
    from: usize,
    /// Before this no line ends; not before `from`.
    searched: usize,
    before: u64,
    is_over: bool,
}

impl Pieces {
    pub(super) const fn of(body: Body) -> Self {
        Self { body, arrived: Vec::new(), from: 0, searched: 0, before: 0, is_over: false }
    }

    /// The next piece, as soon as a line is whole. A body ends where nothing more comes for a while or a line
    /// gets too long; what came of the last line is then a piece too.
    pub(super) async fn next(mut self) -> Option<(Piece, Self)> {
        loop {
            let length = self.whole_lines();
            if length > 0 {
                return Some((self.cut(length), self));
            }
            let rest = self.arrived.len() - self.from;
            if self.is_over || rest > LONGEST_LINE {
                self.is_over = true;
                return (rest > 0).then(|| (self.cut(rest), self));
            }
            self.arrived.drain(..std::mem::take(&mut self.from));
            self.searched = self.arrived.len();
            match tokio::time::timeout(PATIENCE, self.body.frame()).await {
                Ok(Some(Ok(frame))) => {
                    let data = frame.data_ref().map_or(&[][..], |data| data);
                    self.arrived.extend_from_slice(data);
                }
                _ => self.is_over = true,
            }
        }
    }

    /// Bytes of the whole lines that arrived, at most so many lines as are judged together. A line that is too long
    /// is the last one, whether its end arrived with it or not.
    fn whole_lines(&mut self) -> usize {
        let mut length = 0;
        let mut too_long = false;
        let known = self.searched - self.from;
        for end in memchr_iter(b'\n', &self.arrived[self.searched..]).take(TOGETHER) {
            too_long = known + end - length > LONGEST_LINE;
            length = known + end + 1;
            if too_long {
                break;
            }
        }
        if too_long {
            self.arrived.truncate(self.from + length);
            self.is_over = true;
        }
        length
    }

    fn cut(&mut self, length: usize) -> Piece {
        let text = self.arrived[self.from..self.from + length].to_vec();
        self.from += length;
        self.searched = self.from;
        let piece = Piece { before: self.before, text };
        let ends = memchr_iter(b'\n', &piece.text).count();
        self.before += u64::try_from(ends).unwrap_or(u64::MAX);
        piece
    }
}

#[cfg(test)]
mod tests {
    use std::convert::Infallible;

    use axum::body::Bytes;
    use futures_util::{StreamExt, stream};

    use super::*;

    async fn cut(parts: Vec<String>) -> Vec<(u64, String)> {
        let parts = parts.into_iter().map(|part| Ok::<_, Infallible>(Bytes::from(part)));
        let body = Body::from_stream(stream::iter(parts));
        let pieces = stream::unfold(Pieces::of(body), Pieces::next);
        pieces.map(|piece| (piece.before, String::from_utf8(piece.text).unwrap())).collect().await
    }

    fn parts(parts: &[&str]) -> Vec<String> {
        parts.iter().map(|&part| part.to_owned()).collect()
    }

    #[tokio::test]
    async fn lines_stay_whole_however_they_arrive_and_each_has_its_number() {
        let pieces = cut(parts(&["a\n\nb", "b\nc", "\n", "d"])).await;
        let expected = [(0, "a\n\n"), (2, "bb\n"), (3, "c\n"), (4, "d")];
        assert_eq!(pieces, expected.map(|(before, text)| (before, text.to_owned())));
        assert_eq!(cut(Vec::new()).await, []);
        let piece = Piece { before: 7, text: b"a\n \n\nb".to_vec() };
        let lines: Vec<_> = piece.lines().collect();
        assert_eq!(lines, [(8, &b"a"[..]), (11, &b"b"[..])]);
    }

    #[tokio::test]
    async fn what_arrives_at_once_is_shared_out_in_pieces() {
        let pieces = cut(vec!["x\n".repeat(40)]).await;
        let sizes: Vec<_> = pieces.iter().map(|(before, text)| (*before, text.len())).collect();
        assert_eq!(sizes, [(0, 32), (16, 32), (32, 16)]);
    }

    #[tokio::test]
    async fn a_line_without_end_ends_the_body() {
        let pieces = cut(vec!["x".repeat(LONGEST_LINE), "y".repeat(10), "z\nnext\n".into()]).await;
        assert_eq!(pieces.len(), 1);
        assert_eq!(pieces[0].1.len(), LONGEST_LINE + 10);
        // Or its end comes with it, and another line.
        let pieces = cut(vec!["a\n".to_owned() + &"x".repeat(LONGEST_LINE + 1) + "\nnext\n"]).await;
        let lines: Vec<_> =
            pieces.iter().flat_map(|(_, text)| text.lines()).map(str::len).collect();
        assert_eq!(lines, [1, LONGEST_LINE + 1]);
        let pieces = cut(vec!["x".repeat(LONGEST_LINE) + "\nnext\n"]).await;
        assert_eq!(pieces[0].1.lines().map(str::len).collect::<Vec<_>>(), [LONGEST_LINE, 4]);
    }
}
