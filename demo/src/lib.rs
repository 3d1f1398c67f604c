//! The invented demo studio: what it is made of, for the program that writes it and
//! for the tests that measure it.

pub mod photo;
pub mod studio;
