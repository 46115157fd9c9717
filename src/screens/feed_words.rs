//! What things of Feed mix are called. Every figure comes from the calculation.

use super::feed_answers::FeedShown;
use super::words::amount;
use crate::feed::{
    Band, Basis, BlendError, Cause, Cloud, Contents, Due, Look, Meeting, Mix, Nutrient, Odds, PHOSPHORUS_IN_OXIDE, POTASSIUM_IN_OXIDE,
    Part, SPOON_SPREAD, Stage, Straight, Stuff, TEASPOON, Way, Why,
};
use crate::quantity::{Likely, Measure, UnitSystem, Units, Volume, decimal, quarters};

/// Feed as it is measured out: whole ml or grams from ten on, tenths below.
pub fn measured_out(value: f64) -> String {
    decimal(value, usize::from(value < 9.95))
}

/// The unit of an amount of feed.
pub const fn unit(mix: &Mix) -> &'static str {
    if mix.is_weighed { "g" } else { "ml" }
}

/// The can: "2 gallons".
pub fn can(litres: f64, units: Units) -> String {
    let number = decimal(units.can_number(Volume::from_litres(litres)), 1);
    let one = number == "1";
    let unit = match units.system {
        UnitSystem::Imperial if one => " gallon",
        UnitSystem::Imperial => " gallons",
        UnitSystem::Metric if one => " litre",
        UnitSystem::Metric => " litres",
        UnitSystem::Us if one => " US gallon",
        UnitSystem::Us => " US gallons",
    };
    number + unit
}

/// Litres for a plant: "2¾ pints".
pub fn poured(litres: f64, units: Units) -> String {
    amount(&Measure::dose(Volume::from_litres(litres), units))
}

/// Fluid ounces below which a jug shows none (choice).
const LEAST_OUNCES: f64 = 0.5;

/// An amount of feed in spoons, to the half, or in caps that were measured, and in fluid ounces.
pub fn spoons(mix: &Mix, cap: Option<f64>, units: Units) -> String {
    let Likely { low, value, high } = mix.amount;
    if low < value {
        return ["likely ", &measured_out(low), " to ", &measured_out(high), ": spoons differ"].concat();
    }
    if mix.is_weighed {
        return "on a kitchen scale that shows tenths".to_owned();
    }
    let spoons = |each: f64, one: &str, many: &str| {
        let count = quarters((value / each * 2.0).round() / 2.0);
        if count == "0" {
            return "less than half a ".to_owned() + one + ": a syringe measures it";
        }
        let name = if matches!(count.as_str(), "½" | "1") { one } else { many };
        ["about ", &count, " ", name].concat()
    };
    let mut words = match cap {
        Some(cap) => spoons(cap, "cap", "caps"),
        None if value < TEASPOON / 4.0 => spoons(TEASPOON, "teaspoon", ""),
        None => spoons(TEASPOON, "teaspoon", "teaspoons") + " ±\u{a0}" + &decimal(SPOON_SPREAD * 100.0, 0) + "\u{a0}%",
    };
    if units.system != UnitSystem::Metric {
        let volume = Volume::from_litres(value / 1000.0);
        let (ounces, name) = match units.system {
            UnitSystem::Us => (volume.us_fluid_ounces(), "\u{a0}US\u{a0}fl\u{a0}oz"),
            _ => (volume.imperial_fluid_ounces(), "\u{a0}fl\u{a0}oz"),
        };
        if ounces >= LEAST_OUNCES {
            words += &[", ", &decimal(ounces, 1), name].concat();
        }
    }
    words
}

/// Both ends of a range, or the one number where they print alike.
pub fn range(low: f64, high: f64, decimals: usize) -> String {
    let (low, high) = (decimal(low, decimals), decimal(high, decimals));
    if low == high { low } else { low + " to " + &high }
}

/// Why feed that is due waits: nothing fed to such plants does them good.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hold {
    /// The compost is sodden.
    Sodden,
    /// They wilt in a way that more water alone does not cure, or that nobody has looked into yet.
    Wilted,
    /// The compost is dry.
    Dry,
    /// Yesterday was colder than roots work at.
    Cold,
}

impl Hold {
    /// In a few words.
    const fn short(self) -> &'static str {
        match self {
            Self::Sodden => "the compost is sodden",
            Self::Wilted => "the plants wilt",
            Self::Dry => "the compost is dry: water alone",
            Self::Cold => "it is too cold",
        }
    }

    /// A heading, and what to do.
    pub const fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::Sodden => (
                "No feed on sodden compost",
                "Roots without air take nothing up. Squeeze again tomorrow.",
            ),
            Self::Wilted => (
                "No feed while they wilt",
                "See “Plants wilt?” under Morning water first. Feed once they stand firm again at dawn.",
            ),
            Self::Dry => (
                "Plain water on dry compost",
                "Feed scorches dry roots. Give today’s water plain, in parts, and feed tomorrow.",
            ),
            Self::Cold => (
                "No feed in the cold",
                "Below about 12 °C (54 °F) roots take little of it up, and it gathers as salt. Feed when the days are warmer.",
            ),
        }
    }
}

/// The foot of the plate: what to do, the day that follows, and the line under it. The day comes apart, for machines.
pub fn due(
    shown: &FeedShown,
    is_fed_today: bool,
    hold: Option<Hold>,
    is_watered: bool,
) -> (&'static str, Option<crate::almanac::CivilDay>, String) {
    let last = shown.last_fed.map(|day| "last fed ".to_owned() + &day.spoken()).unwrap_or_default();
    let due = shown.timing.due;
    if let (Due::Today, false, Some(hold)) = (due, is_fed_today, hold) {
        return ("Not today", None, hold.short().to_owned());
    }
    match due {
        _ if is_fed_today => ("Fed today", Some(shown.timing.next.1), between(shown.timing.next)),
        Due::Today if is_watered => ("Feed tomorrow", None, "today’s water is noted: see below".to_owned()),
        Due::Today => ("Feed today", Some(shown.timing.next.1), last),
        Due::On(early, late) => ("Not today", Some(late), if last.is_empty() { between((early, late)) } else { last }),
        Due::NotYet(Some(day)) => ("Not yet", Some(day), "water only until then".to_owned()),
        Due::NotYet(None) if shown.timing.why.contains(&Why::SeasonOver) => ("No more", None, "the season is over".to_owned()),
        Due::NotYet(None) if shown.timing.why.contains(&Why::Granules) => ("Not yet", None, "granules feed until you pick".to_owned()),
        Due::NotYet(None) => ("Not yet", None, "water only until fruit swells".to_owned()),
        Due::Never if shown.timing.why.contains(&Why::NoFeed) => ("No feed", None, "it names no N, P or K".to_owned()),
        Due::Never => ("Not this can", None, "far too strong: check the dose".to_owned()),
    }
}

fn between((early, late): (crate::almanac::CivilDay, crate::almanac::CivilDay)) -> String {
    if early == late {
        String::new()
    } else {
        "or ".to_owned() + &early.spoken()
    }
}

/// Why it is time or not: heading and words, with the mark of the sprite.
pub const fn why(why: Why) -> (&'static str, &'static str, &'static str) {
    match why {
        Why::CompostFeeds => (
            "mark-hold",
            "The compost still feeds",
            "Fresh compost lasts about five weeks. Begin when the first truss swells, or after five weeks at half strength.",
        ),
        Why::WaitForTruss => (
            "mark-hold",
            "Wait for the first truss",
            "Begin when its fruit swells. With a planting day in My plants, five weeks in little compost count too.",
        ),
        Why::CompostSpent => (
            "mark-leaf",
            "The compost is spent",
            "Five weeks in little compost: feed at half strength, pale or not, until the first truss swells.",
        ),
        Why::GroundFeeds => (
            "mark-hold",
            "The ground still feeds",
            "There is much for the roots to find. Begin when the first truss swells.",
        ),
        Why::FruitSwells => ("", "", ""),
        Why::CropEnds => (
            "mark-leaf",
            "Half as often now",
            "The last truss has set. Feed does not ripen fruit, warmth does.",
        ),
        Why::SeasonOver => (
            "mark-hold",
            "The season is over",
            "It is usually too cold by now to ripen more. Feed the next plants, from the time their first truss swells.",
        ),
        Why::NoFeed => (
            "mark-hold",
            "No feed by itself",
            "Its label names no nitrogen, phosphorus or potash. Epsom salts are for a shortage of magnesium: “Leaves or fruit look wrong?” says how much.",
        ),
        Why::LushStem => (
            "mark-leaf",
            "Lush stems: half strength",
            "Much nitrogen makes leaf, not fruit. Look again in a week or two.",
        ),
        Why::Granules => (
            "mark-leaf",
            "Granules feed too",
            "Half strength, and only from the time you pick, spent compost or not: do not count the same food twice.",
        ),
        Why::TooStrong => (
            "mark-risk",
            "Too strong as the label has it",
            "Most likely more salt than roots can take. Look at the dose again.",
        ),
        Why::MayBeTooStrong => (
            "mark-risk",
            "May be strong",
            "The label leaves open which salts it holds. Pour on moist compost only, and never more in a week than the label says.",
        ),
    }
}

/// Where a conductivity lies.
pub const fn band(band: Band) -> &'static str {
    match band {
        Band::Weak => "weak",
        Band::Normal => "about right",
        Band::Strong => "strong",
        Band::Caution => "too strong",
        Band::Stop => "far too strong",
    }
}

/// A nutrient's name.
pub const fn nutrient(nutrient: Nutrient) -> &'static str {
    match nutrient {
        Nutrient::Nitrogen => "Nitrogen, N",
        Nutrient::Phosphorus => "Phosphorus, P",
        Nutrient::Potassium => "Potassium, K",
        Nutrient::Magnesium => "Magnesium, Mg",
        Nutrient::Calcium => "Calcium, Ca",
        Nutrient::Sulphur => "Sulphur, S",
    }
}

/// How strong a way to feed is, by the can that is offered.
pub fn way(way: &Way) -> String {
    match way.share {
        share if share >= 1.0 => "As above".to_owned(),
        share if (share - 0.5).abs() < 0.01 => "Half of it".to_owned(),
        share => decimal(share * 100.0, 0) + " %",
    }
}

/// The stages with their codes: word and drawing.
pub const STAGES: [(Stage, &str, &str); 4] = [
    (Stage::NoTruss, "No truss set", "stage-none"),
    (Stage::Swelling, "First truss swelling", "stage-swelling"),
    (Stage::Picking, "Picking", "stage-picking"),
    (Stage::Late, "Late, tip out", "stage-late"),
];

/// What can stand on the shelf: name, and what a bag of it usually says.
pub const SHELF: [(Straight, &str, &str); 7] = [
    (Straight::PotassiumNitrate, "Potassium nitrate", "13-0-46"),
    (Straight::PotassiumPhosphate, "Monopotassium phosphate", "0-52-34"),
    (Straight::PotassiumSulphate, "Sulphate of potash", "0-0-50"),
    (Straight::CalciumNitrate, "Calcium nitrate", "15.5-0-0, calcium 19"),
    (Straight::EpsomSalts, "Epsom salts", "magnesium 9.8"),
    (Straight::AmmoniumSulphate, "Sulphate of ammonia", "21-0-0"),
    (Straight::Urea, "Urea", "46-0-0"),
];

/// What a salt holds in the words of a label.
pub fn as_label(contents: &Contents, basis: Basis) -> String {
    let (phosphorus, potassium) = match basis {
        Basis::Oxides => (PHOSPHORUS_IN_OXIDE, POTASSIUM_IN_OXIDE),
        Basis::Elements => (1.0, 1.0),
    };
    let number = |percent: f64| decimal(percent, 1);
    let mut words = [
        &number(contents.nitrogen()),
        "-",
        &number(contents.phosphorus / phosphorus),
        "-",
        &number(contents.potassium / potassium),
    ]
    .concat();
    for nutrient in [Nutrient::Magnesium, Nutrient::Calcium, Nutrient::Sulphur] {
        if contents.of(nutrient) > 0.0 {
            words += &[" + ", &number(contents.of(nutrient)), " ", nutrient.sign()].concat();
        }
    }
    words
}

/// A salt's name.
pub fn salt(of: Straight) -> &'static str {
    SHELF.iter().find(|(salt, ..)| *salt == of).map_or("", |(_, name, _)| name)
}

/// What calcium and sulphate do in a can: mark and words.
pub const fn gypsum(cloud: Cloud) -> (&'static str, &'static str) {
    match cloud {
        Cloud::FallsOut => ("mark-hold", "Calcium and sulphate fall out as gypsum: not in one can."),
        _ => (
            "mark-risk",
            "Calcium and sulphate may fall out as gypsum. Stir, and use it the same day.",
        ),
    }
}

/// How a salt does in a stock at 10 °C.
pub const fn dissolves(cloud: Cloud) -> &'static str {
    match cloud {
        Cloud::Clear => "dissolves",
        Cloud::MayCloud => "only just: use warm water",
        Cloud::FallsOut => "too much: it will not dissolve",
    }
}

/// What feeds are made of, as far as they may not meet.
pub const fn stuff(of: Stuff) -> &'static str {
    match of {
        Stuff::Calcium => "calcium nitrate",
        Stuff::Sulphate => "sulphates, Epsom salts too",
        Stuff::Phosphate => "phosphates, most feeds too",
        Stuff::Iron => "chelated iron",
        Stuff::Urea => "urea",
        Stuff::Nitrate => "nitrates",
    }
}

/// Whether two may meet in a concentrate.
pub const fn meets(meeting: Meeting) -> &'static str {
    match meeting {
        Meeting::Fine => "may meet",
        Meeting::Limited => "for a day only",
        Meeting::Apart => "never",
    }
}

/// Why nothing comes from the shelf.
pub fn blend_error(error: BlendError) -> String {
    match error {
        BlendError::NothingFits => "Nothing ticked holds what a can of this stage wants.".to_owned(),
        BlendError::TooStrong(millisiemens) => [
            "The nearest mix would be too strong for a can, about ",
            &decimal(millisiemens, 1),
            " mS/cm: tick something else.",
        ]
        .concat(),
    }
}

/// Where something looks wrong: code and words.
pub const PARTS: [(Part, &str, &str); 4] = [
    (Part::Top, "top", "Top leaves"),
    (Part::Fruit, "fruit", "Fruit"),
    (Part::Edges, "edges", "Leaf edges"),
    (Part::Lower, "lower", "Lower leaves"),
];

/// What leaves look like: code, words and drawing.
pub const LEAF_LOOKS: [(Look, &str, &str, &str); 6] = [
    (Look::BetweenVeins, "between-veins", "Yellow between veins", "leaf-veins"),
    (Look::PaleAllOver, "pale", "Pale all over", "leaf-pale"),
    (Look::BrownEdges, "brown-edges", "Brown edges", "leaf-edges"),
    (Look::PurpleBeneath, "purple", "Purple beneath", "leaf-purple"),
    (Look::DarkSpots, "spots", "Dark spots", "leaf-spots"),
    (Look::Curled, "curled", "Curled", "leaf-curled"),
];

/// What fruit looks like.
pub const FRUIT_LOOKS: [(Look, &str, &str, &str); 3] = [
    (Look::SunkenEnd, "sunken-end", "Dark, sunken end", ""),
    (Look::HardShoulders, "hard-shoulders", "Hard, green top", ""),
    (Look::LittleFruit, "little-fruit", "Much leaf, little fruit", ""),
];

/// How likely.
pub const fn odds(odds: Odds) -> &'static str {
    match odds {
        Odds::Perhaps => "less likely",
        Odds::MayBe => "possible",
        Odds::Likely => "likely",
    }
}

/// A cause: what it is, what to check first, and what to do.
pub const fn cause(cause: Cause) -> (&'static str, &'static str, &'static str) {
    match cause {
        Cause::Magnesium => ("Short of magnesium", "Veins stay green, oldest leaves first, potash fed often.", ""),
        Cause::TooMuchPotash => (
            "Too much potash",
            "K to N over 2.5 in the can.",
            "A feed with less potash. Potash keeps magnesium and calcium out.",
        ),
        Cause::Age => (
            "Age",
            "Only below the truss that you are picking.",
            "Leave them, or take them off. A few are usual late in the season.",
        ),
        Cause::WetRoots => (
            "Roots too wet",
            "Is the compost sodden, the pot heavy, are roots brown?",
            "No water until it feels moist, then less. Not a matter of feed.",
        ),
        Cause::Nitrogen => (
            "Short of nitrogen",
            "Five weeks or more in this compost, and not fed?",
            "Feed as is said above, not stronger. Not with urea in the cold.",
        ),
        Cause::Cold => (
            "Cold",
            "Nights below about 12 °C?",
            "Warmth, a week of it. Feed does not help cold roots.",
        ),
        Cause::Potassium => (
            "Short of potash",
            "Is the strength right? On leaves salt scorch looks the same.",
            "A feed with more potash.",
        ),
        Cause::Salt => (
            "Too much salt",
            "A double dose, a white crust, burnt tips?",
            "Leave the next feed out. Run two or three potfuls of plain water through, and let it drain.",
        ),
        Cause::Dry => (
            "Dry roots, sun or wind",
            "Was the compost dry? Only the sunny side?",
            "Water evenly, shade at noon.",
        ),
        Cause::Phosphorus => (
            "Short of phosphorus",
            "Still purple after a warm week?",
            "Only then a feed with more phosphorus. Most have too much.",
        ),
        Cause::Iron => (
            "Short of iron",
            "Only the youngest leaves, nearly white?",
            "Chelated iron as its label says, once the compost is only just moist. No more general feed.",
        ),
        Cause::HardWater => (
            "Hard water",
            "A hard tap all season?",
            "Use rain water part of the time. Hard water locks iron up.",
        ),
        Cause::NotFeed => (
            "Not a matter of feed",
            "One plant among many, fern-like twisting, mites under a lens?",
            "Virus, mites or weedkiller in manure. Keep that plant apart, and add no more salts.",
        ),
        Cause::Disease => (
            "A mould, blight or wilt",
            "Fur beneath, rings, brown stems or fruit, streaks in a cut stem?",
            "Brown patches on stems or on the sides of fruit, or streaks in a cut stem: bag the plant today, not on the heap. Else take spotted leaves off and air the house. Do not feed.",
        ),
        Cause::UnevenWater => (
            "Uneven water",
            "Was it dry, then wet? First trusses on small roots?",
            "Even watering and a mulch. Take off fruit with a black end, and leave the growing tip. Calcium on leaves does not reach the fruit.",
        ),
        Cause::TooMuchNitrogen => (
            "Too much nitrogen",
            "Thick stem, dark rolled leaves?",
            "Leave feed out for a week or two, then one with more potash.",
        ),
        Cause::Heat => (
            "Heat, sun or pruning",
            "Above 30 °C? Leaves rolled but green, or fruit hard only where the sun meets it?",
            "Air and shade. Nothing is short.",
        ),
        Cause::PoorSet => (
            "Flowers that did not set",
            "Nights below 13 °C, days above 32 °C?",
            "Tap the canes between ten and three when it is bright.",
        ),
    }
}
