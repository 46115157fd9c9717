use super::{Contents, Nutrient, Stage, Strength};
use crate::quantity::{Likely, Range};
use crate::working::{Working, value};

/// What a plant takes up for each kilogram of fruit, g: nitrogen, phosphorus, potassium (Hegde 1997, read; the middle of its range
/// is the value).
pub const UPTAKE: [(Nutrient, Likely); 3] = [
    (
        Nutrient::Nitrogen,
        Likely {
            low: 2.5,
            value: 2.75,
            high: 3.0,
        },
    ),
    (
        Nutrient::Phosphorus,
        Likely {
            low: 0.2,
            value: 0.25,
            high: 0.3,
        },
    ),
    (
        Nutrient::Potassium,
        Likely {
            low: 3.0,
            value: 3.25,
            high: 3.5,
        },
    ),
];
/// What a greenhouse crop takes up in a season, kg/ha, in the order of [`Nutrient::ALL`] without sulphur (Papadopoulos 1991, read
/// second-hand; that page swaps calcium and magnesium).
pub const SEASON_UPTAKE: [f64; 5] = [370.0, 50.0, 680.0, 45.0, 290.0];
/// Fruit of a plant in a season, kg (choice).
pub const USUAL_FRUIT: f64 = 3.0;
/// Weeks in which it is picked (choice).
const PICKING_WEEKS: f64 = 10.0;
/// Fruit that can be expected of a plant, kg.
pub const FRUIT_RANGE: Range = Range {
    what: "Fruit from a plant",
    low: 0.2,
    high: 20.0,
    unit: " kg",
};
/// Weeks for which fresh compost feeds (common practice, no source).
pub const COMPOST_FEEDS_WEEKS: f64 = 5.0;
/// Nitrogen in a litre of fresh compost, g, with its range (from memory).
pub const COMPOST_NITROGEN: Likely = Likely {
    low: 0.15,
    value: 0.175,
    high: 0.2,
};

/// Share of a week's need from which a feed brings too much (choice: beyond the upper end of every published range of uptake, the widest
/// of which reaches 1.2).
const OVER: f64 = 1.25;
/// Share of a week's need below which a feed keeps no plant from going short (choice).
const SHORT: f64 = 0.5;
/// Share of a day's water from which feed is all of it (choice: what is left is less than a quarter pint of a usual dose, the least
/// that is poured).
const NEARLY_ALL: f64 = 0.85;
/// Share of a day's water from which feed is more than the plant drinks (choice: a dose that was learnt may itself be a fifth out).
const MUCH_MORE: f64 = 1.2;

/// How a feed stands to the day's water, of which it is a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Portion {
    /// The rest is poured plain.
    Part,
    /// No plain water besides.
    All,
    /// More than the plant drinks that day.
    TooMuch,
}

/// How so many litres of feed stand to a day's litres.
#[must_use]
pub fn portion(feed_litres: f64, day_litres: f64) -> Portion {
    match feed_litres / day_litres {
        share if share > MUCH_MORE => Portion::TooMuch,
        share if share > NEARLY_ALL => Portion::All,
        _ => Portion::Part,
    }
}

/// What a plant gets of a nutrient in a week beside what it needs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Need {
    /// Which.
    pub nutrient: Nutrient,
    /// From the feed, g a plant and week.
    pub fed: Likely,
    /// Needed, g a plant and week.
    pub needed: Likely,
}

impl Need {
    /// Share of the need that the feed covers.
    #[must_use]
    pub const fn share(&self) -> f64 {
        self.fed.value / self.needed.value
    }

    /// Whether the feed brings so little that they go short all the same.
    #[must_use]
    pub const fn is_short(&self) -> bool {
        self.share() < SHORT
    }

    /// Whether the feed brings clearly more than is taken up.
    #[must_use]
    pub const fn is_over(&self) -> bool {
        self.share() > OVER
    }
}

/// How a grower feeds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Habit {
    /// Litres of feed for a plant each time.
    pub litres: f64,
    /// Times a week.
    pub a_week: f64,
}

/// Grams of something in a week: `litres × feeds a week × mg/L ÷ 1000`.
#[must_use]
pub const fn grams_a_week(milligrams_per_litre: f64, habit: Habit) -> f64 {
    milligrams_per_litre * habit.litres * habit.a_week / 1000.0
}

/// A week's need of each of N, P and K beside what the feed brings, for a plant that is expected to give so many kilograms of fruit.
///
/// `need = fruit ÷ 10 weeks × uptake × share of the stage`.
#[must_use]
pub fn needs(strength: &Strength, habit: Habit, stage: Stage, fruit_kilograms: f64, working: &mut Working) -> [Need; 3] {
    let fruit = fruit_kilograms / PICKING_WEEKS * stage.share_of_need();
    UPTAKE.map(|(nutrient, uptake)| {
        let grams = working.step(
            nutrient.sign(),
            "mg/L × litres × feeds a week ÷ 1000",
            &[
                value("mg/L", strength.feed.of(nutrient), "", 1),
                value("litres", habit.litres, "", 2),
                value("feeds", habit.a_week, "", 1),
            ],
            value("a week", grams_a_week(strength.feed.of(nutrient), habit), "g", 3),
            "For each plant",
        );
        let needed = working.step(
            "Needed for it",
            "kg of fruit ÷ 10 weeks × share of the stage × g for each kg",
            &[
                value("fruit", fruit_kilograms, "kg", 1),
                value("share", stage.share_of_need(), "", 2),
                value("uptake", uptake.value, "g", 2),
            ],
            value("need", fruit * uptake.value, "g", 3),
            "Uptake from Hegde 1997, ± 10 to 20 %; weeks and share are our choice",
        );
        Need {
            nutrient,
            fed: strength.range(grams),
            needed: Likely {
                low: fruit * uptake.low,
                value: needed,
                high: fruit * uptake.high,
            },
        }
    })
}

/// About how many feeds a week are enough where so many bring clearly too much of nitrogen and of potassium: a whole number, or one in a
/// fortnight. Nothing where either is not too much, or where less often cannot be.
#[must_use]
pub fn enough_a_week(needs: &[Need; 3], a_week: f64) -> Option<f64> {
    let [nitrogen, _, potassium] = needs;
    let share = nitrogen.share().min(potassium.share());
    let enough = (a_week / share).round().max(0.5);
    Some(enough).filter(|&enough| share > OVER && enough < a_week)
}

/// Nitrogen that the compost still gives a plant in a week, g: its store in equal parts over its first five weeks.
#[must_use]
pub fn from_compost(compost_litres: f64, weeks_in_compost: f64) -> Likely {
    if weeks_in_compost >= COMPOST_FEEDS_WEEKS {
        Likely::default()
    } else {
        COMPOST_NITROGEN.times(compost_litres / COMPOST_FEEDS_WEEKS)
    }
}

/// What a plant takes up in a whole season under glass, g, at so many plants on a square metre.
#[must_use]
pub fn season_uptake(plants_on_square_metre: f64) -> Contents {
    let grams = |kilograms_a_hectare: f64| kilograms_a_hectare / 10.0 / plants_on_square_metre;
    let [nitrogen, phosphorus, potassium, magnesium, calcium] = SEASON_UPTAKE.map(grams);
    Contents {
        untold_nitrogen: nitrogen,
        phosphorus,
        potassium,
        magnesium,
        calcium,
        ..Contents::default()
    }
}
