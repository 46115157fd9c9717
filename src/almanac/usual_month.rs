use super::{CivilDay, Latitude};

/// First of the months that are known, in the north (read, with the data).
const FIRST_MONTH: u8 = 4;
/// Rain of each month from April to October, mm: Oxford, 51.76 °N, 63 m, 1981–2010.
/// Source (read): Met Office historic station data, Open Government Licence; means of the monthly values.
const RAIN: [f64; 7] = [49.1, 56.9, 47.8, 48.8, 56.1, 54.1, 69.6];
/// Share of the daylight with bright sun, each month from April to October: the same station, years and source; worked out
/// from its monthly hours (computed).
const SUNSHINE: [f64; 7] = [0.39, 0.40, 0.39, 0.42, 0.44, 0.38, 0.35];

/// Rain and sun of an ordinary month of the growing season: one station's, whatever the latitude, so a guess to be marked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UsualMonth {
    /// Rain of the whole month, mm.
    pub rain_millimetres: f64,
    /// Hours of bright sun over hours of daylight, 0 to 1.
    pub sunshine_share: f64,
}

/// What is usual in the month of a day, April to October of the north; nothing outside the growing season.
///
/// In the southern hemisphere the months are half a year on.
#[must_use]
pub fn usual_month(latitude: Latitude, day: CivilDay) -> Option<UsualMonth> {
    let index = usize::from(day.northern_month(latitude).checked_sub(FIRST_MONTH)?);
    Some(UsualMonth {
        rain_millimetres: *RAIN.get(index)?,
        sunshine_share: *SUNSHINE.get(index)?,
    })
}
