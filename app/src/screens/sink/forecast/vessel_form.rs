//! What the bath stands in, and the room: asked where it matters, and kept as an entry.

use bleachfield_core::{
    bath::{BathCover, VesselMaterial, VesselShape, by_thermometer},
    derive::vessel_of_bath,
    journal::{Body, VesselDescribed},
    message::Field,
    quantity::QuantityKind,
};
use leptos::prelude::*;
use strum::VariantArray;

use crate::{
    components::{NumberField, NumberInput, RadioGroup, to_first_wrong},
    i18n::t,
    screens::{batches::name_of, sink::running_bath::RunningBath},
};

const ROOM: Field = Field("room_celsius");

/// Begins with what was said of this bath, else with nothing chosen.
#[component]
pub fn VesselForm(running: RunningBath) -> impl IntoView {
    let (own, earlier) = running.state.book_now(|book| {
        let view = book.bath(running.bath);
        let own = view.and_then(|view| view.vessel.clone());
        let earlier = view.and_then(|view| vessel_of_bath(book, view)).map(|(v, _)| v.clone());
        (own, earlier)
    });
    let same = earlier.filter(|_| own.is_none());
    let of = own.clone();
    let shape = RwSignal::new(of.as_ref().and_then(|vessel| vessel.shape));
    let material = RwSignal::new(of.as_ref().and_then(|vessel| vessel.material));
    let cover = RwSignal::new(of.as_ref().and_then(|vessel| vessel.cover));
    let room = NumberInput::new(ROOM, QuantityKind::Temperature).between(-10.0, 45.0).optional();
    let room = match of.and_then(|vessel| vessel.room_celsius) {
        Some(known) => room.filled(known.value),
        None => room,
    };
    let take_over = same.map(|same| {
        let names = described(&same);
        let take = move |_| {
            shape.set(same.shape);
            material.set(same.material);
            cover.set(same.cover);
        };
        view! {
            <button class="button plain" on:click=take>
                {t!("vessel-as_before")}" "<span class="soft small">{names}</span>
            </button>
        }
    });
    let nothing = RwSignal::new(false);
    let save = Callback::new(move |()| {
        if !room.try_now() {
            return;
        }
        let vessel = VesselDescribed {
            bath: running.bath,
            shape: shape.get_untracked(),
            material: material.get_untracked(),
            cover: cover.get_untracked(),
            room_celsius: room.base().map(by_thermometer),
        };
        let chosen = vessel.shape.is_some() || vessel.material.is_some() || vessel.cover.is_some();
        nothing.set(!chosen && vessel.room_celsius.is_none());
        if !nothing.get_untracked() {
            running.write(vec![Body::VesselDescribed(vessel)], t!("vessel-said"));
        }
    });
    let shapes =
        VesselShape::VARIANTS.iter().map(|one| (Some(*one), name_of("vessel_shape", *one)));
    let materials =
        VesselMaterial::VARIANTS.iter().map(|one| (Some(*one), name_of("vessel_material", *one)));
    let covers = BathCover::VARIANTS.iter().map(|one| (Some(*one), name_of("vessel_cover", *one)));
    view! {
        <details class="more">
            <summary>{t!("vessel-title")}</summary>
            <div class="inside stack">
                <p class="small">{t!("vessel-why")}</p>
                {take_over}
                <RadioGroup label=t!("vessel-cover") value=cover options=covers.collect() />
                <RadioGroup label=t!("vessel-shape") value=shape options=shapes.collect() />
                <RadioGroup label=t!("vessel-material") value=material options=materials.collect() />
                <NumberField ask=room on_enter=save />
                <p role="status">{move || nothing.get().then(|| view! {
                    <span class="refused">{t!("vessel-nothing")}</span>
                })}</p>
                <button class="button soft touch" disabled=move || running.sheets.busy.get()
                    on:click=move |_| { save.run(()); to_first_wrong() }>{t!("vessel-save")}</button>
            </div>
        </details>
    }
}

/// "Bucket or pot, plastic, lid on".
fn described(vessel: &VesselDescribed) -> String {
    let parts = [
        vessel.shape.map(|one| name_of("vessel_shape", one)),
        vessel.material.map(|one| name_of("vessel_material", one)),
        vessel.cover.map(|one| name_of("vessel_cover", one)),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}
