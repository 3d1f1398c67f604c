//! Published values with their sources, and browser tests over W3C WebDriver.

pub mod reference;
