//! The invented demo studio: its journal and its synthetic photographs.
//! The program `studio` writes it as one file; the tests measure the photographs.

pub mod photo;
pub mod studio;
