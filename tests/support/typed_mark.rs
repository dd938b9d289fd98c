//! The functions of the list on what the spot leaves behind, called through the typed layer.

use super::{beam, bits, metres, offset, unknown, width};
use spotwise::units::{hz, j_per_m2, m, m_per_s, m2_per_s, s, w};
use spotwise::*;

/// The outputs of the function of this name; none for a name that is not of this part of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Option<Vec<f64>>, Error> {
    Ok(Some(match name {
        "smallest_details" => {
            let details = smallest_details(width(i[0])?, i[1])?;
            vec![
                details.bar.value,
                details.gap.value,
                details.dot_diameter.value,
                details.hole_diameter.value,
                details.square.value,
                details.outward_edge_shift.value,
            ]
        }
        "largest_spot_for_details" => {
            vec![metres(largest_spot_for_details(FinestDetail { stroke: m(i[0]), gap: m(i[1]) }, i[2])?)]
        }
        "detail_exposure" => {
            let e = detail_exposure(width(i[0])?, m(i[1]))?;
            vec![e.bar, e.gap, e.square, e.dot, e.hole]
        }
        "contrast_at_pitch" => {
            let contrast = contrast_at_pitch(width(i[0])?, m(i[1]))?;
            vec![contrast.sine, contrast.bars, contrast.dose_window]
        }
        "pitch_for_contrast" => {
            let pitch = pitch_for_contrast(width(i[0])?, i[1])?;
            vec![pitch.sine.value, pitch.bars.value]
        }
        "scan_dose" => scan_dose(&scan(i)?.dose()?).to_vec(),
        "pulse_dose" => {
            let dose = scan(i)?.pulses(hz(i[5]))?;
            vec![
                dose.pulse_energy.value,
                dose.peak_fluence.value,
                dose.pulse_pitch.value,
                dose.overlap,
                dose.pulses_per_diameter,
                dose.effective_pulses,
            ]
        }
        "dose_over_threshold" => vec![dose_over_threshold(j_per_m2(i[0]), j_per_m2(i[1]))?],
        "line_interval" => vec![LineInterval::from_dots_per_inch(i[0])?.length().value],
        "dots_per_inch" => vec![interval(i[0])?.dots_per_inch()?],
        "material_mark" => {
            let response = response(&i[2..6])?;
            let material = PartMaterial { threshold: j_per_m2(i[0]), incubation: i[1], response };
            let place =
                PlaceDose { dose: j_per_m2(i[6]), exposures: i[7], spot: width(i[8])?, dwell: s(i[9]) };
            let mark = material.mark(place)?;
            vec![
                mark.threshold.value,
                mark.dose_ratio,
                f64::from(mark.marks),
                mark.depth.map_or(f64::NAN, |depth| depth.value),
                metres(mark.seen_spot),
            ]
        }
        "mark_width" => {
            let mark = beam(i)?.mark_width(kind(i[3])?, i[4], offset(i[5])?)?;
            vec![
                f64::from(mark.marks),
                mark.width.value,
                mark.dose_ratio,
                metres(mark.spot),
                mark.half_angle.value,
                bits(mark.validity),
            ]
        }
        "mark_limits" => {
            let limits = beam(i)?.mark_limits(kind(i[3])?, i[4])?;
            vec![
                f64::from(limits.marks),
                limits.width_in_waist.value,
                limits.widest_offset.value,
                limits.greatest_width.value,
                limits.vanishing_offset.value,
                limits.focus_insensitive_dose_ratio,
                limits.half_angle.value,
                bits(limits.validity),
            ]
        }
        "fill_width" => {
            let fill = beam(i)?.fill_width(m(i[3]), i[4], offset(i[5])?)?;
            vec![
                f64::from(fill.marks),
                fill.width.value,
                fill.growth.value,
                fill.exposure,
                metres(fill.spot),
                fill.half_angle.value,
                bits(fill.validity),
            ]
        }
        "fill_limits" => {
            let limits = beam(i)?.fill_limits(m(i[3]), i[4])?;
            vec![
                f64::from(limits.marks),
                limits.width_in_waist.value,
                limits.widest_offset.value,
                limits.greatest_width.value,
                limits.vanishing_offset.value,
                limits.half_angle.value,
                bits(limits.validity),
            ]
        }
        "raster_ripple" => {
            let ripple = raster_ripple(width(i[0])?, interval(i[1])?)?;
            vec![
                ripple.greatest_over_mean,
                ripple.least_over_mean,
                ripple.contrast,
                ripple.gap_free_dose_ratio,
                ripple.gap_free_dose_ratio_without_memory,
                ripple.interval_over_radius,
            ]
        }
        "interval_for_ripple" => vec![interval_for_ripple(width(i[0])?, i[1])?.length().value],
        "blur_budget" => {
            let blur = Blur {
                spot_across: width(i[0])?,
                spot_along: width(i[1])?,
                speed: m_per_s(i[2]),
                diffusivity: m2_per_s(i[3]),
                pixel: m(i[4]),
                jitter_deviation: m(i[5]),
                rise_time: s(i[6]),
                switch_delay: s(i[7]),
            };
            let budget = blur.budget()?;
            vec![
                budget.dwell.value,
                budget.diffusion_length.value,
                metres(budget.spot_across),
                metres(budget.spot_along),
                budget.edge_across.value,
                budget.edge_along.value,
                budget.rise_smear.value,
                budget.delay_shift.value,
                budget.two_way_comb.value,
            ]
        }
        "fill_quality" => quality(&beam(i)?.fill_quality(interval(i[3])?, offset(i[4])?)?),
        "offset_for_taste" => {
            let taste = match i[4] as u32 {
                1 => Taste::Crispest,
                2 => Taste::SmoothestWithin { largest_edge: m(i[5]) },
                3 => Taste::Compromise { crispness_weight: i[6] },
                _ => return Err(unknown(Param::Taste, i[4])),
            };
            quality(&beam(i)?.offset_for_taste(interval(i[3])?, taste)?)
        }
        "pulsed_line" => {
            let line = pulse(i)?.line(m(i[2]), Incubation { exponent: i[3], pulses: i[4] })?;
            vec![
                f64::from(line.marks),
                line.threshold_ratio,
                line.dose_ratio,
                line.dot_diameter.value,
                f64::from(line.connected),
                line.scallop.value,
            ]
        }
        "crater" => {
            let dug = pulse(i)?.crater(CraterPlace { penetration_depth: m(i[2]), radius: m(i[3]) })?;
            vec![dug.diameter.value, dug.depth.value, dug.depth_at_radius.value, dug.volume.value]
        }
        "groove" => {
            let place = GroovePlace { penetration_depth: m(i[2]), pulse_pitch: m(i[3]), aside: m(i[4]) };
            let dug = pulse(i)?.groove(place)?;
            vec![dug.width.value, dug.depth.value, dug.depth_aside.value, dug.area.value]
        }
        "connected_speed" => {
            let fastest = pulse(i)?.connected_speed(hz(i[2]), i[3], m(i[4]))?;
            vec![fastest.pulse_pitch.value, fastest.pulses, fastest.speed.value]
        }
        "compensate" => {
            let rule = CompensationRule::from_code(i[4] as u32)?;
            let setting = MarkSetting {
                kind: kind(i[5])?,
                dose_ratio: i[6],
                power: w(i[7]),
                speed: m_per_s(i[8]),
                greatest_power: w(i[9]),
                least_speed: m_per_s(i[10]),
                greatest_speed: m_per_s(i[11]),
                least_irradiance_ratio: i[12],
            };
            let made_up = beam(i)?.compensate(offset(i[3])?, rule, &setting)?;
            vec![
                made_up.wanted_factor,
                made_up.reached_factor,
                made_up.power.value,
                made_up.speed.value,
                made_up.irradiance_ratio,
                made_up.dose_ratio,
                made_up.mark_width.value,
                f64::from(made_up.limits.bits()),
                made_up.half_angle.value,
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
            let lettering =
                Lettering { typeface: typeface(&i[2..7])?, dose_ratio: i[1], grades: grades(&i[7..10]) };
            ems(Some(&lettering.smallest(width(i[0])?)?)).to_vec()
        }
        "text_quality" => {
            let lettering =
                Lettering { typeface: typeface(&i[3..8])?, dose_ratio: i[2], grades: grades(&i[8..11]) };
            let found = lettering.quality(width(i[0])?, TypeSize::from_em(m(i[1]))?)?;
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
            let lettering =
                Lettering { typeface: typeface(&i[6..11])?, dose_ratio: i[5], grades: grades(&i[11..14]) };
            let found = lettering.offset(&beam(i)?, TypeSize::from_em(m(i[3]))?, grade)?;
            vec![found.offset.value, metres(found.spot), found.half_angle.value, bits(found.validity)]
        }
        _ => return Ok(None),
    }))
}

fn interval(metres: f64) -> Result<LineInterval, Error> {
    LineInterval::from_length(m(metres))
}

fn scan(i: &[f64]) -> Result<Scan, Error> {
    Ok(Scan {
        power: w(i[0]),
        speed: m_per_s(i[1]),
        spot_across: width(i[2])?,
        spot_along: width(i[3])?,
        line_interval: interval(i[4])?,
    })
}

/// The four numbers of the dose of a scan.
pub fn scan_dose(dose: &ScanDose) -> [f64; 4] {
    [dose.line_dose.value, dose.fill_dose.value, dose.peak_irradiance.value, dose.dwell.value]
}

fn kind(code: f64) -> Result<MarkKind, Error> {
    MarkKind::from_code(code as u32)
}

fn quality(found: &FillQuality) -> Vec<f64> {
    vec![
        found.offset.value,
        metres(found.spot),
        found.edge_width.value,
        found.ripple_contrast,
        found.half_angle.value,
        bits(found.validity),
    ]
}

fn pulse(i: &[f64]) -> Result<PulseSpot, Error> {
    Ok(PulseSpot { spot: width(i[0])?, dose_ratio: i[1] })
}

/// A typeface from its code and four shares.
fn typeface(i: &[f64]) -> Result<Typeface, Error> {
    Typeface::from_code(i[0] as u32, i[1], i[2], i[3], i[4])
}

fn grades(i: &[f64]) -> TextGrades {
    TextGrades { crisp_exposure: i[0], good_window: i[1], readable_window: i[2] }
}

/// The smallest type of each grade; NaN where there is no text.
pub fn ems(text: Option<&SmallestText>) -> [f64; 3] {
    text.map_or([f64::NAN; 3], |text| [text.crisp, text.good, text.readable].map(|size| size.em().value))
}

/// A response from its code and its three numbers.
fn response(i: &[f64]) -> Result<Response, Error> {
    Ok(match i[0] as u32 {
        1 => Response::Coating,
        2 => Response::LogarithmicAblation { penetration_depth: m(i[1]) },
        3 => Response::LinearAblation { removal_energy: RemovalEnergy::from_j_per_m3(i[2]) },
        4 => Response::Melt { diffusivity: m2_per_s(i[3]) },
        _ => return Err(unknown(Param::Response, i[0])),
    })
}

/// The dose of a job, from its choice on.
pub fn job_dose(i: &[f64]) -> Result<JobDose, Error> {
    Ok(match i[0] as u32 {
        1 => JobDose::Ratio(i[1]),
        2 => JobDose::Scan(JobScan {
            power: w(i[2]),
            speed: m_per_s(i[3]),
            line_interval: interval(i[4])?,
            threshold: j_per_m2(i[5]),
            response: response(&i[6..10])?,
        }),
        _ => return Err(unknown(Param::JobDose, i[0])),
    })
}

/// The text of a job, from its choice on; only a job with text looks at the numbers.
pub fn job_text(i: &[f64]) -> Result<Option<JobText>, Error> {
    Ok(match i[0] as u32 {
        1 => None,
        2 => Some(JobText {
            typeface: typeface(&i[1..6])?,
            size: TypeSize::from_em(m(i[6]))?,
            least_grade: TextGrade::from_code(i[7] as u32)?,
            grades: grades(&i[8..11]),
        }),
        _ => return Err(unknown(Param::JobText, i[0])),
    })
}
