use super::Thresholds;

/// A pest, or several that are told apart and treated alike.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pest {
    /// Glasshouse whitefly, *Trialeurodes vaporariorum*.
    #[default]
    Whitefly,
    /// Two-spotted spider mite, *Tetranychus urticae*: red spider.
    SpiderMite,
    /// Greenfly and other aphids: *Myzus persicae*, *Macrosiphum euphorbiae*.
    Aphid,
    /// Western flower thrips, *Frankliniella occidentalis*.
    Thrips,
    /// Tomato russet mite, *Aculops lycopersici*.
    RussetMite,
    /// Leaf-mining moth, *Tuta absoluta*: blotches, and holes into the fruit.
    LeafMiningMoth,
    /// Leaf-mining flies, *Liriomyza* and others: thin winding lines.
    LeafMiningFly,
    /// Tomato moth, *Lacanobia oleracea*: green or brown caterpillars.
    TomatoMoth,
    /// Slugs and snails.
    Slug,
}

/// How a pest is made sure of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Recognise {
    /// Seen with the bare eye.
    ByEye,
    /// Seen with a lens of ten times.
    ByLens,
    /// A leaf tapped over white paper, and the specks watched.
    ByPaperTap,
}

/// What an animal is, as far as a treatment is concerned.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LifeStage {
    /// An egg.
    Egg,
    /// A crawler, scale, larva or nymph that feeds.
    Young,
    /// At rest before the last moult.
    Pupa,
    /// Grown.
    Adult,
}

/// A stage before the adult.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Immature {
    /// What it is.
    pub stage: LifeStage,
    /// Warmth that it takes, °C·d.
    pub degree_days: f64,
}

/// How a pest lives, in warmth instead of days.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LifeTable {
    /// The stages before the adult, in their order.
    pub immature: &'static [Immature],
    /// From adult to first egg, °C·d.
    pub pre_oviposition: f64,
    /// Mean life of an adult, °C·d.
    pub adult_life: f64,
    /// Eggs of one female in her life.
    pub eggs: f64,
    /// Share of females.
    pub females: f64,
    /// Share of eggs that come to be adults when nothing is done.
    pub survival: f64,
}

/// What is known of a pest's speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Species {
    /// Temperatures between which it develops.
    pub thresholds: Thresholds,
    /// Warmth from the laid egg to its hatching, °C·d; nothing where there is no egg to wait for, or none is known.
    pub egg: Option<f64>,
    /// Warmth from egg (or from birth) to adult, °C·d, where that is known.
    pub cycle: Option<f64>,
    /// Its whole life, where that is known well enough for a curve.
    pub life: Option<LifeTable>,
    /// Whose numbers these are, and how they came here.
    pub source: &'static str,
}

/// Lower threshold of all immature stages, °C: 46.9 °F. Osborne 1982, Environmental Entomology 11:483–485 (second-hand).
const WHITEFLY_LOWER: f64 = 8.3;
/// Upper threshold, °C (choice; tried from 10 to 32 °C by Gamarra et al. 2020).
const WHITEFLY_UPPER: f64 = 30.0;
/// Egg to hatching, °C·d: 222 °F·d. Osborne 1982 (second-hand). Slow beside 6 to 10 days at 20 °C in two published sources.
pub(super) const WHITEFLY_EGG: f64 = 123.3;
/// Crawler and scales, °C·d: 56 of 100 parts of the 257.8 after hatching (choice, guided by stage ratios from memory).
pub(super) const WHITEFLY_SCALE: f64 = 144.4;
/// Last scale and pupa, °C·d: the other 44 parts (choice).
pub(super) const WHITEFLY_PUPA: f64 = 113.4;
/// Egg to adult, °C·d: 686 °F·d. Osborne 1982 (second-hand).
const WHITEFLY_CYCLE: f64 = 381.1;

/// Glasshouse whitefly, °C and °C·d.
const WHITEFLY: Species = Species {
    thresholds: Thresholds {
        lower: WHITEFLY_LOWER,
        upper: WHITEFLY_UPPER,
    },
    egg: Some(WHITEFLY_EGG),
    cycle: Some(WHITEFLY_CYCLE),
    life: Some(LifeTable {
        immature: &[
            Immature {
                stage: LifeStage::Egg,
                degree_days: WHITEFLY_EGG,
            },
            Immature {
                stage: LifeStage::Young,
                degree_days: WHITEFLY_SCALE,
            },
            Immature {
                stage: LifeStage::Pupa,
                degree_days: WHITEFLY_PUPA,
            },
        ],
        // Choice; under two days above 20 °C (Greenberg et al. 2000, read).
        pre_oviposition: 15.0,
        // Choice, within 6 to 36 days of six published rows.
        adult_life: 300.0,
        // Choice, within 9 to 211 of published rows: it differs most by host plant.
        eggs: 120.0,
        // Choice.
        females: 0.50,
        // Choice; 4 to 7 % are lost on cucumber (read).
        survival: 0.85,
    }),
    source: "Osborne 1982, Environmental Entomology 11:483 (second-hand); its egg looks slow",
};

/// Lower threshold, °C. Herbert 1981, Canadian Entomologist (abstract read).
const SPIDER_MITE_LOWER: f64 = 10.0;
/// Egg to adult female, °C·d: mean of 141.3, 152.3 and 139.8 at 15, 18 and 21 °C. Same source.
const SPIDER_MITE_CYCLE: f64 = 144.0;
/// Egg to hatching, °C·d: .44 of the whole, from published stage constants at 25 °C (computed).
pub(super) const SPIDER_MITE_EGG: f64 = 64.0;

/// Larva, protonymph, deutonymph and the warmth before the first egg, °C·d: .19, .17 and .20 of the whole (computed as the egg), and
/// 1.1 days at 25 °C (choice).
const SPIDER_MITE_TO_FIRST_EGG: [f64; 4] = [27.0, 24.0, 29.0, 16.0];
/// From hatching to the first egg of a spider mite, °C·d (computed: the sum).
pub(super) const SPIDER_MITE_HATCHED_TO_LAYING: f64 =
    SPIDER_MITE_TO_FIRST_EGG[0] + SPIDER_MITE_TO_FIRST_EGG[1] + SPIDER_MITE_TO_FIRST_EGG[2] + SPIDER_MITE_TO_FIRST_EGG[3];

/// Two-spotted spider mite, °C and °C·d.
const SPIDER_MITE: Species = Species {
    thresholds: Thresholds {
        lower: SPIDER_MITE_LOWER,
        // Choice.
        upper: 32.0,
    },
    egg: Some(SPIDER_MITE_EGG),
    cycle: Some(SPIDER_MITE_CYCLE),
    life: Some(LifeTable {
        immature: &[
            Immature {
                stage: LifeStage::Egg,
                degree_days: SPIDER_MITE_EGG,
            },
            Immature {
                stage: LifeStage::Young,
                degree_days: SPIDER_MITE_TO_FIRST_EGG[0],
            },
            Immature {
                stage: LifeStage::Young,
                degree_days: SPIDER_MITE_TO_FIRST_EGG[1],
            },
            Immature {
                stage: LifeStage::Young,
                degree_days: SPIDER_MITE_TO_FIRST_EGG[2],
            },
        ],
        pre_oviposition: SPIDER_MITE_TO_FIRST_EGG[3],
        // Choice.
        adult_life: 150.0,
        // Choice; up to 16 a day at 30 °C (read).
        eggs: 100.0,
        // 69 to 83 % in published rows (read).
        females: 0.75,
        // Choice; 86 % in one published row (read).
        survival: 0.80,
    }),
    source: "Herbert 1981, Canadian Entomologist (abstract read); stages from published constants at 25 °C",
};

/// A species of which only the whole way is known.
const fn whole_way(lower: f64, upper: f64, cycle: f64, source: &'static str) -> Species {
    Species {
        thresholds: Thresholds { lower, upper },
        egg: None,
        cycle: Some(cycle),
        life: None,
        source,
    }
}

/// Peach-potato aphid, °C and °C·d, from birth: Kim et al. 2012, Korean Journal of Applied Entomology 51:431 (abstract read). Upper threshold
/// (choice).
const APHID: Species = whole_way(3.0, 30.0, 111.1, "Kim et al. 2012, peach-potato aphid (abstract read)");
/// Western flower thrips, °C and °C·d: Katayama 1997, Japanese Journal of Applied Entomology and Zoology 41 (abstract read). Upper
/// threshold (choice).
const THRIPS: Species = whole_way(9.5, 32.0, 194.0, "Katayama 1997, western flower thrips (abstract read)");
/// Tomato russet mite, °C and °C·d: Haque and Kawai 2003, Applied Entomology and Zoology 38:97 (abstract read). Upper threshold (choice).
const RUSSET_MITE: Species = whole_way(10.5, 32.0, 81.2, "Haque and Kawai 2003 (abstract read)");
/// Leaf-mining moth, °C and °C·d: European Journal of Entomology 2015 (abstract read); too fast below 15 °C. Upper threshold
/// (choice).
const LEAF_MINING_MOTH: Species = whole_way(
    8.0,
    30.0,
    416.7,
    "European Journal of Entomology 2015 (abstract read); unsure below 15 °C",
);
/// Field slug, °C and °C·d, laid egg to hatching: 16.3 days at 20 °C and 39.8 at 12 (Clemente et al. 2008, read); line through both (computed).
/// Upper threshold, where it grows no better (choice).
const SLUG: Species = Species {
    thresholds: Thresholds { lower: 6.45, upper: 20.0 },
    egg: Some(220.8),
    cycle: None,
    life: None,
    source: "Clemente et al. 2008, field slug eggs (abstract read)",
};

impl Pest {
    /// Every one, in the order in which they are offered.
    pub const ALL: [Self; 9] = [
        Self::Whitefly,
        Self::SpiderMite,
        Self::Aphid,
        Self::Thrips,
        Self::RussetMite,
        Self::LeafMiningMoth,
        Self::LeafMiningFly,
        Self::TomatoMoth,
        Self::Slug,
    ];

    /// How fast it develops; nothing where no numbers are known.
    #[must_use]
    pub const fn species(self) -> Option<&'static Species> {
        Some(match self {
            Self::Whitefly => &WHITEFLY,
            Self::SpiderMite => &SPIDER_MITE,
            Self::Aphid => &APHID,
            Self::Thrips => &THRIPS,
            Self::RussetMite => &RUSSET_MITE,
            Self::LeafMiningMoth => &LEAF_MINING_MOTH,
            Self::Slug => &SLUG,
            Self::LeafMiningFly | Self::TomatoMoth => return None,
        })
    }

    /// How it is made sure of.
    #[must_use]
    pub const fn recognise(self) -> Recognise {
        match self {
            Self::SpiderMite | Self::Thrips => Recognise::ByPaperTap,
            Self::RussetMite => Recognise::ByLens,
            _ => Recognise::ByEye,
        }
    }
}

impl LifeTable {
    /// Warmth from egg to adult, °C·d.
    #[must_use]
    pub fn development(&self) -> f64 {
        self.immature.iter().map(|stage| stage.degree_days).sum()
    }
}
