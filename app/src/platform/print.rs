//! The print dialogue of the browser.

use leptos::prelude::window;

/// Offers to print the page.
pub fn page() {
    // Fails only where printing is disabled; nothing is printed then.
    let _ = window().print();
}
