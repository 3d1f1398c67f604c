//! Draws the icons in public/icon from public/icon/bleachfield.svg.
//!
//! `icons FOLDER` writes them; `icons FOLDER --check` only says whether the ones
//! there are what the drawing makes.

use std::cmp::Reverse;
use std::error::Error;
use std::fs;
use std::path::Path;

use resvg::tiny_skia::{Color, Pixmap, PremultipliedColorU8, Transform};
use resvg::usvg::{Options, Tree};

const DRAWING: &str = "bleachfield.svg";
/// The drawing's own ground, for the icons whose corners the phone cuts.
const GROUND: (u8, u8, u8) = (0x6b, 0x4f, 0x2a);

/// As many as the eye tells apart at an icon's size.
const COLOURS: usize = 32;

/// File, side in pixels, and the share of the side that the drawing takes. A
/// maskable icon keeps what matters within the middle 80 % (W3C Web App
/// Manifest, "icon masks").
const ICONS: [(&str, u32, f32); 4] = [
    ("bleachfield-192.png", 192, 1.0),
    ("bleachfield-512.png", 512, 1.0),
    ("bleachfield-maskable-192.png", 192, 0.8),
    ("bleachfield-maskable-512.png", 512, 0.8),
];

fn main() -> Result<(), Box<dyn Error>> {
    let given: Vec<String> = std::env::args().skip(1).collect();
    let (folder, check) = match given.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        [folder] => (Path::new(folder), false),
        [folder, "--check"] => (Path::new(folder), true),
        _ => return Err("usage: icons FOLDER [--check]".into()),
    };
    let drawing = Tree::from_data(&fs::read(folder.join(DRAWING))?, &Options::default())?;
    for (name, side, share) in ICONS {
        let drawn = draw(&drawing, side, share)?;
        let path = folder.join(name);
        if !check {
            fs::write(path, encoded(&drawn)?)?;
        } else if Pixmap::load_png(&path)?.data() != drawn.data() {
            return Err(format!("{} is not what {DRAWING} makes; run icons", path.display()).into());
        }
    }
    Ok(())
}

fn draw(drawing: &Tree, side: u32, share: f32) -> Result<Pixmap, Box<dyn Error>> {
    let mut icon = Pixmap::new(side, side).ok_or("an icon needs a side")?;
    let (red, green, blue) = GROUND;
    icon.fill(Color::from_rgba8(red, green, blue, 255));
    let scale = side as f32 / drawing.size().width() * share;
    let margin = side as f32 * (1.0 - share) / 2.0;
    let place = Transform::from_scale(scale, scale).post_translate(margin, margin);
    resvg::render(drawing, place, &mut icon.as_mut());
    let colours = colours(&icon);
    for pixel in icon.pixels_mut() {
        *pixel = colours[nearest(&colours, *pixel)];
    }
    Ok(icon)
}

/// The colours that most of a drawing has; the rest are steps at its edges.
fn colours(icon: &Pixmap) -> Vec<PremultipliedColorU8> {
    let mut pixels: Vec<_> = icon.pixels().to_vec();
    pixels.sort_by_key(|c| rgb(*c));
    let mut runs: Vec<_> = pixels.chunk_by(|a, b| a == b).collect();
    runs.sort_by_key(|run| Reverse(run.len()));
    runs.iter().take(COLOURS).map(|run| run[0]).collect()
}

fn nearest(colours: &[PremultipliedColorU8], wanted: PremultipliedColorU8) -> usize {
    let away = |c: &PremultipliedColorU8| -> u32 {
        rgb(*c).iter().zip(rgb(wanted)).map(|(a, b)| u32::from(a.abs_diff(b)).pow(2)).sum()
    };
    (0..colours.len()).min_by_key(|nth| away(&colours[*nth])).unwrap_or_default()
}

fn rgb(colour: PremultipliedColorU8) -> [u8; 3] {
    [colour.red(), colour.green(), colour.blue()]
}

/// A PNG file with a palette.
fn encoded(icon: &Pixmap) -> Result<Vec<u8>, Box<dyn Error>> {
    let colours = colours(icon);
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
