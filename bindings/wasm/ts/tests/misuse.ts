// The usual mistakes of this trade must not compile. Each stands below a line that says the same
// thing rightly, and above it an expectation that makes the compiler fail if it ever compiles.
// Checked against the published declarations by `npm test`; never run.

import {
  aberrationGrowth,
  asFullAngle,
  asHalfAngle,
  astigmaticAt,
  atLens,
  awayFromLens,
  beamAfterPath,
  beamAt,
  blurBudget,
  compensate,
  convexTowardLaser,
  cylinderStrip,
  d4sigma,
  defocus,
  deg,
  depthOfFocus,
  diameter,
  diameter1e2,
  diametersAt,
  doseOverThreshold,
  dotsPerInch,
  downstream,
  fitThreshold,
  focusAstigmatic,
  focusBetween,
  focusCheck,
  focusCollimated,
  focusForSurface,
  focusSinglet,
  focusThroughLens,
  fullAngle,
  fwhm,
  gantrySpread,
  halfAngle,
  heightBands,
  inch,
  inFocus,
  inJPerMm2,
  inFocusMask,
  inMm,
  inMrad,
  inPerM,
  inPt,
  inRad,
  inUs,
  inWatt,
  inWattPerMm2,
  jPerCm2,
  jPerMm2,
  khz,
  length,
  lensFromRadii,
  lineInterval,
  m2FromDivergence,
  mapHeights,
  markLimits,
  markWidth,
  materialMark,
  mm,
  mm2PerS,
  mmPerS,
  mPerS,
  mrad,
  offsetForTaste,
  offsetForText,
  perM,
  power86,
  powerThroughAperture,
  pt,
  pulseDose,
  rad,
  radius,
  radius1e2,
  refocusPlan,
  refractiveIndex,
  roundRawBeam,
  scanDose,
  scanFieldAt,
  signedDownstream,
  signedOffset,
  singletDefocus,
  singletDepthOfFocus,
  smallestDetails,
  smallestSpot,
  smallestText,
  spotThrough,
  surfaceAt,
  textQuality,
  shareInFocus,
  tiltedSpot,
  toleranceStack,
  towardLens,
  um,
  upstream,
  us,
  waistFromDivergence,
  watt,
  waveFocus,
  waveMap,
  waveWidths,
  withCalibration,
  type Beam,
  type BeamWidth,
  type Calibration,
  type Contribution,
  type FocusRange,
  type Job,
  type Length,
  type RawAstigmaticBeam,
  type ScanLens,
} from "spotwise";

const beam: Beam = { wavelength: um(10.6), m2: 1.2, waist: diameter1e2(um(88)) };
const optics = { wavelength: um(1.064), m2: 1.1 };

// --- inch taken for millimetre, micrometre for millimetre: a bare number is no length ---

focusCollimated({ ...optics, atLens: diameter1e2(mm(7)), focalLength: inch(1.5) });
// @ts-expect-error a focal length without a unit
focusCollimated({ ...optics, atLens: diameter1e2(mm(7)), focalLength: 1.5 });

const ok1: Length = mm(38.1);
// @ts-expect-error a bare number is no length
const bad1: Length = 38.1;

const ok2: Length = length("1.5 in");
// @ts-expect-error a text is no length until it is read
const bad2: Length = "1.5 in";

inMm(inch(1.5));
// @ts-expect-error a unit on top of a unit
mm(inch(1.5));

inMm(mm(inMm(ok1) + 1));
// @ts-expect-error a sum of bare numbers has lost its unit
inMm(ok1 + 1);

inMrad(mrad(3));
// @ts-expect-error a length read as an angle
inMrad(mm(3));

const ok3: Beam = { ...beam, m2: 1.2 };
// @ts-expect-error a quantity where a pure number belongs
const bad3: Beam = { ...beam, m2: mm(1.2) };

// --- radius taken for diameter; 1/e², D4σ and FWHM mixed: a bare length is no width ---

const ok4: Beam = { ...optics, waist: radius1e2(um(44)) };
// @ts-expect-error is it a radius or a diameter?
const bad4: Beam = { ...optics, waist: um(44) };

const ok5: BeamWidth = fwhm(um(50));
// @ts-expect-error by which definition?
const bad5: BeamWidth = um(50);

smallestDetails({ spot: diameter1e2(um(88)), doseRatio: 2.7 });
// @ts-expect-error a spot by no definition
smallestDetails({ spot: um(88), doseRatio: 2.7 });

depthOfFocus(beam, { by: "largest diameter", diameter: diameter1e2(um(120)) });
// @ts-expect-error a largest diameter by no definition
depthOfFocus(beam, { by: "largest diameter", diameter: um(120) });

powerThroughAperture({ beam: diameter1e2(mm(7)), aperture: radius(mm(5)) });
// @ts-expect-error is the aperture a radius or a diameter?
powerThroughAperture({ beam: diameter1e2(mm(7)), aperture: mm(5) });

powerThroughAperture({ beam: diameter1e2(mm(7)), aperture: diameter(mm(10)) });
// @ts-expect-error an aperture is sharp, a beam is not
powerThroughAperture({ beam: diameter(mm(7)), aperture: diameter(mm(10)) });

// --- half depth of focus taken for the full one: there is no bare depth ---

const range: FocusRange = depthOfFocus(beam, { by: "rayleigh" });
const ok6: Length = range.full;
// @ts-expect-error one end of the range is an offset, not a length
const bad6: Length = range.awayFromLens;

inMm(range.full);
// @ts-expect-error a range is no length: half or full?
inMm(range);

// --- the sign of a z-offset: a length is no offset, and neither is a number ---

defocus(beam, towardLens(mm(0.3)));
// @ts-expect-error which way?
defocus(beam, mm(-0.3));

beamAt(beam, awayFromLens(mm(0.3)));
// @ts-expect-error a bare number has neither unit nor direction
beamAt(beam, 0.3);

beamAt(beam, inFocus);
// @ts-expect-error not even zero
beamAt(beam, 0);

defocus(beam, signedOffset(mm(-0.3)));
// @ts-expect-error signed, but without a unit
defocus(beam, signedOffset(-0.3));

defocus(beam, range.towardLens);
// @ts-expect-error the length of a range is no place
defocus(beam, range.full);

// --- a place in the raw beam, which counts from the lens, is no offset behind it ---

focusThroughLens(beam, { waistAt: upstream(mm(1500)), focalLength: mm(50) });
// @ts-expect-error a waist upstream and one downstream are both away from the lens
focusThroughLens(beam, { waistAt: awayFromLens(mm(1500)), focalLength: mm(50) });

focusThroughLens(beam, { waistAt: atLens, focalLength: mm(50) });
// @ts-expect-error in focus of what?
focusThroughLens(beam, { waistAt: inFocus, focalLength: mm(50) });

focusThroughLens(beam, { waistAt: signedDownstream(mm(-1500)), focalLength: mm(50) });
// @ts-expect-error a bare length with a sign
focusThroughLens(beam, { waistAt: mm(-1500), focalLength: mm(50) });

defocus(beam, towardLens(mm(0.3)));
// @ts-expect-error a surface does not lie in the raw beam
defocus(beam, upstream(mm(0.3)));

const rawAxis = { m2: 5, waist: diameter1e2(mm(5)), waistAt: downstream(mm(200)) };
const raw: RawAstigmaticBeam = { ...optics, x: rawAxis, y: rawAxis };
const focused = focusAstigmatic(raw, mm(50));
// @ts-expect-error a focused beam counts from the focal point, a raw one from the lens
focusAstigmatic(focused, mm(50));

astigmaticAt(focused, inFocus);
// @ts-expect-error a raw beam counts from the lens
astigmaticAt(raw, inFocus);

astigmaticAt({ ...focused, x: { ...focused.x, waistZ: towardLens(mm(0.1)) } }, inFocus);
// @ts-expect-error an axis behind the lens with a place before it
astigmaticAt({ ...focused, x: { ...focused.x, waistZ: upstream(mm(0.1)) } }, inFocus);

// --- half angle against full angle ---

waistFromDivergence({ ...optics, divergence: halfAngle(mrad(20)) });
// @ts-expect-error half or full?
waistFromDivergence({ ...optics, divergence: mrad(20) });

m2FromDivergence({ wavelength: um(1.064), waist: diameter1e2(um(40)), divergence: fullAngle(deg(2)) });
// @ts-expect-error neither angle nor unit
m2FromDivergence({ wavelength: um(1.064), waist: diameter1e2(um(40)), divergence: 0.04 });

inMrad(asHalfAngle(fullAngle(mrad(3))));
// @ts-expect-error a divergence is read as half or full
inMrad(fullAngle(mrad(3)));

asFullAngle(halfAngle(mrad(3)));
// @ts-expect-error an angle is no divergence yet
asFullAngle(mrad(3));

// --- a real lens: its side, its glass, its aperture ---

const singlet = { index: 2.4028, shape: "curved side first", focalLength: mm(38.1), waistAt: atLens } as const;
const surfaces = { index: 2.4028, first: convexTowardLaser(mm(33.7)), second: convexTowardLaser(mm(91.3)) };
lensFromRadii({ ...surfaces, second: "flat" });
// @ts-expect-error a radius with a sign: which way does the surface bulge?
lensFromRadii({ ...surfaces, second: mm(-91.3) });

refractiveIndex({ glass: "zinc selenide", wavelength: um(10.6) });
// @ts-expect-error no such glass
refractiveIndex({ glass: "zinc", wavelength: um(10.6) });

focusSinglet(beam, { ...singlet, shape: { shapeFactor: 1.5 } });
// @ts-expect-error a shape factor by itself
focusSinglet(beam, { ...singlet, shape: 1.5 });

focusSinglet(beam, { ...singlet, clearAperture: diameter(mm(18)) });
// @ts-expect-error is the aperture a radius or a diameter?
focusSinglet(beam, { ...singlet, clearAperture: mm(18) });

const real = focusSinglet(beam, singlet);
depthOfFocus(real.ideal, { by: "rayleigh" });
// @ts-expect-error an aberrated waist is no beam: the flags of the lens would be lost
depthOfFocus(real.secondMoment, { by: "rayleigh" });

singletDepthOfFocus(beam, singlet, "second moment", { by: "rayleigh" });
// @ts-expect-error the handbook's sum gives a spot but no waist
singletDepthOfFocus(beam, singlet, "handbook", { by: "rayleigh" });

singletDefocus(beam, singlet, "power 86", towardLens(mm(0.1)));
// @ts-expect-error by which measure?
singletDefocus(beam, singlet, towardLens(mm(0.1)));

inMm(real.secondMoment.waistDiameter);
// @ts-expect-error the 86.5 % spot may have been refused
inMm(real.power86.waistDiameter);

smallestDetails({ spot: d4sigma(real.secondMoment.waistDiameter), doseRatio: 2.7 });
// @ts-expect-error a real lens's widths differ: by which is the spot told?
smallestDetails({ spot: real.secondMoment.waistDiameter, doseRatio: 2.7 });

smallestDetails({ spot: power86(real.handbookDiameter), doseRatio: 2.7 });
// @ts-expect-error the handbook's sum is no beam width
smallestDetails({ spot: real.handbookDiameter, doseRatio: 2.7 });

powerThroughAperture({ beam: diameter1e2(mm(7)), aperture: diameter(mm(10)) });
// @ts-expect-error an aberrated waist is no aperture
powerThroughAperture({ beam: diameter1e2(mm(7)), aperture: real.secondMoment });

const tightest = smallestSpot({ ...optics, index: 1.5, shape: "best form", focalLength: mm(50), measure: "power 86" });
smallestDetails({ spot: power86(tightest.spotDiameter), doseRatio: 2.7 });
// @ts-expect-error a spot by the measure asked for is no width at 1/e²
smallestDetails({ spot: tightest.spotDiameter, doseRatio: 2.7 });

smallestDetails({ spot: diameter1e2(waveWidths(real.wave, inFocus).diameter1e2), doseRatio: 2.7 });
// @ts-expect-error a wave's widths differ: by which is the spot told?
smallestDetails({ spot: waveWidths(real.wave, inFocus).fwhm, doseRatio: 2.7 });

// --- a tilt ---

tiltedSpot(beam, inFocus, deg(30));
// @ts-expect-error degrees or radians?
tiltedSpot(beam, inFocus, 30);

inRad(tiltedSpot(beam, inFocus, deg(30)).halfAngle);
// @ts-expect-error a half angle is no divergence, which may be full
asFullAngle(tiltedSpot(beam, inFocus, deg(30)).halfAngle);

// --- a tolerance: half or full, and which way ---

const bow: Contribution = { source: "part bow", distribution: { kind: "uniform", halfWidth: mm(0.3) } };
inMm(toleranceStack([bow], 0.95).worstHalfWidth);
// @ts-expect-error an end of the worst case has a side
inMm(toleranceStack([bow], 0.95).worstTowardLens);

toleranceStack([{ ...bow, mean: towardLens(mm(0.1)) }], 0.95);
// @ts-expect-error toward the lens or away from it?
toleranceStack([{ ...bow, mean: mm(0.1) }], 0.95);

toleranceStack([{ ...bow, distribution: { kind: "normal", halfWidth: mm(0.1), coverageFactor: 2 } }], 0.95);
// @ts-expect-error of how many deviations is the half width?
toleranceStack([{ ...bow, distribution: { kind: "normal", halfWidth: mm(0.1) } }], 0.95);
// @ts-expect-error a full width
toleranceStack([{ ...bow, distribution: { kind: "uniform", width: mm(0.6) } }], 0.95);
// @ts-expect-error a source that is none
toleranceStack([{ ...bow, source: "operator" }], 0.95);
// --- a surface in focus ---

const level = { kind: "plane", slope: { awayFromLensAlongX: 0, awayFromLensAlongY: 0 } } as const;
const marked = { xLeast: mm(0), xGreatest: mm(60), yLeast: mm(0), yGreatest: mm(40) };
shareInFocus(level, marked, { towardLens: inFocus, awayFromLens: inFocus });
// @ts-expect-error which end is that, and which way does it count?
shareInFocus(level, marked, mm(0.3));
// @ts-expect-error millimetres or inches?
shareInFocus(level, { ...marked, xGreatest: 60 }, { towardLens: inFocus, awayFromLens: inFocus });
// @ts-expect-error a height from where?
focusForSurface(beam, { by: "rayleigh" }, level, marked).mostInFocus.focus * 2;

aberrationGrowth({ m2: 1.2, aberrationPhase: rad(0.5) });
// @ts-expect-error radians or waves?
aberrationGrowth({ m2: 1.2, aberrationPhase: 0.5 });

// --- a path: its start is no focal point ---

const path = [
  { kind: "space", length: mm(1000) },
  { kind: "thin lens", focalLength: inch(1.5) },
] as const;
const behind = beamAfterPath(roundRawBeam(beam, upstream(mm(500))), path);
// @ts-expect-error behind a lens that aberrates there is no plain beam
beamAfterPath(behind.raw, path);
if (!behind.raw || !behind.beam) throw new Error("ideal elements aberrate nothing");
const onward = { raw: behind.raw, beam: behind.beam };
beamAfterPath(onward.raw, path);
// @ts-expect-error a beam to examine is no raw beam
beamAfterPath(onward.beam, path);

astigmaticAt(onward.beam, inFocus);
// @ts-expect-error nor the reverse
astigmaticAt(onward.raw, inFocus);

beamAfterPath(onward.raw, [{ kind: "expander", magnification: 2, exitPower: perM(0.2) }]);
// @ts-expect-error a power without its unit
beamAfterPath(onward.raw, [{ kind: "expander", magnification: 2, exitPower: 0.2 }]);

beamAfterPath(onward.raw, [{ kind: "window", thickness: mm(3), index: 1.5 }]);
// @ts-expect-error a window without an index
beamAfterPath(onward.raw, [{ kind: "window", thickness: mm(3) }]);

inPerM(perM(0.2));
// @ts-expect-error a length is no power
inPerM(mm(0.2));

gantrySpread(beam, { waistAtNearest: upstream(mm(500)), waistAtFarthest: upstream(mm(2500)), focalLength: inch(1.5) });
// @ts-expect-error on which side of the lens?
gantrySpread(beam, { waistAtNearest: upstream(mm(500)), waistAtFarthest: mm(2500), focalLength: inch(1.5) });

// --- a wave ---

waveWidths(real.wave, towardLens(mm(0.1)));
// @ts-expect-error which way?
waveWidths(real.wave, mm(0.1));

waveMap(real.wave, new Float64Array(3), new Float64Array(2));
// @ts-expect-error bulk is a Float64Array
waveMap(real.wave, [0, 1e-5, 2e-5], [0, 1e-4]);

diametersAt(beam, new Float64Array(3)).diametersInMetres.length;
// @ts-expect-error the diameters come with their validity, not by themselves
diametersAt(beam, new Float64Array(3)).length;

waveFocus(real.wave, "power 86");
// @ts-expect-error no such measure
waveFocus(real.wave, "power 90");

// --- power, speed, interval, dose: quantities of their own ---

const round = { spotAcross: diameter1e2(um(88)), spotAlong: diameter1e2(um(88)) };
const scan = { ...round, power: watt(20), speed: mmPerS(500), lineInterval: lineInterval(500) };
scanDose(scan);
// @ts-expect-error a power where a speed is wanted
scanDose({ ...scan, speed: watt(500) });

scanDose({ ...scan, speed: mPerS(0.5) });
// @ts-expect-error mm/s, m/s or m/min?
scanDose({ ...scan, speed: 500 });

scanDose({ ...scan, power: watt(20) });
// @ts-expect-error watts, or per cent of the power of what?
scanDose({ ...scan, power: 80 });

scanDose({ ...scan, lineInterval: um(50) });
// @ts-expect-error dots per inch are no interval yet
scanDose({ ...scan, lineInterval: 500 });

lineInterval(500);
// @ts-expect-error a length is no number of dots
lineInterval(um(50));

dotsPerInch(um(50));
// @ts-expect-error nor dots a length
dotsPerInch(500);

scanDose({ ...scan, spotAcross: diameter1e2(um(100)) });
// @ts-expect-error a spot by no definition
scanDose({ ...scan, spotAcross: um(100) });

pulseDose(scan, khz(50));
// @ts-expect-error hertz or kilohertz?
pulseDose(scan, 50);

doseOverThreshold({ dose: scanDose(scan).fillDose, threshold: jPerMm2(0.3) });
// @ts-expect-error an energy of a pulse is no dose
doseOverThreshold({ dose: pulseDose(scan, khz(50)).pulseEnergy, threshold: jPerMm2(0.3) });

doseOverThreshold({ dose: jPerCm2(80), threshold: jPerMm2(0.3) });
// @ts-expect-error per square millimetre or centimetre?
doseOverThreshold({ dose: 80, threshold: jPerMm2(0.3) });

inWattPerMm2(scanDose(scan).peakIrradiance);
// @ts-expect-error an irradiance is no dose
inJPerMm2(scanDose(scan).peakIrradiance);

inUs(scanDose(scan).dwell);
// @ts-expect-error a dwell is no length
inMm(scanDose(scan).dwell);

const exposure = { dose: jPerMm2(1), spot: diameter1e2(um(88)), dwell: us(50) };
materialMark({ threshold: jPerMm2(0.3), response: { kind: "melt", diffusivity: mm2PerS(0.109) } }, exposure);
// @ts-expect-error the number of another response
materialMark({ threshold: jPerMm2(0.3), response: { kind: "coating", diffusivity: mm2PerS(0.109) } }, exposure);

blurBudget({ ...round, speed: mmPerS(500), riseTime: us(20) });
// @ts-expect-error a rate is no time
blurBudget({ ...round, speed: mmPerS(500), riseTime: khz(50) });

const testMark = { dose: watt(10), width: um(40), deviation: um(2) };
inWatt(fitThreshold([testMark]).threshold.value);
// @ts-expect-error a threshold is of the kind that was varied
inJPerMm2(fitThreshold([testMark]).threshold.value);

fitThreshold([testMark, { ...testMark, dose: watt(12) }]);
// @ts-expect-error marks of two kinds of dose
fitThreshold([testMark, { ...testMark, dose: jPerMm2(1) }]);

// --- marks: a distance to either side is no offset ---

const limits = markLimits(beam, { kind: "line", doseRatio: 2.7 });
markWidth(beam, { kind: "line", doseRatio: 2.7 }, towardLens(limits.widestDistance));
// @ts-expect-error to which side?
markWidth(beam, { kind: "line", doseRatio: 2.7 }, limits.widestDistance);

markWidth(beam, { kind: "pulse", doseRatio: 2.7 }, inFocus);
// @ts-expect-error a mark that is neither pulse nor line
markWidth(beam, { kind: "fill", doseRatio: 2.7 }, inFocus);

offsetForTaste(beam, um(60), { by: "smoothest within", largestEdge: um(80) });
// @ts-expect-error the number of another taste
offsetForTaste(beam, um(60), { by: "smoothest within", crispnessWeight: 0.5 });

const setting = { kind: "line", doseRatio: 2.7, power: watt(20), speed: mPerS(0.5) } as const;
const speeds = { leastSpeed: mPerS(0.1), greatestSpeed: mPerS(2) };
compensate(beam, inFocus, "same dose", { ...setting, ...speeds, greatestPower: watt(25) });
// @ts-expect-error a speed for the greatest power
compensate(beam, inFocus, "same dose", { ...setting, ...speeds, greatestPower: mPerS(25) });

compensate(beam, inFocus, "same dose", { ...setting, ...speeds, greatestPower: watt(25), greatestSpeed: mPerS(1) });
// @ts-expect-error how fast may it go?
compensate(beam, inFocus, "same dose", { ...setting, leastSpeed: mPerS(0.1), greatestPower: watt(25) });

// --- text: a size of type is a length ---

const style = { typeface: "sans", doseRatio: 2.7 } as const;
textQuality({ ...style, spot: diameter1e2(um(88)), em: pt(4) });
// @ts-expect-error points or millimetres?
textQuality({ ...style, spot: diameter1e2(um(88)), em: 4 });

inPt(smallestText({ ...style, spot: diameter1e2(um(88)) }).goodEm);
// @ts-expect-error at which grade?
inPt(smallestText({ ...style, spot: diameter1e2(um(88)) }));

smallestText({ ...style, typeface: "bold sans", spot: diameter1e2(um(88)) });
// @ts-expect-error no such kind
smallestText({ ...style, typeface: "script", spot: diameter1e2(um(88)) });

offsetForText(beam, { ...style, em: pt(4), grade: "readable" });
// @ts-expect-error nothing need keep being lost
offsetForText(beam, { ...style, em: pt(4), grade: "lost" });

// --- choices ---

depthOfFocus(beam, { by: "growth", ratio: 1.05 });
// @ts-expect-error no such criterion
depthOfFocus(beam, { by: "sharpness", ratio: 1.05 });

depthOfFocus(beam, { by: "irradiance drop", drop: 0.2 });
// @ts-expect-error the number of another criterion
depthOfFocus(beam, { by: "irradiance drop", ratio: 1.05 });

// --- a whole job ---

const job: Job = {
  wavelength: um(10.6),
  m2: 1.2,
  rawBeam: { by: "collimated", atLens: diameter1e2(mm(7)) },
  focalLength: inch(1.5),
  focus: { by: "datum", waistZ: inFocus },
  surfaceRise: mm(0.3),
  surfaceFall: mm(0.3),
  criterion: { by: "rayleigh" },
  finestStroke: mm(0.1),
  finestGap: mm(0.1),
  dose: { by: "ratio", doseRatio: 2.7 },
};
focusCheck(job);
// @ts-expect-error a field is missing
focusCheck({ ...job, finestGap: undefined });

const byScan = { by: "scan", power: watt(20), speed: mmPerS(500), lineInterval: um(50), threshold: jPerMm2(0.3) } as const;
focusCheck({ ...job, dose: byScan });
// @ts-expect-error a power where a speed is wanted
focusCheck({ ...job, dose: { ...byScan, speed: watt(20) } });

focusCheck({ ...job, dose: { ...byScan, response: { kind: "melt", diffusivity: mm2PerS(0.109) } } });
// @ts-expect-error a melt, but how fast does its heat spread?
focusCheck({ ...job, dose: { ...byScan, response: { kind: "melt" } } });

focusCheck({ ...job, dose: { by: "ratio", doseRatio: 2.7 } });
// @ts-expect-error a dose ratio by itself: of what kind is the number?
focusCheck({ ...job, dose: 2.7 });

focusCheck({ ...job, text: { typeface: "sans", em: pt(4), leastGrade: "good" } });
// @ts-expect-error a text without the grade that it must keep
focusCheck({ ...job, text: { typeface: "sans", em: pt(4) } });

focusCheck({ ...job, focus: { by: "datum", waistZ: towardLens(mm(0.2)) } });
// @ts-expect-error a focus height without direction
focusCheck({ ...job, focus: { by: "datum", waistZ: mm(0.2) } });

focusCheck({ ...job, surfaceRise: mm(0.3) });
// @ts-expect-error a rise is a distance, its direction is in its name
focusCheck({ ...job, surfaceRise: towardLens(mm(0.3)) });

focusCheck({ ...job, rawBeam: { by: "waist", waist: diameter1e2(mm(5)), waistAt: upstream(mm(1500)) } });
// @ts-expect-error the raw beam's width by no definition
focusCheck({ ...job, rawBeam: { by: "waist", waist: mm(5), waistAt: upstream(mm(1500)) } });

focusCheck({ ...job, rawBeam: { by: "waist", waist: diameter1e2(mm(5)), waistAt: atLens } });
// @ts-expect-error on which side of the lens?
focusCheck({ ...job, rawBeam: { by: "waist", waist: diameter1e2(mm(5)), waistAt: mm(1500) } });

focusCheck({ ...job, singlet: { glass: "zinc selenide", shape: "best form", clearAperture: diameter(mm(18)) } });
// @ts-expect-error a lens by its glass alone
focusCheck({ ...job, singlet: { glass: "zinc selenide" } });

const expanded = {
  by: "expanded",
  waist: diameter1e2(mm(4.5)),
  waistAt: upstream(mm(300)),
  magnification: 2,
  exitPower: perM(0.2),
  expanderToLens: mm(1400),
} as const;
focusCheck({ ...job, rawBeam: expanded });
// @ts-expect-error on which side of the expander?
focusCheck({ ...job, rawBeam: { ...expanded, waistAt: mm(300) } });

const table = { x: mm(10), y: mm(5) };
const bar = { kind: "cylinder", bulge: "toward lens", crown: table, axisAngle: deg(0) } as const;
surfaceAt({ ...bar, diameter: mm(30) }, table);
// @ts-expect-error a size that does not say whether it is a radius
surfaceAt({ ...bar, size: mm(30) }, table);

const places = { kind: "grid", columnsInMetres: new Float64Array(2), rowsInMetres: new Float64Array(2) } as const;
surfaceAt({ ...places, heightsTowardLensInMetres: new Float64Array(4) }, table);
// @ts-expect-error heights that do not say which way they count
surfaceAt({ ...places, heightsInMetres: new Float64Array(4) }, table);

// Results cannot be written to.
const verdict = focusCheck(job);
smallestDetails({ spot: verdict.focused.waist, doseRatio: 2.7 });
// @ts-expect-error the spot of a verdict is at 1/e² or by 86.5 % of the power, as the lens is ideal or real
smallestDetails({ spot: verdict.highest.spotDiameter, doseRatio: 2.7 });

smallestDetails({ spot: diameter1e2(verdict.highest.seenSpotDiameter), doseRatio: 2.7 });
// @ts-expect-error nor is the spot that the material sees
smallestDetails({ spot: verdict.highest.seenSpotDiameter, doseRatio: 2.7 });

inMm(verdict.highest.smallestStroke ?? mm(0));
// @ts-expect-error there is no finest stroke where nothing marks
inMm(verdict.highest.smallestStroke);

inMm(verdict.highest.seenSpotDiameter);
// @ts-expect-error read only
verdict.highest.seenSpotDiameter = mm(0.1);

// --- a map of heights ---

mapHeights(beam, inFocus, { kind: "growth" }, new Float64Array(3));
// @ts-expect-error is the waist above or below the datum?
mapHeights(beam, mm(0.2), { kind: "growth" }, new Float64Array(3));
// @ts-expect-error heights in bulk are a Float64Array of metres
mapHeights(beam, inFocus, { kind: "growth" }, [0, 0.001]);

mapHeights(beam, inFocus, { kind: "smallest stroke", doseRatio: 2.7 }, new Float64Array(3));
// @ts-expect-error a stroke at which dose?
mapHeights(beam, inFocus, { kind: "smallest stroke" }, new Float64Array(3));

mapHeights(beam, inFocus, { kind: "growth" }, new Float64Array(3)).least?.value;
// @ts-expect-error where nothing was measured, nothing is least
mapHeights(beam, inFocus, { kind: "growth" }, new Float64Array(3)).least.value;

inFocusMask(beam, inFocus, { by: "rayleigh" }, new Float64Array(3), new Uint8Array(3));
// @ts-expect-error a mask is made of bytes
inFocusMask(beam, inFocus, { by: "rayleigh" }, new Float64Array(3), new Float64Array(3));

// --- the field of a scan head ---

const scanLens: ScanLens = {
  focalLength: mm(160),
  fieldRadius: mm(70),
  edgeTangentialFocus: towardLens(mm(1)),
  edgeSagittalFocus: towardLens(mm(0.4)),
  edgeIncidence: deg(14),
};
// @ts-expect-error above or below the focus in the middle?
scanFieldAt(beam, { ...scanLens, edgeTangentialFocus: mm(1) }, { x: mm(10), y: mm(0) }, inFocus);
// @ts-expect-error degrees or radians?
scanFieldAt(beam, { ...scanLens, edgeIncidence: 14 }, { x: mm(10), y: mm(0) }, inFocus);

inMm(scanFieldAt(beam, scanLens, { x: mm(10), y: mm(0) }, inFocus).diameterAlongRadius);
// @ts-expect-error in which direction?
inMm(scanFieldAt(beam, scanLens, { x: mm(10), y: mm(0) }, inFocus).diameter);

export { bad1, bad2, bad3, bad4, bad5, bad6, ok2, ok3, ok4, ok5, ok6 };

// --- heights of a surface ---

const bowed = { highest: towardLens(mm(0.2)), lowest: awayFromLens(mm(0.8)) };
const eitherWay = { towardLens: towardLens(mm(0.25)), awayFromLens: awayFromLens(mm(0.25)) };

focusBetween(beam, bowed);
// @ts-expect-error above the datum or below it?
focusBetween(beam, { ...bowed, highest: mm(0.2) });
heightBands(bowed, { depth: depthOfFocus(beam, { by: "rayleigh" }) });
// @ts-expect-error half the depth of focus, or all of it?
heightBands(bowed, { depth: mm(0.5) });
heightBands(bowed, { depth: eitherWay, margin: 0.1 });
// @ts-expect-error a margin is a share
heightBands(bowed, { depth: eitherWay, margin: mm(0.1) });

cylinderStrip({ radius: mm(25), depth: eitherWay, aim: "midway" });
cylinderStrip({ diameter: mm(50), depth: eitherWay, aim: "midway" });
// @ts-expect-error radius or diameter?
cylinderStrip({ size: mm(50), depth: eitherWay, aim: "midway" });
// @ts-expect-error an aim that does not exist
cylinderStrip({ radius: mm(25), depth: eitherWay, aim: "crown" });
refocusPlan({ totalDepth: mm(1), depthPerPass: mm(0.1), depth: eitherWay, aim: "highest place" });
// @ts-expect-error passes are counted by the plan
refocusPlan({ totalDepth: mm(1), depthPerPass: 10, depth: eitherWay, aim: "highest place" });
spotThrough(beam, { focus: awayFromLens(mm(1.5)), thickness: mm(3) });
// @ts-expect-error into the part or above it?
spotThrough(beam, { focus: mm(1.5), thickness: mm(3) });

// --- drawings ---

import { depthMap, drawShapes, markPicture, pitchForSpot, preflight, previewMark, quickAnswer, quickBound, rankBeams, setText } from "spotwise";
import { type Artwork, type PreflightInput } from "spotwise";

const plate: Artwork = { samples: new Uint8Array(4), width: 2, height: 2, pitchX: um(10), pitchY: um(10), kind: "coverage", use: "burnt raster" };
const burn: PreflightInput = {
  drawing: plate,
  beam,
  focus: awayFromLens(mm(0.2)),
  surface: { kind: "plane", slope: { awayFromLensAlongX: 0, awayFromLensAlongY: 0 } },
  blur: { along: fwhm(um(20)) },
  scan: { kind: "along rows", lineInterval: um(50), firstLine: um(25) },
  answer: { kind: "melt", bridge: um(30) },
  doseRatio: 2,
};
preflight(burn, (done) => done < 0.5);
// @ts-expect-error a pitch without a unit
preflight({ ...burn, drawing: { ...plate, pitchX: 10 } });
// @ts-expect-error samples of 8 bits, not of any other kind
preflight({ ...burn, drawing: { ...plate, samples: new Float64Array(4) } });
// @ts-expect-error shapes to be sampled, or the raster that is burnt?
preflight({ ...burn, drawing: { ...plate, use: undefined } });
// @ts-expect-error above the surface or below it?
preflight({ ...burn, focus: mm(0.2) });
// @ts-expect-error by which definition is it so wide?
preflight({ ...burn, blur: { along: um(20) } });
// @ts-expect-error lines whose interval is not known
preflight({ ...burn, scan: { kind: "along rows", firstLine: um(25) } });
// @ts-expect-error a bulk must say how deep it answers
preflight({ ...burn, answer: { kind: "logarithmic ablation" } });
// @ts-expect-error an answer that is no answer
preflight(burn, () => "pause");
preflight(burn).judgement.grade satisfies string;
// @ts-expect-error a preview has no judgement
previewMark(burn).judgement;
quickBound({ drawing: plate, greatestSpot: diameter1e2(um(90)), leastDoseRatio: 2 });
// @ts-expect-error radius or diameter?
quickBound({ drawing: plate, greatestSpot: um(90), leastDoseRatio: 2 });
quickBound({ drawing: plate, ...quickAnswer(burn).light });
// @ts-expect-error a quick answer has no grade
quickAnswer(burn).judgement;
rankBeams(burn, [{ beam, focus: inFocus }]);
// @ts-expect-error a beam without its focus
rankBeams(burn, [{ beam }]);
depthMap(new Uint16Array(4), burn.answer, 2);
// @ts-expect-error an exposure of 16 bits
depthMap(new Uint8Array(4), burn.answer, 2);
markPicture({ drawing: plate, found: previewMark(burn) }, { zoom: 2 }).data satisfies Uint8ClampedArray;
pitchForSpot(diameter1e2(um(88)), "coverage");
// @ts-expect-error radius or diameter?
pitchForSpot(um(88), "coverage");
setText({ font: new Uint8Array(4), text: "0.35 mm", size: { em: pt(4) } });
// @ts-expect-error 4 of what?
setText({ font: new Uint8Array(4), text: "0.35 mm", size: { em: 4 } });
// @ts-expect-error a fill and a stroke are two shapes
drawShapes([{ path: [], fill: "stroke" }], { width: 2, height: 2, pitchX: um(9), pitchY: um(9), left: mm(0), top: mm(0) });

// --- a calibration ---

const calibration: Calibration = {
  wavelength: um(10.6),
  focalLength: mm(38.1),
  focus: towardLens(mm(0.2)),
  focusDeviation: um(20),
  waist: diameter1e2(um(95)),
  waistDiameterDeviation: um(1.5),
  m2: 1.2,
  m2Deviation: 0.05,
};
withCalibration(job, calibration);
// @ts-expect-error above or below?
withCalibration(job, { ...calibration, focus: mm(0.2) });
// @ts-expect-error a radius or a diameter?
withCalibration(job, { ...calibration, waist: um(95) });
// @ts-expect-error a share of what?
withCalibration(job, { ...calibration, focusDeviation: 0.02 });
// @ts-expect-error a calibration is no job
withCalibration(calibration, job);
