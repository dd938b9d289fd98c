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
 *   Every number is in the SI unit that ends its name: _m metres, _rad radians, _per_m 1/m, _per_m2
 *   and _per_m3 its powers.
 *   Names without a unit are pure numbers.
 *   A beam width is a DIAMETER at 1/e^2 of the irradiance (D4 sigma), never a radius.
 *   A place along the axis counts + ALONG the light; for a focused beam that is AWAY from the lens,
 *   and - is toward it. Before the lens a place upstream is negative (waist_z_x_m of a raw beam);
 *   only waist_to_lens_m and waist_to_expander_m, distances, are + for a waist upstream.
 *   An angle says in its name whether it is the half or the full one.
 *   A range has two named ends; "full" is from one end to the other.
 *   A clear aperture or the radius of a lens surface may be INFINITY, which means none and flat.
 *
 * HOW FAR TO TRUST A RESULT
 *   A result's validity is a set of SPOTWISE_VALIDITY_* bits; spotwise_validity_level() tells their
 *   level: fine, without any; caution, where the result stands within the error that the bit's
 *   comment states; out of domain, where its error is not known, so that the bracket beside it or a
 *   wave is the thing to look at. The numbers behind the bits stand in the result. Beyond that
 *   there is no value: the call is refused with SPOTWISE_E_OUTSIDE_MODEL, or a single number is a
 *   quiet NaN under its bit.
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
 *   refused, with the struct's init function (which also makes the lens of a job ideal). A
 *   struct_size must equal that of this ABI.
 *   Pointers must be aligned for their type, and valid for as long as the call runs. Outputs must
 *   not share memory with other arguments, except where a call says that they may.
 *   The name of a result ends in _result where a function has the shorter name.
 *   No call allocates, keeps state, sets errno or reads the locale: any may be made from any
 *   thread, and from an interrupt if the caller's FPU state is saved. Waves take up to 58 kB of
 *   stack, jobs 5 kB, all else 4 kB.
 *
 * WHAT C DOES NOT STOP
 *   Names carry the units, the compiler does not: a length in millimetres, or two arguments of one
 *   call swapped, compile. Numbers of very different size are often refused for their range, but
 *   widths and lengths that could be either one's are not: so in spotwise_focus_through_lens(),
 *   spotwise_focus_collimated(), spotwise_focus_clipped(), spotwise_clipped_depth_of_focus(),
 *   spotwise_lens_from_radii(), spotwise_lens_at_wavelength(), spotwise_gantry_spread(),
 *   spotwise_even_out_gantry(), spotwise_focus_singlet(), spotwise_singlet_defocus(),
 *   spotwise_singlet_depth_of_focus(), spotwise_tilted_spot(), spotwise_power_through_aperture(),
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
 * Raw beam known by its waist, with a beam expander on its way to the lens.
 */
#define SPOTWISE_RAW_BEAM_EXPANDED 3

/**
 * Lens of a job: nothing but its focal length is known, it is taken for ideal.
 */
#define SPOTWISE_LENS_IDEAL 1

/**
 * Lens of a job: a single piece, whose aberration and aperture count.
 */
#define SPOTWISE_LENS_SINGLET 2

/**
 * Glass: zinc selenide, ZnSe.
 */
#define SPOTWISE_GLASS_ZINC_SELENIDE 1

/**
 * Glass: germanium, Ge.
 */
#define SPOTWISE_GLASS_GERMANIUM 2

/**
 * Glass: gallium arsenide, GaAs.
 */
#define SPOTWISE_GLASS_GALLIUM_ARSENIDE 3

/**
 * Glass: fused silica, SiO2.
 */
#define SPOTWISE_GLASS_FUSED_SILICA 4

/**
 * Glass: the borosilicate crown glass N-BK7.
 */
#define SPOTWISE_GLASS_N_BK7 5

/**
 * Glass: zinc sulfide, ZnS.
 */
#define SPOTWISE_GLASS_ZINC_SULFIDE 6

/**
 * Glass: calcium fluoride, CaF2.
 */
#define SPOTWISE_GLASS_CALCIUM_FLUORIDE 7

/**
 * Glass: sapphire, Al2O3, ordinary ray.
 */
#define SPOTWISE_GLASS_SAPPHIRE 8

/**
 * Shape of a singlet: the one with the least spherical aberration for a distant source; a
 * meniscus in materials of high index.
 */
#define SPOTWISE_SHAPE_BEST_FORM 1

/**
 * Shape of a singlet: plano-convex (or plano-concave) with its curved side toward the laser.
 */
#define SPOTWISE_SHAPE_CURVED_SIDE_FIRST 2

/**
 * Shape of a singlet: plano-convex (or plano-concave) with its flat side toward the laser.
 */
#define SPOTWISE_SHAPE_FLAT_SIDE_FIRST 3

/**
 * Shape of a singlet: by its shape factor.
 */
#define SPOTWISE_SHAPE_BY_FACTOR 4

/**
 * Spot of a real lens: the second-moment (D4 sigma) waist.
 */
#define SPOTWISE_SPOT_SECOND_MOMENT 1

/**
 * Spot of a real lens: the diameter that holds 86.5 % of the power.
 */
#define SPOTWISE_SPOT_POWER_86 2

/**
 * Spot of a real lens: the handbook upper estimate, diffraction and blur added. It gives a spot but
 * no beam, so that calls off focus refuse it.
 */
#define SPOTWISE_SPOT_HANDBOOK 3

/**
 * Best focus of a wave: the greatest irradiance on the axis.
 */
#define SPOTWISE_BEST_PEAK_IRRADIANCE 1

/**
 * Best focus of a wave: the smallest diameter that holds 86.5 % of the transmitted power.
 */
#define SPOTWISE_BEST_POWER_86 2

/**
 * Best focus of a wave: the smallest second moment; only without clipping.
 */
#define SPOTWISE_BEST_SECOND_MOMENT 3

/**
 * Element of a beam path: empty space; reads length_m.
 */
#define SPOTWISE_ELEMENT_SPACE 1

/**
 * Element of a beam path: an ideal thin lens; reads focal_length_m.
 */
#define SPOTWISE_ELEMENT_THIN_LENS 2

/**
 * Element of a beam path: a flat window at right angles to the beam; reads length_m, its
 * thickness, and index.
 */
#define SPOTWISE_ELEMENT_WINDOW 3

/**
 * Element of a beam path: a beam expander of no length; reads magnification and exit_power_per_m.
 */
#define SPOTWISE_ELEMENT_EXPANDER 4

/**
 * Element of a beam path: a single-piece thin lens with third-order spherical aberration; reads
 * focal_length_m, index and shape_factor.
 */
#define SPOTWISE_ELEMENT_SINGLET 5

/**
 * The most elements that one call takes, since the library has no heap. A longer path goes on
 * with another call, whose raw beam is the beam at the end of the first one.
 */
#define SPOTWISE_PATH_MOST_ELEMENTS 32

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
 * No flag applies to the result.
 */
#define SPOTWISE_VALIDITY_FINE 0

/**
 * Caution: the half angle of the cone exceeds 0.15 rad: the paraxial formulas differ by 1.1 %
 * there, and by 4.7 % at 0.3 rad, above which a beam is refused.
 */
#define SPOTWISE_VALIDITY_WIDE_CONE 1

/**
 * Caution: a second, separate range of heights also meets the criterion (astigmatic beams and
 * waves); the range returned is the one that holds the best focus.
 */
#define SPOTWISE_VALIDITY_SECOND_RANGE 2

/**
 * Caution: the normalised aberration exceeds 0.3. The 86.5 %-power spot in focus stays within
 * 2 % of the diffraction integral (1.5 % for M^2 up to 4), its growth off focus within 20 %.
 */
#define SPOTWISE_VALIDITY_ABERRATED 4

/**
 * Out of domain: the normalised aberration exceeds 1. The second moment is exact for what it is,
 * but far above the 86.5 %-power spot, for which no closed form holds.
 */
#define SPOTWISE_VALIDITY_STRONGLY_ABERRATED 8

/**
 * Caution: the clipping ratio is below 1.8: diffraction at the aperture changes the 86.5 %-power
 * spot by up to 6 %.
 */
#define SPOTWISE_VALIDITY_CLIPPED 16

/**
 * Out of domain: the clipping ratio is below 1.5: closed forms that do not contain the aperture
 * no longer hold.
 */
#define SPOTWISE_VALIDITY_STRONGLY_CLIPPED 32

/**
 * Out of domain: the 86.5 %-power spot is refused, and where the result has fields for it they are NaN:
 * the normalised aberration exceeds 1.7, the clipping ratio of a real lens is below 1.2, its Rayleigh
 * range is above 20 % of the distance from lens to waist, or the aperture is too small for the fit.
 */
#define SPOTWISE_VALIDITY_NO_POWER_86 64

/**
 * Caution: the waist lies off the focal point by more than 5 % of the focal length, or its Rayleigh
 * range is more than 5 % of its distance from the lens. The 86.5 %-power spot of a single-piece lens is
 * within 2.3 % there and its greatest irradiance within 6 %. The widths of a clipped beam are those of
 * the focal plane; where it is brightest, nearer the lens, they are smaller by up to 1.7 times that share
 * and the irradiance higher by up to 1.6 times.
 */
#define SPOTWISE_VALIDITY_FOCUS_SHIFTED 128

/**
 * Caution: the grazing ratio of a tilted surface exceeds 0.2. The contour at 1/e^2 of the greatest
 * irradiance on the surface is longer than the footprint of the beam by up to 1.0 % in focus and shorter
 * by up to 1.1 % off focus at that limit, by 6.0 % and 7.7 % at a ratio of 0.5.
 */
#define SPOTWISE_VALIDITY_TILTED 256

/**
 * No flag applies.
 */
#define SPOTWISE_LEVEL_FINE 0

/**
 * The result stands within the error that its flags state.
 */
#define SPOTWISE_LEVEL_CAUTION 1

/**
 * The result lies outside the domain in which its error is known: compute the wave. Where the lens
 * aberrates a bracket comes with it, which knows of no aperture.
 */
#define SPOTWISE_LEVEL_OUT_OF_DOMAIN 2

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
 * Way in which a raw beam is given, as a code. Range: 1 to 3.
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
 * Material of a lens, as a code. Range: 1 to 8.
 */
#define SPOTWISE_PARAM_GLASS 45

/**
 * Refractive index of a lens, window or part. Range: 1.01 to 6.
 */
#define SPOTWISE_PARAM_REFRACTIVE_INDEX 46

/**
 * Wavelength for which a focal length is stated; that of the glass is narrower.
 * Range: 1e-8 to 1e-2 m.
 */
#define SPOTWISE_PARAM_DESIGN_WAVELENGTH 47

/**
 * Radius of the lens surface that the light meets first, + where its centre lies behind it;
 * infinite for a flat. Range of its magnitude: 1e-5 to 1e6 m.
 */
#define SPOTWISE_PARAM_FIRST_RADIUS 48

/**
 * Radius of the second lens surface, with the same sign rule.
 * Range of its magnitude: 1e-5 to 1e6 m.
 */
#define SPOTWISE_PARAM_SECOND_RADIUS 49

/**
 * Shape of a singlet, as a code. Range: 1 to 4.
 */
#define SPOTWISE_PARAM_LENS_SHAPE 50

/**
 * Shape factor of a singlet. Range: -100 to 100.
 */
#define SPOTWISE_PARAM_SHAPE_FACTOR 51

/**
 * Quartic wavefront aberration at the 1/e^2 radius, + where the edge focuses nearer the lens.
 * Range: -1e4 to 1e4 rad.
 */
#define SPOTWISE_PARAM_ABERRATION_PHASE 52

/**
 * Magnitude of the aberration phase over M^2. Range: 0 to 1.7.
 */
#define SPOTWISE_PARAM_NORMALISED_ABERRATION 53

/**
 * Diameter of the clear, round, centred aperture of a lens or mirror; infinite for none.
 * Range: 1e-9 to 100 m.
 */
#define SPOTWISE_PARAM_CLEAR_APERTURE 54

/**
 * Clear aperture over 1/e^2 beam diameter. Range: 0.2 and above.
 */
#define SPOTWISE_PARAM_CLIPPING_RATIO 55

/**
 * Which spot is to be smallest, as a code. Range: 1 to 3.
 */
#define SPOTWISE_PARAM_SPOT_MEASURE 56

/**
 * Thickness of a plate or window. Range: 0 to 10 m.
 */
#define SPOTWISE_PARAM_THICKNESS 57

/**
 * How far the lens is lowered from focus on the face of a transparent part. Range: 0 to 10 m.
 */
#define SPOTWISE_PARAM_LENS_LOWERED_BY 58

/**
 * Kind of an element of a beam path, as a code. Range: 1 to 5.
 */
#define SPOTWISE_PARAM_PATH_ELEMENT 59

/**
 * Length of empty space in a beam path. Range: 0 to 1e7 m.
 */
#define SPOTWISE_PARAM_SPACE_LENGTH 60

/**
 * Magnification of a beam expander, beam diameter behind it over that before it.
 * Range: 0.01 to 100.
 */
#define SPOTWISE_PARAM_MAGNIFICATION 61

/**
 * Power by which an expander converges the light beyond collimation. Range: -1e3 to 1e3 1/m.
 */
#define SPOTWISE_PARAM_EXIT_POWER 62

/**
 * Distance along a beam path from its start. Range: 0 to 1e7 m.
 */
#define SPOTWISE_PARAM_PATH_DISTANCE 63

/**
 * Shortest distance from the waist or the expander to the lens as a gantry moves.
 * Range: -1e7 to 1e7 m.
 */
#define SPOTWISE_PARAM_NEAREST 64

/**
 * Longest distance from the waist or the expander to the lens as a gantry moves.
 * Range: -1e7 to 1e7 m.
 */
#define SPOTWISE_PARAM_FARTHEST 65

/**
 * Distance from the beam axis. Range: 0 to 10 m.
 */
#define SPOTWISE_PARAM_RADIUS 66

/**
 * From the lens to where the unaberrated wave would converge. Range: 1e-5 to 1e4 m.
 */
#define SPOTWISE_PARAM_LENS_TO_FOCUS 67

/**
 * Defocus of a plane of a wave, in Rayleigh ranges of its focus with M^2 = 1. Range: -30 to 30.
 */
#define SPOTWISE_PARAM_NORMALISED_DEFOCUS 68

/**
 * Definition of the best focus of a wave, as a code. Range: 1 to 3.
 */
#define SPOTWISE_PARAM_FOCUS_MEASURE 69

/**
 * Kind of lens in a job, as a code. Range: 1 to 2.
 */
#define SPOTWISE_PARAM_LENS_KIND 70

/**
 * The caller's working space. No fixed range.
 */
#define SPOTWISE_PARAM_WORKSPACE 71

/**
 * Distance from the raw waist to the beam expander, + when the waist lies upstream.
 * Range: -1e7 to 1e7 m.
 */
#define SPOTWISE_PARAM_WAIST_TO_EXPANDER 72

/**
 * Distance from the beam expander to the lens. Range: 0 to 1e7 m.
 */
#define SPOTWISE_PARAM_EXPANDER_TO_LENS 73

/**
 * Radius in the plane of a wave, over the 1/e^2 radius of its focus with M^2 = 1. Range: 0 to 60.
 */
#define SPOTWISE_PARAM_NORMALISED_RADIUS 74

/**
 * Angle between the normal of the surface and the beam axis. Range: 0 to 1.5 rad.
 */
#define SPOTWISE_PARAM_TILT 75

/**
 * Tangent of the tilt times the half angle of the cone. Range: 0 to 0.9999999999999999.
 */
#define SPOTWISE_PARAM_GRAZING_RATIO 76

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
 * How far an array of results may be trusted: the flags of all of them, and the number behind.
 */
typedef struct spotwise_cone {
    /**
     * Size of this struct; spotwise_cone_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply to any of the results.
     */
    uint32_t validity;
    /**
     * Greatest 1/e^2 half angle of the beams involved in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_cone;

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
    /**
     * Greatest 1/e^2 half angle of the beams involved in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
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
    /**
     * Greatest 1/e^2 half angle of the beams involved in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
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
    /**
     * Greatest 1/e^2 half angle of the beams involved in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_astigmatic_section;

/**
 * Index of a glass at one wavelength.
 */
typedef struct spotwise_glass_index {
    /**
     * Size of this struct; spotwise_glass_index_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Refractive index.
     */
    double index;
    /**
     * Change of the index with wavelength, in 1/m.
     */
    double dispersion_per_m;
} spotwise_glass_index;

/**
 * A thin lens at another wavelength than the one for which its focal length is stated: the result
 * of spotwise_lens_at_wavelength().
 */
typedef struct spotwise_lens_at_wavelength_result {
    /**
     * Size of this struct; spotwise_lens_at_wavelength_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Refractive index at the design wavelength.
     */
    double design_index;
    /**
     * Refractive index at the other wavelength.
     */
    double index;
    /**
     * Focal length at the other wavelength in metres.
     */
    double focal_length_m;
    /**
     * Focal length at the other wavelength less that at the design wavelength in metres, + where
     * the other light focuses farther from the lens.
     */
    double focal_shift_m;
    /**
     * Shape factor, which is a matter of the radii and the same for all light.
     */
    double shape_factor;
    /**
     * k in blur = k * D^3 / f^2 at the other wavelength, f being the focal length there.
     */
    double blur_coefficient;
    /**
     * C4 in W = C4 * r^4 at the other wavelength, as in spotwise_lens_aberration_result, in 1/m^3.
     */
    double wavefront_coefficient_per_m3;
} spotwise_lens_at_wavelength_result;

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
    /**
     * Greatest 1/e^2 half angle before and behind the lens in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_focused_beam;

/**
 * An astigmatic beam behind an ideal lens: the result of spotwise_focus_astigmatic().
 */
typedef struct spotwise_astigmatic_focus {
    /**
     * Size of this struct; spotwise_astigmatic_focus_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply to the raw or the focused cone of either axis.
     */
    uint32_t validity;
    /**
     * Greatest 1/e^2 half angle before and behind the lens in either axis in radians: the number
     * behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
    /**
     * The focused beam; its z = 0 lies at the focal point of the lens.
     */
    struct spotwise_astigmatic_beam beam;
} spotwise_astigmatic_focus;

/**
 * A single-piece thin lens with spherical surfaces.
 */
typedef struct spotwise_singlet {
    /**
     * Size of this struct; spotwise_singlet_init() sets it.
     */
    uint32_t struct_size;
    /**
     * One of SPOTWISE_SHAPE_*.
     */
    uint32_t lens_shape;
    /**
     * Refractive index at the working wavelength, as spotwise_refractive_index() tells it; range:
     * SPOTWISE_PARAM_REFRACTIVE_INDEX.
     */
    double index;
    /**
     * Shape factor (R2 + R1)/(R2 - R1): 0 is equiconvex, +1 has its curved side toward the laser;
     * for SPOTWISE_SHAPE_BY_FACTOR; range: SPOTWISE_PARAM_SHAPE_FACTOR.
     */
    double shape_factor;
    /**
     * Focal length at the working wavelength in metres, + converging; range:
     * SPOTWISE_PARAM_FOCAL_LENGTH.
     */
    double focal_length_m;
} spotwise_singlet;

/**
 * A thin lens as its two radii make it.
 */
typedef struct spotwise_lens_form {
    /**
     * Size of this struct; spotwise_lens_form_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Focal length in metres, + converging.
     */
    double focal_length_m;
    /**
     * Shape factor (R2 + R1)/(R2 - R1).
     */
    double shape_factor;
} spotwise_lens_form;

/**
 * Third-order spherical aberration of a lens for a distant source: the result of
 * spotwise_lens_aberration().
 */
typedef struct spotwise_lens_aberration_result {
    /**
     * Size of this struct; spotwise_lens_aberration_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Shape factor.
     */
    double shape_factor;
    /**
     * k in blur = k * D^3 / f^2, the circle of least confusion of a sharp-edged bundle of diameter D.
     */
    double blur_coefficient;
    /**
     * C4 in W = C4 * r^4, the wavefront error in metres at the distance r from the axis, in 1/m^3.
     */
    double wavefront_coefficient_per_m3;
} spotwise_lens_aberration_result;

/**
 * What quartic aberration does to a focus: the result of spotwise_aberration_growth().
 */
typedef struct spotwise_aberration_growth_result {
    /**
     * Size of this struct; spotwise_aberration_growth_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * M^2 of the aberrated beam by second moments.
     */
    double second_moment_m2;
    /**
     * Second-moment (D4 sigma) waist over the ideal waist.
     */
    double second_moment_growth;
    /**
     * From the ideal to the second-moment waist, in ideal Rayleigh ranges, + away from the lens.
     */
    double second_moment_shift;
    /**
     * Least diameter that holds 86.5 % of the power, over the ideal waist; NaN, as the next, if
     * refused (SPOTWISE_VALIDITY_NO_POWER_86).
     */
    double power86_growth;
    /**
     * From the ideal waist to the plane of that least diameter, in ideal Rayleigh ranges, + away
     * from the lens.
     */
    double power86_shift;
    /**
     * Handbook upper estimate of that growth: diffraction and blur added.
     */
    double handbook_growth;
    /**
     * Lower end of the bracket: diffraction and blur added as squares.
     */
    double quadrature_growth;
    /**
     * Greatest irradiance on the axis over that of the ideal focus; NaN if refused.
     */
    double peak_irradiance_ratio;
    /**
     * Magnitude of the aberration phase over M^2: the number behind the flags.
     */
    double normalised_aberration;
} spotwise_aberration_growth_result;

/**
 * The focus of a real lens by one measure: a beam about a waist of its own. What it does off focus is
 * told by spotwise_singlet_defocus() and spotwise_singlet_depth_of_focus(), whose results carry the
 * flags of the lens on; a spotwise_beam put together from these numbers would not.
 */
typedef struct spotwise_aberrated_waist {
    /**
     * Size of this struct; set where it is part of a spotwise_singlet_focus.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Waist diameter in metres, by the measure that the name of the member tells.
     */
    double waist_diameter_m;
    /**
     * M^2 that gives this waist this Rayleigh range.
     */
    double m2;
    /**
     * Distance from the waist at which its diameter has grown by sqrt(2), in metres.
     */
    double rayleigh_range_m;
    /**
     * From the ideal waist to this one in metres, + away from the lens.
     */
    double shift_m;
    /**
     * From the lens to this waist in metres.
     */
    double lens_to_waist_m;
} spotwise_aberrated_waist;

/**
 * What a real single-piece lens makes of a beam.
 */
typedef struct spotwise_singlet_focus {
    /**
     * Size of this struct; spotwise_singlet_focus_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Handbook upper estimate of the spot diameter in metres: diffraction and blur added.
     */
    double handbook_diameter_m;
    /**
     * Lower end of the bracket in metres: diffraction and blur added as squares.
     */
    double quadrature_diameter_m;
    /**
     * Greatest irradiance on the axis over that of the ideal focus; NaN if refused.
     */
    double peak_irradiance_ratio;
    /**
     * Shape factor of the lens.
     */
    double shape_factor;
    /**
     * Quartic wavefront aberration at the 1/e^2 radius in radians, + where the edge of the beam
     * focuses nearer the lens.
     */
    double aberration_phase_rad;
    /**
     * Magnitude of the aberration phase over M^2.
     */
    double normalised_aberration;
    /**
     * Clear aperture over beam diameter at the lens; infinite without an aperture.
     */
    double clipping_ratio;
    /**
     * Share of the power that passes the aperture.
     */
    double transmitted;
    /**
     * Magnitude of the focus shift of the ideal lens over its focal length.
     */
    double relative_focus_shift;
    /**
     * Rayleigh range of the ideal waist over the magnitude of its distance from the lens.
     */
    double relative_rayleigh_range;
    /**
     * From the lens to where the beam would converge by rays, without diffraction and aberration, in
     * metres: the lens_to_focus_m that a spotwise_wave asks for. Infinite where it would be collimated.
     */
    double lens_to_focus_m;
    /**
     * Greatest 1/e^2 half angle in radians, of the raw beam, the ideal focus or that by second
     * moments: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
    /**
     * What an ideal lens of the same focal length would have made of it. Its validity is that of
     * the cones and does not say what the real lens's does.
     */
    struct spotwise_focused_beam ideal;
    /**
     * The waist by second moments (D4 sigma), exact for a quartic wavefront without clipping.
     */
    struct spotwise_aberrated_waist second_moment;
    /**
     * The least diameter that holds 86.5 % of the power, by a fitted closed form; NaN if refused
     * (SPOTWISE_VALIDITY_NO_POWER_86).
     */
    struct spotwise_aberrated_waist power86;
} spotwise_singlet_focus;

/**
 * The beam that a lens focuses to its smallest spot: the result of spotwise_smallest_spot().
 */
typedef struct spotwise_smallest_spot_result {
    /**
     * Size of this struct; spotwise_smallest_spot_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Diameter of the collimated beam at the lens in metres, 1/e^2 (D4 sigma).
     */
    double diameter_at_lens_m;
    /**
     * The spot diameter that it makes in metres, by the measure asked for.
     */
    double spot_diameter_m;
    /**
     * Aberration phase at the 1/e^2 radius of that beam in radians.
     */
    double aberration_phase_rad;
    /**
     * Magnitude of the aberration phase over M^2.
     */
    double normalised_aberration;
    /**
     * Rayleigh range of the ideal waist over the focal length: the number behind
     * SPOTWISE_VALIDITY_FOCUS_SHIFTED.
     */
    double relative_rayleigh_range;
    /**
     * Half angle of the converging cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_smallest_spot_result;

/**
 * The focus of a clipped Gaussian beam.
 */
typedef struct spotwise_clipped_focus {
    /**
     * Size of this struct; spotwise_clipped_focus_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Clear aperture over 1/e^2 beam diameter; infinite without an aperture.
     */
    double clipping_ratio;
    /**
     * Share of the power that passes.
     */
    double transmitted;
    /**
     * Diameter at 1/e^2 of the irradiance in metres.
     */
    double diameter_1e2_m;
    /**
     * Full width at half maximum in metres.
     */
    double fwhm_m;
    /**
     * Diameter that holds 86.4665 % of the transmitted power in metres; NaN if refused
     * (SPOTWISE_VALIDITY_NO_POWER_86).
     */
    double diameter_power86_m;
    /**
     * Irradiance on the axis in focus over that of the same beam unclipped.
     */
    double peak_irradiance_ratio;
    /**
     * Rayleigh range 4 * wavelength * f^2/(pi * D^2), D being the narrower of beam and aperture,
     * over the focal length: the number behind SPOTWISE_VALIDITY_FOCUS_SHIFTED.
     */
    double relative_rayleigh_range;
    /**
     * Half angle of the cone behind the aperture in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_clipped_focus;

/**
 * How much the focus varies over the travel of a lens: the result of spotwise_gantry_spread().
 */
typedef struct spotwise_gantry_spread_result {
    /**
     * Size of this struct; spotwise_gantry_spread_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Smallest spot diameter on the travel in metres, 1/e^2 (D4 sigma).
     */
    double smallest_spot_m;
    /**
     * Largest spot diameter on the travel in metres, 1/e^2 (D4 sigma).
     */
    double largest_spot_m;
    /**
     * Largest over smallest spot.
     */
    double spot_ratio;
    /**
     * Least focus shift on the travel in metres, from the focal point, + away from the lens.
     */
    double least_focus_shift_m;
    /**
     * Greatest focus shift on the travel in metres.
     */
    double greatest_focus_shift_m;
    /**
     * Greatest less least focus shift in metres: how far the focus wanders in height.
     */
    double focus_wander_m;
    /**
     * Greatest 1/e^2 half angle before and behind the lens in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_gantry_spread_result;

/**
 * The setting of a beam expander that evens out the spot over the travel of a lens.
 */
typedef struct spotwise_even_gantry {
    /**
     * Size of this struct; spotwise_even_gantry_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 1 if the spots at both ends of the travel are equal; 0 if the beam is too thin to carry its
     * waist to mid-travel, so that this setting only makes them least unequal.
     */
    uint32_t ends_equal;
    /**
     * By how much the expander must converge collimated light, in 1/m.
     */
    double exit_power_per_m;
    /**
     * Waist diameter behind the expander in metres, 1/e^2 (D4 sigma).
     */
    double waist_diameter_m;
    /**
     * From the expander to that waist in metres, + along the light.
     */
    double expander_to_waist_m;
    /**
     * How the focus then varies; the SPOTWISE_VALIDITY_* bits are in it.
     */
    struct spotwise_gantry_spread_result spread;
} spotwise_even_gantry;

/**
 * One element of a beam path. Only the numbers that its kind names are read.
 */
typedef struct spotwise_path_element {
    /**
     * Size of this struct; spotwise_path_element_init() sets it.
     */
    uint32_t struct_size;
    /**
     * One of SPOTWISE_ELEMENT_*.
     */
    uint32_t element;
    /**
     * Length of a space, or thickness of a window, in metres; range: SPOTWISE_PARAM_SPACE_LENGTH or
     * SPOTWISE_PARAM_THICKNESS.
     */
    double length_m;
    /**
     * Focal length of a thin lens or a singlet in metres, + converging; range:
     * SPOTWISE_PARAM_FOCAL_LENGTH.
     */
    double focal_length_m;
    /**
     * Refractive index of a window or a singlet; range: SPOTWISE_PARAM_REFRACTIVE_INDEX.
     */
    double index;
    /**
     * Beam diameter behind an expander over that before it, below 1 for a reducer; range:
     * SPOTWISE_PARAM_MAGNIFICATION.
     */
    double magnification;
    /**
     * By how much an expander converges collimated light, in 1/m: 0 when set to infinity, +
     * converging; range: SPOTWISE_PARAM_EXIT_POWER.
     */
    double exit_power_per_m;
    /**
     * Shape factor of a singlet, as in spotwise_singlet; range: SPOTWISE_PARAM_SHAPE_FACTOR.
     */
    double shape_factor;
} spotwise_path_element;

/**
 * A beam at one place of its path.
 */
typedef struct spotwise_path_beam {
    /**
     * Size of this struct; spotwise_path_beam_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply to the path up to here.
     */
    uint32_t validity;
    /**
     * Diameter in x there in metres, 1/e^2 (D4 sigma).
     */
    double diameter_x_m;
    /**
     * Diameter in y there in metres, 1/e^2 (D4 sigma).
     */
    double diameter_y_m;
    /**
     * Distance from the start of the path in metres.
     */
    double distance_m;
    /**
     * Greatest normalised aberration of the singlets passed, of either axis.
     */
    double normalised_aberration;
    /**
     * Greatest 1/e^2 half angle along the path up to there in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
    /**
     * The beam there; its z = 0 lies at this place. Inside a window it is the beam in air that has
     * the same waist diameter and cone.
     */
    struct spotwise_astigmatic_beam beam;
} spotwise_path_beam;

/**
 * What a flat plate does to a focus behind it.
 */
typedef struct spotwise_plate_focus {
    /**
     * Size of this struct; spotwise_plate_focus_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * How far the waist moves in metres, + away from the lens.
     */
    double focus_shift_m;
    /**
     * How far the crossing of the rays at the 1/e^2 cone moves in metres, + away from the lens.
     */
    double edge_focus_shift_m;
    /**
     * Quartic wavefront aberration of the plate at the 1/e^2 radius in radians, negative: of the
     * opposite sign to that of a converging singlet.
     */
    double aberration_phase_rad;
    /**
     * Magnitude of the aberration phase over M^2.
     */
    double normalised_aberration;
    /**
     * Half angle of the cone in air in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_plate_focus;

/**
 * A focus inside a transparent part.
 */
typedef struct spotwise_inside_focus {
    /**
     * Size of this struct; spotwise_inside_focus_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * From the face of the part to the waist in metres.
     */
    double depth_m;
    /**
     * From the face to the crossing of the rays at the 1/e^2 cone in metres.
     */
    double edge_depth_m;
    /**
     * Rayleigh range inside the part in metres; the waist diameter is that in air.
     */
    double rayleigh_range_m;
    /**
     * Quartic wavefront aberration at the 1/e^2 radius in radians, negative.
     */
    double aberration_phase_rad;
    /**
     * Magnitude of the aberration phase over M^2.
     */
    double normalised_aberration;
    /**
     * Half angle of the cone in air in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_inside_focus;

/**
 * A converging wave as a lens hands it on. State a clear aperture where there is one: it saves time
 * besides being true.
 */
typedef struct spotwise_wave {
    /**
     * Size of this struct; spotwise_wave_init() sets it.
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
     * Beam propagation ratio M^2 before aperture and aberration, of a Gaussian Schell-model beam;
     * range: SPOTWISE_PARAM_M2. Here at most 5.
     */
    double m2;
    /**
     * Diameter at the lens before the aperture in metres, 1/e^2 (D4 sigma); range:
     * SPOTWISE_PARAM_DIAMETER_AT_LENS.
     */
    double diameter_at_lens_m;
    /**
     * Diameter of the clear aperture in metres, INFINITY for none; range:
     * SPOTWISE_PARAM_CLEAR_APERTURE.
     */
    double clear_aperture_m;
    /**
     * From the lens to where the unaberrated wave would converge in metres; range:
     * SPOTWISE_PARAM_LENS_TO_FOCUS. It is a member of spotwise_singlet_focus.
     */
    double lens_to_focus_m;
    /**
     * Quartic wavefront aberration at the 1/e^2 radius in radians, + where the edge focuses nearer the
     * lens; range: SPOTWISE_PARAM_ABERRATION_PHASE. Here -6 to 6.
     */
    double aberration_phase_rad;
} spotwise_wave;

/**
 * Irradiance of a wave at one point: the result of spotwise_wave_irradiance().
 */
typedef struct spotwise_wave_irradiance_result {
    /**
     * Size of this struct; spotwise_wave_irradiance_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply: only the cone is in question.
     */
    uint32_t validity;
    /**
     * Irradiance over that at the focus of the same beam without aperture and aberration.
     */
    double irradiance_ratio;
    /**
     * Irradiance for each watt before the aperture, in 1/m^2.
     */
    double irradiance_per_watt_per_m2;
    /**
     * Bound on the numerical error of irradiance_ratio.
     */
    double error_bound;
    /**
     * Half angle of the cone behind the aperture in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_wave_irradiance_result;

/**
 * Power of a wave inside a circle about the axis: the result of spotwise_wave_power().
 */
typedef struct spotwise_wave_power_result {
    /**
     * Size of this struct; spotwise_wave_power_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply: only the cone is in question.
     */
    uint32_t validity;
    /**
     * Share of the power before the aperture.
     */
    double share;
    /**
     * Share of the power that passes the aperture.
     */
    double share_of_transmitted;
    /**
     * Bound on the numerical error of share.
     */
    double error_bound;
    /**
     * Half angle of the cone behind the aperture in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_wave_power_result;

/**
 * Widths of a wave in one plane: the result of spotwise_wave_widths().
 */
typedef struct spotwise_wave_widths_result {
    /**
     * Size of this struct; spotwise_wave_widths_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply: only the cone is in question.
     */
    uint32_t validity;
    /**
     * Irradiance on the axis over that at the focus of the same beam without aperture and aberration.
     */
    double irradiance_ratio;
    /**
     * Diameter of the outermost circle at 1/e^2 of the greatest irradiance in this plane, in metres.
     */
    double diameter_1e2_m;
    /**
     * Diameter of the outermost circle at half the greatest irradiance in this plane, in metres.
     */
    double fwhm_m;
    /**
     * Diameter that holds 86.4665 % of the transmitted power, in metres.
     */
    double diameter_power86_m;
    /**
     * Share of the power that passes the aperture.
     */
    double transmitted;
    /**
     * Bound on the relative numerical error of the diameters.
     */
    double error_bound;
    /**
     * Half angle of the cone behind the aperture in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_wave_widths_result;

/**
 * The best focus of a wave by one measure: the result of spotwise_wave_focus().
 */
typedef struct spotwise_wave_focus_result {
    /**
     * Size of this struct; spotwise_wave_focus_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply: only the cone is in question.
     */
    uint32_t validity;
    /**
     * From where the unaberrated wave would converge to this plane in metres, + away from the lens.
     */
    double z_m;
    /**
     * Irradiance on the axis there over that at the focus of the same beam without aperture and
     * aberration.
     */
    double irradiance_ratio;
    /**
     * Diameter that holds 86.4665 % of the transmitted power there, in metres.
     */
    double diameter_power86_m;
    /**
     * Second-moment (D4 sigma) diameter there in metres; NaN for a clipped beam, which has none.
     */
    double diameter_d4sigma_m;
    /**
     * Bound on the relative numerical error of the least diameter or greatest irradiance.
     */
    double error_bound;
    /**
     * Half angle of the cone behind the aperture in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_wave_focus_result;

/**
 * What is known of a whole map of irradiances: the result of spotwise_wave_map().
 */
typedef struct spotwise_wave_map_result {
    /**
     * Size of this struct; spotwise_wave_map_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply: only the cone is in question.
     */
    uint32_t validity;
    /**
     * Bound on the numerical error of every irradiance ratio of the map.
     */
    double error_bound;
    /**
     * Half angle of the cone behind the aperture in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_wave_map_result;

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
    /**
     * Greatest 1/e^2 half angle of the beams involved in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
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
    /**
     * Greatest 1/e^2 half angle of the beams involved in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
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
    /**
     * Greatest 1/e^2 half angle of the beams involved in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_focus_range;

/**
 * Depth of focus of a clipped beam. Heights count from the focal point, + away from the lens.
 */
typedef struct spotwise_clipped_depth {
    /**
     * Size of this struct; spotwise_clipped_depth_init() sets it.
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
    /**
     * Half angle of the cone behind the aperture in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
    /**
     * The brightest place on the axis in metres.
     */
    double brightest_z_m;
    /**
     * Clear aperture over 1/e^2 beam diameter; infinite without an aperture.
     */
    double clipping_ratio;
    /**
     * Rayleigh range 4 * wavelength * f^2/(pi * D^2), D being the narrower of beam and aperture,
     * over the focal length: a number behind SPOTWISE_VALIDITY_FOCUS_SHIFTED.
     */
    double relative_rayleigh_range;
    /**
     * Half of the full range over the focal length: the other number behind that flag.
     */
    double relative_half_depth;
} spotwise_clipped_depth;

/**
 * Depth of focus of a wave, about its best focus.
 */
typedef struct spotwise_wave_depth {
    /**
     * Size of this struct; spotwise_wave_depth_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * From where the unaberrated wave would converge to the best focus in metres, + away from the
     * lens.
     */
    double best_z_m;
    /**
     * The end nearer the lens in metres, counted from the best focus, + away from the lens. The two
     * ends differ in length where the lens aberrates.
     */
    double toward_lens_z_m;
    /**
     * The end farther from the lens in metres, counted from the best focus.
     */
    double away_from_lens_z_m;
    /**
     * From one end to the other in metres.
     */
    double full_m;
    /**
     * Bound on the numerical error of the ends in metres.
     */
    double error_bound_m;
    /**
     * Half angle of the cone behind the aperture in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_wave_depth;

/**
 * A surface off the focus of a single-piece lens: the result of spotwise_singlet_defocus().
 */
typedef struct spotwise_singlet_defocus_result {
    /**
     * Size of this struct; spotwise_singlet_defocus_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply, those of the lens among them.
     */
    uint32_t validity;
    /**
     * Spot diameter on the surface in metres, by the measure asked for.
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
    /**
     * Greatest 1/e^2 half angle of the beams involved in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
    /**
     * Magnitude of the aberration phase over M^2: the number behind the flags of aberration.
     */
    double normalised_aberration;
    /**
     * Clear aperture over beam diameter at the lens, infinite without an aperture: the number behind
     * the flags of clipping.
     */
    double clipping_ratio;
    /**
     * Magnitude of the focus shift of the ideal lens over its focal length: a number behind
     * SPOTWISE_VALIDITY_FOCUS_SHIFTED.
     */
    double relative_focus_shift;
    /**
     * Rayleigh range of the ideal waist over the magnitude of its distance from the lens: the other
     * number behind that flag.
     */
    double relative_rayleigh_range;
} spotwise_singlet_defocus_result;

/**
 * Depth of focus behind a single-piece lens. Heights count from the waist of the measure asked for, + away
 * from the lens.
 */
typedef struct spotwise_singlet_depth {
    /**
     * Size of this struct; spotwise_singlet_depth_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply, those of the lens among them.
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
    /**
     * Greatest 1/e^2 half angle of the beams involved in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
    /**
     * Magnitude of the aberration phase over M^2: the number behind the flags of aberration.
     */
    double normalised_aberration;
    /**
     * Clear aperture over beam diameter at the lens, infinite without an aperture: the number behind
     * the flags of clipping.
     */
    double clipping_ratio;
    /**
     * Magnitude of the focus shift of the ideal lens over its focal length: a number behind
     * SPOTWISE_VALIDITY_FOCUS_SHIFTED.
     */
    double relative_focus_shift;
    /**
     * Rayleigh range of the ideal waist over the magnitude of its distance from the lens: the other
     * number behind that flag.
     */
    double relative_rayleigh_range;
} spotwise_singlet_depth;

/**
 * A round beam on a tilted surface: the result of spotwise_tilted_spot().
 */
typedef struct spotwise_tilted_spot_result {
    /**
     * Size of this struct; spotwise_tilted_spot_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Diameter of the footprint across the tilt in metres, 1/e^2 (D4 sigma).
     */
    double diameter_across_m;
    /**
     * Diameter of the footprint along the tilt in metres, measured on the surface.
     */
    double diameter_along_m;
    /**
     * Length along the tilt of the ellipse in which the surface cuts the hyperboloid of the 1/e^2
     * radius, in metres.
     */
    double contour_along_m;
    /**
     * From the beam axis to the centre of that ellipse in metres, along the surface, + to the side
     * that lies farther from the lens.
     */
    double contour_shift_m;
    /**
     * Irradiance on the axis, for each area of the surface, over that at the waist on a level surface.
     */
    double irradiance_ratio;
    /**
     * Peak dose of a scanned line over that at the waist on a level surface.
     */
    double line_dose_ratio;
    /**
     * Grazing ratio: the tangent of the tilt times the half angle of the cone; the number behind
     * SPOTWISE_VALIDITY_TILTED.
     */
    double grazing_ratio;
    /**
     * Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_tilted_spot_result;

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
     * Raw beam's waist diameter in metres, 1/e^2 (D4 sigma), before any expander; for
     * SPOTWISE_RAW_BEAM_WAIST and SPOTWISE_RAW_BEAM_EXPANDED; range: SPOTWISE_PARAM_WAIST_DIAMETER.
     */
    double waist_diameter_m;
    /**
     * From the raw waist to the lens in metres, + when the waist lies upstream; for
     * SPOTWISE_RAW_BEAM_WAIST; range: SPOTWISE_PARAM_WAIST_TO_LENS. The waist_z_x_m of an
     * astigmatic beam counts the other way round.
     */
    double waist_to_lens_m;
    /**
     * Focal length of the lens at the working wavelength in metres, converging; range:
     * SPOTWISE_PARAM_FOCAL_LENGTH.
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
    /**
     * From the raw waist to the beam expander in metres, + when the waist lies upstream; for
     * SPOTWISE_RAW_BEAM_EXPANDED; range: SPOTWISE_PARAM_WAIST_TO_EXPANDER.
     */
    double waist_to_expander_m;
    /**
     * Beam diameter behind the expander over that before it; for SPOTWISE_RAW_BEAM_EXPANDED; range:
     * SPOTWISE_PARAM_MAGNIFICATION.
     */
    double magnification;
    /**
     * By how much the expander converges collimated light, in 1/m, 0 when set to infinity; for
     * SPOTWISE_RAW_BEAM_EXPANDED; range: SPOTWISE_PARAM_EXIT_POWER.
     */
    double exit_power_per_m;
    /**
     * From the expander to the lens in metres; for SPOTWISE_RAW_BEAM_EXPANDED; range:
     * SPOTWISE_PARAM_EXPANDER_TO_LENS.
     */
    double expander_to_lens_m;
    /**
     * What is known of the lens besides its focal length: one of SPOTWISE_LENS_*;
     * spotwise_job_init() sets SPOTWISE_LENS_IDEAL.
     */
    uint32_t lens;
    /**
     * Material of the lens: one of SPOTWISE_GLASS_*; for SPOTWISE_LENS_SINGLET.
     */
    uint32_t glass;
    /**
     * Shape of the lens: one of SPOTWISE_SHAPE_*; for SPOTWISE_LENS_SINGLET.
     */
    uint32_t lens_shape;
    /**
     * Not read.
     */
    uint32_t reserved;
    /**
     * Shape factor of the lens, as in spotwise_singlet; for SPOTWISE_LENS_SINGLET with
     * SPOTWISE_SHAPE_BY_FACTOR; range: SPOTWISE_PARAM_SHAPE_FACTOR.
     */
    double shape_factor;
    /**
     * Diameter of the clear aperture of the lens or its mount in metres, INFINITY if unknown, which
     * spotwise_job_init() sets; for SPOTWISE_LENS_SINGLET; range: SPOTWISE_PARAM_CLEAR_APERTURE.
     */
    double clear_aperture_m;
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
 * focus_z_m and best_focus_z_m, which count from the datum of the surface. For a real lens "the
 * waist" of heights and places is that of its 86.5 %-power spot, real.power86.
 */
typedef struct spotwise_verdict {
    /**
     * Size of this struct; spotwise_verdict_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
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
     * Waist diameter behind the lens, taken for ideal, in metres, 1/e^2 (D4 sigma): the spot in
     * focus. What a real lens makes of it is in real.
     */
    double waist_diameter_m;
    /**
     * Rayleigh range behind the ideal lens in metres.
     */
    double rayleigh_range_m;
    /**
     * Far-field full angle of the focused cone in radians.
     */
    double divergence_full_angle_rad;
    /**
     * New waist over the waist before the lens.
     */
    double magnification;
    /**
     * From the focal point to the ideal lens's waist in metres, + away from the lens.
     */
    double focus_shift_m;
    /**
     * From the lens to the ideal lens's waist in metres, never negative: a virtual waist is refused.
     */
    double lens_to_waist_m;
    /**
     * Diameter of the raw beam where it meets the lens in metres, 1/e^2 (D4 sigma).
     */
    double diameter_at_lens_m;
    /**
     * Greatest 1/e^2 half angle before and behind the ideal lens in radians.
     */
    double half_angle_rad;
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
    /**
     * What an ideal lens would have promised: the outcome of the same job with its lens taken for
     * ideal, one of SPOTWISE_OUTCOME_*; 0 if the call failed.
     */
    uint32_t promised;
    /**
     * 1 if the job names a real lens, so that real holds numbers; else 0.
     */
    uint32_t has_real;
    /**
     * What the real lens makes of the beam; blank, all NaN, without one.
     */
    struct spotwise_singlet_focus real;
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
void spotwise_cone_init(struct spotwise_cone *cone);

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
 * @param[out] cone       cone of the beam and its flags; set with spotwise_cone_init(); not NULL. On
 *                        any status other than SPOTWISE_OK its number is set to a quiet NaN.
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
                                      struct spotwise_cone *cone,
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
 * Name of a glass in plain words, such as "zinc selenide"; "unknown" for any other number.
 *
 * @param[in] glass one of SPOTWISE_GLASS_*.
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_glass_name(uint32_t glass);

/**
 * Where the dispersion formula of a glass was published; "unknown" for any other number.
 *
 * @param[in] glass one of SPOTWISE_GLASS_*.
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_glass_source(uint32_t glass);

/**
 * Least and greatest vacuum wavelength of a glass's published formula, both included, in metres.
 *
 * @param[in]  glass      one of SPOTWISE_GLASS_*.
 * @param[out] least_m    least wavelength in metres; not NULL.
 * @param[out] greatest_m greatest wavelength in metres; not NULL. On any status other than
 *                        SPOTWISE_OK both are set to a quiet NaN.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_UNKNOWN_CHOICE.
 *
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE spotwise_status spotwise_glass_range(uint32_t glass, double *least_m, double *greatest_m);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_glass_index_init(struct spotwise_glass_index *index);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_lens_at_wavelength_result_init(struct spotwise_lens_at_wavelength_result *lens);

/**
 * Refractive index of a glass by its published dispersion formula, and how it changes with
 * wavelength.
 *
 * Temperature and absorption are not modelled: each formula holds near 20 to 24 degrees Celsius,
 * and makers and melts differ by 1e-4 to 1e-3 of the index (from memory).
 *
 * @param[in]  glass        one of SPOTWISE_GLASS_*.
 * @param[in]  wavelength_m vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH. That of the
 *                          glass is narrower: spotwise_glass_range().
 * @param[out] index        result; set with spotwise_glass_index_init(); not NULL. On any status
 *                          other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error        what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE,
 *         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (the error carries the glass's range).
 *
 * Accuracy: index at most 2 ulp, dispersion at most 4 ulp (units in the last place) of the
 *           published formula.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: spotwise_glass_source().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_refractive_index(uint32_t glass,
                                          double wavelength_m,
                                          struct spotwise_glass_index *index,
                                          struct spotwise_error *error);

/**
 * Focal length and aberration of a thin lens at another wavelength than the one for which it is
 * stated.
 *
 * Tells how far the focus moves from one laser line to another, and where, and how sharp, a visible
 * pointer through the same lens comes to its own. Holds for a lens of one material. The shape is that
 * to which the lens was ground: a best form is one at the design wavelength. C does not notice if the
 * two wavelengths are swapped.
 *
 * @param[in]  glass               one of SPOTWISE_GLASS_*.
 * @param[in]  lens_shape          one of SPOTWISE_SHAPE_*.
 * @param[in]  shape_factor        shape factor as in spotwise_singlet, read for
 *                                 SPOTWISE_SHAPE_BY_FACTOR only; range: SPOTWISE_PARAM_SHAPE_FACTOR.
 * @param[in]  focal_length_m      focal length at the design wavelength in metres, + converging;
 *                                 range: SPOTWISE_PARAM_FOCAL_LENGTH.
 * @param[in]  design_wavelength_m vacuum wavelength for which it is stated, in metres; range:
 *                                 SPOTWISE_PARAM_DESIGN_WAVELENGTH. That of the glass is narrower:
 *                                 spotwise_glass_range().
 * @param[in]  wavelength_m        the other vacuum wavelength in metres; range:
 *                                 SPOTWISE_PARAM_WAVELENGTH. That of the glass is narrower.
 * @param[out] lens                result; set with spotwise_lens_at_wavelength_result_init(); not
 *                                 NULL. On any status other than SPOTWISE_OK its numbers are set to a
 *                                 quiet NaN.
 * @param[out] error               what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (glass, then
 *         shape),
 *         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (the error carries the glass's range).
 *
 * Accuracy: indices and shape factor at most 2 ulp, all else at most 4 ulp (units in the last place)
 *           of the exact result, for any two wavelengths however close.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: spotwise_glass_source(); a thin lens's power is proportional to its index less one; the
 * aberration as spotwise_lens_aberration().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_lens_at_wavelength(uint32_t glass,
                                            uint32_t lens_shape,
                                            double shape_factor,
                                            double focal_length_m,
                                            double design_wavelength_m,
                                            double wavelength_m,
                                            struct spotwise_lens_at_wavelength_result *lens,
                                            struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_focused_beam_init(struct spotwise_focused_beam *focused);

/**
 * Sets struct_size, also of the beam, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_astigmatic_focus_init(struct spotwise_astigmatic_focus *focused);

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
 * The raw beam has its z = 0 at the lens, so that a raw waist upstream has a negative z. The focused
 * one has its z = 0 at the focal point of the lens. Both count + along the light.
 *
 * @param[in]  raw            raw beam; set with spotwise_astigmatic_beam_init(), z = 0 at the
 *                            lens; not NULL.
 * @param[in]  focal_length_m focal length in metres, + converging; range:
 *                            SPOTWISE_PARAM_FOCAL_LENGTH.
 * @param[out] focused        result; set with spotwise_astigmatic_focus_init(); not NULL. raw may be
 *                            its beam. On any status other than SPOTWISE_OK its numbers are set to a
 *                            quiet NaN.
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
                                          struct spotwise_astigmatic_focus *focused,
                                          struct spotwise_error *error);

/**
 * Sets struct_size, the shape to 0, which is none, and every number to a quiet NaN. NULL does
 * nothing.
 */
void spotwise_singlet_init(struct spotwise_singlet *lens);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_lens_form_init(struct spotwise_lens_form *form);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_lens_aberration_result_init(struct spotwise_lens_aberration_result *aberration);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_aberration_growth_result_init(struct spotwise_aberration_growth_result *growth);

/**
 * Sets struct_size, also of the nested structs, flags to 0, and every number to a quiet NaN. NULL
 * does nothing.
 */
void spotwise_singlet_focus_init(struct spotwise_singlet_focus *focus);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_smallest_spot_result_init(struct spotwise_smallest_spot_result *spot);

/**
 * Focal length and shape factor of a thin lens with these two spherical surfaces.
 *
 * A radius is + where the centre of the sphere lies on the far side of the surface, so that a
 * biconvex lens has a first radius > 0 and a second radius < 0; either infinity is a flat. C does not
 * notice if the two radii are swapped, which turns the lens around.
 *
 * @param[in]  index           refractive index; range: SPOTWISE_PARAM_REFRACTIVE_INDEX.
 * @param[in]  first_radius_m  radius of the surface that the light meets first in metres; range:
 *                             SPOTWISE_PARAM_FIRST_RADIUS.
 * @param[in]  second_radius_m radius of the other surface in metres; range:
 *                             SPOTWISE_PARAM_SECOND_RADIUS.
 * @param[out] form            result; set with spotwise_lens_form_init(); not NULL. On any status
 *                             other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (focal length or shape factor out of
 *         range, as with two equal radii, which make no lens).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: the equation of a thin lens, from memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_lens_from_radii(double index,
                                         double first_radius_m,
                                         double second_radius_m,
                                         struct spotwise_lens_form *form,
                                         struct spotwise_error *error);

/**
 * Third-order spherical aberration of a lens for a distant source.
 *
 * @param[in]  lens       lens to read; set with spotwise_singlet_init(); not NULL.
 * @param[out] aberration result; set with spotwise_lens_aberration_result_init(); not NULL. On any
 *                        status other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error      what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (shape),
 *         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the third-order value; a real thick lens
 *           differs from it by up to 3 %.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: textbook form of the aberration of a thin lens (for example W. J. Smith, Modern Optical
 * Engineering), from memory; verified by exact ray traces.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_lens_aberration(const struct spotwise_singlet *lens,
                                         struct spotwise_lens_aberration_result *aberration,
                                         struct spotwise_error *error);

/**
 * What a quartic wavefront aberration does to a focus, relative to the ideal one.
 *
 * With t, the magnitude of the phase over M^2: second moments are exact without clipping. The
 * 86.5 %-power values and the peak are fits to the diffraction integral: for M^2 up to 4 and t up to 1
 * the diameter is within -0.9 to +1.3 %, the peak within 0.9 %, the place within 0.14 Rayleigh ranges;
 * above M^2 = 4 the diameter is within 2 %. From t = 1 to 1.7 they are out of domain, beyond 1.7 they
 * are NaN. The two estimates bracket the 86.5 %-power diameter, to within 1 % of it, while t is at most
 * 1 and the clipping ratio at least 1.8; each may be 19 % from it.
 *
 * @param[in]  m2                   beam propagation ratio M^2; range: SPOTWISE_PARAM_M2.
 * @param[in]  aberration_phase_rad phase at the 1/e^2 radius in radians, + where the edge of the beam
 *                                  focuses nearer the lens (a converging singlet), - for a plate;
 *                                  range: SPOTWISE_PARAM_ABERRATION_PHASE.
 * @param[out] growth               result; set with spotwise_aberration_growth_result_init(); not
 *                                  NULL. On any status other than SPOTWISE_OK its numbers are set to a
 *                                  quiet NaN.
 * @param[out] error                what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy of evaluation: fits at most 4 ulp, all else at most 0.75 ulp (units in the last place).
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: after A. E. Siegman, Proc. SPIE 1868, 2 (1993), from memory, proved by the authors; the
 * fits by the authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_aberration_growth(double m2,
                                           double aberration_phase_rad,
                                           struct spotwise_aberration_growth_result *growth,
                                           struct spotwise_error *error);

/**
 * What a single-piece lens makes of a raw beam whose waist is known: by second moments, by 86.5 % of
 * the power, and by the handbook.
 *
 * Clipping is flagged and its loss told, not computed into the spots: for that see
 * spotwise_wave_widths(). A normalised aberration above 1.7 is no error: the 86.5 %-power members are
 * then NaN under SPOTWISE_VALIDITY_NO_POWER_86. Thickness, aspheric surfaces, aberration off the axis
 * and heat are not modelled. Domain and errors of the fits: spotwise_aberration_growth().
 *
 * @param[in]  raw              raw beam; set with spotwise_beam_init(); not NULL.
 * @param[in]  waist_to_lens_m  from the raw waist to the lens in metres, + when the waist lies
 *                              upstream; range: SPOTWISE_PARAM_WAIST_TO_LENS.
 * @param[in]  lens             lens; set with spotwise_singlet_init(); not NULL.
 * @param[in]  clear_aperture_m diameter of the clear aperture of lens or mount in metres, INFINITY
 *                              for none; range: SPOTWISE_PARAM_CLEAR_APERTURE.
 * @param[out] focus            result; set with spotwise_singlet_focus_init(); not NULL. On any
 *                              status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
 *                              flags to 0.
 * @param[out] error            what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (shape),
 *         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (as
 *         spotwise_focus_through_lens(); a clipping ratio below 0.2; the aberrated M^2, waist or cone
 *         out of range).
 *
 * Accuracy of evaluation: fits and transmitted power at most 4 ulp, all else at most 0.75 ulp
 *                         (units in the last place).
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: those of spotwise_focus_through_lens(), spotwise_lens_aberration() and
 * spotwise_aberration_growth().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_focus_singlet(const struct spotwise_beam *raw,
                                       double waist_to_lens_m,
                                       const struct spotwise_singlet *lens,
                                       double clear_aperture_m,
                                       struct spotwise_singlet_focus *focus,
                                       struct spotwise_error *error);

/**
 * The collimated beam that a lens focuses to the smallest spot: larger ones are spoilt by
 * aberration, smaller ones by diffraction.
 *
 * With SPOTWISE_SHAPE_BEST_FORM it is the smallest spot of any singlet of this material and focal
 * length. The focus is taken for the focal point.
 *
 * @param[in]  wavelength_m vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
 * @param[in]  m2           beam propagation ratio M^2; range: SPOTWISE_PARAM_M2.
 * @param[in]  lens         lens, converging; set with spotwise_singlet_init(); not NULL.
 * @param[in]  measure      which spot is to be smallest: one of SPOTWISE_SPOT_*.
 * @param[out] spot         result; set with spotwise_smallest_spot_result_init(); not NULL. On any
 *                          status other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error        what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (shape,
 *         then measure), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL
 *         (beam, cone or spot out of range).
 *
 * Accuracy of evaluation: at most 4 ulp (units in the last place). By 86.5 % of the power the minimum
 *                         is flat: a beam 10 % off gives a spot larger by less than 2 %.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: derived by the authors from spotwise_aberration_growth().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_smallest_spot(double wavelength_m,
                                       double m2,
                                       const struct spotwise_singlet *lens,
                                       uint32_t measure,
                                       struct spotwise_smallest_spot_result *spot,
                                       struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_clipped_focus_init(struct spotwise_clipped_focus *focus);

/**
 * The focus of a collimated Gaussian beam (M^2 = 1) behind an aperture at an ideal lens.
 *
 * The formula contains the aperture, so that clipping raises no flag but
 * SPOTWISE_VALIDITY_NO_POWER_86: where the beam is more than 1.25 apertures wide, 86.5 % of the
 * power reach into the first diffraction ring, and no closed form holds. For M^2 above 1 or
 * aberration use spotwise_wave_widths(). C does not notice if two of the lengths are swapped: beam,
 * aperture, lens.
 *
 * @param[in]  wavelength_m       vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
 * @param[in]  diameter_at_lens_m diameter of the beam before the aperture in metres, 1/e^2; range:
 *                                SPOTWISE_PARAM_DIAMETER_AT_LENS.
 * @param[in]  clear_aperture_m   diameter of the aperture in metres, INFINITY for none; range:
 *                                SPOTWISE_PARAM_CLEAR_APERTURE.
 * @param[in]  focal_length_m     focal length in metres, converging; range:
 *                                SPOTWISE_PARAM_FOCAL_LENGTH.
 * @param[out] focus              result; set with spotwise_clipped_focus_init(); not NULL. On any
 *                                status other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error              what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (clipping ratio below 0.2, or the half
 *         angle of beam or aperture, whichever is narrower, above 0.3 rad).
 *
 * Accuracy: 1/e^2 diameter within 0.1 %, FWHM 0.11 %, 86.5 % diameter 0.13 % of the diffraction
 *           integral over the whole domain, transmitted power and peak exact; all evaluated to at
 *           most 8 ulp (units in the last place).
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: J. W. Goodman, Introduction to Fourier Optics, from memory; the diameters fitted by the
 * authors to the diffraction integral.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_focus_clipped(double wavelength_m,
                                       double diameter_at_lens_m,
                                       double clear_aperture_m,
                                       double focal_length_m,
                                       struct spotwise_clipped_focus *focus,
                                       struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_gantry_spread_result_init(struct spotwise_gantry_spread_result *spread);

/**
 * Sets struct_size, also of the spread, flags to 0, and every number to a quiet NaN. NULL does
 * nothing.
 */
void spotwise_even_gantry_init(struct spotwise_even_gantry *even);

/**
 * The focus of an ideal lens at many places along a gantry: spot_diameter_m[i] and focus_shift_m[i]
 * belong to waist_to_lens_m[i].
 *
 * Each is the same bits as waist diameter and focus shift of spotwise_focus_through_lens().
 *
 * @param[in]  raw             raw beam; set with spotwise_beam_init(); not NULL.
 * @param[in]  waist_to_lens_m count distances from the raw waist to the lens in metres, + when the
 *                             waist lies upstream; not NULL unless count is 0; range:
 *                             SPOTWISE_PARAM_WAIST_TO_LENS.
 * @param[in]  count           length of the three arrays; may be 0.
 * @param[in]  focal_length_m  focal length in metres, + converging; range:
 *                             SPOTWISE_PARAM_FOCAL_LENGTH.
 * @param[out] spot_diameter_m count spot diameters in metres, 1/e^2 (D4 sigma); not NULL unless count
 *                             is 0.
 * @param[out] focus_shift_m   count distances from the focal point to the waist in metres, + away from
 *                             the lens; not NULL unless count is 0. The two outputs must overlap
 *                             neither each other nor the input. On any status other than SPOTWISE_OK
 *                             all of both is set to quiet NaNs, but for a count that no array can
 *                             have: then nothing is written to them.
 * @param[out] cone            widest cone, of the raw beam and of every focus, with the flags of all; set
 *                             with spotwise_cone_init(); not NULL. On any status other than SPOTWISE_OK
 *                             its number is set to a quiet NaN.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP,
 *         SPOTWISE_E_LENGTH_MISMATCH (count is more than memory can hold), SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE (raw beam, distances, focal length), SPOTWISE_E_OUTSIDE_MODEL (as
 *         spotwise_focus_through_lens(), for the first distance that is refused).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: S. A. Self, Applied Optics 22, 658 (1983), from memory; re-derived.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_focus_along_gantry(const struct spotwise_beam *raw,
                                            const double *waist_to_lens_m,
                                            size_t count,
                                            double focal_length_m,
                                            double *spot_diameter_m,
                                            double *focus_shift_m,
                                            struct spotwise_cone *cone,
                                            struct spotwise_error *error);

/**
 * How far the spot and the height of focus vary while a lens travels along a gantry.
 *
 * The extremes are exact, wherever on the travel they lie. C does not notice if nearest_m and a
 * smaller focal_length_m are swapped.
 *
 * @param[in]  raw            raw beam; set with spotwise_beam_init(); not NULL.
 * @param[in]  nearest_m      shortest distance from the raw waist to the lens in metres, + when the
 *                            waist lies upstream; range: SPOTWISE_PARAM_NEAREST.
 * @param[in]  farthest_m     longest such distance in metres, not less than nearest_m; range:
 *                            SPOTWISE_PARAM_FARTHEST.
 * @param[in]  focal_length_m focal length in metres, converging; range: SPOTWISE_PARAM_FOCAL_LENGTH.
 * @param[out] spread         result; set with spotwise_gantry_spread_result_init(); not NULL. On any
 *                            status other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error          what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad, or a spot
 *         outside 1e-9 to 10 m).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: S. A. Self, Applied Optics 22, 658 (1983), from memory; the extremes derived by the
 * authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_gantry_spread(const struct spotwise_beam *raw,
                                       double nearest_m,
                                       double farthest_m,
                                       double focal_length_m,
                                       struct spotwise_gantry_spread_result *spread,
                                       struct spotwise_error *error);

/**
 * The setting of a beam expander that makes the spots at both ends of a gantry's travel equal.
 *
 * It evens out the ends; in between the spot may be larger, and the spread tells by how much. The
 * exit power is what an expander of a path or a job takes. On the expander itself, set the light
 * behind it by what it makes at a known distance: 0.5 per metre brings collimated light to a focus
 * 2 m away. C does not notice if two of the lengths are swapped.
 *
 * @param[in]  raw                 raw beam; set with spotwise_beam_init(); not NULL.
 * @param[in]  waist_to_expander_m from the raw waist to the expander in metres, + when the waist lies
 *                                 upstream; range: SPOTWISE_PARAM_WAIST_TO_EXPANDER.
 * @param[in]  magnification       beam diameter behind the expander over that before it; range:
 *                                 SPOTWISE_PARAM_MAGNIFICATION.
 * @param[in]  nearest_m           shortest distance from the expander to the lens in metres, not
 *                                 negative; range: SPOTWISE_PARAM_NEAREST.
 * @param[in]  farthest_m          longest such distance in metres, not less than nearest_m; range:
 *                                 SPOTWISE_PARAM_FARTHEST.
 * @param[in]  focal_length_m      focal length in metres, converging; range:
 *                                 SPOTWISE_PARAM_FOCAL_LENGTH.
 * @param[out] even                result; set with spotwise_even_gantry_init(); not NULL. On any
 *                                 status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
 *                                 flags to 0.
 * @param[out] error               what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (exit power above 1e3 per metre in
 *         magnitude, half angle above 0.3 rad, or a waist or spot outside 1e-9 to 10 m).
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: derived by the authors from spotwise_gantry_spread().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_even_out_gantry(const struct spotwise_beam *raw,
                                         double waist_to_expander_m,
                                         double magnification,
                                         double nearest_m,
                                         double farthest_m,
                                         double focal_length_m,
                                         struct spotwise_even_gantry *even,
                                         struct spotwise_error *error);

/**
 * Sets struct_size, the kind to 0, which is none, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_path_element_init(struct spotwise_path_element *element);

/**
 * Sets struct_size, also of the beam, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_path_beam_init(struct spotwise_path_beam *beam);

/**
 * The beam behind the last element of a path.
 *
 * The path is a list in the order of the light. Spaces and windows have a length; lens, expander and
 * singlet have none. An ideal path keeps M^2; a singlet raises it, by second moments, which are exact
 * for a Gaussian (Schell-model) profile without clipping, so for the first singlet and not quite for a
 * second. Flat mirrors change nothing: leave them out. Clipping, tilt, thickness and the aberration of
 * windows and expanders are not modelled. An empty path returns the raw beam.
 *
 * @param[in]  raw      raw beam, its z = 0 at the start of the path, so that a waist upstream of it
 *                      has a negative z; set with spotwise_astigmatic_beam_init(); not NULL. A round
 *                      beam has two alike axes.
 * @param[in]  elements count elements, each set with spotwise_path_element_init(); not NULL unless
 *                      count is 0.
 * @param[in]  count    number of elements, at most SPOTWISE_PATH_MOST_ELEMENTS; may be 0.
 * @param[out] beam     result; set with spotwise_path_beam_init(); not NULL. On any status other than
 *                      SPOTWISE_OK its numbers are set to a quiet NaN, its flags to 0.
 * @param[out] error    what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_LENGTH_MISMATCH (too many
 *         elements, as SPOTWISE_PARAM_PATH_ELEMENT), SPOTWISE_E_UNKNOWN_CHOICE (the first unknown
 *         kind, before any number), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (raw beam, then
 *         element by element), SPOTWISE_E_OUTSIDE_MODEL (somewhere along the path a half angle above
 *         0.3 rad, a waist outside 1e-9 to 10 m or farther than 1e7 m, or M^2 above 1e4).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. About 1 kB of stack for the list.
 * Since ABI 1.
 * Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory; singlets derived by the
 * authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_beam_after_path(const struct spotwise_astigmatic_beam *raw,
                                         const struct spotwise_path_element *elements,
                                         size_t count,
                                         struct spotwise_path_beam *beam,
                                         struct spotwise_error *error);

/**
 * The beam at a distance along a path.
 *
 * Elements without length that stand at that distance count as passed; beyond the last element the
 * beam goes on through empty space. The distance is compared with the exact sum of the lengths: 0.3
 * stands before a lens behind spaces of 0.1 and 0.2, whose sum as doubles is a little more. All else as
 * spotwise_beam_after_path().
 *
 * @param[in]  raw        raw beam, its z = 0 at the start of the path; set with
 *                        spotwise_astigmatic_beam_init(); not NULL.
 * @param[in]  elements   count elements, each set with spotwise_path_element_init(); not NULL unless
 *                        count is 0.
 * @param[in]  count      number of elements, at most SPOTWISE_PATH_MOST_ELEMENTS; may be 0.
 * @param[in]  distance_m distance from the start of the path in metres; range:
 *                        SPOTWISE_PARAM_PATH_DISTANCE.
 * @param[out] beam       result; set with spotwise_path_beam_init(); not NULL. On any status other
 *                        than SPOTWISE_OK its numbers are set to a quiet NaN, its flags to 0.
 * @param[out] error      what was refused; may be NULL.
 * @return as spotwise_beam_after_path(); the distance is checked after the elements.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. About 1 kB of stack for the list.
 * Since ABI 1.
 * Source: as spotwise_beam_after_path().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_beam_along_path(const struct spotwise_astigmatic_beam *raw,
                                         const struct spotwise_path_element *elements,
                                         size_t count,
                                         double distance_m,
                                         struct spotwise_path_beam *beam,
                                         struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_plate_focus_init(struct spotwise_plate_focus *focus);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_inside_focus_init(struct spotwise_inside_focus *focus);

/**
 * What a flat plate at right angles to a converging beam does to the focus behind it.
 *
 * It does not matter where between lens and focus the plate stands; waist diameter, M^2 and cone
 * stay. What the aberration phase does to the spot is told by spotwise_aberration_growth(). A tilted
 * plate is not modelled.
 *
 * @param[in]  beam        focused beam in air; set with spotwise_beam_init(); not NULL.
 * @param[in]  thickness_m thickness of the plate in metres; range: SPOTWISE_PARAM_THICKNESS.
 * @param[in]  index       refractive index of the plate; range: SPOTWISE_PARAM_REFRACTIVE_INDEX.
 * @param[out] focus       result; set with spotwise_plate_focus_init(); not NULL. On any status other
 *                         than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error       what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad, or
 *         aberration phase above 1e4 rad).
 *
 * Accuracy: at most 0.75 ulp (1.5 for a length below 1e-260 m), the edge at most 4 ulp (units in the last place) of the exact result;
 *           the quartic phase is within 1.3 % of the exact one for an index from 1.5, within 3.1 %
 *           for any.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: Snell's law; the phase derived by the authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_focus_behind_plate(const struct spotwise_beam *beam,
                                            double thickness_m,
                                            double index,
                                            struct spotwise_plate_focus *focus,
                                            struct spotwise_error *error);

/**
 * Where a beam comes to focus inside a transparent part, when its lens is lowered from focus on the
 * face of the part.
 *
 * The depth is the index times the way of the lens. The waist diameter in the part is that in air.
 *
 * @param[in]  beam              focused beam in air; set with spotwise_beam_init(); not NULL.
 * @param[in]  lens_lowered_by_m way of the lens toward the part in metres; range:
 *                               SPOTWISE_PARAM_LENS_LOWERED_BY.
 * @param[in]  index             refractive index of the part; range:
 *                               SPOTWISE_PARAM_REFRACTIVE_INDEX.
 * @param[out] focus             result; set with spotwise_inside_focus_init(); not NULL. On any
 *                               status other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error             what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad, or
 *         aberration phase above 1e4 rad).
 *
 * Accuracy: at most 0.75 ulp (1.5 for a length below 1e-260 m), the edge at most 4 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: Snell's law; the phase as that of a plate as thick as the depth.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_focus_inside(const struct spotwise_beam *beam,
                                      double lens_lowered_by_m,
                                      double index,
                                      struct spotwise_inside_focus *focus,
                                      struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_wave_init(struct spotwise_wave *wave);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_wave_irradiance_result_init(struct spotwise_wave_irradiance_result *irradiance);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_wave_power_result_init(struct spotwise_wave_power_result *power);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_wave_widths_result_init(struct spotwise_wave_widths_result *widths);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_wave_focus_result_init(struct spotwise_wave_focus_result *focus);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_wave_map_result_init(struct spotwise_wave_map_result *map);

/**
 * Irradiance of a wave at one point, by the radial Fresnel integral.
 *
 * Vector effects, places off the axis of the lens, other aberrations and mixtures of modes other than
 * Gaussian Schell are not modelled.
 *
 * @param[in]  wave       wave to read; set with spotwise_wave_init(); not NULL.
 * @param[in]  radius_m   distance from the axis in metres; range: SPOTWISE_PARAM_RADIUS.
 * @param[in]  z_m        from where the unaberrated wave would converge to the point in metres, + away
 *                        from the lens; range: SPOTWISE_PARAM_Z.
 * @param[out] irradiance result; set with spotwise_wave_irradiance_result_init(); not NULL. On any
 *                        status other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error      what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (once the wave is checked: clipping ratio
 *         below 0.2, half angle above 0.3 rad; once radius_m and z_m are: a plane at or before the lens
 *         or beyond SPOTWISE_PARAM_NORMALISED_DEFOCUS, a radius beyond
 *         SPOTWISE_PARAM_NORMALISED_RADIUS).
 *
 * Accuracy: error_bound, at most 1e-11 of the ratio of an ideal focus. It bounds the numerical error
 *           of the integral and says nothing of how well that describes a real beam.
 * No allocation, no globals, no errno; any thread or interrupt that has 52 kB of stack left; up to 1 ms
 * on a desktop core in ordinary cases. Since ABI 1.
 * Source: J. W. Goodman, Introduction to Fourier Optics, and L. Mandel, E. Wolf, Optical Coherence
 * and Quantum Optics, both from memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_wave_irradiance(const struct spotwise_wave *wave,
                                         double radius_m,
                                         double z_m,
                                         struct spotwise_wave_irradiance_result *irradiance,
                                         struct spotwise_error *error);

/**
 * Power of a wave inside a circle about the axis.
 *
 * @param[in]  wave     wave to read; set with spotwise_wave_init(); not NULL.
 * @param[in]  radius_m radius of the circle in metres; range: SPOTWISE_PARAM_RADIUS.
 * @param[in]  z_m      from where the unaberrated wave would converge to the plane in metres, + away
 *                      from the lens; range: SPOTWISE_PARAM_Z.
 * @param[out] power    result; set with spotwise_wave_power_result_init(); not NULL. On any status
 *                      other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error    what was refused; may be NULL.
 * @return as spotwise_wave_irradiance().
 *
 * Accuracy: error_bound, 1e-12 near the focus, 3e-9 at the greatest radius.
 * No allocation, no globals, no errno; any thread or interrupt that has 52 kB of stack left; up to 1 ms
 * on a desktop core in ordinary cases. Since ABI 1.
 * Source: as spotwise_wave_irradiance().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_wave_power(const struct spotwise_wave *wave,
                                    double radius_m,
                                    double z_m,
                                    struct spotwise_wave_power_result *power,
                                    struct spotwise_error *error);

/**
 * Widths of a wave in one plane.
 *
 * Those at 1/e^2 and at half are the outermost circles at which the irradiance falls through that share
 * of the greatest irradiance in the plane, on or off the axis; where a ring of an aberrated beam rises
 * above the share as z changes, they jump.
 *
 * @param[in]  wave   wave to read; set with spotwise_wave_init(); not NULL.
 * @param[in]  z_m    from where the unaberrated wave would converge to the plane in metres, + away
 *                    from the lens; range: SPOTWISE_PARAM_Z.
 * @param[out] widths result; set with spotwise_wave_widths_result_init(); not NULL. On any status
 *                    other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error  what was refused; may be NULL.
 * @return as spotwise_wave_irradiance().
 *
 * Accuracy: error_bound, 1e-11 in usual planes; it grows without limit where a ring just touches the
 *           share of a width.
 * No allocation, no globals, no errno; any thread or interrupt that has 52 kB of stack left; up to 3 ms
 * on a desktop core in ordinary cases. Since ABI 1.
 * Source: as spotwise_wave_irradiance().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_wave_widths(const struct spotwise_wave *wave,
                                     double z_m,
                                     struct spotwise_wave_widths_result *widths,
                                     struct spotwise_error *error);

/**
 * The best focus of a wave by one measure.
 *
 * An aberrated wave has no single best focus: with t the phase in radians, and counted toward the lens in
 * Rayleigh ranges of M^2 = 1, the smallest second moment lies at 2t, the smallest 86.5 % spot at about
 * 2.2t and the brightest point at about 4t, for a small t.
 *
 * @param[in]  wave    wave to read; set with spotwise_wave_init(); not NULL.
 * @param[in]  measure what makes a plane the best: one of SPOTWISE_BEST_*.
 * @param[out] focus   result; set with spotwise_wave_focus_result_init(); not NULL. On any status
 *                     other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error   what was refused; may be NULL.
 * @return as spotwise_wave_irradiance(), SPOTWISE_E_UNKNOWN_CHOICE (measure), and
 *         SPOTWISE_E_OUTSIDE_MODEL also for SPOTWISE_BEST_SECOND_MOMENT with a clipping ratio below 5,
 *         or if the best focus is not within SPOTWISE_PARAM_NORMALISED_DEFOCUS.
 *
 * Accuracy: error_bound for the measure; the place agrees within 2e-7 Rayleigh ranges of M^2 = 1
 *           with those found by other means.
 * No allocation, no globals, no errno; any thread or interrupt that has 58 kB of stack left; 0.4 to 50 ms
 * on a desktop core in ordinary cases, seconds with 6 rad and no aperture. Since ABI 1.
 * Source: as spotwise_wave_irradiance().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_wave_focus(const struct spotwise_wave *wave,
                                    uint32_t measure,
                                    struct spotwise_wave_focus_result *focus,
                                    struct spotwise_error *error);

/**
 * How many numbers of working space spotwise_wave_map() needs for these places.
 *
 * Some 50 000 to 170 000 for a live plot without an aperture, a tenth of that with one; 1.6 million at
 * the most.
 *
 * @param[in]  wave     wave to read; set with spotwise_wave_init(); not NULL.
 * @param[in]  radius_m radii distances from the axis in metres; not NULL unless radii is 0; range:
 *                      SPOTWISE_PARAM_RADIUS.
 * @param[in]  radii    length of radius_m; may be 0.
 * @param[in]  z_m      planes distances from where the unaberrated wave would converge in metres, +
 *                      away from the lens; not NULL unless planes is 0; range: SPOTWISE_PARAM_Z.
 * @param[in]  planes   length of z_m; may be 0.
 * @param[out] length   that many numbers; not NULL. On any status other than SPOTWISE_OK it is set to
 *                      0.
 * @param[out] error    what was refused; may be NULL.
 * @return as spotwise_wave_irradiance(), all radii before all planes, and SPOTWISE_E_LENGTH_MISMATCH
 *         (an array is longer than memory can hold).
 *
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_wave_map_workspace(const struct spotwise_wave *wave,
                                            const double *radius_m,
                                            size_t radii,
                                            const double *z_m,
                                            size_t planes,
                                            size_t *length,
                                            struct spotwise_error *error);

/**
 * Irradiance of a wave over radius and height: irradiance_ratio[j * radii + i] belongs to radius_m[i]
 * and z_m[j], over that at the focus of the same beam without aperture and aberration.
 *
 * @param[in]  wave             wave to read; set with spotwise_wave_init(); not NULL.
 * @param[in]  radius_m         radii distances from the axis in metres; not NULL unless radii is 0;
 *                              range: SPOTWISE_PARAM_RADIUS.
 * @param[in]  radii            length of radius_m; may be 0.
 * @param[in]  z_m              planes distances from where the unaberrated wave would converge in
 *                              metres, + away from the lens; not NULL unless planes is 0; range:
 *                              SPOTWISE_PARAM_Z.
 * @param[in]  planes           length of z_m; may be 0.
 * @param[out] workspace        working space of workspace_length numbers; not NULL unless that is 0.
 *                              What it holds afterwards means nothing.
 * @param[in]  workspace_length at least what spotwise_wave_map_workspace() says.
 * @param[out] irradiance_ratio radii * planes numbers; not NULL unless that is 0. Neither it nor
 *                              workspace may overlap another array. On any status other than
 *                              SPOTWISE_OK all of it is set to quiet NaNs, but for a length that no
 *                              array can have: then nothing is written to the arrays.
 * @param[out] map              bound on the error of the numbers, cone and flags; set with
 *                              spotwise_wave_map_result_init(); not NULL. On any status other than
 *                              SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error            what was refused; may be NULL.
 * @return as spotwise_wave_irradiance(), all radii before all planes, SPOTWISE_E_OVERLAP, and
 *         SPOTWISE_E_LENGTH_MISMATCH (a length that memory cannot hold, or too little working space, as
 *         SPOTWISE_PARAM_WORKSPACE).
 *
 * Accuracy: error_bound of the result, about 1e-10 for a focus of ratio 1.
 * No allocation, no globals, no errno; any thread or interrupt that has 16 kB of stack left; 128 by 128
 * points take 1 to 18 ms on a desktop core, 90 ms for M^2 from 1 to 1.044. Since ABI 1.
 * Source: as spotwise_wave_irradiance().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_wave_map(const struct spotwise_wave *wave,
                                  const double *radius_m,
                                  size_t radii,
                                  const double *z_m,
                                  size_t planes,
                                  double *workspace,
                                  size_t workspace_length,
                                  double *irradiance_ratio,
                                  struct spotwise_wave_map_result *map,
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
void spotwise_clipped_depth_init(struct spotwise_clipped_depth *depth);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_wave_depth_init(struct spotwise_wave_depth *depth);

/**
 * Depth of focus of a collimated Gaussian beam (M^2 = 1) behind an aperture at an ideal lens: where
 * the irradiance on the axis is below its greatest by at most this share. Heights count from the focal
 * point.
 *
 * Exact for the Fresnel integral, for a long focus too: the two ends differ, since light is brighter
 * nearer the lens, and SPOTWISE_VALIDITY_FOCUS_SHIFTED says only that they do so visibly. In a long focus
 * both ends may lie on the lens side of the focal point. For M^2 above 1 or aberration use
 * spotwise_wave_depth_of_focus(). C does not notice if two of the lengths are swapped: beam,
 * aperture, lens.
 *
 * @param[in]  wavelength_m       vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
 * @param[in]  diameter_at_lens_m diameter of the beam before the aperture in metres, 1/e^2; range:
 *                                SPOTWISE_PARAM_DIAMETER_AT_LENS.
 * @param[in]  clear_aperture_m   diameter of the aperture in metres, INFINITY for none; range:
 *                                SPOTWISE_PARAM_CLEAR_APERTURE.
 * @param[in]  focal_length_m     focal length in metres, converging; range:
 *                                SPOTWISE_PARAM_FOCAL_LENGTH.
 * @param[in]  irradiance_drop    share lost, 0.2 for a fifth; range: SPOTWISE_PARAM_IRRADIANCE_DROP.
 *                                Here 0.01 to 0.9.
 * @param[out] depth              result; set with spotwise_clipped_depth_init(); not NULL. On any status
 *                                other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error              what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (clipping ratio below 0.2, or half angle
 *         above 0.3 rad, both before irradiance_drop is looked at).
 *
 * Accuracy: at most 8 ulp (units in the last place) times 1 + c, where c is what the problem makes of an
 *           error in the irradiance: near 1/(2 * irradiance_drop) in a sharp focus, and large only for
 *           an end that happens to lie at the focal point.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: derived by the authors from the Fresnel integral on the axis.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_clipped_depth_of_focus(double wavelength_m,
                                                double diameter_at_lens_m,
                                                double clear_aperture_m,
                                                double focal_length_m,
                                                double irradiance_drop,
                                                struct spotwise_clipped_depth *depth,
                                                struct spotwise_error *error);

/**
 * Depth of focus of a clipped, aberrated, partially coherent wave, about its best focus.
 *
 * Growth, Rayleigh and largest diameter are told by the diameter that holds 86.5 % of the transmitted
 * power, about the plane where that is smallest; irradiance drop by the irradiance on the axis, about
 * its brightest plane. The range is the connected one that holds the best focus;
 * SPOTWISE_VALIDITY_SECOND_RANGE says that the criterion is met again farther off.
 *
 * @param[in]  wave      wave to read; set with spotwise_wave_init(); not NULL.
 * @param[in]  criterion what counts as in focus; set with spotwise_depth_criterion_init(); not NULL.
 *                       SPOTWISE_CRITERION_LINE_DOSE_DROP is refused as an unknown choice.
 * @param[out] depth     result; set with spotwise_wave_depth_init(); not NULL. On any status other
 *                       than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error     what was refused; may be NULL.
 * @return as spotwise_wave_irradiance(), SPOTWISE_E_UNKNOWN_CHOICE (criterion), and
 *         SPOTWISE_E_UNREACHABLE (largest diameter below the least). SPOTWISE_E_OUTSIDE_MODEL also if
 *         an end lies beyond SPOTWISE_PARAM_NORMALISED_DEFOCUS.
 *
 * Accuracy: error_bound_m.
 * No allocation, no globals, no errno; any thread or interrupt that has 58 kB of stack left; 1 ms to
 * 0.2 s on a desktop core in ordinary cases. Since ABI 1.
 * Source: as spotwise_wave_irradiance().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_wave_depth_of_focus(const struct spotwise_wave *wave,
                                             const struct spotwise_depth_criterion *criterion,
                                             struct spotwise_wave_depth *depth,
                                             struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_singlet_defocus_result_init(struct spotwise_singlet_defocus_result *result);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_singlet_depth_init(struct spotwise_singlet_depth *depth);

/**
 * Spot diameter, growth, irradiance and line dose behind a single-piece lens, on a surface that is off
 * the waist of this measure.
 *
 * Irradiance and dose are over those in that waist. The beam is taken for a hyperbola about it: exact
 * for second moments; for 86.5 % of the power the growth off focus is off by as much as
 * SPOTWISE_VALIDITY_ABERRATED says. The result carries the flags of the lens, its aperture and its focus,
 * and the numbers behind them.
 *
 * @param[in]  raw              raw beam; set with spotwise_beam_init(); not NULL.
 * @param[in]  waist_to_lens_m  from the raw waist to the lens in metres, + when the waist lies
 *                              upstream; range: SPOTWISE_PARAM_WAIST_TO_LENS.
 * @param[in]  lens             lens; set with spotwise_singlet_init(); not NULL.
 * @param[in]  clear_aperture_m diameter of the clear aperture of lens or mount in metres, INFINITY
 *                              for none; range: SPOTWISE_PARAM_CLEAR_APERTURE.
 * @param[in]  measure          SPOTWISE_SPOT_SECOND_MOMENT or SPOTWISE_SPOT_POWER_86;
 *                              SPOTWISE_SPOT_HANDBOOK is refused as an unknown choice.
 * @param[in]  z_offset_m       offset of the surface from that waist in metres, + away from the lens;
 *                              range: SPOTWISE_PARAM_Z_OFFSET.
 * @param[out] result           result; set with spotwise_singlet_defocus_result_init(); not NULL. On
 *                              any status other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error            what was refused; may be NULL.
 * @return as spotwise_focus_singlet(), with the offset checked last, and SPOTWISE_E_UNKNOWN_CHOICE also
 *         for the measure, after the shape. SPOTWISE_E_OUTSIDE_MODEL also where the 86.5 %-power spot is
 *         refused (SPOTWISE_VALIDITY_NO_POWER_86), as SPOTWISE_PARAM_NORMALISED_ABERRATION,
 *         SPOTWISE_PARAM_CLIPPING_RATIO or SPOTWISE_PARAM_RAYLEIGH_RANGE.
 *
 * Accuracy of evaluation: at most 4 ulp (units in the last place).
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: those of spotwise_focus_singlet() and spotwise_defocus().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_singlet_defocus(const struct spotwise_beam *raw,
                                         double waist_to_lens_m,
                                         const struct spotwise_singlet *lens,
                                         double clear_aperture_m,
                                         uint32_t measure,
                                         double z_offset_m,
                                         struct spotwise_singlet_defocus_result *result,
                                         struct spotwise_error *error);

/**
 * Depth of focus behind a single-piece lens, about the waist of this measure.
 *
 * What the beam is taken for is told at spotwise_singlet_defocus(). So both ends lie equally far from
 * that waist; the true ends differ where the lens aberrates: spotwise_wave_depth_of_focus() finds them.
 *
 * @param[in]  raw              raw beam; set with spotwise_beam_init(); not NULL.
 * @param[in]  waist_to_lens_m  from the raw waist to the lens in metres, + when the waist lies
 *                              upstream; range: SPOTWISE_PARAM_WAIST_TO_LENS.
 * @param[in]  lens             lens; set with spotwise_singlet_init(); not NULL.
 * @param[in]  clear_aperture_m diameter of the clear aperture of lens or mount in metres, INFINITY
 *                              for none; range: SPOTWISE_PARAM_CLEAR_APERTURE.
 * @param[in]  measure          SPOTWISE_SPOT_SECOND_MOMENT or SPOTWISE_SPOT_POWER_86;
 *                              SPOTWISE_SPOT_HANDBOOK is refused as an unknown choice.
 * @param[in]  criterion        what counts as in focus; set with spotwise_depth_criterion_init(); not
 *                              NULL.
 * @param[out] depth            result, counted from that waist; set with spotwise_singlet_depth_init();
 *                              not NULL. On any status other than SPOTWISE_OK its numbers are set to a
 *                              quiet NaN.
 * @param[out] error            what was refused; may be NULL.
 * @return as spotwise_singlet_defocus(), with the number in the criterion checked last;
 *         SPOTWISE_E_UNKNOWN_CHOICE also for the criterion, after shape and measure, but before
 *         SPOTWISE_SPOT_HANDBOOK is refused; SPOTWISE_E_UNREACHABLE (largest diameter below the waist).
 *
 * Accuracy of evaluation: at most 4 ulp (units in the last place); for a largest diameter, that times
 *                         r^2/(r^2 - 1), r being that diameter over the waist.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: those of spotwise_focus_singlet() and spotwise_depth_of_focus().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_singlet_depth_of_focus(const struct spotwise_beam *raw,
                                                double waist_to_lens_m,
                                                const struct spotwise_singlet *lens,
                                                double clear_aperture_m,
                                                uint32_t measure,
                                                const struct spotwise_depth_criterion *criterion,
                                                struct spotwise_singlet_depth *depth,
                                                struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_tilted_spot_result_init(struct spotwise_tilted_spot_result *spot);

/**
 * The spot of a beam on a surface that is tilted, and meets the beam axis off the waist.
 *
 * The footprint is the circle of the beam there, projected onto the surface; the contour is the
 * ellipse in which the surface cuts the hyperboloid of the 1/e^2 radius. The contour at 1/e^2 of the
 * greatest irradiance on the surface is neither: compared with the footprint it is at most 1.0 % longer
 * or 1.1 % shorter at a grazing ratio of 0.2, 5.9 % or 7.7 % at 0.5, 14.8 % or 24.9 % at 0.9. The line
 * dose holds in either direction. A tilt has no sign. An astigmatic beam, a curved surface, and the
 * change of absorption with the angle are not modelled. C does not notice if offset and tilt are
 * swapped.
 *
 * @param[in]  beam       beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  z_offset_m offset of the surface, on the axis, from the waist in metres, + away from the
 *                        lens; range: SPOTWISE_PARAM_Z_OFFSET.
 * @param[in]  tilt_rad   angle between the normal of the surface and the beam axis in radians; range:
 *                        SPOTWISE_PARAM_TILT.
 * @param[out] spot       result; set with spotwise_tilted_spot_result_init(); not NULL. On any status
 *                        other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error      what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad; a grazing ratio
 *         of 1 or more, where the contour has no end, as SPOTWISE_PARAM_GRAZING_RATIO).
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result; the contour at most 4 ulp
 *           times 1/(1 - e^2), e being the grazing ratio.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: derived by the authors from spotwise_beam_at().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_tilted_spot(const struct spotwise_beam *beam,
                                     double z_offset_m,
                                     double tilt_rad,
                                     struct spotwise_tilted_spot_result *spot,
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
 * Sets struct_size, the choices to 0, which is none, and every number to a quiet NaN; but lens to
 * SPOTWISE_LENS_IDEAL, and clear_aperture_m to INFINITY, which is none. NULL does nothing.
 */
void spotwise_job_init(struct spotwise_job *job);

/**
 * Sets struct_size, also of the nested structs, codes and flags to 0, and every number to a quiet NaN.
 * NULL does nothing.
 */
void spotwise_verdict_init(struct spotwise_verdict *verdict);

/**
 * Checks whether a drawing's finest stroke and gap hold over a surface, and says why.
 *
 * A raster fill; what spotwise_focus_through_lens(), for a real lens spotwise_focus_singlet(), and
 * spotwise_smallest_details() do not model is not in the verdict either. It is advice: engrave a
 * test piece first. With a real lens the verdict rests on its 86.5 %-power spot, and promised says
 * what an ideal lens would have. A largest diameter below the waist is no error but a finding,
 * SPOTWISE_REASON_NO_DEPTH. A virtual waist is refused, since nothing is in focus behind the lens,
 * and so are a surface that reaches the lens and a lens too aberrated for an 86.5 %-power spot.
 *
 * @param[in]  job     job to read; set with spotwise_job_init(); not NULL.
 * @param[out] verdict result; set with spotwise_verdict_init(); not NULL. On any status other
 *                     than SPOTWISE_OK its numbers are set to a quiet NaN, outcome, reasons and
 *                     flags to 0.
 * @param[out] error   what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (raw
 *         beam, focus setting, criterion, lens, and for a singlet glass and shape, in this order,
 *         before any number), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (the optics, expander and
 *         lens with them, before all else; also a wavelength outside spotwise_glass_range()),
 *         SPOTWISE_E_OUTSIDE_MODEL (raw, expanded or focused half angle above 0.3 rad, a waist outside
 *         1e-9 to 10 m, a virtual waist as SPOTWISE_PARAM_LENS_TO_WAIST, a clipping ratio below 0.2, or
 *         a normalised aberration above 1.7 as SPOTWISE_PARAM_NORMALISED_ABERRATION, all once the
 *         optics are checked; or a surface that reaches the lens as SPOTWISE_PARAM_LENS_TO_HIGHEST once
 *         surface_rise_m is).
 *
 * Accuracy: details and the fits of a real lens at most 4 ulp, all else at most 0.75 ulp
 *           (units in the last place) of the exact result; how well the fits describe a lens is told
 *           at spotwise_aberration_growth().
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
 * For SPOTWISE_PARAM_FOCAL_LENGTH, SPOTWISE_PARAM_FIRST_RADIUS and SPOTWISE_PARAM_SECOND_RADIUS it
 * is the range of the magnitude, for a choice that of its numbers. A call may allow less, and says
 * so. SPOTWISE_PARAM_OUTPUT, SPOTWISE_PARAM_TEXT and SPOTWISE_PARAM_WORKSPACE have no fixed range:
 * both ends are then NaN, and the status is SPOTWISE_OK.
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
 * One sentence for a flag of a result's validity; "unknown" unless exactly one bit is given.
 *
 * @param[in] validity one bit, one of SPOTWISE_VALIDITY_* but SPOTWISE_VALIDITY_FINE.
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_validity_text(uint32_t validity);

/**
 * How much a result with these flags is worth: one of SPOTWISE_LEVEL_*.
 *
 * @param[in] validity SPOTWISE_VALIDITY_* bits; others are not looked at.
 * @return a level; a higher one is worse. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE uint32_t spotwise_validity_level(uint32_t validity);

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
