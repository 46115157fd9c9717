use crate::quantity::{OutOfRange, Range};

/// Degrees from the south pole to the north pole.
pub const LATITUDE_RANGE: Range = Range {
    what: "Latitude",
    low: -90.0,
    high: 90.0,
    unit: "°",
};

/// The latitude assumed until the grower says where they are, degrees north: the English midlands (choice).
pub const STANDARD_LATITUDE: Latitude = Latitude(52.0);

/// A latitude, no finer than half a degree, so that what is kept cannot tell a plot from its neighbours for miles around.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Latitude(f64);

impl Latitude {
    /// Degrees north (negative: south), −90 to 90, rounded to the nearest half.
    ///
    /// # Errors
    /// When it lies outside −90 to 90 or is not a number.
    pub fn from_degrees_north(degrees: f64) -> Result<Self, OutOfRange> {
        let degrees = LATITUDE_RANGE.check(degrees)?;
        Ok(Self((degrees * 2.0).round() / 2.0))
    }

    /// Degrees north; negative in the southern hemisphere.
    #[must_use]
    pub const fn degrees_north(self) -> f64 {
        self.0
    }

    /// Whether the seasons are those of the south.
    #[must_use]
    pub const fn is_southern(self) -> bool {
        self.0 < 0.0
    }
}

/// A part of the world with a latitude that is near enough for all of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct District {
    /// Its everyday name.
    pub name: &'static str,
    /// Its middle latitude, degrees north.
    pub degrees_north: f64,
}

/// Latitudes of gardens in countries that lie far from the standard one, degrees north: about where most people live (choice).
const COUNTRIES: [(&str, f64); 8] = [
    ("us", 40.0),
    ("ca", 45.0),
    ("nz", -38.0),
    ("au", -37.0),
    ("za", -30.0),
    ("fr", 47.5),
    ("it", 44.5),
    ("es", 42.0),
];

/// Where a garden is taken to lie by its country, two letters of ISO 3166, until told; degrees north. Nothing where the standard latitude
/// does.
#[must_use]
pub fn usual_latitude(country: &str) -> Option<f64> {
    let found = COUNTRIES.iter().find(|(name, _)| name.eq_ignore_ascii_case(country));
    found.map(|(_, degrees)| *degrees)
}

/// The districts offered for choosing, from north to south, by their middle latitudes, degrees, to half a degree (choice).
pub const DISTRICTS: &[District] = &[
    District {
        name: "Shetland, Orkney, southern Norway",
        degrees_north: 60.0,
    },
    District {
        name: "Northern Scotland",
        degrees_north: 57.5,
    },
    District {
        name: "Southern Scotland, Denmark",
        degrees_north: 55.5,
    },
    District {
        name: "Northern England, Northern Ireland",
        degrees_north: 54.0,
    },
    District {
        name: "Ireland, northern Wales, north midlands",
        degrees_north: 53.0,
    },
    District {
        name: "Midlands, East Anglia, the Netherlands",
        degrees_north: 52.0,
    },
    District {
        name: "Southern England, south Wales, Belgium",
        degrees_north: 51.0,
    },
    District {
        name: "Cornwall, Channel Islands, northern France",
        degrees_north: 49.5,
    },
    District {
        name: "Middle France, southern Germany",
        degrees_north: 47.5,
    },
    District {
        name: "Southern France, northern Italy",
        degrees_north: 44.5,
    },
    District {
        name: "Northern Spain, central Italy",
        degrees_north: 42.0,
    },
    District {
        name: "Southern Canada, northern United States",
        degrees_north: 46.0,
    },
    District {
        name: "Middle United States",
        degrees_north: 40.0,
    },
    District {
        name: "New Zealand, North Island",
        degrees_north: -38.0,
    },
    District {
        name: "New Zealand, South Island",
        degrees_north: -44.0,
    },
    District {
        name: "Tasmania",
        degrees_north: -42.0,
    },
    District {
        name: "South-east Australia",
        degrees_north: -37.0,
    },
    District {
        name: "Southern Chile",
        degrees_north: -40.0,
    },
];
