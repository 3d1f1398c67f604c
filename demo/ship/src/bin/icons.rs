//! Draws the icons in public/icon from public/icon/bleachfield.svg.
//!
//! `icons FOLDER` writes them; `icons FOLDER --check` only says whether the ones
//! there are what the drawing makes.

use std::error::Error;
use std::fs;
use std::path::Path;

use resvg::tiny_skia::{Color, Pixmap, Transform};
use resvg::usvg::{Options, Tree};

const DRAWING: &str = "bleachfield.svg";
/// The drawing's own ground, for the icons whose corners the phone cuts.
const GROUND: (u8, u8, u8) = (0x6b, 0x4f, 0x2a);

/// File, side in pixels, and the share of the side that the drawing takes. A
/// maskable icon keeps what matters within the middle 80 % (W3C Web App
/// Manifest, "icon masks").
const ICONS: [(&str, u32, f32); 5] = [
    ("bleachfield-180.png", 180, 1.0),
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
            fs::write(path, drawn.encode_png()?)?;
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
    Ok(icon)
}
