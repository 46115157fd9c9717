use super::super::{Coded, DayPage, Done, GroupDay, Notebook, PestRecord};
use super::part::{Limit, POURED, Part, float, nearest};
use super::plan::days_after;
use super::plan_group::MOST_ID;
use super::{LinkError, all_can_be, opened, sealed};
use crate::almanac::{CivilDay, Sun, Yesterday};
use crate::pest::{Control, Deed, Pest};
use crate::today::Task;

/// The first letter of a reply's link.
const REPLY: u8 = b'a';
/// Kinds of its parts.
const HEAD: u8 = b'h';
const DAY: u8 = b'd';
const GROUP: u8 = b'g';
const TREATED: u8 = b't';

/// Days that a reply can tell of (limit).
const MOST_DAYS: usize = 60;
/// Days after the plan that they can lie (limit).
const LATEST: i64 = 180;

/// What whoever waters has done of a plan.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Reply {
    /// The check of the plan that it answers.
    pub plan: u32,
    /// The day on which that was made.
    pub made: CivilDay,
    /// What was noted, in order of the days: the sky, how the compost felt, what was poured and fed, and what was ticked.
    pub days: Vec<DayPage>,
}

impl Reply {
    /// The reply of a plan's notebook on the morning of `today`: its days from the one on which the plan was made.
    #[must_use]
    pub fn of(notebook: &Notebook, plan: u32, made: CivilDay, today: CivilDay) -> Self {
        let mut filed = notebook.clone();
        // This morning's entries are on the pages of their days once it is over.
        filed.turn_to(today.tomorrow());
        let mut reply = Self {
            plan,
            made,
            days: filed.days.into_iter().filter(|page| page.day >= made).collect(),
        };
        if let Some(page) = reply.days.first_mut().filter(|page| page.day == made) {
            // What was seen on that morning stands in the plan.
            page.groups.iter_mut().for_each(|group| group.feel = None);
        }
        let _ = reply.carry(&mut Vec::new());
        reply
    }

    /// The fragment of its link, without the sign before it.
    #[must_use]
    pub fn link(&self) -> String {
        let mut parts = Vec::new();
        let _ = self.clone().carry(&mut parts);
        sealed(REPLY, &parts)
    }

    /// The reply in a link's fragment.
    ///
    /// # Errors
    /// [`LinkError`], when it is none, or none that can be.
    pub fn open(fragment: &str) -> Result<Self, LinkError> {
        let mut parts = opened(fragment, REPLY)?;
        let mut reply = Self::default();
        reply.carry(&mut parts)?;
        all_can_be(&parts)?;
        Ok(reply)
    }

    /// Notes in a notebook what was done. What is noted there of the same days already stays; plants that are not there any more
    /// that nobody knows of are passed over.
    pub fn note_in(&self, notebook: &mut Notebook) {
        let groups = self.days.iter().flat_map(|page| &page.groups).map(|group| group.id);
        let ids: Vec<u32> = groups.filter(|id| notebook.known(*id).is_some()).collect();
        for page in &self.days {
            notebook.note(page.day, |mine| {
                if mine.weather.is_none() {
                    mine.weather = page.weather;
                }
                for group in page.groups.iter().filter(|group| ids.contains(&group.id)) {
                    mine.note(group.id, |mine| {
                        mine.given = mine.given.or(group.given);
                        mine.fed = mine.fed.or(group.fed);
                        mine.feel = mine.feel.or(group.feel);
                    });
                }
                for done in &page.done {
                    mine.tick(*done, true);
                }
            });
            for done in &page.done {
                let Done::Treated(pest, control, plants) = *done else {
                    continue;
                };
                let is_of = |programme: &&mut PestRecord| {
                    let plants_of = programme.plants.or(plants);
                    programme.pest == pest && (plants.is_none() || plants_of == plants)
                };
                let programmes = notebook.programmes.iter_mut().filter(is_of);
                // What stands between the sprays, or takes its turn with them, is not what is repeated.
                let Some(programme) = programmes.max_by_key(|programme| programme.control() == control) else {
                    continue;
                };
                let is_noted = |deed: &Deed| (deed.day, deed.control, deed.is_done) == (page.day, control, true);
                if !programme.deeds.iter().any(is_noted) {
                    let product = programme.number_of(control);
                    programme.note(page.day, control, product, true);
                }
            }
        }
        notebook.take_in_readings();
    }

    /// Writes the reply into parts, or reads it from them when there are any.
    fn carry(&mut self, parts: &mut Vec<Part>) -> Result<(), LinkError> {
        let reads = !parts.is_empty();
        if !reads {
            parts.push(Part::begun(HEAD));
        }
        let Some(head) = parts.first_mut().filter(|part| part.kind == HEAD) else {
            return Err(LinkError::Impossible { what: "its beginning" });
        };
        let plan = head.told(b'P', "its plan", Some(i64::from(self.plan)), Limit::to(i64::from(u32::MAX)));
        self.plan = plan.and_then(|plan| u32::try_from(plan).ok()).unwrap_or_default();
        self.made = head.day(b'A', self.made);
        if reads {
            for part in parts.iter_mut().skip(1) {
                match (part.kind, self.days.last_mut()) {
                    (DAY, last) => {
                        let earlier = last.map(|page| page.day);
                        let page = carry_day(part, &DayPage::of(self.made), self.made);
                        if earlier.is_some_and(|day| page.day <= day) || self.days.len() >= MOST_DAYS {
                            return Err(LinkError::Impossible { what: "its days" });
                        }
                        self.days.push(page);
                    }
                    (GROUP, Some(page)) => {
                        let GroupDay { id, given, fed, feel, .. } = carry_group(part, &GroupDay::default());
                        page.note(id, |group| (group.given, group.fed, group.feel) = (given, fed, feel));
                    }
                    (TREATED, Some(page)) => {
                        let treated = carry_treated(part, None);
                        if let Some(done) = treated {
                            page.tick(done, true);
                        }
                    }
                    _ => {}
                }
            }
            return Ok(());
        }
        let pages = std::mem::take(&mut self.days).into_iter().take(MOST_DAYS);
        for page in pages {
            let mut part = Part::begun(DAY);
            let mut kept = carry_day(&mut part, &page, self.made);
            parts.push(part);
            for group in page
                .groups
                .iter()
                .filter(|group| group.given.is_some() || group.fed.is_some() || group.feel.is_some())
            {
                let mut part = Part::begun(GROUP);
                let GroupDay { id, given, fed, feel, .. } = carry_group(&mut part, group);
                kept.note(id, |group| (group.given, group.fed, group.feel) = (given, fed, feel));
                parts.push(part);
            }
            for done in &page.done {
                if let Done::Treated(..) = done {
                    let mut part = Part::begun(TREATED);
                    let treated = carry_treated(&mut part, Some(*done));
                    if let Some(done) = treated {
                        kept.tick(done, true);
                    }
                    parts.push(part);
                }
            }
            if kept.is_empty() {
                parts.pop();
            } else {
                self.days.push(kept);
            }
        }
        Ok(())
    }
}

/// Carries a day without its groups and treatments.
fn carry_day(part: &mut Part, page: &DayPage, made: CivilDay) -> DayPage {
    let ahead = part.whole(b'D', "a day", i64::from(page.day.days_since(made)), Limit::to(LATEST));
    let mut kept = DayPage::of(days_after(made, ahead));
    let sky = page.weather.and_then(|weather| match weather.sun {
        Some(Sun::Word(sky)) => Some(sky),
        _ => None,
    });
    let sun = part.told_choice(b'S', sky).map(Sun::Word);
    kept.note_weather(&Yesterday {
        sun,
        ..Yesterday::default()
    });
    let mut bits = 0;
    for ((_, task), bit) in Task::CODES.iter().zip(0..) {
        if page.done.contains(&Done::Task(*task)) {
            bits |= 1 << bit;
        }
    }
    let bits = part.whole(b'T', "what was ticked", bits, Limit::to((1 << 32) - 1));
    for ((_, task), bit) in Task::CODES.iter().zip(0..) {
        kept.tick(Done::Task(*task), bits >> bit & 1 == 1);
    }
    kept
}

fn carry_group(part: &mut Part, group: &GroupDay) -> GroupDay {
    let id = part.whole(b'I', "the number of a group", i64::from(group.id), Limit::to(999_999));
    let mut litres = |key, what, told: Option<f64>| {
        let told = part.told(key, what, told.map(|litres| nearest(litres * POURED)), Limit::to(50_000));
        told.map(|told| float(told) / POURED)
    };
    let given = litres(b'W', "Water for each", group.given);
    let fed = litres(b'E', "Feed for each", group.fed);
    GroupDay {
        id: u32::try_from(id).unwrap_or_default(),
        given,
        fed,
        feel: part.told_choice(b'F', group.feel),
        ..GroupDay::default()
    }
}

fn carry_treated(part: &mut Part, done: Option<Done>) -> Option<Done> {
    let (pest, control, plants) = match done {
        Some(Done::Treated(pest, control, plants)) => (Some(pest), Some(control), plants),
        _ => (None, None, None),
    };
    let pest: Pest = part.told_choice(b'P', pest)?;
    let control: Control = part.told_choice(b'C', control)?;
    let plants = part.told(b'G', "the plants of a treatment", plants.map(i64::from), Limit::to(MOST_ID));
    Some(Done::Treated(pest, control, plants.and_then(|id| u32::try_from(id).ok())))
}
