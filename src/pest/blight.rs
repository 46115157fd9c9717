/// One night and morning outdoors.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BlightNight {
    /// Its lowest temperature, °C.
    pub coolest: f64,
    /// Hours with a humidity of 90 % and more, or with wet leaves.
    pub damp_hours: f64,
}

/// Mean humidity of a day from which leaves are taken to stay wet through the night, % (choice: no humidity of a night is asked for).
const ALL_NIGHT_DAMP: f64 = 90.0;
/// Hours of such a night, h (choice).
const NIGHT_HOURS: f64 = 8.0;

impl BlightNight {
    /// A night by the lowest temperature outdoors, °C, and the mean humidity, %, of its day.
    #[must_use]
    pub fn of(coolest: f64, humidity: f64) -> Self {
        Self {
            coolest,
            damp_hours: if humidity >= ALL_NIGHT_DAMP { NIGHT_HOURS } else { 0.0 },
        }
    }
}

/// Least temperature of such a night, °C (from memory: a public criterion).
const MILD: f64 = 10.0;
/// Damp hours of such a night (from memory: the same).
const DAMP_HOURS: f64 = 6.0;

/// Whether blight is to be watched for outdoors: two nights in a row of at least 10 °C, each with six hours of damp. Then look, take
/// spotted leaves off, pick what colours; no chemical.
#[must_use]
pub fn blight_watch(nights: &[BlightNight]) -> bool {
    let is_favourable = |night: &BlightNight| night.coolest >= MILD && night.damp_hours >= DAMP_HOURS;
    nights.windows(2).any(|pair| pair.iter().all(is_favourable))
}
