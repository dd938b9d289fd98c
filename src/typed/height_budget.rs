//! What the heights of a surface ask of the focus.

use super::astigmatic::AstigmaticBeam;
use super::beam::{Beam, Defocus};
use super::depth::FocusRange;
use super::offset::Offset;
use super::shape::RoundSize;
use super::tolerance::SurfaceEnds;
use super::width::BeamWidth;
use super::{angle, length};
use crate::error::Error;
use crate::model::surface::{self, DepthEnds, FocusAim};
use crate::validity::Validity;
use uom::si::f64::{Angle, Length};

/// A depth of focus by its two ends, from wherever it is known: computed, or found by trial on the machine.
///
/// ```
/// use spotwise::units::{mm, um};
/// use spotwise::{Beam, BeamParts, BeamWidth, Criterion, FocusDepth, Offset};
/// let beam = Beam::new(BeamParts {
///     wavelength: um(10.6),
///     m_squared: 1.2,
///     waist: BeamWidth::from_diameter_1e2(um(88.0))?,
/// })?;
/// let computed: FocusDepth = beam.depth_of_focus(Criterion::GrowthRatio(1.1))?.into();
/// let tried = FocusDepth {
///     toward_lens: Offset::toward_lens(mm(0.3))?,
///     away_from_lens: Offset::away_from_lens(mm(0.2))?,
/// };
/// assert!(computed.away_from_lens > tried.away_from_lens);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FocusDepth {
    /// The end nearer the lens, from the focus.
    pub toward_lens: Offset,
    /// The end farther from the lens, from the focus; at least 1 nm from the other.
    pub away_from_lens: Offset,
}

impl From<FocusRange> for FocusDepth {
    fn from(range: FocusRange) -> Self {
        Self { toward_lens: range.toward_lens(), away_from_lens: range.away_from_lens() }
    }
}

impl FocusDepth {
    const fn ends(self) -> DepthEnds {
        DepthEnds { toward_lens_z: self.toward_lens.metres(), away_from_lens_z: self.away_from_lens.metres() }
    }
}

/// The focus height that is least bad over a surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FocusBetween {
    /// Where to set focus, from the datum of the heights.
    pub focus: Offset,
    /// From there to either end of the surface.
    pub half_range: Length,
    /// The spot at either end of the surface, which no other focus height betters.
    pub worst: Defocus,
}

/// The focus height of an astigmatic beam that is least bad over a surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AstigmaticFocusBetween {
    /// Where to put the beam's zero, from the datum of the heights.
    pub focus: Offset,
    /// The wider axis at the worst height, which no other focus height betters.
    pub worst: BeamWidth,
    /// Width in x at the highest place.
    pub highest_x: BeamWidth,
    /// Width in y at the highest place.
    pub highest_y: BeamWidth,
    /// Width in x at the lowest place.
    pub lowest_x: BeamWidth,
    /// Width in y at the lowest place.
    pub lowest_y: BeamWidth,
    /// Half angle of the cone in the axis where it is wider.
    pub half_angle: Angle,
    /// How far the paraxial formulas may be trusted.
    pub validity: Validity,
}

/// How a surface is divided into bands of height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeightBands {
    /// How many bands are needed.
    pub count: u32,
    /// Height of each band.
    pub band_height: Length,
    /// Height of each band over the full depth of focus: what is left to 1 is spare.
    pub share_of_depth: f64,
}

/// Where [`height_bands`] writes, in metres from the datum of the heights, + away from the lens. Either may be
/// left out by an empty slice; what is longer than needed is filled with NaN.
#[derive(Debug, Default)]
pub struct BandColumns<'a> {
    /// Limits of the bands from the highest place to the lowest, one more than there are bands.
    pub limits_away_from_lens_m: &'a mut [f64],
    /// Where to set focus for each band.
    pub focus_away_from_lens_m: &'a mut [f64],
}

/// Bands of equal height into which a surface must be divided so that each stays within the depth of focus, less a
/// share `margin` of it, 0 to 0.99. Ask first, with no columns, how many there are. As
/// [`model::surface::height_bands`](crate::model::surface::height_bands).
///
/// # Errors
/// As there; on any error every element of both columns is NaN.
///
/// # Example
/// ```
/// use spotwise::units::mm;
/// use spotwise::{BandColumns, FocusDepth, SurfaceEnds, Offset, height_bands};
/// let step = SurfaceEnds { highest: Offset::ZERO, lowest: Offset::away_from_lens(mm(1.4))? };
/// let depth = FocusDepth {
///     toward_lens: Offset::toward_lens(mm(0.25))?,
///     away_from_lens: Offset::away_from_lens(mm(0.25))?,
/// };
/// let bands = height_bands(step, depth, 0.1, BandColumns::default())?;
/// assert_eq!(bands.count, 4); // 1.4/0.45 = 3.1
/// let mut focus = [0.0; 4];
/// let columns = BandColumns { focus_away_from_lens_m: &mut focus, ..BandColumns::default() };
/// height_bands(step, depth, 0.1, columns)?;
/// assert_eq!(focus.map(|z| (z * 1e6).round()), [175.0, 525.0, 875.0, 1225.0]);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "refocus steps")]
pub fn height_bands(
    surface: SurfaceEnds,
    depth: FocusDepth,
    margin: f64,
    columns: BandColumns<'_>,
) -> Result<HeightBands, Error> {
    let bands = surface::height_bands(
        surface.highest.metres(),
        surface.lowest.metres(),
        &depth.ends(),
        margin,
        columns.limits_away_from_lens_m,
        columns.focus_away_from_lens_m,
    )?;
    Ok(HeightBands {
        count: bands.count,
        band_height: length(bands.band_height),
        share_of_depth: bands.share_of_depth,
    })
}

/// A strip along the crown of a lying round part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CylinderStrip {
    /// From the crown to the edge of the strip, straight across: **half** the width as a drawing has it.
    pub half_chord: Length,
    /// From edge to edge, straight across.
    pub full_chord: Length,
    /// From edge to edge, along the surface.
    pub arc_length: Length,
    /// How far the edges lie below the crown.
    pub edge_sag: Length,
    /// Angle between the beam and the normal of the surface at the edge.
    pub edge_incidence: Angle,
    /// Irradiance at the edge over that on a level surface, by the incidence alone.
    pub edge_irradiance_ratio: f64,
    /// Where to set focus, from the crown.
    pub focus: Offset,
    /// Whether the whole upper half of the part is in focus.
    pub whole_upper_half: bool,
}

impl RoundSize {
    /// The largest strip, along the crown of a round part that lies level, that stays within a depth of focus. As
    /// [`model::surface::cylinder_strip`](crate::model::surface::cylinder_strip).
    ///
    /// # Errors
    /// As there: the radius must be from 1 µm to 1 km.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::mm;
    /// use spotwise::{FocusAim, FocusDepth, Offset, RoundSize};
    /// let depth = FocusDepth {
    ///     toward_lens: Offset::toward_lens(mm(0.4))?,
    ///     away_from_lens: Offset::away_from_lens(mm(0.4))?,
    /// };
    /// let strip = RoundSize::Diameter(mm(50.0)).strip_in_focus(depth, FocusAim::Midway)?;
    /// // By hand: 2·√(0.8·(50 − 0.8)) mm.
    /// assert_eq!((strip.full_chord.value * 1e7).round(), 125_475.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[doc(alias = "sagitta")]
    pub fn strip_in_focus(&self, depth: FocusDepth, aim: FocusAim) -> Result<CylinderStrip, Error> {
        let strip = surface::cylinder_strip(self.radius(), &depth.ends(), aim)?;
        Ok(CylinderStrip {
            half_chord: length(strip.half_chord),
            full_chord: length(strip.full_chord),
            arc_length: length(strip.arc_length),
            edge_sag: length(strip.edge_sag),
            edge_incidence: angle(strip.edge_incidence),
            edge_irradiance_ratio: strip.edge_irradiance_ratio,
            focus: Offset::from_metres(strip.focus_z),
            whole_upper_half: strip.whole_upper_half,
        })
    }
}

/// A deep engraving in many passes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DeepEngraving {
    /// Depth wanted, 1 nm to 1 km.
    pub total_depth: Length,
    /// Depth that each pass removes, 1 nm to 1 km.
    pub depth_per_pass: Length,
}

/// How a deep engraving is divided into stages of one focus height each.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RefocusPlan {
    /// Passes in all.
    pub passes: u32,
    /// Depth that they remove, at least the depth wanted.
    pub reached_depth: Length,
    /// Passes before focus is set anew.
    pub passes_per_stage: u32,
    /// Stages; the focus is set anew one time less.
    pub stages: u32,
    /// Passes in the last stage, which may be shorter.
    pub last_stage_passes: u32,
    /// Depth that a full stage removes: by how much focus is lowered from one to the next.
    pub stage_depth: Length,
    /// Depth of focus that a stage may use.
    pub usable_depth: Length,
    /// Whether the surface stays in focus; false where one pass removes more than the usable depth.
    pub stays_in_focus: bool,
}

impl DeepEngraving {
    /// How many passes before focus is set anew, how many stages, and the focus height of each in metres from the
    /// surface before the first pass, + away from the lens. Ask first, with an empty slice, how many stages there
    /// are. As [`model::surface::refocus_plan`](crate::model::surface::refocus_plan).
    ///
    /// # Errors
    /// As there; on any error every focus height is NaN.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::mm;
    /// use spotwise::{DeepEngraving, FocusAim, FocusDepth, Offset};
    /// let depth = FocusDepth {
    ///     toward_lens: Offset::toward_lens(mm(0.25))?,
    ///     away_from_lens: Offset::away_from_lens(mm(0.25))?,
    /// };
    /// let engraving = DeepEngraving { total_depth: mm(1.3), depth_per_pass: mm(0.1) };
    /// let plan = engraving.refocus_plan(depth, FocusAim::HighestPlace, &mut [])?;
    /// assert_eq!((plan.passes_per_stage, plan.stages), (2, 7)); // the surface after each 0.2 mm
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[doc(alias = "multi-pass")]
    pub fn refocus_plan(
        &self,
        depth: FocusDepth,
        aim: FocusAim,
        focus_away_from_lens_m: &mut [f64],
    ) -> Result<RefocusPlan, Error> {
        let plan = surface::refocus_plan(
            self.total_depth.value,
            self.depth_per_pass.value,
            &depth.ends(),
            aim,
            focus_away_from_lens_m,
        )?;
        Ok(RefocusPlan {
            passes: plan.passes,
            reached_depth: length(plan.reached_depth),
            passes_per_stage: plan.passes_per_stage,
            stages: plan.stages,
            last_stage_passes: plan.last_stage_passes,
            stage_depth: length(plan.stage_depth),
            usable_depth: length(plan.usable_depth),
            stays_in_focus: plan.stays_in_focus,
        })
    }
}

/// A part that is cut or marked through its thickness.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThroughCut {
    /// Where focus lies, from the top surface; away from the lens is into the part.
    pub focus: Offset,
    /// Thickness, 0 to 10 m.
    pub thickness: Length,
}

/// The spot from the top of a part to its bottom.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpotThrough {
    /// Spot at the top.
    pub top: BeamWidth,
    /// Spot at the bottom.
    pub bottom: BeamWidth,
    /// The widest spot in the thickness: the larger of the two.
    pub widest: BeamWidth,
    /// The narrowest spot in the thickness: the waist where that lies inside.
    pub narrowest: BeamWidth,
    /// Widest over waist diameter.
    pub worst_growth: f64,
    /// Diameter at the bottom over that at the top.
    pub taper_ratio: f64,
    /// **Half** angle of the taper, positive where the bottom is narrower than the top.
    pub taper_half_angle: Angle,
    /// The focus, from the top surface, that makes the widest spot as small as can be.
    pub best_focus: Offset,
    /// The greatest growth with that focus.
    pub best_worst_growth: f64,
    /// Half angle of the cone.
    pub half_angle: Angle,
    /// How far the paraxial formulas may be trusted.
    pub validity: Validity,
}

impl Beam {
    /// The focus height that makes the worst spot on a surface as small as can be, and that spot. As
    /// [`model::surface::focus_between`](crate::model::surface::focus_between).
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`]: the heights at most 1e7 m from their datum, the lowest not
    /// above the highest.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, um};
    /// use spotwise::{Beam, BeamParts, BeamWidth, SurfaceEnds, Offset};
    /// let beam = Beam::new(BeamParts {
    ///     wavelength: um(10.6),
    ///     m_squared: 1.2,
    ///     waist: BeamWidth::from_diameter_1e2(um(88.0))?,
    /// })?;
    /// let bowed =
    ///     SurfaceEnds { highest: Offset::toward_lens(mm(0.2))?, lowest: Offset::away_from_lens(mm(0.8))? };
    /// let best = beam.focus_between(bowed)?;
    /// assert_eq!((best.focus.z_away_from_lens().value * 1e9).round(), 300_000.0);
    /// assert_eq!((best.worst.growth * 1e4).round(), 14_469.0); // as half a millimetre off focus
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[doc(alias = "best focus")]
    pub fn focus_between(&self, surface: SurfaceEnds) -> Result<FocusBetween, Error> {
        let (highest, lowest) = (surface.highest.metres(), surface.lowest.metres());
        let best = surface::focus_between(self.as_model(), highest, lowest)?;
        Ok(FocusBetween {
            focus: Offset::from_metres(best.focus_z),
            half_range: length(best.half_range),
            worst: Defocus::from_model(&best.worst),
        })
    }

    /// The spot through the thickness of a part, and the best focus for it. As
    /// [`model::surface::spot_through`](crate::model::surface::spot_through), which also says what a cut does that
    /// this does not know of.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`]: the focus at most 1 km from the top.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, um};
    /// use spotwise::{Beam, BeamParts, BeamWidth, Offset, ThroughCut};
    /// let beam = Beam::new(BeamParts {
    ///     wavelength: um(10.6),
    ///     m_squared: 1.2,
    ///     waist: BeamWidth::from_diameter_1e2(um(88.0))?,
    /// })?;
    /// let on_top = beam.spot_through(ThroughCut { focus: Offset::ZERO, thickness: mm(3.0) })?;
    /// assert_eq!((on_top.bottom.diameter_1e2().value * 1e7).round(), 5591.0); // 0.559 mm
    /// assert_eq!(on_top.best_focus, Offset::away_from_lens(mm(1.5))?);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[doc(alias = "kerf taper")]
    pub fn spot_through(&self, cut: ThroughCut) -> Result<SpotThrough, Error> {
        let through = surface::spot_through(self.as_model(), cut.focus.metres(), cut.thickness.value)?;
        Ok(SpotThrough {
            top: BeamWidth::computed(through.top_diameter),
            bottom: BeamWidth::computed(through.bottom_diameter),
            widest: BeamWidth::computed(through.widest),
            narrowest: BeamWidth::computed(through.narrowest),
            worst_growth: through.worst_growth,
            taper_ratio: through.taper_ratio,
            taper_half_angle: angle(through.taper_half_angle),
            best_focus: Offset::from_metres(through.best_focus_z),
            best_worst_growth: through.best_worst_growth,
            half_angle: angle(through.half_angle),
            validity: through.validity,
        })
    }
}

impl AstigmaticBeam {
    /// The focus height that makes the wider axis at the worst height of a surface as narrow as can be. As
    /// [`model::surface::focus_between_astigmatic`](crate::model::surface::focus_between_astigmatic).
    ///
    /// # Errors
    /// As [`Beam::focus_between`].
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, nm, um};
    /// use spotwise::{AstigmaticBeam, AstigmaticParts, AxisParts, BeamWidth, SurfaceEnds, Offset};
    /// let waist = BeamWidth::from_d4sigma(um(30.0))?;
    /// let beam = AstigmaticBeam::new(AstigmaticParts {
    ///     wavelength: nm(450.0),
    ///     x: AxisParts { m_squared: 5.0, waist, waist_at: Offset::ZERO },
    ///     y: AxisParts { m_squared: 5.0, waist, waist_at: Offset::away_from_lens(mm(0.2))? },
    /// })?;
    /// let surface = SurfaceEnds { highest: Offset::ZERO, lowest: Offset::away_from_lens(mm(0.6))? };
    /// let best = beam.focus_between(surface)?;
    /// // By symmetry the middle between the waists, 0.1 mm below zero, comes to mid-height, at 0.3 mm.
    /// assert_eq!((best.focus.z_away_from_lens().value * 1e9).round(), 200_000.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn focus_between(&self, surface: SurfaceEnds) -> Result<AstigmaticFocusBetween, Error> {
        let (highest, lowest) = (surface.highest.metres(), surface.lowest.metres());
        let best = surface::focus_between_astigmatic(self.as_model(), highest, lowest)?;
        Ok(AstigmaticFocusBetween {
            focus: Offset::from_metres(best.focus_z),
            worst: BeamWidth::computed(best.worst_diameter),
            highest_x: BeamWidth::computed(best.highest_diameter_x),
            highest_y: BeamWidth::computed(best.highest_diameter_y),
            lowest_x: BeamWidth::computed(best.lowest_diameter_x),
            lowest_y: BeamWidth::computed(best.lowest_diameter_y),
            half_angle: angle(best.half_angle),
            validity: best.validity,
        })
    }
}
