//! What the browser measured, read from the file that the scripts leave.

use serde_json::Value;

/// One page's visits in the order of the runs. Times are in milliseconds.
#[derive(Debug, Default, PartialEq)]
pub struct Visits {
    pub first_paint: Vec<f64>,
    /// Empty when a visit showed no answer.
    pub usable: Vec<f64>,
    pub layout_shift: Vec<f64>,
    /// 0 where no task took 50 ms: the browser tells of no shorter one.
    pub longest_task: Vec<f64>,
    /// Requests that were made before the page was usable.
    pub requests: Vec<f64>,
}

/// One page in use, by run.
#[derive(Debug, Default, PartialEq)]
pub struct Uses {
    /// Milliseconds of each keystroke to the painted answer.
    pub keystrokes: Vec<Vec<f64>>,
    /// Milliseconds of the longest task that any tap set off, and the tap.
    pub longest_task: Vec<(f64, String)>,
    /// Bytes.
    pub script_heap: Vec<f64>,
    /// Bytes; empty when there is no program.
    pub program_memory: Vec<f64>,
}

/// A notebook of five seasons and eight groups, by run, in milliseconds.
#[derive(Debug, Default, PartialEq)]
pub struct Seasons {
    /// From the first look into the storage to the painted answer.
    pub opened: Vec<f64>,
    /// The same to the painted answers of all groups.
    pub whole: Vec<f64>,
    /// From a tap to the painted answer, the slowest of the run, and the tap.
    pub slowest_tap: Vec<(f64, String)>,
    /// The same for a copy that is opened from a file, added and saved: the slowest of these, and which.
    pub slowest_copy: Vec<(f64, String)>,
}

/// The search for the fewest treatments against a pest, by run, in milliseconds.
#[derive(Debug, Default, PartialEq)]
pub struct BestPlan {
    /// From the tap to the painted plan.
    pub found: Vec<f64>,
    /// The longest task meanwhile; 0 where none took 50.
    pub longest_task: Vec<f64>,
}

/// A file that was asked for before the page was usable.
#[derive(Debug, PartialEq)]
pub struct Request {
    pub path: String,
    /// Bytes with gzip at its strongest.
    pub gzip: usize,
    /// Bytes that came, without the head. Not known of what a worker asks for.
    pub arrived: Option<usize>,
}

/// Visits once the server has stopped, and the plain page's cold visits of the same minutes.
#[derive(Debug, PartialEq)]
pub struct Stopped {
    pub page: Visits,
    pub plain: Visits,
    /// Whether the worker answered each visit.
    pub from_worker: bool,
}

#[derive(Debug, PartialEq)]
pub struct Results {
    pub browser: String,
    pub page: Visits,
    pub plain: Visits,
    pub page_uses: Uses,
    pub plain_uses: Uses,
    pub seasons: Seasons,
    pub best_plan: BestPlan,
    /// Of the first visit.
    pub requests: Vec<Request>,
    /// Whether a tap on a sky key in the frame after the first answer changed it, on both pages.
    pub tap_answered: bool,
    /// Whether the page has a worker.
    pub has_worker: bool,
    /// Absent when the page has no worker.
    pub stopped: Option<Stopped>,
}

impl Results {
    /// `None` when something is missing in `text` or is not what it should be.
    pub fn read(text: &str) -> Option<Self> {
        let value: Value = serde_json::from_str(text).ok()?;
        let flag = |pointer: &str| value.pointer(pointer)?.as_bool();
        let stopped = match value.get("stopped") {
            None => None,
            Some(stopped) => Some(Stopped {
                page: visits(stopped.get("page")?)?,
                plain: visits(stopped.get("plain")?)?,
                from_worker: list(stopped, "/page")?.iter().all(|visit| visit["fromWorker"] == true),
            }),
        };
        Some(Self {
            browser: value.get("browser")?.as_str()?.to_string(),
            page: visits(value.pointer("/page/visits")?)?,
            plain: visits(value.pointer("/plain/visits")?)?,
            page_uses: uses(value.pointer("/page/uses")?)?,
            plain_uses: uses(value.pointer("/plain/uses")?)?,
            seasons: seasons(value.get("seasons")?)?,
            best_plan: best_plan(value.get("bestPlan")?)?,
            requests: requests(value.pointer("/page/visits/0")?)?,
            tap_answered: flag("/tapAnswered/page")? && flag("/tapAnswered/plain")?,
            has_worker: flag("/worker")?,
            stopped,
        })
    }
}

fn list<'a>(value: &'a Value, pointer: &str) -> Option<&'a Vec<Value>> {
    value.pointer(pointer)?.as_array()
}

/// The number at `pointer` in each of `values`.
fn numbers(values: &[Value], pointer: &str) -> Option<Vec<f64>> {
    values.iter().map(|value| value.pointer(pointer)?.as_f64()).collect()
}

fn visits(value: &Value) -> Option<Visits> {
    let visits = value.as_array()?;
    Some(Visits {
        // Null when a page showed nothing, or no answer: then there is nothing to judge.
        first_paint: numbers(visits, "/firstPaint").unwrap_or_default(),
        usable: numbers(visits, "/usable").unwrap_or_default(),
        layout_shift: numbers(visits, "/layoutShift")?,
        longest_task: numbers(visits, "/longestTask")?,
        requests: visits.iter().map(count_until_usable).collect::<Option<_>>()?,
    })
}

fn count_until_usable(visit: &Value) -> Option<f64> {
    let count = until_usable(visit)?.count();
    u32::try_from(count).ok().map(f64::from)
}

/// The requests that were made before the visit's first answer, or all when there was none.
fn until_usable(visit: &Value) -> Option<impl Iterator<Item = &Value>> {
    let usable = visit.get("usable")?.as_f64().unwrap_or(f64::INFINITY);
    let made_before = move |request: &&Value| request["at"].as_f64().is_some_and(|at| at <= usable);
    Some(list(visit, "/requests")?.iter().filter(made_before))
}

fn requests(visit: &Value) -> Option<Vec<Request>> {
    let bytes = |value: &Value| value.as_u64().and_then(|bytes| usize::try_from(bytes).ok());
    let request = |value: &Value| {
        Some(Request {
            path: value.get("path")?.as_str()?.to_string(),
            gzip: bytes(value.get("gzip")?)?,
            arrived: bytes(value.get("arrived")?),
        })
    };
    until_usable(visit)?.map(request).collect()
}

fn uses(value: &Value) -> Option<Uses> {
    let uses = value.as_array()?;
    let keystrokes = |value: &Value| list(value, "/keystrokes")?.iter().map(Value::as_f64).collect();
    Some(Uses {
        keystrokes: uses.iter().map(keystrokes).collect::<Option<_>>()?,
        longest_task: uses.iter().map(|used| slowest(used, "longest")).collect::<Option<_>>()?,
        script_heap: numbers(uses, "/memory/heap")?,
        program_memory: numbers(uses, "/memory/program").unwrap_or_default(),
    })
}

fn seasons(value: &Value) -> Option<Seasons> {
    let runs = value.as_array()?;
    Some(Seasons {
        opened: numbers(runs, "/opened")?,
        whole: numbers(runs, "/whole")?,
        slowest_tap: runs.iter().map(|run| slowest(run, "painted")).collect::<Option<_>>()?,
        slowest_copy: runs
            .iter()
            .map(|run| slowest_of(list(run, "/copies")?, "painted"))
            .collect::<Option<_>>()?,
    })
}

fn best_plan(value: &Value) -> Option<BestPlan> {
    let runs = value.as_array()?;
    Some(BestPlan {
        found: numbers(runs, "/found")?,
        longest_task: numbers(runs, "/longest")?,
    })
}

/// The tap with the greatest number under `key`, or no tap where all are 0.
fn slowest(value: &Value, key: &str) -> Option<(f64, String)> {
    slowest_of(list(value, "/taps")?, key)
}

fn slowest_of(taps: &[Value], key: &str) -> Option<(f64, String)> {
    let mut slowest = (0.0, String::new());
    for tap in taps {
        let time = tap.get(key)?.as_f64()?;
        if time > slowest.0 {
            slowest = (time, tap.get("what")?.as_str()?.to_string());
        }
    }
    Some(slowest)
}

#[cfg(test)]
mod tests {
    use super::{Request, Results};

    const VISIT: &str = r#"{"firstPaint": 350, "usable": 420.5, "layoutShift": 0, "longestTask": 60, "requests": [
        {"path": "/", "from": "page", "at": 0, "arrived": 100, "gzip": 120},
        {"path": "/worker.js", "from": "worker", "at": 420, "arrived": null, "gzip": 30},
        {"path": "/icon.svg", "from": "page", "at": 421, "arrived": 5, "gzip": 6}]}"#;
    const USE: &str = r#"{"keystrokes": [30, 31], "memory": {"heap": 1000, "program": null},
        "taps": [{"what": "metric", "longest": 70}, {"what": "sky, dull", "longest": 90}, {"what": "feed mix", "longest": 0}]}"#;

    const SEASONS: &str = r#"{"opened": 90, "whole": 200, "taps": [{"what": "sky, clear", "painted": 120.5}, {"what": "sky, dark", "painted": 80}],
        "copies": [{"what": "opened", "painted": 60}, {"what": "added", "painted": 70}]}"#;

    fn text(stopped: &str) -> String {
        let page = format!(r#"{{"visits": [{VISIT}], "uses": [{USE}]}}"#);
        format!(
            r#"{{"browser": "156", "seasons": [{SEASONS}], "bestPlan": [{{"found": 900.5, "longest": 0}}], "tapAnswered": {{"page": true, "plain": true}}, "page": {page}, "plain": {page}, "worker": true{stopped}}}"#
        )
    }

    #[test]
    fn only_what_was_asked_for_before_the_answer_counts() {
        let results = Results::read(&text("")).unwrap();
        assert_eq!(results.page.requests, [2.0]);
        let worker = Request {
            path: "/worker.js".to_string(),
            gzip: 30,
            arrived: None,
        };
        assert_eq!(results.requests.len(), 2);
        assert_eq!(results.requests[1], worker);
    }

    #[test]
    fn the_longest_task_is_told_with_its_tap() {
        let results = Results::read(&text("")).unwrap();
        assert_eq!(results.page_uses.longest_task, [(90.0, "sky, dull".to_string())]);
        assert!(results.page_uses.program_memory.is_empty());
    }

    #[test]
    fn the_slowest_tap_of_a_full_notebook_counts() {
        let seasons = Results::read(&text("")).unwrap().seasons;
        assert_eq!(seasons.opened, [90.0]);
        assert_eq!(seasons.whole, [200.0]);
        assert_eq!(seasons.slowest_tap, [(120.5, "sky, clear".to_string())]);
        assert_eq!(seasons.slowest_copy, [(70.0, "added".to_string())]);
    }

    #[test]
    fn the_search_is_told_with_its_longest_task() {
        let plan = Results::read(&text("")).unwrap().best_plan;
        assert_eq!((plan.found, plan.longest_task), (vec![900.5], vec![0.0]));
        assert_eq!(Results::read(&text("").replace("bestPlan", "plan")), None);
    }

    #[test]
    fn a_visit_without_an_answer_leaves_no_times() {
        let silent = text("").replace("420.5", "null");
        let results = Results::read(&silent).unwrap();
        assert!(results.page.usable.is_empty());
        assert_eq!(results.page.requests, [3.0]);
    }

    #[test]
    fn a_visit_that_no_worker_answered_is_noticed() {
        let visit = |from_worker: &str| VISIT.replacen('{', &format!(r#"{{"fromWorker": {from_worker}, "#), 1);
        let stopped = |second: &str| format!(r#", "stopped": {{"plain": [], "page": [{}, {}]}}"#, visit("true"), visit(second));
        assert!(Results::read(&text("")).unwrap().stopped.is_none());
        assert!(Results::read(&text(&stopped("true"))).unwrap().stopped.unwrap().from_worker);
        assert!(!Results::read(&text(&stopped("false"))).unwrap().stopped.unwrap().from_worker);
    }

    #[test]
    fn what_lacks_a_part_is_refused() {
        assert_eq!(Results::read(&text("").replace("taps", "tips")), None);
        assert_eq!(Results::read(&text("").replace("painted", "felt")), None);
        assert_eq!(Results::read(&text("").replace("\"gzip\": 30", "\"gzip\": null")), None);
        assert_eq!(Results::read("{"), None);
    }
}
