//! Markup as a view of Leptos's, so that its components can hold it.

use leptos::tachys::{
    html::attribute::any_attribute::AnyAttribute,
    hydration::Cursor,
    no_attrs,
    view::{Position, PositionState, Render, RenderHtml},
};

use super::{Markup, standing::Standing};

no_attrs!(Markup);

/// The app is made in the browser alone: nothing writes pages on a server, and nothing
/// takes over one that a server wrote.
impl RenderHtml for Markup {
    type AsyncOutput = Self;
    type Owned = Self;

    const MIN_LENGTH: usize = 0;

    fn dry_resolve(&mut self) {}

    async fn resolve(self) -> Self {
        self
    }

    fn to_html_with_buf(
        self,
        _: &mut String,
        _: &mut Position,
        _: bool,
        _: bool,
        _: Vec<AnyAttribute>,
    ) {
    }

    fn hydrate<const FROM_SERVER: bool>(self, _: &Cursor, _: &PositionState) -> Standing {
        self.build()
    }

    fn into_owned(self) -> Self {
        self
    }
}
