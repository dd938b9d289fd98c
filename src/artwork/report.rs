//! What a mark keeps of its drawing, and what it does not.

use super::across::Nearest;
use super::bitmap::Bitmap;
use super::distance::{Ruler, distances, distances_words};
use super::regions::{Region, RegionFinder, RegionTotals, region_words};
use super::spot_map::InkSpots;
use super::strokes::CentreShare;
use super::topology::Topology;
use super::watch::Watch;
use crate::error::Error;
use crate::validity::Cone;
use core::cell::Cell;

/// What a mark keeps of its drawing. Places without a known height count for nothing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Report {
    /// Pixels with ink.
    pub ink_pixels: u64,
    /// Pixels that are marked.
    pub mark_pixels: u64,
    /// Pixels with ink that are not marked.
    pub missing_pixels: u64,
    /// Marked pixels without ink.
    pub extra_pixels: u64,
    /// Area of one pixel in square metres.
    pub pixel_area: f64,
    /// How far an edge may stray before it counts as lost or filled, in metres.
    pub edge_tolerance: f64,
    /// Where ink is lost: farther than the tolerance from any mark.
    pub lost: RegionTotals,
    /// Where ground is filled: farther than the tolerance from any unmarked place.
    pub filled: RegionTotals,
    /// What became of pieces and holes, but for specks.
    pub topology: Topology,
    /// Pieces that are not ignored of which less than half of the centre-line is marked. What lies 255 pixels deep in a
    /// wide stroke, or deeper,
    /// counts as centre-line.
    pub components_starved: u32,
    /// Centre-lines of strokes, and how much of them is marked.
    pub stroke_centres: CentreShare,
    /// Centre-lines of gaps, and how much of them stays clear.
    pub gap_centres: CentreShare,
    /// Smallest stroke in metres from which on nothing is lost; NaN if there is none.
    pub smallest_stroke_kept: f64,
    /// Largest stroke in metres up to which nothing is kept; NaN if there is none.
    pub largest_stroke_lost: f64,
    /// Smallest gap in metres from which on nothing is filled; NaN if there is none.
    pub smallest_gap_kept: f64,
    /// Largest gap in metres up to which nothing stays clear; NaN if there is none.
    pub largest_gap_lost: f64,
    /// Median over the centre-lines of strokes of the exposure relative to a wide even fill; NaN without any.
    pub typical_stroke_exposure: f64,
    /// Spots over the ink.
    pub spots: InkSpots,
    /// Fewest pixels in a spot radius.
    pub pixels_per_radius: f64,
    /// Expected greatest error of the exposure for want of pixels, as a share of full dose.
    pub expected_error: f64,
    /// Whether the drawing should be drawn finer to be sure.
    pub too_few_pixels: bool,
    /// Half angle and validity of the beam.
    pub cone: Cone,
}

impl Report {
    /// Whether strokes are lost or broken.
    #[must_use]
    pub fn is_broken(&self) -> bool {
        broken(&self.topology, self.components_starved)
    }

    /// Whether all holds: no stroke is lost or broken, no counter filled, and neighbours stay apart.
    #[must_use]
    pub fn holds(&self) -> bool {
        !self.is_broken() && self.topology.holes_closed == 0 && self.topology.components_merged == 0
    }
}

/// Whether strokes are lost or broken.
pub(crate) fn broken(topology: &Topology, starved: u32) -> bool {
    topology.components_lost > 0 || topology.components_split > 0 || topology.holes_opened > 0 || starved > 0
}

/// Farthest that a depth is measured, in pixels.
const DEEPEST: u8 = 255;
/// Farthest that depths are measured at first, which is quicker; few drawings have deeper ones.
const SHALLOW: u8 = 32;

/// Room for [`find_regions`], in 64-bit words.
pub(crate) fn find_regions_words(width: usize, height: usize, ruler: &Ruler) -> usize {
    region_words::<f64>(width, height) + distances_words(width, height, ruler)
}

/// The ruler of depths.
pub(crate) fn depth_ruler(pitch_x: f64, pitch_y: f64) -> Result<Ruler, Error> {
    Ruler::new(pitch_x, pitch_y, DEEPEST)
}

/// Writes the regions of `wanted`, with depths in metres to the nearest pixel of `mark` that is set or clear.
pub(crate) fn find_regions(
    wanted: Bitmap<'_>,
    mark: Bitmap<'_>,
    nearest: Nearest,
    ruler: &Ruler,
    regions: &mut [Region<f64>],
    room: &mut [u64],
    watch: &mut Watch<'_>,
) -> Result<RegionTotals, Error> {
    let (width, height) = (wanted.width(), wanted.height());
    let (own, room) = room.split_at_mut(region_words::<f64>(width, height).min(room.len()));
    let shallow = Ruler::new(ruler.pitch_x(), ruler.pitch_y(), SHALLOW)?;
    let mut finder = RegionFinder::<f64>::new(width, height, own)?;
    // Short of the reach, whatever the last digits of both are.
    let (limit, deeper) = (0.999 * shallow.reach(), Cell::new(false));
    distances(mark, nearest, Some(wanted), &shallow, room, &mut watch.part(0.0, 0.4), |y, row| {
        finder.row(wanted.row(y), |x| {
            let depth = row.metres(x);
            deeper.set(deeper.get() || depth > limit);
            depth
        });
    })?;
    if deeper.get() {
        finder = RegionFinder::<f64>::new(width, height, own)?;
        distances(mark, nearest, Some(wanted), ruler, room, &mut watch.part(0.4, 0.8), |y, row| {
            finder.row(wanted.row(y), |x| row.metres(x));
        })?;
    }
    finder.finish(regions, &mut watch.part(0.8, 1.0))
}
