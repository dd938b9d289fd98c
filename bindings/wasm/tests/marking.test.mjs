// What the spot leaves behind, as functions.test.mjs does it for optics: the right number in the right
// field. Numbers without a line of arithmetic beside them were computed elsewhere, with 30 digits, from the
// formulas or by brute force: sums over 121 lines, roots by halving, the widest stroke by trying them all.

import assert from "node:assert/strict";
import { test } from "node:test";
import * as s from "spotwise";

const { um, mm, nm, pt, diameter1e2, towardLens, awayFromLens, inFocus, watt, mmPerS, mPerS, jPerMm2, khz } = s;

const spot88 = { wavelength: um(10.6), m2: 1.2, waist: diameter1e2(um(88)) };
const round = (diameter) => ({ spotAcross: diameter1e2(diameter), spotAlong: diameter1e2(diameter) });
const scan = { power: watt(20), speed: mPerS(0.5), ...round(um(100)), lineInterval: um(50) };
/** A typeface of our own, so that no measured font's number stands here. */
const measured = { stem: 0.087, effectiveStroke: 0.0428, effectiveCounter: 0.1415, effectiveGap: 0.0967 };

/** Whether a number rounds to what is printed with this many decimals. */
function prints(value, printed) {
  const decimals = printed.split(".")[1]?.length ?? 0;
  assert.equal(value.toFixed(decimals), printed);
}
const diameterOf = (width) => s.inUm(s.asDiameter1e2(width));
/** Half angle and flags of a result are those of the beam. */
function hasCone(result) {
  const { halfAngle, validity } = s.beamAt(spot88, inFocus);
  assert.deepEqual([result.halfAngle, result.validity], [halfAngle, validity]);
}

test("the dose of a scan", () => {
  const dose = s.scanDose(scan);
  prints(s.inJPerMm2(dose.fillDose), "0.800000"); // 20/(0.5·50e-6)
  prints(s.inJPerMm2(dose.lineDose), "0.638308"); // √(2/π) of that, the radius being the interval
  prints(s.inWattPerMm2(dose.peakIrradiance), "5092.958"); // 8·20/(π·0.1²)
  prints(s.inUs(dose.dwell), "125.3314"); // √(π/2)·50e-6/0.5
  // Across and along are told apart: a spot twice as long halves the irradiance, not the line dose.
  const long = s.scanDose({ ...scan, spotAlong: diameter1e2(um(200)) });
  assert.deepEqual([long.lineDose, long.fillDose], [dose.lineDose, dose.fillDose]);
  assert.deepEqual([long.peakIrradiance * 2, long.dwell], [dose.peakIrradiance, dose.dwell * 2]);
  assert.equal(s.doseOverThreshold({ dose: jPerMm2(0.8), threshold: jPerMm2(0.32) }), 2.5);
});

test("pulses", () => {
  const train = { power: watt(20), speed: mPerS(1), ...round(um(50)), lineInterval: um(20) };
  const pulses = s.pulseDose(train, khz(50));
  assert.equal(s.inMillijoule(pulses.pulseEnergy), 0.4);
  prints(s.inJPerCm2(pulses.peakFluence), "40.7437"); // 8·0.4e-3/(π·0.005²)
  prints(s.inUm(pulses.pulsePitch), "20.000");
  prints(pulses.overlap, "0.600000");
  prints(pulses.pulsesPerDiameter, "2.500000");
  prints(pulses.effectivePulses, "1.566643"); // √(π/2)·25/20
  prints(pulses.effectivePulses * pulses.peakFluence, s.scanDose(train).lineDose.toFixed(6));
  assert.ok(s.pulseDose(train, khz(10)).overlap < 0);
});

test("line interval and dots per inch", () => {
  prints(s.inUm(s.lineInterval(500)), "50.800");
  prints(s.dotsPerInch(um(50.8)), "500.000");
});

test("how materials answer", () => {
  const exposure = { dose: jPerMm2(2), spot: diameter1e2(um(100)), dwell: s.us(50) };
  const of = (response, more = {}) => s.materialMark({ threshold: jPerMm2(0.5), response, ...more }, exposure);
  const log = of({ kind: "logarithmic ablation", penetrationDepth: nm(2) });
  assert.deepEqual([log.doseRatio, log.marks], [4, true]);
  prints(s.inNm(log.depth), "2.7726"); // 2·ln 4
  prints(s.inUm(of({ kind: "linear ablation", removalEnergy: s.jPerMm3(30) }).depth), "50.0000"); // 1.5/30 mm
  const coating = of({ kind: "coating" });
  assert.equal(coating.depth, undefined);
  assert.equal(diameterOf(coating.seenSpot), 100);
  const melt = of({ kind: "melt", diffusivity: s.mm2PerS(0.109) });
  prints(diameterOf(melt.seenSpot), "100.8682"); // √(100² + 32·0.109·50)
  // 100 exposures at S = ½ need a tenth of the dose.
  const many = s.materialMark(
    { threshold: jPerMm2(0.5), incubation: 0.5, response: { kind: "coating" } },
    { ...exposure, dose: jPerMm2(0.04), exposures: 100 },
  );
  prints(s.inJPerMm2(many.threshold), "0.0500000000");
  assert.equal(many.marks, false);
  // What is left out is no incubation, and one exposure.
  assert.deepEqual(of({ kind: "coating" }, { incubation: 1 }), coating);
});

/** Dots of a spot of 60 µm with a threshold of 20 µJ: b = 60 µm·√(ln(E/20)/2). */
const dots = [30, 45, 60, 90, 120, 180, 240, 300].map((energy) => ({
  dose: s.microjoule(energy),
  width: um(60 * Math.sqrt(Math.log(energy / 20) / 2)),
  deviation: um(1),
}));

test("spot and threshold from test marks", () => {
  const fit = s.fitThreshold(dots, { weights: "measured" });
  prints(diameterOf(fit.spot.value), "60.00000000");
  prints(s.inMicrojoule(fit.threshold.value), "20.00000000");
  assert.deepEqual([fit.marksUsed, fit.used, fit.degreesOfFreedom], [8, new Array(8).fill(true), 6]);
  assert.ok(fit.chiSquared < 1e-20 && fit.significance > 10 && Math.abs(fit.correlation) < 1);
  prints((s.inUm(s.asDiameter1e2(fit.spot.greatest)) - 60) / s.inUm(fit.spot.deviation), "1.959964"); // 95 %
  prints(Math.log(fit.threshold.value / fit.threshold.least), ((1.959964 * fit.threshold.deviation) / fit.threshold.value).toFixed(8));
  assert.equal(fit.warningBits, s.thresholdWarningBit.littleScatter);
  assert.deepEqual(fit.warnings, ["the marks scatter less than their deviations say"]);
  assert.ok(fit.residuals.every((residual) => Math.abs(s.inUm(residual)) < 1e-9));

  // A mark that is plainly wrong spoils the fit, unless it is left out.
  const spoilt = dots.map((dot, i) => (i === 5 ? { ...dot, width: um(75) } : dot));
  const kept = s.fitThreshold(spoilt);
  assert.equal(kept.marksUsed, 8);
  assert.ok(kept.chiSquared > 60 && kept.chiSquaredChance < 1e-9);
  assert.ok((kept.warningBits & s.thresholdWarningBit.scatter) !== 0);
  const cleared = s.fitThreshold(spoilt, { outlierLimit: 3, weights: "measured" });
  prints(diameterOf(cleared.spot.value), "60.00000000");
  prints(s.inUm(cleared.residuals[5]), (75 - s.inUm(dots[5].width)).toFixed(6));
  assert.ok((cleared.warningBits & s.thresholdWarningBit.outliers) !== 0);
  assert.deepEqual([cleared.marksUsed, cleared.used], [7, dots.map((_, i) => i !== 5)]);
  // In any one unit, and of any number of marks.
  const watts = dots.slice(0, 4).map((dot) => ({ ...dot, dose: watt(dot.dose * 1e6) }));
  const byPower = s.fitThreshold(watts, { weights: "measured" });
  prints(s.inWatt(byPower.threshold.value), "20.00000000");
});

test("a mark by itself", () => {
  const line = { kind: "line", doseRatio: 2.7 };
  const sharp = s.markWidth(spot88, line, inFocus);
  prints(s.inUm(sharp.width), "62.015086"); // 88·√(ln(2.7)/2)
  assert.deepEqual([sharp.marks, sharp.doseRatio, diameterOf(sharp.spot)], [true, 2.7, 88]);
  const soft = s.markWidth(spot88, line, awayFromLens(mm(0.5)));
  prints(s.inUm(soft.width), "71.111132");
  prints(soft.doseRatio, "1.866084"); // 2.7/1.4469
  assert.deepEqual(s.markWidth(spot88, line, towardLens(mm(0.5))), soft);
  hasCone(soft);
  const pulse = s.markWidth(spot88, { ...line, kind: "pulse" }, awayFromLens(mm(0.5)));
  prints(s.inUm(pulse.width), "45.413664");
  const none = s.markWidth(spot88, { kind: "line", doseRatio: 2 }, awayFromLens(mm(0.84)));
  assert.deepEqual([none.marks, none.width], [false, 0]);

  const limits = s.markLimits(spot88, { kind: "line", doseRatio: 4 });
  prints(s.inUm(limits.widthInWaist), "73.265");
  prints(s.inUm(limits.greatestWidth), "106.749"); // 44·4/√e
  prints(s.inMm(limits.widestDistance), "1.056934"); // 0.478154·√(16/e − 1)
  prints(s.inMm(limits.vanishingDistance), "1.851884"); // 0.478154·√15
  assert.equal(limits.marks, true);
  prints(limits.focusInsensitiveDoseRatio, "1.648721"); // √e
  prints(s.markLimits(spot88, { kind: "pulse", doseRatio: 4 }).focusInsensitiveDoseRatio, "2.718282");
  hasCone(limits);
  // There the width hardly reacts to focus: a tenth of a Rayleigh range changes it in the fourth order.
  const steady = { kind: "line", doseRatio: limits.focusInsensitiveDoseRatio };
  const [at, off] = [inFocus, awayFromLens(mm(0.0478))].map((z) => s.markWidth(spot88, steady, z).width);
  assert.ok(Math.abs(off / at - 1) < 1e-4);
});

test("a dose too little to mark is no error", () => {
  const nothing = { marks: false, widthInWaist: 0, widestDistance: 0, greatestWidth: 0, vanishingDistance: 0 };
  for (const doseRatio of [1e-6, 0.5, 1]) {
    for (const kind of ["line", "pulse"]) {
      const { focusInsensitiveDoseRatio, halfAngle, validity, ...limits } = s.markLimits(spot88, { kind, doseRatio });
      assert.deepEqual(limits, nothing);
      prints(focusInsensitiveDoseRatio, kind === "line" ? "1.648721" : "2.718282"); // √e, e
      hasCone({ halfAngle, validity });
      const { marks, width, doseRatio: there } = s.markWidth(spot88, { kind, doseRatio }, inFocus);
      assert.deepEqual([marks, width, there], [false, 0, doseRatio]);
    }
    const stroke = { drawnWidth: um(100), doseRatio };
    const { halfAngle, validity, ...limits } = s.fillLimits(spot88, stroke);
    assert.deepEqual(limits, nothing);
    hasCone({ halfAngle, validity });
    const { marks, width, growth } = s.fillWidth(spot88, stroke, inFocus);
    assert.deepEqual([marks, width, growth], [false, 0, -um(100)]);
  }
  // Just above the threshold there is a mark, of 88 µm·√(ln(1.02)/2).
  const faint = s.markLimits(spot88, { kind: "line", doseRatio: 1.02 });
  assert.equal(faint.marks, true);
  prints(s.inUm(faint.greatestWidth), (88 * Math.sqrt(Math.log(1.02) / 2)).toFixed(9));
});

test("a filled stroke", () => {
  const stroke = { drawnWidth: um(100), doseRatio: 2.7 };
  const soft = s.fillWidth(spot88, stroke, awayFromLens(mm(0.5)));
  prints(s.inUm(soft.width), "121.020676");
  prints(s.inUm(soft.growth), "21.020676");
  prints(soft.exposure, "0.883766");
  prints(diameterOf(soft.spot), "127.325");
  assert.equal(soft.marks, true);
  hasCone(soft);
  const limits = s.fillLimits(spot88, stroke);
  prints(s.inUm(limits.widthInWaist), "114.558330");
  prints(s.inUm(limits.greatestWidth), "131.379315");
  prints(s.inMm(limits.widestDistance), "1.150875");
  prints(s.inMm(limits.vanishingDistance), "2.202120");
  assert.equal(limits.marks, true);
  hasCone(limits);
  const lost = s.fillWidth(spot88, stroke, awayFromLens(mm(2.3)));
  assert.deepEqual([lost.marks, lost.width, lost.growth], [false, 0, -um(100)]);
  assert.equal(s.fillLimits(spot88, { drawnWidth: um(10), doseRatio: 2.7 }).marks, false);
});

test("the ripple of a raster", () => {
  const fill = { spot: diameter1e2(um(88)), lineInterval: um(60) };
  const ripple = s.rasterRipple(fill);
  prints(ripple.greatestOverMean, "1.140811776");
  prints(ripple.leastOverMean, "0.859286374");
  prints(ripple.contrast, "0.140755793");
  prints(ripple.gapFreeDoseRatio, "1.163756380"); // 1/0.859286374
  prints(ripple.gapFreeDoseRatioWithoutMemory, "2.328882"); // exp(r²/2)/(√(2/π)·r)
  prints(ripple.intervalOverRadius, "1.363636");
  prints(s.inUm(s.intervalForRipple({ spot: fill.spot, rippleContrast: ripple.contrast })), "60.000000");
  // An interval of one radius, and of one diameter.
  prints(s.rasterRipple({ ...fill, lineInterval: um(44) }).contrast, "0.014384");
  prints(s.rasterRipple({ ...fill, lineInterval: um(88) }).contrast, "0.574197");
});

test("exposure of details, squares, bars of a contrast", () => {
  const spot = diameter1e2(um(100));
  const e = s.detailExposure({ spot, size: um(100) });
  prints(e.bar, "0.9544997"); // erf(√2)
  prints(e.gap, "0.0455003");
  prints(e.square, "0.9110697"); // its square
  prints(e.dot, "0.8646647"); // 1 − e⁻²
  prints(e.hole, "0.1353353");
  prints(s.inUm(s.smallestDetails({ spot: diameter1e2(um(88)), doseRatio: 2.7 }).square), "37.710031");
  prints(s.inUm(s.pitchForContrast({ spot, contrast: 0.5 }).bars), "114.897326");
});

test("the blur budget", () => {
  const scan = { ...round(um(88)), speed: mmPerS(20) };
  const budget = s.blurBudget({
    ...scan,
    diffusivity: s.mm2PerS(0.109),
    pixel: um(30),
    jitterDeviation: um(2),
    riseTime: s.ms(1),
    switchDelay: s.ms(2),
  });
  prints(s.inMs(budget.dwell), "2.757291");
  prints(s.inUm(budget.diffusionLength), "34.672452");
  prints(diameterOf(budget.spotAcross), "136.475021");
  prints(diameterOf(budget.spotAlong), "141.248321");
  prints(s.inUm(budget.edgeAcross), "87.449888");
  prints(s.inUm(budget.edgeAlong), "90.508503");
  prints(s.inUm(budget.riseSmear), "20.000000");
  prints(s.inUm(budget.delayShift), "40.000000");
  prints(s.inUm(budget.twoWayComb), "80.000000");
  // What is left out blurs nothing.
  const bare = s.blurBudget(scan);
  assert.deepEqual([diameterOf(bare.spotAcross), diameterOf(bare.spotAlong), bare.diffusionLength], [88, 88, 0]);
});

test("crisp or smooth", () => {
  const interval = um(60);
  const sharp = s.fillQuality(spot88, interval, inFocus);
  prints(s.inUm(sharp.edgeWidth), "56.388269"); // 0.640776·88
  prints(sharp.rippleContrast, "0.140755793");
  const soft = s.fillQuality(spot88, interval, towardLens(mm(0.5)));
  prints(soft.rippleContrast, "0.007730828");
  assert.equal(soft.distanceFromWaist, mm(0.5));
  prints(diameterOf(soft.spot), "127.325");
  hasCone(soft);

  assert.deepEqual(s.offsetForTaste(spot88, interval, { by: "crispest" }), sharp);
  const smooth = s.offsetForTaste(spot88, interval, { by: "smoothest within", largestEdge: um(70) });
  prints(s.inMm(smooth.distanceFromWaist), "0.3517"); // 0.478·√((70/0.640776/88)² − 1)
  prints(s.inUm(smooth.edgeWidth), "70.000000");
  // A compromise costs less than its neighbours.
  const by = (crispnessWeight) => s.offsetForTaste(spot88, interval, { by: "compromise", crispnessWeight });
  const even = by(0.2);
  const cost = (q) => 0.2 * (q.edgeWidth / sharp.edgeWidth - 1) + 0.8 * q.rippleContrast;
  for (const aside of [-0.02, 0.02]) {
    const near = s.fillQuality(spot88, interval, awayFromLens(mm(s.inMm(even.distanceFromWaist) + aside)));
    assert.ok(cost(even) < cost(near), `${aside}`);
  }
  assert.deepEqual(by(1), sharp);
});

test("dots, craters and grooves", () => {
  const spot = diameter1e2(um(50));
  const line = s.pulsedLine({ spot, doseRatio: Math.E ** 2, pulsePitch: um(30) });
  prints(s.inUm(line.dot.diameter), "50.000000"); // 50·√(2/2)
  prints(s.inUm(line.scallop), "5.000000"); // 25 − √(25² − 15²)
  assert.deepEqual([line.marks, line.connected, line.thresholdRatio], [true, true, 1]);
  const apart = s.pulsedLine({ spot, doseRatio: 2, pulsePitch: um(60), incubation: 0.5, pulses: 100 });
  prints(apart.thresholdRatio, "0.100000");
  prints(apart.doseRatio, "20.000000");
  assert.equal(apart.connected, true); // a dot of 50·√(ln(20)/2) = 61.2 µm
  const gaps = s.pulsedLine({ spot, doseRatio: 2, pulsePitch: um(60) });
  assert.equal(gaps.connected, false);
  prints(s.inUm(gaps.scallop), s.inUm(gaps.dot.diameter / 2).toFixed(6));
  // Half the threshold of one pulse marks nothing by itself; a hundred lower it to a tenth.
  const weak = { spot, doseRatio: 0.5, pulsePitch: um(20), incubation: 0.5 };
  const once = s.pulsedLine(weak);
  assert.deepEqual([once.marks, once.connected, once.dot.diameter, once.scallop], [false, false, 0, 0]);
  const often = s.pulsedLine({ ...weak, pulses: 100 });
  assert.deepEqual([often.marks, often.connected], [true, true]);
  prints(often.doseRatio, "5.000000");
  prints(s.inUm(often.dot.diameter), "44.853064"); // 50·√(ln(5)/2)

  const pulse = { spot, doseRatio: Math.E, penetrationDepth: nm(20) };
  const dug = s.crater({ ...pulse, radius: um(10) });
  prints(s.inNm(dug.depth), "20.000000");
  prints(s.inNm(dug.depthAtRadius), "13.600000"); // 20·(1 − 2·(10/25)²)
  prints(s.inUm(dug.diameter), "35.355339"); // 50/√2
  prints(s.inUm3(dug.volume), "9.817477"); // π·25²·0.02/4
  const row = s.groove({ ...pulse, pulsePitch: um(5), aside: um(10) });
  prints(s.inNm(row.depth), "94.280904"); // 8·20·(25²/2)^1.5/(3·5·25²)
  prints(s.inNm(row.depthAside), "52.867297"); // that times (1 − 10²/(25²/2))^1.5
  prints(s.inUm2(row.area), "1.963495"); // the volume over the pitch
  assert.equal(row.width, dug.diameter);

  const fastest = s.connectedSpeed({ spot, doseRatio: Math.E ** 2, repetitionRate: khz(50), scallop: um(5) });
  prints(s.inUm(fastest.pulsePitch), "30.000000"); // 2·√(5·45)
  prints(s.inMPerS(fastest.speed), "1.500000");
  prints(fastest.pulses, "1.044428"); // √(π/8)·50/30
});

test("with incubation a connected line may be faster", () => {
  // At a pitch of 20 µm and 50 kHz, worked backwards: the pulses on one place, the dot, the scallop.
  const pulses = (Math.sqrt(Math.PI / 8) * 50) / 20;
  const radius = (50 * Math.sqrt((2 + 0.5 * Math.log(pulses)) / 2)) / 2;
  const scallop = um(radius - Math.sqrt(radius ** 2 - 10 ** 2));
  const line = { spot: diameter1e2(um(50)), doseRatio: Math.E ** 2, repetitionRate: khz(50), scallop };
  const fastest = s.connectedSpeed({ ...line, incubation: 0.5 });
  prints(s.inUm(fastest.pulsePitch), "20.000000");
  prints(fastest.pulses, pulses.toFixed(6));
  prints(s.inMPerS(fastest.speed), "1.000000");
  const without = s.connectedSpeed(line);
  assert.deepEqual(s.connectedSpeed({ ...line, incubation: 1 }), without);
  assert.ok(without.speed < fastest.speed);
  prints(s.inUm(without.pulsePitch), (2 * Math.sqrt(s.inUm(scallop) * (50 - s.inUm(scallop)))).toFixed(9));
  // Where dots just touch, no two pulses fall on one place: incubation then changes nothing.
  const touching = { ...line, scallop: um(25) };
  for (const incubation of [0.5, 1]) {
    const { pulsePitch, pulses } = s.connectedSpeed({ ...touching, incubation });
    prints(s.inUm(pulsePitch), "50.000000");
    assert.equal(pulses, 1);
  }
});

test("power and speed that make up for a defocus", () => {
  const setting = {
    kind: "line",
    doseRatio: 2.7,
    power: watt(20),
    speed: mPerS(0.5),
    greatestPower: watt(25),
    leastSpeed: mPerS(0.1),
    greatestSpeed: mPerS(2),
  };
  const off = towardLens(mm(0.5));
  const same = s.compensate(spot88, off, "same dose", setting);
  prints(same.wantedFactor, "1.446880");
  prints(same.reachedFactor, "1.446880");
  assert.equal(same.power, 25);
  prints(s.inMmPerS(same.speed), "431.9639"); // 500·25/20/1.44688
  prints(same.doseRatio, "2.700000");
  prints(s.inUm(same.markWidth), "89.728398"); // 62.015086·1.44688
  prints(same.irradianceRatio, "0.597097"); // 1.25/1.44688²
  assert.equal(same.limitBits, s.limitBit.greatestPower);
  assert.deepEqual(same.limits, ["The greatest power is less than is wanted."]);
  hasCone(same);

  const width = s.compensate(spot88, off, "same width", setting);
  prints(width.wantedFactor, "0.861235");
  prints(s.inUm(width.markWidth), "62.015086");
  assert.deepEqual([width.limits, width.limitBits], [[], 0]);
  const steady = s.compensate(spot88, off, "focus-insensitive width", setting);
  prints(steady.wantedFactor, "0.883519");
  prints(s.inUm(steady.markWidth), "63.662727"); // the spot's radius there

  // Every limit, each with its sentence.
  const cases = {
    greatestPower: setting,
    leastSpeed: { ...setting, leastSpeed: setting.speed },
    leastIrradiance: { ...setting, leastIrradianceRatio: 1 },
    greatestSpeed: { ...setting, greatestPower: watt(100), greatestSpeed: mPerS(0.6), leastIrradianceRatio: 1 },
  };
  assert.deepEqual(Object.keys(cases), Object.keys(s.limitBit));
  const words = [/greatest power/, /least speed .* dose stays short/, /irradiance stays below/, /greatest speed/];
  for (const [i, [name, given]] of Object.entries(cases).entries()) {
    const c = s.compensate(spot88, off, "same dose", given);
    assert.ok(c.limitBits & s.limitBit[name], name);
    assert.ok(c.limits.some((text) => words[i].test(text)), name);
    const set = Object.values(s.limitBit).filter((bit) => c.limitBits & bit);
    assert.equal(c.limits.length, set.length);
  }
  // All the irradiance of before needs 1.44688² of the power, and the speed in step.
  const bright = { ...setting, greatestPower: watt(100), leastIrradianceRatio: 1 };
  const whole = s.compensate(spot88, off, "same dose", bright);
  prints(s.inWatt(whole.power), "41.869244"); // 20·1.44688²
  prints(s.inMmPerS(whole.speed), "723.4401"); // 500·1.44688
  assert.equal(whole.limitBits, 0);
  // A greatest speed 1.2 times as high lets the power rise by that much over the dose.
  const slow = s.compensate(spot88, off, "same dose", cases.greatestSpeed);
  prints(s.inWatt(slow.power), "34.725124"); // 20·1.2·1.44688
  assert.equal(slow.speed, mPerS(0.6));
  prints(slow.reachedFactor, "1.446880");
  prints(slow.irradianceRatio, "0.829371"); // 1.2/1.44688
  assert.equal(slow.limitBits, s.limitBit.greatestSpeed + s.limitBit.leastIrradiance);
  // A pulse's fluence goes by power alone.
  const pulse = s.compensate(spot88, off, "same dose", { ...setting, kind: "pulse", greatestPower: watt(100) });
  assert.deepEqual([pulse.speed, pulse.limitBits], [setting.speed, 0]);
  prints(s.inWatt(pulse.power), "41.869244"); // 20·1.44688²
  // Speed is no limit to it.
  const short = s.compensate(spot88, off, "same dose", { ...setting, kind: "pulse", leastSpeed: setting.speed });
  assert.deepEqual([short.power, short.speed, short.limitBits], [25, setting.speed, s.limitBit.greatestPower]);
});

test("text", () => {
  const style = { typeface: measured, doseRatio: 2.7 };
  const spot = diameter1e2(um(88));
  const smallest = s.smallestText({ ...style, spot });
  prints(s.inPt(smallest.crispEm), "3.335085");
  prints(s.inPt(smallest.goodEm), "1.479391");
  prints(s.inPt(smallest.readableEm), "0.906432");
  const quality = s.textQuality({ ...style, spot, em: pt(4) });
  assert.equal(quality.grade, "crisp");
  prints(quality.stemExposure, "0.994732");
  prints(quality.leastDoseRatio, "1.139771");
  prints(quality.greatestDoseRatio, "518.904");
  prints(quality.greatestDoseRatioForCounters, "176090.748");
  const grade = (em) => s.textQuality({ ...style, spot, em }).grade;
  assert.deepEqual([pt(1.6), pt(1.2), pt(0.8)].map(grade), ["good", "readable", "lost"]);

  const reach = s.offsetForText(spot88, { ...style, em: pt(4), grade: "good" });
  prints(diameterOf(reach.spot), "237.935758");
  prints(s.inMm(reach.distanceFromWaist), "1.201169");
  hasCone(reach);

  // The cut-offs are parameters; each may be given by itself.
  assert.deepEqual(s.defaultTextGrades, { crispExposure: 0.98, goodWindow: 2, readableWindow: 1.1 });
  const stricter = s.smallestText({ ...style, spot, grades: { goodWindow: 4 } });
  assert.ok(stricter.goodEm > smallest.goodEm);
  assert.deepEqual([stricter.crispEm, stricter.readableEm], [smallest.crispEm, smallest.readableEm]);
  assert.deepEqual(s.smallestText({ ...style, spot, grades: s.defaultTextGrades }), smallest);
});

test("kinds of typeface", () => {
  assert.deepEqual(s.typefaceNames, ["sans", "bold sans", "light sans", "serif", "monospaced"]);
  for (const typeface of s.typefaceNames) {
    const shares = s.typefaceShares(typeface);
    const { xHeight, capHeight, thinnestStroke, stem } = shares;
    assert.ok(0 < xHeight && xHeight < capHeight && capHeight < 1, typeface);
    assert.ok(0 < thinnestStroke && thinnestStroke < stem && stem < 0.5, typeface);
    for (const share of Object.values(shares)) assert.ok(share > 0 && share < 1, typeface);
    // A kind is as good as its shares given by hand.
    const by = (typeface) => s.smallestText({ typeface, doseRatio: 2.7, spot: diameter1e2(um(88)) });
    assert.deepEqual(by(typeface), by(shares));
  }
  const mine = s.typefaceShares(measured);
  assert.deepEqual(
    [mine.stem, mine.effectiveStroke, mine.effectiveCounter, mine.effectiveGap, mine.capHeight, mine.smallestCounter],
    [0.087, 0.0428, 0.1415, 0.0967, undefined, undefined],
  );
});

const job = {
  wavelength: um(10.6),
  m2: 1.2,
  rawBeam: { by: "collimated", atLens: diameter1e2(mm(7)) },
  focalLength: s.inch(1.5),
  focus: { by: "datum", waistZ: inFocus },
  surfaceRise: mm(0.3),
  surfaceFall: mm(0.3),
  criterion: { by: "rayleigh" },
  finestStroke: mm(0.1),
  finestGap: mm(0.1),
  dose: { by: "scan", power: watt(20), speed: mmPerS(500), lineInterval: um(50), threshold: jPerMm2(0.32) },
  text: { typeface: measured, em: pt(4), leastGrade: "good" },
};

test("a verdict on a scan and a text", () => {
  const v = s.focusCheck(job);
  assert.deepEqual([v.outcome, v.reasonBits, v.reasons], ["holds", 0, []]);
  prints(v.doseRatio, "2.500000"); // 0.8/0.32
  const { waist } = v.focused;
  const { power, speed, lineInterval } = job.dose;
  assert.deepEqual(v.scan, s.scanDose({ power, speed, spotAcross: waist, spotAlong: waist, lineInterval }));
  // Each place is what the parts of the model say of its spot.
  for (const place of [v.highest, v.datum, v.lowest]) {
    const spot = diameter1e2(place.spotDiameter);
    const style = { spot, doseRatio: v.doseRatio, typeface: measured };
    prints(place.rippleContrast, s.rasterRipple({ spot, lineInterval }).contrast.toFixed(12));
    assert.deepEqual(place.smallestText, s.smallestText(style));
    assert.equal(place.textGrade, s.textQuality({ ...style, em: job.text.em }).grade);
    assert.deepEqual([place.detailsHold, place.inDepth], [true, true]);
  }
  assert.ok(v.highest.rippleContrast < v.datum.rippleContrast);
  const reach = s.offsetForText(v.focused, { typeface: measured, doseRatio: v.doseRatio, em: pt(4), grade: "good" });
  prints(s.inMm(v.textRange.awayFromLens.zAwayFromLens), s.inMm(reach.distanceFromWaist).toFixed(9));
  prints(s.inMm(v.textRange.full), s.inMm(2 * reach.distanceFromWaist).toFixed(9));
  assert.deepEqual([v.textRange.halfAngle, v.textRange.validity], [v.focused.halfAngle, v.focused.validity]);

  // The same dose as a ratio, without text: nothing else changes.
  const bare = s.focusCheck({ ...job, dose: { by: "ratio", doseRatio: v.doseRatio }, text: undefined });
  assert.deepEqual([bare.scan, bare.textRange, bare.doseRatio], [null, null, v.doseRatio]);
  for (const name of ["highest", "datum", "lowest"]) {
    const { rippleContrast, smallestText, textGrade, ...rest } = bare[name];
    assert.deepEqual([rippleContrast, smallestText, textGrade], [null, null, null]);
    assert.deepEqual({ ...v[name], rippleContrast, smallestText, textGrade }, { ...rest, rippleContrast, smallestText, textGrade });
  }
  for (const name of ["focused", "depth", "detailRange", "bestFocusZ", "bestWorstGrowth", "promised", "real", "validity"]) {
    assert.deepEqual(bare[name], v[name], name);
  }
});

test("a verdict on the scan and the text in front of a real lens", () => {
  const singlet = { glass: "zinc selenide", shape: "best form", clearAperture: s.diameter(mm(18)) };
  const v = s.focusCheck({ ...job, singlet });
  const spot = s.power86(v.real.power86.waistDiameter);
  const { power, speed, lineInterval } = job.dose;
  const dose = s.scanDose({ power, speed, spotAcross: spot, spotAlong: spot, lineInterval });
  prints(v.scan.lineDose, dose.lineDose.toFixed(3));
  assert.deepEqual([v.textRange.halfAngle, v.textRange.validity], [v.real.halfAngle, v.real.validity]);
});

test("a verdict on a text that is too small", () => {
  const small = s.focusCheck({ ...job, text: { ...job.text, em: pt(0.5) } });
  assert.deepEqual([small.outcome, small.textRange, small.datum.textGrade], ["lost", null, "lost"]);
  assert.ok(small.reasonBits & s.reasonBit.textTooSmall);
  // A text that asks for nothing is told its grade, and holds nothing up.
  const asked = s.focusCheck({ ...job, text: { ...job.text, em: pt(0.5), leastGrade: "lost" } });
  assert.deepEqual([asked.outcome, asked.datum.textGrade, asked.textRange], ["holds", "lost", null]);
  // The cut-offs are the job's own if it gives any.
  const lenient = { ...job.text, em: pt(1.3), grades: { goodWindow: 1.2 } };
  assert.deepEqual(
    [job.text, lenient].map((text) => s.focusCheck({ ...job, surfaceRise: mm(0), surfaceFall: mm(0), text: { ...text, em: pt(1.3) } }).outcome),
    ["lost", "holds"],
  );
});

test("a verdict on a dose too little for the material", () => {
  const weak = { ...job, dose: { ...job.dose, threshold: jPerMm2(1) } };
  const v = s.focusCheck(weak);
  assert.deepEqual([v.outcome, v.promised, v.reasonBits], ["nothing marks", "nothing marks", s.reasonBit.nothingMarks]);
  assert.equal(v.reasons.length, 1);
  assert.match(v.summary, /^Nothing marks/);
  assert.match(v.reasons[0], /too little for the material/);
  prints(v.doseRatio, "0.800000");
  assert.deepEqual([v.detailRange, v.textRange, v.fillDepth], [null, null, null]);
  assert.deepEqual(v.scan, s.focusCheck(job).scan);
  for (const place of [v.highest, v.datum, v.lowest]) {
    const { smallestStroke, smallestGap, smallestDot, smallestHole, smallestText } = place;
    assert.deepEqual([smallestStroke, smallestGap, smallestDot, smallestHole, smallestText], new Array(5).fill(null));
    assert.deepEqual([place.textGrade, place.detailsHold, place.inDepth], ["lost", false, true]);
    assert.equal(place.seenSpotDiameter, place.spotDiameter);
  }
  // Focus is judged as ever.
  const high = s.focusCheck({ ...weak, surfaceRise: mm(0.6) });
  assert.ok(high.reasonBits & s.reasonBit.highOutOfFocus);
  assert.deepEqual(high.depth, v.depth);
  // A bulk is then dug to no depth.
  const bulk = { kind: "linear ablation", removalEnergy: s.jPerMm3(30) };
  assert.equal(s.focusCheck({ ...weak, dose: { ...weak.dose, response: bulk } }).fillDepth, 0);
  // By a ratio it is the same; without text there is no grade to lose.
  const byRatio = (doseRatio) => s.focusCheck({ ...job, dose: { by: "ratio", doseRatio }, text: undefined });
  for (const doseRatio of [1e-6, 0.5, 1]) assert.equal(byRatio(doseRatio).reasonBits, s.reasonBit.nothingMarks);
  assert.deepEqual([byRatio(0.5).datum.textGrade, byRatio(0.5).scan, byRatio(0.5).fillDepth], [null, null, null]);
  assert.equal(byRatio(1.000001).reasonBits & s.reasonBit.nothingMarks, 0);
});

test("a verdict on a melt", () => {
  // The same dose at a twenty-fifth of the speed: heat has the more time.
  const coating = { ...job, dose: { ...job.dose, power: watt(0.8), speed: mmPerS(20) }, finestGap: um(50) };
  const melt = { ...coating, dose: { ...coating.dose, response: { kind: "melt", diffusivity: s.mm2PerS(0.109) } } };
  const [cold, v] = [coating, melt].map(s.focusCheck);
  // √(d² + c·d) with c = 32·κ·√(π/8)/v in µm; by hand in the waist √(88.143² + 109.29·88.143) = 131.92.
  const c = (32 * 0.109 * Math.sqrt(Math.PI / 8) * 1e3) / 20;
  prints(c, "109.29");
  prints(s.inUm(v.datum.seenSpotDiameter), "131.92");
  for (const name of ["highest", "datum", "lowest"]) {
    const place = v[name];
    const d = s.inUm(place.spotDiameter);
    prints(s.inUm(place.seenSpotDiameter), Math.sqrt(d * d + c * d).toFixed(9));
    assert.deepEqual([place.spotDiameter, place.growth], [cold[name].spotDiameter, cold[name].growth]);
    assert.equal(cold[name].seenSpotDiameter, cold[name].spotDiameter);
    // Details, text and ripple are those of the spot that is seen.
    const spot = diameter1e2(place.seenSpotDiameter);
    const { bar, gap, dot, hole } = s.smallestDetails({ spot, doseRatio: v.doseRatio });
    assert.deepEqual([place.smallestStroke, place.smallestGap], [bar, gap]);
    assert.deepEqual([place.smallestDot, place.smallestHole], [dot, hole]);
    assert.deepEqual(place.smallestText, s.smallestText({ spot, doseRatio: v.doseRatio, typeface: measured }));
    prints(place.rippleContrast, s.rasterRipple({ spot, lineInterval: um(50) }).contrast.toFixed(12));
  }
  // So the gap that the coating keeps fills in the melt, which tells no depth.
  assert.deepEqual([cold.outcome, v.outcome, v.fillDepth], ["holds", "lost", null]);
  assert.ok(v.reasonBits & s.reasonBit.gapTooFine);
  // A wider gap holds as far as the beam is seen as large as the largest spot that keeps it.
  const wide = s.focusCheck({ ...melt, finestGap: um(100) });
  const details = { finestStroke: um(100), finestGap: um(100), doseRatio: v.doseRatio };
  const largest = diameterOf(s.largestSpotForDetails(details));
  const seenSo = diameter1e2(um(Math.sqrt(largest ** 2 + (c / 2) ** 2) - c / 2));
  prints(s.inMm(wide.detailRange.full), s.inMm(s.offsetsForDiameter(v.focused, seenSo).full).toFixed(9));
  // No heat that spreads is a coating.
  const response = { kind: "melt", diffusivity: s.mm2PerS(0) };
  const still = s.focusCheck({ ...melt, dose: { ...melt.dose, response } });
  assert.deepEqual(still, cold);
});

test("a verdict on a bulk", () => {
  const coating = s.focusCheck(job);
  assert.equal(coating.fillDepth, null);
  const of = (response) => s.focusCheck({ ...job, dose: { ...job.dose, response } });
  const log = of({ kind: "logarithmic ablation", penetrationDepth: um(2) });
  prints(s.inUm(log.fillDepth), "1.832581"); // 2·ln 2.5
  const linear = of({ kind: "linear ablation", removalEnergy: s.jPerMm3(30) });
  prints(s.inUm(linear.fillDepth), "16.000000"); // (0.8 − 0.32)/30 mm
  for (const { fillDepth, ...rest } of [log, linear]) assert.deepEqual({ ...rest, fillDepth: null }, coating);
  assert.deepEqual(of({ kind: "coating" }), coating);
  assert.deepEqual(of(undefined), coating);
});
