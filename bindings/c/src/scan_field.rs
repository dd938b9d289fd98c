//! The field of a scan head with a flat-field lens that its user has measured.

use crate::abi::{Plain, init, input, plain, report};
use crate::beam::spotwise_beam;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::model::surface::{
    ScanFieldExtent, ScanFieldFocus, ScanFieldSpot, ScanLens, scan_field_at, scan_field_extent,
    scan_field_focus,
};

/// A lens for scanning, as its user has measured it in the middle and at the edge of its field. Heights
/// are those of the table, from the focus on the axis, + away from the lens. If you know but one focus
/// at the edge, give it for both.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_scan_lens {
    /// Size of this struct; spotwise_scan_lens_init() sets it.
    pub struct_size: u32,
    /// Not read.
    pub reserved: u32,
    /// Focal length in metres, converging; range: SPOTWISE_PARAM_FOCAL_LENGTH.
    pub focal_length_m: f64,
    /// Radius of the field at whose edge the rest was measured, in metres; range:
    /// SPOTWISE_PARAM_FIELD_RADIUS.
    pub field_radius_m: f64,
    /// Height in metres at which the spot at the edge is narrowest ALONG the radius; range:
    /// SPOTWISE_PARAM_EDGE_TANGENTIAL_Z.
    pub edge_tangential_z_m: f64,
    /// Height in metres at which the spot at the edge is narrowest ACROSS the radius; range:
    /// SPOTWISE_PARAM_EDGE_SAGITTAL_Z.
    pub edge_sagittal_z_m: f64,
    /// Angle in radians between the middle of the beam and the normal of the table at the edge, 0 for a
    /// telecentric lens; range: SPOTWISE_PARAM_EDGE_INCIDENCE.
    pub edge_incidence_rad: f64,
    /// Narrowest spot at the edge ACROSS the radius over that on the axis, 1 if not measured; range:
    /// SPOTWISE_PARAM_EDGE_SPOT_RATIO.
    pub edge_spot_ratio: f64,
}
plain!(
    spotwise_scan_lens, 56 bytes,
    words: [reserved],
    numbers: [
        focal_length_m,
        field_radius_m,
        edge_tangential_z_m,
        edge_sagittal_z_m,
        edge_incidence_rad,
        edge_spot_ratio,
    ]
);

impl From<spotwise_scan_lens> for ScanLens {
    fn from(given: spotwise_scan_lens) -> Self {
        Self {
            focal_length: given.focal_length_m,
            field_radius: given.field_radius_m,
            edge_tangential_z: given.edge_tangential_z_m,
            edge_sagittal_z: given.edge_sagittal_z_m,
            edge_incidence: given.edge_incidence_rad,
            edge_spot_ratio: given.edge_spot_ratio,
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_scan_lens_init(lens: *mut spotwise_scan_lens) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(lens) }
}

/// The spot at one place of a field: the result of spotwise_scan_field_at().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_scan_field_spot {
    /// Size of this struct; spotwise_scan_field_spot_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Distance from the middle of the field in metres.
    pub radius_m: f64,
    /// Angle off the axis by which the mirrors turn the light, in radians; a mirror turns by half of it.
    pub field_angle_rad: f64,
    /// Angle of incidence on the table in radians.
    pub incidence_rad: f64,
    /// Height at which the spot here is narrowest along the radius in metres, + away from the lens.
    pub tangential_focus_z_m: f64,
    /// Height at which the spot here is narrowest across the radius in metres, + away from the lens.
    pub sagittal_focus_z_m: f64,
    /// Diameter on the table ALONG the radius in metres, 1/e^2 (D4 sigma).
    pub diameter_along_radius_m: f64,
    /// Diameter on the table ACROSS the radius in metres, 1/e^2 (D4 sigma).
    pub diameter_across_radius_m: f64,
    /// Diameter along the radius over the waist diameter on the axis.
    pub growth_along_radius: f64,
    /// Diameter across the radius over the waist diameter on the axis.
    pub growth_across_radius: f64,
    /// Irradiance in the middle of the spot over that at the waist on the axis.
    pub irradiance_ratio: f64,
    /// Peak dose of a line scanned ALONG the radius over that at the waist on the axis.
    pub line_dose_ratio_along_radius: f64,
    /// Peak dose of a line scanned ACROSS the radius over that at the waist on the axis.
    pub line_dose_ratio_across_radius: f64,
    /// Grazing ratio: the tangent of the incidence times the half angle of the cone; the number behind
    /// SPOTWISE_VALIDITY_TILTED.
    pub grazing_ratio: f64,
    /// 1/e^2 half angle of the beam on the axis in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_scan_field_spot, 120 bytes,
    words: [validity],
    numbers: [
        radius_m,
        field_angle_rad,
        incidence_rad,
        tangential_focus_z_m,
        sagittal_focus_z_m,
        diameter_along_radius_m,
        diameter_across_radius_m,
        growth_along_radius,
        growth_across_radius,
        irradiance_ratio,
        line_dose_ratio_along_radius,
        line_dose_ratio_across_radius,
        grazing_ratio,
        half_angle_rad,
    ]
);

impl From<ScanFieldSpot> for spotwise_scan_field_spot {
    fn from(spot: ScanFieldSpot) -> Self {
        Self {
            validity: spot.validity.bits(),
            radius_m: spot.radius,
            field_angle_rad: spot.field_angle,
            incidence_rad: spot.incidence,
            tangential_focus_z_m: spot.tangential_focus_z,
            sagittal_focus_z_m: spot.sagittal_focus_z,
            diameter_along_radius_m: spot.diameter_along_radius,
            diameter_across_radius_m: spot.diameter_across_radius,
            growth_along_radius: spot.growth_along_radius,
            growth_across_radius: spot.growth_across_radius,
            irradiance_ratio: spot.irradiance_ratio,
            line_dose_ratio_along_radius: spot.line_dose_ratio_along_radius,
            line_dose_ratio_across_radius: spot.line_dose_ratio_across_radius,
            grazing_ratio: spot.grazing_ratio,
            half_angle_rad: spot.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_scan_field_spot_init(spot: *mut spotwise_scan_field_spot) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(spot) }
}

/// How far a field reaches: the result of spotwise_scan_field_extent().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_scan_field_extent_result {
    /// Size of this struct; spotwise_scan_field_extent_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// 1 if the radius is that of the whole field, else 0.
    pub whole_field: u32,
    /// Always 0.
    pub reserved: u32,
    /// Largest radius in metres within which no spot grows by more than asked.
    pub radius_m: f64,
    /// Side in metres of the largest square in that circle.
    pub square_side_m: f64,
    /// Grazing ratio at that radius: the number behind SPOTWISE_VALIDITY_TILTED.
    pub grazing_ratio: f64,
    /// 1/e^2 half angle of the beam on the axis in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_scan_field_extent_result, 48 bytes,
    words: [validity, whole_field, reserved],
    numbers: [radius_m, square_side_m, grazing_ratio, half_angle_rad]
);

impl From<ScanFieldExtent> for spotwise_scan_field_extent_result {
    fn from(extent: ScanFieldExtent) -> Self {
        Self {
            validity: extent.validity.bits(),
            whole_field: u32::from(extent.whole_field),
            radius_m: extent.radius,
            square_side_m: extent.square_side,
            grazing_ratio: extent.grazing_ratio,
            half_angle_rad: extent.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_scan_field_extent_result_init(
    extent: *mut spotwise_scan_field_extent_result,
) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(extent) }
}

/// Where to put the table for a field: the result of spotwise_scan_field_focus().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_scan_field_focus_result {
    /// Size of this struct; spotwise_scan_field_focus_result_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Best height of the table in metres, from the focus on the axis, + away from the lens: that at which the
    /// largest spot is smallest.
    pub best_z_m: f64,
    /// The greatest distance in metres of any focus of the field from there.
    pub greatest_defocus_m: f64,
    /// Growth in the middle of the field.
    pub centre_growth: f64,
    /// Growth at the edge of the field ALONG the radius.
    pub edge_growth_along_radius: f64,
    /// Growth at the edge of the field ACROSS the radius.
    pub edge_growth_across_radius: f64,
    /// Grazing ratio at the edge of the field: the number behind SPOTWISE_VALIDITY_TILTED.
    pub grazing_ratio: f64,
    /// 1/e^2 half angle of the beam on the axis in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
}
plain!(
    spotwise_scan_field_focus_result, 64 bytes,
    words: [validity],
    numbers: [
        best_z_m,
        greatest_defocus_m,
        centre_growth,
        edge_growth_along_radius,
        edge_growth_across_radius,
        grazing_ratio,
        half_angle_rad,
    ]
);

impl From<ScanFieldFocus> for spotwise_scan_field_focus_result {
    fn from(focus: ScanFieldFocus) -> Self {
        Self {
            validity: focus.validity.bits(),
            best_z_m: focus.best_z,
            greatest_defocus_m: focus.greatest_defocus,
            centre_growth: focus.centre_growth,
            edge_growth_along_radius: focus.edge_growth_along_radius,
            edge_growth_across_radius: focus.edge_growth_across_radius,
            grazing_ratio: focus.grazing_ratio,
            half_angle_rad: focus.half_angle,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_scan_field_focus_result_init(focus: *mut spotwise_scan_field_focus_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(focus) }
}

/// The spot at a place of the field of a scan head, on a flat table.
///
/// Field angle by r = f theta; both focal surfaces and the ratio of spots go with the square of the
/// radius, the angle of incidence with the radius; on the table the spot is longer along the radius by
/// 1/cos of that angle. Not modelled: curvature of higher order, coma, distortion, light that is cut
/// off, and the distance between the two mirrors. C does not notice if two of the three
/// lengths are swapped.
///
/// @param[in]  beam       beam at its focus on the axis; set with spotwise_beam_init(); not NULL.
/// @param[in]  lens       lens; set with spotwise_scan_lens_init(); not NULL.
/// @param[in]  field_x_m  place from the middle of the field in metres; range: SPOTWISE_PARAM_FIELD_X.
/// @param[in]  field_y_m  place from the middle of the field in metres; range: SPOTWISE_PARAM_FIELD_Y.
/// @param[in]  z_offset_m table, from the focus on the axis in metres, + away from the lens; range:
///                        SPOTWISE_PARAM_Z_OFFSET.
/// @param[out] spot       result; set with spotwise_scan_field_spot_init(); not NULL. On any status
///                        other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error      what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad; a field angle
///         above 1.2 rad at the edge; a place outside the field, as SPOTWISE_PARAM_RADIUS).
///
/// Accuracy: at most 4 ulp (units in the last place) of the exact result.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: a beam of 1.064 um, M^2 = 1.3 and 60 um, 35 mm into a field of 70 mm whose tangential focus
///          at the edge is 1 mm high and whose incidence there is 0.25 rad: 1.01549 times as long.
/// Source: W. J. Smith, Modern Optical Engineering, from memory; the rest derived by the authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_scan_field_at(
    beam: *const spotwise_beam,
    lens: *const spotwise_scan_lens,
    field_x_m: f64,
    field_y_m: f64,
    z_offset_m: f64,
    spot: *mut spotwise_scan_field_spot,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(spot, error, || {
            Ok(scan_field_at(&input(beam)?.into(), &input(lens)?.into(), field_x_m, field_y_m, z_offset_m)?
                .into())
        })
    }
}

/// How far from the middle of its field a scan head keeps the spot within a growth, on a flat table.
///
/// From the middle outward up to the first place where either diameter is growth_ratio times the waist
/// on the axis. The search goes by bounds that hold for whole rings, so that it steps over no place.
/// Where growth hardly changes along the radius, |d ln(g^2 - 1)/d ln r| below about 0.01, the answer may
/// be smaller than it could be, never larger.
///
/// @param[in]  beam         beam at its focus on the axis; set with spotwise_beam_init(); not NULL.
/// @param[in]  lens         lens; set with spotwise_scan_lens_init(); not NULL.
/// @param[in]  z_offset_m   table, from the focus on the axis in metres, + away from the lens; range:
///                          SPOTWISE_PARAM_Z_OFFSET.
/// @param[in]  growth_ratio spot diameter over waist diameter on the axis, at most; range:
///                          SPOTWISE_PARAM_GROWTH_RATIO.
/// @param[out] extent       result; set with spotwise_scan_field_extent_result_init(); not NULL. On any
///                          status other than SPOTWISE_OK its numbers are set to a quiet NaN, its flags
///                          to 0.
/// @param[out] error        what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad; a field angle
///         above 1.2 rad at the edge), SPOTWISE_E_UNREACHABLE (the spot in the middle is larger already).
///
/// Accuracy: radius and side at most 8 ulp (units in the last place) times 1 + 1/|d ln(g^2 - 1)/d ln r|,
///           g being the growth and r the radius.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: as spotwise_scan_field_at(); the search by the authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_scan_field_extent(
    beam: *const spotwise_beam,
    lens: *const spotwise_scan_lens,
    z_offset_m: f64,
    growth_ratio: f64,
    extent: *mut spotwise_scan_field_extent_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(extent, error, || {
            let (beam, lens) = (input(beam)?.into(), input(lens)?.into());
            Ok(scan_field_extent(&beam, &lens, z_offset_m, growth_ratio)?.into())
        })
    }
}

/// The best height of a flat table for the field of a scan head, or the part of it within a radius.
///
/// No other height makes the largest spot smaller. Under a telecentric lens with an edge_spot_ratio of 1 it is
/// halfway between the highest and the lowest focus, so that the greatest defocus is least. The largest of the
/// three growths that are told is then that of the whole field.
///
/// @param[in]  beam     beam at its focus on the axis; set with spotwise_beam_init(); not NULL.
/// @param[in]  lens     lens; set with spotwise_scan_lens_init(); not NULL.
/// @param[in]  radius_m radius of the part that is used in metres, at most field_radius_m; range:
///                      SPOTWISE_PARAM_RADIUS.
/// @param[out] focus    result; set with spotwise_scan_field_focus_result_init(); not NULL. On any status
///                      other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error    what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad; a field angle
///         above 1.2 rad at the edge).
///
/// Accuracy: halfway, height and defocus are within 0.75 ulp (units in the last place) of the exact result, the rest
///           within 4 ulp; else all within 4 ulp and what 8 ulp of the square of the growth, less one, make of
///           the height.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: as spotwise_scan_field_at().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_scan_field_focus(
    beam: *const spotwise_beam,
    lens: *const spotwise_scan_lens,
    radius_m: f64,
    focus: *mut spotwise_scan_field_focus_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(focus, error, || {
            Ok(scan_field_focus(&input(beam)?.into(), &input(lens)?.into(), radius_m)?.into())
        })
    }
}
