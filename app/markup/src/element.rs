//! An element: what never changes of it as one text, the rest as calls.

use proc_macro2::TokenStream as Tokens;
use quote::{quote, quote_spanned};
use rstml::Infallible;
use rstml::node::{KeyedAttribute, Node, NodeAttribute, NodeElement};
use syn::spanned::Spanned;

use crate::{is_component, one};

/// Elements of a drawing, which live in a namespace of their own.
const DRAWN: [&str; 6] = ["circle", "g", "path", "rect", "svg", "text"];

/// Between the parts of the text: no attribute may hold it.
const BREAK: &str = "\n";

/// The element, as a `Markup`.
pub fn written(element: &NodeElement<Infallible>) -> syn::Result<Tokens> {
    let element = built(element)?;
    Ok(quote!(#element.whole()))
}

/// The element, as an `Element`.
fn built(element: &NodeElement<Infallible>) -> syn::Result<Tokens> {
    let tag = element.name().to_string();
    let space = if DRAWN.contains(&tag.as_str()) { "*" } else { "" };
    let mut fixed = format!("{space}{tag}");
    let mut calls = Vec::new();
    for attribute in element.attributes() {
        let NodeAttribute::Attribute(attribute) = attribute else {
            return Err(syn::Error::new(attribute.span(), "an attribute is written name=value"));
        };
        match (attribute.key.to_string(), attribute.value_literal_string(), attribute.value()) {
            (_, Some(text), _) if text.contains(BREAK) => {
                return Err(syn::Error::new(attribute.span(), "an attribute is one line"));
            }
            (key, Some(text), _) => fixed.push_str(&format!("{BREAK}{key}{BREAK}{text}")),
            (key, None, None) => fixed.push_str(&format!("{BREAK}{key}{BREAK}")),
            (key, None, Some(_)) => calls.push(set(&key, attribute)?),
        }
    }
    let mut whole = quote!(crate::markup::Element::new(#fixed) #(#calls)*);
    for child in element.children.iter().filter(|child| !matches!(child, Node::Comment(_))) {
        whole = match child {
            Node::Element(child) if !is_component(child.name()) => {
                let child = built(child)?;
                quote!(#whole.holds(#child))
            }
            Node::Text(text) => {
                let text = &text.value;
                quote!(#whole.says(#text))
            }
            Node::Block(block) => quote_spanned! {block.span()=>
                #whole.put(#[allow(unused_braces)] #block)
            },
            other => {
                let child = one(other)?;
                quote!(#whole.child(#child))
            }
        };
    }
    Ok(whole)
}

/// The call for an attribute whose value is worked out.
fn set(key: &str, attribute: &KeyedAttribute) -> syn::Result<Tokens> {
    let value = attribute.value();
    let at = attribute.key.span();
    let as_value = quote!(crate::markup::IntoValue::into_value(#[allow(unused_braces)] { #value }));
    Ok(match key.split_once(':') {
        None if key == "node_ref" => quote!(.known_to(#value)),
        None => quote!(.set(#key, #as_value)),
        Some(("class", name)) => quote!(.class(#name, #as_value)),
        Some(("style", name)) => quote!(.style(#name, #as_value)),
        Some(("prop", "value")) => quote!(.holding(#as_value)),
        Some(("prop", "checked")) => quote!(.checked(#as_value)),
        Some(("on", event)) => {
            let kind = match event {
                "click" => quote!(MouseEvent),
                "keydown" => quote!(KeyboardEvent),
                "drop" | "dragover" => quote!(DragEvent),
                event if event.starts_with("pointer") => quote!(PointerEvent),
                _ => quote!(Event),
            };
            quote_spanned!(at=> .on::<::web_sys::#kind>(#event, #value))
        }
        _ => return Err(syn::Error::new(at, "an attribute that this macro does not know")),
    })
}
