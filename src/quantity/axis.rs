/// The scale of a chart's upright axis: from nothing in steps of 1, 2 or 5 of some power of ten.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Axis {
    /// From one tick to the next, in the unit shown.
    pub step: f64,
    /// Ticks above nothing.
    pub ticks: u32,
}

impl Axis {
    /// The finest scale with at most so many ticks (1 and up) that holds the highest value shown. Steps begin at 0.01; nothing
    /// to show, or not a number, gives one step; more than 10⁹ is cut off. Steps go by 1, 2 and 5
    /// to the power of ten (choice).
    #[must_use]
    pub fn up_to(highest: f64, most_ticks: u32) -> Self {
        let most = f64::from(most_ticks.max(1));
        let highest = if highest > 0.0 { highest.min(1e9) } else { 0.0 };
        let mut step = 0.01;
        for factor in [2.0, 2.5, 2.0].into_iter().cycle() {
            if step * most >= highest {
                break;
            }
            step *= factor;
        }
        Self {
            step,
            ticks: whole((highest / step).ceil().max(1.0)).min(most_ticks.max(1)),
        }
    }

    /// The value at its upper end.
    #[must_use]
    pub fn top(self) -> f64 {
        self.step * f64::from(self.ticks)
    }
}

/// A count that is already whole.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a float cast saturates")]
const fn whole(count: f64) -> u32 {
    count as u32
}
