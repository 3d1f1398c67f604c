//! Taking a made-up photo before the first real one.
//!
//! A browser compiles a piece of program when it first runs, and compiles it well once it
//! has run for a while; so do its own parts start when they are first used. A person who
//! opens the form takes a few seconds to find a picture: time enough.

use std::cell::Cell;

use super::{
    jpeg::Writer,
    message::ColourAsked,
    pixels::Drawing,
    take::{Kept, kept},
};

/// Size of the made-up photo in pixels, and what it is made smaller to: as many as are looked
/// at in a real one, so that there is memory for them too.
const SIZE: (u32, u32) = (2400, 1800);
const SMALLER: u32 = 1200;

/// So often is it taken, at most: after that, little more is gained.
const TIMES: u32 = 3;

/// JPEG quality of the made-up photo.
const QUALITY: f64 = 0.9;

/// Where a white and a pulp lie in it, and their colours.
const THINGS: [(&str, [f64; 4]); 2] =
    [("#e6e2d8", [240.0, 240.0, 600.0, 600.0]), ("#c8b28c", [1160.0, 560.0, 980.0, 980.0])];

thread_local! {
    static LEFT: Cell<u32> = const { Cell::new(TIMES) };
}

/// No more of it: the real photo is there.
pub fn stop() {
    LEFT.set(0);
}

/// Takes a made-up photo, until it has done so often enough. Nothing is kept of it.
pub async fn practise(likely: ColourAsked) {
    if LEFT.get() == 0 {
        return;
    }
    let Some(photo) = Drawing::of_things(SIZE, "#4a4640", &THINGS) else { return };
    let Some(file) = photo.blob(QUALITY).await else { return };
    while let left @ 1.. = LEFT.get() {
        LEFT.set(left - 1);
        if let Ok(Kept { seen: Some(seen), .. }) = kept(&file, Some(SMALLER), None).await {
            seen.colour_as(&likely);
        }
    }
    Writer::start_spare();
}
