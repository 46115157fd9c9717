//! Plant labels that name the groups and choose between them.

use leptos_dom::helpers::event_target_value;

use super::{Act, Element, Live, Words, element, live};

/// One pointed label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GroupLabel {
    /// The value of its radio button.
    pub value: String,
    /// The name on it.
    pub words: String,
}

/// The groups' labels, of which one is chosen.
pub struct GroupLabels {
    /// What is chosen between, for a screen reader.
    pub legend: &'static str,
    /// The name of the radio buttons; unlike any other on the page.
    pub name: &'static str,
    /// The labels, in order.
    pub labels: Live<Vec<GroupLabel>>,
    /// The value of the chosen one.
    pub selected: Words,
    /// Told the value of the label that was chosen.
    pub on_choose: Act<String>,
    /// What stands after the last label, such as *Add a group*.
    pub after: Element,
}

impl GroupLabels {
    /// The labels as a group of radio buttons.
    #[must_use]
    pub fn view(self) -> Element {
        let Self {
            legend,
            name,
            labels,
            selected,
            on_choose,
            after,
        } = self;
        let written = labels.clone();
        let key = move || written.get().into_iter().map(|label| label.value + &label.words + "\n").collect();
        let row = element("div").class("labels").fill_for(key, move || {
            let labels = labels.get().into_iter();
            labels.map(|label| pointed_label(label, name, &selected, &on_choose)).collect()
        });
        element("fieldset")
            .class("label-set")
            .child(element("legend").class("unseen").text(legend))
            .child(row)
            .child(after)
    }
}

fn pointed_label(label: GroupLabel, name: &'static str, selected: &Words, on_choose: &Act<String>) -> Element {
    let GroupLabel { value, words } = label;
    let (here, selected, choose) = (value.clone(), selected.clone(), on_choose.clone());
    let radio = element("input")
        .set("type", "radio")
        .set("name", name)
        .set("value", value)
        .property_when("checked", live(move || selected.get() == here))
        .on("change", move |event| {
            choose.run(event_target_value(&event));
        });
    element("label").class("lbl").child(radio).child(element("span").text(words))
}
