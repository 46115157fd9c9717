use std::cmp::Ordering;

use super::{Kills, LifeTable, Population};

/// Dates for one number of treatments that are all tried when there are no more than so many (choice).
const TRIED_ONE_BY_ONE: usize = 400;
/// Days by which the first treatment may wait in a regular pattern (choice).
const LATEST_START: usize = 6;
/// Most days between two in a regular pattern (choice).
const MOST_BETWEEN: usize = 14;
/// Most treatments that are looked at (choice).
const MOST_LOOKED_AT: usize = 24;
/// Of those, tried in one part of the work (choice).
const SETS_AT_ONCE: usize = 8;
/// What a sum in another order may be off by, share of itself (limit).
const BUT_FOR_ROUNDING: f64 = 1.0 - 1e-12;

/// What the best plan is to be found for.
#[derive(Clone, Debug, PartialEq)]
pub struct Aim {
    /// The pest's life.
    pub life: LifeTable,
    /// Degree-days of day 1, day 2 and so on, up to the horizon.
    pub daily: Vec<f64>,
    /// What one treatment kills.
    pub kills: Kills,
    /// What works every day from day 0 beside it, such as cards.
    pub every_day: Kills,
    /// Least days between two: the label's, and at least 1.
    pub least_days: usize,
    /// Most treatments: the label's.
    pub most: usize,
    /// Last day on which one may fall.
    pub latest: usize,
    /// Numbers at the horizon that are to be kept to, as a share of today's.
    pub level: f64,
    /// The days of the simple rule, which the best plan is never worse than.
    pub simple: Vec<usize>,
}

/// Days of treatments with what they come to.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// Days, rising, counted from day 0.
    pub days: Vec<usize>,
    /// Highest number at the end of any day, as a share of today's.
    pub peak: f64,
    /// Number at the horizon, as a share of today's.
    pub level: f64,
}

/// The fewest treatments that keep to the level, or the most that are allowed when none does, with one fewer and one more.
#[derive(Clone, Debug, PartialEq)]
pub struct BestPlan {
    /// The plan.
    pub best: Candidate,
    /// Whether it keeps to the level.
    pub keeps: bool,
    /// The best with one treatment fewer.
    pub one_fewer: Option<Candidate>,
    /// The best with one more, if that is allowed.
    pub one_more: Option<Candidate>,
}

/// A search that can be done in parts, so that a page stays awake: [`Search::work`] until it is done.
#[derive(Clone, Debug)]
pub struct Search {
    aim: Aim,
    start: Population,
    /// What each animal comes to at the horizon, untreated, from the last evening back to that of day 0.
    worth: Vec<Vec<f64>>,
    trail: Trail,
    patterns: Vec<(usize, usize)>,
    /// The best for 0, 1, 2 … treatments so far.
    found: Vec<Option<Candidate>>,
    at: Step,
    answer: Option<BestPlan>,
}

/// The evenings of the days that were looked at last: the next are the same up to the first day that differs.
#[derive(Clone, Debug, Default)]
struct Trail {
    days: Vec<usize>,
    /// The numbers of each evening, and the highest total until then.
    evenings: Vec<(Vec<f64>, f64)>,
}

/// Where the refining of one number of treatments stands.
#[derive(Clone, Debug, Default)]
struct Step {
    /// How many treatments.
    count: usize,
    /// The day to be moved next.
    place: usize,
    /// Whether one of this round was better.
    is_better: bool,
    /// The set to be tried next, where each is.
    days: Vec<usize>,
}

impl Step {
    fn of(count: usize) -> Self {
        Self { count, ..Self::default() }
    }
}

impl Aim {
    /// The last day.
    fn horizon(&self) -> usize {
        self.daily.len()
    }

    /// What happens on one evening.
    fn evening(&self, population: &mut Population, is_treated: bool) {
        population.treat(&self.every_day);
        if is_treated {
            population.treat(&self.kills);
        }
    }

    /// Whether the label allows these days.
    #[must_use]
    pub fn allows(&self, days: &[usize]) -> bool {
        days.len() <= self.most
            && days.last().is_none_or(|last| *last <= self.latest.min(self.horizon()))
            && days
                .windows(2)
                .all(|pair| matches!(pair, [day, next] if *next >= *day + self.least_days.max(1)))
    }

    /// What treatments on these days come to.
    #[must_use]
    pub fn outcome(&self, days: Vec<usize>) -> Candidate {
        let mut population = Population::steady(&self.life, 1.0);
        let mut peak: f64 = 0.0;
        for day in 0..=self.horizon() {
            if let Some(warmth) = day.checked_sub(1).and_then(|before| self.daily.get(before)) {
                population.advance(*warmth);
            }
            self.evening(&mut population, days.contains(&day));
            peak = peak.max(population.total());
        }
        Candidate {
            days,
            peak,
            level: population.total(),
        }
    }

    /// Which of two comes first: the one that keeps to the level; of two that do, fewer uses, the lower peak, the lower number at
    /// the horizon, the earlier finish; of two that do not, the lower number at the horizon.
    #[must_use]
    pub fn order(&self, one: &Candidate, other: &Candidate) -> Ordering {
        let keeps = |candidate: &Candidate| candidate.level <= self.level;
        let number = |one: f64, other: f64| one.partial_cmp(&other).unwrap_or(Ordering::Equal);
        let last = |candidate: &Candidate| candidate.days.last().copied();
        let level = number(one.level, other.level);
        let peak = number(one.peak, other.peak);
        let first = keeps(other).cmp(&keeps(one));
        let uses = one.days.len().cmp(&other.days.len());
        let finish = last(one).cmp(&last(other));
        if keeps(one) {
            first.then(uses).then(peak).then(level).then(finish)
        } else {
            first.then(level).then(uses).then(peak).then(finish)
        }
    }
}

impl Search {
    /// A search that has not begun.
    #[must_use]
    pub fn new(aim: Aim) -> Self {
        let start = Population::steady(&aim.life, 1.0);
        let most = aim.most.min(MOST_LOOKED_AT);
        let least = aim.least_days.max(1);
        let mut patterns = Vec::new();
        for first in 0..=LATEST_START.min(aim.latest) {
            for between in least..=MOST_BETWEEN.max(least) {
                patterns.push((first, between));
            }
        }
        Self {
            worth: Vec::new(),
            trail: Trail::default(),
            start,
            patterns,
            found: vec![None; most + 1],
            at: Step::of(1),
            answer: None,
            aim,
        }
    }

    /// Does one part of the work; true when all of it is done.
    pub fn work(&mut self) -> bool {
        if self.answer.is_some() {
            return true;
        }
        if self.worth.is_empty() {
            self.look_back();
            for count in 0..=self.aim.simple.len() {
                self.offer(self.aim.simple.iter().take(count).copied().collect());
            }
            return false;
        }
        if let Some((first, between)) = self.patterns.pop() {
            self.follow(first, between);
            return false;
        }
        let count = self.at.count;
        if count > self.most() {
            self.answer = self.summing_up();
            return self.answer.is_some();
        }
        let is_over = if self.sets_of(count) <= TRIED_ONE_BY_ONE {
            self.try_some(count)
        } else {
            self.move_day(count)
        };
        if is_over {
            // One more than the fewest that keep to the level is all that is asked for.
            let is_enough = count.checked_sub(1).is_some_and(|fewer| self.keeps(fewer));
            self.at = Step::of(if is_enough { usize::MAX } else { self.next_worth_moving(count) });
        }
        false
    }

    /// The plan, once the work is done.
    #[must_use]
    pub const fn answer(&self) -> Option<&BestPlan> {
        self.answer.as_ref()
    }

    /// All of the work at once.
    #[must_use]
    pub fn run(mut self) -> Option<BestPlan> {
        while !self.work() {}
        self.answer
    }

    /// What is aimed at.
    #[must_use]
    pub const fn aim(&self) -> &Aim {
        &self.aim
    }

    fn most(&self) -> usize {
        self.found.len().saturating_sub(1)
    }

    fn keeps(&self, count: usize) -> bool {
        let found = self.found.get(count).and_then(Option::as_ref);
        found.is_some_and(|candidate| candidate.level <= self.aim.level)
    }

    /// The next number of treatments whose days are worth moving: those far from the level are left as they are, unless they are few
    /// enough to be tried one by one.
    fn next_worth_moving(&self, count: usize) -> usize {
        let mut next = count + 1;
        while next < self.most() && !self.keeps(next) && !self.keeps(next + 1) && self.sets_of(next) > TRIED_ONE_BY_ONE {
            next += 1;
        }
        next
    }

    /// How many sets of so many days there are; many, when they are more than will be tried.
    fn sets_of(&self, count: usize) -> usize {
        let squeezed = self.aim.least_days.max(1) - 1;
        let days = (self.aim.latest.min(self.aim.horizon()) + 1).saturating_sub(squeezed * count.saturating_sub(1));
        (0..count).fold(1, |sets: usize, taken| {
            sets.saturating_mul(days.saturating_sub(taken)) / (taken + 1)
        })
    }

    /// Keeps these days if the label allows them and none of as many is better.
    fn offer(&mut self, days: Vec<usize>) -> bool {
        if !self.aim.allows(&days) {
            return false;
        }
        let last = days.last().copied().unwrap_or(0);
        self.walk(&days, last);
        let (peak, level) = self.hope(last);
        let mut candidate = Candidate { days, peak, level };
        if !self.is_better(&candidate) {
            return false;
        }
        let end = self.aim.horizon();
        self.walk(&candidate.days, end);
        if let Some((numbers, peak)) = self.trail.evenings.get(end) {
            (candidate.peak, candidate.level) = (*peak, numbers.iter().sum());
        }
        let is_better = self.is_better(&candidate);
        if is_better && let Some(place) = self.found.get_mut(candidate.days.len()) {
            *place = Some(candidate);
        }
        is_better
    }

    /// Whether a candidate comes before what was found for as many treatments.
    fn is_better(&self, candidate: &Candidate) -> bool {
        let found = self.found.get(candidate.days.len());
        found.is_some_and(|found| {
            let found = found.as_ref();
            found.is_none_or(|found| self.aim.order(candidate, found) == Ordering::Less)
        })
    }

    /// The least peak and level that can come of the evening of the last treatment: the level is the worth of all, but for rounding.
    fn hope(&self, last: usize) -> (f64, f64) {
        let worth = self.aim.horizon().checked_sub(last).and_then(|back| self.worth.get(back));
        let Some(((numbers, peak), worth)) = self.trail.evenings.get(last).zip(worth) else {
            return (0.0, 0.0);
        };
        let level: f64 = numbers.iter().zip(worth).map(|(number, worth)| number * worth).sum();
        (peak.max(level) * BUT_FOR_ROUNDING, level * BUT_FOR_ROUNDING)
    }

    /// Lives through the evenings up to `end` with treatments on these days, from where they differ from those before.
    fn walk(&mut self, days: &[usize], end: usize) {
        let trail = &mut self.trail;
        let same = days.iter().zip(&trail.days).take_while(|(day, before)| day == before).count();
        let differ = [days.get(same), trail.days.get(same)].into_iter().flatten().min();
        if let Some(day) = differ {
            trail.evenings.truncate(*day);
        }
        trail.days.clear();
        trail.days.extend_from_slice(days);
        let mut population = self.start.clone();
        let mut peak: f64 = 0.0;
        if let Some((numbers, before)) = trail.evenings.last() {
            population.put(numbers);
            peak = *before;
        }
        for day in trail.evenings.len()..=end {
            if let Some(warmth) = day.checked_sub(1).and_then(|before| self.aim.daily.get(before)) {
                population.advance(*warmth);
            }
            self.aim.evening(&mut population, days.contains(&day));
            peak = peak.max(population.total());
            trail.evenings.push((population.numbers().to_vec(), peak));
        }
    }

    /// Goes back from the horizon to day 0 with the worth of each animal.
    fn look_back(&mut self) {
        let mut worth = self.start.worth_at_the_end();
        self.worth.push(worth.clone());
        for warmth in self.aim.daily.iter().rev() {
            self.start.spared(&mut worth, &self.aim.every_day);
            self.start.worth_before(&mut worth, *warmth);
            self.worth.push(worth.clone());
        }
    }

    /// Treats on `first` and every `between` days, with each number of treatments.
    fn follow(&mut self, first: usize, between: usize) {
        let end = self.aim.latest.min(self.aim.horizon());
        let mut days = Vec::new();
        for day in (first..=end).step_by(between.max(1)).take(self.most()) {
            days.push(day);
            self.offer(days.clone());
        }
    }

    /// Tries the next few sets of so many days; true when there are no more.
    fn try_some(&mut self, count: usize) -> bool {
        let (least, end) = (self.aim.least_days.max(1), self.aim.latest.min(self.aim.horizon()));
        let mut days = std::mem::take(&mut self.at.days);
        if days.is_empty() {
            days = (0..count).map(|place| place * least).collect();
        }
        for _ in 0..SETS_AT_ONCE {
            self.offer(days.clone());
            // The last day that can move on does, and those after it follow as closely as they may.
            let Some(place) = (0..count).rev().find(|place| {
                let after = (count - 1 - place) * least;
                days.get(*place).is_some_and(|day| day + 1 + after <= end)
            }) else {
                return true;
            };
            let moved = days.get(place).copied().unwrap_or(0) + 1;
            for (step, day) in days.iter_mut().skip(place).enumerate() {
                *day = moved + step * least;
            }
        }
        self.at.days = days;
        false
    }

    /// Moves one day of the best plan of so many by one, either way; true when a whole round of them made nothing better.
    fn move_day(&mut self, count: usize) -> bool {
        let Some(Some(best)) = self.found.get(count).cloned() else {
            return true;
        };
        for onwards in [true, false] {
            let mut days = best.days.clone();
            if let Some(day) = days.get_mut(self.at.place) {
                *day = if onwards { *day + 1 } else { day.saturating_sub(1) };
            }
            if days != best.days {
                self.at.is_better |= self.offer(days);
            }
        }
        self.at.place += 1;
        if self.at.place < count {
            return false;
        }
        let is_over = !self.at.is_better;
        self.at = Step::of(count);
        is_over
    }

    fn summing_up(&self) -> Option<BestPlan> {
        let at = |count: usize| self.found.get(count).cloned().flatten();
        let fewest = (0..=self.most()).find(|count| self.keeps(*count));
        // Where none keeps to the level, the one that comes nearest.
        let all = (0..=self.most()).filter_map(at);
        let nearest = all.min_by(|one, other| self.aim.order(one, other))?.days.len();
        let count = fewest.unwrap_or(nearest);
        Some(BestPlan {
            best: at(count)?,
            keeps: fewest.is_some(),
            one_fewer: count.checked_sub(1).and_then(at),
            one_more: at(count + 1),
        })
    }
}
