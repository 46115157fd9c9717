//! What a grower reads of a pot, one thing at a time, for several files of checks.

use first_truss::water::{Feel, Readings};

pub fn feel(feel: Feel) -> Readings {
    Readings {
        feel: Some(feel),
        ..Readings::default()
    }
}

pub fn lighter(litres: f64) -> Readings {
    Readings {
        lighter: Some(litres),
        ..Readings::default()
    }
}

pub fn drip(litres: f64) -> Readings {
    Readings {
        drip: Some(litres),
        ..Readings::default()
    }
}
