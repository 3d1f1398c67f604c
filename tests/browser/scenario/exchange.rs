//! Two phones exchange files: nothing is lost on either, and files that are foreign, cut short
//! or too new are refused with a reason.

use std::fs;
use std::path::{Path, PathBuf};

use super::steps::{begin_batch, check_screen, save};
use crate::error::{TestFailure, TestResult, ensure};
use crate::phone::Phone;

const BATCH: &str = "Kept by two";

pub async fn run(phone: &mut Phone) -> TestResult {
    let other = phone.another().await?;
    let outcome = exchange(phone, &other).await;
    other.close_after(outcome).await
}

async fn exchange(one: &Phone, two: &Phone) -> TestResult {
    one.open("/").await?;
    begin_batch(one, BATCH).await?;
    let file = send(one).await?;
    // What a file adds is shown before the import, which may be cancelled.
    look_at(two, &file).await?;
    two.wait_for_text("New batches").await?;
    two.wait_for_text(BATCH).await?;
    two.wait_for_text("2 new entries in all").await?;
    check_screen(two, "exchange-seen").await?;
    two.tap("Cancel").await?;
    two.tap("Batches").await?;
    two.wait_for_text("No batches yet").await?;
    look_at(two, &file).await?;
    take_in(two).await?;

    // Both add entries, in the shared batch and in others.
    note(one, "Stirred with the long paddle").await?;
    begin_batch(one, "Only on the first").await?;
    note(two, "Smells of the river").await?;

    let (from_one, from_two) = (send(one).await?, send(two).await?);
    look_at(two, &from_one).await?;
    two.wait_for_text("Batches with new entries").await?;
    two.wait_for_text(&format!("{BATCH}: 1 new entry")).await?;
    two.wait_for_text("Only on the first").await?;
    take_in(two).await?;
    look_at(one, &from_two).await?;
    take_in(one).await?;
    for phone in [one, two] {
        phone.open("/batches").await?;
        phone.wait_for_text("Only on the first").await?;
        phone.tap(BATCH).await?;
        phone.wait_for_text("Stirred with the long paddle").await?;
        phone.wait_for_text("Smells of the river").await?;
    }
    // A second import adds nothing.
    look_at(two, &send(one).await?).await?;
    two.wait_for_text("Your records already have everything in this file.").await?;
    refusals(two, &from_one).await
}

async fn note(phone: &Phone, text: &str) -> TestResult {
    phone.open("/batches").await?;
    phone.tap(BATCH).await?;
    phone.tap("Note").await?;
    phone.fill("Note", text).await?;
    save(phone, "Save").await?;
    phone.wait_for_text(text).await
}

/// Downloads the whole book as a file.
async fn send(phone: &Phone) -> TestResult<PathBuf> {
    phone.open("/batches").await?;
    phone.tap("Share a backup").await?;
    phone.tap("Make the file").await?;
    phone.tap("Save on this phone").await?;
    phone.wait_for_text("Saved as").await?;
    phone.downloaded_file(".zip").await
}

async fn look_at(phone: &Phone, file: &Path) -> TestResult {
    phone.open("/batches/take").await?;
    phone.attach("Choose the file", file).await
}

async fn take_in(phone: &Phone) -> TestResult {
    phone.tap("Import this file").await?;
    phone.wait_for_text("Imported.").await
}

/// Files that cannot be imported change nothing and are refused with a reason.
async fn refusals(phone: &Phone, file: &Path) -> TestResult {
    let bytes = fs::read(file)?;
    let text = text_of(&bytes)?;
    // One digit more makes it format 91.
    let newer = text.replacen("\"format\": ", "\"format\": 9", 1);
    ensure(newer != text, || "the file does not say its format".to_owned())?;
    let bad: [(&str, &[u8], &str); 3] = [
        ("shopping.zip", b"bread, milk, rubber gloves", "This is not a Bleachfield file."),
        ("cut.zip", &bytes[..bytes.len() / 2], "The file is damaged or incomplete"),
        ("newer.txt", newer.as_bytes(), "A newer Bleachfield wrote it"),
    ];
    for (name, bytes, words) in bad {
        let place = phone.folder().join(name);
        fs::write(&place, bytes)?;
        look_at(phone, &place).await?;
        phone.wait_for_text(&format!("{name} cannot be imported.")).await?;
        phone.wait_for_text(words).await?;
        phone.wait_for_text("Nothing in your records has changed.").await?;
    }
    check_screen(phone, "exchange-refused").await
}

/// The entries as text, which are the archive's first file and not squeezed: by
/// themselves they are a file too (PKWARE APPNOTE 6.3, 4.3.7).
fn text_of(archive: &[u8]) -> TestResult<String> {
    let short = |at: usize| {
        Some(usize::from(u16::from_le_bytes([*archive.get(at)?, *archive.get(at + 1)?])))
    };
    let text = || {
        let size = short(18)? + (short(20)? << 16);
        let from = 30 + short(26)? + short(28)?;
        String::from_utf8(archive.get(from..from + size)?.to_vec()).ok()
    };
    text().ok_or_else(|| TestFailure::new("the file is no archive"))
}
