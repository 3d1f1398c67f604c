//! Reading and writing the ZIP archive, by the `zip` crate, within limits.

use super::FileError;
use std::io::{Cursor, Read, Write};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipArchive, ZipWriter};

/// Writes an archive of these files, stored without compression: photos do
/// not shrink, and the text is small beside them.
///
/// # Errors
/// [`FileError::Damaged`] naming the file with which the archive becomes
/// larger than an archive can be.
pub(super) fn write<'a>(
    files: impl IntoIterator<Item = (String, &'a [u8])>,
) -> Result<Vec<u8>, FileError> {
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Stored)
        .last_modified_time(DateTime::default())
        .unix_permissions(0o644);
    let mut archive = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in files {
        let damaged = || FileError::Damaged { part: name.clone() };
        archive.start_file(name.as_str(), options).map_err(|_| damaged())?;
        archive.write_all(bytes).map_err(|_| damaged())?;
    }
    let bytes = archive.finish().map_err(|_| FileError::Damaged { part: String::new() })?;
    Ok(bytes.into_inner())
}

/// An archive to read. Nothing that it states about itself is trusted.
pub(super) struct Reader<'a>(ZipArchive<Cursor<&'a [u8]>>);

impl<'a> Reader<'a> {
    /// Reads the directory of an archive of at most `most` files.
    ///
    /// # Errors
    /// [`FileError::TooMany`] for more files, [`FileError::Damaged`] for a
    /// directory that is cut short or names a file twice.
    pub(super) fn new(bytes: &'a [u8], most: usize) -> Result<Self, FileError> {
        // Before the directory is decoded into memory. The signature may also occur in a photo.
        const DIRECTORY_ENTRY: &[u8] = b"PK\x01\x02";
        if bytes.windows(4).filter(|w| *w == DIRECTORY_ENTRY).count() > 2 * most {
            return Err(FileError::TooMany { most });
        }
        let damaged = FileError::Damaged { part: String::new() };
        match ZipArchive::new(Cursor::new(bytes)) {
            Ok(archive) if archive.has_duplicate_names() => Err(damaged),
            Ok(archive) if archive.len() > most => Err(FileError::TooMany { most }),
            Ok(archive) => Ok(Self(archive)),
            Err(_) => Err(damaged),
        }
    }

    /// The names of the files with their indices, sorted by name. Bytes that
    /// are not UTF-8 are replaced.
    pub(super) fn names(&self) -> Vec<(String, usize)> {
        let directory = self.0.metadata();
        let mut names: Vec<(String, usize)> = (0..directory.len())
            .filter_map(|index| {
                let entry = directory.entry(index).ok()?;
                Some((String::from_utf8_lossy(entry.name_raw()).into_owned(), index))
            })
            .collect();
        names.sort_unstable();
        names
    }

    /// Unpacks the file at `index`, which may come to at most `most` bytes.
    ///
    /// # Errors
    /// [`FileError::TooLarge`] stating `limit` if it states a larger size,
    /// [`FileError::Damaged`] if it does not come to that size, has another
    /// checksum, is encrypted, or is packed by an unknown method.
    pub(super) fn unpack(
        &mut self,
        index: usize,
        name: &str,
        most: u64,
        limit: u64,
    ) -> Result<Vec<u8>, FileError> {
        let damaged = || FileError::Damaged { part: name.to_owned() };
        let file = self.0.by_index(index).map_err(|_| damaged())?;
        let size = file.size();
        if size > most {
            return Err(FileError::TooLarge { most_bytes: limit });
        }
        let mut bytes = Vec::new();
        // One byte more, so that the checksum is compared and a longer file is noticed.
        file.take(size + 1).read_to_end(&mut bytes).map_err(|_| damaged())?;
        if bytes.len() as u64 == size { Ok(bytes) } else { Err(damaged()) }
    }
}
