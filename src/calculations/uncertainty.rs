//! How well an arc energy is known, from the accuracy of each value it was computed from.

use super::Sheet;
use crate::{
    check::Origin,
    quantity::{ArcEnergy, Kind, Share},
    trade::{
        ARC_ENERGY_UNCERTAINTY, Accuracy, ArcReadings, COMBINED_UNCERTAINTY, Formula, Reading,
        arc_energy_of_readings, combined_uncertainty,
    },
    wire::Stated,
};

/// The value read and its instrument's error; else why the value has no known uncertainty.
pub(super) fn reading<K: Kind>(what: &str, stated: &Stated<K>) -> Result<Reading<K>, String> {
    let given = stated.given();
    if given.origin != Origin::Measured {
        return Err(format!("{what} is not measured, so nothing is known of its error"));
    }
    if stated.instrument().is_some() {
        return Err(format!("no station is looked up here: give the accuracy of {what} itself"));
    }
    let value = given.span.single();
    let value = value.ok_or_else(|| format!("{what} is an interval, not one reading"))?;
    if given.accuracy == Accuracy::Unknown {
        return Err(format!("the accuracy of {what} is unknown"));
    }
    Ok(Reading { value, accuracy: given.accuracy })
}

/// Expanded relative uncertainty of one value.
pub(super) fn relative<K: Kind>(what: &str, stated: &Stated<K>) -> Result<Share, String> {
    let share = reading(what, stated)?.relative().map_err(|error| error.to_string())?;
    share.ok_or_else(|| format!("the accuracy of {what} is unknown"))
}

/// Puts the uncertainty of an arc energy by averages on the sheet, where travel speed was read.
pub(super) fn put_of_readings(
    name: &str,
    readings: Result<ArcReadings, String>,
    sheet: &mut Sheet,
) {
    let got = readings
        .and_then(|readings| arc_energy_of_readings(&readings).map_err(|error| error.to_string()));
    let parts = got.map(|got| (got.relative, got.absolute));
    put(name, parts, &ARC_ENERGY_UNCERTAINTY, sheet);
}

/// Puts the uncertainty of an arc energy on the sheet, from those of its factors and divisors.
pub(super) fn put_combined<const N: usize>(
    name: &str,
    parts: [Result<Share, String>; N],
    energy: ArcEnergy,
    sheet: &mut Sheet,
) {
    let parts: Result<Vec<_>, _> = parts.into_iter().collect();
    let got = parts.and_then(|parts| {
        let share = combined_uncertainty(&parts).map_err(|error| error.to_string())?;
        let absolute = ArcEnergy::computed(share.ratio() * energy.kj_per_mm());
        Ok((Some(share), Some(absolute.map_err(|error| error.to_string())?)))
    });
    put(name, got, &COMBINED_UNCERTAINTY, sheet);
}

type Both = (Option<Share>, Option<ArcEnergy>);

fn put(name: &str, got: Result<Both, String>, formula: &Formula, sheet: &mut Sheet) {
    let relative = format!("{name}-relative-uncertainty");
    match got {
        Ok((Some(share), Some(absolute))) => {
            let basis = "expanded uncertainty, coverage factor 2";
            sheet.one::<_, &str>(&relative, Ok(share), formula, &[basis]);
            let name = format!("{name}-uncertainty");
            sheet.one::<_, &str>(&name, Ok(absolute), formula, &[basis]);
        }
        Ok(_) => sheet.absent(&relative, "the accuracy of one value is unknown"),
        Err(reason) => sheet.absent(&relative, reason),
    }
}
