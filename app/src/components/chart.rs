//! Parts of a line chart in SVG, in user units of the drawing. Styled by `.chart`.

use leptos::prelude::*;

/// A linear scale; values outside its domain are drawn at the ends.
#[derive(Clone, Copy)]
pub struct Scale {
    /// The lowest and the highest value.
    pub domain: (f64, f64),
    /// The coordinates of the two.
    pub range: (f64, f64),
}

impl Scale {
    pub fn at(self, value: f64) -> f64 {
        let ((low, high), (from, to)) = (self.domain, self.range);
        from + (value.max(low).min(high) - low) / (high - low) * (to - from)
    }
}

/// The area of the curves. Both axes meet at its lower left corner.
#[derive(Clone, Copy)]
pub struct Plot {
    /// Where the vertical axis stands; `x` may begin right of it.
    pub left: f64,
    pub x: Scale,
    pub y: Scale,
}

impl Plot {
    pub fn top(self) -> f64 {
        self.y.range.1
    }

    pub fn bottom(self) -> f64 {
        self.y.range.0
    }

    pub fn right(self) -> f64 {
        self.x.range.1
    }

    pub fn axes(self) -> AnyView {
        let d = format!("M{} {}V{}H{}", self.left, self.top(), self.bottom(), self.right());
        view! { <path class="axis" d=d /> }.into_any()
    }

    /// A polyline through points of the data. `dashes` tell curves apart without colour.
    pub fn curve(
        self,
        points: impl IntoIterator<Item = (f64, f64)>,
        dashes: &'static str,
    ) -> AnyView {
        let points = points
            .into_iter()
            .map(|(x, y)| format!("{:.1} {:.1}", self.x.at(x), self.y.at(y)))
            .collect::<Vec<_>>();
        curve_path(format!("M{}", points.join("L")), dashes)
    }

    /// A vertical line at a value of x.
    pub fn mark_x(self, x: f64) -> AnyView {
        let d = format!("M{:.1} {}V{}", self.x.at(x), self.top(), self.bottom());
        view! { <path class="here" d=d /> }.into_any()
    }

    /// A dashed horizontal line at a value of y.
    pub fn mark_y(self, y: f64) -> AnyView {
        let d = format!("M{} {:.1}H{}", self.left, self.y.at(y), self.right());
        view! { <path class="here" stroke-dasharray="7 4" d=d /> }.into_any()
    }
}

pub fn curve_path(d: String, dashes: &'static str) -> AnyView {
    view! { <path class="species" d=d stroke-dasharray=dashes /> }.into_any()
}

/// The text of a tick or an axis; `anchor` is `start`, `middle` or `end`.
pub fn tick_label(x: f64, y: f64, anchor: &'static str, text: impl Into<String>) -> AnyView {
    view! { <text x=x y=y text-anchor=anchor>{text.into()}</text> }.into_any()
}
