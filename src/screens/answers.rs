//! This morning's answer for each group, rounded to what is poured, before it becomes words.

use crate::almanac::{CivilDay, Latitude};
use crate::notebook::{GroupRecord, Notebook};
use crate::quantity::{Measure, Units, Volume};
use crate::water::{
    Advice, Care, DayRecord, Dose, Group, Handed, LastTruss, Past, Records, Season, Standing, WaterError, last_truss, season_after,
};

/// All that an answer follows from.
#[derive(Clone, Debug, PartialEq)]
struct Given {
    group: Group,
    days: Vec<DayRecord>,
    learn_from: Option<CivilDay>,
    looked: Option<CivilDay>,
    stopped_at: Option<f64>,
    handed: Option<Handed>,
    place: Latitude,
    today: CivilDay,
    units: Units,
}

/// One group's answer.
#[derive(Debug)]
pub struct GroupAnswer {
    /// The group's own number, by which an earlier answer is found again.
    pub id: u32,
    /// What it follows from: as long as that is the same, so is the answer.
    given: Given,
    /// The days before yesterday, lived through.
    past: Past,
    /// How often it has been worked out anew.
    pub turn: u32,
    /// The last answer that could be worked out.
    pub shown: Option<Shown>,
    /// Why there is no newer one.
    pub error: Option<WaterError>,
}

/// An answer as it is poured.
#[derive(Clone, Debug, PartialEq)]
pub struct Shown {
    /// The group's days up to this morning, what they taught, and the dose with its working.
    pub season: Season,
    /// The dose for a plant, rounded.
    pub each: Measure,
    /// Low end of the likely range, rounded.
    pub low: Measure,
    /// High end of the likely range, rounded.
    pub high: Measure,
    /// What all plants that share a container get, when several do; in the dose's unit, for it stands behind its range.
    pub container: Option<Measure>,
    /// What the whole group gets.
    pub total: Volume,
    /// What follows.
    pub advice: Vec<Advice>,
    /// The plants as they stand this morning.
    pub standing: Standing,
    /// The last truss that is likely to ripen, while there is one.
    pub last_truss: Option<LastTruss>,
}

impl Given {
    fn records(&self) -> Records<'_> {
        Records {
            days: &self.days,
            learn_from: self.learn_from,
            looked: self.looked,
            stopped_at: self.stopped_at,
            care: Care::of(&self.group),
            handed: self.handed,
            ..Records::new(&self.group)
        }
    }

    /// Whether nothing differs but what is told of yesterday and of this morning.
    fn has_same_past(&self, other: &Self) -> bool {
        let yesterday = self.today.yesterday();
        let [here, there] = [self, other].map(|given| given.days.iter().filter(|record| record.day < yesterday));
        let plants = |given: &Self| {
            (
                given.learn_from,
                given.looked,
                given.stopped_at,
                given.handed,
                given.place,
                given.today,
                given
                    .days
                    .iter()
                    .filter_map(|record| Some((record.day, record.before?)))
                    .collect::<Vec<_>>(),
            )
        };
        self.group == other.group && plants(self) == plants(other) && here.eq(there)
    }
}

/// The answers for the first so many groups. Where a new one cannot be worked out the one of `before` stays.
pub fn answers(notebook: &Notebook, groups: usize, today: CivilDay, mut before: Vec<GroupAnswer>) -> Vec<GroupAnswer> {
    let answer = |record: &GroupRecord| {
        let given = Given {
            group: notebook.plants(record, today),
            days: notebook.records(record, today),
            learn_from: record.learn_from,
            looked: record.looked,
            stopped_at: record.stopped_at.value(),
            handed: record.handed,
            place: notebook.place(),
            today,
            units: notebook.units,
        };
        let earlier = before.iter().position(|answer| answer.id == record.id);
        match earlier.map(|place| before.swap_remove(place)) {
            Some(earlier) if earlier.given == given => earlier,
            earlier => answer(record.id, given, earlier),
        }
    };
    notebook.groups.iter().take(groups).map(answer).collect()
}

fn answer(id: u32, given: Given, earlier: Option<GroupAnswer>) -> GroupAnswer {
    let (before, past, turn) = match earlier {
        Some(earlier) => {
            let past = earlier.given.has_same_past(&given).then_some(earlier.past);
            (earlier.shown, past, earlier.turn.wrapping_add(1))
        }
        None => (None, None, 0),
    };
    let records = given.records();
    let past = past.unwrap_or_else(|| Past::of(&records, given.place, given.today));
    let (shown, error) = match season_after(&past, &records, given.place, given.today) {
        Ok(season) => (Some(shown(season, &given)), None),
        Err(error) => (before, Some(error)),
    };
    GroupAnswer {
        id,
        given,
        past,
        turn,
        shown,
        error,
    }
}

fn shown(season: Season, given: &Given) -> Shown {
    let Given { group, units, .. } = given;
    let units = *units;
    let standing = Standing {
        group: Group {
            size: season.size,
            ..group.clone()
        },
        thirst: season.thirst,
        stopped_at: given.stopped_at,
    };
    let dose = &season.dose;
    let each = Measure::dose(dose.per_plant, units);
    let times = |count: u32| Volume::from_litres(each.volume.litres() * f64::from(count));
    let sharing = group.container.plants();
    Shown {
        low: Measure::end_of_range(dose.low, units, &each),
        high: Measure::end_of_range(dose.high, units, &each),
        container: (sharing > 1).then(|| Measure::end_of_range(times(sharing), units, &each)),
        total: times(group.count),
        each,
        advice: season.advice(group),
        last_truss: last_truss(&standing, given.place, given.today),
        standing,
        season,
    }
}

/// What all groups get together.
pub fn total(answers: &[GroupAnswer]) -> Volume {
    Volume::from_litres(
        answers
            .iter()
            .filter_map(|answer| answer.shown.as_ref())
            .map(|shown| shown.total.litres())
            .sum(),
    )
}

impl Shown {
    /// The dose and its working.
    pub const fn dose(&self) -> &Dose {
        &self.season.dose
    }

    /// Whether both ends of the likely range have the same unit, in the singular or the plural.
    pub fn shares_unit(&self) -> bool {
        self.low.unit.trim_end_matches('s') == self.high.unit.trim_end_matches('s')
    }
}
