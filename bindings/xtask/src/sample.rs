//! Rows of numbers made on the spot, so that two builds of a face can be compared without the
//! vectors: ordinary inputs, each input spoilt in turn, and inputs scaled at random.

use crate::replay::list::{Function, functions};
use crate::tools::root;
use std::fs;
use std::path::Path;

/// What each number is spoilt with, besides being scaled.
const SPOILT: [f64; 9] =
    [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -0.0, 5e-324, -1e-3, 1e300, f64::EPSILON];
/// Rows with every number scaled at random, for each function but those that take long.
const RANDOM_ROWS: usize = 60;

/// Writes a replay of such rows.
pub fn write(path: &Path) -> Result<(), String> {
    let list = functions(&root().join("tests/vectors"))?;
    let mut rows = Vec::new();
    let mut dice = Dice(1);
    for (index, function) in list.iter().enumerate() {
        let ordinary: Vec<f64> =
            function.inputs.iter().map(|input| ordinary(function, input)).collect::<Result<_, _>>()?;
        rows.push((index, ordinary.clone()));
        for (i, input) in function.inputs.iter().enumerate() {
            if is_like_another(function, input) {
                continue;
            }
            for value in spoilt(function, input, ordinary[i]) {
                let mut row = ordinary.clone();
                row[i] = value;
                rows.push((index, row));
            }
        }
        let random = if takes_long(function) { 0 } else { RANDOM_ROWS };
        for _ in 0..random {
            let row = function.inputs.iter().zip(&ordinary);
            rows.push((index, row.map(|(input, value)| dice.scaled(function, input, *value)).collect()));
        }
    }
    rows.extend(double_addition(&list));
    fs::write(path, replay_file(&rows)).map_err(|error| format!("{}: {error}", path.display()))
}

/// A row whose bits tell whether doubles are added right: it takes a sum that a well-known library
/// of double arithmetic in software rounds wrongly (see `firmware.rs`).
fn double_addition(functions: &[Function]) -> Option<(usize, Vec<f64>)> {
    let index = functions.iter().position(|function| function.name == "contrast_at_pitch")?;
    Some((index, vec![6.542_940_972_794_707e-6, 4.270_134_165_578_386e-5]))
}

/// Rows as the file that every face replays.
pub fn replay_file(rows: &[(usize, Vec<f64>)]) -> Vec<u8> {
    let mut bytes = b"SPOTREP1".to_vec();
    bytes.extend((rows.len() as u32).to_le_bytes());
    for (function, inputs) in rows {
        bytes.extend((*function as u32).to_le_bytes());
        bytes.extend((inputs.len() as u32).to_le_bytes());
        bytes.extend(inputs.iter().flat_map(|input| input.to_le_bytes()));
    }
    bytes
}

/// Whether a call takes long in software doubles.
fn takes_long(function: &Function) -> bool {
    function.name.starts_with("wave_")
        || matches!(function.name.as_str(), "fit_mark_widths" | "focus_for_surface")
}

/// Whether the function searches for planes of a wave, which takes longest of all.
pub fn is_search(function: &Function) -> bool {
    matches!(function.name.as_str(), "wave_focus" | "wave_depth_of_focus")
}

/// Whether the input is a reading in the midst of a series that is fitted, or a height in the midst of a grid: what lies
/// at the ends is enough to spoil, as such functions take long in software doubles.
fn is_like_another(function: &Function, input: &str) -> bool {
    let stem = input.trim_end_matches(|c: char| c.is_ascii_digit());
    let fits = matches!(function.name.as_str(), "fit_mark_widths" | "fit_beam");
    let midst = match stem {
        "height" | "width" | "diameter" | "deviation" | "power_ratio" if fits => 2..=7,
        "probe" => 2..=15,
        _ => return false,
    };
    stem != input && midst.contains(&last_number(input))
}

/// Whether the function takes a job.
fn is_of_job(function: &Function) -> bool {
    matches!(function.name.as_str(), "focus_check" | "surface_check" | "choose_lens")
}

fn is_choice(function: &Function, input: &str) -> bool {
    // Elsewhere a dose is a number.
    if matches!(input, "dose" | "text") {
        return is_of_job(function);
    }
    matches!(
        input,
        "from"
            | "to"
            | "criterion"
            | "raw_beam"
            | "focus_setting"
            | "lens"
            | "glass"
            | "lens_shape"
            | "measure"
            | "focus_measure"
            | "element1"
            | "element2"
            | "element3"
            | "response"
            | "mark_kind"
            | "taste"
            | "rule"
            | "typeface"
            | "text_grade"
            | "least_grade"
            | "quantity"
            | "source1"
            | "source2"
            | "source3"
            | "source4"
            | "distribution1"
            | "distribution2"
            | "distribution3"
            | "distribution4"
            | "aim"
            | "surface"
            | "bulge"
            | "columns"
            | "rows"
            | "lens1"
            | "lens2"
            | "lens3"
            | "glass1"
            | "glass2"
            | "glass3"
            | "lens_shape1"
            | "lens_shape2"
            | "lens_shape3"
            | "cells_per_side"
            | "marks"
            | "scatter"
            | "weights"
            | "readings"
            | "purpose"
            | "sweep_direction"
    ) || input.starts_with("rank")
}

/// The number behind the stem of an input's name.
fn place_of(input: &str, stem: &str) -> f64 {
    input.trim_start_matches(stem).parse().unwrap_or(0.0)
}

fn spoilt(function: &Function, input: &str, ordinary: f64) -> Vec<f64> {
    if is_choice(function, input) {
        return (0..=9).map(f64::from).chain([f64::from(u32::MAX)]).collect();
    }
    // As many draws as the greatest factor makes would keep an emulated controller busy for long.
    let factors: &[f64] = match input {
        _ if takes_long(function) => &[-1.0, 0.9],
        "draws" => &[-1.0, 0.5, 2.0],
        _ => &[-1.0, 0.5, 0.9, 1.1, 2.0, 1e-3, 1e3],
    };
    let all = SPOILT.into_iter().chain(factors.iter().map(|factor| factor * ordinary));
    // Without an aperture a search takes longest of all; the vectors have such rows.
    let no_aperture = |value: f64| is_search(function) && input == "clear_aperture" && value == f64::INFINITY;
    all.filter(|value| !no_aperture(*value)).collect()
}

/// The number at the end of an input's name.
fn last_number(input: &str) -> usize {
    input.trim_start_matches(|c: char| !c.is_ascii_digit()).parse().unwrap_or(1)
}

/// Widths of marks, to the micrometre, of a spot of 80 um, zR = 0.4 mm, 3 times the threshold, in steps of 0.3 mm. The
/// outermost vanish.
const SERIES_WIDTHS: [f64; 9] = [0.0, 62e-6, 73e-6, 66e-6, 59e-6, 66e-6, 73e-6, 62e-6, 0.0];

/// An input that the function accepts.
fn ordinary(function: &Function, input: &str) -> Result<f64, String> {
    let before_lens = matches!(
        function.name.as_str(),
        "focus_through_lens"
            | "focus_astigmatic"
            | "focus_singlet"
            | "singlet_defocus"
            | "singlet_depth_of_focus"
            | "beam_after_path"
            | "beam_along_path"
            | "focus_along_gantry"
            | "gantry_spread"
            | "even_out_gantry"
            | "focus_check"
            | "surface_check"
            | "choose_lens"
    );
    Ok(match input {
        "wavelength" | "first_wavelength" | "second_wavelength" => 1.064e-6,
        // A search over planes is quick only for a coherent wave.
        "m2" if is_search(function) => 1.0,
        "m2" | "first_m2" | "second_m2" => 1.2,
        "m2_x" | "m2_y" => 1.5,
        "waist_diameter" | "waist_diameter_x" | "waist_diameter_y" if before_lens => 5e-3,
        "measured_m2" => 0.95,
        "m2_deviation" => 0.06,
        "waist_diameter_deviation" => 0.8e-6,
        "focus_shift" => 0.3e-3,
        "focus_deviation" => 25e-6,
        "coverage_factor_95" => 2.3,
        "relative_dose_ratio_deviation" => 0.03,
        "correlation" => -0.6,
        "waist_diameter" | "waist_diameter_x" | "first_waist_diameter" => 40e-6,
        "waist_diameter_y" | "second_waist_diameter" => 50e-6,
        "waist_z_x" => -0.2e-3,
        "waist_z_y" => 0.3e-3,
        "diameter_at_lens" if function.name.starts_with("wave_") => 12e-3,
        "diameter_at_lens" => 7e-3,
        "waist_to_lens" | "waist_to_lens2" => 1.5,
        "waist_to_lens1" => 0.4,
        "waist_to_lens3" => 2.5,
        "waist_to_lens4" => 0.1,
        "nearest" => 0.5,
        "farthest" => 2.5,
        "focal_length" | "focal_length1" | "focal_length2" | "focal_length3" | "lens_to_focus" => 0.1,
        "from" | "raw_beam" | "focus_setting" | "element2" => 1.0,
        "quantity" => 5.0,
        "to" | "criterion" => 3.0,
        "lens" | "lens_shape" | "measure" | "focus_measure" => 2.0,
        "lens1" | "lens_shape1" | "lens2" | "lens_shape2" => 2.0,
        "lens3" => 1.0,
        "lens_shape3" => 4.0,
        "glass" | "element1" | "glass1" | "glass2" | "glass3" => 4.0,
        "lenses" => 3.0,
        "set_up_tolerance" => 0.1e-3,
        "least_clearance" => 5e-3,
        "working_distance1" => 80e-3,
        "working_distance2" => 90e-3,
        "working_distance3" => 75e-3,
        "element3" => 5.0,
        "index" | "index1" | "index2" | "index3" => 1.45,
        "shape_factor" | "shape_factor1" | "shape_factor2" | "shape_factor3" => 0.7,
        "clear_aperture" | "clear_aperture1" | "clear_aperture2" | "clear_aperture3" => 14e-3,
        "design_wavelength" => 0.532e-6,
        "first_radius" => 50e-3,
        "second_radius" => -0.2,
        "aberration_phase" => 0.5,
        "thickness" => 3e-3,
        "lens_lowered_by" => 2e-3,
        "length1" | "length2" | "length3" => 0.8,
        "magnification" | "magnification1" | "magnification2" | "magnification3" => 1.8,
        "exit_power" | "exit_power1" | "exit_power2" | "exit_power3" => 0.2,
        "distance" => 0.5,
        "waist_to_expander" => 0.3,
        "expander_to_lens" => 1.2,
        "irradiance_drop" => 0.2,
        "radius" | "radius2" => 8e-6,
        "radius1" => 0.0,
        "radius3" => 20e-6,
        "diameter" | "spot_diameter" | "beam_diameter" => 60e-6,
        "aperture_diameter" => 80e-6,
        "power_share" => 0.9,
        "z" | "z1" | "z_offset" | "focus_z" => 0.4e-3,
        "z2" => -0.4e-3,
        "z3" => 0.0,
        "z4" => 12e-3,
        "field_radius" => 30e-3,
        "edge_tangential_z" => -1e-3,
        "edge_sagittal_z" => -0.5e-3,
        "edge_incidence" => 0.2,
        "edge_spot_ratio" => 1.1,
        "field_x" => 12e-3,
        "field_y" => -9e-3,
        "z5" => 0.1e-3,
        "z6" => -2e-3,
        "lens_to_surface" => 0.1001,
        "surface_rise" => 0.2e-3,
        "surface_fall" => 0.3e-3,
        "rayleigh_range" => 1.5e-3,
        "divergence_full_angle" => 0.05,
        "tilt" => 0.6,
        "growth" | "growth_ratio" => 1.3,
        "drop" => 0.3,
        "largest_diameter" => 70e-6,
        "finest_stroke" | "finest_gap" => 80e-6,
        "margin" => 0.1,
        "part_radius" => 25e-3,
        "aim" => 2.0,
        "total_depth" => 1.3e-3,
        "depth_per_pass" => 0.1e-3,
        "dose_ratio" => 2.7,
        "pitch" => 90e-6,
        "contrast" => 0.4,
        "dose" if is_of_job(function) => 2.0,
        "dose" => 2e6,
        "threshold" => 0.5e6,
        "power" => 20.0,
        "speed" => 0.5,
        "diameter_across" => 100e-6,
        "diameter_along" => 80e-6,
        "line_interval" => 50e-6,
        "dots_per_inch" => 500.0,
        "repetition_rate" => 50e3,
        "response" | "mark_kind" | "rule" | "text" | "text_grade" | "least_grade" => 2.0,
        "taste" => 3.0,
        "typeface" => 6.0,
        "incubation" => 0.9,
        "exposures" | "pulses" => 12.0,
        "penetration_depth" => 20e-9,
        "removal_energy" => 1e10,
        "diffusivity" => 1e-7,
        "dwell" => 0.1e-3,
        // Dots of a spot of 60 um that marks from 20 uJ on, to the micrometre, and one that is not.
        "dose1" => 30e-6,
        "dose2" => 60e-6,
        "dose3" => 120e-6,
        "dose4" => 240e-6,
        "dose5" => 480e-6,
        "dose6" => 960e-6,
        "width1" => 27e-6,
        "width2" => 44e-6,
        "width3" => 57e-6,
        "width4" => 97e-6,
        "width5" => 76e-6,
        "width6" => 83e-6,
        "deviation1" | "deviation2" | "deviation3" | "deviation4" | "deviation5" | "deviation6" => 1e-6,
        "outlier_limit" => 3.0,
        // A mark that has come out wider and less deep than a good one.
        "depth_law" => 1.0,
        "dose_ratio_deviation" => 0.02,
        "good_width" => 37e-6,
        "width" => 42e-6,
        "stepped_width" => 60e-6,
        "good_width_deviation" | "width_deviation" | "stepped_width_deviation" => 0.5e-6,
        "good_depth" => 40.0,
        "depth" => 31.0,
        "good_depth_deviation" | "depth_deviation" | "reading_deviation" => 0.7,
        "patch_dose_ratio" => 5.0,
        "power_step" => 2.0,
        "height_step" => 0.5e-3,
        "reading_toward_lens" => 31.0,
        "reading_in_middle" => 40.0,
        "reading_away_from_lens" => 33.0,
        "drawn_width" => 100e-6,
        "ripple_contrast" => 0.1,
        "detail_size" => 70e-6,
        "pixel" => 30e-6,
        "jitter_deviation" => 5e-6,
        "rise_time" => 20e-6,
        "switch_delay" => 10e-6,
        "largest_edge" => 50e-6,
        "crispness_weight" => 0.3,
        "pulse_pitch" => 20e-6,
        "aside" => 5e-6,
        "scallop" => 2e-6,
        "greatest_power" => 25.0,
        "least_speed" => 0.1,
        "greatest_speed" => 2.0,
        "least_irradiance_ratio" => 0.5,
        "stem" | "effective_stroke" => 0.09,
        "effective_counter" => 0.14,
        "effective_gap" => 0.13,
        "em" => 1.4e-3,
        "crisp_exposure" => 0.98,
        "good_window" => 2.0,
        "readable_window" => 1.1,
        "source1" | "source2" | "source3" | "source4" => 1.0,
        "distribution1" => 1.0,
        "distribution2" => 3.0,
        "distribution3" => 4.0,
        "distribution4" => 5.0,
        "half_width1" | "half_width2" | "half_width3" | "half_width4" => 0.1e-3,
        "coverage_factor1" | "coverage_factor2" | "coverage_factor3" | "coverage_factor4" => 2.0,
        "mean1" | "mean2" | "mean3" | "mean4" => 0.02e-3,
        "coverage_probability" => 0.95,
        // Amid the probes below.
        "toward_lens_z" if function.name == "share_in_focus" => 6.2e-4,
        "away_from_lens_z" if function.name == "share_in_focus" => 6.6e-4,
        "toward_lens_z" | "highest_z" => -0.1e-3,
        "away_from_lens_z" | "lowest_z" => 0.2e-3,
        "draws" => 40.0,
        "seed" => 12_345.0,
        "surface" => 5.0,
        "bulge" => 1.0,
        "slope_x" => 0.02,
        "slope_y" => -0.03,
        "curvature_radius" => 0.2,
        "crown_x" => 5e-3,
        "crown_y" => 2e-3,
        "axis_angle" => 0.4,
        "columns" | "rows" => 4.0,
        "purpose" => 2.0,
        "sweep_direction" => 1.0,
        "expected_focus_z" | "focus_uncertainty" | "series_step" | "series_half_range" | "axis_step" => 0.0,
        "backlash" => 0.02e-3,
        "clearance" => 40e-3,
        "travel_toward_lens" | "travel_away_from_lens" => 30e-3,
        "label_width" => 6e-3,
        "piece_width" | "piece_height" => 5e-3,
        "label_height" | "piece_gap" => 1e-3,
        "row_width" => 50e-3,
        "first_width" | "last_width" => 60e-6,
        "first_deviation" | "last_deviation" => 30e-6,
        "pieces" => 12.0,
        "judgement_deviation" => 0.05,
        // Half of the pieces are good, in the middle.
        _ if input.starts_with("piece_z") => 1e-4 * place_of(input, "piece_z") - 6e-4,
        _ if input.starts_with("seen") => f64::from((4.0..10.0).contains(&place_of(input, "seen"))),
        _ if input.starts_with("rank") => match place_of(input, "rank") {
            3.0 | 4.0 | 9.0 | 10.0 => 2.0,
            5.0..=8.0 => 3.0,
            _ => 1.0,
        },
        "grid_x1" | "grid_y1" => -10e-3,
        "grid_x2" | "grid_y2" => 1e-3,
        "grid_x3" | "grid_y3" => 12e-3,
        "grid_x4" | "grid_y4" => 30e-3,
        _ if input.starts_with("probe") => 1e-4 * input.len() as f64,
        "cells_per_side" => 3.0,
        "place_x" | "place_y" => 4e-3,
        "region_x_least" | "region_y_least" => -8e-3,
        "region_x_greatest" | "region_y_greatest" => 15e-3,
        "marks" => 9.0,
        _ if function.name == "fit_mark_widths" && input.starts_with("height") => {
            (last_number(input) as f64 - 5.0) * 0.3e-3
        }
        _ if function.name == "fit_mark_widths" && input.starts_with("width") => {
            SERIES_WIDTHS[last_number(input) - 1]
        }
        _ if function.name == "fit_mark_widths" && input.starts_with("deviation") => 2e-6,
        // A beam of 80 um with a Rayleigh range of 1 mm, to the micrometre, and one width that is off.
        _ if function.name == "fit_beam" && input.starts_with("height") => {
            (last_number(input) as f64 - 4.5) * 0.8e-3
        }
        _ if function.name == "fit_beam" && input.starts_with("deviation") => 1e-6,
        "readings" => 8.0,
        "diameter1" | "diameter8" => 238e-6,
        "diameter2" | "diameter7" => 179e-6,
        "diameter3" => 125e-6,
        "diameter4" => 86e-6,
        "diameter5" => 130e-6,
        "diameter6" => 126e-6,
        "weights" => 2.0,
        "mark_dose_ratio" => 0.0,
        _ if input.starts_with("power_ratio") => 1.0,
        "known_m2" => 1.2,
        "relative_m2_deviation" => 0.1,
        "known_diameter" => 80e-6,
        "relative_diameter_deviation" => f64::INFINITY,
        "scatter" => 1.0,
        "confidence" => 0.95,
        "waist_z" => 0.1e-3,
        "waist_z_deviation" => 20e-6,
        // Of the normal law at 95 %.
        "range_factor" => 1.959_963_984_540_054,
        "degrees_of_freedom" => 8.0,
        "chi_squared" => 9.0,
        _ => return Err(format!("{}: no sample for the input {input}", function.name)),
    })
}

/// Random numbers that are the same on every run.
struct Dice(u64);

impl Dice {
    /// From 0 to below 1, by the multiplier of D. E. Knuth's MMIX (from memory).
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }

    fn scaled(&mut self, function: &Function, input: &str, ordinary: f64) -> f64 {
        let number = self.next();
        match input {
            // All but a few pieces keep their place and judgement, or no run would be left.
            "pieces" => ordinary,
            _ if input.starts_with("rank") => ordinary,
            _ if input.starts_with("seen") => {
                if number < 0.1 {
                    1.0 - ordinary
                } else {
                    ordinary
                }
            }
            _ if input.starts_with("piece_z") => ordinary * (0.9 + 0.2 * number),
            _ if is_choice(function, input) => (1.0 + 5.0 * number).floor(),
            "power_share" | "drop" | "contrast" | "ripple_contrast" | "crispness_weight" | "margin" => number,
            "incubation" | "crisp_exposure" | "confidence" => 0.5 + 0.5 * number,
            // Marks that scatter as much as this can still tell, with an outlier or without.
            _ if matches!(function.name.as_str(), "fit_threshold" | "fit_beam") => {
                ordinary * (1.0 + 0.1 * number * number)
            }
            // No other is taken.
            "range_factor" => ordinary,
            "draws" => 10.0 + (30.0 * number).floor(),
            "degrees_of_freedom" => 1.0 + (60.0 * number).floor(),
            // Now and then too little for one exposure to mark.
            "dose_ratio" => 0.9 + 3.0 * number * number,
            "first_m2" | "second_m2" | "m2" | "m2_x" | "m2_y" | "growth" | "growth_ratio" | "index"
            | "index1" | "index2" | "index3" | "good_window" | "readable_window" | "edge_spot_ratio" => {
                1.0 + 3.0 * number * number
            }
            _ => ordinary * 10f64.powf(2.0 * number - 1.0),
        }
    }
}
