//! Sheet formats.

use super::SheetRefusal;

/// No mould that one or two people lift is longer, mm (common practice, no source).
pub(super) const LARGEST: f64 = 3000.0;

/// A size by name or by measure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Format {
    /// ISO 216 A-series, 0 to 10.
    A(u8),
    /// 8½ × 11 in, 215.9 × 279.4 mm (ANSI/ASME Y14.1).
    Letter,
    /// A mould of one's own, mm.
    Own { width: f64, height: f64 },
}

/// Two sides, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Size {
    pub width: f64,
    pub height: f64,
}

impl Size {
    /// Area in square metres.
    pub fn square_metres(self) -> f64 {
        self.width * self.height * 1e-6
    }
}

impl Format {
    /// The two sides.
    ///
    /// # Errors
    /// [`SheetRefusal::BadFormat`] and [`SheetRefusal::NoSuchSize`].
    pub fn size(self) -> Result<Size, SheetRefusal> {
        match self {
            Self::Letter => Ok(Size { width: 215.9, height: 279.4 }),
            Self::A(n) if n > 10 => Err(SheetRefusal::NoSuchSize { given: n.into() }),
            Self::A(n) => Ok(a_series(n)),
            Self::Own { width, height } => {
                for millimetres in [width, height] {
                    if !(millimetres > 0.0 && millimetres <= LARGEST) {
                        return Err(SheetRefusal::BadFormat { millimetres });
                    }
                }
                Ok(Size { width, height })
            }
        }
    }
}

/// ISO 216: A0 is 841 × 1189 mm; each next size halves the longer side,
/// rounded down to whole millimetres.
fn a_series(n: u8) -> Size {
    let (mut width, mut height) = (841_u32, 1189_u32);
    for _ in 0..n {
        (width, height) = (height / 2, width);
    }
    Size { width: width.into(), height: height.into() }
}
