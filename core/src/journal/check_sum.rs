//! The check sum of archives and of PNG files: CRC-32, ITU-T V.42 §8.1.1.6.2.

use crc::{CRC_32_ISO_HDLC, Crc};

/// The CRC-32 of these bytes. Its table is made each time: in the program it
/// would be bytes to fetch that nothing compresses.
pub(super) fn crc32(bytes: &[u8]) -> u32 {
    Crc::<u32>::new(&CRC_32_ISO_HDLC).checksum(bytes)
}

#[cfg(test)]
mod tests {
    #[test]
    fn check_value_of_the_catalogue() {
        // "123456789" in the catalogue of parametrised CRC algorithms.
        assert_eq!(super::crc32(b"123456789"), 0xcbf4_3926);
    }
}
