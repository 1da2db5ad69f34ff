//! Diffusible hydrogen: classes of consumables, and what codes make of them.

use crate::{
    quantity::{HydrogenContent, QuantityError},
    trade::coded,
};

coded! {
    /// Hydrogen class of a consumable: highest mL per 100 g of deposited metal (ISO 3690, AWS
    /// A4.3). H16, H8, H4 are AWS A5.x designators (read); H15, H10, H5 those of ISO 2560 and
    /// 17632 (from memory); H2 is later practice. Holds for the packed or dried condition only.
    pub enum HydrogenClass: "hydrogen class" {
        /// At most 2 mL/100 g.
        H2 = "H2",
        /// At most 4 mL/100 g.
        H4 = "H4",
        /// At most 5 mL/100 g.
        H5 = "H5",
        /// At most 8 mL/100 g.
        H8 = "H8",
        /// At most 10 mL/100 g.
        H10 = "H10",
        /// At most 15 mL/100 g.
        H15 = "H15",
        /// At most 16 mL/100 g.
        H16 = "H16",
    }
}

coded! {
    /// Hydrogen scale of EN 1011-2:2001, Table C.2 (bounds read, letters from memory), worst first.
    pub enum HydrogenScale: "hydrogen scale" {
        /// Above 15 mL/100 g.
        A = "A",
        /// Above 10, at most 15 mL/100 g.
        B = "B",
        /// Above 5, at most 10 mL/100 g.
        C = "C",
        /// Above 3, at most 5 mL/100 g.
        D = "D",
        /// At most 3 mL/100 g.
        E = "E",
    }
}

coded! {
    /// Hydrogen level of the AWS D1.1 annex on preheat. Its "H2" is a level below 10 mL/100 g and
    /// not the designator H2; so levels print in words here.
    pub enum HydrogenLevel: "hydrogen level" {
        /// H1 of the annex: below 5 mL/100 g.
        ExtraLow = "extra-low",
        /// H2 of the annex: below 10 mL/100 g.
        Low = "low",
        /// H3 of the annex: not controlled.
        NotControlled = "not-controlled",
    }
}

/// The hydrogen level that a class proves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LevelOfClass {
    /// The level, on the safe side.
    pub level: HydrogenLevel,
    /// The class allows just the value that the next better level stays below. Read as "at most",
    /// the better level would hold; the annex says "less than".
    pub at_the_limit_of_better: Option<HydrogenLevel>,
}

impl HydrogenClass {
    /// Highest hydrogen of the class.
    ///
    /// # Errors
    /// None in practice; the values are constants.
    pub fn ceiling(self) -> Result<HydrogenContent, QuantityError> {
        HydrogenContent::computed(match self {
            Self::H2 => 2.0,
            Self::H4 => 4.0,
            Self::H5 => 5.0,
            Self::H8 => 8.0,
            Self::H10 => 10.0,
            Self::H15 => 15.0,
            Self::H16 => 16.0,
        })
    }

    /// Hydrogen scale of EN 1011-2 for the highest hydrogen of the class.
    ///
    /// # Errors
    /// As [`HydrogenClass::ceiling`].
    pub fn scale(self) -> Result<HydrogenScale, QuantityError> {
        HydrogenScale::of(self.ceiling()?)
    }

    /// Hydrogen level of AWS D1.1 for the highest hydrogen of the class.
    ///
    /// # Errors
    /// As [`HydrogenClass::ceiling`].
    pub fn level(self) -> Result<LevelOfClass, QuantityError> {
        let ceiling = self.ceiling()?;
        let level = HydrogenLevel::of(ceiling)?;
        let at_the_limit_of_better = match level {
            HydrogenLevel::Low if ceiling == HydrogenContent::computed(5.0)? => {
                Some(HydrogenLevel::ExtraLow)
            }
            HydrogenLevel::NotControlled if ceiling == HydrogenContent::computed(10.0)? => {
                Some(HydrogenLevel::Low)
            }
            _ => None,
        };
        Ok(LevelOfClass { level, at_the_limit_of_better })
    }
}

impl HydrogenScale {
    /// The scale of a hydrogen content.
    ///
    /// # Errors
    /// None in practice; the bounds are constants.
    pub fn of(content: HydrogenContent) -> Result<Self, QuantityError> {
        for (scale, most) in [(Self::E, 3.0), (Self::D, 5.0), (Self::C, 10.0), (Self::B, 15.0)] {
            if content.at_most(HydrogenContent::computed(most)?) {
                return Ok(scale);
            }
        }
        Ok(Self::A)
    }

    /// Whether this scale has at most as much hydrogen as another.
    #[must_use]
    pub fn at_least_as_dry_as(self, other: Self) -> bool {
        self >= other
    }
}

impl HydrogenLevel {
    /// The level of a hydrogen content; the bounds themselves belong to the worse level.
    ///
    /// # Errors
    /// None in practice; the bounds are constants.
    pub fn of(content: HydrogenContent) -> Result<Self, QuantityError> {
        for (level, below) in [(Self::ExtraLow, 5.0), (Self::Low, 10.0)] {
            if !content.at_least(HydrogenContent::computed(below)?) {
                return Ok(level);
            }
        }
        Ok(Self::NotControlled)
    }

    /// Hydrogen that the susceptibility index takes for the level: 5, 10 (read) and 30 (from
    /// memory) mL/100 g.
    ///
    /// # Errors
    /// None in practice; the values are constants.
    pub fn index_content(self) -> Result<HydrogenContent, QuantityError> {
        HydrogenContent::computed(match self {
            Self::ExtraLow => 5.0,
            Self::Low => 10.0,
            Self::NotControlled => 30.0,
        })
    }
}
