//! Pages of a list: how many items one has, where the next one begins.

use axum::http::{HeaderValue, Uri};

use super::problem::Problem;

/// Items of one page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PageSize(i64);

impl PageSize {
    /// As many as were asked for, `usual` where nothing was.
    ///
    /// # Errors
    /// Fewer than one, or more than `most`.
    pub fn asked(limit: Option<i64>, usual: i64, most: i64) -> Result<Self, Problem> {
        let size = limit.unwrap_or(usual);
        if !(1..=most).contains(&size) {
            return Err(Problem::parameter("?limit", format!("a limit lies between 1 and {most}")));
        }
        Ok(Self(size))
    }

    /// How many rows to read: one more says whether there is another page.
    #[must_use]
    pub const fn to_read(self) -> i64 {
        self.0 + 1
    }

    /// Cuts what was read to the page; its last row, where another page follows.
    pub fn cut<T>(self, rows: &mut Vec<T>) -> Option<&T> {
        let size = usize::try_from(self.0).unwrap_or(usize::MAX);
        let more = rows.len() > size;
        rows.truncate(size);
        rows.last().filter(|_| more)
    }
}

/// A cursor that no page gave.
#[must_use]
pub fn foreign_cursor() -> Problem {
    Problem::parameter("?cursor", "this cursor was not given by this service")
}

/// The `Link` to the next page of a list at this path (RFC 8288).
#[must_use]
pub fn link_to_next(uri: &Uri, path: &str, next: &str) -> Option<HeaderValue> {
    let query = next_query(uri, next);
    HeaderValue::from_str(&format!("</v1/{path}?{query}>; rel=\"next\"")).ok()
}

/// The query of the next page: that of this one, filters and all, with the new cursor.
fn next_query(uri: &Uri, next: &str) -> String {
    let given = uri.query().unwrap_or_default().split('&').filter(|pair| !pair.is_empty());
    let kept = given.filter(|pair| !pair.starts_with("cursor="));
    kept.chain([format!("cursor={next}").as_str()]).collect::<Vec<_>>().join("&")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_next_page_keeps_every_filter() {
        let uri: Uri = "/v1/stations?cursor=41&state=current&limit=2".parse().unwrap();
        assert_eq!(next_query(&uri, "42"), "state=current&limit=2&cursor=42");
        assert_eq!(next_query(&"/v1/stations".parse().unwrap(), "42"), "cursor=42");
    }

    #[test]
    fn a_page_is_cut_where_another_follows() {
        let cut = |limit, count| {
            let size = PageSize::asked(Some(limit), 50, 200).unwrap();
            let mut rows: Vec<_> = (1..=count).collect();
            let last = size.cut(&mut rows).copied();
            (rows.len(), last)
        };
        assert_eq!((cut(2, 0), cut(2, 2), cut(2, 3)), ((0, None), (2, None), (2, Some(2))));
        assert_eq!(PageSize::asked(None, 50, 200).unwrap().to_read(), 51);
        assert!([0, 201].map(|limit| PageSize::asked(Some(limit), 50, 200).is_err()) == [true; 2]);
    }
}
