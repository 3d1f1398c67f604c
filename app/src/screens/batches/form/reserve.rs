//! The alkaline reserve: chalk added to the pulp, last of all.

use bleachfield_core::{
    chemistry::alkaline_reserve::{FIBRE, PERMANENT, RETENTION, ReserveDose, SHARE, reserve_dose},
    journal::{Body, ReserveAdded},
    message::Message,
    quantity::{Basis, Estimate, QuantityKind, grams, share, weighed},
};
use leptos::prelude::*;

use super::{BatchWriter, SaveButton, all_valid, figure, inputs, weighed_figure};
use crate::{
    components::{NumberField, NumberInput},
    i18n::{format_number, t, t_with},
    screens::calculator::sums::{fields, refusal, remarks, weigh_out},
};

/// The share of chalk that stays in handmade sheets without a retention aid, and how far
/// that may be off (from memory: often 30 to 60 %).
const USUAL_RETENTION: f64 = 0.45;
const USUAL_RETENTION_ERROR: f64 = 1.0 / 3.0;

#[component]
pub fn ReserveForm(writer: BatchWriter) -> impl IntoView {
    let fibre = NumberInput::new(FIBRE, QuantityKind::Mass)
        .filled(writer.dry_fibre_g().map(|dry| format_number(dry, 3)).unwrap_or_default());
    let chalk =
        NumberInput::new(SHARE, QuantityKind::Share).filled(format_number(PERMANENT * 100.0, 2));
    let retention = NumberInput::new(RETENTION, QuantityKind::Share)
        .filled(format_number(USUAL_RETENTION * 100.0, 2));
    let added = NumberInput::new(inputs::GRAMS, QuantityKind::Mass);
    let dose = move || -> Option<Result<ReserveDose, Message>> {
        let typed = retention.base()?;
        let (error, basis) = if (typed - USUAL_RETENTION).abs() < 1e-6 {
            (USUAL_RETENTION_ERROR, Basis::Assumed)
        } else {
            (0.1, Basis::OwnRecord)
        };
        let within = Estimate::within(typed, error, basis);
        let retention =
            Estimate { low: within.low.max(0.05), high: within.high.min(1.0), ..within };
        let fibre = weighed(grams(fibre.base()?));
        let dose = reserve_dose(fibre, share(chalk.base()?), retention.map(share));
        Some(dose.map_err(|error| error.message()))
    };
    let refused = Signal::derive(move || dose().and_then(Result::err));
    let run = Callback::new(move |()| {
        if !all_valid(&[added, retention]) {
            return;
        }
        let Some(calcium_carbonate_g) = weighed_figure(added) else { return };
        let retention_share = figure(retention, Basis::Assumed);
        writer.save(Body::ReserveAdded(ReserveAdded { calcium_carbonate_g, retention_share }));
    });
    view! {
        <div class="stack">
            <p>{t!("form-reserve-what")}</p>
            {fields(&[fibre, chalk, retention], refused)}
            <div class="stack" aria-live="polite">
                {move || match dose() {
                    None => view! { <p class="soft">{t!("form-reserve-waiting")}</p> }.into_any(),
                    Some(Err(why)) => refusal(&why),
                    Some(Ok(dose)) => view! {
                        {weigh_out(t!("form-reserve-weigh"), dose.dose)}
                        <p>{t_with!("form-reserve-takes_up", &[
                            ("moles", &format_number(dose.acid_per_kilogram, 2)),
                        ])}</p>
                        {remarks(&dose.remarks)}
                    }
                    .into_any(),
                }}
            </div>
            <h3>{t!("form-as_done")}</h3>
            <NumberField ask=added />
            <SaveButton writer run />
        </div>
    }
}
