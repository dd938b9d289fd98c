//! Focus or power: what a mark says, and the tests that settle it.

use crate::exchange::{answer, flags};
use spotwise::Error;
use spotwise::model::learn::{
    self, DepthLaw, DepthReading, GoodMark, HeightReadings, PossibleHeight, PossiblePower, PowerStep,
};
use spotwise::model::mark::MarkKind;
use spotwise::model::optics::Beam;
use wasm_bindgen::prelude::wasm_bindgen;

fn height(found: Option<PossibleHeight>) -> [f64; 4] {
    found.map_or([f64::NAN; 4], |height| {
        [height.growth, height.offset, height.least_offset, height.greatest_offset]
    })
}

fn power(found: Option<PossiblePower>) -> [f64; 3] {
    found.map_or([f64::NAN; 3], |power| [power.ratio, power.least, power.greatest])
}

/// As [`learn::diagnose_mark`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn diagnose_mark(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    mark_kind: u32,
    dose_ratio: f64,
    dose_ratio_deviation: f64,
    good_width: f64,
    good_width_deviation: f64,
    depth_law: u32,
    good_depth: f64,
    good_depth_deviation: f64,
    depth: f64,
    depth_deviation: f64,
    width: f64,
    width_deviation: f64,
    coverage_probability: f64,
) -> u32 {
    let found = || -> Result<_, Error> {
        let kind = MarkKind::from_code(mark_kind)?;
        let law = DepthLaw::from_code(depth_law)?;
        let good = GoodMark {
            kind,
            dose_ratio,
            dose_ratio_deviation,
            width: good_width,
            width_deviation: good_width_deviation,
        };
        let depths = DepthReading { law, good_depth, good_depth_deviation, depth, depth_deviation };
        let beam = Beam { wavelength, m2, waist_diameter };
        learn::diagnose_mark(&beam, &good, &depths, width, width_deviation, coverage_probability)
    };
    answer(found().map(|d| {
        [
            f64::from(d.cause as u32),
            f64::from(d.further_test as u32),
            f64::from(d.ambiguities.bits()),
            d.growth,
            d.growth_deviation,
            d.offset,
            d.least_offset,
            d.greatest_offset,
            d.power_ratio,
            d.power_ratio_deviation,
            d.least_power_ratio,
            d.greatest_power_ratio,
            d.correlation,
            d.dose_ratio,
            d.half_angle,
            flags(d.validity),
        ]
    }))
}

/// As [`learn::diagnose_width`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn diagnose_width(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    mark_kind: u32,
    dose_ratio: f64,
    dose_ratio_deviation: f64,
    good_width: f64,
    good_width_deviation: f64,
    width: f64,
    width_deviation: f64,
    coverage_probability: f64,
) -> u32 {
    let found = || -> Result<_, Error> {
        let good = GoodMark {
            kind: MarkKind::from_code(mark_kind)?,
            dose_ratio,
            dose_ratio_deviation,
            width: good_width,
            width_deviation: good_width_deviation,
        };
        let beam = Beam { wavelength, m2, waist_diameter };
        learn::diagnose_width(&beam, &good, width, width_deviation, coverage_probability)
    };
    answer(found().map(|d| {
        let [near_growth, near, near_least, near_greatest] = height(d.near);
        let [far_growth, far, far_least, far_greatest] = height(d.far);
        let [ratio, least, greatest] = power(d.power);
        [
            f64::from(d.cause as u32),
            f64::from(d.further_test as u32),
            f64::from(d.ambiguities.bits()),
            near_growth,
            near,
            near_least,
            near_greatest,
            far_growth,
            far,
            far_least,
            far_greatest,
            ratio,
            least,
            greatest,
            d.half_angle,
            flags(d.validity),
        ]
    }))
}

/// As [`learn::settle_by_patch`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn settle_by_patch(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    mark_kind: u32,
    dose_ratio: f64,
    dose_ratio_deviation: f64,
    good_width: f64,
    good_width_deviation: f64,
    depth_law: u32,
    good_depth: f64,
    good_depth_deviation: f64,
    depth: f64,
    depth_deviation: f64,
    patch_dose_ratio: f64,
    width: f64,
    width_deviation: f64,
    coverage_probability: f64,
) -> u32 {
    let found = || -> Result<_, Error> {
        let kind = MarkKind::from_code(mark_kind)?;
        let law = DepthLaw::from_code(depth_law)?;
        let good = GoodMark {
            kind,
            dose_ratio,
            dose_ratio_deviation,
            width: good_width,
            width_deviation: good_width_deviation,
        };
        let patch = DepthReading { law, good_depth, good_depth_deviation, depth, depth_deviation };
        let beam = Beam { wavelength, m2, waist_diameter };
        let coverage = coverage_probability;
        learn::settle_by_patch(&beam, &good, &patch, patch_dose_ratio, width, width_deviation, coverage)
    };
    answer(found().map(|d| {
        let [near_growth, near, near_least, near_greatest] = height(d.near);
        let [far_growth, far, far_least, far_greatest] = height(d.far);
        [
            f64::from(d.cause as u32),
            f64::from(d.further_test as u32),
            f64::from(d.ambiguities.bits()),
            d.power.ratio,
            d.power.least,
            d.power.greatest,
            near_growth,
            near,
            near_least,
            near_greatest,
            far_growth,
            far,
            far_least,
            far_greatest,
            d.half_angle,
            flags(d.validity),
        ]
    }))
}

/// As [`learn::settle_by_power`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn settle_by_power(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    mark_kind: u32,
    dose_ratio: f64,
    dose_ratio_deviation: f64,
    power_step: f64,
    width: f64,
    width_deviation: f64,
    stepped_width: f64,
    stepped_width_deviation: f64,
    coverage_probability: f64,
) -> u32 {
    let found = || -> Result<_, Error> {
        let step = PowerStep {
            kind: MarkKind::from_code(mark_kind)?,
            dose_ratio,
            dose_ratio_deviation,
            power_step,
            width,
            width_deviation,
            stepped_width,
            stepped_width_deviation,
        };
        learn::settle_by_power(&Beam { wavelength, m2, waist_diameter }, &step, coverage_probability)
    };
    answer(found().map(|d| {
        [
            f64::from(d.cause as u32),
            f64::from(d.further_test as u32),
            f64::from(d.ambiguities.bits()),
            d.spot_diameter,
            d.spot_diameter_deviation,
            d.growth,
            d.offset,
            d.least_offset,
            d.greatest_offset,
            d.dose_ratio,
            d.power.ratio,
            d.power.least,
            d.power.greatest,
            d.half_angle,
            flags(d.validity),
        ]
    }))
}

/// As [`learn::settle_by_heights`].
#[wasm_bindgen]
#[allow(clippy::too_many_arguments, reason = "the flat convention")]
pub fn settle_by_heights(
    wavelength: f64,
    m2: f64,
    waist_diameter: f64,
    mark_kind: u32,
    depth_law: u32,
    height_step: f64,
    reading_toward_lens: f64,
    reading_in_middle: f64,
    reading_away_from_lens: f64,
    reading_deviation: f64,
    coverage_probability: f64,
) -> u32 {
    let found = || -> Result<_, Error> {
        let readings = HeightReadings {
            kind: MarkKind::from_code(mark_kind)?,
            law: DepthLaw::from_code(depth_law)?,
            height_step,
            toward_lens: reading_toward_lens,
            middle: reading_in_middle,
            away_from_lens: reading_away_from_lens,
            deviation: reading_deviation,
        };
        learn::settle_by_heights(&Beam { wavelength, m2, waist_diameter }, &readings, coverage_probability)
    };
    answer(found().map(|d| {
        [
            f64::from(d.verdict as u32),
            d.z_offset.unwrap_or(f64::NAN),
            d.z_offset_deviation.unwrap_or(f64::NAN),
            d.least_z_offset.unwrap_or(f64::NAN),
            d.greatest_z_offset.unwrap_or(f64::NAN),
            d.half_angle,
            flags(d.validity),
        ]
    }))
}
