//! The display: the one framed thing on a page.

use super::{Answer, Element, Jug, JugLevel, Live, Words, cans, element, steady, words};

/// The enamel plate with its question and one row for each group.
pub struct Plate {
    /// The question it answers; the page's `h1`.
    pub question: Words,
    /// The words of the link to what the answer depends on.
    pub link: Words,
    /// Where that link leads; empty for none.
    pub link_href: &'static str,
    /// Whether there are exactly two rows: on short screens they then stand side by side.
    pub pair: Live<bool>,
    /// The rows.
    pub rows: Element,
}

impl Plate {
    /// The plate.
    #[must_use]
    pub fn view(self) -> Element {
        let Self {
            question,
            link,
            link_href,
            pair,
            rows,
        } = self;
        let question = element("h1").set("id", "question").set("tabindex", "-1").text(question);
        let mut head = element("div").class("plate-h").child(question);
        if !link_href.is_empty() {
            head = head.child(element("a").class("go").set("href", link_href).text(link));
        }
        element("section")
            .class("plate")
            .class_when("two", pair)
            .child(head)
            .child(steady(rows))
    }
}

/// One group on the plate.
pub struct Dose {
    /// The group's name, on its tag.
    pub tag: Words,
    /// A few words beside the tag. May be empty.
    pub small: Words,
    /// What the jug shows.
    pub jug: Live<JugLevel>,
    /// What the jug shows, in words.
    pub jug_words: Words,
    /// The figure.
    pub figure: Answer,
    /// Its unit.
    pub unit: Words,
    /// The same in the other unit, such as *1.3 litres*.
    pub twin: Element,
    /// The likely range, such as *likely 1¾ to 2¾*.
    pub range: Element,
    /// What follows the range where there is room, such as *6¾ a bag*; with its own dot before it.
    pub aside: Element,
    /// What has to be known before anything is poured, with its own dot before it; or nothing.
    pub then: Words,
}

/// The classes of a figure on the plate. The figure 1 is as wide as the others and stands in the middle of its width: it is pulled
/// to the margin.
#[must_use]
pub fn figure_class(printed: &str) -> &'static str {
    match (printed.starts_with('1'), printed.chars().count() > 3) {
        (false, false) => "n",
        (true, false) => "n lead1",
        (false, true) => "n wide",
        (true, true) => "n lead1 wide",
    }
}

impl Dose {
    /// The row.
    #[must_use]
    pub fn view(self) -> Element {
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
            then,
        } = self;
        let printed = figure.words.clone();
        let class = words(move || figure_class(&printed.get()).to_owned());
        let figure = element("span").set("class", class).child(figure.view());
        let unit = element("span").class("u").text(unit).child(element("small").child(twin));
        let say = element("div")
            .class("say")
            .child(element("span").class("tag").text(tag))
            .child(element("small").text(small))
            .child(element("p").class("figure").child(figure).child(unit))
            .child(
                element("p")
                    .class("sub")
                    .child(range)
                    .child(element("span").class("opt").child(aside))
                    .child(element("span").class("then").text(then)),
            )
            // All its words at once: a figure beside an earlier unit might wrap, and the page would jump and jump back.
            .first();
        element("div")
            .class("dose")
            .child(
                Jug {
                    level: jug,
                    words: jug_words,
                }
                .view(),
            )
            .child(say)
    }
}

/// The plate's foot: how many cans, and the total.
pub struct Foot {
    /// How full they are altogether; draws them.
    pub cans: Live<f64>,
    /// What stands before the figure: *<* for less than a quarter of a can, or nothing.
    pub under: Words,
    /// How many cans, as a figure.
    pub figure: Answer,
    /// The word after the figure: *can* or *cans*.
    pub unit: Words,
    /// The total in both units; the first line in `<b>`.
    pub total: Element,
}

impl Foot {
    /// The foot; stands right after the plate and stays at the top of the screen while the page scrolls.
    #[must_use]
    pub fn view(self) -> Element {
        let figure = element("span").class("big").child(self.figure.view());
        let unit = element("span").class("unit").text(self.unit);
        let count = element("span").class("count").text(self.under).child(figure).text(" ").child(unit);
        let total = element("span").class("rest").child(self.total);
        element("div").class("foot").child(cans(self.cans)).child(count).child(total)
    }
}
