//! The preflight of a drawing by a job.

use super::set_up::{Artwork, DrawnOn, MarkAnswer, Preflight, RasterScan, ScanBlur};
use crate::artwork::{self, preflight_of_job};
use crate::error::Error;
use crate::typed::beam::{Beam, BeamParts};
use crate::typed::dose::LineInterval;
use crate::typed::job::Job;
use crate::typed::offset::Offset;
use crate::typed::shape::Surface;
use crate::typed::width::BeamWidth;
use crate::typed::{area, length};
use uom::si::f64::{Area, Length};

/// What a preflight asks beyond a job.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct JobMarking {
    /// Depth from which on a place of a bulk counts as marked; 0 for any.
    pub visible_depth: Length,
    /// Width of the gaps that a melt closes; 0 for none.
    pub bridge: Length,
    /// Area below which a piece or a hole is a speck, as in [`Preflight::speck_area`]; 0 for none.
    pub speck_area: Area,
}

impl Job {
    /// The preflight of a drawing on a surface with this job's laser, lens, focus and dose. As
    /// [`artwork::preflight_of_job`].
    ///
    /// # Errors
    /// As there; a distance in a waist position must not be negative.
    pub fn preflight<'a>(
        &self,
        artwork: Artwork<'a>,
        surface: Surface<'a>,
        marking: &JobMarking,
    ) -> Result<Preflight<'a>, Error> {
        let asked = artwork::JobMarking {
            visible_depth: marking.visible_depth.value,
            bridge: marking.bridge.value,
            speck_area: marking.speck_area.value,
        };
        let model = preflight_of_job(&self.as_model()?, artwork.as_model(), surface.as_model(), &asked)?;
        let exposing = model.exposing;
        let parts = BeamParts {
            wavelength: length(exposing.beam.wavelength),
            m_squared: exposing.beam.m2,
            waist: BeamWidth::computed(exposing.beam.waist_diameter),
        };
        Ok(Preflight {
            artwork,
            drawn_on: DrawnOn {
                beam: Beam::new(parts)?,
                focus: Offset::from_metres(exposing.focus_z),
                surface,
                incidence_loss: exposing.incidence_loss,
                blur: ScanBlur { along: length(exposing.blur_along), across: length(exposing.blur_across) },
                scan: RasterScan::from_model(exposing.scan)?,
            },
            answer: MarkAnswer::from_model(model.answer),
            dose_ratio: model.dose_ratio,
            edge_tolerance: None,
            speck_area: area(model.speck_area),
        })
    }
}

impl RasterScan {
    fn from_model(scan: artwork::Scan) -> Result<Self, Error> {
        Ok(match scan {
            artwork::Scan::Unknown => Self::Unknown,
            artwork::Scan::AlongRows { line_interval, first_line } => Self::AlongRows {
                line_interval: LineInterval::from_length(length(line_interval))?,
                first_line: length(first_line),
            },
        })
    }
}

impl MarkAnswer {
    fn from_model(answer: artwork::Answer) -> Self {
        match answer {
            artwork::Answer::Coating => Self::Coating,
            artwork::Answer::LogarithmicBulk { penetration_depth, visible_depth } => Self::LogarithmicBulk {
                penetration_depth: length(penetration_depth),
                visible_depth: length(visible_depth),
            },
            artwork::Answer::LinearBulk { threshold_depth, visible_depth } => Self::LinearBulk {
                threshold_depth: length(threshold_depth),
                visible_depth: length(visible_depth),
            },
            artwork::Answer::Melt { bridge } => Self::Melt { bridge: length(bridge) },
        }
    }
}
