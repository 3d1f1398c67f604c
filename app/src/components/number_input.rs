//! Input of one number: its text, the quantity it is parsed as, and the error to show.

use bleachfield_core::{
    message::{Field, Message},
    quantity::{NumberSpec, ParseError, ParsedQuantity, QuantityKind, Unit, offered_units},
};
use leptos::prelude::*;

use super::{Term, ValueField, field::UnitChoice};
use crate::{
    i18n::{field_name, format_number, sentence_case, unit_name},
    platform::{
        draft::DraftScope,
        preferences::{DecimalMark, PreferencesContext, preferences_context},
    },
};

/// Significant figures of a number that was not typed.
const FIGURES: i32 = 4;

/// A number that a screen asks for; copies share their signals.
#[derive(Clone, Copy)]
pub struct NumberInput {
    pub text: RwSignal<String>,
    /// Its unit is that of the numbers that the app fills in.
    spec: NumberSpec,
    /// The unit of a number typed without one, as the person chose it.
    unit: RwSignal<Unit>,
    filled: StoredValue<Option<Filled>>,
    draft: Option<DraftScope>,
    /// What was typed before is back: what the app knows does not replace it.
    restored: bool,
    /// May be left empty.
    optional: bool,
    /// Submission was attempted: an empty field is now an error.
    tried: RwSignal<bool>,
}

/// What the app filled in.
#[derive(Clone)]
struct Filled {
    text: String,
    /// In the usual unit of the field.
    number: f64,
    /// The form began with it, so that it need not be kept.
    initial: bool,
}

impl NumberInput {
    /// A number of `kind` with the kind's base unit and limits.
    pub fn new(field: Field, kind: QuantityKind) -> Self {
        Self::of(NumberSpec::new(field, kind))
    }

    /// As `spec`, with the reader's own measures and decimal mark.
    pub fn of(spec: NumberSpec) -> Self {
        let context = preferences_context();
        let preferences = context.get_untracked();
        let mark = if preferences.mark == DecimalMark::Comma { ',' } else { '.' };
        let spec = spec.reader(preferences.measures, mark);
        let draft = DraftScope::current();
        let named = draft.map(|draft| (draft, draft.name(spec.field.0)));
        let kept = named.as_ref().and_then(|(draft, name)| draft.restore(name));
        let input = Self {
            draft,
            restored: kept.is_some(),
            text: RwSignal::new(kept.unwrap_or_default()),
            spec,
            unit: RwSignal::new(preferred_unit(context, &spec)),
            filled: StoredValue::new(None),
            optional: false,
            tried: RwSignal::new(false),
        };
        if let Some((draft, name)) = named {
            input.keep_in(draft, name);
        }
        input
    }

    /// Keeps what is typed, but not what the form began with.
    fn keep_in(self, draft: DraftScope, name: String) {
        Effect::new(move |_| {
            let initial =
                self.filled.with_value(|filled| filled.as_ref().is_some_and(|f| f.initial));
            let begun_with = initial && self.is_as_filled();
            let typed = !self.is_empty() && !begun_with;
            draft.keep(&name, typed.then(|| self.text.get()));
        });
    }

    /// Sets the usual unit of a number typed without one, until the person chooses another.
    #[must_use]
    pub fn unit(self, unit: Unit) -> Self {
        let spec = self.spec.unit(unit);
        self.unit.set(preferred_unit(preferences_context(), &spec));
        Self { spec, ..self }
    }

    /// Sets limits, in the base unit of the kind.
    #[must_use]
    pub fn between(self, min: f64, max: f64) -> Self {
        Self { spec: self.spec.between(min, max), ..self }
    }

    /// Allows an empty field.
    #[must_use]
    pub fn optional(self) -> Self {
        Self { optional: true, ..self }
    }

    /// Fills in an initial number, in the usual unit of the field.
    #[must_use]
    pub fn filled(self, number: f64) -> Self {
        self.fill(number);
        self
    }

    /// Fills in a number given in the usual unit of the field, written in the chosen one. While
    /// the form is being made, what was typed before and not saved stays instead.
    pub fn fill(self, number: f64) {
        self.fill_figures(number, FIGURES);
    }

    /// As [`Self::fill`], with so many significant figures.
    pub fn fill_figures(self, number: f64, figures: i32) {
        // First the value: whoever reads the text reads it too.
        let initial = self.draft.is_some_and(DraftScope::is_making);
        let text = self.set_filled(number, figures, initial);
        if !(initial && self.restored) {
            self.text.set(text);
        }
    }

    /// Notes what the app would fill in; returns it as text.
    fn set_filled(self, number: f64, figures: i32, initial: bool) -> String {
        let NumberSpec { unit, measures, .. } = self.spec;
        let base = unit.to_base(number, measures);
        let shown = self.unit.get_untracked().from_base(base, measures);
        let text = format_number(shown, figures);
        self.filled.set_value(Some(Filled { text: text.clone(), number, initial }));
        text
    }

    /// A number in the base unit of the kind, in the unit that the person chose. Tracked.
    pub fn in_chosen_unit(self, base: f64) -> f64 {
        self.unit.get().from_base(base, self.spec.measures)
    }

    /// Whether the text is as the app filled it in. Tracks the text.
    pub fn is_as_filled(self) -> bool {
        self.text.with(|text| {
            self.filled.with_value(|filled| filled.as_ref().is_some_and(|was| was.text == *text))
        })
    }

    /// Changes the unit of a number typed without one. A number that the app filled in is written
    /// in the new unit; a typed one stays.
    pub(super) fn choose_unit(self, unit: Unit) {
        let filled = untrack(|| self.is_as_filled());
        self.unit.set(unit);
        if filled && let Some(Filled { number, initial, .. }) = self.filled.get_value() {
            let text = self.set_filled(number, FIGURES, initial);
            self.text.set(text);
        }
    }

    fn read(self, text: &str) -> Result<ParsedQuantity, ParseError> {
        self.spec.unit(self.unit.get()).parse(text)
    }

    pub fn field(self) -> Field {
        self.spec.field
    }

    /// The parsed text; `None` if empty or invalid. Tracks the text.
    pub fn typed(self) -> Option<ParsedQuantity> {
        self.read(&self.text.get()).ok()
    }

    /// The value in the base unit of its kind (g, mL, share, °C, min, g/L).
    pub fn base(self) -> Option<f64> {
        self.typed().map(|typed| typed.base)
    }

    pub fn is_empty(self) -> bool {
        self.text.with(|text| text.trim().is_empty())
    }

    /// Validates for submission: an empty field is an error from now on unless optional.
    pub fn try_now(self) -> bool {
        self.tried.set(true);
        self.wrong().is_none()
    }

    /// The error to show beside the field.
    pub fn wrong(self) -> Option<Message> {
        if self.is_empty() && (self.optional || !self.tried.get()) {
            return None;
        }
        self.read(&self.text.get()).err().map(|error| error.message())
    }
}

/// The unit that the person last chose for this field; else the usual one.
fn preferred_unit(context: PreferencesContext, spec: &NumberSpec) -> Unit {
    let offered = offered_units(spec.kind, spec.measures);
    let usual = match spec.kind {
        QuantityKind::Temperature => context.get_untracked().temperature,
        _ => spec.unit,
    };
    context.unit_of(spec.field).filter(|unit| offered.contains(unit)).unwrap_or(usual)
}

/// The field of a [`NumberInput`].
#[component]
pub fn NumberField(
    ask: NumberInput,
    /// In place of the field's own name.
    #[prop(into, optional)]
    label: Option<String>,
    #[prop(into, optional)] hint: String,
    /// A term of the label, explained on tap.
    #[prop(optional)]
    term: Option<Term>,
    /// An error of a later calculation; shown if it is about this field.
    #[prop(into, optional)]
    refused: Signal<Option<Message>>,
    #[prop(optional)] on_enter: Option<Callback<()>>,
) -> impl IntoView {
    let label = label.unwrap_or_else(|| sentence_case(field_name(ask.field())));
    let offered = offered_units(ask.spec.kind, ask.spec.measures);
    let unit = Signal::derive(move || unit_name(ask.unit.get()));
    let context = preferences_context();
    let units = (offered.len() > 1).then(|| UnitChoice {
        names: offered.iter().map(|unit| unit_name(*unit)).collect(),
        chosen: Signal::derive(move || {
            let chosen = ask.unit.get();
            offered.iter().position(|unit| *unit == chosen).unwrap_or_default()
        }),
        fractions: Signal::derive(move || ask.unit.get().has_fractions()),
        choose: Callback::new(move |at: usize| {
            if let Some(unit) = offered.get(at) {
                ask.choose_unit(*unit);
                context.remember_unit(ask.spec.field, *unit);
            }
        }),
    });
    // Memo: `refused` changes with each key press, this field's own problem rarely.
    let problem = Memo::new(move |_| {
        ask.wrong().or_else(|| refused.get().filter(|m| m.field == Some(ask.field())))
    });
    let on_enter = on_enter.unwrap_or_else(|| Callback::new(|()| ()));
    view! { <ValueField label text=ask.text unit units problem hint term on_enter /> }
}
