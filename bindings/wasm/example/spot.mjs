// How wide the beam of a verdict is, so far from its waist.

import { asDiameter1e2, atLens, defocus, inM, m, refractiveIndex, signedOffset, singletDefocus } from "../dist/spotwise.mjs";

/**
 * A function that gives the diameter of the spot at a distance from the waist, both in metres, + away from
 * the lens. By 86.5 % of the power for a real lens, at 1/e² for an ideal one.
 */
export function spotAlong({ wavelength, m2, rawBeam, focalLength, singlet }, { focused }) {
  const surface = (z) => signedOffset(m(z));
  if (singlet === undefined) return (z) => inM(asDiameter1e2(defocus(focused, surface(z)).spot));
  const { glass, shape, clearAperture } = singlet;
  const { index } = refractiveIndex({ glass, wavelength });
  const lens = { index, shape, focalLength, clearAperture, waistAt: atLens };
  const raw = { wavelength, m2, waist: rawBeam.atLens };
  return (z) => inM(singletDefocus(raw, lens, "power 86", surface(z)).spotDiameter);
}
