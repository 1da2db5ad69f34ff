//! Why a text or a number is no quantity.

/// Each variant says what was wrong and what would be right.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum QuantityError {
    /// A number came without its unit.
    #[error(
        "{} needs its unit, for example \"{example}\" or {{\"value\": {number}, \"unit\": \"{unit}\"}}",
        with_article(quantity)
    )]
    MissingUnit {
        /// Trade name of the kind.
        quantity: &'static str,
        /// A right form as text.
        example: String,
        /// The number given.
        number: String,
        /// A unit that would do.
        unit: &'static str,
    },
    /// The number cannot be read.
    #[error("\"{given}\" is not a number; a right form is \"{example}\"")]
    NotANumber {
        /// What was given.
        given: String,
        /// A right form.
        example: String,
    },
    /// The number has a comma.
    #[error(
        "\"{given}\" has a comma: numbers have a decimal point, and nothing between thousands; a right form is \"{example}\""
    )]
    Comma {
        /// What was given.
        given: String,
        /// A right form.
        example: String,
    },
    /// A difference below zero, such as an error of an instrument.
    #[error("\"{given}\" is negative; a right form is \"{example}\"")]
    Negative {
        /// What was given.
        given: String,
        /// A right form.
        example: String,
    },
    /// The unit is not one of this kind.
    #[error("\"{given}\" is no unit of {}; use one of {}", with_article(quantity), known.join(", "))]
    UnknownUnit {
        /// What was given.
        given: String,
        /// Trade name of the kind.
        quantity: &'static str,
        /// Symbols that are read.
        known: Vec<&'static str>,
    },
    /// The value lies outside anything an arc shop meets.
    #[error("{} lies between {low} and {high} {unit}", with_article(quantity))]
    Implausible {
        /// Trade name of the kind.
        quantity: &'static str,
        /// Lowest plausible value.
        low: f64,
        /// Highest plausible value.
        high: f64,
        /// Unit of both ends.
        unit: &'static str,
    },
    /// A formula divided by zero or overflowed.
    #[error("the {quantity} cannot be computed from these values")]
    NotFinite {
        /// Trade name of the kind.
        quantity: &'static str,
    },
}

/// A trade name with its article; no name of a kind begins with a vowel that sounds like none.
fn with_article(name: &str) -> String {
    let article = if name.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
    format!("{article} {name}")
}

#[cfg(test)]
mod tests {
    use crate::quantity::{Current, ElectricalStickOut};

    #[test]
    fn the_article_fits_the_name() {
        let said = |error: Option<super::QuantityError>| error.unwrap().to_string();
        let low = said("0.1 mm".parse::<ElectricalStickOut>().err());
        assert!(low.starts_with("an electrical stick-out lies between"), "{low}");
        let bare = said("240".parse::<Current>().err());
        assert!(bare.starts_with("a welding current needs its unit"), "{bare}");
        let unit = said("3 V".parse::<ElectricalStickOut>().err());
        assert!(unit.contains("no unit of an electrical stick-out"), "{unit}");
    }
}
