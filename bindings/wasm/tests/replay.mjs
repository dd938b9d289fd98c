// Answers a file of rows with the package's public functions, the same in Node and in a browser.
//
// Every face of spotwise answers the same file; their answers must be the same bytes.
//
//   input:  "SPOTREP1", u32 rows; per row: u32 function, u32 n, n × f64
//   output: "SPOTOUT1", u32 rows; per row: u32 error code, u32 parameter, u32 m, u32 0, m × f64
//
// Little endian. A function is its place in tests/vectors/functions.toml, whose lists of inputs
// and outputs these are. Numbers are SI; after an error each output is NaN, and any NaN is written
// as the same bits.

const definitions = { 1: "1/e2", 2: "D4sigma", 3: "FWHM", 4: "power 86" };
/** Stands for a code that no choice has. */
const UNKNOWN = "no such choice";

/**
 * Each function with its number of outputs, in the order of the list.
 * @param {typeof import("spotwise")} s
 */
export function functions(s) {
  const width = (x) => s.diameter1e2(s.m(x));
  const z = (x) => s.signedOffset(s.m(x));
  const zOf = (offset) => s.inM(offset.zAwayFromLens);
  const diameterOf = (beamWidth) => s.inM(s.asDiameter1e2(beamWidth));
  const flags = (v) => {
    const bits = (v.wideCone ? 1 : 0) + (v.secondRange ? 2 : 0);
    if (v.fine !== (bits === 0)) throw new Error("fine contradicts the flags");
    return bits;
  };
  const beam = (wavelength, m2, waist) => ({ wavelength: s.m(wavelength), m2, waist: width(waist) });
  const rawPlace = (z) => s.signedDownstream(s.m(z));
  const rawAstigmatic = (wavelength, m2x, dx, zx, m2y, dy, zy) => ({
    wavelength: s.m(wavelength),
    x: { m2: m2x, waist: width(dx), waistAt: rawPlace(zx) },
    y: { m2: m2y, waist: width(dy), waistAt: rawPlace(zy) },
  });
  const astigmatic = (wavelength, m2x, dx, zx, m2y, dy, zy) => ({
    wavelength: s.m(wavelength),
    x: { m2: m2x, waist: width(dx), waistZ: z(zx) },
    y: { m2: m2y, waist: width(dy), waistZ: z(zy) },
  });
  const criterion = (code, ratio, drop, largest) =>
    ({
      1: { by: "growth", ratio },
      2: { by: "rayleigh" },
      3: { by: "irradiance drop", drop },
      4: { by: "largest diameter", diameter: width(largest) },
      5: { by: "line dose drop", drop },
    })[code] ?? { by: UNKNOWN };
  const ends = (r) => (r === null ? [NaN, NaN, NaN] : [zOf(r.towardLens), zOf(r.awayFromLens), s.inM(r.full)]);
  const range = (r) => [...ends(r), flags(r.validity)];
  const focusedNumbers = (f) => [
    diameterOf(f.waist),
    s.inM(f.rayleighRange),
    s.inRad(s.asFullAngle(f.divergence)),
    f.magnification,
    zOf(f.focusShift),
    s.inM(f.lensToWaist),
    diameterOf(f.atLens),
  ];
  const focused = (f) => [...focusedNumbers(f), flags(f.validity)];
  const place = (p) => [
    zOf(p.zOffset),
    diameterOf(p.spot),
    p.growth,
    p.irradianceRatio,
    p.lineDoseRatio,
    s.inM(p.smallestStroke),
    s.inM(p.smallestGap),
    s.inM(p.smallestDot.diameter),
    s.inM(p.smallestHole.diameter),
    Number(p.detailsHold),
    Number(p.inDepth),
  ];

  return [
    ["convert_width", 1, (d, from, to) => [
      s.inM(
        s.convertWidth(s.m(d), { from: definitions[from] ?? UNKNOWN, to: definitions[to] ?? UNKNOWN }),
      ),
    ]],
    ["power_through_aperture", 1, (d, a) => [
      s.powerThroughAperture({ beam: width(d), aperture: s.diameter(s.m(a)) }),
    ]],
    ["diameter_for_power", 1, (d, powerShare) => [
      s.inM(s.diameterForPower({ beam: width(d), powerShare }).diameter),
    ]],
    ["beam_parameters", 5, (...numbers) => {
      const p = s.beamParameters(beam(...numbers));
      return [
        s.inM(p.rayleighRange),
        s.inRad(s.asHalfAngle(p.divergence)),
        s.inRad(s.asFullAngle(p.divergence)),
        p.beamParameterProduct,
        flags(p.validity),
      ];
    }],
    ["beam_at", 4, (wavelength, m2, waist, at) => {
      const section = s.beamAt(beam(wavelength, m2, waist), z(at));
      return [
        diameterOf(section.width),
        s.inPerM(section.wavefrontCurvature),
        s.inM(section.wavefrontRadius),
        flags(section.validity),
      ];
    }],
    ["diameters_at", 4, (wavelength, m2, waist, ...at) => [
      ...s.diametersAt(beam(wavelength, m2, waist), Float64Array.from(at)),
    ]],
    ["waist_from_rayleigh_range", 1, (wavelength, m2, zR) => [
      diameterOf(s.waistFromRayleighRange({ wavelength: s.m(wavelength), m2, rayleighRange: s.m(zR) })),
    ]],
    ["waist_from_divergence", 1, (wavelength, m2, angle) => [
      diameterOf(
        s.waistFromDivergence({ wavelength: s.m(wavelength), m2, divergence: s.fullAngle(s.rad(angle)) }),
      ),
    ]],
    ["m2_from_divergence", 1, (wavelength, waist, angle) => [
      s.m2FromDivergence({
        wavelength: s.m(wavelength),
        waist: width(waist),
        divergence: s.fullAngle(s.rad(angle)),
      }),
    ]],
    ["astigmatic_parameters", 11, (...numbers) => {
      const p = s.astigmaticParameters(astigmatic(...numbers));
      return [
        s.inM(p.rayleighRangeX),
        s.inM(p.rayleighRangeY),
        zOf(p.waistSeparation),
        p.relativeAstigmatism,
        p.m2Effective,
        zOf(p.effectiveWaistZ),
        diameterOf(p.effectiveWaist),
        s.inM(p.effectiveRayleighRange),
        zOf(p.brightestZ),
        p.brightestIrradianceRatio,
        flags(p.validity),
      ];
    }],
    ["astigmatic_at", 7, (...numbers) => {
      const section = s.astigmaticAt(astigmatic(...numbers.slice(0, 7)), z(numbers[7]));
      return [
        diameterOf(section.widthX),
        diameterOf(section.widthY),
        section.ellipticity,
        Number(section.circular),
        diameterOf(section.effective),
        diameterOf(section.equalArea),
        flags(section.validity),
      ];
    }],
    ["focus_through_lens", 8, (wavelength, m2, waist, waistToLens, focalLength) =>
      focused(
        s.focusThroughLens(beam(wavelength, m2, waist), {
          waistAt: rawPlace(-waistToLens),
          focalLength: s.m(focalLength),
        }),
      )],
    ["focus_collimated", 8, (wavelength, m2, atLens, focalLength) =>
      focused(
        s.focusCollimated({
          wavelength: s.m(wavelength),
          m2,
          atLens: width(atLens),
          focalLength: s.m(focalLength),
        }),
      )],
    ["focus_astigmatic", 7, (...numbers) => {
      const { wavelength, x, y } = s.focusAstigmatic(rawAstigmatic(...numbers.slice(0, 7)), s.m(numbers[7]));
      const axis = (a) => [a.m2, diameterOf(a.waist), zOf(a.waistZ)];
      return [s.inM(wavelength), ...axis(x), ...axis(y)];
    }],
    ["defocus", 6, (wavelength, m2, waist, offset) => {
      const d = s.defocus(beam(wavelength, m2, waist), z(offset));
      return [
        diameterOf(d.spot),
        d.growth,
        d.growthMinusOne,
        d.irradianceRatio,
        d.lineDoseRatio,
        flags(d.validity),
      ];
    }],
    ["astigmatic_defocus", 6, (...numbers) => {
      const d = s.astigmaticDefocus(astigmatic(...numbers.slice(0, 7)), z(numbers[7]));
      return [
        d.growthX,
        d.growthY,
        d.irradianceRatio,
        d.lineDoseRatioAlongX,
        d.lineDoseRatioAlongY,
        flags(d.validity),
      ];
    }],
    ["offsets_for_diameter", 4, (wavelength, m2, waist, spot) =>
      range(s.offsetsForDiameter(beam(wavelength, m2, waist), width(spot)))],
    ["offsets_for_growth", 4, (wavelength, m2, waist, growth) =>
      range(s.offsetsForGrowth(beam(wavelength, m2, waist), growth))],
    ["depth_of_focus", 4, (wavelength, m2, waist, ...limit) =>
      range(s.depthOfFocus(beam(wavelength, m2, waist), criterion(...limit)))],
    ["astigmatic_depth_of_focus", 4, (...numbers) =>
      range(s.astigmaticDepthOfFocus(astigmatic(...numbers.slice(0, 7)), criterion(...numbers.slice(7))))],
    ["smallest_details", 5, (spot, doseRatio) => {
      const d = s.smallestDetails({ spot: width(spot), doseRatio });
      return [
        s.inM(d.bar),
        s.inM(d.gap),
        s.inM(d.dot.diameter),
        s.inM(d.hole.diameter),
        s.inM(d.edgeShiftOutward),
      ];
    }],
    ["largest_spot_for_details", 1, (stroke, gap, doseRatio) => [
      diameterOf(s.largestSpotForDetails({ finestStroke: s.m(stroke), finestGap: s.m(gap), doseRatio })),
    ]],
    ["contrast_at_pitch", 3, (spot, pitch) => {
      const c = s.contrastAtPitch({ spot: width(spot), pitch: s.m(pitch) });
      return [c.sine, c.bars, c.doseWindow];
    }],
    ["pitch_for_contrast", 1, (spot, contrast) => [
      s.inM(s.pitchForContrast({ spot: width(spot), contrast })),
    ]],
    ["focus_check", 52, (...numbers) => {
      const [wavelength, m2, rawCode, atLens, waist, waistToLens, focalLength] = numbers;
      const [focusCode, focusZ, lensToSurface, rise, fall, criterionCode, ...rest] = numbers.slice(7);
      const [growthRatio, drop, largest, finestStroke, finestGap, doseRatio] = rest;
      const rawBeam = {
        1: { by: "collimated", atLens: width(atLens) },
        2: { by: "waist", waist: width(waist), waistAt: rawPlace(-waistToLens) },
      };
      const focus = {
        1: { by: "datum", waistZ: z(focusZ) },
        2: { by: "lens height", lensToSurface: s.m(lensToSurface) },
      };
      const v = s.focusCheck({
        wavelength: s.m(wavelength),
        m2,
        rawBeam: rawBeam[rawCode] ?? { by: UNKNOWN },
        focalLength: s.m(focalLength),
        focus: focus[focusCode] ?? { by: UNKNOWN },
        surfaceRise: s.m(rise),
        surfaceFall: s.m(fall),
        criterion: criterion(criterionCode, growthRatio, drop, largest),
        finestStroke: s.m(finestStroke),
        finestGap: s.m(finestGap),
        doseRatio,
      });
      return [
        { holds: 1, "holds out of focus": 2, lost: 3 }[v.outcome],
        v.reasonBits,
        ...focusedNumbers(v.focused),
        zOf(v.focusZ),
        ...ends(v.depth),
        ...ends(v.detailRange),
        ...place(v.highest),
        ...place(v.datum),
        ...place(v.lowest),
        zOf(v.bestFocusZ),
        v.bestWorstGrowth,
        flags(v.validity),
      ];
    }],
  ];
}

/**
 * The answers to a file of rows.
 * @param {Uint8Array} input
 * @param {typeof import("spotwise")} spotwise
 * @returns {Uint8Array}
 */
export function replay(input, spotwise) {
  const view = new DataView(input.buffer, input.byteOffset, input.byteLength);
  const magic = String.fromCharCode(...input.subarray(0, 8));
  if (magic !== "SPOTREP1") throw new Error(`not a replay: ${JSON.stringify(magic)}`);
  const table = functions(spotwise);
  const rows = view.getUint32(8, true);
  const answers = [];
  let at = 12;
  for (let row = 0; row < rows; row++) {
    const index = view.getUint32(at, true);
    const count = view.getUint32(at + 4, true);
    at += 8;
    const inputs = Array.from({ length: count }, (_, i) => view.getFloat64(at + 8 * i, true));
    at += 8 * count;
    if (table[index] === undefined) throw new Error(`row ${row}: no function ${index}`);
    const [name, outputs, call] = table[index];
    answers.push(answer(name, outputs, () => call(...inputs), spotwise.SpotwiseError));
  }
  if (at !== input.byteLength) throw new Error(`${input.byteLength - at} bytes after the last row`);
  return written(answers);
}

/** One row's code, parameter and outputs. */
function answer(name, outputs, call, SpotwiseError) {
  try {
    const values = call();
    if (values.length !== outputs) throw new Error(`${name}: ${values.length} outputs, not ${outputs}`);
    return { code: 0, parameter: 0, values };
  } catch (error) {
    if (!(error instanceof SpotwiseError)) throw error;
    return { code: error.code, parameter: error.parameter, values: new Array(outputs).fill(NaN) };
  }
}

function written(answers) {
  const size = answers.reduce((sum, { values }) => sum + 16 + 8 * values.length, 12);
  const bytes = new Uint8Array(size);
  const view = new DataView(bytes.buffer);
  bytes.set([..."SPOTOUT1"].map((letter) => letter.charCodeAt(0)));
  view.setUint32(8, answers.length, true);
  let at = 12;
  for (const { code, parameter, values } of answers) {
    view.setUint32(at, code, true);
    view.setUint32(at + 4, parameter, true);
    view.setUint32(at + 8, values.length, true);
    at += 16;
    for (const value of values) {
      if (Number.isNaN(value)) view.setBigUint64(at, 0x7ff8000000000000n, true);
      else view.setFloat64(at, value, true);
      at += 8;
    }
  }
  return bytes;
}
