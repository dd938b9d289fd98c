//! Marks, doses, fills, blur and compensation: closed forms, to 17 digits.

use super::real::conditions;
use super::*;
use spotwise::model::mark::{
    Blur, CompensationRule, MarkKind, MarkSetting, Scan, blur_budget, compensate, crater, detail_exposure,
    groove, interval_for_ripple, mark_limits, mark_width, pulse_dose, pulsed_line, raster_ripple, scan_dose,
};
use std::f64::consts::PI;

/// A column, and the power of ten from its printed unit to the SI unit.
type Column = (&'static str, i32);

/// What the four further units in the last place that some marks are allowed count for, as a condition.
const LAST_PLACES: f64 = 5.0;

/// Compares every row of a table: `of` makes the outputs of the inputs.
pub fn compare<const N: usize>(
    ledger: &mut Ledger,
    row: &Row,
    inputs: &[Column],
    outputs: [Column; N],
    of: impl Fn(&[f64]) -> [f64; N],
) {
    let inputs: Vec<f64> = inputs.iter().map(|(column, by)| shifted(row.text(column), *by)).collect();
    let got = of(&inputs);
    let conditions = conditions(&inputs, &of);
    for (((column, by), got), condition) in outputs.into_iter().zip(got).zip(conditions) {
        let want = shifted(row.text(column), by);
        // No mark, no gap, no depth: then nothing is to be compared but that.
        let condition = if got == 0.0 { 0.0 } else { condition };
        ledger.near(column, got, want, condition + LAST_PLACES);
    }
    ledger.compared += 1;
}

#[test]
fn doses_match_the_table() {
    let table = Table::read(include_str!("dose.csv"));
    let mut ledger = Ledger::default();
    let inputs = [("P_W", 0), ("v_mm_s", -3), ("w_mm", -3), ("interval_mm", -3), ("f_Hz", 0)];
    let outputs = [
        ("line_peak_dose_J_mm2", 6),
        ("fill_mean_dose_J_mm2", 6),
        ("peak_intensity_W_mm2", 6),
        ("dwell_s", 0),
        ("pulse_peak_fluence_J_mm2", 6),
        ("pulse_pitch_mm", -3),
        ("pulses_per_spot_diameter", 0),
        ("overlap_fraction", 0),
    ];
    for row in table.rows() {
        compare(&mut ledger, &row, &inputs, outputs, |i| {
            let scan = Scan {
                power: i[0],
                speed: i[1],
                diameter_across: 2.0 * i[2],
                diameter_along: 2.0 * i[2],
                line_interval: i[3],
            };
            let (dose, pulses) = (scan_dose(&scan).unwrap(), pulse_dose(&scan, i[4]).unwrap());
            [
                dose.line_dose,
                dose.fill_dose,
                dose.peak_irradiance,
                dose.dwell,
                pulses.peak_fluence,
                pulses.pulse_pitch,
                pulses.pulses_per_diameter,
                pulses.overlap,
            ]
        });
    }
    ledger.finish("dose", 36, 0);
}

/// The beam of this waist radius and Rayleigh range, with M² = 1.
fn beam_of(waist_radius: f64, rayleigh_range: f64) -> Beam {
    let wavelength = PI * waist_radius * (waist_radius / rayleigh_range);
    Beam { wavelength, m2: 1.0, waist_diameter: 2.0 * waist_radius }
}

#[test]
fn mark_widths_match_the_table() {
    let table = Table::read(include_str!("mark_width.csv"));
    let mut ledger = Ledger::default();
    let inputs = [("w0_mm", -3), ("zR_mm", -3), ("q0", 0), ("z_mm", -3)];
    let outputs = [("mark_width_mm", -3), ("z_vanish_mm", -3), ("z_of_max_mm", -3), ("width_max_mm", -3)];
    for row in table.rows() {
        let (w0, zr) = (row.metres("w0_mm"), row.metres("zR_mm"));
        let kind = match row.text("n_exponent") {
            "2" => MarkKind::Pulse,
            "1" => MarkKind::Line,
            _ => continue, // a fill, which has laws of its own
        };
        if w0 / zr > REFUSED_HALF_ANGLE {
            ledger.refused(
                mark_width(&beam_of(w0, zr), kind, row.number("q0"), 0.0),
                4,
                Param::DivergenceHalfAngle,
            );
            continue;
        }
        compare(&mut ledger, &row, &inputs, outputs, |i| {
            let beam = beam_of(i[0], i[1]);
            let mark = mark_width(&beam, kind, i[2], i[3]).unwrap();
            let limits = mark_limits(&beam, kind, i[2]).unwrap();
            [mark.width, limits.vanishing_offset, limits.widest_offset, limits.greatest_width]
        });
    }
    ledger.finish("mark widths", 24, 16);
}

/// The columns of `offset.csv` that tell of a mark on the spot of a row, by the dose ratio there.
#[test]
fn marks_off_focus_match_the_table() {
    let table = Table::read(include_str!("offset.csv"));
    let mut ledger = Ledger::default();
    let inputs = [("d_mm", -3), ("peak_over_threshold", 0)];
    for row in table.rows() {
        compare(&mut ledger, &row, &inputs, [("threshold_width_mm", -3)], |i| {
            [pulsed_line(i[0], i[1], 1e-12, 1.0, 1.0).unwrap().dot_diameter]
        });
    }
    ledger.finish("offset, marks", 44, 0);
}

#[test]
fn pulsed_lines_match_the_table() {
    let table = Table::read(include_str!("pulses.csv"));
    let mut ledger = Ledger::default();
    let inputs =
        [("w_mm", -3), ("q_single_pulse", 0), ("pulse_pitch_mm", -3), ("incubation_S", 0), ("N_pulses", 0)];
    let outputs =
        [("diameter_mm", -3), ("scallop_depth_mm", -3), ("Fth_N_over_Fth_1", 0), ("diameter_N_mm", -3)];
    for row in table.rows() {
        compare(&mut ledger, &row, &inputs, outputs, |i| {
            let fresh = pulsed_line(2.0 * i[0], i[1], i[2], 1.0, 1.0).unwrap();
            // The pulses are a count, which moving it by a little would turn into another.
            let incubated = pulsed_line(2.0 * i[0], i[1], i[2], i[3], i[4].max(1.0)).unwrap();
            // The table counts a whole radius where dots do not touch, as the model does.
            [fresh.dot_diameter, fresh.scallop, incubated.threshold_ratio, incubated.dot_diameter]
        });
    }
    ledger.finish("pulses", 36, 0);
}

#[test]
fn craters_match_the_table() {
    let table = Table::read(include_str!("craters.csv"));
    let mut ledger = Ledger::default();
    let inputs =
        [("w_mm", -3), ("q_pulse", 0), ("penetration_depth_mm", -3), ("pulse_pitch_mm", -3), ("y_mm", -3)];
    let outputs = [
        ("crater_depth_center_mm", -3),
        ("crater_depth_at_y_mm", -3),
        ("crater_volume_mm3", -9),
        ("groove_mean_depth_at_y_mm", -3),
        ("groove_area_mm2", -6),
        ("groove_width_mm", -3),
    ];
    for row in table.rows() {
        let (pitch, width) = (row.metres("pulse_pitch_mm"), row.metres("groove_width_mm"));
        if pitch > width {
            // Craters that do not meet are no groove.
            let (spot, q) = (2.0 * row.metres("w_mm"), row.number("q_pulse"));
            ledger.refused(groove(spot, q, 1e-9, pitch, 0.0), 2, Param::PulsePitch);
            continue;
        }
        compare(&mut ledger, &row, &inputs, outputs, |i| {
            let one = crater(2.0 * i[0], i[1], i[2], i[4]).unwrap();
            let many = groove(2.0 * i[0], i[1], i[2], i[3], i[4]).unwrap();
            [one.depth, one.depth_at_radius, one.volume, many.depth_aside, many.area, many.width]
        });
    }
    ledger.finish("craters", 34, 2);
}

#[test]
fn blurs_match_the_table() {
    let table = Table::read(include_str!("blur.csv"));
    let mut ledger = Ledger::default();
    let inputs = [
        ("w_mm", -3),
        ("kappa_mm2_s", -6),
        ("v_mm_s", -3),
        ("pixel_mm", -3),
        ("jitter_sigma_mm", -3),
        ("rise10_90_s", 0),
        ("delay_s", 0),
    ];
    let outputs = [
        ("dwell_s", 0),
        ("diffusion_length_mm", -3),
        ("w_thermal_mm", -3),
        ("w_cross_mm", -3),
        ("w_along_mm", -3),
        ("edge10_90_cross_mm", -3),
        ("edge10_90_along_mm", -3),
        ("rise_smear_mm", -3),
        ("delay_shift_mm", -3),
        ("bidirectional_comb_mm", -3),
    ];
    for row in table.rows() {
        compare(&mut ledger, &row, &inputs, outputs, |i| {
            let blur = Blur {
                diameter_across: 2.0 * i[0],
                diameter_along: 2.0 * i[0],
                speed: i[2],
                diffusivity: i[1],
                pixel: i[3],
                jitter_deviation: i[4],
                rise_time: i[5],
                switch_delay: i[6],
            };
            let budget = blur_budget(&blur).unwrap();
            // By heat alone, which moves the same way in all directions.
            let heated = blur_budget(&Blur { pixel: 0.0, jitter_deviation: 0.0, ..blur }).unwrap();
            [
                budget.dwell,
                budget.diffusion_length,
                heated.diameter_across / 2.0,
                budget.diameter_across / 2.0,
                budget.diameter_along / 2.0,
                budget.edge_across,
                budget.edge_along,
                budget.rise_smear,
                budget.delay_shift,
                budget.two_way_comb,
            ]
        });
    }
    ledger.finish("blur", 36, 0);
}

#[test]
fn ripples_match_the_table() {
    let table = Table::read(include_str!("ripple.csv"));
    let mut ledger = Ledger::default();
    let inputs = [("interval_over_w", 0)];
    let outputs = [
        ("max_over_mean", 0),
        ("min_over_mean", 0),
        ("contrast", 0),
        ("q_mean_needed_for_gapfree_additive", 0),
    ];
    for row in table.rows() {
        // A spot of one metre, so that the interval is the printed number over two.
        compare(&mut ledger, &row, &inputs, outputs, |i| {
            let ripple = raster_ripple(0.1, 0.05 * i[0]).unwrap();
            [ripple.greatest_over_mean, ripple.least_over_mean, ripple.contrast, ripple.gap_free_dose_ratio]
        });
        // And back, where the contrast is within the range of the inverse and still tells the interval.
        let contrast = row.number("contrast");
        if (1e-12..0.999).contains(&contrast) {
            let interval = interval_for_ripple(0.1, contrast).unwrap();
            ledger.near("interval, back", interval, 0.05 * row.number("interval_over_w"), 20.0);
        }
    }
    ledger.finish("ripple", 40, 0);
}

#[test]
fn exposures_match_the_table() {
    let table = Table::read(include_str!("details.csv"));
    let mut ledger = Ledger::default();
    let inputs = [("w_mm", -3), ("size_a_mm", -3), ("q_fill", 0)];
    let outputs = [
        ("E_bar_center_width_a", 0),
        ("E_gap_center_width_a", 0),
        ("E_dot_center_radius_a", 0),
        ("E_hole_center_radius_a", 0),
        ("min_square_mm", -3),
    ];
    for row in table.rows() {
        compare(&mut ledger, &row, &inputs, outputs, |i| {
            let strip = detail_exposure(2.0 * i[0], i[1]).unwrap();
            let disc = detail_exposure(2.0 * i[0], 2.0 * i[1]).unwrap();
            let square = smallest_details(2.0 * i[0], i[2]).unwrap().square;
            [strip.bar, strip.gap, disc.dot, disc.hole, square]
        });
    }
    ledger.finish("exposures", 40, 0);
}

#[test]
fn compensations_match_the_table() {
    let table = Table::read(include_str!("compensation.csv"));
    let mut ledger = Ledger::default();
    let inputs = [("q0", 0), ("u_defocus", 0), ("w0_mm", -3)];
    let outputs = [
        ("power_ratio_same_line_dose", 0),
        ("energy_ratio_same_pulse_fluence", 0),
        ("power_ratio_same_line_width", 0),
        ("energy_ratio_same_spot_diameter", 0),
        ("power_ratio_for_robust_width", 0),
        ("width_at_same_dose_mm", -3),
        ("robust_width_mm", -3),
    ];
    for row in table.rows() {
        compare(&mut ledger, &row, &inputs, outputs, |i| {
            // A beam with a Rayleigh range of 20 waist diameters, moved off until it has grown by u.
            let (q, growth, waist_radius) = (i[0], i[1], i[2]);
            let zr = 40.0 * waist_radius;
            let offset = zr * ((growth - 1.0) * (growth + 1.0)).sqrt();
            let made_up = |kind, rule| {
                let setting = MarkSetting {
                    kind,
                    dose_ratio: q,
                    power: 1.0,
                    speed: 1.0,
                    greatest_power: 1e6,
                    least_speed: 1e-9,
                    greatest_speed: 1e4,
                    least_irradiance_ratio: 0.0,
                };
                compensate(&beam_of(waist_radius, zr), offset, rule, &setting).unwrap()
            };
            let line = |rule| made_up(MarkKind::Line, rule);
            let dot = |rule| made_up(MarkKind::Pulse, rule);
            [
                line(CompensationRule::SameDose).wanted_factor,
                dot(CompensationRule::SameDose).wanted_factor,
                line(CompensationRule::SameWidth).wanted_factor,
                dot(CompensationRule::SameWidth).wanted_factor,
                line(CompensationRule::FocusInsensitiveWidth).wanted_factor,
                line(CompensationRule::SameDose).mark_width,
                line(CompensationRule::FocusInsensitiveWidth).mark_width,
            ]
        });
    }
    ledger.finish("compensation", 36, 0);
}
