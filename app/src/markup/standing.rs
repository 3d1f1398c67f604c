//! Markup on the page: how it comes there, is kept up to date, and goes.

use std::borrow::Cow;

use leptos::{
    reactive::effect::RenderEffect,
    tachys::{
        renderer::Rndr,
        view::{Mountable, Render, any_view::AnyViewState},
    },
};
use wasm_bindgen::{JsCast, JsValue, closure::Closure};
use web_sys::{Comment, Element as Node, Event};

use super::{
    Markup, Value, What,
    element::{Heard, Place, Set, Tag},
    value::Text,
};

const DRAWING: &str = "http://www.w3.org/2000/svg";

/// Markup that stands on the page, with what keeps it up to date.
pub enum Standing {
    /// Marks the place.
    Nothing(Comment),
    Text(web_sys::Text, Cow<'static, str>),
    Element(Box<StandingElement>),
    Parts(Vec<Standing>, Comment),
    Live(RenderEffect<Standing>),
    Leptos(AnyViewState),
}

pub struct StandingElement {
    node: Node,
    fixed: &'static str,
    set: Vec<Kept>,
    children: Vec<Standing>,
    on: Vec<Listening>,
}

/// What the browser calls for an event, until this is dropped: an event of an element that
/// is gone, such as the close of its dialog, finds nobody.
struct Listening {
    node: Node,
    event: &'static str,
    heard: Closure<dyn FnMut(Event)>,
}

impl Drop for Listening {
    fn drop(&mut self) {
        let heard = self.heard.as_ref().unchecked_ref();
        let _ = self.node.remove_event_listener_with_callback(self.event, heard);
    }
}

/// A value that was set, and what sets it again.
enum Kept {
    Fixed(Text),
    Live(RenderEffect<Text>),
}

impl Render for Markup {
    type State = Standing;

    fn build(self) -> Standing {
        match self.0.map(|what| *what) {
            None => Standing::Nothing(Rndr::create_placeholder()),
            Some(What::Text(text)) => Standing::Text(Rndr::create_text_node(&text), text),
            Some(What::Element(element)) => Standing::Element(Box::new(element.stand())),
            Some(What::Parts(parts)) => {
                let parts = parts.into_iter().map(Render::build).collect();
                Standing::Parts(parts, Rndr::create_placeholder())
            }
            Some(What::Live(live)) => Standing::Live(keep_up(live, None)),
            Some(What::Leptos(view)) => Standing::Leptos(view.build()),
            Some(What::Standing(standing)) => standing.take(),
        }
    }

    fn rebuild(self, standing: &mut Standing) {
        match (self.0.map(|what| *what), standing) {
            (None, Standing::Nothing(_)) => {}
            (Some(What::Text(new)), Standing::Text(node, old)) => {
                if new != *old {
                    Rndr::set_text(node, &new);
                    *old = new;
                }
            }
            (Some(What::Element(new)), Standing::Element(old)) if old.is_like(&new) => {
                old.become_(new);
            }
            (Some(What::Parts(new)), Standing::Parts(old, end)) => become_parts(new, old, end),
            (Some(What::Live(new)), Standing::Live(old)) => {
                // What stood stays, with the cursor in it; only what changes it is another.
                let stood = old.take_value();
                *old = keep_up(new, stood);
            }
            (Some(What::Leptos(new)), Standing::Leptos(old)) => new.rebuild(old),
            (new, standing) => {
                let mut new = Markup(new.map(Box::new)).build();
                // The old goes first: to take out what has the focus or lies on top, a browser
                // lays out all that stands by then, the new with it.
                let mut here = Rndr::create_placeholder();
                standing.insert_before_this(&mut here);
                standing.unmount();
                here.insert_before_this(&mut new);
                here.unmount();
                *standing = new;
            }
        }
    }
}

/// Keeps what `live` says on the page, beginning with what stood there before.
fn keep_up(
    mut live: Box<dyn FnMut() -> Markup + Send>,
    stood: Option<Standing>,
) -> RenderEffect<Standing> {
    let keep = move |before: Option<Standing>| {
        let now = live();
        match before {
            Some(mut standing) => {
                now.rebuild(&mut standing);
                standing
            }
            None => now.build(),
        }
    };
    RenderEffect::new_with_value(keep, stood)
}

/// Line by line; what is new comes at the end and what is too many goes from there.
fn become_parts(new: Vec<Markup>, old: &mut Vec<Standing>, end: &Comment) {
    for mut gone in old.drain(new.len().min(old.len())..) {
        gone.unmount();
    }
    let kept = old.len();
    for (nth, part) in new.into_iter().enumerate() {
        if nth < kept {
            part.rebuild(&mut old[nth]);
        } else {
            let mut part = part.build();
            end.insert_before_this(&mut part);
            old.push(part);
        }
    }
}

impl Tag {
    fn stand(self) -> StandingElement {
        let mut lines = self.fixed.split('\n');
        let tag = lines.next().unwrap_or_default();
        let node = match tag.strip_prefix('*') {
            Some(tag) => Rndr::create_element(tag, Some(DRAWING)),
            None => Rndr::create_element(tag, None),
        };
        while let (Some(name), Some(value)) = (lines.next(), lines.next()) {
            Rndr::set_attribute(&node, name, value);
        }
        let mut children: Vec<Standing> = self.children.into_iter().map(Render::build).collect();
        for child in &mut children {
            child.mount(&node, None);
        }
        if let Some(known) = self.known {
            known(&node);
        }
        // After the children: a list holds a choice only once it has it.
        let set = self.set.into_iter().map(|set| set.keep(&node, None)).collect();
        let on = self.on.into_iter().map(|(event, heard)| listen(&node, event, heard.take()));
        let on = on.collect();
        StandingElement { node, fixed: self.fixed, set, children, on }
    }
}

impl StandingElement {
    /// Whether the same piece of markup made both.
    fn is_like(&self, new: &Tag) -> bool {
        self.fixed == new.fixed
            && self.set.len() == new.set.len()
            && self.children.len() == new.children.len()
            && self.on.iter().map(|on| on.event).eq(new.on.iter().map(|on| on.0))
    }

    fn become_(&mut self, new: Tag) {
        if let Some(known) = new.known {
            known(&self.node);
        }
        for (old, new) in self.children.iter_mut().zip(new.children) {
            new.rebuild(old);
        }
        for (old, new) in self.set.iter_mut().zip(new.set) {
            let before = match old {
                Kept::Fixed(text) => Some(text.take()),
                Kept::Live(effect) => effect.take_value(),
            };
            // The old effect is gone before the new one sets anything.
            *old = Kept::Fixed(None);
            *old = new.keep(&self.node, before);
        }
        for (old, (event, heard)) in self.on.iter_mut().zip(new.on) {
            *old = listen(&self.node, event, heard.take());
        }
    }
}

fn listen(node: &Node, event: &'static str, heard: Heard) -> Listening {
    let heard = Closure::wrap(heard);
    let _ = node.add_event_listener_with_callback(event, heard.as_ref().unchecked_ref());
    Listening { node: node.clone(), event, heard }
}

impl Set {
    /// Sets the value, and keeps it set. `before` is what it was, if it was set before.
    fn keep(self, node: &Node, before: Option<Text>) -> Kept {
        let Self { place, name, value } = self;
        // What a person may change on the page is set whatever it was before.
        let theirs = matches!(place, Place::Holding | Place::Checked);
        match value {
            Value::Fixed(text) => {
                if theirs || before.is_none_or(|before| before != text) {
                    put(node, place, name, text.as_deref());
                }
                Kept::Fixed(text)
            }
            Value::Live(mut live) => {
                let node = node.clone();
                let keep = move |before: Option<Text>| {
                    let text = live();
                    if theirs || before.is_none_or(|before| before != text) {
                        put(&node, place, name, text.as_deref());
                    }
                    text
                };
                Kept::Live(RenderEffect::new_with_value(keep, before))
            }
        }
    }
}

fn put(node: &Node, place: Place, name: &str, text: Option<&str>) {
    match (place, text) {
        (Place::Attribute, Some(text)) => Rndr::set_attribute(node, name, text),
        (Place::Attribute, None) => Rndr::remove_attribute(node, name),
        (Place::Class, Some(_)) => Rndr::add_class(&node.class_list(), name),
        (Place::Class, None) => Rndr::remove_class(&node.class_list(), name),
        (Place::Style, text) => {
            Rndr::set_css_property(&Rndr::style(node), name, text.unwrap_or_default());
        }
        (Place::Holding, text) => {
            Rndr::set_property(node, name, &JsValue::from_str(text.unwrap_or_default()));
        }
        (Place::Checked, text) => {
            Rndr::set_property(node, name, &JsValue::from_bool(text.is_some()))
        }
    }
}

impl Standing {
    /// What of it stands first and can be asked to let another in before it.
    fn first(&self) -> &dyn Mountable {
        match self {
            Self::Nothing(mark) => mark,
            Self::Text(node, _) => node,
            Self::Element(element) => &element.node,
            Self::Parts(parts, end) => parts.first().map_or(end, Standing::first),
            Self::Live(live) => live,
            Self::Leptos(view) => view,
        }
    }
}

/// An effect keeps what it made until its task has heard that nobody wants it. Until then
/// what is inside it would go on following signals that may be gone: it ends here and now.
impl Drop for Standing {
    fn drop(&mut self) {
        if let Self::Live(live) = self {
            drop(live.take_value());
        }
    }
}

impl Mountable for Standing {
    fn unmount(&mut self) {
        match self {
            Self::Nothing(mark) => mark.unmount(),
            Self::Text(node, _) => node.unmount(),
            Self::Element(element) => element.node.unmount(),
            Self::Parts(parts, end) => {
                parts.iter_mut().for_each(Mountable::unmount);
                end.unmount();
            }
            Self::Live(live) => live.unmount(),
            Self::Leptos(view) => view.unmount(),
        }
    }

    fn mount(&mut self, parent: &Node, before: Option<&web_sys::Node>) {
        match self {
            Self::Nothing(mark) => mark.mount(parent, before),
            Self::Text(node, _) => node.mount(parent, before),
            Self::Element(element) => element.node.mount(parent, before),
            Self::Parts(parts, end) => {
                parts.iter_mut().for_each(|part| part.mount(parent, before));
                end.mount(parent, before);
            }
            Self::Live(live) => live.mount(parent, before),
            Self::Leptos(view) => view.mount(parent, before),
        }
    }

    fn insert_before_this(&self, child: &mut dyn Mountable) -> bool {
        self.first().insert_before_this(child)
    }

    fn elements(&self) -> Vec<Node> {
        match self {
            Self::Nothing(_) | Self::Text(..) => Vec::new(),
            Self::Element(element) => vec![element.node.clone()],
            Self::Parts(parts, _) => parts.iter().flat_map(Mountable::elements).collect(),
            Self::Live(live) => live.elements(),
            Self::Leptos(view) => view.elements(),
        }
    }
}
