/** Pulsed marks: dots in a row, the scallop of their edge, craters and grooves. */

import { call, core } from "./core.js";
import { orElse } from "./number.js";
import type { Area, Frequency, Speed, Volume } from "./scan_units.js";
import type { Length, PureNumber } from "./units.js";
import { diameter, type BeamWidth, type Diameter } from "./width.js";

/** One pulse after the other on the same spot. */
export interface PulsedSpot {
  /** The spot, 1 nm to 10 m. */
  readonly spot: BeamWidth;
  /**
   * Peak fluence of one pulse over the threshold of one pulse, 1.000001 to 1e6; for {@link pulsedLine} from 1e-6
   * on, since many pulses may mark where one does not.
   */
  readonly doseRatio: PureNumber;
}

/** A row of dots. */
export interface PulsedLine {
  /** Whether a dot marks at all, if only after so many pulses. */
  readonly marks: boolean;
  /** Threshold after so many pulses over that of one, at most 1. */
  readonly thresholdRatio: number;
  /** Peak fluence over that lowered threshold. */
  readonly doseRatio: number;
  /** A dot; of diameter 0 without a mark. */
  readonly dot: Diameter;
  /** Whether dots overlap, so that the line has no gaps. */
  readonly connected: boolean;
  /** How far the edge dents between dots; the radius of a dot where they do not touch, 0 without a mark. */
  readonly scallop: Length;
}

/** What one pulse digs. */
export interface Crater {
  /** **Diameter** at the surface. */
  readonly diameter: Length;
  /** Depth in the middle. */
  readonly depth: Length;
  /** Depth at the radius asked for; 0 outside the crater. */
  readonly depthAtRadius: Length;
  /** Volume. */
  readonly volume: Volume;
}

/** What a row of pulses digs. */
export interface Groove {
  /** Width at the surface. */
  readonly width: Length;
  /** Mean depth along the middle. */
  readonly depth: Length;
  /** Mean depth at the distance asked for; 0 outside the groove. */
  readonly depthAside: Length;
  /** Area of the mean cross-section. */
  readonly area: Area;
}

/** The fastest scan that leaves no more than a given scallop. */
export interface ConnectedSpeed {
  /** Largest pulse pitch. */
  readonly pulsePitch: Length;
  /** Effective pulses on one place at that pitch, at least 1. */
  readonly pulses: number;
  /** Largest speed. */
  readonly speed: Speed;
}

/**
 * The dots of a pulsed line: their size after incubation, and the scallop of the edge.
 *
 * Dot d·√(L/2) (Liu, Optics Letters 7, 196, 1982, from memory); threshold after N pulses N^(S − 1) of that of
 * one (Jee, Becker and Walser, J. Opt. Soc. Am. B 5, 648, 1988, an empirical law, from memory). A pulse below
 * the threshold may so mark after many. No mark is no error: `marks` is then false.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result; more where dots just touch or just
 * mark, or incubation is strong.
 *
 * @param line - `pulsePitch`: from dot to dot, 1 pm to 10 m; `incubation`: S, 0.5 to 1, left out there is
 * none; `pulses`: how many fall on one place, such as `effectivePulses` of {@link pulseDose}, 1 to 1e9, left
 * out one.
 * @throws {@link SpotwiseError} for a value outside its range.
 */
export function pulsedLine(
  line: PulsedSpot & {
    readonly pulsePitch: Length;
    readonly incubation?: PureNumber | undefined;
    readonly pulses?: PureNumber | undefined;
  },
): PulsedLine {
  const out = call(
    core.pulsed_line,
    line?.spot?.diameter1e2,
    line?.doseRatio,
    line?.pulsePitch,
    orElse(line?.incubation, 1),
    orElse(line?.pulses, 1),
  );
  return {
    marks: out[0] === 1,
    thresholdRatio: out[1] as number,
    doseRatio: out[2] as number,
    dot: diameter(out[3] as Length),
    connected: out[4] === 1,
    scallop: out[5] as Length,
  };
}

/**
 * Depth and volume of the crater of one pulse, and its depth at a distance from the middle.
 *
 * Depth ℓ·(L − 2r²/w²), volume π·w²·ℓ·L²/4: the fluence falls by e over the `penetrationDepth` ℓ and ablates
 * while it exceeds the threshold. Plasma, heat that accumulates and debris are not modelled.
 *
 * Accuracy: at most 6 ulp (units in the last place) of the exact result, times L/(L − 2r²/w²) for
 * `depthAtRadius`.
 *
 * @param pulse - `penetrationDepth`: 1 pm to 1 m; `radius`: from the middle, 0 to 10 m.
 * @throws {@link SpotwiseError} for a value outside its range.
 */
export function crater(
  pulse: PulsedSpot & { readonly penetrationDepth: Length; readonly radius: Length },
): Crater {
  const out = call(
    core.crater,
    pulse?.spot?.diameter1e2,
    pulse?.doseRatio,
    pulse?.penetrationDepth,
    pulse?.radius,
  );
  return {
    diameter: out[0] as Length,
    depth: out[1] as Length,
    depthAtRadius: out[2] as Length,
    volume: out[3] as Volume,
  };
}

/**
 * Mean depth and cross-section of the groove of a row of pulses, and its depth at a distance aside. It
 * holds while several pulses fall on each place, and adds up depths as if each met a flat surface. A pitch wider
 * than a dot leaves craters apart and no groove.
 *
 * Accuracy: at most 6 ulp (units in the last place) of the exact result, times 1 + 3/(1 − y²/ρ²) for
 * `depthAside`, ρ being half the width.
 *
 * @param row - `penetrationDepth`: 1 pm to 1 m; `pulsePitch`: 1 pm to the diameter of a dot; `aside`: from the
 * middle, 0 to 10 m.
 * @throws {@link SpotwiseError} for a value outside its range.
 */
export function groove(
  row: PulsedSpot & {
    readonly penetrationDepth: Length;
    readonly pulsePitch: Length;
    readonly aside: Length;
  },
): Groove {
  const out = call(
    core.groove,
    row?.spot?.diameter1e2,
    row?.doseRatio,
    row?.penetrationDepth,
    row?.pulsePitch,
    row?.aside,
  );
  return {
    width: out[0] as Length,
    depth: out[1] as Length,
    depthAside: out[2] as Length,
    area: out[3] as Area,
  };
}

/**
 * The largest pulse pitch and speed at which the edge of a pulsed line dents by no more than `scallop`.
 * With incubation the threshold falls as the pulses come closer, so that dots grow as the scan slows down; how
 * many pulses fall on one place follows from the pitch.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result.
 *
 * @param line - `repetitionRate`: 1 mHz to 1 THz; `incubation`: S, 0.5 to 1, left out there is none; `scallop`:
 * 1 fm to the radius of a dot of one pulse.
 * @throws {@link SpotwiseError} for a value outside its range; with code 4 if the pulses on one place come out beyond
 * 1e9 (parameter 101) or the speed beyond 1 nm/s to 10 km/s (parameter 78).
 */
export function connectedSpeed(
  line: PulsedSpot & {
    readonly repetitionRate: Frequency;
    readonly incubation?: PureNumber | undefined;
    readonly scallop: Length;
  },
): ConnectedSpeed {
  const out = call(
    core.connected_speed,
    line?.spot?.diameter1e2,
    line?.doseRatio,
    line?.repetitionRate,
    orElse(line?.incubation, 1),
    line?.scallop,
  );
  return { pulsePitch: out[0] as Length, pulses: out[1] as number, speed: out[2] as Speed };
}
