//! Text: which letters a spot can still write.

use super::beam::Beam;
use super::width::BeamWidth;
use super::{angle, length};
use crate::error::{Error, Param, check};
use crate::model::mark::{self, POINT, TextGrade, TextGrades, TextQuality, Typeface};
use crate::validity::Validity;
use uom::si::f64::{Angle, Length};

/// The size of type: its em, built from points or from a length by name.
///
/// The em is not the height of the letters, which is about seven tenths of it for capitals:
///
/// ```compile_fail,E0308
/// use spotwise::{BeamWidth, Lettering, TypeSize, units::mm};
/// fn grade(lettering: Lettering, spot: BeamWidth) {
///     let _ = lettering.quality(spot, mm(1.4)); // the em? the height of a capital?
/// }
/// ```
///
/// ```
/// use spotwise::{TypeSize, units::mm};
/// let size = TypeSize::from_points(72.0)?;
/// assert_eq!((size.em().value * 1e7).round(), 254_000.0); // an inch
/// assert_eq!((TypeSize::from_em(mm(25.4))?.points() * 1e6).round(), 72e6);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct TypeSize {
    em: f64,
}

impl TypeSize {
    /// In points of 1/72 inch.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`]: the em must be from 1e-9 to 10 m.
    #[doc(alias = "font size")]
    pub fn from_points(points: f64) -> Result<Self, Error> {
        Self::from_em(length(points * POINT))
    }

    /// From the em.
    ///
    /// # Errors
    /// As [`Self::from_points`].
    pub fn from_em(em: Length) -> Result<Self, Error> {
        check(Param::Em, em.value).map(Self::computed)
    }

    /// A size that the model computed; a function that takes it checks it again.
    pub(super) const fn computed(em: f64) -> Self {
        Self { em }
    }

    pub(super) const fn metres(self) -> f64 {
        self.em
    }

    /// In points of 1/72 inch.
    #[must_use]
    pub fn points(self) -> f64 {
        self.em / POINT
    }

    /// The em.
    #[must_use]
    pub fn em(self) -> Length {
        length(self.em)
    }
}

/// How text is made: its typeface, its dose, and where its grades begin.
///
/// # Example
/// ```
/// use spotwise::{BeamWidth, Lettering, TextGrade, TextGrades, TypeSize, Typeface, units::um};
/// let lettering =
///     Lettering { typeface: Typeface::Sans, dose_ratio: 2.7, grades: TextGrades::default() };
/// let spot = BeamWidth::from_diameter_1e2(um(88.0))?;
/// let smallest = lettering.smallest(spot)?;
/// assert!(smallest.good.points() < 4.0); // an 88 µm spot holds 4 point text
/// let fine = lettering.quality(spot, TypeSize::from_points(0.5)?)?;
/// assert_eq!(fine.grade, TextGrade::Lost);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lettering {
    /// Kind of typeface, or one that was measured.
    pub typeface: Typeface,
    /// Fill dose over the dose at which the material just marks, 1.000001 to 1e6.
    pub dose_ratio: f64,
    /// Where the grades begin.
    pub grades: TextGrades,
}

/// The smallest type of each grade.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct SmallestText {
    /// The smallest that is crisp.
    pub crisp: TypeSize,
    /// The smallest that is good.
    pub good: TypeSize,
    /// The smallest that can be read.
    pub readable: TypeSize,
}

impl SmallestText {
    pub(super) const fn from_model(found: mark::SmallestText) -> Self {
        Self {
            crisp: TypeSize::computed(found.crisp_em),
            good: TypeSize::computed(found.good_em),
            readable: TypeSize::computed(found.readable_em),
        }
    }
}

/// How far text may be out of focus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TextOffset {
    /// How far from the waist, alike on either side.
    pub offset: Length,
    /// Spot there.
    pub spot: BeamWidth,
    /// Half angle of the cone.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

impl Lettering {
    /// The smallest type that comes out crisp, good and readable with this spot. As
    /// [`model::mark::smallest_text`](crate::model::mark::smallest_text).
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field.
    #[doc(alias = "minimum font size")]
    pub fn smallest(&self, spot: BeamWidth) -> Result<SmallestText, Error> {
        mark::smallest_text(spot.metres_1e2(), self.dose_ratio, self.typeface, &self.grades)
            .map(SmallestText::from_model)
    }

    /// How type of one size comes out with this spot. As
    /// [`model::mark::text_quality`](crate::model::mark::text_quality).
    ///
    /// # Errors
    /// As [`Self::smallest`].
    pub fn quality(&self, spot: BeamWidth, size: TypeSize) -> Result<TextQuality, Error> {
        mark::text_quality(spot.metres_1e2(), size.em, self.dose_ratio, self.typeface, &self.grades)
    }

    /// The largest offset from the waist of a beam at which type of one size keeps a grade. As
    /// [`model::mark::offset_for_text`](crate::model::mark::offset_for_text).
    ///
    /// # Errors
    /// As there: [`Error::Unreachable`] if it lacks the grade even in the waist.
    pub fn offset(&self, beam: &Beam, size: TypeSize, grade: TextGrade) -> Result<TextOffset, Error> {
        let found = mark::offset_for_text(
            beam.as_model(),
            size.em,
            grade,
            self.dose_ratio,
            self.typeface,
            &self.grades,
        )?;
        Ok(TextOffset {
            offset: length(found.offset),
            spot: BeamWidth::computed(found.spot_diameter),
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }
}
