//! The forms of a batch's page, as addresses name them.

use strum::{EnumString, IntoStaticStr};
use ulid::Ulid;

/// A form of a batch's page. Its name stands in addresses (`?do=end_test`) and locale keys.
#[derive(Clone, Copy, Debug, PartialEq, Eq, EnumString, IntoStaticStr)]
#[cfg_attr(test, derive(strum::EnumIter))]
#[strum(serialize_all = "snake_case")]
pub enum BatchForm {
    Cook,
    Weigh,
    Reading,
    Photo,
    Note,
    Rinse,
    Antichlor,
    EndTest,
    Acid,
    Reserve,
    SignOff,
    Store,
    Sheets,
    Rename,
    Tags,
    #[strum(serialize = "give_up")]
    Abandon,
    /// The menu of an entry. No address opens it.
    #[strum(disabled)]
    Entry(Ulid),
    /// The correction of an entry. No address opens it.
    #[strum(disabled)]
    Correct(Ulid),
}

impl BatchForm {
    /// Its name in addresses and locale keys.
    pub fn key(self) -> &'static str {
        match self {
            Self::Entry(_) => "entry",
            Self::Correct(_) => "correct",
            named => named.into(),
        }
    }
}
