//! `view!`, as Leptos has it, but into one type.
//!
//! Leptos makes a type of its own of every view, and the compiler makes code of its own of
//! every type: half of what a phone fetches. This macro reads the same markup and writes
//! calls that put it together as data, a `Markup` (`app/src/markup`), which one piece of
//! code shows. Components are Leptos's.
//!
//! Of the syntax it knows what the app uses: elements and components, attributes, `class:`,
//! `style:`, `prop:value` and `prop:checked`, `on:` events, text in quotes, and blocks.

mod component;
mod element;

use proc_macro::TokenStream;
use proc_macro2::TokenStream as Tokens;
use quote::{quote, quote_spanned};
use rstml::node::{Node, NodeName};
use syn::spanned::Spanned;

/// Reads markup and returns the `Markup` that shows it.
#[proc_macro]
pub fn view(input: TokenStream) -> TokenStream {
    let parsed = rstml::Parser::new(rstml::ParserConfig::default()).parse_simple(input);
    let written = parsed.and_then(|nodes| together(&nodes));
    written.unwrap_or_else(|error| error.to_compile_error()).into()
}

/// All of `nodes` as one `Markup`.
fn together(nodes: &[Node]) -> syn::Result<Tokens> {
    let mut each = nodes.iter().filter(|node| !matches!(node, Node::Comment(_))).map(one);
    match (each.next(), each.next()) {
        (None, _) => Ok(quote!(crate::markup::Markup::NOTHING)),
        (Some(only), None) => only,
        (Some(first), Some(second)) => {
            let mut all = vec![first?, second?];
            all.extend(each.collect::<syn::Result<Vec<_>>>()?);
            Ok(quote!(crate::markup::Markup::parts()#(.and(#all))*.whole()))
        }
    }
}

/// One node as a `Markup`.
fn one(node: &Node) -> syn::Result<Tokens> {
    match node {
        Node::Element(element) if is_component(element.name()) => component::written(element),
        Node::Element(element) => element::written(element),
        Node::Text(text) => {
            let text = &text.value;
            Ok(quote!(crate::markup::Markup::text(#text)))
        }
        Node::Block(block) => Ok(quote_spanned! {block.span()=>
            crate::markup::IntoMarkup::into_markup(#[allow(unused_braces)] #block)
        }),
        Node::Fragment(fragment) => together(&fragment.children),
        other => Err(syn::Error::new(other.span(), "markup that this macro does not know")),
    }
}

/// Components begin with a capital, elements do not.
fn is_component(name: &NodeName) -> bool {
    match name {
        NodeName::Path(path) => path.path.segments.last().is_some_and(|last| {
            last.ident.to_string().starts_with(|first: char| first.is_uppercase())
        }),
        _ => false,
    }
}
