//! The table that is printed, and the verdict.

use super::budgets::{Row, percentiles};
use super::figure::Unit::{Bytes, Milliseconds};
use super::files::{self, File};
use super::results::Results;
use crate::failure::{Failure, Outcome};

/// Prints everything.
///
/// # Errors
///
/// When a budget does not hold, or the page did not do what is measured.
pub fn print(results: &Results, files: &[File], rows: &[Row]) -> Outcome<()> {
    files::print(files);
    print_beside(results);
    print_budgets(rows);
    for complaint in complaints(results) {
        println!("{complaint}");
    }
    let over = rows.iter().filter(|row| !row.holds).count();
    if over == 0 && complaints(results).is_empty() {
        Ok(())
    } else {
        Err(Failure::new(format!("{over} of {} budgets do not hold.", rows.len())))
    }
}

/// The page and the plain page side by side: the middle of the runs and, in brackets, their range.
fn print_beside(results: &Results) {
    let (page, plain) = (&results.page, &results.plain);
    let (page_uses, plain_uses) = (&results.page_uses, &results.plain_uses);
    println!(
        "\nChromium {}, {} runs of each in turn. Cold: nothing cached, 150 ms, 1,638 kbit/s, processor slowed 4 times.",
        results.browser,
        page.layout_shift.len()
    );
    let line = |what: &str, page: String, plain: String| println!("  {what:<28}{page:>32}{plain:>32}");
    let both = |what: &str, unit: super::figure::Unit, page: &[f64], plain: &[f64]| {
        line(what, unit.spread(page), unit.spread(plain));
    };
    line("", "this page".to_string(), "a plain page".to_string());
    both("first paint, cold", Milliseconds, &page.first_paint, &plain.first_paint);
    both("usable, cold", Milliseconds, &page.usable, &plain.usable);
    both("longest task at the start", Milliseconds, &page.longest_task, &plain.longest_task);
    if let Some(stopped) = &results.stopped {
        both("usable, server stopped*", Milliseconds, &stopped.page.usable, &stopped.plain.usable);
    }
    for (what, percent) in [("keystroke, p50", 50), ("keystroke, p95", 95)] {
        let of = |runs: &[Vec<f64>]| percentiles(runs, percent).unwrap_or_default();
        both(what, Milliseconds, &of(&page_uses.keystrokes), &of(&plain_uses.keystrokes));
    }
    both("script heap", Bytes, &page_uses.script_heap, &plain_uses.script_heap);
    both("program's memory", Bytes, &page_uses.program_memory, &plain_uses.program_memory);
    if results.stopped.is_some() {
        println!("  * this page from its worker's cache, the plain page cold, in turn");
    }
}

fn print_budgets(rows: &[Row]) {
    println!("\nBudgets:");
    for Row {
        what,
        measured,
        budget,
        holds,
        remark,
    } in rows
    {
        let verdict = if *holds { "holds" } else { "OVER" };
        println!("  {what:<28}{measured:<34}at most {budget:<16}{verdict:<7}{remark}");
    }
}

/// What makes the numbers worthless, or leaves one out.
fn complaints(results: &Results) -> Vec<&'static str> {
    let mut complaints = Vec::new();
    if results.page.usable.is_empty() {
        complaints.push("The page never showed an answer: no element answer-dose had a digit in it.");
    }
    if !results.tap_answered {
        complaints.push("A tap on a sky key right after the first answer did not change it.");
    }
    match &results.stopped {
        None => complaints.push("There is no service worker, so the page cannot be opened once its server has stopped."),
        Some(stopped) if !stopped.from_worker => complaints.push("A visit was not answered by the service worker."),
        Some(_) => {}
    }
    complaints
}
