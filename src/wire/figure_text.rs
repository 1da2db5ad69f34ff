//! Figures of a check as JSON text: a frame that is always the same, and numbers and sentences written straight into it.

use std::{cell::RefCell, ptr};

use serde::ser::Error as _;
use serde_json::Error;

use super::{AmountOut, FigureOut, Kept, RangeOut, Ready, ShownOut, Units, write_json};
use crate::{
    check::{Figure, FigureValue, Note},
    quantity::{Amount, AmountRange, KindInfo, MOST_BYTES, Rounding, Unit},
    trade::Formula,
};

/// Bytes that hold most numbers.
const NUMBER: usize = 8;

/// Bytes that hold the sentences about most figures.
const SENTENCES: usize = 192;

/// In a figure that is written as an example, a list of this one text stands for what changes.
const PART: &str = "part";

/// Figures of a check, in the caller's units, as [`FigureOut`]s that are written; `briefly` without how they were
/// come by.
///
/// # Errors
/// None of the figures there are.
pub fn figures_ready(figures: &[Figure], units: Units, briefly: bool) -> Result<Ready, Error> {
    let told = Told { units, briefly };
    let text = FRAMES.with_borrow_mut(|frames| {
        let fits = |frame: &ListFrame| frame.fits(figures, told);
        frames.fitting(fits, || ListFrame::around(figures, told))?.filled(figures)
    })?;
    debug_assert_eq!(text, plainly(figures, told)?, "{figures:?}");
    Ok(Ready::from_json(text))
}

/// How figures are told.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Told {
    units: Units,
    briefly: bool,
}

thread_local! {
    static FRAMES: RefCell<Kept<ListFrame>> = const { RefCell::new(Kept::none()) };
}

/// The text of a list of figures without its numbers, and without the sentences about each.
struct ListFrame {
    told: Told,
    /// Each figure, and the unit of its value; one without a value is left out.
    figures: Vec<(Form, Option<&'static Unit>)>,
    text: Vec<u8>,
    /// Where the numbers and the sentences go.
    cuts: Vec<usize>,
    /// Bytes that hold most lists like this one.
    room: usize,
}

/// What the frame of one figure follows from: names by where they stand in the program, which are compared faster
/// than what they say.
#[derive(PartialEq)]
struct Form {
    name: *const str,
    formula: *const Formula,
    kind: *const KindInfo,
    typed: *const Unit,
    has_min: bool,
    has_max: bool,
    is_one: bool,
}

impl Form {
    fn of(figure: &Figure) -> Self {
        let [min, max] = ends(&figure.value);
        let first = min.or(max);
        Self {
            name: ptr::from_ref(figure.name),
            formula: ptr::from_ref(figure.formula),
            kind: first.map_or(ptr::null(), |amount| ptr::from_ref(amount.kind())),
            typed: first.and_then(|amount| amount.unit_typed()).map_or(ptr::null(), ptr::from_ref),
            has_min: min.is_some(),
            has_max: max.is_some(),
            is_one: matches!(figure.value, FigureValue::One(_)),
        }
    }
}

/// The amounts that a value is told by.
const fn ends(value: &FigureValue) -> [Option<&Amount>; 2] {
    match value {
        FigureValue::One(amount) => [Some(amount), None],
        FigureValue::Between(AmountRange { min, max }) => [min.as_ref(), max.as_ref()],
    }
}

impl ListFrame {
    fn around(figures: &[Figure], told: Told) -> Result<Self, Error> {
        let (text, none) = (vec![b'['], Vec::new());
        let mut frame = Self { told, figures: none, text, cuts: Vec::new(), room: 0 };
        for figure in figures {
            frame.add(figure)?;
        }
        frame.text.push(b']');
        frame.room += frame.text.len();
        Ok(frame)
    }

    /// As [`FigureOut`] is written, its value as [`AmountOut`] or [`RangeOut`].
    fn add(&mut self, figure: &Figure) -> Result<(), Error> {
        let [min, max] = ends(&figure.value);
        let unit = min.or(max).map(|first| first.written_unit(self.told.units));
        self.figures.push((Form::of(figure), unit));
        let Some(unit) = unit else { return Ok(()) };
        if self.text.len() > 1 {
            self.text.push(b',');
        }
        let (value, sentences) = (ShownOut::Words(vec![PART.into()]), vec![PART.into()]);
        let pieces = around_parts(&whole(figure, value, sentences, self.told.briefly))?;
        let ([before, after] | [before, _, after]) = &pieces[..] else {
            return Err(Error::custom("a figure has a value, and sentences in full"));
        };
        self.text.extend_from_slice(before);
        let names: [&[u8]; 2] = match (&figure.value, min) {
            (FigureValue::One(_), _) => [b"{\"value\":", b""],
            (FigureValue::Between(_), Some(_)) => [b"{\"min\":", b",\"max\":"],
            (FigureValue::Between(_), None) => [b"", b"{\"max\":"],
        };
        for name in names.into_iter().zip([min, max]).filter(|(_, end)| end.is_some()) {
            self.text.extend_from_slice(name.0);
            self.cuts.push(self.text.len());
            self.room += NUMBER;
        }
        for end in [b",\"unit\":\"", unit.symbol.as_bytes(), b"\"}"] {
            self.text.extend_from_slice(end);
        }
        if let [_, between, _] = &pieces[..] {
            self.text.extend_from_slice(between);
            self.cuts.push(self.text.len());
            self.room += SENTENCES;
        }
        self.text.extend_from_slice(after);
        Ok(())
    }

    /// Whether it is the frame of these figures.
    fn fits(&self, figures: &[Figure], told: Told) -> bool {
        let same = |(figure, (form, _)): (&Figure, &(Form, _))| Form::of(figure) == *form;
        self.told == told
            && self.figures.len() == figures.len()
            && figures.iter().zip(&self.figures).all(same)
    }

    /// The frame with the numbers of these figures, and the sentences about them.
    fn filled(&self, figures: &[Figure]) -> Result<Vec<u8>, Error> {
        let mut text = Vec::with_capacity(self.room);
        let (mut from, mut cuts) = (0, self.cuts.iter());
        let mut up_to_cut = |text: &mut Vec<u8>| {
            let to = cuts.next().copied().unwrap_or(self.text.len());
            text.extend_from_slice(&self.text[from..to]);
            from = to;
        };
        for (figure, (_, unit)) in figures.iter().zip(&self.figures) {
            let Some(unit) = unit else { continue };
            for amount in ends(&figure.value).into_iter().flatten() {
                up_to_cut(&mut text);
                let digits = amount.digits_in(unit, Rounding::Nearest);
                text.extend_from_slice(&digits.text(&mut [0; MOST_BYTES]));
            }
            if !self.told.briefly {
                up_to_cut(&mut text);
                notes(&figure.assumptions, &mut text)?;
            }
        }
        up_to_cut(&mut text);
        Ok(text)
    }
}

/// What stands around the parts of an example; each part is a list of [`PART`] alone.
fn around_parts(example: &FigureOut) -> Result<Vec<Vec<u8>>, Error> {
    let mut text = Vec::new();
    write_json(example, &mut text)?;
    let part = format!("[\"{PART}\"]").into_bytes();
    let (mut pieces, mut rest) = (Vec::new(), &text[..]);
    while let Some(at) = rest.windows(part.len()).position(|window| window == part) {
        pieces.push(rest[..at].to_vec());
        rest = &rest[at + part.len()..];
    }
    pieces.push(rest.to_vec());
    Ok(pieces)
}

/// The figure with these for value and assumptions.
fn whole(
    figure: &Figure,
    value: ShownOut,
    assumptions: Vec<std::borrow::Cow<'static, str>>,
    briefly: bool,
) -> FigureOut {
    let whole = FigureOut::of(figure.name, value, figure.formula, assumptions);
    if briefly { whole.briefly() } else { whole }
}

/// The same text by way of the type that the OpenAPI document describes.
fn plainly(figures: &[Figure], Told { units, briefly }: Told) -> Result<Vec<u8>, Error> {
    let out = |figure: &Figure| {
        let value = match &figure.value {
            FigureValue::One(amount) => ShownOut::Amount(AmountOut::new(*amount, units)),
            FigureValue::Between(range) => ShownOut::Range(RangeOut::new(range, units)?),
        };
        let assumptions = figure.assumptions.iter().map(Into::into).collect();
        Some(whole(figure, value, assumptions, briefly))
    };
    let mut text = Vec::new();
    write_json(&figures.iter().filter_map(out).collect::<Vec<_>>(), &mut text)?;
    Ok(text)
}

/// The sentences as a list of texts.
fn notes(notes: &[Note], text: &mut Vec<u8>) -> Result<(), Error> {
    text.push(b'[');
    for (index, note) in notes.iter().enumerate() {
        if index > 0 {
            text.push(b',');
        }
        if note.is_plain() {
            text.push(b'"');
            text.extend_from_slice(note.as_bytes());
            text.push(b'"');
        } else {
            write_json(&**note, text)?;
        }
    }
    text.push(b']');
    Ok(())
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::{
        quantity::{ALL_KINDS, UnitSystem},
        trade::RUN_AREA,
    };

    /// The plainly written form is the reference.
    fn agree(value: FigureValue, note: String) {
        let figure = Figure {
            name: "run-area",
            value,
            formula: &RUN_AREA,
            assumptions: vec![Note::always("typed \"as\" is"), note.into()],
        };
        let amount = Amount::computed(ALL_KINDS[0], 12.5).unwrap();
        let other = Figure { name: "leg", value: FigureValue::One(amount), ..figure.clone() };
        let figures = [figure, other];
        for units in [None, Some(UnitSystem::Metric), Some(UnitSystem::Us)] {
            for briefly in [true, false] {
                let mut text = Vec::new();
                let ready = figures_ready(&figures, units, briefly).unwrap();
                write_json(&ready, &mut text).unwrap();
                let plain = plainly(&figures, Told { units, briefly }).unwrap();
                assert_eq!(String::from_utf8(text).unwrap(), String::from_utf8(plain).unwrap());
            }
        }
    }

    proptest! {
        #[test]
        fn a_figure_is_written_as_the_described_type(
            kind in 0..ALL_KINDS.len(), low in any::<f64>(), high in -1e4..1e4, note in any::<String>(),
        ) {
            let amount = |value| Amount::computed(ALL_KINDS[kind], value).ok();
            let typed = amount(high).map(|one| one.said_in(&ALL_KINDS[kind].units[0]));
            for (min, max) in [(amount(low), typed), (typed, None), (None, amount(high))] {
                agree(FigureValue::Between(AmountRange { min, max }), note.clone());
                if let Some(one) = min {
                    agree(FigureValue::One(one), note.clone());
                }
            }
        }
    }

    #[test]
    fn a_range_without_ends_is_left_out() {
        let nothing = FigureValue::Between(AmountRange { min: None, max: None });
        let figure =
            Figure { name: "run-area", value: nothing, formula: &RUN_AREA, assumptions: vec![] };
        let mut text = Vec::new();
        write_json(&figures_ready(&[figure], None, true).unwrap(), &mut text).unwrap();
        assert_eq!(text, b"[]");
    }
}
