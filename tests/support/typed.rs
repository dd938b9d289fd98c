//! The functions of the list, called through the typed layer: plain SI numbers in and out.

mod typed_beam_fit;
mod typed_by_eye;
mod typed_calibration;
mod typed_diagnosis;
mod typed_height_budget;
mod typed_height_map;
mod typed_in_focus;
mod typed_learn;
mod typed_lens_choice;
mod typed_mark;
mod typed_plan;
mod typed_scan_field;
mod typed_shape;
mod typed_threshold_fit;
mod typed_tolerance;

use spotwise::units::{m, per_m, rad};
use spotwise::*;
use typed_mark::{ems, job_dose, job_text, scan_dose};

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

fn lens_numbers(n: &LensNumbers) -> Vec<f64> {
    let ratio = n.clipping_ratio.unwrap_or(f64::INFINITY);
    vec![n.normalised_aberration, ratio, n.relative_focus_shift, n.relative_rayleigh_range]
}

fn range_and_validity(found: FocusRange) -> Vec<f64> {
    let mut out = range(&found);
    out.extend([found.half_angle().value, bits(found.validity())]);
    out
}

fn range_or_nan(found: Option<&FocusRange>) -> Vec<f64> {
    found.map_or_else(|| vec![f64::NAN; 3], range)
}

/// The two numbers of a cone.
fn cone(cone: Cone) -> [f64; 2] {
    [cone.half_angle.value, bits(cone.validity)]
}

/// The seven lengths and ratios that come before the half angle of a focus.
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

fn expander_waist(waist_to_expander: f64) -> ExpanderWaist {
    if waist_to_expander < 0.0 {
        ExpanderWaist::BehindExpander(m(-waist_to_expander))
    } else {
        ExpanderWaist::BeforeExpander(m(waist_to_expander))
    }
}

fn glass(code: f64) -> Result<Glass, Error> {
    Glass::from_code(code as u32)
}

/// No aperture is an infinite one in the list.
fn aperture(diameter: f64) -> Option<Aperture> {
    (diameter != f64::INFINITY).then(|| Aperture::from_diameter(m(diameter)))
}

fn shape(i: &[f64]) -> Result<LensShape, Error> {
    LensShape::from_code(i[0] as u32, i[1])
}

fn singlet(i: &[f64], clear_aperture: f64) -> Result<Singlet, Error> {
    Ok(Singlet {
        focal_length: m(i[3]),
        material: Material::Index(i[0]),
        shape: shape(&i[1..3])?,
        clear_aperture: aperture(clear_aperture),
    })
}

fn axes(parts: &AstigmaticParts) -> Vec<f64> {
    let axis = |axis: AxisParts| [axis.m_squared, metres(axis.waist), z(axis.waist_at)];
    [&[parts.wavelength.value], &axis(parts.x)[..], &axis(parts.y)[..]].concat()
}

fn elements(i: &[f64]) -> Result<Vec<Element>, Error> {
    i.chunks(7)
        .map(|e| {
            let [code, length, focal_length, index, magnification, exit_power, factor] = *e else {
                panic!("seven numbers make an element");
            };
            Ok(match code as u32 {
                1 => Element::Space(m(length)),
                2 => Element::ThinLens(Lens::new(m(focal_length))),
                3 => Element::Window(Plate { thickness: m(length), material: Material::Index(index) }),
                4 => Element::Expander(Expander { magnification, exit_power: per_m(exit_power) }),
                5 => Element::Singlet {
                    focal_length: m(focal_length),
                    material: Material::Index(index),
                    shape: LensShape::ShapeFactor { factor },
                },
                _ => return Err(unknown(Param::PathElement, code)),
            })
        })
        .collect()
}

fn path_beam(found: &PathBeam) -> Vec<f64> {
    let here = [
        metres(found.width_x),
        metres(found.width_y),
        found.distance.value,
        found.normalised_aberration,
        found.half_angle.value,
        bits(found.validity),
    ];
    [&axes(&found.parts()), &here[..]].concat()
}

fn gantry(spread: &GantrySpread) -> Vec<f64> {
    vec![
        metres(spread.smallest_spot),
        metres(spread.largest_spot),
        spread.spot_ratio,
        z(spread.least_focus_shift),
        z(spread.greatest_focus_shift),
        spread.focus_wander.value,
        spread.half_angle.value,
        bits(spread.validity),
    ]
}

fn wave(i: &[f64]) -> Result<Wave, Error> {
    Wave::new(WaveParts {
        wavelength: m(i[0]),
        m_squared: i[1],
        width_at_lens: width(i[2])?,
        clear_aperture: aperture(i[3]),
        lens_to_focus: m(i[4]),
        aberration_phase: rad(i[5]),
    })
}

/// The five numbers of a waist, NaN where the model refuses it.
fn aberrated(waist: Option<&AberratedWaist>) -> Vec<f64> {
    waist.map_or_else(
        || vec![f64::NAN; 5],
        |w| vec![w.diameter.value, w.m_squared, w.rayleigh_range.value, z(w.shift), w.lens_to_waist.value],
    )
}

/// The twenty-one numbers of a real focus between those of the ideal one and the half angle.
fn real_focus(found: &SingletFocus) -> Vec<f64> {
    let rest = [
        found.handbook_diameter.value,
        found.quadrature_diameter.value,
        found.peak_irradiance_ratio.unwrap_or(f64::NAN),
        found.shape_factor,
        found.aberration_phase.value,
        found.normalised_aberration,
        found.clipping_ratio.unwrap_or(f64::INFINITY),
        found.transmitted,
        found.relative_focus_shift,
        found.relative_rayleigh_range,
        found.lens_to_focus.value,
    ];
    [&aberrated(Some(&found.second_moment)), &aberrated(found.power86.as_ref()), &rest[..]].concat()
}

/// A surface whose radius has the signs of the list: + where its centre lies behind the surface, infinite
/// for a flat.
fn surface(radius: f64, convex_if_positive: bool) -> SurfaceRadius {
    if radius.is_infinite() {
        SurfaceRadius::Flat
    } else if (radius < 0.0) != convex_if_positive {
        SurfaceRadius::Convex(m(radius.abs()))
    } else {
        SurfaceRadius::Concave(m(radius.abs()))
    }
}

fn clipped_beam(i: &[f64]) -> Result<ClippedBeam, Error> {
    Ok(ClippedBeam {
        wavelength: m(i[0]),
        width_at_lens: width(i[1])?,
        clear_aperture: Aperture::from_diameter(m(i[2])),
    })
}

fn length_or_nan(length: Option<uom::si::f64::Length>) -> f64 {
    length.map_or(f64::NAN, |length| length.value)
}

fn place(place: &Place) -> Vec<f64> {
    let here = [
        z(place.from_waist),
        metres(place.spot),
        place.growth,
        place.irradiance_ratio,
        place.line_dose_ratio,
        metres(place.seen_spot),
        length_or_nan(place.smallest_stroke),
        length_or_nan(place.smallest_gap),
        length_or_nan(place.smallest_dot_diameter),
        length_or_nan(place.smallest_hole_diameter),
        place.ripple_contrast.unwrap_or(f64::NAN),
    ];
    let text_grade = place.text_grade.map_or(0.0, |grade| f64::from(grade as u32));
    let rest = [text_grade, f64::from(place.details_hold), f64::from(place.in_depth)];
    [&here[..], &ems(place.smallest_text.as_ref()), &rest].concat()
}

fn job(i: &[f64]) -> Result<Job, Error> {
    let raw_beam = match i[2] as u32 {
        1 => RawBeam::WidthAtLens(width(i[3])?),
        2 => RawBeam::Waist { width: width(i[4])?, position: waist_position(i[5]) },
        3 => RawBeam::Expanded {
            width: width(i[4])?,
            waist_to_expander: expander_waist(i[28]),
            magnification: i[29],
            exit_power: per_m(i[30]),
            expander_to_lens: m(i[31]),
        },
        _ => return Err(unknown(Param::RawBeam, i[2])),
    };
    let singlet = match i[32] as u32 {
        1 => None,
        2 => Some(JobSinglet {
            glass: glass(i[33])?,
            shape: shape(&i[34..36])?,
            clear_aperture: aperture(i[36]),
        }),
        _ => return Err(unknown(Param::LensKind, i[32])),
    };
    let focus = match i[7] as u32 {
        1 => FocusSetting::FromDatum(offset(i[8])?),
        2 => FocusSetting::LensToSurface(m(i[9])),
        _ => return Err(unknown(Param::FocusSetting, i[7])),
    };
    Ok(Job {
        laser: Laser { wavelength: m(i[0]), m_squared: i[1] },
        raw_beam,
        lens: JobLens { focal_length: m(i[6]), singlet },
        focus,
        surface: SurfaceExtent { rise: m(i[10]), fall: m(i[11]) },
        depth_criterion: criterion(&i[12..16])?,
        drawing: Drawing { finest_stroke: m(i[16]), finest_gap: m(i[17]) },
        dose: job_dose(&i[18..28])?,
        text: job_text(&i[37..48])?,
    })
}

fn check(i: &[f64]) -> Result<Vec<f64>, Error> {
    Ok(verdict(&job(i)?.check()?))
}

/// A job on a surface, a region and a number of cells.
fn check_on_surface(i: &[f64]) -> Result<Vec<f64>, Error> {
    let (given, i) = i.split_at(JOB);
    let job = job(given)?;
    let surface = typed_shape::surface(i)?;
    let region = typed_shape::region(&i[typed_shape::NUMBERS..]);
    let found = job.check_on(&surface, region, CellsPerSide(i[typed_shape::NUMBERS + 4] as u32))?;
    Ok([
        verdict(&found.verdict),
        typed_shape::extremes(&found.extremes),
        vec![found.worst.at.x.value, found.worst.at.y.value, z(found.worst.height)],
        vec![found.share_in_depth, found.share_that_holds, f64::from(found.bands.unwrap_or(0))],
        vec![found.steepest_stretch, found.steepest_irradiance_factor],
    ]
    .concat())
}

/// So many numbers make a job in the list.
const JOB: usize = 48;

fn verdict(verdict: &Verdict) -> Vec<f64> {
    [
        vec![f64::from(verdict.outcome as u32), f64::from(verdict.reasons.bits())],
        focus(&verdict.focus),
        vec![verdict.focus.half_angle.value, z(verdict.focus_from_datum)],
        range_or_nan(verdict.depth.as_ref()),
        range_or_nan(verdict.detail_range.as_ref()),
        range_or_nan(verdict.text_range.as_ref()),
        vec![verdict.dose_ratio],
        verdict.scan.as_ref().map_or([f64::NAN; 4], scan_dose).to_vec(),
        vec![length_or_nan(verdict.fill_depth)],
        place(&verdict.highest),
        place(&verdict.datum),
        place(&verdict.lowest),
        vec![z(verdict.best_focus_from_datum), verdict.best_worst_growth, f64::from(verdict.promised as u32)],
        verdict.real.as_ref().map_or_else(|| vec![f64::NAN; 21], real_focus),
        vec![verdict.real.map_or(f64::NAN, |real| real.half_angle.value), bits(verdict.validity)],
    ]
    .concat()
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
                section.half_angle.value,
                bits(section.validity),
            ]
        }
        "diameters_at" => {
            let mut out = vec![0.0; 4];
            let widest = beam(i)?.diameters_1e2_at(&i[3..7], &mut out)?;
            [&out[..], &cone(widest)].concat()
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
                p.half_angle.value,
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
                section.half_angle.value,
                bits(section.validity),
            ]
        }
        "focus_through_lens" => {
            let found = Lens::new(m(i[4])).focus(&beam(i)?, waist_position(i[3]))?;
            [focus(&found), vec![found.half_angle.value, bits(found.validity)]].concat()
        }
        "focus_collimated" => {
            let found = Lens::new(m(i[3])).focus(&beam(i)?, WaistPosition::AtLens)?;
            [focus(&found), vec![found.half_angle.value, bits(found.validity)]].concat()
        }
        "focus_astigmatic" => {
            let found = Lens::new(m(i[7])).focus_astigmatic(&astigmatic(i)?)?;
            [axes(&found.beam.parts()), vec![found.half_angle.value, bits(found.validity)]].concat()
        }
        "refractive_index" => {
            let found = glass(i[0])?.index_at(m(i[1]))?;
            vec![found.index, found.dispersion.value]
        }
        "lens_at_wavelength" => {
            let (glass, shape) = (glass(i[0])?, shape(&i[1..3])?);
            let wavelengths = Wavelengths { design: m(i[4]), other: m(i[5]) };
            let found = Lens::new(m(i[3])).at_wavelength(glass, shape, wavelengths)?;
            vec![
                found.design_index,
                found.index,
                found.focal_length.value,
                z(found.focal_shift),
                found.shape_factor,
                found.blur_coefficient,
                found.wavefront_coefficient_per_m3,
            ]
        }
        "lens_from_radii" => {
            let (first, second) = (surface(i[1], true), surface(i[2], false));
            let form = LensForm::from_radii(RadiiParts { index: i[0], first, second })?;
            vec![form.focal_length.value, form.shape_factor]
        }
        "lens_aberration" => {
            // The index is given, so the wavelength does not matter.
            let found = singlet(i, f64::INFINITY)?.aberration(m(1e-6))?;
            vec![found.shape_factor, found.blur_coefficient, found.wavefront_coefficient_per_m3]
        }
        "aberration_growth" => {
            let found = aberration_growth(i[0], rad(i[1]))?;
            let power86 = |read: fn(Power86Growth) -> f64| found.power86.map_or(f64::NAN, read);
            vec![
                found.second_moment_m_squared,
                found.second_moment_growth,
                found.second_moment_shift_away_from_lens,
                power86(|spot| spot.growth),
                power86(|spot| spot.shift_away_from_lens),
                found.handbook_growth,
                found.quadrature_growth,
                power86(|spot| spot.peak_irradiance_ratio),
                found.normalised_aberration,
                bits(found.validity),
            ]
        }
        "focus_singlet" => {
            let found = singlet(&i[4..8], i[8])?.focus(&beam(i)?, waist_position(i[3]))?;
            let ideal = [found.ideal.half_angle.value, bits(found.ideal.validity)];
            let rest = [found.half_angle.value, bits(found.validity)];
            [&focus(&found.ideal), &ideal[..], &real_focus(&found), &rest].concat()
        }
        "smallest_spot" => {
            let laser = Laser { wavelength: m(i[0]), m_squared: i[1] };
            let measure = SpotMeasure::from_code(i[6] as u32)?;
            let best = singlet(&i[2..6], f64::INFINITY)?.smallest_spot(laser, measure)?;
            vec![
                metres(best.width_at_lens),
                best.spot_diameter.value,
                best.aberration_phase.value,
                best.normalised_aberration,
                best.relative_rayleigh_range,
                best.half_angle.value,
                bits(best.validity),
            ]
        }
        "focus_clipped" => {
            let found = Lens::new(m(i[3])).focus_clipped(clipped_beam(i)?)?;
            vec![
                found.clipping_ratio,
                found.transmitted,
                found.diameter_1e2.value,
                found.fwhm.value,
                found.diameter_power86.map_or(f64::NAN, |diameter| diameter.value),
                found.peak_irradiance_ratio,
                found.relative_rayleigh_range,
                found.half_angle.value,
                bits(found.validity),
            ]
        }
        "focus_behind_plate" => {
            let plate = Plate { thickness: m(i[3]), material: Material::Index(i[4]) };
            let found = plate.focus_behind(&beam(i)?)?;
            vec![
                z(found.focus_shift),
                z(found.edge_focus_shift),
                found.aberration_phase.value,
                found.normalised_aberration,
                found.half_angle.value,
                bits(found.validity),
            ]
        }
        "focus_inside" => {
            let found = Material::Index(i[4]).focus_inside(&beam(i)?, m(i[3]))?;
            vec![
                found.depth.value,
                found.edge_depth.value,
                found.rayleigh_range.value,
                found.aberration_phase.value,
                found.normalised_aberration,
                found.half_angle.value,
                bits(found.validity),
            ]
        }
        "beam_after_path" => path_beam(&beam_after_path(&astigmatic(i)?, &elements(&i[7..28])?)?),
        "beam_along_path" => path_beam(&beam_along_path(&astigmatic(i)?, &elements(&i[7..28])?, m(i[28]))?),
        "focus_along_gantry" => {
            let (mut spots, mut shifts) = ([0.0; 4], [0.0; 4]);
            let columns = GantryColumns {
                spot_diameters_1e2_m: &mut spots,
                focus_shifts_away_from_lens_m: &mut shifts,
            };
            let widest = Lens::new(m(i[7])).focus_along_gantry(&beam(i)?, &i[3..7], columns)?;
            [&spots[..], &shifts, &cone(widest)].concat()
        }
        "gantry_spread" => {
            let travel = GantryTravel { nearest: m(i[3]), farthest: m(i[4]) };
            gantry(&Lens::new(m(i[5])).gantry_spread(&beam(i)?, travel)?)
        }
        "even_out_gantry" => {
            let expander = ExpanderToSet { waist: expander_waist(i[3]), magnification: i[4] };
            let travel = GantryTravel { nearest: m(i[5]), farthest: m(i[6]) };
            let even = Lens::new(m(i[7])).even_out_gantry(&beam(i)?, expander, travel)?;
            let setting = [
                even.exit_power.value,
                metres(even.waist),
                even.expander_to_waist.value,
                f64::from(even.ends_equal),
            ];
            [&setting, &gantry(&even.spread)[..]].concat()
        }
        "wave_irradiance" => {
            let found = wave(i)?.irradiance_at(m(i[6]), offset(i[7])?)?;
            vec![
                found.irradiance_ratio,
                found.irradiance_per_watt_per_m2,
                found.error,
                found.half_angle.value,
                bits(found.validity),
            ]
        }
        "wave_power" => {
            let found = wave(i)?.power_within(Aperture::from_radius(m(i[6])), offset(i[7])?)?;
            vec![
                found.share,
                found.share_of_transmitted,
                found.error,
                found.half_angle.value,
                bits(found.validity),
            ]
        }
        "wave_widths" => {
            let found = wave(i)?.widths_at(offset(i[6])?)?;
            vec![
                found.irradiance_ratio,
                found.diameter_1e2.value,
                found.fwhm.value,
                found.diameter_power86.value,
                found.transmitted,
                found.relative_error,
                found.half_angle.value,
                bits(found.validity),
            ]
        }
        "wave_focus" => {
            let found = wave(i)?.focus(FocusMeasure::from_code(i[6] as u32)?)?;
            vec![
                z(found.at),
                found.irradiance_ratio,
                found.diameter_power86.value,
                found.diameter_d4sigma.map_or(f64::NAN, |diameter| diameter.value),
                found.relative_error,
                found.half_angle.value,
                bits(found.validity),
            ]
        }
        "wave_map" => {
            let wave = wave(i)?;
            let grid = MapGrid { radii_m: &i[6..9], z_away_from_lens_m: &i[9..11] };
            let (mut workspace, mut out) = (vec![0.0; wave.map_workspace(grid)?], vec![0.0; 6]);
            let buffers = MapBuffers { workspace: &mut workspace, irradiance_ratios: &mut out };
            let map = wave.map(grid, buffers)?;
            out.extend([map.error, map.half_angle.value, bits(map.validity)]);
            out
        }
        "defocus" => {
            let d = beam(i)?.defocus(offset(i[3])?)?;
            vec![
                metres(d.spot),
                d.growth,
                d.growth_minus_one,
                d.irradiance_ratio,
                d.line_dose_ratio,
                d.half_angle.value,
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
                d.half_angle.value,
                bits(d.validity),
            ]
        }
        "offsets_for_diameter" => range_and_validity(beam(i)?.offsets_for_width(width(i[3])?)?),
        "offsets_for_growth" => range_and_validity(beam(i)?.offsets_for_growth(i[3])?),
        "depth_of_focus" => range_and_validity(beam(i)?.depth_of_focus(criterion(&i[3..7])?)?),
        "astigmatic_depth_of_focus" => {
            range_and_validity(astigmatic(i)?.depth_of_focus(criterion(&i[7..11])?)?)
        }
        "clipped_depth_of_focus" => {
            let lens = Lens::new(m(i[3]));
            let depth = lens.clipped_depth_of_focus(clipped_beam(i)?, i[4])?;
            let behind = vec![
                z(depth.brightest),
                depth.clipping_ratio,
                depth.relative_rayleigh_range,
                depth.relative_half_depth,
            ];
            [range_and_validity(depth.range), behind].concat()
        }
        "wave_depth_of_focus" => {
            let depth = wave(i)?.depth_of_focus(criterion(&i[6..10])?)?;
            let mut out = vec![z(depth.best_focus)];
            out.extend(range(&depth.range));
            out.extend([depth.error.value, depth.range.half_angle().value, bits(depth.range.validity())]);
            out
        }
        "singlet_defocus" => {
            let lens = singlet(&i[4..8], i[8])?;
            let measure = SpotMeasure::from_code(i[9] as u32)?;
            let d = lens.defocus(&beam(i)?, waist_position(i[3]), measure, offset(i[10])?)?;
            let off = vec![
                d.diameter.value,
                d.growth,
                d.growth_minus_one,
                d.irradiance_ratio,
                d.line_dose_ratio,
                d.half_angle.value,
                bits(d.validity),
            ];
            [off, lens_numbers(&d.numbers)].concat()
        }
        "singlet_depth_of_focus" => {
            let lens = singlet(&i[4..8], i[8])?;
            let measure = SpotMeasure::from_code(i[9] as u32)?;
            let criterion = criterion(&i[10..14])?;
            let depth = lens.depth_of_focus(&beam(i)?, waist_position(i[3]), measure, criterion)?;
            [range_and_validity(depth.range), lens_numbers(&depth.numbers)].concat()
        }
        "tilted_spot" => {
            let spot = beam(i)?.on_tilted_surface(offset(i[3])?, rad(i[4]))?;
            vec![
                spot.diameter_across.value,
                spot.diameter_along.value,
                spot.contour_along.value,
                spot.contour_shift_to_far_side.value,
                spot.irradiance_ratio,
                spot.line_dose_ratio,
                spot.grazing_ratio,
                spot.half_angle.value,
                bits(spot.validity),
            ]
        }
        "focus_check" => check(i)?,
        "surface_check" => check_on_surface(i)?,
        _ => {
            for part in [
                typed_mark::call,
                typed_height_map::call,
                typed_tolerance::call,
                typed_height_budget::call,
                typed_shape::call,
                typed_lens_choice::call,
                typed_in_focus::call,
                typed_scan_field::call,
                typed_learn::call,
                typed_beam_fit::call,
                typed_threshold_fit::call,
                typed_diagnosis::call,
                typed_calibration::call,
                typed_by_eye::call,
                typed_plan::call,
            ] {
                if let Some(outputs) = part(name, i)? {
                    return Ok(outputs);
                }
            }
            panic!("{name} is not in the typed layer")
        }
    })
}
