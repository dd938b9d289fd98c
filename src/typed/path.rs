//! A beam through a list of elements.

use super::astigmatic::{AstigmaticBeam, AstigmaticParts, AxisParts};
use super::beam::Beam;
use super::glass::Material;
use super::lens::Lens;
use super::offset::Offset;
use super::plate::Plate;
use super::width::BeamWidth;
use super::{angle, length};
use crate::error::{Error, Param, check_distance};
use crate::model::optics::{self, LensShape};
use crate::validity::Validity;
use uom::si::f64::{Angle, Length, ReciprocalLength};

/// Where a raw beam's waist lies relative to a beam expander.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case", deny_unknown_fields))]
pub enum ExpanderWaist {
    /// At the expander: the beam arrives collimated.
    AtExpander,
    /// So far upstream, between laser and expander; 0 to 1e7 m.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::before_expander"))]
    BeforeExpander(Length),
    /// So far downstream, where the beam would converge to without the expander; 0 to 1e7 m.
    #[cfg_attr(feature = "serde", serde(with = "super::serde_text::behind_expander"))]
    BehindExpander(Length),
}

impl ExpanderWaist {
    /// From the waist to the expander in metres, + when the waist lies upstream.
    pub(crate) fn metres_to_expander(self) -> Result<f64, Error> {
        let checked = |distance: Length| check_distance(Param::WaistToExpander, distance.value);
        match self {
            Self::AtExpander => Ok(0.0),
            Self::BeforeExpander(distance) => checked(distance),
            Self::BehindExpander(distance) => checked(distance).map(|distance| -distance),
        }
    }
}

/// A beam expander of no length: two ideal lenses that magnify the beam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Expander {
    /// Beam diameter behind it over that before it, 0.01 to 100; below 1 it is a reducer.
    pub magnification: f64,
    /// By how much it converges collimated light, within ±1000 1/m; 0 when set to infinity, negative where
    /// it diverges it.
    pub exit_power: ReciprocalLength,
}

/// One element of a beam path.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Element {
    /// Empty space of this length, 0 to 1e7 m.
    Space(Length),
    /// An ideal thin lens.
    ThinLens(Lens),
    /// A flat window at right angles to the beam.
    Window(Plate),
    /// A beam expander.
    Expander(Expander),
    /// A single-piece thin lens with third-order spherical aberration. Clipping is not modelled along a
    /// path, so it has no aperture.
    Singlet {
        /// Focal length at the wavelength of the beam, + converging.
        focal_length: Length,
        /// What it is made of.
        material: Material,
        /// Its shape, and which side is toward the laser.
        shape: LensShape,
    },
}

impl Element {
    fn as_model(&self, wavelength: Length) -> Result<optics::Element, Error> {
        Ok(match *self {
            Self::Space(length) => optics::Element::Space { length: length.value },
            Self::ThinLens(lens) => optics::Element::ThinLens { focal_length: lens.focal_length.value },
            Self::Window(plate) => optics::Element::Window {
                thickness: plate.thickness.value,
                index: plate.material.index_at(wavelength)?,
            },
            Self::Expander(expander) => optics::Element::Expander {
                magnification: expander.magnification,
                exit_power: expander.exit_power.value,
            },
            Self::Singlet { focal_length, material, shape } => {
                let (index, focal_length) = (material.index_at(wavelength)?, focal_length.value);
                let lens = optics::Singlet { index, shape, focal_length };
                let shape_factor = optics::lens_aberration(&lens)?.shape_factor;
                optics::Element::Singlet { focal_length, index, shape_factor }
            }
        })
    }
}

/// A beam at one place of its path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PathBeam {
    beam: AstigmaticBeam,
    /// Width in x there.
    pub width_x: BeamWidth,
    /// Width in y there.
    pub width_y: BeamWidth,
    /// Distance from the start of the path.
    pub distance: Length,
    /// Sum over the singlets and windows passed of the normalised aberration, in the axis where each is greater.
    pub normalised_aberration: f64,
    /// Greatest 1/e² half angle along the path up to there.
    pub half_angle: Angle,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

impl PathBeam {
    /// The beam there, its zero at this place; inside a window the beam in air that has the same waist and
    /// cone. None where [`Validity::ABERRATED`] stands: the irradiances and doses of a plain beam take it for
    /// Gaussian, and the flags would be lost. [`parts`](Self::parts) has its numbers all the same.
    ///
    /// ```
    /// use spotwise::units::{mm, um};
    /// use spotwise::model::optics::LensShape;
    /// use spotwise::{AstigmaticBeam, Beam, BeamParts, BeamWidth, Element, Material, Offset, beam_after_path};
    /// let waist = BeamWidth::from_diameter_1e2(mm(14.0))?;
    /// let laser = Beam::new(BeamParts { wavelength: um(10.6), m_squared: 1.0, waist })?;
    /// let raw = AstigmaticBeam::round(&laser, Offset::ZERO)?;
    /// let (material, shape) = (Material::Index(2.4028), LensShape::CurvedSideFirst);
    /// let end = beam_after_path(&raw, &[Element::Singlet { focal_length: mm(38.1), material, shape }])?;
    /// assert!(end.normalised_aberration > 2.0 && end.beam().is_none());
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[must_use]
    pub fn beam(&self) -> Option<AstigmaticBeam> {
        (!self.validity.contains(Validity::ABERRATED)).then_some(self.beam)
    }

    /// M², waist and place of the waist of either axis, its zero at this place; behind a singlet by second
    /// moments (D4σ).
    #[must_use]
    pub fn parts(&self) -> AstigmaticParts {
        self.beam.parts()
    }

    fn from_model(found: &optics::PathBeam) -> Result<Self, Error> {
        Ok(Self {
            beam: AstigmaticBeam::from_model(found.beam)?,
            width_x: BeamWidth::computed(found.diameter_x),
            width_y: BeamWidth::computed(found.diameter_y),
            distance: length(found.distance),
            normalised_aberration: found.normalised_aberration,
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }
}

impl AstigmaticBeam {
    /// A round beam as one whose two axes are alike, with its waist at this place from the zero:
    /// [`Offset::away_from_lens`] is along the light, [`Offset::toward_lens`] against it, so that a waist
    /// upstream of the start of a path is of the second kind.
    ///
    /// # Errors
    /// None for a beam and an offset that exist; the model's own check is passed through.
    pub fn round(beam: &Beam, waist_at: Offset) -> Result<Self, Error> {
        let axis = AxisParts { m_squared: beam.m_squared(), waist: beam.waist(), waist_at };
        Self::new(AstigmaticParts { wavelength: beam.wavelength(), x: axis, y: axis })
    }

    /// Each element in the terms of the model, or the first fault among them.
    fn path<'a>(
        &self,
        elements: &'a [Element],
    ) -> Result<impl Iterator<Item = optics::Element> + Clone + use<'a>, Error> {
        let wavelength = length(self.as_model().wavelength);
        for element in elements {
            element.as_model(wavelength)?;
        }
        // None is left out, since every one was right above.
        Ok(elements.iter().filter_map(move |element| element.as_model(wavelength).ok()))
    }
}

/// The beam behind the last of a list of elements; `raw` has its zero at the start of the path. As
/// [`model::optics::beam_after_path`](crate::model::optics::beam_after_path).
///
/// # Errors
/// As there, and as [`Material::index_at`].
///
/// # Example
/// ```
/// use spotwise::units::{inch, m, mm, per_m, um};
/// use spotwise::{
///     AstigmaticBeam, Beam, BeamParts, BeamWidth, Element, Expander, Lens, Offset, beam_after_path,
/// };
/// let laser = Beam::new(BeamParts {
///     wavelength: um(10.6),
///     m_squared: 1.2,
///     waist: BeamWidth::from_diameter_1e2(mm(4.0))?,
/// })?;
/// let raw = AstigmaticBeam::round(&laser, Offset::ZERO)?;
/// let end = beam_after_path(
///     &raw,
///     &[
///         Element::Expander(Expander { magnification: 2.0, exit_power: per_m(0.0) }),
///         Element::Space(m(1.0)),
///         Element::ThinLens(Lens::new(inch(2.0))),
///     ],
/// )?;
/// // By hand: Rayleigh range behind the expander π·8²/(4·1.2·0.0106) = 3951.7 mm, 1 m on
/// // 8 mm × √(1 + (1/3.9517)²) = 8.252 mm; spot 8 mm × 50.8/√(949.2² + 3951.7²) = 100.0 µm.
/// assert_eq!((end.width_x.diameter_1e2().value * 1e6).round(), 8252.0);
/// assert_eq!((end.parts().x.waist.diameter_1e2().value * 1e7).round(), 1000.0);
/// assert!(end.beam().is_some()); // nothing aberrates
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "ABCD matrix")]
pub fn beam_after_path(raw: &AstigmaticBeam, elements: &[Element]) -> Result<PathBeam, Error> {
    PathBeam::from_model(&optics::after_elements(raw.as_model(), raw.path(elements)?)?)
}

/// The beam anywhere along a path, at this distance from its start. As
/// [`model::optics::beam_along_path`](crate::model::optics::beam_along_path).
///
/// # Errors
/// As there, and as [`Material::index_at`].
///
/// # Example
/// ```
/// use spotwise::units::{m, mm, um};
/// use spotwise::{
///     AstigmaticBeam, Beam, BeamParts, BeamWidth, Element, Lens, Offset, beam_along_path,
/// };
/// let laser = Beam::new(BeamParts {
///     wavelength: um(1.064),
///     m_squared: 1.0,
///     waist: BeamWidth::from_diameter_1e2(mm(5.0))?,
/// })?;
/// let raw = AstigmaticBeam::round(&laser, Offset::away_from_lens(m(1.0))?)?;
/// let path = [Element::Space(m(1.0)), Element::ThinLens(Lens::new(mm(100.0)))];
/// // The waist of the raw beam lies at the lens: 4·λ·f/(π·D) = 27.1 µm in its focal point.
/// let focus = beam_along_path(&raw, &path, m(1.1))?;
/// assert_eq!((focus.width_x.diameter_1e2().value * 1e7).round(), 271.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn beam_along_path(
    raw: &AstigmaticBeam,
    elements: &[Element],
    distance: Length,
) -> Result<PathBeam, Error> {
    let found = optics::along_elements(raw.as_model(), raw.path(elements)?, distance.value)?;
    PathBeam::from_model(&found)
}
