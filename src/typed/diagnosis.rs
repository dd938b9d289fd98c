//! Focus or power? What a mark says, and the tests that settle it.

use super::beam::Beam;
use super::offset::Offset;
use super::{angle, length};
use crate::error::Error;
use crate::model::learn::{
    self, Ambiguities, DepthLaw, DepthReading, FurtherTest, HeightVerdict, MarkCause, PossiblePower,
};
use crate::model::mark::MarkKind;
use crate::validity::Validity;
use uom::si::f64::{Angle, Length};

/// A measured width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WidthReading {
    /// Width of a line, or **diameter** of a dot; 1e-9 to 10 m.
    pub width: Length,
    /// Its standard deviation, 1e-12 m to 0.3 of the width.
    pub deviation: Length,
}

/// A good mark: made in focus, of known dose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GoodMark {
    /// Pulse or line.
    pub kind: MarkKind,
    /// Its dose ratio, 1.000001 to 1e6.
    pub dose_ratio: f64,
    /// Standard deviation of the dose ratio over itself, 0 if it counts as exact, at most 0.3·ln(dose ratio).
    pub dose_ratio_deviation: f64,
    /// Its width.
    pub width: WidthReading,
}

impl GoodMark {
    fn model(&self) -> learn::GoodMark {
        learn::GoodMark {
            kind: self.kind,
            dose_ratio: self.dose_ratio,
            dose_ratio_deviation: self.dose_ratio_deviation,
            width: self.width.width.value,
            width_deviation: self.width.deviation.value,
        }
    }
}

/// What width and depth of a mark say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarkDiagnosis {
    /// What has changed.
    pub cause: MarkCause,
    /// The one further test that settles what stays open.
    pub further_test: FurtherTest,
    /// What stays open.
    pub ambiguities: Ambiguities,
    /// Growth of the spot; below 1 where errors of measurement or the good mark make it so.
    pub growth: f64,
    /// Standard deviation of the growth over itself.
    pub growth_deviation: f64,
    /// Distance of the surface from the waist, on either side; 0 for a growth up to 1.
    pub offset: Length,
    /// Least distance, of the coverage asked for; 0 where the waist is not ruled out.
    pub least_offset: Length,
    /// Greatest distance, of the coverage asked for.
    pub greatest_offset: Length,
    /// Dose that the settings give now over what they gave, with its range.
    pub power: PossiblePower,
    /// Standard deviation of that ratio over itself.
    pub power_ratio_deviation: f64,
    /// Correlation of the logarithms of growth and power ratio.
    pub correlation: f64,
    /// Dose ratio of the mark where it lies.
    pub dose_ratio: f64,
    /// Half angle of the cone.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// A height that explains a width: how far from the waist, on either side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PossibleHeight {
    /// Growth of the spot there.
    pub growth: f64,
    /// Distance from the waist.
    pub offset: Length,
    /// Least distance, of the coverage asked for.
    pub least_offset: Length,
    /// Greatest distance, of the coverage asked for.
    pub greatest_offset: Length,
}

impl PossibleHeight {
    fn of(found: learn::PossibleHeight) -> Self {
        Self {
            growth: found.growth,
            offset: length(found.offset),
            least_offset: length(found.least_offset),
            greatest_offset: length(found.greatest_offset),
        }
    }
}

/// What the width of a mark says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WidthDiagnosis {
    /// What has changed.
    pub cause: MarkCause,
    /// The one further test that settles what stays open.
    pub further_test: FurtherTest,
    /// What stays open.
    pub ambiguities: Ambiguities,
    /// The height between the waist and where the mark is widest, if the dose is as it was.
    pub near: Option<PossibleHeight>,
    /// The height beyond where the mark is widest, if the dose is as it was.
    pub far: Option<PossibleHeight>,
    /// The dose, if focus is as it was; none where even a dose ratio of 1e6 would not do.
    pub power: Option<PossiblePower>,
    /// Half angle of the cone.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// What a solid patch and a thin line say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PatchSettlement {
    /// What has changed.
    pub cause: MarkCause,
    /// The one further test that settles what stays open.
    pub further_test: FurtherTest,
    /// What stays open.
    pub ambiguities: Ambiguities,
    /// The dose now over what it was.
    pub power: PossiblePower,
    /// The height between the waist and where the line is widest.
    pub near: Option<PossibleHeight>,
    /// The height beyond where the line is widest.
    pub far: Option<PossibleHeight>,
    /// Half angle of the cone.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// Two marks, alike but for the power.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PowerStep {
    /// Pulse or line.
    pub kind: MarkKind,
    /// Dose ratio that the first is meant to have in focus, 1.000001 to 1e6.
    pub dose_ratio: f64,
    /// Standard deviation of the dose ratio over itself, 0 if it counts as exact, at most 0.3·ln(dose ratio).
    pub dose_ratio_deviation: f64,
    /// Power of the second over that of the first, 1.01 to 100; 2 as a rule.
    pub power_step: f64,
    /// Width of the first.
    pub first: WidthReading,
    /// Width of the second.
    pub stepped: WidthReading,
}

/// What two marks of different power say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PowerSettlement {
    /// What is other than it should be.
    pub cause: MarkCause,
    /// The one further test that settles what stays open.
    pub further_test: FurtherTest,
    /// What stays open.
    pub ambiguities: Ambiguities,
    /// Spot **diameter** on the surface, 1/e².
    pub spot_diameter: Length,
    /// Its standard deviation.
    pub spot_diameter_deviation: Length,
    /// Growth of the spot; below 1 where errors of measurement or the beam make it so.
    pub growth: f64,
    /// Distance of the surface from the waist, on either side; 0 for a growth up to 1.
    pub offset: Length,
    /// Least distance, of the coverage asked for; 0 where the waist is not ruled out.
    pub least_offset: Length,
    /// Greatest distance, of the coverage asked for.
    pub greatest_offset: Length,
    /// Dose ratio of the first mark where it lies.
    pub dose_ratio: f64,
    /// The dose over what the dose ratio in focus means.
    pub power: PossiblePower,
    /// Half angle of the cone.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// Readings of the same mark at three heights: depth, or darkness, in any one unit, 1e-12 to 1e12.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeightReadings {
    /// Pulse or line.
    pub kind: MarkKind,
    /// How the reading goes with dose.
    pub law: DepthLaw,
    /// How much nearer the lens, and how much farther; 1e-9 to 1e3 m.
    pub height_step: Length,
    /// Reading a step nearer the lens.
    pub toward_lens: f64,
    /// Reading at the middle height.
    pub middle: f64,
    /// Reading a step farther from the lens.
    pub away_from_lens: f64,
    /// Standard deviation of each reading.
    pub deviation: f64,
}

/// Where three heights put the surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeightSettlement {
    /// What they say.
    pub verdict: HeightVerdict,
    /// The surface, at the middle height, relative to the waist; none unless focus lies within.
    pub surface: Option<Offset>,
    /// Its standard deviation, where there is one.
    pub deviation: Option<Length>,
    /// The end of its range toward the lens: half a step off the waist where focus lies toward the lens.
    pub toward_lens: Option<Offset>,
    /// The end of its range away from the lens: half a step before the waist where focus lies away from it.
    pub away_from_lens: Option<Offset>,
    /// Half angle of the cone.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// Focus or power.
impl Beam {
    /// Focus or power, from width and depth of a mark against those of a good one. As
    /// [`model::learn::diagnose_mark`](crate::model::learn::diagnose_mark); depths are in any one unit.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for a number of the marks or the coverage; [`Error::OutsideModel`] where
    /// dose ratio or growth leave the model.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::um;
    /// use spotwise::{
    ///     Beam, BeamParts, BeamWidth, DepthLaw, DepthReading, GoodMark, MarkCause, MarkKind, WidthReading,
    /// };
    /// let waist = BeamWidth::from_diameter_1e2(um(88.0))?;
    /// let beam = Beam::new(BeamParts { wavelength: um(10.6), m_squared: 1.2, waist })?;
    /// let width = WidthReading { width: um(73.0), deviation: um(1.0) };
    /// let good = GoodMark { kind: MarkKind::Line, dose_ratio: 4.0, dose_ratio_deviation: 0.0, width };
    /// let depths = DepthReading {
    ///     law: DepthLaw::Logarithmic,
    ///     good_depth: 40.0, good_depth_deviation: 1.0, depth: 20.0, depth_deviation: 1.0,
    /// };
    /// let now = WidthReading { width: um(87.6), deviation: um(1.0) };
    /// let found = beam.diagnose_mark(&good, &depths, now, 0.95)?;
    /// assert_eq!(found.cause, MarkCause::FocusAndPower);
    /// // 0.478154 mm·√(1.2²/½ − 1)
    /// assert_eq!((found.offset.value * 1e7).round(), 6556.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn diagnose_mark(
        &self,
        good: &GoodMark,
        depths: &DepthReading,
        now: WidthReading,
        coverage_probability: f64,
    ) -> Result<MarkDiagnosis, Error> {
        let (width, deviation) = (now.width.value, now.deviation.value);
        let good = good.model();
        let found =
            learn::diagnose_mark(self.as_model(), &good, depths, width, deviation, coverage_probability)?;
        Ok(MarkDiagnosis {
            cause: found.cause,
            further_test: found.further_test,
            ambiguities: found.ambiguities,
            growth: found.growth,
            growth_deviation: found.growth_deviation,
            offset: length(found.offset),
            least_offset: length(found.least_offset),
            greatest_offset: length(found.greatest_offset),
            power: PossiblePower {
                ratio: found.power_ratio,
                least: found.least_power_ratio,
                greatest: found.greatest_power_ratio,
            },
            power_ratio_deviation: found.power_ratio_deviation,
            correlation: found.correlation,
            dose_ratio: found.dose_ratio,
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }

    /// Focus or power, from the width of a mark alone. As
    /// [`model::learn::diagnose_width`](crate::model::learn::diagnose_width).
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for a number of the marks or the coverage.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::um;
    /// use spotwise::{Beam, BeamParts, BeamWidth, GoodMark, MarkCause, MarkKind, WidthReading};
    /// let waist = BeamWidth::from_diameter_1e2(um(88.0))?;
    /// let beam = Beam::new(BeamParts { wavelength: um(10.6), m_squared: 1.2, waist })?;
    /// let width = WidthReading { width: um(70.0), deviation: um(1.0) };
    /// let good = GoodMark { kind: MarkKind::Line, dose_ratio: 4.0, dose_ratio_deviation: 0.0, width };
    /// // No height makes it wider than 4/√e/√(2·ln 4) = 1.457 times: the dose must have changed.
    /// let now = WidthReading { width: um(112.0), deviation: um(1.0) };
    /// assert_eq!(beam.diagnose_width(&good, now, 0.95)?.cause, MarkCause::PowerPerhapsFocus);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn diagnose_width(
        &self,
        good: &GoodMark,
        now: WidthReading,
        coverage_probability: f64,
    ) -> Result<WidthDiagnosis, Error> {
        let (width, deviation) = (now.width.value, now.deviation.value);
        let good = good.model();
        let found = learn::diagnose_width(self.as_model(), &good, width, deviation, coverage_probability)?;
        Ok(WidthDiagnosis {
            cause: found.cause,
            further_test: found.further_test,
            ambiguities: found.ambiguities,
            near: found.near.map(PossibleHeight::of),
            far: found.far.map(PossibleHeight::of),
            power: found.power,
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }

    /// Focus or power, from a solid patch and a thin line of one job against good ones. As
    /// [`model::learn::settle_by_patch`](crate::model::learn::settle_by_patch): `patch` has the depths inside the
    /// patches, `now` is the line.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for a number of the marks or the coverage; [`Error::OutsideModel`] where
    /// patch and line contradict each other.
    pub fn settle_by_patch(
        &self,
        good: &GoodMark,
        patch: &DepthReading,
        patch_dose_ratio: f64,
        now: WidthReading,
        coverage_probability: f64,
    ) -> Result<PatchSettlement, Error> {
        let found = learn::settle_by_patch(
            self.as_model(),
            &good.model(),
            patch,
            patch_dose_ratio,
            now.width.value,
            now.deviation.value,
            coverage_probability,
        )?;
        Ok(PatchSettlement {
            cause: found.cause,
            further_test: found.further_test,
            ambiguities: found.ambiguities,
            power: found.power,
            near: found.near.map(PossibleHeight::of),
            far: found.far.map(PossibleHeight::of),
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }

    /// Focus or power, from the same line once more at another power. As
    /// [`model::learn::settle_by_power`](crate::model::learn::settle_by_power).
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for a number of the marks or the coverage; [`Error::Undetermined`] where
    /// the mark does not clearly widen; [`Error::OutsideModel`] where spot or dose ratio leave the model.
    pub fn settle_by_power(
        &self,
        step: &PowerStep,
        coverage_probability: f64,
    ) -> Result<PowerSettlement, Error> {
        let step = learn::PowerStep {
            kind: step.kind,
            dose_ratio: step.dose_ratio,
            dose_ratio_deviation: step.dose_ratio_deviation,
            power_step: step.power_step,
            width: step.first.width.value,
            width_deviation: step.first.deviation.value,
            stepped_width: step.stepped.width.value,
            stepped_width_deviation: step.stepped.deviation.value,
        };
        let found = learn::settle_by_power(self.as_model(), &step, coverage_probability)?;
        Ok(PowerSettlement {
            cause: found.cause,
            further_test: found.further_test,
            ambiguities: found.ambiguities,
            spot_diameter: length(found.spot_diameter),
            spot_diameter_deviation: length(found.spot_diameter_deviation),
            growth: found.growth,
            offset: length(found.offset),
            least_offset: length(found.least_offset),
            greatest_offset: length(found.greatest_offset),
            dose_ratio: found.dose_ratio,
            power: found.power,
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }

    /// Where focus lies, from the same mark at the height in question, a step nearer and a step farther. As
    /// [`model::learn::settle_by_heights`](crate::model::learn::settle_by_heights).
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for a number of the readings or the coverage.
    pub fn settle_by_heights(
        &self,
        readings: &HeightReadings,
        coverage_probability: f64,
    ) -> Result<HeightSettlement, Error> {
        let readings = learn::HeightReadings {
            kind: readings.kind,
            law: readings.law,
            height_step: readings.height_step.value,
            toward_lens: readings.toward_lens,
            middle: readings.middle,
            away_from_lens: readings.away_from_lens,
            deviation: readings.deviation,
        };
        let found = learn::settle_by_heights(self.as_model(), &readings, coverage_probability)?;
        Ok(HeightSettlement {
            verdict: found.verdict,
            surface: found.z_offset.map(Offset::from_metres),
            deviation: found.z_offset_deviation.map(length),
            toward_lens: found.least_z_offset.map(Offset::from_metres),
            away_from_lens: found.greatest_z_offset.map(Offset::from_metres),
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }
}
