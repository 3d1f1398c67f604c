//! What each format yields when its metadata is removed.

/// A file without metadata, of one of the formats.
pub(super) struct Stripped {
    pub(super) bytes: Vec<u8>,
    /// Width and height as stored.
    pub(super) size: (u32, u32),
    /// EXIF orientation, 1 to 8.
    pub(super) orientation: u8,
}
