//! Writes samples of the studio's photographs into a folder:
//! `cargo run --release -p bleachfield-demo --example photos -- FOLDER`.

use bleachfield_demo::photo::preset::{
    DemoFibre, Lighting, mixed_light, no_card, overexposed, photo,
};
use bleachfield_demo::photo::render;
use std::error::Error;
use std::path::PathBuf;

fn main() -> Result<(), Box<dyn Error>> {
    let folder = PathBuf::from(std::env::args().nth(1).ok_or("usage: photos FOLDER")?);
    std::fs::create_dir_all(&folder)?;
    for (i, fibre) in DemoFibre::ALL.into_iter().enumerate() {
        for (j, lighting) in Lighting::ALL.into_iter().enumerate() {
            let left = [1.0, 0.5, 0.25, 0.12, 0.05][j];
            let scene = photo(fibre, left, j % 2 == 0, lighting, (10 * i + j) as u64);
            let name = format!("{fibre:?}-{j}.jpg");
            std::fs::write(folder.join(name), render(&scene)?.jpeg)?;
        }
        for (what, scene) in [
            ("no-card", no_card(fibre, 90 + i as u64)),
            ("mixed", mixed_light(fibre, 93 + i as u64)),
            ("burnt", overexposed(fibre, 96 + i as u64)),
        ] {
            std::fs::write(folder.join(format!("{fibre:?}-{what}.jpg")), render(&scene)?.jpeg)?;
        }
    }
    Ok(())
}
