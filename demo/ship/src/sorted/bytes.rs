//! Bytes of a program, read from the first to the last.

#[derive(Clone, Copy)]
pub struct Bytes<'a>(&'a [u8]);

/// A number and the bytes that it was written with.
pub struct Found<'a> {
    pub value: usize,
    pub bytes: &'a [u8],
}

impl<'a> Bytes<'a> {
    pub fn of(bytes: &'a [u8]) -> Self {
        Self(bytes)
    }

    pub fn is_empty(self) -> bool {
        self.0.is_empty()
    }

    pub fn take(&mut self, length: usize) -> Result<&'a [u8], String> {
        let (taken, rest) = self.0.split_at_checked(length).ok_or("the program ends too early")?;
        self.0 = rest;
        Ok(taken)
    }

    pub fn byte(&mut self) -> Result<u8, String> {
        self.take(1).map(|bytes| bytes[0])
    }

    /// LEB128, at most ten bytes; the value is that of an unsigned one (the high bits
    /// of one of more than 64 are lost: only counts and sizes are taken by value).
    pub fn number(&mut self) -> Result<Found<'a>, String> {
        let length =
            self.0.iter().position(|byte| *byte < 0x80).map_or(usize::MAX, |last| last + 1);
        if length > 10 {
            return Err("a number does not end".into());
        }
        let bytes = self.take(length)?;
        let low = bytes.iter().enumerate().take(9);
        let value = low.fold(0, |value, (nth, byte)| value | usize::from(byte & 0x7f) << (7 * nth));
        Ok(Found { value, bytes })
    }

    /// The type of a local, which is one byte.
    pub fn value_type(&mut self) -> Result<&'a [u8], String> {
        match self.take(1)? {
            [other @ (..0x6f | 0x80..)] => Err(format!("unknown type {other:02x}")),
            known => Ok(known),
        }
    }
}
