//! A large photo is stored smaller and looks the same, in every EXIF orientation and in the
//! wide gamut of some phones.

use serde_json::Value;

use crate::error::{TestResult, ensure};
use crate::phone::Phone;

/// Checks every orientation and gamut; the photo form must be open.
pub async fn check_orientations(phone: &Phone) -> TestResult {
    for colours in ["srgb", "display-p3"] {
        for orientation in 1..=8 {
            let case = format!("{colours}, orientation {orientation}");
            let script = TAKE
                .replace("COLOURS", &format!("'{colours}'"))
                .replace("ORIENTATION", &orientation.to_string());
            let found = phone.execute_async(&script).await?;
            let side = |name: &str| found[name].as_f64().unwrap_or_default();
            let (wide, high) = (side("width"), side("height"));
            let upright = orientation < 5;
            ensure((wide > high) == upright && wide.max(high) > 1450.0, || {
                format!("{case}: kept as {wide} by {high}: {found}")
            })?;
            ensure(wide.max(high) <= 1700.0, || format!("{case}: not made smaller: {found}"))?;
            // A wrong orientation or colour profile differs by tens.
            let off = found["off"].as_f64();
            ensure(off.is_some_and(|off| off < 2.0), || format!("{case}: looks other: {found}"))?;
            ensure(found["told"] != Value::Null, || format!("{case}: nothing said"))?;
        }
    }
    Ok(())
}

/// Makes a photo of 2600 by 1950 pixels with that orientation, selects it, waits for the
/// preview, and compares the preview with the photo.
const TAKE: &str = r"
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [2600, 1950];
    const pen = canvas.getContext('2d', { colorSpace: COLOURS }) ?? canvas.getContext('2d');
    const wide = COLOURS === 'srgb' ? '#cc2211' : 'color(display-p3 0.9 0.25 0.1)';
    for (const [colour, ...place] of [['#9a8a60', 0, 0, 2600, 1950], ['#cc2211', 0, 0, 900, 300],
        [wide, 0, 0, 900, 300], ['#2233cc', 0, 1300, 300, 650], ['#eeeeee', 1600, 1450, 1000, 500]]) {
        pen.fillStyle = colour;
        pen.fillRect(...place);
    }
    const blob = await new Promise((then) => canvas.toBlob(then, 'image/jpeg', 0.95));
    const exif = [0x45, 0x78, 0x69, 0x66, 0, 0, 0x4d, 0x4d, 0, 0x2a, 0, 0, 0, 8, 0, 1,
        1, 0x12, 0, 3, 0, 0, 0, 1, 0, ORIENTATION, 0, 0, 0, 0, 0, 0];
    const head = new Uint8Array([0xff, 0xd8, 0xff, 0xe1, 0, exif.length + 2, ...exif]);
    const file = new File([head, blob.slice(2)], 'turned.jpg', { type: 'image/jpeg' });
    // What is said of it stands below it once it is the picture that will be kept, and no more
    // its small copy.
    const shown = () => document.querySelector('dialog img.picture:has(+ p.small)');
    const before = shown()?.src;
    const chosen = new DataTransfer();
    chosen.items.add(file);
    const input = document.querySelector('dialog input[type=file]:not([capture])');
    input.files = chosen.files;
    input.dispatchEvent(new Event('change', { bubbles: true }));
    for (let i = 0; i < 400 && (!shown() || shown().src === before); i += 1) {
        await new Promise((then) => setTimeout(then, 25));
    }
    const seen = async (address) => {
        const picture = new Image();
        picture.src = address;
        await picture.decode();
        const small = document.createElement('canvas');
        const [wide, high] = [picture.naturalWidth, picture.naturalHeight];
        [small.width, small.height] = wide > high ? [80, 60] : [60, 80];
        const pen = small.getContext('2d');
        // WebKit may say that it is decoded and still draw nothing.
        for (let i = 0; i < 40; i += 1) {
            pen.drawImage(picture, 0, 0, small.width, small.height);
            if (pen.getImageData(0, 0, 1, 1).data[3] === 255) break;
            await new Promise((then) => setTimeout(then, 25));
        }
        return [wide, high, pen.getImageData(0, 0, small.width, small.height).data];
    };
    const [, , was] = await seen(URL.createObjectURL(file));
    const [width, height, is] = await seen(shown().src);
    let off = was.length === is.length ? 0 : NaN;
    for (let i = 0; i < is.length; i += 1) off += Math.abs(was[i] - is[i]) / is.length;
    return { width, height, off, told: shown().nextElementSibling?.innerText ?? null };
";
