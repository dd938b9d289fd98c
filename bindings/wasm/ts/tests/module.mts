// A consumer that is an ES module.

import { diameter1e2, focusCollimated, inUm, mm, SpotwiseError, um, type Length } from "spotwise";

const focal: Length = mm(38.1);
const focused = focusCollimated({
  wavelength: um(10.6),
  m2: 1.2,
  atLens: diameter1e2(mm(7)),
  focalLength: focal,
});
export const spot: number = inUm(focused.waist.diameter1e2);
export const isOurs = (error: unknown): error is SpotwiseError => error instanceof SpotwiseError;
