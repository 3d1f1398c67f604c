//! Timers as a pure function of entries and the present instant.
