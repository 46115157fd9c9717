use super::canopy::FULL_HEIGHT;
use super::{
    Canopy, Container, Group, LATENT_HEAT, Place, ReferenceDay, TOMATO_SINGLE, climatic_adjustment, makkink, penman_monteith,
    radiation_weighting,
};
use crate::almanac::{
    DAILY_SOIL_HEAT_FLUX, STANDARD_ELEVATION_METRES, Weather, atmospheric_pressure, clear_sky_radiation, mean_saturation_vapour_pressure,
    net_longwave, net_shortwave, saturation_vapour_pressure, vapour_pressure_from_mean_humidity, vapour_pressure_from_minimum_temperature,
};
use crate::working::{Working, value};

/// Use of a canopy that catches all light over Makkink's reference use, no unit (computed: 0.65 × 1.30 = 0.845, where 0.870 was
/// fitted to a greenhouse simulation with the published conductances of Vanthoor 2011; a full canopy then stands at 1.14
/// times reference use, within the 1.10 to 1.20 of FAO-56).
const CANOPY_COEFFICIENT: f64 = 1.30;
/// Radiation's share where humidity is known, no unit (computed: the same simulation, term a).
const HUMID_RADIATION_COEFFICIENT: f64 = 0.364;
/// Litres per m² of leaf and kPa where humidity is known (computed: the same simulation, term b).
const HUMID_DEFICIT_COEFFICIENT: f64 = 0.660;
/// Water of a swelling truss, litres a day: 12 g of fruit, 94 % water (choice).
const WATER_PER_TRUSS: f64 = 0.94 * 0.012;
/// Trusses that swell at one time (choice).
const SWELLING_TRUSSES: f64 = 5.0;
/// Water of new leaves and stem, litres a day, from half a metre of height on (choice).
const WATER_OF_GROWTH: f64 = 0.018;
/// Height from which that holds, m (choice).
const GROWING_HEIGHT: f64 = 0.5;
/// Share of reference use that rain loses from the wet surface before it reaches roots (FAO-56 p. 170; read).
const RAIN_LOST_TO_SURFACE: f64 = 0.2;
/// Rain that stays on the leaves, mm for each unit of leaf area index (from memory).
const RAIN_LOST_TO_LEAVES: f64 = 0.2;

/// Water that one plant and its compost used in a day, litres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Demand {
    /// Through the leaves.
    pub transpiration: f64,
    /// From the open wet surface.
    pub evaporation: f64,
    /// Into fruit, leaves and stem.
    pub growth: f64,
    /// Reference use at the plant, mm: Makkink under cover, Penman–Monteith outdoors.
    pub reference: f64,
    /// Mean temperature at the plant, °C.
    pub mean_temperature: f64,
}

impl Demand {
    /// All of it, litres a day.
    #[must_use]
    pub const fn total(&self) -> f64 {
        self.transpiration + self.evaporation + self.growth
    }

    /// What a plant of this height (m) and trusses, with this ground and open wet surface (m²), used on a day.
    #[must_use]
    pub fn of(
        weather: &Weather,
        place: Place,
        canopy: &Canopy,
        (height, trusses): (f64, f64),
        ground: f64,
        wet_surface: f64,
        working: &mut Working,
    ) -> Self {
        working.step(
            "Sun on the ground",
            "Rs = clearness × Ra, the sun above the air",
            &[
                value("clearness", weather.clearness, "", 2),
                value("Ra", weather.sun.extraterrestrial_radiation, "MJ/m²", 1),
                value("daylight", weather.sun.daylight_hours, "h", 1),
            ],
            value("Rs", weather.solar_radiation, "MJ/m²", 1),
            "FAO Irrigation and Drainage Paper 56, Eq. 21 and 35; the words’ clearness is our choice",
        );
        let (transpiration, reference, mean_temperature) = match place {
            Place::Covered { .. } => under_cover(weather, place, canopy, ground, working),
            Place::Outdoors { exposure } => outdoors(weather, exposure.factor(), canopy, height, ground, working),
        };
        let evaporation = working.step(
            "From the wet surface",
            "reference use × light under the leaves × open surface",
            &[
                value("reference", reference, "mm", 2),
                value("light", canopy.light_passed(), "", 2),
                value("surface", wet_surface, "m²", 3),
            ],
            value("Es", reference * canopy.light_passed() * wet_surface, "litres", 2),
            "1 mm on 1 m² is 1 litre",
        );
        let growth = working.step(
            "Into fruit and growth",
            "0.94 × 0.012 × (trusses, at most 5) + 0.018 × (height, at most 0.5, ÷ 0.5)",
            &[value("trusses", trusses, "", 1), value("height", height, "m", 2)],
            value(
                "W",
                WATER_PER_TRUSS * trusses.min(SWELLING_TRUSSES) + WATER_OF_GROWTH * (height / GROWING_HEIGHT).min(1.0),
                "litres",
                2,
            ),
            "Fruit is about 94 % water; the daily gains are our choice",
        );
        Self {
            transpiration,
            evaporation,
            growth,
            reference,
            mean_temperature,
        }
    }

    /// Rain that reached the roots, litres: none under cover; outdoors what falls on the open compost, or on all the ground of
    /// a plant in a border, less what wet leaves and surface lose.
    #[must_use]
    pub fn rain_reaching(
        &self,
        weather: &Weather,
        group: &Group,
        canopy: &Canopy,
        ground: f64,
        wet_surface: f64,
        working: &mut Working,
    ) -> f64 {
        if !group.place.is_outdoors() || weather.rain_millimetres <= 0.0 {
            return 0.0;
        }
        let catch = if matches!(group.container, Container::Border) {
            ground
        } else {
            wet_surface
        };
        let through = weather.rain_millimetres - RAIN_LOST_TO_SURFACE * self.reference - RAIN_LOST_TO_LEAVES * canopy.leaf_area_index;
        working.step(
            "Rain that reached the roots",
            "(rain − 0.2 × ET₀ − 0.2 × LAI) × open compost, or × ground in a border",
            &[
                value("rain", weather.rain_millimetres, "mm", 1),
                value("ET₀", self.reference, "mm", 2),
                value("LAI", canopy.leaf_area_index, "", 2),
                value("catch", catch, "m²", 3),
            ],
            value("rain", through.max(0.0) * catch, "litres", 2),
            "FAO-56 p. 170 for the surface; leaves from memory",
        )
    }
}

/// Transpiration in litres, reference use in mm and the mean temperature at the plant in °C.
///
/// `Ri = τ·Rs`, `Tin = T + 0.12·Ri`, `Et = 1.30·0.65·f·Δ/(Δ+γ)·Ri/2.45·Ap`; with humidity
/// `Et = Ap·(0.364·f·Ri/2.45 + 0.660·LAI·VPD)`.
fn under_cover(weather: &Weather, place: Place, canopy: &Canopy, ground: f64, working: &mut Working) -> (f64, f64, f64) {
    let inside = working.step(
        "Through the cover",
        "Ri = share let through × Rs",
        &[
            value("share", place.transmission(), "", 2),
            value("Rs", weather.solar_radiation, "MJ/m²", 1),
        ],
        value("Ri", place.transmission() * weather.solar_radiation, "MJ/m²", 1),
        "Whole houses with frame and dirt: our choice, below the sheet’s own figure",
    );
    let warming = weather.inside_warming(inside);
    let mean = working.step(
        "Mean temperature inside",
        "Tin = (warmest + coolest) ÷ 2 + 0.12 × Ri for readings taken outside",
        &[
            value("warmest", weather.maximum, "°C", 1),
            value("coolest", weather.minimum, "°C", 1),
            value("added", warming, "°C", 1),
        ],
        value("Tin", weather.mean() + warming, "°C", 1),
        "FAO-56 Eq. 9; the warming by the sun is our choice, near simulated days",
    );
    let pressure = atmospheric_pressure(STANDARD_ELEVATION_METRES);
    let weighting = radiation_weighting(mean, pressure);
    let reference = working.step(
        "Reference use inside",
        "Er = 0.65 × Δ ÷ (Δ + γ) × Ri ÷ 2.45",
        &[value("Δ ÷ (Δ + γ)", weighting, "", 3), value("Ri", inside, "MJ/m²", 1)],
        value("Er", makkink(mean, inside, pressure), "mm", 2),
        "Makkink 1957; 2.45 MJ lifts a litre of water",
    );
    let transpiration = match weather.humidity_percent {
        None => working.step(
            "Through the leaves",
            "Et = 1.30 × f × Er × ground",
            &[
                value("f", canopy.light_caught, "", 2),
                value("Er", reference, "mm", 2),
                value("ground", ground, "m²", 2),
            ],
            value("Et", CANOPY_COEFFICIENT * canopy.light_caught * reference * ground, "litres", 2),
            "1.30 fitted to simulated greenhouse days with published leaf data (Vanthoor 2011)",
        ),
        Some(humidity) => {
            let maximum = weather.maximum + warming;
            let minimum = weather.minimum + warming;
            let deficit =
                mean_saturation_vapour_pressure(maximum, minimum) - vapour_pressure_from_mean_humidity(maximum, minimum, humidity);
            let depth = HUMID_RADIATION_COEFFICIENT * canopy.light_caught * inside / LATENT_HEAT
                + HUMID_DEFICIT_COEFFICIENT * canopy.leaf_area_index * deficit;
            working.step(
                "Through the leaves",
                "Et = (0.364 × f × Ri ÷ 2.45 + 0.660 × LAI × dryness) × ground",
                &[
                    value("f", canopy.light_caught, "", 2),
                    value("Ri", inside, "MJ/m²", 1),
                    value("LAI", canopy.leaf_area_index, "", 2),
                    value("dryness", deficit, "kPa", 2),
                    value("ground", ground, "m²", 2),
                ],
                value("Et", depth * ground, "litres", 2),
                "Fitted to the same simulated days, with the air’s dryness",
            )
        }
    };
    (transpiration, reference, mean)
}

/// The same for plants in the open.
///
/// `Et = x·[1.15 + (0.04(u₂ − 2) − 0.004(RHmin − 45))(h/3)^0.3]·f·ET₀·Ap` with ET₀ by FAO-56 Eq. 6, and `h` at most 1.8 m: above that
/// the leaves grow no more, and on a calm, humid day a taller plant would get less.
fn outdoors(weather: &Weather, exposure: f64, canopy: &Canopy, height: f64, ground: f64, working: &mut Working) -> (f64, f64, f64) {
    let (maximum, minimum) = (weather.outside_maximum(), weather.outside_minimum());
    let vapour_pressure = weather.humidity_percent.map_or_else(
        || vapour_pressure_from_minimum_temperature(minimum),
        |humidity| vapour_pressure_from_mean_humidity(maximum, minimum, humidity),
    );
    let clear_sky = clear_sky_radiation(weather.sun.extraterrestrial_radiation, STANDARD_ELEVATION_METRES);
    let net_radiation =
        net_shortwave(weather.solar_radiation) - net_longwave(maximum, minimum, vapour_pressure, weather.solar_radiation, clear_sky);
    let mean = f64::midpoint(maximum, minimum);
    let day = ReferenceDay {
        mean_celsius: mean,
        net_radiation,
        soil_heat_flux: DAILY_SOIL_HEAT_FLUX,
        wind_speed: weather.wind_metres_per_second,
        saturation_vapour_pressure: mean_saturation_vapour_pressure(maximum, minimum),
        actual_vapour_pressure: vapour_pressure,
        pressure_kilopascals: atmospheric_pressure(STANDARD_ELEVATION_METRES),
    };
    let reference = working.step(
        "Reference use outdoors",
        "ET₀ by Penman–Monteith from sun, temperature, humidity and wind",
        &[
            value("Rn", net_radiation, "MJ/m²", 1),
            value("warmest", maximum, "°C", 1),
            value("coolest", minimum, "°C", 1),
            value("ea", vapour_pressure, "kPa", 2),
            value("wind", weather.wind_metres_per_second, "m/s", 1),
        ],
        value("ET₀", penman_monteith(&day).max(0.0), "mm", 2),
        "FAO-56 Eq. 6; unread humidity from the coolest hour (Eq. 48), unread wind 2 m/s (p. 63)",
    );
    let least_humidity = 100.0 * vapour_pressure / saturation_vapour_pressure(maximum);
    let height = height.min(FULL_HEIGHT);
    let coefficient = (TOMATO_SINGLE.middle + climatic_adjustment(weather.wind_metres_per_second, least_humidity, height)).max(0.0);
    let transpiration = working.step(
        "Through the leaves",
        "Et = exposure × Kc × f × ET₀ × ground",
        &[
            value("exposure", exposure, "", 2),
            value("Kc", coefficient, "", 2),
            value("f", canopy.light_caught, "", 2),
            value("ET₀", reference, "mm", 2),
            value("ground", ground, "m²", 2),
        ],
        value("Et", exposure * coefficient * canopy.light_caught * reference * ground, "litres", 2),
        "FAO-56 Table 12 with Eq. 62, tomato 1.15; exposure is our choice",
    );
    (transpiration, reference, mean)
}
