//! Published values with their sources, and browser tests over W3C WebDriver.

#[cfg(test)]
mod first_frame;
#[cfg(test)]
mod keys;
#[cfg(test)]
mod locale;
#[cfg(test)]
mod messages;
#[cfg(test)]
mod readme;
pub mod reference;
pub mod situations;
#[cfg(test)]
mod words;
