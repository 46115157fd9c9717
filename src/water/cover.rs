/// Share of the light that shading paint or net lets through, whole house and day (choice; a published measurement found
/// whitening to cut reference use by 21 %, heavier shading cuts more).
const SHADING_TRANSMISSION: f64 = 0.6;

/// What stands between the sky and the plants.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Cover {
    /// Glass that was washed this year.
    CleanGlass,
    /// Glass as it usually is.
    #[default]
    Glass,
    /// Old, overgrown or overhung glass.
    OldGlass,
    /// Twin-wall polycarbonate, to 6 mm.
    TwinWall,
    /// Twin-wall or triple-wall polycarbonate of 10 mm and more.
    ThickTwinWall,
    /// A tunnel with polythene of the last two years.
    NewPolythene,
    /// A tunnel with older polythene.
    OldPolythene,
}

impl Cover {
    /// Share of the outside radiation that reaches the plants over a day, whole house with its frame, 0 to 1 (choice).
    ///
    /// Single sheets pass more at right angles: clean glass 0.88 (read, sheet data); a house loses the rest to frame, dirt
    /// and slanting light.
    #[must_use]
    pub const fn transmission(self) -> f64 {
        match self {
            Self::CleanGlass => 0.68,
            Self::Glass | Self::NewPolythene => 0.65,
            Self::OldGlass | Self::OldPolythene => 0.55,
            Self::TwinWall => 0.58,
            Self::ThickTwinWall => 0.52,
        }
    }
}

/// How open a spot outdoors is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Exposure {
    /// A row among other rows.
    Sheltered,
    /// A few plants by themselves.
    #[default]
    Usual,
    /// A basket, balcony or windy wall.
    Exposed,
}

impl Exposure {
    /// Factor on the use of a sheltered row, for air that comes from drier surroundings (choice).
    #[must_use]
    pub const fn factor(self) -> f64 {
        match self {
            Self::Sheltered => 1.0,
            Self::Usual => 1.15,
            Self::Exposed => 1.4,
        }
    }
}

/// Where the plants stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Under a cover, shaded with paint or net or not.
    Covered {
        /// The cover.
        cover: Cover,
        /// Whether shading paint or a net is on it.
        shaded: bool,
    },
    /// In the open.
    Outdoors {
        /// How open the spot is.
        exposure: Exposure,
    },
}

impl Default for Place {
    fn default() -> Self {
        Self::Covered {
            cover: Cover::Glass,
            shaded: false,
        }
    }
}

impl Place {
    /// Share of the outside radiation that reaches the plants, 0 to 1; 1 outdoors.
    #[must_use]
    pub const fn transmission(self) -> f64 {
        match self {
            Self::Covered { cover, shaded: true } => cover.transmission() * SHADING_TRANSMISSION,
            Self::Covered { cover, shaded: false } => cover.transmission(),
            Self::Outdoors { .. } => 1.0,
        }
    }

    /// Whether rain and wind reach the plants.
    #[must_use]
    pub const fn is_outdoors(self) -> bool {
        matches!(self, Self::Outdoors { .. })
    }
}
