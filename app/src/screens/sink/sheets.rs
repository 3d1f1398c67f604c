//! The bottom sheets of the running baths. They are hosted beside the view of the baths, so that
//! what is typed in one stays while that view changes.

use leptos::prelude::*;
use ulid::Ulid;

use super::{
    addition::AdditionForm,
    check_sheet::CheckForm,
    forecast::forecast_part,
    reheat::ReheatForm,
    running_bath::RunningBath,
    schedule::ScheduleForm,
    stop::{StopForm, StopReasonForm},
};
use crate::{components::BottomSheet, i18n::t, platform::draft};

/// Which sheet is open, and of which bath. Copied freely.
#[derive(Clone, Copy)]
pub struct BathSheets {
    /// The sheet that is open, or was last.
    current: RwSignal<Option<(Ulid, SheetKind)>>,
    is_open: RwSignal<bool>,
    /// Entries are being written.
    pub busy: RwSignal<bool>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SheetKind {
    Check,
    Reheat,
    Addition,
    Schedule,
    /// What comes if the bath is left on.
    Forecast,
    /// Asks why, and stops the bath by the answer.
    Stop,
    /// Asks why the bath was stopped by this entry.
    StopReason(Ulid),
}

impl BathSheets {
    /// Provides the context.
    pub fn provide() -> Self {
        let sheets = Self {
            current: RwSignal::new(None),
            is_open: RwSignal::new(false),
            busy: RwSignal::new(false),
        };
        provide_context(sheets);
        sheets
    }

    pub fn open(self, bath: Ulid, kind: SheetKind) {
        let _ = self.current.try_set(Some((bath, kind)));
        let _ = self.is_open.try_set(true);
    }

    pub fn close(self) {
        let _ = self.is_open.try_set(false);
    }

    /// Closes the sheet, which was saved.
    pub fn close_saved(self) {
        if self.is_open.try_get_untracked() == Some(true)
            && let Some((bath, kind)) = self.current.try_get_untracked().flatten()
        {
            draft::discard(&draft_name(bath, kind));
        }
        self.close();
    }
}

fn draft_name(bath: Ulid, kind: SheetKind) -> String {
    format!("/sink/{bath}/{kind:?}")
}

#[component]
pub fn SheetHost(sheets: BathSheets) -> impl IntoView {
    (move || {
        let (bath, kind) = sheets.current.get()?;
        let running = RunningBath::find(bath)?;
        let (open, title) = (sheets.is_open, kind.title());
        // The choice on the forecast is kept by itself.
        if kind == SheetKind::Forecast {
            let sheet =
                view! { <BottomSheet open title>{move || kind.view(running)}</BottomSheet> };
            return Some(sheet.into_any());
        }
        let draft = draft_name(bath, kind);
        let sheet = view! {
            <BottomSheet open title draft>{move || kind.view(running)}</BottomSheet>
        };
        Some(sheet.into_any())
    })
    .into_any()
}

impl SheetKind {
    fn title(self) -> String {
        match self {
            Self::Check => t!("sink-check-title"),
            Self::Reheat => t!("sink-reheat-title"),
            Self::Addition => t!("sink-add-title"),
            Self::Schedule => t!("sink-times-title"),
            Self::Forecast => t!("forecast-title"),
            Self::Stop => t!("sink-stop-title"),
            Self::StopReason(_) => t!("sink-stopped-title"),
        }
    }

    fn view(self, running: RunningBath) -> AnyView {
        match self {
            Self::Check => view! { <CheckForm running /> }.into_any(),
            Self::Reheat => view! { <ReheatForm running /> }.into_any(),
            Self::Addition => view! { <AdditionForm running /> }.into_any(),
            Self::Schedule => view! { <ScheduleForm running /> }.into_any(),
            Self::Forecast => forecast_part(running, |parts| parts.sheet).into_any(),
            Self::Stop => view! { <StopForm running /> }.into_any(),
            Self::StopReason(entry) => view! { <StopReasonForm running entry /> }.into_any(),
        }
    }
}
