//! The display: the one framed thing on a page.

use leptos::prelude::*;

use super::{Answer, Jug, JugLevel, cans};

/// The enamel plate with its question and one row for each group.
pub struct Plate {
    /// The question it answers; the page's `h1`.
    pub question: Signal<String>,
    /// The words of the link to what the answer depends on.
    pub link: Signal<String>,
    /// Where that link leads.
    pub link_href: &'static str,
    /// Whether there are exactly two rows: on short screens they then stand side by side.
    pub pair: Signal<bool>,
    /// The rows.
    pub rows: AnyView,
}

impl Plate {
    /// The plate.
    #[must_use]
    pub fn view(self) -> AnyView {
        let Self {
            question,
            link,
            link_href,
            pair,
            rows,
        } = self;
        view! {
            <section class="plate" class:two=pair>
                <div class="plate-h"><h1 id="question" tabindex="-1">{question}</h1><a class="go" href=link_href>{link}</a></div>
                {rows}
            </section>
        }
        .into_any()
    }
}

/// One group on the plate.
pub struct Dose {
    /// The group's name, on its tag.
    pub tag: Signal<String>,
    /// A few words beside the tag. May be empty.
    pub small: Signal<String>,
    /// What the jug shows.
    pub jug: Signal<JugLevel>,
    /// What the jug shows, in words.
    pub jug_words: Signal<String>,
    /// The figure.
    pub figure: Answer,
    /// Its unit.
    pub unit: Signal<String>,
    /// The same in the other unit, such as *1.3 litres*.
    pub twin: AnyView,
    /// The likely range, such as *likely 1¾ to 2¾*.
    pub range: AnyView,
    /// What follows the range where there is room, such as *6¾ a bag*; with its own dot before it.
    pub aside: AnyView,
}

impl Dose {
    /// The row.
    #[must_use]
    pub fn view(self) -> AnyView {
        let Self {
            tag,
            small,
            jug,
            jug_words,
            figure,
            unit,
            twin,
            range,
            aside,
        } = self;
        let words = figure.words;
        // The figure 1 is as wide as the others and stands in the middle of its width: pull it to the margin.
        let leads_with_one = Signal::derive(move || words.with(|words| words.starts_with('1')));
        let wide = Signal::derive(move || words.with(|words| words.chars().count() > 3));
        view! {
            <div class="dose">
                {Jug { level: jug, words: jug_words }.view()}
                <div class="say">
                    <span class="tag">{tag}</span><small>{small}</small>
                    <p class="figure">
                        <span class="n" class:lead1=leads_with_one class:wide=wide>{figure.view()}</span>
                        <span class="u">{unit}<small>{twin}</small></span>
                    </p>
                    <p class="sub">{range}<span class="opt">{aside}</span></p>
                </div>
            </div>
        }
        .into_any()
    }
}

/// The plate's foot: how many cans, and the total.
pub struct Foot {
    /// How many cans; draws them.
    pub cans: Signal<f64>,
    /// How many cans, as a figure.
    pub figure: Answer,
    /// The word after the figure: *can* or *cans*.
    pub unit: Signal<String>,
    /// The total in both units; the first line in `<b>`.
    pub total: AnyView,
}

impl Foot {
    /// The foot; stands right after the plate and stays at the top of the screen while the page scrolls.
    #[must_use]
    pub fn view(self) -> AnyView {
        let Self {
            cans: count,
            figure,
            unit,
            total,
        } = self;
        view! {
            <div class="foot">
                {cans(count)}
                <span class="count"><span class="big">{figure.view()}</span>" "<span class="unit">{unit}</span></span>
                <span class="rest">{total}</span>
            </div>
        }
        .into_any()
    }
}
