//! Object URLs: addresses of files in memory, for `<img>`.

use std::fmt;

use web_sys::{Blob, Url};

/// The URL of a blob, revoked when dropped.
pub struct ObjectUrl(String);

impl ObjectUrl {
    pub fn new(blob: &Blob) -> Option<Self> {
        Url::create_object_url_with_blob(blob).ok().map(Self)
    }
}

impl fmt::Display for ObjectUrl {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl Drop for ObjectUrl {
    fn drop(&mut self) {
        let _ = Url::revoke_object_url(&self.0);
    }
}
