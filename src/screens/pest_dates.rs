//! The dates: as weeks, as a list, and as a file for a calendar.

use leptos_dom::helpers::request_animation_frame;

use super::app::App;
use super::card::plants_words;
use super::model::Model;
use super::parts::{Element, RepeatsStrip, StripDay, act, button, element, focus_on, link_button, plain_section, say};
use super::pest_repeats::{day, focus_soon, has_hand_days, told};
use super::pest_words::{control_words, done_words, pest_words};
use crate::almanac::CivilDay;
use crate::browser::{hand_over_calendar, utc_stamp};
use crate::notebook::{Coded, PestRecord};
use crate::pest::{CalendarEntry, LikelyDay, Outline, Pest, Picking, Standing, Visit, calendar_file};

/// Weeks that the strip shows at most.
const WEEKS: usize = 3;
/// What is said of a calendar file that was given.
const GIVEN: &str = "Given as a file: open it to put the days in. When they change, add them again: they take the place of the old ones.";

/// The weeks from the first visit, or from this one when that is long past.
pub fn strip(app: App) -> Element {
    told(app, |_, model, outline| {
        let Some(last) = outline.visits.last().map(|visit| visit.day) else {
            return Vec::new();
        };
        let today = model.today;
        let first = outline
            .visits
            .first()
            .map_or(today, |visit| visit.day)
            .max(today.days_later(-14))
            .min(today);
        let mut monday = first;
        while !monday.spoken().starts_with("Mon") {
            monday = monday.yesterday();
        }
        let next = outline.next().map(|visit| visit.day);
        let final_day = outline.last().map(|visit| visit.day);
        let between = outline.pick_between.iter().map(|between| between.from);
        let picking: Vec<_> = between.chain(picking_at_last(outline)).collect();
        let eggs = outline.last_adult.map(|adult| adult.other);
        let has_hand_days = has_hand_days(outline);
        let mut days = Vec::new();
        let mut day = monday;
        while days.len() < 7 * WEEKS && (day <= last.max(today) || days.len() % 7 != 0) {
            // Of several jobs on a day the one to come, else the last that was done.
            let of_day = outline.visits.iter().rev().filter(|visit| visit.day == day);
            let visit = of_day.min_by_key(|visit| visit.standing == Standing::Skipped);
            let standing = visit.map(|visit| visit.standing);
            let (class, words) = match standing {
                Some(Standing::Done) => ("done", "done"),
                Some(Standing::Skipped) => ("out", "left out"),
                Some(Standing::Ahead) if Some(day) == next => ("next", "next"),
                Some(Standing::Ahead) => {
                    // Between uses, what is done by hand is told apart.
                    let word = match visit {
                        Some(visit) if has_hand_days && visit.control.is_by_hand() => "hand",
                        Some(visit) if has_hand_days && visit.control.is_sprayed() => "spray",
                        _ => "",
                    };
                    ("plan", if Some(day) == final_day { "last" } else { word })
                }
                None if day == today => ("today", if picking.contains(&day) { "pick" } else { "today" }),
                None if day < first => ("out", ""),
                None => ("", if picking.contains(&day) { "pick" } else { "" }),
            };
            days.push(StripDay {
                number: day.day().to_string(),
                words,
                class,
                is_hatched: day > today && eggs.is_some_and(|eggs| day <= eggs),
            });
            day = day.tomorrow();
        }
        let caption = "Weeks from ".to_owned() + &monday.spoken();
        let mut shown = vec![RepeatsStrip { caption, days }.view()];
        if eggs.is_some() {
            let note = if model.programme().pest == Pest::Aphid {
                "Striped edge: young of the first day may still grow up."
            } else {
                "Striped edge: old eggs may still come through."
            };
            shown.push(element("p").class("note").text(note));
        }
        vec![element("section").class("sec keys-sec").children(shown)]
    })
}

/// Gives the dates to a calendar.
pub fn calendar_button(app: App) -> Element {
    let save = act(move |()| {
        let Some(file) = file(&app.look()) else {
            return;
        };
        hand_over_calendar("first-truss-pests.ics", &file, move |was_given| {
            if was_given {
                app.change(|model| model.programme_mut().sent += 1);
                say(GIVEN);
            }
        });
    });
    // A file of no entry is none.
    let is_empty = app.live(|model| {
        let outline = model.pests.outline.as_ref();
        outline.is_none_or(|outline| outline.next().is_none() && outline.last_adult.is_none() && picking_at_last(outline).is_none())
    });
    let given = app.words(|model| (if model.programme().sent > 0 { GIVEN } else { "" }).to_owned());
    element("div")
        .class("press second")
        .set("id", "to-calendar")
        .set_when("hidden", "", is_empty)
        .child(button("Add to calendar".into(), save))
        .child(element("p").class("note").text(given))
}

/// The calendar file as it will be given next.
fn file(model: &Model) -> Option<String> {
    let entries = entries(model, model.pests.outline.as_ref()?);
    Some(calendar_file(&entries, &utc_stamp(), model.programme().sent + 1))
}

/// From when the crop may be picked once no use is to come, here or after what was used elsewhere.
fn picking_at_last(outline: &Outline) -> Option<CivilDay> {
    let elsewhere = outline.pick_now.filter(|_| outline.pick_after_next.is_none());
    outline.pick_after_last.or(elsewhere)
}

/// An entry for each day to come, for each day from which the crop may be picked, and for the day of the last old egg.
fn entries(model: &Model, outline: &Outline) -> Vec<CalendarEntry> {
    let programme = model.programme();
    let pest = pest_words(programme.pest).name.to_owned() + &plants_words(programme.plants, &model.notebook);
    let stem = programme.pest.code().to_owned() + "-" + &programme.id.to_string() + "-";
    let mut entries = Vec::new();
    let mut add = |name: &str, day: CivilDay, summary: String, description: String, reminds: bool| {
        entries.push(CalendarEntry {
            name: stem.clone() + name,
            day,
            summary,
            description,
            reminds,
        });
    };
    let label = "Look again first. Label and local rules win over this date.";
    for (place, visit) in outline.visits.iter().enumerate() {
        if visit.standing == Standing::Ahead {
            // Its turn among its own kind: another job of a day moves none of them.
            let before = outline.visits.iter().take(place);
            let turn = before.filter(|other| other.control == visit.control).count();
            let name = visit.control.code().to_owned() + "-" + &turn.to_string();
            add(
                &name,
                visit.day,
                pest.clone() + ": " + &done_words(programme, visit.control, visit.product),
                label.to_owned(),
                true,
            );
        }
    }
    // Where nothing is waited for after a use, no day but its own begins the picking.
    let is_waited_for = |day: CivilDay| {
        let mut uses = outline.visits.iter().filter(|visit| visit.control.needs_label());
        day > model.today && !uses.any(|visit| visit.day == day && visit.standing != Standing::Skipped)
    };
    for Picking { uses, from, until } in outline.pick_between.iter().filter(|between| is_waited_for(between.from)) {
        let name = "picking-after-".to_owned() + &uses.to_string();
        let words = "If all before is used as planned, the label lets you pick from today until the next use, ".to_owned();
        add(&name, *from, "Pick tomatoes".to_owned(), words + &until.spoken() + ".", false);
    }
    if let Some(picking) = picking_at_last(outline).filter(|day| is_waited_for(*day)) {
        let words = "Once all of it was used as planned, the label lets you pick from today.";
        add("picking", picking, "Pick tomatoes again".to_owned(), words.to_owned(), false);
    }
    if let Some(LikelyDay { central, other }) = outline.last_adult {
        let words = "About; the late ones until ".to_owned() + &other.spoken() + ". Count again.";
        let what = if programme.pest == Pest::Aphid {
            ": young of the first day breed"
        } else {
            ": last old egg is out"
        };
        add("last-egg", central, pest + what, words, false);
    }
    entries
}

/// All dates as a list, with what may be taken back.
pub fn dates(app: App) -> Element {
    let list = told(app, |app, model, outline| {
        let programme = model.programme();
        let next = outline.next().map(|visit| visit.day);
        let last = outline.last().map(|visit| visit.day);
        let lines = outline.visits.iter().map(|visit| line(app, programme, visit, next, last));
        let mut shown = between(app, programme, outline);
        let all_days = element("ol").class("dates").children(lines);
        // A long list stands after what follows from it.
        let facts = facts(programme.pest, outline);
        if facts.is_empty() {
            shown.push(all_days);
        } else {
            shown.push(element("dl").class("facts").children(facts));
            shown.push(all_days.class("dates mt"));
        }
        shown
    });
    plain_section("dates", "The dates", list)
}

/// Why days by hand stand between the sprays though nobody chose them, and a tap that takes them out or puts them back.
fn between(app: App, programme: &PestRecord, outline: &Outline) -> Vec<Element> {
    let is_filler = |visit: &&Visit| visit.standing == Standing::Ahead && visit.control.is_by_hand();
    let filler = outline.visits.iter().find(is_filler).map(|visit| visit.control);
    let is_chosen = programme.beside.iter().any(|control| control.is_by_hand());
    if !outline.control.needs_label() || is_chosen || filler.is_none() && !programme.leaves_gaps {
        return Vec::new();
    }
    let words = match filler {
        Some(filler) => {
            let what = control_words(filler, programme.pest).name;
            [
                what,
                " on the days marked “hand”: it needs no label, and the label makes the sprays too few or too far apart.",
            ]
            .concat()
        }
        None => "Nothing is done between the sprays.".to_owned(),
    };
    let tap = if filler.is_some() {
        "Leave these days out"
    } else {
        "Fill them by hand"
    };
    let turn = act(move |()| {
        app.change(|model| {
            let programme = model.programme_mut();
            programme.leaves_gaps = !programme.leaves_gaps;
        });
        request_animation_frame(|| focus_on("#by-hand-between"));
    });
    vec![
        element("p").class("note").text(words),
        link_button(tap.into(), turn).set("id", "by-hand-between"),
    ]
}

fn line(app: App, programme: &PestRecord, visit: &Visit, next: Option<CivilDay>, last: Option<CivilDay>) -> Element {
    let (class, word) = match visit.standing {
        Standing::Done => ("dot done", "done"),
        Standing::Skipped => ("dot", "left out"),
        Standing::Ahead if Some(visit.day) == next => ("dot next", "next"),
        Standing::Ahead if Some(visit.day) == last => ("dot plan", "last"),
        Standing::Ahead => ("dot plan", "planned"),
    };
    let name = element("small").text(done_words(programme, visit.control, visit.product));
    let date = element("time").set("datetime", visit.day.to_string()).text(visit.day.spoken());
    let end = element("span").child(element("b").text(word));
    let Visit { day, control, product, .. } = *visit;
    let end = if visit.standing == Standing::Ahead {
        end
    } else {
        let undo = act(move |()| {
            app.change(move |model| model.take_back_deed(day, control, product));
            focus_soon();
        });
        end.child(link_button("Take back".into(), undo))
    };
    element("li")
        .child(element("span").class(class).set("aria-hidden", "true"))
        .child(element("span").class("d").child(date).child(name))
        .child(end)
}

fn facts(pest: Pest, outline: &Outline) -> Vec<Element> {
    let fact = |name: &'static str, value: Element, small: Option<Element>| {
        let value = element("dd").child(value);
        let value = match small {
            Some(small) => value.child(element("small").child(small)),
            None => value,
        };
        element("div").child(element("dt").text(name)).child(value)
    };
    let mut facts = Vec::new();
    if let Some(hatched) = outline.hatched {
        let from = element("span")
            .text("perhaps from ")
            .child(day("answer-hatched-early", hatched.other));
        facts.push(fact(
            "Eggs of the first day hatched by",
            day("answer-hatched", hatched.central),
            Some(from),
        ));
    }
    if let Some(adult) = outline.last_adult {
        let late = element("span").text("late: ").child(day("answer-last-egg-late", adult.other));
        let name = if pest == Pest::Aphid {
            "Young of the first day breed from"
        } else {
            "Last old egg grown up about"
        };
        facts.push(fact(name, day("answer-last-egg", adult.central), Some(late)));
    } else if outline.stalls {
        let words = element("span").text("it is too cold: not for four months");
        facts.push(fact("Last old egg grown up", words, None));
    }
    if let Some(picking) = outline.pick_after_last {
        facts.push(fact(
            "After the last use the label lets you pick from",
            day("answer-pick-last", picking),
            None,
        ));
    }
    facts
}
