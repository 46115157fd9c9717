/// A value with its likely range: four in five lie between low and high.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Likely {
    /// Low end.
    pub low: f64,
    /// The value itself.
    pub value: f64,
    /// High end.
    pub high: f64,
}

impl Likely {
    /// A value and what its range divides and multiplies it by, 1 and up.
    #[must_use]
    pub const fn about(value: f64, factor: f64) -> Self {
        Self {
            low: value / factor,
            value,
            high: value * factor,
        }
    }

    /// So many of them, all alike.
    #[must_use]
    pub const fn times(self, count: f64) -> Self {
        Self {
            low: self.low * count,
            value: self.value * count,
            high: self.high * count,
        }
    }

    /// Both together, when one is high where the other is.
    #[must_use]
    pub const fn plus(self, other: Self) -> Self {
        Self {
            low: self.low + other.low,
            value: self.value + other.value,
            high: self.high + other.high,
        }
    }
}
