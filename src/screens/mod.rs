//! What the grower sees: wording and layout, no formula and no constant of the trade.

mod answers;
mod app;
mod fields;
mod morning_water;
mod notebook_sheet;
mod parts;
mod plants;
mod route;
mod to_come;
mod words;

use leptos::{ev, html, prelude::*};

use app::App;
use parts::{Strip, TabLink, announcer, early_choice, error_note, link_button, tabs};
use route::Route;

/// Puts the program in place of the static shell of `index.html`, with the keys that were pressed meanwhile.
pub fn mount() {
    let early = (early_choice("sky"), early_choice("feel"));
    leptos::mount::mount_to_body(move || page(&early));
    if let Some(shell) = document().get_element_by_id("shell") {
        shell.remove();
    }
}

fn page((sky, feel): &(Option<String>, Option<String>)) -> AnyView {
    let app = App::start();
    if let Some(sky) = sky.as_deref().and_then(words::sky_of) {
        app.notebook.update(|notebook| notebook.morning.choose_sky(sky));
    }
    if let Some(feel) = feel.as_deref().and_then(words::feel_of) {
        app.change_group(|group| group.feel = Some(feel));
    }
    let route = RwSignal::new(current_route());
    let hash = window_event_listener(ev::hashchange, move |_| route.set(current_route()));
    let seen = window_event_listener(ev::focus, move |_| app.look_at_clock());
    on_cleanup(move || {
        hash.remove();
        seen.remove();
    });
    follow_route(route);
    let main = NodeRef::<html::Main>::new();
    view! {
        <a class="skip" href="#question" on:click=move |event| {
            event.prevent_default();
            focus_question();
        }>"Skip to the answer"</a>
        {strip(app)}
        {tabs(
            [Route::MorningWater, Route::FeedMix, Route::PestRepeats].into_iter().zip(["tab-water", "tab-feed", "tab-pest"])
                .map(|(route, drawing)| TabLink { href: route.fragment(), words: route.name(), drawing }).collect(),
            Signal::derive(move || route.get().fragment()),
        )}
        <main id="main" node_ref=main>
            {trouble(app)}
            {move || match route.get() {
                Route::MorningWater => morning_water::morning_water(app),
                Route::FeedMix => to_come::to_come(&to_come::FEED_MIX),
                Route::PestRepeats => to_come::to_come(&to_come::PEST_REPEATS),
                Route::Notebook => notebook_sheet::notebook_sheet(app),
            }}
        </main>
        {announcer(Signal::derive(move || spoken(app)))}
    }
    .into_any()
}

fn strip(app: App) -> AnyView {
    let plot = move |read: fn(&crate::notebook::Plot) -> String| Signal::derive(move || app.notebook.with(|notebook| read(&notebook.plot)));
    Strip {
        plot_number: plot(|plot| plot.number.clone()),
        plot_name: plot(|plot| {
            if plot.name.trim().is_empty() {
                "My plot".to_owned()
            } else {
                plot.name.clone()
            }
        }),
        date: Signal::derive(move || app.today.get().to_string()),
        date_words: Signal::derive(move || app.today.get().spoken()),
        notebook_href: Route::Notebook.fragment(),
    }
    .view()
}

/// What is wrong with the kept notebook or its keeping, in one line over every screen.
fn trouble(app: App) -> AnyView {
    let line = move || {
        let words = app.trouble.with(|trouble| trouble.as_ref().map(ToString::to_string));
        let set_aside = words.is_some();
        let words = words.or_else(|| {
            let refused = "Nothing can be kept on this device just now. The page works; save a copy to a file from the Notebook.";
            app.not_kept.get().then(|| refused.to_owned())
        })?;
        let dismiss = Callback::new(move |()| app.trouble.set(None));
        Some(view! {
            <div class="notice" role="alert" id="notice">
                {error_note(words.into())}
                {set_aside.then(|| view! { <a class="link" href=Route::Notebook.fragment()>"Save it to a file"</a> })}
                {set_aside.then(|| link_button("Go on without it".into(), dismiss))}
            </div>
        })
    };
    line.into_any()
}

/// The headline for a screen reader, after it has changed.
fn spoken(app: App) -> String {
    app.answers.with(|answers| {
        let said = answers.iter().filter_map(|answer| answer.shown.as_ref()).map(|shown| {
            format!(
                "{} a plant, likely {}",
                words::amount(&shown.each),
                words::range(&shown.low, &shown.high)
            )
        });
        said.collect::<Vec<_>>().join("; ")
    })
}

fn current_route() -> Route {
    Route::from_fragment(&window().location().hash().unwrap_or_default())
}

/// Names the page after its screen, and moves the focus to the new screen's question.
fn follow_route(route: RwSignal<Route>) {
    Effect::new(move |before: Option<Route>| {
        let now = route.get();
        document().set_title(&format!("{} - First Truss", now.name()));
        if before.is_some_and(|before| before != now) {
            request_animation_frame(|| {
                window().scroll_to_with_x_and_y(0.0, 0.0);
                focus_question();
            });
        }
        now
    });
}

fn focus_question() {
    let question = document().get_element_by_id("question");
    if let Some(question) = question.and_then(|element| wasm_bindgen::JsCast::dyn_into::<web_sys::HtmlElement>(element).ok()) {
        // A page without focus loses nothing.
        let _ = question.focus();
    }
}
