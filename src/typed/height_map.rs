//! Maps of heights, in bulk and therefore in plain metres.

use super::angle;
use super::beam::Beam;
use super::depth::Criterion;
use super::offset::Offset;
use crate::error::Error;
use crate::model::surface::{self, HeightQuantity};
use crate::validity::Validity;
use uom::si::f64::Angle;

/// The least or the greatest number of a map.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MapExtreme {
    /// The number, in the unit of the map: metres, or none for a ratio.
    pub value: f64,
    /// Its first place in the map, from 0.
    pub index: usize,
}

/// What a map holds as a whole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeightMap {
    /// How many places have a height.
    pub measured: usize,
    /// How many have none.
    pub missing: usize,
    /// The least number of the map, if anything was measured.
    pub least: Option<MapExtreme>,
    /// The greatest number of the map, if anything was measured.
    pub greatest: Option<MapExtreme>,
    /// 1/e² half angle of the beam.
    pub half_angle: Angle,
    /// How far the paraxial formulas may be trusted for this beam.
    pub validity: Validity,
}

/// How much of a surface is in focus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FocusMask {
    /// How many places are in focus.
    pub in_focus: usize,
    /// How many lie nearer the lens than the range that is in focus: too high.
    pub too_near_lens: usize,
    /// How many lie farther from the lens than that range: too low.
    pub too_far_from_lens: usize,
    /// How many have no height.
    pub missing: usize,
    /// The end of the range nearer the lens, from the datum of the heights.
    pub toward_lens: Offset,
    /// The end of the range farther from the lens, from the datum of the heights.
    pub away_from_lens: Offset,
    /// 1/e² half angle of the beam.
    pub half_angle: Angle,
    /// How far the paraxial formulas may be trusted for this beam.
    pub validity: Validity,
}

impl Beam {
    /// A map of what the beam does on a surface of many heights in metres, + away from the lens, NaN where
    /// there is none; `focus` is the waist, from the same datum. Lengths in `out` are metres. As
    /// [`model::surface::map_heights`](crate::model::surface::map_heights).
    ///
    /// # Errors
    /// As there; on any error every element of `out` is NaN.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{mm, um};
    /// use spotwise::{Beam, BeamParts, BeamWidth, HeightQuantity, Offset};
    /// let beam = Beam::new(BeamParts {
    ///     wavelength: um(10.6),
    ///     m_squared: 1.2,
    ///     waist: BeamWidth::from_diameter_1e2(um(88.0))?,
    /// })?;
    /// let (z, mut stroke) = ([0.2e-3, 0.7e-3], [0.0; 2]);
    /// let quantity = HeightQuantity::SmallestStroke { dose_ratio: 2.7 };
    /// let focus = Offset::away_from_lens(mm(0.2))?;
    /// let map = beam.map_heights(focus, quantity, &z, &mut stroke)?;
    /// // 21.219 µm in focus (88 µm/√2 × 0.341001), and 1.4469 times that half a millimetre below.
    /// assert_eq!(stroke.map(|stroke| (stroke * 1e8).round()), [2122.0, 3070.0]);
    /// assert_eq!(map.greatest.map(|widest| widest.index), Some(1));
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[doc(alias = "height field")]
    pub fn map_heights(
        &self,
        focus: Offset,
        quantity: HeightQuantity,
        z_away_from_lens_m: &[f64],
        out: &mut [f64],
    ) -> Result<HeightMap, Error> {
        let map = surface::map_heights(self.as_model(), focus.metres(), quantity, z_away_from_lens_m, out)?;
        let extreme = |value, index| (map.measured > 0).then_some(MapExtreme { value, index });
        Ok(HeightMap {
            measured: map.measured,
            missing: map.missing,
            least: extreme(map.least, map.least_index),
            greatest: extreme(map.greatest, map.greatest_index),
            half_angle: angle(map.half_angle),
            validity: map.validity,
        })
    }

    /// Which of many heights in metres, + away from the lens, are in focus by a criterion; `focus` is the
    /// waist, from the same datum. A height that is NaN is not in focus. As
    /// [`model::surface::in_focus_mask`](crate::model::surface::in_focus_mask).
    ///
    /// # Errors
    /// As there; on any error all of `in_focus` is false.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::um;
    /// use spotwise::{Beam, BeamParts, BeamWidth, Criterion, Offset};
    /// let beam = Beam::new(BeamParts {
    ///     wavelength: um(10.6),
    ///     m_squared: 1.2,
    ///     waist: BeamWidth::from_diameter_1e2(um(88.0))?,
    /// })?;
    /// let mut in_focus = [false; 3];
    /// // The Rayleigh range is 0.4782 mm.
    /// let z = [0.4e-3, -0.5e-3, f64::NAN];
    /// let mask = beam.in_focus_mask(Offset::ZERO, Criterion::Rayleigh, &z, &mut in_focus)?;
    /// assert_eq!(in_focus, [true, false, false]);
    /// assert_eq!((mask.in_focus, mask.too_near_lens, mask.missing), (1, 1, 1));
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn in_focus_mask(
        &self,
        focus: Offset,
        criterion: Criterion,
        z_away_from_lens_m: &[f64],
        in_focus: &mut [bool],
    ) -> Result<FocusMask, Error> {
        let criterion = criterion.into_model();
        let mask =
            surface::in_focus_mask(self.as_model(), focus.metres(), criterion, z_away_from_lens_m, in_focus)?;
        Ok(FocusMask {
            in_focus: mask.in_focus,
            too_near_lens: mask.too_near_lens,
            too_far_from_lens: mask.too_far_from_lens,
            missing: mask.missing,
            toward_lens: Offset::from_metres(mask.toward_lens_z),
            away_from_lens: Offset::from_metres(mask.away_from_lens_z),
            half_angle: angle(mask.half_angle),
            validity: mask.validity,
        })
    }
}
