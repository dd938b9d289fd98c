//! Each function on what the spot leaves behind against the model, as in `agree`.
#![expect(
    clippy::undocumented_unsafe_blocks,
    reason = "every one is a call with whole structs, or with arrays of the length that it is told"
)]

use super::agree::{beam, number};
use super::raw::{Expected, choice, compare, near, place, ratio, share};
use crate::abi::Plain;
use crate::blur::*;
use crate::compensation::*;
use crate::crisp::*;
use crate::dose::*;
use crate::exposure::*;
use crate::fill_width::*;
use crate::isolated::*;
use crate::material::*;
use crate::pulsed::*;
use crate::raster::*;
use crate::typeface::*;
use proptest::prelude::*;
use spotwise::Error;
use spotwise::model::mark::{
    self, Blur, CompensationRule, FillQuality, MarkKind, MarkSetting, Material, Response, Scan, Taste,
    TextGrade, TextGrades, Typeface,
};

/// A power, speed, two diameters and an interval, for C and for the model.
fn scan() -> impl Strategy<Value = (spotwise_scan, Scan)> {
    (near(20.0), near(0.5), near(80e-6), near(80e-6), near(50e-6)).prop_map(
        |(power, speed, diameter_across, diameter_along, line_interval)| {
            let c = spotwise_scan {
                power_w: power,
                speed_m_per_s: speed,
                diameter_across_m: diameter_across,
                diameter_along_m: diameter_along,
                line_interval_m: line_interval,
                ..spotwise_scan::BLANK
            };
            (c, Scan { power, speed, diameter_across, diameter_along, line_interval })
        },
    )
}

/// A share from a half to one, mostly.
fn upper_half() -> impl Strategy<Value = f64> {
    share().prop_map(|share| 0.5 + 0.5 * share)
}

/// A material, for C and for the model, which may refuse it.
fn material() -> impl Strategy<Value = (spotwise_material, Result<Material, Error>)> {
    let numbers = (near(0.5e6), upper_half(), near(20e-9), near(1e10), near(1e-7));
    (choice(4), numbers).prop_map(|(code, (threshold, incubation, depth, energy, diffusivity))| {
        let c = spotwise_material {
            response: code,
            threshold_j_per_m2: threshold,
            incubation,
            penetration_depth_m: depth,
            removal_energy_j_per_m3: energy,
            diffusivity_m2_per_s: diffusivity,
            ..spotwise_material::BLANK
        };
        let response = Response::from_code(code, depth, energy, diffusivity);
        (c, response.map(|response| Material { threshold, incubation, response }))
    })
}

/// What blurs a scan, for C and for the model.
fn blur() -> impl Strategy<Value = (spotwise_blur, Blur)> {
    let spot = (near(80e-6), near(80e-6), near(0.5));
    let rest = (near(1e-7), near(30e-6), near(5e-6), near(20e-6), near(10e-6));
    (spot, rest).prop_map(|(spot, rest)| {
        let model = Blur {
            diameter_across: spot.0,
            diameter_along: spot.1,
            speed: spot.2,
            diffusivity: rest.0,
            pixel: rest.1,
            jitter_deviation: rest.2,
            rise_time: rest.3,
            switch_delay: rest.4,
        };
        let c = spotwise_blur {
            diameter_across_m: spot.0,
            diameter_along_m: spot.1,
            speed_m_per_s: spot.2,
            diffusivity_m2_per_s: rest.0,
            pixel_m: rest.1,
            jitter_deviation_m: rest.2,
            rise_time_s: rest.3,
            switch_delay_s: rest.4,
            ..spotwise_blur::BLANK
        };
        (c, model)
    })
}

/// A taste, for C and for the model, which may refuse it.
fn taste() -> impl Strategy<Value = (spotwise_taste, Result<Taste, Error>)> {
    (choice(3), near(100e-6), share()).prop_map(|(code, largest_edge, crispness_weight)| {
        let c = spotwise_taste {
            taste: code,
            largest_edge_m: largest_edge,
            crispness_weight,
            ..spotwise_taste::BLANK
        };
        (c, Taste::from_code(code, largest_edge, crispness_weight))
    })
}

/// A setting, for C and for the model, which may refuse it.
fn setting() -> impl Strategy<Value = (spotwise_mark_setting, Result<MarkSetting, Error>)> {
    (choice(2), ratio(), near(20.0), near(0.5), (ratio(), ratio(), ratio()), share()).prop_map(
        |(code, dose_ratio, power, speed, (more, slower, faster), least_irradiance_ratio)| {
            let (greatest_power, least_speed, greatest_speed) =
                (power * more, speed / slower, speed * faster);
            let c = spotwise_mark_setting {
                mark_kind: code,
                dose_ratio,
                power_w: power,
                speed_m_per_s: speed,
                greatest_power_w: greatest_power,
                least_speed_m_per_s: least_speed,
                greatest_speed_m_per_s: greatest_speed,
                least_irradiance_ratio,
                ..spotwise_mark_setting::BLANK
            };
            let model = MarkKind::from_code(code).map(|kind| MarkSetting {
                kind,
                dose_ratio,
                power,
                speed,
                greatest_power,
                least_speed,
                greatest_speed,
                least_irradiance_ratio,
            });
            (c, model)
        },
    )
}

pub fn typeface_code() -> impl Strategy<Value = u32> {
    choice(6)
}

/// Stem, stroke, counter and gap in ems.
pub fn shares() -> impl Strategy<Value = (f64, f64, f64, f64)> {
    (near(0.1), near(0.1), near(0.1), near(0.1))
}

/// The cut-offs of grades of text.
pub fn cut_offs() -> impl Strategy<Value = (f64, f64, f64)> {
    (upper_half(), ratio(), ratio())
}

/// A typeface, for C and for the model, which may refuse it.
fn typeface() -> impl Strategy<Value = (spotwise_typeface, Result<Typeface, Error>)> {
    (typeface_code(), shares()).prop_map(|(code, shares)| {
        let (stem, effective_stroke, effective_counter, effective_gap) = shares;
        let c = spotwise_typeface {
            typeface: code,
            stem,
            effective_stroke,
            effective_counter,
            effective_gap,
            ..spotwise_typeface::BLANK
        };
        (c, Typeface::from_code(code, stem, effective_stroke, effective_counter, effective_gap))
    })
}

/// Where grades begin, for C and for the model.
fn grades() -> impl Strategy<Value = (spotwise_text_grades, TextGrades)> {
    cut_offs().prop_map(|(crisp_exposure, good_window, readable_window)| {
        let model = TextGrades { crisp_exposure, good_window, readable_window };
        (model.into(), model)
    })
}

fn quality(result: Result<FillQuality, Error>) -> Result<Expected, Error> {
    result.map(|found| {
        Expected::of::<spotwise_fill_quality_result>().word(found.validity.bits()).numbers(&[
            found.offset,
            found.spot_diameter,
            found.edge_width,
            found.ripple_contrast,
            found.half_angle,
        ])
    })
}

proptest! {
    #[test]
    fn scan_dose((c, scan) in scan()) {
        let model = mark::scan_dose(&scan).map(|dose| {
            Expected::of::<spotwise_scan_dose_result>().word(0).numbers(&[
                dose.line_dose,
                dose.fill_dose,
                dose.peak_irradiance,
                dose.dwell,
            ])
        });
        compare(|out, error| unsafe { spotwise_scan_dose(&c, out, error) }, model)?;
    }

    #[test]
    fn pulse_dose((c, scan) in scan(), rate in near(50e3)) {
        let model = mark::pulse_dose(&scan, rate).map(|dose| {
            Expected::of::<spotwise_pulse_dose_result>().word(0).numbers(&[
                dose.pulse_energy,
                dose.peak_fluence,
                dose.pulse_pitch,
                dose.overlap,
                dose.pulses_per_diameter,
                dose.effective_pulses,
            ])
        });
        compare(|out, error| unsafe { spotwise_pulse_dose(&c, rate, out, error) }, model)?;
    }

    #[test]
    fn dose_over_threshold(dose in near(1e6), threshold in near(0.5e6)) {
        let model = number(mark::dose_over_threshold(dose, threshold));
        compare(|out, error| unsafe { spotwise_dose_over_threshold(dose, threshold, out, error) }, model)?;
    }

    #[test]
    fn line_interval(dots in near(500.0)) {
        let model = number(mark::line_interval(dots));
        compare(|out, error| unsafe { spotwise_line_interval(dots, out, error) }, model)?;
    }

    #[test]
    fn dots_per_inch(interval in near(50e-6)) {
        let model = number(mark::dots_per_inch(interval));
        compare(|out, error| unsafe { spotwise_dots_per_inch(interval, out, error) }, model)?;
    }

    #[test]
    fn material_mark(
        (c, material) in material(),
        dose in near(1e6),
        exposures in ratio(),
        spot in near(80e-6),
        dwell in near(0.1e-3),
    ) {
        let model = material.and_then(|material| mark::material_mark(&material, dose, exposures, spot, dwell));
        let model = model.map(|mark| {
            Expected::of::<spotwise_material_mark_result>().word(u32::from(mark.marks)).numbers(&[
                mark.threshold,
                mark.dose_ratio,
                mark.depth,
                mark.seen_diameter,
            ])
        });
        compare(
            |out, error| unsafe { spotwise_material_mark(&c, dose, exposures, spot, dwell, out, error) },
            model,
        )?;
    }

    #[test]
    fn mark_width((c, beam) in beam(), kind in choice(2), dose in near(1.0), z in place(1e-3)) {
        let model = MarkKind::from_code(kind).and_then(|kind| mark::mark_width(&beam, kind, dose, z));
        let model = model.map(|found| {
            let flags = Expected::of::<spotwise_mark_width_result>().word(found.validity.bits());
            flags.word(u32::from(found.marks)).word(0).numbers(&[
                found.width,
                found.dose_ratio,
                found.spot_diameter,
                found.half_angle,
            ])
        });
        compare(|out, error| unsafe { spotwise_mark_width(&c, kind, dose, z, out, error) }, model)?;
    }

    #[test]
    fn mark_limits((c, beam) in beam(), kind in choice(2), dose in near(1.0)) {
        let model = MarkKind::from_code(kind).and_then(|kind| mark::mark_limits(&beam, kind, dose));
        let model = model.map(|limits| {
            let flags = Expected::of::<spotwise_mark_limits_result>().word(limits.validity.bits());
            flags.word(u32::from(limits.marks)).word(0).numbers(&[
                limits.width_in_waist,
                limits.widest_offset,
                limits.greatest_width,
                limits.vanishing_offset,
                limits.focus_insensitive_dose_ratio,
                limits.half_angle,
            ])
        });
        compare(|out, error| unsafe { spotwise_mark_limits(&c, kind, dose, out, error) }, model)?;
    }

    #[test]
    fn fill_width((c, beam) in beam(), drawn in near(100e-6), dose in near(1.0), z in place(1e-3)) {
        let model = mark::fill_width(&beam, drawn, dose, z).map(|found| {
            let flags = Expected::of::<spotwise_fill_width_result>().word(found.validity.bits());
            flags.word(u32::from(found.marks)).word(0).numbers(&[
                found.width,
                found.growth,
                found.exposure,
                found.spot_diameter,
                found.half_angle,
            ])
        });
        compare(|out, error| unsafe { spotwise_fill_width(&c, drawn, dose, z, out, error) }, model)?;
    }

    #[test]
    fn fill_limits((c, beam) in beam(), drawn in near(100e-6), dose in near(1.0)) {
        let model = mark::fill_limits(&beam, drawn, dose).map(|limits| {
            let flags = Expected::of::<spotwise_fill_limits_result>().word(limits.validity.bits());
            flags.word(u32::from(limits.marks)).word(0).numbers(&[
                limits.width_in_waist,
                limits.widest_offset,
                limits.greatest_width,
                limits.vanishing_offset,
                limits.half_angle,
            ])
        });
        compare(|out, error| unsafe { spotwise_fill_limits(&c, drawn, dose, out, error) }, model)?;
    }

    #[test]
    fn raster_ripple(spot in near(80e-6), interval in near(50e-6)) {
        let model = mark::raster_ripple(spot, interval).map(|ripple| {
            Expected::of::<spotwise_raster_ripple_result>().word(0).numbers(&[
                ripple.greatest_over_mean,
                ripple.least_over_mean,
                ripple.contrast,
                ripple.gap_free_dose_ratio,
                ripple.gap_free_dose_ratio_without_memory,
                ripple.interval_over_radius,
            ])
        });
        compare(|out, error| unsafe { spotwise_raster_ripple(spot, interval, out, error) }, model)?;
    }

    #[test]
    fn interval_for_ripple(spot in near(80e-6), contrast in share()) {
        let model = number(mark::interval_for_ripple(spot, contrast));
        compare(|out, error| unsafe { spotwise_interval_for_ripple(spot, contrast, out, error) }, model)?;
    }

    #[test]
    fn detail_exposure(spot in near(80e-6), size in near(80e-6)) {
        let model = mark::detail_exposure(spot, size).map(|exposure| {
            Expected::of::<spotwise_detail_exposure_result>().word(0).numbers(&[
                exposure.bar,
                exposure.gap,
                exposure.square,
                exposure.dot,
                exposure.hole,
            ])
        });
        compare(|out, error| unsafe { spotwise_detail_exposure(spot, size, out, error) }, model)?;
    }

    #[test]
    fn blur_budget((c, blur) in blur()) {
        let model = mark::blur_budget(&blur).map(|budget| {
            Expected::of::<spotwise_blur_budget_result>().word(0).numbers(&[
                budget.dwell,
                budget.diffusion_length,
                budget.diameter_across,
                budget.diameter_along,
                budget.edge_across,
                budget.edge_along,
                budget.rise_smear,
                budget.delay_shift,
                budget.two_way_comb,
            ])
        });
        compare(|out, error| unsafe { spotwise_blur_budget(&c, out, error) }, model)?;
    }

    #[test]
    fn fill_quality((c, beam) in beam(), interval in near(50e-6), z in place(1e-3)) {
        let model = quality(mark::fill_quality(&beam, interval, z));
        compare(|out, error| unsafe { spotwise_fill_quality(&c, interval, z, out, error) }, model)?;
    }

    #[test]
    fn offset_for_taste((c, beam) in beam(), interval in near(80e-6), (c_taste, taste) in taste()) {
        let model = quality(taste.and_then(|taste| mark::offset_for_taste(&beam, interval, taste)));
        compare(|out, error| unsafe { spotwise_offset_for_taste(&c, interval, &c_taste, out, error) }, model)?;
    }

    #[test]
    fn pulsed_line(
        spot in near(50e-6),
        dose in near(1.0),
        pitch in near(20e-6),
        incubation in upper_half(),
        pulses in ratio(),
    ) {
        let model = mark::pulsed_line(spot, dose, pitch, incubation, pulses).map(|line| {
            let flags = Expected::of::<spotwise_pulsed_line_result>().word(u32::from(line.marks));
            flags.word(u32::from(line.connected)).word(0).numbers(&[
                line.threshold_ratio,
                line.dose_ratio,
                line.dot_diameter,
                line.scallop,
            ])
        });
        compare(
            |out, error| unsafe { spotwise_pulsed_line(spot, dose, pitch, incubation, pulses, out, error) },
            model,
        )?;
    }

    #[test]
    fn crater(spot in near(50e-6), dose in ratio(), penetration in near(20e-9), radius in near(10e-6)) {
        let model = mark::crater(spot, dose, penetration, radius).map(|crater| {
            Expected::of::<spotwise_crater_result>().word(0).numbers(&[
                crater.diameter,
                crater.depth,
                crater.depth_at_radius,
                crater.volume,
            ])
        });
        compare(|out, error| unsafe { spotwise_crater(spot, dose, penetration, radius, out, error) }, model)?;
    }

    #[test]
    fn groove(
        spot in near(50e-6),
        dose in ratio(),
        penetration in near(20e-9),
        pitch in near(5e-6),
        aside in near(10e-6),
    ) {
        let model = mark::groove(spot, dose, penetration, pitch, aside).map(|groove| {
            Expected::of::<spotwise_groove_result>().word(0).numbers(&[
                groove.width,
                groove.depth,
                groove.depth_aside,
                groove.area,
            ])
        });
        compare(
            |out, error| unsafe { spotwise_groove(spot, dose, penetration, pitch, aside, out, error) },
            model,
        )?;
    }

    #[test]
    fn connected_speed(
        spot in near(50e-6),
        dose in ratio(),
        rate in near(50e3),
        incubation in upper_half(),
        scallop in near(3e-6),
    ) {
        let model = mark::connected_speed(spot, dose, rate, incubation, scallop).map(|found| {
            Expected::of::<spotwise_connected_speed_result>().word(0).numbers(&[
                found.pulse_pitch,
                found.pulses,
                found.speed,
            ])
        });
        compare(
            |out, error| unsafe { spotwise_connected_speed(spot, dose, rate, incubation, scallop, out, error) },
            model,
        )?;
    }

    #[test]
    fn compensate((c, beam) in beam(), z in place(1e-3), rule in choice(3), (c_setting, setting) in setting()) {
        let model = CompensationRule::from_code(rule)
            .and_then(|rule| mark::compensate(&beam, z, rule, &setting?))
            .map(|found| {
                let flags = Expected::of::<spotwise_compensation>().word(found.validity.bits());
                flags.word(found.limits.bits()).word(0).numbers(&[
                    found.wanted_factor,
                    found.reached_factor,
                    found.power,
                    found.speed,
                    found.irradiance_ratio,
                    found.dose_ratio,
                    found.mark_width,
                    found.half_angle,
                ])
            });
        compare(|out, error| unsafe { spotwise_compensate(&c, z, rule, &c_setting, out, error) }, model)?;
    }

    #[test]
    fn typeface_shares((c, typeface) in typeface()) {
        let model = typeface.and_then(mark::typeface_shares).map(|shares| {
            Expected::of::<spotwise_typeface_shares_result>().word(0).numbers(&[
                shares.cap_height,
                shares.x_height,
                shares.digit_height,
                shares.stem,
                shares.thinnest_stroke,
                shares.smallest_counter,
                shares.effective_stroke,
                shares.effective_counter,
                shares.effective_gap,
            ])
        });
        compare(|out, error| unsafe { spotwise_typeface_shares(&c, out, error) }, model)?;
    }

    #[test]
    fn smallest_text(
        spot in near(80e-6),
        dose in ratio(),
        (c_typeface, typeface) in typeface(),
        (c_grades, grades) in grades(),
    ) {
        let model = typeface.and_then(|typeface| mark::smallest_text(spot, dose, typeface, &grades));
        let model = model.map(|text| {
            Expected::of::<spotwise_smallest_text_result>().word(0).numbers(&[
                text.crisp_em,
                text.good_em,
                text.readable_em,
            ])
        });
        compare(
            |out, error| unsafe { spotwise_smallest_text(spot, dose, &c_typeface, &c_grades, out, error) },
            model,
        )?;
    }

    #[test]
    fn text_quality(
        spot in near(80e-6),
        em in near(2e-3),
        dose in ratio(),
        (c_typeface, typeface) in typeface(),
        (c_grades, grades) in grades(),
    ) {
        let model = typeface.and_then(|typeface| mark::text_quality(spot, em, dose, typeface, &grades));
        let model = model.map(|quality| {
            Expected::of::<spotwise_text_quality_result>().word(quality.grade as u32).numbers(&[
                quality.stem_exposure,
                quality.least_dose_ratio,
                quality.greatest_dose_ratio,
                quality.greatest_dose_ratio_for_counters,
            ])
        });
        compare(
            |out, error| unsafe { spotwise_text_quality(spot, em, dose, &c_typeface, &c_grades, out, error) },
            model,
        )?;
    }

    #[test]
    fn offset_for_text(
        (c, beam) in beam(),
        em in near(2e-3),
        grade in choice(4),
        dose in ratio(),
        (c_typeface, typeface) in typeface(),
        (c_grades, grades) in grades(),
    ) {
        let model = TextGrade::from_code(grade)
            .and_then(|grade| mark::offset_for_text(&beam, em, grade, dose, typeface?, &grades))
            .map(|found| {
                Expected::of::<spotwise_text_offset>().word(found.validity.bits()).numbers(&[
                    found.offset,
                    found.spot_diameter,
                    found.half_angle,
                ])
            });
        compare(
            |out, error| unsafe {
                spotwise_offset_for_text(&c, em, grade, dose, &c_typeface, &c_grades, out, error)
            },
            model,
        )?;
    }
}
