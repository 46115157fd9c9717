//! What may be wrong with a plant, in words: where, what it looks like, and what may be behind it.

use crate::feed::{Cause, Look, Odds, Part};

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
pub const FRUIT_LOOKS: [(Look, &str, &str, &str); 4] = [
    (Look::SunkenEnd, "sunken-end", "Dark, sunken end", ""),
    (Look::HardShoulders, "hard-shoulders", "Hard, green top", ""),
    (Look::Blotched, "blotched", "Blotched with yellow", ""),
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
            "Above 30 °C? Leaves rolled but green, or fruit hard or yellow only where the sun meets it?",
            "Air and shade. Nothing is short.",
        ),
        Cause::PoorSet => (
            "Flowers that did not set",
            "Nights below 13 °C, days above 32 °C?",
            "Tap the canes between ten and three when it is bright.",
        ),
    }
}
