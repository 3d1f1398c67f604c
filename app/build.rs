//! The locale files are read by a macro, which cargo cannot see: tell it.
fn main() {
    println!("cargo::rerun-if-changed=locale");
}
