//! Pulsed marks: dots in a row, craters and grooves.

use super::length;
use super::units::{m_per_s, m2, m3};
use super::width::BeamWidth;
use crate::error::Error;
use crate::model::mark;
use uom::si::f64::{Area, Frequency, Length, Velocity, Volume};

/// One pulse of a train, as the surface sees it: its spot and its dose.
///
/// # Example
/// ```
/// use spotwise::units::{hz, um};
/// use spotwise::{BeamWidth, Incubation, PulseSpot};
/// // A spot of 50 µm at e² times the threshold marks dots of its own diameter; 30 µm apart.
/// let pulse =
///     PulseSpot { spot: BeamWidth::from_diameter_1e2(um(50.0))?, dose_ratio: 7.389_056_098_930_65 };
/// let line = pulse.line(um(30.0), Incubation::NONE)?;
/// assert_eq!((line.dot_diameter.value * 1e12).round(), 50_000_000.0);
/// assert_eq!((line.scallop.value * 1e12).round(), 5_000_000.0); // 25 − √(25² − 15²) = 5 µm
/// // 2·√(5·45) = 30 µm at 50 kHz.
/// assert_eq!((pulse.connected_speed(hz(50e3), 1.0, um(5.0))?.speed.value * 1e6).round(), 1_500_000.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PulseSpot {
    /// The spot on the surface.
    pub spot: BeamWidth,
    /// Peak fluence of one pulse over the threshold of one pulse, 1.000001 to 1e6; for a line from 1e-6 on, since
    /// many pulses may mark where one does not.
    pub dose_ratio: f64,
}

/// How much lower the threshold is after many pulses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Incubation {
    /// Exponent S, by which the threshold of N pulses falls as N^(S − 1): 0.5 to 1.
    pub exponent: f64,
    /// How many pulses fall on one place, 1 to 1e9.
    pub pulses: f64,
}

impl Incubation {
    /// The threshold of one pulse holds for all.
    pub const NONE: Self = Self { exponent: 1.0, pulses: 1.0 };
}

/// A row of dots.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PulsedLine {
    /// Whether a dot marks at all, if only after so many pulses.
    pub marks: bool,
    /// Threshold after so many pulses over that of one, at most 1.
    pub threshold_ratio: f64,
    /// Peak fluence over that lowered threshold.
    pub dose_ratio: f64,
    /// **Diameter** of a dot, 0 without a mark.
    pub dot_diameter: Length,
    /// Whether dots overlap, so that the line has no gaps.
    pub connected: bool,
    /// How far the edge dents between dots; the radius of a dot where they do not touch.
    pub scallop: Length,
}

/// What one pulse digs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crater {
    /// **Diameter** at the surface.
    pub diameter: Length,
    /// Depth in the middle.
    pub depth: Length,
    /// Depth at the radius asked for; 0 outside the crater.
    pub depth_at_radius: Length,
    /// Volume.
    pub volume: Volume,
}

/// A row of pulses that dig, and the place in its groove that is asked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroovePlace {
    /// Depth at which the fluence has fallen by e, 1e-12 to 1 m.
    pub penetration_depth: Length,
    /// From one pulse to the next, 1e-12 to 10 m.
    pub pulse_pitch: Length,
    /// Distance from the middle of the groove.
    pub aside: Length,
}

/// What a row of pulses digs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Groove {
    /// Width at the surface.
    pub width: Length,
    /// Mean depth along the middle.
    pub depth: Length,
    /// Mean depth at the distance asked for; 0 outside the groove.
    pub depth_aside: Length,
    /// Area of the mean cross-section.
    pub area: Area,
}

/// A crater that is dug, and the place in it that is asked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CraterPlace {
    /// Depth at which the fluence has fallen by e, 1e-12 to 1 m.
    pub penetration_depth: Length,
    /// Distance from the middle of the crater.
    pub radius: Length,
}

/// The fastest scan that leaves no more than a given scallop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ConnectedSpeed {
    /// Largest pulse pitch.
    pub pulse_pitch: Length,
    /// Effective pulses on one place at that pitch, at least 1.
    pub pulses: f64,
    /// Largest speed.
    pub speed: Velocity,
}

impl PulseSpot {
    /// The dots of a row, so far from one to the next, and the scallop of its edge. As
    /// [`model::mark::pulsed_line`](crate::model::mark::pulsed_line).
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`]: the pitch must be from 1e-12 to 10 m.
    pub fn line(&self, pulse_pitch: Length, incubation: Incubation) -> Result<PulsedLine, Error> {
        let found = mark::pulsed_line(
            self.spot.metres_1e2(),
            self.dose_ratio,
            pulse_pitch.value,
            incubation.exponent,
            incubation.pulses,
        )?;
        Ok(PulsedLine {
            marks: found.marks,
            threshold_ratio: found.threshold_ratio,
            dose_ratio: found.dose_ratio,
            dot_diameter: length(found.dot_diameter),
            connected: found.connected,
            scallop: length(found.scallop),
        })
    }

    /// Depth and volume of the crater of one pulse. As
    /// [`model::mark::crater`](crate::model::mark::crater).
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`].
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{m, nm, um};
    /// use spotwise::{BeamWidth, CraterPlace, PulseSpot};
    /// let pulse = PulseSpot { spot: BeamWidth::from_diameter_1e2(um(50.0))?, dose_ratio: std::f64::consts::E };
    /// let dug = pulse.crater(CraterPlace { penetration_depth: nm(20.0), radius: m(0.0) })?;
    /// assert_eq!((dug.volume.value * 1e21).round(), 9817.0); // π·(25 µm)²·20 nm/4
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    pub fn crater(&self, place: CraterPlace) -> Result<Crater, Error> {
        let found = mark::crater(
            self.spot.metres_1e2(),
            self.dose_ratio,
            place.penetration_depth.value,
            place.radius.value,
        )?;
        Ok(Crater {
            diameter: length(found.diameter),
            depth: length(found.depth),
            depth_at_radius: length(found.depth_at_radius),
            volume: m3(found.volume),
        })
    }

    /// Mean depth and cross-section of the groove of a row of pulses. As
    /// [`model::mark::groove`](crate::model::mark::groove).
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`]: the pitch must be no more than the diameter of a dot.
    pub fn groove(&self, place: GroovePlace) -> Result<Groove, Error> {
        let found = mark::groove(
            self.spot.metres_1e2(),
            self.dose_ratio,
            place.penetration_depth.value,
            place.pulse_pitch.value,
            place.aside.value,
        )?;
        Ok(Groove {
            width: length(found.width),
            depth: length(found.depth),
            depth_aside: length(found.depth_aside),
            area: m2(found.area),
        })
    }

    /// The largest pitch and speed at which the edge of a row dents by no more than `scallop`. As
    /// [`model::mark::connected_speed`](crate::model::mark::connected_speed).
    ///
    /// `incubation` is the exponent S, 0.5 to 1, 1 for none; how many pulses fall on one place follows from the
    /// pitch.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`]; the scallop must be no more than the radius of a dot of one
    /// pulse. [`Error::OutsideModel`] if the pulses on one place come out beyond 1e9, or the speed beyond 1e4 m/s.
    pub fn connected_speed(
        &self,
        repetition_rate: Frequency,
        incubation: f64,
        scallop: Length,
    ) -> Result<ConnectedSpeed, Error> {
        let found = mark::connected_speed(
            self.spot.metres_1e2(),
            self.dose_ratio,
            repetition_rate.value,
            incubation,
            scallop.value,
        )?;
        Ok(ConnectedSpeed {
            pulse_pitch: length(found.pulse_pitch),
            pulses: found.pulses,
            speed: m_per_s(found.speed),
        })
    }
}
