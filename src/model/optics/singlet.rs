//! The single-piece lens: shape, third-order spherical aberration, and the spot it really makes.
//!
//! | symbol | meaning                                                   | unit | valid           |
//! |--------|-----------------------------------------------------------|------|-----------------|
//! | n      | refractive index                                          | 1    | 1.01 … 6        |
//! | q      | shape factor (R₂ + R₁)/(R₂ − R₁)                          | 1    | ±100            |
//! | p      | conjugate factor; −1 for a distant source                 | 1    |                 |
//! | f      | focal length, + converging                                | m    | 1e-5 ≤ abs ≤ 1e4 |
//! | D, w   | 1/e² (D4σ) **diameter** and radius of the beam at the lens | m   |                 |
//! | c      | curvature of its wavefront there, + diverging             | 1/m  |                 |
//! | C₄     | wavefront error W = C₄·r⁴                                 | 1/m³ |                 |
//! | α      | phase of W at r = w                                       | rad  | ±1e4            |
//! | t      | normalised aberration abs(α)/M²                           | 1    | see below       |
//!
//! S(n, q, p) = \[(n+2)/(n−1)·q² + 4(n+1)·p·q + (3n+2)(n−1)·p² + n³/(n−1)\] / \[n(n−1)\]   \[1\]
//! p = 2·f·c − 1, best form q = 2(n² − 1)/(n + 2)                                     \[1\]
//! k = S/128, blur = k·D³/f²; C₄ = S/(32·f³); α = (2π/λ)·C₄·w⁴                        \[1\]
//!
//! # Second moments (D4σ): exact
//! M²′ = √(M⁴ + 2α²), and the lens acts on a beam of the same D and c, but M²′, as an ideal lens of
//! power 1/f + 4·C₄·w² would                                                          \[2\]
//!
//! Exact for a Gaussian (Schell-model) profile without clipping. *Proof*: the phase (2π/λ)·C₄·r⁴
//! bends a ray at r by 4·C₄·r³. Over exp(−2r²/w²) the means are ⟨r²⟩ = w²/2, ⟨r⁴⟩ = w⁴/2,
//! ⟨r⁶⟩ = 3w⁶/4. So ⟨r·θ⟩ gains −4C₄⟨r⁴⟩ = −(w²/2)·4C₄w², a change of power; and
//! (2π/λ)²·(⟨r²⟩⟨θ²⟩ − ⟨rθ⟩²), which is M⁴, gains (2π/λ)²·16C₄²·(⟨r²⟩⟨r⁶⟩ − ⟨r⁴⟩²) =
//! (2π/λ)²·2C₄²w⁸ = 2α². The added quality is therefore √2·α = 4π·C₄·w⁴/(√2·λ). A form with 8π
//! in place of 4π is found in secondary literature (from memory): it is twice too large if C₄ is that
//! of the wavefront W.
//!
//! # The 86.5 %-power spot: a fitted closed form
//! F = 1 + t²/(1 + (1.8 + (M²)⁻⁶)·t), and the lens acts on a beam of the same D and c, but M²′ = M²·F, as
//! an ideal lens of power 1/f + 4·C₄·w²/(1 + 0.4t) would                                 \[3\]
//! peak irradiance = P·((1 + b)² + (F·s)²)/(1 + s²), s = z_R/l of a sharp ideal focus at the distance l,
//! P = 1/(1 + (2.715 + 2.972·(M²)^−4.744)·t²/(1 + (7.329 + 3.307·(M²)^−4.692)·t)),
//! b = s·(2 + 2/M⁴)·t/(1 + t), with the sign of α
//!
//! In a sharp focus (s → 0) that is d = F·d₀, z_R′ = F·z_R, shift = −2t/(1 + 0.4t)·z_R and P. The fits are to
//! the sharp focus; in a long one the same pattern stands in a plane nearer the lens and is smaller in
//! proportion to the distance, which turns a hyperbola into the one told above, exactly, and a peak
//! of the width of F into P's factor.
//!
//! Against the diffraction integral of [`wave`](super::wave), for a Gaussian Schell-model beam
//! without clipping and M² from 1 to 4 (`tests/closed_forms.rs` fails if one is exceeded): diameter
//! within −0.9 … +1.3 % and peak within 0.9 % for t ≤ 1; place within 0.14 z_R; diameters off focus
//! within −2.5 … +5 % for t ≤ 0.3, −5 … +9 % for t ≤ 0.5, −11.5 … +17.5 % for t ≤ 1 (to twice the waist), and
//! within 5 % for t ≤ 0.3 and 20 % for t ≤ 1 at any distance (`tests/closed_forms/off_focus.rs`).
//! In a long focus, s from 5 % to 20 %, the diameter is within −0.3 … +2.3 % and the peak within
//! −6 … +0.4 % for t ≤ 1 (`tests/closed_forms/long_focus.rs`). With M² above 4 the diameter is within 2 % and the
//! peak within 1.2 % for t ≤ 1, diameters off focus as above. For t from 1 to 1.7 the value is out of domain;
//! beyond, it is refused. Clipping below a ratio of 1.8 moves it by up to 6.5 % (ratio 1.5), in focus and, for
//! t ≤ 0.3, off it; the peak, which knows of no aperture, is up to 8.5 % too high at a ratio of 1.8 and 26 % at
//! 1.5. Irradiance and line dose off focus: see
//! [`Validity::GAUSSIAN_OFF_FOCUS`]. Another mixture of modes with the same M² has another 86.5 %-power spot: that
//! of TEM₀₀ and TEM₀₁* a smaller one, by up to 6.4 % (TEM₀₁* alone).
//!
//! # Handbook estimates
//! Upper: d₀ + k·D³/f² = d₀·(1 + t/2), the linear sum of diffraction and blur. Lower:
//! √(d₀² + (k·D³/f²)²). They bracket the 86.5 %-power spot while t ≤ 1 and the clipping ratio is at
//! least 1.8, to within 1 % of it; each may be 19 % from it.
//!
//! Not modelled: thickness (third order of a thin lens: `tests/tables/ray_trace.csv` compares it with
//! exact rays through thick lenses), aberration off the axis, aspheric surfaces, decentring, heat.
//!
//! \[1\] Textbook form of the third-order aberration of a thin lens (for example W. J. Smith, *Modern
//! Optical Engineering*), from memory; verified by exact ray traces.
//! \[2\] After A. E. Siegman, *Proc. SPIE* 1868, 2 (1993), from memory; proved above.
//! \[3\] Fitted by us to the diffraction integral; not published.

use super::beam::{Beam, CheckedBeam, ROUND, checked_cone};
use super::glass::{Glass, index_of};
use super::lens::{BeforeLens, CheckedFocus, FocusedBeam, before_lens, check_focal_length, focus_of};
use crate::error::{Error, Param, check, check_within, within_model};
use crate::model::math;
use crate::model::twofold::Twofold;
use crate::validity::{Cone, REFUSED_ABERRATION, REFUSED_CLIPPING, REFUSED_LONG_FOCUS, Validity};

/// Shape of a single-piece lens.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum LensShape {
    /// The shape with the least spherical aberration for a distant source; a meniscus in materials of
    /// high index. Code 1.
    BestForm,
    /// Plano-convex (or plano-concave) with its curved side toward the laser. Code 2.
    CurvedSideFirst,
    /// Plano-convex (or plano-concave) with its flat side toward the laser. Code 3.
    FlatSideFirst,
    /// By its shape factor. Code 4.
    ShapeFactor {
        /// q = (R₂ + R₁)/(R₂ − R₁): 0 is equiconvex, +1 has its curved side toward the laser.
        factor: f64,
    },
}

impl LensShape {
    /// Permanent number of this choice, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(&self) -> u32 {
        match self {
            Self::BestForm => 1,
            Self::CurvedSideFirst => 2,
            Self::FlatSideFirst => 3,
            Self::ShapeFactor { .. } => 4,
        }
    }

    /// The shape with this permanent code, ignoring the factor where the code does not name it.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code. The factor is checked when it is used.
    pub fn from_code(code: u32, factor: f64) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::BestForm),
            2 => Ok(Self::CurvedSideFirst),
            3 => Ok(Self::FlatSideFirst),
            4 => Ok(Self::ShapeFactor { factor }),
            value => Err(Error::UnknownChoice { param: Param::LensShape, value }),
        }
    }
}

/// A single-piece thin lens with spherical surfaces.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Singlet {
    /// Refractive index at the working wavelength.
    pub index: f64,
    /// Shape.
    pub shape: LensShape,
    /// Focal length at the working wavelength in metres, + converging.
    pub focal_length: f64,
}

/// A thin lens as its two radii make it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LensForm {
    /// Focal length in metres, + converging.
    pub focal_length: f64,
    /// Shape factor q = (R₂ + R₁)/(R₂ − R₁).
    pub shape_factor: f64,
}

/// Third-order spherical aberration of a [`Singlet`] for a distant source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LensAberration {
    /// Shape factor q.
    pub shape_factor: f64,
    /// k in blur = k·D³/f², the circle of least confusion of a sharp-edged bundle of diameter D.
    pub blur_coefficient: f64,
    /// C₄ in W = C₄·r⁴, the wavefront error in metres at the distance r from the axis, in 1/m³.
    pub wavefront_coefficient: f64,
}

/// What quartic aberration does to the focus of a Gaussian (Schell-model) beam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AberrationGrowth {
    /// M² of the aberrated beam by second moments, √(M⁴ + 2α²).
    pub second_moment_m2: f64,
    /// Second-moment (D4σ) waist over the ideal waist.
    pub second_moment_growth: f64,
    /// From the ideal to the second-moment waist, in ideal Rayleigh ranges, + away from the lens.
    pub second_moment_shift: f64,
    /// Least diameter that holds 86.5 % of the power, over the ideal waist; NaN if refused.
    pub power86_growth: f64,
    /// From the ideal waist to the plane of that least diameter, in ideal Rayleigh ranges; NaN if refused.
    pub power86_shift: f64,
    /// Handbook upper estimate of the same: diffraction and blur added.
    pub handbook_growth: f64,
    /// Lower end of the bracket: diffraction and blur added as squares.
    pub quadrature_growth: f64,
    /// Greatest irradiance on the axis over that of the ideal focus; NaN if refused.
    pub peak_irradiance_ratio: f64,
    /// Normalised aberration t = abs(α)/M².
    pub normalised_aberration: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// The focus of a real lens by one measure: a beam about a waist of its own.
///
/// What it does off focus is told by [`singlet_defocus`](crate::model::focus::singlet_defocus) and
/// [`singlet_depth_of_focus`](crate::model::focus::singlet_depth_of_focus), whose results carry the flags of
/// the lens on; a [`Beam`] put together from these numbers would not.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AberratedWaist {
    /// Waist **diameter** in metres, by the measure that the field's name tells.
    pub waist_diameter: f64,
    /// M² that gives this waist this Rayleigh range.
    pub m2: f64,
    /// Distance from the waist at which its diameter has grown by √2, in metres.
    pub rayleigh_range: f64,
    /// From the ideal waist to this one in metres, + away from the lens.
    pub shift: f64,
    /// From the lens to this waist in metres.
    pub lens_to_waist: f64,
}

/// What a real single-piece lens makes of a beam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SingletFocus {
    /// What an ideal lens of the same focal length would have made of it.
    pub ideal: FocusedBeam,
    /// The waist by second moments (D4σ), exact for a quartic wavefront without clipping.
    pub second_moment: AberratedWaist,
    /// The least diameter that holds 86.5 % of the power, by a fitted closed form; NaN if refused.
    pub power86: AberratedWaist,
    /// Handbook upper estimate of the spot diameter in metres: diffraction and blur added.
    pub handbook_diameter: f64,
    /// Lower end of the bracket in metres: diffraction and blur added as squares.
    pub quadrature_diameter: f64,
    /// Greatest irradiance on the axis over that of the ideal focus, both without the aperture; NaN if
    /// refused. An aperture lowers it further: the value is up to 8.5 % too high at a clipping ratio of 1.8, 26 % at 1.5.
    pub peak_irradiance_ratio: f64,
    /// Shape factor of the lens.
    pub shape_factor: f64,
    /// Quartic wavefront aberration α at the 1/e² radius, in radians.
    pub aberration_phase: f64,
    /// Magnitude of α over M².
    pub normalised_aberration: f64,
    /// Clear aperture over beam diameter at the lens; infinite without an aperture.
    pub clipping_ratio: f64,
    /// Share of the power that passes the aperture.
    pub transmitted: f64,
    /// Magnitude of the focus shift of the ideal lens over its focal length.
    pub relative_focus_shift: f64,
    /// Rayleigh range of the ideal waist over the magnitude of its distance from the lens.
    pub relative_rayleigh_range: f64,
    /// From the lens to where the beam would converge by rays, without diffraction and aberration:
    /// 1/(1/f − c) in metres, c being the curvature of its wavefront before the lens. It is what
    /// [`Wave`](super::Wave) asks for.
    pub lens_to_focus: f64,
    /// Greatest 1/e² half angle in radians: of the raw beam, the ideal focus or that by second moments.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// Which spot is to be smallest. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum SpotMeasure {
    /// The second-moment (D4σ) waist.
    SecondMoment = 1,
    /// The diameter that holds 86.5 % of the power.
    Power86 = 2,
    /// The handbook upper estimate, diffraction and blur added.
    Handbook = 3,
}

impl SpotMeasure {
    /// Every measure, in the order of its code.
    pub const ALL: [Self; 3] = [Self::SecondMoment, Self::Power86, Self::Handbook];

    /// The measure with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub fn from_code(code: u32) -> Result<Self, Error> {
        Self::ALL
            .into_iter()
            .find(|measure| *measure as u32 == code)
            .ok_or(Error::UnknownChoice { param: Param::SpotMeasure, value: code })
    }
}

/// The collimated beam that a lens focuses to its smallest spot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SmallestSpot {
    /// 1/e² (D4σ) **diameter** of the collimated beam at the lens in metres.
    pub diameter_at_lens: f64,
    /// The spot **diameter** that it makes, by the measure asked for, in metres.
    pub spot_diameter: f64,
    /// Aberration phase α at that diameter in radians.
    pub aberration_phase: f64,
    /// Magnitude of α over M².
    pub normalised_aberration: f64,
    /// Rayleigh range of the ideal waist over the focal length.
    pub relative_rayleigh_range: f64,
    /// Half angle of the converging cone in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// S(n, q, p), the sum of the third-order spherical aberration of both surfaces.
fn aberration_sum(n: Twofold, q: Twofold, p: Twofold) -> Twofold {
    let number = Twofold::from;
    let n_less_one = n - Twofold::ONE;
    // (n+2)/(n−1)·q² + 4(n+1)·p·q + (3n+2)(n−1)·p² + n³/(n−1), over n(n−1)
    let bent = (n + number(2.0)) / n_less_one * q.squared();
    let crossed = number(4.0) * (n + Twofold::ONE) * p * q;
    let imaged = (number(3.0) * n + number(2.0)) * n_less_one * p.squared();
    let least = n.squared() * n / n_less_one;
    (bent + crossed + imaged + least) / (n * n_less_one)
}

/// C₄ = S/(32·f³) for light of this conjugate factor.
pub(crate) fn wavefront_coefficient(
    index: Twofold,
    shape_factor: Twofold,
    conjugate: Twofold,
    focal_length: f64,
) -> Twofold {
    let sum = aberration_sum(index, shape_factor, conjugate);
    over_focal_cube(sum, Twofold::from(focal_length))
}

/// S/(32·f³).
fn over_focal_cube(sum: Twofold, f: Twofold) -> Twofold {
    sum / (Twofold::from(32.0) * f.squared() * f)
}

/// k and C₄ for a distant source, p = −1.
pub(super) fn distant_aberration(index: Twofold, shape_factor: Twofold, f: Twofold) -> (Twofold, Twofold) {
    let sum = aberration_sum(index, shape_factor, -Twofold::ONE);
    (sum / Twofold::from(128.0), over_focal_cube(sum, f))
}

/// p = 2·f·c − 1 for light whose wavefront has the curvature c at the lens.
pub(crate) fn conjugate_of(focal_length: f64, curvature: Twofold) -> Twofold {
    Twofold::from(2.0 * focal_length) * curvature - Twofold::ONE
}

/// α = (2π/λ)·C₄·w⁴, with w = D/2.
pub(crate) fn aberration_phase_of(wavelength: f64, coefficient: Twofold, diameter: Twofold) -> Twofold {
    let squared = diameter.squared();
    Twofold::PI * coefficient * squared * squared / Twofold::from(8.0 * wavelength)
}

/// A lens that passed its checks.
pub(crate) struct CheckedSinglet {
    index: Twofold,
    shape_factor: Twofold,
    focal_length: f64,
}

impl LensShape {
    /// q, for a lens of this index.
    pub(super) fn checked_factor(self, n: Twofold) -> Result<Twofold, Error> {
        Ok(match self {
            // q = 2(n² − 1)/(n + 2)
            Self::BestForm => {
                Twofold::from(2.0) * (n - Twofold::ONE) * (n + Twofold::ONE) / (n + Twofold::from(2.0))
            }
            Self::CurvedSideFirst => Twofold::ONE,
            Self::FlatSideFirst => -Twofold::ONE,
            Self::ShapeFactor { factor } => Twofold::from(check(Param::ShapeFactor, factor)?),
        })
    }
}

fn checked_singlet(lens: &Singlet) -> Result<CheckedSinglet, Error> {
    let index = Twofold::from(check(Param::RefractiveIndex, lens.index)?);
    let shape_factor = lens.shape.checked_factor(index)?;
    Ok(CheckedSinglet { index, shape_factor, focal_length: check_focal_length(lens.focal_length)? })
}

/// A lens of this glass, its index not rounded, whose focal length is checked already.
pub(crate) fn checked_singlet_of(
    glass: Glass,
    wavelength: f64,
    shape: LensShape,
    focal_length: f64,
) -> Result<CheckedSinglet, Error> {
    let index = index_of(glass, wavelength)?;
    Ok(CheckedSinglet { index, shape_factor: shape.checked_factor(index)?, focal_length })
}

/// Checks a diameter that may be infinite, which means that there is no aperture.
pub(crate) fn check_clear_aperture(clear_aperture: f64) -> Result<f64, Error> {
    if clear_aperture == f64::INFINITY {
        Ok(clear_aperture)
    } else {
        check(Param::ClearAperture, clear_aperture)
    }
}

/// What an aperture does to a beam of this diameter: the clipping ratio, infinite without an aperture,
/// and the share of the power that passes.
pub(crate) fn clipped(clear_aperture: f64, diameter: Twofold) -> Result<(f64, f64), Error> {
    if clear_aperture == f64::INFINITY {
        return Ok((f64::INFINITY, 1.0));
    }
    let ratio = Twofold::from(clear_aperture) / diameter;
    let clipping_ratio = within_model(Param::ClippingRatio, ratio.to_f64())?;
    // 1 − exp(−2·X²)
    let transmitted = -math::expm1(-(Twofold::from(2.0) * ratio.squared()).to_f64());
    Ok((clipping_ratio, transmitted))
}

/// 1.8 + (M²)⁻⁶, which steers the fit from a perfect beam to a poor one.
fn saturation(m2: f64) -> Twofold {
    let m2 = Twofold::from(m2);
    let cubed = m2.squared() * m2;
    Twofold::from(9.0) / Twofold::from(5.0) + Twofold::ONE / cubed.squared()
}

/// F = 1 + t²/(1 + (1.8 + (M²)⁻⁶)·t).
fn power86_growth(m2: f64, t: Twofold) -> Twofold {
    Twofold::ONE + t.squared() / (Twofold::ONE + saturation(m2) * t)
}

/// 1 + 0.4t, by which the power that the aberration adds is less for 86.5 % of the power than for the
/// second moments.
fn power86_weakening(t: Twofold) -> Twofold {
    Twofold::ONE + Twofold::from(2.0) / Twofold::from(5.0) * t
}

/// −2t/(1 + 0.4t) with the sign of α, in Rayleigh ranges of the ideal beam.
fn power86_shift(alpha: Twofold, t: Twofold) -> Twofold {
    let shift = Twofold::from(2.0) * t / power86_weakening(t);
    if alpha.to_f64() > 0.0 { -shift } else { shift }
}

/// Greatest irradiance on the axis over that of the ideal focus, by the fit of the module.
fn peak_irradiance(m2: f64, t: f64) -> f64 {
    let rise = 2.715 + 2.972 * math::pow(m2, -4.744);
    let saturation = 7.329 + 3.307 * math::pow(m2, -4.692);
    1.0 / (1.0 + rise * t * t / (1.0 + saturation * t))
}

/// By how much a long focus is brighter than the same pattern in a sharp one; `share` is z_R/l of the ideal
/// focus, were it sharp.
fn brightening(m2: f64, alpha: f64, t: f64, growth: f64, share: f64) -> f64 {
    let nearer = share * (2.0 + 2.0 / (m2 * m2)) * t / (1.0 + t);
    let nearness = if alpha > 0.0 { 1.0 + nearer } else { 1.0 - nearer };
    let width = growth * share;
    (nearness * nearness + width * width) / (1.0 + share * share)
}

/// √(M⁴ + 2α²).
pub(crate) fn second_moment_m2(m2: f64, alpha: Twofold) -> Twofold {
    let alpha_squared = alpha.squared();
    (Twofold::product(m2, m2) + alpha_squared + alpha_squared).square_root()
}

/// abs(α)/M².
fn normalised(m2: f64, alpha: Twofold) -> Twofold {
    alpha.magnitude() / Twofold::from(m2)
}

/// 1 + t/2: diffraction and blur added.
fn handbook_growth(t: Twofold) -> Twofold {
    Twofold::ONE + Twofold::from(0.5) * t
}

/// √(1 + t²/4): diffraction and blur added as squares.
fn quadrature_growth(t: Twofold) -> Twofold {
    Twofold::ONE.root_sum_square(Twofold::from(0.5) * t)
}

/// Focal length and shape factor of a thin lens with these two spherical surfaces.
///
/// 1/f = (n − 1)·(1/R₁ − 1/R₂), q = (R₂ + R₁)/(R₂ − R₁). A radius is + where the centre of the sphere
/// lies on the far side of the surface, so a biconvex lens has R₁ > 0 > R₂; ±∞ is a flat.
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/lens_from_radii.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments: a radius must be from
/// 1e-5 to 1e6 m in magnitude, or infinite. [`Error::OutsideModel`] if the focal length or the shape
/// factor is outside its range, as with two equal radii, which make no lens.
///
/// # Example
/// ```
/// use spotwise::model::optics::lens_from_radii;
/// // A zinc selenide meniscus; by hand: 1/f = 1.4028·(1/0.0337 − 1/0.0913).
/// let lens = lens_from_radii(2.4028, 33.7e-3, 91.3e-3)?;
/// assert_eq!((lens.focal_length * 1e6).round(), 38_079.0); // 38.1 mm
/// assert_eq!((lens.shape_factor * 1e4).round(), 21_701.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "lensmaker")]
#[must_use = "the form is the result"]
pub fn lens_from_radii(index: f64, first_radius: f64, second_radius: f64) -> Result<LensForm, Error> {
    let index = check(Param::RefractiveIndex, index)?;
    let first = checked_curvature(Param::FirstRadius, first_radius)?;
    let second = checked_curvature(Param::SecondRadius, second_radius)?;
    let difference = first - second;
    // Two equal curvatures make a focal length that is infinite, and so outside the model.
    let power = (Twofold::from(index) - Twofold::ONE) * difference;
    let focal_length = 1.0 / power.to_f64();
    let (least, greatest) = Param::FocalLength.range();
    if !(least..=greatest).contains(&math::fabs(focal_length)) {
        return Err(Error::OutsideModel { param: Param::FocalLength, value: focal_length, least, greatest });
    }
    let shape_factor = within_model(Param::ShapeFactor, ((first + second) / difference).to_f64())?;
    Ok(LensForm { focal_length: (Twofold::ONE / power).to_f64(), shape_factor })
}

/// 1/R; 0 for a flat.
fn checked_curvature(param: Param, radius: f64) -> Result<Twofold, Error> {
    if radius.is_infinite() {
        return Ok(Twofold::ZERO);
    }
    let (least, greatest) = param.range();
    let radius = if radius < 0.0 {
        check_within(param, radius, -greatest, -least)?
    } else {
        check_within(param, radius, least, greatest)?
    };
    Ok(Twofold::ONE / Twofold::from(radius))
}

/// Third-order spherical aberration of a lens for a distant source, p = −1.
///
/// k = S/128 and C₄ = S/(32·f³); formulas and sources in the [module](self).
///
/// Accuracy: at most 0.75 ulp of the third-order value (`tests/vectors/lens_aberration.csv`). A real
/// thick lens differs from it by up to 4.1 % (`tests/tables/ray_trace.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the lens, in their order.
///
/// # Example
/// ```
/// use spotwise::model::optics::{lens_aberration, LensShape, Singlet};
/// // Zinc selenide at 10.6 µm in its best form: handbooks give k = 0.0187 (from memory).
/// let lens = Singlet { index: 2.402_781, shape: LensShape::BestForm, focal_length: 63.5e-3 };
/// let aberration = lens_aberration(&lens)?;
/// assert_eq!((aberration.blur_coefficient * 1e4).round(), 187.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "Coddington")]
#[must_use = "the aberration is the result"]
pub fn lens_aberration(lens: &Singlet) -> Result<LensAberration, Error> {
    let lens = checked_singlet(lens)?;
    let (blur, coefficient) =
        distant_aberration(lens.index, lens.shape_factor, Twofold::from(lens.focal_length));
    Ok(LensAberration {
        shape_factor: lens.shape_factor.to_f64(),
        blur_coefficient: blur.to_f64(),
        wavefront_coefficient: coefficient.to_f64(),
    })
}

/// What a quartic wavefront aberration does to a focus, relative to the ideal one.
///
/// `aberration_phase` is α, the phase at the 1/e² radius, + where the edge of the beam focuses nearer
/// the lens (a converging singlet), − for a plate. Formulas, domain and measured errors in the
/// [module](self).
///
/// Accuracy of evaluation: at most 0.75 ulp for second moments and handbook estimates, 4 ulp for the
/// fits (`tests/vectors/aberration_growth.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments.
///
/// # Example
/// ```
/// use spotwise::model::optics::aberration_growth;
/// let g = aberration_growth(1.0, 0.5)?;
/// assert_eq!((g.second_moment_growth * 1e3).round(), 1225.0); // √(1 + 2·0.5²) = 1.2247
/// // The diffraction integral gives 1.1016 for 86.5 % of the power; the fit is 0.6 % off.
/// assert!((g.power86_growth / 1.1016 - 1.0).abs() < 0.01);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the growth is the result"]
pub fn aberration_growth(m2: f64, aberration_phase: f64) -> Result<AberrationGrowth, Error> {
    let m2 = check(Param::M2, m2)?;
    let alpha = Twofold::from(check(Param::AberrationPhase, aberration_phase)?);
    let t = normalised(m2, alpha);
    let validity = Validity::of_aberration(t.to_f64());
    let refused = t.to_f64() > REFUSED_ABERRATION;
    let or_nan = |value: f64| if refused { f64::NAN } else { value };
    let second_moment = second_moment_m2(m2, alpha);
    Ok(AberrationGrowth {
        second_moment_m2: second_moment.to_f64(),
        second_moment_growth: (second_moment / Twofold::from(m2)).to_f64(),
        // −2α/M²
        second_moment_shift: (Twofold::from(-2.0) * alpha / Twofold::from(m2)).to_f64(),
        power86_growth: or_nan(power86_growth(m2, t).to_f64()),
        power86_shift: or_nan(power86_shift(alpha, t).to_f64()),
        handbook_growth: handbook_growth(t).to_f64(),
        quadrature_growth: quadrature_growth(t).to_f64(),
        peak_irradiance_ratio: or_nan(peak_irradiance(m2, t.to_f64())),
        normalised_aberration: t.to_f64(),
        validity,
    })
}

/// A waist of a real lens before anything is rounded, for functions that go on from it.
pub(crate) struct RealBeam {
    pub(crate) waist: Twofold,
    m2: Twofold,
    pub(crate) rayleigh_range: Twofold,
    shift: Twofold,
    pub(crate) lens_to_waist: Twofold,
}

impl RealBeam {
    fn rounded(&self) -> AberratedWaist {
        AberratedWaist {
            waist_diameter: self.waist.to_f64(),
            m2: self.m2.to_f64(),
            rayleigh_range: self.rayleigh_range.to_f64(),
            shift: self.shift.to_f64(),
            lens_to_waist: self.lens_to_waist.to_f64(),
        }
    }
}

/// A beam that a lens is about to focus.
struct AtLens {
    /// D.
    diameter: Twofold,
    /// 1/f − c: what is left to converge the light.
    converging: Twofold,
    /// 4·λ/(π·D²), which M² makes the reciprocal of B.
    flat: Twofold,
    /// M² before the lens.
    m2: Twofold,
}

impl AtLens {
    /// The waist of a beam of the same D, but of this M², behind a lens that converges by so much more.
    /// `excess` is M²′² − M⁴.
    fn waist(&self, m2: Twofold, excess: Twofold, added: Twofold) -> RealBeam {
        // κ = 1/f − c + what is added, and 1/B = 4·M²′·λ/(π·D²)
        let convergence = self.converging + added;
        let spread = self.flat * m2;
        let sum = convergence.squared() + spread.squared();
        // The way from the ideal waist, where κ is 1/f − c and M² that of the raw beam, is written
        // out, since the two distances may be all but equal.
        let ideal_spread = (self.flat * self.m2).squared();
        let ideal_sum = self.converging.squared() + ideal_spread;
        let spoilt = self.flat.squared() * excess;
        let shift = -(added * (convergence * self.converging - ideal_spread) + self.converging * spoilt)
            / (sum * ideal_sum);
        RealBeam {
            waist: self.diameter * spread / sum.square_root(),
            m2,
            rayleigh_range: spread / sum,
            shift,
            lens_to_waist: convergence / sum,
        }
    }
}

/// What a real lens makes of a beam, with its waists by both measures.
pub(crate) struct CheckedSingletFocus {
    pub(crate) ideal: CheckedFocus,
    pub(crate) focus: SingletFocus,
    second_moment: RealBeam,
    /// None if refused.
    power86: Option<RealBeam>,
}

impl CheckedSingletFocus {
    fn beam(&self, real: &RealBeam) -> CheckedBeam {
        CheckedBeam {
            waist: real.waist,
            waist_diameter: real.waist.to_f64(),
            rayleigh_range: real.rayleigh_range,
            cone: Cone { half_angle: self.focus.half_angle, validity: self.focus.validity },
        }
    }

    /// The 86.5 %-power waist and its distance from the lens, or why there is none.
    pub(crate) fn power86(&self) -> Result<(CheckedBeam, Twofold), Error> {
        let real = self.power86.as_ref().ok_or_else(|| no_spot(&self.focus))?;
        Ok((self.beam(real), real.lens_to_waist))
    }
}

/// Why no closed form gives the 86.5 %-power spot of a lens.
fn no_spot(focus: &SingletFocus) -> Error {
    let outside = |param, value, least, greatest| Error::OutsideModel { param, value, least, greatest };
    let (_, greatest) = Param::NormalisedAberration.range();
    if focus.normalised_aberration > greatest {
        outside(Param::NormalisedAberration, focus.normalised_aberration, 0.0, greatest)
    } else if focus.clipping_ratio < REFUSED_CLIPPING {
        outside(Param::ClippingRatio, focus.clipping_ratio, REFUSED_CLIPPING, f64::MAX)
    } else {
        let greatest = REFUSED_LONG_FOCUS * math::fabs(focus.ideal.lens_to_waist);
        outside(Param::RayleighRange, focus.ideal.rayleigh_range, 0.0, greatest)
    }
}

/// The beam behind a lens by second moments or by 86.5 % of the power, with the flags of the lens, and what
/// else is known of the focus.
pub(crate) fn checked_singlet_beam(
    raw: &Beam,
    waist_to_lens: f64,
    lens: &Singlet,
    clear_aperture: f64,
    measure: SpotMeasure,
) -> Result<(CheckedBeam, SingletFocus), Error> {
    let found = checked_focus_singlet(raw, waist_to_lens, lens, clear_aperture)?;
    let beam = match measure {
        SpotMeasure::SecondMoment => found.beam(&found.second_moment),
        SpotMeasure::Power86 | SpotMeasure::Handbook => found.power86()?.0,
    };
    Ok((beam, found.focus))
}

/// What a single-piece lens makes of a raw beam whose waist lies `waist_to_lens` upstream: by second
/// moments, by 86.5 % of the power, and by the handbook.
///
/// The conjugate factor is that of the beam's own wavefront at the lens. `clear_aperture` is the
/// diameter of the lens's or its mount's clear aperture, infinite if it is none of your concern; clipping is
/// flagged and its loss told, not computed into the spots: for that see
/// [`wave_widths`](super::wave_widths). Formulas, domain and measured errors in the [module](self).
///
/// Accuracy of evaluation: at most 0.75 ulp for the ideal lens, second moments and handbook estimates,
/// 4 ulp for the fits and the power passed, 6 ulp for the greatest irradiance
/// (`tests/vectors/focus_singlet.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments and their fields;
/// [`Error::OutsideModel`] as [`focus_through_lens`](super::focus_through_lens), for a clipping ratio
/// below 0.2, and if the aberrated M², waist or cone is outside its range. A normalised aberration above
/// 1.7, a clipping ratio below 1.2 and a Rayleigh range above a fifth of the distance from the lens to
/// the waist are no errors: the 86.5 %-power fields are NaN then, under [`Validity::NO_POWER86`].
///
/// # Example
/// ```
/// use spotwise::model::optics::{focus_singlet, Beam, LensShape, Singlet};
/// // 10.6 µm, M² = 1.2, 9 mm on a 38.1 mm (1.5 inch) plano-convex lens of zinc selenide.
/// let raw = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 9e-3 };
/// let lens = Singlet { index: 2.4028, shape: LensShape::CurvedSideFirst, focal_length: 38.1e-3 };
/// let focus = focus_singlet(&raw, 0.0, &lens, 18e-3)?;
/// // By hand: α = π·0.02859·9⁴/(2·0.0106·38.1³) = 0.5026 (lengths in mm), t = 0.4188.
/// assert_eq!((focus.aberration_phase * 1e3).round(), 503.0);
/// assert_eq!((focus.ideal.waist_diameter * 1e7).round(), 686.0); // an ideal lens promises 68.6 µm
/// assert_eq!((focus.power86.waist_diameter * 1e7).round(), 745.0); // this one gives 74.5 µm
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "spherical aberration")]
#[must_use = "the focus is the result"]
pub fn focus_singlet(
    raw: &Beam,
    waist_to_lens: f64,
    lens: &Singlet,
    clear_aperture: f64,
) -> Result<SingletFocus, Error> {
    checked_focus_singlet(raw, waist_to_lens, lens, clear_aperture).map(|found| found.focus)
}

fn checked_focus_singlet(
    raw: &Beam,
    waist_to_lens: f64,
    lens: &Singlet,
    clear_aperture: f64,
) -> Result<CheckedSingletFocus, Error> {
    let raw = before_lens(raw, waist_to_lens)?;
    let lens = checked_singlet(lens)?;
    let clear_aperture = check_clear_aperture(clear_aperture)?;
    singlet_focus_of(&raw, &lens, clear_aperture)
}

/// What a checked lens makes of a checked beam.
pub(crate) fn singlet_focus_of(
    raw: &BeforeLens,
    lens: &CheckedSinglet,
    clear_aperture: f64,
) -> Result<CheckedSingletFocus, Error> {
    let ideal = focus_of(raw, lens.focal_length)?;

    // The beam at the lens: D and c = s/(s² + z_R²), here without overflow.
    let u = raw.rayleigh_ranges();
    let diameter = raw.diameter_at_lens();
    let curvature = u / raw.beam.rayleigh_range / (Twofold::ONE + u.squared());
    let (clipping_ratio, transmitted) = clipped(clear_aperture, diameter)?;

    // 1/f − c: what is left to converge the light
    let converging = Twofold::ONE / Twofold::from(lens.focal_length) - curvature;
    let conjugate = conjugate_of(lens.focal_length, curvature);
    let coefficient = wavefront_coefficient(lens.index, lens.shape_factor, conjugate, lens.focal_length);
    let alpha = aberration_phase_of(raw.wavelength, coefficient, diameter);
    let t = normalised(raw.m2, alpha);

    let at_lens = AtLens {
        diameter,
        converging,
        flat: Twofold::from(4.0 * raw.wavelength) / (Twofold::PI * diameter.squared()),
        m2: Twofold::from(raw.m2),
    };
    // 4·C₄·w²
    let added = coefficient * diameter.squared();
    let m2 = second_moment_m2(raw.m2, alpha);
    // M²′² − M⁴ = 2α²
    let second_moment = at_lens.waist(m2, Twofold::from(2.0) * alpha.squared(), added);
    within_model(Param::M2, m2.to_f64())?;
    within_model(Param::WaistDiameter, second_moment.waist.to_f64())?;
    let cone = checked_cone(&ROUND, (second_moment.waist / second_moment.rayleigh_range).to_f64() * 0.5)?;

    let long_focus = math::fabs((ideal.beam.rayleigh_range / ideal.lens_to_waist).to_f64());
    let limits = Validity::of_aberration(t.to_f64())
        .union(Validity::of_clipping(clipping_ratio))
        .union(Validity::of_long_focus(long_focus));
    let growth = power86_growth(raw.m2, t);
    let power86 = (!limits.contains(Validity::NO_POWER86)).then(|| {
        // M⁴·(F² − 1)
        let squares = (growth - Twofold::ONE) * (growth + Twofold::ONE) * at_lens.m2.squared();
        at_lens.waist(growth * at_lens.m2, squares, added / power86_weakening(t))
    });
    let peak_irradiance_ratio = if power86.is_some() {
        let share = (at_lens.flat * at_lens.m2 / converging).to_f64();
        let brighter = brightening(raw.m2, alpha.to_f64(), t.to_f64(), growth.to_f64(), share);
        peak_irradiance(raw.m2, t.to_f64()) * brighter
    } else {
        f64::NAN
    };

    let relative_focus_shift = math::fabs((ideal.focus_shift / Twofold::from(lens.focal_length)).to_f64());
    let cone =
        ideal.beam.cone.wider(cone).flagged(limits).flagged(Validity::of_focus_shift(relative_focus_shift));
    let focus = SingletFocus {
        ideal: ideal.focused,
        second_moment: second_moment.rounded(),
        power86: power86.as_ref().map_or(AberratedWaist::NONE, RealBeam::rounded),
        handbook_diameter: (handbook_growth(t) * ideal.beam.waist).to_f64(),
        quadrature_diameter: (quadrature_growth(t) * ideal.beam.waist).to_f64(),
        peak_irradiance_ratio,
        shape_factor: lens.shape_factor.to_f64(),
        aberration_phase: alpha.to_f64(),
        normalised_aberration: t.to_f64(),
        clipping_ratio,
        transmitted,
        relative_focus_shift,
        relative_rayleigh_range: long_focus,
        lens_to_focus: (Twofold::ONE / converging).to_f64(),
        half_angle: cone.half_angle,
        validity: cone.validity,
    };
    Ok(CheckedSingletFocus { ideal, focus, second_moment, power86 })
}

impl AberratedWaist {
    /// All that is known of a waist that the model refuses.
    const NONE: Self = Self {
        waist_diameter: f64::NAN,
        m2: f64::NAN,
        rayleigh_range: f64::NAN,
        shift: f64::NAN,
        lens_to_waist: f64::NAN,
    };
}

/// The collimated beam that a lens focuses to the smallest spot: larger ones are spoilt by
/// aberration, smaller ones by diffraction.
///
/// The spot 4·M²·λ·f/(π·D)·growth is least where t = 1/√6 by second moments, t = ⅔ by the handbook's
/// sum, and where d(ln F)/d(ln t) = ¼ by 86.5 % of the power (t from 0.68 to 0.95). Then
/// D⁴ = 2·λ·f³·α/(π·k). With [`LensShape::BestForm`] it is the smallest spot of any singlet of this
/// material and focal length. The raw beam is taken for collimated and the focus for sharp: the spot that the
/// lens makes lies nearer and is smaller, by less than twice the share `relative_rayleigh_range`.
///
/// Accuracy of evaluation: at most 4 ulp (`tests/vectors/smallest_spot.csv`). By 86.5 % the minimum
/// is flat: a beam 10 % narrower or wider gives a spot larger by at most 2.2 %.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments and their fields; the
/// focal length must be positive. [`Error::OutsideModel`] if the beam, its cone or the spot is outside
/// its range.
///
/// # Example
/// ```
/// use spotwise::model::optics::{smallest_spot, LensShape, Singlet, SpotMeasure};
/// // A 127 mm best-form lens of zinc selenide with a perfect beam at 10.6 µm.
/// let lens = Singlet { index: 2.402_781, shape: LensShape::BestForm, focal_length: 127e-3 };
/// let best = smallest_spot(10.6e-6, 1.0, &lens, SpotMeasure::Handbook)?;
/// // By hand: D⁴ = 2·λ·f³·(2/3)/(π·k) with k = 0.018658.
/// assert_eq!((best.diameter_at_lens * 1e4).round(), 265.0); // 26.5 mm
/// assert_eq!((best.spot_diameter * 1e6).round(), 86.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the spot is the result"]
pub fn smallest_spot(
    wavelength: f64,
    m2: f64,
    lens: &Singlet,
    measure: SpotMeasure,
) -> Result<SmallestSpot, Error> {
    let wavelength = check(Param::Wavelength, wavelength)?;
    let m2 = check(Param::M2, m2)?;
    let lens = checked_singlet(lens)?;
    let f = Twofold::from(check(Param::FocalLength, lens.focal_length)?);

    let number = Twofold::from;
    let (t, growth) = match measure {
        SpotMeasure::SecondMoment => {
            // t = 1/√6, √(1 + 2t²)
            (Twofold::ONE / number(6.0).square_root(), (number(4.0) / number(3.0)).square_root())
        }
        SpotMeasure::Power86 => {
            let t = number(best_normalised_aberration(saturation(m2).to_f64()));
            (t, power86_growth(m2, t))
        }
        SpotMeasure::Handbook => {
            let t = number(2.0) / number(3.0);
            (t, handbook_growth(t))
        }
    };
    let alpha = t * number(m2);
    // α = π·S·D⁴/(256·λ·f³)
    let sum = aberration_sum(lens.index, lens.shape_factor, -Twofold::ONE);
    let fourth_power = number(256.0) * number(wavelength) * f.squared() * f * alpha / (Twofold::PI * sum);
    let diameter = fourth_power.square_root().square_root();
    let diameter_at_lens = within_model(Param::DiameterAtLens, diameter.to_f64())?;
    let cone = checked_cone(&ROUND, (diameter / f).to_f64() * 0.5)?;
    // d = growth·4·M²·λ·f/(π·D)
    let spot = growth * number(4.0) * Twofold::product(m2, wavelength) * f / (Twofold::PI * diameter);
    let relative_rayleigh_range = (spot / growth / diameter).to_f64();
    Ok(SmallestSpot {
        diameter_at_lens,
        spot_diameter: within_model(Param::WaistDiameter, spot.to_f64())?,
        aberration_phase: alpha.to_f64(),
        normalised_aberration: t.to_f64(),
        relative_rayleigh_range,
        half_angle: cone.half_angle,
        validity: cone
            .validity
            .union(Validity::of_aberration(t.to_f64()))
            .union(Validity::of_focus_shift(relative_rayleigh_range)),
    })
}

/// The t at which F(t)/t^¼ is least, where F = 1 + t²/(1 + b·t): the root of
/// 3b·t³ + (7 − b²)·t² − 2b·t − 1.
fn best_normalised_aberration(b: f64) -> f64 {
    // The cubic is convex and positive at 1 for every b from 1.8 to 2.8, so that Newton's steps fall
    // onto the root from above; six reach it.
    let mut t = 1.0;
    for _ in 0..6 {
        let value = ((3.0 * b * t + (7.0 - b * b)) * t - 2.0 * b) * t - 1.0;
        let slope = (9.0 * b * t + 2.0 * (7.0 - b * b)) * t - 2.0 * b;
        t -= value / slope;
    }
    t
}
