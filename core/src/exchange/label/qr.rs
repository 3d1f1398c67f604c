//! The QR code on a label: a square of dark and light modules.

use crate::message::{Field, Message, Value};
use qrcodegen::{QrCode, QrCodeEcc};
use serde::{Deserialize, Serialize};

pub const LINK: Field = Field("label-link");

/// A QR code (ISO/IEC 18004) of error correction level M, which recovers 15 %
/// of damaged codewords.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Qr {
    side: usize,
    dark: Vec<bool>,
}

/// A text that cannot be encoded.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum QrError {
    #[error("an empty text")]
    Empty,
    #[error("a text of {bytes} bytes; at most {} are accepted", Qr::LONGEST)]
    TooLong { bytes: u64 },
}

impl QrError {
    /// The message for the locale, beside its field.
    pub fn message(&self) -> Message {
        match self {
            Self::Empty => Message::new("label-refusal-no_link").beside(LINK),
            Self::TooLong { bytes } => Message::new("label-refusal-link_too_long")
                .beside(LINK)
                .with("given", Value::Count(*bytes))
                .with("max", Value::Count(Qr::LONGEST as u64)),
        }
    }
}

impl Qr {
    /// Quiet zone required on each side, in modules (ISO/IEC 18004).
    pub const QUIET: usize = 4;

    /// Longest text, bytes: at level M it fills version 15, 77 modules a side,
    /// each half a millimetre on a 40 mm label.
    pub const LONGEST: usize = 412;

    /// The code for a text.
    ///
    /// # Errors
    /// [`QrError`] for an empty text, or one longer than [`Qr::LONGEST`].
    pub fn of(text: &str) -> Result<Self, QrError> {
        if text.is_empty() {
            return Err(QrError::Empty);
        }
        let too_long = QrError::TooLong { bytes: text.len() as u64 };
        if text.len() > Self::LONGEST {
            return Err(too_long);
        }
        let code = QrCode::encode_text(text, QrCodeEcc::Medium).map_err(|_| too_long)?;
        let side = code.size();
        let dark = (0..side).flat_map(|y| (0..side).map(move |x| (x, y)));
        Ok(Self { side: side as usize, dark: dark.map(|(x, y)| code.get_module(x, y)).collect() })
    }

    /// Modules along one side, without the quiet zone.
    pub fn side(&self) -> usize {
        self.side
    }

    /// Modules along one side, with the quiet zone on both ends.
    pub fn side_with_quiet(&self) -> usize {
        self.side + 2 * Self::QUIET
    }

    /// Whether a module is dark, counted from the top left corner inside the
    /// quiet zone. Outside the code all modules are light.
    pub fn dark(&self, x: usize, y: usize) -> bool {
        x < self.side && y < self.side && self.dark[y * self.side + x]
    }

    /// Runs of dark modules along each row, `(x, y, length)`, counted as in
    /// [`Qr::dark`]: each can be drawn as one rectangle.
    pub fn runs(&self) -> Vec<(usize, usize, usize)> {
        let mut runs = Vec::new();
        for y in 0..self.side {
            let mut x = 0;
            while x < self.side {
                let length = (x..self.side).take_while(|x| self.dark(*x, y)).count();
                if length > 0 {
                    runs.push((x, y, length));
                }
                x += length.max(1);
            }
        }
        runs
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// Draws the runs, each module `scale` pixels, and decodes the picture with
    /// an independent decoder.
    fn read_back(qr: &Qr, scale: usize) -> String {
        let side = qr.side_with_quiet() * scale;
        let mut light = vec![255_u8; side * side];
        for (x, y, length) in qr.runs() {
            for row in 0..scale {
                let start = ((y + Qr::QUIET) * scale + row) * side + (x + Qr::QUIET) * scale;
                light[start..start + length * scale].fill(0);
            }
        }
        let mut picture =
            rqrr::PreparedImage::prepare_from_greyscale(side, side, |x, y| light[y * side + x]);
        let grids = picture.detect_grids();
        assert_eq!(grids.len(), 1, "one code in the picture");
        grids[0].decode().unwrap().1
    }

    #[test]
    fn an_independent_decoder_reads_the_link() {
        for link in [
            "https://example.test/#/batch/01ARZ3NDEKTSV4RRFFQ69G5FAV",
            "x",
            "Kozo, Überlänge — 楮",
            &"a".repeat(Qr::LONGEST),
        ] {
            let qr = Qr::of(link).unwrap();
            assert_eq!(read_back(&qr, 4), link);
        }
    }

    #[test]
    fn the_longest_text_fits_77_modules() {
        assert!(Qr::of(&"a".repeat(Qr::LONGEST)).unwrap().side() <= 77);
        assert_eq!(
            Qr::of(&"a".repeat(Qr::LONGEST + 1)),
            Err(QrError::TooLong { bytes: Qr::LONGEST as u64 + 1 })
        );
        assert_eq!(Qr::of(""), Err(QrError::Empty));
    }

    #[test]
    fn runs_and_modules_agree() {
        let qr = Qr::of("the same either way").unwrap();
        let dark: usize =
            (0..qr.side()).map(|y| (0..qr.side()).filter(|x| qr.dark(*x, y)).count()).sum();
        assert_eq!(qr.runs().iter().map(|run| run.2).sum::<usize>(), dark);
        assert!(qr.dark(0, 0) && !qr.dark(qr.side(), 0), "finder pattern, then margin");
    }
}
