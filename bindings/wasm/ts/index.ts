/**
 * spotwise: the focus of laser marking. Beam waist, depth of focus, what a z-offset does to the
 * spot, what a real lens and the path of the beam make of it, the smallest detail, and the verdict on
 * a job.
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
  type BeamDiameters,
  type BeamParameters,
  type BeamSection,
} from "./beam.js";
export {
  focusCheck,
  reasonBit,
  type FocusSetting,
  type Job,
  type JobSinglet,
  type Outcome,
  type Place,
  type RawBeam,
  type Verdict,
} from "./check.js";
export { clippedDepthOfFocus, focusClipped, type ClippedBeam, type ClippedDepth, type ClippedFocus } from "./clipping.js";
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
  evenOutGantry,
  focusAlongGantry,
  gantrySpread,
  type EvenGantry,
  type FocusAlongGantry,
  type GantrySpread,
} from "./gantry.js";
export {
  glassData,
  glassNames,
  lensAtWavelength,
  refractiveIndex,
  type GlassData,
  type GlassIndex,
  type GlassName,
  type LensAtWavelength,
} from "./glass.js";
export {
  focusAstigmatic,
  focusCollimated,
  focusThroughLens,
  type AstigmaticFocus,
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
export { beamAfterPath, beamAlongPath, roundRawBeam, type PathBeam, type PathElement } from "./path.js";
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
export { focusBehindPlate, focusInside, type InsideFocus, type PlateFocus } from "./plate.js";
export {
  aberrationGrowth,
  concaveTowardLaser,
  convexTowardLaser,
  focusSinglet,
  lensAberration,
  lensFromRadii,
  signedRadius,
  smallestSpot,
  type AberratedWaist,
  type AberrationGrowth,
  type CurvedSurface,
  type LensAberration,
  type LensForm,
  type LensShape,
  type LensSurface,
  type PlacedSinglet,
  type Singlet,
  type SingletFocus,
  type SmallestSpot,
  type SpotMeasure,
} from "./singlet.js";
export {
  singletDefocus,
  singletDepthOfFocus,
  type LensNumbers,
  type SingletDefocus,
  type SingletDepth,
  type WaistMeasure,
} from "./singlet_focus.js";
export { tiltedSpot, type TiltedSpot } from "./tilt.js";
export {
  angle,
  angleText,
  cm,
  curvature,
  curvatureText,
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
  inPerM3,
  inPerMm2,
  inPerUm,
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
  perM,
  pt,
  rad,
  um,
  urad,
  type Angle,
  type BeamParameterProduct,
  type Curvature,
  type Dispersion,
  type IrradiancePerWatt,
  type Length,
  type PureNumber,
  type Quantity,
  type WavefrontCoefficient,
} from "./units.js";
export { type Level, type Validity } from "./validity.js";
export {
  waveDepthOfFocus,
  waveFocus,
  waveIrradiance,
  waveMap,
  wavePower,
  waveWidths,
  type FocusMeasure,
  type Wave,
  type WaveDepth,
  type WaveFocus,
  type WaveIrradiance,
  type WaveMap,
  type WavePower,
  type WaveWidths,
} from "./wave.js";
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
