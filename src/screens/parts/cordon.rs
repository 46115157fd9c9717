//! The drawn plant on its cane, by which height and trusses are set.

use std::fmt::Write as _;

use leptos::prelude::*;

/// A mark on the cane's scale.
#[derive(Clone, Debug, PartialEq)]
pub struct CaneMark {
    /// Its height over the compost, in metres.
    pub height_metres: f64,
    /// What is written at it.
    pub words: String,
}

/// A cordon plant drawn from leaves, trusses, cane and container.
pub struct Cordon {
    /// The plant's height in metres, 0.1–2.5.
    pub height_metres: Signal<f64>,
    /// How many trusses are set, 0–12.
    pub trusses: Signal<u32>,
    /// The height on the tag that rides the cane, such as *5 ft*.
    pub tag: Signal<String>,
    /// The scale beside the cane, lowest first.
    pub marks: Signal<Vec<CaneMark>>,
    /// The unit over the scale.
    pub unit: Signal<String>,
    /// A symbol of the sprite: `base-bag`, `base-pot`, `base-basket`, `base-border`, `base-ring`.
    pub container: Signal<&'static str>,
    /// The whole drawing in words.
    pub words: Signal<String>,
    /// Told the number of the truss that was tapped, counted from the lowest.
    pub on_truss: Callback<u32>,
}

/// The most trusses the drawing shows as set.
const MOST_TRUSSES: u32 = 12;
/// How high one metre is drawn.
const PIXELS_PER_METRE: f64 = 200.0;
/// Room over the cane for the tag, and under the compost for the container.
const HEADROOM: f64 = 34.0;
const CONTAINER: f64 = 58.0;
/// The least length of cane that is drawn.
const SHORTEST_CANE: f64 = 300.0;
/// The cane stands this far above the tip of the plant at least.
const CANE_OVER_TIP: f64 = 40.0;
/// Where the cane stands, and how wide the drawing is.
const CANE: f64 = 88.0;
const WIDTH: f64 = 152.0;
/// The height of a truss's button.
const BUTTON: f64 = 48.0;

/// The measures of one drawing, in pixels from its top left corner.
#[derive(Clone, Copy, PartialEq)]
struct Frame {
    height: f64,
    ground: f64,
    tip: f64,
    /// Trusses drawn: those set and the one in flower above them.
    trusses: u32,
    set: u32,
    lowest_truss: f64,
    truss_pitch: f64,
    lowest_button: f64,
    button_pitch: f64,
}

impl Frame {
    fn new(height_metres: f64, set: u32) -> Self {
        let plant = if height_metres.is_finite() {
            height_metres.clamp(0.1, 2.5)
        } else {
            0.1
        } * PIXELS_PER_METRE;
        let set = set.min(MOST_TRUSSES);
        let trusses = (set + 1).min(MOST_TRUSSES);
        let count = f64::from(trusses);
        let cane = SHORTEST_CANE.max(plant + CANE_OVER_TIP).max(count * BUTTON - CONTAINER - HEADROOM);
        let ground = HEADROOM + cane;
        let height = ground + CONTAINER;
        let tip = ground - plant;
        let highest_truss = tip + 14.0_f64.min(plant * 0.2);
        let lowest_truss = if trusses > 1 {
            ground - 58.0_f64.min(plant * 0.4)
        } else {
            highest_truss
        };
        let truss_pitch = if trusses > 1 {
            (lowest_truss - highest_truss) / (count - 1.0)
        } else {
            0.0
        };
        // Buttons stand beside their trusses where those are far enough apart, and are spread about their middle if not.
        let button_pitch = BUTTON.max(truss_pitch);
        let middle = f64::midpoint(lowest_truss, highest_truss);
        let reach = button_pitch * (count - 1.0) / 2.0;
        let lowest_button = (middle + reach).clamp(BUTTON / 2.0 + 2.0 * reach, height - BUTTON / 2.0);
        Self {
            height,
            ground,
            tip,
            trusses,
            set,
            lowest_truss,
            truss_pitch,
            lowest_button,
            button_pitch,
        }
    }

    fn truss(self, number: u32) -> f64 {
        self.lowest_truss - self.truss_pitch * f64::from(number - 1)
    }

    fn button(self, number: u32) -> f64 {
        self.lowest_button - self.button_pitch * f64::from(number - 1)
    }

    /// The stem as it winds about the cane.
    fn stem(self) -> String {
        let bend = (self.ground - self.tip) / 6.0;
        let mut path = format!("M{} {:.1}", CANE + 4.0, self.ground);
        for bow in [9, -9, 9, -9, 9, -9] {
            let _ = write!(path, "q{bow} {:.1} 0 {:.1}", -bend / 2.0, -bend);
        }
        path
    }

    /// Leaves and trusses from the ground up: the symbol and where it goes.
    fn growth(self) -> Vec<(&'static str, String)> {
        let plant = self.ground - self.tip;
        let size = (plant / 170.0).clamp(0.3, 1.0);
        let leaves = (plant / 46.0).round().clamp(2.0, 11.0);
        let mut parts = Vec::new();
        let mut leaf = |x: f64, y: f64, turn: f64, size: f64, left: bool| {
            let across = if left { -size } else { size };
            parts.push((
                "#leaf",
                format!("translate({x:.1} {y:.1}) scale({across:.2} {size:.2}) rotate({turn:.0})"),
            ));
        };
        let mut number = 0.0;
        while number < leaves {
            let share = number / (leaves - 1.0);
            let y = self.ground - (34.0 * size + share * (plant - 52.0 * size)).max(0.0);
            leaf(CANE + 3.0, y - 18.0 * size, 4.0 - 32.0 * share, size * (0.98 - 0.36 * share), false);
            leaf(CANE + 2.0, y, 18.0 - 30.0 * share, size * (1.06 - 0.42 * share), true);
            number += 1.0;
        }
        leaf(CANE + 4.0, self.tip + 14.0 * size, -44.0, size * 0.58, false);
        leaf(CANE + 4.0, self.tip + 8.0 * size, -64.0, size * 0.52, true);
        let size = if self.trusses > 1 {
            (self.truss_pitch / 40.0).clamp(0.62, 1.06)
        } else {
            0.9 * size
        };
        for number in (1..=self.trusses).rev() {
            // The newest three trusses are green, the one below them is turning, older ones are ripe.
            let symbol = match self.set + 1 - number {
                0 => "#truss-flower",
                1..=3 => "#truss-green",
                4 => "#truss-turning",
                _ => "#truss-ripe",
            };
            let y = self.truss(number) - 14.0 * size;
            parts.push((symbol, format!("translate({} {y:.1}) scale({size:.2})", CANE + 4.0)));
        }
        parts
    }

    /// The line from each truss to its number.
    fn leaders(self) -> String {
        let mut path = String::new();
        for number in 1..=self.set {
            let _ = write!(
                path,
                "M{} {:.1}L{} {:.1}H{WIDTH}",
                CANE + 46.0,
                self.truss(number),
                WIDTH - 10.0,
                self.button(number)
            );
        }
        path
    }
}

impl Cordon {
    /// The plant with a button for each truss.
    #[must_use]
    pub fn view(self) -> AnyView {
        let Self {
            height_metres,
            trusses,
            tag,
            marks,
            unit,
            container,
            words,
            on_truss,
        } = self;
        let frame = Memo::new(move |_| Frame::new(height_metres.get(), trusses.get()));
        let scale = move || {
            let ground = frame.get().ground;
            let mut ticks = format!("M24 {HEADROOM}V{ground:.1}");
            let labels: Vec<_> = marks
                .get()
                .into_iter()
                .map(|mark| (ground - mark.height_metres * PIXELS_PER_METRE, mark.words))
                .filter(|&(y, _)| y > HEADROOM + 16.0)
                .map(|(y, words)| {
                    let _ = write!(ticks, "M20 {y:.1}h8");
                    view! { <text class="cap mid" x="9" y=y + 5.0>{words}</text> }
                })
                .collect();
            view! { <path class="ink tick" d=ticks /> {labels} }
        };
        let growth = move || {
            let parts = frame.get().growth();
            parts
                .into_iter()
                .map(|(href, place)| view! { <use href=href transform=place></use> })
                .collect::<Vec<_>>()
        };
        let cane = Signal::derive(move || format!("M{CANE} {:.1}V{:.1}", HEADROOM - 6.0, frame.get().ground + 4.0));
        let knots = Signal::derive(move || {
            let mut path = String::new();
            let mut y = HEADROOM + 18.0;
            while y < frame.get().ground {
                let _ = write!(path, "M{} {y:.1}h6", CANE - 3.0);
                y += 46.0;
            }
            path
        });
        let stem = Signal::derive(move || frame.get().stem());
        let height = Signal::derive(move || frame.get().height);
        let view_box = Signal::derive(move || format!("0 0 {WIDTH} {:.1}", frame.get().height));
        let base = Signal::derive(move || format!("translate(0 {:.1})", frame.get().ground));
        let base_href = Signal::derive(move || String::from("#") + container.get());
        let tag_place = Signal::derive(move || format!("translate(0 {:.1})", frame.get().tip));
        let leaders = Signal::derive(move || frame.get().leaders());
        let under = Signal::derive(move || {
            let frame = frame.get();
            format!("{:.1}px", frame.height - frame.lowest_button - BUTTON / 2.0)
        });
        let between = Signal::derive(move || format!("{:.1}px", frame.get().button_pitch - BUTTON));
        let buttons = move || {
            let Frame { trusses, set, .. } = frame.get();
            (1..=trusses)
                .map(|number| truss_button(number, number <= set, on_truss))
                .collect::<Vec<_>>()
        };
        view! {
            <div class="cordon">
                <svg class="plant" width=WIDTH height=height viewBox=view_box role="img" aria-label=words>
                    {scale}
                    <text class="cap mid" x="9" y=HEADROOM + 8.0>{unit}</text>
                    <g class="flora">
                        <path class="cane-o" d=cane /><path class="cane" d=cane /><path class="ink thin" d=knots />
                        <path class="stem-o" d=stem /><path class="stem" d=stem />
                        {growth}
                        <use href=base_href transform=base></use>
                    </g>
                    <path class="ink tick" d=leaders />
                    <g transform=tag_place><use href="#height-tag"></use><text class="tag-n" x="43" y="5.5">{tag}</text></g>
                </svg>
                <ol class="trusses" style:padding-bottom=under style:row-gap=between>{buttons}</ol>
            </div>
        }
        .into_any()
    }
}

fn truss_button(number: u32, set: bool, on_truss: Callback<u32>) -> AnyView {
    let label = if set {
        format!("Truss {number}, set")
    } else {
        format!("Truss {number}, in flower")
    };
    view! {
        <li>
            <button type="button" class="pip" aria-pressed=set.to_string() aria-label=label
                on:click=move |_| on_truss.run(number)>
                <span>{number}</span>
            </button>
        </li>
    }
    .into_any()
}
