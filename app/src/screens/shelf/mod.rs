//! Shelf: bleaches and chemicals, their age and strength.

mod cards;
mod day;
mod form;
mod history;
mod kind;
mod label;
mod new;
mod page;
mod state;
mod titrate;
mod truth;

pub use cards::Shelf;
pub use new::NewProduct;
pub use page::ProductPage;
pub use titrate::Titrate;
pub use truth::{mark, now_in_words};
