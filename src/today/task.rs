use crate::almanac::CivilDay;

/// Something to do in a day, in the order of doing: how the compost is comes before water, water before feed, tapping before anything that wets, the path before the heat, the last pour before the evening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Task {
    /// Squeeze a handful of compost before pouring.
    Squeeze,
    /// Lift a pot before pouring: a light one is dry.
    LiftPot,
    /// Water the dry ones, in parts, before all others.
    WaterDry,
    /// Water.
    Water,
    /// Feed, on compost that is moist by then.
    Feed,
    /// Squeeze once more, and let that decide whether the rest goes on.
    SqueezeAgain,
    /// Fill the butt from the tap.
    TopUpButt,
    /// Tap canes or trusses in flower.
    Tap,
    /// Wet the path.
    DampPath,
    /// Take out the tip above the last truss that is likely to ripen.
    StopPlants,
    /// Feed half as often, and let the water fall with the leaves.
    Taper,
    /// The second of three waterings.
    PourAtNoon,
    /// The last of several waterings.
    PourBeforeThree,
    /// Someone has to come and water.
    SomeoneComes,
}

/// Why something is to be done, or not today.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reason {
    /// It is what the morning's sum says.
    Daily,
    /// The compost feels dry.
    Dry,
    /// Dry roots are scorched by feed.
    DryRoots,
    /// The compost is sodden.
    Sodden,
    /// The sum is known to read high on dull days.
    SumReadsHigh,
    /// Rain has given what was used.
    RainDidIt,
    /// A day's use is more than half of what comes easily from the compost.
    SmallStore,
    /// Flowers are open and the air is right.
    FlowersOpen,
    /// The same, and the path is wetted later: pollen must be dry.
    BeforeWetting,
    /// It is hot and the air is dry.
    HotAndDry,
    /// It is too dull.
    Dull,
    /// It is too cool.
    Cool,
    /// It is too warm.
    Warm,
    /// The night was too cold for fruit to set.
    ColdNight,
    /// The day was too hot for fruit to set.
    HotDay,
    /// The air is too damp.
    DampAir,
    /// There is too little in the butt for this morning.
    ButtShortToday,
    /// What is left in it does not last another clear day.
    ButtShortTomorrow,
    /// A flower that opens later is not likely to ripen.
    LastTruss,
    /// Few weeks of ripening weather are left.
    SeasonEnds,
    /// Nobody is at home.
    Away,
    /// As many days have gone by since the last feed as the grower leaves.
    FeedDue,
    /// They have had today's water.
    AlreadyWatered,
}

/// Hours of the day between which something is best done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Hours {
    /// From this hour, 0 to 23.
    pub from: u8,
    /// Done by this hour.
    pub until: u8,
}

/// One line of the round.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// What.
    pub task: Task,
    /// Why, or why not today.
    pub reason: Reason,
    /// Whether it is left out today, for that reason.
    pub not_today: bool,
    /// When in the day, where it matters.
    pub hours: Option<Hours>,
    /// On which day, if not today.
    pub day: Option<CivilDay>,
    /// Positions of the groups that it is for, rising; empty when it is for the whole plot.
    pub groups: Vec<usize>,
}
