// A consumer that is a CommonJS module.

import spotwise = require("spotwise");

const beam: spotwise.Beam = {
  wavelength: spotwise.um(10.6),
  m2: 1.2,
  waist: spotwise.fwhm(spotwise.um(50)),
};
export const zR: number = spotwise.inMm(spotwise.beamParameters(beam).rayleighRange);

// A program may come to hold both modules of the package: a quantity or a beam of one is one of the other.
import type * as module from "spotwise" with { "resolution-mode": "import" };

export const length: module.Length = spotwise.mm(3);
export const back: spotwise.Length = length;
export const other: module.Beam = beam;
export const offset: module.Offset = spotwise.towardLens(spotwise.mm(0.3));
export const isError = (error: spotwise.SpotwiseError): module.SpotwiseError => error;
// @ts-expect-error but a bare number still is no length
export const bare: module.Length = 3;
