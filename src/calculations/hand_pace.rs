//! `POST /v1/calculations/hand-pace`

use super::{Sheet, endpoint::calculation};
use crate::{
    quantity::{QuantityError, RunLength, Span, TravelSpeedKind},
    trade::{HandPace, RUN_TIME, run_time, whole_seconds},
    wire::wire_object,
};

wire_object! {
    /// A travel speed, and the length that a hand covers at it.
    pub struct HandPaceIn {
        /// Length between two marks on the plate, such as `300 mm`.
        pub length: RunLength,
        /// Travel speed, or the interval that is allowed.
        pub travel_speed: Span<TravelSpeedKind>,
    }
}

calculation! {
    /// A travel speed as a hand can follow it: cover this length in that time.
    "/v1/calculations/hand-pace", calculate_hand_pace(HandPaceIn) => fill,
    summary: "Travel speed for a hand",
    example: { "length": "300 mm", "travel_speed": "230 mm/min" }
}

fn fill(sent: &HandPaceIn, sheet: &mut Sheet) {
    let HandPaceIn { length, travel_speed } = sent;
    let time = run_time(*length, travel_speed.high()).and_then(|least| {
        let most = run_time(*length, travel_speed.low())?;
        Span::new(least, most).map_err(|_| QuantityError::NotFinite { quantity: "time" })
    });
    match (&time, travel_speed.single()) {
        (Err(error), _) => sheet.absent("pace", error),
        (Ok(_), Some(speed)) => match HandPace::new(*length, speed) {
            Ok(pace) => sheet.words("pace", vec![pace.to_string()], &RUN_TIME, WHOLE),
            Err(error) => sheet.absent("pace", error),
        },
        (Ok(time), None) => match whole_seconds(time) {
            Ok(Some(whole)) => {
                let (least, most) = (whole.low().seconds(), whole.high().seconds());
                let words = format!("cover {length} in {least:.0} to {most:.0} s");
                sheet.words("pace", vec![words], &RUN_TIME, WHOLE);
            }
            Ok(None) => {
                sheet.absent("pace", "no whole second lies inside; take a longer length");
            }
            Err(error) => sheet.absent("pace", error),
        },
    }
    sheet.span("time", time, &RUN_TIME, &[]);
}

const WHOLE: &[&str] = &["whole seconds, for a watch"];
