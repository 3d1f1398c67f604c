//! Sheets: how many the pulp makes, the vat, sizing and filler, and the sheets made.

use bleachfield_core::{
    journal::{Body, Sheets},
    message::{Field, Message, Value},
    pulp::sheet::{
        ADDITIVE, CONSISTENCY, GRAMMAGE, MOISTURE, PULP, RETENTION, SHEETS, SHRINKAGE,
        SheetAdditive, SheetError, SheetFormat, SheetPlan, SheetRequest, SheetSize, TopUp,
        USUAL_GRAMMAGE, USUAL_MOISTURE, USUAL_RETENTION, USUAL_SHRINKAGE, VAT, Vat, additive_dose,
        assumed_retention,
    },
    quantity::{
        Basis, Estimate, Mass, QuantityKind, Ratio, Unit, grams, in_grams, in_millilitres,
        in_share, millilitres, share, weighed,
    },
};
use leptos::prelude::*;

use super::view::{
    answer_view, fact_rows, fields, folded, range, refusal, remarks, table, weigh_out,
};
use crate::{
    components::{Explain, Figure, NumberField, NumberInput, RadioGroup, RecordedInput, Term},
    i18n::{format_number, format_value, key, render, sentence_case, t, t_with},
    route::Sum,
    screens::calculator::session::{keep_choice, keep_inputs},
};

const WIDTH: Field = Field("sheet_width");
const HEIGHT: Field = Field("sheet_height");
const STOCK: Field = Field("sheet-stock");
const ACTIVE: Field = Field("sheet-active");

/// Pulled sheets that are listed; the last is listed too.
const LISTED: usize = 8;

/// The form; copies share their signals.
#[derive(Clone, Copy)]
pub struct SheetsSum {
    /// Chosen by the person.
    format: RwSignal<Option<FormatChoice>>,
    width: NumberInput,
    height: NumberInput,
    grammage: RecordedInput<Estimate<f64>>,
    pub dry: RecordedInput<Estimate<Mass>>,
    moisture: NumberInput,
    retention: NumberInput,
    shrinkage: NumberInput,
    vat: NumberInput,
    consistency: NumberInput,
    stock: NumberInput,
    pub count: NumberInput,
    additive: RwSignal<SheetAdditive>,
    dose: NumberInput,
    active: NumberInput,
}

#[derive(Clone, Copy, PartialEq)]
enum FormatChoice {
    /// ISO 216 A-series.
    A(u8),
    Letter,
    /// The mould's own size, typed.
    Own,
}

/// The sizes offered, after none.
const FORMATS: [Option<FormatChoice>; 8] = [
    None,
    Some(FormatChoice::A(2)),
    Some(FormatChoice::A(3)),
    Some(FormatChoice::A(4)),
    Some(FormatChoice::A(5)),
    Some(FormatChoice::A(6)),
    Some(FormatChoice::Letter),
    Some(FormatChoice::Own),
];

impl FormatChoice {
    fn name(self) -> String {
        match self {
            Self::A(n) => format!("A{n}"),
            Self::Letter => t!("sheet-letter"),
            Self::Own => t!("sheet-own"),
        }
    }
}

impl SheetsSum {
    /// A form filled with the oven-dry pulp at hand, if it is known.
    pub fn new(dry: Option<Estimate<Mass>>) -> Self {
        let side = |field| NumberInput::new(field, QuantityKind::Number).optional();
        let usual =
            |field, share: f64| NumberInput::new(field, QuantityKind::Share).filled(share * 100.0);
        Self {
            format: RwSignal::new(None),
            width: side(WIDTH),
            height: side(HEIGHT),
            grammage: RecordedInput::new(
                NumberInput::new(GRAMMAGE, QuantityKind::Number),
                Some(Estimate::exact(USUAL_GRAMMAGE, Basis::Assumed)),
                |usual| usual.value,
            ),
            dry: RecordedInput::new(NumberInput::new(PULP, QuantityKind::Mass), dry, |dry| {
                in_grams(dry.value)
            }),
            moisture: usual(MOISTURE, USUAL_MOISTURE),
            retention: usual(RETENTION, USUAL_RETENTION),
            shrinkage: usual(SHRINKAGE, USUAL_SHRINKAGE),
            vat: NumberInput::new(VAT, QuantityKind::Volume).unit(Unit::Litre).optional(),
            consistency: NumberInput::new(CONSISTENCY, QuantityKind::Share).filled(0.5).optional(),
            stock: NumberInput::new(STOCK, QuantityKind::Share).filled(2.0).optional(),
            count: NumberInput::new(SHEETS, QuantityKind::Count).between(1.0, 10_000.0).optional(),
            additive: RwSignal::new(SheetAdditive::ALL[0]),
            dose: NumberInput::new(ADDITIVE, QuantityKind::Share).optional(),
            active: NumberInput::new(ACTIVE, QuantityKind::Share).filled(100.0).optional(),
        }
    }

    fn format(self) -> Option<SheetFormat> {
        Some(match self.format.get()? {
            FormatChoice::A(n) => SheetFormat::A(n),
            FormatChoice::Letter => SheetFormat::Letter,
            FormatChoice::Own => {
                SheetFormat::Own { width: self.width.base()?, height: self.height.base()? }
            }
        })
    }

    fn request(self) -> Option<SheetRequest> {
        Some(SheetRequest {
            format: self.format()?,
            grammage: self.grammage.get(planned)?.value,
            moisture: share(self.moisture.base()?),
            retention: assumed_retention(self.retention.base()?).map(share),
            shrinkage: share(self.shrinkage.base()?),
        })
    }

    fn plan(self) -> Option<Result<SheetPlan, Message>> {
        let pulp = self.pulp()?;
        Some(self.request()?.plan(pulp).map_err(|error| error.message()))
    }

    /// The oven-dry pulp, as recorded or as typed.
    fn pulp(self) -> Option<Estimate<Mass>> {
        self.dry.get(|dry| weighed(grams(dry)))
    }

    /// The journal entry of the sheets made; `None` marks missing fields. The size is what was
    /// chosen; a grammage that nobody typed is marked as assumed.
    pub fn entry(self, note: String) -> Option<Body> {
        let inputs = [self.count, self.grammage.input, self.dry.input, self.width, self.height];
        if inputs.map(NumberInput::try_now).contains(&false) {
            return None;
        }
        let size = self.format().and_then(|format| format.size().ok());
        Some(Body::Sheets(Sheets {
            count: self.count.base()? as u32,
            format: self.format.get().map(FormatChoice::name).unwrap_or_default(),
            width_mm: size.map(|size| size.width),
            height_mm: size.map(|size| size.height),
            grammage_g_per_m2: self.grammage.get(planned),
            dry_g: self.pulp().map(|dry| dry.map(in_grams)),
            note,
        }))
    }

    /// Fields and answer.
    pub fn view(self) -> AnyView {
        let full = move || self.full_answer();
        view! {
            {self.fields_view()}
            <div class="stack" aria-live="polite">{full}</div>
            {self.more_sections()}
        }
        .into_any()
    }

    /// Number and weight of the sheets; or what is missing.
    pub fn full_answer(self) -> AnyView {
        answer_view(self.plan(), key!("sheet-waiting"), answer)
    }

    /// The number alone; or what is missing.
    pub fn short_answer(self) -> AnyView {
        answer_view(self.plan(), key!("sheet-waiting"), sheet_count)
    }

    /// Whether there is an answer.
    pub fn is_ready(self) -> bool {
        matches!(self.plan(), Some(Ok(_)))
    }

    /// Keeps what is typed and chosen in this tab.
    pub fn keep(self) {
        keep_choice(Sum::Sheets, "format", self.format, &FORMATS);
        keep_inputs(Sum::Sheets, &[self.dry.input, self.grammage.input, self.width, self.height]);
        keep_inputs(Sum::Sheets, &[self.moisture, self.retention, self.shrinkage]);
        keep_inputs(Sum::Sheets, &[self.vat, self.consistency, self.stock]);
        keep_inputs(Sum::Sheets, &[self.dose, self.active]);
        keep_choice(Sum::Sheets, "additive", self.additive, &SheetAdditive::ALL);
    }

    pub fn fields_view(self) -> AnyView {
        let refused = Signal::derive(move || self.plan().and_then(Result::err));
        let options = FORMATS.iter().filter_map(|one| one.map(|format| (*one, format.name())));
        view! {
            <NumberField ask=self.dry.input refused term=Term::OvenDry />
            <RadioGroup label=t!("field-sheet-format") value=self.format
                options=options.collect() />
            {move || (self.format.get() == Some(FormatChoice::Own)).then(|| view! {
                <div class="row even">{fields(&[self.width, self.height], refused)}</div>
            })}
            <NumberField ask=self.grammage.input refused term=Term::Grammage />
            {folded(t!("sheet-more"), view! {
                {fields(&[self.moisture], refused)}
                <NumberField ask=self.retention refused term=Term::Retention />
                {fields(&[self.shrinkage], refused)}
            })}
        }
        .into_any()
    }

    /// The vat, and sizing and filler, folded.
    pub fn more_sections(self) -> AnyView {
        let additives = SheetAdditive::ALL.map(|one| (one, sentence_case(t(one.word()))));
        view! {
            {folded(t!("sheet-vat_head"), view! {
                {fields(&[self.vat], Signal::stored(None))}
                <NumberField ask=self.consistency term=Term::Consistency />
                {fields(&[self.stock], Signal::stored(None))}
                {move || self.vat_view()}
            })}
            {folded(t!("sheet-additive_head"), view! {
                <RadioGroup label=t!("field-sheet-additive") value=self.additive
                    options=additives.to_vec() />
                <Explain term=Term::Size />
                <NumberField ask=self.dose label=t!("sheet-dose") />
                <NumberField ask=self.active />
                {move || self.additive_view()}
            })}
        }
        .into_any()
    }

    fn vat_view(self) -> Option<AnyView> {
        let (volume, consistency) = (self.vat.base()?, self.consistency.base()?);
        let plan = self.plan()?.ok()?;
        let vat = Vat { volume: millilitres(volume), consistency: share(consistency) };
        let Pulling { depth, rows, runs_out } =
            match pull_sheets(&vat, &plan, share(self.retention.base()?)) {
                Ok(pulling) => pulling,
                Err(error) => return Some(refusal(&error.message())),
            };
        let top_up = self.stock.base().map(|stock| {
            vat.top_up(plan.sheet_dry, share(stock))
                .map_or_else(|error| render(&error.message()), |top_up| top_up_text(&top_up))
        });
        let heads = [t!("sheet-nth"), t!("sheet-consistency"), t!("sheet-on_mould")];
        let view = view! {
            <p>{t_with!("sheet-depth", &[("depth", &format_number(depth, 3))])}</p>
            {top_up.map(|text| view! { <p><b>{text}</b></p> })}
            <p>{t!("sheet-thins")}</p>
            {table(heads, rows)}
            {runs_out.map(|why| view! { <p>{render(&why)}</p> })}
        };
        Some(view.into_any())
    }

    fn additive_view(self) -> AnyView {
        let additive = self.additive.get();
        let (low, high) = additive.usual();
        let usual = t_with!(
            "sheet-usual",
            &[
                ("low", &format_value(&Value::Share(low))),
                ("high", &format_value(&Value::Share(high))),
            ],
        );
        let grade = t_with!("store-grade", &[("grade", &t!("evidence-memory"))]);
        view! {
            {self.additive_dose_view(additive)}
            <p class="small soft">{usual}" "{grade}</p>
        }
        .into_any()
    }

    fn additive_dose_view(self, additive: SheetAdditive) -> Option<AnyView> {
        let pulp = self.pulp()?;
        let (dose, active) = (share(self.dose.base()?), share(self.active.base()?));
        Some(match additive_dose(additive, pulp, dose, active) {
            Ok(dose) => view! {
                {weigh_out(t!("sheet-additive_weigh"), dose.product)}
                {remarks(&dose.remarks)}
            }
            .into_any(),
            Err(error) => refusal(&error.message()),
        })
    }
}

/// A grammage that a person aims at.
fn planned(grammage: f64) -> Estimate<f64> {
    Estimate::exact(grammage, Basis::Computed)
}

fn answer(plan: &SheetPlan) -> AnyView {
    let size = |size: SheetSize| {
        format!("{} × {} mm", format_number(size.width, 3), format_number(size.height, 3))
    };
    view! {
        {sheet_count(plan)}
        <dl class="facts">{fact_rows([
            (key!("sheet-one"), format_value(&Value::Mass(plan.sheet))),
            (key!("sheet-one_dry"), format_value(&Value::Mass(plan.sheet_dry))),
            (key!("sheet-one_from_vat"), format_value(&Value::Mass(plan.sheet_from_vat))),
            (key!("sheet-deckle"), size(plan.deckle)),
            (key!("sheet-on_mould"), grammage_text(plan.grammage_on_mould)),
        ])}</dl>
    }
    .into_any()
}

fn sheet_count(plan: &SheetPlan) -> AnyView {
    view! {
        <Figure name=t!("sheet-sheets") number=plan.sheets.value.to_string() unit=String::new()
            range=range(plan.sheets.low, plan.sheets.high, Value::Count) />
    }
    .into_any()
}

fn top_up_text(top_up: &TopUp) -> String {
    let water = in_millilitres(top_up.water);
    let key = if water < 0.0 { key!("sheet-rises") } else { key!("sheet-top_up") };
    t_with(
        key,
        &[
            ("stock", &format_value(&Value::Volume(top_up.stock))),
            ("water", &format_value(&Value::Volume(millilitres(water.abs())))),
        ],
    )
}

/// Sheets pulled from a vat without topping up.
struct Pulling {
    /// Depth of the dip, mm.
    depth: f64,
    rows: Vec<Vec<String>>,
    /// Set if the vat runs out before all sheets are pulled.
    runs_out: Option<Message>,
}

fn pull_sheets(vat: &Vat, plan: &SheetPlan, retention: Ratio) -> Result<Pulling, SheetError> {
    let count = u32::try_from(plan.sheets.value).unwrap_or(u32::MAX).clamp(1, 200);
    let depth = vat.depth(plan.grammage_on_mould, retention)?;
    let pull = |count| vat.pull(count, plan.deckle, depth, retention);
    let (pulled, runs_out) = match pull(count) {
        Err(why @ SheetError::VatRunsOut { after }) => {
            (pull(u32::try_from(after).unwrap_or(0))?, Some(why.message()))
        }
        pulled => (pulled?, None),
    };
    let last = pulled.len().saturating_sub(1);
    let listed = pulled.iter().enumerate().filter(|(i, _)| *i < LISTED || *i == last);
    let rows = listed
        .map(|(_, sheet)| {
            vec![
                sheet.number.to_string(),
                format_value(&Value::Share(in_share(sheet.consistency))),
                grammage_text(sheet.grammage),
            ]
        })
        .collect();
    Ok(Pulling { depth, rows, runs_out })
}

fn grammage_text(grams_per_square_metre: f64) -> String {
    format!("{} g/m²", format_number(grams_per_square_metre, 3))
}
