//! Messages in the reader's language, and how numbers, lengths of time and units are written.
//! The texts are Fluent files in `app/locale`; dates and times of day are `platform::clock`'s.

mod bundle;
mod duration;
mod keys;
mod macros;
mod measured;
mod message;
mod number;
mod translate;
mod unit;

pub use bundle::{has_message, language};
pub use duration::{format_duration, format_elapsed};
pub(crate) use keys::{is_key, takes};
pub(crate) use macros::{key, t, t_count, t_with};
pub use measured::{amount, mass_text, solution_text, volume_text};
pub use message::{field_name, format_value, render, sentence_case};
pub use number::{fixed, format_number, with_decimal_mark};
pub use translate::{t, t_count, t_with};
pub use unit::unit_name;
