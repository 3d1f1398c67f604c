//! Draws the icons in public/icon from its `bleachfield.svg`.

use std::cmp::Reverse;
use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use resvg::tiny_skia::{Color, Pixmap, PremultipliedColorU8, Transform};
use resvg::usvg::{Options, Tree};

const DRAWING: &str = "bleachfield.svg";
/// Background of the drawing, which fills a maskable icon to its edges.
const BACKGROUND: (u8, u8, u8) = (0x6b, 0x4f, 0x2a);

/// Size of the palette, enough at an icon's size.
const COLOURS: usize = 32;

/// File, side in pixels, and the drawing's share of the side. A maskable icon keeps its content
/// within the middle 80 % (W3C Web App Manifest, "icon masks").
const ICONS: [(&str, u32, f32); 4] = [
    ("bleachfield-192.png", 192, 1.0),
    ("bleachfield-512.png", 512, 1.0),
    ("bleachfield-maskable-192.png", 192, 0.8),
    ("bleachfield-maskable-512.png", 512, 0.8),
];

/// Draws the icons of `folder`; with `check`, only compares them with the drawing.
///
/// # Errors
/// If the drawing or an icon cannot be read or written, or an icon differs from the drawing.
pub fn run(folder: &Path, check: bool) -> Result<()> {
    let drawing = Tree::from_data(&fs::read(folder.join(DRAWING))?, &Options::default())?;
    for (name, side, share) in ICONS {
        let drawn = draw(&drawing, side, share)?;
        let path = folder.join(name);
        if check {
            let same = Pixmap::load_png(&path)?.data() == drawn.data();
            ensure!(same, "{} differs from {DRAWING}; run xtask icons", path.display());
        } else {
            fs::write(path, encode(&drawn)?)?;
        }
    }
    Ok(())
}

fn draw(drawing: &Tree, side: u32, share: f32) -> Result<Pixmap> {
    let mut icon = Pixmap::new(side, side).context("an icon without a side")?;
    let (red, green, blue) = BACKGROUND;
    icon.fill(Color::from_rgba8(red, green, blue, 255));
    let scale = side as f32 / drawing.size().width() * share;
    let margin = side as f32 * (1.0 - share) / 2.0;
    let place = Transform::from_scale(scale, scale).post_translate(margin, margin);
    resvg::render(drawing, place, &mut icon.as_mut());
    let colours = palette(&icon);
    for pixel in icon.pixels_mut() {
        *pixel = colours[nearest(&colours, *pixel)];
    }
    Ok(icon)
}

/// The most frequent colours; the others are anti-aliasing.
fn palette(icon: &Pixmap) -> Vec<PremultipliedColorU8> {
    let mut pixels: Vec<_> = icon.pixels().to_vec();
    pixels.sort_by_key(|c| rgb(*c));
    let mut runs: Vec<_> = pixels.chunk_by(|a, b| a == b).collect();
    runs.sort_by_key(|run| Reverse(run.len()));
    runs.iter().take(COLOURS).map(|run| run[0]).collect()
}

fn nearest(colours: &[PremultipliedColorU8], wanted: PremultipliedColorU8) -> usize {
    let distance = |c: &PremultipliedColorU8| -> u32 {
        rgb(*c).iter().zip(rgb(wanted)).map(|(a, b)| u32::from(a.abs_diff(b)).pow(2)).sum()
    };
    (0..colours.len()).min_by_key(|nth| distance(&colours[*nth])).unwrap_or_default()
}

fn rgb(colour: PremultipliedColorU8) -> [u8; 3] {
    [colour.red(), colour.green(), colour.blue()]
}

/// A PNG file with a palette.
fn encode(icon: &Pixmap) -> Result<Vec<u8>> {
    let colours = palette(icon);
    let indices: Vec<u8> = icon
        .pixels()
        .iter()
        .map(|pixel| u8::try_from(nearest(&colours, *pixel)))
        .collect::<Result<_, _>>()?;
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, icon.width(), icon.height());
    encoder.set_color(png::ColorType::Indexed);
    encoder.set_palette(colours.iter().copied().flat_map(rgb).collect::<Vec<u8>>());
    encoder.set_compression(png::Compression::High);
    encoder.set_filter(png::Filter::NoFilter);
    encoder.write_header()?.write_image_data(&indices)?;
    Ok(file)
}
