//! The answer of Feed mix, before it becomes words.

use super::answers::Shown;
use super::model::Model;
use super::route::Route;
use crate::almanac::{CivilDay, Latitude};
use crate::feed::{
    Blend, BlendError, Contents, FED_OF_LATE, Feed, HALF, Habit, Look, Mix, MixError, Need, Part, Situation, Stage, Stem, Timing, WEEK,
    blend, from_compost, mix, needs, nitrogen_aim, target, timing,
};
use crate::notebook::{Bottle, ContainerKind, Entry, FeedRecord, Field, GroupRecord, Notebook};
use crate::quantity::{Likely, Units};
use crate::water::{is_ending, is_over};
use crate::working::Working;

/// All that the answer follows from.
#[derive(Clone, Debug, PartialEq)]
struct Given {
    feed: FeedRecord,
    units: Units,
    can: f64,
    place: Latitude,
    today: CivilDay,
    /// The group that is looked at, by its number.
    group: Option<u32>,
    last_fed: Option<CivilDay>,
    weeks: Option<f64>,
    compost: Option<f64>,
    /// Of the group that is looked at, as told.
    stage: Stage,
    is_over: bool,
    stem: Option<Stem>,
    granules: bool,
    /// Today's water for a plant, litres.
    water: Option<f64>,
}

/// The can as it is poured today, and what follows.
pub struct FeedShown {
    /// What the can reads at the dose as it is typed, mS/cm: more than the mix where that is weaker.
    pub as_typed: Likely,
    /// The feed at the strength that is poured.
    pub mix: Mix,
    /// Litres in the can.
    pub can: f64,
    /// How far the crop is, as told or as trusses and season say.
    pub stage: Stage,
    /// How far up its band the nitrogen should stand.
    pub aim: f64,
    /// Whether it is time.
    pub timing: Timing,
    /// A week's need.
    pub needs: [Need; 3],
    /// Nitrogen that the compost still gives in a week, g.
    pub from_compost: Option<Likely>,
    /// Litres for a plant, and times a week.
    pub habit: Habit,
    /// When the plants were last fed.
    pub last_fed: Option<CivilDay>,
    /// The words of label and dose that were used.
    pub words: (String, String),
}

/// What stands in Feed mix.
#[derive(Default)]
pub struct FeedAnswer {
    given: Option<Given>,
    /// How often it has been worked out anew.
    pub turn: u32,
    /// The last answer that could be worked out.
    pub shown: Option<FeedShown>,
    /// Why there is no newer one.
    pub error: Option<MixError>,
    /// What the shelf was mixed from and for.
    mixed: Option<(Vec<Contents>, [f64; 6])>,
    /// What the shelf gives, when anything stands on it.
    pub shelf: Option<Result<Blend, BlendError>>,
    /// Where something looks wrong, and what it looks like.
    pub sign: (Option<Part>, Option<Look>),
    /// The feed that was taken off the shelf last, as long as it can be put back.
    pub removed: Option<Bottle>,
}

impl Given {
    fn aim(&self) -> f64 {
        nitrogen_aim(self.today, self.place, self.stem)
    }
}

impl FeedAnswer {
    /// Works the answer out anew, unless all is as before. Where that cannot be done the earlier one stays.
    pub fn work_out(&mut self, notebook: &Notebook, group: Option<&GroupRecord>, water: Option<&Shown>, today: CivilDay) {
        let given = given(notebook, group, water, today);
        if self.given.as_ref() == Some(&given) {
            return;
        }
        self.turn = self.turn.wrapping_add(1);
        let whose = |given: &Given| (given.feed.bottle().id, given.group, given.today);
        if self.given.as_ref().map(whose) != Some(whose(&given)) {
            // An earlier answer would be another feed's, group's or day's.
            self.shown = None;
        }
        match answer(&given, notebook, false) {
            Ok(shown) => (self.shown, self.error) = (Some(shown), None),
            Err(error) => {
                // By the words of before, and all else as it is now: a feed that was noted meanwhile counts.
                self.shown = answer(&given, notebook, true).ok().or_else(|| self.shown.take());
                self.error = Some(error);
            }
        }
        let things = given.feed.things();
        let aim = target(given.stage, given.aim(), given.feed.water.calcium());
        let mixed = Some((things, aim)).filter(|(things, _)| !things.is_empty());
        // A shelf of twelve takes its time; most that is typed leaves it as it was.
        if self.mixed != mixed {
            self.shelf = mixed.as_ref().map(|(things, aim)| blend(things, aim));
            self.mixed = mixed;
        }
        self.given = Some(given);
    }
}

/// Works the answer of Feed mix out anew, while that is looked at.
pub fn work_out(model: &mut Model) {
    if model.route == Route::FeedMix {
        let water = model.answers.get(model.selected).and_then(|answer| answer.shown.as_ref());
        let group = model.notebook.groups.get(model.selected);
        model.feed.work_out(&model.notebook, group, water, model.today);
    }
}

/// Weeks since a group was planted into its compost.
pub fn weeks_in_compost(group: &GroupRecord, today: CivilDay) -> Option<f64> {
    group.planted.map(|planted| f64::from(today.days_since(planted).max(0)) / WEEK)
}

/// Whether a group was fed in the last fortnight.
pub fn is_fed(notebook: &Notebook, group: Option<&GroupRecord>, today: CivilDay) -> bool {
    let last = group.and_then(|group| notebook.last_fed(group.id, today));
    last.is_some_and(|day| today.days_since(day) <= FED_OF_LATE)
}

/// Feed for a plant until told: today's water, or the usual feed where that is less.
pub fn assumed_each(water: Option<f64>, usual: f64) -> f64 {
    water.filter(|&litres| litres > 0.0 && litres < usual).unwrap_or(usual)
}

/// How far a group is: as told, or by its trusses and the season where nothing is told, or it was long ago and they have gone further.
pub fn stage(notebook: &Notebook, group: Option<&GroupRecord>, water: Option<&Shown>, today: CivilDay) -> Stage {
    let assumed = || {
        let size = water.map(|shown| shown.season.size).or_else(|| Some(group?.group().size));
        let trusses = size.map(|size| size.settled().1).unwrap_or_default();
        let is_ending = water.is_some_and(|shown| {
            let place = shown.standing.group.place;
            is_ending(shown.last_truss.as_ref(), place, notebook.place(), today)
        });
        Stage::of_trusses(trusses, is_ending)
    };
    match group.and_then(|group| group.told_stage(today)) {
        Some((told, true)) => told,
        Some((told, false)) => assumed().max(told),
        None => assumed(),
    }
}

/// Whether it is usually too cold by now to ripen anything more where a group stands.
pub fn season_is_over(notebook: &Notebook, water: Option<&Shown>, today: CivilDay) -> bool {
    water.is_some_and(|shown| shown.last_truss.is_none() && is_over(shown.standing.group.place, notebook.place(), today))
}

fn given(notebook: &Notebook, group: Option<&GroupRecord>, water: Option<&Shown>, today: CivilDay) -> Given {
    let in_ground = group.is_some_and(|group| matches!(group.container, ContainerKind::Border | ContainerKind::Ring));
    Given {
        feed: notebook.feed.clone(),
        units: notebook.units,
        can: notebook.can_litres(),
        place: notebook.place(),
        today,
        group: group.map(|group| group.id),
        // A feed that was noted today does not hide the answer of this morning.
        last_fed: group.and_then(|group| notebook.last_fed(group.id, today)),
        stage: stage(notebook, group, water, today),
        is_over: season_is_over(notebook, water, today),
        stem: group.and_then(|group| group.stem),
        granules: group.is_some_and(|group| group.granules),
        weeks: group.and_then(|group| weeks_in_compost(group, today)),
        compost: water.filter(|_| !in_ground).map(|shown| shown.dose().root_zone.volume),
        water: water.map(|shown| shown.each.volume.litres()),
    }
}

fn answer(given: &Given, notebook: &Notebook, from_last_good: bool) -> Result<FeedShown, MixError> {
    let record = &given.feed;
    let feed = record.feed(given.units, given.can, from_last_good)?;
    let full = mix(&feed, given.can, record.water)?;
    let stage = given.stage;
    let number = |field| {
        let entry = record.entry(field).and_then(Entry::value);
        entry.or_else(|| notebook.assumed(0, field, given.today)).unwrap_or_default()
    };
    let habit = Habit {
        litres: record
            .each
            .value()
            .unwrap_or_else(|| assumed_each(given.water, number(Field::FeedEach))),
        a_week: number(Field::FeedsAWeek),
    };
    let at_half = Feed {
        rate: feed.rate.at_share(HALF),
        ..feed
    };
    let half = mix(&at_half, given.can, record.water)?;
    let held = &full.strength.feed;
    let timing = timing(&Situation {
        stage,
        weeks_in_compost: given.weeks,
        compost_litres: given.compost,
        stem: given.stem,
        granules: given.granules,
        is_feed: held.nitrogen() + held.phosphorus + held.potassium > 0.0,
        conductivity: full.conductivity,
        at_half: half.conductivity,
        own_conductivity: record.water.conductivity(),
        habit,
        last_fed: given.last_fed,
        is_over: given.is_over,
        today: given.today,
    });
    let as_typed = full.conductivity;
    let mut mix = if timing.share < 1.0 { half } else { full };
    let habit = Habit {
        a_week: timing.a_week,
        ..habit
    };
    let mut working = Working::default();
    let needs = needs(&mix.strength, habit, stage, number(Field::Fruit), &mut working);
    mix.working.extend(working);
    Ok(FeedShown {
        as_typed,
        mix,
        can: given.can,
        stage,
        aim: given.aim(),
        timing,
        needs,
        from_compost: given.compost.zip(given.weeks).map(|(litres, weeks)| from_compost(litres, weeks)),
        habit,
        last_fed: given.last_fed,
        words: record.bottle().words(from_last_good),
    })
}
