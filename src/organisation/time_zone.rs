//! Where an organisation's day begins.

use jiff::{Timestamp, civil, tz};
use serde_json::Value;
use time::{Date, Month, OffsetDateTime};
use utoipa::openapi::{ObjectBuilder, RefOr, Schema, schema::Type};

use crate::wire::{Definitions, Errors, FromWire, Node, Place, ToWire, WireSchema};

/// A time zone by its name in the IANA time zone database, such as `America/Chicago`.
#[derive(Debug, Clone, PartialEq)]
pub struct TimeZone(tz::TimeZone);

impl TimeZone {
    /// The zone of this name, in whatever case it is written; `None` where the database knows none.
    #[must_use]
    pub fn of(name: &str) -> Option<Self> {
        tz::TimeZone::get(name.trim()).ok().filter(|zone| zone.iana_name().is_some()).map(Self)
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        self.0.iana_name().unwrap_or("UTC")
    }

    /// The day that it is there at a moment; the moment's own day outside of the years 1 to 9999.
    #[must_use]
    pub fn day_of(&self, moment: OffsetDateTime) -> Date {
        let day = || {
            let at = Timestamp::from_second(moment.unix_timestamp()).ok()?;
            let there = self.0.to_datetime(at).date();
            let month = Month::try_from(u8::try_from(there.month()).ok()?).ok()?;
            let day = u8::try_from(there.day()).ok()?;
            Date::from_calendar_date(there.year().into(), month, day).ok()
        };
        day().unwrap_or(moment.date())
    }

    /// The moment at which a day begins there; midnight in UTC outside of the years 1 to 9999.
    #[must_use]
    pub fn start_of(&self, day: Date) -> OffsetDateTime {
        let start = || {
            let year = i16::try_from(day.year()).ok()?;
            let (month, number) = (u8::from(day.month()), day.day());
            let month = i8::try_from(month).ok()?;
            let date = civil::Date::new(year, month, i8::try_from(number).ok()?).ok()?;
            let start = date.to_zoned(self.0.clone()).ok()?.timestamp();
            OffsetDateTime::from_unix_timestamp(start.as_second()).ok()
        };
        start().unwrap_or(day.midnight().assume_utc())
    }
}

impl FromWire for TimeZone {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        value.as_str().and_then(Self::of).or_else(|| {
            let form = "expected the name of a zone in the IANA time zone database, such as \"America/Chicago\"";
            errors.note(at, form)
        })
    }
}

impl ToWire for TimeZone {
    fn to_wire(&self) -> Value {
        self.name().into()
    }
}

impl WireSchema for TimeZone {
    fn reference(_: &mut Definitions) -> RefOr<Schema> {
        ObjectBuilder::new()
            .schema_type(Type::String)
            .description(Some("Name of a zone in the IANA time zone database."))
            .examples(["America/Chicago"])
            .into()
    }
}

#[cfg(test)]
mod tests {
    use time::macros::{date, datetime};

    use super::*;

    /// Offsets by the IANA time zone database: Tokyo UTC+9; Chicago UTC-6, from 8 March to 1 November 2026 UTC-5;
    /// Chatham UTC+13:45 in its summer.
    #[test]
    fn the_day_begins_where_the_organisation_is() {
        for (zone, moment, day) in [
            ("Asia/Tokyo", datetime!(2026-11-30 14:59 UTC), date!(2026 - 11 - 30)),
            ("Asia/Tokyo", datetime!(2026-11-30 15:00 UTC), date!(2026 - 12 - 01)),
            ("America/Chicago", datetime!(2026-12-01 05:59 UTC), date!(2026 - 11 - 30)),
            ("America/Chicago", datetime!(2026-12-01 06:00 UTC), date!(2026 - 12 - 01)),
            ("America/Chicago", datetime!(2026-07-01 05:00 UTC), date!(2026 - 07 - 01)),
            ("america/chicago", datetime!(2026-07-01 06:59 +02:00), date!(2026 - 06 - 30)),
            ("Pacific/Chatham", datetime!(2026-12-31 10:15 UTC), date!(2027 - 01 - 01)),
        ] {
            assert_eq!(TimeZone::of(zone).unwrap().day_of(moment), day, "{zone} {moment}");
        }
        // In Santiago clocks go from midnight of 6 September 2026 to 1 o'clock: the day begins then.
        for (zone, day, start) in [
            ("Asia/Tokyo", date!(2026 - 12 - 01), datetime!(2026-11-30 15:00 UTC)),
            ("America/Chicago", date!(2026 - 07 - 01), datetime!(2026-07-01 05:00 UTC)),
            ("America/Santiago", date!(2026 - 09 - 06), datetime!(2026-09-06 04:00 UTC)),
        ] {
            let zone = TimeZone::of(zone).unwrap();
            assert_eq!(zone.start_of(day), start, "{}", zone.name());
            assert_eq!(zone.day_of(start), day);
        }
        assert_eq!(TimeZone::of("america/chicago").unwrap().name(), "America/Chicago");
        for unknown in ["", "CST", "America/Springfield", "+09:00", "Europe"] {
            assert_eq!(TimeZone::of(unknown), None, "{unknown}");
        }
    }
}
