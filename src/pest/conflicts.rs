use super::schedule::Allowance;
use super::visits::Open;
use super::{Application, Conflict, Outline, Picking, Product, Schedule, Standing, picking_day};
use crate::almanac::CivilDay;

/// What the labels and the pest disagree about, so many of its treatments having been left out.
pub(super) fn note(outline: &mut Outline, open: &[Open], schedule: &Schedule, allowed: &[Allowance], left_out: usize) {
    let between = schedule.between.and_then(|days| u16::try_from(days).ok());
    let planned = |place: usize| schedule.with.iter().filter(|with| **with == place).count();
    let all: u16 = open.iter().fold(0, |all, open| open.label.most_uses().saturating_add(all));
    let elsewhere: usize = allowed.iter().map(|allowance| allowance.elsewhere).sum();
    let elsewhere = u16::try_from(elsewhere).unwrap_or(u16::MAX);
    for (place, (Open { product, label }, allowance)) in open.iter().zip(allowed).enumerate() {
        let mut add = |conflict| outline.conflicts.push((product.number, conflict));
        let least = label.least_days();
        // With several, another may fill the wait.
        if let Some(pest) = between.filter(|pest| *pest < least && (open.len() == 1 || schedule.is_stretched)) {
            add(Conflict::LongerBetween { label: least, pest });
        }
        let left = all.saturating_sub(elsewhere);
        if let Some(needed) = u16::try_from(schedule.wanted.saturating_sub(left_out))
            .ok()
            .filter(|wanted| place == 0 && *wanted > left)
        {
            add(Conflict::UsesEnd {
                allowed: all,
                elsewhere,
                needed,
            });
        }
        let real = between.map_or(least, |pest| if open.len() == 1 { pest.max(least) } else { pest });
        let is_long = |picking: &u16| *picking >= real && schedule.days.len() > 1;
        if let Some(picking) = label.label().days_before_picking.filter(is_long) {
            add(Conflict::NoPickingBetween { picking, between: real });
        }
        let uses = allowance.used.len() + planned(place);
        if let Some(day) = label.label().latest_use
            && schedule.days.len() < schedule.wanted
            && uses < usize::from(label.most_uses())
        {
            add(Conflict::PastLatestUse(day));
        }
    }
}

/// What the labels and what was done so far disagree about.
pub(super) fn note_uses(outline: &mut Outline, open: &[Open], allowed: &[Allowance]) {
    for (Open { product, label }, allowance) in open.iter().zip(allowed) {
        let mut add = |conflict| outline.conflicts.push((product.number, conflict));
        if allowance.used.len() > usize::from(label.most_uses()) {
            add(Conflict::UsedTooOften);
        }
        let least = i32::from(label.least_days());
        let is_soon = |pair: &[i32]| matches!(pair, [day, next] if *next < *day + least);
        if allowance.used.windows(2).any(is_soon) {
            add(Conflict::UsedTooSoon);
        }
    }
}

/// From when the labels of all that is used, here and elsewhere, let the crop be picked.
pub(super) fn pick(outline: &mut Outline, products: &[Product], elsewhere: &[Application], today: CivilDay) {
    let mut uses = elsewhere.to_vec();
    let is_unknown = |used: &Application| used.days_before_picking.is_none();
    if elsewhere.iter().any(is_unknown) {
        outline.conflicts.push((0, Conflict::PickingUnknown));
    }
    let mut unknown = None;
    outline.pick_now = picking_day(&uses);
    let sprayed = outline.visits.iter().filter(|visit| visit.control.needs_label());
    let mut is_next = true;
    for visit in sprayed.filter(|visit| visit.standing != Standing::Skipped) {
        if visit.standing == Standing::Ahead
            && let Some(from) = picking_day(&uses).filter(|from| *from < visit.day)
        {
            outline.pick_between.push(Picking {
                uses: uses.len() - elsewhere.len(),
                from,
                until: visit.day,
            });
        }
        let application = Application::of(visit.day, visit.product, products);
        if is_unknown(&application) {
            unknown = unknown.or(Some(visit.product));
        }
        uses.push(application);
        if visit.standing == Standing::Done {
            outline.pick_now = picking_day(&uses);
        } else if is_next {
            is_next = false;
            outline.pick_after_next = picking_day(&uses);
        }
    }
    let may_pick = outline.pick_now.is_some_and(|day| day <= today) || !outline.pick_between.is_empty();
    // Where the crop may be picked all the same, that comes with its days.
    outline
        .conflicts
        .retain(|(_, conflict)| !may_pick || !matches!(conflict, Conflict::NoPickingBetween { .. }));
    outline.pick_after_last = picking_day(&uses).filter(|_| uses.len() > elsewhere.len());
    if let Some(product) = unknown {
        outline.conflicts.push((product, Conflict::PickingUnknown));
    }
}
