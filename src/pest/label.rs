use super::{Control, Shut, cleared};
use crate::almanac::CivilDay;
use crate::quantity::Range;

/// Days between treatments, or before picking, that a label can give.
pub const LABEL_DAYS_RANGE: Range = Range {
    what: "Days on the label",
    low: 0.0,
    high: 365.0,
    unit: "",
};
/// Uses that a label can allow.
pub const LABEL_USES_RANGE: Range = Range {
    what: "Uses on the label",
    low: 1.0,
    high: 100.0,
    unit: "",
};

/// What the grower read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Told {
    /// It says so.
    Yes,
    /// It does not.
    No,
    /// Nobody has looked, or it cannot be found.
    #[default]
    Unknown,
}

/// What stands on the label of a product. Everything is unknown until it is read: nothing is ever assumed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Label {
    /// Whether it names tomatoes, or edible crops.
    pub names_crop: Told,
    /// Whether it names where they stand: under cover, or outdoors.
    pub names_place: Told,
    /// Whether it is for home gardens.
    pub for_home: Told,
    /// Least days between two uses; 0 where it says that it gives none.
    pub least_days: Option<u16>,
    /// Most uses on one crop or in one season.
    pub most_uses: Option<u16>,
    /// Days between the last use and picking: the harvest interval.
    pub days_before_picking: Option<u16>,
    /// The last day on which it may be used, if it names one.
    pub latest_use: Option<CivilDay>,
}

/// A product that is used against the pest: its kind, and what was read on its label.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Product {
    /// Its number among the products of the programme, from 1 on: a deed names it by that.
    pub number: u8,
    /// Its kind.
    pub control: Control,
    /// Its label.
    pub label: Label,
    /// Whether it is still to be used. One that is not counts for the picking of what it was used on.
    pub is_used: bool,
}

impl Product {
    /// The first product of a programme.
    #[must_use]
    pub const fn first(control: Control, label: Label) -> Self {
        Self {
            number: 1,
            control,
            label,
            is_used: true,
        }
    }
}

/// What stands between the label of one product and what the pest asks for. The label wins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Conflict {
    /// This product gives no date, while another of the programme does.
    GivesNone(Shut),
    /// The label asks for more days between uses than the pest gives: some young grow up meanwhile.
    LongerBetween {
        /// Days on the label.
        label: u16,
        /// Days that the pest gives.
        pest: u16,
    },
    /// The uses of all labels together come to an end before the pest's eggs do.
    UsesEnd {
        /// Uses on the labels.
        allowed: u16,
        /// Those of them that went in other programmes.
        elsewhere: u16,
        /// Treatments that the pest asks for.
        needed: u16,
    },
    /// The days before picking are more than the days between uses: nothing can be picked until the last use is over.
    NoPickingBetween {
        /// Days before picking.
        picking: u16,
        /// Days between uses.
        between: u16,
    },
    /// The label's last day comes before the last treatment.
    PastLatestUse(CivilDay),
    /// More was used than the label allows.
    UsedTooOften,
    /// Two uses were closer than the label allows.
    UsedTooSoon,
    /// The days before picking are not known: no day can be given.
    PickingUnknown,
}

/// One use of a product on the crop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Application {
    /// Its day.
    pub day: CivilDay,
    /// Days before picking on the label of that product, once read.
    pub days_before_picking: Option<u16>,
}

impl Application {
    /// The use of one of the products on a day. Only a label that was read in full, for this crop and place, says when to pick.
    #[must_use]
    pub fn of(day: CivilDay, number: u8, products: &[Product]) -> Self {
        let product = products.iter().find(|product| product.number == number);
        Self {
            day,
            days_before_picking: product.and_then(|product| cleared(&product.label).ok()?.label().days_before_picking),
        }
    }
}

/// A use of a product of this programme that was noted in another one, on the same plants: its label counts both.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SharedUse {
    /// The number of the product in this programme.
    pub product: u8,
    /// Its day.
    pub day: CivilDay,
}

/// On how many days a product is planned in all its programmes, and how many uses its label leaves, where that is fewer. Each day counts
/// once, in whichever of them it stands.
#[must_use]
pub fn overdrawn(planned: Vec<CivilDay>, used: Vec<CivilDay>, most_uses: u16) -> Option<(usize, usize)> {
    let left = usize::from(most_uses).saturating_sub(several(used));
    let planned = several(planned);
    (planned > left).then_some((planned, left))
}

fn several(mut days: Vec<CivilDay>) -> usize {
    days.sort_unstable();
    days.dedup();
    days.len()
}

/// The first day on which every label lets the crop be picked; nothing when one of them is unknown, or nothing was used.
///
/// `earliest picking = last application + n days`, the latest over all products; n = 0 is the same day, after it has dried.
#[must_use]
pub fn picking_day(applications: &[Application]) -> Option<CivilDay> {
    let mut latest = None;
    for application in applications {
        let day = application.day.days_later(i32::from(application.days_before_picking?));
        latest = latest.max(Some(day));
    }
    latest
}
