//! Where to set the focus of an astigmatic beam over a surface that is not flat.
//!
//! | symbol   | meaning                                                          | unit |
//! |----------|------------------------------------------------------------------|------|
//! | h, l     | heights of the highest and the lowest place, + away from the lens | m   |
//! | H        | half the range (l − h)/2                                         | m    |
//! | f        | where the beam's own z = 0 is put                                | m    |
//! | m        | middle of the surface as the beam counts it, (h + l)/2 − f       | m    |
//! | dx, dy   | diameters in the two axes                                        | m    |
//!
//! *Worst* is the larger of dx and dy at the worst height: what a stroke along either axis may meet, and
//! what decides the finest detail. (Growths would compare each axis with its own waist, which is not what
//! the drawing sees.)
//!
//! dx² and dy² are parabolas in z, so that the larger of dx and dy is strictly convex: the worst height is an
//! end of the surface, and at the least bad focus both ends are equally bad, unless the surface is flat.
//! Seen from m there are four parabolas, A + B·(m − c)² with A = d₀², B = (d₀/z_R)² and c = z₀ ± H: each axis
//! at each end. The least of the greatest of them is the greatest, over all pairs, of the least of the
//! greater of two: of two parabolas, either the vertex of one, where the other is lower, or the place between
//! their vertices where they cross. No search, and no cancellation but that of the heights themselves:
//! with p = B₁·s², q = B₂·s², e = A₂ − A₁, s = c₂ − c₁ and p ≥ q they cross at c₁ + s·τ,
//! τ = (q + e)/(q + √(q² + (p − q)·(q + e))), or from the middle between the vertices
//! τ − ½ = (2e − (p − q)·τ)/(2·(q + √(q² + (p − q)·(q + e))))
//!
//! That pairs suffice in one dimension is Helly's theorem for intervals. Derived here; held against a dense
//! search in `tests/properties/height_budget.rs`.

use super::focus_height::{checked_heights, half};
use crate::error::Error;
use crate::model::math;
use crate::model::optics::{AstigmaticBeam, CheckedBeam, checked_astigmatic};
use crate::model::twofold::Twofold;
use crate::validity::Validity;

/// The focus height of an astigmatic beam that is least bad over a surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AstigmaticFocusBetween {
    /// Where to put the beam's z = 0, in metres, + away from the lens.
    pub focus_z: f64,
    /// The larger of the two **diameters** at the worst height in metres, which no other focus height betters.
    pub worst_diameter: f64,
    /// Diameter in x at the highest place in metres, 1/e² (D4σ).
    pub highest_diameter_x: f64,
    /// Diameter in y at the highest place in metres.
    pub highest_diameter_y: f64,
    /// Diameter in x at the lowest place in metres.
    pub lowest_diameter_x: f64,
    /// Diameter in y at the lowest place in metres.
    pub lowest_diameter_y: f64,
    /// Greatest 1/e² half angle of the beams involved, in radians.
    pub half_angle: f64,
    /// How far the paraxial formulas may be trusted for this beam.
    pub validity: Validity,
}

/// A squared diameter against the place m: A + B·(m − c)².
#[derive(Clone, Copy)]
struct Parabola {
    least: Twofold,
    steepness: Twofold,
    vertex: Twofold,
}

impl Parabola {
    fn of(axis: &CheckedBeam, vertex: Twofold) -> Self {
        Self { least: axis.waist.squared(), steepness: (axis.waist / axis.rayleigh_range).squared(), vertex }
    }
}

/// A place m and the square of the diameter there.
#[derive(Clone, Copy)]
struct Worst {
    place: Twofold,
    squared: Twofold,
}

/// Where the greater of two parabolas is least.
fn least_of_greater(one: &Parabola, other: &Parabola) -> Worst {
    let steeper_first = !(one.steepness - other.steepness).is_negative();
    let (first, second) = if steeper_first { (one, other) } else { (other, one) };
    let way = second.vertex - first.vertex;
    let p = first.steepness * way.squared();
    let q = second.steepness * way.squared();
    let e = second.least - first.least;
    // At the vertex of the first the second is higher by this much.
    let above = q + e;
    if above.to_f64() <= 0.0 {
        return Worst { place: first.vertex, squared: first.least };
    }
    if (p - e).to_f64() <= 0.0 {
        return Worst { place: second.vertex, squared: second.least };
    }
    let root = q + (q.squared() + (p - q) * above).square_root();
    let share = above / root;
    // τ − ½, which is nothing at all where both are alike.
    let beyond_middle = (e + e - (p - q) * share) / (root + root);
    Worst {
        place: half(first.vertex + second.vertex) + beyond_middle * way,
        squared: first.least + p * share.squared(),
    }
}

/// d₀·√(1 + (z/z_R)²), z from the waist of the axis.
fn diameter(axis: &CheckedBeam, z: Twofold) -> f64 {
    (axis.waist * Twofold::ONE.root_sum_square(axis.rayleigh_ranges_in(z))).to_f64()
}

/// The focus height that makes the larger diameter of an astigmatic beam, at the worst height of a surface
/// from `highest_z` to `lowest_z`, as small as can be. Both heights count from the same datum, + away from
/// the lens; the beam's own z = 0 is put at `focus_z`.
///
/// At both ends the larger of the two diameters is then [`AstigmaticFocusBetween::worst_diameter`]; which axis
/// that is at which end, the four diameters tell. With both axes alike the answer is that of
/// [`focus_between`](super::focus_between), from their common waist. Formulas in the [module](self).
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/focus_between_astigmatic.csv`); `focus_z` at most 1 ulp, but where
/// it is the small difference of the surface's height and the beam's: then 2⁻⁹⁸ of those.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, x before y, then for `highest_z`,
/// then for `lowest_z`, which must not be less than it; [`Error::OutsideModel`] if the half angle of an axis
/// exceeds 0.3 rad.
///
/// # Example
/// ```
/// use spotwise::model::optics::{AstigmaticBeam, Axis};
/// use spotwise::model::surface::focus_between_astigmatic;
/// let axis = |waist_z| Axis { m2: 5.0, waist_diameter: 30e-6, waist_z };
/// let beam = AstigmaticBeam { wavelength: 450e-9, x: axis(0.0), y: axis(0.2e-3) };
/// let best = focus_between_astigmatic(&beam, 0.0, 0.6e-3)?;
/// // By symmetry the middle between the waists, 0.1 mm below z = 0, comes to mid-height, at 0.3 mm.
/// assert_eq!((best.focus_z * 1e9).round(), 200_000.0);
/// // Each end is 0.3 mm from that middle and 0.4 mm from the farther waist: 30 µm·√(1 + (0.4/0.31416)²).
/// assert_eq!((best.worst_diameter * 1e9).round(), 48_570.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the focus height is the result"]
pub fn focus_between_astigmatic(
    beam: &AstigmaticBeam,
    highest_z: f64,
    lowest_z: f64,
) -> Result<AstigmaticFocusBetween, Error> {
    let beam = checked_astigmatic(beam)?;
    let (highest_z, lowest_z) = checked_heights(highest_z, lowest_z)?;
    let half_range = half(Twofold::sum(lowest_z, -highest_z));
    let (zx, zy) = (Twofold::from(beam.x_waist_z), Twofold::from(beam.y_waist_z));
    // The highest place lies at m − H, the lowest at m + H.
    let ends = [
        Parabola::of(&beam.x, zx + half_range),
        Parabola::of(&beam.y, zy + half_range),
        Parabola::of(&beam.x, zx - half_range),
        Parabola::of(&beam.y, zy - half_range),
    ];
    let [x_high, y_high, x_low, y_low] = &ends;
    // Where two pairs are equally bad to the last digit, one axis alone decides.
    let mut worst = least_of_greater(x_high, x_low);
    for (one, other) in [(y_high, y_low), (x_high, y_low), (y_high, x_low), (x_high, y_high), (x_low, y_low)]
    {
        let pair = least_of_greater(one, other);
        if (pair.squared - worst.squared).to_f64() > 0.0 {
            worst = pair;
        }
    }

    let (high, low) = (worst.place - half_range, worst.place + half_range);
    let highest = [diameter(&beam.x, high - zx), diameter(&beam.y, high - zy)];
    let lowest = [diameter(&beam.x, low - zx), diameter(&beam.y, low - zy)];
    let greatest = |[x, y]: [f64; 2]| math::greater(x, y);
    Ok(AstigmaticFocusBetween {
        focus_z: (half(Twofold::sum(highest_z, lowest_z)) - worst.place).to_f64(),
        worst_diameter: math::greater(greatest(highest), greatest(lowest)),
        highest_diameter_x: highest[0],
        highest_diameter_y: highest[1],
        lowest_diameter_x: lowest[0],
        lowest_diameter_y: lowest[1],
        half_angle: beam.cone.half_angle,
        validity: beam.cone.validity,
    })
}
