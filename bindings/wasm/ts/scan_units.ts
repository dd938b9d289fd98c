/**
 * Quantities of a scan and of what it does: power, speed, time, rate, energy, dose and their like.
 *
 * As in `units.ts`, a quantity is a plain number in SI units at run time, a unit is one multiplication by
 * the double nearest to its exact value in SI, and a reader is one division by the same.
 */

import { callWithText, core } from "./core.js";
import { number } from "./number.js";
import type { PureNumber, Quantity } from "./units.js";

/** A power in watts. Make it with {@link watt}, read it with {@link inWatt}. */
export type Power = Quantity<"power">;

/** A speed in m/s. Make it with {@link mmPerS} and its like, read it with {@link inMmPerS} and its like. */
export type Speed = Quantity<"speed">;

/** A time in seconds. Make it with {@link us} and its like, read it with {@link inUs} and its like. */
export type Time = Quantity<"time">;

/** How often, in hertz. Make it with {@link khz} and its like, read it with {@link inKhz} and its like. */
export type Frequency = Quantity<"frequency">;

/** An energy in joules. Make it with {@link millijoule} and its like, read it with {@link inMillijoule}. */
export type Energy = Quantity<"energy">;

/**
 * Energy for each area in J/m²: a line dose, a fill dose, a peak fluence, or the threshold of one of them.
 * Make it with {@link jPerMm2} and its like, read it with {@link inJPerMm2} and its like.
 */
export type Dose = Quantity<"dose">;

/** Power for each area in W/m². Read it with {@link inWattPerMm2}. */
export type Irradiance = Quantity<"irradiance">;

/** Energy for each volume in J/m³. Make it with {@link jPerMm3}, read it with {@link inJPerMm3}. */
export type EnergyPerVolume = Quantity<"energy per volume">;

/** Thermal diffusivity in m²/s. Make it with {@link mm2PerS}, read it with {@link inMm2PerS}. */
export type Diffusivity = Quantity<"thermal diffusivity">;

/** An area in m². Read it with {@link inUm2}. */
export type Area = Quantity<"area">;

/** A volume in m³. Read it with {@link inUm3}. */
export type Volume = Quantity<"volume">;

/** The SI value of each unit: the double nearest to the exact one. */
const MILLI = 1e-3;
const MICRO = 1e-6;
const NANO = 1e-9;
const KILO = 1e3;
const MEGA = 1e6;
const PER_MINUTE = 1 / 60;
const INCH = 0.0254;
const PER_CM2 = 1e4;
const PER_MM2 = 1e6;
const PER_MM3 = 1e9;
const MM2 = 1e-6;
const UM2 = 1e-12;
const UM3 = 1e-18;

/** A power from watts. */
export function watt(watts: PureNumber): Power {
  return number(watts) as Power;
}

/** A power from milliwatts. */
export function milliwatt(milliwatts: PureNumber): Power {
  return (number(milliwatts) * MILLI) as Power;
}

/** A power from kilowatts. */
export function kilowatt(kilowatts: PureNumber): Power {
  return (number(kilowatts) * KILO) as Power;
}

/** A power in watts. */
export function inWatt(power: Power): number {
  return number(power);
}

/** A power in milliwatts. */
export function inMilliwatt(power: Power): number {
  return number(power) / MILLI;
}

/** A power in kilowatts. */
export function inKilowatt(power: Power): number {
  return number(power) / KILO;
}

/** A speed from m/s. */
export function mPerS(metresPerSecond: PureNumber): Speed {
  return number(metresPerSecond) as Speed;
}

/** A speed from mm/s. */
export function mmPerS(millimetresPerSecond: PureNumber): Speed {
  return (number(millimetresPerSecond) * MILLI) as Speed;
}

/** A speed from m/min. */
export function mPerMin(metresPerMinute: PureNumber): Speed {
  return (number(metresPerMinute) * PER_MINUTE) as Speed;
}

/** A speed from inches of 25.4 mm per second. */
export function inchPerS(inchesPerSecond: PureNumber): Speed {
  return (number(inchesPerSecond) * INCH) as Speed;
}

/** A speed in m/s. */
export function inMPerS(speed: Speed): number {
  return number(speed);
}

/** A speed in mm/s. */
export function inMmPerS(speed: Speed): number {
  return number(speed) / MILLI;
}

/** A speed in m/min. */
export function inMPerMin(speed: Speed): number {
  return number(speed) / PER_MINUTE;
}

/** A speed in inches of 25.4 mm per second. */
export function inInchPerS(speed: Speed): number {
  return number(speed) / INCH;
}

/** A time from seconds. */
export function s(seconds: PureNumber): Time {
  return number(seconds) as Time;
}

/** A time from milliseconds. */
export function ms(milliseconds: PureNumber): Time {
  return (number(milliseconds) * MILLI) as Time;
}

/** A time from microseconds. */
export function us(microseconds: PureNumber): Time {
  return (number(microseconds) * MICRO) as Time;
}

/** A time from nanoseconds. */
export function ns(nanoseconds: PureNumber): Time {
  return (number(nanoseconds) * NANO) as Time;
}

/** A time in seconds. */
export function inS(time: Time): number {
  return number(time);
}

/** A time in milliseconds. */
export function inMs(time: Time): number {
  return number(time) / MILLI;
}

/** A time in microseconds. */
export function inUs(time: Time): number {
  return number(time) / MICRO;
}

/** A time in nanoseconds. */
export function inNs(time: Time): number {
  return number(time) / NANO;
}

/** A rate from hertz. */
export function hz(hertz: PureNumber): Frequency {
  return number(hertz) as Frequency;
}

/** A rate from kilohertz. */
export function khz(kilohertz: PureNumber): Frequency {
  return (number(kilohertz) * KILO) as Frequency;
}

/** A rate from megahertz. */
export function megahertz(megahertz: PureNumber): Frequency {
  return (number(megahertz) * MEGA) as Frequency;
}

/** A rate in hertz. */
export function inHz(rate: Frequency): number {
  return number(rate);
}

/** A rate in kilohertz. */
export function inKhz(rate: Frequency): number {
  return number(rate) / KILO;
}

/** A rate in megahertz. */
export function inMegahertz(rate: Frequency): number {
  return number(rate) / MEGA;
}

/** An energy from joules. */
export function joule(joules: PureNumber): Energy {
  return number(joules) as Energy;
}

/** An energy from millijoules. */
export function millijoule(millijoules: PureNumber): Energy {
  return (number(millijoules) * MILLI) as Energy;
}

/** An energy from microjoules. */
export function microjoule(microjoules: PureNumber): Energy {
  return (number(microjoules) * MICRO) as Energy;
}

/** An energy in joules. */
export function inJoule(energy: Energy): number {
  return number(energy);
}

/** An energy in millijoules. */
export function inMillijoule(energy: Energy): number {
  return number(energy) / MILLI;
}

/** An energy in microjoules. */
export function inMicrojoule(energy: Energy): number {
  return number(energy) / MICRO;
}

/** A dose from J/m². */
export function jPerM2(joulesPerSquareMetre: PureNumber): Dose {
  return number(joulesPerSquareMetre) as Dose;
}

/** A dose from J/cm². */
export function jPerCm2(joulesPerSquareCentimetre: PureNumber): Dose {
  return (number(joulesPerSquareCentimetre) * PER_CM2) as Dose;
}

/** A dose from J/mm². */
export function jPerMm2(joulesPerSquareMillimetre: PureNumber): Dose {
  return (number(joulesPerSquareMillimetre) * PER_MM2) as Dose;
}

/** A dose in J/m². */
export function inJPerM2(dose: Dose): number {
  return number(dose);
}

/** A dose in J/cm². */
export function inJPerCm2(dose: Dose): number {
  return number(dose) / PER_CM2;
}

/** A dose in J/mm². */
export function inJPerMm2(dose: Dose): number {
  return number(dose) / PER_MM2;
}

/** An irradiance in W/m². */
export function inWattPerM2(irradiance: Irradiance): number {
  return number(irradiance);
}

/** An irradiance in W/cm². */
export function inWattPerCm2(irradiance: Irradiance): number {
  return number(irradiance) / PER_CM2;
}

/** An irradiance in W/mm². */
export function inWattPerMm2(irradiance: Irradiance): number {
  return number(irradiance) / PER_MM2;
}

/** An energy per volume from J/m³. */
export function jPerM3(joulesPerCubicMetre: PureNumber): EnergyPerVolume {
  return number(joulesPerCubicMetre) as EnergyPerVolume;
}

/** An energy per volume from J/mm³. */
export function jPerMm3(joulesPerCubicMillimetre: PureNumber): EnergyPerVolume {
  return (number(joulesPerCubicMillimetre) * PER_MM3) as EnergyPerVolume;
}

/** An energy per volume in J/m³. */
export function inJPerM3(energy: EnergyPerVolume): number {
  return number(energy);
}

/** An energy per volume in J/mm³. */
export function inJPerMm3(energy: EnergyPerVolume): number {
  return number(energy) / PER_MM3;
}

/** A thermal diffusivity from m²/s. */
export function m2PerS(squareMetresPerSecond: PureNumber): Diffusivity {
  return number(squareMetresPerSecond) as Diffusivity;
}

/** A thermal diffusivity from mm²/s. */
export function mm2PerS(squareMillimetresPerSecond: PureNumber): Diffusivity {
  return (number(squareMillimetresPerSecond) * MM2) as Diffusivity;
}

/** A thermal diffusivity in m²/s. */
export function inM2PerS(diffusivity: Diffusivity): number {
  return number(diffusivity);
}

/** A thermal diffusivity in mm²/s. */
export function inMm2PerS(diffusivity: Diffusivity): number {
  return number(diffusivity) / MM2;
}

/** An area in m². */
export function inM2(area: Area): number {
  return number(area);
}

/** An area in µm². */
export function inUm2(area: Area): number {
  return number(area) / UM2;
}

/** A volume in m³. */
export function inM3(volume: Volume): number {
  return number(volume);
}

/** A volume in µm³. */
export function inUm3(volume: Volume): number {
  return number(volume) / UM3;
}

/**
 * A power from text such as `"20 W"`. Units: W, mW, kW.
 *
 * @throws {@link SpotwiseError} with code 7 if the number or the unit is missing or unknown.
 */
export function power(text: string): Power {
  return callWithText(core.power, text) as Power;
}

/**
 * A speed from text such as `"500 mm/s"`. Units: m/s, mm/s, m/min, in/s.
 *
 * @throws {@link SpotwiseError} with code 7 if the number or the unit is missing or unknown.
 */
export function speed(text: string): Speed {
  return callWithText(core.speed, text) as Speed;
}

/**
 * A dose from text such as `"0.25 J/mm2"`. Units: J/m2, J/cm2, J/mm2, also written with ².
 *
 * @throws {@link SpotwiseError} with code 7 if the number or the unit is missing or unknown.
 */
export function dose(text: string): Dose {
  return callWithText(core.dose, text) as Dose;
}

/**
 * A thermal diffusivity from text such as `"0.1 mm2/s"`. Units: m2/s, cm2/s, mm2/s, also written with ².
 *
 * @throws {@link SpotwiseError} with code 7 if the number or the unit is missing or unknown.
 */
export function diffusivity(text: string): Diffusivity {
  return callWithText(core.diffusivity, text) as Diffusivity;
}

/**
 * The energy that removes one volume from text such as `"3 J/mm3"`. Units: J/m3, J/cm3, J/mm3, also written
 * with ³.
 *
 * @throws {@link SpotwiseError} with code 7 if the number or the unit is missing or unknown.
 */
export function removalEnergy(text: string): EnergyPerVolume {
  return callWithText(core.removal_energy, text) as EnergyPerVolume;
}

/** A power as text that {@link power} turns back into the same bits: `"20 W"`. */
export function powerText(power: Power): string {
  return core.power_text(number(power));
}

/** A speed as text that {@link speed} turns back into the same bits: `"0.5 m/s"`. */
export function speedText(speed: Speed): string {
  return core.speed_text(number(speed));
}

/** A dose as text that {@link dose} turns back into the same bits: `"0.25 J/mm2"`. */
export function doseText(dose: Dose): string {
  return core.dose_text(number(dose));
}

/** A thermal diffusivity as text that {@link diffusivity} turns back into the same bits: `"0.1 mm2/s"`. */
export function diffusivityText(diffusivity: Diffusivity): string {
  return core.diffusivity_text(number(diffusivity));
}

/** An energy per volume as text that {@link removalEnergy} turns back into the same bits: `"3 J/mm3"`. */
export function removalEnergyText(energy: EnergyPerVolume): string {
  return core.removal_energy_text(number(energy));
}
