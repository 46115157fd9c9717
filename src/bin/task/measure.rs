//! What the page costs a grower, beside a plain page in the same run, and whether it keeps to its budgets.

mod budgets;
mod figure;
mod files;
mod five_seasons;
mod report;
mod results;
mod spread;

use std::fs;
use std::path::Path;

use crate::build;
use crate::failure::{Failure, Outcome};
use crate::options::Options;
use crate::process::run;
use crate::project::Project;
use crate::serve::Server;
use crate::tools::{Browser, Tools};
use first_truss::notebook::seal;
use results::Results;

/// Runs of everything: an odd number has a middle one.
const RUNS: usize = 7;
/// Seasons in the notebook that is opened and changed on a slow processor.
const SEASONS: i16 = 5;

pub fn measure(project: &Project, mut options: Options) -> Outcome<()> {
    let runs: usize = options.value("--runs")?.unwrap_or(RUNS);
    options.finish()?;
    if runs == 0 {
        return Err(Failure::new("--runs cannot be 0."));
    }
    let tools = Tools::install(project)?;
    let browser = Browser::find_or_install()?;
    build::release(project, &tools)?;
    let results = results(project, &tools, &browser, runs)?;
    let mut files = files::weighed(&project.dist(), &results.requests)?;
    files::add_rest(&mut files, &project.dist())?;
    let rows = budgets::judged(&results, &files);
    report::print(&results, &files, &rows)
}

/// Runs the scripts: first with the page's server, then, if the page has a worker, once that server has stopped.
fn results(project: &Project, tools: &Tools, browser: &Browser, runs: usize) -> Outcome<Results> {
    let folder = project.root.join("target");
    let file = folder.join("measured.json");
    let profile = folder.join("measured-profile");
    empty(&profile)?;
    let seasons = folder.join("measured-five-seasons.txt");
    let notebook = five_seasons::notebook_of(SEASONS);
    fs::write(&seasons, seal(&notebook, 1)).map_err(|cause| Failure::at("write", &seasons, cause))?;
    let plain = Server::start_anywhere(&project.browser_tests().join("plain"))?;
    let page = Server::start_anywhere(&project.dist())?;
    page.pack();
    let script = |name: &str| {
        let mut command = tools.node(project, browser, &page);
        command
            .arg(format!("measure/{name}"))
            .env("FIRST_TRUSS_PLAIN_ADDRESS", plain.address())
            .env("FIRST_TRUSS_RUNS", runs.to_string())
            .env("FIRST_TRUSS_PROFILE", &profile)
            .env("FIRST_TRUSS_SEASONS", &seasons)
            .env("FIRST_TRUSS_SEASONS_END", five_seasons::morning_after(SEASONS).to_string())
            .env("FIRST_TRUSS_RESULT", &file);
        command
    };
    let mut served = script("served.mjs");
    let mut stopped = script("stopped.mjs");
    run(&mut served)?;
    let mut results = read(&file)?;
    drop(page);
    if results.has_worker {
        run(&mut stopped)?;
        results = read(&file)?;
    }
    empty(&profile)?;
    Ok(results)
}

fn read(file: &Path) -> Outcome<Results> {
    let text = fs::read_to_string(file).map_err(|cause| Failure::at("read", file, cause))?;
    Results::read(&text).ok_or_else(|| Failure::at("read", file, "something is missing in it"))
}

/// Leaves an empty folder, with nothing of an earlier run in it.
fn empty(folder: &Path) -> Outcome<()> {
    if folder.exists() {
        fs::remove_dir_all(folder).map_err(|cause| Failure::at("empty", folder, cause))?;
    }
    fs::create_dir_all(folder).map_err(|cause| Failure::at("create", folder, cause))
}

#[cfg(test)]
mod tests {
    use super::SEASONS;
    use super::five_seasons::notebook_of;
    use first_truss::notebook::{open, seal};

    /// Twenty such texts are as much as a browser keeps.
    const MOST_BYTES: usize = 250_000;

    #[test]
    fn five_seasons_of_eight_groups_stay_small() {
        let notebook = notebook_of(SEASONS);
        let text = seal(&notebook, 900);
        assert_eq!((notebook.groups.len(), notebook.days.len(), notebook.seasons.len()), (8, 180, 4));
        assert_eq!(open(&text).unwrap().notebook, notebook);
        println!("{} pages of days, {} bytes", notebook.days.len(), text.len());
        assert!(text.len() <= MOST_BYTES, "{} bytes", text.len());
    }
}
