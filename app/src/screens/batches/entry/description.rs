//! Descriptions of entries: a title, and what words say better than figures.

use bleachfield_core::{
    journal::{
        Aim, Alkali, Amount, Batch, BathStarted, BathStopped, Body, CueAnswered, CueOutcome,
        PlanRecord, Reading, ReadingOf, Stored, Tagged, TargetFrom, TimelineEntry, Weighed,
    },
    message::Value,
    quantity::{Basis, QuantityKind},
};
use ulid::Ulid;

use crate::{
    i18n::{format_number, format_value, key, t, t_count, t_with},
    platform::clock,
};

/// The title of an entry, and further lines about it.
pub fn describe(entry: &TimelineEntry, batch: &Batch) -> (String, Vec<String>) {
    let title = match &entry.body {
        Body::Reading(r) => name_of("reading", r.what),
        Body::Unknown(_) => t!("entry-unknown"),
        Body::CueAnswered(answered) => cue_answered(answered),
        body => t(&format!("entry-{}", body.kind())),
    };
    (title, lines(&entry.body, batch))
}

/// An entry in one line.
pub fn title_and_time(entry: &TimelineEntry, batch: &Batch) -> String {
    format!("{} · {}", describe(entry, batch).0, clock::local(entry.at))
}

/// The name of an enum variant of the core, under the locale key `<group>-<variant>`.
pub fn name_of(group: &str, variant: impl Into<&'static str>) -> String {
    t(&format!("{group}-{}", variant.into()))
}

fn lines(body: &Body, batch: &Batch) -> Vec<String> {
    let lines = match body {
        Body::BatchStarted(b) => {
            let alkali = b.cook.as_ref().and_then(|cook| cook.alkali);
            vec![non_empty(&b.fibre), alkali.map(cooked_in)]
        }
        Body::Renamed(b) => vec![Some(b.name.clone())],
        Body::Tagged(tagged) => tags(tagged),
        Body::Cooked(c) => vec![c.alkali.map(cooked_in)],
        Body::Weighed(w) => weighed(w),
        Body::Planned(plan) => planned(plan),
        Body::BathStarted(b) => return bath_started(b, batch),
        Body::ScheduleChanged(s) => vec![Some(match s.schedule.stop_at_min {
            Some(min) => t_with!("entry_line-stop_at", &[("when", &minutes(min))]),
            None => t!("entry_line-no_stop"),
        })],
        Body::Added(a) => vec![Some(name_of("additive", a.what))],
        Body::VesselDescribed(v) => vec![
            v.shape.map(|shape| name_of("vessel_shape", shape)),
            v.material.map(|material| name_of("vessel_material", material)),
            v.cover.map(|cover| name_of("vessel_cover", cover)),
        ],
        Body::BathStopped(b) => bath_stopped(b, batch),
        Body::Reading(r) => vec![turned(r)],
        Body::Photo(p) => vec![Some(name_of("pulp_state", p.pulp))],
        Body::ColourReading(c) => vec![
            Some(name_of("pulp_state", c.pulp)),
            c.ageing.map(|ageing| t(ageing.key())),
            non_empty(&c.reference)
                .map(|white| t_with!("entry_line-against", &[("white", &white)])),
        ],
        Body::ColourTarget(target) => vec![Some(match &target.from {
            TargetFrom::Step(step) => t(step.key()),
            _ => target.name.clone(),
        })],
        Body::Antichlored(a) => vec![Some(name_of("antichlor", a.reagent))],
        Body::EndTest(t) => {
            let (test, outcome) = (name_of("end_test", t.test), name_of("outcome", t.outcome));
            vec![Some(format!("{test}: {outcome}"))]
        }
        Body::AcidFinished(a) => vec![Some(name_of("acid", a.acid))],
        Body::SignedOff(s) => vec![Some(t(if s.complete {
            key!("entry_line-clean")
        } else {
            key!("entry_line-unproven")
        }))],
        Body::Stored(s) => stored(s),
        Body::Sheets(s) => {
            vec![Some(t_count!("entry_line-sheets", s.count as usize)), non_empty(&s.format)]
        }
        Body::TrialDesigned(trial) => vec![Some(t_with!(
            "trial-entry",
            &[("pots", &trial.pots.len().to_string()), ("seed", &trial.seed.to_string())]
        ))],
        Body::Unknown(_) => vec![Some(t!("entry_line-unknown"))],
        _ => Vec::new(),
    };
    lines.into_iter().flatten().collect()
}

fn tags(tagged: &Tagged) -> Vec<Option<String>> {
    let on = non_empty(&tagged.add.join(", "));
    let off = non_empty(&tagged.remove.join(", "));
    vec![
        on.map(|tags| t_with!("entry_line-tags_on", &[("tags", &tags)])),
        off.map(|tags| t_with!("entry_line-tags_off", &[("tags", &tags)])),
    ]
}

fn cooked_in(alkali: Alkali) -> String {
    t_with!("entry_line-cooked_in", &[("alkali", &name_of("alkali", alkali))])
}

fn weighed(weighed: &Weighed) -> Vec<Option<String>> {
    let sample = weighed.sample.map(|s| {
        let [wet, dry] =
            [s.wet_g, s.dry_g].map(|g| format_value(&QuantityKind::Mass.value(g.value)));
        t_with!("entry_line-sample", &[("wet", &wet), ("dry", &dry)])
    });
    let drying = weighed.sample.and_then(|s| s.drying);
    let drying = drying.map(|drying| name_of("drying", drying));
    vec![Some(name_of("dryness_from", weighed.how)), sample, drying]
}

fn planned(plan: &PlanRecord) -> Vec<Option<String>> {
    let (key, amount, counted_as) = match plan.aim {
        Aim::LiquorStrength { g_per_l, counted_as } => (
            key!("entry_line-aim_strength"),
            format!("{} g/L", format_number(g_per_l, 3)),
            counted_as,
        ),
        Aim::Charge { share, counted_as } => {
            (key!("entry_line-aim_charge"), format_value(&Value::Share(share)), counted_as)
        }
    };
    let aim = t_with(key, &[("amount", &amount), ("active", &name_of("active", counted_as))]);
    let celsius = format_value(&Value::Celsius(plan.celsius));
    let run =
        t_with!("entry_line-run", &[("minutes", &minutes(plan.minutes)), ("celsius", &celsius)],);
    let loads = (!plan.loads.is_empty()).then(|| t_count!("entry_line-loads", plan.loads.len()));
    let product = non_empty(&plan.product.name).unwrap_or_else(|| name_of("oxidant", plan.oxidant));
    vec![Some(product), Some(aim), Some(run), loads]
}

/// Where the amounts of a bath differ from its plan, or that they do not.
fn bath_started(bath: &BathStarted, batch: &Batch) -> Vec<String> {
    let mut lines = vec![name_of("oxidant", bath.oxidant)];
    let Some(plan) = bath.plan.and_then(|id| plan_of(batch, id)) else { return lines };
    let amounts = [
        ("product", bath.product_amount.map(|amount| amount.figure().value), plan.product_amount),
        ("water", bath.water_added_ml.map(|f| f.value), Amount::VolumeMl(plan.water_to_add_ml)),
    ];
    let mut differs = false;
    let by_plan =
        bath.product_amount.is_some_and(|amount| amount.figure().basis >= Basis::Computed);
    for (what, used, planned) in amounts {
        let target = planned.figure().value;
        let key = match used {
            None => "as_planned",
            Some(used) if (used - target).abs() <= 5e-3 * target.abs() => continue,
            Some(_) => "plan_said",
        };
        differs |= used.is_some();
        let amount = match planned {
            Amount::MassG(_) => QuantityKind::Mass.value(target),
            Amount::VolumeMl(_) => QuantityKind::Volume.value(target),
        };
        let amount = format_value(&amount);
        lines.push(t_with(&format!("entry_line-{what}_{key}"), &[("amount", &amount)]));
    }
    if !differs && bath.product_amount.is_some() {
        lines.push(if by_plan { t!("entry_line-by_plan") } else { t!("entry_line-as_planned") });
    }
    lines
}

/// What was done at a cue, or which one was skipped.
fn cue_answered(answered: &CueAnswered) -> String {
    let kind = answered.cue.split('-').next().unwrap_or_default();
    match answered.outcome {
        CueOutcome::Done => t(&format!("cue_done-{kind}")),
        CueOutcome::Skipped => {
            t_with!("cue_outcome-skipped", &[("cue", &t(&format!("cue_kind-{kind}")))])
        }
    }
}

/// Why a bath was stopped, and how long it ran.
fn bath_stopped(stop: &BathStopped, batch: &Batch) -> Vec<Option<String>> {
    let bath = batch.baths.iter().find(|bath| bath.id == stop.bath);
    let ran = bath.and_then(|bath| {
        let ran = minutes(bath.elapsed(bath.stopped.as_ref()?.at).as_secs_f64() / 60.0);
        Some(match bath.plan.and_then(|id| plan_of(batch, id)) {
            Some(plan) => {
                let planned = minutes(plan.minutes);
                t_with!("entry_line-ran_of_plan", &[("ran", &ran), ("plan", &planned)])
            }
            None => t_with!("entry_line-ran", &[("ran", &ran)]),
        })
    });
    vec![Some(name_of("stop_reason", stop.why)), ran]
}

/// Whether starch–iodide paper turned.
fn turned(reading: &Reading) -> Option<String> {
    (reading.what == ReadingOf::StarchIodide).then(|| {
        let turned = reading.figure.is_some_and(|f| f.value > 0.0);
        t(if turned { key!("entry_line-turned") } else { key!("entry_line-not_turned") })
    })
}

fn stored(stored: &Stored) -> Vec<Option<String>> {
    let keep_by = stored
        .keep_by
        .map(|day| t_with!("entry_line-keep_by", &[("date", &clock::local_day(day))]));
    let untested =
        non_empty(&stored.untested_why).map(|why| t_with!("store-untested_line", &[("why", &why)]));
    // First: the record shows one line until it is opened.
    vec![untested, Some(name_of("stored_form", stored.form)), non_empty(&stored.place), keep_by]
}

fn plan_of(batch: &Batch, id: Ulid) -> Option<&PlanRecord> {
    batch.timeline.iter().find(|entry| entry.entry.id == id).and_then(|entry| match &entry.body {
        Body::Planned(plan) => Some(&**plan),
        _ => None,
    })
}

fn minutes(minutes: f64) -> String {
    format_value(&Value::Minutes(minutes.round()))
}

fn non_empty(text: &str) -> Option<String> {
    Some(text.trim()).filter(|text| !text.is_empty()).map(str::to_owned)
}
