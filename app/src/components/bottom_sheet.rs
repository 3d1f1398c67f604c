//! A modal sheet at the bottom edge, for one short task.

use leptos::html;
use leptos::prelude::*;

use super::{DraftNote, draft_note::FormReset, icon};
use crate::{i18n::t, platform::draft::DraftScope};

/// Shows its children in a modal `<dialog>` while `open` is true: the browser keeps the focus
/// inside, and Escape closes it. With the name of a draft, what is typed into them and not saved
/// is kept.
#[component]
pub fn BottomSheet(
    open: RwSignal<bool>,
    #[prop(into)] title: String,
    #[prop(into, optional)] draft: Option<String>,
    children: ChildrenFn,
) -> impl IntoView {
    let dialog = NodeRef::<html::Dialog>::new();
    let children = StoredValue::new(children);
    Effect::new(move |_| {
        let Some(dialog) = dialog.get() else { return };
        match (open.get(), dialog.open()) {
            (true, false) => {
                let _ = dialog.show_modal();
            }
            (false, true) => dialog.close(),
            _ => {}
        }
    });
    let anew = RwSignal::new(());
    let shown = Memo::new(move |_| open.get());
    let label = title.clone();
    view! {
        <dialog class="bottom-sheet" node_ref=dialog aria-label=label
            on:close=move |_| open.set(false)>
            <div class="page-head">
                <h2 class="grow">{title}</h2>
                <button class="button bare" on:click=move |_| open.set(false)>
                    <icon::Cross /><span class="visually-hidden">{t!("do-close")}</span>
                </button>
            </div>
            {move || {
                anew.track();
                shown.get().then(|| {
                    let note = draft.as_ref().map(|draft| {
                        DraftScope::provide(draft);
                        provide_context(FormReset(Callback::new(move |()| anew.notify())));
                        view! { <DraftNote /> }
                    });
                    (note, children.with_value(|children| children()))
                })
            }}
        </dialog>
    }
}
