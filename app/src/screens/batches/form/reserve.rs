//! An alkaline reserve: chalk in the pulp, last of all.

use bleachfield_core::{
    chemistry::alkaline_reserve::{FIBRE, PERMANENT, RETENTION, ReserveDose, SHARE, reserve_dose},
    derive::WashRecord,
    journal::{Body, ReserveAdded},
    message::Message,
    quantity::{Basis, Estimate, QuantityKind, grams, in_grams, share, weighed},
};
use leptos::prelude::*;

use super::{BatchWriter, Save, asks};
use crate::{
    components::{NumberField, NumberInput},
    i18n::{format_number, t, t_with},
    screens::calculator::sums::{fields, refusal, remarks, weigh_out},
};

/// Chalk that stays in sheets made by hand without an aid, and how far that may
/// be off (from memory: often 30 to 60 %).
const STAYS: f64 = 0.45;
const STAYS_OFF: f64 = 1.0 / 3.0;

#[component]
pub fn ReserveForm(writing: BatchWriter) -> impl IntoView {
    let dry = writing.studio.book_now(|book| {
        let pulp = WashRecord::of(book, book.batches.get(&writing.batch)?).pulp?;
        Some(in_grams(pulp.dry_fibre().value))
    });
    let fibre = NumberInput::new(FIBRE, QuantityKind::Mass)
        .filled(dry.map(|dry| format_number(dry, 3)).unwrap_or_default());
    let part =
        NumberInput::new(SHARE, QuantityKind::Share).filled(format_number(PERMANENT * 100.0, 2));
    let stays =
        NumberInput::new(RETENTION, QuantityKind::Share).filled(format_number(STAYS * 100.0, 2));
    let given = NumberInput::new(asks::GRAMS, QuantityKind::Mass);
    let dose = move || -> Option<Result<ReserveDose, Message>> {
        let retention = stays.base()?;
        let untouched = (retention - STAYS).abs() < 1e-6;
        let (off, basis) =
            if untouched { (STAYS_OFF, Basis::Assumed) } else { (0.1, Basis::OwnRecord) };
        let retention = Estimate::within(retention, off, basis);
        let retention =
            Estimate { low: retention.low.max(0.05), high: retention.high.min(1.0), ..retention };
        let fibre = weighed(grams(fibre.base()?));
        Some(
            reserve_dose(fibre, share(part.base()?), retention.map(share))
                .map_err(|why| why.message()),
        )
    };
    let refused = Signal::derive(move || dose().and_then(Result::err));
    let run = Callback::new(move |()| {
        if !asks::all_well(&[given, stays]) {
            return;
        }
        let Some(calcium_carbonate_g) = asks::on_scale(given) else { return };
        writing.save(Body::ReserveAdded(ReserveAdded {
            calcium_carbonate_g,
            retention_share: asks::figure(stays, 1.0, Basis::Assumed),
        }));
    });
    view! {
        <div class="stack">
            <p>{t!("form-reserve-what")}</p>
            {fields(&[fibre, part, stays], refused)}
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
            <NumberField ask=given />
            <Save writing run />
        </div>
    }
}
