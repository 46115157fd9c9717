use crate::almanac::CivilDay;

/// Today by the device's own clock and time zone; the default day when that clock gives no day of the calendar.
#[must_use]
pub fn today() -> CivilDay {
    read_clock().unwrap_or_default()
}

/// The time of day by the device's own clock, as `9.05`.
#[must_use]
pub fn time_of_day() -> String {
    let now = js_sys::Date::new_0();
    let minutes = now.get_minutes().to_string();
    let nought = if minutes.len() < 2 { ".0" } else { "." };
    now.get_hours().to_string() + nought + &minutes
}

/// Now, in milliseconds since 1970: a number that no two programmes share.
#[must_use]
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a float cast saturates")]
pub fn milliseconds() -> u64 {
    js_sys::Date::now() as u64
}

/// Milliseconds since the page was opened, by a clock that nobody sets.
#[must_use]
pub fn elapsed() -> f64 {
    web_sys::window()
        .and_then(|window| window.performance())
        .map_or(0.0, |clock| clock.now())
}

/// Now in UTC as `20260709T083000Z`.
#[must_use]
pub fn utc_stamp() -> String {
    let now = String::from(js_sys::Date::new_0().to_iso_string());
    let (seconds, _) = now.split_once('.').unwrap_or((&now, ""));
    let mut stamp: String = seconds.chars().filter(char::is_ascii_alphanumeric).collect();
    stamp.push('Z');
    stamp
}

fn read_clock() -> Option<CivilDay> {
    let now = js_sys::Date::new_0();
    let year = i16::try_from(now.get_full_year()).ok()?;
    let month = i8::try_from(now.get_month()).ok()? + 1;
    let day = i8::try_from(now.get_date()).ok()?;
    CivilDay::new(year, month, day).ok()
}
