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
 *   Every number is in the SI unit that ends its name: _m metres, _rad radians, _s seconds, _hz hertz,
 *   _w watts, _j joules; _m2 and _m3 are powers, _per_m, _per_m2, _per_m3 and _per_s ratios.
 *   Names without a unit are pure numbers; only the doses of spotwise_fit_threshold() may be in any one
 *   unit, and its threshold is in the same.
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
 *   Checks come in this order: pointers and sizes, argument by argument; the length of arrays
 *   (one that hangs on the numbers comes after them); choices; numbers, in the order in which they are declared. SPOTWISE_E_OUTSIDE_MODEL stands
 *   among the numbers: it comes as soon as those that it is about are known. A beam, or an axis of
 *   one, is therefore checked as a whole, its cone included, before the numbers that follow it.
 *   A number's range stands at the SPOTWISE_PARAM_* constant that its comment names.
 *   A struct opens with its size. Set it, and every number to NaN so that a forgotten one is
 *   refused, with the struct's init function (which also makes the lens of a job ideal, its dose one by
 *   ratio, its material a coating and its text none, and sets where grades of text begin). A struct_size
 *   must equal that of this ABI.
 *   Pointers must be aligned for their type, and valid for as long as the call runs. Outputs must
 *   not share memory with other arguments, except where a call says that they may.
 *   The name of a result ends in _result where a function has the shorter name.
 *   No call allocates, keeps state, sets errno or reads the locale: any may be made from any
 *   thread, and from an interrupt if the caller's FPU state is saved. Waves take up to 58 kB of
 *   stack, drawings 64 kB, jobs and the choice of a lens 12 kB, all else 6 kB.
 *
 * DRAWINGS, FOR DESKTOP PROGRAMS
 *   Calls that take a spotwise_drawing, or masks of one, work on as many pixels as you like, in memory
 *   of yours: a call whose name ends in _workspace says beforehand how many 64-bit words another
 *   needs. Long work tells a function of yours how far it is, and stops when that says so, with
 *   SPOTWISE_E_STOPPED. The library for bare metal has none of them: define SPOTWISE_BARE_METAL before
 *   this header, and they are not declared. SPOTWISE_ARTWORK is defined where they are.
 *
 * WHAT C DOES NOT STOP
 *   Names carry the units, the compiler does not: a length in millimetres, or two arguments of one
 *   call swapped, compile. Numbers of very different size are often refused for their range, but
 *   widths and lengths that could be either one's are not: so in spotwise_focus_through_lens(),
 *   spotwise_focus_collimated(), spotwise_focus_clipped(), spotwise_clipped_depth_of_focus(),
 *   spotwise_lens_from_radii(), spotwise_lens_at_wavelength(), spotwise_gantry_spread(),
 *   spotwise_even_out_gantry(), spotwise_focus_singlet(), spotwise_singlet_defocus(),
 *   spotwise_singlet_depth_of_focus(), spotwise_tilted_spot(), spotwise_power_through_aperture(),
 *   spotwise_largest_spot_for_details(), spotwise_convert_width(), spotwise_dose_over_threshold(),
 *   spotwise_mark_width(), spotwise_fill_width(), spotwise_fill_limits(), spotwise_raster_ripple(),
 *   spotwise_fill_quality(), spotwise_detail_exposure(), spotwise_pulsed_line(), spotwise_crater(),
 *   spotwise_groove(), spotwise_text_quality(), spotwise_map_heights(), spotwise_scan_field_at(),
 *   spotwise_fit_threshold(), spotwise_fit_beam(), spotwise_calibration_from_marks(),
 *   spotwise_surface_at(), spotwise_refocus_plan(),
 *   spotwise_spot_through(), spotwise_ink_masks() and spotwise_quick_bound(). Where a call that takes a struct gives the answer too, prefer it, since its
 *   members are set by name: spotwise_focus_check() covers the lens and the details.
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

/* Calls on drawings are for desktop programs: the library for bare metal has none. */
#if !defined(SPOTWISE_BARE_METAL) && !defined(SPOTWISE_ARTWORK)
#define SPOTWISE_ARTWORK
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
 * The data cannot tell what was asked for.
 */
#define SPOTWISE_E_UNDETERMINED 8

/**
 * The function of yours that is told of progress said to stop.
 */
#define SPOTWISE_E_STOPPED 9

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
 * Stroke, gap or text is lost somewhere, or the fill breaks up into its lines.
 */
#define SPOTWISE_OUTCOME_LOST 3

/**
 * The dose is too little for the material: nothing marks, at any height.
 */
#define SPOTWISE_OUTCOME_NOTHING_MARKS 4

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
 * The text lacks its grade even in the waist: no focus height can save it.
 */
#define SPOTWISE_REASON_TEXT_TOO_SMALL 2048

/**
 * The text lacks its grade at the highest place.
 */
#define SPOTWISE_REASON_TEXT_LOST_HIGH 4096

/**
 * The text lacks its grade at the lowest place.
 */
#define SPOTWISE_REASON_TEXT_LOST_LOW 8192

/**
 * The lines of the fill leave gaps where the spot is smallest on the surface.
 */
#define SPOTWISE_REASON_FILL_HAS_GAPS 16384

/**
 * The dose is too little for the material, so that nothing marks at any height; no other reason then
 * speaks of stroke, gap, text, fill or of another focus.
 */
#define SPOTWISE_REASON_NOTHING_MARKS 32768

/**
 * The detail would hold everywhere if the surface were engraved in bands of height, each in its own
 * focus, and the lens has room for it; focus at mid-height alone would not do.
 */
#define SPOTWISE_REASON_BANDS_HELP 65536

/**
 * Somewhere the surface leans by more than 0.35 rad (20 degrees), which stretches the spot and lowers
 * the dose there by more than 6 %. Only spotwise_surface_check() knows.
 */
#define SPOTWISE_REASON_STEEP 131072

/**
 * Nothing is known of part of the region, so that nothing is said of it. Only spotwise_surface_check()
 * knows.
 */
#define SPOTWISE_REASON_PARTLY_UNKNOWN 262144

/**
 * Where the surface is steepest, the dose is too little to mark. Only spotwise_surface_check() knows.
 */
#define SPOTWISE_REASON_TOO_STEEP_TO_MARK 524288

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
 * spot by up to 6.5 %, in focus and, for a normalised aberration up to 0.3, off it.
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
 * Caution: irradiance or line dose off focus behind a single-piece lens whose normalised aberration
 * exceeds 0.03 or whose clipping ratio is below 2.5. They are those of a Gaussian beam, whose light fades alike
 * on either side. Their error, in parts of the greatest: irradiance -25 to +10 % and line dose -11.5 to
 * +5.5 % for a normalised aberration up to 0.3, -40 to +21 % and -20 to +10 % up to 1; by second moments
 * -37 to +53 % and -20 to +31 %. An aperture by itself makes it 10 % and 4.5 % at a clipping ratio of 1.8, 21.5 %
 * and 11.5 % at 1.5; both together stay within 43 % and 21 % by the 86.5 % spot. Without the flag 4.2 % and 1.8 %.
 */
#define SPOTWISE_VALIDITY_GAUSSIAN_OFF_FOCUS 512

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
 * Quantity of a map: spot diameter over waist diameter.
 */
#define SPOTWISE_HEIGHT_GROWTH 1

/**
 * Quantity of a map: spot diameter in metres, 1/e^2 (D4 sigma).
 */
#define SPOTWISE_HEIGHT_DIAMETER 2

/**
 * Quantity of a map: irradiance on the axis over that at the waist.
 */
#define SPOTWISE_HEIGHT_IRRADIANCE_RATIO 3

/**
 * Quantity of a map: peak dose of a scanned line over that at the waist.
 */
#define SPOTWISE_HEIGHT_LINE_DOSE_RATIO 4

/**
 * Quantity of a map: width in metres of the finest long stroke that a fill holds; reads the dose ratio.
 */
#define SPOTWISE_HEIGHT_SMALLEST_STROKE 5

/**
 * Which of two beams is the sharper: neither, their spots are equal.
 */
#define SPOTWISE_SHARPER_NEITHER 0

/**
 * Which of two beams is the sharper: the first.
 */
#define SPOTWISE_SHARPER_FIRST 1

/**
 * Which of two beams is the sharper: the second.
 */
#define SPOTWISE_SHARPER_SECOND 2

/**
 * Kind of mark: one pulse, or any mark that goes by the peak irradiance.
 */
#define SPOTWISE_MARK_PULSE 1

/**
 * Kind of mark: one scanned line.
 */
#define SPOTWISE_MARK_LINE 2

/**
 * Response of a material: a coating that is removed above the threshold, and no further.
 */
#define SPOTWISE_RESPONSE_COATING 1

/**
 * Response of a material: a bulk into which the dose falls off by an exponential law.
 */
#define SPOTWISE_RESPONSE_LOGARITHMIC_ABLATION 2

/**
 * Response of a material: a bulk of which every joule above the threshold removes its share.
 */
#define SPOTWISE_RESPONSE_LINEAR_ABLATION 3

/**
 * Response of a material: a melt, whose heat spreads while the spot dwells.
 */
#define SPOTWISE_RESPONSE_MELT 4

/**
 * Taste in fills: the crispest edge.
 */
#define SPOTWISE_TASTE_CRISPEST 1

/**
 * Taste in fills: the smoothest one whose edge is no wider than largest_edge_m.
 */
#define SPOTWISE_TASTE_SMOOTHEST_WITHIN 2

/**
 * Taste in fills: the least cost of edge and ripple together, by crispness_weight.
 */
#define SPOTWISE_TASTE_COMPROMISE 3

/**
 * Compensation: the dose of a line, or the fluence of a pulse, is to be as it was in focus.
 */
#define SPOTWISE_COMPENSATION_SAME_DOSE 1

/**
 * Compensation: the width of the mark is to be as it was in focus.
 */
#define SPOTWISE_COMPENSATION_SAME_WIDTH 2

/**
 * Compensation: not as it was, but a width that no longer reacts to focus.
 */
#define SPOTWISE_COMPENSATION_FOCUS_INSENSITIVE_WIDTH 3

/**
 * The greatest power is less than is wanted. Where speed cannot make up for it, the dose stays short:
 * always so for a pulse.
 */
#define SPOTWISE_LIMIT_GREATEST_POWER 1

/**
 * The least speed is more than is wanted, so that the dose stays short. Never set for a pulse.
 */
#define SPOTWISE_LIMIT_LEAST_SPEED 2

/**
 * The irradiance stays below the least allowed.
 */
#define SPOTWISE_LIMIT_LEAST_IRRADIANCE 4

/**
 * The greatest speed is less than is wanted to go with the power for the least irradiance.
 */
#define SPOTWISE_LIMIT_GREATEST_SPEED 8

/**
 * Typeface: sans serif of regular weight.
 */
#define SPOTWISE_TYPEFACE_SANS 1

/**
 * Typeface: sans serif, bold.
 */
#define SPOTWISE_TYPEFACE_BOLD_SANS 2

/**
 * Typeface: sans serif, light.
 */
#define SPOTWISE_TYPEFACE_LIGHT_SANS 3

/**
 * Typeface: with serifs, regular weight.
 */
#define SPOTWISE_TYPEFACE_SERIF 4

/**
 * Typeface: all letters of one width.
 */
#define SPOTWISE_TYPEFACE_MONOSPACED 5

/**
 * Typeface: measured by you; reads the shares that stand beside it.
 */
#define SPOTWISE_TYPEFACE_MEASURED 6

/**
 * Grade of text: edges as sharp as the spot makes them, stems at full dose.
 */
#define SPOTWISE_GRADE_CRISP 1

/**
 * Grade of text: letters whole, apart and open, with room for error in the dose.
 */
#define SPOTWISE_GRADE_GOOD 2

/**
 * Grade of text: just readable.
 */
#define SPOTWISE_GRADE_READABLE 3

/**
 * Grade of text: strokes lost or counters filled. As a least grade it asks for nothing.
 */
#define SPOTWISE_GRADE_LOST 4

/**
 * A point of 1/72 inch in metres: the em of 4 point type is 4 * SPOTWISE_POINT_M.
 */
#define SPOTWISE_POINT_M (0.0254 / 72.0)

/**
 * Dose of a job: known by dose_ratio.
 */
#define SPOTWISE_DOSE_BY_RATIO 1

/**
 * Dose of a job: known by power_w, speed_m_per_s, line_interval_m and threshold_j_per_m2, and how the
 * material answers to it by response.
 */
#define SPOTWISE_DOSE_BY_SCAN 2

/**
 * Text of a job: there is none.
 */
#define SPOTWISE_TEXT_NONE 1

/**
 * Text of a job: its typeface, size and least grade are given.
 */
#define SPOTWISE_TEXT_GIVEN 2

/**
 * Focus aim: on the highest place, such as the crown of a round part or the surface before the first
 * pass; only the part of the depth of focus away from the lens is used.
 */
#define SPOTWISE_AIM_HIGHEST_PLACE 1

/**
 * Focus aim: below the highest place, so that the whole depth of focus is used; its middle lies
 * midway down.
 */
#define SPOTWISE_AIM_MIDWAY 2

/**
 * Shape of a surface: flat, level or tilted; reads slope_x and slope_y.
 */
#define SPOTWISE_SURFACE_PLANE 1

/**
 * Shape of a surface: a lying cylinder; reads every number, and no array.
 */
#define SPOTWISE_SURFACE_CYLINDER 2

/**
 * Shape of a surface: a sphere, dome or bowl; reads every number but axis_angle_rad, and no array.
 */
#define SPOTWISE_SURFACE_SPHERE 3

/**
 * Shape of a surface: level strips across x, endless in y; reads x_m for their edges, z_m for their heights.
 */
#define SPOTWISE_SURFACE_STEPS 4

/**
 * Shape of a surface: heights that a probe found on a grid, bilinear between; reads the arrays.
 */
#define SPOTWISE_SURFACE_GRID 5

/**
 * Bulge of a cylinder or sphere: toward the lens, a bar or dome. Its crown is the place nearest the lens.
 */
#define SPOTWISE_BULGE_TOWARD_LENS 1

/**
 * Bulge of a cylinder or sphere: away from the lens, a trough or bowl.
 */
#define SPOTWISE_BULGE_AWAY_FROM_LENS 2

/**
 * Source of a contribution: the part bows, warps or is not flat.
 */
#define SPOTWISE_TOLERANCE_PART_BOW 1

/**
 * Source of a contribution: thickness of the part.
 */
#define SPOTWISE_TOLERANCE_THICKNESS 2

/**
 * Source of a contribution: the fixture or the table.
 */
#define SPOTWISE_TOLERANCE_FIXTURE 3

/**
 * Source of a contribution: a lens that was changed or cleaned.
 */
#define SPOTWISE_TOLERANCE_LENS_CHANGE 4

/**
 * Source of a contribution: the gauge with which the height is set.
 */
#define SPOTWISE_TOLERANCE_HEIGHT_GAUGE 5

/**
 * Source of a contribution: backlash of the axis that sets the height.
 */
#define SPOTWISE_TOLERANCE_BACKLASH 6

/**
 * Source of a contribution: smallest step of that axis.
 */
#define SPOTWISE_TOLERANCE_AXIS_STEP 7

/**
 * Source of a contribution: machine, lens or part warm up.
 */
#define SPOTWISE_TOLERANCE_THERMAL_DRIFT 8

/**
 * Source of a contribution: anything else.
 */
#define SPOTWISE_TOLERANCE_OTHER 9

/**
 * Distribution: anywhere within +- the half width, alike.
 */
#define SPOTWISE_DISTRIBUTION_UNIFORM 1

/**
 * Distribution: within +- the half width, more often in the middle.
 */
#define SPOTWISE_DISTRIBUTION_TRIANGULAR 2

/**
 * Distribution: as a swing of this amplitude that is met at any moment.
 */
#define SPOTWISE_DISTRIBUTION_ARC_SINE 3

/**
 * Distribution: by - or + the half width, either as often.
 */
#define SPOTWISE_DISTRIBUTION_TWO_VALUED 4

/**
 * Distribution: by a normal law; reads coverage_factor.
 */
#define SPOTWISE_DISTRIBUTION_NORMAL 5

/**
 * The most contributions that one call takes, since the library has no heap.
 */
#define SPOTWISE_TOLERANCE_MOST_CONTRIBUTIONS 32

/**
 * Half width of a 95 % range over the standard deviation of a normal law.
 */
#define SPOTWISE_NORMAL_FACTOR_95 1.9599639845400543

/**
 * The most lenses of one call.
 */
#define SPOTWISE_MOST_LENSES 8

/**
 * It serves: every detail holds over the whole surface, tolerance included, and the clearance is enough.
 */
#define SPOTWISE_LENS_REASON_SERVES 1

/**
 * The finest stroke or gap is lost even in the waist.
 */
#define SPOTWISE_LENS_REASON_SPOT_TOO_LARGE 2

/**
 * Stroke and gap hold in the waist, but one is lost at the worst places.
 */
#define SPOTWISE_LENS_REASON_DEPTH_TOO_SHORT 4

/**
 * The text lacks its grade even in the waist.
 */
#define SPOTWISE_LENS_REASON_TEXT_TOO_SMALL 8

/**
 * The text keeps its grade in the waist, but not at the worst places.
 */
#define SPOTWISE_LENS_REASON_TEXT_LOST_OFF_FOCUS 16

/**
 * The lines of the fill leave gaps in the waist, where the spot is smallest.
 */
#define SPOTWISE_LENS_REASON_FILL_HAS_GAPS 32

/**
 * The dose is too little for the material.
 */
#define SPOTWISE_LENS_REASON_NOTHING_MARKS 64

/**
 * The worst places are outside the depth of focus.
 */
#define SPOTWISE_LENS_REASON_OUT_OF_FOCUS 128

/**
 * The clearance over the highest place is less than the least.
 */
#define SPOTWISE_LENS_REASON_CLEARANCE_TOO_SMALL 256

/**
 * The model cannot judge this lens on this job, its light, its fill or a collision with the surface;
 * the entry says why.
 */
#define SPOTWISE_LENS_REASON_REFUSED 512

/**
 * No lens has a smaller spot in focus.
 */
#define SPOTWISE_LENS_REASON_SMALLEST_IN_FOCUS 1024

/**
 * No lens has a smaller spot at the worst places.
 */
#define SPOTWISE_LENS_REASON_SMALLEST_ON_SURFACE 2048

/**
 * No lens has a greater depth of focus.
 */
#define SPOTWISE_LENS_REASON_DEEPEST 4096

/**
 * The working distance is greater than from the lens to its focus. So it may be of a group of lenses, whose
 * principal plane may lie below its mount; of a single lens one of the two lengths is wrong, and then the
 * clearance is too. It does not change the order.
 */
#define SPOTWISE_LENS_REASON_WORKING_DISTANCE_BEYOND_FOCUS 8192

/**
 * By the width as it was read: 1/(2 D sigma)^2.
 */
#define SPOTWISE_READING_WEIGHTS_MEASURED 1

/**
 * By the fitted width, with sigma^2 taken from D^2.
 */
#define SPOTWISE_READING_WEIGHTS_REFINED 2

/**
 * Fewer than ten different heights.
 */
#define SPOTWISE_BEAM_WARNING_FEW_HEIGHTS 1

/**
 * Less than three tenths of the readings within one Rayleigh range of the waist.
 */
#define SPOTWISE_BEAM_WARNING_FEW_NEAR 2

/**
 * Less than three tenths of the readings beyond two Rayleigh ranges.
 */
#define SPOTWISE_BEAM_WARNING_FEW_FAR 4

/**
 * The waist lies outside the readings: focus is extrapolated.
 */
#define SPOTWISE_BEAM_WARNING_WAIST_OUTSIDE 8

/**
 * Fewer than two readings on one side of the waist.
 */
#define SPOTWISE_BEAM_WARNING_ONE_SIDED 16

/**
 * M^2 below 1.
 */
#define SPOTWISE_BEAM_WARNING_M2_BELOW_ONE 32

/**
 * M^2 below 1 by more than its range: no beam has such widths at this wavelength.
 */
#define SPOTWISE_BEAM_WARNING_NO_BEAM 64

/**
 * The readings stray from a hyperbola, with a chance below 1 %.
 */
#define SPOTWISE_BEAM_WARNING_NO_HYPERBOLA 128

/**
 * The widths look like those of marks, or were reported as such.
 */
#define SPOTWISE_BEAM_WARNING_MARK_WIDTHS 256

/**
 * The readings scatter more than their deviations say.
 */
#define SPOTWISE_BEAM_WARNING_SCATTER 512

/**
 * The readings scatter less than their deviations say.
 */
#define SPOTWISE_BEAM_WARNING_LITTLE_SCATTER 1024

/**
 * The half angle exceeds 0.15 rad.
 */
#define SPOTWISE_BEAM_WARNING_WIDE_CONE 2048

/**
 * The most pieces of one series.
 */
#define SPOTWISE_MOST_PIECES 256

/**
 * Not good enough to be sold.
 */
#define SPOTWISE_RANK_POOR 1

/**
 * Good enough, though not the best.
 */
#define SPOTWISE_RANK_ACCEPTABLE 2

/**
 * As good as the best.
 */
#define SPOTWISE_RANK_SHARP 3

/**
 * Pieces are out of order.
 */
#define SPOTWISE_EYE_OUT_OF_ORDER 1

/**
 * What the deviation makes of a height exceeds half of a run.
 */
#define SPOTWISE_EYE_COARSE_JUDGEMENT 2

/**
 * A step at an end of a run exceeds half of it.
 */
#define SPOTWISE_EYE_COARSE_STEPS 4

/**
 * Of ranks: the acceptable run has no end toward the lens.
 */
#define SPOTWISE_EYE_USABLE_OPEN_TOWARD_LENS 8

/**
 * Of ranks: the acceptable run has no end away from the lens.
 */
#define SPOTWISE_EYE_USABLE_OPEN_AWAY_FROM_LENS 16

/**
 * Of ranks: no piece is sharp.
 */
#define SPOTWISE_EYE_NONE_SHARP 32

/**
 * What stated deviations of widths are worth: they are taken at their word.
 */
#define SPOTWISE_WIDTH_SCATTER_STATED 1

/**
 * What stated deviations of widths are worth: only their ratios are; how far the marks scatter, the fit
 * finds.
 */
#define SPOTWISE_WIDTH_SCATTER_FOUND 2

/**
 * Caution of a fit: marks were left out as outliers.
 */
#define SPOTWISE_MARK_FIT_OUTLIERS 1

/**
 * Caution of a fit: the marks scatter more than is stated; a chi squared so great is met in less than
 * 1 % of cases.
 */
#define SPOTWISE_MARK_FIT_SCATTER 2

/**
 * Caution of a fit: M squared lies below 1 by more than its range. Wavelength, scale or kind of the
 * marks are wrong, or they heat and melt.
 */
#define SPOTWISE_MARK_FIT_M2_BELOW_ONE 4

/**
 * Caution of a fit: spot and dose are hard to tell apart. The values of the sizes are rough; read their
 * ranges, which may be open.
 */
#define SPOTWISE_MARK_FIT_WEAK_SIZE 8

/**
 * Caution of a fit: the deviation of the height of the waist exceeds 0.15 Rayleigh ranges.
 */
#define SPOTWISE_MARK_FIT_WEAK_PLACE 16

/**
 * Caution of a fit: another waist, farther off than two deviations, fits about as well.
 */
#define SPOTWISE_MARK_FIT_SECOND_SOLUTION 32

/**
 * Caution of a fit: fewer than two heights lie beyond the waist on one of its sides.
 */
#define SPOTWISE_MARK_FIT_ONE_SIDED 64

/**
 * Further marks that would help: at heights nearer to the lens.
 */
#define SPOTWISE_FURTHER_MARKS_TOWARD_LENS 1

/**
 * Further marks that would help: at heights farther from the lens.
 */
#define SPOTWISE_FURTHER_MARKS_AWAY_FROM_LENS 2

/**
 * Further marks that would help: at the same heights with twice the power.
 */
#define SPOTWISE_FURTHER_MARKS_TWICE_THE_POWER 4

/**
 * Further marks that would help: with less power, or out to where the marks vanish.
 */
#define SPOTWISE_FURTHER_MARKS_UNTIL_THEY_VANISH 8

/**
 * Further marks that would help: those that were left out, once more.
 */
#define SPOTWISE_FURTHER_MARKS_REPEATS 16

/**
 * To measure widths, or to rank pieces by eye.
 */
#define SPOTWISE_SERIES_WIDTHS 1

/**
 * To see where marks of little power vanish.
 */
#define SPOTWISE_SERIES_VANISHING 2

/**
 * From the height nearest the lens on.
 */
#define SPOTWISE_SWEEP_AWAY_FROM_LENS 1

/**
 * From the height farthest from the lens on.
 */
#define SPOTWISE_SWEEP_TOWARD_LENS 2

/**
 * A height of the sweep.
 */
#define SPOTWISE_PIECE_SWEEP 1

/**
 * Engraved before the sweep, to reveal drift.
 */
#define SPOTWISE_PIECE_FIRST_REPEAT 2

/**
 * The same after the sweep.
 */
#define SPOTWISE_PIECE_LAST_REPEAT 3

/**
 * The head would come closer than the least clearance.
 */
#define SPOTWISE_SKIP_TOO_NEAR_HEAD 1

/**
 * Beyond the travel toward the lens.
 */
#define SPOTWISE_SKIP_BEYOND_TRAVEL_TOWARD_LENS 2

/**
 * Beyond the travel away from the lens.
 */
#define SPOTWISE_SKIP_BEYOND_TRAVEL_AWAY_FROM_LENS 3

/**
 * No room to approach it in the direction of the sweep.
 */
#define SPOTWISE_SKIP_NO_ROOM_TO_APPROACH 4

/**
 * Room for the text of a height with its NUL.
 */
#define SPOTWISE_LABEL_ROOM 13

/**
 * Fewer than three different doses, or than four marks: nothing tells whether squared widths follow
 * a line.
 */
#define SPOTWISE_THRESHOLD_WARNING_UNTRIED 1

/**
 * The squares stray from a line, with a chance below 1 %: heat, or another law.
 */
#define SPOTWISE_THRESHOLD_WARNING_NO_LINE 2

/**
 * The least dose lies farther above the threshold than below the greatest, by their ratios.
 */
#define SPOTWISE_THRESHOLD_WARNING_FAR_ABOVE 4

/**
 * The marks scatter more than their deviations say.
 */
#define SPOTWISE_THRESHOLD_WARNING_SCATTER 8

/**
 * The marks scatter less than their deviations say.
 */
#define SPOTWISE_THRESHOLD_WARNING_LITTLE_SCATTER 16

/**
 * At least one mark was left out as an outlier.
 */
#define SPOTWISE_THRESHOLD_WARNING_OUTLIERS 32

/**
 * Depth law: by ln q, q being the dose ratio: a bulk into which the dose falls off by an exponential law.
 */
#define SPOTWISE_DEPTH_LOGARITHMIC 1

/**
 * Depth law: by q - 1: a bulk of which every joule above the threshold removes its share.
 */
#define SPOTWISE_DEPTH_LINEAR 2

/**
 * Cause: no change shows.
 */
#define SPOTWISE_CAUSE_NOTHING 1

/**
 * Cause: focus has changed.
 */
#define SPOTWISE_CAUSE_FOCUS 2

/**
 * Cause: the dose has changed.
 */
#define SPOTWISE_CAUSE_POWER 3

/**
 * Cause: both have changed.
 */
#define SPOTWISE_CAUSE_FOCUS_AND_POWER 4

/**
 * Cause: one of them has changed, and the width alone cannot tell which.
 */
#define SPOTWISE_CAUSE_FOCUS_OR_POWER 5

/**
 * Cause: the dose must have changed, for no height explains the mark; focus may have as well.
 */
#define SPOTWISE_CAUSE_POWER_PERHAPS_FOCUS 6

/**
 * Cause: what was taken for good was not in focus, or the laws are others.
 */
#define SPOTWISE_CAUSE_NOT_AS_ASSUMED 7

/**
 * Further test: none is needed.
 */
#define SPOTWISE_TEST_NOTHING 1

/**
 * Further test: the same mark a step nearer and a step farther; spotwise_settle_by_heights() reads it.
 */
#define SPOTWISE_TEST_HEIGHTS_EITHER_SIDE 2

/**
 * Further test: a solid patch and a thin line in one job; spotwise_settle_by_patch() reads it.
 */
#define SPOTWISE_TEST_SOLID_PATCH 3

/**
 * Further test: the same line once more with the power doubled; spotwise_settle_by_power() reads it.
 */
#define SPOTWISE_TEST_DOUBLE_POWER 4

/**
 * What stays open: on which side of the focus the surface lies.
 */
#define SPOTWISE_AMBIGUITY_SIDE 1

/**
 * What stays open: which of two heights it is.
 */
#define SPOTWISE_AMBIGUITY_TWO_HEIGHTS 2

/**
 * What stays open: whether focus or the dose has changed.
 */
#define SPOTWISE_AMBIGUITY_FOCUS_OR_POWER 4

/**
 * What stays open: whether heat has widened the mark, should the material melt.
 */
#define SPOTWISE_AMBIGUITY_MELT 8

/**
 * What stays open: what has changed the dose.
 */
#define SPOTWISE_AMBIGUITY_POWER_OR_SPEED 16

/**
 * What stays open: whether the surface is in focus, for at this dose the width hardly reacts to it.
 */
#define SPOTWISE_AMBIGUITY_INSENSITIVE 32

/**
 * Heights: worse on both sides, focus lies within half a step of the middle height.
 */
#define SPOTWISE_HEIGHTS_FOCUS_WITHIN 1

/**
 * Heights: better a step nearer the lens, the surface lies too far from it.
 */
#define SPOTWISE_HEIGHTS_FOCUS_TOWARD_LENS 2

/**
 * Heights: better a step farther from the lens, the surface lies too near it.
 */
#define SPOTWISE_HEIGHTS_FOCUS_AWAY_FROM_LENS 3

/**
 * Heights: the readings do not differ enough.
 */
#define SPOTWISE_HEIGHTS_NO_DIFFERENCE 4

/**
 * Heights: better on both sides, which no focus makes.
 */
#define SPOTWISE_HEIGHTS_CONTRADICTION 5

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
 * Dose over threshold dose, enough to mark. Range: 1.000001 to 1e6.
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
 * Power on the surface, averaged over pulses. Range: 1e-9 to 1e6 W.
 */
#define SPOTWISE_PARAM_POWER 77

/**
 * Speed of the spot along the line. Range: 1e-9 to 1e4 m/s.
 */
#define SPOTWISE_PARAM_SPEED 78

/**
 * Spot diameter across the scan, 1/e^2 (D4 sigma). Range: 1e-9 to 10 m.
 */
#define SPOTWISE_PARAM_DIAMETER_ACROSS 79

/**
 * Spot diameter along the scan, 1/e^2 (D4 sigma). Range: 1e-9 to 10 m.
 */
#define SPOTWISE_PARAM_DIAMETER_ALONG 80

/**
 * From one line of a raster fill to the next. Range: 1e-9 to 1 m.
 */
#define SPOTWISE_PARAM_LINE_INTERVAL 81

/**
 * Lines to the inch. Range: 0.0254 to 2.54e7.
 */
#define SPOTWISE_PARAM_DOTS_PER_INCH 82

/**
 * Pulses in a second. Range: 1e-3 to 1e12 Hz.
 */
#define SPOTWISE_PARAM_REPETITION_RATE 83

/**
 * Energy for each area: a line dose, a fill dose or a peak fluence. Range: 1e-12 to 1e18 J/m^2.
 */
#define SPOTWISE_PARAM_DOSE 84

/**
 * Dose at which the material just marks. Range: 1e-12 to 1e18 J/m^2.
 */
#define SPOTWISE_PARAM_THRESHOLD 85

/**
 * What makes a mark, as a code. Range: 1 to 2.
 */
#define SPOTWISE_PARAM_MARK_KIND 86

/**
 * Line interval over spot radius. Range: 0 to 20.
 */
#define SPOTWISE_PARAM_INTERVAL_OVER_RADIUS 87

/**
 * Contrast of the ripple of a fill. Range: 1e-12 to 0.999999.
 */
#define SPOTWISE_PARAM_RIPPLE_CONTRAST 88

/**
 * Width of a stroke as it is drawn. Range: 1e-9 to 10 m.
 */
#define SPOTWISE_PARAM_DRAWN_WIDTH 89

/**
 * Width, side or diameter of a detail. Range: 1e-9 to 10 m.
 */
#define SPOTWISE_PARAM_DETAIL_SIZE 90

/**
 * Thermal diffusivity. Range: 0 to 1e-2 m^2/s.
 */
#define SPOTWISE_PARAM_DIFFUSIVITY 91

/**
 * Side of a pixel that is burnt as a box. Range: 0 to 1 m.
 */
#define SPOTWISE_PARAM_PIXEL 92

/**
 * Standard deviation of the place of the spot. Range: 0 to 1 m.
 */
#define SPOTWISE_PARAM_JITTER_DEVIATION 93

/**
 * Rise time of the power, 10 % to 90 %. Range: 0 to 1 s.
 */
#define SPOTWISE_PARAM_RISE_TIME 94

/**
 * By how much the power lags behind the motion. Range: 0 to 1 s.
 */
#define SPOTWISE_PARAM_SWITCH_DELAY 95

/**
 * What is wanted of a fill, as a code. Range: 1 to 3.
 */
#define SPOTWISE_PARAM_TASTE 96

/**
 * Greatest width of an edge, 10 % to 90 % of the dose. Range: 1e-9 to 10 m.
 */
#define SPOTWISE_PARAM_LARGEST_EDGE 97

/**
 * Weight of crispness against smoothness. Range: 1e-3 to 1.
 */
#define SPOTWISE_PARAM_CRISPNESS_WEIGHT 98

/**
 * From one pulse to the next along the line. Range: 1e-12 to 10 m.
 */
#define SPOTWISE_PARAM_PULSE_PITCH 99

/**
 * Exponent of incubation, 1 for none. Range: 0.5 to 1.
 */
#define SPOTWISE_PARAM_INCUBATION 100

/**
 * Number of pulses that fall on one place. Range: 1 to 1e9.
 */
#define SPOTWISE_PARAM_PULSES 101

/**
 * Depth at which the fluence has fallen by e. Range: 1e-12 to 1 m.
 */
#define SPOTWISE_PARAM_PENETRATION_DEPTH 102

/**
 * How far the edge of a pulsed line dents between dots. Range: 1e-15 to 10 m.
 */
#define SPOTWISE_PARAM_SCALLOP 103

/**
 * What a compensation is to keep, as a code. Range: 1 to 3.
 */
#define SPOTWISE_PARAM_COMPENSATION_RULE 104

/**
 * Greatest power that the laser gives. Range: 1e-9 to 1e6 W.
 */
#define SPOTWISE_PARAM_GREATEST_POWER 105

/**
 * Least speed that is allowed. Range: 1e-9 to 1e4 m/s.
 */
#define SPOTWISE_PARAM_LEAST_SPEED 106

/**
 * Least irradiance over that in the waist. Range: 0 to 1e6.
 */
#define SPOTWISE_PARAM_LEAST_IRRADIANCE_RATIO 107

/**
 * How a material answers to dose, as a code. Range: 1 to 4.
 */
#define SPOTWISE_PARAM_RESPONSE 108

/**
 * Energy that removes one volume. Range: 1 to 1e15 J/m^3.
 */
#define SPOTWISE_PARAM_REMOVAL_ENERGY 109

/**
 * Time for which the spot stays over one place. Range: 0 to 1e6 s.
 */
#define SPOTWISE_PARAM_DWELL 110

/**
 * The array of widths of test marks. No fixed range.
 */
#define SPOTWISE_PARAM_WIDTHS 111

/**
 * The array of standard deviations of test marks. No fixed range.
 */
#define SPOTWISE_PARAM_DEVIATIONS 112

/**
 * Width or diameter of a test mark. Range: 1e-9 to 10 m.
 */
#define SPOTWISE_PARAM_MARK_WIDTH 113

/**
 * Standard deviation of the width of a test mark. Range: 1e-12 to 10 m.
 */
#define SPOTWISE_PARAM_WIDTH_DEVIATION 114

/**
 * Deviations beyond which a mark is left out; infinite to keep all. Range: 2 to 1e6.
 */
#define SPOTWISE_PARAM_OUTLIER_LIMIT 115

/**
 * How many test marks there are to fit. Range: 3 and above.
 */
#define SPOTWISE_PARAM_MARKS_USED 116

/**
 * Slope of a fit over its standard deviation. Range: 3 and above.
 */
#define SPOTWISE_PARAM_SIGNIFICANCE 117

/**
 * Kind of typeface, as a code. Range: 1 to 6.
 */
#define SPOTWISE_PARAM_TYPEFACE 118

/**
 * Width of an upright stem, in ems. Range: 1e-3 to 1 em.
 */
#define SPOTWISE_PARAM_STEM_SHARE 119

/**
 * Stroke to which a typeface amounts, in ems. Range: 1e-3 to 1 em.
 */
#define SPOTWISE_PARAM_STROKE_SHARE 120

/**
 * Gap to which the counters of a typeface amount, in ems. Range: 1e-3 to 1 em.
 */
#define SPOTWISE_PARAM_COUNTER_SHARE 121

/**
 * Gap to which counters and letter gaps of a typeface amount, in ems. Range: 1e-3 to 1 em.
 */
#define SPOTWISE_PARAM_GAP_SHARE 122

/**
 * Share of the fill dose on the middle of a crisp stem. Range: 0.5 to 0.999999.
 */
#define SPOTWISE_PARAM_CRISP_EXPOSURE 123

/**
 * Least dose window of a grade of text. Range: 1 to 1e3.
 */
#define SPOTWISE_PARAM_DOSE_WINDOW 124

/**
 * Grade of text, as a code. Range: 1 to 4.
 */
#define SPOTWISE_PARAM_TEXT_GRADE 125

/**
 * Size of type. Range: 1e-9 to 10 m.
 */
#define SPOTWISE_PARAM_EM 126

/**
 * How the dose of a job is known, as a code. Range: 1 to 2.
 */
#define SPOTWISE_PARAM_JOB_DOSE 127

/**
 * Whether a job has text, as a code. Range: 1 to 2.
 */
#define SPOTWISE_PARAM_JOB_TEXT 128

/**
 * Threshold of a fit over its standard deviation. Range: 1 and above.
 */
#define SPOTWISE_PARAM_CERTAINTY 129

/**
 * Dose over threshold dose where it may also be too little to mark. Range: 1e-6 to 1e6.
 */
#define SPOTWISE_PARAM_ANY_DOSE_RATIO 130

/**
 * Greatest speed that is allowed. Range: 1e-9 to 1e4 m/s.
 */
#define SPOTWISE_PARAM_GREATEST_SPEED 131

/**
 * What a map of heights is turned into, as a code. Range: 1 to 5.
 */
#define SPOTWISE_PARAM_HEIGHT_QUANTITY 132

/**
 * What makes the surface stray, as a code. Range: 1 to 9.
 */
#define SPOTWISE_PARAM_TOLERANCE_SOURCE 133

/**
 * How a contribution to a tolerance stack strays, as a code. Range: 1 to 5.
 */
#define SPOTWISE_PARAM_DISTRIBUTION 134

/**
 * Half width by which a contribution strays. Range: 0 to 1e3 m.
 */
#define SPOTWISE_PARAM_HALF_WIDTH 135

/**
 * Half width over standard deviation. Range: 1 to 10.
 */
#define SPOTWISE_PARAM_COVERAGE_FACTOR 136

/**
 * Mean of a contribution, + away from the lens. Range: -1e3 to 1e3 m.
 */
#define SPOTWISE_PARAM_MEAN_OFFSET 137

/**
 * How many contributions a tolerance stack has. Range: 1 and above.
 */
#define SPOTWISE_PARAM_CONTRIBUTIONS 138

/**
 * Share of all cases that an interval is to cover. Range: 0.01 to 0.999999999999.
 */
#define SPOTWISE_PARAM_COVERAGE_PROBABILITY 139

/**
 * How many cases are drawn; a whole number. Range: 10 to 1e7.
 */
#define SPOTWISE_PARAM_DRAWS 140

/**
 * From where random numbers start; a whole number, up to 2^53 - 1. Range: 0 to 9007199254740991.
 */
#define SPOTWISE_PARAM_SEED 141

/**
 * Limit of the surface's offset toward the lens, or end of a depth of focus there, + away from the lens.
 * Range: -1e7 to 1e7 m.
 */
#define SPOTWISE_PARAM_TOWARD_LENS_Z 142

/**
 * Limit of the surface's offset away from the lens, or end of a depth of focus there. Range: -1e7 to 1e7 m.
 */
#define SPOTWISE_PARAM_AWAY_FROM_LENS_Z 143

/**
 * Highest place of a surface relative to the waist or to a datum, + away from the lens.
 * Range: -1e7 to 1e7 m.
 */
#define SPOTWISE_PARAM_HIGHEST_Z 144

/**
 * Lowest place of a surface relative to the waist or to a datum, + away from the lens.
 * Range: -1e7 to 1e7 m.
 */
#define SPOTWISE_PARAM_LOWEST_Z 145

/**
 * What may be used of a depth of focus, from end to end. Range: 1e-9 to 2e7 m.
 */
#define SPOTWISE_PARAM_USABLE_DEPTH 146

/**
 * Share of the depth of focus that is kept for errors of set-up. Range: 0 to 0.99.
 */
#define SPOTWISE_PARAM_BAND_MARGIN 147

/**
 * Bands of height into which a surface is divided. Range: 1 to 1e6.
 */
#define SPOTWISE_PARAM_HEIGHT_BANDS 148

/**
 * The array of limits of bands. No fixed range.
 */
#define SPOTWISE_PARAM_BAND_LIMITS 149

/**
 * The array of focus heights. No fixed range.
 */
#define SPOTWISE_PARAM_FOCUS_HEIGHTS 150

/**
 * Radius of a round part. Range: 1e-6 to 1e3 m.
 */
#define SPOTWISE_PARAM_PART_RADIUS 151

/**
 * What focus is set on: SPOTWISE_AIM_*. Range: 1 to 2.
 */
#define SPOTWISE_PARAM_FOCUS_AIM 152

/**
 * Depth of an engraving. Range: 1e-9 to 1e3 m.
 */
#define SPOTWISE_PARAM_TOTAL_DEPTH 153

/**
 * Depth that one pass removes. Range: 1e-9 to 1e3 m.
 */
#define SPOTWISE_PARAM_DEPTH_PER_PASS 154

/**
 * How often an engraving is passed over. Range: 1 to 1e6.
 */
#define SPOTWISE_PARAM_PASSES 155

/**
 * Shape of a surface, as a code. Range: 1 to 5.
 */
#define SPOTWISE_PARAM_SURFACE_SHAPE 156

/**
 * How far a surface drops away from the lens on each length in x. Range: -2 to 2.
 */
#define SPOTWISE_PARAM_SLOPE_X 157

/**
 * How far a surface drops away from the lens on each length in y. Range: -2 to 2.
 */
#define SPOTWISE_PARAM_SLOPE_Y 158

/**
 * Radius of a cylinder or sphere. Range: 1e-6 to 1e9 m.
 */
#define SPOTWISE_PARAM_CURVATURE_RADIUS 159

/**
 * Which way a cylinder or sphere bulges, as a code. Range: 1 to 2.
 */
#define SPOTWISE_PARAM_BULGE 160

/**
 * Where the crown of a cylinder or sphere is, in x. Range: -1e3 to 1e3 m.
 */
#define SPOTWISE_PARAM_CROWN_X 161

/**
 * Where the crown of a cylinder or sphere is, in y. Range: -1e3 to 1e3 m.
 */
#define SPOTWISE_PARAM_CROWN_Y 162

/**
 * Angle of a cylinder's axis from the x axis, toward + y. Range: -10 to 10 rad.
 */
#define SPOTWISE_PARAM_AXIS_ANGLE 163

/**
 * Place on a surface, in x. Range: -1e3 to 1e3 m.
 */
#define SPOTWISE_PARAM_PLACE_X 164

/**
 * Place on a surface, in y. Range: -1e3 to 1e3 m.
 */
#define SPOTWISE_PARAM_PLACE_Y 165

/**
 * End of a region in x. Range: -1e3 to 1e3 m.
 */
#define SPOTWISE_PARAM_REGION_X 166

/**
 * End of a region in y. Range: -1e3 to 1e3 m.
 */
#define SPOTWISE_PARAM_REGION_Y 167

/**
 * Extent of a region in x. Range: 1e-9 to 2e3 m.
 */
#define SPOTWISE_PARAM_REGION_WIDTH_X 168

/**
 * Extent of a region in y. Range: 1e-9 to 2e3 m.
 */
#define SPOTWISE_PARAM_REGION_WIDTH_Y 169

/**
 * Distance from the crown of a cylinder or sphere; it must be less than the radius. Range: 0 to 1e9 m.
 */
#define SPOTWISE_PARAM_DISTANCE_FROM_CROWN 170

/**
 * Edge of a step, in x. Range: -1e3 to 1e3 m.
 */
#define SPOTWISE_PARAM_STEP_EDGE 171

/**
 * From one edge of a step to the next. Range: 1e-9 to 2e3 m.
 */
#define SPOTWISE_PARAM_STEP_WIDTH 172

/**
 * Height of a step, + away from the lens. Range: -1e3 to 1e3 m.
 */
#define SPOTWISE_PARAM_STEP_HEIGHT 173

/**
 * The array of the edges of steps. Range: 2 and above.
 */
#define SPOTWISE_PARAM_STEP_EDGES 174

/**
 * The array of the heights of steps. No fixed range.
 */
#define SPOTWISE_PARAM_STEP_HEIGHTS 175

/**
 * Place of a column of probes, in x. Range: -1e3 to 1e3 m.
 */
#define SPOTWISE_PARAM_GRID_X 176

/**
 * Place of a row of probes, in y. Range: -1e3 to 1e3 m.
 */
#define SPOTWISE_PARAM_GRID_Y 177

/**
 * From one column or row of probes to the next. Range: 1e-9 to 2e3 m.
 */
#define SPOTWISE_PARAM_GRID_SPACING 178

/**
 * Height that a probe found, + away from the lens. Range: -1e3 to 1e3 m.
 */
#define SPOTWISE_PARAM_PROBED_HEIGHT 179

/**
 * The array of the places of columns of probes. Range: 2 and above.
 */
#define SPOTWISE_PARAM_GRID_COLUMNS 180

/**
 * The array of the places of rows of probes. Range: 2 and above.
 */
#define SPOTWISE_PARAM_GRID_ROWS 181

/**
 * The array of the heights that probes found. No fixed range.
 */
#define SPOTWISE_PARAM_PROBED_HEIGHTS 182

/**
 * How many probes have found a height, of a grid or at the corners of one of its cells. Range: 4 and
 * above.
 */
#define SPOTWISE_PARAM_KNOWN_PROBES 183

/**
 * How many strips, or cells with all their probes, a region meets. Range: 1 and above.
 */
#define SPOTWISE_PARAM_KNOWN_PARTS 184

/**
 * Half width of all errors of height together. Range: 0 to 1e3 m.
 */
#define SPOTWISE_PARAM_SET_UP_TOLERANCE 185

/**
 * Least clearance over the highest place of the surface. Range: 0 to 1e4 m.
 */
#define SPOTWISE_PARAM_LEAST_CLEARANCE 186

/**
 * From the lowest part of the head to a flat surface in focus. Range: 0 to 1e4 m.
 */
#define SPOTWISE_PARAM_WORKING_DISTANCE 187

/**
 * How many lenses there are to choose from. Range: 1 to 8.
 */
#define SPOTWISE_PARAM_LENS_CANDIDATES 188

/**
 * Cells that are laid over a curved surface, in x and in y each. Range: 1 to 1000.
 */
#define SPOTWISE_PARAM_CELLS_PER_SIDE 189

/**
 * Radius of the field of a scan head. Range: 1e-6 to 10 m.
 */
#define SPOTWISE_PARAM_FIELD_RADIUS 190

/**
 * Height of the tangential focus at the edge of a field, + away from the lens. Range: -10 to 10 m.
 */
#define SPOTWISE_PARAM_EDGE_TANGENTIAL_Z 191

/**
 * Height of the sagittal focus at the edge of a field, + away from the lens. Range: -10 to 10 m.
 */
#define SPOTWISE_PARAM_EDGE_SAGITTAL_Z 192

/**
 * Angle of incidence on the table at the edge of a field. Range: 0 to 1 rad.
 */
#define SPOTWISE_PARAM_EDGE_INCIDENCE 193

/**
 * Spot at the edge of a field over that in its middle, both in focus. Range: 1 to 10.
 */
#define SPOTWISE_PARAM_EDGE_SPOT_RATIO 194

/**
 * Place in a field, from its middle, in x. Range: -10 to 10 m.
 */
#define SPOTWISE_PARAM_FIELD_X 195

/**
 * Place in a field, from its middle, in y. Range: -10 to 10 m.
 */
#define SPOTWISE_PARAM_FIELD_Y 196

/**
 * Angle by which the mirrors of a scan head turn the light off the axis. Range: 0 to 1.2 rad.
 */
#define SPOTWISE_PARAM_FIELD_ANGLE 197

/**
 * Width of a drawing in pixels. Range: 1 to 65535.
 */
#define SPOTWISE_PARAM_DRAWING_WIDTH 198

/**
 * Height of a drawing in pixels. Range: 1 to 65535.
 */
#define SPOTWISE_PARAM_DRAWING_HEIGHT 199

/**
 * Pixels of a drawing altogether. Range: 1 to 268435456.
 */
#define SPOTWISE_PARAM_DRAWING_PIXELS 200

/**
 * From the start of one row of samples to that of the next, in samples; at least the width.
 * Range: 1 to 4294967295.
 */
#define SPOTWISE_PARAM_ROW_STRIDE 201

/**
 * The array of samples of a drawing. Range: 1 and above.
 */
#define SPOTWISE_PARAM_DRAWING_SAMPLES 202

/**
 * What a sample says, as a code. Range: 1 to 2.
 */
#define SPOTWISE_PARAM_SAMPLE_KIND 203

/**
 * What a drawing is: to be sampled, or the raster that is burnt; as a code. Range: 1 to 2.
 */
#define SPOTWISE_PARAM_DRAWING_USE 204

/**
 * From one pixel of a drawing to the next in x. Range: 1e-9 to 1 m.
 */
#define SPOTWISE_PARAM_PITCH_X 205

/**
 * From one pixel of a drawing to the next in y. Range: 1e-9 to 1 m.
 */
#define SPOTWISE_PARAM_PITCH_Y 206

/**
 * Where a drawing lies on the surface, in x. Range: -1e3 to 1e3 m.
 */
#define SPOTWISE_PARAM_DRAWING_X 207

/**
 * Where a drawing lies on the surface, in y. Range: -1e3 to 1e3 m.
 */
#define SPOTWISE_PARAM_DRAWING_Y 208

/**
 * What is known of the scan, as a code. Range: 1 to 2.
 */
#define SPOTWISE_PARAM_SCAN_KIND 209

/**
 * From the drawing's upper edge to the first scan line. Range: 0 to 10 m.
 */
#define SPOTWISE_PARAM_FIRST_LINE 210

/**
 * Blur on top of the spot, across the scan. Range: 0 to 10 m.
 */
#define SPOTWISE_PARAM_BLUR_ACROSS 211

/**
 * Blur on top of the spot, along the scan. Range: 0 to 10 m.
 */
#define SPOTWISE_PARAM_BLUR_ALONG 212

/**
 * How far an edge may stray before it counts as lost or filled. Range: 0 to 1 m.
 */
#define SPOTWISE_PARAM_EDGE_TOLERANCE 213

/**
 * Width of the gaps that a melt closes. Range: 0 to 1 m.
 */
#define SPOTWISE_PARAM_MELT_BRIDGE 214

/**
 * Radius of the spot in pixels of the drawing. Range: 0.1 to 1e4.
 */
#define SPOTWISE_PARAM_PIXELS_PER_RADIUS 215

/**
 * Runs of ink or ground in the rows of a drawing: how intricate it is. Range: 0 and above.
 */
#define SPOTWISE_PARAM_PIXEL_RUNS 216

/**
 * The caller's room for findings. Range: 0 and above.
 */
#define SPOTWISE_PARAM_FINDINGS 217

/**
 * How much of the work was done when it was told to stop. Range: 0 to 1.
 */
#define SPOTWISE_PARAM_PROGRESS 218

/**
 * Pixels with ink. Range: 1 to 268435456.
 */
#define SPOTWISE_PARAM_INK_PIXELS 219

/**
 * Depth that doubling the dose adds to what just marks. Range: 1e-12 to 1 m.
 */
#define SPOTWISE_PARAM_THRESHOLD_DEPTH 220

/**
 * Depth from which on a place counts as marked. Range: 0 to 10 m.
 */
#define SPOTWISE_PARAM_VISIBLE_DEPTH 221

/**
 * How well a drawing comes out, as a code. Range: 1 to 4.
 */
#define SPOTWISE_PARAM_MARK_GRADE 222

/**
 * What must hold of a drawing, as a code. Range: 1 to 2.
 */
#define SPOTWISE_PARAM_DEMAND 223

/**
 * Area below which a piece or a hole of a drawing is a speck. Range: 0 to 1e-4 m^2.
 */
#define SPOTWISE_PARAM_SPECK_AREA 224

/**
 * Share of cases in which a range is to hold the truth. Range: 0.5 to 0.999999999999.
 */
#define SPOTWISE_PARAM_CONFIDENCE 225

/**
 * Readings used less parameters fitted; a whole number. Range: 1 to 1e5.
 */
#define SPOTWISE_PARAM_DEGREES_OF_FREEDOM 226

/**
 * Sum of squared residuals over their variances. Range: 0 to 1e100.
 */
#define SPOTWISE_PARAM_CHI_SQUARED 227

/**
 * How depth goes with dose, as a code. Range: 1 to 2.
 */
#define SPOTWISE_PARAM_DEPTH_LAW 228

/**
 * Standard deviation of a dose ratio over itself. Range: 0 to 1.
 */
#define SPOTWISE_PARAM_DOSE_RATIO_DEVIATION 229

/**
 * Depth, or darkness, of a mark in any unit. Range: 1e-12 to 1e12.
 */
#define SPOTWISE_PARAM_MARK_DEPTH 230

/**
 * Standard deviation of a depth or darkness. Range: 1e-15 to 1e12.
 */
#define SPOTWISE_PARAM_DEPTH_DEVIATION 231

/**
 * From one height of a test to the next. Range: 1e-9 to 1e3 m.
 */
#define SPOTWISE_PARAM_HEIGHT_STEP 232

/**
 * Power of one mark over that of another. Range: 1.01 to 100.
 */
#define SPOTWISE_PARAM_POWER_STEP 233

/**
 * M^2 as a measurement has it, which may be below 1 by noise. Range: 0.01 to 1e4.
 */
#define SPOTWISE_PARAM_MEASURED_M2 234

/**
 * Standard deviation of a measured M^2. Range: 0 to 1e4.
 */
#define SPOTWISE_PARAM_M2_DEVIATION 235

/**
 * Standard deviation of a measured waist diameter. Range: 0 to 10 m.
 */
#define SPOTWISE_PARAM_WAIST_DIAMETER_DEVIATION 236

/**
 * From the focal point of a lens to the waist, + away from the lens. Range: -1e4 to 1e4 m.
 */
#define SPOTWISE_PARAM_FOCUS_SHIFT 237

/**
 * Standard deviation of a measured height of focus. Range: 0 to 1e3 m.
 */
#define SPOTWISE_PARAM_FOCUS_DEVIATION 238

/**
 * Half width of a 95 % range over the standard deviation. Range: 1.9 to 13.
 */
#define SPOTWISE_PARAM_COVERAGE_FACTOR_95 239

/**
 * Standard deviation of a measured dose ratio over itself. Range: 0 to 10.
 */
#define SPOTWISE_PARAM_RELATIVE_DOSE_RATIO_DEVIATION 240

/**
 * Correlation of two measured numbers. Range: -1 to 1.
 */
#define SPOTWISE_PARAM_CORRELATION 241

/**
 * How many test pieces a series has. Range: 1 to 256.
 */
#define SPOTWISE_PARAM_PIECES 242

/**
 * Height of a test piece, + away from the lens. Range: -1000 to 1000 m.
 */
#define SPOTWISE_PARAM_PIECE_HEIGHT 243

/**
 * The array of what an eye said of test pieces. No fixed range.
 */
#define SPOTWISE_PARAM_JUDGEMENTS 244

/**
 * How good an eye finds a test piece, as a code. Range: 1 to 3.
 */
#define SPOTWISE_PARAM_PIECE_RANK 245

/**
 * Relative standard deviation of what an eye says of test pieces. Range: 0 to 1.
 */
#define SPOTWISE_PARAM_JUDGEMENT_DEVIATION 246

/**
 * Test pieces that are good enough to go by: with a mark, or ranked acceptable. Range: 1 and above.
 */
#define SPOTWISE_PARAM_GOOD_PIECES 247

/**
 * Heights with poor or unmarked test pieces only, beyond the good ones toward the lens. Range: 1 and above.
 */
#define SPOTWISE_PARAM_BOUND_TOWARD_LENS 248

/**
 * Heights with poor or unmarked test pieces only, beyond the good ones away from the lens. Range: 1 and above.
 */
#define SPOTWISE_PARAM_BOUND_AWAY_FROM_LENS 249

/**
 * What a series of test pieces is engraved for, as a code. Range: 1 to 2.
 */
#define SPOTWISE_PARAM_SERIES_PURPOSE 250

/**
 * Which way a series of test pieces is swept, as a code. Range: 1 to 2.
 */
#define SPOTWISE_PARAM_SWEEP_DIRECTION 251

/**
 * Step from height to height of a series of test pieces. Range: 1e-9 to 1000 m.
 */
#define SPOTWISE_PARAM_SERIES_STEP 252

/**
 * Half of the range of heights of a series of test pieces. Range: 1e-9 to 1000 m.
 */
#define SPOTWISE_PARAM_SERIES_HALF_RANGE 253

/**
 * Smallest step of the axis that sets the height. Range: 1e-9 to 1 m.
 */
#define SPOTWISE_PARAM_AXIS_STEP 254

/**
 * Backlash of the axis that sets the height. Range: 0 to 1 m.
 */
#define SPOTWISE_PARAM_AXIS_BACKLASH 255

/**
 * How far the axis can move pieces from expected focus; infinite if that is no limit. Range: 0 to 1000 m.
 */
#define SPOTWISE_PARAM_AXIS_TRAVEL 256

/**
 * Width or height of a test piece on the drawing, or of the room for its label. Range: 1e-6 to 1 m.
 */
#define SPOTWISE_PARAM_PIECE_SIZE 257

/**
 * What is left free between test pieces and labels. Range: 0 to 1 m.
 */
#define SPOTWISE_PARAM_PIECE_GAP 258

/**
 * Greatest width of a row of test pieces; infinite for one row. Range: 1e-6 to 1000 m.
 */
#define SPOTWISE_PARAM_ROW_WIDTH 259

/**
 * Steps of a series on either side of expected focus. Range: 2 to 120.
 */
#define SPOTWISE_PARAM_STEPS_PER_SIDE 260

/**
 * Steps of a series that are left on the side toward the lens. Range: 2 to 120.
 */
#define SPOTWISE_PARAM_STEPS_TOWARD_LENS 261

/**
 * Steps of a series that are left on the side away from the lens. Range: 2 to 120.
 */
#define SPOTWISE_PARAM_STEPS_AWAY_FROM_LENS 262

/**
 * The caller's array of planned pieces. No fixed range.
 */
#define SPOTWISE_PARAM_PLANNED_PIECES 263

/**
 * What the stated deviations of widths are worth, as a code. Range: 1 to 2.
 */
#define SPOTWISE_PARAM_WIDTH_SCATTER 264

/**
 * Deviation, over itself, of what is known beforehand; infinite where it is not known.
 * Range: 1e-6 to 10.
 */
#define SPOTWISE_PARAM_PRIOR_DEVIATION 265

/**
 * Power of a test mark over the power of reference. Range: 0.001 to 1000.
 */
#define SPOTWISE_PARAM_POWER_RATIO 266

/**
 * The array of power ratios of test marks. No fixed range.
 */
#define SPOTWISE_PARAM_POWER_RATIOS 267

/**
 * How many different heights a series of marks has; more heights help. Range: 3 and above.
 */
#define SPOTWISE_PARAM_DISTINCT_HEIGHTS 268

/**
 * By how many deviations the widths of marks change with height; less power helps, or heights out to
 * where the marks vanish. Range: 4 and above.
 */
#define SPOTWISE_PARAM_SHAPE_SIGNIFICANCE 269

/**
 * Height of a waist that should lie within the heights of a series; marks beyond that end help.
 * Range: -1e7 to 1e7 m.
 */
#define SPOTWISE_PARAM_WAIST_WITHIN_HEIGHTS 270

/**
 * Half the run of heights over the deviation of the waist's; less power helps, or heights out to where
 * the marks vanish. Range: 2 and above.
 */
#define SPOTWISE_PARAM_WAIST_Z_CERTAINTY 271

/**
 * Waist diameter over its deviation; the same heights at twice the power help, or a known M squared.
 * Range: 1 and above.
 */
#define SPOTWISE_PARAM_SIZE_CERTAINTY 272

/**
 * How a reading weighs in a fit, as a code. Range: 1 to 2.
 */
#define SPOTWISE_PARAM_READING_WEIGHTS 273

/**
 * How many readings there are to fit. Range: 4 to 100003.
 */
#define SPOTWISE_PARAM_READINGS 274

/**
 * Curvature of the squares of widths over its standard deviation; below 0 where they fall on
 * either side. Range: 3 and above.
 */
#define SPOTWISE_PARAM_CURVATURE_SIGNIFICANCE 275

/**
 * Square of a fitted waist diameter over its standard deviation. Range: 2 and above.
 */
#define SPOTWISE_PARAM_WAIST_SIGNIFICANCE 276

/**
 * Whether the weights of readings settled: 0 or 1. Range: 1 to 1.
 */
#define SPOTWISE_PARAM_STEADY_WEIGHTS 277

#if defined(SPOTWISE_ARTWORK)
/**
 * The most beams of one call of spotwise_rank_beams().
 */
#define SPOTWISE_MOST_BEAMS 64

/**
 * What a sample says: 0 is bare, anything else is ink.
 */
#define SPOTWISE_SAMPLES_BILEVEL 1

/**
 * What a sample says: the share of the pixel that is inked, 0 none, 255 all of it. Ink is from 128 on.
 */
#define SPOTWISE_SAMPLES_COVERAGE 2

/**
 * What a drawing is: the shapes that are to be marked, which the machine will sample finely.
 */
#define SPOTWISE_DRAWING_SHAPES 1

/**
 * What a drawing is: the very raster that is burnt, each row of pixels one pass of the spot.
 */
#define SPOTWISE_DRAWING_BURNT_RASTER 2

/**
 * What is known of the scan: nothing, so that each pixel counts as a box that is burnt evenly.
 */
#define SPOTWISE_SCAN_UNKNOWN 1

/**
 * What is known of the scan: lines along the rows, burnt while they cross ink.
 */
#define SPOTWISE_SCAN_ALONG_ROWS 2

/**
 * The dose of a wide even fill in the units of an exposure.
 */
#define SPOTWISE_FULL_DOSE 32768

/**
 * Greatest dose ratio of a preflight: beyond it, exposures that are wrong by 5e-4 of full dose could be a tenth of what
 * marks.
 */
#define SPOTWISE_MOST_DOSE_RATIO 200.0

/**
 * Change: a piece of the drawing of which no pixel is marked.
 */
#define SPOTWISE_CHANGE_COMPONENT_LOST 1

/**
 * Change: a piece of the drawing that is marked in two pieces or more.
 */
#define SPOTWISE_CHANGE_COMPONENT_SPLIT 2

/**
 * Change: a piece of the mark that joins two pieces of the drawing or more.
 */
#define SPOTWISE_CHANGE_COMPONENTS_MERGED 3

/**
 * Change: a piece of the mark in which no pixel is drawn.
 */
#define SPOTWISE_CHANGE_COMPONENT_NEW 4

/**
 * Change: a hole of the drawing of which every pixel is marked.
 */
#define SPOTWISE_CHANGE_HOLE_CLOSED 5

/**
 * Change: a hole of the drawing that is open to the outside in the mark.
 */
#define SPOTWISE_CHANGE_HOLE_OPENED 6

/**
 * Change: a hole of the drawing that is parted in the mark.
 */
#define SPOTWISE_CHANGE_HOLE_SPLIT 7

/**
 * Change: a hole of the mark that joins two holes of the drawing or more.
 */
#define SPOTWISE_CHANGE_HOLES_MERGED 8

/**
 * Change: a hole of the mark that shares no pixel with a hole of the drawing.
 */
#define SPOTWISE_CHANGE_HOLE_NEW 9

/**
 * Grade of a mark: everything is whole, with room for error in the dose, and strokes get all but the full dose.
 */
#define SPOTWISE_MARK_GRADE_CRISP 1

/**
 * Grade of a mark: everything is whole, with room for error in the dose.
 */
#define SPOTWISE_MARK_GRADE_GOOD 2

/**
 * Grade of a mark: strokes and counters hold, but neighbours touch or the dose has little room.
 */
#define SPOTWISE_MARK_GRADE_DEGRADED 3

/**
 * Grade of a mark: strokes are lost or broken, or counters filled.
 */
#define SPOTWISE_MARK_GRADE_LOST 4

/**
 * No dose keeps every stroke and every counter: focus or lens is the cause, not power.
 */
#define SPOTWISE_MARK_REASON_NO_DOSE_SAVES 1

/**
 * At this dose strokes are lost or broken that a higher one keeps.
 */
#define SPOTWISE_MARK_REASON_DOSE_TOO_LOW 2

/**
 * At this dose counters fill that a lower one leaves open.
 */
#define SPOTWISE_MARK_REASON_DOSE_TOO_HIGH 4

/**
 * Neighbours touch at this dose.
 */
#define SPOTWISE_MARK_REASON_NEIGHBOURS_TOUCH 8

/**
 * The dose at which all holds has little room.
 */
#define SPOTWISE_MARK_REASON_NARROW_DOSE_WINDOW 16

/**
 * Half of the strokes' length gets less than all but the full dose, so that edges are soft.
 */
#define SPOTWISE_MARK_REASON_SOFT_STROKES 32

/**
 * Part of the drawing lies where the surface has no known height: nothing is said of it.
 */
#define SPOTWISE_MARK_REASON_PARTLY_UNKNOWN 64

/**
 * The pixels are too coarse for the spot: draw it finer to be sure.
 */
#define SPOTWISE_MARK_REASON_COARSE_PIXELS 128

/**
 * What must hold of a drawing: strokes whole and counters open.
 */
#define SPOTWISE_DEMAND_LEGIBLE 1

/**
 * What must hold of a drawing: neighbours apart as well.
 */
#define SPOTWISE_DEMAND_APART 2

/**
 * What distances alone say: no piece is lost or starved, no two come to touch, no hole closes or opens.
 */
#define SPOTWISE_QUICK_NOTHING_AT_RISK 1

/**
 * What distances alone say: a piece is lost, two come to touch, or a hole closes or opens; the drawing does not hold.
 */
#define SPOTWISE_QUICK_SOMETHING_LOST 2

/**
 * What distances alone say: nothing that is sure; it is for spotwise_preflight() to say.
 */
#define SPOTWISE_QUICK_UNSURE 3

/**
 * What a spotwise_tell function returns for the work to go on; anything else stops it.
 */
#define SPOTWISE_GO_ON 0

/**
 * What a spotwise_tell function returns to stop the work.
 */
#define SPOTWISE_STOP 1

/**
 * Colour of a picture: no ink, and no mark. White.
 */
#define SPOTWISE_PICTURE_BARE 1

/**
 * Colour of a picture: ink that marks. Black.
 */
#define SPOTWISE_PICTURE_KEPT 2

/**
 * Colour of a picture: ink that does not mark, but lies within the tolerance of the mark. Pale yellow.
 */
#define SPOTWISE_PICTURE_WORN_EDGE 3

/**
 * Colour of a picture: marked without ink, but within the tolerance of what stays clear. Dark blue.
 */
#define SPOTWISE_PICTURE_GROWN_EDGE 4

/**
 * Colour of a picture: ink that does not mark, farther than the tolerance from any mark. Orange.
 */
#define SPOTWISE_PICTURE_LOST 5

/**
 * Colour of a picture: marked without ink, farther than the tolerance from what stays clear. Blue.
 */
#define SPOTWISE_PICTURE_FILLED 6

/**
 * Colour of a picture: the height of the surface is not known here. Pale grey.
 */
#define SPOTWISE_PICTURE_UNKNOWN 7

/**
 * Colour of a picture: a frame around a finding. Magenta.
 */
#define SPOTWISE_PICTURE_BOX 8
#endif

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
     * Greatest value that would have been accepted; NaN where there is none, DBL_MAX where none is the greatest.
     * A distance from a crown must be less than it.
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
     * Sum over the singlets and windows passed of the normalised aberration, in the axis where each is
     * greater: the number behind SPOTWISE_VALIDITY_ABERRATED.
     */
    double normalised_aberration;
    /**
     * Greatest 1/e^2 half angle along the path up to there in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
    /**
     * The beam there; its z = 0 lies at this place. Inside a window it is the beam in air that has
     * the same waist diameter and cone. Behind a singlet it is told by second moments; where
     * SPOTWISE_VALIDITY_ABERRATED stands, do not hand it on for irradiances and doses, which would take
     * it for Gaussian and come without that flag.
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
 * What a map holds as a whole: the result of spotwise_map_heights().
 */
typedef struct spotwise_height_map {
    /**
     * Size of this struct; spotwise_height_map_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * How many places have a height.
     */
    uint64_t measured;
    /**
     * How many have none.
     */
    uint64_t missing;
    /**
     * First place of the least number in the map, from 0; 0 if nothing was measured.
     */
    uint64_t least_index;
    /**
     * First place of the greatest number in the map, from 0; 0 if nothing was measured.
     */
    uint64_t greatest_index;
    /**
     * The least number of the map, in its unit; a quiet NaN if nothing was measured.
     */
    double least;
    /**
     * The greatest number of the map, in its unit; a quiet NaN if nothing was measured.
     */
    double greatest;
    /**
     * 1/e^2 half angle of the beam in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_height_map;

/**
 * How much of a surface is in focus: the result of spotwise_in_focus_mask().
 */
typedef struct spotwise_focus_mask {
    /**
     * Size of this struct; spotwise_focus_mask_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * How many places are in focus.
     */
    uint64_t in_focus;
    /**
     * How many lie nearer the lens than the range that is in focus: too high.
     */
    uint64_t too_near_lens;
    /**
     * How many lie farther from the lens than that range: too low.
     */
    uint64_t too_far_from_lens;
    /**
     * How many have no height.
     */
    uint64_t missing;
    /**
     * The end of the range nearer the lens, as a height in metres.
     */
    double toward_lens_z_m;
    /**
     * The end of the range farther from the lens, as a height in metres.
     */
    double away_from_lens_z_m;
    /**
     * 1/e^2 half angle of the beam in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_focus_mask;

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
 * A lens for scanning, as its user has measured it in the middle and at the edge of its field. Heights
 * are those of the table, from the focus on the axis, + away from the lens. If you know but one focus
 * at the edge, give it for both.
 */
typedef struct spotwise_scan_lens {
    /**
     * Size of this struct; spotwise_scan_lens_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Not read.
     */
    uint32_t reserved;
    /**
     * Focal length in metres, converging; range: SPOTWISE_PARAM_FOCAL_LENGTH.
     */
    double focal_length_m;
    /**
     * Radius of the field at whose edge the rest was measured, in metres; range:
     * SPOTWISE_PARAM_FIELD_RADIUS.
     */
    double field_radius_m;
    /**
     * Height in metres at which the spot at the edge is narrowest ALONG the radius; range:
     * SPOTWISE_PARAM_EDGE_TANGENTIAL_Z.
     */
    double edge_tangential_z_m;
    /**
     * Height in metres at which the spot at the edge is narrowest ACROSS the radius; range:
     * SPOTWISE_PARAM_EDGE_SAGITTAL_Z.
     */
    double edge_sagittal_z_m;
    /**
     * Angle in radians between the middle of the beam and the normal of the table at the edge, 0 for a
     * telecentric lens; range: SPOTWISE_PARAM_EDGE_INCIDENCE.
     */
    double edge_incidence_rad;
    /**
     * Narrowest spot at the edge ACROSS the radius over that on the axis, 1 if not measured; range:
     * SPOTWISE_PARAM_EDGE_SPOT_RATIO.
     */
    double edge_spot_ratio;
} spotwise_scan_lens;

/**
 * The spot at one place of a field: the result of spotwise_scan_field_at().
 */
typedef struct spotwise_scan_field_spot {
    /**
     * Size of this struct; spotwise_scan_field_spot_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Distance from the middle of the field in metres.
     */
    double radius_m;
    /**
     * Angle off the axis by which the mirrors turn the light, in radians; a mirror turns by half of it.
     */
    double field_angle_rad;
    /**
     * Angle of incidence on the table in radians.
     */
    double incidence_rad;
    /**
     * Height at which the spot here is narrowest along the radius in metres, + away from the lens.
     */
    double tangential_focus_z_m;
    /**
     * Height at which the spot here is narrowest across the radius in metres, + away from the lens.
     */
    double sagittal_focus_z_m;
    /**
     * Diameter on the table ALONG the radius in metres, 1/e^2 (D4 sigma).
     */
    double diameter_along_radius_m;
    /**
     * Diameter on the table ACROSS the radius in metres, 1/e^2 (D4 sigma).
     */
    double diameter_across_radius_m;
    /**
     * Diameter along the radius over the waist diameter on the axis.
     */
    double growth_along_radius;
    /**
     * Diameter across the radius over the waist diameter on the axis.
     */
    double growth_across_radius;
    /**
     * Irradiance in the middle of the spot over that at the waist on the axis.
     */
    double irradiance_ratio;
    /**
     * Peak dose of a line scanned ALONG the radius over that at the waist on the axis.
     */
    double line_dose_ratio_along_radius;
    /**
     * Peak dose of a line scanned ACROSS the radius over that at the waist on the axis.
     */
    double line_dose_ratio_across_radius;
    /**
     * Grazing ratio: the tangent of the incidence times the half angle of the cone; the number behind
     * SPOTWISE_VALIDITY_TILTED.
     */
    double grazing_ratio;
    /**
     * 1/e^2 half angle of the beam on the axis in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_scan_field_spot;

/**
 * How far a field reaches: the result of spotwise_scan_field_extent().
 */
typedef struct spotwise_scan_field_extent_result {
    /**
     * Size of this struct; spotwise_scan_field_extent_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * 1 if the radius is that of the whole field, else 0.
     */
    uint32_t whole_field;
    /**
     * Always 0.
     */
    uint32_t reserved;
    /**
     * Largest radius in metres within which no spot grows by more than asked.
     */
    double radius_m;
    /**
     * Side in metres of the largest square in that circle.
     */
    double square_side_m;
    /**
     * Grazing ratio at that radius: the number behind SPOTWISE_VALIDITY_TILTED.
     */
    double grazing_ratio;
    /**
     * 1/e^2 half angle of the beam on the axis in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_scan_field_extent_result;

/**
 * Where to put the table for a field: the result of spotwise_scan_field_focus().
 */
typedef struct spotwise_scan_field_focus_result {
    /**
     * Size of this struct; spotwise_scan_field_focus_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Best height of the table in metres, from the focus on the axis, + away from the lens: that at which the
     * largest spot is smallest.
     */
    double best_z_m;
    /**
     * The greatest distance in metres of any focus of the field from there.
     */
    double greatest_defocus_m;
    /**
     * Growth in the middle of the field.
     */
    double centre_growth;
    /**
     * Growth at the edge of the field ALONG the radius.
     */
    double edge_growth_along_radius;
    /**
     * Growth at the edge of the field ACROSS the radius.
     */
    double edge_growth_across_radius;
    /**
     * Grazing ratio at the edge of the field: the number behind SPOTWISE_VALIDITY_TILTED.
     */
    double grazing_ratio;
    /**
     * 1/e^2 half angle of the beam on the axis in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_scan_field_focus_result;

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
 * Which of two beams is the sharper, and where that changes: the result of spotwise_caustic_crossing().
 */
typedef struct spotwise_caustic_crossing_result {
    /**
     * Size of this struct; spotwise_caustic_crossing_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Which has the smaller waist: one of SPOTWISE_SHARPER_*.
     */
    uint32_t sharper_in_focus;
    /**
     * Which has the smaller spot far from the waist: one of SPOTWISE_SHARPER_*.
     */
    uint32_t sharper_far_off;
    /**
     * Distance from the common waist, on either side, at which the two spots are equal, in metres; NaN, as
     * the next, if one beam is the sharper everywhere, or the two are alike.
     */
    double offset_m;
    /**
     * Spot diameter of both there in metres, 1/e^2 (D4 sigma).
     */
    double diameter_m;
    /**
     * Greatest 1/e^2 half angle of both in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_caustic_crossing_result;

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
     * Side of the finest filled square in metres.
     */
    double square_m;
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
 * Pitches at which a pattern keeps a contrast: the result of spotwise_pitch_for_contrast().
 */
typedef struct spotwise_contrast_pitch {
    /**
     * Size of this struct; spotwise_contrast_pitch_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Pitch of a sinusoidal pattern in metres.
     */
    double sine_m;
    /**
     * Pitch of equal bars and gaps in metres; smaller, since their contrast starts out higher.
     */
    double bars_m;
} spotwise_contrast_pitch;

/**
 * A beam that scans a surface, line by line.
 */
typedef struct spotwise_scan {
    /**
     * Size of this struct; spotwise_scan_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Not read.
     */
    uint32_t reserved;
    /**
     * Power on the surface in watts, averaged over pulses; range: SPOTWISE_PARAM_POWER.
     */
    double power_w;
    /**
     * Speed of the spot along the line in m/s; range: SPOTWISE_PARAM_SPEED.
     */
    double speed_m_per_s;
    /**
     * Spot diameter across the line in metres, 1/e^2 (D4 sigma); range:
     * SPOTWISE_PARAM_DIAMETER_ACROSS.
     */
    double diameter_across_m;
    /**
     * Spot diameter along the line in metres, 1/e^2 (D4 sigma); range:
     * SPOTWISE_PARAM_DIAMETER_ALONG.
     */
    double diameter_along_m;
    /**
     * From one line to the next in metres; range: SPOTWISE_PARAM_LINE_INTERVAL.
     */
    double line_interval_m;
} spotwise_scan;

/**
 * Dose of a scan: the result of spotwise_scan_dose().
 */
typedef struct spotwise_scan_dose_result {
    /**
     * Size of this struct; spotwise_scan_dose_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Dose on the middle of one line by itself in J/m^2.
     */
    double line_dose_j_per_m2;
    /**
     * Mean dose of a fill of such lines in J/m^2. It does not depend on the spot.
     */
    double fill_dose_j_per_m2;
    /**
     * Irradiance on the axis of the spot in W/m^2.
     */
    double peak_irradiance_w_per_m2;
    /**
     * Line dose over peak irradiance in seconds.
     */
    double dwell_s;
} spotwise_scan_dose_result;

/**
 * What the pulses of a scan do one by one: the result of spotwise_pulse_dose().
 */
typedef struct spotwise_pulse_dose_result {
    /**
     * Size of this struct; spotwise_pulse_dose_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Energy of one pulse in joules.
     */
    double pulse_energy_j;
    /**
     * Fluence of one pulse on the axis of the spot in J/m^2.
     */
    double peak_fluence_j_per_m2;
    /**
     * From one pulse to the next along the line in metres.
     */
    double pulse_pitch_m;
    /**
     * One less the pitch over the diameter; negative where the dots of neighbours do not touch.
     */
    double overlap;
    /**
     * Spot diameter over pitch.
     */
    double pulses_per_diameter;
    /**
     * Line dose over peak fluence.
     */
    double effective_pulses;
} spotwise_pulse_dose_result;

/**
 * A material, as your own test marks show it. There is no table of materials, and there will be
 * none. Numbers that the response does not name are not read.
 */
typedef struct spotwise_material {
    /**
     * Size of this struct; spotwise_material_init() sets it.
     */
    uint32_t struct_size;
    /**
     * How it answers above the threshold: one of SPOTWISE_RESPONSE_*.
     */
    uint32_t response;
    /**
     * Dose at which a single exposure just marks in J/m^2; range: SPOTWISE_PARAM_THRESHOLD.
     */
    double threshold_j_per_m2;
    /**
     * Incubation S, by which the threshold of N exposures falls as N^(S - 1); 1 for none; range:
     * SPOTWISE_PARAM_INCUBATION.
     */
    double incubation;
    /**
     * Depth at which the dose has fallen by e, in metres; for
     * SPOTWISE_RESPONSE_LOGARITHMIC_ABLATION; range: SPOTWISE_PARAM_PENETRATION_DEPTH.
     */
    double penetration_depth_m;
    /**
     * Energy that removes one volume in J/m^3; for SPOTWISE_RESPONSE_LINEAR_ABLATION; range:
     * SPOTWISE_PARAM_REMOVAL_ENERGY.
     */
    double removal_energy_j_per_m3;
    /**
     * Thermal diffusivity in m^2/s; for SPOTWISE_RESPONSE_MELT; range: SPOTWISE_PARAM_DIFFUSIVITY.
     */
    double diffusivity_m2_per_s;
} spotwise_material;

/**
 * What a dose does to a material: the result of spotwise_material_mark().
 */
typedef struct spotwise_material_mark_result {
    /**
     * Size of this struct; spotwise_material_mark_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 1 if it marks at all; else 0.
     */
    uint32_t marks;
    /**
     * Threshold after so many exposures in J/m^2.
     */
    double threshold_j_per_m2;
    /**
     * Dose over that threshold.
     */
    double dose_ratio;
    /**
     * Depth that one exposure adds in metres, 0 below the threshold; NaN for a coating or a melt, which
     * tell none.
     */
    double depth_m;
    /**
     * Spot diameter as the material sees it in metres, 1/e^2, widened by heat in a melt.
     */
    double seen_diameter_m;
} spotwise_material_mark_result;

/**
 * A filled stroke at one height: the result of spotwise_fill_width().
 */
typedef struct spotwise_fill_width_result {
    /**
     * Size of this struct; spotwise_fill_width_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * 1 if it marks at all; else 0.
     */
    uint32_t marks;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Width that marks in metres; 0 if nothing does.
     */
    double width_m;
    /**
     * That width less the drawn one in metres, + where the stroke grows.
     */
    double growth_m;
    /**
     * Exposure on the middle of the stroke over that of a wide fill.
     */
    double exposure;
    /**
     * Spot diameter at this height in metres, 1/e^2 (D4 sigma).
     */
    double spot_diameter_m;
    /**
     * Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_fill_width_result;

/**
 * Where a filled stroke is widest, and where it vanishes: the result of spotwise_fill_limits().
 * Offsets count from the waist, alike on either side.
 */
typedef struct spotwise_fill_limits_result {
    /**
     * Size of this struct; spotwise_fill_limits_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * 1 if the stroke marks in the waist; if 0, it marks nowhere, and widths and offsets are 0.
     */
    uint32_t marks;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Width in the waist in metres.
     */
    double width_in_waist_m;
    /**
     * Offset from the waist at which the stroke is widest in metres; 0 if that is the waist.
     */
    double widest_offset_m;
    /**
     * Width there in metres.
     */
    double greatest_width_m;
    /**
     * Offset from the waist at which the stroke vanishes in metres.
     */
    double vanishing_offset_m;
    /**
     * Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_fill_limits_result;

/**
 * A mark at one height: the result of spotwise_mark_width().
 */
typedef struct spotwise_mark_width_result {
    /**
     * Size of this struct; spotwise_mark_width_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * 1 if it marks at all; else 0.
     */
    uint32_t marks;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Width of the line or diameter of the dot in metres; 0 without a mark.
     */
    double width_m;
    /**
     * Dose ratio at this height.
     */
    double dose_ratio;
    /**
     * Spot diameter at this height in metres, 1/e^2 (D4 sigma).
     */
    double spot_diameter_m;
    /**
     * Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_mark_width_result;

/**
 * Where a mark is widest, and where it vanishes: the result of spotwise_mark_limits(). Offsets
 * count from the waist, alike on either side.
 */
typedef struct spotwise_mark_limits_result {
    /**
     * Size of this struct; spotwise_mark_limits_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * 1 if there is a mark in the waist; if 0, there is none anywhere, and widths and offsets are 0.
     */
    uint32_t marks;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Width of the mark in the waist in metres.
     */
    double width_in_waist_m;
    /**
     * Offset from the waist at which the mark is widest in metres; 0 if that is the waist.
     */
    double widest_offset_m;
    /**
     * Width of the mark there in metres.
     */
    double greatest_width_m;
    /**
     * Offset from the waist at which the mark vanishes in metres.
     */
    double vanishing_offset_m;
    /**
     * Dose ratio in the waist at which the width would not react to focus to second order: sqrt(e)
     * for a line, e for a pulse.
     */
    double focus_insensitive_dose_ratio;
    /**
     * Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_mark_limits_result;

/**
 * A row of dots: the result of spotwise_pulsed_line().
 */
typedef struct spotwise_pulsed_line_result {
    /**
     * Size of this struct; spotwise_pulsed_line_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 1 if a dot marks at all, if only after so many pulses; else 0, as are its diameter and the scallop.
     */
    uint32_t marks;
    /**
     * 1 if dots overlap, so that the line has no gaps; else 0.
     */
    uint32_t connected;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Threshold after so many pulses over that of one, at most 1.
     */
    double threshold_ratio;
    /**
     * Peak fluence over that lowered threshold.
     */
    double dose_ratio;
    /**
     * Diameter of a dot in metres, 0 without a mark.
     */
    double dot_diameter_m;
    /**
     * How far the edge dents between dots in metres; the radius of a dot where they do not touch.
     */
    double scallop_m;
} spotwise_pulsed_line_result;

/**
 * What one pulse digs: the result of spotwise_crater().
 */
typedef struct spotwise_crater_result {
    /**
     * Size of this struct; spotwise_crater_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Diameter at the surface in metres.
     */
    double diameter_m;
    /**
     * Depth in the middle in metres.
     */
    double depth_m;
    /**
     * Depth at the radius asked for in metres; 0 outside the crater.
     */
    double depth_at_radius_m;
    /**
     * Volume in m^3.
     */
    double volume_m3;
} spotwise_crater_result;

/**
 * What a row of pulses digs: the result of spotwise_groove().
 */
typedef struct spotwise_groove_result {
    /**
     * Size of this struct; spotwise_groove_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Width at the surface in metres.
     */
    double width_m;
    /**
     * Mean depth along the middle in metres.
     */
    double depth_m;
    /**
     * Mean depth at the distance asked for in metres; 0 outside the groove.
     */
    double depth_aside_m;
    /**
     * Area of the mean cross-section in m^2.
     */
    double area_m2;
} spotwise_groove_result;

/**
 * The fastest scan that leaves no more than a given scallop: the result of
 * spotwise_connected_speed().
 */
typedef struct spotwise_connected_speed_result {
    /**
     * Size of this struct; spotwise_connected_speed_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Largest pulse pitch in metres.
     */
    double pulse_pitch_m;
    /**
     * Effective pulses on one place at that pitch, at least 1.
     */
    double pulses;
    /**
     * Largest speed in m/s.
     */
    double speed_m_per_s;
} spotwise_connected_speed_result;

/**
 * What blurs a scan.
 */
typedef struct spotwise_blur {
    /**
     * Size of this struct; spotwise_blur_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Not read.
     */
    uint32_t reserved;
    /**
     * Spot diameter across the scan in metres, 1/e^2 (D4 sigma); range:
     * SPOTWISE_PARAM_DIAMETER_ACROSS.
     */
    double diameter_across_m;
    /**
     * Spot diameter along the scan in metres, 1/e^2 (D4 sigma); range:
     * SPOTWISE_PARAM_DIAMETER_ALONG.
     */
    double diameter_along_m;
    /**
     * Speed along the scan in m/s; range: SPOTWISE_PARAM_SPEED.
     */
    double speed_m_per_s;
    /**
     * Thermal diffusivity of the part in m^2/s; 0 to leave heat out; range:
     * SPOTWISE_PARAM_DIFFUSIVITY.
     */
    double diffusivity_m2_per_s;
    /**
     * Side of the square pixels that are burnt as boxes in metres; 0 for none; range:
     * SPOTWISE_PARAM_PIXEL.
     */
    double pixel_m;
    /**
     * Standard deviation of the jitter of the spot in metres, each way; range:
     * SPOTWISE_PARAM_JITTER_DEVIATION.
     */
    double jitter_deviation_m;
    /**
     * Rise time of the power from 10 % to 90 % in seconds; range: SPOTWISE_PARAM_RISE_TIME.
     */
    double rise_time_s;
    /**
     * By how much the power lags behind the motion in seconds; range: SPOTWISE_PARAM_SWITCH_DELAY.
     */
    double switch_delay_s;
} spotwise_blur;

/**
 * The sum of what blurs a scan: the result of spotwise_blur_budget().
 */
typedef struct spotwise_blur_budget_result {
    /**
     * Size of this struct; spotwise_blur_budget_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Dwell sqrt(pi/2) w/v in seconds.
     */
    double dwell_s;
    /**
     * Diffusion length sqrt(4 k t) over the dwell in metres.
     */
    double diffusion_length_m;
    /**
     * Spot diameter across the scan with all blurs in metres, 1/e^2.
     */
    double diameter_across_m;
    /**
     * Spot diameter along the scan with all blurs in metres, 1/e^2.
     */
    double diameter_along_m;
    /**
     * Width of an edge that runs along the scan, 10 % to 90 % of the dose, in metres.
     */
    double edge_across_m;
    /**
     * Width of an edge that lies across the scan, 10 % to 90 % of the dose, in metres.
     */
    double edge_along_m;
    /**
     * Way of the spot while the power rises in metres.
     */
    double rise_smear_m;
    /**
     * Way of the spot while the power lags, by which an edge is shifted, in metres.
     */
    double delay_shift_m;
    /**
     * Offset of edges between lines burnt to and fro in metres.
     */
    double two_way_comb_m;
} spotwise_blur_budget_result;

/**
 * What you want of a fill. The library never says which taste is better. Numbers that the taste
 * does not name are not read.
 */
typedef struct spotwise_taste {
    /**
     * Size of this struct; spotwise_taste_init() sets it.
     */
    uint32_t struct_size;
    /**
     * One of SPOTWISE_TASTE_*.
     */
    uint32_t taste;
    /**
     * Greatest width of an edge, 10 % to 90 % of the dose, in metres; for
     * SPOTWISE_TASTE_SMOOTHEST_WITHIN; range: SPOTWISE_PARAM_LARGEST_EDGE.
     */
    double largest_edge_m;
    /**
     * Weight of crispness; for SPOTWISE_TASTE_COMPROMISE; range: SPOTWISE_PARAM_CRISPNESS_WEIGHT.
     */
    double crispness_weight;
} spotwise_taste;

/**
 * Edge and ripple of a fill at one offset: the result of spotwise_fill_quality() and
 * spotwise_offset_for_taste().
 */
typedef struct spotwise_fill_quality_result {
    /**
     * Size of this struct; spotwise_fill_quality_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Magnitude of the offset from the waist in metres; it serves alike on either side.
     */
    double offset_m;
    /**
     * Spot diameter there in metres, 1/e^2 (D4 sigma).
     */
    double spot_diameter_m;
    /**
     * Width of an edge from 10 % to 90 % of the dose in metres.
     */
    double edge_width_m;
    /**
     * Contrast of the ripple of the fill.
     */
    double ripple_contrast;
    /**
     * Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_fill_quality_result;

/**
 * Exposure at the centre of details of one size, over that of a wide fill: the result of
 * spotwise_detail_exposure().
 */
typedef struct spotwise_detail_exposure_result {
    /**
     * Size of this struct; spotwise_detail_exposure_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * A long stroke of that width.
     */
    double bar;
    /**
     * A long gap of that width in a fill.
     */
    double gap;
    /**
     * A filled square of that side.
     */
    double square;
    /**
     * A filled disc of that diameter.
     */
    double dot;
    /**
     * An open disc of that diameter in a fill.
     */
    double hole;
} spotwise_detail_exposure_result;

/**
 * The dose of a raster fill across its lines: the result of spotwise_raster_ripple().
 */
typedef struct spotwise_raster_ripple_result {
    /**
     * Size of this struct; spotwise_raster_ripple_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Greatest dose over the mean, on a line.
     */
    double greatest_over_mean;
    /**
     * Least dose over the mean, midway between lines.
     */
    double least_over_mean;
    /**
     * (max - min)/(max + min).
     */
    double contrast;
    /**
     * Mean fill dose over threshold at which no gap is left, where doses of neighbouring lines add
     * up.
     */
    double gap_free_dose_ratio;
    /**
     * The same where each line must mark by itself. Real materials lie between the two.
     */
    double gap_free_dose_ratio_without_memory;
    /**
     * Line interval over spot radius.
     */
    double interval_over_radius;
} spotwise_raster_ripple_result;

/**
 * How a mark is made in focus, and how far power and speed may go.
 */
typedef struct spotwise_mark_setting {
    /**
     * Size of this struct; spotwise_mark_setting_init() sets it.
     */
    uint32_t struct_size;
    /**
     * What makes the mark: one of SPOTWISE_MARK_*.
     */
    uint32_t mark_kind;
    /**
     * Dose in the waist over the dose at which the material just marks; range:
     * SPOTWISE_PARAM_DOSE_RATIO.
     */
    double dose_ratio;
    /**
     * Power in watts; range: SPOTWISE_PARAM_POWER.
     */
    double power_w;
    /**
     * Speed in m/s; range: SPOTWISE_PARAM_SPEED.
     */
    double speed_m_per_s;
    /**
     * Greatest power in watts, at least power_w; range: SPOTWISE_PARAM_GREATEST_POWER.
     */
    double greatest_power_w;
    /**
     * Least speed in m/s, at most speed_m_per_s; range: SPOTWISE_PARAM_LEAST_SPEED.
     */
    double least_speed_m_per_s;
    /**
     * Greatest speed in m/s, at least speed_m_per_s; range: SPOTWISE_PARAM_GREATEST_SPEED.
     */
    double greatest_speed_m_per_s;
    /**
     * Least irradiance on the axis over that in the waist before; 0 if it does not matter; range:
     * SPOTWISE_PARAM_LEAST_IRRADIANCE_RATIO.
     */
    double least_irradiance_ratio;
} spotwise_mark_setting;

/**
 * Power and speed that make up for a defocus: the result of spotwise_compensate().
 */
typedef struct spotwise_compensation {
    /**
     * Size of this struct; spotwise_compensation_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * SPOTWISE_LIMIT_* bits of the limits that are met.
     */
    uint32_t limits;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Dose factor that the rule asks for.
     */
    double wanted_factor;
    /**
     * Dose factor that power and speed below give.
     */
    double reached_factor;
    /**
     * Power in watts.
     */
    double power_w;
    /**
     * Speed in m/s.
     */
    double speed_m_per_s;
    /**
     * Irradiance on the axis over that in the waist before.
     */
    double irradiance_ratio;
    /**
     * Dose ratio at the offset, with that power and speed.
     */
    double dose_ratio;
    /**
     * Width of the mark in metres, with that power and speed; 0 if there is none.
     */
    double mark_width_m;
    /**
     * Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_compensation;

/**
 * A kind of typeface, or one that you have measured. The numbers are shares of the em, read only
 * for SPOTWISE_TYPEFACE_MEASURED.
 */
typedef struct spotwise_typeface {
    /**
     * Size of this struct; spotwise_typeface_init() sets it.
     */
    uint32_t struct_size;
    /**
     * One of SPOTWISE_TYPEFACE_*.
     */
    uint32_t typeface;
    /**
     * Width of an upright stem in ems; range: SPOTWISE_PARAM_STEM_SHARE.
     */
    double stem;
    /**
     * The stroke to which the typeface amounts in ems; range: SPOTWISE_PARAM_STROKE_SHARE.
     */
    double effective_stroke;
    /**
     * The gap to which its counters amount in ems; range: SPOTWISE_PARAM_COUNTER_SHARE.
     */
    double effective_counter;
    /**
     * The gap to which its counters and the gaps between letters amount in ems; range:
     * SPOTWISE_PARAM_GAP_SHARE.
     */
    double effective_gap;
} spotwise_typeface;

/**
 * Where the grades of text begin. The defaults were set to agree with common practice, and are not
 * otherwise validated.
 */
typedef struct spotwise_text_grades {
    /**
     * Size of this struct; spotwise_text_grades_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Not read.
     */
    uint32_t reserved;
    /**
     * Share of the fill dose that the middle of a stem must get to be crisp, 0.98 by default;
     * range: SPOTWISE_PARAM_CRISP_EXPOSURE.
     */
    double crisp_exposure;
    /**
     * Least dose window of good text, 2 by default; range: SPOTWISE_PARAM_DOSE_WINDOW.
     */
    double good_window;
    /**
     * Least dose window of readable text, 1.1 by default; range: SPOTWISE_PARAM_DOSE_WINDOW.
     */
    double readable_window;
} spotwise_text_grades;

/**
 * Measured shares of a kind of typeface, in ems: the result of spotwise_typeface_shares().
 */
typedef struct spotwise_typeface_shares_result {
    /**
     * Size of this struct; spotwise_typeface_shares_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Height of capitals.
     */
    double cap_height;
    /**
     * Height of small letters without ascender.
     */
    double x_height;
    /**
     * Height of digits.
     */
    double digit_height;
    /**
     * Width of an upright stem.
     */
    double stem;
    /**
     * Thinnest stroke of any letter or digit.
     */
    double thinnest_stroke;
    /**
     * Diameter of the largest circle in the smallest counter.
     */
    double smallest_counter;
    /**
     * The stroke to which the typeface amounts.
     */
    double effective_stroke;
    /**
     * The gap to which its counters amount.
     */
    double effective_counter;
    /**
     * The gap to which its counters and the gaps between letters amount.
     */
    double effective_gap;
} spotwise_typeface_shares_result;

/**
 * The smallest type of each grade: the result of spotwise_smallest_text().
 */
typedef struct spotwise_smallest_text_result {
    /**
     * Size of this struct; spotwise_smallest_text_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * The smallest em at which text is crisp, in metres.
     */
    double crisp_em_m;
    /**
     * The smallest em at which it is good, in metres.
     */
    double good_em_m;
    /**
     * The smallest em at which it can be read, in metres.
     */
    double readable_em_m;
} spotwise_smallest_text_result;

/**
 * How text of one size comes out: the result of spotwise_text_quality().
 */
typedef struct spotwise_text_quality_result {
    /**
     * Size of this struct; spotwise_text_quality_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * The best grade that holds: one of SPOTWISE_GRADE_*; 0 if the call failed.
     */
    uint32_t grade;
    /**
     * Dose on the middle of a stem over that of a wide fill.
     */
    double stem_exposure;
    /**
     * Least dose ratio at which no stroke is lost.
     */
    double least_dose_ratio;
    /**
     * Greatest dose ratio at which counters stay open and letters apart; may be infinite.
     */
    double greatest_dose_ratio;
    /**
     * Greatest dose ratio at which counters stay open; may be infinite.
     */
    double greatest_dose_ratio_for_counters;
} spotwise_text_quality_result;

/**
 * How far text may be out of focus: the result of spotwise_offset_for_text().
 */
typedef struct spotwise_text_offset {
    /**
     * Size of this struct; spotwise_text_offset_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Largest magnitude of the offset from the waist in metres, alike on either side.
     */
    double offset_m;
    /**
     * Spot diameter there in metres, 1/e^2 (D4 sigma).
     */
    double spot_diameter_m;
    /**
     * Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_text_offset;

/**
 * The focus height that is least bad over a surface: the result of spotwise_focus_between().
 */
typedef struct spotwise_focus_between_result {
    /**
     * Size of this struct; spotwise_focus_between_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Where to set focus in metres, from the datum of the heights, + away from the lens.
     */
    double focus_z_m;
    /**
     * From there to either end of the surface in metres.
     */
    double half_range_m;
    /**
     * Spot diameter at either end in metres, 1/e^2 (D4 sigma): the worst on the surface.
     */
    double diameter_m;
    /**
     * That diameter over the waist diameter.
     */
    double growth;
    /**
     * Growth less one, exact however small it is.
     */
    double growth_minus_one;
    /**
     * Irradiance on the axis there over that at the waist.
     */
    double irradiance_ratio;
    /**
     * Peak dose of a scanned line there over that at the waist.
     */
    double line_dose_ratio;
    /**
     * Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_focus_between_result;

/**
 * The focus height of an astigmatic beam that is least bad over a surface.
 */
typedef struct spotwise_astigmatic_focus_between {
    /**
     * Size of this struct; spotwise_astigmatic_focus_between_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Where to put the beam's z = 0 in metres, from the datum of the heights, + away from the lens.
     */
    double focus_z_m;
    /**
     * The larger of the two diameters at the worst height in metres, 1/e^2 (D4 sigma).
     */
    double worst_diameter_m;
    /**
     * Diameter in x at the highest place in metres.
     */
    double highest_diameter_x_m;
    /**
     * Diameter in y at the highest place in metres.
     */
    double highest_diameter_y_m;
    /**
     * Diameter in x at the lowest place in metres.
     */
    double lowest_diameter_x_m;
    /**
     * Diameter in y at the lowest place in metres.
     */
    double lowest_diameter_y_m;
    /**
     * Greatest 1/e^2 half angle of both axes in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_astigmatic_focus_between;

/**
 * How a surface is divided into bands of height: the result of spotwise_height_bands().
 */
typedef struct spotwise_height_bands_result {
    /**
     * Size of this struct; spotwise_height_bands_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * How many bands are needed.
     */
    uint32_t count;
    /**
     * Height of each band in metres.
     */
    double band_height_m;
    /**
     * Height of each band over the full depth of focus: what is left to 1 is spare.
     */
    double share_of_depth;
} spotwise_height_bands_result;

/**
 * A strip along the crown of a lying round part: the result of spotwise_cylinder_strip().
 */
typedef struct spotwise_cylinder_strip_result {
    /**
     * Size of this struct; spotwise_cylinder_strip_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 1 if the whole upper half of the part is in focus.
     */
    uint32_t whole_upper_half;
    /**
     * From the crown to the edge of the strip in metres, straight across: half the width as a drawing
     * has it.
     */
    double half_chord_m;
    /**
     * From edge to edge in metres, straight across.
     */
    double full_chord_m;
    /**
     * From edge to edge in metres, along the surface.
     */
    double arc_length_m;
    /**
     * How far the edges lie below the crown in metres.
     */
    double edge_sag_m;
    /**
     * Angle between the beam and the normal of the surface at the edge in radians.
     */
    double edge_incidence_rad;
    /**
     * Irradiance at the edge over that on a level surface, by the incidence alone: its cosine.
     */
    double edge_irradiance_ratio;
    /**
     * Where to set focus in metres, from the crown, + away from the lens.
     */
    double focus_z_m;
} spotwise_cylinder_strip_result;

/**
 * How a deep engraving is divided into stages of one focus height each: the result of
 * spotwise_refocus_plan().
 */
typedef struct spotwise_refocus_plan_result {
    /**
     * Size of this struct; spotwise_refocus_plan_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Passes in all.
     */
    uint32_t passes;
    /**
     * Passes before focus is set anew.
     */
    uint32_t passes_per_stage;
    /**
     * Stages; the focus is set anew one time less.
     */
    uint32_t stages;
    /**
     * Passes in the last stage, which may be shorter.
     */
    uint32_t last_stage_passes;
    /**
     * 1 if the surface stays in focus; 0 where one pass removes more than the usable depth.
     */
    uint32_t stays_in_focus;
    /**
     * Depth that all passes remove in metres, at least the depth wanted.
     */
    double reached_depth_m;
    /**
     * Depth that a full stage removes in metres: by how much focus is lowered from one to the next.
     */
    double stage_depth_m;
    /**
     * Depth of focus that a stage may use in metres.
     */
    double usable_depth_m;
} spotwise_refocus_plan_result;

/**
 * The spot from the top of a part to its bottom: the result of spotwise_spot_through().
 */
typedef struct spotwise_spot_through_result {
    /**
     * Size of this struct; spotwise_spot_through_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Spot diameter at the top in metres, 1/e^2 (D4 sigma).
     */
    double top_diameter_m;
    /**
     * Spot diameter at the bottom in metres.
     */
    double bottom_diameter_m;
    /**
     * The greatest diameter in the thickness in metres: the larger of the two.
     */
    double widest_m;
    /**
     * The least diameter in the thickness in metres: the waist where that lies inside.
     */
    double narrowest_m;
    /**
     * Widest over waist diameter.
     */
    double worst_growth;
    /**
     * Diameter at the bottom over that at the top.
     */
    double taper_ratio;
    /**
     * Half angle of the taper in radians, + where the bottom is narrower than the top.
     */
    double taper_half_angle_rad;
    /**
     * The focus in metres, from the top surface, + away from the lens, that makes the widest spot as
     * small as can be.
     */
    double best_focus_z_m;
    /**
     * The greatest growth with that focus.
     */
    double best_worst_growth;
    /**
     * Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_spot_through_result;

/**
 * How the heights of a surface are spread over the area of a region: the result of spotwise_region_heights().
 */
typedef struct spotwise_region_heights_result {
    /**
     * Size of this struct; spotwise_region_heights_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Set to 0.
     */
    uint32_t reserved;
    /**
     * Mean height in metres, + away from the lens.
     */
    double mean_z_m;
    /**
     * Standard deviation of the height in metres.
     */
    double z_deviation_m;
    /**
     * Height of the place nearest the lens in metres: the LEAST z.
     */
    double highest_z_m;
    /**
     * Height of the place farthest from the lens in metres: the GREATEST z.
     */
    double lowest_z_m;
    /**
     * Share of the region's area about which nothing is known.
     */
    double unknown_share;
} spotwise_region_heights_result;

/**
 * How the area of a surface divides between heights: the result of spotwise_share_in_focus().
 */
typedef struct spotwise_share_in_focus_result {
    /**
     * Size of this struct; spotwise_share_in_focus_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Set to 0.
     */
    uint32_t reserved;
    /**
     * Share of the known area that lies between the two heights, the ends included.
     */
    double in_focus;
    /**
     * Share of the known area that lies nearer to the lens.
     */
    double toward_lens;
    /**
     * Share of the known area that lies farther from the lens.
     */
    double away_from_lens;
    /**
     * Share of the region's area about which nothing is known.
     */
    double unknown_share;
} spotwise_share_in_focus_result;

/**
 * A height at which focus may be set, and what it does.
 */
typedef struct spotwise_focus_height {
    /**
     * Size of this struct; the init function of the struct around it sets it.
     */
    uint32_t struct_size;
    /**
     * Set to 0.
     */
    uint32_t reserved;
    /**
     * Where the waist is in metres, + away from the lens.
     */
    double focus_z_m;
    /**
     * Spot diameter over waist diameter where it is worst.
     */
    double worst_growth;
    /**
     * Mean over the known area of the area of the spot over that of the waist.
     */
    double mean_area_growth;
    /**
     * Share of the known area that lies within the depth of focus.
     */
    double share_in_focus;
} spotwise_focus_height;

/**
 * The best focus heights for a surface: the result of spotwise_focus_for_surface().
 */
typedef struct spotwise_surface_focus {
    /**
     * Size of this struct; spotwise_surface_focus_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Flags SPOTWISE_VALIDITY_*.
     */
    uint32_t validity;
    /**
     * Makes the worst spot least: half-way between the highest and the lowest place.
     */
    struct spotwise_focus_height least_worst;
    /**
     * Makes the mean area of the spot least: the mean height.
     */
    struct spotwise_focus_height least_mean_area;
    /**
     * Keeps most of the area within the depth of focus.
     */
    struct spotwise_focus_height most_in_focus;
    /**
     * Share of the region's area about which nothing is known.
     */
    double unknown_share;
    /**
     * Greatest 1/e^2 HALF angle of the beams involved, in radians.
     */
    double half_angle_rad;
} spotwise_surface_focus;

/**
 * Shape of a surface: heights z, + away from the lens, over x and y. A cylinder or sphere may lean: its slopes
 * are added to it, its crown stays at z = 0. The arrays stay yours and are only read.
 */
typedef struct spotwise_surface {
    /**
     * Size of this struct; spotwise_surface_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Shape; one of SPOTWISE_SURFACE_*.
     */
    uint32_t surface;
    /**
     * Which way a cylinder or sphere bulges; one of SPOTWISE_BULGE_*.
     */
    uint32_t bulge;
    /**
     * Set to 0.
     */
    uint32_t reserved;
    /**
     * How far it drops away from the lens on each length in x; 0 is level; range: SPOTWISE_PARAM_SLOPE_X.
     */
    double slope_x;
    /**
     * Likewise in y; range: SPOTWISE_PARAM_SLOPE_Y.
     */
    double slope_y;
    /**
     * RADIUS of a cylinder or sphere in metres; range: SPOTWISE_PARAM_CURVATURE_RADIUS.
     */
    double curvature_radius_m;
    /**
     * Its crown, or for a cylinder a place on its crown line, in metres; range: SPOTWISE_PARAM_CROWN_X.
     */
    double crown_x_m;
    /**
     * That place in y; range: SPOTWISE_PARAM_CROWN_Y.
     */
    double crown_y_m;
    /**
     * Angle of a cylinder's axis from the x axis toward + y in radians; range: SPOTWISE_PARAM_AXIS_ANGLE.
     */
    double axis_angle_rad;
    /**
     * Edges of steps, one more than there are strips, or columns of a grid, in metres, ascending by at least
     * 1e-9 m; the spacing may vary; range: SPOTWISE_PARAM_STEP_EDGE or SPOTWISE_PARAM_GRID_X.
     */
    const double *x_m;
    /**
     * Rows of a grid in metres, likewise; range: SPOTWISE_PARAM_GRID_Y.
     */
    const double *y_m;
    /**
     * Heights in metres, + away from the lens: one for each strip, or those of a grid row after row, the first
     * of each column at the first y, and so on, NAN where the probe found nothing; range:
     * SPOTWISE_PARAM_STEP_HEIGHT or SPOTWISE_PARAM_PROBED_HEIGHT.
     */
    const double *z_m;
    /**
     * Length of x_m.
     */
    size_t x_count;
    /**
     * Length of y_m.
     */
    size_t y_count;
    /**
     * Length of z_m.
     */
    size_t z_count;
} spotwise_surface;

/**
 * The part of the table that is marked.
 */
typedef struct spotwise_region {
    /**
     * Size of this struct; spotwise_region_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Set to 0.
     */
    uint32_t reserved;
    /**
     * End of least x in metres; range: SPOTWISE_PARAM_REGION_X.
     */
    double x_least_m;
    /**
     * End of greatest x in metres, at least 1e-9 m beyond; range: SPOTWISE_PARAM_REGION_X.
     */
    double x_greatest_m;
    /**
     * End of least y in metres; range: SPOTWISE_PARAM_REGION_Y.
     */
    double y_least_m;
    /**
     * End of greatest y in metres, at least 1e-9 m beyond; range: SPOTWISE_PARAM_REGION_Y.
     */
    double y_greatest_m;
} spotwise_region;

/**
 * A surface at one place: the result of spotwise_surface_at().
 */
typedef struct spotwise_surface_place {
    /**
     * Size of this struct; spotwise_surface_place_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Set to 0.
     */
    uint32_t reserved;
    /**
     * Height in metres, + away from the lens.
     */
    double z_m;
    /**
     * How far the surface drops away from the lens on each length in x.
     */
    double slope_x;
    /**
     * Likewise in y.
     */
    double slope_y;
    /**
     * Angle in radians between the normal of the surface and the beam axis.
     */
    double incidence_rad;
    /**
     * Length of the spot along the slope over its diameter.
     */
    double stretch;
    /**
     * Irradiance for each area of the surface over that on a level one.
     */
    double irradiance_factor;
} spotwise_surface_place;

/**
 * Highest, lowest and steepest place of a surface within a region: the result of spotwise_surface_extremes().
 */
typedef struct spotwise_surface_extremes_result {
    /**
     * Size of this struct; spotwise_surface_extremes_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * How many probes that bear on the region found nothing.
     */
    uint32_t missing_probes;
    /**
     * Height of the place nearest the lens in metres: the LEAST z.
     */
    double highest_z_m;
    /**
     * Where that is in metres.
     */
    double highest_x_m;
    /**
     * That place in y.
     */
    double highest_y_m;
    /**
     * Height of the place farthest from the lens in metres: the GREATEST z.
     */
    double lowest_z_m;
    /**
     * Where that is in metres.
     */
    double lowest_x_m;
    /**
     * That place in y.
     */
    double lowest_y_m;
    /**
     * From the highest place to the lowest in metres.
     */
    double range_m;
    /**
     * Steepest incidence angle in radians.
     */
    double steepest_incidence_rad;
    /**
     * Where that is in metres.
     */
    double steepest_x_m;
    /**
     * That place in y.
     */
    double steepest_y_m;
    /**
     * Share of the region's area about which nothing is known: cells that lack a probe, and what lies beside
     * steps or a grid.
     */
    double unknown_share;
} spotwise_surface_extremes_result;

/**
 * One contribution to a tolerance stack.
 */
typedef struct spotwise_contribution {
    /**
     * Size of this struct; spotwise_contribution_init() sets it.
     */
    uint32_t struct_size;
    /**
     * One of SPOTWISE_TOLERANCE_*; it names the contribution and enters no number.
     */
    uint32_t source;
    /**
     * One of SPOTWISE_DISTRIBUTION_*.
     */
    uint32_t distribution;
    /**
     * Not read; keeps the numbers aligned.
     */
    uint32_t reserved;
    /**
     * Half width in metres: it strays by - to + this; range: SPOTWISE_PARAM_HALF_WIDTH.
     */
    double half_width_m;
    /**
     * Half width over standard deviation, read for a normal law alone; range:
     * SPOTWISE_PARAM_COVERAGE_FACTOR.
     */
    double coverage_factor;
    /**
     * Mean in metres, + away from the lens: a known error that nobody corrects, 0 for most; range:
     * SPOTWISE_PARAM_MEAN_OFFSET.
     */
    double mean_m;
} spotwise_contribution;

/**
 * A tolerance stack, added up: the result of spotwise_tolerance_stack(). Offsets count from where the
 * surface should be, + away from the lens.
 */
typedef struct spotwise_tolerance_stack_result {
    /**
     * Size of this struct; spotwise_tolerance_stack_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Place, from 0, of the contribution with the greatest variance; the first of equals.
     */
    uint32_t dominant;
    /**
     * Place, from 0, of the contribution with the greatest half width; the first of equals.
     */
    uint32_t widest;
    /**
     * Always 0.
     */
    uint32_t reserved;
    /**
     * Sum of the means in metres.
     */
    double bias_m;
    /**
     * Sum of the half widths in metres.
     */
    double worst_half_width_m;
    /**
     * Farthest toward the lens in the worst case, in metres.
     */
    double worst_toward_lens_z_m;
    /**
     * Farthest away from the lens in the worst case, in metres.
     */
    double worst_away_from_lens_z_m;
    /**
     * Combined standard deviation in metres.
     */
    double deviation_m;
    /**
     * Half width over deviation for the coverage probability, of a normal sum.
     */
    double coverage_factor;
    /**
     * Coverage factor times combined deviation, in metres.
     */
    double expanded_half_width_m;
    /**
     * Expanded interval, its end toward the lens, in metres.
     */
    double expanded_toward_lens_z_m;
    /**
     * Expanded interval, its end away from the lens, in metres.
     */
    double expanded_away_from_lens_z_m;
    /**
     * Share of the dominant contribution in the combined variance; 0 where nothing strays.
     */
    double dominant_share;
    /**
     * Share of the widest contribution in the worst case; 0 where nothing strays.
     */
    double widest_share;
} spotwise_tolerance_stack_result;

/**
 * The probability that the surface stays within limits: the result of spotwise_offset_odds().
 */
typedef struct spotwise_offset_odds_result {
    /**
     * Size of this struct; spotwise_offset_odds_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Always 0.
     */
    uint32_t reserved;
    /**
     * Probability of both limits, as if the sum were normal.
     */
    double probability;
    /**
     * Probability that the surface lies too near the lens, as if the sum were normal. NaN where a detail
     * does not even hold in the waist.
     */
    double too_near_probability;
    /**
     * Probability that the surface lies too far from the lens, likewise.
     */
    double too_far_probability;
    /**
     * Share of the cases drawn that kept both limits.
     */
    double drawn_share;
    /**
     * Its standard error.
     */
    double drawn_standard_error;
    /**
     * Least share that goes with the draws, of the 95 % interval.
     */
    double drawn_least_share;
    /**
     * Greatest share that goes with the draws, of the 95 % interval.
     */
    double drawn_greatest_share;
    /**
     * Mean of the offsets drawn, in metres, + away from the lens.
     */
    double drawn_mean_m;
    /**
     * Standard deviation of the offsets drawn, in metres.
     */
    double drawn_deviation_m;
    /**
     * The offset drawn that lay farthest toward the lens, in metres.
     */
    double drawn_least_z_m;
    /**
     * The offset drawn that lay farthest away from the lens, in metres.
     */
    double drawn_greatest_z_m;
} spotwise_offset_odds_result;

/**
 * The finest detail of a drawing, and the surface on which it is to hold.
 */
typedef struct spotwise_surface_detail {
    /**
     * Size of this struct; spotwise_surface_detail_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Not read.
     */
    uint32_t reserved;
    /**
     * Width of the finest stroke in metres; range: SPOTWISE_PARAM_FINEST_STROKE.
     */
    double finest_stroke_m;
    /**
     * Width of the finest gap in metres; range: SPOTWISE_PARAM_FINEST_GAP.
     */
    double finest_gap_m;
    /**
     * Fill dose over threshold dose; range: SPOTWISE_PARAM_DOSE_RATIO.
     */
    double dose_ratio;
    /**
     * Place that should lie nearest to the lens: its z from the waist in metres, + away from the lens;
     * range: SPOTWISE_PARAM_HIGHEST_Z.
     */
    double highest_z_m;
    /**
     * Place that should lie farthest from the lens, likewise; at least highest_z_m; range:
     * SPOTWISE_PARAM_LOWEST_Z.
     */
    double lowest_z_m;
} spotwise_surface_detail;

/**
 * The probability that a detail holds on a surface: the result of spotwise_detail_odds().
 */
typedef struct spotwise_detail_odds_result {
    /**
     * Size of this struct; spotwise_detail_odds_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 1 if the detail holds in the waist. If not, it holds nowhere: its probabilities are 0, and there
     * are no margins.
     */
    uint32_t holds_in_waist;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Always 0.
     */
    uint32_t reserved;
    /**
     * By how much the surface may stray toward the lens, in metres; negative where its highest place lies
     * too near it already. NaN where the detail does not hold in the waist.
     */
    double margin_toward_lens_m;
    /**
     * By how much the surface may stray away from the lens, in metres; negative where its lowest place
     * lies too far from it already. NaN where the detail does not hold in the waist.
     */
    double margin_away_from_lens_m;
    /**
     * Probability at the highest place, as if the sum were normal.
     */
    double highest_probability;
    /**
     * Share of the cases drawn in which the detail held at the highest place.
     */
    double highest_drawn_share;
    /**
     * Probability at the lowest place, as if the sum were normal.
     */
    double lowest_probability;
    /**
     * Share of the cases drawn in which the detail held at the lowest place.
     */
    double lowest_drawn_share;
    /**
     * Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
    /**
     * Everywhere on the surface. The greater of too_near_probability and too_far_probability tells which
     * side fails more.
     */
    struct spotwise_offset_odds_result everywhere;
} spotwise_detail_odds_result;

/**
 * What test pieces told of the focused beam and of the height of focus.
 */
typedef struct spotwise_learned_focus {
    /**
     * Size of this struct; spotwise_learned_focus_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Not read; keeps the numbers aligned.
     */
    uint32_t reserved;
    /**
     * Vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
     */
    double wavelength_m;
    /**
     * M^2 as measured, which may be below 1 by noise; range: SPOTWISE_PARAM_MEASURED_M2.
     */
    double measured_m2;
    /**
     * Standard deviation of M^2; range: SPOTWISE_PARAM_M2_DEVIATION.
     */
    double m2_deviation;
    /**
     * Waist diameter behind the lens as measured, in metres, 1/e^2 (D4 sigma); range:
     * SPOTWISE_PARAM_WAIST_DIAMETER.
     */
    double waist_diameter_m;
    /**
     * Focal length of the lens that was used in metres, converging, at the working wavelength; range:
     * SPOTWISE_PARAM_FOCAL_LENGTH.
     */
    double focal_length_m;
    /**
     * From the focal point of the lens to the waist in metres, + away from the lens: 0, which
     * spotwise_learned_focus_init() sets, unless the distance from the lens to the waist was measured
     * too. It changes the raw beam, and with the same lens nothing else; range:
     * SPOTWISE_PARAM_FOCUS_SHIFT.
     */
    double focus_shift_m;
    /**
     * Standard deviation of the height at which the waist was found, in metres; range:
     * SPOTWISE_PARAM_FOCUS_DEVIATION.
     */
    double focus_deviation_m;
    /**
     * Half width of a 95 % range over these deviations: SPOTWISE_NORMAL_FACTOR_95, which
     * spotwise_learned_focus_init() sets, where the deviations of the marks were known, the factor of
     * Student's t where the scatter of the marks told them; range: SPOTWISE_PARAM_COVERAGE_FACTOR_95.
     */
    double coverage_factor_95;
} spotwise_learned_focus;

/**
 * The set-up in which a job gets the measured focus: the result of spotwise_calibrated_set_up().
 */
typedef struct spotwise_calibrated_set_up_result {
    /**
     * Size of this struct; spotwise_calibrated_set_up_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * Beam propagation ratio M^2: as measured, or 1 where noise has put it below; for m2 of a
     * spotwise_job.
     */
    double m2;
    /**
     * Raw beam's waist diameter in metres, 1/e^2 (D4 sigma); for waist_diameter_m of a spotwise_job.
     */
    double raw_waist_diameter_m;
    /**
     * From the raw waist to the lens in metres, + when the waist lies upstream; for waist_to_lens_m of
     * a spotwise_job.
     */
    double waist_to_lens_m;
    /**
     * Diameter of the raw beam where it meets the lens in metres, 1/e^2 (D4 sigma).
     */
    double diameter_at_lens_m;
    /**
     * Rayleigh range of the focus in metres.
     */
    double rayleigh_range_m;
    /**
     * Standard deviation of a normal law with the same 95 % range of the height of focus, in metres;
     * for half_width_m of a spotwise_contribution of SPOTWISE_DISTRIBUTION_NORMAL with a
     * coverage_factor of 1.
     */
    double focus_deviation_m;
    /**
     * Greatest 1/e^2 half angle before and behind the lens in radians: the number behind
     * SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_calibrated_set_up_result;

/**
 * What test pieces told of a line that the scan marks in the waist.
 */
typedef struct spotwise_learned_line {
    /**
     * Size of this struct; spotwise_learned_line_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Not read; keeps the numbers aligned.
     */
    uint32_t reserved;
    /**
     * Power on the surface in watts, averaged over pulses; range: SPOTWISE_PARAM_POWER.
     */
    double power_w;
    /**
     * Speed along the line in m/s; range: SPOTWISE_PARAM_SPEED.
     */
    double speed_m_per_s;
    /**
     * Waist diameter as measured, in metres, 1/e^2 (D4 sigma); range: SPOTWISE_PARAM_WAIST_DIAMETER.
     */
    double waist_diameter_m;
    /**
     * Its standard deviation in metres; range: SPOTWISE_PARAM_WAIST_DIAMETER_DEVIATION.
     */
    double waist_diameter_deviation_m;
    /**
     * Dose on the middle of the line in the waist over that at which the material just marks; range:
     * SPOTWISE_PARAM_DOSE_RATIO.
     */
    double dose_ratio;
    /**
     * Standard deviation of the dose ratio over itself; range:
     * SPOTWISE_PARAM_RELATIVE_DOSE_RATIO_DEVIATION.
     */
    double relative_dose_ratio_deviation;
    /**
     * Correlation of the logarithms of waist diameter and dose ratio; 0, which
     * spotwise_learned_line_init() sets, if unknown; range: SPOTWISE_PARAM_CORRELATION.
     */
    double correlation;
    /**
     * As in spotwise_learned_focus; spotwise_learned_line_init() sets SPOTWISE_NORMAL_FACTOR_95; range:
     * SPOTWISE_PARAM_COVERAGE_FACTOR_95.
     */
    double coverage_factor_95;
} spotwise_learned_line;

/**
 * The dose at which the material just marks: the result of spotwise_learned_threshold().
 */
typedef struct spotwise_learned_threshold_result {
    /**
     * Size of this struct; spotwise_learned_threshold_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Always 0.
     */
    uint32_t reserved;
    /**
     * Line dose at which the material just marks in J/m^2; also its fill dose, for threshold_j_per_m2
     * of a spotwise_job.
     */
    double threshold_j_per_m2;
    /**
     * Standard deviation over the threshold of a normal law with the same 95 % range.
     */
    double relative_deviation;
} spotwise_learned_threshold_result;

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
     * How the dose of the fill is known: one of SPOTWISE_DOSE_BY_*; spotwise_job_init() sets
     * SPOTWISE_DOSE_BY_RATIO.
     */
    uint32_t dose;
    /**
     * How the material answers above the threshold: one of SPOTWISE_RESPONSE_*; spotwise_job_init() sets
     * SPOTWISE_RESPONSE_COATING; for SPOTWISE_DOSE_BY_SCAN.
     */
    uint32_t response;
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
     * Whether the drawing has text: one of SPOTWISE_TEXT_*; spotwise_job_init() sets
     * SPOTWISE_TEXT_NONE. The two choices that follow, and all from stem on, are for
     * SPOTWISE_TEXT_GIVEN.
     */
    uint32_t text;
    /**
     * Typeface of the text: one of SPOTWISE_TYPEFACE_*.
     */
    uint32_t typeface;
    /**
     * The grade that the text must keep everywhere: one of SPOTWISE_GRADE_*.
     */
    uint32_t least_grade;
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
     * Fill dose over the dose at which the material just marks; for SPOTWISE_DOSE_BY_RATIO; range:
     * SPOTWISE_PARAM_ANY_DOSE_RATIO.
     */
    double dose_ratio;
    /**
     * Power on the surface in watts; for SPOTWISE_DOSE_BY_SCAN; range: SPOTWISE_PARAM_POWER.
     */
    double power_w;
    /**
     * Speed along the lines in m/s; for SPOTWISE_DOSE_BY_SCAN; range: SPOTWISE_PARAM_SPEED.
     */
    double speed_m_per_s;
    /**
     * From one line of the fill to the next in metres; for SPOTWISE_DOSE_BY_SCAN; range:
     * SPOTWISE_PARAM_LINE_INTERVAL.
     */
    double line_interval_m;
    /**
     * Fill dose at which the material just marks in J/m^2; for SPOTWISE_DOSE_BY_SCAN; range:
     * SPOTWISE_PARAM_THRESHOLD.
     */
    double threshold_j_per_m2;
    /**
     * Depth at which the dose has fallen by e, in metres; for SPOTWISE_DOSE_BY_SCAN with
     * SPOTWISE_RESPONSE_LOGARITHMIC_ABLATION; range: SPOTWISE_PARAM_PENETRATION_DEPTH.
     */
    double penetration_depth_m;
    /**
     * Energy that removes one volume in J/m^3; for SPOTWISE_DOSE_BY_SCAN with
     * SPOTWISE_RESPONSE_LINEAR_ABLATION; range: SPOTWISE_PARAM_REMOVAL_ENERGY.
     */
    double removal_energy_j_per_m3;
    /**
     * Thermal diffusivity in m^2/s; for SPOTWISE_DOSE_BY_SCAN with SPOTWISE_RESPONSE_MELT; range:
     * SPOTWISE_PARAM_DIFFUSIVITY.
     */
    double diffusivity_m2_per_s;
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
     * Shape factor of the lens, as in spotwise_singlet; for SPOTWISE_LENS_SINGLET with
     * SPOTWISE_SHAPE_BY_FACTOR; range: SPOTWISE_PARAM_SHAPE_FACTOR.
     */
    double shape_factor;
    /**
     * Diameter of the clear aperture of the lens or its mount in metres, INFINITY if unknown, which
     * spotwise_job_init() sets; for SPOTWISE_LENS_SINGLET; range: SPOTWISE_PARAM_CLEAR_APERTURE.
     */
    double clear_aperture_m;
    /**
     * Width of an upright stem in ems; for SPOTWISE_TYPEFACE_MEASURED; range:
     * SPOTWISE_PARAM_STEM_SHARE.
     */
    double stem;
    /**
     * The stroke to which the typeface amounts in ems; for SPOTWISE_TYPEFACE_MEASURED; range:
     * SPOTWISE_PARAM_STROKE_SHARE.
     */
    double effective_stroke;
    /**
     * The gap to which its counters amount in ems; for SPOTWISE_TYPEFACE_MEASURED; range:
     * SPOTWISE_PARAM_COUNTER_SHARE.
     */
    double effective_counter;
    /**
     * The gap to which its counters and the gaps between letters amount in ems; for
     * SPOTWISE_TYPEFACE_MEASURED; range: SPOTWISE_PARAM_GAP_SHARE.
     */
    double effective_gap;
    /**
     * Size of the text in metres, see SPOTWISE_POINT_M; range: SPOTWISE_PARAM_EM.
     */
    double em_m;
    /**
     * Share of the fill dose that the middle of a stem must get to be crisp; spotwise_job_init() sets
     * the default of spotwise_text_grades; range: SPOTWISE_PARAM_CRISP_EXPOSURE.
     */
    double crisp_exposure;
    /**
     * Least dose window of good text; spotwise_job_init() sets the default of spotwise_text_grades;
     * range: SPOTWISE_PARAM_DOSE_WINDOW.
     */
    double good_window;
    /**
     * Least dose window of readable text; spotwise_job_init() sets the default of
     * spotwise_text_grades; range: SPOTWISE_PARAM_DOSE_WINDOW.
     */
    double readable_window;
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
     * 1 if the drawing's finest stroke and gap both hold, and its text keeps its grade; else 0.
     */
    uint32_t details_hold;
    /**
     * 1 if the place lies within the depth of focus; else 0.
     */
    uint32_t in_depth;
    /**
     * How the text comes out: one of SPOTWISE_GRADE_*; 0 if the job has none.
     */
    uint32_t text_grade;
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
     * Spot diameter as the material sees it in metres, 1/e^2, widened by heat in a melt. Details, text and
     * ripple go by it.
     */
    double seen_diameter_m;
    /**
     * Width of the finest stroke that holds in metres; NaN, as the next three, if nothing marks
     * (SPOTWISE_OUTCOME_NOTHING_MARKS).
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
    /**
     * Contrast of the ripple of the fill; NaN if the job gives its dose by ratio.
     */
    double ripple_contrast;
    /**
     * The smallest em at which its typeface is crisp, in metres; NaN, as the next two, if the job has
     * no text or nothing marks.
     */
    double crisp_em_m;
    /**
     * The smallest em at which it is good, in metres.
     */
    double good_em_m;
    /**
     * The smallest em at which it can be read, in metres.
     */
    double readable_em_m;
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
     * End nearer the lens of the heights at which the text keeps its grade, in metres; NaN, as the next
     * two, if it does not even in the waist, or if the job has none, or asks nothing of it.
     */
    double text_toward_lens_z_m;
    /**
     * End of those heights farther from the lens in metres.
     */
    double text_away_from_lens_z_m;
    /**
     * Those heights from end to end in metres.
     */
    double text_full_m;
    /**
     * Fill dose over the dose at which the material just marks.
     */
    double dose_ratio;
    /**
     * Dose on the middle of one line by itself, in the waist, in J/m^2; NaN, as the next three, if the
     * job gives its dose by ratio.
     */
    double line_dose_j_per_m2;
    /**
     * Mean dose of the fill in J/m^2.
     */
    double fill_dose_j_per_m2;
    /**
     * Irradiance on the axis, in the waist, in W/m^2.
     */
    double peak_irradiance_w_per_m2;
    /**
     * Line dose over peak irradiance in seconds.
     */
    double dwell_s;
    /**
     * Depth that an even fill digs at its mean dose in metres, whatever the height (where the fill is
     * striped the depth follows its ripple); 0 if nothing marks; NaN for a coating or a melt, which tell
     * none, or if the job gives its dose by ratio.
     */
    double fill_depth_m;
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

/**
 * What spotwise_surface_check() finds.
 */
typedef struct spotwise_surface_verdict {
    /**
     * Size of this struct; spotwise_surface_verdict_init() sets it.
     */
    uint32_t struct_size;
    /**
     * In how many bands of height, each in its own focus, stroke, gap and text would hold everywhere;
     * 0 if they do not even in the waist, if rise and fall of the job leave no range, if the steepest
     * place does not mark, or if it would take over a million. A band in which the surface has no height
     * needs no focus of its own.
     */
    uint32_t bands;
    /**
     * The verdict, with what the shape adds to its reasons. Only heights count that the surface has; its datum
     * is the one of them nearest to the datum, of two as near the one toward the lens. A fill is judged where
     * the surface comes nearest to the waist.
     */
    struct spotwise_verdict verdict;
    /**
     * Highest, lowest and steepest place of the surface.
     */
    struct spotwise_surface_extremes_result extremes;
    /**
     * Where the spot is worst in metres: at the highest or the lowest place, whichever is farther from
     * focus, and at the highest if both are as far.
     */
    double worst_x_m;
    /**
     * That place in y.
     */
    double worst_y_m;
    /**
     * Its height in metres from the datum, + away from the lens.
     */
    double worst_z_m;
    /**
     * Share of the known area that stays in the depth of focus, rise and fall of the job included; 0 if
     * there is no depth.
     */
    double share_in_depth;
    /**
     * Share of the known area where stroke, gap and text hold, rise and fall included; 0 if they do not
     * even in the waist. It goes by the heights alone: neither the slope nor lines of a fill that leave gaps
     * are in it.
     */
    double share_that_holds;
    /**
     * Length of the spot along the slope over its diameter at the steepest place.
     */
    double steepest_stretch;
    /**
     * Irradiance, and dose, for each area of the surface over that on a level one, at the steepest place.
     */
    double steepest_irradiance_factor;
} spotwise_surface_verdict;

/**
 * A lens that might serve a job.
 */
typedef struct spotwise_lens_candidate {
    /**
     * Size of this struct; spotwise_lens_candidate_init() sets it.
     */
    uint32_t struct_size;
    /**
     * What is known of the lens besides its focal length: one of SPOTWISE_LENS_*;
     * spotwise_lens_candidate_init() sets SPOTWISE_LENS_IDEAL.
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
     * Focal length at the working wavelength in metres, converging; range: SPOTWISE_PARAM_FOCAL_LENGTH.
     */
    double focal_length_m;
    /**
     * Shape factor of the lens, as in spotwise_singlet; for SPOTWISE_LENS_SINGLET with
     * SPOTWISE_SHAPE_BY_FACTOR; range: SPOTWISE_PARAM_SHAPE_FACTOR.
     */
    double shape_factor;
    /**
     * Diameter of the clear aperture of the lens or its mount in metres, INFINITY if unknown, which
     * spotwise_lens_candidate_init() sets; for SPOTWISE_LENS_SINGLET; range:
     * SPOTWISE_PARAM_CLEAR_APERTURE.
     */
    double clear_aperture_m;
    /**
     * From the lowest part of lens, mount and nozzle to a flat surface in focus, in metres; range:
     * SPOTWISE_PARAM_WORKING_DISTANCE. One greater than from the lens to its focus is flagged:
     * SPOTWISE_LENS_REASON_WORKING_DISTANCE_BEYOND_FOCUS.
     */
    double working_distance_m;
} spotwise_lens_candidate;

/**
 * What comes on top of the surface of a job, and what must be left of the working distance.
 */
typedef struct spotwise_set_up {
    /**
     * Size of this struct; spotwise_set_up_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Not read.
     */
    uint32_t reserved;
    /**
     * Half width of all errors of height together in metres, not negative: it widens the surface at both
     * ends; range: SPOTWISE_PARAM_SET_UP_TOLERANCE. spotwise_tolerance_stack() tells it, as the greater distance
     * of its two ends, worst or expanded: its half width alone leaves the bias out.
     */
    double tolerance_m;
    /**
     * Least clearance over the highest place in metres, not negative; range:
     * SPOTWISE_PARAM_LEAST_CLEARANCE.
     */
    double least_clearance_m;
} spotwise_set_up;

/**
 * Where a lens stands among the others, and what it does on the surface with focus at mid-height.
 */
typedef struct spotwise_lens_ranking {
    /**
     * Size of this struct; spotwise_lens_ranking_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Its place in the order, 1 for the best; 0 if the call failed.
     */
    uint32_t rank;
    /**
     * Why: SPOTWISE_LENS_REASON_* bits.
     */
    uint32_t reasons;
    /**
     * What spotwise_focus_check() says of it: one of SPOTWISE_OUTCOME_*; 0, and all numbers NaN, if the
     * model cannot follow its light.
     */
    uint32_t outcome;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Why the model cannot follow its light; code 0 if it can.
     */
    struct spotwise_error refused;
    /**
     * Waist diameter in metres: 1/e^2 (D4 sigma), for a real lens that of 86.5 % of the power.
     */
    double waist_diameter_m;
    /**
     * Distance from the waist at which the diameter has grown by sqrt(2), in metres.
     */
    double rayleigh_range_m;
    /**
     * From the lens to the waist in metres.
     */
    double lens_to_waist_m;
    /**
     * Depth of focus from end to end by the job's criterion, in metres; NaN if the waist is larger than the
     * largest diameter allowed.
     */
    double depth_full_m;
    /**
     * By how much farther the surface might reach to either side with stroke, gap and text still holding, in
     * metres; negative by how much too far it does; NaN if they do not even hold in the waist.
     */
    double spare_half_span_m;
    /**
     * What is left between the lowest part of the head and the highest place of the surface in metres;
     * negative if they collide.
     */
    double clearance_m;
    /**
     * The worst places: the lower one, which is as far from the waist as the upper one.
     */
    struct spotwise_place worst;
} spotwise_lens_ranking;

/**
 * What a choice of lenses comes to: the result of spotwise_choose_lens().
 */
typedef struct spotwise_lens_choice {
    /**
     * Size of this struct; spotwise_lens_choice_init() sets it.
     */
    uint32_t struct_size;
    /**
     * How many lenses serve.
     */
    uint32_t serving;
    /**
     * Place of the first in order among the candidates, from 0 on. It serves if any does.
     */
    uint32_t best;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Where focus is set relative to the datum in metres, + away from the lens: at mid-height of the surface.
     */
    double focus_z_m;
    /**
     * How far the worst places lie from the waist in metres, tolerance included.
     */
    double half_span_m;
    /**
     * Distance from the waist at which the spots of the first two in order are equal, in metres; NaN, as the
     * next, if one is smaller everywhere, or if there are not two.
     */
    double crossing_offset_m;
    /**
     * Spot diameter of both there in metres.
     */
    double crossing_diameter_m;
    /**
     * Span of the surface, from its highest to its lowest place without the tolerance, at which the worst
     * spots of these two swap, in metres; NaN if no span does that.
     */
    double flip_span_m;
} spotwise_lens_choice;

/**
 * How spotwise_fit_beam() fits.
 */
typedef struct spotwise_beam_fit_options {
    /**
     * Size of this struct; spotwise_beam_fit_options_init() sets it.
     */
    uint32_t struct_size;
    /**
     * How a reading weighs: SPOTWISE_READING_WEIGHTS_*; refined is what to use.
     */
    uint32_t weights;
    /**
     * Standard deviations beyond which a reading is left out, 3 is usual, INFINITY keeps all;
     * range: SPOTWISE_PARAM_OUTLIER_LIMIT.
     */
    double outlier_limit;
    /**
     * Share of cases in which a range is to hold the truth, 0.95 is usual; range:
     * SPOTWISE_PARAM_CONFIDENCE.
     */
    double confidence;
    /**
     * Dose over threshold, if the widths are those of marks and it is known; 0 if they are of the
     * beam. It enters no number. Range: 0, or SPOTWISE_PARAM_ANY_DOSE_RATIO.
     */
    double mark_dose_ratio;
} spotwise_beam_fit_options;

/**
 * A beam that fits a set of readings: the result of spotwise_fit_beam(). A fit by least squares is off on
 * the average where its law is curved. With refined weights each value is the plain least-squares number
 * less that bias, at most one deviation, and the range is even about it; with measured ones the bias is 0.
 * Value and bias together are what any other program gives, and what residuals and chi_squared belong to.
 */
typedef struct spotwise_beam_fit {
    /**
     * Size of this struct; spotwise_beam_fit_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Readings used less three.
     */
    uint32_t degrees_of_freedom;
    /**
     * How many readings were used.
     */
    uint32_t readings_used;
    /**
     * How many of them lie within one Rayleigh range of the waist.
     */
    uint32_t readings_near;
    /**
     * How many of them lie two Rayleigh ranges from the waist, or farther.
     */
    uint32_t readings_far;
    /**
     * What to be wary of: SPOTWISE_BEAM_WARNING_* bits.
     */
    uint32_t warnings;
    /**
     * Height of the waist in metres, + away from the lens.
     */
    double waist_z_m;
    /**
     * Its standard deviation.
     */
    double waist_z_deviation_m;
    /**
     * Least of its range, for the confidence asked for.
     */
    double waist_z_least_m;
    /**
     * Greatest of its range.
     */
    double waist_z_greatest_m;
    /**
     * What was taken off the plain least-squares number.
     */
    double waist_z_bias_m;
    /**
     * Waist diameter in metres, of the definition that was read.
     */
    double waist_diameter_m;
    /**
     * Its standard deviation.
     */
    double waist_diameter_deviation_m;
    /**
     * Least of its range, for the confidence asked for.
     */
    double waist_diameter_least_m;
    /**
     * Greatest of its range.
     */
    double waist_diameter_greatest_m;
    /**
     * What was taken off the plain least-squares number.
     */
    double waist_diameter_bias_m;
    /**
     * Rayleigh range in metres.
     */
    double rayleigh_range_m;
    /**
     * Its standard deviation.
     */
    double rayleigh_range_deviation_m;
    /**
     * Least of its range, for the confidence asked for.
     */
    double rayleigh_range_least_m;
    /**
     * Greatest of its range.
     */
    double rayleigh_range_greatest_m;
    /**
     * What was taken off the plain least-squares number.
     */
    double rayleigh_range_bias_m;
    /**
     * Divergence in radians, full angle.
     */
    double divergence_full_angle_rad;
    /**
     * Its standard deviation.
     */
    double divergence_full_angle_deviation_rad;
    /**
     * Least of its range, for the confidence asked for.
     */
    double divergence_full_angle_least_rad;
    /**
     * Greatest of its range.
     */
    double divergence_full_angle_greatest_rad;
    /**
     * What was taken off the plain least-squares number.
     */
    double divergence_full_angle_bias_rad;
    /**
     * Beam propagation ratio M^2; below 1 it is flagged.
     */
    double m2;
    /**
     * Its standard deviation.
     */
    double m2_deviation;
    /**
     * Least of its range, for the confidence asked for.
     */
    double m2_least;
    /**
     * Greatest of its range.
     */
    double m2_greatest;
    /**
     * What was taken off the plain least-squares number.
     */
    double m2_bias;
    /**
     * Correlation of the height and the diameter of the waist.
     */
    double z_diameter_correlation;
    /**
     * Correlation of the height of the waist and the Rayleigh range.
     */
    double z_range_correlation;
    /**
     * Correlation of waist diameter and Rayleigh range.
     */
    double diameter_range_correlation;
    /**
     * Squared residuals of the squared diameters by their weights.
     */
    double chi_squared;
    /**
     * Chance of a chi_squared as great or greater.
     */
    double chi_squared_chance;
    /**
     * Chance of terms of third and fourth order as great or greater, if the widths do follow a
     * hyperbola; 1 with fewer than six readings or five different heights, which cannot tell.
     */
    double higher_terms_chance;
} spotwise_beam_fit;

/**
 * What is known of the eye and the light, and how sure the answer is to be.
 */
typedef struct spotwise_eye_judgement {
    /**
     * Size of this struct; spotwise_eye_judgement_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Not read.
     */
    uint32_t reserved;
    /**
     * Rayleigh range of the beam in metres, as it is expected; it only turns the deviation into heights; range:
     * SPOTWISE_PARAM_RAYLEIGH_RANGE.
     */
    double rayleigh_range_m;
    /**
     * Relative standard deviation: of ranks, by how much the same eye differs in the width of spot at which it
     * changes its mind; of vanishing marks, by how much power and material differ from piece to piece. 0.05 is a
     * steady hand, 0.1 a hasty one (our choice, no source). Range: SPOTWISE_PARAM_JUDGEMENT_DEVIATION.
     */
    double relative_deviation;
    /**
     * Share of all series whose focus the stated range is to hold, such as 0.95; range:
     * SPOTWISE_PARAM_COVERAGE_PROBABILITY.
     */
    double coverage_probability;
} spotwise_eye_judgement;

/**
 * Focus from where marks vanish: the result of spotwise_focus_from_vanishing(). Heights count as those of the
 * pieces, + away from the lens.
 */
typedef struct spotwise_vanishing_focus {
    /**
     * Size of this struct; spotwise_vanishing_focus_init() sets it.
     */
    uint32_t struct_size;
    /**
     * What to beware of: SPOTWISE_EYE_* bits.
     */
    uint32_t warnings;
    /**
     * Height of focus in metres.
     */
    double focus_z_m;
    /**
     * Its standard deviation in metres; also that of half_run_m.
     */
    double focus_z_deviation_m;
    /**
     * Range for the coverage probability, its end toward the lens, in metres.
     */
    double least_z_m;
    /**
     * Its end away from the lens in metres.
     */
    double greatest_z_m;
    /**
     * Where the mark vanishes toward the lens, in metres.
     */
    double toward_lens_z_m;
    /**
     * Standard deviation of that in metres.
     */
    double toward_lens_deviation_m;
    /**
     * Where it vanishes away from the lens, in metres.
     */
    double away_from_lens_z_m;
    /**
     * Standard deviation of that in metres.
     */
    double away_from_lens_deviation_m;
    /**
     * From focus to either, in metres.
     */
    double half_run_m;
    /**
     * Dose in focus over threshold dose, by the Rayleigh range.
     */
    double dose_ratio;
} spotwise_vanishing_focus;

/**
 * Focus and usable range from ranks: the result of spotwise_focus_from_ranks(). Heights count as those of the
 * pieces, + away from the lens.
 */
typedef struct spotwise_rank_focus {
    /**
     * Size of this struct; spotwise_rank_focus_init() sets it.
     */
    uint32_t struct_size;
    /**
     * What to beware of: SPOTWISE_EYE_* bits.
     */
    uint32_t warnings;
    /**
     * Height of focus in metres.
     */
    double focus_z_m;
    /**
     * Its standard deviation in metres.
     */
    double focus_z_deviation_m;
    /**
     * Range for the coverage probability, its end toward the lens, in metres.
     */
    double least_z_m;
    /**
     * Its end away from the lens in metres.
     */
    double greatest_z_m;
    /**
     * End of the run of acceptable pieces or better, toward the lens, in metres; NaN, as the next three, unless
     * the run is bounded on both sides.
     */
    double usable_toward_lens_z_m;
    /**
     * Standard deviation of that in metres.
     */
    double usable_toward_lens_deviation_m;
    /**
     * Its end away from the lens in metres.
     */
    double usable_away_from_lens_z_m;
    /**
     * Standard deviation of that in metres.
     */
    double usable_away_from_lens_deviation_m;
    /**
     * Half of the run of sharp pieces in metres; NaN if no piece is.
     */
    double sharp_half_run_m;
} spotwise_rank_focus;

/**
 * What is known of a series of marks, and how a fit is to judge them: an input of
 * spotwise_fit_mark_widths().
 */
typedef struct spotwise_mark_series {
    /**
     * Size of this struct; spotwise_mark_series_init() sets it.
     */
    uint32_t struct_size;
    /**
     * What makes the marks, one of SPOTWISE_MARK_*.
     */
    uint32_t mark_kind;
    /**
     * What the stated deviations are worth, one of SPOTWISE_WIDTH_SCATTER_*.
     */
    uint32_t scatter;
    /**
     * Not read; keeps the numbers aligned.
     */
    uint32_t reserved;
    /**
     * Vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
     */
    double wavelength_m;
    /**
     * M squared, not read if its deviation is INFINITY; range: SPOTWISE_PARAM_M2. A rough one helps much.
     */
    double m2;
    /**
     * Its deviation over itself, INFINITY where it is not known; range: SPOTWISE_PARAM_PRIOR_DEVIATION.
     */
    double relative_m2_deviation;
    /**
     * Waist diameter in metres, 1/e^2, not read if its deviation is INFINITY; range:
     * SPOTWISE_PARAM_WAIST_DIAMETER.
     */
    double waist_diameter_m;
    /**
     * Its deviation over itself, INFINITY where it is not known; range: SPOTWISE_PARAM_PRIOR_DEVIATION.
     */
    double relative_waist_diameter_deviation;
    /**
     * Deviations beyond which a mark is left out, 3 is usual, INFINITY keeps all; range:
     * SPOTWISE_PARAM_OUTLIER_LIMIT.
     */
    double outlier_limit;
    /**
     * Share of cases in which each range is to hold the truth, such as 0.95; range:
     * SPOTWISE_PARAM_CONFIDENCE.
     */
    double confidence;
} spotwise_mark_series;

/**
 * What a series of marks tells: the result of spotwise_fit_mark_widths(). Of each value its standard
 * deviation, and the ends of the range that holds it with the confidence asked for. A fit by least squares
 * is off on the average where its law is curved: each value is the plain least-squares number less that
 * bias, of the height itself and of the logarithms of all else, at most one deviation; what marks that
 * vanished pull, always to one side, is a part of it, and no part of the certainty. Value and bias
 * together are what any other program gives, and what residuals and chi_squared belong to. Where spot and dose
 * are hard to tell apart, a range goes as far as the marks allow, and may be open: to 0 for the waist diameter
 * and M squared, to 1 for the dose ratio, or to the greatest that the model knows.
 */
typedef struct spotwise_mark_fit {
    /**
     * Size of this struct; spotwise_mark_fit_init() sets it.
     */
    uint32_t struct_size;
    /**
     * How many marks were used that were seen.
     */
    uint32_t marks_used;
    /**
     * How many marks were used that vanished.
     */
    uint32_t vanished_used;
    /**
     * Marks seen and used, and what was known before, less four.
     */
    uint32_t degrees_of_freedom;
    /**
     * What to beware of, SPOTWISE_MARK_FIT_* bits.
     */
    uint32_t cautions;
    /**
     * Which further marks would make the answer better, SPOTWISE_FURTHER_MARKS_* bits.
     */
    uint32_t further;
    /**
     * Height of the waist in metres, from the datum of the heights, + away from the lens.
     */
    double waist_z_m;
    /**
     * Its deviation.
     */
    double waist_z_deviation_m;
    /**
     * Least of its range.
     */
    double waist_z_least_m;
    /**
     * Greatest of its range.
     */
    double waist_z_greatest_m;
    /**
     * What was taken off the plain least-squares number.
     */
    double waist_z_bias_m;
    /**
     * Waist diameter in metres, 1/e^2.
     */
    double waist_diameter_m;
    /**
     * Its deviation.
     */
    double waist_diameter_deviation_m;
    /**
     * Least of its range.
     */
    double waist_diameter_least_m;
    /**
     * Greatest of its range.
     */
    double waist_diameter_greatest_m;
    /**
     * What was taken off the plain least-squares number.
     */
    double waist_diameter_bias_m;
    /**
     * Rayleigh range in metres.
     */
    double rayleigh_range_m;
    /**
     * Its deviation.
     */
    double rayleigh_range_deviation_m;
    /**
     * Least of its range.
     */
    double rayleigh_range_least_m;
    /**
     * Greatest of its range.
     */
    double rayleigh_range_greatest_m;
    /**
     * What was taken off the plain least-squares number.
     */
    double rayleigh_range_bias_m;
    /**
     * Dose over threshold in the waist, at the power of reference.
     */
    double dose_ratio;
    /**
     * Its deviation.
     */
    double dose_ratio_deviation;
    /**
     * Least of its range.
     */
    double dose_ratio_least;
    /**
     * Greatest of its range.
     */
    double dose_ratio_greatest;
    /**
     * What was taken off the plain least-squares number.
     */
    double dose_ratio_bias;
    /**
     * M squared.
     */
    double m2;
    /**
     * Its deviation.
     */
    double m2_deviation;
    /**
     * Least of its range.
     */
    double m2_least;
    /**
     * Greatest of its range.
     */
    double m2_greatest;
    /**
     * What was taken off the plain least-squares number.
     */
    double m2_bias;
    /**
     * Correlation of the height of the waist and the logarithm of its diameter.
     */
    double correlation_z_diameter;
    /**
     * Correlation of the height of the waist and the logarithm of the Rayleigh range.
     */
    double correlation_z_range;
    /**
     * Correlation of the height of the waist and the logarithm of the dose ratio.
     */
    double correlation_z_dose;
    /**
     * Correlation of the logarithms of waist diameter and Rayleigh range.
     */
    double correlation_diameter_range;
    /**
     * Correlation of the logarithms of waist diameter and dose ratio.
     */
    double correlation_diameter_dose;
    /**
     * Correlation of the logarithms of Rayleigh range and dose ratio.
     */
    double correlation_range_dose;
    /**
     * Half width of a range over the deviation.
     */
    double range_factor;
    /**
     * Sum of squared residuals over their variances.
     */
    double chi_squared;
    /**
     * Chance of a chi squared so great or greater, if the stated deviations hold.
     */
    double chance;
    /**
     * By how many deviations the widths change with height; at least 4.
     */
    double shape_significance;
} spotwise_mark_fit;

/**
 * What a series of lines told of a machine: the result of spotwise_calibration_from_marks().
 */
typedef struct spotwise_learned_machine {
    /**
     * Size of this struct; spotwise_learned_machine_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0; keeps the numbers aligned.
     */
    uint32_t reserved;
    /**
     * Height of focus in metres, from the datum of the heights of the marks, + away from the lens.
     */
    double focus_z_m;
    /**
     * Beam and focus, for spotwise_calibrated_set_up().
     */
    struct spotwise_learned_focus focus;
    /**
     * The line in the waist, for spotwise_learned_threshold().
     */
    struct spotwise_learned_line line;
} spotwise_learned_machine;

/**
 * What a series of test pieces is to be.
 */
typedef struct spotwise_series_request {
    /**
     * Size of this struct; spotwise_series_request_init() sets it.
     */
    uint32_t struct_size;
    /**
     * What it is engraved for: one of SPOTWISE_SERIES_*.
     */
    uint32_t purpose;
    /**
     * What the pieces are made of: one of SPOTWISE_MARK_*; for SPOTWISE_SERIES_VANISHING.
     */
    uint32_t mark_kind;
    /**
     * Which way to sweep: one of SPOTWISE_SWEEP_*.
     */
    uint32_t direction;
    /**
     * Dose in focus over threshold dose, as expected, 1.2 to 2 is best; for SPOTWISE_SERIES_VANISHING; range:
     * SPOTWISE_PARAM_DOSE_RATIO.
     */
    double dose_ratio;
    /**
     * Where focus is expected, in metres from the caller's datum, + away from the lens; range:
     * SPOTWISE_PARAM_FOCUS_Z.
     */
    double expected_focus_z_m;
    /**
     * How far focus may be from there in metres, either way; range: SPOTWISE_PARAM_SET_UP_TOLERANCE.
     */
    double focus_uncertainty_m;
    /**
     * Step from height to height in metres; 0, which spotwise_series_request_init() sets, to have it chosen; range:
     * SPOTWISE_PARAM_SERIES_STEP.
     */
    double step_m;
    /**
     * Half of the range in metres; 0, which spotwise_series_request_init() sets, to have it chosen; range:
     * SPOTWISE_PARAM_SERIES_HALF_RANGE.
     */
    double half_range_m;
    /**
     * Smallest step of the axis in metres; 0, which spotwise_series_request_init() sets, if it takes any height;
     * range: SPOTWISE_PARAM_AXIS_STEP.
     */
    double axis_step_m;
    /**
     * Backlash of the axis in metres; range: SPOTWISE_PARAM_AXIS_BACKLASH.
     */
    double backlash_m;
    /**
     * From the lowest part of the head to a piece in expected focus, in metres; range:
     * SPOTWISE_PARAM_WORKING_DISTANCE.
     */
    double clearance_m;
    /**
     * What must be left of it over any piece, in metres; range: SPOTWISE_PARAM_LEAST_CLEARANCE.
     */
    double least_clearance_m;
    /**
     * How far pieces can move from expected focus toward the lens, in metres; INFINITY, which
     * spotwise_series_request_init() sets, if that is no limit; range: SPOTWISE_PARAM_AXIS_TRAVEL.
     */
    double travel_toward_lens_m;
    /**
     * How far they can move away from the lens, likewise.
     */
    double travel_away_from_lens_m;
    /**
     * Width of a piece on the drawing in metres; range of this and the next three: SPOTWISE_PARAM_PIECE_SIZE.
     */
    double piece_width_m;
    /**
     * Height of a piece on the drawing in metres.
     */
    double piece_height_m;
    /**
     * Width of the room for a label in metres.
     */
    double label_width_m;
    /**
     * Height of the room for a label in metres.
     */
    double label_height_m;
    /**
     * What is left free between a piece, its label and its neighbours, in metres; range: SPOTWISE_PARAM_PIECE_GAP.
     */
    double gap_m;
    /**
     * Greatest width of a row in metres; INFINITY, which spotwise_series_request_init() sets, for one row; range:
     * SPOTWISE_PARAM_ROW_WIDTH, and at least a piece and its label.
     */
    double row_width_m;
} spotwise_series_request;

/**
 * One piece of a planned series.
 */
typedef struct spotwise_planned_piece {
    /**
     * Size of this struct; spotwise_planned_piece_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Why it is in the series: one of SPOTWISE_PIECE_*; 0 for no piece.
     */
    uint32_t role;
    /**
     * Why it is left out: one of SPOTWISE_SKIP_*; 0 if it is engraved.
     */
    uint32_t skipped;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Its height in metres from the caller's datum, + away from the lens; its label: spotwise_height_label().
     */
    double z_m;
    /**
     * Where the axis is to be before it goes to that height, in metres; of a piece that follows another one in the
     * sweep the height of that; NaN, as the next, for a piece that is left out.
     */
    double approach_z_m;
    /**
     * Lower left corner of the piece on the drawing in metres, to the right.
     */
    double x_m;
    /**
     * The same, upward.
     */
    double y_m;
    /**
     * Lower left corner of the room for its label in metres, to the right.
     */
    double label_x_m;
    /**
     * The same, upward.
     */
    double label_y_m;
} spotwise_planned_piece;

/**
 * A planned series: the result of spotwise_plan_series().
 */
typedef struct spotwise_series_plan {
    /**
     * Size of this struct; spotwise_series_plan_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Steps on either side of expected focus, skipped ones among them.
     */
    uint32_t steps_per_side;
    /**
     * Steps that are engraved on the side toward the lens.
     */
    uint32_t steps_toward_lens;
    /**
     * Steps that are engraved on the side away from the lens.
     */
    uint32_t steps_away_from_lens;
    /**
     * Pieces in all, skipped ones among them: as many entries has the list.
     */
    uint32_t pieces;
    /**
     * Pieces that are engraved.
     */
    uint32_t engraved;
    /**
     * Pieces in a full row of the drawing.
     */
    uint32_t columns;
    /**
     * Rows of the drawing.
     */
    uint32_t rows;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Step from height to height in metres.
     */
    double step_m;
    /**
     * Half of the range in metres: so many steps.
     */
    double half_range_m;
    /**
     * From how far before its height the first piece of the sweep, and every repeat, is approached, in metres.
     */
    double pre_travel_m;
    /**
     * Rayleigh range of the expected beam in metres.
     */
    double rayleigh_range_m;
    /**
     * How far from focus the mark is expected to vanish, in metres; NaN unless that is what the series is for.
     */
    double vanishing_offset_m;
    /**
     * Width of the whole drawing in metres.
     */
    double width_m;
    /**
     * Height of the whole drawing in metres.
     */
    double height_m;
    /**
     * Half angle of the cone of the expected beam in radians.
     */
    double half_angle_rad;
} spotwise_series_plan;

/**
 * A height that was engraved before and after a sweep, as it was measured.
 */
typedef struct spotwise_repeated_width {
    /**
     * Size of this struct; spotwise_repeated_width_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Not read.
     */
    uint32_t reserved;
    /**
     * Width of the mark before the sweep in metres; range of both widths: SPOTWISE_PARAM_MARK_WIDTH.
     */
    double first_width_m;
    /**
     * Standard deviation of that in metres; range of both: SPOTWISE_PARAM_WIDTH_DEVIATION.
     */
    double first_deviation_m;
    /**
     * Width of the mark after the sweep in metres.
     */
    double last_width_m;
    /**
     * Standard deviation of that in metres.
     */
    double last_deviation_m;
} spotwise_repeated_width;

/**
 * What two repeats of one height say: the result of spotwise_series_drift().
 */
typedef struct spotwise_drift {
    /**
     * Size of this struct; spotwise_drift_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 1 if the chance is less than 1 - coverage probability, else 0.
     */
    uint32_t drifted;
    /**
     * Last width less first in metres.
     */
    double change_m;
    /**
     * Its standard deviation in metres.
     */
    double change_deviation_m;
    /**
     * Change over its deviation.
     */
    double significance;
    /**
     * The chance of a change so great either way, were there no drift.
     */
    double chance;
} spotwise_drift;

/**
 * How spotwise_fit_threshold() fits.
 */
typedef struct spotwise_threshold_fit_options {
    /**
     * Size of this struct; spotwise_threshold_fit_options_init() sets it.
     */
    uint32_t struct_size;
    /**
     * How a mark weighs: SPOTWISE_READING_WEIGHTS_*; refined is what to use.
     */
    uint32_t weights;
    /**
     * Standard deviations beyond which a mark is left out, 3 is usual, INFINITY keeps all; range:
     * SPOTWISE_PARAM_OUTLIER_LIMIT.
     */
    double outlier_limit;
    /**
     * Share of cases in which a range is to hold the truth, 0.95 is usual; range:
     * SPOTWISE_PARAM_CONFIDENCE.
     */
    double confidence;
} spotwise_threshold_fit_options;

/**
 * Spot and threshold that fit a set of test marks: the result of spotwise_fit_threshold().
 *
 * With refined weights a value is the plain least-squares number less its bias, the range of the
 * spot is even about it and that of the threshold about its logarithm; with measured ones the bias
 * is 0. Value and bias together are what any other program gives, and what residuals and chi_squared
 * belong to.
 */
typedef struct spotwise_threshold_fit {
    /**
     * Size of this struct; spotwise_threshold_fit_init() sets it.
     */
    uint32_t struct_size;
    /**
     * How many marks were used.
     */
    uint32_t marks_used;
    /**
     * Marks used less two.
     */
    uint32_t degrees_of_freedom;
    /**
     * What to be wary of: SPOTWISE_THRESHOLD_WARNING_* bits.
     */
    uint32_t warnings;
    /**
     * Spot diameter on the surface in metres, 1/e^2.
     */
    double spot_diameter_m;
    /**
     * Its standard deviation.
     */
    double spot_diameter_deviation_m;
    /**
     * Least of its range, for the confidence asked for.
     */
    double spot_diameter_least_m;
    /**
     * Greatest of its range.
     */
    double spot_diameter_greatest_m;
    /**
     * What was taken off the plain least-squares number.
     */
    double spot_diameter_bias_m;
    /**
     * Threshold, in the unit of the doses.
     */
    double threshold;
    /**
     * Its standard deviation; over the threshold, that of its logarithm.
     */
    double threshold_deviation;
    /**
     * Least of its range, for the confidence asked for.
     */
    double threshold_least;
    /**
     * Greatest of its range.
     */
    double threshold_greatest;
    /**
     * What was taken off the plain least-squares number.
     */
    double threshold_bias;
    /**
     * Correlation of the spot diameter and the logarithm of the threshold.
     */
    double correlation;
    /**
     * Slope of squared width against the logarithm of dose, over its deviation; at least 3.
     */
    double significance;
    /**
     * Squared residuals of the squared widths by their weights.
     */
    double chi_squared;
    /**
     * Chance of a chi_squared as great or greater.
     */
    double chi_squared_chance;
    /**
     * Chance of a curvature as great or greater, either way, if the squares do follow a line; 1 with
     * fewer than four marks or three different doses, which cannot tell.
     */
    double curvature_chance;
} spotwise_threshold_fit;

/**
 * A good mark: made in focus, of known dose.
 */
typedef struct spotwise_good_mark {
    /**
     * Size of this struct; spotwise_good_mark_init() sets it.
     */
    uint32_t struct_size;
    /**
     * What makes the mark: one of SPOTWISE_MARK_*.
     */
    uint32_t mark_kind;
    /**
     * Its dose over the dose at which the material just marks; range: SPOTWISE_PARAM_DOSE_RATIO.
     */
    double dose_ratio;
    /**
     * Standard deviation of the dose ratio over itself, 0 if it counts as exact, at most 0.3 ln(dose_ratio); range:
     * SPOTWISE_PARAM_DOSE_RATIO_DEVIATION.
     */
    double dose_ratio_deviation;
    /**
     * Its width in metres; range: SPOTWISE_PARAM_MARK_WIDTH.
     */
    double width_m;
    /**
     * Standard deviation of the width in metres, at most 0.3 of it; range: SPOTWISE_PARAM_WIDTH_DEVIATION.
     */
    double width_deviation_m;
} spotwise_good_mark;

/**
 * Depths, or optical densities of a stain that go by the same law, in any one unit.
 *
 * A contrast 1 - R/R0, of the reflectances R of the mark and R0 of the bare material, follows neither
 * law: turn it into the density log10(R0/R) first, with the deviation 0.434 sigma/R. Over the straight
 * part of its characteristic curve it goes by SPOTWISE_DEPTH_LOGARITHMIC.
 */
typedef struct spotwise_depth_reading {
    /**
     * Size of this struct; spotwise_depth_reading_init() sets it.
     */
    uint32_t struct_size;
    /**
     * How depth goes with dose: one of SPOTWISE_DEPTH_*.
     */
    uint32_t depth_law;
    /**
     * Depth of the good mark; range: SPOTWISE_PARAM_MARK_DEPTH.
     */
    double good_depth;
    /**
     * Its standard deviation, at most 0.3 of it; range: SPOTWISE_PARAM_DEPTH_DEVIATION.
     */
    double good_depth_deviation;
    /**
     * Depth now; range: SPOTWISE_PARAM_MARK_DEPTH.
     */
    double depth;
    /**
     * Its standard deviation, at most 0.3 of it; range: SPOTWISE_PARAM_DEPTH_DEVIATION.
     */
    double depth_deviation;
} spotwise_depth_reading;

/**
 * What width and depth of a mark say: the result of spotwise_diagnose_mark().
 */
typedef struct spotwise_mark_diagnosis {
    /**
     * Size of this struct; spotwise_mark_diagnosis_init() sets it.
     */
    uint32_t struct_size;
    /**
     * What has changed: one of SPOTWISE_CAUSE_*.
     */
    uint32_t cause;
    /**
     * The one further test that settles what stays open: one of SPOTWISE_TEST_*.
     */
    uint32_t further_test;
    /**
     * What stays open: SPOTWISE_AMBIGUITY_* bits.
     */
    uint32_t ambiguities;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Growth of the spot; below 1 where errors of measurement or the good mark make it so.
     */
    double growth;
    /**
     * Standard deviation of the growth over itself.
     */
    double growth_deviation;
    /**
     * Distance of the surface from the waist in metres, on either side; 0 for a growth up to 1.
     */
    double offset_m;
    /**
     * Least distance, of the coverage asked for; 0 where the waist is not ruled out.
     */
    double least_offset_m;
    /**
     * Greatest distance, of the coverage asked for.
     */
    double greatest_offset_m;
    /**
     * Dose that the settings give now over what they gave.
     */
    double power_ratio;
    /**
     * Standard deviation of the power ratio over itself.
     */
    double power_ratio_deviation;
    /**
     * Least power ratio, of the coverage asked for.
     */
    double least_power_ratio;
    /**
     * Greatest power ratio, of the coverage asked for.
     */
    double greatest_power_ratio;
    /**
     * Correlation of the logarithms of growth and power ratio.
     */
    double correlation;
    /**
     * Dose ratio of the mark where it lies.
     */
    double dose_ratio;
    /**
     * Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_mark_diagnosis;

/**
 * What the width of a mark says: the result of spotwise_diagnose_width().
 */
typedef struct spotwise_width_diagnosis {
    /**
     * Size of this struct; spotwise_width_diagnosis_init() sets it.
     */
    uint32_t struct_size;
    /**
     * What has changed: one of SPOTWISE_CAUSE_*.
     */
    uint32_t cause;
    /**
     * The one further test that settles what stays open: one of SPOTWISE_TEST_*.
     */
    uint32_t further_test;
    /**
     * What stays open: SPOTWISE_AMBIGUITY_* bits.
     */
    uint32_t ambiguities;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Growth at the height between the waist and where the mark is widest, if the dose is as it was; NaN, as the three
     * that follow, where no such height explains the width.
     */
    double near_growth;
    /**
     * Distance of that height from the waist in metres, on either side.
     */
    double near_offset_m;
    /**
     * Least distance, of the coverage asked for.
     */
    double near_least_offset_m;
    /**
     * Greatest distance, of the coverage asked for.
     */
    double near_greatest_offset_m;
    /**
     * Growth at the height beyond where the mark is widest; NaN, as the three that follow, where none explains it.
     */
    double far_growth;
    /**
     * Distance of that height from the waist in metres, on either side.
     */
    double far_offset_m;
    /**
     * Least distance, of the coverage asked for.
     */
    double far_least_offset_m;
    /**
     * Greatest distance, of the coverage asked for.
     */
    double far_greatest_offset_m;
    /**
     * The dose over what it was, if focus is as it was; NaN, as the two that follow, where a dose ratio of 1e6 would not do.
     */
    double power_ratio;
    /**
     * Least such ratio, of the coverage asked for.
     */
    double least_power_ratio;
    /**
     * Greatest such ratio, of the coverage asked for.
     */
    double greatest_power_ratio;
    /**
     * Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_width_diagnosis;

/**
 * What a solid patch and a thin line say: the result of spotwise_settle_by_patch().
 */
typedef struct spotwise_patch_settlement {
    /**
     * Size of this struct; spotwise_patch_settlement_init() sets it.
     */
    uint32_t struct_size;
    /**
     * What has changed: one of SPOTWISE_CAUSE_*.
     */
    uint32_t cause;
    /**
     * The one further test that settles what stays open: one of SPOTWISE_TEST_*.
     */
    uint32_t further_test;
    /**
     * What stays open: SPOTWISE_AMBIGUITY_* bits.
     */
    uint32_t ambiguities;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * The dose now over what it was.
     */
    double power_ratio;
    /**
     * Least power ratio, of the coverage asked for.
     */
    double least_power_ratio;
    /**
     * Greatest power ratio, of the coverage asked for.
     */
    double greatest_power_ratio;
    /**
     * Growth at the height between the waist and where the line is widest; NaN, as the three that follow, where no such
     * height explains its width.
     */
    double near_growth;
    /**
     * Distance of that height from the waist in metres, on either side.
     */
    double near_offset_m;
    /**
     * Least distance, of the coverage asked for.
     */
    double near_least_offset_m;
    /**
     * Greatest distance, of the coverage asked for.
     */
    double near_greatest_offset_m;
    /**
     * Growth at the height beyond where the line is widest; NaN, as the three that follow, where none explains its width.
     */
    double far_growth;
    /**
     * Distance of that height from the waist in metres, on either side.
     */
    double far_offset_m;
    /**
     * Least distance, of the coverage asked for.
     */
    double far_least_offset_m;
    /**
     * Greatest distance, of the coverage asked for.
     */
    double far_greatest_offset_m;
    /**
     * Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_patch_settlement;

/**
 * Two marks, alike but for the power.
 */
typedef struct spotwise_power_step {
    /**
     * Size of this struct; spotwise_power_step_init() sets it.
     */
    uint32_t struct_size;
    /**
     * What makes the mark: one of SPOTWISE_MARK_*.
     */
    uint32_t mark_kind;
    /**
     * Dose ratio that the first is meant to have in focus; range: SPOTWISE_PARAM_DOSE_RATIO.
     */
    double dose_ratio;
    /**
     * Standard deviation of the dose ratio over itself, 0 if it counts as exact, at most 0.3 ln(dose_ratio); range:
     * SPOTWISE_PARAM_DOSE_RATIO_DEVIATION.
     */
    double dose_ratio_deviation;
    /**
     * Power of the second over that of the first, 2 as a rule; range: SPOTWISE_PARAM_POWER_STEP.
     */
    double power_step;
    /**
     * Width of the first in metres; range: SPOTWISE_PARAM_MARK_WIDTH.
     */
    double width_m;
    /**
     * Its standard deviation in metres, at most 0.3 of it; range: SPOTWISE_PARAM_WIDTH_DEVIATION.
     */
    double width_deviation_m;
    /**
     * Width of the second in metres; range: SPOTWISE_PARAM_MARK_WIDTH.
     */
    double stepped_width_m;
    /**
     * Its standard deviation in metres, at most 0.3 of it; range: SPOTWISE_PARAM_WIDTH_DEVIATION.
     */
    double stepped_width_deviation_m;
} spotwise_power_step;

/**
 * What two marks of different power say: the result of spotwise_settle_by_power().
 */
typedef struct spotwise_power_settlement {
    /**
     * Size of this struct; spotwise_power_settlement_init() sets it.
     */
    uint32_t struct_size;
    /**
     * What is other than it should be: one of SPOTWISE_CAUSE_*.
     */
    uint32_t cause;
    /**
     * The one further test that settles what stays open: one of SPOTWISE_TEST_*.
     */
    uint32_t further_test;
    /**
     * What stays open: SPOTWISE_AMBIGUITY_* bits.
     */
    uint32_t ambiguities;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Spot diameter on the surface in metres, 1/e^2.
     */
    double spot_diameter_m;
    /**
     * Its standard deviation in metres.
     */
    double spot_diameter_deviation_m;
    /**
     * Growth of the spot; below 1 where errors of measurement or the beam make it so.
     */
    double growth;
    /**
     * Distance of the surface from the waist in metres, on either side; 0 for a growth up to 1.
     */
    double offset_m;
    /**
     * Least distance, of the coverage asked for; 0 where the waist is not ruled out.
     */
    double least_offset_m;
    /**
     * Greatest distance, of the coverage asked for.
     */
    double greatest_offset_m;
    /**
     * Dose ratio of the first mark where it lies.
     */
    double dose_ratio;
    /**
     * The dose over what the dose ratio in focus means.
     */
    double power_ratio;
    /**
     * Least power ratio, of the coverage asked for.
     */
    double least_power_ratio;
    /**
     * Greatest power ratio, of the coverage asked for.
     */
    double greatest_power_ratio;
    /**
     * Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_power_settlement;

/**
 * Readings of the same mark at three heights: depth, or darkness, in any one unit.
 */
typedef struct spotwise_height_readings {
    /**
     * Size of this struct; spotwise_height_readings_init() sets it.
     */
    uint32_t struct_size;
    /**
     * What makes the mark: one of SPOTWISE_MARK_*.
     */
    uint32_t mark_kind;
    /**
     * How the reading goes with dose: one of SPOTWISE_DEPTH_*.
     */
    uint32_t depth_law;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * How much nearer the lens, and how much farther, in metres; range: SPOTWISE_PARAM_HEIGHT_STEP.
     */
    double height_step_m;
    /**
     * Reading a step nearer the lens; range: SPOTWISE_PARAM_MARK_DEPTH.
     */
    double toward_lens;
    /**
     * Reading at the middle height; range: SPOTWISE_PARAM_MARK_DEPTH.
     */
    double middle;
    /**
     * Reading a step farther from the lens; range: SPOTWISE_PARAM_MARK_DEPTH.
     */
    double away_from_lens;
    /**
     * Standard deviation of each reading; range: SPOTWISE_PARAM_DEPTH_DEVIATION.
     */
    double deviation;
} spotwise_height_readings;

/**
 * Where three heights put the surface: the result of spotwise_settle_by_heights().
 */
typedef struct spotwise_height_settlement {
    /**
     * Size of this struct; spotwise_height_settlement_init() sets it.
     */
    uint32_t struct_size;
    /**
     * What they say: one of SPOTWISE_HEIGHTS_*.
     */
    uint32_t verdict;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Offset of the surface, at the middle height, from the waist in metres, + away from the lens; NaN unless focus lies
     * within.
     */
    double z_offset_m;
    /**
     * Its standard deviation in metres; NaN unless focus lies within.
     */
    double z_offset_deviation_m;
    /**
     * Least offset: of the coverage asked for where focus lies within, half a step where it lies toward the lens, else NaN.
     */
    double least_z_offset_m;
    /**
     * Greatest offset: of the coverage asked for where focus lies within, less half a step where it lies away from the
     * lens, else NaN.
     */
    double greatest_z_offset_m;
    /**
     * Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
} spotwise_height_settlement;

#if defined(SPOTWISE_ARTWORK)
/**
 * A beam to choose from, say that of another lens, and where its waist would be.
 */
typedef struct spotwise_beam_candidate {
    /**
     * Size of this struct; spotwise_beam_candidate_init() sets it, and that of the beam.
     */
    uint32_t struct_size;
    /**
     * Set to 0.
     */
    uint32_t reserved;
    /**
     * Height of its waist in metres, + away from the lens; range: SPOTWISE_PARAM_FOCUS_Z.
     */
    double focus_z_m;
    /**
     * The focused beam.
     */
    struct spotwise_beam beam;
} spotwise_beam_candidate;

/**
 * The doses between which a drawing keeps what it shows, over the threshold dose: the result of
 * spotwise_dose_window().
 */
typedef struct spotwise_dose_window_result {
    /**
     * Size of this struct; spotwise_dose_window_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Least dose ratio that keeps every stroke; NaN if none does.
     */
    double least_dose_ratio;
    /**
     * Greatest dose ratio that leaves every counter open and neighbours apart; INFINITY if all do.
     */
    double greatest_dose_ratio;
    /**
     * Greatest dose ratio that leaves every counter open; INFINITY if all do.
     */
    double greatest_dose_ratio_for_counters;
    /**
     * greatest_dose_ratio over least_dose_ratio; below 1 no dose keeps all, NaN if none keeps the strokes.
     */
    double ratio;
    /**
     * The same for strokes and counters alone, whether neighbours touch or not.
     */
    double ratio_for_counters;
} spotwise_dose_window_result;

/**
 * What a candidate does for a drawing.
 */
typedef struct spotwise_ranked_beam {
    /**
     * Size of this struct; spotwise_ranked_beam_init() sets it, and that of the window.
     */
    uint32_t struct_size;
    /**
     * Its place among the candidates, from 0 on.
     */
    uint32_t candidate;
    /**
     * Greatest spot DIAMETER over the ink in metres; NaN without ink, and for a beam too fine for the scan lines.
     */
    double greatest_diameter_m;
    /**
     * The doses between which the drawing keeps what it shows.
     */
    struct spotwise_dose_window_result window;
} spotwise_ranked_beam;

/**
 * A drawing: height rows of width 8-bit samples, the first sample of a row row_stride after that of the row before.
 * The centre of the pixel in column i and row j, both from 0, lies at x = drawing_x_m + (i + 1/2) pitch_x_m and
 * y = drawing_y_m + (j + 1/2) pitch_y_m of the surface, as seen along the beam. Outside it there is no ink. The
 * samples stay yours and are only read.
 */
typedef struct spotwise_drawing {
    /**
     * Size of this struct; spotwise_drawing_init() sets it.
     */
    uint32_t struct_size;
    /**
     * What a sample says: one of SPOTWISE_SAMPLES_*.
     */
    uint32_t sample_kind;
    /**
     * What the drawing is: one of SPOTWISE_DRAWING_*.
     */
    uint32_t drawing_use;
    /**
     * Set to 0.
     */
    uint32_t reserved;
    /**
     * From pixel to pixel in metres, along a row; range: SPOTWISE_PARAM_PITCH_X.
     */
    double pitch_x_m;
    /**
     * From row to row in metres; range: SPOTWISE_PARAM_PITCH_Y.
     */
    double pitch_y_m;
    /**
     * Where the left edge of the first column lies in metres; range: SPOTWISE_PARAM_DRAWING_X.
     */
    double drawing_x_m;
    /**
     * Where the upper edge of the first row lies in metres; y grows from row to row; range:
     * SPOTWISE_PARAM_DRAWING_Y.
     */
    double drawing_y_m;
    /**
     * The samples: at least (height - 1) row_stride + width.
     */
    const uint8_t *samples;
    /**
     * Length of samples.
     */
    size_t sample_count;
    /**
     * Pixels in a row; range: SPOTWISE_PARAM_DRAWING_WIDTH, and at most SPOTWISE_PARAM_DRAWING_PIXELS in all.
     */
    size_t width;
    /**
     * Rows; range: SPOTWISE_PARAM_DRAWING_HEIGHT.
     */
    size_t height;
    /**
     * Samples from row to row, at least width; range: SPOTWISE_PARAM_ROW_STRIDE.
     */
    size_t row_stride;
} spotwise_drawing;

/**
 * What exposes a drawing. Heights count + away from the lens, as those of the surface.
 */
typedef struct spotwise_exposing {
    /**
     * Size of this struct; spotwise_exposing_init() sets it, and that of the beam.
     */
    uint32_t struct_size;
    /**
     * What is known of the scan: one of SPOTWISE_SCAN_*.
     */
    uint32_t scan;
    /**
     * 1 if a slope thins the irradiance by the cosine of the incidence angle, as it does, and as
     * spotwise_exposing_init() sets it; 0 to leave that out.
     */
    uint32_t incidence_loss;
    /**
     * Set to 0.
     */
    uint32_t reserved;
    /**
     * Height of the waist in metres; range: SPOTWISE_PARAM_FOCUS_Z.
     */
    double focus_z_m;
    /**
     * What widens the spot along the rows besides focus, as a 1/e^2 DIAMETER in metres; adds by squares; 0 for
     * none; range: SPOTWISE_PARAM_BLUR_ALONG.
     */
    double blur_along_m;
    /**
     * Likewise from row to row; range: SPOTWISE_PARAM_BLUR_ACROSS.
     */
    double blur_across_m;
    /**
     * From one line to the next in metres; for SPOTWISE_SCAN_ALONG_ROWS; range: SPOTWISE_PARAM_LINE_INTERVAL. Lines
     * farther apart than 2.5 of the least spot RADIUS anywhere on the drawing, blur across included, are refused
     * (SPOTWISE_E_OUTSIDE_MODEL): they are strokes rather than a fill, to be drawn as ink with the scan unknown. Of a
     * raster that is burnt as it is the rows are the lines: any interval but pitch_y_m, to one part in a million, is
     * refused (SPOTWISE_E_OUT_OF_RANGE).
     */
    double line_interval_m;
    /**
     * From the upper edge of the drawing to the first line in metres, at most line_interval_m; for
     * SPOTWISE_SCAN_ALONG_ROWS; range: SPOTWISE_PARAM_FIRST_LINE.
     */
    double first_line_m;
    /**
     * The focused beam.
     */
    struct spotwise_beam beam;
    /**
     * The surface on which the drawing lies, set with spotwise_surface_init() and filled in; not NULL. Where it has
     * no height (beside it, or where a probe is missing) the exposure is not known.
     */
    const struct spotwise_surface *surface;
} spotwise_exposing;

/**
 * What answers to the dose, the dose, how far an edge may stray, and what is a speck. Numbers that the response does not name are not
 * read.
 */
typedef struct spotwise_marking {
    /**
     * Size of this struct; spotwise_marking_init() sets it.
     */
    uint32_t struct_size;
    /**
     * What answers: one of SPOTWISE_RESPONSE_*. A melt closes gaps: what a disc of the bridge's diameter cannot enter
     * from the ground is marked as well.
     */
    uint32_t response;
    /**
     * Depth at which the dose has fallen by e, in metres; for SPOTWISE_RESPONSE_LOGARITHMIC_ABLATION; range:
     * SPOTWISE_PARAM_PENETRATION_DEPTH.
     */
    double penetration_depth_m;
    /**
     * Threshold dose over the energy that removes one volume, in metres: the depth that doubling the dose adds to what
     * just marks; for SPOTWISE_RESPONSE_LINEAR_ABLATION; range: SPOTWISE_PARAM_THRESHOLD_DEPTH.
     */
    double threshold_depth_m;
    /**
     * Depth from which on a place counts as marked, in metres, 0 for any, at most ten times the depth before; for
     * both kinds of ablation; range: SPOTWISE_PARAM_VISIBLE_DEPTH.
     */
    double visible_depth_m;
    /**
     * Width of the gaps that close, in metres, at most 508 pixels; 0 for none; for SPOTWISE_RESPONSE_MELT; range:
     * SPOTWISE_PARAM_MELT_BRIDGE.
     */
    double melt_bridge_m;
    /**
     * Dose inside a wide even fill over the dose at which the material just marks; for a preflight at most
     * SPOTWISE_MOST_DOSE_RATIO; range: SPOTWISE_PARAM_ANY_DOSE_RATIO.
     */
    double dose_ratio;
    /**
     * How far an edge may stray before it counts as lost or filled, in metres, at most 254 pixels; a quarter of the
     * waist diameter is a good start; range: SPOTWISE_PARAM_EDGE_TOLERANCE.
     */
    double edge_tolerance_m;
    /**
     * Area below which a piece of ink, or a hole in one, is a speck, in square metres; 0 for none, which
     * spotwise_marking_init() sets. A grain of dust in a scan, or a bare pixel in a letter, is then told of in no count of
     * pieces and holes but that of what is ignored, and plays no part in the grade, the dose window and what would
     * help. Lost and filled regions, centre-lines and widths are those of all pixels. The area is one on the surface, of
     * the drawing as it is; at another scale (spotwise_smallest_scale()) specks stay specks; range:
     * SPOTWISE_PARAM_SPECK_AREA.
     */
    double speck_area_m2;
} spotwise_marking;

/**
 * A function of yours that long work tells how much of it is done, from 0 to 1, never less than before. It returns
 * SPOTWISE_GO_ON, or SPOTWISE_STOP for the call to end with SPOTWISE_E_STOPPED within 50 ms. It gets the pointer
 * `user` that came with it, is called on the thread of the call, every few milliseconds, and must return: it must
 * neither jump out nor throw. NULL stands for none.
 */
typedef uint32_t (*spotwise_tell)(void *user, double done);

/**
 * What bounds the exposure of a drawing, whose masks spotwise_ink_masks() makes. They stay yours and are only read.
 */
typedef struct spotwise_bound_input {
    /**
     * Size of this struct; spotwise_bound_input_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Set to 0.
     */
    uint32_t reserved;
    /**
     * From pixel to pixel in metres, along a row; range: SPOTWISE_PARAM_PITCH_X.
     */
    double pitch_x_m;
    /**
     * From row to row in metres; range: SPOTWISE_PARAM_PITCH_Y.
     */
    double pitch_y_m;
    /**
     * Greatest 1/e^2 DIAMETER of the spot anywhere on the drawing, in metres; range: SPOTWISE_PARAM_SPOT_DIAMETER.
     */
    double greatest_spot_diameter_m;
    /**
     * Least dose ratio anywhere on the drawing: dose in the middle of a wide fill over that at which it marks; range:
     * SPOTWISE_PARAM_ANY_DOSE_RATIO.
     */
    double least_dose_ratio;
    /**
     * Greatest dose ratio anywhere on the drawing, at least the least; range: SPOTWISE_PARAM_ANY_DOSE_RATIO.
     */
    double greatest_dose_ratio;
    /**
     * From one scan line to the next in metres; 0 for an even fill; range: SPOTWISE_PARAM_LINE_INTERVAL, and at most 2.5
     * of the least spot RADIUS.
     */
    double line_interval_m;
    /**
     * Least 1/e^2 DIAMETER of the spot across the lines anywhere on the drawing, in metres, at most the greatest; of an
     * even fill it is not read; range: SPOTWISE_PARAM_SPOT_DIAMETER.
     */
    double least_spot_diameter_m;
    /**
     * Mask of what counts as ink when centre-lines are sought.
     */
    const uint64_t *ink;
    /**
     * Mask of what is ink all over; NULL if it is the same.
     */
    const uint64_t *solid;
    /**
     * Mask of what has any ink in it; NULL if it is the same.
     */
    const uint64_t *touched;
    /**
     * Length of each mask: height times (width + 63) / 64.
     */
    size_t mask_words;
    /**
     * Pixels in a row; range: SPOTWISE_PARAM_DRAWING_WIDTH.
     */
    size_t width;
    /**
     * Rows; range: SPOTWISE_PARAM_DRAWING_HEIGHT.
     */
    size_t height;
} spotwise_bound_input;

/**
 * How much of a drawing is decided without exposure: the result of spotwise_quick_bound().
 */
typedef struct spotwise_quick_bound_result {
    /**
     * Size of this struct; spotwise_quick_bound_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 1 if the drawing holds whatever becomes of what is undecided, but for specks beside edges: all that is doubtful of
     * pieces and holes, and far_ink, are 0. Then no piece is lost or starved, no two come to touch, no hole closes or opens,
     * and all that is surely marked of a piece hangs together. Not shown is that no further speck of a piece comes out
     * beside it, as a part of a split piece; it would lie within a spot diameter of what is surely marked. 0 says nothing:
     * the spot may still do.
     */
    uint32_t holds;
    /**
     * Pixels that are surely marked.
     */
    uint64_t marked;
    /**
     * Pixels that surely stay clear.
     */
    uint64_t clear;
    /**
     * All others.
     */
    uint64_t undecided;
    /**
     * Pixels in the middle of strokes.
     */
    uint64_t stroke_pixels;
    /**
     * Those that are not surely marked.
     */
    uint64_t doubtful_strokes;
    /**
     * Pixels in the middle of gaps.
     */
    uint64_t gap_pixels;
    /**
     * Those that do not surely stay clear.
     */
    uint64_t doubtful_gaps;
    /**
     * Pixels of ink farther than the greatest spot diameter, and half a pixel's diagonal, from whatever is surely marked.
     */
    uint64_t far_ink;
    /**
     * Pieces of the drawing.
     */
    uint32_t components;
    /**
     * Pieces of which no pixel is surely marked.
     */
    uint32_t components_maybe_lost;
    /**
     * Pieces whose surely marked pixels are in two parts or more.
     */
    uint32_t components_maybe_split;
    /**
     * Pieces of what does not surely stay clear that hold two pieces of the drawing or more: these may come to touch.
     */
    uint32_t components_maybe_merged;
    /**
     * Pieces of which less than half of the middle of strokes is surely marked.
     */
    uint32_t components_maybe_starved;
    /**
     * Holes of the drawing.
     */
    uint32_t holes;
    /**
     * Holes of which no pixel surely stays clear.
     */
    uint32_t holes_maybe_closed;
    /**
     * Holes that what is surely marked does not part from the outside.
     */
    uint32_t holes_maybe_opened;
} spotwise_quick_bound_result;

/**
 * The spot over the ink of a drawing, 1/e^2 and without blur.
 */
typedef struct spotwise_ink_spots {
    /**
     * Size of this struct; spotwise_ink_spots_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Pixels with ink.
     */
    uint64_t ink_pixels;
    /**
     * Pixels of the drawing where the surface has no known height.
     */
    uint64_t unknown_pixels;
    /**
     * How many of them have ink.
     */
    uint64_t unknown_ink_pixels;
    /**
     * Least spot DIAMETER over ink in metres; NaN, as all that follow, without any ink of known height.
     */
    double least_diameter_m;
    /**
     * The first pixel that has it, in x; metres on the surface.
     */
    double least_x_m;
    /**
     * That pixel in y.
     */
    double least_y_m;
    /**
     * Greatest spot diameter over ink in metres.
     */
    double greatest_diameter_m;
    /**
     * The first pixel that has it, in x.
     */
    double greatest_x_m;
    /**
     * That pixel in y.
     */
    double greatest_y_m;
} spotwise_ink_spots;

/**
 * The spots of an exposure, and how far to trust it: the result of spotwise_expose() and
 * spotwise_expose_exactly().
 */
typedef struct spotwise_exposure_survey {
    /**
     * Size of this struct; spotwise_exposure_survey_init() sets it, and that of spots.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * 1 if the drawing should be drawn finer to be sure: fewer than 3 pixels in a spot RADIUS for coverage, 8 for
     * bilevel shapes; never of a raster that is burnt as it is.
     */
    uint32_t too_few_pixels;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Fewest pixels in a spot RADIUS, blur included, anywhere on the drawing and in either direction.
     */
    double pixels_per_radius;
    /**
     * Most pixels in a spot radius, blur included.
     */
    double most_pixels_per_radius;
    /**
     * Expected greatest error of the exposure for want of pixels, as a share of full dose.
     */
    double expected_error;
    /**
     * 1/e^2 half angle of the beam in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
    /**
     * The spots over the ink.
     */
    struct spotwise_ink_spots spots;
} spotwise_exposure_survey;

/**
 * A place where ink is lost or ground filled: pixels that hang together over eight neighbours.
 */
typedef struct spotwise_mark_region {
    /**
     * Size of this struct; spotwise_mark_region_init() sets it.
     */
    uint32_t struct_size;
    /**
     * How many pixels it has; 0 if there is no such place.
     */
    uint32_t pixels;
    /**
     * First column of the box around them.
     */
    uint32_t left;
    /**
     * First row of the box.
     */
    uint32_t top;
    /**
     * Last column of the box.
     */
    uint32_t right;
    /**
     * Last row of the box.
     */
    uint32_t bottom;
    /**
     * Column of the worst pixel.
     */
    uint32_t worst_x;
    /**
     * Row of the worst pixel.
     */
    uint32_t worst_y;
    /**
     * From there to the nearest mark where ink is lost, to the nearest unmarked place where ground is filled, in
     * metres.
     */
    double depth_m;
} spotwise_mark_region;

/**
 * A piece or a hole that changed, and where it lies.
 */
typedef struct spotwise_mark_change {
    /**
     * Size of this struct; spotwise_mark_change_init() sets it.
     */
    uint32_t struct_size;
    /**
     * What became of it: one of SPOTWISE_CHANGE_*; 0 if there is no such change.
     */
    uint32_t kind;
    /**
     * Its pixels: those of the drawing, or those of the mark for what is merged or new.
     */
    uint32_t pixels;
    /**
     * First column of the box around these.
     */
    uint32_t left;
    /**
     * First row of the box.
     */
    uint32_t top;
    /**
     * Last column of the box.
     */
    uint32_t right;
    /**
     * Last row of the box.
     */
    uint32_t bottom;
    /**
     * 0.
     */
    uint32_t reserved;
} spotwise_mark_change;

/**
 * The grade of a drawing, and why: the result of spotwise_judge_mark().
 */
typedef struct spotwise_judgement {
    /**
     * Size of this struct; spotwise_judgement_init() sets it.
     */
    uint32_t struct_size;
    /**
     * The grade: one of SPOTWISE_MARK_GRADE_*.
     */
    uint32_t grade;
    /**
     * Why it is no better, and what to know besides: SPOTWISE_MARK_REASON_* bits.
     */
    uint32_t reasons;
    /**
     * 0.
     */
    uint32_t reserved;
} spotwise_judgement;

/**
 * What a mark keeps of its drawing: the result of spotwise_preflight(). Places without a known height count for
 * nothing. Pieces hang together over eight neighbours, holes over four. Widths are NaN where there are none.
 */
typedef struct spotwise_mark_report {
    /**
     * Size of this struct; spotwise_mark_report_init() sets it, and that of spots.
     */
    uint32_t struct_size;
    /**
     * SPOTWISE_VALIDITY_* bits that apply.
     */
    uint32_t validity;
    /**
     * 1 if all holds: no stroke is lost or broken, no counter filled, and neighbours stay apart.
     */
    uint32_t holds;
    /**
     * 1 if strokes are lost or broken.
     */
    uint32_t broken;
    /**
     * 1 if the drawing should be drawn finer to be sure; see spotwise_exposure_survey.
     */
    uint32_t too_few_pixels;
    /**
     * How many places there are where ink is lost: farther than the tolerance from any mark.
     */
    uint32_t lost_regions;
    /**
     * How many there are where ground is filled: farther than the tolerance from any unmarked place.
     */
    uint32_t filled_regions;
    /**
     * How many pieces and holes changed.
     */
    uint32_t changes;
    /**
     * Pieces of the drawing.
     */
    uint32_t components_drawing;
    /**
     * Pieces of the mark.
     */
    uint32_t components_mark;
    /**
     * Pieces of the drawing of which no pixel is marked.
     */
    uint32_t components_lost;
    /**
     * Pieces of the drawing that are marked in two pieces or more.
     */
    uint32_t components_split;
    /**
     * Pieces of the mark that join two pieces of the drawing or more.
     */
    uint32_t components_merged;
    /**
     * Pieces of the mark in which no pixel is drawn.
     */
    uint32_t components_new;
    /**
     * Pieces that are not ignored of which less than half of the centre-line is marked.
     */
    uint32_t components_starved;
    /**
     * Holes of the drawing.
     */
    uint32_t holes_drawing;
    /**
     * Holes of the mark.
     */
    uint32_t holes_mark;
    /**
     * Holes of the drawing of which every pixel is marked.
     */
    uint32_t holes_closed;
    /**
     * Holes of the drawing that are open to the outside in the mark.
     */
    uint32_t holes_opened;
    /**
     * Holes of the drawing that are parted in the mark, none of their parts open to the outside.
     */
    uint32_t holes_split;
    /**
     * Holes of the mark that join two holes of the drawing or more.
     */
    uint32_t holes_merged;
    /**
     * Holes of the mark that share no pixel with a hole of the drawing.
     */
    uint32_t holes_new;
    /**
     * Pieces of the drawing that are specks, smaller than speck_area_m2 of spotwise_marking. What is ignored is counted in
     * none of the pieces, holes and changes above.
     */
    uint32_t components_ignored_drawing;
    /**
     * Pieces of the mark that share pixels with specks of the drawing alone, or with nothing drawn and are specks.
     */
    uint32_t components_ignored_mark;
    /**
     * Holes of the drawing that are specks.
     */
    uint32_t holes_ignored_drawing;
    /**
     * Holes of the mark that share pixels with holes of the drawing that are specks alone, or with no hole and are specks.
     */
    uint32_t holes_ignored_mark;
    /**
     * Pixels with ink.
     */
    uint64_t ink_pixels;
    /**
     * Pixels that are marked.
     */
    uint64_t mark_pixels;
    /**
     * Pixels with ink that are not marked.
     */
    uint64_t missing_pixels;
    /**
     * Marked pixels without ink.
     */
    uint64_t extra_pixels;
    /**
     * Pixels of all lost regions.
     */
    uint64_t lost_pixels;
    /**
     * Pixels of all filled regions.
     */
    uint64_t filled_pixels;
    /**
     * Pixels of the centre-lines of strokes.
     */
    uint64_t stroke_centre_pixels;
    /**
     * How many of them are marked.
     */
    uint64_t stroke_centres_kept;
    /**
     * Pixels of the centre-lines of gaps.
     */
    uint64_t gap_centre_pixels;
    /**
     * How many of them stay clear.
     */
    uint64_t gap_centres_kept;
    /**
     * Share of the strokes' length that is lost, 0 to 1; 0 without any.
     */
    double stroke_length_lost;
    /**
     * Share of the gaps' length that is filled, 0 to 1; 0 without any.
     */
    double gap_length_lost;
    /**
     * Area of one pixel in square metres.
     */
    double pixel_area_m2;
    /**
     * How far an edge may stray before it counts as lost or filled, in metres.
     */
    double edge_tolerance_m;
    /**
     * Smallest stroke in metres from which on nothing is lost.
     */
    double smallest_stroke_kept_m;
    /**
     * Largest stroke in metres up to which nothing is kept.
     */
    double largest_stroke_lost_m;
    /**
     * Smallest gap in metres from which on nothing is filled.
     */
    double smallest_gap_kept_m;
    /**
     * Largest gap in metres up to which nothing stays clear.
     */
    double largest_gap_lost_m;
    /**
     * Median over the centre-lines of strokes of the exposure relative to a wide even fill.
     */
    double typical_stroke_exposure;
    /**
     * Fewest pixels in a spot RADIUS.
     */
    double pixels_per_radius;
    /**
     * Expected greatest error of the exposure for want of pixels, as a share of full dose.
     */
    double expected_error;
    /**
     * 1/e^2 half angle of the beam in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
     */
    double half_angle_rad;
    /**
     * The spots over the ink.
     */
    struct spotwise_ink_spots spots;
} spotwise_mark_report;

/**
 * What a picture shows: masks as those of spotwise_ink_masks() and spotwise_preflight(), which stay yours and are
 * only read.
 */
typedef struct spotwise_picture_layers {
    /**
     * Size of this struct; spotwise_picture_layers_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Set to 0.
     */
    uint32_t reserved;
    /**
     * What is to be marked.
     */
    const uint64_t *ink;
    /**
     * What will be marked.
     */
    const uint64_t *mark;
    /**
     * Ink that is lost.
     */
    const uint64_t *lost;
    /**
     * Ground that is filled.
     */
    const uint64_t *filled;
    /**
     * Where the height is unknown, as spotwise_unknown_mask() says; NULL for nowhere.
     */
    const uint64_t *unknown;
    /**
     * Length of each mask: height times (width + 63) / 64.
     */
    size_t mask_words;
    /**
     * Pixels in a row; range: SPOTWISE_PARAM_DRAWING_WIDTH.
     */
    size_t width;
    /**
     * Rows; range: SPOTWISE_PARAM_DRAWING_HEIGHT.
     */
    size_t height;
} spotwise_picture_layers;

/**
 * Which pixels of the drawing a picture shows, and how large. The picture has width * zoom by height * zoom pixels.
 */
typedef struct spotwise_picture_view {
    /**
     * Size of this struct; spotwise_picture_view_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Set to 0.
     */
    uint32_t reserved;
    /**
     * First column shown.
     */
    size_t left;
    /**
     * First row shown.
     */
    size_t top;
    /**
     * Columns shown; range: SPOTWISE_PARAM_DRAWING_WIDTH.
     */
    size_t width;
    /**
     * Rows shown; range: SPOTWISE_PARAM_DRAWING_HEIGHT.
     */
    size_t height;
    /**
     * Pixels of the picture along each side of one of the drawing, at least 1; all of the picture's pixels together
     * are at most SPOTWISE_PARAM_DRAWING_PIXELS.
     */
    size_t zoom;
} spotwise_picture_view;

/**
 * Where spotwise_preflight() writes what it finds. The arrays are yours; they must be apart from each other, from the
 * workspace and from every input.
 */
typedef struct spotwise_preflight_output {
    /**
     * Size of this struct; spotwise_preflight_output_init() sets it.
     */
    uint32_t struct_size;
    /**
     * Set to 0.
     */
    uint32_t reserved;
    /**
     * The exposure of every pixel, as that of spotwise_expose().
     */
    uint16_t *exposure;
    /**
     * The mark, a mask as that of spotwise_ink_masks().
     */
    uint64_t *mark;
    /**
     * Mask of the ink that is lost beyond the tolerance.
     */
    uint64_t *lost;
    /**
     * Mask of the ground that is filled beyond the tolerance.
     */
    uint64_t *filled;
    /**
     * Places where ink is lost, those of most pixels first; each set with spotwise_mark_region_init(). As many as find
     * room are written; spotwise_mark_report tells how many there are.
     */
    struct spotwise_mark_region *lost_region;
    /**
     * Places where ground is filled, likewise.
     */
    struct spotwise_mark_region *filled_region;
    /**
     * Pieces and holes that changed, kind by kind; each set with spotwise_mark_change_init(). As many as find room.
     */
    struct spotwise_mark_change *change;
    /**
     * Length of exposure: width times height.
     */
    size_t pixels;
    /**
     * Length of each of the three masks: height times (width + 63) / 64.
     */
    size_t mask_words;
    /**
     * Length of lost_region; may be 0.
     */
    size_t lost_region_count;
    /**
     * Length of filled_region; may be 0.
     */
    size_t filled_region_count;
    /**
     * Length of change; may be 0.
     */
    size_t change_count;
} spotwise_preflight_output;

/**
 * What distances alone say of a preflight: the result of spotwise_quick_answer(). Of pieces and holes specks are left out,
 * and what lies where no height is known.
 *
 * The least mark that may come out is looked at first, then the greatest, then what is far and what is starved. Where one
 * of these leaves a doubt that the next cannot take away, it is not looked at: what it would tell stays 0.
 */
typedef struct spotwise_quick_answer_result {
    /**
     * Size of this struct; spotwise_quick_answer_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * What is sure: one of SPOTWISE_QUICK_*.
     */
    uint32_t verdict;
    /**
     * Pixels with ink where no height is known: nothing is said of them.
     */
    uint64_t unknown_ink_pixels;
    /**
     * Pixels of ink farther than the greatest spot DIAMETER, and half a pixel's diagonal, from whatever is surely marked.
     */
    uint64_t far_ink;
    /**
     * Pieces of the drawing.
     */
    uint32_t components;
    /**
     * Pieces that are surely lost.
     */
    uint32_t components_lost;
    /**
     * Pieces that may be lost, those that surely are included, as in all that follow.
     */
    uint32_t components_maybe_lost;
    /**
     * Pieces whose surely marked pixels are in two parts or more.
     */
    uint32_t components_maybe_split;
    /**
     * Pieces of the least mark that join two pieces of the drawing or more: these surely come to touch.
     */
    uint32_t components_merged;
    /**
     * Pieces of the greatest mark that join two pieces of the drawing or more.
     */
    uint32_t components_maybe_merged;
    /**
     * Pieces of which less than half of the middle of strokes is surely marked.
     */
    uint32_t components_maybe_starved;
    /**
     * Holes of the drawing.
     */
    uint32_t holes;
    /**
     * Holes that surely close.
     */
    uint32_t holes_closed;
    /**
     * Holes that may close.
     */
    uint32_t holes_maybe_closed;
    /**
     * Holes that surely open to the outside.
     */
    uint32_t holes_opened;
    /**
     * Holes that may open.
     */
    uint32_t holes_maybe_opened;
    /**
     * Greatest 1/e^2 DIAMETER of the spot anywhere on the drawing and in either direction, in metres, blur included; this
     * and the numbers that follow are what spotwise_bound_input takes.
     */
    double greatest_spot_diameter_m;
    /**
     * Least 1/e^2 DIAMETER of the spot across the rows, likewise.
     */
    double least_spot_diameter_m;
    /**
     * Least dose ratio over the dose that shows, with what an exposure may be off taken off.
     */
    double least_dose_ratio;
    /**
     * Greatest dose ratio, with what an exposure may be off added.
     */
    double greatest_dose_ratio;
    /**
     * From one scan line to the next in metres; 0 for an even fill.
     */
    double line_interval_m;
} spotwise_quick_answer_result;

/**
 * How far focus may be moved before the drawing no longer holds: the result of spotwise_focus_reach().
 */
typedef struct spotwise_focus_reach_result {
    /**
     * Size of this struct; spotwise_focus_reach_result_init() sets it.
     */
    uint32_t struct_size;
    /**
     * 1 if it held as far toward the lens as was tried.
     */
    uint32_t toward_lens_is_open;
    /**
     * 1 if it held as far away from the lens as was tried.
     */
    uint32_t away_from_lens_is_open;
    /**
     * 0.
     */
    uint32_t reserved;
    /**
     * Farthest that the waist may lie nearer to the lens than it is, in metres; NaN if the drawing does not hold as it
     * is.
     */
    double toward_lens_m;
    /**
     * Farthest that it may lie farther from the lens; NaN likewise.
     */
    double away_from_lens_m;
} spotwise_focus_reach_result;
#endif

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
 * for a Gaussian (Schell-model) profile without clipping, so for singlets close to each other, whose
 * wavefront errors are added, and not quite for one behind a focus. The aberration of a window counts for the
 * flags alone. Flat mirrors change nothing: leave them out. Clipping, tilt, thickness and the aberration of
 * expanders are not modelled. An empty path returns the raw beam.
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
 * Sets struct_size, every number to a quiet NaN and every count to 0. NULL does nothing.
 */
void spotwise_height_map_init(struct spotwise_height_map *map);

/**
 * Sets struct_size, every number to a quiet NaN and every count to 0. NULL does nothing.
 */
void spotwise_focus_mask_init(struct spotwise_focus_mask *mask);

/**
 * A map of what a beam does on a surface of many heights: out[i] belongs to z_m[i].
 *
 * Growth, diameter, irradiance and line dose as spotwise_defocus() tells them, the smallest stroke as
 * the bar of spotwise_smallest_details(). Each height is taken by itself, as if the surface were level
 * there, and gives the same bits whatever the length of the map; diameters about a focus_z_m of 0 are
 * the bits of spotwise_beam_at(). A place that was not measured is NaN, and stays NaN. Slopes, light
 * that is shaded by walls, and what lies between the places are not modelled.
 *
 * @param[in]  beam       beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  focus_z_m  height of the waist in metres, from the datum of the heights, + away from the
 *                        lens; range: SPOTWISE_PARAM_FOCUS_Z.
 * @param[in]  quantity   one of the SPOTWISE_HEIGHT_* constants.
 * @param[in]  dose_ratio fill dose over the dose at which the material just marks; read only for
 *                        SPOTWISE_HEIGHT_SMALLEST_STROKE; range: SPOTWISE_PARAM_DOSE_RATIO.
 * @param[in]  z_m        count heights in metres, + away from the lens, or NaN; not NULL unless count
 *                        is 0; range: SPOTWISE_PARAM_Z.
 * @param[in]  count      length of both arrays; may be 0.
 * @param[out] out        count numbers, lengths in metres; not NULL unless count is 0. It must not
 *                        overlap z_m. On any status other than SPOTWISE_OK all of it is set to quiet
 *                        NaNs, but for a count that no array can have: then nothing is written to it.
 * @param[out] map        result; set with spotwise_height_map_init(); not NULL. On any status other
 *                        than SPOTWISE_OK its numbers are set to a quiet NaN, its counts and flags to 0.
 * @param[out] error      what was refused, which of z_m is the first one; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP,
 *         SPOTWISE_E_LENGTH_MISMATCH (count is more than memory can hold), SPOTWISE_E_UNKNOWN_CHOICE,
 *         SPOTWISE_E_NOT_FINITE (of z_m: infinite), SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL
 *         (half angle above 0.3 rad).
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: a beam of 10.6 um, M^2 = 1.2 and a waist of 88 um, in focus at 0.2 mm: at 0.7 mm the growth
 *          is 1.4469.
 * Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory; the rest as there.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_map_heights(const struct spotwise_beam *beam,
                                     double focus_z_m,
                                     uint32_t quantity,
                                     double dose_ratio,
                                     const double *z_m,
                                     size_t count,
                                     double *out,
                                     struct spotwise_height_map *map,
                                     struct spotwise_error *error);

/**
 * Which places of a surface are in focus by a criterion: in_focus[i] belongs to z_m[i].
 *
 * A height is in focus from one end of spotwise_depth_of_focus() about focus_z_m to the other, both
 * included. A place that was not measured (NaN) is not.
 *
 * @param[in]  beam      beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  focus_z_m height of the waist in metres, from the datum of the heights, + away from the
 *                       lens; range: SPOTWISE_PARAM_FOCUS_Z.
 * @param[in]  criterion what counts as in focus; set with spotwise_depth_criterion_init(); not NULL.
 * @param[in]  z_m       count heights in metres, + away from the lens, or NaN; not NULL unless count is
 *                       0; range: SPOTWISE_PARAM_Z.
 * @param[in]  count     length of both arrays; may be 0.
 * @param[out] in_focus  count numbers, 1 for a place that is in focus, else 0; not NULL unless count is
 *                       0. It must not overlap z_m. On any status other than SPOTWISE_OK all of it is
 *                       set to 0, but for a count that no array can have: then nothing is written to it.
 * @param[out] mask      result; set with spotwise_focus_mask_init(); not NULL. On any status other than
 *                       SPOTWISE_OK its numbers are set to a quiet NaN, its counts and flags to 0.
 * @param[out] error     what was refused, which of z_m is the first one; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP,
 *         SPOTWISE_E_LENGTH_MISMATCH (count is more than memory can hold), SPOTWISE_E_UNKNOWN_CHOICE,
 *         SPOTWISE_E_NOT_FINITE (of z_m: infinite), SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL
 *         (half angle above 0.3 rad), SPOTWISE_E_UNREACHABLE (largest diameter below the waist).
 *
 * Accuracy: the ends at most 0.75 ulp (units in the last place) of the exact result; each yes or no is
 *           exact for the ends that are given.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: H. Kogelnik, T. Li, Applied Optics 5, 1550 (1966), from memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_in_focus_mask(const struct spotwise_beam *beam,
                                       double focus_z_m,
                                       const struct spotwise_depth_criterion *criterion,
                                       const double *z_m,
                                       size_t count,
                                       uint8_t *in_focus,
                                       struct spotwise_focus_mask *mask,
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
void spotwise_scan_lens_init(struct spotwise_scan_lens *lens);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_scan_field_spot_init(struct spotwise_scan_field_spot *spot);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_scan_field_extent_result_init(struct spotwise_scan_field_extent_result *extent);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_scan_field_focus_result_init(struct spotwise_scan_field_focus_result *focus);

/**
 * The spot at a place of the field of a scan head, on a flat table.
 *
 * Field angle by r = f theta; both focal surfaces and the ratio of spots go with the square of the
 * radius, the angle of incidence with the radius; on the table the spot is longer along the radius by
 * 1/cos of that angle. Not modelled: curvature of higher order, coma, distortion, light that is cut
 * off, and the distance between the two mirrors. C does not notice if two of the three
 * lengths are swapped.
 *
 * @param[in]  beam       beam at its focus on the axis; set with spotwise_beam_init(); not NULL.
 * @param[in]  lens       lens; set with spotwise_scan_lens_init(); not NULL.
 * @param[in]  field_x_m  place from the middle of the field in metres; range: SPOTWISE_PARAM_FIELD_X.
 * @param[in]  field_y_m  place from the middle of the field in metres; range: SPOTWISE_PARAM_FIELD_Y.
 * @param[in]  z_offset_m table, from the focus on the axis in metres, + away from the lens; range:
 *                        SPOTWISE_PARAM_Z_OFFSET.
 * @param[out] spot       result; set with spotwise_scan_field_spot_init(); not NULL. On any status
 *                        other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error      what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad; a field angle
 *         above 1.2 rad at the edge; a place outside the field, as SPOTWISE_PARAM_RADIUS).
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: a beam of 1.064 um, M^2 = 1.3 and 60 um, 35 mm into a field of 70 mm whose tangential focus
 *          at the edge is 1 mm high and whose incidence there is 0.25 rad: 1.01549 times as long.
 * Source: W. J. Smith, Modern Optical Engineering, from memory; the rest derived by the authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_scan_field_at(const struct spotwise_beam *beam,
                                       const struct spotwise_scan_lens *lens,
                                       double field_x_m,
                                       double field_y_m,
                                       double z_offset_m,
                                       struct spotwise_scan_field_spot *spot,
                                       struct spotwise_error *error);

/**
 * How far from the middle of its field a scan head keeps the spot within a growth, on a flat table.
 *
 * From the middle outward up to the first place where either diameter is growth_ratio times the waist
 * on the axis. The search goes by bounds that hold for whole rings, so that it steps over no place.
 * Where growth hardly changes along the radius, |d ln(g^2 - 1)/d ln r| below about 0.01, the answer may
 * be smaller than it could be, never larger.
 *
 * @param[in]  beam         beam at its focus on the axis; set with spotwise_beam_init(); not NULL.
 * @param[in]  lens         lens; set with spotwise_scan_lens_init(); not NULL.
 * @param[in]  z_offset_m   table, from the focus on the axis in metres, + away from the lens; range:
 *                          SPOTWISE_PARAM_Z_OFFSET.
 * @param[in]  growth_ratio spot diameter over waist diameter on the axis, at most; range:
 *                          SPOTWISE_PARAM_GROWTH_RATIO.
 * @param[out] extent       result; set with spotwise_scan_field_extent_result_init(); not NULL. On any
 *                          status other than SPOTWISE_OK its numbers are set to a quiet NaN, its flags
 *                          to 0.
 * @param[out] error        what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad; a field angle
 *         above 1.2 rad at the edge), SPOTWISE_E_UNREACHABLE (the spot in the middle is larger already).
 *
 * Accuracy: radius and side at most 8 ulp (units in the last place) times 1 + 1/|d ln(g^2 - 1)/d ln r|,
 *           g being the growth and r the radius.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: as spotwise_scan_field_at(); the search by the authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_scan_field_extent(const struct spotwise_beam *beam,
                                           const struct spotwise_scan_lens *lens,
                                           double z_offset_m,
                                           double growth_ratio,
                                           struct spotwise_scan_field_extent_result *extent,
                                           struct spotwise_error *error);

/**
 * The best height of a flat table for the field of a scan head, or the part of it within a radius.
 *
 * No other height makes the largest spot smaller. Under a telecentric lens with an edge_spot_ratio of 1 it is
 * halfway between the highest and the lowest focus, so that the greatest defocus is least. The largest of the
 * three growths that are told is then that of the whole field.
 *
 * @param[in]  beam     beam at its focus on the axis; set with spotwise_beam_init(); not NULL.
 * @param[in]  lens     lens; set with spotwise_scan_lens_init(); not NULL.
 * @param[in]  radius_m radius of the part that is used in metres, at most field_radius_m; range:
 *                      SPOTWISE_PARAM_RADIUS.
 * @param[out] focus    result; set with spotwise_scan_field_focus_result_init(); not NULL. On any status
 *                      other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error    what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad; a field angle
 *         above 1.2 rad at the edge).
 *
 * Accuracy: halfway, height and defocus are within 0.75 ulp (units in the last place) of the exact result, the rest
 *           within 4 ulp; else all within 4 ulp and what 8 ulp of the square of the growth, less one, make of
 *           the height.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: as spotwise_scan_field_at().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_scan_field_focus(const struct spotwise_beam *beam,
                                          const struct spotwise_scan_lens *lens,
                                          double radius_m,
                                          struct spotwise_scan_field_focus_result *focus,
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
 * Irradiance and dose are over those in that waist. The beam is taken for a hyperbola about it: its
 * diameter is exact for second moments; for 86.5 % of the power the growth off focus is off by as much as
 * SPOTWISE_VALIDITY_ABERRATED says. Irradiance and dose are those of a Gaussian beam by either measure;
 * SPOTWISE_VALIDITY_GAUSSIAN_OFF_FOCUS says how far they are off. The result carries the flags of the lens, its aperture and its focus,
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
 * or 1.1 % shorter at a grazing ratio of 0.2, 6.0 % or 7.7 % at 0.5, 14.8 % or 24.9 % at 0.9. The line
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
 * Sets struct_size, codes and flags to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_caustic_crossing_result_init(struct spotwise_caustic_crossing_result *crossing);

/**
 * Which of two beams with their waists at one height has the smaller spot, and the offset beyond which it
 * is the other.
 *
 * Two lenses on one beam: the shorter one has the smaller spot in focus and the larger one beyond the
 * crossing, sqrt(zR1 zR2) from the waist if both lenses are ideal. On a surface whose heights span twice
 * that, with focus at mid-height, their worst spots are equal. That one beam is the sharper everywhere is no
 * error but a finding: offset_m is then NaN.
 *
 * @param[in]  first    a beam; set with spotwise_beam_init(); not NULL.
 * @param[in]  second   another; set with spotwise_beam_init(); not NULL. Its wavelength may differ.
 * @param[out] crossing result; set with spotwise_caustic_crossing_result_init(); not NULL. On any status
 *                      other than SPOTWISE_OK its numbers are set to a quiet NaN, codes and flags to 0.
 * @param[out] error    what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad), for the first
 *         beam, then for the second.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: waists of 85 and 142 um at 10.6 um with M^2 = 1: Rayleigh ranges 535.3 and 1494.0 um,
 *          crossing at 894 um.
 * Source: derived by the authors from spotwise_beam_at().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_caustic_crossing(const struct spotwise_beam *first,
                                          const struct spotwise_beam *second,
                                          struct spotwise_caustic_crossing_result *crossing,
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
 * The finest bar, gap, dot, hole and square that a spot holds in a dense raster, and the shift of an edge.
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
 * Accuracy: at most 4 ulp (units in the last place) of the exact result, the square at most 5 ulp.
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
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_contrast_pitch_init(struct spotwise_contrast_pitch *pitch);

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
 * Pitches at which a sine pattern, and equal bars and gaps, keep this contrast.
 *
 * @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
 *                             SPOTWISE_PARAM_SPOT_DIAMETER.
 * @param[in]  contrast        contrast to keep, above 0 and below 1; range:
 *                             SPOTWISE_PARAM_CONTRAST.
 * @param[out] pitch           result; set with spotwise_contrast_pitch_init(); not NULL. On any status
 *                             other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: derived by the authors, as spotwise_contrast_at_pitch().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_pitch_for_contrast(double spot_diameter_m,
                                            double contrast,
                                            struct spotwise_contrast_pitch *pitch,
                                            struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_scan_init(struct spotwise_scan *scan);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_scan_dose_result_init(struct spotwise_scan_dose_result *dose);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_pulse_dose_result_init(struct spotwise_pulse_dose_result *dose);

/**
 * Line dose, fill dose, peak irradiance and dwell of a scan.
 *
 * Line dose sqrt(2/pi) P/(v w), fill dose P/(v p), peak irradiance 2 P/(pi w w'), dwell sqrt(pi/2)
 * w'/v, w and w' being half the diameters across and along. A continuous beam and the mean of a
 * pulsed one are told alike; for single pulses see spotwise_pulse_dose(). Reflection, absorption
 * and losses behind the power that is given are not modelled.
 *
 * @param[in]  scan  scan to read; set with spotwise_scan_init(); not NULL.
 * @param[out] dose  result; set with spotwise_scan_dose_result_init(); not NULL. On any status
 *                   other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 20 W at 0.5 m/s, lines 50 um apart: a fill dose of 0.8 J/mm^2.
 * Source: derived by the authors, a Gaussian irradiance added up along the line, over the surface
 *         and over time.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_scan_dose(const struct spotwise_scan *scan,
                                   struct spotwise_scan_dose_result *dose,
                                   struct spotwise_error *error);

/**
 * Energy, fluence, pitch and overlap of the pulses of a scan.
 *
 * Pulse energy P/f, peak fluence 2 E/(pi w w'), pulse pitch v/f, overlap 1 - pitch/diameter along,
 * effective pulses sqrt(pi/2) w'/pitch. They are also counted as one diameter over the pitch
 * (common practice, no source), which is 1.6 times as many. The scallop that the dots leave is
 * told by spotwise_pulsed_line(), the ripple of the dose along the line by
 * spotwise_raster_ripple() with the pulse pitch as interval.
 *
 * @param[in]  scan               scan to read; set with spotwise_scan_init(); not NULL.
 * @param[in]  repetition_rate_hz pulses in a second; range: SPOTWISE_PARAM_REPETITION_RATE.
 * @param[out] dose               result; set with spotwise_pulse_dose_result_init(); not NULL. On
 *                                any status other than SPOTWISE_OK its numbers are set to a quiet
 *                                NaN.
 * @param[out] error              what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE (the scan before the repetition rate).
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result; the overlap, where it is
 *           small, at most 4 ulp times 1/|overlap|.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 20 W in 50 000 pulses a second at 1 m/s, spot 50 um: 0.4 mJ, 40.74 J/cm^2, pitch 20 um,
 *          overlap 0.6.
 * Source: as spotwise_scan_dose().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_pulse_dose(const struct spotwise_scan *scan,
                                    double repetition_rate_hz,
                                    struct spotwise_pulse_dose_result *dose,
                                    struct spotwise_error *error);

/**
 * Dose over the dose at which a material just marks: the handle of all else here.
 *
 * Above 1 the material marks. Dose and threshold must be of one kind: line doses, fill doses or
 * peak fluences. C does not notice if they are swapped.
 *
 * @param[in]  dose_j_per_m2      dose in J/m^2; range: SPOTWISE_PARAM_DOSE.
 * @param[in]  threshold_j_per_m2 dose at which the material just marks in J/m^2; range:
 *                                SPOTWISE_PARAM_THRESHOLD.
 * @param[out] dose_ratio         dose ratio; not NULL. On any status other than SPOTWISE_OK it is
 *                                set to a quiet NaN.
 * @param[out] error              what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 0.5 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 0.8 J/mm^2 where the material marks from 0.32 J/mm^2 on: 2.5.
 * Source: the definition.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_dose_over_threshold(double dose_j_per_m2,
                                             double threshold_j_per_m2,
                                             double *dose_ratio,
                                             struct spotwise_error *error);

/**
 * Line interval of so many lines (dots) to the inch: 25.4 mm over their number.
 *
 * @param[in]  dots_per_inch   lines to the inch; range: SPOTWISE_PARAM_DOTS_PER_INCH.
 * @param[out] line_interval_m from one line to the next in metres; not NULL. On any status other
 *                             than SPOTWISE_OK it is set to a quiet NaN.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 1 ulp (unit in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 500 lines to the inch: 50.8 um.
 * Source: the inch is 25.4 mm exactly (international yard and pound agreement, 1959).
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_line_interval(double dots_per_inch,
                                       double *line_interval_m,
                                       struct spotwise_error *error);

/**
 * Lines (dots) to the inch of a line interval, the inverse of spotwise_line_interval().
 *
 * @param[in]  line_interval_m from one line to the next in metres; range:
 *                             SPOTWISE_PARAM_LINE_INTERVAL.
 * @param[out] dots_per_inch   lines to the inch; not NULL. On any status other than SPOTWISE_OK it
 *                             is set to a quiet NaN.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 1 ulp (unit in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 50.8 um: 500 lines to the inch.
 * Source: as spotwise_line_interval().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_dots_per_inch(double line_interval_m,
                                       double *dots_per_inch,
                                       struct spotwise_error *error);

/**
 * Sets struct_size, the response to 0, which is none, and every number to a quiet NaN. NULL does
 * nothing.
 */
void spotwise_material_init(struct spotwise_material *material);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_material_mark_result_init(struct spotwise_material_mark_result *mark);

/**
 * What a dose does to a material, and the spot as the material sees it.
 *
 * The threshold of N exposures is that of one times N^(S - 1). A coating is gone above it, and no
 * more dose changes that; a bulk is ablated to the depth l ln(q), or (H - threshold)/h; a melt
 * sees the spot widened by heat, sqrt(d^2 + 32 k t). Coatings in which the doses of neighbouring
 * lines add up only in part, plumes and recoil are not modelled.
 *
 * @param[in]  material        material to read; set with spotwise_material_init(); not NULL.
 * @param[in]  dose_j_per_m2   dose H of each exposure of one place in J/m^2, such as the fluence of one
 *                             pulse or the dose of one pass; range: SPOTWISE_PARAM_DOSE.
 * @param[in]  exposures       how many exposures N, at least 1; range: SPOTWISE_PARAM_PULSES.
 * @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
 *                             SPOTWISE_PARAM_SPOT_DIAMETER.
 * @param[in]  dwell_s         dwell t of the scan in seconds, see spotwise_scan_dose(); it and the
 *                             spot matter only to a melt; range: SPOTWISE_PARAM_DWELL.
 * @param[out] mark            result; set with spotwise_material_mark_result_init(); not NULL. On
 *                             any status other than SPOTWISE_OK its numbers are set to a quiet
 *                             NaN, its codes and flags to 0.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
 *         response), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: seen diameter at most 4 ulp (units in the last place) of the exact result; threshold
 *           and dose ratio at most 4 ulp times 1 + (1 - S) ln N; depth at most 4 ulp times that
 *           and times 1 + q/(q - 1) with incubation, 2 without.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 4 times a threshold of 0.5 J/mm^2, at 2 nm for each e-fold: 2.7726 nm deep.
 * Source: logarithmic ablation from Beer and Lambert's law; incubation: Y. Jee, M. F. Becker, R.
 *         M. Walser, J. Opt. Soc. Am. B 5, 648 (1988), an empirical law, from memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_material_mark(const struct spotwise_material *material,
                                       double dose_j_per_m2,
                                       double exposures,
                                       double spot_diameter_m,
                                       double dwell_s,
                                       struct spotwise_material_mark_result *mark,
                                       struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_fill_width_result_init(struct spotwise_fill_width_result *fill);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_fill_limits_result_init(struct spotwise_fill_limits_result *limits);

/**
 * Width of a long filled stroke at an offset from the waist.
 *
 * The width 2 y at whose edges q (erf(sqrt(2) (y + h)/w) - erf(sqrt(2) (y - h)/w))/2 = 1, h being
 * half the drawn width and w half the spot diameter. The fill dose does not change with focus,
 * only the blur does. A stroke that is lost is no error: the width is then 0 and marks 0; so it is for
 * every stroke below a dose ratio of 1.000001. The fill is taken for even; neighbours and heat are not
 * modelled. C does not notice if drawn width and offset are swapped.
 *
 * @param[in]  beam          beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  drawn_width_m width of the stroke as it is drawn in metres; range:
 *                           SPOTWISE_PARAM_DRAWN_WIDTH.
 * @param[in]  dose_ratio    fill dose over the dose at which the material just marks; range:
 *                           SPOTWISE_PARAM_ANY_DOSE_RATIO.
 * @param[in]  z_offset_m    offset of the surface from the waist in metres, + away from the lens;
 *                           range: SPOTWISE_PARAM_Z_OFFSET.
 * @param[out] fill          result; set with spotwise_fill_width_result_init(); not NULL. On any
 *                           status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
 *                           codes and flags to 0.
 * @param[out] error         what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
 *
 * Accuracy: width and growth at most 8 ulp (units in the last place) of the larger of drawn width
 *           and spot, and times that over the width where the stroke comes out narrower: about to
 *           vanish, its width hangs on the last digit of the dose. Exposure at most 4 ulp of the
 *           exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 1 mm at 2.7 times the threshold under a spot of 88 um: 14.558 um wider than drawn.
 * Source: derived by the authors, a strip convolved with a Gaussian spot.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_fill_width(const struct spotwise_beam *beam,
                                    double drawn_width_m,
                                    double dose_ratio,
                                    double z_offset_m,
                                    struct spotwise_fill_width_result *fill,
                                    struct spotwise_error *error);

/**
 * Where a long filled stroke is widest and where it vanishes.
 *
 * It vanishes where the spot is sqrt(2) a/erfinv(1/q) wide, a being the drawn width. Up to q = 2
 * it is widest in the waist. Below q = 1.000001 no stroke marks at any height, which is no error: marks
 * is then 0. C does not notice if drawn width and dose ratio are swapped.
 *
 * @param[in]  beam          beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  drawn_width_m width of the stroke as it is drawn in metres; range:
 *                           SPOTWISE_PARAM_DRAWN_WIDTH.
 * @param[in]  dose_ratio    fill dose over the dose at which the material just marks; range:
 *                           SPOTWISE_PARAM_ANY_DOSE_RATIO.
 * @param[out] limits        result; set with spotwise_fill_limits_result_init(); not NULL. On any
 *                           status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
 *                           codes and flags to 0.
 * @param[out] error         what was refused; may be NULL.
 * @return as spotwise_fill_width().
 *
 * Accuracy: the width in the waist as that of spotwise_fill_width(); the greatest width, off the
 *           waist, at most 16 ulp (units in the last place) of the exact result; offsets at most
 *           16 ulp times r^2/(r^2 - 1), r being the growth of the spot there.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 100 um at twice the threshold, 10.6 um, M^2 = 1.2, waist 88 um: lost beyond 1.5386 mm.
 * Source: as spotwise_fill_width().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_fill_limits(const struct spotwise_beam *beam,
                                     double drawn_width_m,
                                     double dose_ratio,
                                     struct spotwise_fill_limits_result *limits,
                                     struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_mark_width_result_init(struct spotwise_mark_width_result *mark);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_mark_limits_result_init(struct spotwise_mark_limits_result *limits);

/**
 * Width of the mark of one pulse or line at an offset from the waist.
 *
 * d sqrt(L/2) with L = ln(q) - n ln(g), g being the growth of the spot and n 2 for a pulse, 1 for
 * a line. No mark is no error: the width is then 0 and marks 0. Heat that stays or spreads, incubation
 * and an elliptic spot are not modelled. C does not notice if the dose ratio and the offset are swapped.
 *
 * @param[in]  beam       beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  mark_kind  what makes the mark: one of SPOTWISE_MARK_*.
 * @param[in]  dose_ratio dose in the waist over the dose at which the material just marks; range:
 *                        SPOTWISE_PARAM_ANY_DOSE_RATIO.
 * @param[in]  z_offset_m offset of the surface from the waist in metres, + away from the lens;
 *                        range: SPOTWISE_PARAM_Z_OFFSET.
 * @param[out] mark       result; set with spotwise_mark_width_result_init(); not NULL. On any
 *                        status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
 *                        codes and flags to 0.
 * @param[out] error      what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
 *         kind of mark), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL
 *         (half angle above 0.3 rad).
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result; the width at most 4 ulp
 *           times 1 + (1 + |ln q|)/L, which is large where the mark is about to vanish.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: a line at twice the threshold, 10.6 um, M^2 = 1.2, waist 88 um: 51.8 um wide in the
 *          waist, gone beyond 0.828 mm.
 * Source: derived by the authors; for pulses J. M. Liu, Optics Letters 7, 196 (1982), from memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_mark_width(const struct spotwise_beam *beam,
                                    uint32_t mark_kind,
                                    double dose_ratio,
                                    double z_offset_m,
                                    struct spotwise_mark_width_result *mark,
                                    struct spotwise_error *error);

/**
 * Where the mark of a pulse or line is widest and where it vanishes.
 *
 * It vanishes z_R sqrt(q^(2/n) - 1) from the waist. For ln(q) > n/2 it is widest z_R
 * sqrt(q^(2/n)/e - 1) from it, and sqrt(n) (d/2) q^(1/n)/sqrt(e) wide there; else it is widest in
 * the waist, d sqrt(ln(q)/2). At q = sqrt(e) for a line and q = e for a pulse the width does not
 * react to focus to second order: robust in production, useless for finding focus. For q up to 1 there
 * is no mark at any height, which is no error: marks is then 0.
 *
 * @param[in]  beam       beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  mark_kind  what makes the mark: one of SPOTWISE_MARK_*.
 * @param[in]  dose_ratio dose in the waist over the dose at which the material just marks; range:
 *                        SPOTWISE_PARAM_ANY_DOSE_RATIO.
 * @param[out] limits     result; set with spotwise_mark_limits_result_init(); not NULL. On any
 *                        status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
 *                        codes and flags to 0.
 * @param[out] error      what was refused; may be NULL.
 * @return as spotwise_mark_width().
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result; the offset of the widest
 *           mark at most 4 ulp times 1 + 1/(q^(2/n)/e - 1), which is large where it leaves the
 *           waist.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: a line at 4 times the threshold, waist 88 um: 73.3 um wide in the waist, at most 106.7
 *          um.
 * Source: as spotwise_mark_width().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_mark_limits(const struct spotwise_beam *beam,
                                     uint32_t mark_kind,
                                     double dose_ratio,
                                     struct spotwise_mark_limits_result *limits,
                                     struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_pulsed_line_result_init(struct spotwise_pulsed_line_result *line);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_crater_result_init(struct spotwise_crater_result *crater);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_groove_result_init(struct spotwise_groove_result *groove);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_connected_speed_result_init(struct spotwise_connected_speed_result *connected);

/**
 * The dots of a pulsed line: their size after incubation, and the scallop of the edge.
 *
 * Threshold ratio N^(S - 1); dot diameter d sqrt(L/2), L being the logarithm of the dose ratio
 * after N pulses; scallop (p^2/4)/(rho + sqrt(rho^2 - p^2/4)), rho being the radius of a dot. A single
 * pulse below the threshold may still mark after many. No mark is no error: marks is then 0. Heat that
 * accumulates is not modelled. C does not notice if spot and pitch are swapped.
 *
 * @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
 *                             SPOTWISE_PARAM_SPOT_DIAMETER.
 * @param[in]  dose_ratio      peak fluence of one pulse over the fluence at which one pulse just
 *                             marks; range: SPOTWISE_PARAM_ANY_DOSE_RATIO.
 * @param[in]  pulse_pitch_m   from one pulse to the next along the line in metres; range:
 *                             SPOTWISE_PARAM_PULSE_PITCH.
 * @param[in]  incubation      incubation S; 1 for none; range: SPOTWISE_PARAM_INCUBATION.
 * @param[in]  pulses          how many pulses N fall on one place, such as effective_pulses of
 *                             spotwise_pulse_dose(), but at least 1; range: SPOTWISE_PARAM_PULSES.
 * @param[out] line            result; set with spotwise_pulsed_line_result_init(); not NULL. On
 *                             any status other than SPOTWISE_OK its numbers are set to a quiet
 *                             NaN, its codes and flags to 0.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result; conditioned, and so more,
 *           where dots just touch, incubation is strong or only incubation makes a pulse mark
 *           (tests/vectors/README.md has the factors).
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: a spot of 50 um at e^2 times the threshold, dots 30 um apart: 50 um wide, scallop 5 um.
 *          0.9 times the threshold, 100 pulses on each place, incubation 0.85: the dose ratio is 1.7957.
 * Source: scallop derived by the authors; dots: J. M. Liu, Optics Letters 7, 196 (1982);
 *         incubation: Y. Jee, M. F. Becker, R. M. Walser, J. Opt. Soc. Am. B 5, 648 (1988), an
 *         empirical law; both from memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_pulsed_line(double spot_diameter_m,
                                     double dose_ratio,
                                     double pulse_pitch_m,
                                     double incubation,
                                     double pulses,
                                     struct spotwise_pulsed_line_result *line,
                                     struct spotwise_error *error);

/**
 * Depth and volume of the crater of one pulse, and its depth at a distance from the middle.
 *
 * Depth l (L - 2 r^2/w^2), volume pi w^2 l L^2/4, L being the logarithm of the dose ratio. Plasma
 * shielding, walls that reflect and debris are not modelled. C does not notice if the lengths are
 * swapped.
 *
 * @param[in]  spot_diameter_m     spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
 *                                 SPOTWISE_PARAM_SPOT_DIAMETER.
 * @param[in]  dose_ratio          peak fluence of one pulse over the fluence at which one pulse
 *                                 just marks; range: SPOTWISE_PARAM_DOSE_RATIO.
 * @param[in]  penetration_depth_m depth at which the fluence has fallen by e, in metres; range:
 *                                 SPOTWISE_PARAM_PENETRATION_DEPTH.
 * @param[in]  radius_m            distance from the middle in metres; range:
 *                                 SPOTWISE_PARAM_RADIUS.
 * @param[out] crater              result; set with spotwise_crater_result_init(); not NULL. On any
 *                                 status other than SPOTWISE_OK its numbers are set to a quiet
 *                                 NaN.
 * @param[out] error               what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 6 ulp (units in the last place) of the exact result; the depth at a radius
 *           that times L/(L - 2 r^2/w^2).
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: a spot of 50 um at e times the threshold, 20 nm for each e-fold: 20 nm deep, 9.817e-18
 *          m^3.
 * Source: derived by the authors from Beer and Lambert's law.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_crater(double spot_diameter_m,
                                double dose_ratio,
                                double penetration_depth_m,
                                double radius_m,
                                struct spotwise_crater_result *crater,
                                struct spotwise_error *error);

/**
 * Mean depth and cross-section of the groove of a row of pulses, and its depth at a distance
 * aside.
 *
 * Craters added up along the row, as if every pulse met a flat surface: depth 8 l (w^2 L/2 -
 * y^2)^(3/2)/(3 p w^2). It holds while several pulses fall on each place; a pitch wider than a dot, which
 * leaves craters apart and no groove, is refused. C does not notice if the lengths are swapped.
 *
 * @param[in]  spot_diameter_m     spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
 *                                 SPOTWISE_PARAM_SPOT_DIAMETER.
 * @param[in]  dose_ratio          peak fluence of one pulse over the fluence at which one pulse
 *                                 just marks; range: SPOTWISE_PARAM_DOSE_RATIO.
 * @param[in]  penetration_depth_m depth at which the fluence has fallen by e, in metres; range:
 *                                 SPOTWISE_PARAM_PENETRATION_DEPTH.
 * @param[in]  pulse_pitch_m       from one pulse to the next along the line in metres, here at most
 *                                 the diameter of a dot; range: SPOTWISE_PARAM_PULSE_PITCH.
 * @param[in]  aside_m             distance from the middle in metres; range:
 *                                 SPOTWISE_PARAM_RADIUS.
 * @param[out] groove              result; set with spotwise_groove_result_init(); not NULL. On any
 *                                 status other than SPOTWISE_OK its numbers are set to a quiet
 *                                 NaN.
 * @param[out] error               what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 6 ulp (units in the last place) of the exact result; the depth aside that
 *           times 1 + 3/(1 - y^2/rho^2).
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: the crater of spotwise_crater() every 5 um: 94.28 nm deep.
 * Source: as spotwise_crater().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_groove(double spot_diameter_m,
                                double dose_ratio,
                                double penetration_depth_m,
                                double pulse_pitch_m,
                                double aside_m,
                                struct spotwise_groove_result *groove,
                                struct spotwise_error *error);

/**
 * The largest pulse pitch and speed at which the edge of a pulsed line dents by no more than a
 * scallop.
 *
 * Pitch 2 sqrt(c (2 rho - c)), c being the scallop and rho the radius of a dot after the effective
 * pulses sqrt(pi/8) d/p, at least 1, that fall on one place at that pitch; speed that times the
 * repetition rate. With a scallop of the whole radius the dots just touch. With incubation the threshold
 * falls as the pulses come closer, so that dots grow as the scan slows down.
 *
 * @param[in]  spot_diameter_m    spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
 *                                SPOTWISE_PARAM_SPOT_DIAMETER.
 * @param[in]  dose_ratio         peak fluence of one pulse over the fluence at which one pulse
 *                                just marks; range: SPOTWISE_PARAM_DOSE_RATIO.
 * @param[in]  repetition_rate_hz pulses in a second; range: SPOTWISE_PARAM_REPETITION_RATE.
 * @param[in]  incubation         incubation S; 1 for none; range: SPOTWISE_PARAM_INCUBATION.
 * @param[in]  scallop_m          how far the edge may dent in metres, here at most the radius of a
 *                                dot of one pulse; range: SPOTWISE_PARAM_SCALLOP.
 * @param[out] connected          result; set with spotwise_connected_speed_result_init(); not
 *                                NULL. On any status other than SPOTWISE_OK its numbers are set to
 *                                a quiet NaN.
 * @param[out] error              what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (more pulses than
 *         SPOTWISE_PARAM_PULSES allows or a speed outside the range of SPOTWISE_PARAM_SPEED, as those).
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: a spot of 50 um at e^2 times the threshold, 50 kHz, no incubation, scallop 5 um: pitch 30 um,
 *          1.044 pulses on each place, 1.5 m/s.
 * Source: as spotwise_pulsed_line().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_connected_speed(double spot_diameter_m,
                                         double dose_ratio,
                                         double repetition_rate_hz,
                                         double incubation,
                                         double scallop_m,
                                         struct spotwise_connected_speed_result *connected,
                                         struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_blur_init(struct spotwise_blur *blur);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_blur_budget_result_init(struct spotwise_blur_budget_result *budget);

/**
 * Adds up what blurs a scan, across and along.
 *
 * Squares of radii add up: w^2 = (d/2)^2 + 8 k t + a^2/3 + 4 s^2, along the scan also 4 (v t_r/ln
 * 9)^2; k being the diffusivity, t the dwell, a the pixel, s the jitter and t_r the rise time. An
 * edge is 1.2816 w wide. That the sum acts as a Gaussian is an approximation where box or rise are
 * not small, and that heat spreads for the dwell is a rule of order. Heat left by earlier lines
 * and melt flow are not modelled.
 *
 * @param[in]  blur   blur to read; set with spotwise_blur_init(); not NULL.
 * @param[out] budget result; set with spotwise_blur_budget_result_init(); not NULL. On any status
 *                    other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error  what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 1.09e-7 m^2/s at 20 mm/s under a spot of 100 um: heat spreads 36.96 um, the spot acts
 *          as one of 144.7 um.
 * Source: derived by the authors; heat kernel: H. S. Carslaw, J. C. Jaeger, Conduction of Heat in
 *         Solids, from memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_blur_budget(const struct spotwise_blur *blur,
                                     struct spotwise_blur_budget_result *budget,
                                     struct spotwise_error *error);

/**
 * Sets struct_size, the taste to 0, which is none, and every number to a quiet NaN. NULL does
 * nothing.
 */
void spotwise_taste_init(struct spotwise_taste *taste);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_fill_quality_result_init(struct spotwise_fill_quality_result *quality);

/**
 * Edge width and ripple of a fill at an offset from the waist.
 *
 * The edge is 0.6408 d wide, the ripple that of spotwise_raster_ripple(): out of focus the one
 * grows and the other fades. C does not notice if interval and offset are swapped.
 *
 * @param[in]  beam            beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  line_interval_m from one line to the next in metres; range:
 *                             SPOTWISE_PARAM_LINE_INTERVAL.
 * @param[in]  z_offset_m      offset of the surface from the waist in metres, + away from the
 *                             lens; range: SPOTWISE_PARAM_Z_OFFSET.
 * @param[out] quality         result; set with spotwise_fill_quality_result_init(); not NULL. On
 *                             any status other than SPOTWISE_OK its numbers are set to a quiet
 *                             NaN, its codes and flags to 0.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad; an interval
 *         above 20 radii of the waist as SPOTWISE_PARAM_INTERVAL_OVER_RADIUS).
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result; the ripple at most 8 ulp
 *           times 1 + (pi/r)^2 where r, the interval over the spot radius, is below 1.6.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: a waist of 88 um: an edge of 56.388 um.
 * Source: derived by the authors, an edge convolved with a Gaussian spot; as
 *         spotwise_raster_ripple().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_fill_quality(const struct spotwise_beam *beam,
                                      double line_interval_m,
                                      double z_offset_m,
                                      struct spotwise_fill_quality_result *quality,
                                      struct spotwise_error *error);

/**
 * The offset from focus at which a fill best serves a taste.
 *
 * The crispest edge is in the waist; the smoothest fill whose edge stays under a limit is where
 * the edge reaches it; a compromise has the least cost s (g - 1) + (1 - s) C, s being the weight
 * of crispness, g the growth of the edge and C the contrast of the ripple.
 *
 * @param[in]  beam            beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  line_interval_m from one line to the next in metres; range:
 *                             SPOTWISE_PARAM_LINE_INTERVAL.
 * @param[in]  taste           taste to read; set with spotwise_taste_init(); not NULL.
 * @param[out] quality         result; set with spotwise_fill_quality_result_init(); not NULL. On
 *                             any status other than SPOTWISE_OK its numbers are set to a quiet
 *                             NaN, its codes and flags to 0.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
 *         taste), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (as
 *         spotwise_fill_quality()), SPOTWISE_E_UNREACHABLE (a largest edge below that of the
 *         waist).
 *
 * Accuracy: the offset at most 8 ulp (units in the last place) of the exact result times r^2/(r^2
 *           - 1), r being the growth there; that of a compromise at most 4 ulp times a factor that grows where its cost is flat.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 10.6 um, M^2 = 1.2, waist 88 um, edges of up to 70 um: 0.3517 mm off focus.
 * Source: as spotwise_fill_quality().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_offset_for_taste(const struct spotwise_beam *beam,
                                          double line_interval_m,
                                          const struct spotwise_taste *taste,
                                          struct spotwise_fill_quality_result *quality,
                                          struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_detail_exposure_result_init(struct spotwise_detail_exposure_result *exposure);

/**
 * Exposure at the centre of a bar, gap, square, dot and hole of one size, over that of a wide
 * fill.
 *
 * With x = sqrt(2) size/diameter: erf(x), erfc(x), erf(x)^2, 1 - exp(-x^2), exp(-x^2). A detail is
 * kept while the dose ratio times this is at least 1, a gap or hole while it is below 1. C does
 * not notice if spot and size are swapped.
 *
 * @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
 *                             SPOTWISE_PARAM_SPOT_DIAMETER.
 * @param[in]  detail_size_m   width, side or diameter of the detail in metres; range:
 *                             SPOTWISE_PARAM_DETAIL_SIZE.
 * @param[out] exposure        result; set with spotwise_detail_exposure_result_init(); not NULL.
 *                             On any status other than SPOTWISE_OK its numbers are set to a quiet
 *                             NaN.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result, the square at most 6 ulp;
 *           gap and hole at most 4 ulp times 1 + 2 (size/spot diameter)^2.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: details as wide as the spot: a bar gets 0.9545, a dot 0.8647.
 * Source: derived by the authors, a strip, square or disc convolved with a Gaussian spot.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_detail_exposure(double spot_diameter_m,
                                         double detail_size_m,
                                         struct spotwise_detail_exposure_result *exposure,
                                         struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_raster_ripple_result_init(struct spotwise_raster_ripple_result *ripple);

/**
 * Ripple of a raster fill, and the dose that leaves no gap.
 *
 * The sum of Gaussians over all lines, Jacobi's theta functions of exp(-pi^2/(2 r^2)), r being the
 * interval over the spot radius; without cancellation. The mean dose does not depend on the spot,
 * so that a fill out of focus is as strong, and smoother. Jitter of the lines is not modelled. C
 * does not notice if spot and interval are swapped.
 *
 * @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
 *                             SPOTWISE_PARAM_SPOT_DIAMETER.
 * @param[in]  line_interval_m from one line to the next in metres; range:
 *                             SPOTWISE_PARAM_LINE_INTERVAL.
 * @param[out] ripple          result; set with spotwise_raster_ripple_result_init(); not NULL. On
 *                             any status other than SPOTWISE_OK its numbers are set to a quiet
 *                             NaN.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (an interval above 20 spot radii,
 *         which is no fill, as SPOTWISE_PARAM_INTERVAL_OVER_RADIUS).
 *
 * Accuracy: at most 5 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: an interval of the spot radius: 1.4 %; of the diameter: 57 %.
 * Source: derived by the authors with Poisson's sum; theta functions: NIST Digital Library of
 *         Mathematical Functions, 20.2, 20.7(viii).
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_raster_ripple(double spot_diameter_m,
                                       double line_interval_m,
                                       struct spotwise_raster_ripple_result *ripple,
                                       struct spotwise_error *error);

/**
 * Largest line interval whose ripple has at most this contrast, the inverse of
 * spotwise_raster_ripple().
 *
 * @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
 *                             SPOTWISE_PARAM_SPOT_DIAMETER.
 * @param[in]  ripple_contrast (max - min)/(max + min) of the dose; range:
 *                             SPOTWISE_PARAM_RIPPLE_CONTRAST.
 * @param[out] line_interval_m from one line to the next in metres; not NULL. On any status other
 *                             than SPOTWISE_OK it is set to a quiet NaN.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: a spot of 100 um and a contrast of 0.01438376663469: 50 um.
 * Source: as spotwise_raster_ripple().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_interval_for_ripple(double spot_diameter_m,
                                             double ripple_contrast,
                                             double *line_interval_m,
                                             struct spotwise_error *error);

/**
 * Sets struct_size, the kind of mark to 0, which is none, and every number to a quiet NaN. NULL
 * does nothing.
 */
void spotwise_mark_setting_init(struct spotwise_mark_setting *setting);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_compensation_init(struct spotwise_compensation *compensation);

/**
 * Power and speed that make up for a known defocus by a rule, within limits.
 *
 * Dose factor g^n for the same dose, g^n q^(1/g^2 - 1) for the same width, e^(n/2) g^n/q for the
 * width that does not react to focus; g being the growth of the spot and n 2 for a pulse, 1 for a
 * line. Power is changed first (lowered where less dose is wanted), since only power brings back irradiance,
 * and raised for the least irradiance with the speed raised in step; speed makes up the rest, for a pulse it stays. A rule that cannot be met is no
 * error: the nearest setting is returned, with the limits that bind and the dose factor reached. A raster
 * fill needs no compensation. At the same line dose the irradiance still falls, so that vaporising may
 * turn into melting (common practice, no source). The setting is advice: mark a test piece first, and
 * stay within the machine's manual.
 *
 * @param[in]  beam         beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  z_offset_m   offset of the surface from the waist in metres, + away from the lens;
 *                          range: SPOTWISE_PARAM_Z_OFFSET.
 * @param[in]  rule         what is to be as it was in focus: one of SPOTWISE_COMPENSATION_*.
 * @param[in]  setting      setting to read; set with spotwise_mark_setting_init(); not NULL.
 * @param[out] compensation result; set with spotwise_compensation_init(); not NULL. On any status
 *                          other than SPOTWISE_OK its numbers are set to a quiet NaN, its codes
 *                          and flags to 0.
 * @param[out] error        what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
 *         rule, then the kind of mark), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE,
 *         SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
 *
 * Accuracy: factors, power and speed at most 6 ulp (units in the last place) of the exact result, for the
 *           same width times 1 + (1 - 1/g^2) ln q, q being the dose ratio and g the growth;
 *           the width of the mark that times 1 + 1/ln(dose ratio at the offset).
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: a line of 20 W at 0.5 m/s, at most 25 W, 10.6 um, M^2 = 1.2, waist 88 um, 0.5 mm off:
 *          25 W at 0.432 m/s.
 * Source: derived by the authors from the laws of spotwise_mark_width().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_compensate(const struct spotwise_beam *beam,
                                    double z_offset_m,
                                    uint32_t rule,
                                    const struct spotwise_mark_setting *setting,
                                    struct spotwise_compensation *compensation,
                                    struct spotwise_error *error);

/**
 * One sentence for a limit that a compensation meets; "unknown" unless exactly one bit is given.
 *
 * @param[in] limit one bit, one of SPOTWISE_LIMIT_*.
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_limit_text(uint32_t limit);

/**
 * Sets struct_size, the typeface to 0, which is none, and every number to a quiet NaN. NULL does
 * nothing.
 */
void spotwise_typeface_init(struct spotwise_typeface *typeface);

/**
 * Sets struct_size, and every number to its default. NULL does nothing.
 */
void spotwise_text_grades_init(struct spotwise_text_grades *grades);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_typeface_shares_result_init(struct spotwise_typeface_shares_result *shares);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_smallest_text_result_init(struct spotwise_smallest_text_result *text);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_text_quality_result_init(struct spotwise_text_quality_result *quality);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_text_offset_init(struct spotwise_text_offset *offset);

/**
 * Measured shares of a kind of typeface; those of a measured one that were not given are NaN.
 *
 * Heights, stems and strokes were measured, and the effective shares fitted to simulated letters,
 * from openly licensed fonts.
 *
 * @param[in]  typeface typeface to read; set with spotwise_typeface_init(); not NULL.
 * @param[out] shares   result; set with spotwise_typeface_shares_result_init(); not NULL. On any
 *                      status other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error    what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
 *         typeface), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE.
 *
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: measured by the authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_typeface_shares(const struct spotwise_typeface *typeface,
                                         struct spotwise_typeface_shares_result *shares,
                                         struct spotwise_error *error);

/**
 * The smallest type that comes out crisp, good and readable with this spot and dose.
 *
 * With t = sqrt(2) em/diameter: strokes hold from the dose ratio 1/erf(s (t + sqrt(8))) on, gaps up to
 * 1/erfc(g t), s and g being the effective shares; the dose window is the one over the other.
 * Readable text has counters in that window and the window that the grades ask for; good text,
 * which can always be read, also keeps its letters apart; crisp text also gets the share of the
 * fill dose that the grades ask for on the middle of a stem. Hinting, the raster of the artwork,
 * kerning, and scripts other than Latin are not modelled.
 *
 * @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
 *                             SPOTWISE_PARAM_SPOT_DIAMETER.
 * @param[in]  dose_ratio      fill dose over the dose at which the material just marks; range:
 *                             SPOTWISE_PARAM_DOSE_RATIO.
 * @param[in]  typeface        typeface to read; set with spotwise_typeface_init(); not NULL.
 * @param[in]  grades          where grades begin; set with spotwise_text_grades_init(), which sets
 *                             the defaults; not NULL.
 * @param[out] text            result; set with spotwise_smallest_text_result_init(); not NULL. On
 *                             any status other than SPOTWISE_OK its numbers are set to a quiet
 *                             NaN.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
 *         typeface), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: of evaluation at most 4 ulp (units in the last place) of the exact result, times 1 + 1/k where
 *           a dose window decides, k being the slope d ln(window)/d ln t. How well the law fits a font
 *           is another matter: 15 to 45 %, serifs up to 68 %.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: derived by the authors from spotwise_smallest_details().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_smallest_text(double spot_diameter_m,
                                       double dose_ratio,
                                       const struct spotwise_typeface *typeface,
                                       const struct spotwise_text_grades *grades,
                                       struct spotwise_smallest_text_result *text,
                                       struct spotwise_error *error);

/**
 * How text of one size comes out with this spot and dose.
 *
 * Formulas as spotwise_smallest_text(). C does not notice if spot and em are swapped.
 *
 * @param[in]  spot_diameter_m spot diameter on the surface in metres, 1/e^2 (D4 sigma); range:
 *                             SPOTWISE_PARAM_SPOT_DIAMETER.
 * @param[in]  em_m            size of the type in metres, see SPOTWISE_POINT_M; range:
 *                             SPOTWISE_PARAM_EM.
 * @param[in]  dose_ratio      fill dose over the dose at which the material just marks; range:
 *                             SPOTWISE_PARAM_DOSE_RATIO.
 * @param[in]  typeface        typeface to read; set with spotwise_typeface_init(); not NULL.
 * @param[in]  grades          where grades begin; set with spotwise_text_grades_init(), which sets
 *                             the defaults; not NULL.
 * @param[out] quality         result; set with spotwise_text_quality_result_init(); not NULL. On
 *                             any status other than SPOTWISE_OK its numbers are set to a quiet
 *                             NaN, its codes and flags to 0.
 * @param[out] error           what was refused; may be NULL.
 * @return as spotwise_smallest_text().
 *
 * Accuracy: of evaluation at most 6 ulp (units in the last place) of the exact result, the
 *           greatest dose ratios that times 1 + (g t)^2.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: as spotwise_smallest_text().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_text_quality(double spot_diameter_m,
                                      double em_m,
                                      double dose_ratio,
                                      const struct spotwise_typeface *typeface,
                                      const struct spotwise_text_grades *grades,
                                      struct spotwise_text_quality_result *quality,
                                      struct spotwise_error *error);

/**
 * The largest offset from focus at which text of one size keeps a grade.
 *
 * Formulas as spotwise_smallest_text(); the offset is where the spot has grown to the largest one
 * that keeps the grade.
 *
 * @param[in]  beam       beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  em_m       size of the type in metres, see SPOTWISE_POINT_M; range:
 *                        SPOTWISE_PARAM_EM.
 * @param[in]  text_grade the grade to keep: SPOTWISE_GRADE_CRISP, SPOTWISE_GRADE_GOOD or
 *                        SPOTWISE_GRADE_READABLE.
 * @param[in]  dose_ratio fill dose over the dose at which the material just marks; range:
 *                        SPOTWISE_PARAM_DOSE_RATIO.
 * @param[in]  typeface   typeface to read; set with spotwise_typeface_init(); not NULL.
 * @param[in]  grades     where grades begin; set with spotwise_text_grades_init(), which sets the
 *                        defaults; not NULL.
 * @param[out] offset     result; set with spotwise_text_offset_init(); not NULL. On any status
 *                        other than SPOTWISE_OK its numbers are set to a quiet NaN, its codes and
 *                        flags to 0.
 * @param[out] error      what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
 *         grade, the typeface; then SPOTWISE_GRADE_LOST, which nothing need keep),
 *         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_UNREACHABLE (the text lacks
 *         the grade even in the waist), SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
 *
 * Accuracy: of evaluation at most 6 ulp (units in the last place) of the exact result, times
 *           r^2/(r^2 - 1), r being the growth there.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: as spotwise_smallest_text() and spotwise_offsets_for_diameter().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_offset_for_text(const struct spotwise_beam *beam,
                                         double em_m,
                                         uint32_t text_grade,
                                         double dose_ratio,
                                         const struct spotwise_typeface *typeface,
                                         const struct spotwise_text_grades *grades,
                                         struct spotwise_text_offset *offset,
                                         struct spotwise_error *error);

/**
 * Name of a kind of typeface, such as "bold sans"; "unknown" for any other number.
 *
 * @param[in] typeface one of SPOTWISE_TYPEFACE_*.
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_typeface_name(uint32_t typeface);

/**
 * Name of a grade of text, such as "readable"; "unknown" for any other number.
 *
 * @param[in] grade one of SPOTWISE_GRADE_*.
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_text_grade_name(uint32_t grade);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_focus_between_result_init(struct spotwise_focus_between_result *best);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_astigmatic_focus_between_init(struct spotwise_astigmatic_focus_between *best);

/**
 * Sets struct_size, the count to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_height_bands_result_init(struct spotwise_height_bands_result *bands);

/**
 * Sets struct_size, flags to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_cylinder_strip_result_init(struct spotwise_cylinder_strip_result *strip);

/**
 * Sets struct_size, counts and flags to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_refocus_plan_result_init(struct spotwise_refocus_plan_result *plan);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_spot_through_result_init(struct spotwise_spot_through_result *through);

/**
 * The focus height that makes the worst spot on a surface as small as can be, and that spot.
 *
 * It is the middle between the highest and the lowest place. Both heights count from one datum, + away
 * from the lens, so that the highest place has the least.
 *
 * @param[in]  beam        beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  highest_z_m height of the highest place in metres; range: SPOTWISE_PARAM_HIGHEST_Z.
 * @param[in]  lowest_z_m  height of the lowest place in metres, not less than highest_z_m; range:
 *                         SPOTWISE_PARAM_LOWEST_Z.
 * @param[out] best        result; set with spotwise_focus_between_result_init(); not NULL. On any status
 *                         other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error       what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: from -0.2 mm to 0.8 mm: focus 0.3 mm below the datum, either end 0.5 mm off focus.
 * Source: derived by the authors from spotwise_defocus().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_focus_between(const struct spotwise_beam *beam,
                                       double highest_z_m,
                                       double lowest_z_m,
                                       struct spotwise_focus_between_result *best,
                                       struct spotwise_error *error);

/**
 * The focus height that makes the larger diameter of an astigmatic beam, at the worst height of a
 * surface, as small as can be.
 *
 * Both ends of the surface are then equally bad; which axis is the wider one at which end, the four
 * diameters tell. Both heights count from one datum, + away from the lens; focus_z_m is where the
 * beam's own z = 0 is to be put.
 *
 * @param[in]  beam        beam to read; set with spotwise_astigmatic_beam_init(); not NULL.
 * @param[in]  highest_z_m height of the highest place in metres; range: SPOTWISE_PARAM_HIGHEST_Z.
 * @param[in]  lowest_z_m  height of the lowest place in metres, not less than highest_z_m; range:
 *                         SPOTWISE_PARAM_LOWEST_Z.
 * @param[out] best        result; set with spotwise_astigmatic_focus_between_init(); not NULL. On any
 *                         status other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error       what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle of an axis above 0.3 rad).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result; focus_z_m 1 ulp, but where
 *           it is the small difference of the surface's height and the beam's.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: derived by the authors from spotwise_astigmatic_at().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_focus_between_astigmatic(const struct spotwise_astigmatic_beam *beam,
                                                  double highest_z_m,
                                                  double lowest_z_m,
                                                  struct spotwise_astigmatic_focus_between *best,
                                                  struct spotwise_error *error);

/**
 * Bands of equal height into which a surface must be divided so that each stays within the depth of
 * focus, less a margin of it; their limits and where to set focus for each.
 *
 * Ask first how many bands there are, with both lengths 0. Then limit_z_m takes at least count + 1
 * heights, from the highest place to the lowest, and focus_z_m at least count. Either may be left out
 * by a length of 0. A band may exceed what it should be by a part in 1e9, so that 2.1 mm make three
 * bands of 0.7 mm, however these round. All heights are + away from the lens.
 *
 * @param[in]  highest_z_m        height of the highest place in metres; range: SPOTWISE_PARAM_HIGHEST_Z.
 * @param[in]  lowest_z_m         height of the lowest place in metres, not less than highest_z_m; range:
 *                                SPOTWISE_PARAM_LOWEST_Z.
 * @param[in]  toward_lens_z_m    end of the depth of focus nearer the lens in metres, from the focus,
 *                                mostly negative; range: SPOTWISE_PARAM_TOWARD_LENS_Z.
 * @param[in]  away_from_lens_z_m end of the depth of focus farther from the lens in metres; range:
 *                                SPOTWISE_PARAM_AWAY_FROM_LENS_Z.
 * @param[in]  band_margin        share of the depth that is kept for errors of set-up; range:
 *                                SPOTWISE_PARAM_BAND_MARGIN.
 * @param[out] limit_z_m          limits of the bands in metres; not NULL unless limits is 0.
 * @param[in]  limits             length of limit_z_m; 0 to leave it out.
 * @param[out] focus_z_m          focus heights in metres; not NULL unless focus_heights is 0. What is
 *                                longer than needed is set to quiet NaNs. The two arrays must not
 *                                overlap. On any status other than SPOTWISE_OK all of both is set to
 *                                quiet NaNs, but for a length that no array can have: then nothing is
 *                                written to them.
 * @param[in]  focus_heights      length of focus_z_m; 0 to leave it out.
 * @param[out] bands              result; set with spotwise_height_bands_result_init(); not NULL. On any
 *                                status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
 *                                count to 0.
 * @param[out] error              what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP,
 *         SPOTWISE_E_LENGTH_MISMATCH (an array that is too short, as SPOTWISE_PARAM_BAND_LIMITS or
 *         SPOTWISE_PARAM_FOCUS_HEIGHTS, whose least is what is needed; or one that memory cannot
 *         hold), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (ends of the
 *         depth less than 1 nm apart, as SPOTWISE_PARAM_USABLE_DEPTH; more than a million bands).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 1.4 mm, 0.25 mm of depth each way, margin 0.1: 4 bands of 0.35 mm.
 * Source: derived by the authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_height_bands(double highest_z_m,
                                      double lowest_z_m,
                                      double toward_lens_z_m,
                                      double away_from_lens_z_m,
                                      double band_margin,
                                      double *limit_z_m,
                                      size_t limits,
                                      double *focus_z_m,
                                      size_t focus_heights,
                                      struct spotwise_height_bands_result *bands,
                                      struct spotwise_error *error);

/**
 * The largest strip of a lying round part that stays in focus.
 *
 * By the sagitta of a circle. With focus on the crown the edge of the strip lies at the end of the depth
 * of focus away from the lens; midway, the whole depth is used, and the strip is about sqrt(2) wider.
 * Where the depth exceeds the radius the strip is the whole upper half. That the spot is longer at the
 * edge, and light that the flank reflects, are not modelled.
 *
 * @param[in]  part_radius_m      radius of the part in metres; range: SPOTWISE_PARAM_PART_RADIUS.
 * @param[in]  toward_lens_z_m    end of the depth of focus nearer the lens in metres, from the focus, +
 *                                away from the lens, so mostly negative; with focus on the crown not
 *                                above 0; range: SPOTWISE_PARAM_TOWARD_LENS_Z.
 * @param[in]  away_from_lens_z_m end of the depth of focus farther from the lens in metres; range:
 *                                SPOTWISE_PARAM_AWAY_FROM_LENS_Z.
 * @param[in]  aim                SPOTWISE_AIM_HIGHEST_PLACE for the crown, or SPOTWISE_AIM_MIDWAY.
 * @param[out] strip              result; set with spotwise_cylinder_strip_result_init(); not NULL. On
 *                                any status other than SPOTWISE_OK its numbers are set to a quiet NaN,
 *                                its flags to 0.
 * @param[out] error              what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE,
 *         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (less than 1 nm of
 *         depth, as SPOTWISE_PARAM_USABLE_DEPTH).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result; angle and arc 2 ulp.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: radius 25 mm, 0.4 mm of depth each way: 8.91 mm with focus on the crown, 12.55 mm midway.
 * Source: the sagitta of a circle, any handbook.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_cylinder_strip(double part_radius_m,
                                        double toward_lens_z_m,
                                        double away_from_lens_z_m,
                                        uint32_t aim,
                                        struct spotwise_cylinder_strip_result *strip,
                                        struct spotwise_error *error);

/**
 * When to set focus anew in a deep engraving of many passes, and where.
 *
 * A stage is what is engraved at one focus height; its surface is in focus when its first pass begins
 * and when its last one ends. With the aim on the surface, focus is set on it as each stage finds it;
 * midway it lies below, and half as many stages are needed. Ask first, with a length of 0, how many stages
 * there are. C does not notice if the two depths are swapped.
 *
 * @param[in]  total_depth_m      depth wanted in metres; range: SPOTWISE_PARAM_TOTAL_DEPTH.
 * @param[in]  depth_per_pass_m   depth that each pass removes in metres; range:
 *                                SPOTWISE_PARAM_DEPTH_PER_PASS.
 * @param[in]  toward_lens_z_m    end of the depth of focus nearer the lens in metres, from the focus, +
 *                                away from the lens, so mostly negative; with the aim on the surface not
 *                                above 0; range: SPOTWISE_PARAM_TOWARD_LENS_Z.
 * @param[in]  away_from_lens_z_m end of the depth of focus farther from the lens in metres; range:
 *                                SPOTWISE_PARAM_AWAY_FROM_LENS_Z.
 * @param[in]  aim                SPOTWISE_AIM_HIGHEST_PLACE for the surface, or SPOTWISE_AIM_MIDWAY.
 * @param[out] focus_z_m          focus height of each stage in metres, from the surface before the first
 *                                pass, + away from the lens; not NULL unless focus_heights is 0. What is
 *                                longer than needed is set to quiet NaNs, and so is all of it on any
 *                                status other than SPOTWISE_OK, but for a length that no array can have:
 *                                then nothing is written to it.
 * @param[in]  focus_heights      length of focus_z_m, at least the number of stages; 0 to leave it out.
 * @param[out] plan               result; set with spotwise_refocus_plan_result_init(); not NULL. On any
 *                                status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
 *                                counts and flags to 0.
 * @param[out] error              what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE,
 *         SPOTWISE_E_LENGTH_MISMATCH (an array that is too short, as SPOTWISE_PARAM_FOCUS_HEIGHTS, whose
 *         least is what is needed; or one that memory cannot hold), SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (less than 1 nm of depth of focus, as
 *         SPOTWISE_PARAM_USABLE_DEPTH; more than a million passes).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 1.3 mm in passes of 0.1 mm, 0.25 mm of depth each way: with the aim on the surface 7 stages
 *          of 2 passes, midway 3 stages of 5, focused 0.25, 0.75 and 1.15 mm below it.
 * Source: derived by the authors. To refocus when the removed depth reaches the half range is common
 *         practice, no source.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_refocus_plan(double total_depth_m,
                                      double depth_per_pass_m,
                                      double toward_lens_z_m,
                                      double away_from_lens_z_m,
                                      uint32_t aim,
                                      double *focus_z_m,
                                      size_t focus_heights,
                                      struct spotwise_refocus_plan_result *plan,
                                      struct spotwise_error *error);

/**
 * The spot through the thickness of a part that is cut or deeply marked, and the best focus for it.
 *
 * As in air: light that the walls of the cut guide, block or reflect is not modelled, nor is a
 * transparent part (see spotwise_focus_inside()). The best focus is mid-thickness. The taper is that of
 * straight lines between the spots at both faces. C does not notice if the two lengths are swapped.
 *
 * @param[in]  beam        beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  focus_z_m   where focus lies in metres, from the top surface, + away from the lens, that
 *                         is into the part; range: SPOTWISE_PARAM_FOCUS_Z.
 * @param[in]  thickness_m thickness in metres; range: SPOTWISE_PARAM_THICKNESS.
 * @param[out] through     result; set with spotwise_spot_through_result_init(); not NULL. On any status
 *                         other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error       what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result; the taper's angle 1.5 ulp.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: derived by the authors from spotwise_defocus().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_spot_through(const struct spotwise_beam *beam,
                                      double focus_z_m,
                                      double thickness_m,
                                      struct spotwise_spot_through_result *through,
                                      struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_region_heights_result_init(struct spotwise_region_heights_result *heights);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_share_in_focus_result_init(struct spotwise_share_in_focus_result *share);

/**
 * Sets struct_size, also of the nested structs, flags to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_surface_focus_init(struct spotwise_surface_focus *focus);

/**
 * Mean and spread of a surface's height over a region.
 *
 * Steps, grids and planes are measured exactly, as bilinear cells; over a cylinder or sphere so many equal
 * cells are laid in x and in y, with their corners on it. Where part of the region is unknown, the numbers are
 * those of the rest.
 *
 * @param[in]  surface        surface, set with spotwise_surface_init() and filled in; not NULL.
 * @param[in]  region         region, set with spotwise_region_init() and filled in; not NULL.
 * @param[in]  cells_per_side cells over a cylinder or sphere, 1 to 1000; 128 is plenty.
 * @param[out] heights        result; set with spotwise_region_heights_result_init(); not NULL. On any status
 *                            other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error          what was refused; may be NULL.
 * @return as spotwise_surface_extremes(); SPOTWISE_E_OUT_OF_RANGE for the cells, as
 *         SPOTWISE_PARAM_CELLS_PER_SIDE.
 *
 * Accuracy: of the cells, 0.3 % of the range of heights with 16 a side, 0.005 % with 128; of the numbers, some
 * ulp of the range. Two passes over the cells.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: a plane with slope_x 0.01 over 60 mm by 40 mm: mean 0.3 mm, deviation 0.6 mm/sqrt(12) = 173.2 um.
 * Source: moments of a bilinear function; derived by the authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_region_heights(const struct spotwise_surface *surface,
                                        const struct spotwise_region *region,
                                        uint32_t cells_per_side,
                                        struct spotwise_region_heights_result *heights,
                                        struct spotwise_error *error);

/**
 * Share of a surface's area that lies between two heights, such as the ends of a depth of focus.
 *
 * Shares are of the area whose height is known, as seen from the lens, and add up to one. Exact within each
 * bilinear cell, also of one that is nearly plane; cells as in spotwise_region_heights().
 *
 * @param[in]  surface          surface, set with spotwise_surface_init() and filled in; not NULL.
 * @param[in]  region           region, set with spotwise_region_init() and filled in; not NULL.
 * @param[in]  cells_per_side   cells over a cylinder or sphere, 1 to 1000; 128 is plenty.
 * @param[in]  toward_lens_z_m  end nearer the lens in metres, + away from the lens; range:
 *                              SPOTWISE_PARAM_TOWARD_LENS_Z.
 * @param[in]  away_from_lens_z_m end farther from the lens in metres, not less than the other; range:
 *                              SPOTWISE_PARAM_AWAY_FROM_LENS_Z.
 * @param[out] share            result; set with spotwise_share_in_focus_result_init(); not NULL. On any status
 *                              other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error            what was refused; may be NULL.
 * @return as spotwise_region_heights(); SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE for an end.
 *
 * Accuracy: some ulp of the whole; of the cells, 3 % of the area with 16 a side in the worst case, a band that
 * just takes in the crown, 0.2 % with 64, 0.05 % with 128. One pass over the cells.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: a square of which one corner stands 1 mm off the other three, z = 1 mm u v; within 0 to 0.2 mm lies
 *          0.2 (1 - ln 0.2) = 52.19 % of it.
 * Source: integral of a quotient of straight lines; derived by the authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_share_in_focus(const struct spotwise_surface *surface,
                                        const struct spotwise_region *region,
                                        uint32_t cells_per_side,
                                        double toward_lens_z_m,
                                        double away_from_lens_z_m,
                                        struct spotwise_share_in_focus_result *share,
                                        struct spotwise_error *error);

/**
 * The focus heights that serve a surface best: for the worst spot, for the mean spot, for the area in focus.
 *
 * The worst spot is least with focus half-way between the highest and the lowest place, the mean area of the
 * spot with focus at the mean height. The height that keeps most area within the depth is found by search, and then
 * proven: no other keeps more by over 1.1e-5 of the area. (Where parts of the surface lie one depth apart to a
 * millionth of the depth, or to 2^-44 of the range, whether both fit is told for level parts only.) Of a range of
 * heights that keep as much its middle is told, of several such ranges that nearest the lens.
 *
 * @param[in]  beam           beam; set with spotwise_beam_init() and filled in; not NULL.
 * @param[in]  criterion      what counts as in focus; set with spotwise_depth_criterion_init(); not NULL.
 * @param[in]  surface        surface, set with spotwise_surface_init() and filled in; not NULL.
 * @param[in]  region         region, set with spotwise_region_init() and filled in; not NULL.
 * @param[in]  cells_per_side cells over a cylinder or sphere, 1 to 1000; take few on a controller.
 * @param[out] focus          result; set with spotwise_surface_focus_init(); not NULL. On any status other than
 *                            SPOTWISE_OK its numbers are set to a quiet NaN, its flags to 0.
 * @param[out] error          what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE,
 *         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (the beam's half angle is
 *         above 0.3 rad), SPOTWISE_E_UNREACHABLE (the largest diameter is below that of the waist); then as
 *         spotwise_region_heights().
 *
 * Accuracy: heights by formula to some ulp of the range; that by search, of a surface of so many cells, to
 * 1e-11 of the depth of focus. About 30 + 4 (range/depth) passes over the cells, each for 16 heights, and never
 * more than 900.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: strips at 0 (200 mm wide) and at 2 mm (100 mm wide), beam of 10.6 um, M2 1.2, 88 um, Rayleigh
 *          criterion: half-way at 1 mm nothing is in focus; mean 0.667 mm; most in focus at 0: 66.7 %.
 * Source: minimax of an even function; parallel axis theorem; the search is the authors'.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_focus_for_surface(const struct spotwise_beam *beam,
                                           const struct spotwise_depth_criterion *criterion,
                                           const struct spotwise_surface *surface,
                                           const struct spotwise_region *region,
                                           uint32_t cells_per_side,
                                           struct spotwise_surface_focus *focus,
                                           struct spotwise_error *error);

/**
 * Sets struct_size, codes, pointers and lengths to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_surface_init(struct spotwise_surface *surface);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_region_init(struct spotwise_region *region);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_surface_place_init(struct spotwise_surface_place *place);

/**
 * Height, slope and incidence angle of a surface at one place, and what the slope makes of the spot.
 *
 * z = slope_x dx + slope_y dy +- t^2/(R + sqrt(R^2 - t^2)), (dx, dy) being the place less the crown, t its
 * distance from it (or from the crown line), + for a bulge toward the lens. Within a cell of a grid heights
 * are bilinear. Incidence angle: its tangent is the length of the slope; stretch 1/cos, irradiance factor cos.
 *
 * On a place of a grid between cells, the slope is that of the cell of greater x and y; where that lacks a
 * probe, of the cell of greater x and lesser y, then of that of lesser x and greater y, then of the last. Each
 * step counts from its first edge; the last one also at its end. All of the surface is checked in every call.
 *
 * Walls of steps and shadows are not modelled.
 *
 * @param[in]  surface   surface, set with spotwise_surface_init() and filled in; not NULL.
 * @param[in]  place_x_m place in metres; range: SPOTWISE_PARAM_PLACE_X.
 * @param[in]  place_y_m place in metres; range: SPOTWISE_PARAM_PLACE_Y.
 * @param[out] place     result; set with spotwise_surface_place_init(); not NULL. On any status other than
 *                       SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error     what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL (also for an array that the shape reads), SPOTWISE_E_STRUCT_SIZE,
 *         SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_E_LENGTH_MISMATCH (heights not as many as strips, or as columns
 *         times rows), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (also a place beside steps or a grid,
 *         the range being theirs, fewer than two edges, columns or rows, and a SPOTWISE_PARAM_STEP_WIDTH or
 *         SPOTWISE_PARAM_GRID_SPACING below 1e-9 m), SPOTWISE_E_OUTSIDE_MODEL (a place beside a cylinder or
 *         sphere, as SPOTWISE_PARAM_DISTANCE_FROM_CROWN), SPOTWISE_E_UNDETERMINED (a cell, or all of a grid,
 *         that lacks probes, as SPOTWISE_PARAM_KNOWN_PROBES).
 *
 * Accuracy: 0.75 ulp, of the angle 1.5 ulp, besides what the rounded sine and cosine of axis_angle_rad make.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: a bar of 15 mm radius along x, 9 mm off its crown line: z 3 mm, slope_y 0.75, factor 0.8.
 * Source: sagitta of an arc, from Pythagoras' theorem; bilinear interpolation.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_surface_at(const struct spotwise_surface *surface,
                                    double place_x_m,
                                    double place_y_m,
                                    struct spotwise_surface_place *place,
                                    struct spotwise_error *error);

/**
 * Sets struct_size, missing_probes to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_surface_extremes_result_init(struct spotwise_surface_extremes_result *extremes);

/**
 * Highest, lowest and steepest place of a surface within a region, in closed form: nothing is searched for.
 *
 * Where part of the region is unknown, the extremes are those of the rest. Of several places that are equally
 * extreme the one of least y is told, of these the one of least x. Between cells of a grid the steepest of
 * them counts.
 *
 * @param[in]  surface  surface, set with spotwise_surface_init() and filled in; not NULL.
 * @param[in]  region   region, set with spotwise_region_init() and filled in; not NULL.
 * @param[out] extremes result; set with spotwise_surface_extremes_result_init(); not NULL. On any status other
 *                      than SPOTWISE_OK its numbers are set to a quiet NaN, its count to 0.
 * @param[out] error    what was refused; may be NULL.
 * @return as spotwise_surface_at() for the surface; SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE for an end
 *         of the region, and for a width of it below 1e-9 m as SPOTWISE_PARAM_REGION_WIDTH_X and _Y;
 *         SPOTWISE_E_OUTSIDE_MODEL (a region that reaches beside a cylinder or sphere, as
 *         SPOTWISE_PARAM_DISTANCE_FROM_CROWN), SPOTWISE_E_UNDETERMINED (no strip, or no cell with all its
 *         probes, as SPOTWISE_PARAM_KNOWN_PARTS).
 *
 * Accuracy: 0.75 ulp, of the angle 1.5 ulp, besides what the rounded sine and cosine of axis_angle_rad make.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: a bar of 15 mm radius along x, marked up to 9 mm on either side: highest z 0, range 3 mm.
 * Source: convexity of arcs; derived by the authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_surface_extremes(const struct spotwise_surface *surface,
                                          const struct spotwise_region *region,
                                          struct spotwise_surface_extremes_result *extremes,
                                          struct spotwise_error *error);

/**
 * Sets struct_size, the codes to 0, which are none, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_contribution_init(struct spotwise_contribution *contribution);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_tolerance_stack_result_init(struct spotwise_tolerance_stack_result *stack);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_offset_odds_result_init(struct spotwise_offset_odds_result *odds);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_surface_detail_init(struct spotwise_surface_detail *detail);

/**
 * Sets struct_size, also of the nested struct, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_detail_odds_result_init(struct spotwise_detail_odds_result *odds);

/**
 * Adds up a tolerance stack: worst case, combined deviation, and the half width that covers a share of
 * all cases.
 *
 * Variances add: of a uniform contribution a^2/3, triangular a^2/6, arc sine a^2/2, two-valued a^2,
 * normal (a/coverage factor)^2. The stated coverage is that of a normal sum; one that a single uniform or
 * two-valued contribution rules is not normal, and spotwise_offset_odds() tells. Contributions must not
 * depend on each other.
 *
 * @param[in]  contributions        count contributions, each set with spotwise_contribution_init(); not
 *                                  NULL unless count is 0.
 * @param[in]  count                number of contributions, 1 to SPOTWISE_TOLERANCE_MOST_CONTRIBUTIONS.
 * @param[in]  coverage_probability share of all cases; range: SPOTWISE_PARAM_COVERAGE_PROBABILITY.
 * @param[out] stack                result; set with spotwise_tolerance_stack_result_init(); not NULL. On
 *                                  any status other than SPOTWISE_OK its numbers are set to a quiet NaN,
 *                                  its places to 0.
 * @param[out] error                what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_LENGTH_MISMATCH (too many
 *         contributions, as SPOTWISE_PARAM_CONTRIBUTIONS), SPOTWISE_E_UNKNOWN_CHOICE (the first unknown
 *         source or distribution, before any number), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE
 *         (contribution by contribution, then the coverage probability), SPOTWISE_E_UNDETERMINED (no
 *         contribution, as SPOTWISE_PARAM_CONTRIBUTIONS).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result, the coverage factor 2, the
 *           expanded half width 3; the ends of the expanded interval that times (|bias| + half width)/|end|.
 * No allocation, no globals, no errno; any thread or interrupt. About 2 kB of stack for the list.
 * Since ABI 1.
 * Example: +-0.3 mm and +-0.1 mm, both uniform: worst case 0.4 mm, deviation 0.182574 mm.
 * Source: JCGM 100:2008 (GUM) 4.3.7, 4.3.9, 5.1.2, 6.2.1, from memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_tolerance_stack(const struct spotwise_contribution *contributions,
                                         size_t count,
                                         double coverage_probability,
                                         struct spotwise_tolerance_stack_result *stack,
                                         struct spotwise_error *error);

/**
 * The probability that the offset of the surface stays between two limits: as if it were normal, and by
 * drawing from the contributions as they are.
 *
 * The random numbers are those of SplitMix64 and the same on every machine and face; the time goes with
 * their number, and nothing is stored. A case counts by its offset as a double.
 *
 * @param[in]  contributions    count contributions, each set with spotwise_contribution_init(); not NULL
 *                              unless count is 0.
 * @param[in]  count            number of contributions, 1 to SPOTWISE_TOLERANCE_MOST_CONTRIBUTIONS.
 * @param[in]  toward_lens_z_m  limit toward the lens in metres, + away from the lens; range:
 *                              SPOTWISE_PARAM_TOWARD_LENS_Z.
 * @param[in]  away_from_lens_z_m limit away from the lens in metres, at least toward_lens_z_m; range:
 *                              SPOTWISE_PARAM_AWAY_FROM_LENS_Z.
 * @param[in]  draws            number of cases; range: SPOTWISE_PARAM_DRAWS.
 * @param[in]  seed             any whole number below 2^53, which is what every face can hold; range:
 *                              SPOTWISE_PARAM_SEED.
 * @param[out] odds             result; set with spotwise_offset_odds_result_init(); not NULL. On any
 *                              status other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error            what was refused; may be NULL.
 * @return as spotwise_tolerance_stack(); after the contributions the limits, the draws and the seed are
 *         checked.
 *
 * Accuracy: probabilities at most 3 ulp (units in the last place) of the exact result times 1 + x^2, x
 *           being the deviations at which a limit stands; shares 2 ulp; what was drawn 3 ulp of the
 *           contributions.
 * No allocation, no globals, no errno; any thread or interrupt. About 2 kB of stack for the list.
 * Since ABI 1.
 * Example: a single normal contribution of +-0.1 mm, coverage factor 1, from -0.1 to 0.2 mm: 0.8186.
 * Source: JCGM 101:2008; G. L. Steele Jr., D. Lea, C. H. Flood, OOPSLA 2014; E. B. Wilson, J. Am. Stat.
 *         Assoc. 22, 209 (1927); from memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_offset_odds(const struct spotwise_contribution *contributions,
                                     size_t count,
                                     double toward_lens_z_m,
                                     double away_from_lens_z_m,
                                     uint32_t draws,
                                     uint64_t seed,
                                     struct spotwise_offset_odds_result *odds,
                                     struct spotwise_error *error);

/**
 * The probability that the finest stroke and gap hold everywhere on a surface of given heights, which
 * strays by the sum of some contributions.
 *
 * The margins are how far the surface may move until its highest or lowest place leaves the range of
 * spotwise_offsets_for_diameter() at the diameter of spotwise_largest_spot_for_details(). The contributions
 * move the surface as a whole. The incidence angle is not modelled.
 *
 * @param[in]  beam          beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  detail        detail and surface; set with spotwise_surface_detail_init(); not NULL.
 * @param[in]  contributions count contributions, each set with spotwise_contribution_init(); not NULL
 *                           unless count is 0.
 * @param[in]  count         number of contributions, 1 to SPOTWISE_TOLERANCE_MOST_CONTRIBUTIONS.
 * @param[in]  draws         number of cases; range: SPOTWISE_PARAM_DRAWS.
 * @param[in]  seed          any whole number below 2^53; range: SPOTWISE_PARAM_SEED.
 * @param[out] odds          result; set with spotwise_detail_odds_result_init(); not NULL. On any status
 *                           other than SPOTWISE_OK its numbers are set to a quiet NaN, its flags to 0.
 * @param[out] error         what was refused; may be NULL.
 * @return as spotwise_offset_odds(), and SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad). Beam and
 *         detail are checked before the contributions.
 *
 * Accuracy: margins at most 3 ulp (units in the last place) of the exact result, times the offset at which
 *           the detail just holds over the margin, times r^2/(r^2 - 1), r being the largest spot over the
 *           waist; probabilities as spotwise_offset_odds(), and what the margins make of them.
 * No allocation, no globals, no errno; any thread or interrupt. About 2 kB of stack for the list.
 * Since ABI 1.
 * Source: as spotwise_offset_odds(), spotwise_offsets_for_diameter().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_detail_odds(const struct spotwise_beam *beam,
                                     const struct spotwise_surface_detail *detail,
                                     const struct spotwise_contribution *contributions,
                                     size_t count,
                                     uint32_t draws,
                                     uint64_t seed,
                                     struct spotwise_detail_odds_result *odds,
                                     struct spotwise_error *error);

/**
 * Sets struct_size, and every number to a quiet NaN, but focus_shift_m to 0 and coverage_factor_95 to
 * SPOTWISE_NORMAL_FACTOR_95. NULL does nothing.
 */
void spotwise_learned_focus_init(struct spotwise_learned_focus *learned);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_calibrated_set_up_result_init(struct spotwise_calibrated_set_up_result *set_up);

/**
 * Sets struct_size, and every number to a quiet NaN, but correlation to 0 and coverage_factor_95 to
 * SPOTWISE_NORMAL_FACTOR_95. NULL does nothing.
 */
void spotwise_learned_line_init(struct spotwise_learned_line *learned);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_learned_threshold_result_init(struct spotwise_learned_threshold_result *threshold);

/**
 * The set-up of which the focus is the one that test pieces found.
 *
 * Light goes its way backwards as well: the raw beam is what the lens makes of the measured focus, sent
 * back through it. Aberration and clipping are in the measured focus already, so the lens counts as
 * ideal. An M^2 below 1 is taken for 1 where its 95 % range reaches 1.
 *
 * A job on this machine: raw_beam SPOTWISE_RAW_BEAM_WAIST with raw_waist_diameter_m as waist_diameter_m
 * and waist_to_lens_m, m2, the wavelength and focal length that were given here, lens
 * SPOTWISE_LENS_IDEAL, focus_setting SPOTWISE_FOCUS_FROM_DATUM with the height at which the waist was
 * found as focus_z_m, and threshold_j_per_m2 from spotwise_learned_threshold(). With another lens the raw
 * beam and M^2 are carried over, but neither the height of focus nor the aberration of either lens.
 *
 * @param[in]  learned what was measured; set with spotwise_learned_focus_init(); not NULL.
 * @param[out] set_up  result; set with spotwise_calibrated_set_up_result_init(); not NULL. On any
 *                     status other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error   what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (an M^2 below 1 even at the end of its 95 %
 *         range, as SPOTWISE_PARAM_MEASURED_M2 with the least that its deviation allows: mark widths
 *         taken for beam widths, a radius for a diameter, or a deviation stated too small; half angle
 *         above 0.3 rad; a waist at the lens or before it, as SPOTWISE_PARAM_LENS_TO_WAIST; a raw beam
 *         beyond the range of SPOTWISE_PARAM_WAIST_DIAMETER or SPOTWISE_PARAM_WAIST_TO_LENS).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 10.6 um, M^2 = 1.2, a waist of 95 um behind a lens of 38.1 mm: a raw waist of 6.4953 mm,
 *          38.1 mm before the lens.
 * Source: that of spotwise_focus_through_lens(), taken backwards.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_calibrated_set_up(const struct spotwise_learned_focus *learned,
                                           struct spotwise_calibrated_set_up_result *set_up,
                                           struct spotwise_error *error);

/**
 * The dose at which the material just marks, from what a line in the waist has of it.
 *
 * Threshold = sqrt(8/pi) power/(speed d q), d being the waist diameter and q the dose ratio; its
 * deviation by the full covariance of both, to first order in their logarithms. Where doses of lines
 * add up it is the threshold of a fill as well. An error of the scale of power or speed cancels in jobs
 * that are stated on the same scale; incubation is not modelled.
 *
 * @param[in]  learned   what was measured; set with spotwise_learned_line_init(); not NULL.
 * @param[out] threshold result; set with spotwise_learned_threshold_result_init(); not NULL. On any
 *                       status other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error     what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_OUTSIDE_MODEL (a threshold beyond the range of
 *         SPOTWISE_PARAM_THRESHOLD).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 18 W at 0.4 m/s in a waist of 95 um, 4.2 times what just marks: 179 974 J/m^2.
 * Source: the line dose of spotwise_scan_dose(); JCGM 100:2008 (GUM), 5.2.2, from memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_learned_threshold(const struct spotwise_learned_line *learned,
                                           struct spotwise_learned_threshold_result *threshold,
                                           struct spotwise_error *error);

/**
 * Sets struct_size, the choices to 0, which is none, and every number to a quiet NaN; but lens to
 * SPOTWISE_LENS_IDEAL, clear_aperture_m to INFINITY, which is none, dose to SPOTWISE_DOSE_BY_RATIO,
 * response to SPOTWISE_RESPONSE_COATING, text to SPOTWISE_TEXT_NONE, and the cut-offs of its grades to
 * their defaults. NULL does nothing.
 */
void spotwise_job_init(struct spotwise_job *job);

/**
 * Sets struct_size, also of the nested structs, codes and flags to 0, and every number to a quiet NaN.
 * NULL does nothing.
 */
void spotwise_verdict_init(struct spotwise_verdict *verdict);

/**
 * Checks whether a drawing's finest stroke and gap hold over a surface, and its text keeps its grade,
 * and says why.
 *
 * A raster fill, whose dose is given by ratio or by what the machine is set to and how the material answers
 * to it. A melt sees the spot widened by heat, sqrt(d^2 + 32 k t) with t = sqrt(pi/8) d/v at that height (not dwell_s), and
 * details, text and ripple go by that. What spotwise_focus_through_lens(), for a real lens
 * spotwise_focus_singlet(), spotwise_smallest_details(), with text spotwise_smallest_text() and with a dose
 * by scan spotwise_material_mark() do not model is not in the verdict either; nor is incubation. It is
 * advice: engrave a test piece first. With a real lens the verdict rests on its 86.5 %-power spot, and
 * promised says what an ideal lens would have. Two things are no errors but findings: a largest diameter
 * below the waist, SPOTWISE_REASON_NO_DEPTH, and a dose ratio below 1.000001, whose outcome is
 * SPOTWISE_OUTCOME_NOTHING_MARKS. A virtual waist is refused, since nothing is in focus behind the lens, and
 * so are a surface that reaches the lens and a lens too aberrated for an 86.5 %-power spot.
 *
 * @param[in]  job     job to read; set with spotwise_job_init(); not NULL.
 * @param[out] verdict result; set with spotwise_verdict_init(); not NULL. On any status other
 *                     than SPOTWISE_OK its numbers are set to a quiet NaN, outcome, reasons and
 *                     flags to 0.
 * @param[out] error   what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (raw
 *         beam, focus setting, criterion, dose, for one by scan the response, lens, for a singlet glass
 *         and shape, text, and if it is given typeface and least grade, in this order, before any
 *         number), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (the optics, expander and lens with
 *         them, before all else; also a wavelength outside spotwise_glass_range()),
 *         SPOTWISE_E_OUTSIDE_MODEL (raw, expanded or focused half angle above 0.3 rad, a waist outside
 *         1e-9 to 10 m, a virtual waist as SPOTWISE_PARAM_LENS_TO_WAIST, a clipping ratio of a real
 *         lens below 1.2, its Rayleigh range above a fifth of the distance to the waist, or a
 *         normalised aberration above 1.7 as SPOTWISE_PARAM_NORMALISED_ABERRATION, all once the
 *         optics are checked; or a surface that reaches the lens as SPOTWISE_PARAM_LENS_TO_HIGHEST once
 *         surface_rise_m is; with a dose by scan an interval above 20 radii of the waist as
 *         SPOTWISE_PARAM_INTERVAL_OVER_RADIUS, and a fill dose outside the range of
 *         SPOTWISE_PARAM_ANY_DOSE_RATIO thresholds as that, once the threshold and the number of the
 *         response are).
 *
 * Accuracy: the optics at most 0.75 ulp (units in the last place) of the exact result; fits of a real
 *           lens, details, seen diameters and doses at most 6 ulp, a real lens's peak irradiance and
 *           dwell 12; ripple 8 ulp, text and ranges 4 ulp, and so the depth of the fill, times factors
 *           where they are about to vanish; in a melt details, text and ripple times 3/2, ranges times
 *           up to 3; how well the fits describe a lens is told at spotwise_aberration_growth().
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: those of the calls named above, and of spotwise_defocus().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_focus_check(const struct spotwise_job *job,
                                     struct spotwise_verdict *verdict,
                                     struct spotwise_error *error);

/**
 * Sets struct_size, also of the nested structs, codes, flags and bands to 0, and every number to a quiet NaN.
 * NULL does nothing.
 */
void spotwise_surface_verdict_init(struct spotwise_surface_verdict *found);

/**
 * Checks whether a drawing's finest stroke and gap hold, and its text keeps its grade, all over the region of
 * a surface; says where it is worst, how much of the area holds, and what would help.
 *
 * As spotwise_focus_check() for the highest and the lowest place of spotwise_surface_extremes(), which count
 * from the datum of the job. Its surface_rise_m and surface_fall_m are then no part of the shape: they are added
 * at its ends, for all by which the surface may lie otherwise than told. Where part of the region is unknown,
 * the verdict is that on the rest, and SPOTWISE_REASON_PARTLY_UNKNOWN says so. A slope lowers the dose by the
 * cosine of its angle: where that leaves too little to mark at the steepest place, the outcome is
 * SPOTWISE_OUTCOME_LOST (SPOTWISE_REASON_TOO_STEEP_TO_MARK); else what it does to spot and dose is not in the
 * verdict but beside it, and above 0.35 rad (20 degrees) SPOTWISE_REASON_STEEP says so.
 *
 * @param[in]  job            job to read; set with spotwise_job_init(); not NULL.
 * @param[in]  surface        surface, set with spotwise_surface_init() and filled in; not NULL.
 * @param[in]  region         region, set with spotwise_region_init() and filled in; not NULL.
 * @param[in]  cells_per_side equal cells that are laid over a cylinder or sphere in x and in y to measure
 *                            shares of area; 128 is plenty; range: SPOTWISE_PARAM_CELLS_PER_SIDE.
 * @param[out] found          result; set with spotwise_surface_verdict_init(); not NULL. On any status other
 *                            than SPOTWISE_OK its numbers are set to a quiet NaN, codes, flags and bands to 0.
 * @param[out] error          what was refused; may be NULL.
 * @return as spotwise_focus_check() for the choices of the job; then as spotwise_surface_extremes(); then
 *         SPOTWISE_E_OUT_OF_RANGE for cells_per_side; then as spotwise_focus_check() for its numbers.
 *
 * Accuracy: those of spotwise_focus_check(), spotwise_surface_extremes() and spotwise_share_in_focus();
 *           stretch and factor 4 ulp times 1 + a tan(a), a being the steepest incidence.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: those of the calls named above.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_surface_check(const struct spotwise_job *job,
                                       const struct spotwise_surface *surface,
                                       const struct spotwise_region *region,
                                       uint32_t cells_per_side,
                                       struct spotwise_surface_verdict *found,
                                       struct spotwise_error *error);

/**
 * Sets struct_size, the choices to 0, which is none, and every number to a quiet NaN; but lens to
 * SPOTWISE_LENS_IDEAL and clear_aperture_m to INFINITY, which is none. NULL does nothing.
 */
void spotwise_lens_candidate_init(struct spotwise_lens_candidate *candidate);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_set_up_init(struct spotwise_set_up *set_up);

/**
 * Sets struct_size, also of the nested structs, codes and flags to 0, and every number to a quiet NaN.
 * NULL does nothing.
 */
void spotwise_lens_ranking_init(struct spotwise_lens_ranking *ranking);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_lens_choice_init(struct spotwise_lens_choice *choice);

/**
 * Ranks the lenses that might serve a job, with reasons, and says where the first two would swap.
 *
 * Every lens has its focus at mid-height of the surface; the worst places lie (rise + fall)/2 + tolerance
 * from the waist. What a lens does there is what spotwise_focus_check() says. The order: lenses that serve;
 * those of which only the clearance is too small; those with which a detail or the text is lost, the fill
 * breaks up into its lines, or nothing marks; those whose light the model cannot follow. Within each the
 * smaller spot at the worst places goes first, then the greater depth of focus, then the one named first. A
 * lens whose light the model cannot follow spoils nothing: its entry says why. So it is with a glass opaque
 * at the wavelength, a spot that no closed form gives, lines of a scan too far apart for the spot, and a
 * surface that reaches the lens. A lens taken for ideal looks better than the same lens taken as it is.
 *
 * @param[in]  job        job to read; set with spotwise_job_init(); not NULL. Its own lens and focus
 *                        (focal_length_m, lens and all that goes with it, focus_setting, focus_z_m,
 *                        lens_to_surface_m) are not read.
 * @param[in]  candidates count lenses, each set with spotwise_lens_candidate_init(); not NULL unless count
 *                        is 0.
 * @param[in]  count      number of lenses, 1 to SPOTWISE_MOST_LENSES.
 * @param[in]  set_up     tolerance and least clearance; set with spotwise_set_up_init(); not NULL.
 * @param[out] rankings   count entries, the i-th for the i-th lens; each set with
 *                        spotwise_lens_ranking_init(); not NULL unless count is 0, and apart from the
 *                        lenses. On any status other than SPOTWISE_OK each is made as that makes it, but for
 *                        a number of lenses that no array can have: then nothing is written to it.
 * @param[out] choice     result; set with spotwise_lens_choice_init(); not NULL. On any status other than
 *                        SPOTWISE_OK its numbers are set to a quiet NaN, serving and best to 0.
 * @param[out] error      what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP,
 *         SPOTWISE_E_OUT_OF_RANGE (no lenses or more than SPOTWISE_MOST_LENSES, as
 *         SPOTWISE_PARAM_LENS_CANDIDATES, before any choice), SPOTWISE_E_UNKNOWN_CHOICE (of the job, in the
 *         order of spotwise_focus_check(), then of the lenses, one by one), SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE (of the job, then of the set-up, then focal length, shape factor,
 *         aperture and working distance of each lens), SPOTWISE_E_OUTSIDE_MODEL (raw beam and dose as
 *         spotwise_focus_check(); worst places more than 1 km from the waist, as
 *         SPOTWISE_PARAM_SURFACE_RISE).
 *
 * Accuracy: waist, Rayleigh range, lens_to_waist_m, crossing, clearance and spans at most 0.75 ulp (units in
 *           the last place) of the exact result, depth_full_m too; growth, line dose and diameters at most 2,
 *           irradiance 2.5; details and text 5 ulp, ripple 8 and spare_half_span_m 4 ulp of the heights that
 *           hold, times the factors that spotwise_focus_check() names.
 * No allocation, no globals, no errno; any thread or interrupt. About 4 kB of stack besides that of
 * spotwise_focus_check(). Since ABI 1.
 * Source: those of spotwise_focus_check() and spotwise_caustic_crossing().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_choose_lens(const struct spotwise_job *job,
                                     const struct spotwise_lens_candidate *candidates,
                                     size_t count,
                                     const struct spotwise_set_up *set_up,
                                     struct spotwise_lens_ranking *rankings,
                                     struct spotwise_lens_choice *choice,
                                     struct spotwise_error *error);

/**
 * One sentence for a reason of a lens; "unknown" unless exactly one reason is given.
 *
 * @param[in] reason one bit, one of SPOTWISE_LENS_REASON_*.
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_lens_reason_text(uint32_t reason);

/**
 * Sets struct_size, every number to a quiet NaN, and every code to 0. NULL does nothing.
 */
void spotwise_beam_fit_options_init(struct spotwise_beam_fit_options *options);

/**
 * Sets struct_size, every number to a quiet NaN, and every code to 0. NULL does nothing.
 */
void spotwise_beam_fit_init(struct spotwise_beam_fit *fit);

/**
 * Waist, Rayleigh range, divergence and M^2 from the widths of a beam at several heights, with
 * deviations, ranges and warnings.
 *
 * D^2 = A + B z + C z^2, weighted, centred and scaled. Where the readings scatter more than their
 * deviations say, the deviations of the results are enlarged to match, and ranges are Student's.
 * Outliers: the reading whose leaving out lowers chi squared most is left out if it falls by more
 * than outlier_limit^2 times its new mean (or 1), while at least five readings remain, up to a quarter
 * of them. It tells widths of marks from those of a beam where they can be told: see
 * SPOTWISE_BEAM_WARNING_MARK_WIDTHS.
 *
 * Errors of the heights, and astigmatism, are not modelled: fit each axis by itself.
 *
 * @param[in]  height_m     readings heights in metres, + away from the lens; not NULL unless readings
 *                          is 0; range: SPOTWISE_PARAM_PIECE_HEIGHT.
 * @param[in]  diameter_m   readings beam widths (diameters, 1/e^2 or D4 sigma) in metres; not NULL
 *                          unless readings is 0; range: SPOTWISE_PARAM_BEAM_DIAMETER.
 * @param[in]  deviation_m  readings standard deviations of the widths in metres; not NULL unless
 *                          readings is 0; range: SPOTWISE_PARAM_WIDTH_DEVIATION.
 * @param[in]  readings     length of each array, at least 4; range: SPOTWISE_PARAM_READINGS.
 * @param[in]  wavelength_m vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
 * @param[in]  options      how to fit; set with spotwise_beam_fit_options_init(); not NULL.
 * @param[out] residual_m   readings numbers, each width read less that of the least-squares curve, in
 *                          metres, also of those left out; not NULL unless readings is 0, and apart from the other
 *                          arrays. On any status other than SPOTWISE_OK all of it is set to a quiet
 *                          NaN, but for a length that no array can have.
 * @param[out] used         readings numbers, 1 for a reading that was used, else 0; not NULL unless
 *                          readings is 0, and apart from the other arrays. On any status other than
 *                          SPOTWISE_OK all of it is set to 0, but for a length that no array can have.
 * @param[out] fit          result; set with spotwise_beam_fit_init(); not NULL. On any status other
 *                          than SPOTWISE_OK its numbers are set to a quiet NaN, its codes and flags
 *                          to 0.
 * @param[out] error        what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP,
 *         SPOTWISE_E_LENGTH_MISMATCH (a length that memory cannot hold), SPOTWISE_E_UNKNOWN_CHOICE,
 *         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (all heights, all diameters, all deviations,
 *         the wavelength, the options, too many readings), SPOTWISE_E_UNDETERMINED
 *         (SPOTWISE_PARAM_READINGS: fewer than four; SPOTWISE_PARAM_DISTINCT_HEIGHTS: fewer than
 *         three heights; SPOTWISE_PARAM_CURVATURE_SIGNIFICANCE: no minimum is seen, read farther from
 *         focus on either side, and do not fit marks as a beam, whose widths may even fall there, with
 *         a value below 0; SPOTWISE_PARAM_WAIST_SIGNIFICANCE: the widths come to a point, read nearer
 *         to focus; SPOTWISE_PARAM_STEADY_WEIGHTS: the deviations are as large as the widths),
 *         SPOTWISE_E_OUTSIDE_MODEL (waist, Rayleigh range, divergence or M^2 beyond their ranges).
 *
 * Accuracy: 1e-12 for readings over two Rayleigh ranges or more to either side; statistics 1e-11.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: a beam of 80 um in its waist with a Rayleigh range of 4 mm at 1.064 um, read at ten
 *          heights within 2.5 of these: M^2 = 1.181.
 * Source: ISO 11146-1, from memory; weights and deviations: any textbook of weighted least squares;
 *         the warnings of wrong data derived here.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_fit_beam(const double *height_m,
                                  const double *diameter_m,
                                  const double *deviation_m,
                                  size_t readings,
                                  double wavelength_m,
                                  const struct spotwise_beam_fit_options *options,
                                  double *residual_m,
                                  uint8_t *used,
                                  struct spotwise_beam_fit *fit,
                                  struct spotwise_error *error);

/**
 * One sentence for a warning of a fit; "unknown" unless exactly one warning is given.
 *
 * @param[in] warning one bit, one of SPOTWISE_BEAM_WARNING_*.
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_beam_warning_text(uint32_t warning);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_eye_judgement_init(struct spotwise_eye_judgement *judgement);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_vanishing_focus_init(struct spotwise_vanishing_focus *focus);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_rank_focus_init(struct spotwise_rank_focus *focus);

/**
 * Focus height from a series of little power, of which only the pieces near focus show a mark.
 *
 * Focus is midway between the two heights at which the mark vanishes. Each is found from the seen pieces, counted
 * from the middle of the run outward (the sum of Spearman and Kaerber); its deviation comes from the step and from
 * how much chance there is in a piece. Heights may stand in any order, and more than one piece at the same height.
 * Where nothing is left to chance the range holds on average over all places of focus between two heights, not at
 * each. Not modelled: astigmatic light.
 *
 * @param[in]  z_m       pieces heights in metres, + away from the lens, from any datum; not NULL unless pieces is
 *                       0; range: SPOTWISE_PARAM_PIECE_HEIGHT.
 * @param[in]  seen      pieces bytes, 0 for a piece without a mark; not NULL unless pieces is 0.
 * @param[in]  pieces    length of both arrays, 1 to SPOTWISE_MOST_PIECES.
 * @param[in]  mark_kind what the pieces are made of: SPOTWISE_MARK_PULSE or SPOTWISE_MARK_LINE.
 * @param[in]  judgement what is known of the eye and the light; set with spotwise_eye_judgement_init(); not NULL.
 * @param[out] focus     result; set with spotwise_vanishing_focus_init(); not NULL. On any status other than
 *                       SPOTWISE_OK its numbers are set to a quiet NaN, its flags to 0.
 * @param[out] error     what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_LENGTH_MISMATCH (a length that memory
 *         cannot hold), SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_E_OUT_OF_RANGE (a number of pieces as
 *         SPOTWISE_PARAM_PIECES), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (heights, then Rayleigh range,
 *         deviation, coverage probability), SPOTWISE_E_UNDETERMINED (no piece shows a mark, as
 *         SPOTWISE_PARAM_GOOD_PIECES: more power or other heights would tell; the run has no end on one side, as
 *         SPOTWISE_PARAM_BOUND_TOWARD_LENS or SPOTWISE_PARAM_BOUND_AWAY_FROM_LENS: further pieces there would
 *         tell), SPOTWISE_E_OUTSIDE_MODEL (half the range exceeds 1 km, as SPOTWISE_PARAM_HALF_WIDTH).
 *
 * Accuracy: heights and half_run_m at most 0.75 ulp (units in the last place) of the exact result, deviations and
 *           dose_ratio 2, the range 6 times (|focus| + half width)/|end|.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: lines in steps of 0.1 mm from 0, the third to the seventh seen: focus at 0.4 mm.
 * Source: C. Spearman, British Journal of Psychology 2, 227 (1908); G. Kaerber, Archiv fuer experimentelle
 *         Pathologie und Pharmakologie 162, 480 (1931), from memory; the deviation is derived in the model.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_focus_from_vanishing(const double *z_m,
                                              const uint8_t *seen,
                                              size_t pieces,
                                              uint32_t mark_kind,
                                              const struct spotwise_eye_judgement *judgement,
                                              struct spotwise_vanishing_focus *focus,
                                              struct spotwise_error *error);

/**
 * Focus height and usable range from the ranks of a series of pieces.
 *
 * Focus is the mean of the middle of the sharp pieces and that of the acceptable or better ones, as far as each run
 * is bounded on both sides; how ends and deviations are found: spotwise_focus_from_vanishing(). The usable range is
 * the run of acceptable pieces or better; where it is open, that is flagged.
 *
 * @param[in]  z_m       pieces heights in metres, + away from the lens, from any datum; not NULL unless pieces is
 *                       0; range: SPOTWISE_PARAM_PIECE_HEIGHT.
 * @param[in]  rank      pieces codes, each one of SPOTWISE_RANK_*; not NULL unless pieces is 0.
 * @param[in]  pieces    length of both arrays, 1 to SPOTWISE_MOST_PIECES.
 * @param[in]  judgement what is known of the eye and the light; set with spotwise_eye_judgement_init(); not NULL.
 * @param[out] focus     result; set with spotwise_rank_focus_init(); not NULL. On any status other than
 *                       SPOTWISE_OK its numbers are set to a quiet NaN, its flags to 0.
 * @param[out] error     what was refused; may be NULL.
 * @return as spotwise_focus_from_vanishing(); SPOTWISE_E_UNKNOWN_CHOICE for a rank comes before any number, but
 *         after a number of pieces beyond SPOTWISE_MOST_PIECES; SPOTWISE_PARAM_BOUND_TOWARD_LENS or
 *         SPOTWISE_PARAM_BOUND_AWAY_FROM_LENS names the side on which the sharp run (without any sharp piece the
 *         acceptable one) has no end.
 *
 * Accuracy: heights and sharp_half_run_m at most 0.75 ulp (units in the last place) of the exact result,
 *           deviations 2, the range 6 times (|focus| + half width)/|end|.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: steps of 0.2 mm from 0, ranked 1, 1, 2, 3, 3, 2, 2, 1, 1: focus at 0.75 mm, usable from 0.3 to 1.3 mm.
 * Source: that of spotwise_focus_from_vanishing().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_focus_from_ranks(const double *z_m,
                                          const uint32_t *rank,
                                          size_t pieces,
                                          const struct spotwise_eye_judgement *judgement,
                                          struct spotwise_rank_focus *focus,
                                          struct spotwise_error *error);

/**
 * One sentence for a warning of these; "unknown" unless exactly one is given.
 *
 * @param[in] warning one bit, one of SPOTWISE_EYE_*.
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_eye_warning_text(uint32_t warning);

/**
 * Sets struct_size, the codes to 0, which are none, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_mark_series_init(struct spotwise_mark_series *series);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_mark_fit_init(struct spotwise_mark_fit *fit);

/**
 * Focus, spot, Rayleigh range and dose from the widths of marks at stepped heights.
 *
 * A mark is sqrt(2 L) of the spot's 1/e^2 radius wide, where L is the logarithm of dose over threshold
 * at its height: it is no width of the beam. Where L is not positive the mark vanishes, and that tells
 * something too. Waist height, diameter, Rayleigh range and dose ratio are found by weighted least
 * squares from several starts, with M squared or the waist diameter as further data where known.
 *
 * Outliers: the mark without which chi squared would fall most is left out if it falls by more than
 * outlier_limit^2 times its new mean (or 1), and all is fitted again; and again, up to a quarter of the
 * marks.
 *
 * Errors of the heights, astigmatism, aberration, and marks that heat has widened are not modelled.
 *
 * @param[in]  height_m    marks heights of the surface in metres from any one datum, + away from the
 *                         lens; not NULL unless marks is 0; range: SPOTWISE_PARAM_Z_OFFSET.
 * @param[in]  width_m     marks widths (diameters) in metres, exactly 0 for a mark that vanished; not
 *                         NULL unless marks is 0; range: SPOTWISE_PARAM_MARK_WIDTH.
 * @param[in]  deviation_m marks standard deviations of the widths in metres, of a mark that vanished
 *                         the width that might have been overlooked; not NULL unless marks is 0; range:
 *                         SPOTWISE_PARAM_WIDTH_DEVIATION.
 * @param[in]  power_ratio marks powers over the power of reference, 1 in a series at one power; not
 *                         NULL unless marks is 0; range: SPOTWISE_PARAM_POWER_RATIO.
 * @param[in]  marks       length of each array, at least 5, less 1 for each of M squared and waist
 *                         diameter that is known.
 * @param[in]  series      what is known, and how to judge; set with spotwise_mark_series_init(); not
 *                         NULL.
 * @param[out] residual    marks numbers, by how many deviations each mark is wider than the fit; not
 *                         NULL unless marks is 0, and apart from the other arrays. On any status other
 *                         than SPOTWISE_OK all of it is set to a quiet NaN.
 * @param[out] used        marks numbers, 1 for a mark that was used, else 0; likewise. On any status
 *                         other than SPOTWISE_OK all of it is set to 0. Of a length that no array can
 *                         have nothing is written to either.
 * @param[out] fit         result; set with spotwise_mark_fit_init(); not NULL. On any status other
 *                         than SPOTWISE_OK its numbers are set to a quiet NaN, its codes and flags to 0.
 * @param[out] error       what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP,
 *         SPOTWISE_E_LENGTH_MISMATCH (a length that memory cannot hold), SPOTWISE_E_UNKNOWN_CHOICE,
 *         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (all heights, all widths, all deviations, all
 *         powers, then the series), SPOTWISE_E_UNDETERMINED (too few marks seen as
 *         SPOTWISE_PARAM_MARKS_USED; fewer than three heights as SPOTWISE_PARAM_DISTINCT_HEIGHTS;
 *         widths that do not clearly change with height as SPOTWISE_PARAM_SHAPE_SIGNIFICANCE: mark with
 *         less power, or out to where marks vanish; a waist outside the heights as
 *         SPOTWISE_PARAM_WAIST_WITHIN_HEIGHTS: add marks beyond that end; a height of the waist that is
 *         too uncertain as SPOTWISE_PARAM_WAIST_Z_CERTAINTY; a spot that cannot be told from the dose
 *         as SPOTWISE_PARAM_SIZE_CERTAINTY: mark again at twice the power, or give M squared),
 *         SPOTWISE_E_OUTSIDE_MODEL (waist, Rayleigh range or dose ratio that are none of the model's).
 *
 * Accuracy: 1e-9 of each deviation for the values, 1e-6 for the deviations.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Source: the law of spotwise_mark_width(); weighted least squares in any textbook.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_fit_mark_widths(const double *height_m,
                                         const double *width_m,
                                         const double *deviation_m,
                                         const double *power_ratio,
                                         size_t marks,
                                         const struct spotwise_mark_series *series,
                                         double *residual,
                                         uint8_t *used,
                                         struct spotwise_mark_fit *fit,
                                         struct spotwise_error *error);

/**
 * One sentence for a caution of a fit; "unknown" unless exactly one is given.
 *
 * @param[in] caution one bit, one of SPOTWISE_MARK_FIT_*.
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_mark_fit_caution_text(uint32_t caution);

/**
 * One sentence for further marks that would help; "unknown" unless exactly one kind is given.
 *
 * @param[in] further one bit, one of SPOTWISE_FURTHER_MARKS_*.
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_further_marks_text(uint32_t further);

/**
 * Sets struct_size, also of the structs within, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_learned_machine_init(struct spotwise_learned_machine *learned);

/**
 * What a fit of lines tells of a machine: the step from spotwise_fit_mark_widths() to
 * spotwise_calibrated_set_up() and spotwise_learned_threshold(), which take its members as they are.
 *
 * The waist is taken to lie in the focal point of the lens: a series of marks does not tell how far the
 * lens is. Marks of single pulses tell beam and focus as well, but no line: their power and speed mean
 * nothing.
 *
 * @param[in]  fit            what the marks told, with ranges for a confidence of 0.95; not NULL.
 * @param[in]  wavelength_m   vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
 * @param[in]  focal_length_m focal length of the lens in metres, at the working wavelength; range:
 *                            SPOTWISE_PARAM_FOCAL_LENGTH.
 * @param[in]  power_w        power of reference on the surface in watts, averaged over pulses; range:
 *                            SPOTWISE_PARAM_POWER.
 * @param[in]  speed_m_per_s  speed along the lines in m/s; range: SPOTWISE_PARAM_SPEED.
 * @param[out] learned        result; set with spotwise_learned_machine_init(); not NULL. On any status
 *                            other than SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error          what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE (what was found, in the order of spotwise_learned_focus and
 *         spotwise_learned_line; the other arguments; as SPOTWISE_PARAM_COVERAGE_FACTOR_95 a fit whose
 *         ranges are for another confidence).
 *
 * Accuracy: numbers are handed on; the relative deviation of the dose ratio is correctly rounded.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: a dose ratio of 4.2 with the deviation 0.126 in a waist of 95 um, from lines of 18 W at
 *          0.4 m/s: a relative deviation of 0.03, and a threshold of 179 974 J/m^2.
 * Source: the factors of 95 % ranges are those of spotwise_student_factor() and of a normal law.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_calibration_from_marks(const struct spotwise_mark_fit *fit,
                                                double wavelength_m,
                                                double focal_length_m,
                                                double power_w,
                                                double speed_m_per_s,
                                                struct spotwise_learned_machine *learned,
                                                struct spotwise_error *error);

/**
 * Sets struct_size, the choices to 0, which is none, and every number to a quiet NaN; but step_m, half_range_m and
 * axis_step_m to 0, and both travels and row_width_m to INFINITY. NULL does nothing.
 */
void spotwise_series_request_init(struct spotwise_series_request *request);

/**
 * Sets struct_size, the codes to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_planned_piece_init(struct spotwise_planned_piece *piece);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_series_plan_init(struct spotwise_series_plan *plan);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_repeated_width_init(struct spotwise_repeated_width *repeats);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_drift_init(struct spotwise_drift *drift);

/**
 * Plans a series of test pieces at stepped heights.
 *
 * Unless told otherwise: for widths or ranks, steps of 0.4 Rayleigh ranges over 2 of them on either side and the
 * uncertainty of focus; for vanishing marks, steps of a quarter of the offset at which they vanish, over 1.5 times that
 * offset and the uncertainty. A step is rounded to whole steps of the axis. The axis sweeps one way; every piece is
 * approached in that direction, the first and every repeat from two backlashes before its height. Expected focus and,
 * of widths, the farthest height within a Rayleigh range away from it are engraved before and after the sweep, for
 * spotwise_series_drift(). A height without clearance, travel or room to approach it is left out and says why.
 * Pieces stand in rows in the order in which they are engraved, the height below each.
 *
 * @param[in]  beam    the expected beam; set with spotwise_beam_init(); not NULL.
 * @param[in]  request what is wanted; set with spotwise_series_request_init(); not NULL.
 * @param[out] pieces  room entries, filled in the order in which they are engraved, those that are left out among
 *                     them; each set with spotwise_planned_piece_init(); not NULL unless room is 0. What is not
 *                     filled, and all of it on any status other than SPOTWISE_OK, is made as that makes it, but for
 *                     a room that no array can have: then nothing is written to it.
 * @param[in]  room    entries of pieces; 0 to ask for their number first. 245 are always enough.
 * @param[out] plan    result; set with spotwise_series_plan_init(); not NULL. On any status other than SPOTWISE_OK
 *                     its numbers are set to a quiet NaN, its counts and flags to 0.
 * @param[out] error   what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (purpose, mark kind,
 *         direction), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (the beam, then the request from dose_ratio
 *         on), SPOTWISE_E_OUTSIDE_MODEL (a cone too wide; a step, or heights, out of range; fewer than 2 or more than
 *         120 steps on either side as SPOTWISE_PARAM_STEPS_PER_SIDE: make the step greater or the range less; fewer
 *         than two steps left on one side as SPOTWISE_PARAM_STEPS_TOWARD_LENS or
 *         SPOTWISE_PARAM_STEPS_AWAY_FROM_LENS: take smaller steps, or make room there),
 *         SPOTWISE_E_LENGTH_MISMATCH (too little room, as SPOTWISE_PARAM_PLANNED_PIECES).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result, counted from the step as it is rounded.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: a spot of 60 um, 1.064 um, M2 1.2 has a Rayleigh range of 2.2145 mm: steps of 0.886 mm, 11 heights.
 * Source: common practice of stepped test pieces (no source); steps and ranges by simulation.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_plan_series(const struct spotwise_beam *beam,
                                     const struct spotwise_series_request *request,
                                     struct spotwise_planned_piece *pieces,
                                     size_t room,
                                     struct spotwise_series_plan *plan,
                                     struct spotwise_error *error);

/**
 * Whether something drifted in the course of a series, from a height that was engraved before and after it.
 *
 * In focus a change tells of dose: power, speed, material. On the flank, about a Rayleigh range off, it tells of
 * height as well, of which focus tells next to nothing. Deviations are taken for known and errors for normal.
 *
 * @param[in]  repeats              the widths; set with spotwise_repeated_width_init(); not NULL.
 * @param[in]  coverage_probability how sure to be, such as 0.95; range: SPOTWISE_PARAM_COVERAGE_PROBABILITY.
 * @param[out] drift                result; set with spotwise_drift_init(); not NULL. On any status other than
 *                                  SPOTWISE_OK its numbers are set to a quiet NaN, drifted to 0.
 * @param[out] error                what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (the
 *         members in their order, then the coverage probability).
 *
 * Accuracy: change_m at most 0.75 ulp (units in the last place) of the exact result, its deviation 2, significance 3,
 *           chance 3 times (1 + significance^2).
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 60 +- 3 um before and 70 +- 4 um after: two deviations, chance 0.0455.
 * Source: the difference of two normal numbers; any textbook of statistics.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_series_drift(const struct spotwise_repeated_width *repeats,
                                      double coverage_probability,
                                      struct spotwise_drift *drift,
                                      struct spotwise_error *error);

/**
 * Text of a height for the label of a piece: millimetres with three decimals and a sign, such as +0.400.
 *
 * @param[in]  z_m  height in metres; range: SPOTWISE_PARAM_PIECE_HEIGHT.
 * @param[out] text SPOTWISE_LABEL_ROOM characters, the text and its NUL; empty for what is no height of up to 1000 m;
 *                  NULL does nothing.
 * @return characters of the text, without its NUL; 0 if it is empty. Any thread or interrupt. Since ABI 1.
 */
uint32_t spotwise_height_label(double z_m,
                               char *text);

/**
 * One sentence for why a height is left out, with what would bring it back; "unknown" for any other number.
 *
 * @param[in] reason one of SPOTWISE_SKIP_*.
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_skip_reason_text(uint32_t reason);

/**
 * Half width of a range over the standard deviation that holds the truth with this confidence, where
 * the deviation is known from scatter alone: Student's t.
 *
 * Errors that are not normal are not modelled. For many degrees of freedom it is the half width of
 * the normal law, 1.96 at 95 %.
 *
 * @param[in]  confidence         share of cases in which the range is to hold the truth; range:
 *                                SPOTWISE_PARAM_CONFIDENCE.
 * @param[in]  degrees_of_freedom readings used less parameters fitted; range:
 *                                SPOTWISE_PARAM_DEGREES_OF_FREEDOM.
 * @param[out] factor             half width over standard deviation; not NULL. On any status other
 *                                than SPOTWISE_OK it is set to a quiet NaN.
 * @param[out] error              what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 8 ulp (units in the last place) of the exact result.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 95 % and 8 degrees of freedom: 2.306.
 * Source: M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4, from
 *         memory; for many degrees derived here.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_student_factor(double confidence,
                                        uint32_t degrees_of_freedom,
                                        double *factor,
                                        struct spotwise_error *error);

/**
 * Chance of a chi squared as great as this or greater, where readings scatter as their deviations
 * say.
 *
 * Near 0 the fit is bad: the model is wrong, or the deviations are too small. Near 1 it is too good:
 * the deviations are too large. It takes a step for every second degree of freedom. Chances below the
 * smallest double are 0.
 *
 * @param[in]  chi_squared        sum of squared residuals over their variances; range:
 *                                SPOTWISE_PARAM_CHI_SQUARED.
 * @param[in]  degrees_of_freedom readings used less parameters fitted; range:
 *                                SPOTWISE_PARAM_DEGREES_OF_FREEDOM.
 * @param[out] chance             the chance; not NULL. On any status other than SPOTWISE_OK it is
 *                                set to a quiet NaN.
 * @param[out] error              what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * Accuracy: at most 12 ulp (units in the last place) of the exact result, times 1 + |d ln(chance)/d
 *           ln(chi squared)|.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 15.507 with 8 degrees of freedom: 0.05.
 * Source: M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 26.4.4 and 26.4.5, from
 *         memory.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_chi_squared_chance(double chi_squared,
                                            uint32_t degrees_of_freedom,
                                            double *chance,
                                            struct spotwise_error *error);

/**
 * Sets struct_size, every number to a quiet NaN, and every code to 0. NULL does nothing.
 */
void spotwise_threshold_fit_options_init(struct spotwise_threshold_fit_options *options);

/**
 * Sets struct_size, every number to a quiet NaN, and every code to 0. NULL does nothing.
 */
void spotwise_threshold_fit_init(struct spotwise_threshold_fit *fit);

/**
 * Spot diameter and threshold from the widths of test marks of several doses, with deviations,
 * ranges and warnings.
 *
 * Squared width b^2 = (d^2/2) ln(E/E0) against the logarithm of E, a weighted straight line. It
 * holds for dots against pulse energy and for lines against power at one speed alike, in focus and
 * out of it. Where the marks scatter more than their deviations say, the deviations of the results
 * are enlarged to match, and ranges are Student's.
 *
 * Outliers: the mark whose leaving out lowers chi squared most is left out if it falls by more than
 * outlier_limit^2 times its new mean (or 1), while at least four marks remain, up to a quarter of
 * them.
 *
 * Errors of the doses, and marks that heat or melt have widened, are not modelled.
 *
 * @param[in]  dose         marks pulse energies, powers or doses, in any one unit; not NULL unless
 *                          marks is 0; range: SPOTWISE_PARAM_DOSE.
 * @param[in]  width_m      marks widths (diameters) of the marks in metres; not NULL unless marks is
 *                          0; range: SPOTWISE_PARAM_MARK_WIDTH.
 * @param[in]  deviation_m  marks standard deviations of the widths in metres; not NULL unless marks
 *                          is 0; range: SPOTWISE_PARAM_WIDTH_DEVIATION.
 * @param[in]  marks        length of each array, at least 3.
 * @param[in]  options      how to fit; set with spotwise_threshold_fit_options_init(); not NULL.
 * @param[out] residual_m   marks numbers, each width read less the width fitted, in metres, also of
 *                          those left out, where a mark below the threshold found is fitted by 0; not
 *                          NULL unless marks is 0, and apart from the other arrays. On any status
 *                          other than SPOTWISE_OK all of it is set to a quiet NaN, but for a length
 *                          that no array can have.
 * @param[out] used         marks numbers, 1 for a mark that was used, else 0; not NULL unless
 *                          marks is 0, and apart from the other arrays. On any status other than
 *                          SPOTWISE_OK all of it is set to 0, but for a length that no array can
 *                          have: then nothing is written to it.
 * @param[out] fit          result; set with spotwise_threshold_fit_init(); not NULL. On any
 *                          status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
 *                          codes and flags to 0.
 * @param[out] error        what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP,
 *         SPOTWISE_E_LENGTH_MISMATCH (a length that memory cannot hold), SPOTWISE_E_UNKNOWN_CHOICE,
 *         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (all doses, all widths, all deviations, the
 *         options), SPOTWISE_E_UNDETERMINED (SPOTWISE_PARAM_MARKS_USED: fewer than three;
 *         SPOTWISE_PARAM_SIGNIFICANCE: a slope of less than 3 times its deviation, the marks do not
 *         grow with the dose, or not clearly; SPOTWISE_PARAM_CERTAINTY: a threshold less than its
 *         deviation, mark with lower doses; SPOTWISE_PARAM_STEADY_WEIGHTS: the deviations are as large
 *         as the widths), SPOTWISE_E_OUTSIDE_MODEL (doses on average beyond the range of
 *         SPOTWISE_PARAM_ANY_DOSE_RATIO thresholds, or a spot beyond that of
 *         SPOTWISE_PARAM_SPOT_DIAMETER: the marks follow another law).
 *
 * Accuracy: 1e-12 for marks whose doses span a factor of two; statistics 1e-11.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: dots of 27.02, 44.47, 56.79 and 66.88 um from 30, 60, 120 and 240 uJ: spot 60 um,
 *          threshold 20 uJ.
 * Source: J. M. Liu, Optics Letters 7, 196 (1982), from memory; the straight line: any textbook of
 *         weighted least squares; the bias: its second derivatives.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_fit_threshold(const double *dose,
                                       const double *width_m,
                                       const double *deviation_m,
                                       size_t marks,
                                       const struct spotwise_threshold_fit_options *options,
                                       double *residual_m,
                                       uint8_t *used,
                                       struct spotwise_threshold_fit *fit,
                                       struct spotwise_error *error);

/**
 * One sentence for a warning of a fit; "unknown" unless exactly one warning is given.
 *
 * @param[in] warning one bit, one of SPOTWISE_THRESHOLD_WARNING_*.
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_threshold_warning_text(uint32_t warning);

/**
 * Sets struct_size, the kind of mark to 0, which is none, and every number to a quiet NaN. NULL
 * does nothing.
 */
void spotwise_good_mark_init(struct spotwise_good_mark *good);

/**
 * Sets struct_size, the law to 0, which is none, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_depth_reading_init(struct spotwise_depth_reading *depths);

/**
 * Sets struct_size, codes and flags to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_mark_diagnosis_init(struct spotwise_mark_diagnosis *diagnosis);

/**
 * Focus or power, from width and depth of a mark against those of a good one.
 *
 * With B and D, width and depth over those of the good mark, and q0, its dose ratio: ln q = D ln q0 by a logarithmic law,
 * q = 1 + D (q0 - 1) by a linear one, growth g = B sqrt(ln q0/ln q), power ratio g^n q/q0, n being 2 for a pulse and 1 for a
 * line, distance from the waist z_R sqrt(g^2 - 1). On which side of the focus the surface lies stays open, and in a
 * melt heat widens the mark as well. Ranges are those of a normal law of the logarithms; that of the distance begins
 * at 0 where the waist is not ruled out. spotwise_compensate() makes up for the distance; it needs no sign.
 *
 * @param[in]  beam                 beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  good                 the good mark to read; set with spotwise_good_mark_init(); not NULL.
 * @param[in]  depths               depths to read; set with spotwise_depth_reading_init(); not NULL.
 * @param[in]  width_m              width now in metres; range: SPOTWISE_PARAM_MARK_WIDTH.
 * @param[in]  width_deviation_m    its standard deviation in metres, at most 0.3 of it; range:
 *                                  SPOTWISE_PARAM_WIDTH_DEVIATION.
 * @param[in]  coverage_probability coverage of each range; range: SPOTWISE_PARAM_COVERAGE_PROBABILITY.
 * @param[out] diagnosis            result; set with spotwise_mark_diagnosis_init(); not NULL. On any status
 *                                  other than SPOTWISE_OK its numbers are set to a quiet NaN, its codes
 *                                  and flags to 0.
 * @param[out] error                what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
 *         kind of mark, then the depth law), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE,
 *         SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad, dose ratio of the mark above 1e6, growth above 1e9).
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result, times 1 + ln q0 + what relative errors of the
 *           inputs make of it.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 20 % wider and half as deep as a line of q0 = 4, 10.6 um, M^2 = 1.2, waist 88 um: growth 1.6971, 0.656 mm
 *          off, power ratio 0.8485.
 * Source: derived by the authors from the laws of spotwise_mark_width() and spotwise_material_mark().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_diagnose_mark(const struct spotwise_beam *beam,
                                       const struct spotwise_good_mark *good,
                                       const struct spotwise_depth_reading *depths,
                                       double width_m,
                                       double width_deviation_m,
                                       double coverage_probability,
                                       struct spotwise_mark_diagnosis *diagnosis,
                                       struct spotwise_error *error);

/**
 * Sets struct_size, codes and flags to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_width_diagnosis_init(struct spotwise_width_diagnosis *diagnosis);

/**
 * Focus or power, from the width of a mark alone against that of a good one.
 *
 * Gives the heights that explain it if the dose is as it was, and the dose that explains it if focus is. With B, the width over
 * that of the good mark, q0, its dose ratio, and g, the growth: B^2 = g^2 ln(q0/g^n)/ln q0, n being 2 for a pulse and 1 for a
 * line. Two heights explain a width between that in the waist and the greatest, one explains a lesser width, none a
 * greater one: then the dose must have changed. In focus the power ratio is q0^(B^2 - 1).
 *
 * @param[in]  beam                 beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  good                 the good mark to read; set with spotwise_good_mark_init(); not NULL.
 * @param[in]  width_m              width now in metres; range: SPOTWISE_PARAM_MARK_WIDTH.
 * @param[in]  width_deviation_m    its standard deviation in metres, at most 0.3 of it; range:
 *                                  SPOTWISE_PARAM_WIDTH_DEVIATION.
 * @param[in]  coverage_probability coverage of each range; range: SPOTWISE_PARAM_COVERAGE_PROBABILITY.
 * @param[out] diagnosis            result; set with spotwise_width_diagnosis_init(); not NULL. On any status
 *                                  other than SPOTWISE_OK its numbers are set to a quiet NaN, its codes
 *                                  and flags to 0.
 * @param[out] error                what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
 *         kind of mark), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE,
 *         SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result, times 1 + ln q0 + what relative errors of the
 *           inputs make of it.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 20 % wider than a line of q0 = 4, 10.6 um, M^2 = 1.2, waist 88 um: 0.441 mm or 1.527 mm off, or in focus
 *          with 1.84 times the dose.
 * Source: derived by the authors from the law of spotwise_mark_width().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_diagnose_width(const struct spotwise_beam *beam,
                                        const struct spotwise_good_mark *good,
                                        double width_m,
                                        double width_deviation_m,
                                        double coverage_probability,
                                        struct spotwise_width_diagnosis *diagnosis,
                                        struct spotwise_error *error);

/**
 * One sentence for the person at the machine; "unknown" for a number that is no cause.
 *
 * @param[in] cause one of SPOTWISE_CAUSE_*.
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_cause_text(uint32_t cause);

/**
 * How to make a further test, in one sentence; "unknown" for a number that is none.
 *
 * @param[in] further_test one of SPOTWISE_TEST_*.
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_further_test_text(uint32_t further_test);

/**
 * One sentence for what stays open; "unknown" unless exactly one bit is given.
 *
 * @param[in] ambiguity one bit, one of SPOTWISE_AMBIGUITY_*.
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_ambiguity_text(uint32_t ambiguity);

/**
 * Sets struct_size, codes and flags to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_patch_settlement_init(struct spotwise_patch_settlement *settlement);

/**
 * Focus or power, from a solid patch and a thin line of one job against good ones.
 *
 * The dose inside a patch does not change with focus, so that its depth gives the power ratio; the width of the
 * line with that dose then gives the height, as spotwise_diagnose_width() does for a ratio of 1. The error of the dose ratio of the
 * good line is taken to be that of the patch as well.
 *
 * @param[in]  beam                 beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  good                 the good line to read; set with spotwise_good_mark_init(); not NULL.
 * @param[in]  patch                depths inside the patches to read; set with spotwise_depth_reading_init(); not NULL.
 * @param[in]  patch_dose_ratio     dose ratio inside the good patch; range: SPOTWISE_PARAM_DOSE_RATIO.
 * @param[in]  width_m              width of the line now in metres; range: SPOTWISE_PARAM_MARK_WIDTH.
 * @param[in]  width_deviation_m    its standard deviation in metres, at most 0.3 of it; range:
 *                                  SPOTWISE_PARAM_WIDTH_DEVIATION.
 * @param[in]  coverage_probability coverage of each range; range: SPOTWISE_PARAM_COVERAGE_PROBABILITY.
 * @param[out] settlement           result; set with spotwise_patch_settlement_init(); not NULL. On any status
 *                                  other than SPOTWISE_OK its numbers are set to a quiet NaN, its codes
 *                                  and flags to 0.
 * @param[out] error                what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
 *         kind of mark, then the depth law), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE,
 *         SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad; dose ratio inside the patch above 1e6; patch and line
 *         contradict each other: the line could not mark in focus).
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result, times 1 + the logarithms of both dose ratios + what
 *           relative errors of the inputs make of it.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: patch as deep as ever, line 20 % wider than one of q0 = 4, 10.6 um, M^2 = 1.2, waist 88 um: focus, 0.441 mm
 *          off (or 1.527 mm).
 * Source: derived by the authors from the laws of spotwise_mark_width() and spotwise_material_mark().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_settle_by_patch(const struct spotwise_beam *beam,
                                         const struct spotwise_good_mark *good,
                                         const struct spotwise_depth_reading *patch,
                                         double patch_dose_ratio,
                                         double width_m,
                                         double width_deviation_m,
                                         double coverage_probability,
                                         struct spotwise_patch_settlement *settlement,
                                         struct spotwise_error *error);

/**
 * Sets struct_size, the kind of mark to 0, which is none, and every number to a quiet NaN. NULL
 * does nothing.
 */
void spotwise_power_step_init(struct spotwise_power_step *step);

/**
 * Sets struct_size, codes and flags to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_power_settlement_init(struct spotwise_power_settlement *settlement);

/**
 * Focus or power, from the same line once more at another power, twice as a rule.
 *
 * Needs no good mark, only the beam: the squares of both widths differ by (d^2/2) ln f, d being the spot diameter on the
 * surface and f the power step.
 *
 * @param[in]  beam                 beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  step                 both marks to read; set with spotwise_power_step_init(); not NULL.
 * @param[in]  coverage_probability coverage of each range; range: SPOTWISE_PARAM_COVERAGE_PROBABILITY.
 * @param[out] settlement           result; set with spotwise_power_settlement_init(); not NULL. On any status
 *                                  other than SPOTWISE_OK its numbers are set to a quiet NaN, its codes
 *                                  and flags to 0.
 * @param[out] error                what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
 *         kind of mark), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_E_UNDETERMINED (the second
 *         mark is wider by less than 3 standard deviations: more power helps), SPOTWISE_E_OUTSIDE_MODEL (half angle above
 *         0.3 rad, spot beyond its range or grown by more than 1e9, dose ratio above 1e6).
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result, times 1 + ln(dose_ratio) + what relative errors of
 *           the inputs make of it.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: 82 um, and 113 um at twice the power, 10.6 um, M^2 = 1.2, waist 88 um: spot 132.07 um, 0.535 mm off.
 * Source: J. M. Liu, Optics Letters 7, 196 (1982), from memory, for pulses; for lines derived by the authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_settle_by_power(const struct spotwise_beam *beam,
                                         const struct spotwise_power_step *step,
                                         double coverage_probability,
                                         struct spotwise_power_settlement *settlement,
                                         struct spotwise_error *error);

/**
 * Sets struct_size, kind and law to 0, which are none, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_height_readings_init(struct spotwise_height_readings *readings);

/**
 * Sets struct_size, codes and flags to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_height_settlement_init(struct spotwise_height_settlement *settlement);

/**
 * Where focus lies, from the same mark at the height in question, a step nearer the lens and a step farther.
 *
 * A reading is one that is greatest in focus: depth, or the darkness of a stain, never a width, which a strong mark
 * grows out of focus. If the middle one is the greatest, focus is no farther than half a step, and the three tell where,
 * whatever their scale and zero. Better and worse mean by more than the coverage factor times the deviation of a
 * difference; focus is placed only where the middle reading stands out by 3 deviations.
 *
 * @param[in]  beam                 beam to read; set with spotwise_beam_init(); not NULL.
 * @param[in]  readings             readings to read; set with spotwise_height_readings_init(); not NULL.
 * @param[in]  coverage_probability coverage of the range, and of each difference; range:
 *                                  SPOTWISE_PARAM_COVERAGE_PROBABILITY.
 * @param[out] settlement           result; set with spotwise_height_settlement_init(); not NULL. On any status
 *                                  other than SPOTWISE_OK its numbers are set to a quiet NaN, its codes
 *                                  and flags to 0.
 * @param[out] error                what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (the
 *         kind of mark, then the depth law), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE,
 *         SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad).
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result, times 1 + what relative errors of the inputs make
 *           of it.
 * No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
 * Example: deeper by 8 um a step of 0.3 mm nearer the lens: the surface is too low by 0.15 mm or more.
 * Source: derived by the authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_settle_by_heights(const struct spotwise_beam *beam,
                                           const struct spotwise_height_readings *readings,
                                           double coverage_probability,
                                           struct spotwise_height_settlement *settlement,
                                           struct spotwise_error *error);

/**
 * One sentence for the person at the machine; "unknown" for a number that is no verdict.
 *
 * @param[in] verdict one of SPOTWISE_HEIGHTS_*.
 * @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_height_verdict_text(uint32_t verdict);

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
 * so. SPOTWISE_PARAM_OUTPUT, SPOTWISE_PARAM_TEXT, SPOTWISE_PARAM_WORKSPACE, SPOTWISE_PARAM_WIDTHS,
 * SPOTWISE_PARAM_DEVIATIONS, SPOTWISE_PARAM_BAND_LIMITS, SPOTWISE_PARAM_FOCUS_HEIGHTS,
 * SPOTWISE_PARAM_STEP_HEIGHTS, SPOTWISE_PARAM_PROBED_HEIGHTS, SPOTWISE_PARAM_JUDGEMENTS,
 * SPOTWISE_PARAM_PLANNED_PIECES and SPOTWISE_PARAM_POWER_RATIOS have no fixed range: both ends are then
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

#if defined(SPOTWISE_ARTWORK)
/**
 * Sets struct_size, also of the beam, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_beam_candidate_init(struct spotwise_beam_candidate *candidate);

/**
 * Sets struct_size, also of the window, candidate to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_ranked_beam_init(struct spotwise_ranked_beam *beam);

/**
 * How many 64-bit words of workspace spotwise_rank_beams() needs.
 *
 * @param[in]  drawing    drawing, set with spotwise_drawing_init() and filled in; not NULL.
 * @param[in]  exposing   what exposes it, set with spotwise_exposing_init() and filled in; not NULL. Its own beam and
 *                        focus_z_m are not read.
 * @param[in]  marking    what answers, set with spotwise_marking_init() and filled in; not NULL.
 * @param[in]  candidates the beams, each set with spotwise_beam_candidate_init(); not NULL unless count is 0.
 * @param[in]  count      number of beams, at most SPOTWISE_MOST_BEAMS.
 * @param[in]  threads    how many threads are to work, if the library is built for threads; 0 counts as 1.
 * @param[in]  tell       told of progress, may stop the work; may be NULL.
 * @param[in]  user       given to tell as it is; not looked at.
 * @param[out] words      that many words; not NULL. On any status other than SPOTWISE_OK it is set to 0.
 * @param[out] error      what was refused; may be NULL.
 * @return as spotwise_rank_beams(), but for its arrays.
 *
 * No allocation, no globals, no errno; any thread. Looks at each pixel once for each beam. Since ABI 1.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_rank_beams_workspace(const struct spotwise_drawing *drawing,
                                              const struct spotwise_exposing *exposing,
                                              const struct spotwise_marking *marking,
                                              const struct spotwise_beam_candidate *candidates,
                                              size_t count,
                                              size_t threads,
                                              spotwise_tell tell,
                                              void *user,
                                              size_t *words,
                                              struct spotwise_error *error);

/**
 * Ranks beams, say of several lenses, by the room that they leave the dose; the best comes first.
 *
 * First comes the widest dose window for all, then for strokes and counters, then the smaller greatest spot; among
 * equals the earlier candidate. The dose ratio of the marking plays no part: each beam may need another. Of a beam so
 * fine that the scan lines lie farther apart than 2.5 of its radius all numbers are NaN, and it comes after the others.
 *
 * @param[in]  drawing         drawing, set with spotwise_drawing_init() and filled in; not NULL.
 * @param[in]  exposing        what exposes it, set with spotwise_exposing_init() and filled in; not NULL. Its own beam
 *                             and focus_z_m are not read.
 * @param[in]  marking         what answers, set with spotwise_marking_init() and filled in; not NULL.
 * @param[in]  candidates      the beams, each set with spotwise_beam_candidate_init(); not NULL unless count is 0.
 * @param[in]  count           number of beams, at most SPOTWISE_MOST_BEAMS.
 * @param[out] exposure        room for the exposure of a try; not NULL unless pixels is 0; what it holds afterwards
 *                             means nothing.
 * @param[in]  pixels          its length: width times height.
 * @param[out] workspace       room to work in; neither it nor exposure need be set, and they must not overlap each
 *                             other, ranking or an input. What it holds afterwards means nothing.
 * @param[in]  workspace_words its length, at least what spotwise_rank_beams_workspace() says.
 * @param[in]  tell            told of progress, may stop the work; may be NULL.
 * @param[in]  user            given to tell as it is; not looked at.
 * @param[out] ranking         count entries, the best first; each set with spotwise_ranked_beam_init(); not NULL unless
 *                             count is 0. On any status other than SPOTWISE_OK each is made as that makes it, but for
 *                             too many beams: then nothing is written to it.
 * @param[out] error           what was refused; may be NULL.
 * @return as spotwise_preflight(), for any of the beams; SPOTWISE_E_LENGTH_MISMATCH also for more than
 *         SPOTWISE_MOST_BEAMS, as SPOTWISE_PARAM_LENS_CANDIDATES.
 *
 * No allocation, no globals, no errno; any thread that has 64 kB of stack left. Since ABI 1.
 * Source: derived by the authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_rank_beams(const struct spotwise_drawing *drawing,
                                    const struct spotwise_exposing *exposing,
                                    const struct spotwise_marking *marking,
                                    const struct spotwise_beam_candidate *candidates,
                                    size_t count,
                                    uint16_t *exposure,
                                    size_t pixels,
                                    uint64_t *workspace,
                                    size_t workspace_words,
                                    spotwise_tell tell,
                                    void *user,
                                    struct spotwise_ranked_beam *ranking,
                                    struct spotwise_error *error);

/**
 * Sets struct_size, pointers and lengths to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_bound_input_init(struct spotwise_bound_input *bound);

/**
 * Sets struct_size, and flag and counts to 0. NULL does nothing.
 */
void spotwise_quick_bound_result_init(struct spotwise_quick_bound_result *found);

/**
 * How many 64-bit words of workspace spotwise_quick_bound() needs.
 *
 * @param[in]  bound   masks and spot, set with spotwise_bound_input_init() and filled in; not NULL.
 * @param[in]  threads how many threads are to work, if the library is built for threads; 0 counts as 1.
 * @param[out] words   that many words; not NULL. On any status other than SPOTWISE_OK it is set to 0.
 * @param[out] error   what was refused; may be NULL.
 * @return as spotwise_quick_bound(), but for its arrays.
 *
 * No allocation, no globals, no errno; any thread. Since ABI 1.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_quick_bound_workspace(const struct spotwise_bound_input *bound,
                                               size_t threads,
                                               size_t *words,
                                               struct spotwise_error *error);

/**
 * Finds what is surely marked and what surely stays clear, and whether the drawing holds by that alone, from distances
 * and without any exposure: an answer at once. It is no preflight: nothing is said of the dose window and the grade.
 *
 * Surely marked is what lies deeper in the ink than a disc of the smallest dot of spotwise_smallest_details(), surely
 * clear what lies deeper in the ground than one of the smallest hole, each and half the diagonal of a pixel more. It
 * holds for an even fill: where tilt changes the exposure, the two dose ratios must say so. Scan lines that lie apart leave
 * more undecided: sqrt(2/pi) times the interval over the least spot radius is what they may take from full dose, and from
 * 1.25 of that radius on nothing is surely marked. Many pixels beside edges stay undecided. Where the spot is so large that its disc would be more than 254 pixels in radius, nothing is
 * decided.
 *
 * @param[in]  bound           masks and spot, set with spotwise_bound_input_init() and filled in; not NULL.
 * @param[out] marked          mask of what is surely marked, as long as those of bound; not NULL.
 * @param[out] clear           mask of what surely stays clear; not NULL; none is in both. On any status other than
 *                             SPOTWISE_OK both are 0, but for a length that no array can have: then nothing is
 *                             written to them.
 * @param[out] workspace       room to work in, which need not be set; what it holds afterwards means nothing. Masks
 *                             and workspace must not overlap.
 * @param[in]  workspace_words its length, at least what spotwise_quick_bound_workspace() says.
 * @param[in]  tell            told of progress, may stop the work; may be NULL.
 * @param[in]  user            given to tell as it is; not looked at.
 * @param[out] found           result; set with spotwise_quick_bound_result_init(); not NULL. On any status other than
 *                             SPOTWISE_OK its counts and flag are set to 0.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP, SPOTWISE_E_LENGTH_MISMATCH (too
 *         long for memory; mask_words, as SPOTWISE_PARAM_OUTPUT; too little room, as SPOTWISE_PARAM_WORKSPACE),
 *         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (also for a drawing that is too intricate, as
 *         SPOTWISE_PARAM_PIXEL_RUNS), SPOTWISE_E_OUTSIDE_MODEL (lines farther apart than 2.5 of the
 *         least spot radius), SPOTWISE_E_STOPPED.
 *
 * No allocation, no globals, no errno; any thread that has 64 kB of stack left. Since ABI 1.
 * Source: derived by the authors from spotwise_smallest_details().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_quick_bound(const struct spotwise_bound_input *bound,
                                     uint64_t *marked,
                                     uint64_t *clear,
                                     uint64_t *workspace,
                                     size_t workspace_words,
                                     spotwise_tell tell,
                                     void *user,
                                     struct spotwise_quick_bound_result *found,
                                     struct spotwise_error *error);

/**
 * Sets struct_size, choices, pointers and lengths to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_drawing_init(struct spotwise_drawing *drawing);

/**
 * Masks of a drawing: what counts as ink, what is ink all over, and what has any ink in it.
 *
 * A mask holds one bit for each pixel, in rows of whole 64-bit words: bit k (of value 2^k) of word n of a row is
 * column 64 n + k; bits beyond the width are 0. It has height times (width + 63) / 64 words. With bilevel samples all
 * three are the same. Masks that are not wanted may be left out.
 *
 * @param[in]  drawing    drawing, set with spotwise_drawing_init() and filled in; not NULL.
 * @param[out] ink        mask of what counts as ink; may be NULL.
 * @param[out] solid      mask of what is ink all over; may be NULL.
 * @param[out] touched    mask of what has any ink in it; may be NULL. The masks must not overlap each other or the
 *                        samples. On any status other than SPOTWISE_OK they are all 0, but for a length that no
 *                        array can have: then nothing is written to them.
 * @param[in]  mask_words length of each mask.
 * @param[out] error      what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP, SPOTWISE_E_LENGTH_MISMATCH (too
 *         long for memory; or mask_words, as SPOTWISE_PARAM_OUTPUT), SPOTWISE_E_UNKNOWN_CHOICE,
 *         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (also a stride or a number of samples too small for the
 *         drawing).
 *
 * No allocation, no globals, no errno; any thread. Since ABI 1.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_ink_masks(const struct spotwise_drawing *drawing,
                                   uint64_t *ink,
                                   uint64_t *solid,
                                   uint64_t *touched,
                                   size_t mask_words,
                                   struct spotwise_error *error);

/**
 * Sets struct_size, also of the beam, incidence_loss to 1, scan and surface to 0, and every number to a quiet NaN.
 * NULL does nothing.
 */
void spotwise_exposing_init(struct spotwise_exposing *exposing);

/**
 * Sets struct_size, every number to a quiet NaN and every count to 0. NULL does nothing.
 */
void spotwise_ink_spots_init(struct spotwise_ink_spots *spots);

/**
 * Sets struct_size, also of spots, flags and counts to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_exposure_survey_init(struct spotwise_exposure_survey *survey);

/**
 * How many 64-bit words of workspace spotwise_expose() needs.
 *
 * @param[in]  drawing  drawing, set with spotwise_drawing_init() and filled in; not NULL.
 * @param[in]  exposing what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
 * @param[in]  threads  how many threads are to work, if the library is built for threads; 0 counts as 1.
 * @param[in]  tell     told of progress, may stop the work; may be NULL.
 * @param[in]  user     given to tell as it is; not looked at.
 * @param[out] words    that many words; not NULL. On any status other than SPOTWISE_OK it is set to 0.
 * @param[out] error    what was refused; may be NULL.
 * @return as spotwise_expose(), but for its arrays.
 *
 * No allocation, no globals, no errno; any thread. Looks at each pixel once. Since ABI 1.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_expose_workspace(const struct spotwise_drawing *drawing,
                                          const struct spotwise_exposing *exposing,
                                          size_t threads,
                                          spotwise_tell tell,
                                          void *user,
                                          size_t *words,
                                          struct spotwise_error *error);

/**
 * How many 64-bit words of workspace spotwise_expose_exactly() needs: twice the longer side, and where the spot is
 * the same everywhere one for each pixel.
 *
 * @param[in]  drawing  drawing, set with spotwise_drawing_init() and filled in; not NULL.
 * @param[in]  exposing what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
 * @param[in]  tell     told of progress, may stop the work; may be NULL.
 * @param[in]  user     given to tell as it is; not looked at.
 * @param[out] words    that many words; not NULL. On any status other than SPOTWISE_OK it is set to 0.
 * @param[out] error    what was refused; may be NULL.
 * @return as spotwise_expose(), but for its arrays.
 *
 * No allocation, no globals, no errno; any thread. Looks at each pixel once. Since ABI 1.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_expose_exactly_workspace(const struct spotwise_drawing *drawing,
                                                  const struct spotwise_exposing *exposing,
                                                  spotwise_tell tell,
                                                  void *user,
                                                  size_t *words,
                                                  struct spotwise_error *error);

/**
 * The exposure of a drawing: the dose at the centre of every pixel relative to that of a wide even fill.
 *
 * Each pixel is exposed by the spot that it has at the height of the surface there, blur included, while the beam
 * crosses ink; along the rows as a box or a point of the width of a pixel, across them by lines at their true places.
 *
 * @param[in]  drawing        drawing, set with spotwise_drawing_init() and filled in; not NULL.
 * @param[in]  exposing       what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
 * @param[out] exposure       the exposures, row by row without gaps, in units of 1/SPOTWISE_FULL_DOSE, at most
 *                            65535; 0 where the surface has no known height. On any status other than SPOTWISE_OK
 *                            all of it is 0, but for a length that no array can have: then nothing is written to it.
 * @param[in]  pixels         length of exposure: width times height.
 * @param[out] workspace      room to work in, which need not be set; what it holds afterwards means nothing. It and
 *                            exposure must not overlap each other or an input.
 * @param[in]  workspace_words its length, at least what spotwise_expose_workspace() says.
 * @param[in]  tell           told of progress, may stop the work; may be NULL.
 * @param[in]  user           given to tell as it is; not looked at.
 * @param[out] survey         spots, and how far to trust the exposure; set with spotwise_exposure_survey_init(); not
 *                            NULL. On any status other than SPOTWISE_OK its numbers are set to a quiet NaN, its
 *                            counts and flags to 0.
 * @param[out] error          what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP, SPOTWISE_E_LENGTH_MISMATCH (too
 *         long for memory; pixels, as SPOTWISE_PARAM_OUTPUT; too little room, as SPOTWISE_PARAM_WORKSPACE; surface as
 *         spotwise_surface_at()), SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE,
 *         SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad; a spot radius of too few or too many pixels, as
 *         SPOTWISE_PARAM_PIXELS_PER_RADIUS), SPOTWISE_E_UNDETERMINED (no height at any pixel, as
 *         SPOTWISE_PARAM_KNOWN_PROBES), SPOTWISE_E_STOPPED.
 *
 * Accuracy: 5e-4 of full dose, besides expected_error of the survey.
 * No allocation, no globals, no errno; any thread that has 64 kB of stack left. Since ABI 1.
 * Source: Gaussian spots added up; the sum of the doses of lines, any handbook.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_expose(const struct spotwise_drawing *drawing,
                                const struct spotwise_exposing *exposing,
                                uint16_t *exposure,
                                size_t pixels,
                                uint64_t *workspace,
                                size_t workspace_words,
                                spotwise_tell tell,
                                void *user,
                                struct spotwise_exposure_survey *survey,
                                struct spotwise_error *error);

/**
 * The exposure of a drawing in doubles, without truncation, for comparison: slow.
 *
 * For pixels of one spot it takes width * height * (width + height) additions, else width * height * 169 w^2, w being
 * the spot radius in pixels.
 *
 * @param[in]  drawing        drawing, set with spotwise_drawing_init() and filled in; not NULL.
 * @param[in]  exposing       what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
 * @param[out] exposure       the exposures as shares of full dose, row by row without gaps; NaN where the surface has
 *                            no known height. On any status other than SPOTWISE_OK all of it is set to quiet NaNs,
 *                            but for a length that no array can have: then nothing is written to it.
 * @param[in]  pixels         length of exposure: width times height.
 * @param[out] workspace      room to work in, which need not be set; what it holds afterwards means nothing. It and
 *                            exposure must not overlap each other or an input.
 * @param[in]  workspace_words its length, at least what spotwise_expose_exactly_workspace() says.
 * @param[in]  tell           told of progress, may stop the work; may be NULL.
 * @param[in]  user           given to tell as it is; not looked at.
 * @param[out] survey         as of spotwise_expose(); not NULL.
 * @param[out] error          what was refused; may be NULL.
 * @return as spotwise_expose().
 *
 * No allocation, no globals, no errno; any thread that has 64 kB of stack left. Since ABI 1.
 * Source: as spotwise_expose().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_expose_exactly(const struct spotwise_drawing *drawing,
                                        const struct spotwise_exposing *exposing,
                                        double *exposure,
                                        size_t pixels,
                                        uint64_t *workspace,
                                        size_t workspace_words,
                                        spotwise_tell tell,
                                        void *user,
                                        struct spotwise_exposure_survey *survey,
                                        struct spotwise_error *error);

/**
 * Where the surface has no known height: a mask as that of spotwise_ink_masks().
 *
 * @param[in]  drawing    drawing, set with spotwise_drawing_init() and filled in; not NULL.
 * @param[in]  exposing   what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
 * @param[out] unknown    the mask; not NULL unless mask_words is 0. On any status other than SPOTWISE_OK it is 0, but
 *                        for a length that no array can have: then nothing is written to it.
 * @param[in]  mask_words its length: height times (width + 63) / 64.
 * @param[in]  tell       told of progress, may stop the work; may be NULL.
 * @param[in]  user       given to tell as it is; not looked at.
 * @param[out] error      what was refused; may be NULL.
 * @return as spotwise_expose().
 *
 * No allocation, no globals, no errno; any thread. Since ABI 1.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_unknown_mask(const struct spotwise_drawing *drawing,
                                      const struct spotwise_exposing *exposing,
                                      uint64_t *unknown,
                                      size_t mask_words,
                                      spotwise_tell tell,
                                      void *user,
                                      struct spotwise_error *error);

/**
 * Sets struct_size, every count to 0, and the depth to a quiet NaN. NULL does nothing.
 */
void spotwise_mark_region_init(struct spotwise_mark_region *region);

/**
 * Sets struct_size, and all else to 0. NULL does nothing.
 */
void spotwise_mark_change_init(struct spotwise_mark_change *change);

/**
 * What exposes a drawing and what answers, by a job: the laser, lens, focus and dose that spotwise_focus_check()
 * judges, with the usual tolerance of edges, a quarter of the waist diameter. Set the surface of exposing afterwards,
 * and the speck area of marking, which is 0, if there are specks.
 *
 * Behind a real lens the beam is that of its 86.5 %-power spot. A dose by power and speed gives lines along the rows,
 * the first half an interval from the edge, and the response of the material; the heat that spreads in a melt becomes a
 * blur. Rise and fall of the job are tolerances of the set-up, and play no part.
 *
 * @param[in]  job             job to read; set with spotwise_job_init(); not NULL.
 * @param[in]  visible_depth_m depth from which on a place of a bulk counts as marked, in metres; 0 for any; checked when
 *                             it is used; range: SPOTWISE_PARAM_VISIBLE_DEPTH.
 * @param[in]  melt_bridge_m   width of the gaps that a melt closes, in metres; 0 for none; checked when it is used;
 *                             range: SPOTWISE_PARAM_MELT_BRIDGE.
 * @param[out] exposing        what exposes a drawing, its surface NULL; set with spotwise_exposing_init(); not NULL. On
 *                             any status other than SPOTWISE_OK its numbers are set to a quiet NaN, all else to 0.
 * @param[out] marking         what answers; set with spotwise_marking_init(); not NULL. On any status other than
 *                             SPOTWISE_OK its numbers are set to a quiet NaN, its response to 0. Numbers that the
 *                             response does not name are NaN.
 * @param[out] error           what was refused; may be NULL.
 * @return as spotwise_focus_check().
 *
 * No allocation, no globals, no errno; any thread. Since ABI 1.
 * Source: as spotwise_focus_check() and spotwise_blur_budget().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_preflight_of_job(const struct spotwise_job *job,
                                          double visible_depth_m,
                                          double melt_bridge_m,
                                          struct spotwise_exposing *exposing,
                                          struct spotwise_marking *marking,
                                          struct spotwise_error *error);

/**
 * Sets struct_size, and all else to 0. NULL does nothing.
 */
void spotwise_judgement_init(struct spotwise_judgement *judgement);

/**
 * Judges a mark by what it keeps at its dose and by the room that the dose has.
 *
 * Degraded: strokes and counters hold at this dose, with a window for them of at least readable_window. Good:
 * neighbours are apart as well, with a window for all of at least good_window. Crisp: besides, half of the strokes'
 * length gets at least crisp_exposure of the full dose. The limits are those of text: set to agree with common
 * practice, no source, and not otherwise validated.
 *
 * @param[in]  found     what spotwise_preflight() found; not NULL.
 * @param[in]  window    what spotwise_dose_window() found; not NULL.
 * @param[in]  grades    where grades begin, set with spotwise_text_grades_init(), which sets the defaults; not NULL.
 * @param[out] judgement result; set with spotwise_judgement_init(); not NULL. On any status other than SPOTWISE_OK its
 *                       grade and reasons are set to 0.
 * @param[out] error     what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (of
 *         grades).
 *
 * No allocation, no globals, no errno; any thread. Since ABI 1.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_judge_mark(const struct spotwise_mark_report *found,
                                    const struct spotwise_dose_window_result *window,
                                    const struct spotwise_text_grades *grades,
                                    struct spotwise_judgement *judgement,
                                    struct spotwise_error *error);

/**
 * Name of a grade of a mark in plain words, such as "degraded"; "unknown" for any other number.
 *
 * @return a constant text, never NULL. Any thread. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_mark_grade_name(uint32_t grade);

/**
 * One sentence for a reason of a judgement; "unknown" unless exactly one reason is given.
 *
 * @param[in] reason one bit, one of SPOTWISE_MARK_REASON_*.
 * @return a constant text, never NULL. Any thread. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_mark_reason_text(uint32_t reason);

/**
 * Sets struct_size, response and speck_area_m2 to 0, and every other number to a quiet NaN. NULL does nothing.
 */
void spotwise_marking_init(struct spotwise_marking *marking);

/**
 * Depth of the mark at every pixel: depth_m[i] belongs to exposure[i]; 0 for a coating or a melt.
 *
 * With q the dose ratio and E the exposure as a share of full dose: penetration_depth_m ln(q E), or
 * threshold_depth_m (q E - 1), and 0 where q E is below 1. Depths below the visible one are told as they are.
 *
 * @param[in]  exposure an exposure of spotwise_expose() or spotwise_preflight(); not NULL unless pixels is 0.
 * @param[in]  marking  what answers, set with spotwise_marking_init() and filled in; not NULL. Its edge tolerance and
 *                      speck area are not read.
 * @param[out] depth_m  depths in metres; not NULL unless pixels is 0. It must not overlap exposure. On any status
 *                      other than SPOTWISE_OK all of it is NaN, but for a length that no array can have: then nothing
 *                      is written to it.
 * @param[in]  pixels   length of both arrays; may be 0.
 * @param[out] error    what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP, SPOTWISE_E_LENGTH_MISMATCH (pixels
 *         is more than memory can hold), SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE.
 *
 * No allocation, no globals, no errno; any thread. Since ABI 1.
 * Source: Beer and Lambert; every joule above the threshold removes its share.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_depth_map(const uint16_t *exposure,
                                   const struct spotwise_marking *marking,
                                   float *depth_m,
                                   size_t pixels,
                                   struct spotwise_error *error);

/**
 * Sets struct_size, and pointers and lengths to 0. NULL does nothing.
 */
void spotwise_picture_layers_init(struct spotwise_picture_layers *layers);

/**
 * Sets struct_size, and all else to 0. NULL does nothing.
 */
void spotwise_picture_view_init(struct spotwise_picture_view *view);

/**
 * How many bytes a picture has: four for each of its pixels.
 *
 * @param[in]  view  what is shown, set with spotwise_picture_view_init() and filled in; not NULL.
 * @param[out] bytes that many bytes; not NULL. On any status other than SPOTWISE_OK it is set to 0.
 * @param[out] error what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OUT_OF_RANGE.
 *
 * No allocation, no globals, no errno; any thread. Since ABI 1.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_picture_bytes(const struct spotwise_picture_view *view,
                                       size_t *bytes,
                                       struct spotwise_error *error);

/**
 * Draws the predicted mark and what is wrong with it, row by row, of each pixel red, green, blue and opacity (sRGB).
 *
 * Pixels of the view beyond the drawing are bare. Where layers overlap, an unknown height comes before what is lost or
 * filled, and that before the mark. Dark is marked and light is not, as in the work itself; the colours, whose
 * SPOTWISE_PICTURE_* constants are the legend, can be told apart also by the colour-blind and in grey.
 *
 * @param[in]  layers what to show, set with spotwise_picture_layers_init() and filled in; not NULL, nor its masks but
 *                    unknown.
 * @param[in]  view   which part, set with spotwise_picture_view_init() and filled in; not NULL.
 * @param[out] rgba   the picture; not NULL unless bytes is 0; it must not overlap a mask. On any status other than
 *                    SPOTWISE_OK all of it is 0, but for a length that no array can have: then nothing is written.
 * @param[in]  bytes  its length: what spotwise_picture_bytes() says.
 * @param[out] error  what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP, SPOTWISE_E_LENGTH_MISMATCH,
 *         SPOTWISE_E_OUT_OF_RANGE.
 *
 * No allocation, no globals, no errno; any thread. Since ABI 1.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_draw_picture(const struct spotwise_picture_layers *layers,
                                      const struct spotwise_picture_view *view,
                                      uint8_t *rgba,
                                      size_t bytes,
                                      struct spotwise_error *error);

/**
 * Frames a finding in a picture: a line of one pixel of the drawing around its box, with one pixel left free between.
 * What of the line lies beyond the view is left out; an empty box has none.
 *
 * @param[in]     left   first column of the box.
 * @param[in]     top    first row of the box.
 * @param[in]     right  last column of the box.
 * @param[in]     bottom last row of the box.
 * @param[in]     view   the view of the picture, set with spotwise_picture_view_init() and filled in; not NULL.
 * @param[in,out] rgba   the picture that spotwise_draw_picture() has drawn; not NULL unless bytes is 0. On any status
 *                       other than SPOTWISE_OK it stays as it is.
 * @param[in]     bytes  its length: what spotwise_picture_bytes() says.
 * @param[out]    error  what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_LENGTH_MISMATCH, SPOTWISE_E_OUT_OF_RANGE.
 *
 * No allocation, no globals, no errno; any thread. Since ABI 1.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_draw_box(uint32_t left,
                                  uint32_t top,
                                  uint32_t right,
                                  uint32_t bottom,
                                  const struct spotwise_picture_view *view,
                                  uint8_t *rgba,
                                  size_t bytes,
                                  struct spotwise_error *error);

/**
 * Red, green, blue and opacity of a colour of pictures (sRGB), as the bytes of 0xRRGGBBAA; 0 for a number that is none.
 *
 * @param[in] colour one of SPOTWISE_PICTURE_*.
 * @return the colour. Any thread. Since ABI 1.
 */
SPOTWISE_MUST_USE
uint32_t spotwise_picture_colour_rgba(uint32_t colour);

/**
 * Name of a colour of pictures for a legend, such as "worn edge"; "unknown" for any other number.
 *
 * @param[in] colour one of SPOTWISE_PICTURE_*.
 * @return a constant text, never NULL. Any thread. Since ABI 1.
 */
SPOTWISE_MUST_USE const char *spotwise_picture_colour_name(uint32_t colour);

/**
 * Sets struct_size, and all pointers and lengths to 0. NULL does nothing.
 */
void spotwise_preflight_output_init(struct spotwise_preflight_output *output);

/**
 * How many 64-bit words of workspace spotwise_preflight() and spotwise_dose_window() need. Together with samples,
 * exposure and masks that is all the memory that they use.
 *
 * @param[in]  drawing  drawing, set with spotwise_drawing_init() and filled in; not NULL.
 * @param[in]  exposing what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
 * @param[in]  marking  what answers, set with spotwise_marking_init() and filled in; not NULL.
 * @param[in]  threads  how many threads are to work, if the library is built for threads; 0 counts as 1.
 * @param[in]  tell     told of progress, may stop the work; may be NULL.
 * @param[in]  user     given to tell as it is; not looked at.
 * @param[out] words    that many words; not NULL. On any status other than SPOTWISE_OK it is set to 0.
 * @param[out] error    what was refused; may be NULL.
 * @return as spotwise_preflight(), but for its arrays.
 *
 * No allocation, no globals, no errno; any thread. Looks at each pixel once. Since ABI 1.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_preflight_workspace(const struct spotwise_drawing *drawing,
                                             const struct spotwise_exposing *exposing,
                                             const struct spotwise_marking *marking,
                                             size_t threads,
                                             spotwise_tell tell,
                                             void *user,
                                             size_t *words,
                                             struct spotwise_error *error);

/**
 * Predicts the mark that will come out of a drawing, and finds what is lost of it: exposes, marks, compares.
 *
 * @param[in]  drawing         drawing, set with spotwise_drawing_init() and filled in; not NULL.
 * @param[in]  exposing        what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
 * @param[in]  marking         what answers, set with spotwise_marking_init() and filled in; not NULL.
 * @param[in]  output          where to write exposure, mark and findings; set with spotwise_preflight_output_init()
 *                             and filled in; not NULL, nor any of its arrays that is not empty. On any status other
 *                             than SPOTWISE_OK exposure and masks are 0, and regions and changes as their init
 *                             functions make them, but for an array of structs of which one is not of this ABI, and
 *                             if a length is one that no array can have: then nothing is written to any of them.
 * @param[out] workspace       room to work in, which need not be set; what it holds afterwards means nothing.
 * @param[in]  workspace_words its length, at least what spotwise_preflight_workspace() says.
 * @param[in]  tell            told of progress, may stop the work; may be NULL.
 * @param[in]  user            given to tell as it is; not looked at.
 * @param[out] found           result; set with spotwise_mark_report_init(); not NULL. On any status other than
 *                             SPOTWISE_OK its numbers are set to a quiet NaN, its counts and flags to 0.
 * @param[out] error           what was refused; may be NULL.
 * @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP, SPOTWISE_E_LENGTH_MISMATCH (too
 *         long for memory; not of the drawing's size, as SPOTWISE_PARAM_OUTPUT; too little room, as
 *         SPOTWISE_PARAM_WORKSPACE; surface as spotwise_surface_at()), SPOTWISE_E_UNKNOWN_CHOICE,
 *         SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (also a drawing or mark that is too intricate, as
 *         SPOTWISE_PARAM_PIXEL_RUNS), SPOTWISE_E_OUTSIDE_MODEL and SPOTWISE_E_UNDETERMINED as spotwise_expose(),
 *         SPOTWISE_E_STOPPED. Numbers come in the order of the members of drawing, marking, exposing and its surface.
 *
 * Accuracy: that of the exposure, 5e-4 of full dose, besides expected_error of the report; all else is counted.
 * No allocation, no globals, no errno; any thread that has 64 kB of stack left. Since ABI 1.
 * Source: derived by the authors; the parts are those of spotwise_expose(), and of discrete geometry at large.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_preflight(const struct spotwise_drawing *drawing,
                                   const struct spotwise_exposing *exposing,
                                   const struct spotwise_marking *marking,
                                   const struct spotwise_preflight_output *output,
                                   uint64_t *workspace,
                                   size_t workspace_words,
                                   spotwise_tell tell,
                                   void *user,
                                   struct spotwise_mark_report *found,
                                   struct spotwise_error *error);

/**
 * Sets struct_size, the verdict and counts to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_quick_answer_result_init(struct spotwise_quick_answer_result *found);

/**
 * How many 64-bit words of workspace spotwise_quick_answer() needs. Together with the samples that is all the memory that
 * it uses.
 *
 * @param[in]  drawing  drawing, set with spotwise_drawing_init() and filled in; not NULL.
 * @param[in]  exposing what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
 * @param[in]  marking  what answers, set with spotwise_marking_init() and filled in; not NULL.
 * @param[in]  threads  how many threads are to work, if the library is built for threads; 0 counts as 1.
 * @param[in]  tell     told of progress, may stop the work; may be NULL.
 * @param[in]  user     given to tell as it is; not looked at.
 * @param[out] words    that many words; not NULL. On any status other than SPOTWISE_OK it is set to 0.
 * @param[out] error    what was refused; may be NULL.
 * @return as spotwise_quick_answer(), but for its workspace.
 *
 * No allocation, no globals, no errno; any thread. Looks at pixels only where the surface is not known all over the drawing.
 * Since ABI 1.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_quick_answer_workspace(const struct spotwise_drawing *drawing,
                                                const struct spotwise_exposing *exposing,
                                                const struct spotwise_marking *marking,
                                                size_t threads,
                                                spotwise_tell tell,
                                                void *user,
                                                size_t *words,
                                                struct spotwise_error *error);

/**
 * Says at once whether a drawing survives, where distances alone suffice for that; SPOTWISE_QUICK_UNSURE where the whole
 * preflight must tell.
 *
 * It takes what spotwise_preflight() takes, spotwise_preflight_of_job() sets two of them by a job, and it never contradicts
 * that function: where nothing is at risk, the report has no piece lost, starved or merged and no hole closed or opened;
 * where something is lost, the report does not hold. Not shown is that no further speck of a piece comes out beside it, as
 * a part of a split piece; it would lie within a spot diameter of what is surely marked. Nothing is said of grade, dose
 * window and areas. What is several spot diameters wide passes; what is finer, or only just comes out, stays unsure, and so
 * does most of what is lost: told at once is that no ink gets enough dose, that a small piece has too little ink around
 * it, and that a melt closes a gap.
 *
 * @param[in]  drawing         drawing, set with spotwise_drawing_init() and filled in; not NULL.
 * @param[in]  exposing        what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
 * @param[in]  marking         what answers, set with spotwise_marking_init() and filled in; not NULL.
 * @param[out] workspace       room to work in, which need not be set; what it holds afterwards means nothing. It must
 *                             not overlap an input.
 * @param[in]  workspace_words its length, at least what spotwise_quick_answer_workspace() says.
 * @param[in]  tell            told of progress, may stop the work; may be NULL.
 * @param[in]  user            given to tell as it is; not looked at.
 * @param[out] found           result; set with spotwise_quick_answer_result_init(); not NULL. On any status other than
 *                             SPOTWISE_OK its numbers are set to a quiet NaN, its verdict and counts to 0.
 * @param[out] error           what was refused; may be NULL.
 * @return as spotwise_preflight(), which writes more.
 *
 * Accuracy: the answer allows for the 5e-4 of full dose by which an exposure may be off.
 * No allocation, no globals, no errno; any thread that has 64 kB of stack left. Since ABI 1.
 * Source: derived by the authors from spotwise_smallest_details(), as spotwise_quick_bound().
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_quick_answer(const struct spotwise_drawing *drawing,
                                      const struct spotwise_exposing *exposing,
                                      const struct spotwise_marking *marking,
                                      uint64_t *workspace,
                                      size_t workspace_words,
                                      spotwise_tell tell,
                                      void *user,
                                      struct spotwise_quick_answer_result *found,
                                      struct spotwise_error *error);

/**
 * Sets struct_size, flags to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_focus_reach_result_init(struct spotwise_focus_reach_result *reach);

/**
 * How many 64-bit words of workspace spotwise_focus_reach() needs.
 *
 * @param[in]  drawing  drawing, set with spotwise_drawing_init() and filled in; not NULL.
 * @param[in]  exposing what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
 * @param[in]  marking  what answers, set with spotwise_marking_init() and filled in; not NULL.
 * @param[in]  threads  how many threads are to work, if the library is built for threads; 0 counts as 1.
 * @param[in]  tell     told of progress, may stop the work; may be NULL.
 * @param[in]  user     given to tell as it is; not looked at.
 * @param[out] words    that many words; not NULL. On any status other than SPOTWISE_OK it is set to 0.
 * @param[out] error    what was refused; may be NULL.
 * @return as spotwise_focus_reach(), but for its arrays.
 *
 * No allocation, no globals, no errno; any thread. Looks at each pixel three times. Since ABI 1.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_focus_reach_workspace(const struct spotwise_drawing *drawing,
                                               const struct spotwise_exposing *exposing,
                                               const struct spotwise_marking *marking,
                                               size_t threads,
                                               spotwise_tell tell,
                                               void *user,
                                               size_t *words,
                                               struct spotwise_error *error);

/**
 * How far the focus may be moved to either side before the drawing no longer holds at its dose.
 *
 * Found by trying: steps of a quarter Rayleigh range, up to four Rayleigh ranges, find the first that does not hold;
 * halving then finds the end to 1/128 of it. What is told is always a try that held. Where scan lines lie farther apart
 * than 2.5 of the least spot radius, which may be so nearer to focus only, the drawing does not hold.
 *
 * @param[in]  drawing         drawing, set with spotwise_drawing_init() and filled in; not NULL.
 * @param[in]  exposing        what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
 * @param[in]  marking         what answers, set with spotwise_marking_init() and filled in; not NULL.
 * @param[in]  demand          what must hold: one of SPOTWISE_DEMAND_*.
 * @param[out] exposure        room for the exposure of a try; not NULL unless pixels is 0; what it holds afterwards
 *                             means nothing.
 * @param[in]  pixels          its length: width times height.
 * @param[out] workspace       room to work in; neither it nor exposure need be set, and they must not overlap each
 *                             other or an input. What it holds afterwards means nothing.
 * @param[in]  workspace_words its length, at least what spotwise_focus_reach_workspace() says.
 * @param[in]  tell            told of progress, may stop the work; may be NULL.
 * @param[in]  user            given to tell as it is; not looked at.
 * @param[out] reach           result; set with spotwise_focus_reach_result_init(); not NULL. On any status other than
 *                             SPOTWISE_OK its numbers are set to a quiet NaN, its flags to 0.
 * @param[out] error           what was refused; may be NULL.
 * @return as spotwise_preflight(). The focus may not be moved out of the range of SPOTWISE_PARAM_FOCUS_Z.
 *
 * No allocation, no globals, no errno; any thread that has 64 kB of stack left. Since ABI 1.
 * Source: derived by the authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_focus_reach(const struct spotwise_drawing *drawing,
                                     const struct spotwise_exposing *exposing,
                                     const struct spotwise_marking *marking,
                                     uint32_t demand,
                                     uint16_t *exposure,
                                     size_t pixels,
                                     uint64_t *workspace,
                                     size_t workspace_words,
                                     spotwise_tell tell,
                                     void *user,
                                     struct spotwise_focus_reach_result *reach,
                                     struct spotwise_error *error);

/**
 * The height of the waist that makes the greatest spot over the ink least: half-way between the highest and the lowest
 * place with ink, as the spot grows alike to both sides.
 *
 * @param[in]  drawing   drawing, set with spotwise_drawing_init() and filled in; not NULL.
 * @param[in]  exposing  what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
 * @param[in]  tell      told of progress, may stop the work; may be NULL.
 * @param[in]  user      given to tell as it is; not looked at.
 * @param[out] focus_z_m the height in metres, + away from the lens; not NULL. On any status other than SPOTWISE_OK it is
 *                       set to a quiet NaN.
 * @param[out] error     what was refused; may be NULL.
 * @return as spotwise_expose(), but for its arrays; SPOTWISE_E_UNDETERMINED for a drawing without ink of known height, as
 *         SPOTWISE_PARAM_INK_PIXELS.
 *
 * No allocation, no globals, no errno; any thread. Since ABI 1.
 * Source: derived by the authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_best_focus_z(const struct spotwise_drawing *drawing,
                                      const struct spotwise_exposing *exposing,
                                      spotwise_tell tell,
                                      void *user,
                                      double *focus_z_m,
                                      struct spotwise_error *error);

/**
 * How many 64-bit words of workspace spotwise_smallest_scale() needs.
 *
 * @param[in]  drawing  drawing, set with spotwise_drawing_init() and filled in; not NULL.
 * @param[in]  exposing what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
 * @param[in]  marking  what answers, set with spotwise_marking_init() and filled in; not NULL.
 * @param[in]  threads  how many threads are to work, if the library is built for threads; 0 counts as 1.
 * @param[in]  tell     told of progress, may stop the work; may be NULL.
 * @param[in]  user     given to tell as it is; not looked at.
 * @param[out] words    that many words; not NULL. On any status other than SPOTWISE_OK it is set to 0.
 * @param[out] error    what was refused; may be NULL.
 * @return as spotwise_smallest_scale(), but for its arrays.
 *
 * No allocation, no globals, no errno; any thread. Looks at each pixel twice. Since ABI 1.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_smallest_scale_workspace(const struct spotwise_drawing *drawing,
                                                  const struct spotwise_exposing *exposing,
                                                  const struct spotwise_marking *marking,
                                                  size_t threads,
                                                  spotwise_tell tell,
                                                  void *user,
                                                  size_t *words,
                                                  struct spotwise_error *error);

/**
 * The smallest scale of the drawing about its middle at which it holds at its dose, 0.25 to 4, to 1.1 %; above 1 it
 * must be made larger. 0.25 if it holds down to that, NaN if it holds nowhere up to 4.
 *
 * Steps of half an octave, down from 1 if it holds there and up if not, find where that changes; halving then finds the
 * place. What is told is a try that held. Where the model does not take a scale, because of the pixels, a bridge or the
 * area of specks, the ends are nearer to 1. The tolerance of edges plays no part in it, and specks keep their pixels.
 * The pixels grow with the drawing: far above 1 they may be too coarse. The lines of a raster that is burnt as it is go with its rows, and the dose ratio stays that of its
 * fills; those of other drawings stay as they are. A drawing that reaches places of unknown height that it did not reach
 * before does not hold, nor does one that reaches a spot so fine that the lines lie farther apart than 2.5 of its radius.
 *
 * @param[in]  drawing         drawing, set with spotwise_drawing_init() and filled in; not NULL.
 * @param[in]  exposing        what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
 * @param[in]  marking         what answers, set with spotwise_marking_init() and filled in; not NULL.
 * @param[in]  demand          what must hold: one of SPOTWISE_DEMAND_*.
 * @param[out] exposure        room for the exposure of a try; not NULL unless pixels is 0; what it holds afterwards
 *                             means nothing.
 * @param[in]  pixels          its length: width times height.
 * @param[out] workspace       room to work in; neither it nor exposure need be set, and they must not overlap each
 *                             other or an input. What it holds afterwards means nothing.
 * @param[in]  workspace_words its length, at least what spotwise_smallest_scale_workspace() says.
 * @param[in]  tell            told of progress, may stop the work; may be NULL.
 * @param[in]  user            given to tell as it is; not looked at.
 * @param[out] scale           the scale; not NULL. On any status other than SPOTWISE_OK it is set to a quiet NaN.
 * @param[out] error           what was refused; may be NULL.
 * @return as spotwise_preflight(), for any scale that is tried.
 *
 * No allocation, no globals, no errno; any thread that has 64 kB of stack left. Since ABI 1.
 * Source: derived by the authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_smallest_scale(const struct spotwise_drawing *drawing,
                                        const struct spotwise_exposing *exposing,
                                        const struct spotwise_marking *marking,
                                        uint32_t demand,
                                        uint16_t *exposure,
                                        size_t pixels,
                                        uint64_t *workspace,
                                        size_t workspace_words,
                                        spotwise_tell tell,
                                        void *user,
                                        double *scale,
                                        struct spotwise_error *error);

/**
 * Sets struct_size, also of spots, flags and counts to 0, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_mark_report_init(struct spotwise_mark_report *report);

/**
 * Sets struct_size, and every number to a quiet NaN. NULL does nothing.
 */
void spotwise_dose_window_result_init(struct spotwise_dose_window_result *window);

/**
 * The doses between which a drawing keeps what it shows, from the exposure of spotwise_preflight() or
 * spotwise_expose() for the same drawing. Below the window strokes are lost or broken; above it counters fill, or
 * neighbours touch. The dose ratio of the marking plays no part.
 *
 * @param[in]  drawing         drawing, set with spotwise_drawing_init() and filled in; not NULL.
 * @param[in]  exposing        what exposes it, set with spotwise_exposing_init() and filled in; not NULL.
 * @param[in]  marking         what answers, set with spotwise_marking_init() and filled in; not NULL.
 * @param[in]  exposure        the exposure; not NULL unless pixels is 0.
 * @param[in]  pixels          length of exposure: width times height.
 * @param[out] workspace       room to work in, which need not be set; what it holds afterwards means nothing. It must
 *                             not overlap an input.
 * @param[in]  workspace_words its length, at least what spotwise_preflight_workspace() says.
 * @param[in]  tell            told of progress, may stop the work; may be NULL.
 * @param[in]  user            given to tell as it is; not looked at.
 * @param[out] window          result; set with spotwise_dose_window_result_init(); not NULL. On any status other than
 *                             SPOTWISE_OK its numbers are set to a quiet NaN.
 * @param[out] error           what was refused; may be NULL.
 * @return as spotwise_preflight().
 *
 * Accuracy: each limit is on the safe side, and within 0.1 % of where it changes among the levels of the exposure; with
 *           the exposure's error of 5e-4 of full dose a limit q may be wrong by the share 5e-4 q.
 * No allocation, no globals, no errno; any thread that has 64 kB of stack left. Since ABI 1.
 * Source: derived by the authors.
 */
SPOTWISE_MUST_USE
spotwise_status spotwise_dose_window(const struct spotwise_drawing *drawing,
                                     const struct spotwise_exposing *exposing,
                                     const struct spotwise_marking *marking,
                                     const uint16_t *exposure,
                                     size_t pixels,
                                     uint64_t *workspace,
                                     size_t workspace_words,
                                     spotwise_tell tell,
                                     void *user,
                                     struct spotwise_dose_window_result *window,
                                     struct spotwise_error *error);
#endif

#ifdef __cplusplus
}  // extern "C"
#endif  // __cplusplus

#endif  /* SPOTWISE_H */
