use super::{LifeStage, Pest};

/// What can be done about a pest. Which product it is, is for its label to say; no recipe is given, and nothing that the law of
/// Great Britain forbids is among them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Control {
    /// Shaken at dawn and sucked off with a small vacuum cleaner.
    #[default]
    Vacuum,
    /// Hosed off with plain water.
    WaterJet,
    /// Picked, squashed, or the leaf taken off; for slugs a patrol with a torch.
    HandPicking,
    /// Yellow or blue sticky cards.
    StickyCards,
    /// Beer traps and upturned citrus shells for slugs.
    Traps,
    /// A soap or oil that works by touch, from a shop and by its label.
    ContactSpray,
    /// Any other spray, by its label.
    OtherSpray,
    /// Ferric phosphate bait, by its label.
    FerricPhosphate,
    /// A parasitoid: *Encarsia formosa* on whitefly, *Aphidius colemani* on aphids.
    Parasitoid,
    /// The predatory mite *Phytoseiulus persimilis*.
    PredatoryMite,
    /// Slug nematodes, *Phasmarhabditis*.
    Nematodes,
}

/// Where a share of killed animals comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// Measured and published, in a laboratory as a rule.
    Published,
    /// A choice of this program: called assumed wherever it is shown.
    Assumed,
}

/// Share of each stage that one treatment kills, 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kills {
    /// Eggs.
    pub egg: f64,
    /// Scales, larvae, nymphs.
    pub young: f64,
    /// Pupae.
    pub pupa: f64,
    /// Adults.
    pub adult: f64,
    /// Where the shares come from.
    pub basis: Basis,
}

impl Kills {
    /// None at all.
    pub const NONE: Self = assumed(0.0, 0.0, 0.0, 0.0);

    /// Of one stage.
    #[must_use]
    pub const fn of(&self, stage: LifeStage) -> f64 {
        match stage {
            LifeStage::Egg => self.egg,
            LifeStage::Young => self.young,
            LifeStage::Pupa => self.pupa,
            LifeStage::Adult => self.adult,
        }
    }

    /// When only a share of the animals is reached, 0 to 1.
    #[must_use]
    pub const fn with_coverage(self, share: f64) -> Self {
        Self {
            egg: self.egg * share,
            young: self.young * share,
            pupa: self.pupa * share,
            adult: self.adult * share,
            ..self
        }
    }

    /// Of two treatments on one day: what the first leaves, the second meets.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        const fn both(one: f64, other: f64) -> f64 {
            1.0 - (1.0 - one) * (1.0 - other)
        }
        Self {
            egg: both(self.egg, other.egg),
            young: both(self.young, other.young),
            pupa: both(self.pupa, other.pupa),
            adult: both(self.adult, other.adult),
            basis: self.basis,
        }
    }
}

const fn assumed(egg: f64, young: f64, pupa: f64, adult: f64) -> Kills {
    Kills {
        egg,
        young,
        pupa,
        adult,
        basis: Basis::Assumed,
    }
}

const fn published(egg: f64, young: f64, adult: f64) -> Kills {
    Kills {
        egg,
        young,
        pupa: 0.0,
        adult,
        basis: Basis::Published,
    }
}

/// Share of the leaf surface that a home sprayer wets (choice): multiplies what was killed in a laboratory.
pub const HOME_COVERAGE: f64 = 0.8;
/// Shares of egg, young, pupa and adult killed. Soap or oil on whitefly (choice; its shape, with egg and pupa hardly touched, from
/// Kessler, Auburn University, read).
const CONTACT_ON_WHITEFLY: Kills = assumed(0.0, 0.8, 0.2, 0.8);
/// Shares of egg, young and adult. Soap dips on spider mites in a laboratory: young .89 to .99, adults .93 to .99 (household soap, airiti
/// 2006, abstract read).
const CONTACT_ON_MITES: Kills = published(0.0, 0.94, 0.96);
/// Shares of egg, young and adult. Soap of 2 % on aphids in a laboratory: young .98, adults .95 (Wikipedia, read).
const CONTACT_ON_APHIDS: Kills = published(0.0, 0.98, 0.95);
/// Shares of egg, young, pupa and adult. Any other spray: as a product that goes through the plant might (choice).
const OTHER_SPRAY: Kills = assumed(0.0, 0.9, 0.3, 0.7);
/// Shares of egg, young, pupa and adult. Shaking and a vacuum cleaner at dawn on what flies (choice; the principle alone is published).
const VACUUM: Kills = assumed(0.0, 0.0, 0.0, 0.6);
/// Shares of egg, young, pupa and adult. A water jet on mites and aphids (choice).
const JET_ON_MITES: Kills = assumed(0.2, 0.6, 0.0, 0.6);
/// Shares of egg, young, pupa and adult. A water jet on whitefly (choice).
const JET_ON_WHITEFLY: Kills = assumed(0.0, 0.2, 0.0, 0.5);
/// Shares of egg, young, pupa and adult. Picking and squashing what is seen (choice).
const HAND_PICKING: Kills = assumed(0.2, 0.5, 0.2, 0.3);
/// Share of the adults that sticky cards catch in a week (choice; in a trial adults became fewer, their young did not).
const CARDS_IN_A_WEEK: f64 = 0.3;
/// Share of scales or nymphs that a parasitoid at work takes in a week (choice, nothing published fits a home).
const PARASITISED_IN_A_WEEK: f64 = 0.3;
/// Days after a parasitoid is brought in until its first young are at work (choice: about 18 days at 25 °C, 30 at 20).
pub const PARASITOID_STARTS_AFTER: u16 = 21;

impl Control {
    /// Every one.
    pub const ALL: [Self; 11] = [
        Self::Vacuum,
        Self::WaterJet,
        Self::HandPicking,
        Self::StickyCards,
        Self::Traps,
        Self::ContactSpray,
        Self::OtherSpray,
        Self::FerricPhosphate,
        Self::Parasitoid,
        Self::PredatoryMite,
        Self::Nematodes,
    ];

    /// Whether it is a plant protection product: no date without its label.
    #[must_use]
    pub const fn needs_label(self) -> bool {
        matches!(self, Self::ContactSpray | Self::OtherSpray | Self::FerricPhosphate)
    }

    /// Whether it is sprayed from a can of something: what burns leaves, meets bees and stops parasitoids.
    #[must_use]
    pub const fn is_sprayed(self) -> bool {
        matches!(self, Self::ContactSpray | Self::OtherSpray)
    }

    /// Whether it is done to the plants by hand, and may be done on any day.
    #[must_use]
    pub const fn is_by_hand(self) -> bool {
        matches!(self, Self::Vacuum | Self::WaterJet | Self::HandPicking)
    }

    /// Whether it is a living thing that is brought in.
    #[must_use]
    pub const fn is_living(self) -> bool {
        matches!(self, Self::Parasitoid | Self::PredatoryMite | Self::Nematodes)
    }

    /// What one treatment kills, where numbers can be given; for what works all week, what it kills in a day.
    #[must_use]
    pub fn kills(self, pest: Pest) -> Option<Kills> {
        Some(match (self, pest) {
            (Self::ContactSpray, Pest::Whitefly) => CONTACT_ON_WHITEFLY,
            (Self::ContactSpray, Pest::SpiderMite | Pest::RussetMite) => CONTACT_ON_MITES.with_coverage(HOME_COVERAGE),
            (Self::ContactSpray, Pest::Aphid) => CONTACT_ON_APHIDS.with_coverage(HOME_COVERAGE),
            (Self::OtherSpray, _) => OTHER_SPRAY,
            (Self::Vacuum, Pest::Whitefly | Pest::Thrips) => VACUUM,
            (Self::WaterJet, Pest::Whitefly) => JET_ON_WHITEFLY,
            (Self::WaterJet, Pest::SpiderMite | Pest::Aphid) => JET_ON_MITES,
            (Self::HandPicking, _) => HAND_PICKING,
            (Self::StickyCards, Pest::Whitefly | Pest::Thrips) => assumed(0.0, 0.0, 0.0, daily(CARDS_IN_A_WEEK)),
            (Self::Parasitoid, Pest::Whitefly | Pest::Aphid) => assumed(0.0, daily(PARASITISED_IN_A_WEEK), 0.0, 0.0),
            _ => return None,
        })
    }

    /// Whether it works every day from when it is put up.
    #[must_use]
    pub const fn works_all_week(self) -> bool {
        matches!(self, Self::StickyCards | Self::Parasitoid)
    }
}

/// The share in a day of which seven make this share in a week (exact).
fn daily(in_a_week: f64) -> f64 {
    1.0 - (1.0 - in_a_week).powf(1.0 / 7.0)
}

impl Pest {
    /// What can be done about it, what needs no label first.
    #[must_use]
    pub const fn controls(self) -> &'static [Control] {
        match self {
            Self::Whitefly => &[
                Control::Vacuum,
                Control::WaterJet,
                Control::StickyCards,
                Control::ContactSpray,
                Control::OtherSpray,
                Control::Parasitoid,
            ],
            Self::SpiderMite => &[
                Control::WaterJet,
                Control::HandPicking,
                Control::ContactSpray,
                Control::OtherSpray,
                Control::PredatoryMite,
            ],
            Self::Aphid => &[
                Control::WaterJet,
                Control::HandPicking,
                Control::ContactSpray,
                Control::OtherSpray,
                Control::Parasitoid,
            ],
            Self::Thrips => &[Control::Vacuum, Control::StickyCards, Control::ContactSpray, Control::OtherSpray],
            Self::RussetMite => &[Control::HandPicking, Control::ContactSpray, Control::OtherSpray],
            Self::LeafMiningMoth | Self::TomatoMoth => &[Control::HandPicking, Control::OtherSpray],
            Self::LeafMiningFly => &[Control::HandPicking],
            Self::Slug => &[Control::HandPicking, Control::Traps, Control::Nematodes, Control::FerricPhosphate],
        }
    }

    /// What is done where a label does not allow a spray, or nothing was chosen.
    #[must_use]
    pub const fn physical_control(self) -> Control {
        match self {
            Self::Whitefly | Self::Thrips => Control::Vacuum,
            Self::SpiderMite | Self::Aphid => Control::WaterJet,
            _ => Control::HandPicking,
        }
    }
}
