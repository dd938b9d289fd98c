// The light about the focus of a real lens, by the diffraction integral.

import { inM, inUm, SpotwiseError, waveMap } from "../dist/spotwise.mjs";

/** Points of the map: from the axis outward, and along it. */
const RADII = 72;
const HEIGHTS = 144;
/** Pixels of the picture. */
const WIDTH = 640;
const HEIGHT = 400;
/** Rayleigh ranges shown on either side of the focus. */
const REACH = 3;

/**
 * Draws the wave of a real focus on a canvas, or says why there is none. `spotAt` gives the diameter at a
 * distance from the waist.
 */
export function drawLight(canvas, note, real, spotAt) {
  const { power86, wave } = real;
  const focusZ = inM(power86.lensToWaist) - inM(real.lensToFocus);
  const reach = REACH * inM(power86.rayleighRange);
  const widest = spotAt(reach);
  const radii = Float64Array.from({ length: RADII }, (_, i) => (0.6 * widest * i) / (RADII - 1));
  const z = Float64Array.from({ length: HEIGHTS }, (_, i) => focusZ - reach + (2 * reach * i) / (HEIGHTS - 1));
  let map;
  try {
    map = waveMap(wave, radii, z);
  } catch (error) {
    if (!(error instanceof SpotwiseError)) throw error;
    note.textContent = `No picture: ${error.message}`;
    canvas.hidden = true;
    return;
  }
  note.textContent = "";
  canvas.hidden = false;
  canvas.width = WIDTH;
  canvas.height = HEIGHT;
  const context = canvas.getContext("2d");
  context.imageSmoothingQuality = "high";
  context.drawImage(picture(map.irradianceRatios), 0, 0, WIDTH, HEIGHT);
  const y = (at) => ((at - focusZ + reach) / (2 * reach)) * HEIGHT;
  const idealZ = inM(real.ideal.lensToWaist) - inM(real.lensToFocus);
  level(context, y(idealZ), "an ideal lens", WIDTH - 8, "right");
  level(context, y(focusZ), "this lens", 8, "left");
  const spot = inUm(power86.waistDiameter).toFixed(1);
  canvas.setAttribute("aria-label", `The light about the focus from the side; its spot is ${spot} micrometres wide`);
}

/** The map as a picture of one pixel a point, mirrored about the axis. */
function picture(ratios) {
  const width = 2 * RADII - 1;
  const image = new ImageData(width, HEIGHTS);
  const greatest = ratios.reduce((a, b) => Math.max(a, b), 0);
  for (let row = 0; row < HEIGHTS; row++) {
    for (let column = 0; column < width; column++) {
      const ratio = ratios[row * RADII + Math.abs(column - RADII + 1)];
      image.data.set(colour(Math.sqrt(Math.max(0, ratio) / greatest)), 4 * (row * width + column));
    }
  }
  const made = new OffscreenCanvas(width, HEIGHTS);
  made.getContext("2d").putImageData(image, 0, 0);
  return made;
}

/** From paper through the blue of the beam to ink, as the share goes from 0 to 1. */
const stops = [
  [255, 255, 255],
  [0, 114, 178],
  [16, 24, 48],
];

function colour(share) {
  const place = share * (stops.length - 1);
  const first = Math.min(Math.floor(place), stops.length - 2);
  const mixed = stops[first].map((from, i) => from + (stops[first + 1][i] - from) * (place - first));
  return [...mixed, 255];
}

/** A line across at a height, with its name. */
function level(context, y, name, x, align) {
  context.strokeStyle = "#d55e00";
  context.fillStyle = "#8a3d00";
  context.setLineDash(align === "right" ? [2, 5] : []);
  context.beginPath();
  context.moveTo(0, y);
  context.lineTo(WIDTH, y);
  context.stroke();
  context.font = "14px system-ui, sans-serif";
  context.textAlign = align;
  context.fillText(name, x, y + (align === "right" ? 17 : -6));
}
