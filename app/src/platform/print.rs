//! The browser's print dialogue.

use leptos::prelude::window;

/// Offers to print the page as it stands.
pub fn page() {
    // Refused only where printing is switched off: then nothing is printed.
    let _ = window().print();
}
