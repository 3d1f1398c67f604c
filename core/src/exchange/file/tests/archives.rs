//! Archives of other programs, and our archives in another reader.

use super::*;
use rawzip::{CompressionMethod as Method, ZipArchive};

/// An archive written as a stream: sizes follow the files, in data descriptors.
fn streamed(files: &[(&str, &[u8])], method: CompressionMethod) -> Vec<u8> {
    let mut archive = ZipWriter::new_stream(Vec::new());
    for (name, bytes) in files {
        let options = SimpleFileOptions::default().compression_method(method);
        archive.start_file(*name, options).unwrap();
        archive.write_all(bytes).unwrap();
    }
    archive.finish().unwrap().into_inner()
}

#[test]
fn another_reader_opens_our_archives() {
    let (entries, file) = with_photo();
    let archive = ZipArchive::from_slice(&file).unwrap();
    let mut records = archive.entries();
    let mut found = Vec::new();
    while let Some(record) = records.next_entry().unwrap() {
        assert_eq!(record.compression_method(), Method::STORE);
        assert_eq!(record.mode().value() & 0o777, 0o644);
        let entry = archive.get_entry(record.wayfinder()).unwrap();
        let stated = entry.claim_verifier();
        let stated = (stated.uncompressed_size, stated.crc);
        assert_eq!(stated, (entry.data().len() as u64, rawzip::crc32(entry.data())));
        let name = String::from_utf8(record.file_path().as_bytes().to_vec()).unwrap();
        found.push((name, entry.data().to_vec()));
    }
    let json = ("bleachfield.json".to_owned(), json_text(&header(), &entries).into_bytes());
    assert_eq!(found, [json, (format!("photos/{}.jpg", id_of(JPEG)), JPEG.to_vec())]);
}

#[test]
fn archives_of_other_programs_are_read() {
    let (entries, _) = with_photo();
    let text = json_text(&header(), &entries);
    let name = format!("photos/{}.jpg", id_of(JPEG));
    let files = [(&*name, JPEG), ("photos/", b""), ("bleachfield.json", text.as_bytes())];
    for packed in [
        archive(&files),
        streamed(&files, CompressionMethod::Stored),
        streamed(&files, CompressionMethod::Deflated),
    ] {
        let read = read(&packed, Limits::default()).unwrap();
        assert_eq!((&read.entries, read.photos.len()), (&entries, 1));
        assert_eq!(read.ignored, ["photos/"]);
    }
}

#[test]
fn unknown_methods_encryption_and_duplicate_names_are_refused() {
    let (_, file) = with_photo();
    let json_damaged = FileError::Damaged { part: JSON_NAME.into() };
    let directory = file.windows(4).position(|w| w == b"PK\x01\x02").unwrap();
    let mut locked = file.clone();
    locked[directory + 8] |= 1;
    assert_eq!(refused(&locked), json_damaged);
    let mut odd = file.clone();
    odd[directory + 10] = 93;
    assert_eq!(refused(&odd), json_damaged);

    let twice = archive(&[("bleachfield.json", b"{}"), ("bleachfield.jsom", b"{}")]);
    let twice = twice.iter().map(|b| if *b == b'm' { b'n' } else { *b }).collect::<Vec<_>>();
    assert_eq!(refused(&twice), FileError::Damaged { part: String::new() });
}
