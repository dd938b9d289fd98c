//! What is known of the scan that burns a drawing.

use super::drawing::{Drawing, DrawingUse};
use crate::error::{Error, Param, check, check_within};

/// How the machine goes over a drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Scan {
    /// Not known: each pixel counts as a box that is burnt evenly. Code 1.
    Unknown,
    /// Lines along the rows, burnt while they cross ink. Code 2.
    ///
    /// Lines farther apart than 2.5 of the least spot **radius**, blur across included, are refused: see
    /// [`FULL_DOSE`](super::FULL_DOSE). Of a raster that is burnt as it is each row is a line: any interval but the pitch
    /// of the rows, to one part in a million, is refused, and the first line should be half of that from the edge.
    AlongRows {
        /// From one line to the next in metres.
        line_interval: f64,
        /// From the upper edge of the drawing to the first line in metres, 0 to `line_interval`.
        first_line: f64,
    },
}

/// Intervals that differ by less are the same: one may be told in lines per inch, the other in rounded millimetres.
const SAME_INTERVAL: f64 = 1e-6;
/// Lines so many spot radii apart are the farthest apart of which an exposure map holds all the dose.
pub(crate) const WIDEST_INTERVAL: f64 = 2.5;

impl Scan {
    /// Permanent number of this choice, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(&self) -> u32 {
        match self {
            Self::Unknown => 1,
            Self::AlongRows { .. } => 2,
        }
    }

    /// The scan with this permanent code, ignoring the numbers that it does not have.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code. The numbers are checked when they are used.
    pub const fn from_code(code: u32, line_interval: f64, first_line: f64) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::Unknown),
            2 => Ok(Self::AlongRows { line_interval, first_line }),
            value => Err(Error::UnknownChoice { param: Param::ScanKind, value }),
        }
    }

    /// The lines in rows of this pitch, none if they are not known.
    pub(crate) fn checked(&self, drawing: &Drawing<'_>) -> Result<Option<Lines>, Error> {
        match *self {
            Self::Unknown => Ok(None),
            Self::AlongRows { line_interval, first_line } => {
                let interval = check(Param::LineInterval, line_interval)?;
                let first = check_within(Param::FirstLine, first_line, 0.0, interval)?;
                let pitch_y = drawing.pitch_y;
                if drawing.drawing_use == DrawingUse::BurntRaster {
                    let [least, greatest] = [1.0 - SAME_INTERVAL, 1.0 + SAME_INTERVAL].map(|of| of * pitch_y);
                    check_within(Param::LineInterval, interval, least, greatest)?;
                    return Ok(Some(Lines { interval: 1.0, first: first / pitch_y }));
                }
                Ok(Some(Lines { interval: interval / pitch_y, first: first / pitch_y }))
            }
        }
    }
}

/// Scan lines at `first` + n·`interval` for every whole n, counted in rows from the upper edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Lines {
    pub(crate) interval: f64,
    pub(crate) first: f64,
}

impl Lines {
    /// Where a line lies.
    pub(crate) fn place(&self, number: f64) -> f64 {
        self.first + number * self.interval
    }

    /// The number of the line at or before a place.
    pub(crate) fn before(&self, place: f64) -> f64 {
        floor((place - self.first) / self.interval)
    }

    /// Whether all rows have their lines at the same places within them.
    pub(crate) fn alike_in_all_rows(&self) -> bool {
        let in_row = 1.0 / self.interval;
        in_row >= 1.0 && in_row == floor(in_row) && in_row * self.interval == 1.0
    }
}

/// The greatest whole number that is not beyond a number of magnitude below 2⁶².
pub(crate) fn floor(x: f64) -> f64 {
    let toward_zero = (x as i64) as f64;
    if toward_zero > x { toward_zero - 1.0 } else { toward_zero }
}

#[cfg(test)]
mod tests {
    use super::{Lines, floor};

    #[test]
    fn floors_are_those_of_the_standard_library() {
        for x in [-2.5, -2.0, -1e-300, -0.0, 0.0, 0.3, 1.0, 7.999_999_999, 1e15 + 0.5] {
            assert_eq!(floor(x), x.floor());
        }
    }

    #[test]
    fn lines_are_alike_where_a_row_holds_a_whole_number_of_them() {
        for (interval, alike) in [(1.0, true), (0.5, true), (0.25, true), (0.3, false), (2.0, false)] {
            assert_eq!(Lines { interval, first: 0.1 }.alike_in_all_rows(), alike, "{interval}");
        }
    }
}
