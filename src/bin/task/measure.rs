//! How much a first visit downloads, and how soon it has an answer beside a plain page.

mod files;

use std::fs;

use serde_json::Value;

use crate::build;
use crate::failure::{Failure, Outcome};
use crate::options::Options;
use crate::process::run;
use crate::project::Project;
use crate::serve::Server;
use crate::tools::{Browser, Tools};

/// Timed visits of each page: an odd number has a middle one.
const RUNS: usize = 5;

/// What measure.mjs leaves; times are in milliseconds.
struct Visits {
    browser: String,
    requests: Vec<String>,
    page: Vec<f64>,
    plain: Vec<f64>,
}

pub fn measure(project: &Project, mut options: Options) -> Outcome<()> {
    let runs: usize = options.value("--runs")?.unwrap_or(RUNS);
    options.finish()?;
    if runs == 0 {
        return Err(Failure::new("--runs cannot be 0."));
    }
    let tools = Tools::install(project)?;
    let browser = Browser::find_or_install()?;
    build::release(project, &tools)?;
    let visits = visits(project, &tools, &browser, runs)?;
    let within = files::print(&project.dist(), &visits.requests)?;
    print_times(&visits)?;
    if within {
        Ok(())
    } else {
        Err(Failure::new("A size is over its budget."))
    }
}

fn visits(project: &Project, tools: &Tools, browser: &Browser, runs: usize) -> Outcome<Visits> {
    let page = Server::start_anywhere(&project.dist())?;
    let plain = Server::start_anywhere(&project.browser_tests().join("plain"))?;
    let result = project.root.join("target").join("measured.json");
    let mut command = tools.node(project, browser, &page);
    command
        .arg("measure.mjs")
        .env("FIRST_TRUSS_PLAIN_ADDRESS", plain.address())
        .env("FIRST_TRUSS_RUNS", runs.to_string())
        .env("FIRST_TRUSS_RESULT", &result);
    run(&mut command)?;
    let text = fs::read_to_string(&result).map_err(|cause| Failure::at("read", &result, cause))?;
    let measured: Value = serde_json::from_str(&text).map_err(|cause| Failure::at("read", &result, cause))?;
    Visits::of(&measured).ok_or_else(|| Failure::at("read", &result, "something is missing in it"))
}

impl Visits {
    fn of(measured: &Value) -> Option<Self> {
        let times = |name: &str| -> Option<Vec<f64>> { measured.get(name)?.as_array()?.iter().map(Value::as_f64).collect() };
        let requests = measured.get("requests")?.as_array()?.iter();
        Some(Self {
            browser: measured.get("browser")?.as_str()?.to_string(),
            requests: requests.map(|path| Some(path.as_str()?.to_string())).collect::<Option<_>>()?,
            page: times("page")?,
            plain: times("plain")?,
        })
    }
}

/// The times are told, not judged: they belong to the machine as much as to the page.
fn print_times(visits: &Visits) -> Outcome<()> {
    println!(
        "\nFirst answer in Chromium {}, cold, 150 ms and 1,638 kbit/s, processor slowed 4 times:",
        visits.browser
    );
    let (Some(page), Some(plain)) = (Spread::of(&visits.page), Spread::of(&visits.plain)) else {
        return Err(Failure::new(
            "The page never showed an answer: no element answer-dose had a digit in it.",
        ));
    };
    println!("  {:<14}{:>9}{:>18}", "", "median", "range");
    for (name, spread) in [("this page", &page), ("a plain page", &plain)] {
        println!(
            "  {name:<14}{:>6.0} ms{:>9.0} to {:.0} ms",
            spread.median, spread.least, spread.most
        );
    }
    println!("  plain-page ratio {:.2}", page.median / plain.median);
    println!("  {} visits of each", visits.page.len());
    Ok(())
}

struct Spread {
    least: f64,
    median: f64,
    most: f64,
}

impl Spread {
    /// `None` when there are no times.
    fn of(times: &[f64]) -> Option<Self> {
        let mut times = times.to_vec();
        times.sort_by(f64::total_cmp);
        let middle = times.len() / 2;
        let upper = *times.get(middle)?;
        let median = if times.len() % 2 == 1 {
            upper
        } else {
            f64::midpoint(*times.get(middle - 1)?, upper)
        };
        Some(Self {
            least: *times.first()?,
            median,
            most: *times.last()?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::Spread;

    #[track_caller]
    fn check(times: &[f64], least: f64, median: f64, most: f64) {
        let spread = Spread::of(times).unwrap();
        let found = [spread.least, spread.median, spread.most];
        assert_eq!(found.map(f64::to_bits), [least, median, most].map(f64::to_bits));
    }

    #[test]
    fn the_median_is_the_middle_of_the_sorted_times() {
        check(&[30.0, 10.0, 20.0], 10.0, 20.0, 30.0);
        check(&[40.0, 10.0, 20.0, 30.0], 10.0, 25.0, 40.0);
        check(&[5.0], 5.0, 5.0, 5.0);
        assert!(Spread::of(&[]).is_none());
    }
}
