//! The functions of the list on what the spot leaves behind, called through the model.

use super::{beam, bits};
use spotwise::Error;
use spotwise::model::mark::{
    Blur, CompensationRule, FillQuality, MarkKind, MarkSetting, Material, Response, Scan, SmallestText,
    Taste, TextGrade, TextGrades, Typeface, blur_budget, compensate, connected_speed, contrast_at_pitch,
    crater, detail_exposure, dose_over_threshold, dots_per_inch, fill_limits, fill_quality, fill_width,
    groove, interval_for_ripple, largest_spot_for_details, line_interval, mark_limits, mark_width,
    material_mark, offset_for_taste, offset_for_text, pitch_for_contrast, pulse_dose, pulsed_line,
    raster_ripple, scan_dose, smallest_details, smallest_text, text_quality, typeface_shares,
};

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "smallest_details" => {
            let d = smallest_details(i[0], i[1])?;
            vec![d.bar, d.gap, d.dot_diameter, d.hole_diameter, d.square, d.edge_shift]
        }
        "largest_spot_for_details" => vec![largest_spot_for_details(i[0], i[1], i[2])?],
        "detail_exposure" => {
            let e = detail_exposure(i[0], i[1])?;
            vec![e.bar, e.gap, e.square, e.dot, e.hole]
        }
        "contrast_at_pitch" => {
            let c = contrast_at_pitch(i[0], i[1])?;
            vec![c.sine, c.bars, c.dose_window]
        }
        "pitch_for_contrast" => {
            let pitch = pitch_for_contrast(i[0], i[1])?;
            vec![pitch.sine, pitch.bars]
        }
        "scan_dose" => {
            let dose = scan_dose(&scan(i))?;
            vec![dose.line_dose, dose.fill_dose, dose.peak_irradiance, dose.dwell]
        }
        "pulse_dose" => {
            let dose = pulse_dose(&scan(i), i[5])?;
            vec![
                dose.pulse_energy,
                dose.peak_fluence,
                dose.pulse_pitch,
                dose.overlap,
                dose.pulses_per_diameter,
                dose.effective_pulses,
            ]
        }
        "dose_over_threshold" => vec![dose_over_threshold(i[0], i[1])?],
        "line_interval" => vec![line_interval(i[0])?],
        "dots_per_inch" => vec![dots_per_inch(i[0])?],
        "material_mark" => {
            let response = Response::from_code(i[2] as u32, i[3], i[4], i[5])?;
            let material = Material { threshold: i[0], incubation: i[1], response };
            let mark = material_mark(&material, i[6], i[7], i[8], i[9])?;
            vec![mark.threshold, mark.dose_ratio, f64::from(mark.marks), mark.depth, mark.seen_diameter]
        }
        "mark_width" => {
            let mark = mark_width(&beam(i), MarkKind::from_code(i[3] as u32)?, i[4], i[5])?;
            vec![
                f64::from(mark.marks),
                mark.width,
                mark.dose_ratio,
                mark.spot_diameter,
                mark.half_angle,
                bits(mark.validity),
            ]
        }
        "mark_limits" => {
            let limits = mark_limits(&beam(i), MarkKind::from_code(i[3] as u32)?, i[4])?;
            vec![
                f64::from(limits.marks),
                limits.width_in_waist,
                limits.widest_offset,
                limits.greatest_width,
                limits.vanishing_offset,
                limits.focus_insensitive_dose_ratio,
                limits.half_angle,
                bits(limits.validity),
            ]
        }
        "fill_width" => {
            let fill = fill_width(&beam(i), i[3], i[4], i[5])?;
            vec![
                f64::from(fill.marks),
                fill.width,
                fill.growth,
                fill.exposure,
                fill.spot_diameter,
                fill.half_angle,
                bits(fill.validity),
            ]
        }
        "fill_limits" => {
            let limits = fill_limits(&beam(i), i[3], i[4])?;
            vec![
                f64::from(limits.marks),
                limits.width_in_waist,
                limits.widest_offset,
                limits.greatest_width,
                limits.vanishing_offset,
                limits.half_angle,
                bits(limits.validity),
            ]
        }
        "raster_ripple" => {
            let ripple = raster_ripple(i[0], i[1])?;
            vec![
                ripple.greatest_over_mean,
                ripple.least_over_mean,
                ripple.contrast,
                ripple.gap_free_dose_ratio,
                ripple.gap_free_dose_ratio_without_memory,
                ripple.interval_over_radius,
            ]
        }
        "interval_for_ripple" => vec![interval_for_ripple(i[0], i[1])?],
        "blur_budget" => {
            let budget = blur_budget(&Blur {
                diameter_across: i[0],
                diameter_along: i[1],
                speed: i[2],
                diffusivity: i[3],
                pixel: i[4],
                jitter_deviation: i[5],
                rise_time: i[6],
                switch_delay: i[7],
            })?;
            vec![
                budget.dwell,
                budget.diffusion_length,
                budget.diameter_across,
                budget.diameter_along,
                budget.edge_across,
                budget.edge_along,
                budget.rise_smear,
                budget.delay_shift,
                budget.two_way_comb,
            ]
        }
        "fill_quality" => quality(&fill_quality(&beam(i), i[3], i[4])?),
        "offset_for_taste" => {
            quality(&offset_for_taste(&beam(i), i[3], Taste::from_code(i[4] as u32, i[5], i[6])?)?)
        }
        "pulsed_line" => {
            let line = pulsed_line(i[0], i[1], i[2], i[3], i[4])?;
            vec![
                f64::from(line.marks),
                line.threshold_ratio,
                line.dose_ratio,
                line.dot_diameter,
                f64::from(line.connected),
                line.scallop,
            ]
        }
        "crater" => {
            let dug = crater(i[0], i[1], i[2], i[3])?;
            vec![dug.diameter, dug.depth, dug.depth_at_radius, dug.volume]
        }
        "groove" => {
            let dug = groove(i[0], i[1], i[2], i[3], i[4])?;
            vec![dug.width, dug.depth, dug.depth_aside, dug.area]
        }
        "connected_speed" => {
            let fastest = connected_speed(i[0], i[1], i[2], i[3], i[4])?;
            vec![fastest.pulse_pitch, fastest.pulses, fastest.speed]
        }
        "compensate" => {
            let rule = CompensationRule::from_code(i[4] as u32)?;
            let setting = MarkSetting {
                kind: MarkKind::from_code(i[5] as u32)?,
                dose_ratio: i[6],
                power: i[7],
                speed: i[8],
                greatest_power: i[9],
                least_speed: i[10],
                greatest_speed: i[11],
                least_irradiance_ratio: i[12],
            };
            let made_up = compensate(&beam(i), i[3], rule, &setting)?;
            vec![
                made_up.wanted_factor,
                made_up.reached_factor,
                made_up.power,
                made_up.speed,
                made_up.irradiance_ratio,
                made_up.dose_ratio,
                made_up.mark_width,
                f64::from(made_up.limits.bits()),
                made_up.half_angle,
                bits(made_up.validity),
            ]
        }
        "typeface_shares" => {
            let shares = typeface_shares(typeface(&i[..5])?)?;
            vec![
                shares.cap_height,
                shares.x_height,
                shares.digit_height,
                shares.stem,
                shares.thinnest_stroke,
                shares.smallest_counter,
                shares.effective_stroke,
                shares.effective_counter,
                shares.effective_gap,
            ]
        }
        "smallest_text" => {
            ems(Some(&smallest_text(i[0], i[1], typeface(&i[2..7])?, &grades(&i[7..10]))?)).to_vec()
        }
        "text_quality" => {
            let found = text_quality(i[0], i[1], i[2], typeface(&i[3..8])?, &grades(&i[8..11]))?;
            vec![
                f64::from(found.grade as u32),
                found.stem_exposure,
                found.least_dose_ratio,
                found.greatest_dose_ratio,
                found.greatest_dose_ratio_for_counters,
            ]
        }
        "offset_for_text" => {
            let grade = TextGrade::from_code(i[4] as u32)?;
            let typeface = typeface(&i[6..11])?;
            let found = offset_for_text(&beam(i), i[3], grade, i[5], typeface, &grades(&i[11..14]))?;
            vec![found.offset, found.spot_diameter, found.half_angle, bits(found.validity)]
        }
        _ => return Ok(None),
    }))
}

fn scan(i: &[f64]) -> Scan {
    Scan { power: i[0], speed: i[1], diameter_across: i[2], diameter_along: i[3], line_interval: i[4] }
}

fn quality(found: &FillQuality) -> Vec<f64> {
    vec![
        found.offset,
        found.spot_diameter,
        found.edge_width,
        found.ripple_contrast,
        found.half_angle,
        bits(found.validity),
    ]
}

/// A typeface from its code and four shares.
pub fn typeface(i: &[f64]) -> Result<Typeface, Error> {
    Typeface::from_code(i[0] as u32, i[1], i[2], i[3], i[4])
}

pub fn grades(i: &[f64]) -> TextGrades {
    TextGrades { crisp_exposure: i[0], good_window: i[1], readable_window: i[2] }
}

/// The smallest type of each grade; NaN where there is no text.
pub fn ems(text: Option<&SmallestText>) -> [f64; 3] {
    text.map_or([f64::NAN; 3], |text| [text.crisp_em, text.good_em, text.readable_em])
}
