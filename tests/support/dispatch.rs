//! The functions of the list, called through the model: plain numbers in and out.

use spotwise::model::check::{FocusSetting, Job, Place, RawBeam, focus_check};
use spotwise::model::focus::{
    DepthCriterion, FocusRange, astigmatic_defocus, astigmatic_depth_of_focus, defocus, depth_of_focus,
    offsets_for_diameter, offsets_for_growth,
};
use spotwise::model::mark::{
    contrast_at_pitch, largest_spot_for_details, pitch_for_contrast, smallest_details,
};
use spotwise::model::optics::{
    AstigmaticBeam, Axis, Beam, FocusedBeam, WidthDefinition, astigmatic_at, astigmatic_parameters, beam_at,
    beam_parameters, convert_width, diameter_for_power, diameters_at, focus_astigmatic, focus_collimated,
    focus_through_lens, m2_from_divergence, power_through_aperture, waist_from_divergence,
    waist_from_rayleigh_range,
};
use spotwise::{Error, Validity};

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
            vec![s.diameter, s.wavefront_curvature, s.wavefront_radius, bits(s.validity)]
        }
        "diameters_at" => {
            let mut out = [f64::NAN; 4];
            diameters_at(&beam(i), &i[3..7], &mut out)?;
            out.to_vec()
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
                bits(s.validity),
            ]
        }
        "focus_through_lens" => {
            let focused = focus_through_lens(&beam(i), i[3], i[4])?;
            [focus(&focused), vec![bits(focused.validity)]].concat()
        }
        "focus_collimated" => {
            let focused = focus_collimated(i[0], i[1], i[2], i[3])?;
            [focus(&focused), vec![bits(focused.validity)]].concat()
        }
        "focus_astigmatic" => {
            let b = focus_astigmatic(&astigmatic(i), i[7])?;
            vec![
                b.wavelength,
                b.x.m2,
                b.x.waist_diameter,
                b.x.waist_z,
                b.y.m2,
                b.y.waist_diameter,
                b.y.waist_z,
            ]
        }
        "defocus" => {
            let d = defocus(&beam(i), i[3])?;
            vec![
                d.diameter,
                d.growth,
                d.growth_minus_one,
                d.irradiance_ratio,
                d.line_dose_ratio,
                bits(d.validity),
            ]
        }
        "astigmatic_defocus" => {
            let d = astigmatic_defocus(&astigmatic(i), i[7])?;
            vec![
                d.growth_x,
                d.growth_y,
                d.irradiance_ratio,
                d.line_dose_ratio_along_x,
                d.line_dose_ratio_along_y,
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
        "smallest_details" => {
            let d = smallest_details(i[0], i[1])?;
            vec![d.bar, d.gap, d.dot_diameter, d.hole_diameter, d.edge_shift]
        }
        "largest_spot_for_details" => vec![largest_spot_for_details(i[0], i[1], i[2])?],
        "contrast_at_pitch" => {
            let c = contrast_at_pitch(i[0], i[1])?;
            vec![c.sine, c.bars, c.dose_window]
        }
        "pitch_for_contrast" => vec![pitch_for_contrast(i[0], i[1])?],
        "focus_check" => check(i)?,
        _ => panic!("{name} is not a function of the list"),
    })
}

fn beam(i: &[f64]) -> Beam {
    Beam { wavelength: i[0], m2: i[1], waist_diameter: i[2] }
}

fn astigmatic(i: &[f64]) -> AstigmaticBeam {
    let axis = |i: &[f64]| Axis { m2: i[0], waist_diameter: i[1], waist_z: i[2] };
    AstigmaticBeam { wavelength: i[0], x: axis(&i[1..4]), y: axis(&i[4..7]) }
}

fn criterion(i: &[f64]) -> Result<DepthCriterion, Error> {
    DepthCriterion::from_code(i[0] as u32, i[1], i[2], i[3])
}

fn bits(validity: Validity) -> f64 {
    f64::from(validity.bits())
}

/// The seven numbers that come before the validity of a focused beam.
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

fn range(range: &FocusRange) -> Vec<f64> {
    vec![range.toward_lens_z, range.away_from_lens_z, range.full]
}

fn range_and_validity(found: &FocusRange) -> Vec<f64> {
    [range(found), vec![bits(found.validity)]].concat()
}

fn range_or_nan(found: Option<&FocusRange>) -> Vec<f64> {
    found.map_or_else(|| vec![f64::NAN; 3], range)
}

fn place(p: &Place) -> Vec<f64> {
    vec![
        p.z_offset,
        p.diameter,
        p.growth,
        p.irradiance_ratio,
        p.line_dose_ratio,
        p.smallest_stroke,
        p.smallest_gap,
        p.smallest_dot_diameter,
        p.smallest_hole_diameter,
        f64::from(p.details_hold),
        f64::from(p.in_depth),
    ]
}

fn check(i: &[f64]) -> Result<Vec<f64>, Error> {
    // Choices first, in the order of the inputs.
    let raw_beam = RawBeam::from_code(i[2] as u32, i[3], i[4], i[5])?;
    let focus_setting = FocusSetting::from_code(i[7] as u32, i[8], i[9])?;
    let criterion = criterion(&i[12..16])?;
    let v = focus_check(&Job {
        wavelength: i[0],
        m2: i[1],
        raw_beam,
        focal_length: i[6],
        focus: focus_setting,
        surface_rise: i[10],
        surface_fall: i[11],
        criterion,
        finest_stroke: i[16],
        finest_gap: i[17],
        dose_ratio: i[18],
    })?;
    Ok([
        vec![f64::from(v.outcome as u32), f64::from(v.reasons.bits())],
        focus(&v.focused),
        vec![v.focus_z],
        range_or_nan(v.depth.as_ref()),
        range_or_nan(v.detail_range.as_ref()),
        place(&v.highest),
        place(&v.datum),
        place(&v.lowest),
        vec![v.best_focus_z, v.best_worst_growth, bits(v.validity)],
    ]
    .concat())
}
