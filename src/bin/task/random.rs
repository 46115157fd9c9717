//! Random numbers that follow from one seed: splitmix64.

pub struct Numbers(u64);

impl Numbers {
    pub const fn of_seed(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// From nought to below `end`.
    pub fn below(&mut self, end: usize) -> usize {
        let end = u64::try_from(end.max(1)).unwrap_or(1);
        usize::try_from(self.next() % end).unwrap_or(0)
    }

    /// From `low` to `high`.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        let part = u32::try_from(self.next() >> 32).unwrap_or(0);
        low + (high - low) * f64::from(part) / f64::from(u32::MAX)
    }

    /// One of these; there is at least one.
    pub fn one_of<T: Copy>(&mut self, all: &[T]) -> T {
        all[self.below(all.len())]
    }

    pub fn chance(&mut self, share: f64) -> bool {
        self.between(0.0, 1.0) < share
    }
}

#[cfg(test)]
mod tests {
    use super::Numbers;

    #[test]
    fn a_seed_tells_all_and_numbers_keep_to_their_bounds() {
        let draw = |seed| {
            let mut numbers = Numbers::of_seed(seed);
            (0..1000).map(|_| numbers.between(-1.0, 3.0)).collect::<Vec<_>>()
        };
        assert_eq!(draw(1), draw(1));
        assert_ne!(draw(1), draw(2));
        let all = draw(3);
        assert!(all.iter().all(|number| (-1.0..=3.0).contains(number)));
        assert!(all.iter().any(|number| *number < -0.9) && all.iter().any(|number| *number > 2.9));
        let mut numbers = Numbers::of_seed(4);
        let counts = (0..6000).fold([0_u32; 6], |mut counts, _| {
            counts[numbers.below(6)] += 1;
            counts
        });
        assert!(counts.iter().all(|count| (800..1200).contains(count)), "{counts:?}");
    }
}
