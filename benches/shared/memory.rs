//! Memory of this process.

use std::fs;

/// Bytes this process holds.
pub fn resident() -> usize {
    let pages = fs::read_to_string("/proc/self/statm").unwrap_or_default();
    let pages: usize =
        pages.split(' ').nth(1).and_then(|text| text.parse().ok()).unwrap_or_default();
    pages * 4096
}
