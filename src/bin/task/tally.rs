//! Counts the tests that ran, from what the test programs print.

/// Tests that passed and failed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    pub passed: u32,
    pub failed: u32,
}

impl Tally {
    /// Adds up every closing line of Rust's tests, as in
    /// "test result: ok. 12 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.52s".
    pub fn of_rust(lines: &[String]) -> Self {
        let mut tally = Self::default();
        for line in lines {
            // A test that prints without a line end may stand before it.
            let Some((_, result)) = line.split_once("test result: ") else {
                continue;
            };
            tally.passed += count_before(result, "passed").unwrap_or(0);
            tally.failed += count_before(result, "failed").unwrap_or(0);
        }
        tally
    }

    /// Reads the closing lines of Node's tests, as in "ℹ pass 5"; a cancelled test did not pass.
    pub fn of_node(lines: &[String]) -> Self {
        let count = |name: &str| {
            lines
                .iter()
                .rev()
                .find_map(|line| line.strip_prefix("ℹ ")?.strip_prefix(name)?.trim().parse().ok())
                .unwrap_or(0)
        };
        Self {
            passed: count("pass "),
            failed: count("fail ") + count("cancelled "),
        }
    }

    pub fn ran(self) -> u32 {
        self.passed + self.failed
    }
}

impl std::ops::Add for Tally {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self {
            passed: self.passed + other.passed,
            failed: self.failed + other.failed,
        }
    }
}

/// The number in front of `word` in "ok. 12 passed; 0 failed; …".
fn count_before(result: &str, word: &str) -> Option<u32> {
    let words: Vec<&str> = result.split([' ', ';']).collect();
    let place = words.iter().position(|found| *found == word)?;
    words.get(place.checked_sub(1)?)?.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::Tally;

    fn lines(text: &str) -> Vec<String> {
        text.lines().map(str::to_string).collect()
    }

    #[test]
    fn every_rust_test_program_counts() {
        let printed = lines(
            "running 2 tests\n\
             test a ... ok\n\
             test result: ok. 12 passed; 0 failed; 1 ignored; 0 measured; 0 filtered out; finished in 0.52s\n\
             unended printtest result: FAILED. 3 passed; 2 failed; 0 ignored; 0 measured; 0 filtered out; finished in 1s",
        );
        let expected = Tally { passed: 15, failed: 2 };
        assert_eq!(Tally::of_rust(&printed), expected);
    }

    #[test]
    fn a_run_without_tests_counts_nothing() {
        assert_eq!(Tally::of_rust(&lines("no tests to run!")), Tally::default());
        assert_eq!(Tally::of_node(&lines("")), Tally::default());
    }

    #[test]
    fn node_tests_count_at_the_end() {
        let printed = lines("✔ first visit (31ms)\nℹ pass 1\nℹ tests 5\nℹ pass 3\nℹ fail 1\nℹ cancelled 1\nℹ skipped 0");
        let expected = Tally { passed: 3, failed: 2 };
        assert_eq!(Tally::of_node(&printed), expected);
    }
}
