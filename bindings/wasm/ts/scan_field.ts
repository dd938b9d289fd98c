/** The field of a scan head with a flat-field lens that you have measured. */

import { beamNumbers, type Beam } from "./beam.js";
import { call, core } from "./core.js";
import { orElse } from "./number.js";
import { signedOffset, type Offset } from "./place.js";
import type { Angle, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";

/**
 * A lens for scanning by your own measurements in the middle and at the edge of its field. Offsets are those of the
 * table from the focus on the axis. If you know but one focus at the edge, give it for both.
 */
export interface ScanLens {
  /** Focal length, converging, 10 µm to 10 km. */
  readonly focalLength: Length;
  /** Radius of the field at whose edge the rest was measured, 1 µm to 10 m. */
  readonly fieldRadius: Length;
  /** The table where the spot at the edge is narrowest **along** the radius, up to 10 m. */
  readonly edgeTangentialFocus: Offset;
  /** The table where the spot at the edge is narrowest **across** the radius, up to 10 m. */
  readonly edgeSagittalFocus: Offset;
  /** Angle between the middle of the beam and the normal of the table at the edge, 0 (telecentric) to 1 rad. */
  readonly edgeIncidence: Angle;
  /** Narrowest spot at the edge **across** the radius over that on the axis, 1 to 10; left out, it is 1. */
  readonly edgeSpotRatio?: PureNumber | undefined;
}

/** The spot at one place of a field. */
export interface ScanFieldSpot {
  /** Distance from the middle of the field. */
  readonly radius: Length;
  /** Angle off the axis by which the mirrors turn the light; a mirror turns by half of it. */
  readonly fieldAngle: Angle;
  /** Angle of incidence on the table. */
  readonly incidence: Angle;
  /** The table where the spot here is narrowest along the radius, from the focus on the axis. */
  readonly tangentialFocus: Offset;
  /** The table where the spot here is narrowest across the radius, from the focus on the axis. */
  readonly sagittalFocus: Offset;
  /** 1/e² (D4σ) **diameter** on the table **along** the radius. */
  readonly diameterAlongRadius: Length;
  /** 1/e² (D4σ) **diameter** on the table **across** the radius. */
  readonly diameterAcrossRadius: Length;
  /** Diameter along the radius over the waist diameter on the axis. */
  readonly growthAlongRadius: number;
  /** Diameter across the radius over the waist diameter on the axis. */
  readonly growthAcrossRadius: number;
  /** Irradiance in the middle of the spot over that at the waist on the axis. */
  readonly irradianceRatio: number;
  /** Peak dose of a line scanned **along** the radius over that at the waist on the axis. */
  readonly lineDoseRatioAlongRadius: number;
  /** Peak dose of a line scanned **across** the radius over that at the waist on the axis. */
  readonly lineDoseRatioAcrossRadius: number;
  /** Tangent of the incidence times the half angle of the cone; flagged above 0.2. */
  readonly grazingRatio: number;
  /** 1/e² **half** angle of the beam on the axis. */
  readonly halfAngle: Angle;
  /** How far the numbers may be trusted. */
  readonly validity: Validity;
}

/** How far a field reaches. */
export interface ScanFieldExtent {
  /** Largest radius within which no spot grows by more than asked. */
  readonly radius: Length;
  /** Side of the largest square in that circle. */
  readonly squareSide: Length;
  /** Whether that is the whole field of the lens. */
  readonly wholeField: boolean;
  /** Grazing ratio at that radius. */
  readonly grazingRatio: number;
  /** 1/e² **half** angle of the beam on the axis. */
  readonly halfAngle: Angle;
  /** How far the numbers may be trusted. */
  readonly validity: Validity;
}

/** Where to put the table for a field. */
export interface ScanFieldFocus {
  /** Best height of the table, from the focus on the axis: that at which the largest spot is smallest. */
  readonly best: Offset;
  /** The greatest distance of any focus of the field from there. */
  readonly greatestDefocus: Length;
  /** Growth in the middle of the field. */
  readonly centreGrowth: number;
  /** Growth at the edge of the field along the radius. */
  readonly edgeGrowthAlongRadius: number;
  /** Growth at the edge of the field across the radius. */
  readonly edgeGrowthAcrossRadius: number;
  /** Grazing ratio at the edge of the field. */
  readonly grazingRatio: number;
  /** 1/e² **half** angle of the beam on the axis. */
  readonly halfAngle: Angle;
  /** How far the numbers may be trusted. */
  readonly validity: Validity;
}

/** A lens in the model's order. */
function lensNumbers(lens: ScanLens): [number, number, number, number, number, number] {
  const { focalLength, fieldRadius, edgeTangentialFocus, edgeSagittalFocus, edgeIncidence, edgeSpotRatio } = lens ?? {};
  return [
    focalLength,
    fieldRadius,
    edgeTangentialFocus?.zAwayFromLens,
    edgeSagittalFocus?.zAwayFromLens,
    edgeIncidence,
    orElse(edgeSpotRatio, 1),
  ];
}

/**
 * The spot at a place of the field of a scan head, on a flat table.
 *
 * Field angle by r = f·θ; both focal surfaces and the ratio of spots go with the square of the radius, the angle of
 * incidence with the radius; on the table the spot is longer along the radius by 1/cos of that angle. Not modelled:
 * curvature of higher order, coma, distortion, light that is cut off, and the distance between the two mirrors.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result.
 *
 * @param beam - the beam at its focus on the axis.
 * @param place - `x` and `y` from the middle of the field, within it.
 * @param table - the table, from the focus on the axis, up to 1e7 m.
 * @throws {@link SpotwiseError} for a value outside its range, a place outside the field, a field angle above 1.2 rad
 * at the edge, or a half angle above 0.3 rad.
 */
export function scanFieldAt(
  beam: Beam,
  lens: ScanLens,
  place: { readonly x: Length; readonly y: Length },
  table: Offset,
): ScanFieldSpot {
  const { x, y } = place ?? {};
  const out = call(
    core.scan_field_at,
    ...beamNumbers(beam),
    ...lensNumbers(lens),
    x as Length,
    y as Length,
    table?.zAwayFromLens,
  );
  return {
    radius: out[0] as Length,
    fieldAngle: out[1] as Angle,
    incidence: out[2] as Angle,
    tangentialFocus: signedOffset(out[3] as Length),
    sagittalFocus: signedOffset(out[4] as Length),
    diameterAlongRadius: out[5] as Length,
    diameterAcrossRadius: out[6] as Length,
    growthAlongRadius: out[7] as number,
    growthAcrossRadius: out[8] as number,
    irradianceRatio: out[9] as number,
    lineDoseRatioAlongRadius: out[10] as number,
    lineDoseRatioAcrossRadius: out[11] as number,
    grazingRatio: out[12] as number,
    halfAngle: out[13] as Angle,
    validity: validityOf(out[14] as number),
  };
}

/**
 * How far from the middle of its field a scan head keeps the spot within a growth, on a flat table: from the middle
 * outward up to the first place where either diameter is `growthRatio` times the waist on the axis. The search goes by
 * bounds that hold for whole rings, so that it steps over no place. Where growth hardly changes along the radius,
 * |d ln(g² − 1)/d ln r| below about 0.01, the answer may be smaller than it could be, never larger.
 *
 * Accuracy: at most 8 ulp (units in the last place) times 1 + 1/|d ln(g² − 1)/d ln r|, g being the growth and r the
 * radius.
 *
 * @param table - the table, from the focus on the axis, up to 1e7 m.
 * @param growthRatio - spot diameter over waist diameter on the axis, 1 to 1e9.
 * @throws {@link SpotwiseError} as {@link scanFieldAt}; with code 5 if the spot in the middle is larger already.
 */
export function scanFieldExtent(beam: Beam, lens: ScanLens, table: Offset, growthRatio: PureNumber): ScanFieldExtent {
  const out = call(
    core.scan_field_extent,
    ...beamNumbers(beam),
    ...lensNumbers(lens),
    table?.zAwayFromLens,
    growthRatio,
  );
  return {
    radius: out[0] as Length,
    squareSide: out[1] as Length,
    wholeField: out[2] === 1,
    grazingRatio: out[3] as number,
    halfAngle: out[4] as Angle,
    validity: validityOf(out[5] as number),
  };
}

/**
 * The best height of a flat table for the field of a scan head, or the part of it within a radius: no other makes the
 * largest spot smaller. Under a telecentric lens with an `edgeSpotRatio` of 1 it is halfway between the highest
 * and the lowest focus, so that the greatest defocus is least. The largest of the three growths that are told is then that
 * of the whole field.
 *
 * Accuracy: halfway, height and defocus are within 0.75 ulp (units in the last place) of the exact result, the rest
 * within 4 ulp; else all within 4 ulp and what 8 ulp of the square of the growth, less one, make of the height.
 *
 * @param radius - of the part that is used, 0 to that of the field.
 * @throws {@link SpotwiseError} as {@link scanFieldAt}.
 */
export function scanFieldFocus(beam: Beam, lens: ScanLens, radius: Length): ScanFieldFocus {
  const out = call(core.scan_field_focus, ...beamNumbers(beam), ...lensNumbers(lens), radius);
  return {
    best: signedOffset(out[0] as Length),
    greatestDefocus: out[1] as Length,
    centreGrowth: out[2] as number,
    edgeGrowthAlongRadius: out[3] as number,
    edgeGrowthAcrossRadius: out[4] as number,
    grazingRatio: out[5] as number,
    halfAngle: out[6] as Angle,
    validity: validityOf(out[7] as number),
  };
}
