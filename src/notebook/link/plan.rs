use super::super::{DayPage, Entry, Field, GroupRecord, MorningRecord, Notebook, open};
use super::moved::{MOVED, Move, carry_move, is_fresh};
use super::part::{Limit, POURED, Part, float, nearest, signed};
use super::plan_group::{MOST_ID, carry_group};
use super::{LinkError, all_can_be, opened, sealed};
use crate::almanac::{CivilDay, Thermometer};
use crate::pest::{Control, Pest};
use crate::quantity::{TemperatureScale, UnitSystem, Units};
use crate::water::{Season, Stay};

/// The first letter of a plan's link.
const PLAN: u8 = b's';
/// Kinds of its parts.
const HEAD: u8 = b'h';
pub(super) const GROUP: u8 = b'g';
const FEED: u8 = b'f';
const TREATMENT: u8 = b't';

/// Days of the longest period (limit).
const MOST_DAYS: i64 = 60;
/// How long after it was touched last another plot's card is over, days (choice: the longest period, which may begin a fortnight
/// ahead, and about a month more).
const CARD_OVER_AFTER: i32 = 105;
/// Treatments in one plan (limit).
const MOST_TREATMENTS: usize = 40;
/// Days that a wait for picking can take: a year, as labels have it, and the day after (limit).
const LONGEST_WAIT: i64 = 366;
/// Parts of a ml or g in which the feed for a can is told (limit).
const FEED_PARTS: f64 = 100.0;

/// The keys of what was told of the day before the plan. What stood under V was wind in metres a second in all units.
const MORNING_FIELDS: [(u8, Field); 6] = [
    (b'H', Field::SunshineHours),
    (b'X', Field::Warmest),
    (b'Y', Field::Coolest),
    (b'R', Field::Rain),
    (b'M', Field::Humidity),
    (b'K', Field::Wind),
];

/// Whether what is kept of another plot's card need not be kept any longer: nobody has touched it for 105 days before `today`.
/// A text that cannot be opened is never over.
#[must_use]
pub fn is_card_over(text: &str, today: CivilDay) -> bool {
    let touched = open(text).ok().and_then(|opened| opened.notebook.morning.day);
    touched.is_some_and(|day| today.days_since(day) >= CARD_OVER_AFTER)
}

/// How and when the plants are fed while somebody else looks after them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FeedPlan {
    /// Feed for the can, ml or g.
    pub amount: f64,
    /// Whether it is weighed.
    pub in_grams: bool,
    /// What each plant gets, litres.
    pub each: f64,
    /// The groups that are fed, by their places in the plan, in order.
    pub groups: Vec<usize>,
    /// The days on which it is due, in order.
    pub days: Vec<CivilDay>,
}

/// A treatment that falls due meanwhile.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Treatment {
    /// Its day.
    pub day: CivilDay,
    /// Against what.
    pub pest: Pest,
    /// With what.
    pub control: Control,
    /// On which plants, by the number of their group, where that is known.
    pub plants: Option<u32>,
}

/// How often whoever waters is asked to come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Visits {
    /// Days from one watering to the next, 1 to 60; 0 where they only look in.
    pub every: u32,
    /// The day by which they come first, up to 120 days after the plan was made.
    pub by: CivilDay,
    /// Whether they come twice on each day.
    pub twice_a_day: bool,
}

/// What is handed to whoever waters: the plants as a notebook of their own, and what falls due.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The plants on the morning of `made`, with what was told of the day before and of their compost. The plot's name is as it
    /// was typed for the plan.
    pub notebook: Notebook,
    /// The day on which it was made.
    pub made: CivilDay,
    /// The first day away.
    pub first: CivilDay,
    /// Days away, 1 to 60.
    pub days: u32,
    /// How often they are asked to come; not in links of older pages.
    pub visits: Option<Visits>,
    /// The feed, if it is part of the plan.
    pub feed: Option<FeedPlan>,
    /// Treatments that fall due.
    pub treatments: Vec<Treatment>,
    /// Days after `made` before which nothing may be picked, 0 to 366: 0 where nobody has read the label that says how long.
    pub pick_in: Option<u32>,
}

impl Plan {
    /// A plan of what is in a notebook on a morning: the groups at `groups` with their seasons, for so many days from `first`.
    /// Numbers are those that a link holds, so that a plan and its link say the same. The plot is called what is typed for the
    /// plan, and the groups keep their names only `with_names`.
    #[must_use]
    pub fn of(
        notebook: &Notebook,
        groups: &[(&GroupRecord, &Season)],
        (plot, with_names): (&str, bool),
        (made, first, days): (CivilDay, CivilDay, u32),
    ) -> Self {
        let mut own = Notebook {
            units: notebook.units,
            latitude: notebook.latitude.clone(),
            can: notebook.can.clone(),
            morning: notebook.morning.clone(),
            groups: Vec::new(),
            ..Notebook::default()
        };
        plot.clone_into(&mut own.plot.name);
        own.morning.day = Some(made);
        for (record, season) in groups {
            let mut group = GroupRecord {
                handed: season.handed,
                ..(*record).clone()
            };
            if !with_names {
                group.name.clear();
            }
            group.height.hold(season.size_before.height_metres);
            group.trusses.hold(season.size_before.trusses);
            own.groups.push(group);
            let given = notebook.day(made).and_then(|page| page.group(record.id)?.given);
            if given.is_some() {
                own.note(made, |page| page.note(record.id, |group| group.given = given));
            }
            if let Some((day, before)) = notebook.last_move(record.id, made).filter(|(day, _)| is_fresh(*day, made)) {
                own.note(day, |page| page.note(record.id, |group| group.before = Some(before)));
            }
        }
        let mut plan = Self {
            notebook: own,
            made,
            first,
            days,
            visits: None,
            feed: None,
            treatments: Vec::new(),
            pick_in: notebook.pick_in(made),
        };
        plan.settle();
        plan
    }

    /// Makes every number one that a link holds.
    pub fn settle(&mut self) {
        let _ = self.carry(&mut Vec::new());
    }

    /// The fragment of its link, without the sign before it.
    #[must_use]
    pub fn link(&self) -> String {
        let mut parts = Vec::new();
        let _ = self.clone().carry(&mut parts);
        sealed(PLAN, &parts)
    }

    /// The plan in a link's fragment.
    ///
    /// # Errors
    /// [`LinkError`], when it is none, or none that can be.
    pub fn open(fragment: &str) -> Result<Self, LinkError> {
        let mut parts = opened(fragment, PLAN)?;
        let mut plan = Self {
            notebook: Notebook {
                groups: Vec::new(),
                ..Notebook::default()
            },
            made: CivilDay::default(),
            first: CivilDay::default(),
            days: 0,
            visits: None,
            feed: None,
            treatments: Vec::new(),
            pick_in: None,
        };
        plan.carry(&mut parts)?;
        all_can_be(&parts)?;
        Ok(plan)
    }

    /// Tells a card of its plants that they stay with whoever waters. A card that does not know it yet was kept by an older page, which
    /// wrote noughts from the second day away where nobody had noted anything: these are taken out.
    pub fn look_after(&self, card: &mut Notebook) {
        let mut is_new = false;
        for handed in card.groups.iter_mut().filter_map(|group| group.handed.as_mut()) {
            let stay = handed.stay.replace(Stay {
                from: self.first,
                kept_on: None,
            });
            is_new |= stay.is_none();
        }
        let taken = |page: &&DayPage| is_new && page.day > self.first && page.noted_at.is_empty();
        let days: Vec<CivilDay> = card.days.iter().filter(taken).map(|page| page.day).collect();
        for day in days {
            card.note(day, |page| {
                for id in page.groups.iter().map(|group| group.id).collect::<Vec<_>>() {
                    page.note(id, |group| group.given = group.given.filter(|litres| *litres > 0.0));
                }
            });
        }
    }

    /// The last day away.
    #[must_use]
    pub fn last(&self) -> CivilDay {
        self.first.days_later(i32::try_from(self.days).unwrap_or(i32::MAX) - 1)
    }

    /// Whether the plants are to be fed on a day.
    #[must_use]
    pub fn feeds_on(&self, day: CivilDay) -> bool {
        self.feed.as_ref().is_some_and(|feed| feed.days.contains(&day))
    }

    /// Writes the plan into parts, or reads it from them when there are any.
    fn carry(&mut self, parts: &mut Vec<Part>) -> Result<(), LinkError> {
        let reads = !parts.is_empty();
        if !reads {
            parts.push(Part::begun(HEAD));
        }
        let Some(head) = parts.first_mut().filter(|part| part.kind == HEAD) else {
            return Err(LinkError::Impossible { what: "its beginning" });
        };
        self.carry_head(head);
        if reads {
            for part in parts.iter_mut() {
                match part.kind {
                    GROUP if self.notebook.groups.len() < Notebook::MOST_GROUPS => {
                        let mut group = GroupRecord::default();
                        let place = signed(self.notebook.groups.len());
                        let given = carry_group(part, &mut group, None, place, self.made, self.notebook.units);
                        self.take_group(group, given);
                    }
                    GROUP => {
                        return Err(LinkError::Impossible {
                            what: "more groups than eight",
                        });
                    }
                    MOVED => {
                        let nowhere = Move {
                            place: 0,
                            day: self.made,
                            before: None,
                        };
                        let moved = carry_move(part, &nowhere, self.made);
                        self.take_move(&moved);
                    }
                    FEED => self.feed = Some(carry_feed(part, &FeedPlan::default(), self.made)),
                    TREATMENT if self.treatments.len() < MOST_TREATMENTS => {
                        self.treatments.extend(carry_treatment(part, None, self.made));
                    }
                    TREATMENT => {
                        return Err(LinkError::Impossible {
                            what: "so many treatments",
                        });
                    }
                    _ => {}
                }
            }
            let ids = |place: usize| self.notebook.groups.iter().skip(place + 1).map(|other| other.id);
            let mut groups = self.notebook.groups.iter().enumerate();
            if groups.any(|(place, group)| ids(place).any(|other| other == group.id)) || self.notebook.groups.is_empty() {
                return Err(LinkError::Impossible { what: "its groups" });
            }
            return Ok(());
        }
        let pages = std::mem::take(&mut self.notebook.days);
        for (group, place) in std::mem::take(&mut self.notebook.groups)
            .into_iter()
            .zip(0_usize..)
            .take(Notebook::MOST_GROUPS)
        {
            let mut group = group;
            let id = group.id;
            let mut part = Part::begun(GROUP);
            let page = pages.iter().find(|page| page.day == self.made);
            let noted = page.and_then(|page| page.group(group.id));
            let given = noted.and_then(|noted| noted.given);
            let given = carry_group(&mut part, &mut group, given, signed(place), self.made, self.notebook.units);
            parts.push(part);
            self.take_group(group, given);
            let mut earlier = pages.iter().rev().filter_map(|page| Some((page.day, page.group(id)?.before?)));
            if let Some((day, before)) = earlier.find(|(day, _)| is_fresh(*day, self.made)) {
                let mut part = Part::begun(MOVED);
                let before = Some(before);
                let moved = carry_move(&mut part, &Move { place, day, before }, self.made);
                parts.push(part);
                self.take_move(&moved);
            }
        }
        if let Some(feed) = self.feed.take() {
            let mut part = Part::begun(FEED);
            self.feed = Some(carry_feed(&mut part, &feed, self.made));
            parts.push(part);
        }
        for treatment in std::mem::take(&mut self.treatments).into_iter().take(MOST_TREATMENTS) {
            let mut part = Part::begun(TREATMENT);
            self.treatments.extend(carry_treatment(&mut part, Some(treatment), self.made));
            parts.push(part);
        }
        Ok(())
    }

    fn take_group(&mut self, group: GroupRecord, given: Option<f64>) {
        let id = group.id;
        self.notebook.next_id = self.notebook.next_id.max(id.wrapping_add(1));
        self.notebook.groups.push(group);
        if given.is_some() {
            self.notebook.note(self.made, |page| page.note(id, |group| group.given = given));
        }
    }

    fn take_move(&mut self, moved: &Move) {
        if let Some(id) = self.notebook.groups.get(moved.place).map(|group| group.id) {
            // One for each group.
            if let Some((day, _)) = self.notebook.last_move(id, self.made) {
                self.notebook.note(day, |page| page.note(id, |group| group.before = None));
            }
            self.notebook
                .note(moved.day, |page| page.note(id, |group| group.before = moved.before));
        }
    }

    fn carry_head(&mut self, part: &mut Part) {
        let notebook = &mut self.notebook;
        self.made = part.day(b'A', self.made);
        let ahead = |day: CivilDay| i64::from(day.days_since(self.made));
        let ahead = part.whole(
            b'B',
            "the first day",
            ahead(self.first),
            Limit {
                usual: 1,
                ..Limit::to(MOST_DAYS)
            },
        );
        self.first = days_after(self.made, ahead);
        let days = part.whole(
            b'C',
            "the days",
            i64::from(self.days),
            Limit {
                low: 1,
                high: MOST_DAYS,
                usual: 7,
            },
        );
        self.days = u32::try_from(days).unwrap_or(1);
        self.visits = carry_visits(part, self.visits, self.made);
        let pick_in = part.told(b'P', "the day for picking", self.pick_in.map(i64::from), Limit::to(LONGEST_WAIT));
        self.pick_in = pick_in.and_then(|days| u32::try_from(days).ok());
        notebook.units = Units {
            system: part.choice::<UnitSystem>(b'U', notebook.units.system),
            temperature: part.choice::<TemperatureScale>(b'D', notebook.units.temperature),
        };
        let units = notebook.units;
        let halves = notebook.latitude.value().map(|_| nearest(notebook.place().degrees_north() * 2.0));
        let halves = part.told(
            b'L',
            "Latitude",
            halves,
            Limit {
                low: -180,
                ..Limit::to(180)
            },
        );
        notebook.latitude = halves.map_or_else(Entry::default, |halves| Entry::holding(Field::Latitude, units, float(halves) / 2.0));
        carry_can(part, &mut notebook.can, units);
        let morning = &mut notebook.morning;
        let mut told = MorningRecord::on(self.made, part.choice::<Thermometer>(b'T', morning.thermometer));
        told.sky = part.told_choice(b'S', morning.sky);
        for (key, field) in MORNING_FIELDS {
            if let (Some(entry), Some(kept)) = (morning.entry_mut(field), told.entry_mut(field)) {
                part.entry(key, field, units, entry);
                *kept = std::mem::take(entry);
            }
        }
        *morning = told;
        notebook.plot.name = part.text(&notebook.plot.name);
    }
}

/// Carries how often whoever waters is asked to come.
fn carry_visits(part: &mut Part, visits: Option<Visits>, made: CivilDay) -> Option<Visits> {
    let limits = [Limit::to(MOST_DAYS), Limit::to(2 * MOST_DAYS), Limit::to(1)];
    let numbers = visits.map(|visits| {
        let ahead = i64::from(visits.by.days_since(made));
        [i64::from(visits.every), ahead, i64::from(visits.twice_a_day)]
    });
    let told = part.list(b'E', "how often someone comes", numbers.as_ref().map(<[i64; 3]>::as_slice), &limits);
    let Some(&[every, ahead, twice_a_day]) = told.as_deref() else {
        return None;
    };
    Some(Visits {
        every: u32::try_from(every).unwrap_or_default(),
        by: days_after(made, ahead),
        twice_a_day: twice_a_day == 1,
    })
}

/// Carries the size of the can, in the plot's units, and the measure in which it is told where that is another.
fn carry_can(part: &mut Part, can: &mut Entry, units: Units) {
    let measure = can.units(Field::Can, units).system;
    let is_another = |measure: &UnitSystem| *measure != units.system;
    let measure = part.told_choice(b'G', Some(measure).filter(is_another));
    part.entry(b'W', Field::Can, units, can);
    if let Some(system) = measure.filter(is_another) {
        can.tell_in(Field::Can, units, system);
    }
}

fn carry_feed(part: &mut Part, feed: &FeedPlan, made: CivilDay) -> FeedPlan {
    let amount = part.whole(b'A', "the feed", nearest(feed.amount * FEED_PARTS), Limit::to(10_000_000));
    let in_grams = part.whole(b'G', "the feed", i64::from(feed.in_grams), Limit::to(1)) == 1;
    let each = part.whole(b'E', "Feed for each", nearest(feed.each * POURED), Limit::to(50_000));
    let mask = feed
        .groups
        .iter()
        .filter(|&&place| place < Notebook::MOST_GROUPS)
        .map(|place| 1 << place)
        .sum();
    let mask = part.whole(b'P', "the plants that are fed", mask, Limit::to((1 << Notebook::MOST_GROUPS) - 1));
    let days: Vec<i64> = feed.days.iter().map(|day| i64::from(day.days_since(made))).collect();
    // A day is a bit in one of four numbers of forty: more days than a plan has, and few digits.
    let mut bits = [0_i64; 4];
    for day in days {
        let (word, bit) = (day.div_euclid(40), day.rem_euclid(40));
        if let Some(word) = usize::try_from(word).ok().and_then(|word| bits.get_mut(word)) {
            *word |= 1 << bit;
        }
    }
    let limit = Limit::to((1 << 40) - 1);
    let bits = part
        .list(b'D', "the days of the feed", Some(&bits), &[limit; 4])
        .unwrap_or_default();
    let due = bits.iter().zip(0..).flat_map(|(word, at)| {
        let set = move |bit: &i64| word >> bit & 1 == 1;
        (0..40).filter(set).map(move |bit| at * 40 + bit)
    });
    FeedPlan {
        amount: float(amount) / FEED_PARTS,
        in_grams,
        each: float(each) / POURED,
        groups: (0..Notebook::MOST_GROUPS).filter(|place| mask >> place & 1 == 1).collect(),
        days: due.map(|days| days_after(made, days)).collect(),
    }
}

fn carry_treatment(part: &mut Part, treatment: Option<Treatment>, made: CivilDay) -> Option<Treatment> {
    let ahead = treatment.map(|treatment| i64::from(treatment.day.days_since(made)));
    let ahead = part.told(b'D', "the day of a treatment", ahead, Limit::to(2 * MOST_DAYS))?;
    Some(Treatment {
        day: days_after(made, ahead),
        pest: part.told_choice(b'P', treatment.map(|treatment| treatment.pest))?,
        control: part.told_choice(b'C', treatment.map(|treatment| treatment.control))?,
        plants: part
            .told(
                b'G',
                "the plants of a treatment",
                treatment.and_then(|treatment| treatment.plants).map(i64::from),
                Limit::to(MOST_ID),
            )
            .and_then(|id| u32::try_from(id).ok()),
    })
}

/// A day so many days later.
pub(super) fn days_after(day: CivilDay, days: i64) -> CivilDay {
    day.days_later(i32::try_from(days).unwrap_or_default())
}
