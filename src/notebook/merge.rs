//! Two tabs with one notebook: what each of them made of it is joined.

use super::day_page::DAY_PAGE;
use super::lines::{ID, Lines, PAGE, stem};
use super::{GroupRecord, Notebook};

/// Joins what two tabs made of the notebook `base`. What only one of them changed is as that one has it; where both changed
/// the same thing, `winning` is right. What one took out stays as long as the other has changed it.
#[must_use]
pub fn joined(base: &Notebook, winning: &Notebook, other: &Notebook) -> Notebook {
    if winning == base {
        return other.clone();
    }
    if other == base {
        return winning.clone();
    }
    let mut sides = [base.clone(), winning.clone(), other.clone()];
    let units = if winning.units == base.units { other.units } else { winning.units };
    let day = if winning.morning.day == base.morning.day {
        other.morning.day
    } else {
        winning.morning.day
    };
    for side in &mut sides {
        // A text is compared with one in the same units, an entry with one of the same morning.
        if side.units != units {
            side.change_units(units);
        }
        if let Some(day) = day.filter(|day| side.morning.day != Some(*day)) {
            side.turn_to(day);
        }
    }
    let [base, mut winning, other] = sides;
    set_apart(&base, &mut winning, &other);
    let kept = winning.pages();
    let mut pages = joined_pages(&base.pages(), &kept, &other.pages());
    if !pages.iter().skip(1).any(|page| page.head == PAGE) {
        // Each took out what the other had left.
        pages.extend(kept.into_iter().skip(1).filter(|page| page.head == PAGE));
    }
    let next_id = winning.next_id.max(other.next_id);
    match Notebook::from_pages(pages.iter().map(Lines::page).collect()) {
        Some(mut notebook) => {
            notebook.next_id = notebook.next_id.max(next_id);
            // A wait that either knows of is kept.
            notebook.waits = winning.waits.or_later(other.waits);
            // Of one that a tab took out the other may have noted something.
            base.groups.iter().for_each(|group| notebook.remember(group));
            notebook
        }
        None => winning,
    }
}

/// Gives groups that both tabs added under the same number numbers of their own, unless they are alike or one is still empty. One that
/// is gone again from either has been another.
pub(super) fn set_apart(base: &Notebook, winning: &mut Notebook, other: &Notebook) {
    let find = |notebook: &Notebook, id: u32| notebook.groups.iter().find(|group| group.id == id).cloned();
    let next_id = &mut winning.next_id;
    let mut renumbered = Vec::new();
    for group in &mut winning.groups {
        let empty = GroupRecord {
            id: group.id,
            ..GroupRecord::default()
        };
        let theirs = find(other, group.id).unwrap_or_else(|| empty.clone());
        let are_two = find(base, group.id).is_none() && *group != theirs && *group != empty && theirs != empty;
        if are_two || base.known(group.id).is_none() && other.gone(group.id).is_some() {
            let before = std::mem::replace(&mut group.id, other.next_id.max(*next_id));
            *next_id = group.id.wrapping_add(1);
            renumbered.push((before, group.id));
        }
    }
    for gone in &winning.gone {
        if base.known(gone.id).is_none() && other.known(gone.id).is_some() && other.gone(gone.id) != Some(gone) {
            let after = other.next_id.max(*next_id);
            *next_id = after.wrapping_add(1);
            renumbered.push((gone.id, after));
        }
    }
    for (before, after) in renumbered {
        winning.renumber(before, after);
    }
}

/// Joins pages. They are told apart by the line that begins them and by their number, and stand in the order of both: so any
/// kind of page whose numbers are never given twice can be joined.
fn joined_pages(base: &[Lines], winning: &[Lines], other: &[Lines]) -> Vec<Lines> {
    let sides = [base, winning, other].map(|side| (side, side.is_sorted_by_key(key)));
    let mut pages: Vec<Lines> = Vec::new();
    for page in winning.iter().chain(other) {
        let key = key(page);
        let index = pages.partition_point(|page| self::key(page) < key);
        if pages.get(index).is_some_and(|page| self::key(page) == key) {
            continue;
        }
        let [before, here, there] = sides.map(|(side, is_sorted)| {
            // Pages of a later program, and groups that were given other numbers, may stand anywhere.
            let from = if is_sorted {
                side.partition_point(|page| self::key(page) < key)
            } else {
                0
            };
            let mut rest = side.iter().skip(from).take(if is_sorted { 1 } else { side.len() });
            rest.find(|page| self::key(page) == key)
        });
        let page = match (here, there) {
            (Some(here), Some(there)) if here == there => here.clone(),
            (Some(here), Some(there)) => joined_lines(before, here, there),
            _ if before == Some(page) => continue,
            // A day without a page is one of which nothing is noted: what the other side left on it was taken out by this one.
            _ if page.head == DAY_PAGE => {
                let mut nothing = Lines::begun(DAY_PAGE);
                nothing.put(ID, page.get(ID));
                let joined = joined_lines(before, here.unwrap_or(&nothing), there.unwrap_or(&nothing));
                if joined == nothing {
                    continue;
                }
                joined
            }
            _ => page.clone(),
        };
        pages.insert(index, page);
    }
    pages
}

/// The kind of a page and its number, in the order of both: a number with more digits is greater.
fn key(page: &Lines) -> (&str, usize, &str) {
    let id = page.get(ID);
    (&page.head, id.len(), id)
}

/// Joins the lines of one page, a field and its last good number as one.
fn joined_lines(before: Option<&Lines>, here: &Lines, there: &Lines) -> Lines {
    let mut page = Lines::begun(&here.head);
    for line in here.lines.iter().chain(&there.lines) {
        let word = stem(line);
        if page.lines.iter().any(|line| stem(line) == word) {
            continue;
        }
        let on = |side: &Lines| {
            let lines = side.lines.iter().filter(|line| stem(line) == word);
            lines.cloned().collect::<Vec<_>>()
        };
        let (before, here) = (before.map(on).unwrap_or_default(), on(here));
        page.lines.extend(if here == before { on(there) } else { here });
    }
    page
}
