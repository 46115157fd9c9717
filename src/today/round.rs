use super::{Hours, Item, Reason, Task};
use crate::almanac::CivilDay;
use crate::water::{AGREES_FROM, Advice, BRIGHT_FROM, Container, Dose, Feel, Group, LastTruss, POLLEN_RUNS, SetPoor};

/// Hours of the day. The store has to be full before demand peaks, from 11 to 15 h (FAO-56 Box 18 for the peak, read; the early end choice).
const MORNING: Hours = Hours { from: 6, until: 11 };
/// Hours in which pollen runs (common practice, no source).
const POLLEN: Hours = Hours { from: 10, until: 15 };
/// Hours of the day. Paths are wet before the heat and dry by night (common practice, no source).
const DAMPING: Hours = Hours { from: 10, until: 13 };
/// Hours of the second of three waterings (choice: half-way).
const NOON: Hours = Hours { from: 11, until: 13 };
/// Hours of the last watering, so that leaves and surface are dry by night (choice).
const AFTERNOON: Hours = Hours { from: 13, until: 15 };

/// A group with its dose of this morning.
#[derive(Clone, Copy, Debug)]
pub struct GroupToday<'a> {
    /// The plants.
    pub group: &'a Group,
    /// What they get.
    pub dose: &'a Dose,
    /// The last truss that is likely to ripen, while there is one.
    pub last: Option<&'a LastTruss>,
    /// Whether they are stopped already.
    pub stopped: bool,
    /// Whether their next feed is due.
    pub feed_due: bool,
    /// Whether this morning's water is poured.
    pub watered: bool,
}

/// The butt now.
#[derive(Clone, Copy, Debug)]
pub struct ButtToday {
    /// Litres in it.
    pub level: f64,
    /// Litres for all groups after a clear day.
    pub clear_day: f64,
}

/// What is known this morning.
#[derive(Clone, Copy, Debug)]
pub struct Known<'a> {
    /// The day.
    pub today: CivilDay,
    /// Each group that has a dose; a position that has none is passed over.
    pub groups: &'a [Option<GroupToday<'a>>],
    /// The butt, where there is one.
    pub butt: Option<ButtToday>,
    /// The morning on which someone has to come, while nobody is at home.
    pub someone_comes: Option<CivilDay>,
}

/// Today's round: what to do, in the order of doing, then what not to do today. Groups with the same line share it.
#[must_use]
pub fn todays_round(known: &Known) -> Vec<Item> {
    let mut round = Round::default();
    let mut litres = 0.0;
    for (position, entry) in known.groups.iter().enumerate() {
        let Some(GroupToday {
            group,
            dose,
            last,
            stopped,
            feed_due,
            watered,
        }) = *entry
        else {
            continue;
        };
        if group.count > 0 {
            if !watered {
                litres += dose.per_plant.litres() * f64::from(group.count);
            }
            round.water(position, group, dose, watered);
            if feed_due && dose.hold_off {
                round.not_today(Task::Feed, Reason::Sodden, position);
            } else if feed_due && dose.feel == Some(Feel::Dry) {
                round.not_today(Task::Feed, Reason::DryRoots, position);
            } else if feed_due && watered {
                round.not_today(Task::Feed, Reason::AlreadyWatered, position);
            } else if feed_due {
                round.add(Task::Feed, Reason::FeedDue, None, Some(position));
            }
            if !group.place.is_outdoors() {
                round.air(position, group, dose);
            }
            if let Some(last) = last {
                if !stopped && (last.stop..last.taper.0).contains(&known.today) {
                    round.add(Task::StopPlants, Reason::LastTruss, None, Some(position));
                }
                if known.today >= last.taper.0 {
                    round.add(Task::Taper, Reason::SeasonEnds, None, Some(position));
                }
            }
        }
    }
    if let Some(butt) = known.butt {
        if butt.level < litres {
            round.add(Task::TopUpButt, Reason::ButtShortToday, None, None);
        } else if butt.level < litres + butt.clear_day {
            round.add(Task::TopUpButt, Reason::ButtShortTomorrow, None, None);
        }
    }
    if let Some(day) = known.someone_comes.filter(|&day| day >= known.today) {
        round.add(Task::SomeoneComes, Reason::Away, None, None);
        if let Some(item) = round.items.iter_mut().find(|item| item.task == Task::SomeoneComes) {
            item.day = (day > known.today).then_some(day);
        }
    }
    round.items
}

#[derive(Default)]
struct Round {
    items: Vec<Item>,
}

impl Round {
    fn add(&mut self, task: Task, reason: Reason, hours: Option<Hours>, group: Option<usize>) {
        self.line(task, reason, false, hours, group);
    }

    fn not_today(&mut self, task: Task, reason: Reason, group: usize) {
        self.line(task, reason, true, None, Some(group));
    }

    fn line(&mut self, task: Task, reason: Reason, not_today: bool, hours: Option<Hours>, group: Option<usize>) {
        let same = |item: &&mut Item| (item.task, item.reason, item.not_today, item.hours) == (task, reason, not_today, hours);
        if let Some(item) = self.items.iter_mut().find(same) {
            item.groups.extend(group);
        } else {
            // In order at once: sorting would bring a tenfold of this code.
            let before = |item: &&Item| (item.not_today, item.task) <= (not_today, task);
            let place = self.items.iter().take_while(before).count();
            let item = Item {
                task,
                reason,
                not_today,
                hours,
                day: None,
                groups: group.into_iter().collect(),
            };
            self.items.insert(place, item);
        }
    }

    /// The compost, the water and its further pours, as far as they are still to be done.
    fn water(&mut self, position: usize, group: &Group, dose: &Dose, watered: bool) {
        let group_at = Some(position);
        if dose.hold_off {
            self.not_today(Task::Water, Reason::Sodden, position);
            return;
        }
        if dose.per_plant.litres() <= 0.0 {
            if dose.rain > 0.0 {
                self.not_today(Task::Water, Reason::RainDidIt, position);
            }
            return;
        }
        if !watered && dose.feel.is_none() && dose.weather.clearness < AGREES_FROM {
            let feel = match group.container {
                Container::Pot { .. } | Container::Basket { .. } => Task::LiftPot,
                _ => Task::Squeeze,
            };
            self.add(feel, Reason::SumReadsHigh, Some(MORNING), group_at);
        }
        if dose.feel == Some(Feel::Dry) {
            if !watered {
                self.add(Task::WaterDry, Reason::Dry, Some(MORNING), group_at);
            }
            self.add(Task::SqueezeAgain, Reason::Dry, None, group_at);
        } else if !watered {
            self.add(Task::Water, Reason::Daily, Some(MORNING), group_at);
        }
        if dose.waterings > 2 {
            self.add(Task::PourAtNoon, Reason::SmallStore, Some(NOON), group_at);
        }
        if dose.waterings > 1 {
            self.add(Task::PourBeforeThree, Reason::SmallStore, Some(AFTERNOON), group_at);
        }
    }

    /// What goes by the air in a house: tapping before wetting, both only when the day is right.
    fn air(&mut self, position: usize, group: &Group, dose: &Dose) {
        let damp = dose.damp_path().is_some();
        if damp {
            self.add(Task::DampPath, Reason::HotAndDry, Some(DAMPING), Some(position));
        }
        let (_, trusses) = group.size.settled();
        if trusses < 1.0 {
            return;
        }
        match dose.set_advice() {
            Some(Advice::TapTrusses) if damp => self.add(Task::Tap, Reason::BeforeWetting, Some(POLLEN), Some(position)),
            Some(Advice::TapTrusses) => self.add(Task::Tap, Reason::FlowersOpen, Some(POLLEN), Some(position)),
            Some(Advice::SetLikelyPoor(why)) => {
                let reason = match why {
                    SetPoor::ColdNight { .. } => Reason::ColdNight,
                    SetPoor::HotDay { .. } => Reason::HotDay,
                    SetPoor::DampAir => Reason::DampAir,
                };
                self.not_today(Task::Tap, reason, position);
            }
            _ => {
                let reason = if dose.weather.clearness < BRIGHT_FROM {
                    Reason::Dull
                } else if dose.late_morning() < POLLEN_RUNS.0 {
                    Reason::Cool
                } else {
                    Reason::Warm
                };
                self.not_today(Task::Tap, reason, position);
            }
        }
    }
}
