//! Our archives and those of another hand.

use super::*;
use std::io::Read;

/// An archive as it is written to where one cannot go back: the sizes follow
/// the files, in data descriptors.
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
fn another_hand_at_archives_reads_what_we_write() {
    let (entries, file) = with_photo();
    let mut archive = zip::ZipArchive::new(Cursor::new(&file)).unwrap();
    assert_eq!(archive.len(), 2);
    let mut first = archive.by_index(0).unwrap();
    assert_eq!(
        (first.name().unwrap().as_ref(), first.size()),
        ("bleachfield.json", first.compressed_size())
    );
    assert_eq!(first.unix_mode(), Some(0o100_644));
    assert_eq!(first.last_modified(), Some(zip::DateTime::default()));
    let mut text = String::new();
    first.read_to_string(&mut text).unwrap();
    drop(first);
    assert_eq!(text, json(&header(), &entries));
    let mut bytes = Vec::new();
    let name = format!("photos/{}.jpg", id_of(JPEG));
    archive.by_name(&name).unwrap().read_to_end(&mut bytes).unwrap();
    assert_eq!(bytes, JPEG);
}

#[test]
fn what_another_hand_packs_is_read() {
    let (entries, _) = with_photo();
    let text = json(&header(), &entries);
    let name = format!("photos/{}.jpg", id_of(JPEG));
    let files = [(&*name, JPEG), ("photos/", b""), ("bleachfield.json", text.as_bytes())];
    for packed in [
        archive(&files),
        streamed(&files, CompressionMethod::Stored),
        streamed(&files, CompressionMethod::Deflated),
    ] {
        let parcel = read(&packed, Limits::default()).unwrap();
        assert_eq!((&parcel.entries, parcel.photos.len()), (&entries, 1));
        assert_eq!(parcel.ignored, ["photos/"]);
    }
}

#[test]
fn a_method_unknown_a_locked_file_and_a_name_twice_are_refused() {
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
    assert_eq!(refused(&twice), json_damaged);
}
