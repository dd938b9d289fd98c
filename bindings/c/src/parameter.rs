//! The quantities that an error can name: their numbers, and their names, units and ranges.

use crate::abi::{Plain, pointer_fault};
use crate::status::{SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_OK, spotwise_status};
use crate::text::{UNKNOWN, texts};
use core::ffi::{CStr, c_char};
use spotwise::Param;

/// Vacuum wavelength. Range: 1e-8 to 1e-2 m.
pub const SPOTWISE_PARAM_WAVELENGTH: u32 = 1;
/// Beam propagation ratio M^2. Range: 1 to 1e4.
pub const SPOTWISE_PARAM_M2: u32 = 2;
/// Waist diameter, 1/e^2 (D4 sigma). Range: 1e-9 to 10 m.
pub const SPOTWISE_PARAM_WAIST_DIAMETER: u32 = 3;
/// Beam diameter anywhere, 1/e^2 (D4 sigma) unless said otherwise. Range: 1e-9 to 10 m.
pub const SPOTWISE_PARAM_BEAM_DIAMETER: u32 = 4;
/// Position on the beam axis, + along the light. Range: -1e7 to 1e7 m.
pub const SPOTWISE_PARAM_Z: u32 = 5;
/// Offset of the surface from the waist, + away from the lens. Range: -1e7 to 1e7 m.
pub const SPOTWISE_PARAM_Z_OFFSET: u32 = 6;
/// Distance from the raw beam's waist to the lens, + when the waist lies upstream.
/// Range: -1e7 to 1e7 m.
pub const SPOTWISE_PARAM_WAIST_TO_LENS: u32 = 7;
/// Focal length, either sign; a job's is positive. Range of its magnitude: 1e-5 to 1e4 m.
pub const SPOTWISE_PARAM_FOCAL_LENGTH: u32 = 8;
/// Far-field divergence, full angle. Range: 1e-12 to 0.6 rad.
pub const SPOTWISE_PARAM_DIVERGENCE_FULL_ANGLE: u32 = 9;
/// Far-field divergence, half angle. Range: 0 to 0.3 rad.
pub const SPOTWISE_PARAM_DIVERGENCE_HALF_ANGLE: u32 = 10;
/// Rayleigh range. Range: 1e-9 to 1e10 m.
pub const SPOTWISE_PARAM_RAYLEIGH_RANGE: u32 = 11;
/// Diameter of a round, centred aperture. Range: 0 to 100 m.
pub const SPOTWISE_PARAM_APERTURE_DIAMETER: u32 = 12;
/// Share of the beam's power, below 1. Range: 0 to 0.9999999999999999.
pub const SPOTWISE_PARAM_POWER_SHARE: u32 = 13;
/// Diameter over waist diameter. Range: 1 to 1e9.
pub const SPOTWISE_PARAM_GROWTH_RATIO: u32 = 14;
/// Share of the irradiance that may be lost. Range: 1e-9 to 0.999999.
pub const SPOTWISE_PARAM_IRRADIANCE_DROP: u32 = 15;
/// Share of the line dose that may be lost. Range: 1e-9 to 0.999999.
pub const SPOTWISE_PARAM_LINE_DOSE_DROP: u32 = 16;
/// Largest spot diameter that is allowed. Range: 1e-9 to 10 m.
pub const SPOTWISE_PARAM_LARGEST_DIAMETER: u32 = 17;
/// Dose over threshold dose, enough to mark. Range: 1.000001 to 1e6.
pub const SPOTWISE_PARAM_DOSE_RATIO: u32 = 18;
/// Spot diameter on the surface, 1/e^2. Range: 1e-9 to 10 m.
pub const SPOTWISE_PARAM_SPOT_DIAMETER: u32 = 19;
/// Period of a grating of bars and gaps. Range: 1e-9 to 10 m.
pub const SPOTWISE_PARAM_PITCH: u32 = 20;
/// Contrast (modulation) of a grating. Range: 1e-12 to 0.999999999999.
pub const SPOTWISE_PARAM_CONTRAST: u32 = 21;
/// How far the surface comes toward the lens from its datum. Range: 0 to 1e3 m.
pub const SPOTWISE_PARAM_SURFACE_RISE: u32 = 22;
/// How far the surface drops away from the lens from its datum. Range: 0 to 1e3 m.
pub const SPOTWISE_PARAM_SURFACE_FALL: u32 = 23;
/// Distance from the lens to the datum of the surface. Range: 1e-6 to 1e4 m.
pub const SPOTWISE_PARAM_LENS_TO_SURFACE: u32 = 24;
/// Finest stroke in the drawing. Range: 1e-9 to 10 m.
pub const SPOTWISE_PARAM_FINEST_STROKE: u32 = 25;
/// Finest gap in the drawing. Range: 1e-9 to 10 m.
pub const SPOTWISE_PARAM_FINEST_GAP: u32 = 26;
/// Definition of a beam width, as a code. Range: 1 to 4.
pub const SPOTWISE_PARAM_WIDTH_DEFINITION: u32 = 27;
/// Criterion of a depth of focus, as a code. Range: 1 to 5.
pub const SPOTWISE_PARAM_DEPTH_CRITERION: u32 = 28;
/// Way in which a raw beam is given, as a code. Range: 1 to 3.
pub const SPOTWISE_PARAM_RAW_BEAM: u32 = 29;
/// Way in which the focus height is given, as a code. Range: 1 to 2.
pub const SPOTWISE_PARAM_FOCUS_SETTING: u32 = 30;
/// M^2 in the x axis of an astigmatic beam. Range: 1 to 1e4.
pub const SPOTWISE_PARAM_M2_X: u32 = 31;
/// M^2 in the y axis of an astigmatic beam. Range: 1 to 1e4.
pub const SPOTWISE_PARAM_M2_Y: u32 = 32;
/// Waist diameter in the x axis. Range: 1e-9 to 10 m.
pub const SPOTWISE_PARAM_WAIST_DIAMETER_X: u32 = 33;
/// Waist diameter in the y axis. Range: 1e-9 to 10 m.
pub const SPOTWISE_PARAM_WAIST_DIAMETER_Y: u32 = 34;
/// Position of the waist in the x axis, + along the light. Range: -1e7 to 1e7 m.
pub const SPOTWISE_PARAM_WAIST_Z_X: u32 = 35;
/// Position of the waist in the y axis, + along the light. Range: -1e7 to 1e7 m.
pub const SPOTWISE_PARAM_WAIST_Z_Y: u32 = 36;
/// Half angle of the cone in the x axis. Range: 0 to 0.3 rad.
pub const SPOTWISE_PARAM_DIVERGENCE_HALF_ANGLE_X: u32 = 37;
/// Half angle of the cone in the y axis. Range: 0 to 0.3 rad.
pub const SPOTWISE_PARAM_DIVERGENCE_HALF_ANGLE_Y: u32 = 38;
/// Where focus is set relative to the datum of the surface, + away from the lens.
/// Range: -1e3 to 1e3 m.
pub const SPOTWISE_PARAM_FOCUS_Z: u32 = 39;
/// The caller's array of results. No fixed range.
pub const SPOTWISE_PARAM_OUTPUT: u32 = 40;
/// Diameter of the raw beam where it meets the lens. Range: 1e-9 to 10 m.
pub const SPOTWISE_PARAM_DIAMETER_AT_LENS: u32 = 41;
/// Text of a quantity with its unit. No fixed range.
pub const SPOTWISE_PARAM_TEXT: u32 = 42;
/// Distance from the lens to the waist that it makes; a job needs a waist behind the lens.
/// Range: 1e-9 to 1e9 m.
pub const SPOTWISE_PARAM_LENS_TO_WAIST: u32 = 43;
/// Distance from the lens to the place of the surface nearest to it. Range: 1e-9 to 1e9 m.
pub const SPOTWISE_PARAM_LENS_TO_HIGHEST: u32 = 44;
/// Material of a lens, as a code. Range: 1 to 8.
pub const SPOTWISE_PARAM_GLASS: u32 = 45;
/// Refractive index of a lens, window or part. Range: 1.01 to 6.
pub const SPOTWISE_PARAM_REFRACTIVE_INDEX: u32 = 46;
/// Wavelength for which a focal length is stated; that of the glass is narrower.
/// Range: 1e-8 to 1e-2 m.
pub const SPOTWISE_PARAM_DESIGN_WAVELENGTH: u32 = 47;
/// Radius of the lens surface that the light meets first, + where its centre lies behind it;
/// infinite for a flat. Range of its magnitude: 1e-5 to 1e6 m.
pub const SPOTWISE_PARAM_FIRST_RADIUS: u32 = 48;
/// Radius of the second lens surface, with the same sign rule.
/// Range of its magnitude: 1e-5 to 1e6 m.
pub const SPOTWISE_PARAM_SECOND_RADIUS: u32 = 49;
/// Shape of a singlet, as a code. Range: 1 to 4.
pub const SPOTWISE_PARAM_LENS_SHAPE: u32 = 50;
/// Shape factor of a singlet. Range: -100 to 100.
pub const SPOTWISE_PARAM_SHAPE_FACTOR: u32 = 51;
/// Quartic wavefront aberration at the 1/e^2 radius, + where the edge focuses nearer the lens.
/// Range: -1e4 to 1e4 rad.
pub const SPOTWISE_PARAM_ABERRATION_PHASE: u32 = 52;
/// Magnitude of the aberration phase over M^2. Range: 0 to 1.7.
pub const SPOTWISE_PARAM_NORMALISED_ABERRATION: u32 = 53;
/// Diameter of the clear, round, centred aperture of a lens or mirror; infinite for none.
/// Range: 1e-9 to 100 m.
pub const SPOTWISE_PARAM_CLEAR_APERTURE: u32 = 54;
/// Clear aperture over 1/e^2 beam diameter. Range: 0.2 and above.
pub const SPOTWISE_PARAM_CLIPPING_RATIO: u32 = 55;
/// Which spot is to be smallest, as a code. Range: 1 to 3.
pub const SPOTWISE_PARAM_SPOT_MEASURE: u32 = 56;
/// Thickness of a plate or window. Range: 0 to 10 m.
pub const SPOTWISE_PARAM_THICKNESS: u32 = 57;
/// How far the lens is lowered from focus on the face of a transparent part. Range: 0 to 10 m.
pub const SPOTWISE_PARAM_LENS_LOWERED_BY: u32 = 58;
/// Kind of an element of a beam path, as a code. Range: 1 to 5.
pub const SPOTWISE_PARAM_PATH_ELEMENT: u32 = 59;
/// Length of empty space in a beam path. Range: 0 to 1e7 m.
pub const SPOTWISE_PARAM_SPACE_LENGTH: u32 = 60;
/// Magnification of a beam expander, beam diameter behind it over that before it.
/// Range: 0.01 to 100.
pub const SPOTWISE_PARAM_MAGNIFICATION: u32 = 61;
/// Power by which an expander converges the light beyond collimation. Range: -1e3 to 1e3 1/m.
pub const SPOTWISE_PARAM_EXIT_POWER: u32 = 62;
/// Distance along a beam path from its start. Range: 0 to 1e7 m.
pub const SPOTWISE_PARAM_PATH_DISTANCE: u32 = 63;
/// Shortest distance from the waist or the expander to the lens as a gantry moves.
/// Range: -1e7 to 1e7 m.
pub const SPOTWISE_PARAM_NEAREST: u32 = 64;
/// Longest distance from the waist or the expander to the lens as a gantry moves.
/// Range: -1e7 to 1e7 m.
pub const SPOTWISE_PARAM_FARTHEST: u32 = 65;
/// Distance from the beam axis. Range: 0 to 10 m.
pub const SPOTWISE_PARAM_RADIUS: u32 = 66;
/// From the lens to where the unaberrated wave would converge. Range: 1e-5 to 1e4 m.
pub const SPOTWISE_PARAM_LENS_TO_FOCUS: u32 = 67;
/// Defocus of a plane of a wave, in Rayleigh ranges of its focus with M^2 = 1. Range: -30 to 30.
pub const SPOTWISE_PARAM_NORMALISED_DEFOCUS: u32 = 68;
/// Definition of the best focus of a wave, as a code. Range: 1 to 3.
pub const SPOTWISE_PARAM_FOCUS_MEASURE: u32 = 69;
/// Kind of lens in a job, as a code. Range: 1 to 2.
pub const SPOTWISE_PARAM_LENS_KIND: u32 = 70;
/// The caller's working space. No fixed range.
pub const SPOTWISE_PARAM_WORKSPACE: u32 = 71;
/// Distance from the raw waist to the beam expander, + when the waist lies upstream.
/// Range: -1e7 to 1e7 m.
pub const SPOTWISE_PARAM_WAIST_TO_EXPANDER: u32 = 72;
/// Distance from the beam expander to the lens. Range: 0 to 1e7 m.
pub const SPOTWISE_PARAM_EXPANDER_TO_LENS: u32 = 73;
/// Radius in the plane of a wave, over the 1/e^2 radius of its focus with M^2 = 1. Range: 0 to 60.
pub const SPOTWISE_PARAM_NORMALISED_RADIUS: u32 = 74;
/// Angle between the normal of the surface and the beam axis. Range: 0 to 1.5 rad.
pub const SPOTWISE_PARAM_TILT: u32 = 75;
/// Tangent of the tilt times the half angle of the cone. Range: 0 to 0.9999999999999999.
pub const SPOTWISE_PARAM_GRAZING_RATIO: u32 = 76;
/// Power on the surface, averaged over pulses. Range: 1e-9 to 1e6 W.
pub const SPOTWISE_PARAM_POWER: u32 = 77;
/// Speed of the spot along the line. Range: 1e-9 to 1e4 m/s.
pub const SPOTWISE_PARAM_SPEED: u32 = 78;
/// Spot diameter across the scan, 1/e^2 (D4 sigma). Range: 1e-9 to 10 m.
pub const SPOTWISE_PARAM_DIAMETER_ACROSS: u32 = 79;
/// Spot diameter along the scan, 1/e^2 (D4 sigma). Range: 1e-9 to 10 m.
pub const SPOTWISE_PARAM_DIAMETER_ALONG: u32 = 80;
/// From one line of a raster fill to the next. Range: 1e-9 to 1 m.
pub const SPOTWISE_PARAM_LINE_INTERVAL: u32 = 81;
/// Lines to the inch. Range: 0.0254 to 2.54e7.
pub const SPOTWISE_PARAM_DOTS_PER_INCH: u32 = 82;
/// Pulses in a second. Range: 1e-3 to 1e12 Hz.
pub const SPOTWISE_PARAM_REPETITION_RATE: u32 = 83;
/// Energy for each area: a line dose, a fill dose or a peak fluence. Range: 1e-12 to 1e18 J/m^2.
pub const SPOTWISE_PARAM_DOSE: u32 = 84;
/// Dose at which the material just marks. Range: 1e-12 to 1e18 J/m^2.
pub const SPOTWISE_PARAM_THRESHOLD: u32 = 85;
/// What makes a mark, as a code. Range: 1 to 2.
pub const SPOTWISE_PARAM_MARK_KIND: u32 = 86;
/// Line interval over spot radius. Range: 0 to 20.
pub const SPOTWISE_PARAM_INTERVAL_OVER_RADIUS: u32 = 87;
/// Contrast of the ripple of a fill. Range: 1e-12 to 0.999999.
pub const SPOTWISE_PARAM_RIPPLE_CONTRAST: u32 = 88;
/// Width of a stroke as it is drawn. Range: 1e-9 to 10 m.
pub const SPOTWISE_PARAM_DRAWN_WIDTH: u32 = 89;
/// Width, side or diameter of a detail. Range: 1e-9 to 10 m.
pub const SPOTWISE_PARAM_DETAIL_SIZE: u32 = 90;
/// Thermal diffusivity. Range: 0 to 1e-2 m^2/s.
pub const SPOTWISE_PARAM_DIFFUSIVITY: u32 = 91;
/// Side of a pixel that is burnt as a box. Range: 0 to 1 m.
pub const SPOTWISE_PARAM_PIXEL: u32 = 92;
/// Standard deviation of the place of the spot. Range: 0 to 1 m.
pub const SPOTWISE_PARAM_JITTER_DEVIATION: u32 = 93;
/// Rise time of the power, 10 % to 90 %. Range: 0 to 1 s.
pub const SPOTWISE_PARAM_RISE_TIME: u32 = 94;
/// By how much the power lags behind the motion. Range: 0 to 1 s.
pub const SPOTWISE_PARAM_SWITCH_DELAY: u32 = 95;
/// What is wanted of a fill, as a code. Range: 1 to 3.
pub const SPOTWISE_PARAM_TASTE: u32 = 96;
/// Greatest width of an edge, 10 % to 90 % of the dose. Range: 1e-9 to 10 m.
pub const SPOTWISE_PARAM_LARGEST_EDGE: u32 = 97;
/// Weight of crispness against smoothness. Range: 1e-3 to 1.
pub const SPOTWISE_PARAM_CRISPNESS_WEIGHT: u32 = 98;
/// From one pulse to the next along the line. Range: 1e-12 to 10 m.
pub const SPOTWISE_PARAM_PULSE_PITCH: u32 = 99;
/// Exponent of incubation, 1 for none. Range: 0.5 to 1.
pub const SPOTWISE_PARAM_INCUBATION: u32 = 100;
/// Number of pulses that fall on one place. Range: 1 to 1e9.
pub const SPOTWISE_PARAM_PULSES: u32 = 101;
/// Depth at which the fluence has fallen by e. Range: 1e-12 to 1 m.
pub const SPOTWISE_PARAM_PENETRATION_DEPTH: u32 = 102;
/// How far the edge of a pulsed line dents between dots. Range: 1e-15 to 10 m.
pub const SPOTWISE_PARAM_SCALLOP: u32 = 103;
/// What a compensation is to keep, as a code. Range: 1 to 3.
pub const SPOTWISE_PARAM_COMPENSATION_RULE: u32 = 104;
/// Greatest power that the laser gives. Range: 1e-9 to 1e6 W.
pub const SPOTWISE_PARAM_GREATEST_POWER: u32 = 105;
/// Least speed that is allowed. Range: 1e-9 to 1e4 m/s.
pub const SPOTWISE_PARAM_LEAST_SPEED: u32 = 106;
/// Least irradiance over that in the waist. Range: 0 to 1e6.
pub const SPOTWISE_PARAM_LEAST_IRRADIANCE_RATIO: u32 = 107;
/// How a material answers to dose, as a code. Range: 1 to 4.
pub const SPOTWISE_PARAM_RESPONSE: u32 = 108;
/// Energy that removes one volume. Range: 1 to 1e15 J/m^3.
pub const SPOTWISE_PARAM_REMOVAL_ENERGY: u32 = 109;
/// Time for which the spot stays over one place. Range: 0 to 1e6 s.
pub const SPOTWISE_PARAM_DWELL: u32 = 110;
/// The array of widths of test marks. No fixed range.
pub const SPOTWISE_PARAM_WIDTHS: u32 = 111;
/// The array of standard deviations of test marks. No fixed range.
pub const SPOTWISE_PARAM_DEVIATIONS: u32 = 112;
/// Width or diameter of a test mark. Range: 1e-9 to 10 m.
pub const SPOTWISE_PARAM_MARK_WIDTH: u32 = 113;
/// Standard deviation of the width of a test mark. Range: 1e-12 to 10 m.
pub const SPOTWISE_PARAM_WIDTH_DEVIATION: u32 = 114;
/// Deviations beyond which a mark is left out; infinite to keep all. Range: 2 to 1e6.
pub const SPOTWISE_PARAM_OUTLIER_LIMIT: u32 = 115;
/// How many test marks there are to fit. Range: 3 and above.
pub const SPOTWISE_PARAM_MARKS_USED: u32 = 116;
/// Slope of a fit over its standard deviation. Range: 3 and above.
pub const SPOTWISE_PARAM_SIGNIFICANCE: u32 = 117;
/// Kind of typeface, as a code. Range: 1 to 6.
pub const SPOTWISE_PARAM_TYPEFACE: u32 = 118;
/// Width of an upright stem, in ems. Range: 1e-3 to 1 em.
pub const SPOTWISE_PARAM_STEM_SHARE: u32 = 119;
/// Stroke to which a typeface amounts, in ems. Range: 1e-3 to 1 em.
pub const SPOTWISE_PARAM_STROKE_SHARE: u32 = 120;
/// Gap to which the counters of a typeface amount, in ems. Range: 1e-3 to 1 em.
pub const SPOTWISE_PARAM_COUNTER_SHARE: u32 = 121;
/// Gap to which counters and letter gaps of a typeface amount, in ems. Range: 1e-3 to 1 em.
pub const SPOTWISE_PARAM_GAP_SHARE: u32 = 122;
/// Share of the fill dose on the middle of a crisp stem. Range: 0.5 to 0.999999.
pub const SPOTWISE_PARAM_CRISP_EXPOSURE: u32 = 123;
/// Least dose window of a grade of text. Range: 1 to 1e3.
pub const SPOTWISE_PARAM_DOSE_WINDOW: u32 = 124;
/// Grade of text, as a code. Range: 1 to 4.
pub const SPOTWISE_PARAM_TEXT_GRADE: u32 = 125;
/// Size of type. Range: 1e-9 to 10 m.
pub const SPOTWISE_PARAM_EM: u32 = 126;
/// How the dose of a job is known, as a code. Range: 1 to 2.
pub const SPOTWISE_PARAM_JOB_DOSE: u32 = 127;
/// Whether a job has text, as a code. Range: 1 to 2.
pub const SPOTWISE_PARAM_JOB_TEXT: u32 = 128;
/// Threshold of a fit over its standard deviation. Range: 1 and above.
pub const SPOTWISE_PARAM_CERTAINTY: u32 = 129;
/// Dose over threshold dose where it may also be too little to mark. Range: 1e-6 to 1e6.
pub const SPOTWISE_PARAM_ANY_DOSE_RATIO: u32 = 130;
/// Greatest speed that is allowed. Range: 1e-9 to 1e4 m/s.
pub const SPOTWISE_PARAM_GREATEST_SPEED: u32 = 131;
/// What a map of heights is turned into, as a code. Range: 1 to 5.
pub const SPOTWISE_PARAM_HEIGHT_QUANTITY: u32 = 132;
/// What makes the surface stray, as a code. Range: 1 to 9.
pub const SPOTWISE_PARAM_TOLERANCE_SOURCE: u32 = 133;
/// How a contribution to a tolerance stack strays, as a code. Range: 1 to 5.
pub const SPOTWISE_PARAM_DISTRIBUTION: u32 = 134;
/// Half width by which a contribution strays. Range: 0 to 1e3 m.
pub const SPOTWISE_PARAM_HALF_WIDTH: u32 = 135;
/// Half width over standard deviation. Range: 1 to 10.
pub const SPOTWISE_PARAM_COVERAGE_FACTOR: u32 = 136;
/// Mean of a contribution, + away from the lens. Range: -1e3 to 1e3 m.
pub const SPOTWISE_PARAM_MEAN_OFFSET: u32 = 137;
/// How many contributions a tolerance stack has. Range: 1 and above.
pub const SPOTWISE_PARAM_CONTRIBUTIONS: u32 = 138;
/// Share of all cases that an interval is to cover. Range: 0.01 to 0.999999999999.
pub const SPOTWISE_PARAM_COVERAGE_PROBABILITY: u32 = 139;
/// How many cases are drawn; a whole number. Range: 10 to 1e7.
pub const SPOTWISE_PARAM_DRAWS: u32 = 140;
/// From where random numbers start; a whole number, up to 2^53 - 1. Range: 0 to 9007199254740991.
pub const SPOTWISE_PARAM_SEED: u32 = 141;
/// Limit of the surface's offset toward the lens, or end of a depth of focus there, + away from the lens.
/// Range: -1e7 to 1e7 m.
pub const SPOTWISE_PARAM_TOWARD_LENS_Z: u32 = 142;
/// Limit of the surface's offset away from the lens, or end of a depth of focus there. Range: -1e7 to 1e7 m.
pub const SPOTWISE_PARAM_AWAY_FROM_LENS_Z: u32 = 143;
/// Highest place of a surface relative to the waist or to a datum, + away from the lens.
/// Range: -1e7 to 1e7 m.
pub const SPOTWISE_PARAM_HIGHEST_Z: u32 = 144;
/// Lowest place of a surface relative to the waist or to a datum, + away from the lens.
/// Range: -1e7 to 1e7 m.
pub const SPOTWISE_PARAM_LOWEST_Z: u32 = 145;
/// What may be used of a depth of focus, from end to end. Range: 1e-9 to 2e7 m.
pub const SPOTWISE_PARAM_USABLE_DEPTH: u32 = 146;
/// Share of the depth of focus that is kept for errors of set-up. Range: 0 to 0.99.
pub const SPOTWISE_PARAM_BAND_MARGIN: u32 = 147;
/// Bands of height into which a surface is divided. Range: 1 to 1e6.
pub const SPOTWISE_PARAM_HEIGHT_BANDS: u32 = 148;
/// The array of limits of bands. No fixed range.
pub const SPOTWISE_PARAM_BAND_LIMITS: u32 = 149;
/// The array of focus heights. No fixed range.
pub const SPOTWISE_PARAM_FOCUS_HEIGHTS: u32 = 150;
/// Radius of a round part. Range: 1e-6 to 1e3 m.
pub const SPOTWISE_PARAM_PART_RADIUS: u32 = 151;
/// What focus is set on: SPOTWISE_AIM_*. Range: 1 to 2.
pub const SPOTWISE_PARAM_FOCUS_AIM: u32 = 152;
/// Depth of an engraving. Range: 1e-9 to 1e3 m.
pub const SPOTWISE_PARAM_TOTAL_DEPTH: u32 = 153;
/// Depth that one pass removes. Range: 1e-9 to 1e3 m.
pub const SPOTWISE_PARAM_DEPTH_PER_PASS: u32 = 154;
/// How often an engraving is passed over. Range: 1 to 1e6.
pub const SPOTWISE_PARAM_PASSES: u32 = 155;
/// Shape of a surface, as a code. Range: 1 to 5.
pub const SPOTWISE_PARAM_SURFACE_SHAPE: u32 = 156;
/// How far a surface drops away from the lens on each length in x. Range: -2 to 2.
pub const SPOTWISE_PARAM_SLOPE_X: u32 = 157;
/// How far a surface drops away from the lens on each length in y. Range: -2 to 2.
pub const SPOTWISE_PARAM_SLOPE_Y: u32 = 158;
/// Radius of a cylinder or sphere. Range: 1e-6 to 1e9 m.
pub const SPOTWISE_PARAM_CURVATURE_RADIUS: u32 = 159;
/// Which way a cylinder or sphere bulges, as a code. Range: 1 to 2.
pub const SPOTWISE_PARAM_BULGE: u32 = 160;
/// Where the crown of a cylinder or sphere is, in x. Range: -1e3 to 1e3 m.
pub const SPOTWISE_PARAM_CROWN_X: u32 = 161;
/// Where the crown of a cylinder or sphere is, in y. Range: -1e3 to 1e3 m.
pub const SPOTWISE_PARAM_CROWN_Y: u32 = 162;
/// Angle of a cylinder's axis from the x axis, toward + y. Range: -10 to 10 rad.
pub const SPOTWISE_PARAM_AXIS_ANGLE: u32 = 163;
/// Place on a surface, in x. Range: -1e3 to 1e3 m.
pub const SPOTWISE_PARAM_PLACE_X: u32 = 164;
/// Place on a surface, in y. Range: -1e3 to 1e3 m.
pub const SPOTWISE_PARAM_PLACE_Y: u32 = 165;
/// End of a region in x. Range: -1e3 to 1e3 m.
pub const SPOTWISE_PARAM_REGION_X: u32 = 166;
/// End of a region in y. Range: -1e3 to 1e3 m.
pub const SPOTWISE_PARAM_REGION_Y: u32 = 167;
/// Extent of a region in x. Range: 1e-9 to 2e3 m.
pub const SPOTWISE_PARAM_REGION_WIDTH_X: u32 = 168;
/// Extent of a region in y. Range: 1e-9 to 2e3 m.
pub const SPOTWISE_PARAM_REGION_WIDTH_Y: u32 = 169;
/// Distance from the crown of a cylinder or sphere; it must be less than the radius. Range: 0 to 1e9 m.
pub const SPOTWISE_PARAM_DISTANCE_FROM_CROWN: u32 = 170;
/// Edge of a step, in x. Range: -1e3 to 1e3 m.
pub const SPOTWISE_PARAM_STEP_EDGE: u32 = 171;
/// From one edge of a step to the next. Range: 1e-9 to 2e3 m.
pub const SPOTWISE_PARAM_STEP_WIDTH: u32 = 172;
/// Height of a step, + away from the lens. Range: -1e3 to 1e3 m.
pub const SPOTWISE_PARAM_STEP_HEIGHT: u32 = 173;
/// The array of the edges of steps. Range: 2 and above.
pub const SPOTWISE_PARAM_STEP_EDGES: u32 = 174;
/// The array of the heights of steps. No fixed range.
pub const SPOTWISE_PARAM_STEP_HEIGHTS: u32 = 175;
/// Place of a column of probes, in x. Range: -1e3 to 1e3 m.
pub const SPOTWISE_PARAM_GRID_X: u32 = 176;
/// Place of a row of probes, in y. Range: -1e3 to 1e3 m.
pub const SPOTWISE_PARAM_GRID_Y: u32 = 177;
/// From one column or row of probes to the next. Range: 1e-9 to 2e3 m.
pub const SPOTWISE_PARAM_GRID_SPACING: u32 = 178;
/// Height that a probe found, + away from the lens. Range: -1e3 to 1e3 m.
pub const SPOTWISE_PARAM_PROBED_HEIGHT: u32 = 179;
/// The array of the places of columns of probes. Range: 2 and above.
pub const SPOTWISE_PARAM_GRID_COLUMNS: u32 = 180;
/// The array of the places of rows of probes. Range: 2 and above.
pub const SPOTWISE_PARAM_GRID_ROWS: u32 = 181;
/// The array of the heights that probes found. No fixed range.
pub const SPOTWISE_PARAM_PROBED_HEIGHTS: u32 = 182;
/// How many probes have found a height, of a grid or at the corners of one of its cells. Range: 4 and
/// above.
pub const SPOTWISE_PARAM_KNOWN_PROBES: u32 = 183;
/// How many strips, or cells with all their probes, a region meets. Range: 1 and above.
pub const SPOTWISE_PARAM_KNOWN_PARTS: u32 = 184;
/// Half width of all errors of height together. Range: 0 to 1e3 m.
pub const SPOTWISE_PARAM_SET_UP_TOLERANCE: u32 = 185;
/// Least clearance over the highest place of the surface. Range: 0 to 1e4 m.
pub const SPOTWISE_PARAM_LEAST_CLEARANCE: u32 = 186;
/// From the lowest part of the head to a flat surface in focus. Range: 0 to 1e4 m.
pub const SPOTWISE_PARAM_WORKING_DISTANCE: u32 = 187;
/// How many lenses there are to choose from. Range: 1 to 8.
pub const SPOTWISE_PARAM_LENS_CANDIDATES: u32 = 188;
/// Cells that are laid over a curved surface, in x and in y each. Range: 1 to 1000.
pub const SPOTWISE_PARAM_CELLS_PER_SIDE: u32 = 189;
/// Radius of the field of a scan head. Range: 1e-6 to 10 m.
pub const SPOTWISE_PARAM_FIELD_RADIUS: u32 = 190;
/// Height of the tangential focus at the edge of a field, + away from the lens. Range: -10 to 10 m.
pub const SPOTWISE_PARAM_EDGE_TANGENTIAL_Z: u32 = 191;
/// Height of the sagittal focus at the edge of a field, + away from the lens. Range: -10 to 10 m.
pub const SPOTWISE_PARAM_EDGE_SAGITTAL_Z: u32 = 192;
/// Angle of incidence on the table at the edge of a field. Range: 0 to 1 rad.
pub const SPOTWISE_PARAM_EDGE_INCIDENCE: u32 = 193;
/// Spot at the edge of a field over that in its middle, both in focus. Range: 1 to 10.
pub const SPOTWISE_PARAM_EDGE_SPOT_RATIO: u32 = 194;
/// Place in a field, from its middle, in x. Range: -10 to 10 m.
pub const SPOTWISE_PARAM_FIELD_X: u32 = 195;
/// Place in a field, from its middle, in y. Range: -10 to 10 m.
pub const SPOTWISE_PARAM_FIELD_Y: u32 = 196;
/// Angle by which the mirrors of a scan head turn the light off the axis. Range: 0 to 1.2 rad.
pub const SPOTWISE_PARAM_FIELD_ANGLE: u32 = 197;
/// Width of a drawing in pixels. Range: 1 to 65535.
pub const SPOTWISE_PARAM_DRAWING_WIDTH: u32 = 198;
/// Height of a drawing in pixels. Range: 1 to 65535.
pub const SPOTWISE_PARAM_DRAWING_HEIGHT: u32 = 199;
/// Pixels of a drawing altogether. Range: 1 to 268435456.
pub const SPOTWISE_PARAM_DRAWING_PIXELS: u32 = 200;
/// From the start of one row of samples to that of the next, in samples; at least the width.
/// Range: 1 to 4294967295.
pub const SPOTWISE_PARAM_ROW_STRIDE: u32 = 201;
/// The array of samples of a drawing. Range: 1 and above.
pub const SPOTWISE_PARAM_DRAWING_SAMPLES: u32 = 202;
/// What a sample says, as a code. Range: 1 to 2.
pub const SPOTWISE_PARAM_SAMPLE_KIND: u32 = 203;
/// What a drawing is: to be sampled, or the raster that is burnt; as a code. Range: 1 to 2.
pub const SPOTWISE_PARAM_DRAWING_USE: u32 = 204;
/// From one pixel of a drawing to the next in x. Range: 1e-9 to 1 m.
pub const SPOTWISE_PARAM_PITCH_X: u32 = 205;
/// From one pixel of a drawing to the next in y. Range: 1e-9 to 1 m.
pub const SPOTWISE_PARAM_PITCH_Y: u32 = 206;
/// Where a drawing lies on the surface, in x. Range: -1e3 to 1e3 m.
pub const SPOTWISE_PARAM_DRAWING_X: u32 = 207;
/// Where a drawing lies on the surface, in y. Range: -1e3 to 1e3 m.
pub const SPOTWISE_PARAM_DRAWING_Y: u32 = 208;
/// What is known of the scan, as a code. Range: 1 to 2.
pub const SPOTWISE_PARAM_SCAN_KIND: u32 = 209;
/// From the drawing's upper edge to the first scan line. Range: 0 to 10 m.
pub const SPOTWISE_PARAM_FIRST_LINE: u32 = 210;
/// Blur on top of the spot, across the scan. Range: 0 to 10 m.
pub const SPOTWISE_PARAM_BLUR_ACROSS: u32 = 211;
/// Blur on top of the spot, along the scan. Range: 0 to 10 m.
pub const SPOTWISE_PARAM_BLUR_ALONG: u32 = 212;
/// How far an edge may stray before it counts as lost or filled. Range: 0 to 1 m.
pub const SPOTWISE_PARAM_EDGE_TOLERANCE: u32 = 213;
/// Width of the gaps that a melt closes. Range: 0 to 1 m.
pub const SPOTWISE_PARAM_MELT_BRIDGE: u32 = 214;
/// Radius of the spot in pixels of the drawing. Range: 0.1 to 1e4.
pub const SPOTWISE_PARAM_PIXELS_PER_RADIUS: u32 = 215;
/// Runs of ink or ground in the rows of a drawing: how intricate it is. Range: 0 and above.
pub const SPOTWISE_PARAM_PIXEL_RUNS: u32 = 216;
/// The caller's room for findings. Range: 0 and above.
pub const SPOTWISE_PARAM_FINDINGS: u32 = 217;
/// How much of the work was done when it was told to stop. Range: 0 to 1.
pub const SPOTWISE_PARAM_PROGRESS: u32 = 218;
/// Pixels with ink. Range: 1 to 268435456.
pub const SPOTWISE_PARAM_INK_PIXELS: u32 = 219;
/// Depth that doubling the dose adds to what just marks. Range: 1e-12 to 1 m.
pub const SPOTWISE_PARAM_THRESHOLD_DEPTH: u32 = 220;
/// Depth from which on a place counts as marked. Range: 0 to 10 m.
pub const SPOTWISE_PARAM_VISIBLE_DEPTH: u32 = 221;
/// How well a drawing comes out, as a code. Range: 1 to 4.
pub const SPOTWISE_PARAM_MARK_GRADE: u32 = 222;
/// What must hold of a drawing, as a code. Range: 1 to 2.
pub const SPOTWISE_PARAM_DEMAND: u32 = 223;
/// Area below which a piece or a hole of a drawing is a speck. Range: 0 to 1e-4 m^2.
pub const SPOTWISE_PARAM_SPECK_AREA: u32 = 224;
/// Share of cases in which a range is to hold the truth. Range: 0.5 to 0.999999999999.
pub const SPOTWISE_PARAM_CONFIDENCE: u32 = 225;
/// Readings used less parameters fitted; a whole number. Range: 1 to 1e5.
pub const SPOTWISE_PARAM_DEGREES_OF_FREEDOM: u32 = 226;
/// Sum of squared residuals over their variances. Range: 0 to 1e100.
pub const SPOTWISE_PARAM_CHI_SQUARED: u32 = 227;
/// How depth goes with dose, as a code. Range: 1 to 2.
pub const SPOTWISE_PARAM_DEPTH_LAW: u32 = 228;
/// Standard deviation of a dose ratio over itself. Range: 0 to 1.
pub const SPOTWISE_PARAM_DOSE_RATIO_DEVIATION: u32 = 229;
/// Depth, or darkness, of a mark in any unit. Range: 1e-12 to 1e12.
pub const SPOTWISE_PARAM_MARK_DEPTH: u32 = 230;
/// Standard deviation of a depth or darkness. Range: 1e-15 to 1e12.
pub const SPOTWISE_PARAM_DEPTH_DEVIATION: u32 = 231;
/// From one height of a test to the next. Range: 1e-9 to 1e3 m.
pub const SPOTWISE_PARAM_HEIGHT_STEP: u32 = 232;
/// Power of one mark over that of another. Range: 1.01 to 100.
pub const SPOTWISE_PARAM_POWER_STEP: u32 = 233;
/// M^2 as a measurement has it, which may be below 1 by noise. Range: 0.01 to 1e4.
pub const SPOTWISE_PARAM_MEASURED_M2: u32 = 234;
/// Standard deviation of a measured M^2. Range: 0 to 1e4.
pub const SPOTWISE_PARAM_M2_DEVIATION: u32 = 235;
/// Standard deviation of a measured waist diameter. Range: 0 to 10 m.
pub const SPOTWISE_PARAM_WAIST_DIAMETER_DEVIATION: u32 = 236;
/// From the focal point of a lens to the waist, + away from the lens. Range: -1e4 to 1e4 m.
pub const SPOTWISE_PARAM_FOCUS_SHIFT: u32 = 237;
/// Standard deviation of a measured height of focus. Range: 0 to 1e3 m.
pub const SPOTWISE_PARAM_FOCUS_DEVIATION: u32 = 238;
/// Half width of a 95 % range over the standard deviation. Range: 1.9 to 13.
pub const SPOTWISE_PARAM_COVERAGE_FACTOR_95: u32 = 239;
/// Standard deviation of a measured dose ratio over itself. Range: 0 to 10.
pub const SPOTWISE_PARAM_RELATIVE_DOSE_RATIO_DEVIATION: u32 = 240;
/// Correlation of two measured numbers. Range: -1 to 1.
pub const SPOTWISE_PARAM_CORRELATION: u32 = 241;
/// How many test pieces a series has. Range: 1 to 256.
pub const SPOTWISE_PARAM_PIECES: u32 = 242;
/// Height of a test piece, + away from the lens. Range: -1000 to 1000 m.
pub const SPOTWISE_PARAM_PIECE_HEIGHT: u32 = 243;
/// The array of what an eye said of test pieces. No fixed range.
pub const SPOTWISE_PARAM_JUDGEMENTS: u32 = 244;
/// How good an eye finds a test piece, as a code. Range: 1 to 3.
pub const SPOTWISE_PARAM_PIECE_RANK: u32 = 245;
/// Relative standard deviation of what an eye says of test pieces. Range: 0 to 1.
pub const SPOTWISE_PARAM_JUDGEMENT_DEVIATION: u32 = 246;
/// Test pieces that are good enough to go by: with a mark, or ranked acceptable. Range: 1 and above.
pub const SPOTWISE_PARAM_GOOD_PIECES: u32 = 247;
/// Heights with poor or unmarked test pieces only, beyond the good ones toward the lens. Range: 1 and above.
pub const SPOTWISE_PARAM_BOUND_TOWARD_LENS: u32 = 248;
/// Heights with poor or unmarked test pieces only, beyond the good ones away from the lens. Range: 1 and above.
pub const SPOTWISE_PARAM_BOUND_AWAY_FROM_LENS: u32 = 249;
/// What a series of test pieces is engraved for, as a code. Range: 1 to 2.
pub const SPOTWISE_PARAM_SERIES_PURPOSE: u32 = 250;
/// Which way a series of test pieces is swept, as a code. Range: 1 to 2.
pub const SPOTWISE_PARAM_SWEEP_DIRECTION: u32 = 251;
/// Step from height to height of a series of test pieces. Range: 1e-9 to 1000 m.
pub const SPOTWISE_PARAM_SERIES_STEP: u32 = 252;
/// Half of the range of heights of a series of test pieces. Range: 1e-9 to 1000 m.
pub const SPOTWISE_PARAM_SERIES_HALF_RANGE: u32 = 253;
/// Smallest step of the axis that sets the height. Range: 1e-9 to 1 m.
pub const SPOTWISE_PARAM_AXIS_STEP: u32 = 254;
/// Backlash of the axis that sets the height. Range: 0 to 1 m.
pub const SPOTWISE_PARAM_AXIS_BACKLASH: u32 = 255;
/// How far the axis can move pieces from expected focus; infinite if that is no limit. Range: 0 to 1000 m.
pub const SPOTWISE_PARAM_AXIS_TRAVEL: u32 = 256;
/// Width or height of a test piece on the drawing, or of the room for its label. Range: 1e-6 to 1 m.
pub const SPOTWISE_PARAM_PIECE_SIZE: u32 = 257;
/// What is left free between test pieces and labels. Range: 0 to 1 m.
pub const SPOTWISE_PARAM_PIECE_GAP: u32 = 258;
/// Greatest width of a row of test pieces; infinite for one row. Range: 1e-6 to 1000 m.
pub const SPOTWISE_PARAM_ROW_WIDTH: u32 = 259;
/// Steps of a series on either side of expected focus. Range: 2 to 120.
pub const SPOTWISE_PARAM_STEPS_PER_SIDE: u32 = 260;
/// Steps of a series that are left on the side toward the lens. Range: 2 to 120.
pub const SPOTWISE_PARAM_STEPS_TOWARD_LENS: u32 = 261;
/// Steps of a series that are left on the side away from the lens. Range: 2 to 120.
pub const SPOTWISE_PARAM_STEPS_AWAY_FROM_LENS: u32 = 262;
/// The caller's array of planned pieces. No fixed range.
pub const SPOTWISE_PARAM_PLANNED_PIECES: u32 = 263;
/// What the stated deviations of widths are worth, as a code. Range: 1 to 2.
pub const SPOTWISE_PARAM_WIDTH_SCATTER: u32 = 264;
/// Deviation, over itself, of what is known beforehand; infinite where it is not known.
/// Range: 1e-6 to 10.
pub const SPOTWISE_PARAM_PRIOR_DEVIATION: u32 = 265;
/// Power of a test mark over the power of reference. Range: 0.001 to 1000.
pub const SPOTWISE_PARAM_POWER_RATIO: u32 = 266;
/// The array of power ratios of test marks. No fixed range.
pub const SPOTWISE_PARAM_POWER_RATIOS: u32 = 267;
/// How many different heights a series of marks has; more heights help. Range: 3 and above.
pub const SPOTWISE_PARAM_DISTINCT_HEIGHTS: u32 = 268;
/// By how many deviations the widths of marks change with height; less power helps, or heights out to
/// where the marks vanish. Range: 4 and above.
pub const SPOTWISE_PARAM_SHAPE_SIGNIFICANCE: u32 = 269;
/// Height of a waist that should lie within the heights of a series; marks beyond that end help.
/// Range: -1e7 to 1e7 m.
pub const SPOTWISE_PARAM_WAIST_WITHIN_HEIGHTS: u32 = 270;
/// Half the run of heights over the deviation of the waist's; less power helps, or heights out to where
/// the marks vanish. Range: 2 and above.
pub const SPOTWISE_PARAM_WAIST_Z_CERTAINTY: u32 = 271;
/// Waist diameter over its deviation; the same heights at twice the power help, or a known M squared.
/// Range: 1 and above.
pub const SPOTWISE_PARAM_SIZE_CERTAINTY: u32 = 272;
/// How a reading weighs in a fit, as a code. Range: 1 to 2.
pub const SPOTWISE_PARAM_READING_WEIGHTS: u32 = 273;
/// How many readings there are to fit. Range: 4 to 100003.
pub const SPOTWISE_PARAM_READINGS: u32 = 274;
/// Curvature of the squares of widths over its standard deviation; below 0 where they fall on
/// either side. Range: 3 and above.
pub const SPOTWISE_PARAM_CURVATURE_SIGNIFICANCE: u32 = 275;
/// Square of a fitted waist diameter over its standard deviation. Range: 2 and above.
pub const SPOTWISE_PARAM_WAIST_SIGNIFICANCE: u32 = 276;
/// Whether the weights of readings settled: 0 or 1. Range: 1 to 1.
pub const SPOTWISE_PARAM_STEADY_WEIGHTS: u32 = 277;

const _: () = {
    assert!(SPOTWISE_PARAM_WAVELENGTH == Param::Wavelength as u32);
    assert!(SPOTWISE_PARAM_M2 == Param::M2 as u32);
    assert!(SPOTWISE_PARAM_WAIST_DIAMETER == Param::WaistDiameter as u32);
    assert!(SPOTWISE_PARAM_BEAM_DIAMETER == Param::BeamDiameter as u32);
    assert!(SPOTWISE_PARAM_Z == Param::Z as u32);
    assert!(SPOTWISE_PARAM_Z_OFFSET == Param::ZOffset as u32);
    assert!(SPOTWISE_PARAM_WAIST_TO_LENS == Param::WaistToLens as u32);
    assert!(SPOTWISE_PARAM_FOCAL_LENGTH == Param::FocalLength as u32);
    assert!(SPOTWISE_PARAM_DIVERGENCE_FULL_ANGLE == Param::DivergenceFullAngle as u32);
    assert!(SPOTWISE_PARAM_DIVERGENCE_HALF_ANGLE == Param::DivergenceHalfAngle as u32);
    assert!(SPOTWISE_PARAM_RAYLEIGH_RANGE == Param::RayleighRange as u32);
    assert!(SPOTWISE_PARAM_APERTURE_DIAMETER == Param::ApertureDiameter as u32);
    assert!(SPOTWISE_PARAM_POWER_SHARE == Param::PowerShare as u32);
    assert!(SPOTWISE_PARAM_GROWTH_RATIO == Param::GrowthRatio as u32);
    assert!(SPOTWISE_PARAM_IRRADIANCE_DROP == Param::IrradianceDrop as u32);
    assert!(SPOTWISE_PARAM_LINE_DOSE_DROP == Param::LineDoseDrop as u32);
    assert!(SPOTWISE_PARAM_LARGEST_DIAMETER == Param::LargestDiameter as u32);
    assert!(SPOTWISE_PARAM_DOSE_RATIO == Param::DoseRatio as u32);
    assert!(SPOTWISE_PARAM_SPOT_DIAMETER == Param::SpotDiameter as u32);
    assert!(SPOTWISE_PARAM_PITCH == Param::Pitch as u32);
    assert!(SPOTWISE_PARAM_CONTRAST == Param::Contrast as u32);
    assert!(SPOTWISE_PARAM_SURFACE_RISE == Param::SurfaceRise as u32);
    assert!(SPOTWISE_PARAM_SURFACE_FALL == Param::SurfaceFall as u32);
    assert!(SPOTWISE_PARAM_LENS_TO_SURFACE == Param::LensToSurface as u32);
    assert!(SPOTWISE_PARAM_FINEST_STROKE == Param::FinestStroke as u32);
    assert!(SPOTWISE_PARAM_FINEST_GAP == Param::FinestGap as u32);
    assert!(SPOTWISE_PARAM_WIDTH_DEFINITION == Param::WidthDefinition as u32);
    assert!(SPOTWISE_PARAM_DEPTH_CRITERION == Param::DepthCriterion as u32);
    assert!(SPOTWISE_PARAM_RAW_BEAM == Param::RawBeam as u32);
    assert!(SPOTWISE_PARAM_FOCUS_SETTING == Param::FocusSetting as u32);
    assert!(SPOTWISE_PARAM_M2_X == Param::M2X as u32);
    assert!(SPOTWISE_PARAM_M2_Y == Param::M2Y as u32);
    assert!(SPOTWISE_PARAM_WAIST_DIAMETER_X == Param::WaistDiameterX as u32);
    assert!(SPOTWISE_PARAM_WAIST_DIAMETER_Y == Param::WaistDiameterY as u32);
    assert!(SPOTWISE_PARAM_WAIST_Z_X == Param::WaistZX as u32);
    assert!(SPOTWISE_PARAM_WAIST_Z_Y == Param::WaistZY as u32);
    assert!(SPOTWISE_PARAM_DIVERGENCE_HALF_ANGLE_X == Param::DivergenceHalfAngleX as u32);
    assert!(SPOTWISE_PARAM_DIVERGENCE_HALF_ANGLE_Y == Param::DivergenceHalfAngleY as u32);
    assert!(SPOTWISE_PARAM_FOCUS_Z == Param::FocusZ as u32);
    assert!(SPOTWISE_PARAM_OUTPUT == Param::Output as u32);
    assert!(SPOTWISE_PARAM_DIAMETER_AT_LENS == Param::DiameterAtLens as u32);
    assert!(SPOTWISE_PARAM_TEXT == Param::Text as u32);
    assert!(SPOTWISE_PARAM_LENS_TO_WAIST == Param::LensToWaist as u32);
    assert!(SPOTWISE_PARAM_LENS_TO_HIGHEST == Param::LensToHighest as u32);
    assert!(SPOTWISE_PARAM_GLASS == Param::Glass as u32);
    assert!(SPOTWISE_PARAM_REFRACTIVE_INDEX == Param::RefractiveIndex as u32);
    assert!(SPOTWISE_PARAM_DESIGN_WAVELENGTH == Param::DesignWavelength as u32);
    assert!(SPOTWISE_PARAM_FIRST_RADIUS == Param::FirstRadius as u32);
    assert!(SPOTWISE_PARAM_SECOND_RADIUS == Param::SecondRadius as u32);
    assert!(SPOTWISE_PARAM_LENS_SHAPE == Param::LensShape as u32);
    assert!(SPOTWISE_PARAM_SHAPE_FACTOR == Param::ShapeFactor as u32);
    assert!(SPOTWISE_PARAM_ABERRATION_PHASE == Param::AberrationPhase as u32);
    assert!(SPOTWISE_PARAM_NORMALISED_ABERRATION == Param::NormalisedAberration as u32);
    assert!(SPOTWISE_PARAM_CLEAR_APERTURE == Param::ClearAperture as u32);
    assert!(SPOTWISE_PARAM_CLIPPING_RATIO == Param::ClippingRatio as u32);
    assert!(SPOTWISE_PARAM_SPOT_MEASURE == Param::SpotMeasure as u32);
    assert!(SPOTWISE_PARAM_THICKNESS == Param::Thickness as u32);
    assert!(SPOTWISE_PARAM_LENS_LOWERED_BY == Param::LensLoweredBy as u32);
    assert!(SPOTWISE_PARAM_PATH_ELEMENT == Param::PathElement as u32);
    assert!(SPOTWISE_PARAM_SPACE_LENGTH == Param::SpaceLength as u32);
    assert!(SPOTWISE_PARAM_MAGNIFICATION == Param::Magnification as u32);
    assert!(SPOTWISE_PARAM_EXIT_POWER == Param::ExitPower as u32);
    assert!(SPOTWISE_PARAM_PATH_DISTANCE == Param::PathDistance as u32);
    assert!(SPOTWISE_PARAM_NEAREST == Param::Nearest as u32);
    assert!(SPOTWISE_PARAM_FARTHEST == Param::Farthest as u32);
    assert!(SPOTWISE_PARAM_RADIUS == Param::Radius as u32);
    assert!(SPOTWISE_PARAM_LENS_TO_FOCUS == Param::LensToFocus as u32);
    assert!(SPOTWISE_PARAM_NORMALISED_DEFOCUS == Param::NormalisedDefocus as u32);
    assert!(SPOTWISE_PARAM_FOCUS_MEASURE == Param::FocusMeasure as u32);
    assert!(SPOTWISE_PARAM_LENS_KIND == Param::LensKind as u32);
    assert!(SPOTWISE_PARAM_WORKSPACE == Param::Workspace as u32);
    assert!(SPOTWISE_PARAM_WAIST_TO_EXPANDER == Param::WaistToExpander as u32);
    assert!(SPOTWISE_PARAM_EXPANDER_TO_LENS == Param::ExpanderToLens as u32);
    assert!(SPOTWISE_PARAM_NORMALISED_RADIUS == Param::NormalisedRadius as u32);
    assert!(SPOTWISE_PARAM_TILT == Param::Tilt as u32);
    assert!(SPOTWISE_PARAM_GRAZING_RATIO == Param::GrazingRatio as u32);
    assert!(SPOTWISE_PARAM_POWER == Param::Power as u32);
    assert!(SPOTWISE_PARAM_SPEED == Param::Speed as u32);
    assert!(SPOTWISE_PARAM_DIAMETER_ACROSS == Param::DiameterAcross as u32);
    assert!(SPOTWISE_PARAM_DIAMETER_ALONG == Param::DiameterAlong as u32);
    assert!(SPOTWISE_PARAM_LINE_INTERVAL == Param::LineInterval as u32);
    assert!(SPOTWISE_PARAM_DOTS_PER_INCH == Param::DotsPerInch as u32);
    assert!(SPOTWISE_PARAM_REPETITION_RATE == Param::RepetitionRate as u32);
    assert!(SPOTWISE_PARAM_DOSE == Param::Dose as u32);
    assert!(SPOTWISE_PARAM_THRESHOLD == Param::Threshold as u32);
    assert!(SPOTWISE_PARAM_MARK_KIND == Param::MarkKind as u32);
    assert!(SPOTWISE_PARAM_INTERVAL_OVER_RADIUS == Param::IntervalOverRadius as u32);
    assert!(SPOTWISE_PARAM_RIPPLE_CONTRAST == Param::RippleContrast as u32);
    assert!(SPOTWISE_PARAM_DRAWN_WIDTH == Param::DrawnWidth as u32);
    assert!(SPOTWISE_PARAM_DETAIL_SIZE == Param::DetailSize as u32);
    assert!(SPOTWISE_PARAM_DIFFUSIVITY == Param::Diffusivity as u32);
    assert!(SPOTWISE_PARAM_PIXEL == Param::Pixel as u32);
    assert!(SPOTWISE_PARAM_JITTER_DEVIATION == Param::JitterDeviation as u32);
    assert!(SPOTWISE_PARAM_RISE_TIME == Param::RiseTime as u32);
    assert!(SPOTWISE_PARAM_SWITCH_DELAY == Param::SwitchDelay as u32);
    assert!(SPOTWISE_PARAM_TASTE == Param::Taste as u32);
    assert!(SPOTWISE_PARAM_LARGEST_EDGE == Param::LargestEdge as u32);
    assert!(SPOTWISE_PARAM_CRISPNESS_WEIGHT == Param::CrispnessWeight as u32);
    assert!(SPOTWISE_PARAM_PULSE_PITCH == Param::PulsePitch as u32);
    assert!(SPOTWISE_PARAM_INCUBATION == Param::Incubation as u32);
    assert!(SPOTWISE_PARAM_PULSES == Param::Pulses as u32);
    assert!(SPOTWISE_PARAM_PENETRATION_DEPTH == Param::PenetrationDepth as u32);
    assert!(SPOTWISE_PARAM_SCALLOP == Param::Scallop as u32);
    assert!(SPOTWISE_PARAM_COMPENSATION_RULE == Param::CompensationRule as u32);
    assert!(SPOTWISE_PARAM_GREATEST_POWER == Param::GreatestPower as u32);
    assert!(SPOTWISE_PARAM_LEAST_SPEED == Param::LeastSpeed as u32);
    assert!(SPOTWISE_PARAM_LEAST_IRRADIANCE_RATIO == Param::LeastIrradianceRatio as u32);
    assert!(SPOTWISE_PARAM_RESPONSE == Param::Response as u32);
    assert!(SPOTWISE_PARAM_REMOVAL_ENERGY == Param::RemovalEnergy as u32);
    assert!(SPOTWISE_PARAM_DWELL == Param::Dwell as u32);
    assert!(SPOTWISE_PARAM_WIDTHS == Param::Widths as u32);
    assert!(SPOTWISE_PARAM_DEVIATIONS == Param::Deviations as u32);
    assert!(SPOTWISE_PARAM_MARK_WIDTH == Param::MarkWidth as u32);
    assert!(SPOTWISE_PARAM_WIDTH_DEVIATION == Param::WidthDeviation as u32);
    assert!(SPOTWISE_PARAM_OUTLIER_LIMIT == Param::OutlierLimit as u32);
    assert!(SPOTWISE_PARAM_MARKS_USED == Param::MarksUsed as u32);
    assert!(SPOTWISE_PARAM_SIGNIFICANCE == Param::Significance as u32);
    assert!(SPOTWISE_PARAM_TYPEFACE == Param::Typeface as u32);
    assert!(SPOTWISE_PARAM_STEM_SHARE == Param::StemShare as u32);
    assert!(SPOTWISE_PARAM_STROKE_SHARE == Param::StrokeShare as u32);
    assert!(SPOTWISE_PARAM_COUNTER_SHARE == Param::CounterShare as u32);
    assert!(SPOTWISE_PARAM_GAP_SHARE == Param::GapShare as u32);
    assert!(SPOTWISE_PARAM_CRISP_EXPOSURE == Param::CrispExposure as u32);
    assert!(SPOTWISE_PARAM_DOSE_WINDOW == Param::DoseWindow as u32);
    assert!(SPOTWISE_PARAM_TEXT_GRADE == Param::TextGrade as u32);
    assert!(SPOTWISE_PARAM_EM == Param::Em as u32);
    assert!(SPOTWISE_PARAM_JOB_DOSE == Param::JobDose as u32);
    assert!(SPOTWISE_PARAM_JOB_TEXT == Param::JobText as u32);
    // Codes count from 1 without a gap, so that a parameter's place in ALL is its code less one.
    let mut i = 0;
    while i < Param::ALL.len() {
        assert!(Param::ALL[i] as usize == i + 1);
        i += 1;
    }
    assert!(SPOTWISE_PARAM_CERTAINTY == Param::Certainty as u32);
    assert!(SPOTWISE_PARAM_ANY_DOSE_RATIO == Param::AnyDoseRatio as u32);
    assert!(SPOTWISE_PARAM_GREATEST_SPEED == Param::GreatestSpeed as u32);
    assert!(SPOTWISE_PARAM_HEIGHT_QUANTITY == Param::HeightQuantity as u32);
    assert!(SPOTWISE_PARAM_TOLERANCE_SOURCE == Param::ToleranceSource as u32);
    assert!(SPOTWISE_PARAM_DISTRIBUTION == Param::Distribution as u32);
    assert!(SPOTWISE_PARAM_HALF_WIDTH == Param::HalfWidth as u32);
    assert!(SPOTWISE_PARAM_COVERAGE_FACTOR == Param::CoverageFactor as u32);
    assert!(SPOTWISE_PARAM_MEAN_OFFSET == Param::MeanOffset as u32);
    assert!(SPOTWISE_PARAM_CONTRIBUTIONS == Param::Contributions as u32);
    assert!(SPOTWISE_PARAM_COVERAGE_PROBABILITY == Param::CoverageProbability as u32);
    assert!(SPOTWISE_PARAM_DRAWS == Param::Draws as u32);
    assert!(SPOTWISE_PARAM_SEED == Param::Seed as u32);
    assert!(SPOTWISE_PARAM_TOWARD_LENS_Z == Param::TowardLensZ as u32);
    assert!(SPOTWISE_PARAM_AWAY_FROM_LENS_Z == Param::AwayFromLensZ as u32);
    assert!(SPOTWISE_PARAM_HIGHEST_Z == Param::HighestZ as u32);
    assert!(SPOTWISE_PARAM_LOWEST_Z == Param::LowestZ as u32);
    assert!(SPOTWISE_PARAM_USABLE_DEPTH == Param::UsableDepth as u32);
    assert!(SPOTWISE_PARAM_BAND_MARGIN == Param::BandMargin as u32);
    assert!(SPOTWISE_PARAM_HEIGHT_BANDS == Param::HeightBands as u32);
    assert!(SPOTWISE_PARAM_BAND_LIMITS == Param::BandLimits as u32);
    assert!(SPOTWISE_PARAM_FOCUS_HEIGHTS == Param::FocusHeights as u32);
    assert!(SPOTWISE_PARAM_PART_RADIUS == Param::PartRadius as u32);
    assert!(SPOTWISE_PARAM_FOCUS_AIM == Param::FocusAim as u32);
    assert!(SPOTWISE_PARAM_TOTAL_DEPTH == Param::TotalDepth as u32);
    assert!(SPOTWISE_PARAM_DEPTH_PER_PASS == Param::DepthPerPass as u32);
    assert!(SPOTWISE_PARAM_PASSES == Param::Passes as u32);
    assert!(SPOTWISE_PARAM_SURFACE_SHAPE == Param::SurfaceShape as u32);
    assert!(SPOTWISE_PARAM_SLOPE_X == Param::SlopeX as u32);
    assert!(SPOTWISE_PARAM_SLOPE_Y == Param::SlopeY as u32);
    assert!(SPOTWISE_PARAM_CURVATURE_RADIUS == Param::CurvatureRadius as u32);
    assert!(SPOTWISE_PARAM_BULGE == Param::Bulge as u32);
    assert!(SPOTWISE_PARAM_CROWN_X == Param::CrownX as u32);
    assert!(SPOTWISE_PARAM_CROWN_Y == Param::CrownY as u32);
    assert!(SPOTWISE_PARAM_AXIS_ANGLE == Param::AxisAngle as u32);
    assert!(SPOTWISE_PARAM_PLACE_X == Param::PlaceX as u32);
    assert!(SPOTWISE_PARAM_PLACE_Y == Param::PlaceY as u32);
    assert!(SPOTWISE_PARAM_REGION_X == Param::RegionX as u32);
    assert!(SPOTWISE_PARAM_REGION_Y == Param::RegionY as u32);
    assert!(SPOTWISE_PARAM_REGION_WIDTH_X == Param::RegionWidthX as u32);
    assert!(SPOTWISE_PARAM_REGION_WIDTH_Y == Param::RegionWidthY as u32);
    assert!(SPOTWISE_PARAM_DISTANCE_FROM_CROWN == Param::DistanceFromCrown as u32);
    assert!(SPOTWISE_PARAM_STEP_EDGE == Param::StepEdge as u32);
    assert!(SPOTWISE_PARAM_STEP_WIDTH == Param::StepWidth as u32);
    assert!(SPOTWISE_PARAM_STEP_HEIGHT == Param::StepHeight as u32);
    assert!(SPOTWISE_PARAM_STEP_EDGES == Param::StepEdges as u32);
    assert!(SPOTWISE_PARAM_STEP_HEIGHTS == Param::StepHeights as u32);
    assert!(SPOTWISE_PARAM_GRID_X == Param::GridX as u32);
    assert!(SPOTWISE_PARAM_GRID_Y == Param::GridY as u32);
    assert!(SPOTWISE_PARAM_GRID_SPACING == Param::GridSpacing as u32);
    assert!(SPOTWISE_PARAM_PROBED_HEIGHT == Param::ProbedHeight as u32);
    assert!(SPOTWISE_PARAM_GRID_COLUMNS == Param::GridColumns as u32);
    assert!(SPOTWISE_PARAM_GRID_ROWS == Param::GridRows as u32);
    assert!(SPOTWISE_PARAM_PROBED_HEIGHTS == Param::ProbedHeights as u32);
    assert!(SPOTWISE_PARAM_KNOWN_PROBES == Param::KnownProbes as u32);
    assert!(SPOTWISE_PARAM_KNOWN_PARTS == Param::KnownParts as u32);
    assert!(SPOTWISE_PARAM_SET_UP_TOLERANCE == Param::SetUpTolerance as u32);
    assert!(SPOTWISE_PARAM_LEAST_CLEARANCE == Param::LeastClearance as u32);
    assert!(SPOTWISE_PARAM_WORKING_DISTANCE == Param::WorkingDistance as u32);
    assert!(SPOTWISE_PARAM_LENS_CANDIDATES == Param::LensCandidates as u32);
    assert!(SPOTWISE_PARAM_CELLS_PER_SIDE == Param::CellsPerSide as u32);
    assert!(SPOTWISE_PARAM_FIELD_RADIUS == Param::FieldRadius as u32);
    assert!(SPOTWISE_PARAM_EDGE_TANGENTIAL_Z == Param::EdgeTangentialZ as u32);
    assert!(SPOTWISE_PARAM_EDGE_SAGITTAL_Z == Param::EdgeSagittalZ as u32);
    assert!(SPOTWISE_PARAM_EDGE_INCIDENCE == Param::EdgeIncidence as u32);
    assert!(SPOTWISE_PARAM_EDGE_SPOT_RATIO == Param::EdgeSpotRatio as u32);
    assert!(SPOTWISE_PARAM_FIELD_X == Param::FieldX as u32);
    assert!(SPOTWISE_PARAM_FIELD_Y == Param::FieldY as u32);
    assert!(SPOTWISE_PARAM_FIELD_ANGLE == Param::FieldAngle as u32);
    assert!(SPOTWISE_PARAM_DRAWING_WIDTH == Param::DrawingWidth as u32);
    assert!(SPOTWISE_PARAM_DRAWING_HEIGHT == Param::DrawingHeight as u32);
    assert!(SPOTWISE_PARAM_DRAWING_PIXELS == Param::DrawingPixels as u32);
    assert!(SPOTWISE_PARAM_ROW_STRIDE == Param::RowStride as u32);
    assert!(SPOTWISE_PARAM_DRAWING_SAMPLES == Param::DrawingSamples as u32);
    assert!(SPOTWISE_PARAM_SAMPLE_KIND == Param::SampleKind as u32);
    assert!(SPOTWISE_PARAM_DRAWING_USE == Param::DrawingUse as u32);
    assert!(SPOTWISE_PARAM_PITCH_X == Param::PitchX as u32);
    assert!(SPOTWISE_PARAM_PITCH_Y == Param::PitchY as u32);
    assert!(SPOTWISE_PARAM_DRAWING_X == Param::DrawingX as u32);
    assert!(SPOTWISE_PARAM_DRAWING_Y == Param::DrawingY as u32);
    assert!(SPOTWISE_PARAM_SCAN_KIND == Param::ScanKind as u32);
    assert!(SPOTWISE_PARAM_FIRST_LINE == Param::FirstLine as u32);
    assert!(SPOTWISE_PARAM_BLUR_ACROSS == Param::BlurAcross as u32);
    assert!(SPOTWISE_PARAM_BLUR_ALONG == Param::BlurAlong as u32);
    assert!(SPOTWISE_PARAM_EDGE_TOLERANCE == Param::EdgeTolerance as u32);
    assert!(SPOTWISE_PARAM_MELT_BRIDGE == Param::MeltBridge as u32);
    assert!(SPOTWISE_PARAM_PIXELS_PER_RADIUS == Param::PixelsPerRadius as u32);
    assert!(SPOTWISE_PARAM_PIXEL_RUNS == Param::PixelRuns as u32);
    assert!(SPOTWISE_PARAM_FINDINGS == Param::Findings as u32);
    assert!(SPOTWISE_PARAM_PROGRESS == Param::Progress as u32);
    assert!(SPOTWISE_PARAM_INK_PIXELS == Param::InkPixels as u32);
    assert!(SPOTWISE_PARAM_THRESHOLD_DEPTH == Param::ThresholdDepth as u32);
    assert!(SPOTWISE_PARAM_VISIBLE_DEPTH == Param::VisibleDepth as u32);
    assert!(SPOTWISE_PARAM_MARK_GRADE == Param::MarkGrade as u32);
    assert!(SPOTWISE_PARAM_DEMAND == Param::Demand as u32);
    assert!(SPOTWISE_PARAM_SPECK_AREA == Param::SpeckArea as u32);
    assert!(SPOTWISE_PARAM_CONFIDENCE == Param::Confidence as u32);
    assert!(SPOTWISE_PARAM_DEGREES_OF_FREEDOM == Param::DegreesOfFreedom as u32);
    assert!(SPOTWISE_PARAM_CHI_SQUARED == Param::ChiSquared as u32);
    assert!(SPOTWISE_PARAM_DEPTH_LAW == Param::DepthLaw as u32);
    assert!(SPOTWISE_PARAM_DOSE_RATIO_DEVIATION == Param::DoseRatioDeviation as u32);
    assert!(SPOTWISE_PARAM_MARK_DEPTH == Param::MarkDepth as u32);
    assert!(SPOTWISE_PARAM_DEPTH_DEVIATION == Param::DepthDeviation as u32);
    assert!(SPOTWISE_PARAM_HEIGHT_STEP == Param::HeightStep as u32);
    assert!(SPOTWISE_PARAM_POWER_STEP == Param::PowerStep as u32);
    assert!(SPOTWISE_PARAM_MEASURED_M2 == Param::MeasuredM2 as u32);
    assert!(SPOTWISE_PARAM_M2_DEVIATION == Param::M2Deviation as u32);
    assert!(SPOTWISE_PARAM_WAIST_DIAMETER_DEVIATION == Param::WaistDiameterDeviation as u32);
    assert!(SPOTWISE_PARAM_FOCUS_SHIFT == Param::FocusShift as u32);
    assert!(SPOTWISE_PARAM_FOCUS_DEVIATION == Param::FocusDeviation as u32);
    assert!(SPOTWISE_PARAM_COVERAGE_FACTOR_95 == Param::CoverageFactor95 as u32);
    assert!(SPOTWISE_PARAM_RELATIVE_DOSE_RATIO_DEVIATION == Param::RelativeDoseRatioDeviation as u32);
    assert!(SPOTWISE_PARAM_CORRELATION == Param::Correlation as u32);
    assert!(SPOTWISE_PARAM_PIECES == Param::Pieces as u32);
    assert!(SPOTWISE_PARAM_PIECE_HEIGHT == Param::PieceHeight as u32);
    assert!(SPOTWISE_PARAM_JUDGEMENTS == Param::Judgements as u32);
    assert!(SPOTWISE_PARAM_PIECE_RANK == Param::PieceRank as u32);
    assert!(SPOTWISE_PARAM_JUDGEMENT_DEVIATION == Param::JudgementDeviation as u32);
    assert!(SPOTWISE_PARAM_GOOD_PIECES == Param::GoodPieces as u32);
    assert!(SPOTWISE_PARAM_BOUND_TOWARD_LENS == Param::BoundTowardLens as u32);
    assert!(SPOTWISE_PARAM_BOUND_AWAY_FROM_LENS == Param::BoundAwayFromLens as u32);
    assert!(SPOTWISE_PARAM_SERIES_PURPOSE == Param::SeriesPurpose as u32);
    assert!(SPOTWISE_PARAM_SWEEP_DIRECTION == Param::SweepDirection as u32);
    assert!(SPOTWISE_PARAM_SERIES_STEP == Param::SeriesStep as u32);
    assert!(SPOTWISE_PARAM_SERIES_HALF_RANGE == Param::SeriesHalfRange as u32);
    assert!(SPOTWISE_PARAM_AXIS_STEP == Param::AxisStep as u32);
    assert!(SPOTWISE_PARAM_AXIS_BACKLASH == Param::AxisBacklash as u32);
    assert!(SPOTWISE_PARAM_AXIS_TRAVEL == Param::AxisTravel as u32);
    assert!(SPOTWISE_PARAM_PIECE_SIZE == Param::PieceSize as u32);
    assert!(SPOTWISE_PARAM_PIECE_GAP == Param::PieceGap as u32);
    assert!(SPOTWISE_PARAM_ROW_WIDTH == Param::RowWidth as u32);
    assert!(SPOTWISE_PARAM_STEPS_PER_SIDE == Param::StepsPerSide as u32);
    assert!(SPOTWISE_PARAM_STEPS_TOWARD_LENS == Param::StepsTowardLens as u32);
    assert!(SPOTWISE_PARAM_STEPS_AWAY_FROM_LENS == Param::StepsAwayFromLens as u32);
    assert!(SPOTWISE_PARAM_PLANNED_PIECES == Param::PlannedPieces as u32);
    assert!(SPOTWISE_PARAM_WIDTH_SCATTER == Param::WidthScatter as u32);
    assert!(SPOTWISE_PARAM_PRIOR_DEVIATION == Param::PriorDeviation as u32);
    assert!(SPOTWISE_PARAM_POWER_RATIO == Param::PowerRatio as u32);
    assert!(SPOTWISE_PARAM_POWER_RATIOS == Param::PowerRatios as u32);
    assert!(SPOTWISE_PARAM_DISTINCT_HEIGHTS == Param::DistinctHeights as u32);
    assert!(SPOTWISE_PARAM_SHAPE_SIGNIFICANCE == Param::ShapeSignificance as u32);
    assert!(SPOTWISE_PARAM_WAIST_WITHIN_HEIGHTS == Param::WaistWithinHeights as u32);
    assert!(SPOTWISE_PARAM_WAIST_Z_CERTAINTY == Param::WaistZCertainty as u32);
    assert!(SPOTWISE_PARAM_SIZE_CERTAINTY == Param::SizeCertainty as u32);
    assert!(SPOTWISE_PARAM_READING_WEIGHTS == Param::ReadingWeights as u32);
    assert!(SPOTWISE_PARAM_READINGS == Param::Readings as u32);
    assert!(SPOTWISE_PARAM_CURVATURE_SIGNIFICANCE == Param::CurvatureSignificance as u32);
    assert!(SPOTWISE_PARAM_WAIST_SIGNIFICANCE == Param::WaistSignificance as u32);
    assert!(SPOTWISE_PARAM_STEADY_WEIGHTS == Param::SteadyWeights as u32);
    assert!(Param::ALL.len() == 277);
};

/// Every parameter's name, in the order of the codes.
const fn names() -> [&'static str; Param::ALL.len()] {
    let mut names = [""; Param::ALL.len()];
    let mut i = 0;
    while i < names.len() {
        names[i] = Param::ALL[i].name();
        i += 1;
    }
    names
}

/// Every parameter's unit, in the order of the codes.
const fn units() -> [&'static str; Param::ALL.len()] {
    let mut units = [""; Param::ALL.len()];
    let mut i = 0;
    while i < units.len() {
        units[i] = Param::ALL[i].unit();
        i += 1;
    }
    units
}

texts!(NAMES, names());
texts!(UNITS, units());

/// The place of a parameter in every table; one past any table if there is no such parameter.
fn place_of(parameter: u32) -> usize {
    parameter.wrapping_sub(1) as usize
}

fn text_of(table: &[&'static CStr], parameter: u32) -> *const c_char {
    table.get(place_of(parameter)).map_or(UNKNOWN, |text| *text).as_ptr()
}

/// Name of a parameter in plain words, such as "waist diameter"; "unknown" for any other number.
///
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_parameter_name(parameter: u32) -> *const c_char {
    text_of(&NAMES, parameter)
}

/// SI unit of a parameter, such as "m"; empty for a pure number, "unknown" for any other number.
///
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_parameter_unit(parameter: u32) -> *const c_char {
    text_of(&UNITS, parameter)
}

/// The range of a parameter; NaN for arrays and a text, whose allowed lengths the core does not
/// know.
fn fixed_range(parameter: Param) -> (f64, f64) {
    match parameter {
        Param::Output
        | Param::Text
        | Param::Workspace
        | Param::Widths
        | Param::Deviations
        | Param::BandLimits
        | Param::FocusHeights => (f64::BLANK, f64::BLANK),
        Param::StepHeights
        | Param::ProbedHeights
        | Param::Judgements
        | Param::PlannedPieces
        | Param::PowerRatios => (f64::BLANK, f64::BLANK),
        parameter => parameter.range(),
    }
}

/// Least and greatest value that a parameter may have, both included, in its SI unit.
///
/// For SPOTWISE_PARAM_FOCAL_LENGTH, SPOTWISE_PARAM_FIRST_RADIUS and SPOTWISE_PARAM_SECOND_RADIUS it
/// is the range of the magnitude, for a choice that of its numbers. A call may allow less, and says
/// so. SPOTWISE_PARAM_OUTPUT, SPOTWISE_PARAM_TEXT, SPOTWISE_PARAM_WORKSPACE, SPOTWISE_PARAM_WIDTHS,
/// SPOTWISE_PARAM_DEVIATIONS, SPOTWISE_PARAM_BAND_LIMITS, SPOTWISE_PARAM_FOCUS_HEIGHTS,
/// SPOTWISE_PARAM_STEP_HEIGHTS, SPOTWISE_PARAM_PROBED_HEIGHTS, SPOTWISE_PARAM_JUDGEMENTS,
/// SPOTWISE_PARAM_PLANNED_PIECES and SPOTWISE_PARAM_POWER_RATIOS have no fixed range: both ends are then
/// NaN, and the status is SPOTWISE_OK.
///
/// @param[in]  parameter one of SPOTWISE_PARAM_*.
/// @param[out] least     least value; not NULL.
/// @param[out] greatest  greatest value; not NULL. On any status other than SPOTWISE_OK both are
///                       set to a quiet NaN.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_UNKNOWN_CHOICE.
///
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_parameter_range(
    parameter: u32,
    least: *mut f64,
    greatest: *mut f64,
) -> spotwise_status {
    // SAFETY: NULL or writable, as the header demands.
    let faults = unsafe { [pointer_fault(least), pointer_fault(greatest)] };
    let fault = faults[0].or(faults[1]);
    let range = Param::ALL.get(place_of(parameter)).map(|parameter| fixed_range(*parameter));
    let (status, range) = match (fault, range) {
        (Some(fault), _) => (fault.status(), None),
        (None, None) => (SPOTWISE_E_UNKNOWN_CHOICE, None),
        (None, range) => (SPOTWISE_OK, range),
    };
    let (lower, upper) = range.unwrap_or((f64::BLANK, f64::BLANK));
    for (end, value) in [(least, lower), (greatest, upper)] {
        if !end.is_null() {
            // SAFETY: not NULL, and writable as the header demands.
            unsafe { end.write(value) }
        }
    }
    status
}
