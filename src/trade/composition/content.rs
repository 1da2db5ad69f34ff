//! Elements of a steel and what is known of each.

use std::collections::BTreeMap;

use crate::{
    quantity::{Kind, MassPercent, Quantity},
    trade::coded,
};

coded! {
    /// An element of a heat analysis. Phosphorus, sulphur, aluminium and nitrogen count in no formula here;
    /// certificates state them.
    pub enum Element: "element" {
        /// Carbon.
        C = "C",
        /// Silicon.
        Si = "Si",
        /// Manganese.
        Mn = "Mn",
        /// Chromium.
        Cr = "Cr",
        /// Molybdenum.
        Mo = "Mo",
        /// Nickel.
        Ni = "Ni",
        /// Copper.
        Cu = "Cu",
        /// Vanadium.
        V = "V",
        /// Niobium.
        Nb = "Nb",
        /// Titanium.
        Ti = "Ti",
        /// Boron.
        B = "B",
        /// Phosphorus.
        P = "P",
        /// Sulphur.
        S = "S",
        /// Aluminium.
        Al = "Al",
        /// Nitrogen.
        N = "N",
    }
}

/// What is known of one element.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Content {
    /// Analysed: this much.
    Is(MassPercent),
    /// A ceiling only: the maximum of the material standard, or "below the limit of detection".
    AtMost(MassPercent),
}

/// A composition; an element without an entry is unknown.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Composition {
    contents: BTreeMap<Element, Content>,
}

/// Lowest and highest value that a composition allows.
#[derive(Debug, Clone, PartialEq)]
pub struct Bounds<K: Kind> {
    /// Lowest: every unknown element absent.
    pub low: Quantity<K>,
    /// Highest: every ceiling reached. `None` where an element that counts has no ceiling.
    pub high: Option<Quantity<K>>,
    /// Elements that count and of which nothing is known.
    pub unknown: Vec<Element>,
}

/// A content no metal has.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ContentError {
    /// Below zero or above all of the metal.
    #[error("{element} lies between 0 and 100 %, not at {given}")]
    Impossible {
        /// The element.
        element: Element,
        /// The content given.
        given: MassPercent,
    },
    /// Together more than all of the metal.
    #[error("the analysed elements add up to more than 100 %")]
    TooMuch,
}

impl Content {
    /// The content itself, or its ceiling.
    #[must_use]
    pub const fn highest(self) -> MassPercent {
        match self {
            Self::Is(content) | Self::AtMost(content) => content,
        }
    }

    /// Lowest content in mass percent.
    pub(super) const fn lowest_percent(self) -> f64 {
        match self {
            Self::Is(content) => content.percent(),
            Self::AtMost(_) => 0.0,
        }
    }
}

impl Composition {
    /// A composition from its elements; a later entry of the same element replaces the earlier.
    ///
    /// # Errors
    /// [`ContentError`] for a content outside 0 to 100 %, or a sum above 100 %.
    pub fn new(
        contents: impl IntoIterator<Item = (Element, Content)>,
    ) -> Result<Self, ContentError> {
        let contents: BTreeMap<_, _> = contents.into_iter().collect();
        for (element, content) in &contents {
            let given = content.highest();
            if !(0.0..=100.0).contains(&given.percent()) {
                return Err(ContentError::Impossible { element: *element, given });
            }
        }
        let sum: f64 = contents.values().map(|content| content.lowest_percent()).sum();
        if sum > 100.0 {
            return Err(ContentError::TooMuch);
        }
        Ok(Self { contents })
    }

    /// What is known of an element; `None` where nothing is.
    #[must_use]
    pub fn get(&self, element: Element) -> Option<Content> {
        self.contents.get(&element).copied()
    }
}

impl<K: Kind> Bounds<K> {
    /// The value, where low and high are one.
    #[must_use]
    pub fn exact(&self) -> Option<Quantity<K>> {
        self.high.filter(|high| *high == self.low)
    }
}
