//! What the README shows and links to is there, and its pictures are small.

use std::{fs, path::Path};

/// A picture that a reader on a phone's data waits for, bytes.
const LARGEST: u64 = 100_000;

#[test]
fn pictures_are_there_and_small() {
    let house = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let text = fs::read_to_string(house.join("README.md")).expect("readable");
    let pictures: Vec<&str> = text.split("![").skip(1).filter_map(address).collect();
    assert!(!pictures.is_empty(), "the README shows no picture");
    for picture in pictures {
        let path = house.join(picture);
        let bytes = fs::read(&path).unwrap_or_else(|error| panic!("{picture}: {error}"));
        assert!(bytes.starts_with(b"\x89PNG"), "{picture} is no PNG");
        assert!((bytes.len() as u64) < LARGEST, "{picture} has {} bytes", bytes.len());
    }
}

/// The address of the picture whose mark was just passed: `words](address)`.
fn address(after: &str) -> Option<&str> {
    after.split_once("](")?.1.split_once(')').map(|(address, _)| address)
}
