//! Irradiance along the radius of one plane, panel by panel from the axis outward.
//!
//! For M² = 1 it is |U|². For M² > 1 it is |U|² smeared by the partial coherence of the beam,
//!
//! I(v) = ∫ |U(v′)|²·(v′/σ²)·exp(−(v² + v′²)/(2σ²))·I₀(vv′/σ²) dv′,   σ² = M⁴ − 1
//!
//! which is the convolution in the plane with exp(−r²/(2σ²))/(2πσ²), its angle done. The kernel is
//! (v′/σ²)·exp(−(v − v′)²/(2σ²)) times the scaled I₀, so that nothing overflows.
//!
//! U is tabulated at the points of panels in v; both tables are interpolated within their panels.
//! The lengths of the panels follow from bounds off the real axis (see
//! [`quadrature`](super::quadrature)): with y = Im v,
//!
//! |U| ≤ A·F(y), F = min(exp(Xy), 1 + √π·y·exp(y²/4)), A = 1 − exp(−X²),
//!   |kernel| ≤ (0.61 + y/σ)/σ·exp(y²/(2σ²)),
//! |I| ≤ A²·min(F², exp(y²/(2σ²))).
//!
//! Where σ is too small for the panels of U to resolve the kernel, the integral runs over pieces
//! about v instead, whose points take U from the table; there is no M² for which it fails.

use super::bessel::scaled_i0;
use super::pupil::{Effort, Pupil, ROUNDING};
use super::quadrature::{ELLIPSES, Ellipse, NODES, POINTS, Values, WEIGHTS, interpolate, interpolate_both};
use crate::model::math::{exp, greater, lesser, log, sqrt};

/// Panels in each table.
pub(super) const PANELS: usize = 64;
/// How many σ the kernel reaches: exp(−7.75²/2) = 9e-14 of the light lies beyond.
const WINDOW: f64 = 7.75;
/// Below this σ the integral over the kernel runs over pieces about v.
const LOCAL_BELOW: f64 = 0.3;
/// Error allowed to the integral over the kernel, with what lies beyond the window.
const KERNEL_ERROR: f64 = 3e-13;

/// The greatest half length of a panel for which `ln_bound` on some ellipse is low enough.
fn half_length(ln_allowed: f64, ln_bound: impl Fn(&Ellipse, f64) -> f64) -> f64 {
    let mut half = 60.0;
    for _ in 0..150 {
        if ELLIPSES.iter().any(|ellipse| ln_bound(ellipse, half) <= ln_allowed) {
            break;
        }
        half *= 0.95;
    }
    half
}

/// ln F(y).
fn ln_field(reach: f64, y: f64) -> f64 {
    let clipped = reach * y;
    let unclipped = log(1.0 + 1.7725 * y) + 0.25 * y * y;
    lesser(clipped, unclipped)
}

/// Index of the panel that holds `v`, and where it lies in it, from −1 to 1.
fn locate(start: f64, half: f64, v: f64) -> (usize, f64) {
    let along = (v - start) / (2.0 * half);
    let index = if along > 0.0 { along as usize } else { 0 };
    (index, 2.0 * (along - index as f64) - 1.0)
}

/// The points of one panel.
pub(super) fn panel_points(start: f64, half: f64, index: usize) -> Values {
    let middle = start + half * (2.0 * index as f64 + 1.0);
    NODES.map(|node| middle + half * node)
}

/// The partial coherence of a beam.
#[derive(Clone, Copy)]
pub(super) struct Smear {
    /// √(M⁴ − 1); 0 for a coherent beam.
    pub(super) sigma: f64,
}

impl Smear {
    pub(super) fn new(m2: f64) -> Self {
        Self { sigma: sqrt((m2 - 1.0) * (m2 + 1.0)) }
    }

    pub(super) fn is_coherent(&self) -> bool {
        self.sigma == 0.0
    }

    /// Whether the kernel is too narrow for the panels of U.
    pub(super) fn is_local(&self) -> bool {
        self.sigma < LOCAL_BELOW
    }

    /// How far light from one v′ reaches.
    pub(super) fn window(&self) -> f64 {
        WINDOW * self.sigma
    }

    /// The kernel at `v` for light from `from` = v + `apart`.
    pub(super) fn kernel(&self, v: f64, from: f64, apart: f64) -> f64 {
        let s = self.sigma;
        let (u, apart) = (from / s, apart / s);
        if apart.abs() > WINDOW {
            return 0.0;
        }
        u / s * exp(-0.5 * apart * apart) * scaled_i0(v / s * u)
    }

    /// Half the length of the panels of U.
    pub(super) fn field_half_length(&self, reach: f64, effort: &Effort) -> f64 {
        if self.is_local() {
            return half_length(effort.ln_interpolation, |ellipse, half| {
                ellipse.ln_interpolation + ln_field(reach, ellipse.across * half)
            });
        }
        // Each of the panels in the window may err by a fiftieth of the allowance; there are fewer.
        half_length(log(KERNEL_ERROR / 50.0), |ellipse, half| {
            let y = ellipse.across * half;
            let u = y / self.sigma;
            ellipse.ln_quadrature
                + log(half * (0.61 + u) / self.sigma)
                + 0.5 * u * u
                + 2.0 * ln_field(reach, y)
        })
    }

    /// Half the length of the panels of I.
    pub(super) fn half_length(&self, reach: f64, effort: &Effort) -> f64 {
        if self.is_coherent() {
            return self.field_half_length(reach, effort);
        }
        half_length(effort.ln_interpolation, |ellipse, half| {
            let y = ellipse.across * half;
            let u = y / self.sigma;
            let (field, smeared) = (2.0 * ln_field(reach, y), 0.5 * u * u);
            ellipse.ln_interpolation + lesser(field, smeared)
        })
    }
}

/// U at the points of panels from `start` outward.
#[derive(Clone, Copy)]
pub(super) struct Field<'a> {
    pub(super) start: f64,
    /// Half the length of a panel.
    pub(super) half: f64,
    pub(super) real: &'a [Values],
    pub(super) imaginary: &'a [Values],
}

impl Field<'_> {
    /// Where a panel begins.
    fn edge(&self, index: usize) -> f64 {
        self.start + 2.0 * self.half * index as f64
    }

    /// |U|² at `v`, interpolated.
    pub(super) fn irradiance(&self, v: f64) -> f64 {
        let (index, t) = locate(self.start, self.half, v);
        // Rounding may place the very end in the panel beyond.
        let last = self.real.len().saturating_sub(1);
        let (index, t) = if index > last { (last, 1.0) } else { (index, t) };
        let (Some(real), Some(imaginary)) = (self.real.get(index), self.imaginary.get(index)) else {
            return f64::NAN;
        };
        let (a, b) = interpolate_both(real, imaginary, t);
        a * a + b * b
    }

    /// The smeared irradiance at `v`; the field must reach as far as the kernel.
    pub(super) fn smeared(&self, smear: &Smear, v: f64) -> f64 {
        let window = smear.window();
        let (first, _) = locate(self.start, self.half, v - window);
        let mut sum = 0.0;
        for index in first..self.real.len() {
            let (from, to) = (self.edge(index) - v, self.edge(index + 1) - v);
            if from > window {
                break;
            }
            sum += if smear.is_local() {
                let from = greater(from, -window);
                let to = lesser(to, window);
                self.smeared_from_pieces(smear, v, from, to)
            } else {
                self.smeared_from_panel(smear, v, index)
            };
        }
        sum
    }

    /// What one whole panel adds at `v`.
    fn smeared_from_panel(&self, smear: &Smear, v: f64, index: usize) -> f64 {
        let (Some(real), Some(imaginary)) = (self.real.get(index), self.imaginary.get(index)) else {
            return f64::NAN;
        };
        let points = panel_points(self.start, self.half, index);
        let mut sum = 0.0;
        for (((a, b), from), weight) in real.iter().zip(imaginary).zip(points).zip(&WEIGHTS) {
            sum += weight * (a * a + b * b) * smear.kernel(v, from, from - v);
        }
        sum * self.half
    }

    /// What the stretch of one panel from v + `from` to v + `to` adds at `v`.
    fn smeared_from_pieces(&self, smear: &Smear, v: f64, from: f64, to: f64) -> f64 {
        if to <= from {
            return 0.0;
        }
        let pieces = ((to - from) / smear.window()) as usize + 1;
        let half = 0.5 * (to - from) / pieces as f64;
        let mut sum = 0.0;
        for piece in 0..pieces {
            let middle = from + half * (2.0 * piece as f64 + 1.0);
            for (node, weight) in NODES.iter().zip(&WEIGHTS) {
                // Kept apart from v, so that the kernel does not lose it to rounding.
                let apart = middle + half * node;
                let from = v + apart;
                sum += weight * self.irradiance(from) * smear.kernel(v, from, apart);
            }
        }
        sum * half
    }
}

/// A field as far as it was needed, and the power in each of its panels.
struct FieldTable {
    start: f64,
    half: f64,
    count: usize,
    real: [Values; PANELS],
    imaginary: [Values; PANELS],
    power: [f64; PANELS],
}

impl FieldTable {
    fn new(start: f64, half: f64) -> Self {
        Self {
            start,
            half,
            count: 0,
            real: [[0.0; POINTS]; PANELS],
            imaginary: [[0.0; POINTS]; PANELS],
            power: [0.0; PANELS],
        }
    }

    /// The panels known.
    fn known(&self) -> Field<'_> {
        Field {
            start: self.start,
            half: self.half,
            real: self.real.get(..self.count).unwrap_or(&[]),
            imaginary: self.imaginary.get(..self.count).unwrap_or(&[]),
        }
    }

    fn end(&self) -> f64 {
        self.known().edge(self.count)
    }

    /// Adds panels until they reach `v`; false if the table is too short.
    fn reach(&mut self, pupil: &Pupil, v: f64) -> bool {
        while self.end() < v {
            let points = panel_points(self.start, self.half, self.count);
            let rows = (
                self.real.get_mut(self.count),
                self.imaginary.get_mut(self.count),
                self.power.get_mut(self.count),
            );
            let (Some(real), Some(imaginary), Some(power)) = rows else { return false };
            (*real, *imaginary) = pupil.field(&points);
            for (((a, b), v), weight) in real.iter().zip(&*imaginary).zip(points).zip(&WEIGHTS) {
                *power += self.half * weight * (a * a + b * b) * v;
            }
            self.count += 1;
        }
        true
    }

    /// Power in the panels that lie wholly within `v`.
    fn power_within(&self, v: f64) -> f64 {
        let known = self.known();
        let whole = self.power.iter().take(self.count).enumerate();
        whole.filter(|(index, _)| known.edge(index + 1) <= v).map(|(_, power)| power).sum()
    }
}

/// The irradiance of one plane from the axis outward.
pub(super) struct Profile {
    pupil: Pupil,
    smear: Smear,
    field: FieldTable,
    /// Half the length of the panels of `values`.
    half: f64,
    count: usize,
    /// Error allowed to interpolation.
    interpolation: f64,
    /// Irradiance at the points of each panel.
    values: [Values; PANELS],
    /// Power in each panel.
    power: [f64; PANELS],
}

impl Profile {
    /// `start` is where the table of U begins: 0, or the least v′ that is needed.
    pub(super) fn new(pupil: Pupil, smear: Smear, start: f64, effort: &Effort) -> Self {
        Self {
            pupil,
            smear,
            field: FieldTable::new(start, smear.field_half_length(pupil.reach, effort)),
            half: smear.half_length(pupil.reach, effort),
            count: 0,
            interpolation: exp(effort.ln_interpolation),
            values: [[0.0; POINTS]; PANELS],
            power: [0.0; PANELS],
        }
    }

    /// Chooses panels of which a whole number ends at `v`; returns that number.
    pub(super) fn end_panels_at(&mut self, v: f64) -> usize {
        let panels = (v / (2.0 * self.half)) as usize + 1;
        self.half = 0.5 * v / panels as f64;
        if self.smear.is_coherent() {
            self.field.half = self.half;
        }
        panels
    }

    /// How far the profile is known.
    pub(super) fn end(&self) -> f64 {
        2.0 * self.half * self.count as f64
    }

    /// Number of panels known.
    pub(super) fn count(&self) -> usize {
        self.count
    }

    /// Adds one panel; `None` if a table is full, else the power in the panel.
    pub(super) fn extend(&mut self) -> Option<f64> {
        let end = 2.0 * self.half * (self.count as f64 + 1.0);
        // The last panel of a coherent field ends where this one does, but for rounding.
        let field_end = if self.smear.is_coherent() { end - self.half } else { end + self.smear.window() };
        if !self.field.reach(&self.pupil, field_end) {
            return None;
        }
        let points = panel_points(0.0, self.half, self.count);
        let mut values = [0.0; POINTS];
        if self.smear.is_coherent() {
            let (real, imaginary) = (self.field.real.get(self.count)?, self.field.imaginary.get(self.count)?);
            for ((value, a), b) in values.iter_mut().zip(real).zip(imaginary) {
                *value = a * a + b * b;
            }
        } else {
            for (value, v) in values.iter_mut().zip(points) {
                *value = self.smeared(v);
            }
        }
        let power: f64 = values
            .iter()
            .zip(points)
            .zip(&WEIGHTS)
            .map(|((value, v), weight)| self.half * weight * value * v)
            .sum();
        *self.values.get_mut(self.count)? = values;
        *self.power.get_mut(self.count)? = power;
        self.count += 1;
        Some(power)
    }

    /// Makes the table of U serve `v`; false if it is too short.
    pub(super) fn reach(&mut self, v: f64) -> bool {
        self.field.reach(&self.pupil, v + self.smear.window())
    }

    /// The smeared irradiance at `v`, from the table of U, which must reach as far as the kernel.
    pub(super) fn smeared(&self, v: f64) -> f64 {
        self.field.known().smeared(&self.smear, v)
    }

    /// The irradiance on the axis.
    pub(super) fn on_axis(&mut self) -> Option<f64> {
        if self.smear.is_coherent() {
            let ([a], [b]) = self.pupil.field(&[0.0]);
            return Some(a * a + b * b);
        }
        if self.reach(0.0) { Some(self.smeared(0.0)) } else { None }
    }

    /// The irradiance at `v` within the known profile, interpolated.
    pub(super) fn at(&self, v: f64) -> f64 {
        if self.smear.is_coherent() {
            return self.field.known().irradiance(v);
        }
        let (index, t) = locate(0.0, self.half, v);
        let last = self.count.saturating_sub(1);
        let (index, t) = if index > last { (last, 1.0) } else { (index, t) };
        self.values.get(index).map_or(f64::NAN, |values| interpolate(values, t))
    }

    /// The known points from the axis outward, with their irradiances.
    pub(super) fn points(&self) -> impl DoubleEndedIterator<Item = (f64, f64)> {
        (0..self.count * POINTS).map(|index| {
            let (panel, point) = (index / POINTS, index % POINTS);
            let values = self.values.get(panel);
            let irradiance = values.and_then(|values| values.get(point)).copied().unwrap_or(f64::NAN);
            let node = NODES.get(point).copied().unwrap_or(f64::NAN);
            (self.half * (2.0 * panel as f64 + 1.0 + node), irradiance)
        })
    }

    /// Where a panel begins.
    pub(super) fn edge(&self, index: usize) -> f64 {
        2.0 * self.half * index as f64
    }

    /// Power in one panel.
    pub(super) fn power_of(&self, index: usize) -> f64 {
        self.power.get(index).copied().unwrap_or(0.0)
    }

    /// Power between two radii within one panel.
    pub(super) fn power_between(&self, from: f64, to: f64) -> f64 {
        let half = 0.5 * (to - from);
        let middle = from + half;
        let ring = |(node, weight): (&f64, &f64)| {
            let v = middle + half * node;
            half * weight * v * self.at(v)
        };
        NODES.iter().zip(&WEIGHTS).map(ring).sum()
    }

    /// Bound on the error of U.
    fn field_error(&self, interpolated: bool) -> f64 {
        let table = if interpolated { self.interpolation * self.pupil.amplitude() } else { 0.0 };
        self.pupil.error(self.field.end()) + table
    }

    /// Bound on the error of an irradiance of this size.
    pub(super) fn irradiance_error(&self, irradiance: f64, interpolated: bool) -> f64 {
        let field = self.field_error(interpolated || self.smear.is_local());
        let coherent = square_error(irradiance, field);
        if self.smear.is_coherent() {
            return coherent;
        }
        let most = self.pupil.amplitude() * self.pupil.amplitude();
        let table = if interpolated { self.interpolation } else { 0.0 };
        coherent + smear_error(irradiance, most) + table * most
    }

    /// Bound on the error of the power within `v`: by Schwarz, ∫|U|·v dv ≤ v·√(½∫|U|²·v dv).
    pub(super) fn power_error(&self, v: f64) -> f64 {
        let field = self.field_error(self.smear.is_local());
        let reached = v + self.smear.window();
        let coherent = field * reached * (1.5 + 0.5 * field * reached) + 200.0 * ROUNDING;
        let most = self.pupil.amplitude() * self.pupil.amplitude();
        if self.smear.is_coherent() { coherent } else { coherent + 0.5 * KERNEL_ERROR * most * v * v }
    }

    /// Whether it is certain that no irradiance beyond the known profile exceeds `level`, given the
    /// power of the whole plane. Three bounds, of which one is enough; see `nothing_beyond` below.
    pub(super) fn nothing_beyond(&self, level: f64, whole_power: f64) -> bool {
        nothing_beyond(&self.field, &self.smear, self.pupil.reach, self.end(), level, whole_power)
    }
}

/// Bound on the error of |U|² of this size from that of U, with the rounding of the square.
pub(super) fn square_error(square: f64, error: f64) -> f64 {
    error * (2.0 * sqrt(square) + error) + 8.0 * ROUNDING * square
}

/// Bound on the error that the integral over the kernel adds where |U|² is at most `most`, with its
/// rounding: 150 kernels of a few roundings each.
pub(super) fn smear_error(irradiance: f64, most: f64) -> f64 {
    KERNEL_ERROR * most + 200.0 * ROUNDING * irradiance
}

/// Whether no irradiance beyond `end` can exceed `level`.
///
/// Let R be the power beyond V.
///
/// Smeared light: at v > V + 5.5σ the light from within V adds at most exp(−5.5²/2) = 2.7e-7, and
/// the kernel over v′ is at most 1.18/(√(2π)·σ·V), so I ≤ 0.471·R/(σV) + 2.7e-7.
///
/// Coherent light: multiply U by exp(−|p − p₀|²/(2s²)) about a point p₀ at v ≥ V + 4.5s. Its
/// transform is the pupil smeared by 1/s: beyond 5/s of the pupil's edge lies a share
/// exp(−5²/2) = 3.7e-6, within it Schwarz's inequality holds, and of the ring at v′ ≥ V the Gaussian
/// sees the share 0.33·s/V; so √I ≤ (x + 5/s)/√2·√(0.33·s·R/V + exp(−4.5²)) + 3.7e-6. A pupil wider
/// than x = 3 counts as one of that radius and a rest, which adds at most exp(−9) = 1.3e-4 both to √I
/// and to √R. With s = 1.5/x that is √(4.7·x·R/V + 1.6e-8·x²) + 3.7e-6 + the rest.
fn nothing_beyond(
    field: &FieldTable,
    smear: &Smear,
    reach: f64,
    end: f64,
    level: f64,
    whole_power: f64,
) -> bool {
    let sigma = smear.sigma;
    let rest = |v: f64| whole_power - field.power_within(v) + 1e-9; // more than its error
    let inner = end - 5.5 * sigma;
    if !smear.is_coherent() && inner > 0.0 && 0.471 * rest(inner) / (sigma * inner) + 2.7e-7 < level {
        return true;
    }
    let (x, rest_of_pupil) = if reach > 3.0 { (3.0, 1.3e-4) } else { (reach, 0.0) };
    let v = inner - 6.75 / x;
    if v <= 0.0 {
        return false;
    }
    let root_of_power = sqrt(rest(v)) + rest_of_pupil;
    let root = sqrt(4.7 * x * root_of_power * root_of_power / v + 1.6e-8 * x * x) + 3.7e-6 + rest_of_pupil;
    let spill = if smear.is_coherent() { 0.0 } else { 2.7e-7 };
    root * root + spill < level
}
