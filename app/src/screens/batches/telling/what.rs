//! What an entry says happened: a heading, and what words say better than figures.

use bleachfield_core::{
    journal::{
        Active, Aim, Alkali, Amount, Batch, BathStarted, BathStopped, Body, PlanRecord, ReadingOf,
        TargetFrom, TimelineEntry,
    },
    message::Value,
    quantity::QuantityKind,
};
use jiff::civil::Date;
use ulid::Ulid;

use crate::{
    i18n::{format_number, format_value, key, t, t_count, t_with},
    platform::clock,
};

/// The heading of an entry, and further lines about it.
pub fn what(told: &TimelineEntry, batch: &Batch) -> (String, Vec<String>) {
    let body = &told.body;
    let title = t(&format!("entry-{}", body.kind()));
    let one = |text: String| (title.clone(), vec![text]);
    match body {
        Body::BatchStarted(b) => {
            let cook = b.cook.as_ref().and_then(|c| c.alkali).map(|a| cooked_in(&a));
            (title, [named(&b.fibre), cook].into_iter().flatten().collect())
        }
        Body::Renamed(b) => one(b.name.clone()),
        Body::Cooked(c) => (title, c.alkali.map(|a| cooked_in(&a)).into_iter().collect()),
        Body::Weighed(w) => {
            let sample = w.sample.map(|s| {
                let [wet, dry] = [s.wet_g.value, s.dry_g.value]
                    .map(|g| format_value(&QuantityKind::Mass.value(g)));
                t_with!("entry_line-sample", &[("wet", &wet), ("dry", &dry)])
            });
            let how = name_of("dryness_from", w.how);
            (title, [Some(how), sample].into_iter().flatten().collect())
        }
        Body::Planned(plan) => (title, planned(plan)),
        Body::BathStarted(b) => (title, started(b, batch)),
        Body::ScheduleChanged(s) => {
            let stop = match s.schedule.stop_at_min {
                Some(min) => t_with!("entry_line-stop_at", &[("when", &minutes(min))]),
                None => t!("entry_line-no_stop"),
            };
            one(stop)
        }
        Body::CueAnswered(c) => {
            let kind = c.cue.split('-').next().unwrap_or_default();
            let kind = t(&format!("cue_kind-{kind}"));
            one(t_with(&format!("cue_outcome-{}", <&str>::from(c.outcome)), &[("cue", &kind)]))
        }
        Body::Added(a) => one(name_of("additive", a.what)),
        Body::BathStopped(b) => (title, stopped(b, batch)),
        Body::Reading(r) => {
            let turned = (r.what == ReadingOf::StarchIodide).then(|| {
                let turned = r.figure.is_some_and(|f| f.value > 0.0);
                t(if turned { key!("entry_line-turned") } else { key!("entry_line-not_turned") })
            });
            (name_of("reading", r.what), turned.into_iter().collect())
        }
        Body::Photo(p) => one(name_of("pulp_state", p.pulp)),
        Body::ColourReading(c) => {
            let against = named(&c.reference)
                .map(|white| t_with!("entry_line-against", &[("white", &white)]));
            let aged = c.ageing.map(|ageing| t(ageing.key()));
            let state = Some(name_of("pulp_state", c.pulp));
            (title, [state, aged, against].into_iter().flatten().collect())
        }
        Body::ColourTarget(target) => one(match &target.from {
            TargetFrom::Step(step) => t(step.key()),
            _ => target.name.clone(),
        }),
        Body::Antichlored(a) => one(name_of("antichlor", a.reagent)),
        Body::EndTest(t) => {
            one(format!("{}: {}", name_of("end_test", t.test), name_of("outcome", t.outcome)))
        }
        Body::AcidFinished(a) => one(name_of("acid", a.acid)),
        Body::SignedOff(s) => {
            one(t(if s.complete { key!("entry_line-clean") } else { key!("entry_line-unproven") }))
        }
        Body::Stored(s) => {
            let keep = s.keep_by.map(|d| t_with!("entry_line-keep_by", &[("date", &date(d))]));
            let lines = [Some(name_of("stored_form", s.form)), named(&s.place), keep];
            (title, lines.into_iter().flatten().collect())
        }
        Body::Sheets(s) => {
            let count = t_count!("entry_line-sheets", s.count as usize);
            (title, [Some(count), named(&s.format)].into_iter().flatten().collect())
        }
        Body::Unknown(_) => (t!("entry-unknown"), vec![t!("entry_line-unknown")]),
        _ => (title, Vec::new()),
    }
}

/// An entry in one line, for a menu's heading.
pub fn line(told: &TimelineEntry, batch: &Batch) -> String {
    format!("{} · {}", what(told, batch).0, clock::local(told.at))
}

/// What the locale calls a value that files write as one word.
pub fn name_of(group: &str, value: impl Into<&'static str>) -> String {
    t(&format!("{group}-{}", value.into()))
}

fn cooked_in(alkali: &Alkali) -> String {
    t_with!("entry_line-cooked_in", &[("alkali", &name_of("alkali", alkali))])
}

fn planned(plan: &PlanRecord) -> Vec<String> {
    let (kind, amount, counted_as) = match plan.aim {
        Aim::LiquorStrength { g_per_l, counted_as } => (
            key!("entry_line-aim_strength"),
            format!("{} g/L", format_number(g_per_l, 3)),
            counted_as,
        ),
        Aim::Charge { share, counted_as } => {
            (key!("entry_line-aim_charge"), format_value(&Value::Share(share)), counted_as)
        }
    };
    let aim = t_with(kind, &[("amount", &amount), ("active", &active(counted_as))]);
    let run = t_with!(
        "entry_line-run",
        &[
            ("minutes", &minutes(plan.minutes)),
            ("celsius", &format_value(&Value::Celsius(plan.celsius))),
        ],
    );
    let loads = (!plan.loads.is_empty()).then(|| t_count!("entry_line-loads", plan.loads.len()));
    let product = named(&plan.product.name).unwrap_or_else(|| name_of("oxidant", plan.oxidant));
    [Some(product), Some(aim), Some(run), loads].into_iter().flatten().collect()
}

/// What a bath was started with, beside what its plan said.
fn started(bath: &BathStarted, batch: &Batch) -> Vec<String> {
    let mut lines = vec![name_of("oxidant", bath.oxidant)];
    let Some(plan) = bath.plan.and_then(|id| plan_of(batch, id)) else { return lines };
    let meant = [
        ("product", bath.product_amount.map(size), plan.product_amount),
        ("water", bath.water_added_ml.map(|f| f.value), Amount::VolumeMl(plan.water_to_add_ml)),
    ];
    let mut differs = false;
    for (what, done, meant) in meant {
        let key = match done {
            None => "as_planned",
            Some(done) if (done - size(meant)).abs() <= 5e-3 * size(meant).abs() => continue,
            Some(_) => "plan_said",
        };
        differs |= key == "plan_said";
        lines.push(t_with(&format!("entry_line-{what}_{key}"), &[("amount", &amount(&meant))]));
    }
    if !differs && bath.product_amount.is_some() {
        lines.push(t!("entry_line-as_planned"));
    }
    lines
}

/// Why a bath was stopped, and how long it truly ran.
fn stopped(stop: &BathStopped, batch: &Batch) -> Vec<String> {
    let mut lines = vec![name_of("stop_reason", stop.why)];
    let Some(bath) = batch.baths.iter().find(|b| b.id == stop.bath) else { return lines };
    if let Some(end) = &bath.stopped {
        let ran = minutes(bath.elapsed(end.at).as_secs_f64() / 60.0);
        lines.push(match bath.plan.and_then(|id| plan_of(batch, id)) {
            Some(plan) => {
                t_with!(
                    "entry_line-ran_of_plan",
                    &[("ran", &ran), ("plan", &minutes(plan.minutes))]
                )
            }
            None => t_with!("entry_line-ran", &[("ran", &ran)]),
        });
    }
    lines
}

fn plan_of(batch: &Batch, entry: Ulid) -> Option<&PlanRecord> {
    batch.timeline.iter().find(|t| t.entry.id == entry).and_then(|t| match &t.body {
        Body::Planned(plan) => Some(&**plan),
        _ => None,
    })
}

fn amount(amount: &Amount) -> String {
    match amount {
        Amount::MassG(g) => format_value(&QuantityKind::Mass.value(g.value)),
        Amount::VolumeMl(ml) => format_value(&QuantityKind::Volume.value(ml.value)),
    }
}

/// Grams or millilitres of it.
fn size(amount: Amount) -> f64 {
    match amount {
        Amount::MassG(figure) | Amount::VolumeMl(figure) => figure.value,
    }
}

fn active(active: Active) -> String {
    name_of("active", active)
}

fn minutes(minutes: f64) -> String {
    format_value(&Value::Minutes(minutes.round()))
}

fn named(text: &str) -> Option<String> {
    Some(text.trim()).filter(|t| !t.is_empty()).map(str::to_owned)
}

/// A calendar date as this person writes it.
pub fn date(date: Date) -> String {
    clock::local_day(date)
}
