//! The functions of the list, called through the typed layer: plain SI numbers in and out.

use spotwise::units::{m, rad};
use spotwise::*;

/// A choice that the typed layer cannot even express.
fn unknown(param: Param, code: f64) -> Error {
    Error::UnknownChoice { param, value: code as u32 }
}

fn width(diameter: f64) -> Result<BeamWidth, Error> {
    BeamWidth::from_diameter_1e2(m(diameter))
}

fn offset(z: f64) -> Result<Offset, Error> {
    Offset::from_z_away_from_lens(m(z))
}

fn metres(width: BeamWidth) -> f64 {
    width.diameter_1e2().value
}

fn z(offset: Offset) -> f64 {
    offset.z_away_from_lens().value
}

fn bits(validity: Validity) -> f64 {
    f64::from(validity.bits())
}

fn beam(i: &[f64]) -> Result<Beam, Error> {
    Beam::new(BeamParts { wavelength: m(i[0]), m_squared: i[1], waist: width(i[2])? })
}

fn astigmatic(i: &[f64]) -> Result<AstigmaticBeam, Error> {
    let axis = |i: &[f64]| Ok(AxisParts { m_squared: i[0], waist: width(i[1])?, waist_at: offset(i[2])? });
    AstigmaticBeam::new(AstigmaticParts { wavelength: m(i[0]), x: axis(&i[1..4])?, y: axis(&i[4..7])? })
}

fn criterion(i: &[f64]) -> Result<Criterion, Error> {
    Ok(match i[0] as u32 {
        1 => Criterion::GrowthRatio(i[1]),
        2 => Criterion::Rayleigh,
        3 => Criterion::IrradianceDrop(i[2]),
        4 => Criterion::LargestSpot(width(i[3])?),
        5 => Criterion::LineDoseDrop(i[2]),
        _ => return Err(unknown(Param::DepthCriterion, i[0])),
    })
}

fn definition(code: f64) -> Result<WidthDefinition, Error> {
    WidthDefinition::from_code(code as u32)
}

fn range(range: &FocusRange) -> Vec<f64> {
    vec![z(range.toward_lens()), z(range.away_from_lens()), range.full().value]
}

fn range_and_validity(found: FocusRange) -> Vec<f64> {
    let mut out = range(&found);
    out.push(bits(found.validity()));
    out
}

fn range_or_nan(found: Option<&FocusRange>) -> Vec<f64> {
    found.map_or_else(|| vec![f64::NAN; 3], range)
}

/// The seven lengths and ratios that come before the validity of a focus.
fn focus(focus: &Focus) -> Vec<f64> {
    vec![
        metres(focus.spot),
        focus.rayleigh_range.value,
        focus.divergence.full_angle().value,
        focus.magnification,
        z(focus.focus_shift),
        focus.lens_to_waist.value,
        metres(focus.width_at_lens),
    ]
}

fn waist_position(waist_to_lens: f64) -> WaistPosition {
    if waist_to_lens < 0.0 {
        WaistPosition::BehindLens(m(-waist_to_lens))
    } else {
        WaistPosition::BeforeLens(m(waist_to_lens))
    }
}

fn place(place: &Place) -> Vec<f64> {
    vec![
        z(place.from_waist),
        metres(place.spot),
        place.growth,
        place.irradiance_ratio,
        place.line_dose_ratio,
        place.smallest_stroke.value,
        place.smallest_gap.value,
        place.smallest_dot_diameter.value,
        place.smallest_hole_diameter.value,
        f64::from(place.details_hold),
        f64::from(place.in_depth),
    ]
}

fn job(i: &[f64]) -> Result<Job, Error> {
    let raw_beam = match i[2] as u32 {
        1 => RawBeam::WidthAtLens(width(i[3])?),
        2 => RawBeam::Waist { width: width(i[4])?, position: waist_position(i[5]) },
        _ => return Err(unknown(Param::RawBeam, i[2])),
    };
    let focus = match i[7] as u32 {
        1 => FocusSetting::FromDatum(offset(i[8])?),
        2 => FocusSetting::LensToSurface(m(i[9])),
        _ => return Err(unknown(Param::FocusSetting, i[7])),
    };
    Ok(Job {
        laser: Laser { wavelength: m(i[0]), m_squared: i[1] },
        raw_beam,
        lens: Lens::new(m(i[6])),
        focus,
        surface: Surface { rise: m(i[10]), fall: m(i[11]) },
        depth_criterion: criterion(&i[12..16])?,
        drawing: Drawing { finest_stroke: m(i[16]), finest_gap: m(i[17]) },
        dose_ratio: i[18],
    })
}

fn check(i: &[f64]) -> Result<Vec<f64>, Error> {
    let verdict = job(i)?.check()?;
    Ok([
        vec![f64::from(verdict.outcome as u32), f64::from(verdict.reasons.bits())],
        focus(&verdict.focus),
        vec![z(verdict.focus_from_datum)],
        range_or_nan(verdict.depth.as_ref()),
        range_or_nan(verdict.detail_range.as_ref()),
        place(&verdict.highest),
        place(&verdict.datum),
        place(&verdict.lowest),
        vec![z(verdict.best_focus_from_datum), verdict.best_worst_growth, bits(verdict.validity)],
    ]
    .concat())
}

/// The outputs of the function of this name, in the order of the list.
pub fn call(name: &str, i: &[f64]) -> Result<Vec<f64>, Error> {
    Ok(match name {
        "convert_width" => {
            let (from, to) = (definition(i[1])?, definition(i[2])?);
            vec![BeamWidth::from_definition(m(i[0]), from)?.by_definition(to)?.value]
        }
        "power_through_aperture" => {
            vec![power_through_aperture(width(i[0])?, Aperture::from_diameter(m(i[1])))?]
        }
        "diameter_for_power" => vec![aperture_for_power(width(i[0])?, i[1])?.diameter().value],
        "beam_parameters" => {
            let beam = beam(i)?;
            vec![
                beam.rayleigh_range().value,
                beam.divergence().half_angle().value,
                beam.divergence().full_angle().value,
                beam.beam_parameter_product().in_m_rad(),
                bits(beam.validity()),
            ]
        }
        "beam_at" => {
            let section = beam(i)?.at(offset(i[3])?)?;
            vec![
                metres(section.width),
                section.wavefront_curvature.value,
                section.wavefront_radius.value,
                bits(section.validity),
            ]
        }
        "diameters_at" => {
            let mut out = vec![0.0; 4];
            beam(i)?.diameters_1e2_at(&i[3..7], &mut out)?;
            out
        }
        "waist_from_rayleigh_range" => {
            let known = Ranged { wavelength: m(i[0]), m_squared: i[1], rayleigh_range: m(i[2]) };
            vec![metres(Beam::from_rayleigh_range(known)?.waist())]
        }
        "waist_from_divergence" => {
            let divergence = Divergence::from_full_angle(rad(i[2]))?;
            let known = Divergent { wavelength: m(i[0]), m_squared: i[1], divergence };
            vec![metres(Beam::from_divergence(known)?.waist())]
        }
        "m2_from_divergence" => {
            vec![Beam::m_squared_from(m(i[0]), width(i[1])?, Divergence::from_full_angle(rad(i[2]))?)?]
        }
        "astigmatic_parameters" => {
            let p = astigmatic(i)?.parameters()?;
            vec![
                p.rayleigh_range_x.value,
                p.rayleigh_range_y.value,
                z(p.waist_separation),
                p.relative_astigmatism,
                p.m_squared_effective,
                z(p.effective_waist_at),
                metres(p.effective_waist),
                p.effective_rayleigh_range.value,
                z(p.brightest_at),
                p.brightest_irradiance_ratio,
                bits(p.validity),
            ]
        }
        "astigmatic_at" => {
            let section = astigmatic(i)?.at(offset(i[7])?)?;
            vec![
                metres(section.width_x),
                metres(section.width_y),
                section.ellipticity,
                f64::from(section.circular),
                metres(section.effective_width),
                metres(section.equal_area_width),
                bits(section.validity),
            ]
        }
        "focus_through_lens" => {
            let found = Lens::new(m(i[4])).focus(&beam(i)?, waist_position(i[3]))?;
            let mut out = focus(&found);
            out.push(bits(found.validity));
            out
        }
        "focus_collimated" => {
            let found = Lens::new(m(i[3])).focus(&beam(i)?, WaistPosition::AtLens)?;
            let mut out = focus(&found);
            out.push(bits(found.validity));
            out
        }
        "focus_astigmatic" => {
            let parts = Lens::new(m(i[7])).focus_astigmatic(&astigmatic(i)?)?.parts();
            let axis = |axis: AxisParts| [axis.m_squared, metres(axis.waist), z(axis.waist_at)];
            [&[parts.wavelength.value], &axis(parts.x)[..], &axis(parts.y)[..]].concat()
        }
        "defocus" => {
            let d = beam(i)?.defocus(offset(i[3])?)?;
            vec![
                metres(d.spot),
                d.growth,
                d.growth_minus_one,
                d.irradiance_ratio,
                d.line_dose_ratio,
                bits(d.validity),
            ]
        }
        "astigmatic_defocus" => {
            let d = astigmatic(i)?.defocus(offset(i[7])?)?;
            vec![
                d.growth_x,
                d.growth_y,
                d.irradiance_ratio,
                d.line_dose_ratio_along_x,
                d.line_dose_ratio_along_y,
                bits(d.validity),
            ]
        }
        "offsets_for_diameter" => range_and_validity(beam(i)?.offsets_for_width(width(i[3])?)?),
        "offsets_for_growth" => range_and_validity(beam(i)?.offsets_for_growth(i[3])?),
        "depth_of_focus" => range_and_validity(beam(i)?.depth_of_focus(criterion(&i[3..7])?)?),
        "astigmatic_depth_of_focus" => {
            range_and_validity(astigmatic(i)?.depth_of_focus(criterion(&i[7..11])?)?)
        }
        "smallest_details" => {
            let details = smallest_details(width(i[0])?, i[1])?;
            vec![
                details.bar.value,
                details.gap.value,
                details.dot_diameter.value,
                details.hole_diameter.value,
                details.outward_edge_shift.value,
            ]
        }
        "largest_spot_for_details" => {
            vec![metres(largest_spot_for_details(FinestDetail { stroke: m(i[0]), gap: m(i[1]) }, i[2])?)]
        }
        "contrast_at_pitch" => {
            let contrast = contrast_at_pitch(width(i[0])?, m(i[1]))?;
            vec![contrast.sine, contrast.bars, contrast.dose_window]
        }
        "pitch_for_contrast" => vec![pitch_for_contrast(width(i[0])?, i[1])?.value],
        "focus_check" => check(i)?,
        _ => panic!("{name} is not in the typed layer"),
    })
}
