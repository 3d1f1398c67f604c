//! The bar along the bottom: the answer so far, and the next press.

use std::time::Duration;

use bleachfield_core::{
    bath::BleachAmount, derive::BathToMeasure, journal::PlanRecord, message::Value,
};
use leptos::{leptos_dom::helpers::TimeoutHandle, prelude::*};

use crate::i18n::{amount, format_value, t_with};

/// Texts are announced once they stayed the same for so long.
const QUIET: Duration = Duration::from_millis(1200);

/// The bar. `children` are its buttons.
#[component]
pub fn AnswerBar(
    #[prop(into)] text: Signal<String>,
    /// There is no plan, or something is missing.
    #[prop(into)]
    lacking: Signal<bool>,
    children: Children,
) -> impl IntoView {
    let text = Memo::new(move |_| text.get());
    let said = RwSignal::new(String::new());
    let waiting = StoredValue::new(None::<TimeoutHandle>);
    Effect::new(move |before: Option<()>| {
        let text = text.get();
        if let Some(earlier) = waiting.get_value() {
            earlier.clear();
        }
        // What is there when the screen opens is read with the screen.
        if before.is_some() {
            let say = move || {
                let _ = said.try_set(text);
            };
            waiting.set_value(set_timeout_with_handle(say, QUIET).ok());
        }
    });
    view! {
        <div class="plan-bar" class:lacking=move || lacking.get()>
            <p class="answer">{move || in_parts(&text.get())}</p>
            <p class="visually-hidden" role="status">{move || said.get()}</p>
            {children()}
        </div>
    }
}

/// The text, broken only between its parts.
fn in_parts(text: &str) -> AnyView {
    let all: Vec<&str> = text.split(SEPARATOR).collect();
    let last = all.len() - 1;
    let parts = all.into_iter().enumerate().map(|(nth, part)| {
        let whole = part.chars().count() < LONG;
        let part = if nth < last { format!("{part} ·") } else { part.to_owned() };
        view! { <span class:whole=whole>{part}</span>" " }
    });
    parts.collect_view().into_any()
}

const SEPARATOR: &str = " · ";
/// A part longer than so many characters may break.
const LONG: usize = 26;

/// "63 mL bleach · 2.35 L water at 44 °C · pH 10.2".
pub fn answer(record: &PlanRecord, ph: Option<f64>) -> String {
    let bath = BathToMeasure::of(record);
    let dose = bath.whole.dose.amount();
    let bleach = amount(dose);
    let bleach = match dose {
        BleachAmount::Bottle(_) => t_with!("plan-bar_bleach", &[("amount", &bleach)]),
        BleachAmount::Powder(_) => t_with!("plan-bar_powder", &[("amount", &bleach)]),
    };
    let soda = bath
        .whole
        .soda_ash
        .map(|mass| t_with!("plan-bar_soda", &[("amount", &format_value(&Value::Mass(mass)))]));
    let volume = format_value(&Value::Volume(bath.whole.water));
    let water = match bath.water_at {
        Ok(at) => t_with!(
            "plan-bar_water_at",
            &[
                ("amount", &volume),
                ("temperature", &format_value(&Value::Celsius(at.get().round()))),
            ]
        ),
        Err(_) => t_with!("plan-bar_water", &[("amount", &volume)]),
    };
    let ph = ph.map(|ph| t_with!("plan-bar_ph", &[("ph", &format_value(&Value::Ph(ph)))]));
    let parts = [Some(bleach), soda, Some(water), ph];
    parts.into_iter().flatten().collect::<Vec<_>>().join(SEPARATOR)
}
