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
const glasses = {
  1: "zinc selenide",
  2: "germanium",
  3: "gallium arsenide",
  4: "fused silica",
  5: "N-BK7",
  6: "zinc sulfide",
  7: "calcium fluoride",
  8: "sapphire",
};
const spotMeasures = { 1: "second moment", 2: "power 86", 3: "handbook" };
const focusMeasures = { 1: "peak irradiance", 2: "power 86", 3: "second moment" };
const markKinds = { 1: "pulse", 2: "line" };
const depthLaws = { 1: "logarithmic", 2: "linear" };
const causes = [
  "nothing",
  "focus",
  "power",
  "focus and power",
  "focus or power",
  "power, perhaps focus",
  "not as assumed",
];
const furtherTests = ["nothing", "heights on either side", "solid patch", "double power"];
const heightVerdicts = [
  "focus within",
  "focus toward lens",
  "focus away from lens",
  "no difference",
  "contradiction",
];
const rules = { 1: "same dose", 2: "same width", 3: "focus-insensitive width" };
const bulges = { 1: "toward lens", 2: "away from lens" };
const typefaces = { 1: "sans", 2: "bold sans", 3: "light sans", 4: "serif", 5: "monospaced" };
const aims = { 1: "highest place", 2: "midway" };
const textGrades = { 1: "crisp", 2: "good", 3: "readable", 4: "lost" };
const pieceRoles = ["sweep", "first repeat", "last repeat"];
const skipReasons = ["too near head", "beyond travel toward lens", "beyond travel away from lens", "no room to approach"];
const pieceRanks = [, "poor", "acceptable", "sharp"];
const toleranceSources = [
  "part bow",
  "thickness",
  "fixture",
  "lens change",
  "height gauge",
  "backlash",
  "axis step",
  "thermal drift",
  "other",
];
const distributions = ["uniform", "triangular", "arc sine", "two-valued", "normal"];
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
  const estimate = (e, of) => [of(e.value), Number(e.deviation), of(e.least), of(e.greatest), Number(e.bias)];
  const flags = (v) => {
    const words = [
      v.wideCone,
      v.secondRange,
      v.aberrated,
      v.stronglyAberrated,
      v.clipped,
      v.stronglyClipped,
      v.noPower86,
      v.focusShifted,
      v.tilted,
      v.gaussianOffFocus,
    ];
    const bits = words.reduce((sum, set, i) => sum + (set ? 2 ** i : 0), 0);
    if (v.fine !== (bits === 0) || v.fine !== (v.level === "fine")) throw new Error("fine contradicts the flags");
    return bits;
  };
  /** Half angle and flags, with which most results end. */
  const cone = (result) => [s.inRad(result.halfAngle), flags(result.validity)];
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
  const heights = (highest, lowest) => ({ highest: z(highest), lowest: z(lowest) });
  const depthEnds = (toward, away) => ({ towardLens: z(toward), awayFromLens: z(away) });
  /** Heights of as many as a row has room for. */
  const zs = (offsets, room) => [...offsets.map(zOf), ...Array(room - offsets.length).fill(NaN)];
  const scanLens = (focalLength, fieldRadius, tangential, sagittal, incidence, edgeSpotRatio) => ({
    focalLength: s.m(focalLength),
    fieldRadius: s.m(fieldRadius),
    edgeTangentialFocus: z(tangential),
    edgeSagittalFocus: z(sagittal),
    edgeIncidence: s.rad(incidence),
    edgeSpotRatio,
  });
  const aperture = (x) => (x === Infinity ? undefined : s.diameter(s.m(x)));
  const glass = (code) => glasses[code] ?? UNKNOWN;
  const shape = (code, shapeFactor) =>
    ({ 1: "best form", 2: "curved side first", 3: "flat side first", 4: { shapeFactor } })[code] ?? UNKNOWN;
  const surface = (radius) => (radius === Infinity ? "flat" : s.signedRadius(s.m(radius)));
  const element = (code, length, focalLength, index, magnification, exitPower, shapeFactor) =>
    ({
      1: { kind: "space", length: s.m(length) },
      2: { kind: "thin lens", focalLength: s.m(focalLength) },
      3: { kind: "window", thickness: s.m(length), index },
      4: { kind: "expander", magnification, exitPower: s.perM(exitPower) },
      5: { kind: "singlet", focalLength: s.m(focalLength), index, shapeFactor },
    })[code] ?? { kind: UNKNOWN };
  const elements = (numbers) => [0, 7, 14].map((start) => element(...numbers.slice(start, start + 7)));
  const pathBeam = (b) => {
    const axis = (a, raw) => {
      if (raw && !Object.is(raw.waistAt.zDownstream, zOf(a.waistZ))) throw new Error("the two beams of a path differ");
      return [a.m2, diameterOf(a.waist), zOf(a.waistZ)];
    };
    return [
      s.inM(b.wavelength),
      ...axis(b.x, b.raw?.x),
      ...axis(b.y, b.raw?.y),
      diameterOf(b.widthX),
      diameterOf(b.widthY),
      s.inM(b.distance),
      b.normalisedAberration,
      ...cone(b),
    ];
  };
  const wave = (wavelength, m2, atLens, clearAperture, lensToFocus, aberrationPhase) => ({
    wavelength: s.m(wavelength),
    m2,
    atLens: width(atLens),
    clearAperture: aperture(clearAperture),
    lensToFocus: s.m(lensToFocus),
    aberrationPhase: s.rad(aberrationPhase),
  });
  const orNaN = (x) => x ?? NaN;
  const aberratedWaist = (w) =>
    w === undefined
      ? [NaN, NaN, NaN, NaN, NaN]
      : [s.inM(w.waistDiameter), w.m2, s.inM(w.rayleighRange), zOf(w.shift), s.inM(w.lensToWaist)];
  const real = (f) => [
    ...aberratedWaist(f.secondMoment),
    ...aberratedWaist(f.power86),
    s.inM(f.handbookDiameter),
    s.inM(f.quadratureDiameter),
    orNaN(f.peakIrradianceRatio),
    f.shapeFactor,
    s.inRad(f.aberrationPhase),
    f.normalisedAberration,
    f.clippingRatio,
    f.transmitted,
    f.relativeFocusShift,
    f.relativeRayleighRange,
    s.inM(f.lensToFocus),
    s.inRad(f.halfAngle),
  ];
  const placedSinglet = (waistToLens, index, shapeCode, factor, focalLength, clear) => ({
    waistAt: rawPlace(-waistToLens),
    index,
    shape: shape(shapeCode, factor),
    focalLength: s.m(focalLength),
    clearAperture: aperture(clear),
  });
  const spread = (g) => [
    diameterOf(g.smallestSpot),
    diameterOf(g.largestSpot),
    g.spotRatio,
    zOf(g.leastFocusShift),
    zOf(g.greatestFocusShift),
    s.inM(g.focusWander),
    ...cone(g),
  ];
  const ends = (r) => (r === null ? [NaN, NaN, NaN] : [zOf(r.towardLens), zOf(r.awayFromLens), s.inM(r.full)]);
  const range = (r) => [...ends(r), ...cone(r)];
  const focusedNumbers = (f) => [
    diameterOf(f.waist),
    s.inM(f.rayleighRange),
    s.inRad(s.asFullAngle(f.divergence)),
    f.magnification,
    zOf(f.focusShift),
    s.inM(f.lensToWaist),
    diameterOf(f.atLens),
  ];
  const focused = (f) => [...focusedNumbers(f), ...cone(f)];
  const offWaist = (d) => [d.growth, d.growthMinusOne, d.irradianceRatio, d.lineDoseRatio, ...cone(d)];
  const lensNumbers = (n) => [
    n.normalisedAberration,
    n.clippingRatio,
    n.relativeFocusShift,
    n.relativeRayleighRange,
  ];
  const scan = (power, speed, across, along, interval) => ({
    power: s.watt(power),
    speed: s.mPerS(speed),
    spotAcross: width(across),
    spotAlong: width(along),
    lineInterval: s.m(interval),
  });
  const scanDose = (d) => [
    s.inJPerM2(d.lineDose),
    s.inJPerM2(d.fillDose),
    s.inWattPerM2(d.peakIrradiance),
    s.inS(d.dwell),
  ];
  const response = (code, penetrationDepth, removalEnergy, diffusivity) =>
    ({
      1: { kind: "coating" },
      2: { kind: "logarithmic ablation", penetrationDepth: s.m(penetrationDepth) },
      3: { kind: "linear ablation", removalEnergy: s.jPerM3(removalEnergy) },
      4: { kind: "melt", diffusivity: s.m2PerS(diffusivity) },
    })[code] ?? { kind: UNKNOWN };
  const taste = (code, largestEdge, crispnessWeight) =>
    ({
      1: { by: "crispest" },
      2: { by: "smoothest within", largestEdge: s.m(largestEdge) },
      3: { by: "compromise", crispnessWeight },
    })[code] ?? { by: UNKNOWN };
  const seriesRequest = ([purpose, kind, doseRatio, focus, focusUncertainty, step, halfRange, ...rest]) => {
    const [axisStep, backlash, direction, clearance, leastClearance, toward, away, ...sizes] = rest;
    const [pieceWidth, pieceHeight, labelWidth, labelHeight, gap, rowWidth] = sizes;
    const chosen = (x) => (x === 0 ? undefined : s.m(x));
    const endless = (x) => (x === Infinity ? undefined : s.m(x));
    const vanishing = { for: "vanishing", kind: markKinds[kind] ?? UNKNOWN, doseRatio };
    return {
      purpose: { 1: { for: "widths" }, 2: vanishing }[purpose] ?? UNKNOWN,
      expectedFocus: z(focus),
      focusUncertainty: s.m(focusUncertainty),
      step: chosen(step),
      halfRange: chosen(halfRange),
      axis: {
        axisStep: chosen(axisStep),
        backlash: s.m(backlash),
        direction: { 1: "away from lens", 2: "toward lens" }[direction] ?? UNKNOWN,
        clearance: s.m(clearance),
        leastClearance: s.m(leastClearance),
        travelTowardLens: endless(toward),
        travelAwayFromLens: endless(away),
      },
      layout: {
        pieceWidth: s.m(pieceWidth),
        pieceHeight: s.m(pieceHeight),
        labelWidth: s.m(labelWidth),
        labelHeight: s.m(labelHeight),
        gap: s.m(gap),
        rowWidth: endless(rowWidth),
      },
    };
  };
  const piecesOf = (numbers, judged) => {
    const count = Math.max(0, Math.min(12, Math.trunc(numbers[0]))) || 0;
    return Array.from({ length: count }, (_, i) => ({ height: z(numbers[1 + i]), ...judged(numbers[13 + i]) }));
  };
  const judgement = ([rayleighRange, relativeDeviation, coverageProbability]) => ({
    rayleighRange: s.m(rayleighRange),
    relativeDeviation,
    coverageProbability,
  });
  const eyeFocus = (f) => [zOf(f.height), s.inM(f.deviation), zOf(f.towardLens), zOf(f.awayFromLens)];
  const runEnd = (end) => (end === null ? [NaN, NaN] : [zOf(end.height), s.inM(end.deviation)]);
  const mark = (kind, doseRatio) => ({ kind: markKinds[kind] ?? UNKNOWN, doseRatio });
  const widthReading = (width, deviation) => ({ width: s.m(width), deviation: s.m(deviation) });
  const goodMark = ([kind, doseRatio, doseRatioDeviation, width, deviation]) => ({
    ...mark(kind, doseRatio),
    doseRatioDeviation,
    width: widthReading(width, deviation),
  });
  const depthReading = ([law, goodDepth, goodDepthDeviation, depth, depthDeviation]) => ({
    law: depthLaws[law] ?? UNKNOWN,
    goodDepth,
    goodDepthDeviation,
    depth,
    depthDeviation,
  });
  const finding = (d) => [causes.indexOf(d.cause) + 1, furtherTests.indexOf(d.furtherTest) + 1, d.ambiguityBits];
  const possibleHeight = (h) =>
    h === undefined
      ? [NaN, NaN, NaN, NaN]
      : [h.growth, s.inM(h.distance), s.inM(h.leastDistance), s.inM(h.greatestDistance)];
  const possiblePower = (p) => (p === undefined ? [NaN, NaN, NaN] : [p.ratio, p.least, p.greatest]);
  const quality = (q) => [s.inM(q.distanceFromWaist), diameterOf(q.spot), s.inM(q.edgeWidth), q.rippleContrast, ...cone(q)];
  const typeface = (code, stem, effectiveStroke, effectiveCounter, effectiveGap) =>
    code === 6 ? { stem, effectiveStroke, effectiveCounter, effectiveGap } : (typefaces[code] ?? UNKNOWN);
  const textGrade = (code) => textGrades[code] ?? UNKNOWN;
  const gradeCode = (grade) => (grade === null ? 0 : Number(Object.keys(textGrades).find((code) => textGrades[code] === grade)));
  const cuts = (crispExposure, goodWindow, readableWindow) => ({ crispExposure, goodWindow, readableWindow });
  const ems = (t) => (t === null ? [NaN, NaN, NaN] : [s.inM(t.crispEm), s.inM(t.goodEm), s.inM(t.readableEm)]);
  const contributions = (numbers) =>
    [0, 5, 10, 15].map((at) => {
      const [source, distribution, halfWidth, coverageFactor, mean] = numbers.slice(at, at + 5);
      const kind = distributions[distribution - 1] ?? UNKNOWN;
      return {
        source: toleranceSources[source - 1] ?? UNKNOWN,
        distribution: { kind, halfWidth: s.m(halfWidth), coverageFactor },
        mean: z(mean),
      };
    });
  const odds = (o) => [
    o.probability,
    orNaN(o.tooNearProbability),
    orNaN(o.tooFarProbability),
    o.drawn.share,
    o.drawn.standardError,
    o.drawn.least,
    o.drawn.greatest,
    zOf(o.offsets.mean),
    s.inM(o.offsets.deviation),
    zOf(o.offsets.towardLens),
    zOf(o.offsets.awayFromLens),
  ];
  const place = (p) => [
    zOf(p.zOffset),
    s.inM(p.spotDiameter),
    p.growth,
    p.irradianceRatio,
    p.lineDoseRatio,
    s.inM(p.seenSpotDiameter),
    orNaN(p.smallestStroke),
    orNaN(p.smallestGap),
    orNaN(p.smallestDot?.diameter),
    orNaN(p.smallestHole?.diameter),
    orNaN(p.rippleContrast),
    ...ems(p.smallestText),
    gradeCode(p.textGrade),
    Number(p.detailsHold),
    Number(p.inDepth),
  ];

  const shapeOf = ([code, bulge, slopeX, slopeY, radius, crownX, crownY, axisAngle, columns, rows, ...lists]) => {
    const slope = { awayFromLensAlongX: slopeX, awayFromLensAlongY: slopeY };
    const part = {
      bulge: bulges[bulge] ?? UNKNOWN,
      radius: s.m(radius),
      crown: { x: s.m(crownX), y: s.m(crownY) },
      lean: slope,
    };
    const [columnCount, rowCount] = [columns, rows].map((count) => (count >= 0 ? Math.min(4, Math.trunc(count)) : 0));
    const list = (start, count) => Float64Array.from(lists.slice(start, start + count));
    const [x, y] = [list(0, columnCount), list(4, rowCount)];
    const z = (count) => ({ heightsAwayFromLensInMetres: list(8, count) });
    return (
      {
        1: { kind: "plane", slope },
        2: { kind: "cylinder", axisAngle: s.rad(axisAngle), ...part },
        3: { kind: "sphere", ...part },
        4: { kind: "steps", edgesInMetres: x, ...z(Math.max(0, columnCount - 1)) },
        5: { kind: "grid", columnsInMetres: x, rowsInMetres: y, ...z(columnCount * rowCount) },
      }[code] ?? { kind: UNKNOWN }
    );
  };
  const regionOf = ([xLeast, xGreatest, yLeast, yGreatest, ...rest]) => [
    { xLeast: s.m(xLeast), xGreatest: s.m(xGreatest), yLeast: s.m(yLeast), yGreatest: s.m(yGreatest) },
    ...rest,
  ];
  const tablePlace = (x, y) => ({ x: s.m(x), y: s.m(y) });
  const outcomeCode = { holds: 1, "holds out of focus": 2, lost: 3, "nothing marks": 4 };
  const singletOf = (code, glassCode, shapeCode, shapeFactor, clear) => {
    const singlet = { glass: glass(glassCode), shape: shape(shapeCode, shapeFactor), clearAperture: aperture(clear) };
    return code === 1 ? undefined : code === 2 ? singlet : UNKNOWN;
  };
  /** A job from the inputs of the check. */
  const jobOf = (numbers) => {
    const [wavelength, m2, rawCode, atLens, waist, waistToLens, focalLength] = numbers;
    const [focusCode, focusZ, lensToSurface, rise, fall, criterionCode, ...rest] = numbers.slice(7);
    const [growthRatio, drop, largest, finestStroke, finestGap, doseCode, doseRatio, ...scanAndRest] = rest;
    const [power, speed, interval, threshold, ...responseAndRest] = scanAndRest;
    const expanderAndRest = responseAndRest.slice(4);
    const [waistToExpander, magnification, exitPower, expanderToLens] = expanderAndRest;
    const lens = expanderAndRest.slice(4, 9);
    const [textCode, ...style] = expanderAndRest.slice(9);
    const [em, leastGrade, ...textCuts] = style.slice(5);
    const dose = {
      1: { by: "ratio", doseRatio },
      2: {
        by: "scan",
        power: s.watt(power),
        speed: s.mPerS(speed),
        lineInterval: s.m(interval),
        threshold: s.jPerM2(threshold),
        response: response(...responseAndRest.slice(0, 4)),
      },
    };
    const text = {
      typeface: typeface(...style.slice(0, 5)),
      em: s.m(em),
      leastGrade: textGrade(leastGrade),
      grades: cuts(...textCuts),
    };
    const rawBeam = {
      1: { by: "collimated", atLens: width(atLens) },
      2: { by: "waist", waist: width(waist), waistAt: rawPlace(-waistToLens) },
      3: {
        by: "expanded",
        waist: width(waist),
        waistAt: rawPlace(-waistToExpander),
        magnification,
        exitPower: s.perM(exitPower),
        expanderToLens: s.m(expanderToLens),
      },
    };
    const focus = {
      1: { by: "datum", waistZ: z(focusZ) },
      2: { by: "lens height", lensToSurface: s.m(lensToSurface) },
    };
    return {
      wavelength: s.m(wavelength),
      m2,
      rawBeam: rawBeam[rawCode] ?? { by: UNKNOWN },
      focalLength: s.m(focalLength),
      singlet: singletOf(...lens),
      focus: focus[focusCode] ?? { by: UNKNOWN },
      surfaceRise: s.m(rise),
      surfaceFall: s.m(fall),
      criterion: criterion(criterionCode, growthRatio, drop, largest),
      finestStroke: s.m(finestStroke),
      finestGap: s.m(finestGap),
      dose: dose[doseCode] ?? { by: UNKNOWN },
      text: textCode === 1 ? undefined : textCode === 2 ? text : UNKNOWN,
    };
  };
  const SET_UP = 39;
  const LENS = 7;
  /** A job without lens and focus from the inputs of the choice of a lens. */
  const jobForAnyLens = (numbers) => {
    const lens = [NaN, 1, 0, NaN];
    const real = [1, 0, 0, NaN, NaN];
    return jobOf([...numbers.slice(0, 6), ...lens, ...numbers.slice(6, 28), ...real, ...numbers.slice(28, SET_UP)]);
  };
  /** Outputs of a lens, of one that is refused, or of a place without one. */
  const rankingNumbers = (r) => {
    const standing = [r?.rank ?? 0, r?.reasonBits ?? 0, r?.refused?.code ?? 0, r?.refused?.parameter ?? 0];
    const f = r?.found ?? null;
    if (f === null) return [...standing, 0, ...new Array(4 + 14).fill(NaN), 0, 0, 0, NaN, NaN, 0];
    return [
      ...standing,
      outcomeCode[f.outcome],
      diameterOf(f.spotInFocus),
      s.inM(f.rayleighRange),
      s.inM(f.lensToWaist),
      orNaN(f.depthFull),
      ...place(f.worst),
      orNaN(f.spareHalfSpan),
      s.inM(f.clearance),
      flags(f.validity),
    ];
  };
  const crossing = (c) => (c === null ? [NaN, NaN] : [s.inM(c.distanceFromWaist), diameterOf(c.spot)]);

  const verdict = (v) => {
    return [
      outcomeCode[v.outcome],
      v.reasonBits,
      ...focusedNumbers(v.focused),
      s.inRad(v.focused.halfAngle),
      zOf(v.focusZ),
      ...ends(v.depth),
      ...ends(v.detailRange),
      ...ends(v.textRange),
      v.doseRatio,
      ...(v.scan === null ? [NaN, NaN, NaN, NaN] : scanDose(v.scan)),
      orNaN(v.fillDepth),
      ...place(v.highest),
      ...place(v.datum),
      ...place(v.lowest),
      zOf(v.bestFocusZ),
      v.bestWorstGrowth,
      outcomeCode[v.promised],
      ...(v.real === null ? new Array(22).fill(NaN) : real(v.real)),
      flags(v.validity),
    ];
  };
  const extremes = (e) => {
    const at = (place) => [s.inM(place.x), s.inM(place.y)];
    return [
      zOf(e.highest.height),
      ...at(e.highest.at),
      zOf(e.lowest.height),
      ...at(e.lowest.at),
      s.inM(e.range),
      s.inRad(e.steepest.incidence),
      ...at(e.steepest.at),
      e.missingProbes,
      e.unknownShare,
    ];
  };
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
    ["beam_at", 5, (wavelength, m2, waist, at) => {
      const section = s.beamAt(beam(wavelength, m2, waist), z(at));
      return [
        diameterOf(section.width),
        s.inPerM(section.wavefrontCurvature),
        s.inM(section.wavefrontRadius),
        ...cone(section),
      ];
    }],
    ["diameters_at", 6, (wavelength, m2, waist, ...at) => {
      const along = s.diametersAt(beam(wavelength, m2, waist), Float64Array.from(at));
      return [...along.diametersInMetres, ...cone(along)];
    }],
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
    ["astigmatic_parameters", 12, (...numbers) => {
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
        ...cone(p),
      ];
    }],
    ["astigmatic_at", 8, (...numbers) => {
      const section = s.astigmaticAt(astigmatic(...numbers.slice(0, 7)), z(numbers[7]));
      return [
        diameterOf(section.widthX),
        diameterOf(section.widthY),
        section.ellipticity,
        Number(section.circular),
        diameterOf(section.effective),
        diameterOf(section.equalArea),
        ...cone(section),
      ];
    }],
    ["focus_through_lens", 9, (wavelength, m2, waist, waistToLens, focalLength) =>
      focused(
        s.focusThroughLens(beam(wavelength, m2, waist), {
          waistAt: rawPlace(-waistToLens),
          focalLength: s.m(focalLength),
        }),
      )],
    ["focus_collimated", 9, (wavelength, m2, atLens, focalLength) =>
      focused(
        s.focusCollimated({
          wavelength: s.m(wavelength),
          m2,
          atLens: width(atLens),
          focalLength: s.m(focalLength),
        }),
      )],
    ["focus_astigmatic", 9, (...numbers) => {
      const focus = s.focusAstigmatic(rawAstigmatic(...numbers.slice(0, 7)), s.m(numbers[7]));
      const axis = (a) => [a.m2, diameterOf(a.waist), zOf(a.waistZ)];
      return [s.inM(focus.wavelength), ...axis(focus.x), ...axis(focus.y), ...cone(focus)];
    }],
    ["refractive_index", 2, (code, wavelength) => {
      const { index, dispersion } = s.refractiveIndex({ glass: glass(code), wavelength: s.m(wavelength) });
      return [index, dispersion];
    }],
    ["lens_at_wavelength", 7, (code, shapeCode, factor, focalLength, designWavelength, wavelength) => {
      const l = s.lensAtWavelength({
        glass: glass(code),
        shape: shape(shapeCode, factor),
        focalLength: s.m(focalLength),
        designWavelength: s.m(designWavelength),
        wavelength: s.m(wavelength),
      });
      return [
        l.designIndex,
        l.index,
        s.inM(l.focalLength),
        zOf(l.focalShift),
        l.shapeFactor,
        l.blurCoefficient,
        s.inPerM3(l.wavefrontCoefficient),
      ];
    }],
    ["lens_from_radii", 2, (index, first, second) => {
      const form = s.lensFromRadii({ index, first: surface(first), second: surface(second) });
      return [s.inM(form.focalLength), form.shapeFactor];
    }],
    ["lens_aberration", 3, (index, shapeCode, factor, focalLength) => {
      const a = s.lensAberration({ index, shape: shape(shapeCode, factor), focalLength: s.m(focalLength) });
      return [a.shapeFactor, a.blurCoefficient, s.inPerM3(a.wavefrontCoefficient)];
    }],
    ["aberration_growth", 10, (m2, phase) => {
      const g = s.aberrationGrowth({ m2, aberrationPhase: s.rad(phase) });
      return [
        g.secondMomentM2,
        g.secondMomentGrowth,
        g.secondMomentShift,
        orNaN(g.power86Growth),
        orNaN(g.power86Shift),
        g.handbookGrowth,
        g.quadratureGrowth,
        orNaN(g.peakIrradianceRatio),
        g.normalisedAberration,
        flags(g.validity),
      ];
    }],
    ["focus_singlet", 32, (wavelength, m2, waist, ...lens) => {
      const f = s.focusSinglet(beam(wavelength, m2, waist), placedSinglet(...lens));
      return [...focused(f.ideal), ...real(f), flags(f.validity)];
    }],
    ["smallest_spot", 7, (wavelength, m2, index, shapeCode, factor, focalLength, measure) => {
      const best = s.smallestSpot({
        wavelength: s.m(wavelength),
        m2,
        index,
        shape: shape(shapeCode, factor),
        focalLength: s.m(focalLength),
        measure: spotMeasures[measure] ?? UNKNOWN,
      });
      return [
        diameterOf(best.atLens),
        s.inM(best.spotDiameter),
        s.inRad(best.aberrationPhase),
        best.normalisedAberration,
        best.relativeRayleighRange,
        ...cone(best),
      ];
    }],
    ["focus_clipped", 9, (wavelength, atLens, clear, focalLength) => {
      const c = s.focusClipped({
        wavelength: s.m(wavelength),
        atLens: width(atLens),
        clearAperture: aperture(clear),
        focalLength: s.m(focalLength),
      });
      return [
        c.clippingRatio,
        c.transmitted,
        s.inM(c.diameter1e2),
        s.inM(c.fwhm),
        orNaN(c.diameterPower86),
        c.peakIrradianceRatio,
        c.relativeRayleighRange,
        ...cone(c),
      ];
    }],
    ["focus_behind_plate", 6, (wavelength, m2, waist, thickness, index) => {
      const p = s.focusBehindPlate(beam(wavelength, m2, waist), { thickness: s.m(thickness), index });
      return [
        zOf(p.focusShift),
        zOf(p.edgeFocusShift),
        s.inRad(p.aberrationPhase),
        p.normalisedAberration,
        ...cone(p),
      ];
    }],
    ["focus_inside", 7, (wavelength, m2, waist, lowered, index) => {
      const f = s.focusInside(beam(wavelength, m2, waist), { lensLoweredBy: s.m(lowered), index });
      return [
        s.inM(f.depth),
        s.inM(f.edgeDepth),
        s.inM(f.rayleighRange),
        s.inRad(f.aberrationPhase),
        f.normalisedAberration,
        ...cone(f),
      ];
    }],
    ["beam_after_path", 13, (...numbers) =>
      pathBeam(s.beamAfterPath(rawAstigmatic(...numbers.slice(0, 7)), elements(numbers.slice(7))))],
    ["beam_along_path", 13, (...numbers) =>
      pathBeam(
        s.beamAlongPath(rawAstigmatic(...numbers.slice(0, 7)), elements(numbers.slice(7, 28)), s.m(numbers[28])),
      )],
    ["focus_along_gantry", 10, (wavelength, m2, waist, s1, s2, s3, s4, focalLength) => {
      const places = Float64Array.of(s1, s2, s3, s4);
      const along = s.focusAlongGantry(beam(wavelength, m2, waist), s.m(focalLength), places);
      return [...along.spotDiametersInMetres, ...along.focusShiftsInMetres, ...cone(along)];
    }],
    ["gantry_spread", 8, (wavelength, m2, waist, nearest, farthest, focalLength) =>
      spread(
        s.gantrySpread(beam(wavelength, m2, waist), {
          waistAtNearest: rawPlace(-nearest),
          waistAtFarthest: rawPlace(-farthest),
          focalLength: s.m(focalLength),
        }),
      )],
    ["even_out_gantry", 12, (wavelength, m2, waist, waistToExpander, magnification, nearest, farthest, focalLength) => {
      const even = s.evenOutGantry(beam(wavelength, m2, waist), {
        waistAt: rawPlace(-waistToExpander),
        magnification,
        expanderToNearest: s.m(nearest),
        expanderToFarthest: s.m(farthest),
        focalLength: s.m(focalLength),
      });
      return [
        s.inPerM(even.exitPower),
        diameterOf(even.waist),
        s.inM(even.waistAt.zDownstream),
        Number(even.endsEqual),
        ...spread(even.spread),
      ];
    }],
    ["wave_irradiance", 5, (...numbers) => {
      const at = { radius: s.m(numbers[6]), z: z(numbers[7]) };
      const w = s.waveIrradiance(wave(...numbers.slice(0, 6)), at);
      return [w.irradianceRatio, w.irradiancePerWatt, w.error, ...cone(w)];
    }],
    ["wave_power", 5, (...numbers) => {
      const circle = { radius: s.m(numbers[6]), z: z(numbers[7]) };
      const w = s.wavePower(wave(...numbers.slice(0, 6)), circle);
      return [w.share, w.shareOfTransmitted, w.error, ...cone(w)];
    }],
    ["wave_widths", 8, (...numbers) => {
      const w = s.waveWidths(wave(...numbers.slice(0, 6)), z(numbers[6]));
      return [
        w.irradianceRatio,
        s.inM(w.diameter1e2),
        s.inM(w.fwhm),
        s.inM(w.diameterPower86),
        w.transmitted,
        w.error,
        ...cone(w),
      ];
    }],
    ["wave_focus", 7, (...numbers) => {
      const f = s.waveFocus(wave(...numbers.slice(0, 6)), focusMeasures[numbers[6]] ?? UNKNOWN);
      return [
        zOf(f.z),
        f.irradianceRatio,
        s.inM(f.diameterPower86),
        orNaN(f.diameterD4sigma),
        f.error,
        ...cone(f),
      ];
    }],
    ["wave_map", 9, (...numbers) => {
      const [radii, heights] = [numbers.slice(6, 9), numbers.slice(9)].map((list) => Float64Array.from(list));
      const map = s.waveMap(wave(...numbers.slice(0, 6)), radii, heights);
      return [...map.irradianceRatios, map.error, ...cone(map)];
    }],
    ["defocus", 7, (wavelength, m2, waist, offset) => {
      const d = s.defocus(beam(wavelength, m2, waist), z(offset));
      return [diameterOf(d.spot), ...offWaist(d)];
    }],
    ["astigmatic_defocus", 7, (...numbers) => {
      const d = s.astigmaticDefocus(astigmatic(...numbers.slice(0, 7)), z(numbers[7]));
      return [
        d.growthX,
        d.growthY,
        d.irradianceRatio,
        d.lineDoseRatioAlongX,
        d.lineDoseRatioAlongY,
        ...cone(d),
      ];
    }],
    ["offsets_for_diameter", 5, (wavelength, m2, waist, spot) =>
      range(s.offsetsForDiameter(beam(wavelength, m2, waist), width(spot)))],
    ["offsets_for_growth", 5, (wavelength, m2, waist, growth) =>
      range(s.offsetsForGrowth(beam(wavelength, m2, waist), growth))],
    ["depth_of_focus", 5, (wavelength, m2, waist, ...limit) =>
      range(s.depthOfFocus(beam(wavelength, m2, waist), criterion(...limit)))],
    ["astigmatic_depth_of_focus", 5, (...numbers) =>
      range(s.astigmaticDepthOfFocus(astigmatic(...numbers.slice(0, 7)), criterion(...numbers.slice(7))))],
    ["clipped_depth_of_focus", 9, (wavelength, atLens, clear, focalLength, irradianceDrop) => {
      const d = s.clippedDepthOfFocus({
        wavelength: s.m(wavelength),
        atLens: width(atLens),
        clearAperture: aperture(clear),
        focalLength: s.m(focalLength),
        irradianceDrop,
      });
      return [...range(d.range), zOf(d.brightest), d.clippingRatio, d.relativeRayleighRange, d.relativeHalfDepth];
    }],
    ["wave_depth_of_focus", 7, (...numbers) => {
      const d = s.waveDepthOfFocus(wave(...numbers.slice(0, 6)), criterion(...numbers.slice(6)));
      return [zOf(d.best), ...ends(d.range), s.inM(d.error), ...cone(d.range)];
    }],
    ["singlet_defocus", 11, (wavelength, m2, waist, ...rest) => {
      const [lens, [measure, offset]] = [placedSinglet(...rest.slice(0, 6)), rest.slice(6)];
      const by = spotMeasures[measure] ?? UNKNOWN;
      const d = s.singletDefocus(beam(wavelength, m2, waist), lens, by, z(offset));
      return [s.inM(d.spotDiameter), ...offWaist(d), ...lensNumbers(d)];
    }],
    ["singlet_depth_of_focus", 9, (wavelength, m2, waist, ...rest) => {
      const [lens, [measure, ...limit]] = [placedSinglet(...rest.slice(0, 6)), rest.slice(6)];
      const by = spotMeasures[measure] ?? UNKNOWN;
      const d = s.singletDepthOfFocus(beam(wavelength, m2, waist), lens, by, criterion(...limit));
      return [...range(d), ...lensNumbers(d)];
    }],
    ["tilted_spot", 9, (wavelength, m2, waist, offset, tilt) => {
      const t = s.tiltedSpot(beam(wavelength, m2, waist), z(offset), s.rad(tilt));
      return [
        s.inM(t.diameterAcross),
        s.inM(t.diameterAlong),
        s.inM(t.contourAlong),
        s.inM(t.contourShiftToFarSide),
        t.irradianceRatio,
        t.lineDoseRatio,
        t.grazingRatio,
        ...cone(t),
      ];
    }],
    ["smallest_details", 6, (spot, doseRatio) => {
      const d = s.smallestDetails({ spot: width(spot), doseRatio });
      return [
        s.inM(d.bar),
        s.inM(d.gap),
        s.inM(d.dot.diameter),
        s.inM(d.hole.diameter),
        s.inM(d.square),
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
    ["pitch_for_contrast", 2, (spot, contrast) => {
      const p = s.pitchForContrast({ spot: width(spot), contrast });
      return [s.inM(p.sine), s.inM(p.bars)];
    }],
    ["scan_dose", 4, (...numbers) => scanDose(s.scanDose(scan(...numbers)))],
    ["pulse_dose", 6, (...numbers) => {
      const p = s.pulseDose(scan(...numbers.slice(0, 5)), s.hz(numbers[5]));
      return [
        s.inJoule(p.pulseEnergy),
        s.inJPerM2(p.peakFluence),
        s.inM(p.pulsePitch),
        p.overlap,
        p.pulsesPerDiameter,
        p.effectivePulses,
      ];
    }],
    ["dose_over_threshold", 1, (dose, threshold) => [
      s.doseOverThreshold({ dose: s.jPerM2(dose), threshold: s.jPerM2(threshold) }),
    ]],
    ["line_interval", 1, (density) => [s.inM(s.lineInterval(density))]],
    ["dots_per_inch", 1, (interval) => [s.dotsPerInch(s.m(interval))]],
    ["material_mark", 5, (threshold, incubation, ...rest) => {
      const [dose, exposures, spot, dwell] = rest.slice(4);
      const m = s.materialMark(
        { threshold: s.jPerM2(threshold), incubation, response: response(...rest.slice(0, 4)) },
        { dose: s.jPerM2(dose), exposures, spot: width(spot), dwell: s.s(dwell) },
      );
      return [s.inJPerM2(m.threshold), m.doseRatio, Number(m.marks), orNaN(m.depth), diameterOf(m.seenSpot)];
    }],
    ["mark_width", 6, (wavelength, m2, waist, kind, doseRatio, offset) => {
      const w = s.markWidth(beam(wavelength, m2, waist), mark(kind, doseRatio), z(offset));
      return [Number(w.marks), s.inM(w.width), w.doseRatio, diameterOf(w.spot), ...cone(w)];
    }],
    ["mark_limits", 8, (wavelength, m2, waist, kind, doseRatio) => {
      const l = s.markLimits(beam(wavelength, m2, waist), mark(kind, doseRatio));
      return [
        Number(l.marks),
        s.inM(l.widthInWaist),
        s.inM(l.widestDistance),
        s.inM(l.greatestWidth),
        s.inM(l.vanishingDistance),
        l.focusInsensitiveDoseRatio,
        ...cone(l),
      ];
    }],
    ["fill_width", 7, (wavelength, m2, waist, drawnWidth, doseRatio, offset) => {
      const stroke = { drawnWidth: s.m(drawnWidth), doseRatio };
      const f = s.fillWidth(beam(wavelength, m2, waist), stroke, z(offset));
      return [Number(f.marks), s.inM(f.width), s.inM(f.growth), f.exposure, diameterOf(f.spot), ...cone(f)];
    }],
    ["fill_limits", 7, (wavelength, m2, waist, drawnWidth, doseRatio) => {
      const l = s.fillLimits(beam(wavelength, m2, waist), { drawnWidth: s.m(drawnWidth), doseRatio });
      return [
        Number(l.marks),
        s.inM(l.widthInWaist),
        s.inM(l.widestDistance),
        s.inM(l.greatestWidth),
        s.inM(l.vanishingDistance),
        ...cone(l),
      ];
    }],
    ["raster_ripple", 6, (spot, interval) => {
      const r = s.rasterRipple({ spot: width(spot), lineInterval: s.m(interval) });
      return [
        r.greatestOverMean,
        r.leastOverMean,
        r.contrast,
        r.gapFreeDoseRatio,
        r.gapFreeDoseRatioWithoutMemory,
        r.intervalOverRadius,
      ];
    }],
    ["interval_for_ripple", 1, (spot, rippleContrast) => [
      s.inM(s.intervalForRipple({ spot: width(spot), rippleContrast })),
    ]],
    ["detail_exposure", 5, (spot, size) => {
      const e = s.detailExposure({ spot: width(spot), size: s.m(size) });
      return [e.bar, e.gap, e.square, e.dot, e.hole];
    }],
    ["blur_budget", 9, (across, along, speed, diffusivity, pixel, jitter, rise, delay) => {
      const b = s.blurBudget({
        spotAcross: width(across),
        spotAlong: width(along),
        speed: s.mPerS(speed),
        diffusivity: s.m2PerS(diffusivity),
        pixel: s.m(pixel),
        jitterDeviation: s.m(jitter),
        riseTime: s.s(rise),
        switchDelay: s.s(delay),
      });
      return [
        s.inS(b.dwell),
        s.inM(b.diffusionLength),
        diameterOf(b.spotAcross),
        diameterOf(b.spotAlong),
        s.inM(b.edgeAcross),
        s.inM(b.edgeAlong),
        s.inM(b.riseSmear),
        s.inM(b.delayShift),
        s.inM(b.twoWayComb),
      ];
    }],
    ["fill_quality", 6, (wavelength, m2, waist, interval, offset) =>
      quality(s.fillQuality(beam(wavelength, m2, waist), s.m(interval), z(offset)))],
    ["offset_for_taste", 6, (wavelength, m2, waist, interval, ...wanted) =>
      quality(s.offsetForTaste(beam(wavelength, m2, waist), s.m(interval), taste(...wanted)))],
    ["pulsed_line", 6, (spot, doseRatio, pitch, incubation, pulses) => {
      const l = s.pulsedLine({ spot: width(spot), doseRatio, pulsePitch: s.m(pitch), incubation, pulses });
      return [
        Number(l.marks),
        l.thresholdRatio,
        l.doseRatio,
        s.inM(l.dot.diameter),
        Number(l.connected),
        s.inM(l.scallop),
      ];
    }],
    ["crater", 4, (spot, doseRatio, penetration, radius) => {
      const c = s.crater({ spot: width(spot), doseRatio, penetrationDepth: s.m(penetration), radius: s.m(radius) });
      return [s.inM(c.diameter), s.inM(c.depth), s.inM(c.depthAtRadius), s.inM3(c.volume)];
    }],
    ["groove", 4, (spot, doseRatio, penetration, pitch, aside) => {
      const g = s.groove({
        spot: width(spot),
        doseRatio,
        penetrationDepth: s.m(penetration),
        pulsePitch: s.m(pitch),
        aside: s.m(aside),
      });
      return [s.inM(g.width), s.inM(g.depth), s.inM(g.depthAside), s.inM2(g.area)];
    }],
    ["connected_speed", 3, (spot, doseRatio, rate, incubation, scallop) => {
      const c = s.connectedSpeed({
        spot: width(spot),
        doseRatio,
        repetitionRate: s.hz(rate),
        incubation,
        scallop: s.m(scallop),
      });
      return [s.inM(c.pulsePitch), c.pulses, s.inMPerS(c.speed)];
    }],
    ["compensate", 10, (wavelength, m2, waist, offset, rule, kind, doseRatio, ...rest) => {
      const [power, speed, greatestPower, leastSpeed, greatestSpeed, leastIrradianceRatio] = rest;
      const c = s.compensate(beam(wavelength, m2, waist), z(offset), rules[rule] ?? UNKNOWN, {
        ...mark(kind, doseRatio),
        power: s.watt(power),
        speed: s.mPerS(speed),
        greatestPower: s.watt(greatestPower),
        leastSpeed: s.mPerS(leastSpeed),
        greatestSpeed: s.mPerS(greatestSpeed),
        leastIrradianceRatio,
      });
      return [
        c.wantedFactor,
        c.reachedFactor,
        s.inWatt(c.power),
        s.inMPerS(c.speed),
        c.irradianceRatio,
        c.doseRatio,
        s.inM(c.markWidth),
        c.limitBits,
        ...cone(c),
      ];
    }],
    ["typeface_shares", 9, (...numbers) => {
      const t = s.typefaceShares(typeface(...numbers));
      return [
        orNaN(t.capHeight),
        orNaN(t.xHeight),
        orNaN(t.digitHeight),
        t.stem,
        orNaN(t.thinnestStroke),
        orNaN(t.smallestCounter),
        t.effectiveStroke,
        t.effectiveCounter,
        t.effectiveGap,
      ];
    }],
    ["smallest_text", 3, (spot, doseRatio, ...rest) =>
      ems(
        s.smallestText({
          spot: width(spot),
          doseRatio,
          typeface: typeface(...rest.slice(0, 5)),
          grades: cuts(...rest.slice(5)),
        }),
      )],
    ["text_quality", 5, (spot, em, doseRatio, ...rest) => {
      const t = s.textQuality({
        spot: width(spot),
        em: s.m(em),
        doseRatio,
        typeface: typeface(...rest.slice(0, 5)),
        grades: cuts(...rest.slice(5)),
      });
      return [
        gradeCode(t.grade),
        t.stemExposure,
        t.leastDoseRatio,
        t.greatestDoseRatio,
        t.greatestDoseRatioForCounters,
      ];
    }],
    ["offset_for_text", 4, (wavelength, m2, waist, em, grade, doseRatio, ...rest) => {
      const t = s.offsetForText(beam(wavelength, m2, waist), {
        em: s.m(em),
        grade: textGrade(grade),
        doseRatio,
        typeface: typeface(...rest.slice(0, 5)),
        grades: cuts(...rest.slice(5)),
      });
      return [s.inM(t.distanceFromWaist), diameterOf(t.spot), ...cone(t)];
    }],
    ["tolerance_stack", 13, (...numbers) => {
      const t = s.toleranceStack(contributions(numbers), numbers[20]);
      return [
        zOf(t.bias),
        s.inM(t.worstHalfWidth),
        zOf(t.worstTowardLens),
        zOf(t.worstAwayFromLens),
        s.inM(t.deviation),
        t.coverageFactor,
        s.inM(t.expandedHalfWidth),
        zOf(t.expandedTowardLens),
        zOf(t.expandedAwayFromLens),
        t.dominant.place,
        t.dominant.share,
        t.widest.place,
        t.widest.share,
      ];
    }],
    ["offset_odds", 11, (...numbers) => {
      const [toward, away, count, seed] = numbers.slice(20);
      const limits = { towardLens: z(toward), awayFromLens: z(away) };
      return odds(s.offsetOdds(contributions(numbers), limits, { count, seed }));
    }],
    ["detail_odds", 20, (wavelength, m2, waist, stroke, gap, doseRatio, highest, lowest, ...rest) => {
      const detail = { finestStroke: s.m(stroke), finestGap: s.m(gap), doseRatio, highest: z(highest), lowest: z(lowest) };
      const [count, seed] = rest.slice(20);
      const d = s.detailOdds(beam(wavelength, m2, waist), detail, contributions(rest), { count, seed });
      const place = (p) => [p.probability, p.drawnShare];
      return [
        Number(d.holdsInWaist),
        orNaN(d.marginTowardLens),
        orNaN(d.marginAwayFromLens),
        ...odds(d.everywhere),
        ...place(d.atHighest),
        ...place(d.atLowest),
        ...cone(d),
      ];
    }],
    ["focus_check", 103, (...numbers) => verdict(s.focusCheck(jobOf(numbers)))],
    ["surface_check", 123, (...numbers) => {
      const part = numbers.slice(48);
      const [region, cellsPerSide] = regionOf(part.slice(34));
      const found = s.surfaceCheck(jobOf(numbers.slice(0, 48)), shapeOf(part.slice(0, 34)), region, { cellsPerSide });
      return [
        ...verdict(found.verdict),
        ...extremes(found.extremes),
        s.inM(found.worst.at.x),
        s.inM(found.worst.at.y),
        zOf(found.worst.height),
        found.shareInDepth,
        found.shareThatHolds,
        found.bands ?? 0,
        found.steepestStretch,
        found.steepestIrradianceFactor,
      ];
    }],
    ["map_heights", 14, (wavelength, m2, waist, focusZ, code, doseRatio, ...heights) => {
      const quantity = {
        1: { kind: "growth" },
        2: { kind: "diameter" },
        3: { kind: "irradiance ratio" },
        4: { kind: "line dose ratio" },
        5: { kind: "smallest stroke", doseRatio },
      };
      const map = s.mapHeights(
        beam(wavelength, m2, waist),
        z(focusZ),
        quantity[code] ?? { kind: UNKNOWN },
        Float64Array.from(heights),
      );
      const extreme = (of) => (of === undefined ? [NaN, 0] : [of.value, of.index]);
      const counts = [map.measured, map.missing];
      return [...map.values, ...counts, ...extreme(map.least), ...extreme(map.greatest), ...cone(map)];
    }],
    ["in_focus_mask", 14, (wavelength, m2, waist, focusZ, code, ratio, drop, largest, ...heights) => {
      const limit = criterion(code, ratio, drop, largest);
      const mask = s.inFocusMask(beam(wavelength, m2, waist), z(focusZ), limit, Float64Array.from(heights));
      const counts = [mask.inFocusCount, mask.tooNearLens, mask.tooFarFromLens, mask.missing];
      return [...mask.inFocus, ...counts, zOf(mask.towardLens), zOf(mask.awayFromLens), ...cone(mask)];
    }],
    ["focus_between", 9, (wavelength, m2, waist, highest, lowest) => {
      const b = s.focusBetween(beam(wavelength, m2, waist), heights(highest, lowest));
      return [zOf(b.focus), s.inM(b.halfRange), diameterOf(b.worst.spot), ...offWaist(b.worst)];
    }],
    ["focus_between_astigmatic", 8, (...numbers) => {
      const b = s.focusBetweenAstigmatic(astigmatic(...numbers.slice(0, 7)), heights(numbers[7], numbers[8]));
      const widths = [b.worst, b.highestX, b.highestY, b.lowestX, b.lowestY];
      return [zOf(b.focus), ...widths.map(diameterOf), ...cone(b)];
    }],
    ["height_bands", 16, (highest, lowest, toward, away, margin) => {
      const b = s.heightBands(heights(highest, lowest), { depth: depthEnds(toward, away), margin });
      return [b.count, s.inM(b.bandHeight), b.shareOfDepth, ...zs(b.limits, 7), ...zs(b.focus, 6)];
    }],
    ["cylinder_strip", 8, (radius, toward, away, aim) => {
      const part = { radius: s.m(radius), depth: depthEnds(toward, away), aim: aims[aim] ?? UNKNOWN };
      const c = s.cylinderStrip(part);
      const lengths = [c.halfChord, c.fullChord, c.arcLength, c.edgeSag].map(s.inM);
      return [...lengths, s.inRad(c.edgeIncidence), c.edgeIrradianceRatio, zOf(c.focus), Number(c.wholeUpperHalf)];
    }],
    ["refocus_plan", 14, (total, each, toward, away, aim) => {
      const p = s.refocusPlan({
        totalDepth: s.m(total),
        depthPerPass: s.m(each),
        depth: depthEnds(toward, away),
        aim: aims[aim] ?? UNKNOWN,
      });
      return [
        p.passes,
        s.inM(p.reachedDepth),
        p.passesPerStage,
        p.stages,
        p.lastStagePasses,
        s.inM(p.stageDepth),
        s.inM(p.usableDepth),
        Number(p.staysInFocus),
        ...zs(p.focus, 6),
      ];
    }],
    ["spot_through", 11, (wavelength, m2, waist, focus, thickness) => {
      const t = s.spotThrough(beam(wavelength, m2, waist), { focus: z(focus), thickness: s.m(thickness) });
      const widths = [t.top, t.bottom, t.widest, t.narrowest].map(diameterOf);
      const taper = [t.taperRatio, s.inRad(t.taperHalfAngle)];
      return [...widths, t.worstGrowth, ...taper, zOf(t.bestFocus), t.bestWorstGrowth, ...cone(t)];
    }],
    ["surface_at", 6, (...numbers) => {
      const p = s.surfaceAt(shapeOf(numbers.slice(0, 34)), tablePlace(...numbers.slice(34)));
      return [
        zOf(p.height),
        p.slope.awayFromLensAlongX,
        p.slope.awayFromLensAlongY,
        s.inRad(p.incidence),
        p.stretch,
        p.irradianceFactor,
      ];
    }],
    ["surface_extremes", 12, (...numbers) =>
      extremes(s.surfaceExtremes(shapeOf(numbers.slice(0, 34)), regionOf(numbers.slice(34))[0]))],
    ["caustic_crossing", 6, (...numbers) => {
      const found = s.causticCrossing(beam(...numbers.slice(0, 3)), beam(...numbers.slice(3)));
      const code = { neither: 0, first: 1, second: 2 };
      return [...crossing(found.crossing), code[found.sharperInFocus], code[found.sharperFarOff], ...cone(found)];
    }],
    ["choose_lens", 94, (...numbers) => {
      const [tolerance, leastClearance, count] = numbers.slice(SET_UP);
      // More lenses than three repeat them.
      const lenses = Array.from({ length: count > 0 ? Math.min(Math.trunc(count), 9) : 0 }, (_, i) => {
        const [focalLength, ...rest] = numbers.slice(SET_UP + 3 + (i % 3) * LENS).slice(0, LENS);
        const workingDistance = s.m(rest.pop());
        return { focalLength: s.m(focalLength), singlet: singletOf(...rest), workingDistance };
      });
      const setUp = { tolerance: s.m(tolerance), leastClearance: s.m(leastClearance) };
      const c = s.chooseLens(jobForAnyLens(numbers), lenses, setUp);
      return [
        c.serving,
        c.best,
        zOf(c.focusZ),
        s.inM(c.halfSpan),
        ...crossing(c.crossing),
        orNaN(c.flipSpan),
        ...[0, 1, 2].flatMap((i) => rankingNumbers(c.rankings[i])),
      ];
    }],
    ["region_heights", 5, (...numbers) => {
      const [region, cellsPerSide] = regionOf(numbers.slice(34));
      const h = s.regionHeights(shapeOf(numbers.slice(0, 34)), region, { cellsPerSide });
      return [zOf(h.mean), s.inM(h.deviation), zOf(h.highest), zOf(h.lowest), h.unknownShare];
    }],
    ["share_in_focus", 4, (...numbers) => {
      const [region, cellsPerSide, towardLens, awayFromLens] = regionOf(numbers.slice(34));
      const band = { towardLens: z(towardLens), awayFromLens: z(awayFromLens) };
      const f = s.shareInFocus(shapeOf(numbers.slice(0, 34)), region, band, { cellsPerSide });
      return [f.inFocus, f.towardLens, f.awayFromLens, f.unknownShare];
    }],
    ["focus_for_surface", 15, (...numbers) => {
      const [region, cellsPerSide] = regionOf(numbers.slice(41));
      const light = [beam(...numbers.slice(0, 3)), criterion(...numbers.slice(3, 7))];
      const f = s.focusForSurface(...light, shapeOf(numbers.slice(7, 41)), region, { cellsPerSide });
      const heights = [f.leastWorst, f.leastMeanArea, f.mostInFocus].flatMap((h) => [
        zOf(h.focus),
        h.worstGrowth,
        h.meanAreaGrowth,
        h.shareInFocus,
      ]);
      return [...heights, f.unknownShare, s.inRad(f.halfAngle), flags(f.validity)];
    }],
    ["scan_field_at", 15, (wavelength, m2, waist, ...rest) => {
      const [x, y, table] = rest.slice(6);
      const place = { x: s.m(x), y: s.m(y) };
      const f = s.scanFieldAt(beam(wavelength, m2, waist), scanLens(...rest), place, z(table));
      return [
        s.inM(f.radius),
        s.inRad(f.fieldAngle),
        s.inRad(f.incidence),
        zOf(f.tangentialFocus),
        zOf(f.sagittalFocus),
        s.inM(f.diameterAlongRadius),
        s.inM(f.diameterAcrossRadius),
        f.growthAlongRadius,
        f.growthAcrossRadius,
        f.irradianceRatio,
        f.lineDoseRatioAlongRadius,
        f.lineDoseRatioAcrossRadius,
        f.grazingRatio,
        ...cone(f),
      ];
    }],
    ["scan_field_extent", 6, (wavelength, m2, waist, ...rest) => {
      const [table, growth] = rest.slice(6);
      const f = s.scanFieldExtent(beam(wavelength, m2, waist), scanLens(...rest), z(table), growth);
      return [s.inM(f.radius), s.inM(f.squareSide), Number(f.wholeField), f.grazingRatio, ...cone(f)];
    }],
    ["scan_field_focus", 8, (wavelength, m2, waist, ...rest) => {
      const f = s.scanFieldFocus(beam(wavelength, m2, waist), scanLens(...rest), s.m(rest[6]));
      return [
        zOf(f.best),
        s.inM(f.greatestDefocus),
        f.centreGrowth,
        f.edgeGrowthAlongRadius,
        f.edgeGrowthAcrossRadius,
        f.grazingRatio,
        ...cone(f),
      ];
    }],
    ["student_factor", 1, (confidence, degrees) => [s.studentFactor(confidence, degrees)]],
    ["chi_squared_chance", 1, (chiSquared, degrees) => [s.chiSquaredChance(chiSquared, degrees)]],
    ["diagnose_mark", 16, (wavelength, m2, waist, ...rest) => {
      const now = widthReading(rest[10], rest[11]);
      const d = s.diagnoseMark(beam(wavelength, m2, waist), goodMark(rest), depthReading(rest.slice(5)), now, rest[12]);
      return [
        ...finding(d),
        d.growth,
        d.growthDeviation,
        s.inM(d.distance),
        s.inM(d.leastDistance),
        s.inM(d.greatestDistance),
        d.power.ratio,
        d.powerRatioDeviation,
        d.power.least,
        d.power.greatest,
        d.correlation,
        d.doseRatio,
        ...cone(d),
      ];
    }],
    ["diagnose_width", 16, (wavelength, m2, waist, ...rest) => {
      const d = s.diagnoseWidth(beam(wavelength, m2, waist), goodMark(rest), widthReading(rest[5], rest[6]), rest[7]);
      return [...finding(d), ...possibleHeight(d.near), ...possibleHeight(d.far), ...possiblePower(d.power), ...cone(d)];
    }],
    ["settle_by_patch", 16, (wavelength, m2, waist, ...rest) => {
      const depths = depthReading(rest.slice(5));
      const now = widthReading(rest[11], rest[12]);
      const d = s.settleByPatch(beam(wavelength, m2, waist), goodMark(rest), depths, rest[10], now, rest[13]);
      return [...finding(d), ...possiblePower(d.power), ...possibleHeight(d.near), ...possibleHeight(d.far), ...cone(d)];
    }],
    ["settle_by_power", 15, (wavelength, m2, waist, kind, doseRatio, doseRatioDeviation, powerStep, ...rest) => {
      const first = widthReading(rest[0], rest[1]);
      const stepped = widthReading(rest[2], rest[3]);
      const step = { ...mark(kind, doseRatio), doseRatioDeviation, powerStep, first, stepped };
      const d = s.settleByPower(beam(wavelength, m2, waist), step, rest[4]);
      return [
        ...finding(d),
        s.inM(d.spotDiameter1e2),
        s.inM(d.spotDiameterDeviation),
        d.growth,
        s.inM(d.distance),
        s.inM(d.leastDistance),
        s.inM(d.greatestDistance),
        d.doseRatio,
        ...possiblePower(d.power),
        ...cone(d),
      ];
    }],
    ["settle_by_heights", 7, (wavelength, m2, waist, kind, law, heightStep, ...rest) => {
      const [towardLens, middle, awayFromLens, deviation, coverage] = rest;
      const readings = {
        kind: markKinds[kind] ?? UNKNOWN,
        law: depthLaws[law] ?? UNKNOWN,
        heightStep: s.m(heightStep),
        towardLens,
        middle,
        awayFromLens,
        deviation,
      };
      const h = s.settleByHeights(beam(wavelength, m2, waist), readings, coverage);
      const offset = (found) => (found === undefined ? NaN : zOf(found));
      return [
        heightVerdicts.indexOf(h.verdict) + 1,
        offset(h.surface),
        h.deviation === undefined ? NaN : s.inM(h.deviation),
        offset(h.towardLens),
        offset(h.awayFromLens),
        ...cone(h),
      ];
    }],
    ["calibrated_set_up", 8, (wavelength, m2, m2Deviation, waist, focalLength, shift, deviation, factor) => {
      const c = s.calibratedSetUp({
        wavelength: s.m(wavelength),
        m2,
        m2Deviation,
        waist: width(waist),
        focalLength: s.m(focalLength),
        focusShift: z(shift),
        focus: s.inFocus,
        focusDeviation: s.m(deviation),
        waistDiameterDeviation: s.m(0),
        coverageFactor95: factor,
      });
      const { waist: raw, waistAt } = c.rawBeam;
      return [
        c.m2,
        diameterOf(raw),
        0 - s.inM(waistAt.zDownstream),
        diameterOf(c.widthAtLens),
        s.inM(c.rayleighRange),
        s.inM(c.focusDeviation),
        ...cone(c),
      ];
    }],
    ["learned_threshold", 2, (power, speed, waist, waistDeviation, doseRatio, deviation, correlation, factor) => {
      const t = s.learnedThreshold({
        waist: width(waist),
        waistDiameterDeviation: s.m(waistDeviation),
        coverageFactor95: factor,
        line: {
          power: s.watt(power),
          speed: s.mPerS(speed),
          doseRatio,
          relativeDeviation: deviation,
          correlation,
        },
      });
      return [s.inJPerM2(t.threshold), t.relativeDeviation];
    }],
    ["focus_from_vanishing", 11, (...numbers) => {
      const pieces = piecesOf(numbers, (seen) => ({ seen: seen !== 0 }));
      const kind = markKinds[numbers[25]] ?? UNKNOWN;
      const f = s.focusFromVanishing(pieces, kind, judgement(numbers.slice(26)));
      return [...eyeFocus(f.focus), ...runEnd(f.towardLens), ...runEnd(f.awayFromLens), s.inM(f.halfRun), f.doseRatio, f.warningBits];
    }],
    ["focus_from_ranks", 10, (...numbers) => {
      const pieces = piecesOf(numbers, (rank) => ({ rank: pieceRanks[rank] ?? UNKNOWN }));
      const f = s.focusFromRanks(pieces, judgement(numbers.slice(25)));
      const ends = [...runEnd(f.usableTowardLens), ...runEnd(f.usableAwayFromLens)];
      return [...eyeFocus(f.focus), ...ends, f.sharpHalfRun === null ? NaN : s.inM(f.sharpHalfRun), f.warningBits];
    }],
    ["plan_series", 136, (...numbers) => {
      const p = s.planSeries(beam(...numbers.slice(0, 3)), seriesRequest(numbers.slice(3)));
      // A row has no room for more.
      if (p.pieces.length > 15) throw new s.SpotwiseError("too little room", { code: 6, parameter: 263 });
      const counts = [p.stepsTowardLens, p.stepsAwayFromLens, p.pieces.length, p.engraved];
      const drawing = [p.columns, p.rows, s.inM(p.width), s.inM(p.height)];
      const plan = [s.inM(p.preTravel), s.inM(p.rayleighRange), orNaN(p.vanishingOffset), ...drawing, ...cone(p)];
      const pieces = p.pieces.flatMap((piece) => {
        const role = pieceRoles.indexOf(piece.role) + 1;
        const skipped = skipReasons.indexOf(piece.skipped) + 1;
        const places = [piece.corner, piece.labelCorner];
        const at = places.flatMap((place) => (place === null ? [NaN, NaN] : [s.inM(place.x), s.inM(place.y)]));
        return [zOf(piece.height), piece.approach === null ? NaN : zOf(piece.approach), role, skipped, ...at];
      });
      const none = Array.from({ length: 15 - p.pieces.length }, () => [NaN, NaN, 0, 0, NaN, NaN, NaN, NaN]).flat();
      return [s.inM(p.step), p.stepsPerSide, s.inM(p.halfRange), ...counts, ...plan, ...pieces, ...none];
    }],
    ["series_drift", 5, (first, firstDeviation, last, lastDeviation, coverage) => {
      const measured = (size, deviation) => ({ width: s.m(size), deviation: s.m(deviation) });
      const d = s.seriesDrift(measured(first, firstDeviation), measured(last, lastDeviation), coverage);
      return [s.inM(d.change), s.inM(d.changeDeviation), d.significance, d.chance, Number(d.drifted)];
    }],
    ["fit_mark_widths", 58, (count, ...numbers) => {
      const marks = Array.from({ length: Math.min(count, 9) }, (_, i) => ({
        height: s.signedOffset(s.m(numbers[i])),
        width: numbers[9 + i] === 0 ? null : s.m(numbers[9 + i]),
        deviation: s.m(numbers[18 + i]),
        powerRatio: numbers[27 + i],
      }));
      const [kind, wavelength, m2, m2Deviation, diameter, deviation, outlierLimit, confidence, scatter] = numbers.slice(36);
      const f = s.fitMarkWidths(marks, {
        kind: markKinds[kind] ?? UNKNOWN,
        wavelength: s.m(wavelength),
        mSquared: m2Deviation === Infinity ? undefined : { value: m2, relativeDeviation: m2Deviation },
        waist: deviation === Infinity ? undefined : { value: width(diameter), relativeDeviation: deviation },
        outlierLimit,
        confidence,
        scatter: ["stated", "found"][scatter - 1] ?? UNKNOWN,
      });
      const padded = (list) => Array.from({ length: 9 }, (_, i) => Number(list[i] ?? 0));
      return [
        ...estimate(f.waistHeight, zOf),
        ...estimate(f.waist, diameterOf),
        ...estimate(f.rayleighRange, s.inM),
        ...estimate(f.doseRatio, Number),
        ...estimate(f.mSquared, Number),
        ...f.correlations,
        f.rangeFactor,
        f.chiSquared,
        f.degreesOfFreedom,
        f.chance,
        f.shapeSignificance,
        f.marksUsed,
        f.vanishedUsed,
        f.cautionBits,
        f.furtherBits,
        ...padded(f.residuals),
        ...padded(f.used),
      ];
    }],
    ["fit_beam", 52, (count, ...numbers) => {
      const readings = Array.from({ length: count }, (_, i) => ({
        height: z(numbers[i]),
        width: width(numbers[8 + i]),
        deviation: s.m(numbers[16 + i]),
      }));
      const [wavelength, weights, outlierLimit, confidence, markDoseRatio] = numbers.slice(24);
      const f = s.fitBeam(readings, {
        wavelength: s.m(wavelength),
        weights: [UNKNOWN, "measured", "refined"][weights] ?? UNKNOWN,
        outlierLimit,
        confidence,
        markDoseRatio,
      });
      const eight = (list) => [...list, ...new Array(8 - count).fill(0)];
      return [
        ...estimate(f.waistZ, zOf),
        ...estimate(f.waist, diameterOf),
        ...estimate(f.rayleighRange, s.inM),
        ...estimate(f.divergence, (angle) => s.inRad(s.asFullAngle(angle))),
        ...estimate(f.m2, Number),
        f.zDiameterCorrelation,
        f.zRangeCorrelation,
        f.diameterRangeCorrelation,
        f.chiSquared,
        f.degreesOfFreedom,
        f.chiSquaredChance,
        f.higherTermsChance,
        f.readingsUsed,
        f.readingsNear,
        f.readingsFar,
        f.warningBits,
        ...eight(f.residuals.map((residual) => s.inM(residual))),
        ...eight(f.used.map(Number)),
      ];
    }],
    ["fit_threshold", 30, (...numbers) => {
      const marks = [0, 1, 2, 3, 4, 5].map((i) => ({
        dose: s.jPerM2(numbers[i]),
        width: s.m(numbers[6 + i]),
        deviation: s.m(numbers[12 + i]),
      }));
      const [weights, outlierLimit, confidence] = numbers.slice(18);
      const f = s.fitThreshold(marks, {
        weights: [UNKNOWN, "measured", "refined"][weights] ?? UNKNOWN,
        outlierLimit,
        confidence,
      });
      const estimate = ({ value, deviation, least, greatest, bias }, of, distance) => [
        of(value),
        distance(deviation),
        of(least),
        of(greatest),
        distance(bias),
      ];
      return [
        ...estimate(f.spot, diameterOf, s.inM),
        ...estimate(f.threshold, s.inJPerM2, s.inJPerM2),
        f.correlation,
        f.significance,
        f.chiSquared,
        f.degreesOfFreedom,
        f.chiSquaredChance,
        f.curvatureChance,
        f.marksUsed,
        f.warningBits,
        ...f.residuals.map((residual) => s.inM(residual)),
        ...f.used.map(Number),
      ];
    }],
    ["calibration_from_marks", 15, (...numbers) => {
      const [waistZ, zDeviation, waist, waistDeviation, m2, m2Deviation, ratio, ratioDeviation] = numbers;
      const [correlation, rangeFactor, degreesOfFreedom, wavelength, focalLength, power, speed] = numbers.slice(8);
      const c = s.calibrationFromMarks(
        {
          waistHeight: { value: z(waistZ), deviation: s.m(zDeviation) },
          waist: { value: width(waist), deviation: s.m(waistDeviation) },
          mSquared: { value: m2, deviation: m2Deviation },
          doseRatio: { value: ratio, deviation: ratioDeviation },
          correlations: [NaN, NaN, NaN, NaN, correlation, NaN],
          rangeFactor,
          degreesOfFreedom,
        },
        { wavelength: s.m(wavelength), focalLength: s.m(focalLength), power: s.watt(power), speed: s.mPerS(speed) },
      );
      return [
        zOf(c.focus),
        s.inM(c.wavelength),
        c.m2,
        c.m2Deviation,
        diameterOf(c.waist),
        s.inM(c.focalLength),
        zOf(c.focusShift),
        s.inM(c.focusDeviation),
        c.coverageFactor95,
        s.inWatt(c.line.power),
        s.inMPerS(c.line.speed),
        s.inM(c.waistDiameterDeviation),
        c.line.doseRatio,
        c.line.relativeDeviation,
        c.line.correlation,
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
