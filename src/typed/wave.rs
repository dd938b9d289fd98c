//! The focus by the diffraction integral: no closed form, no fit.

use super::beam::Cone;
use super::depth::{Criterion, FocusRange};
use super::offset::Offset;
use super::width::{Aperture, BeamWidth};
use super::{angle, known, length};
use crate::error::Error;
use crate::model::focus;
use crate::model::optics::wave::checked_wave;
use crate::model::optics::{self, FocusMeasure};
use crate::validity::Validity;
use uom::si::f64::{Angle, Length};

/// What a [`Wave`] is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaveParts {
    /// Vacuum wavelength, 10 nm to 10 mm.
    pub wavelength: Length,
    /// Beam propagation ratio M² before aperture and aberration, 1 to 5.
    pub m_squared: f64,
    /// Width at the lens, before the aperture.
    pub width_at_lens: BeamWidth,
    /// The clear, round, centred aperture of the lens; none if there is none.
    pub clear_aperture: Option<Aperture>,
    /// From the lens to where the unaberrated wave would converge: the radius of its wavefront.
    pub lens_to_focus: Length,
    /// Quartic wavefront aberration at the 1/e² radius, −6 to 6 rad, + where the edge focuses nearer the
    /// lens.
    pub aberration_phase: Angle,
}

/// A converging wave as a lens hands it on; from parts, or from
/// [`SingletFocus::wave`](super::SingletFocus::wave).
///
/// Places along the axis count from where the unaberrated wave would converge.
///
/// # Example
/// ```
/// use spotwise::units::{mm, rad, um};
/// use spotwise::{BeamWidth, FocusMeasure, Offset, Side, Wave, WaveParts};
/// let wave = Wave::new(WaveParts {
///     wavelength: um(10.6),
///     m_squared: 1.0,
///     width_at_lens: BeamWidth::from_diameter_1e2(mm(8.0))?,
///     clear_aperture: None,
///     lens_to_focus: mm(50.8),
///     aberration_phase: rad(0.0),
/// })?;
/// // Without aperture and aberration it is the Gaussian spot 4·λ·f/(π·D) = 85.702 µm.
/// let widths = wave.widths_at(Offset::ZERO)?;
/// assert_eq!((widths.diameter_1e2.value * 1e9).round(), 85_702.0);
/// assert_eq!((widths.diameter_power86.value * 1e9).round(), 85_702.0);
/// // An aberrated wave is brightest nearer the lens.
/// let aberrated = Wave::new(WaveParts { aberration_phase: rad(0.5), ..wave.parts() })?;
/// let brightest = aberrated.focus(FocusMeasure::PeakIrradiance)?;
/// assert_eq!(brightest.at.side(), Side::TowardLens);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wave {
    wave: optics::Wave,
    cone: Cone,
}

/// Irradiance of a [`Wave`] at one point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaveIrradiance {
    /// Irradiance over that at the focus of the same beam without aperture and aberration.
    pub irradiance_ratio: f64,
    /// Irradiance for each watt before the aperture, in **1/m²**.
    pub irradiance_per_watt_per_m2: f64,
    /// Bound on the numerical error of `irradiance_ratio`.
    pub error: f64,
    /// Half angle of the cone behind the aperture.
    pub half_angle: Angle,
    /// How far the numbers may be trusted: only the cone is in question.
    pub validity: Validity,
}

/// Power of a [`Wave`] inside a circle about the axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WavePower {
    /// Share of the power before the aperture.
    pub share: f64,
    /// Share of the power that passes the aperture.
    pub share_of_transmitted: f64,
    /// Bound on the numerical error of `share`.
    pub error: f64,
    /// Half angle of the cone behind the aperture.
    pub half_angle: Angle,
    /// How far the numbers may be trusted: only the cone is in question.
    pub validity: Validity,
}

/// Widths of a [`Wave`] in one plane. They are no [`BeamWidth`]: the profile is not Gaussian, so none of them
/// tells another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaveWidths {
    /// Irradiance on the axis over that at the focus of the same beam without aperture and aberration.
    pub irradiance_ratio: f64,
    /// **Diameter** of the outermost circle at 1/e² of the greatest irradiance in this plane.
    pub diameter_1e2: Length,
    /// **Diameter** of the outermost circle at half the greatest irradiance in this plane.
    pub fwhm: Length,
    /// **Diameter** that holds 86.4665 % of the transmitted power.
    pub diameter_power86: Length,
    /// Share of the power that passes the aperture.
    pub transmitted: f64,
    /// Bound on the relative numerical error of the diameters.
    pub relative_error: f64,
    /// Half angle of the cone behind the aperture.
    pub half_angle: Angle,
    /// How far the numbers may be trusted: only the cone is in question.
    pub validity: Validity,
}

/// The best focus of a [`Wave`] by one measure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaveFocus {
    /// The plane, from where the unaberrated wave would converge.
    pub at: Offset,
    /// Irradiance on the axis there over that at the focus of the same beam without aperture and
    /// aberration.
    pub irradiance_ratio: f64,
    /// **Diameter** that holds 86.4665 % of the transmitted power there.
    pub diameter_power86: Length,
    /// Second-moment **diameter** there; none for a clipped beam, which has no such width.
    pub diameter_d4sigma: Option<Length>,
    /// Bound on the relative numerical error of the least diameter or greatest irradiance.
    pub relative_error: f64,
    /// Half angle of the cone behind the aperture.
    pub half_angle: Angle,
    /// How far the numbers may be trusted: only the cone is in question.
    pub validity: Validity,
}

/// What is known of a whole map of a [`Wave`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaveMap {
    /// Bound on the numerical error of every irradiance ratio.
    pub error: f64,
    /// Half angle of the cone behind the aperture.
    pub half_angle: Angle,
    /// How far the numbers may be trusted: only the cone is in question.
    pub validity: Validity,
}

/// Depth of focus of a [`Wave`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaveDepth {
    /// The best focus, from where the unaberrated wave would converge.
    pub best_focus: Offset,
    /// The range, from the best focus. Its ends differ where the lens aberrates.
    pub range: FocusRange,
    /// Bound on the numerical error of the ends.
    pub error: Length,
}

/// The points of [`Wave::map`]: every radius at every place.
#[derive(Debug, Clone, Copy)]
pub struct MapGrid<'a> {
    /// Distances from the axis in metres.
    pub radii_m: &'a [f64],
    /// Places along the axis in metres from where the unaberrated wave would converge, + away from the lens.
    pub z_away_from_lens_m: &'a [f64],
}

/// Where [`Wave::map`] works and writes.
#[derive(Debug)]
pub struct MapBuffers<'a> {
    /// Working space of [`Wave::map_workspace`] numbers or more.
    pub workspace: &'a mut [f64],
    /// The map: one row of radii for each place.
    pub irradiance_ratios: &'a mut [f64],
}

impl Wave {
    /// A wave from its parts.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for a part outside its range;
    /// [`Error::OutsideModel`] if the aperture is below 0.2 of the width at the lens, or the half angle of the
    /// cone above 0.3 rad.
    pub fn new(parts: WaveParts) -> Result<Self, Error> {
        let wave = optics::Wave {
            wavelength: parts.wavelength.value,
            m2: parts.m_squared,
            diameter_at_lens: parts.width_at_lens.metres_1e2(),
            clear_aperture: Aperture::metres_or_none(parts.clear_aperture),
            lens_to_focus: parts.lens_to_focus.value,
            aberration_phase: parts.aberration_phase.value,
        };
        Ok(Self { wave, cone: Cone::from_model(checked_wave(&wave)?.cone) })
    }

    /// Half angle of the cone behind the aperture.
    #[must_use]
    pub const fn half_angle(&self) -> Angle {
        self.cone.half_angle
    }

    /// How far the numbers may be trusted: only the cone is in question.
    pub const fn validity(&self) -> Validity {
        self.cone.validity
    }

    /// What the wave is made of.
    #[must_use]
    pub fn parts(&self) -> WaveParts {
        let aperture = self.wave.clear_aperture;
        WaveParts {
            wavelength: length(self.wave.wavelength),
            m_squared: self.wave.m2,
            width_at_lens: BeamWidth::computed(self.wave.diameter_at_lens),
            clear_aperture: aperture.is_finite().then(|| Aperture::from_diameter(length(aperture))),
            lens_to_focus: length(self.wave.lens_to_focus),
            aberration_phase: angle(self.wave.aberration_phase),
        }
    }

    /// Irradiance at this distance from the axis in this plane. As
    /// [`model::optics::wave_irradiance`](crate::model::optics::wave_irradiance).
    ///
    /// # Errors
    /// As there.
    pub fn irradiance_at(&self, from_axis: Length, plane: Offset) -> Result<WaveIrradiance, Error> {
        let found = optics::wave_irradiance(&self.wave, from_axis.value, plane.metres())?;
        Ok(WaveIrradiance {
            irradiance_ratio: found.irradiance_ratio,
            irradiance_per_watt_per_m2: found.irradiance_per_watt,
            error: found.error,
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }

    /// Power inside a circle about the axis in this plane. As
    /// [`model::optics::wave_power`](crate::model::optics::wave_power).
    ///
    /// # Errors
    /// As there.
    #[doc(alias = "encircled power")]
    pub fn power_within(&self, circle: Aperture, plane: Offset) -> Result<WavePower, Error> {
        let found = optics::wave_power(&self.wave, circle.radius().value, plane.metres())?;
        Ok(WavePower {
            share: found.share,
            share_of_transmitted: found.share_of_transmitted,
            error: found.error,
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }

    /// Widths in this plane, by each definition. As
    /// [`model::optics::wave_widths`](crate::model::optics::wave_widths).
    ///
    /// # Errors
    /// As there.
    pub fn widths_at(&self, plane: Offset) -> Result<WaveWidths, Error> {
        let found = optics::wave_widths(&self.wave, plane.metres())?;
        Ok(WaveWidths {
            irradiance_ratio: found.irradiance_ratio,
            diameter_1e2: length(found.diameter_1e2),
            fwhm: length(found.fwhm),
            diameter_power86: length(found.diameter_power86),
            transmitted: found.transmitted,
            relative_error: found.error,
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }

    /// The best focus by this measure. As
    /// [`model::optics::wave_focus`](crate::model::optics::wave_focus).
    ///
    /// # Errors
    /// As there; by second moments the wave must not be clipped.
    pub fn focus(&self, measure: FocusMeasure) -> Result<WaveFocus, Error> {
        let found = optics::wave_focus(&self.wave, measure)?;
        Ok(WaveFocus {
            at: Offset::from_metres(found.z),
            irradiance_ratio: found.irradiance_ratio,
            diameter_power86: length(found.diameter_power86),
            diameter_d4sigma: known(found.diameter_d4sigma).map(length),
            relative_error: found.error,
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }

    /// Depth of focus about the best focus: by the 86.5 %-power diameter for a growth or a largest spot, by
    /// the irradiance on the axis for a drop of it. As
    /// [`model::focus::wave_depth_of_focus`](crate::model::focus::wave_depth_of_focus).
    ///
    /// # Errors
    /// As there; [`Error::UnknownChoice`] for [`Criterion::LineDoseDrop`], which is not known for waves.
    pub fn depth_of_focus(&self, criterion: Criterion) -> Result<WaveDepth, Error> {
        let found = focus::wave_depth_of_focus(&self.wave, criterion.into_model())?;
        Ok(WaveDepth {
            best_focus: Offset::from_metres(found.best_z),
            range: FocusRange::from_model(found.range),
            error: length(found.error),
        })
    }

    /// Numbers of working space that [`Self::map`] needs for this grid.
    ///
    /// # Errors
    /// As [`Self::map`], for the grid.
    pub fn map_workspace(&self, grid: MapGrid<'_>) -> Result<usize, Error> {
        optics::wave_map_workspace(&self.wave, grid.radii_m, grid.z_away_from_lens_m)
    }

    /// Irradiance ratios over a grid of radii and places, for pictures. As
    /// [`model::optics::wave_map`](crate::model::optics::wave_map).
    ///
    /// # Errors
    /// As there; on any error every element of `irradiance_ratios` is NaN.
    pub fn map(&self, grid: MapGrid<'_>, buffers: MapBuffers<'_>) -> Result<WaveMap, Error> {
        let found = optics::wave_map(
            &self.wave,
            grid.radii_m,
            grid.z_away_from_lens_m,
            buffers.workspace,
            buffers.irradiance_ratios,
        )?;
        Ok(WaveMap { error: found.error, half_angle: angle(found.half_angle), validity: found.validity })
    }
}
