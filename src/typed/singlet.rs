//! The single-piece lens and the spot it really makes.

use super::beam::Beam;
use super::depth::{Criterion, FocusRange};
use super::glass::Material;
use super::job::Laser;
use super::lens::{Focus, WaistPosition};
use super::offset::Offset;
use super::wave::{Wave, WaveParts};
use super::width::{Aperture, BeamWidth};
use super::{angle, known, length};
use crate::error::{Error, Param, check_within};
use crate::model::focus;
use crate::model::optics::{self, LensShape, SpotMeasure};
use crate::validity::Validity;
use uom::si::f64::{Angle, Length};

/// A single-piece thin lens with spherical surfaces.
///
/// # Example
/// ```
/// use spotwise::units::{inch, mm, um};
/// use spotwise::{
///     Aperture, Beam, BeamParts, BeamWidth, Criterion, LensShape, Material, Singlet, SpotMeasure, Validity,
///     WaistPosition,
/// };
/// let raw = Beam::new(BeamParts {
///     wavelength: um(10.6),
///     m_squared: 1.2,
///     waist: BeamWidth::from_diameter_1e2(mm(9.0))?,
/// })?;
/// let lens = Singlet {
///     focal_length: inch(1.5),
///     material: Material::Index(2.4028), // zinc selenide at this wavelength
///     shape: LensShape::CurvedSideFirst,
///     clear_aperture: Some(Aperture::from_diameter(mm(18.0))),
/// };
/// let focus = lens.focus(&raw, WaistPosition::AtLens)?;
/// // From the formulas of the model, evaluated by mpmath: an ideal lens would make 68.56 µm.
/// assert_eq!((focus.ideal.spot.diameter_1e2().value * 1e8).round(), 6_856.0);
/// assert_eq!((focus.second_moment.diameter.value * 1e8).round(), 7_918.0);
/// let power86 = focus.power86.expect("the aberration is moderate");
/// assert_eq!((power86.diameter.value * 1e8).round(), 7_450.0);
/// assert!(focus.validity.contains(Validity::ABERRATED));
/// // What follows from the spot keeps the flags of the lens. By hand, with a Rayleigh range of
/// // 0.3137 mm: 2 × 0.3137 mm·√(1.05² − 1) = 0.2008 mm.
/// let criterion = Criterion::GrowthRatio(1.05);
/// let depth = lens.depth_of_focus(&raw, WaistPosition::AtLens, SpotMeasure::Power86, criterion)?;
/// assert_eq!((depth.range.full().value * 1e7).round(), 2008.0);
/// assert!(depth.range.validity().contains(Validity::ABERRATED));
/// assert_eq!(depth.numbers.normalised_aberration, focus.normalised_aberration);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Singlet {
    /// Focal length at the working wavelength, + converging.
    pub focal_length: Length,
    /// What the lens is made of.
    pub material: Material,
    /// Shape, and which side is toward the laser.
    pub shape: LensShape,
    /// The clear, round, centred aperture of the lens or its mount, 1 nm to 100 m; none if it is unknown
    /// or does not matter.
    pub clear_aperture: Option<Aperture>,
}

/// One surface of a lens, as it looks from outside the glass: no sign to be remembered.
///
/// ```compile_fail,E0308
/// use spotwise::{SurfaceRadius, units::mm};
/// let first: SurfaceRadius = mm(33.7); // bulging or hollow?
/// ```
///
/// ```
/// use spotwise::{SurfaceRadius, units::mm};
/// let first = SurfaceRadius::Convex(mm(33.7));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SurfaceRadius {
    /// A plane.
    Flat,
    /// Bulging out of the glass with this radius, 1e-5 to 1e6 m.
    Convex(Length),
    /// Hollowed into the glass with this radius, 1e-5 to 1e6 m.
    Concave(Length),
}

impl SurfaceRadius {
    /// The radius as the model counts it, + where its centre lies on the far side of the surface. The
    /// glass lies behind the first surface and before the second, so that `convex_sign` is 1 for the first
    /// and −1 for the second.
    fn signed(self, param: Param, convex_sign: f64) -> Result<f64, Error> {
        let (least, greatest) = param.range();
        let checked = |radius: Length| check_within(param, radius.value, least, greatest);
        match self {
            Self::Flat => Ok(f64::INFINITY),
            Self::Convex(radius) => checked(radius).map(|radius| radius.copysign(convex_sign)),
            Self::Concave(radius) => checked(radius).map(|radius| radius.copysign(-convex_sign)),
        }
    }
}

/// A lens as its drawing gives it, for [`LensForm::from_radii`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RadiiParts {
    /// Refractive index at the working wavelength, 1.01 to 6.
    pub index: f64,
    /// The surface that the light meets first.
    pub first: SurfaceRadius,
    /// The surface that it meets second.
    pub second: SurfaceRadius,
}

/// A thin lens as its two radii make it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LensForm {
    /// Focal length, + converging.
    pub focal_length: Length,
    /// Shape factor (R₂ + R₁)/(R₂ − R₁): 0 is equiconvex, +1 has its curved side toward the laser.
    pub shape_factor: f64,
}

impl LensForm {
    /// Focal length and shape of a lens. As
    /// [`model::optics::lens_from_radii`](crate::model::optics::lens_from_radii).
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for a part, a negative radius among them;
    /// [`Error::OutsideModel`] for surfaces that make no lens.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::mm;
    /// use spotwise::{LensForm, RadiiParts, SurfaceRadius};
    /// // A zinc selenide meniscus; by hand: 1/f = 1.4028·(1/33.7 − 1/91.3).
    /// let lens = LensForm::from_radii(RadiiParts {
    ///     index: 2.4028,
    ///     first: SurfaceRadius::Convex(mm(33.7)),
    ///     second: SurfaceRadius::Concave(mm(91.3)),
    /// })?;
    /// assert_eq!((lens.focal_length.value * 1e6).round(), 38_079.0); // 38.1 mm
    /// assert_eq!((lens.shape_factor * 1e4).round(), 21_701.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[doc(alias = "lensmaker")]
    pub fn from_radii(parts: RadiiParts) -> Result<Self, Error> {
        let first = parts.first.signed(Param::FirstRadius, 1.0)?;
        let second = parts.second.signed(Param::SecondRadius, -1.0)?;
        let form = optics::lens_from_radii(parts.index, first, second)?;
        Ok(Self { focal_length: length(form.focal_length), shape_factor: form.shape_factor })
    }

    /// The shape, for a [`Singlet`].
    #[must_use]
    pub const fn shape(&self) -> LensShape {
        LensShape::ShapeFactor { factor: self.shape_factor }
    }
}

/// Third-order spherical aberration of a [`Singlet`] for a distant source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LensAberration {
    /// Shape factor of the lens.
    pub shape_factor: f64,
    /// k in blur = k·D³/f², the circle of least confusion of a sharp-edged bundle of diameter D.
    pub blur_coefficient: f64,
    /// C₄ in W = C₄·r⁴, the wavefront error at the distance r from the axis, in **1/m³**.
    pub wavefront_coefficient_per_m3: f64,
}

/// What quartic aberration does to the focus of a Gaussian (Schell-model) beam, relative to the ideal one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AberrationGrowth {
    /// M² of the aberrated beam by second moments.
    pub second_moment_m_squared: f64,
    /// Second-moment (D4σ) waist over the ideal waist.
    pub second_moment_growth: f64,
    /// From the ideal to the second-moment waist in ideal Rayleigh ranges, + away from the lens.
    pub second_moment_shift_away_from_lens: f64,
    /// The 86.5 %-power spot; none where the closed form is refused.
    pub power86: Option<Power86Growth>,
    /// Handbook upper estimate of the same growth: diffraction and blur added.
    pub handbook_growth: f64,
    /// Lower end of the bracket: diffraction and blur added as squares.
    pub quadrature_growth: f64,
    /// Magnitude of the aberration phase over M².
    pub normalised_aberration: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// Growth of the 86.5 %-power spot, from fitted closed forms.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Power86Growth {
    /// Least diameter that holds 86.5 % of the power over the ideal waist.
    pub growth: f64,
    /// From the ideal waist to the plane of that diameter in ideal Rayleigh ranges, + away from the lens.
    pub shift_away_from_lens: f64,
    /// Greatest irradiance on the axis over that of the ideal focus.
    pub peak_irradiance_ratio: f64,
}

/// What a quartic wavefront aberration of this phase at the 1/e² radius does to a focus: + where the edge
/// of the beam focuses nearer the lens (a converging singlet), − for a plate. As
/// [`model::optics::aberration_growth`](crate::model::optics::aberration_growth).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`]: M² from 1 to 1e4, the phase within ±1e4 rad.
///
/// # Example
/// ```
/// use spotwise::{aberration_growth, units::rad};
/// let growth = aberration_growth(1.0, rad(0.5))?;
/// assert_eq!((growth.second_moment_growth * 1e3).round(), 1225.0); // √(1 + 2·0.5²) = 1.2247
/// assert_eq!(growth.handbook_growth, 1.25);
/// // 86.5 % of the power, by hand: 1 + 0.25/(1 + 2.8·0.5) = 1.1042.
/// assert_eq!((growth.power86.unwrap().growth * 1e4).round(), 11_042.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn aberration_growth(m_squared: f64, aberration_phase: Angle) -> Result<AberrationGrowth, Error> {
    let found = optics::aberration_growth(m_squared, aberration_phase.value)?;
    Ok(AberrationGrowth {
        second_moment_m_squared: found.second_moment_m2,
        second_moment_growth: found.second_moment_growth,
        second_moment_shift_away_from_lens: found.second_moment_shift,
        power86: known(found.power86_growth).map(|growth| Power86Growth {
            growth,
            shift_away_from_lens: found.power86_shift,
            peak_irradiance_ratio: found.peak_irradiance_ratio,
        }),
        handbook_growth: found.handbook_growth,
        quadrature_growth: found.quadrature_growth,
        normalised_aberration: found.normalised_aberration,
        validity: found.validity,
    })
}

/// The focus of a real lens by one measure, which the name of the field that holds it tells.
///
/// What it does off focus is told by [`Singlet::defocus`] and [`Singlet::depth_of_focus`], whose results
/// carry the flags of the lens on.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct AberratedWaist {
    /// Waist **diameter** by that measure. It is no [`BeamWidth`]: an aberrated spot is not Gaussian, so
    /// its width by one definition does not tell that by another.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::length::serialize"))]
    pub diameter: Length,
    /// M² that gives this waist this Rayleigh range.
    pub m_squared: f64,
    /// Distance from the waist at which its diameter has grown by √2.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::length::serialize"))]
    pub rayleigh_range: Length,
    /// From the ideal waist to this one.
    pub shift: Offset,
    /// From the lens to this waist.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::length::serialize"))]
    pub lens_to_waist: Length,
}

impl AberratedWaist {
    fn from_model(waist: &optics::AberratedWaist) -> Self {
        Self {
            diameter: length(waist.waist_diameter),
            m_squared: waist.m2,
            rayleigh_range: length(waist.rayleigh_range),
            shift: Offset::from_metres(waist.shift),
            lens_to_waist: length(waist.lens_to_waist),
        }
    }
}

/// A surface off the focus of a [`Singlet`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SingletDefocus {
    /// Spot **diameter** on the surface, by the measure asked for. It is no [`BeamWidth`]: an aberrated spot
    /// is not Gaussian.
    pub diameter: Length,
    /// Spot over waist, at least 1.
    pub growth: f64,
    /// Growth less one, exact however small.
    pub growth_minus_one: f64,
    /// Irradiance on the axis over that at the waist.
    pub irradiance_ratio: f64,
    /// Peak dose of a scanned line over that at the waist.
    pub line_dose_ratio: f64,
    /// Greatest 1/e² half angle before and behind the lens.
    pub half_angle: Angle,
    /// How far the numbers may be trusted, the flags of the lens among them.
    pub validity: Validity,
    /// The numbers behind the flags of the lens.
    pub numbers: LensNumbers,
}

/// Depth of focus of a [`Singlet`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SingletDepth {
    /// The range, counted from the waist of the measure asked for, with the flags of the lens.
    pub range: FocusRange,
    /// The numbers behind those flags.
    pub numbers: LensNumbers,
}

/// The numbers behind the flags of a [`Singlet`], as its [`SingletFocus`] tells them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LensNumbers {
    /// Magnitude of the aberration phase over M²; flags rise above 0.3, 1 and 1.7.
    pub normalised_aberration: f64,
    /// Clear aperture over beam diameter at the lens; none without an aperture.
    pub clipping_ratio: Option<f64>,
    /// Magnitude of the focus shift of the ideal lens over its focal length.
    pub relative_focus_shift: f64,
    /// Rayleigh range of the ideal waist over the magnitude of its distance from the lens.
    pub relative_rayleigh_range: f64,
}

impl LensNumbers {
    fn from_model(numbers: &focus::LensNumbers) -> Self {
        Self {
            normalised_aberration: numbers.normalised_aberration,
            clipping_ratio: numbers.clipping_ratio.is_finite().then_some(numbers.clipping_ratio),
            relative_focus_shift: numbers.relative_focus_shift,
            relative_rayleigh_range: numbers.relative_rayleigh_range,
        }
    }
}

/// What a [`Singlet`] makes of a beam.
///
/// Two measures of one spot stand side by side: the second moment (D4σ), exact yet sensitive to the faint
/// light far from the axis, and the diameter that holds 86.5 % of the power, which marks.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct SingletFocus {
    /// The wave that the lens hands on, for [`Self::wave`].
    #[cfg_attr(feature = "serde", serde(skip))]
    wave: WaveParts,
    /// What an ideal lens of the same focal length would have made of it.
    pub ideal: Focus,
    /// The waist by second moments (D4σ), exact for a quartic wavefront without clipping.
    pub second_moment: AberratedWaist,
    /// The least diameter that holds 86.5 % of the power, by a fitted closed form; none if refused.
    pub power86: Option<AberratedWaist>,
    /// Handbook upper estimate of the spot **diameter**: diffraction and blur added.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::length::serialize"))]
    pub handbook_diameter: Length,
    /// Lower end of the bracket: diffraction and blur added as squares.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::length::serialize"))]
    pub quadrature_diameter: Length,
    /// Greatest irradiance on the axis over that of the ideal focus; none if refused.
    pub peak_irradiance_ratio: Option<f64>,
    /// Shape factor of the lens.
    pub shape_factor: f64,
    /// Quartic wavefront aberration α at the 1/e² radius, + where the edge focuses nearer the lens.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::angle::serialize"))]
    pub aberration_phase: Angle,
    /// Magnitude of α over M²; flags rise above 0.3, 1 and 1.7.
    pub normalised_aberration: f64,
    /// Clear aperture over beam diameter at the lens; none without an aperture.
    pub clipping_ratio: Option<f64>,
    /// Share of the power that passes the aperture.
    pub transmitted: f64,
    /// Magnitude of the focus shift of the ideal lens over its focal length.
    pub relative_focus_shift: f64,
    /// Rayleigh range of the ideal waist over the magnitude of its distance from the lens.
    pub relative_rayleigh_range: f64,
    /// From the lens to where the beam would converge by rays, without diffraction and aberration;
    /// infinite where the lens makes it parallel.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::length::serialize"))]
    pub lens_to_focus: Length,
    /// Greatest 1/e² half angle: of the raw beam, the ideal focus or that by second moments.
    #[cfg_attr(feature = "serde", serde(serialize_with = "super::serde_text::angle::serialize"))]
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    #[cfg_attr(
        feature = "serde",
        serde(rename = "cautions", serialize_with = "super::serde_text::cautions")
    )]
    pub validity: Validity,
}

impl SingletFocus {
    /// `laser` is that of the beam before the lens.
    pub(super) fn from_model(
        focus: &optics::SingletFocus,
        laser: Laser,
        clear_aperture: Option<Aperture>,
    ) -> Self {
        let ideal = Focus::from_model(&focus.ideal);
        Self {
            wave: WaveParts {
                wavelength: laser.wavelength,
                m_squared: laser.m_squared,
                width_at_lens: ideal.width_at_lens,
                clear_aperture,
                lens_to_focus: length(focus.lens_to_focus),
                aberration_phase: angle(focus.aberration_phase),
            },
            ideal,
            second_moment: AberratedWaist::from_model(&focus.second_moment),
            power86: known(focus.power86.waist_diameter).map(|_| AberratedWaist::from_model(&focus.power86)),
            handbook_diameter: length(focus.handbook_diameter),
            quadrature_diameter: length(focus.quadrature_diameter),
            peak_irradiance_ratio: known(focus.peak_irradiance_ratio),
            shape_factor: focus.shape_factor,
            aberration_phase: angle(focus.aberration_phase),
            normalised_aberration: focus.normalised_aberration,
            clipping_ratio: focus.clipping_ratio.is_finite().then_some(focus.clipping_ratio),
            transmitted: focus.transmitted,
            relative_focus_shift: focus.relative_focus_shift,
            relative_rayleigh_range: focus.relative_rayleigh_range,
            lens_to_focus: length(focus.lens_to_focus),
            half_angle: angle(focus.half_angle),
            validity: focus.validity,
        }
    }

    /// The wave behind the lens, aperture and aberration included: what the diffraction integral makes of
    /// it needs no closed form.
    ///
    /// # Errors
    /// As [`Wave::new`]: the integral covers M² up to 5, an aberration phase within ±6 rad, and waves that
    /// converge.
    pub fn wave(&self) -> Result<Wave, Error> {
        Wave::new(self.wave)
    }
}

/// The collimated beam that a lens focuses to its smallest spot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SmallestSpot {
    /// Width of the collimated beam at the lens.
    pub width_at_lens: BeamWidth,
    /// The spot **diameter** that it makes, by the measure asked for.
    pub spot_diameter: Length,
    /// Aberration phase at that width.
    pub aberration_phase: Angle,
    /// Magnitude of that phase over M².
    pub normalised_aberration: f64,
    /// Rayleigh range of the ideal waist over the focal length.
    pub relative_rayleigh_range: f64,
    /// Half angle of the converging cone.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

impl Singlet {
    fn as_model(&self, wavelength: Length) -> Result<optics::Singlet, Error> {
        Ok(optics::Singlet {
            index: self.material.index_at(wavelength)?,
            shape: self.shape,
            focal_length: self.focal_length.value,
        })
    }

    /// Third-order spherical aberration at this vacuum wavelength, for a distant source. As
    /// [`model::optics::lens_aberration`](crate::model::optics::lens_aberration).
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the lens.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, um};
    /// use spotwise::{LensShape, Material, Singlet};
    /// let lens = Singlet {
    ///     focal_length: mm(63.5),
    ///     material: Material::Index(2.402_781),
    ///     shape: LensShape::BestForm,
    ///     clear_aperture: None,
    /// };
    /// // Zinc selenide in its best form: handbooks give k = 0.0187 (from memory).
    /// assert_eq!((lens.aberration(um(10.6))?.blur_coefficient * 1e4).round(), 187.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[doc(alias = "Coddington")]
    pub fn aberration(&self, wavelength: Length) -> Result<LensAberration, Error> {
        let found = optics::lens_aberration(&self.as_model(wavelength)?)?;
        Ok(LensAberration {
            shape_factor: found.shape_factor,
            blur_coefficient: found.blur_coefficient,
            wavefront_coefficient_per_m3: found.wavefront_coefficient,
        })
    }

    /// What the lens makes of a raw beam: spots by each measure, their places, and how far they may be
    /// trusted. As [`model::optics::focus_singlet`](crate::model::optics::focus_singlet).
    ///
    /// # Errors
    /// As there; a distance in `waist` must not be negative.
    pub fn focus(&self, raw: &Beam, waist: WaistPosition) -> Result<SingletFocus, Error> {
        let focus = optics::focus_singlet(
            raw.as_model(),
            waist.metres_to_lens()?,
            &self.as_model(raw.wavelength())?,
            Aperture::metres_or_none(self.clear_aperture),
        )?;
        let laser = Laser { wavelength: raw.wavelength(), m_squared: raw.m_squared() };
        Ok(SingletFocus::from_model(&focus, laser, self.clear_aperture))
    }

    /// Spot, growth, irradiance and line dose on a surface at an offset from the waist of this measure. As
    /// [`model::focus::singlet_defocus`](crate::model::focus::singlet_defocus).
    ///
    /// # Errors
    /// As there, and as [`Self::focus`]; [`Error::UnknownChoice`] for [`SpotMeasure::Handbook`], which gives
    /// a spot but no beam.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, um};
    /// use spotwise::{
    ///     Beam, BeamParts, BeamWidth, LensShape, Material, Offset, Singlet, SpotMeasure, WaistPosition,
    /// };
    /// let raw = Beam::new(BeamParts {
    ///     wavelength: um(10.6),
    ///     m_squared: 1.2,
    ///     waist: BeamWidth::from_diameter_1e2(mm(9.0))?,
    /// })?;
    /// let lens = Singlet {
    ///     focal_length: mm(38.1),
    ///     material: Material::Index(2.4028),
    ///     shape: LensShape::CurvedSideFirst,
    ///     clear_aperture: None,
    /// };
    /// let low = Offset::away_from_lens(mm(0.3))?;
    /// let d = lens.defocus(&raw, WaistPosition::AtLens, SpotMeasure::Power86, low)?;
    /// // A waist of 74.50 µm and a Rayleigh range of 0.3137 mm: 74.50·√(1 + (0.3/0.3137)²) = 103.1 µm.
    /// assert_eq!((d.diameter.value * 1e7).round(), 1031.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn defocus(
        &self,
        raw: &Beam,
        waist: WaistPosition,
        measure: SpotMeasure,
        surface: Offset,
    ) -> Result<SingletDefocus, Error> {
        let found = focus::singlet_defocus(
            raw.as_model(),
            waist.metres_to_lens()?,
            &self.as_model(raw.wavelength())?,
            Aperture::metres_or_none(self.clear_aperture),
            measure,
            surface.metres(),
        )?;
        let numbers = LensNumbers::from_model(&found.numbers);
        let found = found.defocus;
        Ok(SingletDefocus {
            diameter: length(found.diameter),
            growth: found.growth,
            growth_minus_one: found.growth_minus_one,
            irradiance_ratio: found.irradiance_ratio,
            line_dose_ratio: found.line_dose_ratio,
            half_angle: angle(found.half_angle),
            validity: found.validity,
            numbers,
        })
    }

    /// Depth of focus about the waist of this measure; a largest spot is meant by that measure too. As
    /// [`model::focus::singlet_depth_of_focus`](crate::model::focus::singlet_depth_of_focus).
    ///
    /// Both ends are equally far from the waist. The true ones differ where the lens aberrates: use
    /// [`Wave::depth_of_focus`] for them.
    ///
    /// # Errors
    /// As there, and as [`Self::focus`]; [`Error::UnknownChoice`] for [`SpotMeasure::Handbook`], which gives
    /// a spot but no beam.
    pub fn depth_of_focus(
        &self,
        raw: &Beam,
        waist: WaistPosition,
        measure: SpotMeasure,
        criterion: Criterion,
    ) -> Result<SingletDepth, Error> {
        let found = focus::singlet_depth_of_focus(
            raw.as_model(),
            waist.metres_to_lens()?,
            &self.as_model(raw.wavelength())?,
            Aperture::metres_or_none(self.clear_aperture),
            measure,
            criterion.into_model(),
        )?;
        let numbers = LensNumbers::from_model(&found.numbers);
        Ok(SingletDepth { range: FocusRange::from_model(found.range), numbers })
    }

    /// The collimated beam that this lens focuses to the smallest spot: larger ones are spoilt by
    /// aberration, smaller ones by diffraction. The aperture is left out of account. As
    /// [`model::optics::smallest_spot`](crate::model::optics::smallest_spot).
    ///
    /// # Errors
    /// As there; the lens must converge.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, um};
    /// use spotwise::{Laser, LensShape, Material, Singlet, SpotMeasure};
    /// let lens = Singlet {
    ///     focal_length: mm(127.0),
    ///     material: Material::Index(2.402_781),
    ///     shape: LensShape::BestForm,
    ///     clear_aperture: None,
    /// };
    /// let laser = Laser { wavelength: um(10.6), m_squared: 1.0 };
    /// let best = lens.smallest_spot(laser, SpotMeasure::Handbook)?;
    /// // A lens maker's tutorial prints a minimum of about 85 µm at about 25 mm for this sum.
    /// assert_eq!((best.width_at_lens.diameter_1e2().value * 1e4).round(), 265.0); // 26.5 mm
    /// assert_eq!((best.spot_diameter.value * 1e6).round(), 86.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn smallest_spot(&self, laser: Laser, measure: SpotMeasure) -> Result<SmallestSpot, Error> {
        let lens = self.as_model(laser.wavelength)?;
        let found = optics::smallest_spot(laser.wavelength.value, laser.m_squared, &lens, measure)?;
        Ok(SmallestSpot {
            width_at_lens: BeamWidth::computed(found.diameter_at_lens),
            spot_diameter: length(found.spot_diameter),
            aberration_phase: angle(found.aberration_phase),
            normalised_aberration: found.normalised_aberration,
            relative_rayleigh_range: found.relative_rayleigh_range,
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }
}
