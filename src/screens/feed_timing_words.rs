//! Whether it is time to feed, in words.

use super::feed_answers::FeedShown;
use crate::almanac::CivilDay;
use crate::feed::{Due, Why};

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
pub fn due(shown: &FeedShown, is_fed_today: bool, hold: Option<Hold>, is_watered: bool) -> (&'static str, Option<CivilDay>, String) {
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

fn between((early, late): (CivilDay, CivilDay)) -> String {
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
