//! A perfect beam clipped by an aperture at an ideal lens.

use super::depth::FocusRange;
use super::lens::Lens;
use super::offset::Offset;
use super::width::{Aperture, BeamWidth};
use super::{angle, known, length};
use crate::error::Error;
use crate::model::{focus, optics};
use crate::validity::Validity;
use uom::si::f64::{Angle, Length};

/// A collimated Gaussian beam with M² = 1 at a clear aperture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClippedBeam {
    /// Vacuum wavelength, 10 nm to 10 mm.
    pub wavelength: Length,
    /// Width at the lens, before the aperture.
    pub width_at_lens: BeamWidth,
    /// The clear, round, centred aperture of the lens or of a mirror; at least 0.2 of the width.
    pub clear_aperture: Aperture,
}

/// The focus of a [`ClippedBeam`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClippedFocus {
    /// Clear aperture over beam width.
    pub clipping_ratio: f64,
    /// Share of the power that passes.
    pub transmitted: f64,
    /// **Diameter** at 1/e² of the irradiance.
    pub diameter_1e2: Length,
    /// Full width at half maximum.
    pub fwhm: Length,
    /// **Diameter** that holds 86.4665 % of the **transmitted** power; none below a clipping ratio of 0.8.
    pub diameter_power86: Option<Length>,
    /// Irradiance on the axis in focus over that of the same beam unclipped.
    pub peak_irradiance_ratio: f64,
    /// Rayleigh range, with the aperture for the beam where that is narrower, over the focal length.
    pub relative_rayleigh_range: f64,
    /// Half angle of the cone behind the aperture.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// Depth of focus of a [`ClippedBeam`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClippedDepth {
    /// The range, counted from the focal point. Its ends differ.
    pub range: FocusRange,
    /// The brightest place on the axis, counted from the focal point.
    pub brightest: Offset,
    /// Clear aperture over beam width.
    pub clipping_ratio: f64,
    /// Rayleigh range, with the aperture for the beam where that is narrower, over the focal length.
    pub relative_rayleigh_range: f64,
    /// Half of the full range over the focal length.
    pub relative_half_depth: f64,
}

impl Lens {
    /// The focus of a clipped beam. As
    /// [`model::optics::focus_clipped`](crate::model::optics::focus_clipped).
    ///
    /// # Errors
    /// As there; the lens must converge.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, um};
    /// use spotwise::{Aperture, BeamWidth, ClippedBeam, Lens};
    /// let focus = Lens::new(mm(100.0)).focus_clipped(ClippedBeam {
    ///     wavelength: um(1.064),
    ///     width_at_lens: BeamWidth::from_diameter_1e2(mm(10.0))?,
    ///     clear_aperture: Aperture::from_diameter(mm(10.0)),
    /// })?;
    /// // By hand: 1 − e⁻² of the power passes, and the peak is (1 − e⁻¹)² of the unclipped one.
    /// assert_eq!((focus.transmitted * 1e4).round(), 8_647.0);
    /// assert_eq!((focus.peak_irradiance_ratio * 1e4).round(), 3_996.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[doc(alias = "truncation")]
    pub fn focus_clipped(&self, beam: ClippedBeam) -> Result<ClippedFocus, Error> {
        let found = optics::focus_clipped(
            beam.wavelength.value,
            beam.width_at_lens.metres_1e2(),
            beam.clear_aperture.diameter().value,
            self.focal_length.value,
        )?;
        Ok(ClippedFocus {
            clipping_ratio: found.clipping_ratio,
            transmitted: found.transmitted,
            diameter_1e2: length(found.diameter_1e2),
            fwhm: length(found.fwhm),
            diameter_power86: known(found.diameter_power86).map(length),
            peak_irradiance_ratio: found.peak_irradiance_ratio,
            relative_rayleigh_range: found.relative_rayleigh_range,
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }

    /// Depth of focus of a clipped beam: where the irradiance on the axis is below its greatest by at most this
    /// share, 0.2 for a fifth. As
    /// [`model::focus::clipped_depth_of_focus`](crate::model::focus::clipped_depth_of_focus).
    ///
    /// # Errors
    /// As there; the lens must converge.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, um};
    /// use spotwise::{Aperture, BeamWidth, ClippedBeam, Lens};
    /// let beam = ClippedBeam {
    ///     wavelength: um(1.064),
    ///     width_at_lens: BeamWidth::from_diameter_1e2(mm(10.0))?,
    ///     clear_aperture: Aperture::from_diameter(mm(100.0)),
    /// };
    /// let depth = Lens::new(mm(100.0)).clipped_depth_of_focus(beam, 0.5)?;
    /// // The aperture is too wide to matter: one Rayleigh range 4·λ·f²/(π·D²) = 135.473 µm each way from a
    /// // waist that lies 135.473²/100 000 = 0.184 µm nearer the lens than the focal point.
    /// assert_eq!((depth.range.full().value * 1e7).round(), 2_709.0);
    /// assert_eq!((depth.brightest.distance().value * 1e9).round(), 184.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn clipped_depth_of_focus(
        &self,
        beam: ClippedBeam,
        irradiance_drop: f64,
    ) -> Result<ClippedDepth, Error> {
        let found = focus::clipped_depth_of_focus(
            beam.wavelength.value,
            beam.width_at_lens.metres_1e2(),
            beam.clear_aperture.diameter().value,
            self.focal_length.value,
            irradiance_drop,
        )?;
        Ok(ClippedDepth {
            range: FocusRange::from_model(found.range),
            brightest: Offset::from_metres(found.brightest_z),
            clipping_ratio: found.clipping_ratio,
            relative_rayleigh_range: found.relative_rayleigh_range,
            relative_half_depth: found.relative_half_depth,
        })
    }
}
