/// A number moved to the nearest end of a range when it lies outside; not a number stays so.
///
/// The standard library's `clamp` would bring its printing of fractions along for a message that nobody can cause here: a
/// tenth of the whole program.
#[must_use]
pub const fn bounded(value: f64, low: f64, high: f64) -> f64 {
    if value > high {
        high
    } else if value < low {
        low
    } else {
        value
    }
}
