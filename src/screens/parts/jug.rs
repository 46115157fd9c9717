//! A measuring jug with its level and the likely range.

use leptos::prelude::*;

/// What a jug shows, in the jug's own unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JugLevel {
    /// What is in it; `None` draws it empty, without a range.
    pub filled: Option<f64>,
    /// The lower end of the likely range.
    pub low: f64,
    /// The upper end of the likely range.
    pub high: f64,
    /// What it holds at its top mark; its quarters are named.
    pub holds: f64,
}

/// A drawn measuring jug.
pub struct Jug {
    /// What it shows.
    pub level: Signal<JugLevel>,
    /// What it shows, in words.
    pub words: Signal<String>,
}

/// Where the drawing has its bottom and its top mark.
const BOTTOM_MARK: f64 = 104.0;
const TOP_MARK: f64 = 26.0;

impl JugLevel {
    /// The height in the drawing of `amount`, kept inside the jug.
    fn height(self, amount: f64) -> f64 {
        let share = if self.holds > 0.0 {
            (amount / self.holds).clamp(0.0, 1.1)
        } else {
            0.0
        };
        BOTTOM_MARK - (BOTTOM_MARK - TOP_MARK) * share
    }
}

impl Jug {
    /// The jug as a picture with its words.
    #[must_use]
    pub fn view(self) -> AnyView {
        let Self { level, words } = self;
        let marks: Vec<_> = (1..=4)
            .map(|quarter| {
                let words = Signal::derive(move || {
                    let holds = level.get().holds;
                    mark_words(holds * f64::from(quarter) / 4.0)
                });
                let foot = BOTTOM_MARK - (BOTTOM_MARK - TOP_MARK) * f64::from(quarter) / 4.0 + 4.6;
                view! { <text class="jug-n" x="37" y=foot>{words}</text> }
            })
            .collect();
        let empty = Signal::derive(move || level.get().filled.is_none_or(|filled| filled <= 0.0));
        let surface = Signal::derive(move || {
            let level = level.get();
            format!("translate(0 {:.1})", level.height(level.filled.unwrap_or_default()))
        });
        let band = Signal::derive(move || {
            let level = level.get();
            let (low, high) = (level.height(level.low), level.height(level.high));
            format!("M52 {high:.1}H94V{low:.1}H52z")
        });
        view! {
            <svg class="jug" class:empty=empty viewBox="0 0 100 116" role="img" aria-label=words>
                <use href="#jug-back"></use>
                <g clip-path="url(#jug-inside)">
                    <g class="level" transform=surface><rect class="f-water" width="92" height="120" /></g>
                </g>
                <use href="#jug-marks"></use>
                {marks}
                <g clip-path="url(#jug-inside)">
                    <path class="band" d=band />
                    <path class="ink dash2" d=band />
                    <g class="level" transform=surface><path class="ink" d="M8 0H88" /></g>
                </g>
                <use href="#jug-front"></use>
            </svg>
        }
        .into_any()
    }
}

/// An amount as it stands on a jug's wall: quarters as fractions, anything else as a decimal.
fn mark_words(amount: f64) -> String {
    let whole = amount.trunc();
    let fraction = match amount - whole {
        rest if rest < 0.01 => "",
        rest if (rest - 0.25).abs() < 0.01 => "¼",
        rest if (rest - 0.5).abs() < 0.01 => "½",
        rest if (rest - 0.75).abs() < 0.01 => "¾",
        _ => return amount.to_string(),
    };
    if whole > 0.0 {
        whole.to_string() + fraction
    } else {
        fraction.into()
    }
}
