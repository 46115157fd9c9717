//! Programmes against pests that several files of checks begin with.

use first_truss::almanac::{CivilDay, STANDARD_LATITUDE};
use first_truss::pest::{Control, Deed, Extent, Label, Outline, Pest, Product, Programme, Told, Warmth};

#[track_caller]
pub fn day(text: &str) -> CivilDay {
    text.parse().expect("a day")
}

pub fn constant(celsius: f64) -> Warmth<'static> {
    Warmth {
        latitude: STANDARD_LATITUDE,
        glass: None,
        mean: Some(celsius),
        readings: &[],
    }
}

pub const fn read(least_days: u16, most_uses: u16, days_before_picking: Option<u16>) -> Label {
    Label {
        names_crop: Told::Yes,
        names_place: Told::Yes,
        for_home: Told::Yes,
        least_days: Some(least_days),
        most_uses: Some(most_uses),
        days_before_picking,
        latest_use: None,
    }
}

pub const fn product(number: u8, control: Control, label: Label) -> Product {
    Product {
        number,
        control,
        label,
        is_used: true,
    }
}

/// Whitefly at 20 °C from 1 June 2026 with these products.
pub fn whitefly<'a>(products: &'a [Product], beside: &'a [Control], deeds: &'a [Deed]) -> Programme<'a> {
    Programme {
        pest: Pest::Whitefly,
        control: products.first().map_or(Control::Vacuum, |product| product.control),
        beside,
        first: day("2026-06-01"),
        deeds,
        products,
        warmth: constant(20.0),
        extent: Extent::Full,
        chosen: &[],
        elsewhere: &[],
        shared: &[],
        sprayed: &[],
        fills_gaps: true,
    }
}

/// Days after 1 June, with what, and the number of the product.
pub fn plan(outline: &Outline) -> Vec<(i32, Control, u8)> {
    let visits = outline.visits.iter();
    visits
        .map(|visit| (visit.day.days_since(day("2026-06-01")), visit.control, visit.product))
        .collect()
}

pub fn sprays(outline: &Outline) -> Vec<(i32, u8)> {
    let plan = plan(outline).into_iter();
    plan.filter(|(_, control, _)| control.needs_label())
        .map(|(day, _, product)| (day, product))
        .collect()
}

pub const CONTACT: Control = Control::ContactSpray;
pub const OTHER: Control = Control::OtherSpray;
