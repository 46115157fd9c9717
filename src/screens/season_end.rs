//! How the season ends: the last truss likely to ripen, the day to stop the plants, and the taper.

use super::app::App;
use super::model::Model;
use super::parts::{Element, More, act, element, live, working};
use super::show_working::steps_of;
use super::words::temperature;
use crate::almanac::CivilDay;
use crate::quantity::Units;
use crate::water::{LastTruss, RIPENING_UNRELIABLE_BELOW};

/// The disclosure.
pub fn season_end(app: App) -> Element {
    More {
        id: "season-end",
        summary: "How the season ends".into(),
        aside: "the last truss, and when to stop".into(),
        minor: true,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(move || inside(app)),
    }
    .view()
}

/// The last truss of the plants that are looked at.
fn last(model: &Model) -> Option<&LastTruss> {
    model.shown()?.last_truss.as_ref()
}

fn inside(app: App) -> Element {
    let key = move || {
        let model = app.look();
        last(&model)
            .map(|last| last.stop.to_string() + " " + &last.truss.unwrap_or_default().to_string())
            .unwrap_or_default()
    };
    let told = element("div").fill_for(key, move || {
        let model = app.look();
        match last(&model) {
            Some(last) => {
                let is_stopped = model.shown().is_some_and(|shown| shown.standing.stopped_at.is_some());
                told(last, is_stopped, model.today, model.units())
            }
            None => vec![
                element("p").text("No flower that opens now is likely to ripen on the plant: pick green fruit before the first frost."),
            ],
        }
    });
    let steps = live(move || last(&app.look()).map(|last| steps_of(&last.working)).unwrap_or_default());
    element("div").child(told).child(working(steps).unhurried())
}

fn told(last: &LastTruss, is_stopped: bool, today: CivilDay, units: Units) -> Vec<Element> {
    let stop = element("time")
        .set("id", "answer-stop-date")
        .set("datetime", last.stop.to_string())
        .text(last.stop.spoken());
    let first = if last.late < today {
        "The last flower likely to ripen opened about "
    } else {
        "The last flower likely to ripen opens about "
    };
    let mut words = ", between ".to_owned() + &last.early.spoken() + " and " + &last.late.spoken() + ".";
    match last.truss {
        _ if is_stopped => words += " The tip is out.",
        Some(0) => words += " No truss is in time.",
        Some(truss) => words = words + " That is truss " + &truss.to_string() + ": take out the tip two leaves above it then.",
        None => words += " Take out the tip two leaves above that truss.",
    }
    // Its last weeks always are.
    words = words + " Below " + &temperature(RIPENING_UNRELIABLE_BELOW, units) + " this is only a guess.";
    let taper = "From ".to_owned()
        + &last.taper.0.spoken()
        + " feed half as often; the dose falls with leaves and light. By "
        + &last.season_ends.spoken()
        + " it is usually too cold to ripen more.";
    vec![
        element("p").text(first).child(stop).text(words),
        element("p").class("mt").text(taper),
    ]
}
