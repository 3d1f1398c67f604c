//! What stands between a component's tags.

use std::rc::Rc;

use super::Markup;

/// Shown once.
pub type Children = Box<dyn FnOnce() -> Markup>;

/// Shown as often as the component likes.
pub type ChildrenFn = Rc<dyn Fn() -> Markup>;

/// A way for a component to take its children.
pub trait Take<F> {
    fn take(children: F) -> Self;
}

impl<F: FnOnce() -> Markup + 'static> Take<F> for Children {
    fn take(children: F) -> Self {
        Box::new(children)
    }
}

impl<F: Fn() -> Markup + 'static> Take<F> for ChildrenFn {
    fn take(children: F) -> Self {
        Rc::new(children)
    }
}

/// Children in the way that the component takes them.
pub fn children<F, C: Take<F>>(children: F) -> C {
    C::take(children)
}
