//! EN 1011-2: Method B with both printed sets of constants, its parts and its inverse; Method A.

use super::{PreheatIn, Shared, Sheet, need};
use crate::{
    quantity::{Cet, QuantityError, Range},
    trade::{
        Coded, HEAT_INPUT_FOR_PREHEAT, HeatInputNeed, METHOD_A_TABLE, METHOD_B, METHOD_B_PARTS,
        MethodA, MethodAAnswer, MethodB, MethodBConstants, PreheatNeed, Validity, governing_cet,
        heat_input_for_preheat, method_a_preheat, method_b_parts, method_b_preheat,
    },
    wire::ChartReadingIn,
};

const NONE_CALCULATED: &str = "none by calculation; the joint has to be dry";

/// Method B.
pub(super) fn method_b(sent: &PreheatIn, shared: &Shared, sheet: &mut Sheet) {
    for (constants, code) in MethodBConstants::ALL {
        let suffix = match constants {
            MethodBConstants::En1011 => "en-1011-2",
            MethodBConstants::Sew088 => "sew-088",
        };
        let name = format!("preheat-method-b-{suffix}");
        match case(sent, shared, *constants) {
            Ok(case) => put_preheat(&name, code, &case, sent, sheet),
            Err(reason) => sheet.absent(&name, reason),
        }
    }
    if let Ok(case) = case(sent, shared, MethodBConstants::En1011) {
        put_parts(&case, sheet);
        put_heat_input(&case, sent, sheet);
    }
}

fn case(sent: &PreheatIn, shared: &Shared, constants: MethodBConstants) -> Result<MethodB, String> {
    let hydrogen = need(sent.hydrogen, "the hydrogen")?;
    Ok(MethodB {
        metal: sent.metal.0,
        cet: governing(sent, shared)?,
        thickness: need(sent.thickness, "the thickness")?,
        hydrogen: hydrogen.content().map_err(|error| error.to_string())?,
        heat_input: need(sent.heat_input, "the heat input")?,
        composition: sent.composition.clone(),
        yield_strength: sent.yield_strength,
        ambient: need(sent.ambient, "the ambient temperature")?,
        constants,
    })
}

fn governing(sent: &PreheatIn, shared: &Shared) -> Result<Cet, String> {
    let parent = shared.cet.clone()?;
    let text = |error: QuantityError| error.to_string();
    sent.weld_metal_cet.map_or(Ok(parent), |weld| governing_cet(parent, weld).map_err(text))
}

/// What was taken beyond the input.
fn assumptions(sent: &PreheatIn, case: &MethodB, code: &str) -> Vec<String> {
    let governs = match sent.weld_metal_cet {
        Some(_) => "parent metal, or weld metal plus 0.03 % where that is more",
        None => "parent metal; that of the weld metal is not given and taken to be no more",
    };
    vec![
        format!("constants of {code}"),
        format!("CET {} of the {governs}", case.cet),
        format!("hydrogen {}", case.hydrogen),
    ]
}

fn put_preheat(name: &str, code: &str, case: &MethodB, sent: &PreheatIn, sheet: &mut Sheet) {
    let mut said = assumptions(sent, case, code);
    let got = match method_b_preheat(case) {
        Ok(got) => got,
        Err(error) => return sheet.absent(name, error),
    };
    let unchecked: Vec<_> = got.not_checked.iter().map(|what| what.code()).collect();
    if !unchecked.is_empty() {
        said.push(format!("not checked against the range of the method: {}", unchecked.join(", ")));
    }
    let mut said: Vec<_> = said.iter().map(String::as_str).collect();
    sheet.one::<_, &str>(&format!("{name}-calculated"), Ok(got.calculated), &METHOD_B, &said);
    match got.need {
        PreheatNeed::AtLeast(minimum) => {
            said.push("calculated, rounded up to 5 °C");
            sheet.at_least::<_, &str>(name, Ok(minimum), &METHOD_B, &said);
        }
        PreheatNeed::NoneCalculated => {
            sheet.words(name, vec![NONE_CALCULATED.to_owned()], &METHOD_B, &said);
        }
    }
}

/// What each input asks for; a second way to the total.
fn put_parts(case: &MethodB, sheet: &mut Sheet) {
    let Ok(parts) = method_b_parts(case) else { return };
    let only = "a part of the sum, no temperature by itself";
    for (of, part) in [
        ("composition", parts.composition),
        ("thickness", parts.thickness),
        ("hydrogen", parts.hydrogen),
        ("heat-input", parts.heat_input),
    ] {
        let name = format!("preheat-method-b-part-of-{of}");
        sheet.one::<_, &str>(&name, Ok(part), &METHOD_B_PARTS, &[only]);
    }
}

/// Heat input at which the planned preheat is enough.
fn put_heat_input(case: &MethodB, sent: &PreheatIn, sheet: &mut Sheet) {
    let name = "heat-input-for-preheat-method-b";
    let Some(preheat) = sent.preheat else { return };
    let planned = format!("preheat {preheat}; constants of EN 1011-2");
    let formula = &HEAT_INPUT_FOR_PREHEAT;
    match heat_input_for_preheat(case, preheat) {
        Ok(HeatInputNeed::AtLeast(heat)) => {
            sheet.range::<_, &str>(name, Ok(Range::at_least(heat)), formula, &[&planned]);
        }
        Ok(HeatInputNeed::AnyInRange) => {
            let any = "any of the method's range, 0.5 to 4.0 kJ/mm".to_owned();
            sheet.words(name, vec![any], formula, &[&planned]);
        }
        Ok(HeatInputNeed::NoneInRange) => {
            sheet.absent(name, "no heat input of the method's range is enough: preheat more");
        }
        Err(error) => sheet.absent(name, error),
    }
}

/// Method A: the printed table, then the chart readings sent; where none is, those kept.
pub(super) fn method_a(
    sent: &PreheatIn,
    kept: &[ChartReadingIn],
    shared: &Shared,
    sheet: &mut Sheet,
) {
    let name = "preheat-method-a";
    let case = || {
        let hydrogen = need(sent.hydrogen, "the hydrogen")?;
        if let Some(Validity::Outside(_)) = shared.method_a_range {
            return Err(
                "the composition is outside the range of Method A, see \"composition\"".to_owned()
            );
        }
        Ok::<_, String>(MethodA {
            metal: sent.metal.0,
            ce: shared.ce.clone()?,
            scale: hydrogen.scale().map_err(|error| error.to_string())?,
            heat_input: need(sent.heat_input, "the heat input")?,
            combined: shared.combined.clone()?,
        })
    };
    let case = match case() {
        Ok(case) => case,
        Err(reason) => return sheet.absent(name, reason),
    };
    let scale = format!("hydrogen scale {}", case.scale);
    let (used, place) = match sent.chart_readings.as_slice() {
        [] => (kept, "kept in the organisation's settings"),
        sent => (sent, "sent with the request"),
    };
    let readings: Vec<_> = used.iter().map(ChartReadingIn::compile).collect();
    match method_a_preheat(&case, &readings) {
        Ok(MethodAAnswer::NoPreheatByTable { up_to }) => {
            let table = format!("printed for a combined thickness of at most {up_to}");
            sheet.words(name, vec!["none".to_owned()], &METHOD_A_TABLE, &[&scale, &table]);
        }
        Ok(MethodAAnswer::ByReading(reading)) => {
            let origin = format!(
                "read by {} on {} from {}, {place}; the service has not seen the chart",
                reading.read_by, reading.read_on, reading.figure
            );
            let said = [scale.as_str(), &origin];
            match reading.preheat {
                Some(preheat) => {
                    sheet.at_least::<_, &str>(name, Ok(preheat), &METHOD_A_TABLE, &said);
                }
                None => sheet.words(name, vec!["none".to_owned()], &METHOD_A_TABLE, &said),
            }
        }
        Err(error) => sheet.absent(name, error),
    }
}
