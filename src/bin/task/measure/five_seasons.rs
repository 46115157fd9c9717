//! A notebook of many years: eight groups through five seasons, watered and felt on every day.

use first_truss::almanac::{CivilDay, Sky, Sun, Thermometer, Yesterday};
use first_truss::notebook::{ContainerKind, Field, GroupRecord, Notebook};
use first_truss::quantity::LITRES_PER_IMPERIAL_GALLON;
use first_truss::water::Feel;

/// Days of a season, from the middle of April.
pub const SEASON: i32 = 180;

/// The morning after the last day of so many seasons.
pub fn morning_after(seasons: i16) -> CivilDay {
    first_day(seasons - 1).days_later(SEASON)
}

/// Litres.
const QUARTER_PINT: f64 = LITRES_PER_IMPERIAL_GALLON / 32.0;

/// The first day of a season.
fn first_day(season: i16) -> CivilDay {
    CivilDay::new(2022 + season, 4, 15).unwrap_or_default()
}

/// So many seasons of every group, as a careful grower keeps them: each day the sky, every third day with a thermometer, each
/// group felt and watered by the quarter pint.
pub fn notebook_of(seasons: i16) -> Notebook {
    let mut notebook = Notebook::default();
    let units = notebook.units;
    while notebook.add_group(GroupRecord::default()).is_some() {}
    let kinds = [ContainerKind::GrowBag, ContainerKind::Pot, ContainerKind::Border];
    for (place, group) in notebook.groups.iter_mut().enumerate() {
        group.rename(["Glasshouse, left", "Glasshouse, right", "Tunnel", "By the wall"][place % 4]);
        group.container = kinds[place % 3];
        for (field, text) in [(Field::Plants, "6"), (Field::Height, "4"), (Field::Trusses, "5")] {
            if let Some(entry) = group.entry_mut(field) {
                entry.type_text(field, units, text);
            }
        }
    }
    let ids: Vec<_> = notebook.groups.iter().map(|group| group.id).collect();
    for season in 0..seasons {
        for number in 0..SEASON {
            let sky = usize::try_from(number * 7 % 5).ok().and_then(|place| Sky::ALL.get(place)).copied();
            let reads = number % 3 == 0;
            let told = Yesterday {
                sun: sky.map(Sun::Word),
                warmest: reads.then(|| 18.0 + f64::from(number % 11) * 0.7),
                coolest: reads.then(|| 8.0 + f64::from(number % 7) * 0.4),
                thermometer: Thermometer::Outside,
                ..Yesterday::default()
            };
            notebook.note(first_day(season).days_later(number), |page| {
                page.note_weather(&told);
                "7.40".clone_into(&mut page.noted_at);
                for (place, id) in (0..).zip(&ids) {
                    let turn = number + place;
                    page.note(*id, |group| {
                        group.given = Some(f64::from(turn % 9 + 2) * QUARTER_PINT);
                        group.feel = Some(match turn % 4 {
                            0 => Feel::Dry,
                            1 => Feel::Sodden,
                            _ => Feel::Moist,
                        });
                    });
                }
            });
        }
    }
    notebook.turn_to(morning_after(seasons));
    notebook
}
