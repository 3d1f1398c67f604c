//! What is there only at times.

use crate::markup::prelude::*;

/// Shows its children while `when` is true; they are not made anew while it stays so.
#[component]
pub fn Show(#[prop(into)] when: Signal<bool>, children: ChildrenFn) -> Markup {
    let when = Memo::new(move || when.get());
    let children = StoredValue::new(children);
    view! { {move || when.get().then(|| children.with_value(|children| children()))} }
}
