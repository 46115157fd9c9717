//! What is shared, and what came by a link.

use super::ahead::drinkers;
use super::away::visits;
use super::feed_answers::FeedAnswer;
use super::model::Model;
use crate::almanac::CivilDay;
use crate::feed::Due;
use crate::notebook::{FeedPlan, LinkError, Notebook, Plan, Reply, Treatment};
use crate::pest::Standing;
use crate::water::Absence;

/// Another plot's card that is looked at.
pub struct Guest {
    /// What was handed over.
    pub plan: Plan,
    /// The check of its link.
    pub check: u32,
}

/// What has become of a link that was to be passed on.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Passed {
    /// It was sent.
    Sent,
    /// It lies in the clipboard.
    Copied,
    /// The device does neither: it has to be copied by hand.
    ByHand,
}

/// What goes into a link, the link that was made, and what came by one.
#[derive(Default)]
#[expect(clippy::struct_excessive_bools, reason = "what goes along is ticked one by one")]
pub struct ShareState {
    /// How often anything has come by a link.
    pub arrivals: u32,
    /// The other plot, while its card is looked at.
    pub guest: Option<Guest>,
    /// Why a link was not opened.
    pub refused: Option<LinkError>,
    /// A list that came back.
    pub reply: Option<Reply>,
    /// The notebook before and after the list was noted in it, as long as that can be undone.
    pub before_reply: Option<(Notebook, Notebook)>,
    /// Whose plot, as typed for the link.
    pub plot: String,
    /// Whether the groups' own names go along.
    pub with_names: bool,
    /// Whether feed days stay out.
    pub without_feed: bool,
    /// Whether what is done by hand against pests stays out.
    pub without_treatments: bool,
    /// Whether treatments with a product go along: only as chosen, for they need the label.
    pub with_sprays: bool,
    /// The link that was made.
    pub link: Option<String>,
    /// What has become of it.
    pub passed: Option<Passed>,
}

impl ShareState {
    /// Turns a notebook to the page of this day, and tells the day: on another plot's card none before its plan.
    pub fn turn_to(&self, notebook: &mut Notebook, today: CivilDay) -> CivilDay {
        let today = match &self.guest {
            Some(Guest { plan, .. }) => {
                plan.look_after(notebook);
                today.max(plan.made)
            }
            None => today,
        };
        notebook.turn_to(today);
        today
    }
}

/// What is left of days away that have begun: the first day from this one on, and how many days from there; one at least.
pub fn still_away(first: CivilDay, days: u32, today: CivilDay) -> (CivilDay, u32) {
    let left = first.max(today);
    let gone = u32::try_from(left.days_since(first)).unwrap_or_default();
    (left, days.saturating_sub(gone).max(1))
}

/// The plan for whoever waters, of what stands here this morning; nothing when no group has an answer.
pub fn plan(model: &Model) -> Option<Plan> {
    let groups = drinkers(model);
    if groups.is_empty() {
        return None;
    }
    let share = &model.share;
    let Absence { first, days, .. } = model.notebook.away.absence(model.today);
    let (first, days) = still_away(first, days, model.today);
    let names = (share.plot.trim(), share.with_names);
    let mut plan = Plan::of(&model.notebook, &groups, names, (model.today, first, days.clamp(1, 60)));
    plan.visits = Some(visits(model, first, plan.days));
    if !share.without_feed {
        plan.feed = feed(model, first, plan.last());
    }
    plan.treatments = treatments(model, first, plan.last());
    plan.settle();
    Some(plan)
}

/// The days from `first_away` until `last` on which feed is due: what stands in the can, for the groups that were fed before and get it
/// as strong.
fn feed(model: &Model, first_away: CivilDay, last: CivilDay) -> Option<FeedPlan> {
    let mut plan: Option<FeedPlan> = None;
    for ((record, _), place) in drinkers(model).into_iter().zip(0..) {
        let mut answer = FeedAnswer::default();
        let at = model.answers.iter().position(|answer| answer.id == record.id);
        let water = at.and_then(|at| model.answers.get(at)?.shown.as_ref());
        answer.work_out(&model.notebook, Some(record), water, model.today);
        let Some(shown) = answer.shown.filter(|shown| shown.last_fed.is_some()) else {
            continue;
        };
        let (mut day, every) = match shown.timing.due {
            Due::Today => (model.today, shown.timing.next.0.days_since(model.today)),
            Due::On(day, _) => (day, shown.timing.next.0.days_since(model.today)),
            Due::NotYet(_) | Due::Never => continue,
        };
        let amount = shown.mix.amount.value;
        let mut days = Vec::new();
        while day <= last && days.len() < 60 {
            // Until then the plants are in the grower's own hands.
            if day >= first_away {
                days.push(day);
            }
            day = day.days_later(every.max(1));
        }
        let first = plan.get_or_insert_with(|| FeedPlan {
            amount,
            in_grams: shown.mix.is_weighed,
            each: shown.habit.litres,
            groups: Vec::new(),
            days: days.clone(),
        });
        let is_alike = (first.amount - amount).abs() < 0.01 && (first.each - shown.habit.litres).abs() < 0.001;
        if is_alike && first.days == days {
            first.groups.push(place);
        }
    }
    plan.filter(|feed| !feed.days.is_empty())
}

/// The treatments that are due this morning, of the programmes that have begun.
pub fn due_today(model: &Model) -> Vec<Treatment> {
    let begun = model
        .notebook
        .programmes
        .iter()
        .filter(|record| record.deeds.iter().any(|deed| deed.is_done));
    let mut due = Vec::new();
    for record in begun {
        let visits = model.outline_of(record).visits;
        let today = visits
            .iter()
            .filter(|visit| visit.standing == Standing::Ahead && visit.day == model.today);
        due.extend(today.map(|visit| Treatment {
            day: visit.day,
            pest: record.pest,
            control: visit.control,
            plants: record.plants,
        }));
    }
    due
}

/// The treatments of all programmes that fall due from `first_away` until `last`, of the kinds that go along. Where a label gives no date
/// there is none.
fn treatments(model: &Model, first_away: CivilDay, last: CivilDay) -> Vec<Treatment> {
    let mut treatments = Vec::new();
    for record in &model.notebook.programmes {
        let outline = model.outline_of(record);
        let ahead = outline
            .visits
            .iter()
            .filter(|visit| visit.standing == Standing::Ahead && (first_away..=last).contains(&visit.day))
            .filter(|visit| {
                let share = &model.share;
                if visit.control.needs_label() {
                    share.with_sprays
                } else {
                    !share.without_treatments
                }
            });
        treatments.extend(ahead.map(|visit| Treatment {
            day: visit.day,
            pest: record.pest,
            control: visit.control,
            plants: record.plants,
        }));
    }
    treatments
}
