use crate::almanac::CivilDay;

/// Today by the device's own clock and time zone; the default day when that clock gives no day of the calendar.
#[must_use]
pub fn today() -> CivilDay {
    read_clock().unwrap_or_default()
}

fn read_clock() -> Option<CivilDay> {
    let now = js_sys::Date::new_0();
    let year = i16::try_from(now.get_full_year()).ok()?;
    let month = i8::try_from(now.get_month()).ok()? + 1;
    let day = i8::try_from(now.get_date()).ok()?;
    CivilDay::new(year, month, day).ok()
}
