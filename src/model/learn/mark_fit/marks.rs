//! What a fit of marks is given: the marks, what is known before, and how it is to judge.

use crate::error::{Error, Param};
use crate::model::mark::MarkKind;

/// Marks at stepped heights: at `heights[i]`, with `power_ratios[i]` of the power of reference, a mark of
/// `widths[i]` came out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeriesMarks<'a> {
    /// Heights of the surface in metres from any one datum, **+ away from the lens**.
    pub heights: &'a [f64],
    /// Widths (**diameters**) of the marks in metres; exactly 0 for one that vanished.
    pub widths: &'a [f64],
    /// Standard deviations of the widths in metres; of a mark that vanished, the width that might have been
    /// overlooked.
    pub deviations: &'a [f64],
    /// Power over the power of reference, 1 in a series at one power.
    pub power_ratios: &'a [f64],
}

/// What is known before the marks are read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeriesKnown {
    /// What makes the marks.
    pub kind: MarkKind,
    /// Vacuum wavelength in metres.
    pub wavelength: f64,
    /// Beam propagation ratio M²; not read if its deviation is infinite.
    pub m2: f64,
    /// Deviation of M² over M²; +∞ where it is not known.
    pub relative_m2_deviation: f64,
    /// Waist **diameter** in metres, 1/e²; not read if its deviation is infinite.
    pub waist_diameter: f64,
    /// Deviation of the waist diameter over itself; +∞ where it is not known.
    pub relative_waist_diameter_deviation: f64,
}

/// What the stated deviations of the widths are worth. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum WidthScatter {
    /// They are taken at their word.
    Stated = 1,
    /// Only their ratios are: how far the marks scatter, the fit finds.
    Found = 2,
}

impl WidthScatter {
    /// Both, in the order of their codes.
    pub const ALL: [Self; 2] = [Self::Stated, Self::Found];

    /// The choice with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub fn from_code(code: u32) -> Result<Self, Error> {
        Self::ALL
            .into_iter()
            .find(|scatter| *scatter as u32 == code)
            .ok_or(Error::UnknownChoice { param: Param::WidthScatter, value: code })
    }

    /// Name, the same in documents and in the WebAssembly package.
    ///
    /// ```
    /// use spotwise::model::learn::WidthScatter;
    /// assert_eq!(WidthScatter::from_code(2)?.name(), "found");
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Stated => "stated",
            Self::Found => "found",
        }
    }
}

/// How [`fit_mark_widths`](super::fit_mark_widths) is to judge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarkFitOptions {
    /// Deviations beyond which a mark is left out, from 2 on; 3 is usual, +∞ keeps every mark.
    pub outlier_limit: f64,
    /// Share of cases in which each range is to hold the truth, such as 0.95.
    pub confidence: f64,
    /// What the stated deviations are worth.
    pub scatter: WidthScatter,
}

/// One mark of a series, in the units of [`SeriesMarks`].
#[derive(Debug, Clone, Copy)]
pub(crate) struct Mark {
    pub(crate) height: f64,
    pub(crate) width: f64,
    pub(crate) deviation: f64,
    pub(crate) power_ratio: f64,
}
