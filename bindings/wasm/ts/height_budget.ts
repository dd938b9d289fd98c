/** What the heights of a surface ask of the focus: where to set it, how often, and how much is reached. */

import { astigmaticNumbers, beamNumbers, type AstigmaticBeam, type Beam } from "./beam.js";
import { call, core } from "./core.js";
import { defocusFrom, type Defocus } from "./focus.js";
import { orElse } from "./number.js";
import { signedOffset, type Offset } from "./place.js";
import { radiusOf, type RoundSize } from "./shape.js";
import type { Angle, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/** Heights between which a surface lies, both relative to one datum and at most 1e7 m from it. */
export interface HeightRange {
  /** The place nearest the lens. */
  readonly highest: Offset;
  /** The place farthest from the lens; not above the highest. */
  readonly lowest: Offset;
}

/**
 * A depth of focus by its two ends relative to the focus, from wherever it is known: a {@link FocusRange} is
 * one, and so is what was found by trial.
 */
export interface FocusDepth {
  /** The end nearer the lens. */
  readonly towardLens: Offset;
  /** The end farther from the lens; at least 1 nm from the other. */
  readonly awayFromLens: Offset;
}

/**
 * What focus is set on where a surface recedes from its highest place.
 *
 * - `highest place`: such as the crown of a round part, or the surface before the first pass; only the part
 *   of the depth of focus away from the lens is used.
 * - `midway`: below it, so that the whole depth of focus is used.
 */
export type FocusAim = "highest place" | "midway";

/** An aim that does not exist is 0 and refused. */
function aimCode(aim: FocusAim): number {
  return ["highest place", "midway"].indexOf(aim) + 1;
}

/** The two ends of a depth, in the model's order. */
function depthNumbers(depth: FocusDepth): [number, number] {
  return [depth?.towardLens?.zAwayFromLens, depth?.awayFromLens?.zAwayFromLens];
}

/** Heights that the model wrote. */
function offsets(heights: Float64Array): readonly Offset[] {
  return Array.from(heights, (z) => signedOffset(z as Length));
}

/** The focus height that is least bad over a surface. */
export interface FocusBetween {
  /** Where to set focus, relative to the datum of the heights. */
  readonly focus: Offset;
  /** From there to either end of the surface. */
  readonly halfRange: Length;
  /** The spot at either end of the surface, which no other focus height betters. */
  readonly worst: Defocus;
}

/**
 * The focus height that makes the worst spot on a surface as small as can be, and that spot: the middle
 * between the highest and the lowest place.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @throws {@link SpotwiseError} for a value outside its range, a lowest place above the highest, or a half
 * angle above 0.3 rad.
 */
export function focusBetween(beam: Beam, surface: HeightRange): FocusBetween {
  const { highest, lowest } = surface ?? {};
  const out = call(core.focus_between, ...beamNumbers(beam), highest?.zAwayFromLens, lowest?.zAwayFromLens);
  return {
    focus: signedOffset(out[0] as Length),
    halfRange: out[1] as Length,
    worst: defocusFrom(out.subarray(2)),
  };
}

/** The focus height of an astigmatic beam that is least bad over a surface. */
export interface AstigmaticFocusBetween {
  /** Where to put the beam's z = 0, relative to the datum of the heights. */
  readonly focus: Offset;
  /** The wider axis at the worst height, which no other focus height betters. */
  readonly worst: BeamWidth;
  /** Width in x at the highest place. */
  readonly highestX: BeamWidth;
  /** Width in y at the highest place. */
  readonly highestY: BeamWidth;
  /** Width in x at the lowest place. */
  readonly lowestX: BeamWidth;
  /** Width in y at the lowest place. */
  readonly lowestY: BeamWidth;
  /** Greatest 1/e² **half** angle of both axes. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

/**
 * The focus height that makes the wider axis of an astigmatic beam, at the worst height of a surface, as
 * narrow as can be. Both ends of the surface are then equally bad.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result; `focus` 1 ulp, but where it is the
 * small difference of the surface's height and the beam's.
 *
 * @throws {@link SpotwiseError} as {@link focusBetween}, for the beam as {@link astigmaticAt}.
 */
export function focusBetweenAstigmatic(beam: AstigmaticBeam, surface: HeightRange): AstigmaticFocusBetween {
  const { highest, lowest } = surface ?? {};
  const out = call(
    core.focus_between_astigmatic,
    ...astigmaticNumbers(beam),
    highest?.zAwayFromLens,
    lowest?.zAwayFromLens,
  );
  return {
    focus: signedOffset(out[0] as Length),
    worst: diameter1e2(out[1] as Length),
    highestX: diameter1e2(out[2] as Length),
    highestY: diameter1e2(out[3] as Length),
    lowestX: diameter1e2(out[4] as Length),
    lowestY: diameter1e2(out[5] as Length),
    halfAngle: out[6] as Angle,
    validity: validityOf(out[7] as number),
  };
}

/** How a surface is divided into bands of height. */
export interface HeightBands {
  /** How many bands are needed. */
  readonly count: number;
  /** Height of each band. */
  readonly bandHeight: Length;
  /** Height of each band over the full depth of focus: what is left to 1 is spare. */
  readonly shareOfDepth: number;
  /** Limits of the bands from the highest place to the lowest, one more than there are bands. */
  readonly limits: readonly Offset[];
  /** Where to set focus for each band. */
  readonly focus: readonly Offset[];
}

/**
 * Bands of equal height into which a surface must be divided so that each stays within the depth of focus,
 * less a margin of it. A band may exceed what it should be by a part in 1e9, so that 2.1 mm make three bands
 * of 0.7 mm, however these round.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @param budget - `depth`: the depth of focus; `margin`: the share of it that is kept for errors of set-up, 0 to
 * 0.99; left out, none.
 * @throws {@link SpotwiseError} for a value outside its range or a lowest place above the highest; with code 4
 * for a depth below 1 nm (parameter 146) or more than a million bands (parameter 148).
 */
export function heightBands(
  surface: HeightRange,
  budget: { readonly depth: FocusDepth; readonly margin?: PureNumber | undefined },
): HeightBands {
  const { highest, lowest } = surface ?? {};
  const { depth, margin } = budget ?? {};
  const inputs = [
    highest?.zAwayFromLens as number,
    lowest?.zAwayFromLens as number,
    ...depthNumbers(depth as FocusDepth),
    orElse(margin, 0),
  ] as const;
  const written = (limits: Float64Array, focus: Float64Array) =>
    call(
      (high: number, low: number, toward: number, away: number, share: number) =>
        core.height_bands(high, low, toward, away, share, limits, focus),
      ...inputs,
    );
  const count = written(new Float64Array(0), new Float64Array(0))[0] as number;
  const limits = new Float64Array(count + 1);
  const focus = new Float64Array(count);
  const out = written(limits, focus);
  return {
    count,
    bandHeight: out[1] as Length,
    shareOfDepth: out[2] as number,
    limits: offsets(limits),
    focus: offsets(focus),
  };
}

/** A strip along the crown of a lying round part. */
export interface CylinderStrip {
  /** From the crown to the edge of the strip, straight across: **half** the width as a drawing has it. */
  readonly halfChord: Length;
  /** From edge to edge, straight across. */
  readonly fullChord: Length;
  /** From edge to edge, along the surface. */
  readonly arcLength: Length;
  /** How far the edges lie below the crown. */
  readonly edgeSag: Length;
  /** Angle between the beam and the normal of the surface at the edge. */
  readonly edgeIncidence: Angle;
  /** Irradiance at the edge over that on a level surface, by the incidence alone: its cosine. */
  readonly edgeIrradianceRatio: number;
  /** Where to set focus, relative to the crown. */
  readonly focus: Offset;
  /** Whether the whole upper half of the part is in focus. */
  readonly wholeUpperHalf: boolean;
}

/**
 * The largest strip of a lying round part that stays in focus, by the sagitta of a circle. Midway it is about √2
 * wider than with focus on the crown.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result; angle and arc 2 ulp.
 *
 * @param part - `radius` or `diameter`: 1 µm to 1 km of radius; `depth`: the depth of focus; `aim`: what focus is
 * set on.
 * @throws {@link SpotwiseError} for a value outside its range, or a depth that does not hold its own focus where
 * that is set on the crown; with code 4 for a depth below 1 nm (parameter 146).
 */
export function cylinderStrip(
  part: { readonly depth: FocusDepth; readonly aim: FocusAim } & RoundSize,
): CylinderStrip {
  // Null is no part; nothing of it is a number.
  const given = part ?? ({} as typeof part);
  const { depth, aim } = given;
  const out = call(core.cylinder_strip, radiusOf(given), ...depthNumbers(depth), aimCode(aim));
  return {
    halfChord: out[0] as Length,
    fullChord: out[1] as Length,
    arcLength: out[2] as Length,
    edgeSag: out[3] as Length,
    edgeIncidence: out[4] as Angle,
    edgeIrradianceRatio: out[5] as number,
    focus: signedOffset(out[6] as Length),
    wholeUpperHalf: out[7] === 1,
  };
}

/** How a deep engraving is divided into stages of one focus height each. */
export interface RefocusPlan {
  /** Passes in all. */
  readonly passes: number;
  /** Depth that they remove, at least the depth wanted. */
  readonly reachedDepth: Length;
  /** Passes before focus is set anew. */
  readonly passesPerStage: number;
  /** Stages; the focus is set anew one time less. */
  readonly stages: number;
  /** Passes in the last stage, which may be shorter. */
  readonly lastStagePasses: number;
  /** Depth that a full stage removes: by how much focus is lowered from one to the next. */
  readonly stageDepth: Length;
  /** Depth of focus that a stage may use. */
  readonly usableDepth: Length;
  /** Whether the surface stays in focus; false where one pass removes more than the usable depth. */
  readonly staysInFocus: boolean;
  /** Where to set focus for each stage, relative to the surface before the first pass. */
  readonly focus: readonly Offset[];
}

/**
 * When to set focus anew in a deep engraving of many passes, and where. With the aim on the surface (`highest
 * place`) focus is set on it as each stage finds it; midway it lies below, and half as many stages are needed.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @param engraving - `totalDepth` and `depthPerPass`: 1 nm to 1 km; `depth`: the depth of focus; `aim`: what focus is
 * set on.
 * @throws {@link SpotwiseError} as {@link cylinderStrip}; with code 4 for more than a million passes (parameter 155).
 */
export function refocusPlan(engraving: {
  readonly totalDepth: Length;
  readonly depthPerPass: Length;
  readonly depth: FocusDepth;
  readonly aim: FocusAim;
}): RefocusPlan {
  const { totalDepth, depthPerPass, depth, aim } = engraving ?? {};
  const inputs = [
    totalDepth as number,
    depthPerPass as number,
    ...depthNumbers(depth as FocusDepth),
    aimCode(aim as FocusAim),
  ] as const;
  const written = (focus: Float64Array) =>
    call(
      (total: number, each: number, toward: number, away: number, code: number) =>
        core.refocus_plan(total, each, toward, away, code, focus),
      ...inputs,
    );
  const stages = written(new Float64Array(0))[3] as number;
  const focus = new Float64Array(stages);
  const out = written(focus);
  return {
    passes: out[0] as number,
    reachedDepth: out[1] as Length,
    passesPerStage: out[2] as number,
    stages,
    lastStagePasses: out[4] as number,
    stageDepth: out[5] as Length,
    usableDepth: out[6] as Length,
    staysInFocus: out[7] === 1,
    focus: offsets(focus),
  };
}

/** The spot from the top of a part to its bottom. */
export interface SpotThrough {
  /** Spot at the top. */
  readonly top: BeamWidth;
  /** Spot at the bottom. */
  readonly bottom: BeamWidth;
  /** The widest spot in the thickness: the larger of the two. */
  readonly widest: BeamWidth;
  /** The narrowest spot in the thickness: the waist where that lies inside. */
  readonly narrowest: BeamWidth;
  /** Widest over waist diameter. */
  readonly worstGrowth: number;
  /** Diameter at the bottom over that at the top. */
  readonly taperRatio: number;
  /** **Half** angle of the taper, **+ where the bottom is narrower than the top**. */
  readonly taperHalfAngle: Angle;
  /** The focus, relative to the top surface, that makes the widest spot as small as can be. */
  readonly bestFocus: Offset;
  /** The greatest growth with that focus. */
  readonly bestWorstGrowth: number;
  /** **Half** angle of the cone. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

/**
 * The spot through the thickness of a part that is cut or deeply marked, and the best focus for it, which is
 * mid-thickness. As in air: light that the walls of the cut guide, block or reflect is not modelled, nor is a
 * transparent part (see {@link focusInside}).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result; the taper's angle 1.5 ulp.
 *
 * @param cut - `focus`: relative to the top surface, `awayFromLens` is into the part, up to 1 km; `thickness`: 0 to
 * 10 m.
 * @throws {@link SpotwiseError} for a value outside its range, or a half angle above 0.3 rad.
 */
export function spotThrough(
  beam: Beam,
  cut: { readonly focus: Offset; readonly thickness: Length },
): SpotThrough {
  const { focus, thickness } = cut ?? {};
  const out = call(core.spot_through, ...beamNumbers(beam), focus?.zAwayFromLens as number, thickness as number);
  return {
    top: diameter1e2(out[0] as Length),
    bottom: diameter1e2(out[1] as Length),
    widest: diameter1e2(out[2] as Length),
    narrowest: diameter1e2(out[3] as Length),
    worstGrowth: out[4] as number,
    taperRatio: out[5] as number,
    taperHalfAngle: out[6] as Angle,
    bestFocus: signedOffset(out[7] as Length),
    bestWorstGrowth: out[8] as number,
    halfAngle: out[9] as Angle,
    validity: validityOf(out[10] as number),
  };
}
