use super::{Label, Told};

/// Why a label gives no date.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shut {
    /// It does not name tomatoes or edible crops.
    NotThisCrop,
    /// It does not name where they stand.
    NotThisPlace,
    /// It is not for home gardens.
    NotForHomes,
    /// One of the three was not answered.
    Unread,
    /// The days between uses, or the most uses, were not read: no date could be sure to keep to them.
    LimitsUnread,
}

/// A label that was read and names the crop, the place and home gardens. Only [`cleared`] makes one, and whatever gives a date for
/// using a product, or for picking after it, asks for one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cleared {
    least_days: u16,
    most_uses: u16,
    label: Label,
}

/// The crop gate: lets a label through that was read and names the crop, the place and home gardens.
///
/// # Errors
/// [`Shut`], by the first reason: a plain no before what is not known.
pub fn cleared(label: &Label) -> Result<Cleared, Shut> {
    let answers = [
        (label.names_crop, Shut::NotThisCrop),
        (label.names_place, Shut::NotThisPlace),
        (label.for_home, Shut::NotForHomes),
    ];
    if let Some((_, why)) = answers.iter().find(|(told, _)| *told == Told::No) {
        return Err(*why);
    }
    if answers.iter().any(|(told, _)| *told != Told::Yes) {
        return Err(Shut::Unread);
    }
    let (Some(least_days), Some(most_uses)) = (label.least_days, label.most_uses) else {
        return Err(Shut::LimitsUnread);
    };
    Ok(Cleared {
        least_days,
        most_uses,
        label: *label,
    })
}

impl Cleared {
    /// Least days between two uses.
    #[must_use]
    pub const fn least_days(&self) -> u16 {
        self.least_days
    }

    /// Most uses.
    #[must_use]
    pub const fn most_uses(&self) -> u16 {
        self.most_uses
    }

    /// All that was read.
    #[must_use]
    pub const fn label(&self) -> &Label {
        &self.label
    }
}
