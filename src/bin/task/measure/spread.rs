//! What several runs came to: the middle one, and how far apart they were.

/// The least, the middle and the most of several numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    pub least: f64,
    pub median: f64,
    pub most: f64,
}

impl Spread {
    /// `None` when there are no numbers.
    pub fn of(numbers: &[f64]) -> Option<Self> {
        let sorted = sorted(numbers);
        let middle = sorted.len() / 2;
        let upper = *sorted.get(middle)?;
        let median = if sorted.len() % 2 == 1 {
            upper
        } else {
            f64::midpoint(*sorted.get(middle - 1)?, upper)
        };
        Some(Self {
            least: *sorted.first()?,
            median,
            most: *sorted.last()?,
        })
    }

    /// The spread of each number over its partner of the same run, so that what slows the machine slows both.
    pub fn of_ratios(numbers: &[f64], partners: &[f64]) -> Option<Self> {
        let ratios: Vec<f64> = numbers.iter().zip(partners).map(|(number, partner)| number / partner).collect();
        Self::of(&ratios)
    }
}

/// The least number that `percent` of all do not exceed (the nearest rank); `None` when there are none.
pub fn percentile(numbers: &[f64], percent: usize) -> Option<f64> {
    let rank = (numbers.len() * percent).div_ceil(100);
    sorted(numbers).get(rank.checked_sub(1)?).copied()
}

fn sorted(numbers: &[f64]) -> Vec<f64> {
    let mut numbers = numbers.to_vec();
    numbers.sort_by(f64::total_cmp);
    numbers
}

#[cfg(test)]
mod tests {
    use super::{Spread, percentile};

    #[track_caller]
    fn check(found: Option<Spread>, least: f64, median: f64, most: f64) {
        assert_eq!(found, Some(Spread { least, median, most }));
    }

    #[test]
    fn the_median_is_the_middle_of_the_sorted_numbers() {
        check(Spread::of(&[30.0, 10.0, 20.0]), 10.0, 20.0, 30.0);
        check(Spread::of(&[40.0, 10.0, 20.0, 30.0]), 10.0, 25.0, 40.0);
        check(Spread::of(&[5.0]), 5.0, 5.0, 5.0);
        assert_eq!(Spread::of(&[]), None);
    }

    #[test]
    fn ratios_are_of_the_same_run() {
        // A run at half the speed leaves the ratio as it is.
        check(Spread::of_ratios(&[300.0, 600.0, 330.0], &[100.0, 200.0, 100.0]), 3.0, 3.0, 3.3);
        assert_eq!(Spread::of_ratios(&[], &[]), None);
    }

    #[test]
    fn a_percentile_is_one_of_the_numbers() {
        let numbers: Vec<f64> = (1..=24).rev().map(f64::from).collect();
        assert_eq!(percentile(&numbers, 95), Some(23.0));
        assert_eq!(percentile(&numbers, 50), Some(12.0));
        assert_eq!(percentile(&numbers, 100), Some(24.0));
        assert_eq!(percentile(&[7.0], 95), Some(7.0));
        assert_eq!(percentile(&[], 95), None);
    }
}
