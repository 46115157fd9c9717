//! Every budget, once, and whether what was measured holds it.

use super::figure::Unit;
use super::files::{self, File};
use super::results::Results;
use super::spread::{Spread, percentile};

/// What may not be exceeded.
struct Budget {
    what: &'static str,
    most: f64,
    unit: Unit,
    /// What is judged; `None` when it could not be measured.
    measured: fn(&Results, &[File]) -> Option<Judged>,
}

/// The number that has to keep to the budget, with the range of the runs where there are several.
struct Judged {
    number: f64,
    range: Option<(f64, f64)>,
    remark: String,
}

/// A kB is 1,000 bytes.
const BUDGETS: &[Budget] = &[
    Budget {
        what: "program until usable, brotli",
        most: 120_000.0,
        unit: Unit::Bytes,
        measured: |_, files| Some(Judged::exactly(files::sent(files, ".wasm"))),
    },
    // What follows once the page is usable has to be paid for too: no more than it is (choice).
    Budget {
        what: "program in both parts, brotli",
        most: 345_000.0,
        unit: Unit::Bytes,
        measured: |_, files| Some(Judged::exactly(files::sent_ever(files, ".wasm"))),
    },
    Budget {
        what: "all until usable, brotli",
        most: 140_000.0,
        unit: Unit::Bytes,
        measured: |_, files| Some(Judged::exactly(files::sent(files, ""))),
    },
    Budget {
        what: "requests until usable",
        most: 8.0,
        unit: Unit::Count,
        measured: |results, _| Judged::worst(&results.page.requests),
    },
    Budget {
        what: "first paint, cold",
        most: 1.3,
        unit: Unit::TimesPlain,
        measured: |results, _| Judged::ratio(&results.page.first_paint, &results.plain.first_paint),
    },
    Budget {
        what: "usable, cold",
        most: 3.0,
        unit: Unit::TimesPlain,
        measured: |results, _| Judged::ratio(&results.page.usable, &results.plain.usable),
    },
    Budget {
        what: "usable, server stopped",
        most: 1.0,
        unit: Unit::TimesPlain,
        measured: |results, _| {
            let stopped = results.stopped.as_ref().filter(|stopped| stopped.from_worker)?;
            Judged::ratio(&stopped.page.usable, &stopped.plain.usable)
        },
    },
    Budget {
        what: "keystroke to answer, p95",
        most: 50.0,
        unit: Unit::Milliseconds,
        measured: |results, _| Judged::middle(&percentiles(&results.page_uses.keystrokes, 95)?),
    },
    Budget {
        what: "layout shift",
        most: 0.0,
        unit: Unit::Shift,
        measured: |results, _| {
            let stopped = results.stopped.iter().flat_map(|stopped| &stopped.page.layout_shift);
            Judged::worst(&results.page.layout_shift.iter().chain(stopped).copied().collect::<Vec<_>>())
        },
    },
    Budget {
        what: "longest task in use",
        most: 200.0,
        unit: Unit::Milliseconds,
        measured: |results, _| slowest(&results.page_uses.longest_task, "the longest after"),
    },
    Budget {
        what: "five seasons, opened",
        most: 100.0,
        unit: Unit::Milliseconds,
        measured: |results, _| {
            let whole = Judged::middle(&results.seasons.whole)?;
            let remark = format!("the first group; all eight after {}", Unit::Milliseconds.shown(whole.number));
            Some(Judged {
                remark,
                ..Judged::middle(&results.seasons.opened)?
            })
        },
    },
    Budget {
        what: "five seasons, slowest tap",
        most: 100.0,
        unit: Unit::Milliseconds,
        measured: |results, _| slowest(&results.seasons.slowest_tap, "the slowest"),
    },
    Budget {
        what: "best plan against a pest",
        most: 1500.0,
        unit: Unit::Milliseconds,
        measured: |results, _| Judged::middle(&results.best_plan.found),
    },
    Budget {
        what: "longest task meanwhile",
        most: 50.0,
        unit: Unit::Milliseconds,
        measured: |results, _| Judged::middle(&results.best_plan.longest_task),
    },
    Budget {
        what: "five seasons, copied",
        most: 500.0,
        unit: Unit::Milliseconds,
        measured: |results, _| slowest(&results.seasons.slowest_copy, "the slowest"),
    },
];

/// A budget and what became of it.
#[derive(Debug, PartialEq)]
pub struct Row {
    pub what: &'static str,
    pub measured: String,
    pub budget: String,
    pub holds: bool,
    pub remark: String,
}

/// Judges every budget. What could not be measured does not hold.
pub fn judged(results: &Results, files: &[File]) -> Vec<Row> {
    BUDGETS
        .iter()
        .map(|budget| budget.judged((budget.measured)(results, files)))
        .collect()
}

impl Budget {
    fn judged(&self, measured: Option<Judged>) -> Row {
        let (shown, holds, remark) = match measured {
            None => ("not measured".to_string(), false, String::new()),
            Some(Judged { number, range, remark }) => {
                let range = range.map(|(least, most)| format!(" ({} to {})", self.unit.figure(least), self.unit.figure(most)));
                // Not `<=` alone: a number that is none holds nothing.
                let holds = number.is_finite() && number <= self.most;
                (self.unit.shown(number) + &range.unwrap_or_default(), holds, remark)
            }
        };
        Row {
            what: self.what,
            measured: shown,
            budget: self.unit.shown(self.most),
            holds,
            remark,
        }
    }
}

impl Judged {
    /// A whole number that is the same in every run.
    fn exactly(bytes: usize) -> Self {
        Self {
            number: u32::try_from(bytes).map_or(f64::INFINITY, f64::from),
            range: None,
            remark: String::new(),
        }
    }

    /// The middle run.
    fn middle(numbers: &[f64]) -> Option<Self> {
        Spread::of(numbers).map(|spread| Self::of(spread.median, spread))
    }

    /// The worst run, for what may never happen.
    fn worst(numbers: &[f64]) -> Option<Self> {
        Spread::of(numbers).map(|spread| Self::of(spread.most, spread))
    }

    /// The middle of the runs' ratios.
    fn ratio(numbers: &[f64], partners: &[f64]) -> Option<Self> {
        Spread::of_ratios(numbers, partners).map(|spread| Self::of(spread.median, spread))
    }

    fn of(number: f64, spread: Spread) -> Self {
        Self {
            number,
            range: Some((spread.least, spread.most)),
            remark: String::new(),
        }
    }
}

/// The percentile of each run; `None` when there is no run, or one without keystrokes.
pub fn percentiles(runs: &[Vec<f64>], percent: usize) -> Option<Vec<f64>> {
    runs.iter().map(|run| percentile(run, percent)).collect()
}

/// The middle run's slowest tap, with the tap of the worst run.
fn slowest(runs: &[(f64, String)], word: &str) -> Option<Judged> {
    let times: Vec<f64> = runs.iter().map(|(time, _)| *time).collect();
    let (_, tap) = runs.iter().max_by(|(one, _), (other, _)| one.total_cmp(other))?;
    let judged = Judged::middle(&times)?;
    let remark = if tap.is_empty() { String::new() } else { format!("{word}: {tap}") };
    Some(Judged { remark, ..judged })
}

#[cfg(test)]
mod tests {
    use super::{BUDGETS, Judged, Row, judged};
    use crate::measure::results::{BestPlan, Results, Seasons, Stopped, Uses, Visits};

    fn visits(paint: f64, usable: f64) -> Visits {
        Visits {
            first_paint: vec![paint; 3],
            usable: vec![usable; 3],
            layout_shift: vec![0.0; 3],
            longest_task: vec![90.0; 3],
            requests: vec![7.0; 3],
        }
    }

    /// Holds every budget.
    fn good() -> Results {
        Results {
            browser: "156".to_string(),
            page: visits(440.0, 1200.0),
            plain: visits(400.0, 400.0),
            page_uses: Uses {
                keystrokes: vec![vec![40.0; 20]; 3],
                longest_task: vec![(0.0, String::new()); 3],
                script_heap: vec![1.0; 3],
                program_memory: vec![1.0; 3],
            },
            plain_uses: Uses::default(),
            seasons: Seasons {
                opened: vec![100.0; 3],
                whole: vec![300.0; 3],
                slowest_tap: vec![(100.0, "sky, clear".to_string()); 3],
                slowest_copy: vec![(500.0, "added".to_string()); 3],
            },
            best_plan: BestPlan {
                found: vec![1500.0; 3],
                longest_task: vec![0.0; 3],
            },
            requests: Vec::new(),
            tap_answered: true,
            has_worker: true,
            stopped: Some(Stopped {
                page: visits(200.0, 400.0),
                plain: visits(400.0, 400.0),
                from_worker: true,
            }),
        }
    }

    fn over(results: &Results) -> Vec<&'static str> {
        let rows = judged(results, &[]);
        assert_eq!(rows.len(), BUDGETS.len());
        rows.iter().filter(|row| !row.holds).map(|row| row.what).collect()
    }

    #[test]
    fn a_page_at_its_limits_holds_every_budget() {
        assert_eq!(over(&good()), [""; 0]);
    }

    #[test]
    fn each_budget_is_noticed_when_it_is_exceeded() {
        let check = |what: &str, spoil: fn(&mut Results)| {
            let mut results = good();
            spoil(&mut results);
            assert_eq!(over(&results), [what]);
        };
        check("first paint, cold", |results| results.page.first_paint = vec![521.0; 3]);
        check("usable, cold", |results| results.page.usable = vec![1201.0; 3]);
        check("requests until usable", |results| results.page.requests = vec![7.0, 9.0, 7.0]);
        check("layout shift", |results| results.page.layout_shift = vec![0.0, 0.0, 0.001]);
        check("keystroke to answer, p95", |results| {
            // Two of twenty are more than a twentieth.
            results.page_uses.keystrokes = vec![[vec![40.0; 18], vec![51.0; 2]].concat(); 3];
        });
        check("longest task in use", |results| {
            results.page_uses.longest_task = vec![(201.0, "metric".to_string()); 3];
        });
        check("five seasons, opened", |results| results.seasons.opened = vec![101.0; 3]);
        check("five seasons, slowest tap", |results| {
            results.seasons.slowest_tap = vec![(101.0, "sky, dark".to_string()); 3];
        });
        check("best plan against a pest", |results| results.best_plan.found = vec![1501.0; 3]);
        check("longest task meanwhile", |results| results.best_plan.longest_task = vec![51.0; 3]);
        check("five seasons, copied", |results| {
            results.seasons.slowest_copy = vec![(501.0, "added".to_string()); 3];
        });
        check("usable, server stopped", |results| {
            results.stopped.as_mut().unwrap().page.usable = vec![401.0; 3];
        });
        check("layout shift", |results| {
            results.stopped.as_mut().unwrap().page.layout_shift = vec![0.1, 0.0, 0.0];
        });
    }

    #[test]
    fn one_slow_run_of_three_fails_no_time() {
        let mut results = good();
        results.page.usable = vec![1200.0, 9000.0, 1200.0];
        results.page_uses.longest_task[1] = (900.0, "metric".to_string());
        assert_eq!(over(&results), [""; 0]);
        let rows = judged(&results, &[]);
        let shown = |what: &str| rows.iter().find(|row| row.what == what).map(|row| row.measured.as_str());
        assert_eq!(shown("usable, cold"), Some("3.00 × plain (3.00 to 22.50)"));
        assert_eq!(shown("longest task in use"), Some("under 50 ms (under 50 to 900)"));
    }

    #[test]
    fn what_was_not_measured_does_not_hold() {
        let mut results = good();
        results.page.usable.clear();
        results.page_uses.keystrokes.clear();
        results.page_uses.longest_task.clear();
        results.seasons = Seasons::default();
        results.best_plan = BestPlan::default();
        results.stopped = None;
        assert_eq!(
            over(&results),
            [
                "usable, cold",
                "usable, server stopped",
                "keystroke to answer, p95",
                "longest task in use",
                "five seasons, opened",
                "five seasons, slowest tap",
                "best plan against a pest",
                "longest task meanwhile",
                "five seasons, copied"
            ]
        );
        let mut results = good();
        results.stopped.as_mut().unwrap().from_worker = false;
        assert_eq!(over(&results), ["usable, server stopped"]);
    }

    #[test]
    fn bytes_are_judged_to_the_last() {
        let judged = |bytes| BUDGETS[0].judged(Some(Judged::exactly(bytes)));
        assert!(judged(120_000).holds);
        let Row {
            measured, budget, holds, ..
        } = judged(120_001);
        assert_eq!(
            (measured.as_str(), budget.as_str(), holds),
            ("120,001 bytes", "120,000 bytes", false)
        );
    }
}
