//! Published values of 24-patch charts, and where the patches are in a photo.

use crate::colour::photo::{Area, PhotoPixels};
use crate::colour::space::Lab;
use numeris::{Matrix, Vector};
use serde::{Deserialize, Serialize};
use strum::IntoStaticStr;

/// Patches of a chart: six columns, four rows.
pub const COLUMNS: usize = 6;
pub const ROWS: usize = 4;
pub const PATCHES: usize = COLUMNS * ROWS;

/// Edition of the common 24-patch chart, whose pigments changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, IntoStaticStr)]
#[serde(rename_all = "snake_case")]
#[strum(const_into_str, prefix = "colour-chart-", serialize_all = "snake_case")]
pub enum ChartEdition {
    FromNovember2014,
    BeforeNovember2014,
}

impl ChartEdition {
    pub const ALL: [Self; 2] = [Self::FromNovember2014, Self::BeforeNovember2014];

    /// Locale key of its name.
    pub fn key(self) -> &'static str {
        self.into_str()
    }

    /// CIELAB (D65, 2°) of the patches, row by row from dark skin to black.
    pub fn lab(self) -> [Lab; PATCHES] {
        let table = match self {
            Self::FromNovember2014 => FROM_NOVEMBER_2014,
            Self::BeforeNovember2014 => BEFORE_NOVEMBER_2014,
        };
        table.map(|[l, a, b]| Lab { l, a, b })
    }
}

/// Places of the patches in a photo, row by row, from the centres of the four corner patches:
/// first, last of the first row, last of all, first of the last row, in pixels. `None` if the
/// four are not the corners of a convex shape.
pub fn places(corners: [[f64; 2]; 4], photo: &PhotoPixels) -> Option<[Area; PATCHES]> {
    let turns = [0, 1, 2, 3].map(|i| {
        let [from, at, to] = [0, 1, 2].map(|k| corners[(i + k) % 4]);
        (at[0] - from[0]) * (to[1] - at[1]) - (at[1] - from[1]) * (to[0] - at[0])
    });
    if !(turns.iter().all(|t| *t > 1.0) || turns.iter().all(|t| *t < -1.0)) {
        return None;
    }
    let map = homography(corners)?;
    let at = |column: f64, row: f64| {
        let w = map[6] * column + map[7] * row + 1.0;
        [
            (map[0] * column + map[1] * row + map[2]) / w,
            (map[3] * column + map[4] * row + map[5]) / w,
        ]
    };
    let areas = (0..PATCHES).map(|n| {
        let (column, row) = ((n % COLUMNS) as f64, (n / COLUMNS) as f64);
        let middle = at(column, row);
        // A patch fills about four fifths of its pitch; half of that is well inside.
        let step = |dx: f64, dy: f64| {
            let end = at(column + dx, row + dy);
            (end[0] - middle[0]).hypot(end[1] - middle[1])
        };
        let half = 0.22 * step(0.5, 0.0).min(step(0.0, 0.5)) * 2.0;
        square(middle, half, photo)
    });
    let areas: Vec<Area> = areas.collect::<Option<_>>()?;
    areas.try_into().ok()
}

/// The square within the photo; `None` if its middle is outside.
fn square([x, y]: [f64; 2], half: f64, photo: &PhotoPixels) -> Option<Area> {
    let (width, height) = (f64::from(photo.width()), f64::from(photo.height()));
    if !(0.0..width).contains(&x) || !(0.0..height).contains(&y) {
        return None;
    }
    let edges = |middle: f64, most: f64| {
        let low = (middle - half).round().clamp(0.0, most);
        (low as u32, ((middle + half).round().clamp(0.0, most) - low) as u32)
    };
    let ((x, width), (y, height)) = (edges(x, width), edges(y, height));
    Some(Area { x, y, width, height })
}

/// The projective map from column and row to pixels, its last coefficient 1.
fn homography(corners: [[f64; 2]; 4]) -> Option<[f64; 8]> {
    let (last_column, last_row) = ((COLUMNS - 1) as f64, (ROWS - 1) as f64);
    let grid = [[0.0, 0.0], [last_column, 0.0], [last_column, last_row], [0.0, last_row]];
    let mut left = Matrix::<f64, 8, 8>::zeros();
    let mut right = Vector::<f64, 8>::zeros();
    for (i, ([u, v], [x, y])) in grid.into_iter().zip(corners).enumerate() {
        let rows = [
            [u, v, 1.0, 0.0, 0.0, 0.0, -u * x, -v * x],
            [0.0, 0.0, 0.0, u, v, 1.0, -u * y, -v * y],
        ];
        for (k, row) in rows.into_iter().enumerate() {
            for (j, value) in row.into_iter().enumerate() {
                left[(2 * i + k, j)] = value;
            }
            right[2 * i + k] = [x, y][k];
        }
    }
    let solved = left.lu().ok()?.solve(&right);
    Some(std::array::from_fn(|i| solved[i]))
}

/// Published values under D50, by Bradford adaptation to D65, computed with PyPI
/// colour-science 0.4.7 ("ColorChecker24 - After November 2014").
const FROM_NOVEMBER_2014: [[f64; 3]; PATCHES] = [
    [37.31, 13.37, 14.58],
    [64.37, 18.02, 17.05],
    [49.62, -1.18, -22.17],
    [43.35, -14.64, 22.86],
    [55.18, 12.14, -24.57],
    [70.67, -31.94, 0.08],
    [62.11, 33.37, 55.76],
    [40.06, 16.26, -44.37],
    [50.06, 48.10, 15.60],
    [30.21, 24.39, -20.88],
    [71.52, -28.42, 58.85],
    [70.96, 14.75, 67.25],
    [29.15, 21.67, -48.74],
    [54.35, -42.68, 32.87],
    [41.82, 50.32, 27.36],
    [81.30, -1.87, 80.92],
    [50.40, 52.49, -14.82],
    [50.10, -24.98, -27.52],
    [95.17, -1.30, 2.92],
    [81.29, -0.61, 0.44],
    [66.90, -0.74, -0.05],
    [50.76, -0.14, 0.14],
    [35.64, -0.41, -0.47],
    [20.64, 0.11, -0.46],
];

/// As [`FROM_NOVEMBER_2014`] ("ColorChecker24 - Before November 2014").
const BEFORE_NOVEMBER_2014: [[f64; 3]; PATCHES] = [
    [37.77, 12.59, 13.74],
    [65.43, 16.84, 17.38],
    [50.22, -2.30, -21.53],
    [43.04, -14.95, 22.05],
    [55.37, 11.47, -25.16],
    [70.91, -33.08, 0.27],
    [62.04, 33.60, 56.36],
    [40.66, 16.05, -45.14],
    [50.62, 47.70, 15.19],
    [30.44, 24.89, -21.59],
    [72.28, -27.95, 57.87],
    [71.39, 15.88, 67.71],
    [29.58, 20.61, -49.21],
    [55.23, -41.21, 31.94],
    [41.47, 52.75, 26.87],
    [81.22, -0.45, 80.27],
    [51.73, 51.21, -15.24],
    [51.56, -23.96, -27.84],
    [96.53, -0.53, 1.18],
    [81.26, -0.60, -0.32],
    [66.78, -0.68, -0.49],
    [50.87, -0.13, -0.27],
    [35.67, -0.30, -1.21],
    [20.47, 0.01, -0.96],
];

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn patches_lie_between_their_corners() {
        let rgba = vec![0; 700 * 500 * 4];
        let photo = PhotoPixels::new(&rgba, 700, 500).unwrap();
        let corners = [[100.0, 100.0], [600.0, 100.0], [600.0, 400.0], [100.0, 400.0]];
        let places = places(corners, &photo).unwrap();
        assert_eq!(places[0].centre(), [100.0, 100.0]);
        assert_eq!(places[8].centre(), [300.0, 200.0]);
        assert_eq!(places[23].centre(), [600.0, 400.0]);
        assert_eq!(places[8].width, 44);
    }

    #[test]
    fn crossed_corners_are_no_chart() {
        let rgba = vec![0; 700 * 500 * 4];
        let photo = PhotoPixels::new(&rgba, 700, 500).unwrap();
        let corners = [[100.0, 100.0], [600.0, 400.0], [600.0, 100.0], [100.0, 400.0]];
        assert_eq!(places(corners, &photo), None);
    }
}
