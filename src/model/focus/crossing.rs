//! Where two caustics cross: which of two beams with one focus height has the smaller spot.
//!
//! | symbol | meaning                                             | unit | valid       |
//! |--------|-----------------------------------------------------|------|-------------|
//! | d₁, d₂ | waist **diameters** of the two beams, at one height | m    | 1e-9 … 10   |
//! | θ₁, θ₂ | far-field **full** angles 4·M²·λ/(π·d)              | rad  | ≤ 0.6       |
//! | k      | M²·λ                                                | m    |             |
//! | z×     | offset from the common waist at which they cross    | m    | either side |
//!
//! d(z)² = d₁² + θ₁²·z² = d₂² + θ₂²·z² at
//! z× = √((d₂² − d₁²)/(θ₁² − θ₂²))
//!    = (π/4)·d₁·d₂·√((d₂ − d₁)·(d₂ + d₁)/((k₁·d₂ − k₂·d₁)·(k₁·d₂ + k₂·d₁)))
//! d(z×) = √(d₁² + θ₁²·z×²)
//!
//! The beam with the smaller waist has the smaller spot up to z× and the larger one beyond, on either side
//! alike. There is a crossing only if the smaller waist also spreads by the larger angle; otherwise one beam
//! is the smaller everywhere.
//!
//! With one k, as behind two ideal lenses on one beam, z× = √(z_R1·z_R2) and d(z×) = √(d₁² + d₂²).
//!
//! Derived here from d(z) of [`model::optics`](crate::model::optics). A surface whose heights span H, with focus
//! at mid-height, has its worst places H/2 from the waist: the worst spots of two lenses swap where H = 2·z×.

use crate::error::Error;
use crate::model::optics::{Beam, CheckedBeam, checked_beam};
use crate::model::twofold::Twofold;
use crate::validity::Validity;

/// Which of two beams has the smaller spot. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum Sharper {
    /// Neither: their spots are equal.
    Neither = 0,
    /// The first.
    First = 1,
    /// The second.
    Second = 2,
}

impl Sharper {
    /// Which of two beams it is, from the sign of what the second has more of.
    fn by(second_less_first: Twofold) -> Self {
        let more = second_less_first.to_f64();
        if more > 0.0 {
            Self::First
        } else if more < 0.0 {
            Self::Second
        } else {
            Self::Neither
        }
    }
}

/// Where the spots of two beams are equally large.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossing {
    /// Distance from the common waist in metres, on either side.
    pub offset: f64,
    /// Spot **diameter** of both there in metres, 1/e² (D4σ).
    pub diameter: f64,
}

/// Which of two beams is the sharper, and where that changes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CausticCrossing {
    /// Where their spots are equally large; none if one beam has the smaller spot at every offset but that of
    /// the waist, or if the two are alike.
    pub crossing: Option<Crossing>,
    /// Which has the smaller waist.
    pub sharper_in_focus: Sharper,
    /// Which has the smaller spot far from the waist.
    pub sharper_far_off: Sharper,
    /// Greatest 1/e² half angle of the beams involved, in radians.
    pub half_angle: f64,
    /// How far the paraxial formulas may be trusted for these beams.
    pub validity: Validity,
}

/// A beam by its waist and its k = M²·λ, of which only the ratio to that of the other beam and the unit count.
struct Caustic {
    waist: Twofold,
    spread: Twofold,
}

/// Crossing of two caustics before it is rounded.
#[derive(Clone, Copy)]
pub(crate) struct CrossingPoint {
    pub(crate) offset: Twofold,
    pub(crate) diameter: Twofold,
}

impl CrossingPoint {
    pub(crate) fn rounded(&self) -> Crossing {
        Crossing { offset: self.offset.to_f64(), diameter: self.diameter.to_f64() }
    }
}

/// Which is sharper in focus and far off, and the crossing. `unit` is what both spreads leave out of k.
fn compare(first: &Caustic, second: &Caustic, unit: f64) -> (Sharper, Sharper, Option<CrossingPoint>) {
    let (d1, d2) = (first.waist, second.waist);
    // k₁·d₂ and k₂·d₁, which are θ₁ and θ₂ times one number
    let (angle1, angle2) = (first.spread * d2, second.spread * d1);
    let (wider, opener) = (d2 - d1, angle1 - angle2);
    let in_focus = Sharper::by(wider);
    let far_off = Sharper::by(-opener);
    // The smaller waist must have the larger angle.
    let swap =
        matches!((in_focus, far_off), (Sharper::First, Sharper::Second) | (Sharper::Second, Sharper::First));
    let crossing = swap.then(|| {
        let ratio = (wider / opener) * ((d2 + d1) / (angle1 + angle2));
        // z×/(d₁·d₂) without the unit
        let reach = ratio.square_root();
        let quarter_pi = Twofold::PI * Twofold::from(0.25);
        // θ₁·z× = k₁·d₂·√(…), free of the unit
        let rise = angle1 * reach;
        CrossingPoint {
            offset: quarter_pi * d1 * d2 * reach / Twofold::from(unit),
            diameter: d1.root_sum_square(rise),
        }
    });
    (in_focus, far_off, crossing)
}

/// Where the caustics of two beams cross that were computed, not given; none if they do not.
pub(crate) fn crossing_of(first: &CheckedBeam, second: &CheckedBeam) -> Option<CrossingPoint> {
    let quarter_pi = Twofold::PI * Twofold::from(0.25);
    // k = π·d₀²/(4·z_R)
    let caustic = |beam: &CheckedBeam| Caustic {
        waist: beam.waist,
        spread: quarter_pi * beam.waist.squared() / beam.rayleigh_range,
    };
    compare(&caustic(first), &caustic(second), 1.0).2
}

/// Which of two beams with their waists at one height has the smaller spot, and the offset beyond which it is
/// the other.
///
/// Formulas in the [module](self). That one beam is the sharper everywhere is no error but a finding: there is
/// then no crossing.
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/caustic_crossing.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the first beam, then of the second;
/// [`Error::OutsideModel`] if the half angle of either exceeds 0.3 rad.
///
/// # Example
/// ```
/// use spotwise::model::focus::{Sharper, caustic_crossing};
/// use spotwise::model::optics::Beam;
/// // A short and a long lens on one beam of 10.6 µm; with M² = 1 the waists of 85 and 142 µm have
/// // Rayleigh ranges of π·85²/(4·10.6) = 535.3 µm and π·142²/(4·10.6) = 1494.0 µm.
/// let beam = |waist_diameter| Beam { wavelength: 10.6e-6, m2: 1.0, waist_diameter };
/// let found = caustic_crossing(&beam(85e-6), &beam(142e-6))?;
/// let crossing = found.crossing.expect("the longer lens spreads less");
/// assert_eq!((crossing.offset * 1e6).round(), 894.0); // √(535.3·1494.0) µm
/// assert_eq!((crossing.diameter * 1e7).round(), 1655.0); // √(85² + 142²) = 165.5 µm
/// assert_eq!((found.sharper_in_focus, found.sharper_far_off), (Sharper::First, Sharper::Second));
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "lens choice")]
#[must_use = "the crossing is the result"]
pub fn caustic_crossing(first: &Beam, second: &Beam) -> Result<CausticCrossing, Error> {
    let (checked1, checked2) = (checked_beam(first)?, checked_beam(second)?);
    // Of two beams of one laser the wavelength is left out, so that the products are exact.
    let one_laser = first.wavelength == second.wavelength;
    let caustic = |beam: &Beam| Caustic {
        waist: Twofold::from(beam.waist_diameter),
        spread: if one_laser { Twofold::from(beam.m2) } else { Twofold::product(beam.m2, beam.wavelength) },
    };
    let unit = if one_laser { first.wavelength } else { 1.0 };
    let (sharper_in_focus, sharper_far_off, crossing) = compare(&caustic(first), &caustic(second), unit);
    let cone = checked1.cone.wider(checked2.cone);
    Ok(CausticCrossing {
        crossing: crossing.map(|point| point.rounded()),
        sharper_in_focus,
        sharper_far_off,
        half_angle: cone.half_angle,
        validity: cone.validity,
    })
}
