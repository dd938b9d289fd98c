//! How a drawing comes out: its grade, and the reasons.

use super::dose_window::DoseWindow;
use super::report::Report;
use crate::error::{Error, Param};
use crate::flags::flags;
use crate::model::mark::TextGrades;

/// How well a drawing comes out. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum MarkGrade {
    /// Everything is whole, with room for error in the dose, and strokes get all but the full dose.
    Crisp = 1,
    /// Everything is whole, with room for error in the dose.
    Good = 2,
    /// Strokes and counters hold, but neighbours touch or the dose has little room.
    Degraded = 3,
    /// Strokes are lost or broken, or counters filled.
    Lost = 4,
}

impl MarkGrade {
    /// Every grade, in the order of its code.
    pub const ALL: [Self; 4] = [Self::Crisp, Self::Good, Self::Degraded, Self::Lost];

    /// The grade with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub fn from_code(code: u32) -> Result<Self, Error> {
        Self::ALL
            .into_iter()
            .find(|grade| *grade as u32 == code)
            .ok_or(Error::UnknownChoice { param: Param::MarkGrade, value: code })
    }

    /// Name, the same in documents and in the WebAssembly package.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Crisp => "crisp",
            Self::Good => "good",
            Self::Degraded => "degraded",
            Self::Lost => "lost",
        }
    }
}

/// Why a drawing comes out as it does: a set of bits, whose numbers are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct MarkReasons(u32);

flags!(MarkReasons);

impl MarkReasons {
    /// No reason.
    pub const NONE: Self = Self(0);
    /// No dose keeps every stroke and every counter: focus or lens is the cause, not power. Bit 0.
    pub const NO_DOSE_SAVES: Self = Self(1);
    /// At this dose strokes are lost or broken that a higher one keeps. Bit 1.
    pub const DOSE_TOO_LOW: Self = Self(1 << 1);
    /// At this dose counters fill that a lower one leaves open. Bit 2.
    pub const DOSE_TOO_HIGH: Self = Self(1 << 2);
    /// Neighbours touch at this dose. Bit 3.
    pub const NEIGHBOURS_TOUCH: Self = Self(1 << 3);
    /// The dose at which all holds has little room. Bit 4.
    pub const NARROW_DOSE_WINDOW: Self = Self(1 << 4);
    /// Half of the strokes' length gets less than all but the full dose, so that edges are soft. Bit 5.
    pub const SOFT_STROKES: Self = Self(1 << 5);
    /// Part of the drawing lies where the surface has no known height: nothing is said of it. Bit 6.
    pub const PARTLY_UNKNOWN: Self = Self(1 << 6);
    /// The pixels are too coarse for the spot: draw it finer to be sure. Bit 7.
    pub const COARSE_PIXELS: Self = Self(1 << 7);

    /// Every reason, in the order of its bit, with its words.
    pub const ALL: [(Self, &'static str); 8] = [
        (Self::NO_DOSE_SAVES, "No dose can save this; the focus is the cause."),
        (Self::DOSE_TOO_LOW, "The dose is too low: strokes are lost that a higher one keeps."),
        (Self::DOSE_TOO_HIGH, "The dose is too high: counters fill that a lower one leaves open."),
        (Self::NEIGHBOURS_TOUCH, "Neighbours touch at this dose."),
        (
            Self::NARROW_DOSE_WINDOW,
            "The dose has little room between losing strokes and touching neighbours.",
        ),
        (Self::SOFT_STROKES, "Strokes are so thin for the spot that their edges are soft."),
        (Self::PARTLY_UNKNOWN, "Part of the drawing lies where the surface has no known height."),
        (Self::COARSE_PIXELS, "The pixels are too coarse for this spot: draw it finer to be sure."),
    ];
}

/// The grade of a drawing, and why.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Judgement {
    /// The grade.
    pub grade: MarkGrade,
    /// Why it is no better, and what to know besides.
    pub reasons: MarkReasons,
}

/// Judges a mark by what it keeps at its dose and by the room that the dose has.
///
/// | grade    | what it asks                                                                                   |
/// |----------|------------------------------------------------------------------------------------------------|
/// | degraded | strokes and counters hold at this dose; a window for them of at least `readable_window`         |
/// | good     | neighbours apart at this dose as well; a window for all of at least `good_window`               |
/// | crisp    | besides, half of the strokes' length gets at least `crisp_exposure` of the full dose            |
///
/// The limits are those of text ([`TextGrades`]): set to agree with common practice, no source, and not otherwise
/// validated.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a limit; [`Error::Undetermined`] naming [`Param::InkPixels`] for a
/// drawing without ink of known height, of which there is nothing to say.
pub fn judge(report: &Report, window: &DoseWindow, grades: &TextGrades) -> Result<Judgement, Error> {
    let grades = grades.checked()?;
    if report.ink_pixels == 0 {
        let (least, greatest) = Param::InkPixels.range();
        return Err(Error::Undetermined { param: Param::InkPixels, value: 0.0, least, greatest });
    }
    let mut reasons = MarkReasons::NONE;
    let broken = report.is_broken();
    let filled = report.topology.holes_closed > 0;
    let touching = report.topology.components_merged > 0;
    // NaN, where no dose at all keeps the strokes or there are none, is less than any limit.
    let less = |value: f64, limit: f64| value.is_nan() || value < limit;
    let hopeless = less(window.ratio_for_counters(), 1.0);
    let unreadable = less(window.ratio_for_counters(), grades.readable_window);
    let narrow = less(window.ratio(), grades.good_window);
    let soft = less(report.typical_stroke_exposure, grades.crisp_exposure);
    reasons.add(MarkReasons::NO_DOSE_SAVES, hopeless);
    reasons.add(MarkReasons::DOSE_TOO_LOW, broken && !hopeless);
    reasons.add(MarkReasons::DOSE_TOO_HIGH, filled && !hopeless);
    reasons.add(MarkReasons::NEIGHBOURS_TOUCH, touching);
    reasons.add(MarkReasons::NARROW_DOSE_WINDOW, narrow && !hopeless);
    reasons.add(MarkReasons::SOFT_STROKES, soft);
    reasons.add(MarkReasons::PARTLY_UNKNOWN, report.spots.unknown_ink_pixels > 0);
    reasons.add(MarkReasons::COARSE_PIXELS, report.too_few_pixels);
    let grade = if unreadable || broken || filled {
        MarkGrade::Lost
    } else if narrow || touching {
        MarkGrade::Degraded
    } else if soft {
        MarkGrade::Good
    } else {
        MarkGrade::Crisp
    };
    Ok(Judgement { grade, reasons })
}
