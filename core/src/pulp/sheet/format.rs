//! Sheet formats and their sizes.
//! Not here: the deckle for a finished size, which is `request`.

use super::SheetError;
use super::error::LONGEST_SIDE_MM;

/// A size by name or by its sides.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SheetFormat {
    /// ISO 216 A-series, 0 to 10.
    A(u8),
    /// 8½ × 11 in, 215.9 × 279.4 mm (ANSI/ASME Y14.1).
    Letter,
    /// Another mould, mm.
    Own { width: f64, height: f64 },
}

/// The two sides of a sheet, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SheetSize {
    pub width: f64,
    pub height: f64,
}

impl SheetSize {
    /// Area in square metres.
    pub fn square_metres(self) -> f64 {
        self.width * self.height * 1e-6
    }
}

impl SheetFormat {
    /// The two sides.
    ///
    /// # Errors
    /// [`SheetError::BadFormat`] and [`SheetError::NoSuchSize`].
    pub fn size(self) -> Result<SheetSize, SheetError> {
        match self {
            Self::Letter => Ok(SheetSize { width: 215.9, height: 279.4 }),
            Self::A(n) if n > 10 => Err(SheetError::NoSuchSize { given: n.into() }),
            Self::A(n) => Ok(a_series(n)),
            Self::Own { width, height } => {
                for millimetres in [width, height] {
                    if !(millimetres > 0.0 && millimetres <= LONGEST_SIDE_MM) {
                        return Err(SheetError::BadFormat { millimetres });
                    }
                }
                Ok(SheetSize { width, height })
            }
        }
    }
}

/// ISO 216: A0 is 841 × 1189 mm; each next size halves the longer side,
/// rounded down to whole millimetres.
fn a_series(n: u8) -> SheetSize {
    let (mut width, mut height) = (841_u32, 1189_u32);
    for _ in 0..n {
        (width, height) = (height / 2, width);
    }
    SheetSize { width: width.into(), height: height.into() }
}
