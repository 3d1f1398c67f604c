//! Compression for the way to the phone.

/// `bytes` compressed with brotli at quality 11 and the largest standard window.
pub fn brotli(bytes: &[u8]) -> Vec<u8> {
    let params = brotli::enc::BrotliEncoderParams { quality: 11, lgwin: 22, ..Default::default() };
    let mut squeezed = Vec::new();
    let mut source = bytes;
    match brotli::BrotliCompress(&mut source, &mut squeezed, &params) {
        Ok(_) => squeezed,
        Err(error) => unreachable!("reading and writing memory does not fail: {error}"),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    #[test]
    fn comes_back_whole_and_smaller() {
        let text = "pulp and water ".repeat(500);
        let squeezed = super::brotli(text.as_bytes());
        let mut back = Vec::new();
        brotli::BrotliDecompress(&mut squeezed.as_slice(), &mut back).unwrap();
        assert_eq!(back, text.as_bytes());
        assert!(squeezed.len() < text.len() / 10);
    }
}
