//! All that blurs a mark besides the beam.

use super::length;
use super::units::s;
use super::width::BeamWidth;
use crate::error::Error;
use crate::model::mark;
use uom::si::f64::{DiffusionCoefficient, Length, Time, Velocity};

/// What blurs a mark.
///
/// # Example
/// ```
/// use spotwise::units::{m, m_per_s, mm2_per_s, s, um};
/// use spotwise::{BeamWidth, Blur};
/// let spot = BeamWidth::from_diameter_1e2(um(60.0))?;
/// let blur = Blur {
///     spot_across: spot,
///     spot_along: spot,
///     speed: m_per_s(1.0),
///     diffusivity: mm2_per_s(0.0),
///     pixel: m(0.0),
///     jitter_deviation: um(20.0),
///     rise_time: s(0.0),
///     switch_delay: s(0.0),
/// };
/// // 60² + 16·20² = 100²: four times the variances of radii.
/// let budget = blur.budget()?;
/// assert_eq!((budget.spot_across.diameter_1e2().value * 1e12).round(), 100_000_000.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blur {
    /// Spot width across the scan.
    pub spot_across: BeamWidth,
    /// Spot width along the scan.
    pub spot_along: BeamWidth,
    /// Speed along the scan, 1e-9 to 1e4 m/s.
    pub speed: Velocity,
    /// Thermal diffusivity of the part, 0 to 1e-2 m²/s; 0 to leave heat out.
    pub diffusivity: DiffusionCoefficient,
    /// Side of the square pixels that are burnt as boxes, 0 to 1 m; 0 for none.
    pub pixel: Length,
    /// Standard deviation of the jitter of the spot, each way, 0 to 1 m.
    pub jitter_deviation: Length,
    /// Rise time of the power from 10 % to 90 %, 0 to 1 s.
    pub rise_time: Time,
    /// By how much the power lags behind the motion, 0 to 1 s.
    pub switch_delay: Time,
}

/// The sum of a [`Blur`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BlurBudget {
    /// For how long the spot stays over one place.
    pub dwell: Time,
    /// Diffusion length over the dwell.
    pub diffusion_length: Length,
    /// Spot width across the scan with all blurs.
    pub spot_across: BeamWidth,
    /// Spot width along the scan with all blurs.
    pub spot_along: BeamWidth,
    /// Width of an edge that runs along the scan, 10 % to 90 % of the dose.
    pub edge_across: Length,
    /// Width of an edge that lies across the scan, 10 % to 90 % of the dose.
    pub edge_along: Length,
    /// Way of the spot while the power rises.
    pub rise_smear: Length,
    /// Way of the spot while the power lags, by which an edge is shifted.
    pub delay_shift: Length,
    /// Offset of edges between lines burnt to and fro.
    pub two_way_comb: Length,
}

impl Blur {
    /// The sum of all blurs, along and across the scan. As
    /// [`model::mark::blur_budget`](crate::model::mark::blur_budget).
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the fields.
    pub fn budget(&self) -> Result<BlurBudget, Error> {
        let found = mark::blur_budget(&mark::Blur {
            diameter_across: self.spot_across.metres_1e2(),
            diameter_along: self.spot_along.metres_1e2(),
            speed: self.speed.value,
            diffusivity: self.diffusivity.value,
            pixel: self.pixel.value,
            jitter_deviation: self.jitter_deviation.value,
            rise_time: self.rise_time.value,
            switch_delay: self.switch_delay.value,
        })?;
        Ok(BlurBudget {
            dwell: s(found.dwell),
            diffusion_length: length(found.diffusion_length),
            spot_across: BeamWidth::computed(found.diameter_across),
            spot_along: BeamWidth::computed(found.diameter_along),
            edge_across: length(found.edge_across),
            edge_along: length(found.edge_along),
            rise_smear: length(found.rise_smear),
            delay_shift: length(found.delay_shift),
            two_way_comb: length(found.two_way_comb),
        })
    }
}
