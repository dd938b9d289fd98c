//! The model against tables that were computed independently of this crate.
//!
//! `tests/tables/README.md` names the columns. Lengths are printed in millimetres there; here the
//! decimal exponent is shifted in the text, so that each input is the double nearest to the
//! printed number in metres. The reference values belong to the double nearest to the printed
//! number in millimetres. The two inputs differ by at most [`INPUT`] of their value, which a
//! result multiplies by its condition number: each budget below is [`INPUT`] times the sum of the
//! condition numbers of its inputs, plus [`ROUNDING`] for the last digits of the result.
//!
//! A row outside the domain of the model must be refused with the right code and parameter; how
//! many rows are compared and refused is asserted, so that none can drop out unseen.
//! `cargo test --test tables -- --nocapture` prints the worst error of every column.

use spotwise::model::focus::{
    DepthCriterion, astigmatic_defocus, defocus, depth_of_focus, offsets_for_diameter, offsets_for_growth,
    tilted_spot,
};
use spotwise::model::mark::{contrast_at_pitch, pitch_for_contrast, smallest_details};
use spotwise::model::optics::{
    AstigmaticBeam, Axis, Beam, WidthDefinition, astigmatic_at, astigmatic_parameters, beam_at,
    beam_parameters, convert_width, diameter_for_power, focus_clipped, focus_through_lens,
    power_through_aperture, waist_from_rayleigh_range,
};
use spotwise::{Error, Param, REFUSED_HALF_ANGLE};
use std::collections::BTreeMap;

#[path = "tables/areas.rs"]
mod areas;
#[path = "tables/beam_fit.rs"]
mod beam_fit;
#[path = "tables/height_budget.rs"]
mod height_budget;
#[path = "tables/in_focus.rs"]
mod in_focus;
#[path = "tables/marks.rs"]
mod marks;
#[path = "tables/real.rs"]
mod real;
#[path = "tables/shape.rs"]
mod shape;
#[path = "tables/threshold_fit.rs"]
mod threshold_fit;
#[path = "tables/typefaces.rs"]
mod typefaces;
#[path = "tables/wave.rs"]
mod wave;

/// Largest relative difference of two doubles that stand for the same decimal, in mm and in m:
/// half a unit in the last place of either.
const INPUT: f64 = 2.3e-16;
/// Four units in the last place of the result, at their widest: the loosest promise of the model.
const ROUNDING: f64 = 9e-16;

// --- Reading -----------------------------------------------------------------------------------

struct Table {
    columns: Vec<&'static str>,
    rows: Vec<Vec<&'static str>>,
}

impl Table {
    fn read(text: &'static str) -> Self {
        let mut lines = text.lines().map(|line| line.split(',').collect::<Vec<_>>());
        let columns = lines.next().expect("a first line that names the columns");
        let rows: Vec<_> = lines.collect();
        for row in &rows {
            assert_eq!(row.len(), columns.len(), "{row:?}");
        }
        Self { columns, rows }
    }

    fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.rows.iter().map(|cells| Row { table: self, cells })
    }
}

struct Row<'a> {
    table: &'a Table,
    cells: &'a [&'static str],
}

impl Row<'_> {
    fn text(&self, column: &str) -> &'static str {
        let at = self.table.columns.iter().position(|name| *name == column);
        self.cells[at.unwrap_or_else(|| panic!("no column {column}"))]
    }

    fn number(&self, column: &str) -> f64 {
        self.text(column).parse().unwrap_or_else(|_| panic!("{column}: {}", self.text(column)))
    }

    /// A length printed in millimetres, as the nearest double in metres.
    fn metres(&self, column: &str) -> f64 {
        shifted(self.text(column), -3)
    }

    /// The row's beam, whose waist diameter stands in this column.
    fn beam(&self, waist_column: &str) -> Beam {
        Beam {
            wavelength: self.metres("lambda_mm"),
            m2: self.number("M2"),
            waist_diameter: self.metres(waist_column),
        }
    }
}

/// The decimal `text` times ten to the `by`, rounded once.
fn shifted(text: &str, by: i32) -> f64 {
    let (digits, exponent) = text.split_once('e').unwrap_or((text, "0"));
    let exponent: i32 = exponent.parse().expect("a decimal exponent");
    format!("{digits}e{}", exponent + by).parse().expect("a decimal number")
}

// --- Comparing ---------------------------------------------------------------------------------

/// Worst error of each column of one table, as a number and as a share of its budget.
#[derive(Default)]
struct Ledger {
    worst: BTreeMap<&'static str, (f64, f64)>,
    compared: usize,
    refused: usize,
}

impl Ledger {
    /// Compares `got` with the exact `want`; `condition` is the sum of the condition numbers of
    /// the inputs that were converted from millimetres.
    fn near(&mut self, column: &'static str, got: f64, want: f64, condition: f64) {
        let error = if got == want { 0.0 } else { ((got - want) / want).abs() };
        let budget = INPUT * condition + ROUNDING;
        assert!(error <= budget, "{column}: got {got:e}, want {want:e}, off by {error:e} of {budget:e}");
        let worst = self.worst.entry(column).or_default();
        *worst = (worst.0.max(error), worst.1.max(error / budget));
    }

    /// As [`Self::near`] for a length whose reference is printed in millimetres.
    fn length(&mut self, row: &Row, column: &'static str, got: f64, condition: f64) {
        self.near(column, got, row.metres(column), condition);
    }

    fn number(&mut self, row: &Row, column: &'static str, got: f64, condition: f64) {
        self.near(column, got, row.number(column), condition);
    }

    /// Counts a row that the model must refuse, for the given reason.
    fn refused<T: std::fmt::Debug>(&mut self, result: Result<T, Error>, code: u32, param: Param) {
        let error = result.expect_err("a row outside the model must be refused");
        assert_eq!((error.code(), error.param()), (code, param), "{error}");
        self.refused += 1;
    }

    fn finish(self, table: &str, compared: usize, refused: usize) {
        println!("{table}: {} rows compared, {} refused", self.compared, self.refused);
        for (column, (error, share)) in &self.worst {
            println!("  {column}: worst error {error:.1e}, {:.0} % of its budget", share * 100.0);
        }
        assert_eq!((self.compared, self.refused), (compared, refused), "{table}: rows compared and refused");
    }
}

/// Why the model must refuse a beam, if it must, told from the printed ranges alone.
fn refusal_of(wavelength: f64, m2: f64, waist_diameter: f64) -> Option<(u32, Param)> {
    let outside = |param: Param, value: f64| value < param.range().0 || value > param.range().1;
    if outside(Param::Wavelength, wavelength) {
        Some((2, Param::Wavelength))
    } else if outside(Param::M2, m2) {
        Some((2, Param::M2))
    } else if outside(Param::WaistDiameter, waist_diameter) {
        Some((2, Param::WaistDiameter))
    } else if 2.0 * m2 * wavelength / (std::f64::consts::PI * waist_diameter) > REFUSED_HALF_ANGLE {
        Some((4, Param::DivergenceHalfAngle))
    } else {
        None
    }
}

/// Condition number of a difference a − b to relative errors of both.
fn of_difference(a: f64, b: f64) -> f64 {
    if a == b { 0.0 } else { (a.abs() + b.abs()) / (a - b).abs() }
}

// --- Tables ------------------------------------------------------------------------------------

#[test]
fn beam_matches_the_table() {
    let table = Table::read(include_str!("tables/beam.csv"));
    let mut ledger = Ledger::default();
    for row in table.rows() {
        let beam = row.beam("d0_mm");
        let z = row.metres("z_mm");
        if let Some((code, param)) = refusal_of(beam.wavelength, beam.m2, beam.waist_diameter) {
            ledger.refused(beam_at(&beam, z), code, param);
            continue;
        }
        ledger.compared += 1;
        // Conditions: z_R goes with d₀² and 1/λ; u = z/z_R with one more.
        let (zr, u) = (3.0, 4.0);
        let p = beam_parameters(&beam).unwrap();
        ledger.length(&row, "zR_mm", p.rayleigh_range, zr);
        ledger.number(&row, "theta_full_rad", p.divergence_full_angle, 2.0);
        ledger.near(
            "theta_full_rad, halved",
            2.0 * p.divergence_half_angle,
            row.number("theta_full_rad"),
            2.0,
        );
        ledger.length(&row, "bpp_mm_rad", p.beam_parameter_product, 1.0);
        let section = beam_at(&beam, z).unwrap();
        ledger.length(&row, "d_mm", section.diameter, 1.0 + u);
        // 1/R = z/(z² + z_R²); in 1/mm, so that the exponent moves the other way.
        let curvature = shifted(row.text("curvature_per_mm"), 3);
        ledger.near("curvature_per_mm", section.wavefront_curvature, curvature, 1.0 + 2.0 * zr);
        if curvature != 0.0 && section.wavefront_radius.is_finite() {
            ledger.near(
                "curvature_per_mm, as radius",
                section.wavefront_radius,
                1.0 / curvature,
                1.0 + 2.0 * zr,
            );
        }
        let off = defocus(&beam, z).unwrap();
        ledger.length(&row, "d_mm", off.diameter, 1.0 + u);
        ledger.number(&row, "growth_minus_1", off.growth_minus_one, 2.0 * u);
        ledger.near("growth_minus_1, as growth", off.growth, 1.0 + row.number("growth_minus_1"), u);
        ledger.number(&row, "irradiance_ratio", off.irradiance_ratio, 2.0 * u);
        ledger.number(&row, "line_fluence_ratio", off.line_dose_ratio, u);
    }
    ledger.finish("beam", 39, 13);
}

#[test]
fn widths_match_the_table() {
    let table = Table::read(include_str!("tables/widths.csv"));
    let mut ledger = Ledger::default();
    for row in table.rows() {
        let d = row.metres("d_1e2_mm");
        let share = row.number("u_fraction");
        ledger.compared += 1;
        let (from, to) = (WidthDefinition::InverseESquared, WidthDefinition::Fwhm);
        ledger.length(&row, "d_fwhm_mm", convert_width(d, from, to).unwrap(), 1.0);
        let to = WidthDefinition::Power86;
        ledger.length(&row, "d_86.4665_mm", convert_width(d, from, to).unwrap(), 1.0);
        ledger.length(&row, "d_u_mm", diameter_for_power(d, share).unwrap(), 1.0);
        // At 1/e of the peak the circle holds 1 − 1/e of the power.
        let at_1e = diameter_for_power(d, 1.0 - (-1.0f64).exp()).unwrap();
        ledger.length(&row, "d_1e_mm", at_1e, 2.0);
        // An aperture of radius u·w: the ratio alone counts, so a unit beam has no conversion.
        let inside = power_through_aperture(1.0, share).unwrap();
        ledger.number(&row, "power_within_radius_u_times_w", inside, 0.0);
    }
    ledger.finish("widths", 45, 0);
}

#[test]
fn lens_matches_the_table() {
    let table = Table::read(include_str!("tables/lens.csv"));
    let mut ledger = Ledger::default();
    for row in table.rows() {
        let raw = row.beam("d0_in_mm");
        let (s, f) = (row.metres("s_waist_to_lens_mm"), row.metres("f_mm"));
        let result = focus_through_lens(&raw, s, f);
        if let Some((code, param)) = refusal_of(raw.wavelength, raw.m2, raw.waist_diameter) {
            ledger.refused(result, code, param);
            continue;
        }
        let (least, greatest) = Param::WaistDiameter.range();
        if !(least..=greatest).contains(&row.metres("d0_out_mm")) {
            ledger.refused(result, 4, Param::WaistDiameter);
            continue;
        }
        if row.number("theta_out_rad") / 2.0 > REFUSED_HALF_ANGLE {
            ledger.refused(result, 4, Param::DivergenceHalfAngle);
            continue;
        }
        let focused = result.unwrap();
        ledger.compared += 1;
        let (zr, beyond) = (3.0, of_difference(s, f));
        // h² = (s − f)² + z_R²: each part counts by its share.
        let zr_in = row.metres("zR_in_mm");
        let share = (s - f) * (s - f) / ((s - f) * (s - f) + zr_in * zr_in);
        let h = share * beyond + (1.0 - share) * zr;
        let m = 1.0 + h;
        ledger.length(&row, "zR_in_mm", beam_parameters(&raw).unwrap().rayleigh_range, zr);
        ledger.length(&row, "d_at_lens_mm", focused.diameter_at_lens, 1.0 + 1.0 + zr);
        ledger.number(&row, "magnification", focused.magnification, m);
        ledger.length(&row, "d0_out_mm", focused.waist_diameter, 1.0 + m);
        ledger.length(&row, "zR_out_mm", focused.rayleigh_range, zr + 2.0 * m);
        ledger.number(&row, "theta_out_rad", focused.divergence_full_angle, 2.0 + m);
        ledger.length(&row, "shift_from_f_mm", focused.focus_shift, 2.0 * m + beyond);
        // f + shift, where they may cancel.
        let (shift, place) = (row.metres("shift_from_f_mm"), row.metres("s_out_mm"));
        let sum = (f.abs() + shift.abs() * (2.0 * m + beyond)) / place.abs();
        ledger.length(&row, "s_out_mm", focused.lens_to_waist, sum);
    }
    ledger.finish("lens", 45, 7);
}

#[test]
fn depth_matches_the_table() {
    let table = Table::read(include_str!("tables/depth.csv"));
    let mut ledger = Ledger::default();
    for row in table.rows() {
        let (zr, d0) = (row.metres("zR_mm"), row.metres("d0_mm"));
        // The beam with this waist and Rayleigh range has M²·λ = π·d₀²/(4·z_R); the model asks for
        // the two apart, so put into M² what a wavelength of at most 20 µm leaves.
        let product = std::f64::consts::PI * d0 * d0 / (4.0 * zr);
        let m2 = (product / 20e-6).max(1.0);
        let beam = Beam { wavelength: product / m2, m2, waist_diameter: d0 };
        let (ratio, diameter) = (row.number("growth_rho"), row.metres("d_max_mm"));
        let by_growth = depth_of_focus(&beam, DepthCriterion::Growth { ratio });
        if let Some((code, param)) = refusal_of(beam.wavelength, beam.m2, beam.waist_diameter) {
            ledger.refused(by_growth, code, param);
            continue;
        }
        ledger.compared += 1;
        // z_R is rebuilt from d₀, λ and M²: five roundings more.
        let zr = 8.0;
        let by_growth = by_growth.unwrap();
        ledger.length(&row, "half_growth_mm", by_growth.away_from_lens_z, zr);
        ledger.length(&row, "full_growth_mm", by_growth.full, zr);
        ledger.length(&row, "half_growth_mm", -offsets_for_growth(&beam, ratio).unwrap().toward_lens_z, zr);

        // p = 1 − I is exact for I ≥ ½; below, the rounding of p counts 1/I times.
        let irradiance = row.number("irradiance_fraction");
        let drop = 1.0 - irradiance;
        let by_irradiance = depth_of_focus(&beam, DepthCriterion::IrradianceDrop { drop });
        if drop < Param::IrradianceDrop.range().0 {
            ledger.refused(by_irradiance, 2, Param::IrradianceDrop);
        } else {
            let half = by_irradiance.unwrap().away_from_lens_z;
            ledger.length(&row, "half_irradiance_mm", half, zr + 1.0 / irradiance);
        }

        let by_diameter = depth_of_focus(&beam, DepthCriterion::LargestDiameter { diameter });
        let too_wide = diameter > Param::LargestDiameter.range().1;
        if too_wide {
            ledger.refused(by_diameter, 2, Param::LargestDiameter);
        } else {
            // √((D/d₀)² − 1), ill-conditioned where D is close to d₀.
            let excess = row.number("d_max_mm") / row.number("d0_mm");
            let root =
                if excess == 1.0 { 0.0 } else { 2.0 * excess * excess / ((excess - 1.0) * (excess + 1.0)) };
            let half = by_diameter.unwrap().away_from_lens_z;
            ledger.length(&row, "half_dmax_mm", half, zr + root);
            let half = offsets_for_diameter(&beam, diameter).unwrap().away_from_lens_z;
            ledger.length(&row, "half_dmax_mm", half, zr + root);
        }
    }
    // A row whose beam is within the model, but not its largest diameter or its drop, is compared
    // and refused besides.
    ledger.finish("depth", 28, 19);
}

#[test]
fn offset_matches_the_table() {
    let table = Table::read(include_str!("tables/offset.csv"));
    let mut ledger = Ledger::default();
    for row in table.rows() {
        let beam = row.beam("d0_mm");
        let result = defocus(&beam, row.metres("z_mm"));
        if let Some((code, param)) = refusal_of(beam.wavelength, beam.m2, beam.waist_diameter) {
            ledger.refused(result, code, param);
            continue;
        }
        ledger.compared += 1;
        let u = 4.0;
        let off = result.unwrap();
        ledger.length(&row, "d_mm", off.diameter, 1.0 + u);
        ledger.number(&row, "growth", off.growth, u);
        ledger.number(&row, "irradiance_ratio", off.irradiance_ratio, 2.0 * u);
        ledger.number(&row, "line_fluence_ratio", off.line_dose_ratio, u);
    }
    ledger.finish("offset", 40, 4);
}

/// The footprint and the cosine law.
#[test]
fn tilts_match_the_table() {
    let table = Table::read(include_str!("tables/offset.csv"));
    let mut ledger = Ledger::default();
    for row in table.rows() {
        let beam = row.beam("d0_mm");
        let tilt = row.number("tilt_deg").to_radians();
        let result = tilted_spot(&beam, row.metres("z_mm"), tilt);
        if let Some((code, param)) = refusal_of(beam.wavelength, beam.m2, beam.waist_diameter) {
            ledger.refused(result, code, param);
            continue;
        }
        ledger.compared += 1;
        let spot = result.unwrap();
        // cos φ in φ; degrees are turned into radians with two roundings.
        let (u, cosine) = (4.0, 2.0 * tilt * tilt.tan());
        ledger.length(&row, "d_mm", spot.diameter_across, 1.0 + u);
        ledger.length(&row, "ellipse_major_mm", spot.diameter_along, 1.0 + u + cosine);
        let factor = row.number("irradiance_tilt_factor");
        let irradiance = factor * row.number("irradiance_ratio");
        ledger.near("irradiance_ratio, tilted", spot.irradiance_ratio, irradiance, 2.0 * u + cosine);
        let dose = factor * row.number("line_fluence_ratio");
        ledger.near("line_fluence_ratio, tilted", spot.line_dose_ratio, dose, u + cosine);
    }
    ledger.finish("offset, tilted", 40, 4);
}

#[test]
fn astigmatic_matches_the_table() {
    let table = Table::read(include_str!("tables/astigmatic.csv"));
    let mut ledger = Ledger::default();
    for row in table.rows() {
        let axis =
            |m2, d0, z0| Axis { m2: row.number(m2), waist_diameter: row.metres(d0), waist_z: row.metres(z0) };
        let beam = AstigmaticBeam {
            wavelength: row.metres("lambda_mm"),
            x: axis("M2x", "d0x_mm", "z0x_mm"),
            y: axis("M2y", "d0y_mm", "z0y_mm"),
        };
        let z = row.metres("z_mm");
        let refusal = refusal_of(beam.wavelength, beam.x.m2, beam.x.waist_diameter)
            .map(|(code, _)| (code, Param::DivergenceHalfAngleX))
            .or_else(|| {
                refusal_of(beam.wavelength, beam.y.m2, beam.y.waist_diameter)
                    .map(|(code, _)| (code, Param::DivergenceHalfAngleY))
            });
        if let Some((code, param)) = refusal {
            ledger.refused(astigmatic_at(&beam, z), code, param);
            continue;
        }
        ledger.compared += 1;
        let (zr, [zx, zy]) = (3.0, [beam.x.waist_z, beam.y.waist_z]);
        let (ux, uy) = (zr + of_difference(z, zx), zr + of_difference(z, zy));
        let both = ux.max(uy);
        let at = astigmatic_at(&beam, z).unwrap();
        ledger.length(&row, "dx_mm", at.diameter_x, 1.0 + ux);
        ledger.length(&row, "dy_mm", at.diameter_y, 1.0 + uy);
        ledger.number(&row, "ellipticity", at.ellipticity, 2.0 + ux + uy);
        ledger.number(&row, "is_circular_gt_0.87", f64::from(u8::from(at.circular)), 0.0);
        ledger.length(&row, "d_rms_iso_mm", at.effective_diameter, 1.0 + both);
        ledger.length(&row, "d_geometric_mm", at.equal_area_diameter, 1.0 + both);
        // Peak irradiance of 1 W, 8/(π·dx·dy) per m², read from the ratio to both waists at once.
        let at_waists = 8.0 / (std::f64::consts::PI * beam.x.waist_diameter * beam.y.waist_diameter);
        let peak = at_waists * astigmatic_defocus(&beam, z).unwrap().irradiance_ratio;
        let want = shifted(row.text("peak_irradiance_per_W_mm2"), 6);
        ledger.near("peak_irradiance_per_W_mm2", peak, want, 6.0 + ux + uy);

        let p = astigmatic_parameters(&beam).unwrap();
        ledger.number(&row, "M2_eff_sqrt", p.m2_effective, 0.0);
        let apart = of_difference(zx, zy);
        ledger.number(&row, "astig_over_mean_zR", p.relative_astigmatism, zr + apart);
        // A weighed mean of the two places, whose weights sum to one but whose terms may cancel.
        let waist = row.metres("z_circle_rms_mm");
        let place = 8.0 * (zx.abs().max(zy.abs())) / waist.abs();
        ledger.length(&row, "z_circle_rms_mm", p.effective_waist_z, place);
        ledger.length(&row, "d_rms_min_mm", p.effective_waist_diameter, 1.0 + zr + apart);
    }
    ledger.finish("astigmatic", 29, 15);
}

#[test]
fn details_match_the_table() {
    let table = Table::read(include_str!("tables/details.csv"));
    let mut ledger = Ledger::default();
    for row in table.rows() {
        let (w, q) = (row.metres("w_mm"), row.number("q_fill"));
        ledger.compared += 1;
        let detail = smallest_details(2.0 * w, q).unwrap();
        ledger.length(&row, "min_bar_mm", detail.bar, 1.0);
        ledger.length(&row, "min_gap_mm", detail.gap, 1.0);
        ledger.length(&row, "min_dot_radius_mm", detail.dot_diameter / 2.0, 1.0);
        ledger.length(&row, "min_hole_radius_mm", detail.hole_diameter / 2.0, 1.0);
        // The shift passes through zero at q = 2, where 2/q − 1 has an error of its own.
        ledger.length(&row, "edge_shift_mm", detail.edge_shift, 1.0 + 2.0 / (q - 2.0).abs());
        // The exposure at the centre of a dot is the power that an aperture of its size passes.
        let a = row.metres("size_a_mm");
        let dot = power_through_aperture(2.0 * w, 2.0 * a).unwrap();
        ledger.number(&row, "E_dot_center_radius_a", dot, 4.0);
        // At the dose ratio 1/E the smallest bar is the very bar that was exposed. Its width goes
        // with the smaller of E and 1 − E, which is printed to 17 digits.
        let exposure = row.number("E_bar_center_width_a");
        let other = row.number("E_gap_center_width_a");
        if exposure < 0.999_999 {
            let bar = smallest_details(2.0 * w, 1.0 / exposure).unwrap().bar;
            ledger.near("E_bar_center_width_a, back to a", bar, a, 3.0 + 2.0 / other);
        }
        if other < 0.999_999 && other > 1e-6 {
            let gap = smallest_details(2.0 * w, 1.0 / other).unwrap().gap;
            ledger.near("E_gap_center_width_a, back to a", gap, a, 3.0 + 2.0 / exposure);
        }
    }
    ledger.finish("details", 40, 0);
}

#[test]
fn contrast_matches_the_table() {
    let table = Table::read(include_str!("tables/contrast.csv"));
    let mut ledger = Ledger::default();
    for row in table.rows() {
        let (d, pitch) = (2.0 * row.metres("w_mm"), row.metres("pitch_mm"));
        let target = row.number("contrast_target");
        ledger.compared += 1;
        let c = contrast_at_pitch(d, pitch).unwrap();
        // Twice the exponent for each of the two lengths; the harmonics above the first are
        // steeper but fainter.
        let exponent = -row.number("mtf_sine").ln();
        let steep = 4.0 * exponent.max(1.0);
        ledger.number(&row, "mtf_sine", c.sine, steep);
        ledger.number(&row, "modulation_square_wave", c.bars, steep);
        // The window goes with 1 − C, whose exponent is (Λ/w)²/8, or with C.
        let loss = 4.0 * (pitch / d).powi(2) * 0.5;
        ledger.number(&row, "dose_window_ratio_square", c.dose_window, steep + 2.0 * loss);
        let pitches = pitch_for_contrast(d, target).unwrap();
        ledger.length(&row, "pitch_at_contrast_sine_mm", pitches.sine, 1.0);
        // Halving the contrast of bars leaves its last digits, over the slope of its logarithm.
        let slope = 1.0 / (2.0 * -target.ln()).max(0.1);
        ledger.length(&row, "pitch_at_contrast_square_mm", pitches.bars, 2.0 + 6.0 * slope);
        // At the printed pitch, bars and gaps have the contrast that was aimed at.
        let bars = contrast_at_pitch(d, row.metres("pitch_at_contrast_square_mm")).unwrap().bars;
        let steep = 4.0 * (-target.ln()).max(1.0) + 4.0;
        ledger.near("contrast_target, at its pitch", bars, target, steep);
    }
    ledger.finish("contrast", 36, 0);
}

/// Inputs that a naive formula fails at, with the value that a good one gives.
#[test]
fn hazards_are_met() {
    let table = Table::read(include_str!("tables/hazards.csv"));
    let mut ledger = Ledger::default();
    let mut not_modelled = 0;
    for row in table.rows() {
        let (a, exact) = (row.number("a"), row.number("exact_value"));
        let b = || row.number("b");
        // The beam with this Rayleigh range; 1 µm and M² = 1 serve for any.
        let beam_of = |zr: f64| {
            waist_from_rayleigh_range(1e-6, 1.0, zr).map(|waist_diameter| Beam {
                wavelength: 1e-6,
                m2: 1.0,
                waist_diameter,
            })
        };
        let zr = 4.0; // its waist is rounded once, and z_R goes with the square of the waist
        let case = row.text("case");
        match case {
            "growth-1" => {
                let off = defocus(&beam_of(b()).unwrap(), a).unwrap();
                ledger.near("growth-1", off.growth_minus_one, exact, 2.0 * zr);
            }
            "d(z)/d0=sqrt(1+(z/zr)^2) / hypot" => {
                let result = beam_of(b()).and_then(|beam| defocus(&beam, a));
                // All of these lie outside the range of any beam.
                let param =
                    if b() < Param::RayleighRange.range().0 { Param::RayleighRange } else { Param::ZOffset };
                ledger.refused(result, 2, param);
                continue;
            }
            "curvature 1/R" => {
                let result = beam_of(b()).and_then(|beam| beam_at(&beam, a));
                if b() > Param::RayleighRange.range().1 {
                    ledger.refused(result, 2, Param::RayleighRange);
                    continue;
                } else if a > Param::Z.range().1 {
                    ledger.refused(result, 2, Param::Z);
                    continue;
                }
                ledger.near("curvature 1/R", result.unwrap().wavefront_curvature, exact, 2.0 * zr);
            }
            "R(z)=z(1+(zr/z)^2) at z->0" => {
                let section = beam_at(&beam_of(b()).unwrap(), a).unwrap();
                ledger.near("R(z)", section.wavefront_radius, exact, 2.0 * zr);
            }
            "thin-lens shift: Self vs ratio" | "thin-lens magnification" => {
                let (s, f, zr_in) = (a, b(), row.number("c"));
                let result = focus_through_lens(&beam_of(zr_in).unwrap(), s, f);
                if s > Param::WaistToLens.range().1 {
                    ledger.refused(result, 2, Param::WaistToLens);
                    continue;
                }
                let focused = result.unwrap();
                if case == "thin-lens magnification" {
                    ledger.near("thin-lens magnification", focused.magnification, exact, zr);
                } else {
                    ledger.near("thin-lens shift", focused.focus_shift, exact, 2.0 * zr);
                }
            }
            "sqrt(rho^2-1)" => {
                let beam = beam_of(1.0).unwrap();
                let unit = beam_parameters(&beam).unwrap().rayleigh_range;
                let half = offsets_for_growth(&beam, a).unwrap().away_from_lens_z;
                ledger.near("sqrt(rho^2-1)", half / unit, exact, 0.0);
            }
            "sqrt(1/I-1)" => {
                let beam = beam_of(1.0).unwrap();
                let unit = beam_parameters(&beam).unwrap().rayleigh_range;
                let drop = 1.0 - a;
                let range = depth_of_focus(&beam, DepthCriterion::IrradianceDrop { drop });
                if drop < Param::IrradianceDrop.range().0 {
                    ledger.refused(range, 2, Param::IrradianceDrop);
                    continue;
                }
                ledger.near("sqrt(1/I-1)", range.unwrap().away_from_lens_z / unit, exact, 0.0);
            }
            "d_u sqrt(-ln(1-u)/2)" => {
                ledger.near("d_u", diameter_for_power(1.0, a).unwrap(), exact, 0.0);
            }
            "1-exp(-2x^2)" => {
                ledger.near("1-exp(-2x^2)", power_through_aperture(1.0, a).unwrap(), exact, 0.0);
            }
            "zR=pi d0^2/(4 M2 lam) tiny d0" => {
                let beam = Beam { wavelength: b() * 1e-3, m2: 1.0, waist_diameter: a * 1e-3 };
                ledger.refused(beam_parameters(&beam), 2, Param::WaistDiameter);
                continue;
            }
            "on-axis truncated" => {
                // All of these apertures are too small.
                let focus = focus_clipped(1e-6, 1e-3, a * 1e-3, 0.1);
                ledger.refused(focus, 4, Param::ClippingRatio);
                continue;
            }
            // A growth less one is no result, and these wavelengths and lengths are below any range.
            "sqrt(1+2a^2)-1" | "alpha=pi k D^4/(2 lam f^3) f32 rng" => {
                not_modelled += 1;
                continue;
            }
            other => panic!("unknown case {other}"),
        }
        ledger.compared += 1;
    }
    assert_eq!(not_modelled, 6);
    ledger.finish("hazards", 38, 22);
}
