#![allow(clippy::print_stdout, clippy::expect_used)]
mod campaign;
use campaign::*;
fn main() {
    for (i, (name, light)) in lights().iter().enumerate() {
        for k in 0..6 {
            let scene = good(light, 1000 * i as u64 + k);
            dump(name, &scene);
        }
    }
}
