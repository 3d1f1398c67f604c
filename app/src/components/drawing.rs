//! Drawings of how something is done. Each says in words what it shows.

use leptos::prelude::*;

use crate::i18n::{t, t_with};

/// A text in a drawing.
fn label(x: f64, y: f64, anchor: &'static str, text: String) -> AnyView {
    view! { <text x=x y=y text-anchor=anchor>{text}</text> }.into_any()
}

/// How a photo for colour is set up: daylight from the side, white paper beside the pulp, the
/// phone straight above.
#[component]
pub fn PhotoSetup() -> impl IntoView {
    view! {
        <figure class="drawing">
            <svg viewBox="0 0 340 190" role="img" aria-label=t!("drawing-photo")>
                // The window, and its light.
                <path d="M14 22h52v92H14zM40 22v92M14 68h52" />
                <path class="thin" d="M72 40l74 62M72 62l62 56M72 84l46 44" />
                // The table, white paper and pulp on it.
                <path d="M78 160h250M96 160v22M312 160v22" />
                <path class="paper" d="M150 152l14-24h58l-12 24z" />
                <path class="pulp" d="M226 152c-2-18 10-26 30-26s34 8 30 26z" />
                // The phone over both, and what it sees.
                <path d="M178 26h76v14h-76z" />
                <path class="thin" d="M216 40l-58 86M216 40l66 86" />
                <circle cx="216" cy="40" r="4" />
                {label(40.0, 132.0, "middle", t!("drawing-window"))}
                {label(216.0, 18.0, "middle", t!("drawing-phone"))}
                {label(176.0, 176.0, "middle", t!("drawing-white"))}
                {label(260.0, 176.0, "middle", t!("drawing-pulp"))}
            </svg>
            <figcaption class="small">{t!("drawing-photo_say")}</figcaption>
        </figure>
    }
}

/// How a strip is read: beside the scale that is printed on its own tube. The fields are drawn
/// without colours, since each maker has its own.
#[component]
pub fn StripReading() -> impl IntoView {
    // Denser lines for a stronger field.
    let field = |nth: u32| {
        let y = 34.0 + 26.0 * f64::from(nth);
        let lines = (1..=2 * nth).map(|line| {
            let x = 142.0 + 44.0 * f64::from(line) / f64::from(2 * nth + 1);
            view! { <path class="thin" d=format!("M{x:.1} {y}v20") /> }
        });
        view! {
            <path d=format!("M142 {y}h44v20h-44z") />
            {lines.collect_view()}
        }
    };
    view! {
        <figure class="drawing">
            <svg viewBox="0 0 340 190" role="img" aria-label=t!("drawing-strip")>
                // The tube with its scale.
                <path d="M126 20h76v160h-76zM138 8h52v12h-52z" />
                {(0..5).map(field).collect_view()}
                // The strip beside it: its pad at the height of the field that it matches.
                <path d="M208 40h18v140h-18z" />
                <path class="pad" d="M208 86h18v20h-18z" />
                <path class="thin" d="M186 96h22" />
                {label(120.0, 100.0, "end", t!("drawing-tube"))}
                {label(234.0, 100.0, "start", t!("drawing-pad"))}
                {label(234.0, 174.0, "start", t!("drawing-strip_label"))}
            </svg>
            <figcaption class="small">{t!("drawing-strip_say")}</figcaption>
        </figure>
    }
}

/// What a rinse leaves, as steps that go down: shares of 1, the first before any rinse.
#[component]
pub fn Staircase(left: Vec<f64>) -> impl IntoView {
    let wide = 300.0 / left.len().max(1) as f64;
    let steps = left.iter().enumerate().map(|(nth, share)| {
        let height = (100.0 * share).max(1.5);
        let x = 20.0 + wide * nth as f64;
        let text = t_with!("drawing-percent", &[("n", &percent(*share))]);
        view! {
            <rect class="step" x=x y=130.0 - height width=wide - 6.0 height=height />
            {label(x + wide / 2.0 - 3.0, 124.0 - height, "middle", text)}
            {label(x + wide / 2.0 - 3.0, 148.0, "middle", nth.to_string())}
        }
    });
    let steps = steps.collect_view();
    let texts: Vec<String> = left.iter().map(|share| percent(*share)).collect();
    view! {
        <figure class="drawing">
            <svg viewBox="0 0 340 160" role="img"
                aria-label=t_with!("drawing-staircase", &[("steps", &texts.join(", "))])>
                {steps}
                <path d="M16 130h312" />
            </svg>
        </figure>
    }
}

fn percent(share: f64) -> String {
    crate::i18n::format_number(share * 100.0, 2)
}
