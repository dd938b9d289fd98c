//! The ideal lens acting on a beam: size and place of the new waist.
//!
//! | symbol | meaning                                             | unit | valid          |
//! |--------|-----------------------------------------------------|------|----------------|
//! | s      | raw waist to lens, + when the waist lies upstream   | m    | ±1e7           |
//! | f      | focal length, + converging                          | m    | 1e-5 ≤ abs ≤ 1e4 |
//! | z_R    | Rayleigh range of the raw beam                      | m    |                |
//! | m      | magnification, new waist over raw waist             | 1    |                |
//!
//! h = √((s − f)² + z_R²)           \[1\]
//! m = abs(f)/h, d₀′ = m·d₀, z_R′ = m²·z_R
//! focus shift = m²·(s − f)         measured from the focal point, + away from the lens
//! lens to waist = f + focus shift
//!
//! The shift is the primary result: the form 1/s′ = 1/f − 1/(s + z_R²/(s − f)) is singular at
//! s = f and loses every digit for a distant waist. A collimated beam, whose waist lies at the
//! lens, is s = 0 and loses nothing either.
//!
//! M² does not change. Not modelled: aberration, clipping, thickness of the lens.
//!
//! \[1\] S. A. Self, *Applied Optics* 22, 658 (1983), from memory; re-derived from the ray matrix of
//! a thin lens, with which it agrees to 50 digits.

use super::astigmatic::{AstigmaticBeam, Axis, X, Y, checked_astigmatic};
use super::beam::{Beam, BeamNames, CheckedBeam, ROUND, checked_axis, checked_beam, checked_cone};
use crate::error::{Error, Param, check, check_within, within_model};
use crate::model::twofold::Twofold;
use crate::validity::{Cone, Validity};

/// A beam behind a lens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FocusedBeam {
    /// Waist **diameter** behind the lens in metres, 1/e² (D4σ): the spot in focus.
    pub waist_diameter: f64,
    /// Rayleigh range behind the lens in metres.
    pub rayleigh_range: f64,
    /// Far-field **full** angle of the focused cone in radians.
    pub divergence_full_angle: f64,
    /// New waist over raw waist.
    pub magnification: f64,
    /// From the focal point to the waist in metres, + away from the lens.
    pub focus_shift: f64,
    /// From the lens to the waist in metres; negative for a virtual waist.
    pub lens_to_waist: f64,
    /// Diameter of the raw beam where it meets the lens in metres, 1/e² (D4σ).
    pub diameter_at_lens: f64,
    /// Greatest 1/e² half angle before and behind the lens, in radians.
    pub half_angle: f64,
    /// How far the paraxial formulas may be trusted, for the raw and the focused cone.
    pub validity: Validity,
}

/// What a lens does to one axis, before anything is rounded.
pub(crate) struct Imaged {
    magnification: Twofold,
    rayleigh_range: Twofold,
    pub(crate) focus_shift: Twofold,
    waist_diameter: Twofold,
}

/// The image by a lens that stands `waist_to_lens` behind the raw waist.
fn image(raw: &CheckedBeam, waist_to_lens: Twofold, focal_length: f64) -> Imaged {
    image_beyond(raw, waist_to_lens - Twofold::from(focal_length), focal_length)
}

/// d₀′ = m·d₀, z_R′ = m²·z_R, shift = m²·(s − f), from s − f.
pub(crate) fn image_beyond(raw: &CheckedBeam, beyond_focal_point: Twofold, focal_length: f64) -> Imaged {
    let f = Twofold::from(focal_length);
    let h = beyond_focal_point.root_sum_square(raw.rayleigh_range);
    let f_over_h = f / h;
    let magnification = if focal_length < 0.0 { -f_over_h } else { f_over_h };
    let squared = f_over_h.squared();
    Imaged {
        magnification,
        rayleigh_range: squared * raw.rayleigh_range,
        focus_shift: squared * beyond_focal_point,
        waist_diameter: magnification * raw.waist,
    }
}

/// Refuses an image whose waist or cone is outside the model.
pub(crate) fn checked_image(imaged: &Imaged, names: &BeamNames) -> Result<CheckedBeam, Error> {
    let waist_diameter = within_model(names.waist_diameter, imaged.waist_diameter.to_f64())?;
    Ok(CheckedBeam {
        waist: imaged.waist_diameter,
        waist_diameter,
        rayleigh_range: imaged.rayleigh_range,
        cone: checked_cone(names, full_angle(imaged) * 0.5)?,
    })
}

/// θ = d₀/z_R.
fn full_angle(imaged: &Imaged) -> f64 {
    (imaged.waist_diameter / imaged.rayleigh_range).to_f64()
}

pub(crate) fn check_focal_length(focal_length: f64) -> Result<f64, Error> {
    let (least, greatest) = Param::FocalLength.range();
    if focal_length < 0.0 {
        check_within(Param::FocalLength, focal_length, -greatest, -least)
    } else {
        check_within(Param::FocalLength, focal_length, least, greatest)
    }
}

/// A beam on its way to a lens, checked.
pub(crate) struct BeforeLens {
    pub(crate) wavelength: f64,
    pub(crate) m2: f64,
    pub(crate) beam: CheckedBeam,
    /// From the waist to the lens, + when the waist lies upstream.
    pub(crate) waist_to_lens: Twofold,
}

/// Checks a raw beam, then its distance from the lens.
pub(crate) fn before_lens(raw: &Beam, waist_to_lens: f64) -> Result<BeforeLens, Error> {
    let beam = checked_beam(raw)?;
    let waist_to_lens = Twofold::from(check(Param::WaistToLens, waist_to_lens)?);
    Ok(BeforeLens { wavelength: raw.wavelength, m2: raw.m2, beam, waist_to_lens })
}

impl BeforeLens {
    /// u = s/z_R, the distance of the lens from the raw waist in its Rayleigh ranges.
    pub(crate) fn rayleigh_ranges(&self) -> Twofold {
        self.beam.rayleigh_ranges_in(self.waist_to_lens)
    }

    /// D = d₀·√(1 + u²) where the beam meets the lens.
    pub(crate) fn diameter_at_lens(&self) -> Twofold {
        self.beam.waist * Twofold::ONE.root_sum_square(self.rayleigh_ranges())
    }
}

/// An astigmatic beam behind an ideal lens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AstigmaticFocus {
    /// The focused beam; its z = 0 lies at the focal point of the lens.
    pub beam: AstigmaticBeam,
    /// Greatest 1/e² half angle before and behind the lens, in radians.
    pub half_angle: f64,
    /// How far the paraxial formulas may be trusted.
    pub validity: Validity,
}

impl FocusedBeam {
    /// The wider of the cones before and behind the lens.
    pub(crate) fn cone(&self) -> Cone {
        Cone { half_angle: self.half_angle, validity: self.validity }
    }
}

/// A focused beam in the form that further functions of the model take, and as a result.
#[derive(Clone, Copy)]
pub(crate) struct CheckedFocus {
    pub(crate) beam: CheckedBeam,
    pub(crate) focus_shift: Twofold,
    pub(crate) lens_to_waist: Twofold,
    pub(crate) focused: FocusedBeam,
}

/// What an ideal lens of this focal length, already checked, makes of a beam.
pub(crate) fn focus_of(raw: &BeforeLens, focal_length: f64) -> Result<CheckedFocus, Error> {
    let imaged = image(&raw.beam, raw.waist_to_lens, focal_length);
    let mut beam = checked_image(&imaged, &ROUND)?;
    beam.cone = beam.cone.wider(raw.beam.cone);
    let lens_to_waist = Twofold::from(focal_length) + imaged.focus_shift;
    let focused = FocusedBeam {
        waist_diameter: beam.waist_diameter,
        rayleigh_range: beam.rayleigh_range.to_f64(),
        divergence_full_angle: full_angle(&imaged),
        magnification: imaged.magnification.to_f64(),
        focus_shift: imaged.focus_shift.to_f64(),
        lens_to_waist: lens_to_waist.to_f64(),
        diameter_at_lens: raw.diameter_at_lens().to_f64(),
        half_angle: beam.cone.half_angle,
        validity: beam.cone.validity,
    };
    Ok(CheckedFocus { beam, focus_shift: imaged.focus_shift, lens_to_waist, focused })
}

/// The waist that an ideal lens makes of a raw beam whose waist lies `waist_to_lens` upstream.
///
/// d₀′ = m·d₀ with m = abs(f)/√((s − f)² + z_R²); sources in the [module](self).
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/focus_through_lens.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments;
/// [`Error::OutsideModel`] if the raw or the focused half angle exceeds 0.3 rad or the new waist
/// is outside 1e-9 … 10 m.
///
/// # Example
/// ```
/// use spotwise::model::optics::{focus_through_lens, Beam};
/// // 10.6 µm, M² = 1.2, raw waist 5 mm in diameter 1.5 m before a 50 mm lens.
/// let raw = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 5e-3 };
/// let focus = focus_through_lens(&raw, 1.5, 50e-3)?;
/// assert_eq!((focus.waist_diameter * 1e9).round(), 118_044.0); // 118.044 µm
/// assert_eq!((focus.focus_shift * 1e9).round(), 808_198.0);    // 0.808 mm beyond the focal point
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "spot size")]
#[must_use = "the focused beam is the result"]
pub fn focus_through_lens(raw: &Beam, waist_to_lens: f64, focal_length: f64) -> Result<FocusedBeam, Error> {
    let raw = before_lens(raw, waist_to_lens)?;
    focus_of(&raw, check_focal_length(focal_length)?).map(|result| result.focused)
}

/// The waist that an ideal lens makes of a collimated beam: one whose waist lies at the lens.
///
/// As [`focus_through_lens`] with s = 0. The familiar d₀′ = 4·M²·λ·f/(π·D) is its limit for a
/// Rayleigh range much longer than f; here the focus shift −f³/(f² + z_R²) is kept.
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/focus_collimated.csv`).
///
/// # Errors
/// As [`focus_through_lens`], with the diameter named [`Param::DiameterAtLens`].
///
/// # Example
/// ```
/// use spotwise::model::optics::focus_collimated;
/// // 10.6 µm, M² = 1.2, 7 mm on a 38.1 mm (1.5 inch) lens.
/// let focus = focus_collimated(10.6e-6, 1.2, 7e-3, 38.1e-3)?;
/// assert_eq!((focus.waist_diameter * 1e9).round(), 88_143.0); // 88.143 µm
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the focused beam is the result"]
pub fn focus_collimated(
    wavelength: f64,
    m2: f64,
    diameter_at_lens: f64,
    focal_length: f64,
) -> Result<FocusedBeam, Error> {
    let wavelength = check(Param::Wavelength, wavelength)?;
    let m2 = check(Param::M2, m2)?;
    let waist_diameter = check(Param::DiameterAtLens, diameter_at_lens)?;
    focus_through_lens(&Beam { wavelength, m2, waist_diameter }, 0.0, focal_length)
}

/// The beam that an ideal lens makes of a simple astigmatic raw beam, axis by axis.
///
/// `raw` has its z = 0 at the lens, so that a waist upstream has a negative z. The result has its
/// z = 0 at the **focal point** of the lens; both count + away from the laser.
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/focus_astigmatic.csv`).
///
/// # Errors
/// As [`focus_through_lens`], with the axis named.
///
/// # Example
/// ```
/// use spotwise::model::optics::{focus_astigmatic, AstigmaticBeam, Axis};
/// // A diode beam, 5 mm wide with M² of 5 and 15 in its two axes, on a 50 mm lens.
/// let raw = AstigmaticBeam {
///     wavelength: 450e-9,
///     x: Axis { m2: 5.0, waist_diameter: 5e-3, waist_z: 0.0 },
///     y: Axis { m2: 15.0, waist_diameter: 5e-3, waist_z: 0.0 },
/// };
/// let focused = focus_astigmatic(&raw, 50e-3)?.beam;
/// assert_eq!((focused.x.waist_diameter * 1e9).round(), 28_647.0); // 28.6 µm
/// assert_eq!((focused.y.waist_diameter * 1e9).round(), 85_931.0); // 85.9 µm
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the focused beam is the result"]
pub fn focus_astigmatic(raw: &AstigmaticBeam, focal_length: f64) -> Result<AstigmaticFocus, Error> {
    let checked = checked_astigmatic(raw)?;
    let focal_length = check_focal_length(focal_length)?;
    let axis = |axis: &Axis, beam: &CheckedBeam, names: &BeamNames| {
        let imaged = image(beam, Twofold::from(-axis.waist_z), focal_length);
        let focused = checked_image(&imaged, names)?;
        // The rounded waist must itself pass as an input of the functions that take the result.
        checked_axis(names, raw.wavelength, axis.m2, focused.waist_diameter)?;
        let waist_z = imaged.focus_shift.to_f64();
        Ok((Axis { m2: axis.m2, waist_diameter: focused.waist_diameter, waist_z }, focused.cone))
    };
    let (x, x_cone) = axis(&raw.x, &checked.x, &X)?;
    let (y, y_cone) = axis(&raw.y, &checked.y, &Y)?;
    let Cone { half_angle, validity } = checked.cone.wider(x_cone).wider(y_cone);
    let beam = AstigmaticBeam { wavelength: raw.wavelength, x, y };
    Ok(AstigmaticFocus { beam, half_angle, validity })
}
