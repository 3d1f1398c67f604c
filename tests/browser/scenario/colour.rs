//! Colour from photos, in the demo studio: a photo is taken and measured, kept, seen in
//! its batch's progress, held against a target, compared and aged; what is no photo, or
//! holds no white, is refused with what to do.

use std::fs;
use std::path::PathBuf;

use bleachfield_demo::photo::preset::{DemoFibre, Lighting, no_card, photo};
use bleachfield_demo::photo::{Scene, render};
use fantoccini::actions::{InputSource, MOUSE_BUTTON_LEFT, MouseActions, PointerAction};

use super::places::fits;
use super::turned::kept_as_seen;
use crate::axe::no_serious_barrier;
use crate::failure::{Failure, Outcome, ensure};
use crate::phone::Phone;

/// Opens the batch.
const FIND_BATCH: &str = "const link = [...document.querySelectorAll('a.batch-card')] \
    .find((link) => link.querySelector('h2').innerText === 'Reed bed'); \
    link?.click(); return !!link";

pub async fn play(phone: &mut Phone) -> Outcome {
    phone.open("/batches").await?;
    phone.tap("Load the demo studio").await?;
    // An uncut build takes its time over a season of photos: patience twice over.
    let _ = phone.sees("Take it in").await;
    phone.tap("Take it in").await?;
    let _ = phone.sees("It is in the book.").await;
    phone.sees("It is in the book.").await?;
    phone.open("/batches").await?;
    // Two begin with these words: the one meant is the season's first.
    phone.wait_for("the book", || async { Ok(phone.run(FIND_BATCH).await? == true) }).await?;
    phone.sees("Colour, measured and followed").await?;
    let batch = phone.path().await?;

    phone.tap("Photo").await?;
    kept_as_seen(phone).await?;
    phone.open(&batch).await?;
    measure(phone).await?;
    follow(phone, &batch).await?;
    aim(phone, &batch).await?;
    compare(phone, &batch).await?;
    from_older(phone, &batch).await?;
    age(phone).await?;
    refuse(phone, &batch).await
}

/// A dried swatch in daylight: taken, marked, dragged, kept as an aged one.
async fn measure(phone: &Phone) -> Outcome {
    let sheet = photo(DemoFibre::CattailLeaf, 0.12, false, Lighting::Overcast, 41);
    let file = made(phone, "sheet", &sheet)?;
    phone.tap("Photo").await?;
    phone.attach("Choose a picture", &file).await?;
    phone.sees("1200 × 900").await?;
    phone.tap("Dried").await?;
    phone.tap("Save and measure its colour").await?;
    phone.sees("These were found in the photo").await?;
    let ticked = "return [...document.querySelectorAll('.tick input')].map((i) => i.checked)";
    let before = phone.run(ticked).await?;
    if before[1] == false {
        phone.tap("Grey card").await?;
    }
    phone.sees("Yellowness (E313)").await?;
    phone.picture("colour-measure").await?;
    drag(phone).await?;
    phone.sees("Yellowness (E313)").await?;
    seems_right(phone, "measuring").await?;

    let earlier = phone.find("field", "Measured before?").await?;
    earlier.select_by_index(1).await?;
    phone.tap("on a bright window sill").await?;
    phone.run("scrollTo(0, document.body.scrollHeight)").await?;
    phone.picture("colour-result").await?;
    phone.tap("Save the colour").await?;
    phone.sees("Colour, Reed bed").await
}

/// Drags the pulp's mark by its handle; the loupe is there while it moves, and the mark
/// is elsewhere afterwards. Then back by the arrow keys.
async fn drag(phone: &Phone) -> Outcome {
    let handle = phone.find("any", "[data-mark=pulp]").await?;
    let before = handle.attr("aria-label").await?;
    let finger = |actions| MouseActions::new("finger".into()).then(actions);
    let onto =
        PointerAction::MoveToElement { element: handle.clone(), duration: None, x: 0.0, y: 0.0 };
    let on = finger(onto)
        .then(PointerAction::Down { button: MOUSE_BUTTON_LEFT })
        .then(PointerAction::MoveBy { duration: None, x: 12.0, y: 6.0 });
    let client = phone.client()?;
    client.perform_actions(on).await?;
    let loupe = phone.run("return !!document.querySelector('.loupe')").await?;
    phone.picture("colour-loupe").await?;
    client.perform_actions(finger(PointerAction::Up { button: MOUSE_BUTTON_LEFT })).await?;
    ensure(loupe == true, || "no loupe while a mark is dragged".into())?;
    let after = handle.attr("aria-label").await?;
    ensure(after != before, || format!("the mark stayed at {before:?}"))?;
    for key in ["\u{e012}", "\u{e012}", "\u{e013}"] {
        handle.send_keys(key).await?; // left, left, up
    }
    ensure(handle.attr("aria-label").await? != after, || "arrow keys move nothing".into())
}

/// Its swatches over time; a press on one shows its photo.
async fn follow(phone: &Phone, batch: &str) -> Outcome {
    phone.sees("Swatches").await?;
    phone.picture("colour-progress").await?;
    seems_right(phone, "progress").await?;
    phone.tap("As a table").await?;
    phone.sees("before the bath, wet").await?;
    phone.sees("22 min, wet").await?;
    phone.tap("22 min").await?;
    phone.sees("Hue, degrees").await?;
    phone.picture("colour-swatch").await?;
    phone.open(&format!("{batch}/colour")).await
}

/// Aims at a named step, then at a paper in a photo, then at a swatch of another batch.
async fn aim(phone: &Phone, batch: &str) -> Outcome {
    phone.tap("Aim at a colour").await?;
    phone.sees("Six steps").await?;
    phone.picture("colour-target").await?;
    seems_right(phone, "the choice of a target").await?;
    phone.tap("Natural white").await?;
    phone.sees("Natural white: ΔE00").await?;
    phone.picture("colour-aimed").await?;
    phone.open(&format!("{batch}/colour/target")).await?;
    phone.find("any", "a.photo-link").await?.click().await?;
    phone.sees("Measure a paper").await?;
    phone.sees("Yellowness (E313)").await?;
    phone.fill("What you call this paper", "the old ledger").await?;
    phone.tap("Aim at this colour").await?;
    phone.sees("the old ledger: ΔE00").await
}

async fn compare(phone: &Phone, batch: &str) -> Outcome {
    phone.open(&format!("{batch}/colour/compare")).await?;
    phone.sees("apart").await?;
    two_photos(phone).await?;
    phone.picture("colour-beside").await?;
    phone.tap("One over the other").await?;
    two_photos(phone).await?;
    phone.picture("colour-split").await?;
    seems_right(phone, "comparing").await
}

async fn two_photos(phone: &Phone) -> Outcome {
    let shown = "const all = [...document.querySelectorAll('main img')]; \
        return all.length === 2 && all.every((i) => i.complete && i.naturalWidth > 0)";
    phone.wait_for("two photos", || async { Ok(phone.run(shown).await? == true) }).await
}

/// The book as the first version kept it, each photo in one record: the same photos are
/// there.
async fn from_older(phone: &Phone, batch: &str) -> Outcome {
    // A page of this origin that is not the app, and holds on to nothing.
    phone.run("location.assign('/icon/bleachfield.svg')").await?;
    let there = "return location.pathname.endsWith('.svg') && document.readyState === 'complete'";
    phone.wait_for("the icon", || async { Ok(phone.run(there).await? == true) }).await?;
    let joined = phone.run_async(MAKE_OLDER).await?;
    ensure(joined.as_f64() > Some(0.0), || "no photo lay in pieces".into())?;
    phone.expect_complaints("a browser looks for an icon beside a bare picture").await?;
    phone.open(&format!("{batch}/colour/compare")).await?;
    phone.sees("apart").await?;
    two_photos(phone).await
}

/// Writes the book anew in version 1, and gives how many pieces of photos it joined.
const MAKE_OLDER: &str = r"
    const done = (request) => new Promise((then, not) => {
        request.onsuccess = () => then(request.result);
        request.onerror = () => not(request.error);
    });
    const name = 'bleachfield';
    const book = await done(indexedDB.open(name));
    const all = new Map();
    for (const store of book.objectStoreNames) {
        const reading = book.transaction(store).objectStore(store);
        const [keys, values] = [done(reading.getAllKeys()), done(reading.getAll())];
        const records = new Map();
        for (const [nth, key] of (await keys).entries()) records.set(key, (await values)[nth]);
        all.set(store, records);
    }
    book.close();
    let joined = 0;
    const photos = all.get('photos');
    for (const [key, piece] of photos) {
        if (!Array.isArray(key)) continue;
        const photo = photos.get(key[0]);
        photo.bytes = new Uint8Array([...photo.bytes, ...piece]);
        delete photo.pieces;
        photos.delete(key);
        joined += 1;
    }
    await done(indexedDB.deleteDatabase(name));
    const request = indexedDB.open(name, 1);
    request.onupgradeneeded = () => {
        for (const store of all.keys()) request.result.createObjectStore(store);
    };
    const older = await done(request);
    const writing = older.transaction([...all.keys()], 'readwrite');
    for (const [store, records] of all) {
        for (const [key, value] of records) writing.objectStore(store).put(value, key);
    }
    await new Promise((then) => { writing.oncomplete = then; });
    older.close();
    return joined;
";

async fn age(phone: &Phone) -> Outcome {
    phone.open("/batches").await?;
    phone.tap("Yellowing").await?;
    phone.sees("Post-colour no.").await?;
    phone.sees("on a bright window sill").await?;
    phone.picture("colour-yellowing").await?;
    seems_right(phone, "yellowing").await
}

async fn refuse(phone: &Phone, batch: &str) -> Outcome {
    let bare = made(phone, "bare", &no_card(DemoFibre::IrisLeaf, 7))?;
    phone.open(&format!("{batch}?do=photo")).await?;
    phone.attach("Choose a picture", &bare).await?;
    phone.sees("1200 × 900").await?;
    phone.tap("Save and measure its colour").await?;
    phone.sees("No white sheet or card was found").await?;
    phone.sees("Lay a sheet of plain white paper beside the pulp").await?;
    phone.run("document.querySelector('.result').scrollIntoView({ block: 'center' })").await?;
    phone.picture("colour-refused").await?;
    let save = phone.find("press", "Save the colour").await?;
    ensure(save.attr("disabled").await?.is_some(), || "a refused colour can be saved".into())?;

    let unreadable: [(&str, Vec<u8>, &str); 3] = [
        ("words.jpg", b"this is no picture".to_vec(), ""),
        ("half.jpg", fs::read(&bare)?[..4000].to_vec(), ""),
        ("iphone.heic", b"\0\0\0\x18ftypheic\0\0\0\0mif1heic".to_vec(), "HEIC"),
    ];
    phone.open(&format!("{batch}?do=photo")).await?;
    for (name, bytes, words) in unreadable {
        let file = phone.folder().join(name);
        fs::write(&file, bytes)?;
        phone.attach("Choose a picture", &file).await?;
        let refused = "return document.querySelector('dialog .wrong')?.innerText || ''";
        phone
            .wait_for(name, || async {
                let said = phone.run(refused).await?;
                Ok(said.as_str().is_some_and(|said| !said.is_empty() && said.contains(words)))
            })
            .await?;
    }
    phone.picture("colour-unreadable").await
}

async fn seems_right(phone: &Phone, what: &str) -> Outcome {
    no_serious_barrier(phone, what).await?;
    fits(phone, what).await
}

/// A photo of the demo's bench as a file.
fn made(phone: &Phone, name: &str, scene: &Scene) -> Outcome<PathBuf> {
    let rendered = render(scene).map_err(|error| Failure::new(error.to_string()))?;
    let file = phone.folder().join(format!("{name}.jpg"));
    fs::write(&file, rendered.jpeg)?;
    Ok(file)
}
