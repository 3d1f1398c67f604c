#![allow(clippy::unwrap_used)]

mod archives;

use super::contents::JSON_NAME;
use super::*;
use crate::exchange::photo::id_of;
use crate::journal::sample::{at, bodies, device, entries};
use crate::journal::{
    Body, Book, ClockSkew, Entry, EntryWriter, Note, Photo, PhotoId, PulpState, Subject, Withdrawn,
    merge,
};
use proptest::prelude::*;
use std::io::{Cursor, Write};
use ulid::Ulid;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

const JPEG: &[u8] = b"\xff\xd8\xff\xe0 not much of a picture, but a name and bytes";

fn header() -> Header {
    Header { app: "0.1.0".into(), exported_at: at(0), device: device("k7m2"), demo: false }
}

fn photo_body(bytes: &[u8]) -> Body {
    Body::Photo(Photo {
        photo: id_of(bytes),
        mime: "image/jpeg".into(),
        width_px: 1,
        height_px: 1,
        bytes: bytes.len() as u64,
        orientation: 1,
        pulp: PulpState::Wet,
        bath: None,
        caption: String::new(),
    })
}

fn with_photo() -> (Vec<Entry>, Vec<u8>) {
    let mut writer = EntryWriter::new(device("k7m2"), None);
    let entry =
        writer.write(at(0), 1, "Europe/Lisbon", Subject::Batch(Ulid(1)), photo_body(JPEG)).unwrap();
    let file = write(&header(), [&entry], [(id_of(JPEG), JPEG)]).unwrap();
    (vec![entry], file)
}

/// An archive of these files, deflated.
fn archive(files: &[(&str, &[u8])]) -> Vec<u8> {
    let mut archive = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in files {
        let options = SimpleFileOptions::default().compression_method(CompressionMethod::Deflated);
        archive.start_file(*name, options).unwrap();
        archive.write_all(bytes).unwrap();
    }
    archive.finish().unwrap().into_inner()
}

fn refused(bytes: &[u8]) -> FileError {
    let error = read(bytes, Limits::default()).unwrap_err();
    assert!(error.message().key.starts_with("refusal-file-"));
    error
}

#[test]
fn a_file_is_read_back_as_written() {
    let (entries, file) = with_photo();
    let imported = read(&file, Limits::default()).unwrap();
    assert_eq!((imported.header, imported.format, imported.ignored.len()), (header(), FORMAT, 0));
    assert_eq!(imported.entries, entries);
    assert_eq!(
        imported.photos[&id_of(JPEG)],
        PhotoFile { mime: "image/jpeg", bytes: JPEG.to_vec() }
    );
}

#[test]
fn two_devices_write_the_same_bytes() {
    let (mut entries, file) = with_photo();
    let again = write(&header(), &entries, [(id_of(JPEG), JPEG), (id_of(JPEG), JPEG)]).unwrap();
    assert_eq!(again, file);
    let more = bodies(2.0, 3).into_iter().enumerate().map(|(i, (about, body))| {
        EntryWriter::new(device("b"), None).write(at(i as i64), i as u128, "", about, body).unwrap()
    });
    entries.extend(more);
    let forward = json_text(&header(), &entries);
    entries.reverse();
    assert_eq!(json_text(&header(), &entries), forward);
    assert!(
        forward
            .starts_with("{\n  \"app\": \"0.1.0\",\n  \"device\": \"k7m2\",\n  \"entries\": [\n")
    );
}

#[test]
fn the_json_alone_is_a_file_too() {
    let (entries, _) = with_photo();
    let text = json_text(&header(), &entries);
    let imported = read(text.as_bytes(), Limits::default()).unwrap();
    assert_eq!(imported.entries, entries);
    let marked = [b"\xef\xbb\xbf\r\n", text.as_bytes()].concat();
    assert_eq!(read(&marked, Limits::default()).unwrap(), imported);
}

#[test]
fn other_files_are_refused() {
    for bytes in [
        &b""[..],
        b"hello",
        JPEG,
        b"{}",
        br#"{"format":"1","entries":[]}"#,
        br#"{"format":1}"#,
        &archive(&[("readme.txt", b"hello")]),
    ] {
        assert_eq!(refused(bytes), FileError::NotOurs, "{}", String::from_utf8_lossy(bytes));
    }
}

#[test]
fn truncated_and_altered_files_are_refused() {
    let (_, file) = with_photo();
    for length in (4..file.len()).step_by(7) {
        let error = refused(&file[..length]);
        assert!(
            matches!(error, FileError::Damaged { .. } | FileError::NotOurs),
            "{length}: {error:?}"
        );
    }
    // An altered byte within the JSON, or within the photo.
    for what in [&b"Europe/Lisbon"[..], b"much of a picture"] {
        let mut altered = file.clone();
        let place = altered.windows(what.len()).position(|w| w == what).unwrap();
        altered[place] ^= 1;
        assert!(matches!(refused(&altered), FileError::Damaged { .. }));
    }
    let bad = br#"{"format":1,"app":"1","device":"a","exported_at":"2026-05-03T10:00:00Z","entries":[{"id":"x"}]}"#;
    assert_eq!(refused(bad), FileError::Damaged { part: "bleachfield.json, entries[0]".into() });
    assert!(matches!(refused(b"{ \"format\": 1, "), FileError::Damaged { .. }));
}

#[test]
fn a_newer_format_is_refused_whatever_else_the_file_holds() {
    let newer = br#"{"format":2,"app":"9.0.0","entries":{"by":"id"}}"#;
    assert_eq!(refused(newer), FileError::Newer { format: 2, app: "9.0.0".into() });
    let far = br#"{"format":99999999999}"#;
    assert_eq!(refused(far), FileError::Newer { format: u32::MAX, app: String::new() });
    assert!(matches!(refused(&archive(&[("bleachfield.json", newer)])), FileError::Newer { .. }));
    assert_eq!(refused(br#"{"format":0,"app":"1","device":"a","exported_at":"2026-05-03T10:00:00Z","entries":[{}]}"#),
        FileError::Damaged { part: "bleachfield.json, entries[0]".into() });
}

#[test]
fn a_photo_under_a_wrong_name_is_refused() {
    let (entries, _) = with_photo();
    let text = json_text(&header(), &entries);
    let name = format!("photos/{}.jpg", id_of(JPEG));
    let other = [JPEG, b"!"].concat();
    let file = archive(&[("bleachfield.json", text.as_bytes()), (&name, &other)]);
    assert_eq!(refused(&file), FileError::WrongPhoto { name: name.clone() });
    let file = archive(&[("bleachfield.json", text.as_bytes()), (&name, b"no picture")]);
    assert_eq!(refused(&file), FileError::Damaged { part: name });
}

#[test]
fn names_that_leave_the_archive_are_refused_and_unknown_ones_ignored() {
    let text = json_text(&header(), &[]);
    for name in ["../evil", "photos/../../evil", "/etc/evil", "C:\\evil", "photos\\evil.jpg"] {
        let file = archive(&[("bleachfield.json", text.as_bytes()), (name, b"x")]);
        assert_eq!(refused(&file), FileError::OddName { name: name.into() });
    }
    let stranger = format!("photos/{}.jpg", "0".repeat(64));
    let file =
        archive(&[("bleachfield.json", text.as_bytes()), ("later.txt", b"x"), (&stranger, b"x")]);
    assert_eq!(read(&file, Limits::default()).unwrap().ignored, ["later.txt".to_owned(), stranger]);
}

#[test]
fn archives_beyond_the_limits_are_refused() {
    let limits =
        Limits { packed_bytes: 1 << 20, unpacked_bytes: 1 << 20, json_bytes: 1 << 19, files: 10 };
    let refuse = |bytes: &[u8]| read(bytes, limits).unwrap_err();
    let (entries, _) = with_photo();
    let text = json_text(&header(), &entries);

    let spaces = vec![b' '; 64 << 20];
    let mut bomb = archive(&[("bleachfield.json", &spaces)]);
    assert!(bomb.len() < 1 << 20);
    assert_eq!(refuse(&bomb), FileError::TooLarge { most_bytes: 1 << 19 });
    // The same if the headers state a smaller size.
    for at in (0..bomb.len() - 4)
        .filter(|i| bomb[*i..*i + 4] == (64u32 << 20).to_le_bytes())
        .collect::<Vec<_>>()
    {
        bomb[at..at + 4].copy_from_slice(&100u32.to_le_bytes());
    }
    assert!(matches!(refuse(&bomb), FileError::TooLarge { .. } | FileError::Damaged { .. }));

    let photo = [JPEG, &vec![0; 2 << 20]].concat();
    let mut writer = EntryWriter::new(device("a"), None);
    let entry = writer.write(at(0), 1, "", Subject::Batch(Ulid(1)), photo_body(&photo)).unwrap();
    let name = format!("photos/{}.jpg", id_of(&photo));
    let json_of_it = json_text(&header(), [&entry]);
    let bomb = archive(&[("bleachfield.json", json_of_it.as_bytes()), (&name, &photo)]);
    assert_eq!(refuse(&bomb), FileError::TooLarge { most_bytes: 1 << 20 });

    let many: Vec<String> = (0..20).map(|i| format!("{i}")).collect();
    let mut files: Vec<(&str, &[u8])> = vec![("bleachfield.json", text.as_bytes())];
    files.extend(many.iter().map(|name| (name.as_str(), &b"x"[..])));
    assert_eq!(refuse(&archive(&files)), FileError::TooMany { most: 10 });
    assert_eq!(refuse(&vec![b'{'; 2 << 20]), FileError::TooLarge { most_bytes: 1 << 20 });
    assert_eq!(refuse(&vec![b'{'; (1 << 19) + 1]), FileError::TooLarge { most_bytes: 1 << 19 });
}

#[test]
fn a_preview_lists_what_an_import_changes() {
    let mut writer = EntryWriter::new(device("here"), None);
    let batch = Subject::Batch(Ulid(1));
    let note = |text: &str| Body::Note(Note { text: text.into() });
    let shared = writer.write(at(0), 1, "", batch, note("shared")).unwrap();
    let mut theirs = EntryWriter::new(device("there"), None);
    let far = theirs.write(at(3_600_000), 2, "", batch, note("from an hour ahead")).unwrap();
    let photo =
        theirs.write(at(3_600_000), 3, "", Subject::Batch(Ulid(2)), photo_body(JPEG)).unwrap();
    let absent =
        theirs.write(at(3_600_000), 4, "", Subject::Batch(Ulid(2)), photo_body(b"absent")).unwrap();
    let mut altered = shared.clone();
    altered.body = note("altered");

    let book = Book::of([shared.clone()]);
    let file = write(&header(), [&altered, &far, &photo, &absent], [(id_of(JPEG), JPEG)]).unwrap();
    let imported = read(&file, Limits::default()).unwrap();
    let changes = preview(&book, |_| false, &imported, at(0));
    assert_eq!((changes.new_entries.len(), changes.here), (3, 1));
    assert_eq!(changes.new_batches, [(Ulid(2), String::new())]);
    assert_eq!(changes.grown_batches, [(Ulid(1), String::new(), 1)]);
    assert_eq!(changes.new_photos, [id_of(JPEG)]);
    assert_eq!(changes.missing_photos, [id_of(b"absent")]);
    assert_eq!(changes.conflicts.len(), 1);
    assert_eq!(changes.clock, ClockSkew::Ahead { by_ms: 3_600_000 });

    // Storing what it lists gives the same book as merging.
    let mut after = book.clone();
    after.add(changes.to_write(&book).cloned().collect::<Vec<_>>());
    assert_eq!(after, Book::of(merge([shared], imported.entries.clone()).entries));
    let again = preview(&after, |_| true, &imported, at(0));
    assert!(again.new_entries.is_empty() && again.new_photos.is_empty());
    assert_eq!(again.to_write(&after).count(), 0);
}

#[test]
fn a_selected_batch_includes_what_it_refers_to_and_nothing_else() {
    let mut writer = EntryWriter::new(device("a"), None);
    let mut written = Vec::new();
    for n in 0..4u8 {
        for (about, body) in bodies(1.0, n) {
            written.push(writer.write(at(0), written.len() as u128, "", about, body).unwrap());
        }
    }
    let of_batch_1 = written.iter().find(|e| e.about == Subject::Batch(Ulid(1))).unwrap().id;
    let undo = Body::Withdrawn(Withdrawn { entry: of_batch_1, why: String::new() });
    written.push(writer.write(at(1), 999, "", Subject::Batch(Ulid(1)), undo).unwrap());
    let book = Book::of(written.clone());
    let chosen = select(&book, &[Ulid(1)]);
    let about = |s: Subject| chosen.iter().filter(|e| e.about == s).count();
    let all = |s: Subject| written.iter().filter(|e| e.about == s).count();
    // The batch, the bottles used, its lot and the blend made of it.
    for subject in [
        Subject::Batch(Ulid(1)),
        Subject::Bottle(Ulid(200)),
        Subject::Lot(Ulid(301)),
        Subject::Lot(Ulid(311)),
    ] {
        assert_eq!(about(subject), all(subject), "{subject:?}");
        assert!(all(subject) > 0);
    }
    assert_eq!(about(Subject::Batch(Ulid(2))), 0);
    assert_eq!(select(&book, &[]).iter().filter(|e| e.about != Subject::Studio).count(), 0);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn an_export_is_imported_unchanged(entries in entries(30)) {
        let photos: Vec<_> = [(id_of(JPEG), JPEG)].into_iter().filter(|(id, _)| photos_of(&entries).contains(id)).collect();
        let file = write(&header(), &entries, photos).unwrap();
        let imported = read(&file, Limits::default()).unwrap();
        prop_assert_eq!(&imported.entries, &merge(entries.clone(), []).entries);
        prop_assert_eq!(write(&header(), &imported.entries, [] as [(PhotoId, &[u8]); 0]).unwrap(), write(&header(), &entries, [] as [(PhotoId, &[u8]); 0]).unwrap());
    }

    #[test]
    fn damaged_files_never_panic(at in any::<prop::sample::Index>(), byte in any::<u8>(), cut in any::<prop::sample::Index>()) {
        let (_, mut file) = with_photo();
        let place = at.index(file.len());
        file[place] = byte;
        let _ = read(&file, Limits::default());
        file.truncate(cut.index(file.len()));
        let _ = read(&file, Limits::default());
    }
}

/// A record of a newer format, one that is damaged, and one in another shape.
fn unreadable() -> Vec<EntryRecord> {
    let record = |id: u128, format, text: &str| EntryRecord {
        id: Ulid(id).to_string(),
        format,
        text: text.into(),
    };
    vec![
        record(7, FORMAT + 1, r#"{"newer":1.0}"#),
        record(8, FORMAT, r#"{"id":"01"#),
        record(9, UNKNOWN_FORMAT, ""),
    ]
}

#[test]
fn unreadable_entries_go_into_a_file_and_come_out_as_they_were_stored() {
    let (entries, _) = with_photo();
    let file = write_with(&header(), &entries, &unreadable(), [(id_of(JPEG), JPEG)]).unwrap();
    let text = json_text_with(&header(), &[], &unreadable());
    for bytes in [&file, text.as_bytes()] {
        let imported = read(bytes, Limits::default()).unwrap();
        assert_eq!(imported.unreadable, unreadable());
    }
    assert_eq!(read(&file, Limits::default()).unwrap().entries, entries);
    // Without any, the file is as it was before they had a place in it.
    assert_eq!(json_text_with(&header(), &entries, &[]), json_text(&header(), &entries));
    assert!(!json_text(&header(), &entries).contains("unreadable"));
}

#[test]
fn an_entry_that_could_not_be_read_is_an_entry_where_it_can_be() {
    let (entries, _) = with_photo();
    let records = vec![EntryRecord::of(&entries[0])];
    let text = json_text_with(&header(), &[], &records);
    let imported = read(text.as_bytes(), Limits::default()).unwrap();
    assert_eq!((imported.entries, imported.unreadable), (entries, Vec::new()));
}

#[test]
fn a_file_with_a_bad_list_of_unreadable_entries_is_refused() {
    let text = json_text_with(&header(), &[], &unreadable());
    let bad = text.replacen("\"format\": 2", "\"format\": \"two\"", 1);
    assert_ne!(bad, text);
    let part = "bleachfield.json, unreadable".to_owned();
    assert_eq!(refused(bad.as_bytes()), FileError::Damaged { part });
}

#[test]
fn the_demo_studio_is_known_by_its_mark_or_its_devices() {
    let (entries, _) = with_photo();
    let read_with = |header: &Header| {
        read(&write(header, &entries, [] as [(PhotoId, &[u8]); 0]).unwrap(), Limits::default())
            .unwrap()
    };
    assert!(!read_with(&header()).is_demo());
    assert!(!json_text(&header(), &entries).contains("demo"), "other files stay byte for byte");
    assert!(read_with(&Header { demo: true, ..header() }).is_demo());
    assert!(read_with(&Header { device: device(DEMO_DEVICES[1]), ..header() }).is_demo());
}

#[test]
fn a_file_brought_up_to_date_moves_as_a_whole() {
    let later = at(90 * 24 * 3_600_000 + 59_000);
    let file = ExchangeFile {
        header: header(),
        format: FORMAT,
        entries: with_photo().0,
        unreadable: Vec::new(),
        photos: Default::default(),
        ignored: Vec::new(),
    };
    let dated = file.clone().dated(later);
    let moved = dated.entries[0].at.duration_since(file.entries[0].at);
    assert_eq!(
        (moved, dated.header.exported_at),
        (jiff::SignedDuration::from_hours(90 * 24), later)
    );
}
