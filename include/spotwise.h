/*
 * spotwise.h - focus of laser marking and engraving: beam waist, depth of focus, z-offset to spot
 * growth, smallest detail, and a verdict on a job. The C face of the Rust library spotwise.
 *
 * CAUTION
 *   Lasers blind and burn, and the fumes of laser work harm. Wear eyewear rated for the wavelength
 *   in use, keep the beam enclosed, extract the fumes, never leave a running machine unattended,
 *   and never mark PVC or another plastic that contains chlorine. The machine's manual, local codes
 *   and licensed practice come before anything said here. A prediction is advice: engrave a test
 *   piece first.
 *   spotwise_caution_text() returns this text; show it to your users.
 *
 * UNITS AND SIGNS
 *   Every number is in the SI unit that ends its name: _m metres, _rad radians, _per_m 1/m.
 *   Names without a unit are pure numbers.
 *   A beam width is a DIAMETER at 1/e^2 of the irradiance (D4 sigma), never a radius.
 *   A place along the axis counts + ALONG the light; for a focused beam that is AWAY from the lens,
 *   and - is toward it. Before the lens a place upstream is negative (waist_z_x_m of a raw beam);
 *   only waist_to_lens_m, a distance to the lens, is + for a waist upstream.
 *   An angle says in its name whether it is the half or the full one.
 *   A range has two named ends; "full" is from one end to the other.
 *
 * CALLS
 *   Inputs come first, then outputs by pointer, then a report on errors that may be NULL.
 *   The status is SPOTWISE_OK or says what was wrong. On any other status every output number is a
 *   quiet NaN and every code and flag 0, never what was there before; only an output that cannot
 *   be written safely (NULL, a wrong struct_size, an array longer than memory) is left alone.
 *   "error" is filled by every call that is given one, on success with code 0.
 *   Checks come in this order: pointers and sizes, argument by argument; the length of arrays;
 *   choices; numbers, in the order in which they are declared. SPOTWISE_E_OUTSIDE_MODEL stands
 *   among the numbers: it comes as soon as those that it is about are known. A beam, or an axis of
 *   one, is therefore checked as a whole, its cone included, before the numbers that follow it.
 *   A number's range stands at the SPOTWISE_PARAM_* constant that its comment names.
 *   A struct opens with its size. Set it, and every number to NaN so that a forgotten one is
 *   refused, with the struct's init function. A struct_size must equal that of this ABI.
 *   Pointers must be aligned for their type, and valid for as long as the call runs. Outputs must
 *   not share memory with other arguments, except where a call says that they may.
 *   The name of a result ends in _result where a function has the shorter name.
 *   No call allocates, keeps state, sets errno or reads the locale: any may be made from any
 *   thread, and from an interrupt if the caller's FPU state is saved.
 *
 * WHAT C DOES NOT STOP
 *   Names carry the units, the compiler does not: a length in millimetres, or two arguments of one
 *   call swapped, compile. Numbers of very different size are often refused for their range, but
 *   widths and lengths that could be either one's are not: so in spotwise_focus_through_lens(),
 *   spotwise_focus_collimated(), spotwise_power_through_aperture(),
 *   spotwise_largest_spot_for_details() and spotwise_convert_width(). Where a call that takes a
 *   struct gives the answer too, prefer it, since its members are set by name:
 *   spotwise_focus_check() covers the lens and the details.
 *
 * The formulas are in the library and never here: a C compiler may fuse or reorder them, and the
 * results are the same bits on every target only because it does not see them.
 *
 * SPDX-License-Identifier: MIT OR Apache-2.0
 *
 * Made by `cargo xtask header` from bindings/c; do not edit.
 */

#ifndef SPOTWISE_H
#define SPOTWISE_H

#include <stddef.h>
#include <stdint.h>

/* Warns where the result of a call is dropped. */
#ifndef SPOTWISE_MUST_USE
#if defined(__GNUC__) || defined(__clang__)
#define SPOTWISE_MUST_USE __attribute__((warn_unused_result))
#else
#define SPOTWISE_MUST_USE
#endif
#endif

/**
 * Version of this ABI; spotwise_abi_version() tells that of the library.
 */
#define SPOTWISE_ABI_VERSION 1

/**
 * The outputs are valid.
 */
#define SPOTWISE_OK 0

/**
 * A value is NaN or infinite.
 */
#define SPOTWISE_E_NOT_FINITE 1

/**
 * A value is finite but outside the range of spotwise_parameter_range().
 */
#define SPOTWISE_E_OUT_OF_RANGE 2

/**
 * A whole number that stands for a choice is none of those listed.
 */
#define SPOTWISE_E_UNKNOWN_CHOICE 3

/**
 * Each value is allowed by itself, yet together they leave the domain of the model.
 */
#define SPOTWISE_E_OUTSIDE_MODEL 4

/**
 * The beam never reaches what was asked for.
 */
#define SPOTWISE_E_UNREACHABLE 5

/**
 * An array has a length that it cannot have.
 */
#define SPOTWISE_E_LENGTH_MISMATCH 6

/**
 * A pointer that must not be NULL is NULL.
 */
#define SPOTWISE_E_NULL 100

/**
 * A struct_size is not that of this ABI: the struct was not set with its init function, or
 * program and library are of different ABI versions.
 */
#define SPOTWISE_E_STRUCT_SIZE 101

/**
 * The arrays of inputs and outputs overlap.
 */
#define SPOTWISE_E_OVERLAP 102

/**
 * Width definition: where the irradiance has fallen to 1/e^2 (13.5 %) of its peak.
 */
#define SPOTWISE_WIDTH_INVERSE_E_SQUARED 1

/**
 * Width definition: four standard deviations of the irradiance, the width of ISO 11146.
 */
#define SPOTWISE_WIDTH_D4_SIGMA 2

/**
 * Width definition: full width at half maximum.
 */
#define SPOTWISE_WIDTH_FWHM 3

/**
 * Width definition: the diameter that holds 1 - e^-2 = 86.4665 % of the power.
 */
#define SPOTWISE_WIDTH_POWER_86 4

/**
 * Depth of focus: the diameter is at most growth_ratio waist diameters.
 */
#define SPOTWISE_CRITERION_GROWTH 1

/**
 * Depth of focus: the diameter is at most sqrt(2) waist diameters, one Rayleigh range each way.
 */
#define SPOTWISE_CRITERION_RAYLEIGH 2

/**
 * Depth of focus: the irradiance on the axis falls by at most the share drop.
 */
#define SPOTWISE_CRITERION_IRRADIANCE_DROP 3

/**
 * Depth of focus: the diameter is at most largest_diameter_m.
 */
#define SPOTWISE_CRITERION_LARGEST_DIAMETER 4

/**
 * Depth of focus: the peak dose of a scanned line falls by at most the share drop.
 */
#define SPOTWISE_CRITERION_LINE_DOSE_DROP 5

/**
 * Raw beam known by its diameter at the lens, where its wavefront is flat.
 */
#define SPOTWISE_RAW_BEAM_COLLIMATED 1

/**
 * Raw beam known by its waist and the distance from there to the lens.
 */
#define SPOTWISE_RAW_BEAM_WAIST 2

/**
 * Focus known by the place of the waist relative to the datum of the surface.
 */
#define SPOTWISE_FOCUS_FROM_DATUM 1

/**
 * Focus known by the distance from the lens to the datum of the surface.
 */
#define SPOTWISE_FOCUS_LENS_HEIGHT 2

/**
 * Stroke and gap hold everywhere, and the surface stays within the depth of focus.
 */
#define SPOTWISE_OUTCOME_HOLDS 1

/**
 * Stroke and gap hold everywhere, but the surface leaves the depth of focus.
 */
#define SPOTWISE_OUTCOME_HOLDS_OUT_OF_FOCUS 2

/**
 * Stroke or gap is lost somewhere.
 */
#define SPOTWISE_OUTCOME_LOST 3

/**
 * The finest stroke is lost even in the waist: no focus height can save it.
 */
#define SPOTWISE_REASON_STROKE_TOO_FINE 1

/**
 * The finest gap fills even in the waist: no focus height can save it.
 */
#define SPOTWISE_REASON_GAP_TOO_FINE 2

/**
 * The finest stroke is lost at the highest place.
 */
#define SPOTWISE_REASON_STROKE_LOST_HIGH 4

/**
 * The finest stroke is lost at the lowest place.
 */
#define SPOTWISE_REASON_STROKE_LOST_LOW 8

/**
 * The finest gap fills at the highest place.
 */
#define SPOTWISE_REASON_GAP_FILLED_HIGH 16

/**
 * The finest gap fills at the lowest place.
 */
#define SPOTWISE_REASON_GAP_FILLED_LOW 32

/**
 * The highest place is outside the depth of focus.
 */
#define SPOTWISE_REASON_HIGH_OUT_OF_FOCUS 64

/**
 * The lowest place is outside the depth of focus.
 */
#define SPOTWISE_REASON_LOW_OUT_OF_FOCUS 128

/**
 * The waist is larger than the largest diameter allowed, so there is no depth of focus.
 */
#define SPOTWISE_REASON_NO_DEPTH 256

/**
 * Focus at mid-height of the surface would make the detail hold everywhere, and the lens has room
 * above it.
 */
#define SPOTWISE_REASON_REFOCUS_HELPS 512

/**
 * Focus at mid-height of the surface would bring all of it into focus, and the lens has room above
 * it.
 */
#define SPOTWISE_REASON_REFOCUS_SHARPENS 1024

/**
 * No caution applies to the result.
 */
#define SPOTWISE_VALIDITY_FINE 0

/**
 * The half angle of the cone exceeds 0.15 rad: the paraxial formulas differ by 1.1 % there, and
 * by 4.7 % at 0.3 rad, above which a beam is refused.
 */
#define SPOTWISE_VALIDITY_WIDE_CONE 1

/**
 * A second, separate range of heights also meets the criterion (astigmatic beams only); the
 * range returned is the one that holds the greatest irradiance.
 */
#define SPOTWISE_VALIDITY_SECOND_RANGE 2

/**
 * Vacuum wavelength. Range: 1e-8 to 1e-2 m.
 */
#define SPOTWISE_PARAM_WAVELENGTH 1

/**
 * Beam propagation ratio M^2. Range: 1 to 1e4.
 */
#define SPOTWISE_PARAM_M2 2

/**
 * Waist diameter, 1/e^2 (D4 sigma). Range: 1e-9 to 10 m.
 */
#define SPOTWISE_PARAM_WAIST_DIAMETER 3

/**
 * Beam diameter anywhere, 1/e^2 (D4 sigma) unless said otherwise. Range: 1e-9 to 10 m.
 */
#define SPOTWISE_PARAM_BEAM_DIAMETER 4

/**
 * Position on the beam axis, + along the light. Range: -1e7 to 1e7 m.
 */
#define SPOTWISE_PARAM_Z 5

/**
 * Offset of the surface from the waist, + away from the lens. Range: -1e7 to 1e7 m.
 */
#define SPOTWISE_PARAM_Z_OFFSET 6

/**
 * Distance from the raw beam's waist to the lens, + when the waist lies upstream.
 * Range: -1e7 to 1e7 m.
 */
#define SPOTWISE_PARAM_WAIST_TO_LENS 7

/**
 * Focal length, either sign; a job's is positive. Range of its magnitude: 1e-5 to 1e4 m.
 */
#define SPOTWISE_PARAM_FOCAL_LENGTH 8

/**
 * Far-field divergence, full angle. Range: 1e-12 to 0.6 rad.
 */
#define SPOTWISE_PARAM_DIVERGENCE_FULL_ANGLE 9

/**
 * Far-field divergence, half angle. Range: 0 to 0.3 rad.
 */
#define SPOTWISE_PARAM_DIVERGENCE_HALF_ANGLE 10

/**
 * Rayleigh range. Range: 1e-9 to 1e10 m.
 */
#define SPOTWISE_PARAM_RAYLEIGH_RANGE 11

/**
 * Diameter of a round, centred aperture. Range: 0 to 100 m.
 */
#define SPOTWISE_PARAM_APERTURE_DIAMETER 12

/**
 * Share of the beam's power, below 1. Range: 0 to 0.9999999999999999.
 */
#define SPOTWISE_PARAM_POWER_SHARE 13

/**
 * Diameter over waist diameter. Range: 1 to 1e9.
 */
#define SPOTWISE_PARAM_GROWTH_RATIO 14

/**
 * Share of the irradiance that may be lost. Range: 1e-9 to 0.999999.
 */
#define SPOTWISE_PARAM_IRRADIANCE_DROP 15

/**
 * Share of the line dose that may be lost. Range: 1e-9 to 0.999999.
 */
#define SPOTWISE_PARAM_LINE_DOSE_DROP 16

/**
 * Largest spot diameter that is allowed. Range: 1e-9 to 10 m.
 */
#define SPOTWISE_PARAM_LARGEST_DIAMETER 17

/**
 * Fill dose over threshold dose. Range: 1.000001 to 1e6.
 */
#define SPOTWISE_PARAM_DOSE_RATIO 18

/**
 * Spot diameter on the surface, 1/e^2. Range: 1e-9 to 10 m.
 */
#define SPOTWISE_PARAM_SPOT_DIAMETER 19

/**
 * Period of a grating of bars and gaps. Range: 1e-9 to 10 m.
 */
#define SPOTWISE_PARAM_PITCH 20

/**
 * Contrast (modulation) of a grating. Range: 1e-12 to 0.999999999999.
 */
#define SPOTWISE_PARAM_CONTRAST 21

/**
 * How far the surface comes toward the lens from its datum. Range: 0 to 1e3 m.
 */
#define SPOTWISE_PARAM_SURFACE_RISE 22

/**
 * How far the surface drops away from the lens from its datum. Range: 0 to 1e3 m.
 */
#define SPOTWISE_PARAM_SURFACE_FALL 23

/**
 * Distance from the lens to the datum of the surface. Range: 1e-6 to 1e4 m.
 */
#define SPOTWISE_PARAM_LENS_TO_SURFACE 24

/**
 * Finest stroke in the drawing. Range: 1e-9 to 10 m.
 */
#define SPOTWISE_PARAM_FINEST_STROKE 25

/**
 * Finest gap in the drawing. Range: 1e-9 to 10 m.
 */
#define SPOTWISE_PARAM_FINEST_GAP 26

/**
 * Definition of a beam width, as a code. Range: 1 to 4.
 */
#define SPOTWISE_PARAM_WIDTH_DEFINITION 27

/**
 * Criterion of a depth of focus, as a code. Range: 1 to 5.
 */
#define SPOTWISE_PARAM_DEPTH_CRITERION 28

/**
 * Way in which a raw beam is given, as a code. Range: 1 to 2.
 */
#define SPOTWISE_PARAM_RAW_BEAM 29

/**
 * Way in which the focus height is given, as a code. Range: 1 to 2.
 */
#define SPOTWISE_PARAM_FOCUS_SETTING 30

/**
 * M^2 in the x axis of an astigmatic beam. Range: 1 to 1e4.
 */
#define SPOTWISE_PARAM_M2_X 31

/**
 * M^2 in the y axis of an astigmatic beam. Range: 1 to 1e4.
 */
#define SPOTWISE_PARAM_M2_Y 32

/**
 * Waist diameter in the x axis. Range: 1e-9 to 10 m.
 */
#define SPOTWISE_PARAM_WAIST_DIAMETER_X 33

/**
 * Waist diameter in the y axis. Range: 1e-9 to 10 m.
 */
#define SPOTWISE_PARAM_WAIST_DIAMETER_Y 34

/**
 * Position of the waist in the x axis, + along the light. Range: -1e7 to 1e7 m.
 */
#define SPOTWISE_PARAM_WAIST_Z_X 35

/**
 * Position of the waist in the y axis, + along the light. Range: -1e7 to 1e7 m.
 */
#define SPOTWISE_PARAM_WAIST_Z_Y 36

/**
 * Half angle of the cone in the x axis. Range: 0 to 0.3 rad.
 */
#define SPOTWISE_PARAM_DIVERGENCE_HALF_ANGLE_X 37

/**
 * Half angle of the cone in the y axis. Range: 0 to 0.3 rad.
 */
#define SPOTWISE_PARAM_DIVERGENCE_HALF_ANGLE_Y 38

/**
 * Where focus is set relative to the datum of the surface, + away from the lens.
 * Range: -1e3 to 1e3 m.
 */
#define SPOTWISE_PARAM_FOCUS_Z 39

/**
 * The caller's array of results. No fixed range.
 */
#define SPOTWISE_PARAM_OUTPUT 40

/**
 * Diameter of the raw beam where it meets the lens. Range: 1e-9 to 10 m.
 */
#define SPOTWISE_PARAM_DIAMETER_AT_LENS 41

/**
 * Text of a quantity with its unit. No fixed range.
 */
#define SPOTWISE_PARAM_TEXT 42

/**
 * Distance from the lens to the waist that it makes; a job needs a waist behind the lens.
 * Range: 1e-9 to 1e9 m.
 */
#define SPOTWISE_PARAM_LENS_TO_WAIST 43

/**
 * Distance from the lens to the place of the surface nearest to it. Range: 1e-9 to 1e9 m.
 */
#define SPOTWISE_PARAM_LENS_TO_HIGHEST 44

/**
 * What was refused, and what would have been accepted. Every call fills it if it is given one.
 */
typedef struct spotwise_error {
    /**
     * Size of this struct; spotwise_error_init() sets it.
     */
    uint32_t struct_size;
    /**
     * The status that the call returned.
     */
    uint32_t code;
    /**
     * Which value was refused: one of SPOTWISE_PARAM_*; 0 on success and for pointers.
     */
    uint32_t parameter;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * The value that was refused, in the SI unit of the parameter; NaN where there is none.
     */
    double value;
    /**
     * Least value that would have been accepted; NaN where there is none.
     */
    double least;
    /**
     * Greatest value that would have been accepted; NaN where there is none.
     */
    double greatest;
} spotwise_error;

/**
 * A round beam, described at its waist.
 */
typedef struct spotwise_beam {
    /**
     * Size of this struct; spotwise_beam_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Not read.
     */
    uint32_t reserved;
    /**
     * Vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
     */
    double wavelength_m;
    /**
     * Beam propagation ratio M^2, 1 for a Gaussian beam; range: SPOTWISE_PARAM_M2.
     */
    double m2;
    /**
     * Waist diameter in metres, 1/e^2 (D4 sigma); range: SPOTWISE_PARAM_WAIST_DIAMETER.
     */
    double waist_diameter_m;
} spotwise_beam;

/**
 * What follows from a beam alone: the result of spotwise_beam_parameters().
 */
typedef struct spotwise_beam_parameters_result {
    /**
     * Size of this struct; spotwise_beam_parameters_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Distance from the waist at which the diameter has grown by sqrt(2), in metres.
     */
    double rayleigh_range_m;
    /**
     * Far-field half angle in radians.
     */
    double divergence_half_angle_rad;
    /**
     * Far-field full angle in radians.
     */
    double divergence_full_angle_rad;
    /**
     * Waist radius times half angle, in metre radians.
     */
    double beam_parameter_product_m_rad;
} spotwise_beam_parameters_result;

/**
 * A beam at one place along its axis.
 */
typedef struct spotwise_beam_section {
    /**
     * Size of this struct; spotwise_beam_section_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Diameter in metres, 1/e^2 (D4 sigma).
     */
    double diameter_m;
    /**
     * Curvature of the wavefront 1/R; 0 at the waist, + where the wave diverges along +z.
     */
    double wavefront_curvature_per_m;
    /**
     * Radius of curvature of the wavefront in metres; infinite at the waist.
     */
    double wavefront_radius_m;
} spotwise_beam_section;

/**
 * Result of a call: SPOTWISE_OK or one of SPOTWISE_E_*. The values are permanent.
 */
typedef uint32_t spotwise_status;

/**
 * A simple astigmatic beam: its two axes are fixed and at right angles.
 */
typedef struct spotwise_astigmatic_beam {
    /**
     * Size of this struct; spotwise_astigmatic_beam_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Not read.
     */
    uint32_t reserved;
    /**
     * Vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
     */
    double wavelength_m;
    /**
     * Beam propagation ratio M^2 in x; range: SPOTWISE_PARAM_M2_X.
     */
    double m2_x;
    /**
     * Waist diameter in x in metres, 1/e^2 (D4 sigma); range: SPOTWISE_PARAM_WAIST_DIAMETER_X.
     */
    double waist_diameter_x_m;
    /**
     * Where the waist in x lies in metres, + along the light (for a focused beam: away from the
     * lens); range: SPOTWISE_PARAM_WAIST_Z_X. A raw waist upstream of the lens is therefore
     * negative, where the waist_to_lens_m of a round beam is positive.
     */
    double waist_z_x_m;
    /**
     * Beam propagation ratio M^2 in y; range: SPOTWISE_PARAM_M2_Y.
     */
    double m2_y;
    /**
     * Waist diameter in y in metres, 1/e^2 (D4 sigma); range: SPOTWISE_PARAM_WAIST_DIAMETER_Y.
     */
    double waist_diameter_y_m;
    /**
     * Where the waist in y lies in metres, + along the light (for a focused beam: away from the
     * lens); range: SPOTWISE_PARAM_WAIST_Z_Y. A raw waist upstream of the lens is therefore
     * negative, where the waist_to_lens_m of a round beam is positive.
     */
    double waist_z_y_m;
} spotwise_astigmatic_beam;

/**
 * What follows from an astigmatic beam alone: the result of spotwise_astigmatic_parameters().
 */
typedef struct spotwise_astigmatic_parameters_result {
    /**
     * Size of this struct; spotwise_astigmatic_parameters_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Rayleigh range in x in metres.
     */
    double rayleigh_range_x_m;
    /**
     * Rayleigh range in y in metres.
     */
    double rayleigh_range_y_m;
    /**
     * From the waist in x to the waist in y in metres, + along the light.
     */
    double waist_separation_m;
    /**
     * Magnitude of the separation over the mean of the two Rayleigh ranges.
     */
    double relative_astigmatism;
    /**
     * sqrt(M^2 in x * M^2 in y).
     */
    double m2_effective;
    /**
     * Where the effective diameter is smallest in metres, + along the light.
     */
    double effective_waist_z_m;
    /**
     * Smallest effective diameter sqrt((dx^2 + dy^2)/2) in metres.
     */
    double effective_waist_diameter_m;
    /**
     * Distance at which the effective diameter has grown by sqrt(2), in metres.
     */
    double effective_rayleigh_range_m;
    /**
     * Where the irradiance on the axis is greatest in metres, + along the light. Ill-defined, and
     * good to fewer digits, where the top is flat.
     */
    double brightest_z_m;
    /**
     * The irradiance there over that of the two waists at one place.
     */
    double brightest_irradiance_ratio;
} spotwise_astigmatic_parameters_result;

/**
 * An astigmatic beam at one place along its axis.
 */
typedef struct spotwise_astigmatic_section {
    /**
     * Size of this struct; spotwise_astigmatic_section_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * 1 if the ellipticity exceeds 0.87, so that ISO 11146 calls the profile circular; else 0.
     */
    uint32_t circular;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Diameter in x in metres, 1/e^2 (D4 sigma).
     */
    double diameter_x_m;
    /**
     * Diameter in y in metres, 1/e^2 (D4 sigma).
     */
    double diameter_y_m;
    /**
     * Smaller over larger diameter.
     */
    double ellipticity;
    /**
     * sqrt((dx^2 + dy^2)/2) in metres, the effective diameter of ISO 11146.
     */
    double effective_diameter_m;
    /**
     * sqrt(dx * dy) in metres, the diameter of the circle of equal area.
     */
    double equal_area_diameter_m;
} spotwise_astigmatic_section;

/**
 * A beam behind a lens.
 */
typedef struct spotwise_focused_beam {
    /**
     * Size of this struct; spotwise_focused_beam_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply to the raw or the focused cone.
     */
    uint32_t validity;
    /**
     * Waist diameter behind the lens in metres, 1/e^2 (D4 sigma): the spot in focus.
     */
    double waist_diameter_m;
    /**
     * Rayleigh range behind the lens in metres.
     */
    double rayleigh_range_m;
    /**
     * Far-field full angle of the focused cone in radians.
     */
    double divergence_full_angle_rad;
    /**
     * New waist over raw waist.
     */
    double magnification;
    /**
     * From the focal point to the waist in metres, + away from the lens.
     */
    double focus_shift_m;
    /**
     * From the lens to the waist in metres; negative for a virtual waist.
     */
    double lens_to_waist_m;
    /**
     * Diameter of the raw beam where it meets the lens in metres, 1/e^2 (D4 sigma).
     */
    double diameter_at_lens_m;
} spotwise_focused_beam;

/**
 * A round beam on a surface that is off the waist: the result of spotwise_defocus().
 */
typedef struct spotwise_defocus_result {
    /**
     * Size of this struct; spotwise_defocus_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Spot diameter on the surface in metres, 1/e^2 (D4 sigma).
     */
    double diameter_m;
    /**
     * Spot diameter over waist diameter, at least 1.
     */
    double growth;
    /**
     * Growth less one, with all its digits however small it is.
     */
    double growth_minus_one;
    /**
     * Irradiance on the axis over that at the waist, at most 1.
     */
    double irradiance_ratio;
    /**
     * Peak dose of a scanned line over that at the waist, at most 1.
     */
    double line_dose_ratio;
} spotwise_defocus_result;

/**
 * An astigmatic beam on a surface: the result of spotwise_astigmatic_defocus().
 */
typedef struct spotwise_astigmatic_defocus_result {
    /**
     * Size of this struct; spotwise_astigmatic_defocus_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Diameter in x over the waist diameter in x, at least 1.
     */
    double growth_x;
    /**
     * Diameter in y over the waist diameter in y, at least 1.
     */
    double growth_y;
    /**
     * Irradiance on the axis over that of both waists at one place, at most 1.
     */
    double irradiance_ratio;
    /**
     * Peak dose of a line scanned along x over that at the waist in y, at most 1.
     */
    double line_dose_ratio_along_x;
    /**
     * Peak dose of a line scanned along y over that at the waist in x, at most 1.
     */
    double line_dose_ratio_along_y;
} spotwise_astigmatic_defocus_result;

/**
 * What must hold for a height to count as in focus. Only the number that the criterion names is
 * read.
 */
typedef struct spotwise_depth_criterion {
    /**
     * Size of this struct; spotwise_depth_criterion_init() sets it.
     */
    uint32_t struct_size;
    /**
     * One of SPOTWISE_CRITERION_*.
     */
    uint32_t criterion;
    /**
     * Diameter over waist diameter, at least 1; for SPOTWISE_CRITERION_GROWTH; range:
     * SPOTWISE_PARAM_GROWTH_RATIO.
     */
    double growth_ratio;
    /**
     * Share lost, 0.2 for a fifth; for SPOTWISE_CRITERION_IRRADIANCE_DROP and
     * SPOTWISE_CRITERION_LINE_DOSE_DROP; range: SPOTWISE_PARAM_IRRADIANCE_DROP or
     * SPOTWISE_PARAM_LINE_DOSE_DROP.
     */
    double drop;
    /**
     * Diameter in metres, 1/e^2 (D4 sigma); for SPOTWISE_CRITERION_LARGEST_DIAMETER; range:
     * SPOTWISE_PARAM_LARGEST_DIAMETER.
     */
    double largest_diameter_m;
} spotwise_depth_criterion;

/**
 * A range of heights, by its two ends. Heights count from the waist of a round beam, or from the
 * z = 0 of an astigmatic one, + away from the lens.
 */
typedef struct spotwise_focus_range {
    /**
     * Size of this struct; spotwise_focus_range_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * The end nearer the lens in metres.
     */
    double toward_lens_z_m;
    /**
     * The end farther from the lens in metres.
     */
    double away_from_lens_z_m;
    /**
     * From one end to the other in metres.
     */
    double full_m;
} spotwise_focus_range;

/**
 * The finest details that hold: the result of spotwise_smallest_details().
 */
typedef struct spotwise_smallest_details_result {
    /**
     * Size of this struct; spotwise_smallest_details_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Width of the finest long stroke in metres.
     */
    double bar_m;
    /**
     * Width of the finest long gap between filled areas in metres.
     */
    double gap_m;
    /**
     * Diameter of the finest filled disc in metres.
     */
    double dot_diameter_m;
    /**
     * Diameter of the finest open disc, such as a counter, in metres.
     */
    double hole_diameter_m;
    /**
     * How far a straight edge moves in metres, + outward (strokes grow), - inward.
     */
    double edge_shift_m;
} spotwise_smallest_details_result;

/**
 * Contrast of a grating at one pitch.
 */
typedef struct spotwise_grating_contrast {
    /**
     * Size of this struct; spotwise_grating_contrast_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Contrast of a sinusoidal pattern, (max - min)/(max + min).
     */
    double sine;
    /**
     * Contrast of equal bars and gaps.
     */
    double bars;
    /**
     * Largest over smallest dose at which equal bars and gaps both hold; infinite where the gaps
     * stay clear at any dose that a double can tell.
     */
    double dose_window_ratio;
} spotwise_grating_contrast;

/**
 * Everything that spotwise_focus_check() needs to know. Numbers that a choice does not name are
 * not read.
 */
typedef struct spotwise_job {
    /**
     * Size of this struct; spotwise_job_init() sets it.
     */
    uint32_t struct_size;
    /**
     * How the raw beam is known: one of SPOTWISE_RAW_BEAM_*.
     */
    uint32_t raw_beam;
    /**
     * How the height of focus is known: one of SPOTWISE_FOCUS_*.
     */
    uint32_t focus_setting;
    /**
     * What counts as in focus: one of SPOTWISE_CRITERION_*.
     */
    uint32_t criterion;
    /**
     * Vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
     */
    double wavelength_m;
    /**
     * Beam propagation ratio M^2; range: SPOTWISE_PARAM_M2.
     */
    double m2;
    /**
     * Raw beam's diameter at the lens in metres, 1/e^2 (D4 sigma); for
     * SPOTWISE_RAW_BEAM_COLLIMATED; range: SPOTWISE_PARAM_DIAMETER_AT_LENS.
     */
    double diameter_at_lens_m;
    /**
     * Raw beam's waist diameter in metres, 1/e^2 (D4 sigma); for SPOTWISE_RAW_BEAM_WAIST; range:
     * SPOTWISE_PARAM_WAIST_DIAMETER.
     */
    double waist_diameter_m;
    /**
     * From the raw waist to the lens in metres, + when the waist lies upstream; for
     * SPOTWISE_RAW_BEAM_WAIST; range: SPOTWISE_PARAM_WAIST_TO_LENS. The waist_z_x_m of an
     * astigmatic beam counts the other way round.
     */
    double waist_to_lens_m;
    /**
     * Focal length of the lens in metres, converging; range: SPOTWISE_PARAM_FOCAL_LENGTH.
     */
    double focal_length_m;
    /**
     * Place of the waist relative to the datum of the surface in metres, + where the waist lies
     * farther from the lens; for SPOTWISE_FOCUS_FROM_DATUM; range: SPOTWISE_PARAM_FOCUS_Z.
     */
    double focus_z_m;
    /**
     * From the lens to the datum of the surface in metres; for SPOTWISE_FOCUS_LENS_HEIGHT; range:
     * SPOTWISE_PARAM_LENS_TO_SURFACE.
     */
    double lens_to_surface_m;
    /**
     * How far the surface comes toward the lens from its datum in metres, not negative; range:
     * SPOTWISE_PARAM_SURFACE_RISE.
     */
    double surface_rise_m;
    /**
     * How far the surface drops away from the lens from its datum in metres, not negative; range:
     * SPOTWISE_PARAM_SURFACE_FALL.
     */
    double surface_fall_m;
    /**
     * Diameter over waist diameter, at least 1; for SPOTWISE_CRITERION_GROWTH; range:
     * SPOTWISE_PARAM_GROWTH_RATIO.
     */
    double growth_ratio;
    /**
     * Share lost, 0.2 for a fifth; for SPOTWISE_CRITERION_IRRADIANCE_DROP and
     * SPOTWISE_CRITERION_LINE_DOSE_DROP; range: SPOTWISE_PARAM_IRRADIANCE_DROP or
     * SPOTWISE_PARAM_LINE_DOSE_DROP.
     */
    double drop;
    /**
     * Diameter in metres, 1/e^2 (D4 sigma); for SPOTWISE_CRITERION_LARGEST_DIAMETER; range:
     * SPOTWISE_PARAM_LARGEST_DIAMETER.
     */
    double largest_diameter_m;
    /**
     * Width of the finest stroke in the drawing in metres; range: SPOTWISE_PARAM_FINEST_STROKE.
     */
    double finest_stroke_m;
    /**
     * Width of the finest gap in the drawing in metres; range: SPOTWISE_PARAM_FINEST_GAP.
     */
    double finest_gap_m;
    /**
     * Fill dose over the dose at which the material just marks; range: SPOTWISE_PARAM_DOSE_RATIO.
     */
    double dose_ratio;
} spotwise_job;

/**
 * The spot at one height of the surface, and what it holds there.
 */
typedef struct spotwise_place {
    /**
     * Size of this struct; set where it is part of a verdict.
     */
    uint32_t struct_size;
    /**
     * 1 if the drawing's finest stroke and gap both hold; else 0.
     */
    uint32_t details_hold;
    /**
     * 1 if the place lies within the depth of focus; else 0.
     */
    uint32_t in_depth;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Offset from the waist in metres, + away from the lens.
     */
    double z_offset_m;
    /**
     * Spot diameter in metres, 1/e^2 (D4 sigma).
     */
    double diameter_m;
    /**
     * Spot diameter over waist diameter.
     */
    double growth;
    /**
     * Irradiance on the axis over that at the waist.
     */
    double irradiance_ratio;
    /**
     * Peak dose of a scanned line over that at the waist.
     */
    double line_dose_ratio;
    /**
     * Width of the finest stroke that holds in metres.
     */
    double smallest_stroke_m;
    /**
     * Width of the finest gap that holds in metres.
     */
    double smallest_gap_m;
    /**
     * Diameter of the finest dot that holds in metres.
     */
    double smallest_dot_diameter_m;
    /**
     * Diameter of the finest hole that holds in metres.
     */
    double smallest_hole_diameter_m;
} spotwise_place;

/**
 * What spotwise_focus_check() finds. Heights count from the waist, + away from the lens, but for
 * focus_z_m and best_focus_z_m, which count from the datum of the surface.
 */
typedef struct spotwise_verdict {
    /**
     * Size of this struct; spotwise_verdict_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply to the raw or the focused cone.
     */
    uint32_t validity;
    /**
     * Whether the drawing holds: one of SPOTWISE_OUTCOME_*; 0 if the call failed.
     */
    uint32_t outcome;
    /**
     * Why: SPOTWISE_REASON_* bits.
     */
    uint32_t reasons;
    /**
     * Waist diameter behind the lens in metres, 1/e^2 (D4 sigma): the spot in focus.
     */
    double waist_diameter_m;
    /**
     * Rayleigh range behind the lens in metres.
     */
    double rayleigh_range_m;
    /**
     * Far-field full angle of the focused cone in radians.
     */
    double divergence_full_angle_rad;
    /**
     * New waist over raw waist.
     */
    double magnification;
    /**
     * From the focal point to the waist in metres, + away from the lens.
     */
    double focus_shift_m;
    /**
     * From the lens to the waist in metres, never negative: a virtual waist is refused.
     */
    double lens_to_waist_m;
    /**
     * Diameter of the raw beam where it meets the lens in metres, 1/e^2 (D4 sigma).
     */
    double diameter_at_lens_m;
    /**
     * Where the waist lies relative to the datum in metres, + away from the lens.
     */
    double focus_z_m;
    /**
     * End of the depth of focus nearer the lens in metres; NaN, as the next two, if the waist is
     * larger than the largest diameter allowed (SPOTWISE_REASON_NO_DEPTH).
     */
    double depth_toward_lens_z_m;
    /**
     * End of the depth of focus farther from the lens in metres.
     */
    double depth_away_from_lens_z_m;
    /**
     * Depth of focus from end to end in metres.
     */
    double depth_full_m;
    /**
     * End nearer the lens of the heights at which stroke and gap both hold, in metres; NaN, as the
     * next two, if they do not even hold in the waist.
     */
    double detail_toward_lens_z_m;
    /**
     * End of those heights farther from the lens in metres.
     */
    double detail_away_from_lens_z_m;
    /**
     * Those heights from end to end in metres.
     */
    double detail_full_m;
    /**
     * Where to put the waist relative to the datum so that the worst growth is least: at
     * mid-height of the surface. In metres, + away from the lens.
     */
    double best_focus_z_m;
    /**
     * Growth at both ends of the surface if focus is set there.
     */
    double best_worst_growth;
    /**
     * The place of the surface nearest the lens.
     */
    struct spotwise_place highest;
    /**
     * The datum of the surface.
     */
    struct spotwise_place datum;
    /**
     * The place of the surface farthest from the lens.
     */
    struct spotwise_place lowest;
} spotwise_verdict;

#ifdef __cplusplus
extern "C" {
#endif // __cplusplus

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_error_init(struct spotwise_error *report);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_beam_init(struct spotwise_beam *beam);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_beam_parameters_result_init(struct spotwise_beam_parameters_result *parameters);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_beam_section_init(struct spotwise_beam_section *section);

/**
 * Rayleigh range, divergence and beam parameter product of a beam.
 *
 * @param[in]  beam       beam to read; set with spotwise_beam_init(); not NULL.
 * @param[out] parameters result; set with spotwise_beam_parameters_result_init(); not NULL. On any
 *                        status other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error      what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: ISO 11146-1, from memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_beam_parameters(const struct spotwise_beam *beam,
                                         struct spotwise_beam_parameters_result *parameters,
                                         struct spotwise_error *error);

/**
 * Diameter and wavefront of a beam at a distance from its waist.
 *
 * @param[in]  beam    beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  z_m     distance from the waist in metres, + along the light; range:
 *                     SPOTWISE_PARAM_Z.
 * @param[out] section result; set with spotwise_beam_section_init(); not NULL. On any status
 *                     other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error   what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
 *
 * Accuracy: diameter at most 3 ulp, wavefront at most 1.1 ulp
 *           (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_beam_at(const struct spotwise_beam *beam,
                                 double z_m,
                                 struct spotwise_beam_section *section,
                                 struct spotwise_error *error);

/**
 * Diameters of one beam at many distances from its waist: diameter_m[i] belongs to z_m[i].
 *
 * Each is the same bits as spotwise_beam_at() gives.
 *
 * @param[in]  beam       beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  z_m        count distances from the waist in metres, + along the light; not NULL
 *                        unless count is 0; range: SPOTWISE_PARAM_Z.
 * @param[in]  count      length of both arrays; may be 0.
 * @param[out] diameter_m count diameters in metres, 1/e^2 (D4 sigma); not NULL unless count is 0.
 *                        It must not overlap z_m. On any status other than SPOTWISE_OK all of it
 *                        is set to quiet NaNs, but for a count that no array can have: then
 *                        nothing is written to it.
 * @param[out] error      what was refused, which of z_m is the first one; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP,
 *         SPOTWISE_E_LENGTH_MISMATCH (count is more than memory can hold), SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
 *
 * Accuracy: at most 3 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_diameters_at(const struct spotwise_beam *beam,
                                      const double *z_m,
                                      size_t count,
                                      double *diameter_m,
                                      struct spotwise_error *error);

/**
 * Waist diameter of the beam that has this Rayleigh range.
 *
 * @param[in]  wavelength_m     vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
 * @param[in]  m2               beam propagation ratio M^2; range: SPOTWISE_PARAM_M2.
 * @param[in]  rayleigh_range_m Rayleigh range in metres; range: SPOTWISE_PARAM_RAYLEIGH_RANGE.
 * @param[out] waist_diameter_m waist diameter in metres, 1/e^2 (D4 sigma); not NULL. On any status
 *                              other than SPOTWISE_OK it is set to a quiet NaN.
 * @param[out] error            what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (waist out of range, or half angle
 *         above 0.3 rad).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: ISO 11146-1, from memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_waist_from_rayleigh_range(double wavelength_m,
                                                   double m2,
                                                   double rayleigh_range_m,
                                                   double *waist_diameter_m,
                                                   struct spotwise_error *error);

/**
 * Waist diameter of the beam that has this far-field full angle.
 *
 * @param[in]  wavelength_m              vacuum wavelength in metres; range:
 *                                       SPOTWISE_PARAM_WAVELENGTH.
 * @param[in]  m2                        beam propagation ratio M^2; range: SPOTWISE_PARAM_M2.
 * @param[in]  divergence_full_angle_rad far-field full angle in radians; range:
 *                                       SPOTWISE_PARAM_DIVERGENCE_FULL_ANGLE.
 * @param[out] waist_diameter_m          waist diameter in metres, 1/e^2 (D4 sigma); not NULL. On
 *                                       any status other than SPOTWISE_OK it is set to a quiet NaN.
 * @param[out] error                     what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (waist out of range, or half angle
 *         above 0.3 rad).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: ISO 11146-1, from memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_waist_from_divergence(double wavelength_m,
                                               double m2,
                                               double divergence_full_angle_rad,
                                               double *waist_diameter_m,
                                               struct spotwise_error *error);

/**
 * M^2 of the beam with this waist diameter and far-field full angle.
 *
 * Below 1 no beam can be: one of the three measurements is then wrong, often a radius taken for
 * a diameter or a half angle for the full one.
 *
 * @param[in]  wavelength_m              vacuum wavelength in metres; range:
 *                                       SPOTWISE_PARAM_WAVELENGTH.
 * @param[in]  waist_diameter_m          waist diameter in metres, 1/e^2 (D4 sigma); range:
 *                                       SPOTWISE_PARAM_WAIST_DIAMETER.
 * @param[in]  divergence_full_angle_rad far-field full angle in radians; range:
 *                                       SPOTWISE_PARAM_DIVERGENCE_FULL_ANGLE.
 * @param[out] m2                        beam propagation ratio M^2; not NULL. On any status other
 *                                       than SPOTWISE_OK it is set to a quiet NaN.
 * @param[out] error                     what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (M^2 would be out of range).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: ISO 11146-1, from memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_m2_from_divergence(double wavelength_m,
                                            double waist_diameter_m,
                                            double divergence_full_angle_rad,
                                            double *m2,
                                            struct spotwise_error *error);

/**
 * The same Gaussian beam's diameter by another definition of width.
 *
 * For a Gaussian profile only: a beam with M^2 > 1 has another profile, whose widths stand in
 * other proportions. C does not notice if from and to are swapped: the definition of diameter_m
 * comes first.
 *
 * @param[in]  diameter_m  diameter by the definition from, in metres; range:
 *                         SPOTWISE_PARAM_BEAM_DIAMETER.
 * @param[in]  from        one of SPOTWISE_WIDTH_*.
 * @param[in]  to          one of SPOTWISE_WIDTH_*.
 * @param[out] converted_m diameter by the definition to, in metres; not NULL. On any status other
 *                         than SPOTWISE_OK it is set to a quiet NaN.
 * @param[out] error       what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE,
 *         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: A. E. Siegman, Lasers (1986), section 17.1, from memory; re-derived.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_convert_width(double diameter_m,
                                       uint32_t from,
                                       uint32_t to,
                                       double *converted_m,
                                       struct spotwise_error *error);

/**
 * Share of a Gaussian beam's power that passes a centred round aperture.
 *
 * Diffraction at the aperture is not modelled. C does not notice if the two diameters are swapped:
 * the beam's comes first.
 *
 * @param[in]  beam_diameter_m     1/e^2 (D4 sigma) diameter in metres; range:
 *                                 SPOTWISE_PARAM_BEAM_DIAMETER.
 * @param[in]  aperture_diameter_m diameter of the aperture in metres; range:
 *                                 SPOTWISE_PARAM_APERTURE_DIAMETER.
 * @param[out] power_share         share of the power, from 0 to 1; not NULL. On any status other
 *                                 than SPOTWISE_OK it is set to a quiet NaN.
 * @param[out] error               what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 2 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: A. E. Siegman, Lasers (1986), section 17.1, from memory; re-derived.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_power_through_aperture(double beam_diameter_m,
                                                double aperture_diameter_m,
                                                double *power_share,
                                                struct spotwise_error *error);

/**
 * Diameter of the centred round aperture that passes this share of a Gaussian beam's power.
 *
 * @param[in]  beam_diameter_m     1/e^2 (D4 sigma) diameter in metres; range:
 *                                 SPOTWISE_PARAM_BEAM_DIAMETER.
 * @param[in]  power_share         share of the power, from 0 to below 1; range:
 *                                 SPOTWISE_PARAM_POWER_SHARE.
 * @param[out] aperture_diameter_m diameter of the aperture in metres; not NULL. On any status
 *                                 other than SPOTWISE_OK it is set to a quiet NaN.
 * @param[out] error               what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 2 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: A. E. Siegman, Lasers (1986), section 17.1, from memory; re-derived.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_diameter_for_power(double beam_diameter_m,
                                            double power_share,
                                            double *aperture_diameter_m,
                                            struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_astigmatic_beam_init(struct spotwise_astigmatic_beam *beam);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_astigmatic_parameters_result_init(struct spotwise_astigmatic_parameters_result *parameters);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_astigmatic_section_init(struct spotwise_astigmatic_section *section);

/**
 * Rayleigh ranges, astigmatism, and the waist of the effective diameter of an astigmatic beam.
 *
 * Of two places that are equally bright the one farther upstream is returned.
 *
 * @param[in]  beam       beam to read; set with spotwise_astigmatic_beam_init(); not NULL.
 * @param[out] parameters result; set with spotwise_astigmatic_parameters_result_init(); not NULL.
 *                        On any status other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error      what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: ISO 11146-1, from memory; the brightest place derived by the authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_astigmatic_parameters(const struct spotwise_astigmatic_beam *beam,
                                               struct spotwise_astigmatic_parameters_result *parameters,
                                               struct spotwise_error *error);

/**
 * Diameters and ellipticity of an astigmatic beam at one place.
 *
 * @param[in]  beam    beam to read; set with spotwise_astigmatic_beam_init(); not NULL.
 * @param[in]  z_m     place on the beam's axis in metres, + along the light; range:
 *                     SPOTWISE_PARAM_Z.
 * @param[out] section result; set with spotwise_astigmatic_section_init(); not NULL. On any status
 *                     other than SPOTWISE_OK its numbers are set to a quiet NaN, its flags to 0.
 * @param[out] error   what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: ISO 11146-1, from memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_astigmatic_at(const struct spotwise_astigmatic_beam *beam,
                                       double z_m,
                                       struct spotwise_astigmatic_section *section,
                                       struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_focused_beam_init(struct spotwise_focused_beam *focused);

/**
 * The waist that an ideal lens makes of a raw beam whose waist is known.
 *
 * Aberration, clipping and the thickness of the lens are not modelled. C does not notice if the two
 * lengths are swapped; spotwise_focus_check() takes them as named members.
 *
 * @param[in]  raw             raw beam; set with spotwise_beam_init(); not NULL.
 * @param[in]  waist_to_lens_m from the raw waist to the lens in metres, + when the waist lies
 *                             upstream; range: SPOTWISE_PARAM_WAIST_TO_LENS. The waist_z_x_m of an
 *                             astigmatic beam counts the other way round.
 * @param[in]  focal_length_m  focal length in metres, + converging; range:
 *                             SPOTWISE_PARAM_FOCAL_LENGTH.
 * @param[out] focused         result; set with spotwise_focused_beam_init(); not NULL. On any
 *                             status other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (raw or focused half angle above
 *         0.3 rad, or a waist outside 1e-9 to 10 m).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: S. A. Self, Applied Optics 22, 658 (1983), from memory; re-derived.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_focus_through_lens(const struct spotwise_beam *raw,
                                            double waist_to_lens_m,
                                            double focal_length_m,
                                            struct spotwise_focused_beam *focused,
                                            struct spotwise_error *error);

/**
 * The waist that an ideal lens makes of a collimated beam: one whose waist lies at the lens.
 *
 * As spotwise_focus_through_lens() with waist_to_lens_m = 0. C does not notice if the diameter and
 * the focal length are swapped; spotwise_focus_check() takes them as named members.
 *
 * @param[in]  wavelength_m       vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
 * @param[in]  m2                 beam propagation ratio M^2; range: SPOTWISE_PARAM_M2.
 * @param[in]  diameter_at_lens_m diameter at the lens in metres, 1/e^2 (D4 sigma); range:
 *                                SPOTWISE_PARAM_DIAMETER_AT_LENS.
 * @param[in]  focal_length_m     focal length in metres, + converging; range:
 *                                SPOTWISE_PARAM_FOCAL_LENGTH.
 * @param[out] focused            result; set with spotwise_focused_beam_init(); not NULL. On any
 *                                status other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error              what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (raw or focused half angle above
 *         0.3 rad, or a waist outside 1e-9 to 10 m).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: S. A. Self, Applied Optics 22, 658 (1983), from memory; re-derived.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_focus_collimated(double wavelength_m,
                                          double m2,
                                          double diameter_at_lens_m,
                                          double focal_length_m,
                                          struct spotwise_focused_beam *focused,
                                          struct spotwise_error *error);

/**
 * The beam that an ideal lens makes of a simple astigmatic raw beam, axis by axis.
 *
 * The input has its z = 0 at the lens, so that a raw waist upstream has a negative z. The output
 * has its z = 0 at the focal point of the lens. Both count + along the light.
 *
 * @param[in]  raw            raw beam; set with spotwise_astigmatic_beam_init(), z = 0 at the
 *                            lens; not NULL.
 * @param[in]  focal_length_m focal length in metres, + converging; range:
 *                            SPOTWISE_PARAM_FOCAL_LENGTH.
 * @param[out] focused        result, z = 0 at the focal point; set with
 *                            spotwise_astigmatic_beam_init(); not NULL; may be raw itself. On any
 *                            status other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error          what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (raw or focused half angle above
 *         0.3 rad, or a waist outside 1e-9 to 10 m).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: S. A. Self, Applied Optics 22, 658 (1983), from memory; re-derived.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_focus_astigmatic(const struct spotwise_astigmatic_beam *raw,
                                          double focal_length_m,
                                          struct spotwise_astigmatic_beam *focused,
                                          struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_defocus_result_init(struct spotwise_defocus_result *result);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_astigmatic_defocus_result_init(struct spotwise_astigmatic_defocus_result *result);

/**
 * Sets struct_size, the criterion to 0, which is none, and every number to a quiet NaN. NULL does
 * nothing.
 */
void spotwise_depth_criterion_init(struct spotwise_depth_criterion *criterion);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_focus_range_init(struct spotwise_focus_range *range);

/**
 * Spot diameter, growth, irradiance and line dose of a beam on a surface that is off the waist.
 *
 * @param[in]  beam       beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  z_offset_m offset of the surface from the waist in metres, + away from the lens;
 *                        range: SPOTWISE_PARAM_Z_OFFSET.
 * @param[out] result     result; set with spotwise_defocus_result_init(); not NULL. On any status
 *                        other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error      what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result. The diameter may
 *           differ in its last digits from that of spotwise_beam_at(), whose form vectorises.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory; the line dose derived
 * by the authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_defocus(const struct spotwise_beam *beam,
                                 double z_offset_m,
                                 struct spotwise_defocus_result *result,
                                 struct spotwise_error *error);

/**
 * Growth, irradiance and line dose of an astigmatic beam on a surface.
 *
 * @param[in]  beam   beam to read; set with spotwise_astigmatic_beam_init(); not NULL.
 * @param[in]  z_m    place of the surface on the beam's axis in metres, + away from the lens;
 *                    range: SPOTWISE_PARAM_Z.
 * @param[out] result result; set with spotwise_astigmatic_defocus_result_init(); not NULL. On any
 *                    status other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error  what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory, for each axis.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_astigmatic_defocus(const struct spotwise_astigmatic_beam *beam,
                                            double z_m,
                                            struct spotwise_astigmatic_defocus_result *result,
                                            struct spotwise_error *error);

/**
 * The two offsets, one on each side of the waist, at which the spot has this diameter.
 *
 * @param[in]  beam       beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  diameter_m spot diameter in metres, 1/e^2 (D4 sigma); range:
 *                        SPOTWISE_PARAM_SPOT_DIAMETER.
 * @param[out] range      result; set with spotwise_focus_range_init(); not NULL. On any status
 *                        other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error      what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad),
 *         SPOTWISE_E_UNREACHABLE (smaller than the waist).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_offsets_for_diameter(const struct spotwise_beam *beam,
                                              double diameter_m,
                                              struct spotwise_focus_range *range,
                                              struct spotwise_error *error);

/**
 * The two offsets, one on each side of the waist, at which the spot has grown by this ratio.
 *
 * @param[in]  beam   beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  growth spot diameter over waist diameter, at least 1; range:
 *                    SPOTWISE_PARAM_GROWTH_RATIO.
 * @param[out] range  result; set with spotwise_focus_range_init(); not NULL. On any status other
 *                    than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error  what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_offsets_for_growth(const struct spotwise_beam *beam,
                                            double growth,
                                            struct spotwise_focus_range *range,
                                            struct spotwise_error *error);

/**
 * Depth of focus of a round beam, from its end toward the lens to its end away from it.
 *
 * @param[in]  beam      beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  criterion what counts as in focus; set with spotwise_depth_criterion_init(); not
 *                       NULL.
 * @param[out] range     result; set with spotwise_focus_range_init(); not NULL. On any status
 *                       other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error     what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE,
 *         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle
 *         above 0.3 rad), SPOTWISE_E_UNREACHABLE (largest diameter below the waist).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory; no standard that the
 * authors could read defines a depth of focus, so the criterion is always named.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_depth_of_focus(const struct spotwise_beam *beam,
                                        const struct spotwise_depth_criterion *criterion,
                                        struct spotwise_focus_range *range,
                                        struct spotwise_error *error);

/**
 * Depth of focus of an astigmatic beam; heights count from the beam's own z = 0.
 *
 * Growth, largest diameter and line dose must hold in both axes, each compared with its own
 * waist. The irradiance is compared with that of the two waists at one place.
 *
 * @param[in]  beam      beam to read; set with spotwise_astigmatic_beam_init(); not NULL.
 * @param[in]  criterion what counts as in focus; set with spotwise_depth_criterion_init(); not
 *                       NULL.
 * @param[out] range     result; set with spotwise_focus_range_init(); not NULL. On any status
 *                       other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error     what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE,
 *         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle
 *         above 0.3 rad), SPOTWISE_E_UNREACHABLE (no height meets the criterion).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory, for each axis.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_astigmatic_depth_of_focus(const struct spotwise_astigmatic_beam *beam,
                                                   const struct spotwise_depth_criterion *criterion,
                                                   struct spotwise_focus_range *range,
                                                   struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_smallest_details_result_init(struct spotwise_smallest_details_result *details);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_grating_contrast_init(struct spotwise_grating_contrast *contrast);

/**
 * The finest bar, gap, dot and hole that a spot holds in a dense raster, and the shift of an edge.
 *
 * A bar by itself, and a gap in a fill without end: both are the worst case, since neighbours add
 * dose to a bar, and a gap between narrow bars gets less than one in a fill. Heat that stays in the
 * part, melt flow and incubation are not modelled.
 *
 * @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
 *                             SPOTWISE_PARAM_SPOT_DIAMETER.
 * @param[in]  dose_ratio      fill dose over the dose at which the material just marks; range:
 *                             SPOTWISE_PARAM_DOSE_RATIO.
 * @param[out] details         result; set with spotwise_smallest_details_result_init(); not NULL.
 *                             On any status other than SPOTWISE_OK its numbers are set to a quiet
 *                             NaN.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 3 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: derived by the authors, an edge, strip or disc convolved with a Gaussian spot.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_smallest_details(double spot_diameter_m,
                                          double dose_ratio,
                                          struct spotwise_smallest_details_result *details,
                                          struct spotwise_error *error);

/**
 * Largest spot diameter at which both a stroke and a gap of these widths still hold.
 *
 * C does not notice if stroke and gap are swapped; spotwise_focus_check() takes them as named
 * members.
 *
 * @param[in]  finest_stroke_m width of the finest stroke in metres; range:
 *                             SPOTWISE_PARAM_FINEST_STROKE.
 * @param[in]  finest_gap_m    width of the finest gap in metres; range: SPOTWISE_PARAM_FINEST_GAP.
 * @param[in]  dose_ratio      fill dose over the dose at which the material just marks; range:
 *                             SPOTWISE_PARAM_DOSE_RATIO.
 * @param[out] spot_diameter_m spot diameter in metres, 1/e^2 (D4 sigma); not NULL. On any status
 *                             other than SPOTWISE_OK it is set to a quiet NaN.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 3 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: derived by the authors, as spotwise_smallest_details().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_largest_spot_for_details(double finest_stroke_m,
                                                  double finest_gap_m,
                                                  double dose_ratio,
                                                  double *spot_diameter_m,
                                                  struct spotwise_error *error);

/**
 * Contrast of a sine pattern and of equal bars and gaps at this pitch, and the dose window.
 *
 * @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
 *                             SPOTWISE_PARAM_SPOT_DIAMETER.
 * @param[in]  pitch_m         one bar and one gap in metres; range: SPOTWISE_PARAM_PITCH.
 * @param[out] contrast        result; set with spotwise_grating_contrast_init(); not NULL. On any
 *                             status other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: derived by the authors, a square wave convolved with a Gaussian spot.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_contrast_at_pitch(double spot_diameter_m,
                                           double pitch_m,
                                           struct spotwise_grating_contrast *contrast,
                                           struct spotwise_error *error);

/**
 * Pitch at which a sine pattern keeps this contrast.
 *
 * @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
 *                             SPOTWISE_PARAM_SPOT_DIAMETER.
 * @param[in]  contrast        contrast to keep, above 0 and below 1; range:
 *                             SPOTWISE_PARAM_CONTRAST.
 * @param[out] pitch_m         one period in metres; not NULL. On any status other than
 *                             SPOTWISE_OK it is set to a quiet NaN.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 3 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: derived by the authors, as spotwise_contrast_at_pitch().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_pitch_for_contrast(double spot_diameter_m,
                                            double contrast,
                                            double *pitch_m,
                                            struct spotwise_error *error);

/**
 * Sets struct_size, the choices to 0, which is none, and every number to a quiet NaN. NULL does
 * nothing.
 */
void spotwise_job_init(struct spotwise_job *job);

/**
 * Sets struct_size, also of the places, codes and flags to 0, and every number to a quiet NaN.
 * NULL does nothing.
 */
void spotwise_verdict_init(struct spotwise_verdict *verdict);

/**
 * Checks whether a drawing's finest stroke and gap hold over a surface, and says why.
 *
 * A raster fill by an ideal lens; what spotwise_focus_through_lens() and
 * spotwise_smallest_details() do not model is not in the verdict either. It is advice: engrave a
 * test piece first. A largest diameter below the waist is no error but a finding,
 * SPOTWISE_REASON_NO_DEPTH. A virtual waist is refused, since nothing is in focus behind the lens,
 * and so is a surface that reaches the lens.
 *
 * @param[in]  job     job to read; set with spotwise_job_init(); not NULL.
 * @param[out] verdict result; set with spotwise_verdict_init(); not NULL. On any status other
 *                     than SPOTWISE_OK its numbers are set to a quiet NaN, outcome, reasons and
 *                     flags to 0.
 * @param[out] error   what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (raw
 *         beam, focus setting, criterion, in this order, before any number),
 *         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (raw or
 *         focused half angle above 0.3 rad, a waist outside 1e-9 to 10 m, a virtual waist as
 *         SPOTWISE_PARAM_LENS_TO_WAIST once the optics are checked, or a surface that reaches the
 *         lens as SPOTWISE_PARAM_LENS_TO_HIGHEST once surface_rise_m is).
 *
 * Accuracy: details at most 4 ulp, all else at most 0.75 ulp
 *           (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: those of the calls named above, and of spotwise_defocus().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_focus_check(const struct spotwise_job *job,
                                     struct spotwise_verdict *verdict,
                                     struct spotwise_error *error);

/**
 * Name of a parameter in plain words, such as "waist diameter"; "unknown" for any other number.
 *
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_parameter_name(uint32_t parameter);

/**
 * SI unit of a parameter, such as "m"; empty for a pure number, "unknown" for any other number.
 *
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_parameter_unit(uint32_t parameter);

/**
 * Least and greatest value that a parameter may have, both included, in its SI unit.
 *
 * For SPOTWISE_PARAM_FOCAL_LENGTH it is the range of the magnitude, for a choice that of its
 * numbers. SPOTWISE_PARAM_OUTPUT and SPOTWISE_PARAM_TEXT have no fixed range: both ends are then
 * NaN, and the status is SPOTWISE_OK.
 *
 * @param[in]  parameter one of SPOTWISE_PARAM_*.
 * @param[out] least     least value; not NULL.
 * @param[out] greatest  greatest value; not NULL. On any status other than SPOTWISE_OK both are
 *                       set to a quiet NaN.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_UNKNOWN_CHOICE.
 *
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_parameter_range(uint32_t parameter,
                                         double *least,
                                         double *greatest);

/**
 * Version of the library as a text, such as "0.1.0".
 *
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_version_string(void);

/**
 * Version of the library's ABI: SPOTWISE_ABI_VERSION of the header that it was built with.
 *
 * Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE uint32_t spotwise_abi_version(void);

/**
 * What a status means, in a few words; "unknown" for a number that is none.
 *
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_status_text(spotwise_status status);

/**
 * One sentence for the person at the machine; "unknown" for a number that is no outcome.
 *
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_outcome_text(uint32_t outcome);

/**
 * One sentence for a reason, and what helps; "unknown" unless exactly one reason is given.
 *
 * @param[in] reason one bit, one of SPOTWISE_REASON_*.
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_reason_text(uint32_t reason);

/**
 * One sentence for a caution of a result's validity; "unknown" unless exactly one bit is given.
 *
 * @param[in] validity one bit, one of SPOTWISE_VALIDITY_* but SPOTWISE_VALIDITY_FINE.
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_validity_text(uint32_t validity);

/**
 * The cautions that whoever acts on a result must know. Show them to the user.
 *
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_caution_text(void);

#ifdef __cplusplus
}  // extern "C"
#endif  // __cplusplus

#endif  /* SPOTWISE_H */
