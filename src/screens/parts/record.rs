//! The screen's one chief action, and its undoing.

use leptos::{html, prelude::*};

/// A button that records something and becomes the row that tells and undoes it. Both have the same height, so that
/// nothing moves, and the keyboard's focus goes along.
pub struct Record {
    /// The words on the button, such as *Watered*.
    pub words: &'static str,
    /// Whether it is recorded.
    pub done: Signal<bool>,
    /// When it was recorded, once it is.
    pub told: Signal<String>,
    /// What was recorded, as a second line.
    pub told_small: Signal<String>,
    /// Told when the button was pressed.
    pub on_do: Callback<()>,
    /// Told when *Undo* was pressed.
    pub on_undo: Callback<()>,
}

impl Record {
    /// The button and its undo row, of which one is shown.
    #[must_use]
    pub fn view(self) -> AnyView {
        let Self {
            words,
            done,
            told,
            told_small,
            on_do,
            on_undo,
        } = self;
        let do_button = NodeRef::<html::Button>::new();
        let undo_button = NodeRef::<html::Button>::new();
        let undone = Signal::derive(move || !done.get());
        view! {
            <div class="press">
                <button type="button" class="btn do" node_ref=do_button hidden=done
                    on:click=move |_| {
                        on_do.run(());
                        focus_once_shown(undo_button);
                    }>{words}</button>
                <div class="undo" hidden=undone>
                    <p>{told}<small>{told_small}</small></p>
                    <button type="button" class="link" node_ref=undo_button
                        on:click=move |_| {
                            on_undo.run(());
                            focus_once_shown(do_button);
                        }>"Undo"</button>
                </div>
            </div>
        }
        .into_any()
    }
}

/// Puts the focus on a button in the next frame, when the page shows it.
fn focus_once_shown(button: NodeRef<html::Button>) {
    request_animation_frame(move || {
        if let Some(button) = button.try_get_untracked().flatten() {
            let _ = button.focus();
        }
    });
}
