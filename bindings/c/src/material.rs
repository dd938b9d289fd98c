//! How a material answers to dose.

use crate::abi::{Plain, init, input, plain, report};
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::Error;
use spotwise::model::mark::{Material, MaterialMark, Response, material_mark};

/// A material, as your own test marks show it. There is no table of materials, and there will be
/// none. Numbers that the response does not name are not read.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_material {
    /// Size of this struct; spotwise_material_init() sets it.
    pub struct_size: u32,
    /// How it answers above the threshold: one of SPOTWISE_RESPONSE_*.
    pub response: u32,
    /// Dose at which a single exposure just marks in J/m^2; range: SPOTWISE_PARAM_THRESHOLD.
    pub threshold_j_per_m2: f64,
    /// Incubation S, by which the threshold of N exposures falls as N^(S - 1); 1 for none; range:
    /// SPOTWISE_PARAM_INCUBATION.
    pub incubation: f64,
    /// Depth at which the dose has fallen by e, in metres; for
    /// SPOTWISE_RESPONSE_LOGARITHMIC_ABLATION; range: SPOTWISE_PARAM_PENETRATION_DEPTH.
    pub penetration_depth_m: f64,
    /// Energy that removes one volume in J/m^3; for SPOTWISE_RESPONSE_LINEAR_ABLATION; range:
    /// SPOTWISE_PARAM_REMOVAL_ENERGY.
    pub removal_energy_j_per_m3: f64,
    /// Thermal diffusivity in m^2/s; for SPOTWISE_RESPONSE_MELT; range: SPOTWISE_PARAM_DIFFUSIVITY.
    pub diffusivity_m2_per_s: f64,
}
plain!(
    spotwise_material, 48 bytes,
    words: [response],
    numbers: [
        threshold_j_per_m2,
        incubation,
        penetration_depth_m,
        removal_energy_j_per_m3,
        diffusivity_m2_per_s,
    ]
);

impl TryFrom<spotwise_material> for Material {
    type Error = Error;

    fn try_from(material: spotwise_material) -> Result<Self, Error> {
        let response = Response::from_code(
            material.response,
            material.penetration_depth_m,
            material.removal_energy_j_per_m3,
            material.diffusivity_m2_per_s,
        )?;
        Ok(Self { threshold: material.threshold_j_per_m2, incubation: material.incubation, response })
    }
}

/// Sets struct_size, the response to 0, which is none, and every number to a quiet NaN. NULL does
/// nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_material_init(material: *mut spotwise_material) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(material) }
}

/// What a dose does to a material: the result of spotwise_material_mark().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_material_mark_result {
    /// Size of this struct; spotwise_material_mark_result_init() sets it.
    pub struct_size: u32,
    /// 1 if it marks at all; else 0.
    pub marks: u32,
    /// Threshold after so many exposures in J/m^2.
    pub threshold_j_per_m2: f64,
    /// Dose over that threshold.
    pub dose_ratio: f64,
    /// Depth that one exposure adds in metres, 0 below the threshold; NaN for a coating or a melt, which
    /// tell none.
    pub depth_m: f64,
    /// Spot diameter as the material sees it in metres, 1/e^2, widened by heat in a melt.
    pub seen_diameter_m: f64,
}
plain!(
    spotwise_material_mark_result, 40 bytes,
    words: [marks],
    numbers: [threshold_j_per_m2, dose_ratio, depth_m, seen_diameter_m]
);

impl From<MaterialMark> for spotwise_material_mark_result {
    fn from(result: MaterialMark) -> Self {
        Self {
            marks: u32::from(result.marks),
            threshold_j_per_m2: result.threshold,
            dose_ratio: result.dose_ratio,
            depth_m: result.depth,
            seen_diameter_m: result.seen_diameter,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_material_mark_result_init(mark: *mut spotwise_material_mark_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(mark) }
}

/// What a dose does to a material, and the spot as the material sees it.
///
/// The threshold of N exposures is that of one times N^(S - 1). A coating is gone above it, and no
/// more dose changes that; a bulk is ablated to the depth l ln(q), or (H - threshold)/h; a melt
/// sees the spot widened by heat, sqrt(d^2 + 32 k t). Coatings in which the doses of neighbouring
/// lines add up only in part, plumes and recoil are not modelled.
///
/// @param[in]  material        material to read; set with spotwise_material_init(); not NULL.
/// @param[in]  dose_j_per_m2   dose H of each exposure of one place in J/m^2, such as the fluence of one
///                             pulse or the dose of one pass; range: SPOTWISE_PARAM_DOSE.
/// @param[in]  exposures       how many exposures N, at least 1; range: SPOTWISE_PARAM_PULSES.
/// @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
///                             SPOTWISE_PARAM_SPOT_DIAMETER.
/// @param[in]  dwell_s         dwell t of the scan in seconds, see spotwise_scan_dose(); it and the
///                             spot matter only to a melt; range: SPOTWISE_PARAM_DWELL.
/// @param[out] mark            result; set with spotwise_material_mark_result_init(); not NULL. On
///                             any status other than SPOTWISE_OK its numbers are set to a quiet
///                             NaN, its codes and flags to 0.
/// @param[out] error           what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
///         response), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE.
///
/// Accuracy: seen diameter at most 4 ulp (units in the last place) of the exact result; threshold
///           and dose ratio at most 4 ulp times 1 + (1 - S) ln N; depth at most 4 ulp times that
///           and times 1 + q/(q - 1) with incubation, 2 without.
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Example: 4 times a threshold of 0.5 J/mm^2, at 2 nm for each e-fold: 2.7726 nm deep.
/// Source: logarithmic ablation from Beer and Lambert's law; incubation: Y. Jee, M. F. Becker, R.
///         M. Walser, J. Opt. Soc. Am. B 5, 648 (1988), an empirical law, from memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_material_mark(
    material: *const spotwise_material,
    dose_j_per_m2: f64,
    exposures: f64,
    spot_diameter_m: f64,
    dwell_s: f64,
    mark: *mut spotwise_material_mark_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(mark, error, || {
            let material = input(material)?.try_into()?;
            Ok(material_mark(&material, dose_j_per_m2, exposures, spot_diameter_m, dwell_s)?.into())
        })
    }
}
