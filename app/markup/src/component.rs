//! A component: its props by name, its children as a closure, as Leptos has them.

use proc_macro2::TokenStream as Tokens;
use quote::{quote, quote_spanned};
use rstml::Infallible;
use rstml::node::{NodeAttribute, NodeElement};
use syn::spanned::Spanned;

use crate::together;

pub fn written(component: &NodeElement<Infallible>) -> syn::Result<Tokens> {
    let name = component.name();
    let mut props = Vec::new();
    for attribute in component.attributes() {
        let NodeAttribute::Attribute(prop) = attribute else {
            return Err(syn::Error::new(attribute.span(), "a prop is written name=value"));
        };
        let key = &prop.key;
        // A prop without a value is filled with what has its name.
        let value = prop.value().map_or_else(|| quote!(#key), |value| quote!(#value));
        props.push(quote_spanned!(key.span()=> .#key(#[allow(unused_braces)] { #value })));
    }
    let children = (!component.children.is_empty()).then(|| together(&component.children));
    let children = children.transpose()?.map(|children| {
        quote! { .children(crate::markup::children(move || #children)) }
    });
    Ok(quote! {
        crate::markup::IntoMarkup::into_markup(::leptos::component::component_view(
            #[allow(clippy::needless_borrows_for_generic_args)]
            &#name,
            ::leptos::component::component_props_builder(&#name) #(#props)* #children .build(),
        ))
    })
}
