//! The spot over the field of a scan head with a flat-field lens that is known by its user's measurements.
//!
//! | symbol   | meaning                                                              | unit | valid       |
//! |----------|----------------------------------------------------------------------|------|-------------|
//! | f        | focal length of the lens                                             | m    | 1e-5 … 1e4  |
//! | R        | radius of the field, at whose edge the lens was measured             | m    | 1e-6 … 10   |
//! | r, ρ     | distance of a place from the middle of the field, and r/R            | m, 1 | ρ ≤ 1       |
//! | θ        | field angle, by which the mirrors turn the light off the axis        | rad  | ≤ 1.2 at R  |
//! | z_T, z_S | tangential and sagittal focus at the edge, from the focus on the axis, + away from the lens | m | ±10 |
//! | α        | angle of incidence of the middle of the beam on the table, at the edge α_R | rad | 0 … 1 |
//! | s        | smallest spot there over that on the axis, across the radius, at the edge s_R | 1 | 1 … 10   |
//! | z        | the table, from the focus on the axis, + away from the lens          | m    | ±1e7        |
//! | d₀, z_R  | waist **diameter** and Rayleigh range on the axis                    | m    |             |
//!
//! r = f·θ                                          the law of a lens for scanning, by its design \[1\]
//! z_T(r) = z_T·ρ², z_S(r) = z_S·ρ²                 field curvature and astigmatism of third order \[1\]\[2\]
//! α(r) = α_R·ρ, s(r) = 1 + (s_R − 1)·ρ²            between the axis and the measured edge, see below
//! growth across the radius g⊥ = √(s² + ((z − z_S(r))/(z_R·s·cos α))²)
//! growth along the radius g∥ = √(s² + ((z − z_T(r))/(z_R·s·cos α))²)/cos α
//! irradiance ratio = 1/(g∥·g⊥); line dose ratio 1/g⊥ of a line along the radius, 1/g∥ of one across it
//!
//! The *tangential* (meridional) fan of rays lies in the plane of the axis and the place: where it is in
//! focus the spot is narrow **along** the radius. The *sagittal* fan stands at right angles to it. If you know
//! but one focus at the edge, give it for both. Heights of focus are those of the table, moved up and down;
//! along slanted light such a height is longer by 1/cos α. A spot s times as wide in focus has a Rayleigh
//! range s² times as long, M² being that of the axis. On the table the footprint along the radius is longer by
//! 1/cos α: that of [`tilted_spot`](crate::model::focus::tilted_spot), with its flag.
//!
//! Two of the laws only lead from one measured number to another. If all light passes one point above the
//! lens, tan α goes with r; α = α_R·ρ differs from that by less than 0.6 % in cos α for an α_R up to
//! 0.5 rad. That s begins with ρ² follows from symmetry.
//!
//! The best height of a table for a field is that at which its largest spot is smallest. Where all light falls
//! straight down (α_R = 0) and s_R = 1 it is halfway between its highest and its lowest focus, so that the
//! greatest defocus is least; else by search (`field_height.rs` beside this file). Halfway, slanted light would make the
//! largest spot up to 14 % larger, for an α_R up to 0.5 rad, an s_R up to 1.5 and foci within five Rayleigh ranges.
//!
//! Not modelled: curvature of higher order, by which lenses are corrected so that it returns to zero within
//! the field (measure at the edge of the field that you use); coma; distortion; light that mirrors or mounts
//! cut off; that the two mirrors stand one behind the other, so that x and y differ; loss of power to the
//! edge; and what heat does to the lens.
//!
//! \[1\] W. J. Smith, *Modern Optical Engineering*, chapters on aberrations and on scanners, from memory.
//! \[2\] M. Born, E. Wolf, *Principles of Optics*, section 5.3, from memory: both focal lines depart from the
//! Gaussian plane with the square of the image height.

use super::field_height::{Place, best_height};
use crate::error::{Error, Param, check, check_within, within_model};
use crate::model::math;
use crate::model::optics::{Beam, CheckedBeam, checked_beam};
use crate::model::twofold::Twofold;
use crate::validity::{Cone, Validity};

/// A lens for scanning, as its user has measured it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScanLens {
    /// Focal length in metres.
    pub focal_length: f64,
    /// Radius in metres of the field at whose edge the rest was measured.
    pub field_radius: f64,
    /// Height of the table in metres at which the spot at the edge is narrowest **along** the radius, from the
    /// focus on the axis, + away from the lens.
    pub edge_tangential_z: f64,
    /// Height of the table in metres at which the spot at the edge is narrowest **across** the radius, likewise.
    pub edge_sagittal_z: f64,
    /// Angle in radians between the middle of the beam and the normal of the table at the edge; 0 for a
    /// telecentric lens.
    pub edge_incidence: f64,
    /// Narrowest spot at the edge **across** the radius over that on the axis; 1 if not measured.
    pub edge_spot_ratio: f64,
}

/// The spot at one place of a field.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScanFieldSpot {
    /// Distance from the middle of the field in metres.
    pub radius: f64,
    /// Angle off the axis by which the mirrors turn the light, in radians; a mirror turns by half of it.
    pub field_angle: f64,
    /// Angle of incidence on the table in radians.
    pub incidence: f64,
    /// Height at which the spot here is narrowest along the radius in metres, + away from the lens.
    pub tangential_focus_z: f64,
    /// Height at which the spot here is narrowest across the radius in metres, + away from the lens.
    pub sagittal_focus_z: f64,
    /// **Diameter** on the table **along** the radius in metres, 1/e² (D4σ).
    pub diameter_along_radius: f64,
    /// **Diameter** on the table **across** the radius in metres, 1/e² (D4σ).
    pub diameter_across_radius: f64,
    /// Diameter along the radius over the waist diameter on the axis.
    pub growth_along_radius: f64,
    /// Diameter across the radius over the waist diameter on the axis.
    pub growth_across_radius: f64,
    /// Irradiance in the middle of the spot over that at the waist on the axis.
    pub irradiance_ratio: f64,
    /// Peak dose of a line scanned **along** the radius over that at the waist on the axis.
    pub line_dose_ratio_along_radius: f64,
    /// Peak dose of a line scanned **across** the radius over that at the waist on the axis.
    pub line_dose_ratio_across_radius: f64,
    /// Grazing ratio: the tangent of the incidence times the half angle of the cone.
    pub grazing_ratio: f64,
    /// 1/e² half angle of the beam on the axis, in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// How far a field reaches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScanFieldExtent {
    /// Largest radius in metres within which no spot grows by more than asked.
    pub radius: f64,
    /// Side in metres of the largest square in that circle.
    pub square_side: f64,
    /// Whether that is the whole field of the lens.
    pub whole_field: bool,
    /// Grazing ratio at that radius.
    pub grazing_ratio: f64,
    /// 1/e² half angle of the beam on the axis, in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// Where to put the table for a field.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScanFieldFocus {
    /// Best height of the table in metres, from the focus on the axis, + away from the lens: that at which the largest
    /// spot is smallest.
    pub best_z: f64,
    /// The greatest distance in metres of any focus of the field from there.
    pub greatest_defocus: f64,
    /// Growth in the middle of the field.
    pub centre_growth: f64,
    /// Growth at the edge of the field along the radius.
    pub edge_growth_along_radius: f64,
    /// Growth at the edge of the field across the radius.
    pub edge_growth_across_radius: f64,
    /// Grazing ratio at the edge of the field.
    pub grazing_ratio: f64,
    /// 1/e² half angle of the beam on the axis, in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// A beam and a lens that passed their checks.
pub(super) struct Checked {
    beam: CheckedBeam,
    pub(super) lens: ScanLens,
}

/// What is told of one place before anything is made of it.
struct Spot {
    tangential_focus: Twofold,
    sagittal_focus: Twofold,
    growth_along: f64,
    growth_across: f64,
}

fn checked(beam: &Beam, lens: &ScanLens) -> Result<Checked, Error> {
    let beam = checked_beam(beam)?;
    check(Param::FocalLength, lens.focal_length)?;
    check(Param::FieldRadius, lens.field_radius)?;
    check(Param::EdgeTangentialZ, lens.edge_tangential_z)?;
    check(Param::EdgeSagittalZ, lens.edge_sagittal_z)?;
    check(Param::EdgeIncidence, lens.edge_incidence)?;
    check(Param::EdgeSpotRatio, lens.edge_spot_ratio)?;
    within_model(Param::FieldAngle, lens.field_radius / lens.focal_length)?;
    Ok(Checked { beam, lens: *lens })
}

impl Checked {
    /// The spot on a table at `z`, at a place of this ρ².
    fn spot(&self, share_squared: Twofold, z: Twofold) -> Spot {
        let lens = &self.lens;
        let tangential_focus = Twofold::from(lens.edge_tangential_z) * share_squared;
        let sagittal_focus = Twofold::from(lens.edge_sagittal_z) * share_squared;
        let incidence = (Twofold::from(lens.edge_incidence) * share_squared.square_root()).to_f64();
        let cosine = math::cos(incidence);
        let wider = Twofold::from(lens.edge_spot_ratio) - Twofold::ONE;
        let s = Twofold::ONE + wider * share_squared;
        let reach = self.beam.rayleigh_range * s * Twofold::from(cosine);
        let growth = |focus: Twofold| s.root_sum_square((z - focus) / reach);
        Spot {
            tangential_focus,
            sagittal_focus,
            growth_along: (growth(tangential_focus) / Twofold::from(cosine)).to_f64(),
            growth_across: growth(sagittal_focus).to_f64(),
        }
    }

    /// Grazing ratio at this incidence, and the cone with its flags.
    fn grazing(&self, incidence: f64) -> (f64, Cone) {
        let tangent = math::sin(incidence) / math::cos(incidence);
        let ratio = tangent * self.beam.cone.half_angle;
        (ratio, self.beam.cone.flagged(Validity::of_grazing(ratio)))
    }

    /// What does not depend on the height of the table, at a place of this ρ².
    pub(super) fn place(&self, share_squared: f64) -> Place {
        let lens = &self.lens;
        let (sine, cosine) = math::sincos(lens.edge_incidence * math::sqrt(share_squared));
        let wider = (lens.edge_spot_ratio - 1.0) * share_squared;
        Place {
            share_squared,
            tangential_focus: lens.edge_tangential_z * share_squared,
            sagittal_focus: lens.edge_sagittal_z * share_squared,
            reach: self.beam.rayleigh_range.to_f64() * (1.0 + wider) * cosine,
            // (s − 1)(s + 1)
            stretched: wider * (2.0 + wider),
            sine,
            cosine,
        }
    }

    /// At most this is g² − 1 between two places of ρ², in either direction: exact where they are one place.
    fn greatest_excess(&self, from: f64, to: f64, z: f64) -> f64 {
        let lens = &self.lens;
        let (sine, cosine) = math::sincos(lens.edge_incidence * math::sqrt(to));
        let wider = lens.edge_spot_ratio - 1.0;
        // Each factor is greatest at one end: s and 1/cos α at the outer one, and the defocus over s at either,
        // since it does not turn between them.
        let defocus_at = |edge_z: f64, q: f64| {
            let offset = (z - edge_z * q) / (self.beam.rayleigh_range.to_f64() * (1.0 + wider * q));
            math::fabs(offset) / cosine
        };
        let greatest = |edge_z: f64| math::greater(defocus_at(edge_z, from), defocus_at(edge_z, to));
        // s² − 1 = (s − 1)(s + 1)
        let stretched = wider * to * (2.0 + wider * to);
        let sagittal = greatest(lens.edge_sagittal_z);
        let tangential = greatest(lens.edge_tangential_z);
        let across = stretched + sagittal * sagittal;
        // (s² + u²)/cos² − 1 = (s² − 1 + u² + sin²)/cos²
        let along = (stretched + tangential * tangential + sine * sine) / (cosine * cosine);
        math::greater(across, along)
    }
}

/// The spot at a place of the field of a scan head, on a table at `z_offset` from the focus on the axis, + away
/// from the lens.
///
/// `beam` is the beam at its focus on the axis. Formulas in the [module](self).
///
/// Accuracy: at most 4 ulp (`tests/vectors/scan_field_at.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, then of the lens, then for `x`, `y` and
/// `z_offset`; [`Error::OutsideModel`] if the half angle of the beam exceeds 0.3 rad, for a field angle above
/// 1.2 rad at the edge, and for a place outside the field (named [`Param::Radius`]).
///
/// # Example
/// ```
/// use spotwise::model::optics::Beam;
/// use spotwise::model::surface::{ScanLens, scan_field_at};
/// let beam = Beam { wavelength: 1.064e-6, m2: 1.3, waist_diameter: 60e-6 };
/// let lens = ScanLens {
///     focal_length: 0.16,
///     field_radius: 70e-3,
///     edge_tangential_z: -1.0e-3, // toward the lens
///     edge_sagittal_z: -0.4e-3,
///     edge_incidence: 0.25,
///     edge_spot_ratio: 1.0,
/// };
/// // Halfway to the edge: a quarter of the curvature, half of the angles.
/// let spot = scan_field_at(&beam, &lens, 21e-3, 28e-3, 0.0)?;
/// assert_eq!((spot.radius * 1e6).round(), 35_000.0);
/// assert_eq!((spot.field_angle * 1e5).round(), 21_875.0); // 35/160
/// assert_eq!((spot.tangential_focus_z * 1e9).round(), -250_000.0);
/// // z_R = π·(60 µm)²/(4·1.3·1.064 µm) = 2.0441 mm; √(1 + (0.25/(2.0441·cos 0.125))²)/cos 0.125 = 1.01549
/// assert_eq!((spot.growth_along_radius * 1e5).round(), 101_549.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "f-theta")]
#[doc(alias = "galvanometer")]
#[must_use = "the spot is the result"]
pub fn scan_field_at(
    beam: &Beam,
    lens: &ScanLens,
    x: f64,
    y: f64,
    z_offset: f64,
) -> Result<ScanFieldSpot, Error> {
    let checked = checked(beam, lens)?;
    let x = check(Param::FieldX, x)?;
    let y = check(Param::FieldY, y)?;
    let z = check(Param::ZOffset, z_offset)?;
    let radius = distance(x, y);
    let r = radius.to_f64();
    if r > lens.field_radius {
        return Err(Error::OutsideModel {
            param: Param::Radius,
            value: r,
            least: 0.0,
            greatest: lens.field_radius,
        });
    }
    let share = radius / Twofold::from(lens.field_radius);
    let spot = checked.spot(share.squared(), Twofold::from(z));
    let incidence = (Twofold::from(lens.edge_incidence) * share).to_f64();
    let (grazing_ratio, cone) = checked.grazing(incidence);
    let waist = checked.beam.waist_diameter;
    Ok(ScanFieldSpot {
        radius: r,
        field_angle: (radius / Twofold::from(lens.focal_length)).to_f64(),
        incidence,
        tangential_focus_z: spot.tangential_focus.to_f64(),
        sagittal_focus_z: spot.sagittal_focus.to_f64(),
        diameter_along_radius: waist * spot.growth_along,
        diameter_across_radius: waist * spot.growth_across,
        growth_along_radius: spot.growth_along,
        growth_across_radius: spot.growth_across,
        irradiance_ratio: 1.0 / (spot.growth_along * spot.growth_across),
        line_dose_ratio_along_radius: 1.0 / spot.growth_across,
        line_dose_ratio_across_radius: 1.0 / spot.growth_along,
        grazing_ratio,
        half_angle: cone.half_angle,
        validity: cone.validity,
    })
}

/// √(x² + y²).
fn distance(x: f64, y: f64) -> Twofold {
    // So near the middle the squares would vanish. A power of two costs no digit.
    const NEAR: f64 = 1e-100;
    const ENLARGED: f64 = (1_u128 << 120) as f64 * (1_u128 << 120) as f64 * (1_u128 << 120) as f64;
    let near = math::fabs(x) < NEAR && math::fabs(y) < NEAR;
    let scale = if near { ENLARGED } else { 1.0 };
    let distance = Twofold::from(x * scale).root_sum_square(Twofold::from(y * scale));
    distance / Twofold::from(scale)
}

/// How far from the middle of its field a scan head keeps the spot, on a flat table at `z_offset` from the focus
/// on the axis, within a growth in both directions.
///
/// From the middle outward up to the first place where either diameter is `growth_ratio` times the waist on the
/// axis. The search goes by bounds that hold for whole rings, so that it steps over no place. Where growth hardly
/// changes along the radius, |d ln(g² − 1)/d ln r| below about 0.01, the answer may be smaller than it could be,
/// never larger.
///
/// Accuracy: radius and side at most 8 ulp times 1 + 1/|d ln(g² − 1)/d ln r|, the grazing ratio with them
/// (`tests/vectors/scan_field_extent.csv`).
///
/// # Errors
/// As [`scan_field_at`], with `growth_ratio` after `z_offset`; [`Error::Unreachable`] if the spot in the middle is
/// larger already.
///
/// # Example
/// ```
/// use spotwise::model::optics::Beam;
/// use spotwise::model::surface::{ScanLens, scan_field_extent};
/// let beam = Beam { wavelength: 1.064e-6, m2: 1.3, waist_diameter: 60e-6 };
/// let lens = ScanLens {
///     focal_length: 0.16,
///     field_radius: 70e-3,
///     edge_tangential_z: -3e-3,
///     edge_sagittal_z: -3e-3,
///     edge_incidence: 0.0, // telecentric
///     edge_spot_ratio: 1.0,
/// };
/// // A tenth more at √(1.1² − 1)·2.0441 mm = 0.93674 mm off focus: 70 mm·√(0.93674/3) = 39.115 mm.
/// let extent = scan_field_extent(&beam, &lens, 0.0, 1.1)?;
/// assert_eq!((extent.radius * 1e6).round(), 39_115.0);
/// assert_eq!((extent.square_side * 1e5).round(), 5532.0); // 55.3 mm
/// assert!(!extent.whole_field);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "working field")]
#[must_use = "the extent is the result"]
pub fn scan_field_extent(
    beam: &Beam,
    lens: &ScanLens,
    z_offset: f64,
    growth_ratio: f64,
) -> Result<ScanFieldExtent, Error> {
    let checked = checked(beam, lens)?;
    let z = check(Param::ZOffset, z_offset)?;
    let ratio = check(Param::GrowthRatio, growth_ratio)?;
    let least = checked.spot(Twofold::ZERO, Twofold::from(z)).growth_across;
    if least > ratio {
        let (_, greatest) = Param::GrowthRatio.range();
        return Err(Error::Unreachable { param: Param::GrowthRatio, value: ratio, least, greatest });
    }
    // g² − 1 = (g − 1)(g + 1)
    let allowed = (ratio - 1.0) * (ratio + 1.0);
    // The middle was compared with more digits: its rounding here must not refuse it.
    let allowed = math::greater(allowed, checked.greatest_excess(0.0, 0.0, z));
    let holds = |from, to| checked.greatest_excess(from, to, z) <= allowed;
    // No growth at all is found everywhere or in the middle alone.
    let share_squared = if allowed > 0.0 { reached(holds) } else { f64::from(holds(0.0, 1.0)) };
    let whole_field = share_squared == 1.0;
    let share = math::sqrt(share_squared);
    let radius = lens.field_radius * share;
    let (grazing_ratio, cone) = checked.grazing(lens.edge_incidence * share);
    Ok(ScanFieldExtent {
        radius,
        square_side: core::f64::consts::SQRT_2 * radius,
        whole_field,
        grazing_ratio,
        half_angle: cone.half_angle,
        validity: cone.validity,
    })
}

/// From 0 toward 1 as far as `holds` says of every ring on the way that it does. A ring that may not hold is
/// tried again with half its width. One so narrow that nothing turns in it, and that ends where it does not hold,
/// is halved down to the last double.
fn reached(holds: impl Fn(f64, f64) -> bool) -> f64 {
    /// Where a growth hardly changes along the radius, more rings would be needed; then the answer is too small.
    const MOST_RINGS: u32 = 20_000;
    const NARROW: f64 = 1e-3;
    let mut inner = 0.0;
    let mut width = 1.0;
    for _ in 0..MOST_RINGS {
        let outer = math::lesser(inner + width, 1.0);
        if outer == inner {
            break;
        }
        if holds(inner, outer) {
            inner = outer;
            width *= 2.0;
        } else if width < NARROW * inner && !holds(outer, outer) {
            return halved(inner, outer, |place| holds(place, place));
        } else {
            width *= 0.5;
        }
    }
    inner
}

/// The last place that holds, between one that does and one that does not.
fn halved(mut holding: f64, mut failing: f64, holds: impl Fn(f64) -> bool) -> f64 {
    loop {
        let middle = 0.5 * (holding + failing);
        if !(holding < middle && middle < failing) {
            return holding;
        }
        if holds(middle) {
            holding = middle;
        } else {
            failing = middle;
        }
    }
}

/// The best height of a flat table for the field of a scan head, or the part of it within `radius`: that at which the
/// largest spot is smallest.
///
/// No other height makes the largest spot smaller by more than 1e-12 of it. Under a telecentric lens whose spots are
/// alike it is halfway between the highest and the lowest focus. The largest of the three growths that are told is then
/// that of the whole field. Formulas in the [module](self).
///
/// Accuracy: halfway, height and defocus are within 0.75 ulp, the rest 4 ulp; else all are within 4 ulp and what
/// an error of 8 ulp in g² − 1 makes of the height (`tests/vectors/scan_field_focus.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, then of the lens, then for `radius`, which
/// must be from 0 to the radius of the field; [`Error::OutsideModel`] as [`scan_field_at`].
///
/// # Example
/// ```
/// use spotwise::model::optics::Beam;
/// use spotwise::model::surface::{ScanLens, scan_field_focus};
/// let beam = Beam { wavelength: 1.064e-6, m2: 1.3, waist_diameter: 60e-6 };
/// let lens = ScanLens {
///     focal_length: 0.16,
///     field_radius: 70e-3,
///     edge_tangential_z: -3e-3,
///     edge_sagittal_z: -1e-3,
///     edge_incidence: 0.0,
///     edge_spot_ratio: 1.0,
/// };
/// let focus = scan_field_focus(&beam, &lens, 70e-3)?;
/// assert_eq!(focus.best_z, -1.5e-3); // halfway from the axis to the tangential focus at the edge
/// assert_eq!(focus.greatest_defocus, 1.5e-3);
/// // √(1 + (1.5/2.0441)²) = 1.24035
/// assert_eq!((focus.centre_growth * 1e5).round(), 124_035.0);
/// assert_eq!(focus.edge_growth_along_radius, focus.centre_growth);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the height is the result"]
pub fn scan_field_focus(beam: &Beam, lens: &ScanLens, radius: f64) -> Result<ScanFieldFocus, Error> {
    let checked = checked(beam, lens)?;
    let radius = check_within(Param::Radius, radius, 0.0, lens.field_radius)?;
    let share = Twofold::from(radius) / Twofold::from(lens.field_radius);
    let share_squared = share.squared();
    // The farthest and the nearest to the lens of the focus on the axis and the two at the edge.
    let (tangential, sagittal) = (lens.edge_tangential_z, lens.edge_sagittal_z);
    let farthest = math::greater(math::greater(tangential, sagittal), 0.0);
    let nearest = math::lesser(math::lesser(tangential, sagittal), 0.0);
    let is_halfway = lens.edge_incidence == 0.0 && lens.edge_spot_ratio == 1.0;
    let best = if is_halfway {
        Twofold::sum(farthest, nearest) * (Twofold::from(0.5) * share_squared)
    } else {
        best_height(&checked, share_squared)
    };
    let [to_farthest, to_nearest] =
        [farthest, nearest].map(|z| (Twofold::from(z) * share_squared - best).magnitude().to_f64());
    let spot = checked.spot(share_squared, best);
    // The square of a share next to nothing may vanish.
    let (grazing_ratio, cone) = checked.grazing((Twofold::from(lens.edge_incidence) * share).to_f64());
    Ok(ScanFieldFocus {
        best_z: best.to_f64(),
        greatest_defocus: math::greater(to_farthest, to_nearest),
        centre_growth: checked.spot(Twofold::ZERO, best).growth_across,
        edge_growth_along_radius: spot.growth_along,
        edge_growth_across_radius: spot.growth_across,
        grazing_ratio,
        half_angle: cone.half_angle,
        validity: cone.validity,
    })
}
