/** The predicted mark of a drawing and what is wrong with it, as a picture. */

import type { MarkPreview, PixelBox } from "./artwork.js";
import { drawingNumbers, outputsOf, refuseNoBytes, samplesOf, type Artwork } from "./artwork_job.js";
import { callWithList, core } from "./core.js";
import { orElse } from "./number.js";

/** Which pixels of the drawing a picture shows, and how large. */
export interface PictureView {
  /** First column shown; left out, 0. */
  readonly left?: number | undefined;
  /** First row shown; left out, 0. */
  readonly top?: number | undefined;
  /** Columns shown; left out, as many as the drawing has. */
  readonly width?: number | undefined;
  /** Rows shown; left out, as many as the drawing has. */
  readonly height?: number | undefined;
  /** Pixels of the picture along each side of one of the drawing, at least 1; left out, 1. */
  readonly zoom?: number | undefined;
}

/** What a picture shows. */
export interface PictureLayers {
  /** The drawing. */
  readonly drawing: Artwork;
  /** What {@link preflight} or {@link previewMark} found of it. */
  readonly found: Pick<MarkPreview, "mark" | "lost" | "filled" | "unknown">;
  /** Boxes to frame, such as those of `lostRegions`; left out, none. */
  readonly boxes?: readonly PixelBox[] | undefined;
}

/** A picture: `new ImageData(data, width, height)` makes one for a canvas. */
export interface Picture {
  /** Red, green, blue and opacity (sRGB) of each pixel, row by row. */
  readonly data: Uint8ClampedArray<ArrayBuffer>;
  /** Pixels in a row. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
}

/** A colour of the pictures, and what it says. */
export interface LegendColour {
  /** What it says. */
  readonly name: string;
  /** Red, green, blue and opacity, sRGB, 0 to 255. */
  readonly rgba: readonly [number, number, number, number];
}

const COLOURS = 8;

/**
 * The legend of the pictures: bare, marked, worn edge, grown edge, lost, filled, height unknown, finding.
 *
 * Dark is marked and light is not, as in the work itself. A worn edge is ink that does not mark, but lies within the
 * tolerance of the mark; a grown edge is marked without ink, within the tolerance of what stays clear. Any two colours
 * differ clearly for normal sight and for complete protanopia, deuteranopia and tritanopia, and in grey.
 */
export const pictureLegend: readonly LegendColour[] = Object.freeze(
  Array.from({ length: COLOURS }, (_, i) => {
    const rgba = [...core.picture_colour(i + 1)] as [number, number, number, number];
    return Object.freeze({ name: core.picture_colour_name(i + 1), rgba: Object.freeze(rgba) });
  }),
);

function viewNumbers(drawing: Artwork, view: PictureView | undefined): number[] {
  const zoom = orElse(view?.zoom, 1);
  return [
    orElse(view?.left, 0),
    orElse(view?.top, 0),
    orElse(view?.width, drawing?.width),
    orElse(view?.height, drawing?.height),
    zoom,
  ];
}

/**
 * Draws the predicted mark and what is lost and filled, in the colours of {@link pictureLegend}.
 *
 * Pixels of the view beyond the drawing are bare. Where layers overlap, an unknown height comes before what is lost or
 * filled, and that before the mark. A box is a line of one pixel of the drawing around it, one pixel left free between.
 *
 * @throws {@link SpotwiseError} for a value outside its range; with code 6 for a mask that is not of the drawing's
 * size; with code 2 for a picture of more than 2²⁸ pixels (parameter 200).
 */
export function markPicture(layers: PictureLayers, view?: PictureView): Picture {
  const drawing = layers?.drawing;
  const samples = samplesOf(drawing);
  const found = layers?.found;
  const masks = [found?.mark, found?.lost, found?.filled] as [Uint8Array, Uint8Array, Uint8Array];
  const numbers = [...drawingNumbers(drawing), ...viewNumbers(drawing, view)];
  const boxes = layers?.boxes === undefined ? [] : layers.boxes;
  // What is no list holds no boxes.
  const edges = (Array.isArray(boxes) ? (boxes as readonly PixelBox[]) : []).flatMap((box) => [
    box?.left,
    box?.top,
    box?.right,
    box?.bottom,
  ]);
  for (const mask of masks) refuseNoBytes(mask, 40, "output length");
  const unknown = found.unknown === undefined ? new Uint8Array(0) : found.unknown;
  refuseNoBytes(unknown, 40, "output length");
  callWithList(
    (all) => {
      const own = Float64Array.from(all.slice(0, numbers.length));
      return core.mark_picture(samples, own, ...masks, unknown, Float64Array.from(all.slice(numbers.length)));
    },
    [...numbers, ...edges],
  );
  const [width, height, zoom] = numbers.slice(-3) as [number, number, number];
  const data = core.picture_bytes() as Uint8ClampedArray<ArrayBuffer>;
  return { data, width: width * zoom, height: height * zoom };
}

/**
 * Bytes of the module's memory that {@link markPicture} takes, its inputs included.
 *
 * @throws {@link SpotwiseError} as {@link markPicture}.
 */
export function pictureMemory(drawing: Artwork, view?: PictureView): number {
  const samples = samplesOf(drawing);
  const numbers = [...drawingNumbers(drawing), ...viewNumbers(drawing, view)];
  return outputsOf((all) => core.mark_picture_bytes(samples, all), numbers, 1)[0] as number;
}
