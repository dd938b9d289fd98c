//! Pulsed marks: dots in a row, the scallop of their edge, craters and grooves.
//!
//! | symbol | meaning                                                        | unit | valid       |
//! |--------|----------------------------------------------------------------|------|-------------|
//! | d, w   | spot **diameter** 1/e² and its half                            | m    | 1e-9 ≤ d ≤ 10 |
//! | q      | peak fluence of one pulse over the threshold of one pulse      | 1    | 1.000001 … 1e6 |
//! |        | the same in [`pulsed_line`]                                    | 1    | 1e-6 … 1e6  |
//! | p      | pulse pitch, from dot to dot; in [`groove`] at most D          | m    | 1e-12 … 10  |
//! | S      | incubation: 1 for none                                         | 1    | 0.5 … 1     |
//! | N      | pulses that fall on one place                                  | 1    | 1 … 1e9     |
//! | L      | ln of the dose ratio, of a line that after N pulses            | 1    |             |
//! | D, ρ   | **diameter** of a dot and its half                             | m    |             |
//! | ℓ      | depth at which the fluence has fallen by e                     | m    | 1e-12 … 1   |
//! | r, y   | distance from the middle of a crater, of a groove              | m    | 0 … 10      |
//! | c      | scallop                                                        | m    | 1e-15 … ρ   |
//! |        | repetition rate                                                | Hz   | 1e-3 … 1e12 |
//! |        | speed that comes out                                           | m/s  | 1e-9 … 1e4  |
//!
//! threshold after N pulses over that of one = N^(S − 1)                                  \[1\]
//! dot diameter D = d·√(L/2)                                                              \[2\]
//! dots touch while p < D; scallop = (p²/4)/(ρ + √(ρ² − p²/4)), or ρ where they do not touch
//! crater: depth ℓ·(L − 2r²/w²), volume π·w²·ℓ·L²/4                                        \[3\]
//! groove of such craters: mean depth 8·ℓ·(w²L/2 − y²)^(3/2)/(3·p·w²), cross-section volume/p
//! largest pitch for a scallop c: 2·√(c·(2ρ − c)), speed = that times the repetition rate; with incubation ρ is
//! that after N = √(π/8)·d/p effective pulses, at least 1, and p is found by halving
//!
//! Scallop, volume and groove are derived here from the two laws; the groove adds up depths, as if every
//! pulse met a flat surface. \[1\] Y. Jee, M. F. Becker, R. M. Walser, *J. Opt. Soc. Am. B* 5, 648 (1988),
//! an empirical law, from memory. \[2\] J. M. Liu, *Optics Letters* 7, 196 (1982), from memory. \[3\] The
//! fluence falls as exp(−depth/ℓ) (Beer and Lambert) and ablates while it exceeds the threshold.
//! Not modelled: heat that accumulates, plasma shielding, walls that reflect, debris.

use super::dose::ROOT_EIGHTH_PI;
use super::isolated::width_of;
use super::material::log_threshold_fall;
use crate::error::{Error, Param, check, check_within, within_model};
use crate::model::math::{self, greater, lesser};
use core::f64::consts::PI;

/// A row of dots.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PulsedLine {
    /// Whether a dot marks at all, if only after so many pulses; else its diameter and the scallop are 0.
    pub marks: bool,
    /// Threshold after so many pulses over that of one, at most 1.
    pub threshold_ratio: f64,
    /// Peak fluence over that lowered threshold.
    pub dose_ratio: f64,
    /// **Diameter** of a dot in metres, 0 without a mark.
    pub dot_diameter: f64,
    /// Whether dots overlap, so that the line has no gaps.
    pub connected: bool,
    /// How far the edge dents between dots in metres; the radius of a dot where they do not touch.
    pub scallop: f64,
}

/// What one pulse digs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crater {
    /// **Diameter** at the surface in metres.
    pub diameter: f64,
    /// Depth in the middle in metres.
    pub depth: f64,
    /// Depth at the radius asked for in metres; 0 outside the crater.
    pub depth_at_radius: f64,
    /// Volume in m³.
    pub volume: f64,
}

/// What a row of pulses digs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Groove {
    /// Width at the surface in metres.
    pub width: f64,
    /// Mean depth along the middle in metres.
    pub depth: f64,
    /// Mean depth at the distance asked for in metres; 0 outside the groove.
    pub depth_aside: f64,
    /// Area of the mean cross-section in m².
    pub area: f64,
}

/// The fastest scan that leaves no more than a given scallop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ConnectedSpeed {
    /// Largest pulse pitch in metres.
    pub pulse_pitch: f64,
    /// Effective pulses on one place at that pitch, at least 1.
    pub pulses: f64,
    /// Largest speed in m/s.
    pub speed: f64,
}

/// The dots of a pulsed line: their size after incubation, and the scallop of the edge.
///
/// Formulas and sources in the [module](self). `pulses` is how many fall on one place, such as
/// [`PulseDose::effective_pulses`](super::PulseDose::effective_pulses), but at least 1.
///
/// A single pulse below the threshold (q ≤ 1) may still mark after many. No mark is no error: `marks` is then
/// false.
///
/// Accuracy: at most 4 ulp; the ratio of thresholds and that of doses that times 1 + (1 − S)·ln N, the diameter
/// for q < 1 that times 1 + |ln q|/L, the scallop that times 1 + (p/2)/√(ρ² − p²/4), large where dots just touch
/// (`tests/vectors/pulsed_line.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments.
///
/// # Example
/// ```
/// use spotwise::model::mark::pulsed_line;
/// // A spot of 50 µm at e² times the threshold marks dots of its own diameter; 30 µm apart.
/// let line = pulsed_line(50e-6, 7.389_056_098_930_65, 30e-6, 1.0, 1.0)?;
/// assert_eq!((line.dot_diameter * 1e12).round(), 50_000_000.0);
/// // 25 − √(25² − 15²) = 5 µm.
/// assert_eq!((line.scallop * 1e12).round(), 5_000_000.0);
/// // Nine tenths of the threshold of one pulse, but 100 pulses halve it: 100^(0.85 − 1) = 0.501.
/// let incubated = pulsed_line(50e-6, 0.9, 10e-6, 0.85, 100.0)?;
/// assert_eq!((incubated.threshold_ratio * 1e4).round(), 5012.0);
/// assert_eq!((incubated.dose_ratio * 1e4).round(), 17_957.0);
/// assert_eq!((incubated.dot_diameter * 1e9).round(), 27_051.0); // 50 µm·√(ln(1.7957)/2)
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the line is the result"]
pub fn pulsed_line(
    spot_diameter: f64,
    dose_ratio: f64,
    pulse_pitch: f64,
    incubation: f64,
    pulses: f64,
) -> Result<PulsedLine, Error> {
    let d = check(Param::SpotDiameter, spot_diameter)?;
    let q = check(Param::AnyDoseRatio, dose_ratio)?;
    let pitch = check(Param::PulsePitch, pulse_pitch)?;
    let incubation = check(Param::Incubation, incubation)?;
    let pulses = check(Param::Pulses, pulses)?;
    let log_fall = log_threshold_fall(incubation, pulses);
    let threshold_ratio = math::exp(-log_fall);
    let log_dose = math::log(q) + log_fall;
    let dot_diameter = width_of(d, log_dose);
    let (radius, half) = (0.5 * dot_diameter, 0.5 * pitch);
    let connected = pitch < dot_diameter;
    let scallop = if connected {
        half / (radius + math::sqrt((radius - half) * (radius + half))) * half
    } else {
        radius
    };
    Ok(PulsedLine {
        marks: log_dose > 0.0,
        threshold_ratio,
        dose_ratio: q / threshold_ratio,
        dot_diameter,
        connected,
        scallop,
    })
}

/// Depth and volume of the crater of one pulse, and its depth at a distance from the middle.
///
/// Formulas and sources in the [module](self).
///
/// Accuracy: at most 6 ulp; `depth_at_radius` that times L/(L − 2r²/w²) (`tests/vectors/crater.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments.
///
/// # Example
/// ```
/// use spotwise::model::mark::crater;
/// // e times the threshold, and the fluence falls by e every 20 nm: 20 nm deep in the middle.
/// let dug = crater(50e-6, 2.718_281_828_459_045, 20e-9, 0.0)?;
/// assert_eq!((dug.depth * 1e15).round(), 20_000_000.0);
/// // π·(25 µm)²·20 nm/4 = 9.817e-18 m³
/// assert_eq!((dug.volume * 1e21).round(), 9817.0);
/// // 10 µm from it, L − 2·10²/25² = 0.68 is left of L = 1.
/// let aside = crater(50e-6, 2.718_281_828_459_045, 20e-9, 10e-6)?;
/// assert_eq!((aside.depth_at_radius * 1e15).round(), 13_600_000.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the crater is the result"]
pub fn crater(
    spot_diameter: f64,
    dose_ratio: f64,
    penetration_depth: f64,
    radius: f64,
) -> Result<Crater, Error> {
    let d = check(Param::SpotDiameter, spot_diameter)?;
    let q = check(Param::DoseRatio, dose_ratio)?;
    let penetration = check(Param::PenetrationDepth, penetration_depth)?;
    let radius = check(Param::Radius, radius)?;
    let log_dose = math::log(q);
    let diameter = width_of(d, log_dose);
    // L − 2r²/w² = (L/ρ²)·(ρ − r)·(ρ + r), ρ = diameter/2
    let aside = 2.0 * radius / diameter;
    let left = if aside < 1.0 { (1.0 - aside) * (1.0 + aside) } else { 0.0 };
    let depth = penetration * log_dose;
    Ok(Crater {
        diameter,
        depth,
        depth_at_radius: depth * left,
        // π·w²·ℓ·L²/4
        volume: PI / 16.0 * d * d * (depth * log_dose),
    })
}

/// Mean depth and cross-section of the groove of a row of pulses, and its depth at a distance aside.
///
/// Formulas and sources in the [module](self). It holds while several pulses fall on each place; a pitch wider
/// than a dot leaves craters apart and no groove.
///
/// Accuracy: at most 6 ulp; `depth_aside` that times 1 + 3/(1 − y²/ρ²) (`tests/vectors/groove.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments; the pitch must be no more than
/// the diameter of a dot.
///
/// # Example
/// ```
/// use spotwise::model::mark::groove;
/// let dug = groove(50e-6, 2.718_281_828_459_045, 20e-9, 5e-6, 0.0)?;
/// // By hand: 8·20 nm·(25²/2 µm²)^1.5/(3·5 µm·25² µm²) = 94.28 nm.
/// assert_eq!((dug.depth * 1e12).round(), 94_281.0);
/// assert_eq!((dug.area * 1e18).round(), 1_963_495.0); // π·(25 µm)²·20 nm/4 over 5 µm = 1.9635 µm²
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the groove is the result"]
pub fn groove(
    spot_diameter: f64,
    dose_ratio: f64,
    penetration_depth: f64,
    pulse_pitch: f64,
    aside: f64,
) -> Result<Groove, Error> {
    let crater = crater(spot_diameter, dose_ratio, penetration_depth, 0.0)?;
    // A dot may be smaller than any pitch elsewhere.
    let (least, _) = Param::PulsePitch.range();
    let least = lesser(least, crater.diameter);
    let pitch = check_within(Param::PulsePitch, pulse_pitch, least, crater.diameter)?;
    let aside = check(Param::Radius, aside)?;
    let y = 2.0 * aside / crater.diameter;
    let left = if y < 1.0 { (1.0 - y) * (1.0 + y) } else { 0.0 };
    // 8ℓ·ρ³/(3·p·w²) with ρ² = w²·L/2: ℓ·L·4ρ/(3p)
    let depth = crater.depth * (2.0 * crater.diameter / (3.0 * pitch));
    Ok(Groove {
        width: crater.diameter,
        depth,
        depth_aside: depth * (left * math::sqrt(left)),
        area: crater.volume / pitch,
    })
}

/// The largest pulse pitch and speed at which the edge of a pulsed line dents by no more than `scallop`.
///
/// Formulas and sources in the [module](self). With a scallop of the whole radius the dots just touch. With
/// incubation the threshold falls as the pulses come closer, so that dots grow as the scan slows down.
///
/// Accuracy: at most 4 ulp (`tests/vectors/connected_speed.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments; the scallop must be no
/// more than the radius of a dot of one pulse. [`Error::OutsideModel`] if the pulses come out beyond
/// [`Param::Pulses`], or the speed beyond [`Param::Speed`].
///
/// # Example
/// ```
/// use spotwise::model::mark::connected_speed;
/// let fastest = connected_speed(50e-6, 7.389_056_098_930_65, 50e3, 1.0, 5e-6)?;
/// assert_eq!((fastest.pulse_pitch * 1e12).round(), 30_000_000.0); // 2·√(5·45) = 30 µm
/// assert_eq!((fastest.speed * 1e6).round(), 1_500_000.0);         // 1.5 m/s
/// assert_eq!((fastest.pulses * 1e3).round(), 1044.0);             // √(π/8)·50/30
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the speed is the result"]
pub fn connected_speed(
    spot_diameter: f64,
    dose_ratio: f64,
    repetition_rate: f64,
    incubation: f64,
    scallop: f64,
) -> Result<ConnectedSpeed, Error> {
    let d = check(Param::SpotDiameter, spot_diameter)?;
    let q = check(Param::DoseRatio, dose_ratio)?;
    let rate = check(Param::RepetitionRate, repetition_rate)?;
    let incubation = check(Param::Incubation, incubation)?;
    let log_dose = math::log(q);
    let (least, _) = Param::Scallop.range();
    let scallop = check_within(Param::Scallop, scallop, least, 0.5 * width_of(d, log_dose))?;

    let pulses_at = |pitch: f64| greater(1.0, ROOT_EIGHTH_PI * (d / pitch));
    // The pitch that dents this far between the dots of so many pulses.
    let pitch_after = |pulses: f64| {
        let dot = width_of(d, log_dose + log_threshold_fall(incubation, pulses));
        2.0 * math::sqrt(scallop * (dot - scallop))
    };
    // More pitch means fewer pulses and smaller dots: the answer lies above the pitch for the dots of one
    // pulse, and below that for the dots of as many as fall there.
    let mut low = pitch_after(1.0);
    let mut high = pitch_after(pulses_at(low));
    for _ in 0..64 {
        let middle = 0.5 * (low + high);
        if pitch_after(pulses_at(middle)) >= middle {
            low = middle;
        } else {
            high = middle;
        }
    }
    let pulses = within_model(Param::Pulses, pulses_at(low))?;
    let speed = within_model(Param::Speed, low * rate)?;
    Ok(ConnectedSpeed { pulse_pitch: low, pulses, speed })
}
