//! Statuses, choices, flags and parameters as numbers. The header shows them as `#define`s; each
//! is tied to the core's own code by an assertion.

use spotwise::model::check::{Outcome, Reasons};
use spotwise::model::optics::WidthDefinition;
use spotwise::{Param, Validity};

/// Result of a call: SPOTWISE_OK or one of SPOTWISE_E_*. The values are permanent.
pub type spotwise_status = u32;

/// Version of this ABI; spotwise_abi_version() tells that of the library.
pub const SPOTWISE_ABI_VERSION: u32 = 1;

/// The outputs are valid.
pub const SPOTWISE_OK: u32 = 0;
/// A value is NaN or infinite.
pub const SPOTWISE_E_NOT_FINITE: u32 = 1;
/// A value is finite but outside the range of spotwise_parameter_range().
pub const SPOTWISE_E_OUT_OF_RANGE: u32 = 2;
/// A whole number that stands for a choice is none of those listed.
pub const SPOTWISE_E_UNKNOWN_CHOICE: u32 = 3;
/// Each value is allowed by itself, yet together they leave the domain of the model.
pub const SPOTWISE_E_OUTSIDE_MODEL: u32 = 4;
/// The beam never reaches what was asked for.
pub const SPOTWISE_E_UNREACHABLE: u32 = 5;
/// An array has a length that it cannot have.
pub const SPOTWISE_E_LENGTH_MISMATCH: u32 = 6;
/// A pointer that must not be NULL is NULL.
pub const SPOTWISE_E_NULL: u32 = 100;
/// A struct_size is not that of this ABI: the struct was not set with its init function, or
/// program and library are of different ABI versions.
pub const SPOTWISE_E_STRUCT_SIZE: u32 = 101;
/// The arrays of inputs and outputs overlap.
pub const SPOTWISE_E_OVERLAP: u32 = 102;

/// Width definition: where the irradiance has fallen to 1/e^2 (13.5 %) of its peak.
pub const SPOTWISE_WIDTH_INVERSE_E_SQUARED: u32 = 1;
/// Width definition: four standard deviations of the irradiance, the width of ISO 11146.
pub const SPOTWISE_WIDTH_D4_SIGMA: u32 = 2;
/// Width definition: full width at half maximum.
pub const SPOTWISE_WIDTH_FWHM: u32 = 3;
/// Width definition: the diameter that holds 1 - e^-2 = 86.4665 % of the power.
pub const SPOTWISE_WIDTH_POWER_86: u32 = 4;

/// Depth of focus: the diameter is at most growth_ratio waist diameters.
pub const SPOTWISE_CRITERION_GROWTH: u32 = 1;
/// Depth of focus: the diameter is at most sqrt(2) waist diameters, one Rayleigh range each way.
pub const SPOTWISE_CRITERION_RAYLEIGH: u32 = 2;
/// Depth of focus: the irradiance on the axis falls by at most the share drop.
pub const SPOTWISE_CRITERION_IRRADIANCE_DROP: u32 = 3;
/// Depth of focus: the diameter is at most largest_diameter_m.
pub const SPOTWISE_CRITERION_LARGEST_DIAMETER: u32 = 4;
/// Depth of focus: the peak dose of a scanned line falls by at most the share drop.
pub const SPOTWISE_CRITERION_LINE_DOSE_DROP: u32 = 5;

/// Raw beam known by its diameter at the lens, where its wavefront is flat.
pub const SPOTWISE_RAW_BEAM_COLLIMATED: u32 = 1;
/// Raw beam known by its waist and the distance from there to the lens.
pub const SPOTWISE_RAW_BEAM_WAIST: u32 = 2;

/// Focus known by the place of the waist relative to the datum of the surface.
pub const SPOTWISE_FOCUS_FROM_DATUM: u32 = 1;
/// Focus known by the distance from the lens to the datum of the surface.
pub const SPOTWISE_FOCUS_LENS_HEIGHT: u32 = 2;

/// Stroke and gap hold everywhere, and the surface stays within the depth of focus.
pub const SPOTWISE_OUTCOME_HOLDS: u32 = 1;
/// Stroke and gap hold everywhere, but the surface leaves the depth of focus.
pub const SPOTWISE_OUTCOME_HOLDS_OUT_OF_FOCUS: u32 = 2;
/// Stroke or gap is lost somewhere.
pub const SPOTWISE_OUTCOME_LOST: u32 = 3;

/// The finest stroke is lost even in the waist: no focus height can save it.
pub const SPOTWISE_REASON_STROKE_TOO_FINE: u32 = 1;
/// The finest gap fills even in the waist: no focus height can save it.
pub const SPOTWISE_REASON_GAP_TOO_FINE: u32 = 2;
/// The finest stroke is lost at the highest place.
pub const SPOTWISE_REASON_STROKE_LOST_HIGH: u32 = 4;
/// The finest stroke is lost at the lowest place.
pub const SPOTWISE_REASON_STROKE_LOST_LOW: u32 = 8;
/// The finest gap fills at the highest place.
pub const SPOTWISE_REASON_GAP_FILLED_HIGH: u32 = 16;
/// The finest gap fills at the lowest place.
pub const SPOTWISE_REASON_GAP_FILLED_LOW: u32 = 32;
/// The highest place is outside the depth of focus.
pub const SPOTWISE_REASON_HIGH_OUT_OF_FOCUS: u32 = 64;
/// The lowest place is outside the depth of focus.
pub const SPOTWISE_REASON_LOW_OUT_OF_FOCUS: u32 = 128;
/// The waist is larger than the largest diameter allowed, so there is no depth of focus.
pub const SPOTWISE_REASON_NO_DEPTH: u32 = 256;
/// Focus at mid-height of the surface would make the detail hold everywhere, and the lens has room
/// above it.
pub const SPOTWISE_REASON_REFOCUS_HELPS: u32 = 512;
/// Focus at mid-height of the surface would bring all of it into focus, and the lens has room above
/// it.
pub const SPOTWISE_REASON_REFOCUS_SHARPENS: u32 = 1024;

/// No caution applies to the result.
pub const SPOTWISE_VALIDITY_FINE: u32 = 0;
/// The half angle of the cone exceeds 0.15 rad: the paraxial formulas differ by 1.1 % there, and
/// by 4.7 % at 0.3 rad, above which a beam is refused.
pub const SPOTWISE_VALIDITY_WIDE_CONE: u32 = 1;
/// A second, separate range of heights also meets the criterion (astigmatic beams only); the
/// range returned is the one that holds the greatest irradiance.
pub const SPOTWISE_VALIDITY_SECOND_RANGE: u32 = 2;

const _: () = {
    assert!(SPOTWISE_WIDTH_INVERSE_E_SQUARED == WidthDefinition::InverseESquared as u32);
    assert!(SPOTWISE_WIDTH_D4_SIGMA == WidthDefinition::D4Sigma as u32);
    assert!(SPOTWISE_WIDTH_FWHM == WidthDefinition::Fwhm as u32);
    assert!(SPOTWISE_WIDTH_POWER_86 == WidthDefinition::Power86 as u32);
    assert!(WidthDefinition::ALL.len() == 4);

    use spotwise::model::focus::DepthCriterion;
    assert!(SPOTWISE_CRITERION_GROWTH == DepthCriterion::Growth { ratio: 0.0 }.code());
    assert!(SPOTWISE_CRITERION_RAYLEIGH == DepthCriterion::Rayleigh.code());
    assert!(SPOTWISE_CRITERION_IRRADIANCE_DROP == DepthCriterion::IrradianceDrop { drop: 0.0 }.code());
    assert!(SPOTWISE_CRITERION_LARGEST_DIAMETER == DepthCriterion::LargestDiameter { diameter: 0.0 }.code());
    assert!(SPOTWISE_CRITERION_LINE_DOSE_DROP == DepthCriterion::LineDoseDrop { drop: 0.0 }.code());
    assert!(SPOTWISE_CRITERION_LINE_DOSE_DROP as f64 == Param::DepthCriterion.range().1);

    use spotwise::model::check::{FocusSetting, RawBeam};
    assert!(SPOTWISE_RAW_BEAM_COLLIMATED == RawBeam::Collimated { diameter_at_lens: 0.0 }.code());
    assert!(SPOTWISE_RAW_BEAM_WAIST == RawBeam::Waist { waist_diameter: 0.0, waist_to_lens: 0.0 }.code());
    assert!(SPOTWISE_RAW_BEAM_WAIST as f64 == Param::RawBeam.range().1);
    assert!(SPOTWISE_FOCUS_FROM_DATUM == FocusSetting::FromDatum { focus_z: 0.0 }.code());
    assert!(SPOTWISE_FOCUS_LENS_HEIGHT == FocusSetting::LensHeight { lens_to_surface: 0.0 }.code());
    assert!(SPOTWISE_FOCUS_LENS_HEIGHT as f64 == Param::FocusSetting.range().1);

    assert!(SPOTWISE_OUTCOME_HOLDS == Outcome::Holds as u32);
    assert!(SPOTWISE_OUTCOME_HOLDS_OUT_OF_FOCUS == Outcome::HoldsOutOfFocus as u32);
    assert!(SPOTWISE_OUTCOME_LOST == Outcome::Lost as u32);

    assert!(SPOTWISE_REASON_STROKE_TOO_FINE == Reasons::STROKE_TOO_FINE.bits());
    assert!(SPOTWISE_REASON_GAP_TOO_FINE == Reasons::GAP_TOO_FINE.bits());
    assert!(SPOTWISE_REASON_STROKE_LOST_HIGH == Reasons::STROKE_LOST_HIGH.bits());
    assert!(SPOTWISE_REASON_STROKE_LOST_LOW == Reasons::STROKE_LOST_LOW.bits());
    assert!(SPOTWISE_REASON_GAP_FILLED_HIGH == Reasons::GAP_FILLED_HIGH.bits());
    assert!(SPOTWISE_REASON_GAP_FILLED_LOW == Reasons::GAP_FILLED_LOW.bits());
    assert!(SPOTWISE_REASON_HIGH_OUT_OF_FOCUS == Reasons::HIGH_OUT_OF_FOCUS.bits());
    assert!(SPOTWISE_REASON_LOW_OUT_OF_FOCUS == Reasons::LOW_OUT_OF_FOCUS.bits());
    assert!(SPOTWISE_REASON_NO_DEPTH == Reasons::NO_DEPTH.bits());
    assert!(SPOTWISE_REASON_REFOCUS_HELPS == Reasons::REFOCUS_HELPS.bits());
    assert!(SPOTWISE_REASON_REFOCUS_SHARPENS == Reasons::REFOCUS_SHARPENS.bits());
    assert!(Reasons::ALL.len() == 11);

    assert!(SPOTWISE_VALIDITY_FINE == Validity::FINE.bits());
    assert!(SPOTWISE_VALIDITY_WIDE_CONE == Validity::WIDE_CONE.bits());
    assert!(SPOTWISE_VALIDITY_SECOND_RANGE == Validity::SECOND_RANGE.bits());

    use spotwise::Error;
    let param = Param::Z;
    assert!(SPOTWISE_E_NOT_FINITE == Error::NotFinite { param, value: 0.0 }.code());
    assert!(
        SPOTWISE_E_OUT_OF_RANGE == Error::OutOfRange { param, value: 0.0, least: 0.0, greatest: 0.0 }.code()
    );
    assert!(SPOTWISE_E_UNKNOWN_CHOICE == Error::UnknownChoice { param, value: 0 }.code());
    assert!(
        SPOTWISE_E_OUTSIDE_MODEL
            == Error::OutsideModel { param, value: 0.0, least: 0.0, greatest: 0.0 }.code()
    );
    assert!(
        SPOTWISE_E_UNREACHABLE == Error::Unreachable { param, value: 0.0, least: 0.0, greatest: 0.0 }.code()
    );
    assert!(SPOTWISE_E_LENGTH_MISMATCH == Error::LengthMismatch { param, value: 0, expected: 0 }.code());
};
