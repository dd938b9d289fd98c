// A consumer that is a CommonJS module.

import spotwise = require("spotwise");

const beam: spotwise.Beam = {
  wavelength: spotwise.um(10.6),
  m2: 1.2,
  waist: spotwise.fwhm(spotwise.um(50)),
};
export const zR: number = spotwise.inMm(spotwise.beamParameters(beam).rayleighRange);
