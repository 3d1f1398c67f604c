//! What the phone can do for us: each file one ability, asked for politely and
//! done without where it is missing.

pub mod clock;
pub mod preferences;
