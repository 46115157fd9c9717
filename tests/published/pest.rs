//! From the quantities of the tables on pests to the calls of the library.

use first_truss::almanac::{CivilDay, Latitude};
use first_truss::pest::{
    Application, Basis, BlightNight, CalendarEntry, Control, Course, DAYS_AHEAD, DayReading, DayShape, Evening, Extent, GlassOffset, Kills,
    Label, LifeTable, Limits, Outline, Pest, Population, Product, Programme, Repeat, Schedule, SlugOutlook, Species, Standing, Thresholds,
    Told, Warmth, average_degree_days, blight_watch, calendar_file, development_line, growth, introduction, mean_degree_days, picking_day,
    repeat, schedule, slugs_tonight, spread_of_emergence,
};

use super::case::Inputs;

type Number = Result<f64, String>;

/// The quantity from the inputs.
pub fn answer(quantity: &str, inputs: &Inputs) -> Number {
    Ok(match quantity {
        // Warmth
        "degree_days" => degree_days(inputs)?,
        "usual_degree_days" => usual(inputs, day(inputs, "day")?)?,
        // Development
        "line_lower" => line(inputs)?.0,
        "line_degree_days" => line(inputs)?.1,
        "days_at" => inputs.number("degree_days")? / (inputs.number("celsius")? - inputs.number("lower")?),
        "stage_share" => {
            let (life, stage) = (life(inputs)?, inputs.whole::<usize>("stage")?);
            life.immature.get(stage - 1).ok_or("no such stage")?.degree_days / life.development()
        }
        "adult_days" => life(inputs)?.adult_life / pace(inputs)?,
        "days_behind_whitefly" => {
            let celsius = inputs.number("celsius")?;
            let whitefly = Pest::Whitefly.species().ok_or("no whitefly")?;
            let other = inputs.number("degree_days")? / (celsius - inputs.number("lower")?);
            other - whitefly.cycle.ok_or("no cycle")? / mean_degree_days(celsius, whitefly.thresholds)
        }
        "cycle_days" => species(inputs)?.cycle.ok_or("no cycle")? / pace(inputs)?,
        "egg_days" => species(inputs)?.egg.ok_or("no egg")? / pace(inputs)?,
        "stands_still" => f64::from(u8::from(pace(inputs)? <= 0.0)),
        "days_before_eggs" => life(inputs)?.pre_oviposition / pace(inputs)?,
        "cycle_degree_days" => {
            pace(inputs)?;
            species(inputs)?.cycle.ok_or("no cycle")?
        }
        "cycle_fahrenheit" => 1.8 * species(inputs)?.cycle.ok_or("no cycle")?,
        "egg_fahrenheit" => 1.8 * species(inputs)?.egg.ok_or("no egg")?,
        // Numbers
        "growth_per_degree_day" => growth(life(inputs)?),
        "growth_rate" => growth_rate(inputs)?,
        "share" => share(inputs)?,
        "total" => total(inputs)?,
        "late_days" => (life(inputs)?.development() + 1.645 * spread_of_emergence(life(inputs)?)) / pace(inputs)?,
        "spread_days" => spread_of_emergence(life(inputs)?) / pace(inputs)?,
        // Repeats
        "days_between" => {
            let days = constant_schedule(inputs)?.days;
            days_number(*days.get(1).ok_or("no second treatment")?)?
        }
        "treatments" => days_number(constant_schedule(inputs)?.days.len())?,
        "hatched" => of_year(outline(inputs)?.hatched.ok_or("no hatching")?.central),
        "last_adult" => of_year(outline(inputs)?.last_adult.ok_or("no last adult")?.central),
        "stalls" => f64::from(u8::from(outline(inputs)?.stalls)),
        "days_to_adult" => {
            let outline = outline(inputs)?;
            let readings = station_readings(inputs)?;
            let course = Course::after(outline.start, &warmth(inputs, &readings)?, species(inputs)?.thresholds);
            days_number(course.days_until(0, species(inputs)?.cycle.ok_or("no cycle")?).ok_or("never")?)?
        }
        "visits_every" => days_number(every(inputs)?.1.days.len())?,
        "last_visit_every" => {
            let (course, schedule) = every(inputs)?;
            of_year(course.date(*schedule.days.last().ok_or("no visit")?))
        }
        "visits" => days_number(own_visits(&outline(inputs)?).len())?,
        "visit" => {
            let number: usize = inputs.whole("number")?;
            of_year(*own_visits(&outline(inputs)?).get(number - 1).ok_or("no such visit")?)
        }
        "offered_without_label_or_physics" => {
            let known = [
                Control::Vacuum,
                Control::WaterJet,
                Control::HandPicking,
                Control::StickyCards,
                Control::Traps,
            ];
            let offered = pest(inputs)?.controls().iter();
            days_number(
                offered
                    .filter(|control| !known.contains(control) && !control.needs_label() && !control.is_living())
                    .count(),
            )?
        }
        "days_to_picking" => f64::from(picked(inputs)?.ok_or("no picking day")?),
        "no_picking_day" => f64::from(u8::from(picked(inputs)?.is_none())),
        "slugs_active" => f64::from(u8::from(slugs(inputs)?.is_active)),
        "slugs_about" => f64::from(u8::from(slugs(inputs)?.level > 0)),
        "blight" => f64::from(u8::from(blight(inputs)?)),
        "warm_enough" => {
            let (pest, control) = (pest(inputs)?, control(inputs.word("control")?)?);
            let today = CivilDay::default();
            let found = introduction(pest, control, &warmth(inputs, &[])?, &[], false, today).ok_or("no living control")?;
            f64::from(u8::from(found.day == Some(today)))
        }
        // The calendar file
        "fold_lines" => days_number(folded(inputs)?.len())?,
        "fold_last" => days_number(folded(inputs)?.pop().ok_or("no line")?.len())?,
        "fold_degree" => {
            // Of "SUMMARY:" with what makes 73 octets before the sign of two and one more.
            let line: usize = inputs.whole("line")?;
            let lines = summary_lines(&("a".repeat(74 - "SUMMARY:".len()) + "°b"));
            days_number(lines.get(line - 1).ok_or("no such line")?.len())?
        }
        "lone_line_feeds" => {
            let file = file_of("", day(inputs, "day")?);
            days_number(file.matches('\n').count() - file.matches("\r\n").count())?
        }
        "entry_days" => entry_days(inputs)?,
        "picked" => of_year(outline(inputs)?.pick_after_last.ok_or("no picking date")?),
        _ => return Err(format!("no quantity “{quantity}”")),
    })
}

/// A pest by its word in the tables.
pub fn pest(inputs: &Inputs) -> Result<Pest, String> {
    Ok(match inputs.word("pest")? {
        "whitefly" => Pest::Whitefly,
        "spider mite" => Pest::SpiderMite,
        "aphid" => Pest::Aphid,
        "thrips" => Pest::Thrips,
        "russet mite" => Pest::RussetMite,
        "leaf-mining moth" => Pest::LeafMiningMoth,
        "leaf-mining fly" => Pest::LeafMiningFly,
        "tomato moth" => Pest::TomatoMoth,
        "slug" => Pest::Slug,
        other => return Err(format!("no pest “{other}”")),
    })
}

/// A control by its word in the tables.
pub fn control(word: &str) -> Result<Control, String> {
    Ok(match word {
        "vacuum" => Control::Vacuum,
        "water jet" => Control::WaterJet,
        "hand picking" => Control::HandPicking,
        "sticky cards" => Control::StickyCards,
        "traps" => Control::Traps,
        "contact spray" => Control::ContactSpray,
        "other spray" => Control::OtherSpray,
        "ferric phosphate" => Control::FerricPhosphate,
        "parasitoid" => Control::Parasitoid,
        "predatory mite" => Control::PredatoryMite,
        "nematodes" => Control::Nematodes,
        other => return Err(format!("no control “{other}”")),
    })
}

fn species(inputs: &Inputs) -> Result<&'static Species, String> {
    pest(inputs)?.species().ok_or_else(|| "nothing is known of its speed".to_owned())
}

fn life(inputs: &Inputs) -> Result<&'static LifeTable, String> {
    species(inputs)?.life.as_ref().ok_or_else(|| "no life table".to_owned())
}

/// Degree-days of a day at a constant temperature.
fn pace(inputs: &Inputs) -> Number {
    Ok(mean_degree_days(inputs.number("celsius")?, species(inputs)?.thresholds))
}

fn degree_days(inputs: &Inputs) -> Number {
    let (coolest, warmest) = (inputs.number("coolest")?, inputs.number("warmest")?);
    let between = Thresholds {
        lower: inputs.number("lower")?,
        upper: inputs.number("upper")?,
    };
    Ok(match inputs.word("shape")? {
        "average" => average_degree_days(coolest, warmest, between.lower),
        "mean" => mean_degree_days(f64::midpoint(coolest, warmest), between),
        "triangle" => DayShape::Triangle.degree_days(coolest, warmest, between),
        "sine" => DayShape::Sine.degree_days(coolest, warmest, between),
        "double triangle" => DayShape::Triangle.double_degree_days(coolest, warmest, inputs.number("next")?, between),
        "double sine" => DayShape::Sine.double_degree_days(coolest, warmest, inputs.number("next")?, between),
        other => return Err(format!("no shape “{other}”")),
    })
}

/// A day of a case.
pub fn day(inputs: &Inputs, key: &str) -> Result<CivilDay, String> {
    inputs.word(key)?.parse::<CivilDay>().map_err(|error| error.to_string())
}

/// The usual temperatures of a case's place, or its constant one.
pub fn warmth<'a>(inputs: &Inputs, readings: &'a [DayReading]) -> Result<Warmth<'a>, String> {
    Ok(Warmth {
        latitude: Latitude::from_degrees_north(inputs.number_or("latitude", 52.0)?).map_err(|error| error.to_string())?,
        glass: inputs.flag("glass")?.then(GlassOffset::default),
        mean: if inputs.has("celsius") {
            Some(inputs.number("celsius")?)
        } else {
            None
        },
        readings,
    })
}

/// The usual extremes of a day at the exact latitude of a station: the program keeps latitudes to half a degree.
fn extremes(latitude: f64, has_glass: bool, day: CivilDay) -> Result<(f64, f64), String> {
    let south = (latitude * 2.0).floor() / 2.0;
    let glass = has_glass.then(GlassOffset::default);
    let at = |degrees: f64| {
        let latitude = Latitude::from_degrees_north(degrees).map_err(|error| error.to_string())?;
        let usual = first_truss::almanac::usual_temperatures(latitude, day);
        Ok::<_, String>((usual.minimum, usual.maximum))
    };
    let share = (latitude - south) / 0.5;
    let (south, north) = (at(south)?, at(south + 0.5)?);
    let between = |south: f64, north: f64| (1.0 - share) * south + share * north;
    let (by_day, by_night) = glass.map_or((0.0, 0.0), |glass| (glass.by_day, glass.by_night));
    Ok((between(south.0, north.0) + by_night, between(south.1, north.1) + by_day))
}

/// Degree-days of a usual day.
fn usual(inputs: &Inputs, day: CivilDay) -> Number {
    let (coolest, warmest) = extremes(inputs.number("latitude")?, inputs.flag("glass")?, day)?;
    Ok(DayShape::Sine.degree_days(coolest, warmest, species(inputs)?.thresholds))
}

/// The usual extremes of a case's station as readings, for every day that is looked ahead.
fn station_readings(inputs: &Inputs) -> Result<Vec<DayReading>, String> {
    let (latitude, has_glass) = (inputs.number("station")?, inputs.flag("glass")?);
    let mut day = day(inputs, "first")?;
    let mut readings = Vec::new();
    for _ in 0..=DAYS_AHEAD {
        let (coolest, warmest) = extremes(latitude, has_glass, day)?;
        readings.push(DayReading { day, coolest, warmest });
        day = day.tomorrow();
    }
    Ok(readings)
}

/// Treatments of adults alone every so many days.
fn every(inputs: &Inputs) -> Result<(Course, Schedule), String> {
    let readings = station_readings(inputs)?;
    control(inputs.word("control")?)?;
    let (days, first) = (inputs.whole("every")?, day(inputs, "first")?);
    let course = Course::after(first, &warmth(inputs, &readings)?, species(inputs)?.thresholds);
    let rule = Repeat::Every {
        warm: days,
        cool: days,
        until: species(inputs)?.cycle.ok_or("no cycle")?,
    };
    let schedule = schedule(&course, rule, Limits::default(), true);
    Ok((course, schedule))
}

/// The line through pairs such as "15:29.7 20:15.9".
fn line(inputs: &Inputs) -> Result<(f64, f64), String> {
    let mut times = Vec::new();
    for pair in inputs.word("times")?.split(' ') {
        let (celsius, days) = pair.split_once(':').ok_or("no pair")?;
        let number = |text: &str| text.parse::<f64>().map_err(|error| error.to_string());
        times.push((number(celsius)?, number(days)?));
    }
    development_line(&times).ok_or_else(|| "no line".to_owned())
}

fn growth_rate(inputs: &Inputs) -> Number {
    let (mut life, pace) = (*life(inputs)?, pace(inputs)?);
    if inputs.has("eggs") {
        life.eggs = inputs.number("eggs")?;
        life.adult_life = inputs.number("life_days")? * pace;
    }
    Ok(growth(&life) * pace)
}

fn share(inputs: &Inputs) -> Number {
    let [egg, young, pupa, adult] = Population::steady(life(inputs)?, 1.0).by_stage();
    Ok(match inputs.word("stage")? {
        "egg" => egg,
        "young" => young,
        "pupa" => pupa,
        "immature" => young + pupa,
        "adult" => adult,
        other => return Err(format!("no stage “{other}”")),
    })
}

/// Of 1000 in a steady mixture, after the treatments of the case.
fn total(inputs: &Inputs) -> Number {
    let mut population = Population::steady(life(inputs)?, 1000.0);
    let kills = Kills {
        egg: inputs.number_or("egg", 0.0)?,
        young: inputs.number_or("young", 0.0)?,
        pupa: inputs.number_or("pupa", 0.0)?,
        adult: inputs.number_or("adult", 0.0)?,
        basis: Basis::Assumed,
    };
    let days: Vec<u16> = if inputs.has("days") {
        inputs.word("days")?.split_whitespace().filter_map(|day| day.parse().ok()).collect()
    } else {
        Vec::new()
    };
    for day in 0..=inputs.whole::<u16>("day")? {
        if day > 0 {
            population.advance(pace(inputs)?);
        }
        if days.contains(&day) {
            population.treat(&kills);
        }
    }
    Ok(population.total())
}

/// A schedule at a constant temperature, without a label.
fn constant_schedule(inputs: &Inputs) -> Result<Schedule, String> {
    let pest = pest(inputs)?;
    let course = Course::after(CivilDay::default(), &warmth(inputs, &[])?, species(inputs)?.thresholds);
    let rule = repeat(pest, control(inputs.word("control")?)?).ok_or("no programme")?;
    Ok(schedule(&course, rule, Limits::default(), !inputs.flag("least")?))
}

/// The label of a case: it names everything where it has days between.
pub fn label(inputs: &Inputs) -> Result<Label, String> {
    let days = |key: &str| if inputs.has(key) { inputs.whole(key).map(Some) } else { Ok(None) };
    let told = if inputs.has("min") { Told::Yes } else { Told::Unknown };
    Ok(Label {
        names_crop: told,
        names_place: told,
        for_home: told,
        least_days: days("min")?,
        most_uses: days("max")?,
        days_before_picking: days("phi")?,
        latest_use: None,
    })
}

/// The programme of a case on the morning of its first day.
fn outline(inputs: &Inputs) -> Result<Outline, String> {
    let (first, readings) = (day(inputs, "first")?, station_readings(inputs)?);
    let control = control(inputs.word("control")?)?;
    let products = [Product::first(control, label(inputs)?)];
    let programme = Programme {
        pest: pest(inputs)?,
        control,
        beside: &[],
        first,
        deeds: &[],
        products: &products,
        warmth: warmth(inputs, &readings)?,
        extent: if inputs.flag("least")? { Extent::Least } else { Extent::Full },
        chosen: &[],
        elsewhere: &[],
        shared: &[],
        sprayed: &[],
        fills_gaps: true,
    };
    Ok(programme.outline(first))
}

/// Days of what the programme repeats, without what fills its gaps.
fn own_visits(outline: &Outline) -> Vec<CivilDay> {
    let visits = outline.visits.iter();
    visits
        .filter(|visit| visit.control == outline.control && visit.standing == Standing::Ahead)
        .map(|visit| visit.day)
        .collect()
}

fn of_year(day: CivilDay) -> f64 {
    f64::from(day.day_of_year())
}

fn days_number(days: usize) -> Number {
    u32::try_from(days).map(f64::from).map_err(|error| error.to_string())
}

/// Days from the first use until picking, by pairs of a day and its interval.
fn picked(inputs: &Inputs) -> Result<Option<i32>, String> {
    let start = CivilDay::default();
    let mut applications = Vec::new();
    for pair in inputs.word("intervals")?.split(' ') {
        let (day, interval) = pair.split_once(':').ok_or("no pair")?;
        applications.push(Application {
            day: start.days_later(day.parse::<i32>().map_err(|error| error.to_string())?),
            days_before_picking: interval.parse().ok(),
        });
    }
    Ok(picking_day(&applications).map(|day| day.days_since(start)))
}

fn slugs(inputs: &Inputs) -> Result<SlugOutlook, String> {
    Ok(slugs_tonight(&Evening {
        dusk: inputs.number("dusk")?,
        night: inputs.number("night")?,
        is_wet: Some(!inputs.flag("dry")?),
        humidity: Some(inputs.number("humidity")?),
    }))
}

fn blight(inputs: &Inputs) -> Result<bool, String> {
    let mut nights = Vec::new();
    for pair in inputs.word("nights")?.split(' ') {
        let (coolest, hours) = pair.split_once(':').ok_or("no pair")?;
        let number = |text: &str| text.parse::<f64>().map_err(|error| error.to_string());
        nights.push(BlightNight {
            coolest: number(coolest)?,
            damp_hours: number(hours)?,
        });
    }
    Ok(blight_watch(&nights))
}

/// A calendar file of one entry.
fn file_of(summary: &str, day: CivilDay) -> String {
    let entry = CalendarEntry {
        name: "a".to_owned(),
        day,
        summary: summary.to_owned(),
        description: "d".to_owned(),
        reminds: true,
    };
    calendar_file(&[entry], "20260709T083000Z", 0)
}

/// The lines of its summary as they stand in the file.
fn summary_lines(summary: &str) -> Vec<String> {
    let file = file_of(summary, CivilDay::default());
    let lines = file.split("\r\n").skip_while(|line| !line.starts_with("SUMMARY:"));
    lines
        .enumerate()
        .take_while(|(number, line)| *number == 0 || line.starts_with(' '))
        .map(|(_, line)| line.to_owned())
        .collect()
}

/// The lines of a summary of so many octets with its name.
fn folded(inputs: &Inputs) -> Result<Vec<String>, String> {
    let octets: usize = inputs.whole("octets")?;
    Ok(summary_lines(&"a".repeat(octets - "SUMMARY:".len())))
}

/// Days from the start to the end of an entry.
fn entry_days(inputs: &Inputs) -> Number {
    let file = file_of("s", day(inputs, "day")?);
    let date = |name: &str| -> Result<CivilDay, String> {
        let value = file.split("\r\n").find_map(|line| line.strip_prefix(name)).ok_or("no such line")?;
        let part = |from: usize, to: usize| value.get(from..to).unwrap_or_default();
        let text = format!("{}-{}-{}", part(0, 4), part(4, 6), part(6, 8));
        text.parse::<CivilDay>().map_err(|error| error.to_string())
    };
    Ok(f64::from(date("DTEND;VALUE=DATE:")?.days_since(date("DTSTART;VALUE=DATE:")?)))
}
