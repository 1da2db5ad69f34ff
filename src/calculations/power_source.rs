//! `POST /v1/calculations/power-source`

use super::{Sheet, endpoint::calculation};
use crate::{
    quantity::{Current, Duration, Share},
    trade::{
        ARC_ON_TIME, Coded, CurrentUse, DUTY_FROM_PLATE, DutyPoint, EQUIVALENT_CURRENT,
        LOAD_VOLTAGE, LoadFamily, PowerSourceError, Process, RatingPlate, arc_on_time,
        conventional_load_voltage, equivalent_current, load_family,
    },
    wire::{Part, wire_object},
};

wire_object! {
    /// A point of a rating plate.
    pub struct DutyPointIn {
        /// Rated current.
        pub current: Current,
        /// Duty cycle at this current, of any ten minutes; more than 0 % and at most 100 %.
        pub duty: Part,
    }
}

wire_object! {
    /// One current of mixed use.
    pub struct CurrentUseIn {
        /// Current.
        pub current: Current,
        /// Arc time within ten minutes.
        pub time: Duration,
    }
}

wire_object! {
    /// A power source and what is asked of it. What can be computed from the values given is.
    pub struct PowerSourceIn {
        /// Points of the rating plate, in any order.
        pub plate: Vec<DutyPointIn>,
        /// Current to be welded with, for its duty cycle and load voltage.
        pub current: Option<Current>,
        /// Duty cycle needed, for the highest current that has it; more than 0 % and at most 100 %.
        pub duty: Option<Part>,
        /// Currents within ten minutes, for the one current that heats as much.
        pub uses: Vec<CurrentUseIn>,
        /// Process, for its load line.
        pub process: Option<Process>,
        /// Load line itself, where there is no process or another is meant.
        pub load_line: Option<LoadFamily>,
    }
}

calculation! {
    /// What the rating plate of a power source allows: duty cycle at a current and current at a duty cycle,
    /// only as far as the plate's points go; the one current that heats like mixed use; and the conventional
    /// load voltage, which rates power sources and is no arc voltage.
    "/v1/calculations/power-source", calculate_power_source(PowerSourceIn) => fill,
    summary: "Duty cycle of a power source",
    example: {
        "plate": [
            { "current": "350 A", "duty": "40 %" }, { "current": "290 A", "duty": "60 %" },
            { "current": "230 A", "duty": "100 %" }
        ],
        "current": "300 A", "duty": "50 %", "process": "136",
        "uses": [{ "current": "200 A", "time": "4 min" }, { "current": "300 A", "time": "2 min" }]
    }
}

fn fill(sent: &PowerSourceIn, sheet: &mut Sheet) {
    let point =
        |point: &DutyPointIn| DutyPoint { current: point.current, duty: point.duty.share() };
    let plate = RatingPlate::new(sent.plate.iter().map(point).collect());
    load_voltage(sent, sheet);
    match sent.current {
        Some(current) => duty_at(plate.as_ref(), current, sheet),
        None => sheet.absent("duty-at-current", "the current is missing"),
    }
    match sent.duty {
        Some(duty) => {
            let current = plate.clone().and_then(|plate| plate.current_at(duty.share()));
            sheet.at_most("current-at-duty", current, &DUTY_FROM_PLATE, &[]);
        }
        None => sheet.absent("current-at-duty", "the duty cycle is missing"),
    }
    mixed_use(sent, plate.as_ref(), sheet);
}

fn load_voltage(sent: &PowerSourceIn, sheet: &mut Sheet) {
    let name = "conventional-load-voltage";
    let line = match (sent.load_line, sent.process) {
        (Some(line), _) => Ok(line),
        (None, Some(process)) => load_family(process)
            .ok_or_else(|| format!("no load line is known for process {}", process.code())),
        (None, None) => Err("the process or a load line is missing".to_owned()),
    };
    let (line, current) = match (line, sent.current) {
        (Ok(line), Some(current)) => (line, current),
        (Ok(_), None) => return sheet.absent(name, "the current is missing"),
        (Err(reason), _) => return sheet.absent(name, reason),
    };
    let note = format!("load line {line}; rating only: no arc voltage");
    sheet.one(name, conventional_load_voltage(line, current), &LOAD_VOLTAGE, &[&note]);
}

type Plate<'a> = Result<&'a RatingPlate, &'a PowerSourceError>;

fn duty_at(plate: Plate<'_>, current: Current, sheet: &mut Sheet) {
    let duty = plate.map_err(Clone::clone).and_then(|plate| plate.duty_at(current));
    sheet.at_most("duty-at-current", duty.clone(), &DUTY_FROM_PLATE, &[]);
    if let Ok(duty) = duty {
        sheet.at_most("arc-on-time", arc_on_time(duty), &ARC_ON_TIME, &["in any ten minutes"]);
    }
}

fn mixed_use(sent: &PowerSourceIn, plate: Plate<'_>, sheet: &mut Sheet) {
    let name = "equivalent-current";
    if sent.uses.is_empty() {
        return sheet.absent(name, "no use of current is given");
    }
    let each = |used: &CurrentUseIn| CurrentUse { current: used.current, time: used.time };
    let uses: Vec<_> = sent.uses.iter().map(each).collect();
    // Heating alone would allow a current that the source does not have.
    let above = plate.ok().and_then(|plate| {
        uses.iter().find_map(|used| match plate.duty_at(used.current) {
            Err(error @ PowerSourceError::AboveRating { .. }) => Some(error.to_string()),
            _ => None,
        })
    });
    let notes: Vec<&str> = above.as_deref().into_iter().collect();
    sheet.one(name, equivalent_current(&uses), &EQUIVALENT_CURRENT, &notes);
    let whole =
        plate.map_err(Clone::clone).and_then(|plate| plate.current_at(Share::computed(1.0)?));
    let note = "the equivalent current is to be at most this";
    sheet.at_most("current-at-full-duty", whole, &DUTY_FROM_PLATE, &[note]);
}
