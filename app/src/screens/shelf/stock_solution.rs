//! A clear stock solution of calcium hypochlorite: powder, water, and the strength that follows.

use bleachfield_core::{
    bath::Bleach,
    bath::Bottle,
    chemistry::household::{
        CalciumHypochloriteStock, LABEL_OFF, STOCK_POWDER, STOCK_SHARE, STOCK_VOLUME,
        calcium_hypochlorite_stock,
    },
    journal::Strength,
    message::{Message, Value},
    quantity::{Basis, Estimate, OutOfRange, QuantityKind, Unit, grams, millilitres},
};
use leptos::prelude::*;

use crate::{
    components::{Figure, NumberField, NumberInput},
    i18n::{format_number, format_value, t, t_with},
};

/// The form; copies share their signals.
#[derive(Clone, Copy)]
pub struct StockSolutionForm {
    share: NumberInput,
    powder: NumberInput,
    volume: NumberInput,
}

impl StockSolutionForm {
    pub fn new() -> Self {
        Self {
            share: NumberInput::new(STOCK_SHARE, QuantityKind::Share).between(0.01, 0.99),
            powder: NumberInput::new(STOCK_POWDER, QuantityKind::Mass)
                .unit(Unit::Gram)
                .between(0.1, 10_000.0),
            volume: NumberInput::new(STOCK_VOLUME, QuantityKind::Volume)
                .unit(Unit::Litre)
                .between(50.0, 100_000.0),
        }
    }

    /// The stock as answered so far; `None` while a field is empty or cannot be read.
    fn stock(self) -> Option<Result<CalciumHypochloriteStock, OutOfRange>> {
        let share = Estimate::within(self.share.base()?, LABEL_OFF, Basis::Label);
        let powder = grams(self.powder.base()?);
        Some(calcium_hypochlorite_stock(powder, millilitres(self.volume.base()?), share))
    }

    /// The strength of the clear liquid, as the journal stores it.
    pub fn strength(self) -> Option<Strength> {
        let stock = self.stock()?.ok()?;
        Some(Bleach::Hypochlorite(Bottle::titrated(stock.available_chlorine)).strength())
    }

    /// Marks missing fields; whether there is a stock.
    pub fn try_now(self) -> bool {
        let fields = [self.share.try_now(), self.powder.try_now(), self.volume.try_now()];
        !fields.contains(&false) && self.strength().is_some()
    }

    pub fn view(self) -> AnyView {
        let refused = Signal::derive(move || self.refused());
        view! {
            <h2>{t!("stock-head")}</h2>
            <NumberField ask=self.share hint=t!("stock-share_hint") refused />
            <NumberField ask=self.powder refused />
            <NumberField ask=self.volume hint=t!("stock-volume_hint") refused />
            {move || self.stock().and_then(Result::ok).map(result)}
        }
        .into_any()
    }

    fn refused(self) -> Option<Message> {
        self.stock()?.err().map(|error| error.message())
    }
}

fn result(stock: CalciumHypochloriteStock) -> AnyView {
    let text = |strength| format_value(&Value::Concentration(strength));
    let mass = |mass| format_value(&Value::Mass(mass));
    let strength = stock.available_chlorine;
    let range =
        t_with!("plan-band_only", &[("low", &text(strength.low)), ("high", &text(strength.high))]);
    let hours = format_number(stock.settle_hours, 2);
    view! {
        <div class="stack" role="status">
            <Figure mid=true name=t!("stock-strength") number=text(strength.value)
                unit=String::new() range />
            <ol>
                <li>{t!("stock-step-wear")}</li>
                <li>{t!("stock-step-into_water")}</li>
                <li>{t_with!("stock-step-settle", &[("hours", &hours)])}</li>
                <li>{t_with!("stock-step-pour", &[("sediment", &mass(stock.sediment.high))])}</li>
                <li>{t!("stock-step-label")}</li>
            </ol>
            <p class="small">{t_with!("stock-chalk", &[("soda", &text(stock.soda_for_calcium))])}</p>
        </div>
    }
    .into_any()
}
