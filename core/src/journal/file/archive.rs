//! The archive itself: PKWARE APPNOTE 6.3.10, of which we write the simplest
//! there is (files as they are, one disk, no more than 4 GiB) and read what
//! any computer packs with the methods "stored" and "deflated".

use super::FileError;
use crate::journal::check_sum::crc32;
use miniz_oxide::inflate::decompress_to_vec_with_limit;
use rawzip::{CompressionMethod, ZipArchive, ZipArchiveEntryWayfinder, ZipSliceArchive};

/// An archive being written.
#[derive(Default)]
pub(super) struct Writer {
    bytes: Vec<u8>,
    directory: Vec<u8>,
    files: u16,
}

impl Writer {
    /// Puts a file in as it is; None if the archive would be larger than an
    /// archive can be.
    pub(super) fn put(&mut self, name: &str, bytes: &[u8]) -> Option<()> {
        let at = u32::try_from(self.bytes.len()).ok()?;
        let files = self.files.checked_add(1).filter(|files| *files != u16::MAX)?;
        // §4.4.1.4: all ones would say that the size stands elsewhere.
        let size = u32::try_from(bytes.len()).ok().filter(|size| *size != u32::MAX)?;
        let mut common = Vec::with_capacity(26);
        common.extend(10u16.to_le_bytes()); // any version can unpack it
        common.extend([0, 0, 0, 0]); // no flags, stored
        common.extend(0x0021_0000_u32.to_le_bytes()); // midnight, 1980-01-01
        common.extend(crc32(bytes).to_le_bytes());
        common.extend(size.to_le_bytes()); // packed
        common.extend(size.to_le_bytes()); // unpacked
        common.extend(u16::try_from(name.len()).ok()?.to_le_bytes());
        common.extend([0, 0]); // no extra field

        self.directory.extend(b"PK\x01\x02\x0a\x03"); // by version 1.0, on Unix
        self.directory.extend(&common);
        self.directory.extend([0; 6]); // no comment, first disk, no internal attributes
        self.directory.extend(0o100_644_u32.wrapping_shl(16).to_le_bytes()); // a file, for all to read
        self.directory.extend(at.to_le_bytes());
        self.directory.extend(name.as_bytes());

        self.bytes.reserve(30 + name.len() + bytes.len());
        self.bytes.extend(b"PK\x03\x04");
        self.bytes.extend(&common);
        self.bytes.extend(name.as_bytes());
        self.bytes.extend(bytes);
        self.files = files;
        Some(())
    }

    /// The whole archive; None if it is larger than an archive can be.
    pub(super) fn finish(self) -> Option<Vec<u8>> {
        let Self { mut bytes, directory, files } = self;
        let at = u32::try_from(bytes.len()).ok().filter(|at| *at != u32::MAX)?;
        let size = u32::try_from(directory.len()).ok()?;
        bytes.extend(directory);
        bytes.extend(b"PK\x05\x06\0\0\0\0"); // of one disk
        bytes.extend(files.to_le_bytes()); // on this disk
        bytes.extend(files.to_le_bytes()); // altogether
        bytes.extend(size.to_le_bytes());
        bytes.extend(at.to_le_bytes());
        bytes.extend([0, 0]); // no comment
        Some(bytes)
    }
}

/// An archive to read.
pub(super) struct Reader<'a>(ZipSliceArchive<&'a [u8]>);

/// A file in an archive, still packed.
pub(super) struct Packed<'a> {
    name: &'a [u8],
    method: CompressionMethod,
    encrypted: bool,
    place: ZipArchiveEntryWayfinder,
}

impl Packed<'_> {
    /// For comparing and telling; what is not UTF-8 is told with marks.
    pub(super) fn name(&self) -> String {
        String::from_utf8_lossy(self.name).into_owned()
    }
}

impl<'a> Reader<'a> {
    /// Finds the directory.
    ///
    /// # Errors
    /// [`FileError::Damaged`] if there is none.
    pub(super) fn new(bytes: &'a [u8]) -> Result<Self, FileError> {
        ZipArchive::from_slice(bytes).map(Self).map_err(|_| damaged(String::new()))
    }

    /// The files in it, sorted by name.
    ///
    /// # Errors
    /// [`FileError::TooMany`] for more than `most`, [`FileError::Damaged`] for
    /// a directory that is cut short or names a file twice.
    pub(super) fn files(&self, most: usize) -> Result<Vec<Packed<'_>>, FileError> {
        let mut files = Vec::new();
        let mut records = self.0.entries();
        while let Some(record) = records.next_entry().map_err(|_| damaged(String::new()))? {
            if files.len() == most {
                return Err(FileError::TooMany { most });
            }
            files.push(Packed {
                name: record.file_path().as_bytes(),
                method: record.compression_method(),
                encrypted: record.flags().is_encrypted(),
                place: record.wayfinder(),
            });
        }
        if self.0.entries_hint() != files.len() as u64 {
            return Err(damaged(String::new()));
        }
        files.sort_unstable_by(|a, b| a.name.cmp(b.name));
        match files.windows(2).find(|pair| pair[0].name == pair[1].name) {
            Some(pair) => Err(damaged(pair[0].name())),
            None => Ok(files),
        }
    }

    /// Unpacks one file. Nothing is believed: it is refused as soon as it is
    /// more than it promises, and it may promise `most` bytes at most; `limit`
    /// is what the refusal then names.
    pub(super) fn take(&self, file: &Packed, most: u64, limit: u64) -> Result<Vec<u8>, FileError> {
        let damaged = || damaged(file.name());
        let entry = self.0.get_entry(file.place).map_err(|_| damaged())?;
        let promised = entry.claim_verifier();
        if promised.uncompressed_size > most {
            return Err(FileError::TooLarge { most_bytes: limit });
        }
        let size = usize::try_from(promised.uncompressed_size).map_err(|_| damaged())?;
        let packed = entry.data();
        let bytes = match file.method {
            _ if file.encrypted => return Err(damaged()),
            CompressionMethod::STORE if packed.len() == size => packed.to_vec(),
            CompressionMethod::DEFLATE => {
                decompress_to_vec_with_limit(packed, size).map_err(|_| damaged())?
            }
            _ => return Err(damaged()),
        };
        if bytes.len() != size || crc32(&bytes) != promised.crc {
            return Err(damaged());
        }
        Ok(bytes)
    }
}

fn damaged(part: String) -> FileError {
    FileError::Damaged { part }
}
