//! The alkaline reserve: chalk added to the pulp, last of all.

use bleachfield_core::{
    chemistry::alkaline_reserve::{
        FIBRE, PERMANENT, RETENTION, ReserveDose, SHARE, USUAL_RETENTION, own_retention,
        reserve_dose,
    },
    journal::{Body, ReserveAdded},
    message::Message,
    quantity::{QuantityKind, grams, in_grams, share, weighed},
};
use leptos::prelude::*;

use super::{BatchWriter, SaveButton, all_valid, inputs, weighed_figure};
use crate::{
    components::{NumberField, NumberInput, RecordedInput, Term},
    i18n::{format_number, t, t_with},
    screens::calculator::sums::{fields, refusal, remarks, weigh_out},
};

#[component]
pub fn ReserveForm(writer: BatchWriter) -> impl IntoView {
    let fibre = RecordedInput::new(
        NumberInput::new(FIBRE, QuantityKind::Mass),
        writer.dry_fibre(),
        |dry| in_grams(dry.value),
    );
    let chalk = NumberInput::new(SHARE, QuantityKind::Share).filled(PERMANENT * 100.0);
    let retention = RecordedInput::new(
        NumberInput::new(RETENTION, QuantityKind::Share),
        Some(USUAL_RETENTION),
        |usual| usual.value * 100.0,
    );
    let added = NumberInput::new(inputs::GRAMS, QuantityKind::Mass);
    let dose = move || -> Option<Result<ReserveDose, Message>> {
        let retention = retention.get(own_retention)?;
        let fibre = fibre.get(|dry| weighed(grams(dry)))?;
        let dose = reserve_dose(fibre, share(chalk.base()?), retention.map(share));
        Some(dose.map_err(|error| error.message()))
    };
    let refused = Signal::derive(move || dose().and_then(Result::err));
    let run = Callback::new(move |()| {
        if !all_valid(&[added, retention.input]) {
            return;
        }
        let Some(calcium_carbonate_g) = weighed_figure(added) else { return };
        // As assumed, unless the person gave their own.
        let retention_share = retention.get(own_retention);
        writer.save(Body::ReserveAdded(ReserveAdded { calcium_carbonate_g, retention_share }));
    });
    view! {
        <div class="stack">
            <p>{t!("form-reserve-what")}</p>
            {fields(&[fibre.input, chalk, retention.input], refused)}
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
            <NumberField ask=added term=Term::AlkalineReserve />
            <SaveButton writer run />
        </div>
    }
}
