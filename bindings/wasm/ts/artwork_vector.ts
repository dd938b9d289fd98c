/** Paths, and text in a font file of the user's, drawn as artwork at a pitch that the spot demands. */

import {
  outputsOf,
  refuseNoBytes,
  sampleKindCode,
  watched,
  type Artwork,
  type OnProgress,
  type SampleKind,
} from "./artwork_job.js";
import { call, callWithList, core } from "./core.js";
import { errorCode, SpotwiseError } from "./error.js";
import { orElse } from "./number.js";
import type { TablePlace } from "./shape.js";
import type { Length, PureNumber } from "./units.js";
import type { BeamWidth } from "./width.js";

/**
 * One step of a path, from where the last one ended: a new part, a straight line, a quadratic or a cubic Bézier curve,
 * or a straight line back to where the part began. x to the right, y downward, −1 to 1 km each.
 */
export type PathStep =
  | { readonly kind: "move"; readonly to: TablePlace }
  | { readonly kind: "line"; readonly to: TablePlace }
  | { readonly kind: "quadratic"; readonly control: TablePlace; readonly to: TablePlace }
  | { readonly kind: "cubic"; readonly first: TablePlace; readonly second: TablePlace; readonly to: TablePlace }
  | { readonly kind: "close" };

/** A path: it begins with a move. */
export type InkPath = readonly PathStep[];

/** Which points lie inside a path: those around which it turns other than zero times, or an odd number of times. */
export type FillRule = "non-zero" | "even-odd";

/** A stroke along a path. */
export interface PathStroke {
  /** Full width, half of it to either side; 1 nm to 10 m. */
  readonly width: Length;
  /** Its ends; left out, `butt`. A part of no length has a round or square dot, or with a butt cap nothing. */
  readonly cap?: "butt" | "round" | "square" | undefined;
  /** Its corners; left out, `mitre`. */
  readonly join?: "mitre" | "round" | "bevel" | undefined;
  /** Bevelled where the edges of a mitre meet farther than so many half widths from the corner, 1 to 1000; left out, 4. */
  readonly mitreLimit?: PureNumber | undefined;
}

/** A path and how it is inked: its inside by a rule, or a stroke along it. */
export type InkedShape =
  | { readonly path: InkPath; readonly fill: FillRule }
  | { readonly path: InkPath; readonly stroke: PathStroke };

/** Where the pixels of a drawing lie; the fields are those of an {@link Artwork}. */
export type ArtworkFrame = Pick<Artwork, "width" | "height" | "pitchX" | "pitchY"> & {
  readonly left: Length;
  readonly top: Length;
};

/** The least box around something, y growing from top to bottom. */
export interface PathBounds {
  readonly left: Length;
  readonly top: Length;
  readonly right: Length;
  readonly bottom: Length;
}

/** How large letters are: by the em, the height of the font's capital H, or that of its digit 1. */
export type LetterSize =
  | { readonly em: Length }
  | { readonly capHeight: Length }
  | { readonly digitHeight: Length };

/** A line of text to be set. */
export interface LineOfText {
  /** The bytes of a TrueType or OpenType font file. */
  readonly font: Uint8Array;
  /** Which font of a collection, from 0; left out, the first. */
  readonly face?: number | undefined;
  /** The text. */
  readonly text: string;
  /** How large it is; an em of 1 nm to 10 m. */
  readonly size: LetterSize;
  /** How much farther apart letters stand than the font says, −1 to 10 ems; left out, no farther. */
  readonly letterSpacing?: Length | undefined;
  /** Origin of the first letter, on the baseline; left out, x = y = 0. */
  readonly origin?: TablePlace | undefined;
}

/** A line of text as a path, and the room that it takes. */
export interface SetLine {
  /** All letters; fill it by the non-zero rule. */
  readonly path: InkPath;
  /** The em. */
  readonly em: Length;
  /** From the origin of the first letter to where a next one would begin. */
  readonly advance: Length;
}

const stepKinds: readonly string[] = ["move", "line", "quadratic", "cubic", "close"];
const caps: readonly string[] = ["butt", "round", "square"];
const joins: readonly string[] = ["mitre", "round", "bevel"];
const rules: readonly string[] = ["non-zero", "even-odd"];
const STEP = 7;

/** What is wrong with a path, a font or a text, which the table of parameters does not name. */
function refused(message: string, parameterName: string, code: number): SpotwiseError {
  return new SpotwiseError(message, { code, parameter: 0, parameterName, value: NaN, least: NaN, greatest: NaN });
}

/** A status for the caller, or the error of a status of this part's own. */
function known(status: number): number {
  switch (status) {
    case 101:
      throw refused(core.vector_message(), "path", errorCode.notAQuantity);
    case 102:
      throw refused(core.vector_message(), "vector", errorCode.outOfRange);
    case 103:
      throw refused(core.vector_message(), "font", errorCode.notAQuantity);
    default:
      return status;
  }
}

/** The code of a choice; one that does not exist is refused in the name of what it is. */
function choice(names: readonly string[], given: unknown, what: string): number {
  const code = names.indexOf(given as string) + 1;
  if (code > 0) return code;
  throw refused(`${what} is not known (must be one of ${names.join(", ")})`, what, errorCode.unknownChoice);
}

function stepNumbers(step: PathStep): number[] {
  const code = choice(stepKinds, step?.kind, "step of a path");
  const numbers = (...places: TablePlace[]) => {
    const given: number[] = [code, ...places.flatMap((place) => [place?.x, place?.y])];
    while (given.length < STEP) given.push(NaN);
    return given;
  };
  switch (step.kind) {
    case "quadratic":
      return numbers(step.control, step.to);
    case "cubic":
      return numbers(step.first, step.second, step.to);
    case "close":
      return numbers();
    default:
      return numbers(step.to);
  }
}

function pathNumbers(path: InkPath): number[] {
  // What is no list holds no steps.
  return Array.isArray(path) ? (path as InkPath).flatMap(stepNumbers) : [];
}

/** The numbers of a shape but how many steps it has. */
function inkNumbers(shape: InkedShape): number[] {
  if (typeof shape === "object" && shape !== null && "stroke" in shape) {
    const { width, cap, join, mitreLimit } = shape.stroke ?? ({} as PathStroke);
    const codes = [
      cap === undefined ? 1 : choice(caps, cap, "cap of a stroke"),
      join === undefined ? 1 : choice(joins, join, "join of a stroke"),
    ];
    return [0, width, ...codes, orElse(mitreLimit, 4)];
  }
  return [choice(rules, shape?.fill, "rule of a fill"), 0, 0, 0, 0];
}

/**
 * The pitch that a spot demands of a drawing: a quarter of its 1/e² radius for samples of coverage, an eighth for bilevel
 * ones. Takes the least spot on the part, which is that of the waist if focus may lie there.
 *
 * @throws {@link SpotwiseError} for a value outside its range or an unknown kind.
 */
export function pitchForSpot(leastSpot: BeamWidth, kind: SampleKind): Length {
  return call(core.pitch_for_spot, leastSpot?.diameter1e2, sampleKindCode(kind))[0] as Length;
}

/**
 * The least box around all points of a path, those that control curves included: it holds the path's fill, not its
 * stroke.
 *
 * @throws {@link SpotwiseError} for a path without a point, or a place outside its range.
 */
export function pathBounds(path: InkPath): PathBounds {
  const out = callWithList((all) => known(core.path_bounds(Float64Array.from(all))), pathNumbers(path));
  return { left: out[0] as Length, top: out[1] as Length, right: out[2] as Length, bottom: out[3] as Length };
}

/**
 * The fewest square pixels of a pitch that hold a box and a margin of up to 10 m around it.
 *
 * @throws {@link SpotwiseError} for a value outside its range, or for more pixels than a drawing can have.
 */
export function frameAround(bounds: PathBounds, margin: Length, pitch: Length): ArtworkFrame {
  const out = call(core.frame_around, bounds?.left, bounds?.top, bounds?.right, bounds?.bottom, margin, pitch);
  return {
    width: out[0] as number,
    height: out[1] as number,
    pitchX: out[2] as Length,
    pitchY: out[3] as Length,
    left: out[4] as Length,
    top: out[5] as Length,
  };
}

/**
 * Sets a line of text in a font file of the user's, as a path: the outlines of the font, unhinted, side by side from
 * left to right as its advance widths say.
 *
 * Not done: kerning, ligatures and every other substitution, marks placed over letters, scripts that join or run from
 * right to left, more than one line. Of a variable font the default instance is used.
 *
 * @throws {@link SpotwiseError} for a value outside its range; with code 7 for what is no font, for a character that the
 * font has not, and for text without a letter.
 */
export function setText(line: LineOfText): SetLine {
  const font = line?.font;
  refuseNoBytes(font, 0, "font");
  const { face, text, size, letterSpacing, origin } = line;
  if (typeof text !== "string") throw refused("the text is no text", "text", errorCode.notAQuantity);
  const by = typeof size === "object" && size !== null ? size : ({} as LetterSize);
  const [code, height] = "em" in by ? [1, by.em] : "capHeight" in by ? [2, by.capHeight] : [3, by.digitHeight];
  const at = origin === undefined ? { x: 0, y: 0 } : origin;
  const numbers: number[] = [orElse(face, 0), height, orElse(letterSpacing, 0), at?.x, at?.y];
  const out = callWithList((all) => {
    const [index, ...rest] = all as [number, number, number, number, number];
    return known(core.text_line(font, index, text, code, ...rest));
  }, numbers).slice(0, 2);
  return { path: pathFrom(core.text_steps()), em: out[0] as Length, advance: out[1] as Length };
}

function pathFrom(all: Float64Array): PathStep[] {
  return Array.from({ length: all.length / STEP }, (_, i): PathStep => {
    const one = all.subarray(i * STEP, (i + 1) * STEP);
    const place = (k: number): TablePlace => ({ x: one[k] as Length, y: one[k + 1] as Length });
    switch (one[0]) {
      case 1:
        return { kind: "move", to: place(1) };
      case 2:
        return { kind: "line", to: place(1) };
      case 3:
        return { kind: "quadratic", control: place(1), to: place(3) };
      case 4:
        return { kind: "cubic", first: place(1), second: place(3), to: place(5) };
      default:
        return { kind: "close" };
    }
  });
}

/**
 * Draws shapes, one over the other, as samples of coverage: a drawing for {@link preflight}, of shapes.
 *
 * Curves become chords within 1/256 of a pixel of them. A sample is right to within 4 of 255, the area of a shape to
 * 1/128 of a pixel for each pixel of its outline. What lies outside the frame is left out. A path may have two million
 * points once its curves are chords.
 *
 * @throws {@link SpotwiseError} for a value outside its range; with code 3 for a choice that does not exist; with code 7
 * for a path with nothing to draw, without a first move, or of too many points; with code 9 if the progress function
 * says so.
 */
export function drawShapes(shapes: readonly InkedShape[], frame: ArtworkFrame, onProgress?: OnProgress): Artwork {
  // What is no list holds no shapes.
  const given = Array.isArray(shapes) ? (shapes as readonly InkedShape[]) : [];
  const paths = given.map((shape) => pathNumbers(shape?.path));
  const inks = given.flatMap((shape, i) => [(paths[i] as number[]).length / STEP, ...inkNumbers(shape)]);
  const place = frame;
  const frameNumbers: number[] = [
    place?.width,
    place?.height,
    place?.pitchX,
    place?.pitchY,
    place?.left,
    place?.top,
  ];
  const ends = [frameNumbers.length, frameNumbers.length + inks.length] as const;
  watched(onProgress, (tell) =>
    outputsOf(
      (all) => known(core.draw_shapes(all.subarray(0, ends[0]), all.subarray(...ends), all.subarray(ends[1]), tell)),
      [...frameNumbers, ...inks, ...paths.flat()],
      1,
    ),
  );
  const [width, height, pitchX, pitchY, left, top] = frameNumbers as [number, number, Length, Length, Length, Length];
  return { samples: core.drawn_samples(), width, height, pitchX, pitchY, left, top, kind: "coverage", use: "shapes" };
}
