//! Sheets: how far the pulp goes, the vat, sizing and filler, and what was made.

use bleachfield_core::{
    journal::{Body, Sheets},
    message::{Field, Message, Value},
    pulp::sheet::{
        ADDITIVE, CONSISTENCY, GRAMMAGE, MOISTURE, PULP, RETENTION, SHEETS, SHRINKAGE,
        SheetAdditive, SheetError, SheetFormat, SheetPlan, SheetRequest, SheetSize, VAT, Vat,
        additive_dose,
    },
    quantity::{
        Basis, Estimate, QuantityKind, Unit, grams, in_millilitres, in_share, millilitres, share,
        weighed,
    },
};
use leptos::prelude::*;

use super::{fields, refusal, remarks, table, weigh_out};
use crate::{
    components::{Fact, Figure, NumberField, NumberInput, RadioGroup},
    i18n::{format_number, format_value, key, render, sentence_case, t, t_with},
};

const WIDTH: Field = Field("sheet_width");
const HEIGHT: Field = Field("sheet_height");
const STOCK: Field = Field("sheet-stock");
const ACTIVE: Field = Field("sheet-active");

/// Fibre that stays on the mould may be off by this share of itself until it is
/// measured (own estimate, no source).
const RETENTION_OFF: f64 = 0.05;

/// Sheets of a row that are told one by one; the last is always told.
const TOLD: usize = 8;

/// What sheets ask. Copied freely.
#[derive(Clone, Copy)]
pub struct SheetsSum {
    /// 0 to 4: A2 to A6; then letter, then a mould of one's own.
    format: RwSignal<usize>,
    width: NumberInput,
    height: NumberInput,
    grammage: NumberInput,
    pub dry: NumberInput,
    moisture: NumberInput,
    retention: NumberInput,
    shrinkage: NumberInput,
    vat: NumberInput,
    consistency: NumberInput,
    stock: NumberInput,
    pub count: NumberInput,
    additive: RwSignal<usize>,
    dose: NumberInput,
    active: NumberInput,
}

const LETTER: usize = 5;
const OWN: usize = 6;

impl SheetsSum {
    /// With so much oven-dry pulp at hand, in grams, where it is known.
    pub fn new(dry: Option<f64>) -> Self {
        let side = |field| NumberInput::new(field, QuantityKind::Number).optional();
        Self {
            format: RwSignal::new(2),
            width: side(WIDTH),
            height: side(HEIGHT),
            grammage: NumberInput::new(GRAMMAGE, QuantityKind::Number).filled("100"),
            dry: NumberInput::new(PULP, QuantityKind::Mass)
                .filled(dry.map(|dry| format_number(dry, 4)).unwrap_or_default()),
            moisture: NumberInput::new(MOISTURE, QuantityKind::Share).filled("7"),
            retention: NumberInput::new(RETENTION, QuantityKind::Share).filled("92"),
            shrinkage: NumberInput::new(SHRINKAGE, QuantityKind::Share).filled("2"),
            vat: NumberInput::new(VAT, QuantityKind::Volume).unit(Unit::Litre).optional(),
            consistency: NumberInput::new(CONSISTENCY, QuantityKind::Share)
                .filled("0.5")
                .optional(),
            stock: NumberInput::new(STOCK, QuantityKind::Share).filled("2").optional(),
            count: NumberInput::new(SHEETS, QuantityKind::Count).between(1.0, 10_000.0).optional(),
            additive: RwSignal::new(0),
            dose: NumberInput::new(ADDITIVE, QuantityKind::Share).optional(),
            active: NumberInput::new(ACTIVE, QuantityKind::Share).filled("100").optional(),
        }
    }

    fn format(self) -> Option<SheetFormat> {
        match self.format.get() {
            LETTER => Some(SheetFormat::Letter),
            OWN => {
                Some(SheetFormat::Own { width: self.width.base()?, height: self.height.base()? })
            }
            n => u8::try_from(n + 2).ok().map(SheetFormat::A),
        }
    }

    fn format_name(self) -> String {
        match self.format.get() {
            LETTER => t!("sheet-letter"),
            OWN => t!("sheet-own"),
            n => format!("A{}", n + 2),
        }
    }

    fn job(self) -> Option<SheetRequest> {
        let retention = Estimate::within(self.retention.base()?, RETENTION_OFF, Basis::Assumed);
        Some(SheetRequest {
            format: self.format()?,
            grammage: self.grammage.base()?,
            moisture: share(self.moisture.base()?),
            retention: Estimate { high: retention.high.min(1.0), ..retention }.map(share),
            shrinkage: share(self.shrinkage.base()?),
        })
    }

    fn plan(self) -> Option<Result<SheetPlan, SheetError>> {
        Some(self.job()?.plan(weighed(grams(self.dry.base()?))))
    }

    /// The entry of the sheets that were made; marks what is missing.
    pub fn entry(self, note: String) -> Option<Body> {
        let asked = [self.count, self.grammage, self.dry, self.width, self.height];
        if asked.iter().filter(|ask| !ask.try_now()).count() > 0 {
            return None;
        }
        let size = self.format().and_then(|format| format.size().ok());
        Some(Body::Sheets(Sheets {
            count: self.count.base()? as u32,
            format: self.format_name(),
            width_mm: size.map(|size| size.width),
            height_mm: size.map(|size| size.height),
            grammage_g_per_m2: self.grammage.base().map(|g| Estimate::exact(g, Basis::Computed)),
            dry_g: self.dry.base().map(|dry| Estimate::exact(dry, Basis::Measured)),
            note,
        }))
    }

    /// Questions and answer.
    pub fn view(self) -> AnyView {
        let refused = Signal::derive(move || match self.plan() {
            Some(Err(why)) => Some(why.message()),
            _ => None,
        });
        let formats = (2..7).map(|n| format!("A{n}"));
        let formats = formats.chain([t!("sheet-letter"), t!("sheet-own")]);
        view! {
            {fields(&[self.dry], refused)}
            <RadioGroup label=t!("field-sheet-format") value=self.format
                options=formats.enumerate().collect() />
            {move || (self.format.get() == OWN).then(|| view! {
                <div class="row even">
                    <NumberField ask=self.width refused />
                    <NumberField ask=self.height refused />
                </div>
            })}
            {fields(&[self.grammage], refused)}
            <details class="more">
                <summary>{t!("sheet-more")}</summary>
                <div class="inside stack">
                    {fields(&[self.moisture, self.retention, self.shrinkage], refused)}
                </div>
            </details>
            <div class="stack" aria-live="polite">
                {move || match self.plan() {
                    None => view! { <p class="soft">{t!("sheet-waiting")}</p> }.into_any(),
                    Some(Err(why)) => refusal(&why.message()),
                    Some(Ok(plan)) => answer(&plan),
                }}
            </div>
            <details class="more">
                <summary>{t!("sheet-vat_head")}</summary>
                <div class="inside stack">
                    {fields(&[self.vat, self.consistency, self.stock], Signal::stored(None))}
                    {move || self.vat_answer()}
                </div>
            </details>
            <details class="more">
                <summary>{t!("sheet-additive_head")}</summary>
                <div class="inside stack">
                    <RadioGroup label=t!("field-sheet-additive") value=self.additive
                        options=SheetAdditive::ALL.map(|a| sentence_case(t(a.word())))
                            .into_iter().enumerate().collect() />
                    <NumberField ask=self.dose label=t!("sheet-dose") />
                    <NumberField ask=self.active />
                    {move || self.additive_answer()}
                </div>
            </details>
        }
        .into_any()
    }

    fn vat_answer(self) -> Option<AnyView> {
        let (volume, consistency) = (self.vat.base()?, self.consistency.base()?);
        let plan = self.plan()?.ok()?;
        let vat = Vat { volume: millilitres(volume), consistency: share(consistency) };
        let retention = share(self.retention.base()?);
        let count = u32::try_from(plan.sheets.value).unwrap_or(u32::MAX).clamp(1, 200);
        Some(match row(&vat, &plan, retention, count) {
            Ok((depth, rows, emptied)) => {
                let top_up =
                    self.stock.base().map(|stock| match vat.top_up(plan.sheet_dry, share(stock)) {
                        Ok(top) => {
                            let water = in_millilitres(top.water);
                            let key = if water < 0.0 {
                                key!("sheet-rises")
                            } else {
                                key!("sheet-top_up")
                            };
                            t_with(
                                key,
                                &[
                                    ("stock", &format_value(&Value::Volume(top.stock))),
                                    (
                                        "water",
                                        &format_value(&Value::Volume(millilitres(water.abs()))),
                                    ),
                                ],
                            )
                        }
                        Err(why) => render(&why.message()),
                    });
                let heads =
                    [key!("sheet-nth"), key!("sheet-consistency"), key!("sheet-on_mould")].map(t);
                view! {
                    <p>{t_with!("sheet-depth", &[("depth", &format_number(depth, 3))])}</p>
                    {top_up.map(|text| view! { <p><b>{text}</b></p> })}
                    <p>{t!("sheet-thins")}</p>
                    {table(heads.to_vec(), rows)}
                    {emptied.map(|why| view! { <p>{render(&why)}</p> })}
                }
                .into_any()
            }
            Err(why) => refusal(&why.message()),
        })
    }

    fn additive_answer(self) -> Option<AnyView> {
        let additive = SheetAdditive::ALL[self.additive.get().min(SheetAdditive::ALL.len() - 1)];
        let (low, high) = additive.usual();
        let usual = t_with!(
            "sheet-usual",
            &[
                ("low", &format_value(&Value::Share(low))),
                ("high", &format_value(&Value::Share(high)))
            ],
        );
        let dose = self.dose.base().zip(self.active.base()).zip(self.dry.base());
        let dose = dose.map(|((dose, active), dry)| {
            let pulp = weighed(grams(dry));
            match additive_dose(additive, pulp, share(dose), share(active)) {
                Ok(dose) => view! {
                    {weigh_out(t!("sheet-additive_weigh"), dose.product)}
                    {remarks(&dose.remarks)}
                }
                .into_any(),
                Err(why) => refusal(&why.message()),
            }
        });
        let grade = t!("evidence-memory");
        Some(
            view! {
                {dose}
                <p class="small soft">{usual}" "{t_with!("store-grade", &[("grade", &grade)])}</p>
            }
            .into_any(),
        )
    }
}

fn answer(plan: &SheetPlan) -> AnyView {
    let spread = super::range(
        plan.sheets.low < plan.sheets.high,
        Value::Count(plan.sheets.low),
        Value::Count(plan.sheets.high),
    );
    let size = |size: SheetSize| {
        format!("{} × {} mm", format_number(size.width, 3), format_number(size.height, 3))
    };
    let facts = [
        (key!("sheet-one"), format_value(&Value::Mass(plan.sheet))),
        (key!("sheet-one_dry"), format_value(&Value::Mass(plan.sheet_dry))),
        (key!("sheet-one_from_vat"), format_value(&Value::Mass(plan.sheet_from_vat))),
        (key!("sheet-deckle"), size(plan.deckle)),
        (key!("sheet-on_mould"), format!("{} g/m²", format_number(plan.grammage_on_mould, 3))),
    ];
    view! {
        <Figure name=t!("sheet-sheets") number=plan.sheets.value.to_string()
            unit=String::new() range=spread />
        <dl class="facts">
            {facts.map(|(name, value)| view! { <Fact name=t(name) value /> }).collect_view()}
        </dl>
    }
    .into_any()
}

type Row = (f64, Vec<Vec<String>>, Option<Message>);

/// The dip's depth, the sheets of a row, and whether the vat ran out before.
fn row(
    vat: &Vat,
    plan: &SheetPlan,
    retention: bleachfield_core::quantity::Ratio,
    count: u32,
) -> Result<Row, SheetError> {
    let depth = vat.depth(plan.grammage_on_mould, retention)?;
    let (pulled, emptied) = match vat.pull(count, plan.deckle, depth, retention) {
        Ok(pulled) => (pulled, None),
        Err(why @ SheetError::VatRunsOut { after }) => {
            let until = u32::try_from(after).unwrap_or(0);
            (vat.pull(until, plan.deckle, depth, retention)?, Some(why.message()))
        }
        Err(why) => return Err(why),
    };
    let last = pulled.len().saturating_sub(1);
    let told = pulled.iter().enumerate().filter(|(i, _)| *i < TOLD || *i == last);
    let rows = told
        .map(|(_, sheet)| {
            vec![
                sheet.number.to_string(),
                format_value(&Value::Share(in_share(sheet.consistency))),
                format!("{} g/m²", format_number(sheet.grammage, 3)),
            ]
        })
        .collect();
    Ok((depth, rows, emptied))
}
