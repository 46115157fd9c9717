//! From the reference crop to tomatoes: crop coefficients and their adjustments.
//!
//! Source: FAO-56 (Allen, Pereira, Raes and Smith 1998, *Crop evapotranspiration*, FAO Irrigation and Drainage
//! Paper 56), chapters 6, 7 and 9. Table 17 was read through the open-source library pyfao56; Eq. 62 and 70
//! are from memory, confirmed by example 40.

use crate::quantity::bounded;

/// Crop coefficients of a season's stages, no unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StageCoefficients {
    /// From planting to about 10 % ground cover.
    pub initial: f64,
    /// From full cover to the start of ripening.
    pub middle: f64,
    /// At the end of the season.
    pub end: f64,
}

/// Single crop coefficient `Kc` of tomato, no unit, FAO-56 Table 12 (read). The table gives 0.70 to 0.90 for the end; the
/// upper value is for fruit picked fresh to the last (choice).
pub const TOMATO_SINGLE: StageCoefficients = StageCoefficients {
    initial: 0.6,
    middle: 1.15,
    end: 0.90,
};

/// Basal crop coefficient `Kcb` of tomato, no unit, FAO-56 Table 17 (read second-hand, through pyfao56).
pub const TOMATO_BASAL: StageCoefficients = StageCoefficients {
    initial: 0.15,
    middle: 1.10,
    end: 0.70,
};

/// What staking to 1.5–2 m adds to the middle coefficient, no unit: 1.20 in place of 1.15 for `Kc` and, in example
/// 40, 1.15 in place of 1.10 for `Kcb`. FAO-56 Table 12, footnote (read).
pub const STAKING_GAIN: f64 = 0.05;

/// Extinction exponent of the leaf area, no unit. FAO-56 Eq. 97 (read).
pub const LEAF_EXTINCTION: f64 = 0.7;

/// What the climate adds to a middle or end coefficient, no unit, from wind at 2 m, m/s (0.5 to 6), lowest relative
/// humidity of the day, % (20 to 80), and crop height, m (0 to 10). Values outside are moved to the nearest end.
///
/// `ΔKc = [0.04·(u2 − 2) − 0.004·(RHmin − 45)]·(h/3)^0.3`, FAO-56 Eq. 62, 70 and 99 (from memory: 62 and 70 were
/// not seen as printed; 99 was read, and example 40 confirms it). The paper's own lower limit of the wind is 1 m/s; 0.5 is a
/// choice, to agree with the reference equation.
#[must_use]
pub fn climatic_adjustment(wind_speed: f64, minimum_humidity_percent: f64, height_metres: f64) -> f64 {
    let wind = bounded(wind_speed, 0.5, 6.0);
    let humidity = bounded(minimum_humidity_percent, 20.0, 80.0);
    (0.04 * (wind - 2.0) - 0.004 * (humidity - 45.0)) * (bounded(height_metres, 0.0, 10.0) / 3.0).powf(0.3)
}

/// Share of the light that the leaves take, 0 to 1, from the leaf area index, m²/m² (0 and up).
///
/// `1 − exp(−0.7·LAI)`, the factor of FAO-56 Eq. 97.
#[must_use]
pub fn interception(leaf_area_index: f64) -> f64 {
    1.0 - (-LEAF_EXTINCTION * leaf_area_index.max(0.0)).exp()
}

/// Basal crop coefficient `Kcb`, no unit, of a stand with leaf area index `LAI`, m²/m², between the coefficient of
/// bare dry ground (`Kcmin`, 0.15 to 0.20) and that of full cover (`Kcb full`).
///
/// `Kcb = Kcmin + (Kcb full − Kcmin)·(1 − exp(−0.7·LAI))`, FAO-56 Eq. 97.
#[must_use]
pub fn basal_coefficient_from_leaf_area(minimum_coefficient: f64, full_coefficient: f64, leaf_area_index: f64) -> f64 {
    minimum_coefficient + (full_coefficient - minimum_coefficient) * interception(leaf_area_index)
}

/// Ground shaded at solar noon by rows that run east and west, as a share (0 to 1), from the cover seen from above
/// (`fc`, 0 to 1), the height-to-width ratio of the row (`HWR`, 0 and up) and the sun's noon altitude (`η`, radians).
///
/// `fc eff = fc·(1 + HWR/tan η)`, at most 1, as worked in FAO-56 example 42, p. 191. A sun at or below the horizon
/// shades everything.
#[must_use]
pub fn effective_cover_of_rows(cover: f64, height_width_ratio: f64, noon_altitude_radians: f64) -> f64 {
    let cover = bounded(cover, 0.0, 1.0);
    let tangent = noon_altitude_radians.tan();
    if noon_altitude_radians <= 0.0 || tangent <= 0.0 {
        return if cover > 0.0 { 1.0 } else { 0.0 };
    }
    (cover * (1.0 + height_width_ratio.max(0.0) / tangent)).min(1.0)
}

/// Basal crop coefficient `Kcb`, no unit, from the cover seen from above (`fc`, 0 to 1), the effective cover
/// (`fc eff`, 0 to 1) and the crop height (`h`, m).
///
/// `Kcb = Kcmin + (Kcb full − Kcmin)·min(1, 2·fc, fc eff^(1/(1 + h)))`, FAO-56 Eq. 98, worked in example 42, p. 191.
#[must_use]
pub fn basal_coefficient_from_cover(
    minimum_coefficient: f64,
    full_coefficient: f64,
    cover: f64,
    effective_cover: f64,
    height_metres: f64,
) -> f64 {
    let by_shade = bounded(effective_cover, 0.0, 1.0).powf(1.0 / (1.0 + height_metres.max(0.0)));
    let density = by_shade.min(2.0 * bounded(cover, 0.0, 1.0)).min(1.0);
    minimum_coefficient + (full_coefficient - minimum_coefficient) * density
}

/// What a thin stand takes off the middle coefficient (`Acm`, 0 to 1), from its cover and that of a dense stand,
/// both shares of the ground (0 to 1).
///
/// `Acm = 1 − √(fc/fc dense)`, as worked in FAO-56 example 40, p. 185.
#[must_use]
pub fn thin_stand_reduction(cover: f64, dense_cover: f64) -> f64 {
    if dense_cover <= 0.0 {
        return 0.0;
    }
    1.0 - bounded(cover / dense_cover, 0.0, 1.0).sqrt()
}
