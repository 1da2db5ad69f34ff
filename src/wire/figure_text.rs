//! Figures of a check as JSON text: a frame that is always the same, and value and assumptions written straight into it.

use serde::ser::Error as _;
use serde_json::Error;

use super::{
    AmountOut, FigureOut, Frame, RangeOut, Ready, ReadyList, ShownOut, Units, ready::PART,
    write_json,
};
use crate::{
    check::{Figure, FigureValue, Note},
    quantity::{Amount, AmountRange, MOST_BYTES, Rounding, Unit},
};

/// Bytes that hold most figures.
const ROOM: usize = 512;

/// Bytes that hold most figures told briefly.
const BRIEF_ROOM: usize = 128;

/// Figures of a check, in the caller's units, as [`FigureOut`]s that are written; `briefly` without how they were
/// come by.
///
/// # Errors
/// None of the figures there are.
pub fn figures_ready(figures: &[Figure], units: Units, briefly: bool) -> Result<Ready, Error> {
    let mut list = ReadyList::with_room(figures.len() * if briefly { BRIEF_ROOM } else { ROOM });
    for figure in figures {
        let Some(first) = first(&figure.value) else { continue };
        let unit = first.written_unit(units);
        let names = (figure.name, figure.formula.name, u32::from(briefly));
        let example =
            || whole(figure, ShownOut::Words(vec![PART.into()]), vec![PART.into()], briefly);
        let text = list.next_item();
        let start = text.len();
        Frame::with(names, example, |pieces| {
            let (before, between, after) = match pieces {
                [before, after] => (before, None, after),
                [before, between, after] => (before, Some(between), after),
                _ => return Err(Error::custom("a figure has a value, and assumptions in full")),
            };
            text.extend_from_slice(before);
            value(&figure.value, unit, text);
            if let Some(between) = between {
                text.extend_from_slice(between);
                notes(&figure.assumptions, text)?;
            }
            text.extend_from_slice(after);
            Ok(())
        })??;
        debug_assert_eq!(
            text.get(start..),
            plainly(figure, units, briefly)?.as_deref(),
            "{}",
            figure.name
        );
    }
    Ok(list.finish())
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
fn plainly(figure: &Figure, units: Units, briefly: bool) -> Result<Option<Vec<u8>>, Error> {
    let value = match &figure.value {
        FigureValue::One(amount) => Some(ShownOut::Amount(AmountOut::new(*amount, units))),
        FigureValue::Between(range) => RangeOut::new(range, units).map(ShownOut::Range),
    };
    let Some(value) = value else { return Ok(None) };
    let assumptions = figure.assumptions.iter().map(Into::into).collect();
    let mut text = Vec::new();
    write_json(&whole(figure, value, assumptions, briefly), &mut text)?;
    Ok(Some(text))
}

/// The amount whose unit a value is told in.
fn first(value: &FigureValue) -> Option<&Amount> {
    match value {
        FigureValue::One(amount) => Some(amount),
        FigureValue::Between(AmountRange { min, max }) => min.as_ref().or(max.as_ref()),
    }
}

/// As [`AmountOut`] and [`RangeOut`] are written.
fn value(value: &FigureValue, unit: &Unit, text: &mut Vec<u8>) {
    let mut end = |name: &[u8], amount: &Amount| {
        text.extend_from_slice(name);
        let digits = amount.digits_in(unit, Rounding::Nearest);
        text.extend_from_slice(&digits.text(&mut [0; MOST_BYTES]));
    };
    match value {
        FigureValue::One(amount) => end(b"{\"value\":", amount),
        FigureValue::Between(AmountRange { min: Some(min), max }) => {
            end(b"{\"min\":", min);
            if let Some(max) = max {
                end(b",\"max\":", max);
            }
        }
        FigureValue::Between(AmountRange { min: None, max: Some(max) }) => end(b"{\"max\":", max),
        // Left out before.
        FigureValue::Between(AmountRange { min: None, max: None }) => text.push(b'{'),
    }
    text.extend_from_slice(b",\"unit\":\"");
    text.extend_from_slice(unit.symbol.as_bytes());
    text.extend_from_slice(b"\"}");
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
        for units in [None, Some(UnitSystem::Metric), Some(UnitSystem::Us)] {
            for briefly in [true, false] {
                let mut text = Vec::new();
                let ready = figures_ready(std::slice::from_ref(&figure), units, briefly).unwrap();
                write_json(&ready, &mut text).unwrap();
                let mut plain = plainly(&figure, units, briefly).unwrap().unwrap();
                plain.insert(0, b'[');
                plain.push(b']');
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
