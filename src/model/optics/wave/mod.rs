//! The radial Fresnel integral: the rigorous focus of a clipped, aberrated, partially coherent beam.
//!
//! | symbol | meaning                                                  | unit | valid             |
//! |--------|----------------------------------------------------------|------|-------------------|
//! | λ, k₀  | vacuum wavelength, 2π/λ                                  | m, 1/m | 1e-8 … 1e-2     |
//! | M²     | beam propagation ratio before aperture and aberration    | 1    | 1 … 5             |
//! | D, w   | 1/e² **diameter** at the lens before the aperture, D/2   | m    | 1e-9 … 10         |
//! | X      | clipping ratio, clear aperture over D                    | 1    | ≥ 0.2, ∞          |
//! | L      | from the lens to where the wave would converge           | m    | 1e-5 … 1e4        |
//! | α      | quartic phase at r = w, + where the edge focuses nearer  | rad  | −6 … 6            |
//! | z, l   | plane, from L on, + away from the lens; l = L + z        | m    | l > 0             |
//! | x      | radius at the lens over w                                | 1    |                   |
//! | ZL     | π·w²/λ                                                   | m    |                   |
//! | β      | normalised defocus, + toward the lens                    | 1    | −30 … 30          |
//! | v      | normalised radius k₀·w·ρ/l                               | 1    | v/2 ≤ 60          |
//! | σ      | smear of partial coherence in v, for each axis           | 1    |                   |
//!
//! β = ZL·(1/l − 1/L) = −ZL·z/(L·l)
//! U(v) = 2·∫₀^X x·exp(−x²)·exp(i·(αx⁴ − βx²))·J₀(vx) dx                                   \[1\]
//! irradiance over that of the ideal focus with M² = 1: abs(U)²·(L/l)²
//! M² > 1: abs(U)² convolved in the plane with exp(−r²/(2σ²))/(2πσ²), σ² = M⁴ − 1             \[2\]
//! irradiance over that of the ideal focus of the same M²: M⁴ times the convolved one times (L/l)²
//! power within v: ∫₀^v I·v dv, of which 1 − exp(−2X²) is the whole
//!
//! The Fresnel integral over a round aperture with a Gaussian of 1/e² radius w and unit peak, divided by
//! its value π·w²/(λ·L) on the axis of the ideal focus, is U. The power follows from Parseval's
//! theorem of the Hankel transform: ∫₀^∞ abs(U)²·v dv = ∫₀^X 4·exp(−2x²)·x dx. A Gaussian Schell-model
//! beam is a Gaussian whose degree of coherence between two points depends on their
//! distance alone and is Gaussian too; it is the sum of copies of one coherent wave, tilted by angles of
//! normal distribution, and in any plane behind the lens a tilt moves the pattern: hence the
//! convolution. Its width follows from the unclipped spot, whose abs(U)² = exp(−v²/2) must grow to
//! exp(−v²/(2·M⁴)): variances of 1 and σ² for each axis must add up to M⁴.
//!
//! On the axis, without aberration, U has the closed form
//! abs(U)² = ((1 − e)² + 4·e·sin²(βX²/2))/(1 + β²) with e = exp(−X²). `tests/wave.rs` holds the
//! results against it, against the Gaussian beam, the uniformly lit aperture and moments.
//!
//! # How it is computed
//! By panels of a 24-point Gauss–Legendre rule, in x and in v, whose number follows from an error bound
//! worked out beforehand (`quadrature.rs`, `pupil.rs`, `profile.rs`); there is no setting. Every
//! result carries the bound on its error. It holds for the integrals above and says nothing of
//! how well they describe a real beam. All sums run in a fixed order: the same bits everywhere.
//!
//! Measured against values computed by other means to 12 digits (43 planes, α to 2.4, M² to 2.5): irradiance
//! 1.1e-11, diameters 4e-12 of the value, which is their last digit; on the axis against the closed
//! form with erfc (α to 4): 5e-14. The bounds there are 2e-10 for diameters and 4e-13 for irradiance at most.
//!
//! # Cost
//! Evaluations of J₀ and, for M² > 1, of I₀, time on one desktop core, for α = 0.5, β = 1 (X = 2, and
//! without an aperture, where the integral must reach on until exp(−x²) is nothing):
//!
//! | function                          | X = 2, M² = 1    | X = 2, M² = 1.2 | X = ∞, M² = 1.2  |
//! |-----------------------------------|------------------|-----------------|------------------|
//! | `wave_irradiance`                 | 48, 20 µs        | 3.5 k, 0.15 ms  | 20 k, 1 ms       |
//! | `wave_power`                      | 1.2 k, 45 µs     | 4.4 k, 0.2 ms   | 21 k, 1 ms       |
//! | `wave_widths`                     | 3.5 k, 0.2 ms    | 12 k, 0.6 ms    | 47 k, 3 ms       |
//! | `wave_focus`, smallest 86.5 %     | 47 k, 3 ms       | 190 k, 14 ms    | 870 k, 50 ms     |
//! | `wave_focus`, peak                | 3 k, 0.4 ms      | 96 k, 4 ms      | 560 k, 30 ms     |
//! | `wave_depth_of_focus`, Rayleigh   | 79 k, 7 ms       | 370 k, 30 ms    | 1.7 M, 0.13 s    |
//!
//! State a clear aperture where there is one: it saves time besides being true. The cost
//! grows with abs(α) and abs(β); at α = 6 without an aperture one plane may take up to 1 s, the
//! smallest spot up to 4 s. No heap; up to 52 kB of stack (48 kB for single planes, 16 kB for a map).
//!
//! # Limits
//! A width is refused as [`Param::NormalisedRadius`] if the profile must be followed beyond the tables.
//! Of 1764 planes over the whole range (M² 1 to 5, X from 0.2, α −3 to 6, β ±30) that befell 15: M² of
//! 1.001 or 1.05, X ≥ 2, abs(α) ≥ 3 and abs(β) ≥ 20 of opposite sign.
//! Not modelled: vector effects and cones beyond the paraxial, places off the axis of the lens, decentring,
//! other aberrations, a beam that is not round, and mixtures of modes other than Gaussian Schell: at
//! equal M², a mixture of TEM₀₀ and TEM₀₁* has an 86.5 % spot smaller by up to 6.4 %. For M² > 1 the
//! aperture clips every part of the beam alike.
//!
//! \[1\] J. W. Goodman, *Introduction to Fourier Optics*, the Fresnel diffraction integral; from memory,
//! derived again as told above.
//! \[2\] L. Mandel, E. Wolf, *Optical Coherence and Quantum Optics*, Gaussian Schell-model sources; from
//! memory, derived again as told above.

mod bessel;
mod checked;
mod focus;
mod map;
mod point;
mod profile;
mod pupil;
mod quadrature;
mod search;
mod widths;

pub(crate) use checked::{CheckedWave, checked_wave};
pub use focus::wave_focus;
pub(crate) use focus::{Best, Least};
pub use map::{wave_map, wave_map_workspace};
pub use point::{wave_irradiance, wave_power};
pub(crate) use search::root;
pub use widths::wave_widths;

use crate::error::{Error, Param};
use crate::validity::Validity;

/// A converging wave as a lens hands it on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wave {
    /// Vacuum wavelength λ in metres.
    pub wavelength: f64,
    /// Beam propagation ratio M² of the beam before aperture and aberration, 1 to 5: a Gaussian
    /// Schell-model beam.
    pub m2: f64,
    /// 1/e² (D4σ) **diameter** at the lens before the aperture, in metres.
    pub diameter_at_lens: f64,
    /// **Diameter** of the clear aperture in metres; infinite for none.
    pub clear_aperture: f64,
    /// From the lens to where the unaberrated wave would converge, in metres: the radius of its wavefront.
    pub lens_to_focus: f64,
    /// Quartic wavefront aberration α at the 1/e² radius in radians, −6 to 6, + where the edge focuses
    /// nearer the lens.
    pub aberration_phase: f64,
}

/// Irradiance at one point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaveIrradiance {
    /// Irradiance over that at the focus of the same beam without aperture and aberration.
    pub irradiance_ratio: f64,
    /// Irradiance for each watt before the aperture, in 1/m².
    pub irradiance_per_watt: f64,
    /// Bound on the numerical error of `irradiance_ratio`.
    pub error: f64,
    /// Half angle of the cone behind the aperture, in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted: only the cone is in question.
    pub validity: Validity,
}

/// What is known of a whole map of irradiances.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaveMap {
    /// Bound on the numerical error of every irradiance ratio.
    pub error: f64,
    /// Half angle of the cone behind the aperture, in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted: only the cone is in question.
    pub validity: Validity,
}

/// Power inside a circle about the axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WavePower {
    /// Share of the power before the aperture.
    pub share: f64,
    /// Share of the power that passes the aperture.
    pub share_of_transmitted: f64,
    /// Bound on the numerical error of `share`.
    pub error: f64,
    /// Half angle of the cone behind the aperture, in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted: only the cone is in question.
    pub validity: Validity,
}

/// Widths of a wave in one plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaveWidths {
    /// Irradiance on the axis over that at the focus of the same beam without aperture and aberration.
    pub irradiance_ratio: f64,
    /// **Diameter** of the outermost circle at 1/e² of the greatest irradiance in this plane, in metres.
    pub diameter_1e2: f64,
    /// **Diameter** of the outermost circle at half the greatest irradiance in this plane, in metres.
    pub fwhm: f64,
    /// **Diameter** that holds 86.4665 % of the transmitted power, in metres.
    pub diameter_power86: f64,
    /// Share of the power that passes the aperture.
    pub transmitted: f64,
    /// Bound on the relative numerical error of the diameters.
    pub error: f64,
    /// Half angle of the cone behind the aperture, in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted: only the cone is in question.
    pub validity: Validity,
}

/// What makes a plane the best focus. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum FocusMeasure {
    /// The greatest irradiance on the axis.
    PeakIrradiance = 1,
    /// The smallest diameter that holds 86.5 % of the transmitted power.
    Power86 = 2,
    /// The smallest second moment; only without clipping, where it has a closed form.
    SecondMoment = 3,
}

impl FocusMeasure {
    /// Every measure, in the order of its code.
    pub const ALL: [Self; 3] = [Self::PeakIrradiance, Self::Power86, Self::SecondMoment];

    /// The measure with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub fn from_code(code: u32) -> Result<Self, Error> {
        Self::ALL
            .into_iter()
            .find(|measure| *measure as u32 == code)
            .ok_or(Error::UnknownChoice { param: Param::FocusMeasure, value: code })
    }
}

/// The best focus of a wave by one measure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaveFocus {
    /// From where the unaberrated wave would converge to this plane in metres, + away from the lens.
    pub z: f64,
    /// Irradiance on the axis there over that at the focus of the same beam without aperture and
    /// aberration.
    pub irradiance_ratio: f64,
    /// **Diameter** that holds 86.4665 % of the transmitted power there, in metres.
    pub diameter_power86: f64,
    /// Second-moment (D4σ) **diameter** there in metres; NaN for a clipped beam, which has none.
    pub diameter_d4sigma: f64,
    /// Bound on the relative numerical error of the least diameter or greatest irradiance.
    pub error: f64,
    /// Half angle of the cone behind the aperture, in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted: only the cone is in question.
    pub validity: Validity,
}

/// A profile that would have to reach beyond the tables, at the latest at this v.
fn no_room(v: f64) -> Error {
    let (least, greatest) = Param::NormalisedRadius.range();
    Error::OutsideModel { param: Param::NormalisedRadius, value: 0.5 * v, least, greatest }
}
