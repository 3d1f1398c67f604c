//! The screen as an image: screenshots, prints, QR codes.

use std::fs;
use std::path::PathBuf;
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

use fantoccini::wd::{PrintConfiguration, PrintSize};

use super::Phone;
use crate::chromedriver;
use crate::engine::{Engine, STANDARD_PHONE};
use crate::error::{TestFailure, TestResult, ensure};

/// Time limit of finding and reading a QR code.
const DECODING_LIMIT: Duration = Duration::from_secs(20);

impl Phone {
    /// Saves the screen as target/screens/ENGINE/NAME.png, with "-small" for the small phone.
    pub async fn screenshot(&self, name: &str) -> TestResult {
        let small = if self.size == STANDARD_PHONE { "" } else { "-small" };
        let png = self.screen().await?;
        fs::write(self.screens.join(format!("{name}{small}.png")), png)?;
        Ok(())
    }

    /// Prints the page to target/screens/ENGINE/NAME.pdf. WebKitGTK's driver cannot print.
    pub async fn print(&mut self, name: &str) -> TestResult {
        if self.engine == Engine::WebKit {
            self.record_difference(
                "its driver prints no page, so the printed label is not checked",
            );
            return Ok(());
        }
        let pdf = self.client()?.print(PrintConfiguration::default()).await?;
        fs::write(self.screens.join(format!("{name}.pdf")), &pdf)?;
        ensure(pdf.starts_with(b"%PDF"), || "the print is no PDF".to_owned())
    }

    /// Prints the page on paper of a size, and counts its pages; `None` where that cannot be read
    /// off the file.
    pub async fn print_pages(&mut self, name: &str, size: PrintSize) -> TestResult<Option<usize>> {
        if self.engine != Engine::Chromium {
            self.print(name).await?;
            return Ok(None);
        }
        let paper = PrintConfiguration::builder().size(size).build();
        let paper = paper.map_err(|error| TestFailure::new(format!("the paper: {error}")))?;
        let pdf = self.client()?.print(paper).await?;
        fs::write(self.screens.join(format!("{name}.pdf")), &pdf)?;
        // Chromium writes its page objects as plain text.
        let page = b"/Type /Page";
        let pages = pdf
            .windows(page.len() + 1)
            .filter(|bytes| bytes.starts_with(page) && !bytes[page.len()].is_ascii_alphanumeric());
        Ok(Some(pages.count()))
    }

    /// Saves the page as it looks on A4 paper with margins of 8 mm. Only Chromium shows that.
    pub async fn screenshot_as_printed(&self, name: &str) -> TestResult {
        if self.engine != Engine::Chromium {
            return Ok(());
        }
        // 194 by 281 mm at 96 px in an inch.
        chromedriver::show_as_printed(self.client()?, 733, 1062).await?;
        let shot = self.screenshot(name).await;
        chromedriver::show_as_screen(self.client()?).await?;
        shot
    }

    /// The text of the QR code at `selector`, read from a screenshot.
    pub async fn read_qr_code(&self, selector: &str) -> TestResult<String> {
        self.find("any", selector).await?;
        let (width, height, light) = grey(&self.screen().await?)?;
        let (found, text) = mpsc::channel();
        // In a thread of its own: no time limit of a scenario ends what never waits.
        thread::spawn(move || {
            let at = |x: usize, y: usize| light[y * width + x];
            let mut image = rqrr::PreparedImage::prepare_from_greyscale(width, height, at);
            let read = image.detect_grids().into_iter().find_map(|grid| grid.decode().ok());
            let _ = found.send(read.map(|(_, text)| text));
        });
        let text = text.recv_timeout(DECODING_LIMIT).ok().flatten();
        text.ok_or_else(|| TestFailure::new("no QR code can be read on the screen"))
    }

    /// The screen as PNG, two frames later: WebKitGTK returns an older frame otherwise.
    pub async fn screen(&self) -> TestResult<Vec<u8>> {
        let frame = "await new Promise((next) => requestAnimationFrame(next));";
        self.execute_async(&frame.repeat(2)).await?;
        Ok(self.client()?.screenshot().await?)
    }

    /// Saves the screen for the README, in CSS pixels so that it is small. Returns the path;
    /// `tests/browser/screenshot` copies the file to the README's.
    pub async fn screenshot_for_readme(&self) -> TestResult<PathBuf> {
        let png = self.screen().await?;
        let place = self.screens.join("for-readme.png");
        fs::write(&place, halved(&png)?)?;
        Ok(place)
    }
}

/// Width, height and lightness of each pixel.
fn grey(png: &[u8]) -> TestResult<(usize, usize, Vec<u8>)> {
    let (info, pixels) = pixels(png)?;
    let light = pixels
        .chunks_exact(info.color_type.samples())
        .map(|pixel| match pixel {
            // The weights of ITU-R BT.601, in thousandths.
            [r, g, b, ..] => {
                let sum = 299 * u32::from(*r) + 587 * u32::from(*g) + 114 * u32::from(*b);
                u8::try_from(sum / 1000).unwrap_or(u8::MAX)
            }
            other => other[0],
        })
        .collect();
    Ok((info.width as usize, info.height as usize, light))
}

/// A PNG at half its width and height, each pixel the mean of four.
fn halved(png: &[u8]) -> TestResult<Vec<u8>> {
    let (info, pixels) = pixels(png)?;
    let samples = info.color_type.samples();
    let (width, height) = (info.width as usize / 2, info.height as usize / 2);
    let mut small = Vec::with_capacity(width * height * 3);
    for (y, x) in (0..height).flat_map(|y| (0..width).map(move |x| (y, x))) {
        for channel in 0..3 {
            let of = |dx: usize, dy: usize| {
                let at = ((2 * y + dy) * info.width as usize + 2 * x + dx) * samples;
                u16::from(pixels[at + channel.min(samples - 1)])
            };
            let mean = (of(0, 0) + of(1, 0) + of(0, 1) + of(1, 1) + 2) / 4;
            small.push(u8::try_from(mean).unwrap_or(u8::MAX));
        }
    }
    let mut out = Vec::new();
    let mut encoder = png::Encoder::new(&mut out, info.width / 2, info.height / 2);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_compression(png::Compression::High);
    let written = encoder.write_header().and_then(|mut writer| writer.write_image_data(&small));
    written.map_err(|error| TestFailure::new(format!("the image cannot be written: {error}")))?;
    Ok(out)
}

fn pixels(png: &[u8]) -> TestResult<(png::OutputInfo, Vec<u8>)> {
    let broken = |error: png::DecodingError| TestFailure::new(format!("the screenshot: {error}"));
    let mut decoder = png::Decoder::new(std::io::Cursor::new(png));
    decoder.set_transformations(png::Transformations::normalize_to_color8());
    let mut reader = decoder.read_info().map_err(broken)?;
    let size = reader.output_buffer_size().unwrap_or_default();
    let mut pixels = vec![0; size];
    let info = reader.next_frame(&mut pixels).map_err(broken)?;
    pixels.truncate(info.buffer_size());
    Ok((info, pixels))
}
