//! Base metals: which pairs of groups a tested pair covers.

use super::allow::Found;
use crate::{
    qualify::{
        facts::Fact,
        pack::MetalPairs,
        range::{Allowed, MetalCover, Whose},
    },
    trade::MetalGroup,
};

pub(super) fn cover(pairs: &MetalPairs, fact: &Fact) -> Found {
    let Fact::Metals(sides) = fact else {
        return Found::unknown(Whose::Record, "the base metals");
    };
    let groups: Option<Vec<_>> =
        sides.iter().map(|side| side.group.map(MetalGroup::group)).collect();
    let tested = match groups.as_deref() {
        Some([a, b]) => (*a.max(b), *a.min(b)),
        Some(_) => return Found::unknown(Whose::Record, "the base metals as two parts"),
        None => return Found::unknown(Whose::Record, "the base-metal group of each part"),
    };
    let Some(covered) = pairs.covers.get(&tested) else {
        let pair = format!("what groups {}-{} cover", tested.0, tested.1);
        return Found::unknown(Whose::Pack, pair);
    };
    let cover = MetalCover {
        tested: sides.clone(),
        pairs: covered.clone(),
        doubtful: pairs.doubtful.get(&tested).cloned().unwrap_or_default(),
        notes: pairs.clone(),
    };
    Found::plain(Allowed::Metals(Box::new(cover)), None)
}
