//! Designations of ISO 14175:2008, clause on designation: `ISO 14175-M21-ArC-25`.

use rust_decimal::Decimal;
use smallvec::SmallVec;

use super::{Gas, GasComponent, GasError, GasGroup, GasMixture, mixture::WHOLE, share::compared};
use crate::{
    quantity::{Digits, decimal_as_typed},
    trade::Coded,
};

impl GasMixture {
    /// The designation: group, symbols from the largest share down, shares of all but the first.
    ///
    /// # Source
    /// ISO 14175:2008; printed example `ISO 14175-M12-ArC-4` for 4 % CO2 in argon.
    #[must_use]
    pub fn designation(&self) -> String {
        let parts = self.descending();
        let mut text = format!("ISO 14175-{}-", self.iso_14175());
        text.extend(parts.iter().map(|(component, _)| component.symbol()));
        let mut before = "-";
        for (_, share) in parts.iter().skip(1) {
            text.extend([before, &Digits::from(*share).to_string()]);
            before = "/";
        }
        text
    }

    /// Reads `ISO 14175-M21-ArC-25`, `M21-ArC-25` or `ArC-25`.
    ///
    /// # Errors
    /// [`GasError::Text`] says where the text stops making sense, [`GasError::OtherGroup`] where
    /// it names a group that its shares do not make; else as [`GasMixture::new`].
    pub fn parse(text: &str) -> Result<Self, GasError> {
        match Gas::parse(text)? {
            Gas::Mixture(mixture) => Ok(mixture),
            Gas::Group(_) | Gas::None => Err(GasError::Text {
                at: text.chars().count(),
                found: "end of text".to_owned(),
                expected: "- and the symbols of the components, as in -ArC-25",
            }),
        }
    }
}

impl Gas {
    /// Reads a designation with shares, or a group alone: `ISO 14175-M21`, `M21`.
    ///
    /// # Errors
    /// As [`GasMixture::parse`].
    pub fn parse(text: &str) -> Result<Self, GasError> {
        let mut reader = Reader { text, at: text.len() - text.trim_start().len() };
        reader.prefix();
        let group = reader.group();
        if let Some(group) = group {
            if reader.next() != Some(b'-') && reader.rest().trim().is_empty() {
                return Ok(Self::Group(group));
            }
            reader.expect(b'-')?;
        }
        let mixture = GasMixture::new(&reader.parts()?)?;
        let computed = mixture.iso_14175();
        match group {
            Some(stated) if stated != computed => Err(GasError::OtherGroup { stated, computed }),
            _ => Ok(Self::Mixture(mixture)),
        }
    }
}

/// Components with their shares; few gases have more.
type Parts = SmallVec<[(GasComponent, Decimal); 4]>;

/// A text read from the left.
struct Reader<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Reader<'a> {
    fn rest(&self) -> &'a str {
        &self.text[self.at..]
    }

    fn wrong(&self, expected: &'static str) -> GasError {
        let found: String =
            self.rest().split_whitespace().next().unwrap_or("end of text").to_owned();
        GasError::Text { at: self.text[..self.at].chars().count(), found, expected }
    }

    fn take(&mut self, word: &str) -> bool {
        let start = self.rest().get(..word.len());
        let found = start.is_some_and(|start| start.eq_ignore_ascii_case(word));
        if found {
            self.at += word.len();
        }
        found
    }

    /// The byte that stands next.
    fn next(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at).copied()
    }

    fn expect(&mut self, mark: u8) -> Result<(), GasError> {
        if self.next() == Some(mark) {
            self.at += 1;
            return Ok(());
        }
        Err(self.wrong(if mark == b'-' { "-" } else { "/" }))
    }

    fn prefix(&mut self) {
        self.take("EN ");
        if self.take("ISO 14175") {
            self.take(":2008");
            self.take("-");
        }
    }

    /// A group, when it stands alone or before a dash: `C` and `N` begin symbols as well.
    fn group(&mut self) -> Option<GasGroup> {
        let rest = self.rest();
        let end = rest.bytes().position(|byte| byte == b'-').unwrap_or(rest.len());
        let word = rest[..end].trim_end();
        let group = GasGroup::from_code(word)
            .or_else(|| GasGroup::from_code(&word.to_ascii_uppercase()))?;
        self.at += word.len();
        Some(group)
    }

    /// `ArC-25`: symbols, then the shares of all but the first.
    fn parts(&mut self) -> Result<Parts, GasError> {
        let mut parts = Parts::new();
        while let Some(component) = self.symbol() {
            parts.push((component, Decimal::ZERO));
        }
        if parts.is_empty() {
            return Err(self.wrong("a group as M21, or symbols out of Ar, He, C, O, H, N"));
        }
        let mut rest = Decimal::ONE_HUNDRED;
        for (index, (_, share)) in parts.iter_mut().enumerate().skip(1) {
            self.expect(if index == 1 { b'-' } else { b'/' })?;
            *share = self.share()?;
            rest -= *share;
        }
        if !self.rest().trim().is_empty() {
            return Err(self.wrong("the end of the designation"));
        }
        parts[0].1 = rest;
        Ok(parts)
    }

    /// Helium before hydrogen, as both begin with H.
    fn symbol(&mut self) -> Option<GasComponent> {
        use GasComponent::{Argon, CarbonDioxide, Helium, Hydrogen, Nitrogen, Oxygen};
        let of_this_letter: &[_] = match self.next()?.to_ascii_uppercase() {
            b'A' => &[Argon],
            b'H' => &[Helium, Hydrogen],
            b'C' => &[CarbonDioxide],
            b'O' => &[Oxygen],
            b'N' => &[Nitrogen],
            _ => return None,
        };
        of_this_letter.iter().copied().find(|component| self.take(component.symbol()))
    }

    fn share(&mut self) -> Result<Decimal, GasError> {
        let rest = self.rest();
        let ends = |byte: u8| !byte.is_ascii_digit() && byte != b'.';
        let number = &rest[..rest.bytes().position(ends).unwrap_or(rest.len())];
        let share = decimal_as_typed(number).ok_or_else(|| self.wrong("a share in vol %"))?;
        if compared(share, WHOLE).is_gt() {
            return Err(self.wrong("a share of at most 100 vol %"));
        }
        self.at += number.len();
        Ok(share)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// The first two are examples printed with the table; the others apply the same rule.
    #[test]
    fn designations_are_read_and_printed_alike() {
        for text in [
            "ISO 14175-M12-ArC-4",
            "ISO 14175-I3-ArHe-40",
            "ISO 14175-M21-ArC-25",
            "ISO 14175-M21-ArC-18",
            "ISO 14175-M12-HeArC-7.5/2.5",
            "ISO 14175-M24-ArCO-12/2",
            "ISO 14175-I1-Ar",
            "ISO 14175-C1-C",
            "ISO 14175-N5-NH-10",
            "ISO 14175-Z-CAr-49",
        ] {
            assert_eq!(GasMixture::parse(text).unwrap().designation(), text);
        }
    }

    #[test]
    fn short_forms_mean_the_same() {
        let full = GasMixture::parse("ISO 14175-M21-ArC-25").unwrap();
        for text in ["M21-ArC-25", "ArC-25", " arc-25.0 ", "EN ISO 14175-M21-ArC-25"] {
            assert_eq!(
                GasMixture::parse(text).unwrap().designation(),
                full.designation(),
                "{text}"
            );
        }
        assert_eq!(full.share(GasComponent::Argon), Decimal::from(75));
    }

    #[test]
    fn a_group_alone_is_a_gas_but_no_mixture() {
        for text in ["M21", "ISO 14175-M21", "iso 14175:2008-m21 "] {
            assert_eq!(Gas::parse(text).unwrap(), Gas::Group(GasGroup::M21), "{text}");
            assert!(GasMixture::parse(text).is_err(), "{text}");
        }
        assert_eq!(Gas::parse("C1").unwrap().group(), Some(GasGroup::C1));
        assert_eq!(Gas::None.group(), None);
    }

    #[test]
    fn a_group_that_the_shares_do_not_make_is_refused() {
        let error = GasMixture::parse("ISO 14175-M20-ArC-25").unwrap_err();
        let (stated, computed) = (GasGroup::M20, GasGroup::M21);
        assert_eq!(error, GasError::OtherGroup { stated, computed });
    }

    #[test]
    fn a_refusal_says_where() {
        for (text, place, what) in [
            ("", 0, "end of text"),
            ("M21-ArC", 7, "end of text"),
            ("M21-ArX-25", 6, "X-25"),
            ("ArC-25/5", 6, "/5"),
            ("ArC-x", 4, "x"),
            ("ArC-120", 4, "120"),
            ("M29-ArC-25", 0, "M29-ArC-25"),
            ("M21/ArC-25", 0, "M21/ArC-25"),
            ("ArC 25", 3, "25"),
            ("Ärger", 0, "Ärger"),
            ("ISO 14175-\u{3000}C1", 10, "C1"),
            ("ISO 14175- M21", 10, "M21"),
        ] {
            let error = GasMixture::parse(text).unwrap_err();
            let GasError::Text { at, found, .. } = error else { panic!("{text}: {error}") };
            assert_eq!((at, found.as_str()), (place, what), "{text}");
        }
        assert!(matches!(GasMixture::parse("ArCO-60/60"), Err(GasError::Share { .. })));
    }

    proptest! {
        #[test]
        fn no_text_upsets_the_parser(text in "\\PC*") {
            let _ = Gas::parse(&text);
        }

        #[test]
        fn no_near_miss_upsets_the_parser(text in "(ISO 14175-)?[MCINROZ][0-9]{0,2}-?[ArHeCON]{0,6}-?[0-9./]{0,8}") {
            let _ = GasMixture::parse(&text);
        }

        #[test]
        fn what_is_printed_is_read_back(argon in 0_i64..=1000, helium in 0_i64..=1000) {
            let helium = helium.min(1000 - argon);
            let mixture = GasMixture::new(&[
                (GasComponent::Argon, Decimal::new(argon, 1)),
                (GasComponent::Helium, Decimal::new(helium, 1)),
                (GasComponent::CarbonDioxide, Decimal::new(1000 - argon - helium, 1)),
            ]).unwrap();
            prop_assert_eq!(GasMixture::parse(&mixture.designation()).unwrap(), mixture);
        }
    }
}
