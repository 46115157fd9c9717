//! Which screen an address shows.

use crate::notebook::kind_of_link;

/// A screen with an address of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Route {
    /// How much water each plant gets.
    MorningWater,
    /// How much feed goes in the can.
    FeedMix,
    /// When a treatment is repeated.
    PestRepeats,
    /// What is kept, and in which units.
    Notebook,
    /// What came by a link: another plot's card, or the list that came back.
    Card,
    /// The week on paper.
    Week,
    /// The season on a page.
    WholeSeason,
}

impl Route {
    /// The screen of an address's fragment; a place on a screen, or anything else, is Morning water.
    pub fn from_fragment(fragment: &str) -> Self {
        if kind_of_link(fragment).is_some() {
            return Self::Card;
        }
        match fragment.trim_start_matches('#') {
            "feed" | "label" | "shelf" | "signs" => Self::FeedMix,
            "pests" | "which-pest" | "what-is-done" | "pest-warmth" => Self::PestRepeats,
            "notebook" => Self::Notebook,
            "week" => Self::Week,
            "whole-season" => Self::WholeSeason,
            _ => Self::MorningWater,
        }
    }

    /// The fragment that leads here.
    pub const fn fragment(self) -> &'static str {
        match self {
            Self::MorningWater => "#water",
            Self::FeedMix => "#feed",
            Self::PestRepeats => "#pests",
            Self::Notebook => "#notebook",
            Self::Card => "#",
            Self::Week => "#week",
            Self::WholeSeason => "#whole-season",
        }
    }

    /// The name on its tab and in the page's title.
    pub const fn name(self) -> &'static str {
        match self {
            Self::MorningWater => "Morning water",
            Self::FeedMix => "Feed mix",
            Self::PestRepeats => "Pest repeats",
            Self::Notebook => "Notebook",
            Self::Card => "By a link",
            Self::Week => "The week on paper",
            Self::WholeSeason => "The season so far",
        }
    }
}
