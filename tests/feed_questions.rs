//! Growers' questions on feed: what the answer must be, and must not be.
//!
//! To add one, write a `[[question]]` in `questions/feed.toml`. Its inputs are those of the published tables on feed, and those
//! that [`situation`] and [`facts`] read.

use first_truss::almanac::CivilDay;
use first_truss::feed::{
    Brew, Cause, Cloud, Contents, Due, Facts, HALF, Habit, Look, Mix, Odds, Part, Situation, Stage, Stem, Straight, Timing, USUAL_STOCK,
    Water, Why, causes, clouds, in_a_litre, needs, routine_grams, stock_of, timing,
};
use first_truss::notebook::Coded;
use first_truss::working::Working;
use serde::Deserialize;
use toml::Table;
use wasm_bindgen_test::wasm_bindgen_test;

use crate::published::case::Inputs;
use crate::published::feed::{can, can_at, water};
use crate::question_table::{self, Between, check, read};

/// One question with what its answer must be.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Question {
    name: String,
    /// What was asked.
    #[serde(rename = "asks")]
    _asks: String,
    /// Who asked or says what the answer must be.
    source: String,
    inputs: Table,
    /// Feed for the can, ml or g.
    amount: Option<Between>,
    /// The same if the other country's gallons are meant.
    elsewhere: Option<Between>,
    /// What a meter may read, mS/cm: the low end of the range, and the high end.
    conductivity_low: Option<Between>,
    conductivity_high: Option<Between>,
    /// Of that the water's own.
    own: Option<Between>,
    /// K:N, as elements.
    potassium_to_nitrogen: Option<Between>,
    /// Share of the week's need of N, P and K.
    need: Option<[Between; 3]>,
    /// Whether to feed: `not yet`, `today`, `later` or `never`.
    due: Option<String>,
    /// Days from today until then, or until the next feed: early and late.
    days: Option<[i32; 2]>,
    /// Share of the label's strength.
    share: Option<f64>,
    /// Times a week.
    a_week: Option<f64>,
    /// Reasons that must be given.
    #[serde(default)]
    why: Vec<String>,
    /// Strength and times a week of all the ways to give the same.
    ways: Option<Vec<[f64; 2]>>,
    /// Causes with their odds, the likeliest first: those that are named must come first in this order.
    causes: Option<Vec<[String; 2]>>,
    /// Epsom salts for the can, g.
    epsom: Option<Between>,
    /// Nitrogen of a brew at most, mg/L.
    brewed: Option<Between>,
    /// Whether young plants can take it for certain.
    suits_seedlings: Option<bool>,
    /// Whether the salts of the shelf are safe in the can and must not meet in a stock.
    apart: Option<bool>,
    /// The sentence, when there is no answer.
    refused: Option<String>,
}

impl question_table::Question for Question {
    fn name(&self) -> &str {
        &self.name
    }

    fn source(&self) -> &str {
        &self.source
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn questions_on_feed() {
    check("feed.toml", include_str!("questions/feed.toml"), missed);
}

/// A question that expects what is not so must fail.
#[wasm_bindgen_test(unsupported = test)]
fn wrong_answers_on_feed_are_found() {
    let table = "[[question]]\nname = 'q'\nasks = 'a'\nsource = 's'\ninputs = { label = '5-2-9', dose = '20 ml per gallon', part = 'lower', look = 'between veins' }\n";
    for wrong in [
        "amount = [45, 46]",
        "elsewhere = [44, 45]",
        "conductivity_high = [0, 1]",
        "own = [1, 2]",
        "potassium_to_nitrogen = [2, 3]",
        "need = [[2, 3], [0, 9], [0, 9]]",
        "due = 'never'",
        "days = [9, 9]",
        "share = 0.5",
        "a_week = 5",
        "why = ['lush stem']",
        "ways = [[1, 2]]",
        "causes = [['age', 'likely']]",
        "epsom = [1, 2]",
        "apart = true",
        "suits_seedlings = true",
        "refused = 'No.'",
        "",
    ] {
        let questions: Vec<Question> = read("table", &format!("{table}{wrong}"));
        let question = questions.first().expect("one question");
        assert!(missed(question).is_err(), "“{wrong}” passes");
    }
}

fn missed(question: &Question) -> Result<(), String> {
    let inputs = Inputs::new(question.inputs.clone());
    let mut asked = false;
    if inputs.has("label") {
        match (can(&inputs), &question.refused) {
            (Ok(_), Some(sentence)) => return Err(format!("an answer in place of “{sentence}”")),
            (Err(error), Some(sentence)) if error == *sentence => return Ok(()),
            (Err(error), _) => return Err(format!("“{error}”")),
            (Ok(mix), None) => {
                can_missed(question, &mix, &mut asked)?;
                timing_missed(question, &inputs, &mix, &mut asked)?;
            }
        }
    }
    if let Some(wanted) = &question.causes {
        asked = true;
        let found = causes(part(&inputs)?, look(&inputs)?, &facts(&inputs)?);
        let found: Vec<[String; 2]> = found
            .into_iter()
            .map(|(cause, odds)| [cause_word(cause).to_owned(), odds_word(odds).to_owned()])
            .collect();
        if !found.starts_with(wanted) {
            return Err(format!("{found:?} does not begin with {wanted:?}"));
        }
    }
    let brought = can(&inputs).map_or(0.0, |mix| mix.strength.feed.magnesium);
    let grams = routine_grams(inputs.number_or("can", 10.0)?, brought);
    within("Epsom salts, low", grams.low, question.epsom, &mut asked)?;
    within("Epsom salts, high", grams.high, question.epsom, &mut asked)?;
    if question.own.is_some() {
        within("the water's own", water(&inputs)?.conductivity(), question.own, &mut asked)?;
    }
    if let Some(apart) = question.apart {
        asked = true;
        let (in_can, in_stock) = clouds_of(&inputs)?;
        if in_can != Cloud::Clear || (in_stock > Cloud::Clear) != apart {
            return Err(format!("in the can {in_can:?}, in a stock {in_stock:?}"));
        }
    }
    if let Some(brewed) = question.brewed {
        let brew = match inputs.word("brew")? {
            "nettle" => Brew::Nettle,
            "comfrey" => Brew::Comfrey,
            other => return Err(format!("no brew “{other}”")),
        };
        within("brew, low", brew.nitrogen().low, Some(brewed), &mut asked)?;
        within("brew, high", brew.nitrogen().high, Some(brewed), &mut asked)?;
    }
    // Those that no answer of this question needs are read all the same, so that what is left over is a slip.
    let _ = (facts(&inputs)?, part(&inputs).is_ok(), look(&inputs).is_ok());
    match inputs.unused().as_slice() {
        [] if asked => Ok(()),
        [] => Err("nothing is asked".to_owned()),
        unused => Err(format!("input never used: {}", unused.join(", "))),
    }
}

/// What half a gram in a litre of each salt on the shelf does in a can of rain water, and a hundred times as strong.
fn clouds_of(inputs: &Inputs) -> Result<(Cloud, Cloud), String> {
    let mut feed = Contents::default();
    let mut salts = Vec::new();
    for word in inputs.word("shelf")?.split(", ") {
        let salt = Straight::from_code(word).ok_or("no such salt")?;
        feed = feed.plus(&in_a_litre(&salt.contents(), 1.0), 0.5);
        salts.push((salt, 0.5));
    }
    let can = clouds(&feed, Water::Rain);
    let stock = stock_of(&salts, USUAL_STOCK);
    Ok((can.gypsum.max(can.phosphate), stock.gypsum.max(stock.phosphate)))
}

fn within(what: &str, got: f64, allowed: Option<Between>, asked: &mut bool) -> Result<(), String> {
    match allowed {
        None => Ok(()),
        Some([low, high]) => {
            *asked = true;
            if got >= low && got <= high {
                Ok(())
            } else {
                Err(format!("{what}: {got}, not {low} to {high}"))
            }
        }
    }
}

fn can_missed(question: &Question, mix: &Mix, asked: &mut bool) -> Result<(), String> {
    within("amount", mix.amount.value, question.amount, asked)?;
    within("elsewhere", mix.other_country.unwrap_or(f64::NAN), question.elsewhere, asked)?;
    within("conductivity, low", mix.conductivity.low, question.conductivity_low, asked)?;
    within("conductivity, high", mix.conductivity.high, question.conductivity_high, asked)?;
    let ratio = mix.potassium_to_nitrogen().unwrap_or(f64::NAN);
    within("K:N", ratio, question.potassium_to_nitrogen, asked)?;
    same("seedlings", &mix.suits_seedlings(), question.suits_seedlings.as_ref(), asked)
}

fn same<T: PartialEq + std::fmt::Debug>(what: &str, got: &T, wanted: Option<&T>, asked: &mut bool) -> Result<(), String> {
    match wanted {
        None => Ok(()),
        Some(wanted) => {
            *asked = true;
            if got == wanted {
                Ok(())
            } else {
                Err(format!("{what}: {got:?}, not {wanted:?}"))
            }
        }
    }
}

fn timing_missed(question: &Question, inputs: &Inputs, mix: &Mix, asked: &mut bool) -> Result<(), String> {
    let situation = situation(inputs, mix)?;
    let Timing {
        due,
        share,
        why,
        a_week,
        next,
        ways,
    } = timing(&situation);
    let (word, days) = match due {
        Due::NotYet(day) => ("not yet", day.map(|day| (day, day))),
        Due::Today => ("today", Some(next)),
        Due::On(early, late) => ("later", Some((early, late))),
        Due::Never => ("never", None),
    };
    same("due", &word.to_owned(), question.due.as_ref(), asked)?;
    let until = |day: CivilDay| day.days_since(situation.today);
    let days = days.map(|(early, late)| [until(early), until(late)]);
    same("days", &days, question.days.map(Some).as_ref(), asked)?;
    same("share", &share, question.share.as_ref(), asked)?;
    same("times a week", &a_week, question.a_week.as_ref(), asked)?;
    let why: Vec<&str> = why.into_iter().map(why_word).collect();
    for wanted in &question.why {
        *asked = true;
        if !why.contains(&wanted.as_str()) {
            return Err(format!("“{wanted}” is missing from {why:?}"));
        }
    }
    if let Some(wanted) = &question.ways {
        let ways: Vec<[f64; 2]> = ways.iter().map(|way| [way.share, way.a_week]).collect();
        let is_near = ways.len() == wanted.len()
            && ways
                .iter()
                .flatten()
                .zip(wanted.iter().flatten())
                .all(|(got, wanted)| (got - wanted).abs() < 0.01);
        same("ways", &is_near, Some(&true), asked).map_err(|_| format!("{ways:?}, not {wanted:?}"))?;
    }
    let fruit = inputs.number_or("fruit", 3.0)?;
    let all = needs(&mix.strength, situation.habit, situation.stage, fruit, &mut Working::silent());
    for (need, place) in all.iter().zip(0..) {
        let wanted = question.need.as_ref().and_then(|need| need.get(place)).copied();
        within(need.nutrient.sign(), need.share(), wanted, asked)?;
    }
    Ok(())
}

/// What decides the time: a July day, a picked crop, 1.5 litres twice a week unless the question says otherwise.
fn situation(inputs: &Inputs, mix: &Mix) -> Result<Situation, String> {
    let optional = |key: &str| if inputs.has(key) { inputs.number(key).map(Some) } else { Ok(None) };
    let day = |key: &str| -> Result<Option<CivilDay>, String> {
        if !inputs.has(key) {
            return Ok(None);
        }
        inputs.word(key)?.parse().map(Some).map_err(|error| format!("{error}"))
    };
    Ok(Situation {
        stage: stage(inputs)?,
        weeks_in_compost: optional("weeks")?,
        compost_litres: optional("compost")?,
        stem: match if inputs.has("stem") { inputs.word("stem")? } else { "" } {
            "" => None,
            "thin" => Some(Stem::Thin),
            "right" => Some(Stem::Right),
            "lush" => Some(Stem::Lush),
            other => return Err(format!("no stem “{other}”")),
        },
        granules: inputs.flag("granules")?,
        is_feed: true,
        conductivity: mix.conductivity,
        at_half: can_at(inputs, HALF)?.conductivity,
        own_conductivity: if inputs.has("water") { water(inputs)?.conductivity() } else { 0.0 },
        habit: Habit {
            litres: inputs.number_or("litres", 1.5)?,
            a_week: inputs.number_or("a_week", 2.0)?,
        },
        last_fed: day("last_fed")?,
        is_over: false,
        today: day("today")?.unwrap_or_else(|| "2026-07-09".parse().expect("a day")),
    })
}

fn stage(inputs: &Inputs) -> Result<Stage, String> {
    crate::published::feed::stage(if inputs.has("stage") { inputs.word("stage")? } else { "picking" })
}

/// What is known when something looks wrong.
fn facts(inputs: &Inputs) -> Result<Facts, String> {
    let optional = |key: &str| if inputs.has(key) { inputs.number(key).map(Some) } else { Ok(None) };
    let mix = if inputs.has("label") { can(inputs).ok() } else { None };
    Ok(Facts {
        sodden_days: if inputs.has("sodden_days") {
            Some(inputs.whole("sodden_days")?)
        } else {
            None
        },
        uneven_water: inputs.flag("uneven")?,
        potassium_to_nitrogen: mix.as_ref().and_then(Mix::potassium_to_nitrogen),
        nitrogen: mix.as_ref().map(|mix| mix.strength.feed.nitrogen()),
        weeks_in_compost: optional("weeks")?,
        is_fed: inputs.flag("fed")?,
        epsom_tried: inputs.flag("epsom_tried")?,
        coldest: optional("coldest")?,
        conductivity: mix.as_ref().map(|mix| mix.conductivity.value),
        magnesium: mix.as_ref().map(|mix| mix.strength.feed.magnesium),
        water: if inputs.has("water") { water(inputs)? } else { Water::Rain },
    })
}

fn part(inputs: &Inputs) -> Result<Part, String> {
    match inputs.word("part")? {
        "top" => Ok(Part::Top),
        "fruit" => Ok(Part::Fruit),
        "edges" => Ok(Part::Edges),
        "lower" => Ok(Part::Lower),
        other => Err(format!("no part “{other}”")),
    }
}

fn look(inputs: &Inputs) -> Result<Look, String> {
    Ok(match inputs.word("look")? {
        "between veins" => Look::BetweenVeins,
        "pale all over" => Look::PaleAllOver,
        "brown edges" => Look::BrownEdges,
        "purple beneath" => Look::PurpleBeneath,
        "dark spots" => Look::DarkSpots,
        "curled" => Look::Curled,
        "sunken end" => Look::SunkenEnd,
        "hard shoulders" => Look::HardShoulders,
        "blotched" => Look::Blotched,
        "little fruit" => Look::LittleFruit,
        other => return Err(format!("no look “{other}”")),
    })
}

const fn why_word(why: Why) -> &'static str {
    match why {
        Why::CompostFeeds => "compost feeds",
        Why::WaitForTruss => "wait for truss",
        Why::CompostSpent => "compost spent",
        Why::GroundFeeds => "ground feeds",
        Why::FruitSwells => "fruit swells",
        Why::CropEnds => "crop ends",
        Why::SeasonOver => "season over",
        Why::NoFeed => "no feed",
        Why::LushStem => "lush stem",
        Why::Granules => "granules",
        Why::TooStrong => "too strong",
        Why::MayBeTooStrong => "may be too strong",
    }
}

const fn odds_word(odds: Odds) -> &'static str {
    match odds {
        Odds::Perhaps => "perhaps",
        Odds::MayBe => "may be",
        Odds::Likely => "likely",
    }
}

const fn cause_word(cause: Cause) -> &'static str {
    match cause {
        Cause::Magnesium => "magnesium",
        Cause::TooMuchPotash => "too much potash",
        Cause::Age => "age",
        Cause::WetRoots => "wet roots",
        Cause::Nitrogen => "nitrogen",
        Cause::Cold => "cold",
        Cause::Potassium => "potassium",
        Cause::Salt => "salt",
        Cause::Dry => "dry",
        Cause::Phosphorus => "phosphorus",
        Cause::Iron => "iron",
        Cause::HardWater => "hard water",
        Cause::NotFeed => "not feed",
        Cause::Disease => "disease",
        Cause::UnevenWater => "uneven water",
        Cause::TooMuchNitrogen => "too much nitrogen",
        Cause::Heat => "heat",
        Cause::PoorSet => "poor set",
    }
}
