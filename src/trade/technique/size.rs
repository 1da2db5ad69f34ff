//! Size classes of wire: inch and metric nominal sizes that the trade sells as one.
//!
//! For advice only; mass and cross-section always go by the size itself. The pairing is common
//! practice, no source.

/// 0.030 in, 0.8 mm.
pub(super) const W08: &[&str] = &["0.030 in", "0.8 mm"];
/// 0.035 in, 0.9 mm.
pub(super) const W09: &[&str] = &["0.035 in", "0.9 mm"];
/// 0.045 in and 3/64 in (also printed 0.046 and 0.047), 1.2 mm.
pub(super) const W12: &[&str] = &["0.045 in", "1.2 mm", "0.046 in", "0.047 in", "3/64 in"];
/// 0.052 in, 1.3 or 1.4 mm.
pub(super) const W14: &[&str] = &["0.052 in", "1.3 mm", "1.32 mm", "1.4 mm"];
/// 1/16 in (also printed 0.062 and 0.063), 1.6 mm.
pub(super) const W16: &[&str] = &["1/16 in", "0.062 in", "0.063 in", "1.6 mm"];
/// 5/64 in, 2.0 mm.
pub(super) const W20: &[&str] = &["5/64 in", "0.078 in", "2.0 mm"];
/// 3/32 in, 2.4 mm.
pub(super) const W24: &[&str] = &["3/32 in", "0.094 in", "2.4 mm"];
/// 1/8 in, 3.2 mm.
pub(super) const W32: &[&str] = &["1/8 in", "0.125 in", "3.2 mm"];
