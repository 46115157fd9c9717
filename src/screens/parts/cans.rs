//! Watering cans, drawn.

use leptos::prelude::*;

/// More cans than this are written only, with two drawn.
const MOST_DRAWN: f64 = 5.0;

/// Draws a number of cans, the last one filled in part. The figure beside them says the same in words.
#[must_use]
pub fn cans(count: Signal<f64>) -> AnyView {
    let many = Signal::derive(move || (count.get() > 2.0) && (count.get() <= MOST_DRAWN));
    let drawn = move || {
        let count = count.get();
        let count = if count > MOST_DRAWN { 2.0 } else { count.max(0.0) };
        let mut left = count;
        let mut drawn = vec![can(left.min(1.0))];
        while left > 1.0 {
            left -= 1.0;
            drawn.push(can(left.min(1.0)));
        }
        drawn
    };
    view! { <span class="cans" class:many=many aria-hidden="true">{drawn}</span> }.into_any()
}

/// One can filled to `share` (0–1).
fn can(share: f64) -> AnyView {
    let surface = 45.0 - 27.0 * share;
    let water = (share > 0.0).then(|| {
        view! {
            <g clip-path="url(#can-inside)">
                <rect class="f-water" x="10" y=surface width="45" height="40" />
                <path class="ink thin" d=format!("M10 {surface:.1}H55") />
            </g>
        }
    });
    view! {
        <svg class="can" viewBox="0 0 62 48" focusable="false">
            <use href="#can-back"></use>{water}<use href="#can-front"></use>
        </svg>
    }
    .into_any()
}
