//! This morning's answer for each group, rounded to what is poured, before it becomes words.

use crate::almanac::CivilDay;
use crate::notebook::{GroupRecord, Notebook};
use crate::quantity::{Measure, UnitSystem, Units, Volume};
use crate::water::{Advice, Dose, WaterError, morning_water};

/// One group's answer.
#[derive(Clone, Debug, PartialEq)]
pub struct GroupAnswer {
    /// The group's own number, by which an earlier answer is found again.
    pub id: u32,
    /// The last answer that could be worked out.
    pub shown: Option<Shown>,
    /// Why there is no newer one.
    pub error: Option<WaterError>,
}

/// An answer as it is poured.
#[derive(Clone, Debug, PartialEq)]
pub struct Shown {
    /// The dose and its working.
    pub dose: Dose,
    /// The dose for a plant, rounded.
    pub each: Measure,
    /// Low end of the likely range, rounded.
    pub low: Measure,
    /// High end of the likely range, rounded.
    pub high: Measure,
    /// What all plants that share a container get, when several do.
    pub container: Option<Measure>,
    /// What the whole group gets.
    pub total: Volume,
    /// What follows.
    pub advice: Vec<Advice>,
}

/// The answers for all groups. Where a new one cannot be worked out the one of `before` stays.
pub fn answers(notebook: &Notebook, today: CivilDay, before: &[GroupAnswer]) -> Vec<GroupAnswer> {
    let yesterday = notebook.morning.yesterday();
    let place = notebook.place();
    notebook
        .groups
        .iter()
        .map(|record| {
            let group = record.group();
            match morning_water(&group, &yesterday, record.feel, place, today) {
                Ok(dose) => {
                    let advice = dose.advice(&group);
                    GroupAnswer {
                        id: record.id,
                        shown: Some(shown(dose, advice, record, notebook.units)),
                        error: None,
                    }
                }
                Err(error) => {
                    let earlier = before.iter().find(|answer| answer.id == record.id);
                    GroupAnswer {
                        id: record.id,
                        shown: earlier.and_then(|answer| answer.shown.clone()),
                        error: Some(error),
                    }
                }
            }
        })
        .collect()
}

fn shown(dose: Dose, advice: Vec<Advice>, record: &GroupRecord, units: Units) -> Shown {
    let each = Measure::dose(dose.per_plant, units);
    let times = |count: u32| Volume::from_litres(each.volume.litres() * f64::from(count));
    let sharing = record.group().container.plants();
    Shown {
        low: Measure::dose(dose.low, units),
        high: Measure::dose(dose.high, units),
        container: (sharing > 1).then(|| Measure::dose(times(sharing), units)),
        total: times(record.count()),
        each,
        advice,
        dose,
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

/// A volume in the unit that the jug of these units is marked in.
pub const fn on_the_jug(volume: Volume, units: Units) -> f64 {
    match units.system {
        UnitSystem::Imperial => volume.imperial_pints(),
        UnitSystem::Metric => volume.litres(),
        UnitSystem::Us => volume.us_pints(),
    }
}

impl Shown {
    /// Whether both ends of the likely range have the same unit, in the singular or the plural.
    pub fn shares_unit(&self) -> bool {
        self.low.unit.trim_end_matches('s') == self.high.unit.trim_end_matches('s')
    }
}
