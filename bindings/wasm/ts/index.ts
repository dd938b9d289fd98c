/**
 * spotwise: the focus of laser marking. Beam waist, depth of focus, what a z-offset does to the
 * spot, the smallest detail, and the verdict on a job.
 *
 * Quantities are made with their unit (`mm(38.1)`, `um(10.6)`, `inch(1.5)`, `length("1.5 in")`),
 * beam widths with their definition (`diameter1e2`, `fwhm`, …), offsets with their direction
 * (`towardLens`, `awayFromLens`), places in the raw beam by theirs (`upstream`, `downstream`), angles
 * as full or half. Everything is synchronous, every input
 * is checked, and a bad one throws a {@link SpotwiseError}. The numbers are the same bits as in
 * the Rust crate and the C library.
 *
 * @packageDocumentation
 */

export { caution, version } from "./about.js";
export {
  astigmaticAt,
  astigmaticParameters,
  beamAt,
  beamParameters,
  diametersAt,
  m2FromDivergence,
  waistFromDivergence,
  waistFromRayleighRange,
  type AstigmaticBeam,
  type AstigmaticParameters,
  type AstigmaticSection,
  type Axis,
  type Beam,
  type BeamParameters,
  type BeamSection,
} from "./beam.js";
export {
  focusCheck,
  reasonBit,
  type FocusSetting,
  type Job,
  type Outcome,
  type Place,
  type RawBeam,
  type Verdict,
} from "./check.js";
export { asFullAngle, asHalfAngle, fullAngle, halfAngle, type Divergence } from "./divergence.js";
export { errorCode, SpotwiseError, type ErrorDetails } from "./error.js";
export {
  astigmaticDefocus,
  astigmaticDepthOfFocus,
  defocus,
  depthOfFocus,
  offsetsForDiameter,
  offsetsForGrowth,
  type AstigmaticDefocus,
  type Defocus,
  type DepthCriterion,
} from "./focus.js";
export {
  focusAstigmatic,
  focusCollimated,
  focusThroughLens,
  type FocusedBeam,
  type RawAstigmaticBeam,
  type RawAxis,
} from "./lens.js";
export {
  contrastAtPitch,
  largestSpotForDetails,
  pitchForContrast,
  smallestDetails,
  type GratingContrast,
  type SmallestDetails,
} from "./mark.js";
export {
  atLens,
  awayFromLens,
  downstream,
  inFocus,
  signedDownstream,
  signedOffset,
  towardLens,
  upstream,
  type FocusRange,
  type Offset,
  type RawPlace,
} from "./place.js";
export {
  angle,
  angleText,
  cm,
  deg,
  inCm,
  inDeg,
  inInch,
  inM,
  inMil,
  inMm,
  inMmMrad,
  inMrad,
  inNm,
  inPerM,
  inPt,
  inRad,
  inUm,
  inUrad,
  inch,
  length,
  lengthText,
  m,
  mil,
  mm,
  mrad,
  nm,
  pt,
  rad,
  um,
  urad,
  type Angle,
  type BeamParameterProduct,
  type Curvature,
  type Length,
  type PureNumber,
  type Quantity,
} from "./units.js";
export { type Validity } from "./validity.js";
export {
  asD4sigma,
  asDiameter1e2,
  asFwhm,
  asPower86,
  asRadius1e2,
  convertWidth,
  d4sigma,
  diameter,
  diameter1e2,
  diameterForPower,
  fwhm,
  power86,
  powerThroughAperture,
  radius,
  radius1e2,
  type BeamWidth,
  type Diameter,
  type WidthDefinition,
} from "./width.js";
