//! The functions of the list, called through the model: plain numbers in and out.

mod beam_fit;
mod by_eye;
mod calibration;
mod diagnosis;
mod height_budget;
mod height_map;
mod in_focus;
mod learn;
mod lens_choice;
mod mark;
mod plan;
mod scan_field;
mod shape;
mod threshold_fit;
mod tolerance;

use mark::{ems, grades, typeface};
use spotwise::model::check::{
    FocusSetting, Job, JobDose, JobLens, JobText, Place, RawBeam, Verdict, focus_check, surface_check,
};
use spotwise::model::focus::{
    Defocus, DepthCriterion, FocusRange, LensNumbers, astigmatic_defocus, astigmatic_depth_of_focus,
    clipped_depth_of_focus, defocus, depth_of_focus, offsets_for_diameter, offsets_for_growth,
    singlet_defocus, singlet_depth_of_focus, tilted_spot, wave_depth_of_focus,
};
use spotwise::model::mark::TextGrade;
use spotwise::model::optics::{
    AberratedWaist, AstigmaticBeam, Axis, Beam, Cone, Element, FocusMeasure, FocusedBeam, GantrySpread,
    Glass, LensShape, PathBeam, Singlet, SingletFocus, SpotMeasure, Wave, WidthDefinition, aberration_growth,
    astigmatic_at, astigmatic_parameters, beam_after_path, beam_along_path, beam_at, beam_parameters,
    convert_width, diameter_for_power, diameters_at, even_out_gantry, focus_along_gantry, focus_astigmatic,
    focus_behind_plate, focus_clipped, focus_collimated, focus_inside, focus_singlet, focus_through_lens,
    gantry_spread, lens_aberration, lens_at_wavelength, lens_from_radii, m2_from_divergence,
    power_through_aperture, refractive_index, smallest_spot, waist_from_divergence,
    waist_from_rayleigh_range, wave_focus, wave_irradiance, wave_map, wave_map_workspace, wave_power,
    wave_widths,
};
use spotwise::{Error, Param, Validity};

/// The outputs of the function of this name, in the order of the list.
///
/// # Panics
/// For a name that is not in the list, and for too few inputs.
pub fn call(name: &str, i: &[f64]) -> Result<Vec<f64>, Error> {
    Ok(match name {
        "convert_width" => {
            let from = WidthDefinition::from_code(i[1] as u32)?;
            let to = WidthDefinition::from_code(i[2] as u32)?;
            vec![convert_width(i[0], from, to)?]
        }
        "power_through_aperture" => vec![power_through_aperture(i[0], i[1])?],
        "diameter_for_power" => vec![diameter_for_power(i[0], i[1])?],
        "beam_parameters" => {
            let p = beam_parameters(&beam(i))?;
            vec![
                p.rayleigh_range,
                p.divergence_half_angle,
                p.divergence_full_angle,
                p.beam_parameter_product,
                bits(p.validity),
            ]
        }
        "beam_at" => {
            let s = beam_at(&beam(i), i[3])?;
            vec![s.diameter, s.wavefront_curvature, s.wavefront_radius, s.half_angle, bits(s.validity)]
        }
        "diameters_at" => {
            let mut out = [f64::NAN; 4];
            let widest = diameters_at(&beam(i), &i[3..7], &mut out)?;
            [&out[..], &cone(widest)].concat()
        }
        "waist_from_rayleigh_range" => vec![waist_from_rayleigh_range(i[0], i[1], i[2])?],
        "waist_from_divergence" => vec![waist_from_divergence(i[0], i[1], i[2])?],
        "m2_from_divergence" => vec![m2_from_divergence(i[0], i[1], i[2])?],
        "astigmatic_parameters" => {
            let p = astigmatic_parameters(&astigmatic(i))?;
            vec![
                p.rayleigh_range_x,
                p.rayleigh_range_y,
                p.waist_separation,
                p.relative_astigmatism,
                p.m2_effective,
                p.effective_waist_z,
                p.effective_waist_diameter,
                p.effective_rayleigh_range,
                p.brightest_z,
                p.brightest_irradiance_ratio,
                p.half_angle,
                bits(p.validity),
            ]
        }
        "astigmatic_at" => {
            let s = astigmatic_at(&astigmatic(i), i[7])?;
            vec![
                s.diameter_x,
                s.diameter_y,
                s.ellipticity,
                f64::from(s.circular),
                s.effective_diameter,
                s.equal_area_diameter,
                s.half_angle,
                bits(s.validity),
            ]
        }
        "focus_through_lens" => {
            let focused = focus_through_lens(&beam(i), i[3], i[4])?;
            [focus(&focused), vec![focused.half_angle, bits(focused.validity)]].concat()
        }
        "focus_collimated" => {
            let focused = focus_collimated(i[0], i[1], i[2], i[3])?;
            [focus(&focused), vec![focused.half_angle, bits(focused.validity)]].concat()
        }
        "focus_astigmatic" => {
            let found = focus_astigmatic(&astigmatic(i), i[7])?;
            [axes(&found.beam), vec![found.half_angle, bits(found.validity)]].concat()
        }
        "refractive_index" => {
            let found = refractive_index(Glass::from_code(i[0] as u32)?, i[1])?;
            vec![found.index, found.dispersion]
        }
        "lens_at_wavelength" => {
            let glass = Glass::from_code(i[0] as u32)?;
            let shape = LensShape::from_code(i[1] as u32, i[2])?;
            let found = lens_at_wavelength(glass, shape, i[3], i[4], i[5])?;
            vec![
                found.design_index,
                found.index,
                found.focal_length,
                found.focal_shift,
                found.shape_factor,
                found.blur_coefficient,
                found.wavefront_coefficient,
            ]
        }
        "lens_from_radii" => {
            let form = lens_from_radii(i[0], i[1], i[2])?;
            vec![form.focal_length, form.shape_factor]
        }
        "lens_aberration" => {
            let found = lens_aberration(&singlet(i)?)?;
            vec![found.shape_factor, found.blur_coefficient, found.wavefront_coefficient]
        }
        "aberration_growth" => {
            let growth = aberration_growth(i[0], i[1])?;
            vec![
                growth.second_moment_m2,
                growth.second_moment_growth,
                growth.second_moment_shift,
                growth.power86_growth,
                growth.power86_shift,
                growth.handbook_growth,
                growth.quadrature_growth,
                growth.peak_irradiance_ratio,
                growth.normalised_aberration,
                bits(growth.validity),
            ]
        }
        "focus_singlet" => {
            let found = focus_singlet(&beam(i), i[3], &singlet(&i[4..8])?, i[8])?;
            let ideal = [found.ideal.half_angle, bits(found.ideal.validity)];
            let rest = [found.half_angle, bits(found.validity)];
            [&focus(&found.ideal), &ideal[..], &real_focus(&found), &rest].concat()
        }
        "smallest_spot" => {
            let lens = singlet(&i[2..6])?;
            let best = smallest_spot(i[0], i[1], &lens, SpotMeasure::from_code(i[6] as u32)?)?;
            vec![
                best.diameter_at_lens,
                best.spot_diameter,
                best.aberration_phase,
                best.normalised_aberration,
                best.relative_rayleigh_range,
                best.half_angle,
                bits(best.validity),
            ]
        }
        "focus_clipped" => {
            let found = focus_clipped(i[0], i[1], i[2], i[3])?;
            vec![
                found.clipping_ratio,
                found.transmitted,
                found.diameter_1e2,
                found.fwhm,
                found.diameter_power86,
                found.peak_irradiance_ratio,
                found.relative_rayleigh_range,
                found.half_angle,
                bits(found.validity),
            ]
        }
        "focus_behind_plate" => {
            let found = focus_behind_plate(&beam(i), i[3], i[4])?;
            vec![
                found.focus_shift,
                found.edge_focus_shift,
                found.aberration_phase,
                found.normalised_aberration,
                found.half_angle,
                bits(found.validity),
            ]
        }
        "focus_inside" => {
            let found = focus_inside(&beam(i), i[3], i[4])?;
            vec![
                found.depth,
                found.edge_depth,
                found.rayleigh_range,
                found.aberration_phase,
                found.normalised_aberration,
                found.half_angle,
                bits(found.validity),
            ]
        }
        "beam_after_path" => path_beam(&beam_after_path(&astigmatic(i), &elements(&i[7..28])?)?),
        "beam_along_path" => path_beam(&beam_along_path(&astigmatic(i), &elements(&i[7..28])?, i[28])?),
        "focus_along_gantry" => {
            let (mut spots, mut shifts) = ([0.0; 4], [0.0; 4]);
            let widest = focus_along_gantry(&beam(i), &i[3..7], i[7], &mut spots, &mut shifts)?;
            [&spots[..], &shifts, &cone(widest)].concat()
        }
        "gantry_spread" => gantry(&gantry_spread(&beam(i), i[3], i[4], i[5])?),
        "even_out_gantry" => {
            let even = even_out_gantry(&beam(i), i[3], i[4], i[5], i[6], i[7])?;
            let setting =
                [even.exit_power, even.waist_diameter, even.expander_to_waist, f64::from(even.ends_equal)];
            [&setting, &gantry(&even.spread)[..]].concat()
        }
        "wave_irradiance" => {
            let found = wave_irradiance(&wave(i), i[6], i[7])?;
            vec![
                found.irradiance_ratio,
                found.irradiance_per_watt,
                found.error,
                found.half_angle,
                bits(found.validity),
            ]
        }
        "wave_power" => {
            let found = wave_power(&wave(i), i[6], i[7])?;
            vec![found.share, found.share_of_transmitted, found.error, found.half_angle, bits(found.validity)]
        }
        "wave_widths" => {
            let found = wave_widths(&wave(i), i[6])?;
            vec![
                found.irradiance_ratio,
                found.diameter_1e2,
                found.fwhm,
                found.diameter_power86,
                found.transmitted,
                found.error,
                found.half_angle,
                bits(found.validity),
            ]
        }
        "wave_focus" => {
            let found = wave_focus(&wave(i), FocusMeasure::from_code(i[6] as u32)?)?;
            vec![
                found.z,
                found.irradiance_ratio,
                found.diameter_power86,
                found.diameter_d4sigma,
                found.error,
                found.half_angle,
                bits(found.validity),
            ]
        }
        "wave_map" => {
            let (wave, radii, z) = (wave(i), &i[6..9], &i[9..11]);
            let mut workspace = vec![0.0; wave_map_workspace(&wave, radii, z)?];
            let mut out = vec![0.0; 6];
            let map = wave_map(&wave, radii, z, &mut workspace, &mut out)?;
            out.extend([map.error, map.half_angle, bits(map.validity)]);
            out
        }
        "defocus" => off_focus(&defocus(&beam(i), i[3])?),
        "astigmatic_defocus" => {
            let d = astigmatic_defocus(&astigmatic(i), i[7])?;
            vec![
                d.growth_x,
                d.growth_y,
                d.irradiance_ratio,
                d.line_dose_ratio_along_x,
                d.line_dose_ratio_along_y,
                d.half_angle,
                bits(d.validity),
            ]
        }
        "offsets_for_diameter" => range_and_validity(&offsets_for_diameter(&beam(i), i[3])?),
        "offsets_for_growth" => range_and_validity(&offsets_for_growth(&beam(i), i[3])?),
        "depth_of_focus" => {
            let criterion = criterion(&i[3..7])?;
            range_and_validity(&depth_of_focus(&beam(i), criterion)?)
        }
        "astigmatic_depth_of_focus" => {
            let criterion = criterion(&i[7..11])?;
            range_and_validity(&astigmatic_depth_of_focus(&astigmatic(i), criterion)?)
        }
        "clipped_depth_of_focus" => {
            let depth = clipped_depth_of_focus(i[0], i[1], i[2], i[3], i[4])?;
            let behind = vec![
                depth.brightest_z,
                depth.clipping_ratio,
                depth.relative_rayleigh_range,
                depth.relative_half_depth,
            ];
            [range_and_validity(&depth.range), behind].concat()
        }
        "wave_depth_of_focus" => {
            let criterion = criterion(&i[6..10])?;
            let depth = wave_depth_of_focus(&wave(i), criterion)?;
            let behind = vec![depth.error, depth.range.half_angle, bits(depth.range.validity)];
            [vec![depth.best_z], range(&depth.range), behind].concat()
        }
        "singlet_defocus" => {
            let lens = singlet(&i[4..8])?;
            let measure = SpotMeasure::from_code(i[9] as u32)?;
            let found = singlet_defocus(&beam(i), i[3], &lens, i[8], measure, i[10])?;
            [off_focus(&found.defocus), lens_numbers(&found.numbers)].concat()
        }
        "singlet_depth_of_focus" => {
            let lens = singlet(&i[4..8])?;
            let measure = SpotMeasure::from_code(i[9] as u32)?;
            let criterion = criterion(&i[10..14])?;
            let found = singlet_depth_of_focus(&beam(i), i[3], &lens, i[8], measure, criterion)?;
            [range_and_validity(&found.range), lens_numbers(&found.numbers)].concat()
        }
        "tilted_spot" => {
            let spot = tilted_spot(&beam(i), i[3], i[4])?;
            vec![
                spot.diameter_across,
                spot.diameter_along,
                spot.contour_along,
                spot.contour_shift,
                spot.irradiance_ratio,
                spot.line_dose_ratio,
                spot.grazing_ratio,
                spot.half_angle,
                bits(spot.validity),
            ]
        }
        "focus_check" => check(i)?,
        "surface_check" => check_on_surface(i)?,
        _ => {
            for part in [
                mark::call,
                height_map::call,
                tolerance::call,
                height_budget::call,
                shape::call,
                lens_choice::call,
                in_focus::call,
                scan_field::call,
                learn::call,
                beam_fit::call,
                threshold_fit::call,
                diagnosis::call,
                calibration::call,
                by_eye::call,
                plan::call,
            ] {
                if let Some(outputs) = part(name, i)? {
                    return Ok(outputs);
                }
            }
            panic!("{name} is not a function of the list")
        }
    })
}

fn beam(i: &[f64]) -> Beam {
    Beam { wavelength: i[0], m2: i[1], waist_diameter: i[2] }
}

fn astigmatic(i: &[f64]) -> AstigmaticBeam {
    let axis = |i: &[f64]| Axis { m2: i[0], waist_diameter: i[1], waist_z: i[2] };
    AstigmaticBeam { wavelength: i[0], x: axis(&i[1..4]), y: axis(&i[4..7]) }
}

/// An astigmatic beam as the seven numbers that it is made of.
fn axes(b: &AstigmaticBeam) -> Vec<f64> {
    let (x, y) = (&b.x, &b.y);
    vec![b.wavelength, x.m2, x.waist_diameter, x.waist_z, y.m2, y.waist_diameter, y.waist_z]
}

fn singlet(i: &[f64]) -> Result<Singlet, Error> {
    let shape = LensShape::from_code(i[1] as u32, i[2])?;
    Ok(Singlet { index: i[0], shape, focal_length: i[3] })
}

/// Three elements of seven numbers each, whose kinds are refused in their order.
fn elements(i: &[f64]) -> Result<Vec<Element>, Error> {
    i.chunks(7).map(|e| Element::from_code(e[0] as u32, e[1], e[2], e[3], e[4], e[5], e[6])).collect()
}

fn path_beam(found: &PathBeam) -> Vec<f64> {
    let here = [
        found.diameter_x,
        found.diameter_y,
        found.distance,
        found.normalised_aberration,
        found.half_angle,
        bits(found.validity),
    ];
    [&axes(&found.beam), &here[..]].concat()
}

fn gantry(spread: &GantrySpread) -> Vec<f64> {
    vec![
        spread.smallest_spot,
        spread.largest_spot,
        spread.spot_ratio,
        spread.least_focus_shift,
        spread.greatest_focus_shift,
        spread.focus_wander,
        spread.half_angle,
        bits(spread.validity),
    ]
}

fn wave(i: &[f64]) -> Wave {
    Wave {
        wavelength: i[0],
        m2: i[1],
        diameter_at_lens: i[2],
        clear_aperture: i[3],
        lens_to_focus: i[4],
        aberration_phase: i[5],
    }
}

fn criterion(i: &[f64]) -> Result<DepthCriterion, Error> {
    DepthCriterion::from_code(i[0] as u32, i[1], i[2], i[3])
}

fn bits(validity: Validity) -> f64 {
    f64::from(validity.bits())
}

/// The two numbers of a cone.
fn cone(cone: Cone) -> [f64; 2] {
    [cone.half_angle, bits(cone.validity)]
}

/// The seven numbers that come before the half angle of a focused beam.
fn focus(f: &FocusedBeam) -> Vec<f64> {
    vec![
        f.waist_diameter,
        f.rayleigh_range,
        f.divergence_full_angle,
        f.magnification,
        f.focus_shift,
        f.lens_to_waist,
        f.diameter_at_lens,
    ]
}

fn aberrated(w: &AberratedWaist) -> [f64; 5] {
    [w.waist_diameter, w.m2, w.rayleigh_range, w.shift, w.lens_to_waist]
}

/// The twenty-one numbers of a real focus between those of the ideal one and the half angle.
fn real_focus(found: &SingletFocus) -> Vec<f64> {
    let rest = [
        found.handbook_diameter,
        found.quadrature_diameter,
        found.peak_irradiance_ratio,
        found.shape_factor,
        found.aberration_phase,
        found.normalised_aberration,
        found.clipping_ratio,
        found.transmitted,
        found.relative_focus_shift,
        found.relative_rayleigh_range,
        found.lens_to_focus,
    ];
    [&aberrated(&found.second_moment), &aberrated(&found.power86), &rest[..]].concat()
}

fn range(range: &FocusRange) -> Vec<f64> {
    vec![range.toward_lens_z, range.away_from_lens_z, range.full]
}

fn range_and_validity(found: &FocusRange) -> Vec<f64> {
    [range(found), vec![found.half_angle, bits(found.validity)]].concat()
}

fn lens_numbers(n: &LensNumbers) -> Vec<f64> {
    vec![n.normalised_aberration, n.clipping_ratio, n.relative_focus_shift, n.relative_rayleigh_range]
}

fn off_focus(d: &Defocus) -> Vec<f64> {
    vec![
        d.diameter,
        d.growth,
        d.growth_minus_one,
        d.irradiance_ratio,
        d.line_dose_ratio,
        d.half_angle,
        bits(d.validity),
    ]
}

fn range_or_nan(found: Option<&FocusRange>) -> Vec<f64> {
    found.map_or_else(|| vec![f64::NAN; 3], range)
}

fn place(p: &Place) -> Vec<f64> {
    let here = [p.z_offset, p.diameter, p.growth, p.irradiance_ratio, p.line_dose_ratio, p.seen_diameter];
    let smallest = p.smallest.map_or([f64::NAN; 4], |d| [d.bar, d.gap, d.dot_diameter, d.hole_diameter]);
    let ripple = [p.ripple_contrast.unwrap_or(f64::NAN)];
    let text_grade = p.text_grade.map_or(0.0, |grade| f64::from(grade as u32));
    let rest = [text_grade, f64::from(p.details_hold), f64::from(p.in_depth)];
    [&here[..], &smallest, &ripple, &ems(p.smallest_text.as_ref()), &rest].concat()
}

/// Dose ratio, and what is known of the scan behind it.
fn dose(v: &Verdict) -> Vec<f64> {
    let scan = v
        .scan
        .map_or([f64::NAN; 4], |scan| [scan.line_dose, scan.fill_dose, scan.peak_irradiance, scan.dwell]);
    [&[v.dose_ratio][..], &scan, &[v.fill_depth.unwrap_or(f64::NAN)]].concat()
}

/// The text of a job, from its choice on; only a job with text looks at the numbers.
fn text(i: &[f64]) -> Result<Option<JobText>, Error> {
    match i[0] as u32 {
        1 => Ok(None),
        2 => Ok(Some(JobText {
            typeface: typeface(&i[1..6])?,
            em: i[6],
            least_grade: TextGrade::from_code(i[7] as u32)?,
            grades: grades(&i[8..11]),
        })),
        value => Err(Error::UnknownChoice { param: Param::JobText, value }),
    }
}

fn check(i: &[f64]) -> Result<Vec<f64>, Error> {
    Ok(verdict(&focus_check(&job(i)?)?))
}

/// A job on a surface, a region and a number of cells.
fn check_on_surface(i: &[f64]) -> Result<Vec<f64>, Error> {
    let (given, i) = i.split_at(JOB);
    let job = job(given)?;
    let surface = shape::surface(i)?;
    let region = shape::region(&i[shape::NUMBERS..]);
    let found = surface_check(&job, &surface, &region, i[shape::NUMBERS + 4] as u32)?;
    Ok([
        verdict(&found.verdict),
        shape::extremes(&found.extremes),
        vec![
            found.worst_x,
            found.worst_y,
            found.worst_z,
            found.share_in_depth,
            found.share_that_holds,
            f64::from(found.bands.unwrap_or(0)),
            found.steepest_stretch,
            found.steepest_irradiance_factor,
        ],
    ]
    .concat())
}

/// So many numbers make a job in the list.
const JOB: usize = 48;

fn job(i: &[f64]) -> Result<Job, Error> {
    // Choices first, in the order of the inputs.
    let raw_beam = RawBeam::from_code(i[2] as u32, i[3], i[4], i[5], i[28], i[29], i[30], i[31])?;
    let focus_setting = FocusSetting::from_code(i[7] as u32, i[8], i[9])?;
    let criterion = criterion(&i[12..16])?;
    let job_dose = JobDose::from_code(
        i[18] as u32,
        i[19],
        i[20],
        i[21],
        i[22],
        i[23],
        i[24] as u32,
        i[25],
        i[26],
        i[27],
    )?;
    let lens = JobLens::from_code(i[32] as u32, i[33] as u32, i[34] as u32, i[35], i[36])?;
    let text = text(&i[37..48])?;
    Ok(Job {
        wavelength: i[0],
        m2: i[1],
        raw_beam,
        focal_length: i[6],
        lens,
        focus: focus_setting,
        surface_rise: i[10],
        surface_fall: i[11],
        criterion,
        finest_stroke: i[16],
        finest_gap: i[17],
        dose: job_dose,
        text,
    })
}

fn verdict(v: &Verdict) -> Vec<f64> {
    [
        vec![f64::from(v.outcome as u32), f64::from(v.reasons.bits())],
        focus(&v.focused),
        vec![v.focused.half_angle, v.focus_z],
        range_or_nan(v.depth.as_ref()),
        range_or_nan(v.detail_range.as_ref()),
        range_or_nan(v.text_range.as_ref()),
        dose(v),
        place(&v.highest),
        place(&v.datum),
        place(&v.lowest),
        vec![v.best_focus_z, v.best_worst_growth, f64::from(v.promised as u32)],
        v.real.as_ref().map_or_else(|| vec![f64::NAN; 21], real_focus),
        vec![v.real.as_ref().map_or(f64::NAN, |real| real.half_angle), bits(v.validity)],
    ]
    .concat()
}
