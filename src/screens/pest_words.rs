//! What pests and their controls are called, and what is to be minded, in words.

use super::parts::AdviceLine;
use super::words::in_scale;
use crate::almanac::CivilDay;
use crate::notebook::PestRecord;
use crate::pest::{Advice, Application, Conflict, Control, Pest, Recognise, Shut, picking_day};
use crate::quantity::Units;

/// Of a pest: its name, its drawing, and how to be sure of it.
pub struct PestWords {
    pub name: &'static str,
    pub drawing: &'static str,
    pub sign: &'static str,
}

/// What a pest is called, and how it is told.
pub const fn pest_words(pest: Pest) -> PestWords {
    let (name, drawing, sign) = match pest {
        Pest::Whitefly => (
            "Whitefly",
            "pest-whitefly",
            "Knock the top leaves: small white moths fly up and settle. Beneath: flat pale scales. Lower leaves sticky.",
        ),
        Pest::SpiderMite => (
            "Red spider",
            "pest-mite",
            "Leaves stippled pale. Tap one over white paper: specks that walk, and smear. Later fine webs.",
        ),
        Pest::Aphid => (
            "Greenfly",
            "pest-greenfly",
            "Soft green or pink insects in crowds under young leaves; cast white skins; sticky leaves.",
        ),
        Pest::Thrips => (
            "Thrips",
            "pest-thrips",
            "Silvery flecks with black dots. Tap a flower over white paper: thin dashes that run.",
        ),
        Pest::RussetMite => (
            "Russet mite",
            "pest-mite",
            "Lower leaves and stem turn bronze, from the ground up. Only a lens of ten times shows pale wedges.",
        ),
        Pest::LeafMiningMoth => (
            "Mining moth",
            "pest-miner",
            "Wide pale blotches with droppings in them, and pinholes in fruit by the stalk.",
        ),
        Pest::LeafMiningFly => (
            "Mining fly",
            "pest-miner",
            "Thin winding white lines, one to a grub. Fruit is not touched.",
        ),
        Pest::TomatoMoth => (
            "Tomato moth",
            "pest-caterpillar",
            "Holed leaves and green fruit, dark droppings beneath. Look in the evening: green or brown caterpillars.",
        ),
        Pest::Slug => (
            "Slugs",
            "pest-slug",
            "Ragged holes and silver trails. Go out with a torch; look on ripening trusses too.",
        ),
    };
    PestWords { name, drawing, sign }
}

/// How one makes sure.
pub const fn sure_by(pest: Pest) -> &'static str {
    match pest.recognise() {
        Recognise::ByEye => "by eye",
        Recognise::ByLens => "by lens",
        Recognise::ByPaperTap => "by a tap over paper",
    }
}

/// Of a control: its name, what it asks of the plate, what was done, and the word for one turn.
pub struct ControlWords {
    pub name: &'static str,
    pub question: &'static str,
    pub done: &'static str,
}

/// What a control is called.
pub const fn control_words(control: Control, pest: Pest) -> ControlWords {
    let (name, question, done) = match control {
        Control::Vacuum => ("Shake and vacuum", "Vacuum", "Vacuumed"),
        Control::WaterJet => ("Water jet", "Hose", "Hosed"),
        Control::HandPicking if matches!(pest, Pest::Slug) => ("Torch patrol", "Go round", "Went round"),
        // Nobody can see what would be picked.
        Control::HandPicking if matches!(pest, Pest::RussetMite) => ("Take leaves off", "Take leaves off", "Took leaves off"),
        Control::HandPicking => ("Pick and squash", "Pick over", "Picked over"),
        Control::StickyCards => ("Sticky cards", "Look at the cards", "Looked"),
        Control::Traps => ("Beer or citrus traps", "Empty the traps", "Emptied"),
        Control::ContactSpray => ("Soap or oil spray", "Spray", "Sprayed"),
        Control::OtherSpray => ("Other spray", "Spray", "Sprayed"),
        Control::FerricPhosphate => ("Ferric phosphate", "Lay bait", "Laid"),
        Control::Parasitoid => ("Parasitoids", "Bring them in", "Put out"),
        Control::PredatoryMite => ("Predatory mites", "Bring them in", "Put out"),
        Control::Nematodes => ("Nematodes", "Water them in", "Watered in"),
    };
    ControlWords { name, question, done }
}

/// How it is done, for somebody who has not done it before; after the day on which it is due.
pub const fn how_to(control: Control, pest: Pest) -> &'static str {
    match control {
        Control::Vacuum => ": knock the top leaves and catch what flies up with a battery vacuum cleaner",
        Control::WaterJet => ": a sharp jet of mains water from beneath, in the morning",
        Control::HandPicking if matches!(pest, Pest::Slug) => ": by torch, after dark",
        Control::HandPicking if matches!(pest, Pest::RussetMite) => ": the bronzed ones, into a bag",
        Control::HandPicking => ": look beneath the leaves, pick off and squash",
        Control::StickyCards | Control::Traps => ": see what they have caught, and renew them",
        control if control.needs_label() => ": only with its label in hand",
        _ => "",
    }
}

/// What a product is called: as the grower calls it, else by its kind, with its number where there are several.
pub fn product_name(programme: &PestRecord, number: u8) -> String {
    let Some(product) = programme.product(number) else {
        return String::new();
    };
    if !product.name.trim().is_empty() {
        return product.name.trim().to_owned();
    }
    let kind = control_words(product.control, programme.pest).name.to_owned();
    if programme.products.len() > 1 {
        kind + " " + &number.to_string()
    } else {
        kind
    }
}

/// What is done on a day: with what, and with which product.
pub fn done_words(programme: &PestRecord, control: Control, product: u8) -> String {
    let name = product_name(programme, product);
    if name.is_empty() || !control.needs_label() {
        control_words(control, programme.pest).name.to_owned()
    } else {
        name
    }
}

/// Why the label gives no date.
pub const fn shut_words(shut: Shut) -> &'static str {
    match shut {
        Shut::NotThisCrop => "The label does not name tomatoes or edible crops: no spray dates and no picking date.",
        Shut::NotThisPlace => "The label does not name this place: no spray dates and no picking date.",
        Shut::NotForHomes => "The label is not for home gardens: no spray dates and no picking date.",
        Shut::Unread => "No spray date before the label is read: answer its three questions below.",
        Shut::LimitsUnread => "No spray date before the label’s days between, most times and any last day are read.",
    }
}

/// How long what was used keeps the crop from being picked; empty when it does not.
pub fn wait_words(used: &[Application], today: CivilDay) -> String {
    match picking_day(used) {
        Some(day) if day > today => ["not before ", &day.spoken(), ", by the label of what was used"].concat(),
        None if !used.is_empty() => "not before you have read the label of what was used".to_owned(),
        _ => String::new(),
    }
}

/// What the label of a product and the pest disagree about; with its name, where there are several.
pub fn conflict_words(conflict: Conflict, product: &str) -> AdviceLine {
    let days = |number: u16| number.to_string() + if number == 1 { " day" } else { " days" };
    let (heading, words) = match conflict {
        Conflict::GivesNone(shut) => ("One gives no dates", shut_words(shut).to_owned()),
        Conflict::LongerBetween { label, pest } => (
            "The label waits longer than the pest",
            days(label)
                + " by the label, "
                + &days(pest)
                + " by the pest: some young grow up meanwhile. What is done by hand fills the wait; for what flies, hang cards too.",
        ),
        Conflict::UsesEnd {
            allowed,
            elsewhere,
            needed,
        } => (
            "The label’s uses end first",
            [
                "The label allows ",
                &allowed.to_string(),
                &match elsewhere {
                    0 => String::new(),
                    used => [" and ", &used.to_string(), " went in other programmes"].concat(),
                },
                ", the pest would take ",
                &needed.to_string(),
                ". After the last spray go on by hand, where the dates say so.",
            ]
            .concat(),
        ),
        Conflict::NoPickingBetween { picking, between } => (
            "No picking between the sprays",
            days(picking) + " before picking and " + &days(between) + " between: nothing can be picked until the last spray has waited.",
        ),
        Conflict::PastLatestUse(day) => ("The label’s last day comes first", "No use after ".to_owned() + &day.spoken() + "."),
        Conflict::UsedTooOften => ("Used more often than the label allows", "Stop, and read it again.".to_owned()),
        Conflict::UsedTooSoon => (
            "Used sooner than the label allows",
            "Wait as long as it says before the next.".to_owned(),
        ),
        Conflict::PickingUnknown => (
            "No picking date",
            "The days before picking of what was used are not known. Read its label; until then nothing here says when to pick.".to_owned(),
        ),
    };
    AdviceLine {
        mark: "mark-hold",
        heading: if product.is_empty() {
            heading.to_owned()
        } else {
            product.to_owned() + ": " + heading
        },
        words,
    }
}

/// What is to be minded, with its reason.
#[expect(clippy::too_many_lines, reason = "one line of words for each")]
pub fn minded(advice: Advice, units: Units) -> AdviceLine {
    let (mark, heading, words) = match advice {
        Advice::LabelFirst => (
            "mark-hold",
            "The label comes first",
            "If it says longer between, fewer, or not on this crop: you must follow the label.",
        ),
        Advice::ByHandInstead => ("mark-ok", "By hand instead", "The dates above are for what needs no label."),
        Advice::EggsEscape => (
            "mark-look",
            "Eggs escape a spray",
            "That is why there are as many again in a fortnight. Each repeat aims at the next hatch before it lays.",
        ),
        Advice::AdultsAreFew => (
            "mark-look",
            "Adults are one in twenty",
            "The rest are eggs and scales. Go on until the last old egg is out, or add what kills scales.",
        ),
        Advice::NoEggs => (
            "mark-look",
            "No eggs to wait for",
            "Greenfly bear live young, which breed within a week. Look every three or four days.",
        ),
        Advice::NoRush => ("mark-ok", "No rush", "It is so cold that they hardly move."),
        Advice::Stalls => (
            "mark-look",
            "Too cold for them to grow up",
            "The last old eggs will not be adult for four months. Hard frost usually kills them outdoors; under glass clean up and empty the house. The plan ends after eight weeks.",
        ),
        Advice::ColdNow => (
            "mark-look",
            "Too cold for them to grow up now",
            "Their eggs never become adults at this warmth. Begin with what flies or crawls; once it is warmer, tell the new average or none.",
        ),
        Advice::CleanUp => (
            "mark-look",
            "Clean up instead of spraying",
            "From early October mites turn orange, hide and are hard to kill. Take plants out and scrub the house.",
        ),
        Advice::TakeOutWorst => (
            "mark-leaf",
            "Take out the worst plants",
            "Bag webbed or bronzed plants where they stand.",
        ),
        Advice::BreakBridge => (
            "mark-leaf",
            "Break the bridge",
            "Clear weeds and winter hosts, keep new plants apart for two weeks, take leaves off up to the picked truss.",
        ),
        Advice::Honeydew => (
            "mark-leaf",
            "Sticky leaves, black mould",
            "It is honeydew. Wash the fruit; it is good to eat.",
        ),
        Advice::PaperTap => (
            "mark-look",
            "Tap a leaf over white paper",
            "To be sure, and again before each repeat.",
        ),
        Advice::DampDown => (
            "mark-damp",
            "Damp down",
            "Dry heat suits mites. Wet the undersides by noon, dry by night.",
        ),
        Advice::Undersides => (
            "mark-look",
            "Under the leaves",
            "That is where they sit: look there, and aim there.",
        ),
        Advice::NotInSun => (
            "mark-risk",
            "Not in bright sun",
            "Sprays scorch leaves in sun and heat, soap and oil most of all. Spray in the evening below 29 °C, never a wilted plant; try one leaf a day before.",
        ),
        Advice::Bees => (
            "mark-risk",
            "Bees on the flowers",
            "Leave open flowers dry, and spray when none fly.",
        ),
        Advice::Protect => (
            "mark-risk",
            "Gloves, sleeves, eyes",
            "As the label says, and at least those. Air the house, wash hands, keep children and pets off until dry.",
        ),
        Advice::PickFirst => (
            "mark-ok",
            "Pick before you spray",
            "Pick what is ripe first: the days of waiting count only for what is still on the plant.",
        ),
        Advice::ChangeGroup => (
            "mark-look",
            "Change the group, not the name",
            "Never the same group of substances on two generations running. Ask the label for its group.",
        ),
        Advice::SparePredators => (
            "mark-leaf",
            "Spare what eats them",
            "Ladybirds, hoverflies and predatory mites do more than a broad spray.",
        ),
        Advice::VacuumSafely => (
            "mark-risk",
            "A vacuum in a damp house",
            "Battery cleaner, or dry hands and a residual-current plug, never over wet floors. Freeze the bag for a day.",
        ),
        Advice::MainsWater => ("mark-damp", "Mains water under glass", "Never a jet or mist from the butt."),
        Advice::HairyLeaves => (
            "mark-look",
            "Poor on tomato leaves",
            "Several sources find that hairy leaves stop them.",
        ),
        Advice::AsSupplier => (
            "mark-ok",
            "As the supplier says",
            "How many, how and where. Some are for closed houses only.",
        ),
        Advice::WhileFew => (
            "mark-look",
            "While there are few",
            "Put them out at about one whitefly on twenty plants (a textbook’s number). They do not catch up with many: spray or rinse those down first, with what leaves nothing behind.",
        ),
        Advice::TooCoolForThem => (
            "mark-hold",
            "Too cool for them yet",
            "Below what they need the pest is faster than they are.",
        ),
        Advice::WaitAfterSpray => (
            "mark-hold",
            "Wait after the spray",
            "One to two days after the last soap or oil, done or planned; after anything that lasts, as long as its label says.",
        ),
        Advice::CardsCatchThem => (
            "mark-look",
            "Cards catch them too",
            "Keep one card to watch by, and take the others down.",
        ),
        Advice::TakeLeavesOff => (
            "mark-leaf",
            "Squash the mine or take the leaf off",
            "Into a closed bag, not on the compost heap.",
        ),
        Advice::ReportIt => ("mark-look", "It may have to be reported", "See your country’s plant health pages."),
        Advice::EveningSearch => (
            "mark-look",
            "Search at dusk",
            "Every evening for a week, then weekly for a month. Shake the plants.",
        ),
        Advice::BoredFruit => ("mark-leaf", "Take out bored fruit", "Sound green fruit is good: leave it on."),
        Advice::TorchRound => (
            "mark-look",
            "Round with a torch",
            "One to three hours after sunset, seven nights, then on damp ones. Beer trap rims stand 2 cm proud; lift citrus shells each morning.",
        ),
        Advice::NematodesAreSlow => (
            "mark-look",
            "Nematodes take their time",
            "Slugs die in 4 to 21 days; large ones and snails escape. Go on with the torch; the next dose after six weeks.",
        ),
        Advice::KeepNematodesCool => (
            "mark-hold",
            "Keep them in the fridge",
            "Until the soil is 5 °C and moist, and not beyond the date on the packet.",
        ),
        Advice::Ponds => ("mark-risk", "Away from ponds", "Three metres at least."),
        Advice::NoBodies => (
            "mark-ok",
            "No bodies are seen",
            "Feeding stops at once; they die hidden after three to six days. Look at the bait after seven; more only as its label says.",
        ),
        Advice::BaitLocked => (
            "mark-risk",
            "Bait locked away",
            "From pets and children. If it was eaten, ask a vet or a doctor at once.",
        ),
        Advice::OldPellets => (
            "mark-hold",
            "Old blue pellets",
            "Metaldehyde may not be used outdoors in Great Britain. To the council’s waste site, never in the bin or the drain.",
        ),
        Advice::TooHot => (
            "mark-risk",
            "Above 35 °C",
            "That harms the plants as well: shade, open up, damp the path.",
        ),
    };
    AdviceLine {
        mark,
        heading: in_scale(heading, units),
        words: in_scale(words, units),
    }
}
