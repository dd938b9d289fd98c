//! Whether a drawing survives its preflight, at once where distances alone suffice to say so.

use super::bounded::{BoundLight, BoundLines};
use super::set_up::Preflight;
use crate::artwork::{self, QuickCounts, QuickVerdict, Watch};
use crate::error::Error;
use crate::typed::dose::LineInterval;
use crate::typed::length;
use crate::typed::width::BeamWidth;
use alloc::vec;

/// What distances alone say of a preflight: not what it finds, but whether all holds, where that is sure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct QuickAnswer {
    /// What is sure.
    pub verdict: QuickVerdict,
    /// Of what.
    pub counts: QuickCounts,
    /// By which light; what an exposure may be off is taken off its dose ratios.
    pub light: BoundLight,
}

impl Preflight<'_> {
    /// Whether the drawing survives, at once where distances alone suffice to say so;
    /// [`QuickVerdict::Unsure`] where the whole preflight must tell. As [`artwork::quick_answer`].
    ///
    /// It never contradicts [`run`](Self::run): where nothing is at risk, that reports no piece lost, starved or merged, and
    /// no hole closed or opened; where something is lost, its report does not hold. Of the grade and the dose window nothing
    /// is said.
    ///
    /// # Errors
    /// As there.
    ///
    /// # Example
    /// ```
    /// use spotwise::artwork::{DrawingUse, QuickVerdict, SampleKind, Watch};
    /// use spotwise::units::{mm, um};
    /// use spotwise::{
    ///     Artwork, Beam, BeamParts, BeamWidth, DrawnOn, MarkAnswer, Offset, PixelPitch, Preflight, RasterScan,
    ///     ScanBlur, Surface, SurfaceSlope, TablePlace,
    /// };
    /// // A bar of 0.5 mm by 1 mm in the middle of a sheet, drawn at 20 µm to the pixel.
    /// let (width, height) = (100, 100);
    /// let in_bar = |x: usize, y: usize| (40..65).contains(&x) && (25..75).contains(&y);
    /// let samples: Vec<u8> =
    ///     (0..width * height).map(|n| if in_bar(n % width, n / width) { 255 } else { 0 }).collect();
    /// let waist = BeamWidth::from_diameter_1e2(um(100.0))?;
    /// let at = |dose_ratio| Preflight {
    ///     artwork: Artwork {
    ///         samples: &samples,
    ///         width,
    ///         height,
    ///         row_stride: width,
    ///         pitch: PixelPitch { x: um(20.0), y: um(20.0) },
    ///         corner: TablePlace { x: mm(0.0), y: mm(0.0) },
    ///         kind: SampleKind::Bilevel,
    ///         drawing_use: DrawingUse::BurntRaster,
    ///     },
    ///     drawn_on: DrawnOn {
    ///         beam: Beam::new(BeamParts { wavelength: um(10.6), m_squared: 1.2, waist }).unwrap(),
    ///         focus: Offset::ZERO,
    ///         surface: Surface::Plane(SurfaceSlope::LEVEL),
    ///         incidence_loss: true,
    ///         blur: ScanBlur { along: um(0.0), across: um(0.0) },
    ///         scan: RasterScan::Unknown,
    ///     },
    ///     answer: MarkAnswer::Coating,
    ///     dose_ratio,
    ///     edge_tolerance: None,
    ///     speck_area: um(0.0) * um(0.0),
    /// };
    /// let verdict = |dose_ratio| at(dose_ratio).quick_answer(&mut Watch::quiet()).unwrap().verdict;
    /// // At twice the threshold dose the smallest dot has a radius of 50·√(ln(2)/2) = 29.4 µm, and half a diagonal is 14.1 µm:
    /// // what lies deeper than 43.5 µm in the bar surely comes out, and all of that hangs together.
    /// assert_eq!(verdict(2.0), QuickVerdict::NothingAtRisk);
    /// // Less than the threshold dose marks nothing.
    /// assert_eq!(verdict(0.9), QuickVerdict::SomethingLost);
    /// // Of 1.001 times the threshold dose the bar gets too little for anything to be sure: the smallest dot has a radius of
    /// // 50·√(ln(1001)/2) = 92.9 µm, and an exposure may be off by half of what is left.
    /// assert_eq!(verdict(1.001), QuickVerdict::Unsure);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn quick_answer(&self, watch: &mut Watch<'_>) -> Result<QuickAnswer, Error> {
        let model = self.as_model();
        let words = artwork::quick_answer_words(&model, artwork::threads(), &mut watch.part(0.0, 0.02))?;
        let mut room = vec![0; words];
        let found = artwork::quick_answer(&model, &mut room, &mut watch.part(0.02, 1.0))?;
        let light = found.light;
        let lines = if light.line_interval > 0.0 {
            Some(BoundLines {
                line_interval: LineInterval::from_length(length(light.line_interval))?,
                least_spot: BeamWidth::computed(light.least_spot_diameter),
            })
        } else {
            None
        };
        Ok(QuickAnswer {
            verdict: found.verdict,
            counts: found.counts,
            light: BoundLight {
                greatest_spot: BeamWidth::computed(light.greatest_spot_diameter),
                least_dose_ratio: light.least_dose_ratio,
                greatest_dose_ratio: light.greatest_dose_ratio,
                lines,
            },
        })
    }
}
