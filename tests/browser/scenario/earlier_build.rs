//! A database and preferences that earlier builds wrote open with nothing lost: version 1 of
//! the database with whole photos, version 2 with photos in pieces of less than 64 KiB.

use serde_json::{Value, json};

use super::steps::begin_batch;
use crate::error::{TestResult, ensure};
use crate::phone::Phone;

pub async fn run(phone: &mut Phone) -> TestResult {
    // A page of the origin that does not open the database.
    phone.client()?.goto(&format!("{}/icon/bleachfield.svg", phone.server.origin())).await?;
    let whole = stored(phone, "1", "whole", "Batch of an earlier build").await?;
    phone.open("/batches").await?;
    phone.wait_for_text("Batch of an earlier build").await?;
    let look = phone.execute("return document.documentElement.dataset.look").await?;
    ensure(look == "dark", || format!("the stored theme is dark, and it is {look}"))?;

    let in_pieces = stored(phone, "2", "pieces", "Batch with pieces").await?;
    phone.open("/batches").await?;
    phone.wait_for_text("Batch with pieces").await?;
    for (version, id) in [("1", whole), ("2", in_pieces)] {
        phone.open(&format!("/batch/0000000000000000000000000{version}")).await?;
        let shown = phone.execute_async(SHOWN_PHOTO).await?;
        ensure(shown == id, || format!("stored by version {version}: {id}, shown: {shown}"))?;
    }

    begin_batch(phone, "Batch of this build").await?;
    phone.open("/batches").await?;
    for name in ["Batch of an earlier build", "Batch with pieces", "Batch of this build"] {
        phone.wait_for_text(name).await?;
    }
    let devices = phone.execute_async(DEVICES).await?;
    ensure(devices == json!(["k7m2"]), || format!("devices of the entries: {devices}"))
}

/// Writes a batch with a photo as earlier builds did; the id of the photo.
async fn stored(phone: &Phone, version: &str, photo: &str, name: &str) -> TestResult<Value> {
    let script = STORE
        .replace("VERSION", version)
        .replace("WHOLE", if photo == "whole" { "true" } else { "false" })
        .replace("NAME", name);
    let id = phone.execute_async(&script).await?;
    ensure(id.as_str().is_some_and(|id| id.len() == 64), || format!("not stored: {id}"))?;
    Ok(id)
}

/// The records of earlier builds, with a photo of noise of several hundred kilobytes.
const STORE: &str = r#"
    localStorage.setItem('bleachfield.preferences', JSON.stringify({
        look: 'dark', measures: 'metric', mark: 'point', photo: 'long_side2048', sound: true,
        vibration: true, speak: false, stay_awake: true }));
    const canvas = document.createElementNS('http://www.w3.org/1999/xhtml', 'canvas');
    [canvas.width, canvas.height] = [500, 400];
    const context = canvas.getContext('2d');
    const pixels = context.createImageData(500, 400);
    for (let i = 0; i < pixels.data.length; i += 1) {
        pixels.data[i] = i % 4 === 3 ? 255 : (i * 2654435761 >>> 16) % 256;
    }
    context.putImageData(pixels, 0, 0);
    const blob = await new Promise((then) => canvas.toBlob(then, 'image/jpeg', 0.VERSION + 0.8));
    const bytes = new Uint8Array(await blob.arrayBuffer());
    const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
    const photo = [...hash].map((byte) => byte.toString(16).padStart(2, '0')).join('');
    const entry = (nth, body) => ({
        about: { batch: '0000000000000000000000000VERSION' },
        at: '2026-05-03T09:19:00.123Z', body, device: 'k7m2',
        id: `01KQPJ6CG000000000000000VERSION${nth}`,
        stamp: `2026-05-03T09:2VERSION:1${nth}.123Z-0000-k7m2`, zone: '' });
    const entries = [
        entry(1, { fibre: 'cattail leaf', fibre_key: 'cattail', kind: 'batch_started', name: 'NAME' }),
        entry(2, { bytes: bytes.length, caption: '', height_px: 400, kind: 'photo',
            mime: 'image/jpeg', orientation: 1, photo, pulp: 'wet', width_px: 500 })];

    const request = indexedDB.open('bleachfield', VERSION);
    request.onupgradeneeded = () => {
        for (const store of ['entries', 'photos', 'thumbs', 'house']) {
            request.result.createObjectStore(store);
        }
    };
    const database = await new Promise((then, fail) => {
        request.onsuccess = () => then(request.result);
        request.onerror = () => fail(request.error);
    });
    const transaction = database.transaction(['entries', 'photos', 'house'], 'readwrite');
    for (const entry of entries) {
        const record = { id: entry.id, format: 1, text: JSON.stringify(entry) };
        transaction.objectStore('entries').put(record, entry.id);
    }
    const photos = transaction.objectStore('photos');
    if (WHOLE) {
        photos.put({ mime: 'image/jpeg', bytes }, photo);
    } else {
        const size = 60 << 10;
        const pieces = Math.ceil(bytes.length / size) - 1;
        if (pieces < 2) throw new Error(`only ${bytes.length} bytes`);
        photos.put({ mime: 'image/jpeg', bytes: bytes.slice(0, size), pieces }, photo);
        for (let nth = 1; nth <= pieces; nth += 1) {
            photos.put(bytes.slice(nth * size, (nth + 1) * size), [photo, nth]);
        }
    }
    transaction.objectStore('house').put('k7m2', 'device');
    await new Promise((then, fail) => {
        transaction.oncomplete = then;
        transaction.onabort = () => fail(transaction.error);
    });
    database.close();
    return photo;
"#;

/// Opens the photo of the batch and returns the SHA-256 of what is shown.
const SHOWN_PHOTO: &str = r#"
    const found = async (selector) => {
        for (let i = 0; i < 400; i += 1) {
            const element = document.querySelector(selector);
            if (element) return element;
            await new Promise((then) => setTimeout(then, 50));
        }
        throw new Error(`no ${selector}`);
    };
    // The small copy: made by the app, since there is none in the store.
    const small = await found('button:has(img.picture)');
    small.click();
    const image = await found('dialog[open] img.picture');
    await image.decode();
    const bytes = await (await fetch(image.src)).arrayBuffer();
    const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
    return [...hash].map((byte) => byte.toString(16).padStart(2, '0')).join('');
"#;

/// The devices of all entries in the store.
const DEVICES: &str = r#"
    const request = indexedDB.open('bleachfield');
    const database = await new Promise((then, fail) => {
        request.onsuccess = () => then(request.result);
        request.onerror = () => fail(request.error);
    });
    const all = database.transaction('entries').objectStore('entries').getAll();
    await new Promise((then, fail) => { all.onsuccess = then; all.onerror = fail; });
    const entries = all.result.map((record) => JSON.parse(record.text));
    database.close();
    if (entries.length < 5) throw new Error(`only ${entries.length} entries`);
    return [...new Set(entries.map((entry) => entry.device))];
"#;
